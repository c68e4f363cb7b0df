/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colours in words: two colours compared, readings by a chart, and under which light, for which
 * observer and look every colour is.
 */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "document/text.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;

/* ---- two colours ------------------------------------------------------------------------- */

static const char *between(sl_lab one, sl_lab two)
{
    static char text[512];
    const int length = sl_difference_words(one, "A", two, "B", text, sizeof text);
    ck_assert_int_eq(length, (int)strlen(text));
    return text;
}

START_TEST(the_words_say_which_is_lighter_warmer_and_more_vivid)
{
    ck_assert_str_eq(between((sl_lab){70, 5, 30}, (sl_lab){60, 5, 30}),
                     "A is lighter than B: anyone would see it.");
    ck_assert_str_eq(between((sl_lab){60, 5, 30}, (sl_lab){70, 5, 30}),
                     "A is darker than B: anyone would see it.");
    ck_assert_ptr_nonnull(
        strstr(between((sl_lab){60, 10, 40}, (sl_lab){60, 2, 15}), "A is warmer and more vivid than B: "));
    ck_assert_ptr_nonnull(strstr(between((sl_lab){40, 5, -30}, (sl_lab){55, 5, 30}),
                                 "A is darker and cooler than B: anyone would call them two colours."));
    ck_assert_ptr_nonnull(strstr(between((sl_lab){80, 0, 10}, (sl_lab){70, 20, 40}),
                                 "A is lighter, cooler and greyer than B: "));
}
END_TEST

START_TEST(what_hardly_anyone_sees_is_called_alike)
{
    ck_assert_str_eq(between((sl_lab){60, 5, 30}, (sl_lab){60.5, 5, 30}),
                     "A and B look alike: hardly anyone would tell them apart.");
    /* as far from red as from yellow, as light and as vivid: nothing is left but the hue */
    ck_assert_ptr_nonnull(
        strstr(between((sl_lab){60, 26, 15}, (sl_lab){60, 0, 30}), "A and B differ in hue alone: "));
}
END_TEST

/* The steps are in CIEDE2000; greys that differ in L* near 50 have it near the L* difference. */
START_TEST(the_steps_of_seeing_rise_with_the_difference)
{
    static const double lighter[] = {50.5, 51.5, 53.5, 57.5, 75.0};
    static const char *const words[] = {"hardly anyone", "a trained eye", "most people",
                                        "anyone would see it", "two colours"};
    for (int i = 0; i < 5; i++) {
        ck_assert_ptr_nonnull(strstr(between((sl_lab){lighter[i], 0, 0}, (sl_lab){50, 0, 0}), words[i]));
    }
}
END_TEST

/* The other way round the opposite words stand, for any two colours. */
START_TEST(turned_round_the_words_are_the_opposite)
{
    static const char *const pairs[][2] = {
        {"lighter", "darker"}, {"warmer", "cooler"}, {"more vivid", "greyer"}};
    unsigned seed = 1;
    for (int n = 0; n < 2000; n++) {
        double v[6];
        for (int i = 0; i < 6; i++) {
            seed = seed * 1664525U + 1013904223U;
            v[i] = (double)(seed >> 8) / (double)(1U << 24);
        }
        const sl_lab one = {20 + 60 * v[0], 80 * v[1] - 40, 80 * v[2] - 40};
        const sl_lab two = {20 + 60 * v[3], 80 * v[4] - 40, 80 * v[5] - 40};
        char forth[512];
        snprintf(forth, sizeof forth, "%s", between(one, two));
        const char *const back = between(two, one);
        for (int i = 0; i < 3; i++) {
            ck_assert_int_eq(strstr(forth, pairs[i][0]) != NULL, strstr(back, pairs[i][1]) != NULL);
            ck_assert(strstr(forth, pairs[i][0]) == NULL || strstr(forth, pairs[i][1]) == NULL);
        }
    }
}
END_TEST

START_TEST(a_sentence_that_is_too_long_is_cut_and_ended)
{
    char text[12];
    const int length =
        sl_difference_words((sl_lab){70, 0, 0}, "A", (sl_lab){60, 0, 0}, "B", text, sizeof text);
    ck_assert_int_gt(length, 12);
    ck_assert_str_eq(text, "A is lighte");
}
END_TEST

