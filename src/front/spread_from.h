/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How swatches scatter, out of a log that a command names. Invariant: the log is only read.
 */
#ifndef SLOWLIFT_FRONT_SPREAD_FROM_H
#define SLOWLIFT_FRONT_SPREAD_FROM_H

#include "front/option.h"
#include "slowlift/compare.h"

/* The record has a member spread_from. */
#define SL_SPREAD_FROM(record)                                                                               \
    SL_OPTION(record, spread_from, sl_option_text, .name = "spread-from", .value = N_("LOG"),                \
              .wants = SL_WANTS_LOG, .help = N_("swatches scatter as the repeats of this log show"))
/* One of them at most; spread -1: not given. */
bool sl_spread_check(double spread, const char *spread_from, sl_error *error);
bool sl_scatter_from(sl_scatter *scatter, const char *path, sl_error *error);

#endif
