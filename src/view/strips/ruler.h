/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Time as a ruler that can be dragged: an axis in minutes, and below it a lane for each strip (lanes.h).
 */
#ifndef SLOWLIFT_VIEW_RULER_H
#define SLOWLIFT_VIEW_RULER_H

#include "view/strips/lanes.h"

/* Whether a scene is followed for so long, in minutes, that its time is told in hours. */
bool sl_ruler_of_days(double until_min);
/* Clamped to 0..until. */
double sl_ruler_time(SDL_Rect ruler, double until_min, int x);
int sl_ruler_x(SDL_Rect ruler, double until_min, double time_min);

typedef struct sl_ruler_look {
    SDL_Rect area;
    int axis_h;
    double until_min;
    double now_min;             /* below 0: no cursor */
    const sl_lanes_look *lanes; /* NULL: none */
} sl_ruler_look;
void sl_ruler_draw(const sl_pen *pen, const sl_ruler_look *look);

#endif
