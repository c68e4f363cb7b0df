/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Counts: what may be added up, what a weight is at most, and what counts that say nothing tell.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "estimate/counts.h"
#include "estimate/observation_members.h"
#include "slowlift/answer.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;

static void fresh(void)
{
    small_scene_fill(&small);
    small.arms[0] = small.arms[ARM_6]; /* one arm: the others would only take time */
    small.scene.n_arms = 1;
    small.scene.aims = (sl_aims){.colour_left = 0.5};
}

static sl_spread *shard_of(long first, long members, const sl_observations *observations)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .first_member = first, .members = members, .seed = 5, .threads = 1, .observations = observations};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

static void is_refused(const sl_spread *sum, const sl_spread *part, const char *found)
{
    sl_spread *const kept = malloc(sizeof *kept);
    ck_assert_ptr_nonnull(kept);
    *kept = *sum;
    sl_error error = {0};
    sl_spread *const into = malloc(sizeof *into);
    ck_assert_ptr_nonnull(into);
    *into = *sum;
    ck_assert_msg(!sl_spread_add(into, part, &error), "added, where: %s", found);
    ck_assert_msg(strstr(error.found, found) != NULL, "%s, not %s", error.found, found);
    ck_assert_int_eq(memcmp(into, kept, sizeof *kept), 0); /* nothing was added before that was seen */
    free(into);
    free(kept);
}

/* ---- of one scene ------------------------------------------------------------------------------ */

static void other_seconds(sl_spread *part)
{
    part->seconds--;
}
static void other_arms(sl_spread *part)
{
    part->n_arms++;
}
static void other_zones(sl_spread *part)
{
    part->n_zones--;
}
static void fewer_doubts(sl_spread *part)
{
    part->plan.n--;
}
static void other_doubt(sl_spread *part)
{
    part->plan.drawn[1].doubt = SL_DOUBT_PH;
}
static void other_dye(sl_spread *part)
{
    part->plan.drawn[part->plan.n - 1].dye++;
}
static void other_grade(sl_spread *part)
{
    part->plan.drawn[2].grade = SL_GRADE_PUBLISHED;
}
static void other_width(sl_spread *part)
{
    part->plan.drawn[2].spread *= 1.0 + 1e-15;
}
static void nothing_asked(sl_spread *part)
{
    part->arms[0].asked = false;
}

static void (*const other_scene[])(sl_spread *part) = {other_seconds, other_arms,  other_zones,
                                                       fewer_doubts,  other_doubt, other_dye,
                                                       other_grade,   other_width, nothing_asked};
enum { OTHER_SCENES = (int)(sizeof other_scene / sizeof other_scene[0]) };

START_TEST(shards_that_differ_in_anything_are_not_of_one_scene)
{
    fresh();
    sl_spread *const sum = shard_of(0, 16, NULL);
    sl_spread *const part = shard_of(16, 16, NULL);
    sl_spread *const other = malloc(sizeof *other);
    ck_assert_ptr_nonnull(other);
    sl_arm_spread arm = part->arms[0];
    *other = *part;
    other->arms = &arm;
    other_scene[_i](other);
    is_refused(sum, other, "not of one scene");
    ck_assert(sl_spread_add(sum, part, NULL)); /* and unchanged it is added */
    ck_assert_int_eq(sum->members, 32);
    free(other);
    sl_spread_free(sum);
    sl_spread_free(part);
}
END_TEST

