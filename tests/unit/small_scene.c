/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See small_scene.h. Invented hair, dyes and mixes.
 */
#include "small_scene.h"

#include <string.h>

sl_param assumed(double value)
{
    return (sl_param){.value = value, .grade = SL_GRADE_ASSUMED};
}

sl_rates rates_of(double perhydroxyl, double persulfate, double radical)
{
    return (sl_rates){.k = {assumed(perhydroxyl), assumed(persulfate), assumed(radical)}};
}

static sl_chemistry chemistry(void)
{
    return (sl_chemistry){
        .name = "small",
        .pka_25c = assumed(11.65),
        .pka_enthalpy_kj_mol = assumed(34.3),
        .fibre_ph_drop = assumed(0.2),
        .saturation_mol_l = assumed(0.15),
        .loss_activation_kj_mol = assumed(65.0),
        .fibre_loss_per_min = assumed(0.01),
        .couple_l_mol_min = assumed(0.15),
        .couple_activation_kj_mol = assumed(70.0),
        .hydrolysis_per_min = assumed(1.5e-4),
        .hydrolysis_activation_kj_mol = assumed(70.0),
        .thermal_per_min = assumed(2.1e-6),
        .thermal_activation_kj_mol = assumed(134.0),
        .dissolve_per_min = assumed(0.3),
        .dissolve_half_mol_l = assumed(0.02),
        .potassium_solubility_mol_l = assumed(0.222),
        .peroxide_diffusion_cm2_s = assumed(5e-9),
        .persulfate_diffusion_cm2_s = assumed(1.5e-9),
        .diffusion_activation_kj_mol = assumed(25.0),
        .fibre_radius_um = assumed(35.0),
        .swelling_deficit = assumed(0.7),
        .swelling_time_min = assumed(3.0),
        .damage_opens = assumed(6.0),
        .damage_half = assumed(0.1),
        .lipids_open = assumed(3.0),
        .lipids_loss = assumed(2.0),
        .persulfate_partition = assumed(0.5),
        .fibre_water_ml_g = assumed(0.35),
        .cystine_mol_l = assumed(2.07),
        .oxidant_per_cystine = assumed(5.0),
        .cystine = rates_of(0.185, 0.0147, 1.73),
        .cystine_layer = assumed(0.08),
        .channel_activation_kj_mol = {assumed(62.0), assumed(60.0), assumed(70.0)},
        .melanin = {[SL_EUMELANIN] = {.rates = rates_of(2.61, 0.0826, 2.83),
                                      .opened_ratio = assumed(0.45),
                                      .yellow_ratio = assumed(0.25),
                                      .opened_weight = assumed(0.30),
                                      .yellow_weight = assumed(0.05),
                                      .held_mol_l = assumed(0.05)},
                    [SL_PHEOMELANIN] = {.rates = rates_of(1.49, 0.0495, 1.52),
                                        .opened_ratio = assumed(0.60),
                                        .yellow_ratio = assumed(0.25),
                                        .opened_weight = assumed(0.45),
                                        .yellow_weight = assumed(0.05),
                                        .held_mol_l = assumed(0.05)}},
        .level_ratio = assumed(0.62),
        .rinse_per_min = assumed(2.0),
        .rinse_leach = assumed(3.0),
        .dry_per_min = assumed(0.03),
        .rest_ph = assumed(7.0),
        .rest_dry_per_min = assumed(0.2),
        .damp_water_g_g = assumed(0.4),
        .bowl_c = assumed(22.0),
        .head_c = assumed(32.0),
        .wrapped_rise_k = assumed(3.0),
        .wrapped_time_min = assumed(8.0),
        .dye_oxidant = assumed(3.0),
        .dye_mol_l = assumed(0.01),
    };
}

