/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which values stand in the rows of tubs and judges: what counts, what is pooled, what is left out.
 */
#include "log/shelf/drift.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "document/renderers.h"
#include "log_made.h"
#include "slowlift/compare.h"
#include "suite.h"

static sl_log_made made;
static sl_drift drift;
static int n_looks; /* a minute apart */

static void fresh(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
    n_looks = 0;
}

static void end(void)
{
    sl_drift_free(&drift);
    log_made_end(&made);
}

static void look(int swatch, const char *zone, const char *judge, sl_wipe grade, double minute, double hours)
{
    sl_log_reading reading = log_made_reading(&made, swatch, zone, grade);
    snprintf(reading.judge, sizeof reading.judge, "%s", judge);
    reading.minute = minute;
    reading.hours_after = hours;
    snprintf(reading.at, sizeof reading.at, "2026-11-25T%02d:%02d:00Z", 10 + n_looks / 60, n_looks % 60);
    n_looks++;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static void at_the_end(int swatch, const char *zone, const char *judge, sl_wipe grade)
{
    look(swatch, zone, judge, grade, SL_NOT_READ, SL_NOT_READ);
}

/* n: rows of tubs and of repeated looks, which come first. */
static void read_drift(size_t n)
{
    sl_error error = {.code = SL_OK};
    size_t found = 0;
    sl_drift_free(&drift);
    ck_assert_msg(sl_drift_read(&drift, made.folder, &error), "%s; %s", error.found, error.wanted);
    while (found < drift.n && drift.row[found].kind != SL_DRIFT_OFFSET) {
        found++;
    }
    ck_assert_uint_eq(found, n);
}

static void check_swatch(int swatch, int second, const char *lot)
{
    char note[64];
    snprintf(note, sizeof note, "bowl: powder_lot=%s check=yes", lot);
    log_made_happens(&made, SL_EVENT_NOTED, swatch, second, note);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, second, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, second + 1800, NULL);
}

START_TEST(a_check_swatch_is_not_the_mean_over_its_zones_of_the_mean_over_looks)
{
    fresh();
    const int one = log_made_swatch(&made, "powder + 3 %", 0);
    check_swatch(one, 60, "P7");
    at_the_end(one, "red", "j1", SL_WIPE_SLIGHT);
    at_the_end(one, "red", "j2", SL_WIPE_HALF);
    at_the_end(one, "blue", "j1", SL_WIPE_GHOST);
    look(one, "blue", "j1", SL_WIPE_NO_CHANGE, 5.0, SL_NOT_READ);  /* on the way */
    look(one, "blue", "j1", SL_WIPE_NO_CHANGE, SL_NOT_READ, 24.0); /* next day */
    at_the_end(log_made_swatch(&made, "powder + 6 %", 0), "red", "j1",
               SL_WIPE_NO_CHANGE); /* no check swatch */
    read_drift(1);
    const double red = 0.5 * (sl_wipe_share(SL_WIPE_SLIGHT) + sl_wipe_share(SL_WIPE_HALF));
    ck_assert_str_eq(drift.row[0].code, "P7");
    ck_assert_uint_eq(drift.row[0].n, 1);
    ck_assert_double_eq_tol(drift.row[0].point[0].value, 0.5 * (red + sl_wipe_share(SL_WIPE_GHOST)), 1e-12);
    ck_assert_int_eq(drift.row[0].point[0].n, 2);
    ck_assert(!drift.row[0].control.known);
    end();
}
END_TEST

START_TEST(lots_are_pooled_or_a_check_swatch_without_one_counts)
{
    fresh();
    const char *const lots[] = {"P7", "P8", "P7"};
    for (int block = 0; block < 3; block++) {
        const int swatch = log_made_swatch(&made, "powder + 3 %", block);
        check_swatch(swatch, 600 - 100 * block, lots[block]);
        at_the_end(swatch, "red", "j1", (sl_wipe)block);
    }
    const int bare = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_NOTED, bare, 0, "bowl: check=yes");
    log_made_happens(&made, SL_EVENT_APPLIED, bare, 0, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, bare, 1800, NULL);
    at_the_end(bare, "red", "j1", SL_WIPE_HALF);
    read_drift(2);
    ck_assert_int_eq(drift.without_lot, 1);
    ck_assert_str_eq(drift.row[0].code, "P7");
    ck_assert_uint_eq(drift.row[0].n, 2);
    ck_assert(!drift.row[0].unlike);
    ck_assert_double_eq(drift.row[0].point[0].value,
                        sl_wipe_share((sl_wipe)2)); /* that of block 3 was first */
    check_swatch(bare, 3000, "P7");
    read_drift(2);
    ck_assert(drift.row[0].unlike);
    end();
}
END_TEST

