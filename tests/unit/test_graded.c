/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/graded.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

#include "suite.h"

enum { STRIPS = 3, BLOCKS = 4, SWATCHES = STRIPS * BLOCKS };
static sl_graded_look look[SWATCHES];
static sl_blocks blocks;
static sl_graded_scatter scatter;
static bool before[STRIPS * STRIPS];
static sl_comparison room[STRIPS * STRIPS];

/* One look at each swatch: of each block its strips' grades, as figures. */
static void compare(const char *const grades[BLOCKS], bool blocked)
{
    for (int i = 0; i < SWATCHES; i++) {
        look[i] = (sl_graded_look){.swatch = i,
                                   .strip = i % STRIPS,
                                   .block = i / STRIPS,
                                   .wipe = (sl_wipe)(grades[i / STRIPS][i % STRIPS] - '0'),
                                   .many = 1.0,
                                   .judge = &SL_JUDGE_USUAL};
    }
    const sl_graded_colour colour = {look, SWATCHES, blocked};
    ck_assert(sl_graded_of(&blocks, &scatter, &colour, 1, STRIPS, NULL));
    sl_before_together(&blocks, 1, room, before);
}

/* By GSL's normal curve and the documented shares: chances of a strip's grades, all errors as one. */
static double log_likelihood(int strip, double root)
{
    static const double share[SL_WIPES] = {1.0, 0.8, 0.5, 0.25, 0.1, 0.0};
    const double sd = hypot(SL_JUDGE_USUAL.spread, scatter.swatch);
    double sum = 0.0;
    for (int i = strip; i < SWATCHES; i += STRIPS) {
        const int g = (int)look[i].wipe;
        const double up = g == 0 ? 99.0 : 0.5 * (sqrt(share[g]) + sqrt(share[g - 1]));
        const double low = g == SL_WIPES - 1 ? -99.0 : 0.5 * (sqrt(share[g]) + sqrt(share[g + 1]));
        sum += log(0.98 * (gsl_cdf_ugaussian_P((up - root) / sd) - gsl_cdf_ugaussian_P((low - root) / sd)) +
                   0.02 / SL_WIPES);
    }
    return sum;
}

START_TEST(a_strip_lies_where_its_grades_are_less_likely_than_elsewhere)
{
    static const char *const grades[BLOCKS] = {"240", "341", "250", "130"};
    compare(grades, false);
    for (int strip = 0; strip < STRIPS; strip++) {
        const double here = log_likelihood(strip, blocks.mean[strip]);
        for (int k = 0; k <= 1000; k++) {
            ck_assert_double_le(log_likelihood(strip, k / 1000.0), here + 1e-6);
        }
    }
    ck_assert(before[1 * STRIPS + 2] && !before[2 * STRIPS + 1]);
}
END_TEST

START_TEST(grades_at_the_ends_of_the_scale_have_no_end)
{
    static const char *const grades[BLOCKS] = {"055", "055", "055", "055"};
    compare(grades, true);
    ck_assert_double_eq_tol(blocks.mean[0], 1.0, 1e-9);
    ck_assert_double_eq_tol(blocks.mean[1], 0.0, 1e-9);
    for (int i = 0; i < STRIPS; i++) {
        const double half = sl_blocks_half(&blocks, i, 0.95);
        ck_assert_msg(half > 0.01 && half < 1.0, "%g", half);
    }
    ck_assert(before[1 * STRIPS + 0] && before[2 * STRIPS + 0] && !before[1 * STRIPS + 2]);
}
END_TEST

/* What all strips of a block have in common is no scatter: two grades apart in each block, four blocks a
 * grade apart. */
START_TEST(what_a_round_has_in_common_counts_as_scatter)
{
    static const char *const grades[BLOCKS] = {"024", "135", "024", "135"};
    compare(grades, true);
    const double joined = blocks.part[0][0] + blocks.part[1][1] - 2.0 * blocks.part[0][1];
    ck_assert_double_gt(scatter.block, 0.05);
    compare(grades, false);
    ck_assert_double_lt(joined, blocks.part[0][0] + blocks.part[1][1] - 2.0 * blocks.part[0][1]);
}
END_TEST

START_TEST(single_swatches_or_none_are_put_in_an_order)
{
    sl_graded_look one[STRIPS];
    for (int i = 0; i < STRIPS; i++) {
        one[i] = (sl_graded_look){i, i, 0, (sl_wipe)(2 * i), 1.0, &SL_JUDGE_USUAL};
    }
    const sl_graded_colour colours[] = {{one, STRIPS, false}, {one, 0, false}};
    for (int i = 0; i < 2; i++) {
        ck_assert(sl_graded_of(&blocks, &scatter, &colours[i], 1, STRIPS, NULL));
        ck_assert_int_eq(blocks.freedom, 0);
        sl_before_together(&blocks, 1, room, before);
        ck_assert(!before[1] && !before[STRIPS]);
        ck_assert_double_eq(sl_blocks_half(&blocks, 0, 0.95), -1.0);
    }
}
END_TEST

