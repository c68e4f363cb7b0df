/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/limits.h"
#include "slowlift/report.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "document/json_text.h"
#include "document/text.h"
#include "slowlift/caution.h"
#include "slowlift/estimate.h"
#include "slowlift/timeline.h"
#include "small_scene.h"
#include "suite.h"

/* ---- what is written, as text ---------------------------------------------------------- */

typedef bool report_function(FILE *, const sl_timeline *, const sl_optics *, const sl_report_options *);

/* The report of *scene at `times`, rising; to be freed. */
static char *report_at(const double times[2], const sl_scene *scene, report_function *report,
                       sl_report_options options)
{
    sl_error error = {0};
    sl_solver *solver = sl_solver_new(&error);
    sl_optics *optics = sl_optics_new(scene, &error);
    sl_timeline *timeline = NULL;
    ck_assert_msg(sl_timeline_solve(&timeline, scene, times, 2, solver, optics, &error), "%s", error.found);
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    ck_assert(report(out, timeline, optics, &options));
    ck_assert_int_eq(fclose(out), 0);
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_solver_free(solver);
    return text;
}

/* At 5 and 20 min. */
static char *report_text(const sl_scene *scene, report_function *report, sl_report_options options)
{
    static const double times[] = {5.0, 20.0};
    return report_at(times, scene, report, options);
}

/* Whether `word` stands in `text`, whatever the case of its letters. */
static bool holds(const char *text, const char *word)
{
    const size_t length = strlen(word);
    for (; *text != '\0'; text++) {
        size_t same = 0;
        while (same < length && tolower((unsigned char)text[same]) == word[same]) {
            same++;
        }
        if (same == length) {
            return true;
        }
    }
    return false;
}

static void assert_no_banned_word(const char *text)
{
    static const char *const banned[] = {"safe", "guarantee", "perfect", "will be removed"};
    for (size_t i = 0; i < sizeof banned / sizeof banned[0]; i++) {
        ck_assert_msg(!holds(text, banned[i]), "\"%s\" in: %.120s", banned[i], text);
    }
}

/* The first line of `text` that begins with `start`, after `from`. */
static const char *line_of(const char *text, const char *from, const char *start)
{
    const char *at = strstr(text, from);
    ck_assert_ptr_nonnull(at);
    while ((at = strchr(at, '\n')) != NULL) {
        at++;
        if (strncmp(at, start, strlen(start)) == 0) {
            return at;
        }
    }
    return NULL;
}

/* ---- sentences ------------------------------------------------------------------------ */

START_TEST(every_code_becomes_a_whole_sentence)
{
    for (int code = 0; code < SL_CODE_COUNT; code++) {
        sl_error error = {0};
        sl_fail_at(&error, (sl_code)code, "a.yaml", 3, 7, "FOUND", "WANTED");
        char text[1024];
        const int length = sl_error_sentence(&error, text, sizeof text);
        ck_assert_int_eq(length, (int)strlen(text));
        ck_assert_ptr_null(strstr(text, "%f"));
        ck_assert_ptr_null(strstr(text, "%w"));
        ck_assert_int_eq(strncmp(text, "a.yaml:3:7: ", 12), 0);
        ck_assert(code == SL_OK || strstr(text, "FOUND") != NULL);
        assert_no_banned_word(text);
    }
}
END_TEST

START_TEST(a_place_is_told_as_far_as_it_is_known)
{
    char text[256];
    sl_error error = {0};
    sl_fail_at(&error, SL_ERR_UNKNOWN_KEY, "a.yaml", 3, 7, "\"hiar\"", "did you mean \"hair\"?");
    sl_error_sentence(&error, text, sizeof text);
    ck_assert_str_eq(text, "a.yaml:3:7: unknown key \"hiar\"; did you mean \"hair\"?");
    sl_fail_at(&error, SL_ERR_CANNOT_READ, "a.yaml", 0, 0, "no such file", NULL);
    sl_error_sentence(&error, text, sizeof text);
    ck_assert_str_eq(text, "a.yaml: cannot read the file: no such file");
    sl_error_clear(&error);
    sl_fail(&error, SL_ERR_CANNOT_WRITE, "x.csv", NULL);
    sl_error_sentence(&error, text, sizeof text);
    ck_assert_str_eq(text, "cannot write x.csv");
}
END_TEST

