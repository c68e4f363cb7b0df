/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fibres shade a colour but do not change it; drawn into a picture without a window.
 */
#include <math.h>
#include <string.h>

#include "suite.h"
#include "view/strips/strip.h"

enum { WIDTH = 110, HEIGHT = 320, ZONES = 8, GROUND = 0x81 };

static SDL_Surface *sheet_of(int width, int height)
{
    SDL_Surface *sheet = SDL_CreateRGBSurfaceWithFormat(0, width, height, 32, SDL_PIXELFORMAT_RGB888);
    ck_assert_ptr_nonnull(sheet);
    SDL_FillRect(sheet, NULL, SDL_MapRGB(sheet->format, GROUND, GROUND, GROUND));
    return sheet;
}

static void draw(SDL_Surface *sheet, int width, int height, const sl_srgb8 *colour, int n_zones,
                 uint32_t seed)
{
    sl_light_table table;
    sl_strip *strip = NULL;
    sl_light_table_fill(&table);
    ck_assert(sl_strip_lay(&strip, width, height, n_zones, seed, NULL));
    sl_strip_look look;
    sl_strip_look_plain(&look, colour, n_zones);
    sl_strip_show(strip, &table, sheet, 0, 0, 0, width, &look);
    sl_strip_free(strip);
}

static const uint8_t *pixel_at(const SDL_Surface *sheet, int x, int y)
{
    return (const uint8_t *)sheet->pixels + (size_t)y * (size_t)sheet->pitch + 4 * (size_t)x;
}

/* Mean linear light over the middle of a zone: the middle half of its width and a third of
 * its height, where no border reaches and the ground does not show. */
static sl_rgb mean_of(const SDL_Surface *sheet, int width, int height, int n_zones, int zone)
{
    const int h = height / n_zones;
    sl_rgb sum = {0.0, 0.0, 0.0};
    int n = 0;
    for (int y = zone * h + h / 3; y < zone * h + 2 * h / 3; y++) {
        for (int x = width / 4; x < 3 * width / 4; x++) {
            const uint8_t *p = pixel_at(sheet, x, y);
            sum.r += sl_srgb_decode(p[2] / 255.0);
            sum.g += sl_srgb_decode(p[1] / 255.0);
            sum.b += sl_srgb_decode(p[0] / 255.0);
            n++;
        }
    }
    return (sl_rgb){sum.r / n, sum.g / n, sum.b / n};
}

static double encoded_255(double linear)
{
    return 255.0 * sl_srgb_encode(linear);
}

/* The gains of a whole zone have mean 1; its middle part is a sample of them, about 40
 * fibres wide with a spread of a tenth: 0.1/sqrt(40) = 1.6 % of light, which is 1.5 steps
 * of 255 at 200 (exponent 1/2.2). Three times that and half a step of rounding: 5. */
START_TEST(the_middle_of_a_zone_has_the_colour_that_the_optics_gave)
{
    const sl_srgb8 colour[ZONES] = {{60, 45, 40},   {200, 80, 75},  {210, 135, 55}, {200, 160, 75},
                                    {50, 130, 100}, {50, 100, 125}, {150, 65, 105}, {210, 165, 120}};
    for (uint32_t seed = 1; seed <= 8; seed++) {
        SDL_Surface *sheet = sheet_of(WIDTH, HEIGHT);
        draw(sheet, WIDTH, HEIGHT, colour, ZONES, seed);
        for (int zone = 0; zone < ZONES; zone++) {
            const sl_rgb mean = mean_of(sheet, WIDTH, HEIGHT, ZONES, zone);
            ck_assert_double_eq_tol(encoded_255(mean.r), colour[zone].r, 5.0);
            ck_assert_double_eq_tol(encoded_255(mean.g), colour[zone].g, 5.0);
            ck_assert_double_eq_tol(encoded_255(mean.b), colour[zone].b, 5.0);
        }
        SDL_FreeSurface(sheet);
    }
}
END_TEST

