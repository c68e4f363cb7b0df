/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reflectance as a curve: 380..780 nm, 0..100 %.
 */
#ifndef SLOWLIFT_VIEW_SPECTRUM_H
#define SLOWLIFT_VIEW_SPECTRUM_H

#include "slowlift/optics.h"
#include "view/draw/pen.h"

typedef struct sl_spectrum_axes {
    SDL_Rect area; /* of the curves */
} sl_spectrum_axes;

/* Axes with their figures within `area`; a line at every 100 nm and every quarter. */
sl_spectrum_axes sl_spectrum_draw_axes(const sl_pen *pen, SDL_Rect area);
/* dash in pixels, 0 = whole line. */
void sl_spectrum_draw(const sl_pen *pen, const sl_spectrum_axes *axes, const sl_optics *optics,
                      const sl_amounts *amounts, sl_look look, double dash);

#endif
