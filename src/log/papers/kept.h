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
    sl_bench *folded;
    sl_instant now; /* of a rehearsal: its last event */
    sl_day_went went;
} sl_kept_test;

/* test: how its id begins; NULL: the only one. The scene has to be readable. */
bool sl_kept_test_open(sl_kept_test *kept, const char *path, const char *test, sl_error *error);
/* Also of one that was not opened, {0}. */
void sl_kept_test_close(sl_kept_test *kept);

#endif
