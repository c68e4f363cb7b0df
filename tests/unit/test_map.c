/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/map.h"

#include <math.h>

#include "small_scene.h"
#include "suite.h"
#include <stdlib.h>

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
    small.scene.until_min = 80.0;
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
            const double end = 10.0 + 10.0 * y + 3.0 + log(400.0) / 0.2; /* washed, and dry */
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

/* The saddle whose corners, round from the lower left, are these turned by so many. */
static int saddle_pieces(const double round[4], int turn, double level, double corner[4])
{
    static const int at[4] = {0, 1, 3, 2}; /* in rows: lower left, lower right, upper right, upper left */
    double rows[4];
    for (int c = 0; c < 4; c++) {
        corner[c] = round[(c + turn) % 4];
        rows[at[c]] = corner[c];
    }
    return sl_contour(rows, 2, 2, level, pieces);
}

/* The bilinear of four corners (closed form), counted round from the lower left. */
static double bilinear(const double c[4], double x, double y)
{
    return c[0] * (1.0 - x) * (1.0 - y) + c[1] * x * (1.0 - y) + c[2] * x * y + c[3] * (1.0 - x) * y;
}

/* Of a saddle each piece cuts one corner off, never one that lies on the middle's side of the level; its ends
 * have the level. */
START_TEST(a_saddle_keeps_the_corners_of_its_middle_s_side_together)
{
    const double round[4] = {1.0, 0.1, 0.8, 0.2}, even[4] = {1.0, 0.0, 1.0, 0.0}; /* middles 0.525, 0.5 */
    const double levels[] = {0.3, 0.5, 0.6, 0.75};
    for (int turn = 0; turn < 4; turn++) {
        for (int i = 0; i < 8; i++) {
            double c[4];
            const double level = levels[i / 2];
            ck_assert_int_eq(saddle_pieces(i % 2 ? even : round, turn, level, c), 2);
            const bool high = bilinear(c, 0.5, 0.5) >= level;
            int cut[2];
            for (int p = 0; p < 2; p++) {
                const double x[2] = {pieces[p].x0, pieces[p].x1}, y[2] = {pieces[p].y0, pieces[p].y1};
                const int upright = x[0] > 0.0 && x[0] < 1.0 ? 1 : 0; /* the end on the left or right side */
                ck_assert(x[upright] <= 0.0 || x[upright] >= 1.0);
                ck_assert(y[1 - upright] <= 0.0 || y[1 - upright] >= 1.0);
                for (int end = 0; end < 2; end++) {
                    ck_assert_double_eq_tol(bilinear(c, x[end], y[end]), level, 1e-12);
                }
                const int right = x[upright] > 0.5, upper = y[1 - upright] > 0.5;
                cut[p] = upper ? 3 - right : right;
                ck_assert_int_ne(c[cut[p]] >= level, high);
            }
            ck_assert_int_eq(abs(cut[0] - cut[1]), 2); /* both of them, opposite each other */
        }
    }
}
END_TEST

/* Each of the sixteen ways in which four corners lie on two sides of a level: as many pieces as pairs of
 * sides are crossed; a corner at the level itself counts as above it. */
START_TEST(a_square_is_cut_as_often_as_its_sides_are_crossed)
{
    for (int high = 0; high < 16; high++) {
        double corner[4], rows[4];
        static const int at[4] = {0, 1, 3, 2};
        int crossed = 0;
        for (int c = 0; c < 4; c++) {
            corner[c] = (high >> c & 1) != 0 ? 2.0 : 1.0;
            rows[at[c]] = corner[c];
            crossed += (high >> c & 1) != (high >> (c + 1) % 4 & 1);
        }
        ck_assert_int_eq(sl_contour(rows, 2, 2, 1.25, pieces), crossed / 2);
        ck_assert_int_eq(sl_contour(rows, 2, 2, 2.0, pieces), crossed / 2);
        ck_assert_int_eq(sl_contour(rows, 2, 2, 1.0, pieces), 0);
        ck_assert_int_eq(sl_contour(rows, 2, 2, 2.5, pieces), 0);
    }
}
END_TEST

