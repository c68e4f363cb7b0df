/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How different colours are, and how they look to other eyes, against what papers and guidelines
 * print.
 */
#include <math.h>
#include <stdlib.h>

#include "slowlift/optics.h"
#include "unit/suite.h"

/* ---- differences ---------------------------------------------------------------------------- */

/* Sharma, Wu & Dalal, Color Res. Appl. 30(1):21-30 (2005), Table 1. */
static const struct {
    sl_lab one, two;
    double difference;
} SHARMA[] = {
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},
    {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},
    {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},
    {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},
    {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},
    {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};
enum { SHARMA_PAIRS = sizeof SHARMA / sizeof *SHARMA };

/* The table has four decimals; 1e-4 is two units of its rounding. */
START_TEST(ciede2000_gives_every_pair_of_its_test_table)
{
    ck_assert_int_eq(SHARMA_PAIRS, 34);
    const double found = sl_delta_e_2000(SHARMA[_i].one, SHARMA[_i].two);
    ck_assert_double_eq_tol(found, SHARMA[_i].difference, 1e-4);
}
END_TEST

START_TEST(ciede2000_is_the_same_both_ways)
{
    const double there = sl_delta_e_2000(SHARMA[_i].one, SHARMA[_i].two);
    const double back = sl_delta_e_2000(SHARMA[_i].two, SHARMA[_i].one);
    ck_assert_double_eq_tol(there, back, 1e-12);
    ck_assert_double_eq_tol(sl_delta_e_2000(SHARMA[_i].one, SHARMA[_i].one), 0.0, 1e-12);
}
END_TEST

/* Sharma, Wu & Dalal (2005), equations 10 and 14: hues 180 degrees apart or less are averaged
 * between them. Exactly opposite colours belong there, whatever rounding makes of their hues,
 * so they must agree with the same pair turned 1e-6 degrees closer. The formula itself moves
 * by about 1e-6 on that way; on the wrong side of the half turn it is off by up to 0.1 and more. */
START_TEST(ciede2000_takes_opposite_hues_for_half_a_turn_and_not_for_more)
{
    const double degree = 0.017453292519943295;
    for (int i = 1; i < 1800; i++) {
        const double hue = 0.1 * i;
        const double chroma = 2.0 + 0.01 * i;
        const sl_lab one = {50.0, chroma * cos(hue * degree), chroma * sin(hue * degree)};
        const sl_lab opposite = {50.0, -one.a, -one.b};
        const double turn = -1e-6 * degree;
        const sl_lab closer = {50.0, opposite.a - turn * opposite.b, opposite.b + turn * opposite.a};
        ck_assert_double_eq_tol(sl_delta_e_2000(one, opposite), sl_delta_e_2000(one, closer), 1e-5);
        ck_assert_double_eq_tol(sl_delta_e_2000(opposite, one), sl_delta_e_2000(closer, one), 1e-5);
    }
}
END_TEST

START_TEST(the_plain_difference_is_the_distance_in_lab)
{
    ck_assert_double_eq_tol(sl_delta_e_76((sl_lab){50.0, 2.0, 3.0}, (sl_lab){52.0, 5.0, 9.0}), 7.0, 1e-12);
}
END_TEST

/* ---- contrast --------------------------------------------------------------------------------- */

/* WCAG 2.2 states the range 1..21. The other ratios were computed from its formula in another
 * language; 767676 and 777777 on white are the two greys on either side of the AA bound of 4.5. */
