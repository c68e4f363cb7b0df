/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A frame with ticks and names, and places in it.
 */
#ifndef SLOWLIFT_VIEW_PLOT_H
#define SLOWLIFT_VIEW_PLOT_H

#include "view/draw/pen.h"

typedef struct sl_plot_axis {
    double from, to;
    const char *name;   /* with its unit */
    double shown_times; /* ticks show the value times this: 100 for shares */
} sl_plot_axis;

typedef struct sl_plot {
    SDL_Rect area; /* inside the frame */
    sl_plot_axis x, y;
} sl_plot;

/* Draws frame, ticks and names within `whole`. */
sl_plot sl_plot_draw(const sl_pen *pen, SDL_Rect whole, sl_plot_axis x, sl_plot_axis y);
double sl_plot_x(const sl_plot *plot, double value); /* pixels */
double sl_plot_y(const sl_plot *plot, double value);
/* Steps of 1, 2 or 5 times a power of ten, `most` of them at most. */
double sl_plot_step(double width, int most);

#endif
