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
    form.showed = (sl_observations){1, {{.zone = 1, .minute = 8.0, .wipe = SL_WIPE_HALF, .strand = true}}};
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
    ck_assert_str_eq(sl_intake_first(SL_INTAKE_DOCTOR), "ask a doctor");
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
    form.showed.observation[0].minute = 31.0; /* the label ends at 30 */
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
        ck_assert_uint_gt(strlen(sl_intake_first(asked)), 11);
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
    form.showed.n = SL_MOST_OBSERVATIONS + 1;
    ck_assert(!sl_intake_judge(&form).minutes);
    const sl_observation good = clear().showed.observation[0];
    const double minutes[] = {0.0, -1.0, 30.001, HUGE_VAL, log(-1.0)};
    for (int i = 0; i < 5; i++) {
        form = clear();
        form.showed.n = 2; /* one good entry does not help a bad one */
        form.showed.observation[1] = good;
        form.showed.observation[1].minute = minutes[i];
        ck_assert(sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED] && !sl_intake_judge(&form).minutes);
    }
    form = clear();
    form.showed.observation[0].wipe = SL_WIPES;
    ck_assert(!sl_intake_judge(&form).minutes);
    form = clear();
    form.showed.observation[0].arm = -1;
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
        form->showed.observation[0].minute = seen[way];
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

/* ---- edges --------------------------------------------------------------------------------------------- */

typedef enum what { IS_GOOD, IS_MISSING, IS_STOPPED } what;

static void judged(const sl_intake *form, int asked, what wanted)
{
    const sl_intake_result result = sl_intake_judge(form);
    ck_assert_int_eq(result.missing[asked], wanted == IS_MISSING);
    ck_assert_int_eq(result.stopped[asked], wanted == IS_STOPPED);
    ck_assert_int_eq(result.n_missing, wanted == IS_MISSING ? 1 : 0);
    ck_assert_int_eq(result.n_stopped, wanted == IS_STOPPED ? 1 : 0);
    ck_assert_int_eq(result.minutes, wanted == IS_GOOD);
}

/* Each answer that is a number or a code, at the last value that goes and the first that does not. */
START_TEST(each_answer_is_judged_at_its_very_edge)
{
    const sl_intake clear = small_clear_form();
    static const struct {
        int years;
        what is;
    } ages[] = {{-1, IS_MISSING},
                {0, IS_MISSING},
                {1, IS_STOPPED},
                {SL_INTAKE_LEAST_AGE - 1, IS_STOPPED},
                {SL_INTAKE_LEAST_AGE, IS_GOOD},
                {120, IS_GOOD}};
    for (size_t i = 0; i < sizeof ages / sizeof ages[0]; i++) {
        sl_intake form = clear;
        form.age_years = ages[i].years;
        judged(&form, SL_INTAKE_AGE, ages[i].is);
    }
    const struct {
        double minutes;
        what is;
    } labels[] = {{0.0, IS_MISSING},
                  {1e-9, IS_GOOD},
                  {240.0, IS_GOOD},
                  {nextafter(240.0, 241.0), IS_MISSING},
                  {nan(""), IS_MISSING}};
    for (size_t i = 0; i < sizeof labels / sizeof labels[0]; i++) {
        sl_intake form = clear;
        form.label_min = labels[i].minutes;
        judged(&form, SL_INTAKE_LABEL, labels[i].is);
    }
    static const struct {
        int part;
        what is;
    } parts[] = {{SL_HAIR_NOWHERE, IS_MISSING},
                 {SL_HAIR_NOWHERE + 1, IS_GOOD},
                 {SL_HAIR_PARTS - 1, IS_GOOD},
                 {SL_HAIR_PARTS, IS_STOPPED}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        sl_intake form = clear;
        form.part = (sl_hair_part)parts[i].part;
        judged(&form, SL_INTAKE_PART, parts[i].is);
    }
    for (int day = -1; day <= 1; day++) {
        sl_intake form = clear;
        form.packet_day = day;
        judged(&form, SL_INTAKE_PACKET, day > 0 ? IS_GOOD : IS_MISSING);
    }
    for (int full = 0; full < 2; full++) { /* a code that fills all its bytes has no end */
        sl_intake form = clear;
        memset(form.person, 'a', sizeof form.person);
        form.person[sizeof form.person - 1] = full ? 'a' : '\0';
        judged(&form, SL_INTAKE_PERSON, full ? IS_STOPPED : IS_GOOD);
        form = clear;
        memset(form.qualified, 'a', sizeof form.qualified);
        form.qualified[sizeof form.qualified - 1] = full ? 'a' : '\0';
        judged(&form, SL_INTAKE_QUALIFIED, full ? IS_STOPPED : IS_GOOD);
    }
    for (int reply = SL_REPLY_NONE; reply <= SL_REPLY_UNSURE; reply++) {
        sl_intake form = clear;
        form.lightened = (sl_reply)reply;
        judged(&form, SL_INTAKE_LIGHTENED,
               reply == SL_REPLY_NONE     ? IS_MISSING
               : reply == SL_REPLY_UNSURE ? IS_STOPPED
                                          : IS_GOOD);
    }
}
END_TEST

