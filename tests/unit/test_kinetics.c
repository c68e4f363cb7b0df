/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/kinetics.h"

#include <math.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_solver *solver;

static void fresh(void)
{
    small_scene_fill(&small);
    if (!solver) {
        solver = sl_solver_new(NULL);
    }
}

static sl_moment moment_of(int arm, double time_min)
{
    sl_error error = {0};
    sl_course *course = NULL;
    const sl_treatment treatment = small_treatment(&small, arm, 1.0, 1.0);
    ck_assert_msg(sl_course_solve(&course, &treatment, solver, &error), "%s: %s", sl_code_name(error.code),
                  error.found);
    sl_moment moment;
    sl_course_at(course, time_min, &moment);
    sl_course_free(course);
    return moment;
}

START_TEST(untreated_hair_meets_nothing)
{
    fresh();
    const sl_moment end = moment_of(ARM_UNTREATED, 60.0);
    const sl_moment nothing = {.cystine_intact = 1.0};
    ck_assert_mem_eq(&end, &nothing, sizeof end);
}
END_TEST

START_TEST(before_contact_there_is_no_mix)
{
    fresh();
    small.arms[ARM_6].contact_min = 10.0;
    ck_assert_double_eq(moment_of(ARM_6, 9.99).peroxide_mol_l, 0.0);
    ck_assert_double_gt(moment_of(ARM_6, 10.01).peroxide_mol_l, 1.7);
}
END_TEST

START_TEST(washing_alone_leaves_the_hair_itself_alone)
{
    fresh();
    const sl_moment end = moment_of(ARM_WASHING, 60.0);
    ck_assert_double_eq(end.cystine_intact, 1.0);
    ck_assert_double_eq(end.core_dose[SL_PERHYDROXYL], 0.0);
    /* 30 min standing wet, then 3 min of running water that leach three times as fast */
    ck_assert_double_eq_tol(end.leach_min, 30.0 + 3.0 * 3.0, 1e-9);
    ck_assert_double_eq_tol(end.shampoos, 1.0, 1e-12);
}
END_TEST

START_TEST(only_peroxide_with_persulfate_has_a_radical_dose)
{
    fresh();
    const sl_moment mild = moment_of(ARM_MILD, 30.0);
    const sl_moment both = moment_of(ARM_6, 30.0);
    ck_assert_double_eq(mild.core_dose[SL_RADICAL], 0.0);
    ck_assert_double_eq(mild.core_dose[SL_PERSULFATE], 0.0);
    ck_assert_double_gt(mild.core_dose[SL_PERHYDROXYL], 0.0);
    ck_assert_double_gt(both.core_dose[SL_RADICAL], 0.0);
    ck_assert_double_gt(both.core_dose[SL_PERSULFATE], 0.0);
}
END_TEST

START_TEST(rinsing_takes_the_mix_away)
{
    fresh();
    const sl_moment on = moment_of(ARM_6, 29.99);
    const sl_moment off = moment_of(ARM_6, 32.0);
    ck_assert_double_gt(on.peroxide_mol_l, 1.0);
    ck_assert_double_lt(off.peroxide_mol_l, 0.1);
    ck_assert_double_lt(off.undissolved_mol_l, 0.05);
    ck_assert_double_lt(off.fibre_peroxide_mol_l, on.fibre_peroxide_mol_l);
}
END_TEST

START_TEST(rinsed_hair_stops_reacting_once_dry)
{
    fresh();
    const sl_moment soon = moment_of(ARM_6, 45.0);
    const sl_moment late = moment_of(ARM_6, 60.0);
    ck_assert_double_eq(soon.peroxide_mol_l, 0.0);
    ck_assert_double_eq_tol(soon.cystine_intact, late.cystine_intact, 1e-3);
    ck_assert_double_ge(late.core_dose[SL_PERSULFATE], soon.core_dose[SL_PERSULFATE]);
}
END_TEST

/* Of the steps of ARM_6 the dwell is 30 minutes, the water 3; what follows is written out or left to the
 * scene. */