START_TEST(a_repeated_look_is_not_compared_with_the_first_at_the_same)
{
    fresh();
    at_the_end(0, "red", "j1", SL_WIPE_HALF);
    at_the_end(0, "blue", "j1", SL_WIPE_SLIGHT);
    at_the_end(0, "red", "j2", SL_WIPE_NO_CHANGE);             /* somebody else's */
    look(0, "red", "j1", SL_WIPE_NO_CHANGE, 5.0, SL_NOT_READ); /* of another moment */
    look(0, "red", "j1", SL_WIPE_NO_CHANGE, SL_NOT_READ, 24.0);
    at_the_end(1, "red", "j1", SL_WIPE_NO_CHANGE); /* of another swatch */
    read_drift(0);
    at_the_end(0, "red", "j1", SL_WIPE_SLIGHT);
    at_the_end(0, "blue", "j1", SL_WIPE_SLIGHT);
    at_the_end(0, "red", "j1", SL_WIPE_GHOST); /* a third time */
    read_drift(1);
    ck_assert_int_eq(drift.row[0].kind, SL_DRIFT_JUDGE);
    ck_assert_uint_eq(drift.row[0].n, 2);
    const double half = sl_wipe_share(SL_WIPE_HALF);
    ck_assert_double_eq_tol(drift.row[0].point[0].value, 0.5 * (sl_wipe_share(SL_WIPE_SLIGHT) - half), 1e-12);
    ck_assert_double_eq_tol(drift.row[0].point[1].value, sl_wipe_share(SL_WIPE_GHOST) - half, 1e-12);
    end();
}
END_TEST

START_TEST(a_copy_of_a_log_counts_twice)
{
    fresh();
    at_the_end(0, "red", "j1", SL_WIPE_HALF);
    at_the_end(0, "red", "j1", SL_WIPE_SLIGHT);
    log_made_copy(&made);
    read_drift(1);
    ck_assert_uint_eq(drift.row[0].n, 1);
    end();
}
END_TEST

START_TEST(a_rehearsal_counts)
{
    fresh();
    at_the_end(0, "red", "j1", SL_WIPE_HALF);
    at_the_end(0, "red", "j1", SL_WIPE_SLIGHT);
    at_the_end(0, "red", "j2", SL_WIPE_SLIGHT);
    sl_event begun = {
        .kind = SL_EVENT_STARTED, .swatch = -1, .speed = 60.0, .at = {.boot_ns = 1, .wall_ns = 1}};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &begun, NULL, NULL));
    read_drift(0);
    ck_assert_uint_eq(drift.n, 0);
    end();
}
END_TEST

/* ---- judges beside each other ---- */

static void said_of(const sl_drift *of, char *text, size_t size)
{
    sl_document document;
    FILE *const stream = fmemopen(text, size, "w");
    ck_assert_ptr_nonnull(stream);
    sl_drift_say(&document, of, NULL);
    ck_assert(sl_document_print(stream, &document, &(sl_terminal){.width = 200, .depth = SL_SCIENCE}));
    fclose(stream);
}

/* As compare tells it of the test: against the mean of the judges, an interval of 1.96 standard errors, the
 * root of a share in five steps; beside the one other that is twice as much. */
START_TEST(an_offset_is_not_that_of_compare_or_somebody_alone_has_one)
{
    sl_error error = {.code = SL_OK};
    sl_log_test test;
    sl_compare *compare = NULL;
    char text[16000];
    fresh();
    for (int i = 0; i < 12; i++) {
        at_the_end(i, "red", "j1", i % 2 == 0 ? SL_WIPE_HALF : SL_WIPE_SLIGHT);
        at_the_end(i, "red", "j2", i % 3 == 0 ? SL_WIPE_HALF : SL_WIPE_MOSTLY_GONE);
    }
    at_the_end(0, "blue", "j3", SL_WIPE_HALF);
    read_drift(0);
    ck_assert(sl_log_find(made.log, NULL, &test, &error));
    ck_assert_msg(sl_compare_read(&compare, made.log, &test, -1.0, &error), "%s", error.found);
    ck_assert_int_eq(compare->n_judges, 3);
    ck_assert_uint_eq(drift.n, 3);
    for (int j = 0; j < 2; j++) {
        const sl_drift_row *const row = &drift.row[j];
        ck_assert_str_eq(row->code, j == 0 ? "j1" : "j2");
        ck_assert_uint_eq(row->n, 1);
        ck_assert_str_eq(row->point[0].what, j == 0 ? "j2" : "j1");
        ck_assert_int_eq(row->point[0].n, 12);
        ck_assert(j == 0 ? row->point[0].value > 0.2 : row->point[0].value < -0.2);
        ck_assert_double_eq_tol(row->point[0].value, 10.0 * compare->judge[j].is.judge.offset, 1e-9);
        ck_assert_double_eq_tol(row->point[0].error, 10.0 * compare->judge[j].offset_half / 1.96, 1e-9);
    }
    ck_assert_str_eq(drift.row[2].code, "j3");
    ck_assert_uint_eq(drift.row[2].n, 0);
    said_of(&drift, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "beside others: j3."));
    ck_assert_ptr_null(strstr(text, "j3, beside the other"));
    sl_compare_free(compare);
    end();
}
END_TEST

