/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips as they hang in the window, read back from its pixels: the lock of minute 0 at their edge, and what
 * stands before those that never come to the share at which all are compared.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "named.h"
#include "slowlift/scene.h"
#include "stage_made.h"
#include "suite.h"
#include "view/window/action.h"

static sl_scene *scene;
static sl_stage *stage;

static void redraw(void)
{
    sl_error error = {.code = SL_OK};
    sl_stage_resolve(stage);
    stage->dirty = true;
    while (stage->dirty) { /* fibres are laid over several frames */
        ck_assert_msg(sl_stage_draw(stage, &error), "%s", error.found);
    }
}

static void opened(void)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error = {.code = SL_OK};
    scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    sl_aims_assume(scene);
    stage = stage_made(scene);
    stage->open.page = SL_PAGE_NONE;
    stage->chosen.zone = named_zone(scene, "violet");
    redraw();
}

static void shut(void)
{
    sl_stage_free(stage);
    sl_scene_free(scene);
    SDL_Quit();
}

static uint32_t *copy_of(SDL_Rect area)
{
    const SDL_Surface *const sheet = stage->pen.sheet;
    uint32_t *const copy = sl_new((size_t)area.w * (size_t)area.h, sizeof *copy, "a test", NULL);
    for (int y = 0; y < area.h; y++) {
        const uint32_t *const row =
            (const uint32_t *)sheet->pixels + (area.y + y) * (sheet->pitch / 4) + area.x;
        memcpy(copy + (size_t)y * (size_t)area.w, row, (size_t)area.w * sizeof *copy);
    }
    return copy;
}

static int differing(const uint32_t *one, const uint32_t *two, SDL_Rect area)
{
    int n = 0;
    for (int i = 0; i < area.w * area.h; i++) {
        n += one[i] != two[i];
    }
    return n;
}

START_TEST(a_lock_of_minute_0_hangs_at_each_strips_edge_and_stays)
{
    opened();
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const SDL_Rect lock = stage->laid.layout.lock[arm], strip = stage->laid.layout.strip[arm];
        const SDL_Rect middle = {strip.x + (strip.w - lock.w) / 2, strip.y, lock.w, strip.h};
        sl_stage_go(stage, 0.0);
        redraw();
        uint32_t *const hair = copy_of(middle), *const then = copy_of(lock);
        /* Its tips hang below the clip as the strip's do. */
        ck_assert_int_lt(differing(hair, then, lock), lock.w * 20);
        sl_stage_go(stage, scene->until_min - 1.0); /* at the very end a notice moves all */
        redraw();
        uint32_t *const end = copy_of(lock), *const now = copy_of(middle);
        ck_assert_int_eq(differing(then, end, lock), 0);
        const bool treated = sl_arm_application(&scene->arms[arm]) != NULL;
        ck_assert_int_eq(differing(hair, now, middle) > lock.w * lock.h / 4, treated);
        sl_free(hair);
        sl_free(then);
        sl_free(end);
        sl_free(now);
    }
    shut();
}
END_TEST

/* Share of a strip's pixels that are the field's own grey. */
static double grey_share(int arm)
{
    const SDL_Rect strip = stage->laid.layout.strip[arm];
    const SDL_Rect middle = {strip.x + strip.w / 4, strip.y + 20, strip.w / 2, strip.h - 60};
    const sl_srgb8 field = stage->pen.theme->colour[SL_GROUND_FIELD];
    const uint32_t grey = SDL_MapRGB(stage->pen.sheet->format, field.r, field.g, field.b);
    uint32_t *const seen = copy_of(middle);
    int n = 0;
    for (int i = 0; i < middle.w * middle.h; i++) {
        n += seen[i] == grey;
    }
    sl_free(seen);
    return (double)n / (middle.w * middle.h);
}

START_TEST(what_never_comes_to_the_share_is_veiled_and_nothing_else)
{
    opened();
    int veiled = 0;
    for (int mode = 0; mode < 2; mode++) {
        for (int arm = 0; arm < scene->n_arms; arm++) {
            const bool never = mode == 1 && !stage->read.meeting[0][arm].reached;
            const double grey = grey_share(arm);
            ck_assert_msg(never ? grey > 0.4 && grey < 0.7 : grey < 0.02, "strip %d: %.2f", arm + 1, grey);
            veiled += never;
        }
        sl_action_do(stage, SL_DO_MODE, 0);
        redraw();
    }
    ck_assert_int_ge(veiled, 3);
    ck_assert_int_le(veiled, 5);
    shut();
}
END_TEST

