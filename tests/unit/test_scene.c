/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/scene.h"

#include <dirent.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shelf.h"
#include "slowlift/part.h"
#include "suite.h"

static sl_scene *load(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s.yaml", name);
    const sl_resolver resolver = shipped_resolver();
    sl_error error;
    sl_scene *const scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s:%d:%d: %s; %s", error.file, error.line, error.column, error.found,
                  error.wanted);
    return scene;
}

static sl_scene *parse(const char *text, sl_error *error)
{
    const sl_resolver resolver = shipped_resolver();
    return sl_scene_parse(text, strlen(text), "test.yaml", &resolver, error);
}

#define PLACE "lies: bench\nroom: 24 °C\nuntil: 60 min\nhair_mass: 2 g\n"
#define ZONES                                                                                                \
    "dyes: bright-one\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n  - {name: undyed, hair: "  \
    "prelight-9}\n"
#define ARMS(mix) "arms:\n  - name: one\n    steps: [{apply: " mix ", dwell: 30 min, mix_per_hair: 6 g/g}]\n"

static sl_scene *parse_from(shelf *from, const char *text)
{
    const sl_resolver resolver = {.self = from, .fetch = fetch_from_shelf, .release = release_to_shelf};
    sl_error error;
    sl_scene *const scene = sl_scene_parse(text, strlen(text), "test.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%s:%d:%d: %s; %s", error.file, error.line, error.column, error.found,
                  error.wanted);
    ck_assert_int_eq(from->fetches, from->releases); /* every text went back */
    return scene;
}

/* ---- what is shipped -------------------------------------------------------------------- */

static int check_folder(const char *folder, sl_file_kind wanted)
{
    char path[512];
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/%s", folder);
    DIR *const dir = opendir(path);
    ck_assert_ptr_nonnull(dir);
    const sl_resolver resolver = shipped_resolver();
    int n = 0;
    for (const struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        if (!strstr(entry->d_name, ".yaml")) {
            continue;
        }
        char file[1024], title[256] = "";
        sl_file_kind kind = SL_KIND_COUNT;
        sl_error error = {.code = SL_OK};
        snprintf(file, sizeof file, "%s/%s", path, entry->d_name);
        ck_assert_msg(sl_file_check(file, &resolver, &kind, title, sizeof title, &error), "%s:%d:%d: %s; %s",
                      error.file, error.line, error.column, error.found, error.wanted);
        ck_assert_int_eq(kind, wanted);
        ck_assert_uint_gt(strlen(title), 4);
        n++;
    }
    closedir(dir);
    return n;
}

START_TEST(every_shipped_file_is_good)
{
    ck_assert_int_eq(check_folder("chemistry", SL_KIND_CHEMISTRY), 2);
    ck_assert_int_eq(check_folder("dyes", SL_KIND_DYES), 3);
    ck_assert_int_ge(check_folder("hair", SL_KIND_HAIR), 13);
    ck_assert_int_ge(check_folder("mixes", SL_KIND_MIX), 9);
    ck_assert_int_ge(check_folder("scenes", SL_KIND_SCENE), 6);
    ck_assert_int_eq(check_folder("charts", SL_KIND_CHART), 2);
}
END_TEST

START_TEST(the_eight_arms_are_the_eight_arms)
{
    sl_scene *const scene = load("eight-arms");
    static const char *const names[] = {"untreated",       "washing only",
                                        "powder + water",  "powder + 3 %",
                                        "powder + 6 %",    "two-part without persulfate",
                                        "lightener + 6 %", "undyed, powder + 6 %"};
    static const char *const zones[] = {"root", "red",    "orange", "yellow", "green",
                                        "blue", "violet", "undyed", "natural"};
    ck_assert_int_eq(scene->n_arms, 8);
    ck_assert_int_eq(scene->n_zones, 9);
    for (int i = 0; i < 8; i++) {
        ck_assert_str_eq(scene->arms[i].name, names[i]);
        ck_assert_str_eq(scene->zones[i].name, zones[i]);
        ck_assert_double_eq(scene->arms[i].contact_min, 0.75 * i); /* 45 s apart */
    }
    ck_assert_str_eq(scene->name, "eight-arms");
    ck_assert_int_eq(scene->arms[0].n_steps, 0);
    ck_assert_int_eq(scene->arms[4].n_steps, 3);
    ck_assert(scene->arms[7].undyed);
    ck_assert_int_eq(scene->place, SL_PLACE_BENCH);
    ck_assert_double_eq(scene->room_c, 24.0);
    ck_assert_double_eq(scene->until_min, 60.0);
    sl_scene_free(scene);
}
END_TEST

START_TEST(hairs_dyes_and_mixes_are_kept_once)
{
    sl_scene *const scene = load("eight-arms");
    ck_assert_int_eq(scene->n_hairs, 2); /* natural-5, prelight-9 */
    ck_assert_int_eq(scene->n_dyes, 7);
    ck_assert_int_eq(scene->n_mixes, 6); /* powder-6 serves two arms */
    ck_assert_int_eq(scene->arms[4].steps[0].mix, scene->arms[7].steps[0].mix);
    ck_assert_int_eq(scene->zones[1].hair, scene->zones[7].hair);
    sl_scene_free(scene);
}
END_TEST

