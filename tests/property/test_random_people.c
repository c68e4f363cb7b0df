/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random forms, strands, ensembles and places, most of them nearly in order: minutes come out
 * exactly when every condition holds, restated here from docs/science.md, and then no minute is
 * later than the label's time or earlier than what was seen.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/answer.h"
#include "slowlift/spread.h"
#include "slowlift/strand.h"
#include "unit/small_scene.h"
#include "unit/suite.h"

enum { ENSEMBLES = 24, TRIALS = 4000, MEMBERS = 192, TODAY = 20786 };
static const uint64_t MIX = 77;

static long draws;
static double uniform(void)
{
    return sl_draw(77, draws++, 3);
}
static int below(int n)
{
    return (int)(uniform() * n);
}
static bool rarely(void)
{
    return uniform() < 0.04;
}

static sl_observation random_saw(void)
{
    static const int zones[] = {ZONE_RED, ZONE_VIOLET, ZONE_MIXED, SL_OBSERVED_ALL_ZONES};
    static const int arms[] = {ARM_6, ARM_6, ARM_3};
    /* minutes and grades that most of this scene's members agree with */
    return (sl_observation){.arm = arms[below(3)],
                            .zone = zones[below(4)],
                            .minute = 4.0 + below(3),
                            .wipe = rarely() ? SL_WIPE_UNDYED : SL_WIPE_SLIGHT,
                            .strand = uniform() < 0.7};
}

static sl_observations random_saws(void)
{
    sl_observations observations = {.n = below(4)};
    for (int i = 0; i < observations.n; i++) {
        observations.observation[i] = random_saw();
    }
    return observations;
}

static const sl_reply clear_reply[SL_INTAKE_REPLIES] = {
    [SL_INTAKE_REACTED] = SL_REPLY_NO,      [SL_INTAKE_ASTHMA] = SL_REPLY_NO,
    [SL_INTAKE_SULFITE] = SL_REPLY_NO,      [SL_INTAKE_DOCTOR] = SL_REPLY_NO,
    [SL_INTAKE_ALERT] = SL_REPLY_YES,       [SL_INTAKE_SCALP] = SL_REPLY_NO,
    [SL_INTAKE_METALLIC] = SL_REPLY_NO,     [SL_INTAKE_HENNA] = SL_REPLY_NO,
    [SL_INTAKE_UNKNOWN_PAST] = SL_REPLY_NO, [SL_INTAKE_TREATED] = SL_REPLY_NO,
    [SL_INTAKE_LIQUIDS] = SL_REPLY_YES,     [SL_INTAKE_HEAT] = SL_REPLY_NO,
    [SL_INTAKE_DOER] = SL_REPLY_NO,         [SL_INTAKE_STRAND] = SL_REPLY_YES,
    [SL_INTAKE_SINCE] = SL_REPLY_NO};

/* The strand as it was counted, or nearly. */
static sl_observations strand_of(const sl_observations *counted)
{
    sl_observations showed = {0};
    for (int i = 0; i < counted->n; i++) {
        if (counted->observation[i].strand && !rarely()) {
            showed.observation[showed.n] = counted->observation[i];
            showed.observation[showed.n].minute += rarely() ? 1.0 : 0.0;
            showed.observation[showed.n++].strand = !rarely(); /* taken to be true */
        }
    }
    if (rarely()) {
        showed.observation[showed.n++] = random_saw();
    }
    return showed;
}

static sl_intake random_form(const sl_observations *counted)
{
    sl_intake form = {.age_years = rarely() ? below(18) : 18 + below(60),
                      .label_min = rarely() ? 0.0 : 5.0 + below(40),
                      .lightened = rarely() ? (sl_reply)below(SL_REPLIES) : SL_REPLY_NO,
                      .showed = strand_of(counted)};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        form.reply[q] = uniform() < 0.01 ? (sl_reply)below(SL_REPLIES) : clear_reply[q];
    }
    snprintf(form.person, sizeof form.person, "%s", rarely() ? "" : "K12");
    snprintf(form.qualified, sizeof form.qualified, "%s", rarely() ? "" : "op-1");
    form.part = rarely() ? (sl_hair_part)below(SL_HAIR_PARTS) : SL_HAIR_AT_BACK;
    form.packet_day = rarely() ? 0 : TODAY - 20 + below(6);
    form.practice = uniform() < 0.02;
    return form;
}

