/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How often each word is said of the order of two strips, on thousands of made-up tests: where the truth is
 * one of the model's own members, drawn apart from those that are counted, so that what is said to be rare
 * and to lie outside the model must be so; and where in truth the two strips are even, or exchanged. Swatches
 * and grades are drawn here by GSL's generator; from the product come the members, the chance, its word, and
 * the judge's chances. Bounds allow three standard errors of the count.
 */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "estimate/members.h"
#include "slowlift/promise.h"
#include "slowlift/surprise.h"
#include "unit/ground.h"
#include "unit/small_scene.h"
#include "unit/suite.h"

enum { TESTS = 4096, WORDS = 3 };

typedef enum sl_truth { THE_MODEL, EVEN, EXCHANGED } sl_truth;
typedef struct sl_design {
    sl_truth truth;
    int minute, swatches;
    bool read;
} sl_design;

static small_scene small;
static gsl_rng *luck;
static double left[2][TESTS]; /* of the two strips at the design's minute, in members of another seed */

static void draw_truth(int minute)
{
    static drawn_members drawn;
    static lane_history history;
    const int arms[2] = {ARM_6, ARM_WASHING};
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    for (long first = 0; first < TESTS; first += LANES) {
        members_draw(&drawn, &plan, 99, first);
        for (int k = 0; k < 2; k++) {
            const sl_hair *solved = NULL;
            member_zone zone;
            int bad = 0;
            ck_assert(members_solve(&history, &solved, lanes_run_rinsed, &small.scene, &small.arms[arms[k]],
                                    &small.scene.hairs[small.scene.zones[ZONE_RED].hair], &drawn.lanes,
                                    &bad));
            member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[arms[k]], ZONE_RED,
                             &drawn);
            for (int l = 0; l < LANES; l++) {
                left[k][first + l] = member_read(&zone, &history, l, minute).left;
            }
        }
    }
}

static void begin(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    luck = gsl_rng_alloc(gsl_rng_mt19937);
}

static void end(void)
{
    gsl_rng_free(luck);
}

static double look(const sl_design *design, double truly)
{
    const double swatch = truly + gsl_ran_gaussian(luck, SL_SWATCH_SPREAD);
    double rest = gsl_rng_uniform(luck);
    for (int i = 0; !design->read && i < SL_WIPES; i++) {
        rest -= sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)i, swatch);
        if (rest <= 0.0 || i == SL_WIPES - 1) {
            return sl_wipe_share((sl_wipe)i);
        }
    }
    return swatch;
}

static double seen_of(const sl_design *design, double truly)
{
    double sum = 0.0;
    for (int i = 0; i < design->swatches; i++) {
        sum += look(design, truly);
    }
    return sum;
}

static double chance_of(const sl_design *design, int one, int other)
{
    sl_surprise *surprise = NULL;
    const sl_surprise_request asked = {.zone = ZONE_RED,
                                       .one = one,
                                       .other = other,
                                       .minute = {design->minute, design->minute},
                                       .seeing = sl_seeing_usual(design->swatches, design->read),
                                       .members = 2000,
                                       .seed = 1,
                                       .threads = 1};
    ck_assert(sl_surprise_run(&surprise, &small.scene, &asked, NULL));
    const double chance = sl_surprise_chance(surprise);
    sl_surprise_free(surprise);
    return chance;
}

static double three_errors(double share)
{
    return 3.0 * sqrt(share * (1.0 - share) / TESTS);
}

static const sl_design designs[] = {
    {THE_MODEL, 15, 1, false}, {THE_MODEL, 15, 9, false}, {THE_MODEL, 30, 1, false},
    {THE_MODEL, 30, 3, false}, {THE_MODEL, 6, 3, true},   {THE_MODEL, 15, 1, true},
    {EVEN, 15, 9, false},      {EVEN, 30, 3, false},      {EVEN, 6, 3, true},
    {EXCHANGED, 15, 9, false}, {EXCHANGED, 30, 1, false}, {EXCHANGED, 30, 3, false},
    {EXCHANGED, 6, 3, true},   {THE_MODEL, 15, 3, true},  {EXCHANGED, 15, 3, true},
};

START_TEST(a_word_is_said_more_often_than_it_says)
{
    static const char *const truths[] = {"the model", "even", "exchanged"};
    const sl_design *const design = &designs[_i];
    const double lower = chance_of(design, ARM_6, ARM_WASHING),
                 higher = chance_of(design, ARM_WASHING, ARM_6);
    double said[WORDS] = {0.0}, told = 0.0;
    draw_truth(design->minute);
    gsl_rng_set(luck, 5);
    for (int test = 0; test < TESTS; test++) {
        const double six = left[design->truth == EXCHANGED ? 1 : 0][test];
        const double washing = left[design->truth == THE_MODEL ? 1 : 0][test];
        const double seen = seen_of(design, six) - seen_of(design, washing);
        if (fabs(seen) > 1e-9) {
            said[sl_oddity_of(seen < 0.0 ? lower : higher)] += 1.0 / TESTS;
            told += seen < 0.0 ? 1.0 / TESTS : 0.0;
        }
    }
    if (getenv("SLOWLIFT_TABLE")) {
        printf("| %s | %s | %d | %d | %.1f | %.1f | %.1f | %.1f |\n", truths[design->truth],
               design->read ? "numbers" : "grades", design->minute, design->swatches, 100.0 * higher,
               100.0 * said[SL_ODD_NOISE], 100.0 * said[SL_ODD_RARE], 100.0 * said[SL_ODD_LACKS]);
        fflush(stdout);
    }
    if (design->truth == THE_MODEL) { /* what is counted is what comes, and no word is said too often */
        ck_assert_msg(fabs(told - lower) < three_errors(lower) * sqrt(1.0 + TESTS / 2000.0), "%d: %g, not %g",
                      _i, told, lower);
        ck_assert_double_le(said[SL_ODD_LACKS], SL_SURPRISE_SHARE + three_errors(SL_SURPRISE_SHARE));
        ck_assert_double_le(said[SL_ODD_LACKS] + said[SL_ODD_RARE],
                            SL_ODD_ORDINARY + three_errors(SL_ODD_ORDINARY));
        return;
    }
    ck_assert_double_lt(higher, SL_ODD_ORDINARY);
    const double odd = said[SL_ODD_LACKS] + said[SL_ODD_RARE], any = odd + said[SL_ODD_NOISE];
    if (design->truth == EXCHANGED) { /* and where it is not, it is seen */
        ck_assert_double_ge(odd, 0.75);
    } else { /* even strips: what the model does not expect is seen half the time */
        ck_assert_double_gt(any, 0.5);
        ck_assert_double_eq_tol(odd / any, 0.5, 3.0 * sqrt(0.25 / (any * TESTS)));
    }
}
END_TEST

START_SUITE("odd")
FIXTURE(begin, end)
ADD_LOOP(a_word_is_said_more_often_than_it_says, 0, (int)(sizeof designs / sizeof designs[0]))
END_SUITE
