/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two rows: goal (stripes, triangle) and stop (dots, post), each with its words; apart from them what shows
 * that waiting buys nothing: mix spent, mix dried. Where a row has room left stand the words of the strip's
 * times, of those, and of how many model runs were counted.
 */
#include "view/strips/marks.h"

#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/limits/limits.h"
#include "view/strips/ruler.h"

enum { ROWS = 2, LINE = 200 };

/* What is taken of a row, from pixel to pixel. */
typedef struct span {
    int from, to;
} span;

static int x_of(const sl_marks_look *look, double minute)
{
    return sl_ruler_x(look->area, look->until_min, look->contact_min + minute);
}

/* From P10 to P90; to the end of the scene where P90 lies behind it. Returns its right end. */
static int draw_bar(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, sl_three minutes,
                    sl_bar_pattern pattern)
{
    const int right = look->area.x + look->area.w;
    if (minutes.p10 < 0.0) {
        return look->area.x;
    }
    const int from = x_of(look, minutes.p10);
    const int to = minutes.p90 >= 0.0 ? x_of(look, minutes.p90) : right;
    const SDL_Rect bar = {from, row.y + row.h / 4, SDL_max(to - from, sl_pen_px(pen, 2.0)), row.h / 2};
    sl_pen_pattern(pen, bar, pattern, SL_MARK_CONTROL);
    sl_pen_frame(pen, bar, 1, SL_MARK_CONTROL);
    return bar.x + bar.w;
}

/* Beside what was drawn from `from` to `to`: at its right, or its left, or at the row's start. */
static span put_words(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, int from, int to,
                      const char *text)
{
    const int w = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text).x;
    const int gap = sl_pen_px(pen, 8.0);
    const int right = look->area.x + look->area.w;
    span taken = {from, to};
    if (!look->words) {
        return taken;
    }
    if (to + gap + w <= right) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){to + gap, row.y, w, row.h}, SL_ALIGN_LEFT,
                     text);
        taken.to = to + gap + w;
    } else if (from - gap - w >= look->area.x) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){from - gap - w, row.y, w, row.h},
                     SL_ALIGN_LEFT, text);
        taken.from = from - gap - w;
    } else { /* over the bar, on a plate of its own */
        taken.from = look->area.x;
        const SDL_Rect plate = {look->area.x, row.y, SDL_min(w + gap, look->area.w), row.h};
        sl_pen_fill(pen, plate, SL_GROUND_FRAME);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, plate, SL_ALIGN_LEFT, text);
    }
    return taken;
}

/* Where a row has room, from the right end of the last row on; nowhere where none has. */
static void put_apart(const sl_pen *pen, const sl_marks_look *look, const SDL_Rect row[ROWS],
                      span taken[ROWS], const char *text)
{
    const int w = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_QUIET, 0, text).x;
    const int gap = sl_pen_px(pen, 14.0);
    const int left = look->area.x, right = look->area.x + look->area.w;
    if (!look->words || w == 0) {
        return;
    }
    for (int i = ROWS - 1; i >= 0; i--) {
        const bool after = taken[i].to + gap + w <= right;
        if (after || taken[i].from - gap - w >= left) {
            const int x = after ? right - w : left;
            sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, (SDL_Rect){x, row[i].y, w, row[i].h},
                         SL_ALIGN_LEFT, text);
            taken[i] = after ? (span){taken[i].from, right} : (span){left, taken[i].to};
            return;
        }
    }
}

