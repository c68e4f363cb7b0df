/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Time as a ruler that can be dragged: an axis in minutes, and below it lanes that say
 * when mixes lie on the hair. Strips that keep the same times share a lane.
 */
#ifndef SLOWLIFT_VIEW_RULER_H
#define SLOWLIFT_VIEW_RULER_H

#include "slowlift/estimate.h"
#include "view/draw/pen.h"

typedef struct sl_lane {
    int arm;        /* the first strip of this lane: its times are drawn */
    char label[48]; /* "1, 3–6" */
} sl_lane;

/* Distinct lanes of the scene's treated arms; returns how many. */
int sl_ruler_lanes(const sl_scene *scene, sl_lane lanes[SL_MAX_ARMS]);
/* Whether a scene is followed for so long, in minutes, that its time is told in hours. */
bool sl_ruler_of_days(double until_min);
/* Clamped to 0..until. */
double sl_ruler_time(SDL_Rect ruler, double until_min, int x);
int sl_ruler_x(SDL_Rect ruler, double until_min, double time_min);

typedef struct sl_ruler_look {
    SDL_Rect area;
    int axis_h;
    double now_min; /* below 0: no cursor */
    const sl_scene *scene;
    const sl_lane *lanes;
    int n_lanes;
    int chosen_arm;
    const sl_meeting *meeting; /* [n_arms]; NULL unless strips stand at their own moments */
} sl_ruler_look;
void sl_ruler_draw(const sl_pen *pen, const sl_ruler_look *look);

#endif