/* What a strand showed: each entry alone, at its edges; the label here says 30 min. */
START_TEST(what_a_strand_showed_is_good_to_its_very_edges)
{
    static const struct {
        sl_observation observation;
        bool good;
    } cases[] = {{{.arm = 0, .zone = 0, .minute = 30.0, .wipe = SL_WIPE_UNDYED}, true},
                 {{.arm = 0, .zone = 0, .minute = 30.001, .wipe = SL_WIPE_UNDYED}, false},
                 {{.arm = 0, .zone = 0, .minute = 0.001, .wipe = SL_WIPE_UNDYED}, true},
                 {{.arm = 0, .zone = 0, .minute = 0.0, .wipe = SL_WIPE_UNDYED}, false},
                 {{.arm = 0, .zone = 0, .minute = 5.0, .wipe = SL_WIPES}, false},
                 {{.arm = -1, .zone = 0, .minute = 5.0, .wipe = SL_WIPE_HALF}, false},
                 {{.arm = 0, .zone = SL_OBSERVED_ALL_ZONES, .minute = 5.0, .wipe = SL_WIPE_HALF}, true},
                 {{.arm = 0, .zone = SL_OBSERVED_ALL_ZONES - 1, .minute = 5.0, .wipe = SL_WIPE_HALF}, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int last = 0; last < 2; last++) { /* alone, and behind good ones */
            sl_intake form = small_clear_form();
            form.showed.n = last ? SL_MOST_OBSERVATIONS : 1;
            for (int k = 0; k < form.showed.n; k++) {
                form.showed.observation[k] = cases[0].observation;
            }
            form.showed.observation[form.showed.n - 1] = cases[i].observation;
            judged(&form, SL_INTAKE_SHOWED, cases[i].good ? IS_GOOD : IS_STOPPED);
        }
    }
    sl_intake form = small_clear_form();
    form.showed.n = SL_MOST_OBSERVATIONS + 1;
    judged(&form, SL_INTAKE_SHOWED, IS_STOPPED);
    form.showed.n = -1;
    judged(&form, SL_INTAKE_SHOWED, IS_STOPPED);
}
END_TEST

START_TEST(each_part_of_the_hair_has_a_word_that_leads_back_to_it)
{
    for (int part = SL_HAIR_NOWHERE + 1; part < SL_HAIR_PARTS; part++) {
        const char *const word = sl_hair_part_word((sl_hair_part)part);
        ck_assert_ptr_nonnull(word);
        ck_assert_int_eq(sl_hair_part_of_word(word), part);
    }
    ck_assert_ptr_null(sl_hair_part_word(SL_HAIR_NOWHERE));
    ck_assert_ptr_null(sl_hair_part_word(SL_HAIR_PARTS));
    ck_assert_int_eq(sl_hair_part_of_word("elbow"), SL_HAIR_NOWHERE);
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
ADD(each_answer_is_judged_at_its_very_edge)
ADD(what_a_strand_showed_is_good_to_its_very_edges)
ADD(each_part_of_the_hair_has_a_word_that_leads_back_to_it)
END_SUITE
