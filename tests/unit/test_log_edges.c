/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells, readings, means, strands and places of strands at the edge of what they may be.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/compare/seen_curves.h"
#include "log/day/rounds.h"
#include "log/readings/csv_rows.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "slowlift/strand_log.h"
#include "suite.h"

static sl_log_made made;

static void set_up(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

/* ---- cells --------------------------------------------------------------------------------------------- */

static bool takes(const char *column, const char *cell, sl_log_reading *reading, sl_error *error)
{
    char text[600];
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    const int length =
        snprintf(text, sizeof text, "swatch,zone,judge,note,%s\nHP5,red,j1,x,%s\n", column, cell);
    log_made_write(&made, text, (size_t)length);
    if (!sl_log_import_csv(made.log, made.csv, NULL, true, &count, error)) {
        return false;
    }
    ck_assert_int_eq((int)count.readings, 1);
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    *reading = rows[n - 1];
    sl_free(rows);
    return true;
}

START_TEST(a_number_is_taken_however_it_may_be_written)
{
    static const struct {
        const char *cell;
        double value;
    } good[] = {{"5", 5.0},     {"5.", 5.0},    {".5", 0.5}, {"+7.25", 7.25},    {"1e1", 10.0}, {"1E1", 10.0},
                {"1e+1", 10.0}, {"50e-1", 5.0}, {"0", 0.0},  {"10000", 10000.0}, {"-0", -0.0}};
    static const char *const bad[] = {
        "five", "5 min", "1e",    "1e+", "e5",  ".",
        "-",    "0x10",  "1.2.3", "5,5", "nan", "0000000000000000000000000000000000000000000000005"};
    sl_log_reading reading;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(takes("minute", good[i].cell, &reading, NULL), "%s", good[i].cell);
        ck_assert_double_eq(reading.minute, good[i].value);
    }
    /* a spreadsheet's whole number, a little more or less than it */
    ck_assert(takes("n", "3.0000000001", &reading, NULL));
    ck_assert_int_eq(reading.n, 3);
    ck_assert(takes("n", "2.9999999999", &reading, NULL));
    ck_assert_int_eq(reading.n, 3);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char quoted[80];
        sl_error error = {.code = SL_OK};
        snprintf(quoted, sizeof quoted, "\"%s\"", bad[i]);
        ck_assert_msg(!takes("minute", quoted, &reading, &error), "%s", bad[i]);
        ck_assert_int_eq(error.code, SL_ERR_BAD_NUMBER);
        ck_assert_int_eq(error.line, 2);
    }
}
END_TEST

START_TEST(a_cell_that_its_column_cannot_hold_is_told_with_the_reason)
{
    static const struct {
        const char *column, *cell;
        sl_code code;
        const char *wanted;
    } rows[] = {{"minute", "-0.5", SL_ERR_OUT_OF_RANGE, "0 to 1"},
                {"minute", "10000.1", SL_ERR_OUT_OF_RANGE, "0 to 1"},
                {"n", "0", SL_ERR_OUT_OF_RANGE, "1 to 1000"},
                {"n", "2.5", SL_ERR_BAD_NUMBER, "write a whole number"},
                {"n", "some", SL_ERR_BAD_NUMBER, "write digits"},
                {"blind", "perhaps", SL_ERR_UNKNOWN_WORD, "write yes or no"},
                {"grade", "abuot half", SL_ERR_UNKNOWN_WORD, "about half"},
                {"photo_sha256", "00ff", SL_ERR_WRONG_TYPE, "64 hexadecimal digits"},
                {"photo_sha256", "g0ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff",
                 SL_ERR_WRONG_TYPE, "64 hexadecimal digits"},
                {"id", "01a21414b319-7b7c-947d-1a8d215155c2-", SL_ERR_WRONG_TYPE, "36 characters"},
                {"tone", "a tone that is longer than its column", SL_ERR_OUT_OF_RANGE, "at most 24 bytes"},
                {"at", "yesterday", SL_ERR_WRONG_TYPE, ""}};
    sl_log_reading reading;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sl_error error = {.code = SL_OK};
        ck_assert_msg(!takes(rows[i].column, rows[i].cell, &reading, &error), "%s", rows[i].cell);
        ck_assert_msg(error.code == rows[i].code, "%s: %s", rows[i].cell, sl_code_name(error.code));
        ck_assert_msg(strstr(error.wanted, rows[i].wanted) != NULL, "%s: %s", rows[i].cell, error.wanted);
        ck_assert_ptr_nonnull(strstr(error.wanted, "(column "));
        ck_assert_int_eq(error.line, 2);
    }
}
END_TEST

START_TEST(digits_of_ids_are_kept_in_small_letters_and_answers_in_words)
{
    sl_log_reading reading;
    ck_assert(takes("id", "01A21414-B319-7B7C-947D-1A8D215155C2", &reading, NULL));
    ck_assert_str_eq(reading.id, "01a21414-b319-7b7c-947d-1a8d215155c2");
    /* 64 characters, of which those at an id's places are dashes: no SHA-256 */
    ck_assert(!takes("photo_sha256", "01a21414-b319-7b7c-947d-1a8d215155c201a21414b3197b7c947d1a8d2151",
                     &reading, NULL));
    ck_assert(takes("blind", "yes", &reading, NULL));
    ck_assert_int_eq(reading.blind, 1);
    ck_assert(takes("blind", "no", &reading, NULL));
    ck_assert_int_eq(reading.blind, 0);
    ck_assert(takes("at", "2026-11-25T14:05:30+01:00", &reading, NULL));
    ck_assert_str_eq(reading.at, "2026-11-25T14:05:30+01:00");
}
END_TEST

START_TEST(where_cells_are_parted_by_semicolons_a_comma_is_a_point)
{
    static const char text[] = "swatch;zone;judge;note;minute\nHP5;red;j1;x;7,5\n";
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    log_made_write(&made, text, sizeof text - 1);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, true, &count, NULL));
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_double_eq(rows[0].minute, 7.5);
    sl_free(rows);
}
END_TEST

/* ---- files that are no CSV ------------------------------------------------------------------------------
 */

static bool counts(void *self, const sl_csv_row *row, sl_error *error)
{
    (void)error;
    *(int *)self += row->n;
    return true;
}

static sl_code read_as(const char *bytes, size_t length, int *cells)
{
    sl_error error = {.code = SL_OK};
    log_made_write(&made, bytes, length);
    FILE *const file = fopen(made.csv, "rb");
    ck_assert_ptr_nonnull(file);
    *cells = 0;
    const bool good = sl_csv_read(file, made.csv, NULL, counts, cells, &error);
    fclose(file);
    ck_assert_int_eq(good, error.code == SL_OK);
    return error.code;
}

