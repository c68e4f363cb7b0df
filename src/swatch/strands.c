/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strand to strand.
 */
#include "swatch/strands.h"

#include <assert.h>
#include <math.h>

/* Inverse of the normal distribution at (i + 1/2)/8, i = 0..7: Abramowitz and Stegun, Handbook
 * of Mathematical Functions (1964), 26.2, to four decimals. */
static const double MIDDLE[SL_STRANDS] = {-1.5341, -0.8871, -0.4888, -0.1573, 0.1573, 0.4888, 0.8871, 1.5341};

static void draw_factors(double factor[SL_STRANDS], double cv, uint32_t *state)
{
    const double width = sqrt(log(1.0 + cv * cv));
    double sum = 0.0;
    for (int i = 0; i < SL_STRANDS; i++) {
        factor[i] = exp(width * MIDDLE[i]);
        sum += factor[i];
    }
    for (int i = 0; i < SL_STRANDS; i++) {
        factor[i] *= SL_STRANDS / sum;
    }
    for (int i = SL_STRANDS - 1; i > 0; i--) { /* Fisher and Yates */
        const int other = (int)(sl_chance(state) * (i + 1));
        const double kept = factor[i];
        factor[i] = factor[other];
        factor[other] = kept;
    }
}

sl_strands sl_swatch_spread(double cv, uint32_t seed)
{
    assert(cv >= 0.0);
    sl_strands strands = {.rate = {0.0}};
    uint32_t state = sl_chance_start(seed ^ 0x5BD1E995U);
    draw_factors(strands.rate, cv, &state);
    draw_factors(strands.depth, cv, &state);
    return strands;
}

sl_amounts sl_strand_amounts(const sl_strands *strands, int strand, const sl_amounts *amounts)
{
    assert(strand >= 0 && strand < SL_STRANDS);
    sl_amounts mine = *amounts;
    const double rate = strands->rate[strand], depth = strands->depth[strand];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            mine.pool[kind][stage] *= depth;
        }
    }
    const int n_dyes = amounts->recipe != NULL ? amounts->recipe->n_dyes : 0;
    for (int i = 0; i < n_dyes; i++) { /* the depth of a dye is the same as that much more left */
        mine.dye_left[i] = amounts->dye_left[i] > 0.0 ? depth * pow(amounts->dye_left[i], rate) : 0.0;
    }
    for (int i = 0; i < amounts->n_stains; i++) {
        mine.stain[i] *= depth;
    }
    return mine;
}

static sl_rgb linear_of(sl_srgb8 colour)
{
    return (sl_rgb){sl_srgb_decode(colour.r / 255.0), sl_srgb_decode(colour.g / 255.0),
                    sl_srgb_decode(colour.b / 255.0)};
}

static double toward(double own, double mean)
{
    return mean > 0.0 ? own / mean : 1.0;
}

void sl_strand_colours(const sl_strands *strands, const sl_optics *optics, const sl_amounts *amounts,
                       sl_srgb8 own, sl_vision vision, sl_fine_rgb colour[SL_STRANDS])
{
    sl_rgb light[SL_STRANDS], mean = {0.0, 0.0, 0.0};
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_amounts mine = sl_strand_amounts(strands, i, amounts);
        sl_colour painted;
        sl_optics_paint(optics, &mine, &painted);
        light[i] = linear_of(painted.srgb);
        mean.r += light[i].r / SL_STRANDS;
        mean.g += light[i].g / SL_STRANDS;
        mean.b += light[i].b / SL_STRANDS;
    }
    const sl_rgb to = linear_of(own);
    const sl_rgb by = {toward(to.r, mean.r), toward(to.g, mean.g), toward(to.b, mean.b)};
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_rgb moved = {light[i].r * by.r, light[i].g * by.g, light[i].b * by.b};
        colour[i] = sl_fine_of(sl_rgb_seen(vision, moved));
    }
}
