/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables as CSV: RFC 4180 quoting, lines end in LF, UTF-8, a point in every locale. Either a line for each
 * row, or, of columns with a lead, a line for each quantity of a row: lead, quantity, value, tail.
 *
 * Invariant: no cell of text begins with a character that a spreadsheet takes for a formula; nothing is held
 * but the row that is written.
 */
#include <stdlib.h>
#include <string.h>

#include "base/minute.h"
#include "document/table.h"

bool sl_csv_guards(const char *text)
{
    const char *const bare = text + strspn(text, "'");
    return *bare != '\0' && strchr("=+-@\t\r", *bare) != NULL;
}

static void put_text(FILE *out, const sl_columns *columns, const char *text)
{
    const char *const guard = sl_csv_guards(text) ? "'" : "";
    if (!strpbrk(text, columns->semicolons ? ",;\"\r\n" : ",\"\r\n")) {
        fputs(guard, out);
        fputs(text, out);
        return;
    }
    fputc('"', out);
    fputs(guard, out);
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '"') {
            fputc('"', out);
        }
        fputc(*at, out);
    }
    fputc('"', out);
}

/* 15 digits are tried before 17. */
static void put_exact(FILE *out, double value)
{
    char text[40];
    snprintf(text, sizeof text, "%.15g", value);
    const double back = strtod(text, NULL);
    fprintf(out, back < value || back > value ? "%.17g" : "%.15g", value);
}

static void put_number(FILE *out, int digits, double value)
{
    if (digits == SL_AS_KEPT) {
        put_exact(out, value);
    } else {
        fprintf(out, digits == SL_CENTS ? "%.2f" : "%.9g", value);
    }
}

static void put_slot(FILE *out, const sl_columns *columns, const sl_column *column, const sl_slot *slot)
{
    if (slot->entry.kind == SL_ENTRY_YES && column->digits == SL_AS_KEPT) {
        fputs(slot->entry.value > 0.0 ? "yes" : "no", out);
    } else if (slot->entry.kind == SL_ENTRY_TEXT) {
        put_text(out, columns, slot->entry.text);
    } else if (!slot->of && sl_slot_is_said(slot)) { /* a table has no cell */
        put_number(out, column->digits, slot->entry.value);
    }
}

static void put_key(FILE *out, const sl_columns *columns, const sl_column *column)
{
    char key[SL_MINUTE_KEY];
    put_text(out, columns, sl_column_key(column, column->key, key));
}

/* ---- a line for each row ----------------------------------------------------------------------- */

static void put_line(FILE *out, const sl_row *row)
{
    for (int i = 0; i < row->columns->n; i++) {
        fputs(i > 0 ? "," : "", out);
        put_slot(out, row->columns, &row->columns->column[i], &row->slot[i]);
    }
    fputc('\n', out);
}

/* ---- a line for each quantity ------------------------------------------------------------------- */

/* What a line says between lead and tail: as many values as rows are told side by side. */
typedef struct sl_csv_quantity {
    const char *name, *about;
    const sl_column *column; /* of the value */
    const sl_slot *value[SL_MOST_BESIDE];
} sl_csv_quantity;

static int beside_of(const sl_columns *columns)
{
    return columns->values ? SL_MOST_BESIDE : 1;
}

static void put_quantity(FILE *out, const sl_row *row, const sl_csv_quantity *quantity)
{
    const sl_columns *const columns = row->columns;
    for (int i = 0; i < columns->lead; i++) {
        if (i == columns->lead - 1 && quantity->about) {
            put_text(out, columns, quantity->about);
        } else {
            put_slot(out, columns, &columns->column[i], &row->slot[i]);
        }
        fputc(',', out);
    }
    put_text(out, columns, quantity->name);
    for (int i = 0; i < beside_of(columns); i++) {
        fputc(',', out);
        put_slot(out, columns, quantity->column, quantity->value[i]);
    }
    for (int i = columns->n - columns->tail; i < columns->n; i++) {
        fputc(',', out);
        put_slot(out, columns, &columns->column[i], &row->slot[i]);
    }
    fputc('\n', out);
}

