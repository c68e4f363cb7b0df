/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/scene.h"

#include <dirent.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/cost.h"
#include "suite.h"

static const char *const shipped[] = {SLOWLIFT_MODELS};

static sl_resolver shipped_resolver(void)
{
    static sl_folders folders = {shipped, 1};
    return sl_resolver_of_folders(&folders);
}

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

/* ---- a resolver over texts, for files that are not shipped ----------------------------- */

typedef struct shelf_file {
    const char *kind, *name, *text;
} shelf_file;

typedef struct shelf {
    const shelf_file *files; /* ends with a kind of NULL; then the shipped models */
    int fetches, releases;
} shelf;

static bool fetch_from_shelf(void *self, const char *kind, const char *name, char **text, size_t *length,
                             char *path, size_t path_size, sl_error *error)
{
    shelf *const from = self;
    for (const shelf_file *file = from->files; file->kind; file++) {
        if (strcmp(file->kind, kind) == 0 && strcmp(file->name, name) == 0) {
            *length = strlen(file->text);
            *text = malloc(*length + 1);
            ck_assert_ptr_nonnull(*text);
            memcpy(*text, file->text, *length + 1);
            snprintf(path, path_size, "shelf/%s", name);
            from->fetches++;
            return true;
        }
    }
    sl_folders folders = {shipped, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    const bool found = resolver.fetch(resolver.self, kind, name, text, length, path, path_size, error);
    from->fetches += found ? 1 : 0;
    return found;
}

static void release_to_shelf(void *self, char *text)
{
    ((shelf *)self)->releases++;
    free(text);
}

#define HEAD(kind) "kind: " kind "\nversion: 1\ntitle: T\norigin: test\n"
#define PLACE "lies: bench\nroom: 24 °C\nuntil: 60 min\nhair_mass: 2 g\n"
#define ZONES                                                                                                \
    "dyes: bright-one\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n  - {name: undyed, hair: "  \
    "prelight-9}\n"
#define ARMS(mix) "arms:\n  - name: one\n    steps: [{apply: " mix ", dwell: 30 min, mix_per_hair: 6 g/g}]\n"

static sl_scene *parse_from(shelf *from, const char *text)
{
    const sl_resolver resolver = {from, fetch_from_shelf, release_to_shelf};
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
    static const char *const zones[] = {"root",  "red",  "orange", "yellow",
                                        "green", "blue", "violet", "undyed"};
    ck_assert_int_eq(scene->n_arms, 8);
    ck_assert_int_eq(scene->n_zones, 8);
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
    ck_assert_double_eq(chemistry->melanin[SL_EUMELANIN].rates.k[SL_RADICAL].value, 2.83);
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
    ck_assert_double_eq(six->ph.value, 10.1);
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
        const sl_resolver resolver = {&from, fetch_from_shelf, release_to_shelf};
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
        const sl_resolver resolver = {&from, fetch_from_shelf, release_to_shelf};
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
    const sl_resolver resolver = {&from, fetch_from_shelf, release_to_shelf};
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
    ck_assert_str_eq(scene->question, "is it so?\n");
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
    ck_assert_str_eq(copy->title, twin->title);
    ck_assert_str_eq(copy->question, twin->question);
    ck_assert_str_eq(copy->weakest_what, twin->weakest_what);
    ck_assert_str_eq(copy->chemistry.title, twin->chemistry.title);
    ck_assert_str_eq(copy->chemistry.couple_l_mol_min.source, twin->chemistry.couple_l_mol_min.source);
    for (int i = 0; i < twin->n_dyes; i++) {
        ck_assert_str_eq(copy->dyes[i].name, twin->dyes[i].name);
        ck_assert_str_eq(copy->dyes[i].colour, twin->dyes[i].colour);
        ck_assert_double_eq(copy->dyes[i].rates.k[SL_RADICAL].value, twin->dyes[i].rates.k[SL_RADICAL].value);
    }
    for (int i = 0; i < twin->n_mixes; i++) {
        ck_assert_str_eq(copy->mixes[i].title, twin->mixes[i].title);
    }
    for (int i = 0; i < twin->n_hairs; i++) {
        ck_assert_str_eq(copy->hairs[i].title, twin->hairs[i].title);
    }
    sl_scene_free(copy);
    sl_scene_free(twin);
}
END_TEST

/* The same text, and not a piece of the other's memory. */
static void is_own(const char *own, const char *other)
{
    ck_assert((own == NULL) == (other == NULL));
    ck_assert(own == NULL || (own != other && strcmp(own, other) == 0));
}

static void rates_are_own(const sl_rates *own, const sl_rates *other)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        is_own(own->k[c].source, other->k[c].source);
    }
}