START_TEST(hair_is_drawn_as_fibres_and_not_as_a_flat_field)
{
    const sl_srgb8 colour[1] = {{160, 120, 90}};
    SDL_Surface *sheet = sheet_of(WIDTH, HEIGHT);
    draw(sheet, WIDTH, HEIGHT, colour, 1, 3);
    double across = 0.0, along = 0.0;
    for (int i = 20; i < 90; i++) {
        across += abs(pixel_at(sheet, i, 160)[1] - pixel_at(sheet, i + 1, 160)[1]);
        along += abs(pixel_at(sheet, 55, 100 + i)[1] - pixel_at(sheet, 55, 101 + i)[1]);
    }
    ck_assert_double_gt(across, 70.0);        /* more than one step at each pixel across */
    ck_assert_double_gt(across, 2.0 * along); /* fibres run from root to tip */
    SDL_FreeSurface(sheet);
}
END_TEST

START_TEST(grey_hair_stays_grey)
{
    const sl_srgb8 colour[2] = {{120, 120, 120}, {40, 40, 40}};
    SDL_Surface *sheet = sheet_of(WIDTH, HEIGHT);
    draw(sheet, WIDTH, HEIGHT, colour, 2, 5);
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            const uint8_t *p = pixel_at(sheet, x, y);
            ck_assert(p[0] == p[1] && p[1] == p[2]);
        }
    }
    SDL_FreeSurface(sheet);
}
END_TEST

START_TEST(the_same_seed_draws_the_same_strip_and_another_one_does_not)
{
    const sl_srgb8 colour[2] = {{200, 80, 75}, {50, 100, 125}};
    SDL_Surface *sheets[3] = {sheet_of(WIDTH, HEIGHT), sheet_of(WIDTH, HEIGHT), sheet_of(WIDTH, HEIGHT)};
    draw(sheets[0], WIDTH, HEIGHT, colour, 2, 7);
    draw(sheets[1], WIDTH, HEIGHT, colour, 2, 7);
    draw(sheets[2], WIDTH, HEIGHT, colour, 2, 8);
    const size_t bytes = (size_t)sheets[0]->pitch * HEIGHT;
    ck_assert_mem_eq(sheets[0]->pixels, sheets[1]->pixels, bytes);
    ck_assert_mem_ne(sheets[0]->pixels, sheets[2]->pixels, bytes);
    for (int i = 0; i < 3; i++) {
        SDL_FreeSurface(sheets[i]);
    }
}
END_TEST

START_TEST(nothing_is_drawn_outside_the_clip_or_the_columns_asked_for)
{
    const sl_srgb8 colour[1] = {{250, 10, 10}};
    SDL_Surface *sheet = sheet_of(WIDTH, HEIGHT);
    sl_light_table table;
    sl_strip *strip = NULL;
    sl_light_table_fill(&table);
    ck_assert(sl_strip_lay(&strip, WIDTH, HEIGHT, 1, 1, NULL));
    const SDL_Rect clip = {0, 50, WIDTH, 100};
    SDL_SetClipRect(sheet, &clip);
    sl_strip_look look;
    sl_strip_look_plain(&look, colour, 1);
    sl_strip_show(strip, &table, sheet, 0, 0, 0, WIDTH / 2, &look);
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            const bool inside = y >= 50 && y < 150 && x < WIDTH / 2;
            ck_assert(inside || pixel_at(sheet, x, y)[2] == GROUND);
        }
    }
    ck_assert_int_ne(pixel_at(sheet, WIDTH / 4, 100)[2], GROUND);
    sl_strip_free(strip);
    SDL_FreeSurface(sheet);
}
END_TEST

START_SUITE("strip")
ADD(the_middle_of_a_zone_has_the_colour_that_the_optics_gave)
ADD(hair_is_drawn_as_fibres_and_not_as_a_flat_field)
ADD(grey_hair_stays_grey)
ADD(the_same_seed_draws_the_same_strip_and_another_one_does_not)
ADD(nothing_is_drawn_outside_the_clip_or_the_columns_asked_for)
END_SUITE
