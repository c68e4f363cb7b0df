/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/timeline.h"

#include <math.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

enum { TIMES = 13 };

static small_scene small;
static sl_solver *solver;
static double times[TIMES];

static sl_timeline *solve(const sl_optics *optics)
{
    sl_error error = {0};
    sl_timeline *timeline = NULL;
    if (!solver) {
        solver = sl_solver_new(NULL);
    }
    for (int i = 0; i < TIMES; i++) {
        times[i] = 5.0 * i;
    }
    ck_assert_msg(sl_timeline_solve(&timeline, &small.scene, times, TIMES, solver, optics, &error), "%s: %s",
                  sl_code_name(error.code), error.found);
    return timeline;
}

START_TEST(a_cell_equals_the_reading_at_its_time)
{
    small_scene_fill(&small);
    sl_optics *const optics = sl_optics_new(&small.scene, NULL);
    sl_timeline *const timeline = solve(optics);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            for (int t = 0; t < TIMES; t++) {
                const sl_cell *const cell = sl_timeline_cell(timeline, arm, zone, t);
                sl_cell read;
                sl_timeline_at(timeline, arm, zone, times[t], optics, &read);
                ck_assert_double_eq(cell->colour_left, read.colour_left);
                ck_assert_double_eq(cell->base_moved, read.base_moved);
                ck_assert_double_eq(cell->cystine_lost, read.cystine_lost);
                ck_assert_double_eq(cell->colour.lab.L, read.colour.lab.L);
                ck_assert_mem_eq(&cell->colour.srgb, &read.colour.srgb, sizeof read.colour.srgb);
            }
        }
    }
    sl_timeline_free(timeline);
    sl_optics_free(optics);
}
END_TEST

START_TEST(an_undyed_zone_and_an_undyed_strip_have_no_colour_to_lose)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve(NULL);
    ck_assert_double_lt(sl_timeline_cell(timeline, ARM_6, ZONE_UNDYED, 6)->colour_left, 0.0);
    ck_assert_double_lt(sl_timeline_cell(timeline, ARM_UNDYED, ZONE_RED, 6)->colour_left, 0.0);
    ck_assert_double_ge(sl_timeline_cell(timeline, ARM_6, ZONE_RED, 6)->colour_left, 0.0);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(dyed_and_undyed_hair_move_alike_under_the_same_mix)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve(NULL);
    for (int t = 0; t < TIMES; t++) {
        const sl_cell *const dyed = sl_timeline_cell(timeline, ARM_6, ZONE_RED, t);
        const sl_cell *const undyed = sl_timeline_cell(timeline, ARM_UNDYED, ZONE_RED, t);
        ck_assert_double_eq(dyed->base_moved, undyed->base_moved);
        ck_assert_double_eq(dyed->cystine_lost, undyed->cystine_lost);
    }
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(untreated_hair_stays_and_washed_hair_loses_direct_dye)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve(NULL);
    const sl_cell *const untreated = sl_timeline_cell(timeline, ARM_UNTREATED, ZONE_VIOLET, TIMES - 1);
    const sl_cell *const washed = sl_timeline_cell(timeline, ARM_WASHING, ZONE_VIOLET, TIMES - 1);
    ck_assert_double_eq(untreated->colour_left, 1.0);
    ck_assert_double_eq(untreated->base_moved, 0.0);
    ck_assert_double_lt(washed->colour_left, 0.90);
    ck_assert_double_gt(washed->colour_left, 0.50);
    ck_assert_double_eq(washed->base_moved, 0.0);
    sl_timeline_free(timeline);
}
END_TEST

/* 0.7 of the violet at the rim, 0.3 in the cortex; after 30 min standing and 3 min of
 * running water the washing dose is 0.004 * 39 + 0.2 = 0.356; a quarter reaches the cortex. */
