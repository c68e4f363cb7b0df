/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a picture of what was seen shows: curves of the model, and means of the looks on the way with
 * the model's number for each. Both are asked for what was really looked at: on a time ladder a piece
 * that was rinsed after so long, else hair under the mix. They meet at the end of the mix.
 */
#ifndef SLOWLIFT_LOG_SEEN_CURVES_H
#define SLOWLIFT_LOG_SEEN_CURVES_H

#include "graph/graph.h"
#include "slowlift/compare.h"

enum { SL_SEEN_STEPS = 60 };

typedef struct sl_seen_point {
    int arm, zone, minute;
    sl_seen_mean seen;
    double model; /* share left, or SL_NOT_READ */
} sl_seen_point;

typedef struct sl_seen_curves {
    const sl_compare *compare;  /* borrowed */
    int until_min[SL_MAX_ARMS]; /* planned dwell; of an arm without: the longest of all */
    double *left;               /* [arm][0..SL_SEEN_STEPS][zone]: share left, or SL_NOT_READ */
    int n_points;
    sl_seen_point *points; /* [n_points] by arm, zone, minute; freed with sl_free() of base/memory.h */
} sl_seen_curves;

/* Solves each arm of a ladder once for each step and look. NULL: failed. */
sl_seen_curves *sl_seen_curves_make(const sl_compare *compare, sl_error *error);
void sl_seen_curves_free(sl_seen_curves *curves); /* NULL is allowed */
double sl_seen_curve_min(const sl_seen_curves *curves, int arm, int step);
double sl_seen_curve_left(const sl_seen_curves *curves, int arm, int step, int zone);
/* The latest minute that stands in the picture of a zone. */
int sl_seen_longest_min(const sl_seen_curves *curves, int zone);
/* Arms with anything to show in the zone: those seen at the end, best first, then those that were only
 * looked at on the way. Returns how many. */
int sl_seen_order(const sl_seen_curves *curves, int zone, int order[SL_MAX_ARMS]);
/* What shapes, bars and lines mean, in the chosen language. */
const char *sl_seen_key_words(const sl_seen_curves *curves);

/* Of one zone (seen_graph.c). chosen: the arm whose curve is drawn thicker; -1: none. */
const sl_graph *sl_graph_of_seen(sl_arena *arena, const sl_seen_curves *curves, int zone, int chosen,
                                 sl_error *error);

#endif