START_TEST(no_text_of_a_copy_lies_in_the_original)
{
    static const shelf_file files[] = {
        {"dyes", "seen",
         HEAD("dyes") "like: bright-one\ndyes:\n  red: {bands: [{centre: 500 nm, width: 90 nm, height: 1}],"
                      " bands_grade: published, bands_source: one book,"
                      " rim_share: {value: 0.5, grade: published, source: another},"
                      " leach: {value: 0.003 /min, grade: published, source: a third},"
                      " shampoo: {value: 0.1, grade: published, source: a fourth},"
                      " stain: {value: 3 %, grade: published, source: a fifth}}\n"},
        {NULL, NULL, NULL}};
    shelf from = {.files = files};
    sl_scene *const scene = parse_from(
        &from, HEAD("scene") PLACE "dyes: seen\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
                                   "  - {name: undyed, hair: prelight-9}\n" ARMS("powder-6"));
    sl_scene *const copy = sl_scene_copy(scene, NULL);
    ck_assert_ptr_nonnull(copy);
    const sl_dye *const own = &copy->dyes[0], *const dye = &scene->dyes[0];
    const sl_param *const owns[] = {&own->rim_share, &own->leach_per_min, &own->shampoo_loss,
                                    &own->stain_share, &own->band_quality};
    const sl_param *const others[] = {&dye->rim_share, &dye->leach_per_min, &dye->shampoo_loss,
                                      &dye->stain_share, &dye->band_quality};
    for (int i = 0; i < 5; i++) {
        ck_assert_ptr_nonnull(others[i]->source);
        is_own(owns[i]->source, others[i]->source);
    }
    rates_are_own(&own->rates, &dye->rates);
    rates_are_own(&copy->chemistry.cystine, &scene->chemistry.cystine);
    rates_are_own(&copy->chemistry.melanin[SL_EUMELANIN].rates,
                  &scene->chemistry.melanin[SL_EUMELANIN].rates);
    is_own(copy->chemistry.pka_25c.source, scene->chemistry.pka_25c.source);
    is_own(copy->mixes[0].name, scene->mixes[0].name);
    is_own(copy->mixes[0].ph.source, scene->mixes[0].ph.source);
    is_own(copy->mixes[0].loss_per_min.source, scene->mixes[0].loss_per_min.source);
    is_own(copy->hairs[0].name, scene->hairs[0].name);
    is_own(copy->zones[1].name, scene->zones[1].name);
    is_own(copy->weakest_what, scene->weakest_what);
    sl_scene_free(copy);
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

/* ---- prices ---------------------------------------------------------------------------------- */

static sl_code prices_of(const char *body, sl_prices *prices, sl_error *error)
{
    char path[] = "/tmp/slowlift-prices-XXXXXX";
    const int handle = mkstemp(path);
    FILE *const out = handle >= 0 ? fdopen(handle, "w") : NULL;
    ck_assert_ptr_nonnull(out);
    fprintf(out, HEAD("prices") "%s", body);
    ck_assert_int_eq(fclose(out), 0);
    const bool good = sl_prices_load(path, prices, error);
    remove(path);
    ck_assert_int_eq(good, error->code == SL_OK);
    return error->code;
}

START_TEST(each_price_arrives_where_it_belongs)
{
    sl_prices got;
    sl_error error;
    ck_assert_int_eq(prices_of("currency: MXN\npacket: {holds: 25 g, price: 3.5}\n"
                               "tub: {holds: 450 g, price: 27.5, serves_weeks: 6}\n"
                               "developer: {holds: 1000 g, price: 8.25}\nother: 0.75\n",
                               &got, &error),
                     SL_OK);
    ck_assert_str_eq(got.title, "T");
    ck_assert_str_eq(got.currency, "MXN");
    const double wanted[] = {25.0, 3.5, 450.0, 27.5, 6.0, 1000.0, 8.25, 0.75};
    const double found[] = {got.packet_g,  got.packet_price, got.tub_g,           got.tub_price,
                            got.tub_weeks, got.developer_g,  got.developer_price, got.other_price};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        ck_assert_double_eq(found[i], wanted[i]);
    }
    ck_assert_int_eq(prices_of("currency: EUR\n", &got, &error), SL_OK); /* the rest is not sold */
    ck_assert(got.packet_g <= 0.0 && got.tub_g <= 0.0 && got.developer_g <= 0.0 && got.other_price <= 0.0);
}
END_TEST

