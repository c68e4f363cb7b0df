/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a command's rows say, set for a terminal and for man. Each is made from sl_command_line alone.
 */
#ifndef SLOWLIFT_FRONT_HELP_H
#define SLOWLIFT_FRONT_HELP_H

#include "front/option.h"

/* What help and the page for man are made of, in the order in which they are read. */
typedef enum sl_help_part {
    SL_HELP_USAGE,     /* words: "slowlift run [OPTIONS] FILE" */
    SL_HELP_PARAGRAPH, /* of what it does */
    SL_HELP_OPTION,    /* words: "-o, --output FILE", or a key; more: what it does */
    SL_HELP_EXAMPLE,   /* a question */
    SL_HELP_TYPED      /* what answers it, as it stands */
} sl_help_part;
/* first: the first of its kind. more: NULL but for options. */
typedef void sl_help_pen(FILE *out, sl_help_part part, bool first, const char *words, const char *more);
void sl_help_tell(FILE *out, const sl_command_line *line, sl_help_pen *pen);

/* --help: usage, what it does, options, keys, examples. */
void sl_help_put(FILE *out, const sl_command_line *line);

/* Where things stand in a list of commands. */
typedef struct sl_command_lines {
    const sl_command_line *const *line; /* [n] */
    int n;
} sl_command_lines;

/* A page for man (section 1), in the language in use; about: what stands before the commands. */
void sl_manual_put(FILE *out, const sl_command_lines *lines, const char *about);

#endif
