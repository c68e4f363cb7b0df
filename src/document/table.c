/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See table.h.
 */
#include "document/say.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

void sl_row_begin(sl_row *row, const sl_columns *columns)
{
    assert(columns->n <= SL_MOST_ENTRIES);
    row->columns = columns;
    row->at = 0;
    row->used = 0;
    memset(row->slot, 0, (size_t)columns->n * sizeof row->slot[0]);
}

/* A row is mostly told in the order of its columns. */
static int column_of(const sl_row *row, const char *key)
{
    for (int i = 0; i < row->columns->n; i++) {
        const int at = (row->at + i) % row->columns->n;
        const char *const has = row->columns->column[at].key;
        if (has == key || (has && key && strcmp(has, key) == 0)) {
            return at;
        }
    }
    return -1;
}

static sl_slot *put(sl_row *row, const char *key, sl_entry_kind kind)
{
    const int at = column_of(row, key);
    assert(at >= 0);
    row->at = at + 1;
    row->slot[at].entry.kind = kind;
    return &row->slot[at];
}

void sl_row_text(sl_row *row, const char *key, const char *text)
{
    sl_slot *const slot = put(row, key, text ? SL_ENTRY_TEXT : SL_ENTRY_NULL);
    slot->entry.text = text;
}

void sl_row_words(sl_row *row, const char *key, const char *format, ...)
{
    sl_slot *const slot = put(row, key, SL_ENTRY_TEXT);
    char *const text = row->words + row->used;
    const size_t room = sizeof row->words - row->used;
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(text, room, format, arguments);
    va_end(arguments);
    assert(length >= 0 && (size_t)length < room);
    row->used += (size_t)length + 1;
    slot->entry.text = text;
}

void sl_row_yes(sl_row *row, const char *key, bool yes)
{
    sl_slot *const slot = put(row, key, SL_ENTRY_YES);
    slot->entry.value = yes ? 1.0 : 0.0;
}

void sl_row_number(sl_row *row, const char *key, double value)
{
    sl_row_number_about(row, key, NULL, value);
}

void sl_row_number_about(sl_row *row, const char *key, const char *about, double value)
{
    sl_slot *const slot = put(row, key, isfinite(value) ? SL_ENTRY_NUMBER : SL_ENTRY_NULL);
    slot->entry.value = value;
    slot->about = about;
}

double sl_if_known(bool known, double value)
{
    return known ? value : (double)NAN;
}

void sl_row_null(sl_row *row, const char *key)
{
    put(row, key, SL_ENTRY_NULL);
}

static void put_within(sl_row *row, const char *key, const void *of, long which, long n)
{
    sl_slot *const slot = put(row, key, of ? SL_ENTRY_NONE : SL_ENTRY_NULL);
    slot->of = of;
    slot->which = which;
    slot->n = n;
}

void sl_row_rows(sl_row *row, const char *key, const void *of, long which, long n)
{
    put_within(row, key, of, which, n);
}

void sl_row_members(sl_row *row, const char *key, const void *record, int from_turn, int to_turn)
{
    put_within(row, key, record, from_turn, to_turn);
}

sl_told sl_table_next(sl_table *table, sl_row *row)
{
    while (table->place < table->n) {
        sl_row_begin(row, table->columns);
        const sl_told told = table->columns->tell(row, table);
        table->place++;
        if (told != SL_NOT_HERE) {
            return told;
        }
    }
    return SL_NO_MORE;
}

bool sl_slot_is_said(const sl_slot *slot)
{
    return slot->of || (slot->entry.kind != SL_ENTRY_NONE && slot->entry.kind != SL_ENTRY_NULL);
}

const char *sl_column_key(const sl_column *column, const char *key, char text[SL_MINUTE_KEY])
{
    return column->kind == SL_ENTRY_PLANNED   ? sl_minute_key(SL_MINUTE_PLANNED, key, text)
           : column->kind == SL_ENTRY_CLOCK   ? sl_minute_key(SL_MINUTE_CLOCK, key, text)
           : column->kind == SL_ENTRY_OUTCOME ? sl_minute_key(SL_MINUTE_MODEL, key, text)
                                              : key;
}

/* ---- lists of values -------------------------------------------------------------------------- */

static sl_told tell_whole(sl_row *row, const sl_table *table)
{
    sl_row_number(row, NULL, ((const int *)table->of)[table->place]);
    return SL_TOLD;
}

const sl_columns sl_whole_list = SL_COLUMNS(SL_VALUE, .tell = tell_whole, .flat = true);