START_TEST(shards_of_another_run_are_not_added_up)
{
    fresh();
    const sl_observations observations = {
        1, {{.arm = 0, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};
    sl_observations later = observations;
    later.observation[0].minute = 6.0;
    sl_spread *const plain = shard_of(0, 16, NULL);
    sl_spread *const sum = shard_of(0, 16, &observations);
    sl_spread *const part = shard_of(16, 16, &observations);
    sl_spread *const other = shard_of(16, 16, &later);
    is_refused(plain, part, "different things seen");
    is_refused(sum, other, "different things seen");
    part->seen.scale++;
    is_refused(sum, part, "different things seen");
    part->seen.scale--;
    part->seed++;
    is_refused(sum, part, "different seeds");
    part->seed--;
    part->stopped = true;
    is_refused(sum, part, "stopped before its end");
    part->stopped = false;
    sum->stopped = true;
    is_refused(sum, part, "stopped before its end");
    sum->stopped = false;
    is_refused(sum, sum, "the same model runs");
    ck_assert(sl_spread_add(sum, part, NULL));
    ck_assert_int_eq(sum->n_ranges, 1); /* neighbours are joined */
    sl_spread_free(plain);
    sl_spread_free(sum);
    sl_spread_free(part);
    sl_spread_free(other);
}
END_TEST

/* Two entries that overlap at one end only, or not at all, on either side. */
START_TEST(members_that_overlap_by_one_are_refused_and_those_that_touch_are_not)
{
    fresh();
    sl_spread *const sum = shard_of(100, 50, NULL);
    sl_spread *const part = shard_of(200, 50, NULL);
    const sl_member_range overlaps[] = {{51, 50}, {149, 50}, {120, 2}, {90, 80}};
    for (int i = 0; i < 4; i++) {
        part->range[0] = overlaps[i];
        is_refused(sum, part, "the same model runs");
    }
    part->range[0] = (sl_member_range){50, 50}; /* ends where the other begins */
    ck_assert(sl_spread_add(sum, part, NULL));
    ck_assert_int_eq(sum->n_ranges, 1);
    ck_assert_int_eq(sum->range[0].first, 50);
    ck_assert_int_eq(sum->range[0].members, 100);
    sl_spread_free(sum);
    sl_spread_free(part);
}
END_TEST

START_TEST(more_gaps_than_can_be_noted_are_refused)
{
    fresh();
    sl_spread *const sum = shard_of(0, 1, NULL);
    sl_spread *const part = shard_of(0, 1, NULL);
    for (sum->n_ranges = 0; sum->n_ranges < SL_MOST_RANGES - 2; sum->n_ranges++) {
        sum->range[sum->n_ranges] = (sl_member_range){3L * sum->n_ranges, 1};
    }
    part->range[0].first = 3L * sum->n_ranges;
    ck_assert(sl_spread_add(sum, part, NULL));
    ck_assert_int_eq(sum->n_ranges, SL_MOST_RANGES - 1);
    part->range[0].first = 3L * sum->n_ranges;
    is_refused(sum, part, "too many parts");
    sl_spread_free(sum);
    sl_spread_free(part);
}
END_TEST

/* ---- weights ---------------------------------------------------------------------------------- */

START_TEST(a_weight_above_the_most_is_cut_and_told)
{
    bool capped = true;
    const int scale = weight_scale(1.0); /* best of the pilot agrees wholly: 2^11 */
    ck_assert_int_eq(weight_of(1.0, scale, &capped), 2048);
    ck_assert(!capped);
    ck_assert_int_eq(weight_of(8.0, scale, &capped), SL_MOST_WEIGHT);
    ck_assert(!capped);
    ck_assert_int_eq(weight_of(8.1, scale, &capped), SL_MOST_WEIGHT);
    ck_assert(capped);
    sl_seen seen = {.scale = weight_scale(1e-6), .observations = {.n = 2}};
    ck_assert_int_eq(spread_count_seen(&seen, 1.0, 1U), SL_MOST_WEIGHT);
    ck_assert_int_eq(spread_count_seen(&seen, 1e-6, 3U), 2147); /* 2^11 to 2^12: 1e-6 times 2^31 */
    ck_assert_int_eq(seen.capped, 1);
    ck_assert_int_eq(seen.agree[0], 2);
    ck_assert_int_eq(seen.agree[1], 1);
    ck_assert_int_eq(seen.agree_all, 1);
}
END_TEST

START_TEST(counts_of_nothing_say_nothing)
{
    fresh();
    const sl_observations observations = {
        1, {{.arm = 0, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};
    sl_spread *const spread = shard_of(0, 112, &observations);
    spread->seen.weight = spread->seen.square = 0; /* no member was worth anything */
    ck_assert_double_eq(sl_spread_effective(spread), 0.0);
    ck_assert_double_eq(sl_spread_index(spread, 0, 0), 0.0);
    spread->seen.agree[0] = spread->seen.agree_all = 112;
    ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).unknown, SL_UNKNOWN_WARM);
    small.scene.room_c = 24.0;
    ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).unknown, SL_UNKNOWN_TOO_FEW_AGREE);
    sl_spread_free(spread);
}
END_TEST