static sl_moment rested(int n, double each_min, bool covered)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[0].covered = covered;
    arm->n_steps = covered ? 3 : 1;
    for (int i = 0; i < n; i++) {
        arm->steps[arm->n_steps++] = (sl_step){.kind = SL_STEP_REST, .duration_min = each_min};
    }
    return moment_of(ARM_6, 60.0);
}

START_TEST(a_rest_goes_on_as_wet_as_it_begins)
{
    for (int covered = 0; covered < 2;
         covered++) { /* of a mix that dries a rest takes over what is left of its water */
        const sl_moment left_to_the_scene = rested(0, 0.0, covered);
        static const struct {
            int n;
            double each_min;
        } written[] = {{1, 20.0}, {2, 10.0}, {4, 5.0}, {1, 10.0}, {3, 2.0}};
        for (int i = 0; i < 5; i++) {
            const sl_moment end = rested(written[i].n, written[i].each_min, covered);
            for (int c = 0; c < SL_CHANNELS; c++) {
                ck_assert_double_eq_tol(end.core_dose[c], left_to_the_scene.core_dose[c], 1e-9);
            }
            ck_assert_double_eq_tol(end.wetness, left_to_the_scene.wetness, 1e-9);
            ck_assert_double_eq_tol(end.cystine_intact, left_to_the_scene.cystine_intact, 1e-9);
        }
    }
}
END_TEST

START_TEST(a_second_round_brings_fresh_mix_and_carries_damage_on)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[3] = arm->steps[0];
    arm->n_steps = 4;
    const sl_moment before = moment_of(ARM_6, 33.0);
    const sl_moment after = moment_of(ARM_6, 33.001);
    ck_assert_double_gt(after.peroxide_mol_l, 1.7);
    ck_assert_double_eq_tol(after.cystine_intact, before.cystine_intact, 1e-4);
    ck_assert_double_ge(after.rim_dose[SL_RADICAL], before.rim_dose[SL_RADICAL]);
    ck_assert_double_lt(moment_of(ARM_6, 60.0).cystine_intact, before.cystine_intact - 0.05);
}
END_TEST

START_TEST(a_mix_grows_weaker_in_its_bowl)
{
    fresh();
    small.arms[ARM_6].steps[0].mix_age_min = 20.0;
    const sl_moment aged = moment_of(ARM_6, 1e-3);
    const double fresh_mol_l = 1.764;
    ck_assert_double_lt(aged.peroxide_mol_l, fresh_mol_l - 0.01);
    ck_assert_double_gt(aged.peroxide_mol_l, fresh_mol_l - 0.20);
}
END_TEST

START_TEST(an_uncovered_mix_dries_and_works_less)
{
    fresh();
    const double end_min = 30.0 - 1e-9; /* at 30 the water runs */
    const sl_moment covered = moment_of(ARM_6, end_min);
    small.arms[ARM_6].steps[0].covered = false;
    const sl_moment open = moment_of(ARM_6, end_min);
    ck_assert_double_eq_tol(covered.wetness, 1.0, 1e-12);
    ck_assert_double_eq_tol(open.wetness, exp(-0.03 * 30.0), 1e-8);
    ck_assert_double_lt(open.rim_dose[SL_RADICAL], covered.rim_dose[SL_RADICAL]);
    ck_assert_double_eq_tol(open.leach_min, (1.0 - exp(-0.03 * 30.0)) / 0.03, 1e-8);
}
END_TEST