START_TEST(values_arrive_in_the_model_s_units)
{
    sl_scene *const scene = load("eight-arms");
    const sl_chemistry *const chemistry = &scene->chemistry;
    ck_assert_double_eq(chemistry->pka_25c.value, 11.65);
    ck_assert_double_eq(chemistry->peroxide_diffusion_cm2_s.value, 5e-9);
    ck_assert_double_eq(chemistry->swelling_deficit.value, 0.7);
    ck_assert_double_eq(chemistry->melanin[SL_EUMELANIN].rates.k[SL_RADICAL].value, 13.7);
    ck_assert_int_eq(chemistry->melanin[SL_EUMELANIN].rates.k[SL_RADICAL].grade, SL_GRADE_FITTED);
    ck_assert_int_eq(chemistry->thermal_per_min.grade, SL_GRADE_COMPUTED);
    ck_assert_ptr_nonnull(strstr(chemistry->thermal_per_min.source, "House"));
    ck_assert(!chemistry->pigment_feedback);
    const sl_mix *const six = &scene->mixes[scene->arms[4].steps[0].mix];
    ck_assert_str_eq(six->name, "powder-6");
    ck_assert_double_eq(six->developer_pct, 6.0);
    ck_assert_double_eq(six->potassium_persulfate, 0.55); /* through two likes */
    ck_assert_double_eq(six->water_parts, 0.0);
    ck_assert_double_eq(six->activity, 1.0);
    ck_assert(six->ph_computed);
    ck_assert_double_eq_tol(six->ph.value, 10.1, 0.1); /* what its files' ingredients make */
    ck_assert_double_eq(six->holds[SL_OF_POWDER][SL_METASILICATE].value, 0.16);
    ck_assert_double_eq(six->holds[SL_OF_DEVELOPER][SL_PHOSPHORIC_ACID].value, 0.0003);
    const sl_step *const step = &scene->arms[4].steps[0];
    ck_assert_double_eq(step->mix_g_per_g, 6.0);
    ck_assert_double_eq(step->mix_age_min, 1.0);
    ck_assert_double_eq(step->hair_water_g_g, 0.0);
    ck_assert(step->covered);
    ck_assert_double_eq(scene->arms[4].steps[2].duration_min, 1.0); /* a shampoo takes a minute */
    sl_scene_free(scene);
}
END_TEST

START_TEST(lightened_hair_starts_lighter_and_stressed)
{
    sl_scene *const scene = load("eight-arms");
    const sl_hair *const hair = &scene->hairs[scene->zones[1].hair];
    ck_assert(hair->prelightened);
    ck_assert_double_eq(hair->natural_level, 5.0);
    ck_assert_double_eq(hair->level, 9.0);
    ck_assert_double_eq_tol(hair->cystine_intact, 0.84, 1e-15);
    ck_assert_double_eq(hair->porosity, 1.8);
    const sl_hair *const natural = &scene->hairs[scene->zones[0].hair];
    ck_assert_double_eq(natural->pool[SL_EUMELANIN][SL_BOUND], 1.79);
    ck_assert_double_eq(natural->pool[SL_EUMELANIN][SL_OPENED], 0.0);
    /* four levels by the chemistry's own ratio of a level: A = A0 q^4 */
    const double from = sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])natural->pool);
    const double to = sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])hair->pool);
    ck_assert_double_eq_tol(to / from, pow(0.62, 4.0), 1e-9);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_dye_takes_its_class_s_numbers_unless_it_has_its_own)
{
    sl_scene *const scene = load("eight-arms");
    const sl_dye *const red = &scene->dyes[scene->zones[1].recipe.dye[0]];
    const sl_dye *const orange = &scene->dyes[scene->zones[2].recipe.dye[0]];
    ck_assert_str_eq(red->name, "red");
    ck_assert_int_eq(red->class_, SL_DYE_CATIONIC_AZO);
    ck_assert_int_eq(orange->class_, SL_DYE_CATIONIC_AZO);
    ck_assert_double_eq(red->rates.k[SL_PERHYDROXYL].value, 0.2);
    ck_assert_double_eq(orange->rates.k[SL_PERHYDROXYL].value, 0.3);
    ck_assert_double_eq(red->leach_per_min.value, orange->leach_per_min.value);
    ck_assert_int_eq(red->n_bands, 1);
    ck_assert_double_eq(red->bands[0].centre_nm, 525.0);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_recipe_may_hold_two_dyes)
{
    sl_scene *const scene = load("violet-ghost");
    ck_assert_int_eq(scene->zones[1].recipe.n_dyes, 2);
    ck_assert_double_eq(scene->zones[2].recipe.strength[1], 4.0);
    ck_assert_int_eq(scene->zones[1].recipe.dye[1], scene->zones[2].recipe.dye[0]); /* the same blue */
    sl_scene_free(scene);
}
END_TEST

