/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a mix holds before anything has reacted. Parts are by weight; liquids count as
 * 1 g/mL (an error of at most 4 % for 12 % peroxide).
 * Equations: docs/science.md, "Dilution", "Perhydroxyl" and "Persulfate".
 */
#include <assert.h>
#include <math.h>

#include "slowlift/solution.h"

static const double PEROXIDE_G_MOL = 34.0147;
static const double K_PERSULFATE_G_MOL = 270.3, NH4_PERSULFATE_G_MOL = 228.2, NA_PERSULFATE_G_MOL = 238.1;
/* Na2CO3 . 1.5 H2O2: 1.5 mol of peroxide in 157.01 g */
static const double PERCARBONATE_G_MOL = 157.01, PERCARBONATE_PEROXIDE = 1.5;
static const double MOLAR_VOLUME_0C_L = 22.414; /* ideal gas, 0 C, 1 atm */

#define MOLAR_MASS(NAME, key, g_mol, ...) g_mol,
static const double REDUCTANT_G_MOL[SL_REDUCTANTS] = {SL_REDUCTANT_LIST(MOLAR_MASS)};
#undef MOLAR_MASS

double sl_volume_strength(double peroxide_pct)
{
    return sl_peroxide_mol_l(peroxide_pct) / 2.0 * MOLAR_VOLUME_0C_L;
}

double sl_pct_of_volume_strength(double volume)
{
    return volume * 2.0 / MOLAR_VOLUME_0C_L * PEROXIDE_G_MOL / 10.0;
}

double sl_peroxide_mol_l(double peroxide_pct)
{
    return 10.0 * peroxide_pct / PEROXIDE_G_MOL;
}

/* Dissolved persulfate at saturation: x of the potassium salt with
 * (2x)^2 (common + x) = 4 s^3, at most what there is. The left side grows with x, so a
 * bisection to the last bit is safe. */
static double persulfate_saturation(double potassium_mol_l, double common_mol_l, double solubility_mol_l)
{
    const double product = 4.0 * pow(solubility_mol_l, 3.0);
    const double all = 4.0 * potassium_mol_l * potassium_mol_l * (common_mol_l + potassium_mol_l);
    if (all <= product) {
        return common_mol_l + potassium_mol_l;
    }
    double low = 0.0;
    double high = potassium_mol_l;
    for (int i = 0; i < 60; i++) {
        const double x = 0.5 * (low + high);
        if (4.0 * x * x * (common_mol_l + x) < product) {
            low = x;
        } else {
            high = x;
        }
    }
    return common_mol_l + 0.5 * (low + high);
}

sl_charge sl_mix_charge(const sl_mix *mix, const sl_chemistry *chemistry, double mix_g_per_g,
                        double hair_water_g_g)
{
    assert(mix_g_per_g > 0.0 && hair_water_g_g >= 0.0);
    const double s = mix->powder_parts;
    const double d = mix->developer_parts;
    const double w = mix->water_parts;
    const double c = hair_water_g_g * (d + w + s) / mix_g_per_g; /* the hair's water, in parts */
    const double liquid = d + w + c;
    assert(liquid > 0.0);
    const double per_l = 1000.0 * s * mix->activity / liquid; /* active powder, g per L of liquid */
    const double from_powder_mol_l = per_l * mix->percarbonate / PERCARBONATE_G_MOL * PERCARBONATE_PEROXIDE;
    const double potassium = per_l * mix->potassium_persulfate / K_PERSULFATE_G_MOL;
    const double common = per_l * (mix->ammonium_persulfate / NH4_PERSULFATE_G_MOL +
                                   mix->sodium_persulfate / NA_PERSULFATE_G_MOL);
    const double saturation =
        persulfate_saturation(potassium, common, chemistry->potassium_solubility_mol_l.value);
    const double powder_pct = 100.0 * mix->activity * mix->percarbonate * PERCARBONATE_PEROXIDE *
                              PEROXIDE_G_MOL / PERCARBONATE_G_MOL; /* peroxide in the powder, % by weight */
    sl_charge charge = {.saturation_mol_l = saturation, .persulfate_mol_l = saturation};
    charge.peroxide_mol_l = sl_peroxide_mol_l(mix->developer_pct) * d / liquid + from_powder_mol_l;
    charge.undissolved_mol_l = potassium + common - saturation;
    charge.liquid_pct = charge.peroxide_mol_l * PEROXIDE_G_MOL / 10.0;
    charge.on_hair_pct = (mix->developer_pct * d + powder_pct * s) / (d + w + s);
    charge.liquid_ml_per_g = mix_g_per_g * (d + w) / (d + w + s) + hair_water_g_g;
    charge.reductant_mol_l =
        1000.0 * mix->reductant_share / REDUCTANT_G_MOL[mix->reductant] * (d + w + s) / liquid;
    return charge;
}