START_TEST(more_of_anything_that_speeds_gives_more_dose)
{
    fresh();
    const sl_moment base = moment_of(ARM_6, 30.0);
    small.scene.room_c = 35.0;
    ck_assert_double_gt(moment_of(ARM_6, 30.0).core_dose[SL_RADICAL], base.core_dose[SL_RADICAL]);
    fresh();
    small.mixes[MIX_POWDER_6].ph = assumed(10.4);
    ck_assert_double_gt(moment_of(ARM_6, 30.0).core_dose[SL_PERHYDROXYL], base.core_dose[SL_PERHYDROXYL]);
    fresh();
    small.mixes[MIX_POWDER_6].activity = 0.7; /* fewer oxidants in the powder */
    ck_assert_double_lt(moment_of(ARM_6, 30.0).core_dose[SL_RADICAL], base.core_dose[SL_RADICAL]);
    fresh();
    small.arms[ARM_6].steps[0].hair_water_g_g = 0.4;
    ck_assert_double_lt(moment_of(ARM_6, 30.0).core_dose[SL_PERHYDROXYL], base.core_dose[SL_PERHYDROXYL]);
    fresh();
    small.arms[ARM_6].steps[0].mix_g_per_g = 1.0; /* little mix is spent sooner */
    ck_assert_double_lt(moment_of(ARM_6, 30.0).core_dose[SL_PERHYDROXYL], base.core_dose[SL_PERHYDROXYL]);
}
END_TEST

START_TEST(a_mix_outside_the_model_is_refused)
{
    fresh();
    sl_error error = {0};
    sl_course *course = NULL;
    const sl_treatment treatment = small_treatment(&small, ARM_REDUCING, 1.0, 1.0);
    ck_assert(!sl_course_solve(&course, &treatment, solver, &error));
    ck_assert_int_eq(error.code, SL_ERR_OUTSIDE_MODEL);
    sl_course_free(course);
}
END_TEST

START_TEST(constants_that_are_not_numbers_are_found)
{
    fresh();
    sl_error error = {0};
    sl_course *course = NULL;
    small.mixes[MIX_POWDER_6].loss_per_min.value = -log(0.0); /* infinite */
    const sl_treatment treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
    ck_assert(!sl_course_solve(&course, &treatment, solver, &error));
    ck_assert(error.code == SL_ERR_NOT_FINITE || error.code == SL_ERR_SOLVER);
    sl_course_free(course);
}
END_TEST

START_TEST(solving_again_gives_the_same_bytes)
{
    fresh();
    const sl_moment once = moment_of(ARM_6, 17.3);
    moment_of(ARM_WATER, 17.3);
    const sl_moment again = moment_of(ARM_6, 17.3);
    ck_assert_mem_eq(&once, &again, sizeof once);
}
END_TEST

/* Between nodes the polynomial must be as good as the nodes: compare with a solution whose
 * steps are eight times shorter and whose tolerance is 1e4 times smaller. */
START_TEST(reading_between_nodes_is_as_good_as_the_solution)
{
    fresh();
    sl_error error = {0};
    sl_solver *const exact = sl_solver_new(NULL);
    sl_solver_set_accuracy(exact, (sl_accuracy){.absolute = 1e-13, .relative = 1e-13, .longest_min = 0.25});
    sl_course *one = NULL;
    sl_course *two = NULL;
    small.arms[ARM_6].steps[0].mix_age_min = 5.0;
    for (int arm = ARM_WATER; arm <= ARM_MILD; arm++) {
        const sl_treatment treatment = small_treatment(&small, arm, 1.0, 1.0);
        ck_assert(sl_course_solve(&one, &treatment, solver, &error));
        ck_assert(sl_course_solve(&two, &treatment, exact, &error));
        for (double t = 0.0; t <= 60.0; t += 0.037) {
            sl_moment a;
            sl_moment b;
            sl_course_at(one, t, &a);
            sl_course_at(two, t, &b);
            for (int c = 0; c < SL_CHANNELS; c++) {
                ck_assert_double_eq_tol(a.rim_dose[c], b.rim_dose[c], 2e-7);
                ck_assert_double_eq_tol(a.core_dose[c], b.core_dose[c], 2e-7);
            }
            ck_assert_double_eq_tol(a.cystine_intact, b.cystine_intact, 2e-7);
        }
    }
    sl_course_free(one);
    sl_course_free(two);
    sl_solver_free(exact);
}
END_TEST

