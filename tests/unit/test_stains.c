/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dye that washing brings out of one zone and leaves on the next (docs/science.md, "Stains").
 */
#include <math.h>

#include "slowlift/timeline.h"
#include "small_scene.h"
#include "suite.h"

enum { TIMES = 61 };
static const double SHARE = 0.3; /* large, so that errors show */

static small_scene small;

static const double LOOSE[] = {0.0, 0.4}; /* of it, the share that is held loosely */
enum { LOOSES = sizeof LOOSE / sizeof LOOSE[0] };

static void fill(void)
{
    small_scene_fill(&small);
    for (int i = 1; i < SMALL_DYES; i++) { /* the oxidative one stains nothing */
        small.dyes[i].stain_share = assumed(SHARE);
    }
}

static sl_timeline *solve(const sl_scene *scene, const sl_optics *optics)
{
    double times[TIMES];
    for (int i = 0; i < TIMES; i++) {
        times[i] = i;
    }
    sl_error error = {0};
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert_msg(sl_timeline_solve(&timeline, scene, times, TIMES, solver, optics, &error), "%s: %s",
                  sl_code_name(error.code), error.found);
    sl_solver_free(solver);
    return timeline;
}

/* Without oxidants everything that is gone was washed out, and its share settled. */
START_TEST(a_strip_that_is_only_washed_stains_by_what_it_lost)
{
    fill();
    sl_timeline *const timeline = solve(&small.scene, NULL);
    for (int t = 0; t < TIMES; t += 10) {
        const sl_cell *const giver = sl_timeline_cell(timeline, ARM_WASHING, ZONE_MIXED, t);
        const sl_cell *const cell = sl_timeline_cell(timeline, ARM_WASHING, ZONE_UNDYED, t);
        double lost = 0.0;
        for (int i = 0; i < 2; i++) {
            const double gone = 1.0 - giver->amounts.dye_left[i];
            ck_assert_double_eq_tol(giver->loosened[i], gone, 1e-12);
            lost += 0.5 * SHARE * gone;
            if (t > 0) {
                ck_assert_int_eq(cell->amounts.n_stains, 2);
                ck_assert_int_eq(cell->amounts.stain_dye[i], small.zones[ZONE_MIXED].recipe.dye[i]);
                ck_assert_double_eq_tol(cell->amounts.stain[i], SHARE * gone, 1e-12);
            }
        }
        /* red at 520 and blue at 620 nm have bands of one width in nm: areas alike to 1 % */
        ck_assert_double_eq_tol(cell->stain, lost, 0.01 * lost + 1e-300);
    }
    sl_timeline_free(timeline);
}
END_TEST

/* What settles between two moments is what was washed out between them; what has settled
 * meets the rim's oxidants, as what is still in the hair meets those of its own place. Exact
 * for steps short enough that their order inside one does not matter. */
static double settled_step_by_step(const sl_timeline *timeline, int arm, const sl_dye *dye, bool from_core,
                                   double until)
{
    const double step = 0.005;
    double settled = 0.0;
    sl_moment before, after;
    sl_timeline_moment(timeline, arm, ZONE_VIOLET, 0.0, &before);
    for (double t = step; t < until + 0.5 * step; t += step) {
        sl_timeline_moment(timeline, arm, ZONE_VIOLET, t, &after);
        double rim = 0.0, place = 0.0, rim_before = 0.0;
        for (int c = 0; c < SL_CHANNELS; c++) {
            const double k = dye->rates.k[c].value;
            rim += k * after.rim_dose[c];
            rim_before += k * before.rim_dose[c];
            place += 0.5 * k *
                     (from_core ? before.core_dose[c] + after.core_dose[c]
                                : before.rim_dose[c] + after.rim_dose[c]);
        }
        const double slow = from_core ? 0.25 : 1.0;
        const double leach = dye->leach_per_min.value, shampoo = dye->shampoo_loss.value;
        const double share = dye->loose_share.value, loose = dye->loose_loss.value;
        double out = 0.0; /* of the part that is held and of the loose one */
        for (int part = 0; part < 2; part++) {
            const double of = part > 0 ? share : 1.0 - share;
            const double each = part > 0 ? loose : shampoo;
            out += of * exp(-place) *
                   (exp(-slow * (leach * before.leach_min + each * before.shampoos)) -
                    exp(-slow * (leach * after.leach_min + each * after.shampoos)));
        }
        settled = settled * exp(rim_before - rim) + out * exp(0.5 * (rim_before - rim));
        before = after;
    }
    return settled;
}

