/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings out of the log, pulled one by one in the order in which they were kept. Invariant: one that this
 * program would not have kept is left out and told; where a page cannot be read it goes on in a copy of what
 * can be, once.
 */
#ifndef SLOWLIFT_LOG_READING_PULL_H
#define SLOWLIFT_LOG_READING_PULL_H

#include "log/readings/reading_columns.h"

typedef struct sl_reading_pull {
    sl_log *log;
    const char *test; /* borrowed; NULL: all */
    bool latest;      /* only those that no later one replaces */
    bool asks, fell_back;
    int64_t last; /* `kept` of the last one */
    sl_statement ask;
    sl_error *error;
    /* The one that was pulled. */
    sl_log_reading reading;
    sl_log_swatch swatch;
    char of_test[SL_UUID];
} sl_reading_pull;

sl_reading_pull sl_readings_pull(sl_log *log, const char *test, sl_error *error);
/* 1: another one; 0: there are no more; -1: failed. */
int sl_reading_next(sl_reading_pull *pull);
/* Before the last one. Always true after it. */
bool sl_readings_leave(sl_reading_pull *pull);

#endif
