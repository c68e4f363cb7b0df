/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/kinetics.h"

#include <math.h>
#include <string.h>

#include "kinetics/system.h"
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

static sl_treatment treatment_of(int arm)
{
    return (sl_treatment){.scene = &small.scene,
                          .arm = &small.arms[arm],
                          .porosity = 1.0,
                          .cystine_intact = 1.0,
                          .until_min = small.scene.until_min};
}

static sl_moment moment_of(int arm, double time_min)
{
    sl_error error = {0};
    sl_course *course = NULL;
    const sl_treatment treatment = treatment_of(arm);
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
    const sl_treatment treatment = treatment_of(ARM_REDUCING);
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
    const sl_treatment treatment = treatment_of(ARM_6);
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
        const sl_treatment treatment = treatment_of(arm);
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

START_TEST(a_warmer_place_works_faster_by_the_printed_factor)
{
    fresh();
    small.scene.room_c = 22.0;
    double factor[SL_CHANNELS];
    sl_place_factors(&small.scene, &small.mixes[MIX_POWDER_6], SL_PLACE_BENCH, SL_PLACE_HEAD, factor);
    const double arrhenius = exp(60.0 / 0.00831446 * (1.0 / 295.15 - 1.0 / 305.15));
    ck_assert_double_eq_tol(factor[SL_PERSULFATE], arrhenius, 1e-4);
    ck_assert_double_gt(factor[SL_PERHYDROXYL], factor[SL_PERSULFATE]);
    sl_place_factors(&small.scene, &small.mixes[MIX_POWDER_WATER], SL_PLACE_BENCH, SL_PLACE_HEAD, factor);
    ck_assert_double_eq(factor[SL_PERHYDROXYL], 0.0);
    sl_place_factors(&small.scene, &small.mixes[MIX_POWDER_6], SL_PLACE_HEAD, SL_PLACE_HEAD, factor);
    ck_assert_double_eq_tol(factor[SL_RADICAL], 1.0, 1e-12);
}
END_TEST

/* ---- slopes ---------------------------------------------------------------------------------- */

/* Two targets of a full system in each kind of phase, from a state in which everything is there. The slopes
 * begin as something else, so that each must be written. */
static void slopes_of(phase_kind kind, bool feedback, double y[FULL_STATES], double slope[FULL_STATES])
{
    static sl_treatment treatment;
    system_now system = {.calls = 0};
    const phase now = {.kind = kind,
                       .end_min = 30.0,
                       .mix = &small.mixes[MIX_POWDER_6],
                       .saturation_mol_l = 0.5,
                       .liquid_share = 0.05,
                       .dry_per_min = 0.04};
    small.scene.chemistry.pigment_feedback = feedback;
    treatment = treatment_of(ARM_6);
    treatment.n_targets = 2;
    treatment.target[0] = (sl_target){&small.dyes[1].rates, 0.02, 3.0, 0.25};
    treatment.target[1] = (sl_target){&small.dyes[2].rates, 0.01, 2.0, 0.5};
    for (int i = 0; i < FULL_STATES; i++) {
        y[i] = i >= SHARED_STATES ? 0.1 + 0.01 * i : 0.2 + 0.05 * i;
        slope[i] = 7.0;
    }
    y[AT_WETNESS] = 0.8;
    y[AT_CYSTINE] = 0.9;
    system_enter(&system, &treatment, &now);
    ck_assert_int_eq(system_slope(10.0, y, slope, &system), 0);
    ck_assert_int_eq(system.calls, 1);
}

/* A target's exponents grow by its constants against the doses; slots of no target stay as they are. */
START_TEST(exponents_follow_the_doses_and_those_of_no_target_stand_still)
{
    double y[FULL_STATES], slope[FULL_STATES];
    for (int kind = PHASE_BOWL; kind <= PHASE_REST; kind++) {
        fresh();
        slopes_of((phase_kind)kind, false, y, slope);
        for (int i = 0; i < SL_MAX_TARGETS; i++) {
            double rim = 0.0, core = 0.0;
            for (int c = 0; c < SL_CHANNELS && i < 2; c++) {
                const double k = small.dyes[1 + i].rates.k[c].value;
                rim += k * slope[AT_RIM_DOSE + c];
                core += k * slope[AT_CORE_DOSE + c];
            }
            ck_assert_double_eq_tol(slope[AT_RIM_EXPONENT + i], rim, 1e-12);
            ck_assert_double_eq_tol(slope[AT_CORE_EXPONENT + i], core, 1e-12);
            ck_assert(i >= 2 || kind == PHASE_BOWL ||
                      (core > 0.0 && (kind == PHASE_REST ? rim <= 0.0 : rim > 0.0)));
        }
        ck_assert_double_eq_tol(slope[AT_WETNESS], -0.04 * 0.8, 1e-15);
        if (kind == PHASE_BOWL) { /* nothing enters a fibre there */
            for (int i = AT_FIBRE_PEROXIDE; i < FULL_STATES; i++) {
                ck_assert_double_eq(slope[i], 0.0);
            }
        } else if (kind == PHASE_REST) { /* nor is there a mix to be used up */
            ck_assert_double_eq(slope[AT_PEROXIDE], 0.0);
            ck_assert_double_eq(slope[AT_PERSULFATE], 0.0);
            ck_assert_double_eq(slope[AT_UNDISSOLVED], 0.0);
        }
    }
}
END_TEST

/* docs/science.md, pigment feedback: what is held of each target, times the oxidant that a mole takes, times
 * the core's rates; the radical channel takes half of each oxidant. */
START_TEST(pigments_that_react_take_their_oxidant_out_of_the_fibre)
{
    double y[FULL_STATES], without[FULL_STATES], with[FULL_STATES];
    fresh();
    slopes_of(PHASE_MIX, false, y, without);
    slopes_of(PHASE_MIX, true, y, with);
    const double held[2] = {0.02 * 3.0 * 0.75 * exp(-y[AT_CORE_EXPONENT]),
                            0.01 * 2.0 * 0.5 * exp(-y[AT_CORE_EXPONENT + 1])};
    double peroxide = 0.0, persulfate = 0.0;
    for (int i = 0; i < 2; i++) {
        const sl_param *const k = small.dyes[1 + i].rates.k;
        const double radical = k[SL_RADICAL].value * without[AT_CORE_DOSE + SL_RADICAL];
        peroxide +=
            held[i] * (k[SL_PERHYDROXYL].value * without[AT_CORE_DOSE + SL_PERHYDROXYL] + radical / 2.0);
        persulfate +=
            held[i] * (k[SL_PERSULFATE].value * without[AT_CORE_DOSE + SL_PERSULFATE] + radical / 2.0);
    }
    for (int i = 0; i < FULL_STATES; i++) {
        const double taken = i == AT_FIBRE_PEROXIDE ? peroxide : i == AT_FIBRE_PERSULFATE ? persulfate : 0.0;
        ck_assert_double_eq_tol(without[i] - with[i], taken, 1e-15);
    }
    ck_assert_double_gt(peroxide, 1e-6);
}
END_TEST

/* What leaves the mix enters the fibre: as much of it as fibre water over liquid says. */
START_TEST(what_enters_the_fibre_leaves_the_mix)
{
    double y[FULL_STATES], thin[FULL_STATES], still[FULL_STATES];
    fresh();
    slopes_of(PHASE_MIX, false, y, thin);
    small.scene.chemistry.peroxide_diffusion_cm2_s.value = 0.0;
    small.scene.chemistry.persulfate_diffusion_cm2_s.value = 0.0;
    slopes_of(PHASE_MIX, false, y, still);
    for (int i = 0; i < 2; i++) {
        const double in = thin[AT_FIBRE_PEROXIDE + i] - still[AT_FIBRE_PEROXIDE + i];
        ck_assert_double_gt(fabs(in), 1e-4);
        ck_assert_double_eq_tol(thin[AT_PEROXIDE + i] - still[AT_PEROXIDE + i], -0.05 * in, 1e-14);
    }
}
END_TEST

START_SUITE("kinetics")
ADD(untreated_hair_meets_nothing)
ADD(before_contact_there_is_no_mix)
ADD(washing_alone_leaves_the_hair_itself_alone)
ADD(only_peroxide_with_persulfate_has_a_radical_dose)
ADD(rinsing_takes_the_mix_away)
ADD(rinsed_hair_stops_reacting_once_dry)
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
ADD(a_warmer_place_works_faster_by_the_printed_factor)
ADD(exponents_follow_the_doses_and_those_of_no_target_stand_still)
ADD(pigments_that_react_take_their_oxidant_out_of_the_fibre)
ADD(what_enters_the_fibre_leaves_the_mix)
END_SUITE
