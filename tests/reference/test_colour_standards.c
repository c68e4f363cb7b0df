/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colour arithmetic against what the standards and their companion papers print.
 */
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "optics/observer.h"
#include "slowlift/optics.h"
#include "unit/suite.h"

/* ---- observer and illuminant ------------------------------------------------------------ */

/* Equal-energy light is achromatic for both observers: their three functions were scaled to equal
 * areas (CIE 15). Tables of six decimals at 5 nm leave differences of a few 1e-4 for the one of 1931
 * and, as the tables themselves have it, of two parts in 10,000 for the one of 1964. */
START_TEST(the_three_colour_matching_functions_enclose_equal_areas)
{
    for (int axis = 0; axis < 3; axis++) {
        double sum = 0.0;
        double sum_10 = 0.0;
        for (int band = 0; band < SL_BANDS; band++) {
            sum += sl_observer_2deg[axis][band];
            sum_10 += sl_observer_10deg[axis][band];
        }
        ck_assert_double_eq_tol(sum, 21.3714, 3e-4);
        ck_assert_double_eq_tol(sum_10, 23.332, 3e-3);
    }
}
END_TEST

/* ISO/CIE 11664-1: y is the luminous efficiency V, 1 at 555 nm and nowhere more.
 * ISO/CIE 11664-2: D65 is normalised to 100 at 560 nm. */
START_TEST(the_tables_stand_on_their_wavelengths)
{
    const int at_555 = 35;
    const int at_560 = 36;
    for (int band = 0; band < SL_BANDS; band++) {
        ck_assert(sl_observer_2deg[1][band] <= 1.0);
    }
    ck_assert_double_eq(sl_observer_2deg[1][at_555], 1.0);
    ck_assert_double_eq(sl_illuminant_d65[at_560], 100.0);
}
END_TEST

/* CIE 15: D65 under the 2 degree observer has x = 0.3127, y = 0.3290. */
START_TEST(white_of_d65_is_the_printed_one_to_four_decimals)
{
    const sl_xyz white = sl_white_d65();
    const double sum = white.X + white.Y + white.Z;
    ck_assert_double_eq_tol(white.X / sum, 0.3127, 5e-5);
    ck_assert_double_eq_tol(white.Y / sum, 0.3290, 5e-5);
}
END_TEST

/* ASTM E308 prints 95.047, 100, 108.883 for D65 from 1 nm figures over 360..830 nm (from
 * memory); the 5 nm sum over 380..780 nm is off by less than 0.005 in each. */
START_TEST(white_of_d65_is_the_one_nanometre_white_within_a_hundredth)
{
    const sl_xyz white = sl_white_d65();
    ck_assert_double_eq_tol(100.0 * white.X, 95.047, 0.01);
    ck_assert_double_eq_tol(100.0 * white.Z, 108.883, 0.01);
}
END_TEST

/* CIE 15: chromaticities of the light sources. A and D65 for both observers, to four decimals;
 * LED-B1 as CIE 15:2018 has it, .4560 .4078, for the 2 degree observer. (Read in public copies of
 * the tables.) */
START_TEST(whites_of_both_observers_are_the_printed_ones_to_four_decimals)
{
    const struct {
        sl_observer observer;
        sl_light light;
        double x, y;
    } printed[] = {
        {SL_OBSERVER_2_DEGREE, SL_LIGHT_D65, 0.31272, 0.32903},
        {SL_OBSERVER_2_DEGREE, SL_LIGHT_A, 0.44758, 0.40745},
        {SL_OBSERVER_10_DEGREE, SL_LIGHT_D65, 0.31382, 0.33100},
        {SL_OBSERVER_10_DEGREE, SL_LIGHT_A, 0.45117, 0.40594},
        {SL_OBSERVER_2_DEGREE, SL_LIGHT_WARM_LED, 0.4560, 0.4078},
    };
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++) {
        const sl_xyz white = sl_white(printed[i].observer, printed[i].light);
        const double sum = white.X + white.Y + white.Z;
        ck_assert_double_eq_tol(white.X / sum, printed[i].x, 5e-5);
        ck_assert_double_eq_tol(white.Y / sum, printed[i].y, 5e-5);
        ck_assert_double_eq_tol(white.Y, 1.0, 1e-14);
    }
}
END_TEST

