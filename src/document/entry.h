/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands in one place of a table: a value, and what kind of value it is. Words for people are made of it
 * by sl_entry_words() alone, so that a share, a range or a minute reads the same wherever it stands.
 */
#ifndef SLOWLIFT_DOCUMENT_ENTRY_H
#define SLOWLIFT_DOCUMENT_ENTRY_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/optics.h"

typedef enum sl_entry_kind {
    SL_ENTRY_NONE,    /* nothing stands here */
    SL_ENTRY_NULL,    /* for machines: said to be nothing */
    SL_ENTRY_TEXT,    /* in the reader's language, or the user's own */
    SL_ENTRY_REST,    /* a text in place of the rest of its row */
    SL_ENTRY_YES,     /* for machines: value is 1 or 0 */
    SL_ENTRY_NUMBER,  /* at most `decimals` of them: "12", "0.5" */
    SL_ENTRY_FIXED,   /* all of them, so that a column lines up: "12.0" */
    SL_ENTRY_SHARE,   /* 0..1: "37 %", or "37 % (30-44)" where eight of ten lie in low..high */
    SL_ENTRY_BARE,    /* the same where the head says per cent: "37" */
    SL_ENTRY_PLANNED, /* a minute that somebody chose: "30 min" */
    SL_ENTRY_CLOCK,   /* a minute that a clock showed: "30 min" */
    SL_ENTRY_DOTS,    /* `value` full dots of `decimals` */
    SL_ENTRY_OUTCOME  /* a minute that the model found: "17 to 18 min" */
} sl_entry_kind;

typedef struct sl_entry {
    sl_entry_kind kind;
    int decimals;
    double value, low, high; /* low < high: a range */
    const char *text;        /* TEXT, REST */
    bool shows;              /* a colour beside it, where there are any */
    sl_srgb8 colour;
    const char *unit; /* of a number, the same in every language: "g"; NULL: none */
} sl_entry;

enum { SL_ENTRY_WORDS = 512 };
/* Its words in the language in use; returns text. */
const char *sl_entry_words(const sl_entry *entry, char text[SL_ENTRY_WORDS]);

/* Full and empty dots in a word; plain: of characters that every terminal has. Returns text. */
const char *sl_dots_words(int full, int of, bool plain, char text[SL_ENTRY_WORDS]);

/* "number", "share": for outlines. */
const char *sl_entry_kind_word(sl_entry_kind kind);

#endif
