/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rows.h.
 */
#include "log/store/rows.h"

#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"

/* Seconds of a swatch: ten days. Nanoseconds since 1970 or since a start: 146 years either way, so that
 * differences do not run over. */
#define SECONDS(what)                                                                                        \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_WHOLE, .least = 0.0, .most = 864000.0                                \
    }
#define PLACE(what)                                                                                          \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_WHOLE, .least = 0.0, .most = 100000.0                                \
    }
#define WIDE 4611686018427387904.0
#define NANOSECONDS(what)                                                                                    \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_WHOLE, .least = -WIDE, .most = WIDE                                  \
    }
#define TEXT(what, bytes)                                                                                    \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_TEXT, .size = (bytes) + 1                                            \
    }
#define ID(what)                                                                                             \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_UUID, .size = SL_UUID                                                \
    }
#define HASH(what)                                                                                           \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_HASH, .size = SL_SHA256_TEXT                                         \
    }
#define TIME(what)                                                                                           \
    {                                                                                                        \
        .name = what, .kind = SL_COLUMN_TIME, .size = 40                                                     \
    }

/* A title has up to 200 characters; the texts of a scene's files up to 1 MiB. */
static const sl_kept_column test_columns[] = {ID("id"),
                                              TEXT("title", 800),
                                              TEXT("operator", 128),
                                              TIME("made"),
                                              TEXT("scene_name", SL_LOG_TITLE - 1),
                                              HASH("scene_sha256"),
                                              PLACE("model")};
static const sl_kept_column file_columns[] = {ID("test"), PLACE("place"), TEXT("kind", 15), TEXT("name", 71),
                                              TEXT("text", 1 << 20)};
static const sl_kept_column zone_columns[] = {ID("test"), PLACE("place"), TEXT("name", SL_LOG_ZONE - 1)};
static const sl_kept_column swatch_columns[] = {ID("id"),
                                                ID("test"),
                                                TEXT("code", 7),
                                                TEXT("arm", SL_LOG_TITLE - 1),
                                                PLACE("block"),
                                                PLACE("place"),
                                                SECONDS("contact_s"),
                                                SECONDS("dwell_s"),
                                                SECONDS("label_s"),
                                                TEXT("label_from", 11),
                                                SECONDS("mix_age_s"),
                                                TEXT("looks_min", 400),
                                                TEXT("ladder_min", 400)};
static const sl_kept_column event_columns[] = {
    ID("id"),
    ID("test"),
    ID("swatch"),
    TEXT("kind", 40),
    NANOSECONDS("boot_ns"),
    NANOSECONDS("wall_ns"),
    TEXT("boot_id", SL_UUID - 1),
    TIME("at"),
    TEXT("reason", 20),
    ID("about"),
    TEXT("note", SL_LOG_TITLE - 1),
    {.name = "speed", .kind = SL_COLUMN_NUMBER, .least = 1.0, .most = 1e6},
    {.name = "late_s", .kind = SL_COLUMN_WHOLE, .least = -864000.0, .most = 864000.0},
    TEXT("clocks", 20),
    TEXT("remark", 60),
    TEXT("deed", 60),
    {.name = "value", .kind = SL_COLUMN_NUMBER, .least = -100.0, .most = 1e6}};
static const sl_kept_column import_columns[] = {
    ID("id"),
    HASH("sha256"),
    TEXT("name", 4095),
    TIME("at"),
    {.name = "readings", .kind = SL_COLUMN_WHOLE, .least = 0.0, .most = 4611686018427387904.0}};

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])
const sl_kept_table sl_kept_tables[SL_KEPT_TABLES] = {
    {"test", "test", test_columns, COUNT(test_columns), false},
    {"scene_file", "file of a scene", file_columns, COUNT(file_columns), false},
    {"zone", "zone", zone_columns, COUNT(zone_columns), false},
    {"swatch", "swatch", swatch_columns, COUNT(swatch_columns), false},
    {"event", "event", event_columns, COUNT(event_columns), true},
    {"reading", "reading", sl_reading_columns, SL_READING_COLUMNS, true},
    {"import", "import", import_columns, COUNT(import_columns), true}};

const char *sl_kept_names(const sl_kept_table *table, char text[SL_KEPT_NAMES])
{
    text[0] = '\0';
    for (int i = 0; i < table->n; i++) {
        sl_append_item(text, SL_KEPT_NAMES, ", ", "%s", table->columns[i].name);
    }
    return text;
}

/* ---- values ---------------------------------------------------------------------------------------------
 */

static bool in_form(const char *text, size_t n, bool dashes)
{
    bool good = strlen(text) == n;
    for (size_t i = 0; good && i < n; i++) {
        const bool dash = dashes && (i == 8 || i == 13 || i == 18 || i == 23);
        good = dash ? text[i] == '-' : strchr("0123456789abcdefABCDEF", text[i]) != NULL;
    }
    return good;
}

static bool text_fits(sl_statement *row, int at, const sl_kept_column *column)
{
    const char *const text = sl_text_at(row, at);
    const size_t bytes = (size_t)sqlite3_column_bytes(row->handle, at);
    if (bytes >= column->size || strlen(text) != bytes) {
        return false;
    }
    int64_t ns = 0;
    return column->kind == SL_COLUMN_UUID   ? in_form(text, SL_UUID - 1, true)
           : column->kind == SL_COLUMN_HASH ? in_form(text, SL_SHA256_TEXT - 1, false)
           : column->kind == SL_COLUMN_CODE ? sl_log_code_check("", text, NULL)
           : column->kind == SL_COLUMN_TIME ? sl_time_read(text, &ns, NULL)
                                            : true;
}

/* NaN is null to SQLite; what is infinite is out of every range. */
static bool number_fits(sl_statement *row, int at, int type, const sl_kept_column *column, bool whole)
{
    const double value = sl_real_at(row, at);
    return (type == SQLITE_INTEGER || (type == SQLITE_FLOAT && !whole)) && value >= column->least &&
           value <= column->most;
}

bool sl_value_fits(sl_statement *row, int at, const sl_kept_column *column)
{
    static const sl_kept_column yes_no = {.least = 0.0, .most = 1.0};
    const int type = sqlite3_column_type(row->handle, at); /* asked once: a log has a million readings */
    if (type == SQLITE_NULL) {
        return true;
    }
    switch (column->kind) {
    case SL_COLUMN_NUMBER:
        return number_fits(row, at, type, column, false);
    case SL_COLUMN_COUNT:
    case SL_COLUMN_WHOLE:
        return number_fits(row, at, type, column, true);
    case SL_COLUMN_YES_NO:
        return number_fits(row, at, type, &yes_no, true);
    case SL_COLUMN_WORD:
        return type == SQLITE_TEXT && sl_said_of_word(column->said, sl_text_at(row, at)) != SL_NOT_SAID;
    case SL_COLUMN_UUID:
    case SL_COLUMN_TEXT:
    case SL_COLUMN_CODE:
    case SL_COLUMN_TIME:
    case SL_COLUMN_HASH:
    default:
        return type == SQLITE_TEXT && text_fits(row, at, column);
    }
}

const sl_kept_column *sl_row_unfit(sl_statement *row, int first, const sl_kept_column *columns, int n)
{
    for (int i = 0; i < n; i++) {
        if (!sl_value_fits(row, first + i, &columns[i])) {
            return &columns[i];
        }
    }
    return NULL;
}

bool sl_row_number_fits(int64_t number)
{
    return number > 0 && number < INT64_MAX / 2;
}
