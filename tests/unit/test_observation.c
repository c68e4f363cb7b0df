/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/observation.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "estimate/counts.h"
#include "estimate/observation_members.h"
#include "ground.h"
#include "observation_made.h"
#include "slowlift/answer.h"
#include "suite.h"
#include <stdio.h>

static sl_answer answer_of(const sl_observations *observations, long members)
{
    sl_spread *const spread = run(observations, members, 2);
    const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
    sl_spread_free(spread);
    return answer;
}

/* ---- the judge ----------------------------------------------------------------------------- */

START_TEST(the_six_chances_sum_to_one_and_the_nearest_grade_is_the_likeliest)
{
    for (int i = 0; i <= 1000; i++) {
        const double left = i / 1000.0;
        double sum = 0.0;
        int likeliest = 0;
        int nearest = 0;
        for (int g = 0; g < SL_WIPES; g++) {
            const double chance = sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)g, left);
            const double gap = fabs(sqrt(left) - sqrt(sl_wipe_share((sl_wipe)g)));
            ck_assert(chance > 0.0 && chance < 1.0);
            sum += chance;
            likeliest = chance > sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)likeliest, left) ? g : likeliest;
            nearest = gap < fabs(sqrt(left) - sqrt(sl_wipe_share((sl_wipe)nearest))) ? g : nearest;
            const double agreement = sl_wipe_agreement(&SL_JUDGE_USUAL, (sl_wipe)g, left);
            ck_assert(agreement > 0.0 && agreement <= 1.0 + 1e-12);
        }
        ck_assert_double_eq_tol(sum, 1.0, 1e-12);
        /* an interval that is wider gathers a little more across its edge */
        ck_assert(likeliest == nearest || sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)likeliest, left) <
                                              1.35 * sl_wipe_chance(&SL_JUDGE_USUAL, (sl_wipe)nearest, left));
    }
}
END_TEST

/* The same chance by GSL's normal curve, from the table's shares as they are documented. */
START_TEST(a_chance_is_what_an_ordered_probit_gives)
{
    static const double shares[] = {1.0, 0.8, 0.5, 0.25, 0.1, 0.0};
    static const sl_judge judges[] = {{0.0, 0.1, 0.02}, {0.07, 0.2, 0.06}, {-0.05, 0.05, 0.0}};
    ck_assert_mem_eq(&judges[0], &SL_JUDGE_USUAL, sizeof judges[0]);
    for (int j = 0; j < 3; j++) {
        const sl_judge *const judge = &judges[j];
        for (double left = 0.0; left <= 1.0; left += 0.01) {
            double edge[SL_WIPES + 1] = {HUGE_VAL, 0.0, 0.0, 0.0, 0.0, 0.0, -HUGE_VAL};
            for (int g = 0; g < SL_WIPES; g++) {
                ck_assert_double_eq(sl_wipe_share((sl_wipe)g), shares[g]);
                edge[g] = g == 0 ? edge[g] : 0.5 * (sqrt(shares[g - 1]) + sqrt(shares[g]));
            }
            for (int g = 0; g < SL_WIPES; g++) {
                const double at = sqrt(left) + judge->offset;
                const double seen = gsl_cdf_ugaussian_P((edge[g] - at) / judge->spread) -
                                    gsl_cdf_ugaussian_P((edge[g + 1] - at) / judge->spread);
                ck_assert_double_eq_tol(sl_wipe_chance(judge, (sl_wipe)g, left),
                                        (1.0 - judge->lapse) * seen + judge->lapse / 6.0, 1e-12);
            }
        }
    }
}
END_TEST

/* docs/science.md, "Surprise": P(g | L) over the largest that it can be, so 1 at the share that suits a grade
 * best and nowhere more. Shares by steps of their roots, in which the judge's error is the same everywhere.
 */
