/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See reading_columns.h.
 */
#include "log/readings/reading_columns.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/append.h"

#define TEXT(what, kind_of)                                                                                  \
    {                                                                                                        \
        .name = #what, .kind = kind_of, .offset = offsetof(sl_log_reading, what),                            \
        .size = sizeof(((sl_log_reading *)0)->what)                                                          \
    }
#define NUMBER(what, from, to)                                                                               \
    {                                                                                                        \
        .name = #what, .kind = SL_COLUMN_NUMBER, .offset = offsetof(sl_log_reading, what), .least = from,    \
        .most = to                                                                                           \
    }
#define WORD(what, list)                                                                                     \
    {                                                                                                        \
        .name = #what, .kind = SL_COLUMN_WORD,                                                               \
        .offset = offsetof(sl_log_reading, said) + (size_t)(list) * sizeof(int), .said = list                \
    }

const sl_kept_column sl_reading_columns[SL_READING_COLUMNS] = {
    TEXT(id, SL_COLUMN_UUID),
    TEXT(swatch, SL_COLUMN_UUID),
    TEXT(zone, SL_COLUMN_TEXT),
    NUMBER(minute, 0.0, 10000.0),
    NUMBER(hours_after, 0.0, 100000.0),
    TEXT(judge, SL_COLUMN_CODE),
    {.name = "blind", .kind = SL_COLUMN_YES_NO, .offset = offsetof(sl_log_reading, blind)},
    TEXT(at, SL_COLUMN_TIME),
    WORD(grade, SL_SAID_GRADE),
    WORD(cotton, SL_SAID_COTTON),
    WORD(feel, SL_SAID_FEEL),
    WORD(stretch, SL_SAID_STRETCH),
    WORD(outcome, SL_SAID_OUTCOME),
    NUMBER(L, 0.0, 100.0),
    NUMBER(a, -150.0, 150.0),
    NUMBER(b, -150.0, 150.0),
    NUMBER(sd_L, 0.0, 100.0),
    NUMBER(sd_a, 0.0, 100.0),
    NUMBER(sd_b, 0.0, 100.0),
    {.name = "n",
     .kind = SL_COLUMN_COUNT,
     .offset = offsetof(sl_log_reading, n),
     .least = 1.0,
     .most = 1000.0},
    TEXT(illuminant, SL_COLUMN_TEXT),
    TEXT(observer, SL_COLUMN_TEXT),
    TEXT(geometry, SL_COLUMN_TEXT),
    NUMBER(level, 1.0, 11.0),
    TEXT(tone, SL_COLUMN_TEXT),
    TEXT(photo, SL_COLUMN_TEXT),
    TEXT(photo_sha256, SL_COLUMN_HASH),
    TEXT(note, SL_COLUMN_TEXT),
    TEXT(replaces, SL_COLUMN_UUID),
    {.name = "uncovered", .kind = SL_COLUMN_YES_NO, .offset = offsetof(sl_log_reading, uncovered)}};

int sl_reading_column(const char *name)
{
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        if (strcmp(sl_reading_columns[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

static int int_of(const sl_kept_column *column, const sl_log_reading *reading)
{
    int value = 0;
    memcpy(&value, (const char *)reading + column->offset, sizeof value);
    return value;
}

static double real_of(const sl_kept_column *column, const sl_log_reading *reading)
{
    double value = 0.0;
    memcpy(&value, (const char *)reading + column->offset, sizeof value);
    return value;
}

static bool was_read(double value)
{
    return value > SL_NOT_READ;
}

/* The locale's point becomes a point; 15 digits are tried before 17. */
static const char *number_text(double value, char written[SL_COLUMN_WRITTEN])
{
    snprintf(written, SL_COLUMN_WRITTEN, "%.15g", value);
    if (strtod(written, NULL) < value || strtod(written, NULL) > value) {
        snprintf(written, SL_COLUMN_WRITTEN, "%.17g", value);
    }
    char *const comma = strchr(written, ',');
    if (comma) {
        *comma = '.';
    }
    return written;
}

const char *sl_column_text(const sl_kept_column *column, const sl_log_reading *reading,
                           char written[SL_COLUMN_WRITTEN])
{
    const char *const text = (const char *)reading + column->offset;
    switch (column->kind) {
    case SL_COLUMN_NUMBER:
        return was_read(real_of(column, reading)) ? number_text(real_of(column, reading), written) : NULL;
    case SL_COLUMN_COUNT:
        snprintf(written, SL_COLUMN_WRITTEN, "%d", int_of(column, reading));
        return int_of(column, reading) > 0 ? written : NULL;
    case SL_COLUMN_WORD:
        return sl_said_word(column->said, int_of(column, reading));
    case SL_COLUMN_YES_NO:
        return int_of(column, reading) == SL_NOT_SAID ? NULL : int_of(column, reading) == 1 ? "yes" : "no";
    case SL_COLUMN_UUID:
    case SL_COLUMN_TEXT:
    case SL_COLUMN_CODE:
    case SL_COLUMN_TIME:
    case SL_COLUMN_HASH:
    case SL_COLUMN_WHOLE:
    default:
        return text[0] != '\0' ? text : NULL;
    }
}

void sl_column_names(const char *prefix, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        sl_append_item(text, size, ", ", "%s%s", prefix, sl_reading_columns[i].name);
    }
}

void sl_columns_put(sl_statement *put, const sl_log_reading *reading)
{
    char written[SL_COLUMN_WRITTEN];
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        const sl_kept_column *const column = &sl_reading_columns[i];
        if (column->kind == SL_COLUMN_NUMBER && was_read(real_of(column, reading))) {
            sl_put_real(put, real_of(column, reading)); /* not by way of its text, which is slow */
            continue;
        }
        const char *const text = sl_column_text(column, reading, written);
        if (!text) {
            sl_put_null(put);
        } else if (column->kind == SL_COLUMN_COUNT || column->kind == SL_COLUMN_YES_NO) {
            sl_put_int(put, int_of(column, reading));
        } else {
            sl_put_lasting_text(put, text); /* of the reading or of a list of words, not of `written` */
        }
    }
}

static void get(sl_statement *ask, int at, const sl_kept_column *column, sl_log_reading *reading)
{
    char *const member = (char *)reading + column->offset;
    int whole = SL_NOT_SAID;
    double number = 0.0;
    switch (column->kind) {
    case SL_COLUMN_NUMBER:
        number = sl_real_at(ask, at);
        memcpy(member, &number, sizeof number);
        return;
    case SL_COLUMN_COUNT:
    case SL_COLUMN_YES_NO:
        whole = (int)sl_int_at(ask, at);
        memcpy(member, &whole, sizeof whole);
        return;
    case SL_COLUMN_WORD:
        whole = sl_said_of_word(column->said, sl_text_at(ask, at));
        memcpy(member, &whole, sizeof whole);
        return;
    case SL_COLUMN_UUID:
    case SL_COLUMN_TEXT:
    case SL_COLUMN_CODE:
    case SL_COLUMN_TIME:
    case SL_COLUMN_HASH:
    case SL_COLUMN_WHOLE:
    default:
        sl_copy_lines_at(ask, at, member, column->size);
        return;
    }
}

void sl_columns_get(sl_statement *ask, int first, sl_log_reading *reading)
{
    *reading = sl_log_reading_begin();
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        if (!sl_null_at(ask, first + i)) {
            get(ask, first + i, &sl_reading_columns[i], reading);
        }
    }
}
