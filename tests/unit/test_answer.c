/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An answer where a range has no end, a scene no limit, a list no room; and what members must be.
 */
#include "slowlift/answer.h"

#include <math.h>
#include <string.h>

#include "estimate/counts.h"
#include "estimate/limits_of_members.h"
#include "slowlift/rank.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static const sl_three never = {-1.0, -1.0, -1.0};

/* One arm: the others would only take time. */
static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[0] = small.arms[ARM_6];
    small.scene.n_arms = 1;
    small.scene.aims = (sl_aims){.colour_left = 0.5};
}

static sl_spread *spread_of(long members, const sl_observations *observations)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .members = members, .seed = 5, .threads = 1, .observations = observations};
    sl_error error = {0};
    ck_assert_msg(sl_spread_run(&spread, &small.scene, &request, &error), "%s", error.found);
    return spread;
}

START_TEST(checks_never_overrun_their_list_and_still_end_with_the_limit)
{
    int check[SL_MOST_CHECKS];
    const sl_three early = {4.0, 5.0, 6.0};
    ck_assert_int_eq(sl_checks_of(early, (sl_three){300.0, 300.0, 300.0}, 0.0, check), SL_MOST_CHECKS);
    ck_assert_int_eq(check[SL_MOST_CHECKS - 1], 300);
    for (int i = 1; i < SL_MOST_CHECKS - 1; i++) {
        ck_assert_int_eq(check[i] - check[i - 1], 2);
    }
}
END_TEST

START_TEST(without_a_limit_or_without_a_goal_no_check_is_named)
{
    int check[SL_MOST_CHECKS];
    const sl_three some = {9.0, 13.0, 19.0};
    ck_assert_int_eq(sl_checks_of(some, never, 30.0, check), 0);
    ck_assert_int_eq(sl_checks_of(never, some, 30.0, check), 0);
    /* 0: no label was entered; the limit alone ends the checks */
    const int n = sl_checks_of((sl_three){9.0, 13.0, -1.0}, (sl_three){20.0, 25.0, 30.0}, 0.0, check);
    ck_assert_int_eq(n, 3);
    ck_assert_int_eq(check[0], 9);
    ck_assert_int_eq(check[1], 14); /* most members never get there: five minutes apart */
    ck_assert_int_eq(check[2], 20); /* joined to the one a minute before */
}
END_TEST

START_TEST(where_nothing_stops_an_arm_checks_end_when_the_mix_is_off)
{
    fresh();
    sl_spread *const spread = spread_of(112, NULL);
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert(answer.minutes);
    ck_assert_int_eq(answer.stop, SL_STOP_END);
    ck_assert_double_eq(answer.late.p10, -1.0);
    ck_assert_int_gt(answer.n_checks, 0);
    ck_assert_int_eq(answer.check[answer.n_checks - 1], 30);
    sl_spread_free(spread);
}
END_TEST

/* What is rinsed as soon as it is on is washed all the same: of these dyes washing takes less than a fifth.
 */
START_TEST(a_stop_at_once_leaves_what_washing_leaves)
{
    fresh();
    small.scene.aims.longest_min = (sl_bound){0.0, true};
    sl_spread *const spread = spread_of(112, NULL);
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_int_eq(answer.stop, SL_STOP_CHAIR);
    ck_assert_int_gt(answer.left_p50_percent, 80);
    ck_assert_int_lt(answer.left_p50_percent, 100);
    ck_assert_int_eq(answer.verdict, SL_VERDICT_LATE);
    sl_spread_free(spread);
}
END_TEST

START_TEST(looks_never_overrun_their_list)
{
    fresh();
    sl_spread *const spread = spread_of(112, NULL);
    small.scene.until_min = small.arms[0].steps[0].duration_min = 1600.0; /* longer than any that is solved */
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_int_eq(answer.n_looks, SL_MOST_LOOKS);
    ck_assert_int_eq(answer.look[SL_MOST_LOOKS - 1], 2 + 5 * (SL_MOST_LOOKS - 1));
    sl_spread_free(spread);
}
END_TEST

