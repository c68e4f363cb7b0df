/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tress of hair: R = k1 + (1 - k1) exp(-sqrt(2 (q + q0))), q = K/S per band
 * (docs/colour.md, "From absorption to reflectance"), and the loops that a colour costs.
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
    SL_LANES = 4,
    SL_BYTE_CELLS = 4096,
    SL_MOST_PARTS = 20 /* six melanins, yellowed keratin, four dyes, eight stains; whole lanes */
};

/* Chosen on drawn swatches with two measured dark tresses in view (grade: fitted). */
static const double SL_SURFACE = 0.024; /* k1: reflected by the surface, never sees pigment */
static const double SL_LEAK = 0.04;     /* q0: what a tress loses without any absorber, as K/S */

/* Water between and on the fibres, from refractive indices 1.333 and, for keratin, 1.55
 * (J. Cosmet. Sci. 54(3):306; not verified). SL_FILM_INNER: of diffuse light that meets the water's surface from
 * below, the share thrown back: 1 - (1 - .0664)/1.333^2 (Lekner & Dorf, Appl. Opt. 27:1278
 * (1988)). SL_WET_SURFACE: k1 times what water's surface reflects over what keratin's does. */
static const double SL_FILM_INNER = 0.4746;
static const double SL_WET_SURFACE = 0.024 * 0.438;

/* fade[i] = exp(-sqrt(2 q[i])), q >= 0; absolute error below 1e-14 (fade.c). */
void sl_fade(const double q[SL_PADDED], double fade[SL_PADDED]);

/* What a spot holds: which pigments of the basis and how much. Made up to a whole number of
 * SL_LANES with nothing of the first. */
typedef struct sl_parts {
    int n;
    int pigment[SL_MOST_PARTS];
    double amount[SL_MOST_PARTS];
} sl_parts;

/* body[i] = exp(-sqrt(2 (base[i] + sum of amount * spectra[pigment][i]))) on the bands of a colour,
 * and sum[axis] of weight * body there. `wide` asks for the processor's wide vectors
 * (sl_has_wide_vectors); the numbers are the same bytes. */
void sl_paint_body(const sl_parts *parts, const double spectra[][SL_PAINT_PADDED],
                   const double base[SL_PAINT_PADDED], double body[SL_PAINT_PADDED], bool wide);
void sl_paint_weigh(const double weight[3][SL_PAINT_PADDED], const double body[SL_PAINT_PADDED],
                    double sum[3], bool wide);
bool sl_has_wide_vectors(void);

/* sRGB bytes by looking up where a linear value lies among the 255 edges between bytes: the bytes
 * of sl_srgb8_of_xyz without its powers (colour.c). */
typedef struct sl_byte_steps {
    double edge[256]; /* linear value from which a byte is the next one; the last is infinite */
    uint8_t first[SL_BYTE_CELLS + 1]; /* edges at or below cell / SL_BYTE_CELLS */
} sl_byte_steps;
void sl_byte_steps_fill(sl_byte_steps *steps);
sl_srgb8 sl_srgb8_by_steps(const sl_byte_steps *steps, sl_xyz xyz, bool *clipped);

#endif
