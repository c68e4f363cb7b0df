/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is said of ranks, maps and searches.
 */
#include <stdio.h>
#include <string.h>

#include "document/renderers.h"
#include "report/rank/map.h"
#include "report/rank/rank.h"
#include "report/rank/search.h"
#include "slowlift/estimate.h"
#include "slowlift/promise.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static char text[65536];
static sl_document document;

typedef struct bench {
    sl_solver *solver;
    sl_timeline *timeline;
    sl_rank *rank;
} bench;

static bench set_up(sl_rank_request request)
{
    bench b = {.solver = sl_solver_new(NULL)};
    ck_assert(sl_timeline_solve(&b.timeline, &small.scene, NULL, 0, b.solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(b.timeline, b.solver, NULL));
    ck_assert(sl_rank_run(&b.rank, &small.scene, &request, NULL));
    return b;
}

static void tear_down(bench *b)
{
    sl_rank_free(b->rank);
    sl_timeline_free(b->timeline);
    sl_solver_free(b->solver);
}

static const sl_rank_request usual = {.minute = 15.0, .share = 0.5, .members = 300, .seed = 7, .threads = 1};

static void keep(FILE *out)
{
    rewind(out);
    text[fread(text, 1, sizeof text - 1, out)] = '\0';
    fclose(out);
}

static FILE *paper(void)
{
    FILE *const out = tmpfile();
    ck_assert_ptr_nonnull(out);
    return out;
}

/* "7.5 min" and the like. */
static bool has_decimals_of_minutes(void)
{
    for (const char *at = strstr(text, " min"); at; at = strstr(at + 1, " min")) {
        const char *digit = at;
        while (digit > text && digit[-1] >= '0' && digit[-1] <= '9') {
            digit--;
        }
        if (digit < at && digit > text + 1 && digit[-1] == '.' && digit[-2] >= '0' && digit[-2] <= '9') {
            return true;
        }
    }
    return false;
}

START_TEST(shares_are_told_with_their_range)
{
    sl_rank_middle_words((sl_middle){0.22, 0.31, 0.45}, text, sizeof text);
    ck_assert_str_eq(text, "31 % (22-45)");
    sl_rank_middle_words((sl_middle){0.94, 0.94, 0.94}, text, sizeof text);
    ck_assert_str_eq(text, "94 %");
    sl_rank_middle_words((sl_middle){0.0, 0.002, 0.004}, text, sizeof text);
    ck_assert_str_eq(text, "<1 %");
}
END_TEST

START_TEST(identical_arms_are_said_to_tie)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_3] = small.arms[ARM_6];
    bench b = set_up(usual);
    char other[24];
    sl_rank_place_words(b.rank, ARM_3, ZONE_RED, SL_LEFT_THEN, text, sizeof text);
    sl_rank_place_words(b.rank, ARM_6, ZONE_RED, SL_LEFT_THEN, other, sizeof other);
    ck_assert_str_eq(text, other);
    ck_assert_ptr_nonnull(strstr(text, " even"));
    tear_down(&b);
}
END_TEST

START_TEST(the_order_is_by_place_then_middle)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    bench b = set_up(usual);
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(b.rank, ZONE_RED, SL_LEFT_THEN, order);
    ck_assert_int_ge(n, 2);
    for (int i = 1; i < n; i++) {
        const int before = sl_rank_place(b.rank, order[i - 1], ZONE_RED, SL_LEFT_THEN);
        const int here = sl_rank_place(b.rank, order[i], ZONE_RED, SL_LEFT_THEN);
        ck_assert_int_le(before, here);
        if (before == here) {
            ck_assert(sl_rank_middle(b.rank, order[i - 1], ZONE_RED, SL_LEFT_THEN).p50 <=
                      sl_rank_middle(b.rank, order[i], ZONE_RED, SL_LEFT_THEN).p50);
        }
    }
    tear_down(&b);
}
END_TEST

