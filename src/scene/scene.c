/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Scenes from text and from disk, and the check of one file of any kind. A scene lives in
 * the arena that it owns; a failure frees the arena with all that was read.
 */
#include "slowlift/scene.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/files/scene_file.h"
#include "scene/library.h"
#include "scene/records.h"
#include "scene/yaml/file.h"

const char *sl_file_kind_word(sl_file_kind kind)
{
    return sl_kind_words.word[kind];
}

sl_scene *sl_scene_new(sl_error *error)
{
    struct sl_scene_memory *const memory = sl_new(1, sizeof *memory, "making a scene", error);
    if (!memory) {
        return NULL;
    }
    sl_scene *const scene = sl_arena_new(&memory->arena, 1, sizeof *scene, "making a scene", error);
    if (!scene) {
        sl_free(memory);
        return NULL;
    }
    scene->memory = memory;
    return scene;
}

void sl_scene_free(sl_scene *scene)
{
    if (scene) {
        struct sl_scene_memory *const memory = scene->memory; /* the scene lies in its own arena */
        sl_arena_free(&memory->arena);
        sl_free(memory);
    }
}

/* The name of a file without folders and ending. */
static const char *stem(sl_arena *arena, const char *path, sl_error *error)
{
    const char *const slash = strrchr(path, '/');
    const char *const base = slash ? slash + 1 : path;
    const char *const dot = strrchr(base, '.');
    return sl_arena_text(arena, base, dot && dot > base ? (size_t)(dot - base) : strlen(base), error);
}

static bool scene_fill(const sl_reading *reading, const char *text, size_t length, const char *name,
                       sl_scene *scene)
{
    sl_yaml document = {0};
    if (!sl_yaml_parse(&document, text, length, name, reading->error)) {
        return false;
    }
    const bool good = sl_scene_read(reading, document.root, scene);
    sl_yaml_free(&document);
    scene->name = good ? stem(reading->kept, name, reading->error) : NULL;
    return scene->name != NULL;
}

static sl_library *library_of(const sl_resolver *resolver, sl_library *own)
{
    return resolver && resolver->library ? resolver->library : own;
}

sl_scene *sl_scene_parse(const char *text, size_t length, const char *name, const sl_resolver *resolver,
                         sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_error *const heard = error ? error : &unheard;
    sl_error_clear(heard);
    sl_scene *const scene = sl_scene_new(heard);
    if (!scene) {
        return NULL;
    }
    sl_library own = {.newest = NULL};
    const sl_reading reading = {.kept = &scene->memory->arena,
                                .resolver = resolver,
                                .library = library_of(resolver, &own),
                                .error = heard};
    const bool good = scene_fill(&reading, text, length, name, scene);
    sl_library_clear(&own);
    if (!good) {
        sl_scene_free(scene);
        return NULL;
    }
    return scene;
}

sl_scene *sl_scene_load(const char *path, const sl_resolver *resolver, sl_error *error)
{
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(error);
    if (!sl_file_read(path, N_("the scene that is read"), &text, &length, NULL, error)) {
        return NULL;
    }
    sl_scene *const scene = sl_scene_parse(text, length, path, resolver, error);
    sl_free(text);
    return scene;
}

/* ---- the check of any file ------------------------------------------------------------- */

static bool dyes_check(const sl_reading *reading, const sl_chain *chain, const sl_node *root)
{
    sl_wording title = {{NULL}};
    sl_dyes_record *const set = sl_new(1, sizeof *set, "reading the dyes", reading->error);
    bool good = set && sl_library_read_root(reading, chain, root, sl_dyes_read, set, &title);
    for (int i = 0; good && i < set->n_dyes; i++) {
        sl_dye dye;
        good = sl_dye_make(reading, set, &set->dyes[i], &dye);
    }
    sl_free(set);
    return good;
}

static bool scene_check(const sl_reading *reading, const sl_node *root)
{
    sl_scene scene = {.memory = NULL};
    return sl_scene_read(reading, root, &scene);
}

static bool prices_check(const sl_reading *reading, const sl_node *root)
{
    sl_prices prices = {.currency = ""};
    return sl_prices_read(reading, root, &prices);
}

static bool settings_check(const sl_reading *reading, const sl_node *root)
{
    sl_settled settled = {.tests = ""};
    return sl_settled_read(reading, root, &settled);
}

static bool kind_check(const sl_reading *reading, const char *name, const sl_node *root, sl_header *header)
{
    if (!sl_header_read(reading, root, header)) {
        return false;
    }
    sl_wording title = {{NULL}};
    sl_chemistry chemistry = {.name = NULL};
    sl_hair_record hair = {.prelightened = false};
    sl_mix_record mix = {.has_ph = false};
    sl_chart chart = {.name = NULL};
    sl_intake intake = {0};
    const sl_chain chain = {.kind = header->kind, .name = name};
    switch (header->kind) {
    case SL_KIND_SCENE:
        return scene_check(reading, root);
    case SL_KIND_HAIR:
        return sl_library_read_root(reading, &chain, root, sl_hair_read, &hair, &title);
    case SL_KIND_DYES:
        return dyes_check(reading, &chain, root);
    case SL_KIND_MIX:
        return sl_library_read_root(reading, &chain, root, sl_mix_read, &mix, &title);
    case SL_KIND_CHEMISTRY:
        return sl_library_read_root(reading, &chain, root, sl_chemistry_read, &chemistry, &title);
    case SL_KIND_CHART:
        return sl_library_read_root(reading, &chain, root, sl_chart_file_read, &chart, &title);
    case SL_KIND_INTAKE:
        return sl_intake_read(reading, root, NULL, &intake);
    case SL_KIND_PRICES:
        return prices_check(reading, root);
    case SL_KIND_SETTINGS:
        return settings_check(reading, root);
    case SL_KIND_COUNT:
        break;
    }
    return false;
}

static bool root_check(const sl_reading *reading, const char *path, const sl_node *root, sl_header *header)
{
    const char *const name = stem(reading->kept, path, reading->error);
    return name && kind_check(reading, name, root, header);
}

/* A file that another has named was parsed then. */
static bool path_check(const sl_reading *reading, const char *path, sl_header *header)
{
    const sl_node *const parsed = sl_library_parsed(reading->library, path);
    if (parsed) {
        return root_check(reading, path, parsed, header);
    }
    char *text = NULL;
    size_t length = 0;
    sl_yaml document = {0};
    const bool good =
        sl_file_read(path, N_("a file that is checked"), &text, &length, NULL, reading->error) &&
        sl_yaml_parse(&document, text, length, path, reading->error) &&
        root_check(reading, path, document.root, header);
    sl_yaml_free(&document);
    sl_free(text);
    return good;
}

bool sl_file_check(const char *path, const sl_resolver *resolver, sl_file_kind *kind, char *title,
                   size_t title_size, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    sl_library own = {.newest = NULL};
    const sl_reading reading = {.kept = &kept,
                                .resolver = resolver,
                                .library = library_of(resolver, &own),
                                .error = error ? error : &unheard,
                                .faults = resolver ? resolver->faults : NULL};
    sl_header header = {.kind = SL_KIND_SCENE};
    sl_error_clear(reading.error);
    const bool good = path_check(&reading, path, &header);
    if (!good) {
        sl_pass_over(&reading);
    }
    if (good && kind) {
        *kind = header.kind;
    }
    if (good && title && title_size > 0) {
        snprintf(title, title_size, "%s", sl_wording_shown(&header.title));
    }
    sl_library_clear(&own);
    sl_arena_free(&kept);
    return good;
}
