/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each row names what the Unicode Standard says of its characters: UTF-8 as in table 3-7, general
 * categories and properties as in UnicodeData.txt and DerivedCoreProperties.txt of version 14.
 */
#include "base/plain_text.h"

#include <stdio.h>
#include <string.h>
#include <unictype.h>
#include <unistr.h>

#include "suite.h"

typedef struct sl_case {
    const char *text;
    int least; /* the strictest kind that takes it, or REFUSED */
} sl_case;

enum { REFUSED = SL_TEXT_FILE + 1 };

static const sl_case cases[] = {
    {"powder + 3 %", SL_TEXT_NAME},
    {"polvo \xC3\xB1 \xC2\xBD", SL_TEXT_NAME},                                  /* U+00F1, U+00BD */
    {"\xD0\xBA\xD1\x80\xD0\xB0\xD1\x81\xD0\xBD\xD1\x8B\xD0\xB9", SL_TEXT_NAME}, /* a word in Cyrillic */
    {"\xE8\x93\x9D", SL_TEXT_NAME},                                             /* U+84DD, a letter (Lo) */
    {"\xCE\x94"
     "E 2",
     SL_TEXT_NAME},              /* U+0394: no Latin letter looks like it */
    {"e\xCC\x81", SL_TEXT_NAME}, /* U+0301 on an e */
    {"", SL_TEXT_NAME},
    {" a", SL_TEXT_LINE},
    {"a ", SL_TEXT_LINE},
    {"3\xC2\xA0%", SL_TEXT_LINE},     /* U+00A0, Zs */
    {"3\xE2\x80\xAF%", SL_TEXT_LINE}, /* U+202F, Zs */
    {"a\xE2\xA0\x80", SL_TEXT_LINE},  /* U+2800, a pattern without dots */
    {"\xD7\x90", SL_TEXT_LINE},       /* U+05D0, bidi class R */
    {"\xD8\xA7", SL_TEXT_LINE},       /* U+0627, AL */
    {"powd\xD0\xB5r", SL_TEXT_LINE},  /* U+0435 among Latin letters */
    {"p\xCE\xBFwder", SL_TEXT_LINE},  /* U+03BF */
    {"\xD0\x9Fowder", SL_TEXT_LINE},  /* U+041F looks like no Latin one; still two alphabets */
    {"a\nb", SL_TEXT_LINES},
    {"a\tb", SL_TEXT_FILE},
    {"a\r\nb", SL_TEXT_FILE},
    {"\x1B[2J", REFUSED}, /* C0 */
    {"a\x7F", REFUSED},   /* DEL */
    {"\xC2\x9B"
     "2J",
     REFUSED},             /* U+009B, C1: an 8-bit CSI */
    {"\xC2\x85", REFUSED}, /* U+0085, NEL */
    {"a\xE2\x80\xA8"
     "b",
     REFUSED}, /* U+2028, Zl */
    {"a\xE2\x80\xA9"
     "b",
     REFUSED},                  /* U+2029, Zp */
    {"a\xD8\x9C", REFUSED},     /* U+061C, Bidi_Control */
    {"a\xE2\x80\x8E", REFUSED}, /* U+200E */
    {"a\xE2\x80\x8F", REFUSED}, /* U+200F */
    {"a\xE2\x80\xAA", REFUSED}, /* U+202A */
    {"a\xE2\x80\xAE", REFUSED}, /* U+202E */
    {"a\xE2\x81\xA6", REFUSED}, /* U+2066 */
    {"a\xE2\x81\xA9", REFUSED}, /* U+2069 */
    {"a\xE2\x80\x8B", REFUSED}, /* U+200B */
    {"a\xE2\x80\x8C"
     "b",
     REFUSED}, /* U+200C, ZWNJ */
    {"a\xE2\x80\x8D"
     "b",
     REFUSED},                  /* U+200D, ZWJ */
    {"a\xE2\x81\xA0", REFUSED}, /* U+2060 */
    {"a\xEF\xBB\xBF", REFUSED}, /* U+FEFF */
    {"a\xC2\xAD"
     "b",
     REFUSED}, /* U+00AD */
    {"a\xCD\x8F"
     "b",
     REFUSED},                      /* U+034F */
    {"a\xE1\x85\xA0", REFUSED},     /* U+1160, a filler */
    {"a\xE3\x85\xA4", REFUSED},     /* U+3164 */
    {"a\xEF\xBE\xA0", REFUSED},     /* U+FFA0 */
    {"a\xE1\xA0\x8E", REFUSED},     /* U+180E */
    {"a\xEF\xB8\x8F", REFUSED},     /* U+FE0F, a variation selector */
    {"a\xF3\xA0\x84\x80", REFUSED}, /* U+E0100, another */
    {"a\xF3\xA0\x81\xA1", REFUSED}, /* U+E0061, a tag */
    {"a\xF3\xA0\x80\x80", REFUSED}, /* U+E0000, unassigned and ignorable */
    {"a\xEF\xBF\xB9", REFUSED},     /* U+FFF9, Cf */
    {"a\xF0\x9D\x85\xB3", REFUSED}, /* U+1D173, Cf */
    {"a\xEE\x80\x80", REFUSED},     /* U+E000, Co */
    {"a\xF4\x8F\xBF\xBD", REFUSED}, /* U+10FFFD, Co */
    {"a\xEF\xB7\x90", REFUSED},     /* U+FDD0, noncharacter */
    {"a\xEF\xBF\xBE", REFUSED},     /* U+FFFE */
    {"a\xF0\x9F\xBF\xBF", REFUSED}, /* U+1FFFF */
    {"\xCC\x81"
     "a",
     REFUSED},                                              /* a mark without a letter */
    {"a\xCC\x81\xCC\x82\xCC\x83\xCC\x84\xCC\x85", REFUSED}, /* five on one */
};