START_TEST(prices_are_taken_up_to_their_bounds)
{
    static const struct {
        const char *body;
        sl_code code;
    } cases[] = {{"currency: EURO\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: EU\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: EuR\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: AZZ\n", SL_OK},
                 {"currency: EUR\nother: 0\n", SL_OK},
                 {"currency: EUR\nother: 1000000\n", SL_OK},
                 {"currency: EUR\nother: 1000001\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\nother: -0.01\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 0.1 g, price: 0}\n", SL_OK},
                 {"currency: EUR\npacket: {holds: 0.09 g, price: 0}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 100000 g, price: 0}\n", SL_OK},
                 {"currency: EUR\npacket: {holds: 100001 g, price: 0}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 1 g, price: 1, serves_weeks: 1}\n", SL_ERR_UNKNOWN_KEY},
                 {"currency: EUR\npacket: {price: 1}\n", SL_ERR_MISSING_KEY},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 0.1}\n", SL_OK},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 0.09}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 520}\n", SL_OK},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 521}\n", SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_prices got;
        sl_error error;
        ck_assert_msg(prices_of(cases[i].body, &got, &error) == cases[i].code, "%s: %s", cases[i].body,
                      sl_code_name(error.code));
    }
}
END_TEST

START_TEST(what_a_pack_lacks_is_asked_for)
{
    sl_prices got;
    sl_error error;
    prices_of("currency: EUR\ntub: {holds: 1 g, price: 1}\n", &got, &error);
    ck_assert_int_eq(error.code, SL_ERR_MISSING_KEY);
    ck_assert_str_eq(error.found, "\"serves_weeks\"");
    ck_assert_ptr_nonnull(strstr(error.wanted, "weeks"));
    prices_of("currency: EUR\ntub: {holds: 1 g, serves_weeks: 1}\n", &got, &error);
    ck_assert_str_eq(error.found, "\"price\"");
    ck_assert_str_eq(error.wanted, "what it holds and costs");
    ck_assert(sl_prices_load(SLOWLIFT_MODELS "/prices/school.yaml", &got, NULL)); /* nobody listens */
    ck_assert(!sl_prices_load(SLOWLIFT_MODELS "/prices/none.yaml", &got, NULL));
}
END_TEST

/* ---- bounds (docs/file-format.md) -------------------------------------------------------------- */

static const char base[] =
    HEAD("scene") "lies: bench\nroom: 24 °C\nuntil: 60 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n"
                  "  - {name: red, hair: prelight-9, dye: {red: 4}}\n  - {name: undyed, hair: prelight-9}\n"
                  "application: {mix_per_hair: 6 g/g}\narms:\n"
                  "  - {name: one, contact: 5 min, steps: [{apply: powder-6, dwell: 30 min}, {rinse: 2 min}, "
                  "{shampoo: "
                  "1}]}\naims: {colour_left: 40 %}\n";

/* The base with one text of it replaced by another: how it is taken. */
static sl_code taken(const shelf_file *files, const char *old, const char *instead, sl_scene **kept)
{
    static const shelf_file none[] = {{NULL, NULL, NULL}};
    shelf from = {.files = files ? files : none};
    const sl_resolver resolver = {&from, fetch_from_shelf, release_to_shelf};
    char text[4096];
    const char *const at = strstr(base, old);
    ck_assert_msg(at != NULL, "%s", old);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - base), base, instead, at + strlen(old));
    sl_error error = {.code = SL_OK};
    sl_scene *const scene = sl_scene_parse(text, strlen(text), "test.yaml", &resolver, &error);
    ck_assert_int_eq(scene != NULL, error.code == SL_OK);
    if (kept) {
        *kept = scene;
    } else {
        sl_scene_free(scene);
    }
    return error.code;
}

typedef struct bound_case {
    const char *old, *instead;
    sl_code code;
} bound_case;

