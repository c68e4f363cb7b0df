/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sixteen members side by side through one arm: the shared system of docs/science.md by
 * classical Runge-Kutta, so that the compiler makes vectors of every loop over lanes.
 * Used by src/estimate.
 */
#ifndef SLOWLIFT_KINETICS_LANES_H
#define SLOWLIFT_KINETICS_LANES_H

#include <stdbool.h>

#include "kinetics/mix_course.h"
#include "slowlift/doubt.h"
#include "slowlift/kinetics.h"

enum { LANES = 16, LANE_MOST_STEPS = 6000 };

/* By what a member's numbers differ from the scene's, doubt by doubt: added or a factor, as doubt.h says. */
typedef struct lane_members {
    double by[SL_DOUBT_DYE][LANES];
    double cystine_by[SL_CHANNELS][LANES], melanin_by[SL_CHANNELS][LANES]; /* how it is divided: factors */
} lane_members;

/* What cystine's or the melanins' doubts make of one channel: the flux of radicals meets both, and dyes,
 * alike. */
static inline double lane_by_channel(const lane_members *member, sl_doubt doubt, int channel, int lane)
{
    const double divided =
        (doubt == SL_DOUBT_CYSTINE ? member->cystine_by : member->melanin_by)[channel][lane];
    return member->by[doubt][lane] * divided *
           (channel == SL_RADICAL ? member->by[SL_DOUBT_RADICAL][lane] : 1.0);
}

/* Doses and cystine at the end of every step, [step][lane]. */
typedef struct lane_history {
    int steps;                            /* entries 0..steps */
    double time_min[LANE_MOST_STEPS + 1]; /* since contact */
    double leach_min[LANE_MOST_STEPS + 1];
    double shampoos[LANE_MOST_STEPS + 1];
    double rim[LANE_MOST_STEPS + 1][SL_CHANNELS][LANES];
    double core[LANE_MOST_STEPS + 1][SL_CHANNELS][LANES];
    double cystine[LANE_MOST_STEPS + 1][LANES];
    mix_memo mixes; /* of the arms that were run with it */
} lane_history;

/* Run `arm` of `scene` on hair of this porosity and starting cystine. Returns false when
 * the steps do not fit, or a lane is not finite or out of range (*bad_lane says which). */
bool lanes_run(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
               double cystine, const lane_members *members, int *bad_lane);
/* The same of hair rinsed at any moment, as sl_course_solve_rinsed() has it: entries from the last
 * application's contact on, to the scene's end, are what hair rinsed then has met once it is washed and dry.
 */
bool lanes_run_rinsed(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
                      double cystine, const lane_members *members, int *bad_lane);
/* The last step that begins at or before the minute, and how far into it, 0..1. */
int lanes_step_at(const lane_history *history, double minute, double *share);

#endif
