/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/error.h"

#include <string.h>

#include "suite.h"

START_TEST(every_code_has_a_name_and_a_sentence)
{
    for (int code = 0; code < SL_CODE_COUNT; code++) {
        ck_assert_uint_gt(strlen(sl_code_name((sl_code)code)), 4);
        ck_assert_uint_gt(strlen(sl_code_sentence((sl_code)code)), 4);
    }
    ck_assert_str_eq(sl_code_name(SL_ERR_CYCLE), "SL_ERR_CYCLE");
}
END_TEST

START_TEST(a_long_text_is_cut_at_a_whole_character)
{
    char text[2 * SL_ERROR_TEXT_SIZE + 1];
    for (size_t i = 0; i + 1 < sizeof text; i += 2) {
        memcpy(text + i, "\xC2\xB0", 2); /* the degree sign, two bytes */
    }
    text[sizeof text - 1] = '\0';
    sl_error error = {0};
    ck_assert(!sl_fail(&error, SL_ERR_SYNTAX, text, "x"));
    ck_assert_uint_lt(strlen(error.found), SL_ERROR_TEXT_SIZE);
    ck_assert_uint_eq(strlen(error.found) % 2, 0);
    ck_assert_str_eq(error.wanted, "x");
}
END_TEST

START_TEST(a_failure_keeps_its_place)
{
    sl_error error = {0};
    sl_fail_at(&error, SL_ERR_UNKNOWN_KEY, "a.yaml", 3, 7, "'hiar'", "did you mean 'hair'?");
    ck_assert_int_eq(error.line, 3);
    ck_assert_int_eq(error.column, 7);
    ck_assert_str_eq(error.file, "a.yaml");
    sl_error_clear(&error);
    ck_assert_int_eq(error.code, SL_OK);
    ck_assert_int_eq(error.line, 0);
}
END_TEST

START_TEST(a_failure_without_a_reason_is_told_as_none)
{
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_fail(&error, SL_OK, "this", "that"));
    ck_assert_int_eq(error.code, SL_ERR_UNSAID);
    ck_assert(!sl_fail_at(&error, SL_OK, "a.db", 0, 0, "this", "that"));
    ck_assert_int_eq(error.code, SL_ERR_UNSAID);
}
END_TEST

START_TEST(no_error_record_is_needed)
{
    ck_assert(!sl_fail(NULL, SL_ERR_SYNTAX, NULL, NULL));
    ck_assert(!sl_fail_at(NULL, SL_ERR_SYNTAX, NULL, 0, 0, NULL, NULL));
    sl_error_clear(NULL);
}
END_TEST

START_SUITE("error")
ADD(every_code_has_a_name_and_a_sentence)
ADD(a_long_text_is_cut_at_a_whole_character)
ADD(a_failure_keeps_its_place)
ADD(a_failure_without_a_reason_is_told_as_none)
ADD(no_error_record_is_needed)
END_SUITE