START_TEST(each_number_of_a_scene_is_taken_up_to_its_bounds)
{
    static const bound_case cases[] = {
        {"24 °C", "5 °C", SL_OK},
        {"24 °C", "4.99 °C", SL_ERR_OUT_OF_RANGE},
        {"24 °C", "45 °C", SL_OK},
        {"24 °C", "45.01 °C", SL_ERR_OUT_OF_RANGE},
        {"until: 60 min", "until: 1440 min", SL_OK},
        {"until: 60 min", "until: 1440.1 min", SL_ERR_OUT_OF_RANGE},
        {"until: 60 min", "until: 5 min", SL_ERR_INCONSISTENT}, /* contact comes before the end */
        {"until: 60 min", "until: 5.01 min", SL_OK},
        {"contact: 5 min", "contact: 0 min", SL_OK},
        {"contact: 5 min", "contact: -0.01 min", SL_ERR_OUT_OF_RANGE},
        {"contact: 5 min", "contact: 59.99 min", SL_OK},
        {"contact: 5 min", "contact: 60 min", SL_ERR_INCONSISTENT},
        {"hair_mass: 2 g", "hair_mass: 0.05 g", SL_OK},
        {"hair_mass: 2 g", "hair_mass: 0.049 g", SL_ERR_OUT_OF_RANGE},
        {"hair_mass: 2 g", "hair_mass: 500 g", SL_OK},
        {"hair_mass: 2 g", "hair_mass: 500.1 g", SL_ERR_OUT_OF_RANGE},
        {"{red: 4}", "{red: 0.01}", SL_OK},
        {"{red: 4}", "{red: 0.0099}", SL_ERR_OUT_OF_RANGE},
        {"{red: 4}", "{red: 50}", SL_OK},
        {"{red: 4}", "{red: 50.1}", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "0.2 g/g", SL_OK},
        {"6 g/g", "0.19 g/g", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "50 g/g", SL_OK},
        {"6 g/g", "50.1 g/g", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "6 g/g, mix_age: 240 min", SL_OK},
        {"6 g/g", "6 g/g, mix_age: 240.1 min", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "6 g/g, mix_age: 0 min", SL_OK},
        {"6 g/g", "6 g/g, mix_age: -1 min", SL_ERR_OUT_OF_RANGE},
        {"dwell: 30 min", "dwell: 0.01 min", SL_OK},
        {"dwell: 30 min", "dwell: 0.009 min", SL_ERR_OUT_OF_RANGE},
        {"dwell: 30 min", "dwell: 24 h", SL_OK},
        {"dwell: 30 min", "dwell: 24.1 h", SL_ERR_OUT_OF_RANGE},
        {"rinse: 2 min", "rinse: 0.01 min", SL_OK},
        {"rinse: 2 min", "rinse: 0 min", SL_ERR_OUT_OF_RANGE},
        {"shampoo: 1", "shampoo: 20", SL_OK},
        {"shampoo: 1", "shampoo: 21", SL_ERR_OUT_OF_RANGE},
        {"shampoo: 1", "shampoo: 0", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "colour_left: 0 %", SL_OK},
        {"colour_left: 40 %", "colour_left: 100 %", SL_OK},
        {"colour_left: 40 %", "colour_left: 100.1 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "base_moved: 100 %", SL_OK},
        {"colour_left: 40 %", "base_moved: 101 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "cystine_lost: 101 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "longest: 1440 min", SL_OK},
        {"colour_left: 40 %", "longest: 1441 min", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: 0.1 %}", SL_OK},
        {"colour_left: 40 %", "zones: {red: 0.09 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: 99.9 %}", SL_OK},
        {"colour_left: 40 %", "zones: {red: 99.91 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 0.5}}", SL_OK},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 0.49}}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 60}}", SL_OK},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 60.1}}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {}}", SL_ERR_MISSING_KEY},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 1 %}", SL_OK},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 0.9 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 100 %}", SL_OK},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 101 %}", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[0 min, 0 °C], [24 h, 60 °C]]\nhair_mass", SL_OK},
        {"hair_mass", "temperature: [[0 min, -0.1 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[0 min, 60.1 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[24.1 h, 20 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[1 min, 20 °C], [1 min, 21 °C]]\nhair_mass", SL_ERR_INCONSISTENT},
        {"hair_mass", "temperature: []\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[1 min, 20 °C, 3 °C]]\nhair_mass", SL_ERR_WRONG_TYPE},
        {"apply: powder-6, dwell", "apply: powder-6, rest: 5 min, dwell", SL_ERR_INCONSISTENT},
        {"{rinse: 2 min}", "{rest: 10 min}", SL_OK},
        {"{red: 4}", "{}", SL_ERR_OUT_OF_RANGE},
        {"dye: {red: 4}", "dye: {}", SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_code code = taken(NULL, cases[i].old, cases[i].instead, NULL);
        ck_assert_msg(code == cases[i].code, "%s: %s", cases[i].instead, sl_code_name(code));
    }
}
END_TEST

