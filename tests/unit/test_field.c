/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows of every record hold together, and copy and fingerprint do with each member what its row says.
 * That none is forgotten: test_every_byte.c.
 */
#include <stdio.h>
#include <string.h>

#include "scene/records.h"
#include "slowlift/part.h"
#include "slowlift/scene.h"
#include "small_scene.h"
#include "suite.h"

enum { MOST_BYTES = 8192, MOST_TEXT = 1 << 20, MOST_CHANGES = 4096 };

static const sl_fields *const records[] = {
    &sl_scene_fields,     &sl_course_point_fields, &sl_aims_fields, &sl_zone_fields,
    &sl_recipe_fields,    &sl_arm_fields,          &sl_step_fields, &sl_mix_fields,
    &sl_hair_fields,      &sl_hair_record_fields,  &sl_dye_fields,  &sl_band_fields,
    &sl_chemistry_fields, &sl_chart_fields,        &sl_tone_fields, &sl_prices_fields};
enum { N_RECORDS = sizeof records / sizeof records[0] };

static small_scene small;

/* ---- rows that hold together ------------------------------------------------------------------- */

static bool same(const char *one, const char *other)
{
    return (one == NULL) == (other == NULL) && (one == NULL || strcmp(one, other) == 0);
}

START_TEST(a_row_says_all_that_is_done_with_it)
{
    const sl_fields *const rows = records[_i];
    ck_assert_int_lt(rows->n + SL_CHANNELS, SL_MOST_FIELDS);
    for (int i = 0; i < rows->n; i++) {
        const sl_field *const field = &rows->field[i];
        const char *const name = field->member ? field->member : field->key;
        ck_assert_msg(!(field->use & SL_GRADED) || !rows->of || field->words || field->kind == SL_FIELD_RATES,
                      "%s is graded without words", name);
        ck_assert_msg(!(field->use & SL_REQUIRED) || field->wanted || field->list, "%s, missing, is nothing",
                      name);
        ck_assert_msg(!(field->use & SL_DRAWN_FROM) ||
                          (field->kind != SL_FIELD_OWN && field->kind != SL_FIELD_WORDING) || field->draw,
                      "nobody knows how to draw %s", name);
        ck_assert_msg(!field->told || field->kind <= SL_FIELD_WORDING, "nobody knows how to tell %s", name);
        ck_assert_msg(!field->told || field->kind != SL_FIELD_NUMBERS, "nobody knows how to tell %s", name);
        ck_assert_msg(!field->told || field->kind != SL_FIELD_WORD || field->list, "%s is told without words",
                      name);
        ck_assert(field->turn >= SL_FIRST_TURN && field->turn <= SL_LAST_TURN);
        /* What is behind a pointer is copied only where it is a text, or a list that its own row counts. */
        const bool may_point =
            field->kind == SL_FIELD_TEXT || field->kind == SL_FIELD_LIST || same(name, "memory");
        ck_assert_msg(may_point || field->size != sizeof(void *) || field->kind == SL_FIELD_NUMBER,
                      "%s may be a pointer, and would not be copied", name);
        if (field->kind == SL_FIELD_LIST) {
            ck_assert_uint_eq(field->element, field->rows->size);
            ck_assert_uint_gt(field->element, sizeof(void *));
        }
        if (field->kind == SL_FIELD_WITHIN) {
            ck_assert_uint_eq(field->size, field->rows->size);
        }
        if (field->key && !field->read) {
            ck_assert_msg(field->kind != SL_FIELD_NUMBERS && field->kind != SL_FIELD_WITHIN &&
                              field->kind != SL_FIELD_LIST,
                          "nobody knows how to read %s", name);
            ck_assert_msg(field->kind != SL_FIELD_WORD || field->list, "no word is known for %s", name);
            ck_assert_msg((field->kind != SL_FIELD_TEXT && field->kind != SL_FIELD_WORDING) ||
                              field->most > 0,
                          "%s may not be said", name);
        }
    }
}
END_TEST