/* Of members that are all alike nothing is the reason; bins that hold nobody count for nothing. */
START_TEST(an_index_is_nothing_where_nothing_varies_and_all_where_one_draw_decides)
{
    int64_t count[1][SL_INDEX_BINS] = {{0}}, sum_s[1][SL_INDEX_BINS] = {{0}};
    sl_arm_spread arm = {
        .asked = true, .index_count = count, .index_sum_s = sum_s, .sum_s = 1000, .square_s2 = 10000};
    const sl_spread spread = {.members = 100, .n_arms = 1, .plan = {.n = 1}, .arms = &arm};
    arm.index_count[0][0] = 100;
    arm.index_sum_s[0][0] = 1000;
    ck_assert_double_eq(sl_spread_index(&spread, 0, 0), 0.0);
    arm.square_s2 = 20000; /* half of them 0, half of them 20, by the draw alone */
    arm.index_count[0][0] = arm.index_count[0][19] = 50;
    arm.index_sum_s[0][0] = 0;
    arm.index_sum_s[0][19] = 1000;
    ck_assert_double_eq_tol(sl_spread_index(&spread, 0, 0), 1.0 - 19.0 / 100.0, 1e-12);
    arm.asked = false;
    ck_assert_double_eq(sl_spread_index(&spread, 0, 0), 0.0);
}
END_TEST

/* A sum of squares that 63 bits do not hold would be a wrong spread: it is refused before anything runs. */
START_TEST(more_members_than_can_be_counted_are_refused)
{
    fresh();
    small.scene.until_min = 240.0;
    const sl_observations observations = {
        1, {{.arm = 0, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};
    sl_error error = {0};
    sl_spread *spread = NULL;
    sl_spread_request request = {.members = 45000000000L, .seed = 5, .threads = 1};
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    request.members = 3000000; /* a weight may be sixteen thousand */
    request.observations = &observations;
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, NULL));
    ck_assert_ptr_null(spread);
}
END_TEST

/* What cannot be solved is named by member and arm whichever part asked for it, with or without a place to
 * say so. */
START_TEST(a_member_that_cannot_be_solved_is_named_whoever_asks)
{
    fresh();
    const sl_observations observations = {
        1, {{.arm = 0, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};
    small.scene.chemistry.couple_l_mol_min.value = 1e9; /* no step is short enough */
    sl_spread *spread = NULL;
    sl_spread_request request = {.members = 16, .seed = 1, .threads = 1, .observations = &observations};
    sl_error error = {0};
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, &error)); /* while weighing */
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert_ptr_nonnull(strstr(error.found, "of strip \"powder + 6 %\""));
    request.observations = NULL;
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, NULL)); /* nobody listens */
    small.arms[1] = small.arms[ARM_WASHING];
    small.scene.n_arms = 2;
    small.scene.aims = (sl_aims){.colour_left = 0.5, .stress_share = 0.5, .stress_of = 0};
    error = (sl_error){0};
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, &error)); /* while its limit is looked for */
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert_ptr_nonnull(strstr(error.found, "of strip \"powder + 6 %\""));
    ck_assert_ptr_null(spread);
}
END_TEST

START_SUITE("shards")
ADD_LOOP(shards_that_differ_in_anything_are_not_of_one_scene, 0, OTHER_SCENES)
ADD(shards_of_another_run_are_not_added_up)
ADD(members_that_overlap_by_one_are_refused_and_those_that_touch_are_not)
ADD(more_gaps_than_can_be_noted_are_refused)
CASE("weights")
ADD(a_weight_above_the_most_is_cut_and_told)
ADD(counts_of_nothing_say_nothing)
ADD(an_index_is_nothing_where_nothing_varies_and_all_where_one_draw_decides)
CASE("refused")
ADD(more_members_than_can_be_counted_are_refused)
ADD(a_member_that_cannot_be_solved_is_named_whoever_asks)
END_SUITE
