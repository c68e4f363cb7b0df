/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene is kept as the texts of all its files, so that it can be computed again as it was when
 * models have long changed; the hash is over those texts.
 */
#include "log/store/scene_kept.h"

#include <sha256.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/store/sql.h"
#include "scene/yaml/file.h"
#include "slowlift/leave.h"
#include "slowlift/strand_log.h"

/* ---- a resolver that remembers what it gave ------------------------------------------------------------ */

static bool keep(sl_keeper *keeper, const char *kind, const char *name, const char *text, size_t length,
                 sl_error *error)
{
    for (int i = 0; i < keeper->n; i++) {
        if (strcmp(keeper->file[i].kind, kind) == 0 && strcmp(keeper->file[i].name, name) == 0) {
            return true;
        }
    }
    if (keeper->n == SL_KEPT_MOST) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "a scene of so many files", "256 files");
    }
    sl_kept_file *const file = &keeper->file[keeper->n];
    file->text = sl_new(length + 1, 1, "keeping the scene", error);
    if (!file->text) {
        return false;
    }
    memcpy(file->text, text, length);
    snprintf(file->kind, sizeof file->kind, "%s", kind);
    snprintf(file->name, sizeof file->name, "%s", name);
    keeper->n++;
    return true;
}

static bool fetch_and_keep(void *self, const char *kind, const char *name, char **text, size_t *length,
                           char *path, size_t path_size, sl_error *error)
{
    sl_keeper *const keeper = self;
    if (!keeper->from->fetch(keeper->from->self, kind, name, text, length, path, path_size, error)) {
        return false;
    }
    if (!keep(keeper, kind, name, *text, *length, error)) {
        keeper->from->release(keeper->from->self, *text);
        return false;
    }
    return true;
}

static void release_kept(void *self, char *text)
{
    const sl_keeper *const keeper = self;
    keeper->from->release(keeper->from->self, text);
}

/* The file's name without folders and ending, as scenes call themselves. */
static void name_of(const char *path, char name[SL_KEPT_NAME])
{
    const char *const slash = strrchr(path, '/');
    const char *const base = slash ? slash + 1 : path;
    const char *const dot = strrchr(base, '.');
    snprintf(name, SL_KEPT_NAME, "%.*s", (int)(dot && dot > base ? (size_t)(dot - base) : strlen(base)),
             base);
}

bool sl_keeper_read(sl_keeper *keeper, const char *path, const sl_resolver *from, sl_error *error)
{
    char *text = NULL, name[SL_KEPT_NAME];
    size_t length = 0;
    if (!sl_file_read(path, N_("the scene that is read"), &text, &length, NULL, error)) {
        return false;
    }
    name_of(path, name);
    keeper->from = from;
    const sl_resolver resolver = {.self = keeper, .fetch = fetch_and_keep, .release = release_kept};
    sl_scene *scene = NULL;
    if (keep(keeper, "scene", name, text, length, error)) {
        scene = sl_scene_parse(text, length, path, &resolver, error);
    }
    const bool good = scene != NULL;
    sl_scene_free(scene);
    sl_free(text);
    return good;
}

void sl_keeper_free(sl_keeper *keeper)
{
    for (int i = 0; i < keeper->n; i++) {
        sl_free(keeper->file[i].text);
    }
    sl_free(keeper);
}

static void add_text(SHA2_CTX *sum, const char *text)
{
    SHA256Update(sum, (const unsigned char *)text, strlen(text) + 1);
}

void sl_keeper_hash(const sl_keeper *keeper, char hash[SL_SHA256_TEXT])
{
    SHA2_CTX sum;
    SHA256Init(&sum);
    for (int i = 0; i < keeper->n; i++) {
        add_text(&sum, keeper->file[i].kind);
        add_text(&sum, keeper->file[i].name);
        add_text(&sum, keeper->file[i].text);
    }
    SHA256End(&sum, hash);
}

