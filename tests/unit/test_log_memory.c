/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation that the log makes is made to fail, once and from then on: reported, nothing leaks,
 * nothing is half kept. SQLite, libuuid and GSL are shared libraries, so that their own stay out; libcsv is
 * given ours.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/seen_curves.h"
#include "log_made.h"
#include "slowlift/compare.h"
#include "suite.h"
#include "tools/faults.h"

static sl_log_made made;

static bool import_it(sl_error *error)
{
    sl_log_count count;
    return sl_log_import_csv(made.log, made.csv, NULL, true, &count, error);
}

static bool read_it(sl_error *error)
{
    sl_log *log = NULL;
    sl_log_reading *readings = NULL;
    sl_log_mean *means = NULL;
    sl_log_test test;
    int n = 0;
    const bool good =
        sl_log_open(&log, made.path, SL_LOG_READ, error) && sl_log_find(log, NULL, &test, error) &&
        sl_log_readings(log, test.id, &readings, &n, error) && sl_log_means(log, test.id, &means, &n, error);
    sl_free(readings);
    sl_free(means);
    sl_log_close(log);
    return good;
}

static bool export_it(sl_error *error)
{
    FILE *const out = fopen("/dev/null", "w");
    const bool good = out && sl_log_export_csv(made.log, NULL, out, error) &&
                      sl_log_export_json(made.log, NULL, out, error);
    if (out) {
        fclose(out);
    }
    return good;
}

static bool compare_it(sl_error *error)
{
    sl_log_test test;
    sl_compare *compare = NULL;
    sl_rate *rates = NULL;
    const bool good = sl_log_find(made.log, NULL, &test, error) &&
                      sl_compare_read(&compare, made.log, &test, -1.0, error) &&
                      sl_compare_rank_at(compare, 10, error) && sl_compare_rates(&rates, compare, error);
    sl_free(rates);
    sl_compare_free(compare);
    return good;
}

static bool draw_it(sl_error *error)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_compare *compare = NULL;
    sl_seen_curves *curves = NULL;
    if (sl_log_open(&log, made.path, SL_LOG_READ, error) && sl_log_find(log, NULL, &test, error) &&
        sl_compare_read(&compare, log, &test, -1.0, error)) {
        curves = sl_seen_curves_make(compare, error);
    }
    const bool good = curves != NULL;
    sl_seen_curves_free(curves);
    sl_compare_free(compare);
    sl_log_close(log);
    return good;
}

static bool merge_it(sl_error *error)
{
    sl_log *other = NULL;
    sl_log_count count;
    const bool good =
        sl_log_open(&other, made.other, SL_LOG_MAKE, error) && sl_log_merge(other, made.path, &count, error);
    sl_log_close(other);
    return good;
}

/* tries_again: libcsv asks for less when it was refused, so that one failure may do no harm. */
static void fail_each(bool (*job)(sl_error *error), bool from_then_on, bool tries_again)
{
    for (long n = 1;; n++) {
        sl_error error = {.code = SL_OK};
        faults_arm(n, from_then_on);
        const bool done = job(&error);
        const faults_count count = faults_disarm();
        ck_assert_msg(count.alive == 0, "allocation %ld: %ld blocks leak", n, count.alive);
        if (count.calls < n) {
            ck_assert_msg(done, "without a failure: %s", sl_code_name(error.code));
            ck_assert_int_gt(n, 1);
            return;
        }
        ck_assert_msg(!done || tries_again, "allocation %ld failed unseen", n);
        ck_assert_msg(done || error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", n,
                      sl_code_name(error.code));
    }
}

static long long readings_there(void)
{
    sl_log_test test;
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    return test.n_readings;
}