START_TEST(washing_follows_its_closed_form)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve(NULL);
    const double dose = 0.004 * 39.0 + 0.2;
    const double left = 0.7 * exp(-dose) + 0.3 * exp(-dose / 4.0);
    ck_assert_double_eq_tol(sl_timeline_cell(timeline, ARM_WASHING, ZONE_VIOLET, TIMES - 1)->colour_left,
                            left, 1e-12);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(an_arm_outside_the_model_is_not_predicted)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve(NULL);
    ck_assert(!sl_timeline_predicted(timeline, ARM_REDUCING));
    ck_assert(sl_timeline_predicted(timeline, ARM_UNTREATED));
    ck_assert(sl_timeline_predicted(timeline, ARM_6));
    ck_assert_double_eq(sl_timeline_cell(timeline, ARM_REDUCING, ZONE_RED, TIMES - 1)->colour_left, 1.0);
    sl_timeline_free(timeline);
}
END_TEST

/* Whether the later strip reads the course of the earlier one, as it does where both stand in a scene, or one
 * of its own. */
START_TEST(a_later_contact_shifts_the_story_and_nothing_else)
{
    small_scene_fill(&small);
    small.arms[ARM_3] = small.arms[ARM_6];
    small.arms[ARM_3].contact_min = 7.25;
    sl_timeline *const both = solve(NULL);
    small.arms[ARM_6] = small.arms[ARM_WASHING];
    sl_timeline *alone = NULL;
    ck_assert(sl_timeline_solve(&alone, &small.scene, times, TIMES, solver, NULL, NULL));
    ck_assert_int_eq(sl_timeline_solves(alone), sl_timeline_solves(both));
    for (double t = -7.25; t < 50.0; t += 1.3) {
        sl_cell early, late, own;
        sl_timeline_at(both, ARM_6, ZONE_MIXED, t, NULL, &early);
        sl_timeline_at(both, ARM_3, ZONE_MIXED, t + 7.25, NULL, &late);
        sl_timeline_at(alone, ARM_3, ZONE_MIXED, t + 7.25, NULL, &own);
        ck_assert_double_eq_tol(early.colour_left, late.colour_left, 1e-12); /* clocks are rounded */
        ck_assert_double_eq_tol(own.colour_left, late.colour_left, 1e-8);
        ck_assert_double_eq_tol(own.base_moved, late.base_moved, 1e-8);
        ck_assert_double_eq_tol(own.cystine_lost, late.cystine_lost, 1e-8);
    }
    sl_timeline_free(alone);
    sl_timeline_free(both);
}
END_TEST

/* Each of what decides a course alone, and a strip that begins sooner. */
START_TEST(a_strip_that_does_not_repeat_another_is_solved_for_itself)
{
    for (int what = 0; what < 8; what++) {
        small_scene_fill(&small);
        sl_arm *const arm = &small.arms[ARM_3];
        *arm = small.arms[ARM_6];
        arm->contact_min = 2.0;
        ck_assert(sl_arm_repeats(&small.scene, arm, &small.arms[ARM_6]));
        sl_step *const step = &arm->steps[0];
        step->mix = what == 0 ? small.arms[ARM_WASHING].steps[0].mix : step->mix;
        step->mix_age_min += what == 1 ? 1.0 : 0.0;
        step->mix_g_per_g *= what == 2 ? 1.5 : 1.0;
        step->hair_water_g_g += what == 3 ? 0.4 : 0.0;
        step->covered = what == 4 ? !step->covered : step->covered;
        step->duration_min += what == 5 ? 1.0 : 0.0;
        arm->n_steps -= what == 6 ? 1 : 0;
        small.arms[ARM_6].contact_min = what == 7 ? 3.0 : 0.0;
        ck_assert_msg(!sl_arm_repeats(&small.scene, arm, &small.arms[ARM_6]), "%d", what);
        arm->undyed = true; /* which no course knows of */
        ck_assert_msg(!sl_arm_repeats(&small.scene, arm, &small.arms[ARM_6]), "%d", what);
    }
    small_scene_fill(&small);
    small.arms[ARM_3] = small.arms[ARM_6];
    small.scene.n_points = 2; /* a measured temperature goes by the clock */
    ck_assert(!sl_arm_repeats(&small.scene, &small.arms[ARM_3], &small.arms[ARM_6]));
}
END_TEST

