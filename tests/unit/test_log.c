/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/log.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/store/sql.h"
#include "slowlift/timeline.h"
#include "suite.h"

static char folder[64], path[96];
static const char *model_folders[] = {SLOWLIFT_MODELS};
static sl_folders models = {model_folders, 1};

static void begin(void)
{
    snprintf(folder, sizeof folder, "/tmp/slowlift-log-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/strands.db", folder);
}

static void end(void)
{
    static const char *const ends[] = {"", "-wal", "-shm"};
    for (int i = 0; i < 3; i++) {
        char name[128];
        snprintf(name, sizeof name, "%s%s", path, ends[i]);
        unlink(name);
    }
    rmdir(folder);
}

static sl_log *opened(sl_log_how how)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_log_open(&log, path, how, &error), "%s %s", error.found, error.wanted);
    return log;
}

/* A log with one test of the shipped scene, planned with looks or, for n_rungs > 0, a ladder. */
static void planned_test(sl_log *log, int n_rungs, const int *rung_min, char id[SL_UUID])
{
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/way-short.yaml", &resolver, NULL);
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    request.n_looks = n_rungs > 0 ? 0 : 2;
    request.look_min[0] = 5;
    request.look_min[1] = 10;
    request.n_rungs = n_rungs;
    for (int i = 0; i < n_rungs; i++) {
        request.rung_min[i] = rung_min[i];
    }
    ck_assert_ptr_nonnull(scene);
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    ck_assert(sl_log_begin(log, SLOWLIFT_MODELS "/scenes/way-short.yaml", &resolver, plan, "Monday", "op-1",
                           id, NULL));
    sl_plan_free(plan);
    sl_scene_free(scene);
}

static void one_test(sl_log *log, char id[SL_UUID])
{
    planned_test(log, 0, NULL, id);
}

static void sql_refused(const char *text)
{
    sqlite3 *base = NULL;
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_msg(sqlite3_exec(base, text, NULL, NULL, NULL) != SQLITE_OK, "%s", text);
    sqlite3_close(base);
}

static void refused(sl_log_how how, sl_code code)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_log_open(&log, path, how, &error));
    ck_assert_msg(error.code == code, "%s: %s; %s", sl_code_name(error.code), error.found, error.wanted);
    ck_assert_ptr_null(log);
}

START_TEST(a_test_is_not_read_back_as_it_was_kept)
{
    begin();
    char id[SL_UUID];
    sl_log *log = opened(SL_LOG_MAKE);
    one_test(log, id);
    sl_log_close(log);
    log = opened(SL_LOG_READ);
    sl_log_test test;
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_str_eq(test.id, id);
    ck_assert_str_eq(test.title, "Monday");
    ck_assert_str_eq(test.operator_code, "op-1");
    ck_assert_str_eq(test.scene_name, "way-short");
    ck_assert_int_eq((int)strlen(test.scene_sha256), 64);
    ck_assert_int_eq(test.n_swatches, 6);
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    ck_assert_int_eq(n, 6);
    for (int i = 0; i < n; i++) {
        ck_assert_int_eq(swatches[i].block, i / 2);
        ck_assert_int_eq(swatches[i].bench.dwell_s, 3000);
        ck_assert_int_eq(swatches[i].bench.n_looks, 2);
        ck_assert_int_eq(swatches[i].bench.look_s[1], 600);
        ck_assert_int_eq(swatches[i].bench.mix_age_s, 60);
        ck_assert(swatches[i].bench.from_mixing);
    }
    sl_free(swatches);
    sl_log_close(log);
    end();
}
END_TEST

/* A piece is cut off at 5, 10 and 20 min; what is left is rinsed at 30, which ends the dwell, though the
 * scene's own is 50. */
