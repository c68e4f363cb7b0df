/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pH of a mix by what it holds: what is counted as dissolved, by hand; the line over temperature beside
 * the balance itself; what must hold of any mix. The balance: test_solution.c; the same anew, for shipped
 * scenes: tests/reference/system_scipy.py.
 */
#include "slowlift/solution.h"

#include <math.h>

#include "slowlift/scene.h"
#include "slowlift/what_if.h"
#include "small_scene.h"
#include "suite.h"

static const sl_chemistry chemistry = {.potassium_solubility_mol_l = {.value = 0.222},
                                       .fibre_water_ml_g = {.value = 0.35}};

/* Invented; 1 part with 2 of liquid. */
static sl_mix powder_with(double developer, double pct)
{
    return (sl_mix){.mechanism = SL_MECHANISM_OXIDATIVE,
                    .powder_parts = 1.0,
                    .developer_parts = developer,
                    .water_parts = 2.0 - developer,
                    .developer_pct = pct,
                    .potassium_persulfate = 0.55,
                    .ammonium_persulfate = 0.20,
                    .activity = 1.0,
                    .holds = {[SL_OF_POWDER] = {[SL_METASILICATE] = assumed(0.16)}},
                    .ph_computed = true};
}

static double balance(const sl_mix *mix, double celsius)
{
    const sl_solution solution = sl_mix_solution(mix, &chemistry);
    sl_ionised found;
    ck_assert(sl_solution_ionise(&solution, celsius + SL_ZERO_C_K, &found));
    return found.ph;
}

/* By hand, per litre: 500 g of powder of 20 % ammonium and 10 % sodium persulfate, 5 % potassium persulfate
 * (25 g, all of which dissolves), 10 % percarbonate, 12.2063 % metasilicate; half the liquid is developer
 * with 0.97995 % phosphoric acid, the other half holds 1.7031 % ammonia. */
START_TEST(what_is_dissolved_is_counted_by_hand)
{
    sl_mix mix = powder_with(1.0, 6.0);
    mix.potassium_persulfate = 0.05;
    mix.sodium_persulfate = mix.percarbonate = 0.1;
    mix.holds[SL_OF_POWDER][SL_METASILICATE] = assumed(0.122063);
    mix.holds[SL_OF_DEVELOPER][SL_PHOSPHORIC_ACID] = assumed(0.0097995);
    mix.holds[SL_OF_WATER][SL_DISSOLVED_AMMONIA] = assumed(0.017031);
    const double nh4 = 100.0 / 228.2, na = 50.0 / 238.1, k = 25.0 / 270.3, soda = 50.0 / 157.01;
    for (int old = 0; old < 2; old++) {
        mix.activity = old ? 0.5 : 1.0; /* counts as fresh */
        const sl_solution of = sl_mix_solution(&mix, &chemistry);
        ck_assert_double_eq_tol(of.strong[SL_PEROXYDISULFATE], nh4 + na + k, 1e-9);
        ck_assert_double_eq_tol(of.strong[SL_POTASSIUM], 2.0 * k, 1e-9);
        ck_assert_double_eq_tol(of.strong[SL_SODIUM], 2.0 * (na + soda + 0.5), 1e-9);
        ck_assert_double_eq_tol(of.acid[SL_AMMONIA], 2.0 * nh4 + 0.5, 1e-9);
        ck_assert_double_eq_tol(of.acid[SL_SILICATE], 0.5, 1e-9);
        ck_assert_double_eq_tol(of.acid[SL_CARBONATE], soda, 1e-9);
        ck_assert_double_eq_tol(of.acid[SL_PHOSPHATE], 0.05, 1e-9);
        ck_assert_double_eq_tol(of.acid[SL_PEROXIDE], 30.0 / 34.0147 + 1.5 * soda, 1e-9);
    }
}
END_TEST

START_TEST(solid_persulfate_is_not_dissolved)
{
    const sl_mix mix = powder_with(0.0, 0.0);
    const sl_solution of = sl_mix_solution(&mix, &chemistry);
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 6.0, 0.0);
    ck_assert_double_gt(charge.undissolved_mol_l, 0.5);
    ck_assert_double_eq_tol(of.strong[SL_PEROXYDISULFATE], charge.persulfate_mol_l, 1e-12);
    ck_assert_double_eq_tol(of.strong[SL_POTASSIUM] / 2.0 + of.acid[SL_AMMONIA] / 2.0,
                            charge.persulfate_mol_l, 1e-12);
}
END_TEST

