/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log of which pages were destroyed, one after the other: what is saved of it was in it, unchanged and in
 * its order; what is said to be missing is; whoever asks whether it is sound is told that it is not.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log_made.h"
#include "slowlift/log.h"
#include "suite.h"

enum { READINGS = 400, PAGE = 4096 };

static sl_log_made made;

static void fill_log(void)
{
    static sl_log_reading readings[READINGS];
    log_made_begin(&made);
    for (int i = 0; i < READINGS; i++) {
        readings[i] = log_made_reading(&made, i % made.n, "red", (sl_wipe)(i % SL_WIPES));
        readings[i].minute = i;
        snprintf(readings[i].note, sizeof readings[i].note, "number %d of the day, with some words more", i);
    }
    ck_assert(sl_log_add(made.log, readings, READINGS, NULL));
    sl_log_close(made.log);
    made.log = NULL;
}

static void end_log(void)
{
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_READ, NULL)); /* log_made_end closes it */
    log_made_end(&made);
}

/* Minutes of the readings of a log, in order; -1 when it cannot be asked. Each must be as it was put in. */
static int minutes_of(const char *path, int minutes[READINGS])
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    int n = 0;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_prepare_v2(base, "SELECT minute, note, grade FROM reading ORDER BY kept", -1, &ask, NULL),
        SQLITE_OK);
    while (sqlite3_step(ask) == SQLITE_ROW) {
        char note[80];
        const int minute = sqlite3_column_int(ask, 0);
        snprintf(note, sizeof note, "number %d of the day, with some words more", minute);
        ck_assert_str_eq((const char *)sqlite3_column_text(ask, 1), note);
        ck_assert_str_eq((const char *)sqlite3_column_text(ask, 2),
                         sl_wipe_word((sl_wipe)(minute % SL_WIPES)));
        ck_assert_int_lt(n, READINGS);
        minutes[n++] = minute;
    }
    sqlite3_finalize(ask);
    sqlite3_close(base);
    return n;
}

static long long rows_of(const char *path)
{
    static const char *const tables[] = {"test", "scene_file", "swatch", "reading", "event", "zone"};
    sqlite3 *base = NULL;
    long long rows = 0;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        char text[80];
        sqlite3_stmt *ask = NULL;
        snprintf(text, sizeof text, "SELECT count(*) FROM %s", tables[i]);
        if (sqlite3_prepare_v2(base, text, -1, &ask, NULL) == SQLITE_OK && sqlite3_step(ask) == SQLITE_ROW) {
            rows += sqlite3_column_int64(ask, 0);
        }
        sqlite3_finalize(ask);
    }
    sqlite3_close(base);
    return rows;
}

static void hear(void *self, bool bad, const char *words)
{
    (void)words;
    *(int *)self += bad ? 1 : 0;
}

/* ---- a log without a fault ------------------------------------------------------------------------------
 */

