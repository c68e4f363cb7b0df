/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Minutes in words. Whoever reads a minute must know whose it is: one that somebody chose, one that a clock
 * showed, or one that the model found, which is the only one that could be taken for advice. So every minute
 * that is printed passes here and names its kind.
 *
 * With SLOWLIFT_SAY=kinds in the environment each stands between two marks that take no room (U+200B planned,
 * U+200C clock, U+200D model; U+200E where it ends), so that a test reads kinds and need not guess at words.
 * Invariant: without it the words are those of snprintf.
 */
#ifndef SLOWLIFT_BASE_MINUTE_H
#define SLOWLIFT_BASE_MINUTE_H

#include <stddef.h>

typedef enum sl_minute_kind {
    SL_MINUTE_PLANNED, /* chosen: by a scene, a plan, a label, a form, an option, a rhythm of looks */
    SL_MINUTE_CLOCK,   /* measured on a day: by a clock, or told by whoever looked at one */
    SL_MINUTE_MODEL    /* found by the model */
} sl_minute_kind;

/* Looks at the environment; sl_program_start() does, before there are threads. */
void sl_minute_start(void);

/* As snprintf: words that hold minutes of this one kind, and return their length. */
int sl_minute_words(sl_minute_kind kind, char *text, size_t size, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* The key under which a machine reads a minute: `key`, and the mark of its kind where kinds are said. */
enum { SL_MINUTE_KEY = 64 };
const char *sl_minute_key(sl_minute_kind kind, const char *key, char text[SL_MINUTE_KEY]);

#endif
