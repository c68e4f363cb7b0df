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

/* All lessons that say their title, in the reader's language where they have it, and their place in the
 * course, in that order: from the first model folder that has any beside it. */
enum { SL_MOST_LESSONS = 64, SL_LESSON_NAME = 256 };
typedef struct sl_lesson_entry {
    int number;
    char name[SL_LESSON_NAME], title[SL_LESSON_NAME];
} sl_lesson_entry;
bool sl_lessons_list(const sl_places *places, sl_lesson_entry lessons[SL_MOST_LESSONS], int *n,
                     sl_error *error);

#endif