START_TEST(a_sentence_too_long_for_its_place_is_cut_and_ended)
{
    char text[10];
    memset(text, 'x', sizeof text);
    sl_error error = {0};
    sl_fail(&error, SL_ERR_NOT_UTF8, "this", NULL);
    const int length = sl_error_sentence(&error, text, sizeof text);
    ck_assert_str_eq(text, "this is n");
    ck_assert_int_gt(length, (int)sizeof text);
    ck_assert_int_eq(sl_error_sentence(&error, NULL, 0), length);
}
END_TEST

/* ---- cautions ------------------------------------------------------------------------- */

START_TEST(every_caution_has_a_signal_word_and_a_text)
{
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        ck_assert_ptr_nonnull(caution->text);
        ck_assert_uint_gt(strlen(caution->text), 40);
        const char *word = caution->signal;
        ck_assert(strcmp(word, "DANGER") == 0 || strcmp(word, "WARNING") == 0 ||
                  strcmp(word, "CAUTION") == 0 || strcmp(word, "NOTICE") == 0);
        assert_no_banned_word(caution->text);
        for (int other = 0; other < id; other++) {
            ck_assert_str_ne(caution->text, sl_caution_text((sl_caution_id)other)->text);
        }
    }
}
END_TEST

START_TEST(the_six_cautions_that_never_go_off_are_these)
{
    static const sl_caution_id six[] = {SL_CAUTION_ESTIMATE, SL_CAUTION_LABEL, SL_CAUTION_DUST,
                                        SL_CAUTION_SCALP,    SL_CAUTION_HEAT,  SL_CAUTION_CLOSED};
    int always = 0;
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        always += sl_caution_text((sl_caution_id)id)->always ? 1 : 0;
    }
    ck_assert_int_eq(always, 6);
    for (size_t i = 0; i < 6; i++) {
        ck_assert(sl_caution_text(six[i])->always);
    }
}
END_TEST

/* ---- the table ------------------------------------------------------------------------ */

/* `text` without its line breaks and indents, so that paragraphs can be found in it. */
static char *unbroken(const char *text)
{
    char *flat = calloc(strlen(text) + 1, 1);
    size_t length = 0;
    for (; *text != '\0'; text++) {
        const bool space = *text == ' ' || *text == '\n';
        if (!space || (length > 0 && flat[length - 1] != ' ')) {
            flat[length++] = space ? ' ' : *text;
        }
    }
    return flat;
}

START_TEST(the_table_ends_with_the_cautions_that_never_go_off)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    char *text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    char *flat = unbroken(text);
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        const bool owed = caution->always || (caution->occasions & SL_ON_REDUCING); /* one mix reduces */
        ck_assert_msg((strstr(flat, caution->text) != NULL) == owed, "%s", caution->text);
    }
    ck_assert_ptr_nonnull(strstr(text, "classroom example"));
    free(flat);
    free(text);
}
END_TEST

START_TEST(the_table_uses_no_banned_word_and_no_decimal_of_a_minute)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    char *text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    assert_no_banned_word(text);
    for (const char *at = strstr(text, " min"); at != NULL; at = strstr(at + 1, " min")) {
        const char *number = at;
        while (number > text && (isdigit((unsigned char)number[-1]) || number[-1] == '.')) {
            number--;
        }
        ck_assert_msg(memchr(number, '.', (size_t)(at - number)) == NULL, "%.40s", number);
    }
    free(text);
}
END_TEST

START_TEST(the_table_keeps_to_its_width)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    static const int widths[] = {100, 80, 64};
    for (size_t i = 0; i < 3; i++) {
        sl_report_options options = sl_report_options_default();
        options.width = widths[i];
        char *text = report_text(&small.scene, sl_report_table, options);
        for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
            ck_assert_msg(sl_text_width(line) <= widths[i], "%s", line);
        }
        free(text);
    }
}
END_TEST

START_TEST(a_time_that_was_asked_for_is_told_whole_above_its_table)
{
    static const double times[] = {5.0, 13.75};
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    for (int arm = 0; arm < small.scene.n_arms; arm++) {
        small.arms[arm].name = "one";
    }
    sl_report_options options = sl_report_options_default();
    for (int contact = 0; contact < 2; contact++) {
        options.from_contact = contact == 1;
        char *const text = report_at(times, &small.scene, sl_report_table, options);
        ck_assert_ptr_nonnull(strstr(text, contact == 1 ? " 13.75 min on " : " at 13.75 min "));
        free(text);
    }
}
END_TEST