START_TEST(agreement_is_one_where_a_grade_is_likeliest)
{
    for (int wipe = 0; wipe < SL_WIPES; wipe++) {
        double most = 0.0, there = -1.0;
        for (int i = 0; i <= 10000; i++) {
            const double left = pow(i / 10000.0, 2.0);
            const double agreement = sl_wipe_agreement(&SL_JUDGE_USUAL, (sl_wipe)wipe, left);
            ck_assert_double_gt(agreement, 0.0);
            there = agreement > most ? left : there;
            most = fmax(most, agreement);
        }
        ck_assert_double_eq_tol(most, 1.0, 1e-6); /* flat at its top: half a step of the root changes 1e-7 */
        ck_assert_double_eq_tol(sqrt(there), sqrt(sl_wipe_share((sl_wipe)wipe)), 0.06);
    }
}
END_TEST

START_TEST(every_grade_has_a_word_that_leads_back_to_it)
{
    sl_wipe found = SL_WIPES;
    for (int g = 0; g < SL_WIPES; g++) {
        ck_assert(sl_wipe_of_word(sl_wipe_word((sl_wipe)g), &found));
        ck_assert_int_eq((int)found, g);
        ck_assert(g == 0 || sl_wipe_share((sl_wipe)g) < sl_wipe_share((sl_wipe)(g - 1)));
    }
    ck_assert(!sl_wipe_of_word("half", &found));
}
END_TEST

/* ---- entries --------------------------------------------------------------------------------- */

START_TEST(what_the_scene_cannot_be_asked_about_is_refused)
{
    fresh_warm();
    sl_observation bad[] = {
        observation(ZONE_ROOT, 5.0, SL_WIPE_HALF),      observation(ZONE_UNDYED, 5.0, SL_WIPE_HALF),
        observation(SMALL_ZONES, 5.0, SL_WIPE_HALF),    observation(-2, 5.0, SL_WIPE_HALF),
        observation(ZONE_RED, 0.0, SL_WIPE_HALF),       observation(ZONE_RED, 60.5, SL_WIPE_HALF),
        observation(ZONE_RED, log(-1.0), SL_WIPE_HALF), observation(ZONE_RED, 5.0, SL_WIPES),
        observation(ZONE_RED, 5.0, SL_WIPE_HALF),       observation(ZONE_RED, 5.0, SL_WIPE_HALF),
        observation(ZONE_RED, 5.0, SL_WIPE_HALF)};
    bad[8].arm = ARM_UNTREATED;
    bad[9].arm = ARM_REDUCING;
    bad[10].arm = -1;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        const sl_observations observations = {2, {observation(ZONE_RED, 5.0, SL_WIPE_HALF), bad[i]}};
        sl_error error = {0};
        sl_spread *spread = NULL;
        const sl_spread_request request = {
            .members = 16, .seed = 1, .threads = 1, .observations = &observations};
        ck_assert_msg(!sl_spread_run(&spread, &small.scene, &request, &error), "entry %zu", i);
        ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
        ck_assert_ptr_nonnull(strstr(error.found, "entry 2 "));
        ck_assert_ptr_null(spread);
    }
    sl_observations many = {0};
    many.n = SL_MOST_OBSERVATIONS + 1;
    ck_assert(!sl_observations_check(&many, &small.scene, NULL));
}
END_TEST

START_TEST(nothing_seen_leaves_every_member_alike)
{
    fresh_warm();
    const sl_observations none = {0};
    sl_spread *const one = run(NULL, 200, 1);
    sl_spread *const two = run(&none, 200, 1);
    ck_assert_ptr_null(one->weighed);
    ck_assert_ptr_null(two->weighed);
    ck_assert(sl_spread_total(one) == 200 && sl_spread_total(two) == 200);
    ck_assert_double_eq(sl_spread_effective(one), 200.0);
    sl_spread_free(one);
    sl_spread_free(two);
}
END_TEST

/* ---- weights --------------------------------------------------------------------------------- */

typedef struct by_hand {
    double weight, square, open;
} by_hand;

