/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/answer.h"

#include <math.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

static small_scene small;

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = small_aims;
    /* members are counted of two arms: the others would only take time */
    small.arms[ARM_WASHING].undyed = small.arms[ARM_WATER].undyed = small.arms[ARM_MILD].undyed = true;
}

static sl_limits limits_of(int arm)
{
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    const sl_limits limits = sl_limits_of(timeline, arm, NULL);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return limits;
}

static sl_spread *spread_of(int threads)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 640, .seed = 5, .threads = threads};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

static sl_observation showed(void)
{
    return (sl_observation){
        .arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF, .strand = true};
}

/* The same members, weighed by the strand of clear_form(). */
static sl_spread *spread_of_strand(void)
{
    sl_spread *spread = NULL;
    const sl_observations observations = {1, {showed()}};
    const sl_spread_request request = {
        .members = 640, .seed = 5, .threads = 1, .observations = &observations};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

static sl_intake clear_form(void)
{
    sl_intake form = small_clear_form();
    form.label_min = 20.0;
    form.showed = (sl_observations){1, {showed()}};
    return form;
}

START_TEST(the_label_counts_from_mixing_unless_it_says_from_application)
{
    fresh();
    double minute = -7.0;
    ck_assert(!sl_label_stop(&small.scene, ARM_6, &minute));
    small.mixes[MIX_POWDER_6].label_max_min = 20.0;
    small.arms[ARM_6].steps[0].mix_age_min = 4.0;
    ck_assert(sl_label_stop(&small.scene, ARM_6, &minute));
    ck_assert_double_eq(minute, 16.0);
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    ck_assert(sl_label_stop(&small.scene, ARM_6, &minute));
    ck_assert_double_eq(minute, 20.0);
    small.mixes[MIX_POWDER_6].label_max_min = 31.0; /* off after 30 */
    ck_assert(!sl_label_stop(&small.scene, ARM_6, &minute));
    small.mixes[MIX_POWDER_6].label_from_contact = false;
    small.arms[ARM_6].steps[0].mix_age_min = 40.0; /* over before contact */
    ck_assert(sl_label_stop(&small.scene, ARM_6, &minute));
    ck_assert_double_eq(minute, 0.0);
}
END_TEST

START_TEST(the_first_stop_binds_and_each_is_named)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_max_min = 20.0;
    const sl_limits all = limits_of(ARM_6);
    ck_assert(all.asked && all.stop_reached[SL_STOP_LABEL] && all.stop_reached[SL_STOP_CHAIR]);
    ck_assert_double_eq(all.stop_min[SL_STOP_LABEL], 20.0);
    ck_assert_double_eq(all.stop_min[SL_STOP_CHAIR], 45.0);
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert(!all.stop_reached[s] || all.stop_min[all.stop] <= all.stop_min[s]);
        ck_assert_uint_gt(strlen(sl_stop_word((sl_stop)s)), 8);
    }
    small.scene.aims = (sl_aims){.colour_left = 0.5};
    ck_assert_int_eq(limits_of(ARM_6).stop, SL_STOP_LABEL);
    small.mixes[MIX_POWDER_6].label_max_min = 0.0;
    ck_assert_int_eq(limits_of(ARM_6).stop, SL_STOP_END);
    small.scene.aims.longest_min = (sl_bound){18.0, true};
    ck_assert_int_eq(limits_of(ARM_6).stop, SL_STOP_CHAIR);
    small.scene.aims.cystine_lost = (sl_bound){0.001, true};
    ck_assert_int_eq(limits_of(ARM_6).stop, SL_STOP_STRESS);
    ck_assert(!limits_of(ARM_UNDYED).asked && !limits_of(ARM_REDUCING).asked);
}
END_TEST

/* "Nothing may be moved" is not "no limit": each stops at once, in the central values and in every
 * member, and plain water, which moves nothing, keeps it to the end. */