/* ASTM E308, as printed by S. Westland & C. Ripamonti, "Computational Colour Science Using MATLAB",
 * p. 59 (1964 observer): D65 94.811 107.304, A 111.144 35.200. Theirs are 1 nm figures over
 * 360..830 nm, ours a 5 nm sum over 380..780: D65 is jagged in the blue, hence .025 in Z. */
START_TEST(whites_of_the_10_degree_observer_are_those_of_one_nanometre_steps)
{
    const sl_xyz d65 = sl_white(SL_OBSERVER_10_DEGREE, SL_LIGHT_D65);
    const sl_xyz lamp = sl_white(SL_OBSERVER_10_DEGREE, SL_LIGHT_A);
    ck_assert_double_eq_tol(100.0 * d65.X, 94.811, 0.002);
    ck_assert_double_eq_tol(100.0 * d65.Z, 107.304, 0.025);
    ck_assert_double_eq_tol(100.0 * lamp.X, 111.144, 0.002);
    ck_assert_double_eq_tol(100.0 * lamp.Z, 35.200, 0.002);
}
END_TEST

/* CIE 15, table of illuminant A: 9.79510, 33.0859, 100, 165.028, 241.675 at these wavelengths. */
START_TEST(illuminant_A_has_its_tabulated_power)
{
    const double table[][2] = {
        {380.0, 9.79510}, {450.0, 33.0859}, {560.0, 100.0}, {650.0, 165.028}, {780.0, 241.675}};
    double power[SL_BANDS];
    sl_light_power(SL_LIGHT_A, power);
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const int band = (int)lround((table[i][0] - SL_FIRST_NM) / SL_BAND_NM);
        ck_assert_double_eq_tol(power[band] / table[i][1], 1.0, 5e-6);
    }
}
END_TEST

/* CIE 15 (CIE datasets mifmy4x4 and qnm382a6): chromaticity coordinates of the spectral locus, four
 * decimals. The 2 degree figures from 400 to 500 nm were read in a public copy of the table, the
 * others are from memory. */
START_TEST(the_spectral_locus_of_both_observers_is_the_printed_one)
{
    const struct {
        double nm, x2, y2, x10, y10;
    } locus[] = {{450.0, 0.1566, 0.0177, 0.1510, 0.0364},
                 {500.0, 0.0082, 0.5384, 0.0056, 0.6745},
                 {550.0, 0.3016, 0.6923, 0.3473, 0.6501},
                 {600.0, 0.6270, 0.3725, 0.6306, 0.3694},
                 {650.0, 0.7260, 0.2740, 0.7137, 0.2863}};
    for (size_t i = 0; i < sizeof locus / sizeof *locus; i++) {
        const int at = (int)lround((locus[i].nm - SL_FIRST_NM) / SL_BAND_NM);
        double sum[2] = {0.0, 0.0};
        for (int axis = 0; axis < 3; axis++) {
            sum[0] += sl_observer_2deg[axis][at];
            sum[1] += sl_observer_10deg[axis][at];
        }
        ck_assert_double_eq_tol(sl_observer_2deg[0][at] / sum[0], locus[i].x2, 5.1e-5);
        ck_assert_double_eq_tol(sl_observer_2deg[1][at] / sum[0], locus[i].y2, 5.1e-5);
        ck_assert_double_eq_tol(sl_observer_10deg[0][at] / sum[1], locus[i].x10, 5.1e-5);
        ck_assert_double_eq_tol(sl_observer_10deg[1][at] / sum[1], locus[i].y10, 5.1e-5);
    }
}
END_TEST

/* ---- CIELAB and sRGB ---------------------------------------------------------------------- */