/* Each member on its own, in doubles: likelihoods multiplied, limits found, odds weighed. */
static by_hand weigh_by_hand(const sl_observations *observations, long members)
{
    static lane_history history;
    static drawn_members drawn;
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    by_hand sum = {0};
    for (long first = 0; first < members; first += LANES) {
        member_limits limits[LANES];
        int bad = 0;
        member_aims aims;
        members_draw(&drawn, &plan, 5, first);
        ck_assert(members_aims(&aims, &small.scene, ground_of(&small.scene), &drawn.lanes, &history, &bad));
        ck_assert(members_limits(limits, &small.scene, ARM_6, &drawn, &aims, &history, &bad));
        ck_assert(lanes_run(&history, &small.scene, &small.arms[ARM_6], 1.5, 0.85, &drawn.lanes, &bad));
        for (int l = 0; l < LANES; l++) {
            double weight = 1.0;
            for (int i = 0; i < observations->n; i++) {
                member_zone zone;
                member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[ARM_6],
                                 observations->observation[i].zone, &drawn);
                const double left = member_read(&zone, &history, l, observations->observation[i].minute).left;
                weight *= sl_wipe_chance(&SL_JUDGE_USUAL, observations->observation[i].wipe, left);
            }
            sum.weight += weight;
            sum.square += weight * weight;
            sum.open += limits[l].early_reached && limits[l].early_min < limits[l].late_min ? weight : 0.0;
        }
    }
    return sum;
}

START_TEST(weights_are_the_product_of_the_judge_s_chances)
{
    fresh_one();
    const sl_observations observations = {3,
                                          {observation(ZONE_VIOLET, 3.0, SL_WIPE_SLIGHT),
                                           observation(ZONE_RED, 6.0, SL_WIPE_SLIGHT),
                                           observation(ZONE_VIOLET, 8.0, SL_WIPE_HALF)}};
    sl_spread *const spread = run(&observations, 1600, 2);
    const by_hand wanted = weigh_by_hand(&observations, 1600);
    const double odds = (double)sl_spread_arm(spread, ARM_6)->open / (double)sl_spread_total(spread);
    /* a weight is rounded by half of one in some thousands; a second's rounding of early and late
     * moves a member or two of 1600 */
    ck_assert_double_eq_tol(odds, wanted.open / wanted.weight, 2e-3);
    ck_assert_double_eq_tol(sl_spread_effective(spread), wanted.weight * wanted.weight / wanted.square, 1.0);
    ck_assert_int_eq(spread->seen.capped, 0);
    uint64_t early = 0;
    for (int i = 0; i <= spread->seconds; i++) {
        early += spread->weighed[ARM_6].early[i];
    }
    ck_assert(early == (uint64_t)spread->seen.weight);
    sl_spread_free(spread);
}
END_TEST

START_TEST(one_grade_for_all_zones_is_about_their_mean)
{
    fresh_one();
    small.scene.n_zones = ZONE_RED + 1; /* one zone with direct dye: all of them is that one */
    const sl_observations one = {1, {observation(ZONE_RED, 9.0, SL_WIPE_HALF)}};
    const sl_observations all = {1, {observation(SL_OBSERVED_ALL_ZONES, 9.0, SL_WIPE_HALF)}};
    sl_spread *const x = run(&one, 320, 1);
    sl_spread *const y = run(&all, 320, 1);
    ck_assert(x->seen.weight == y->seen.weight && x->seen.square == y->seen.square);
    sl_spread_free(x);
    sl_spread_free(y);
}
END_TEST

