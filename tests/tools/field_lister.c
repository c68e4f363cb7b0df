/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists every row of src/scene/field.h's tables as docs/file-format.md has to tell it, with tabs between:
 * record, section, key, "required" or nothing, what it takes, what serves when it is left out, its name in
 * JSON. What serves is read from the smallest files there can be. usage: field_lister MODELS
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scene/files/scene_file.h"
#include "slowlift/scene.h"

#define AS_UNIT(name, unit, form) unit,
static const char *const units[] = {SL_MEASURE_LIST(AS_UNIT)};
#undef AS_UNIT

static const char scene_text[] =
    "kind: scene\nversion: 1\ntitle: t\norigin: o\nlies: bench\nroom: 22 °C\nuntil: 60 min\nhair_mass: 2 g\n"
    "zones: [{name: z, hair: natural-6}]\n"
    "arms: [{name: a, steps: [{apply: powder-6, dwell: 1 min, mix_per_hair: 1 g/g}]}]\naims: {}\n";
static const char mix_text[] = "class: plain water\nmechanism: unknown\nwater: 1\n";
static const char hair_text[] = "level: 6\neumelanin: 1\npheomelanin: 1\n";
static const char chart_text[] = "levels: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]\ntones: [{word: w}]\n"
                                 "warm: {from: 1 °, to: 2 °}\nneutral_chroma: 1\n";

static void give_up(const char *what, const sl_error *error)
{
    fprintf(stderr, "field_lister: %s: %s; %s\n", what, error->found, error->wanted);
    exit(EXIT_FAILURE);
}

/* ---- what a row takes, in words -------------------------------------------------------------- */

static void put_quantity(const sl_range *range, double value)
{
    const bool percent = range->measure == SL_MEASURE_SHARE;
    printf("%.10g", percent ? 100.0 * value : value);
}

static const char *unit_of(const sl_range *range)
{
    return range->measure == SL_MEASURE_SHARE ? " %" : units[range->measure];
}

static void put_list(const sl_words *list)
{
    for (int i = 0; i < list->n; i++) {
        printf("%s`%s`", i == 0 ? "" : i == list->n - 1 ? " or " : ", ", list->word[i]);
    }
}

static void put_taken(const sl_field *field)
{
    if (field->list) {
        put_list(field->list);
    } else if (field->kind == SL_FIELD_YES) {
        printf("`no` or `yes`");
    } else if (field->kind == SL_FIELD_TEXT) {
        printf("a text of up to %zu bytes", field->most);
    } else if (field->kind == SL_FIELD_WORDING) {
        printf("a text of up to %zu bytes, or one for each language", field->most);
    } else if (field->range.most > field->range.least) {
        put_quantity(&field->range, field->range.least);
        printf(" to ");
        put_quantity(&field->range, field->range.most);
        printf("%s", unit_of(&field->range));
    }
}

/* ---- what serves when it is left out -------------------------------------------------------------- */

static void put_number(const sl_field *field, double value)
{
    if (field->list) {
        printf("%s", field->list->word[value > 0.0]);
    } else {
        put_quantity(&field->range, value);
        printf("%s", unit_of(&field->range));
    }
}

/* Nothing when there is no value from the start. */
static void put_usual(const sl_field *field, const void *record)
{
    const void *const at = sl_field_in(field, record);
    const char *text = NULL;
    unsigned word = 0;
    switch (field->kind) {
    case SL_FIELD_PARAM:
        put_number(field, ((const sl_param *)at)->value);
        return;
    case SL_FIELD_NUMBER:
        put_number(field, *(const double *)at);
        return;
    case SL_FIELD_YES:
        word = *(const bool *)at;
        printf("%s", field->list ? field->list->word[word] : word ? "yes" : "no");
        return;
    case SL_FIELD_WORD:
        memcpy(&word, at, sizeof word);
        printf("%s", field->list ? field->list->word[word] : "");
        return;
    case SL_FIELD_WITHIN: /* a file that it is named after */
        memcpy(&text, at, sizeof text);
        printf("%s", field->rows == &sl_chemistry_fields || field->rows == &sl_chart_fields ? text : "");
        return;
    case SL_FIELD_NUMBERS:
    case SL_FIELD_WHOLE:
    case SL_FIELD_TEXT:
    case SL_FIELD_WORDING:
    case SL_FIELD_RATES:
    case SL_FIELD_BOUND:
    case SL_FIELD_LIST:
    case SL_FIELD_OWN:
        return;
    }
}