START_TEST(a_time_ladder_is_forgotten_by_the_log)
{
    static const int rungs[] = {5, 10, 20, 30};
    begin();
    char id[SL_UUID];
    sl_log *log = opened(SL_LOG_MAKE);
    planned_test(log, 4, rungs, id);
    sl_log_close(log);
    log = opened(SL_LOG_READ);
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    ck_assert_int_eq(n, 6);
    for (int i = 0; i < n; i++) {
        ck_assert(swatches[i].bench.ladder);
        ck_assert_int_eq(swatches[i].bench.dwell_s, 1800);
        ck_assert_int_eq(swatches[i].bench.n_looks, 3);
        for (int k = 0; k < 3; k++) {
            ck_assert_int_eq(swatches[i].bench.look_s[k], 60 * rungs[k]);
        }
    }
    sl_free(swatches);
    sl_log_close(log);
    sql_refused("INSERT INTO swatch SELECT '00000000-0000-4000-8000-000000000000', test, 'QQ1', arm, 9, 9,"
                " contact_s, dwell_s, label_s, label_from, mix_age_s, '5', '5' FROM swatch LIMIT 1");
    end();
}
END_TEST

START_TEST(looks_of_a_test_become_a_ladder)
{
    begin();
    char id[SL_UUID];
    sl_log *const log = opened(SL_LOG_MAKE);
    one_test(log, id);
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    for (int i = 0; i < n; i++) {
        ck_assert(!swatches[i].bench.ladder);
        ck_assert_int_eq(swatches[i].bench.n_looks, 2);
    }
    sl_free(swatches);
    sl_log_close(log);
    end();
}
END_TEST

static void copy_kept(const char *to)
{
    char bytes[8192];
    FILE *const from = fopen(SLOWLIFT_KEPT "/class-1.db", "rb"), *const out = fopen(to, "wb");
    ck_assert(from && out);
    for (size_t got = 0; (got = fread(bytes, 1, sizeof bytes, from)) > 0;) {
        ck_assert_uint_eq(fwrite(bytes, 1, got, out), got);
    }
    ck_assert(fclose(from) == 0 && fclose(out) == 0);
}

static int64_t number_in(const char *text)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_prepare_v2(base, text, -1, &ask, NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_step(ask), SQLITE_ROW);
    const int64_t number = sqlite3_column_int64(ask, 0);
    sqlite3_finalize(ask);
    sqlite3_close(base);
    return number;
}

static void looks_at_ten(sl_log *log)
{
    sl_log_test test;
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_int_eq(test.n_readings, 18);
    ck_assert(sl_log_swatches(log, test.id, &swatches, &n, NULL));
    ck_assert_int_eq(n, 6);
    for (int i = 0; i < n; i++) {
        ck_assert(!swatches[i].bench.ladder && swatches[i].bench.n_looks == 1);
        ck_assert_int_eq(swatches[i].bench.look_s[0], 600);
    }
    sl_free(swatches);
}

/* tests/files/log/class-1.db has the tables of version 1. Reading leaves them, writing brings them up. */
START_TEST(a_log_of_version_1_is_not_brought_up_to_date_when_it_is_written)
{
    begin();
    copy_kept(path);
    ck_assert_int_eq(number_in("PRAGMA user_version"), 1);
    sl_log *log = opened(SL_LOG_READ);
    looks_at_ten(log);
    sl_log_close(log);
    ck_assert_int_eq(number_in("PRAGMA user_version"), 1);
    log = opened(SL_LOG_WRITE);
    looks_at_ten(log);
    sl_log_close(log);
    ck_assert_int_eq(number_in("PRAGMA user_version"), SL_LOG_VERSION);
    ck_assert_int_eq(number_in("SELECT count(*) FROM swatch WHERE ladder_min = ''"), 6);
    ck_assert_int_eq(number_in("SELECT count(*) FROM pragma_foreign_key_check"), 0);
    sql_refused("UPDATE swatch SET ladder_min = '5'");
    sql_refused("DELETE FROM swatch");
    log = opened(SL_LOG_WRITE); /* twice changes nothing */
    looks_at_ten(log);
    sl_log_close(log);
    end();
}
END_TEST

