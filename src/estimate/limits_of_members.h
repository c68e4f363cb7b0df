/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the doses of sixteen members to their early and late limits. Private to src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_LIMITS_OF_MEMBERS_H
#define SLOWLIFT_ESTIMATE_LIMITS_OF_MEMBERS_H

#include "kinetics/lanes.h"
#include "slowlift/optics.h"

enum { MEMBER_MOST_DYES = SL_MAX_ZONES * SL_MAX_DYES_PER_ZONE };

/* Factors on the pigments' constants, per lane. */
typedef struct member_pigments {
    double melanin[SL_CHANNELS][LANES];
    double radical[LANES];               /* on every dye's radical channel */
    double dye[MEMBER_MOST_DYES][LANES]; /* on all channels of scene->dyes[i] */
} member_pigments;

enum { LATE_BY_BASE, LATE_BY_STRESS, LATE_BY_TIME, LATE_BY_END, LATE_BY_LABEL }; /* as sl_stop */

/* Minutes from contact. */
typedef struct member_limits {
    bool early_reached;
    double early_min;
    int last_zone; /* that decided early, or that holds most when it is never reached */
    double late_min;
    int late_by;         /* LATE_BY_... */
    double left_at_late; /* colour left in last_zone then */
} member_limits;

/* The lanes through this arm in hair of this kind; nothing is done when `*solved`, of which the history is
 * (NULL: of none), is as porous and as damaged. False: *bad_lane is not finite or out of range. */
bool members_solve(lane_history *history, const sl_hair **solved, const sl_scene *scene, const sl_arm *arm,
                   const sl_hair *hair, const lane_members *member, int *bad_lane);

/* What is asked of sixteen members beyond the scene's own numbers. */
typedef struct member_aims {
    const sl_optics *dry;   /* borrowed; needed where a zone is asked to come near undyed hair */
    sl_bound stress[LANES]; /* share of cystine that stops each of them */
} member_aims;

/* The stress limits of these members: with a share of what another arm has lost, each by its own
 * loss there. `history` is scratch. False: *bad_lane is not finite or out of range. */
bool members_aims(member_aims *aims, const sl_scene *scene, const sl_optics *dry, const lane_members *member,
                  lane_history *history, int *bad_lane);

/* Whether limits can be asked of this arm: aims, a mix inside the model, a zone with a goal. */
bool member_arm_asked(const sl_scene *scene, int arm);

/* limits[lane]. `history` is scratch. False: *bad_lane is not finite or out of range. */
bool members_limits(member_limits limits[LANES], const sl_scene *scene, int arm, const lane_members *member,
                    const member_pigments *pigment, const member_aims *aims, lane_history *history,
                    int *bad_lane);

/* The solver has looked at the doses; this looks at what was made of them. */
bool limits_in_range(const member_limits *member, double until_min);

#endif
