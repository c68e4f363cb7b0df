/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Letters that pass for others, and texts that look the same: by characters of Unicode's own lists (UTS 39,
 * names of confusables.txt; UAX 15 for marks).
 */
#include "base/look_alike.h"

#include <string.h>
#include <unictype.h>

#include "base/plain_text.h"
#include "suite.h"

START_TEST(latin_is_what_unicode_calls_so)
{
    static const uint32_t latin[] = {'a', 'z', 'A', 'Z', 0xE9 /* e acute */, 0x131 /* dotless i */};
    static const uint32_t others[] = {'@', '[', '`', '{', '0', ' ', 0x43E, 0x3BF, 0x4E2D, 0xD7};
    for (size_t i = 0; i < sizeof latin / sizeof latin[0]; i++) {
        ck_assert_msg(sl_letter_is_latin(latin[i]), "%x", latin[i]);
        ck_assert_msg(!sl_letter_passes_for_latin(latin[i]), "%x", latin[i]);
    }
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        ck_assert_msg(!sl_letter_is_latin(others[i]), "%x", others[i]);
    }
}
END_TEST

/* Against the library's tables, which are made from UnicodeData.txt and Scripts.txt. */
START_TEST(letters_told_from_their_numbers_are_letters_of_the_latin_script)
{
    for (uint32_t point = 0x80; point <= 0x250; point++) {
        const bool letter =
            uc_is_general_category(point, UC_LETTER) && uc_is_script(point, uc_script_byname("Latin"));
        const bool here = point >= 0xC0 && point <= 0x17F;
        ck_assert_msg(sl_letter_is_european(point) == (letter && here), "%x", point);
        ck_assert_msg(sl_letter_is_latin(point) == uc_is_script(point, uc_script_byname("Latin")), "%x",
                      point);
    }
}
END_TEST

START_TEST(what_is_read_as_latin_and_is_not_is_known)
{
    static const uint32_t pass[] = {0x43E /* Cyrillic o */, 0x3BF /* omicron */,
                                    0x448 /* sha: every Cyrillic one */, 0x585 /* Armenian oh */};
    static const uint32_t do_not[] = {0x4E2D, 0x5D0 /* alef */, 0x3A9 /* omega */, '0', '|'};
    for (size_t i = 0; i < sizeof pass / sizeof pass[0]; i++) {
        ck_assert_msg(sl_letter_passes_for_latin(pass[i]), "%x", pass[i]);
    }
    for (size_t i = 0; i < sizeof do_not / sizeof do_not[0]; i++) {
        ck_assert_msg(!sl_letter_passes_for_latin(do_not[i]), "%x", do_not[i]);
    }
}
END_TEST

static void alike(const char *one, const char *other, bool are)
{
    ck_assert_msg(sl_text_alike(one, other) == are, "\"%s\", \"%s\"", one, other);
    ck_assert_msg(sl_text_alike(other, one) == are, "\"%s\", \"%s\"", other, one);
}

START_TEST(blanks_in_a_row_are_one_blank)
{
    alike("red dye", "red  dye", true);
    alike("red dye", "red   dye", true);
    alike("red dye", "reddye", false);
    alike(" red", "red", false);
    alike("  red", " red", true);
}
END_TEST

START_TEST(where_two_texts_part_their_looks_decide)
{
    alike("the corn", "the com", true);
    alike("lot I", "lot 1", true);
    alike("lot I", "lot 2", false);
    alike("lot \"", "lot ''", true);
    alike("lot a", "lot \xD0\xB0", true); /* Cyrillic */
    alike("lot e\xCC\x81", "lot \xC3\xA9", true);
    alike("lot e\xCC\x81", "lot e", false);
    alike("lot", "lot ", false);
}
END_TEST

/* UAX 15: marks of different classes have no order of their own. */
START_TEST(marks_over_and_under_a_letter_look_alike_in_any_order)
{
    alike("a\xCC\xA3\xCC\x81", "a\xCC\x81\xCC\xA3", true);   /* dot below, acute */
    alike("\xE1\xBA\xA1\xCC\x81", "\xC3\xA1\xCC\xA3", true); /* composed one way and the other */
    alike("a\xCC\x81", "\xC3\xA1", true);
    alike("a\xCC\x81", "a\xCC\x80", false);
    alike("\xCC\x81", "\xCC\x81", true); /* a mark on nothing */
    alike("\xCC\x81\xCC\xA3", "\xCC\xA3\xCC\x81", true);
}
END_TEST

START_TEST(what_is_no_text_is_like_the_sign_for_it)
{
    alike("a\xFFz", "a\xEF\xBF\xBDz", true); /* U+FFFD */
    alike("a\xFFz", "az", false);
    alike("m", "rn", true);
    alike("l1I|", "llll", true);
}
END_TEST

/* A name has 64 bytes; of longer texts the beginning decides, and nothing is written past the room for it. */
START_TEST(of_texts_longer_than_any_name_the_beginning_decides)
{
    char one[3000], other[3000];
    memset(one, 'a', sizeof one - 1);
    one[sizeof one - 1] = '\0';
    memcpy(other, one, sizeof one);
    other[1200] = 'b';
    alike(one, other, true);
    other[1000] = 'b';
    alike(one, other, false);
}
END_TEST

START_SUITE("look alike")
ADD(latin_is_what_unicode_calls_so)
ADD(letters_told_from_their_numbers_are_letters_of_the_latin_script)
ADD(what_is_read_as_latin_and_is_not_is_known)
ADD(blanks_in_a_row_are_one_blank)
ADD(where_two_texts_part_their_looks_decide)
ADD(marks_over_and_under_a_letter_look_alike_in_any_order)
ADD(what_is_no_text_is_like_the_sign_for_it)
ADD(of_texts_longer_than_any_name_the_beginning_decides)
END_SUITE