static sl_dye dye(const char *name, sl_dye_class class_, double rim, sl_rates rates, double leach,
                  double shampoo, double centre_nm)
{
    return (sl_dye){.name = name,
                    .colour = name,
                    .class_ = class_,
                    .rim_share = assumed(rim),
                    .rates = rates,
                    .leach_per_min = assumed(leach),
                    .shampoo_loss = assumed(shampoo),
                    .bands = {{.centre_nm = centre_nm, .width_nm = 90.0, .height = 1.0}},
                    .n_bands = 1};
}

static sl_mix powder(const char *name, double developer_pct, double developer_parts, double water_parts)
{
    return (sl_mix){.name = name,
                    .title = {{name}},
                    .class_ = developer_parts > 0.0 ? SL_MIX_POWDER_DEVELOPER : SL_MIX_POWDER_WATER,
                    .mechanism = SL_MECHANISM_OXIDATIVE,
                    .powder_parts = 1.0,
                    .developer_parts = developer_parts,
                    .water_parts = water_parts,
                    .developer_pct = developer_pct,
                    .potassium_persulfate = 0.60,
                    .ammonium_persulfate = 0.22,
                    .activity = 1.0,
                    .ph = assumed(10.1),
                    .loss_per_min = assumed(1.5e-3)};
}

static sl_arm treated(const char *name, int mix)
{
    return (sl_arm){
        .name = name,
        .n_steps = 3,
        .steps = {
            {.kind = SL_STEP_APPLY, .duration_min = 30.0, .mix = mix, .mix_g_per_g = 6.0, .covered = true},
            {.kind = SL_STEP_RINSE, .duration_min = 2.0},
            {.kind = SL_STEP_SHAMPOO, .shampoos = 1}}};
}

static void fill_mixes(sl_mix *mixes)
{
    mixes[MIX_WATER] = powder("water", 0.0, 0.0, 2.0);
    mixes[MIX_WATER].powder_parts = 0.0;
    mixes[MIX_WATER].class_ = SL_MIX_WATER;
    mixes[MIX_WATER].ph = assumed(7.0);
    mixes[MIX_POWDER_WATER] = powder("powder + water", 0.0, 0.0, 2.0);
    mixes[MIX_POWDER_3] = powder("powder + 3 %", 3.0, 2.0, 0.0);
    mixes[MIX_POWDER_6] = powder("powder + 6 %", 6.0, 2.0, 0.0);
    mixes[MIX_MILD] = powder("mild", 3.0, 1.0, 1.0);
    mixes[MIX_MILD].powder_parts = 0.0;
    mixes[MIX_MILD].class_ = SL_MIX_TWO_PART;
    mixes[MIX_MILD].ph = assumed(9.0);
    mixes[MIX_REDUCING] = mixes[MIX_MILD];
    mixes[MIX_REDUCING].name = "reducing";
    mixes[MIX_REDUCING].mechanism = SL_MECHANISM_REDUCTIVE;
}

static void fill_arms(sl_arm *arms)
{
    arms[ARM_UNTREATED] = (sl_arm){.name = "untreated"};
    arms[ARM_WASHING] = treated("washing", MIX_WATER);
    arms[ARM_WATER] = treated("powder + water", MIX_POWDER_WATER);
    arms[ARM_3] = treated("powder + 3 %", MIX_POWDER_3);
    arms[ARM_6] = treated("powder + 6 %", MIX_POWDER_6);
    arms[ARM_MILD] = treated("mild", MIX_MILD);
    arms[ARM_UNDYED] = treated("undyed", MIX_POWDER_6);
    arms[ARM_UNDYED].undyed = true;
    arms[ARM_REDUCING] = treated("reducing", MIX_REDUCING);
}

const sl_aims small_aims = {
    .colour_left = 0.5, .base_moved = {0.3, true}, .cystine_lost = {0.12, true}, .longest_min = {45.0, true}};

sl_treatment small_treatment(const small_scene *small, int arm, double porosity, double cystine_intact)
{
    return (sl_treatment){.scene = &small->scene,
                          .arm = &small->arms[arm],
                          .porosity = porosity,
                          .cystine_intact = cystine_intact,
                          .until_min = small->scene.until_min};
}

