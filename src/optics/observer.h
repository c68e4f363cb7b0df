/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who looks, and in which light: the CIE 1931 observer under D65 on the grid of optics.h.
 * Invariant: the tables are figures of the standards (CIE 15, ISO/CIE 11664-1 and -2) and
 * the weights are those of a plain 5 nm sum, scaled so that a perfect white has Y = 1.
 */
#ifndef SLOWLIFT_OPTICS_OBSERVER_H
#define SLOWLIFT_OPTICS_OBSERVER_H

#include "slowlift/optics.h"

extern const double sl_observer_2deg[3][SL_BANDS]; /* [x y z][band] */
extern const double sl_illuminant_d65[SL_BANDS];

/* weight[axis][band] such that X, Y, Z = sum of weight * reflectance. */
void sl_observer_weights(double weight[3][SL_BANDS]);

#endif