START_TEST(a_limit_of_nothing_stops_at_once)
{
    const sl_aims nothing[] = {{.colour_left = 0.5, .base_moved = {0.0, true}},
                               {.colour_left = 0.5, .cystine_lost = {0.0, true}},
                               {.colour_left = 0.5, .longest_min = {0.0, true}}};
    const sl_stop by[] = {SL_STOP_BASE, SL_STOP_STRESS, SL_STOP_CHAIR};
    for (int i = 0; i < 3; i++) {
        fresh();
        small.scene.aims = nothing[i];
        const sl_limits here = limits_of(ARM_6);
        ck_assert(here.stop_reached[by[i]]);
        ck_assert_int_eq(here.stop, by[i]);
        ck_assert_double_lt(here.stop_min[by[i]], 0.01); /* the search is good to a tenth of a second */
        sl_spread *spread = NULL;
        const sl_spread_request request = {.members = 64, .seed = 3, .threads = 1};
        ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
        const sl_arm_spread *const members = sl_spread_arm(spread, ARM_6);
        ck_assert_int_eq((int)members->late_by[by[i]], 64);
        ck_assert_int_eq((int)(members->late[0] + members->late[1]), 64);
        ck_assert_int_eq((int)members->open, 0);
        sl_spread_free(spread);
    }
}
END_TEST

START_TEST(members_stop_at_the_label_too)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_max_min = 9.0;
    small.scene.aims = (sl_aims){.colour_left = 0.5};
    sl_spread *const spread = spread_of(1);
    ck_assert_int_eq(spread->arms[ARM_6].late_by[SL_STOP_LABEL], 640);
    ck_assert_uint_eq(spread->arms[ARM_6].late[9 * 60], 640);
    ck_assert_int_eq(spread->arms[ARM_3].late_by[SL_STOP_LABEL], 0);
    const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
    ck_assert_int_eq(answer.stop, SL_STOP_LABEL);
    sl_spread_free(spread);
}
END_TEST

START_TEST(an_open_mix_dries_and_a_covered_one_does_not)
{
    fresh();
    ck_assert(!limits_of(ARM_6).dried);
    small.arms[ARM_6].steps[0].covered = false;
    small.scene.chemistry.dry_per_min.value = 0.2;
    const sl_limits open = limits_of(ARM_6);
    ck_assert(open.dried);
    /* wetness falls as exp(-0.2 t), dry is a tenth of it (include/slowlift/limits.h); a second */
    ck_assert_double_eq_tol(open.dried_min, log(10.0) / 0.2, 1.0 / 60.0);
    /* it lies for 30 min: what still holds .11 of its water at the end has not dried, .09 has */
    small.scene.chemistry.dry_per_min.value = -log(0.11) / 30.0;
    ck_assert(!limits_of(ARM_6).dried);
    small.scene.chemistry.dry_per_min.value = -log(0.09) / 30.0;
    ck_assert(limits_of(ARM_6).dried);
}
END_TEST

/* A check is a lock wiped clean of the mix: once the mix is off there is none to wipe, however long the scene
 * goes on and whatever the colour does. */
START_TEST(no_check_comes_after_the_mix_is_off)
{
    for (int rounds = 1; rounds <= 2; rounds++) {
        for (int dwell = 6; dwell <= 14; dwell += 4) {
            fresh();
            small.scene.aims = (sl_aims){.colour_left = 0.9};
            sl_arm *const arm = &small.arms[ARM_6];
            arm->contact_min = 5.0;
            arm->steps[0].duration_min = dwell;
            if (rounds == 2) {
                arm->steps[3] = arm->steps[0]; /* after a rinse of 2 min and a shampoo */
                arm->n_steps = 4;
            }
            const double off = rounds == 1 ? dwell : dwell + 2.0 + 1.0 + dwell;
            sl_spread *const spread = spread_of(1);
            const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
            ck_assert(answer.minutes && answer.n_checks > 0);
            ck_assert_double_gt(answer.late.p10, off + 5.0); /* nothing else would end them */
            ck_assert_int_eq(answer.check[answer.n_checks - 1], (int)off);
            sl_spread_free(spread);
        }
    }
}
END_TEST

/* docs/science.md, "What was seen moves the answer": fewer than 2 of 100 members that agree are a surprise;
 * together under a tenth of the product of their shares are at odds. Counts made by hand. */