START_TEST(somebody_without_a_form_gets_no_minute_and_no_judgement)
{
    fresh();
    const sl_person nobody = {0};
    sl_spread *const spread = spread_of(112, NULL);
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, &nobody);
    ck_assert(!answer.minutes);
    ck_assert_int_eq(answer.unknown, SL_UNKNOWN_PERSON);
    ck_assert_int_eq(answer.intake.minutes, false);
    sl_spread_free(spread);
}
END_TEST

/* With one more limit that nobody reaches, the label of the form ends it: no member says what is left then.
 */
START_TEST(a_label_later_than_every_other_stop_but_before_water_is_the_stop)
{
    fresh();
    const sl_observation showed = {
        .arm = 0, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF, .strand = true};
    const sl_observations observations = {1, {showed}};
    sl_intake form = small_clear_form();
    form.showed = observations;
    small.scene.place = SL_PLACE_HEAD;
    small.scene.aims.base_moved = small.scene.aims.cystine_lost = (sl_bound){0.999, true};
    sl_spread *const spread = spread_of(640, &observations);
    const sl_person person = person_of(&form, 0, 60.0);
    form.label_min = 25.0;
    sl_answer answer = sl_answer_of(&small.scene, spread, 0, &person);
    ck_assert_msg(answer.minutes, "%s", sl_unknown_words(answer.unknown));
    ck_assert_int_eq(answer.stop, SL_STOP_LABEL);
    ck_assert_int_eq(answer.left_p50_percent, -1);
    ck_assert_double_eq(answer.late.p90, 25.0);
    form.label_min = 35.0; /* the mix is off after 30 */
    answer = sl_answer_of(&small.scene, spread, 0, &person);
    ck_assert_int_eq(answer.stop, SL_STOP_END);
    ck_assert_int_ge(answer.left_p50_percent, 0);
    sl_spread_free(spread);
}
END_TEST

/* What comes in the same second as the limit comes too late: of 112 members none more is open. */
START_TEST(a_member_whose_goal_comes_with_its_limit_is_not_open)
{
    fresh();
    sl_spread *const spread = spread_of(112, NULL);
    const double u[SL_MOST_DRAWN] = {0.0};
    for (int s = 0; s < 2; s++) {
        member_limits member = {
            .early_reached = true, .early_min = 7.0, .late_min = 7.0 + s / 60.0, .late_by = SL_STOP_END};
        const sl_arm_spread before = *sl_spread_arm(spread, 0);
        const uint64_t at = before.open_early[420];
        spread_count(spread, 0, &member, u, 1);
        ck_assert_int_eq(sl_spread_arm(spread, 0)->open - before.open, s);
        ck_assert_int_eq((long)(sl_spread_arm(spread, 0)->open_early[420] - at), s);
    }
    sl_spread_free(spread);
}
END_TEST

/* A longest time that is the whole scene is what ends it; a longer one is not. */
START_TEST(a_longest_time_as_long_as_the_scene_ends_it)
{
    fresh();
    for (int i = 0; i < 2; i++) {
        small.scene.aims.longest_min =
            (sl_bound){small.scene.until_min - small.arms[0].contact_min + i, true};
        sl_spread *const spread = spread_of(112, NULL);
        ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).stop,
                         i == 0 ? SL_STOP_CHAIR : SL_STOP_END);
        sl_spread_free(spread);
    }
}
END_TEST

START_TEST(a_goal_that_comes_as_the_label_ends_comes_in_time)
{
    fresh();
    sl_spread *const spread = spread_of(640, NULL);
    const double goal = sl_answer_of(&small.scene, spread, 0, NULL).early.p50;
    ck_assert_double_gt(goal, 1.0);
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    small.mixes[MIX_POWDER_6].label_max_min = goal;
    const sl_answer ends = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_double_eq(ends.leave.label.end_min, goal);
    ck_assert_double_eq(ends.early.p50, goal);
    ck_assert_double_eq(ends.early.p90, -1.0);
    small.mixes[MIX_POWDER_6].label_max_min = goal - 0.01;
    ck_assert_double_eq(sl_answer_of(&small.scene, spread, 0, NULL).early.p50, -1.0);
    sl_spread_free(spread);
}
END_TEST

