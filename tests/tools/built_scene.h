/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene made in memory, without files, for tests that change single numbers. The
 * chemistry's numbers are those of docs/science.md at the time of writing; tests that
 * must speak of the shipped files load those instead.
 */
#ifndef SLOWLIFT_TESTS_BUILT_SCENE_H
#define SLOWLIFT_TESTS_BUILT_SCENE_H

#include "slowlift/model.h"

enum { BUILT_HAIRS = 2, BUILT_DYES = 3, BUILT_MIXES = 5, BUILT_ZONES = 6, BUILT_ARMS = 9 };
enum { BUILT_WATER, BUILT_SIX, BUILT_LIQUID, BUILT_CREAM, BUILT_PERCARBONATE };

/* The scene borrows the arrays beside it: never copy a built_scene. */
typedef struct built_scene {
    sl_scene scene;
    sl_hair hairs[BUILT_HAIRS];
    sl_dye dyes[BUILT_DYES];
    sl_mix mixes[BUILT_MIXES];
    sl_zone zones[BUILT_ZONES];
    sl_arm arms[BUILT_ARMS];
} built_scene;

sl_chemistry built_chemistry(void);
void built_arms(built_scene *built);

/* A chemistry in which nothing reacts and nothing is exchanged, to switch on one thing. */
sl_chemistry built_still_chemistry(void);

#endif
