/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks at swatches, out of the log, and what the events say of each swatch. For compare.c alone.
 */
#ifndef SLOWLIFT_LOG_LOOKS_H
#define SLOWLIFT_LOG_LOOKS_H

#include "slowlift/compare.h"

/* Fills groups, noise and judges from the readings that none replaces and that are not called
 * invalid (looks.c). */
bool sl_looks_read(sl_compare *compare, sl_log *log, sl_error *error);
/* Where the groups of this zone of this swatch begin, or would. */
int sl_looks_first(const sl_compare *compare, int swatch, int zone);
/* The group of a moment, or NULL. */
const sl_seen_group *sl_looks_find(const sl_compare *compare, int swatch, int zone, double minute,
                                   double hours);

/* Fills bench and deviations (handling.c). */
bool sl_handling_read(sl_compare *compare, sl_log *log, sl_error *error);
bool sl_deviation_add(sl_compare *compare, sl_deviation deviation, size_t *capacity, sl_error *error);

#endif