/* A list: its values under the key, each of what its first column says, if it has two; without a key that is
 * what each is called. */
static sl_told put_list(FILE *out, const sl_row *row, int at, const char *key)
{
    const sl_columns *const columns = row->columns->column[at].rows;
    const int beside = beside_of(row->columns), last = columns->n - 1;
    sl_table table[SL_MOST_BESIDE];
    sl_row one[SL_MOST_BESIDE];
    sl_told told = SL_TOLD;
    for (int i = 0; i < beside; i++) {
        const sl_slot *const list = &row[i].slot[at];
        table[i] = (sl_table){.columns = columns, .of = list->of, .which = list->which, .n = list->n};
    }
    for (;;) {
        sl_csv_quantity quantity = {.name = key, .column = &columns->column[last]};
        bool said = true;
        for (int i = 0; i < beside; i++) {
            told = sl_table_next(&table[i], &one[i]);
            if (told != SL_TOLD) {
                return told;
            }
            quantity.value[i] = &one[i].slot[last];
            said = said && sl_slot_is_said(quantity.value[i]);
        }
        if (last > 0) {
            *(key ? &quantity.about : &quantity.name) = one[0].slot[0].entry.text;
        }
        if (said) {
            put_quantity(out, row, &quantity);
        }
    }
}

static sl_told put_quantities(FILE *out, const sl_row *row)
{
    const sl_columns *const columns = row->columns;
    sl_told told = SL_TOLD;
    for (int i = columns->lead; told != SL_NOT_TOLD && i < columns->n - columns->tail; i++) {
        char key[SL_MINUTE_KEY];
        const sl_column *const column = &columns->column[i];
        sl_csv_quantity quantity = {.name = column->key ? sl_column_key(column, column->key, key) : NULL,
                                    .about = row->slot[i].about,
                                    .column = column};
        bool said = true;
        for (int j = 0; j < beside_of(columns); j++) {
            quantity.value[j] = &row[j].slot[i];
            said = said && sl_slot_is_said(quantity.value[j]);
        }
        if (said && row->slot[i].of) {
            told = put_list(out, row, i, quantity.name);
        } else if (said) {
            put_quantity(out, row, &quantity);
        }
    }
    return told;
}

/* ---- both ---------------------------------------------------------------------------------------- */

void sl_csv_put_head(FILE *out, const sl_columns *columns)
{
    for (int i = 0; i < columns->n; i++) {
        const bool is_quantity = columns->lead > 0 && i >= columns->lead && i < columns->n - columns->tail;
        fputs(i > 0 && (!is_quantity || i == columns->lead) ? "," : "", out);
        if (!is_quantity) {
            put_key(out, columns, &columns->column[i]);
        } else if (i == columns->lead) {
            fprintf(out, "quantity,%s", columns->values ? columns->values : "value");
        }
    }
    fputc('\n', out);
}

bool sl_csv_put_row(FILE *out, const sl_row *row)
{
    if (row->columns->lead > 0) {
        return put_quantities(out, row) != SL_NOT_TOLD && ferror(out) == 0;
    }
    put_line(out, row);
    return ferror(out) == 0;
}

/* The rows that stand side by side in the next lines. */
static sl_told next_rows(sl_table *table, sl_row row[SL_MOST_BESIDE])
{
    sl_told told = SL_TOLD;
    for (int i = 0; told == SL_TOLD && i < beside_of(table->columns); i++) {
        told = sl_table_next(table, &row[i]);
    }
    return told;
}

bool sl_csv_put_rows(FILE *out, const sl_columns *columns, const void *of)
{
    sl_table table = {.columns = columns, .of = of, .n = LONG_MAX};
    sl_row row[SL_MOST_BESIDE];
    sl_told told = SL_TOLD;
    while ((told = next_rows(&table, row)) == SL_TOLD) {
        if (!sl_csv_put_row(out, row)) {
            return false;
        }
    }
    return told == SL_NO_MORE && ferror(out) == 0;
}

bool sl_export_csv(FILE *out, const sl_export *export, const void *of)
{
    sl_csv_put_head(out, export->csv);
    return sl_csv_put_rows(out, export->csv, of);
}
