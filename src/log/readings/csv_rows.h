/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * CSV as RFC 4180 has it, row by row, with the place of every cell. A mark at the beginning
 * (byte order mark) is passed over; where the first line has more ; than , the cells are parted
 * by ; as spreadsheets of many countries write them. Memory is bounded by one row.
 */
#ifndef SLOWLIFT_LOG_CSV_ROWS_H
#define SLOWLIFT_LOG_CSV_ROWS_H

#include <sha256.h>
#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"

enum { SL_CSV_CELLS = 64, SL_CSV_CELL_BYTES = 4096, SL_CSV_ROW_BYTES = 16384 };

typedef struct sl_csv_cell {
    const char *text; /* UTF-8 without control characters; ends in NUL */
    int line, column; /* where it begins, from 1; column in characters */
} sl_csv_cell;

typedef struct sl_csv_row {
    const char *file; /* as messages name it */
    char parted_by;   /* , or ; */
    int n;
    sl_csv_cell cell[SL_CSV_CELLS];
} sl_csv_row;

/* False with *error set refuses the row and ends the reading. */
typedef bool sl_csv_take(void *self, const sl_csv_row *row, sl_error *error);

/* Blank lines are no rows. sum: NULL, or what every byte of the file goes into. */
bool sl_csv_read(FILE *in, const char *file, SHA2_CTX *sum, sl_csv_take *take, void *self, sl_error *error);

#endif