START_TEST(the_reason_names_the_first_arm_and_the_next)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    bench b = set_up(usual);
    const sl_rank_page page = {.timeline = b.timeline, .rank = b.rank, .only = ZONE_RED};
    int order[SL_MAX_ARMS];
    ck_assert_int_ge(sl_rank_order(b.rank, ZONE_RED, SL_LEFT_THEN, order), 2);
    sl_rank_reason_words(&page, ZONE_RED, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, small.arms[order[0]].name));
    ck_assert_ptr_nonnull(strstr(text, small.arms[order[1]].name));
    tear_down(&b);
}
END_TEST

/* Two strips of one mix: in no model run has one less left; seen lower it is in half of all tests. */
START_TEST(a_surprise_is_not_said_in_the_words_of_its_chance)
{
    static const struct {
        double minute, scatter;
        const char *seen, *word;
    } cases[] = {{15.0, 0.05, "in 50 of 100 such tests (swatches of each: 2)", "That is ordinary noise."},
                 {15.0, 0.0, "in 0 of 100 such tests", "So seldom that the model lacks something."}};
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_3] = small.arms[ARM_6];
    bench b = set_up(usual);
    for (int i = 0; i < 2; i++) {
        sl_surprise *surprise = NULL;
        const sl_surprise_request asked = {.zone = ZONE_RED,
                                           .one = ARM_3,
                                           .other = ARM_6,
                                           .minute = {15.0, 15.0},
                                           .members = 300,
                                           .seed = 7,
                                           .threads = 1,
                                           .seeing = {.swatches = {2, 2},
                                                      .read = true,
                                                      .n_scatters = 1,
                                                      .scatter = {cases[i].scatter},
                                                      .chance = {1.0}}};
        ck_assert(sl_surprise_run(&surprise, &small.scene, &asked, NULL));
        const sl_rank_page page = {.timeline = b.timeline, .rank = b.rank, .asked = surprise, .only = -1};
        sl_rank_surprise_words(&page, text, sizeof text);
        ck_assert_ptr_nonnull(strstr(text, "in 0 of 300 model runs"));
        ck_assert_ptr_nonnull(strstr(text, cases[i].seen));
        ck_assert_ptr_nonnull(strstr(text, cases[i].word));
        sl_surprise_free(surprise);
    }
    tear_down(&b);
}
END_TEST

/* Grades are too coarse to show less than is assumed. */
START_TEST(a_scatter_that_was_raised_to_what_is_assumed_is_told_as_seen)
{
    static const struct {
        double scatter;
        const char *seen, *unseen;
    } cases[] = {{SL_SWATCH_SPREAD, "scatter by 5 points of 100, which is assumed: grades", "as grades"},
                 {0.08, "scatter by 8 points of 100, as grades in the log show", "assumed"}};
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    bench b = set_up(usual);
    for (int i = 0; i < 2; i++) {
        sl_surprise *surprise = NULL;
        const sl_surprise_request asked = {
            .zone = ZONE_RED,
            .one = ARM_3,
            .other = ARM_6,
            .minute = {15.0, 15.0},
            .members = 100,
            .seed = 7,
            .threads = 1,
            .seeing = {.swatches = {2, 2}, .n_scatters = 1, .scatter = {cases[i].scatter}, .chance = {1.0}}};
        ck_assert(sl_surprise_run(&surprise, &small.scene, &asked, NULL));
        const sl_rank_page page = {.timeline = b.timeline,
                                   .rank = b.rank,
                                   .asked = surprise,
                                   .only = -1,
                                   .scatter_from = "a log",
                                   .scatter = cases[i].scatter,
                                   .scatter_freedom = 6};
        sl_rank_surprise_words(&page, text, sizeof text);
        ck_assert_msg(strstr(text, cases[i].seen) && !strstr(text, cases[i].unseen), "%s", text);
        sl_surprise_free(surprise);
    }
    tear_down(&b);
}
END_TEST

