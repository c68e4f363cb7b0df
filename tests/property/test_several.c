/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is told of several tests together, on made-up ones whose truth is drawn: how often the interval of a
 * strip's mean over tests holds it, and how often something is told that is not so. Truth, spread between
 * tests, scatter of swatches and grades are drawn here by GSL's generator; from the product come the rules
 * and the judge's chances. Bounds allow three standard errors of the count.
 */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/observation.h"
#include "slowlift/pooled.h"
#include "slowlift/promise.h"
#include "unit/suite.h"

enum { MOST_TESTS = 12, MOST_COLOURS = 7, MOST_STRIPS = 8, BLOCKS = 3 };
static const double DRAWN = -1.0; /* a spread that is drawn of what is held of it (SL_POOL_PRIOR) */

typedef struct sl_design {
    int pools, tests, strips, colours;
    double own, common; /* between tests: standard deviations, or DRAWN */
    double alike;       /* share of strips that share one truth */
    double missing;     /* share of swatches, and of strips in a test */
    bool graded;
    double least_held, most_held;
} sl_design;

typedef struct sl_found {
    double holds, false_before, inversions, half;
} sl_found;

static gsl_rng *chance;
static sl_blocks made[MOST_COLOURS * MOST_TESTS], all[MOST_COLOURS];
static double truth[MOST_COLOURS][MOST_STRIPS];
static bool before[MOST_COLOURS * MOST_STRIPS * MOST_STRIPS];
static sl_comparison room[MOST_COLOURS * MOST_STRIPS * MOST_STRIPS];

static double graded(double left)
{
    double rest = gsl_rng_uniform(chance);
    for (int i = 0; i < SL_WIPES; i++) {
        rest -= sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)i, left);
        if (rest <= 0.0) {
            return sl_wipe_share((sl_wipe)i);
        }
    }
    return 0.0;
}

static double spread(double asked)
{
    return asked >= 0.0 ? asked : fabs(gsl_ran_gaussian(chance, SL_POOL_PRIOR));
}

static void make_colour(const sl_design *design, int c)
{
    const double level = gsl_rng_uniform(chance), own = spread(design->own), common = spread(design->common);
    for (int i = 0; i < design->strips; i++) {
        truth[c][i] = gsl_rng_uniform(chance) < design->alike ? level : gsl_rng_uniform(chance);
    }
    for (int k = 0; k < design->tests; k++) {
        sl_block_value value[MOST_STRIPS * BLOCKS];
        double left[MOST_STRIPS];
        bool there[MOST_STRIPS];
        int n = 0;
        const double together = gsl_ran_gaussian(chance, common);
        for (int i = 0; i < design->strips; i++) {
            left[i] = truth[c][i] + together + gsl_ran_gaussian(chance, own);
            there[i] = i < 2 || gsl_rng_uniform(chance) >= design->missing;
        }
        for (int v = 0; v < design->strips * BLOCKS; v++) {
            const int strip = v % design->strips;
            const double swatch = left[strip] + gsl_ran_gaussian(chance, SL_SWATCH_SPREAD);
            if (there[strip] && gsl_rng_uniform(chance) >= design->missing) {
                value[n++] = (sl_block_value){strip, v / design->strips,
                                              design->graded ? graded(fmin(fmax(swatch, 0.0), 1.0)) : swatch};
            }
        }
        sl_blocks *const test = &made[c * design->tests + k];
        sl_blocks_of(test, value, n, design->strips);
        for (int i = 0; design->graded && i < design->strips; i++) {
            test->least_sd[i] = 0.5 * sl_wipe_step(test->mean[i]);
        }
    }
}

static void count(const sl_design *design, sl_pooled *const *pool, sl_found *found)
{
    const int n = design->strips;
    bool wrong = false;
    sl_before_together(all, design->colours, room, before);
    for (int c = 0; c < design->colours; c++) {
        int place[MOST_STRIPS];
        sl_strip_places(&all[c], before + c * n * n, place);
        for (int i = 0; i < n; i++) {
            const double lean = design->graded ? sl_wipe_lean(&SL_JUDGE_USUAL, all[c].mean[i]) : 0.0;
            found->holds += fabs(all[c].mean[i] - truth[c][i]) <= pool[c]->half[i] + lean
                                ? 1.0 / (design->pools * design->colours * n)
                                : 0.0;
            found->half += pool[c]->half[i] / (design->pools * design->colours * n);
        }
        for (int i = 0; i < n * n; i++) {
            const int one = i / n, other = i % n;
            wrong = wrong || (before[c * n * n + i] && truth[c][one] >= truth[c][other]);
            found->inversions +=
                place[one] > place[other] && all[c].mean[one] < all[c].mean[other] ? 1.0 : 0.0;
        }
    }
    found->false_before += wrong ? 1.0 / design->pools : 0.0;
}