START_TEST(contrast_is_that_of_the_guidelines)
{
    const sl_srgb8 white = {255, 255, 255};
    const struct {
        sl_srgb8 one, two;
        double ratio;
    } pair[] = {{{0, 0, 0}, white, 21.0},
                {white, white, 1.0},
                {{0x76, 0x76, 0x76}, white, 4.542225},
                {{0x77, 0x77, 0x77}, white, 4.478089},
                {{0xff, 0, 0}, white, 3.998477},
                {{0, 0, 0xff}, white, 8.592471},
                {{0xff, 0xff, 0}, white, 1.073839},
                {{0x59, 0x59, 0x59}, white, 7.004729},
                {{0x1a, 0x1a, 0x1a}, {0xf5, 0xe6, 0xb3}, 13.966688}};
    for (size_t i = 0; i < sizeof pair / sizeof *pair; i++) {
        ck_assert_double_eq_tol(sl_contrast(pair[i].one, pair[i].two), pair[i].ratio, 1e-6);
        ck_assert_double_eq_tol(sl_contrast(pair[i].two, pair[i].one), pair[i].ratio, 1e-6);
    }
}
END_TEST

/* ---- other eyes --------------------------------------------------------------------------------- */

/* Machado, Oliveira & Fernandes, IEEE TVCG 15(6):1291 (2009), matrices for severity 1. A column is
 * what a primary looks like; rows sum to 1 within the rounding of six decimals. */
START_TEST(deficient_vision_has_the_published_matrices)
{
    const double published[3][3][3] = {
        {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
        {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
        {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};
    const sl_vision vision[3] = {SL_VISION_PROTAN, SL_VISION_DEUTAN, SL_VISION_TRITAN};
    for (int i = 0; i < 3; i++) {
        for (int axis = 0; axis < 3; axis++) {
            const sl_rgb primary = {axis == 0 ? 1.0 : 0.0, axis == 1 ? 1.0 : 0.0, axis == 2 ? 1.0 : 0.0};
            const sl_rgb seen = sl_rgb_seen(vision[i], primary);
            ck_assert_double_eq_tol(seen.r, published[i][0][axis], 1e-15);
            ck_assert_double_eq_tol(seen.g, published[i][1][axis], 1e-15);
            ck_assert_double_eq_tol(seen.b, published[i][2][axis], 1e-15);
        }
        const sl_rgb white = sl_rgb_seen(vision[i], (sl_rgb){1.0, 1.0, 1.0});
        ck_assert_double_eq_tol(white.r, 1.0, 1.6e-6);
        ck_assert_double_eq_tol(white.g, 1.0, 1.6e-6);
        ck_assert_double_eq_tol(white.b, 1.0, 1.6e-6);
    }
}
END_TEST

START_TEST(greys_look_the_same_to_all_and_a_grey_print_keeps_luminance)
{
    for (int vision = 0; vision < SL_VISION_COUNT; vision++) {
        for (int grey = 0; grey <= 255; grey++) {
            const sl_srgb8 srgb = {(uint8_t)grey, (uint8_t)grey, (uint8_t)grey};
            const sl_srgb8 seen = sl_srgb8_seen((sl_vision)vision, srgb);
            ck_assert(seen.r == grey && seen.g == grey && seen.b == grey);
        }
    }
    const sl_srgb8 green = {0, 128, 0};
    const sl_srgb8 print = sl_srgb8_seen(SL_VISION_GREY, green);
    ck_assert(print.r == print.g && print.g == print.b);
    ck_assert_double_eq_tol(sl_xyz_of_srgb8(print).Y, sl_xyz_of_srgb8(green).Y, 2e-3); /* half a step */
    const sl_srgb8 full = sl_srgb8_seen(SL_VISION_FULL, green);
    ck_assert(full.r == green.r && full.g == green.g && full.b == green.b);
}
END_TEST

START_SUITE("difference standards")
ADD_LOOP(ciede2000_gives_every_pair_of_its_test_table, 0, SHARMA_PAIRS)
ADD_LOOP(ciede2000_is_the_same_both_ways, 0, SHARMA_PAIRS)
ADD(ciede2000_takes_opposite_hues_for_half_a_turn_and_not_for_more)
ADD(the_plain_difference_is_the_distance_in_lab)
ADD(contrast_is_that_of_the_guidelines)
CASE("other eyes")
ADD(deficient_vision_has_the_published_matrices)
ADD(greys_look_the_same_to_all_and_a_grey_print_keeps_luminance)
END_SUITE
