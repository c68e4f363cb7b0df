/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Logs that hold what this program would not have written, in rows, tables and files: what is read of them is
 * right as far as it goes, and what cannot be right is refused with its reason.
 */
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/inputs.h"
#include "base/memory.h"
#include "log/readings/reading_columns.h"
#include "log/store/old_notes.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;

static void set_up(void)
{
    log_made_begin(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

static void change(const char *statements)
{
    log_made_change(made.path, statements);
}

/* The log as somebody else opens it. */
static sl_log *opened(void)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_log_open(&log, made.path, SL_LOG_READ, &error), "%s, %s", error.found, error.wanted);
    return log;
}

/* ---- rows ------------------------------------------------------------------------------------------------
 */

/* Minutes by commas, from none to a day; what follows a fault is not read. */
START_TEST(a_list_of_minutes_is_read_as_far_as_it_is_one)
{
    static const struct {
        const char *list;
        int n, last_min;
    } lists[] = {
        {"5,10,20", 3, 20},    {"5,10,", 2, 10},    {"", 0, 0},
        {"x", 0, 0},           {"5,x,10", 1, 5},    {"5,-1,10", 1, 5},
        {"5,1441,1442", 1, 5}, {"0,1440", 2, 1440}, {"1,2,3,4,5,6,7,8,9,10,11,12,13", SL_BENCH_LOOKS, 12}};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        for (int ladder = 0; ladder < 2; ladder++) {
            char text[160];
            sl_log_swatch *swatches = NULL;
            int n = 0;
            snprintf(text, sizeof text, "UPDATE swatch SET looks_min = '%s', ladder_min = '%s'",
                     ladder ? "" : lists[i].list, ladder ? lists[i].list : "");
            change(text);
            ck_assert(sl_log_swatches(made.log, made.test, &swatches, &n, NULL));
            const sl_bench_swatch *const bench = &swatches[0].bench;
            ck_assert_msg(bench->n_looks == lists[i].n, "%s: %d", lists[i].list, bench->n_looks);
            ck_assert_int_eq(bench->ladder, ladder == 1 && lists[i].list[0] != '\0');
            ck_assert(bench->n_looks == 0 || bench->look_s[bench->n_looks - 1] == 60 * lists[i].last_min);
            sl_free(swatches);
        }
    }
}
END_TEST

/* 200 letters of two bytes are more than a title has room for: it ends with a whole one. */
START_TEST(a_title_of_too_many_bytes_is_cut_between_two_letters)
{
    sl_log_test test;
    change("UPDATE test SET title = 'x' || replace(hex(zeroblob(99)), '0', char(233)) || char(233)");
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    ck_assert_uint_eq(strlen(test.title), 199);
    ck_assert_int_eq(test.title[0], 'x');
    ck_assert_str_eq(test.title + 197, "\xC3\xA9");
    change("UPDATE test SET title = 'a' || char(127) || 'b'"); /* and what is no letter is shown */
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    ck_assert_str_eq(test.title, "a\\u{7F}b");
    change("UPDATE test SET title = replace(hex(zeroblob(100)), '0', 'y')");
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    ck_assert_uint_eq(strlen(test.title), 200);
    change("UPDATE test SET title = replace(hex(zeroblob(100)), '0', 'y') || 'z'");
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    ck_assert_uint_eq(strlen(test.title), 200);
    ck_assert_int_eq(test.title[199], 'y');
}
END_TEST

static bool counts(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                   sl_error *error)
{
    (void)reading;
    (void)swatch;
    (void)test;
    (void)error;
    ++*(int *)self;
    return true;
}

static void add_readings(int n)
{
    for (int i = 0; i < n; i++) {
        sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
        reading.minute = i;
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    }
}

START_TEST(a_reading_that_does_not_fit_is_left_out_and_counted_once_however_often_it_is_read)
{
    add_readings(5);
    change("UPDATE reading SET grade = 'odd' WHERE kept = 2; UPDATE reading SET minute = -1 WHERE kept = 4");
    sl_log *const log = opened();
    for (int again = 0; again < 3; again++) {
        sl_error error = {.code = SL_OK};
        int n = 0;
        ck_assert(sl_log_each_reading(log, NULL, counts, &n, NULL));
        ck_assert_int_eq(n, 3);
        ck_assert(!sl_log_whole(log, &error));
        ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
        ck_assert_str_eq(error.found, "2 readings hold what slowlift does not keep, and were left out");
    }
    sl_log_close(log);
}
END_TEST