/* Names as long as they may be, and a letter longer; so many of everything, and one more. */
START_TEST(names_and_lists_are_taken_up_to_their_length)
{
    static const struct {
        const char *old, *before, *behind;
        int most;
        sl_code code;
    } names[] = {{"name: one", "name: ", "", 60, SL_ERR_TOO_LARGE},
                 {"name: red", "name: ", "", 40, SL_ERR_TOO_LARGE},
                 {"title: T", "title: ", "", 200, SL_ERR_TOO_LARGE},
                 {"lies", "question: ", "\nlies", 500, SL_ERR_TOO_LARGE},
                 {"lies", "person: ", "\nlies", 32, SL_ERR_INCONSISTENT}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        for (int over = 0; over < 2; over++) {
            char text[1024];
            snprintf(text, sizeof text, "%s%0*d%s", names[i].before, names[i].most + over, 0,
                     names[i].behind);
            const sl_code code = taken(NULL, names[i].old, text, NULL);
            ck_assert_msg((code == SL_OK) == !over, "%s %d: %s", names[i].before, names[i].most + over,
                          sl_code_name(code));
        }
    }
    static const struct {
        const char *old, *before, *each, *behind;
        int most, fewer; /* that are there already */
        sl_code code;
    } lists[] = {
        {"{rinse: 2 min}", "{rinse: 2 min}", ", {rest: 1 min}", "", SL_MAX_STEPS, 3, SL_ERR_TOO_LARGE},
        {"hair_mass", "temperature: [[0 min, 20 °C]", ", [%d min, 20 °C]", "]\nhair_mass",
         SL_MAX_COURSE_POINTS, 1, SL_ERR_OUT_OF_RANGE},
        {"aims", "", "  - {name: arm of its own %d}\n", "aims", SL_MAX_ARMS, 1, SL_ERR_OUT_OF_RANGE},
        {"application", "", "  - {name: zone of its own %d, hair: natural-5}\n", "application", SL_MAX_ZONES,
         2, SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        for (int over = 0; over < 2; over++) {
            char text[4096];
            size_t used = (size_t)snprintf(text, sizeof text, "%s", lists[i].before);
            for (int n = lists[i].fewer; n < lists[i].most + over; n++) {
                const char *const number = strstr(lists[i].each, "%d");
                used += number ? (size_t)snprintf(text + used, sizeof text - used, "%.*s%d%s",
                                                  (int)(number - lists[i].each), lists[i].each, 100 + n,
                                                  number + 2)
                               : (size_t)snprintf(text + used, sizeof text - used, "%s", lists[i].each);
            }
            snprintf(text + used, sizeof text - used, "%s", lists[i].behind);
            const sl_code code = taken(NULL, lists[i].old, text, NULL);
            ck_assert_msg(code == (over ? lists[i].code : SL_OK), "%s: %s", text, sl_code_name(code));
        }
    }
}
END_TEST

/* What is not written is as docs/file-format.md says; what stands in a step goes before what stands above. */
START_TEST(what_is_not_written_is_as_the_docs_say)
{
    sl_scene *scene = NULL;
    ck_assert_int_eq(taken(NULL, "contact: 5 min, ", "", &scene), SL_OK);
    const sl_step *step = &scene->arms[0].steps[0];
    ck_assert_double_eq(scene->arms[0].contact_min, 0.0);
    ck_assert(step->covered && step->mix_age_min <= 0.0 && step->hair_water_g_g <= 0.0);
    ck_assert_double_eq(step->mix_g_per_g, 6.0);
    ck_assert_double_eq(scene->arms[0].steps[2].duration_min, 1.0); /* a shampoo: a minute */
    ck_assert_int_eq(scene->arms[0].steps[2].shampoos, 1);
    ck_assert_int_eq(scene->n_points, 0);
    ck_assert(!scene->arms[0].undyed && !scene->arms[0].note && !scene->person && !scene->question);
    ck_assert_str_eq(scene->chemistry.name, "oxidation");
    ck_assert_str_eq(scene->chart.name, "plain");
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "dwell: 30 min",
                           "dwell: 30 min, hair: damp, covered: no, mix_age: 4 min, mix_per_hair: 3 g/g",
                           &scene),
                     SL_OK);
    step = &scene->arms[0].steps[0];
    ck_assert(!step->covered);
    ck_assert_double_eq(step->mix_age_min, 4.0);
    ck_assert_double_eq(step->mix_g_per_g, 3.0);
    ck_assert_double_gt(step->hair_water_g_g, 0.0);
    ck_assert_double_eq(step->hair_water_g_g, scene->chemistry.damp_water_g_g.value);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "6 g/g}", "6 g/g, hair: damp, covered: no, mix_age: 4 min}", &scene), SL_OK);
    step = &scene->arms[0].steps[0];
    ck_assert(!step->covered && step->mix_age_min > 3.9 && step->hair_water_g_g > 0.0);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "{rinse: 2 min}", "{shampoo: 3}", &scene), SL_OK);
    ck_assert_double_eq(scene->arms[0].steps[1].duration_min, 3.0);
    ck_assert_int_eq(scene->arms[0].steps[1].kind, SL_STEP_SHAMPOO);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "colour_left: 40 %", "next: pastel, zones: {red: ignore}", &scene), SL_OK);
    ck_assert(scene->aims.left_by_next);
    ck_assert_int_eq(scene->aims.next, SL_NEXT_PASTEL);
    ck_assert_double_eq(scene->aims.colour_left, 0.1);
    ck_assert_double_eq(scene->aims.zone_left[0], 1.0);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "colour_left: 40 %", "next: darker", &scene), SL_OK);
    ck_assert_int_eq(scene->aims.next, SL_NEXT_DARKER);
    ck_assert_double_eq(scene->aims.colour_left, 0.6);
    sl_scene_free(scene);
}
END_TEST

