/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene/yaml/quantity.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "scene/yaml/phrase.h"
#include "scene/yaml/value.h"
#include "suite.h"

static const sl_range share = {SL_MEASURE_SHARE, 0.0, 1.0};
static const sl_range strength = {SL_MEASURE_STRENGTH, 0.0, 12.0};
static const sl_range minutes = {SL_MEASURE_TIME, 0.0, 1440.0};
static const sl_range celsius = {SL_MEASURE_TEMPERATURE, -50.0, 100.0};
static const sl_range rate = {SL_MEASURE_RATE, 0.0, 100.0};
static const sl_range micrometres = {SL_MEASURE_MICROMETRE, 0.0, 1000.0};
static const sl_range diffusion = {SL_MEASURE_DIFFUSION, 0.0, 1.0};
static const sl_range second_order = {SL_MEASURE_RATE_2, 0.0, 1000.0};
static const sl_range third_order = {SL_MEASURE_RATE_3, 0.0, 1000.0};

static sl_code code_of(const char *text, const sl_range *range, double *value)
{
    const sl_node node = {.kind = SL_NODE_TEXT, .file = "test", .line = 1, .column = 1, .text = text};
    sl_error error = {.code = SL_OK};
    return sl_quantity_read(&node, range, value, &error) ? SL_OK : error.code;
}

static double read_as(const char *text, const sl_range *range)
{
    double value = -1e30;
    ck_assert_msg(code_of(text, range, &value) == SL_OK, "%s is refused", text);
    return value;
}

static void refused(const char *text, const sl_range *range, sl_code code)
{
    double value = 7.0;
    ck_assert_msg(code_of(text, range, &value) == code, "%s is not refused as %s", text, sl_code_name(code));
    ck_assert_double_eq(value, 7.0); /* left as it was */
}

START_TEST(times_are_minutes)
{
    ck_assert_double_eq(read_as("35 min", &minutes), 35.0);
    ck_assert_double_eq(read_as("90 s", &minutes), 1.5);
    ck_assert_double_eq(read_as("1 h", &minutes), 60.0);
    ck_assert_double_eq(read_as("45s", &minutes), 0.75);
}
END_TEST

START_TEST(shares_may_be_percent)
{
    ck_assert_double_eq(read_as("25 %", &share), 0.25);
    ck_assert_double_eq(read_as("0.25", &share), 0.25);
    refused("25", &share, SL_ERR_OUT_OF_RANGE);
}
END_TEST

/* The four names of the trade; the law pairs 12 % with 40 volumes (Annex III entry 12 of
 * Regulation (EC) 1223/2009 as replaced by Regulation (EU) 2019/831). */
START_TEST(peroxide_20_vol_is_6_percent)
{
    ck_assert_double_eq(read_as("10 vol", &strength), 3.0);
    ck_assert_double_eq(read_as("20 vol", &strength), 6.0);
    ck_assert_double_eq(read_as("30 vol", &strength), 9.0);
    ck_assert_double_eq(read_as("40 vol", &strength), 12.0);
    ck_assert_double_eq(read_as("6 %", &strength), 6.0);
}
END_TEST

/* Other volumes follow the ideal gas law: 1 % w/v is 10/34.0147/2 * 22.414 = 3.2948 vol, so
 * 5 vol is 1.5176 %. Five digits of the arithmetic are given. */
START_TEST(other_volumes_follow_the_gas_law)
{
    ck_assert_double_eq_tol(read_as("5 vol", &strength), 1.5176, 5e-5);
    refused("41 vol", &strength, SL_ERR_OUT_OF_RANGE);
}
END_TEST

/* NIST: t(°C) = (t(°F) - 32)/1.8 exactly. */
START_TEST(fahrenheit_becomes_celsius)
{
    ck_assert_double_eq(read_as("32 °C", &celsius), 32.0);
    ck_assert_double_eq(read_as("32 C", &celsius), 32.0);
    ck_assert_double_eq_tol(read_as("90 °F", &celsius), 290.0 / 9.0, 1e-14);
    ck_assert_double_eq(read_as("32 F", &celsius), 0.0);
    ck_assert_double_eq(read_as("-40 °F", &celsius), -40.0);
}
END_TEST

