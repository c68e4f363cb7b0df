/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is told of hair beside colours, on thousands of made-up tests whose truth is drawn: levels, an
 * instrument's numbers and words together with graded colours, how often anything is told that is not so; and
 * how often the interval of what was paid at the same colour left holds the truth. Truth, scatter, looks and
 * slips are drawn here by GSL's generator; from the product come the rules and the judge's chances of a
 * grade. Bounds allow three standard errors of the count.
 */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "log/compare/hair_seen.h"
#include "unit/suite.h"

enum { MOST_COLOURS = 7, MOST_STRIPS = 8, MOST_BLOCKS = 9, HAIR = 4, ASKED = MOST_COLOURS + HAIR };

static gsl_rng *chance;
static sl_blocks asked[ASKED];
static double truth[ASKED][MOST_STRIPS];
static int counted[ASKED][MOST_STRIPS][SL_HAIR_WORDS];
static bool before[ASKED * MOST_STRIPS * MOST_STRIPS];
static sl_comparison room[ASKED * MOST_STRIPS * MOST_STRIPS];

static void begin(void)
{
    chance = gsl_rng_alloc(gsl_rng_mt19937);
    ck_assert_ptr_nonnull(chance);
}

static void end(void)
{
    gsl_rng_free(chance);
}

static double three_errors(double share, double n)
{
    return 3.0 * sqrt(share * (1.0 - share) / n);
}

static bool is_printed(void)
{
    return getenv("SLOWLIFT_TABLE") != NULL;
}

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

/* ---- anything that is not so
 * ------------------------------------------------------------------------------------------ */

typedef struct sl_hair_design {
    int tests, strips, blocks, colours;
    double alike;   /* share of strips that share one truth */
    double missing; /* share of swatches */
    double rough;   /* standard deviation of a swatch and of its look, in steps */
    double level_step;
    bool grows;   /* levels and numbers scatter by a tenth of that, and half of it for each step lifted */
    bool at_ends; /* words of strips that are not alike lie at an end of the list, where nothing scatters */
} sl_hair_design;

static const sl_hair_measure measures[HAIR] = {SL_HAIR_LEVEL, SL_HAIR_BASE, SL_HAIR_STRETCH, SL_HAIR_FEEL};

static double read_of(const sl_hair_design *design, sl_hair_measure measure, double is)
{
    const bool grows = design->grows && !sl_hair_in_words(measure);
    const double at =
        is + design->rough * (grows ? 0.1 + 0.5 * fmax(is, 0.0) : 1.0) * gsl_ran_gaussian(chance, 1.0);
    const double last = measure == SL_HAIR_STRETCH ? 3.0 : 4.0;
    if (measure == SL_HAIR_LEVEL) {
        return design->level_step * round(at / design->level_step);
    }
    if (measure == SL_HAIR_BASE) {
        return 6.0 * at; /* dE*ab */
    }
    return gsl_rng_uniform(chance) < 0.02 ? floor((last + 1.0) * gsl_rng_uniform(chance))
                                          : fmin(fmax(round(at), 0.0), last);
}

static double truth_of(const sl_hair_design *design, sl_hair_measure measure, double common)
{
    if (gsl_rng_uniform(chance) < design->alike) {
        return common;
    }
    if (design->at_ends && sl_hair_in_words(measure)) {
        return gsl_rng_uniform(chance) < 0.5 ? -2.0 : 6.0;
    }
    return 4.0 * gsl_rng_uniform(chance) - 0.5;
}

static void make_hair(const sl_hair_design *design, int at, sl_hair_measure measure)
{
    sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
    const double common = 4.0 * gsl_rng_uniform(chance) - 0.5;
    int n = 0;
    memset(counted[at], 0, sizeof counted[at]);
    for (int i = 0; i < design->strips; i++) {
        truth[at][i] = truth_of(design, measure, common);
    }
    for (int block = 0; block < design->blocks; block++) {
        const double together = gsl_ran_gaussian(chance, 0.2);
        for (int i = 0; i < design->strips; i++) {
            const double read = read_of(design, measure, truth[at][i] + together);
            if (gsl_rng_uniform(chance) >= design->missing) {
                value[n++] = (sl_block_value){i, block, read};
                counted[at][i][sl_hair_in_words(measure) ? (int)read : 0]++;
            }
        }
    }
    sl_hair_blocks(&asked[at], measure, value, n, design->strips);
}

static void make_colour(const sl_hair_design *design, int at)
{
    sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
    const double common = gsl_rng_uniform(chance);
    for (int i = 0; i < design->strips; i++) {
        truth[at][i] = gsl_rng_uniform(chance) < design->alike ? common : gsl_rng_uniform(chance);
    }
    for (int k = 0; k < design->strips * design->blocks; k++) {
        const double is = truth[at][k % design->strips];
        const double left = is + 4.0 * is * (1.0 - is) * gsl_ran_gaussian(chance, 0.05);
        value[k] = (sl_block_value){k % design->strips, k / design->strips, graded(left)};
    }
    sl_blocks_of(&asked[at], value, design->strips * design->blocks, design->strips);
    for (int i = 0; i < design->strips; i++) {
        asked[at].least_sd[i] = 0.5 * sl_wipe_step(asked[at].mean[i]);
    }
}

