/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class answered in one lesson: how many chose what, and what became of the predictions.
 * No student stands in it.
 */
#include <string.h>

#include "slowlift/lesson.h"

void sl_class_start(sl_class *class_)
{
    *class_ = (sl_class){.n = 0};
}

static int chosen(const sl_lesson *lesson, const sl_record *record, const char *key)
{
    const int question = sl_lesson_question(lesson, key);
    const int choice = sl_record_choice(record, key);
    return question >= 0 && choice >= 0 && choice < lesson->question[question].n ? choice : SL_NO_ANSWER;
}

static bool is_right(const sl_lesson *lesson, const char *key, int choice)
{
    return lesson->question[sl_lesson_question(lesson, key)].right == choice;
}

bool sl_class_add(sl_class *class_, const sl_lesson *lesson, const sl_record *record)
{
    if (strcmp(record->lesson, lesson->name) != 0 || record->edition != lesson->edition) {
        return false;
    }
    class_->n++;
    for (int i = 0; i < lesson->n_questions; i++) {
        const int choice = chosen(lesson, record, lesson->question[i].key);
        if (choice != SL_NO_ANSWER) {
            class_->question[i].answered++;
            class_->question[i].chose[choice]++;
        }
    }
    const int before = chosen(lesson, record, "prediction"), after = chosen(lesson, record, "saw");
    if (before != SL_NO_ANSWER && after != SL_NO_ANSWER) {
        class_->both++;
        class_->change[before][after]++;
        class_->right_before += is_right(lesson, "prediction", before) ? 1 : 0;
        class_->right_after += is_right(lesson, "saw", after) ? 1 : 0;
    }
    return true;
}

static void put_bar(FILE *out, int n)
{
    for (int i = 0; i < n; i++) {
        fputc('#', out);
    }
    fputc('\n', out);
}

static void put_question(FILE *out, const sl_class_question *count, const sl_question *question)
{
    fprintf(out, "\n%s (%d answered): %s\n", question->key, count->answered, question->ask);
    for (int i = 0; i < question->n; i++) {
        const sl_choice *const choice = &question->choice[i];
        fprintf(out, "  %d  %s%s ", count->chose[i], choice->say, choice->right ? " (right)" : "");
        put_bar(out, count->chose[i]);
        if (choice->thinks && count->chose[i] > 0) {
            fprintf(out, "     behind it: %s\n", choice->thinks);
        }
    }
}

/* How many went from which prediction to which observation. */
static void put_changes(FILE *out, const sl_class *class_, const sl_lesson *lesson)
{
    const sl_question *const before = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const sl_question *const after = &lesson->question[sl_lesson_question(lesson, "saw")];
    fprintf(out, "\nBefore and after, of %d: right prediction %d, right observation %d.\n", class_->both,
            class_->right_before, class_->right_after);
    for (int i = 0; i < before->n; i++) {
        for (int j = 0; j < after->n; j++) {
            if (class_->change[i][j] > 0) {
                fprintf(out, "  %d  predicted \"%s\", saw \"%s\"\n", class_->change[i][j],
                        before->choice[i].say, after->choice[j].say);
            }
        }
    }
}

bool sl_class_table(FILE *out, const sl_class *class_, const sl_lesson *lesson)
{
    fprintf(out, "Lesson %d: %s\nStudents or groups: %d\n", lesson->number, lesson->title, class_->n);
    for (int i = 0; class_->n > 0 && i < lesson->n_questions; i++) {
        put_question(out, &class_->question[i], &lesson->question[i]);
    }
    if (class_->n > 0) {
        put_changes(out, class_, lesson);
    }
    return ferror(out) == 0;
}

/* A field in quotation marks, those within it doubled (RFC 4180). */
static void put_field(FILE *out, const char *text)
{
    fputc('"', out);
    for (; *text; text++) {
        if (*text == '"') {
            fputc('"', out);
        }
        fputc(*text, out);
    }
    fputc('"', out);
}

bool sl_class_csv(FILE *out, const sl_class *class_, const sl_lesson *lesson)
{
    for (int i = 0; i < lesson->n_questions; i++) {
        const sl_question *const question = &lesson->question[i];
        for (int c = 0; c < question->n; c++) {
            fprintf(out, "%s,%s,", lesson->name, question->key);
            put_field(out, question->choice[c].say);
            fprintf(out, ",%s,%d\n", question->choice[c].right ? "yes" : "no", class_->question[i].chose[c]);
        }
    }
    return ferror(out) == 0;
}