/* Four cells of 4,000 x and one of `last`; its length. */
static int row_of_bytes(char *text, int last)
{
    for (int i = 1; i <= 4; i++) {
        text[4001 * i - 1] = ',';
    }
    return 4 * 4001 + last;
}

START_TEST(a_file_that_is_no_csv_of_ours_is_told_as_what_it_is)
{
    static char text[20000];
    int cells = 0;
    memset(text, ',', 63);
    ck_assert_int_eq(read_as(text, 63, &cells), SL_OK);
    ck_assert_int_eq(cells, 64);
    text[63] = ',';
    ck_assert_int_eq(read_as(text, 64, &cells), SL_ERR_TOO_LARGE); /* one cell more */
    /* four cells of 4,000 bytes and their ends are 16,004 bytes, and leave 380 of 16 KiB for a fifth */
    memset(text, 'x', sizeof text);
    for (int more = 0; more < 2; more++) {
        const int cells_of_row = row_of_bytes(text, 379 + more);
        ck_assert_int_eq(read_as(text, (size_t)cells_of_row, &cells), more ? SL_ERR_TOO_LARGE : SL_OK);
        ck_assert_int_eq(cells, more ? 0 : 5);
    }
    memset(text, 'x', sizeof text);
    text[0] = '"'; /* a quotation mark that nobody closes */
    ck_assert_int_eq(read_as(text, 6000, &cells), SL_ERR_TOO_LARGE);
    ck_assert_int_eq(read_as("\xFF\xFE"
                             "a\0",
                             4, &cells),
                     SL_ERR_NOT_UTF8);
    ck_assert_int_eq(read_as("\xFE\xFF"
                             "\0a",
                             4, &cells),
                     SL_ERR_NOT_UTF8);
    ck_assert_int_eq(read_as("\xEF\xBB\xBF", 3, &cells), SL_OK);
    ck_assert_int_eq(cells, 0);
    ck_assert_int_eq(read_as("", 0, &cells), SL_OK);
    ck_assert_int_eq(read_as("a", 1, &cells), SL_OK);
    ck_assert_int_eq(cells, 1);
    sl_error error = {.code = SL_OK};
    FILE *const folder = fopen(made.folder, "rb"); /* it opens, and cannot be read */
    ck_assert_ptr_nonnull(folder);
    ck_assert(!sl_csv_read(folder, made.folder, NULL, counts, &cells, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    fclose(folder);
    sl_log_count count;
    ck_assert(!sl_log_import_csv(made.log, "/no/such.csv", NULL, true, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
}
END_TEST

START_TEST(an_instant_that_is_none_is_refused_in_each_of_its_parts)
{
    static const char *const good[] = {"2026-11-25T14:05:30Z",      "2026-11-25t14:05:30z",
                                       "2026-11-25T14:05:60Z",      "2026-11-25T14:05:30.5+23:59",
                                       "1678-01-01T00:00:00-00:00", "2261-12-31T23:59:59Z"};
    static const char *const bad[] = {
        "1677-11-25T14:05:30Z",      "2262-11-25T14:05:30Z",     "2026-00-25T14:05:30Z",
        "2026-13-25T14:05:30Z",      "2026-11-00T14:05:30Z",     "2026-11-31T14:05:30Z",
        "2026-11-25T24:05:30Z",      "2026-11-25T14:60:30Z",     "2026-11-25T14:05:61Z",
        "2026-11-25 14:05:30Z",      "2026-11-25T1405:30Z",      "2026-11-25T14:05Z",
        "2026-11-25T14:05:30",       "2026-11-25T14:05:30.Z",    "2026-11-25T14:05:30+24:00",
        "2026-11-25T14:05:30+01:60", "2026-11-25T14:05:30+0100", "2026-11-25T14:05:30+1:00",
        "2026-11-25T14:05:30Zx",     "2026/11/25T14:05:30Z",     "2026-11/25T14:05:30Z",
        "20-11-25T14:05:30Z"};
    int64_t ns = 0;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(sl_time_read(good[i], &ns, NULL), "%s", good[i]);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        sl_error error = {.code = SL_OK};
        ck_assert_msg(!sl_time_read(bad[i], &ns, &error), "%s", bad[i]);
        ck_assert_int_eq(error.code, SL_ERR_WRONG_TYPE);
    }
}
END_TEST

/* ---- going out -------------------------------------------------------------------------------------------
 */

START_TEST(what_goes_out_is_of_one_test_or_of_all_and_a_full_disk_is_told)
{
    char *bytes = NULL;
    size_t length = 0;
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.n = 3;
    reading.blind = 1;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    FILE *out = open_memstream(&bytes, &length);
    ck_assert(sl_log_export_json(made.log, made.test, out, NULL));
    fclose(out);
    ck_assert_ptr_nonnull(strstr(bytes, "\"n\": 3"));
    ck_assert_ptr_nonnull(strstr(bytes, "\"blind\": true"));
    ck_assert_ptr_nonnull(strstr(bytes, "\"grade\": \"about half\""));
    ck_assert_ptr_nonnull(strstr(bytes, "\"looks_min\": []"));
    ck_assert_ptr_nonnull(strstr(bytes, made.test));
    free(bytes);
    out = open_memstream(&bytes, &length);
    ck_assert(sl_log_export_csv(made.log, made.test, out, NULL));
    fclose(out);
    ck_assert_ptr_nonnull(strstr(bytes, ",red,,,j1,yes,"));
    free(bytes);
    out = open_memstream(&bytes, &length);
    ck_assert(sl_log_export_json(made.log, "00000000-0000-4000-8000-000000000000", out, NULL));
    fclose(out);
    ck_assert_ptr_null(strstr(bytes, made.test));
    free(bytes);
    for (int json = 0; json < 2; json++) {
        sl_error error = {.code = SL_OK};
        out = fopen("/dev/full", "wb");
        setvbuf(out, NULL, _IONBF, 0);
        ck_assert(!(json ? sl_log_export_json(made.log, NULL, out, &error)
                         : sl_log_export_csv(made.log, NULL, out, &error)));
        ck_assert_int_eq(error.code, SL_OK); /* the stream failed, not the log */
        fclose(out);
    }
}
END_TEST

/* Minutes of pieces before the rest, whose end is the dwell's. */
START_TEST(the_first_piece_of_a_ladder_goes_out_with_the_others)
{
    static const int rungs[] = {5, 10, 20, 30};
    char *bytes = NULL;
    size_t length = 0;
    log_made_end(&made);
    log_made_begin_ladder(&made, rungs, 4);
    FILE *const out = open_memstream(&bytes, &length);
    ck_assert(sl_log_export_json(made.log, made.test, out, NULL));
    fclose(out);
    ck_assert_ptr_nonnull(strstr(bytes, "\"ladder_min\": [5, 10, 20]"));
    ck_assert_ptr_nonnull(strstr(bytes, "\"looks_min\": []"));
    free(bytes);
}
END_TEST

START_TEST(the_label_of_a_mix_is_kept_with_its_swatches_and_goes_out_with_them)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    static const char path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    const sl_plan_request request = sl_plan_request_default();
    sl_scene *const with = sl_scene_load(path, &resolver, NULL);
    for (int from_contact = 0; from_contact < 2; from_contact++) {
        sl_plan *plan = NULL;
        sl_log_swatch *swatches = NULL;
        char id[SL_UUID], *bytes = NULL;
        size_t length = 0;
        int n = 0, labelled = 0;
        for (int i = 0; i < with->n_mixes; i++) {
            with->mixes[i].label_max_min = 25.0;
            with->mixes[i].label_from_contact = from_contact == 1;
        }
        ck_assert(sl_plan_make(&plan, with, &request, NULL));
        ck_assert(sl_log_begin(made.log, path, &resolver, plan, "label", "op-1", id, NULL));
        ck_assert(sl_log_swatches(made.log, id, &swatches, &n, NULL));
        for (int i = 0; i < n; i++) {
            labelled += swatches[i].bench.label_s > 0 ? 1 : 0;
            ck_assert(swatches[i].bench.label_s == 0 || swatches[i].bench.label_s == 1500);
            ck_assert(swatches[i].bench.label_s == 0 || swatches[i].bench.from_mixing == (from_contact == 0));
        }
        ck_assert_int_gt(labelled, 6);
        FILE *const out = open_memstream(&bytes, &length);
        ck_assert(sl_log_export_json(made.log, id, out, NULL));
        fclose(out);
        ck_assert_ptr_nonnull(
            strstr(bytes, from_contact ? "\"label_from\": \"application\"" : "\"label_from\": \"mixing\""));
        free(bytes);
        sl_free(swatches);
        sl_plan_free(plan);
    }
    sl_scene_free(with);
}
END_TEST

START_TEST(a_picture_s_key_says_under_the_mix_or_rinsed)
{
    static const int rungs[] = {5, 10, 20, 30};
    for (int ladder = 0; ladder < 2; ladder++) {
        sl_compare *compare = NULL;
        sl_log_test test;
        if (ladder) {
            log_made_end(&made);
            log_made_begin_ladder(&made, rungs, 4);
        }
        ck_assert(sl_log_find(made.log, NULL, &test, NULL));
        ck_assert(sl_compare_read(&compare, made.log, &test, -1.0, NULL));
        const sl_seen_curves curves = {.compare = compare};
        const char *const words = sl_seen_key_words(&curves);
        ck_assert_int_eq(strstr(words, "rinsed and dried") != NULL, ladder);
        ck_assert_int_eq(strstr(words, "under the mix") != NULL, !ladder);
        sl_compare_free(compare);
    }
}
END_TEST

/* ---- readings -------------------------------------------------------------------------------------------
 */

static void put(char *field, size_t size, const char *text)
{
    snprintf(field, size, "%s", text);
}

START_TEST(a_colour_is_whole_and_says_how_it_was_read)
{
    const sl_log_reading graded = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    for (int lacks = 0; lacks < 7; lacks++) {
        sl_log_reading reading = graded;
        sl_error error = {.code = SL_OK};
        reading.L = lacks == 0 ? SL_NOT_READ : 40.0;
        reading.a = lacks == 1 ? SL_NOT_READ : 10.0;
        reading.b = lacks == 2 ? SL_NOT_READ : 5.0;
        put(reading.illuminant, sizeof reading.illuminant, lacks == 3 ? "" : "D65");
        put(reading.observer, sizeof reading.observer, lacks == 4 ? "" : lacks == 5 ? "5" : "10");
        ck_assert_msg(sl_log_add(made.log, &reading, 1, &error) == (lacks == 6), "%d: %s", lacks,
                      error.found);
        ck_assert_int_eq(error.code, lacks == 6 ? SL_OK : SL_ERR_INCONSISTENT);
    }
    sl_log_reading hash = graded;
    memset(hash.photo_sha256, 'a', SL_SHA256_TEXT - 1);
    ck_assert(!sl_log_add(made.log, &hash, 1, NULL)); /* of no photo */
    sl_log_reading odd = graded;
    put(odd.note, sizeof odd.note, "a bell: \a");
    ck_assert(!sl_log_add(made.log, &odd, 1, NULL));
}
END_TEST

START_TEST(one_word_of_any_kind_is_something_said)
{
    for (int what = 0; what < 4; what++) {
        sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
        reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
        ck_assert(!sl_log_add(made.log, &reading, 1, NULL));
        reading.level = what == 0 ? 7.5 : SL_NOT_READ;
        put(reading.tone, sizeof reading.tone, what == 1 ? "copper" : "");
        put(reading.photo, sizeof reading.photo, what == 2 ? "a.jpg" : "");
        memset(reading.photo_sha256, what == 2 ? 'a' : '\0', SL_SHA256_TEXT - 1);
        put(reading.note, sizeof reading.note, what == 3 ? "patchy" : "");
        ck_assert_msg(sl_log_add(made.log, &reading, 1, NULL), "%d", what);
    }
}
END_TEST

static int other_arm(void)
{
    int other = 1;
    while (strcmp(made.swatches[other].arm, made.swatches[0].arm) == 0) {
        other++;
    }
    return other;
}

static sl_log_reading by_instrument(int swatch, const char *zone, double L)
{
    return log_made_colour(&made, swatch, zone, L, L / 2.0, -L / 4.0);
}

/* By zone as the scene has them, least left first, what nobody graded last. */
START_TEST(means_are_of_grades_and_of_an_instrument_apart_and_in_their_order)
{
    const int other = other_arm();
    sl_log_reading readings[] = {by_instrument(0, "red", 40.0), by_instrument(0, "red", 44.0),
                                 log_made_reading(&made, other, "red", SL_WIPE_HALF),
                                 log_made_reading(&made, other, "blue", SL_WIPE_HALF),
                                 log_made_reading(&made, 0, "blue", SL_WIPE_GHOST)};
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 5, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 4);
    int red = strcmp(means[0].zone, "red") == 0 ? 0 : 2; /* wherever that zone stands in the scene */
    const int blue = 2 - red;
    ck_assert_str_eq(means[red].zone, "red");
    ck_assert_str_eq(means[red].arm, made.swatches[other].arm); /* graded, so first */
    ck_assert_double_eq(means[red].left, 0.5);
    ck_assert_double_eq(means[red].L, SL_NOT_READ);
    ck_assert_double_eq(means[red].left_sd, SL_NOT_READ); /* of one swatch */
    ck_assert_double_eq(means[red + 1].left, SL_NOT_READ);
    ck_assert_double_eq_tol(means[red + 1].L, 42.0, 1e-12);
    ck_assert_double_eq_tol(means[red + 1].a, 21.0, 1e-12);
    ck_assert_double_eq_tol(means[red + 1].b, -10.5, 1e-12);
    ck_assert_str_eq(means[blue].arm, made.swatches[0].arm); /* 10 % before 50 % */
    ck_assert_double_eq_tol(means[blue].left, 0.1, 1e-12);
    ck_assert_double_eq_tol(means[blue + 1].left, 0.5, 1e-12);
    sl_free(means);
    /* whichever of two arms was read first */
    sl_log_reading more[] = {log_made_reading(&made, 0, "violet", SL_WIPE_HALF),
                             by_instrument(other, "violet", 40.0)};
    ck_assert(sl_log_add(made.log, more, 2, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    for (int i = 0; i + 1 < n; i++) {
        if (strcmp(means[i].zone, "violet") == 0 && strcmp(means[i + 1].zone, "violet") == 0) {
            ck_assert_str_eq(means[i].arm, made.swatches[0].arm);
            ck_assert_double_eq(means[i + 1].left, SL_NOT_READ);
        }
    }
    ck_assert_int_eq(n, 6);
    sl_free(means);
    /* the zone at the root comes first though it is read last; where two have the same left, by name */
    sl_log_reading last[] = {log_made_reading(&made, other, "root", SL_WIPE_GHOST),
                             log_made_reading(&made, 0, "root", SL_WIPE_GHOST)};
    ck_assert(sl_log_add(made.log, last, 2, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 8);
    ck_assert_str_eq(means[0].zone, "root");
    ck_assert_str_eq(means[1].zone, "root");
    ck_assert_int_lt(strcmp(means[0].arm, means[1].arm), 0);
    ck_assert_double_eq(means[0].left, means[1].left);
    sl_free(means);
}
END_TEST

/* Of an arm's swatches each counts once, however often it was read: 42 and 48, and a and b as by_instrument()
 * makes them of L. */
START_TEST(an_instrument_s_mean_is_of_swatches)
{
    int second = 1;
    while (strcmp(made.swatches[second].arm, made.swatches[0].arm) != 0) {
        second++;
    }
    sl_log_reading readings[] = {by_instrument(0, "red", 40.0), by_instrument(0, "red", 44.0),
                                 by_instrument(second, "red", 48.0)};
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 3, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_double_eq_tol(means[0].L, 45.0, 1e-12);
    ck_assert_double_eq_tol(means[0].a, 22.5, 1e-12);
    ck_assert_double_eq_tol(means[0].b, -11.25, 1e-12);
    sl_free(means);
}
END_TEST

/* However often what is read goes from one zone to another and back. */
START_TEST(a_zone_that_comes_again_is_the_same_zone)
{
    static const char *const zones[] = {"red", "blue", "green", "red", "blue", "green", "blue", "red"};
    sl_log_reading readings[8];
    for (int i = 0; i < 8; i++) {
        readings[i] = log_made_reading(&made, 0, zones[i], i < 3 ? SL_WIPE_HALF : SL_WIPE_UNDYED);
    }
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 8, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 3);
    for (int i = 0; i < n; i++) {
        ck_assert_double_eq_tol(means[i].left, strcmp(means[i].zone, "green") == 0 ? 0.25 : 0.5 / 3.0, 1e-12);
    }
    sl_free(means);
}
END_TEST

/* ---- strands ----------------------------------------------------------------------------------------------
 */

static sl_scene *scene;

static void happens(sl_event_kind kind, int swatch, int day, double minute, const char *note)
{
    sl_event event = {.kind = kind, .swatch = swatch, .reason = SL_REASON_UNSAID};
    const double s = 86400.0 * day + 43200.0 + 60.0 * minute;
    event.at = (sl_instant){(int64_t)(s * 1e9), (int64_t)(s * 1e9), "one"};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, note, NULL));
}

static void look(int swatch, double minute, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, swatch, "blue", grade);
    reading.minute = minute;
    if (minute <= SL_NOT_READ) {
        reading.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "as untreated");
        reading.said[SL_SAID_STRETCH] = sl_said_of_word(SL_SAID_STRETCH, "springs back");
    }
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