/* A slip of the form at one of four swatches moves its strip little, and makes it no surer. */
START_TEST(a_slip_of_the_form_moves_a_strip_or_makes_it_surer)
{
    static const char *const plain[BLOCKS] = {"222", "222", "222", "222"}, *const slipped[BLOCKS] = {
                                                                               "222", "222", "222", "522"};
    compare(plain, false);
    const double mean = blocks.mean[0], variance = blocks.part[0][0];
    compare(slipped, false);
    ck_assert_double_eq_tol(blocks.mean[0], mean, 0.03);
    ck_assert_double_gt(blocks.part[0][0], 1.2 * variance);
}
END_TEST

/* ---- who looked -----------------------------------------------------------------------------------------
 */

enum { LOCKS = 400 };
static gsl_rng *chance;

static void begin(void)
{
    chance = gsl_rng_alloc(gsl_rng_mt19937);
    ck_assert_ptr_nonnull(chance);
    gsl_rng_set(chance, 16);
}

static void end(void)
{
    gsl_rng_free(chance);
}

/* One more grade, by its chance. */
static void look_once(const sl_judge *judge, double left, int grades[SL_WIPES])
{
    double rest = gsl_rng_uniform(chance);
    int g = 0;
    while (g < SL_WIPES - 1 && (rest -= sl_wipe_chance(judge, (sl_wipe)g, left)) > 0.0) {
        g++;
    }
    grades[g]++;
}

static const sl_judge judges[] = {{0.0, 0.06, 0.02}, {0.0, 0.1, 0.02}, {0.0, 0.2, 0.02}};

START_TEST(a_spread_is_not_that_of_looks_that_were_repeated)
{
    static sl_judge_looks looks[LOCKS];
    memset(looks, 0, sizeof looks);
    for (int i = 0; i < LOCKS; i++) {
        const double left = gsl_rng_uniform(chance);
        look_once(&judges[_i], left, looks[i].grades);
        look_once(&judges[_i], left, looks[i].grades);
    }
    const sl_judge_learned learned = sl_judge_learn(looks, LOCKS);
    ck_assert_msg(fabs(log(learned.judge.spread / judges[_i].spread)) < 0.25, "%g", learned.judge.spread);
    ck_assert(learned.spread_low < learned.judge.spread && learned.judge.spread < learned.spread_high);
}
END_TEST

START_TEST(few_looks_or_looks_at_one_end_tell_more_than_is_assumed)
{
    sl_judge_looks looks[6] = {{.judge = 0}};
    for (int i = 0; i < 6; i++) {
        looks[i].grades[SL_WIPE_UNDYED] = 2;
    }
    const sl_judge_learned learned = sl_judge_learn(looks, 6);
    ck_assert(!learned.lapse);
    ck_assert_double_eq_tol(log(learned.judge.spread / SL_JUDGE_USUAL.spread), 0.0, 0.35);
    ck_assert(learned.spread_low < SL_JUDGE_USUAL.spread && SL_JUDGE_USUAL.spread < learned.spread_high);
}
END_TEST

START_TEST(who_sees_more_is_not_told_from_who_sees_less)
{
    static const double off[] = {0.08, 0.0, -0.08};
    static sl_judge_looks looks[3 * LOCKS];
    const sl_judge known[] = {SL_JUDGE_USUAL, SL_JUDGE_USUAL, SL_JUDGE_USUAL};
    double offset[3], error[3];
    memset(looks, 0, sizeof looks);
    double left = 0.0;
    for (int i = 0; i < 3 * LOCKS; i++) {
        sl_judge judge = SL_JUDGE_USUAL;
        judge.offset = off[i % 3];
        looks[i].lock = i / 3;
        looks[i].judge = i % 3;
        left = i % 3 == 0 ? gsl_rng_uniform(chance) : left;
        look_once(&judge, left, looks[i].grades);
    }
    sl_judges_offsets(looks, 3 * LOCKS, known, 3, offset, error);
    for (int j = 0; j < 3; j++) {
        ck_assert_msg(fabs(offset[j] - off[j]) < 0.02, "%d: %g", j, offset[j]);
        ck_assert(error[j] > 0.002 && error[j] < 0.015);
    }
}
END_TEST

START_SUITE("graded")
ADD(a_strip_lies_where_its_grades_are_less_likely_than_elsewhere)
ADD(grades_at_the_ends_of_the_scale_have_no_end)
ADD(what_a_round_has_in_common_counts_as_scatter)
ADD(single_swatches_or_none_are_put_in_an_order)
ADD(a_slip_of_the_form_moves_a_strip_or_makes_it_surer)
CASE("judges")
FIXTURE(begin, end)
ADD_LOOP(a_spread_is_not_that_of_looks_that_were_repeated, 0, 3)
ADD(few_looks_or_looks_at_one_end_tell_more_than_is_assumed)
ADD(who_sees_more_is_not_told_from_who_sees_less)
END_SUITE
