/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words for a colour: level, tone and warmth by a chart, and the steps of the grey scale.
 */
#include <math.h>
#include <stdlib.h>

#include "slowlift/optics.h"
#include "suite.h"

static const sl_chart CHART = {
    .name = "straight",
    .title = "Ten levels at even steps",
    .level_L = {10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 95.0},
    .n_tones = 3,
    .tones = {{"red", 350.0, 40.0, 10.0, 0.0, 100.0},
              {"pale yellow", 80.0, 100.0, 10.0, 75.0, 100.0},
              {"yellow", 80.0, 100.0, 10.0, 0.0, 100.0}},
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

START_SUITE("chart")
ADD(a_level_is_read_in_halves_between_the_chart_s_own_L)
ADD(a_level_never_falls_as_hair_gets_lighter)
ADD(the_first_tone_that_fits_is_the_word)
ADD(warm_cool_and_neutral_are_the_chart_s)
ADD(every_step_of_the_grey_scale_is_read_within_its_tolerance)
END_SUITE
