/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Forgetting somebody: a log written anew without what it holds of a code, whole, in place of the old one.
 * Invariant: a log's rows are never changed where they stand; whoever is killed on the way leaves the old log
 * or the new one.
 */
#ifndef SLOWLIFT_LOG_FORGET_H
#define SLOWLIFT_LOG_FORGET_H

#include "log/shelf/shelf.h"
#include "log/store/sql.h"

typedef struct sl_forgotten {
    long long tests, swatches, events, readings; /* rows that go */
    long long words;                             /* rows that stay, but for the code in them */
    long long scene_files;      /* of the tests that stay, which hold the code and stay whole */
    long long photographs_left; /* that are not found, elsewhere or changed: they stay */
    char (*photo)[SL_LOG_PATH]; /* [n_photos] files that go */
    size_t n_photos, photo_room;
    char (*elsewhere)[SL_SHELF_NAME]; /* [n_elsewhere] other files of the folder that hold it */
    size_t n_elsewhere, room;
} sl_forgotten; /* start with {0} */
void sl_forgotten_free(sl_forgotten *forgotten);

/* Forgets the code of a judge, of an operator, or of a person with the strands of that hair: rows and
 * photographs (files of the log's folder that are still as they were). A test that was of that hair alone
 * goes whole; of other rows the code is taken out. A reading that one of those corrected goes, too. The
 * receipt is given when the new log is whole and only has to take its place; false: nothing is changed. A log
 * that holds nothing of the code stays as it is. Fails: SL_ERR_INCONSISTENT while mix lies on hair of a test,
 * or another program has the log open; as sl_log_open(). */
bool sl_log_forget(const char *path, const char *code, sl_forgotten *forgotten, sl_log_receipt *receipt,
                   void *self, sl_error *error);

/* No mix lies on hair of any test; and from here on nobody else reads or writes the log, by SQLite's
 * exclusive locking without a write-ahead log (https://sqlite.org/pragma.html#pragma_locking_mode).
 * (forget_gate.c) */
bool sl_forget_may(sl_log *log, sl_error *error);

/* ---- files (forget_files.c) -------------------------------------------------------------------------- */

/* The code as a word of so many bytes: what stands beside it is no letter, digit, - or _. NULL: it is not
 * there. */
const char *sl_code_in(const char *text, size_t length, const char *code);
/* Fills `elsewhere` by all files of the log's folder but the log itself and the photographs that go. */
bool sl_forget_elsewhere(const char *path, const char *code, sl_forgotten *forgotten, sl_error *error);
/* Whether the log holds the code in any row. */
bool sl_log_names(sl_log *log, const char *code, bool *names, sl_error *error); /* forget.c */
/* A photograph of the log's folder that is still as it was; `real` is where. */
bool sl_photo_beside(const char *log, const char *photo, const char *hash, char real[SL_LOG_PATH]);

#endif
