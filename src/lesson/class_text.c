/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class answered: a dot for each student or group, the choices for a spreadsheet.
 */
#include "lesson/class_text.h"
#include "base/language.h"
#include "document/say.h"

enum { MOST_DOTS = 40 /* that an eye can count and a line holds */, WORDS = 600 };

static void say_choice(sl_document *document, const sl_class_question *count, const sl_choice *choice, int n)
{
    char text[WORDS];
    snprintf(text, sizeof text, choice->right ? _("%d of %d: %s (right)") : _("%d of %d: %s"), n,
             count->answered, choice->say);
    if (count->answered <= MOST_DOTS) {
        sl_document_dots(document, "", n, count->answered, "%s", text);
    } else {
        sl_document_say(document, "%s", text);
    }
    if (choice->thinks && n > 0) {
        sl_document_row(document, "", _("behind it: %s"), choice->thinks);
    }
}

static void say_question(sl_document *document, const sl_class_question *count, const sl_question *question)
{
    sl_document_part(document, "%s", question->ask);
    if (count->answered == 0) {
        sl_document_say(document, "%s", _("Nobody has answered this."));
        return;
    }
    for (int i = 0; i < question->n; i++) {
        say_choice(document, count, &question->choice[i], count->chose[i]);
    }
}

/* How many went from which prediction to which observation. */
static void say_changes(sl_document *document, const sl_class *class_, const sl_lesson *lesson)
{
    const sl_question *const before = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const sl_question *const after = &lesson->question[sl_lesson_question(lesson, "saw")];
    sl_document_part(document, "%s", _("Before and after"));
    sl_document_say(document, _("Right predictions: %d of %d"), class_->right_before, class_->both);
    sl_document_say(document, _("Right observations: %d of %d"), class_->right_after, class_->both);
    for (int i = 0; i < before->n; i++) {
        for (int j = 0; j < after->n; j++) {
            if (class_->change[i][j] > 0) {
                sl_document_item(document,
                                 sl_plural("%d predicted \"%s\" and saw \"%s\"",
                                           "%d predicted \"%s\" and saw \"%s\"", class_->change[i][j]),
                                 class_->change[i][j], before->choice[i].say, after->choice[j].say);
            }
        }
    }
}

void sl_class_say_lesson(sl_document *document, const sl_class *class_, const sl_lesson *lesson)
{
    sl_document_say(document, _("Students or groups: %d"), class_->n);
    if (class_->n == 0) {
        return;
    }
    say_changes(document, class_, lesson);
    for (int i = 0; i < lesson->n_questions; i++) {
        say_question(document, &class_->question[i], &lesson->question[i]);
    }
}

/* ---- the quiz ------------------------------------------------------------------------------------ */

static void say_gain(sl_document *document, const sl_quiz_class *class_)
{
    double gain = 0.0;
    sl_document_say(document, _("Mean before: %.0f %%. Mean after: %.0f %%."), class_->pre_pct,
                    class_->post_pct);
    if (sl_normalised_gain(class_->pre_pct, class_->post_pct, &gain)) {
        sl_document_say(document, _("Class gain: %.2f = (after - before) / (100 - before); Hake 1998"), gain);
    } else {
        sl_document_say(document, "%s", _("No class gain: everything was right before."));
    }
}

static void say_quiz(sl_document *document, const sl_quiz_class *class_, const sl_quiz *quiz)
{
    static const sl_text_column columns[] = {
        {N_("question"), 3.0, 0}, {N_("right before"), 1.0, SL_RIGHT}, {N_("right after"), 1.0, SL_RIGHT}};
    char text[WORDS];
    snprintf(text, sizeof text, _("Quiz: %s"), quiz->title);
    sl_document_heading(document, text);
    sl_document_say(document, _("Taken before: %d. Taken after: %d. Taken both times: %d."), class_->n_before,
                    class_->n_after, class_->n_both);
    if (class_->n_both > 0) {
        sl_document_table(document, _("Of those who took it both times"), 3, columns, 0.0);
        for (int i = 0; i < quiz->n_items; i++) {
            sl_document_cell(document, "%s", quiz->item[i].name);
            sl_document_cell(document, "%d", class_->item_before[i]);
            sl_document_cell(document, "%d", class_->item_after[i]);
        }
        say_gain(document, class_);
    }
    for (int i = 0; i < quiz->note.n; i++) {
        sl_document_row(document, _("note"), "%s", quiz->note.paragraph[i]);
    }
}

/* ---- all of it ----------------------------------------------------------------------------------- */

void sl_class_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_class_report *const report = of;
    sl_document_begin(document, "class", _("What the class answered"), error);
    for (size_t i = 0; i < report->n; i++) {
        const sl_class_lesson *const of_one = &report->lesson[i];
        char text[WORDS];
        snprintf(text, sizeof text, _("Lesson %d: %s"), of_one->lesson->number, of_one->lesson->title);
        sl_document_heading(document, text);
        sl_class_say_lesson(document, &of_one->class_, of_one->lesson);
    }
    if (report->quiz) {
        say_quiz(document, &report->taken, report->quiz);
    }
    sl_document_end(document, SL_ON_NOTHING);
}

enum { ROWS = SL_MOST_QUESTIONS * SL_MOST_CHOICES }; /* that a lesson can have */

#define CHOICE(SAY)                                                                                          \
    SAY(let, const long at = table->place % ROWS)                                                            \
    SAY(let, const long c = at % SL_MOST_CHOICES)                                                            \
    SAY(end, (size_t)(table->place / ROWS) == report->n)                                                     \
    SAY(let, const sl_class_lesson *const of = &report->lesson[table->place / ROWS])                         \
    SAY(let, const sl_question *const question = &of->lesson->question[at / SL_MOST_CHOICES])                \
    SAY(skip, at / SL_MOST_CHOICES >= of->lesson->n_questions || c >= question->n)                           \
    SAY(text, "lesson", of->lesson->name)                                                                    \
    SAY(text, "question", question->key)                                                                     \
    SAY(text, "choice", question->choice[c].say)                                                             \
    SAY(text, "right", question->choice[c].right ? "yes" : "no")                                             \
    SAY(number, "students", of->class_.question[at / SL_MOST_CHOICES].chose[c])
SL_TABLE(choices, CHOICE, sl_class_report, report);

const sl_export sl_class_export = {"class", 1, NULL, &choices};