START_TEST(threads_do_not_change_a_weighed_count)
{
    fresh_warm();
    const sl_observations observations = {
        2, {observation(ZONE_RED, 9.0, SL_WIPE_HALF), observation(ZONE_VIOLET, 9.0, SL_WIPE_GHOST)}};
    sl_spread *const one = run(&observations, 1000, 1);
    for (int threads = 2; threads <= 8; threads *= 4) {
        sl_spread *const more = run(&observations, 1000, threads);
        ck_assert(one->seen.weight == more->seen.weight && one->seen.square == more->seen.square);
        ck_assert_int_eq(one->seen.scale, more->seen.scale);
        ck_assert_int_eq(one->seen.agree_all, more->seen.agree_all);
        for (int a = ARM_WATER; a <= ARM_6; a++) {
            const size_t bytes = ((size_t)one->seconds + 1) * sizeof *one->arms[a].early;
            ck_assert_mem_eq(one->weighed[a].early, more->weighed[a].early, bytes);
            ck_assert_mem_eq(one->weighed[a].late, more->weighed[a].late, bytes);
            ck_assert(one->weighed[a].square_s2 == more->weighed[a].square_s2);
        }
        sl_spread_free(more);
    }
    sl_spread_free(one);
}
END_TEST

/* Thirty-two entries make likelihoods of 1e-20 and less: the scale follows. */
START_TEST(many_entries_do_not_round_every_weight_to_nothing)
{
    fresh_one();
    sl_observations observations = {.n = SL_MOST_OBSERVATIONS};
    for (int i = 0; i < observations.n; i++) {
        observations.observation[i] =
            observation(i % 2 == 0 ? ZONE_RED : ZONE_VIOLET, 6.0 + 0.1 * i, SL_WIPE_HALF);
    }
    sl_spread *const spread = run(&observations, 2000, 2);
    ck_assert(spread->seen.weight > 2048);
    ck_assert_double_gt(sl_spread_effective(spread), 1.0);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_strand_on_the_bench_says_the_same_wherever_the_scene_lies)
{
    fresh_one();
    small.scene.room_c = 21.0;
    sl_observations observations = {1, {observation(ZONE_RED, 9.0, SL_WIPE_SLIGHT)}};
    sl_spread *const bench = run(&observations, 320, 1);
    observations.observation[0].strand = true;
    sl_spread *const strand = run(&observations, 320, 1);
    small.scene.place = SL_PLACE_WRAPPED;
    small.scene.shift_k = 3.0;
    sl_spread *const head = run(&observations, 320, 1);
    observations.observation[0].strand = false;
    sl_spread *const warm = run(&observations, 320, 1);
    ck_assert(bench->seen.weight == strand->seen.weight && bench->seen.weight == head->seen.weight);
    ck_assert(bench->seen.square == head->seen.square && bench->seen.scale == head->seen.scale);
    ck_assert(head->seen.square != warm->seen.square);
    ck_assert(bench->weighed[ARM_6].sum_s != head->weighed[ARM_6].sum_s); /* its limits are the head's */
    sl_spread_free(bench);
    sl_spread_free(strand);
    sl_spread_free(head);
    sl_spread_free(warm);
}
END_TEST

/* ---- the answer ------------------------------------------------------------------------------ */

START_TEST(less_colour_seen_brings_the_goal_nearer_and_more_puts_it_off)
{
    fresh_one();
    const sl_answer before = answer_of(NULL, 2000);
    double last = 1e9, first = 0.0;
    for (int g = SL_WIPE_SLIGHT; g <= SL_WIPE_GHOST; g++) {
        const sl_observations observations = {1, {observation(ZONE_RED, 11.0, (sl_wipe)g)}};
        const sl_answer after = answer_of(&observations, 2000);
        ck_assert(after.minutes);
        ck_assert_double_lt(after.early.p50, last);
        ck_assert_double_lt(after.effective, before.effective);
        ck_assert(after.odds_95.low <= after.odds && after.odds <= after.odds_95.high);
        last = after.early.p50;
        first = g == SL_WIPE_SLIGHT ? last : first;
    }
    ck_assert_double_gt(first, before.early.p50);
    ck_assert_double_lt(last, before.early.p50);
}
END_TEST

