/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See built_scene.h. Names and figures are invented for tests.
 */
#include "built_scene.h"

#include <string.h>

static sl_param of(double value)
{
    return (sl_param){.value = value, .grade = SL_GRADE_ASSUMED};
}

static sl_rates rates(double k1, double k2, double k3)
{
    return (sl_rates){.k = {of(k1), of(k2), of(k3)}};
}

static void set_exchange(sl_chemistry *c)
{
    c->peroxide_diffusion_cm2_s = of(5e-9);
    c->persulfate_diffusion_cm2_s = of(1.5e-9);
    c->diffusion_activation_kj_mol = of(25);
    c->fibre_radius_um = of(35);
    c->swelling_deficit = of(0.7);
    c->swelling_time_min = of(3);
    c->damage_opens = of(6);
    c->damage_half = of(0.10);
    c->lipids_open = of(3);
    c->lipids_loss = of(2);
    c->persulfate_partition = of(0.5);
    c->fibre_water_ml_g = of(0.35);
    c->cystine_mol_l = of(2.07);
    c->oxidant_per_cystine = of(5);
    c->cystine = rates(0.185, 0.0147, 1.73);
    c->cystine_layer = of(0.08);
}

static void set_liquid(sl_chemistry *c)
{
    c->pka_25c = of(11.65);
    c->pka_enthalpy_kj_mol = of(34.3);
    c->fibre_ph_drop = of(0.2);
    c->saturation_mol_l = of(0.15);
    c->loss_activation_kj_mol = of(65);
    c->fibre_loss_per_min = of(0.01);
    c->couple_l_mol_min = of(0.15);
    c->couple_activation_kj_mol = of(70);
    c->hydrolysis_per_min = of(1.5e-4);
    c->hydrolysis_activation_kj_mol = of(70);
    c->thermal_per_min = of(2.1e-6);
    c->thermal_activation_kj_mol = of(134);
    c->dissolve_per_min = of(0.30);
    c->dissolve_half_mol_l = of(0.01);
    c->potassium_solubility_mol_l = of(0.222);
    c->channel_activation_kj_mol[SL_PERHYDROXYL] = of(62);
    c->channel_activation_kj_mol[SL_PERSULFATE] = of(60);
    c->channel_activation_kj_mol[SL_RADICAL] = of(70);
}

static void set_handling(sl_chemistry *c)
{
    c->level_ratio = of(0.62);
    c->rinse_per_min = of(0.7);
    c->rinse_leach = of(2);
    c->dry_per_min = of(0.01);
    c->rest_ph = of(6);
    c->rest_dry_per_min = of(0.05);
    c->damp_water_g_g = of(0.35);
    c->bowl_c = of(22);
    c->head_c = of(32);
    c->wrapped_rise_k = of(3);
    c->wrapped_time_min = of(8);
    c->dye_oxidant = of(6);
    c->dye_mol_l = of(0.02);
}

sl_chemistry built_chemistry(void)
{
    sl_chemistry c = {.name = "built", .title = {{"Built in memory"}}};
    set_liquid(&c);
    set_exchange(&c);
    set_handling(&c);
    c.melanin[SL_EUMELANIN] = (sl_melanin){.rates = rates(2.61, 0.0826, 2.83),
                                           .opened_ratio = of(0.45),
                                           .yellow_ratio = of(0.15),
                                           .opened_weight = of(0.30),
                                           .yellow_weight = of(0.06),
                                           .held_mol_l = of(0.01)};
    c.melanin[SL_PHEOMELANIN] = (sl_melanin){.rates = rates(1.49, 0.0495, 1.52),
                                             .opened_ratio = of(0.60),
                                             .yellow_ratio = of(0.25),
                                             .opened_weight = of(0.45),
                                             .yellow_weight = of(0.10),
                                             .held_mol_l = of(0.01)};
    return c;
}

