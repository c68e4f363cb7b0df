/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The arithmetic of a mix against the world: ideal gas, dilution, solubility with a
 * common ion, ionisation, Arrhenius. The source of each expected number stands beside it.
 */
#include <math.h>
#include <stdlib.h>

#include "slowlift/kinetics.h"
#include "slowlift/model.h"
#include "slowlift/plan.h"
#include "tools/built_scene.h"
#include "unit/suite.h"

/* ---- volume strength --------------------------------------------------------------- */

/* Ideal gas law: V = n R T/p with R = 8.314462618 J/(mol K) (CODATA 2018), 273.15 K,
 * 101325 Pa; one mole of H2O2 (34.0147 g) gives half a mole of O2. */
static double litres_of_oxygen(double pct)
{
    const double litres_per_mol = 8.314462618 * 273.15 / 101325 * 1000;
    return pct * 10 / 34.0147 / 2 * litres_per_mol;
}

START_TEST(volume_strength_is_the_ideal_gas_volume)
{
    static const double pct[] = {1.5, 3, 6, 9, 12};
    for (int i = 0; i < 5; i++) { /* 22.414 L/mol is rounded in the fifth digit */
        ck_assert_double_eq_tol(sl_volume_strength(pct[i]) / litres_of_oxygen(pct[i]), 1, 3e-5);
    }
}
END_TEST

START_TEST(three_six_nine_twelve_per_cent_are_9_9_19_8_29_7_39_5_volumes)
{
    /* the table in docs/science.md, rounded to a tenth: half a unit of the last digit */
    ck_assert_double_eq_tol(sl_volume_strength(3), 9.9, 0.05);
    ck_assert_double_eq_tol(sl_volume_strength(6), 19.8, 0.05);
    ck_assert_double_eq_tol(sl_volume_strength(9), 29.7, 0.05);
    ck_assert_double_eq_tol(sl_volume_strength(12), 39.5, 0.05);
}
END_TEST

START_TEST(forty_volumes_is_the_12_per_cent_of_the_law)
{
    /* "12 % of H2O2 (40 volumes)": Annex III entry 12 of Reg. (EC) 1223/2009 as replaced by
     * Reg. (EU) 2019/831. 40 stands for any number that rounds to it in steps of ten; 2 %
     * covers the gap between O2 at 0 C (39.5) and the round name. */
    ck_assert_double_eq_tol(sl_volume_strength(12), 40, 0.02 * 40);
    ck_assert_double_eq_tol(sl_pct_of_volume_strength(40), 12, 0.02 * 12);
}
END_TEST

START_TEST(volume_strength_and_per_cent_are_inverse)
{
    for (double pct = 0.5; pct <= 12; pct += 0.5) {
        ck_assert_double_eq_tol(sl_pct_of_volume_strength(sl_volume_strength(pct)), pct, 1e-12);
    }
}
END_TEST

/* ---- dilution ------------------------------------------------------------------------- */

static sl_mix liquid(double developer, double pct, double water, double powder)
{
    return (sl_mix){.mechanism = SL_MECHANISM_OXIDATIVE,
                    .powder_parts = powder,
                    .developer_parts = developer,
                    .water_parts = water,
                    .developer_pct = pct,
                    .activity = 1};
}

START_TEST(dilution_keeps_the_amount_of_peroxide)
{
    /* C1 V1 = C2 V2: 6 % with water 3:1, 1:1, 1:2, 1:3 and 3 % with water 1:1 */
    static const double developer[] = {3, 1, 1, 1, 1};
    static const double pct[] = {6, 6, 6, 6, 3};
    static const double water[] = {1, 1, 2, 3, 1};
    static const double gives[] = {4.5, 3, 2, 1.5, 1.5};
    const sl_chemistry chemistry = built_chemistry();
    for (int i = 0; i < 5; i++) {
        const sl_mix mix = liquid(developer[i], pct[i], water[i], 0);
        const sl_charge charge = sl_mix_charge(&mix, &chemistry, 4, 0);
        ck_assert_double_eq_tol(charge.liquid_pct, gives[i], 1e-12);
        ck_assert_double_eq_tol(charge.peroxide_mol_l, gives[i] * 10 / 34.0147, 1e-12);
    }
}
END_TEST

