/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How members are counted. Private to src/estimate; files of counts are read through it too.
 */
#ifndef SLOWLIFT_ESTIMATE_COUNTS_H
#define SLOWLIFT_ESTIMATE_COUNTS_H

#include "estimate/limits_of_members.h"
#include "slowlift/spread.h"

/* Empty counts for a scene. observations may be NULL. */
sl_spread *spread_new(const sl_scene *scene, const sl_draw_plan *plan, uint64_t seed,
                      const sl_observations *observations, sl_error *error);
/* Once per member, before its arms: returns its weight. */
int64_t spread_count_seen(sl_seen *seen, double agreement, uint32_t agrees);
void spread_count(sl_spread *spread, int arm, const member_limits *member, const double u[], int64_t weight);
/* Add the counts alone; both are of one run. */
void spread_gather(sl_spread *sum, const sl_spread *part);

#endif
