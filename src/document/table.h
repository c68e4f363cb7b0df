/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables for machines: columns with keys, and rows that are pulled one by one and never held. A record is a
 * table of one row; a row may hold tables. CSV (csv.c) and JSON (json.c) write them, each by its own list of
 * columns where orders differ, from the same rows, so that a number has one key and one value in both.
 *
 * Invariant: whoever tells a row says each value under its column's key; a key that no column has is a
 * mistake.
 */
#ifndef SLOWLIFT_DOCUMENT_TABLE_H
#define SLOWLIFT_DOCUMENT_TABLE_H

#include <limits.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/minute.h"
#include "document/entry.h"
#include "slowlift/caution.h"

struct sl_json;
typedef struct sl_columns sl_columns;
struct sl_fields;
/* Members of the object that is open: what the rows of a record tell, of some of its turns (scene/field.h).
 */
typedef void sl_members(struct sl_json *json, const struct sl_fields *rows, const void *record, int from_turn,
                        int to_turn);

typedef struct sl_column {
    const char *key;        /* of CSV and JSON: never translated; NULL: values without keys, of a list */
    sl_entry_kind kind;     /* PLANNED, CLOCK, OUTCOME: whose minutes; NONE: follows from what is said */
    const char *in, *name;  /* JSON: in the object `in`, which is null where it has nothing, under `name` */
    const sl_columns *rows; /* a table within this row, or */
    bool one;               /*   a record: that of its one row */
    sl_members *members;    /* JSON: members of this object, and of which record; NULL: none */
    const struct sl_fields *fields;
    int digits; /* 0: nine significant ones; SL_CENTS; SL_AS_KEPT */
} sl_column;
enum {
    SL_CENTS = 1, /* two decimals: money */
    SL_AS_KEPT    /* CSV: as many digits as give the same number back; yes and no in words */
};

enum { SL_MOST_ENTRIES = 112, SL_ROW_WORDS = 8192, SL_MOST_BESIDE = 2 };

/* What stands under a column. */
typedef struct sl_slot {
    sl_entry entry;
    const char *about; /* the place or thing it is of, where that is not its row's; NULL: the row's */
    const void *of;    /* what a table, a record or members within this row tell of; NULL: it is an entry */
    long which;        /* of the table, the record: which of it; of members: the first turn */
    long n;            /* of the table: places that may hold a row; of members: the last turn */
} sl_slot;

/* The row that is being told. */
typedef struct sl_row {
    const sl_columns *columns;
    int at;                        /* where the next key is looked for first */
    sl_slot slot[SL_MOST_ENTRIES]; /* [columns->n] */
    size_t used;
    char words[SL_ROW_WORDS]; /* texts made for this row */
} sl_row;

typedef enum sl_told {
    SL_TOLD,
    SL_NOT_HERE, /* no row at this place; there may be at the next */
    SL_NO_MORE,
    SL_NOT_TOLD /* failed, and the error says why */
} sl_told;

/* Rows of something: `place` goes from 0 to n - 1, or until there are no more. */
typedef struct sl_table {
    const sl_columns *columns;
    const void *of;
    long which, place, n;
} sl_table;

struct sl_columns {
    const sl_column *column; /* [n] */
    int n;
    sl_told (*tell)(sl_row *row, const sl_table *table);
    bool flat;       /* JSON: a row, or a list of values, stands on one line */
    bool semicolons; /* CSV: a text with one is quoted, for who opens it where cells are parted by them */
    /* CSV with a line for each quantity: the first `lead` and the last `tail` columns stand in every line. */
    int lead, tail;
    const char
        *values; /* "before,after": two rows are told side by side, and said where both say it; NULL: one */
};
#define SL_COLUMNS(list, ...)                                                                                \
    {                                                                                                        \
        .column = (const sl_column[]){list},                                                                 \
        .n = (int)(sizeof((const sl_column[]){list}) / sizeof(sl_column)), __VA_ARGS__                       \
    }

/* ---- saying a row (table.c) ------------------------------------------------------------------- */

void sl_row_begin(sl_row *row, const sl_columns *columns);
void sl_row_text(sl_row *row, const char *key, const char *text); /* borrowed; NULL: nothing */
__attribute__((format(printf, 3, 4))) void sl_row_words(sl_row *row, const char *key, const char *format,
                                                        ...);
void sl_row_yes(sl_row *row, const char *key, bool yes);
void sl_row_number(sl_row *row, const char *key, double value); /* of a column of minutes, a minute */
/* A number that is told only where it is known: else it is not finite, which is nothing. */
double sl_if_known(bool known, double value);
void sl_row_null(sl_row *row, const char *key);
/* A number of another place than its row's. */
void sl_row_number_about(sl_row *row, const char *key, const char *about, double value);
void sl_row_rows(sl_row *row, const char *key, const void *of, long which, long n); /* of NULL: nothing */
void sl_row_members(sl_row *row, const char *key, const void *record, int from_turn, int to_turn);

/* Under "cautions", those that always stand, and those that are owed on the occasions, as documents end. */
void sl_row_cautions(sl_row *row, unsigned occasions);
extern const sl_columns sl_caution_list;

/* The next row; SL_NO_MORE after the last. */
sl_told sl_table_next(sl_table *table, sl_row *row);

/* Whether anything stands there: neither left out nor nothing. */
bool sl_slot_is_said(const sl_slot *slot);
/* A column's key as it is written: `key`, and whose minutes it holds where kinds are said (base/minute.h). */
const char *sl_column_key(const sl_column *column, const char *key, char text[SL_MINUTE_KEY]);

/* Whole numbers as a list of values: `of` is const int *. */
extern const sl_columns sl_whole_list;

/* ---- writing ---------------------------------------------------------------------------------- */

/* What a command tells machines. */
typedef struct sl_export {
    const char *name;             /* "limits": JSON begins with "format": "slowlift-limits/1" */
    int number;                   /* counts up when a key changes its meaning or goes */
    const sl_columns *json, *csv; /* NULL: there is none */
} sl_export;

/* False: the stream failed, or a row could not be told. */
bool sl_export_csv(FILE *out, const sl_export *export, const void *of);
bool sl_export_json(FILE *out, const sl_export *export, const void *of);

/* The head, all rows; and, where rows come without being pulled, one that was told. */
void sl_csv_put_head(FILE *out, const sl_columns *columns);
bool sl_csv_put_rows(FILE *out, const sl_columns *columns, const void *of);
bool sl_csv_put_row(FILE *out, const sl_row *row);

/* Whether a text needs a ' before it, lest a spreadsheet takes it for a formula. */
bool sl_csv_guards(const char *text);

#endif
