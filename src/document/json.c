/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables as JSON: a row is an object, its tables are arrays of objects or, where a column has no key, of
 * values. Invariant: nothing is held but the rows that are open, one of each depth.
 */
#include <assert.h>
#include <string.h>

#include "document/json_text.h"
#include "document/table.h"

static bool put_row(sl_json *json, const sl_row *row);
static bool put_element(sl_json *json, const sl_row *row);

static bool put_rows(sl_json *json, const char *name, const sl_column *column, const sl_slot *slot)
{
    sl_table table = {.columns = column->rows, .of = slot->of, .which = slot->which, .n = slot->n};
    char key[SL_MINUTE_KEY];
    const bool values = table.columns->column[0].key == NULL;
    sl_row row;
    sl_told told = SL_TOLD;
    sl_json_open(json, sl_column_key(column, name, key), '[', values && table.columns->flat);
    while ((told = sl_table_next(&table, &row)) == SL_TOLD && put_element(json, &row)) {
    }
    sl_json_close(json, ']');
    return told == SL_NO_MORE;
}

/* A record of minutes alone is of whom they are. */
static const char *record_key(const sl_columns *columns, const char *name, char key[SL_MINUTE_KEY])
{
    for (int i = 1; i < columns->n; i++) {
        if (columns->column[i].kind != columns->column[0].kind) {
            return name;
        }
    }
    return sl_column_key(&columns->column[0], name, key);
}

static bool put_record(sl_json *json, const char *name, const sl_column *column, const sl_slot *slot)
{
    char key[SL_MINUTE_KEY];
    sl_table table = {.columns = column->rows, .of = slot->of, .which = slot->which, .n = 1};
    sl_row row;
    if (sl_table_next(&table, &row) != SL_TOLD) {
        return false;
    }
    sl_json_open(json, record_key(table.columns, name, key), '{', table.columns->flat);
    const bool good = put_row(json, &row);
    sl_json_close(json, '}');
    return good;
}

static void put_entry(sl_json *json, const char *name, const sl_column *column, const sl_entry *entry)
{
    char key[SL_MINUTE_KEY];
    if (entry->kind == SL_ENTRY_NULL) {
        sl_json_null(json, name);
    } else if (entry->kind == SL_ENTRY_TEXT) {
        sl_json_text(json, name, entry->text);
    } else if (entry->kind == SL_ENTRY_YES) {
        sl_json_bool(json, name, entry->value > 0.0);
    } else if (entry->kind == SL_ENTRY_NUMBER) {
        sl_json_number(json, sl_column_key(column, name, key), entry->value);
    }
}

static bool put_slot(sl_json *json, const char *name, const sl_column *column, const sl_slot *slot)
{
    if (!slot->of) {
        put_entry(json, name, column, &slot->entry);
        return true;
    }
    if (column->members) {
        column->members(json, column->fields, slot->of, (int)slot->which, (int)slot->n);
        return true;
    }
    return column->one ? put_record(json, name, column, slot) : put_rows(json, name, column, slot);
}

/* ---- columns that stand in an object of their own ------------------------------------------------- */

static int end_of_group(const sl_columns *columns, int first)
{
    int end = first;
    while (end < columns->n && columns->column[end].in &&
           strcmp(columns->column[end].in, columns->column[first].in) == 0) {
        end++;
    }
    return end;
}

static bool put_group(sl_json *json, const sl_row *row, int first, int end)
{
    const sl_column *const column = row->columns->column;
    bool said = false, null = false, good = true;
    for (int i = first; i < end; i++) {
        said = said || sl_slot_is_said(&row->slot[i]);
        null = null || row->slot[i].entry.kind == SL_ENTRY_NULL;
    }
    if (!said) {
        if (null) {
            sl_json_null(json, column[first].in);
        }
        return true;
    }
    sl_json_open(json, column[first].in, '{', true);
    for (int i = first; good && i < end; i++) {
        good = put_slot(json, column[i].name, &column[i], &row->slot[i]);
    }
    sl_json_close(json, '}');
    return good;
}

static bool put_row(sl_json *json, const sl_row *row)
{
    const sl_columns *const columns = row->columns;
    bool good = true;
    for (int i = 0; good && i < columns->n;) {
        const sl_column *const column = &columns->column[i];
        if (column->in) {
            const int end = end_of_group(columns, i);
            good = put_group(json, row, i, end);
            i = end;
        } else {
            good = put_slot(json, column->name ? column->name : column->key, column, &row->slot[i]);
            i++;
        }
    }
    return good;
}

static bool put_element(sl_json *json, const sl_row *row)
{
    if (!row->columns->column[0].key) {
        return put_slot(json, NULL, &row->columns->column[0], &row->slot[0]);
    }
    sl_json_open(json, NULL, '{', row->columns->flat);
    const bool good = put_row(json, row);
    sl_json_close(json, '}');
    return good;
}

bool sl_export_json(FILE *out, const sl_export *export, const void *of)
{
    char format[64];
    sl_json json = {.out = out};
    sl_table table = {.columns = export->json, .of = of, .n = 1};
    sl_row row;
    if (sl_table_next(&table, &row) != SL_TOLD) {
        return false;
    }
    snprintf(format, sizeof format, "slowlift-%s/%d", export->name, export->number);
    sl_json_open(&json, NULL, '{', false);
    sl_json_text(&json, "format", format);
    const bool good = put_row(&json, &row);
    sl_json_close(&json, '}');
    return good && ferror(out) == 0;
}
