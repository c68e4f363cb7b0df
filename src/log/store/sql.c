/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See sql.h.
 */
#include "log/store/sql.h"
#include "base/language.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/hold.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "log/store/known.h"

/* Reading fails otherwise than writing does. */
static bool refuse_use(const sl_log *log, const char *why, sl_error *error)
{
    return log->writes ? sl_fail(error, SL_ERR_CANNOT_WRITE, log->path, why)
                       : sl_fail_at(error, SL_ERR_CANNOT_READ, log->path, 0, 0, why, "");
}

static bool refuse_broken(sl_log *log, const char *why, sl_error *error)
{
    log->broken = true;
    return sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0, why,
                      _("slowlift log rescue copies what can be read into a new log"));
}

bool sl_sql_refuse(sl_log *log, sl_error *error)
{
    const int code = sqlite3_errcode(log->base) & 0xff;
    const char *const said = sqlite3_errmsg(log->base);
    switch (code) {
    case SQLITE_CORRUPT:
        return refuse_broken(log, said, error);
    case SQLITE_INTERRUPT:
        return sl_signal_waits() ? refuse_use(log, _("it was broken off"), error)
                                 : refuse_broken(log, _("its rows have no end"), error);
    case SQLITE_TOOBIG:
        return refuse_broken(log, _("it holds a value larger than any of a log"), error);
    case SQLITE_NOMEM:
        return sl_fail(error, SL_ERR_NO_MEMORY, "using the log", "");
    case SQLITE_NOTADB:
        return sl_fail_at(error, SL_ERR_NO_LOG, log->path, 0, 0, _("no SQLite file"),
                          _("name one, such as strands.db"));
    case SQLITE_BUSY:
        return refuse_use(log, _("another program keeps it busy; try again"), error);
    case SQLITE_CANTOPEN:
        /* Why is not known: SQLite tries more than one way, and keeps the error of the last. */
        return sl_fail_at(error, SL_ERR_CANNOT_READ, log->path, 0, 0,
                          "it, or what SQLite keeps beside it, could not be opened", "");
    case SQLITE_FULL:
        return refuse_use(log, _("the disk is full; nothing of this step was kept"), error);
    case SQLITE_IOERR:
        return refuse_use(log,
                          log->writes
                              ? _("the disk is full or does not answer; nothing of this step was kept")
                              : _("the disk does not answer, or the file is shorter than it was"),
                          error);
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return refuse_use(log, _("it may only be read; nothing of this step was kept"), error);
    default:
        return refuse_use(log, said, error);
    }
}

/* ---- steps ----------------------------------------------------------------------------------------------
 */

/* A row has at least some twenty bytes, and no statement of ours takes a hundred steps for one. */
enum { STEPS_OF_ANY = 2000, STEPS_PER_BYTE = 20 };

static void allow_steps(sl_log *log)
{
    log->steps_left = STEPS_OF_ANY + log->bytes / (SL_LOG_STEPS / STEPS_PER_BYTE);
}

static int take_steps(void *self)
{
    sl_log *const log = self;
    return --log->steps_left < 0 || sl_signal_waits(); /* what takes long ends early (base/hold.h) */
}

void sl_sql_limit_steps(sl_log *log, int64_t bytes)
{
    log->bytes = bytes;
    allow_steps(log);
    sqlite3_progress_handler(log->base, SL_LOG_STEPS, take_steps, log);
}

/* ---- statements -----------------------------------------------------------------------------------------
 */

sl_statement sl_sql(sl_log *log, const char *text, sl_error *error)
{
    sl_statement statement = {.log = log, .error = error};
    allow_steps(log);
    if (sqlite3_prepare_v2(log->base, text, -1, &statement.handle, NULL) != SQLITE_OK) {
        statement.bad = !sl_sql_refuse(log, error);
    }
    return statement;
}

static void check(sl_statement *statement, int code)
{
    if (code != SQLITE_OK) {
        statement->bad = !sl_sql_refuse(statement->log, statement->error);
    }
}

void sl_put_text(sl_statement *statement, const char *text)
{
    if (!statement->bad) {
        check(statement,
              text ? sqlite3_bind_text(statement->handle, ++statement->bound, text, -1, SQLITE_TRANSIENT)
                   : sqlite3_bind_null(statement->handle, ++statement->bound));
    }
}

void sl_put_lasting_text(sl_statement *statement, const char *text)
{
    if (!statement->bad) {
        check(statement, sqlite3_bind_text(statement->handle, ++statement->bound, text, -1, SQLITE_STATIC));
    }
}

void sl_put_int(sl_statement *statement, int64_t value)
{
    if (!statement->bad) {
        check(statement, sqlite3_bind_int64(statement->handle, ++statement->bound, value));
    }
}

void sl_put_real(sl_statement *statement, double value)
{
    if (!statement->bad) {
        check(statement, sqlite3_bind_double(statement->handle, ++statement->bound, value));
    }
}

void sl_put_null(sl_statement *statement)
{
    sl_put_text(statement, NULL);
}

bool sl_next_row(sl_statement *statement)
{
    if (statement->bad) {
        return false;
    }
    const int code = sqlite3_step(statement->handle);
    if (code != SQLITE_ROW && code != SQLITE_DONE) {
        statement->bad = !sl_sql_refuse(statement->log, statement->error);
    }
    return code == SQLITE_ROW;
}

bool sl_sql_step(sl_statement *statement)
{
    const bool row = sl_next_row(statement);
    assert(!row);
    (void)row;
    return !statement->bad;
}