START_TEST(rates_and_lengths_carry_their_units)
{
    ck_assert_double_eq(read_as("1.5e-3 /min", &rate), 1.5e-3);
    ck_assert_double_eq(read_as("0.5 /s", &rate), 30.0);
    ck_assert_double_eq(read_as("0.15 L/(mol min)", &second_order), 0.15);
    ck_assert_double_eq(read_as("0.5 L/(mol s)", &second_order), 30.0);
    ck_assert_double_eq(read_as("2.4 L2/(mol2 min)", &third_order), 2.4);
    ck_assert_double_eq(read_as("2.4 L²/(mol² min)", &third_order), 2.4);
    ck_assert_double_eq(read_as("35 um", &micrometres), 35.0);
    ck_assert_double_eq(read_as("35 \xC2\xB5m", &micrometres), 35.0);
    ck_assert_double_eq(read_as("35 \xCE\xBCm", &micrometres), 35.0);
    ck_assert_double_eq(read_as("5e-9 cm2/s", &diffusion), 5e-9);
    ck_assert_double_eq(read_as("5e-9 cm²/s", &diffusion), 5e-9);
    refused("2.4 L/(mol min)", &third_order, SL_ERR_BAD_UNIT);
}
END_TEST

START_TEST(a_missing_or_wrong_unit_is_refused)
{
    refused("35", &minutes, SL_ERR_BAD_UNIT);
    refused("35 minutes", &minutes, SL_ERR_BAD_UNIT);
    refused("35 Min", &minutes, SL_ERR_BAD_UNIT);
    refused("6", &strength, SL_ERR_BAD_UNIT);
    refused("20 vols", &strength, SL_ERR_BAD_UNIT);
}
END_TEST

START_TEST(what_is_no_plain_number_is_refused)
{
    static const char *const texts[] = {"",
                                        "min",
                                        "nan",
                                        "NaN min",
                                        "inf",
                                        ".inf",
                                        "-inf min",
                                        "0x10 min",
                                        "3,5 min",
                                        "1.2.3 min",
                                        "1_000 min",
                                        "1'000 min",
                                        "1e",
                                        "1e+ min",
                                        ".5 min",
                                        "5. min",
                                        "- 5 min",
                                        "--5 min",
                                        "5e1000 min",
                                        "1e9999999999 min",
                                        "1234567890123456 min"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        refused(texts[i], &minutes, SL_ERR_BAD_NUMBER);
    }
}
END_TEST

/* Against the C library in the "C" locale, which Debian's glibc rounds correctly: a hundred
 * thousand decimals of 1 to 15 digits and powers of ten within 22 give the same double. */
START_TEST(a_decimal_is_the_nearest_double)
{
    uint64_t state = 20250101;
    for (int i = 0; i < 100000; i++) {
        state = state * 6364136223846793005U + 1442695040888963407U;
        const uint64_t digits = (state >> 14) % 1000000000000000U;
        const int power = (int)((state >> 3) % 45U) - 22;
        char text[64];
        snprintf(text, sizeof text, "%llue%d", (unsigned long long)digits, power);
        double value = -1.0;
        const char *const rest = sl_decimal_read(text, &value);
        /* trailing zeros of the digits may push the power past what is exact */
        if (rest) {
            ck_assert_int_eq(*rest, '\0');
            ck_assert_msg(value == strtod(text, NULL), "%s", text);
        } else {
            ck_assert_msg(power > 22 - 15 && digits % 10U == 0, "%s is refused", text);
        }
    }
}
END_TEST

START_TEST(zeros_do_not_count_as_digits)
{
    double value = 0.0;
    ck_assert_ptr_nonnull(sl_decimal_read("0.000000000000000000001", &value));
    ck_assert_double_eq(value, 1e-21);
    ck_assert_ptr_nonnull(sl_decimal_read("1.50000000000000000000", &value));
    ck_assert_double_eq(value, 1.5);
    ck_assert_ptr_nonnull(sl_decimal_read("000123", &value));
    ck_assert_double_eq(value, 123.0);
    ck_assert_ptr_nonnull(sl_decimal_read("-0", &value));
    ck_assert_double_eq(value, 0.0);
}
END_TEST

/* ---- what messages say ------------------------------------------------------------------------------ */

static const char *wanted_of(const char *text, const sl_range *range)
{
    static sl_error error;
    const sl_node node = {.kind = SL_NODE_TEXT, .file = "test", .line = 1, .column = 1, .text = text};
    double value = 0.0;
    ck_assert(!sl_quantity_read(&node, range, &value, &error));
    return error.wanted;
}

/* Who writes 25 for a quarter is told what 1 is; where more than all is a number too, 1 is not everything. */
START_TEST(a_share_out_of_range_says_what_one_is)
{
    static const sl_range half = {SL_MEASURE_SHARE, 0.0, 0.5}, twice = {SL_MEASURE_SHARE, 0.0, 2.0};
    ck_assert_ptr_nonnull(strstr(wanted_of("25", &share), "0 to 1"));
    ck_assert_ptr_nonnull(strstr(wanted_of("25", &share), "1 is 100 %"));
    ck_assert_ptr_nonnull(strstr(wanted_of("25", &half), "1 is 100 %"));
    ck_assert_ptr_null(strstr(wanted_of("25", &twice), "1 is 100 %"));
    ck_assert_ptr_null(strstr(wanted_of("2000 min", &minutes), "100 %"));
}
END_TEST