START_TEST(a_log_with_more_than_a_thousand_readings_that_do_not_fit_is_refused)
{
    sl_error error = {.code = SL_OK};
    int n = 0;
    add_readings(1);
    change("INSERT INTO reading (id, swatch, zone, judge, at, grade) WITH RECURSIVE i(k) AS"
           " (SELECT 1 UNION ALL SELECT k + 1 FROM i WHERE k < 1000)"
           " SELECT printf('00000000-0000-4000-8000-%012x', k), swatch, zone, judge, at, 'odd'"
           " FROM i, (SELECT * FROM reading)");
    sl_log *log = opened();
    ck_assert(sl_log_each_reading(log, NULL, counts, &n, &error));
    ck_assert_int_eq(n, 1);
    ck_assert(!sl_log_whole(log, &error));
    ck_assert_ptr_nonnull(strstr(error.found, "1000 readings hold"));
    sl_log_close(log);
    change("UPDATE reading SET grade = 'odd'");
    log = opened();
    error = (sl_error){.code = SL_OK};
    ck_assert(!sl_log_each_reading(log, NULL, counts, &n, &error));
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    ck_assert_ptr_nonnull(strstr(error.found, "more readings than 1000"));
    ck_assert_str_eq(error.file, made.path);
    for (int json = 0; json < 2; json++) { /* nor does it go out as a whole one */
        FILE *const out = fopen("/dev/null", "w");
        error = (sl_error){.code = SL_OK};
        ck_assert(!(json ? sl_log_export_json(log, NULL, out, &error)
                         : sl_log_export_csv(log, made.test, out, &error)));
        ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
        fclose(out);
    }
    sl_log_close(log);
}
END_TEST

