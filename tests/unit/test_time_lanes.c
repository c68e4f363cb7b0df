/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lanes below the ruler, read back from the window's pixels: colours of the timeline, rinses, looks, and
 * what the gate hides.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "named.h"
#include "slowlift/scene.h"
#include "stage_made.h"
#include "suite.h"
#include "view/window/action.h"
#include "view/window/show.h"

static sl_scene *scene;
static sl_stage *stage;
static sl_lanes_look lanes;

static void redraw(void)
{
    sl_error error = {.code = SL_OK};
    sl_stage_resolve(stage);
    for (patience wait = {0};
         (sl_study_thread_busy(stage->solved.study_thread) || sl_solve_thread_busy(stage->solved.solver)) &&
         patient(&wait);) {
        sl_stage_resolve(stage);
    }
    stage->dirty = true;
    while (stage->dirty) {
        ck_assert_msg(sl_stage_draw(stage, &error), "%s", error.found);
    }
    lanes = sl_stage_lanes(stage, stage->read.meeting[0]);
}

static void opened(const char *name, const char *arm)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    sl_error error = {.code = SL_OK};
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s", name);
    scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    sl_aims_assume(scene);
    stage = stage_made(scene);
    stage->open.page = SL_PAGE_NONE;
    stage->chosen.arm = named_arm(scene, arm);
    redraw();
}

static void shut(void)
{
    sl_stage_free(stage);
    sl_scene_free(scene);
    SDL_Quit();
}

static sl_srgb8 pixel_at(int x, int y)
{
    const SDL_Surface *const sheet = stage->pen.sheet;
    sl_srgb8 c;
    SDL_GetRGB(((const uint32_t *)sheet->pixels)[y * (sheet->pitch / 4) + x], sheet->format, &c.r, &c.g,
               &c.b);
    return c;
}

static int off(sl_srgb8 one, sl_srgb8 two)
{
    return SDL_max(abs(one.r - two.r), SDL_max(abs(one.g - two.g), abs(one.b - two.b)));
}

/* A third of a minute lies between two moments that are read; the lane's own pixel covers a twentieth. So at
 * the fastest, some 20 steps of 255 in a minute at its begin, a pixel is less than 2 steps off, and rounding
 * adds one. */
START_TEST(a_lane_has_the_colours_of_its_zone_at_each_minute)
{
    opened("eight-arms.yaml", "powder + 6 %");
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const SDL_Rect lane = sl_lane_place(&lanes, arm);
        int compared = 0;
        for (int minute = 0; minute <= 60; minute++) {
            const int x = sl_ruler_x(lanes.area, scene->until_min, minute + 0.25);
            const bool water = sl_arm_on_hair(&scene->arms[arm], minute + 0.25).what == SL_LIES_WATER;
            const double stop = scene->arms[arm].contact_min + lanes.lane[arm].stop_min;
            if (water || fabs(stop - minute) < 1.0 ||
                minute < 2) { /* marked over; the moment that is shown */
                continue;
            }
            sl_cell cell;
            sl_timeline_at(stage->solved.before.timeline, arm, stage->chosen.zone,
                           sl_ruler_time(lanes.area, scene->until_min, x), sl_stage_dry(stage), &cell);
            const sl_srgb8 seen = pixel_at(x, lane.y + lane.h / 2);
            ck_assert_msg(off(seen, cell.colour.srgb) <= 3, "strip %d, minute %d: %d %d %d, not %d %d %d",
                          arm + 1, minute, seen.r, seen.g, seen.b, cell.colour.srgb.r, cell.colour.srgb.g,
                          cell.colour.srgb.b);
            compared++;
        }
        ck_assert_int_gt(compared, 40);
    }
    shut();
}
END_TEST

/* Ink on a third to two thirds of a rinse, and on nothing of the contact before it. */
START_TEST(a_rinse_is_striped_and_a_contact_is_not)
{
    opened("eight-arms.yaml", "powder + 6 %");
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_arm *const strip = &scene->arms[arm];
        for (int i = 0; i < strip->n_steps; i++) {
            const SDL_Rect lane = sl_lane_place(&lanes, arm);
            const double from = strip->contact_min + sl_arm_minutes_before(strip, i);
            const int left = sl_ruler_x(lanes.area, scene->until_min, from) + 1;
            const int right =
                sl_ruler_x(lanes.area, scene->until_min, from + sl_step_minutes(&strip->steps[i]));
            int ink = 0;
            for (int x = left; x < right; x++) {
                const sl_srgb8 c = pixel_at(x, lane.y + lane.h / 2);
                ink += off(c, stage->pen.theme->colour[SL_MARK_HOOK]) == 0 ||
                       off(c, stage->pen.theme->colour[SL_MARK_FIELD]) == 0;
            }
            if (strip->steps[i].kind == SL_STEP_RINSE) {
                ck_assert_msg(3 * ink > right - left && 3 * ink < 2 * (right - left), "strip %d: %d of %d",
                              arm + 1, ink, right - left);
            } else if (strip->steps[i].kind == SL_STEP_APPLY) {
                ck_assert_msg(ink <= 8, "strip %d: %d", arm + 1,
                              ink); /* its stop and the moment that is shown */
            }
        }
    }
    shut();
}
END_TEST

