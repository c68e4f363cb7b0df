/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words for a colour: level, tone and warmth by a chart, and the steps of the grey scale.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/optics.h"
#include "suite.h"

static const sl_chart CHART = {
    .name = "straight",
    .title = {{"Ten levels at even steps"}},
    .level_L = {10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 95.0},
    .n_tones = 3,
    .tones = {{"red", {{NULL}}, 350.0, 40.0, 10.0, 0.0, 100.0},
              {"pale yellow", {{NULL}}, 80.0, 100.0, 10.0, 75.0, 100.0},
              {"yellow", {{NULL}}, 80.0, 100.0, 10.0, 0.0, 100.0}},
    .warm_from_deg = 330.0,
    .warm_to_deg = 110.0,
    .neutral_chroma = 6.0,
};

static sl_lab colour(double L, double C, double h_deg)
{
    const double degree = 0.017453292519943295;
    return (sl_lab){L, C * cos(h_deg * degree), C * sin(h_deg * degree)};
}

START_TEST(a_level_is_read_in_halves_between_the_chart_s_own_L)
{
    const double expected[][2] = {{-3.0, 1.0}, {10.0, 1.0}, {12.0, 1.0}, {13.0, 1.5}, {17.4, 1.5},
                                  {20.0, 2.0}, {55.0, 5.5}, {89.0, 9.0}, {93.0, 9.5}, {99.0, 10.0}};
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const sl_reading_words read = sl_chart_read(&CHART, (sl_lab){expected[i][0], 0.0, 0.0});
        ck_assert_double_eq(read.level, expected[i][1]);
    }
}
END_TEST

START_TEST(a_level_never_falls_as_hair_gets_lighter)
{
    double before = 0.0;
    for (int i = 0; i <= 1000; i++) {
        const double level = sl_chart_read(&CHART, (sl_lab){0.1 * i, 5.0, 5.0}).level;
        ck_assert(level >= before);
        before = level;
    }
}
END_TEST

START_TEST(the_first_tone_that_fits_is_the_word)
{
    ck_assert_str_eq(sl_chart_read(&CHART, colour(80.0, 20.0, 90.0)).tone, "pale yellow");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 90.0)).tone, "yellow");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 355.0)).tone, "red"); /* wraps */
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 10.0)).tone, "red");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 200.0)).tone, "");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 5.0, 90.0)).tone, "");
}
END_TEST

START_TEST(warm_cool_and_neutral_are_the_chart_s)
{
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 60.0)).warmth, "warm");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 340.0)).warmth, "warm");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 20.0, 200.0)).warmth, "cool");
    ck_assert_str_eq(sl_chart_read(&CHART, colour(60.0, 5.9, 60.0)).warmth, "neutral");
}
END_TEST

/* ISO 105-A02 (EN 20105-A02:1994), 2.4: CIELAB difference of the chips of each step, and its
 * tolerance. Within its tolerance each step is read as itself. */
START_TEST(every_step_of_the_grey_scale_is_read_within_its_tolerance)
{
    const double chip[][3] = {{5.0, 0.0, 0.2},  {4.5, 0.8, 0.2}, {4.0, 1.7, 0.3},
                              {3.5, 2.5, 0.35}, {3.0, 3.4, 0.4}, {2.5, 4.8, 0.5},
                              {2.0, 6.8, 0.6},  {1.5, 9.6, 0.7}, {1.0, 13.6, 1.0}};
    for (size_t i = 0; i < sizeof chip / sizeof *chip; i++) {
        ck_assert_double_eq(sl_grey_scale_step(chip[i][1]), chip[i][0]);
        ck_assert_double_eq(sl_grey_scale_step(chip[i][1] + chip[i][2]), chip[i][0]);
        ck_assert_double_eq(sl_grey_scale_step(fmax(chip[i][1] - chip[i][2], 0.0)), chip[i][0]);
    }
    ck_assert_double_eq(sl_grey_scale_step(150.0), 1.0);
}
END_TEST

/* ---- at the edges -------------------------------------------------------------------------------- */

/* A colour whose lightness, chroma and hue come out as they are written: L 50, chroma 5, hue 0, 90, 180 or
 * 270. */
static sl_lab right_angle(int quarter)
{
    static const double a[4] = {5.0, 0.0, -5.0, 0.0}, b[4] = {0.0, 5.0, 0.0, -5.0};
    return (sl_lab){50.0, a[quarter], b[quarter]};
}

/* Each bound of a tone belongs to it (docs/file-format.md: least and most), and what lies a little further
 * out does not. Hues go from one bound up to the other, through 0 when the first is larger. */
START_TEST(a_tone_holds_its_own_bounds)
{
    sl_chart chart = {.n_tones = 1};
    for (int i = 0; i < SL_LEVELS; i++) {
        chart.level_L[i] = 10.0 * i + 5.0;
    }
    for (int quarter = 0; quarter < 4; quarter++) {
        const sl_lch seen = sl_lch_of_lab(right_angle(quarter));
        const double h = seen.h_deg, step = 1e-9;
        const struct {
            double chroma, least, most, from, to;
            bool fits;
        } cases[] = {{5.0, 50.0, 50.0, h, h, true},
                     {5.0 + step, 50.0, 50.0, h, h, false},
                     {5.0, 50.0 + step, 60.0, h, h, false},
                     {5.0, 40.0, 50.0 - step, h, h, false},
                     {5.0, 50.0, 50.0, h, h + 10.0, true},
                     {5.0, 50.0, 50.0, h - 10.0, h, true},
                     {5.0, 50.0, 50.0, h + step, h + 10.0, false},
                     {5.0, 50.0, 50.0, h - 10.0, h - step, false},
                     {5.0, 50.0, 50.0, h, h - 20.0, true},
                     {5.0, 50.0, 50.0, h + 20.0, h, true},
                     {5.0, 50.0, 50.0, h + step, h - step, false}};
        for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
            chart.tones[0] = (sl_tone){
                "it", {{NULL}}, cases[i].from, cases[i].to, cases[i].chroma, cases[i].least, cases[i].most};
            const char *const word = sl_chart_read(&chart, right_angle(quarter)).tone;
            ck_assert_msg((strcmp(word, "it") == 0) == cases[i].fits, "hue %g, case %zu", h, i);
        }
    }
}
END_TEST

