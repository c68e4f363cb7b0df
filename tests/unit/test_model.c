/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/model.h"

#include <math.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

typedef double pools[SL_MELANINS][SL_STAGES];

static small_scene small;

static void fresh(void)
{
    small_scene_fill(&small);
}

START_TEST(every_word_of_every_list_is_there)
{
    for (int i = 0; i < SL_GRADE_COUNT; i++) {
        ck_assert_uint_gt(strlen(sl_grade_word((sl_grade)i)), 2);
    }
    for (int i = 0; i < SL_DYE_CLASS_COUNT; i++) {
        ck_assert_uint_gt(strlen(sl_dye_class_word((sl_dye_class)i)), 2);
    }
    ck_assert_str_eq(sl_grade_word(SL_GRADE_ASSUMED), "assumed");
    ck_assert_str_eq(sl_mechanism_word(SL_MECHANISM_REDUCTIVE), "reductive");
    ck_assert_str_eq(sl_mix_class_word(SL_MIX_WATER), "plain water");
    ck_assert_str_eq(sl_place_word(SL_PLACE_WRAPPED), "wrapped");
}
END_TEST

/* 1 part powder with 2 parts of 6 %: all of the liquid is developer, so 6 % = 1.764 mol/L;
 * in the paste 6 * 2/3 = 4 %. */
START_TEST(a_charge_is_diluted_by_weight)
{
    fresh();
    const sl_charge charge = sl_mix_charge(&small.mixes[MIX_POWDER_6], &small.scene.chemistry, 6.0, 0.0);
    ck_assert_double_eq_tol(charge.peroxide_mol_l, 1.764, 5e-4);
    ck_assert_double_eq_tol(charge.on_hair_pct, 4.0, 1e-12);
    ck_assert_double_eq_tol(charge.liquid_pct, 6.0, 1e-12);
    ck_assert_double_eq_tol(charge.liquid_ml_per_g, 4.0, 1e-12);
}
END_TEST

START_TEST(water_in_the_hair_dilutes_by_its_grams)
{
    fresh();
    const sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    const sl_charge dry = sl_mix_charge(mix, &small.scene.chemistry, 6.0, 0.0);
    const sl_charge damp = sl_mix_charge(mix, &small.scene.chemistry, 6.0, 0.4);
    /* 6 g of mix hold 4 g of liquid; 0.4 g of water make it 4.4 */
    ck_assert_double_eq_tol(damp.peroxide_mol_l, dry.peroxide_mol_l * 4.0 / 4.4, 1e-12);
    ck_assert_double_eq_tol(damp.on_hair_pct, dry.on_hair_pct, 1e-12);
}
END_TEST

START_TEST(nothing_of_the_powder_is_lost_between_dissolved_and_solid)
{
    fresh();
    sl_mix mix = small.mixes[MIX_POWDER_WATER];
    for (int i = 1; i <= 10; i++) {
        mix.water_parts = 0.5 * i;
        mix.activity = 0.1 * i;
        const sl_charge charge = sl_mix_charge(&mix, &small.scene.chemistry, 6.0, 0.0);
        const double offered = 1000.0 * mix.activity / mix.water_parts * (0.60 / 270.3 + 0.22 / 228.2);
        ck_assert_double_eq_tol(charge.persulfate_mol_l + charge.undissolved_mol_l, offered, 1e-12);
        ck_assert_double_ge(charge.undissolved_mol_l, -1e-15);
    }
}
END_TEST

/* The chain as a differential equation in the exponent, by many small Euler-midpoint steps. */
static void chain_by_steps(const sl_melanin *melanin, double o, double y[SL_STAGES])
{
    const int steps = 200000;
    const double h = o / steps;
    const double rho = melanin->opened_ratio.value;
    const double sigma = melanin->yellow_ratio.value;
    for (int i = 0; i < steps; i++) {
        const double b = y[0] - 0.5 * h * y[0];
        const double s = y[1] + 0.5 * h * (y[0] - rho * y[1]);
        const double w = y[2] + 0.5 * h * (rho * y[1] - sigma * y[2]);
        y[0] -= h * b;
        y[1] += h * (b - rho * s);
        y[2] += h * (rho * s - sigma * w);
    }
}

