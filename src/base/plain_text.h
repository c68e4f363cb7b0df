/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Text from outside: what may come in, and how any bytes are shown. Every field of every file,
 * every option, everything typed goes through sl_text_accept(); whatever could not go through it
 * (what a message quotes, the name of a file, a row of a stranger's log) is shown by
 * sl_text_show().
 *
 * Invariant: an accepted text drives no terminal (no control character), is one line where one
 * line is asked for, and is what an eye sees: nothing in it is invisible or turns the direction of
 * writing. It is kept as it came, byte for byte, so that what is exported can be imported.
 */
#ifndef SLOWLIFT_BASE_PLAIN_TEXT_H
#define SLOWLIFT_BASE_PLAIN_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "slowlift/error.h"

typedef enum sl_text_kind {
    SL_TEXT_NAME,  /* what is told apart by its look: an arm, a zone, an operator, a word */
    SL_TEXT_LINE,  /* one line for people: a title, an origin, a tone */
    SL_TEXT_LINES, /* several: a question, a note */
    SL_TEXT_FILE   /* a whole file, with tabs and every kind of line end */
} sl_text_kind;

/* SL_ERR_NOT_UTF8 or SL_ERR_BAD_TEXT, with what was wrong and what would be right; line and column
 * (in characters, 1-based) are those within the text, the error's file is left as it was. An empty
 * text is accepted: whether one is needed is the caller's to know. */
bool sl_text_accept(const char *text, size_t length, sl_text_kind kind, sl_error *error);

/* Any bytes, harmless: what may not stand in a text of this kind becomes \u{200B}, a byte that is no
 * UTF-8 becomes \x{E9}. Writes at most size - 1 bytes, whole pieces only, and terminates; returns
 * the length of the whole, as snprintf does. */
size_t sl_text_show(const char *text, size_t length, sl_text_kind kind, char *shown, size_t size);

/* The same to a stream, as one line: the name of a file, what an environment says. */
void sl_text_put(FILE *out, const char *text);

/* Whether two names look the same, or so alike that one is taken for the other. */
bool sl_text_alike(const char *one, const char *other);

#endif
