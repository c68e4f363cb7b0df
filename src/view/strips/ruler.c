/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ruler: its axis and the moment that is shown, over the lanes.
 */
#include "view/strips/ruler.h"

#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"

static const double LONG_CLOCK_MIN = 600.0;

bool sl_ruler_of_days(double until_min)
{
    return until_min > LONG_CLOCK_MIN;
}

double sl_ruler_time(SDL_Rect ruler, double until_min, int x)
{
    const double share = (double)(x - ruler.x) / SDL_max(ruler.w - 1, 1);
    return until_min * SDL_clamp(share, 0.0, 1.0);
}

int sl_ruler_x(SDL_Rect ruler, double until_min, double time_min)
{
    const double share = until_min > 0.0 ? SDL_clamp(time_min / until_min, 0.0, 1.0) : 0.0;
    return ruler.x + (int)lround(share * (ruler.w - 1));
}

/* Minutes between labels, so that they stand apart. */
static int label_every(const sl_pen *pen, const sl_ruler_look *look)
{
    static const int steps[] = {1, 2, 5, 10, 20, 30, 60, 120, 240, 480};
    const double per_min = look->area.w / SDL_max(look->until_min, 1e-6);
    int i = 0;
    while (i < 9 && steps[i] * per_min < 52.0 * pen->unit) {
        i++;
    }
    return steps[i];
}

static void draw_axis(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    const double until = look->until_min;
    const int every = label_every(pen, look);
    const bool hours = sl_ruler_of_days(until) && every % 60 == 0;
    const bool minutes = a.w / SDL_max(until, 1e-6) >= 4.0 * pen->unit;
    const int base = a.y + look->axis_h - 1;
    sl_pen_fill(pen, (SDL_Rect){a.x, base, a.w, sl_pen_px(pen, 1.0)}, SL_MARK_CONTROL);
    for (int minute = 0; minute <= (int)floor(until + 1e-9); minute++) {
        const bool named = minute % every == 0;
        if (!named && !minutes) {
            continue;
        }
        const int x = sl_ruler_x(a, until, minute);
        const int h = sl_pen_px(pen, named ? 9.0 : minute % 5 == 0 ? 7.0 : 4.0);
        sl_pen_fill(pen, (SDL_Rect){x, base - h, sl_pen_px(pen, named ? 1.5 : 1.0), h}, SL_MARK_CONTROL);
        if (named) {
            char text[24];
            sl_minute_words(SL_MINUTE_PLANNED, text, sizeof text,
                            hours         ? "%d h"
                            : minute == 0 ? _("%d min")
                                          : "%d",
                            hours ? minute / 60 : minute);
            const sl_align align = minute == 0                            ? SL_ALIGN_LEFT
                                   : x > a.x + a.w - sl_pen_px(pen, 12.0) ? SL_ALIGN_RIGHT
                                                                          : SL_ALIGN_CENTRE;
            sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, x, a.y, align, text);
        }
    }
}

/* Where lines begin that must not cover the minutes' figures. */
static int below_labels(const sl_pen *pen, const sl_ruler_look *look)
{
    return SDL_min(sl_text_line_height(pen->text, SL_TYPE_SMALL), look->axis_h);
}

static void draw_cursor(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    const int x = sl_ruler_x(a, look->until_min, look->now_min);
    const int wide = sl_pen_px(pen, 3.0), below = below_labels(pen, look);
    const int lanes = a.y + look->axis_h; /* on hair, of the same two tones in every theme */
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2 - 1, a.y + below, wide + 2, a.h - below}, SL_GROUND_FRAME);
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2 - 1, lanes, wide + 2, a.y + a.h - lanes}, SL_MARK_FIELD);
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2, a.y + below, wide, a.h - below}, SL_GROUND_DARK);
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2, lanes, wide, a.y + a.h - lanes}, SL_MARK_HOOK);
    const int half = sl_pen_px(pen, 9.0);
    const SDL_Rect grip = {x - half, a.y + look->axis_h - sl_pen_px(pen, 2.0), 2 * half,
                           SDL_min(sl_pen_px(pen, 22.0), a.h - look->axis_h)};
    sl_pen_fill(pen, sl_rect_inset(grip, -1), SL_GROUND_FRAME);
    sl_pen_fill(pen, grip, SL_GROUND_DARK);
    sl_pen_fill(pen, (SDL_Rect){x - half / 3, grip.y + half / 2, 1, grip.h - half}, SL_INK_LIGHT);
    sl_pen_fill(pen, (SDL_Rect){x + half / 3, grip.y + half / 2, 1, grip.h - half}, SL_INK_LIGHT);
}

void sl_ruler_draw(const sl_pen *pen, const sl_ruler_look *look)
{
    draw_axis(pen, look);
    if (look->lanes != NULL) {
        sl_lanes_draw(pen, look->lanes);
    }
    if (look->now_min >= 0.0) {
        draw_cursor(pen, look);
    }
}
