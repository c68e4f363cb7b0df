/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reflectance as a curve.
 */
#include "view/panels/spectrum.h"

#include <math.h>
#include <stdio.h>

#include "base/language.h"

sl_spectrum_axes sl_spectrum_draw_axes(const sl_pen *pen, SDL_Rect all)
{
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int left = sl_pen_px(pen, 42.0);
    const SDL_Rect area = {all.x + left, all.y + small / 2, all.w - left, all.h - small / 2 - small};
    for (int i = 0; i <= 4; i++) {
        const int y = area.y + i * (area.h - 1) / 4;
        sl_pen_fill(pen, (SDL_Rect){area.x, y, area.w, 1}, i == 4 ? SL_MARK_CONTROL : SL_MARK_GRID);
        if (i % 2 == 0) {
            char text[16];
            snprintf(text, sizeof text, "%d %%", 100 - 25 * i);
            sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_QUIET, area.x - sl_pen_px(pen, 4.0), y - small / 2,
                         SL_ALIGN_RIGHT, text);
        }
    }
    for (int nm = 400; nm <= 700; nm += 100) {
        const int x = area.x + (int)lround((nm - 380.0) / 400.0 * (area.w - 1));
        char text[16];
        snprintf(text, sizeof text, nm == 700 ? _("%d nm") : "%d", nm);
        sl_pen_fill(pen, (SDL_Rect){x, area.y, 1, area.h}, SL_MARK_GRID);
        sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_QUIET, x, area.y + area.h, SL_ALIGN_CENTRE, text);
    }
    return (sl_spectrum_axes){area};
}

void sl_spectrum_draw(const sl_pen *pen, const sl_spectrum_axes *axes, const sl_optics *optics,
                      const sl_amounts *amounts, sl_look look, double dash)
{
    const SDL_Rect area = axes->area;
    double q[SL_BANDS];
    double reflectance[SL_BANDS];
    double x[SL_BANDS];
    double y[SL_BANDS];
    sl_optics_absorption(optics, amounts, q);
    sl_look_reflectance(look, q, reflectance);
    for (int i = 0; i < SL_BANDS; i++) {
        x[i] = area.x + (double)i / (SL_BANDS - 1) * (area.w - 1);
        y[i] = area.y + (1.0 - reflectance[i]) * (area.h - 1);
    }
    sl_pen_curve(pen, x, y, SL_BANDS, sl_pen_px(pen, 2.0), dash, SL_MARK_CONTROL);
}