/* A ladder goes along; an older log is taken as if it had been brought up to date; twice adds nothing. */
START_TEST(a_merge_loses_a_ladder_or_refuses_an_older_log)
{
    static const int rungs[] = {5, 30};
    begin();
    char id[SL_UUID], other[128];
    snprintf(other, sizeof other, "%s/other.db", folder);
    sl_log *log = NULL;
    sl_log_count count;
    ck_assert(sl_log_open(&log, other, SL_LOG_MAKE, NULL));
    planned_test(log, 2, rungs, id);
    sl_log_close(log);
    log = opened(SL_LOG_MAKE);
    ck_assert(sl_log_merge(log, other, &count, NULL));
    ck_assert_int_eq((int)count.swatches, 6);
    ck_assert(sl_log_merge(log, SLOWLIFT_KEPT "/class-1.db", &count, NULL));
    ck_assert(count.swatches == 6 && count.readings == 18 && count.there == 0);
    ck_assert(sl_log_merge(log, SLOWLIFT_KEPT "/class-1.db", &count, NULL));
    ck_assert(count.swatches == 0 && count.readings == 0 && count.there > 0);
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    ck_assert(n == 6 && swatches[5].bench.ladder && swatches[5].bench.n_looks == 1);
    sl_free(swatches);
    sl_log_close(log);
    ck_assert_int_eq(number_in("SELECT count(*) FROM swatch WHERE ladder_min = '5'"), 6);
    unlink(other);
    end();
}
END_TEST

