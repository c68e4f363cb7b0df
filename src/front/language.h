/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The language of a program's words: --language WORD before or after the command, or the
 * environment.
 */
#ifndef SLOWLIFT_FRONT_LANGUAGE_H
#define SLOWLIFT_FRONT_LANGUAGE_H

#include <stdbool.h>

#include "slowlift/error.h"

/* Takes --language WORD out of argv, wherever it stands before "--", and goes over to that
 * language; without it to that of the environment, where its catalogue is there. The choice
 * is left in SLOWLIFT_LANGUAGE for programs started from here. */
bool sl_language_start(int *argc, char **argv, sl_error *error);

/* Goes over to that language while the program runs, for programs started from here too. No thread may run.
 * On failure English is in use. */
bool sl_language_go(const char *letters, sl_error *error);

#endif