/* ---- mixes ------------------------------------------------------------------------------------- */

/* A mix of its own on the arm; *mix: as it was read. */
static sl_code mix_taken(const char *body, sl_mix *mix)
{
    char text[1024];
    snprintf(text, sizeof text, HEAD("mix") "%s", body);
    const shelf_file files[] = {{"mix", "mine", text}, {NULL, NULL, NULL}};
    sl_scene *scene = NULL;
    const sl_code code = taken(files, "powder-6", "mine", &scene);
    if (scene && mix) {
        *mix = scene->mixes[0];
        mix->name = mix->title = NULL;
    }
    sl_scene_free(scene);
    return code;
}

/* Which of powder, developer and water each class holds: y needed, n none, e either (docs/file-format.md and
 * the classes' names; a liquid must be there in any case). */
START_TEST(the_parts_of_a_mix_agree_with_its_class)
{
    static const struct {
        const char *class_, *holds;
    } classes[] = {{"powder and water", "yny"},
                   {"powder and developer", "yyn"},
                   {"powder and diluted developer", "yyy"},
                   {"two-part liquid without persulfate", "nee"},
                   {"lightener control", "yye"},
                   {"plain water", "nny"}};
    for (int c = 0; c < SL_MIX_CLASS_COUNT; c++) {
        for (int parts = 0; parts < 8; parts++) {
            char body[512];
            const bool has[3] = {(parts & 1) != 0, (parts & 2) != 0, (parts & 4) != 0};
            bool wanted = has[1] || has[2];
            for (int p = 0; p < 3; p++) {
                wanted = wanted && (classes[c].holds[p] == 'e' || (classes[c].holds[p] == 'y') == has[p]);
            }
            snprintf(body, sizeof body,
                     "class: %s\nmechanism: oxidative\nph: 9\npowder: %d\ndeveloper: %d\nwater: "
                     "%d\nstrength: 6 %%\n",
                     classes[c].class_, has[0], has[1], has[2]);
            sl_mix mix;
            const sl_code code = mix_taken(body, &mix);
            ck_assert_msg(code == (wanted ? SL_OK : SL_ERR_INCONSISTENT), "%s, %d: %s", classes[c].class_,
                          parts, sl_code_name(code));
            if (wanted) { /* and how it looks unless the file says so */
                const bool powder = has[0], water = c == 5;
                ck_assert_int_eq(mix.class_, c);
                ck_assert_double_eq(mix.veil_cover, powder ? 0.7 : water ? 0.0 : 0.1);
                ck_assert_double_eq(mix.veil_lab[0], powder ? 92.0 : 96.0);
                ck_assert_double_eq(mix.veil_lab[1], powder ? -0.5 : 0.0);
                ck_assert_double_eq(mix.veil_lab[2], powder ? 5.0 : 1.0);
            }
        }
    }
}
END_TEST

#define POWDER_6                                                                                             \
    "class: powder and developer\nmechanism: oxidative\npowder: 1\ndeveloper: 2\nstrength: 6 %\nph: 10\n"
#define LIQUID "class: two-part liquid without persulfate\nmechanism: oxidative\ndeveloper: 1\n"

