/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind lesson. Order of reading: what it says of itself, scenes (loaded and solved),
 * numbers, claims, texts; a translation is then held against its original.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/lesson_reading.h"
#include "lesson/paths.h"
#include "scene/files/scene_file.h"
#include "slowlift/limits.h"
#include "slowlift/spread.h"

enum { PATH_SIZE = 4096 };

static const char *const lesson_keys[] = {
    "kind",    "version",       "title",    "origin",    "language",   "edition", "number",
    "minutes", "level",         "scenes",   "numbers",   "claims",     "names",   "recall",
    "cases",   "misconception", "outcomes", "objective", "prediction", "reasons", "run",
    "saw",     "explain",       "transfer", "swatch",    "exit",       "teacher", "cautions"};
static const sl_words known_keys = {lesson_keys, sizeof lesson_keys / sizeof lesson_keys[0]};

/* ---- scenes ------------------------------------------------------------------------------------ */

static bool scene_solve(sl_lesson_scene *scene, sl_error *error)
{
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver &&
                      sl_timeline_solve(&scene->timeline, scene->scene, NULL, 0, solver, NULL, error) &&
                      sl_limits_prepare(scene->timeline, solver, error);
    sl_solver_free(solver);
    return good;
}

static bool scene_read(const sl_lesson_reading *in, const sl_node *node)
{
    const sl_reading *const reading = in->reading;
    sl_lesson_scene *const scene = &in->lesson->scene[in->lesson->n_scenes];
    char name[SL_MAX_NAME + 8], path[PATH_SIZE];
    if (!sl_node_is(node, SL_NODE_TEXT, "the name of a scene beside the lesson belongs here",
                    reading->error) ||
        !sl_name_check(node, node->text, reading->error)) {
        return false;
    }
    snprintf(name, sizeof name, "%s.yaml", node->text);
    scene->name = sl_arena_text(reading->kept, node->key, strlen(node->key), reading->error);
    if (!scene->name || !sl_beside(in->path, name, path, sizeof path, reading->error)) {
        return false;
    }
    in->lesson->n_scenes++; /* from here on freed with the lesson */
    scene->scene = sl_scene_load(path, reading->resolver, reading->error);
    if (!scene->scene && reading->error->code == SL_ERR_CANNOT_READ) {
        sl_node_refuse_text(node, SL_ERR_MISSING_REFERENCE, "a scene lies beside its lesson", reading->error);
    }
    return scene->scene && scene_solve(scene, reading->error);
}

static bool scenes_read(const sl_lesson_reading *in, const sl_node *root)
{
    const sl_reading *const reading = in->reading;
    static const char form[] = "write {main: scene}: the lesson's own word and the file beside it";
    const sl_node *const scenes = sl_needed_child(reading, root, "scenes", form);
    if (!scenes || !sl_node_is(scenes, SL_NODE_MAPPING, form, reading->error)) {
        return false;
    }
    if (scenes->n < 1 || scenes->n > SL_MOST_LESSON_SCENES) {
        return sl_node_refuse_key(scenes, SL_ERR_OUT_OF_RANGE, "the number of scenes", "1 to 6 belong here",
                                  reading->error);
    }
    for (const sl_node *node = scenes->first; node; node = node->next) {
        if (!scene_read(in, node)) {
            return false;
        }
    }
    return true;
}

/* ---- what it says of itself ---------------------------------------------------------------------- */

static bool head_read(const sl_lesson_reading *in, const sl_node *root)
{
    sl_lesson *const lesson = in->lesson;
    const sl_reading *const reading = in->reading;
    const sl_node *const number = sl_needed_child(reading, root, "number", "the place in the course, from 1");
    const sl_node *const minutes = number ? sl_needed_child(reading, root, "minutes", "at most 45") : NULL;
    if (!minutes || !sl_whole_read(number, 1, 99, &lesson->number, reading->error) ||
        !sl_whole_read(minutes, 1, 600, &lesson->minutes, reading->error)) {
        return false;
    }
    return lesson->minutes <= SL_LESSON_LONGEST_MIN ||
           sl_node_refuse_text(minutes, SL_ERR_TOO_LARGE, "45 minutes; make it two lessons", reading->error);
}

