/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The fingerprint of a scene and of a mix: all that an ensemble depends on moves it, nothing else does.
 */
#include <string.h>

#include "scene/records.h"
#include "slowlift/part.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
}

/* Values of the authors' own test suite, also in the IETF draft draft-eastlake-fnv (from memory). */
START_TEST(the_checksum_is_fnv_1a)
{
    ck_assert(sl_fnv(SL_FNV_START, "", 0) == UINT64_C(0xcbf29ce484222325));
    ck_assert(sl_fnv(SL_FNV_START, "a", 1) == UINT64_C(0xaf63dc4c8601ec8c));
    ck_assert(sl_fnv(SL_FNV_START, "foobar", 6) == UINT64_C(0x85944171f73967e8));
}
END_TEST

static uint64_t changed(double *number)
{
    const double kept = *number;
    *number = kept + 1e-3;
    const uint64_t hash = sl_scene_fingerprint(&small.scene);
    *number = kept;
    return hash;
}

START_TEST(whatever_moves_an_ensemble_moves_the_fingerprint)
{
    fresh();
    const uint64_t before = sl_scene_fingerprint(&small.scene);
    sl_chemistry *const ch = &small.scene.chemistry;
    double *const numbers[] = {&small.scene.room_c,
                               &small.scene.shift_k,
                               &small.scene.until_min,
                               &small.scene.aims.colour_left,
                               &small.scene.aims.base_moved.most,
                               &small.scene.aims.cystine_lost.most,
                               &small.scene.aims.longest_min.most,
                               &small.scene.aims.zone_left[1],
                               &small.scene.aims.zone_near[2],
                               &small.scene.aims.stress_share,
                               &ch->pka_25c.value,
                               &ch->couple_l_mol_min.value,
                               &ch->damage_opens.value,
                               &ch->lipids_open.value,
                               &ch->lipids_loss.value,
                               &ch->cystine.k[SL_RADICAL].value,
                               &ch->melanin[SL_PHEOMELANIN].rates.k[SL_PERSULFATE].value,
                               &ch->melanin[SL_EUMELANIN].yellow_ratio.value,
                               &ch->channel_activation_kj_mol[SL_RADICAL].value,
                               &ch->persulfate_partition.value,
                               &small.hairs[1].pool[SL_EUMELANIN][SL_YELLOW],
                               &small.hairs[1].porosity,
                               &small.dyes[2].rates.k[SL_PERHYDROXYL].value,
                               &small.dyes[2].leach_per_min.value,
                               &small.mixes[MIX_POWDER_6].ph.value,
                               &small.mixes[MIX_POWDER_6].developer_pct,
                               &small.mixes[MIX_POWDER_6].label_max_min,
                               &small.mixes[MIX_POWDER_6].label_told_min,
                               &small.arms[ARM_6].contact_min,
                               &small.arms[ARM_6].steps[0].mix_age_min,
                               &small.arms[ARM_6].steps[0].duration_min,
                               &small.zones[ZONE_MIXED].recipe.strength[1]};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        ck_assert_msg(changed(numbers[i]) != before, "number %zu", i);
    }
    small.scene.place = SL_PLACE_HEAD;
    ck_assert(sl_scene_fingerprint(&small.scene) != before);
    fresh();
    small.dyes[1].rates.k[0].grade = SL_GRADE_MEASURED_HERE;
    ck_assert(sl_scene_fingerprint(&small.scene) != before);
    fresh();
    small.scene.title.in[SL_ENGLISH] = "another title";
    ck_assert(sl_scene_fingerprint(&small.scene) == before);
}
END_TEST

