/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits where they can be worked out on paper: one dye at the rim, attacked by peroxide alone
 * that stays as it is or dies by first order, so that what is left is
 *     exp(-k0 t)  or  exp(-k0 (1 - exp(-lambda t))/lambda), never below exp(-k0/lambda).
 *
 * Tolerance: a second, as limits.h promises; shares as in test_closed_forms.c.
 */
#include <math.h>
#include <stdlib.h>

#include "slowlift/limits.h"
#include "tools/built_scene.h"
#include "unit/suite.h"

static const double SECOND = 1.0 / 60.0;
static const double CONSTANT = 40.0; /* of the dye, L/(mol min) */

static built_scene built;
static double k0; /* pace of the colour's exponent at contact, /min */

static void set_up(void)
{
    built_arms(&built);
    built.scene.chemistry = built_still_chemistry();
    built.scene.room_c = 32.0;
    built.scene.until_min = 60.0;
    built.scene.place = SL_PLACE_BENCH;
    built.dyes[0].rim_share.value = 1.0;
    built.dyes[0].class_ = SL_DYE_CATIONIC_AZO;
    built.dyes[0].leach_per_min.value = 0.0;
    built.dyes[0].rates.k[SL_PERHYDROXYL].value = CONSTANT;
    built.zones[0] = (sl_zone){.name = "dyed", .recipe = {1, {0}, {1.0}}};
    built.zones[1] = (sl_zone){.name = "undyed"};
    built.scene.n_zones = 2;
    built.arms[0] = (sl_arm){.name = "one",
                             .n_steps = 1,
                             .steps = {{.kind = SL_STEP_APPLY,
                                        .duration_min = 60.0,
                                        .mix = BUILT_LIQUID,
                                        .mix_g_per_g = 4.0,
                                        .covered = true}}};
    built.scene.n_arms = 1;
    const sl_charge charge = sl_mix_charge(&built.mixes[BUILT_LIQUID], &built.scene.chemistry, 4.0, 0.0);
    k0 = CONSTANT * charge.peroxide_mol_l *
         sl_perhydroxyl_share(&built.scene.chemistry, built.mixes[BUILT_LIQUID].ph.value, 305.15);
}

static sl_limits limits_for(double lambda, double goal)
{
    built.mixes[BUILT_LIQUID].loss_per_min.value = lambda;
    built.scene.aims = (sl_aims){.colour_left = goal};
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &built.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    const sl_limits limits = sl_limits_of(timeline, 0, NULL);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    ck_assert(limits.asked);
    return limits;
}

START_TEST(a_steady_mix_reaches_its_goal_at_the_logarithm_over_the_rate)
{
    int seen = 0;
    for (double goal = 0.9; goal > 0.02; goal *= 0.7) {
        const double wanted = log(1.0 / goal) / k0;
        const sl_limits limits = limits_for(0.0, goal);
        ck_assert_int_eq(limits.early_reached, wanted < 60.0);
        if (limits.early_reached) {
            ck_assert_double_eq_tol(limits.early_min, wanted, SECOND);
            ck_assert(!limits.spent);
            seen++;
        }
    }
    ck_assert_int_gt(seen, 4);
}
END_TEST

START_TEST(a_dying_mix_reaches_its_goal_later_or_never)
{
    int reached = 0;
    int never = 0;
    for (double lambda = 0.02; lambda < 2.0; lambda *= 1.6) {
        for (double goal = 0.95; goal > 0.05; goal *= 0.8) {
            const double part = lambda * log(1.0 / goal) / k0; /* 1 - exp(-lambda t) */
            const double wanted = part < 1.0 ? -log1p(-part) / lambda : 61.0;
            const sl_limits limits = limits_for(lambda, goal);
            ck_assert_int_eq(limits.early_reached, wanted < 60.0);
            if (limits.early_reached) {
                ck_assert_double_eq_tol(limits.early_min, wanted, SECOND);
                reached++;
            } else {
                never++;
            }
        }
    }
    ck_assert_int_gt(reached, 10);
    ck_assert_int_gt(never, 10);
}
END_TEST