START_TEST(a_log_without_memory_is_not_reported_or_leaks)
{
    static const char text[] =
        "swatch,zone,judge,note\nHP5,red,j1,one\nHP5,blue,j1,\"two, with a cell that is "
        "longer than the room that libcsv asks for at first, 128 bytes; so that it has to "
        "ask for more of it than it had until then\"\nEK9,red,j2,three\n";
    log_made_begin(&made);
    log_made_write(&made, text, sizeof text - 1);
    fail_each(import_it, false, true);
    ck_assert_int_eq((int)(readings_there() % 3), 0); /* never a part of the file */
    const long long before = readings_there();
    fail_each(import_it, true, false);
    ck_assert_int_eq((int)(readings_there() - before), 3); /* of the last run alone */
    fail_each(read_it, false, false);
    fail_each(read_it, true, false);
    fail_each(export_it, false, false);
    fail_each(export_it, true, false);
    fail_each(merge_it, false, false);
    fail_each(merge_it, true, false);
    log_made_end(&made);
}
END_TEST

START_TEST(a_comparison_without_memory_is_not_reported_or_leaks)
{
    static const int rungs[] = {5, 10, 20, 30};
    log_made_begin_ladder(&made, rungs, 4);
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    snprintf(reading.note, sizeof reading.note, "drip");
    for (int i = 0; i < 3; i++) {
        reading.id[0] = '\0';
        reading.minute = rungs[i];
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    }
    for (int i = 0; i < 2; i++) { /* a piece that was cut off two minutes late */
        sl_event event = {.kind = i == 0 ? SL_EVENT_APPLIED : SL_EVENT_LOOKED};
        event.at = (sl_instant){(1 + 7 * i) * INT64_C(60000000000), (29926621 + 7 * i) * INT64_C(60000000000),
                                "one"};
        ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
    }
    fail_each(compare_it, false, false);
    log_made_end(&made);
}
END_TEST

/* Two applications, one of them cut short; gummy hair; notes of both kinds; a swatch that was stopped. */
START_TEST(a_comparison_of_several_applications_without_memory_is_not_reported_or_leaks)
{
    static const struct {
        sl_event_kind kind;
        int swatch, minute;
        const char *note;
    } day[] = {{SL_EVENT_STARTED, -1, 0, NULL}, {SL_EVENT_APPLIED, 0, 1, NULL},
               {SL_EVENT_RINSED, 0, 11, NULL},  {SL_EVENT_APPLIED, 0, 21, NULL},
               {SL_EVENT_NOTED, 0, 22, "drip"}, {SL_EVENT_RINSED, 0, 41, NULL},
               {SL_EVENT_APPLIED, 1, 51, NULL}, {SL_EVENT_STOPPED, 1, 52, NULL}};
    log_made_begin_text(&made, log_made_twice, NULL, 0);
    for (size_t i = 0; i < sizeof day / sizeof day[0]; i++) {
        sl_event event = {.kind = day[i].kind, .swatch = day[i].swatch, .reason = SL_REASON_UNSAID};
        event.at = (sl_instant){day[i].minute * INT64_C(60000000000),
                                (29926620 + day[i].minute) * INT64_C(60000000000), "one"};
        ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, day[i].note, NULL));
    }
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "gummy");
    snprintf(reading.note, sizeof reading.note, "soft at the tip");
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    fail_each(compare_it, false, false);
    log_made_end(&made);
}
END_TEST

/* Without a ladder: with one every step of a curve is a solve of its own, and no other kind of one. */
START_TEST(a_picture_without_memory_is_not_reported_or_leaks)
{
    log_made_begin(&made);
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.minute = 10.0;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    fail_each(draw_it, false, false);
    fail_each(draw_it, true, false);
    log_made_end(&made);
}
END_TEST

START_SUITE("log memory")
ADD(a_log_without_memory_is_not_reported_or_leaks)
ADD(a_comparison_without_memory_is_not_reported_or_leaks)
ADD(a_comparison_of_several_applications_without_memory_is_not_reported_or_leaks)
ADD(a_picture_without_memory_is_not_reported_or_leaks)
END_SUITE
