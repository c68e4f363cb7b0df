/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * slowlift/wording.h and the titles of model.h: what people read in each language, what is kept for machines,
 * and how it is written in a file.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "report/reading.h"
#include "shelf.h"
#include "slowlift/edition.h"
#include "slowlift/part.h"
#include "slowlift/scene.h"
#include "suite.h"

static const char scene_form[] = "kind: scene\nversion: 1\ntitle: {es: Dos, en: Two}\norigin: test\n"
                                 "question: {es: ¿Cuál?}\nlies: bench\nroom: 24 °C\nuntil: 60 min\n"
                                 "hair_mass: 2 g\ndyes: bright-one\nzones:\n"
                                 "  - {name: red, %s hair: prelight-9, dye: {red: 4}}\n"
                                 "  - {name: bare, hair: prelight-9}\n"
                                 "application: {mix_per_hair: 6 g/g}\narms:\n"
                                 "  - name: fast\n%s"
                                 "    steps: [{apply: mine, dwell: 30 min}]\n"
                                 "  - name: slow\n    title: unhurried\n";
static const char mix[] = "kind: mix\nversion: 1\ntitle: {es: Mía}\norigin: test\nlike: powder-6\n";

/* ---- a language in use ------------------------------------------------------------------------- */

static char folder[] = "/tmp/titles-XXXXXX";

static void make_catalogue(void)
{
    char path[128];
    const unsigned char none[28] = {0xde, 0x12, 0x04, 0x95, 0, 0, 0, 0, 0, 0, 0, 0, 28, 0, 0, 0, 28};
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "mkdir -p %s/es/LC_MESSAGES", folder);
    ck_assert_int_eq(system(path), 0);
    snprintf(path, sizeof path, "%s/es/LC_MESSAGES/slowlift.mo", folder);
    FILE *const out = fopen(path, "wb");
    ck_assert_ptr_nonnull(out);
    ck_assert_uint_eq(fwrite(none, 1, sizeof none, out), sizeof none);
    ck_assert_int_eq(fclose(out), 0);
}

static void remove_catalogue(void)
{
    char command[64];
    snprintf(command, sizeof command, "rm -r %s", folder);
    ck_assert_int_eq(system(command), 0);
}

static void speak(const char *letters)
{
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_language_use(letters, folder, &error), "%s", error.found);
}

/* ---- files ----------------------------------------------------------------------------------------- */

static sl_scene *scene_of(const char *of_zone, const char *of_arm)
{
    char text[2048];
    sl_error error = {.code = SL_OK};
    snprintf(text, sizeof text, scene_form, of_zone, of_arm);
    const shelf_file files[] = {{"mix", "mine", mix}, {NULL, NULL, NULL}};
    shelf from = {.files = files};
    const sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
    sl_scene *const scene = sl_scene_parse(text, strlen(text), "two.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%d:%d %s; %s", error.line, error.column, error.found, error.wanted);
    return scene;
}

START_TEST(a_text_falls_back_to_English_and_then_to_whatever_stands)
{
    const sl_wording both = {{[SL_ENGLISH] = "two", [SL_SPANISH] = "dos"}},
                     english = {{[SL_ENGLISH] = "two"}}, spanish = {{[SL_SPANISH] = "dos"}}, none = {{NULL}};
    ck_assert_str_eq(sl_wording_in(&both, SL_ENGLISH), "two");
    ck_assert_str_eq(sl_wording_in(&both, SL_SPANISH), "dos");
    ck_assert_str_eq(sl_wording_in(&english, SL_SPANISH), "two");
    ck_assert_str_eq(sl_wording_in(&spanish, SL_ENGLISH), "dos");
    ck_assert_ptr_null(sl_wording_in(&none, SL_SPANISH));
}
END_TEST

