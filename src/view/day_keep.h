/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One thread that writes the day's events, so that a log that another program keeps busy, or a disk
 * that is full, never holds up the next key. Invariant: events reach the disk in the order in
 * which they were put; one that cannot be written stays here and is tried again.
 */
#ifndef SLOWLIFT_VIEW_DAY_KEEP_H
#define SLOWLIFT_VIEW_DAY_KEEP_H

#include <stdbool.h>

#include "slowlift/log.h"

typedef struct sl_day_keeper sl_day_keeper;

/* Borrows log, test and swatches; from here on only the thread uses the log. */
sl_day_keeper *sl_day_keeper_start(sl_log *log, const char *test, const sl_log_swatch *swatches,
                                   int n_swatches, sl_error *error);
/* Waits a fifth of a second for the disk, then goes on. False: it could not even be kept here. */
bool sl_day_keeper_put(sl_day_keeper *keeper, const sl_event *event, const char *note, sl_error *error);
/* Events that are not on the disk yet, and why the last try failed (SL_OK: none has). */
int sl_day_keeper_waiting(sl_day_keeper *keeper, sl_error *why);
/* Tries once more, then tells on stderr what is on no disk, and frees. Returns how many. */
int sl_day_keeper_stop(sl_day_keeper *keeper); /* NULL is allowed: 0 */

#endif
