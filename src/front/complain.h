/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The end of a program's work: its exit code, what went wrong, and whether everything was written.
 */
#ifndef SLOWLIFT_FRONT_COMPLAIN_H
#define SLOWLIFT_FRONT_COMPLAIN_H

#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"

/* What a shell sees. Documented in docs/guide.md, "Exit codes". */
typedef enum sl_exit {
    SL_EXIT_OK = 0,
    SL_EXIT_MODEL = 1,  /* the file or the model is wrong */
    SL_EXIT_USAGE = 2,  /* the command line is wrong */
    SL_EXIT_PART = 3,   /* a part, the display, memory or the disk is missing or failed */
    SL_EXIT_PARTIAL = 4 /* Ctrl-C: what was counted until then was written */
} sl_exit;

/* Says on stderr what is wrong and returns the exit code that belongs to it. */
sl_exit sl_complain(const sl_error *error);

/* Flush stdout and see whether everything was written: a full disk is said and is
 * SL_EXIT_PART; a reader that went away (head, a pager) is no error. `good`: the writer
 * saw no failure. */
sl_exit sl_finish_output(bool good);

/* Write a result to stdout, or whole to the file that -o named (output NULL: stdout). */
typedef bool sl_result_writer(FILE *out, const void *what); /* false: the stream failed */
sl_exit sl_write_result(const char *output, sl_result_writer *write, const void *what);

#endif
