/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "log/readings/reading_columns.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;

static void refused(sl_log_reading reading, sl_code code)
{
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_log_add(made.log, &reading, 1, &error));
    ck_assert_msg(error.code == code, "%s: %s; %s", sl_code_name(error.code), error.found, error.wanted);
}

static int count_readings(void)
{
    sl_log_test test;
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    return test.n_readings;
}

/* Every member filled. */
static sl_log_reading full_reading(void)
{
    sl_log_reading reading = log_made_reading(&made, 3, "violet", SL_WIPE_GHOST);
    for (int i = 0; i < SL_SAIDS; i++) {
        reading.said[i] = 1;
    }
    reading.minute = 7.25;
    reading.hours_after = 24.0;
    reading.blind = 0;
    reading.L = 61.123456789012345;
    reading.a = -3.1;
    reading.b = 1.0 / 3.0;
    reading.sd_L = 0.1;
    reading.sd_a = 0.0;
    reading.sd_b = 2e-7;
    reading.n = 5;
    reading.level = 8.5;
    snprintf(reading.at, sizeof reading.at, "2026-11-25T14:05:30+01:00");
    snprintf(reading.illuminant, sizeof reading.illuminant, "D65");
    snprintf(reading.observer, sizeof reading.observer, "10");
    snprintf(reading.geometry, sizeof reading.geometry, "45/0");
    snprintf(reading.tone, sizeof reading.tone, "@warm");
    snprintf(reading.photo, sizeof reading.photo, "photos/a, b.jpg");
    memset(reading.photo_sha256, 'a', 64);
    snprintf(reading.note, sizeof reading.note, "=1+1 \"quoted\"\nsecond line; caf\xC3\xA9");
    return reading;
}

static void same(const sl_log_reading *one, const sl_log_reading *two)
{
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        char a[SL_COLUMN_WRITTEN], b[SL_COLUMN_WRITTEN];
        const char *const first = sl_column_text(&sl_reading_columns[i], one, a);
        const char *const second = sl_column_text(&sl_reading_columns[i], two, b);
        ck_assert_msg(first && second ? strcmp(first, second) == 0 : first == second, "%s: %s, %s",
                      sl_reading_columns[i].name, first ? first : "-", second ? second : "-");
    }
}

START_TEST(a_reading_is_not_read_back_as_it_was_kept)
{
    log_made_begin(&made);
    sl_log_reading *rows = NULL,
                   readings[2] = {full_reading(), log_made_reading(&made, 0, "red", SL_WIPE_HALF)};
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 2, NULL));
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_int_eq(n, 2);
    same(&rows[0], &readings[0]);
    same(&rows[1], &readings[1]);
    ck_assert_double_eq(rows[0].b, 1.0 / 3.0);
    ck_assert(rows[1].L <= SL_NOT_READ && rows[1].n == 0 && rows[1].blind == SL_NOT_SAID);
    sl_free(rows);
    log_made_end(&made);
}
END_TEST

/* The table and the list of columns are written apart. */
START_TEST(a_column_of_the_table_is_not_a_column_of_readings)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    int n = 0;
    log_made_begin(&made);
    ck_assert_int_eq(sqlite3_open(made.path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_prepare_v2(base,
                                        "SELECT name FROM pragma_table_info('reading') WHERE name != 'kept'",
                                        -1, &ask, NULL),
                     SQLITE_OK);
    while (sqlite3_step(ask) == SQLITE_ROW) {
        ck_assert_int_eq(sl_reading_column((const char *)sqlite3_column_text(ask, 0)), n++);
    }
    ck_assert_int_eq(n, SL_READING_COLUMNS);
    sqlite3_finalize(ask);
    sqlite3_close(base);
    ck_assert_int_eq(sl_reading_column("swatch"), SL_READING_SWATCH);
    ck_assert_int_eq(sl_reading_column("zone"), SL_READING_ZONE);
    ck_assert_int_eq(sl_reading_column("judge"), SL_READING_JUDGE);
    ck_assert_int_eq(sl_reading_column("replaces"), SL_READING_REPLACES);
    log_made_end(&made);
}
END_TEST

