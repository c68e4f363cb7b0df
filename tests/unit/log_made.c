/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See log_made.h.
 */
#include "log_made.h"

#include <check.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"

static const char usual[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";

static void begin_as(sl_log_made *made, const char *scene_path, const sl_plan_request *request)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_plan *plan = NULL;
    *made = (sl_log_made){.folder = "/tmp/slowlift-readings-XXXXXX"};
    ck_assert_ptr_nonnull(mkdtemp(made->folder));
    snprintf(made->path, sizeof made->path, "%s/one.db", made->folder);
    snprintf(made->other, sizeof made->other, "%s/two.db", made->folder);
    snprintf(made->csv, sizeof made->csv, "%s/some.csv", made->folder);
    sl_scene *const scene = sl_scene_load(scene_path, &resolver, NULL);
    ck_assert_ptr_nonnull(scene);
    ck_assert(sl_plan_make(&plan, scene, request, NULL));
    ck_assert(sl_log_open(&made->log, made->path, SL_LOG_MAKE, NULL));
    ck_assert(sl_log_begin(made->log, scene_path, &resolver, plan, "Monday", "op-1", made->test, NULL));
    ck_assert(sl_log_swatches(made->log, made->test, &made->swatches, &made->n, NULL));
    sl_plan_free(plan);
    sl_scene_free(scene);
}

void log_made_begin(sl_log_made *made)
{
    const sl_plan_request request = sl_plan_request_default();
    begin_as(made, usual, &request);
    ck_assert_str_eq(made->swatches[0].bench.code, "HP5");
}

void log_made_begin_scene(sl_log_made *made, const char *scene_path)
{
    const sl_plan_request request = sl_plan_request_default();
    begin_as(made, scene_path, &request);
}

void log_made_begin_text(sl_log_made *made, const char *scene, const int *rung_min, int n_rungs)
{
    sl_plan_request request = sl_plan_request_default();
    char path[] = "/tmp/slowlift-scene-XXXXXX";
    const int handle = mkstemp(path);
    ck_assert_int_ge(handle, 0);
    ck_assert_int_eq((int)write(handle, scene, strlen(scene)), (int)strlen(scene));
    close(handle);
    for (request.n_rungs = 0; request.n_rungs < n_rungs; request.n_rungs++) {
        request.rung_min[request.n_rungs] = rung_min[request.n_rungs];
    }
    begin_as(made, path, &request);
    unlink(path);
}

void log_made_begin_ladder(sl_log_made *made, const int *rung_min, int n_rungs)
{
    sl_plan_request request = sl_plan_request_default();
    request.n_rungs = n_rungs;
    memcpy(request.rung_min, rung_min, (size_t)n_rungs * sizeof *rung_min);
    begin_as(made, usual, &request);
    ck_assert_str_eq(made->swatches[0].bench.code, "HP5");
}

void log_made_end(sl_log_made *made)
{
    static const char *const ends[] = {"", "-wal", "-shm"};
    const char *const paths[] = {made->path, made->other, made->csv};
    sl_log_close(made->log);
    sl_free(made->swatches);
    for (int p = 0; p < 3; p++) {
        for (int i = 0; i < 3; i++) {
            char name[128];
            snprintf(name, sizeof name, "%s%s", paths[p], ends[i]);
            unlink(name);
        }
    }
    rmdir(made->folder);
}