START_TEST(an_arm_outside_the_model_has_words_and_no_numbers)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    char *text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    char start[64];
    snprintf(start, sizeof start, " %s", small.arms[ARM_REDUCING].name);
    const char *line = line_of(text, "at 5 min", start);
    ck_assert_ptr_nonnull(line);
    const char *words = line + strlen(start);
    ck_assert_ptr_nonnull(strstr(words, "outside this model"));
    for (const char *at = words; *at != '\n'; at++) {
        ck_assert(!isdigit((unsigned char)*at));
    }
    free(text);
    char *csv = report_text(&small.scene, sl_report_csv, sl_report_options_default());
    ck_assert_ptr_null(strstr(csv, small.arms[ARM_REDUCING].name));
    free(csv);
}
END_TEST

START_TEST(a_head_gets_no_minutes)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.place = SL_PLACE_HEAD;
    small.scene.aims.colour_left = 0.5;
    small.scene.aims.cystine_lost = (sl_bound){0.2, true};
    char *text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    ck_assert_ptr_null(strstr(text, "at 5 min"));
    ck_assert_ptr_null(strstr(text, "SAME MINUTE"));
    const char *ways = strstr(text, "GOAL AND FIRST LIMIT");
    ck_assert_ptr_nonnull(ways);
    for (const char *at = strstr(ways, " min"); at != NULL; at = strstr(at + 1, " min")) {
        ck_assert(!isdigit((unsigned char)at[-1]));
    }
    ck_assert_ptr_nonnull(strstr(ways, "No minutes here"));
    free(text);
}
END_TEST

/* Warm as on a head in every way a scene can be, and somebody's: nothing by the minute, not a byte. */
START_TEST(what_counts_as_a_head_has_no_table_for_machines)
{
    for (int i = 0; i < 5; i++) {
        small_scene small;
        small_scene_fill(&small);
        small.scene.room_c = i == 2 ? 31.0 : 24.0;
        small.scene.place = i == 0 ? SL_PLACE_HEAD : i == 1 ? SL_PLACE_WRAPPED : SL_PLACE_BENCH;
        small.scene.shift_k = i == 3 ? 9.0 : 0.0;
        small.scene.person = i == 4 ? "K12" : NULL;
        const double times[] = {5.0, 20.0};
        const sl_report_options options = sl_report_options_default();
        sl_solver *solver = sl_solver_new(NULL);
        sl_optics *optics = sl_optics_new(&small.scene, NULL);
        sl_timeline *timeline = NULL;
        ck_assert(sl_timeline_solve(&timeline, &small.scene, times, 2, solver, optics, NULL));
        ck_assert(sl_limits_prepare(timeline, solver, NULL));
        char *text = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&text, &length);
        ck_assert(!sl_report_csv(out, timeline, optics, &options));
        ck_assert(!sl_report_json(out, timeline, optics, &options));
        ck_assert_int_eq(fclose(out), 0);
        ck_assert_uint_eq(length, 0);
        free(text);
        sl_timeline_free(timeline);
        sl_optics_free(optics);
        sl_solver_free(solver);
        char *table = report_text(&small.scene, sl_report_table, options);
        ck_assert_ptr_null(strstr(table, "SAME MINUTE"));
        ck_assert_ptr_null(strstr(table, "CUT SWATCHES"));
        ck_assert_int_eq(strncmp(table, "HAIR ON A HEAD", 14), 0);
        free(table);
    }
}
END_TEST

START_TEST(a_page_with_minutes_is_of_cut_swatches_and_holds_no_factor_of_a_head)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    char *bench = report_text(&small.scene, sl_report_table, sl_report_options_default());
    ck_assert_ptr_eq(strstr(bench, "CUT SWATCHES on a bench, 24 °C. Not for a head."), bench);
    ck_assert_ptr_nonnull(strstr(bench, "at 5 min"));
    ck_assert_ptr_null(strstr(bench, "times as fast"));
    free(bench);
    small.scene.place = SL_PLACE_HEAD;
    char *head = report_text(&small.scene, sl_report_table, sl_report_options_default());
    ck_assert_ptr_nonnull(strstr(head, "times as slow"));
    ck_assert_ptr_null(strstr(head, "at 5 min"));
    free(head);
}
END_TEST