/* Lay from minute 2 to 22 of that day. */
static void good_strand(int swatch, int day, int n_looks)
{
    happens(SL_EVENT_NOTED, swatch, day, 0.0,
            "strand: person=K12 part=nape cut=yes packet_opened=2026-11-16");
    happens(SL_EVENT_APPLIED, swatch, day, 2.0, NULL);
    for (int i = 0; i < n_looks; i++) {
        look(swatch, 2.0 + 0.5 * i, SL_WIPE_SLIGHT);
    }
    happens(SL_EVENT_RINSED, swatch, day, 22.0, NULL);
    look(swatch, SL_NOT_READ, SL_WIPE_HALF);
    char washed[SL_STRAND_NOTE_TEXT];
    sl_strand_note_words(&(sl_strand_note){.washed = true}, washed);
    happens(SL_EVENT_NOTED, swatch, day, 30.0, washed);
}

static int of_arm(const char *arm, int from)
{
    int i = from;
    while (strcmp(made.swatches[i].arm, arm) != 0) {
        i++;
    }
    return i;
}

static void set_up_strands(void)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-11-29", 1), 0);
    tzset();
    log_made_begin_scene(&made, SLOWLIFT_MODELS "/scenes/way-wide.yaml");
    scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/way-wide.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(scene);
}