START_TEST(a_corner_in_the_temperature_is_a_node)
{
    fresh();
    small.scene.n_points = 3;
    small.scene.points[0] = (sl_course_point){0.0, 22.0};
    small.scene.points[1] = (sl_course_point){10.0, 22.0};
    small.scene.points[2] = (sl_course_point){12.0, 35.0};
    const sl_moment warmed = moment_of(ARM_6, 30.0);
    small.scene.points[2].temperature_c = 22.0;
    ck_assert_double_gt(warmed.core_dose[SL_RADICAL], 1.5 * moment_of(ARM_6, 30.0).core_dose[SL_RADICAL]);
}
END_TEST

/* Points of one temperature change nothing: a mix that dries goes on drying and leaching as wet as it still
 * is, by the closed form of an_uncovered_mix_dries_and_works_less. */
START_TEST(a_corner_does_not_wet_a_mix_that_dries)
{
    fresh();
    small.arms[ARM_6].steps[0].covered = false;
    small.scene.n_points = 4;
    for (int i = 0; i < 4; i++) {
        small.scene.points[i] = (sl_course_point){8.0 * i, 32.0};
    }
    const sl_moment open = moment_of(ARM_6, 30.0 - 1e-9);
    ck_assert_double_eq_tol(open.wetness, exp(-0.03 * 30.0), 1e-8);
    ck_assert_double_eq_tol(open.leach_min, (1.0 - exp(-0.03 * 30.0)) / 0.03, 1e-8);
}
END_TEST

/* ---- sharing ----------------------------------------------------------------------------- */

START_TEST(sharing_is_refused_for_each_of_its_reasons)
{
    fresh();
    sl_scene *const scene = &small.scene;
    const sl_arm *const arm = &small.arms[ARM_6];
    const sl_hair *const light = &small.hairs[1];
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_RED, light), SL_SHARING_VALID);
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_ROOT, light), SL_SHARING_NOT_SAME_HAIR);
    small.dyes[1].rates.own_activation[SL_RADICAL] = true;
    small.dyes[1].rates.activation_kj_mol[SL_RADICAL] = 50.0;
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_RED, light), SL_SHARING_VALID); /* isothermal */
    scene->place = SL_PLACE_WRAPPED;
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_RED, light), SL_SHARING_OWN_ACTIVATION);
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_VIOLET, light), SL_SHARING_VALID);
    ck_assert_int_eq(sl_zone_sharing(scene, &small.arms[ARM_UNDYED], ZONE_RED, light), SL_SHARING_VALID);
    scene->chemistry.pigment_feedback = true;
    ck_assert_int_eq(sl_zone_sharing(scene, arm, ZONE_VIOLET, light), SL_SHARING_PIGMENT_FEEDBACK);
    ck_assert_uint_gt(strlen(sl_sharing_word(SL_SHARING_OWN_ACTIVATION)), 10);
}
END_TEST

/* ---- doses and what is left ---------------------------------------------------------------------- */

/* kinetics.h: fs exp(-(k.X + kL t + s N)) + (1 - fs) exp(-(k.Y + (kL t + s N)/4)), and what washing brought
 * out is what oxidation alone would have left, less that. */
START_TEST(what_is_left_of_a_dye_follows_its_formula)
{
    fresh();
    sl_dye dye = small.dyes[1];
    dye.rim_share.value = 0.3;
    dye.rates = rates_of(0.2, 0.5, 1.5);
    dye.leach_per_min.value = 0.01;
    dye.shampoo_loss.value = 0.25;
    sl_moment moment = {.leach_min = 12.0, .shampoos = 2.0};
    for (int c = 0; c < SL_CHANNELS; c++) {
        moment.rim_dose[c] = 0.4 + 0.1 * c;
        moment.core_dose[c] = 0.2 - 0.05 * c;
        moment.rim_exponent[c] = 0.7 + c;
        moment.core_exponent[c] = 0.1 * (1 + c);
    }
    const double washed = 0.01 * 12.0 + 0.25 * 2.0;
    for (int target = SL_FROM_DOSES; target < SL_CHANNELS; target++) {
        const double rim = target < 0 ? 0.2 * 0.4 + 0.5 * 0.5 + 1.5 * 0.6 : 0.7 + target;
        const double core = target < 0 ? 0.2 * 0.2 + 0.5 * 0.15 + 1.5 * 0.1 : 0.1 * (1 + target);
        const sl_dye_fate fate = sl_dye_fate_at(&dye, &moment, target);
        const double left = 0.3 * exp(-(rim + washed)) + 0.7 * exp(-(core + washed / 4.0));
        ck_assert_double_eq_tol(fate.left, left, 1e-14);
        ck_assert_double_eq_tol(fate.loosened, 0.3 * exp(-rim) + 0.7 * exp(-core) - left, 1e-14);
    }
    ck_assert_double_eq_tol(sl_dye_left(&dye, &moment), sl_dye_fate_at(&dye, &moment, SL_FROM_DOSES).left,
                            1e-15);
    ck_assert_double_eq_tol(sl_core_exponent(&dye.rates, &moment), 0.2 * 0.2 + 0.5 * 0.15 + 1.5 * 0.1, 1e-15);
}
END_TEST

