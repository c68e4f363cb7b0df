/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arms and zones by their names, which a test takes to be there.
 */
#ifndef SLOWLIFT_TESTS_NAMED_H
#define SLOWLIFT_TESTS_NAMED_H

#include <check.h>

#include "slowlift/model.h"

static inline int named_arm(const sl_scene *scene, const char *name)
{
    const int arm = sl_scene_arm(scene, name);
    ck_assert_msg(arm >= 0, "no arm %s", name);
    return arm;
}

static inline int named_zone(const sl_scene *scene, const char *name)
{
    const int zone = sl_scene_zone(scene, name);
    ck_assert_msg(zone >= 0, "no zone %s", name);
    return zone;
}

#endif