START_TEST(a_word_of_the_record_form_is_refused_by_the_log)
{
    log_made_begin(&made);
    for (int what = 0; what < SL_SAIDS; what++) {
        for (int word = 0; sl_said_word((sl_said)what, word); word++) {
            sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
            sl_error error = {.code = SL_OK};
            reading.said[what] = word;
            ck_assert_msg(sl_log_add(made.log, &reading, 1, &error), "%s %s: %s", sl_said_name((sl_said)what),
                          sl_said_word((sl_said)what, word), error.wanted);
            ck_assert_int_eq(sl_said_of_word((sl_said)what, sl_said_word((sl_said)what, word)), word);
        }
    }
    ck_assert_ptr_null(sl_said_word(SL_SAID_GRADE, SL_WIPES));
    ck_assert_int_eq(sl_said_of_word(SL_SAID_FEEL, "silky"), SL_NOT_SAID);
    log_made_end(&made);
}
END_TEST

START_TEST(a_name_is_taken_for_a_code)
{
    sl_error error = {.code = SL_OK};
    ck_assert(sl_log_code_check("the judge's code", "j-2.b_C", NULL));
    ck_assert(!sl_log_code_check("the judge's code", "Ada L", &error));
    ck_assert_ptr_nonnull(strstr(error.found, "looks like a name"));
    ck_assert(!sl_log_code_check("the judge's code", "", &error));
    ck_assert(!sl_log_code_check("the judge's code", "caf\xC3\xA9", &error));
    ck_assert(!sl_log_code_check("the judge's code", "123456789012345678901234567890123", &error));
}
END_TEST

START_TEST(a_reading_that_cannot_be_is_kept)
{
    log_made_begin(&made);
    const sl_log_reading good = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    sl_log_reading bad = good;
    bad.said[SL_SAID_GRADE] = SL_NOT_SAID;
    refused(bad, SL_ERR_INCONSISTENT); /* says nothing */
    bad = good;
    snprintf(bad.judge, sizeof bad.judge, "Ada L");
    refused(bad, SL_ERR_INCONSISTENT);
    bad = good;
    snprintf(bad.zone, sizeof bad.zone, "rot");
    refused(bad, SL_ERR_MISSING_REFERENCE);
    bad = good;
    bad.swatch[0] = bad.swatch[0] == '0' ? '1' : '0';
    refused(bad, SL_ERR_MISSING_REFERENCE);
    bad = good;
    bad.L = 50.0;
    refused(bad, SL_ERR_INCONSISTENT);
    bad.a = bad.b = 0.0;
    refused(bad, SL_ERR_INCONSISTENT); /* no illuminant */
    bad = good;
    snprintf(bad.photo, sizeof bad.photo, "a.jpg");
    refused(bad, SL_ERR_INCONSISTENT);
    bad = good;
    snprintf(bad.at, sizeof bad.at, "yesterday");
    refused(bad, SL_ERR_WRONG_TYPE);
    bad = good;
    snprintf(bad.replaces, sizeof bad.replaces, "01a21414-b319-7b7c-947d-1a8d215155c2");
    refused(bad, SL_ERR_MISSING_REFERENCE);
    ck_assert_int_eq(count_readings(), 0);
    log_made_end(&made);
}
END_TEST

START_TEST(a_bad_reading_leaves_those_before_it)
{
    log_made_begin(&made);
    sl_log_reading readings[2] = {log_made_reading(&made, 0, "red", SL_WIPE_HALF),
                                  log_made_reading(&made, 0, "rot", SL_WIPE_HALF)};
    ck_assert(!sl_log_add(made.log, readings, 2, NULL));
    ck_assert_int_eq(count_readings(), 0);
    log_made_end(&made);
}
END_TEST

START_TEST(a_corrected_reading_still_counts)
{
    log_made_begin(&made);
    sl_log_reading wrong = log_made_reading(&made, 0, "red", SL_WIPE_HALF), *rows = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, &wrong, 1, NULL));
    sl_log_reading right = log_made_reading(&made, 0, "red", SL_WIPE_GHOST);
    memcpy(right.replaces, wrong.id, SL_UUID);
    sl_log_reading elsewhere = right;
    memcpy(elsewhere.swatch, made.swatches[1].id, SL_UUID);
    refused(elsewhere, SL_ERR_MISSING_REFERENCE); /* of another swatch */
    ck_assert(sl_log_add(made.log, &right, 1, NULL));
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_str_eq(rows[0].id, right.id);
    ck_assert_int_eq(count_readings(), 2); /* both are kept */
    sl_free(rows);
    log_made_end(&made);
}
END_TEST