/* The counts are set by hand: what is told is decided from them alone. */
START_TEST(of_two_surprises_the_one_that_fewest_agree_with_is_told)
{
    fresh();
    const sl_observation seen = {.arm = 0, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF};
    const sl_observations observations = {2, {seen, seen}};
    sl_spread *const spread = spread_of(112, &observations);
    for (int least = 0; least < 2; least++) {
        spread->seen.agree[least] = 0;
        spread->seen.agree[1 - least] = 1;
        const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
        ck_assert_int_eq(answer.unknown, SL_UNKNOWN_SURPRISE);
        ck_assert_int_eq(answer.unexpected, least);
        ck_assert(!answer.minutes);
    }
    spread->seen.observations.n = 1; /* one thing cannot be at odds with another */
    spread->seen.agree[0] = spread->members;
    spread->seen.agree_all = 0;
    ck_assert_int_ne(sl_answer_of(&small.scene, spread, 0, NULL).unknown, SL_UNKNOWN_AT_ODDS);
    spread->members = SL_LEAST_MEMBERS - 1;
    ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).unknown, SL_UNKNOWN_MEMBERS);
    sl_spread_free(spread);
}
END_TEST

/* ---- members --------------------------------------------------------------------------------- */

START_TEST(a_member_s_limits_lie_inside_the_scene_and_its_share_between_none_and_all)
{
    const member_limits good = {
        .early_reached = true, .early_min = 10.0, .late_min = 60.0, .left_at_late = 1.0};
    const double nan = log(-1.0);
    ck_assert(limits_in_range(&good, 60.0));
    ck_assert(!limits_in_range(&good, 59.0));
    const double outside[] = {-0.1, 60.1, nan, HUGE_VAL};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        member_limits bad = good;
        bad.early_min = outside[i];
        ck_assert(!limits_in_range(&bad, 60.0));
        bad.early_reached = false; /* then it is no minute */
        ck_assert(limits_in_range(&bad, 60.0));
        bad = good;
        bad.late_min = outside[i];
        ck_assert(!limits_in_range(&bad, 60.0));
    }
    const double no_share[] = {-1e-6, 1.0 + 1e-6, nan};
    for (size_t i = 0; i < sizeof no_share / sizeof no_share[0]; i++) {
        member_limits bad = good;
        bad.left_at_late = no_share[i];
        ck_assert(!limits_in_range(&bad, 60.0));
    }
}
END_TEST

/* Dyes that the eye does not see, each losing another share: colour left is the plain mean of them, in the
 * timeline and in a member alike. */
