/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where things lie.
 */
#include "front/places.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/language.h"
#include "scene/yaml/nearby.h"

static bool is_folder(const char *path)
{
    struct stat found;
    return stat(path, &found) == 0 && S_ISDIR(found.st_mode);
}

static bool is_file(const char *path)
{
    struct stat found;
    return stat(path, &found) == 0 && !S_ISDIR(found.st_mode);
}

/* "<one>/<two>" in `path`, false when it does not fit. */
static bool join(char path[SL_PLACES_PATH], const char *one, const char *two)
{
    const int length = snprintf(path, SL_PLACES_PATH, "%s/%s", one, two);
    return length > 0 && length < SL_PLACES_PATH;
}

void sl_places_program_folder(sl_places *places)
{
    const ssize_t length = readlink("/proc/self/exe", places->program, SL_PLACES_PATH - 1);
    places->program[length > 0 ? length : 0] = '\0';
    char *slash = strrchr(places->program, '/');
    if (slash != NULL) {
        *slash = '\0';
    }
}

static void add_folder(sl_places *places, const char *path)
{
    if (places->n_folders == SL_PLACES_MOST || strlen(path) >= SL_PLACES_PATH || !is_folder(path)) {
        return;
    }
    for (int i = 0; i < places->n_folders; i++) {
        if (strcmp(places->folder[i], path) == 0) {
            return;
        }
    }
    snprintf(places->folder[places->n_folders], SL_PLACES_PATH, "%s", path);
    places->n_folders++;
}

static bool looks_like_models(const char *path)
{
    static const char *const kinds[] = {"hair", "dyes", "mixes", "chemistry"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        char inside[SL_PLACES_PATH];
        if (join(inside, path, kinds[i]) && is_folder(inside)) {
            return true;
        }
    }
    return false;
}

/* The folders above a file that hold kind folders, nearest first. */
static void add_tree(sl_places *places, const char *file)
{
    char path[SL_PLACES_PATH];
    char *real = realpath(file, NULL);
    if (real == NULL || strlen(real) >= sizeof path) {
        free(real);
        return;
    }
    snprintf(path, sizeof path, "%s", real);
    free(real);
    const int levels = 3;
    for (int i = 0; i < levels; i++) {
        char *slash = strrchr(path, '/');
        if (slash == NULL || slash == path) {
            return;
        }
        *slash = '\0';
        if (looks_like_models(path)) {
            add_folder(places, path);
        }
    }
}

bool sl_places_find(sl_places *places, const char *models, const char *file, sl_error *error)
{
    *places = (sl_places){.n_folders = 0};
    sl_places_program_folder(places);
    if (models != NULL) {
        if (!is_folder(models)) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("--models: there is no folder \"%.150s\""), models);
            return sl_fail(error, SL_ERR_USAGE, found,
                           "give a folder that holds hair, dyes, mixes and chemistry");
        }
        add_folder(places, models);
    }
    if (file != NULL) {
        add_tree(places, file);
    }
    const char *named = getenv("SLOWLIFT_MODELS");
    if (named != NULL && named[0] != '\0') {
        add_folder(places, named);
    }
    static const char *const installed[] = {"../share/slowlift/models", "../../share/slowlift/models",
                                            "models"};
    for (size_t i = 0; i < sizeof installed / sizeof installed[0]; i++) {
        char path[SL_PLACES_PATH];
        if (join(path, places->program, installed[i]) && is_folder(path)) {
            char *real = realpath(path, NULL);
            add_folder(places, real != NULL ? real : path);
            free(real);
        }
    }
    for (int i = 0; i < places->n_folders; i++) {
        places->folders[i] = places->folder[i];
    }
    return true;
}

bool sl_places_scene(const sl_places *places, const char *file, char path[SL_PLACES_PATH], sl_error *error)
{
    return sl_places_of(places, "scenes", file, path, error);
}