START_TEST(powder_lowers_the_per_cent_on_the_hair_but_not_in_the_liquid)
{
    /* 6 % liquid at 1:1, 1:1.5, 1:2, 1:3 by weight: 3, 3.6, 4, 4.5 % of the whole paste */
    static const double parts[] = {1, 1.5, 2, 3};
    static const double gives[] = {3, 3.6, 4, 4.5};
    const sl_chemistry chemistry = built_chemistry();
    for (int i = 0; i < 4; i++) {
        const sl_mix mix = liquid(parts[i], 6, 0, 1);
        const sl_charge charge = sl_mix_charge(&mix, &chemistry, 4, 0);
        ck_assert_double_eq_tol(charge.on_hair_pct, gives[i], 1e-12);
        ck_assert_double_eq_tol(charge.peroxide_mol_l, 60 / 34.0147, 1e-12);
    }
}
END_TEST

START_TEST(water_in_the_hair_dilutes_by_its_weight)
{
    /* 4 g of a liquid of 6 % on 1 g of hair with 0.4 g of water: 6 * 4/4.4 by C1 V1 = C2 V2 */
    const sl_chemistry chemistry = built_chemistry();
    const sl_mix mix = liquid(1, 6, 0, 0);
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 4, 0.4);
    ck_assert_double_eq_tol(charge.peroxide_mol_l, 60 / 34.0147 * 4 / 4.4, 1e-12);
    ck_assert_double_eq_tol(charge.liquid_ml_per_g, 4.4, 1e-12);
}
END_TEST

START_TEST(percarbonate_brings_a_third_of_its_mass_as_peroxide)
{
    /* 2 Na2CO3 * 3 H2O2, 314.02 g/mol (IUPAC atomic weights): 3*34.0147/314.02 = 32.5 % H2O2.
     * Powder with a tenth of it at 1:2 with water: 100 g in 2 L, 0.478 mol/L. */
    const sl_chemistry chemistry = built_chemistry();
    sl_mix mix = liquid(0, 0, 2, 1);
    mix.percarbonate = 0.1;
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 3, 0);
    ck_assert_double_eq_tol(charge.peroxide_mol_l, 100.0 * 3 / 314.02 / 2, 1e-4);
    ck_assert_double_eq_tol(charge.on_hair_pct, 100 * 0.1 * 0.325 / 3, 2e-3);
    mix.activity = 0.5;
    ck_assert_double_eq_tol(sl_mix_charge(&mix, &chemistry, 3, 0).peroxide_mol_l, charge.peroxide_mol_l / 2,
                            1e-12);
}
END_TEST

START_TEST(grams_to_weigh_follow_the_parts)
{
    /* worked by hand: 2 g swatch, 3 g per g, 1 part powder to 1 developer 6 % and 1 water,
     * a tenth more: 6.6 g, 2.2 g each; liquid 3 %, paste 2 % */
    const sl_chemistry chemistry = built_chemistry();
    const sl_mix mix = liquid(1, 6, 1, 1);
    const sl_weighing grams = sl_weigh(&mix, &chemistry, 2, 3, 0.10);
    ck_assert_double_eq_tol(grams.total_g, 6.6, 1e-12);
    ck_assert_double_eq_tol(grams.powder_g, 2.2, 1e-12);
    ck_assert_double_eq_tol(grams.developer_g, 2.2, 1e-12);
    ck_assert_double_eq_tol(grams.water_g, 2.2, 1e-12);
    ck_assert_double_eq_tol(grams.liquid_pct, 3, 1e-12);
    ck_assert_double_eq_tol(grams.on_hair_pct, 2, 1e-12);
    ck_assert_double_eq_tol(grams.liquid_vol, litres_of_oxygen(3), 1e-3);
}
END_TEST

