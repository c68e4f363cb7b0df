/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a spot of hair holds -> its colour. An sl_optics is the basis of one scene: the
 * spectrum of every pigment that can be in it, and what each band is worth in X, Y, Z.
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
    double keratin[SL_PADDED];
    double weight[3][SL_PADDED];  /* [X Y Z][band] of sl_observer_weights */
    double (*pigment)[SL_PADDED]; /* [n_pigments][band]: melanin kind by stage, then the dyes */
};

static void pad(const double spectrum[SL_BANDS], double padded[SL_PADDED])
{
    memcpy(padded, spectrum, SL_BANDS * sizeof *spectrum);
    memset(padded + SL_BANDS, 0, (SL_PADDED - SL_BANDS) * sizeof *padded);
}

static void fill_basis(sl_optics *optics, const sl_scene *scene)
{
    double spectrum[SL_BANDS];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            sl_melanin_spectrum(&scene->chemistry, kind, stage, spectrum);
            pad(spectrum, optics->pigment[kind * SL_STAGES + stage]);
        }
    }
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        sl_dye_spectrum(&scene->dyes[dye], spectrum);
        pad(spectrum, optics->pigment[MELANIN_PIGMENTS + dye]);
    }
    sl_keratin_spectrum(spectrum);
    pad(spectrum, optics->keratin);
    double weight[3][SL_BANDS];
    sl_observer_weights(weight);
    for (int axis = 0; axis < 3; axis++) {
        pad(weight[axis], optics->weight[axis]);
    }
}

sl_optics *sl_optics_new(const sl_scene *scene, sl_error *error)
{
    assert(scene != NULL && scene->n_dyes >= 0);
    sl_optics *optics = sl_new(1, sizeof *optics, "preparing colours", error);
    if (optics == NULL) {
        return NULL;
    }
    optics->n_pigments = MELANIN_PIGMENTS + scene->n_dyes;
    optics->pigment = sl_new((size_t)optics->n_pigments, sizeof *optics->pigment, "preparing colours", error);
    if (optics->pigment == NULL) {
        sl_free(optics);
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
    sl_free(optics);
}

/* An amount that rounding has left a hair below zero counts as none. */
static void add_pigment(const sl_optics *optics, int pigment, double amount, double q[SL_PADDED])
{
    assert(pigment >= 0 && pigment < optics->n_pigments);
    if (amount > 0.0) {
        sl_add_spectrum(amount, optics->pigment[pigment], q);
    }
}

static void absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_PADDED])
{
    memcpy(q, optics->keratin, sizeof optics->keratin);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            add_pigment(optics, kind * SL_STAGES + stage, amounts->pool[kind][stage], q);
        }
    }
    if (amounts->recipe == NULL) {
        return;
    }
    for (int i = 0; i < amounts->recipe->n_dyes; i++) {
        add_pigment(optics, MELANIN_PIGMENTS + amounts->recipe->dye[i],
                    amounts->recipe->strength[i] * amounts->dye_left[i], q);
    }
}

void sl_optics_absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_BANDS])
{
    double padded[SL_PADDED];
    absorption(optics, amounts, padded);
    memcpy(q, padded, SL_BANDS * sizeof *q);
}

void sl_optics_reflectance(const double q[SL_BANDS], double reflectance[SL_BANDS])
{
    double padded[SL_PADDED];
    double fade[SL_PADDED];
    pad(q, padded);
    sl_fade(padded, fade);
    for (int band = 0; band < SL_BANDS; band++) {
        reflectance[band] = SURFACE + (1.0 - SURFACE) * BODY * fade[band];
    }
}

/* Sum of weight * fade in SL_LANES partial sums, always added in the same order. */
static double weigh(const double weight[SL_PADDED], const double fade[SL_PADDED])
{
    double lane[SL_LANES] = {0.0, 0.0, 0.0, 0.0};
    for (int band = 0; band < SL_PADDED; band += SL_LANES) {
        for (int i = 0; i < SL_LANES; i++) {
            lane[i] += weight[band + i] * fade[band + i];
        }
    }
    return (lane[0] + lane[2]) + (lane[1] + lane[3]);
}

void sl_optics_paint(const sl_optics *optics, const sl_amounts *amounts, sl_colour *colour)
{
    double q[SL_PADDED];
    double fade[SL_PADDED];
    absorption(optics, amounts, q);
    sl_fade(q, fade);
    const sl_xyz white = sl_white_d65();
    const double body = (1.0 - SURFACE) * BODY;
    const sl_xyz xyz = {
        SURFACE * white.X + body * weigh(optics->weight[0], fade),
        SURFACE * white.Y + body * weigh(optics->weight[1], fade),
        SURFACE * white.Z + body * weigh(optics->weight[2], fade),
    };
    colour->lab = sl_lab_of_xyz(xyz);
    colour->srgb = sl_srgb8_of_xyz(xyz, &colour->clipped);
}