/* At most 40 characters of what somebody wrote, counted as people count; more is shown to be more. */
START_TEST(forty_characters_are_quoted_whole)
{
    static const char *const letters[] = {"x", "\u00e9", "\u4e2d"};
    for (int i = 0; i < 3; i++) {
        for (int n = 38; n <= 42; n++) {
            char piece[200] = "", shown[200] = "\"";
            sl_phrase phrase = {0};
            for (int k = 0; k < n; k++) {
                strcat(piece, letters[i]);
                strcat(shown, k < 40 ? letters[i] : "");
            }
            strcat(shown, n <= 40 ? "\"" : "...\"");
            sl_phrase_quote(&phrase, piece);
            ck_assert_str_eq(phrase.text, shown);
        }
    }
}
END_TEST

/* A slip of the pen is a letter too many, too few, another or two turned round, within a third of the word.
 */
START_TEST(a_word_is_near_by_its_letters)
{
    static const char *const known[] = {"bench", "head", "wrapped"};
    static const sl_words words = {known, 3};
    static const struct {
        const char *text, *said;
    } slips[] = {{"benhc", "the nearest known one is \"bench\""},
                 {"bnch", "the nearest known one is \"bench\""},
                 {"hed", "the nearest known one is \"head\""},
                 {"haed", "the nearest known one is \"head\""},
                 {"rapped", "the nearest known one is \"wrapped\""},
                 {"wrappped", "the nearest known one is \"wrapped\""},
                 {"table", "known here: bench, head, wrapped"},
                 {"", "known here: bench, head, wrapped"}};
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        sl_phrase phrase = {0};
        sl_phrase_nearest(&phrase, &words, slips[i].text);
        ck_assert_str_eq(phrase.text, slips[i].said);
    }
    ck_assert_int_eq(sl_words_find(&words, "head"), 1);
    ck_assert_int_eq(sl_words_find(&words, "Head"), -1);
}
END_TEST

/* Two letters that changed places are one slip; so "nmaa" is nearer to "nama" than a word with two other
 * letters. */
START_TEST(letters_that_changed_places_are_one_slip)
{
    static const char *const known[] = {"nbba", "nmaa"};
    const sl_words words = {known, 2};
    sl_phrase phrase = {0};
    sl_phrase_nearest(&phrase, &words, "nama");
    ck_assert_str_eq(phrase.text, "the nearest known one is \"nmaa\"");
    phrase = (sl_phrase){0};
    sl_phrase_nearest(&phrase, &words, "xyz");
    ck_assert_str_eq(phrase.text, "known here: nbba, nmaa");
}
END_TEST

/* ---- decimals at their edges ---------------------------------------------------------------------- */

typedef struct decimal_case {
    const char *text;
    double value;
    const char *rest; /* NULL: no number */
} decimal_case;

/* Fifteen digits and powers of ten within 22 are exact (docs/file-format.md says fifteen); one further is
 * refused. */
START_TEST(a_decimal_is_read_up_to_fifteen_digits_and_the_power_twenty_two)
{
    static const decimal_case cases[] = {{"123456789012345", 123456789012345.0, ""},
                                         {"1234567890123456", 0.0, NULL},
                                         {"12345678901234.5", 12345678901234.5, ""},
                                         {"0.123456789012345", 0.123456789012345, ""},
                                         {"0.1234567890123456", 0.0, NULL},
                                         {"1234567890123450", 1234567890123450.0, ""}, /* a zero is held */
                                         {"12345678901234500000", 12345678901234500000.0, ""},
                                         {"1e22", 1e22, ""},
                                         {"1e23", 0.0, NULL},
                                         {"1e-22", 1e-22, ""},
                                         {"1e-23", 0.0, NULL},
                                         {"10e21", 1e22, ""},
                                         {"10e22", 0.0, NULL},
                                         {"0.1e-21", 1e-22, ""},
                                         {"0.1e-22", 0.0, NULL},
                                         {"0e999", 0.0, ""}, /* nothing, however large its power */
                                         {"0e1000", 0.0, NULL},
                                         {"0.0e-999", 0.0, ""},
                                         {"1E3", 1000.0, ""},
                                         {"1e+3", 1000.0, ""},
                                         {"+5", 5.0, ""},
                                         {"-5", -5.0, ""},
                                         {"-0.25x", -0.25, "x"},
                                         {"+-5", 0.0, NULL},
                                         {"5 min", 5.0, " min"},
                                         {"5.25.5", 5.25, ".5"},
                                         {"5e2e2", 500.0, "e2"},
                                         {"9", 9.0, ""},
                                         {"0", 0.0, ""},
                                         {"/", 0.0, NULL}, /* the neighbours of the digits */
                                         {":", 0.0, NULL},
                                         {"5:", 5.0, ":"},
                                         {"5/", 5.0, "/"},
                                         {"1.05", 1.05, ""},
                                         {"100.5", 100.5, ""},
                                         {"1.500", 1.5, ""},
                                         {"1200", 1200.0, ""}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double value = 7.0;
        const char *const rest = sl_decimal_read(cases[i].text, &value);
        ck_assert_msg((rest != NULL) == (cases[i].rest != NULL), "%s", cases[i].text);
        ck_assert_msg(!rest || strcmp(rest, cases[i].rest) == 0, "%s", cases[i].text);
        ck_assert_msg(value == (rest ? cases[i].value : 7.0), "%s: %.17g", cases[i].text, value);
    }
}
END_TEST

