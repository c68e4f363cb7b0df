/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All tests of a folder: how far each is, that a copy counts once, and that what cannot be read ends no list.
 */
#include "log/shelf/shelf.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/memory.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;
static sl_log_shelf shelf;

static void fresh(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    log_made_begin(&made);
}

static void end(void)
{
    sl_shelf_free(&shelf);
    log_made_end(&made);
}

static void read_shelf_kept(bool all, int keep_months)
{
    sl_error error = {.code = SL_OK};
    sl_shelf_free(&shelf);
    ck_assert_msg(sl_shelf_read(&shelf, made.folder, all, keep_months, &error), "%s; %s", error.found,
                  error.wanted);
}

static void read_shelf(bool all)
{
    read_shelf_kept(all, 0);
}

static sl_test_state state(void)
{
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 1);
    return shelf.row[0].state;
}

START_TEST(a_test_is_planned_then_running_then_rinsed_then_compared)
{
    fresh();
    ck_assert_int_eq(state(), SL_TEST_PLANNED);
    ck_assert_int_eq(shelf.row[0].n_strips, 8);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    ck_assert_int_eq(state(), SL_TEST_RUNNING);
    int last = -1;
    for (int i = 0; i < made.n; i++) {
        if (made.swatches[i].bench.contact_s >= 0) {
            last = i;
            log_made_happens(&made, SL_EVENT_APPLIED, i, 60 + i, NULL);
        }
    }
    for (int i = 0; i < last; i++) {
        if (made.swatches[i].bench.contact_s >= 0) {
            log_made_happens(&made, SL_EVENT_RINSED, i, 1900 + i, NULL);
        }
    }
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    ck_assert_int_eq(state(), SL_TEST_RUNNING); /* one still lies there */
    log_made_happens(&made, SL_EVENT_RINSED, last, 2000, NULL);
    ck_assert_int_eq(state(), SL_TEST_COMPARED);
    ck_assert_int_gt(shelf.row[0].n_due, 0);
    end();
}
END_TEST

START_TEST(a_look_on_the_way_is_no_result)
{
    fresh();
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.minute = 5.0;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    ck_assert_int_eq(state(), SL_TEST_PLANNED);
    end();
}
END_TEST

START_TEST(the_fuller_of_two_logs_of_one_test_counts)
{
    fresh();
    log_made_copy(&made);
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 2);
    ck_assert_str_eq(shelf.row[0].file, "one.db");
    ck_assert(!shelf.row[0].copy);
    ck_assert(shelf.row[1].copy);
    end();
}
END_TEST

/* Somebody tries the day on a copy, with more events than the real one has yet. */
START_TEST(a_real_test_counts_before_its_rehearsal)
{
    fresh();
    log_made_copy(&made);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    sl_log *copy = NULL;
    ck_assert(sl_log_open(&copy, made.other, SL_LOG_WRITE, NULL));
    static const sl_event tried[] = {
        {.kind = SL_EVENT_STARTED, .swatch = -1, .speed = 60.0, .at = {.boot_ns = 1, .wall_ns = 1}},
        {.kind = SL_EVENT_APPLIED, .swatch = 0, .at = {.boot_ns = 2, .wall_ns = 2}}};
    for (int i = 0; i < 2; i++) {
        sl_event did = tried[i];
        sl_error error = {.code = SL_OK};
        ck_assert_msg(sl_log_append(copy, made.test, made.swatches, made.n, &did, NULL, &error), "%s; %s",
                      error.found, error.wanted);
    }
    sl_log_close(copy);
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 2);
    ck_assert_str_eq(shelf.row[0].file, "one.db");
    ck_assert(!shelf.row[0].rehearsed && !shelf.row[0].copy);
    ck_assert(shelf.row[1].rehearsed && shelf.row[1].copy);
    end();
}
END_TEST

START_TEST(a_log_that_cannot_be_read_is_a_row_with_its_reason)
{
    static const char junk[] = "no log at all";
    char other[128];
    fresh();
    log_made_write(&made, junk, sizeof junk);
    snprintf(other, sizeof other, "%s/a.db", made.folder);
    ck_assert_int_eq(rename(made.csv, other), 0);
    log_made_write(&made, junk, sizeof junk); /* some.csv is not looked at */
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 2);
    ck_assert_int_eq(shelf.n_unread, 1);
    ck_assert_str_eq(shelf.row[0].file, "one.db");
    ck_assert_str_eq(shelf.row[1].file, "a.db");
    ck_assert_int_eq(shelf.row[1].why.code, SL_ERR_NO_LOG);
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_shelf_whole(&shelf, &error));
    ck_assert_int_eq(error.code, SL_ERR_NO_LOG);
    unlink(other);
    end();
}
END_TEST

