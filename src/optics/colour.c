/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * XYZ, CIELAB and sRGB. Invariant: every function is pure; where no white is given it is
 * the 5 nm sum of D65 under the CIE 1931 observer (observer.h), Y = 1.
 *
 * CIELAB: ISO/CIE 11664-4. sRGB: IEC 61966-2-1; the matrix to XYZ has its four figures,
 * the matrix back is their exact inverse, which amendment 1 prints to seven figures. Adaptation
 * to another white: the linear Bradford transform of ICC.1, annex E.
 */
#include <math.h>
#include <stddef.h>

#include "optics/observer.h"
#include "optics/tress.h"
#include "slowlift/optics.h"

/* The sums of sl_observer_weights, kept as constants because every colour needs them;
 * tests/unit/test_colour.c holds them against the sums. */
static const sl_xyz WHITE = {0.95042966210989299, 1.0, 1.0888005680506738};

/* CIELAB's cube root gives way to a line below (6/29)^3. */
static const double LAB_JOIN = 216.0 / 24389.0;
static const double LAB_SLOPE = 841.0 / 108.0; /* (29/6)^2 / 3 */
static const double LAB_OFFSET = 4.0 / 29.0;

static const double DEGREES = 57.295779513082321; /* 180 / pi */

/* How far outside 0..1 a linear channel may lie and still count as inside: less than
 * half an 8-bit step at either end (1.5e-4 at black, 4e-3 at white), so nothing visible.
 * The white of the 5 nm sum needs 6e-5 of it. */
static const double GAMUT_SLACK = 1e-4;

sl_xyz sl_white_d65(void)
{
    return WHITE;
}

sl_xyz sl_xyz_of_reflectance(const double reflectance[SL_BANDS])
{
    double weight[3][SL_BANDS];
    double sum[3] = {0.0, 0.0, 0.0};
    sl_observer_weights(SL_OBSERVER_2_DEGREE, SL_LIGHT_D65, weight);
    for (int axis = 0; axis < 3; axis++) {
        for (int band = 0; band < SL_BANDS; band++) {
            sum[axis] += weight[axis][band] * reflectance[band];
        }
    }
    return (sl_xyz){sum[0], sum[1], sum[2]};
}

/* ---- CIELAB ------------------------------------------------------------------------ */

static double lab_f(double share)
{
    return share > LAB_JOIN ? cbrt(share) : LAB_SLOPE * share + LAB_OFFSET;
}

static double lab_f_inverse(double f)
{
    return f > 6.0 / 29.0 ? f * f * f : (f - LAB_OFFSET) / LAB_SLOPE;
}

