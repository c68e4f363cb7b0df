/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/part.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

static small_scene small;
static const sl_saws seen = {
    2,
    {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF},
     {.arm = ARM_3, .zone = SL_SAW_ALL_ZONES, .minute = 6.5, .wipe = SL_WIPE_SLIGHT, .strand = true}}};

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = (sl_aims){.colour_left = 0.5,
                                 .base_moved = {0.3, true},
                                 .cystine_lost = {0.12, true},
                                 .longest_min = {45.0, true}};
}

static sl_spread *run(sl_member_range range, const sl_saws *saws, uint64_t seed)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.first_member = range.first,
                                       .members = range.members,
                                       .seed = seed,
                                       .threads = 1 + (int)(range.first % 2),
                                       .saws = saws};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

typedef struct text {
    char *bytes;
    size_t length;
} text;

static text written(const sl_spread *spread)
{
    text t = {0};
    FILE *const out = open_memstream(&t.bytes, &t.length);
    ck_assert_ptr_nonnull(out);
    ck_assert(sl_part_write(out, spread, &small.scene, NULL));
    ck_assert_int_eq(fclose(out), 0);
    return t;
}

static sl_spread *parsed(text t)
{
    sl_error error = {0};
    sl_spread *part = NULL;
    ck_assert_msg(sl_part_parse(&part, &small.scene, t.bytes, t.length, "part", &error), "%d: %s", error.line,
                  error.found);
    return part;
}

static void refused(text t, sl_code code)
{
    sl_error error = {0};
    sl_spread *part = NULL;
    ck_assert(!sl_part_parse(&part, &small.scene, t.bytes, t.length, "one.part", &error));
    ck_assert_int_eq(error.code, code);
    ck_assert_str_eq(error.file, "one.part");
    ck_assert_int_gt(error.line, 0);
    ck_assert_uint_gt(strlen(error.found), 0);
    ck_assert_uint_gt(strlen(error.wanted), 0);
    ck_assert_ptr_null(part);
}

START_TEST(a_part_read_back_writes_the_same_bytes)
{
    for (int with = 0; with < 2; with++) {
        fresh();
        sl_spread *const spread = run((sl_member_range){32, 200}, with ? &seen : NULL, UINT64_MAX);
        const text once = written(spread);
        sl_spread *const part = parsed(once);
        const text twice = written(part);
        ck_assert_uint_eq(once.length, twice.length);
        ck_assert_mem_eq(once.bytes, twice.bytes, once.length);
        sl_spread_free(spread);
        sl_spread_free(part);
        free(once.bytes);
        free(twice.bytes);
    }
}
END_TEST

/* Three parts in any order, one of them from a file: the bytes of the whole run. */
START_TEST(parts_added_up_are_the_bytes_of_the_whole)
{
    static const int orders[2][3] = {{1, 2, 3}, {3, 1, 2}};
    for (int with = 0; with < 2; with++) {
        fresh();
        const sl_saws *const saws = with ? &seen : NULL;
        sl_spread *const whole = run((sl_member_range){0, 500}, saws, 5);
        const text wanted = written(whole);
        for (int o = 0; o < 2; o++) {
            sl_spread *const sum = run(sl_part_range(500, orders[o][0], 3), saws, 5);
            for (int i = 1; i < 3; i++) {
                sl_spread *const fresh_part = run(sl_part_range(500, orders[o][i], 3), saws, 5);
                const text t = written(fresh_part);
                sl_spread *const part = parsed(t);
                ck_assert(sl_spread_add(sum, part, NULL));
                sl_spread_free(part);
                sl_spread_free(fresh_part);
                free(t.bytes);
            }
            const text got = written(sum);
            ck_assert_uint_eq(wanted.length, got.length);
            ck_assert_mem_eq(wanted.bytes, got.bytes, got.length);
            ck_assert_int_eq(sum->n_ranges, 1);
            free(got.bytes);
            sl_spread_free(sum);
        }
        free(wanted.bytes);
        sl_spread_free(whole);
    }
}
END_TEST

