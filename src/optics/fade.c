/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The loops over bands that a colour costs, written so that a compiler makes vectors
 * of them. Invariant: the same numbers from every compiler and vector width (IEEE 754
 * operations in a fixed order, no library call).
 */
#include <math.h>
#include <string.h>

#include "base/plain_exp.h"
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

INLINE void fade_bands(const double *restrict q, double *restrict fade, int bands)
{
    for (int i = 0; i < bands; i++) {
        const double seen = q[i] < DARKEST ? q[i] : DARKEST;
        fade[i] = sl_plain_exp(-sqrt(2.0 * seen), false);
    }
}

/* Four parts at a time, so that a sum is read and written once for all of them. */
INLINE void add_parts(const sl_parts *parts, const double spectra[][SL_PAINT_PADDED], double *restrict q)
{
    for (int part = 0; part < parts->n; part += SL_LANES) {
        const double *const amount = parts->amount + part;
        const int *const pigment = parts->pigment + part;
        const double *restrict one = spectra[pigment[0]];
        const double *restrict two = spectra[pigment[1]];
        const double *restrict three = spectra[pigment[2]];
        const double *restrict four = spectra[pigment[3]];
        const double a = amount[0];
        const double b = amount[1];
        const double c = amount[2];
        const double d = amount[3];
        for (int i = 0; i < SL_PAINT_PADDED; i++) {
            q[i] += (a * one[i] + b * two[i]) + (c * three[i] + d * four[i]);
        }
    }
}

INLINE void paint_body(const sl_parts *parts, const double spectra[][SL_PAINT_PADDED],
                       const double base[SL_PAINT_PADDED], double body[SL_PAINT_PADDED])
{
    double q[SL_PAINT_PADDED];
    memcpy(q, base, sizeof q);
    add_parts(parts, spectra, q);
    fade_bands(q, body, SL_PAINT_PADDED);
}

/* Sums in SL_LANES parts, always added in the same order. */
INLINE void weigh_bands(const double weight[3][SL_PAINT_PADDED], const double body[SL_PAINT_PADDED],
                        double sum[3])
{
    for (int axis = 0; axis < 3; axis++) {
        double lane[SL_LANES] = {0.0, 0.0, 0.0, 0.0};
        for (int band = 0; band < SL_PAINT_PADDED; band += SL_LANES) {
            for (int i = 0; i < SL_LANES; i++) {
                lane[i] += weight[axis][band + i] * body[band + i];
            }
        }
        sum[axis] = (lane[0] + lane[2]) + (lane[1] + lane[3]);
    }
}

WIDE static void body_wide(const sl_parts *parts, const double spectra[][SL_PAINT_PADDED],
                           const double base[SL_PAINT_PADDED], double body[SL_PAINT_PADDED])
{
    paint_body(parts, spectra, base, body);
}

WIDE static void weigh_wide(const double weight[3][SL_PAINT_PADDED], const double body[SL_PAINT_PADDED],
                            double sum[3])
{
    weigh_bands(weight, body, sum);
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

void sl_paint_body(const sl_parts *parts, const double spectra[][SL_PAINT_PADDED],
                   const double base[SL_PAINT_PADDED], double body[SL_PAINT_PADDED], bool wide)
{
    if (wide) {
        body_wide(parts, spectra, base, body);
    } else {
        paint_body(parts, spectra, base, body);
    }
}

void sl_paint_weigh(const double weight[3][SL_PAINT_PADDED], const double body[SL_PAINT_PADDED],
                    double sum[3], bool wide)
{
    if (wide) {
        weigh_wide(weight, body, sum);
    } else {
        weigh_bands(weight, body, sum);
    }
}
