/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sixteen members held to what was seen. Private to src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_OBSERVATION_MEMBERS_H
#define SLOWLIFT_ESTIMATE_OBSERVATION_MEMBERS_H

#include "estimate/members.h"

bool observation_same(const sl_observation *one, const sl_observation *two);

typedef struct observation_weights {
    double agreement[LANES]; /* product over all things seen, 0..1 */
    uint32_t agrees[LANES];  /* bit i: with thing i alone */
} observation_weights;

/* False: *bad_lane is not finite or out of range in arm *bad_arm. `history` is scratch. */
bool members_weigh(observation_weights *weights, const sl_scene *scene, const member_ground *ground,
                   const sl_observations *observations, const drawn_members *drawn, lane_history *history,
                   int *bad_lane, int *bad_arm);

/* A power of two that brings the best of the first SL_PILOT_MEMBERS members, whatever the shard,
 * to a weight of 2^11 to 2^12. */
int weight_scale(double best_agreement);
int64_t weight_of(double agreement, int scale, bool *capped);

#endif