START_TEST(damp_hair_brings_the_chemistry_s_water)
{
    sl_scene *const scene = load("diluted");
    ck_assert_double_eq(scene->arms[3].steps[0].hair_water_g_g, 0.4);
    ck_assert(!scene->arms[4].steps[0].covered);
    sl_scene_free(scene);
}
END_TEST

START_TEST(every_shipped_scene_names_an_assumed_number_as_weakest)
{
    sl_scene *const scene = load("eight-arms"); /* where plain water comes first */
    ck_assert_int_eq(scene->weakest, SL_GRADE_ASSUMED);
    ck_assert_str_eq(scene->weakest_what, "pH of the mix powder-water");
    sl_scene_free(scene);
}
END_TEST

/* ---- like ---------------------------------------------------------------------------------- */

START_TEST(reversed_changes_what_it_says_and_nothing_else)
{
    sl_scene *const usual = load("eight-arms");
    sl_scene *const reversed = load("reversed-assumption");
    const sl_chemistry *const one = &usual->chemistry, *const other = &reversed->chemistry;
    ck_assert_str_eq(other->name, "reversed");
    ck_assert_double_gt(other->cystine.k[SL_PERSULFATE].value, one->cystine.k[SL_PERSULFATE].value);
    ck_assert_double_lt(other->cystine.k[SL_RADICAL].value, one->cystine.k[SL_RADICAL].value);
    ck_assert_double_eq(other->cystine_mol_l.value, one->cystine_mol_l.value);
    ck_assert_str_eq(other->cystine_mol_l.source, one->cystine_mol_l.source);
    ck_assert_double_eq(other->melanin[SL_EUMELANIN].opened_ratio.value,
                        one->melanin[SL_EUMELANIN].opened_ratio.value);
    ck_assert_double_eq(other->level_ratio.value, one->level_ratio.value);
    sl_scene_free(usual);
    sl_scene_free(reversed);
}
END_TEST

