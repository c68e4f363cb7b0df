/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Applications after the first, from the scene that the log keeps: a row of a swatch knows its first one.
 */
#ifndef SLOWLIFT_LOG_ROUNDS_H
#define SLOWLIFT_LOG_ROUNDS_H

#include "slowlift/log.h"

/* Whether the bench has room for so many swatches of one test; a file may hold more. SL_ERR_TOO_LARGE. */
bool sl_day_holds(int n_swatches, sl_error *error);
/* Fills bench.more of swatches whose arm has several applications, and their first dwell, which older
 * logs give up to the last water; a ladder has one application. And whether the hair is a person's. scene:
 * NULL for one that could not be read: then it may be. */
void sl_rounds_fill(const sl_scene *scene, sl_log_swatch *swatches, int n);
/* After that, all events folded: *plan [n] and *bench, freed with sl_free() of base/memory.h, also where it
 * fails. */
bool sl_rounds_fold(const sl_scene *scene, sl_log_swatch *swatches, int n, const sl_event *events,
                    int n_events, sl_bench_swatch **plan, sl_bench **bench, sl_error *error);
/* For the model beside the clock: each arm's last mix stays on this much longer, so that a swatch that is
 * late can be followed. */
void sl_rounds_stay_on(sl_scene *scene, double longer_min);

#endif
