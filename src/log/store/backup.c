/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log in a second file: whole (SQLite's own way to copy a file in use: https://sqlite.org/backup.html), or
 * what can be read of it. Invariant: nothing that is there is written over, and a file has its name only
 * when all of it is on the disk and was read back.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "log/store/beside.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"
#include "log/store/tables.h"

/* ---- the same rows ---------------------------------------------------------------------------------------
 */

static bool same_value(sl_statement *one, sl_statement *two, int at)
{
    const int type = sqlite3_column_type(one->handle, at);
    if (type != sqlite3_column_type(two->handle, at)) {
        return false;
    }
    if (type == SQLITE_INTEGER) {
        return sl_int_at(one, at) == sl_int_at(two, at);
    }
    const int bytes = sqlite3_column_bytes(one->handle, at);
    return bytes == sqlite3_column_bytes(two->handle, at) &&
           (bytes == 0 || memcmp(sqlite3_column_blob(one->handle, at), sqlite3_column_blob(two->handle, at),
                                 (size_t)bytes) == 0);
}

static bool same_rows(sl_log *one, sl_log *two, const char *table, long long *rows, bool *same,
                      sl_error *error)
{
    char text[96];
    snprintf(text, sizeof text, "SELECT * FROM main.%s NOT INDEXED ORDER BY rowid", table);
    sl_statement here = sl_sql(one, text, error), there = sl_sql(two, text, error);
    bool a = sl_next_row(&here), b = sl_next_row(&there);
    const int columns = sqlite3_column_count(here.handle);
    *same = columns == sqlite3_column_count(there.handle);
    while (*same && a && b) {
        for (int i = 0; *same && i < columns; i++) {
            *same = same_value(&here, &there, i);
        }
        ++*rows;
        a = sl_next_row(&here);
        b = sl_next_row(&there);
    }
    *same = *same && !a && !b;
    const bool good = sl_sql_leave(&here);
    return sl_sql_leave(&there) && good;
}

static bool reads_back(sl_log *log, const char *beside, long long *rows, sl_error *error)
{
    sl_log *copy = NULL;
    bool good = sl_log_open_raw(&copy, beside, error), same = true;
    for (int i = 0; good && same && i < SL_KEPT_TABLES; i++) {
        good = same_rows(log, copy, sl_kept_tables[i].name, rows, &same, error);
    }
    sl_log_close(copy);
    if (good && !same) {
        return sl_fail_at(error, SL_ERR_DAMAGED, beside, 0, 0,
                          _("the copy does not read back as the log does"),
                          _("no copy was kept; look at the disk"));
    }
    return good;
}

/* ---- the whole log ---------------------------------------------------------------------------------------
 */

/* In one piece that needs no second file beside it, so that it can be read from a disk that is locked. */
static bool copy_pages(sl_log *log, const char *beside, sl_error *error)
{
    sl_log into = {.writes = true, .schema = -1};
    snprintf(into.path, sizeof into.path, "%s", beside);
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    bool good = sqlite3_open_v2(beside, &into.base, flags, NULL) == SQLITE_OK;
    sqlite3_backup *const backup = good ? sqlite3_backup_init(into.base, "main", log->base, "main") : NULL;
    good = backup && sqlite3_backup_step(backup, -1) == SQLITE_DONE;
    good = backup && sqlite3_backup_finish(backup) == SQLITE_OK && good;
    good = good && sqlite3_exec(into.base, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL) == SQLITE_OK;
    if (!good) {
        sl_sql_refuse(&into, error);
    }
    sqlite3_close(into.base);
    return good;
}

bool sl_log_backup(const char *path, const char *to, long long *rows, sl_error *error)
{
    sl_log *log = NULL;
    sl_log_beside beside = {.path = ""};
    int64_t one = 0;
    long long uncounted = 0;
    long long *const n = rows ? rows : &uncounted;
    *n = 0;
    if (!sl_log_open_raw(&log, path, error)) {
        return false;
    }
    /* What others write from here on is of another moment. */
    bool good = sl_sql_run(log, "BEGIN", error) &&
                sl_sql_number(log, "SELECT count(*) FROM sqlite_schema", &one, error) &&
                sl_beside_free(to, error) && sl_beside_make(to, &beside, error);
    if (good) {
        good = copy_pages(log, beside.path, error) && reads_back(log, beside.path, n, error);
        good = sl_beside_end(&beside, to, false, good, error);
    }
    sl_log_close(log);
    return good;
}

/* ---- what can be read ------------------------------------------------------------------------------------
 */

static bool rescue_into(sl_log *log, const char *beside, sl_log_tally *tally, sl_error *error)
{
    sl_log *into = NULL;
    if (!sl_log_open(&into, beside, SL_LOG_MAKE, error)) {
        return false;
    }
    const bool good =
        sl_rescue_rows(log, into, tally, error) && sl_sql_run(into, "PRAGMA journal_mode = DELETE", error);
    sl_log_close(into);
    if (good && tally->read == 0) {
        return sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0, _("no row of it can be read"), tally->why);
    }
    return good;
}

bool sl_log_rescue(const char *path, const char *to, sl_log_tally *tally, sl_error *error)
{
    sl_log *log = NULL;
    sl_log_beside beside = {.path = ""};
    if (!sl_log_open_raw(&log, path, error)) {
        return false;
    }
    bool good = sl_beside_free(to, error) && sl_beside_make(to, &beside, error);
    if (good) {
        good = sl_beside_end(&beside, to, false, rescue_into(log, beside.path, tally, error), error);
    }
    sl_log_close(log);
    return good;
}