START_TEST(a_log_of_which_something_is_left_out_is_not_merged_from)
{
    sl_log *other = NULL;
    sl_log_count count;
    sl_error error = {.code = SL_OK};
    add_readings(2);
    ck_assert(sl_log_open(&other, made.other, SL_LOG_MAKE, NULL));
    change("UPDATE reading SET grade = 'odd' WHERE kept = 2");
    ck_assert(!sl_log_merge(other, made.path, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    ck_assert(count.tests == 0 && count.readings == 0);
    ck_assert(!sl_log_merge(other, "/dev/null", &count, &error)); /* on another device than any log */
    ck_assert_int_eq(error.code, SL_ERR_NO_LOG);
    sl_log_test test;
    ck_assert(!sl_log_find(other, NULL, &test, &error)); /* it is still empty */
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    change("UPDATE reading SET grade = 'about half' WHERE kept = 2; CREATE VIEW more AS SELECT 1");
    error = (sl_error){.code = SL_OK};
    ck_assert(!sl_log_merge(other, made.path, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
    ck_assert_str_eq(error.found, "it holds more than tables of ours");
    change("DROP VIEW more");
    ck_assert(sl_log_merge(other, made.path, &count, NULL));
    ck_assert(count.tests == 1 && count.readings == 2);
    sl_log_close(other);
}
END_TEST

/* ---- tables ----------------------------------------------------------------------------------------------
 */

START_TEST(tables_that_are_not_ours_to_the_letter_are_named_and_only_read)
{
    static const struct {
        const char *done, *undone, *found;
    } strange[] = {
        {"CREATE INDEX zz ON test (title)", "DROP INDEX zz", "it holds \"index zz\" besides its own"},
        {"CREATE INDEX aa ON test (title)", "DROP INDEX aa", "it holds \"index aa\" besides its own"},
        {"CREATE TABLE \"a;b\" (x)", "DROP TABLE \"a;b\"", "it holds \"table a_b\" besides its own"},
        {"CREATE VIEW zz AS SELECT 1", "DROP VIEW zz", "it holds \"view zz\" besides its own"},
        /* what SQLite reads ends at the byte 0, what stands in the file does not */
        {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = sql || char(0) || 'x'"
         " WHERE name = 'zone'",
         "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = substr(sql, 1, length(sql))"
         " WHERE name = 'zone'",
         "its \"table zone\" is another"},
        {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'place >= 0', 'place >= "
         "9')"
         " WHERE name = 'zone'",
         "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'place >= 9', 'place >= "
         "0')"
         " WHERE name = 'zone'",
         "its \"table zone\" is another"},
        {"DROP INDEX import_of_file; CREATE INDEX import_of_file ON test (title)",
         "DROP INDEX import_of_file; CREATE INDEX import_of_file ON import (sha256)",
         "its \"index import_of_file\" is another"},
        {"DROP INDEX import_of_file", "CREATE INDEX import_of_file ON import (sha256)",
         "it lacks \"index import_of_file\""}};
    add_readings(2);
    for (size_t i = 0; i < sizeof strange / sizeof strange[0]; i++) {
        sl_log *log = NULL;
        sl_error error = {.code = SL_OK};
        int n = 0;
        change(strange[i].done);
        ck_assert_msg(!sl_log_open(&log, made.path, SL_LOG_WRITE, &error), "%s", strange[i].done);
        ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
        ck_assert_str_eq(error.found, strange[i].found);
        log = opened();
        ck_assert(sl_log_each_reading(log, NULL, counts, &n, NULL) && sl_log_whole(log, NULL));
        ck_assert_int_eq(n, 2);
        sl_log_close(log);
        log = NULL;
        change(strange[i].undone);
        ck_assert_msg(sl_log_open(&log, made.path, SL_LOG_WRITE, &error), "%s: %s", strange[i].undone,
                      error.found);
        sl_log_close(log);
    }
}
END_TEST

START_TEST(a_file_that_has_only_a_version_is_somebody_else_s)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    FILE *const empty = fopen(made.other, "wb");
    ck_assert_ptr_nonnull(empty);
    fclose(empty);
    log_made_change(made.other, "PRAGMA user_version = 2");
    ck_assert(!sl_log_open(&log, made.other, SL_LOG_MAKE, &error));
    ck_assert_int_eq(error.code, SL_ERR_NO_LOG);
    ck_assert_str_eq(error.found, "it holds something else");
    log_made_change(made.other, "PRAGMA user_version = 0");
    ck_assert(sl_log_open(&log, made.other, SL_LOG_MAKE, NULL));
    sl_log_close(log);
}
END_TEST

START_TEST(a_log_below_a_file_is_not_made)
{
    char below[120];
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    snprintf(below, sizeof below, "%s/below.db", made.path);
    ck_assert(!sl_log_open(&log, below, SL_LOG_MAKE, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_str_eq(error.found, strerror(ENOTDIR));
    snprintf(below, sizeof below, "%s/none/below.db", made.folder);
    ck_assert(!sl_log_open(&log, below, SL_LOG_MAKE, &error));
    ck_assert_str_eq(error.found, strerror(ENOENT));
}
END_TEST

/* The log, or what SQLite keeps beside it. */
START_TEST(a_log_that_an_output_was_named_for_is_not_opened)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    sl_inputs_watch();
    for (int i = 0; i < 4; i++) {
        char named[120], path[120];
        sl_log *log = NULL;
        sl_error error = {.code = SL_OK};
        snprintf(path, sizeof path, "%s/log-%d.db", made.folder, i);
        snprintf(named, sizeof named, "%s%s", path, ends[i]);
        ck_assert(sl_output_named(named, NULL));
        ck_assert(!sl_log_open(&log, path, SL_LOG_MAKE, &error));
        ck_assert_int_eq(error.code, SL_ERR_USAGE);
        ck_assert_int_ne(access(path, F_OK), 0); /* nothing was made */
    }
}
END_TEST

static const char endless[] =
    "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT count(*) FROM n";

/* A file's rows are as many as its bytes can hold; Ctrl-C ends what goes on for long. */
START_TEST(a_statement_without_an_end_is_ended_and_so_is_one_at_ctrl_c)
{
    int64_t number = 0;
    sl_error error = {.code = SL_OK};
    sl_log *log = opened();
    ck_assert(!sl_sql_number(log, endless, &number, &error));
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    ck_assert_str_eq(error.found, "its rows have no end");
    sl_log_close(log);
    log = opened();
    sl_signals_hold();
    raise(SIGTERM);
    error = (sl_error){.code = SL_OK};
    const bool done = sl_sql_number(log, endless, &number, &error);
    signal(SIGTERM, SIG_IGN); /* it is gone */
    sl_signals_release();
    ck_assert(!done);
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_str_eq(error.found, "it was broken off");
    sl_log_close(log);
}
END_TEST

/* ---- scenes ----------------------------------------------------------------------------------------------
 */

static bool untold(void)
{
    sl_scene *const scene = sl_log_scene(made.log, made.test, NULL);
    ck_assert_ptr_nonnull(scene);
    const bool told = !scene->untold;
    sl_scene_free(scene);
    return !told;
}

START_TEST(a_scene_that_counts_as_a_head_is_not_predicted_out_of_a_log)
{
    ck_assert(!untold());
    change("UPDATE scene_file SET text = replace(text, 'room: 24 ', 'room: 31 ') WHERE place = 0");
    ck_assert(untold());
    change("UPDATE scene_file SET text = replace(text, 'room: 31 ', 'room: 24 ') WHERE place = 0");
    ck_assert(!untold());
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = 0};
    ck_assert(sl_instant_now(&event.at, NULL));
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, "strand: cut=yes", NULL));
    event.id[0] = '\0';
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, "a drip", NULL));
    ck_assert(!untold()); /* of nobody yet */
    event.id[0] = '\0';
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, "strand: person=K12", NULL));
    ck_assert(untold());
}
END_TEST