START_TEST(a_surprise_and_what_is_at_odds_begin_where_the_docs_say)
{
    const struct {
        long first, second, both;
        sl_unknown unknown;
    } made[] = {{400, 320, 20, SL_UNKNOWN_NOTHING}, /* .625 * .5: a tenth is 20 of 640 */
                {400, 320, 19, SL_UNKNOWN_AT_ODDS}, {320, 320, 16, SL_UNKNOWN_NOTHING},
                {320, 320, 15, SL_UNKNOWN_AT_ODDS}, {13, 320, 6, SL_UNKNOWN_NOTHING},
                {12, 320, 6, SL_UNKNOWN_SURPRISE}}; /* 12 of 640 are 1.9 %, 13 are 2.03 % */
    fresh();
    sl_spread *spread = NULL;
    sl_observations observations = {2, {showed(), showed()}};
    observations.observation[0].strand = observations.observation[1].strand = false;
    observations.observation[1].minute = 5.0;
    const sl_spread_request request = {
        .members = 640, .seed = 5, .threads = 1, .observations = &observations};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    for (size_t i = 0; i < sizeof made / sizeof made[0]; i++) {
        spread->seen.agree[0] = made[i].first;
        spread->seen.agree[1] = made[i].second;
        spread->seen.agree_all = made[i].both;
        const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
        ck_assert_msg(answer.unknown == made[i].unknown, "case %zu: %d", i, (int)answer.unknown);
        ck_assert_int_eq(answer.unexpected, made[i].unknown == SL_UNKNOWN_SURPRISE ? 0 : -1);
    }
    sl_spread_free(spread);
}
END_TEST

/* The rule as it is written, at its edges. */
START_TEST(five_words_follow_the_odds)
{
    const sl_three early = {9.0, 13.0, 19.0};
    const sl_three after = {20.0, 30.0, 30.0};
    const sl_three across = {18.0, 30.0, 30.0};
    ck_assert_int_eq(sl_verdict_of(0.95, early, after), SL_VERDICT_ROOMY);
    ck_assert_int_eq(sl_verdict_of(0.95, early, across), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(0.95, (sl_three){9.0, 13.0, -1.0}, after), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(0.95, early, (sl_three){-1.0, -1.0, -1.0}), SL_VERDICT_ROOMY);
    ck_assert_int_eq(sl_verdict_of(0.89, early, after), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(0.74, early, after), SL_VERDICT_DOUBTFUL);
    ck_assert_int_eq(sl_verdict_of(0.25, early, after), SL_VERDICT_DOUBTFUL);
    ck_assert_int_eq(sl_verdict_of(0.24, early, after), SL_VERDICT_LATE);
    ck_assert_str_eq(sl_verdict_word(SL_VERDICT_UNKNOWN), "cannot say");
    ck_assert_str_eq(sl_verdict_key(SL_VERDICT_UNKNOWN), "not enough known");
}
END_TEST

START_TEST(checks_are_whole_minutes_that_end_with_the_limit)
{
    static const int wanted[] = {9, 12, 14, 17, 20};
    int check[SL_MOST_CHECKS];
    const sl_three early = {9.5, 13.8, 20.3};
    const sl_three late = {20.8, 30.0, 30.0};
    ck_assert_int_eq(sl_checks_of(early, late, 30.0, check), 5);
    for (int i = 0; i < 5; i++) {
        ck_assert_int_eq(check[i], wanted[i]);
    }
    ck_assert_int_eq(sl_checks_of((sl_three){24.0, 30.0, 40.0}, late, 30.0, check), 0);
    ck_assert_int_eq(sl_checks_of((sl_three){-1.0, -1.0, -1.0}, late, 30.0, check), 0);
}
END_TEST

START_TEST(no_check_is_later_than_the_label)
{
    int check[SL_MOST_CHECKS];
    for (double p10 = 0.0; p10 < 40.0; p10 += 0.7) {
        for (double label = 0.5; label < 60.0; label += 0.9) {
            const sl_three early = {p10, 1.4 * p10, 2.0 * p10};
            const sl_three late = {33.3, 40.0, 50.0};
            const int n = sl_checks_of(early, late, label, check);
            for (int i = 0; i < n; i++) {
                ck_assert_double_le(check[i], fmin(label, 33.3));
                ck_assert_int_ge(check[i], 2);
                /* a last step of one minute is joined to the one before */
                ck_assert(i == 0 || (check[i] > check[i - 1] && check[i] - check[i - 1] <= 5 + 1));
            }
        }
    }
}
END_TEST