START_TEST(what_can_hold_the_weakest_number_of_a_scene_says_of_what_it_is)
{
    static const sl_fields *const graded[] = {&sl_mix_fields, &sl_dye_fields, &sl_hair_fields,
                                              &sl_chemistry_fields, &sl_chart_fields};
    for (size_t i = 0; i < sizeof graded / sizeof graded[0]; i++) {
        ck_assert_msg(graded[i]->of, "%s", graded[i]->name);
    }
}
END_TEST

START_TEST(no_key_stands_twice_in_a_mapping_and_a_section_stands_together)
{
    const sl_fields *const rows = records[_i];
    for (int i = 0; i < rows->n; i++) {
        for (int j = 0; j < i; j++) {
            const sl_field *const one = &rows->field[j], *const other = &rows->field[i];
            ck_assert_msg(!one->key || !same(one->section, other->section) || !same(one->key, other->key),
                          "%s stands twice", other->key);
            ck_assert_msg(!one->section || !same(one->section, other->section) ||
                              same(one->section, rows->field[i - 1].section),
                          "section %s is torn", one->section);
        }
    }
}
END_TEST

/* ---- reading ------------------------------------------------------------------------------------- */

/* What a reader says of a file of this kind, that holds these lines. */
static sl_code said_of(sl_record_reader *reader, const char *lines, void *into, sl_error *error)
{
    static sl_arena kept;
    const sl_reading reading = {.kept = &kept, .error = error};
    sl_yaml document = {0};
    *error = (sl_error){.code = SL_OK};
    ck_assert(sl_yaml_parse(&document, lines, strlen(lines), "file", error));
    const bool good = reader(&reading, NULL, document.root, true, into);
    ck_assert_int_eq(good, error->code == SL_OK);
    sl_yaml_free(&document);
    return error->code;
}

START_TEST(keys_may_stand_in_any_order)
{
    static const char forth[] =
        "class: powder and developer\nmechanism: oxidative\npowder: 1\ndeveloper: 2\n"
        "strength: 6 %\npowder_holds: {sodium_persulfate: 20 %, activity: 90 %}\nph: 10\n"
        "loss: 2e-3 /min\nlabel_longest: 40 min\nlabel_counts_from: application\n";
    static const char back[] =
        "label_counts_from: application\nlabel_longest: 40 min\nloss: 2e-3 /min\nph: 10\n"
        "powder_holds: {activity: 90 %, sodium_persulfate: 20 %}\nstrength: 6 %\n"
        "developer: 2\npowder: 1\nmechanism: oxidative\nclass: powder and developer\n";
    sl_mix_record one, other;
    sl_error error;
    ck_assert_int_eq(said_of(sl_mix_read, forth, &one, &error), SL_OK);
    ck_assert_int_eq(said_of(sl_mix_read, back, &other, &error), SL_OK);
    ck_assert(sl_mix_fingerprint(&one.mix) == sl_mix_fingerprint(&other.mix));
    ck_assert_double_eq(other.mix.label_max_min, 40.0);
    ck_assert(other.mix.label_from_contact);
    ck_assert_double_eq(other.mix.activity, 0.9);
}
END_TEST

START_TEST(of_several_faults_the_first_row_s_is_named)
{
    sl_mix_record mix;
    sl_error error;
    ck_assert_int_eq(
        said_of(sl_mix_read, "ph: 99\nwater: -1\nmechanism: unknown\nclass: plain water\n", &mix, &error),
        SL_ERR_OUT_OF_RANGE);
    ck_assert_int_eq(error.line, 2);
    ck_assert_int_eq(said_of(sl_mix_read, "ph: 99\nwater: -1\n", &mix, &error), SL_ERR_MISSING_KEY);
    ck_assert_str_eq(error.found, "\"class\"");
    ck_assert_int_eq(said_of(sl_mix_read, "ph: 99\nwetness: 1\n", &mix, &error), SL_ERR_UNKNOWN_KEY);
}
END_TEST