START_TEST(each_kind_takes_what_it_may_hold_and_no_more)
{
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int kind = SL_TEXT_NAME; kind <= SL_TEXT_FILE; kind++) {
            sl_error error = {0};
            const bool taken =
                sl_text_accept(cases[i].text, strlen(cases[i].text), (sl_text_kind)kind, &error);
            ck_assert_msg(taken == (kind >= cases[i].least), "row %zu as kind %d", i, kind);
            ck_assert_msg(taken || (error.code == SL_ERR_BAD_TEXT && error.found[0] != '\0' &&
                                    error.wanted[0] != '\0' && error.line > 0 && error.column > 0),
                          "row %zu as kind %d has no message", i, kind);
        }
    }
}
END_TEST

/* Table 3-7: each row's ends, and what lies just outside. */
/* Against the library's tables, which are made from UnicodeData.txt and DerivedCoreProperties.txt. */
START_TEST(a_character_of_the_first_blocks_is_taken_when_unicode_shows_it)
{
    for (uint32_t point = 0x80; point < 0x300; point++) {
        uint8_t text[8] = {'a', 0};
        const int bytes = u8_uctomb(text + 1, point, 6);
        const bool hidden = uc_is_general_category(point, UC_CONTROL) ||
                            uc_is_general_category(point, UC_FORMAT) ||
                            uc_is_property_default_ignorable_code_point(point);
        const bool blank = uc_is_general_category(point, UC_SPACE_SEPARATOR);
        ck_assert_int_gt(bytes, 0);
        ck_assert_msg(sl_text_accept((const char *)text, 1 + (size_t)bytes, SL_TEXT_LINE, NULL) == !hidden,
                      "%x", point);
        const bool apart =
            uc_is_general_category(point, UC_LETTER) && !uc_is_script(point, uc_script_byname("Latin"));
        if (!apart) { /* another script's beside an "a" is the look-alikes' to judge */
            ck_assert_msg(sl_text_accept((const char *)text, 1 + (size_t)bytes, SL_TEXT_NAME, NULL) ==
                              (!hidden && !blank),
                          "%x", point);
        }
    }
}
END_TEST

START_TEST(only_well_formed_utf8_is_text)
{
    static const char *const good[] = {"\xC3\x80",     "\xDF\xBF",         "\xE0\xA4\x85",    "\xEC\xBF\xBF",
                                       "\xED\x9F\xBB", "\xF0\x90\x80\x80", "\xF0\x9F\x98\x80"};
    static const char *const bad[] = {"\x80",
                                      "\xBF",
                                      "\xC0\x80",
                                      "\xC1\xBF",
                                      "\xC3",
                                      "\xC3\x28",
                                      "\xE0\x9F\xBF",
                                      "\xE2\x82",
                                      "\xED\xA0\x80",
                                      "\xED\xBF\xBF",
                                      "\xF0\x8F\xBF\xBF",
                                      "\xF4\x90\x80\x80",
                                      "\xF5\x80\x80\x80",
                                      "\xFE",
                                      "\xFF"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(sl_text_accept(good[i], strlen(good[i]), SL_TEXT_LINE, NULL), "good %zu", i);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        sl_error error = {0};
        ck_assert_msg(!sl_text_accept(bad[i], strlen(bad[i]), SL_TEXT_FILE, &error), "bad %zu", i);
        ck_assert_int_eq(error.code, SL_ERR_NOT_UTF8);
    }
}
END_TEST

START_TEST(a_refusal_says_which_character_and_where)
{
    sl_error error = {0};
    ck_assert(!sl_text_accept("\xC3\xB1\xC3\xB1\n\xC3\xB1\x1B", 8, SL_TEXT_LINES, &error));
    ck_assert_int_eq(error.line, 2);
    ck_assert_int_eq(error.column, 2);
    ck_assert_str_eq(error.found, "a control character (U+001B)");
    ck_assert(!sl_text_accept("a\0b", 3, SL_TEXT_FILE, &error));
    ck_assert_str_eq(error.found, "a control character (U+0000)");
    ck_assert(!sl_text_accept("ab ", 3, SL_TEXT_NAME, &error));
    ck_assert_int_eq(error.column, 3);
}
END_TEST