START_TEST(skin_heat_and_stretch_are_looked_at_whatever_the_colour_does)
{
    fresh();
    small.scene.aims.colour_left = 0.001; /* the colour never gets there */
    sl_spread *const spread = spread_of(1);
    const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
    ck_assert_int_eq(answer.verdict, SL_VERDICT_LATE);
    ck_assert_int_eq(answer.n_checks, 0);
    ck_assert_int_gt(answer.n_looks, 5);
    ck_assert(answer.look[0] == 2 || answer.look[0] == 3);
    for (int i = 1; i < answer.n_looks; i++) {
        ck_assert_int_le(answer.look[i] - answer.look[i - 1], 5);
    }
    ck_assert_int_gt(answer.look[answer.n_looks - 1], 30 - 6); /* as long as the mix is on */
    ck_assert_int_le(answer.look[answer.n_looks - 1], 30);
    sl_spread_free(spread);
}
END_TEST

START_TEST(the_answer_counts_what_the_members_say)
{
    fresh();
    sl_spread *const one = spread_of(1);
    sl_spread *const two = spread_of(2);
    for (int arm = ARM_3; arm <= ARM_6; arm++) {
        const sl_answer answer = sl_answer_of(&small.scene, one, arm, NULL);
        const sl_answer again = sl_answer_of(&small.scene, two, arm, NULL);
        ck_assert(answer.minutes);
        ck_assert_double_eq(answer.odds, (double)one->arms[arm].open / 640.0);
        ck_assert_double_eq(answer.odds, again.odds);
        ck_assert_double_eq(answer.early.p50, again.early.p50);
        ck_assert_int_eq(answer.dots, (int)lround(20.0 * answer.odds));
        ck_assert_int_ge(answer.measure, 0);
        for (int d = 0; d < one->plan.n; d++) {
            ck_assert_double_le(sl_spread_index(one, arm, d), answer.measure_index);
        }
    }
    const sl_answer untreated = sl_answer_of(&small.scene, one, ARM_UNTREATED, NULL);
    ck_assert_int_eq(untreated.verdict, SL_VERDICT_UNKNOWN);
    sl_spread_free(one);
    sl_spread_free(two);
}
END_TEST

static void holds_no_minute(const sl_answer *answer)
{
    ck_assert_int_eq(answer->verdict, SL_VERDICT_UNKNOWN);
    ck_assert(!answer->minutes);
    ck_assert_uint_gt(strlen(sl_unknown_words(answer->unknown)), 20);
    ck_assert_int_eq(answer->n_checks + answer->n_looks + answer->dots, 0);
    ck_assert_double_eq(answer->odds, -1.0);
    ck_assert(answer->odds_95.low < 0.0 && answer->odds_95.high < 0.0 && answer->seen_min <= 0.0);
    ck_assert(answer->early.p10 < 0.0 && answer->early.p50 < 0.0 && answer->early.p90 < 0.0);
    ck_assert(answer->late.p10 < 0.0 && answer->late.p50 < 0.0 && answer->late.p90 < 0.0);
}

static sl_answer answer_for(const sl_spread *spread, const sl_intake *form, int arm)
{
    const sl_person person = person_of(form, arm, 60.0);
    return sl_answer_of(&small.scene, spread, arm, form ? &person : NULL);
}

static void stays_unknown(const sl_spread *spread, const sl_intake *form, sl_unknown why)
{
    const sl_answer answer = answer_for(spread, form, ARM_6);
    holds_no_minute(&answer);
    ck_assert_int_eq(answer.unknown, why);
}

static const sl_place places[] = {SL_PLACE_HEAD, SL_PLACE_WRAPPED};

