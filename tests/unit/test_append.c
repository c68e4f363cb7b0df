/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words behind others: what fits, what is cut off, and what stands between.
 */
#include "base/append.h"

#include <string.h>

#include "suite.h"

START_TEST(what_does_not_fit_is_cut_off)
{
    char text[12] = "one";
    memset(text + 8, '#', 4);
    sl_append(text, 8, " %s", "two");
    ck_assert_str_eq(text, "one two");
    sl_append(text, 8, " three");
    ck_assert_str_eq(text, "one two");
    ck_assert_mem_eq(text + 8, "####", 4);
    text[5] = '\0';
    sl_append(text, 8, "%d", 12345);
    ck_assert_str_eq(text, "one t12");
    ck_assert_mem_eq(text + 8, "####", 4);
}
END_TEST

START_TEST(what_stands_between_comes_neither_first_nor_last)
{
    char text[16] = "";
    sl_append_item(text, sizeof text, ", ", "%d", 1);
    ck_assert_str_eq(text, "1");
    sl_append_item(text, sizeof text, ", ", "%d", 2);
    sl_append_item(text, sizeof text, " and ", "%s", "three");
    ck_assert_str_eq(text, "1, 2 and three");
    sl_append_item(text, sizeof text, ", ", "four");
    ck_assert_str_eq(text, "1, 2 and three,");
}
END_TEST

START_SUITE("append")
ADD(what_does_not_fit_is_cut_off)
ADD(what_stands_between_comes_neither_first_nor_last)
END_SUITE
