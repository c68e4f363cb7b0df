/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the test in the window, without a display: places and the beep.
 */
#include <math.h>
#include <stdlib.h>

#include "suite.h"
#include "view/day/day_place.h"
#include "view/day/day_sound.h"
#include "view/lesson/lesson_place.h"

enum { MOST_AREAS = 8 + SL_DAY_BUTTONS };
static const int sizes[][2] = {{900, 600},   {1024, 768},  {1280, 800}, {1366, 768},
                               {1920, 1080}, {2560, 1600}, {3840, 2160}};
enum { SIZES = sizeof sizes / sizeof sizes[0] };

/* Heights as the typeface has them: a line takes a quarter more than its size. */
static sl_day_places places_of(int width, int height, double scale)
{
    const double unit = sl_step_unit(width, height, scale);
    const int line = (int)(14.5 * 1.25 * unit);
    const int head = (int)(21.0 * 1.25 * unit);
    const int note = (int)(12.5 * 1.25 * unit);
    const int large = (int)(34.0 * 1.25 * unit);
    const sl_day_wish_place wish = {.width = width,
                                    .height = height,
                                    .scale = scale,
                                    .line = line,
                                    .large = large,
                                    .head_h = (scale > SL_DAY_TIGHT ? line : head) + line,
                                    .alarm_h = (scale > SL_DAY_TIGHT ? head : large) + line / 3,
                                    .foot_h = 2 * line + (scale > 1.4 ? 2 : 1) * note};
    return sl_day_place(&wish);
}

static int areas_of(const sl_day_places *p, SDL_Rect area[MOST_AREAS])
{
    int n = 0;
    area[n++] = p->head;
    area[n++] = p->alarm;
    area[n++] = p->next;
    area[n++] = p->list;
    area[n++] = p->stop_all;
    area[n++] = p->stop_one;
    area[n++] = p->model;
    area[n++] = p->foot;
    for (int i = 0; i < SL_DAY_BUTTONS; i++) {
        area[n++] = p->button[i];
    }
    return n;
}

START_TEST(nothing_overlaps_and_all_lies_inside)
{
    for (int i = 0; i < SIZES; i++) {
        const sl_day_places p = places_of(sizes[i][0], sizes[i][1], 1.0);
        const SDL_Rect window = {0, 0, sizes[i][0], sizes[i][1]};
        SDL_Rect area[MOST_AREAS];
        const int n = areas_of(&p, area);
        ck_assert(p.fits);
        for (int a = 0; a < n; a++) {
            SDL_Rect common;
            ck_assert(SDL_IntersectRect(&area[a], &window, &common) && SDL_RectEquals(&area[a], &common));
            for (int b = a + 1; b < n; b++) {
                ck_assert_msg(!SDL_HasIntersection(&area[a], &area[b]), "%d x %d: %d and %d", sizes[i][0],
                              sizes[i][1], a, b);
            }
        }
    }
}
END_TEST

START_TEST(text_of_200_per_cent_has_room_from_1280_x_800_upward)
{
    for (int i = 2; i < SIZES; i++) {
        double scale = 2.0;
        while (scale > 1.0 && !places_of(sizes[i][0], sizes[i][1], scale).fits) {
            scale -= 0.1;
        }
        ck_assert_msg(scale > 1.95, "%d x %d: %.1f", sizes[i][0], sizes[i][1], scale);
    }
}
END_TEST

/* 64 pixels for wet gloves; 20 mm at 96 dpi are 75.6 pixels. */
START_TEST(what_is_pressed_is_large_enough_for_gloves)
{
    for (int i = 0; i < SIZES; i++) {
        for (double scale = 1.0; scale < 2.05; scale += 0.25) {
            const sl_day_places p = places_of(sizes[i][0], sizes[i][1], scale);
            const double stop = 20.0 / 25.4 * 96.0;
            for (int b = 0; b < SL_DAY_BUTTONS; b++) {
                ck_assert(p.button[b].w >= 64 && p.button[b].h >= 64);
            }
            ck_assert(p.stop_all.w >= stop && p.stop_all.h >= stop);
            ck_assert(p.stop_one.w >= stop && p.stop_one.h >= stop);
        }
    }
}
END_TEST

START_TEST(places_of_a_grid_stand_apart)
{
    const SDL_Rect area = {10, 20, 880, 208};
    for (int a = 0; a < 9; a++) {
        const SDL_Rect one = sl_day_grid(area, 3, 3, a);
        ck_assert(one.w >= SL_DAY_TARGET_PX && one.h >= SL_DAY_TARGET_PX);
        for (int b = a + 1; b < 9; b++) {
            const SDL_Rect other = sl_day_grid(area, 3, 3, b);
            ck_assert(!SDL_HasIntersection(&one, &other));
        }
    }
}
END_TEST

/* Goertzel's sum at one frequency, as a share of the wave's power; by hand, no library. */
static double share_at(const int16_t *wave, int n, double hertz)
{
    double re = 0.0;
    double im = 0.0;
    double power = 0.0;
    for (int i = 0; i < n; i++) {
        const double angle = 2.0 * 3.14159265358979323846 * hertz * i / SL_SOUND_RATE;
        re += wave[i] * cos(angle);
        im += wave[i] * sin(angle);
        power += (double)wave[i] * wave[i];
    }
    return 2.0 * (re * re + im * im) / (n * power);
}

START_TEST(a_beep_is_a_tone_that_begins_and_ends_without_a_click)
{
    int16_t wave[SL_SOUND_RATE];
    const int n = sl_day_sound_wave(wave, SL_SOUND_RATE);
    const int beep = (int)(0.16 * SL_SOUND_RATE);
    int loudest = 0;
    for (int i = 0; i < n; i++) {
        loudest = abs(wave[i]) > loudest ? abs(wave[i]) : loudest;
    }
    ck_assert(n > beep);
    ck_assert(loudest > 10000 && loudest < 32767);
    ck_assert(abs(wave[0]) < 50 && abs(wave[beep - 1]) < 1000 && wave[n - 1] == 0);
    /* 0.7 and 0.3 of the amplitude: 0.84 and 0.16 of the power. */
    ck_assert_double_gt(share_at(wave, beep, 880.0), 0.7);
    ck_assert_double_lt(share_at(wave, beep, 1200.0), 0.05);
    ck_assert_int_eq(sl_day_sound_wave(wave, 10), 10);
}
END_TEST

START_SUITE("the day in the window")
ADD(nothing_overlaps_and_all_lies_inside)
ADD(text_of_200_per_cent_has_room_from_1280_x_800_upward)
ADD(what_is_pressed_is_large_enough_for_gloves)
ADD(places_of_a_grid_stand_apart)
ADD(a_beep_is_a_tone_that_begins_and_ends_without_a_click)
END_SUITE