/* ---- persulfate ------------------------------------------------------------------------ */

START_TEST(potassium_persulfate_alone_dissolves_to_its_solubility)
{
    /* 60 g/L at 25 C and 270.3 g/mol (INRS, fiche toxicologique 260): 0.222 mol/L */
    const sl_chemistry chemistry = built_chemistry();
    sl_mix mix = liquid(0, 0, 2, 1);
    mix.potassium_persulfate = 1;
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 3, 0);
    ck_assert_double_eq_tol(charge.persulfate_mol_l, 60 / 270.3, 5e-4);
    ck_assert_double_eq_tol(charge.persulfate_mol_l + charge.undissolved_mol_l, 500 / 270.3, 1e-9);
}
END_TEST

START_TEST(a_common_ion_drives_potassium_persulfate_out)
{
    /* the product [K+]^2 [S2O8] of the solution is that of the saturated pure salt */
    const sl_chemistry chemistry = built_chemistry();
    sl_mix mix = liquid(0, 0, 2, 1);
    mix.potassium_persulfate = 0.6;
    mix.ammonium_persulfate = 0.22;
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 3, 0);
    const double ammonium = 1000 * 0.22 / 228.2 / 2;
    const double potassium_ion = 2 * (charge.persulfate_mol_l - ammonium);
    ck_assert_double_eq_tol(potassium_ion * potassium_ion * charge.persulfate_mol_l, 4 * pow(0.222, 3), 1e-9);
    ck_assert_double_eq_tol(charge.persulfate_mol_l + charge.undissolved_mol_l, ammonium + 300 / 270.3, 1e-9);
    ck_assert_double_lt((potassium_ion / 2), 0.222); /* less than in pure water */
}
END_TEST

START_TEST(little_persulfate_dissolves_whole)
{
    const sl_chemistry chemistry = built_chemistry();
    sl_mix mix = liquid(0, 0, 100, 1);
    mix.potassium_persulfate = 0.6;
    mix.sodium_persulfate = 0.1;
    const sl_charge charge = sl_mix_charge(&mix, &chemistry, 3, 0);
    ck_assert_double_eq_tol(charge.persulfate_mol_l, 10 * (0.6 / 270.3 + 0.1 / 238.1), 1e-12);
    ck_assert_double_eq_tol(charge.undissolved_mol_l, 0, 1e-15);
}
END_TEST

/* ---- ionisation and temperature ----------------------------------------------------------- */

START_TEST(perhydroxyl_share_is_one_half_at_the_pka)
{
    /* 11.75 at 20 C: Ardon (1964), quoted second-hand; the van 't Hoff line through 11.65 at
     * 25 C meets it within 0.005 */
    const sl_chemistry chemistry = built_chemistry();
    ck_assert_double_eq_tol(sl_perhydroxyl_share(&chemistry, 11.65, 298.15), 0.5, 1e-12);
    ck_assert_double_eq_tol(sl_perhydroxyl_share(&chemistry, 11.75, 293.15), 0.5, 0.005 * 2.303 / 4);
}
END_TEST

START_TEST(perhydroxyl_shares_follow_the_table_of_the_cited_pka)
{
    /* per cent, computed from that pKa and 34.3 kJ/mol and printed with 2 or 3 digits: within
     * half a unit of the last digit, plus the rounding of the pKa to 0.01 (2.3 %) */
    static const double celsius[] = {20, 25, 32, 40};
    static const double ph[] = {9.0, 9.5, 10.0, 10.5, 11.0};
    static const double pct[4][5] = {{0.18, 0.56, 1.74, 5.3, 15.0},
                                     {0.22, 0.70, 2.19, 6.6, 18.3},
                                     {0.31, 0.96, 2.98, 8.9, 23.5},
                                     {0.43, 1.35, 4.16, 12.1, 30.3}};
    const sl_chemistry chemistry = built_chemistry();
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 5; j++) {
            const double share = 100 * sl_perhydroxyl_share(&chemistry, ph[j], celsius[i] + 273.15);
            ck_assert_double_eq_tol(share, pct[i][j], 0.023 * pct[i][j] + 0.005);
        }
    }
}
END_TEST