/* Of a share that is held loosely a shampoo takes its own part, at the rim and in the core, and leaching as
 * much as of the rest; where there is none, or nothing else, one exponent is all. */
START_TEST(a_share_that_is_held_loosely_goes_first)
{
    fresh();
    sl_dye dye = small.dyes[1];
    dye.rim_share.value = 0.3;
    dye.leach_per_min.value = 0.01;
    dye.shampoo_loss.value = 0.02;
    dye.loose_loss.value = 1.7;
    dye.rates = rates_of(0.0, 0.0, 0.0);
    const sl_moment moment = {.leach_min = 12.0, .shampoos = 3.0};
    static const double shares[] = {0.0, 0.2, 1.0};
    for (int i = 0; i < 3; i++) {
        dye.loose_share.value = shares[i];
        const double rim = exp(-0.12) * (shares[i] * exp(-5.1) + (1.0 - shares[i]) * exp(-0.06));
        const double core = exp(-0.03) * (shares[i] * exp(-1.275) + (1.0 - shares[i]) * exp(-0.015));
        const sl_dye_washing washed = sl_dye_washed(&dye, 12.0, 3.0);
        ck_assert_double_eq_tol(exp(-washed.rim), rim, 1e-14);
        ck_assert_double_eq_tol(exp(-washed.core), core, 1e-14);
        const sl_dye_fate fate = sl_dye_fate_at(&dye, &moment, SL_FROM_DOSES);
        ck_assert_double_eq_tol(fate.left, 0.3 * rim + 0.7 * core, 1e-14);
        ck_assert_double_eq_tol(fate.loosened, 1.0 - 0.3 * rim - 0.7 * core, 1e-14);
    }
    dye.loose_loss.value = 10.0; /* so much that nothing is left of it */
    ck_assert_double_eq_tol(sl_dye_washed(&dye, 0.0, 300.0).rim, 3000.0, 1e-9);
}
END_TEST

/* An energy of its own counts for as much as it lies above the channel's, from 32 degrees on; settling twice
 * is settling once. */
START_TEST(an_energy_of_its_own_is_settled_once)
{
    for (int own = 0; own < SL_CHANNELS; own++) {
        fresh();
        sl_rates rates = rates_of(0.2, 0.5, 1.5);
        const sl_rates before = rates;
        const double channel = small.scene.chemistry.channel_activation_kj_mol[own].value;
        rates.own_activation[own] = true;
        rates.activation_kj_mol[own] = channel + 20.0;
        for (int again = 0; again < 2; again++) {
            sl_rates_settle(&rates, &small.scene.chemistry, 295.15);
            for (int c = 0; c < SL_CHANNELS; c++) {
                const double factor =
                    c == own ? exp(-20.0 / 0.008314462618 * (1.0 / 295.15 - 1.0 / 305.15)) : 1.0;
                ck_assert_double_eq_tol(rates.k[c].value, factor * before.k[c].value, 1e-6);
                ck_assert(!rates.own_activation[c]);
            }
        }
    }
}
END_TEST