START_TEST(a_title_follows_the_language_while_the_scene_stands)
{
    sl_scene *const scene = scene_of("title: {es: rojo},", "    title: {es: rápido, en: quick}\n");
    ck_assert_str_eq(sl_scene_title(scene), "Two");
    ck_assert_str_eq(sl_arm_title(&scene->arms[0]), "quick");
    ck_assert_str_eq(sl_zone_title(&scene->zones[0]), "red");
    speak("es");
    ck_assert_str_eq(sl_scene_title(scene), "Dos");
    ck_assert_str_eq(sl_arm_title(&scene->arms[0]), "rápido");
    ck_assert_str_eq(sl_arm_title(&scene->arms[1]), "unhurried");
    ck_assert_str_eq(sl_zone_title(&scene->zones[0]), "rojo");
    ck_assert_str_eq(sl_zone_title(&scene->zones[1]), "bare");
    ck_assert_str_eq(sl_title_of_arm(scene, "fast"), "rápido");
    ck_assert_str_eq(sl_title_of_arm(scene, "gone"), "gone");
    ck_assert_str_eq(sl_title_of_arm(NULL, "fast"), "fast");
    ck_assert_str_eq(sl_title_of_zone(scene, "red"), "rojo");
    ck_assert_str_eq(sl_title_of_zone(scene, "gone"), "gone");
    speak("en");
    ck_assert_str_eq(sl_arm_title(&scene->arms[0]), "quick");
    ck_assert_str_eq(scene->arms[0].name, "fast");
    sl_scene_free(scene);
}
END_TEST

/* A scene, its question and a mix have no name beside them that people read: what stands is shown. */
START_TEST(what_is_written_in_one_language_alone_is_shown_in_the_other)
{
    sl_scene *const scene = scene_of("", "");
    ck_assert_str_eq(sl_scene_question(scene), "¿Cuál?");
    ck_assert_str_eq(sl_mix_title(&scene->mixes[0]), "Mía");
    ck_assert_str_eq(sl_zone_title(&scene->zones[0]), "red");
    scene->mixes[0].title = (sl_wording){{NULL}};
    ck_assert_str_eq(sl_mix_title(&scene->mixes[0]), "mine");
    scene->title = scene->question = (sl_wording){{NULL}};
    ck_assert_str_eq(sl_scene_title(scene), "two");
    ck_assert_ptr_null(sl_scene_question(scene));
    sl_scene_free(scene);
}
END_TEST

START_TEST(an_arm_and_a_zone_are_found_by_their_name_and_by_the_title_that_is_shown)
{
    sl_scene *const scene = scene_of("title: {es: rojo},", "    title: {es: rápido, en: quick}\n");
    ck_assert_int_eq(sl_scene_arm_typed(scene, "fast"), 0);
    ck_assert_int_eq(sl_scene_arm_typed(scene, "quick"), 0);
    ck_assert_int_eq(sl_scene_arm_typed(scene, "rápido"), -1);
    ck_assert_int_eq(sl_scene_arm_typed(scene, "unhurried"), 1);
    ck_assert_int_eq(sl_scene_arm(scene, "quick"), -1);
    ck_assert_int_eq(sl_scene_zone_typed(scene, "rojo"), -1);
    speak("es");
    ck_assert_int_eq(sl_scene_arm_typed(scene, "fast"), 0);
    ck_assert_int_eq(sl_scene_arm_typed(scene, "quick"), -1);
    ck_assert_int_eq(sl_scene_arm_typed(scene, "rápido"), 0);
    ck_assert_int_eq(sl_scene_zone_typed(scene, "rojo"), 0);
    ck_assert_int_eq(sl_scene_zone_typed(scene, "red"), 0);
    ck_assert_int_eq(sl_scene_zone_typed(scene, ""), -1);
    sl_scene_free(scene);
}
END_TEST

START_TEST(titles_move_no_fingerprint)
{
    sl_scene *const bare = scene_of("", ""), *const told =
                                                 scene_of("title: {es: rojo},", "    title: {es: rápido}\n");
    ck_assert(sl_scene_fingerprint(bare) == sl_scene_fingerprint(told));
    sl_scene_free(bare);
    sl_scene_free(told);
}
END_TEST

static void is_own(const sl_wording *own, const sl_wording *other)
{
    for (int i = 0; i < SL_LANGUAGES; i++) {
        ck_assert((own->in[i] == NULL) == (other->in[i] == NULL));
        ck_assert(own->in[i] == NULL ||
                  (own->in[i] != other->in[i] && strcmp(own->in[i], other->in[i]) == 0));
    }
}

START_TEST(a_copy_owns_its_titles_in_every_language)
{
    sl_scene *const scene =
        scene_of("title: {es: rojo},", "    title: {es: rápido}\n    note: {es: N, en: M}\n");
    sl_error error = {.code = SL_OK};
    sl_scene *const copy = sl_scene_copy(scene, &error);
    ck_assert_ptr_nonnull(copy);
    is_own(&copy->title, &scene->title);
    is_own(&copy->question, &scene->question);
    is_own(&copy->arms[0].title, &scene->arms[0].title);
    is_own(&copy->arms[0].note, &scene->arms[0].note);
    is_own(&copy->zones[0].title, &scene->zones[0].title);
    is_own(&copy->mixes[0].title, &scene->mixes[0].title);
    is_own(&copy->hairs[0].title, &scene->hairs[0].title);
    is_own(&copy->chart.title, &scene->chart.title);
    is_own(&copy->chemistry.title, &scene->chemistry.title);
    sl_scene_free(scene);
    ck_assert_str_eq(sl_zone_title_in(&copy->zones[0], SL_SPANISH), "rojo");
    sl_scene_free(copy);
}
END_TEST