static void put_row(const sl_fields *rows, const sl_field *field, const char *key, const void *record)
{
    printf("%s\t%s\t%s\t%s\t", rows->name, field->section ? field->section : "", key,
           field->use & SL_REQUIRED ? "required" : "");
    put_taken(field);
    printf("\t");
    if (record && field->member) {
        put_usual(field, record);
    }
    printf("\t%s\t%s\t%s\t%s\t%s\n", field->told ? field->told : "", field->read ? "own" : "",
           field->use & SL_GRADED && field->words ? field->words : "", field->wanted ? field->wanted : "",
           field->of  ? field->of
           : rows->of ? rows->of
                      : "");
}

/* record NULL: nothing is there from the start. */
static void put_rows(const sl_fields *rows, const void *record)
{
    for (int i = 0; i < rows->n; i++) {
        const sl_field *const field = &rows->field[i];
        if (field->kind == SL_FIELD_RATES) {
            for (int c = 0; c < SL_CHANNELS; c++) {
                put_row(rows, field, sl_channel_key(c), NULL);
            }
        } else if (field->key || field->told || field->words) {
            put_row(rows, field, field->key ? field->key : "", record);
        }
    }
}

/* ---- the smallest files ---------------------------------------------------------------------------------
 */

static void read_with(const sl_reading *reading, sl_record_reader *reader, const char *head, const char *text,
                      void *record)
{
    char whole[512];
    snprintf(whole, sizeof whole, "kind: %s\nversion: 1\ntitle: t\norigin: o\n%s", head, text);
    sl_yaml document = {0};
    if (!sl_yaml_parse(&document, whole, strlen(whole), head, reading->error) ||
        !reader(reading, NULL, document.root, true, record)) {
        give_up(head, reading->error);
    }
    sl_yaml_free(&document);
}

/* A chemistry that says nothing is refused; what it had from the start stays. */
static void read_start(const sl_reading *reading, sl_chemistry *chemistry)
{
    static const char text[] = "kind: chemistry\n";
    sl_yaml document = {0};
    if (!sl_yaml_parse(&document, text, strlen(text), "chemistry", reading->error) ||
        sl_chemistry_read(reading, NULL, document.root, true, chemistry)) {
        give_up("chemistry", reading->error);
    }
    sl_yaml_free(&document);
}

int main(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_arena kept = {0};
    sl_library library = {0};
    const char *const paths[] = {argc == 2 ? argv[1] : "models"};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    const sl_reading reading = {.kept = &kept, .resolver = &resolver, .library = &library, .error = &error};
    sl_mix_record mix;
    sl_hair_record hair;
    static sl_chart chart;
    static sl_chemistry chemistry;
    sl_scene *const scene = sl_scene_parse(scene_text, strlen(scene_text), "smallest", &resolver, &error);
    if (!scene) {
        give_up("scene", &error);
    }
    read_with(&reading, sl_mix_read, "mix", mix_text, &mix);
    read_with(&reading, sl_hair_read, "hair", hair_text, &hair);
    read_with(&reading, sl_chart_file_read, "chart", chart_text, &chart);
    /* What the smallest files had to say. */
    mix.mix.water_parts = scene->arms[0].steps[0].mix_g_per_g = 0.0;
    hair.level = hair.eumelanin.value = hair.pheomelanin.value = 0.0;
    read_start(&reading, &chemistry);
    put_rows(&sl_scene_fields, scene);
    put_rows(&sl_zone_fields, scene->zones);
    put_rows(&sl_arm_fields, scene->arms);
    put_rows(&sl_step_fields, scene->arms[0].steps);
    put_rows(&sl_aims_fields, NULL);
    put_rows(&sl_crew_fields, NULL);
    put_rows(&sl_hair_record_fields, &hair);
    put_rows(&sl_hair_fields, NULL);
    put_rows(&sl_dye_fields, NULL);
    put_rows(&sl_band_fields, NULL);
    put_rows(&sl_mix_fields, &mix.mix);
    put_rows(&sl_chemistry_fields, &chemistry);
    put_rows(&sl_chart_fields, NULL);
    put_rows(&sl_tone_fields, chart.tones);
    put_rows(&sl_prices_fields, NULL);
    put_rows(&sl_product_fields, NULL);
    put_rows(&sl_settled_fields, NULL);
    sl_scene_free(scene);
    sl_library_clear(&library);
    sl_arena_free(&kept);
    return EXIT_SUCCESS;
}