START_TEST(the_closed_chain_follows_its_differential_equation)
{
    fresh();
    static const double ratios[][2] = {{0.45, 0.25},        {0.6, 0.6},          {1.0, 0.25},
                                       {0.5, 1.0},          {1.0, 1.0},          {2.0, 3.0},
                                       {0.45, 0.45000001},  {0.0, 0.0},          {1.0 + 1e-10, 1.25},
                                       {1.0 + 1e-10, 0.75}, {1.25, 1.0 + 1e-10}, {0.75, 1.0 + 1e-10}};
    for (size_t r = 0; r < sizeof ratios / sizeof ratios[0]; r++) {
        sl_melanin *const melanin = &small.scene.chemistry.melanin[SL_EUMELANIN];
        melanin->opened_ratio = assumed(ratios[r][0]);
        melanin->yellow_ratio = assumed(ratios[r][1]);
        for (double o = 0.25; o < 6.0; o *= 3.0) {
            const double exponent[SL_MELANINS] = {o, o};
            const pools from = {{0.7, 0.2, 0.1}, {0}};
            pools to;
            double stepped[SL_STAGES] = {0.7, 0.2, 0.1};
            sl_melanin_move(&small.scene.chemistry, exponent, from, to);
            chain_by_steps(melanin, o, stepped);
            for (int stage = 0; stage < SL_STAGES; stage++) {
                /* midpoint with h = o/2e5: error of order h^2 o, below 1e-8 */
                ck_assert_double_eq_tol(to[SL_EUMELANIN][stage], stepped[stage], 1e-8);
            }
        }
    }
}
END_TEST

START_TEST(no_exposure_moves_nothing)
{
    fresh();
    const double exponent[SL_MELANINS] = {0.0, 0.0};
    pools to;
    const pools from = {{0.7, 0.2, 0.1}, {0.3, 0.2, 0.1}};
    sl_melanin_move(&small.scene.chemistry, exponent, from, to);
    ck_assert_mem_eq(to, from, sizeof to);
}
END_TEST

START_TEST(one_level_is_one_ratio_of_absorbance)
{
    fresh();
    const sl_chemistry *const ch = &small.scene.chemistry;
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 4.0, 1.0, 0.62), 1.0, 1e-12);
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 4.0, 1.0, pow(0.62, 3.5)), 3.5, 1e-12);
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 10.0, 1.0, 1e-9), 0.5, 1e-12);
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 10.0, 1.0, 0.0), 0.5, 1e-12);
    ck_assert_double_eq(sl_levels_lifted(ch, 4.0, 1.0, 1.2), 0.0);
    ck_assert_double_eq(sl_levels_lifted(ch, 4.0, 0.0, 0.0), 0.0);
}
END_TEST

START_TEST(prelightened_hair_has_the_absorbance_of_its_level)
{
    fresh();
    const sl_chemistry *const ch = &small.scene.chemistry;
    const pools natural = {{2.0}, {0.5}};
    const double a0 = sl_melanin_absorbance(ch, natural);
    for (double warmth = 0.0; warmth <= 1.0; warmth += 0.25) {
        sl_hair hair = {.level = 9.0, .natural_level = 5.0, .warmth_left = warmth};
        ck_assert(sl_hair_prelighten(&hair, ch, 2.0, 0.5, NULL));
        const double a = sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])hair.pool);
        ck_assert_double_eq_tol(a, a0 * pow(0.62, 4.0), 1e-9 * a0);
        ck_assert(warmth > 0.0 || hair.pool[SL_EUMELANIN][SL_YELLOW] <= 0.0);
    }
}
END_TEST