/* The full system, asked for through a pigment that takes no oxidant, must agree with the
 * doses where sharing is valid; the tolerance is the solver's own (1e-9) times what an
 * exponent of order one makes of it. */
START_TEST(full_and_shared_systems_agree_where_sharing_is_valid)
{
    small_scene_fill(&small);
    sl_timeline *const shared = solve(NULL);
    static small_scene other;
    small_scene_fill(&other);
    other.scene.chemistry.pigment_feedback = true;
    other.scene.chemistry.dye_oxidant = assumed(0.0);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        other.scene.chemistry.melanin[kind].held_mol_l = assumed(0.0);
    }
    sl_timeline *full = NULL;
    ck_assert(sl_timeline_solve(&full, &other.scene, times, TIMES, solver, NULL, NULL));
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            ck_assert_int_eq(sl_timeline_method(shared, arm, zone), SL_SHARING_VALID);
            for (int t = 0; t < TIMES; t++) {
                const sl_cell *const a = sl_timeline_cell(shared, arm, zone, t);
                const sl_cell *const b = sl_timeline_cell(full, arm, zone, t);
                ck_assert_double_eq_tol(a->colour_left, b->colour_left, 1e-7);
                ck_assert_double_eq_tol(a->base_moved, b->base_moved, 1e-7);
                ck_assert_double_eq_tol(a->cystine_lost, b->cystine_lost, 1e-7);
            }
        }
    }
    ck_assert_int_eq(sl_timeline_method(full, ARM_6, ZONE_RED), SL_SHARING_PIGMENT_FEEDBACK);
    ck_assert_int_gt(sl_timeline_solves(full), sl_timeline_solves(shared));
    sl_timeline_free(shared);
    sl_timeline_free(full);
}
END_TEST

/* What one piece of hair goes through is its own: no other zone of the strip may lend it a solve that is
 * not its own. A porosity decides how fast oxidants come in, the cystine still there what they meet; each
 * differs alone here, as it can in a file. */
START_TEST(hair_that_differs_in_damage_or_porosity_alone_is_solved_apart)
{
    static small_scene alone;
    for (int which = 0; which < 2; which++) {
        small_scene_fill(&small);
        small.hairs[0].porosity = small.hairs[1].porosity = 1.3;
        small.hairs[0].cystine_intact = small.hairs[1].cystine_intact = 0.9;
        if (which == 0) {
            small.hairs[1].cystine_intact = 0.7;
        } else {
            small.hairs[1].porosity = 1.6;
        }
        sl_timeline *const together = solve(NULL);
        ck_assert_int_eq(sl_timeline_solves(together),
                         2 * (SMALL_ARMS - 2)); /* two hairs; one arm not predicted, one repeats another */
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            alone = small;
            alone.scene.zones = &alone.zones[zone];
            alone.scene.n_zones = 1;
            sl_timeline *own = NULL;
            ck_assert(sl_timeline_solve(&own, &alone.scene, times, TIMES, solver, NULL, NULL));
            for (int t = 0; t < TIMES; t++) {
                const sl_cell *const a = sl_timeline_cell(together, ARM_6, zone, t);
                const sl_cell *const b = sl_timeline_cell(own, ARM_6, 0, t);
                ck_assert_double_eq(a->colour_left, b->colour_left);
                ck_assert_double_eq(a->base_moved, b->base_moved);
                ck_assert_double_eq(a->cystine_lost, b->cystine_lost);
            }
            sl_timeline_free(own);
        }
        sl_timeline_free(together);
    }
}
END_TEST

