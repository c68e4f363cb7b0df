/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A row of CSV as a reading. The header says which column is which; docs/log.md has the columns.
 */
#ifndef SLOWLIFT_LOG_CSV_CELLS_H
#define SLOWLIFT_LOG_CSV_CELLS_H

#include "log/readings/csv_rows.h"
#include "log/readings/reading_columns.h"

/* Columns that say which swatch it was, beside those of a reading. */
enum {
    SL_CELL_TEST = SL_READING_COLUMNS, /* its id or how that begins */
    SL_CELL_ARM,                       /* must be that of the swatch */
    SL_CELL_KINDS
};
const char *sl_cell_name(int kind);
int sl_cell_kind(const char *name); /* SL_CELL_KINDS: no column has that name */

typedef struct sl_csv_header {
    int n;
    int kind[SL_CSV_CELLS];   /* of each column: an index of sl_reading_columns, or one of the above */
    int place[SL_CELL_KINDS]; /* of each kind: its column, -1 */
} sl_csv_header;

/* What a row said, before its swatch was looked for. */
typedef struct sl_csv_said {
    const char *test, *swatch, *arm; /* "" when not said */
    sl_log_reading reading;          /* reading.swatch is not filled */
} sl_csv_said;

bool sl_csv_header_read(sl_csv_header *header, const sl_csv_row *row, sl_error *error);
/* Fails at the first cell that is wrong. `said` holds bytes of the row and of `room`. */
bool sl_csv_cells_read(const sl_csv_header *header, const sl_csv_row *row, sl_csv_said *said,
                       sl_error *error);
/* A row that was not filled in: it says nothing, and names no judge or has the id that it was given. */
bool sl_csv_is_blank(const sl_csv_said *said);
/* SL_ERR_..., at the cell of this kind, or at the row when it has none. Always false. */
bool sl_csv_refuse(const sl_csv_header *header, const sl_csv_row *row, int kind, sl_code code,
                   const char *wanted, sl_error *error);

/* A cell of text without the ' that guards it (document/table.h). */
const char *sl_cell_unguarded(const char *text);

#endif
