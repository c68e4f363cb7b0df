/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Row by row out of a file that is damaged or not as this program makes it, into a log that is.
 * Invariant: the log that is written holds only rows that this program could have kept.
 */
#ifndef SLOWLIFT_LOG_RESCUE_H
#define SLOWLIFT_LOG_RESCUE_H

#include "log/store/sql.h"

/* To read a file of ours whatever is in it; its tables are compared with nothing. */
bool sl_log_open_raw(sl_log **log, const char *path, sl_error *error); /* log.c */

/* Copies what can be read of `from` into `into`, whose tables are empty, in one change. */
bool sl_rescue_rows(sl_log *from, sl_log *into, sl_log_tally *tally, sl_error *error);

/* Whether the small tables of a log hold only what this program keeps: all but readings, which are looked
 * at when they are read. *fit; else `why` says what does not. False: they could not be looked at. */
bool sl_rescue_small_fit(sl_log *log, bool *fit, char why[160], sl_error *error);

/* From here on the log is read from a copy of what can be read. */
bool sl_rescue_into_copy(sl_log *log, sl_error *error);
/* After a read that failed: whether it should be tried again, now from a copy. */
bool sl_log_fall_back(sl_log *log, sl_error *error);
/* A reading that does not fit is not given, and told once. */
bool sl_log_leave_out(sl_log *log, int64_t kept, sl_error *error);

#endif
