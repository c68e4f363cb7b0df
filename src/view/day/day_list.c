/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row for each swatch: code, stage and time on the hair, what is due and how late. Late is told by
 * a sign, a frame and a word.
 */
#include <stdio.h>

#include "view/day/day.h"

static const sl_due *due_of(const sl_day_screen *screen, int swatch)
{
    const sl_day *const day = &screen->desk->day;
    for (int i = 0; i < day->n_due; i++) {
        if (day->due[i].swatch == swatch) {
            return &day->due[i];
        }
    }
    return NULL;
}

static void show_row(sl_day_screen *screen, SDL_Rect row, int swatch)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    const bool chosen = swatch == day->chosen;
    const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
    const sl_due *const due = due_of(screen, swatch);
    const bool late = due != NULL && due->in_s <= 0.0 && sl_bench_calls(&day->bench, due, &day->now);
    const int code = sl_pen_px(pen, 58.0);
    char state[SL_DAY_LINE];
    char when[48], verb[96];
    char text[SL_DAY_LINE] = "";
    if (chosen) {
        sl_pen_fill(pen, row, SL_GROUND_DARK);
    }
    if (late && !chosen) {
        sl_pen_frame(pen, row, sl_pen_px(pen, 2.0), SL_MARK_CONTROL);
    }
    sl_day_state_brief(&day->bench, swatch, &day->now, state, sizeof state);
    if (due != NULL) {
        sl_day_when(due->in_s, when, sizeof when);
        sl_day_verb(&day->bench, due, true, verb, sizeof verb);
        snprintf(text, sizeof text, "%s%s %s", late ? "! " : "", verb, when);
    }
    const int pad = sl_pen_px(pen, 6.0);
    const int rest = row.w - code - 2 * pad;
    const int said = SDL_min(sl_pen_size(pen, SL_TYPE_BODY, ink, 0, state).x, rest);
    sl_pen_place(pen, SL_TYPE_STRONG, ink, (SDL_Rect){row.x + pad, row.y, code, row.h}, SL_ALIGN_LEFT,
                 day->plan[swatch].code);
    sl_pen_place(pen, SL_TYPE_BODY, ink, (SDL_Rect){row.x + pad + code, row.y, said, row.h}, SL_ALIGN_LEFT,
                 state);
    const SDL_Rect last = {row.x + pad + code + said + pad, row.y, rest - said - pad, row.h};
    const sl_type type = late ? SL_TYPE_STRONG : SL_TYPE_BODY;
    const bool fits = sl_pen_size(pen, type, ink, 0, text).x <= last.w;
    if (!fits && due != NULL) {
        snprintf(text, sizeof text, "%s%s", late ? "! " : "", when);
    }
    sl_pen_place(pen, type, ink, last, SL_ALIGN_RIGHT, text);
    sl_day_add_spot(screen, SL_ACT_ROW, swatch, row);
}

void sl_day_put_list(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const SDL_Rect area = screen->places.list;
    const int shown = SDL_max(area.h / screen->places.row_h, 1);
    const int n = day->n;
    if (day->chosen < screen->first_row) {
        screen->first_row = day->chosen;
    } else if (day->chosen >= screen->first_row + shown) {
        screen->first_row = day->chosen - shown + 1;
    }
    screen->first_row = SDL_clamp(screen->first_row, 0, SDL_max(n - shown, 0));
    sl_pen_fill(&screen->pen, area, SL_GROUND_SHEET);
    for (int i = 0; i < shown && screen->first_row + i < n; i++) {
        show_row(screen, (SDL_Rect){area.x, area.y + i * screen->places.row_h, area.w, screen->places.row_h},
                 screen->first_row + i);
    }
}
