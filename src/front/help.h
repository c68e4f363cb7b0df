/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a command's rows say, set for people and for shells. Each is made from sl_command_line alone.
 */
#ifndef SLOWLIFT_FRONT_HELP_H
#define SLOWLIFT_FRONT_HELP_H

#include "front/option.h"

/* --help: usage, what it does, options, keys, examples. */
void sl_help_put(FILE *out, const sl_command_line *line);

/* Where things stand in a list of commands. */
typedef struct sl_command_lines {
    const sl_command_line *const *line; /* [n] */
    int n;
} sl_command_lines;

/* A page for man (section 1), in the language in use; about: what stands before the commands. */
void sl_manual_put(FILE *out, const sl_command_lines *lines, const char *about);

/* "bash", "zsh", "fish". */
extern const sl_word_list sl_shells;
/* Completion for one of them: commands, options, words of options, and which files come next. */
void sl_completion_put(FILE *out, const sl_command_lines *lines, int shell);

/* "-o, --output FILE", as it is typed. */
enum { SL_OPTION_WORDS = 64 };
void sl_option_words(const sl_option *option, char words[SL_OPTION_WORDS]);
/* Calls `tell` for each option that is told. */
typedef void sl_option_tell(FILE *out, const sl_command_line *line, const sl_option *option);
void sl_options_tell(FILE *out, const sl_command_line *line, sl_option_tell *tell);

#endif