START_TEST(dyes_without_any_absorbance_count_alike)
{
    fresh();
    for (int dye = 0; dye < SMALL_DYES; dye++) {
        small.dyes[dye].bands[0].height = 0.0;
    }
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    sl_cell cell;
    sl_timeline_at(timeline, 0, ZONE_MIXED, 6.0, NULL, &cell);
    const double *const left = cell.amounts.dye_left;
    ck_assert_double_gt(fabs(left[0] - left[1]), 0.01);
    ck_assert_double_eq_tol(cell.colour_left, 0.5 * (left[0] + left[1]), 1e-12);
    const sl_reason reason = sl_reason_of(timeline, 0, ZONE_MIXED, 6.0);
    ck_assert_double_eq(reason.sum, 0.0); /* no colour has left where none was */
    const sl_rank_request request = {.minute = 6.0, .share = 0.5, .members = 64, .seed = 7, .threads = 1};
    sl_rank *rank = NULL;
    ck_assert(sl_rank_run(&rank, &small.scene, &request, NULL));
    sl_timeline_at(sl_timeline_rinsed(timeline), 0, ZONE_MIXED, 6.0, NULL, &cell);
    const sl_middle middle = sl_rank_middle(rank, 0, ZONE_MIXED, SL_LEFT_THEN);
    ck_assert_double_le(middle.p10, cell.colour_left);
    ck_assert_double_ge(middle.p90, cell.colour_left);
    for (int zone = ZONE_RED; zone <= ZONE_MIXED; zone++) {
        small.scene.aims.zone_left[zone] = zone == ZONE_MIXED ? 0.5 : 1.0;
    }
    small.scene.aims.colour_left = 1.0;
    double minute = 0.0;
    ck_assert(sl_first_time(sl_timeline_rinsed(timeline), 0, ZONE_MIXED, SL_COLOUR_LEFT, 0.5, &minute));
    sl_spread *const spread = spread_of(112, NULL);
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_double_le(answer.early.p10, minute);
    ck_assert(answer.early.p90 < 0.0 || answer.early.p90 >= minute);
    sl_spread_free(spread);
    sl_rank_free(rank);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* What is in doubt and is not drawn would make the answer too sure: of forty dyes each is drawn by itself. */
START_TEST(each_of_many_dyes_is_drawn_by_itself)
{
    enum { MANY = 40 };
    sl_dye dyes[MANY];
    static drawn_members drawn;
    fresh();
    for (int i = 0; i < MANY; i++) {
        dyes[i] = small.dyes[i < SMALL_DYES ? i : 1];
    }
    small.scene.dyes = dyes;
    small.scene.n_dyes = MANY;
    small.zones[ZONE_VIOLET].recipe.dye[0] = MANY - 1;
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    int drawn_dyes = 0;
    int last = 0;
    for (int d = 0; d < plan.n; d++) {
        last = plan.drawn[d].doubt == SL_DOUBT_DYE ? d : last;
        drawn_dyes += plan.drawn[d].doubt == SL_DOUBT_DYE ? 1 : 0;
    }
    ck_assert_int_eq(drawn_dyes, MANY - 1); /* one of them is oxidative */
    members_draw(&drawn, &plan, 1, 0);
    for (int one = SMALL_DYES; one < MANY; one++) {
        for (int other = one + 1; other < MANY; other++) {
            ck_assert_double_ne(drawn.dye[one][0], drawn.dye[other][0]);
        }
    }
    for (int zone = 0; zone < SMALL_ZONES; zone++) {
        small.scene.aims.zone_left[zone] = zone == ZONE_VIOLET ? 0.5 : 1.0;
    }
    sl_spread *const spread = spread_of(2000, NULL); /* the last of them is felt */
    ck_assert_double_gt(sl_spread_index(spread, 0, last), 0.03);
    ck_assert_double_lt(sl_spread_index(spread, 0, last - 1), 0.03);
    sl_spread_free(spread);
    sl_rank *rank = NULL;
    const sl_rank_request ranked = {.minute = 5, .share = 0.5, .members = 16, .seed = 1, .threads = 1};
    ck_assert(sl_rank_run(&rank, &small.scene, &ranked, NULL));
    ck_assert_int_eq(rank->plan.n, plan.n);
    sl_rank_free(rank);
}
END_TEST

/* The ends themselves lie inside; of a share a billionth is forgiven, for rounding. */
START_TEST(a_member_at_the_very_ends_is_in_range)
{
    const member_limits good = {.early_reached = true, .early_min = 0.0, .late_min = 0.0};
    ck_assert(limits_in_range(&good, 60.0));
    ck_assert(limits_in_range(&good, 0.0));
    member_limits end = good;
    end.early_min = 60.0;
    ck_assert(limits_in_range(&end, 60.0));
    end.early_min = nextafter(60.0, 61.0);
    ck_assert(!limits_in_range(&end, 60.0));
    end = good;
    end.late_min = 60.0;
    ck_assert(limits_in_range(&end, 60.0));
    end.late_min = nextafter(60.0, 61.0);
    ck_assert(!limits_in_range(&end, 60.0));
    const double within[] = {-1e-9, -0.9e-9, 1.0, 1.0 + 0.9e-9}, beyond[] = {-1.1e-9, 1.0 + 1.1e-9};
    for (size_t i = 0; i < sizeof within / sizeof within[0]; i++) {
        end = good;
        end.left_at_late = within[i];
        ck_assert(limits_in_range(&end, 60.0));
    }
    for (size_t i = 0; i < sizeof beyond / sizeof beyond[0]; i++) {
        end.left_at_late = beyond[i];
        ck_assert(!limits_in_range(&end, 60.0));
    }
}
END_TEST

/* Counts of 1000 members by hand, each of weight one; a look at ARM 0 was entered at `seen_min` (0: none). */
static sl_spread *counted(double seen_min)
{
    static const sl_draw_plan nothing_drawn = {0};
    sl_observations observations = {
        1, {{.arm = 0, .zone = ZONE_VIOLET, .minute = seen_min, .wipe = SL_WIPE_HALF}}};
    sl_spread *const spread =
        spread_new(&small.scene, &nothing_drawn, 1, seen_min > 0.0 ? &observations : NULL, NULL);
    ck_assert_ptr_nonnull(spread);
    spread->members = spread->asked_for = 1000;
    spread->seen.weight = spread->seen.square = 1000;
    spread->seen.agree[0] = spread->seen.agree_all = 1000;
    return spread;
}

/* 100 members in the second of the first minute, 400 in that of the second, 400 of the third, 100 later. */
static void put_three(uint64_t *bins, int seconds, sl_three minutes)
{
    const double at[3] = {minutes.p10, minutes.p50, minutes.p90};
    static const uint64_t members[3] = {100, 400, 400};
    for (int i = 0; i <= seconds; i++) {
        bins[i] = 0;
    }
    bins[seconds] = 100;
    for (int i = 0; i < 3; i++) {
        bins[at[i] < 0.0 ? seconds : (int)lround(60.0 * at[i])] += members[i];
    }
}

/* What is told once a look at `seen_min` was entered. */
static sl_answer told(double seen_min, sl_three early, sl_three late)
{
    sl_spread *const spread = counted(seen_min);
    sl_arm_spread *const here = spread->weighed ? &spread->weighed[0] : &spread->arms[0];
    put_three(here->early, spread->seconds, early);
    put_three(here->late, spread->seconds, late);
    const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_msg(answer.minutes, "%s", sl_unknown_words(answer.unknown));
    sl_spread_free(spread);
    return answer;
}

/* Worked by hand from limits.h: looks are two minutes and more after the last one, whole minutes, from where
 * one member in ten is at its goal up to where one in ten must stop; one more before that where there is no
 * room for a step. */
START_TEST(checks_go_on_from_the_last_look_and_end_with_the_limit)
{
    static const struct {
        double seen;
        sl_three early, late;
        int n, check[6];
    } cases[] = {
        {20.0, {9, 12, 17}, {21.5, 25, 28}, 1, {21}},  /* no room for two minutes: one look more */
        {20.0, {9, 12, 17}, {20.5, 25, 28}, 0, {0}},   /* that one would be the last look again */
        {20.0, {9, 12, 17}, {22, 25, 28}, 1, {22}},    /* just two minutes */
        {20.0, {22, 24, 26}, {21.5, 25, 28}, 1, {21}}, /* the goal comes with the next look */
        {20.0, {23, 24, 26}, {21.5, 25, 28}, 0, {0}},  /* the goal comes later than the limit */
        {20.7, {9, 12, 17}, {24, 25, 28}, 2, {22, 24}},
        {19.0, {9, 12, 17}, {24, 25, 28}, 2, {21, 24}}, /* 23 is joined to the limit a minute later */
        {0.0, {9, 12, 17}, {14, 25, 28}, 3, {9, 11, 14}}};
    fresh();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_answer answer = told(cases[i].seen, cases[i].early, cases[i].late);
        ck_assert_msg(answer.n_checks == cases[i].n, "case %zu: %d", i, answer.n_checks);
        for (int c = 0; c < answer.n_checks; c++) {
            ck_assert_msg(answer.check[c] == cases[i].check[c], "case %zu: %d", i, answer.check[c]);
        }
        ck_assert_double_eq(answer.seen_min, cases[i].seen);
        ck_assert_double_eq(answer.early.p10, cases[i].early.p10);
        ck_assert_double_eq(answer.late.p50, cases[i].late.p50);
    }
}
END_TEST

