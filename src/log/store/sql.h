/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * SQLite with our errors: statements that are prepared, bound, stepped and always finished.
 */
#ifndef SLOWLIFT_LOG_SQL_H
#define SLOWLIFT_LOG_SQL_H

#include <sqlite3.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/log.h"

/* Of events of the test ?1, that nobody took back. */
#define SL_NOT_UNDONE                                                                                        \
    " AND id NOT IN (SELECT about FROM event WHERE test = ?1 AND kind = 'undone' AND about IS NOT NULL)"

enum { SL_LOG_PATH = 4096, SL_LOG_WAIT_MS = 10000 };

struct sl_log {
    sqlite3 *base;
    bool writes;
    bool broken;        /* SQLite found a page or a value that cannot be */
    bool copied;        /* base holds what could be read of a file that is not as it should be */
    int version;        /* of its tables; below SL_LOG_VERSION only where it is only read */
    int64_t schema;     /* SQLite's count of changes of the tables when they were last compared; -1: never */
    int64_t bytes;      /* of the file, as it was opened */
    int64_t steps_left; /* of the statement that runs, in units of SL_LOG_STEPS */
    sl_log_tally tally;
    int64_t *left_out; /* [n_left_out] readings that this program would not have kept, by `kept` */
    size_t n_left_out, left_out_room;
    int64_t made_ns; /* when tests that are begun say they were, of those that are made up; 0: now */
    sl_log_receipt *receipt;
    void *receipt_self;
    char path[SL_LOG_PATH];
};
enum { SL_LOG_STEPS = 10000 };

/* A statement on its way. Once a call has failed, `bad` is set, the error is told, and the
 * others do nothing, so that one check at the end suffices. */
typedef struct sl_statement {
    sl_log *log;
    sqlite3_stmt *handle;
    sl_error *error;
    bool bad;
    int bound;
} sl_statement;

sl_statement sl_sql(sl_log *log, const char *text, sl_error *error);
void sl_put_text(sl_statement *statement, const char *text); /* NULL: null */
/* A text that stays where it is until the statement has run: it is not copied. */
void sl_put_lasting_text(sl_statement *statement, const char *text);
void sl_put_int(sl_statement *statement, int64_t value);
void sl_put_real(sl_statement *statement, double value);
void sl_put_null(sl_statement *statement);
/* True while there is a row. */
bool sl_next_row(sl_statement *statement);
/* A statement that gives no rows, to its end: whether it went well. */
bool sl_sql_step(sl_statement *statement);
const char *sl_text_at(sl_statement *statement, int column); /* "" for null */
/* As one line, harmless whatever the file holds (base/plain_text.h), cut at a whole character. */
void sl_copy_at(sl_statement *statement, int column, char *text, size_t size);
/* The same of a text that may have several lines. */
void sl_copy_lines_at(sl_statement *statement, int column, char *text, size_t size);
int64_t sl_int_at(sl_statement *statement, int column);
double sl_real_at(sl_statement *statement, int column);
bool sl_null_at(sl_statement *statement, int column);
/* Ready for the next values: a statement that is run many times. */
void sl_sql_again(sl_statement *statement);
/* Run to its end and finish: true when all went well. */
bool sl_sql_done(sl_statement *statement);
/* Finish a statement that may have rows left. */
bool sl_sql_leave(sl_statement *statement);
/* All its rows, each read into `size` bytes; it is left. `rows`: the address of a pointer variable, which is
 * set only when all went well: sl_free(). */
typedef void sl_row_reader(sl_statement *row, const void *with, void *into);
bool sl_sql_gather(sl_statement *statement, sl_row_reader *read, const void *with, size_t size, void *rows,
                   int *n);

/* The folder that a file lies in, with its last slash; "." where the path names none. */
void sl_log_folder(const char *path, char folder[SL_LOG_PATH]); /* log.c */

/* One or more statements without values. */
bool sl_sql_run(sl_log *log, const char *text, sl_error *error);
/* What SQLite says, as our error; always false. */
bool sl_sql_refuse(sl_log *log, sl_error *error);
/* One whole number, as of a PRAGMA. */
bool sl_sql_number(sl_log *log, const char *text, int64_t *number, sl_error *error);
/* One row was added, and no other: true. Run to its end and finish. */
bool sl_sql_added(sl_statement *statement);
/* How many steps of SQLite's machine each statement from here on may take, by the bytes that it may have
 * to read: in a file whose pages lead round in a circle rows have no end. */
void sl_sql_limit_steps(sl_log *log, int64_t bytes);

/* A change that is kept whole or not at all. The tables are those that were found when the log was
 * opened, or it is refused. */
bool sl_sql_begin(sl_log *log, sl_error *error);
/* good: keep it, else undo it. Returns good and kept. A receipt that was asked for is given before, and what
 * cannot be acknowledged is not kept. */
bool sl_sql_end(sl_log *log, bool good, sl_error *error);

#endif
