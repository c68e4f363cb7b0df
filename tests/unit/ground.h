/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What members share of a scene (estimate/members.h), made anew at each call: a test changes its scene as it
 * likes.
 */
#ifndef SLOWLIFT_TESTS_GROUND_H
#define SLOWLIFT_TESTS_GROUND_H

#include "estimate/members.h"

static inline const member_ground *ground_near(const sl_scene *scene, const sl_optics *dry)
{
    static member_ground ground;
    member_ground_make(&ground, scene, dry);
    return &ground;
}

static inline const member_ground *ground_of(const sl_scene *scene)
{
    return ground_near(scene, NULL);
}

#endif
