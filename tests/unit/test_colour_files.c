/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files say of colours: charts, veils, what stains, bands of a class, keratin; and where
 * a mix's label begins to count.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/optics.h"
#include "slowlift/scene.h"
#include "suite.h"

#define HEAD(kind) "kind: " kind "\nversion: 1\ntitle: T\norigin: test\n"
#define PLACE "lies: bench\nroom: 24 °C\nuntil: 60 min\nhair_mass: 2 g\n"
#define UNDYED "zones: [{name: undyed, hair: prelight-9}]\n"
#define ARM(mix) "arms:\n  - name: one\n    steps: [{apply: " mix ", dwell: 30 min, mix_per_hair: 6 g/g}]\n"
#define NO_ARM "arms: [{name: one}]\n"

/* A few texts, then the shipped models. */
typedef struct shelf_file {
    const char *kind, *name, *text;
} shelf_file;

static const char *const shipped[] = {SLOWLIFT_MODELS};
static sl_folders folders = {shipped, 1};

static bool fetch(void *self, const char *kind, const char *name, char **text, size_t *length, char *path,
                  size_t path_size, sl_error *error)
{
    for (const shelf_file *file = self; file->kind; file++) {
        if (strcmp(file->kind, kind) == 0 && strcmp(file->name, name) == 0) {
            *length = strlen(file->text);
            *text = malloc(*length + 1);
            ck_assert_ptr_nonnull(*text);
            memcpy(*text, file->text, *length + 1);
            snprintf(path, path_size, "shelf/%s", name);
            return true;
        }
    }
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    return resolver.fetch(resolver.self, kind, name, text, length, path, path_size, error);
}

static void release(void *self, char *text)
{
    (void)self;
    free(text);
}

static sl_scene *parse(shelf_file *files, const char *text)
{
    static shelf_file none[] = {{NULL, NULL, NULL}};
    const sl_resolver resolver = {.self = files ? files : none, .fetch = fetch, .release = release};
    sl_error error;
    sl_scene *const scene = sl_scene_parse(text, strlen(text), "test.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%s:%d:%d: %s; %s", error.file, error.line, error.column, error.found,
                  error.wanted);
    return scene;
}

/* ---- charts ---------------------------------------------------------------------------- */

START_TEST(a_scene_without_a_chart_is_read_by_the_plain_one)
{
    sl_scene *const plain = parse(NULL, HEAD("scene") PLACE UNDYED NO_ARM);
    sl_scene *const other = parse(NULL, HEAD("scene") PLACE "chart: generous\n" UNDYED NO_ARM);
    ck_assert_str_eq(plain->chart.name, "plain");
    ck_assert_str_eq(other->chart.name, "generous");
    ck_assert_int_gt(plain->chart.n_tones, 10);
    ck_assert_int_eq(other->chart.n_tones, plain->chart.n_tones); /* it is like the plain one */
    ck_assert_str_eq(other->chart.tones[3].word, plain->chart.tones[3].word);
    ck_assert_double_lt(other->chart.level_L[6], plain->chart.level_L[6]);
    ck_assert_int_eq(plain->chart.grade, SL_GRADE_ASSUMED);
    sl_scene_free(plain);
    sl_scene_free(other);
}
END_TEST

START_TEST(another_chart_reads_the_same_hair_as_another_level)
{
    sl_scene *const plain = parse(NULL, HEAD("scene") PLACE UNDYED NO_ARM);
    sl_scene *const other = parse(NULL, HEAD("scene") PLACE "chart: generous\n" UNDYED NO_ARM);
    const sl_lab seen = {59.0, 8.0, 21.0};
    ck_assert_double_ge(sl_chart_read(&other->chart, seen).level,
                        sl_chart_read(&plain->chart, seen).level + 0.5);
    sl_scene_free(plain);
    sl_scene_free(other);
}
END_TEST

