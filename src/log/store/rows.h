/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every table's columns, and what a row of ours may hold: ranges, lengths in bytes, forms. The tables' own
 * CHECKs say less (docs/log.md), and a file may have been written around them.
 */
#ifndef SLOWLIFT_LOG_ROWS_H
#define SLOWLIFT_LOG_ROWS_H

#include "log/readings/reading_columns.h"

typedef struct sl_kept_table {
    const char *name;
    const char *one;               /* a row of it, in a message */
    const sl_kept_column *columns; /* [n] without `kept` */
    int n;
    bool ordered; /* has `kept`, the order in which rows were kept */
} sl_kept_table;

/* In the order in which they refer to each other. */
enum { SL_KEPT_TABLES = 7, SL_KEPT_READINGS = 5 };
extern const sl_kept_table sl_kept_tables[SL_KEPT_TABLES];

/* "id, title, ...": every column by commas. */
enum { SL_KEPT_NAMES = 512 };
const char *sl_kept_names(const sl_kept_table *table, char text[SL_KEPT_NAMES]);

/* Whether the value at `at` of the row is null or one that this program keeps in that column. */
bool sl_value_fits(sl_statement *row, int at, const sl_kept_column *column);
/* The columns in their order, from column `first` of the row on; NULL, or the one that does not fit. */
const sl_kept_column *sl_row_unfit(sl_statement *row, int first, const sl_kept_column *columns, int n);
/* Whether a row's number can be one: SQLite gives them out from 1 on. */
bool sl_row_number_fits(int64_t number);

#endif
