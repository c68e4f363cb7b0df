/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See my_tests.h.
 */
#include "view/start/my_tests.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_file.h"
#include "front/places.h"
#include "slowlift/report.h"

static const char doing[] = "listing tests";

/* A day that was left behind longer ago than this is none that somebody comes back to. (assumed) */
enum { RUNS_DAYS = 1 };

/* What a log says beyond its row, while it is open. */
typedef struct sl_on_bench {
    char id[SL_UUID];
    bool runs;
    int n_on_hair;
    sl_instant contact;
} sl_on_bench;

typedef struct sl_reading_tests {
    sl_my_tests *my;
    const char *models;
    sl_on_bench *bench; /* [n] */
    size_t n, room;
} sl_reading_tests;

void sl_my_path(const sl_my_tests *my, const char *name, const char *end, char path[SL_SETTLED_PATH])
{
    snprintf(path, SL_SETTLED_PATH, "%.3700s/%.300s%.40s", my->settled.tests, name, end);
}

void sl_my_free_name(const sl_my_tests *my, const char *name, const char *end, char free_name[SL_SHELF_NAME])
{
    char path[SL_SETTLED_PATH];
    snprintf(free_name, SL_SHELF_NAME, "%.200s", name);
    for (int i = 2; i < 10000; i++) {
        sl_my_path(my, free_name, end, path);
        if (access(path, F_OK) != 0) {
            return;
        }
        snprintf(free_name, SL_SHELF_NAME, "%.200s-%d", name, i);
    }
}

/* ---- logs ----------------------------------------------------------------------------------------- */

static bool look_at(void *self, const sl_kept_test *kept, sl_error *error)
{
    sl_reading_tests *const reading = self;
    const sl_log_shelf *const shelf = &reading->my->shelf;
    if (!sl_grow(&reading->bench, &reading->room, reading->n + 1, sizeof *reading->bench, doing, error)) {
        return false;
    }
    sl_on_bench *const bench = &reading->bench[reading->n++];
    *bench = (sl_on_bench){.runs = !kept->went.rehearsed && sl_kept_test_state(kept) == SL_TEST_RUNNING &&
                                   sl_day_of_instant(&kept->folded->start) >= shelf->today - RUNS_DAYS};
    snprintf(bench->id, sizeof bench->id, "%s", kept->test.id);
    for (int i = 0; i < kept->n; i++) {
        const sl_bench_state *const state = &kept->folded->state[i];
        if (state->stage == SL_STAGE_ON_HAIR) {
            const bool first = bench->n_on_hair == 0 || state->contact.wall_ns < bench->contact.wall_ns;
            bench->contact = first ? state->contact : bench->contact;
            bench->n_on_hair++;
        }
    }
    return true;
}

static sl_my_test *add(sl_my_tests *my, sl_error *error)
{
    if (!sl_grow(&my->test, &my->room, my->n + 1, sizeof *my->test, doing, error)) {
        return NULL;
    }
    sl_my_test *const test = &my->test[my->n++];
    *test = (sl_my_test){.row = -1};
    return test;
}

static void name_of(const char *file, char name[SL_SHELF_NAME])
{
    const char *const end = strrchr(file, '.');
    snprintf(name, SL_SHELF_NAME, "%.*s", end != NULL && end != file ? (int)(end - file) : (int)strlen(file),
             file);
}

static bool add_logs(sl_reading_tests *reading, bool read, sl_error *error)
{
    sl_my_tests *const my = reading->my;
    for (size_t i = 0; i < my->shelf.n; i++) {
        const sl_shelf_row *const row = &my->shelf.row[i];
        if ((row->why.code == SL_OK) != read) {
            continue;
        }
        sl_my_test *const test = add(my, error);
        if (test == NULL) {
            return false;
        }
        name_of(row->file, test->name);
        snprintf(test->log, sizeof test->log, "%s", row->file);
        snprintf(test->title, sizeof test->title, "%.200s", read ? row->test.title : test->name);
        snprintf(test->id, sizeof test->id, "%s", row->test.id);
        test->row = (int)i;
        test->why = row->why;
        test->why.file[0] = '\0'; /* its name stands beside it */
        for (size_t k = 0; k < reading->n && read && !row->copy; k++) {
            const sl_on_bench *const bench = &reading->bench[k];
            if (strcmp(bench->id, row->test.id) == 0) {
                test->runs = bench->runs && row->state == SL_TEST_RUNNING;
                test->n_on_hair = bench->n_on_hair;
                test->contact = bench->contact;
            }
        }
    }
    return true;
}