START_TEST(checks_and_looks_come_after_what_was_seen)
{
    fresh_one();
    for (double minute = 2.0; minute < 30.0; minute += 6.6) {
        sl_observations observations = {
            2,
            {observation(ZONE_RED, minute, SL_WIPE_SLIGHT), observation(ZONE_RED, 1.0, SL_WIPE_NO_CHANGE)}};
        observations.observation[1].strand = true; /* a strand's clock is its own */
        const sl_answer answer = answer_of(&observations, 300);
        if (!answer.minutes) {
            continue; /* the later ones are surprises here */
        }
        ck_assert_double_eq(answer.seen_min, minute);
        for (int i = 0; i < answer.n_checks; i++) {
            ck_assert_double_gt(answer.check[i], minute);
        }
        if (minute < 27.0) { /* the last one while the mix is on */
            ck_assert(answer.n_looks > 0 && answer.look[0] > minute && answer.look[0] - minute <= 5.0);
        }
    }
    sl_observations strand = {1, {observation(ZONE_RED, 20.0, SL_WIPE_SLIGHT)}};
    strand.observation[0].strand = true;
    ck_assert_int_eq(answer_of(&strand, 300).look[0], 2);
}
END_TEST

START_TEST(what_the_model_did_not_expect_is_said_and_gets_no_minutes)
{
    fresh_one();
    const sl_observations observations = {
        2, {observation(ZONE_RED, 9.0, SL_WIPE_HALF), observation(ZONE_VIOLET, 29.0, SL_WIPE_NO_CHANGE)}};
    const sl_answer answer = answer_of(&observations, 2000);
    ck_assert_int_eq(answer.verdict, SL_VERDICT_UNKNOWN);
    ck_assert_int_eq(answer.unknown, SL_UNKNOWN_SURPRISE);
    ck_assert_int_eq(answer.unexpected, 1);
    ck_assert(!answer.minutes && answer.n_checks == 0 && answer.n_looks == 0 && answer.odds < 0.0);
    ck_assert_ptr_nonnull(strstr(sl_unknown_words(answer.unknown), "did not expect this"));
}
END_TEST

START_TEST(two_things_seen_that_cannot_both_be_are_at_odds)
{
    fresh_one();
    /* gone early, and hardly touched a little later: each alone is nothing strange */
    const sl_observations observations = {
        2, {observation(ZONE_RED, 15.0, SL_WIPE_GHOST), observation(ZONE_RED, 16.0, SL_WIPE_NO_CHANGE)}};
    for (int i = 0; i < 2; i++) {
        const sl_observations alone = {1, {observations.observation[i]}};
        ck_assert_int_eq(answer_of(&alone, 2000).unknown, SL_UNKNOWN_NOTHING);
    }
    const sl_answer both = answer_of(&observations, 2000);
    ck_assert_int_eq(both.unknown, SL_UNKNOWN_AT_ODDS);
    ck_assert(!both.minutes);
}
END_TEST

START_TEST(too_few_members_that_agree_ask_for_more)
{
    fresh_one();
    const sl_observations observations = {
        2, {observation(ZONE_RED, 6.0, SL_WIPE_MOSTLY_GONE), observation(ZONE_VIOLET, 6.0, SL_WIPE_GHOST)}};
    const sl_answer few = answer_of(&observations, 200);
    ck_assert_int_eq(few.unknown, SL_UNKNOWN_TOO_FEW_AGREE);
    ck_assert_double_lt(few.effective, 100.0);
    ck_assert_int_eq(answer_of(&observations, 8000).unknown, SL_UNKNOWN_NOTHING);
}
END_TEST

