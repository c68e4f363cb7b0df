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
/* In place of a bad lane: there was no memory. Below any member's number, with any that is added to it. */
enum { LANE_NO_MEMORY = -(1 << 30) };

/* The forms of a zone's dyes: constants of each, at the channels' own factors, by lane. */
typedef struct lane_forms {
    int n;
    double k[SL_MAX_DYES_PER_ZONE][SL_CHANNELS][LANES];
    double reduced[SL_MAX_DYES_PER_ZONE][LANES];
    double leuco_share[SL_MAX_DYES_PER_ZONE];
    double air_return[SL_MAX_DYES_PER_ZONE][LANES], oxidant_return[SL_MAX_DYES_PER_ZONE][LANES];
} lane_forms;

/* By what a member's numbers differ from the scene's, doubt by doubt: added, a factor, or what turns an own
 * width, as doubt.h says. */
typedef struct lane_members {
    double by[SL_DOUBT_REDUCED][LANES]; /* that of SL_DOUBT_DYE is nothing here */
    const lane_forms *forms;            /* of a zone whose dyes come back, borrowed; else NULL */
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

/* What an arm that reduces has beside, [lane]: doses of the agent at rim and core, then what is coloured of
 * each dye whose forms are followed. */
enum {
    LANE_RIM_REDUCED,
    LANE_CORE_REDUCED,
    LANE_COLOURED,
    LANE_REDUCING = LANE_COLOURED + SL_MAX_DYES_PER_ZONE * SL_PLACES_IN_HAIR
};

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
    bool reduces;   /* the rest is of such an arm alone */
    double reducing[LANE_MOST_STEPS + 1][LANE_REDUCING][LANES];
} lane_history;

/* Run `arm` of `scene` on hair of this porosity and starting cystine. Returns false when
 * the steps do not fit, a lane is not finite or out of range (*bad_lane says which), or there is no memory
 * (LANE_NO_MEMORY). */
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