static void tear_down_strands(void)
{
    sl_scene_free(scene);
    log_made_end(&made);
}

static sl_intake clear_form(void)
{
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    put(form.person, sizeof form.person, "K12");
    put(form.qualified, sizeof form.qualified, "op-1");
    form.part = SL_HAIR_AT_NAPE;
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        form.reply[q] = sl_intake_pass(q);
    }
    return form;
}

enum { TODAY = 20786 };

START_TEST(of_strands_that_count_the_newest_is_taken_and_of_others_the_one_that_lacks_least)
{
    const int older = of_arm("powder + 3 %", 0), newer = of_arm("powder + 3 %", older + 1);
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    sl_intake form = clear_form();
    sl_person person = {0};
    happens(SL_EVENT_NOTED, older, 20777, 0.0, "strand: person=K12");
    happens(SL_EVENT_NOTED, newer, 20777, 0.0, "strand: person=K12 cut=yes");
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[newer].bench.code);
    good_strand(older, 20777, 2);
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_str_eq(person.strand[arm].code, made.swatches[older].bench.code);
    good_strand(newer, 20778, 2);
    form = clear_form();
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[newer].bench.code);
    ck_assert_int_eq(person.strand[arm].day, 20778);
    /* and the one that is named, whichever it is */
    ck_assert(sl_log_person(made.log, made.test, made.swatches[older].bench.code, scene, TODAY, &form,
                            &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[older].bench.code);
    ck_assert(sl_log_person(made.log, NULL, "ZZ9", scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_NONE);
    ck_assert(!sl_log_person(made.log, "ffffffff", NULL, scene, TODAY, &form, &person, NULL));
}
END_TEST

/* Of two of one day the one that was watched for longer. */
START_TEST(of_two_strands_of_one_day_the_one_that_was_watched_for_less_is_taken)
{
    const int one = of_arm("powder + 3 %", 0), shorter = of_arm("powder + 3 %", one + 1);
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    good_strand(one, 20777, 2);
    happens(SL_EVENT_NOTED, shorter, 20777, 0.0,
            "strand: person=K12 part=nape cut=yes packet_opened=2026-11-16");
    happens(SL_EVENT_APPLIED, shorter, 20777, 2.0, NULL);
    look(shorter, 3.0, SL_WIPE_SLIGHT);
    look(shorter, 4.0, SL_WIPE_SLIGHT);
    happens(SL_EVENT_RINSED, shorter, 20777, 7.0, NULL);
    look(shorter, SL_NOT_READ, SL_WIPE_HALF);
    happens(SL_EVENT_NOTED, shorter, 20777, 30.0, "strand: washed_and_dried=yes");
    sl_intake form = clear_form();
    sl_person person = {0};
    ck_assert(sl_log_person(made.log, made.test, made.swatches[shorter].bench.code, scene, TODAY, &form,
                            &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_double_eq_tol(person.strand[arm].watched_min, 5.0, 1e-9);
    form = clear_form();
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_double_eq_tol(person.strand[arm].watched_min, 20.0, 1e-9);
}
END_TEST

START_TEST(what_a_strand_showed_after_the_label_s_time_is_not_taken_over)
{
    const int swatch = of_arm("powder + 3 %", 0);
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    sl_intake form = clear_form();
    sl_person person = {0};
    good_strand(swatch, 20777, 20); /* at 2, 2.5 ... 11.5 min, and at the end */
    form.label_min = 7.0;
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_int_eq(form.showed.n, 11);
    for (int i = 0; i < form.showed.n; i++) {
        ck_assert_double_le(form.showed.observation[i].minute, 7.0);
    }
}
END_TEST

START_TEST(more_looks_than_a_form_holds_ask_for_one_strand)
{
    const int swatch = of_arm("powder + 3 %", 0), other = of_arm("powder + water", 0);
    sl_intake form = clear_form();
    sl_person person = {0};
    sl_error error = {.code = SL_OK};
    good_strand(swatch, 20777, 20);
    good_strand(other, 20777, 20);
    ck_assert(!sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    form = clear_form();
    ck_assert(
        sl_log_person(made.log, NULL, made.swatches[swatch].bench.code, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(form.showed.n, 21);
}
END_TEST

/* 21 looks at one and 11 at another are 32; one more is more than a form holds. */
START_TEST(as_many_looks_as_a_form_holds_are_refused_or_one_more_is_taken)
{
    for (int more = 0; more < 2; more++) {
        sl_intake form = clear_form();
        sl_person person = {0};
        sl_error error = {.code = SL_OK};
        good_strand(of_arm("powder + 3 %", 0), 20777, 20);
        good_strand(of_arm("powder + water", 0), 20777, 10 + more);
        ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, &error) == (more == 0));
        ck_assert_int_eq(form.showed.n, SL_MOST_OBSERVATIONS);
        ck_assert_int_eq(error.code, more ? SL_ERR_TOO_LARGE : SL_OK);
        ck_assert(more == 0 || strcmp(error.found, "looks at strands") == 0);
        sl_scene_free(scene);
        log_made_end(&made);
        set_up_strands();
    }
}
END_TEST

/* What is no look at a strand by its minute leaves what it showed as it was. */
START_TEST(only_graded_looks_while_it_lay_are_what_a_strand_showed)
{
    const int swatch = of_arm("powder + 3 %", 0);
    const char *const zones[] = {"blue", "undyed"};
    sl_strand_record *records = NULL;
    int n = 0;
    good_strand(swatch, 20777, 2);
    for (int i = 0; i < 6; i++) {
        sl_log_reading odd = log_made_reading(&made, swatch, zones[i == 0 ? 1 : 0], SL_WIPE_GHOST);
        odd.minute = i == 1 ? 0.0 : i == 2 ? 21.0 + 2.0 : 6.0;
        odd.hours_after = i == 3 ? 24.0 : SL_NOT_READ;
        odd.said[SL_SAID_OUTCOME] = i == 4 ? sl_said_of_word(SL_SAID_OUTCOME, "invalid") : SL_NOT_SAID;
        if (i == 5) {
            odd.said[SL_SAID_GRADE] = SL_NOT_SAID;
            put(odd.note, sizeof odd.note, "cloudy");
        }
        ck_assert(sl_log_add(made.log, &odd, 1, NULL));
    }
    ck_assert(sl_log_strands(made.log, scene, &records, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_int_eq(records[0].showed.n, 3);
    ck_assert(records[0].graded && records[0].felt && records[0].stretched);
    sl_free(records);
}
END_TEST

START_TEST(a_strand_that_was_not_felt_or_of_an_arm_that_is_gone_says_so)
{
    const int swatch = of_arm("powder + 3 %", 0), other = of_arm("powder + water", 0);
    sl_strand_record *records = NULL;
    int n = 0;
    happens(SL_EVENT_NOTED, swatch, 20777, 0.0, "strand: person=K12 cut=yes");
    happens(SL_EVENT_NOTED, other, 20777, 0.0, "strand: person=K13 practice=yes");
    sl_log_reading end = log_made_reading(&made, swatch, "blue", SL_WIPE_HALF);
    ck_assert(sl_log_add(made.log, &end, 1, NULL));
    ck_assert(sl_log_strands(made.log, scene, &records, &n, NULL));
    ck_assert_int_eq(n, 2);
    for (int i = 0; i < n; i++) {
        const bool first = strcmp(records[i].person, "K12") == 0;
        ck_assert(!records[i].felt && !records[i].stretched);
        ck_assert_int_eq(records[i].made_up, !first);
        ck_assert_double_lt(records[i].lay_min, 0.0);
    }
    sl_free(records);
}
END_TEST

/* What is told of the strand that a swatch is. */
static sl_strand_record record_of(int swatch)
{
    sl_strand_record *records = NULL, found = {.lay_min = -2.0};
    int n = 0, n_found = 0;
    ck_assert(sl_log_strands(made.log, scene, &records, &n, NULL));
    for (int i = 0; i < n; i++) {
        if (strcmp(records[i].code, made.swatches[swatch].bench.code) == 0) {
            found = records[i];
            n_found++;
        }
    }
    sl_free(records);
    ck_assert_int_eq(n_found, 1);
    return found;
}

/* Each word of a note, each reason of a stop, each answer about the hair: one thing, and no other. */
START_TEST(a_thing_that_was_told_of_a_strand_is_another)
{
    enum { HEATED = 1, BAD = 2, WASHED = 4, MADE_UP = 8, CUT = 16, FELT = 32, STRETCHED = 64, GRADED = 128 };
    static const struct {
        const char *note, *feel, *stretch;
        sl_stop_reason stop; /* SL_REASON_UNSAID: none */
        int of_all, is;
    } cases[] = {{"strand: person=K12", NULL, NULL, SL_REASON_UNSAID, 0, 0},
                 {"strand: person=K12 warm=yes", NULL, NULL, SL_REASON_UNSAID, 0, HEATED},
                 {"strand: person=K12 fizzed=yes", NULL, NULL, SL_REASON_UNSAID, 0, HEATED},
                 {"strand: person=K12 smelt=yes", NULL, NULL, SL_REASON_UNSAID, 0, HEATED},
                 {"strand: person=K12 warm=no fizzed=maybe smelt", NULL, NULL, SL_REASON_UNSAID, 0, 0},
                 {"strand: person=K12 washed_and_dried=yes", NULL, NULL, SL_REASON_UNSAID, 0, WASHED},
                 {"strand: person=K12 practice=yes", NULL, NULL, SL_REASON_UNSAID, 0, MADE_UP},
                 {"strand: person=K12 cut=yes", NULL, NULL, SL_REASON_UNSAID, 0, CUT},
                 {"strand: person=K12", "gummy", NULL, SL_REASON_UNSAID, 0, BAD | FELT},
                 {"strand: person=K12", "rough", NULL, SL_REASON_UNSAID, 0, FELT},
                 {"strand: person=K12", NULL, "breaks", SL_REASON_UNSAID, 0, BAD | STRETCHED},
                 {"strand: person=K12", NULL, "stays long", SL_REASON_UNSAID, 0, BAD | STRETCHED},
                 {"strand: person=K12", NULL, "slow", SL_REASON_UNSAID, 0, STRETCHED},
                 {"strand: person=K12", NULL, NULL, SL_REASON_DAMAGE, 0, BAD},
                 {"strand: person=K12", NULL, NULL, SL_REASON_DAMAGE, 1, BAD},
                 {"strand: person=K12", NULL, NULL, SL_REASON_HEAT, 0, HEATED},
                 {"strand: person=K12", NULL, NULL, SL_REASON_HEAT, 1, HEATED},
                 {"strand: person=K12", NULL, NULL, SL_REASON_HEAT, 2, 0}, /* another swatch */
                 {"strand: person=K12", NULL, NULL, SL_REASON_SKIN, 0, 0}};
    const int swatch = of_arm("powder + 3 %", 0), other = of_arm("powder + 3 %", swatch + 1);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        happens(SL_EVENT_NOTED, swatch, 20777, 0.0, cases[i].note);
        if (cases[i].feel || cases[i].stretch) {
            sl_log_reading reading = log_made_reading(&made, swatch, "blue", SL_WIPE_HALF);
            const char *const feel = cases[i].feel, *const stretch = cases[i].stretch;
            reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
            reading.said[SL_SAID_FEEL] = feel ? sl_said_of_word(SL_SAID_FEEL, feel) : SL_NOT_SAID;
            reading.said[SL_SAID_STRETCH] = stretch ? sl_said_of_word(SL_SAID_STRETCH, stretch) : SL_NOT_SAID;
            ck_assert(sl_log_add(made.log, &reading, 1, NULL));
        }
        if (cases[i].stop != SL_REASON_UNSAID) {
            sl_event stop = {.kind = SL_EVENT_STOPPED, .reason = cases[i].stop};
            stop.swatch = cases[i].of_all == 0 ? swatch : cases[i].of_all == 1 ? -1 : other;
            ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &stop, NULL, NULL));
        }
        const sl_strand_record record = record_of(swatch);
        const int is = (record.heated ? HEATED : 0) | (record.bad ? BAD : 0) | (record.washed ? WASHED : 0) |
                       (record.made_up ? MADE_UP : 0) | (record.cut ? CUT : 0) | (record.felt ? FELT : 0) |
                       (record.stretched ? STRETCHED : 0) | (record.graded ? GRADED : 0);
        ck_assert_msg(is == cases[i].is, "%s, case %zu: %d", cases[i].note, i, is);
        ck_assert(!record.rehearsed && record.mix != 0 && record.day == 0 && record.lay_min < 0.0);
        ck_assert_str_eq(record.person, "K12");
        ck_assert_int_eq(strncmp(record.test, made.test, 8), 0);
        ck_assert_uint_eq(strlen(record.test), 8);
        sl_scene_free(scene);
        log_made_end(&made);
        set_up_strands();
    }
}
END_TEST

/* On from minute 2 to 22: a look at 20 minutes is one at it while it lay, and a moment later is not. */
START_TEST(a_look_as_the_water_came_is_none_or_one_after_it_is_one)
{
    const int swatch = of_arm("powder + 3 %", 0);
    happens(SL_EVENT_NOTED, swatch, 20777, 0.0, "strand: person=K12");
    happens(SL_EVENT_APPLIED, swatch, 20777, 2.0, NULL);
    ck_assert_int_eq(record_of(swatch).day, 20777);
    ck_assert_double_lt(record_of(swatch).lay_min, 0.0); /* no water yet */
    happens(SL_EVENT_RINSED, swatch, 20777, 22.0, NULL);
    ck_assert_double_eq_tol(record_of(swatch).lay_min, 20.0, 1e-9);
    static const struct {
        double minute;
        int n;
    } looks[] = {{0.0, 0}, {0.001, 1}, {19.999, 2}, {20.0, 3}, {20.001, 3}};
    for (size_t i = 0; i < sizeof looks / sizeof looks[0]; i++) {
        look(swatch, looks[i].minute, SL_WIPE_SLIGHT);
        ck_assert_int_eq(record_of(swatch).showed.n, looks[i].n);
    }
    ck_assert(!record_of(swatch).graded);
    look(swatch, SL_NOT_READ, SL_WIPE_GHOST);
    const sl_strand_record record = record_of(swatch);
    ck_assert(record.graded && record.showed.n == 4);
    ck_assert_double_eq_tol(record.showed.observation[3].minute, 20.0, 1e-9);
    ck_assert(record.showed.observation[3].wipe == SL_WIPE_GHOST && record.showed.observation[3].strand);
    ck_assert_int_eq(record.showed.observation[3].zone, sl_scene_zone(scene, "blue"));
    ck_assert_double_eq_tol(record.showed.observation[0].minute, 0.001, 1e-12);
    /* up to the label's time, which itself is in it; what was typed beyond it stays */
    sl_intake form = clear_form();
    sl_person person = {0};
    form.label_min = 19.999;
    form.showed.n = 3;
    form.showed.observation[0] = (sl_observation){.zone = 0, .minute = 19.999, .wipe = SL_WIPE_HALF};
    form.showed.observation[1] = (sl_observation){.zone = 1, .minute = 20.5, .wipe = SL_WIPE_HALF};
    form.showed.observation[2] = (sl_observation){.zone = 0, .minute = 3.0, .wipe = SL_WIPE_HALF};
    happens(SL_EVENT_NOTED, swatch, 20777, 30.0,
            "strand: part=nape cut=yes packet_opened=2026-11-16 washed_and_dried=yes");
    sl_log_reading felt = log_made_reading(&made, swatch, "blue", SL_WIPE_GHOST);
    felt.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "as untreated");
    felt.said[SL_SAID_STRETCH] = sl_said_of_word(SL_SAID_STRETCH, "springs back");
    ck_assert(sl_log_add(made.log, &felt, 1, NULL));
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(form.showed.n, 1 + 2);
    ck_assert_double_eq_tol(form.showed.observation[0].minute, 20.5, 1e-12);
    ck_assert_int_eq(form.showed.observation[0].zone, 1);
    ck_assert_double_eq_tol(form.showed.observation[1].minute, 0.001, 1e-12);
    ck_assert_double_eq_tol(form.showed.observation[2].minute, 19.999, 1e-12);
    ck_assert_int_eq(form.showed.observation[2].arm, sl_scene_arm(scene, "powder + 3 %"));
}
END_TEST

/* What one strand told of the hair is true of all of that person's: heat whatever the mix, damage of this mix
 * alone; of nobody's strand nothing is. */
START_TEST(bad_news_of_one_strand_stays_its_own_or_goes_to_another_s)
{
    const int one = of_arm("powder + 3 %", 0), same = of_arm("powder + 3 %", one + 1),
              mix = of_arm("powder + water", 0);
    static const char *const whose[] = {"strand: person=K12 fizzed=yes", "strand: person=K13 fizzed=yes",
                                        "strand: fizzed=yes"};
    for (int who = 0; who < 3; who++) {
        for (int damage = 0; damage < 2; damage++) {
            char note[60];
            snprintf(note, sizeof note, "%s", whose[who]);
            if (damage) {
                *strstr(note, " fizzed") = '\0';
                sl_event stop = {.kind = SL_EVENT_STOPPED, .reason = SL_REASON_DAMAGE, .swatch = one};
                ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &stop, NULL, NULL));
            }
            happens(SL_EVENT_NOTED, one, 20777, 0.0, note);
            happens(SL_EVENT_NOTED, same, 20777, 0.0, who < 2 ? "strand: person=K12" : "strand: part=nape");
            happens(SL_EVENT_NOTED, mix, 20777, 0.0, who < 2 ? "strand: person=K12" : "strand: part=nape");
            ck_assert(record_of(one).heated == (damage == 0) && record_of(one).bad == (damage == 1));
            ck_assert(record_of(same).heated == (damage == 0 && who == 0));
            ck_assert(record_of(mix).heated == (damage == 0 && who == 0));
            ck_assert(record_of(same).bad == (damage == 1 && who == 0));
            ck_assert(!record_of(mix).bad);
            sl_scene_free(scene);
            log_made_end(&made);
            set_up_strands();
        }
    }
}
END_TEST