static bool called_read(const sl_lesson_reading *in, const sl_node *root)
{
    struct sl_lesson_memory *const memory = in->lesson->memory;
    const sl_reading *const reading = in->reading;
    const sl_node *const names = sl_node_child(root, "names");
    if (!names) {
        return true;
    }
    if (!sl_node_is(names, SL_NODE_MAPPING, "write {red: rojo}: the scene's word and the lesson's",
                    reading->error)) {
        return false;
    }
    if (names->n > SL_MOST_CALLED) {
        return sl_node_refuse_key(names, SL_ERR_TOO_LARGE, "too many names", "64", reading->error);
    }
    for (const sl_node *node = names->first; node; node = node->next) {
        const int i = memory->n_called;
        memory->of_scene[i] = sl_arena_text(reading->kept, node->key, strlen(node->key), reading->error);
        if (!memory->of_scene[i] || !sl_text_read(reading, node, SL_TEXT_NAME, 100, &memory->called[i])) {
            return false;
        }
        memory->n_called++;
    }
    return true;
}

static bool outcomes_read(const sl_lesson_reading *in, const sl_node *root)
{
    const sl_node *const list = sl_list_child(in->reading, root, "outcomes", 1, SL_MOST_OUTCOMES);
    if (!list) {
        return false;
    }
    for (const sl_node *node = list->first; node; node = node->next) {
        if (!sl_filled_read(&in->figures, node, &in->lesson->outcome[in->lesson->n_outcomes])) {
            return false;
        }
        in->lesson->n_outcomes++;
    }
    return true;
}

static bool cautions_read(const sl_lesson_reading *in, const sl_node *root)
{
    static const sl_words known = {sl_caution_names, SL_CAUTION_COUNT};
    const sl_node *const list = sl_list_child(in->reading, root, "cautions", 1, SL_MOST_LESSON_CAUTIONS);
    if (!list) {
        return false;
    }
    for (const sl_node *node = list->first; node; node = node->next) {
        int index = 0;
        if (!sl_word_read(node, &known, &index, in->reading->error)) {
            return false;
        }
        in->lesson->caution[in->lesson->n_cautions++] = (sl_caution_id)index;
    }
    return true;
}

/* ---- numbers and claims ---------------------------------------------------------------------------- */

static bool figures_read(sl_lesson_reading *in, const sl_node *root)
{
    const sl_node *const numbers = sl_list_child(in->reading, root, "numbers", 1, SL_MOST_NUMBERS);
    const sl_node *const claims =
        numbers ? sl_list_child(in->reading, root, "claims", 1, SL_MOST_CLAIMS) : NULL;
    return claims && sl_numbers_read(&in->figures, numbers) && sl_claims_read(&in->figures, claims);
}

/* ---- texts ------------------------------------------------------------------------------------------- */

bool sl_lesson_passage(const sl_lesson_reading *in, const sl_node *root, const char *key, sl_passage *into)
{
    const sl_node *const node = sl_needed_child(in->reading, root, key, "one or more paragraphs");
    return node && sl_passage_read(&in->figures, node, into);
}

static bool text(const sl_lesson_reading *in, const sl_node *root, const char *key, const char **into)
{
    const sl_node *const node = sl_needed_child(in->reading, root, key, "a text");
    return node && sl_filled_read(&in->figures, node, into);
}

/* A title is read on its own, where nothing is computed. */
static bool title_is_plain(const sl_lesson_reading *in, const sl_node *root)
{
    const sl_node *const title = sl_node_child(root, "title");
    return !strchr(title->text, '{') ||
           sl_node_refuse_text(title, SL_ERR_NOT_ALLOWED, "a title holds no {number}", in->reading->error);
}

static bool texts_read(const sl_lesson_reading *in, const sl_node *root)
{
    sl_lesson *const lesson = in->lesson;
    return title_is_plain(in, root) && text(in, root, "title", &lesson->title) &&
           text(in, root, "level", &lesson->level) &&
           sl_lesson_passage(in, root, "objective", &lesson->objective) &&
           sl_lesson_passage(in, root, "misconception", &lesson->misconception) &&
           sl_lesson_passage(in, root, "explain", &lesson->explain) &&
           sl_lesson_passage(in, root, "swatch", &lesson->swatch) &&
           sl_lesson_passage(in, root, "teacher", &lesson->teacher);
}