START_TEST(a_key_is_known_where_it_belongs_and_nowhere_else)
{
    static const struct {
        const char *lines, *found, *wanted; /* all that is known there, when no key is near */
    } cases[] = {
        {"activity: 1\n", "\"activity\"", NULL},
        {"powder_holds: {powder: 1}\n", "\"powder\"", NULL},
        {"peroxide: 1 L/(mol min)\n", "\"peroxide\"", NULL},
        {"powder_holds: {quite_unknown: 1}\n", "\"quite_unknown\"",
         "known here: potassium_persulfate, ammonium_persulfate, sodium_persulfate, percarbonate, "
         "metasilicate, carbonate, phosphate, ammonia, ethanolamine, phosphoric_acid, activity"}};
    sl_mix_record mix;
    sl_error error;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char lines[256];
        snprintf(lines, sizeof lines, "class: plain water\nmechanism: unknown\nwater: 1\n%s", cases[i].lines);
        ck_assert_int_eq(said_of(sl_mix_read, lines, &mix, &error), SL_ERR_UNKNOWN_KEY);
        ck_assert_str_eq(error.found, cases[i].found);
        ck_assert(!cases[i].wanted || strcmp(error.wanted, cases[i].wanted) == 0);
    }
}
END_TEST

START_TEST(the_keys_of_rates_are_known_where_rates_stand)
{
    static sl_dyes_record dyes;
    sl_error error;
    ck_assert_int_eq(said_of(sl_dyes_read, "classes: {azine: {radical: 1 L2/(mol2 min)}}\n", &dyes, &error),
                     SL_OK);
    ck_assert_double_eq(dyes.of_class[SL_DYE_AZINE].dye.rates.k[SL_RADICAL].value, 1.0);
    ck_assert_int_eq(said_of(sl_dyes_read, "classes: {azine: {colour: red}}\n", &dyes, &error),
                     SL_ERR_UNKNOWN_KEY);
    ck_assert_int_eq(said_of(sl_dyes_read, "classes: {azine: {quite_unknown_here: 1}}\n", &dyes, &error),
                     SL_ERR_UNKNOWN_KEY);
    ck_assert_str_eq(error.wanted,
                     "known here: rim_share, peroxide, persulfate, radical, leach, shampoo, loose_share, "
                     "loose_shampoo, stain, reduced_by, colourless, bands, bands_grade, bands_source");
    sl_chemistry chemistry = {.name = NULL};
    ck_assert_int_eq(said_of(sl_chemistry_read, "quite_unknown_here: 1\n", &chemistry, &error),
                     SL_ERR_UNKNOWN_KEY);
    ck_assert_str_eq(
        error.wanted,
        "known here: kind, version, title, origin, like, peroxide, persulfate, fibre, channels, "
        "cystine, eumelanin, pheomelanin, colour, washing, places, heat, pigments, sulfite, sulfinate, "
        "hydroxymethanesulfinate, ascorbate, thiol, dithionite, colourless");
    ck_assert_int_eq(said_of(sl_chemistry_read, "radical: 1 L2/(mol2 min)\n", &chemistry, &error),
                     SL_ERR_UNKNOWN_KEY);
}
END_TEST

/* The grade of a hair whose number `weak` is fitted, and all others measured. */
static sl_grade grade_with(sl_hair_record *record, sl_param *weak)
{
    const sl_chemistry chemistry = small.scene.chemistry;
    const sl_param strong = *weak;
    sl_hair hair;
    weak->grade = SL_GRADE_FITTED;
    ck_assert(sl_hair_make(record, &chemistry, &hair, NULL));
    *weak = strong;
    return hair.grade;
}

