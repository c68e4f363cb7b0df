/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Axes of the rank's picture and of the map.
 */
#include "view/draw/plot.h"

#include <math.h>
#include <stdio.h>

#include "document/text.h"

double sl_plot_step(double width, int most)
{
    const double rough = width / most;
    const double power = pow(10.0, floor(log10(rough)));
    const double part = rough / power;
    return power * (part <= 1.0 + 1e-9 ? 1.0 : part <= 2.0 + 1e-9 ? 2.0 : part <= 5.0 + 1e-9 ? 5.0 : 10.0);
}

double sl_plot_x(const sl_plot *plot, double value)
{
    const double share = (value - plot->x.from) / (plot->x.to - plot->x.from);
    return plot->area.x + share * (plot->area.w - 1);
}

double sl_plot_y(const sl_plot *plot, double value)
{
    const double share = (value - plot->y.from) / (plot->y.to - plot->y.from);
    return plot->area.y + (1.0 - share) * (plot->area.h - 1);
}

static void ticks_x(const sl_pen *pen, const sl_plot *plot)
{
    const int most = SDL_max(2, (int)(plot->area.w / (64.0 * pen->unit)));
    const double step = sl_plot_step(plot->x.to - plot->x.from, most);
    const int bottom = plot->area.y + plot->area.h;
    for (int i = (int)ceil(plot->x.from / step - 1e-9); i * step <= plot->x.to + 1e-9; i++) {
        const int x = (int)lround(sl_plot_x(plot, i * step));
        char text[24];
        sl_short_number(i * step * plot->x.shown_times, 1, text, sizeof text);
        sl_pen_fill(pen, (SDL_Rect){x, bottom, 1, sl_pen_px(pen, 4.0)}, SL_MARK_CONTROL);
        sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, x, bottom + sl_pen_px(pen, 4.0), SL_ALIGN_CENTRE, text);
    }
}

static void ticks_y(const sl_pen *pen, const sl_plot *plot)
{
    const int most = SDL_max(2, (int)(plot->area.h / (36.0 * pen->unit)));
    const double step = sl_plot_step(plot->y.to - plot->y.from, most);
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int tick = sl_pen_px(pen, 4.0);
    for (int i = (int)ceil(plot->y.from / step - 1e-9); i * step <= plot->y.to + 1e-9; i++) {
        const int y = (int)lround(sl_plot_y(plot, i * step));
        char text[24];
        sl_short_number(i * step * plot->y.shown_times, 1, text, sizeof text);
        sl_pen_fill(pen, (SDL_Rect){plot->area.x - tick, y, tick, 1}, SL_MARK_CONTROL);
        sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, plot->area.x - 2 * tick, y - small / 2, SL_ALIGN_RIGHT,
                     text);
    }
}

sl_plot sl_plot_draw(const sl_pen *pen, SDL_Rect whole, sl_plot_axis x, sl_plot_axis y)
{
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int left = sl_pen_px(pen, 40.0);
    const int gap = sl_pen_px(pen, 6.0);
    const int right = sl_pen_px(pen, 14.0);
    const sl_plot plot = {.area = {whole.x + left, whole.y + small + gap, whole.w - left - right,
                                   whole.h - 3 * small - 3 * gap},
                          .x = x,
                          .y = y};
    sl_pen_fill(pen, plot.area, SL_GROUND_SHEET);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){whole.x, whole.y, whole.w, small}, SL_ALIGN_LEFT,
                 y.name);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT,
                 (SDL_Rect){whole.x + left, plot.area.y + plot.area.h + small + gap, plot.area.w, small},
                 SL_ALIGN_RIGHT, x.name);
    ticks_x(pen, &plot);
    ticks_y(pen, &plot);
    sl_pen_frame(pen, sl_rect_inset(plot.area, -1), 1, SL_MARK_CONTROL);
    return plot;
}