START_TEST(white_is_L_100_and_black_is_L_0)
{
    const sl_lab white = sl_lab_of_xyz(sl_white_d65());
    const sl_lab black = sl_lab_of_xyz((sl_xyz){0.0, 0.0, 0.0});
    ck_assert_double_eq_tol(white.L, 100.0, 1e-12);
    ck_assert_double_eq_tol(white.a, 0.0, 1e-12);
    ck_assert_double_eq_tol(white.b, 0.0, 1e-12);
    ck_assert_double_eq_tol(black.L, 0.0, 1e-12);
    ck_assert_double_eq_tol(black.a, 0.0, 1e-12);
    ck_assert_double_eq_tol(black.b, 0.0, 1e-12);
}
END_TEST

/* ISO/CIE 11664-4: the cube root and the line meet at (6/29)^3, where L* = 8. */
START_TEST(lightness_is_8_where_cube_root_and_line_meet)
{
    const double join = 216.0 / 24389.0;
    for (int side = -1; side <= 1; side += 2) {
        const double Y = join * (1.0 + side * 1e-9);
        ck_assert_double_eq_tol(sl_lab_of_xyz((sl_xyz){0.0, Y, 0.0}).L, 8.0, 1e-7);
    }
    ck_assert_double_eq_tol(sl_lab_of_xyz((sl_xyz){0.0, 0.184186518512444, 0.0}).L, 50.0, 1e-9);
}
END_TEST

/* M. D. Fairchild, "Color Appearance Models", the table of example calculations for CIELAB (from
 * memory): two stimuli under D65 and two under A, white 100, two decimals. */
START_TEST(cielab_has_the_worked_examples_of_the_textbook)
{
    const sl_xyz d65 = {95.05, 100.0, 108.88};
    const sl_xyz lamp = {109.85, 100.0, 35.58};
    const struct {
        sl_xyz seen, white;
        double L, a, b, C, h;
    } example[] = {
        {{19.01, 20.00, 21.78}, d65, 51.84, 0.00, -0.01, 0.01, 270.0},
        {{57.06, 43.06, 31.96}, d65, 71.60, 44.22, 18.11, 47.79, 22.3},
        {{3.53, 6.56, 2.14}, lamp, 30.78, -42.69, 2.30, 42.75, 176.9},
        {{19.01, 20.00, 21.78}, lamp, 51.84, -13.77, -52.86, 54.62, 255.4},
    };
    for (size_t i = 0; i < sizeof example / sizeof *example; i++) {
        const sl_lab lab = sl_lab_relative(example[i].seen, example[i].white);
        const sl_lch lch = sl_lch_of_lab(lab);
        ck_assert_double_eq_tol(lab.L, example[i].L, 0.0051);
        ck_assert_double_eq_tol(lab.a, example[i].a, 0.0051);
        ck_assert_double_eq_tol(lab.b, example[i].b, 0.0051);
        ck_assert_double_eq_tol(lch.C, example[i].C, 0.0051);
        ck_assert_double_eq_tol(lch.h_deg, example[i].h, 0.051);
    }
}
END_TEST

/* IEC 61966-2-1 and ITU-R BT.709: chromaticities of the primaries. The matrix has four
 * decimals, so a chromaticity is good to some 3e-4. */
START_TEST(primaries_of_srgb_have_their_chromaticities)
{
    const struct {
        sl_srgb8 rgb;
        double x, y;
    } primary[] = {{{255, 0, 0}, 0.64, 0.33},
                   {{0, 255, 0}, 0.30, 0.60},
                   {{0, 0, 255}, 0.15, 0.06},
                   {{255, 255, 255}, 0.3127, 0.3290}};
    for (size_t i = 0; i < sizeof primary / sizeof *primary; i++) {
        const sl_xyz xyz = sl_xyz_of_srgb8(primary[i].rgb);
        const double sum = xyz.X + xyz.Y + xyz.Z;
        ck_assert_double_eq_tol(xyz.X / sum, primary[i].x, 3e-4);
        ck_assert_double_eq_tol(xyz.Y / sum, primary[i].y, 3e-4);
    }
}
END_TEST