START_TEST(a_scene_of_which_a_file_is_gone_is_named_with_it)
{
    sl_error error = {.code = SL_OK};
    change("DELETE FROM scene_file WHERE place = 1");
    ck_assert_ptr_null(sl_log_scene(made.log, made.test, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
    ck_assert_str_eq(error.wanted, "the log does not hold it");
    change("DELETE FROM scene_file");
    error = (sl_error){.code = SL_OK};
    ck_assert_ptr_null(sl_log_scene(made.log, made.test, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
}
END_TEST

/* Without folders and ending, whatever the file is called. */
START_TEST(a_scene_is_called_as_its_file_is)
{
    static const struct {
        const char *file, *name;
    } files[] = {
        {"plain", "plain"}, {".hidden", ".hidden"}, {"two.dots.yaml", "two.dots"}, {"./a.yaml", "a"}};
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    const sl_plan_request request = sl_plan_request_default();
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, NULL);
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    ck_assert_int_eq(chdir(made.folder), 0);
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        char id[SL_UUID];
        sl_log_test test;
        sl_error error = {.code = SL_OK};
        ck_assert_int_eq(symlink(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", files[i].file), 0);
        ck_assert_msg(sl_log_begin(made.log, files[i].file, &resolver, plan, "Monday", "op-1", id, &error),
                      "%s: %s, %s", files[i].file, error.found, error.wanted);
        ck_assert(sl_log_find(made.log, id, &test, NULL));
        ck_assert_str_eq(test.scene_name, files[i].name);
        ck_assert_int_eq(unlink(files[i].file), 0);
    }
    ck_assert_int_eq(chdir("/"), 0);
    sl_plan_free(plan);
    sl_scene_free(scene);
}
END_TEST

/* ---- events ----------------------------------------------------------------------------------------------
 */

static char *json_of(void)
{
    char *bytes = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&bytes, &length);
    ck_assert_ptr_nonnull(out);
    ck_assert(sl_log_export_json(made.log, made.test, out, NULL));
    fclose(out);
    return bytes;
}

START_TEST(what_a_machine_reads_of_an_event_goes_out_with_it)
{
    sl_event event = {.kind = SL_EVENT_LOOKED, .swatch = 0};
    ck_assert(sl_instant_now(&event.at, NULL));
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
    char *bytes = json_of();
    ck_assert_ptr_nonnull(
        strstr(bytes, "\"clocks\": null, \"remark\": null, \"speed\": null, \"late_s\": null"));
    free(bytes);
    event = (sl_event){.kind = SL_EVENT_NOTED,
                       .swatch = 0,
                       .at = event.at,
                       .remark = SL_REMARK_WARM,
                       .clocks = SL_CLOCKS_RESTARTED,
                       .speed = 60.0,
                       .was_due = true,
                       .late_s = -90};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
    bytes = json_of();
    ck_assert_ptr_nonnull(strstr(bytes,
                                 "\"clocks\": \"restarted\", \"remark\": \"it feels warm\", \"speed\": 60, "
                                 "\"late_s\": -90"));
    free(bytes);
}
END_TEST

START_TEST(what_goes_out_without_a_reading_and_has_no_room_on_the_disk_is_told)
{
    for (int json = 0; json < 2; json++) {
        sl_error error = {.code = SL_OK};
        FILE *const out = fopen("/dev/full", "wb");
        ck_assert_ptr_nonnull(out);
        setvbuf(out, NULL, _IONBF, 0);
        ck_assert(!(json ? sl_log_export_json(made.log, NULL, out, &error)
                         : sl_log_export_csv(made.log, NULL, out, &error)));
        ck_assert_int_eq(error.code, SL_OK); /* the stream failed, not the log */
        fclose(out);
    }
}
END_TEST

START_TEST(minutes_of_looks_go_out_as_a_list_and_those_of_a_ladder_as_another)
{
    change("UPDATE swatch SET looks_min = '5,10', ladder_min = ''");
    char *bytes = json_of();
    ck_assert_ptr_nonnull(strstr(bytes, "\"looks_min\": [5, 10], \"ladder_min\": []"));
    free(bytes);
    change("UPDATE swatch SET looks_min = '', ladder_min = '5,10,20'");
    bytes = json_of();
    ck_assert_ptr_nonnull(strstr(bytes, "\"looks_min\": [], \"ladder_min\": [5, 10, 20]"));
    free(bytes);
}
END_TEST

/* As versions 1 and 2 wrote it; a clock that is not faster is no rehearsal's. */
START_TEST(only_the_words_of_an_old_rehearsal_are_taken_for_one)
{
    ck_assert(sl_old_flag("rehearsal: 60 times as fast"));
    ck_assert(sl_old_flag("rehearsal: 1.5 times as fast; the first"));
    ck_assert(sl_old_flag("ensayo: 60 veces m\xC3\xA1s r\xC3\xA1pido"));
    static const char *const others[] = {"",
                                         "rehearsal: soon",
                                         "rehearsal: 60 times as slow",
                                         "ensayo: 60 veces m\xC3\xA1s lento",
                                         "rehearsal: 1 times as fast",
                                         "rehearsal: 0.5 times as fast",
                                         "a rehearsal: 60 times as fast"};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        ck_assert_msg(!sl_old_flag(others[i]), "%s", others[i]);
    }
}
END_TEST

/* ---- readings --------------------------------------------------------------------------------------------
 */

START_TEST(an_observer_of_2_degrees_is_kept_and_a_column_that_is_none_is_not_found)
{
    sl_log_reading *rows = NULL;
    int n = 0;
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.L = 40.0;
    reading.a = reading.b = 1.0;
    snprintf(reading.illuminant, sizeof reading.illuminant, "D65");
    snprintf(reading.observer, sizeof reading.observer, "2");
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_str_eq(rows[0].observer, "2");
    sl_free(rows);
    ck_assert_int_eq(sl_reading_column("observers"), -1);
    ck_assert_int_eq(sl_reading_column("kept"), -1);
}
END_TEST

START_TEST(a_photo_that_is_not_there_or_cannot_be_read_to_its_end_has_no_sum)
{
    char hash[SL_SHA256_TEXT], none[120];
    sl_error error = {.code = SL_OK};
    snprintf(none, sizeof none, "%s/none.jpg", made.folder);
    ck_assert(!sl_photo_hash(none, hash, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    /* a plain file whose first byte cannot be read: memory at 0 */
    error = (sl_error){.code = SL_OK};
    ck_assert(!sl_photo_hash("/proc/self/mem", hash, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_str_eq(error.found, strerror(EIO));
    /* FIPS 180-2, appendix B.1 */
    log_made_write(&made, "abc", 3);
    ck_assert(sl_photo_hash(made.csv, hash, NULL));
    ck_assert_str_eq(hash, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}
END_TEST

START_SUITE("log odd")
FIXTURE(set_up, tear_down)
ADD(a_list_of_minutes_is_read_as_far_as_it_is_one)
ADD(a_title_of_too_many_bytes_is_cut_between_two_letters)
ADD(a_reading_that_does_not_fit_is_left_out_and_counted_once_however_often_it_is_read)
ADD(a_log_with_more_than_a_thousand_readings_that_do_not_fit_is_refused)
ADD(a_log_of_which_something_is_left_out_is_not_merged_from)
CASE("tables")
FIXTURE(set_up, tear_down)
ADD(tables_that_are_not_ours_to_the_letter_are_named_and_only_read)
ADD(a_file_that_has_only_a_version_is_somebody_else_s)
ADD(a_log_below_a_file_is_not_made)
ADD(a_log_that_an_output_was_named_for_is_not_opened)
ADD(a_statement_without_an_end_is_ended_and_so_is_one_at_ctrl_c)
CASE("scenes")
FIXTURE(set_up, tear_down)
ADD(a_scene_that_counts_as_a_head_is_not_predicted_out_of_a_log)
ADD(a_scene_of_which_a_file_is_gone_is_named_with_it)
ADD(a_scene_is_called_as_its_file_is)
CASE("events")
FIXTURE(set_up, tear_down)
ADD(what_a_machine_reads_of_an_event_goes_out_with_it)
ADD(what_goes_out_without_a_reading_and_has_no_room_on_the_disk_is_told)
ADD(minutes_of_looks_go_out_as_a_list_and_those_of_a_ladder_as_another)
ADD(only_the_words_of_an_old_rehearsal_are_taken_for_one)
CASE("readings")
FIXTURE(set_up, tear_down)
ADD(an_observer_of_2_degrees_is_kept_and_a_column_that_is_none_is_not_found)
ADD(a_photo_that_is_not_there_or_cannot_be_read_to_its_end_has_no_sum)
END_SUITE