/* One cell alone, in the last row and column of a grid that is not square, is where it lies. */
START_TEST(a_contour_lies_where_its_square_lies)
{
    for (int cell = 0; cell < 6; cell++) { /* 3 by 2 squares of 4 by 3 points */
        const int x = cell % 3, y = cell / 3;
        for (int i = 0; i < 12; i++) {
            value[i] = 0.0;
        }
        value[y * 4 + x] = 1.0; /* cut at three tenths of the way from the others */
        const int n = sl_contour(value, 4, 3, 0.7, pieces);
        ck_assert_int_eq(n, (x > 0 ? 2 : 1) * (y > 0 ? 2 : 1));
        for (int i = 0; i < n; i++) {
            ck_assert_double_eq_tol(fabs(pieces[i].x0 - x) + fabs(pieces[i].y0 - y), 0.3, 1e-12);
            ck_assert_double_eq_tol(fabs(pieces[i].x1 - x) + fabs(pieces[i].y1 - y), 0.3, 1e-12);
        }
    }
}
END_TEST

START_TEST(an_axis_goes_from_its_first_value_to_its_last_in_equal_steps)
{
    const sl_axis axis = {SL_SETTING_DWELL, 10.0, 4.0, 7};
    for (int i = 0; i < 7; i++) {
        ck_assert_double_eq(sl_axis_value(&axis, i), 10.0 - i);
    }
}
END_TEST

/* 30 degrees count as a head (docs/science.md); a room of 24 and six more are just that, at one end of either
 * axis, the first or the last. What lies beyond the map is nobody's. */
START_TEST(a_map_is_refused_when_one_end_of_either_axis_counts_as_a_head)
{
    for (int i = 0; i < 8; i++) {
        const bool last = i % 2 == 1, upright = i / 2 % 2 == 1, head = i / 4 == 1;
        const double most = head ? 6.0 : 5.75;
        const sl_axis warmer = {SL_SETTING_WARMER, last ? 0.0 : most, last ? most : 0.0, 3};
        const sl_axis dwell = {SL_SETTING_DWELL, 10.0, 20.0, 2};
        small_scene small;
        small_scene_fill(&small);
        small.scene.room_c = 24.0;
        sl_solver *const solver = sl_solver_new(NULL);
        sl_map *map = NULL;
        sl_error error = {0};
        const bool made = sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, upright ? dwell : warmer,
                                      upright ? warmer : dwell, NULL, solver, &error);
        ck_assert_msg(made == !head, "case %d", i);
        ck_assert_int_eq(map != NULL, made);
        ck_assert_int_eq(error.code, head ? SL_ERR_USAGE : SL_OK);
        sl_map_free(map);
        sl_solver_free(solver);
    }
}
END_TEST

/* Over the whole map a mix may be on as long as its label, and as strong as the law (12 %), and not more. */
START_TEST(the_inside_of_a_map_ends_exactly_with_each_of_its_limits)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.aims = (sl_aims){.colour_left = 0.4};
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    const sl_axis dwell = {SL_SETTING_DWELL, 19.0, 21.0, 3}, strength = {SL_SETTING_STRENGTH, 3.0, 12.0, 2};
    sl_solver *const solver = sl_solver_new(NULL);
    sl_map *map = NULL;
    for (int by = 0; by < 3; by++) {
        small.scene.aims.longest_min = (sl_bound){20.0, by == 1};
        mix->label_max_min = by == 2 ? 20.0 : 0.0;
        ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, dwell, strength, NULL, solver, NULL));
        for (int i = 0; i < 6; i++) {
            ck_assert_msg(map->inside[i] == (by == 0 || i % 3 < 2), "limit %d, point %d", by, i);
        }
    }
    /* base moved and stress exactly as far as they may go, and just beyond */
    const double base = map->value[SL_MAP_BASE][4], stress = map->value[SL_MAP_STRESS][4];
    mix->label_max_min = 0.0;
    for (int i = 0; i < 4; i++) {
        const double most = (i < 2 ? base : stress) * (i % 2 ? 1.0 - 1e-6 : 1.0);
        small.scene.aims = (sl_aims){.colour_left = 0.4};
        *(i < 2 ? &small.scene.aims.base_moved : &small.scene.aims.cystine_lost) = (sl_bound){most, true};
        ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, dwell, strength, NULL, solver, NULL));
        ck_assert_msg(map->inside[4] == (i % 2 == 0), "case %d", i);
        ck_assert(map->inside[3] && !map->inside[5]); /* a minute less, a minute more */
    }
    sl_map_free(map);
    sl_solver_free(solver);
}
END_TEST