START_TEST(every_member_is_in_exactly_one_part)
{
    for (long members = 1; members < 40; members++) {
        for (int parts = 1; parts <= members; parts++) {
            long next = 0;
            for (int i = 1; i <= parts; i++) {
                const sl_member_range range = sl_part_range(members, i, parts);
                ck_assert_int_eq(range.first, next);
                ck_assert_int_ge(range.members, members / parts);
                next += range.members;
            }
            ck_assert_int_eq(next, members);
        }
    }
}
END_TEST

static void add_refused(sl_spread *sum, sl_spread *part)
{
    const long before = sum->members;
    sl_error error = {0};
    ck_assert(!sl_spread_add(sum, part, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_uint_gt(strlen(error.found), 10);
    ck_assert_int_eq(sum->members, before);
    sl_spread_free(part);
}

START_TEST(parts_that_do_not_belong_together_are_not_added_up)
{
    fresh();
    sl_spread *const sum = run((sl_member_range){0, 100}, &seen, 5);
    add_refused(sum, run((sl_member_range){99, 5}, &seen, 5));
    add_refused(sum, run((sl_member_range){0, 100}, &seen, 5));
    add_refused(sum, run((sl_member_range){100, 5}, &seen, 6));
    add_refused(sum, run((sl_member_range){100, 5}, NULL, 5));
    sl_saws other = seen;
    other.saw[0].wipe = SL_WIPE_GHOST;
    add_refused(sum, run((sl_member_range){100, 5}, &other, 5));
    sl_spread *const stopped = run((sl_member_range){100, 5}, &seen, 5);
    stopped->stopped = true;
    text t = {0};
    FILE *const out = open_memstream(&t.bytes, &t.length);
    sl_error error = {0};
    ck_assert(!sl_part_write(out, stopped, &small.scene, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    fclose(out);
    free(t.bytes);
    add_refused(sum, stopped);
    sl_spread_free(sum);
}
END_TEST

START_TEST(a_part_of_another_scene_is_refused)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 32}, NULL, 5);
    const text t = written(spread);
    small.scene.room_c += 1e-9;
    refused(t, SL_ERR_INCONSISTENT);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(one_changed_byte_or_an_early_end_is_seen)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 32}, &seen, 5);
    const text t = written(spread);
    for (size_t i = strlen("slowlift-part 1\n"); i < t.length; i += 5) {
        const char kept = t.bytes[i];
        t.bytes[i] = kept == '1' ? '2' : '1';
        refused(t, SL_ERR_SYNTAX);
        t.bytes[i] = kept;
    }
    for (size_t length = 0; length < t.length; length += 11) {
        refused((text){t.bytes, length}, SL_ERR_SYNTAX);
    }
    refused((text){t.bytes, t.length - 1}, SL_ERR_SYNTAX);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* Somebody who mends the checksum as well still cannot make counts that do not add up. */
static void mend(text t)
{
    const size_t tail = 26;
    char line[32];
    const uint64_t hash = sl_fnv(SL_FNV_START, t.bytes, t.length - tail);
    snprintf(line, sizeof line, "checksum %016llx\n", (unsigned long long)hash);
    memcpy(t.bytes + t.length - tail, line, tail);
}