START_TEST(a_person_gets_no_minute_while_anything_stops_or_is_missing)
{
    const sl_intake nobody = {0};
    const sl_intake good = clear_form();
    for (int place = 0; place < 2; place++) {
        fresh();
        small.scene.place = places[place];
        sl_spread *const spread = spread_of_strand();
        for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
            for (int reply = 0; reply < SL_REPLIES; reply++) {
                sl_intake form = good;
                form.reply[q] = (sl_reply)reply;
                if ((sl_reply)reply != good.reply[q]) {
                    stays_unknown(spread, &form, SL_UNKNOWN_FORM);
                } else {
                    ck_assert(answer_for(spread, &form, ARM_6).minutes);
                }
            }
        }
        stays_unknown(spread, &nobody, SL_UNKNOWN_FORM);
        sl_intake form = good;
        form.showed.n = 0;
        stays_unknown(spread, &form, SL_UNKNOWN_STRAND);
        form = good;
        form.label_min = 3.0; /* the strand was on for four */
        stays_unknown(spread, &form, SL_UNKNOWN_FORM);
        sl_spread_free(spread);
    }
}
END_TEST

START_TEST(a_strand_counts_only_when_it_has_weighed_the_members_of_this_arm)
{
    for (int place = 0; place < 2; place++) {
        fresh();
        small.scene.place = places[place];
        sl_spread *const with = spread_of_strand();
        sl_spread *const without = spread_of(1);
        const sl_intake good = clear_form();
        const sl_answer answer = answer_for(with, &good, ARM_6);
        ck_assert(answer.minutes && answer.unknown == SL_UNKNOWN_NOTHING);
        stays_unknown(without, &good, SL_UNKNOWN_STRAND);
        sl_intake form = good;
        form.showed.observation[0].minute = 5.0; /* not what was counted */
        stays_unknown(with, &form, SL_UNKNOWN_STRAND);
        form = good;
        form.showed.observation[form.showed.n++] = form.showed.observation[0];
        form.showed.observation[1].minute = 9.0; /* one more, not counted */
        stays_unknown(with, &form, SL_UNKNOWN_STRAND);
        form = good;
        form.showed.observation[0].arm = ARM_3; /* another arm's mix */
        stays_unknown(with, &form, SL_UNKNOWN_STRAND);
        const sl_answer other = answer_for(with, &good, ARM_3);
        holds_no_minute(&other);
        stays_unknown(with, NULL, SL_UNKNOWN_PERSON);
        stays_unknown(without, NULL, SL_UNKNOWN_PERSON);
        sl_spread_free(with);
        sl_spread_free(without);
    }
}
END_TEST

START_TEST(a_strand_that_was_only_looked_at_on_the_head_is_no_strand)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    sl_observations observations = {1, {showed()}};
    observations.observation[0].strand = false;
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .members = 640, .seed = 5, .threads = 1, .observations = &observations};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    const sl_intake good = clear_form();
    stays_unknown(spread, &good, SL_UNKNOWN_STRAND);
    sl_spread_free(spread);
}
END_TEST

START_TEST(the_label_of_the_form_caps_every_minute_and_the_odds)
{
    for (int place = 0; place < 2; place++) {
        fresh();
        small.scene.place = places[place];
        sl_spread *const spread = spread_of_strand();
        sl_intake form = clear_form();
        double before = 0.0;
        for (form.label_min = 4.0; form.label_min < 60.0; form.label_min += 4.0) {
            const sl_answer answer = answer_for(spread, &form, ARM_6);
            ck_assert(answer.minutes);
            ck_assert(answer.late.p10 >= 0.0 && answer.late.p90 <= form.label_min);
            ck_assert(answer.odds >= before);
            ck_assert(answer.odds_95.low <= answer.odds && answer.odds_95.high >= answer.odds);
            before = answer.odds;
            for (int i = 0; i < answer.n_checks; i++) {
                ck_assert_double_le(answer.check[i], form.label_min);
            }
            for (int i = 0; i < answer.n_looks; i++) {
                ck_assert_double_le(answer.look[i], form.label_min);
            }
        }
        ck_assert_double_gt(before, 0.0);
        sl_spread_free(spread);
    }
}
END_TEST