/* Sixty-three zeros between digits are read over; more stand for nothing that anybody wrote by hand. */
START_TEST(zeros_are_held_up_to_a_bound)
{
    char text[128];
    for (int zeros = 62; zeros <= 65; zeros++) {
        double value = 7.0;
        snprintf(text, sizeof text, "1.%0*d", zeros, 0);
        ck_assert_int_eq(sl_decimal_read(text, &value) != NULL, zeros < 64);
        ck_assert_double_eq(value, zeros < 64 ? 1.0 : 7.0);
        snprintf(text, sizeof text, "%0*d", zeros, 0); /* before any digit they are nothing */
        ck_assert_ptr_nonnull(sl_decimal_read(text, &value));
        ck_assert_double_eq(value, 0.0);
    }
}
END_TEST

/* Each unit that may be written, in the model's own (SI Brochure; cm and m, s, min and h, g alone). */
START_TEST(each_unit_is_worth_what_it_is)
{
    static const struct {
        sl_measure measure;
        const char *text;
        double value;
    } cases[] = {{SL_MEASURE_NUMBER, "5", 5.0},
                 {SL_MEASURE_SHARE, "0.5", 0.5},
                 {SL_MEASURE_SHARE, "50 %", 0.5},
                 {SL_MEASURE_STRENGTH, "5 %", 5.0},
                 {SL_MEASURE_TIME, "30 s", 0.5},
                 {SL_MEASURE_TIME, "5 min", 5.0},
                 {SL_MEASURE_TIME, "2 h", 120.0},
                 {SL_MEASURE_TEMPERATURE, "5 °C", 5.0},
                 {SL_MEASURE_TEMPERATURE, "5 C", 5.0},
                 {SL_MEASURE_TEMPERATURE, "41 °F", 5.0},
                 {SL_MEASURE_TEMPERATURE, "212 F", 100.0},
                 {SL_MEASURE_KELVIN, "5 K", 5.0},
                 {SL_MEASURE_MASS, "5 g", 5.0},
                 {SL_MEASURE_MASS_RATIO, "5 g/g", 5.0},
                 {SL_MEASURE_RATE, "5 /min", 5.0},
                 {SL_MEASURE_RATE, "5 1/min", 5.0},
                 {SL_MEASURE_RATE, "2 /s", 120.0},
                 {SL_MEASURE_RATE, "30 /h", 0.5},
                 {SL_MEASURE_RATE_2, "5 L/(mol min)", 5.0},
                 {SL_MEASURE_RATE_2, "2 L/(mol s)", 120.0},
                 {SL_MEASURE_RATE_3, "5 L2/(mol2 min)", 5.0},
                 {SL_MEASURE_RATE_3, "5 L²/(mol² min)", 5.0},
                 {SL_MEASURE_RATE_3, "2 L2/(mol2 s)", 120.0},
                 {SL_MEASURE_ENERGY, "5 kJ/mol", 5.0},
                 {SL_MEASURE_MICROMETRE, "5 um", 5.0},
                 {SL_MEASURE_NANOMETRE, "5 nm", 5.0},
                 {SL_MEASURE_DIFFUSION, "5 cm2/s", 5.0},
                 {SL_MEASURE_DIFFUSION, "5 cm²/s", 5.0},
                 {SL_MEASURE_DIFFUSION, "0.01 m2/s", 100.0},
                 {SL_MEASURE_MOLAR, "5 mol/L", 5.0},
                 {SL_MEASURE_MOLAR, "500 mmol/L", 0.5},
                 {SL_MEASURE_WATER, "5 mL/g", 5.0},
                 {SL_MEASURE_ANGLE, "5 °", 5.0},
                 {SL_MEASURE_ANGLE, "5 deg", 5.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_range any = {cases[i].measure, -1e6, 1e6};
        ck_assert_double_eq_tol(read_as(cases[i].text, &any), cases[i].value, 1e-13);
        for (size_t other = 0; other < sizeof cases / sizeof cases[0]; other++) {
            const char *const unit = strchr(cases[i].text, ' ');
            const bool same =
                unit && strstr(cases[other].text, unit) && cases[other].measure != cases[i].measure;
            const sl_range foreign = {cases[other].measure, -1e6, 1e6};
            double value = 0.0;
            if (cases[other].measure != cases[i].measure && unit && !same) {
                const sl_code code = code_of(cases[i].text, &foreign, &value);
                ck_assert_msg(code == SL_ERR_BAD_UNIT || strcmp(unit, " %") == 0, "%s", cases[i].text);
            }
        }
    }
}
END_TEST

/* A range holds both of its ends, in whatever unit they are written. */
START_TEST(a_range_holds_its_ends)
{
    static const sl_range some = {SL_MEASURE_TIME, 0.5, 90.0};
    ck_assert_double_eq(read_as("30 s", &some), 0.5);
    ck_assert_double_eq(read_as("1.5 h", &some), 90.0);
    refused("29.999 s", &some, SL_ERR_OUT_OF_RANGE);
    refused("90.001 min", &some, SL_ERR_OUT_OF_RANGE);
    refused("1.501 h", &some, SL_ERR_OUT_OF_RANGE);
    ck_assert_str_eq(wanted_of("91 min", &some), "wanted is 0.5 to 90 min");
    ck_assert_double_eq(read_as("5   min", &some), 5.0);
    refused("5 min ", &some, SL_ERR_BAD_UNIT);
    refused("5min5", &some, SL_ERR_BAD_UNIT);
    refused("5'30 min", &some, SL_ERR_BAD_NUMBER);
    refused("5x", &some, SL_ERR_BAD_NUMBER);
    refused("5X min", &some, SL_ERR_BAD_NUMBER);
    refused("5_0 min", &some, SL_ERR_BAD_NUMBER);
    refused("5..0 min", &some, SL_ERR_BAD_NUMBER);
    ck_assert_str_eq(
        wanted_of("5,0 min", &some),
        "the decimal sign is a point; wanted is a time with its unit, such as 35 min, 90 s or 1 h");
    ck_assert_str_eq(wanted_of("5 mn", &some), "wanted is a time with its unit, such as 35 min, 90 s or 1 h");
    ck_assert_str_eq(wanted_of("x", &some), "wanted is a time with its unit, such as 35 min, 90 s or 1 h");
}
END_TEST

/* Numbers in messages have at most four figures and a point, whatever the number. */
START_TEST(numbers_in_messages_have_four_figures)
{
    static const struct {
        double number;
        const char *said;
    } cases[] = {
        {0.0, "0"},     {12.0, "12"},    {0.25, "0.25"},  {1.23456, "1.235"}, {123456.0, "1.235e+05"},
        {-0.5, "-0.5"}, {1e-5, "1e-05"}, {1440.0, "1440"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_phrase phrase = {0};
        sl_phrase_number(&phrase, cases[i].number);
        ck_assert_str_eq(phrase.text, cases[i].said);
    }
    sl_phrase phrase = {0};
    sl_phrase_add(&phrase, "from ");
    sl_phrase_integer(&phrase, -1234567890L);
    ck_assert_str_eq(phrase.text, "from -1234567890");
    ck_assert_uint_eq(phrase.length, strlen(phrase.text));
}
END_TEST

/* A message that is full takes no more, and no half letter: two bytes each here. */
START_TEST(a_full_message_ends_with_a_whole_letter)
{
    for (int odd = 0; odd < 2; odd++) {
        sl_phrase phrase = {0};
        sl_phrase_add(&phrase, odd ? "x" : "");
        for (size_t i = 0; i < sizeof phrase.text; i++) {
            sl_phrase_add(&phrase, "\xC3\xA9");
        }
        const size_t most = sizeof phrase.text - 1;
        const size_t full = odd ? 1 + (most - 1) / 2 * 2 : most / 2 * 2;
        ck_assert_uint_eq(phrase.length, full);
        ck_assert_uint_eq(strlen(phrase.text), full);
        sl_phrase_add(&phrase, "ab");
        ck_assert_uint_eq(phrase.length, most); /* one byte of it at most */
    }
}
END_TEST

/* How far two words are from each other: the four slips, each of one step (Damerau 1964). A word of three
 * letters may have two slips, one of twelve and more four. Longer words than forty bytes are not compared. */
START_TEST(a_slip_is_told_by_its_steps)
{
    static const struct {
        const char *known, *text;
        bool near;
    } cases[] = {{"abc", "abc", true},
                 {"abc", "ab", true},
                 {"abc", "abxc", true},
                 {"abc", "axc", true},
                 {"abc", "bac", true},
                 {"abc", "acb", true},
                 {"abc", "xyc", true},
                 {"abc", "xyz", false},
                 {"abc", "a", false},
                 {"ab", "xb", true},
                 {"ab", "xy", false},
                 {"abc", "cab", true},
                 {"abcdef", "xyzdef", true},
                 {"abcdef", "wxyzef", false},
                 {"abcdefghijkl", "wxyzefghijkl", true}, /* four of twelve */
                 {"abcdefghijklmnopqr", "vwxyzfghijklmnopqr", false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *const known[] = {cases[i].known};
        const sl_words words = {known, 1};
        sl_phrase phrase = {0};
        sl_phrase_nearest(&phrase, &words, cases[i].text);
        ck_assert_msg((strncmp(phrase.text, "the nearest", 11) == 0) == cases[i].near, "%s for %s: %s",
                      cases[i].text, cases[i].known, phrase.text);
    }
    char word[64], slip[64];
    for (int length = 39; length <= 41; length++) {
        memset(word, 'a', sizeof word);
        word[length] = '\0';
        memcpy(slip, word, sizeof slip);
        slip[0] = 'b';
        const char *const known[] = {word, "short"};
        const sl_words words = {known, 2};
        sl_phrase phrase = {0};
        sl_phrase_nearest(&phrase, &words, slip);
        ck_assert_msg((strncmp(phrase.text, "the nearest", 11) == 0) == (length <= 40), "%d", length);
    }
}
END_TEST

/* Of two that are as near the first is named. */
START_TEST(the_first_of_two_nearest_is_named)
{
    static const char *const known[] = {"bat", "cat", "hat"};
    const sl_words words = {known, 3};
    sl_phrase phrase = {0};
    sl_phrase_nearest(&phrase, &words, "rat");
    ck_assert_str_eq(phrase.text, "the nearest known one is \"bat\"");
    phrase = (sl_phrase){0};
    sl_phrase_nearest(&phrase, &words, "hut");
    ck_assert_str_eq(phrase.text, "the nearest known one is \"hat\"");
}
END_TEST

/* ---- values under keys --------------------------------------------------------------------------------- */

static sl_arena kept;
static sl_error heard;
static const sl_reading reading = {.kept = &kept, .error = &heard};

/* The value under "v" of this text; freed with the document. */
static const sl_node *under_v(sl_yaml *document, const char *text)
{
    *document = (sl_yaml){.root = NULL};
    heard = (sl_error){.code = SL_OK};
    ck_assert_msg(sl_yaml_parse(document, text, strlen(text), "v.yaml", NULL), "%s", text);
    return sl_node_child(document->root, "v");
}

START_TEST(a_number_without_a_grade_is_assumed_and_a_graded_one_is_what_it_says)
{
    static const sl_range some = {SL_MEASURE_NUMBER, 0.0, 10.0};
    static const struct {
        const char *text;
        sl_code code;
        double value;
        sl_grade grade;
        const char *source;
    } cases[] = {
        {"v: 3", SL_OK, 3.0, SL_GRADE_ASSUMED, NULL},
        {"v: {value: 3}", SL_OK, 3.0, SL_GRADE_ASSUMED, NULL},
        {"v: {value: 3, source: a table}", SL_OK, 3.0, SL_GRADE_ASSUMED, "a table"},
        {"v: {value: 3, grade: fitted}", SL_OK, 3.0, SL_GRADE_FITTED, NULL},
        {"v: {value: 3, grade: measured here}", SL_OK, 3.0, SL_GRADE_MEASURED_HERE, NULL},
        {"v: {value: 3, grade: from memory}", SL_OK, 3.0, SL_GRADE_FROM_MEMORY, NULL},
        {"v: {value: 3, grade: published, source: a paper}", SL_OK, 3.0, SL_GRADE_PUBLISHED, "a paper"},
        {"v: {value: 3, grade: computed, source: a sum}", SL_OK, 3.0, SL_GRADE_COMPUTED, "a sum"},
        {"v: {value: 3, grade: published}", SL_ERR_MISSING_KEY, 7.0, SL_GRADE_FITTED, "old"},
        {"v: {value: 3, grade: computed}", SL_ERR_MISSING_KEY, 7.0, SL_GRADE_FITTED, "old"},
        {"v: {value: 11, grade: fitted}", SL_ERR_OUT_OF_RANGE, 7.0, SL_GRADE_FITTED, "old"},
        {"v: {grade: fitted}", SL_ERR_MISSING_KEY, 7.0, SL_GRADE_FITTED, "old"},
        {"v: {value: 3, activation: 60 kJ/mol}", SL_ERR_UNKNOWN_KEY, 7.0, SL_GRADE_FITTED, "old"},
        {"v: 11", SL_ERR_OUT_OF_RANGE, 7.0, SL_GRADE_FITTED, "old"},
        {"v: [3]", SL_ERR_WRONG_TYPE, 7.0, SL_GRADE_FITTED, "old"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_yaml document;
        sl_param param = {.value = 7.0, .grade = SL_GRADE_FITTED, .source = "old"};
        const bool good = sl_param_read(&reading, under_v(&document, cases[i].text), &some, &param);
        ck_assert_msg(heard.code == cases[i].code && good == (cases[i].code == SL_OK), "%s: %s",
                      cases[i].text, sl_code_name(heard.code));
        ck_assert_double_eq(param.value, cases[i].value);
        ck_assert_int_eq(param.grade, cases[i].grade);
        ck_assert_int_eq(param.source != NULL, cases[i].source != NULL);
        ck_assert(!param.source || strcmp(param.source, cases[i].source) == 0);
        sl_yaml_free(&document);
        sl_arena_free(&kept);
    }
}
END_TEST

/* A rate of the radical channel is of third order; each may have an energy of its own, and lose it again. */
START_TEST(a_rate_has_the_order_of_its_channel_and_perhaps_an_energy)
{
    static const struct {
        const char *text;
        bool good[SL_CHANNELS], own;
    } cases[] = {{"v: 2 L/(mol min)", {true, true, false}, false},
                 {"v: 2 L2/(mol2 min)", {false, false, true}, false},
                 {"v: {value: 2 L/(mol min), activation: 60 kJ/mol}", {true, true, false}, true},
                 {"v: {value: 2 L/(mol min), activation: 200 kJ/mol}", {true, true, false}, true},
                 {"v: {value: 2 L/(mol min), activation: 201 kJ/mol}", {false, false, false}, true},
                 {"v: {value: 2 L2/(mol2 min), activation: 0 kJ/mol}", {false, false, true}, true},
                 {"v: 1000 L/(mol min)", {true, true, false}, false},
                 {"v: 1001 L/(mol min)", {false, false, false}, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int c = 0; c < SL_CHANNELS; c++) {
            sl_yaml document;
            sl_rates rates = {.own_activation = {true, true, true}};
            ck_assert_msg(sl_rate_read(&reading, under_v(&document, cases[i].text), c, &rates) ==
                              cases[i].good[c],
                          "%s, %d", cases[i].text, c);
            if (cases[i].good[c]) {
                ck_assert_int_eq(rates.own_activation[c], cases[i].own);
                ck_assert(rates.own_activation[(c + 1) % SL_CHANNELS]);
                ck_assert_double_ge(rates.k[c].value, 2.0);
            }
            sl_yaml_free(&document);
            sl_arena_free(&kept);
        }
    }
    ck_assert_str_eq(sl_channel_key(SL_PERHYDROXYL), "peroxide");
    ck_assert_str_eq(sl_channel_key(SL_PERSULFATE), "persulfate");
    ck_assert_str_eq(sl_channel_key(SL_RADICAL), "radical");
}
END_TEST

/* Texts of one byte up to as many as may be; a block's last line end was meant by nobody. */
START_TEST(a_text_is_read_up_to_its_length)
{
    static const struct {
        const char *text;
        sl_text_kind kind;
        sl_code code;
        const char *read;
    } cases[] = {{"v: abcde", SL_TEXT_LINE, SL_OK, "abcde"},
                 {"v: abcdef", SL_TEXT_LINE, SL_ERR_TOO_LARGE, NULL},
                 {"v: a", SL_TEXT_LINE, SL_OK, "a"},
                 {"v: \"\"", SL_TEXT_LINE, SL_ERR_WRONG_TYPE, NULL},
                 {"v: [a]", SL_TEXT_LINE, SL_ERR_WRONG_TYPE, NULL},
                 {"v: |\n  abcde\n", SL_TEXT_LINE, SL_OK, "abcde"},
                 {"v: |\n  abcdef\n", SL_TEXT_LINE, SL_ERR_TOO_LARGE, NULL},
                 {"v: \"\\n\"", SL_TEXT_LINE, SL_ERR_WRONG_TYPE, NULL},
                 {"v: |\n  abcd\n", SL_TEXT_LINES, SL_OK, "abcd\n"},
                 {"v: |\n  a\n  b\n", SL_TEXT_LINE, SL_ERR_BAD_TEXT, NULL}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_yaml document;
        const char *read = NULL;
        const bool good = sl_text_read(&reading, under_v(&document, cases[i].text), cases[i].kind, 5, &read);
        ck_assert_msg(heard.code == cases[i].code, "%s: %s", cases[i].text, sl_code_name(heard.code));
        ck_assert_int_eq(good, cases[i].read != NULL);
        ck_assert(!good || strcmp(read, cases[i].read) == 0);
        ck_assert(good || !read);
        if (heard.code == SL_ERR_TOO_LARGE) {
            ck_assert_str_eq(heard.wanted, "5 bytes");
        }
        sl_yaml_free(&document);
        sl_arena_free(&kept);
    }
}
END_TEST

START_TEST(whole_numbers_words_and_names_are_what_they_are)
{
    sl_yaml document;
    int number = 7;
    bool yes = false;
    ck_assert(sl_whole_read(under_v(&document, "v: 3"), 3, 5, &number, &heard) && number == 3);
    sl_yaml_free(&document);
    ck_assert(sl_whole_read(under_v(&document, "v: 5.0"), 3, 5, &number, &heard) && number == 5);
    sl_yaml_free(&document);
    ck_assert(!sl_whole_read(under_v(&document, "v: 4.5"), 3, 5, &number, &heard) && number == 5);
    ck_assert_str_eq(heard.wanted, "wanted is a whole number");
    sl_yaml_free(&document);
    ck_assert(!sl_whole_read(under_v(&document, "v: 6"), 3, 5, &number, &heard));
    ck_assert_str_eq(heard.wanted, "wanted is 3 to 5");
    sl_yaml_free(&document);
    ck_assert(sl_yes_read(under_v(&document, "v: yes"), &yes, &heard) && yes);
    sl_yaml_free(&document);
    ck_assert(sl_yes_read(under_v(&document, "v: no"), &yes, &heard) && !yes);
    sl_yaml_free(&document);
    ck_assert(!sl_yes_read(under_v(&document, "v: yess"), &yes, &heard) && !yes);
    ck_assert_str_eq(heard.wanted, "the nearest known one is \"yes\"");
    sl_yaml_free(&document);
    char name[80];
    for (int length = 0; length <= 65; length++) {
        memset(name, 'a', sizeof name);
        name[length] = '\0';
        ck_assert_int_eq(sl_name_is_good(name), length >= 1 && length <= 64);
    }
    static const char *const bad[] = {"A", "a b", "a/b", "a.yaml", "..", "\xC3\xA9", "a_b", "a\n"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_msg(!sl_name_is_good(bad[i]), "%s", bad[i]);
    }
    ck_assert(sl_name_is_good("a-z09"));
}
END_TEST

START_SUITE("quantity")
ADD(times_are_minutes)
ADD(shares_may_be_percent)
ADD(peroxide_20_vol_is_6_percent)
ADD(other_volumes_follow_the_gas_law)
ADD(fahrenheit_becomes_celsius)
ADD(rates_and_lengths_carry_their_units)
ADD(a_missing_or_wrong_unit_is_refused)
ADD(what_is_no_plain_number_is_refused)
ADD(a_decimal_is_the_nearest_double)
ADD(zeros_do_not_count_as_digits)
CASE("messages")
ADD(a_share_out_of_range_says_what_one_is)
ADD(forty_characters_are_quoted_whole)
ADD(a_word_is_near_by_its_letters)
ADD(letters_that_changed_places_are_one_slip)
ADD(a_decimal_is_read_up_to_fifteen_digits_and_the_power_twenty_two)
ADD(zeros_are_held_up_to_a_bound)
ADD(each_unit_is_worth_what_it_is)
ADD(a_range_holds_its_ends)
ADD(numbers_in_messages_have_four_figures)
ADD(a_full_message_ends_with_a_whole_letter)
ADD(a_slip_is_told_by_its_steps)
ADD(the_first_of_two_nearest_is_named)
ADD(a_number_without_a_grade_is_assumed_and_a_graded_one_is_what_it_says)
ADD(a_rate_has_the_order_of_its_channel_and_perhaps_an_energy)
ADD(a_text_is_read_up_to_its_length)
ADD(whole_numbers_words_and_names_are_what_they_are)
END_SUITE