static const char naturals[] =
    HEAD("scene") PLACE "zones:\n"
                        "  - {name: n1, hair: natural-1}\n  - {name: n2, hair: natural-2}\n"
                        "  - {name: n3, hair: natural-3}\n  - {name: n4, hair: natural-4}\n"
                        "  - {name: n5, hair: natural-5}\n  - {name: n6, hair: natural-6}\n"
                        "  - {name: n7, hair: natural-7}\n  - {name: n8, hair: natural-8}\n"
                        "  - {name: n9, hair: natural-9}\n  - {name: n10, hair: natural-10}\n" NO_ARM;

START_TEST(the_plain_chart_reads_natural_hair_as_the_level_it_is)
{
    sl_scene *const scene = parse(NULL, naturals);
    sl_optics *const optics = sl_optics_new(scene, NULL);
    for (int i = 0; i < SL_LEVELS; i++) {
        sl_amounts amounts = {.oxidised = 1.0 - scene->hairs[i].cystine_intact};
        memcpy(amounts.pool, scene->hairs[i].pool, sizeof amounts.pool);
        sl_colour colour;
        sl_optics_paint(optics, &amounts, &colour);
        const sl_reading_words words = sl_chart_read(&scene->chart, colour.lab);
        ck_assert_msg(fabs(words.level - (i + 1)) < 0.1, "%s reads %g", scene->hairs[i].name, words.level);
        ck_assert_str_ne(words.tone, "");
        /* L* within a quarter of the way to the next level: the numbers were chosen to agree */
        ck_assert_double_lt(fabs(colour.lab.L - scene->chart.level_L[i]), 1.1);
    }
    sl_optics_free(optics);
    sl_scene_free(scene);
}
END_TEST

static int rank(const char *tone)
{
    static const char *const stages[] = {"red-brown", "orange", "gold", "yellow", "pale yellow"};
    for (int i = 0; i < 5; i++) {
        if (strcmp(tone, stages[i]) == 0) {
            return i;
        }
    }
    return -1;
}

/* Underlying colour runs red, orange, yellow, pale yellow: common practice, no source. */
START_TEST(lifted_dark_hair_is_called_red_brown_then_orange_then_gold_then_yellow)
{
    sl_scene *const scene = parse(NULL, naturals);
    sl_optics *const optics = sl_optics_new(scene, NULL);
    int seen = -1;
    bool called[5] = {false};
    for (double exponent = 0.0; exponent < 12.0; exponent += 0.1) {
        sl_amounts amounts = {.oxidised = 0.02 * exponent};
        const double both[SL_MELANINS] = {exponent, 0.57 * exponent};
        sl_melanin_move(&scene->chemistry, both, (const double(*)[SL_STAGES])scene->hairs[2].pool,
                        amounts.pool);
        sl_colour colour;
        sl_optics_paint(optics, &amounts, &colour);
        const int now = rank(sl_chart_read(&scene->chart, colour.lab).tone);
        ck_assert_msg(now < 0 || now >= seen, "at %g stage %d after %d", exponent, now, seen);
        ck_assert(now >= 0 || seen < 0); /* once lifted it has a stage's word */
        if (now >= 0) {
            called[now] = true;
            seen = now;
        }
    }
    ck_assert(called[0] && called[1] && called[2] && called[3]);
    sl_optics_free(optics);
    sl_scene_free(scene);
}
END_TEST

