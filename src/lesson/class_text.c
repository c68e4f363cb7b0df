/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table, the chart of # marks and the CSV of a class. No student stands in them.
 */
#include "report/text.h"
#include "slowlift/lesson.h"

/* A mark for each student or group. */
static void put_bar(FILE *out, int n)
{
    fputs(n > 0 ? "  " : "", out);
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
        fprintf(out, "  %d  %s%s", count->chose[i], choice->say, choice->right ? " (right)" : "");
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

bool sl_class_csv(FILE *out, const sl_class *class_, const sl_lesson *lesson, bool head)
{
    if (head) {
        fputs("lesson,question,choice,right,students\n", out);
    }
    for (int i = 0; i < lesson->n_questions; i++) {
        const sl_question *const question = &lesson->question[i];
        for (int c = 0; c < question->n; c++) {
            fprintf(out, "%s,%s,", lesson->name, question->key);
            sl_csv_name(out, question->choice[c].say);
            fprintf(out, ",%s,%d\n", question->choice[c].right ? "yes" : "no", class_->question[i].chose[c]);
        }
    }
    return ferror(out) == 0;
}

bool sl_quiz_class_table(FILE *out, const sl_quiz_class *class_, const sl_quiz *quiz)
{
    double gain = 0.0;
    fprintf(out, "Quiz: %s\n", quiz->title);
    fprintf(out, "Taken before: %d. After: %d. Both: %d; the figures below are of these.\n", class_->n_before,
            class_->n_after, class_->n_both);
    for (int i = 0; class_->n_both > 0 && i < quiz->n_items; i++) {
        fprintf(out, "  %s: right before %d, after %d, of %d\n", quiz->item[i].name, class_->item_before[i],
                class_->item_after[i], class_->n_both);
    }
    if (class_->n_both > 0) {
        fprintf(out, "Mean before %.0f %%, after %.0f %%.\n", class_->pre_pct, class_->post_pct);
        if (sl_normalised_gain(class_->pre_pct, class_->post_pct, &gain)) {
            fprintf(out, "Class gain %.2f = (after - before) / (100 - before); Hake 1998.\n", gain);
        } else {
            fputs("No class gain: everything was right before.\n", out);
        }
    }
    for (int i = 0; i < quiz->note.n; i++) {
        fprintf(out, "Note: %s\n", quiz->note.paragraph[i]);
    }
    return ferror(out) == 0;
}