/* ---- in the report ------------------------------------------------------------------------ */

static void fill(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 29.9; /* warmer hair counts as a head */
    small.scene.chart = (sl_chart){.name = "testing",
                                   .level_L = {10, 20, 30, 40, 50, 60, 70, 80, 90, 95},
                                   .n_tones = 1,
                                   .tones = {{.word = "any tone", .to_deg = 360, .most_L = 100}},
                                   .warm_from_deg = 350,
                                   .warm_to_deg = 110,
                                   .neutral_chroma = 5};
}

typedef bool report_function(FILE *, const sl_timeline *, const sl_optics *, const sl_report_options *);

/* The report at 5 and 20 min; to be freed. readings: with the chart's words. */
static char *report_text(report_function *report, sl_report_options options, bool readings)
{
    const double times[] = {5.0, 20.0};
    sl_error error = {0};
    sl_solver *const solver = sl_solver_new(&error);
    sl_optics *const optics = sl_optics_new_for(&small.scene, options.viewing, &error);
    sl_optics *const dry = sl_optics_new(&small.scene, &error);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, times, 2, solver, optics, &error));
    options.dry = readings ? dry : NULL;
    char *text = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&text, &length);
    ck_assert(report(out, timeline, optics, &options));
    ck_assert_int_eq(fclose(out), 0);
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_optics_free(dry);
    sl_solver_free(solver);
    return text;
}

/* The lines between a heading and the next empty line, without breaks. */
static char *section(const char *text, const char *heading)
{
    const char *const start = strstr(text, heading);
    ck_assert_msg(start != NULL, "no %s", heading);
    const char *const end = strstr(start, "\n\n");
    const size_t n = end ? (size_t)(end - start) : strlen(start);
    char *const part = calloc(n + 1, 1);
    size_t used = 0;
    for (size_t i = 0; i < n; i++) {
        const bool space = start[i] == ' ' || start[i] == '\n';
        if (!space || (used > 0 && part[used - 1] != ' ')) {
            part[used++] = space ? ' ' : start[i];
        }
    }
    return part;
}

START_TEST(readings_stand_only_where_they_are_asked_for)
{
    fill();
    char *const without = report_text(sl_report_table, sl_report_options_default(), false);
    ck_assert_ptr_null(strstr(without, "COLOURS IN WORDS"));
    ck_assert_ptr_null(strstr(without, "observer"));
    free(without);
    char *const with = report_text(sl_report_table, sl_report_options_default(), true);
    char *const part = section(with, "COLOURS IN WORDS AT 20 MIN");
    ck_assert_ptr_nonnull(strstr(part, "the chart \"testing\""));
    ck_assert_ptr_nonnull(strstr(part, "ISO 105-A02, made for textiles"));
    ck_assert_ptr_nonnull(strstr(part, sl_not_calibrated));
    ck_assert_ptr_nonnull(strstr(part, ", any tone, warm (L* "));
    free(part);
    free(with);
}
END_TEST

START_TEST(a_reading_has_its_level_beside_its_lightness)
{
    fill();
    char *const text = report_text(sl_report_table, sl_report_options_default(), true);
    int readings = 0;
    for (const char *at = strstr(strstr(text, "COLOURS IN WORDS"), "level "); at != NULL;
         at = strstr(at + 1, "level ")) {
        double level = 0.0, L = 0.0;
        const char *const bracket = strstr(at, "(L* ");
        if (sscanf(at, "level %lf", &level) == 1 && bracket != NULL && sscanf(bracket, "(L* %lf)", &L) == 1) {
            /* ten L* to a level here, L* printed to 1, level to a half; 90 to 95 is one level */
            ck_assert_double_le(L < 88 ? level - L / 10.0 : 0.0, 0.31);
            ck_assert_double_le(L > 10 && L < 88 ? L / 10.0 - level : 0.0, 0.31);
            readings++;
        }
    }
    ck_assert_int_eq(readings, 7 * SMALL_ZONES); /* one arm is outside the model */
    free(text);
}
END_TEST

