/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The log's tables, and how an older log becomes a newer one.
 */
#ifndef SLOWLIFT_LOG_TABLES_H
#define SLOWLIFT_LOG_TABLES_H

#include "log/store/sql.h"

/* "slow" in ASCII: PRAGMA application_id. */
enum { SL_LOG_APPLICATION = 0x736c6f77 };

/* The steps from one version of the tables to another. */
bool sl_tables_build(sl_log *log, int from, int to, sl_error *error);
/* Make the tables of an empty file, or those that an older one lacks. */
bool sl_tables_make(sl_log *log, sl_error *error);
/* Whether the file is a log of a version that is read here. */
bool sl_tables_check(sl_log *log, int *version, sl_error *error);

/* The version that added a column; 1 for those that were there from the beginning. */
int sl_column_since(const char *name);

/* A table with all columns of today, to stand after FROM, out of a log of this version: what an older one
 * lacks is as its step would have made it. base: main, or as it was attached. */
enum { SL_ROWS = 160 };
const char *sl_rows_of(const char *base, const char *table, int version, char text[SL_ROWS]);

#endif
