/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Below the ruler a numbered lane for each strip: what its chosen zone looks like over the scene's clock,
 * when its mix lies on the hair (thick), its rinse (striped) and shampoo (dotted), its label's end, its stop,
 * and of the chosen strip the looks. Invariant: where colours must not be told, a lane is neutral and has no
 * mark.
 */
#ifndef SLOWLIFT_VIEW_LANES_H
#define SLOWLIFT_VIEW_LANES_H

#include "slowlift/estimate.h"
#include "swatch/strip.h"
#include "view/draw/pen.h"

enum { SL_LANE_MOMENTS = 192 };

/* What one lane shows. */
typedef struct sl_lane {
    bool predicted;
    sl_srgb8 colour[SL_LANE_MOMENTS + 1]; /* as it is shown, evenly from 0 to the scene's end */
    double stop_min, label_min;           /* from contact; below 0: none */
} sl_lane;

typedef struct sl_lanes_look {
    SDL_Rect area;    /* of all lanes, as wide as the ruler */
    int number_w;     /* left of it, for their numbers */
    bool told;        /* colours and marks of the model may be shown */
    bool chosen_only; /* there is no room for the others */
    const sl_scene *scene;
    const sl_lane *lane; /* [n_arms] */
    const sl_light_table *light;
    int chosen_arm;
    const sl_meeting *meeting; /* [n_arms]; NULL unless strips stand at their own moments */
    const int *look_min;       /* [n_looks], from contact, of the chosen strip */
    int n_looks;
} sl_lanes_look;

/* Where a strip's lane stands; empty where there is none. */
SDL_Rect sl_lane_place(const sl_lanes_look *look, int arm);
/* Between two moments the mean of both in linear light. */
sl_srgb8 sl_lane_colour(const sl_lane *lane, const sl_light_table *light, double share);
void sl_lanes_draw(const sl_pen *pen, const sl_lanes_look *look);

#endif
