/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Amounts -> reflectance -> XYZ -> CIELAB and sRGB; colour difference; contrast.
 * Method and limits: docs/colour.md. Spectra stand on a grid of 81 bands,
 * 380..780 nm by 5 nm. Reflectance and Y are shares (Y = 1 for the white), not per cent.
 */
#ifndef SLOWLIFT_OPTICS_H
#define SLOWLIFT_OPTICS_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/model.h"

#pragma GCC visibility push(default)

enum { SL_BANDS = 81 };
static const double SL_FIRST_NM = 380.0, SL_BAND_NM = 5.0;

typedef struct sl_optics sl_optics; /* const model of one scene: basis spectra; shareable */

typedef struct sl_xyz { double X, Y, Z; } sl_xyz;
typedef struct sl_lab { double L, a, b; } sl_lab;
typedef struct sl_rgb { double r, g, b; } sl_rgb;    /* linear, 0..1 inside the gamut */
typedef struct sl_srgb8 { uint8_t r, g, b; } sl_srgb8;

typedef struct sl_colour {
    sl_lab lab;       /* CIE 1931 2 degree observer, D65 */
    sl_srgb8 srgb;
    bool clipped;     /* the colour lies outside sRGB and was moved toward its own grey */
} sl_colour;

/* What a spot of hair holds. */
typedef struct sl_amounts {
    double pool[SL_MELANINS][SL_STAGES]; /* as sl_hair.pool */
    const sl_recipe *recipe;             /* borrowed; which dyes; NULL = none */
    double dye_left[SL_MAX_DYES_PER_ZONE]; /* share left of each dye of the recipe */
} sl_amounts;

/* Basis of one scene's dyes and of the melanin chain; the scene may be freed after. */
sl_optics *sl_optics_new(const sl_scene *scene, sl_error *error);
void sl_optics_free(sl_optics *optics); /* NULL is allowed */

/* Absorption over scattering, q = K/S, per band; and the tress reflectance it gives. */
void sl_optics_absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_BANDS]);
void sl_optics_reflectance(const double q[SL_BANDS], double reflectance[SL_BANDS]);
sl_xyz sl_xyz_of_reflectance(const double reflectance[SL_BANDS]);

/* The whole path. `colour` is written in full. */
void sl_optics_paint(const sl_optics *optics, const sl_amounts *amounts, sl_colour *colour);

/* A dye's absorbance at recipe strength 1, integrated over 380..780 nm (relative): the
 * weight of that dye in `colour_left`. */
double sl_dye_absorbance(const sl_dye *dye);
/* One band's shape at a wavelength, 1 at its centre: a Gaussian in wavenumber with .30 of its
 * width (FWHM, nm) on the red side and .70 on the blue side. */
double sl_band_shape(const sl_band *band, double wavelength_nm);

/* ---- colour arithmetic ---------------------------------------------------------- */

sl_xyz sl_white_d65(void);                  /* of the 5 nm sum, Y = 1 */
sl_lab sl_lab_of_xyz(sl_xyz xyz);           /* relative to sl_white_d65 */
sl_xyz sl_xyz_of_lab(sl_lab lab);
sl_rgb sl_rgb_of_xyz(sl_xyz xyz);           /* IEC 61966-2-1, D65 */
sl_xyz sl_xyz_of_rgb(sl_rgb rgb);
double sl_srgb_encode(double linear);       /* 0..1 -> 0..1 */
double sl_srgb_decode(double encoded);
sl_srgb8 sl_srgb8_of_xyz(sl_xyz xyz, bool *clipped); /* clipped may be NULL */
sl_xyz sl_xyz_of_srgb8(sl_srgb8 srgb);
double sl_delta_e_76(sl_lab one, sl_lab two);
double sl_delta_e_2000(sl_lab one, sl_lab two); /* kL = kC = kH = 1 */
double sl_contrast(sl_srgb8 one, sl_srgb8 two); /* WCAG 2.2, 1..21 */

#pragma GCC visibility pop

#endif
