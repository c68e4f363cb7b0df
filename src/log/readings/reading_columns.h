/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The columns of a reading, once for the table, for CSV and for JSON. Names are those of
 * tables.c; tests hold them together.
 */
#ifndef SLOWLIFT_LOG_READING_COLUMNS_H
#define SLOWLIFT_LOG_READING_COLUMNS_H

#include <stdbool.h>
#include <stddef.h>

#include "log/store/sql.h"

typedef enum sl_kept_kind {
    SL_COLUMN_UUID,
    SL_COLUMN_TEXT,
    SL_COLUMN_CODE,
    SL_COLUMN_TIME,
    SL_COLUMN_HASH,
    SL_COLUMN_YES_NO, /* int: 1, 0, SL_NOT_SAID */
    SL_COLUMN_WORD,   /* int: of the list `said` */
    SL_COLUMN_COUNT,  /* int: 0 = not said */
    SL_COLUMN_NUMBER, /* double: SL_NOT_READ */
    SL_COLUMN_WHOLE   /* of tables that are no readings */
} sl_kept_kind;

typedef struct sl_kept_column {
    const char *name;
    sl_kept_kind kind;
    size_t offset, size; /* of the member of sl_log_reading; size of its text */
    double least, most;  /* of a number or a count */
    sl_said said;        /* SL_COLUMN_WORD */
} sl_kept_column;

enum { SL_READING_COLUMNS = 30 };
/* Places of some. */
enum {
    SL_READING_ID = 0,
    SL_READING_SWATCH = 1,
    SL_READING_ZONE = 2,
    SL_READING_MINUTE = 3,
    SL_READING_HOURS = 4,
    SL_READING_JUDGE = 5,
    SL_READING_GRADE = 8,
    SL_READING_FEEL = 10,
    SL_READING_STRETCH = 11,
    SL_READING_L = 13,
    SL_READING_A = 14,
    SL_READING_B = 15,
    SL_READING_LEVEL = 23,
    SL_READING_REPLACES = 28
};
extern const sl_kept_column sl_reading_columns[SL_READING_COLUMNS];
/* Index of a column, -1: none of that name. */
int sl_reading_column(const char *name);

/* The member that a column stands for, as text: NULL when nothing was said. Numbers are written
 * with as many digits as give the same number back. */
enum { SL_COLUMN_WRITTEN = 40 };
const char *sl_column_text(const sl_kept_column *column, const sl_log_reading *reading,
                           char written[SL_COLUMN_WRITTEN]);

/* "SELECT column, ..." and the like: the names of all columns, with a prefix, by commas. */
void sl_column_names(const char *prefix, char *text, size_t size);
/* The reading must stay as it is until the statement has run. */
void sl_columns_put(sl_statement *put, const sl_log_reading *reading);
/* The columns in their order, from column `first` of the row on, which fit (rows.h). */
void sl_columns_get(sl_statement *ask, int first, sl_log_reading *reading);

#endif
