/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Three rows: goal (stripes, triangle), stop (dots, post), and what is shown apart because
 * waiting buys nothing: mix spent, mix dried. Each row has its word.
 */
#include "view/strips/marks.h"

#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/limits/limits.h"
#include "view/strips/ruler.h"

enum { ROWS = 3, LINE = 200 };

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
static void put_words(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, int from, int to,
                      const char *text)
{
    const int w = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text).x;
    const int gap = sl_pen_px(pen, 8.0);
    const int right = look->area.x + look->area.w;
    if (!look->words) {
        return;
    }
    if (to + gap + w <= right) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){to + gap, row.y, w, row.h}, SL_ALIGN_LEFT,
                     text);
    } else if (from - gap - w >= look->area.x) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){from - gap - w, row.y, w, row.h},
                     SL_ALIGN_LEFT, text);
    } else { /* over the bar, on a plate of its own */
        const SDL_Rect plate = {look->area.x, row.y, SDL_min(w + gap, look->area.w), row.h};
        sl_pen_fill(pen, plate, SL_GROUND_FRAME);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, plate, SL_ALIGN_LEFT, text);
    }
}

static void draw_goal(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
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
    put_words(pen, look, row, from, to, text);
}

static void draw_stop(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
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
    put_words(pen, look, row, from, to, text);
}

/* From the moment on to the strip's stop: a thin line with a ring (spent) or a square (dried). */
static int draw_idle(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row, double minute, bool dried)
{
    const int x = x_of(look, minute);
    const int side = SDL_max(row.h / 2, 5);
    const SDL_Rect box = {x - side / 2, row.y + (row.h - side) / 2, side, side};
    sl_pen_frame(pen, box, sl_pen_px(pen, 1.5), SL_MARK_CONTROL);
    if (dried) {
        sl_pen_pattern(pen, box, SL_PATTERN_DOTS, SL_MARK_CONTROL);
    }
    return box.x + box.w;
}

static void put_members(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
{
    char text[LINE];
    if (look->words && look->members > 0) {
        snprintf(text, sizeof text, _("bars: 8 of 10, from %ld model runs"), look->members);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, row, SL_ALIGN_RIGHT, text);
    }
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

static void draw_apart(const sl_pen *pen, const sl_marks_look *look, SDL_Rect row)
{
    const sl_limits *l = look->limits;
    char text[LINE] = "";
    int to = look->area.x;
    if (l->spent) {
        to = draw_idle(pen, look, row, l->spent_min, false);
        snprintf(text, sizeof text, _("mix spent: waiting buys nothing"));
    }
    if (l->dried) {
        to = SDL_max(to, draw_idle(pen, look, row, l->dried_min, true));
        snprintf(text, sizeof text,
                 l->spent ? _("mix spent, then dry: waiting buys nothing")
                          : _("mix dry: waiting buys nothing"));
    }
    if (text[0] != '\0' && look->words) {
        const SDL_Rect words = {to + sl_pen_px(pen, 6.0), row.y, look->area.w / 2, row.h};
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, words, SL_ALIGN_LEFT, text);
    }
    put_members(pen, look, row);
}

void sl_marks_draw(const sl_pen *pen, const sl_marks_look *look)
{
    SDL_Rect row[ROWS];
    const int lead = look->words ? sl_pen_px(pen, 2.0) : 1;
    const int rows = look->words ? ROWS : ROWS - 1; /* without words the last one would say nothing */
    for (int i = 0; i < rows; i++) {
        const int top = lead + i * (look->area.h - lead) / rows;
        row[i] = (SDL_Rect){look->area.x, look->area.y + top, look->area.w,
                            lead + (i + 1) * (look->area.h - lead) / rows - top};
    }
    sl_pen_fill(pen, (SDL_Rect){look->area.x, look->area.y, look->area.w, 1}, SL_MARK_GRID);
    if (look->label_min >= 0.0) {
        draw_label(pen, look, row[rows - 1]);
    }
    draw_goal(pen, look, row[0]);
    draw_stop(pen, look, row[1]);
    if (look->words) {
        draw_apart(pen, look, row[2]);
    }
}