/* The level law holds for a tenth of a level as for four: the file may say 5.1 over 5. */
START_TEST(hair_lightened_by_a_little_has_its_level_too)
{
    fresh();
    const sl_chemistry *const ch = &small.scene.chemistry;
    const pools natural = {{2.0}, {0.5}};
    const double a0 = sl_melanin_absorbance(ch, natural);
    for (double lift = 0.01; lift < 3.0; lift *= 1.7) {
        sl_hair hair = {.level = 5.0 + lift, .natural_level = 5.0, .warmth_left = 1.0};
        double nearest = 0.0;
        ck_assert(sl_hair_prelighten(&hair, ch, 2.0, 0.5, &nearest));
        const double a = sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])hair.pool);
        ck_assert_double_eq_tol(sl_levels_lifted(ch, 5.0, a0, a), lift, 1e-9);
        ck_assert_double_ge(nearest, hair.level - 1e-9); /* this level and more can be had */
        ck_assert_double_gt(hair.pool[SL_EUMELANIN][SL_OPENED], 0.0);
    }
}
END_TEST

START_TEST(natural_hair_is_all_bound)
{
    fresh();
    sl_hair hair = {.level = 5.0, .natural_level = 5.0};
    ck_assert(sl_hair_prelighten(&hair, &small.scene.chemistry, 2.0, 0.5, NULL));
    const pools natural = {{2.0}, {0.5}};
    ck_assert_mem_eq(hair.pool, natural, sizeof natural);
}
END_TEST

START_TEST(hair_is_not_lightened_downward)
{
    fresh();
    sl_hair hair = {.level = 4.0, .natural_level = 5.0};
    ck_assert(!sl_hair_prelighten(&hair, &small.scene.chemistry, 2.0, 0.5, NULL));
}
END_TEST

/* With no step from opened to yellow and none from yellow to colourless, what was bound ends as opened
 * melanin: the absorbance of opened_weight of all, and no more is to be had. */
START_TEST(hair_that_cannot_reach_its_level_is_refused_with_the_nearest)
{
    fresh();
    sl_chemistry ch = small.scene.chemistry;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        ch.melanin[kind].opened_ratio.value = ch.melanin[kind].yellow_ratio.value = 0.0;
        ch.melanin[kind].opened_weight.value = 0.3;
        ch.melanin[kind].yellow_weight.value = 0.05;
    }
    const double reachable = 5.0 + log(1.0 / 0.3) / log(1.0 / ch.level_ratio.value);
    double nearest = 0.0;
    sl_hair hair = {.level = 10.0, .natural_level = 5.0, .warmth_left = 1.0};
    ck_assert(!sl_hair_prelighten(&hair, &ch, 2.0, 0.5, &nearest));
    ck_assert_double_eq_tol(nearest, reachable, 1e-9);
    hair.level = reachable - 0.1;
    ck_assert(sl_hair_prelighten(&hair, &ch, 2.0, 0.5, NULL));
    const pools natural = {{2.0}, {0.5}};
    const double a = sl_melanin_absorbance(&ch, (const double(*)[SL_STAGES])hair.pool);
    ck_assert_double_eq_tol(sl_levels_lifted(&ch, 5.0, sl_melanin_absorbance(&ch, natural), a),
                            hair.level - 5.0, 1e-9);
}
END_TEST

START_TEST(where_it_lies_gives_the_temperature)
{
    fresh();
    sl_scene *const scene = &small.scene;
    scene->room_c = 21.0;
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 50.0, 50.0), 294.15, 1e-9);
    scene->shift_k = 2.0;
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 50.0, 50.0), 296.15, 1e-9);
    scene->shift_k = 0.0;
    scene->place = SL_PLACE_HEAD;
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 50.0, 50.0), 305.15, 1e-9);
    ck_assert(sl_scene_isothermal(scene));
    scene->place = SL_PLACE_WRAPPED;
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 50.0, 0.0), 305.15, 1e-9);
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 50.0, 8.0), 305.15 + 3.0 * (1.0 - exp(-1.0)), 1e-9);
    ck_assert(!sl_scene_isothermal(scene));
}
END_TEST