/* Figures of scikit-image 0.19.3 (rgb2lab), whose white is 95.047, 100, 108.883 and whose
 * matrix has six decimals: together these move a primary by up to 0.05. */
START_TEST(primaries_of_srgb_have_the_lab_of_another_library)
{
    const struct {
        sl_srgb8 rgb;
        sl_lab lab;
    } primary[] = {
        {{255, 0, 0}, {53.2406, 80.0923, 67.2028}},     {{0, 255, 0}, {87.7351, -86.1830, 83.1797}},
        {{0, 0, 255}, {32.2957, 79.1856, -107.8573}},   {{255, 255, 0}, {97.1395, -21.5547, 94.4781}},
        {{0, 255, 255}, {91.1133, -48.0906, -14.1263}}, {{255, 0, 255}, {60.3235, 98.2331, -60.8210}}};
    for (size_t i = 0; i < sizeof primary / sizeof *primary; i++) {
        const sl_lab lab = sl_lab_of_xyz(sl_xyz_of_srgb8(primary[i].rgb));
        ck_assert_double_eq_tol(lab.L, primary[i].lab.L, 0.05);
        ck_assert_double_eq_tol(lab.a, primary[i].lab.a, 0.05);
        ck_assert_double_eq_tol(lab.b, primary[i].lab.b, 0.05);
    }
}
END_TEST

/* IEC 61966-2-1: the linear piece ends at 0.0031308 (0.04045 encoded); the standard's rounded
 * constants leave a step of about 3e-8 there, hence 1e-7. */
START_TEST(encoding_has_its_corner_and_its_ends)
{
    ck_assert_double_eq_tol(sl_srgb_encode(0.0), 0.0, 1e-15);
    ck_assert_double_eq_tol(sl_srgb_encode(1.0), 1.0, 1e-15);
    ck_assert_double_eq_tol(sl_srgb_decode(0.0), 0.0, 1e-15);
    ck_assert_double_eq_tol(sl_srgb_decode(1.0), 1.0, 1e-15);
    ck_assert_double_eq_tol(sl_srgb_encode(0.0031308), 0.04045, 1e-6);
    ck_assert_double_eq_tol(sl_srgb_encode(0.0031308 + 1e-12), sl_srgb_encode(0.0031308), 1e-7);
    ck_assert_double_eq_tol(sl_srgb_decode(0.04045 + 1e-12), sl_srgb_decode(0.04045), 1e-7);
    for (int i = 0; i <= 1000; i++) {
        ck_assert_double_eq_tol(sl_srgb_decode(sl_srgb_encode(i / 1000.0)), i / 1000.0, 1e-7);
    }
}
END_TEST

/* IEC 61966-2-1 amendment 1 prints the matrix from XYZ with seven figures. */
START_TEST(the_matrix_to_rgb_is_the_printed_one)
{
    const double printed[3][3] = {{3.2406255, -1.5372080, -0.4986286},
                                  {-0.9689307, 1.8757561, 0.0415175},
                                  {0.0557101, -0.2040211, 1.0569959}};
    for (int axis = 0; axis < 3; axis++) {
        const sl_rgb column =
            sl_rgb_of_xyz((sl_xyz){axis == 0 ? 1.0 : 0.0, axis == 1 ? 1.0 : 0.0, axis == 2 ? 1.0 : 0.0});
        ck_assert_double_eq_tol(column.r, printed[0][axis], 0.51e-7);
        ck_assert_double_eq_tol(column.g, printed[1][axis], 0.51e-7);
        ck_assert_double_eq_tol(column.b, printed[2][axis], 0.51e-7);
    }
}
END_TEST