/* Under another light the L*a*b* differ; level and tone are of dry hair in daylight always. */
START_TEST(light_and_look_change_the_numbers_and_not_the_level)
{
    fill();
    sl_report_options options = sl_report_options_default();
    char *const usual = report_text(sl_report_table, options, true);
    options.viewing = (sl_viewing){SL_OBSERVER_10_DEGREE, SL_LIGHT_A, SL_LOOK_WET};
    char *const other = report_text(sl_report_table, options, true);
    ck_assert_ptr_nonnull(strstr(other, "lamp"));
    ck_assert_ptr_nonnull(strstr(other, "10 degree"));
    ck_assert_ptr_nonnull(strstr(other, "wet"));
    char *one = section(usual, "COLOURS IN WORDS"), *two = section(other, "COLOURS IN WORDS");
    ck_assert_str_ne(one, two);
    const char *at = one, *beside = two;
    int same = 0;
    while ((at = strstr(at, "level ")) != NULL && (beside = strstr(beside, "level ")) != NULL) {
        const size_t n = strcspn(at, ")");
        ck_assert_uint_eq(n, strcspn(beside, ")"));
        ck_assert_int_eq(strncmp(at, beside, n), 0);
        at++;
        beside++;
        same++;
    }
    ck_assert_int_eq(same, 7 * SMALL_ZONES);
    free(one);
    free(two);
    free(usual);
    free(other);
}
END_TEST

/* Red and violet lie on the undyed zone's hair; the root does not. */
START_TEST(leftover_is_told_only_against_the_same_hair)
{
    fill();
    char *const text = report_text(sl_report_table, sl_report_options_default(), true);
    const char *const arm = strstr(strstr(text, "COLOURS IN WORDS"), " untreated\n");
    const char *const root = strstr(arm, "root"), *const red = strstr(arm, "red ");
    const char *const undyed = strstr(arm, "undyed");
    ck_assert_ptr_nonnull(strstr(root, ")"));
    ck_assert_int_eq(strstr(root, ")")[1 + strspn(strstr(root, ")") + 1, " ")], '-');
    ck_assert(isdigit((unsigned char)strstr(red, ")")[1 + strspn(strstr(red, ")") + 1, " ")]));
    ck_assert_int_eq(strstr(undyed, ")")[1 + strspn(strstr(undyed, ")") + 1, " ")], '-');
    free(text);
}
END_TEST

START_TEST(two_zones_are_told_apart_in_words_first)
{
    fill();
    sl_report_options options = sl_report_options_default();
    options.compare = true;
    options.between[0] = (sl_spot_of){ARM_UNTREATED, ZONE_VIOLET};
    options.between[1] = (sl_spot_of){ARM_6, ZONE_VIOLET};
    char *const text = report_text(sl_report_table, options, false);
    char *const part = section(text, "BETWEEN TWO ZONES AT 20 MIN");
    const char *const words = strstr(part, "\"untreated/violet\" is darker"), *const number =
                                                                                  strstr(part, "CIEDE2000");
    ck_assert_ptr_nonnull(words);
    ck_assert_ptr_nonnull(number);
    ck_assert(words < number);
    ck_assert_ptr_nonnull(strstr(part, sl_not_calibrated));
    free(part);
    free(text);
}
END_TEST

START_TEST(an_arm_that_is_not_computed_is_not_compared)
{
    fill();
    sl_report_options options = sl_report_options_default();
    options.compare = true;
    options.between[0] = (sl_spot_of){ARM_6, ZONE_VIOLET};
    options.between[1] = (sl_spot_of){ARM_REDUCING, ZONE_VIOLET};
    char *const text = report_text(sl_report_table, options, false);
    char *const part = section(text, "BETWEEN TWO ZONES");
    ck_assert_ptr_nonnull(strstr(part, "has no colour then"));
    ck_assert_ptr_null(strstr(part, "CIEDE2000"));
    free(part);
    free(text);
}
END_TEST