enum { MOST_TESTS = 16, MOST_JUDGES = 3 };
static sl_drift_point points[MOST_JUDGES][MOST_TESTS];
static sl_drift_row rows[MOST_JUDGES];
static sl_drift drawn;

/* Offsets that go up and down by a tenth, and by so much more from each judge's first eleventh test on. */
static void draw_rows(int n_judges, int n_tests, const double *more)
{
    double value[MOST_TESTS];
    drawn = (sl_drift){.row = rows, .n = (size_t)n_judges};
    for (int j = 0; j < n_judges; j++) {
        rows[j] = (sl_drift_row){.kind = SL_DRIFT_OFFSET, .point = points[j], .n = (size_t)n_tests};
        snprintf(rows[j].code, sizeof rows[j].code, "j%d", j + 1);
        for (int i = 0; i < n_tests; i++) {
            value[i] = (i % 2 == 0 ? 0.1 : -0.1) + (i >= SL_INDIVIDUALS_FIRST ? more[j] : 0.0);
            points[j][i] = (sl_drift_point){.value = value[i], .others = n_judges - 1};
            snprintf(points[j][i].test, sizeof points[j][i].test, "test-%d", i);
            snprintf(points[j][i].what, sizeof points[j][i].what, "j%d", n_judges - j);
        }
        rows[j].control = sl_individuals_of(value, n_tests);
    }
}

START_TEST(who_shifts_is_mistaken_for_who_follows)
{
    char text[16000];
    draw_rows(3, 13, (double[]){1.2, -0.6, -0.6});
    const sl_drift_shift first = sl_drift_shift_of(&drawn, &rows[0]);
    const sl_drift_shift second = sl_drift_shift_of(&drawn, &rows[1]);
    ck_assert_int_eq(first.kind, SL_SHIFT_OWN);
    ck_assert_uint_eq(first.since, 10);
    /* three tests since, of which two lie higher by a tenth and one lower: mean a thirtieth above */
    ck_assert_double_eq_tol(first.steps, 1.2 + 0.1 / 3.0, 1e-9);
    ck_assert_int_eq(second.kind, SL_SHIFT_FOLLOWS);
    ck_assert_ptr_eq(second.whose, &rows[0]);
    said_of(&drawn, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "j1 grades higher (more colour left) by 1.2 steps since"));
    ck_assert_ptr_null(strstr(text, "j2 grades"));
    draw_rows(3, 13, (double[]){0.6, 0.6, -1.2});
    said_of(&drawn, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "j3 grades lower (less colour left) by 1.2 steps since"));
}
END_TEST

static void json_of(const sl_drift *of, char *text, size_t size)
{
    FILE *const stream = fmemopen(text, size, "w");
    ck_assert(stream && sl_export_json(stream, &sl_drift_export, of));
    ck_assert_int_eq(fclose(stream), 0);
}

START_TEST(a_machine_does_not_read_since_when_who_shifts)
{
    static const char since[] = "\"shift_since\": \"2024-10-14\"", never[] = "\"shift_since\": null";
    char text[32000];
    int n_days = 0, n_nothing = 0;
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    draw_rows(3, 13, (double[]){1.2, 0.0, 0.0});
    for (int i = 0; i < 13; i++) {
        points[0][i].wall_ns = (INT64_C(20000) + i) * 86400 * INT64_C(1000000000);
    }
    json_of(&drawn, text, sizeof text); /* day 20 010 after 1970-01-01, by date -u -d @$((20010 * 86400)) */
    for (const char *at = text; (at = strstr(at, "\"shift_since\": ")) != NULL; at++) {
        n_days += strncmp(at, since, sizeof since - 1) == 0 ? 1 : 0;
        n_nothing += strncmp(at, never, sizeof never - 1) == 0 ? 1 : 0;
    }
    ck_assert_int_eq(n_days, 1);
    ck_assert_int_eq(n_nothing, 2);
}
END_TEST

START_TEST(of_two_alone_one_is_said_to_have_shifted)
{
    char text[16000];
    draw_rows(2, 12, (double[]){1.2, -1.2});
    for (int j = 0; j < 2; j++) {
        ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[j]).kind, SL_SHIFT_OF_TWO);
    }
    said_of(&drawn, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "Beside j2, j1 grades higher by 1.2 steps since"));
    ck_assert_ptr_nonnull(strstr(text, "Beside j1, j2 grades lower by 1.2 steps since"));
}
END_TEST

