/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/intake.h"

#include <math.h>
#include <string.h>

#include "suite.h"

/* Nothing stops and nothing is missing. */
static sl_intake clear(void)
{
    return (sl_intake){.age_years = 30,
                       .label_min = 30.0,
                       .lightened = SL_REPLY_YES,
                       .showed = {1, {{.zone = 1, .minute = 8.0, .wipe = SL_WIPE_HALF, .strand = true}}},
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
    form.showed.saw[0].minute = 31.0; /* the label ends at 30 */
    is_stopped_alone(&form, SL_INTAKE_SHOWED);
    form = good;
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

START_TEST(a_strand_without_a_grade_at_a_minute_inside_the_label_s_time_is_no_strand)
{
    sl_intake form = clear();
    form.showed.n = 0;
    ck_assert(sl_intake_judge(&form).missing[SL_INTAKE_SHOWED] && !sl_intake_judge(&form).minutes);
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

/* All 4^9 replies, four ages, two labels: two million forms; each with what a strand showed not
 * entered, entered, and entered later than the label's time. Only those that are clear allow
 * minutes: lightened yes or no, two ages that will do, one label, one entry. */
START_TEST(no_form_without_label_and_strand_allows_minutes)
{
    static const int ages[] = {0, 14, 18, 64};
    static const int entries[] = {0, 1, 1};
    static const double minutes_seen[] = {0.0, 12.0, 45.0};
    const sl_intake good = clear();
    long allowed = 0;
    long tried = 0;
    sl_intake form = good;
    for (long code = 0; code < 1L << (2 * (SL_INTAKE_REPLIES + 1)); code++) {
        form.lightened = (sl_reply)((code >> (2 * SL_INTAKE_REPLIES)) & 3);
        bool all_good = form.lightened == SL_REPLY_NO || form.lightened == SL_REPLY_YES;
        for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
            form.reply[q] = (sl_reply)((code >> (2 * q)) & 3);
            all_good = all_good && form.reply[q] == good.reply[q];
        }
        for (int rest = 0; rest < 24; rest++) {
            form.age_years = ages[rest % 4];
            form.label_min = rest % 8 < 4 ? 0.0 : 30.0;
            form.showed.n = entries[rest / 8];
            form.showed.saw[0].minute = minutes_seen[rest / 8];
            const bool minutes = sl_intake_judge(&form).minutes;
            const bool should = all_good && form.age_years >= 18 && rest % 8 >= 4 && rest / 8 == 1;
            if (minutes != should) { /* a macro a form would take minutes */
                ck_abort_msg("form %ld, rest %d", code, rest);
            }
            allowed += minutes ? 1 : 0;
            tried++;
        }
    }
    ck_assert_int_eq(tried, 3 * 2097152L);
    ck_assert_int_eq(allowed, 4);
}
END_TEST

START_SUITE("intake")
ADD(a_form_that_is_clear_allows_minutes)
ADD(an_empty_form_misses_everything)
ADD(every_stop_answer_stops_by_itself_and_says_what_comes_first)
ADD(a_strand_without_a_grade_at_a_minute_inside_the_label_s_time_is_no_strand)
ADD(what_is_not_a_time_is_a_missing_label)
ADD(no_form_without_label_and_strand_allows_minutes)
END_SUITE
