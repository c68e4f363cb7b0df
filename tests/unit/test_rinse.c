/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/rinse.h"

#include <math.h>
#include <string.h>

#include "slowlift/answer.h"
#include "slowlift/estimate.h"
#include "small_scene.h"
#include "suite.h"

enum { MEMBERS = 320, MINUTE = 12 };

static small_scene small;

static void fill(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.3, true}};
}

static sl_spread *spread_of(int threads, const sl_observations *seen)
{
    const sl_spread_request request = {
        .members = MEMBERS, .seed = 7, .threads = threads, .observations = seen};
    sl_spread *spread = NULL;
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

static sl_rinse_request usual(const sl_spread *spread)
{
    sl_rinse_request request = {.spread = spread, .same_zone = -1, .threads = 1};
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        request.minute[arm] = MINUTE;
        request.base_zone[arm] = sl_reference_zone(&small.scene, ZONE_RED);
        request.last_min[arm] = HUGE_VAL;
    }
    return request;
}

static sl_rinse *rinse_of(sl_rinse_request request)
{
    sl_rinse *rinse = NULL;
    ck_assert(sl_rinse_run(&rinse, &small.scene, &request, NULL));
    return rinse;
}

/* A ranking reads the same members after the same time, by a walk and counts of its own. */
START_TEST(what_is_left_after_the_same_time_is_what_a_ranking_counts)
{
    fill();
    sl_spread *const spread = spread_of(1, NULL);
    sl_rinse *const rinse = rinse_of(usual(spread));
    sl_rank *rank = NULL;
    const sl_rank_request ranked = {
        .minute = MINUTE, .share = 0.5, .members = MEMBERS, .seed = 7, .threads = 1};
    ck_assert(sl_rank_run(&rank, &small.scene, &ranked, NULL));
    ck_assert_uint_eq(rinse->total, MEMBERS);
    int compared = 0;
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            if (!sl_rank_has(rank, arm, zone)) {
                continue;
            }
            ck_assert(sl_rinse_compares(rinse, &small.scene, arm, zone));
            const uint32_t *const wanted = rank->standing[arm * SMALL_ZONES + zone].count[SL_LEFT_THEN];
            const uint64_t *const found = rinse->left + (size_t)(arm * SMALL_ZONES + zone) * SL_THOUSANDTHS;
            for (int i = 0; i < SL_THOUSANDTHS; i++) {
                ck_assert_uint_eq(found[i], wanted[i]);
            }
            ck_assert_uint_eq(rinse->gone[arm * SMALL_ZONES + zone],
                              (uint64_t)rank->standing[arm * SMALL_ZONES + zone].gone);
            for (int other = 0; other < SMALL_ARMS; other++) {
                const size_t pairs = (size_t)zone * SL_PAIRINGS * SMALL_ARMS * SMALL_ARMS;
                const size_t pair = (size_t)arm * SMALL_ARMS + (size_t)other;
                ck_assert_double_eq_tol(sl_rinse_sooner(rinse, zone, SL_LESS_BASE, arm, other) * MEMBERS,
                                        rank->before[pairs + SL_BASE_GONE * SMALL_ARMS * SMALL_ARMS + pair],
                                        1e-9);
                ck_assert_double_eq_tol(sl_rinse_sooner(rinse, zone, SL_SLOWER_THERE, arm, other) * MEMBERS,
                                        rank->before[pairs + SL_SLOWER * SMALL_ARMS * SMALL_ARMS + pair],
                                        1e-9);
                ck_assert_double_eq_tol(
                    sl_rinse_sooner(rinse, zone, SL_SLOWER_THERE_LESS_BASE, arm, other) * MEMBERS,
                    rank->before[pairs + SL_SLOWER_LESS_BASE * SMALL_ARMS * SMALL_ARMS + pair], 1e-9);
            }
            compared++;
        }
    }
    ck_assert_int_ge(compared, 4);
    sl_rank_free(rank);
    sl_rinse_free(rinse);
    sl_spread_free(spread);
}
END_TEST

/* Where one zone alone is asked for it decides when the goal comes: the spread counts the same, to the second
 * of its bins: a member whose two moments lie within a second may be counted otherwise, here 2 of 320. */
START_TEST(in_time_is_what_the_spread_calls_open_where_one_zone_is_asked_for)
{
    fill();
    for (int zone = 0; zone < SMALL_ZONES; zone++) {
        small.scene.aims.zone_left[zone] = zone == ZONE_VIOLET ? 0.4 : 1.0;
    }
    sl_spread *const spread = spread_of(1, NULL);
    sl_rinse *const rinse = rinse_of(usual(spread));
    int asked = 0;
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        if (spread->arms[arm].asked) {
            asked++;
            ck_assert_double_eq_tol((double)rinse->in_time[arm * SMALL_ZONES + ZONE_VIOLET],
                                    (double)spread->arms[arm].open, 2.0);
        }
    }
    ck_assert_int_ge(asked, 2);
    sl_rinse_free(rinse);
    sl_spread_free(spread);
}
END_TEST

