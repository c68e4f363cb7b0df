/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each thing in the fibre absorbs, per unit of its amount, on the grid of optics.h.
 * A spectrum is q = K/S, absorption over scattering; spectra add.
 *
 * Invariant: the luminous absorbance of a melanin stage is its weight in the chemistry
 * (1 for the bound stages), so that "base moved" means the same there and here.
 */
#ifndef SLOWLIFT_OPTICS_ABSORBERS_H
#define SLOWLIFT_OPTICS_ABSORBERS_H

#include "slowlift/model.h"
#include "slowlift/optics.h"

/* Mean of a spectrum weighted by D65 times the eye's luminous response (y). */
double sl_luminous_absorbance(const double spectrum[SL_BANDS]);

/* kind: SL_EUMELANIN or SL_PHEOMELANIN; stage: SL_BOUND, SL_OPENED or SL_YELLOW. */
void sl_melanin_spectrum(const sl_chemistry *chemistry, int kind, int stage, double spectrum[SL_BANDS]);

/* Keratin without any pigment: what is left when all melanin is gone. */
void sl_keratin_spectrum(double spectrum[SL_BANDS]);

/* What keratin adds to that once all its cystine is oxidised; in proportion before. */
void sl_yellowed_spectrum(const sl_chemistry *chemistry, double spectrum[SL_BANDS]);

/* A dye at recipe strength 1. */
void sl_dye_spectrum(const sl_dye *dye, double spectrum[SL_BANDS]);

#endif