static span draw_goal(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
{
    const sl_limits *l = look->limits;
    char text[LINE];
    snprintf(text, sizeof text, "%s", _("goal"));
    int from = look->area.x;
    int to = look->area.x;
    if (look->answer != NULL && look->answer->minutes) {
        char range[96];
        to = draw_bar(pen, look, row, look->answer->early, SL_PATTERN_STRIPES);
        const double last = sl_leave_last_min(&look->answer->leave);
        from = look->answer->early.p10 >= 0.0 ? x_of(look, look->answer->early.p10) : from;
        sl_three_words(look->answer->early, look->answer->cut, last, range, sizeof range);
        snprintf(text, sizeof text, _("goal: %s"), range);
    }
    if (l->early_reached && look->central) {
        const int x = x_of(look, l->early_min);
        const int half = row.h * 5 / 8;
        sl_pen_fill(pen, (SDL_Rect){x - half, row.y + 1, 2 * half + 1, row.h - 1}, SL_GROUND_FRAME);
        sl_pen_triangle(pen, x, row.y + row.h - 1, row.h - 2, true, SL_MARK_CONTROL);
        from = from > look->area.x ? SDL_min(from, x) : x;
        to = SDL_max(to, x + half);
    } else if (look->answer == NULL) {
        snprintf(text, sizeof text, _("goal: not in this scene"));
    }
    return put_words(pen, look, row, from, to, text);
}

static span draw_stop(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
{
    const sl_limits *l = look->limits;
    const int x = x_of(look, l->stop_min[l->stop]);
    const int thick = sl_pen_px(pen, 4.0);
    const bool counted = look->answer != NULL && look->answer->minutes;
    char text[LINE];
    int from = x - thick;
    int to = x + thick;
    snprintf(text, sizeof text, _("stop: %s"), _(sl_stop_word(l->stop)));
    if (counted) {
        char range[96];
        const sl_three late = look->answer->late;
        to = SDL_max(to, draw_bar(pen, look, row, late, SL_PATTERN_DOTS));
        from = late.p10 >= 0.0 ? SDL_min(from, x_of(look, late.p10)) : from;
        sl_three_words(late, false, sl_leave_last_min(&look->answer->leave), range, sizeof range);
        snprintf(text, sizeof text, _("stop: %s, %s"), range, _(sl_stop_word(look->answer->stop)));
    }
    if (look->central) {
        sl_pen_fill(pen, (SDL_Rect){x - thick / 2 - 1, row.y, thick + 2, row.h}, SL_GROUND_FRAME);
        sl_pen_fill(pen, (SDL_Rect){x - thick / 2, row.y, thick, row.h}, SL_MARK_CONTROL);
    }
    return put_words(pen, look, row, from, to, text);
}

/* A square, dotted once the mix is dry. */
static span draw_idle(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, double minute, bool dried)
{
    const int x = x_of(look, minute);
    const int side = SDL_max(row.h / 2, 5);
    const SDL_Rect box = {x - side / 2, row.y + (row.h - side) / 2, side, side};
    sl_pen_fill(pen, box, SL_GROUND_FRAME);
    sl_pen_frame(pen, box, sl_pen_px(pen, 1.5), SL_MARK_CONTROL);
    if (dried) {
        sl_pen_pattern(pen, box, SL_PATTERN_DOTS, SL_MARK_CONTROL);
    }
    return (span){box.x, box.x + box.w};
}

/* The label's time through all rows. */
static void draw_label(const sl_pen *pen, const sl_marks_look *look, SDL_Rect last)
{
    const SDL_Rect a = look->area;
    const int x = x_of(look, look->label_min);
    const int dash = sl_pen_px(pen, 3.0);
    for (int y = a.y; y < a.y + a.h; y += 2 * dash) {
        sl_pen_fill(pen, (SDL_Rect){x - dash / 3, y, SDL_max(2, dash * 2 / 3), dash}, SL_MARK_CONTROL);
    }
    if (look->words) {
        const SDL_Rect words = {x + dash * 2, last.y, sl_pen_px(pen, 90.0), last.h};
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, words, SL_ALIGN_LEFT, _("label ends"));
    }
}

static span wider(span one, span two)
{
    return (span){SDL_min(one.from, two.from), SDL_max(one.to, two.to)};
}

/* In the stop's row, where waiting on would end anyway. */
static span draw_apart(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, span taken)
{
    const sl_limits *const l = look->limits;
    if (l->spent) {
        taken = wider(taken, draw_idle(pen, look, row, l->spent_min, false));
    }
    if (l->dried) {
        taken = wider(taken, draw_idle(pen, look, row, l->dried_min, true));
    }
    return taken;
}

static void put_all_apart(const sl_pen *pen, const sl_marks_look *look, const SDL_Rect row[ROWS],
                          span taken[ROWS])
{
    const sl_limits *const l = look->limits;
    char text[LINE];
    if (look->members > 0) {
        snprintf(text, sizeof text, _("bars: 8 of 10, from %ld model runs"), look->members);
        put_apart(pen, look, row, taken, text);
    }
    if (l->spent || l->dried) {
        put_apart(pen, look, row, taken,
                  l->spent && l->dried ? _("mix spent, then dry: waiting buys nothing")
                  : l->spent           ? _("mix spent: waiting buys nothing")
                                       : _("mix dry: waiting buys nothing"));
    }
    put_apart(pen, look, row, taken, look->times);
}

void sl_marks_draw(const sl_pen *pen, const sl_marks_look *look)
{
    SDL_Rect row[ROWS];
    span taken[ROWS];
    const int lead = 1;
    for (int i = 0; i < ROWS; i++) {
        const int top = lead + i * (look->area.h - lead) / ROWS;
        row[i] = (SDL_Rect){look->area.x, look->area.y + top, look->area.w,
                            lead + (i + 1) * (look->area.h - lead) / ROWS - top};
    }
    sl_pen_fill(pen, (SDL_Rect){look->area.x, look->area.y, look->area.w, 1}, SL_MARK_GRID);
    if (look->label_min >= 0.0) {
        draw_label(pen, look, row[ROWS - 1]);
    }
    taken[0] = draw_goal(pen, look, row[0]);
    taken[1] = draw_stop(pen, look, row[1]);
    if (look->words) {
        taken[1] = draw_apart(pen, look, row[1], taken[1]);
        put_all_apart(pen, look, row, taken);
    }
}
