/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * exp() of sixteen numbers at once, in plain additions and multiplications, so that the compiler makes
 * vectors of it and every machine gives the same bits. Within 2 units in the last place of the library's over
 * -700 to 700; what lies beyond counts as the nearer end.
 *
 * x = k ln 2 + r with |r| <= ln 2 / 2; Taylor's sum of exp(r) to r^13 leaves less than 5e-18 of it; the
 * exponent's bits take k. ln 2 is two numbers, the first with so few digits that k times it is exact (Cody &
 * Waite 1980).
 */
#ifndef SLOWLIFT_KINETICS_LANE_EXP_H
#define SLOWLIFT_KINETICS_LANE_EXP_H

#include <stdint.h>
#include <string.h>

#include "kinetics/lanes.h"

static inline __attribute__((always_inline)) void lane_exp(double *restrict to, const double *restrict x)
{
    const double per_ln2 = 1.4426950408889634, ln2_high = 0x1.62e42fefap-1, ln2_low = 0x1.cf79abc9e3b3ap-40;
    const double shift = 0x1.8p52; /* brings a number's whole part into its last bits */
    double scale[LANES];
    uint64_t whole[LANES];
    for (int l = 0; l < LANES; l++) { /* no choice in here, which would keep it from becoming vectors */
        const double shifted = x[l] * per_ln2 + shift;
        const double k = shifted - shift;
        const double r = (x[l] - k * ln2_high) - k * ln2_low;
        double sum = 1.0 / 6227020800.0;
        sum = sum * r + 1.0 / 479001600.0;
        sum = sum * r + 1.0 / 39916800.0;
        sum = sum * r + 1.0 / 3628800.0;
        sum = sum * r + 1.0 / 362880.0;
        sum = sum * r + 1.0 / 40320.0;
        sum = sum * r + 1.0 / 5040.0;
        sum = sum * r + 1.0 / 720.0;
        sum = sum * r + 1.0 / 120.0;
        sum = sum * r + 1.0 / 24.0;
        sum = sum * r + 1.0 / 6.0;
        sum = sum * r + 0.5;
        to[l] = 1.0 + (r + r * r * sum);
        scale[l] = shifted;
    }
    memcpy(whole, scale, sizeof whole);
    for (int l = 0; l < LANES; l++) {
        whole[l] = (whole[l] + 1023U) << 52;
    }
    memcpy(scale, whole, sizeof scale);
    for (int l = 0; l < LANES; l++) {
        to[l] *= scale[l];
    }
}

#endif
