/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where lessons lie: in `lessons` beside each model folder.
 */
#include "front/lessons.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

bool sl_lesson_found(const char *path)
{
    struct stat found;
    return stat(path, &found) == 0 && S_ISREG(found.st_mode);
}

bool sl_lessons_folder(const sl_places *places, const char *name, char path[SL_PLACES_PATH])
{
    for (int i = 0; i < places->n_folders; i++) {
        const int length = snprintf(path, SL_PLACES_PATH, "%s/../lessons/%s", places->folder[i], name);
        if (length > 0 && length < SL_PLACES_PATH && sl_lesson_found(path)) {
            return true;
        }
    }
    return false;
}

void sl_lesson_path(const sl_places *places, const char *name, const char *language,
                    char path[SL_PLACES_PATH])
{
    char inside[SL_PLACES_PATH];
    const char *const file = strcmp(language, "es") == 0 ? "lesson.es.yaml" : "lesson.yaml";
    const int length = snprintf(inside, sizeof inside, "%s/%s", name, file);
    const bool fits = length > 0 && length < SL_PLACES_PATH;
    if (fits && strchr(name, '/') == NULL && sl_lessons_folder(places, inside, path)) {
        return;
    }
    const bool folder = fits && sl_lesson_found(inside);
    snprintf(path, SL_PLACES_PATH, "%s", folder ? inside : name);
}