START_TEST(points_of_temperature_are_joined_by_straight_lines)
{
    fresh();
    sl_scene *const scene = &small.scene;
    scene->n_points = 3;
    scene->points[0] = (sl_course_point){5.0, 20.0};
    scene->points[1] = (sl_course_point){15.0, 30.0};
    scene->points[2] = (sl_course_point){20.0, 28.0};
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 0.0, 0.0), 293.15, 1e-9);
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 10.0, 0.0), 298.15, 1e-9);
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 17.5, 0.0), 302.15, 1e-9);
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 90.0, 0.0), 301.15, 1e-9);
    ck_assert(!sl_scene_isothermal(scene));
    scene->points[1].temperature_c = scene->points[2].temperature_c = 20.0;
    ck_assert(sl_scene_isothermal(scene));
    scene->n_points = 1; /* one point holds before and after it, whatever the room's is */
    scene->place = SL_PLACE_WRAPPED;
    ck_assert(sl_scene_isothermal(scene));
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 0.0, 0.0), 293.15, 1e-9);
    ck_assert_double_eq_tol(sl_scene_temperature_k(scene, 30.0, 30.0), 293.15, 1e-9);
}
END_TEST

/* ---- edges ------------------------------------------------------------------------------------- */

START_TEST(a_bound_is_kept_up_to_its_very_value)
{
    const sl_bound half = {0.5, true}, nothing = {0.0, true}, none = {0.0, false};
    ck_assert(sl_bound_kept(half, 0.5) && !sl_bound_kept(half, nextafter(0.5, 1.0)));
    ck_assert(sl_bound_kept(nothing, 0.0) && !sl_bound_kept(nothing, 1e-300));
    ck_assert(sl_bound_kept(none, 1e9));
    ck_assert_double_eq(sl_bound_reached_at(half), 0.5);
    ck_assert(sl_bound_reached_at(nothing) > 0.0 && sl_bound_reached_at(nothing) < 1e-300);
}
END_TEST

/* No level is lost that was not gained: none for no loss, all up to 10.5 for all of it, one for each ratio.
 */
START_TEST(levels_lifted_end_at_their_ends)
{
    fresh();
    const sl_chemistry *const ch = &small.scene.chemistry; /* one level is a ratio of 0.62 */
    ck_assert_double_eq(sl_levels_lifted(ch, 5.0, 1.0, 1.0), 0.0);
    ck_assert_double_eq(sl_levels_lifted(ch, 5.0, 1.0, 1.1), 0.0);
    ck_assert_double_eq(sl_levels_lifted(ch, 5.0, 0.0, 0.0), 0.0);
    ck_assert_double_eq(sl_levels_lifted(ch, 5.0, 1.0, 0.0), 5.5);
    ck_assert_double_eq(sl_levels_lifted(ch, 5.0, 1.0, 1e-9), 5.5);
    ck_assert_double_eq(sl_levels_lifted(ch, 11.0, 1.0, 0.0), 0.0);
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 5.0, 2.0, 2.0 * 0.62 * 0.62), 2.0, 1e-12);
    ck_assert_double_eq_tol(sl_levels_lifted(ch, 5.0, 2.0, 2.0 * pow(0.62, 0.01)), 0.01, 1e-12);
}
END_TEST

/* The steps of an arm, by hand: which put a mix on, from which one on. */
START_TEST(applications_are_found_among_the_steps)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->n_steps = 4;
    arm->steps[3] = arm->steps[0];
    ck_assert_int_eq(sl_arm_next_application(arm, 0), 0);
    ck_assert_int_eq(sl_arm_next_application(arm, 1), 3);
    ck_assert_int_eq(sl_arm_next_application(arm, 3), 3);
    ck_assert_int_eq(sl_arm_next_application(arm, 4), -1);
    ck_assert_int_eq(sl_arm_applications(arm), 2);
    ck_assert_ptr_eq(sl_arm_application(arm), &arm->steps[0]);
    arm->steps[0].kind = SL_STEP_REST;
    ck_assert_ptr_eq(sl_arm_application(arm), &arm->steps[3]);
    arm->n_steps = 3;
    ck_assert_ptr_null(sl_arm_application(arm));
    ck_assert_int_eq(sl_arm_applications(arm), 0);
    ck_assert_int_eq(sl_scene_arm(&small.scene, "mild"), ARM_MILD);
    ck_assert_int_eq(sl_scene_arm(&small.scene, "nobody"), -1);
    ck_assert_int_eq(sl_scene_zone(&small.scene, "undyed"), ZONE_UNDYED);
    ck_assert_int_eq(sl_scene_zone(&small.scene, "nowhere"), -1);
    small.scene.n_arms = ARM_MILD;
    small.scene.n_zones = ZONE_UNDYED;
    ck_assert_int_eq(sl_scene_arm(&small.scene, "mild"), -1);
    ck_assert_int_eq(sl_scene_zone(&small.scene, "undyed"), -1);
}
END_TEST