/* What is told is read off the counts, by weight once something was seen (worked by hand). */
START_TEST(an_answer_is_read_off_the_counts)
{
    fresh();
    for (int seen = 0; seen < 2; seen++) {
        sl_spread *const spread = counted(seen ? 5.0 : 0.0);
        sl_arm_spread *const here = seen ? &spread->weighed[0] : &spread->arms[0];
        put_three(here->early, spread->seconds, (sl_three){9.0, 12.0, 17.0});
        put_three(here->late, spread->seconds, (sl_three){20.0, 25.0, 28.0});
        here->open = 925;
        here->left_hundredths[20] = 499;
        here->left_hundredths[30] = 2;
        here->left_hundredths[40] = 499;
        static const struct {
            int64_t by[5];
            sl_stop stop;
        } stops[] = {{{0, 0, 0, 1000, 0}, SL_STOP_END},    {{500, 0, 0, 500, 0}, SL_STOP_END},
                     {{501, 0, 0, 499, 0}, SL_STOP_BASE},  {{300, 400, 0, 300, 0}, SL_STOP_STRESS},
                     {{0, 0, 501, 499, 0}, SL_STOP_CHAIR}, {{1, 1, 1, 1, 996}, SL_STOP_LABEL}};
        for (size_t i = 0; i < sizeof stops / sizeof stops[0]; i++) {
            memcpy(here->late_by, stops[i].by, sizeof here->late_by);
            ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).stop, stops[i].stop);
        }
        sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
        ck_assert_double_eq(answer.odds, 0.925);
        ck_assert_int_eq(answer.dots, 19); /* 18.5 of 20 */
        ck_assert_int_eq(answer.verdict, SL_VERDICT_ROOMY);
        ck_assert_int_eq(answer.left_p50_percent, 30);
        ck_assert_int_eq(answer.agree, 1000);
        ck_assert_double_eq(answer.effective, 1000.0);
        ck_assert_int_eq(answer.measure, -1);
        ck_assert(!answer.cut && !answer.partial);
        ck_assert_double_eq(answer.early.p90, 17.0);
        ck_assert_double_eq(answer.late.p90, 28.0);
        const sl_interval wanted = sl_odds_interval(0.925, 1000.0, 0.95);
        ck_assert_double_eq(answer.odds_95.low, wanted.low);
        ck_assert_double_eq(answer.odds_95.high, wanted.high);
        /* looks: at 2, then every 5, none at or before the last that was entered, until the mix is off */
        ck_assert_int_eq(answer.look[0], seen ? 7 : 2);
        ck_assert_int_eq(answer.n_looks, seen ? 5 : 6);
        ck_assert_int_eq(answer.look[answer.n_looks - 1], 27);
        here->left_hundredths[20] = 500; /* just half of them */
        ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).left_p50_percent, 20);
        memset(here->left_hundredths, 0, sizeof here->left_hundredths);
        here->left_hundredths[100] = 1000;
        ck_assert_int_eq(sl_answer_of(&small.scene, spread, 0, NULL).left_p50_percent, 100);
        sl_spread_free(spread);
    }
}
END_TEST