START_TEST(a_hair_is_graded_by_the_weakest_of_the_numbers_that_made_it)
{
    static const sl_param dark = {.value = 6.0, .grade = SL_GRADE_MEASURED_HERE},
                          light = {.value = 0.5, .grade = SL_GRADE_MEASURED_HERE},
                          none = {.value = 0.0, .grade = SL_GRADE_MEASURED_HERE},
                          one = {.value = 1.0, .grade = SL_GRADE_MEASURED_HERE};
    small_scene_fill(&small);
    sl_hair_record hair = {.level = 5.0,
                           .eumelanin = dark,
                           .pheomelanin = light,
                           .warmth_left = one,
                           .damage = none,
                           .porosity = one};
    sl_param *const numbers[] = {&hair.eumelanin, &hair.pheomelanin, &hair.damage, &hair.porosity};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        ck_assert_int_eq(grade_with(&hair, numbers[i]), SL_GRADE_FITTED);
    }
    /* Natural hair has all of its warmth, whatever is known of that. */
    ck_assert_int_eq(grade_with(&hair, &hair.warmth_left), SL_GRADE_MEASURED_HERE);
    hair.prelightened = true;
    hair.natural_level = 5.0;
    hair.level = 8.0;
    ck_assert_int_eq(grade_with(&hair, &hair.warmth_left), SL_GRADE_FITTED);
}
END_TEST

/* ---- what is changed, and what follows ---------------------------------------------------------- */

/* Everything that can be there is. */
static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
    small.scene.n_points = 2;
    small.scene.chart = (sl_chart){.name = "greys", .n_tones = 1, .tones = {{.word = "grey"}}};
    for (int i = 0; i < SMALL_ZONES; i++) {
        small.zones[i].recipe.n_dyes = 2;
    }
    for (int i = 0; i < SMALL_DYES; i++) {
        small.dyes[i].loose_share = assumed(0.2); /* else nothing goes by its loss */
    }
    for (int i = 0; i < SMALL_ARMS; i++) {
        small.arms[i].n_steps = 3;
    }
}

/* LIST: one of its records. */
static void *element(const sl_field *field, int n, void *record)
{
    char *first = sl_field_at(field, record);
    if (sl_field_is_pointer(field)) {
        memcpy(&first, sl_field_at(field, record), sizeof first);
    }
    return first + (size_t)n * field->element;
}

/* Changes number `which` of a member; false: it has no such. */
static bool change(const sl_field *field, int which, void *record)
{
    void *const at = sl_field_at(field, record);
    sl_param *const param = at;
    sl_bound *const bound = at;
    sl_rates *const rates = at;
    switch (field->kind) {
    case SL_FIELD_PARAM:
        param->value += which == 0 ? 1e-3 : 0.0;
        param->grade = which == 1 ? (sl_grade)(param->grade + 1) : param->grade;
        return which < 2;
    case SL_FIELD_NUMBER:
    case SL_FIELD_NUMBERS: /* the first; the last of every list is test_fingerprint's */
        *(double *)at += 1e-3;
        return which < 1;
    case SL_FIELD_WHOLE: /* down: it may count what is there */
        *(int *)at -= 1;
        return which < 1;
    case SL_FIELD_YES:
        *(bool *)at = !*(bool *)at;
        return which < 1;
    case SL_FIELD_WORD:
        *(unsigned *)at += 1;
        return which < 1;
    case SL_FIELD_TEXT:
        *(const char **)at = "another";
        return which < 1;
    case SL_FIELD_WORDING:
        ((sl_wording *)at)->in[which % SL_LANGUAGES] = "another";
        return which < SL_LANGUAGES;
    case SL_FIELD_RATES:
        rates->k[which % 3].value += which < 3 ? 1e-3 : 0.0;
        rates->k[which % 3].grade = (sl_grade)(rates->k[which % 3].grade + (which / 3 == 1 ? 1 : 0));
        rates->own_activation[which % 3] = which / 3 == 2;
        return which < 9;
    case SL_FIELD_BOUND:
        bound->most += which == 0 ? 1e-3 : 0.0;
        bound->set = which == 1 ? !bound->set : bound->set;
        return which < 2;
    case SL_FIELD_OWN:
        *(unsigned char *)at ^= 1;
        return which < 1 && field->size > 0;
    case SL_FIELD_WITHIN:
    case SL_FIELD_LIST:
        break;
    }
    return false;
}