/* Minutes by hand, with a shampoo whose duration nobody set: it takes a minute each. */
START_TEST(steps_follow_each_other_and_a_shampoo_takes_a_minute)
{
    static const double begins[] = {0.0, 30.0, 32.0, 35.0, 42.0};
    const sl_arm arm = {.contact_min = 4.0,
                        .n_steps = 4,
                        .steps = {{.kind = SL_STEP_APPLY, .duration_min = 30.0},
                                  {.kind = SL_STEP_RINSE, .duration_min = 2.0},
                                  {.kind = SL_STEP_SHAMPOO, .shampoos = 3},
                                  {.kind = SL_STEP_APPLY, .duration_min = 7.0}}};
    for (int i = 0; i <= arm.n_steps; i++) {
        ck_assert_double_eq(sl_arm_minutes_before(&arm, i), begins[i]);
    }
    ck_assert_double_eq(sl_step_minutes(&arm.steps[2]), 3.0);
    ck_assert_int_eq(sl_arm_last_application(&arm), 3);
    ck_assert_int_eq(sl_arm_last_application(&(sl_arm){.n_steps = 0}), -1);
}
END_TEST

/* What keeps an arm from being asked about: no mix, one that does not oxidise, an undyed strip. */
START_TEST(only_a_mix_inside_the_model_on_dyed_hair_removes)
{
    fresh();
    ck_assert(sl_arm_removes(&small.scene, &small.arms[ARM_6]));
    ck_assert(!sl_arm_removes(&small.scene, &small.arms[ARM_UNTREATED]));
    ck_assert(sl_arm_in_model(&small.scene, &small.arms[ARM_UNTREATED]));
    ck_assert(!sl_arm_removes(&small.scene, &small.arms[ARM_UNDYED]));
    ck_assert(sl_arm_in_model(&small.scene, &small.arms[ARM_UNDYED]));
    ck_assert(!sl_arm_removes(&small.scene, &small.arms[ARM_REDUCING]));
    ck_assert(!sl_arm_in_model(&small.scene, &small.arms[ARM_REDUCING]));
    small.arms[ARM_6].n_steps = 4; /* one bowl of two is enough */
    small.arms[ARM_6].steps[3] = small.arms[ARM_REDUCING].steps[0];
    ck_assert(!sl_arm_removes(&small.scene, &small.arms[ARM_6]));
}
END_TEST