START_TEST(what_is_shown_is_harmless_and_complete)
{
    char shown[128];
    static const char raw[] = "a\x1B[2J\n\xE2\x80\xAE\xFF\xC3\xB1\xC3";
    const size_t whole = sl_text_show(raw, sizeof raw - 1, SL_TEXT_LINE, shown, sizeof shown);
    ck_assert_str_eq(shown, "a\\u{1B}[2J\\u{A}\\u{202E}\\x{FF}\xC3\xB1\\x{C3}");
    ck_assert_uint_eq(whole, strlen(shown));
    sl_text_show("a\nb\tc", 5, SL_TEXT_LINES, shown, sizeof shown);
    ck_assert_str_eq(shown, "a\nb\\u{9}c");
}
END_TEST

static bool is_shown_well(const char *raw, size_t length)
{
    char shown[40], cut[40];
    const size_t whole = sl_text_show(raw, length, SL_TEXT_LINE, shown, sizeof shown);
    bool good = whole == strlen(shown) && sl_text_accept(shown, whole, SL_TEXT_LINE, NULL);
    for (size_t size = 1; size <= whole; size += 3) {
        good = good && sl_text_show(raw, length, SL_TEXT_LINE, cut, size) == whole && strlen(cut) < size &&
               strncmp(cut, shown, strlen(cut)) == 0;
    }
    return good;
}

/* Every pair of bytes, cut at many places: what comes out is text, terminated, and no piece is half. */
START_TEST(any_bytes_are_shown_as_text)
{
    unsigned bad = 0;
    for (unsigned pair = 0; pair < 0x10000U; pair++) {
        const char raw[] = {'x', (char)(pair >> 8U), (char)(pair & 0xFFU), 'y'};
        bad += is_shown_well(raw, sizeof raw) ? 0U : 1U;
    }
    ck_assert_uint_eq(bad, 0);
}
END_TEST

START_TEST(names_that_look_the_same_are_known)
{
    static const char *const alike[][2] = {
        {"powder", "powder"},
        {"a  b", "a b"},
        {"caf\xC3\xA9", "cafe\xCC\x81"},     /* canonical equivalents */
        {"\xEF\xBC\xA1\xEF\xBC\xA2", "AB"},  /* fullwidth: compatibility */
        {"H\xE2\x82\x82O", "H2O"},           /* U+2082 */
        {"\xEF\xAC\x81ne", "fine"},          /* U+FB01 */
        {"ace", "\xD0\xB0\xD1\x81\xD0\xB5"}, /* a whole word in Cyrillic */
        {"TO", "\xCE\xA4\xCE\x9F"},          /* Greek */
        {"arm 1", "arm l"},
        {"arm I", "arm l"},
        {"mix 0", "mix O"},
        {"a-b", "a\xE2\x80\x93"
                "b"},                               /* U+2013 */
        {"it's", "it\xE2\x80\x99s"},                /* U+2019 */
        {"q\xCC\xA3\xCC\x87", "q\xCC\x87\xCC\xA3"}, /* two marks, either order */
        {"3\xC2\xA0%", "3 %"},
    };
    static const char *const apart[][2] = {
        {"powder + 3 %", "powder + 6 %"},
        {"a", "b"},
        {"a", "A"},
        {"red", "re"},
        {"", "a"},
        {"cafe", "caf\xC3\xA9"},
        {"violet", "violeta"},
        {"ab", "a b"},
        {"10 vol", "20 vol"},
    };
    for (size_t i = 0; i < sizeof alike / sizeof alike[0]; i++) {
        ck_assert_msg(sl_text_alike(alike[i][0], alike[i][1]), "alike %zu", i);
        ck_assert_msg(sl_text_alike(alike[i][1], alike[i][0]), "alike %zu, turned", i);
    }
    for (size_t i = 0; i < sizeof apart / sizeof apart[0]; i++) {
        ck_assert_msg(!sl_text_alike(apart[i][0], apart[i][1]), "apart %zu", i);
    }
}
END_TEST

START_SUITE("plain_text")
ADD(each_kind_takes_what_it_may_hold_and_no_more)
ADD(a_character_of_the_first_blocks_is_taken_when_unicode_shows_it)
ADD(only_well_formed_utf8_is_text)
ADD(a_refusal_says_which_character_and_where)
ADD(what_is_shown_is_harmless_and_complete)
ADD(any_bytes_are_shown_as_text)
ADD(names_that_look_the_same_are_known)
END_SUITE
