/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tress of hair: R = k1 + (1 - k1) G exp(-sqrt(2q)), q = K/S per band
 * (docs/colour.md, "From absorption to reflectance").
 *
 * Invariant: bands past SL_BANDS are padding and weigh nothing, so that loops over
 * SL_PADDED are whole vectors of two or four and the compiler needs no remainder.
 */
#ifndef SLOWLIFT_OPTICS_TRESS_H
#define SLOWLIFT_OPTICS_TRESS_H

#include "slowlift/optics.h"

enum { SL_PADDED = 84, SL_LANES = 4 };

/* fade[i] = exp(-sqrt(2 q[i])), q >= 0; absolute error below 1e-14 (fade.c). */
void sl_fade(const double *restrict q, double *restrict fade);

/* sum[i] += amount * spectrum[i]. */
void sl_add_spectrum(double amount, const double *restrict spectrum, double *restrict sum);

#endif