/* Each number, count, choice, name and grade of each thing that a scene is made of, one at a time. */
START_TEST(each_single_thing_that_enters_an_ensemble_moves_the_fingerprint)
{
    fresh();
    const uint64_t before = sl_scene_fingerprint(&small.scene);
    sl_chemistry *const ch = &small.scene.chemistry;
    sl_rates *const eu = &ch->melanin[SL_EUMELANIN].rates, *const pheo = &ch->melanin[SL_PHEOMELANIN].rates;
    sl_hair *const hair = &small.hairs[0];
    sl_dye *const dye = &small.dyes[3];
    sl_mix *const mix = &small.mixes[MIX_MILD];
    sl_step *const step = &small.arms[ARM_MILD].steps[0];
#define MOVES(change)                                                                                        \
    change;                                                                                                  \
    ck_assert_msg(sl_scene_fingerprint(&small.scene) != before, #change);                                    \
    fresh();
    for (int c = 0; c < SL_CHANNELS; c++) {
        MOVES(ch->cystine.k[c].value *= 1.1)
        MOVES(eu->k[c].value *= 1.1)
        MOVES(pheo->k[c].value *= 1.1)
        MOVES(pheo->k[c].grade = SL_GRADE_FITTED)
        MOVES(dye->rates.k[c].value *= 1.1)
        MOVES(dye->rates.own_activation[c] = true)
        eu->own_activation[c] = true;
        const uint64_t own = sl_scene_fingerprint(&small.scene);
        eu->activation_kj_mol[c] = 70.0;
        ck_assert(sl_scene_fingerprint(&small.scene) != own);
        fresh();
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            MOVES(hair->pool[kind][stage] += 0.01)
        }
    }
    MOVES(hair->cystine_intact = 0.9)
    MOVES(hair->grade = SL_GRADE_FITTED)
    MOVES(dye->name = "another")
    MOVES(dye->class_ = SL_DYE_OXIDATIVE)
    MOVES(dye->rim_share.value = 0.5)
    MOVES(dye->leach_per_min.grade = SL_GRADE_FITTED)
    MOVES(dye->shampoo_loss.value = 0.3)
    MOVES(dye->loose_share.value = 0.3)
    dye->loose_loss.value = 2.0;
    ck_assert(sl_scene_fingerprint(&small.scene) == before); /* of nothing that is held loosely */
    dye->loose_share.value = 0.3;
    const uint64_t loose = sl_scene_fingerprint(&small.scene);
    dye->loose_loss.value = 3.0;
    ck_assert(sl_scene_fingerprint(&small.scene) != loose);
    fresh();
    MOVES(dye->n_bands = 2)
    MOVES(dye->bands[0].centre_nm += 1.0)
    MOVES(dye->bands[0].width_nm += 1.0)
    MOVES(dye->bands[0].height = 0.9)
    MOVES(mix->name = "another")
    MOVES(mix->class_ = SL_MIX_LIGHTENER)
    MOVES(mix->mechanism = SL_MECHANISM_REDUCTIVE)
    MOVES(mix->powder_parts += 0.1)
    MOVES(mix->developer_parts += 0.1)
    MOVES(mix->water_parts += 0.1)
    MOVES(mix->potassium_persulfate += 0.1)
    MOVES(mix->ammonium_persulfate += 0.1)
    MOVES(mix->sodium_persulfate += 0.1)
    MOVES(mix->percarbonate += 0.1)
    MOVES(mix->activity -= 0.1)
    MOVES(mix->label_from_contact = true)
    MOVES(mix->ph.grade = SL_GRADE_FITTED)
    MOVES(mix->loss_per_min.value *= 1.1)
    MOVES(mix->loss_l_mol_min.value = 1e-3)
    MOVES(small.zones[ZONE_RED].name = "another")
    MOVES(small.zones[ZONE_RED].hair = 0)
    MOVES(small.zones[ZONE_MIXED].recipe.n_dyes = 1)
    MOVES(small.zones[ZONE_RED].recipe.dye[0] = 2)
    MOVES(step->kind = SL_STEP_REST)
    MOVES(small.arms[ARM_MILD].steps[2].shampoos = 2)
    MOVES(step->mix = MIX_POWDER_3)
    MOVES(step->mix_g_per_g += 0.5)
    MOVES(step->hair_water_g_g = 0.4)
    MOVES(step->covered = false)
    MOVES(small.arms[ARM_MILD].name = "another")
    MOVES(small.arms[ARM_MILD].undyed = true)
    MOVES(small.arms[ARM_MILD].n_steps = 2)
    MOVES(small.scene.aims.base_moved.set = false)
    MOVES(small.scene.aims.stress_of = 2)
    MOVES(small.scene.n_points = 1)
    MOVES(small.scene.n_arms--)
    MOVES(small.scene.n_zones--)
    MOVES(ch->pigment_feedback = true)
#undef MOVES
    ck_assert(sl_scene_fingerprint(&small.scene) == before);
}
END_TEST

START_TEST(every_bit_of_a_number_moves_the_fingerprint)
{
    fresh();
    const uint64_t before = sl_scene_fingerprint(&small.scene);
    uint64_t seen_before[64];
    for (int bit = 0; bit < 64; bit++) {
        uint64_t bits = 0;
        memcpy(&bits, &small.scene.until_min, sizeof bits);
        bits ^= UINT64_C(1) << bit;
        memcpy(&small.scene.until_min, &bits, sizeof bits);
        seen_before[bit] = sl_scene_fingerprint(&small.scene);
        ck_assert(seen_before[bit] != before);
        for (int other = 0; other < bit; other++) {
            ck_assert(seen_before[other] != seen_before[bit]);
        }
        bits ^= UINT64_C(1) << bit;
        memcpy(&small.scene.until_min, &bits, sizeof bits);
    }
    small.scene.hair_g += 1.0; /* how much hair is weighed for: no member depends on it */
    ck_assert(sl_scene_fingerprint(&small.scene) == before);
}
END_TEST