START_TEST(arrhenius_is_one_at_32_C_and_matches_the_published_spread)
{
    /* 43 and 70 kJ/mol (dye oxidations: Thompson et al. 1993) from 25 to 35 C: 1.8 to 2.5 */
    ck_assert_double_eq(sl_arrhenius(62, 305.15), 1);
    ck_assert_double_eq_tol(sl_arrhenius(43.3, 308.15) / sl_arrhenius(43.3, 298.15), 1.8, 0.05);
    ck_assert_double_eq_tol(sl_arrhenius(69.9, 308.15) / sl_arrhenius(69.9, 298.15), 2.5, 0.05);
    /* by hand: 50 kJ/mol, 300 -> 310 K: exp(50000/8.314462618 * (1/300 - 1/310)) = 1.90909 */
    ck_assert_double_eq_tol(sl_arrhenius(50, 310) / sl_arrhenius(50, 300), 1.90909, 2e-5);
}
END_TEST

START_TEST(thermal_loss_of_persulfate_is_small_at_32_C_and_not_at_70)
{
    /* 3.7e-4 /day near 20 C (House 1962, second-hand) with 134 kJ/mol (from memory) gives 2.1e-6 /min
     * at 32 C. "Near 20 C" leaves half a kelvin: 134/R/293^2 = 19 % a kelvin. */
    const double near_20 = 3.7e-4 / 1440;
    ck_assert_double_eq_tol(near_20 / sl_arrhenius(134, 293.15), 2.1e-6, 0.19 / 2 * 2.1e-6);
    /* 120 to 140 kJ/mol from there to 70 C: 0.34e-3 to 1.1e-3 /min, the same half kelvin */
    ck_assert_double_eq_tol(near_20 * sl_arrhenius(120, 343.15) / sl_arrhenius(120, 293.15), 0.34e-3,
                            0.09 * 0.34e-3);
    ck_assert_double_eq_tol(near_20 * sl_arrhenius(140, 343.15) / sl_arrhenius(140, 293.15), 1.1e-3,
                            0.1 * 1.1e-3);
}
END_TEST

START_SUITE("chemistry")
ADD(volume_strength_is_the_ideal_gas_volume)
ADD(three_six_nine_twelve_per_cent_are_9_9_19_8_29_7_39_5_volumes)
ADD(forty_volumes_is_the_12_per_cent_of_the_law)
ADD(volume_strength_and_per_cent_are_inverse)
ADD(dilution_keeps_the_amount_of_peroxide)
ADD(powder_lowers_the_per_cent_on_the_hair_but_not_in_the_liquid)
ADD(water_in_the_hair_dilutes_by_its_weight)
ADD(percarbonate_brings_a_third_of_its_mass_as_peroxide)
ADD(grams_to_weigh_follow_the_parts)
ADD(potassium_persulfate_alone_dissolves_to_its_solubility)
ADD(a_common_ion_drives_potassium_persulfate_out)
ADD(little_persulfate_dissolves_whole)
CASE("rates")
ADD(perhydroxyl_share_is_one_half_at_the_pka)
ADD(perhydroxyl_shares_follow_the_table_of_the_cited_pka)
ADD(arrhenius_is_one_at_32_C_and_matches_the_published_spread)
ADD(thermal_loss_of_persulfate_is_small_at_32_C_and_not_at_70)
END_SUITE
