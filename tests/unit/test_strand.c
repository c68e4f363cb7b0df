/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strand counts when every condition holds, each stops it alone, and nothing was watched after the last
 * graded look.
 */
#include "slowlift/strand.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

enum { TODAY = 20786 }; /* 2026-11-29 */
static const uint64_t MIX = 77;

/* Tried nine days ago, looked at after 5 and 12 min, rinsed at 20. */
static sl_strand_record good(void)
{
    return (sl_strand_record){
        .test = "4f3a2b1c",
        .code = "EK9",
        .person = "K12",
        .part = SL_HAIR_AT_NAPE,
        .cut = true,
        .packet_day = 20773,
        .day = TODAY - 9,
        .mix = MIX,
        .lay_min = 20.0,
        .washed = true,
        .graded = true,
        .stretched = true,
        .felt = true,
        .showed = {3,
                   {{.zone = ZONE_VIOLET, .minute = 5.0, .wipe = SL_WIPE_SLIGHT, .strand = true},
                    {.zone = ZONE_VIOLET, .minute = 12.0, .wipe = SL_WIPE_HALF, .strand = true},
                    {.zone = ZONE_VIOLET, .minute = 20.0, .wipe = SL_WIPE_HALF, .strand = true}}}};
}

static void stops_alone(const sl_strand_record *record, const sl_intake *form, int today, sl_strand_worth why)
{
    const sl_strand strand = sl_strand_judge(record, form, MIX, today);
    for (int worth = 0; worth < SL_STRAND_WORTHS; worth++) {
        ck_assert_msg(strand.lacks[worth] == (worth == (int)why), "\"%s\" beside \"%s\"",
                      sl_strand_words((sl_strand_worth)worth), sl_strand_words(why));
    }
    ck_assert_int_eq(strand.worth, why);
}

START_TEST(a_strand_with_all_that_is_asked_counts_and_was_watched_to_its_last_graded_look)
{
    const sl_intake form = small_clear_form();
    sl_strand_record record = good();
    const sl_strand strand = sl_strand_judge(&record, &form, MIX, TODAY);
    ck_assert_int_eq(strand.worth, SL_STRAND_COUNTED);
    ck_assert_int_eq(strand.looks, 3);
    ck_assert_double_eq(strand.watched_min, 20.0);
    record.lay_min = 60.0; /* it lay on, and nobody looked */
    ck_assert_double_eq(sl_strand_judge(&record, &form, MIX, TODAY).watched_min, 20.0);
}
END_TEST

START_TEST(each_condition_stops_it_alone_with_a_sentence_of_its_own)
{
    const sl_intake form = small_clear_form();
    sl_intake other = form;
#define STOPS(change, why)                                                                                   \
    do {                                                                                                     \
        sl_strand_record record = good();                                                                    \
        change;                                                                                              \
        stops_alone(&record, &form, TODAY, why);                                                             \
    } while (0)
    STOPS(record.person[0] = '\0', SL_STRAND_OTHER_PERSON);
    STOPS(snprintf(record.person, SL_CODE, "K13"), SL_STRAND_OTHER_PERSON);
    STOPS(record.made_up = true, SL_STRAND_MADE_UP);
    STOPS(record.rehearsed = true, SL_STRAND_REHEARSED);
    STOPS(record.mix = MIX + 1, SL_STRAND_OTHER_MIX);
    STOPS(record.mix = 0, SL_STRAND_OTHER_MIX);
    STOPS(record.packet_day = 0, SL_STRAND_OLDER_PACKET);
    STOPS(record.packet_day = form.packet_day - 1, SL_STRAND_OLDER_PACKET);
    STOPS(record.packet_day = record.day + 1, SL_STRAND_OLDER_PACKET);
    STOPS(record.part = SL_HAIR_AT_CROWN, SL_STRAND_OTHER_PART);
    STOPS(record.part = SL_HAIR_NOWHERE, SL_STRAND_OTHER_PART);
    STOPS(record.cut = false, SL_STRAND_ON_HEAD);
    STOPS(record.lay_min = -1.0, SL_STRAND_UNTIMED);
    STOPS(record.lay_min = log(-1.0), SL_STRAND_UNTIMED);
    STOPS(record.showed.n = 1, SL_STRAND_FEW_LOOKS);
    STOPS(record.showed.n = 0, SL_STRAND_FEW_LOOKS);
    STOPS(record.washed = false, SL_STRAND_UNWASHED);
    STOPS(record.graded = false, SL_STRAND_UNGRADED);
    STOPS(record.stretched = false, SL_STRAND_UNFELT);
    STOPS(record.felt = false, SL_STRAND_UNFELT);
    STOPS(record.bad = true, SL_STRAND_BAD);
    STOPS(record.heated = true, SL_STRAND_HEATED);
#undef STOPS
    const sl_strand_record record = good();
    other.reply[SL_INTAKE_SINCE] = SL_REPLY_YES;
    stops_alone(&record, &other, TODAY, SL_STRAND_HAIR_CHANGED);
    other.reply[SL_INTAKE_SINCE] = SL_REPLY_NONE;
    stops_alone(&record, &other, TODAY, SL_STRAND_HAIR_CHANGED);
    other = form;
    other.practice = true;
    stops_alone(&record, &other, TODAY, SL_STRAND_REAL);
    other = form;
    snprintf(other.person, SL_CODE, "K13");
    stops_alone(&record, &other, TODAY, SL_STRAND_OTHER_PERSON);
}
END_TEST

