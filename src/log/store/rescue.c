/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rescue.h. Only tables are read, by the numbers of their rows, and no more rows and bytes than the
 * file can hold; nothing that it brings (views, triggers, indices, computed columns) takes part. Where a
 * page cannot be read the next row that can is looked for: by doubling steps, then by halves.
 */
#include "log/store/rescue.h"

#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/store/known.h"
#include "log/store/rows.h"
#include "log/store/tables.h"

enum { SELECT = 1024, HOLES = 1000 };

typedef struct sl_rescue_copying {
    sl_log *from, *into;
    sl_log_tally *tally;
    sl_error *error; /* of the log that is written */
    int64_t bytes_left;
} sl_rescue_copying;

static void because(sl_log_tally *tally, const char *table, const char *why)
{
    if (tally->why[0] == '\0') {
        snprintf(tally->why, sizeof tally->why, "%s: %.120s", table, why);
    }
}

/* ---- how the table looks there ---------------------------------------------------------------------------
 */

/* Virtual tables have no pages, and a view of the name is none. */
static bool is_table(sl_log *log, const char *name)
{
    sl_statement ask = sl_sql(
        log, "SELECT 1 FROM main.sqlite_schema WHERE type = 'table' AND name = ? AND rootpage > 1", NULL);
    sl_put_text(&ask, name);
    const bool there = sl_next_row(&ask);
    return sl_sql_leave(&ask) && there;
}

/* Columns that are computed are not among them. */
static bool has_column(sl_log *log, const char *table, const char *name)
{
    sl_statement ask = sl_sql(log, "SELECT 1 FROM pragma_table_info(?) WHERE lower(name) = lower(?)", NULL);
    sl_put_text(&ask, table);
    sl_put_text(&ask, name);
    const bool there = sl_next_row(&ask);
    return sl_sql_leave(&ask) && there;
}

/* The name by which SQLite gives a row's number, where no column has taken it; NULL: none. */
static const char *number_name(sl_log *log, const char *table)
{
    static const char *const names[] = {"rowid", "_rowid_", "oid"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (!has_column(log, table, names[i])) {
            return names[i];
        }
    }
    return NULL;
}

/* What a table lacks is null, and refused by the log that is written where something is needed there. */
static bool select_words(sl_log *log, const sl_kept_table *table, sl_log_tally *tally, char text[SELECT])
{
    const char *const number = number_name(log, table->name);
    if (!number || !is_table(log, table->name)) {
        return false;
    }
    snprintf(text, SELECT, "SELECT %s", number);
    for (int i = 0; i < table->n; i++) {
        const char *const name = table->columns[i].name;
        const bool there = has_column(log, table->name, name), empty = strcmp(name, "ladder_min") == 0;
        sl_append(text, SELECT, ", %s", there ? name : empty ? "''" : "NULL");
        if (!there && log->version >= sl_column_since(name)) {
            because(tally, table->name, _("it lacks a column"));
            tally->more_missing = true;
        }
    }
    sl_append(text, SELECT, " FROM main.%s NOT INDEXED WHERE %s >= ?1 ORDER BY %s", table->name, number,
              number);
    return true;
}

static void insert_words(const sl_kept_table *table, char text[SELECT])
{
    char names[SL_KEPT_NAMES];
    snprintf(text, SELECT, "INSERT INTO main.%s (%s%s) VALUES (?", table->name,
             table->ordered ? "kept, " : "", sl_kept_names(table, names));
    for (int i = table->ordered ? 0 : 1; i < table->n; i++) {
        sl_append(text, SELECT, ",?");
    }
    sl_append(text, SELECT, ")");
}

/* ---- rows -----------------------------------------------------------------------------------------------
 */

static bool take_row(sl_rescue_copying *copying, const sl_kept_table *table, sl_statement *row,
                     sl_statement *put, int64_t number)
{
    int code = SQLITE_OK;
    const sl_kept_column *const unfit = sl_row_unfit(row, 1, table->columns, table->n);
    if (unfit || !sl_row_number_fits(number)) {
        because(copying->tally, table->name, unfit ? unfit->name : "kept");
        copying->tally->left_out++;
        return true;
    }
    sl_sql_again(put);
    int at = 0;
    if (table->ordered) {
        code = sqlite3_bind_int64(put->handle, ++at, number);
    }
    for (int i = 0; code == SQLITE_OK && i < table->n; i++) {
        copying->bytes_left -= sqlite3_column_bytes(row->handle, i + 1);
        code = sqlite3_bind_value(put->handle, ++at, sqlite3_column_value(row->handle, i + 1));
    }
    code = code == SQLITE_OK ? sqlite3_step(put->handle) : code;
    if (code == SQLITE_DONE) {
        copying->tally->read++;
        return true;
    }
    if ((code & 0xff) != SQLITE_CONSTRAINT) {
        return sl_sql_refuse(copying->into, copying->error);
    }
    because(copying->tally, table->name, sqlite3_errmsg(copying->into->base));
    copying->tally->left_out++;
    sqlite3_reset(put->handle);
    return true;
}

