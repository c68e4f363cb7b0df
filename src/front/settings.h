/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words of the command line that name something of a scene or set something about an arm.
 */
#ifndef SLOWLIFT_FRONT_SETTINGS_H
#define SLOWLIFT_FRONT_SETTINGS_H

#include "front/option.h"
#include "slowlift/what_if.h"

/* The arm of that name, or of that title in the language in use; SL_ERR_USAGE names the nearest. */
bool sl_arm_find(const sl_scene *scene, const char *name, int *arm, sl_error *error);
/* The zone likewise; name NULL: -1. direct: it must hold a direct dye. */
bool sl_zone_find(const sl_scene *scene, const char *name, bool direct, int *zone, sl_error *error);

/* "3%", "20vol", "20 min", "-5 K", yes and no; a bare number where the unit is only a counting word. */
bool sl_setting_read(sl_setting setting, const sl_option *option, const char *text, double *value,
                     sl_error *error);
sl_option_reader sl_option_strength;     /* double, per cent: "6%", "20vol" */
sl_option_reader sl_option_grams_of_mix; /* double: for one gram of hair */
/* "strength:0..12%": a setting and two values, the unit with the second at least. */
bool sl_setting_range_read(const sl_option *option, const char *text, sl_setting *setting, double *from,
                           double *to, sl_error *error);

#endif
