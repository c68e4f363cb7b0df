/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines of a part: a word, then numbers each behind a blank. All return false with the error set
 * to the line, but for part_line_is, part_skip and part_digits, which only say no.
 */
#ifndef SLOWLIFT_SCENE_PART_LINES_H
#define SLOWLIFT_SCENE_PART_LINES_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/model.h"

typedef struct part_reader {
    const sl_scene *scene;
    const char *name, *at, *end; /* `end`: where the checksum's line begins */
    int line;
    sl_error *error;
} part_reader;

bool part_refuse(const part_reader *r, sl_code code, const char *found, const char *wanted);
bool part_malformed(const part_reader *r);
/* Whether the next line begins with this word; then stand behind it. */
bool part_line_is(part_reader *r, const char *word);
bool part_want_line(part_reader *r, const char *word);
/* Step over this character if it comes next. */
bool part_skip(part_reader *r, char wanted);
bool part_digits(part_reader *r, uint64_t *value);
/* A blank, then a whole number from least to most. */
bool part_whole(part_reader *r, int64_t least, int64_t most, int64_t *value);
bool part_small(part_reader *r, int least, int most, int *value);
/* A blank and sixteen hexadecimal digits; for a double its bits. */
bool part_hex(part_reader *r, uint64_t *bits);
bool part_number(part_reader *r, double *value);
bool part_line_ends(part_reader *r);

#endif