/* A strand of a log that counts, or nearly; it was watched for 4 to 33 min. */
static sl_strand_record random_record(void)
{
    const double last = 4.0 + below(30);
    sl_strand_record record = {.part = rarely() ? (sl_hair_part)below(SL_HAIR_PARTS) : SL_HAIR_AT_BACK,
                               .cut = !rarely(),
                               .packet_day = rarely() ? 0 : TODAY - 16 + below(2),
                               .day = rarely() ? TODAY - 30 + below(40) : TODAY - below(12),
                               .made_up = rarely(),
                               .rehearsed = rarely(),
                               .mix = rarely() ? MIX + 1 : MIX,
                               .lay_min = rarely() ? -1.0 : last,
                               .washed = !rarely(),
                               .graded = !rarely(),
                               .stretched = !rarely(),
                               .felt = !rarely(),
                               .bad = rarely(),
                               .heated = rarely(),
                               .showed = {.n = rarely() ? below(2) : 2}};
    snprintf(record.person, sizeof record.person, "%s", rarely() ? "K13" : "K12");
    record.showed.observation[0].minute = rarely() ? last : last - 2.0;
    record.showed.observation[1].minute = last;
    return record;
}

/* ---- the conditions, restated ----------------------------------------------------------------- */

static bool same_strand(const sl_observation *one, const sl_observation *two)
{
    return one->arm == two->arm && one->zone == two->zone && one->wipe == two->wipe &&
           !(one->minute < two->minute || one->minute > two->minute);
}

static int count_of(const sl_observations *observations, const sl_observation *observation,
                    bool strands_alone)
{
    int n = 0;
    for (int i = 0; i < observations->n; i++) {
        n += same_strand(&observations->observation[i], observation) &&
                     (observations->observation[i].strand || !strands_alone)
                 ? 1
                 : 0;
    }
    return n;
}

static bool form_is_clear(const sl_intake *form)
{
    bool clear = form->age_years >= 18 && form->label_min > 0.0 && form->person[0] && form->qualified[0] &&
                 form->part != SL_HAIR_NOWHERE && form->packet_day > 0 &&
                 (form->lightened == SL_REPLY_NO || form->lightened == SL_REPLY_YES);
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        clear = clear && form->reply[q] == clear_reply[q];
    }
    for (int i = 0; i < form->showed.n; i++) {
        clear = clear && form->showed.observation[i].minute <= form->label_min;
    }
    return clear;
}

static bool strand_is_counted(const sl_intake *form, const sl_observations *counted, int arm)
{
    bool all = true;
    bool of_arm = false;
    for (int i = 0; i < form->showed.n; i++) {
        all = all && count_of(counted, &form->showed.observation[i], true) > 0;
        of_arm = of_arm || form->showed.observation[i].arm == arm;
    }
    for (int i = 0; i < counted->n; i++) {
        all = all && (!counted->observation[i].strand ||
                      count_of(&form->showed, &counted->observation[i], false) > 0);
    }
    return all && of_arm;
}

/* Every condition of a counted strand, one after the other. */
static bool record_counts(const sl_strand_record *r, const sl_intake *form)
{
    const bool two = r->showed.n == 2 && r->showed.observation[0].minute < r->showed.observation[1].minute;
    const bool own = strcmp(r->person, form->person) == 0 && r->mix == MIX && r->part == form->part && r->cut;
    const bool fresh = r->packet_day >= form->packet_day && r->packet_day > 0 && r->packet_day <= r->day;
    const bool young = r->day > 0 && r->day <= TODAY && TODAY - r->day <= 14;
    const bool seen = two && r->lay_min > 0.0 && r->washed && r->graded && r->stretched && r->felt;
    return own && fresh && young && seen && !r->bad && !r->heated && !r->made_up && !r->rehearsed;
}

