/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/map.h"

#include <math.h>

#include "small_scene.h"
#include "suite.h"

enum { SIDE = 41 };
static double value[SIDE * SIDE];
static sl_contour_piece pieces[2 * SIDE * SIDE];

START_TEST(the_contour_of_a_plane_is_its_line)
{
    for (int i = 0; i < SIDE * SIDE; i++) {
        value[i] = 2.0 * (i % SIDE) + 3.0 * (i / SIDE);
    }
    const int n = sl_contour(value, SIDE, SIDE, 50.5, pieces);
    double length = 0.0;
    for (int i = 0; i < n; i++) {
        /* interpolation along a side is exact for a plane */
        ck_assert_double_eq_tol(2.0 * pieces[i].x0 + 3.0 * pieces[i].y0, 50.5, 1e-12);
        ck_assert_double_eq_tol(2.0 * pieces[i].x1 + 3.0 * pieces[i].y1, 50.5, 1e-12);
        length += hypot(pieces[i].x1 - pieces[i].x0, pieces[i].y1 - pieces[i].y0);
    }
    /* from (0, 50.5/3) to (50.5/2, 0) without a gap */
    ck_assert_double_eq_tol(length, hypot(50.5 / 3.0, 50.5 / 2.0), 1e-10);
}
END_TEST

START_TEST(the_contour_of_a_cone_is_a_circle)
{
    const double centre = 20.2;
    const double radius = 13.3;
    for (int i = 0; i < SIDE * SIDE; i++) {
        value[i] = hypot(i % SIDE - centre, i / SIDE - centre);
    }
    const int n = sl_contour(value, SIDE, SIDE, radius, pieces);
    double length = 0.0;
    for (int i = 0; i < n; i++) {
        /* straight interpolation of a curve of this radius over one step: at most 1/(8 r) */
        ck_assert_double_eq_tol(hypot(pieces[i].x0 - centre, pieces[i].y0 - centre), radius, 0.125 / radius);
        length += hypot(pieces[i].x1 - pieces[i].x0, pieces[i].y1 - pieces[i].y0);
    }
    ck_assert_double_eq_tol(length / (2.0 * acos(-1.0) * radius), 1.0, 2e-3);
    ck_assert_int_eq(sl_contour(value, SIDE, SIDE, 100.0, pieces), 0);
}
END_TEST

START_TEST(a_saddle_is_cut_in_two)
{
    const double saddle[4] = {1.0, 0.0, 0.0, 1.0}; /* high at (0,0) and (1,1) */
    ck_assert_int_eq(sl_contour(saddle, 2, 2, 0.4, pieces), 2);
    /* the middle, 0.5, is high: the low corner (1,0) is cut off alone */
    ck_assert_double_eq_tol(pieces[0].x0, 0.6, 1e-12);
    ck_assert_double_eq_tol(pieces[0].x1, 1.0, 1e-12);
    ck_assert_int_eq(sl_contour(saddle, 2, 2, 0.6, pieces), 2);
    ck_assert_double_eq_tol(pieces[0].x0, 0.0, 1e-12); /* the high corner (0,0) is */
    ck_assert_double_eq_tol(pieces[0].x1, 0.4, 1e-12);
}
END_TEST

START_TEST(a_point_of_the_map_is_the_timeline_s)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.4, .base_moved = {0.5, true}, .longest_min = {25.0, true}};
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    sl_map *map = NULL;
    const sl_axis strength = {SL_SETTING_STRENGTH, 1.0, 9.0, 5};
    const sl_axis dwell = {SL_SETTING_DWELL, 10.0, 40.0, 4};
    ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, strength, dwell, NULL, solver, NULL));
    for (int y = 0; y < 4; y++) {
        for (int x = 0; x < 5; x++) {
            small.mixes[MIX_POWDER_6].developer_pct = 1.0 + 2.0 * x;
            small.arms[ARM_6].steps[0].duration_min = 10.0 + 10.0 * y;
            ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
            sl_cell red, undyed;
            const double end = 10.0 + 10.0 * y + 3.0;
            sl_timeline_at(timeline, ARM_6, ZONE_RED, end, NULL, &red);
            sl_timeline_at(timeline, ARM_6, ZONE_UNDYED, end, NULL, &undyed);
            const int i = y * 5 + x;
            ck_assert_double_eq_tol(map->value[SL_MAP_LEFT][i], red.colour_left, 1e-12);
            ck_assert_double_eq_tol(map->value[SL_MAP_BASE][i], undyed.base_moved, 1e-12);
            ck_assert_double_eq_tol(map->value[SL_MAP_STRESS][i], undyed.cystine_lost, 1e-12);
            ck_assert_int_eq(map->goal[i], red.colour_left <= 0.4);
            ck_assert_int_eq(map->inside[i], undyed.base_moved <= 0.5 && 10 + 10 * y <= 25);
        }
    }
    const sl_axis too_far = {SL_SETTING_STRENGTH, 1.0, 14.0, 5};
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_map_make(&map, &small.scene, ARM_6, -1, too_far, dwell, NULL, solver, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    sl_map_free(map);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_TEST(the_label_on_the_map_counts_from_where_the_mix_says)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.4};
    small.mixes[MIX_POWDER_6].label_max_min = 20.0;
    small.arms[ARM_6].steps[0].mix_age_min = 5.0;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_map *map = NULL;
    const sl_axis strength = {SL_SETTING_STRENGTH, 3.0, 6.0, 2};
    const sl_axis dwell = {SL_SETTING_DWELL, 14.0, 22.0, 3};
    for (int from_contact = 0; from_contact < 2; from_contact++) {
        small.mixes[MIX_POWDER_6].label_from_contact = from_contact == 1;
        ck_assert(sl_map_make(&map, &small.scene, ARM_6, -1, strength, dwell, NULL, solver, NULL));
        for (int y = 0; y < 3; y++) { /* 14, 18 and 22 min against 15 or 20 */
            ck_assert_int_eq(map->inside[2 * y], 14 + 4 * y <= (from_contact ? 20 : 15));
        }
    }
    sl_map_free(map);
    sl_solver_free(solver);
}
END_TEST

START_SUITE("map")
ADD(the_contour_of_a_plane_is_its_line)
ADD(the_contour_of_a_cone_is_a_circle)
ADD(a_saddle_is_cut_in_two)
ADD(a_point_of_the_map_is_the_timeline_s)
ADD(the_label_on_the_map_counts_from_where_the_mix_says)
END_SUITE