static void refused_as(sl_observations observations, const char *found, const char *wanted)
{
    sl_error error = {0};
    ck_assert(!sl_observations_check(&observations, &small.scene, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_str_eq(error.found, found);
    ck_assert_str_eq(error.wanted, wanted);
}

/* Entries are told by their number from one; the end of the scene is still inside, counted from contact. */
START_TEST(an_entry_that_is_refused_is_named_by_its_number)
{
    fresh_warm();
    small.arms[ARM_6].contact_min = 10.0;
    sl_observations observations = {
        2, {observation(ZONE_RED, 3.0, SL_WIPE_HALF), observation(ZONE_RED, 50.0, SL_WIPE_UNDYED)}};
    ck_assert(sl_observations_check(&observations, &small.scene, NULL));
    const char *const minutes = "give minutes from contact, above 0 and inside the scene";
    observations.observation[1].minute = nextafter(50.0, 51.0);
    refused_as(observations, "entry 2 of what was seen: the minute lies outside the scene", minutes);
    observations.observation[1].minute = 0.0;
    refused_as(observations, "entry 2 of what was seen: the minute lies outside the scene", minutes);
    observations.observation[1] = observation(ZONE_RED, 3.0, SL_WIPES);
    refused_as(observations, "entry 2 of what was seen: no such grade", "use one of the six grades");
    observations.observation[0].zone = SMALL_ZONES;
    refused_as(observations, "entry 1 of what was seen: no such zone, or one without direct dye",
               "name a zone with direct dye");
    observations.observation[0].arm = SMALL_ARMS;
    refused_as(observations, "entry 1 of what was seen: no such strip, or one that is not predicted",
               "name a strip with a mix");
    observations.n = SL_MOST_OBSERVATIONS + 1;
    sl_error error = {0};
    ck_assert(!sl_observations_check(&observations, &small.scene, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    observations.n = -1;
    ck_assert(!sl_observations_check(&observations, &small.scene, NULL));
    observations.n = SL_MOST_OBSERVATIONS;
    for (int i = 0; i < observations.n; i++) {
        observations.observation[i] = observation(ZONE_RED, 3.0, SL_WIPE_HALF);
    }
    ck_assert(sl_observations_check(&observations, &small.scene, NULL));
}
END_TEST

/* Two things seen are the same when each of their five words is. */
START_TEST(things_seen_are_the_same_in_every_word_or_not_at_all)
{
    const sl_observations one = {
        2, {observation(ZONE_RED, 3.0, SL_WIPE_HALF), observation(ZONE_RED, 5.0, SL_WIPE_HALF)}};
    for (int i = 0; i < 8; i++) {
        sl_observations two = one;
        sl_observation *const last = &two.observation[1];
        last->arm += i == 1 ? 1 : 0;
        last->zone += i == 2 ? 1 : 0;
        last->minute = i == 3 ? nextafter(5.0, 6.0) : i == 4 ? nextafter(5.0, 4.0) : 5.0;
        last->wipe = i == 5 ? SL_WIPE_GHOST : last->wipe;
        last->strand = i == 6;
        two.n = i == 7 ? 1 : 2;
        ck_assert_int_eq(sl_observations_same(&one, &two), i == 0);
    }
}
END_TEST

START_SUITE("saw")
ADD(the_six_chances_sum_to_one_and_the_nearest_grade_is_the_likeliest)
ADD(a_chance_is_what_an_ordered_probit_gives)
ADD(agreement_is_one_where_a_grade_is_likeliest)
ADD(every_grade_has_a_word_that_leads_back_to_it)
ADD(what_the_scene_cannot_be_asked_about_is_refused)
ADD(nothing_seen_leaves_every_member_alike)
ADD(weights_are_the_product_of_the_judge_s_chances)
ADD(one_grade_for_all_zones_is_about_their_mean)
ADD(threads_do_not_change_a_weighed_count)
ADD(many_entries_do_not_round_every_weight_to_nothing)
ADD(a_strand_on_the_bench_says_the_same_wherever_the_scene_lies)
ADD(less_colour_seen_brings_the_goal_nearer_and_more_puts_it_off)
ADD(checks_and_looks_come_after_what_was_seen)
ADD(what_the_model_did_not_expect_is_said_and_gets_no_minutes)
ADD(two_things_seen_that_cannot_both_be_are_at_odds)
ADD(too_few_members_that_agree_ask_for_more)
ADD(an_entry_that_is_refused_is_named_by_its_number)
ADD(things_seen_are_the_same_in_every_word_or_not_at_all)
END_SUITE
