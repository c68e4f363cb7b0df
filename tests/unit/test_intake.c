/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/intake.h"

#include <string.h>

#include "suite.h"

/* Nothing stops and nothing is missing. */
static sl_intake clear(void)
{
    return (sl_intake){.age_years = 30,
                       .label_min = 30.0,
                       .lightened = SL_REPLY_YES,
                       .reply = {[SL_INTAKE_REACTED] = SL_REPLY_NO,
                                 [SL_INTAKE_SCALP] = SL_REPLY_NO,
                                 [SL_INTAKE_METALLIC] = SL_REPLY_NO,
                                 [SL_INTAKE_HENNA] = SL_REPLY_NO,
                                 [SL_INTAKE_UNKNOWN_PAST] = SL_REPLY_NO,
                                 [SL_INTAKE_LIQUIDS] = SL_REPLY_YES,
                                 [SL_INTAKE_HEAT] = SL_REPLY_NO,
                                 [SL_INTAKE_STRAND] = SL_REPLY_YES}};
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
    ck_assert_int_eq(result.n_missing, SL_INTAKE_ASKED);
    ck_assert_int_eq(result.n_stopped, 0);
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
    form.age_years = SL_INTAKE_LEAST_AGE - 1;
    is_stopped_alone(&form, SL_INTAKE_AGE);
    form = good;
    form.lightened = SL_REPLY_UNSURE;
    is_stopped_alone(&form, SL_INTAKE_LIGHTENED);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        ck_assert_uint_gt(strlen(sl_intake_words(asked)), 8);
        ck_assert_uint_gt(strlen(sl_intake_first(asked)), 20);
        ck_assert_uint_gt(strlen(sl_intake_caution(asked)), 2);
    }
}
END_TEST

START_TEST(what_is_not_a_time_is_a_missing_label)
{
    static const double labels[] = {0.0, -5.0};
    for (int i = 0; i < 2; i++) {
        sl_intake form = clear();
        form.label_min = labels[i];
        const sl_intake_result result = sl_intake_judge(&form);
        ck_assert(result.missing[SL_INTAKE_LABEL] && !result.minutes);
    }
}
END_TEST

/* All 4^9 replies, four ages, two labels: of the two million forms only those that are clear
 * allow minutes: lightened yes or no, two ages that will do, one label. */
START_TEST(no_form_without_label_and_strand_allows_minutes)
{
    static const int ages[] = {0, 14, 18, 64};
    const sl_intake good = clear();
    long allowed = 0;
    for (long code = 0; code < 1L << (2 * (SL_INTAKE_REPLIES + 1)); code++) {
        sl_intake form = {.lightened = (sl_reply)((code >> (2 * SL_INTAKE_REPLIES)) & 3)};
        bool all_good = form.lightened == SL_REPLY_NO || form.lightened == SL_REPLY_YES;
        for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
            form.reply[q] = (sl_reply)((code >> (2 * q)) & 3);
            all_good = all_good && form.reply[q] == good.reply[q];
        }
        for (int rest = 0; rest < 8; rest++) {
            form.age_years = ages[rest % 4];
            form.label_min = rest < 4 ? 0.0 : 30.0;
            const bool minutes = sl_intake_judge(&form).minutes;
            ck_assert(minutes == (all_good && form.age_years >= 18 && rest >= 4));
            ck_assert(!minutes || (form.label_min > 0.0 && form.reply[SL_INTAKE_STRAND] == SL_REPLY_YES));
            allowed += minutes ? 1 : 0;
        }
    }
    ck_assert_int_eq(allowed, 4);
}
END_TEST

START_SUITE("intake")
ADD(a_form_that_is_clear_allows_minutes)
ADD(an_empty_form_misses_everything)
ADD(every_stop_answer_stops_by_itself_and_says_what_comes_first)
ADD(what_is_not_a_time_is_a_missing_label)
ADD(no_form_without_label_and_strand_allows_minutes)
END_SUITE
