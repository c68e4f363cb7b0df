/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hair as lines shades a colour and does not change it; drawn into pixels to be measured.
 */
#include "paper/draw/page.h"
#include "suite.h"

enum { WIDTH = 400, HEIGHT = 2400, ZONES = 6 };

static cairo_surface_t *drawn(const sl_strip_look *look, int n_zones, uint32_t seed)
{
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
    cairo_t *cairo = cairo_create(surface);
    sl_hair_lines(cairo, 0.0, 0.0, WIDTH, HEIGHT, n_zones, seed, look);
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
    return surface;
}

static sl_srgb8 pixel_at(cairo_surface_t *surface, int x, int y)
{
    const unsigned char *row =
        cairo_image_surface_get_data(surface) + (size_t)y * (size_t)cairo_image_surface_get_stride(surface);
    const uint32_t pixel = ((const uint32_t *)(const void *)row)[x];
    return (sl_srgb8){(uint8_t)(pixel >> 16 & 255U), (uint8_t)(pixel >> 8 & 255U), (uint8_t)(pixel & 255U)};
}

/* Over the middle half of a zone each way, where no neighbour reaches, in linear light. */
static sl_lab mean_of(cairo_surface_t *surface, int n_zones, int zone)
{
    const int high = HEIGHT / n_zones;
    sl_xyz sum = {0.0, 0.0, 0.0};
    int n = 0;
    for (int y = zone * high + high / 4; y < zone * high + 3 * high / 4; y += 3) {
        for (int x = WIDTH / 6; x < WIDTH - WIDTH / 6; x++) {
            const sl_xyz one = sl_xyz_of_srgb8(pixel_at(surface, x, y));
            sum = (sl_xyz){sum.X + one.X, sum.Y + one.Y, sum.Z + one.Z};
            n++;
        }
    }
    return sl_lab_of_xyz((sl_xyz){sum.X / n, sum.Y / n, sum.Z / n});
}

/* What is read are some 38 lines, each with a light of its own that spreads by a quarter: 0.25 /
 * sqrt(38) = 4 % of light, which is (75 + 16) / 3 x 0.04 = 1.2 in L* at L* 75. Two and a half times that for
 * the worst of 48 readings: 3, and CIEDE2000 counts lightness there at 1 / 1.3. Pixels are held closer
 * (test_strip.c); the flat plates of a sheet are exact. */
START_TEST(lines_of_hair_have_the_colour_of_their_zone_on_average)
{
    const sl_srgb8 colour[ZONES] = {{60, 45, 40},  {200, 60, 70}, {215, 140, 50},
                                    {10, 150, 95}, {15, 75, 130}, {215, 180, 125}};
    for (uint32_t seed = 1; seed <= 8; seed++) {
        sl_strip_look look;
        sl_strip_look_plain(&look, colour, ZONES);
        cairo_surface_t *surface = drawn(&look, ZONES, seed);
        for (int zone = 0; zone < ZONES; zone++) {
            const sl_lab own = sl_lab_of_xyz(sl_xyz_of_srgb8(colour[zone]));
            ck_assert_double_lt(sl_delta_e_2000(mean_of(surface, ZONES, zone), own), 3.0);
        }
        cairo_surface_destroy(surface);
    }
}
END_TEST

START_TEST(lines_of_grey_hair_stay_grey)
{
    const sl_srgb8 colour[2] = {{150, 150, 150}, {40, 40, 40}};
    sl_strip_look look;
    sl_strip_look_plain(&look, colour, 2);
    cairo_surface_t *surface = drawn(&look, 2, 3);
    for (int y = 0; y < HEIGHT; y += 7) {
        for (int x = 0; x < WIDTH; x++) {
            const sl_srgb8 seen = pixel_at(surface, x, y);
            ck_assert(seen.r == seen.g && seen.g == seen.b);
        }
    }
    cairo_surface_destroy(surface);
}
END_TEST

START_TEST(a_mix_on_lines_hides_its_share_of_the_hair)
{
    const sl_srgb8 colour[1] = {{120, 90, 60}};
    const sl_mix mix = {.veil_lab = {85.0, 0.0, 0.0}, .veil_cover = 0.5};
    sl_strip_look look;
    sl_strip_look_plain(&look, colour, 1);
    sl_strip_look_veil(&look, &mix, SL_VISION_FULL);
    cairo_surface_t *surface = drawn(&look, 1, 3);
    const double bare = sl_xyz_of_srgb8(colour[0]).Y, paste = sl_xyz_of_srgb8(look.veil).Y;
    const double seen = sl_xyz_of_lab(mean_of(surface, 1, 0)).Y;
    ck_assert_double_eq_tol((seen - bare) / (paste - bare), 0.5, 0.05); /* 4 % of light, as above */
    cairo_surface_destroy(surface);
}
END_TEST

START_SUITE("paper")
ADD(lines_of_hair_have_the_colour_of_their_zone_on_average)
ADD(lines_of_grey_hair_stay_grey)
ADD(a_mix_on_lines_hides_its_share_of_the_hair)
END_SUITE
