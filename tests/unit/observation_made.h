/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Things that were seen in one arm of the small scene, and members weighed by them.
 */
#ifndef SLOWLIFT_TESTS_SAW_MADE_H
#define SLOWLIFT_TESTS_SAW_MADE_H

#include <check.h>

#include "slowlift/spread.h"
#include "small_scene.h"

static small_scene small;

/* Warmer hair counts as a head. */
static inline void fresh_warm(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 29.9;
    small.scene.aims = small_aims;
}

/* One arm is counted: the others would only take time. */
static inline void fresh_one(void)
{
    fresh_warm();
    for (int a = ARM_WASHING; a <= ARM_MILD; a++) {
        small.arms[a].undyed = a != ARM_6;
    }
}

static inline sl_observation observation(int zone, double minute, sl_wipe wipe)
{
    return (sl_observation){.arm = ARM_6, .zone = zone, .minute = minute, .wipe = wipe};
}

static inline sl_spread *run(const sl_observations *observations, long members, int threads)
{
    sl_error error = {0};
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .members = members, .seed = 5, .threads = threads, .observations = observations};
    ck_assert_msg(sl_spread_run(&spread, &small.scene, &request, &error), "%s", error.found);
    return spread;
}

#endif