START_TEST(the_last_of_every_list_moves_the_fingerprint)
{
    fresh();
    small.scene.n_points = 2;
    small.arms[SMALL_ARMS - 1].n_steps = SL_MAX_STEPS;
    small.dyes[SMALL_DYES - 1].n_bands = SL_MAX_BANDS;
    small.zones[ZONE_MIXED].recipe.n_dyes = SL_MAX_DYES_PER_ZONE;
    sl_recipe *const recipe = &small.zones[ZONE_MIXED].recipe;
    double *const numbers[] = {&small.hairs[0].porosity,
                               &small.hairs[SMALL_HAIRS - 1].porosity,
                               &small.dyes[0].rim_share.value,
                               &small.dyes[SMALL_DYES - 1].bands[SL_MAX_BANDS - 1].height,
                               &small.mixes[0].activity,
                               &small.mixes[SMALL_MIXES - 1].activity,
                               &recipe->strength[SL_MAX_DYES_PER_ZONE - 1],
                               &small.zones[0].recipe.strength[0],
                               &small.arms[0].contact_min,
                               &small.arms[SMALL_ARMS - 1].steps[SL_MAX_STEPS - 1].duration_min,
                               &small.scene.points[0].time_min,
                               &small.scene.points[1].temperature_c,
                               &small.scene.aims.zone_left[0],
                               &small.scene.aims.zone_left[SL_MAX_ZONES - 1],
                               &small.scene.aims.zone_near[SL_MAX_ZONES - 1],
                               &small.mixes[1].loss_l_mol_min.value};
    const uint64_t before = sl_scene_fingerprint(&small.scene);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        ck_assert_msg(changed(numbers[i]) != before, "number %zu", i);
    }
    double *const beyond[] = {&small.scene.points[2].time_min, &small.dyes[0].bands[1].height,
                              &small.zones[0].recipe.strength[1], &small.arms[1].steps[3].duration_min};
    for (size_t i = 0; i < sizeof beyond / sizeof beyond[0]; i++) {
        ck_assert_msg(changed(beyond[i]) == before, "number %zu behind its list", i);
    }
    small.scene.points[1].time_min = 7.0;
    ck_assert(sl_scene_fingerprint(&small.scene) != before);
    fresh();
    for (int arm = 0; arm < SMALL_ARMS; arm++) { /* a name is ended: moving a letter on is another name */
        small.arms[arm].name = arm == 0 ? "ab" : arm == 1 ? "c" : small.arms[arm].name;
    }
    const uint64_t ab = sl_scene_fingerprint(&small.scene);
    small.arms[0].name = "a";
    small.arms[1].name = "bc";
    ck_assert(sl_scene_fingerprint(&small.scene) != ab);
}
END_TEST

/* What lies on the hair has a fingerprint of its own, whatever its label says; several mixes have none. */
START_TEST(a_mix_is_known_by_what_is_in_it)
{
    fresh();
    const uint64_t six = sl_mix_fingerprint(&small.mixes[MIX_POWDER_6]);
    ck_assert(six != sl_mix_fingerprint(&small.mixes[MIX_POWDER_3]));
    ck_assert(sl_arm_fingerprint(&small.scene, ARM_6) == six);
    ck_assert(sl_arm_fingerprint(&small.scene, ARM_UNTREATED) == 0);
    small.mixes[MIX_POWDER_6].label_max_min = 25.0;
    small.mixes[MIX_POWDER_6].label_told_min = 20.0;
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    ck_assert(sl_mix_fingerprint(&small.mixes[MIX_POWDER_6]) == six);
    ck_assert_double_eq(small.mixes[MIX_POWDER_6].label_max_min, 25.0);
    small.arms[ARM_6].steps[2] = small.arms[ARM_6].steps[0];
    ck_assert(sl_arm_fingerprint(&small.scene, ARM_6) == 0);
    small.arms[ARM_6].steps[0] = small.arms[ARM_6].steps[1]; /* a rinse first */
    ck_assert(sl_arm_fingerprint(&small.scene, ARM_6) == six);
    small.mixes[MIX_POWDER_6].ph.value += 0.1;
    ck_assert(sl_mix_fingerprint(&small.mixes[MIX_POWDER_6]) != six);
}
END_TEST

START_SUITE("fingerprint")
ADD(the_checksum_is_fnv_1a)
ADD(whatever_moves_an_ensemble_moves_the_fingerprint)
ADD(each_single_thing_that_enters_an_ensemble_moves_the_fingerprint)
ADD(every_bit_of_a_number_moves_the_fingerprint)
ADD(the_last_of_every_list_moves_the_fingerprint)
ADD(a_mix_is_known_by_what_is_in_it)
END_SUITE