static const sl_log_mean *mean_of(const sl_log_mean *means, int n, const char *arm, const char *zone)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(means[i].arm, arm) == 0 && strcmp(means[i].zone, zone) == 0) {
            return &means[i];
        }
    }
    ck_abort_msg("no mean of %s in %s", arm, zone);
    return NULL;
}

/* By hand: swatch one has 50 % and 25 %, mean 37.5 %; swatch two 10 %. Mean of both 23.75 %, spread
 * 27.5 % / sqrt 2. A mean over the three readings would be 28.3 %. */
START_TEST(many_judges_of_one_swatch_count_as_repeats)
{
    log_made_begin(&made);
    int other = 1;
    while (strcmp(made.swatches[other].arm, made.swatches[0].arm) != 0) {
        other++;
    }
    sl_log_reading readings[] = {log_made_reading(&made, 0, "red", SL_WIPE_HALF),
                                 log_made_reading(&made, 0, "red", SL_WIPE_MOSTLY_GONE),
                                 log_made_reading(&made, other, "red", SL_WIPE_GHOST),
                                 log_made_reading(&made, other, "red", SL_WIPE_NO_CHANGE),
                                 log_made_reading(&made, other, "red", SL_WIPE_NO_CHANGE),
                                 log_made_reading(&made, other, "red", SL_WIPE_NO_CHANGE)};
    readings[3].minute = 5.0;                                                        /* not at the end */
    readings[4].hours_after = 24.0;                                                  /* not at once */
    readings[5].said[SL_SAID_OUTCOME] = sl_said_of_word(SL_SAID_OUTCOME, "invalid"); /* not at all */
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 6, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 1);
    const sl_log_mean *const mean = mean_of(means, n, made.swatches[0].arm, "red");
    ck_assert_int_eq(mean->n_readings, 3);
    ck_assert_int_eq(mean->n_swatches, 2);
    ck_assert_double_eq_tol(mean->left, 0.2375, 1e-12);
    ck_assert_double_eq_tol(mean->left_sd, 0.275 / sqrt(2.0), 1e-12);
    ck_assert(mean->L <= SL_NOT_READ);
    sl_free(means);
    log_made_end(&made);
}
END_TEST

/* Seconds of UTC by Python's datetime; texts and which are equal: RFC 3339, section 5.8, and W3C's
 * note "Date and Time Formats" (1997), "Examples". A leap second is the next one here, as POSIX has it. */
START_TEST(a_published_instant_is_read_wrongly)
{
    static const struct {
        const char *text;
        int64_t seconds, ns;
    } published[] = {{"1985-04-12T23:20:50.52Z", 482196050, 520000000},
                     {"1996-12-19T16:39:57-08:00", 851042397, 0},
                     {"1996-12-20T00:39:57Z", 851042397, 0},
                     {"1990-12-31T23:59:60Z", 662688000, 0},
                     {"1990-12-31T15:59:60-08:00", 662688000, 0},
                     {"1937-01-01T12:00:27.87+00:20", -1041337173, 870000000},
                     {"1994-11-05T08:15:30-05:00", 784041330, 0},
                     {"1994-11-05T13:15:30Z", 784041330, 0},
                     {"1997-07-16T19:20:30.45+01:00", 869077230, 450000000},
                     {"2000-02-29T00:00:00Z", 951782400, 0}};
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        int64_t ns = 0;
        ck_assert_msg(sl_time_read(published[i].text, &ns, NULL), "%s", published[i].text);
        ck_assert_msg(ns == published[i].seconds * 1000000000 + published[i].ns, "%s: %lld",
                      published[i].text, (long long)ns);
    }
}
END_TEST

START_TEST(a_time_that_is_none_is_read)
{
    static const char *const wrong[] = {"",
                                        "2026-11-25",
                                        "2026-11-25T14:05:30",
                                        "2026-11-25 14:05:30Z",
                                        "2026-11-25T14:05Z",
                                        "2026-02-29T14:05:30Z",
                                        "1900-02-29T14:05:30Z",
                                        "2026-13-25T14:05:30Z",
                                        "2026-11-31T14:05:30Z",
                                        "2026-11-25T24:05:30Z",
                                        "2026-11-25T14:60:30Z",
                                        "2026-11-25T14:05:61Z",
                                        "2026-11-25T14:05:30.Z",
                                        "2026-11-25T14:05:30+0100",
                                        "2026-11-25T14:05:30+24:00",
                                        "2026-11-25T14:05:30Z ",
                                        "20261125T140530Z"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        int64_t ns = 0;
        ck_assert_msg(!sl_time_read(wrong[i], &ns, NULL), "%s", wrong[i]);
    }
}
END_TEST

