/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where lessons lie: in `lessons` beside each model folder.
 */
#ifndef SLOWLIFT_FRONT_LESSONS_H
#define SLOWLIFT_FRONT_LESSONS_H

#include <stdbool.h>

#include "front/places.h"

/* Whether `path` is a file. */
bool sl_lesson_found(const char *path);
/* lessons/<name>/lesson[.es].yaml beside the model folders, or the path itself. */
void sl_lesson_path(const sl_places *places, const char *name, const char *language,
                    char path[SL_PLACES_PATH]);
/* The file lessons/<name> beside the model folders; false: there is none. */
bool sl_lessons_folder(const sl_places *places, const char *name, char path[SL_PLACES_PATH]);

#endif