bool sl_kept_scene_hash(sl_log *log, const char *test, char hash[SL_SHA256_TEXT], sl_error *error)
{
    SHA2_CTX sum;
    SHA256Init(&sum);
    sl_statement ask =
        sl_sql(log, "SELECT kind, name, text FROM scene_file WHERE test = ? ORDER BY place", error);
    sl_put_text(&ask, test);
    while (sl_next_row(&ask)) {
        for (int i = 0; i < 3; i++) {
            add_text(&sum, sl_text_at(&ask, i));
        }
    }
    SHA256End(&sum, hash);
    return sl_sql_leave(&ask);
}

/* ---- the scene as it was --------------------------------------------------------------------------------
 */

typedef struct sl_shelf {
    sl_log *log;
    const char *test;
} sl_shelf;

static bool fetch_from_shelf(void *self, const char *kind, const char *name, char **text, size_t *length,
                             char *path, size_t path_size, sl_error *error)
{
    const sl_shelf *const shelf = self;
    sl_statement ask =
        sl_sql(shelf->log, "SELECT text FROM scene_file WHERE test = ? AND kind = ? AND name = ?", error);
    sl_put_text(&ask, shelf->test);
    sl_put_text(&ask, kind);
    sl_put_text(&ask, name);
    char *copy = NULL;
    const bool there = sl_next_row(&ask);
    if (there) {
        const char *const kept = sl_text_at(&ask, 0);
        *length = strlen(kept);
        copy = sl_new(*length + 1, 1, "reading the scene", error);
        if (copy) {
            memcpy(copy, kept, *length);
        }
    }
    const bool good = sl_sql_leave(&ask);
    if (good && !there) {
        return sl_fail(error, SL_ERR_MISSING_REFERENCE, name, "the log does not hold it");
    }
    if (!good || !copy) {
        sl_free(copy);
        return false;
    }
    snprintf(path, path_size, "%s (in the log)", name);
    *text = copy;
    return true;
}

static void release_from_shelf(void *self, char *text)
{
    (void)self;
    sl_free(text);
}

/* Whether a swatch of the test is noted as a strand of somebody's hair. */
static bool is_somebodys(sl_log *log, const char *test, bool *somebodys, sl_error *error)
{
    sl_statement ask = sl_sql(
        log, "SELECT note FROM event WHERE test = ?1 AND kind = 'note' AND swatch IS NOT NULL" SL_NOT_UNDONE,
        error);
    sl_put_text(&ask, test);
    *somebodys = false;
    while (sl_next_row(&ask)) {
        sl_strand_note note = {.person = ""};
        *somebodys =
            *somebodys || (sl_strand_note_read(sl_text_at(&ask, 0), &note) && note.person[0] != '\0');
    }
    return sl_sql_leave(&ask);
}

sl_scene *sl_log_scene(sl_log *log, const char *test, sl_error *error)
{
    sl_shelf shelf = {log, test};
    const sl_resolver resolver = {.self = &shelf, .fetch = fetch_from_shelf, .release = release_from_shelf};
    char name[SL_KEPT_NAME] = "", path[SL_KEPT_NAME + 16];
    char *text = NULL;
    size_t length = 0;
    sl_statement ask = sl_sql(log, "SELECT name FROM scene_file WHERE test = ? AND place = 0", error);
    sl_put_text(&ask, test);
    if (sl_next_row(&ask)) {
        sl_copy_at(&ask, 0, name, sizeof name);
    }
    if (!sl_sql_leave(&ask) ||
        !fetch_from_shelf(&shelf, "scene", name, &text, &length, path, sizeof path, error)) {
        return NULL;
    }
    sl_scene *scene = sl_scene_parse(text, length, name, &resolver, error);
    sl_free(text);
    bool somebodys = false;
    if (scene && !is_somebodys(log, test, &somebodys, error)) {
        sl_scene_free(scene);
        scene = NULL;
    }
    if (scene) {
        scene->untold = somebodys || sl_scene_on_head(scene);
    }
    return scene;
}
