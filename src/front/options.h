/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is said of an option or a word that a program does not know: the nearest one is
 * named. Used by every program of the house.
 */
#ifndef SLOWLIFT_FRONT_OPTIONS_H
#define SLOWLIFT_FRONT_OPTIONS_H

#include <getopt.h>
#include <stdbool.h>

#include "slowlift/error.h"

/* getopt_long(), and a look at the value: unless it names a file, which may be called anything, it
 * is text (base/plain_text.h), or '?' comes back. */
int sl_option_next(int argc, char **argv, const char *letters, const struct option *known);

/* After sl_option_next() returned '?' or ':'; `program` names where --help is. Always false
 * with SL_ERR_USAGE. */
bool sl_option_refused(const char *program, int result, char **argv, const struct option *known,
                       sl_error *error);

/* Where a result goes and in which form: options that many commands have alike. */
typedef struct sl_result_wish {
    const char *output, *picture, *models;
    bool csv, json;
} sl_result_wish;
/* Takes 'o' --output, 'p' --picture, 'm' --models, 'c' --csv and 'j' --json with optarg; false: another
 * option. */
bool sl_result_option(sl_result_wish *wish, int option);
/* SL_ERR_USAGE when two forms were asked for. Names what will be written (base/inputs.h). */
bool sl_result_settle(const sl_result_wish *wish, sl_error *error);

/* The file of a command that takes exactly one; false with SL_ERR_USAGE. */
bool sl_one_file(const char *program, int argc, char **argv, const char **file, sl_error *error);

/* SL_ERR_USAGE for a word that is none of known[n]; names the nearest. what: of which it is none, in English
 * ("the arm"). Always false. */
bool sl_word_refused(const char *what, const char *word, const char *const *known, int n, sl_error *error);

#endif