START_TEST(counts_that_do_not_add_up_are_refused_even_with_a_checksum_that_fits)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 64}, &seen, 5);
    static const char *const places[] = {"\nmembers 64", "\nearly ",  "\nlate ", "\nlate-by ", "\nleft ",
                                         "\nlast-zone ", "\nbins 0 ", "\narm 1", "\nmargin ",  "\nrange 0 64",
                                         "\nweights ",   "\nsaw 4 ",  "\nseed "};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        const text t = written(spread);
        char *const at = strstr(t.bytes, places[i]);
        ck_assert_ptr_nonnull(at);
        at[strlen(places[i]) - 1] = 'x';
        mend(t);
        refused(t, SL_ERR_SYNTAX);
        free(t.bytes);
    }
    const text t = written(spread);
    char *const count = strchr(strstr(t.bytes, "\nearly "), ':') + 1;
    *count = *count == '9' ? '8' : (char)(*count + 1);
    mend(t);
    refused(t, SL_ERR_SYNTAX);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_file_of_another_kind_or_a_newer_version_says_so)
{
    fresh();
    char newer[] = "slowlift-part 2\nchecksum 0123456789abcdef\n";
    refused((text){newer, strlen(newer)}, SL_ERR_NEWER_VERSION);
    char other[] = "kind: scene\nversion: 1\ntitle: something else that is long enough\n";
    refused((text){other, strlen(other)}, SL_ERR_SYNTAX);
}
END_TEST

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
    small.scene.title = "another title";
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

/* A grade that is none would be read past the end of a table. */
START_TEST(a_part_with_a_grade_that_is_none_is_refused_though_its_checksum_fits)
{
    fresh();
    const sl_saws one = {1, {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_UNDYED}}};
    sl_spread *const spread = run((sl_member_range){0, 32}, &one, 5);
    const text t = written(spread);
    char *const saw = strstr(t.bytes, "\nsaw ");
    ck_assert_ptr_nonnull(saw);
    char *at = saw + strlen("\nsaw ");
    for (int words = 0; words < 3; words++) { /* arm, zone, minute */
        at = strchr(at, ' ') + 1;
    }
    ck_assert_int_eq(*at, '0' + SL_WIPE_UNDYED);
    ck_assert_int_eq(at[1], ' ');
    sl_spread_free(parsed(t));
    for (char grade = '0' + SL_WIPES; grade <= '9'; grade++) {
        *at = grade;
        mend(t);
        refused(t, SL_ERR_SYNTAX);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* The fingerprint names its fields by hand. Whoever adds one to these records decides in
 * scene/fingerprint.c whether an ensemble depends on it, then writes the new size here. */
START_TEST(a_field_added_to_the_scene_is_not_forgotten_by_the_fingerprint)
{
    if (sizeof(void *) == 8 && sizeof(long) == 8) {
        ck_assert_uint_eq(sizeof(sl_chemistry), 1656);
        ck_assert_uint_eq(sizeof(sl_dye), 352);
        ck_assert_uint_eq(sizeof(sl_hair), 120);
        ck_assert_uint_eq(sizeof(sl_mix), 224);
        ck_assert_uint_eq(sizeof(sl_zone), 72);
        ck_assert_uint_eq(sizeof(sl_step), 56);
        ck_assert_uint_eq(sizeof(sl_arm), 936);
        ck_assert_uint_eq(sizeof(sl_aims), 592);
        ck_assert_uint_eq(sizeof(sl_scene), 3960);
    }
}
END_TEST

START_SUITE("part")
ADD(a_part_read_back_writes_the_same_bytes)
ADD(parts_added_up_are_the_bytes_of_the_whole)
ADD(every_member_is_in_exactly_one_part)
ADD(parts_that_do_not_belong_together_are_not_added_up)
ADD(a_part_of_another_scene_is_refused)
ADD(one_changed_byte_or_an_early_end_is_seen)
ADD(counts_that_do_not_add_up_are_refused_even_with_a_checksum_that_fits)
ADD(a_file_of_another_kind_or_a_newer_version_says_so)
ADD(the_checksum_is_fnv_1a)
ADD(whatever_moves_an_ensemble_moves_the_fingerprint)
ADD(each_single_thing_that_enters_an_ensemble_moves_the_fingerprint)
ADD(a_part_with_a_grade_that_is_none_is_refused_though_its_checksum_fits)
ADD(a_field_added_to_the_scene_is_not_forgotten_by_the_fingerprint)
END_SUITE
