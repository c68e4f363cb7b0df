/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How a colour looks to a person who lacks one kind of cone, and on a grey print.
 * Invariant: greys stay as they are in every vision (rows of the matrices sum to 1).
 *
 * G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A physiologically-based model for
 * simulation of color vision deficiency", IEEE Trans. Vis. Comput. Graph. 15(6):1291-1298
 * (2009): matrices for severity 1, on linear RGB.
 */
#include <assert.h>
#include <math.h>

#include "base/language.h"
#include "slowlift/optics.h"

static const double SEEN[SL_VISION_COUNT][3][3] = {
    [SL_VISION_FULL] = {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
    [SL_VISION_PROTAN] = {{0.152286, 1.052583, -0.204868},
                          {0.114503, 0.786281, 0.099216},
                          {-0.003882, -0.048116, 1.051998}},
    [SL_VISION_DEUTAN] = {{0.367322, 0.860646, -0.227968},
                          {0.280085, 0.672501, 0.047413},
                          {-0.011820, 0.042940, 0.968881}},
    [SL_VISION_TRITAN] = {{1.255528, -0.076749, -0.178779},
                          {-0.078411, 0.930809, 0.147602},
                          {0.004733, 0.691367, 0.303900}},
    /* luminance of sRGB, IEC 61966-2-1 */
    [SL_VISION_GREY] = {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}},
};

const char *sl_vision_word(sl_vision vision)
{
    static const char *const words[SL_VISION_COUNT] = {
        [SL_VISION_FULL] = N_("full colour vision"),
        [SL_VISION_PROTAN] = N_("without red cones (protan)"),
        [SL_VISION_DEUTAN] = N_("without green cones (deutan)"),
        [SL_VISION_TRITAN] = N_("without blue cones (tritan)"),
        [SL_VISION_GREY] = N_("grey print"),
    };
    assert(vision >= 0 && vision < SL_VISION_COUNT);
    return words[vision];
}

static double row(const double weight[3], sl_rgb rgb)
{
    return weight[0] * rgb.r + weight[1] * rgb.g + weight[2] * rgb.b;
}

/* May leave 0..1, as a matrix does. */
sl_rgb sl_rgb_seen(sl_vision vision, sl_rgb linear)
{
    assert(vision >= 0 && vision < SL_VISION_COUNT);
    const double(*const seen)[3] = SEEN[vision];
    return (sl_rgb){row(seen[0], linear), row(seen[1], linear), row(seen[2], linear)};
}

static uint8_t byte_of(double linear)
{
    return (uint8_t)lround(255.0 * sl_srgb_encode(fmin(fmax(linear, 0.0), 1.0)));
}

sl_srgb8 sl_srgb8_seen(sl_vision vision, sl_srgb8 srgb)
{
    const sl_rgb linear = {sl_srgb_decode(srgb.r / 255.0), sl_srgb_decode(srgb.g / 255.0),
                           sl_srgb_decode(srgb.b / 255.0)};
    const sl_rgb seen = sl_rgb_seen(vision, linear);
    return (sl_srgb8){byte_of(seen.r), byte_of(seen.g), byte_of(seen.b)};
}