/* Each channel of each pigment that the zone has, alone, while the temperature changes. */
START_TEST(one_energy_of_its_own_anywhere_in_a_zone_needs_a_solution_of_its_own)
{
    for (int what = 0; what < 4; what++) {
        for (int c = 0; c < SL_CHANNELS; c++) {
            fresh();
            small.scene.place = SL_PLACE_WRAPPED;
            sl_rates *const rates = what < SL_MELANINS ? &small.scene.chemistry.melanin[what].rates
                                                       : &small.dyes[what == 2 ? 1 : 3].rates;
            rates->own_activation[c] = true;
            for (int zone = ZONE_RED; zone <= ZONE_UNDYED; zone++) {
                const bool has = what < SL_MELANINS || zone == ZONE_MIXED || (what == 2 && zone == ZONE_RED);
                ck_assert_int_eq(sl_zone_sharing(&small.scene, &small.arms[ARM_6], zone, &small.hairs[1]),
                                 has ? SL_SHARING_OWN_ACTIVATION : SL_SHARING_VALID);
            }
        }
    }
    fresh();
    for (int i = 0; i < 2; i++) { /* hair of another class, by either of its two numbers */
        sl_hair other = small.hairs[1];
        *(i == 0 ? &other.porosity : &other.cystine_intact) *= 0.999;
        ck_assert_int_eq(sl_zone_sharing(&small.scene, &small.arms[ARM_6], ZONE_RED, &other),
                         SL_SHARING_NOT_SAME_HAIR);
    }
}
END_TEST

/* Before contact there is nothing, behind the end there is what was there at the end. */
START_TEST(a_course_is_read_inside_its_ends)
{
    fresh();
    small.arms[ARM_6].contact_min = 10.0;
    sl_course *course = NULL;
    const sl_treatment treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
    ck_assert(sl_course_solve(&course, &treatment, solver, NULL));
    sl_moment at, end;
    const sl_moment nothing = {.cystine_intact = 1.0};
    sl_course_at(course, 10.0, &at);
    ck_assert_mem_eq(&at, &nothing, sizeof at);
    sl_course_at(course, -5.0, &at);
    ck_assert_mem_eq(&at, &nothing, sizeof at);
    sl_course_at(course, 60.0, &end);
    sl_course_at(course, 1000.0, &at);
    ck_assert_mem_eq(&at, &end, sizeof at);
    ck_assert_int_gt(sl_course_calls(course), 100);
    const long calls = sl_course_calls(course);
    ck_assert(sl_course_solve(&course, &treatment, solver, NULL));
    ck_assert_int_eq(sl_course_calls(course), calls); /* each solution counts for itself */
    sl_course_free(course);
    sl_course_free(NULL);
}
END_TEST

START_SUITE("kinetics")
ADD(untreated_hair_meets_nothing)
ADD(before_contact_there_is_no_mix)
ADD(washing_alone_leaves_the_hair_itself_alone)
ADD(only_peroxide_with_persulfate_has_a_radical_dose)
ADD(rinsing_takes_the_mix_away)
ADD(rinsed_hair_stops_reacting_once_dry)
ADD(a_rest_goes_on_as_wet_as_it_begins)
ADD(a_second_round_brings_fresh_mix_and_carries_damage_on)
ADD(a_mix_grows_weaker_in_its_bowl)
ADD(an_uncovered_mix_dries_and_works_less)
ADD(more_of_anything_that_speeds_gives_more_dose)
ADD(a_mix_outside_the_model_is_refused)
ADD(constants_that_are_not_numbers_are_found)
ADD(solving_again_gives_the_same_bytes)
ADD(reading_between_nodes_is_as_good_as_the_solution)
ADD(a_corner_in_the_temperature_is_a_node)
ADD(a_corner_does_not_wet_a_mix_that_dries)
ADD(sharing_is_refused_for_each_of_its_reasons)
ADD(what_is_left_of_a_dye_follows_its_formula)
ADD(a_share_that_is_held_loosely_goes_first)
ADD(an_energy_of_its_own_is_settled_once)
ADD(one_energy_of_its_own_anywhere_in_a_zone_needs_a_solution_of_its_own)
ADD(a_course_is_read_inside_its_ends)
END_SUITE