START_TEST(a_shift_is_told_of_what_is_none)
{
    draw_rows(2, 12, (double[]){0.2, -0.2}); /* within the limits */
    ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[0]).kind, SL_SHIFT_NONE);
    draw_rows(2, 11, (double[]){1.2, -1.2}); /* one test alone */
    ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[0]).kind, SL_SHIFT_NONE);
    draw_rows(2, 13, (double[]){1.2, -1.2});
    points[0][12].value = -0.1; /* and back */
    ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[0]).kind, SL_SHIFT_NONE);
    draw_rows(2, 13, (double[]){1.2, -1.2});
    rows[0].unlike = true; /* others came and went */
    ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[0]).kind, SL_SHIFT_NONE);
    draw_rows(2, 9, (double[]){1.2, -1.2}); /* no limits */
    ck_assert_int_eq(sl_drift_shift_of(&drawn, &rows[0]).kind, SL_SHIFT_NONE);
}
END_TEST

/* Ten like each other by turns, then one that is not. */
static void eleven(void)
{
    for (int i = 0; i < 11; i++) {
        at_the_end(i, "red", "j1", SL_WIPE_UNDYED);
        at_the_end(i, "red", "j1", i == 10 ? SL_WIPE_NO_CHANGE : i % 2 == 0 ? SL_WIPE_UNDYED : SL_WIPE_GHOST);
    }
}

START_TEST(what_lies_outside_is_not_told_and_drawn)
{
    sl_error error = {.code = SL_OK};
    sl_arena arena = {0};
    fresh();
    eleven();
    read_drift(1);
    const sl_drift_row *const row = &drift.row[0];
    ck_assert_uint_eq(row->n, 11);
    ck_assert(row->control.known);
    for (size_t i = 0; i < row->n; i++) {
        ck_assert_msg(sl_drift_outside(row, i) == (i == 10), "point %zu", i);
    }
    for (int ranges = 0; ranges < 2; ranges++) {
        const sl_graph *const graph = sl_graph_of_drift(&arena, row, ranges != 0, &error);
        ck_assert_ptr_nonnull(graph);
        int marks = 0, diamonds = 0, lines = 0;
        for (int s = 0; s < graph->n_series; s++) {
            const sl_graph_series *const series = &graph->series[s];
            for (int i = 0; i < series->n; i++) {
                ck_assert(series->y[i] >= graph->y.from && series->y[i] <= graph->y.to);
                ck_assert(series->x[i] >= graph->x.from && series->x[i] <= graph->x.to);
            }
            marks += series->shape == SL_GRAPH_CURVE ? 0 : series->n;
            diamonds += series->shape == SL_GRAPH_DIAMOND ? series->n : 0;
            lines += series->shape == SL_GRAPH_CURVE ? 1 : 0;
        }
        ck_assert_int_eq(marks, 11 - ranges);
        ck_assert_int_eq(diamonds, 1);
        ck_assert_int_eq(lines, 3 - ranges);
    }
    sl_arena_free(&arena);
    end();
}
END_TEST

START_TEST(one_value_alone_is_not_drawn_or_has_limits)
{
    sl_error error = {.code = SL_OK};
    sl_arena arena = {0};
    fresh();
    at_the_end(0, "red", "j1", SL_WIPE_HALF);
    at_the_end(0, "red", "j1", SL_WIPE_HALF);
    read_drift(1);
    const sl_graph *const graph = sl_graph_of_drift(&arena, &drift.row[0], false, &error);
    ck_assert_ptr_nonnull(graph);
    ck_assert_int_eq(graph->n_series, 1);
    ck_assert(graph->y.from < graph->y.to);
    sl_arena_free(&arena);
    end();
}
END_TEST

START_SUITE("drift")
ADD(a_check_swatch_is_not_the_mean_over_its_zones_of_the_mean_over_looks)
ADD(lots_are_pooled_or_a_check_swatch_without_one_counts)
ADD(a_repeated_look_is_not_compared_with_the_first_at_the_same)
ADD(a_copy_of_a_log_counts_twice)
ADD(a_rehearsal_counts)
ADD(an_offset_is_not_that_of_compare_or_somebody_alone_has_one)
ADD(who_shifts_is_mistaken_for_who_follows)
ADD(a_machine_does_not_read_since_when_who_shifts)
ADD(of_two_alone_one_is_said_to_have_shifted)
ADD(a_shift_is_told_of_what_is_none)
ADD(what_lies_outside_is_not_told_and_drawn)
ADD(one_value_alone_is_not_drawn_or_has_limits)
END_SUITE
