/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is told of swatches, on thousands of made-up tests whose truth is drawn: how often an interval holds
 * it, how often something is told that is not so, and how often a promised difference is told. Truth, scatter
 * and grades are drawn here by GSL's generator; from the product come the rules and the judge's chances
 * (observation.h). Bounds allow three standard errors of the count beside what is asked for: 94 to 96 in 100,
 * at most 5 in 100, and 3 points.
 */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/blocks.h"
#include "slowlift/graded.h"
#include "slowlift/observation.h"
#include "slowlift/promise.h"
#include "unit/suite.h"

enum { HAIR = 3 }; /* measures of hair, where a test reads any */
enum { MOST_COLOURS = 7 + HAIR, MOST_STRIPS = 8, MOST_BLOCKS = 9, TENTHS = 10 };

typedef enum sl_way { BY_NUMBER, BY_GRADE, BY_ORDER } sl_way; /* means of either, or graded.h */
typedef struct sl_design {
    sl_way way;
    int tests, strips, blocks, colours;
    double alike;     /* share of strips that share one truth */
    double missing;   /* share of swatches */
    double of_block;  /* standard deviations: what a block has in common, */
    double of_swatch; /* and all colours of a swatch */
    int looks;        /* at each swatch */
} sl_design;

typedef struct sl_found {
    double holds, false_before, inversions;
    double held[TENTHS], n[TENTHS]; /* by true share */
} sl_found;

static gsl_rng *chance;
static sl_blocks colour[MOST_COLOURS];
static sl_graded_look look[MOST_COLOURS][MOST_STRIPS * MOST_BLOCKS * SL_WIPES];
static sl_graded_colour looked[MOST_COLOURS];
static double truth[MOST_COLOURS][MOST_STRIPS];
static bool before[MOST_COLOURS * MOST_STRIPS * MOST_STRIPS];
static sl_comparison room[MOST_COLOURS * MOST_STRIPS * MOST_STRIPS];

static sl_wipe graded(double left)
{
    double rest = gsl_rng_uniform(chance);
    int i = 0;
    while (i < SL_WIPES - 1 && (rest -= sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)i, left)) > 0.0) {
        i++;
    }
    return (sl_wipe)i;
}

/* Looks at a swatch of which so much is left: their mean; to `to`, each grade with how many gave it. */
static double look_at(double left, int looks, sl_graded_look swatch, sl_graded_look *to, int *n)
{
    double many[SL_WIPES] = {0.0}, mean = 0.0;
    for (int i = 0; i < looks; i++) {
        const sl_wipe wipe = graded(left);
        many[wipe] += 1.0;
        mean += sl_wipe_share(wipe) / looks;
    }
    for (int i = 0; i < SL_WIPES; i++) {
        if (many[i] > 0.0) {
            swatch.wipe = (sl_wipe)i;
            swatch.many = many[i];
            to[(*n)++] = swatch;
        }
    }
    return mean;
}

/* Of a share: nothing scatters where all or nothing is left, so that a strip's truth is its swatches' mean.
 */
static double room_of(const sl_design *design, double left)
{
    return design->way == BY_NUMBER ? 1.0 : 4.0 * left * (1.0 - left);
}

static void make_colour(const sl_design *design, int c, const double *swatch)
{
    sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
    const double common = gsl_rng_uniform(chance);
    int n = 0, looks = 0;
    for (int i = 0; i < design->strips; i++) {
        truth[c][i] = gsl_rng_uniform(chance) < design->alike ? common : gsl_rng_uniform(chance);
    }
    for (int block = 0; block < design->blocks; block++) {
        const double together = gsl_ran_gaussian(chance, design->of_block);
        for (int i = 0; i < design->strips; i++) {
            const double off =
                together + swatch[block * design->strips + i] + gsl_ran_gaussian(chance, SL_SWATCH_SPREAD);
            const double left = truth[c][i] + room_of(design, truth[c][i]) * off;
            const sl_graded_look one = {
                .swatch = block * design->strips + i, .strip = i, .block = block, .judge = &SL_JUDGE_USUAL};
            if (gsl_rng_uniform(chance) >= design->missing) {
                value[n++] = (sl_block_value){
                    i, block,
                    design->way == BY_NUMBER ? left : look_at(left, design->looks, one, look[c], &looks)};
            }
        }
    }
    sl_blocks_of(&colour[c], value, n, design->strips);
    looked[c] = (sl_graded_colour){look[c], looks, colour[c].blocked};
}