START_TEST(a_table_of_ranks_has_its_example_note_and_no_decimals_of_minutes)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    bench b = set_up(usual);
    const sl_rank_page page = {.timeline = b.timeline, .rank = b.rank, .only = -1};
    FILE *const out = paper();
    sl_rank_say(&document, &page, NULL);
    ck_assert(sl_document_print(out, &document, NULL));
    keep(out);
    ck_assert_ptr_nonnull(strstr(text, "classroom example"));
    ck_assert_ptr_nonnull(strstr(text, "unbeaten"));
    ck_assert(!has_decimals_of_minutes());
    tear_down(&b);
}
END_TEST

START_TEST(a_map_stands_in_the_text_at_its_own_points)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.6, .base_moved = {0.9, true}};
    sl_solver *const solver = sl_solver_new(NULL);
    sl_map *map = NULL;
    const sl_axis x = {SL_SETTING_STRENGTH, 0.0, 12.0, 3}, y = {SL_SETTING_DWELL, 10.0, 30.0, 3};
    ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, x, y, NULL, solver, NULL));
    const sl_map_page page = {.scene = &small.scene, .map = map, .coarse_x = 2, .coarse_y = 1};
    FILE *const out = paper();
    sl_map_say(&document, &page, NULL);
    ck_assert(sl_document_print(out, &document, NULL));
    keep(out);
    ck_assert_ptr_nonnull(strstr(text, "developer strength (%)"));
    ck_assert_ptr_nonnull(strstr(text, "time on hair (min)"));
    char row[64];
    const double *const value = map->value[SL_MAP_LEFT];
    snprintf(row, sizeof row, " %d  %.0f%c  %.0f%c", 20, 100.0 * value[3],
             map->goal[3] ? (map->inside[3] ? '*' : '+') : '-', 100.0 * value[5],
             map->goal[5] ? (map->inside[5] ? '*' : '+') : '-');
    ck_assert_msg(strstr(text, row) != NULL, "no row \"%s\" in\n%s", row, text);
    sl_map_free(map);
    sl_solver_free(solver);
}
END_TEST

START_TEST(a_search_is_told_in_ranges_and_finds_none_where_nothing_is_allowed)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    const sl_search none = {.best = -1, .not_allowed = 3};
    const sl_search one = {.n = 1,
                           .best = 0,
                           .trial = {{.arm = ARM_6,
                                      .mix = small.arms[ARM_6].steps[0].mix,
                                      .found = true,
                                      .strength_pct = 2.0,
                                      .dwell_min = 18.4,
                                      .worst_left = 0.3}}};
    const sl_search_page pages[] = {{&small.scene, &none}, {&small.scene, &one}};
    FILE *out = paper();
    sl_search_say(&document, &pages[0], NULL);
    ck_assert(sl_document_print(out, &document, NULL));
    keep(out);
    ck_assert_ptr_nonnull(strstr(text, "NONE."));
    ck_assert_ptr_nonnull(strstr(text, "3 mixes"));
    out = paper();
    sl_search_say(&document, &pages[1], NULL);
    ck_assert(sl_document_print(out, &document, NULL));
    keep(out);
    ck_assert_ptr_nonnull(strstr(text, "18 to 19 min"));
    ck_assert_ptr_nonnull(strstr(text, "off the head")); /* 2 % is weaker than the mix's own */
    ck_assert_ptr_null(strstr(text, "NONE."));
    ck_assert(!has_decimals_of_minutes());
}
END_TEST

START_SUITE("choices")
ADD(shares_are_told_with_their_range)
ADD(identical_arms_are_said_to_tie)
ADD(the_order_is_by_place_then_middle)
ADD(the_reason_names_the_first_arm_and_the_next)
ADD(a_surprise_is_not_said_in_the_words_of_its_chance)
ADD(a_scatter_that_was_raised_to_what_is_assumed_is_told_as_seen)
ADD(a_table_of_ranks_has_its_example_note_and_no_decimals_of_minutes)
ADD(a_map_stands_in_the_text_at_its_own_points)
ADD(a_search_is_told_in_ranges_and_finds_none_where_nothing_is_allowed)
END_SUITE
