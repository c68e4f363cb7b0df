/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of an answer: short words and numbers, parted by commas, spaces or semicolons. A word counts in
 * English and in the language in use.
 */
#ifndef SLOWLIFT_ASK_PARTS_H
#define SLOWLIFT_ASK_PARTS_H

#include "ask/ask.h"

enum { SL_ANSWER_PARTS = 16, SL_ANSWER_PART = 64 };
typedef struct sl_answer_parts {
    int n;
    char part[SL_ANSWER_PARTS][SL_ANSWER_PART];
} sl_answer_parts;

/* Parted at any of these, without spaces around them. False: too many, or one too long. */
bool sl_answer_part(const sl_node *node, const char *at, sl_answer_parts *parts, sl_error *error);
bool sl_answer_is(const char *part, const char *word);
/* Which of the words; -1: none. */
int sl_answer_word(const char *part, const char *const *words, int n);
/* A list of words: at commas, or at spaces where there are none and the whole is none of the words. */
bool sl_answer_list(const sl_node *node, const char *const *words, int n, sl_answer_parts *parts,
                    sl_error *error);

#endif
