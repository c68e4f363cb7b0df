/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * exp() in plain additions and multiplications, in a fixed order and without a library call: a compiler makes
 * vectors of a loop over it, and every compiler, machine and vector width gives the same bits.
 *
 * x = n ln 2 + r with r in +-0.347; e^r by its Taylor polynomial; 2^n by the exponent's bits. ln 2 is two
 * numbers, the first with so few digits that n times it is exact (Cody & Waite 1980).
 */
#ifndef SLOWLIFT_BASE_PLAIN_EXP_H
#define SLOWLIFT_BASE_PLAIN_EXP_H

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* For x from -700 to 700; what it makes of others is nothing. `fine` (a constant): to degree 13, within 2
 * units in the last place; else to degree 11, within r^12/12! = 7e-15 of the value. */
static inline __attribute__((always_inline)) double sl_plain_exp(double x, bool fine)
{
    const double per_ln2 = 1.4426950408889634; /* 1 / ln 2 */
    const double ln2_high = 0x1.62e42fefa3800p-1,
                 ln2_low = 0x1.ef35793c76730p-45; /* exact for n below 2^11 */
    const double rounder =
        0x1.8p52; /* added to a small number, leaves its nearest integer in the lowest bits */
    const double shifted = x * per_ln2 + rounder;
    const double n = shifted - rounder;
    const double r = (x - n * ln2_high) - n * ln2_low;
    double e = fine ? (1.0 / 6227020800.0 * r + 1.0 / 479001600.0) * r + 1.0 / 39916800.0 : 1.0 / 39916800.0;
    e = e * r + 1.0 / 3628800.0;
    e = e * r + 1.0 / 362880.0;
    e = e * r + 1.0 / 40320.0;
    e = e * r + 1.0 / 5040.0;
    e = e * r + 1.0 / 720.0;
    e = e * r + 1.0 / 120.0;
    e = e * r + 1.0 / 24.0;
    e = e * r + 1.0 / 6.0;
    e = e * r + 0.5;
    e = e * r + 1.0;
    e = e * r + 1.0;
    uint64_t bits; /* of 2^n: the biased exponent 1023 + n, zero mantissa */
    memcpy(&bits, &shifted, sizeof bits);
    bits = (bits + 1023U) << 52;
    double scale;
    memcpy(&scale, &bits, sizeof scale);
    return e * scale;
}

#endif