static sl_found made_up(const sl_design *design)
{
    sl_found found = {0.0, 0.0, 0.0, 0.0};
    gsl_rng_set(chance, 12);
    for (int i = 0; i < design->pools; i++) {
        sl_pooled *pool[MOST_COLOURS] = {NULL};
        for (int c = 0; c < design->colours; c++) {
            make_colour(design, c);
        }
        sl_blocks_calm(made, design->colours * design->tests);
        for (int c = 0; c < design->colours; c++) {
            ck_assert(sl_pool_make(&pool[c], made + c * design->tests, design->tests,
                                   sl_pool_prior_of(design->tests), NULL));
            all[c] = pool[c]->all;
        }
        count(design, pool, &found);
        for (int c = 0; c < design->colours; c++) {
            sl_pool_free(pool[c]);
        }
    }
    return found;
}

static void spread_words(double asked, char text[16])
{
    snprintf(text, 16, asked >= 0.0 ? "%g" : "drawn", 100.0 * asked);
}

static void print_found(const sl_design *of, const sl_found *found)
{
    char own[16], common[16];
    spread_words(of->own, own);
    spread_words(of->common, common);
    if (getenv("SLOWLIFT_TABLE")) {
        printf("| %s | %d | %d | %d | %d | %s | %s | %.0f | %.0f | %.1f | %.1f | %.1f | %.0f |\n",
               of->graded ? "grades" : "numbers", of->pools, of->tests, of->strips, of->colours, common, own,
               100.0 * of->alike, 100.0 * of->missing, 100.0 * found->half, 100.0 * found->holds,
               100.0 * found->false_before, found->inversions);
        fflush(stdout);
    }
}

static void begin(void)
{
    chance = gsl_rng_alloc(gsl_rng_mt19937);
    ck_assert_ptr_nonnull(chance);
}

static void end(void)
{
    gsl_rng_free(chance);
}

/* Of fewer than five tests an interval is right on average over what was assumed of their spread: where it is
 * less than that an interval holds the truth too often, where it is more, too seldom. Where there is none at
 * all it holds it too often, however many tests there are. */
static const sl_design designs[] = {
    {600, 2, 8, 1, DRAWN, DRAWN, 1.0, 0.0, false, 0.94, 0.96},
    {600, 3, 8, 1, DRAWN, DRAWN, 1.0, 0.0, false, 0.94, 0.96},
    {600, 2, 3, 1, DRAWN, DRAWN, 1.0, 0.0, false, 0.94, 0.96},
    {600, 4, 2, 1, DRAWN, DRAWN, 1.0, 0.0, false, 0.94, 0.96},
    {600, 2, 8, 1, 0.05, 0.05, 1.0, 0.0, false, 0.94, 1.0},
    {600, 3, 8, 1, 0.0, 0.0, 1.0, 0.0, false, 0.94, 1.0},
    {600, 2, 8, 1, 0.15, 0.15, 1.0, 0.0, false, 0.85, 0.96},
    {600, 5, 8, 1, 0.0, 0.0, 1.0, 0.0, false, 0.94, 1.0},
    {600, 5, 8, 1, 0.05, 0.05, 1.0, 0.0, false, 0.94, 0.96},
    {600, 5, 3, 1, 0.05, 0.05, 1.0, 0.0, false, 0.94, 0.97},
    {600, 5, 8, 1, 0.05, 0.15, 0.5, 0.2, false, 0.94, 0.96},
    {600, 12, 8, 1, 0.05, 0.05, 1.0, 0.0, false, 0.94, 0.96},
    {600, 12, 3, 1, 0.10, 0.10, 0.5, 0.2, false, 0.94, 0.96},
    {150, 3, 8, 7, DRAWN, DRAWN, 1.0, 0.0, false, 0.94, 0.96},
    {150, 12, 8, 7, 0.05, 0.05, 1.0, 0.0, false, 0.94, 0.96},
    {150, 3, 8, 7, 0.03, 0.03, 0.5, 0.0, true, 0.94, 1.0},
    {150, 12, 8, 7, 0.03, 0.03, 0.5, 0.1, true, 0.94, 1.0},
};

START_TEST(several_tests_hold_too_little_or_too_much_or_tell_too_often_what_is_not_so)
{
    sl_design own = designs[_i];
    const sl_design *const design = &own;
    own.pools *= getenv("SLOWLIFT_TABLE") ? 4 : 1;
    const sl_found found = made_up(design);
    print_found(design, &found);
    const double error = 3.0 * sqrt(0.05 * 0.95 / design->pools);
    ck_assert_msg(found.holds > design->least_held - error && found.holds < design->most_held + error,
                  "%d: %g", _i, found.holds);
    ck_assert_msg(found.false_before < SL_FALSE_BEFORE + error, "%d: %g", _i, found.false_before);
    ck_assert_msg(found.inversions <= 0.0, "%d: %g", _i, found.inversions);
}
END_TEST

START_SUITE("several")
FIXTURE(begin, end)
ADD_LOOP(several_tests_hold_too_little_or_too_much_or_tell_too_often_what_is_not_so, 0,
         (int)(sizeof designs / sizeof designs[0]))
END_SUITE
