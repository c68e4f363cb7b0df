/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strip is no field of one colour: strands take up and lose dye at their own pace. Each
 * fibre belongs to one of SL_STRANDS kinds of strand; each kind has a factor on the exponent
 * by which its dyes are lost, and one on how deep its pigments are at the start. Invariant:
 * in linear light the mean over the kinds is the zone's own colour.
 */
#ifndef SLOWLIFT_SWATCH_STRANDS_H
#define SLOWLIFT_SWATCH_STRANDS_H

#include <stdint.h>

#include "slowlift/optics.h"
#include "swatch/fibre.h"
#include "swatch/fine.h"

/* Coefficient of variation of rate and of depth from strand to strand (assumed; no measured
 * series is known to us). Lognormal, mean 1. */
static const double SL_STRAND_CV = 0.15;

typedef struct sl_strands {
    double rate[SL_STRANDS];  /* on the exponent -ln(dye left); mean 1 */
    double depth[SL_STRANDS]; /* on melanin and on the strength of dyes and stains; mean 1 */
} sl_strands;

/* The middles of SL_STRANDS equal parts of the distribution, in an order drawn by the seed. */
sl_strands sl_swatch_spread(double cv, uint32_t seed);

/* What a strand of one kind holds where the zone's mean is `amounts`. */
sl_amounts sl_strand_amounts(const sl_strands *strands, int strand, const sl_amounts *amounts);

/* The colour of each kind where the zone's own colour is `own`; painted with `optics`, then
 * moved together so that their mean is `own`. `vision` is laid over all. */
void sl_strand_colours(const sl_strands *strands, const sl_optics *optics, const sl_amounts *amounts,
                       sl_srgb8 own, sl_vision vision, sl_fine_rgb colour[SL_STRANDS]);

#endif
