/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a scene's file. Each fills its part of the scene, in this order: place,
 * chemistry, zones, arms, aims, chart.
 */
#ifndef SLOWLIFT_SCENE_SCENE_FILE_H
#define SLOWLIFT_SCENE_SCENE_FILE_H

#include "scene/library.h"

/* Every key of a scene's own file, and what the whole file says, into *scene (zeroed). */
bool sl_scene_read(const sl_reading *reading, const sl_node *root, sl_scene *scene);

/* zones_file.c: zones with the hairs and dyes they use; needs scene->chemistry. */
bool sl_zones_read(const sl_reading *reading, const sl_node *root, sl_scene *scene);
/* arms_file.c: arms with their steps and the mixes they use; needs scene->until_min. */
bool sl_arms_read(const sl_reading *reading, const sl_node *root, sl_scene *scene);
/* aims_file.c: aims; needs zones and arms. */
bool sl_aims_read(const sl_reading *reading, const sl_node *root, sl_scene *scene);
/* weakest.c: scene->weakest and scene->weakest_what. */
bool sl_weakest_find(const sl_reading *reading, sl_scene *scene);

/* Owner of a scene's memory. */
struct sl_scene_memory {
    sl_arena arena;
};
/* An empty scene with a memory of its own. */
sl_scene *sl_scene_new(sl_error *error);

#endif