/* Whether anything is told that is not so, and what share of hair's true differences of two steps and more.
 */
static bool is_wrong(const sl_hair_design *design, double *told, double *there)
{
    const int n = design->strips;
    bool wrong = false;
    for (int c = 0; c < design->colours; c++) {
        make_colour(design, c);
    }
    for (int h = 0; h < HAIR; h++) {
        make_hair(design, design->colours + h, measures[h]);
    }
    for (int h = 0; h < HAIR; h++) {
        asked[design->colours + h].beside = true;
    }
    sl_blocks_calm(asked, design->colours);
    sl_before_together(asked, design->colours + HAIR, room, before);
    for (int k = 0; k < (design->colours + HAIR) * n * n; k++) {
        const int at = k / (n * n), one = k / n % n, other = k % n, h = at - design->colours;
        const bool held = before[k] && (h < 0 || !sl_hair_in_words(measures[h]) ||
                                        sl_said_before(counted[at][one], counted[at][other], SL_HAIR_WORDS));
        const bool is_there = h >= 0 && truth[at][one] + 2.0 <= truth[at][other];
        wrong = wrong || (held && truth[at][one] >= truth[at][other]);
        *there += is_there ? 1.0 : 0.0;
        *told += is_there && held ? 1.0 : 0.0;
    }
    return wrong;
}

static const sl_hair_design designs[] = {
    {3000, 8, 3, 7, 1.0, 0.0, 0.3, 0.5, false, false}, {3000, 8, 3, 7, 0.5, 0.0, 0.3, 1.0, false, false},
    {3000, 8, 3, 1, 1.0, 0.0, 0.6, 0.5, false, false}, {3000, 8, 3, 1, 0.5, 0.0, 0.6, 1.0, false, true},
    {3000, 4, 3, 1, 0.5, 0.0, 1.0, 0.5, false, true},  {3000, 3, 9, 1, 0.7, 0.0, 0.6, 0.5, false, true},
    {3000, 8, 3, 3, 0.5, 0.2, 0.6, 0.5, false, false}, {3000, 2, 3, 1, 1.0, 0.0, 0.6, 0.5, false, false},
    {3000, 8, 9, 3, 0.3, 0.0, 0.6, 0.5, false, true},  {3000, 8, 9, 3, 0.3, 0.0, 0.6, 0.5, true, true},
    {3000, 4, 3, 1, 0.5, 0.0, 1.0, 0.5, true, true},
};

START_TEST(too_often_something_of_hair_or_colour_is_told_that_is_not_so)
{
    const sl_hair_design *const of = &designs[_i];
    double wrong = 0.0, told = 0.0, there = 0.0;
    gsl_rng_set(chance, 21);
    for (int test = 0; test < of->tests; test++) {
        wrong += is_wrong(of, &told, &there) ? 1.0 / of->tests : 0.0;
    }
    if (is_printed()) {
        printf("| %d | %d | %d | %d | %.0f | %.0f | %g | %g | %s | %s | %.1f | %.0f |\n", of->tests,
               of->strips, of->blocks, of->colours, 100.0 * of->alike, 100.0 * of->missing, of->rough,
               of->level_step, of->grows ? "yes" : "no", of->at_ends ? "yes" : "no", 100.0 * wrong,
               there > 0.0 ? 100.0 * told / there : 0.0);
        fflush(stdout);
    }
    ck_assert_msg(wrong < SL_FALSE_BEFORE + three_errors(SL_FALSE_BEFORE, of->tests), "%d: %g", _i, wrong);
}
END_TEST

/* ---- the same colour left
 * --------------------------------------------------------------------------------------------- */

typedef enum sl_bend { STRAIGHT, EARLY, LATE } sl_bend; /* base over ln(colour left): power 1, 0.7, 1.5 */
typedef struct sl_meeting_design {
    int tests, strips, blocks, looks; /* looks: on the way and at the end; 1: the end alone */
    bool alike, by_instrument; /* strips pay alike; base is read by an instrument, else by half levels */
    sl_bend bend;
} sl_meeting_design;

/* Levels lifted when so much is left. */
static double paid_when(const sl_meeting_design *design, double price, double left)
{
    const double power = design->bend == STRAIGHT ? 1.0 : design->bend == EARLY ? 0.7 : 1.5;
    return price * pow(-log(left) / 2.3, power);
}