sl_chemistry built_still_chemistry(void)
{
    sl_chemistry c = built_chemistry();
    c.fibre_loss_per_min = c.couple_l_mol_min = c.hydrolysis_per_min = c.thermal_per_min = of(0);
    c.dissolve_per_min = c.peroxide_diffusion_cm2_s = c.persulfate_diffusion_cm2_s = of(0);
    c.swelling_deficit = c.damage_opens = c.lipids_open = c.rinse_per_min = c.dry_per_min = c.rest_dry_per_min = of(0);
    c.loss_activation_kj_mol = c.diffusion_activation_kj_mol = of(0);
    c.cystine = rates(0, 0, 0);
    for (int j = 0; j < SL_CHANNELS; j++) {
        c.channel_activation_kj_mol[j] = of(0);
    }
    c.saturation_mol_l = of(1e12); /* channel 1 straight, not saturating */
    return c;
}

static void set_hairs_and_dyes(built_scene *b)
{
    b->hairs[0] = (sl_hair){.name = "brown",
                            .level = 4.5,
                            .natural_level = 4.5,
                            .warmth_left = 1,
                            .pool = {{2.4, 0, 0}, {0.5, 0, 0}},
                            .cystine_intact = 1,
                            .porosity = 1};
    b->hairs[1] = (sl_hair){.name = "lightened",
                            .level = 9,
                            .natural_level = 6,
                            .prelightened = true,
                            .warmth_left = 0.5,
                            .pool = {{0.08, 0.15, 0.2}, {0.05, 0.1, 0.1}},
                            .cystine_intact = 0.82,
                            .porosity = 1.8};
    static const double shares[BUILT_DYES] = {0.7, 0.6, 0.1};
    static const double k[BUILT_DYES][SL_CHANNELS] = {
        {2.0, 0.163, 2.36}, {0.2, 0.032, 1.34}, {0.6, 0.056, 0.45}};
    static const char *const names[BUILT_DYES] = {"violet", "red", "brown"};
    static const sl_dye_class classes[BUILT_DYES] = {SL_DYE_TRIARYLMETHANE, SL_DYE_CATIONIC_AZO,
                                                     SL_DYE_OXIDATIVE};
    for (int i = 0; i < BUILT_DYES; i++) {
        b->dyes[i] = (sl_dye){.name = names[i],
                              .colour = names[i],
                              .class_ = classes[i],
                              .rim_share = of(shares[i]),
                              .rates = rates(k[i][0], k[i][1], k[i][2]),
                              .leach_per_min = of(0.004 - 0.0015 * i),
                              .shampoo_loss = of(0.08 - 0.03 * i),
                              .bands = {{.centre_nm = 480 + 40 * i, .width_nm = 90, .height = 1}},
                              .n_bands = 1};
    }
    b->dyes[1].loose_share = of(0.3);
    b->dyes[1].loose_loss = of(0.9);
    b->dyes[2].loose_share = of(0.2);
    b->dyes[2].loose_loss = of(2.4);
}

static sl_mix mix(const char *name, double powder, double developer, double water, double pct, double ph)
{
    return (sl_mix){.name = name,
                    .title = {{name}},
                    .mechanism = SL_MECHANISM_OXIDATIVE,
                    .powder_parts = powder,
                    .developer_parts = developer,
                    .water_parts = water,
                    .developer_pct = pct,
                    .potassium_persulfate = powder > 0 ? 0.55 : 0,
                    .ammonium_persulfate = powder > 0 ? 0.20 : 0,
                    .sodium_persulfate = powder > 0 ? 0.05 : 0,
                    .activity = 1,
                    .ph = of(ph),
                    .loss_per_min = of(1.5e-3),
                    .loss_l_mol_min = of(0)};
}

static void set_mixes(built_scene *b)
{
    b->mixes[BUILT_WATER] = mix("powder and water", 1, 0, 2, 0, 10.1);
    b->mixes[BUILT_SIX] = mix("powder and six", 1, 2, 0, 6, 10.1);
    b->mixes[BUILT_LIQUID] = mix("two-part", 0, 1, 1, 3, 9.0);
    b->mixes[BUILT_CREAM] = mix("cream", 0, 1, 1, 6, 10.0);
    b->mixes[BUILT_CREAM].loss_l_mol_min = of(4.2e-3);
    b->mixes[BUILT_PERCARBONATE] = mix("powder with percarbonate", 1, 0, 2, 0, 10.4);
    b->mixes[BUILT_PERCARBONATE].percarbonate = 0.1;
    b->mixes[BUILT_PERCARBONATE].activity = 0.8;
}

