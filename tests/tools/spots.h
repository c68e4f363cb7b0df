/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random spots of hair for tests of colour: a scene with three dyes, and amounts drawn by a
 * generator of our own, so that every machine draws the same spots.
 */
#ifndef SLOWLIFT_TESTS_SPOTS_H
#define SLOWLIFT_TESTS_SPOTS_H

#include <stdint.h>

#include "slowlift/model.h"
#include "slowlift/optics.h"

enum { SPOT_DYES = 3 };

typedef struct spot_scene {
    sl_scene scene; /* borrows the dyes below: do not copy */
    sl_dye dyes[SPOT_DYES];
} spot_scene;

/* Ratios and weights of the shipped chemistry. */
void spot_scene_fill(spot_scene *spots);

/* Amounts that natural hair of a level 1..10 starts with in models/hair. */
sl_amounts spot_natural(int level);

double spot_random(uint64_t *state); /* 0 up to 1 */
sl_amounts spot_draw(uint64_t *state);

#endif
