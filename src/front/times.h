/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values on the command line: "5min,10min", "0min..60min/1min", "50%". Units are written,
 * as in the model files; no locale matters.
 */
#ifndef SLOWLIFT_FRONT_TIMES_H
#define SLOWLIFT_FRONT_TIMES_H

#include <stdbool.h>
#include <stddef.h>

#include "front/option.h"

enum { SL_TIMES_MOST = 10000 };

/* Minutes, in the order written. */
typedef struct sl_times {
    double *min;
    size_t n, capacity;
} sl_times; /* start with {0} */

/* Appends what `text` says; a refusal names the option. Fails with SL_ERR_USAGE. */
bool sl_times_read(sl_times *times, const sl_option *option, const char *text, sl_error *error);
/* When no time was asked for: those of usual[n] that the scene reaches, or its end.
 * Fails with SL_ERR_USAGE for a time past until_min. */
bool sl_times_settle(sl_times *times, const double *usual, int n, double until_min, sl_error *error);
void sl_times_free(sl_times *times);

/* One time with its unit, and nothing behind it. */
bool sl_single_time_read(const char *text, double *minutes);

#endif