static void count_intervals(const sl_design *design, int c, sl_found *found)
{
    for (int i = 0; i < design->strips; i++) {
        const double mean = colour[c].mean[i], half = sl_blocks_half(&colour[c], i, 0.95);
        const double lean = design->way == BY_GRADE ? sl_wipe_lean(&SL_JUDGE_USUAL, mean) : 0.0;
        const double at = design->way == BY_ORDER ? sqrt(truth[c][i]) : truth[c][i];
        const int tenth = (int)(TENTHS * truth[c][i]);
        if (half >= 0.0) {
            found->n[tenth]++;
            found->held[tenth] += fabs(mean - at) <= half + lean ? 1.0 : 0.0;
        }
    }
}

static void count_told(const sl_design *design, sl_found *found)
{
    const int n = design->strips;
    bool wrong = false;
    if (design->way != BY_ORDER) {
        sl_blocks_calm(colour, design->colours);
    }
    sl_before_together(colour, design->colours, room, before);
    for (int c = 0; c < design->colours; c++) {
        int place[MOST_STRIPS];
        sl_strip_places(&colour[c], before + c * n * n, place);
        for (int i = 0; i < n * n; i++) {
            const int one = i / n, other = i % n;
            wrong = wrong || (before[c * n * n + i] && truth[c][one] >= truth[c][other]);
            found->inversions += place[one] > 0 && place[other] > 0 && place[one] > place[other] &&
                                         colour[c].mean[one] < colour[c].mean[other]
                                     ? 1.0
                                     : 0.0;
        }
    }
    found->false_before += wrong ? 1.0 / design->tests : 0.0;
}

static sl_found made_up(const sl_design *design)
{
    sl_found found = {0.0, 0.0, 0.0, {0.0}, {0.0}};
    double held = 0.0, n = 0.0;
    gsl_rng_set(chance, 20);
    for (int test = 0; test < design->tests; test++) {
        double swatch[MOST_STRIPS * MOST_BLOCKS];
        for (int i = 0; i < design->strips * design->blocks; i++) {
            swatch[i] = gsl_ran_gaussian(chance, design->of_swatch);
        }
        for (int c = 0; c < design->colours; c++) {
            make_colour(design, c, swatch);
            for (int i = 0; design->way == BY_GRADE && i < design->strips; i++) {
                colour[c].least_sd[i] = 0.5 * sl_wipe_step(colour[c].mean[i]);
            }
        }
        sl_graded_scatter scatter[MOST_COLOURS];
        ck_assert(design->way != BY_ORDER ||
                  sl_graded_of(colour, scatter, looked, design->colours, design->strips, NULL));
        for (int c = 0; c < design->colours; c++) {
            count_intervals(design, c, &found);
        }
        count_told(design, &found);
    }
    for (int i = 0; i < TENTHS; i++) {
        held += found.held[i];
        n += found.n[i];
    }
    found.holds = held / n;
    return found;
}

static bool is_printed(void)
{
    return getenv("SLOWLIFT_TABLE") != NULL;
}

static void print_found(const sl_design *of, const sl_found *found)
{
    double least = 1.0;
    for (int i = 0; i < TENTHS; i++) {
        least = fmin(least, found->held[i] / found->n[i]);
    }
    if (is_printed()) {
        printf("| %s | %d | %d | %d | %d | %d | %.0f | %.0f | %g | %g | %.1f | %.1f | %.1f | %.0f |\n",
               of->way == BY_ORDER   ? "grades, by their order"
               : of->way == BY_GRADE ? "grades"
                                     : "numbers",
               of->tests, of->strips, of->blocks, of->colours, of->looks, 100.0 * of->alike,
               100.0 * of->missing, 100.0 * of->of_block, 100.0 * of->of_swatch, 100.0 * found->holds,
               100.0 * least, 100.0 * found->false_before, found->inversions);
        fflush(stdout);
    }
}

