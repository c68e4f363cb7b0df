/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See sql.h.
 */
#include "log/sql.h"
#include "base/language.h"

#include <stdio.h>
#include <string.h>

bool sl_sql_refuse(const sl_log *log, sl_error *error)
{
    const int code = sqlite3_errcode(log->base) & 0xff;
    const char *const said = sqlite3_errmsg(log->base);
    switch (code) {
    case SQLITE_NOMEM:
        return sl_fail(error, SL_ERR_NO_MEMORY, "using the log", "");
    case SQLITE_NOTADB:
        return sl_fail_at(error, SL_ERR_NO_LOG, log->path, 0, 0, _("no SQLite file"),
                          _("name one, such as strands.db"));
    case SQLITE_BUSY:
        return sl_fail(error, SL_ERR_CANNOT_WRITE, log->path, "another program keeps it busy; try again");
    case SQLITE_CANTOPEN:
        /* Why is not known: SQLite tries more than one way, and keeps the error of the last. */
        return sl_fail_at(error, SL_ERR_CANNOT_READ, log->path, 0, 0,
                          "it, or what SQLite keeps beside it, could not be opened", "");
    case SQLITE_FULL:
        return sl_fail(error, SL_ERR_CANNOT_WRITE, log->path,
                       "the disk is full; nothing of this step was kept");
    case SQLITE_IOERR:
        return sl_fail(error, SL_ERR_CANNOT_WRITE, log->path,
                       "the disk is full or does not answer; nothing of this step was kept");
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return sl_fail(error, SL_ERR_CANNOT_WRITE, log->path,
                       "it may only be read; nothing of this step was kept");
    default:
        return sl_fail(error, SL_ERR_CANNOT_WRITE, log->path, said);
    }
}

sl_statement sl_sql(sl_log *log, const char *text, sl_error *error)
{
    sl_statement statement = {.log = log, .error = error};
    if (sqlite3_prepare_v2(log->base, text, -1, &statement.handle, NULL) != SQLITE_OK) {
        statement.bad = !sl_sql_refuse(log, error);
    }
    return statement;
}

static void check(sl_statement *statement, int code)
{
    if (!statement->bad && code != SQLITE_OK) {
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

const char *sl_text_at(sl_statement *statement, int column)
{
    const unsigned char *const text = sqlite3_column_text(statement->handle, column);
    return text ? (const char *)text : "";
}

void sl_copy_at(sl_statement *statement, int column, char *text, size_t size)
{
    snprintf(text, size, "%s", sl_text_at(statement, column));
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
}

bool sl_sql_leave(sl_statement *statement)
{
    sqlite3_finalize(statement->handle);
    statement->handle = NULL;
    return !statement->bad;
}

bool sl_sql_done(sl_statement *statement)
{
    while (sl_next_row(statement)) {
    }
    return sl_sql_leave(statement);
}

bool sl_sql_run(sl_log *log, const char *text, sl_error *error)
{
    return sqlite3_exec(log->base, text, NULL, NULL, NULL) == SQLITE_OK || sl_sql_refuse(log, error);
}

bool sl_sql_begin(sl_log *log, sl_error *error)
{
    return sl_sql_run(log, "BEGIN IMMEDIATE", error);
}

bool sl_sql_end(sl_log *log, bool good, sl_error *error)
{
    if (good && sl_sql_run(log, "COMMIT", error)) {
        return true;
    }
    sqlite3_exec(log->base, "ROLLBACK", NULL, NULL, NULL); /* fails where SQLite has already undone it */
    return false;
}
