/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where lessons lie: in `lessons` beside each model folder.
 */
#ifndef SLOWLIFT_FRONT_LESSONS_H
#define SLOWLIFT_FRONT_LESSONS_H

#include <stdbool.h>

#include "front/places.h"
#include "slowlift/lesson.h"

/* The lesson lessons/<name>/lesson[.es].yaml beside the model folders, that of a folder, or a file. NULL
 * where there is none, with what is near, or where it does not read. */
sl_lesson *sl_lesson_open(const sl_places *places, const char *name, const char *language, sl_error *error);
/* The file lessons/<name> beside the model folders; false: there is none. */
bool sl_lessons_folder(const sl_places *places, const char *name, char path[SL_PLACES_PATH]);

#endif
