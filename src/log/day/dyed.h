/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When the swatches of a test were dyed: a note of a closed form in the log, of the whole test; the last one
 * counts.
 *
 *     dyed: on=2026-11-24
 */
#ifndef SLOWLIFT_LOG_DYED_H
#define SLOWLIFT_LOG_DYED_H

#include "slowlift/log.h"

enum { SL_DYED_NOTE = 64 };
void sl_dyed_note(int day, char note[SL_DYED_NOTE]);
/* Sets *day where the note says one. False: it is no such note. */
bool sl_dyed_read(const char *note, int *day);
/* Days since 1970-01-01; 0: nobody said. */
bool sl_log_dyed(sl_log *log, const char *test, int *day, sl_error *error);

#endif