/* What to measure next is the draw with the greatest share of the doubt; of two alike the first. */
START_TEST(the_draw_with_the_most_doubt_is_to_be_measured)
{
    static const sl_draw_plan plan = {.n = 3};
    fresh();
    for (int most = 0; most < 4; most++) {
        sl_spread *const spread = spread_new(&small.scene, &plan, 1, NULL, NULL);
        spread->members = spread->asked_for = 20000;
        sl_arm_spread *const here = &spread->arms[0];
        put_three(here->early, spread->seconds, (sl_three){9.0, 12.0, 17.0});
        put_three(here->late, spread->seconds, (sl_three){20.0, 25.0, 28.0});
        here->square_s2 = 80000; /* variance 4 */
        for (int d = 0; d < 3; d++) {
            const int64_t gap = most == 3 ? 1000 : d == most ? 2000 : 1000;
            for (int b = 0; b < SL_INDEX_BINS; b++) {
                here->index_count[d][b] = 1000;
                here->index_sum_s[d][b] = b % 2 == 0 ? gap : -gap;
            }
        }
        const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
        ck_assert_int_eq(answer.measure, most == 3 ? 0 : most);
        ck_assert_double_eq_tol(answer.measure_index, (most == 3 ? 0.25 : 1.0) - 19.0 / 20000.0, 1e-12);
        sl_spread_free(spread);
    }
}
END_TEST

