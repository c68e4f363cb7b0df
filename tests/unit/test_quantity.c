/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene/yaml/quantity.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "scene/yaml/phrase.h"
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
END_SUITE
