/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who looks, and in which light: the two CIE observers under D65, A and a warm white LED, on
 * the grid of optics.h.
 * Invariant: the tables are figures of the standards (CIE 15, ISO/CIE 11664-1 and -2) and
 * the weights are those of a plain 5 nm sum, scaled so that a perfect white has Y = 1.
 */
#ifndef SLOWLIFT_OPTICS_OBSERVER_H
#define SLOWLIFT_OPTICS_OBSERVER_H

#include "slowlift/optics.h"

extern const double sl_observer_2deg[3][SL_BANDS]; /* [x y z][band] */
extern const double sl_observer_10deg[3][SL_BANDS];
extern const double sl_illuminant_d65[SL_BANDS];

/* Relative spectral power, in units of its own. */
void sl_light_power(sl_light light, double power[SL_BANDS]);

/* weight[axis][band] such that X, Y, Z = sum of weight * reflectance. */
void sl_observer_weights(sl_observer observer, sl_light light, double weight[3][SL_BANDS]);

#endif
