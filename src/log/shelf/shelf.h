/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shelf: all logs of one folder, and every test that they keep, in one list over the years.
 *
 * Invariant: logs are only read. One that cannot be read is a row with its reason, and ends nothing.
 */
#ifndef SLOWLIFT_LOG_SHELF_H
#define SLOWLIFT_LOG_SHELF_H

#include "document/document.h"
#include "document/table.h"
#include "log/day/due.h"
#include "log/papers/kept.h"

enum { SL_SHELF_NAME = 256, SL_SHELF_DAYS = 366 };

/* Every plain file of the folder that is not hidden, or only those that are a log by their head or end in
 * .db, in the order of their names. What the visitor refuses is the result. */
typedef bool sl_shelf_visit(void *self, const char *path, const char *name, sl_error *error);
bool sl_shelf_each_file(const char *folder, bool only_logs, sl_shelf_visit *visit, void *self,
                        sl_error *error);

/* Whether a file that is open is a log by its head. */
bool sl_log_headed(int file);

typedef struct sl_shelf_row {
    char file[SL_SHELF_NAME]; /* its name in the folder */
    sl_error why;             /* SL_OK: it was read; else nothing of what follows is known */
    sl_log_test test;
    int day;      /* on which it was begun, days since 1970-01-01 */
    int n_strips; /* arms of its scene */
    sl_test_state state;
    bool rehearsed;
    bool copy;       /* a fuller log of the same test is listed, too */
    sl_log_due *due; /* [n_due] */
    int n_due;
} sl_shelf_row;

/* A tub of powder, by its lot; days since 1970-01-01, 0: not known. A check swatch is due after so many days
 * without one, of a tub that was in use lately. (common practice, no source) */
enum { SL_TUB_CHECK_DAYS = 28, SL_TUB_USE_DAYS = 56 };
typedef struct sl_shelf_tub {
    char lot[SL_CODE];
    int opened, used, checked; /* the last of each */
} sl_shelf_tub;
bool sl_shelf_tub_due(const sl_shelf_tub *tub, int today);

typedef struct sl_log_shelf {
    const char *folder; /* borrowed */
    int today;          /* days since 1970-01-01 */
    bool all;           /* older ones are listed too */
    sl_shelf_row *row;  /* [n] the newest test first; behind them what could not be read, by name */
    size_t n, room;
    sl_shelf_tub *tub; /* [n_tubs] out of which a bowl of a listed test was filled, as they came */
    size_t n_tubs, tub_room;
    int keep_months;       /* how long tests are to be kept; 0: not settled */
    int n_past;            /* tests that were begun longer ago, in all logs */
    int n_unread, n_older; /* rows that could not be read; tests of more than a year ago that are left out */
    /* Each test that is read and listed, while all of it is at hand; NULL: nobody looks. Its row is the last
     * until then. */
    bool (*visit)(void *visitor, const sl_kept_test *kept, sl_error *error);
    void *visitor;
} sl_log_shelf; /* start with {0}, and who visits */

/* all: tests of more than a year ago, too. Fails: SL_ERR_USAGE for a folder that cannot be opened. */
bool sl_shelf_read(sl_log_shelf *shelf, const char *folder, bool all, int keep_months, sl_error *error);
void sl_shelf_free(sl_log_shelf *shelf);
/* Whether all of it could be read; else the first that could not is told. */
bool sl_shelf_whole(const sl_log_shelf *shelf, sl_error *error);
bool sl_shelf_bare(sl_error *error); /* no log of a folder holds a test; always false */

/* A file's name, harmless whatever it is; returns text. */
enum { SL_SHELF_SHOWN = 8 * SL_SHELF_NAME };
const char *sl_shelf_shown(const char *name, char text[SL_SHELF_SHOWN]);

/* ---- what is said of it (shelf_say.c) ----------------------------------------------------------------- */

sl_document_sayer sl_shelf_say; /* of a sl_log_shelf */
/* What is due of each test and tub, in whole sentences under a heading; where nothing is, nothing. */
void sl_shelf_say_due(sl_document *document, const sl_log_shelf *shelf);
const char *sl_shelf_state_words(const sl_shelf_row *row); /* how far a test that was read is */
void sl_shelf_say_unread(sl_document *document, int n); /* logs or tests that could not be read; 0: nothing */
extern const sl_export sl_shelf_export;

#endif
