/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/intake.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

/* Nothing stops and nothing is missing; something was typed of a strand. */
static sl_intake clear(void)
{
    sl_intake form = small_clear_form();
    form.showed = (sl_saws){1, {{.zone = 1, .minute = 8.0, .wipe = SL_WIPE_HALF, .strand = true}}};
    return form;
}

START_TEST(a_form_that_is_clear_allows_minutes)
{
    const sl_intake form = clear();
    const sl_intake_result result = sl_intake_judge(&form);
    ck_assert(result.minutes);
    ck_assert_int_eq(result.n_stopped, 0);
    ck_assert_int_eq(result.n_missing, 0);
}
END_TEST

START_TEST(an_empty_form_misses_everything)
{
    const sl_intake form = {0};
    const sl_intake_result result = sl_intake_judge(&form);
    ck_assert(!result.minutes);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) { /* nobody has to type what a strand showed */
        ck_assert_int_eq(result.missing[asked], asked != SL_INTAKE_SHOWED);
    }
    ck_assert_int_eq(result.n_stopped, 0);
}
END_TEST

/* What the gate has to ask; held apart from the table. */
START_TEST(the_form_asks_what_can_hurt)
{
    static const struct {
        const char *key;
        sl_reply pass;
    } rows[] = {{"reacted", SL_REPLY_NO},       {"asthma", SL_REPLY_NO},   {"sulfite", SL_REPLY_NO},
                {"doctor", SL_REPLY_NO},        {"scalp", SL_REPLY_NO},    {"metallic", SL_REPLY_NO},
                {"henna", SL_REPLY_NO},         {"treated", SL_REPLY_NO},  {"unknown_past", SL_REPLY_NO},
                {"heat", SL_REPLY_NO},          {"liquids", SL_REPLY_YES}, {"doer_reacted", SL_REPLY_NO},
                {"allergy_test", SL_REPLY_YES}, {"strand", SL_REPLY_YES},  {"since_strand", SL_REPLY_NO}};
    int found = 0;
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
            if (strcmp(sl_intake_key(q), rows[i].key) == 0) {
                found++;
                ck_assert_int_eq(sl_intake_pass(q), rows[i].pass);
            }
        }
    }
    ck_assert_int_eq(found, (int)(sizeof rows / sizeof rows[0]));
    ck_assert_int_eq(found, SL_INTAKE_REPLIES);
    ck_assert_str_eq(sl_intake_key(SL_INTAKE_QUALIFIED), "qualified");
    ck_assert_str_eq(sl_intake_first(SL_INTAKE_DOCTOR), "ask a doctor first");
}
END_TEST

static void is_stopped_alone(const sl_intake *form, int asked)
{
    const sl_intake_result result = sl_intake_judge(form);
    ck_assert(!result.minutes);
    ck_assert(result.stopped[asked]);
    ck_assert_int_eq(result.n_stopped, 1);
    ck_assert_int_eq(result.n_missing, 0);
}

START_TEST(every_stop_answer_stops_by_itself_and_says_what_comes_first)
{
    const sl_intake good = clear();
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        sl_intake form = good;
        form.reply[q] = good.reply[q] == SL_REPLY_YES ? SL_REPLY_NO : SL_REPLY_YES;
        is_stopped_alone(&form, q);
        form.reply[q] = SL_REPLY_UNSURE;
        is_stopped_alone(&form, q);
    }
    sl_intake form = good;
    form.showed.saw[0].minute = 31.0; /* the label ends at 30 */
    is_stopped_alone(&form, SL_INTAKE_SHOWED);
    form = good;
    form.age_years = SL_INTAKE_LEAST_AGE - 1;
    is_stopped_alone(&form, SL_INTAKE_AGE);
    form = good;
    form.lightened = SL_REPLY_UNSURE;
    is_stopped_alone(&form, SL_INTAKE_LIGHTENED);
    form = good;
    snprintf(form.person, sizeof form.person, "Ada L");
    is_stopped_alone(&form, SL_INTAKE_PERSON);
    form = good;
    snprintf(form.qualified, sizeof form.qualified, "the boss");
    is_stopped_alone(&form, SL_INTAKE_QUALIFIED);
    form = good;
    form.part = SL_HAIR_PARTS;
    is_stopped_alone(&form, SL_INTAKE_PART);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        ck_assert_uint_gt(strlen(sl_intake_words(asked)), 8);
        ck_assert_uint_gt(strlen(sl_intake_first(asked)), 15);
        ck_assert_uint_gt(strlen(sl_intake_caution(asked)), 2);
    }
}
END_TEST