static int n_changes;

/* Whether any change of this member moves the fingerprint; every one of them must, where one record holds it.
 */
static bool moves(const sl_field *field, void *record, uint64_t before)
{
    unsigned char kept[MOST_BYTES];
    bool any = false;
    ck_assert_uint_le(field->size, sizeof kept);
    for (int which = 0;; which++) {
        memcpy(kept, sl_field_at(field, record), field->size);
        if (!change(field, which, record)) {
            memcpy(sl_field_at(field, record), kept, field->size);
            return any;
        }
        const bool moved = sl_scene_fingerprint(&small.scene) != before;
        memcpy(sl_field_at(field, record), kept, field->size);
        ck_assert_msg(which == 0 || moved == any, "change %d of %s", which, field->member);
        any = moved;
        n_changes++;
    }
}

/* Through every row; `drawn`: of what holds this record, too. */
static void each_moves(const sl_fields *rows, void *record, bool drawn, uint64_t before)
{
    for (int i = 0; i < rows->n; i++) {
        const sl_field *const field = &rows->field[i];
        const bool expected = drawn && (field->use & SL_DRAWN_FROM);
        if (field->kind == SL_FIELD_WITHIN) {
            each_moves(field->rows, sl_field_at(field, record), expected, before);
        } else if (field->kind == SL_FIELD_LIST) {
            ck_assert_int_gt(sl_field_count(field, record), 0);
            for (int n = 0; n < sl_field_count(field, record); n++) {
                each_moves(field->rows, element(field, n, record), expected, before);
            }
        } else if (field->member) {
            ck_assert_msg(moves(field, record, before) == expected, "%s of a %s %s the fingerprint",
                          field->member, rows->name, expected ? "does not move" : "moves");
        }
    }
}

START_TEST(a_member_moves_the_fingerprint_where_its_row_says_so_and_nowhere_else)
{
    fresh();
    n_changes = 0;
    small.scene.chemistry.mix_heat_j_g_k = assumed(3.6); /* else nothing of its section counts */
    each_moves(&sl_scene_fields, &small.scene, true, sl_scene_fingerprint(&small.scene));
    ck_assert_int_gt(n_changes, 400);
}
END_TEST

START_TEST(a_mix_on_the_hair_is_known_by_its_rows_but_those_of_the_label)
{
    fresh();
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    const uint64_t before = sl_mix_fingerprint(mix);
    for (int i = 0; i < sl_mix_fields.n; i++) {
        const sl_field *const field = &sl_mix_fields.field[i];
        if (field->member) {
            const sl_mix kept = *mix;
            ck_assert(change(field, 0, mix));
            const bool expected = (field->use & SL_DRAWN_FROM) && !(field->use & SL_OF_LABEL);
            ck_assert_msg((sl_mix_fingerprint(mix) != before) == expected, "%s", field->member);
            *mix = kept;
        }
    }
}
END_TEST

/* ---- copies -------------------------------------------------------------------------------------- */

/* Texts of the scene that is copied, all in one place. */
static char texts[MOST_TEXT];
static size_t texts_length;

static const char *new_text(void)
{
    char *const text = texts + texts_length;
    texts_length += (size_t)snprintf(text, sizeof texts - texts_length, "text %zu", texts_length) + 1;
    ck_assert_uint_lt(texts_length, sizeof texts - 32);
    return text;
}

