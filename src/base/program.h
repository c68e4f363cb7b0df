/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start of every program, and what is put back before one ends by a signal. Invariant: no signal that
 * can be caught leaves behind what sl_undo_put() has promised to put back.
 */
#ifndef SLOWLIFT_BASE_PROGRAM_H
#define SLOWLIFT_BASE_PROGRAM_H

#include <stdbool.h>
#include <time.h>

/* First in every main: starts the library; a write that cannot be done (a pipe that nobody reads, a file
 * that reached its limit) fails as a write and is told as one, and ends no program by a signal. */
void sl_program_start(void);

/* After it, where a program that is stopped with Ctrl-C ends with the exit code for that, 4, in place of
 * dying by the signal; what was promised to be undone is undone first. Where Ctrl-C is ignored it stays so.
 */
void sl_program_stoppable(void);

/* How far long work is: a line on stderr, where that is a terminal, once it has taken a second. */
typedef struct sl_progress {
    bool terminal, shown;
    struct timespec begun, said;
} sl_progress;
sl_progress sl_progress_begin(void);
bool sl_progress_due(const sl_progress *progress); /* whether to say it again */
void sl_progress_say(sl_progress *progress, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sl_progress_end(const sl_progress *progress); /* the line goes */

/* Called from a signal's handler: only what signal-safety(7) allows. */
typedef void sl_undo(void);

/* From here on `undo` is called when a signal comes that would end the program. By main's thread. */
void sl_undo_put(sl_undo *undo);
void sl_undo_drop(sl_undo *undo);

/* Whoever can end in good order asks for it: then the first signal that asks for an end only is
 * remembered, after its undoing, and the second one ends the program at once. */
void sl_signals_wait(void);
int sl_signal_waiting(void); /* 0: none came */
/* All is in order: what was asked for happens now. Comes back when nothing was. */
void sl_signal_obey(void);

#endif
