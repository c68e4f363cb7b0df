/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When is the goal reached, and what stops an arm? From the central values, on the solution itself; how sure
 * that is, and what may be told of it, stands in answer.h. Minutes count from the arm's contact.
 */
#ifndef SLOWLIFT_LIMITS_H
#define SLOWLIFT_LIMITS_H

#include "slowlift/estimate.h"

#pragma GCC visibility push(default)

/* What can stop an arm. */
typedef enum sl_stop {
    SL_STOP_BASE,
    SL_STOP_STRESS,
    SL_STOP_CHAIR,
    SL_STOP_END,
    SL_STOP_LABEL,
    SL_STOPS,
    SL_STOP_STRAND = SL_STOPS /* of an answer alone: the person's strand was watched no longer */
} sl_stop;
const char *sl_stop_word(sl_stop stop);

typedef struct sl_limits {
    bool asked; /* false: no mix, outside the model, or no aims; the rest is unset */
    bool early_reached;
    double early_min;    /* rinsed then, washed as planned and dry, every zone with a goal is at it */
    int early_zone;      /* that arrives last, or holds most when it never does */
    double base_at_goal; /* base moved and cystine lost in its undyed zone then; 0 when it never is */
    double stress_at_goal;
    bool stop_reached[SL_STOPS];
    double stop_min[SL_STOPS];       /* rinsed then, washed and dry, it is just reached */
    int stop_zone[SL_STOPS];         /* undyed zone in which it is read; -1: a time */
    sl_stop stop;                    /* the one that binds (SL_STOP_END: none does) */
    double left_at_stop;             /* colour left in early_zone when rinsed then, washed and dry */
    double left_at_end;              /*   and when rinsed as the scene ends */
    sl_lab leftover;                 /* what early_zone looks like at the stop, dry */
    sl_reading_words leftover_words; /* borrowed from the scene's chart */
    double level_start;              /* of the hair under early_zone, in its undyed zone, and the level it */
    double level_at_stop; /*   reads when rinsed at the stop, washed and dry: SL_LEVEL_END at most */
    /* Waiting buys nothing; shown apart, never a limit. */
    bool spent; /* the pace (of -ln colour left) is below SL_SPENT_PACE of its peak */
    double spent_min;
    bool dried;
    double dried_min;
} sl_limits;

static const double SL_SPENT_PACE = 0.05; /* share of the pace's peak (assumed) */
static const double SL_DRY_WETNESS = 0.1; /* of the mix's first wetness (assumed) */

/* Limits are read of hair rinsed at any moment: solve that once after the timeline, before any is asked for.
 */
bool sl_limits_prepare(sl_timeline *timeline, sl_solver *solver, sl_error *error);

/* Whether limits can be asked of this arm: it removes colour by a mix inside the model, and a zone has a
 * goal. */
bool sl_limits_can_be_asked(const sl_scene *scene, int arm);

/* optics may be NULL: no leftover colour then. */
sl_limits sl_limits_of(const sl_timeline *timeline, int arm, const sl_optics *optics);

/* The zone where base or stress comes to the limit `stop`, or would; -1 for a limit that is a time. */
int sl_limits_stop_zone(const sl_scene *scene, const sl_limits *limits, sl_stop stop);

#pragma GCC visibility pop

#endif