/* mol of a family and of the sodium that come with an ingredient. */
#define ROW(NAME, name, words, g_mol, family, sodium) {g_mol, family, sodium},
static const struct {
    double g_mol;
    sl_acid family;
    double sodium;
} ingredient[SL_INGREDIENTS] = {SL_INGREDIENT_LIST(ROW)};
#undef ROW

sl_solution sl_mix_solution(const sl_mix *mix, const sl_chemistry *chemistry)
{
#define PARTS(NAME, name) mix->name##_parts,
    const double parts[SL_HOLDERS] = {SL_HOLDER_LIST(PARTS)};
#undef PARTS
    sl_mix fresh = *mix;
    fresh.activity = 1.0;
    const sl_charge charge = sl_mix_charge(&fresh, chemistry, 1.0, 0.0);
    const double per_part = 1000.0 / (mix->developer_parts + mix->water_parts); /* g of one part, per L */
    const double powder = per_part * mix->powder_parts;
    const double ammonium = powder * mix->ammonium_persulfate / NH4_PERSULFATE_G_MOL;
    const double sodium = powder * mix->sodium_persulfate / NA_PERSULFATE_G_MOL;
    const double soda = powder * mix->percarbonate / PERCARBONATE_G_MOL;
    sl_solution of = {
        .strong = {[SL_SODIUM] = 2.0 * (sodium + soda),
                   [SL_POTASSIUM] = 2.0 * (charge.persulfate_mol_l - ammonium - sodium),
                   [SL_PEROXYDISULFATE] = charge.persulfate_mol_l},
        .acid = {
            [SL_AMMONIA] = 2.0 * ammonium, [SL_CARBONATE] = soda, [SL_PEROXIDE] = charge.peroxide_mol_l}};
    for (int part = 0; part < SL_HOLDERS; part++) {
        for (int i = 0; i < SL_INGREDIENTS; i++) {
            const double mol = per_part * parts[part] * mix->holds[part][i].value / ingredient[i].g_mol;
            of.acid[ingredient[i].family] += mol;
            of.strong[SL_SODIUM] += ingredient[i].sodium * mol;
        }
    }
    return of;
}

double sl_mix_drift(const sl_mix *mix, double age_min)
{
    return -mix->ph_fall_per_min * age_min / (1.0 + mix->ph_fades_per_min * age_min);
}

double sl_mix_ph(const sl_mix *mix, double temperature_k)
{
    return mix->ph.value +
           mix->ph_kj_mol / (SL_GAS_KJ_MOL_K * log(10.0)) * (1.0 / temperature_k - 1.0 / SL_PKA_K);
}

double sl_perhydroxyl_share(const sl_chemistry *chemistry, double ph, double temperature_k)
{
    const double slope = chemistry->pka_enthalpy_kj_mol.value / (SL_GAS_KJ_MOL_K * log(10.0));
    const double pka = chemistry->pka_25c.value + slope * (1.0 / temperature_k - 1.0 / SL_PKA_K);
    return 1.0 / (1.0 + pow(10.0, pka - ph));
}

double sl_arrhenius(double activation_kj_mol, double temperature_k)
{
    return exp(-activation_kj_mol / SL_GAS_KJ_MOL_K * (1.0 / temperature_k - 1.0 / SL_REFERENCE_K));
}