static bool root_read(sl_lesson_reading *in, const sl_node *root)
{
    sl_lesson *const lesson = in->lesson;
    sl_taught_header header;
    if (!sl_taught_header_read(in->reading, root, "lesson", &header) ||
        !sl_node_keys_known(root, &known_keys, in->reading->error)) {
        return false;
    }
    lesson->origin = header.origin;
    lesson->edition = header.edition;
    lesson->language = sl_language_words.word[header.language];
    in->figures.spanish = header.language == 1;
    if (!head_read(in, root) || !scenes_read(in, root)) {
        return false;
    }
    in->figures.n_scenes = lesson->n_scenes;
    const bool good = figures_read(in, root) && texts_read(in, root) && called_read(in, root) &&
                      outcomes_read(in, root) && cautions_read(in, root) && sl_lesson_pages_read(in, root) &&
                      sl_numbers_all_used(&in->figures, sl_node_child(root, "numbers")) &&
                      sl_original_check(in->reading, root, in->path, header.language);
    lesson->n_numbers = in->figures.n;
    lesson->n_claims = in->figures.n_claims;
    return good;
}

/* The name of the folder that a file lies in, "." when its path has none. */
static const char *folder_name(sl_arena *arena, const char *path, sl_error *error)
{
    const char *const slash = strrchr(path, '/');
    const char *start = slash;
    if (!slash) {
        return sl_arena_text(arena, ".", 1, error);
    }
    while (start > path && start[-1] != '/') {
        start--;
    }
    return sl_arena_text(arena, start, (size_t)(slash - start), error);
}

static bool lesson_read(sl_lesson *lesson, const char *path, const sl_resolver *resolver, sl_error *error)
{
    const sl_reading reading = {.kept = &lesson->memory->arena, .resolver = resolver, .error = error};
    sl_lesson_reading in = {.reading = &reading, .path = path, .lesson = lesson};
    in.figures = (sl_figures){
        .reading = &reading, .scene = lesson->scene, .number = lesson->numbers, .claim = lesson->claim};
    lesson->name = folder_name(reading.kept, path, error);
    sl_yaml document = {0};
    if (!lesson->name || !sl_yaml_load(&document, path, error)) {
        return false;
    }
    const bool good = root_read(&in, document.root);
    sl_yaml_free(&document);
    return good;
}

sl_lesson *sl_lesson_load(const char *path, const sl_resolver *resolver, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_error *const heard = error ? error : &unheard;
    sl_error_clear(heard);
    sl_lesson *const lesson = sl_new(1, sizeof *lesson, "reading a lesson", heard);
    if (!lesson) {
        return NULL;
    }
    lesson->memory = sl_new(1, sizeof *lesson->memory, "reading a lesson", heard);
    if (!lesson->memory || !lesson_read(lesson, path, resolver, heard)) {
        sl_lesson_free(lesson);
        return NULL;
    }
    return lesson;
}

void sl_lesson_free(sl_lesson *lesson)
{
    if (!lesson) {
        return;
    }
    for (int i = 0; i < lesson->n_scenes; i++) {
        sl_timeline_free(lesson->scene[i].timeline);
        sl_spread_free(lesson->scene[i].spread);
        sl_scene_free(lesson->scene[i].scene);
    }
    if (lesson->memory) {
        sl_arena_free(&lesson->memory->arena);
        sl_free(lesson->memory);
    }
    sl_free(lesson);
}

static bool place_read(const sl_reading *reading, const sl_node *root, int *number, const char **title)
{
    sl_taught_header header;
    if (!sl_taught_header_read(reading, root, "lesson", &header)) {
        return false;
    }
    *title = header.title;
    const sl_node *const place = sl_needed_child(reading, root, "number", "the place in the course, from 1");
    return place && sl_whole_read(place, 1, 99, number, reading->error);
}

bool sl_lesson_head(const char *path, int *number, char *title, size_t title_size, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    const sl_reading reading = {.kept = &kept, .error = error ? error : &unheard};
    sl_yaml head = {0}, whole = {0};
    const char *said = NULL;
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(reading.error);
    if (!sl_taught_file_read(path, &text, &length, reading.error)) {
        return false;
    }
    /* Keys may stand in any order: what the head lacks is looked for in the whole file. */
    bool good = sl_yaml_head(&head, text, length, path, reading.error) &&
                place_read(&reading, head.root, number, &said);
    if (!good) {
        sl_error_clear(reading.error);
        good = sl_yaml_parse(&whole, text, length, path, reading.error) &&
               place_read(&reading, whole.root, number, &said);
    }
    if (good) {
        snprintf(title, title_size, "%s", said);
    }
    sl_yaml_free(&head);
    sl_yaml_free(&whole);
    sl_arena_free(&kept);
    sl_free(text);
    return good;
}
