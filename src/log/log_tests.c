/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tests, their scene files and their swatches. A scene is kept as the texts of all its files, so
 * that it can be computed again as it was when models have long changed; the hash is over those.
 */
#include <sha256.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "log/sql.h"
#include "scene/file.h"

/* ---- a resolver that remembers what it gave ------------------------------------------------------------ */

enum { KIND_SIZE = 16, NAME_SIZE = 72, MOST_FILES = 256 };

typedef struct sl_kept_file {
    char kind[KIND_SIZE], name[NAME_SIZE];
    char *text;
} sl_kept_file;

typedef struct sl_keeper {
    const sl_resolver *from;
    int n;
    sl_kept_file file[MOST_FILES];
} sl_keeper;

static bool keep(sl_keeper *keeper, const char *kind, const char *name, const char *text, size_t length,
                 sl_error *error)
{
    for (int i = 0; i < keeper->n; i++) {
        if (strcmp(keeper->file[i].kind, kind) == 0 && strcmp(keeper->file[i].name, name) == 0) {
            return true;
        }
    }
    if (keeper->n == MOST_FILES) {
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
static void name_of(const char *path, char name[NAME_SIZE])
{
    const char *const slash = strrchr(path, '/');
    const char *const base = slash ? slash + 1 : path;
    const char *const dot = strrchr(base, '.');
    snprintf(name, NAME_SIZE, "%.*s", (int)(dot && dot > base ? (size_t)(dot - base) : strlen(base)), base);
}

/* The scene's own text first, then what it refers to. */
static bool scene_keep(sl_keeper *keeper, const char *path, sl_error *error)
{
    char *text = NULL, name[NAME_SIZE];
    size_t length = 0;
    if (!sl_file_read(path, &text, &length, NULL, error)) {
        return false;
    }
    name_of(path, name);
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

static void keeper_free(sl_keeper *keeper)
{
    for (int i = 0; keeper && i < keeper->n; i++) {
        sl_free(keeper->file[i].text);
    }
    sl_free(keeper);
}

/* kind, name and text of each file, each with its end. */
static void hash_files(const sl_keeper *keeper, char hash[SL_SHA256_TEXT])
{
    SHA2_CTX sum;
    SHA256Init(&sum);
    for (int i = 0; i < keeper->n; i++) {
        const sl_kept_file *const file = &keeper->file[i];
        SHA256Update(&sum, (const unsigned char *)file->kind, strlen(file->kind) + 1);
        SHA256Update(&sum, (const unsigned char *)file->name, strlen(file->name) + 1);
        SHA256Update(&sum, (const unsigned char *)file->text, strlen(file->text) + 1);
    }
    SHA256End(&sum, hash);
}

/* ---- making a test --------------------------------------------------------------------------------------
 */

/* Local time with its offset (ISO 8601, extended). */
static void time_words(int64_t wall_ns, char text[32])
{
    const time_t at = (time_t)(wall_ns / 1000000000);
    struct tm local;
    char clock[24], zone[8];
    if (!localtime_r(&at, &local) || strftime(clock, sizeof clock, "%Y-%m-%dT%H:%M:%S", &local) == 0 ||
        strftime(zone, sizeof zone, "%z", &local) != 5) {
        snprintf(text, 32, "1970-01-01T00:00:00+00:00");
        return;
    }
    snprintf(text, 32, "%s%.3s:%.2s", clock, zone, zone + 3);
}

static bool put_test(sl_log *log, const sl_keeper *keeper, const char *title, const char *operator_code,
                     const char *id, sl_error *error)
{
    sl_instant now;
    char made[32], hash[SL_SHA256_TEXT];
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    time_words(now.wall_ns, made);
    hash_files(keeper, hash);
    sl_statement put = sl_sql(log,
                              "INSERT INTO test (id, title, operator, made, scene_name, scene_sha256)"
                              " VALUES (?, ?, ?, ?, ?, ?)",
                              error);
    sl_put_text(&put, id);
    sl_put_text(&put, title);
    sl_put_text(&put, operator_code);
    sl_put_text(&put, made);
    sl_put_text(&put, keeper->file[0].name);
    sl_put_text(&put, hash);
    bool good = sl_sql_done(&put);
    for (int i = 0; good && i < keeper->n; i++) {
        sl_statement file = sl_sql(
            log, "INSERT INTO scene_file (test, place, kind, name, text) VALUES (?, ?, ?, ?, ?)", error);
        sl_put_text(&file, id);
        sl_put_int(&file, i);
        sl_put_text(&file, keeper->file[i].kind);
        sl_put_text(&file, keeper->file[i].name);
        sl_put_text(&file, keeper->file[i].text);
        good = sl_sql_done(&file);
    }
    return good;
}

static const sl_step *first_application(const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            return &arm->steps[i];
        }
    }
    return NULL;
}

static void looks_words(const sl_plan *plan, char *text, size_t size)
{
    size_t used = 0;
    text[0] = '\0';
    for (int i = 0; i < plan->request.n_looks && used < size; i++) {
        used +=
            (size_t)snprintf(text + used, size - used, "%s%d", i == 0 ? "" : ",", plan->request.look_min[i]);
    }
}

static bool put_swatch(sl_log *log, const sl_plan *plan, int index, const char *test, sl_error *error)
{
    const sl_planned_swatch *const swatch = &plan->swatches[index];
    const sl_arm *const arm = &plan->scene->arms[swatch->arm];
    const sl_step *const step = first_application(arm);
    const sl_mix *const mix = step ? &plan->scene->mixes[step->mix] : NULL;
    char id[SL_UUID], looks[96];
    sl_uuid_make(id);
    looks_words(plan, looks, sizeof looks);
    sl_statement put =
        sl_sql(log,
               "INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_s,"
               " label_from, mix_age_s, looks_min) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
               error);
    sl_put_text(&put, id);
    sl_put_text(&put, test);
    sl_put_text(&put, swatch->code);
    sl_put_text(&put, arm->name);
    sl_put_int(&put, swatch->block);
    sl_put_int(&put, swatch->place);
    if (swatch->contact_s >= 0) {
        sl_put_int(&put, swatch->contact_s);
        sl_put_int(&put, swatch->water_s - swatch->contact_s);
    } else {
        sl_put_null(&put);
        sl_put_int(&put, 0);
    }
    if (mix && mix->label_max_min > 0.0) {
        sl_put_int(&put, (int64_t)(60.0 * mix->label_max_min));
    } else {
        sl_put_null(&put);
    }
    sl_put_text(&put, mix && mix->label_from_contact ? "application" : "mixing");
    sl_put_int(&put, step ? (int64_t)(60.0 * step->mix_age_min + 0.5) : 0);
    sl_put_text(&put, looks);
    return sl_sql_done(&put);
}

bool sl_log_begin(sl_log *log, const char *path, const sl_resolver *resolver, const sl_plan *plan,
                  const char *title, const char *operator_code, char id[SL_UUID], sl_error *error)
{
    sl_keeper *const keeper = sl_new(1, sizeof *keeper, "keeping the scene", error);
    if (!keeper) {
        return false;
    }
    keeper->from = resolver;
    sl_uuid_make(id);
    bool good = scene_keep(keeper, path, error) && sl_sql_begin(log, error);
    if (good) {
        good = put_test(log, keeper, title, operator_code, id, error);
        for (int i = 0; good && i < plan->n_swatches; i++) {
            good = put_swatch(log, plan, i, id, error);
        }
        good = sl_sql_end(log, good, error);
    }
    keeper_free(keeper);
    return good;
}

/* ---- reading tests ------------------------------------------------------------------------------------- */

static const char test_columns[] =
    "SELECT id, title, operator, made, scene_name, scene_sha256,"
    " (SELECT count(*) FROM swatch WHERE swatch.test = test.id),"
    " (SELECT count(*) FROM event WHERE event.test = test.id),"
    " (SELECT count(*) FROM reading JOIN swatch ON swatch.id = reading.swatch WHERE swatch.test = test.id)"
    " FROM test ORDER BY made, id";

bool sl_log_tests(sl_log *log, sl_log_test **tests, int *n, sl_error *error)
{
    sl_log_test *rows = NULL;
    size_t capacity = 0, count = 0;
    sl_statement ask = sl_sql(log, test_columns, error);
    bool room = true;
    while (room && sl_next_row(&ask)) {
        room = sl_grow(&rows, &capacity, count + 1, sizeof *rows, "reading the log", error);
        if (room) {
            sl_log_test *const test = &rows[count++];
            sl_copy_at(&ask, 0, test->id, sizeof test->id);
            sl_copy_at(&ask, 1, test->title, sizeof test->title);
            sl_copy_at(&ask, 2, test->operator_code, sizeof test->operator_code);
            sl_copy_at(&ask, 3, test->made, sizeof test->made);
            sl_copy_at(&ask, 4, test->scene_name, sizeof test->scene_name);
            sl_copy_at(&ask, 5, test->scene_sha256, sizeof test->scene_sha256);
            test->n_swatches = (int)sl_int_at(&ask, 6);
            test->n_events = (int)sl_int_at(&ask, 7);
            test->n_readings = (int)sl_int_at(&ask, 8);
        }
    }
    if (!sl_sql_leave(&ask) || !room) {
        sl_free(rows);
        return false;
    }
    *tests = rows;
    *n = (int)count;
    return true;
}

static bool refuse_choice(const sl_log_test *tests, int n, const char *beginning, int found, sl_error *error)
{
    char known[160] = "";
    size_t used = 0;
    for (int i = 0; i < n && i < 4 && used < sizeof known; i++) {
        used += (size_t)snprintf(known + used, sizeof known - used, "%s%.8s", i == 0 ? "the log has " : ", ",
                                 tests[i].id);
    }
    if (n == 0) {
        return sl_fail(error, SL_ERR_USAGE, "this log holds no test yet", "begin one with slowlift log new");
    }
    return sl_fail(error, SL_ERR_USAGE,
                   !beginning  ? "this log holds several tests, and none was named"
                   : found > 1 ? "several tests begin like that"
                               : "no test begins like that",
                   known);
}

bool sl_log_find(sl_log *log, const char *beginning, sl_log_test *test, sl_error *error)
{
    sl_log_test *tests = NULL;
    int n = 0, found = 0;
    if (!sl_log_tests(log, &tests, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (!beginning || strncmp(tests[i].id, beginning, strlen(beginning)) == 0) {
            *test = tests[i];
            found++;
        }
    }
    const bool good = found == 1 || refuse_choice(tests, n, beginning, found, error);
    sl_free(tests);
    return good;
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

sl_scene *sl_log_scene(sl_log *log, const char *test, sl_error *error)
{
    sl_shelf shelf = {log, test};
    const sl_resolver resolver = {.self = &shelf, .fetch = fetch_from_shelf, .release = release_from_shelf};
    char name[NAME_SIZE] = "", path[NAME_SIZE + 16];
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
    sl_scene *const scene = sl_scene_parse(text, length, name, &resolver, error);
    sl_free(text);
    return scene;
}

/* ---- swatches -------------------------------------------------------------------------------------------
 */

static void looks_read(const char *text, sl_bench_swatch *bench)
{
    const int most = (int)(sizeof bench->look_s / sizeof bench->look_s[0]);
    char *rest = NULL;
    for (const char *at = text; *at != '\0' && bench->n_looks < most; at = rest + (*rest == ',' ? 1 : 0)) {
        const long minute = strtol(at, &rest, 10);
        if (rest == at || minute < 0 || minute > 1440) {
            return;
        }
        bench->look_s[bench->n_looks++] = (int)(60 * minute);
    }
}

static void swatch_at(sl_statement *ask, sl_log_swatch *swatch)
{
    *swatch = (sl_log_swatch){.block = (int)sl_int_at(ask, 3), .place = (int)sl_int_at(ask, 4)};
    sl_copy_at(ask, 0, swatch->id, sizeof swatch->id);
    sl_copy_at(ask, 1, swatch->bench.code, sizeof swatch->bench.code);
    sl_copy_at(ask, 2, swatch->arm, sizeof swatch->arm);
    swatch->bench.contact_s =
        sqlite3_column_type(ask->handle, 5) == SQLITE_NULL ? -1 : (int)sl_int_at(ask, 5);
    swatch->bench.dwell_s = (int)sl_int_at(ask, 6);
    swatch->bench.label_s = (int)sl_int_at(ask, 7); /* null reads as 0 */
    swatch->bench.from_mixing = strcmp(sl_text_at(ask, 8), "mixing") == 0;
    swatch->bench.mix_age_s = (int)sl_int_at(ask, 9);
    looks_read(sl_text_at(ask, 10), &swatch->bench);
}

bool sl_log_swatches(sl_log *log, const char *test, sl_log_swatch **swatches, int *n, sl_error *error)
{
    sl_log_swatch *rows = NULL;
    size_t capacity = 0, count = 0;
    bool room = true;
    sl_statement ask =
        sl_sql(log,
               "SELECT id, code, arm, block, place, contact_s, dwell_s, label_s, label_from, mix_age_s,"
               " looks_min FROM swatch WHERE test = ? ORDER BY block, place",
               error);
    sl_put_text(&ask, test);
    while (room && sl_next_row(&ask)) {
        room = sl_grow(&rows, &capacity, count + 1, sizeof *rows, "reading the log", error);
        if (room) {
            swatch_at(&ask, &rows[count++]);
        }
    }
    if (!sl_sql_leave(&ask) || !room) {
        sl_free(rows);
        return false;
    }
    *swatches = rows;
    *n = (int)count;
    return true;
}