/* Rows from *next on, until one cannot be read. *next: after the last; *ended: there was no further one. */
static bool take_run(sl_rescue_copying *copying, const sl_kept_table *table, const char *text,
                     sl_statement *put, int64_t *next, bool *ended)
{
    sl_statement row = sl_sql(copying->from, text, NULL);
    bool good = true, sound = true;
    sl_put_int(&row, *next);
    while (good && sound && sl_next_row(&row)) {
        const int64_t number = sl_int_at(&row, 0);
        sound = number >= *next && number < INT64_MAX && copying->bytes_left > 0;
        good = !sound || take_row(copying, table, &row, put, number);
        *next = sound ? number + 1 : *next;
        copying->bytes_left -= 4;
    }
    *ended = !row.bad && sound;
    sl_sql_leave(&row);
    return good;
}

/* Whether the first row from `number` on can be read (*found, or INT64_MAX: there is none). */
static bool can_be_read(sl_rescue_copying *copying, const char *text, int64_t number, int64_t *found)
{
    sl_statement row = sl_sql(copying->from, text, NULL);
    sl_put_int(&row, number);
    *found = sl_next_row(&row) ? sl_int_at(&row, 0) : INT64_MAX;
    const bool sound = *found >= number;
    return sl_sql_leave(&row) && sound;
}

/* Behind rows that cannot be read: the first number from which on it goes. */
static int64_t behind_hole(sl_rescue_copying *copying, const char *text, int64_t broken)
{
    int64_t step = 1, found = 0;
    while (step < INT64_MAX / 4 && !can_be_read(copying, text, broken + step, &found)) {
        step *= 2;
    }
    int64_t below = broken + step / 2, good = broken + step;
    while (good - below > 1) {
        const int64_t middle = below + (good - below) / 2;
        if (can_be_read(copying, text, middle, &found)) {
            good = middle;
        } else {
            below = middle;
        }
    }
    can_be_read(copying, text, good, &found);
    return found;
}

/* Numbers of rows are given out one by one and none is ever removed: a gap says how many are missing. */
static void count_hole(sl_rescue_copying *copying, const sl_kept_table *table, int64_t broken, int64_t found)
{
    const int64_t most = copying->from->bytes / 8;
    copying->from->broken = true;
    because(copying->tally, table->name, _("some of its pages cannot be read"));
    if (found < INT64_MAX && found - broken <= most) {
        copying->tally->missing += found - broken;
    } else {
        copying->tally->missing++;
        copying->tally->more_missing = true;
    }
}

static bool take_table(sl_rescue_copying *copying, const sl_kept_table *table)
{
    char text[SELECT], insert[SELECT];
    int64_t next = INT64_MIN;
    bool ended = false, good = true;
    if (!select_words(copying->from, table, copying->tally, text)) {
        because(copying->tally, table->name, _("there is no such table"));
        copying->tally->more_missing = true;
        return true;
    }
    insert_words(table, insert);
    sl_statement put = sl_sql(copying->into, insert, copying->error);
    good = !put.bad;
    for (int hole = 0; good && !ended && hole < HOLES && copying->bytes_left > 0; hole++) {
        good = take_run(copying, table, text, &put, &next, &ended);
        if (good && !ended) {
            const int64_t broken = next > 0 ? next : 1;
            next = behind_hole(copying, text, broken);
            count_hole(copying, table, broken, next);
            ended = next == INT64_MAX;
        }
    }
    copying->tally->more_missing = copying->tally->more_missing || !ended;
    return sl_sql_leave(&put) && good;
}

/* What cannot be read at the end of a table leaves no gap; the index over it may know more. */
static void count_by_index(sl_rescue_copying *copying)
{
    int64_t there = 0, here = 0;
    sl_log_tally *const tally = copying->tally;
    if (!copying->from->broken || !tally->more_missing ||
        !sl_sql_number(copying->into, "SELECT count(*) FROM reading", &here, NULL) ||
        !sl_sql_number(copying->from,
                       "SELECT count(*) FROM reading INDEXED BY reading_of_swatch WHERE swatch > ''", &there,
                       NULL)) {
        return;
    }
    const int64_t known = there - here - tally->left_out;
    tally->missing = known > tally->missing && known <= copying->from->bytes / 8 ? known : tally->missing;
}

bool sl_rescue_rows(sl_log *from, sl_log *into, sl_log_tally *tally, sl_error *error)
{
    sl_rescue_copying copying = {
        .from = from, .into = into, .tally = tally, .error = error, .bytes_left = 4096 + 4 * from->bytes};
    *tally = (sl_log_tally){.read = 0};
    if (!sl_sql_begin(into, error)) {
        return false;
    }
    bool good = true;
    for (int i = 0; good && i < SL_KEPT_TABLES; i++) {
        good = take_table(&copying, &sl_kept_tables[i]);
    }
    if (good) {
        count_by_index(&copying);
    }
    return sl_sql_end(into, good, error);
}

