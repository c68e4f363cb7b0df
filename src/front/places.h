/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where things lie: the folders of model files, in the order in which they are searched,
 * and the programs that belong to slowlift. Used by every program of the house.
 *
 * Order of the model folders: 1. --models; 2. the folder tree that the scene lies in;
 * 3. $SLOWLIFT_MODELS; 4. where this program was installed (share/slowlift/models), or
 * the link that a build leaves beside the program.
 */
#ifndef SLOWLIFT_FRONT_PLACES_H
#define SLOWLIFT_FRONT_PLACES_H

#include <stdbool.h>

#include "slowlift/error.h"
#include "slowlift/scene.h"

enum { SL_PLACES_MOST = 8, SL_PLACES_PATH = 4096 };

typedef struct sl_places {
    char program[SL_PLACES_PATH];                /* folder of the running program */
    char folder[SL_PLACES_MOST][SL_PLACES_PATH]; /* existing model folders, first wins */
    const char *folders[SL_PLACES_MOST];         /* the same, for sl_folders */
    int n_folders;
} sl_places;

/* `models` (--models) and `file` (the scene) may be NULL. Fails when --models names no
 * folder. Paths that do not fit are passed over. */
bool sl_places_find(sl_places *places, const char *models, const char *file, sl_error *error);

/* Fills `program` alone. */
void sl_places_program_folder(sl_places *places);

/* The path of a scene: `file` itself, or, when it is a bare name that is no file, that scene in the model
 * folders. Fails where neither is there, and names what is near. */
bool sl_places_scene(const sl_places *places, const char *file, char path[SL_PLACES_PATH], sl_error *error);
/* The same for another folder than scenes, such as prices. */
bool sl_places_of(const sl_places *places, const char *folder, const char *file, char path[SL_PLACES_PATH],
                  sl_error *error);

/* Find, resolve and load: what run, watch and picture begin with. */
sl_scene *sl_places_load(sl_places *places, const char *models, const char *file, sl_error *error);

/* The path of another program of the house: beside this one, in ../libexec/slowlift, or
 * (seen from there) in ../../bin. SL_ERR_MISSING_PART with what to do about it. */
bool sl_places_program(const sl_places *places, const char *name, char path[SL_PLACES_PATH], sl_error *error);

/* What somebody settled in $XDG_CONFIG_HOME/slowlift/settings.yaml, or without that in
 * ~/.config/slowlift/settings.yaml (XDG Base Directory Specification). `tests` is the folder in which logs
 * are kept: the one that was asked for (NULL: none was), else $SLOWLIFT_TESTS, else the one that is settled,
 * else the one that the program was started in. */
bool sl_places_settled(const char *asked, sl_settled *settled, sl_error *error);

#endif