START_TEST(on_a_head_colours_are_read_at_the_same_colour_left)
{
    fill();
    small.scene.place = SL_PLACE_HEAD;
    char *const text = report_text(sl_report_table, sl_report_options_default(), true);
    ck_assert_ptr_null(strstr(text, "COLOURS IN WORDS AT"));
    char *const part = section(text, "COLOURS IN WORDS WHEN");
    for (const char *at = strstr(part, " min"); at != NULL; at = strstr(at + 1, " min")) {
        ck_assert(!isdigit((unsigned char)at[-1]));
    }
    ck_assert_ptr_nonnull(strstr(part, "untreated: does not get there in this scene"));
    ck_assert_ptr_nonnull(strstr(part, "any tone"));
    free(part);
    free(text);
}
END_TEST

START_TEST(colours_in_words_keep_to_the_page)
{
    static const int widths[] = {100, 80, 60};
    fill();
    for (int i = 0; i < 3; i++) {
        sl_report_options options = sl_report_options_default();
        options.width = widths[i];
        options.compare = true;
        options.between[1] = (sl_spot_of){ARM_6, ZONE_VIOLET};
        char *const text = report_text(sl_report_table, options, true);
        for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
            ck_assert_msg(sl_text_width(line) <= widths[i], "%s", line);
        }
        free(text);
    }
}
END_TEST

/* ---- stains and viewing for machines ------------------------------------------------------- */

START_TEST(csv_has_a_stain_where_a_neighbour_stains)
{
    fill();
    small.dyes[1].stain_share = assumed(0.1); /* red, in "red" and "mixed" */
    char *const text = report_text(sl_report_csv, sl_report_options_default(), false);
    int rows = 0;
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        char arm[64], zone[64];
        double time = 0.0, value = -1.0;
        if (sscanf(line, "%63[^,],%63[^,],%lf,stain,%lf", arm, zone, &time, &value) == 4) {
            ck_assert(strcmp(zone, "root") == 0 || strcmp(zone, "violet") == 0 ||
                      strcmp(zone, "undyed") == 0);
            ck_assert(value >= 0.0 && value <= 0.1);
            ck_assert(strcmp(arm, "untreated") != 0 || value < 1e-300);
            ck_assert_str_ne(arm, "undyed");
            rows++;
        }
    }
    ck_assert_int_eq(rows, 6 * 3 * 2); /* six dyed arms that are computed, three zones, two times */
    free(text);
}
END_TEST

START_TEST(json_says_how_the_hair_is_looked_at)
{
    fill();
    sl_report_options options = sl_report_options_default();
    options.viewing = (sl_viewing){SL_OBSERVER_10_DEGREE, SL_LIGHT_WARM_LED, SL_LOOK_WET};
    char *const text = report_text(sl_report_json, options, false);
    const char *const viewing = strstr(text, "\"viewing\": {");
    ck_assert_ptr_nonnull(viewing);
    ck_assert_ptr_nonnull(strstr(viewing, sl_light_word(SL_LIGHT_WARM_LED)));
    ck_assert_ptr_nonnull(strstr(viewing, "\"look\": \"wet\""));
    ck_assert_ptr_nonnull(strstr(text, "\"chart\": \"testing\""));
    ck_assert_ptr_nonnull(strstr(text, "\"stain\": null"));
    free(text);
}
END_TEST

START_SUITE("colour words")
ADD(the_words_say_which_is_lighter_warmer_and_more_vivid)
ADD(what_hardly_anyone_sees_is_called_alike)
ADD(the_steps_of_seeing_rise_with_the_difference)
ADD(turned_round_the_words_are_the_opposite)
ADD(a_sentence_that_is_too_long_is_cut_and_ended)
ADD(readings_stand_only_where_they_are_asked_for)
ADD(a_reading_has_its_level_beside_its_lightness)
ADD(light_and_look_change_the_numbers_and_not_the_level)
ADD(leftover_is_told_only_against_the_same_hair)
ADD(two_zones_are_told_apart_in_words_first)
ADD(an_arm_that_is_not_computed_is_not_compared)
ADD(on_a_head_colours_are_read_at_the_same_colour_left)
ADD(colours_in_words_keep_to_the_page)
ADD(csv_has_a_stain_where_a_neighbour_stains)
ADD(json_says_how_the_hair_is_looked_at)
END_SUITE