/* ---- a copy to read from ---------------------------------------------------------------------------------
 */

/* SQLite's own temporary file, which has no name and grows beyond memory. */
static bool open_copy(sl_log *copy, int64_t bytes, sl_error *error)
{
    snprintf(copy->path, sizeof copy->path, "%s", "");
    copy->schema = -1;
    copy->writes = true;
    if (sqlite3_open_v2("", &copy->base, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL) != SQLITE_OK) {
        return sl_sql_refuse(copy, error);
    }
    sl_sql_limit_steps(copy, bytes);
    return sl_known_settle(copy, error) &&
           sl_sql_run(copy, "PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF", error) &&
           sl_tables_build(copy, 0, SL_LOG_VERSION, error);
}

bool sl_rescue_into_copy(sl_log *log, sl_error *error)
{
    sl_log *const copy = sl_new(1, sizeof *copy, "reading the log", error);
    if (!copy) {
        return false;
    }
    const bool good = open_copy(copy, log->bytes, error) && sl_rescue_rows(log, copy, &log->tally, error);
    if (good) {
        sqlite3_close(log->base);
        log->base = copy->base;
        log->copied = true;
        log->version = SL_LOG_VERSION;
        sl_sql_limit_steps(log, log->bytes);
    } else {
        sqlite3_close(copy->base);
    }
    sl_free(copy);
    return good && sl_sql_run(log, "PRAGMA query_only = ON", error);
}

bool sl_log_fall_back(sl_log *log, sl_error *error)
{
    if (!log->broken || log->writes || log->copied) {
        return false;
    }
    sl_error_clear(error);
    return sl_rescue_into_copy(log, error);
}

bool sl_log_leave_out(sl_log *log, int64_t kept, sl_error *error)
{
    size_t at = log->n_left_out;
    while (at > 0 && log->left_out[at - 1] > kept) {
        at--;
    }
    if (at > 0 && log->left_out[at - 1] == kept) {
        return true;
    }
    if (!sl_grow(&log->left_out, &log->left_out_room, log->n_left_out + 1, sizeof *log->left_out,
                 "reading the log", error)) {
        return false;
    }
    memmove(log->left_out + at + 1, log->left_out + at, (log->n_left_out - at) * sizeof *log->left_out);
    log->left_out[at] = kept;
    log->n_left_out++;
    return true;
}

/* ---- the small tables ------------------------------------------------------------------------------------
 */

/* SQLite's own look at a table: its pages, types, CHECKs. */
static bool table_is_sound(sl_log *log, const char *name, const char *pragma, bool *sound, char why[160],
                           sl_error *error)
{
    char text[96];
    snprintf(text, sizeof text, "PRAGMA main.%s('%s')", pragma, name);
    sl_statement ask = sl_sql(log, text, error);
    const bool row = sl_next_row(&ask);
    *sound = !row || strcmp(sl_text_at(&ask, 0), "ok") == 0;
    if (!*sound) {
        snprintf(why, 160, "%s: %s", name,
                 strcmp(pragma, "quick_check") == 0 ? _("its pages or values are not as they should be")
                                                    : _("a row refers to one that is not there"));
    }
    return sl_sql_leave(&ask);
}

static bool rows_fit(sl_log *log, const sl_kept_table *table, bool *fit, char why[160], sl_error *error)
{
    char text[SELECT], rows[SL_ROWS], names[SL_KEPT_NAMES];
    snprintf(text, sizeof text, "SELECT %s, %s FROM %s", table->ordered ? "kept" : "1",
             sl_kept_names(table, names), sl_rows_of("main", table->name, log->version, rows));
    sl_statement ask = sl_sql(log, text, error);
    while (*fit && sl_next_row(&ask)) {
        const sl_kept_column *const unfit = sl_row_unfit(&ask, 1, table->columns, table->n);
        if (unfit || !sl_row_number_fits(sl_int_at(&ask, 0))) {
            snprintf(why, 160, "%s: %s", table->name, unfit ? unfit->name : "kept");
            *fit = false;
        }
    }
    return sl_sql_leave(&ask);
}

bool sl_rescue_small_fit(sl_log *log, bool *fit, char why[160], sl_error *error)
{
    bool good = true;
    *fit = true;
    for (int i = 0; good && *fit && i < SL_KEPT_TABLES; i++) {
        const sl_kept_table *const table = &sl_kept_tables[i];
        if (i != SL_KEPT_READINGS) {
            good = table_is_sound(log, table->name, "quick_check", fit, why, error) &&
                   (!*fit || table_is_sound(log, table->name, "foreign_key_check", fit, why, error)) &&
                   (!*fit || rows_fit(log, table, fit, why, error));
        }
    }
    return good;
}
