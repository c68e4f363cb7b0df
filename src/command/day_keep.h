/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One thread writes the day's events, so that neither a log that another program keeps busy nor a
 * full disk holds up the next key, and least of all a stop. Invariant: events reach the disk in the
 * order of their keys; one that cannot be written stays here and is tried again each second.
 */
#ifndef SLOWLIFT_COMMAND_DAY_KEEP_H
#define SLOWLIFT_COMMAND_DAY_KEEP_H

#include <stdbool.h>

#include "slowlift/log.h"

typedef struct sl_day_keep sl_day_keep;

/* Borrows all it is given; from here on only its thread uses the log. path: of the log, to see
 * that the file is still the one that was opened. */
sl_day_keep *sl_day_keep_start(sl_log *log, const char *path, const char *test, const sl_log_swatch *swatches,
                               int n_swatches, sl_error *error);
/* Waits a fifth of a second at most for the disk. False: there is no memory to keep it in. */
bool sl_day_keep_put(sl_day_keep *keep, const sl_event *event, const char *note, sl_error *error);
/* How many are on no disk yet, and why the last try failed (SL_OK: none has). */
int sl_day_keep_waiting(sl_day_keep *keep, sl_error *why);
/* Tries once more, tells on stderr what is on no disk, frees. Returns how many that are. */
int sl_day_keep_stop(sl_day_keep *keep); /* NULL is allowed: 0 */

#endif