static bool refuse_absent(const sl_places *places, const char *folder, const char *file, int reason,
                          sl_error *error)
{
    static const char end[] = ".yaml";
    char path[SL_PLACES_PATH];
    sl_nearby nearby = sl_nearby_begin(file);
    for (int i = 0; i < places->n_folders; i++) {
        if (join(path, places->folder[i], folder)) {
            sl_nearby_look(&nearby, path, end, "", true);
        }
    }
    sl_nearby_look(&nearby, nearby.folder, end, nearby.folder, false);
    if (nearby.folder[0] == '\0' && join(path, folder, "")) {
        sl_nearby_look(&nearby, path, end, path, false);
    }
    return sl_nearby_refuse(&nearby, file, reason,
                            _("\"slowlift list\" shows the names there are, --models names another folder"),
                            error);
}

bool sl_places_of(const sl_places *places, const char *folder, const char *file, char path[SL_PLACES_PATH],
                  sl_error *error)
{
    struct stat found;
    const int reason = stat(file, &found) == 0 ? 0 : errno;
    const bool bare = strchr(file, '/') == NULL && strchr(file, '.') == NULL;
    for (int i = 0; bare && reason != 0 && i < places->n_folders; i++) {
        const int length = snprintf(path, SL_PLACES_PATH, "%s/%s/%s.yaml", places->folder[i], folder, file);
        if (length > 0 && length < SL_PLACES_PATH && is_file(path)) {
            return true;
        }
    }
    snprintf(path, SL_PLACES_PATH, "%s", file);
    return (reason != ENOENT && reason != ENOTDIR) || refuse_absent(places, folder, file, reason, error);
}

sl_scene *sl_places_load(sl_places *places, const char *models, const char *file, sl_error *error)
{
    if (!sl_places_find(places, models, file, error)) {
        return NULL;
    }
    char path[SL_PLACES_PATH];
    if (!sl_places_scene(places, file, path, error)) {
        return NULL;
    }
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    return sl_scene_load(path, &resolver, error);
}

bool sl_places_program(const sl_places *places, const char *name, char path[SL_PLACES_PATH], sl_error *error)
{
    static const char *const where[] = {".", "../libexec/slowlift", "../../bin"};
    for (size_t i = 0; i < sizeof where / sizeof where[0]; i++) {
        const int length = snprintf(path, SL_PLACES_PATH, "%s/%s/%s", places->program, where[i], name);
        if (length > 0 && length < SL_PLACES_PATH && is_file(path) && access(path, X_OK) == 0) {
            return true;
        }
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("the program %s was not built or not installed"), name);
    return sl_fail(
        error, SL_ERR_MISSING_PART, found,
        "build slowlift with its libraries present, or use \"slowlift run\", which needs none of them");
}

static const char *said(const char *name)
{
    const char *const text = getenv(name);
    return text && text[0] != '\0' ? text : NULL;
}

/* ~/tests, by the folder that the system calls one's own. */
static void from_home(char path[SL_SETTLED_PATH])
{
    char rest[SL_SETTLED_PATH];
    const char *const home = said("HOME");
    if (path[0] == '~' && home) {
        memcpy(rest, path + 1, strlen(path));
        snprintf(path, SL_SETTLED_PATH, "%s%s", home, rest);
    }
}

bool sl_places_settled(const char *asked, sl_settled *settled, sl_error *error)
{
    char path[SL_PLACES_PATH];
    bool absent = true;
    const char *const config = said("XDG_CONFIG_HOME"), *const home = said("HOME");
    const char *const named = asked ? asked : said("SLOWLIFT_TESTS");
    *settled = (sl_settled){.keep_months = 0};
    snprintf(path, sizeof path, "%s%s/slowlift/settings.yaml",
             config ? config
             : home ? home
                    : "",
             config ? "" : "/.config");
    if ((config || home) && !sl_settled_load(path, settled, &absent, error)) {
        return false;
    }
    from_home(settled->tests);
    if (named && strlen(named) >= SL_SETTLED_PATH) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "a path is too long", "4095 bytes");
    }
    if (named || settled->tests[0] == '\0') {
        snprintf(settled->tests, sizeof settled->tests, "%s", named ? named : ".");
    }
    return true;
}