START_TEST(what_a_dead_mix_leaves_is_the_ceiling)
{
    for (double lambda = 0.5; lambda < 4.0; lambda *= 1.7) {
        const double ceiling = exp(-k0 / lambda); /* after 60 min: within exp(-30) of it */
        const sl_limits limits = limits_for(lambda, 0.5 * ceiling);
        ck_assert(!limits.early_reached);
        ck_assert_int_eq(limits.early_zone, 0);
        ck_assert_double_eq_tol(limits.left_at_end, ceiling, 1e-6);
    }
}
END_TEST

START_TEST(a_mix_is_spent_when_its_pace_is_a_twentieth)
{
    for (double lambda = 0.08; lambda < 1.0; lambda *= 1.5) {
        const sl_limits limits = limits_for(lambda, 0.5);
        ck_assert(limits.spent);
        /* the pace is taken over a tenth of a minute, which shifts peak and share alike; at a
         * twentieth of k0 a pace read from colours good to 1e-8 is good to 1e-6, far below a second */
        ck_assert_double_eq_tol(limits.spent_min, log(1.0 / SL_SPENT_PACE) / lambda, SECOND);
    }
    ck_assert(!limits_for(0.01, 0.5).spent); /* ln 20 / 0.01 is five hours */
}
END_TEST

/* Without a product layer cystine is lost by first order in the dose it meets: the limit m comes
 * where k times that dose is -ln(1 - m); with one channel at one temperature the dose is the core's. */
START_TEST(hair_stress_meets_its_limit_where_the_dose_is_the_logarithm_over_the_rate)
{
    sl_chemistry chemistry = built_chemistry();
    chemistry.cystine_layer.value = 1e12;
    for (int c = 0; c < SL_CHANNELS; c++) {
        chemistry.cystine.k[c].value = c == SL_PERHYDROXYL ? 3.0 : 0.0;
        chemistry.channel_activation_kj_mol[c].value = 0.0;
    }
    built.scene.chemistry = chemistry;
    built.mixes[BUILT_LIQUID].loss_per_min.value = 0.0;
    sl_solver *const solver = sl_solver_new(NULL);
    int met = 0;
    for (double most = 0.01; most < 0.6; most *= 1.5) {
        built.scene.aims = (sl_aims){.colour_left = 0.01, .cystine_lost = {most, true}};
        sl_timeline *timeline = NULL;
        ck_assert(sl_timeline_solve(&timeline, &built.scene, NULL, 0, solver, NULL, NULL));
        ck_assert(sl_limits_prepare(timeline, solver, NULL));
        const sl_limits limits = sl_limits_of(timeline, 0, NULL);
        if (limits.stop_reached[SL_STOP_STRESS]) {
            sl_moment before, after;
            sl_timeline_moment(sl_timeline_rinsed(timeline), 0, 1, limits.stop_min[SL_STOP_STRESS] - SECOND,
                               &before);
            sl_timeline_moment(sl_timeline_rinsed(timeline), 0, 1, limits.stop_min[SL_STOP_STRESS] + SECOND,
                               &after);
            ck_assert_double_lt(3.0 * before.core_dose[SL_PERHYDROXYL], -log1p(-most));
            ck_assert_double_gt(3.0 * after.core_dose[SL_PERHYDROXYL], -log1p(-most));
            met++;
        }
        sl_timeline_free(timeline);
    }
    ck_assert_int_gt(met, 3);
    sl_solver_free(solver);
}
END_TEST

START_SUITE("limits against closed forms")
FIXTURE(set_up, NULL)
ADD(a_steady_mix_reaches_its_goal_at_the_logarithm_over_the_rate)
ADD(a_dying_mix_reaches_its_goal_later_or_never)
ADD(what_a_dead_mix_leaves_is_the_ceiling)
ADD(a_mix_is_spent_when_its_pace_is_a_twentieth)
ADD(hair_stress_meets_its_limit_where_the_dose_is_the_logarithm_over_the_rate)
END_SUITE