/* Temperatures point by point: the first holds before it, the last behind it, each at its own moment. */
START_TEST(temperatures_are_those_of_the_points_at_and_beyond_them)
{
    fresh();
    small.scene.n_points = 3;
    small.scene.points[0] = (sl_course_point){10.0, 20.0};
    small.scene.points[1] = (sl_course_point){20.0, 30.0};
    small.scene.points[2] = (sl_course_point){40.0, 10.0};
    static const double at[][2] = {{0.0, 20.0},  {10.0, 20.0}, {15.0, 25.0}, {20.0, 30.0},
                                   {25.0, 25.0}, {40.0, 10.0}, {99.0, 10.0}};
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        ck_assert_double_eq_tol(sl_scene_temperature_k(&small.scene, at[i][0], 3.0), at[i][1] + 273.15,
                                1e-12);
    }
    ck_assert(!sl_scene_isothermal(&small.scene));
    small.scene.points[1].temperature_c = small.scene.points[2].temperature_c = 20.0;
    ck_assert(sl_scene_isothermal(&small.scene));
    small.scene.points[2].temperature_c = 20.0 - 1e-9;
    ck_assert(!sl_scene_isothermal(&small.scene));
    small.scene.points[2].temperature_c = 20.0 + 1e-9;
    ck_assert(!sl_scene_isothermal(&small.scene));
    double coldest = 0.0, warmest = 0.0;
    small.scene.points[0].temperature_c = 12.0;
    small.scene.points[1].temperature_c = 31.0;
    small.scene.shift_k = 1.5;
    sl_scene_warmth(&small.scene, &coldest, &warmest);
    ck_assert_double_eq(coldest, 13.5);
    ck_assert_double_eq(warmest, 32.5);
    small.scene.n_points = 0;
    small.scene.place = SL_PLACE_WRAPPED; /* 32, and up to three more */
    sl_scene_warmth(&small.scene, &coldest, &warmest);
    ck_assert_double_eq(coldest, 33.5);
    ck_assert_double_eq(warmest, 36.5);
    ck_assert(!sl_scene_isothermal(&small.scene));
    small.scene.chemistry.wrapped_rise_k.value = 0.0;
    ck_assert(sl_scene_isothermal(&small.scene));
    small.scene.chemistry.wrapped_rise_k.value = 3.0;
    /* under a wrap it rises by 3 K with a time of 8 min, from the contact on */
    ck_assert_double_eq_tol(sl_scene_temperature_k(&small.scene, 50.0, 8.0),
                            273.15 + 33.5 + 3.0 * (1.0 - exp(-1.0)), 1e-12);
    ck_assert_double_eq_tol(sl_scene_temperature_k(&small.scene, 50.0, -8.0), 273.15 + 33.5, 1e-12);
    small.scene.place = SL_PLACE_HEAD;
    ck_assert_double_eq_tol(sl_scene_temperature_k(&small.scene, 50.0, 8.0), 273.15 + 33.5, 1e-12);
    sl_scene_warmth(&small.scene, &coldest, &warmest);
    ck_assert_double_eq(warmest, 33.5);
}
END_TEST

/* Persulfates of all three salts, percarbonate and an older powder, by hand: per litre of liquid 500 g of
 * powder, a tenth of it each salt, 4 % percarbonate, all of it at 80 %. */
START_TEST(each_salt_of_a_powder_counts_by_its_own_weight)
{
    fresh();
    sl_mix mix = small.mixes[MIX_POWDER_6];
    mix.activity = 0.8;
    mix.potassium_persulfate = mix.ammonium_persulfate = mix.sodium_persulfate = 0.1;
    mix.percarbonate = 0.04;
    small.scene.chemistry.potassium_solubility_mol_l.value = 10.0; /* all of it dissolves */
    const sl_charge charge = sl_mix_charge(&mix, &small.scene.chemistry, 6.0, 0.0);
    const double per_l = 500.0 * 0.8;
    ck_assert_double_eq_tol(charge.persulfate_mol_l, per_l * 0.1 * (1.0 / 270.3 + 1.0 / 228.2 + 1.0 / 238.1),
                            1e-9);
    ck_assert_double_eq_tol(charge.undissolved_mol_l, 0.0, 1e-12);
    const double more = per_l * 0.04 * 1.5 / 157.01;
    ck_assert_double_eq_tol(charge.peroxide_mol_l, 60.0 / 34.0147 + more, 1e-9);
    ck_assert_double_eq_tol(charge.liquid_pct, 6.0 + more * 3.40147, 1e-9);
    ck_assert_double_eq_tol(charge.on_hair_pct, (12.0 + 80.0 * 0.04 * 1.5 * 34.0147 / 157.01) / 3.0, 1e-9);
    ck_assert_double_eq_tol(charge.saturation_mol_l, charge.persulfate_mol_l, 1e-15);
}
END_TEST

