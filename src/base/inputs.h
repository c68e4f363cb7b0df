/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What one call of a program reads, and what it was asked to write. Invariant: no output is an
 * input, and no two outputs are one file; files are told apart by device and inode, so links and
 * other spellings of a path hide nothing. An output is named as soon as the command line is read;
 * then the file that it would replace is refused the moment it is opened, before a byte of it is
 * parsed. Nothing is kept until sl_inputs_watch: who uses the library alone writes no files by it.
 */
#ifndef SLOWLIFT_BASE_INPUTS_H
#define SLOWLIFT_BASE_INPUTS_H

#include <stdbool.h>

#include "slowlift/error.h"

/* Once, at the start of a program. Where standard output is a file it is an output, and where standard
 * input is one it is an input. */
void sl_inputs_watch(void);

/* A file that was opened for reading; `what` says in English (N_()) what it is: "the scene that is
 * read". SL_ERR_USAGE when an output is the same file. */
bool sl_input_opened(int file, const char *path, const char *what, sl_error *error);
/* The same for a file that is opened elsewhere, by its path; it need not be there yet. */
bool sl_input_named(const char *path, const char *what, sl_error *error);
/* A file that is read and replaced, such as answers: no input, no other output. It may be read after. */
bool sl_input_replaced(const char *path, const char *what, sl_error *error);

/* A file that will be written. SL_ERR_USAGE when it is an input, or another output of this call. NULL is
 * allowed: nothing was asked for. */
bool sl_output_named(const char *path, sl_error *error);
/* At the time of writing: whether it is (still) none of the inputs. */
bool sl_output_allowed(const char *path, sl_error *error);
/* Whether a path such as /dev/stdout names standard output itself. */
bool sl_is_stdout(const char *path);

#endif
