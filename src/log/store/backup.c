/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log in a second file: whole (SQLite's own way to copy a file in use: https://sqlite.org/backup.html), or
 * what can be read of it. Invariant: nothing that is there is written over, and a file has its name only
 * when all of it is on the disk and was read back.
 */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "base/temporary.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"
#include "log/store/tables.h"

/* ---- a name for a file -----------------------------------------------------------------------------------
 */

static bool refuse_there(const char *to, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("there is a file \"%.160s\" already"), to);
    return sl_fail(error, SL_ERR_USAGE, found,
                   _("name a new one: a copy is never written over another file"));
}

static bool sync_path(const char *path)
{
    const int file = open(path, O_RDONLY | O_CLOEXEC);
    const bool good = file >= 0 && fsync(file) == 0;
    if (file >= 0) {
        close(file);
    }
    return good;
}

/* The name is taken before it is given, so that nothing is written over. */
static bool give_name(const char *beside, const char *to, sl_error *error)
{
    char folder[SL_LOG_PATH];
    sl_log_folder(to, folder);
    const int name = open(to, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (name < 0) {
        return errno == EEXIST ? refuse_there(to, error)
                               : sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(errno));
    }
    close(name);
    if (sync_path(beside) && rename(beside, to) == 0 && sync_path(folder)) {
        return true;
    }
    return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(errno));
}

/* A place in a folder of its own beside it, which goes with the process. */
typedef struct sl_beside {
    sl_temporary folder;
    char path[SL_LOG_PATH];
} sl_beside;

static bool make_beside(const char *to, sl_beside *beside, sl_error *error)
{
    if (access(to, F_OK) == 0) {
        return refuse_there(to, error);
    }
    sl_temporary_sweep(to);
    if (!sl_temporary_folder(&beside->folder, to)) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(errno));
    }
    const char *const slash = strrchr(to, '/');
    const size_t length = (size_t)snprintf(beside->path, sizeof beside->path, "%s/%s", beside->folder.path,
                                           slash ? slash + 1 : to);
    if (length >= sizeof beside->path) {
        sl_temporary_remove(&beside->folder);
        return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(ENAMETOOLONG));
    }
    return true;
}

static bool end_beside(sl_beside *beside, const char *to, bool good, sl_error *error)
{
    good = good && give_name(beside->path, to, error);
    if (!good) {
        char folder[SL_LOG_PATH];
        sl_log_folder(to, folder);
        char *const slash = strrchr(folder + 1, '/'); /* not the one that is all of it */
        if (slash) {
            *slash = '\0';
        }
        sl_temporary_rename_in(&beside->folder, folder, error);
    }
    sl_temporary_remove(&beside->folder);
    return good;
}

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
    sl_beside beside = {.path = ""};
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
                make_beside(to, &beside, error);
    if (good) {
        good = copy_pages(log, beside.path, error) && reads_back(log, beside.path, n, error);
        good = end_beside(&beside, to, good, error);
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
    sl_beside beside = {.path = ""};
    if (!sl_log_open_raw(&log, path, error)) {
        return false;
    }
    bool good = make_beside(to, &beside, error);
    if (good) {
        good = end_beside(&beside, to, rescue_into(log, beside.path, tally, error), error);
    }
    sl_log_close(log);
    return good;
}
