/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The colour arithmetic against Little CMS 2 over 10,000 random colours each.
 *
 * Where both sides have the same formula in doubles only rounding may differ. Its sRGB profile is
 * built from chromaticities (.3127, .3290 and those of BT.709), while IEC 61966-2-1 prints a matrix
 * of four figures, and stores them as 15.16 fixed point; that matrix is off by up to 4e-4, and the
 * adaptation to D50 carries it on.
 */
#include <lcms2.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "slowlift/optics.h"
#include "tools/spots.h"
#include "unit/suite.h"

enum { COLOURS = 10000 };

static sl_lab random_lab(uint64_t *state)
{
    const double L = 100.0 * spot_random(state);
    const double a = 180.0 * spot_random(state) - 90.0;
    return (sl_lab){L, a, 180.0 * spot_random(state) - 90.0};
}

static cmsCIELab lab_of(sl_lab lab)
{
    return (cmsCIELab){lab.L, lab.a, lab.b};
}

static cmsCIEXYZ xyz_of(sl_xyz xyz)
{
    return (cmsCIEXYZ){xyz.X, xyz.Y, xyz.Z};
}

START_TEST(cielab_of_any_white_is_that_of_lcms)
{
    uint64_t state = 1;
    for (int i = 0; i < COLOURS; i++) {
        const sl_xyz white = sl_white((sl_observer)(i % SL_OBSERVER_COUNT), (sl_light)(i % SL_LIGHT_COUNT));
        const cmsCIEXYZ their_white = xyz_of(white);
        const sl_xyz xyz = {pow(spot_random(&state), 3.0) * white.X, pow(spot_random(&state), 3.0),
                            pow(spot_random(&state), 3.0) * white.Z};
        const cmsCIEXYZ theirs = xyz_of(xyz);
        const sl_lab lab = sl_lab_relative(xyz, white);
        cmsCIELab found;
        cmsXYZ2Lab(&their_white, &found, &theirs);
        ck_assert_double_eq_tol(lab.L, found.L, 1e-10);
        ck_assert_double_eq_tol(lab.a, found.a, 1e-10);
        ck_assert_double_eq_tol(lab.b, found.b, 1e-10);
    }
}
END_TEST

START_TEST(chroma_and_hue_are_those_of_lcms)
{
    uint64_t state = 2;
    for (int i = 0; i < COLOURS; i++) {
        const sl_lab lab = random_lab(&state);
        const cmsCIELab theirs = lab_of(lab);
        const sl_lch lch = sl_lch_of_lab(lab);
        cmsCIELCh found;
        cmsLab2LCh(&found, &theirs);
        ck_assert_double_eq_tol(lch.C, found.C, 1e-10);
        ck_assert_double_eq_tol(lch.h_deg, found.h, 1e-10);
    }
}
END_TEST

/* Half of the pairs are near, as colours that people compare are. */
START_TEST(both_differences_are_those_of_lcms)
{
    uint64_t state = 3;
    for (int i = 0; i < COLOURS; i++) {
        const sl_lab one = random_lab(&state);
        sl_lab two = random_lab(&state);
        if (i % 2 == 0) {
            two = (sl_lab){one.L + 0.05 * two.L, one.a + 0.05 * two.a, one.b + 0.05 * two.b};
        }
        const cmsCIELab first = lab_of(one);
        const cmsCIELab second = lab_of(two);
        ck_assert_double_eq_tol(sl_delta_e_76(one, two), cmsDeltaE(&first, &second), 1e-10);
        ck_assert_double_eq_tol(sl_delta_e_2000(one, two), cmsCIE2000DeltaE(&first, &second, 1.0, 1.0, 1.0),
                                1e-9);
    }
}
END_TEST

/* lcms has its Bradford matrix as here, and the inverse by elimination. */
START_TEST(adaptation_is_that_of_lcms)
{
    uint64_t state = 4;
    for (int i = 0; i < COLOURS; i++) {
        const sl_xyz from = sl_white((sl_observer)(i % SL_OBSERVER_COUNT), (sl_light)(i % SL_LIGHT_COUNT));
        const sl_xyz to = sl_white_d65();
        const cmsCIEXYZ source = xyz_of(from);
        const cmsCIEXYZ target = xyz_of(to);
        const sl_xyz xyz = {spot_random(&state), spot_random(&state), spot_random(&state)};
        const cmsCIEXYZ theirs = xyz_of(xyz);
        cmsCIEXYZ found;
        ck_assert(cmsAdaptToIlluminant(&found, &source, &target, &theirs));
        const sl_xyz ours = sl_adapt(xyz, from, to);
        ck_assert_double_eq_tol(ours.X, found.X, 1e-10);
        ck_assert_double_eq_tol(ours.Y, found.Y, 1e-10);
        ck_assert_double_eq_tol(ours.Z, found.Z, 1e-10);
    }
}
END_TEST

/* 1e-3 in XYZ: the four figures of the standard's matrix and the profile's fixed point. In
 * CIEDE2000, what a person might see of it is below a tenth. */
START_TEST(srgb_is_that_of_the_profile_of_lcms)
{
    cmsHPROFILE srgb = cmsCreate_sRGBProfile();
    cmsHPROFILE xyz_profile = cmsCreateXYZProfile();
    ck_assert(srgb != NULL && xyz_profile != NULL);
    cmsHTRANSFORM transform = cmsCreateTransform(srgb, TYPE_RGB_DBL, xyz_profile, TYPE_XYZ_DBL,
                                                 INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    ck_assert(transform != NULL);
    const sl_xyz d65 = {0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290};
    const sl_xyz d50 = {0.9642, 1.0, 0.8249};
    uint64_t state = 5;
    for (int i = 0; i < COLOURS; i++) {
        double encoded[3];
        for (int channel = 0; channel < 3; channel++) {
            encoded[channel] = spot_random(&state);
        }
        cmsCIEXYZ found;
        cmsDoTransform(transform, encoded, &found, 1);
        const sl_rgb linear = {sl_srgb_decode(encoded[0]), sl_srgb_decode(encoded[1]),
                               sl_srgb_decode(encoded[2])};
        const sl_xyz ours = sl_adapt(sl_xyz_of_rgb(linear), d65, d50);
        ck_assert_double_eq_tol(ours.X, found.X, 1e-3);
        ck_assert_double_eq_tol(ours.Y, found.Y, 1e-3);
        ck_assert_double_eq_tol(ours.Z, found.Z, 1e-3);
        const sl_lab theirs = sl_lab_relative((sl_xyz){found.X, found.Y, found.Z}, d50);
        ck_assert_double_lt(sl_delta_e_2000(sl_lab_relative(ours, d50), theirs), 0.1);
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(srgb);
    cmsCloseProfile(xyz_profile);
}
END_TEST

START_SUITE("Little CMS")
ADD(cielab_of_any_white_is_that_of_lcms)
ADD(chroma_and_hue_are_those_of_lcms)
ADD(both_differences_are_those_of_lcms)
ADD(adaptation_is_that_of_lcms)
ADD(srgb_is_that_of_the_profile_of_lcms)
END_SUITE