sl_lab sl_lab_relative(sl_xyz xyz, sl_xyz white)
{
    const double fx = lab_f(xyz.X / white.X);
    const double fy = lab_f(xyz.Y / white.Y);
    const double fz = lab_f(xyz.Z / white.Z);
    return (sl_lab){116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

sl_lab sl_lab_of_xyz(sl_xyz xyz)
{
    return sl_lab_relative(xyz, WHITE);
}

sl_xyz sl_xyz_of_lab(sl_lab lab)
{
    const double fy = (lab.L + 16.0) / 116.0;
    const double fx = fy + lab.a / 500.0;
    const double fz = fy - lab.b / 200.0;
    return (sl_xyz){WHITE.X * lab_f_inverse(fx), WHITE.Y * lab_f_inverse(fy), WHITE.Z * lab_f_inverse(fz)};
}

sl_lch sl_lch_of_lab(sl_lab lab)
{
    const double turn = atan2(lab.b, lab.a) * DEGREES;
    const double hue = turn < 0.0 ? turn + 360.0 : turn; /* 360 when turn is a rounding below 0 */
    return (sl_lch){lab.L, hypot(lab.a, lab.b), hue < 360.0 ? hue : 0.0};
}

/* ---- another white ------------------------------------------------------------------- */

static sl_xyz times(const double matrix[3][3], sl_xyz v)
{
    return (sl_xyz){
        matrix[0][0] * v.X + matrix[0][1] * v.Y + matrix[0][2] * v.Z,
        matrix[1][0] * v.X + matrix[1][1] * v.Y + matrix[1][2] * v.Z,
        matrix[2][0] * v.X + matrix[2][1] * v.Y + matrix[2][2] * v.Z,
    };
}

sl_xyz sl_adapt(sl_xyz xyz, sl_xyz from_white, sl_xyz to_white)
{
    static const double to_cones[3][3] = {
        {0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}};
    /* the exact inverse of the above, to the last place of a double */
    static const double from_cones[3][3] = {
        {0.98699290546671212, -0.1470542564209901, 0.15996265166373126},
        {0.4323052697233945, 0.51836027153677755, 0.049291228212855615},
        {-0.0085286645751773311, 0.040042821654084862, 0.96848669578754998}};
    const sl_xyz from = times(to_cones, from_white);
    const sl_xyz to = times(to_cones, to_white);
    sl_xyz cones = times(to_cones, xyz);
    cones.X *= to.X / from.X;
    cones.Y *= to.Y / from.Y;
    cones.Z *= to.Z / from.Z;
    return times(from_cones, cones);
}

/* ---- sRGB -------------------------------------------------------------------------- */

sl_rgb sl_rgb_of_xyz(sl_xyz xyz)
{
    return (sl_rgb){
        3.240625477320053 * xyz.X - 1.537207972210319 * xyz.Y - 0.498628598698248 * xyz.Z,
        -0.968930714729319 * xyz.X + 1.875756060885241 * xyz.Y + 0.041517523842954 * xyz.Z,
        0.055710120445511 * xyz.X - 0.204021050598487 * xyz.Y + 1.056995942254388 * xyz.Z,
    };
}

sl_xyz sl_xyz_of_rgb(sl_rgb rgb)
{
    return (sl_xyz){
        0.4124 * rgb.r + 0.3576 * rgb.g + 0.1805 * rgb.b,
        0.2126 * rgb.r + 0.7152 * rgb.g + 0.0722 * rgb.b,
        0.0193 * rgb.r + 0.1192 * rgb.g + 0.9505 * rgb.b,
    };
}

double sl_srgb_encode(double linear)
{
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * pow(linear, 1.0 / 2.4) - 0.055;
}

double sl_srgb_decode(double encoded)
{
    return encoded <= 0.04045 ? encoded / 12.92 : pow((encoded + 0.055) / 1.055, 2.4);
}

static double unit(double value)
{
    const double positive = value > 0.0 ? value : 0.0;
    return positive < 1.0 ? positive : 1.0;
}

/* The largest share of the way from grey to `channel` that stays inside 0..1. */
static double share_inside(double grey, double channel)
{
    if (channel < 0.0) {
        return grey / (grey - channel);
    }
    if (channel > 1.0) {
        return (1.0 - grey) / (channel - grey);
    }
    return 1.0;
}

static bool outside(double channel)
{
    return channel < -GAMUT_SLACK || channel > 1.0 + GAMUT_SLACK;
}

/* Gamut rule: a colour outside sRGB moves in linear RGB on the straight line to the grey
 * of its own luminance until it is inside. Luminance is kept; so is the RGB hue. */
static sl_rgb inside(sl_xyz xyz, bool *clipped)
{
    sl_rgb rgb = sl_rgb_of_xyz(xyz);
    *clipped = outside(rgb.r) || outside(rgb.g) || outside(rgb.b);
    if (*clipped) {
        const double grey = unit(xyz.Y);
        const double share =
            fmin(share_inside(grey, rgb.r), fmin(share_inside(grey, rgb.g), share_inside(grey, rgb.b)));
        rgb.r = grey + share * (rgb.r - grey);
        rgb.g = grey + share * (rgb.g - grey);
        rgb.b = grey + share * (rgb.b - grey);
    }
    return rgb;
}

static uint8_t eight_bit(double linear)
{
    return (uint8_t)lround(255.0 * sl_srgb_encode(unit(linear)));
}

sl_srgb8 sl_srgb8_of_xyz(sl_xyz xyz, bool *clipped)
{
    bool moved = false;
    const sl_rgb rgb = inside(xyz, &moved);
    if (clipped != NULL) {
        *clipped = moved;
    }
    return (sl_srgb8){eight_bit(rgb.r), eight_bit(rgb.g), eight_bit(rgb.b)};
}

void sl_byte_steps_fill(sl_byte_steps *steps)
{
    for (int byte = 0; byte < 255; byte++) {
        steps->edge[byte] = sl_srgb_decode((byte + 0.5) / 255.0);
    }
    steps->edge[255] = HUGE_VAL;
    int below = 0;
    for (int cell = 0; cell <= SL_BYTE_CELLS; cell++) {
        while (steps->edge[below] <= (double)cell / SL_BYTE_CELLS) {
            below++;
        }
        steps->first[cell] = (uint8_t)below;
    }
}

/* At its steepest, sRGB climbs 255 * 12.92 = 3295 bytes per unit, so that no cell of 1/4096 holds
 * more than one edge. */
static uint8_t byte_of(const sl_byte_steps *steps, double linear)
{
    const double inside = unit(linear);
    const uint8_t first = steps->first[(int)(inside * SL_BYTE_CELLS)];
    return (uint8_t)(first + (steps->edge[first] <= inside));
}

sl_srgb8 sl_srgb8_by_steps(const sl_byte_steps *steps, sl_xyz xyz, bool *clipped)
{
    const sl_rgb rgb = inside(xyz, clipped);
    return (sl_srgb8){byte_of(steps, rgb.r), byte_of(steps, rgb.g), byte_of(steps, rgb.b)};
}

static sl_rgb linear_of_srgb8(sl_srgb8 srgb)
{
    return (sl_rgb){sl_srgb_decode(srgb.r / 255.0), sl_srgb_decode(srgb.g / 255.0),
                    sl_srgb_decode(srgb.b / 255.0)};
}

sl_xyz sl_xyz_of_srgb8(sl_srgb8 srgb)
{
    return sl_xyz_of_rgb(linear_of_srgb8(srgb));
}

/* ---- contrast (WCAG 2.2, "relative luminance" and "contrast ratio") -------------------- */

static double relative_luminance(sl_srgb8 srgb)
{
    const sl_rgb rgb = linear_of_srgb8(srgb);
    return 0.2126 * rgb.r + 0.7152 * rgb.g + 0.0722 * rgb.b;
}

double sl_contrast(sl_srgb8 one, sl_srgb8 two)
{
    const double first = relative_luminance(one);
    const double second = relative_luminance(two);
    return (fmax(first, second) + 0.05) / (fmin(first, second) + 0.05);
}