void small_scene_fill(small_scene *small)
{
    memset(small, 0, sizeof *small);
    small->hairs[0] = (sl_hair){.name = "virgin",
                                .level = 4.5,
                                .natural_level = 4.5,
                                .cystine_intact = 1.0,
                                .porosity = 1.0,
                                .pool = {{0.85}, {0.15}}};
    small->hairs[1] = (sl_hair){.name = "light",
                                .level = 9.0,
                                .natural_level = 5.0,
                                .cystine_intact = 0.85,
                                .porosity = 1.5,
                                .pool = {{0.05, 0.10, 0.30}, {0.02, 0.05, 0.10}}};
    small->dyes[0] = dye("brown", SL_DYE_OXIDATIVE, 0.1, rates_of(0.6, 0.056, 0.45), 0.0005, 0.05, 500.0);
    small->dyes[1] = dye("red", SL_DYE_CATIONIC_AZO, 0.6, rates_of(0.2, 0.032, 1.34), 0.003, 0.15, 520.0);
    small->dyes[2] = dye("violet", SL_DYE_TRIARYLMETHANE, 0.7, rates_of(2.0, 0.163, 2.36), 0.004, 0.2, 550.0);
    small->dyes[3] = dye("blue", SL_DYE_ANTHRAQUINONE, 0.6, rates_of(1.2, 0.128, 2.52), 0.004, 0.2, 620.0);
    fill_mixes(small->mixes);
    fill_arms(small->arms);
    small->zones[ZONE_ROOT] = (sl_zone){.name = "root", .hair = 0, .recipe = {1, {0}, {1.0}}};
    small->zones[ZONE_RED] = (sl_zone){.name = "red", .hair = 1, .recipe = {1, {1}, {2.0}}};
    small->zones[ZONE_VIOLET] = (sl_zone){.name = "violet", .hair = 1, .recipe = {1, {2}, {2.0}}};
    small->zones[ZONE_MIXED] = (sl_zone){.name = "mixed", .hair = 1, .recipe = {2, {1, 3}, {1.0, 1.0}}};
    small->zones[ZONE_UNDYED] = (sl_zone){.name = "undyed", .hair = 1, .recipe = {0}};
    small->scene = (sl_scene){.name = "small",
                              .title = {{"small"}},
                              .chemistry = chemistry(),
                              .place = SL_PLACE_BENCH,
                              .room_c = 32.0,
                              .until_min = 60.0,
                              .hair_g = 2.0,
                              .n_hairs = SMALL_HAIRS,
                              .n_dyes = SMALL_DYES,
                              .n_mixes = SMALL_MIXES,
                              .n_zones = SMALL_ZONES,
                              .n_arms = SMALL_ARMS,
                              .hairs = small->hairs,
                              .dyes = small->dyes,
                              .mixes = small->mixes,
                              .zones = small->zones,
                              .arms = small->arms,
                              .aims = {.colour_left = 1.0}};
}

sl_person person_of(const sl_intake *form, int arm, double watched_min)
{
    sl_person person = {.form = form};
    person.strand[arm] =
        (sl_strand){.worth = SL_STRAND_COUNTED, .looks = SL_STRAND_LEAST_LOOKS, .watched_min = watched_min};
    return person;
}

sl_intake small_clear_form(void)
{
    sl_intake form = {.age_years = 40,
                      .label_min = 30.0,
                      .lightened = SL_REPLY_NO,
                      .person = "K12",
                      .qualified = "op-1",
                      .part = SL_HAIR_AT_NAPE,
                      .packet_day = 20773};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        form.reply[q] = SL_REPLY_NO;
    }
    form.reply[SL_INTAKE_ALERT] = SL_REPLY_YES;
    form.reply[SL_INTAKE_LIQUIDS] = form.reply[SL_INTAKE_STRAND] = SL_REPLY_YES;
    return form;
}