START_TEST(an_arm_planned_past_its_label_is_named_and_never_wide_past_it)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.aims = (sl_aims){.colour_left = 0.6, .base_moved = {0.9, true}, .longest_min = {60.0, true}};
    char *text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    ck_assert_ptr_null(strstr(text, "its label ends it"));
    ck_assert_ptr_nonnull(strstr(text, "every number is about cut swatches"));
    free(text);
    for (int i = 0; i < SMALL_MIXES; i++) {
        small.mixes[i].label_max_min = 6.0;
    }
    text = report_text(&small.scene, sl_report_table, sl_report_options_default());
    ck_assert_ptr_nonnull(strstr(text, "its label ends it after 6"));
    ck_assert_ptr_null(strstr(text, "  wide "));
    char *flat = unbroken(text);
    ck_assert_ptr_nonnull(strstr(flat, "first limit: the label's time, 6 min"));
    ck_assert_ptr_null(strstr(flat, "not entered")); /* it was */
    ck_assert_ptr_null(strstr(flat, "has not been entered"));
    free(flat);
    free(text);
}
END_TEST

START_TEST(colours_are_only_there_when_asked_for)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_report_options options = sl_report_options_default();
    char *plain = report_text(&small.scene, sl_report_table, options);
    ck_assert_ptr_null(strchr(plain, '\033'));
    options.colour = true;
    char *coloured = report_text(&small.scene, sl_report_table, options);
    ck_assert_ptr_nonnull(strstr(coloured, "\033[38;2;"));
    char *flat = unbroken(coloured);
    ck_assert_ptr_nonnull(strstr(flat, sl_not_calibrated));
    free(flat);
    free(coloured);
    free(plain);
}
END_TEST

/* ---- CSV and JSON --------------------------------------------------------------------- */

/* A share that the mix leaves and only the water takes (it is on until 30 min) is marked, and explained; one
 * that comes under the mix is not. */
START_TEST(what_only_the_rinse_takes_is_said_to_be_the_rinse_s)
{
    static small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    const double mix_off = sl_left_at(timeline, ARM_6, ZONE_VIOLET, 30.0),
                 washed = sl_left_at(timeline, ARM_6, ZONE_VIOLET, 33.0);
    ck_assert_double_lt(washed, mix_off - 0.01);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_report_options options = sl_report_options_default();
    options.zone = ZONE_VIOLET;
    for (int rinse = 0; rinse < 2; rinse++) {
        options.share = rinse ? 0.5 * (mix_off + washed) : 1.5 * mix_off;
        char *const text = report_text(&small.scene, sl_report_table, options);
        const char *const line = line_of(text, "AT THE SAME COLOUR LEFT", " powder + 6 %");
        ck_assert_int_eq(strcspn(line, "*") < strcspn(line, "\n"), rinse);
        ck_assert(!rinse || strstr(text, "* No mix lies there any more") != NULL);
        free(text);
    }
}
END_TEST

START_TEST(csv_rows_hold_shares_between_nothing_and_all)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    char *text = report_text(&small.scene, sl_report_csv, sl_report_options_default());
    ck_assert_int_eq(strncmp(text, "arm,zone,time_min,quantity,value,lies_for\n", 42), 0);
    int rows = 0;
    for (char *line = strtok(text + 42, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        char arm[64], zone[64], quantity[64], value[64], lies_for[64];
        double time = 0.0;
        ck_assert_int_eq(sscanf(line, "%63[^,],%63[^,],%lf,%63[^,],%63[^,],%63[^\n]", arm, zone, &time,
                                quantity, value, lies_for),
                         6);
        ck_assert_str_eq(lies_for, "cut swatches");
        if (strcmp(quantity, "colour_left") == 0) {
            ck_assert_str_ne(zone, small.zones[ZONE_UNDYED].name);
        }
        if (strcmp(quantity, "colour_left") == 0 || strcmp(quantity, "base_moved") == 0 ||
            strcmp(quantity, "cystine_lost") == 0) {
            const double share = strtod(value, NULL);
            ck_assert(share >= 0.0 && share <= 1.0);
        }
        rows++;
    }
    /* 7 predicted arms of 5 zones at 2 times: 8 quantities everywhere, colour_left where there
     * is dye (4 zones of 6 dyed arms) */
    ck_assert_int_eq(rows, 7 * 5 * 2 * 8 + 6 * 4 * 2);
    free(text);
}
END_TEST

