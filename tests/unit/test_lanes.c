/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lanes with and without wide vectors, and what they refuse. kinetics/lanes.c is built into this suite once
 * more, as for a processor that has none, under the names below.
 */
#include <math.h>
#include <string.h>

#include "base/plain_exp.h"
#include "estimate/members.h"
#include "small_scene.h"
#include "suite.h"

bool plain_lanes_run(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
                     double cystine, const lane_members *members, int *bad_lane);

/* Against the library's in long doubles. */
START_TEST(a_plain_exp_is_exp_to_two_units_in_the_last_place)
{
    double worst = 0.0;
    for (double x = -700.0; x <= 700.0; x += 0.0107) {
        const long double wanted = expl((long double)x);
        const double unit = nextafter((double)wanted, HUGE_VAL) - (double)wanted;
        const long double off = fabsl((long double)sl_plain_exp(x, true) - wanted);
        worst = fmax(worst, (double)(off / (long double)unit));
    }
    ck_assert_double_le(worst, 2.0);
    ck_assert_double_eq(sl_plain_exp(0.0, true), 1.0);
}
END_TEST

static small_scene small;
static lane_history wide, plain;
static drawn_members drawn;

static void set_up(void)
{
    small_scene_fill(&small);
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    members_draw(&drawn, &plan, 11, 0);
}

static bool runs(lane_history *history, int arm, int *bad)
{
    return lanes_run(history, &small.scene, &small.arms[arm], 1.5, 0.85, &drawn.lanes, bad);
}

/* No contraction, so the same additions in the same order: the same bits. */
static void same_without_vectors(int arm)
{
    int bad = -1;
    ck_assert(runs(&wide, arm, &bad));
    ck_assert(plain_lanes_run(&plain, &small.scene, &small.arms[arm], 1.5, 0.85, &drawn.lanes, &bad));
    const size_t entries = (size_t)wide.steps + 1;
    ck_assert_int_gt(wide.steps, 100);
    ck_assert_int_eq(plain.steps, wide.steps);
    ck_assert_mem_eq(plain.time_min, wide.time_min, entries * sizeof wide.time_min[0]);
    ck_assert_mem_eq(plain.rim, wide.rim, entries * sizeof wide.rim[0]);
    ck_assert_mem_eq(plain.core, wide.core, entries * sizeof wide.core[0]);
    ck_assert_mem_eq(plain.cystine, wide.cystine, entries * sizeof wide.cystine[0]);
    ck_assert_mem_eq(plain.leach_min, wide.leach_min, entries * sizeof wide.leach_min[0]);
}

START_TEST(a_processor_without_wide_vectors_computes_the_same_bits)
{
    small.mixes[MIX_POWDER_3].loss_l_mol_min = assumed(0.05); /* a loss of second order */
    small.arms[ARM_6].steps[0].mix_age_min = 12.0;
    small.arms[ARM_3].steps[0].covered = false;
    for (int arm = ARM_WASHING; arm <= ARM_MILD; arm++) {
        same_without_vectors(arm);
    }
    small.scene.place = SL_PLACE_WRAPPED; /* a temperature that changes */
    same_without_vectors(ARM_6);
}
END_TEST

/* Each lane stands where the least stable of all says, and the last step ends where its phase does. */
START_TEST(a_longer_scene_than_there_are_steps_for_is_refused)
{
    int bad = -1;
    static const double until_min[] = {1440.0, 4320.0}; /* a day, and the longest that a file can ask for */
    for (int i = 0; i < 2; i++) {
        small.scene.until_min = until_min[i];
        ck_assert(runs(&wide, ARM_6, &bad));
        ck_assert_int_le(wide.steps, LANE_MOST_STEPS);
        ck_assert_double_eq(wide.time_min[wide.steps], until_min[i]);
    }
    small.scene.until_min = 20000.0;
    ck_assert(!runs(&wide, ARM_6, &bad));
    ck_assert_int_eq(bad, 0);
}
END_TEST

