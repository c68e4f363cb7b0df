/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Between pooled.c, which makes the grid, and pooled_told.c, which reads it.
 */
#ifndef SLOWLIFT_ESTIMATE_POOLING_H
#define SLOWLIFT_ESTIMATE_POOLING_H

#include "slowlift/pooled.h"

enum { SL_POOL_GRID = 28 };                         /* points along each standard deviation */
static const double SL_POOL_LEAST_VARIANCE = 1e-12; /* beside which none is nothing */

/* Fills what follows from the points. start: what their means are about; scale: of the grid; own: a test has
 * two strips. Wants pool->joined. */
void sl_pool_tell(sl_pooled *pool, double start, double scale, bool own);

#endif
