/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The text of a step, from top to bottom: what is read, the question with its answers, the
 * feedback; and the pages of keys and notes.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "lesson/words.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/lesson/lesson_desk.h"
#include "view/lesson/lesson_words.h"
#include "view/window/layout.h"

typedef struct column {
    sl_desk *desk;
    const sl_pen *pen;
    int x, y, w;
} column;

static const char *said(const column *c, sl_said_what what)
{
    return sl_lesson_said(what, sl_desk_language(c->desk));
}

static const char *shown(const column *c, sl_shown what)
{
    return sl_shown_word(what, sl_desk_language(c->desk));
}

static void gap(column *c, double units)
{
    c->y += sl_pen_px(c->pen, units);
}

static void put(column *c, sl_type type, sl_role ink, const char *text)
{
    c->y += sl_pen_wrap(c->pen, type, ink, (SDL_Rect){c->x, c->y, c->w, 0}, false, text);
    gap(c, 6.0);
}

static void put_passage(column *c, const sl_passage *passage)
{
    for (int i = 0; i < passage->n; i++) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, passage->paragraph[i]);
    }
}

static void put_cautions(column *c)
{
    const sl_lesson *const lesson = c->desk->wish.lesson;
    char text[SL_DESK_LINE * 2];
    for (int i = 0; i < lesson->n_cautions; i++) {
        const sl_caution *const caution = sl_caution_text(lesson->caution[i]);
        snprintf(text, sizeof text, "%s: %s", _(caution->signal), _(caution->text));
        put(c, SL_TYPE_BODY, SL_INK_TEXT, text);
    }
}

/* ---- the question ------------------------------------------------------------------------------ */

/* The number in a box, the words beside it; the given answer is dark and says so. */
static void put_choice(column *c, const sl_question *question, int i, bool given)
{
    const sl_pen *const pen = c->pen;
    const int pad = sl_pen_px(pen, 5.0);
    const int box = sl_text_line_height(pen->text, SL_TYPE_STRONG) + pad;
    const int words_w = c->w - box - 3 * pad;
    const sl_role ink = given ? SL_INK_LIGHT : SL_INK_TEXT;
    char text[SL_DESK_LINE];
    char number[16];
    snprintf(text, sizeof text, "%s%s%s%s", question->choice[i].say, given ? "  (" : "",
             given ? shown(c, SL_SHOWN_YOUR_ANSWER) : "", given ? ")" : "");
    snprintf(number, sizeof number, "%d", i + 1);
    const int words_h = sl_pen_size(pen, SL_TYPE_BODY, ink, words_w, text).y;
    const int high = SDL_max(SDL_max(words_h, box) + 2 * pad, sl_pen_px(pen, SL_TARGET));
    const SDL_Rect row = {c->x, c->y, c->w, high};
    const SDL_Rect square = {row.x + pad, row.y + (high - box) / 2, box, box};
    if (i < SL_DESK_CHOICES) {
        c->desk->choice[i] = row;
        c->desk->n_choices = i + 1;
    }
    sl_pen_fill(pen, row, given ? SL_GROUND_DARK : SL_GROUND_SHEET);
    sl_pen_frame(pen, row, sl_pen_px(pen, given ? 2.0 : 1.0), SL_MARK_CONTROL);
    sl_pen_frame(pen, square, 1, given ? SL_INK_LIGHT : SL_MARK_CONTROL);
    sl_pen_place(pen, SL_TYPE_STRONG, ink, square, SL_ALIGN_CENTRE, number);
    sl_pen_wrap(pen, SL_TYPE_BODY, ink,
                (SDL_Rect){square.x + box + pad, row.y + (high - words_h) / 2, words_w, 0}, false, text);
    c->y += row.h + sl_pen_px(pen, 5.0);
}

static void put_feedback(column *c, const sl_question *question, int answered)
{
    const char *const feedback = sl_session_feedback(&c->desk->session);
    gap(c, 4.0);
    if (feedback == NULL) {
        put(c, SL_TYPE_STRONG, SL_INK_TEXT, said(c, SL_SAID_KEPT));
        return;
    }
    put(c, SL_TYPE_STRONG, SL_INK_TEXT,
        said(c, answered == question->right ? SL_SAID_RIGHT : SL_SAID_NOT_RIGHT));
    put(c, SL_TYPE_BODY, SL_INK_TEXT, feedback);
}

static void put_question(column *c)
{
    const sl_question *const question = sl_session_question(&c->desk->session);
    const int answered = sl_session_answered(&c->desk->session);
    if (question == NULL) {
        return;
    }
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, question->ask);
    gap(c, 2.0);
    for (int i = 0; i < question->n; i++) {
        put_choice(c, question, i, i == answered);
    }
    if (answered != SL_NO_ANSWER) {
        put_feedback(c, question, answered);
    }
}

/* ---- steps ----------------------------------------------------------------------------------------- */

static void put_predicted(column *c)
{
    const sl_choice *const predicted = sl_session_predicted(&c->desk->session);
    char text[SL_DESK_LINE];
    if (predicted == NULL) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, said(c, SL_SAID_NO_PREDICTION));
        return;
    }
    snprintf(text, sizeof text, "%s: %s", said(c, SL_SAID_PREDICTED), predicted->say);
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, text);
    c->y = sl_desk_put_compared(c->desk, (SDL_Rect){c->x, c->y, c->w, 0});
    put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, predicted->right ? SL_SHOWN_AGREE : SL_SHOWN_DIFFER));
}