START_TEST(a_lane_that_leaves_its_range_is_named)
{
    int bad = -1;
    for (int lane = 0; lane < LANES; lane += 5) {
        for (int i = 0; i < 2; i++) {
            const double kept = drawn.lanes.by[SL_DOUBT_CYSTINE][lane];
            drawn.lanes.by[SL_DOUBT_CYSTINE][lane] =
                i == 0 ? -1.0 : log(-1.0); /* hair that heals; no number */
            bad = -1;
            ck_assert(!runs(&wide, ARM_6, &bad));
            ck_assert_int_eq(bad, lane);
            drawn.lanes.by[SL_DOUBT_CYSTINE][lane] = kept;
        }
    }
    ck_assert(runs(&wide, ARM_6, &bad));
    /* and in the bowl, before the mix is on any hair */
    small.arms[ARM_6].steps[0].mix_age_min = 12.0;
    drawn.lanes.by[SL_DOUBT_LOSS][7] = log(-1.0);
    bad = -1;
    ck_assert(!runs(&wide, ARM_6, &bad));
    ck_assert_int_eq(bad, 7);
}
END_TEST

START_TEST(a_minute_is_found_in_the_step_that_holds_it)
{
    int bad = -1;
    double share = -1.0;
    ck_assert(runs(&wide, ARM_6, &bad));
    ck_assert_int_eq(lanes_step_at(&wide, -3.0, &share), 0);
    ck_assert_double_eq(share, 0.0);
    const double middle = 0.25 * wide.time_min[5] + 0.75 * wide.time_min[6];
    ck_assert_int_eq(lanes_step_at(&wide, middle, &share), 5);
    ck_assert_double_eq_tol(share, 0.75, 1e-9);
    ck_assert_int_eq(lanes_step_at(&wide, 1000.0, &share), wide.steps - 1);
    ck_assert_double_eq(share, 1.0);
    /* an arm of which nothing happens has one entry: its start */
    ck_assert(runs(&wide, ARM_UNTREATED, &bad));
    ck_assert_int_eq(wide.steps, 0);
    ck_assert_int_eq(lanes_step_at(&wide, 10.0, &share), 0);
    ck_assert_double_eq(share, 0.0);
}
END_TEST

/* A fixed step is taken from the fastest rate of its phase, at its beginning or its end: warming up, cooling
 * down and as warm all along it is the same. Hair that takes up so fast that the rate decides and not the
 * longest step. */
START_TEST(a_step_is_short_enough_for_the_warmest_of_its_phase)
{
    int steps[4];
    const double from[4] = {22.0, 45.0, 45.0, 22.0}, to[4] = {45.0, 22.0, 45.0, 22.0};
    for (int i = 0; i < 4; i++) {
        int bad = -1;
        small_scene_fill(&small);
        small.arms[ARM_6].n_steps = 1;
        small.scene.until_min = 30.0; /* the mix alone */
        small.scene.n_points = 2;
        small.scene.points[0] = (sl_course_point){0.0, from[i]};
        small.scene.points[1] = (sl_course_point){30.0, to[i]};
        small.scene.chemistry.peroxide_diffusion_cm2_s.value *= 25.0;
        ck_assert(runs(&wide, ARM_6, &bad));
        steps[i] = wide.steps;
        ck_assert_double_eq(wide.time_min[wide.steps], 30.0);
    }
    ck_assert_int_gt(steps[3], 120); /* more than steps of a quarter of a minute */
    ck_assert_int_gt(steps[2], steps[3] + 50);
    ck_assert_int_eq(steps[0], steps[2]);
    ck_assert_int_eq(steps[1], steps[2]);
}
END_TEST

/* Where no rate decides a step is a quarter of a minute at most, and each phase ends where it ends. */
START_TEST(a_step_is_a_quarter_of_a_minute_at_most)
{
    int bad = -1;
    small.arms[ARM_6].steps[0].duration_min = 10.1;
    ck_assert(runs(&wide, ARM_6, &bad));
    bool at_water = false;
    for (int i = 1; i <= wide.steps; i++) {
        const double step = wide.time_min[i] - wide.time_min[i - 1];
        ck_assert(step > 0.0 && step <= 0.25 + 1e-12);
        at_water = at_water || fabs(wide.time_min[i] - 10.1) <= 0.0;
    }
    ck_assert(at_water);
    ck_assert_double_eq(wide.time_min[0], 0.0);
}
END_TEST

START_SUITE("lanes")
ADD(a_plain_exp_is_exp_to_two_units_in_the_last_place)
FIXTURE(set_up, NULL)
ADD(a_processor_without_wide_vectors_computes_the_same_bits)
ADD(a_longer_scene_than_there_are_steps_for_is_refused)
ADD(a_lane_that_leaves_its_range_is_named)
ADD(a_minute_is_found_in_the_step_that_holds_it)
ADD(a_step_is_short_enough_for_the_warmest_of_its_phase)
ADD(a_step_is_a_quarter_of_a_minute_at_most)
END_SUITE
