/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where lessons lie: in `lessons` beside each model folder.
 */
#include "front/lessons.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
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

/* ---- all of them ------------------------------------------------------------------------------ */

static int by_number(const void *one, const void *two)
{
    const sl_lesson_entry *const a = one, *const b = two;
    return a->number != b->number ? (a->number < b->number ? -1 : 1) : strcmp(a->name, b->name);
}

/* The lessons of one folder, those that say their title and place. */
static bool gather_lessons(const char *path, sl_lesson_entry lessons[SL_MOST_LESSONS], int *n_lessons,
                           sl_error *error)
{
    DIR *const folder = opendir(path); /* none that may be read is no error */
    const struct dirent *file = NULL;
    int n = 0;
    bool good =
        folder != NULL || errno != ENOMEM || sl_fail(error, SL_ERR_NO_MEMORY, "listing model files", "");
    while (folder != NULL && good && n < SL_MOST_LESSONS && (file = readdir(folder)) != NULL) {
        char lesson[SL_PLACES_PATH + SL_LESSON_NAME + 32];
        sl_lesson_entry *const entry = &lessons[n];
        sl_error why = {.code = SL_OK};
        if (file->d_name[0] == '.') {
            continue;
        }
        bool read = false;
        for (int original = 0; !read && original < 2 && why.code != SL_ERR_NO_MEMORY; original++) {
            sl_error_clear(&why);
            snprintf(lesson, sizeof lesson, "%s/%s/lesson%s%s.yaml", path, file->d_name, original ? "" : ".",
                     original ? "" : sl_language());
            read = sl_lesson_head(lesson, &entry->number, entry->title, sizeof entry->title, &why);
        }
        if (read) {
            snprintf(entry->name, sizeof entry->name, "%.255s", file->d_name);
            n++;
        } else if (why.code == SL_ERR_NO_MEMORY) {
            *error = why;
            good = false;
        }
    }
    if (folder != NULL) {
        closedir(folder);
    }
    *n_lessons = n;
    return good;
}

bool sl_lessons_list(const sl_places *places, sl_lesson_entry lessons[SL_MOST_LESSONS], int *n,
                     sl_error *error)
{
    *n = 0;
    for (int i = 0; i < places->n_folders && *n == 0; i++) {
        char path[SL_PLACES_PATH + 16];
        snprintf(path, sizeof path, "%s/../lessons", places->folder[i]);
        if (!gather_lessons(path, lessons, n, error)) {
            return false;
        }
    }
    if (*n > 0) {
        qsort(lessons, (size_t)*n, sizeof lessons[0], by_number);
    }
    return true;
}