START_TEST(what_is_typed_of_a_strand_is_inside_the_label_s_time_or_stops)
{
    sl_intake form = clear();
    form.showed.n = 0;
    ck_assert(sl_intake_judge(&form).minutes); /* the strand itself is read from a log */
    form.showed.n = -3;
    ck_assert(!sl_intake_judge(&form).minutes);
    form.showed.n = SL_MOST_SAWS + 1;
    ck_assert(!sl_intake_judge(&form).minutes);
    const sl_saw good = clear().showed.saw[0];
    const double minutes[] = {0.0, -1.0, 30.001, HUGE_VAL, log(-1.0)};
    for (int i = 0; i < 5; i++) {
        form = clear();
        form.showed.n = 2; /* one good entry does not help a bad one */
        form.showed.saw[1] = good;
        form.showed.saw[1].minute = minutes[i];
        ck_assert(sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED] && !sl_intake_judge(&form).minutes);
    }
    form = clear();
    form.showed.saw[0].wipe = SL_WIPES;
    ck_assert(!sl_intake_judge(&form).minutes);
    form = clear();
    form.showed.saw[0].arm = -1;
    ck_assert(!sl_intake_judge(&form).minutes);
}
END_TEST

START_TEST(what_is_not_a_time_is_a_missing_label)
{
    const double labels[] = {0.0, -5.0, 241.0, HUGE_VAL, log(-1.0)};
    for (int i = 0; i < 5; i++) {
        sl_intake form = clear();
        form.label_min = labels[i];
        const sl_intake_result result = sl_intake_judge(&form);
        ck_assert(result.missing[SL_INTAKE_LABEL] && !result.minutes);
    }
}
END_TEST

/* Every row answered wrongly or not at all, alone and with every other row: each pair of wrong answers
 * stops as two, and no form but the clear one allows minutes. */
enum { WAYS = 4 };
static bool spoil(sl_intake *form, int asked, int way)
{
    static const int ages[WAYS] = {0, 1, 17, -4};
    static const double labels[WAYS] = {0.0, -1.0, 240.5, HUGE_VAL};
    static const char *const codes[WAYS] = {"", "Ada L", " ", "K/12"};
    static const sl_hair_part parts[WAYS] = {SL_HAIR_NOWHERE, SL_HAIR_PARTS, SL_HAIR_NOWHERE, SL_HAIR_PARTS};
    static const double seen[WAYS] = {0.0, 31.0, -2.0, HUGE_VAL};
    const sl_reply reply = (sl_reply)way;
    switch (sl_intake_ask_of(asked)) {
    case SL_ASK_REPLY:
        form->reply[asked] = reply;
        return reply != sl_intake_pass(asked);
    case SL_ASK_EITHER:
        form->lightened = reply;
        return reply == SL_REPLY_NONE || reply == SL_REPLY_UNSURE;
    case SL_ASK_YEARS:
        form->age_years = ages[way];
        return true;
    case SL_ASK_MINUTES:
        form->label_min = labels[way];
        return true;
    case SL_ASK_CODE:
        snprintf(asked == SL_INTAKE_PERSON ? form->person : form->qualified, SL_CODE, "%s", codes[way]);
        return true;
    case SL_ASK_PART:
        form->part = parts[way];
        return true;
    case SL_ASK_DAY:
        form->packet_day = -way;
        return true;
    case SL_ASK_SHOWED:
        form->showed.saw[0].minute = seen[way];
        return true;
    }
    return false;
}

START_TEST(no_wrong_answer_is_outweighed_by_others)
{
    long allowed = 0;
    for (int a = 0; a < SL_INTAKE_ASKED; a++) {
        for (int b = a; b < SL_INTAKE_ASKED; b++) {
            for (int ways = 0; ways < WAYS * WAYS; ways++) {
                sl_intake form = clear();
                const bool wrong_b = spoil(&form, b, ways % WAYS);
                const bool wrong_a = a != b && spoil(&form, a, ways / WAYS);
                const sl_intake_result result = sl_intake_judge(&form);
                const int wrong = (wrong_a ? 1 : 0) + (wrong_b ? 1 : 0);
                const bool label = form.label_min > 0.0 && form.label_min <= 240.0;
                if (label) { /* without one, what was typed of a strand has nothing to be inside of */
                    ck_assert_int_eq(result.n_stopped + result.n_missing, wrong);
                }
                ck_assert_int_eq(result.minutes, wrong == 0);
                allowed += result.minutes ? 1 : 0;
            }
        }
    }
    ck_assert_int_gt(allowed, 100); /* right answers were among them */
}
END_TEST

START_SUITE("intake")
ADD(a_form_that_is_clear_allows_minutes)
ADD(an_empty_form_misses_everything)
ADD(every_stop_answer_stops_by_itself_and_says_what_comes_first)
ADD(the_form_asks_what_can_hurt)
ADD(what_is_typed_of_a_strand_is_inside_the_label_s_time_or_stops)
ADD(what_is_not_a_time_is_a_missing_label)
ADD(no_wrong_answer_is_outweighed_by_others)
END_SUITE