static bool members_have_something_to_say(const sl_spread *spread)
{
    double together = 1.0;
    for (int i = 0; i < spread->seen.observations.n; i++) {
        const double share = (double)spread->seen.agree[i] / (double)spread->members;
        if (share < 0.02) {
            return false;
        }
        together *= share;
    }
    const bool odd = spread->seen.observations.n > 1 &&
                     (double)spread->seen.agree_all < 0.1 * together * (double)spread->members;
    return !odd && sl_spread_effective(spread) >= 100.0;
}

/* ---- trials --------------------------------------------------------------------------------------- */

/* None after the label or after the last graded look. */
static void minutes_are_in_order(const sl_answer *answer, double last_min)
{
    ck_assert(answer->late.p10 >= 0.0 && answer->late.p90 <= last_min);
    for (int i = 0; i < answer->n_checks; i++) {
        ck_assert(answer->check[i] > answer->seen_min && answer->check[i] <= last_min);
    }
    for (int i = 0; i < answer->n_looks; i++) {
        ck_assert(answer->look[i] > answer->seen_min && answer->look[i] <= last_min);
    }
    ck_assert(answer->odds_95.low <= answer->odds && answer->odds <= answer->odds_95.high);
    ck_assert(answer->verdict != SL_VERDICT_UNKNOWN && answer->unknown == SL_UNKNOWN_NOTHING);
}

static void nothing_is_said(const sl_answer *answer)
{
    ck_assert(answer->verdict == SL_VERDICT_UNKNOWN && answer->unknown != SL_UNKNOWN_NOTHING);
    ck_assert(answer->n_checks == 0 && answer->n_looks == 0 && answer->dots == 0);
    ck_assert(answer->odds < 0.0 && answer->odds_95.high < 0.0 && answer->seen_min <= 0.0);
    ck_assert(answer->early.p10 < 0.0 && answer->early.p50 < 0.0 && answer->early.p90 < 0.0);
    ck_assert(answer->late.p10 < 0.0 && answer->late.p50 < 0.0 && answer->late.p90 < 0.0);
}

START_TEST(a_person_has_minutes_exactly_when_every_condition_holds)
{
    static const sl_place places[] = {SL_PLACE_HEAD, SL_PLACE_WRAPPED};
    static small_scene small;
    long with_minutes = 0;
    for (int e = 0; e < ENSEMBLES; e++) {
        small_scene_fill(&small);
        small.scene.aims = (sl_aims){.colour_left = 0.5,
                                     .base_moved = {0.3, true},
                                     .cystine_lost = {0.12, true},
                                     .longest_min = {45.0, true}};
        small.scene.place = places[below(2)];
        const sl_observations observations = random_saws();
        const sl_spread_request request = {
            .members = MEMBERS, .seed = (uint64_t)e, .threads = 1, .observations = &observations};
        sl_spread *spread = NULL;
        ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
        for (int trial = 0; trial < TRIALS; trial++) {
            const sl_intake form = random_form(&observations);
            const int arm = below(2) == 0 ? ARM_6 : ARM_3;
            const sl_strand_record record = random_record();
            const bool should = form_is_clear(&form) && !form.practice && record_counts(&record, &form) &&
                                strand_is_counted(&form, &observations, arm) &&
                                members_have_something_to_say(spread);
            sl_person person = {.form = &form};
            person.strand[arm] = sl_strand_judge(&record, &form, MIX, TODAY);
            const sl_answer answer = sl_answer_of(&small.scene, spread, arm, &person);
            if (answer.minutes != should) {
                ck_abort_msg("ensemble %d, trial %d: minutes %d, should be %d", e, trial, answer.minutes,
                             should);
            }
            if (should) {
                minutes_are_in_order(&answer, fmin(form.label_min, record.showed.observation[1].minute));
                with_minutes++;
            } else {
                nothing_is_said(&answer);
            }
        }
        sl_spread_free(spread);
    }
    ck_assert_int_gt(with_minutes, TRIALS / 4); /* both sides were met */
    ck_assert_int_lt(with_minutes, (long)ENSEMBLES * TRIALS / 2);
}
END_TEST

START_SUITE("random people")
ADD(a_person_has_minutes_exactly_when_every_condition_holds)
END_SUITE