/* A number such as 7.3 or 6/1 would be somebody's shade code. */
START_TEST(no_word_of_a_shipped_chart_is_a_code)
{
    sl_scene *const scene = parse(NULL, HEAD("scene") PLACE UNDYED NO_ARM);
    for (int i = 0; i < scene->chart.n_tones; i++) {
        ck_assert_ptr_null(strpbrk(scene->chart.tones[i].word, "0123456789./,"));
    }
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_tone_that_names_no_limits_fits_everything)
{
    static shelf_file files[] = {
        {"chart", "mine",
         HEAD("chart") "levels: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]\n"
                       "tones: [{word: rose, from: 350 deg, to: 20°, least_chroma: 5}, {word: any}]\n"
                       "warm: {from: 0 °, to: 100 °}\nneutral_chroma: 3\nlevels_grade: measured here\n"
                       "tones_grade: from memory\n"},
        {NULL, NULL, NULL}};
    sl_scene *const scene = parse(files, HEAD("scene") PLACE "chart: mine\n" UNDYED NO_ARM);
    ck_assert_int_eq(scene->chart.n_tones, 2);
    ck_assert_int_eq(scene->chart.grade, SL_GRADE_FROM_MEMORY); /* the weaker of the two */
    ck_assert_double_eq(scene->chart.tones[0].from_deg, 350.0);
    ck_assert_str_eq(sl_chart_read(&scene->chart, (sl_lab){5.0, 10.0, 1.0}).tone, "rose");
    ck_assert_str_eq(sl_chart_read(&scene->chart, (sl_lab){5.0, -10.0, -50.0}).tone, "any");
    ck_assert_str_eq(sl_chart_read(&scene->chart, (sl_lab){100.0, 0.0, 0.0}).tone, "any");
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_copy_of_a_scene_keeps_its_chart)
{
    sl_scene *const scene = parse(NULL, HEAD("scene") PLACE UNDYED NO_ARM);
    sl_scene *const copy = sl_scene_copy(scene, NULL);
    const char *const borrowed = scene->chart.tones[0].word;
    ck_assert_ptr_ne(copy->chart.tones[0].word, borrowed);
    sl_scene_free(scene);
    ck_assert_str_eq(copy->chart.name, "plain");
    ck_assert_str_eq(copy->chart.tones[0].word, "green");
    ck_assert_uint_gt(strlen(copy->chart.title.in[SL_ENGLISH]), 4);
    sl_scene_free(copy);
}
END_TEST

/* ---- veils ------------------------------------------------------------------------------- */

static sl_mix first_mix(shelf_file *files, const char *text)
{
    sl_scene *const scene = parse(files, text);
    sl_mix mix = scene->mixes[0];
    sl_scene_free(scene);
    mix.name = NULL;
    mix.title = (sl_wording){{NULL}};
    return mix;
}

START_TEST(a_paste_hides_most_a_liquid_little_and_water_nothing)
{
    const sl_mix paste = first_mix(NULL, HEAD("scene") PLACE UNDYED ARM("powder-6"));
    const sl_mix liquid = first_mix(NULL, HEAD("scene") PLACE UNDYED ARM("two-part-mild"));
    const sl_mix water = first_mix(NULL, HEAD("scene") PLACE UNDYED ARM("plain-water"));
    ck_assert_double_eq(paste.veil_cover, 0.7);
    ck_assert_double_gt(paste.veil_lab[0], 85.0);
    ck_assert_double_lt(liquid.veil_cover, 0.2);
    ck_assert_double_eq(water.veil_cover, 0.0);
}
END_TEST

START_TEST(a_veil_that_is_given_is_kept_by_a_mix_like_it)
{
    static shelf_file files[] = {
        {"mix", "blue-powder", HEAD("mix") "like: powder-6\nveil: {L: 80.5, a: -4, b: -20, cover: 55 %}\n"},
        {"mix", "blue-powder-strong", HEAD("mix") "like: blue-powder\nstrength: 9 %\n"},
        {NULL, NULL, NULL}};
    const sl_mix mix = first_mix(files, HEAD("scene") PLACE UNDYED ARM("blue-powder-strong"));
    ck_assert_double_eq(mix.veil_lab[0], 80.5);
    ck_assert_double_eq(mix.veil_lab[1], -4.0);
    ck_assert_double_eq(mix.veil_lab[2], -20.0);
    ck_assert_double_eq(mix.veil_cover, 0.55);
}
END_TEST

START_TEST(a_label_counts_from_mixing_unless_the_file_says_from_application)
{
    static shelf_file files[] = {
        {"mix", "labelled", HEAD("mix") "like: powder-6\nlabel_longest: 35 min\n"},
        {"mix", "from-contact", HEAD("mix") "like: labelled\nlabel_counts_from: application\n"},
        {"mix", "from-mixing", HEAD("mix") "like: from-contact\nlabel_counts_from: mixing\n"},
        {NULL, NULL, NULL}};
    const sl_mix plain = first_mix(files, HEAD("scene") PLACE UNDYED ARM("labelled"));
    ck_assert_double_eq(plain.label_max_min, 35.0);
    ck_assert(!plain.label_from_contact);
    ck_assert(first_mix(files, HEAD("scene") PLACE UNDYED ARM("from-contact")).label_from_contact);
    ck_assert(!first_mix(files, HEAD("scene") PLACE UNDYED ARM("from-mixing")).label_from_contact);
}
END_TEST

