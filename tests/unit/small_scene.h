/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small scene made in memory, so that a unit test shows every number it depends on and
 * reads no file. The chemistry's constants are those of models/chemistry/oxidation.yaml.
 */
#ifndef SLOWLIFT_TESTS_SMALL_SCENE_H
#define SLOWLIFT_TESTS_SMALL_SCENE_H

#include "slowlift/kinetics.h"
#include "slowlift/leave.h"
#include "slowlift/model.h"

enum { SMALL_HAIRS = 2, SMALL_DYES = 4, SMALL_MIXES = 6, SMALL_ZONES = 5, SMALL_ARMS = 8 };
enum { MIX_WATER, MIX_POWDER_WATER, MIX_POWDER_3, MIX_POWDER_6, MIX_MILD, MIX_REDUCING };
enum { ZONE_ROOT, ZONE_RED, ZONE_VIOLET, ZONE_MIXED, ZONE_UNDYED };
enum { ARM_UNTREATED, ARM_WASHING, ARM_WATER, ARM_3, ARM_6, ARM_MILD, ARM_UNDYED, ARM_REDUCING };

typedef struct small_scene {
    sl_hair hairs[SMALL_HAIRS];
    sl_dye dyes[SMALL_DYES];
    sl_mix mixes[SMALL_MIXES];
    sl_zone zones[SMALL_ZONES];
    sl_arm arms[SMALL_ARMS];
    sl_scene scene;
} small_scene;

/* Fill *small; its scene points into it, so it must not be copied. Bench, 32 C, one hour,
 * every mix stays 30 min, is rinsed for 2 min and shampooed once. */
void small_scene_fill(small_scene *small);

/* Half of the colour; 30 % of the base, 12 % of the cystine, 45 minutes at most. */
extern const sl_aims small_aims;

/* An arm on hair of this kind, doses only. */
sl_treatment small_treatment(const small_scene *small, int arm, double porosity, double cystine_intact);

/* Somebody with this form, whose strand was counted with one arm's mix and watched so long. */
sl_person person_of(const sl_intake *form, int arm, double watched_min);

/* A form on which nothing stops and nothing is missing; the label says 30 min, and nothing was typed of
 * a strand. */
sl_intake small_clear_form(void);

sl_param assumed(double value);
sl_rates rates_of(double perhydroxyl, double persulfate, double radical);

#endif