/* Every application counts towards the longest time, and each has its own label. */
START_TEST(two_applications_share_the_longest_time_and_each_has_its_label)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[2] = arm->steps[0];
    arm->steps[2].mix = MIX_POWDER_3;
    arm->steps[2].duration_min = 10.0;
    small.scene.aims = (sl_aims){.colour_left = 0.4, .longest_min = {30.0, true}};
    const sl_axis dwell = {SL_SETTING_DWELL, 19.0, 21.0, 3}, strength = {SL_SETTING_STRENGTH, 3.0, 6.0, 2};
    sl_solver *const solver = sl_solver_new(NULL);
    sl_map *map = NULL;
    for (int short_label = 0; short_label < 2; short_label++) {
        small.mixes[MIX_POWDER_3].label_max_min = short_label ? 9.0 : 10.0;
        ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, dwell, strength, NULL, solver, NULL));
        for (int i = 0; i < 3; i++) {
            ck_assert_msg(map->inside[i] == (!short_label && i < 2), "label %d, point %d", short_label, i);
        }
    }
    sl_map_free(map);
    sl_solver_free(solver);
}
END_TEST

/* A map says of an arm what comes of it, whenever it begins. */
START_TEST(an_arm_that_begins_later_has_the_same_map)
{
    sl_map *map[2] = {NULL, NULL};
    sl_solver *const solver = sl_solver_new(NULL);
    const sl_axis strength = {SL_SETTING_STRENGTH, 3.0, 9.0, 3}, dwell = {SL_SETTING_DWELL, 10.0, 30.0, 3};
    for (int i = 0; i < 2; i++) {
        small_scene small;
        small_scene_fill(&small);
        small.scene.room_c = 24.0;
        small.scene.aims = (sl_aims){.colour_left = 0.6, .longest_min = {20.0, true}};
        small.arms[ARM_6].contact_min += 10.0 * i;
        small.scene.until_min += 10.0 * i;
        ck_assert(sl_map_make(&map[i], &small.scene, ARM_6, -1, strength, dwell, NULL, solver, NULL));
    }
    for (int point = 0; point < 9; point++) {
        for (int layer = 0; layer < SL_MAP_LAYERS; layer++) {
            ck_assert_double_eq_tol(map[0]->value[layer][point], map[1]->value[layer][point], 1e-7);
        }
        ck_assert_int_eq(map[0]->goal[point], map[1]->goal[point]);
        ck_assert_int_eq(map[0]->inside[point], map[1]->inside[point]);
    }
    sl_map_free(map[0]);
    sl_map_free(map[1]);
    sl_solver_free(solver);
}
END_TEST

START_SUITE("map")
ADD(the_contour_of_a_plane_is_its_line)
ADD(the_contour_of_a_cone_is_a_circle)
ADD(a_saddle_is_cut_in_two)
ADD(a_point_of_the_map_is_the_timeline_s)
ADD(the_label_on_the_map_counts_from_where_the_mix_says)
ADD(a_saddle_keeps_the_corners_of_its_middle_s_side_together)
ADD(a_square_is_cut_as_often_as_its_sides_are_crossed)
ADD(a_contour_lies_where_its_square_lies)
ADD(an_axis_goes_from_its_first_value_to_its_last_in_equal_steps)
ADD(a_map_is_refused_when_one_end_of_either_axis_counts_as_a_head)
ADD(the_inside_of_a_map_ends_exactly_with_each_of_its_limits)
ADD(two_applications_share_the_longest_time_and_each_has_its_label)
ADD(an_arm_that_begins_later_has_the_same_map)
END_SUITE