/* ---- dyes -------------------------------------------------------------------------------- */

START_TEST(a_dye_without_bands_has_its_class_s)
{
    static shelf_file files[] = {
        {"dyes", "mine",
         HEAD("dyes") "like: classes\ndyes:\n  plum: {colour: plum, class: anthraquinone}\n"
                      "  sky: {colour: sky, class: anthraquinone, stain: 0.2, bands: [{centre: 640 nm, "
                      "width: 60 nm, height: 1}]}\n"},
        {NULL, NULL, NULL}};
    sl_scene *const scene = parse(files, HEAD("scene") PLACE
                                  "dyes: mine\nzones: [{name: a, hair: prelight-9, dye: {plum: 2, sky: "
                                  "1}}, {name: b, hair: prelight-9}]\n" NO_ARM);
    ck_assert_int_eq(scene->dyes[0].n_bands, 2);
    ck_assert_double_eq(scene->dyes[0].bands[0].centre_nm, 550.0);
    ck_assert_ptr_nonnull(scene->dyes[0].band_quality.source);
    ck_assert_int_eq(scene->dyes[1].n_bands, 1);
    ck_assert_double_eq(scene->dyes[1].bands[0].centre_nm, 640.0);
    ck_assert_ptr_null(scene->dyes[1].band_quality.source);
    ck_assert_double_lt(scene->dyes[0].stain_share.value, 0.05); /* the class's */
    ck_assert_double_eq(scene->dyes[1].stain_share.value, 0.2);
    sl_scene_free(scene);
}
END_TEST

static sl_scene *one_of_each_class(void)
{
    static shelf_file files[] = {
        {"dyes", "each",
         HEAD("dyes") "like: classes\ndyes:\n"
                      "  d0: {colour: x, class: cationic azo}\n  d1: {colour: x, class: quinone imine}\n"
                      "  d2: {colour: x, class: triarylmethane}\n"
                      "  d3: {colour: x, class: hindered triarylmethane}\n"
                      "  d4: {colour: x, class: xanthene}\n  d5: {colour: x, class: azine}\n"
                      "  d6: {colour: x, class: nitro}\n  d7: {colour: x, class: anthraquinone}\n"
                      "  d8: {colour: x, class: disperse azo}\n  d9: {colour: x, class: oxidative}\n"},
        {NULL, NULL, NULL}};
    return parse(
        files, HEAD("scene") PLACE
        "dyes: each\nzones:\n  - {name: a, hair: prelight-9, dye: {d0: 1, d1: 1, d2: 1, d3: 1}}\n"
        "  - {name: b, hair: prelight-9, dye: {d4: 1, d5: 1, d6: 1, d7: 1}}\n"
        "  - {name: c, hair: prelight-9, dye: {d8: 1, d9: 1}}\n  - {name: u, hair: prelight-9}\n" NO_ARM);
}

START_TEST(every_class_has_bands_and_says_from_where)
{
    sl_scene *const scene = one_of_each_class();
    ck_assert_int_eq(scene->n_dyes, SL_DYE_CLASS_COUNT);
    for (int i = 0; i < scene->n_dyes; i++) {
        ck_assert_int_eq((int)scene->dyes[i].class_, i);
        ck_assert_int_ge(scene->dyes[i].n_bands, 1);
        ck_assert_ptr_nonnull(scene->dyes[i].band_quality.source);
    }
    sl_scene_free(scene);
}
END_TEST