START_TEST(more_looks_at_one_strand_than_can_be_held_are_refused)
{
    sl_strand_record *records = NULL;
    sl_error error = {.code = SL_OK};
    int n = 0;
    good_strand(of_arm("powder + 3 %", 0), 20777, SL_MOST_OBSERVATIONS); /* and one at the end */
    ck_assert(!sl_log_strands(made.log, scene, &records, &n, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    ck_assert_str_eq(error.found, "looks at one strand");
}
END_TEST

/* ---- applications of a swatch
 * ------------------------------------------------------------------------------- */

START_TEST(applications_of_an_arm_are_those_of_its_scene_and_no_more_than_there_is_room_for)
{
    sl_log_swatch swatches[2] = {made.swatches[of_arm("powder + 3 %", 0)], made.swatches[0]};
    snprintf(swatches[1].arm, sizeof swatches[1].arm, "no such arm");
    sl_arm *const arm = &scene->arms[sl_scene_arm(scene, "powder + 3 %")];
    const sl_step apply = *sl_arm_application(arm);
    sl_mix *const mix = &scene->mixes[apply.mix];
    mix->label_max_min = 12.0;
    mix->label_from_contact = true;
    arm->n_steps = 0;
    for (int i = 0; i < 10; i++) {
        arm->steps[arm->n_steps++] = apply;
        if (i == 0) {
            arm->steps[arm->n_steps++] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 2.0};
            arm->steps[arm->n_steps++] = (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = 2};
        }
    }
    sl_rounds_fill(scene, swatches, 2);
    ck_assert_int_eq(swatches[0].bench.n_more, SL_BENCH_ROUNDS - 1);
    ck_assert_int_eq(swatches[0].bench.more[0].after_s, 240); /* two of rinsing, two shampoos of one each */
    ck_assert_int_eq(swatches[0].bench.more[1].after_s, 0);
    ck_assert_int_eq(swatches[0].bench.more[0].label_s, 720);
    ck_assert(!swatches[0].bench.more[0].from_mixing);
    ck_assert_int_eq(swatches[1].bench.n_more, 0);
    ck_assert(!swatches[0].bench.on_person);
    scene->place = SL_PLACE_HEAD;
    sl_rounds_fill(scene, swatches, 2);
    ck_assert(swatches[0].bench.on_person && swatches[1].bench.on_person);
    sl_rounds_fill(NULL, swatches, 2); /* nobody can tell: as if it were somebody's */
    ck_assert(swatches[0].bench.on_person && swatches[0].bench.n_more == 0);
}
END_TEST

/* Each arm's last mix stays on; an arm without one stays as it is, and the scene lasts until all is done. */
START_TEST(what_stays_on_longer_is_not_the_last_mix_of_each_arm)
{
    sl_arm *const arm = &scene->arms[sl_scene_arm(scene, "powder + 3 %")],
                  *const none = &scene->arms[sl_scene_arm(scene, "powder + water")];
    const sl_step apply = *sl_arm_application(arm);
    arm->n_steps = none->n_steps = 0;
    arm->steps[arm->n_steps++] = apply;
    arm->steps[arm->n_steps++] = apply;
    arm->steps[arm->n_steps++] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 2.0};
    none->steps[none->n_steps++] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 2.0};
    sl_rounds_stay_on(scene, 1000.0);
    ck_assert_double_eq(arm->steps[0].duration_min, apply.duration_min);
    ck_assert_double_eq(arm->steps[1].duration_min, apply.duration_min + 1000.0);
    ck_assert_double_eq(arm->steps[2].duration_min, 2.0);
    ck_assert_double_eq(none->steps[0].duration_min, 2.0);
    ck_assert_double_eq_tol(scene->until_min, arm->contact_min + 2.0 * apply.duration_min + 1002.0, 1e-9);
}
END_TEST

