/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a spot of hair holds -> its colour. An sl_optics is the basis of one scene: the
 * spectrum of every pigment that can be in it, and what each band is worth in X, Y, Z. A
 * colour is summed over 41 bands of 10 nm; spectra that people see have all 81.
 * Invariant: an sl_optics is never written after sl_optics_new, so threads may share it.
 *
 *   q(l) = keratin(l) + sum over melanin stages pool * spectrum(l)
 *                     + sum over dyes of the recipe strength * left * spectrum(l)
 *   R(l) = k1 + (1 - k1) G exp(-sqrt(2 q(l)))      docs/colour.md
 */
#include "optics/tress.h"

#include <assert.h>
#include <string.h>

#include "base/memory.h"
#include "optics/absorbers.h"
#include "optics/observer.h"

/* Both chosen by eye on drawn swatches (grade: fitted). */
static const double SURFACE = 0.022; /* k1: reflected by the surface, never sees pigment */
static const double BODY = 0.76;     /* G: what a tress without absorption gives back */

enum { MELANIN_PIGMENTS = SL_MELANINS * SL_STAGES };

struct sl_optics {
    int n_pigments;
    bool wide; /* this processor has wide vectors */
    double keratin[SL_BANDS];
    double (*pigment)[SL_BANDS];             /* [n_pigments][band]: melanin kind by stage, then the dyes */
    double paint_weight[3][SL_PAINT_PADDED]; /* [X Y Z][band]: what a band is worth */
    double paint_keratin[SL_PAINT_PADDED];
    double (*paint_pigment)[SL_PAINT_PADDED]; /* [n_pigments][band] */
};

/* Every second band, then padding. */
static void thin(const double spectrum[SL_BANDS], double paint[SL_PAINT_PADDED])
{
    memset(paint, 0, SL_PAINT_PADDED * sizeof *paint);
    for (int band = 0; band < SL_PAINT_BANDS; band++) {
        paint[band] = spectrum[2 * band];
    }
}

/* A plain 10 nm sum, each axis scaled so that white stays the white of the 5 nm sum. */
static void fill_weights(sl_optics *optics)
{
    double weight[3][SL_BANDS];
    sl_observer_weights(weight);
    for (int axis = 0; axis < 3; axis++) {
        double all = 0.0;
        double kept = 0.0;
        for (int band = 0; band < SL_BANDS; band++) {
            all += weight[axis][band];
            kept += band % 2 == 0 ? weight[axis][band] : 0.0;
        }
        thin(weight[axis], optics->paint_weight[axis]);
        for (int band = 0; band < SL_PAINT_BANDS; band++) {
            optics->paint_weight[axis][band] *= all / kept;
        }
    }
}

static void fill_basis(sl_optics *optics, const sl_scene *scene)
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            sl_melanin_spectrum(&scene->chemistry, kind, stage, optics->pigment[kind * SL_STAGES + stage]);
        }
    }
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        sl_dye_spectrum(&scene->dyes[dye], optics->pigment[MELANIN_PIGMENTS + dye]);
    }
    for (int pigment = 0; pigment < optics->n_pigments; pigment++) {
        thin(optics->pigment[pigment], optics->paint_pigment[pigment]);
    }
    sl_keratin_spectrum(optics->keratin);
    thin(optics->keratin, optics->paint_keratin);
    fill_weights(optics);
}

sl_optics *sl_optics_new(const sl_scene *scene, sl_error *error)
{
    assert(scene != NULL && scene->n_dyes >= 0);
    sl_optics *optics = sl_new(1, sizeof *optics, "preparing colours", error);
    if (optics == NULL) {
        return NULL;
    }
    optics->n_pigments = MELANIN_PIGMENTS + scene->n_dyes;
    optics->wide = sl_has_wide_vectors();
    const size_t n = (size_t)optics->n_pigments;
    optics->pigment = sl_new(n, sizeof *optics->pigment, "preparing colours", error);
    optics->paint_pigment = sl_new(n, sizeof *optics->paint_pigment, "preparing colours", error);
    if (optics->pigment == NULL || optics->paint_pigment == NULL) {
        sl_optics_free(optics);
        return NULL;
    }
    fill_basis(optics, scene);
    return optics;
}

