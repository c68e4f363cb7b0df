/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers that are tapped: each word makes what the row reads, and what is typed is the same text.
 */
#include <stdio.h>
#include <string.h>

#include "ask/ask.h"
#include "base/language.h"
#include "suite.h"

/* Answered as usual, before the row. */
static sl_new_test asked_before(int row)
{
    sl_new_test asked = {.question = 0};
    sl_error error = {.code = SL_OK};
    for (int i = 0; i < row; i++) {
        char room[SL_ASK_TEXT];
        sl_ask_typed((sl_topic)i, sl_ask_usual((sl_topic)i, &asked, room), false, &asked, &error);
    }
    return asked;
}

static void reads(int row, const char *text)
{
    sl_new_test asked = asked_before(row);
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_ask_typed((sl_topic)row, text, true, &asked, &error), "%s: \"%s\": %s, %s",
                  sl_ask_rows[row].id, text, error.found, error.wanted);
}

START_TEST(every_word_that_is_offered_is_read)
{
    int n = 0;
    for (int row = 0; row < SL_TOPICS; row++) {
        const sl_new_test asked = asked_before(row);
        const sl_ask_words *const words = &sl_ask_rows[row].words;
        ck_assert_int_le(words->n, SL_ASK_WORDS);
        for (int word = 0; word < words->n; word++) {
            char room[SL_ASK_TEXT], text[SL_ASK_TEXT];
            const char *const usual = sl_ask_usual((sl_topic)row, &asked, room);
            if (row == SL_TOPIC_ORDER && word != SL_ASK_COLOURS) {
                continue; /* the first alone is no order yet */
            }
            sl_ask_tap((sl_topic)row, word, "", text);
            ck_assert_str_eq(text, _(words->word[word]));
            reads(row, text);
            ck_assert(sl_ask_holds((sl_topic)row, word, text));
            sl_ask_tap((sl_topic)row, word, usual, text);
            reads(row, text);
            n++;
        }
    }
    ck_assert_int_gt(n, 30);
}
END_TEST

static void taps(sl_topic row, const char *before, const char *word, const char *after)
{
    const sl_ask_words *const words = &sl_ask_rows[row].words;
    int i = 0;
    while (i < words->n && strcmp(words->word[i], word) != 0) {
        i++;
    }
    char text[SL_ASK_TEXT];
    ck_assert_int_lt(i, words->n);
    sl_ask_tap(row, i, before, text);
    ck_assert_str_eq(text, after);
}

START_TEST(a_tap_puts_in_takes_away_or_takes_the_place)
{
    taps(SL_TOPIC_QUESTION, "1", "4", "4");
    taps(SL_TOPIC_WHOSE, "2 K12", "3", "3");
    taps(SL_TOPIC_COLOURS, "red blue", "pink", "red, blue, pink");
    taps(SL_TOPIC_COLOURS, "red, blue, pink", "blue", "red, pink");
    taps(SL_TOPIC_COLOURS, "red", "red", "red"); /* one at least */
    taps(SL_TOPIC_STRENGTH, "vivid pastel", "deep", "deep");
    taps(SL_TOPIC_ORDER, "unknown", "violet", "violet");
    taps(SL_TOPIC_ORDER, "violet", "red", "violet, red");
    taps(SL_TOPIC_ORDER, "violet, red", "blue", "violet, blue");
    taps(SL_TOPIC_ORDER, "violet, red", "unknown", "unknown");
    taps(SL_TOPIC_CONTROLS, "untreated washed", "none", "none");
    taps(SL_TOPIC_CONTROLS, "none", "undyed", "undyed");
    taps(SL_TOPIC_BOWLS, "1:2, not read, not stated, new", "allowed", "1:2, not read, new, allowed");
    taps(SL_TOPIC_BOWLS, "1:2, 30 min, allowed", "not stated", "1:2, 30 min, not stated");
    taps(SL_TOPIC_BOWLS, "1:2, 30 min; 1:1", "allowed", "1:2, 30 min; 1:1, allowed"); /* the last mix's */
}
END_TEST

START_TEST(what_stands_is_told)
{
    ck_assert(sl_ask_holds(SL_TOPIC_WHOSE, 1, "2 K12"));
    ck_assert(!sl_ask_holds(SL_TOPIC_WHOSE, 0, "2 K12"));
    ck_assert(sl_ask_holds(SL_TOPIC_ROOT, 1, "Brown on 5"));
    ck_assert(!sl_ask_holds(SL_TOPIC_ROOT, 1, "brown on 4"));
    ck_assert(sl_ask_holds(SL_TOPIC_COLOURS, 1, "red orange"));
    ck_assert(!sl_ask_holds(SL_TOPIC_COLOURS, 4, "red orange"));
    ck_assert(!sl_ask_holds(SL_TOPIC_COLOURS, 0, ""));
}
END_TEST

START_TEST(an_order_offers_the_colours_on_the_hair)
{
    sl_new_test asked = asked_before(SL_TOPIC_COLOURS);
    sl_error error = {.code = SL_OK};
    ck_assert(sl_ask_typed(SL_TOPIC_COLOURS, "red violet", true, &asked, &error));
    ck_assert(sl_ask_offers(SL_TOPIC_ORDER, 0, &asked));
    ck_assert(!sl_ask_offers(SL_TOPIC_ORDER, 4, &asked));
    ck_assert(sl_ask_offers(SL_TOPIC_ORDER, SL_ASK_COLOURS, &asked));
    ck_assert(sl_ask_offers(SL_TOPIC_COLOURS, 4, &asked));
}
END_TEST

/* An answer of any length and form makes a text in its room. */
START_TEST(nothing_tapped_is_longer_than_an_answer)
{
    char long_[SL_ASK_TEXT] = "", text[SL_ASK_TEXT];
    for (size_t i = 0; i + 1 < sizeof long_; i++) {
        long_[i] = i % 30 == 29 ? ',' : i % 97 == 96 ? ';' : 'x';
    }
    for (int row = 0; row < SL_TOPICS; row++) {
        for (int word = 0; word < sl_ask_rows[row].words.n; word++) {
            sl_ask_tap((sl_topic)row, word, long_, text);
            ck_assert_uint_lt(strlen(text), sizeof text);
        }
    }
}
END_TEST

static void in_spanish(void)
{
    sl_error error = {.code = SL_OK};
    ck_assert(sl_language_use("es", "locale", &error));
}

START_SUITE("ask")
ADD(every_word_that_is_offered_is_read)
ADD(a_tap_puts_in_takes_away_or_takes_the_place)
ADD(what_stands_is_told)
ADD(an_order_offers_the_colours_on_the_hair)
ADD(nothing_tapped_is_longer_than_an_answer)
CASE("in Spanish")
FIXTURE(in_spanish, sl_language_stop)
ADD(every_word_that_is_offered_is_read)
END_SUITE
