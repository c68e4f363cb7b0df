/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Short texts for messages, put together piece by piece. Invariant: a phrase is always
 * NUL-terminated printable UTF-8 of at most SL_ERROR_TEXT_SIZE - 1 bytes; pieces of a
 * person's file go in quoted, cut, and shown by sl_text_show(). No function
 * here looks at the locale.
 */
#ifndef SLOWLIFT_SCENE_PHRASE_H
#define SLOWLIFT_SCENE_PHRASE_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include "slowlift/error.h"

typedef struct sl_phrase {
    char text[SL_ERROR_TEXT_SIZE];
    size_t length;
} sl_phrase; /* start with {0} */

void sl_phrase_add(sl_phrase *phrase, const char *piece);
/* "piece", in quotation marks, at most 40 characters of it. */
void sl_phrase_quote(sl_phrase *phrase, const char *piece);
void sl_phrase_integer(sl_phrase *phrase, long number);
/* Up to four significant digits, with a point in every locale. */
void sl_phrase_number(sl_phrase *phrase, double number);

/* Whether two words are one. Most that a file's keys are compared with differ in their first letter. */
static inline bool sl_words_same(const char *one, const char *two)
{
    return one[0] == two[0] && strcmp(one, two) == 0;
}

/* Words that may stand in one place. */
typedef struct sl_words {
    const char *const *word; /* [n] */
    int n;
} sl_words;

/* Index of `text` among the words, or -1. */
int sl_words_find(const sl_words *words, const char *text);
enum { SL_NEARBY_LETTERS = 40 };
/* Slips of a typist from one word to another, each of at most SL_NEARBY_LETTERS bytes. */
int sl_slips(const char *one, const char *two);
/* Whether so many are few for that word: no more than a third of its letters. */
bool sl_slips_few(const char *word, int slips);
/* Adds "the nearest known one is ..." when a word is close to `text`, else the list. */
void sl_phrase_nearest(sl_phrase *phrase, const sl_words *words, const char *text);

#endif