/* ---- scenes ------------------------------------------------------------------------------------------- */

/* By the line that every file of ours has near its head. */
static bool is_scene(const char *path)
{
    static const sl_file_most most = {256 << 10, "256 KiB"};
    char *text = NULL;
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    const char *const end = strrchr(path, '.');
    if (end == NULL || strcmp(end, ".yaml") != 0 ||
        !sl_plain_file_read(path, N_("a scene"), most, &text, &length, NULL, &error)) {
        return false;
    }
    const bool found = strncmp(text, "kind: scene", 11) == 0 || strstr(text, "\nkind: scene") != NULL;
    sl_free(text);
    return found;
}

static bool add_scene(void *self, const char *path, const char *file, sl_error *error)
{
    const sl_reading_tests *const reading = self;
    sl_my_tests *const my = reading->my;
    char name[SL_SHELF_NAME], title[SL_LOG_TITLE] = "";
    sl_error why = {.code = SL_OK};
    bool known = false;
    if (!is_scene(path)) {
        return true;
    }
    name_of(file, name);
    sl_places *const places = sl_new(1, sizeof *places, doing, error);
    if (places == NULL) {
        return false;
    }
    sl_scene *const scene = sl_places_load(places, reading->models, path, &why);
    sl_free(places);
    snprintf(title, sizeof title, "%.200s", scene != NULL ? sl_scene_title(scene) : name);
    for (size_t i = 0; i < my->n; i++) {
        if (scene != NULL && my->test[i].why.code == SL_OK && strcmp(my->test[i].name, name) == 0) {
            my->test[i].scene = known = true;
        }
    }
    sl_scene_free(scene);
    sl_my_test *const test = known ? NULL : add(my, error);
    if (!known && test == NULL) {
        return false;
    }
    if (test != NULL) {
        memcpy(test->name, name, sizeof name);
        memcpy(test->title, title, sizeof title);
        test->scene = scene != NULL;
        test->why = why;
        test->why.file[0] = '\0';
    }
    return why.code != SL_ERR_NO_MEMORY || sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
}

/* ---- all ------------------------------------------------------------------------------------------------
 */

void sl_my_tests_free(sl_my_tests *my)
{
    sl_shelf_free(&my->shelf);
    sl_free(my->test);
    *my = (sl_my_tests){.n = 0};
}

bool sl_my_tests_read(sl_my_tests *my, const char *models, sl_error *error)
{
    sl_reading_tests reading = {.my = my, .models = models};
    sl_error why = {.code = SL_OK};
    sl_my_tests_free(my);
    bool good = sl_places_settled(NULL, &my->settled, &why);
    my->shelf.visit = look_at;
    my->shelf.visitor = &reading;
    good = good && sl_shelf_read(&my->shelf, my->settled.tests, true, my->settled.keep_months, &why) &&
           add_logs(&reading, true, &why) &&
           sl_shelf_each_file(my->settled.tests, false, add_scene, &reading, &why) &&
           add_logs(&reading, false, &why);
    sl_free(reading.bench);
    my->why = why;
    if (!good && why.code == SL_ERR_NO_MEMORY) {
        *error = why;
        return false;
    }
    return true;
}

int sl_my_running(const sl_my_tests *my)
{
    for (size_t i = 0; i < my->n; i++) {
        if (my->test[i].runs) {
            return (int)i;
        }
    }
    return -1;
}

const char *sl_my_state(const sl_my_tests *my, const sl_my_test *test)
{
    return test->row >= 0 ? sl_shelf_state_words(&my->shelf.row[test->row]) : _("no day was begun");
}