/* At the same colour left every member that gets there reads that share, of that zone. */
START_TEST(rinsed_at_the_same_colour_every_member_has_that_much_left)
{
    fill();
    sl_spread *const spread = spread_of(1, NULL);
    sl_rinse_request request = usual(spread);
    request.same_zone = ZONE_VIOLET;
    sl_rinse *const rinse = rinse_of(request);
    int there = 0;
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        if (sl_rinse_compares(rinse, &small.scene, arm, ZONE_VIOLET) && rinse->counted[arm] > 0) {
            const sl_middle left = sl_rinse_left(rinse, arm, ZONE_VIOLET);
            ck_assert_double_eq_tol(left.p10, 0.5, 0.0011);
            ck_assert_double_eq_tol(left.p90, 0.5, 0.0011);
            ck_assert_uint_eq(rinse->counted[arm], rinse->gone[arm * SMALL_ZONES + ZONE_VIOLET]);
            there++;
        }
    }
    ck_assert_int_ge(there, 2);
    sl_rinse_free(rinse);
    sl_spread_free(spread);
}
END_TEST

START_TEST(what_was_seen_weighs_members_as_it_does_in_the_spread)
{
    fill();
    const sl_observations seen = {
        .n = 1, .observation = {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 10.0, .wipe = SL_WIPE_HALF}}};
    sl_spread *const spread = spread_of(1, &seen);
    sl_rinse *const rinse = rinse_of(usual(spread));
    ck_assert_uint_eq(rinse->total, (uint64_t)spread->seen.weight);
    ck_assert_uint_eq(rinse->counted[ARM_6], rinse->total);
    sl_rinse_free(rinse);
    sl_spread_free(spread);
}
END_TEST

START_TEST(threads_do_not_matter)
{
    fill();
    sl_spread *const spread = spread_of(1, NULL);
    sl_rinse_request request = usual(spread);
    sl_rinse *const one = rinse_of(request);
    request.threads = 5;
    sl_rinse *const five = rinse_of(request);
    const size_t left = (size_t)SMALL_ARMS * SMALL_ZONES * SL_THOUSANDTHS;
    ck_assert_mem_eq(one->left, five->left, left * sizeof *one->left);
    ck_assert_mem_eq(one->sooner, five->sooner,
                     (size_t)SMALL_ZONES * SL_SOONERS * SMALL_ARMS * SMALL_ARMS * sizeof *one->sooner);
    sl_rinse_free(one);
    sl_rinse_free(five);
    sl_spread_free(spread);
}
END_TEST

/* Parts that begin at whole sixteens, as the window counts between its frames. */
START_TEST(read_in_parts_it_is_what_one_run_reads)
{
    fill();
    sl_spread *const spread = spread_of(1, NULL);
    sl_rinse_request request = usual(spread);
    sl_rinse *const whole = rinse_of(request);
    request.members = 48;
    sl_rinse *const sum = rinse_of(request);
    request.first_member = 48;
    request.members = 0;
    sl_rinse *const rest = rinse_of(request);
    ck_assert_int_eq(sum->members, 48);
    sl_rinse_add(sum, rest);
    ck_assert_int_eq(sum->members, MEMBERS);
    ck_assert(!sum->stopped);
    ck_assert_uint_eq(sum->total, whole->total);
    ck_assert_mem_eq(sum->left, whole->left,
                     (size_t)SMALL_ARMS * SMALL_ZONES * SL_THOUSANDTHS * sizeof *sum->left);
    ck_assert_mem_eq(sum->sooner, whole->sooner,
                     (size_t)SMALL_ZONES * SL_SOONERS * SMALL_ARMS * SMALL_ARMS * sizeof *sum->sooner);
    sl_rinse_free(whole);
    sl_rinse_free(sum);
    sl_rinse_free(rest);
    sl_spread_free(spread);
}
END_TEST

START_SUITE("rinse")
ADD(what_is_left_after_the_same_time_is_what_a_ranking_counts)
ADD(in_time_is_what_the_spread_calls_open_where_one_zone_is_asked_for)
ADD(rinsed_at_the_same_colour_every_member_has_that_much_left)
ADD(what_was_seen_weighs_members_as_it_does_in_the_spread)
ADD(threads_do_not_matter)
ADD(read_in_parts_it_is_what_one_run_reads)
END_SUITE