static double three_errors(double share, double n)
{
    return 3.0 * sqrt(share * (1.0 - share) / n);
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

/* ---- one scatter, numbers
 * -------------------------------------------------------------------------------------- */

static const sl_design numbers[] = {
    {BY_NUMBER, 10000, 8, 3, 1, 1.0, 0.0, 0.0, 0.0, 1},  {BY_NUMBER, 10000, 8, 3, 1, 1.0, 0.0, 0.03, 0.0, 1},
    {BY_NUMBER, 10000, 4, 3, 1, 0.5, 0.0, 0.05, 0.0, 1}, {BY_NUMBER, 10000, 8, 3, 1, 1.0, 0.2, 0.03, 0.0, 1},
    {BY_NUMBER, 3000, 8, 3, 7, 1.0, 0.0, 0.03, 0.0, 1},  {BY_NUMBER, 3000, 8, 3, 7, 1.0, 0.0, 0.03, 0.1, 1},
    {BY_NUMBER, 3000, 3, 3, 7, 0.7, 0.1, 0.03, 0.0, 1},
};

START_TEST(an_interval_holds_too_little_or_too_much_or_too_often_something_false_is_told)
{
    const sl_design *const design = &numbers[_i];
    const sl_found found = made_up(design);
    print_found(design, &found);
    const double n = design->tests; /* strips of a test share their scatter: tests are what is independent */
    ck_assert_msg(found.holds > 0.94 - three_errors(0.05, n) && found.holds < 0.96 + three_errors(0.05, n),
                  "%d: %g", _i, found.holds);
    ck_assert_msg(found.false_before < SL_FALSE_BEFORE + three_errors(SL_FALSE_BEFORE, n), "%d: %g", _i,
                  found.false_before);
    ck_assert_msg(found.inversions <= 0.0, "%d: %g", _i, found.inversions);
}
END_TEST

/* ---- grades
 * ------------------------------------------------------------------------------------------------------ */

static const sl_design grades[] = {
    {BY_GRADE, 2000, 8, 3, 7, 1.0, 0.0, 0.03, 0.0, 1}, {BY_GRADE, 2000, 8, 3, 7, 0.5, 0.0, 0.03, 0.0, 1},
    {BY_GRADE, 2000, 8, 9, 3, 0.5, 0.0, 0.03, 0.0, 1}, {BY_GRADE, 5000, 3, 3, 1, 1.0, 0.0, 0.03, 0.0, 1},
    {BY_GRADE, 5000, 2, 3, 1, 1.0, 0.0, 0.03, 0.0, 1}, {BY_GRADE, 2000, 8, 3, 7, 0.5, 0.2, 0.03, 0.05, 1},
    {BY_ORDER, 1000, 8, 3, 7, 1.0, 0.0, 0.03, 0.0, 1}, {BY_ORDER, 1000, 8, 3, 7, 0.5, 0.2, 0.03, 0.05, 1},
    {BY_ORDER, 1000, 8, 3, 7, 1.0, 0.0, 0.03, 0.1, 1}, {BY_ORDER, 1000, 8, 9, 3, 0.5, 0.0, 0.03, 0.0, 1},
    {BY_ORDER, 1000, 8, 2, 7, 1.0, 0.0, 0.03, 0.0, 1}, {BY_ORDER, 2000, 4, 5, 3, 0.7, 0.0, 0.05, 0.05, 1},
    {BY_ORDER, 4000, 3, 3, 1, 1.0, 0.0, 0.03, 0.0, 1}, {BY_ORDER, 4000, 2, 3, 1, 1.0, 0.0, 0.03, 0.0, 1},
    {BY_ORDER, 500, 4, 3, 3, 1.0, 0.0, 0.03, 0.0, 5},
};

START_TEST(grades_hold_too_little_or_too_often_something_false_is_told)
{
    const sl_design *const design = &grades[_i];
    const sl_found found = made_up(design);
    print_found(design, &found);
    ck_assert_msg(found.holds >= 0.94, "%d: %g", _i, found.holds);
    for (int i = 0; i < TENTHS; i++) {
        ck_assert_msg(found.held[i] / found.n[i] >= 0.90 - three_errors(0.1, found.n[i]), "%d, tenth %d: %g",
                      _i, i, found.held[i] / found.n[i]);
    }
    ck_assert_msg(found.false_before < SL_FALSE_BEFORE + three_errors(SL_FALSE_BEFORE, design->tests),
                  "%d: %g", _i, found.false_before);
    ck_assert_msg(found.inversions <= 0.0, "%d: %g", _i, found.inversions);
}
END_TEST

/* ---- what a plan promises
 * ------------------------------------------------------------------------------------------ */

static const sl_promise_asked plans[] = {
    {8, 3, 7, true, 0.05, false},  {8, 9, 7, true, 0.05, false},  {4, 3, 4, true, 0.05, false},
    {3, 3, 1, true, 0.05, false},  {2, 3, 1, true, 0.05, false},  {8, 3, 7, false, 0.05, false},
    {8, 9, 7, false, 0.05, false}, {4, 5, 4, false, 0.10, false}, {2, 9, 1, false, 0.05, false},
    {8, 3, 7, true, 0.05, true},   {8, 3, 7, false, 0.05, true},
};

START_TEST(a_promised_difference_is_told_less_or_more_often)
{
    enum { TESTS = 2500 };
    const sl_promise_asked *const plan = &plans[_i];
    double apart = 0.0, told = 0.0;
    ck_assert(sl_promise_make(&apart, plan, SL_PROMISED, NULL) && apart > 0.0);
    gsl_rng_set(chance, 8);
    for (int test = 0; test < TESTS; test++) {
        for (int c = 0; c < plan->colours; c++) {
            sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
            for (int i = 0; i < plan->strips * plan->blocks; i++) {
                const int strip = i % plan->strips;
                const double left = 0.5 +
                                    (c > 0 || strip > 1 ? 0.0
                                     : strip == 0       ? -0.5 * apart
                                                        : 0.5 * apart) +
                                    gsl_ran_gaussian(chance, plan->spread);
                value[i] = (sl_block_value){strip, i / plan->strips,
                                            plan->graded ? sl_wipe_share(graded(left)) : left};
            }
            sl_blocks_of(&colour[c], value, plan->strips * plan->blocks, plan->strips);
            for (int i = 0; plan->graded && i < plan->strips; i++) {
                colour[c].least_sd[i] = 0.5 * sl_wipe_step(colour[c].mean[i]);
            }
        }
        sl_blocks_calm(colour, plan->colours);
        const int hair = plan->hair ? HAIR : 0;
        for (int m = 0; m < hair; m++) { /* alike in all strips */
            sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
            for (int i = 0; i < plan->strips * plan->blocks; i++) {
                value[i] =
                    (sl_block_value){i % plan->strips, i / plan->strips, gsl_ran_gaussian(chance, 1.0)};
            }
            sl_blocks_of(&colour[plan->colours + m], value, plan->strips * plan->blocks, plan->strips);
            colour[plan->colours + m].beside = true;
        }
        sl_before_together(colour, plan->colours + hair, room, before);
        told += before[1] ? 1.0 / TESTS : 0.0; /* 0 before 1, in the first colour */
    }
    if (is_printed()) {
        printf("| %s | %d | %d | %d | %s | %g | %.1f | %.1f |\n", plan->graded ? "grades" : "numbers",
               plan->strips, plan->blocks, plan->colours, plan->hair ? "yes" : "no", 100.0 * plan->spread,
               100.0 * apart, 100.0 * told);
        fflush(stdout);
    }
    ck_assert_msg(fabs(told - SL_PROMISED) < 0.03, "%d: %g apart, told in %g", _i, apart, told);
}
END_TEST

/* By the noncentral t distribution (scipy 1.10, stats.nct; two strips alone, so that nothing else counts): 80
 * of 100 two-sided tests at 5 in 100 tell 0.0754461 of nine blocks, scatter 0.05, and 0.2308027 of three. */
START_TEST(a_promise_is_not_that_of_the_noncentral_t)
{
    double apart = 0.0;
    ck_assert(sl_promise_make(&apart, &(sl_promise_asked){2, 9, 1, false, 0.05, false}, 0.8, NULL));
    ck_assert_double_eq_tol(apart, 0.0754461, 0.002);
    ck_assert(sl_promise_make(&apart, &(sl_promise_asked){2, 3, 1, false, 0.05, false}, 0.8, NULL));
    ck_assert_double_eq_tol(apart, 0.2308027, 0.005);
}
END_TEST

/* As many repeats as are proposed tell the difference in 8 of 10 tests, and one fewer do not (3 points). */
START_TEST(more_or_fewer_repeats_are_proposed_than_a_difference_takes)
{
    static const struct {
        sl_promise_asked plan;
        double difference;
    } wanted[] = {{{8, 0, 7, false, 0.05, false}, 0.15},
                  {{4, 0, 4, true, 0.05, false}, 0.45},
                  {{2, 0, 1, false, 0.05, false}, 0.10}};
    for (int i = 0; i < 3; i++) {
        sl_promise_asked plan = wanted[i].plan;
        double apart = 0.0;
        int blocks = 0;
        ck_assert(sl_promise_blocks(&blocks, &plan, wanted[i].difference, SL_PROMISED, 12, NULL));
        ck_assert_msg(blocks > 2 && blocks < 12, "%d: %d", i, blocks);
        plan.blocks = blocks;
        ck_assert(sl_promise_make(&apart, &plan, SL_PROMISED, NULL));
        ck_assert_double_le(apart, wanted[i].difference + 0.003);
        plan.blocks = blocks - 1;
        ck_assert(sl_promise_make(&apart, &plan, SL_PROMISED, NULL));
        ck_assert_double_gt(apart, wanted[i].difference - 0.003);
        ck_assert(sl_promise_blocks(&blocks, &plan, 0.01, SL_PROMISED, 3, NULL));
        ck_assert_int_eq(blocks, -1);
    }
}
END_TEST

START_TEST(something_is_promised_of_what_cannot_be_told)
{
    static const sl_promise_asked nothing[] = {{8, 1, 7, true, 0.05, false},
                                               {1, 3, 7, false, 0.05, false},
                                               {8, 3, 0, true, 0.05, false},
                                               {3, 2, 1, true, 0.5, false}};
    for (int i = 0; i < 4; i++) {
        double apart = 0.0;
        ck_assert(sl_promise_make(&apart, &nothing[i], 0.8, NULL));
        ck_assert_double_eq(apart, -1.0);
    }
}
END_TEST

START_SUITE("told")
FIXTURE(begin, end)
ADD_LOOP(an_interval_holds_too_little_or_too_much_or_too_often_something_false_is_told, 0,
         (int)(sizeof numbers / sizeof numbers[0]))
ADD_LOOP(grades_hold_too_little_or_too_often_something_false_is_told, 0,
         (int)(sizeof grades / sizeof grades[0]))
CASE("promises")
FIXTURE(begin, end)
ADD_LOOP(a_promised_difference_is_told_less_or_more_often, 0, (int)(sizeof plans / sizeof plans[0]))
ADD(a_promise_is_not_that_of_the_noncentral_t)
ADD(more_or_fewer_repeats_are_proposed_than_a_difference_takes)
ADD(something_is_promised_of_what_cannot_be_told)
END_SUITE
