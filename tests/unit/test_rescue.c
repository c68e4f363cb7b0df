/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is saved of a log was in it, and what is said to be missing is: of a sound one, of rows that cannot
 * be, of numbers that jump, of holes.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "broken_pages.h"
#include "slowlift/log.h"
#include "suite.h"

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

/* ---- rows that cannot be ---------------------------------------------------------------------------------
 */

/* What is left of the log at made.path, in made.csv. */
static sl_log_tally rescued(void)
{
    sl_log_tally tally = {.read = 0};
    sl_error error = {.code = SL_OK};
    unlink(made.csv);
    ck_assert_msg(sl_log_rescue(made.path, made.csv, &tally, &error), "%s, %s", error.found, error.wanted);
    ck_assert(tally.read == rows_of(made.csv));
    return tally;
}

/* SQLite gives numbers out one by one, from 1 on. */
START_TEST(a_row_by_a_number_that_is_never_given_out_is_taken)
{
    fill_log();
    const long long there = rows_of(made.path);
    log_made_change(made.path, "UPDATE reading SET kept = -5 WHERE kept = 1;"
                               "UPDATE reading SET kept = 4611686018427387904 WHERE kept = 7;"
                               "UPDATE event SET kept = 0 WHERE kept = 1");
    const sl_log_tally tally = rescued();
    ck_assert_int_eq((int)tally.left_out, 2);
    ck_assert_int_eq((int)(there - tally.read), 2);
    ck_assert(tally.missing == 0 && !tally.more_missing);
    ck_assert_str_eq(tally.why, "reading: kept");
    end_log();
}
END_TEST

/* Tables that take every type: half a second, and a word that is bytes. */
START_TEST(a_row_of_another_type_than_its_column_is_taken)
{
    fill_log();
    const long long there = rows_of(made.path);
    log_made_change(made.path, "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET"
                               " sql = replace(sql, ' STRICT', '') WHERE name IN ('swatch', 'reading')");
    log_made_change(made.path, "UPDATE reading SET grade = x'41' WHERE kept = 3;"
                               "UPDATE reading SET blind = 0.5 WHERE kept = 4;"
                               "UPDATE reading SET grade = 'about half', blind = 1 WHERE kept = 5");
    const sl_log_tally tally = rescued();
    ck_assert_int_eq((int)tally.left_out, 2);
    ck_assert_int_eq((int)(there - tally.read), 2);
    ck_assert_str_eq(tally.why, "reading: grade");
    log_made_change(made.path, "UPDATE swatch SET contact_s = 90.5 WHERE block = 0 AND place = 1");
    const sl_log_tally less = rescued();
    ck_assert_str_eq(less.why, "swatch: contact_s");
    /* the swatch, the two readings, and those that were of the swatch: every 24th of 400, from the second on
     */
    ck_assert_int_eq((int)less.left_out, 1 + 2 + 17);
    end_log();
}
END_TEST

/* Where numbers jump, a hole is not as many rows as the jump is wide. */
START_TEST(a_jump_of_the_numbers_is_counted_as_rows)
{
    fill_log();
    log_made_change(made.path, "UPDATE reading SET kept = kept + 1000000000000 WHERE kept > 200");
    const long length = length_of(made.path);
    int jumps = 0;
    for (long page = 1; page < length / PAGE; page++) {
        sl_log_tally tally = {.read = 0};
        destroy_page(made.path, length, page);
        unlink(made.csv);
        if (sl_log_rescue(made.other, made.csv, &tally, NULL)) {
            static int minutes[READINGS];
            const int n = minutes_of(made.csv, minutes);
            ck_assert_int_le((int)tally.missing, READINGS);
            const bool over = n > 0 && n < READINGS && minutes[0] == 0 && minutes[n - 1] == READINGS - 1 &&
                              tally.left_out == 0 && tally.more_missing;
            jumps += over ? 1 : 0;
        }
    }
    ck_assert_int_ge(jumps, 1); /* the page on which the numbers jump */
    end_log();
}
END_TEST

static bool holds(const unsigned char bytes[PAGE], const char *words)
{
    const size_t length = strlen(words);
    bool found = false;
    for (size_t i = 0; !found && i + length <= PAGE; i++) {
        found = memcmp(bytes + i, words, length) == 0;
    }
    return found;
}

/* Every second page of a table: after a thousand holes the next table comes, and that there is more is told.
 */
START_TEST(a_table_of_holes_is_looked_through_without_an_end)
{
    enum { ROWS = 2020 };
    static unsigned char bytes[PAGE];
    char text[400];
    fill_log();
    snprintf(
        text, sizeof text,
        "INSERT INTO scene_file (test, place, kind, name, text) WITH RECURSIVE i(k) AS (SELECT 1 UNION ALL"
        " SELECT k + 1 FROM i WHERE k < %d) SELECT id, 100 + k, 'dye', 'made up ' || k,"
        " iif(k %% 2, 'to be lost', 'to be kept') || hex(zeroblob(1500)) FROM i, test",
        ROWS);
    log_made_change(made.path, text);
    const long length = length_of(made.path);
    FILE *const from = fopen(made.path, "rb"), *const to = fopen(made.other, "wb");
    ck_assert(from && to);
    int lost = 0;
    for (long at = 0; at < length; at += PAGE) {
        ck_assert_uint_eq(fread(bytes, 1, PAGE, from), PAGE);
        if (holds(bytes, "to be lost")) {
            memset(bytes, 0xEE, PAGE);
            lost++;
        }
        ck_assert_uint_eq(fwrite(bytes, 1, PAGE, to), PAGE);
    }
    fclose(from);
    ck_assert_int_eq(fclose(to), 0);
    ck_assert_int_eq(lost, ROWS / 2); /* a row fills a page */
    sl_log_tally tally = {.read = 0};
    ck_assert(sl_log_rescue(made.other, made.csv, &tally, NULL));
    static int minutes[READINGS];
    ck_assert_int_eq(minutes_of(made.csv, minutes), READINGS);
    ck_assert(tally.read == rows_of(made.csv));
    ck_assert_int_eq((int)tally.missing, 1000);
    ck_assert(tally.more_missing && tally.left_out == 0);
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
        const long length = length_of(kept[k]);
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
ADD(a_row_of_an_older_log_is_read_otherwise_around_a_hole)
ADD(a_tally_is_told_as_another_one)
CASE("rows that cannot be")
ADD(a_row_by_a_number_that_is_never_given_out_is_taken)
ADD(a_row_of_another_type_than_its_column_is_taken)
ADD(a_jump_of_the_numbers_is_counted_as_rows)
ADD(a_table_of_holes_is_looked_through_without_an_end)
END_SUITE
