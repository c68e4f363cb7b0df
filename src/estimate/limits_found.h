/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and stops of one arm alone: what sl_limits_of and sl_way_through both read. Private to
 * src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_LIMITS_FOUND_H
#define SLOWLIFT_ESTIMATE_LIMITS_FOUND_H

#include "slowlift/limits.h"

/* asked, early and stop fields; the rest is zero. */
sl_limits limits_find(const sl_timeline *timeline, int arm);

#endif
