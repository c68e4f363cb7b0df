/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Members held to what was seen, one by one: what they read, weigh and agree with.
 */
#include "estimate/observation_members.h"

#include <math.h>
#include <stdio.h>

#include "estimate/counts.h"
#include "ground.h"
#include "observation_made.h"
#include "suite.h"

/* The first member from which ZONE_RED reads no share at this minute, of `most`; -1: none. */
static long first_bad(double minute, long most)
{
    static lane_history history;
    static drawn_members drawn;
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    for (long first = 0; first < most; first += LANES) {
        int bad = 0;
        members_draw(&drawn, &plan, 5, first);
        ck_assert(lanes_run(&history, &small.scene, &small.arms[ARM_6], 1.5, 0.85, &drawn.lanes, &bad));
        for (int l = 0; l < LANES; l++) {
            member_zone zone;
            member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[ARM_6], ZONE_RED,
                             &drawn);
            const double left = member_read(&zone, &history, l, minute).left;
            if (!(left >= 0.0 && left <= 1.0)) {
                return first + l;
            }
        }
    }
    return -1;
}

/* A reading that is no share stops the run, and the error names the first such member and the arm that was
 * looked at, not the arm that is counted first. A dye with more than all of it in the rim reads below nothing
 * in some members and not in others; of two such dyes the first is found among the members that set the
 * scale, the second later. */
START_TEST(a_reading_that_is_no_share_is_blamed_on_its_member_and_arm)
{
    const double rim[3] = {1.5, 1.3, -0.3}; /* the last reads more than all */
    const double minute = 4.0;
    for (int late = 0; late < 3; late++) {
        fresh_one();
        small.dyes[1].rim_share.value = rim[late];
        const long wanted = first_bad(minute, 2048);
        ck_assert(wanted >= 0 && (wanted >= SL_PILOT_MEMBERS) == (late == 1));
        const sl_observations observations = {1, {observation(ZONE_RED, minute, SL_WIPE_HALF)}};
        const sl_spread_request request = {.first_member = wanted / LANES * LANES,
                                           .members = 16,
                                           .seed = 5,
                                           .threads = 1,
                                           .observations = &observations};
        sl_error error = {0};
        sl_spread *spread = NULL;
        char found[96];
        ck_assert(!sl_spread_run(&spread, &small.scene, &request, &error));
        ck_assert_ptr_null(spread);
        ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
        snprintf(found, sizeof found, "member %ld of strip \"powder + 6 %%\"", wanted);
        ck_assert_str_eq(error.found, found);
    }
}
END_TEST

/* A strip seen as it is put on still holds all its colour: that is a share. */
START_TEST(a_look_at_the_very_beginning_finds_all_the_colour)
{
    fresh_one();
    const sl_observations observations = {1, {observation(ZONE_RED, 1e-9, SL_WIPE_NO_CHANGE)}};
    sl_spread *const spread = run(&observations, 32, 1);
    ck_assert_int_eq(spread->seen.agree[0], 32);
    ck_assert_int_eq(spread->seen.agree_all, 32);
    sl_spread_free(spread);
}
END_TEST

/* A weight is the agreement times a power of two, rounded to the nearest; the best agreement gets 2^11 up to
 * 2^12, and above 2^14 a weight is cut (observation_members.h, spread.h). */
START_TEST(weights_are_rounded_scaled_and_cut_where_they_are_said_to_be)
{
    const double best[] = {1.0, 0.999, 0.5, 0.4, 1e-20, 3e-7};
    for (size_t i = 0; i < sizeof best / sizeof best[0]; i++) {
        bool capped = true;
        const int64_t weight = weight_of(best[i], weight_scale(best[i]), &capped);
        ck_assert(weight >= 2048 && weight <= 4096 && !capped);
    }
    bool capped = true;
    ck_assert(weight_of(0.5, 0, &capped) == 1 && !capped);
    ck_assert(weight_of(0.49, 0, &capped) == 0 && !capped);
    ck_assert(weight_of(1.0, 3, &capped) == 8 && !capped);
    ck_assert(weight_of(16384.0, 0, &capped) == 16384 && !capped);
    ck_assert(weight_of(16385.0, 0, &capped) == 16384 && capped);
    ck_assert(weight_of(1.0, 60, &capped) == 16384 && capped);
}
END_TEST