static sl_step apply(int which, double minutes, double age, bool covered)
{
    return (sl_step){.kind = SL_STEP_APPLY,
                     .duration_min = minutes,
                     .mix = which,
                     .mix_age_min = age,
                     .mix_g_per_g = 4,
                     .hair_water_g_g = which == BUILT_SIX ? 0.35 : 0,
                     .covered = covered};
}

static sl_arm arm(const char *name, double contact, int which, double minutes, double age, bool covered)
{
    return (sl_arm){.name = name,
                    .contact_min = contact,
                    .n_steps = 3,
                    .steps = {apply(which, minutes, age, covered),
                              {.kind = SL_STEP_RINSE, .duration_min = 3},
                              {.kind = SL_STEP_SHAMPOO, .shampoos = 2}}};
}

static void set_zones(built_scene *b)
{
    static const int dyes[BUILT_ZONES][2] = {{2, -1}, {0, -1}, {1, -1}, {0, 1}, {1, -1}, {-1, -1}};
    static const int hairs[BUILT_ZONES] = {0, 0, 0, 0, 1, 0};
    static const char *const names[BUILT_ZONES] = {"root", "violet", "red", "both", "red end", "undyed"};
    for (int i = 0; i < BUILT_ZONES; i++) {
        b->zones[i] = (sl_zone){.name = names[i], .hair = hairs[i]};
        for (int j = 0; j < 2 && dyes[i][j] >= 0; j++) {
            b->zones[i].recipe.dye[j] = dyes[i][j];
            b->zones[i].recipe.strength[j] = 1.5 - 0.5 * j;
            b->zones[i].recipe.n_dyes = j + 1;
        }
    }
}

void built_arms(built_scene *b)
{
    memset(b, 0, sizeof *b);
    set_hairs_and_dyes(b);
    set_mixes(b);
    set_zones(b);
    b->arms[0] = (sl_arm){.name = "untreated"};
    b->arms[1] = (sl_arm){
        .name = "washing",
        .n_steps = 2,
        .steps = {{.kind = SL_STEP_RINSE, .duration_min = 3}, {.kind = SL_STEP_SHAMPOO, .shampoos = 2}}};
    b->arms[2] = arm("water", 0, BUILT_WATER, 45, 0, true);
    b->arms[3] = arm("six", 1, BUILT_SIX, 30, 2, false);
    b->arms[4] = arm("liquid", 2.5, BUILT_LIQUID, 40, 5, true);
    b->arms[5] = arm("cream", 3, BUILT_CREAM, 35, 12, false);
    b->arms[6] = arm("percarbonate", 4.25, BUILT_PERCARBONATE, 30, 1, false);
    b->arms[7] = arm("undyed", 5, BUILT_SIX, 25, 7, true);
    b->arms[7].undyed = true;
    b->arms[8] = (sl_arm){.name = "twice",
                          .contact_min = 0.5,
                          .n_steps = 6,
                          .steps = {apply(BUILT_WATER, 15, 3, false),
                                    {.kind = SL_STEP_RINSE, .duration_min = 2},
                                    {.kind = SL_STEP_REST, .duration_min = 10},
                                    apply(BUILT_SIX, 12, 20, false),
                                    {.kind = SL_STEP_RINSE, .duration_min = 4.5},
                                    {.kind = SL_STEP_SHAMPOO, .shampoos = 1}}};
    b->scene = (sl_scene){.name = "built",
                          .title = {{"Built in memory"}},
                          .question = {{"Do the solvers agree?"}},
                          .chemistry = built_chemistry(),
                          .place = SL_PLACE_BENCH,
                          .room_c = 25,
                          .until_min = 60,
                          .hair_g = 2,
                          .n_hairs = BUILT_HAIRS,
                          .n_dyes = BUILT_DYES,
                          .n_mixes = BUILT_MIXES,
                          .n_zones = BUILT_ZONES,
                          .n_arms = BUILT_ARMS,
                          .hairs = b->hairs,
                          .dyes = b->dyes,
                          .mixes = b->mixes,
                          .zones = b->zones,
                          .arms = b->arms};
}