void log_made_write(const sl_log_made *made, const char *bytes, size_t length)
{
    FILE *const file = fopen(made->csv, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

void log_made_change(const char *path, const char *statements)
{
    static const char unguarded[] = "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;";
    sqlite3 *base = NULL;
    char *why = NULL;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_db_config(base, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, (int *)NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(base, unguarded, NULL, NULL, NULL), SQLITE_OK);
    ck_assert_msg(sqlite3_exec(base, statements, NULL, NULL, &why) == SQLITE_OK, "%s: %s", statements, why);
    sqlite3_close(base);
}

int log_made_swatch(const sl_log_made *made, const char *arm, int block)
{
    for (int i = 0; i < made->n; i++) {
        if (strcmp(made->swatches[i].arm, arm) == 0 && made->swatches[i].block == block) {
            return i;
        }
    }
    ck_abort_msg("no swatch of %s", arm);
    return -1;
}

void log_made_happens(const sl_log_made *made, sl_event_kind kind, int swatch, int second, const char *note)
{
    sl_event event = {.kind = kind,
                      .swatch = swatch,
                      .at = {.boot_ns = second * INT64_C(1000000000),
                             .wall_ns = (1795597200 + (int64_t)second) * INT64_C(1000000000),
                             .boot_id = "one"}};
    ck_assert(sl_log_append(made->log, made->test, made->swatches, made->n, &event, note, NULL));
}

sl_log_reading log_made_reading(const sl_log_made *made, int swatch, const char *zone, sl_wipe grade)
{
    sl_log_reading reading = sl_log_reading_begin();
    memcpy(reading.swatch, made->swatches[swatch].id, SL_UUID);
    snprintf(reading.zone, sizeof reading.zone, "%s", zone);
    snprintf(reading.judge, sizeof reading.judge, "j1");
    reading.said[SL_SAID_GRADE] = (int)grade;
    return reading;
}

sl_log_reading log_made_colour(const sl_log_made *made, int swatch, const char *zone, double L, double a,
                               double b)
{
    sl_log_reading reading = log_made_reading(made, swatch, zone, SL_WIPE_HALF);
    reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
    snprintf(reading.judge, sizeof reading.judge, "meter");
    snprintf(reading.illuminant, sizeof reading.illuminant, "D65");
    snprintf(reading.observer, sizeof reading.observer, "10");
    reading.L = L;
    reading.a = a;
    reading.b = b;
    return reading;
}

void log_made_copy(const sl_log_made *made)
{
    sqlite3 *base = NULL;
    char text[160];
    ck_assert_int_eq(sqlite3_open(made->path, &base), SQLITE_OK);
    snprintf(text, sizeof text, "VACUUM INTO '%s'", made->other);
    ck_assert_int_eq(sqlite3_exec(base, text, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(base);
}

void log_made_begin_other(const sl_log_made *made, int n_blocks, char id[SL_UUID])
{
    static const char path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_plan_request request = sl_plan_request_default();
    sl_scene *const scene = sl_scene_load(path, &resolver, NULL);
    sl_plan *plan = NULL;
    request.blocks = n_blocks;
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    ck_assert(sl_log_begin(made->log, path, &resolver, plan, "Tuesday", "op-2", id, NULL));
    sl_plan_free(plan);
    sl_scene_free(scene);
}

long long log_made_readings(sl_log *log)
{
    sl_log_test test;
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    return test.n_readings;
}

void log_made_text(const char *path, const char *ask, char *text, size_t size)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *statement = NULL;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    ck_assert_msg(sqlite3_prepare_v2(base, ask, -1, &statement, NULL) == SQLITE_OK, "%s",
                  sqlite3_errmsg(base));
    ck_assert_int_eq(sqlite3_step(statement), SQLITE_ROW);
    snprintf(text, size, "%s", (const char *)sqlite3_column_text(statement, 0));
    sqlite3_finalize(statement);
    sqlite3_close(base);
}

void log_made_begin_closed(sl_log_made *made)
{
    log_made_begin(made);
    sl_log_reading readings[3];
    for (int i = 0; i < 3; i++) {
        readings[i] = log_made_reading(made, i, "red", SL_WIPE_HALF);
    }
    ck_assert(sl_log_add(made->log, readings, 3, NULL));
    log_made_happens(made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(made, SL_EVENT_APPLIED, 0, 60, NULL);
    sl_log_close(made->log);
    made->log = NULL;
}

static void happened(const sl_log_made *made, sl_event_kind kind, double minute, const char *note)
{
    sl_event event = {.kind = kind, .swatch = kind == SL_EVENT_STARTED ? -1 : 0};
    event.at = (sl_instant){(int64_t)((100.0 + minute) * 6e10), (int64_t)((28e6 + minute) * 6e10), "one"};
    ck_assert(sl_log_append(made->log, made->test, made->swatches, made->n, &event, note, NULL));
}

void log_made_strand(const sl_log_made *made)
{
    happened(made, SL_EVENT_STARTED, 0.0, NULL);
    happened(made, SL_EVENT_NOTED, 0.5, "strand: person=K12 part=nape cut=yes packet_opened=2026-11-16");
    happened(made, SL_EVENT_APPLIED, 2.0, NULL);
    for (int minute = 5; minute <= 15; minute += 5) {
        sl_log_reading reading = log_made_reading(made, 0, "blue", SL_WIPE_HALF);
        reading.minute = minute;
        ck_assert(sl_log_add(made->log, &reading, 1, NULL));
    }
    happened(made, SL_EVENT_RINSED, 24.0, NULL);
}

void log_made_add_some(const sl_log_made *made, sl_log *log, int n)
{
    static const char *const notes[] = {"=1+1", "'quoted'", "a, b", "two\nlines; \"x\"", "plain"};
    for (int i = 0; i < n; i++) {
        sl_log_reading reading = log_made_reading(made, i % made->n, "violet", (sl_wipe)(i % SL_WIPES));
        snprintf(reading.note, sizeof reading.note, "%s", notes[i % 5]);
        reading.minute = i / 7.0;
        ck_assert(sl_log_add(log, &reading, 1, NULL));
    }
}

void log_made_export(sl_log *log, char *text, size_t size, bool json)
{
    FILE *const out = fmemopen(text, size, "wb");
    ck_assert(json ? sl_log_export_json(log, NULL, out, NULL) : sl_log_export_csv(log, NULL, out, NULL));
    fclose(out);
}
