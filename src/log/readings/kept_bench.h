/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The swatches and zones of a test, for rows that are about them.
 */
#ifndef SLOWLIFT_LOG_KEPT_BENCH_H
#define SLOWLIFT_LOG_KEPT_BENCH_H

#include "slowlift/log.h"

typedef struct sl_bench_kept {
    char id[SL_UUID];
    sl_log_swatch *swatches; /* [n_swatches] */
    int n_swatches, n_zones;
    char (*zones)[SL_LOG_ZONE]; /* [n_zones] */
} sl_bench_kept;

/* What was read so far is to be forgotten in any case. */
bool sl_bench_read(sl_log *log, const char *test, sl_bench_kept *bench, sl_error *error);
void sl_bench_forget(sl_bench_kept *bench);

#endif
