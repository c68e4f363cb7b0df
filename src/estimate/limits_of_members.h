/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the doses of sixteen members to their early and late limits. Private to src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_LIMITS_OF_MEMBERS_H
#define SLOWLIFT_ESTIMATE_LIMITS_OF_MEMBERS_H

#include "estimate/members.h"
#include "slowlift/limits.h"

/* Minutes from contact. */
typedef struct member_limits {
    bool early_reached;
    double early_min;
    int last_zone; /* that decided early, or that holds most when it is never reached */
    double late_min;
    sl_stop late_by;
    double left_at_late; /* colour left in last_zone then */
} member_limits;

/* What is asked of sixteen members beyond the scene's own numbers. */
typedef struct member_aims {
    const member_ground *ground; /* borrowed */
    sl_bound stress[LANES];      /* share of cystine that stops each of them */
} member_aims;

/* The stress limits of these members: with a share of what another arm has lost, each by its own
 * loss there. `history` is scratch. False: *bad_lane is not finite or out of range. */
bool members_aims(member_aims *aims, const sl_scene *scene, const member_ground *ground,
                  const lane_members *member, lane_history *history, int *bad_lane);

/* limits[lane]. `history` is scratch. False: *bad_lane is not finite or out of range. */
bool members_limits(member_limits limits[LANES], const sl_scene *scene, int arm, const drawn_members *drawn,
                    const member_aims *aims, lane_history *history, int *bad_lane);

/* The solver has looked at the doses; this looks at what was made of them. */
bool limits_in_range(const member_limits *member, double until_min);

#endif
