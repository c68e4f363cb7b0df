/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Over all tests of a folder: whether a tub weakens, by its check swatches, and whether who looks grades as
 * before, by looks that were repeated. Two rows of single values, each with limits from its own first ten.
 *
 * Invariant: a test counts once, a rehearsal never; values of several lots are never put into one row, and
 * what else was not alike is said.
 */
#ifndef SLOWLIFT_LOG_DRIFT_H
#define SLOWLIFT_LOG_DRIFT_H

#include "log/shelf/individuals.h"
#include "log/shelf/shelf.h"

typedef enum sl_drift_kind {
    SL_DRIFT_TUB,  /* share of colour left on a check swatch at the end: 0..1, mean over its zones */
    SL_DRIFT_JUDGE /* a repeated look's share of colour less that of the first: -1..1, mean over the zones */
} sl_drift_kind;

typedef struct sl_drift_point {
    int64_t wall_ns; /* of the first water; of the look */
    double value;
    int n;                    /* zones that were looked at */
    char file[SL_SHELF_NAME]; /* the log, */
    char test[SL_UUID];       /* the test */
    char swatch[8];           /* and the swatch's code */
    char what[SL_LOG_TITLE];  /* the strip of a check swatch */
    double minute, hours;     /* the moment of a repeated look, as in a reading */
    int turn;                 /* and the how manieth look it was: 1 for the second */
} sl_drift_point;

typedef struct sl_drift_row {
    sl_drift_kind kind;
    char code[SL_CODE];    /* the tub's lot, the judge's code */
    sl_drift_point *point; /* [n] in time */
    size_t n, room;
    bool unlike; /* check swatches of several strips */
    sl_individuals control;
} sl_drift_row;

typedef struct sl_drift {
    const char *folder; /* borrowed */
    sl_drift_row *row;  /* [n] tubs first, then judges, by their codes */
    size_t n, room;
    int without_lot; /* check swatches of which no lot was said */
    int n_unread;
    sl_error unread; /* of the first log that could not be read */
} sl_drift;          /* start with {0} */

bool sl_drift_read(sl_drift *drift, const char *folder, sl_error *error);
void sl_drift_free(sl_drift *drift);
/* Of a point from the second on: how far it lies from the one before. */
double sl_drift_range(const sl_drift_row *row, size_t point);
bool sl_drift_outside(const sl_drift_row *row, size_t point); /* its value, or its range */

/* ---- what is said of it (drift_say.c, drift_graph.c) -------------------------------------------------- */

sl_document_sayer sl_drift_say; /* of a sl_drift */
extern const sl_export sl_drift_export;
/* ranges: the moving ranges, else the values. */
const sl_graph *sl_graph_of_drift(sl_arena *arena, const sl_drift_row *row, bool ranges, sl_error *error);

#endif
