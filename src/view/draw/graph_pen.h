/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Graphs in the window, in the theme's greys.
 */
#ifndef SLOWLIFT_VIEW_GRAPH_PEN_H
#define SLOWLIFT_VIEW_GRAPH_PEN_H

#include "report/run/curves.h"
#include "view/draw/pen.h"

/* The pen is borrowed for as long as the graph's is used. */
sl_graph_pen sl_graph_pen_in_window(const sl_pen *pen);
sl_graph_box sl_graph_box_of(SDL_Rect area);
/* Reflectance of so many as curves. */
void sl_spectra_draw(const sl_pen *pen, SDL_Rect area, const sl_spectrum *spectra, int n);

#endif