START_TEST(each_lane_has_its_number_beside_it)
{
    opened("eight-arms.yaml", "powder + 6 %");
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const SDL_Rect lane = sl_lane_place(&lanes, arm);
        int ink = 0;
        for (int y = lane.y; y < lane.y + lane.h; y++) {
            for (int x = lane.x - lanes.number_w; x < lane.x; x++) {
                ink += off(pixel_at(x, y), stage->pen.theme->colour[SL_GROUND_FRAME]) > 60;
            }
        }
        ck_assert_msg(ink > 8, "strip %d: %d pixels", arm + 1, ink);
    }
    shut();
}
END_TEST

/* The looks are the answer's own; each press goes to the next, and after the last says so. */
START_TEST(looks_are_marked_and_gone_to)
{
    opened("way-wide.yaml", "powder + 3 %");
    const sl_answer *const answer = &stage->solved.study.answer;
    const double contact = scene->arms[stage->chosen.arm].contact_min;
    ck_assert_int_gt(answer->n_checks, 1);
    const SDL_Rect lane = sl_lane_place(&lanes, stage->chosen.arm);
    for (int i = 0; i < answer->n_checks; i++) {
        const int x = sl_ruler_x(lanes.area, scene->until_min, contact + answer->check[i]);
        ck_assert_int_eq(off(pixel_at(x, lane.y + lane.h / 2), stage->pen.theme->colour[SL_MARK_FIELD]), 0);
    }
    for (int i = 0; i < answer->n_checks; i++) {
        sl_action_do(stage, SL_DO_LOOK_NEXT, 0);
        ck_assert_ptr_null(stage->hand.refused);
        ck_assert_double_eq(stage->chosen.now_min, contact + answer->check[i]);
    }
    sl_action_do(stage, SL_DO_LOOK_NEXT, 0);
    ck_assert_ptr_nonnull(stage->hand.refused);
    shut();
}
END_TEST

/* Whatever is shown and chosen: beside a form that is not clear no colour, no mark and no look over time. */
START_TEST(beside_a_form_lanes_tell_nothing_of_the_model)
{
    opened("way-wide.yaml", "powder + 3 %");
    stage->entered.of_person = true;
    for (int mode = 0; mode < 2; mode++) {
        stage->read.stale = stage->read.remeet = true;
        redraw();
        ck_assert(!stage->solved.study.answer.minutes);
        ck_assert_int_eq(lanes.n_looks, 0);
        for (int y = lanes.area.y; y < lanes.area.y + lanes.area.h; y++) {
            for (int x = lanes.area.x; x < lanes.area.x + lanes.area.w; x++) {
                const sl_srgb8 c = pixel_at(x, y);
                ck_assert(c.r == c.g && c.g == c.b);
            }
        }
        /* what lies on the hair when is the file's, and is shown as before */
        const SDL_Rect lane = sl_lane_place(&lanes, 1);
        const int x = sl_ruler_x(lanes.area, scene->until_min, scene->arms[1].contact_min + 20.0);
        ck_assert_int_eq(off(pixel_at(x, lane.y + lane.h / 2), stage->pen.theme->colour[SL_MARK_HOOK]), 0);
        const sl_srgb8 before = pixel_at(sl_ruler_x(lanes.area, scene->until_min, 69.0), lane.y + lane.h / 2);
        ck_assert_int_eq(off(before, stage->pen.theme->colour[SL_GROUND_FIELD]), 0);
        sl_action_do(stage, SL_DO_LOOK_NEXT, 0);
        ck_assert_ptr_nonnull(stage->hand.refused);
        sl_action_do(stage, SL_DO_MODE, 0);
    }
    shut();
}
END_TEST

/* The whole window at the same colour left, with every strip there by so many minutes later. */
static void drawn_later(double later_min, unsigned char *pixels, size_t bytes)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        stage->read.reading[0][arm].since_contact_min += later_min;
    }
    stage->dirty = true;
    ck_assert(sl_stage_draw(stage, NULL));
    memcpy(pixels, stage->pen.sheet->pixels, bytes);
}

START_TEST(beside_a_form_no_strip_says_when_it_was_there)
{
    for (int form = 0; form < 2; form++) {
        opened("way-wide.yaml", "powder + 3 %");
        sl_action_do(stage, SL_DO_MODE, 0);
        stage->entered.of_person = form == 1;
        redraw();
        ck_assert_int_eq(stage->chosen.mode, SL_SAME_COLOUR);
        const size_t bytes = (size_t)stage->pen.sheet->pitch * (size_t)stage->pen.sheet->h;
        unsigned char *const then = malloc(bytes), *const later = malloc(bytes);
        ck_assert(then != NULL && later != NULL);
        drawn_later(0.0, then, bytes);
        drawn_later(7.0, later, bytes);
        ck_assert_msg((memcmp(then, later, bytes) == 0) == (form == 1), "%d", form);
        free(then);
        free(later);
        shut();
    }
}
END_TEST

START_SUITE("lanes of time")
ADD(a_lane_has_the_colours_of_its_zone_at_each_minute)
ADD(a_rinse_is_striped_and_a_contact_is_not)
ADD(each_lane_has_its_number_beside_it)
ADD(looks_are_marked_and_gone_to)
ADD(beside_a_form_lanes_tell_nothing_of_the_model)
ADD(beside_a_form_no_strip_says_when_it_was_there)
END_SUITE
