/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening what somebody named to be read. Invariant: what is opened is a file with an end, of at
 * most the bytes its kind may have; a pipe, a terminal, a device or a socket, which could hold the
 * program up for ever, is refused before a byte of it is asked for, and nothing here waits.
 */
#ifndef SLOWLIFT_BASE_PLAIN_FILE_H
#define SLOWLIFT_BASE_PLAIN_FILE_H

#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"

/* What a kind of file may hold, in bytes, and in words. */
typedef struct sl_file_most {
    long long bytes;
    const char *words; /* such as "1 MiB" */
} sl_file_most;

/* `what` as in base/inputs.h, which is told of it. NULL with SL_ERR_CANNOT_READ or SL_ERR_TOO_LARGE, the
 * path in error->file, or with SL_ERR_USAGE when an output is the same file. *absent (may be NULL) is
 * set when the failure is that no such file exists. The stream is closed with fclose. */
FILE *sl_plain_file_open(const char *path, const char *what, sl_file_most most, bool *absent,
                         sl_error *error);

/* The whole of it, of at most so many bytes though it grows while it is read, and a '\0' behind it; *text is
 * freed with sl_free. */
bool sl_plain_file_read(const char *path, const char *what, sl_file_most most, char **text, size_t *length,
                        bool *absent, sl_error *error);
/* Whether so many bytes are not more than the kind may have; else false with SL_ERR_TOO_LARGE. */
bool sl_file_fits(long long bytes, sl_file_most most, const char *path, sl_error *error);

#endif