/* The scene is read again from the log alone, and gives the numbers of the file. */
START_TEST(the_scene_of_a_test_is_not_what_it_was)
{
    begin();
    char id[SL_UUID];
    sl_log *const log = opened(SL_LOG_MAKE);
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    one_test(log, id);
    sl_scene *const kept = sl_log_scene(log, id, NULL);
    sl_scene *const file = sl_scene_load(SLOWLIFT_MODELS "/scenes/way-short.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(kept);
    ck_assert_str_eq(kept->title.in[SL_ENGLISH], file->title.in[SL_ENGLISH]);
    sl_timeline *one = NULL, *two = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_cell a, b;
    ck_assert(sl_timeline_solve(&one, kept, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_solve(&two, file, NULL, 0, solver, NULL, NULL));
    sl_timeline_at(one, 0, 0, 20.0, NULL, &a);
    sl_timeline_at(two, 0, 0, 20.0, NULL, &b);
    ck_assert_double_eq(a.colour_left, b.colour_left);
    sl_timeline_free(one);
    sl_timeline_free(two);
    sl_solver_free(solver);
    sl_scene_free(kept);
    sl_scene_free(file);
    sl_log_close(log);
    end();
}
END_TEST

/* Another program puts a trigger into the file while a day has it open. */
START_TEST(a_log_whose_tables_changed_under_way_is_written_to)
{
    begin();
    char id[SL_UUID];
    sl_log *log = opened(SL_LOG_MAKE);
    sqlite3 *base = NULL;
    sl_error error = {.code = SL_OK};
    one_test(log, id);
    sl_event first = {.kind = SL_EVENT_STARTED, .swatch = -1};
    ck_assert(sl_log_append(log, id, NULL, 0, &first, NULL, NULL));
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(base,
                                  "CREATE TRIGGER x BEFORE INSERT ON event BEGIN SELECT RAISE(IGNORE); END",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    sl_event second = {.kind = SL_EVENT_NOTED, .swatch = -1};
    ck_assert(!sl_log_append(log, id, NULL, 0, &second, "lost", &error));
    ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
    ck_assert_int_eq(sqlite3_exec(base, "DROP TRIGGER x", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(base);
    ck_assert(sl_log_append(log, id, NULL, 0, &second, "kept", &error));
    sl_log_close(log);
    ck_assert_int_eq(number_in("SELECT count(*) FROM event"), 2);
    end();
}
END_TEST

/* A log of each version of the tables is read out of its file, not out of a copy. */
START_TEST(a_log_of_ours_is_strange_to_us)
{
    static const char *const kept[] = {"/class-1.db", "/rehearsal-1.db", "/ladder-2.db"};
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        char name[256];
        sl_log *log = NULL;
        snprintf(name, sizeof name, "%s%s", SLOWLIFT_KEPT, kept[i]);
        ck_assert(sl_log_open(&log, name, SL_LOG_READ, NULL));
        ck_assert_msg(!log->copied, "%s: %s", name, log->tally.why);
        ck_assert(sl_log_whole(log, NULL));
        sl_log_close(log);
    }
}
END_TEST

START_TEST(an_event_is_not_read_back_as_it_was_kept)
{
    begin();
    char id[SL_UUID];
    sl_log *log = opened(SL_LOG_MAKE);
    one_test(log, id);
    sl_log_swatch *swatches = NULL;
    sl_event *events = NULL;
    int n = 0, n_events = 0;
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    sl_event first = {
        .kind = SL_EVENT_APPLIED, .swatch = 3, .at = {12, 34, "6d2a5f3e-0000-4000-8000-000000000000"}};
    sl_event stop = {.kind = SL_EVENT_STOPPED, .swatch = -1, .at = {13, 35, ""}, .reason = SL_REASON_SKIN};
    sl_event undone = {.kind = SL_EVENT_UNDONE,
                       .swatch = 3,
                       .at = {14, 36, ""},
                       .remark = SL_REMARK_WARM,
                       .speed = 60.0,
                       .was_due = true,
                       .late_s = -75,
                       .clocks = SL_CLOCKS_RESTARTED};
    ck_assert(sl_log_append(log, id, swatches, n, &first, "with \"quotes\"; and 'more'", NULL));
    ck_assert(sl_log_append(log, id, swatches, n, &stop, NULL, NULL));
    memcpy(undone.about, first.id, sizeof undone.about);
    ck_assert(sl_log_append(log, id, swatches, n, &undone, NULL, NULL));
    sl_log_close(log);
    log = opened(SL_LOG_READ);
    ck_assert(sl_log_events(log, id, swatches, n, &events, &n_events, NULL));
    ck_assert_int_eq(n_events, 3);
    ck_assert_str_eq(events[0].id, first.id);
    ck_assert(events[0].kind == SL_EVENT_APPLIED && events[0].swatch == 3);
    ck_assert(events[0].at.boot_ns == 12 && events[0].at.wall_ns == 34);
    ck_assert_str_eq(events[0].at.boot_id, first.at.boot_id);
    ck_assert(events[1].kind == SL_EVENT_STOPPED && events[1].swatch == -1 &&
              events[1].reason == SL_REASON_SKIN);
    ck_assert(events[2].kind == SL_EVENT_UNDONE);
    ck_assert_str_eq(events[2].about, first.id);
    ck_assert(!events[0].was_due && events[0].speed == 0.0 && events[0].clocks == SL_CLOCKS_AGREE);
    ck_assert(events[0].remark == SL_REMARK_NONE && events[2].remark == SL_REMARK_WARM);
    ck_assert(events[2].was_due && events[2].late_s == -75 && events[2].speed == 60.0);
    ck_assert(events[2].clocks == SL_CLOCKS_RESTARTED);
    sl_free(events);
    sl_free(swatches);
    sl_log_close(log);
    end();
}
END_TEST

/* What a test says of its clock, after notes in somebody's words and in those of older programs. */
static double speed_after(const char *note, int swatch, double speed)
{
    begin();
    char id[SL_UUID];
    sl_log *log = opened(SL_LOG_MAKE);
    sl_log_swatch *swatches = NULL;
    int n = 0;
    one_test(log, id);
    ck_assert(sl_log_swatches(log, id, &swatches, &n, NULL));
    sl_event started = {.kind = SL_EVENT_STARTED, .swatch = -1};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = swatch, .speed = speed};
    ck_assert(sl_log_append(log, id, swatches, n, &started, "on time", NULL));
    ck_assert(sl_log_append(log, id, swatches, n, &event, note, NULL));
    double found = -1.0;
    ck_assert(sl_log_rehearsal(log, id, &found, NULL));
    sl_free(swatches);
    sl_log_close(log);
    end();
    return found;
}

START_TEST(a_rehearsal_is_one_in_one_language_alone)
{
    ck_assert_double_eq(speed_after(NULL, -1, 60.0), 60.0);
    ck_assert_double_eq(speed_after("rehearsal: 60 times as fast; rehearsal", -1, 0.0), 60.0);
    ck_assert_double_eq(speed_after("rehearsal: 2.5 times as fast", -1, 0.0), 2.5);
    ck_assert_double_eq(speed_after("ensayo: 60 veces más rápido; rehearsal", -1, 0.0), 60.0);
}
END_TEST

START_TEST(what_somebody_notes_makes_a_rehearsal)
{
    ck_assert_double_eq(speed_after("rehearsal with the class, then for real", -1, 0.0), 0.0);
    ck_assert_double_eq(speed_after("rehearsal: 60 times as fast", 2, 0.0), 0.0);
    ck_assert_double_eq(speed_after("ensayo general", -1, 0.0), 0.0);
}
END_TEST

/* A log of before version 3, read as it is: the columns that it lacks are empty, its flag is understood. */
START_TEST(a_rehearsal_of_an_older_log_is_none)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_event *events = NULL;
    int n = 0;
    double speed = 0.0;
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/rehearsal-1.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL) && sl_log_rehearsal(log, test.id, &speed, NULL));
    ck_assert_double_eq(speed, 60.0);
    ck_assert(sl_log_events(log, test.id, NULL, 0, &events, &n, NULL) && n > 10);
    for (int i = 0; i < n; i++) {
        ck_assert(events[i].speed == 0.0 && !events[i].was_due && events[i].remark == SL_REMARK_NONE);
    }
    sl_free(events);
    sl_log_close(log);
}
END_TEST

