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

enum { SL_BANDS = 81, SL_MAX_STAINS = 2 * SL_MAX_DYES_PER_ZONE };
static const double SL_FIRST_NM = 380.0, SL_BAND_NM = 5.0;

typedef struct sl_optics sl_optics; /* const model of one scene: basis spectra; shareable */

typedef struct sl_xyz {
    double X, Y, Z;
} sl_xyz;
typedef struct sl_lab {
    double L, a, b;
} sl_lab;
typedef struct sl_rgb {
    double r, g, b;
} sl_rgb; /* linear, 0..1 inside the gamut */
typedef struct sl_srgb8 {
    uint8_t r, g, b;
} sl_srgb8;

typedef struct sl_colour {
    sl_lab lab;    /* for the viewing of the sl_optics, relative to its own white */
    sl_srgb8 srgb; /* for a screen: adapted from that white to D65 */
    bool clipped;  /* the colour lies outside sRGB and was moved toward its own grey */
} sl_colour;

/* What a spot of hair holds. */
typedef struct sl_amounts {
    double pool[SL_MELANINS][SL_STAGES];   /* as sl_hair.pool */
    const sl_recipe *recipe;               /* borrowed; which dyes; NULL = none */
    double dye_left[SL_MAX_DYES_PER_ZONE]; /* share left of each dye of the recipe */
    double oxidised;                       /* share of the hair's cystine that is oxidised, 0..1: it
                                              yellows keratin */
    int n_stains;                          /* dyes that washing brought over from the neighbours */
    int stain_dye[SL_MAX_STAINS];          /* index into scene->dyes */
    double stain[SL_MAX_STAINS];           /* strength of each, as in a recipe */
} sl_amounts;

/* How hair is looked at. All zero: 2 degree observer, D65, dry. Hair under a mix is as wet as
 * rinsed hair; the mix itself is laid over it by sl_veil. */
typedef enum sl_observer { SL_OBSERVER_2_DEGREE, SL_OBSERVER_10_DEGREE, SL_OBSERVER_COUNT } sl_observer;
typedef enum sl_light { SL_LIGHT_D65, SL_LIGHT_A, SL_LIGHT_WARM_LED, SL_LIGHT_COUNT } sl_light;
typedef enum sl_look { SL_LOOK_DRY, SL_LOOK_WET, SL_LOOK_UNDER_MIX, SL_LOOK_COUNT } sl_look;
typedef struct sl_viewing {
    sl_observer observer;
    sl_light light;
    sl_look look;
} sl_viewing;
const char *sl_light_word(sl_light light);
const char *sl_look_word(sl_look look);
const char *sl_observer_word(sl_observer observer);

/* Basis of one scene's dyes and of the melanin chain; the scene may be freed after. */
sl_optics *sl_optics_new(const sl_scene *scene, sl_error *error); /* viewing all zero */
sl_optics *sl_optics_new_for(const sl_scene *scene, sl_viewing viewing, sl_error *error);
void sl_optics_free(sl_optics *optics); /* NULL is allowed */

/* Absorption over scattering, q = K/S, per band; and the tress reflectance it gives. */
void sl_optics_absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_BANDS]);
void sl_optics_reflectance(const double q[SL_BANDS], double reflectance[SL_BANDS]); /* dry */
void sl_look_reflectance(sl_look look, const double q[SL_BANDS], double reflectance[SL_BANDS]);
sl_xyz sl_xyz_of_reflectance(const double reflectance[SL_BANDS]); /* 2 degree observer, D65 */

/* The whole path. `colour` is written in full. */
void sl_optics_paint(const sl_optics *optics, const sl_amounts *amounts, sl_colour *colour);
/* Hair with all of its dye, before anything is put on. */
sl_lab sl_optics_untouched(const sl_optics *optics, const sl_hair *hair, const sl_recipe *recipe);

/* A dye's absorbance at recipe strength 1, integrated over 380..780 nm (relative): the
 * weight of that dye in `colour_left`. */
double sl_dye_absorbance(const sl_dye *dye);
/* One band's shape at a wavelength, 1 at its centre: a Gaussian in wavenumber with .30 of its
 * width (FWHM, nm) on the red side and .70 on the blue side. */
double sl_band_shape(const sl_band *band, double wavelength_nm);

/* ---- veils, vision, readings ------------------------------------------------------------ */

/* The mix as it lies on the hair, over the hair's colour: a mixture in linear light. */
sl_srgb8 sl_veil(const sl_mix *mix, sl_srgb8 hair);

/* How a colour looks to others: colour-vision deficiencies after Machado, Oliveira &
 * Fernandes, IEEE TVCG 15(6):1291 (2009), severity 1; and a grey print. */
typedef enum sl_vision {
    SL_VISION_FULL,
    SL_VISION_PROTAN,
    SL_VISION_DEUTAN,
    SL_VISION_TRITAN,
    SL_VISION_GREY,
    SL_VISION_COUNT
} sl_vision;
const char *sl_vision_word(sl_vision vision);
sl_rgb sl_rgb_seen(sl_vision vision, sl_rgb linear);
sl_srgb8 sl_srgb8_seen(sl_vision vision, sl_srgb8 srgb);

/* Level and tone words by a chart; its name must be shown beside them. */
typedef struct sl_reading_words {
    double level;       /* 1..10 in halves, from L* of a dry look */
    const sl_tone *of;  /* the tone that fits, of the chart; NULL: none does */
    const char *tone;   /* its word, borrowed from the chart; "" when none fits */
    const char *warmth; /* "warm", "cool" or "neutral" */
} sl_reading_words;
sl_reading_words sl_chart_read(const sl_chart *chart, sl_lab dry);

/* Step of the grey scale for change in colour (after ISO 105-A02): 5, 4.5 .. 1 for a
 * CIELAB difference; the nearest step. Made for textiles; applied to hair here. */
double sl_grey_scale_step(double delta_e_76);

/* ---- colour arithmetic ---------------------------------------------------------- */

typedef struct sl_lch {
    double L, C, h_deg;
} sl_lch; /* h_deg in [0, 360) */
sl_lch sl_lch_of_lab(sl_lab lab);
sl_xyz sl_white(sl_observer observer, sl_light light); /* of the 5 nm sum, Y = 1 */
sl_lab sl_lab_relative(sl_xyz xyz, sl_xyz white);
sl_xyz sl_adapt(sl_xyz xyz, sl_xyz from_white, sl_xyz to_white); /* Bradford, as in ICC.1 */
sl_xyz sl_white_d65(void);                                       /* of the 5 nm sum, Y = 1 */
sl_lab sl_lab_of_xyz(sl_xyz xyz);                                /* relative to sl_white_d65 */
sl_xyz sl_xyz_of_lab(sl_lab lab);
sl_rgb sl_rgb_of_xyz(sl_xyz xyz); /* IEC 61966-2-1, D65 */
sl_xyz sl_xyz_of_rgb(sl_rgb rgb);
double sl_srgb_encode(double linear); /* 0..1 -> 0..1 */
double sl_srgb_decode(double encoded);
sl_srgb8 sl_srgb8_of_xyz(sl_xyz xyz, bool *clipped); /* clipped may be NULL */
sl_xyz sl_xyz_of_srgb8(sl_srgb8 srgb);
double sl_delta_e_76(sl_lab one, sl_lab two);
double sl_delta_e_2000(sl_lab one, sl_lab two); /* kL = kC = kH = 1 */
double sl_contrast(sl_srgb8 one, sl_srgb8 two); /* WCAG 2.2, 1..21 */

#pragma GCC visibility pop

#endif
