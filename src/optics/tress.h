/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tress of hair: R = k1 + (1 - k1) G exp(-sqrt(2q)), q = K/S per band
 * (docs/colour.md, "From absorption to reflectance").
 *
 * Invariant: bands past the last are padding and weigh nothing, so that the loops are whole
 * vectors of two or four and the compiler needs no remainder.
 */
#ifndef SLOWLIFT_OPTICS_TRESS_H
#define SLOWLIFT_OPTICS_TRESS_H

#include <stdbool.h>

#include "slowlift/optics.h"

enum {
    SL_PADDED = 84,      /* the 81 bands of spectra that people see, padded */
    SL_PAINT_BANDS = 41, /* of a colour: 380..780 nm by 10 nm, every second band */
    SL_PAINT_PADDED = 44,
    SL_LANES = 4
};

/* fade[i] = exp(-sqrt(2 q[i])), q >= 0; absolute error below 1e-14 (fade.c). */
void sl_fade(const double q[SL_PADDED], double fade[SL_PADDED]);

/* The same on the bands of a colour, and sum[i] += amount * spectrum[i] there. `wide` asks for
 * the processor's wide vectors (sl_has_wide_vectors); the numbers are the same bytes. */
void sl_paint_fade(const double q[SL_PAINT_PADDED], double fade[SL_PAINT_PADDED], bool wide);
void sl_paint_add(double amount, const double spectrum[SL_PAINT_PADDED], double sum[SL_PAINT_PADDED],
                  bool wide);
bool sl_has_wide_vectors(void);

#endif