/* A label of 12 min from contact, while all three tenths of the goal and of the limit lie where they lie:
 * what comes later is not told, and the odds count members whose goal comes before it. */
START_TEST(a_label_cuts_every_minute_and_the_odds)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    sl_spread *const spread = counted(0.0);
    sl_arm_spread *const here = &spread->arms[0];
    put_three(here->early, spread->seconds, (sl_three){9.0, 12.0, 17.0});
    put_three(here->late, spread->seconds, (sl_three){20.0, 25.0, 28.0});
    put_three(here->open_early, spread->seconds, (sl_three){9.0, 12.0, 17.0});
    here->open = 900;
    here->left_hundredths[30] = 1000;
    static const struct {
        double label;
        sl_three early;
        double odds;
        bool cut;
    } cases[] = {{12.0, {9.0, 12.0, -1.0}, 0.1, true}, /* the second in which it ends is too late */
                 {12.02, {9.0, 12.0, -1.0}, 0.5, true}, {11.99, {9.0, -1.0, -1.0}, 0.1, true},
                 {9.0, {9.0, -1.0, -1.0}, 0.0, true},   {8.0, {-1.0, -1.0, -1.0}, 0.0, true},
                 {17.0, {9.0, 12.0, 17.0}, 0.5, false}, {18.0, {9.0, 12.0, 17.0}, 0.9, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        small.mixes[MIX_POWDER_6].label_max_min = cases[i].label;
        const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
        ck_assert(answer.minutes);
        ck_assert_double_eq(answer.early.p10, cases[i].early.p10);
        ck_assert_double_eq(answer.early.p50, cases[i].early.p50);
        ck_assert_double_eq(answer.early.p90, cases[i].early.p90);
        ck_assert_double_eq(answer.late.p10, cases[i].label);
        ck_assert_double_eq(answer.late.p50, cases[i].label);
        ck_assert_double_eq(answer.late.p90, cases[i].label);
        ck_assert_double_eq_tol(answer.odds, cases[i].odds, 1e-12);
        ck_assert_int_eq(answer.cut, cases[i].cut);
        ck_assert_int_eq(answer.stop, SL_STOP_LABEL);
        ck_assert_int_eq(answer.left_p50_percent, -1);
        ck_assert(answer.n_looks == 0 || answer.look[answer.n_looks - 1] <= cases[i].label);
    }
    small.mixes[MIX_POWDER_6].label_max_min = 25.0; /* not later than the middle limit: that one stops */
    sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
    ck_assert_int_eq(answer.left_p50_percent, 30);
    ck_assert_double_eq(answer.late.p10, 20.0);
    ck_assert_double_eq(answer.late.p90, 25.0);
    sl_spread_free(spread);
}
END_TEST