START_TEST(a_pigment_that_uses_up_oxidant_slows_its_own_loss)
{
    small_scene_fill(&small);
    sl_timeline *const free_of_it = solve(NULL);
    small.scene.chemistry.pigment_feedback = true;
    sl_timeline *const with_it = solve(NULL);
    const sl_cell *const a = sl_timeline_cell(free_of_it, ARM_6, ZONE_ROOT, 4);
    const sl_cell *const b = sl_timeline_cell(with_it, ARM_6, ZONE_ROOT, 4);
    ck_assert_double_gt(b->colour_left, a->colour_left + 1e-4);
    ck_assert_double_lt(b->base_moved, a->base_moved - 1e-4);
    sl_timeline_free(free_of_it);
    sl_timeline_free(with_it);
}
END_TEST

START_TEST(a_dye_with_its_own_activation_energy_falls_back_when_warming)
{
    small_scene_fill(&small);
    small.scene.place = SL_PLACE_WRAPPED;
    sl_timeline *const plain = solve(NULL);
    for (int c = 0; c < SL_CHANNELS; c++) {
        small.dyes[1].rates.own_activation[c] = true;
        small.dyes[1].rates.activation_kj_mol[c] = 120.0;
    }
    sl_timeline *const own = solve(NULL);
    ck_assert_int_eq(sl_timeline_method(own, ARM_6, ZONE_RED), SL_SHARING_OWN_ACTIVATION);
    ck_assert_int_eq(sl_timeline_method(own, ARM_6, ZONE_VIOLET), SL_SHARING_VALID);
    /* above 32 C a steeper dye goes faster; the doses of the shared solve would not show it */
    ck_assert_double_lt(sl_timeline_cell(own, ARM_6, ZONE_RED, 5)->colour_left,
                        sl_timeline_cell(plain, ARM_6, ZONE_RED, 5)->colour_left - 1e-3);
    sl_timeline_free(plain);
    sl_timeline_free(own);
}
END_TEST

START_TEST(at_a_steady_temperature_own_activation_folds_into_the_constants)
{
    small_scene_fill(&small);
    small.scene.room_c = 25.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        small.dyes[1].rates.own_activation[c] = true;
        small.dyes[1].rates.activation_kj_mol[c] = 90.0;
    }
    sl_timeline *const folded = solve(NULL);
    ck_assert_int_eq(sl_timeline_method(folded, ARM_6, ZONE_RED), SL_SHARING_VALID);
    small.scene.chemistry.pigment_feedback = true;
    small.scene.chemistry.dye_oxidant = assumed(0.0);
    small.scene.chemistry.melanin[0].held_mol_l = assumed(0.0);
    small.scene.chemistry.melanin[1].held_mol_l = assumed(0.0);
    sl_timeline *const full = solve(NULL);
    ck_assert_double_eq_tol(sl_timeline_cell(folded, ARM_6, ZONE_RED, 6)->colour_left,
                            sl_timeline_cell(full, ARM_6, ZONE_RED, 6)->colour_left, 1e-7);
    sl_timeline_free(folded);
    sl_timeline_free(full);
}
END_TEST

START_TEST(a_timeline_can_be_solved_again_with_another_scene)
{
    small_scene_fill(&small);
    sl_timeline *timeline = solve(NULL);
    const double before = sl_timeline_cell(timeline, ARM_6, ZONE_RED, 6)->colour_left;
    small.scene.n_arms = 4;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, times, 3, solver, NULL, NULL));
    ck_assert_int_eq(sl_timeline_n_times(timeline), 3);
    small.scene.n_arms = SMALL_ARMS;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, times, TIMES, solver, NULL, NULL));
    ck_assert_double_eq(sl_timeline_cell(timeline, ARM_6, ZONE_RED, 6)->colour_left, before);
    sl_timeline_free(timeline);
}
END_TEST