START_TEST(a_name_that_looks_like_a_formula_is_guarded)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_UNTREATED].name = "=1+1, \"x\"";
    char *text = report_text(&small.scene, sl_report_csv, sl_report_options_default());
    ck_assert_ptr_nonnull(strstr(text, "\"'=1+1, \"\"x\"\"\","));
    free(text);
}
END_TEST

START_TEST(times_from_contact_are_the_scenes_times_shifted)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_report_options options = sl_report_options_default();
    char *scene_clock = report_text(&small.scene, sl_report_csv, options);
    for (int arm = 0; arm < small.scene.n_arms; arm++) {
        small.arms[arm].contact_min += 7.0;
    }
    options.from_contact = true;
    char *contact_clock = report_text(&small.scene, sl_report_csv, options);
    char *one = strstr(scene_clock, "\n"), *two = strstr(contact_clock, "\n");
    while (one != NULL && two != NULL && *one != '\0' && one[1] != '\0') {
        char name_one[160], name_two[160];
        double value_one = 0.0, value_two = 0.0;
        ck_assert_int_eq(sscanf(one, "\n%159[^\n]", name_one), 1);
        ck_assert_int_eq(sscanf(two, "\n%159[^\n]", name_two), 1);
        char *cell_one = strrchr(name_one, ','), *cell_two = strrchr(name_two, ',');
        if (cell_one[1] != '#') {
            value_one = strtod(cell_one + 1, NULL);
            value_two = strtod(cell_two + 1, NULL);
            /* two solves at 1e-9 relative, printed with 9 digits; Lab values reach 100 */
            ck_assert_double_eq_tol(value_one, value_two, 1e-5);
        }
        *cell_one = *cell_two = '\0';
        ck_assert_str_eq(name_one, name_two);
        one = strchr(one + 1, '\n');
        two = strchr(two + 1, '\n');
    }
    free(scene_clock);
    free(contact_clock);
}
END_TEST

START_TEST(json_names_its_provenance_and_opens_and_closes_alike)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_UNTREATED].note.in[SL_ENGLISH] = "a \"quoted\" [note] {\n";
    char *text = report_text(&small.scene, sl_report_json, sl_report_options_default());
    ck_assert_ptr_nonnull(strstr(text, "\"weakest_grade\": \"assumed\""));
    ck_assert_ptr_nonnull(strstr(text, "classroom example"));
    ck_assert_ptr_nonnull(strstr(text, sl_sharing_word(SL_SHARING_VALID)));
    assert_no_banned_word(text);
    int depth = 0;
    bool quoted = false;
    for (const char *at = text; *at != '\0'; at++) {
        if (quoted && *at == '\\') {
            at++;
        } else if (*at == '"') {
            quoted = !quoted;
        } else if (!quoted) {
            depth += *at == '{' || *at == '[' ? 1 : *at == '}' || *at == ']' ? -1 : 0;
        }
    }
    ck_assert(!quoted);
    ck_assert_int_eq(depth, 0);
    free(text);
}
END_TEST

START_TEST(json_escapes_what_it_must)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    sl_json json = {.out = out};
    sl_json_open(&json, NULL, '[', true);
    sl_json_text(&json, NULL, "a\"b\\c\n\t\x01\x7f\xC2\xB0");
    sl_json_text(&json, NULL, NULL);
    sl_json_number(&json, NULL, 0.1);
    sl_json_number(&json, NULL, strtod("inf", NULL));
    sl_json_bool(&json, NULL, true);
    sl_json_close(&json, ']');
    fclose(out);
    ck_assert_str_eq(text, "[\"a\\\"b\\\\c\\n\\t\\u0001\\u007f\xC2\xB0\", null, 0.1, null, true]\n");
    free(text);
}
END_TEST

