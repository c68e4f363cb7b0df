/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a rescue makes of a small log of which something is lost: a table, a column, a row, a page.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "log_made.h"
#include "suite.h"

enum { PAGE = 4096 };

static sl_log_made made;

static void set_up(void)
{
    log_made_begin_closed(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

/* ---- tables that look otherwise --------------------------------------------------------------------------
 */

/* What a rescue makes of the log, in made.other. */
static sl_log_tally rescued(void)
{
    sl_log_tally tally = {.read = 0};
    sl_error error = {.code = SL_OK};
    unlink(made.other);
    ck_assert_msg(sl_log_rescue(made.path, made.other, &tally, &error), "%s, %s", error.found, error.wanted);
    return tally;
}

/* Each name by which SQLite gives a row's number may be one of a column; where all three are, none is left.
 */
START_TEST(a_row_s_number_is_read_from_a_column_of_its_name)
{
    static const char *const taken[] = {
        "ALTER TABLE reading ADD COLUMN rowid TEXT; UPDATE reading SET rowid = 'x'",
        "ALTER TABLE reading ADD COLUMN _ROWID_ INTEGER; UPDATE reading SET _rowid_ = 7",
        "ALTER TABLE reading ADD COLUMN oid INTEGER; UPDATE reading SET oid = 9"};
    const long long there = rescued().read;
    for (int i = 0; i < 3; i++) {
        char text[40];
        log_made_change(made.path, taken[i]);
        const sl_log_tally tally = rescued();
        const bool none = i == 2;
        ck_assert_int_eq((int)(there - tally.read), none ? 3 : 0);
        ck_assert(tally.missing == 0 && tally.left_out == 0 && tally.more_missing == none);
        ck_assert_str_eq(tally.why, none ? "reading: there is no such table" : "");
        log_made_text(made.other, "SELECT count(*) || ' ' || coalesce(max(kept), 0) FROM reading", text,
                      sizeof text);
        ck_assert_str_eq(text, none ? "0 0" : "3 3");
    }
}
END_TEST

/* A view of a table's name is no table; a column that is not there is null. What is told is of the first
 * thing that is missing. */
START_TEST(what_a_table_lacks_goes_unsaid_or_takes_its_rows_with_it)
{
    static const struct {
        const char *text, *why;
        int lost; /* rows */
    } cases[] = {
        {"ALTER TABLE reading DROP COLUMN tone", "reading: it lacks a column", 0},
        {"ALTER TABLE event DROP COLUMN late_s", "event: it lacks a column", 0},
        {"ALTER TABLE swatch DROP COLUMN ladder_min", "swatch: it lacks a column", 0},
        {"ALTER TABLE event DROP COLUMN remark; DROP TABLE import;", "event: it lacks a column", 0},
        {"DROP TABLE import; CREATE VIEW import AS SELECT 1 AS kept", "import: there is no such table", 0},
        {"DROP TABLE reading; CREATE VIEW reading AS SELECT 1 AS kept", "reading: there is no such table",
         3}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const long long there = rescued().read;
        log_made_change(made.path, cases[i].text);
        const sl_log_tally tally = rescued();
        ck_assert_msg(strcmp(tally.why, cases[i].why) == 0, "%s: %s", cases[i].text, tally.why);
        ck_assert_msg(there - tally.read == cases[i].lost, "%s: %lld of %lld", cases[i].text, tally.read,
                      there);
        ck_assert(tally.missing == 0 && tally.left_out == 0 && tally.more_missing);
        tear_down();
        set_up();
    }
}
END_TEST

/* What a row is refused for: its own column, or a row that it needs; the others come with their numbers. */
START_TEST(a_row_that_is_left_out_is_told_for_another_s_reason)
{
    static const struct {
        const char *text, *why;
        int left_out;
    } cases[] = {{"UPDATE reading SET judge = '' WHERE kept = 2", "reading: judge", 1},
                 {"UPDATE reading SET minute = -1 WHERE kept >= 2", "reading: minute", 2},
                 {"UPDATE reading SET replaces = 'aaaaaaaa-0000-4000-8000-000000000001' WHERE kept = 2",
                  "reading: FOREIGN KEY constraint failed", 1},
                 {"UPDATE reading SET kept = 0 WHERE kept = 1", "reading: kept", 1},
                 {"UPDATE event SET kept = -1 WHERE kept = 1", "event: kept", 1},
                 {"UPDATE zone SET place = -1 WHERE place = 1", "zone: place", 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const long long there = rescued().read;
        log_made_change(made.path, cases[i].text);
        const sl_log_tally tally = rescued();
        ck_assert_msg(strcmp(tally.why, cases[i].why) == 0, "%s: %s", cases[i].text, tally.why);
        ck_assert_int_eq((int)tally.left_out, cases[i].left_out);
        ck_assert_int_eq((int)(there - tally.read), cases[i].left_out);
        ck_assert(tally.missing == 0 && !tally.more_missing);
        tear_down();
        set_up();
    }
}
END_TEST

/* A text of a scene's file that goes over several pages of 4 KiB, of which one in its middle is destroyed:
 * that row cannot be read, and the next one can. */
START_TEST(a_hole_of_one_row_takes_the_next_one_with_it)
{
    static const char middle[] = "HERE IS ITS MIDDLE";
    char there[16], saved[16];
    log_made_change(made.path, "UPDATE scene_file SET text = text || printf('%.*c', 9000, '#') ||"
                               " 'HERE IS ITS MIDDLE' || printf('%.*c', 9000, '#') WHERE place = 1");
    log_made_text(made.path, "SELECT count(*) FROM scene_file", there, sizeof there);
    FILE *const file = fopen(made.path, "r+b");
    ck_assert_ptr_nonnull(file);
    char *const bytes = malloc(1 << 22);
    ck_assert_ptr_nonnull(bytes);
    const size_t length = fread(bytes, 1, 1 << 22, file);
    size_t at = 0;
    while (at + strlen(middle) < length && memcmp(bytes + at, middle, strlen(middle)) != 0) {
        at++;
    }
    ck_assert_uint_lt(at + strlen(middle), length);
    memset(bytes, 0xEE, PAGE);
    ck_assert_int_eq(fseek(file, (long)(at / PAGE * PAGE), SEEK_SET), 0);
    ck_assert_uint_eq(fwrite(bytes, 1, PAGE, file), PAGE);
    ck_assert_int_eq(fclose(file), 0);
    free(bytes);
    const sl_log_tally tally = rescued();
    ck_assert_int_eq((int)tally.missing, 1);
    ck_assert_str_eq(tally.why, "scene_file: some of its pages cannot be read");
    log_made_text(made.other, "SELECT count(*) FROM scene_file", saved, sizeof saved);
    ck_assert_int_eq(atoi(saved), atoi(there) - 1);
    ck_assert(tally.left_out == 0 && !tally.more_missing);
}
END_TEST

/* ---- pages that are gone ----------------------------------------------------------------------------------
 */

enum { MANY = 60 };

static char whole[1 << 20];

static size_t read_whole(void)
{
    FILE *const file = fopen(made.path, "rb");
    ck_assert_ptr_nonnull(file);
    const size_t length = fread(whole, 1, sizeof whole, file);
    fclose(file);
    ck_assert(length > 0 && length < sizeof whole && length % PAGE == 0);
    return length;
}

/* The page on which the words stand. */
static size_t page_of(const char *words, size_t length)
{
    for (size_t at = 0; at + strlen(words) < length; at++) {
        if (memcmp(whole + at, words, strlen(words)) == 0) {
            return at / PAGE;
        }
    }
    ck_abort_msg("\"%s\" is not there", words);
    return 0;
}

static void write_without(size_t length, size_t page)
{
    static char gone[PAGE];
    memset(gone, 0xEE, sizeof gone);
    FILE *const file = fopen(made.csv, "wb");
    ck_assert_ptr_nonnull(file);
    for (size_t at = 0; at < length; at += PAGE) {
        ck_assert_uint_eq(fwrite(at / PAGE == page ? gone : whole + at, 1, PAGE, file), PAGE);
    }
    ck_assert_int_eq(fclose(file), 0);
}

/* Some dozen readings to a page: of each page that is destroyed its own are missing, in number, and the
 * others are there, in their order; of the last one the index knows how many there were. */
START_TEST(readings_of_a_destroyed_page_are_more_or_fewer_than_it_held)
{
    size_t pages[MANY];
    int holes = 0;
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_WRITE, NULL));
    for (int i = 0; i < MANY; i++) {
        sl_log_reading reading = log_made_reading(&made, i % made.n, "red", SL_WIPE_HALF);
        snprintf(reading.note, sizeof reading.note, "this is reading %02d of many, with words %0150d", i, 0);
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    }
    sl_log_close(made.log);
    made.log = NULL;
    const size_t length = read_whole();
    for (int i = 0; i < MANY; i++) {
        char words[40];
        snprintf(words, sizeof words, "this is reading %02d of many", i);
        pages[i] = page_of(words, length);
    }
    for (int i = 0; i < MANY; i++) {
        if (i > 0 && pages[i] == pages[i - 1]) {
            continue; /* was tried */
        }
        sl_log_tally tally = {.read = 0};
        char rows[40], wanted[40];
        int n = 0;
        for (int k = 0; k < MANY; k++) {
            n += pages[k] == pages[i] ? 1 : 0;
        }
        n += pages[i] == pages[0] ? 3 : 0; /* those of the day before */
        write_without(length, pages[i]);
        unlink(made.other);
        ck_assert(sl_log_rescue(made.csv, made.other, &tally, NULL));
        const bool last = pages[i] == pages[MANY - 1];
        log_made_text(made.other,
                      "SELECT count(*) || ' ' || max(kept) || ' ' || count(DISTINCT note) FROM reading", rows,
                      sizeof rows);
        const int left = MANY + 3 - n, highest = last ? left : MANY + 3;
        snprintf(wanted, sizeof wanted, "%d %d %d", left, highest, pages[i] == pages[0] ? left : left - 3);
        ck_assert_msg(strcmp(rows, wanted) == 0, "page %zu: %s, not %s", pages[i], rows, wanted);
        ck_assert_msg(tally.missing == n, "page %zu: %lld, not %d", pages[i], tally.missing, n);
        ck_assert(tally.more_missing == last && tally.left_out == 0);
        ck_assert_str_eq(tally.why, "reading: some of its pages cannot be read");
        holes++;
    }
    ck_assert_int_ge(holes, 4);
}
END_TEST

/* Nothing can be saved of it; a copy of it is one of no rows. */
START_TEST(a_log_that_holds_nothing_is_rescued)
{
    sl_log_tally tally = {.read = 9};
    sl_error error = {.code = SL_OK};
    sl_log *empty = NULL;
    ck_assert(sl_log_open(&empty, made.csv, SL_LOG_MAKE, NULL));
    sl_log_close(empty);
    ck_assert(!sl_log_rescue(made.csv, made.other, &tally, &error));
    ck_assert(error.code == SL_ERR_DAMAGED && error.line == 0 && error.column == 0);
    ck_assert_str_eq(error.found, "no row of it can be read");
    ck_assert_str_eq(error.file, made.csv);
    ck_assert_int_ne(access(made.other, F_OK), 0);
    long long rows = -1;
    ck_assert(sl_log_backup(made.csv, made.other, &rows, NULL)); /* a copy of nothing is one */
    ck_assert_int_eq((int)rows, 0);
}
END_TEST

START_SUITE("what a log lost")
FIXTURE(set_up, tear_down)
ADD(a_row_s_number_is_read_from_a_column_of_its_name)
ADD(what_a_table_lacks_goes_unsaid_or_takes_its_rows_with_it)
ADD(a_row_that_is_left_out_is_told_for_another_s_reason)
ADD(a_hole_of_one_row_takes_the_next_one_with_it)
CASE("pages that are gone")
FIXTURE(set_up, tear_down)
ADD(readings_of_a_destroyed_page_are_more_or_fewer_than_it_held)
ADD(a_log_that_holds_nothing_is_rescued)
END_SUITE
