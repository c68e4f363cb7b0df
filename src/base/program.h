/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start of every program, and what is put back before one ends by a signal. Invariant: no signal that
 * can be caught leaves behind what sl_undo_put() has promised to put back.
 */
#ifndef SLOWLIFT_BASE_PROGRAM_H
#define SLOWLIFT_BASE_PROGRAM_H

/* First in every main: starts the library; a write that cannot be done (a pipe that nobody reads, a file
 * that reached its limit) fails as a write and is told as one, and ends no program by a signal. */
void sl_program_start(void);

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