/* A tone is kept by its word and read by its title; how warm it is is a word of the program's own. */
START_TEST(a_tone_is_read_in_the_language_in_use)
{
    const sl_tone tone = {
        .word = "gold", .title = {{[SL_SPANISH] = "dorado"}}, .to_deg = 360.0, .most_L = 100.0};
    sl_chart chart = {.n_tones = 1, .tones = {tone}, .warm_to_deg = 110.0, .neutral_chroma = 5.0};
    for (int i = 0; i < SL_LEVELS; i++) {
        chart.level_L[i] = 10.0 + 8.0 * i;
    }
    const sl_reading_words words = sl_chart_read(&chart, (sl_lab){42.0, 20.0, 20.0});
    char text[96];
    speak("es");
    ck_assert_str_eq(sl_tone_title(words.of), "dorado");
    ck_assert_str_eq(words.tone, "gold");
    sl_chart_words(&words, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "5, dorado, "));
    speak("en");
    sl_chart_words(&words, text, sizeof text);
    ck_assert_str_eq(text, "level 5, gold, warm");
    chart.tones[0].least_chroma = 100.0;
    const sl_reading_words none = sl_chart_read(&chart, (sl_lab){42.0, -20.0, -20.0});
    sl_chart_words(&none, text, sizeof text);
    ck_assert_str_eq(text, "level 5, cool");
}
END_TEST

START_TEST(a_file_that_is_checked_says_its_title_in_the_language_in_use)
{
    const sl_resolver resolver = shipped_resolver();
    char title[256];
    sl_error error;
    speak("es");
    ck_assert(sl_file_check(SLOWLIFT_MODELS "/mixes/plain-water.yaml", &resolver, NULL, title, sizeof title,
                            &error));
    ck_assert_str_eq(title, "Agua sola");
    speak("en");
    ck_assert(sl_file_check(SLOWLIFT_MODELS "/mixes/plain-water.yaml", &resolver, NULL, title, sizeof title,
                            &error));
    ck_assert_str_eq(title, "Plain water");
}
END_TEST

/* Each number has its words, whichever wrote the log; what changed since is told of each model between. */
START_TEST(a_test_kept_under_another_model_is_not_told_what_changed)
{
    static const sl_edition three[] = {
        {"2026-11-30", "one"}, {"2027-01-02", "pH is computed"}, {"2027-02-03", "heat is computed"}};
    static const char *const told[] = {"does not say", "Changed since: pH is computed; heat is computed.",
                                       "Changed since: heat is computed.", "", "of a newer slowlift"};
    char text[SL_EDITION_WORDS];
    for (int kept = 0; kept < 5; kept++) {
        ck_assert(sl_edition_since(three, 3, kept, text) == (kept != 3));
        ck_assert_msg(kept == 3 ? text[0] == '\0'
                                : strstr(text, told[kept]) && strstr(text, "Model 3 of 2027-02-03"),
                      "%d: %s", kept, text);
    }
    for (int i = 0; i < sl_edition_now; i++) {
        ck_assert(i == 0 || strcmp(sl_editions[i - 1].day, sl_editions[i].day) <= 0);
    }
}
END_TEST

START_SUITE("titles")
FIXTURE_ONCE(make_catalogue, remove_catalogue)
FIXTURE(NULL, sl_language_stop)
ADD(a_text_falls_back_to_English_and_then_to_whatever_stands)
ADD(a_title_follows_the_language_while_the_scene_stands)
ADD(what_is_written_in_one_language_alone_is_shown_in_the_other)
ADD(an_arm_and_a_zone_are_found_by_their_name_and_by_the_title_that_is_shown)
ADD(titles_move_no_fingerprint)
ADD(a_copy_owns_its_titles_in_every_language)
ADD(a_tone_is_read_in_the_language_in_use)
ADD(a_file_that_is_checked_says_its_title_in_the_language_in_use)
ADD(a_test_kept_under_another_model_is_not_told_what_changed)
END_SUITE