START_TEST(charged_dyes_stain_and_dyes_made_in_the_fibre_do_not)
{
    sl_scene *const scene = one_of_each_class();
    ck_assert_double_gt(scene->dyes[SL_DYE_CATIONIC_AZO].stain_share.value, 0.02);
    ck_assert_double_gt(scene->dyes[SL_DYE_TRIARYLMETHANE].stain_share.value, 0.02);
    ck_assert_double_eq(scene->dyes[SL_DYE_OXIDATIVE].stain_share.value, 0.0);
    sl_scene_free(scene);
}
END_TEST

/* A set from before stains were known still reads. */
START_TEST(a_dye_that_says_nothing_of_stains_leaves_none)
{
    static shelf_file files[] = {
        {"dyes", "old",
         HEAD(
             "dyes") "classes:\n  nitro: {rim_share: 50 %, peroxide: 0.6 L/(mol min), persulfate: 0.1 L/(mol "
                     "min), radical: 3 L2/(mol2 min), leach: 0.1 /min, shampoo: 0.2}\n"
                     "dyes:\n  sun: {colour: yellow, class: nitro, bands: [{centre: 430 nm, width: 80 nm, "
                     "height: 1}]}\n"},
        {NULL, NULL, NULL}};
    sl_scene *const scene =
        parse(files, HEAD("scene") PLACE "dyes: old\nzones: [{name: a, hair: prelight-9, dye: {sun: 2}}, "
                                         "{name: b, hair: prelight-9}]\n" NO_ARM);
    ck_assert_double_eq(scene->dyes[0].stain_share.value, 0.0);
    ck_assert_double_eq(scene->dyes[0].loose_share.value, 0.0); /* one part, as before there were two */
    sl_scene_free(scene);
}
END_TEST

/* ---- chemistry --------------------------------------------------------------------------- */

START_TEST(a_chemistry_that_says_nothing_of_yellow_keratin_has_the_usual)
{
    static char text[16384];
    FILE *const file = fopen(SLOWLIFT_MODELS "/chemistry/oxidation.yaml", "r");
    ck_assert_ptr_nonnull(file);
    char line[512];
    size_t used = 0;
    int left_out = 0;
    while (fgets(line, sizeof line, file)) {
        const bool yellow = strstr(line, "keratin_yellow:") != NULL;
        left_out += yellow ? 1 : 0;
        used += (size_t)snprintf(text + used, sizeof text - used, "%s", yellow ? "" : line);
        ck_assert_uint_lt(used, sizeof text);
    }
    fclose(file);
    ck_assert_int_eq(left_out, 1);
    shelf_file files[] = {{"chemistry", "old", text}, {NULL, NULL, NULL}};
    sl_scene *const scene = parse(files, HEAD("scene") PLACE "chemistry: old\n" UNDYED NO_ARM);
    ck_assert_double_eq(scene->chemistry.keratin_yellow.value, 0.05);
    ck_assert_int_eq(scene->chemistry.keratin_yellow.grade, SL_GRADE_ASSUMED);
    sl_scene_free(scene);
}
END_TEST

START_SUITE("colour files")
ADD(a_scene_without_a_chart_is_read_by_the_plain_one)
ADD(another_chart_reads_the_same_hair_as_another_level)
ADD(the_plain_chart_reads_natural_hair_as_the_level_it_is)
ADD(lifted_dark_hair_is_called_red_brown_then_orange_then_gold_then_yellow)
ADD(no_word_of_a_shipped_chart_is_a_code)
ADD(a_tone_that_names_no_limits_fits_everything)
ADD(a_copy_of_a_scene_keeps_its_chart)
ADD(a_paste_hides_most_a_liquid_little_and_water_nothing)
ADD(a_veil_that_is_given_is_kept_by_a_mix_like_it)
ADD(a_label_counts_from_mixing_unless_the_file_says_from_application)
ADD(a_dye_without_bands_has_its_class_s)
ADD(every_class_has_bands_and_says_from_where)
ADD(charged_dyes_stain_and_dyes_made_in_the_fibre_do_not)
ADD(a_dye_that_says_nothing_of_stains_leaves_none)
ADD(a_chemistry_that_says_nothing_of_yellow_keratin_has_the_usual)
END_SUITE
