/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "base/minute.h"
#include "suite.h"

static void say(const char *what)
{
    if (what != NULL) {
        setenv("SLOWLIFT_SAY", what, 1);
    } else {
        unsetenv("SLOWLIFT_SAY");
    }
    sl_minute_start();
}

START_TEST(minutes_are_those_of_snprintf)
{
    char text[32], key[SL_MINUTE_KEY];
    say(NULL);
    ck_assert_int_eq(sl_minute_words(SL_MINUTE_MODEL, text, sizeof text, "%.0f to %.0f min", 17.0, 26.0), 12);
    ck_assert_str_eq(text, "17 to 26 min");
    ck_assert_str_eq(sl_minute_key(SL_MINUTE_MODEL, "goal_min", key), "goal_min");
    say("nothing");
    sl_minute_words(SL_MINUTE_CLOCK, text, sizeof text, "%d min", 5);
    ck_assert_str_eq(text, "5 min");
    ck_assert_int_eq(sl_minute_words(SL_MINUTE_PLANNED, text, 4, "%d min", 45), 6);
    ck_assert_str_eq(text, "45 ");
}
END_TEST

START_TEST(each_kind_has_a_mark_of_its_own_where_kinds_are_said)
{
    static const char *const marks[] = {"\xE2\x80\x8B", "\xE2\x80\x8C", "\xE2\x80\x8D"};
    say("kinds");
    for (int kind = SL_MINUTE_PLANNED; kind <= SL_MINUTE_MODEL; kind++) {
        char text[32], wanted[32], key[SL_MINUTE_KEY];
        const int length = sl_minute_words((sl_minute_kind)kind, text, sizeof text, "%d min", 30);
        snprintf(wanted, sizeof wanted, "%s30 min\xE2\x80\x8E", marks[kind]);
        ck_assert_str_eq(text, wanted);
        ck_assert_int_eq(length, (int)strlen(wanted));
        snprintf(wanted, sizeof wanted, "goal_min%s", marks[kind]);
        ck_assert_str_eq(sl_minute_key((sl_minute_kind)kind, "goal_min", key), wanted);
    }
    say(NULL);
}
END_TEST

START_TEST(a_text_without_room_is_cut_and_ends)
{
    say("kinds");
    for (size_t size = 1; size < 14; size++) {
        char text[16];
        memset(text, 'x', sizeof text);
        sl_minute_words(SL_MINUTE_MODEL, text, size, "%d min", 30);
        ck_assert_uint_lt(strlen(text), size);
        ck_assert_int_eq(text[size], 'x');
    }
    say(NULL);
}
END_TEST

START_SUITE("minute")
ADD(minutes_are_those_of_snprintf)
ADD(each_kind_has_a_mark_of_its_own_where_kinds_are_said)
ADD(a_text_without_room_is_cut_and_ends)
END_SUITE
