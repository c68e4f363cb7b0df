/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a scene's file, each read by its row of sl_scene_fields, in this order: place and clock,
 * chemistry, zones, arms, aims, chart.
 */
#ifndef SLOWLIFT_SCENE_SCENE_FILE_H
#define SLOWLIFT_SCENE_SCENE_FILE_H

#include "scene/records.h"

/* What the parts of one scene's file tell each other while it is read. */
typedef struct sl_scene_parts {
    sl_scene *scene;
    const sl_dyes_record *dyes; /* the set that it names; NULL: none */
    sl_step usual;              /* how a mix goes on where its step does not say; mix_g_per_g 0: unsaid */
} sl_scene_parts;

/* Every key of a scene's own file, and what the whole file says, into *scene (zeroed). */
bool sl_scene_read(const sl_reading *reading, const sl_node *root, sl_scene *scene);

/* zones_file.c: zones with the hairs and dyes they use; needs scene->chemistry. */
sl_field_reader sl_zones_read;
/* arms_file.c: how mixes go on; then arms with their steps and the mixes they use, which need
 * scene->until_min. */
sl_field_reader sl_application_read, sl_arms_read;
/* aims_file.c: aims; needs zones and arms. */
sl_field_reader sl_aims_read;
/* weakest.c: scene->weakest and scene->weakest_what. */
bool sl_weakest_find(const sl_reading *reading, sl_scene *scene);

/* Owner of a scene's memory. */
struct sl_scene_memory {
    sl_arena arena;
};
/* An empty scene with a memory of its own. */
sl_scene *sl_scene_new(sl_error *error);

#endif