START_TEST(two_grades_of_one_minute_are_one_look)
{
    const sl_intake form = small_clear_form();
    sl_strand_record record = good();
    for (int i = 0; i < record.showed.n; i++) {
        record.showed.observation[i].minute = 20.0;
        record.showed.observation[i].zone = i;
    }
    stops_alone(&record, &form, TODAY, SL_STRAND_FEW_LOOKS);
}
END_TEST

START_TEST(a_strand_that_nobody_graded_was_watched_for_no_time)
{
    const sl_intake form = small_clear_form();
    sl_strand_record record = good();
    record.showed.n = 0;
    const sl_strand strand = sl_strand_judge(&record, &form, MIX, TODAY);
    ck_assert_int_eq(strand.looks, 0);
    ck_assert_double_eq(strand.watched_min, 0.0);
    ck_assert(strand.lacks[SL_STRAND_FEW_LOOKS] && strand.worth != SL_STRAND_COUNTED);
}
END_TEST

START_TEST(fourteen_days_and_no_longer_and_no_day_that_has_not_come)
{
    const sl_intake form = small_clear_form();
    sl_strand_record record = good();
    record.packet_day = form.packet_day;
    for (int age = -3; age <= 20; age++) {
        const sl_strand strand = sl_strand_judge(&record, &form, MIX, record.day + age);
        ck_assert_int_eq(strand.worth, age < 0     ? SL_STRAND_LATER
                                       : age <= 14 ? SL_STRAND_COUNTED
                                                   : SL_STRAND_OLD);
    }
    record.day = 0;
    ck_assert(sl_strand_judge(&record, &form, MIX, TODAY).lacks[SL_STRAND_OLD]);
}
END_TEST

START_TEST(a_made_up_strand_counts_for_a_made_up_person_alone)
{
    sl_intake form = small_clear_form();
    sl_strand_record record = good();
    record.made_up = record.rehearsed = true;
    form.practice = true;
    ck_assert_int_eq(sl_strand_judge(&record, &form, MIX, TODAY).worth, SL_STRAND_COUNTED);
    form.practice = false;
    const sl_strand strand = sl_strand_judge(&record, &form, MIX, TODAY);
    ck_assert(strand.lacks[SL_STRAND_MADE_UP] && strand.lacks[SL_STRAND_REHEARSED]);
}
END_TEST

START_TEST(an_empty_record_and_an_empty_form_never_meet)
{
    const sl_strand_record record = {.lay_min = -1.0};
    const sl_intake form = {0};
    const sl_strand strand = sl_strand_judge(&record, &form, 0, 0);
    ck_assert(strand.lacks[SL_STRAND_OTHER_PERSON] && strand.lacks[SL_STRAND_OTHER_MIX]);
    ck_assert(strand.lacks[SL_STRAND_OTHER_PART] && strand.lacks[SL_STRAND_OLDER_PACKET]);
    ck_assert_int_ne(strand.worth, SL_STRAND_COUNTED);
}
END_TEST

START_SUITE("strand")
ADD(a_strand_with_all_that_is_asked_counts_and_was_watched_to_its_last_graded_look)
ADD(each_condition_stops_it_alone_with_a_sentence_of_its_own)
ADD(two_grades_of_one_minute_are_one_look)
ADD(a_strand_that_nobody_graded_was_watched_for_no_time)
ADD(fourteen_days_and_no_longer_and_no_day_that_has_not_come)
ADD(a_made_up_strand_counts_for_a_made_up_person_alone)
ADD(an_empty_record_and_an_empty_form_never_meet)
END_SUITE