START_TEST(the_line_lies_on_the_balance)
{
    for (double pct = 0.0; pct <= 12.0; pct += 3.0) {
        sl_mix mix = powder_with(pct > 0.0 ? 2.0 : 0.0, pct);
        ck_assert(sl_mix_settle(&mix, &chemistry));
        ck_assert_double_eq_tol(sl_mix_ph(&mix, 25.0 + SL_ZERO_C_K), balance(&mix, 25.0), 1e-12);
        ck_assert_double_eq_tol(sl_mix_ph(&mix, 35.0 + SL_ZERO_C_K), balance(&mix, 35.0), 1e-12);
        for (double celsius = 15.0; celsius <= 45.0; celsius += 5.0) {
            ck_assert_double_eq_tol(sl_mix_ph(&mix, celsius + SL_ZERO_C_K), balance(&mix, celsius), 0.02);
        }
        ck_assert_double_lt(sl_mix_ph(&mix, 35.0 + SL_ZERO_C_K), mix.ph.value - 0.15);
    }
}
END_TEST

static uint64_t state = 20261201;

static double drawn(double from, double to)
{
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return from + (to - from) * (double)(state >> 11) / 9007199254740992.0;
}

/* Of any powder: its pH with water, and with as much developer, whose peroxide is an acid and who may hold
 * another. */
START_TEST(no_powder_is_more_alkaline_with_developer_than_with_water)
{
    for (int i = 0; i < 300; i++) {
        sl_mix water = powder_with(0.0, 0.0);
        water.water_parts = drawn(1.0, 4.0);
        water.potassium_persulfate = drawn(0.0, 0.6);
        water.ammonium_persulfate = drawn(0.0, 0.2);
        water.sodium_persulfate = drawn(0.0, 0.1);
        water.percarbonate = i % 3 == 0 ? drawn(0.0, 0.2) : 0.0;
        water.holds[SL_OF_POWDER][SL_METASILICATE] = assumed(i % 2 == 0 ? drawn(0.02, 0.2) : 0.0);
        water.holds[SL_OF_POWDER][SL_SODA] = assumed(drawn(0.01, 0.2));
        water.holds[SL_OF_POWDER][SL_TRISODIUM_PHOSPHATE] = assumed(drawn(0.0, 0.1));
        sl_mix with = water;
        with.developer_parts = water.water_parts;
        with.water_parts = 0.0;
        with.developer_pct = drawn(1.0, 12.0);
        with.holds[SL_OF_DEVELOPER][SL_PHOSPHORIC_ACID] = assumed(drawn(0.0, 0.002));
        ck_assert(sl_mix_settle(&water, &chemistry) && sl_mix_settle(&with, &chemistry));
        for (double celsius = 15.0; celsius <= 40.0; celsius += 5.0) {
            ck_assert_double_ge(sl_mix_ph(&water, celsius + SL_ZERO_C_K),
                                sl_mix_ph(&with, celsius + SL_ZERO_C_K));
        }
    }
}
END_TEST

START_TEST(alkali_raises_it_and_acid_lowers_it)
{
    for (int part = 0; part < SL_HOLDERS; part++) {
        for (int i = 0; i < SL_INGREDIENTS; i++) {
            sl_mix mix = powder_with(1.0, 6.0), more = mix;
            more.holds[part][i].value += 0.02;
            ck_assert(sl_mix_settle(&mix, &chemistry) && sl_mix_settle(&more, &chemistry));
            ck_assert_msg((more.ph.value > mix.ph.value) == (i != SL_PHOSPHORIC_ACID), "part %d, %d: %g, %g",
                          part, i, mix.ph.value, more.ph.value);
        }
    }
}
END_TEST

/* Better known amounts make a pH that is better known, up to what the balance itself is worth. */
START_TEST(its_doubt_is_that_of_amounts_and_of_the_balance)
{
    sl_mix mix = powder_with(2.0, 6.0), more = mix;
    ck_assert(sl_mix_settle(&mix, &chemistry));
    sl_mix less = mix;
    more.holds[SL_OF_POWDER][SL_METASILICATE].value *= 1.15;
    less.holds[SL_OF_POWDER][SL_METASILICATE].value /= 1.15;
    const double amount = 0.5 * (balance(&more, 25.0) - balance(&less, 25.0));
    ck_assert_double_gt(amount, 0.1);
    ck_assert_double_gt(mix.ph_doubt, amount);
    ck_assert_double_lt(mix.ph_doubt, hypot(amount, 0.06));
    ck_assert_int_eq(mix.ph.grade, SL_GRADE_ASSUMED);
    mix.holds[SL_OF_POWDER][SL_METASILICATE].grade = SL_GRADE_MEASURED_HERE;
    ck_assert(sl_mix_settle(&mix, &chemistry));
    ck_assert_double_lt(mix.ph_doubt, 0.06);
    ck_assert_double_ge(mix.ph_doubt, 0.05);
    ck_assert_int_eq(mix.ph.grade, SL_GRADE_COMPUTED);
}
END_TEST

/* Integrated here in steps of a minute, with the balance at each: the curve lies on it. Ammonia leaves faster
 * when more of it may; peroxide without persulfate makes no acid. */
