/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values on the command line: "5min,10min", "0min..60min/1min", "50%". Units are written,
 * as in the model files; no locale matters.
 */
#ifndef SLOWLIFT_FRONT_TIMES_H
#define SLOWLIFT_FRONT_TIMES_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"

enum { SL_TIMES_MOST = 10000 };

/* Minutes, in the order written. */
typedef struct sl_times {
    double *min;
    size_t n, capacity;
    const char *option; /* named in messages; NULL = "--at" */
} sl_times;             /* start with {0} */

/* Appends what `text` says. Fails with SL_ERR_USAGE. */
bool sl_times_read(sl_times *times, const char *text, sl_error *error);
bool sl_times_add(sl_times *times, double minutes, sl_error *error);
/* When no time was asked for: those of usual[n] that the scene reaches, or its end.
 * Fails with SL_ERR_USAGE for a time past until_min. */
bool sl_times_settle(sl_times *times, const double *usual, int n, double until_min, sl_error *error);
void sl_times_free(sl_times *times);

/* A share above 0 and below 1, as "50%", "50 %" or "0.5". */
bool sl_share_read(const char *text, double *share, sl_error *error);
/* The same for another option than --share. */
bool sl_share_read_as(const char *option, const char *text, double *share, sl_error *error);
/* "45s" or "1min" in whole seconds. */
bool sl_seconds_read(const char *option, const char *text, int least, int most, int *seconds,
                     sl_error *error);

#endif