START_TEST(a_mix_older_than_the_label_s_time_leaves_no_minute_to_check)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    small.arms[ARM_6].steps[0].mix_age_min = 25.0; /* the form says 20 */
    sl_spread *const spread = spread_of_strand();
    const sl_intake form = clear_form();
    const sl_answer answer = answer_for(spread, &form, ARM_6);
    ck_assert_int_eq(answer.n_checks + answer.n_looks, 0);
    ck_assert_double_eq(answer.odds, 0.0);
    ck_assert_double_eq(answer.late.p90, 0.0);
    ck_assert_int_eq(answer.verdict, SL_VERDICT_LATE);
    sl_spread_free(spread);
}
END_TEST

static void is_in_time(double minute, double last_min)
{
    ck_assert_msg(minute <= last_min, "%g after %g", minute, last_min);
}

/* Both sides of every range: goal, stop, checks and looks, by the label and by the strand's watch. */
START_TEST(no_minute_of_any_range_comes_after_the_label_or_after_the_strand_was_watched)
{
    for (int by_strand = 0; by_strand < 2; by_strand++) {
        fresh();
        small.scene.place = SL_PLACE_HEAD;
        small.arms[ARM_6].steps[0].mix_age_min = 3.0;
        sl_spread *const spread = spread_of_strand();
        bool goal_was_cut = false;
        for (double last = 4.0; last < 30.0; last += 1.5) {
            sl_intake form = clear_form();
            form.label_min = by_strand ? 60.0 : last + 3.0; /* from mixing */
            const sl_person person = person_of(&form, ARM_6, by_strand ? last : 60.0);
            const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, &person);
            ck_assert(answer.minutes);
            is_in_time(fmax(fmax(answer.early.p10, answer.early.p50), answer.early.p90), last);
            is_in_time(fmax(fmax(answer.late.p10, answer.late.p50), answer.late.p90), last);
            is_in_time(answer.n_checks > 0 ? answer.check[answer.n_checks - 1] : 0.0, last);
            is_in_time(answer.n_looks > 0 ? answer.look[answer.n_looks - 1] : 0.0, last);
            ck_assert(answer.late.p10 >= 0.0);
            goal_was_cut = goal_was_cut || answer.cut;
            ck_assert(last > 5.0 || answer.stop == (by_strand ? SL_STOP_STRAND : SL_STOP_LABEL));
        }
        ck_assert(goal_was_cut);
        sl_spread_free(spread);
    }
}
END_TEST

/* The label of mix file, option and form, whichever ends first. */
START_TEST(a_later_label_never_undoes_an_earlier_one)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_max_min = 5.0;
    small.mixes[MIX_POWDER_6].label_told_min = 60.0;
    sl_spread *const spread = spread_of(1);
    const sl_answer answer = sl_answer_of(&small.scene, spread, ARM_6, NULL);
    ck_assert_int_eq(answer.stop, SL_STOP_LABEL);
    ck_assert_double_eq(answer.leave.label.end_min, 5.0);
    ck_assert_double_le(answer.late.p90, 5.0);
    sl_spread_free(spread);
}
END_TEST

/* An arm that begins ten minutes later in a room that stays as it is: every minute from contact is the same.
 * A mix that dies away, open or covered, so that there is something to be found of everything. */
