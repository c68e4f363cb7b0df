/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hair beside the colour, read and asked about. For compare.c and the two files alone.
 */
#ifndef SLOWLIFT_LOG_HAIR_SEEN_H
#define SLOWLIFT_LOG_HAIR_SEEN_H

#include "log/compare/looks.h"

/* Fills hair, paid, and room for what lies before what, anew for the moment that is ranked; basis stands. */
bool sl_seen_hair_read(sl_compare *compare, sl_error *error);
void sl_seen_hair_free(sl_compare *compare);
/* Into asked[n_hair + n_paid], which is returned: what stands behind the colours in one comparison of all. */
int sl_seen_hair_ask(const sl_compare *compare, sl_blocks *asked);
/* After that: of words only what holds whatever a step is worth stays told. */
void sl_seen_hair_settle(sl_compare *compare);
/* Whether swatches of the one, counted by word, are never worse than the other's from any word on; both
 * have some. */
bool sl_said_before(const int *less, const int *other, int n_words);

/* Of a swatch's zone at a moment, or SL_NOT_READ. */
double sl_hair_of_group(const sl_compare *compare, sl_hair_measure measure, bool since_start,
                        const sl_seen_group *group);
/* sl_blocks_of, scattering by no less than half a step of the measure. */
void sl_hair_blocks(sl_blocks *blocks, sl_hair_measure measure, const sl_block_value *value, int n,
                    int n_arms);

bool sl_paid_read(sl_compare *compare, sl_error *error); /* paid.c */

/* One look at colour and hair of one swatch. */
typedef struct sl_paid_look {
    double left, hair;
} sl_paid_look;
/* What the hair showed when so much was left, or SL_NOT_READ. apart: a look that much below is one at so
 * much. from_start: hair counts from 0 at all colour left. slope: of hair on ln(colour left) there. */
double sl_paid_at(const sl_paid_look *look, int n, double left, double apart, bool from_start, double *slope);

#endif
