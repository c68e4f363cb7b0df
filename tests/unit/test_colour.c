/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * XYZ, CIELAB, sRGB: white, the ways back, the gamut rule and the bytes.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "optics/observer.h"
#include "optics/tress.h"
#include "slowlift/optics.h"
#include "suite.h"
#include "tools/spots.h"

/* ---- observer ----------------------------------------------------------------------------- */

/* Sums of 81 terms in two orders differ by rounding only. */
START_TEST(white_is_the_sum_over_the_tables)
{
    double weight[3][SL_BANDS];
    double one[SL_BANDS];
    double sum[3] = {0.0, 0.0, 0.0};
    sl_observer_weights(SL_OBSERVER_2_DEGREE, SL_LIGHT_D65, weight);
    for (int band = 0; band < SL_BANDS; band++) {
        one[band] = 1.0;
        for (int axis = 0; axis < 3; axis++) {
            sum[axis] += weight[axis][band];
        }
    }
    const sl_xyz white = sl_white_d65();
    const sl_xyz perfect = sl_xyz_of_reflectance(one);
    ck_assert_double_eq_tol(sum[0], white.X, 1e-13);
    ck_assert_double_eq_tol(sum[1], white.Y, 1e-13);
    ck_assert_double_eq_tol(sum[2], white.Z, 1e-13);
    ck_assert_double_eq_tol(perfect.X, white.X, 1e-13);
    ck_assert_double_eq_tol(perfect.Y, white.Y, 1e-13);
    ck_assert_double_eq_tol(perfect.Z, white.Z, 1e-13);
}
END_TEST

START_TEST(perfect_white_is_ffffff_and_counts_as_inside)
{
    bool clipped = true;
    const sl_srgb8 white = sl_srgb8_of_xyz(sl_white_d65(), &clipped);
    ck_assert(white.r == 255 && white.g == 255 && white.b == 255 && !clipped);
}
END_TEST

START_TEST(lab_goes_back_to_the_same_xyz)
{
    uint64_t state = 1;
    for (int i = 0; i < 1000; i++) {
        const sl_xyz xyz = {pow(spot_random(&state), 4.0), pow(spot_random(&state), 4.0),
                            pow(spot_random(&state), 4.0)};
        const sl_xyz back = sl_xyz_of_lab(sl_lab_of_xyz(xyz));
        ck_assert_double_eq_tol(back.X, xyz.X, 1e-14);
        ck_assert_double_eq_tol(back.Y, xyz.Y, 1e-14);
        ck_assert_double_eq_tol(back.Z, xyz.Z, 1e-14);
    }
}
END_TEST

/* ---- gamut ---------------------------------------------------------------------------------- */

/* Half an 8-bit step in a channel moves luminance by at most 0.7152 * 0.5/255 * 2.4/1.055. */
START_TEST(a_colour_outside_srgb_keeps_its_luminance_and_is_flagged)
{
    uint64_t state = 2;
    int outside = 0;
    for (int i = 0; i < 2000; i++) {
        const sl_lab lab = {5.0 + 90.0 * spot_random(&state), 240.0 * spot_random(&state) - 120.0,
                            240.0 * spot_random(&state) - 120.0};
        const sl_xyz xyz = sl_xyz_of_lab(lab);
        const sl_rgb rgb = sl_rgb_of_xyz(xyz);
        bool clipped = false;
        const sl_srgb8 srgb = sl_srgb8_of_xyz(xyz, &clipped);
        const double low = fmin(rgb.r, fmin(rgb.g, rgb.b));
        const double high = fmax(rgb.r, fmax(rgb.g, rgb.b));
        ck_assert_int_eq(clipped, low < -1e-4 || high > 1.0 + 1e-4);
        ck_assert_double_eq_tol(sl_xyz_of_srgb8(srgb).Y, xyz.Y, 4.5e-3);
        outside += clipped;
    }
    ck_assert_int_gt(outside, 500);
}
END_TEST

/* Looking up may differ from rounding the power only where a value sits on an edge: never on a
 * million random colours, in and out of the gamut, half of them dark. */
START_TEST(bytes_by_their_steps_are_the_bytes_of_the_formula)
{
    sl_byte_steps steps;
    sl_byte_steps_fill(&steps);
    uint64_t state = 9;
    for (int i = 0; i < 1000000; i++) {
        const double dark = i % 2 == 0 ? 1.0 : 0.02;
        const sl_xyz xyz = {1.2 * dark * spot_random(&state), 1.1 * dark * spot_random(&state),
                            1.3 * dark * spot_random(&state)};
        bool clipped[2] = {false, false};
        const sl_srgb8 one = sl_srgb8_of_xyz(xyz, &clipped[0]);
        const sl_srgb8 two = sl_srgb8_by_steps(&steps, xyz, &clipped[1]);
        ck_assert(one.r == two.r && one.g == two.g && one.b == two.b && clipped[0] == clipped[1]);
    }
}
END_TEST

START_SUITE("colour")
ADD(white_is_the_sum_over_the_tables)
ADD(perfect_white_is_ffffff_and_counts_as_inside)
ADD(lab_goes_back_to_the_same_xyz)
ADD(a_colour_outside_srgb_keeps_its_luminance_and_is_flagged)
ADD(bytes_by_their_steps_are_the_bytes_of_the_formula)
END_SUITE