static void begins_later(bool covered)
{
    sl_limits limits[2];
    sl_spread *spread[2] = {NULL, NULL};
    for (int i = 0; i < 2; i++) {
        fresh();
        small.arms[ARM_MILD].undyed = false;
        small.mixes[MIX_MILD].loss_per_min.value = 0.3;
        small.mixes[MIX_MILD].label_max_min = 29.0;
        small.arms[ARM_MILD].steps[0].covered = covered;
        small.scene.chemistry.dry_per_min.value = 0.2;
        small.scene.aims.colour_left = 0.9;
        small.scene.aims.base_moved.most = 0.001;
        small.scene.aims.cystine_lost.most = 0.004;
        small.scene.chemistry.cystine = rates_of(20.0, 0.0, 0.0);
        for (int dye = 0; dye < SMALL_DYES; dye++) {
            small.dyes[dye].leach_per_min.value = 0.0;
            small.dyes[dye].rates = rates_of(50.0, 0.0, 0.0);
        }
        small.arms[ARM_MILD].contact_min += 10.0 * i;
        small.scene.until_min += 10.0 * i;
        sl_timeline *timeline = NULL;
        sl_solver *const solver = sl_solver_new(NULL);
        ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
        ck_assert(sl_limits_prepare(timeline, solver, NULL));
        limits[i] = sl_limits_of(timeline, ARM_MILD, NULL);
        sl_timeline_free(timeline);
        sl_solver_free(solver);
        const sl_spread_request request = {.members = 64, .seed = 5, .threads = 1};
        ck_assert(sl_spread_run(&spread[i], &small.scene, &request, NULL));
    }
    const double second = 1.0 / 60.0;
    for (int i = 0; i < 2; i++) {
        ck_assert(limits[i].asked && limits[i].early_reached);
        ck_assert_int_eq(limits[i].dried, !covered);
        ck_assert(limits[i].spent);
    }
    ck_assert_double_gt(covered ? limits[0].spent_min : limits[0].dried_min, 1.0);
    ck_assert_double_eq_tol(limits[0].early_min, limits[1].early_min, second);
    ck_assert_double_eq_tol(limits[0].spent_min, limits[1].spent_min, second);
    ck_assert_double_eq_tol(limits[0].dried_min, limits[1].dried_min, second);
    ck_assert_double_eq_tol(limits[0].left_at_stop, limits[1].left_at_stop, 1e-4);
    ck_assert_double_eq_tol(limits[0].left_at_end, limits[1].left_at_end, 1e-6);
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert_int_eq(limits[0].stop_reached[s], limits[1].stop_reached[s]);
        ck_assert_int_eq(limits[0].stop_zone[s], limits[1].stop_zone[s]);
        ck_assert_double_eq_tol(limits[0].stop_min[s], limits[1].stop_min[s], second);
    }
    ck_assert(limits[0].stop_reached[SL_STOP_STRESS] || limits[0].stop_reached[SL_STOP_BASE]);
    const sl_arm_spread *const now = sl_spread_arm(spread[0], ARM_MILD), *const later = sl_spread_arm(
                                                                             spread[1], ARM_MILD);
    ck_assert_int_eq(spread[1]->seconds, spread[0]->seconds + 600);
    ck_assert_int_eq(now->open, later->open);
    ck_assert_int_gt(now->open, 0);
    for (int q = 1; q < 10; q++) { /* each tenth of the members, in both: "never" too */
        ck_assert_double_eq_tol(sl_spread_quantile(now->early, spread[0]->seconds, 64, 0.1 * q),
                                sl_spread_quantile(later->early, spread[1]->seconds, 64, 0.1 * q), second);
        ck_assert_double_eq_tol(sl_spread_quantile(now->late, spread[0]->seconds, 64, 0.1 * q),
                                sl_spread_quantile(later->late, spread[1]->seconds, 64, 0.1 * q), second);
    }
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert_int_eq(now->late_by[s], later->late_by[s]);
    }
    sl_spread_free(spread[0]);
    sl_spread_free(spread[1]);
}

START_TEST(an_arm_that_begins_later_has_the_same_limits_from_its_contact)
{
    begins_later(true);
    begins_later(false);
}
END_TEST

/* Odds at exactly the lines between the words. */
START_TEST(the_words_begin_exactly_at_their_odds)
{
    const sl_three early = {9.0, 13.0, 19.0}, after = {20.0, 30.0, 30.0}, same = {19.0, 30.0, 30.0};
    ck_assert_int_eq(sl_verdict_of(0.9, early, after), SL_VERDICT_ROOMY);
    ck_assert_int_eq(sl_verdict_of(0.9, early, same), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(0.75, early, after), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(nextafter(0.9, 0.0), early, after), SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(nextafter(0.75, 0.0), early, after), SL_VERDICT_DOUBTFUL);
    ck_assert_int_eq(sl_verdict_of(nextafter(0.25, 0.0), early, after), SL_VERDICT_LATE);
    ck_assert_int_eq(sl_verdict_of(0.0, early, after), SL_VERDICT_LATE);
    ck_assert_int_eq(sl_verdict_of(1.0, (sl_three){0.0, 0.0, 0.0}, (sl_three){0.0, 1.0, 1.0}),
                     SL_VERDICT_TIGHT);
    ck_assert_int_eq(sl_verdict_of(1.0, (sl_three){0.0, 0.0, 0.0}, (sl_three){1.0, 1.0, 1.0}),
                     SL_VERDICT_ROOMY);
}
END_TEST

