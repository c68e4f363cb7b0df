/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two loops over bands that a colour costs, written so that a compiler makes vectors
 * of them. Invariant: the same numbers from every compiler and vector width (IEEE 754
 * operations in a fixed order, no library call).
 *
 * exp(-y) = 2^-n e^r, n = round(y / ln 2), r = n ln 2 - y in +-0.347; e^r by its Taylor
 * polynomial of degree 11, whose error is below r^12/12! = 7e-15 of the value.
 */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "optics/tress.h"

/* A body that is compiled once for any processor and once for wide vectors. */
#define INLINE static inline __attribute__((always_inline))
#if defined(__x86_64__)
#define WIDE __attribute__((target("avx2")))
#else
#define WIDE
#endif

/* Beyond this exp(-sqrt(2q)) is below 1e-194: nothing beside the surface term, and the
 * exponent below stays that of a normal number. */
static const double DARKEST = 1e5;

static const double PER_LN2 = 1.4426950408889634; /* 1 / ln 2 */
/* ln 2 in two parts; n times the first is exact for n below 2^11. */
static const double LN2_HIGH = 0x1.62e42fefa3800p-1;
static const double LN2_LOW = 0x1.ef35793c76730p-45;

/* Added to a small number, leaves its nearest integer in the lowest bits. */
static const double ROUNDER = 0x1.8p52;

INLINE double exp_minus(double y)
{
    const double shifted = y * PER_LN2 + ROUNDER;
    const double n = shifted - ROUNDER;
    const double r = (n * LN2_HIGH - y) + n * LN2_LOW;
    double e = 1.0 / 39916800.0;
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
    uint64_t bits; /* of 2^-n: the biased exponent 1023 - n, zero mantissa */
    memcpy(&bits, &shifted, sizeof bits);
    bits = (UINT64_C(1023) << 52) - (bits << 52);
    double scale;
    memcpy(&scale, &bits, sizeof scale);
    return e * scale;
}

INLINE void fade_bands(const double *restrict q, double *restrict fade, int bands)
{
    for (int i = 0; i < bands; i++) {
        const double seen = q[i] < DARKEST ? q[i] : DARKEST;
        fade[i] = exp_minus(sqrt(2.0 * seen));
    }
}

INLINE void add_bands(double amount, const double *restrict spectrum, double *restrict sum, int bands)
{
    for (int i = 0; i < bands; i++) {
        sum[i] += amount * spectrum[i];
    }
}

WIDE static void fade_wide(const double *restrict q, double *restrict fade)
{
    fade_bands(q, fade, SL_PAINT_PADDED);
}

WIDE static void add_wide(double amount, const double *restrict spectrum, double *restrict sum)
{
    add_bands(amount, spectrum, sum, SL_PAINT_PADDED);
}

bool sl_has_wide_vectors(void)
{
#if defined(__x86_64__)
    return __builtin_cpu_supports("avx2");
#else
    return false;
#endif
}

void sl_fade(const double q[SL_PADDED], double fade[SL_PADDED])
{
    fade_bands(q, fade, SL_PADDED);
}

void sl_paint_fade(const double q[SL_PAINT_PADDED], double fade[SL_PAINT_PADDED], bool wide)
{
    if (wide) {
        fade_wide(q, fade);
    } else {
        fade_bands(q, fade, SL_PAINT_PADDED);
    }
}

void sl_paint_add(double amount, const double spectrum[SL_PAINT_PADDED], double sum[SL_PAINT_PADDED],
                  bool wide)
{
    if (wide) {
        add_wide(amount, spectrum, sum);
    } else {
        add_bands(amount, spectrum, sum, SL_PAINT_PADDED);
    }
}
