/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether the tables of a file are those that this program makes, to the letter: a trigger, a view, an
 * index or a column more could swallow or change what is written. Invariant: nothing is written to a file
 * of which that is not so.
 */
#ifndef SLOWLIFT_LOG_KNOWN_H
#define SLOWLIFT_LOG_KNOWN_H

#include "log/store/sql.h"

/* Before anything of the file is used: nothing that it brings is run, and nothing of it is large. */
bool sl_known_settle(sl_log *log, sl_error *error);

enum { SL_STRANGE = 120 };
/* Compares the tables of `base` ("main", or as it was attached) with those of a version. *known: they are
 * the same; else `what` says which thing is not. False: they could not be compared. */
bool sl_known_compare(sl_log *log, const char *base, int version, bool *known, char what[SL_STRANGE],
                      sl_error *error);
/* True where the log's tables are those of the version; else false with SL_ERR_STRANGE_LOG. */
bool sl_known_refuse_strange(sl_log *log, int version, sl_error *error);
bool sl_known_strange(const sl_log *log, const char *what, sl_error *error); /* always false */

#endif