/* The most that a channel of a pixel of hair changes, in steps of 255. */
static int largest_step(const uint32_t *one, const uint32_t *two, SDL_Rect area)
{
    int most = 0;
    for (int i = 0; i < area.w * area.h; i++) {
        for (int shift = 0; shift < 24 && one[i] != two[i]; shift += 8) {
            most = SDL_max(most, abs((int)(one[i] >> shift & 255U) - (int)(two[i] >> shift & 255U)));
        }
    }
    return most;
}

/* At the usual pace, 60 frames a second; the minutes in which mixes are put on and work fastest, and those in
 * which they are rinsed. */
START_TEST(while_it_plays_no_pixel_of_hair_moves_by_more_than_a_step)
{
    static const double from_min[] = {0.0, 30.0}, to_min[] = {9.0, 38.0};
    opened();
    const SDL_Rect field = stage->laid.layout.field;
    const SDL_Rect hair = {field.x, field.y + 10, field.w, field.h - 10}; /* below the clips */
    const double frame_min = stage->chosen.speed / 60.0;
    stage->chosen.playing = true;
    long redrawn = 0, frames = 0;
    for (int i = 0; i < 2; i++) {
        sl_stage_go(stage, from_min[i]);
        redraw();
        uint32_t *before = copy_of(hair);
        for (double minute = from_min[i] + frame_min; minute < to_min[i]; minute += frame_min) {
            sl_stage_go(stage, minute);
            redraw();
            uint32_t *const now = copy_of(hair);
            const int step = largest_step(before, now, hair);
            ck_assert_msg(step <= 1, "minute %.3f: %d steps", minute, step);
            sl_free(before);
            before = now;
            redrawn += stage->drawn_hair;
            frames++;
        }
        sl_free(before);
    }
    /* Only what moved: less than a third of all hair a frame. */
    const SDL_Rect strip = stage->laid.layout.strip[0];
    ck_assert_int_lt(redrawn / frames, (long)scene->n_arms * strip.w * strip.h / 3);
    shut();
}
END_TEST

/* Between two solved moments, and in a still picture solved for itself: nobody sees where one ends. A zone's
 * colour is rounded to a byte at each of them, half a step, and may be .3 behind: less than 2 steps. */
START_TEST(a_picture_that_stops_is_the_one_that_moved)
{
    opened();
    const SDL_Rect hair = stage->laid.layout.strip[6];
    for (double minute = 5.1; minute < 30.0; minute += 3.3) {
        stage->chosen.playing = true;
        sl_stage_go(stage, minute);
        redraw();
        uint32_t *const moving = copy_of(hair);
        stage->chosen.playing = false;
        sl_stage_go(stage, minute);
        redraw();
        uint32_t *const still = copy_of(hair);
        ck_assert_int_le(largest_step(moving, still, hair), 2);
        sl_free(moving);
        sl_free(still);
    }
    shut();
}
END_TEST

/* As reduced motion has it: whole minutes, as many as at the usual pace, and nothing drawn between them. */
START_TEST(in_steps_it_goes_from_minute_to_minute)
{
    opened();
    stage->chosen.steps = stage->chosen.playing = true;
    sl_stage_go(stage, 5.0);
    redraw();
    int steps = 0;
    for (int i = 0; i < 40; i++) { /* a tenth of a second each: 4 seconds, 8 minutes */
        const double before = stage->chosen.now_min;
        stage->last_tick = SDL_GetTicks64() - 200U; /* as long a tick as counts */
        sl_stage_advance(stage);
        ck_assert_double_eq(stage->chosen.now_min, (double)(int)stage->chosen.now_min);
        ck_assert(stage->dirty == (stage->chosen.now_min > before));
        steps += stage->chosen.now_min > before;
        redraw();
    }
    ck_assert_int_ge(steps, 7);
    ck_assert_int_le(steps, 8);
    shut();
}
END_TEST

START_SUITE("strips as they hang")
ADD(a_lock_of_minute_0_hangs_at_each_strips_edge_and_stays)
ADD(while_it_plays_no_pixel_of_hair_moves_by_more_than_a_step)
ADD(in_steps_it_goes_from_minute_to_minute)
ADD(a_picture_that_stops_is_the_one_that_moved)
ADD(what_never_comes_to_the_share_is_veiled_and_nothing_else)
END_SUITE
