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
    SL_BYTE_EDGES = 255
};

/* Chosen on drawn swatches with two measured dark tresses in view (grade: fitted). */
static const double SL_SURFACE = 0.024; /* k1: reflected by the surface, never sees pigment */
static const double SL_LEAK = 0.04;     /* q0: what a tress loses without any absorber, as K/S */

/* Water between and on the fibres, from refractive indices 1.333 and, for keratin, 1.55
 * (J. Cosmet. Sci. 54(3):306). SL_FILM_INNER: of diffuse light that meets the water's surface from
 * below, the share thrown back: 1 - (1 - .0664)/1.333^2 (Lekner & Dorf, Appl. Opt. 27:1278
 * (1988)). SL_WET_SURFACE: k1 times what water's surface reflects over what keratin's does. */
static const double SL_FILM_INNER = 0.4746;
static const double SL_WET_SURFACE = 0.024 * 0.438;

/* fade[i] = exp(-sqrt(2 q[i])), q >= 0; absolute error below 1e-14 (fade.c). */
void sl_fade(const double q[SL_PADDED], double fade[SL_PADDED]);

/* The same on the bands of a colour, and sum[i] += amount * spectrum[i] there. `wide` asks for
 * the processor's wide vectors (sl_has_wide_vectors); the numbers are the same bytes. */
void sl_paint_fade(const double q[SL_PAINT_PADDED], double fade[SL_PAINT_PADDED], bool wide);
void sl_paint_add(double amount, const double spectrum[SL_PAINT_PADDED], double sum[SL_PAINT_PADDED],
                  bool wide);
bool sl_has_wide_vectors(void);

/* sRGB bytes by comparing with the 255 linear values between them: the bytes of
 * sl_srgb8_of_xyz at a third of its time (colour.c). */
void sl_byte_edges(double edge[SL_BYTE_EDGES]);
sl_srgb8 sl_srgb8_between(const double edge[SL_BYTE_EDGES], sl_xyz xyz, bool *clipped);

#endif