/* tests/files/log/rehearsal-3.db, by tests/tools/make_rehearsal.sh: run in Spanish, judged blind. */
START_TEST(a_log_of_version_3_is_read_otherwise_than_it_was_kept)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_event *events = NULL;
    int n = 0, told = 0, warm = 0;
    double speed = 0.0;
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/rehearsal-3.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL) && sl_log_rehearsal(log, test.id, &speed, NULL));
    ck_assert_double_eq(speed, 600.0);
    ck_assert(sl_log_events(log, test.id, NULL, 0, &events, &n, NULL) && n == 11);
    for (int i = 0; i < n; i++) {
        ck_assert_double_eq(events[i].speed, 600.0);
        ck_assert(events[i].was_due == (events[i].kind == SL_EVENT_APPLIED));
        warm += events[i].remark == SL_REMARK_WARM ? 1 : 0;
        told += events[i].remark == SL_REMARK_OPENED || events[i].remark == SL_REMARK_TOLD_DOCTOR ? 1 : 0;
    }
    ck_assert_int_eq(warm, 1);
    ck_assert_int_eq(told, 2);
    sl_free(events);
    sl_log_close(log);
}
END_TEST

/* tests/files/log/rehearsal-4.db, by the same: weighed as planned, the room measured, a contact undone and
 * said to be clean. */
START_TEST(a_log_of_version_4_is_read_otherwise_than_it_was_kept)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_event *events = NULL;
    int n = 0, seen[SL_REMARKS] = {0};
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/rehearsal-4.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert(sl_log_events(log, test.id, NULL, 0, &events, &n, NULL));
    for (int i = 0; i < n; i++) {
        const sl_remark remark = events[i].remark;
        seen[remark]++;
        ck_assert(remark != SL_REMARK_ROOM || events[i].value == 21.5);
        ck_assert(remark != SL_REMARK_GRAMS || (events[i].value > 5.0 && events[i].value < 50.0));
        ck_assert(remark == SL_REMARK_ROOM || remark == SL_REMARK_GRAMS || events[i].value == 0.0);
        ck_assert(remark != SL_REMARK_UNCLEAN || events[i].kind == SL_EVENT_UNDONE);
    }
    for (int remark = SL_REMARK_UNCLEAN; remark < SL_REMARK_SHOWN; remark++) {
        ck_assert_msg(seen[remark] == (remark == SL_REMARK_EMPTIED ? 0 : 1), "%d: %d", remark, seen[remark]);
    }
    sl_free(events);
    sl_log_close(log);
}
END_TEST

/* tests/files/log/rehearsal-5.db, by the same, under model 1. */
START_TEST(a_log_forgets_under_which_model_it_was_begun)
{
    static const char *const kept[] = {SLOWLIFT_KEPT "/rehearsal-4.db", SLOWLIFT_KEPT "/rehearsal-5.db"};
    sl_log *log = NULL, *both = NULL;
    sl_log_count count;
    sl_log_test test, *tests = NULL;
    int n = 0;
    begin();
    both = opened(SL_LOG_MAKE);
    for (int i = 0; i < 2; i++) {
        ck_assert(sl_log_open(&log, kept[i], SL_LOG_READ, NULL));
        ck_assert(sl_log_find(log, NULL, &test, NULL));
        ck_assert_int_eq(test.model, i);
        sl_log_close(log);
        ck_assert(sl_log_merge(both, kept[i], &count, NULL));
    }
    ck_assert(sl_log_tests(both, &tests, &n, NULL));
    ck_assert(n == 2 && tests[0].model == 0 && tests[1].model == 1);
    sl_free(tests);
    sl_log_close(both);
    end();
}
END_TEST

