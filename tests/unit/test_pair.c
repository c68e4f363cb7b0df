/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/run/pair.h"

#include <stdio.h>
#include <string.h>

#include "document/renderers.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_changes changes;
static char text[16384];
static int rounds; /* of 15 min; 0: the changes */
static sl_limits paid[2];
static double at_end[2]; /* base moved */

typedef enum told { TEXT, CSV, JSON } told;

static bool print(FILE *out, const sl_pair *pair)
{
    sl_document document;
    sl_pair_say(&document, pair, NULL);
    return sl_document_print(out, &document, NULL);
}

static void tell(told form)
{
    sl_pair pair = {
        .scene = &small.scene, .arm = ARM_6, .changes = &changes, .rounds = rounds, .round_min = 15.0};
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_variant variant;
    sl_variant_make(&variant, &small.scene, ARM_6, NULL);
    ck_assert(sl_outcome_of(&pair.before, &variant.scene, 0, &timeline, solver, NULL));
    ck_assert(sl_outcome_find_limits(&pair.before, 0, timeline, solver, NULL));
    paid[0] = pair.before.limits;
    sl_variant_make(&variant, &small.scene, ARM_6, &changes);
    ck_assert(sl_outcome_of(&pair.after, &variant.scene, 0, &timeline, solver, NULL));
    ck_assert(sl_outcome_find_limits(&pair.after, 0, timeline, solver, NULL));
    paid[1] = pair.after.limits;
    at_end[0] = pair.before.base_moved;
    at_end[1] = pair.after.base_moved;
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    FILE *const out = tmpfile();
    ck_assert_ptr_nonnull(out);
    ck_assert(form == TEXT  ? print(out, &pair)
              : form == CSV ? sl_export_csv(out, &sl_pair_export, &pair)
                            : sl_export_json(out, &sl_pair_export, &pair));
    rewind(out);
    text[fread(text, 1, sizeof text - 1, out)] = '\0';
    fclose(out);
}

static void change(sl_setting setting, double to)
{
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, setting, to, NULL));
}

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.6, .base_moved = {0.9, true}};
    changes = (sl_changes){.set = {false}};
    change(SL_SETTING_STRENGTH, 3.0);
}

START_TEST(a_head_gets_no_minutes)
{
    static const sl_place places[] = {SL_PLACE_HEAD, SL_PLACE_WRAPPED};
    for (int i = 0; i < 2; i++) {
        fresh();
        small.scene.place = places[i];
        tell(TEXT);
        for (const char *at = strstr(text, " min"); at; at = strstr(at + 1, " min")) {
            ck_assert(at == text || at[-1] < '0' || at[-1] > '9');
        }
        ck_assert_ptr_nonnull(strstr(text, "times nobody's hair"));
        tell(CSV);
        ck_assert_ptr_null(strstr(text, "_min"));
        tell(JSON);
        ck_assert_ptr_null(strstr(text, "\"goal_min\": 1"));
        ck_assert_ptr_nonnull(strstr(text, "\"goal_min\": null"));
    }
}
END_TEST

START_TEST(a_bench_gets_ranges_and_cautions)
{
    fresh();
    tell(TEXT);
    ck_assert_ptr_nonnull(strstr(text, "strength: 3 % instead of 6 %"));
    ck_assert_ptr_nonnull(strstr(text, " min later"));
    ck_assert_ptr_nonnull(strstr(text, " to "));
    ck_assert_ptr_nonnull(strstr(text, "classroom example"));
    ck_assert_ptr_nonnull(strstr(text, "NOTICE"));
    ck_assert_ptr_nonnull(strstr(text, "WARNING"));
    ck_assert_ptr_null(strstr(text, "changes at once"));
    tell(CSV);
    ck_assert_ptr_nonnull(strstr(text, ",goal_min,"));
}
END_TEST

START_TEST(two_changes_are_named_and_minded)
{
    fresh();
    change(SL_SETTING_WARMER, 4.0);
    tell(TEXT);
    ck_assert_ptr_nonnull(strstr(text, "2 changes at once"));
    ck_assert_ptr_nonnull(strstr(text, "strength: 3 % instead of 6 %"));
    ck_assert_ptr_nonnull(strstr(text, "warmer than the scene: 4 K instead of 0 K"));
    ck_assert_ptr_nonnull(strstr(text, "no dryer")); /* warmth is cautioned against */
}
END_TEST

START_TEST(rounds_are_told_as_rounds)
{
    fresh();
    changes = (sl_changes){.set = {false}};
    rounds = 2;
    tell(TEXT);
    rounds = 0;
    ck_assert_ptr_nonnull(strstr(text, "2 x 15 min, each with a fresh mix"));
    ck_assert_ptr_nonnull(strstr(text, "1 x 30 min"));
    ck_assert_ptr_nonnull(strstr(text, "whether a second application is allowed"));
    ck_assert_ptr_null(strstr(text, "none: this is what the file says already"));
}
END_TEST

START_TEST(what_is_paid_at_the_goal_is_less_than_at_the_end)
{
    fresh();
    tell(TEXT);
    ck_assert(paid[0].early_reached && paid[1].early_reached);
    ck_assert_ptr_nonnull(strstr(text, "base moved, at the goal"));
    for (int i = 0; i < 2; i++) {
        ck_assert_double_gt(paid[i].base_at_goal, 0.0);
        ck_assert_double_lt(paid[i].base_at_goal, at_end[i]);
    }
}
END_TEST

START_SUITE("pair")
ADD(a_head_gets_no_minutes)
ADD(a_bench_gets_ranges_and_cautions)
ADD(two_changes_are_named_and_minded)
ADD(rounds_are_told_as_rounds)
ADD(what_is_paid_at_the_goal_is_less_than_at_the_end)
END_SUITE