/* With violet in one place, and so much of it held loosely. */
static sl_timeline *solved_with(double rim_share, double loose_share)
{
    fill();
    small.dyes[2].rim_share = assumed(rim_share);
    small.dyes[2].loose_share = assumed(loose_share);
    small.dyes[2].loose_loss = assumed(1.2);
    return solve(&small.scene, NULL);
}

/* 0.005 min apart, errors go with the square of the step; the doses rise by 1e-3 in one. */
START_TEST(dye_from_the_rim_settles_as_step_by_step)
{
    static const int arms[] = {ARM_WASHING, ARM_WATER, ARM_6, ARM_MILD};
    static const double until[] = {10.0, 30.0, 45.0};
    sl_timeline *const timeline[LOOSES] = {solved_with(1.0, LOOSE[0]), solved_with(1.0, LOOSE[1])};
    for (int a = 0; a < 4 * LOOSES; a++) {
        small.dyes[2].loose_share = assumed(LOOSE[a / 4]);
        for (int i = 0; i < 3; i++) {
            const sl_cell *const cell =
                sl_timeline_cell(timeline[a / 4], arms[a % 4], ZONE_VIOLET, (int)until[i]);
            ck_assert_double_eq_tol(
                cell->loosened[0],
                settled_step_by_step(timeline[a / 4], arms[a % 4], &small.dyes[2], false, until[i]), 2e-6);
        }
    }
    sl_timeline_free(timeline[0]);
    sl_timeline_free(timeline[1]);
}
END_TEST

/* By how much more the rim's oxidants would have destroyed of a dye until a minute than the core's. */
static double apart_at(const sl_timeline *timeline, int arm, const sl_dye *dye, double minute)
{
    sl_moment moment;
    double apart = 0.0;
    sl_timeline_moment(timeline, arm, ZONE_VIOLET, minute, &moment);
    for (int c = 0; c < SL_CHANNELS; c++) {
        apart += dye->rates.k[c].value * (moment.rim_dose[c] - moment.core_dose[c]);
    }
    return apart;
}

/* Dye from the core is taken as if it came out last: no less than step by step, but for what goes on in the
 * core once the rim is clean, and no more than the rim's oxidants could make of the difference. */
START_TEST(dye_from_the_core_settles_within_its_bracket)
{
    static const int arms[] = {ARM_WASHING, ARM_WATER, ARM_6, ARM_MILD};
    sl_timeline *const timeline[LOOSES] = {solved_with(0.0, LOOSE[0]), solved_with(0.0, LOOSE[1])};
    for (int a = 0; a < 4 * LOOSES; a++) {
        small.dyes[2].loose_share = assumed(LOOSE[a / 4]);
        for (int t = 10; t < TIMES; t += 10) {
            const double told = sl_timeline_cell(timeline[a / 4], arms[a % 4], ZONE_VIOLET, t)->loosened[0];
            const double stepped =
                settled_step_by_step(timeline[a / 4], arms[a % 4], &small.dyes[2], true, t);
            const double apart = apart_at(timeline[a / 4], arms[a % 4], &small.dyes[2], t);
            double most = apart;
            double least = 0.0;
            for (double m = 0.0; m < t; m += 0.25) {
                const double then = apart_at(timeline[a / 4], arms[a % 4], &small.dyes[2], m);
                most = fmax(most, then);
                least = fmin(least, then);
            }
            ck_assert_double_ge(told, stepped * exp(apart - most) - 2e-6);
            ck_assert_double_le(told * exp(least - apart), stepped + 2e-6);
        }
    }
    sl_timeline_free(timeline[0]);
    sl_timeline_free(timeline[1]);
}
END_TEST