/* A step holds its first moment and not its last (on_hair.c). */
START_TEST(what_lies_on_the_hair_changes_at_the_first_moment_of_a_step)
{
    static const struct {
        double clock;
        sl_lying what;
        int step, mix;
    } cases[] = {{9.99, SL_LIES_NOTHING, -1, -1},       {10.0, SL_LIES_MIX, 0, MIX_POWDER_6},
                 {39.99, SL_LIES_MIX, 0, MIX_POWDER_6}, {40.0, SL_LIES_WATER, 1, -1},
                 {42.0, SL_LIES_WATER, 2, -1},          {43.99, SL_LIES_WATER, 2, -1},
                 {44.0, SL_LIES_NOTHING, 3, -1},        {48.99, SL_LIES_NOTHING, 3, -1},
                 {49.0, SL_LIES_NOTHING, -1, -1}};
    small_scene_fill(&small);
    sl_arm *const arm = &small.arms[ARM_6];
    arm->contact_min = 10.0;
    arm->n_steps = 4;
    arm->steps[2].shampoos = 2;
    arm->steps[3] = (sl_step){.kind = SL_STEP_REST, .duration_min = 5.0};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_on_hair on = sl_arm_on_hair(arm, cases[i].clock);
        ck_assert_msg(on.what == cases[i].what && on.step == cases[i].step && on.mix == cases[i].mix, "at %g",
                      cases[i].clock);
    }
}
END_TEST

/* What cannot be told is told as it starts, for every arm and every moment. */
START_TEST(an_untold_scene_stays_as_it_starts)
{
    small_scene_fill(&small);
    small.scene.untold = true;
    sl_solver *const own = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    const double two[2] = {0.0, 40.0};
    ck_assert(sl_timeline_solve(&timeline, &small.scene, two, 2, own, NULL, NULL));
    ck_assert_int_eq(sl_timeline_solves(timeline), 0);
    ck_assert_int_eq(sl_timeline_calls(timeline), 0);
    ck_assert_int_eq(sl_timeline_n_times(timeline), 2);
    ck_assert_double_eq(sl_timeline_time(timeline, 1), 40.0);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        ck_assert(!sl_timeline_predicted(timeline, arm));
        const sl_cell *const cell = sl_timeline_cell(timeline, arm, ZONE_RED, 1);
        ck_assert_double_eq(cell->colour_left, small.arms[arm].undyed ? -1.0 : 1.0);
        ck_assert_double_eq(cell->base_moved, 0.0);
        ck_assert_double_eq(cell->cystine_lost, 0.0);
        ck_assert_double_eq(cell->level, 9.0);
        ck_assert_double_eq_tol(cell->amounts.oxidised, 0.15, 1e-15);
    }
    sl_timeline_free(timeline);
    sl_solver_free(own);
}
END_TEST

START_SUITE("timeline")
ADD(a_cell_equals_the_reading_at_its_time)
ADD(an_undyed_zone_and_an_undyed_strip_have_no_colour_to_lose)
ADD(dyed_and_undyed_hair_move_alike_under_the_same_mix)
ADD(untreated_hair_stays_and_washed_hair_loses_direct_dye)
ADD(washing_follows_its_closed_form)
ADD(an_arm_outside_the_model_is_not_predicted)
ADD(a_later_contact_shifts_the_story_and_nothing_else)
ADD(a_strip_that_does_not_repeat_another_is_solved_for_itself)
ADD(full_and_shared_systems_agree_where_sharing_is_valid)
ADD(hair_that_differs_in_damage_or_porosity_alone_is_solved_apart)
ADD(a_pigment_that_uses_up_oxidant_slows_its_own_loss)
ADD(a_dye_with_its_own_activation_energy_falls_back_when_warming)
ADD(at_a_steady_temperature_own_activation_folds_into_the_constants)
ADD(a_timeline_can_be_solved_again_with_another_scene)
ADD(what_lies_on_the_hair_changes_at_the_first_moment_of_a_step)
ADD(an_untold_scene_stays_as_it_starts)
END_SUITE