START_TEST(both_matrices_of_srgb_undo_each_other)
{
    for (int corner = 0; corner < 8; corner++) {
        const sl_rgb rgb = {corner & 1 ? 1.0 : 0.0, corner & 2 ? 1.0 : 0.0, corner & 4 ? 1.0 : 0.0};
        const sl_rgb back = sl_rgb_of_xyz(sl_xyz_of_rgb(rgb));
        ck_assert_double_eq_tol(back.r, rgb.r, 1e-13);
        ck_assert_double_eq_tol(back.g, rgb.g, 1e-13);
        ck_assert_double_eq_tol(back.b, rgb.b, 1e-13);
    }
}
END_TEST

/* IEC 61966-2-1: the corners of the cube go through XYZ and encoding both ways to 1e-7. */
START_TEST(corners_of_srgb_come_back_both_ways)
{
    for (int corner = 0; corner < 8; corner++) {
        const double encoded[3] = {corner & 1 ? 1.0 : 0.0, corner & 2 ? 1.0 : 0.0, corner & 4 ? 1.0 : 0.0};
        const sl_rgb rgb = {sl_srgb_decode(encoded[0]), sl_srgb_decode(encoded[1]),
                            sl_srgb_decode(encoded[2])};
        const sl_rgb back = sl_rgb_of_xyz(sl_xyz_of_rgb(rgb));
        ck_assert_double_eq_tol(sl_srgb_encode(back.r), encoded[0], 1e-7);
        ck_assert_double_eq_tol(sl_srgb_encode(back.g), encoded[1], 1e-7);
        ck_assert_double_eq_tol(sl_srgb_encode(back.b), encoded[2], 1e-7);
    }
}
END_TEST

START_TEST(every_grey_and_a_grid_of_colours_survive_the_way_through_xyz)
{
    for (int r = 0; r <= 255; r += 15) {
        for (int g = 0; g <= 255; g += 15) {
            for (int b = 0; b <= 255; b++) {
                const sl_srgb8 srgb = {(uint8_t)r, (uint8_t)g, (uint8_t)b};
                bool clipped = true;
                const sl_srgb8 back = sl_srgb8_of_xyz(sl_xyz_of_srgb8(srgb), &clipped);
                ck_assert(back.r == srgb.r && back.g == srgb.g && back.b == srgb.b && !clipped);
            }
        }
    }
    for (int grey = 0; grey <= 255; grey++) {
        const sl_srgb8 srgb = {(uint8_t)grey, (uint8_t)grey, (uint8_t)grey};
        const sl_srgb8 back = sl_srgb8_of_xyz(sl_xyz_of_srgb8(srgb), NULL);
        ck_assert(back.r == grey && back.g == grey && back.b == grey);
    }
}
END_TEST

START_SUITE("colour standards")
ADD(the_three_colour_matching_functions_enclose_equal_areas)
ADD(the_tables_stand_on_their_wavelengths)
ADD(white_of_d65_is_the_printed_one_to_four_decimals)
ADD(white_of_d65_is_the_one_nanometre_white_within_a_hundredth)
ADD(whites_of_both_observers_are_the_printed_ones_to_four_decimals)
ADD(whites_of_the_10_degree_observer_are_those_of_one_nanometre_steps)
ADD(illuminant_A_has_its_tabulated_power)
ADD(the_spectral_locus_of_both_observers_is_the_printed_one)
CASE("CIELAB and sRGB")
ADD(white_is_L_100_and_black_is_L_0)
ADD(lightness_is_8_where_cube_root_and_line_meet)
ADD(cielab_has_the_worked_examples_of_the_textbook)
ADD(primaries_of_srgb_have_their_chromaticities)
ADD(corners_of_srgb_come_back_both_ways)
ADD(primaries_of_srgb_have_the_lab_of_another_library)
ADD(encoding_has_its_corner_and_its_ends)
ADD(the_matrix_to_rgb_is_the_printed_one)
ADD(both_matrices_of_srgb_undo_each_other)
ADD(every_grey_and_a_grid_of_colours_survive_the_way_through_xyz)
END_SUITE