START_TEST(no_more_settles_than_was_lost)
{
    fill();
    for (int i = 0; i < SMALL_DYES; i++) {
        small.dyes[i].stain_share = assumed(0.5);
    }
    sl_timeline *const timeline = solve(&small.scene, NULL);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            for (int t = 0; t < TIMES; t++) {
                const sl_cell *const cell = sl_timeline_cell(timeline, arm, zone, t);
                for (int i = 0; i < cell->amounts.recipe->n_dyes; i++) {
                    ck_assert_double_ge(cell->loosened[i], 0.0);
                    ck_assert_double_le(cell->loosened[i] + cell->amounts.dye_left[i], 1.0 + 1e-12);
                }
                ck_assert_double_le(cell->stain, 0.5);
            }
        }
    }
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(what_is_not_dyed_or_not_touched_stains_nothing)
{
    fill();
    sl_timeline *const timeline = solve(&small.scene, NULL);
    for (int zone = 0; zone < SMALL_ZONES; zone++) {
        for (int t = 0; t < TIMES; t++) {
            const sl_cell *const untreated = sl_timeline_cell(timeline, ARM_UNTREATED, zone, t);
            const sl_cell *const undyed = sl_timeline_cell(timeline, ARM_UNDYED, zone, t);
            const sl_cell *const reducing = sl_timeline_cell(timeline, ARM_REDUCING, zone, t);
            ck_assert_int_eq(untreated->amounts.n_stains, 0);
            ck_assert_int_eq(reducing->amounts.n_stains, 0);
            ck_assert_int_eq(undyed->amounts.n_stains, 0);
            ck_assert_double_eq(untreated->stain, 0.0);
            ck_assert_double_eq(undyed->stain, -1.0);
        }
    }
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(only_the_zones_beside_are_stained_and_only_by_dyes_that_stain)
{
    fill();
    small.dyes[2].stain_share = assumed(0.0); /* violet, between red and mixed */
    sl_timeline *const timeline = solve(&small.scene, NULL);
    const sl_cell *const root = sl_timeline_cell(timeline, ARM_WASHING, ZONE_ROOT, TIMES - 1);
    const sl_cell *const red = sl_timeline_cell(timeline, ARM_WASHING, ZONE_RED, TIMES - 1);
    const sl_cell *const violet = sl_timeline_cell(timeline, ARM_WASHING, ZONE_VIOLET, TIMES - 1);
    ck_assert_int_eq(root->amounts.n_stains, 1); /* from red */
    ck_assert_int_eq(root->amounts.stain_dye[0], 1);
    ck_assert_int_eq(red->amounts.n_stains, 0); /* between brown and violet, which stain nothing */
    ck_assert_double_eq(red->stain, -1.0);
    ck_assert_int_eq(violet->amounts.n_stains, 3); /* red, and red with blue */
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(a_second_mix_destroys_what_had_settled)
{
    fill();
    small.arms[ARM_WATER].n_steps = 3;
    small.arms[ARM_WATER].steps[0] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 5.0};
    small.arms[ARM_WATER].steps[1] = (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = 3};
    small.arms[ARM_WATER].steps[2] = small.arms[ARM_6].steps[0];
    sl_timeline *const timeline = solve(&small.scene, NULL);
    const double washed = sl_timeline_cell(timeline, ARM_WATER, ZONE_UNDYED, 8)->stain;
    const double later = sl_timeline_cell(timeline, ARM_WATER, ZONE_UNDYED, 38)->stain;
    ck_assert_double_gt(washed, 0.05);
    ck_assert_double_lt(later, 0.5 * washed);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(a_stain_is_seen_on_undyed_hair)
{
    fill();
    sl_optics *const optics = sl_optics_new(&small.scene, NULL);
    sl_timeline *const timeline = solve(&small.scene, optics);
    for (int i = 1; i < SMALL_DYES; i++) {
        small.dyes[i].stain_share = assumed(0.0);
    }
    sl_timeline *const clean = solve(&small.scene, optics);
    const sl_lab one = sl_timeline_cell(timeline, ARM_WASHING, ZONE_UNDYED, TIMES - 1)->colour.lab;
    const sl_lab two = sl_timeline_cell(clean, ARM_WASHING, ZONE_UNDYED, TIMES - 1)->colour.lab;
    ck_assert_double_gt(sl_delta_e_2000(one, two), 1.0);
    sl_timeline_free(timeline);
    sl_timeline_free(clean);
    sl_optics_free(optics);
}
END_TEST

static void assert_same_stains(const sl_cell *one, const sl_cell *two, double near)
{
    ck_assert_double_eq_tol(one->stain, two->stain, near);
    ck_assert_double_eq_tol(one->amounts.oxidised, two->amounts.oxidised, near);
    ck_assert_int_eq(one->amounts.n_stains, two->amounts.n_stains);
    for (int i = 0; i < one->amounts.n_stains; i++) {
        ck_assert_int_eq(one->amounts.stain_dye[i], two->amounts.stain_dye[i]);
        ck_assert_double_eq_tol(one->amounts.stain[i], two->amounts.stain[i], near);
    }
}

START_TEST(stains_at_an_output_time_equal_the_reading_there)
{
    fill();
    sl_timeline *const timeline = solve(&small.scene, NULL);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            for (int t = 0; t < TIMES; t += 7) {
                sl_cell read;
                sl_timeline_at(timeline, arm, zone, t, NULL, &read);
                assert_same_stains(sl_timeline_cell(timeline, arm, zone, t), &read, 1e-300);
            }
        }
    }
    sl_timeline_free(timeline);
}
END_TEST