/* From 330 to 30 degrees goes through 0 and not the other way round. */
START_TEST(a_hue_may_run_through_nought)
{
    sl_chart chart = {.n_tones = 1,
                      .tones = {{.word = "it", .from_deg = 330.0, .to_deg = 30.0, .most_L = 100.0}}};
    for (int i = 0; i < SL_LEVELS; i++) {
        chart.level_L[i] = 10.0 * i + 5.0;
    }
    for (int h = 0; h < 360; h += 5) {
        const bool inside = h < 30 || h > 330;
        if (h != 30 && h != 330) {
            ck_assert_int_eq(sl_chart_read(&chart, colour(50.0, 20.0, h)).tone[0] != '\0', inside);
        }
    }
    chart.tones[0].from_deg = 30.0;
    chart.tones[0].to_deg = 330.0;
    for (int h = 0; h < 360; h += 5) {
        if (h != 30 && h != 330) {
            ck_assert_int_eq(sl_chart_read(&chart, colour(50.0, 20.0, h)).tone[0] != '\0', h > 30 && h < 330);
        }
    }
}
END_TEST

/* Chroma that is just the chart's bound is not neutral any more. */
START_TEST(neutral_ends_at_its_chroma)
{
    sl_chart chart = {.neutral_chroma = 5.0, .warm_from_deg = 0.0, .warm_to_deg = 90.0};
    for (int i = 0; i < SL_LEVELS; i++) {
        chart.level_L[i] = 10.0 * i + 5.0;
    }
    static const char *const words[4] = {"warm", "warm", "cool", "cool"};
    for (int quarter = 0; quarter < 4; quarter++) {
        chart.neutral_chroma = 5.0;
        ck_assert_str_eq(sl_chart_read(&chart, right_angle(quarter)).warmth, words[quarter]);
        chart.neutral_chroma = 5.0 + 1e-12;
        ck_assert_str_eq(sl_chart_read(&chart, right_angle(quarter)).warmth, "neutral");
    }
}
END_TEST

/* Ten levels of their own L*; between two of them the half begins a quarter of the way from either. */
START_TEST(levels_and_halves_begin_where_they_should)
{
    sl_chart chart = {.n_tones = 0};
    for (int i = 0; i < SL_LEVELS; i++) {
        chart.level_L[i] = 8.0 * i + 8.0;
    }
    for (int i = 0; i < SL_LEVELS; i++) {
        const double L = 8.0 * i + 8.0;
        ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){L, 0.0, 0.0}).level, i + 1.0);
        if (i + 1 < SL_LEVELS) {
            ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){L + 1.99, 0.0, 0.0}).level, i + 1.0);
            ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){L + 2.01, 0.0, 0.0}).level, i + 1.5);
            ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){L + 5.99, 0.0, 0.0}).level, i + 1.5);
            ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){L + 6.01, 0.0, 0.0}).level, i + 2.0);
        }
    }
    ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){0.0, 0.0, 0.0}).level, 1.0);
    ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){100.0, 0.0, 0.0}).level, 10.0);
    ck_assert_double_eq(sl_chart_read(&chart, (sl_lab){log(-1.0), 0.0, 0.0}).level, 1.0);
    ck_assert_str_eq(sl_chart_read(&chart, (sl_lab){50.0, 0.0, 0.0}).tone, "");
}
END_TEST

/* Nine steps and half steps (ISO 105-A02): the nearest is read, a difference half way counts as the worse
 * one. */
START_TEST(the_grey_scale_reads_the_nearest_step_to_its_very_edge)
{
    static const double difference[] = {0.0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6};
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(sl_grey_scale_step(difference[i]), 5.0 - 0.5 * i);
        if (i > 0) {
            const double edge = 0.5 * (difference[i - 1] + difference[i]);
            ck_assert_double_eq(sl_grey_scale_step(edge), 5.0 - 0.5 * i);
            ck_assert_double_eq(sl_grey_scale_step(nextafter(edge, 0.0)), 5.5 - 0.5 * i);
        }
    }
    ck_assert_double_eq(sl_grey_scale_step(1000.0), 1.0);
}
END_TEST

START_SUITE("chart")
ADD(a_level_is_read_in_halves_between_the_chart_s_own_L)
ADD(a_level_never_falls_as_hair_gets_lighter)
ADD(the_first_tone_that_fits_is_the_word)
ADD(warm_cool_and_neutral_are_the_chart_s)
ADD(every_step_of_the_grey_scale_is_read_within_its_tolerance)
ADD(a_tone_holds_its_own_bounds)
ADD(a_hue_may_run_through_nought)
ADD(neutral_ends_at_its_chroma)
ADD(levels_and_halves_begin_where_they_should)
ADD(the_grey_scale_reads_the_nearest_step_to_its_very_edge)
END_SUITE