/* One member at a time, by hand: what it agrees with, what it weighs. */
START_TEST(a_member_is_counted_with_each_thing_that_it_agrees_with)
{
    sl_seen seen = {.observations = {.n = 3}, .scale = 3};
    ck_assert(spread_count_seen(&seen, 1.0, 5U) == 8); /* the first and the third */
    ck_assert(spread_count_seen(&seen, 0.5, 7U) == 4); /* all */
    ck_assert(spread_count_seen(&seen, 1e9, 2U) == 16384);
    ck_assert(seen.agree[0] == 2 && seen.agree[1] == 2 && seen.agree[2] == 2 && seen.agree[3] == 0);
    ck_assert(seen.agree_all == 1 && seen.capped == 1);
    ck_assert(seen.weight == 8 + 4 + 16384);
    ck_assert(seen.square == 64 + 16 + INT64_C(16384) * 16384);
}
END_TEST

/* The best agreement among the first 1024 members, whichever are asked for, gets a weight of 2^11 to 2^12;
 * members of 16 in all are weighed by it. */
START_TEST(the_scale_of_all_weights_is_that_of_the_best_of_the_first)
{
    static lane_history history;
    static drawn_members drawn;
    fresh_one();
    /* a grade that no member comes near: even the best agrees by a hundredth or so */
    const sl_observations observations = {3,
                                          {observation(ZONE_RED, 25.0, SL_WIPE_NO_CHANGE),
                                           observation(ZONE_VIOLET, 25.0, SL_WIPE_NO_CHANGE),
                                           observation(ZONE_RED, 1.0, SL_WIPE_GHOST)}};
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    double best = 0.0, sum = 0.0;
    double agreement[SL_PILOT_MEMBERS];
    for (long first = 0; first < SL_PILOT_MEMBERS; first += LANES) {
        int bad = 0;
        members_draw(&drawn, &plan, 5, first);
        ck_assert(lanes_run(&history, &small.scene, &small.arms[ARM_6], 1.5, 0.85, &drawn.lanes, &bad));
        for (int l = 0; l < LANES; l++) {
            double product = 1.0;
            for (int i = 0; i < observations.n; i++) {
                member_zone zone;
                member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[ARM_6],
                                 observations.observation[i].zone, &drawn);
                product *= sl_wipe_agreement(
                    &SL_JUDGE_USUAL, observations.observation[i].wipe,
                    member_read(&zone, &history, l, observations.observation[i].minute).left);
            }
            agreement[first + l] = product;
            best = fmax(best, product);
        }
    }
    ck_assert_double_lt(best, 0.1);
    const int scale =
        11 - (int)floor(log2(best)); /* best times two to this is from 2^11 on, and below 2^12 */
    for (long first = 0; first < SL_PILOT_MEMBERS; first += 512) {
        sl_error error = {0};
        sl_spread *spread = NULL;
        const sl_spread_request request = {
            .first_member = first, .members = 16, .seed = 5, .threads = 1, .observations = &observations};
        ck_assert(sl_spread_run(&spread, &small.scene, &request, &error));
        ck_assert_int_eq(spread->seen.scale, scale);
        sum = 0.0;
        for (int m = 0; m < 16; m++) {
            sum += floor(ldexp(agreement[first + m], scale) + 0.5);
        }
        ck_assert_double_eq((double)spread->seen.weight, sum);
        sl_spread_free(spread);
    }
}
END_TEST

START_SUITE("saw members")
ADD(a_reading_that_is_no_share_is_blamed_on_its_member_and_arm)
ADD(a_look_at_the_very_beginning_finds_all_the_colour)
ADD(weights_are_rounded_scaled_and_cut_where_they_are_said_to_be)
ADD(a_member_is_counted_with_each_thing_that_it_agrees_with)
ADD(the_scale_of_all_weights_is_that_of_the_best_of_the_first)
END_SUITE