/* RFC 9562, section 5.7: version 7 in the 13th digit, variant 8 to b in the 17th; they grow. */
START_TEST(ids_of_readings_do_not_grow)
{
    log_made_begin(&made);
    sl_log_reading readings[200];
    for (int i = 0; i < 200; i++) {
        readings[i] = log_made_reading(&made, i % made.n, "red", SL_WIPE_HALF);
    }
    ck_assert(sl_log_add(made.log, readings, 200, NULL));
    for (int i = 0; i < 200; i++) {
        ck_assert_int_eq(readings[i].id[14], '7');
        ck_assert_ptr_nonnull(strchr("89ab", readings[i].id[19]));
        ck_assert(i == 0 || strcmp(readings[i].id, readings[i - 1].id) > 0);
    }
    log_made_end(&made);
}
END_TEST

/* Made by tests/tools/make_kept_log.sh with the first version of the tables, and never made again. By
 * hand: mix with 6 % in its three swatches 17.5, 10 and 10 %, mean 12.5 %. */
START_TEST(a_kept_log_of_version_1_is_not_read)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/class-1.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_str_eq(test.title, "Monday, invented");
    ck_assert(test.n_swatches == 6 && test.n_readings == 18);
    ck_assert(sl_log_means(log, test.id, &means, &n, NULL));
    ck_assert_int_eq(n, 2);
    ck_assert_double_eq_tol(mean_of(means, n, "powder + 6 %", "yellow")->left, 0.125, 1e-12);
    sl_scene *const scene = sl_log_scene(log, test.id, NULL);
    ck_assert_ptr_nonnull(scene);
    sl_scene_free(scene);
    sl_free(means);
    sl_log_close(log);
}
END_TEST

START_TEST(a_kept_log_of_version_2_is_not_read)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/ladder-2.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_str_eq(test.title, "Tuesday's ladder, invented");
    ck_assert(test.n_swatches == 6 && test.n_readings == 24);
    ck_assert(sl_log_swatches(log, test.id, &swatches, &n, NULL));
    for (int i = 0; i < n; i++) {
        ck_assert(swatches[i].bench.ladder && swatches[i].bench.n_looks == 3);
        ck_assert_int_eq(swatches[i].bench.look_s[2], 1200);
        ck_assert_int_eq(swatches[i].bench.dwell_s, 1800);
    }
    sl_free(swatches);
    sl_log_close(log);
}
END_TEST

/* Version 0 is a file without tables, as a program leaves it that made the log and died. */
START_TEST(an_empty_file_does_not_become_a_log)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    sl_log *log = NULL;
    log_made_begin(&made);
    FILE *const file = fopen(made.other, "wb");
    ck_assert_ptr_nonnull(file);
    fclose(file);
    ck_assert(!sl_log_open(&log, made.other, SL_LOG_READ, NULL)); /* nothing is made by reading */
    ck_assert(sl_log_open(&log, made.other, SL_LOG_WRITE, NULL));
    sl_log_close(log);
    ck_assert_int_eq(sqlite3_open(made.other, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_prepare_v2(base, "PRAGMA user_version", -1, &ask, NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_step(ask), SQLITE_ROW);
    ck_assert_int_eq(sqlite3_column_int(ask, 0), SL_LOG_VERSION);
    sqlite3_finalize(ask);
    sqlite3_close(base);
    log_made_end(&made);
}
END_TEST

START_SUITE("readings")
ADD(a_reading_is_not_read_back_as_it_was_kept)
ADD(a_column_of_the_table_is_not_a_column_of_readings)
ADD(a_word_of_the_record_form_is_refused_by_the_log)
ADD(a_name_is_taken_for_a_code)
ADD(a_reading_that_cannot_be_is_kept)
ADD(a_bad_reading_leaves_those_before_it)
ADD(a_corrected_reading_still_counts)
ADD(many_judges_of_one_swatch_count_as_repeats)
ADD(a_published_instant_is_read_wrongly)
ADD(a_time_that_is_none_is_read)
ADD(ids_of_readings_do_not_grow)
ADD(a_kept_log_of_version_1_is_not_read)
ADD(a_kept_log_of_version_2_is_not_read)
ADD(an_empty_file_does_not_become_a_log)
END_SUITE