/* One test: at half left, where a swatch was that near. */
static void make_meeting(const sl_meeting_design *design, double left, sl_blocks *blocks, double *price,
                         double *lean)
{
    const sl_hair_measure measure = design->by_instrument ? SL_HAIR_BASE : SL_HAIR_LEVEL;
    const double unit = design->by_instrument ? 6.0 : 1.0, apart = 0.5 * sl_wipe_step(left);
    double speed[MOST_STRIPS];
    sl_block_value value[MOST_STRIPS * MOST_BLOCKS];
    int n = 0;
    for (int i = 0; i < design->strips; i++) {
        price[i] = design->alike ? 2.0 : 0.5 + 3.0 * gsl_rng_uniform(chance);
        speed[i] =
            design->looks > 1 ? 1.0 + 2.0 * gsl_rng_uniform(chance) : 0.8 + 0.4 * gsl_rng_uniform(chance);
    }
    for (int block = 0; block < design->blocks; block++) {
        const double together = gsl_ran_gaussian(chance, 0.1);
        for (int i = 0; i < design->strips; i++) {
            sl_paid_look look[8];
            const double own = speed[i] * exp(gsl_ran_gaussian(chance, 0.1));
            const double off = together + gsl_ran_gaussian(chance, 0.15);
            for (int k = 0; k < design->looks; k++) {
                const double is =
                    exp(log(left) * own * (design->looks > 1 ? (k + 1.0) / design->looks : 1.0));
                const double at =
                    unit * (paid_when(design, price[i], is) + off + gsl_ran_gaussian(chance, 0.15));
                look[k] = (sl_paid_look){graded(is), design->by_instrument ? at : 0.5 * round(2.0 * at)};
            }
            double slope = 0.0;
            const double read = sl_paid_at(look, design->looks, left, apart, true, &slope);
            if (read > SL_NOT_READ) {
                lean[i] += 0.25 * fabs(slope) * apart / left;
                value[n++] = (sl_block_value){i, block, read};
            }
        }
    }
    sl_hair_blocks(blocks, measure, value, n, design->strips);
    for (int i = 0; i < design->strips; i++) {
        price[i] = unit * paid_when(design, price[i], left);
        lean[i] /= fmax(blocks->n[i], 1.0);
    }
}

static const sl_meeting_design meetings[] = {
    {3000, 4, 3, 4, false, false, STRAIGHT}, {3000, 4, 3, 4, false, true, STRAIGHT},
    {3000, 4, 3, 4, true, true, EARLY},      {3000, 4, 3, 4, true, true, LATE},
    {3000, 4, 3, 2, false, true, LATE},      {3000, 4, 9, 4, false, true, LATE},
    {3000, 8, 3, 4, false, false, EARLY},    {3000, 4, 3, 1, false, false, STRAIGHT},
    {3000, 4, 3, 1, false, true, STRAIGHT},  {3000, 4, 9, 1, true, true, LATE},
};

START_TEST(what_was_paid_at_the_same_colour_left_holds_the_truth_too_seldom)
{
    static const char *const bends[] = {"straight", "early", "late"};
    const sl_meeting_design *const of = &meetings[_i];
    double held = 0.0, pairs = 0.0, sum = 0.0;
    gsl_rng_set(chance, 22);
    for (int test = 0; test < of->tests; test++) {
        sl_blocks blocks;
        double price[MOST_STRIPS], lean[MOST_STRIPS] = {0.0};
        make_meeting(of, test % 2 == 0 ? 0.5 : 0.25, &blocks, price, lean);
        for (int one = 0; one < of->strips; one++) {
            for (int other = one + 1; other < of->strips; other++) {
                const double alone = sl_blocks_apart_half(&blocks, one, other, 0.95);
                const double half = alone >= 0.0 ? alone + lean[one] + lean[other] : -1.0;
                const double apart = blocks.mean[one] - blocks.mean[other];
                const double off = apart - price[one] + price[other];
                pairs += half >= 0.0 ? 1.0 : 0.0;
                held += half >= 0.0 && fabs(off) <= half ? 1.0 : 0.0;
                sum += half >= 0.0 ? half : 0.0;
            }
        }
    }
    if (is_printed()) {
        printf("| %d | %d | %d | %d | %s | %s | %s | %.1f | %.2f |\n", of->tests, of->strips, of->blocks,
               of->looks, of->by_instrument ? "instrument" : "half levels", of->alike ? "yes" : "no",
               bends[of->bend], 100.0 * held / pairs, sum / pairs);
        fflush(stdout);
    }
    ck_assert_msg(held / pairs >= 0.94 - three_errors(0.06, of->tests), "%d: %g", _i, held / pairs);
}
END_TEST

START_SUITE("told of hair")
FIXTURE(begin, end)
ADD_LOOP(too_often_something_of_hair_or_colour_is_told_that_is_not_so, 0,
         (int)(sizeof designs / sizeof designs[0]))
ADD_LOOP(what_was_paid_at_the_same_colour_left_holds_the_truth_too_seldom, 0,
         (int)(sizeof meetings / sizeof meetings[0]))
END_SUITE