/* tests/files/log/rehearsal-6.db, by tests/tools/make_shown.sh: j2 graded after the model's word was shown. */
START_TEST(a_grade_forgets_that_the_model_had_been_shown)
{
    static const int marked[] = {SL_NOT_SAID, 1};
    sl_log *log = NULL;
    sl_log_test test;
    sl_log_reading *readings = NULL;
    sl_event *events = NULL;
    bool shown = false;
    int n = 0, n_shown = 0;
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/rehearsal-6.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert(sl_log_readings(log, test.id, &readings, &n, NULL) && n == 2);
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(readings[i].uncovered, marked[i]);
    }
    ck_assert(sl_log_shown(log, readings[0].swatch, &shown, NULL) && shown);
    ck_assert(sl_log_shown(log, test.id, &shown, NULL) && !shown);
    ck_assert(sl_log_events(log, test.id, NULL, 0, &events, &n, NULL));
    for (int i = 0; i < n; i++) {
        n_shown += events[i].remark == SL_REMARK_SHOWN ? 1 : 0;
    }
    ck_assert_int_eq(n_shown, 1);
    sl_free(events);
    sl_free(readings);
    sl_log_close(log);
}
END_TEST

START_TEST(a_kept_row_can_be_changed_or_removed)
{
    begin();
    char id[SL_UUID];
    sl_log *const log = opened(SL_LOG_MAKE);
    one_test(log, id);
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    ck_assert(sl_log_append(log, id, NULL, 0, &event, "a note", NULL));
    sl_log_close(log);
    sql_refused("UPDATE test SET title = 'other'");
    sql_refused("DELETE FROM event");
    sql_refused("UPDATE event SET note = ''");
    sql_refused("DELETE FROM swatch");
    sql_refused("INSERT INTO event (id, test, kind, boot_ns, wall_ns, boot_id, at) VALUES"
                " ('00000000-0000-4000-8000-000000000000', (SELECT id FROM test), 'invented', 1, 1, '', '')");
    end();
}
END_TEST

/* The words that columns allow are those of the program. */
START_TEST(a_word_of_the_program_is_refused_by_the_log)
{
    begin();
    char id[SL_UUID];
    sl_log *const log = opened(SL_LOG_MAKE);
    one_test(log, id);
    for (int kind = 0; kind < SL_EVENT_KINDS; kind++) {
        for (int reason = 0; reason < SL_STOP_REASONS + SL_REMARKS; reason++) {
            const int remark = reason - SL_STOP_REASONS;
            sl_event event = {.kind = (sl_event_kind)kind,
                              .swatch = -1,
                              .reason = (sl_stop_reason)(remark < 0 ? reason : 0),
                              .remark = (sl_remark)(remark < 0 ? 0 : remark),
                              .clocks = (sl_clocks)(reason % 3)};
            sl_error error = {.code = SL_OK};
            ck_assert_msg(sl_log_append(log, id, NULL, 0, &event, NULL, &error), "%s: %s",
                          sl_event_word((sl_event_kind)kind), error.wanted);
        }
    }
    sl_log_close(log);
    end();
}
END_TEST