START_TEST(like_overrides_a_whole_number_with_its_grade)
{
    static const shelf_file files[] = {
        {"mix", "mine", HEAD("mix") "like: powder-6\nloss: 0.01 /min\n"},
        {"mix", "mine-metal",
         HEAD("mix") "like: mine\nloss_second_order: {value: 4.2e-3 L/(mol min), grade: fitted}\n"},
        {NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *scene = parse_from(&from, HEAD("scene") PLACE ZONES ARMS("mine"));
    ck_assert_double_eq(scene->mixes[0].loss_per_min.value, 0.01);
    ck_assert_int_eq(scene->mixes[0].loss_per_min.grade, SL_GRADE_ASSUMED); /* not the grade of what it was */
    ck_assert_ptr_null(scene->mixes[0].loss_per_min.source);
    sl_scene_free(scene);
    scene = parse_from(&from, HEAD("scene") PLACE ZONES ARMS("mine-metal"));
    ck_assert_double_eq(scene->mixes[0].loss_per_min.value, 0.0); /* one law of loss serves */
    ck_assert_double_eq(scene->mixes[0].loss_l_mol_min.value, 4.2e-3);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_set_like_another_may_change_a_class_and_a_dye)
{
    static const shelf_file files[] = {
        {"dyes", "mine",
         HEAD("dyes") "like: bright-one\nclasses:\n  cationic azo: {leach: 0.02 /min}\ndyes:\n"
                      "  red: {peroxide: {value: 0.9 L/(mol min), grade: measured here, activation: 50 "
                      "kJ/mol}}\n"},
        {NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *const scene = parse_from(
        &from, HEAD("scene") PLACE "dyes: mine\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
                                   "  - {name: undyed, hair: prelight-9}\n" ARMS("powder-6"));
    const sl_dye *const red = &scene->dyes[0];
    ck_assert_double_eq(red->leach_per_min.value, 0.02);
    ck_assert_double_eq(red->rates.k[SL_PERHYDROXYL].value, 0.9);
    ck_assert_int_eq(red->rates.k[SL_PERHYDROXYL].grade, SL_GRADE_MEASURED_HERE);
    ck_assert(red->rates.own_activation[SL_PERHYDROXYL]);
    ck_assert_double_eq(red->rates.activation_kj_mol[SL_PERHYDROXYL], 50.0);
    ck_assert(!red->rates.own_activation[SL_PERSULFATE]);
    ck_assert_double_eq(red->bands[0].centre_nm, 525.0);
    sl_scene_free(scene);
}
END_TEST

/* Regulation (EC) 1223/2009, Annex III entry 12: 12 % of hydrogen peroxide, present or released. Percarbonate
 * 2 Na2CO3 . 3 H2O2 (105.99 and 34.0147 g/mol) releases 3 * 34.0147/314.02 = 32.5 % of its weight: one part
 * of powder in which it is 36.9 % to one part of 12 % makes 12 % of the whole, wherever the parts stand. */
START_TEST(what_a_powder_releases_counts_towards_the_legal_share)
{
    static const char form[] =
        HEAD("mix") "class: powder and developer\nmechanism: oxidative\npowder: 1\ndeveloper: 1\n"
                    "strength: 12 %%\npowder_holds: {percarbonate: %s %%}\nph: 10\n";
    static const char *const shares[] = {"36.5", "37.3", "39.5"}; /* 11.93, 12.06, 12.42 % in the whole */
    static const char scene_text[] = HEAD("scene") PLACE ZONES ARMS("own");
    for (int i = 0; i < 3; i++) {
        char mix[400];
        snprintf(mix, sizeof mix, form, shares[i]);
        const shelf_file files[] = {{"mix", "own", mix}, {NULL, NULL, NULL}};
        shelf from = {.files = files};
        const sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
        sl_error error = {.code = SL_OK};
        sl_scene *const scene =
            sl_scene_parse(scene_text, sizeof scene_text - 1, "test.yaml", &resolver, &error);
        ck_assert_msg((scene != NULL) == (i == 0), "%s: %s", shares[i], error.found);
        ck_assert_int_eq(error.code, i == 0 ? SL_OK : SL_ERR_OUT_OF_RANGE);
        sl_scene_free(scene);
    }
}
END_TEST

/* What a set says anew is as good as it says there: bands without a grade are assumed, whatever they were. */
START_TEST(new_bands_do_not_keep_an_old_grade)
{
#define BANDS "bands: [{centre: 500 nm, width: 90 nm, height: 1}]"
    static const shelf_file files[] = {
        {"dyes", "seen",
         HEAD("dyes") "like: bright-one\ndyes:\n  red: {" BANDS ", bands_grade: measured here}\n"},
        {"dyes", "again", HEAD("dyes") "like: seen\ndyes:\n  red: {" BANDS "}\n"},
        {NULL, NULL, NULL}};
    static const char form[] =
        HEAD("scene") PLACE "dyes: %s\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
                            "  - {name: undyed, hair: prelight-9}\n" ARMS("powder-6");
    static const char *const sets[] = {"seen", "again"};
    for (int i = 0; i < 2; i++) {
        char text[1024];
        shelf from = {.files = files};
        snprintf(text, sizeof text, form, sets[i]);
        sl_scene *const scene = parse_from(&from, text);
        ck_assert_int_eq(scene->dyes[0].band_quality.grade,
                         i == 0 ? SL_GRADE_MEASURED_HERE : SL_GRADE_ASSUMED);
        sl_scene_free(scene);
    }
#undef BANDS
}
END_TEST

/* The name of a colour is shown in tables: at most 40 characters. */
START_TEST(the_name_of_a_colour_has_forty_characters_at_most)
{
    static const char scene_text[] =
        HEAD("scene") PLACE "dyes: named\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
                            "  - {name: undyed, hair: prelight-9}\n" ARMS("powder-6");
    for (int n = 40; n <= 41; n++) {
        char dyes[300];
        snprintf(dyes, sizeof dyes, HEAD("dyes") "like: bright-one\ndyes:\n  red: {colour: \"%.*s\"}\n", n,
                 "abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyz");
        const shelf_file files[] = {{"dyes", "named", dyes}, {NULL, NULL, NULL}};
        shelf from = {.files = files};
        const sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
        sl_error error = {.code = SL_OK};
        sl_scene *const scene =
            sl_scene_parse(scene_text, sizeof scene_text - 1, "test.yaml", &resolver, &error);
        ck_assert_msg((scene != NULL) == (n == 40), "%s", error.found);
        ck_assert(n == 41 || strlen(scene->dyes[0].colour) == 40);
        sl_scene_free(scene);
    }
}
END_TEST

START_TEST(a_long_chain_of_likes_ends_in_a_message)
{
    static char texts[20][128], names[20][16];
    shelf_file files[21] = {{NULL, NULL, NULL}};
    for (int i = 0; i < 20; i++) {
        snprintf(names[i], sizeof names[i], "m%d", i);
        snprintf(texts[i], sizeof texts[i], HEAD("mix") "like: m%d\n", i + 1);
        files[i] = (shelf_file){"mix", names[i], texts[i]};
    }
    shelf from = {.files = files};
    const sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
    static const char text[] = HEAD("scene") PLACE ZONES ARMS("m0");
    sl_error error;
    ck_assert_ptr_null(sl_scene_parse(text, sizeof text - 1, "test.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    ck_assert_int_eq(from.fetches, 5 + 16); /* chemistry, two hairs, two files of dyes; then the chain */
    ck_assert_int_eq(from.releases, from.fetches);
    ck_assert_str_eq(error.file, "shelf/m15");
    ck_assert_int_eq(error.line, 5);
}
END_TEST

/* A shelf that notes what was asked for. */
typedef struct noted_shelf {
    shelf from;
    char asked[32][64];
    int n;
} noted_shelf;

static bool fetch_noted(void *self, const char *kind, const char *name, char **text, size_t *length,
                        char *path, size_t path_size, sl_error *error)
{
    noted_shelf *const noted = self;
    ck_assert_int_lt(noted->n, 32);
    snprintf(noted->asked[noted->n++], sizeof noted->asked[0], "%s %s", kind, name);
    return fetch_from_shelf(&noted->from, kind, name, text, length, path, path_size, error);
}

static void asks_for_nothing_twice(const noted_shelf *noted)
{
    ck_assert_int_gt(noted->n,
                     5); /* chemistry, chart, hair and what it is like, dyes and their classes, mixes */
    for (int i = 0; i < noted->n; i++) {
        for (int j = 0; j < i; j++) {
            ck_assert_str_ne(noted->asked[i], noted->asked[j]);
        }
    }
}

static const char two_arms[] = HEAD("scene") PLACE ZONES
    "arms:\n"
    "  - {name: one, steps: [{apply: powder-6, dwell: 30 min, mix_per_hair: 6 g/g}]}\n"
    "  - {name: two, steps: [{apply: powder-3, dwell: 20 min, mix_per_hair: 6 g/g}]}\n";

START_TEST(a_file_that_many_name_is_fetched_once_in_a_load)
{
    static const shelf_file files[] = {{NULL, NULL, NULL}};
    noted_shelf noted = {.from = {.files = files}};
    const sl_resolver resolver = {.self = &noted, .fetch = fetch_noted, .release = release_to_shelf};
    sl_error error;
    sl_scene *const scene = sl_scene_parse(two_arms, sizeof two_arms - 1, "test.yaml", &resolver, &error);
    ck_assert_ptr_nonnull(scene);
    asks_for_nothing_twice(&noted);
    sl_scene_free(scene);
}
END_TEST

START_TEST(loads_that_share_a_library_fetch_no_file_twice)
{
    static const shelf_file files[] = {{NULL, NULL, NULL}};
    noted_shelf noted = {.from = {.files = files}};
    sl_error error;
    struct sl_library *const library = sl_library_new(&error);
    ck_assert_ptr_nonnull(library);
    const sl_resolver resolver = {
        .self = &noted, .fetch = fetch_noted, .release = release_to_shelf, .library = library};
    sl_scene *const alone = parse_from(&(shelf){.files = files}, two_arms);
    for (int i = 0; i < 3; i++) {
        sl_scene *const scene = sl_scene_parse(two_arms, sizeof two_arms - 1, "test.yaml", &resolver, &error);
        ck_assert_ptr_nonnull(scene);
        ck_assert(sl_scene_fingerprint(scene) == sl_scene_fingerprint(alone));
        asks_for_nothing_twice(&noted);
        sl_scene_free(scene);
    }
    sl_scene_free(alone);
    sl_library_free(library);
}
END_TEST

/* No file lies at the shelf's paths: what is told of them comes from what a scene had read. */
START_TEST(a_file_that_a_scene_named_is_checked_without_being_read_again)
{
    static const shelf_file files[] = {{"mix", "mine", HEAD("mix") "like: powder-6\n"},
                                       {"mix", "sour", HEAD("mix") "like: powder-6\nph: 99\n"},
                                       {NULL, NULL, NULL}};
    static const char good[] = HEAD("scene") PLACE ZONES ARMS("mine");
    static const char bad[] = HEAD("scene") PLACE ZONES ARMS("sour");
    shelf from = {.files = files};
    sl_error error, again;
    sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
    resolver.library = sl_library_new(&error);
    ck_assert_ptr_nonnull(resolver.library);
    sl_scene *const scene = sl_scene_parse(good, sizeof good - 1, "test.yaml", &resolver, &error);
    ck_assert_ptr_nonnull(scene);
    sl_scene_free(scene);
    ck_assert_ptr_null(sl_scene_parse(bad, sizeof bad - 1, "test.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_OUT_OF_RANGE);

    sl_file_kind kind = SL_KIND_COUNT;
    char title[8] = "";
    const int fetches = from.fetches;
    ck_assert(sl_file_check("shelf/mine", &resolver, &kind, title, sizeof title, NULL));
    ck_assert_int_eq(kind, SL_KIND_MIX);
    ck_assert_str_eq(title, "T");
    ck_assert(!sl_file_check("shelf/sour", &resolver, NULL, NULL, 0, &again));
    ck_assert_int_eq(again.code, error.code);
    ck_assert_str_eq(again.file, error.file);
    ck_assert_int_eq(again.line, error.line);
    ck_assert_int_eq(from.fetches, fetches);
    sl_library_free(resolver.library);
    resolver.library = NULL;
    ck_assert(!sl_file_check("shelf/mine", &resolver, NULL, NULL, 0, &again));
    ck_assert_int_eq(again.code, SL_ERR_CANNOT_READ);
}
END_TEST

START_TEST(a_library_holds_nothing_of_a_file_that_is_not_good)
{
    static shelf_file files[] = {{"mix", "mine", HEAD("mix") "like: powder-6\nph: [\n"}, {NULL, NULL, NULL}};
    static const char text[] = HEAD("scene") PLACE ZONES ARMS("mine");
    shelf from = {.files = files};
    sl_error error;
    struct sl_library *const library = sl_library_new(&error);
    const sl_resolver resolver = {
        .self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf, .library = library};
    ck_assert_ptr_null(sl_scene_parse(text, sizeof text - 1, "test.yaml", &resolver, &error));
    ck_assert_str_eq(error.file, "shelf/mine");
    files[0].text = HEAD("mix") "like: powder-6\n";
    sl_scene *const scene = sl_scene_parse(text, sizeof text - 1, "test.yaml", &resolver, &error);
    ck_assert_ptr_nonnull(scene);
    sl_scene_free(scene);
    sl_library_free(library);
}
END_TEST

START_TEST(a_scene_may_give_its_temperatures_point_by_point)
{
    static const shelf_file files[] = {{NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *const scene =
        parse_from(&from, HEAD("scene") PLACE
                   "temperature: [[0 min, 20 °C], [10 min, 86 °F]]\naims: {colour_left: 20 %, "
                   "longest: 1 h}\n" ZONES ARMS("powder-6"));
    ck_assert_int_eq(scene->n_points, 2);
    ck_assert_double_eq(scene->points[1].time_min, 10.0);
    ck_assert_double_eq(scene->points[1].temperature_c, 30.0);
    ck_assert_double_eq(scene->aims.colour_left, 0.2);
    ck_assert(!scene->aims.base_moved.set);
    ck_assert(scene->aims.longest_min.set);
    ck_assert_double_eq(scene->aims.longest_min.most, 60.0);
    sl_scene_free(scene);
}
END_TEST

static sl_scene *parse_aims(const char *aims)
{
    static const shelf_file files[] = {{NULL, NULL, NULL}};
    shelf from = {.files = files};
    char text[1024];
    snprintf(text, sizeof text, "%s%s\n%s", HEAD("scene") PLACE "aims: ", aims, ZONES ARMS("powder-6"));
    return parse_from(&from, text);
}

START_TEST(what_comes_next_sets_the_share_left_until_one_is_entered)
{
    sl_scene *scene = parse_aims("{next: pastel}");
    ck_assert_int_eq(scene->aims.next, SL_NEXT_PASTEL);
    ck_assert(scene->aims.left_by_next);
    ck_assert_double_eq(scene->aims.colour_left, sl_next_left(SL_NEXT_PASTEL));
    sl_scene_free(scene);
    scene = parse_aims("{colour_left: 25 %, next: darker}");
    ck_assert_int_eq(scene->aims.next, SL_NEXT_DARKER);
    ck_assert(!scene->aims.left_by_next);
    ck_assert_double_eq(scene->aims.colour_left, 0.25);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_zone_may_have_a_goal_of_its_own)
{
    sl_scene *scene = parse_aims("{colour_left: 25 %, zones: {red: 40 %}}");
    ck_assert_double_eq(sl_zone_goal(scene, 0).left, 0.4);
    ck_assert(!sl_zone_goal(scene, 1).wanted); /* undyed */
    sl_scene_free(scene);
    scene = parse_aims("{colour_left: 25 %, zones: {red: ignore}}");
    ck_assert(!sl_zone_goal(scene, 0).wanted);
    sl_scene_free(scene);
    scene = parse_aims("{zones: {red: {near_undyed: 7.5}}}");
    ck_assert_double_eq(sl_zone_goal(scene, 0).near_undyed, 7.5);
    sl_scene_free(scene);
}
END_TEST

START_TEST(stress_may_be_a_share_of_what_another_arm_has_lost)
{
    sl_scene *const half = parse_aims("{cystine_lost: {of: one, share: 50 %}}");
    sl_scene *const whole = parse_aims("{cystine_lost: {share: 100 %, of: one}}");
    ck_assert_double_eq(half->aims.stress_share, 0.5);
    ck_assert_int_eq(half->aims.stress_of, 0);
    ck_assert(whole->aims.cystine_lost.set && half->aims.cystine_lost.set);
    ck_assert_double_gt(whole->aims.cystine_lost.most, 0.0);
    ck_assert_double_eq_tol(half->aims.cystine_lost.most, 0.5 * whole->aims.cystine_lost.most, 1e-12);
    sl_scene_free(half);
    sl_scene_free(whole);
}
END_TEST

START_TEST(a_limit_of_nothing_is_a_limit)
{
    sl_scene *const scene = parse_aims("{base_moved: 0 %, cystine_lost: 0 %, longest: 0 min}");
    const sl_bound *const bounds[] = {&scene->aims.base_moved, &scene->aims.cystine_lost,
                                      &scene->aims.longest_min};
    for (int i = 0; i < 3; i++) {
        ck_assert(bounds[i]->set);
        ck_assert_double_eq(bounds[i]->most, 0.0);
    }
    sl_scene_free(scene);
}
END_TEST

START_TEST(without_aims_none_is_set)
{
    sl_scene *const scene = load("eight-arms");
    ck_assert_double_eq(scene->aims.colour_left, 1.0);
    ck_assert(!scene->aims.base_moved.set && !scene->aims.cystine_lost.set && !scene->aims.longest_min.set);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_byte_order_mark_and_a_block_text_are_fine)
{
    static const shelf_file files[] = {{NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *const scene =
        parse_from(&from, "\xEF\xBB\xBFkind: scene\nversion: 1\ntitle: T\norigin: |\n  one\n  two\n"
                          "question: >\n  is it\n  so?\n" PLACE ZONES ARMS("powder-6"));
    ck_assert_str_eq(scene->question.in[SL_ENGLISH], "is it so?\n");
    sl_scene_free(scene);
}
END_TEST

START_TEST(the_first_folder_that_has_a_name_wins)
{
    static const char *const paths[] = {SLOWLIFT_BAD "/models", SLOWLIFT_MODELS};
    sl_folders folders = {paths, 2};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char *text = NULL, path[512];
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    ck_assert(resolver.fetch(resolver.self, "mix", "broken", &text, &length, path, sizeof path, &error));
    ck_assert_str_eq(path, SLOWLIFT_BAD "/models/mixes/broken.yaml");
    resolver.release(resolver.self, text);
    ck_assert(resolver.fetch(resolver.self, "mix", "powder-6", &text, &length, path, sizeof path, &error));
    ck_assert_str_eq(path, SLOWLIFT_MODELS "/mixes/powder-6.yaml");
    resolver.release(resolver.self, text);
    ck_assert_int_eq(error.code, SL_OK); /* nothing stays of the folder that did not have it */
    ck_assert(!resolver.fetch(resolver.self, "mix", "../hair/natural-1", &text, &length, path, sizeof path,
                              &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
}
END_TEST

/* ---- the copy -------------------------------------------------------------------------------- */

/* Run under AddressSanitizer this also shows that nothing in the copy points into the
 * original, which is freed first. */
START_TEST(a_copy_outlives_the_original)
{
    sl_scene *const scene = load("violet-ghost");
    sl_scene *const twin = load("violet-ghost");
    sl_error error;
    sl_scene *const copy = sl_scene_copy(scene, &error);
    ck_assert_ptr_nonnull(copy);
    ck_assert_ptr_ne(copy->mixes, scene->mixes);
    ck_assert_ptr_ne(copy->arms[0].name, scene->arms[0].name);
    copy->mixes[0].developer_pct = 1.0;
    ck_assert_double_ne(copy->mixes[0].developer_pct, scene->mixes[0].developer_pct);
    sl_scene_free(scene);
    ck_assert_str_eq(copy->title.in[SL_ENGLISH], twin->title.in[SL_ENGLISH]);
    ck_assert_str_eq(copy->question.in[SL_ENGLISH], twin->question.in[SL_ENGLISH]);
    ck_assert_str_eq(copy->weakest_what, twin->weakest_what);
    ck_assert_str_eq(copy->chemistry.title.in[SL_ENGLISH], twin->chemistry.title.in[SL_ENGLISH]);
    ck_assert_str_eq(copy->chemistry.couple_l_mol_min.source, twin->chemistry.couple_l_mol_min.source);
    for (int i = 0; i < twin->n_dyes; i++) {
        ck_assert_str_eq(copy->dyes[i].name, twin->dyes[i].name);
        ck_assert_str_eq(copy->dyes[i].colour, twin->dyes[i].colour);
        ck_assert_double_eq(copy->dyes[i].rates.k[SL_RADICAL].value, twin->dyes[i].rates.k[SL_RADICAL].value);
    }
    for (int i = 0; i < twin->n_mixes; i++) {
        ck_assert_str_eq(copy->mixes[i].title.in[SL_ENGLISH], twin->mixes[i].title.in[SL_ENGLISH]);
    }
    for (int i = 0; i < twin->n_hairs; i++) {
        ck_assert_str_eq(copy->hairs[i].title.in[SL_ENGLISH], twin->hairs[i].title.in[SL_ENGLISH]);
    }
    sl_scene_free(copy);
    sl_scene_free(twin);
}
END_TEST

START_TEST(each_number_of_a_dye_keeps_its_source)
{
    static const shelf_file files[] = {
        {"dyes", "seen",
         HEAD("dyes") "like: bright-one\ndyes:\n  red: {bands: [{centre: 500 nm, width: 90 nm, height: 1}],"
                      " bands_grade: published, bands_source: one book,"
                      " rim_share: {value: 0.5, grade: published, source: another},"
                      " leach: {value: 0.003 /min, grade: published, source: a third},"
                      " shampoo: {value: 0.1, grade: published, source: a fourth},"
                      " stain: {value: 3 %, grade: published, source: a fifth},"
                      " loose_share: {value: 20 %, grade: published, source: a seventh},"
                      " loose_shampoo: {value: 2, grade: published, source: an eighth},"
                      " radical: {value: 1 L2/(mol2 min), grade: published, source: a sixth}}\n"},
        {NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *const scene = parse_from(
        &from, HEAD("scene") PLACE "dyes: seen\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
                                   "  - {name: undyed, hair: prelight-9}\n" ARMS("powder-6"));
    const sl_dye *const dye = &scene->dyes[0];
    ck_assert_str_eq(dye->band_quality.source, "one book");
    ck_assert_str_eq(dye->rim_share.source, "another");
    ck_assert_str_eq(dye->leach_per_min.source, "a third");
    ck_assert_str_eq(dye->shampoo_loss.source, "a fourth");
    ck_assert_str_eq(dye->stain_share.source, "a fifth");
    ck_assert_str_eq(dye->rates.k[SL_RADICAL].source, "a sixth");
    ck_assert_str_eq(dye->loose_share.source, "a seventh");
    ck_assert_str_eq(dye->loose_loss.source, "an eighth");
    ck_assert_double_eq(dye->loose_share.value, 0.2);
    ck_assert_double_eq(dye->loose_loss.value, 2.0);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_copy_of_a_copy_is_the_same)
{
    sl_scene *const scene = load("eight-arms");
    sl_error error;
    sl_scene *const copy = sl_scene_copy(scene, &error);
    sl_scene *const again = sl_scene_copy(copy, &error);
    sl_scene_free(copy);
    ck_assert_ptr_nonnull(again);
    for (int i = 0; i < scene->n_arms; i++) {
        ck_assert_str_eq(again->arms[i].name, scene->arms[i].name);
        ck_assert_int_eq(again->arms[i].n_steps, scene->arms[i].n_steps);
    }
    sl_scene_free(again);
    sl_scene_free(scene);
}
END_TEST

START_TEST(a_word_s_slip_is_answered_with_the_word)
{
    sl_error error;
    ck_assert_ptr_null(parse(HEAD("scene") PLACE "zoens: []\n", &error));
    ck_assert_int_eq(error.code, SL_ERR_UNKNOWN_KEY);
    ck_assert_ptr_nonnull(strstr(error.wanted, "\"zones\""));
    ck_assert_ptr_null(parse(HEAD("scene") PLACE "hairmass: 2 g\n", &error));
    ck_assert_ptr_nonnull(strstr(error.wanted, "\"hair_mass\""));
    /* nothing is near: the words are listed */
    ck_assert_ptr_null(parse(HEAD("scene") PLACE "xylophone: 2 g\n", &error));
    ck_assert_ptr_nonnull(strstr(error.wanted, "known here: kind, version"));
}
END_TEST

START_TEST(a_file_without_a_kind_is_told_every_kind)
{
    sl_error error;
    ck_assert_ptr_null(parse("version: 1\ntitle: T\norigin: test\n", &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_KEY);
    for (int kind = 0; kind < SL_KIND_COUNT; kind++) {
        ck_assert_ptr_nonnull(strstr(error.wanted, sl_file_kind_word((sl_file_kind)kind)));
    }
}
END_TEST

START_SUITE("scene")
ADD(a_file_without_a_kind_is_told_every_kind)
ADD(every_shipped_file_is_good)
ADD(the_eight_arms_are_the_eight_arms)
ADD(hairs_dyes_and_mixes_are_kept_once)
ADD(values_arrive_in_the_model_s_units)
ADD(lightened_hair_starts_lighter_and_stressed)
ADD(a_dye_takes_its_class_s_numbers_unless_it_has_its_own)
ADD(a_recipe_may_hold_two_dyes)
ADD(damp_hair_brings_the_chemistry_s_water)
ADD(every_shipped_scene_names_an_assumed_number_as_weakest)
ADD(reversed_changes_what_it_says_and_nothing_else)
ADD(like_overrides_a_whole_number_with_its_grade)
ADD(a_set_like_another_may_change_a_class_and_a_dye)
ADD(what_a_powder_releases_counts_towards_the_legal_share)
ADD(new_bands_do_not_keep_an_old_grade)
ADD(the_name_of_a_colour_has_forty_characters_at_most)
ADD(a_long_chain_of_likes_ends_in_a_message)
ADD(a_file_that_many_name_is_fetched_once_in_a_load)
ADD(loads_that_share_a_library_fetch_no_file_twice)
ADD(a_file_that_a_scene_named_is_checked_without_being_read_again)
ADD(a_library_holds_nothing_of_a_file_that_is_not_good)
ADD(a_scene_may_give_its_temperatures_point_by_point)
ADD(what_comes_next_sets_the_share_left_until_one_is_entered)
ADD(a_zone_may_have_a_goal_of_its_own)
ADD(stress_may_be_a_share_of_what_another_arm_has_lost)
ADD(a_limit_of_nothing_is_a_limit)
ADD(without_aims_none_is_set)
ADD(a_byte_order_mark_and_a_block_text_are_fine)
ADD(the_first_folder_that_has_a_name_wins)
ADD(a_copy_outlives_the_original)
ADD(each_number_of_a_dye_keeps_its_source)
ADD(a_copy_of_a_copy_is_the_same)
ADD(a_word_s_slip_is_answered_with_the_word)
END_SUITE