START_TEST(a_sound_log_is_said_to_have_a_fault_or_is_not_copied_whole)
{
    static int minutes[READINGS];
    int faults = 0;
    bool sound = false;
    long long rows = 0;
    sl_log_tally tally;
    sl_error error = {.code = SL_OK};
    fill_log();
    const long long there = rows_of(made.path);
    ck_assert_int_gt((int)there, READINGS + made.n);
    ck_assert(sl_log_check(made.path, hear, &faults, &sound, NULL));
    ck_assert(sound && faults == 0);
    ck_assert(sl_log_backup(made.path, made.other, &rows, NULL));
    ck_assert(rows == there && rows_of(made.other) == there);
    ck_assert_int_eq(minutes_of(made.other, minutes), READINGS);
    ck_assert(!sl_log_backup(made.path, made.other, &rows, &error)); /* somebody's file is there */
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    ck_assert(!sl_log_rescue(made.path, made.other, &tally, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    ck_assert(sl_log_rescue(made.path, made.csv, &tally, NULL));
    ck_assert(tally.read == there && tally.missing == 0 && tally.left_out == 0 && !tally.more_missing);
    ck_assert(sl_log_tally_whole(&tally, made.path, NULL));
    ck_assert_int_eq(minutes_of(made.csv, minutes), READINGS);
    for (int i = 0; i < READINGS; i++) {
        ck_assert_int_eq(minutes[i], i);
    }
    end_log();
}
END_TEST

/* ---- one page after the other ----------------------------------------------------------------------------
 */

static void destroy_page(const char *whole, long length, long page)
{
    static unsigned char bytes[PAGE];
    FILE *const from = fopen(whole, "rb"), *const to = fopen(made.other, "wb");
    ck_assert(from && to);
    for (long at = 0; at < length; at += PAGE) {
        ck_assert_uint_eq(fread(bytes, 1, PAGE, from), PAGE);
        for (int i = 0; at / PAGE == page && i < PAGE; i++) {
            bytes[i] = 0xEE;
        }
        ck_assert_uint_eq(fwrite(bytes, 1, PAGE, to), PAGE);
    }
    fclose(from);
    ck_assert_int_eq(fclose(to), 0);
}

/* What is told of what was saved is true of it. Numbers of rows are given out one by one: where readings are
 * missing between others, the gap says how many, and true is returned. */
static bool tally_is_true(const sl_log_tally *tally, const char *saved)
{
    static int minutes[READINGS];
    const int n = minutes_of(saved, minutes);
    const bool whole = tally->missing == 0 && tally->left_out == 0 && !tally->more_missing;
    for (int i = 1; i < n; i++) {
        ck_assert_int_lt(minutes[i - 1], minutes[i]);
    }
    ck_assert(tally->read == rows_of(saved));
    ck_assert(!whole || n == READINGS);
    ck_assert(tally->more_missing || tally->missing + tally->left_out >= READINGS - n);
    ck_assert(tally->missing <= READINGS + 100); /* never more than there ever were */
    ck_assert(whole || tally->why[0] != '\0');
    sl_error error = {.code = SL_OK};
    ck_assert(sl_log_tally_whole(tally, saved, &error) == whole);
    ck_assert_int_eq(error.code, whole ? SL_OK : SL_ERR_DAMAGED);
    const bool gap = n > 0 && n < READINGS && minutes[0] == 0 && minutes[n - 1] == READINGS - 1;
    if (gap && tally->left_out == 0) {
        ck_assert_int_eq((int)tally->missing, READINGS - n);
        ck_assert(!tally->more_missing);
        return true;
    }
    return false;
}

START_TEST(a_destroyed_page_goes_unseen_or_takes_more_than_it_held)
{
    fill_log();
    FILE *const file = fopen(made.path, "rb");
    ck_assert_ptr_nonnull(file);
    fseek(file, 0, SEEK_END);
    const long length = ftell(file);
    fclose(file);
    ck_assert_int_eq((int)(length % PAGE), 0);
    int saved = 0, gaps = 0, refused = 0;
    for (long page = 0; page < length / PAGE; page++) {
        int faults = 0;
        bool sound = true;
        sl_error error = {.code = SL_OK};
        sl_log_tally tally = {.read = 0};
        destroy_page(made.path, length, page);
        const bool told = sl_log_check(made.other, hear, &faults, &sound, &error);
        ck_assert_msg(!told || (!sound && faults > 0), "page %ld is said to be sound", page);
        unlink(made.csv);
        if (sl_log_rescue(made.other, made.csv, &tally, &error)) {
            saved++;
            gaps += tally_is_true(&tally, made.csv) ? 1 : 0;
        } else {
            refused++; /* the first page, or one of those that say what tables there are */
            ck_assert(error.code != SL_OK && error.code != SL_ERR_USAGE);
            ck_assert_int_ne(access(made.csv, F_OK), 0);
        }
    }
    ck_assert_int_ge(gaps, 3);    /* readings lie on several pages */
    ck_assert_int_lt(refused, 6); /* one lost page is no lost log */
    ck_assert_int_gt(saved, 20);
    end_log();
}
END_TEST

/* ---- older logs, read in place ----------------------------------------------------------------------------
 */

typedef struct all_readings {
    sl_log_reading row[2000];
    int n;
} all_readings;

static bool take_reading(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch,
                         const char *test, sl_error *error)
{
    all_readings *const all = self;
    (void)test;
    (void)error;
    ck_assert(all->n < 2000 && strcmp(swatch->id, reading->swatch) == 0);
    all->row[all->n++] = *reading;
    return true;
}

/* Every reading that a log gives; false when it gives none, with a reason. */
static bool read_all(const char *path, all_readings *all)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    all->n = 0;
    const bool good = sl_log_open(&log, path, SL_LOG_READ, &error) &&
                      sl_log_each_reading(log, NULL, take_reading, all, &error);
    ck_assert(good || error.code != SL_OK);
    sl_log_close(log);
    return good;
}

/* A log of each version of the tables: what is read around a hole is what the whole log says, row for row. */
START_TEST(a_row_of_an_older_log_is_read_otherwise_around_a_hole)
{
    static const char *const kept[] = {SLOWLIFT_KEPT "/class-1.db", SLOWLIFT_KEPT "/ladder-2.db",
                                       SLOWLIFT_KEPT "/rehearsal-3.db"};
    static all_readings whole, around;
    log_made_begin(&made); /* a folder of its own */
    for (int k = 0; k < 3; k++) {
        FILE *const file = fopen(kept[k], "rb");
        ck_assert_ptr_nonnull(file);
        fseek(file, 0, SEEK_END);
        const long length = ftell(file);
        fclose(file);
        ck_assert(read_all(kept[k], &whole));
        int holes = 0;
        for (long page = 1; page < length / PAGE; page += k == 0 ? 1 : 4) {
            destroy_page(kept[k], length, page);
            if (!read_all(made.other, &around)) {
                continue;
            }
            holes += around.n < whole.n ? 1 : 0;
            int at = 0;
            for (int i = 0; i < around.n; i++, at++) {
                while (at < whole.n && strcmp(whole.row[at].id, around.row[i].id) != 0) {
                    at++;
                }
                ck_assert_msg(at < whole.n, "%s, page %ld: a row that never was, or not in its order",
                              kept[k], page);
                ck_assert_mem_eq(&whole.row[at], &around.row[i], sizeof whole.row[at]);
            }
        }
        ck_assert(k > 0 || (whole.n > 0 && holes > 0));
    }
    log_made_end(&made);
}
END_TEST

/* A whole log is one of which nothing is missing; else the sentence has the numbers, and says whether they
 * are all. */
START_TEST(a_tally_is_told_as_another_one)
{
    static const struct {
        sl_log_tally tally;
        const char *said; /* NULL: whole */
    } tallies[] = {{{.read = 7}, NULL},
                   {{.read = 6, .missing = 1, .why = "torn"}, "6 of 7 rows could be read (torn)"},
                   {{.read = 6, .left_out = 1, .why = "odd"}, "6 of 7 rows could be read (odd)"},
                   {{.read = 5, .missing = 1, .left_out = 1, .why = "x"}, "5 of 7 rows could be read (x)"},
                   {{.read = 5, .missing = 2, .more_missing = true, .why = "x"},
                    "5 of at least 7 rows could be read (x)"},
                   {{.read = 5, .more_missing = true, .why = "x"},
                    "5 rows could be read, and how many are missing is not known (x)"}};
    for (size_t i = 0; i < sizeof tallies / sizeof tallies[0]; i++) {
        sl_error error = {.code = SL_OK};
        ck_assert(sl_log_tally_whole(&tallies[i].tally, "a.db", &error) == (tallies[i].said == NULL));
        if (tallies[i].said) {
            ck_assert_str_eq(error.found, tallies[i].said);
            ck_assert_str_eq(error.file, "a.db");
            ck_assert(error.code == SL_ERR_DAMAGED && error.line == 0 && error.column == 0);
        }
    }
}
END_TEST

START_SUITE("rescue")
ADD(a_sound_log_is_said_to_have_a_fault_or_is_not_copied_whole)
ADD(a_destroyed_page_goes_unseen_or_takes_more_than_it_held)
ADD(a_row_of_an_older_log_is_read_otherwise_around_a_hole)
ADD(a_tally_is_told_as_another_one)
END_SUITE