static bool placed(const char *place, sl_strand_worth worth, sl_error *error)
{
    sl_intake form = clear_form();
    sl_person person = {0};
    if (!sl_strand_of_place(place, scene, &form, &person, error)) {
        return false;
    }
    ck_assert_ptr_eq(person.form, &form);
    ck_assert_msg(person.strand[sl_scene_arm(scene, "powder + 3 %")].worth == worth, "%s", place);
    return true;
}

/* In the same log, planned anew. Ids of tests begin with the time: the second's first letters differ. */
static void another_test(char id[SL_UUID])
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    const sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    do {
        ck_assert(sl_log_begin(made.log, SLOWLIFT_MODELS "/scenes/way-wide.yaml", &resolver, plan, "Tuesday",
                               "op-1", id, NULL));
    } while (strncmp(id, made.test, 8) == 0);
    sl_plan_free(plan);
}

START_TEST(a_strand_is_found_by_log_test_and_swatch)
{
    const int swatch = of_arm("powder + 3 %", 0);
    const char *const code = made.swatches[swatch].bench.code;
    char place[400];
    good_strand(swatch, 20777, 2);
    ck_assert(placed(made.path, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s", made.path, made.test);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s:%s", made.path, made.test, code);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s::%s", made.path, code); /* of any test */
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s:", made.path, made.test); /* any swatch */
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    char second[SL_UUID];
    another_test(second);
    snprintf(place, sizeof place, "%s:%.8s", made.path, second);
    ck_assert(placed(place, SL_STRAND_NONE, NULL)); /* a strand of the first is none of the second */
    snprintf(place, sizeof place, "%s:%.8s:ZZ9", made.path, made.test);
    ck_assert(placed(place, SL_STRAND_NONE, NULL));
    snprintf(place, sizeof place, "%s:ffffffff", made.path);
    ck_assert(!placed(place, SL_STRAND_NONE, NULL));
    snprintf(place, sizeof place, "%s/none.db", made.folder);
    sl_error error = {.code = SL_OK};
    ck_assert(!placed(place, SL_STRAND_NONE, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    snprintf(place, sizeof place, "%s/none.db:%.8s:%s", made.folder, made.test, code);
    ck_assert(!placed(place, SL_STRAND_NONE, NULL));
}
END_TEST

START_TEST(a_log_whose_name_holds_a_colon_is_found_too)
{
    char named[200], place[400];
    long long rows = 0;
    good_strand(of_arm("powder + 3 %", 0), 20777, 2);
    snprintf(named, sizeof named, "%s/a:b.db", made.folder);
    ck_assert(sl_log_backup(made.path, named, &rows, NULL));
    ck_assert(placed(named, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s", named, made.test);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    unlink(named);
}
END_TEST

START_TEST(a_place_that_no_path_can_be_is_refused)
{
    sl_error error = {.code = SL_OK};
    char *const endless = malloc(9000);
    ck_assert_ptr_nonnull(endless);
    memset(endless, 'a', 8999);
    endless[8999] = '\0';
    ck_assert(!placed(endless, SL_STRAND_NONE, &error));
    ck_assert_int_ne(error.code, SL_OK);
    free(endless);
    /* the longest that there is room for names no file; one letter more is too long */
    for (size_t length = SL_LOG_PATH - 1; length <= SL_LOG_PATH; length++) {
        char *const place = malloc(length + 1);
        ck_assert_ptr_nonnull(place);
        memset(place, 'a', length);
        place[length] = '\0';
        error = (sl_error){.code = SL_OK};
        ck_assert(!placed(place, SL_STRAND_NONE, &error));
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
        ck_assert_int_eq(strcmp(error.found, "the log of the strand") == 0, length == SL_LOG_PATH);
        free(place);
    }
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "soon", 1), 0);
    ck_assert(!placed(made.path, SL_STRAND_NONE, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

START_SUITE("log edges")
FIXTURE(set_up, tear_down)
ADD(a_number_is_taken_however_it_may_be_written)
ADD(a_cell_that_its_column_cannot_hold_is_told_with_the_reason)
ADD(digits_of_ids_are_kept_in_small_letters_and_answers_in_words)
ADD(where_cells_are_parted_by_semicolons_a_comma_is_a_point)
ADD(a_file_that_is_no_csv_of_ours_is_told_as_what_it_is)
ADD(an_instant_that_is_none_is_refused_in_each_of_its_parts)
ADD(what_goes_out_is_of_one_test_or_of_all_and_a_full_disk_is_told)
ADD(the_first_piece_of_a_ladder_goes_out_with_the_others)
ADD(the_label_of_a_mix_is_kept_with_its_swatches_and_goes_out_with_them)
ADD(a_picture_s_key_says_under_the_mix_or_rinsed)
ADD(a_colour_is_whole_and_says_how_it_was_read)
ADD(one_word_of_any_kind_is_something_said)
ADD(means_are_of_grades_and_of_an_instrument_apart_and_in_their_order)
ADD(an_instrument_s_mean_is_of_swatches)
ADD(a_zone_that_comes_again_is_the_same_zone)
CASE("strands")
FIXTURE(set_up_strands, tear_down_strands)
ADD(of_strands_that_count_the_newest_is_taken_and_of_others_the_one_that_lacks_least)
ADD(of_two_strands_of_one_day_the_one_that_was_watched_for_less_is_taken)
ADD(what_stays_on_longer_is_not_the_last_mix_of_each_arm)
ADD(what_a_strand_showed_after_the_label_s_time_is_not_taken_over)
ADD(more_looks_than_a_form_holds_ask_for_one_strand)
ADD(only_graded_looks_while_it_lay_are_what_a_strand_showed)
ADD(a_strand_that_was_not_felt_or_of_an_arm_that_is_gone_says_so)
ADD(more_looks_at_one_strand_than_can_be_held_are_refused)
ADD(as_many_looks_as_a_form_holds_are_refused_or_one_more_is_taken)
ADD(a_thing_that_was_told_of_a_strand_is_another)
ADD(a_look_as_the_water_came_is_none_or_one_after_it_is_one)
ADD(bad_news_of_one_strand_stays_its_own_or_goes_to_another_s)
ADD(applications_of_an_arm_are_those_of_its_scene_and_no_more_than_there_is_room_for)
ADD(a_strand_is_found_by_log_test_and_swatch)
ADD(a_log_whose_name_holds_a_colon_is_found_too)
ADD(a_place_that_no_path_can_be_is_refused)
END_SUITE