static void put_run(column *c)
{
    const sl_desk *const desk = c->desk;
    const sl_lesson *const lesson = desk->wish.lesson;
    char text[SL_DESK_LINE];
    if (desk->stop == 0 && !desk->running) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, SL_SHOWN_BEFORE_RUN));
    }
    for (int i = 0; i < lesson->run.n_stops; i++) {
        const bool here = i == desk->stop - 1;
        snprintf(text, sizeof text, "%s %s %d %s %d: %s %s", i < desk->stop ? "■" : "□",
                 shown(c, SL_SHOWN_STOP), i + 1, said(c, SL_SAID_OF), lesson->run.n_stops,
                 said(c, SL_SAID_AFTER), lesson->numbers[lesson->run.stop[i]].text);
        put(c, here ? SL_TYPE_STRONG : SL_TYPE_BODY, SL_INK_TEXT, text);
    }
    gap(c, 8.0);
    if (desk->stop == lesson->run.n_stops) {
        put_predicted(c);
    }
}

/* Feedback that had to wait for the run. */
static void put_waited(column *c)
{
    static const char *const keys[] = {"prediction", "reason"};
    static const sl_page_kind kinds[] = {SL_PAGE_PREDICTION, SL_PAGE_REASON};
    const sl_lesson *const lesson = c->desk->wish.lesson;
    char text[SL_DESK_LINE];
    for (int k = 0; k < 2; k++) {
        const sl_question *const question = &lesson->question[sl_lesson_question(lesson, keys[k])];
        const int choice = sl_record_choice(c->desk->session.record, keys[k]);
        if (choice < 0 || choice >= question->n) {
            continue;
        }
        snprintf(text, sizeof text, "%s: %s", sl_page_word(kinds[k], sl_desk_language(c->desk)),
                 question->choice[choice].say);
        put(c, SL_TYPE_STRONG, SL_INK_TEXT, text);
        put(c, SL_TYPE_BODY, SL_INK_TEXT, question->choice[choice].reply);
    }
}

static void put_end(column *c)
{
    const sl_desk *const desk = c->desk;
    char text[SL_DESK_LINE];
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, said(c, SL_SAID_LAST));
    put_predicted(c);
    if (desk->wish.path == NULL) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, SL_SHOWN_NOT_KEPT));
    } else if (!desk->unsaved) {
        snprintf(text, sizeof text, "%s %.400s", said(c, SL_SAID_SAVED), desk->wish.path);
        put(c, SL_TYPE_BODY, SL_INK_TEXT, text);
    }
}

static void put_step(column *c)
{
    const sl_lesson *const lesson = c->desk->wish.lesson;
    switch (sl_session_page(&c->desk->session)->kind) {
    case SL_PAGE_OBJECTIVE:
        put_passage(c, &lesson->objective);
        break;
    case SL_PAGE_CASES:
        put_passage(c, &lesson->cases.text);
        break;
    case SL_PAGE_RUN:
        put_run(c);
        break;
    case SL_PAGE_SAW:
        put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, SL_SHOWN_STRIPS_STAY));
        break;
    case SL_PAGE_EXPLAIN:
        put_waited(c);
        put_passage(c, &lesson->explain);
        break;
    case SL_PAGE_SWATCH:
        put_passage(c, &lesson->swatch);
        put_cautions(c);
        break;
    case SL_PAGE_END:
        put_end(c);
        break;
    case SL_PAGE_RECALL:
    case SL_PAGE_PREDICTION:
    case SL_PAGE_REASON:
    case SL_PAGE_TRANSFER:
    case SL_PAGE_EXIT:
    case SL_PAGE_KINDS:
        break;
    }
    put_question(c);
}

/* ---- pages over a step ------------------------------------------------------------------------------ */

static void put_keys(column *c)
{
    static const sl_shown lines[] = {SL_SHOWN_HELP_ANSWER, SL_SHOWN_HELP_ON, SL_SHOWN_HELP_READ,
                                     SL_SHOWN_HELP_LOOK, SL_SHOWN_HELP_LEAVE};
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, shown(c, SL_SHOWN_KEYS));
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, lines[i]));
    }
    if (c->desk->wish.educator) {
        put(c, SL_TYPE_BODY, SL_INK_TEXT, shown(c, SL_SHOWN_HELP_EDUCATOR));
    }
}

static void put_notes(column *c)
{
    const sl_lesson *const lesson = c->desk->wish.lesson;
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, said(c, SL_SAID_NOTES));
    put_passage(c, &lesson->misconception);
    put_passage(c, &lesson->teacher);
    for (int i = 0; i < lesson->n_outcomes; i++) {
        char text[SL_DESK_LINE];
        snprintf(text, sizeof text, "– %s", lesson->outcome[i]);
        put(c, SL_TYPE_BODY, SL_INK_TEXT, text);
    }
    put(c, SL_TYPE_STRONG, SL_INK_TEXT, said(c, SL_SAID_CAUTION));
    put_cautions(c);
}

int sl_desk_put_text(sl_desk *desk, SDL_Rect area)
{
    desk->n_choices = 0;
    column c = {.desk = desk, .pen = &desk->pen, .x = area.x, .y = area.y, .w = area.w};
    if (desk->over == SL_OVER_KEYS) {
        put_keys(&c);
    } else if (desk->over == SL_OVER_NOTES) {
        put_notes(&c);
    } else {
        put_step(&c);
    }
    return c.y;
}