/* Of s mol/L alone, (2x)^2 (c + x) = 4 s^3 dissolve: s without other persulfate, s/2 beside c = 3.5 s. */
START_TEST(a_salt_dissolves_to_its_solubility_and_to_half_of_it_beside_so_much_of_another)
{
    fresh();
    sl_mix mix = small.mixes[MIX_POWDER_WATER];
    mix.ammonium_persulfate = mix.sodium_persulfate = 0.0;
    const double per_l = 1000.0 * mix.powder_parts * mix.activity / mix.water_parts;
    sl_param *const solubility = &small.scene.chemistry.potassium_solubility_mol_l;
    for (int i = 1; i <= 4; i++) {
        solubility->value = 0.06 * i;
        sl_charge charge = sl_mix_charge(&mix, &small.scene.chemistry, 6.0, 0.0);
        ck_assert_double_eq_tol(charge.persulfate_mol_l, solubility->value, 1e-12);
        sl_mix beside = mix;
        beside.sodium_persulfate = 3.5 * solubility->value * 238.1 / per_l;
        charge = sl_mix_charge(&beside, &small.scene.chemistry, 6.0, 0.0);
        ck_assert_double_eq_tol(charge.persulfate_mol_l, 4.0 * solubility->value, 1e-12);
        beside.sodium_persulfate = 0.0;
        beside.ammonium_persulfate = 3.5 * solubility->value * 228.2 / per_l;
        charge = sl_mix_charge(&beside, &small.scene.chemistry, 6.0, 0.0);
        ck_assert_double_eq_tol(charge.persulfate_mol_l, 4.0 * solubility->value, 1e-12);
    }
}
END_TEST

/* One litre of 22.414 volume gives a mole of oxygen, of two moles of peroxide. */
START_TEST(a_volume_strength_is_the_oxygen_that_a_litre_gives)
{
    ck_assert_double_eq_tol(sl_pct_of_volume_strength(22.414), 2.0 * 3.40147, 1e-12);
    ck_assert_double_eq_tol(sl_volume_strength(2.0 * 3.40147), 22.414, 1e-12);
    ck_assert_double_eq_tol(sl_peroxide_mol_l(3.40147), 1.0, 1e-14);
    for (int volume = 0; volume <= 40; volume += 10) { /* the labels of the trade: 3, 6, 9, 12 % */
        ck_assert_double_eq_tol(sl_pct_of_volume_strength(volume), 0.3 * volume, 0.15);
        ck_assert_double_eq_tol(sl_volume_strength(sl_pct_of_volume_strength(volume)), volume, 1e-12);
    }
}
END_TEST

START_TEST(where_a_zone_is_to_come_near_undyed_hair_there_is_no_one_share)
{
    double share = 0.0;
    fresh();
    for (int near = 0; near < 2; near++) {
        for (int z = 0; z < small.scene.n_zones; z++) {
            small.scene.aims.zone_left[z] = 0.25;
            small.scene.aims.zone_near[z] = near ? 20.0 : 0.0;
        }
        ck_assert_int_eq(sl_goal_share(&small.scene, ZONE_RED, &share), near == 0);
        ck_assert_int_eq(sl_goal_share(&small.scene, -1, &share), near == 0);
    }
}
END_TEST

START_SUITE("model")
ADD(every_word_of_every_list_is_there)
ADD(a_charge_is_diluted_by_weight)
ADD(water_in_the_hair_dilutes_by_its_grams)
ADD(nothing_of_the_powder_is_lost_between_dissolved_and_solid)
ADD(the_closed_chain_follows_its_differential_equation)
ADD(no_exposure_moves_nothing)
ADD(one_level_is_one_ratio_of_absorbance)
ADD(prelightened_hair_has_the_absorbance_of_its_level)
ADD(hair_lightened_by_a_little_has_its_level_too)
ADD(natural_hair_is_all_bound)
ADD(hair_is_not_lightened_downward)
ADD(hair_that_cannot_reach_its_level_is_refused_with_the_nearest)
ADD(where_it_lies_gives_the_temperature)
ADD(points_of_temperature_are_joined_by_straight_lines)
ADD(a_bound_is_kept_up_to_its_very_value)
ADD(levels_lifted_end_at_their_ends)
ADD(applications_are_found_among_the_steps)
ADD(steps_follow_each_other_and_a_shampoo_takes_a_minute)
ADD(only_a_mix_inside_the_model_on_dyed_hair_removes)
ADD(temperatures_are_those_of_the_points_at_and_beyond_them)
ADD(each_salt_of_a_powder_counts_by_its_own_weight)
ADD(a_salt_dissolves_to_its_solubility_and_to_half_of_it_beside_so_much_of_another)
ADD(a_volume_strength_is_the_oxygen_that_a_litre_gives)
ADD(where_a_zone_is_to_come_near_undyed_hair_there_is_no_one_share)
END_SUITE
