/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One record for each kind of file below a scene, and its reader. A record is what a file
 * and the files it is like say together; `..._make` turns it into the model's noun.
 */
#ifndef SLOWLIFT_SCENE_RECORDS_H
#define SLOWLIFT_SCENE_RECORDS_H

#include "scene/field.h"
#include "scene/library.h"
#include "slowlift/cost.h"
#include "slowlift/intake.h"

/* ---- what the records hold (each beside its reader) ------------------------------------ */

extern const sl_fields sl_scene_fields, sl_course_point_fields, sl_aims_fields, sl_zone_fields,
    sl_recipe_fields, sl_arm_fields, sl_step_fields, sl_mix_fields, sl_hair_fields, sl_dye_fields,
    sl_band_fields, sl_chemistry_fields, sl_chart_fields, sl_tone_fields, sl_hair_record_fields,
    sl_prices_fields, sl_product_fields, sl_crew_fields, sl_settled_fields;

/* ---- chemistry ---------------------------------------------------------------------- */

sl_record_reader sl_chemistry_read; /* record: sl_chemistry */

/* ---- mix ---------------------------------------------------------------------------- */

typedef struct sl_mix_record {
    sl_mix mix;
    bool has_ph, has_veil, has_reductant;
} sl_mix_record;
sl_record_reader sl_mix_read; /* record: sl_mix_record; once read, the mix holds together */

/* ---- chart -------------------------------------------------------------------------- */

sl_record_reader sl_chart_file_read; /* record: sl_chart, name and title unset */

/* ---- intake -------------------------------------------------------------------------- */

/* scene NULL: names of arms and zones are not looked up. */
bool sl_settled_read(const sl_reading *reading, const sl_node *root, sl_settled *settled);
bool sl_prices_read(const sl_reading *reading, const sl_node *root, sl_prices *prices);
bool sl_intake_read(const sl_reading *reading, const sl_node *root, const sl_scene *scene, sl_intake *intake);

/* ---- hair --------------------------------------------------------------------------- */

typedef struct sl_hair_record {
    double level, natural_level;
    bool prelightened;
    sl_param eumelanin, pheomelanin, warmth_left, damage, porosity;
} sl_hair_record;
sl_record_reader sl_hair_read; /* record: sl_hair_record */
/* The hair with its pools; name and title unset. */
/* False when this chemistry cannot lighten the hair to its level: then *nearest_level is the lightest
 * that it reaches. */
bool sl_hair_make(const sl_hair_record *record, const sl_chemistry *chemistry, sl_hair *made,
                  double *nearest_level);

/* ---- dyes --------------------------------------------------------------------------- */

enum { SL_MAX_DYES_PER_SET = 64, SL_MOST_DYE_ROWS = 32 };

/* What a class or a dye says; numbers only where `says` tells so: 1, or a bit for each channel. */
typedef struct sl_dye_said {
    sl_dye dye;
    unsigned says[SL_MOST_DYE_ROWS]; /* [row of sl_dye_fields] */
} sl_dye_said;

typedef struct sl_dye_entry {
    sl_dye_said said;
    sl_error place; /* where it is written, for messages about it */
} sl_dye_entry;

typedef struct sl_dyes_record {
    sl_dye_said of_class[SL_DYE_CLASS_COUNT]; /* n_bands 0: none */
    int n_dyes;
    sl_dye_entry dyes[SL_MAX_DYES_PER_SET];
} sl_dyes_record;
sl_record_reader sl_dyes_read; /* record: sl_dyes_record, zeroed */
/* The entry of that name, or NULL. */
const sl_dye_entry *sl_dyes_find(const sl_dyes_record *record, const char *name);
/* The dye with its own numbers and bands, and its class's for the rest. Fails when neither has
 * one; only what settles on neighbours may be left out, and is nothing then. */
bool sl_dye_make(const sl_reading *reading, const sl_dyes_record *record, const sl_dye_entry *entry,
                 sl_dye *dye);

#endif