const char *sl_text_at(sl_statement *statement, int column)
{
    const unsigned char *const text = sqlite3_column_text(statement->handle, column);
    return text ? (const char *)text : "";
}

/* Most of what a log holds is of plain letters, and a million readings are many. */
static void copy_shown(sl_statement *statement, int column, sl_text_kind kind, char *text, size_t size)
{
    const char *const from = sl_text_at(statement, column);
    size_t length = 0;
    while (from[length] >= ' ' && from[length] <= '~') {
        length++;
    }
    if (length < size && from[length] == '\0') {
        memcpy(text, from, length + 1);
    } else {
        sl_text_show(from, length + strlen(from + length), kind, text, size);
    }
}

void sl_copy_at(sl_statement *statement, int column, char *text, size_t size)
{
    copy_shown(statement, column, SL_TEXT_LINE, text, size);
}

void sl_copy_lines_at(sl_statement *statement, int column, char *text, size_t size)
{
    copy_shown(statement, column, SL_TEXT_FILE, text, size);
}

int64_t sl_int_at(sl_statement *statement, int column)
{
    return sqlite3_column_int64(statement->handle, column);
}

double sl_real_at(sl_statement *statement, int column)
{
    return sqlite3_column_double(statement->handle, column);
}

bool sl_null_at(sl_statement *statement, int column)
{
    return sqlite3_column_type(statement->handle, column) == SQLITE_NULL;
}

void sl_sql_again(sl_statement *statement)
{
    sqlite3_reset(statement->handle);
    statement->bound = 0;
    allow_steps(statement->log);
}

bool sl_sql_leave(sl_statement *statement)
{
    sqlite3_finalize(statement->handle);
    statement->handle = NULL;
    return !statement->bad;
}

bool sl_sql_gather(sl_statement *statement, sl_row_reader *read, const void *with, size_t size, void *rows,
                   int *n)
{
    char *all = NULL;
    size_t capacity = 0, count = 0;
    bool room = true;
    while (room && sl_next_row(statement)) {
        room = sl_grow(&all, &capacity, count + 1, size, "reading the log", statement->error);
        if (room) {
            read(statement, with, all + size * count++);
        }
    }
    if (!sl_sql_leave(statement) || !room) {
        sl_free(all);
        return false;
    }
    memcpy(rows, &all, sizeof all);
    *n = (int)count;
    return true;
}

bool sl_sql_done(sl_statement *statement)
{
    sl_sql_step(statement);
    return sl_sql_leave(statement);
}

bool sl_sql_added(sl_statement *statement)
{
    const sqlite3_int64 before = sqlite3_total_changes64(statement->log->base);
    if (!sl_sql_done(statement)) {
        return false;
    }
    if (sqlite3_total_changes64(statement->log->base) - before == 1) {
        return true;
    }
    return sl_fail_at(statement->error, SL_ERR_STRANGE_LOG, statement->log->path, 0, 0,
                      _("a row that was put into it is not there"), _("nothing was kept"));
}

bool sl_sql_number(sl_log *log, const char *text, int64_t *number, sl_error *error)
{
    sl_statement ask = sl_sql(log, text, error);
    const bool there = sl_next_row(&ask);
    *number = there ? sl_int_at(&ask, 0) : 0;
    if (!sl_sql_leave(&ask)) {
        return false;
    }
    if (!there) {
        return sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0, text, _("SQLite gives no answer"));
    }
    return true;
}

bool sl_sql_run(sl_log *log, const char *text, sl_error *error)
{
    allow_steps(log);
    if (sqlite3_exec(log->base, text, NULL, NULL, NULL) != SQLITE_OK) {
        return sl_sql_refuse(log, error);
    }
    return true;
}

/* ---- changes --------------------------------------------------------------------------------------------
 */

/* Another program may have changed the tables since they were compared; the count is in the file's head. */
static bool still_known(sl_log *log, sl_error *error)
{
    int64_t schema = 0;
    return log->schema < 0 || (sl_sql_number(log, "PRAGMA schema_version", &schema, error) &&
                               (schema == log->schema || sl_known_refuse_strange(log, log->version, error)));
}

static void undo(sl_log *log)
{
    sqlite3_exec(log->base, "ROLLBACK", NULL, NULL, NULL); /* fails where SQLite has already undone it */
}

bool sl_sql_begin(sl_log *log, sl_error *error)
{
    if (!sl_sql_run(log, "BEGIN IMMEDIATE", error)) {
        return false;
    }
    if (!still_known(log, error)) {
        undo(log);
        return false;
    }
    return true;
}

/* What was said to be kept and is not is taken back. */
static bool commit(sl_log *log, bool acknowledged, sl_error *error)
{
    sl_error why = {.code = SL_OK};
    if (sl_sql_run(log, "COMMIT", &why)) {
        return true;
    }
    if (!acknowledged) {
        return sl_fail_at(error, why.code, why.file, 0, 0, why.found, why.wanted);
    }
    char taken_back[SL_ERROR_TEXT_SIZE];
    snprintf(taken_back, sizeof taken_back, _("%.120s; what was just said to be kept is not"), why.wanted);
    return sl_fail_at(error, why.code, why.file, 0, 0, why.found, taken_back);
}

bool sl_sql_end(sl_log *log, bool good, sl_error *error)
{
    const bool told = good && (!log->receipt || log->receipt(log->receipt_self, error));
    if (told && commit(log, log->receipt != NULL, error)) {
        return true;
    }
    undo(log);
    return false;
}