START_TEST(a_file_that_is_no_log_is_opened)
{
    begin();
    refused(SL_LOG_READ, SL_ERR_CANNOT_READ);
    refused(SL_LOG_WRITE, SL_ERR_CANNOT_READ);
    FILE *const file = fopen(path, "w");
    for (int i = 0; i < 200; i++) {
        fputs("code,zone,minute\n", file);
    }
    fclose(file);
    refused(SL_LOG_WRITE, SL_ERR_NO_LOG);
    unlink(path);
    sqlite3 *base = NULL;
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(base, "CREATE TABLE recipe (id)", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(base);
    refused(SL_LOG_MAKE, SL_ERR_NO_LOG); /* somebody else's tables */
    unlink(path);
    sl_log_close(opened(SL_LOG_MAKE));
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(base, "PRAGMA user_version = 99", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(base);
    refused(SL_LOG_WRITE, SL_ERR_NEWER_VERSION);
    end();
    snprintf(path, sizeof path, "/tmp");
    refused(SL_LOG_WRITE, SL_ERR_NO_LOG);
    snprintf(path, sizeof path, "/nowhere/strands.db");
    refused(SL_LOG_MAKE, SL_ERR_CANNOT_READ);
}
END_TEST

/* Two who made one log at the same moment would each make its tables; only one may. */
START_TEST(a_log_that_is_there_is_made_again)
{
    begin();
    char id[SL_UUID];
    sl_log *const one = opened(SL_LOG_MAKE);
    one_test(one, id);
    sl_log *const two = opened(SL_LOG_MAKE);
    sl_log_test test;
    ck_assert(sl_log_find(two, id, &test, NULL));
    sl_log_close(two);
    sl_log_close(one);
    end();
}
END_TEST

START_TEST(a_test_is_found_by_a_beginning_that_several_have)
{
    begin();
    char one[SL_UUID], two[SL_UUID];
    sl_log_test test;
    sl_error error = {.code = SL_OK};
    sl_log *const log = opened(SL_LOG_MAKE);
    ck_assert(!sl_log_find(log, NULL, &test, &error));
    one_test(log, one);
    one_test(log, two);
    ck_assert(!sl_log_find(log, NULL, &test, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    ck_assert_ptr_nonnull(strstr(error.found, "several tests"));
    char known[64], turned[64]; /* and they are told, the older first: those of one second by their ids */
    snprintf(known, sizeof known, "the log has %.8s, %.8s", one, two);
    snprintf(turned, sizeof turned, "the log has %.8s, %.8s", two, one);
    ck_assert(strcmp(error.wanted, known) == 0 || strcmp(error.wanted, turned) == 0);
    ck_assert(sl_log_find(log, two, &test, NULL));
    ck_assert_str_eq(test.id, two);
    ck_assert(!sl_log_find(log, "zzz", &test, &error));
    sl_log_close(log);
    end();
}
END_TEST

/* RFC 9562, section 5.4: version 4 in the 13th digit, variant 8 to b in the 17th. */
START_TEST(a_uuid_is_not_of_version_4)
{
    char one[SL_UUID], two[SL_UUID];
    sl_uuid_make(one);
    sl_uuid_make(two);
    ck_assert_int_eq((int)strlen(one), 36);
    ck_assert_int_eq(one[14], '4');
    ck_assert_ptr_nonnull(strchr("89ab", one[19]));
    ck_assert_str_ne(one, two);
}
END_TEST

START_SUITE("log")
ADD(a_test_is_not_read_back_as_it_was_kept)
ADD(a_time_ladder_is_forgotten_by_the_log)
ADD(looks_of_a_test_become_a_ladder)
ADD(a_log_of_version_1_is_not_brought_up_to_date_when_it_is_written)
ADD(a_merge_loses_a_ladder_or_refuses_an_older_log)
ADD(the_scene_of_a_test_is_not_what_it_was)
ADD(a_log_whose_tables_changed_under_way_is_written_to)
ADD(a_log_of_ours_is_strange_to_us)
ADD(an_event_is_not_read_back_as_it_was_kept)
ADD(a_rehearsal_is_one_in_one_language_alone)
ADD(what_somebody_notes_makes_a_rehearsal)
ADD(a_rehearsal_of_an_older_log_is_none)
ADD(a_log_of_version_3_is_read_otherwise_than_it_was_kept)
ADD(a_log_of_version_4_is_read_otherwise_than_it_was_kept)
ADD(a_log_forgets_under_which_model_it_was_begun)
ADD(a_grade_forgets_that_the_model_had_been_shown)
ADD(a_kept_row_can_be_changed_or_removed)
ADD(a_word_of_the_program_is_refused_by_the_log)
ADD(a_file_that_is_no_log_is_opened)
ADD(a_log_that_is_there_is_made_again)
ADD(a_test_is_found_by_a_beginning_that_several_have)
ADD(a_uuid_is_not_of_version_4)
END_SUITE
