/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Over all tests of a folder: whether a tub weakens, by its check swatches, and whether who looks grades as
 * before, by looks that were repeated and beside the others of each test. Rows of single values, each with
 * limits from its own first ten.
 *
 * Invariant: a test counts once, a rehearsal never; values of several lots are never put into one row, and
 * what else was not alike is said.
 */
#ifndef SLOWLIFT_LOG_DRIFT_H
#define SLOWLIFT_LOG_DRIFT_H

#include "log/shelf/individuals.h"
#include "log/shelf/shelf.h"

typedef enum sl_drift_kind {
    SL_DRIFT_TUB,   /* share of colour left on a check swatch at the end: 0..1, mean over its zones */
    SL_DRIFT_JUDGE, /* a repeated look's share of colour less that of the first: -1..1, mean over the zones */
    SL_DRIFT_OFFSET /* of a test, a judge less the mean of the others who looked at the same: steps of the
                       grades, as many as there are from no change to as undyed; no points: was always alone
                     */
} sl_drift_kind;

typedef struct sl_drift_point {
    int64_t wall_ns; /* of the first water; of the look; of an offset when the test was made */
    double value;
    double error;             /* of an offset: its standard error, in the same steps */
    int n;                    /* zones that were looked at; of an offset grades that the judge gave */
    int others;               /* of an offset */
    char file[SL_SHELF_NAME]; /* the log, */
    char test[SL_UUID];       /* the test */
    char swatch[8];           /* and the swatch's code */
    char what[SL_LOG_TITLE];  /* the strip of a check swatch; of an offset the codes of the others */
    double minute, hours;     /* the moment of a repeated look, as in a reading */
    int turn;                 /* and the how manieth look it was: 1 for the second */
} sl_drift_point;

typedef struct sl_drift_row {
    sl_drift_kind kind;
    char code[SL_CODE];    /* the tub's lot, the judge's code */
    sl_drift_point *point; /* [n] in time */
    size_t n, room;
    bool unlike; /* check swatches of several strips; not the same others in all tests */
    sl_individuals control;
} sl_drift_row;

typedef struct sl_drift {
    const char *folder; /* borrowed */
    sl_drift_row *row;  /* [n] by kind, then by their codes */
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
/* What a value is multiplied by where people read it: 100 for shares, 1 for steps. */
double sl_drift_scale(const sl_drift_row *row);

/* ---- a judge who grades otherwise than in the first ten tests (drift_shift.c) ---------------------------
 */

typedef enum sl_shift_kind {
    SL_SHIFT_NONE,
    SL_SHIFT_OWN,    /* nobody beside whom the judge looked moved further in the same tests */
    SL_SHIFT_OF_TWO, /* there was one other alone, who moved as far the other way */
    SL_SHIFT_FOLLOWS /* another moved further, beside whom this one only seems to */
} sl_shift_kind;
typedef struct sl_drift_shift {
    sl_shift_kind kind;
    double steps;              /* mean since then less that of the first ten */
    size_t since;              /* the point of the row */
    const sl_drift_row *whose; /* SL_SHIFT_FOLLOWS: who moved furthest */
} sl_drift_shift;
/* Of a judge's offsets, with the same others in all tests: what lies outside, with all tests after it on the
 * same side of the mean, two tests at least. */
sl_drift_shift sl_drift_shift_of(const sl_drift *drift, const sl_drift_row *row);

/* ---- what is said of it (drift_say.c, drift_graph.c) -------------------------------------------------- */

sl_document_sayer sl_drift_say; /* of a sl_drift */
extern const sl_export sl_drift_export;
/* ranges: the moving ranges, else the values. */
const sl_graph *sl_graph_of_drift(sl_arena *arena, const sl_drift_row *row, bool ranges, sl_error *error);

#endif
