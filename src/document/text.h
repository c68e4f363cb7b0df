/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words on a terminal: how wide a text stands, cells of a given width, paragraphs.
 * Texts are UTF-8; width is in columns of a fixed-pitch face.
 */
#ifndef SLOWLIFT_DOCUMENT_TEXT_H
#define SLOWLIFT_DOCUMENT_TEXT_H

#include <stddef.h>
#include <stdio.h>

#include "base/minute.h"

/* Columns that `text` takes: combining marks take none, East Asian wide characters two. */
int sl_text_width(const char *text);

/* `text` in exactly `width` columns, to the left or to the right; a longer text is cut
 * and ends in "…". */
void sl_put_left(FILE *out, const char *text, int width);
void sl_put_right(FILE *out, const char *text, int width);
/* A title in `width` columns, behind `before` that are taken; one that is wider stands whole, and its row
 * goes on below it. */
void sl_put_title(FILE *out, const char *title, int before, int width);
void sl_put_spaces(FILE *out, int count);

/* `text` broken at spaces to lines of at most `width` columns. The first line opens with
 * `lead`, the others, those after a line end of the text too, with as many spaces: nothing in a text
 * can pass for a line of the page. */
void sl_put_paragraph(FILE *out, const char *lead, const char *text, int width);

/* The same behind so many columns that are written already. */
void sl_put_onward(FILE *out, int column, const char *text, int width);

/* The same with `mark` before each line, the first and the others. */
void sl_put_marked(FILE *out, const char *mark, const char *text, int width);

/* As one word of a command that is shown: in quotes where a shell would take it for more or else. word: as
 * it may be shown (sl_text_show). */
void sl_shell_word(const char *word, char *text, size_t size);

/* A share 0..1 as a whole per cent without sign of precision it does not have: "37",
 * "<1" above nothing and below a half, "0". */
void sl_percent(double share, char *text, size_t size);
/* The same with a decimal below 10, where it decides what is said: "37", "1.5", "<0.1". */
void sl_of_hundred(double share, char *text, size_t size);

/* A computed time as the whole minutes it lies between, "17 to 18 min": never one minute
 * alone, never with decimals. */
void sl_minutes_range(double minutes, char *text, size_t size);
/* The same without the unit: "17-18" with "-" between. */
void sl_minutes_between(double minutes, const char *between, char *text, size_t size);

/* A time that somebody chose or a clock showed: "30", or "0:45" with seconds. */
void sl_clock_time(sl_minute_kind kind, double minutes, char *text, size_t size);

/* A number without needless zeros, at most `decimals` of them: "12", "0.5". */
void sl_short_number(double value, int decimals, char *text, size_t size);

#endif
