/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening what somebody named to be read. Invariant: what is opened is a file with an end, of at
 * most the bytes its kind may have; a pipe, a terminal, a device or a socket, which could hold the
 * program up for ever, is refused before a byte of it is asked for, and nothing here waits.
 */
#ifndef SLOWLIFT_BASE_INPUT_H
#define SLOWLIFT_BASE_INPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"

/* What a kind of file may hold, in bytes, and in words. */
typedef struct sl_input_most {
    long long bytes;
    const char *words; /* such as "1 MiB" */
} sl_input_most;

/* NULL with SL_ERR_CANNOT_READ or SL_ERR_TOO_LARGE, the path in error->file. *absent (may be NULL) is
 * set when the failure is that no such file exists. The stream is closed with fclose. */
FILE *sl_input_open(const char *path, sl_input_most most, bool *absent, sl_error *error);

#endif
