/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where lessons lie: in `lessons` beside each model folder.
 */
#include "front/lessons.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/language.h"
#include "scene/yaml/nearby.h"

static bool is_found(const char *path)
{
    struct stat found;
    return stat(path, &found) == 0 && S_ISREG(found.st_mode);
}

bool sl_lessons_folder(const sl_places *places, const char *name, char path[SL_PLACES_PATH])
{
    for (int i = 0; i < places->n_folders; i++) {
        const int length = snprintf(path, SL_PLACES_PATH, "%s/../lessons/%s", places->folder[i], name);
        if (length > 0 && length < SL_PLACES_PATH && is_found(path)) {
            return true;
        }
    }
    return false;
}

static void path_of(const sl_places *places, const char *name, const char *language,
                    char path[SL_PLACES_PATH])
{
    char inside[SL_PLACES_PATH];
    const char *const file = strcmp(language, "es") == 0 ? "lesson.es.yaml" : "lesson.yaml";
    const int length = snprintf(inside, sizeof inside, "%s/%s", name, file);
    const bool fits = length > 0 && length < SL_PLACES_PATH;
    if (fits && strchr(name, '/') == NULL && sl_lessons_folder(places, inside, path)) {
        return;
    }
    const bool folder = fits && is_found(inside);
    snprintf(path, SL_PLACES_PATH, "%s", folder ? inside : name);
}

static sl_lesson *refuse_absent(const sl_places *places, const char *name, const char *language,
                                sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], folder[SL_PLACES_PATH + 16];
    sl_nearby nearby = sl_nearby_begin(name);
    for (int i = 0; i < places->n_folders; i++) {
        snprintf(folder, sizeof folder, "%s/../lessons", places->folder[i]);
        sl_nearby_look(&nearby, folder, "", "", false);
    }
    sl_nearby_look(&nearby, nearby.folder, ".yaml", nearby.folder, false);
    snprintf(found, sizeof found,
             strcmp(language, "es") == 0 ? _("there is no lesson \"%.80s\" in Spanish")
                                         : _("there is no lesson \"%.80s\""),
             name);
    sl_nearby_say(&nearby, _("slowlift list shows the lessons there are"), wanted, sizeof wanted);
    if (strcmp(name, "quiz") == 0) { /* it lies beside them, and is none */
        snprintf(wanted, sizeof wanted, "%s", _("slowlift teach --quiz before takes the quiz"));
    }
    sl_fail(error, SL_ERR_USAGE, found, wanted);
    return NULL;
}

sl_lesson *sl_lesson_open(const sl_places *places, const char *name, const char *language, sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    path_of(places, name, language, path);
    return is_found(path) ? sl_lesson_load(path, &resolver, error)
                          : refuse_absent(places, name, language, error);
}
