/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A result names the weakest of all numbers that enter it: each number that does can be the one, each that
 * does not cannot.
 */
#include <string.h>

#include "scene/files/scene_file.h"
#include "scene/records.h"
#include "slowlift/scene.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_arena kept;

static void all_are(sl_rates *rates)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        rates->k[c].grade = SL_GRADE_MEASURED_HERE;
    }
}

/* Everything measured; only what a test weakens is weak. */
static void fresh(void)
{
    small_scene_fill(&small);
    sl_chemistry *const ch = &small.scene.chemistry;
    ch->name = "wet";
    for (int i = 0; i < sl_chemistry_fields.n; i++) {
        if (sl_chemistry_fields.field[i].kind == SL_FIELD_PARAM) {
            ((sl_param *)sl_field_at(&sl_chemistry_fields.field[i], ch))->grade = SL_GRADE_MEASURED_HERE;
        }
    }
    ch->mix_heat_j_g_k.value = 3.6; /* so that its section counts */
    all_are(&ch->cystine);
    all_are(&ch->melanin[SL_EUMELANIN].rates);
    all_are(&ch->melanin[SL_PHEOMELANIN].rates);
    for (int i = 0; i < SMALL_DYES; i++) {
        sl_dye *const dye = &small.dyes[i];
        all_are(&dye->rates);
        dye->rim_share.grade = dye->leach_per_min.grade = dye->shampoo_loss.grade = SL_GRADE_MEASURED_HERE;
        dye->loose_share = (sl_param){.value = 0.2, .grade = SL_GRADE_MEASURED_HERE};
        dye->loose_loss.grade = SL_GRADE_MEASURED_HERE;
        dye->stain_share = (sl_param){.value = 0.03, .grade = SL_GRADE_MEASURED_HERE};
        dye->band_quality.grade = SL_GRADE_MEASURED_HERE;
    }
    for (int i = 0; i < SMALL_MIXES; i++) {
        small.mixes[i].ph.grade = small.mixes[i].loss_per_min.grade = SL_GRADE_MEASURED_HERE;
    }
    for (int i = 0; i < SMALL_HAIRS; i++) {
        small.hairs[i].grade = SL_GRADE_MEASURED_HERE;
    }
    small.scene.chart.name = "greys";
    small.scene.chart.grade = SL_GRADE_MEASURED_HERE;
}

static const char *weakest(sl_grade *grade)
{
    static char what[200];
    sl_error error = {.code = SL_OK};
    const sl_reading reading = {.kept = &kept, .error = &error};
    ck_assert(sl_weakest_find(&reading, &small.scene));
    snprintf(what, sizeof what, "%s", small.scene.weakest_what);
    *grade = small.scene.weakest;
    sl_arena_free(&kept);
    return what;
}

/* It is named by its own words and by the name of what it belongs to. */
static void is_named(const char *words, const char *name)
{
    sl_grade grade;
    const char *const what = weakest(&grade);
    ck_assert_int_eq(grade, SL_GRADE_FITTED);
    ck_assert_msg(strstr(what, words) && strstr(what, name), "\"%s\" of %s told as \"%s\"", words, name,
                  what);
}

static void is_passed_over(void)
{
    sl_grade grade;
    weakest(&grade);
    ck_assert_int_eq(grade, SL_GRADE_MEASURED_HERE);
}

START_TEST(every_number_of_a_dye_can_be_the_weakest)
{
    fresh();
    sl_dye *const dye = &small.dyes[2];
    const struct {
        sl_param *number;
        const char *words;
    } numbers[] = {{&dye->rates.k[SL_PERHYDROXYL], "perhydroxyl"},
                   {&dye->rates.k[SL_PERSULFATE], "persulfate"},
                   {&dye->rates.k[SL_RADICAL], "radicals"},
                   {&dye->rim_share, "rim"},
                   {&dye->leach_per_min, "leaching"},
                   {&dye->shampoo_loss, "shampoo"},
                   {&dye->loose_share, "loosely held share"},
                   {&dye->loose_loss, "loosely held share per shampoo"},
                   {&dye->stain_share, "stains"},
                   {&dye->band_quality, "absorption"}};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        numbers[i].number->grade = SL_GRADE_FITTED;
        is_named(numbers[i].words, "violet");
        numbers[i].number->grade = SL_GRADE_MEASURED_HERE;
    }
    dye->loose_share = (sl_param){.value = 0.0, .grade = SL_GRADE_ASSUMED}; /* holds nothing loosely */
    dye->loose_loss.grade = SL_GRADE_ASSUMED;
    dye->stain_share = (sl_param){.value = 0.0, .grade = SL_GRADE_ASSUMED}; /* stains nothing */
    dye->rates.k[SL_RADICAL] = (sl_param){.value = 0.0, .grade = SL_GRADE_ASSUMED}; /* meets no radicals */
    is_passed_over();
}
END_TEST