void sl_optics_free(sl_optics *optics)
{
    if (optics == NULL) {
        return;
    }
    sl_free(optics->pigment);
    sl_free(optics->paint_pigment);
    sl_free(optics);
}

/* Takes each pigment that is there and how much of it. */
typedef void (*pigment_sink)(const sl_optics *optics, int pigment, double amount, double q[]);

/* An amount that rounding has left a hair below zero counts as none. */
static void add_pigments(const sl_optics *optics, const sl_amounts *amounts, pigment_sink add, double q[])
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            if (amounts->pool[kind][stage] > 0.0) {
                add(optics, kind * SL_STAGES + stage, amounts->pool[kind][stage], q);
            }
        }
    }
    const int n_dyes = amounts->recipe != NULL ? amounts->recipe->n_dyes : 0;
    for (int i = 0; i < n_dyes; i++) {
        const double amount = amounts->recipe->strength[i] * amounts->dye_left[i];
        if (amount > 0.0) {
            assert(MELANIN_PIGMENTS + amounts->recipe->dye[i] < optics->n_pigments);
            add(optics, MELANIN_PIGMENTS + amounts->recipe->dye[i], amount, q);
        }
    }
}

static void add_bands(const sl_optics *optics, int pigment, double amount, double q[])
{
    for (int band = 0; band < SL_BANDS; band++) {
        q[band] += amount * optics->pigment[pigment][band];
    }
}

static void add_paint(const sl_optics *optics, int pigment, double amount, double q[])
{
    sl_paint_add(amount, optics->paint_pigment[pigment], q, optics->wide);
}

void sl_optics_absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_BANDS])
{
    memcpy(q, optics->keratin, sizeof optics->keratin);
    add_pigments(optics, amounts, add_bands, q);
}

void sl_optics_reflectance(const double q[SL_BANDS], double reflectance[SL_BANDS])
{
    double padded[SL_PADDED] = {0.0};
    double fade[SL_PADDED];
    memcpy(padded, q, SL_BANDS * sizeof *q);
    sl_fade(padded, fade);
    for (int band = 0; band < SL_BANDS; band++) {
        reflectance[band] = SURFACE + (1.0 - SURFACE) * BODY * fade[band];
    }
}

/* Sum of weight * fade in SL_LANES partial sums, always added in the same order. */
static double weigh(const double weight[SL_PAINT_PADDED], const double fade[SL_PAINT_PADDED])
{
    double lane[SL_LANES] = {0.0, 0.0, 0.0, 0.0};
    for (int band = 0; band < SL_PAINT_PADDED; band += SL_LANES) {
        for (int i = 0; i < SL_LANES; i++) {
            lane[i] += weight[band + i] * fade[band + i];
        }
    }
    return (lane[0] + lane[2]) + (lane[1] + lane[3]);
}

void sl_optics_paint(const sl_optics *optics, const sl_amounts *amounts, sl_colour *colour)
{
    double q[SL_PAINT_PADDED];
    double fade[SL_PAINT_PADDED];
    memcpy(q, optics->paint_keratin, sizeof q);
    add_pigments(optics, amounts, add_paint, q);
    sl_paint_fade(q, fade, optics->wide);
    const sl_xyz white = sl_white_d65();
    const double body = (1.0 - SURFACE) * BODY;
    const sl_xyz xyz = {
        SURFACE * white.X + body * weigh(optics->paint_weight[0], fade),
        SURFACE * white.Y + body * weigh(optics->paint_weight[1], fade),
        SURFACE * white.Z + body * weigh(optics->paint_weight[2], fade),
    };
    colour->lab = sl_lab_of_xyz(xyz);
    colour->srgb = sl_srgb8_of_xyz(xyz, &colour->clipped);
}
