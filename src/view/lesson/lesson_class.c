/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class answered: of the prediction how many chose what before the run, and what they saw;
 * of every question how many chose each answer. Numbers, words and bars; never who.
 */
#include <stdio.h>

#include "lesson/words.h"
#include "view/lesson/lesson_desk.h"
#include "view/lesson/lesson_words.h"

typedef struct column {
    const sl_desk *desk;
    int x, y, w;
} column;

static void put(column *c, sl_type type, const char *text)
{
    c->y += sl_pen_wrap(&c->desk->pen, type, SL_INK_TEXT, (SDL_Rect){c->x, c->y, c->w, 0}, false, text);
    c->y += sl_pen_px(&c->desk->pen, 5.0);
}

static const char *said(const column *c, sl_said_what what)
{
    return sl_lesson_said(what, sl_desk_language(c->desk));
}

static void put_counts(column *c, int number, sl_bar_pattern pattern)
{
    const sl_lesson *const lesson = c->desk->wish.lesson;
    const sl_class_question *const counts = &c->desk->wish.class_->question[number];
    const sl_question *const question = &lesson->question[number];
    char text[SL_DESK_LINE];
    put(c, SL_TYPE_BODY, question->ask);
    for (int i = 0; i < question->n; i++) {
        const sl_choice *const choice = &question->choice[i];
        snprintf(text, sizeof text, "%d %s %d  %s%s%s%s", counts->chose[i], said(c, SL_SAID_OF),
                 counts->answered, choice->say, choice->right ? " (" : "",
                 choice->right ? said(c, SL_SAID_MARK_RIGHT) : "", choice->right ? ")" : "");
        const double share = counts->answered > 0 ? (double)counts->chose[i] / counts->answered : 0.0;
        c->y = sl_desk_put_bar(c->desk, (SDL_Rect){c->x, c->y, c->w, 0}, text, share, pattern);
        if (counts->chose[i] > 0 && choice->thinks != NULL) {
            snprintf(text, sizeof text, "%s: %s", said(c, SL_SAID_BEHIND), choice->thinks);
            put(c, SL_TYPE_SMALL, text);
        }
    }
    c->y += sl_pen_px(&c->desk->pen, 10.0);
}

static void put_tally(column *c, sl_said_what what, int n)
{
    char text[SL_DESK_LINE];
    snprintf(text, sizeof text, "%s: %d %s %d", said(c, what), n, said(c, SL_SAID_OF),
             c->desk->wish.class_->both);
    put(c, SL_TYPE_BODY, text);
}

/* Who predicted what and then saw what: one line for each pair that somebody chose. */
static void put_changes(column *c)
{
    const sl_lesson *const lesson = c->desk->wish.lesson;
    const sl_class *const class_ = c->desk->wish.class_;
    const sl_question *const before = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const sl_question *const after = &lesson->question[sl_lesson_question(lesson, "saw")];
    char text[SL_DESK_LINE];
    put(c, SL_TYPE_STRONG, said(c, SL_SAID_BEFORE_AFTER));
    put_tally(c, SL_SAID_RIGHT_PREDICTIONS, class_->right_before);
    put_tally(c, SL_SAID_RIGHT_SEEN, class_->right_after);
    for (int p = 0; p < before->n; p++) {
        for (int s = 0; s < after->n; s++) {
            if (class_->change[p][s] > 0) {
                snprintf(text, sizeof text, "%d  %s “%.150s”, %s “%.150s”", class_->change[p][s],
                         said(c, SL_SAID_PREDICTED_THIS), before->choice[p].say, said(c, SL_SAID_SAW_THIS),
                         after->choice[s].say);
                put(c, SL_TYPE_BODY, text);
            }
        }
    }
    c->y += sl_pen_px(&c->desk->pen, 10.0);
}

int sl_desk_put_class(const sl_desk *desk, SDL_Rect area)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const char *const language = sl_desk_language(desk);
    const int before = sl_lesson_question(lesson, "prediction");
    const int after = sl_lesson_question(lesson, "saw");
    const int apart = sl_pen_px(&desk->pen, 24.0);
    const int half = (area.w - apart) / 2;
    column left = {.desk = desk, .x = area.x, .y = area.y, .w = half};
    column right = {.desk = desk, .x = area.x + half + apart, .y = area.y, .w = half};
    put(&left, SL_TYPE_STRONG, sl_shown_word(SL_SHOWN_BEFORE, language));
    put_counts(&left, before, SL_PATTERN_STRIPES);
    put(&right, SL_TYPE_STRONG, sl_shown_word(SL_SHOWN_AFTER, language));
    put_counts(&right, after, SL_PATTERN_SOLID);
    column whole = {.desk = desk, .x = area.x, .y = SDL_max(left.y, right.y), .w = area.w};
    put_changes(&whole);
    for (int i = 0; i < lesson->n_questions; i++) {
        if (i != before && i != after) {
            put_counts(&whole, i, SL_PATTERN_DOTS);
        }
    }
    return whole.y;
}
