/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What logs of before version 3 said in words (log_events.c).
 */
#ifndef SLOWLIFT_LOG_OLD_NOTES_H
#define SLOWLIFT_LOG_OLD_NOTES_H

#include <stdbool.h>

/* A note that a program, not a person, kept: "rehearsal: 60 times as fast", in either language; "done: bench
 * wiped". */
bool sl_old_flag(const char *note);

#endif