/* Minutes of an answer count from contact: begun ten minutes later, the same is told. */
START_TEST(an_arm_that_begins_later_is_told_the_same)
{
    sl_answer answer[2];
    for (int i = 0; i < 2; i++) {
        fresh();
        small.arms[0].contact_min = 10.0 * i;
        small.scene.until_min += 10.0 * i;
        sl_spread *const spread = spread_of(160, NULL);
        answer[i] = sl_answer_of(&small.scene, spread, 0, NULL);
        sl_spread_free(spread);
    }
    ck_assert(answer[0].minutes && answer[1].minutes);
    ck_assert_double_eq_tol(answer[0].early.p50, answer[1].early.p50, 1.0 / 60.0);
    ck_assert_int_eq(answer[0].n_checks, answer[1].n_checks);
    for (int i = 0; i < answer[0].n_checks; i++) {
        ck_assert_int_eq(answer[0].check[i], answer[1].check[i]);
    }
    ck_assert_int_eq(answer[0].n_looks, answer[1].n_looks);
    ck_assert_int_eq(answer[0].look[answer[0].n_looks - 1], 27);
    ck_assert_int_eq(answer[1].look[answer[1].n_looks - 1], 27);
    ck_assert_int_eq(answer[0].check[answer[0].n_checks - 1], 30); /* when the mix is off */
    ck_assert_double_eq_tol(answer[0].odds, answer[1].odds, 1e-12);
}
END_TEST

/* Two applications: checks go on until the last mix is off, or the scene ends before. */
START_TEST(checks_end_when_the_last_mix_is_off)
{
    for (int ends_before = 0; ends_before < 2; ends_before++) {
        fresh();
        sl_arm *const arm = &small.arms[0];
        arm->n_steps = 4;
        arm->steps[2] = arm->steps[0];
        arm->steps[2].duration_min = 10.0;
        arm->steps[3] = arm->steps[1];
        small.scene.until_min = ends_before ? 36.0 : 60.0;
        sl_spread *const spread = spread_of(112, NULL);
        const sl_answer answer = sl_answer_of(&small.scene, spread, 0, NULL);
        ck_assert(answer.minutes && answer.n_checks > 0);
        ck_assert_int_eq(answer.check[answer.n_checks - 1], ends_before ? 36 : 42);
        sl_spread_free(spread);
    }
}
END_TEST

START_SUITE("answer")
ADD(checks_never_overrun_their_list_and_still_end_with_the_limit)
ADD(without_a_limit_or_without_a_goal_no_check_is_named)
ADD(where_nothing_stops_an_arm_checks_end_when_the_mix_is_off)
ADD(a_stop_at_once_leaves_what_washing_leaves)
ADD(looks_never_overrun_their_list)
ADD(somebody_without_a_form_gets_no_minute_and_no_judgement)
ADD(a_label_later_than_every_other_stop_but_before_water_is_the_stop)
ADD(a_member_whose_goal_comes_with_its_limit_is_not_open)
ADD(a_longest_time_as_long_as_the_scene_ends_it)
ADD(a_goal_that_comes_as_the_label_ends_comes_in_time)
ADD(of_two_surprises_the_one_that_fewest_agree_with_is_told)
CASE("members")
ADD(a_member_s_limits_lie_inside_the_scene_and_its_share_between_none_and_all)
ADD(dyes_without_any_absorbance_count_alike)
ADD(each_of_many_dyes_is_drawn_by_itself)
ADD(a_member_at_the_very_ends_is_in_range)
ADD(checks_go_on_from_the_last_look_and_end_with_the_limit)
ADD(an_answer_is_read_off_the_counts)
ADD(the_draw_with_the_most_doubt_is_to_be_measured)
ADD(a_label_cuts_every_minute_and_the_odds)
ADD(an_arm_that_begins_later_is_told_the_same)
ADD(checks_end_when_the_last_mix_is_off)
END_SUITE