/* What is not found leaves nothing behind that could be taken for a minute. */
START_TEST(what_is_not_found_has_no_minute)
{
    fresh();
    small.scene.aims = (sl_aims){.colour_left = 1e-6}; /* never, and no limit but the scene's end */
    const sl_limits never = limits_of(ARM_6);
    ck_assert(never.asked && !never.early_reached && !never.dried);
    ck_assert_double_eq(never.early_min, 0.0);
    ck_assert_double_eq(never.dried_min, 0.0);
    ck_assert(never.spent || never.spent_min <= 0.0);
    ck_assert_int_eq(never.stop, SL_STOP_END);
    ck_assert_double_eq(never.stop_min[SL_STOP_END], 60.0);
    ck_assert_int_eq(never.stop_zone[SL_STOP_END], -1);
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert_int_eq(never.stop_reached[s], s == SL_STOP_END);
    }
    const sl_limits none = limits_of(ARM_UNTREATED);
    ck_assert(!none.asked && !none.early_reached && !none.spent && !none.dried);
    ck_assert_int_eq(none.early_zone, -1);
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert(!none.stop_reached[s] && none.stop_min[s] <= 0.0);
    }
    sl_spread *const spread = spread_of(1);
    const sl_answer untold = sl_answer_of(&small.scene, spread, ARM_UNTREATED, NULL);
    ck_assert(!untold.minutes && !untold.cut && untold.n_checks == 0 && untold.n_looks == 0);
    const double minutes[] = {untold.early.p10, untold.early.p50,   untold.early.p90,
                              untold.late.p10,  untold.late.p50,    untold.late.p90,
                              untold.odds,      untold.odds_95.low, untold.odds_95.high};
    for (size_t i = 0; i < sizeof minutes / sizeof minutes[0]; i++) {
        ck_assert_double_eq(minutes[i], -1.0);
    }
    ck_assert_int_eq(untold.measure, -1);
    ck_assert_int_eq(untold.unexpected, -1);
    ck_assert_int_eq(untold.stop, SL_STOP_END);
    ck_assert(untold.seen_min <= 0.0 && untold.dots == 0);
    sl_spread_free(spread);
}
END_TEST

START_SUITE("limits")
ADD(the_label_counts_from_mixing_unless_it_says_from_application)
ADD(the_first_stop_binds_and_each_is_named)
ADD(a_limit_of_nothing_stops_at_once)
ADD(members_stop_at_the_label_too)
ADD(an_open_mix_dries_and_a_covered_one_does_not)
ADD(no_check_comes_after_the_mix_is_off)
ADD(a_surprise_and_what_is_at_odds_begin_where_the_docs_say)
ADD(five_words_follow_the_odds)
ADD(checks_are_whole_minutes_that_end_with_the_limit)
ADD(no_check_is_later_than_the_label)
ADD(skin_heat_and_stretch_are_looked_at_whatever_the_colour_does)
ADD(the_answer_counts_what_the_members_say)
ADD(a_person_gets_no_minute_while_anything_stops_or_is_missing)
ADD(a_strand_counts_only_when_it_has_weighed_the_members_of_this_arm)
ADD(a_strand_that_was_only_looked_at_on_the_head_is_no_strand)
ADD(the_label_of_the_form_caps_every_minute_and_the_odds)
ADD(a_mix_older_than_the_label_s_time_leaves_no_minute_to_check)
ADD(no_minute_of_any_range_comes_after_the_label_or_after_the_strand_was_watched)
ADD(a_later_label_never_undoes_an_earlier_one)
ADD(an_arm_that_begins_later_has_the_same_limits_from_its_contact)
ADD(the_words_begin_exactly_at_their_odds)
ADD(what_is_not_found_has_no_minute)
END_SUITE