START_TEST(every_number_of_a_mix_that_is_computed_with_can_be_the_weakest)
{
    fresh();
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    mix->ph.grade = SL_GRADE_FITTED;
    is_named("pH", "powder + 6 %");
    mix->ph.grade = SL_GRADE_MEASURED_HERE;
    mix->loss_per_min.grade = SL_GRADE_FITTED;
    is_named("loss of peroxide", "powder + 6 %");
    mix->loss_l_mol_min = (sl_param){.value = 1e-3, .grade = SL_GRADE_MEASURED_HERE}; /* the law that runs */
    is_passed_over();
    mix->loss_l_mol_min.grade = SL_GRADE_FITTED;
    is_named("loss of peroxide", "powder + 6 %");
    fresh();
    small.mixes[MIX_REDUCING].ph.grade = SL_GRADE_ASSUMED; /* recorded, never computed with */
    small.mixes[MIX_WATER].ph.grade = SL_GRADE_ASSUMED;    /* holds no oxidant */
    is_passed_over();
    small.mixes[MIX_POWDER_WATER].ph.grade = SL_GRADE_FITTED; /* powder alone is one */
    is_named("pH", "powder + water");
    fresh();
    small.mixes[MIX_MILD].ph.grade = SL_GRADE_FITTED; /* and developer alone */
    is_named("pH", "mild");
    fresh();
    small.mixes[0] = small.mixes[MIX_POWDER_6]; /* wherever it stands */
    small.mixes[0].name = "first";
    small.mixes[0].ph.grade = SL_GRADE_FITTED;
    is_named("pH", "first");
}
END_TEST

START_TEST(every_number_of_the_chemistry_that_enters_can_be_the_weakest)
{
    int outside = 0;
    for (int i = 0; i < sl_chemistry_fields.n; i++) {
        const sl_field *const field = &sl_chemistry_fields.field[i];
        if (field->kind != SL_FIELD_PARAM) {
            continue;
        }
        const bool head = strcmp(field->key, "head") == 0 && strcmp(field->section, "places") == 0;
        const bool wrapped = strncmp(field->key, "wrapped", 7) == 0;
        fresh();
        sl_mix *const reducing = &small.mixes[MIX_REDUCING];
        for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
            if (strcmp(field->section, sl_reductant_word((sl_reductant_id)agent)) == 0) {
                reducing->reductant = (sl_reductant_id)agent;
            }
        }
        reducing->reductant_share = 0.05;
        ((sl_param *)sl_field_at(field, &small.scene.chemistry))->grade = SL_GRADE_FITTED;
        small.scene.chemistry.pigment_feedback = true;
        small.mixes[MIX_MILD].ph_computed = true;
        small.scene.place = head || wrapped ? SL_PLACE_WRAPPED : SL_PLACE_BENCH;
        is_named(field->words, "wet");
        small.scene.place = SL_PLACE_BENCH;
        small.scene.chemistry.pigment_feedback = false;
        small.mixes[MIX_MILD].ph_computed = false;
        reducing->reductant_share = 0.0;
        sl_grade grade;
        weakest(&grade);
        const bool reduces = (field->use & SL_DRAWN_REDUCING) != 0;
        outside += grade == SL_GRADE_MEASURED_HERE && !reduces ? 1 : 0;
        ck_assert(!reduces || grade == SL_GRADE_MEASURED_HERE);
        ck_assert((head || wrapped) ? grade == SL_GRADE_MEASURED_HERE : true);
    }
    /* temperatures of a head (3), what pigments take (dyes 2, each melanin's amount 1), ammonia that leaves */
    ck_assert_int_eq(outside, 8);
    fresh();
    small.scene.place = SL_PLACE_HEAD; /* not wrapped */
    small.scene.chemistry.wrapped_rise_k.grade = SL_GRADE_ASSUMED;
    is_passed_over();
}
END_TEST

START_TEST(of_equals_the_first_is_named_and_hair_and_chart_count_too)
{
    sl_grade grade;
    fresh();
    ck_assert_ptr_nonnull(strstr(weakest(&grade), "pH")); /* of all that are equally strong, too */
    small.hairs[1].grade = SL_GRADE_FITTED;
    is_named("a number", "light");
    small.scene.chart.grade = SL_GRADE_FITTED;
    is_named("a number", "light");
    small.hairs[1].grade = SL_GRADE_MEASURED_HERE;
    is_named("a number", "greys");
    small.scene.chemistry.cystine.k[SL_RADICAL].grade = SL_GRADE_FITTED;
    is_named("radicals", "cystine");
    small.scene.chemistry.melanin[SL_PHEOMELANIN].rates.k[SL_PERSULFATE].grade = SL_GRADE_FITTED;
    is_named("persulfate", "pheomelanin");
    small.dyes[0].rates.k[SL_RADICAL].grade = SL_GRADE_FITTED;
    is_named("radicals", "brown");
}
END_TEST

START_TEST(a_hair_or_a_dye_can_be_the_weakest_wherever_it_stands)
{
    fresh();
    for (int i = 0; i < SMALL_HAIRS; i++) {
        small.hairs[i].grade = SL_GRADE_FITTED;
        is_named("a number", small.hairs[i].name);
        small.hairs[i].grade = SL_GRADE_MEASURED_HERE;
    }
    for (int i = 0; i < SMALL_DYES; i++) {
        small.dyes[i].leach_per_min.grade = SL_GRADE_FITTED;
        is_named("leaching", small.dyes[i].name);
        small.dyes[i].leach_per_min.grade = SL_GRADE_MEASURED_HERE;
    }
    is_passed_over();
}
END_TEST

START_SUITE("weakest")
ADD(every_number_of_a_dye_can_be_the_weakest)
ADD(every_number_of_a_mix_that_is_computed_with_can_be_the_weakest)
ADD(every_number_of_the_chemistry_that_enters_can_be_the_weakest)
ADD(of_equals_the_first_is_named_and_hair_and_chart_count_too)
ADD(a_hair_or_a_dye_can_be_the_weakest_wherever_it_stands)
END_SUITE