static void set_texts(const sl_fields *rows, void *record)
{
    for (int i = 0; i < rows->n; i++) {
        const sl_field *const field = &rows->field[i];
        void *const at = sl_field_at(field, record);
        if (field->kind == SL_FIELD_TEXT) {
            *(const char **)at = new_text();
        } else if (field->kind == SL_FIELD_WORDING) {
            for (int n = 0; n < SL_LANGUAGES; n++) {
                ((sl_wording *)at)->in[n] = new_text();
            }
        } else if (field->kind == SL_FIELD_PARAM) {
            ((sl_param *)at)->source = new_text();
        } else if (field->kind == SL_FIELD_RATES) {
            for (int c = 0; c < SL_CHANNELS; c++) {
                ((sl_rates *)at)->k[c].source = new_text();
            }
        } else if (field->kind == SL_FIELD_WITHIN) {
            set_texts(field->rows, at);
        } else if (field->kind == SL_FIELD_LIST) {
            for (int n = 0; n < sl_field_count(field, record); n++) {
                set_texts(field->rows, element(field, n, record));
            }
        }
    }
}

static bool within(const void *begin, size_t size, uintptr_t address)
{
    return address >= (uintptr_t)begin && address < (uintptr_t)begin + size;
}

/* Nothing in these bytes is an address in the old scene or among its texts; what was there is still said. */
static void points_elsewhere(const void *bytes, const void *old, size_t size, const char *what)
{
    for (size_t at = 0; at + sizeof(uintptr_t) <= size; at += sizeof(uintptr_t)) {
        uintptr_t word = 0, was = 0;
        memcpy(&word, (const char *)bytes + at, sizeof word);
        memcpy(&was, (const char *)old + at, sizeof was);
        ck_assert_msg(!within(texts, sizeof texts, word) && !within(&small, sizeof small, word),
                      "byte %zu of %s points into the scene that was copied", at, what);
        if (within(texts, sizeof texts, was)) {
            const char *text = NULL, *first = NULL;
            memcpy(&text, (const char *)bytes + at, sizeof text);
            memcpy(&first, (const char *)old + at, sizeof first);
            ck_assert_str_eq(text, first);
        }
    }
}

START_TEST(nothing_in_a_copy_points_into_the_scene_that_was_copied)
{
    fresh();
    texts_length = 0;
    set_texts(&sl_scene_fields, &small.scene);
    ck_assert_uint_gt(texts_length, 1000);
    sl_error error;
    sl_scene *const copy = sl_scene_copy(&small.scene, &error);
    ck_assert_ptr_nonnull(copy);
    points_elsewhere(copy, &small.scene, sizeof *copy, "the scene");
    points_elsewhere(copy->hairs, small.hairs, sizeof small.hairs, "the hairs");
    points_elsewhere(copy->dyes, small.dyes, sizeof small.dyes, "the dyes");
    points_elsewhere(copy->mixes, small.mixes, sizeof small.mixes, "the mixes");
    points_elsewhere(copy->zones, small.zones, sizeof small.zones, "the zones");
    points_elsewhere(copy->arms, small.arms, sizeof small.arms, "the arms");
    ck_assert(sl_scene_fingerprint(copy) == sl_scene_fingerprint(&small.scene));
    sl_scene_free(copy);
}
END_TEST

START_SUITE("field")
ADD_LOOP(a_row_says_all_that_is_done_with_it, 0, N_RECORDS)
ADD(what_can_hold_the_weakest_number_of_a_scene_says_of_what_it_is)
ADD_LOOP(no_key_stands_twice_in_a_mapping_and_a_section_stands_together, 0, N_RECORDS)
ADD(keys_may_stand_in_any_order)
ADD(of_several_faults_the_first_row_s_is_named)
ADD(a_key_is_known_where_it_belongs_and_nowhere_else)
ADD(the_keys_of_rates_are_known_where_rates_stand)
ADD(a_hair_is_graded_by_the_weakest_of_the_numbers_that_made_it)
ADD(a_member_moves_the_fingerprint_where_its_row_says_so_and_nowhere_else)
ADD(a_mix_on_the_hair_is_known_by_its_rows_but_those_of_the_label)
ADD(nothing_in_a_copy_points_into_the_scene_that_was_copied)
END_SUITE