START_TEST(what_is_more_than_a_year_old_is_counted_and_listed_when_asked_for)
{
    fresh();
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2100-01-01", 1), 0);
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 0);
    ck_assert_int_eq(shelf.n_older, 1);
    read_shelf(true);
    ck_assert_uint_eq(shelf.n, 1);
    ck_assert_int_eq(shelf.n_older, 0);
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    end();
}
END_TEST

START_TEST(what_is_older_than_tests_are_kept_is_counted_listed_or_not)
{
    const struct {
        int years, months, past;
    } kept[] = {{0, 1, 0}, {2, 1, 1}, {2, 23, 1}, {2, 25, 0}, {2, 0, 0}};
    fresh();
    sl_log_test test;
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        char today[16];
        snprintf(today, sizeof today, "%d%.6s", atoi(test.made) + kept[i].years, test.made + 4);
        ck_assert_int_eq(setenv("SLOWLIFT_TODAY", today, 1), 0);
        for (int all = 0; all < 2; all++) {
            read_shelf_kept(all != 0, kept[i].months);
            ck_assert_msg(shelf.n_past == kept[i].past, "row %zu: %d", i, shelf.n_past);
        }
    }
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    end();
}
END_TEST

START_TEST(a_log_is_known_by_its_head_whatever_its_name)
{
    char other[128];
    fresh();
    sl_log_close(made.log);
    made.log = NULL;
    snprintf(other, sizeof other, "%s/monday.bak", made.folder);
    ck_assert_int_eq(rename(made.path, other), 0);
    read_shelf(false);
    ck_assert_uint_eq(shelf.n, 1);
    ck_assert_str_eq(shelf.row[0].file, "monday.bak");
    unlink(other);
    end();
}
END_TEST

START_TEST(a_tub_is_called_for_a_check_swatch_only_when_it_is_open_for_weeks_and_in_use)
{
    fresh();
    const int one = log_made_swatch(&made, "powder + 3 %", 0),
              other = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_NOTED, -1, 0, "bowl: powder_lot=P7 powder_opened=2026-11-01");
    read_shelf(false);
    ck_assert_uint_eq(shelf.n_tubs, 0);                       /* nothing was put on */
    log_made_happens(&made, SL_EVENT_APPLIED, one, 60, NULL); /* on 2026-11-25 */
    const struct {
        const char *today;
        bool due;
    } day[] = {{"2026-11-28", false}, {"2026-11-29", true}, {"2027-01-19", true}, {"2027-01-20", false}};
    for (size_t i = 0; i < sizeof day / sizeof day[0]; i++) {
        ck_assert_int_eq(setenv("SLOWLIFT_TODAY", day[i].today, 1), 0);
        read_shelf(false);
        ck_assert_uint_eq(shelf.n_tubs, 1);
        ck_assert_msg(sl_shelf_tub_due(&shelf.tub[0], shelf.today) == day[i].due, "%s", day[i].today);
    }
    log_made_happens(&made, SL_EVENT_APPLIED, other, 90, NULL);
    log_made_happens(&made, SL_EVENT_NOTED, other, 0, "bowl: check=yes");
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-12-22", 1), 0); /* 27 days after the check */
    read_shelf(false);
    ck_assert(!sl_shelf_tub_due(&shelf.tub[0], shelf.today));
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-12-23", 1), 0);
    read_shelf(false);
    ck_assert(sl_shelf_tub_due(&shelf.tub[0], shelf.today));
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    end();
}
END_TEST

START_TEST(a_folder_that_is_none_is_refused)
{
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_shelf_read(&shelf, "/tmp/slowlift-no-such-folder", false, 0, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

/* Ctrl-C ends the reading; what was not read is not told as if there were nothing. */
START_TEST(a_signal_ends_the_reading_and_is_told)
{
    fresh();
    sl_error error = {.code = SL_OK};
    void (*const before)(int) = signal(SIGTERM, SIG_IGN);
    sl_signals_hold();
    ck_assert_int_eq(raise(SIGTERM), 0);
    const bool read = sl_shelf_read(&shelf, made.folder, false, 0, &error);
    sl_signals_release();
    signal(SIGTERM, before);
    ck_assert(!read);
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert(strstr(error.found, "broken off"));
    end();
}
END_TEST

START_SUITE("shelf")
ADD(a_signal_ends_the_reading_and_is_told)
ADD(a_test_is_planned_then_running_then_rinsed_then_compared)
ADD(a_look_on_the_way_is_no_result)
ADD(the_fuller_of_two_logs_of_one_test_counts)
ADD(a_real_test_counts_before_its_rehearsal)
ADD(a_log_that_cannot_be_read_is_a_row_with_its_reason)
ADD(what_is_more_than_a_year_old_is_counted_and_listed_when_asked_for)
ADD(what_is_older_than_tests_are_kept_is_counted_listed_or_not)
ADD(a_log_is_known_by_its_head_whatever_its_name)
ADD(a_tub_is_called_for_a_check_swatch_only_when_it_is_open_for_weeks_and_in_use)
ADD(a_folder_that_is_none_is_refused)
END_SUITE
