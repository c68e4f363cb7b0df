/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All that a log holds of one test, read at once, for what is printed of it afterwards.
 */
#ifndef SLOWLIFT_LOG_KEPT_TEST_H
#define SLOWLIFT_LOG_KEPT_TEST_H

#include "report/plan/day.h"
#include "slowlift/log.h"

typedef struct sl_kept_test {
    sl_log *log; /* open for reading */
    sl_log_test test;
    sl_scene *scene;
    int n, n_events, n_readings;
    sl_log_swatch *swatches;  /* [n] by block and place */
    sl_bench_swatch *bench;   /* [n] */
    const char **arm;         /* [n] names */
    sl_event *event;          /* [n_events] */
    sl_log_reading *readings; /* [n_readings] that none replaces */
    sl_tubs *tubs;            /* [n] */
    int dyed;                 /* on this day; 0: nobody said */
    sl_bench *folded;
    sl_instant now; /* of a rehearsal: its last event */
    sl_day_went went;
} sl_kept_test;

/* How far it is: a word for machines, and what people read. What was done on paper alone has no events:
 * readings at the end tell of it. */
#define SL_TEST_STATE_LIST(ROW)                                                                              \
    ROW(PLANNED, "planned", N_("only planned"))                                                              \
    ROW(RUNNING, "running", N_("running"))    /* begun, and not every mix is rinsed */                       \
    ROW(RINSED, "rinsed", N_("all rinsed"))   /* and nothing was seen at the end yet */                      \
    ROW(COMPARED, "compared", N_("compared")) /* something was, and can be compared */
#define SL_TEST_STATE_AS_ENUM(name, word, words) SL_TEST_##name,
typedef enum sl_test_state { SL_TEST_STATE_LIST(SL_TEST_STATE_AS_ENUM) SL_TEST_STATES } sl_test_state;
#undef SL_TEST_STATE_AS_ENUM
sl_test_state sl_kept_test_state(const sl_kept_test *kept);

/* Of a log that is open, which it borrows; start with {0}. The scene has to be readable. */
bool sl_kept_test_read(sl_kept_test *kept, sl_log *log, const sl_log_test *test, sl_error *error);
/* test: how its id begins; NULL: the only one. The scene has to be readable. */
bool sl_kept_test_open(sl_kept_test *kept, const char *path, const char *test, sl_error *error);
/* Also of one that was not opened, {0}. */
void sl_kept_test_close(sl_kept_test *kept);

#endif