START_TEST(each_number_of_a_mix_is_taken_up_to_its_bounds)
{
    static const struct {
        const char *body;
        sl_code code;
    } cases[] = {
        {POWDER_6, SL_OK},
        {LIQUID "strength: 12 %\nph: 9\n", SL_OK},
        {LIQUID "strength: 12.01 %\nph: 9\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 0.01 %\nph: 9\n", SL_OK},
        {LIQUID "strength: 0 %\nph: 9\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "ph: 9\n", SL_ERR_MISSING_KEY},
        {LIQUID "strength: 6 %\n", SL_ERR_MISSING_KEY},
        {LIQUID "strength: 6 %\nph: 2\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 1.99\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 12\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 12.1\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 9\nwater: 100\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 9\nwater: 100.1\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 9\nwater: -1\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "loss: 0 /min\n", SL_OK},
        {POWDER_6 "loss: 1 /min\n", SL_OK},
        {POWDER_6 "loss: 1.01 /min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "loss_second_order: 10 L/(mol min)\n", SL_OK},
        {POWDER_6 "loss_second_order: 10.1 L/(mol min)\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "label_longest: 1 min\n", SL_OK},
        {POWDER_6 "label_longest: 0.99 min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "label_longest: 240 min\n", SL_OK},
        {POWDER_6 "label_longest: 240.1 min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "powder_holds: {potassium_persulfate: 60 %, ammonium_persulfate: 40 %}\n", SL_OK},
        {POWDER_6 "powder_holds: {potassium_persulfate: 60 %, ammonium_persulfate: 40.1 %}\n",
         SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {sodium_persulfate: 99 %, percarbonate: 1.1 %}\n", SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {ammonium_persulfate: 0.6, percarbonate: 0.41}\n", SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {potassium_persulfate: 0.6, sodium_persulfate: 0.41}\n",
         SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {activity: 100.1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 0, a: -128, b: 128, cover: 0 %}\n", SL_OK},
        {POWDER_6 "veil: {L: 100, a: 128, b: -128, cover: 100 %}\n", SL_OK},
        {POWDER_6 "veil: {L: 100.1, a: 0, b: 0, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 10, a: 128.1, b: 0, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 10, a: 0, b: -128.1, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {a: 0, b: 0, cover: 1 %}\n", SL_ERR_MISSING_KEY},
        {POWDER_6 "veil: {L: 10, b: 0, cover: 1 %}\n", SL_ERR_MISSING_KEY},
        {"class: plain water\nmechanism: unknown\nwater: 1\n",
         SL_OK}, /* nothing is predicted: no pH needed */
        {"class: plain water\nmechanism: oxidative\nwater: 1\n", SL_ERR_MISSING_KEY}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_code code = mix_taken(cases[i].body, NULL);
        ck_assert_msg(code == cases[i].code, "%s: %s", cases[i].body, sl_code_name(code));
    }
}
END_TEST

START_TEST(each_key_of_a_mix_arrives_where_it_belongs)
{
    sl_mix mix;
    ck_assert_int_eq(
        mix_taken(POWDER_6
                  "powder_holds: {potassium_persulfate: 10 %, ammonium_persulfate: 20 %, sodium_persulfate: "
                  "30 %, percarbonate: 5 %, activity: 80 %}\nlabel_longest: 40 min\nlabel_counts_from: "
                  "application\nlabel_allows: yes\nveil: {L: 50, a: 1, b: 2, cover: 30 %}\n",
                  &mix),
        SL_OK);
    const double found[] = {mix.powder_parts,       mix.developer_parts,      mix.water_parts,
                            mix.developer_pct,      mix.potassium_persulfate, mix.ammonium_persulfate,
                            mix.sodium_persulfate,  mix.percarbonate,         mix.activity,
                            mix.label_max_min,      mix.veil_lab[0],          mix.veil_lab[1],
                            mix.veil_lab[2],        mix.veil_cover,           mix.ph.value,
                            mix.loss_per_min.value, mix.loss_l_mol_min.value};
    const double wanted[] = {1.0,  2.0,  0.0, 6.0, 0.1, 0.2,  0.3,    0.05, 0.8,
                             40.0, 50.0, 1.0, 2.0, 0.3, 10.0, 1.5e-3, 0.0};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        ck_assert_msg(fabs(found[i] - wanted[i]) < 1e-15, "number %zu: %g", i, found[i]);
    }
    ck_assert(mix.label_from_contact && mix.label_allows && mix.mechanism == SL_MECHANISM_OXIDATIVE);
    ck_assert_int_eq(mix_taken(POWDER_6 "label_counts_from: mixing\nlabel_allows: no\n", &mix), SL_OK);
    ck_assert(!mix.label_from_contact && !mix.label_allows && mix.label_max_min <= 0.0);
    ck_assert_double_eq(mix.activity, 1.0);
}
END_TEST

/* Sixteen files may lean on each other, seventeen may not. */
START_TEST(sixteen_files_lean_on_each_other_and_no_more)
{
    for (int n = 15; n <= 17; n++) {
        static char text[18][160], name[18][8];
        shelf_file files[19];
        for (int i = 0; i < n; i++) {
            snprintf(name[i], sizeof name[i], "m%d", i);
            if (i + 1 < n) {
                snprintf(text[i], sizeof text[i], HEAD("mix") "like: m%d\n", i + 1);
            } else {
                snprintf(text[i], sizeof text[i], "%s", HEAD("mix") POWDER_6);
            }
            files[i] = (shelf_file){"mix", name[i], text[i]};
        }
        files[n] = (shelf_file){NULL, NULL, NULL};
        ck_assert_int_eq(taken(files, "powder-6", "m0", NULL), n <= 16 ? SL_OK : SL_ERR_TOO_LARGE);
    }
}
END_TEST

/* A scene is called by its file's name, without folders and ending. */
START_TEST(a_scene_is_called_by_its_file)
{
    static const struct {
        const char *path, *name;
    } cases[] = {{"test.yaml", "test"},
                 {"a/b.c/test.one.yaml", "test.one"},
                 {"a.b/test", "test"},
                 {".yaml", ".yaml"},
                 {"x/.y", ".y"}};
    const sl_resolver resolver = shipped_resolver();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_scene *const scene = sl_scene_parse(base, strlen(base), cases[i].path, &resolver, NULL);
        ck_assert_ptr_nonnull(scene);
        ck_assert_str_eq(scene->name, cases[i].name);
        sl_scene_free(scene);
    }
}
END_TEST

/* Where a name was looked for, and a path that no message could name is never opened. */
START_TEST(a_missing_model_says_where_it_was_looked_for)
{
    static const char *const two[] = {"/nowhere/one", "/nowhere/two"};
    static char far[SL_ERROR_FILE_SIZE + 8];
    memset(far, 'x', sizeof far - 1);
    far[0] = '/';
    for (int n = 0; n <= 2; n++) {
        sl_folders folders = {two, n};
        const sl_resolver resolver = sl_resolver_of_folders(&folders);
        sl_error error;
        ck_assert_ptr_null(sl_scene_parse(base, strlen(base), "test.yaml", &resolver, &error));
        ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
        ck_assert_str_eq(error.found, "\"oxidation\"");
        ck_assert_str_eq(error.wanted,
                         n == 0   ? "looked for chemistry/oxidation.yaml in no folder at all"
                         : n == 1 ? "looked for chemistry/oxidation.yaml in /nowhere/one"
                                  : "looked for chemistry/oxidation.yaml in /nowhere/one, /nowhere/two");
    }
    const char *const long_then_good[] = {far, SLOWLIFT_MODELS};
    sl_folders folders = {long_then_good, 2};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_scene *const scene = sl_scene_parse(base, strlen(base), "test.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(scene); /* the second folder has them all */
    sl_scene_free(scene);
    char path[64], *text = NULL;
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    ck_assert(!resolver.fetch(resolver.self, "lesson", "x", &text, &length, path, sizeof path, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
    ck_assert(!resolver.fetch(resolver.self, "mix", "../x", &text, &length, path, sizeof path, &error));
    ck_assert_str_eq(error.found, "a name that no model can have");
}
END_TEST

/* The check of any file tells its kind and as much of its title as there is room for. */
START_TEST(a_checked_file_tells_its_kind_and_title)
{
    const sl_resolver resolver = shipped_resolver();
    sl_file_kind kind = SL_KIND_COUNT;
    char title[8] = "xxxxxxx";
    ck_assert(
        sl_file_check(SLOWLIFT_MODELS "/prices/school.yaml", &resolver, &kind, title, sizeof title, NULL));
    ck_assert_int_eq(kind, SL_KIND_PRICES);
    ck_assert_str_eq(title, "A schoo");
    ck_assert(sl_file_check(SLOWLIFT_MODELS "/prices/school.yaml", &resolver, NULL, title, 0, NULL));
    ck_assert_str_eq(title, "A schoo");
    ck_assert(
        !sl_file_check(SLOWLIFT_MODELS "/prices/none.yaml", &resolver, &kind, title, sizeof title, NULL));
    ck_assert_str_eq(title, "A schoo");
    static const char *const words[SL_KIND_COUNT] = {"scene",     "hair",  "dyes",   "mix",
                                                     "chemistry", "chart", "intake", "prices"};
    for (int k = 0; k < SL_KIND_COUNT; k++) {
        ck_assert_str_eq(sl_file_kind_word((sl_file_kind)k), words[k]);
    }
}
END_TEST

START_SUITE("scene")
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
ADD(a_scene_may_give_its_temperatures_point_by_point)
ADD(what_comes_next_sets_the_share_left_until_one_is_entered)
ADD(a_zone_may_have_a_goal_of_its_own)
ADD(stress_may_be_a_share_of_what_another_arm_has_lost)
ADD(a_limit_of_nothing_is_a_limit)
ADD(without_aims_none_is_set)
ADD(a_byte_order_mark_and_a_block_text_are_fine)
ADD(the_first_folder_that_has_a_name_wins)
ADD(a_copy_outlives_the_original)
ADD(no_text_of_a_copy_lies_in_the_original)
ADD(a_copy_of_a_copy_is_the_same)
ADD(a_word_s_slip_is_answered_with_the_word)
ADD(each_price_arrives_where_it_belongs)
ADD(prices_are_taken_up_to_their_bounds)
ADD(what_a_pack_lacks_is_asked_for)
ADD(each_number_of_a_scene_is_taken_up_to_its_bounds)
ADD(names_and_lists_are_taken_up_to_their_length)
ADD(what_is_not_written_is_as_the_docs_say)
ADD(the_parts_of_a_mix_agree_with_its_class)
ADD(each_number_of_a_mix_is_taken_up_to_its_bounds)
ADD(each_key_of_a_mix_arrives_where_it_belongs)
ADD(sixteen_files_lean_on_each_other_and_no_more)
ADD(a_scene_is_called_by_its_file)
ADD(a_missing_model_says_where_it_was_looked_for)
ADD(a_checked_file_tells_its_kind_and_title)
END_SUITE
