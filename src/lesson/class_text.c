/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table, the chart of # marks and the CSV of a class. No student stands in them.
 */
#include "lesson/class_text.h"
#include "base/language.h"
#include "document/say.h"
#include "lesson/words.h"
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

static void put_question(FILE *out, const sl_class_question *count, const sl_question *question,
                         const char *language)
{
    fprintf(out, "\n%s (%d %s): %s\n", question->key, count->answered,
            sl_lesson_said(SL_SAID_ANSWERED, language), question->ask);
    for (int i = 0; i < question->n; i++) {
        const sl_choice *const choice = &question->choice[i];
        fprintf(out, "  %d  %s", count->chose[i], choice->say);
        if (choice->right) {
            fprintf(out, " (%s)", sl_lesson_said(SL_SAID_MARK_RIGHT, language));
        }
        put_bar(out, count->chose[i]);
        if (choice->thinks && count->chose[i] > 0) {
            fprintf(out, "     %s: %s\n", sl_lesson_said(SL_SAID_BEHIND, language), choice->thinks);
        }
    }
}

/* How many went from which prediction to which observation. */
static void put_changes(FILE *out, const sl_class *class_, const sl_lesson *lesson)
{
    const char *const language = lesson->language;
    const sl_question *const before = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const sl_question *const after = &lesson->question[sl_lesson_question(lesson, "saw")];
    fprintf(out, "\n%s\n", sl_lesson_said(SL_SAID_BEFORE_AFTER, language));
    fprintf(out, "  %s: %d %s %d\n", sl_lesson_said(SL_SAID_RIGHT_PREDICTIONS, language),
            class_->right_before, sl_lesson_said(SL_SAID_OF, language), class_->both);
    fprintf(out, "  %s: %d %s %d\n", sl_lesson_said(SL_SAID_RIGHT_SEEN, language), class_->right_after,
            sl_lesson_said(SL_SAID_OF, language), class_->both);
    for (int i = 0; i < before->n; i++) {
        for (int j = 0; j < after->n; j++) {
            if (class_->change[i][j] > 0) {
                fprintf(out, "  %d  %s \"%s\", %s \"%s\"\n", class_->change[i][j],
                        sl_lesson_said(SL_SAID_PREDICTED_THIS, language), before->choice[i].say,
                        sl_lesson_said(SL_SAID_SAW_THIS, language), after->choice[j].say);
            }
        }
    }
}

bool sl_class_table(FILE *out, const sl_class *class_, const sl_lesson *lesson)
{
    fprintf(out, "%s %d: %s\n", sl_lesson_said(SL_SAID_LESSON, lesson->language), lesson->number,
            lesson->title);
    fprintf(out, "%s: %d\n", sl_lesson_said(SL_SAID_GROUPS, lesson->language), class_->n);
    for (int i = 0; class_->n > 0 && i < lesson->n_questions; i++) {
        put_question(out, &class_->question[i], &lesson->question[i], lesson->language);
    }
    if (class_->n > 0) {
        put_changes(out, class_, lesson);
    }
    return ferror(out) == 0;
}

typedef struct sl_class_page {
    const sl_class *class_;
    const sl_lesson *lesson;
} sl_class_page;

#define CHOICE(SAY)                                                                                          \
    SAY(let, const long at = table->place / SL_MOST_CHOICES)                                                 \
    SAY(let, const long c = table->place % SL_MOST_CHOICES)                                                  \
    SAY(end, at == page->lesson->n_questions)                                                                \
    SAY(let, const sl_question *const question = &page->lesson->question[at])                                \
    SAY(skip, c >= question->n)                                                                              \
    SAY(text, "lesson", page->lesson->name)                                                                  \
    SAY(text, "question", question->key)                                                                     \
    SAY(text, "choice", question->choice[c].say)                                                             \
    SAY(text, "right", question->choice[c].right ? "yes" : "no")                                             \
    SAY(number, "students", page->class_->question[at].chose[c])
SL_TABLE(choices, CHOICE, sl_class_page, page);

const sl_export sl_class_export = {"class", 1, NULL, &choices};

bool sl_class_csv(FILE *out, const sl_class *class_, const sl_lesson *lesson, bool head)
{
    const sl_class_page page = {class_, lesson};
    if (head) {
        sl_csv_put_head(out, &choices);
    }
    return sl_csv_put_rows(out, &choices, &page);
}

/* ---- the quiz ------------------------------------------------------------------------------------ */

static void put_gain(FILE *out, const sl_quiz_class *class_, const char *language)
{
    double gain = 0.0;
    fprintf(out, "%s: %.0f %%. %s: %.0f %%.\n", sl_lesson_said(SL_SAID_MEAN_BEFORE, language),
            class_->pre_pct, sl_lesson_said(SL_SAID_MEAN_AFTER, language), class_->post_pct);
    if (sl_normalised_gain(class_->pre_pct, class_->post_pct, &gain)) {
        fprintf(out, "%s: %.2f = %s\n", sl_lesson_said(SL_SAID_GAIN, language), gain,
                sl_lesson_said(SL_SAID_GAIN_FORMULA, language));
    } else {
        fprintf(out, "%s\n", sl_lesson_said(SL_SAID_NO_GAIN, language));
    }
}

bool sl_quiz_class_table(FILE *out, const sl_quiz_class *class_, const sl_quiz *quiz)
{
    const char *const language = quiz->language;
    fprintf(out, "%s: %s\n", sl_lesson_said(SL_SAID_QUIZ, language), quiz->title);
    fprintf(out, "%s: %d\n%s: %d\n%s: %d\n", sl_lesson_said(SL_SAID_TAKEN_BEFORE, language), class_->n_before,
            sl_lesson_said(SL_SAID_TAKEN_AFTER, language), class_->n_after,
            sl_lesson_said(SL_SAID_TAKEN_BOTH, language), class_->n_both);
    for (int i = 0; class_->n_both > 0 && i < quiz->n_items; i++) {
        fprintf(out, "  %s: %s %d, %s %d\n", quiz->item[i].name,
                sl_lesson_said(SL_SAID_RIGHT_BEFORE, language), class_->item_before[i],
                sl_lesson_said(SL_SAID_RIGHT_AFTER, language), class_->item_after[i]);
    }
    if (class_->n_both > 0) {
        put_gain(out, class_, language);
    }
    for (int i = 0; i < quiz->note.n; i++) {
        fprintf(out, "%s: %s\n", sl_lesson_said(SL_SAID_NOTE, language), quiz->note.paragraph[i]);
    }
    return ferror(out) == 0;
}
