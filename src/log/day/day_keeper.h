/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One thread writes the day's events, so that neither a log that another program keeps busy nor a
 * full disk holds up the next key, and least of all a stop; and it notices what other programs add to
 * the same test. Invariant: events reach the disk in the order of their keys; one that cannot be
 * written stays here and is tried again each second.
 */
#ifndef SLOWLIFT_LOG_DAY_KEEPER_H
#define SLOWLIFT_LOG_DAY_KEEPER_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/log.h"

typedef struct sl_day_keeper sl_day_keeper;

/* Borrows all it is given; from here on only its thread uses the log. path: of the log, to see
 * that the file is still the one that was opened. */
sl_day_keeper *sl_day_keeper_start(sl_log *log, const char *path, const char *test,
                                   const sl_log_swatch *swatches, int n_swatches, sl_error *error);
/* Waits a fifth of a second at most for the disk. False: there is no memory to keep it in. */
bool sl_day_keeper_put(sl_day_keeper *keeper, const sl_event *event, const char *note, sl_error *error);
/* How many are on no disk yet, and why the last try to write or to read failed (SL_OK: none has). */
int sl_day_keeper_waiting(sl_day_keeper *keeper, sl_error *why);
/* Tries once more, tells on stderr what is on no disk, frees. Returns how many that are. */
int sl_day_keeper_stop(sl_day_keeper *keeper); /* NULL is allowed: 0 */

/* What another program added since this was asked last, at most a second or two ago. events: [n] of
 * those known here, in memory of base/memory.h; afterwards they stand as the log has them, those that are
 * on no disk yet at the end, and new ones are marked `elsewhere`. Returns how many are new; 0 also when
 * there was no memory for them, which the next call makes good. */
int sl_day_keeper_news(sl_day_keeper *keeper, sl_event **events, size_t *capacity, int *n);
/* The same of readings: *readings[*n] is freed and replaced where others added some. */
void sl_day_keeper_readings(sl_day_keeper *keeper, sl_log_reading **readings, int *n);
/* Where the newest n_new of those from elsewhere begin; own ones may stand between. */
int sl_news_begin(const sl_event *events, int n, int n_new);

#endif