/* Tolerance as in test_timeline.c: the solver's own times what an exponent of order one makes of it. */
START_TEST(stains_of_the_full_and_the_shared_system_agree)
{
    fill();
    sl_timeline *const shared = solve(&small.scene, NULL);
    small.scene.chemistry.pigment_feedback = true;
    small.scene.chemistry.dye_oxidant = assumed(0.0);
    small.scene.chemistry.melanin[0].held_mol_l = assumed(0.0);
    small.scene.chemistry.melanin[1].held_mol_l = assumed(0.0);
    sl_timeline *const full = solve(&small.scene, NULL);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            for (int t = 0; t < TIMES; t++) {
                assert_same_stains(sl_timeline_cell(shared, arm, zone, t),
                                   sl_timeline_cell(full, arm, zone, t), 1e-7);
            }
        }
    }
    sl_timeline_free(shared);
    sl_timeline_free(full);
}
END_TEST

START_TEST(oxidised_keratin_counts_what_was_oxidised_before)
{
    fill();
    sl_timeline *const timeline = solve(&small.scene, NULL);
    const sl_cell *const start = sl_timeline_cell(timeline, ARM_6, ZONE_UNDYED, 0);
    const sl_cell *const end = sl_timeline_cell(timeline, ARM_6, ZONE_UNDYED, TIMES - 1);
    ck_assert_double_eq_tol(start->amounts.oxidised, 0.15, 1e-12);
    ck_assert_double_eq_tol(end->amounts.oxidised, 1.0 - 0.85 * (1.0 - end->cystine_lost), 1e-12);
    ck_assert_double_gt(end->amounts.oxidised, 0.16);
    sl_timeline_free(timeline);
}
END_TEST

START_SUITE("stains")
ADD(a_strip_that_is_only_washed_stains_by_what_it_lost)
ADD(dye_from_the_rim_settles_as_step_by_step)
ADD(dye_from_the_core_settles_within_its_bracket)
ADD(no_more_settles_than_was_lost)
ADD(what_is_not_dyed_or_not_touched_stains_nothing)
ADD(only_the_zones_beside_are_stained_and_only_by_dyes_that_stain)
ADD(a_second_mix_destroys_what_had_settled)
ADD(a_stain_is_seen_on_undyed_hair)
ADD(stains_at_an_output_time_equal_the_reading_there)
ADD(stains_of_the_full_and_the_shared_system_agree)
ADD(oxidised_keratin_counts_what_was_oxidised_before)
END_SUITE