START_TEST(the_course_lies_on_the_balance)
{
    sl_chemistry ages = chemistry;
    ages.pka_25c.value = 11.65;
    ages.pka_enthalpy_kj_mol.value = 34.3;
    ages.couple_l_mol_min.value = 0.15;
    ages.ammonia_leaves_per_min.value = 0.005;
    for (int i = 0; i < 3; i++) {
        sl_mix mix = powder_with(i == 0 ? 0.0 : 2.0, i == 0 ? 0.0 : 6.0 * i);
        mix.loss_per_min.value = 1.5e-3;
        ck_assert(sl_mix_settle(&mix, &ages));
        const sl_charge charge = sl_mix_charge(&mix, &ages, 1.0, 0.0);
        sl_solution now = sl_mix_solution(&mix, &ages);
        sl_ionised found;
        double solid = charge.undissolved_mol_l, fresh = 0.0;
        for (int t = 0; t <= 60; t++) {
            ck_assert(sl_solution_ionise(&now, SL_REFERENCE_K, &found));
            fresh = t == 0 ? found.ph : fresh;
            ck_assert_double_eq_tol(sl_mix_drift(&mix, t), found.ph - fresh, 0.02);
            const double share = sl_perhydroxyl_share(&ages, found.ph, SL_REFERENCE_K);
            const double used = 0.15 * share * now.acid[SL_PEROXIDE] * now.strong[SL_PEROXYDISULFATE];
            const double from_solid = fmin(used, solid);
            solid -= from_solid;
            now.strong[SL_PEROXYDISULFATE] += from_solid - used;
            now.strong[SL_POTASSIUM] += 2.0 * from_solid;
            now.acid[SL_SULFATE] += 2.0 * used;
            now.acid[SL_PEROXIDE] -= used + 1.5e-3 * now.acid[SL_PEROXIDE];
            now.acid[SL_AMMONIA] -= 0.005 * found.share[SL_AMMONIA][1] * now.acid[SL_AMMONIA];
        }
        ck_assert_double_lt(sl_mix_drift(&mix, 60), i == 0 ? -0.02 : -0.2);
        ages.couple_l_mol_min.value = ages.ammonia_leaves_per_min.value = mix.loss_per_min.value = 0.0;
        ck_assert(sl_mix_settle(&mix, &ages));
        ck_assert_double_eq_tol(sl_mix_drift(&mix, 60), 0.0, 1e-9);
        ages.couple_l_mol_min.value = 0.15;
        ages.ammonia_leaves_per_min.value = 0.005;
    }
}
END_TEST

START_TEST(a_typed_one_stays)
{
    sl_mix mix = powder_with(2.0, 6.0);
    mix.ph_computed = false;
    mix.ph = (sl_param){.value = 9.3, .grade = SL_GRADE_MEASURED_HERE};
    ck_assert(sl_mix_settle(&mix, &chemistry));
    ck_assert_double_eq(mix.ph.value, 9.3);
    ck_assert_double_eq(sl_mix_ph(&mix, 310.0), 9.3); /* nobody said how it falls */
}
END_TEST

START_TEST(a_change_of_the_mix_changes_its_ph)
{
    small_scene small;
    sl_error error = {.code = SL_OK};
    static const sl_setting settings[] = {SL_SETTING_STRENGTH, SL_SETTING_WATER, SL_SETTING_RATIO};
    static const double to[] = {12.0, 4.0, 5.0};
    small_scene_fill(&small);
    sl_mix *const own = &small.mixes[MIX_POWDER_6];
    const double typed = own->ph.value;
    own->ph_computed = true;
    own->holds[SL_OF_POWDER][SL_METASILICATE] = assumed(0.15);
    ck_assert(sl_mix_settle(own, &small.scene.chemistry));
    for (int i = 0; i < 3; i++) {
        sl_changes changes = {.set = {false}};
        sl_variant variant;
        ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, settings[i], to[i], &error));
        sl_variant_make(&variant, &small.scene, ARM_6, &changes);
        sl_mix again = variant.mixes[0];
        ck_assert(sl_mix_settle(&again, &small.scene.chemistry));
        ck_assert_double_eq(variant.mixes[0].ph.value, again.ph.value);
        ck_assert_double_gt(fabs(variant.mixes[0].ph.value - own->ph.value), 0.001);
        own->ph_computed = false;
        own->ph.value = typed;
        sl_variant_make(&variant, &small.scene, ARM_6, &changes);
        ck_assert_double_eq(variant.mixes[0].ph.value, typed);
        own->ph_computed = true;
        ck_assert(sl_mix_settle(own, &small.scene.chemistry));
    }
}
END_TEST

START_SUITE("mix ph")
ADD(what_is_dissolved_is_counted_by_hand)
ADD(solid_persulfate_is_not_dissolved)
ADD(the_line_lies_on_the_balance)
ADD(no_powder_is_more_alkaline_with_developer_than_with_water)
ADD(alkali_raises_it_and_acid_lowers_it)
ADD(its_doubt_is_that_of_amounts_and_of_the_balance)
ADD(the_course_lies_on_the_balance)
ADD(a_typed_one_stays)
ADD(a_change_of_the_mix_changes_its_ph)
END_SUITE