START_TEST(a_stream_that_fails_is_noticed)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    const double time = 5.0;
    sl_error error = {0};
    sl_solver *solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, &time, 1, solver, NULL, &error));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    FILE *full = fopen("/dev/full", "w");
    ck_assert_ptr_nonnull(full);
    setvbuf(full, NULL, _IONBF, 0);
    const sl_report_options options = sl_report_options_default();
    ck_assert(!sl_report_table(full, timeline, NULL, &options));
    ck_assert(!sl_report_csv(full, timeline, NULL, &options));
    ck_assert(!sl_report_json(full, timeline, NULL, &options));
    fclose(full);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* ---- words ---------------------------------------------------------------------------- */

START_TEST(small_shares_and_times_are_rounded_as_people_read_them)
{
    static const struct {
        double share;
        const char *text;
    } shares[] = {{0.0, "0"},  {1e-7, "0"},    {0.004, "<1"}, {0.0051, "1"},
                  {0.5, "50"}, {0.999, "100"}, {1.0, "100"}};
    char text[32];
    for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++) {
        sl_percent(shares[i].share, text, sizeof text);
        ck_assert_str_eq(text, shares[i].text);
    }
    sl_minutes_range(17.4, text, sizeof text);
    ck_assert_str_eq(text, "17 to 18 min");
    sl_clock_time(SL_MINUTE_PLANNED, 3.75, text, sizeof text);
    ck_assert_str_eq(text, "3:45");
    sl_clock_time(SL_MINUTE_PLANNED, 30.0, text, sizeof text);
    ck_assert_str_eq(text, "30");
    sl_short_number(10.10, 2, text, sizeof text);
    ck_assert_str_eq(text, "10.1");
    sl_short_number(-0.001, 1, text, sizeof text);
    ck_assert_str_eq(text, "0");
}
END_TEST

START_TEST(cells_take_the_columns_they_were_given)
{
    static const char *const texts[] = {
        "", "ab", "a\xCC\x81", "\xE6\x97\xA5\xE6\x9C\xAC", "22 \xC2\xB0 C", "a long name that must be cut"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char *text = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&text, &length);
        sl_put_left(out, texts[i], 7);
        sl_put_right(out, texts[i], 7);
        fclose(out);
        ck_assert_int_eq(sl_text_width(text), 14);
        free(text);
    }
}
END_TEST

START_TEST(a_title_that_is_wider_than_its_column_stands_whole_and_its_row_goes_on_below)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fputs("  ", out);
    sl_put_title(out, "ocho añil", 2, 9);
    fputs("|\n  ", out);
    sl_put_title(out, "ocho añil", 2, 8);
    fputs("|\n", out);
    fclose(out);
    ck_assert_str_eq(text, "  ocho añil|\n  ocho añil\n          |\n");
    free(text);
}
END_TEST

START_SUITE("report")
ADD(every_code_becomes_a_whole_sentence)
ADD(a_place_is_told_as_far_as_it_is_known)
ADD(a_sentence_too_long_for_its_place_is_cut_and_ended)
ADD(every_caution_has_a_signal_word_and_a_text)
ADD(the_six_cautions_that_never_go_off_are_these)
ADD(the_table_ends_with_the_cautions_that_never_go_off)
ADD(the_table_uses_no_banned_word_and_no_decimal_of_a_minute)
ADD(the_table_keeps_to_its_width)
ADD(a_time_that_was_asked_for_is_told_whole_above_its_table)
ADD(an_arm_outside_the_model_has_words_and_no_numbers)
ADD(a_head_gets_no_minutes)
ADD(what_counts_as_a_head_has_no_table_for_machines)
ADD(a_page_with_minutes_is_of_cut_swatches_and_holds_no_factor_of_a_head)
ADD(an_arm_planned_past_its_label_is_named_and_never_wide_past_it)
ADD(colours_are_only_there_when_asked_for)
ADD(what_only_the_rinse_takes_is_said_to_be_the_rinse_s)
ADD(csv_rows_hold_shares_between_nothing_and_all)
ADD(a_name_that_looks_like_a_formula_is_guarded)
ADD(times_from_contact_are_the_scenes_times_shifted)
ADD(json_names_its_provenance_and_opens_and_closes_alike)
ADD(json_escapes_what_it_must)
ADD(a_stream_that_fails_is_noticed)
ADD(small_shares_and_times_are_rounded_as_people_read_them)
ADD(cells_take_the_columns_they_were_given)
ADD(a_title_that_is_wider_than_its_column_stands_whole_and_its_row_goes_on_below)
END_SUITE
