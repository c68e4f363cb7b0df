/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Regressions of the shipped models: they must go on telling the stories that their titles
 * tell. None of this is evidence about hair: the numbers were chosen so.
 */
#include <stdio.h>
#include <string.h>

#include "named.h"
#include "slowlift/limits.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "suite.h"

typedef struct telling {
    sl_scene *scene;
    sl_solver *solver;
    sl_timeline *timeline;
} telling;

static telling told(const char *name)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s.yaml", name);
    telling made = {.scene = NULL};
    sl_error error;
    made.scene = sl_scene_load(path, &resolver, &error);
    ck_assert_ptr_nonnull(made.scene);
    made.solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(made.solver);
    ck_assert(sl_timeline_solve(&made.timeline, made.scene, NULL, 0, made.solver, NULL, &error));
    ck_assert(sl_limits_prepare(made.timeline, made.solver, NULL));
    return made;
}

static void forget(telling *story)
{
    sl_timeline_free(story->timeline);
    sl_solver_free(story->solver);
    sl_scene_free(story->scene);
}

static sl_cell cell_at(const telling *story, const char *arm, const char *zone, double time_min)
{
    sl_cell cell;
    sl_timeline_at(story->timeline, named_arm(story->scene, arm), named_zone(story->scene, zone), time_min,
                   NULL, &cell);
    return cell;
}

static void leaves_before(const telling *story, const char *arm, const char *first, const char *last)
{
    const double one = cell_at(story, arm, first, 30.0).colour_left;
    const double other = cell_at(story, arm, last, 30.0).colour_left;
    ck_assert_msg(one < other, "%s: %s %.3f, %s %.3f", arm, first, one, last, other);
}

/* Common practice, no source: violet leaves first, red and orange last. */
START_TEST(in_set_one_violet_leaves_first_and_red_last)
{
    telling one = told("eight-arms");
    static const char *const arms[] = {"powder + water", "powder + 3 %", "powder + 6 %"};
    static const char *const order[] = {"violet", "blue", "green", "orange", "red"};
    for (int a = 0; a < 3; a++) {
        for (int i = 0; i + 1 < 5; i++) {
            leaves_before(&one, arms[a], order[i], order[i + 1]);
        }
        leaves_before(&one, arms[a], "yellow", "orange");
    }
    forget(&one);
}
END_TEST

START_TEST(in_set_two_the_order_is_the_other_way_round)
{
    telling two = told("opposite-orders");
    static const char *const arms[] = {"powder + water", "powder + 3 %", "powder + 6 %"};
    static const char *const order[] = {"red", "orange", "green", "blue", "violet"};
    for (int a = 0; a < 3; a++) {
        for (int i = 0; i + 1 < 5; i++) {
            leaves_before(&two, arms[a], order[i], order[i + 1]);
        }
    }
    forget(&two);
}
END_TEST

/* Common practice, no source: 6 % clears faster than water; water moves the base too; the
 * two-part liquid is weakest. */
START_TEST(the_mixes_rank_as_the_trade_has_them)
{
    telling one = told("eight-arms");
    const double six = cell_at(&one, "powder + 6 %", "blue", 30.0).colour_left;
    const double three = cell_at(&one, "powder + 3 %", "blue", 30.0).colour_left;
    const double water = cell_at(&one, "powder + water", "blue", 30.0).colour_left;
    const double mild = cell_at(&one, "two-part without persulfate", "blue", 30.0).colour_left;
    const double lightener = cell_at(&one, "lightener + 6 %", "blue", 30.0).colour_left;
    ck_assert_double_lt(lightener, six);
    ck_assert_double_lt(six, three);
    ck_assert_double_lt(three, water);
    ck_assert_double_lt(water, mild);
    ck_assert_double_gt(cell_at(&one, "powder + water", "undyed", 30.0).base_moved, 0.02);
    const double washed = cell_at(&one, "washing only", "blue", 60.0).colour_left;
    ck_assert_double_lt(washed, 0.95); /* washing is a dose of its own */
    ck_assert_double_gt(washed, 0.5);
    forget(&one);
}
END_TEST

/* Base moved in the undyed zone at the moment the arm's violet is down to half. */
static double base_at_half_violet(const telling *story, const char *arm)
{
    double time_min = 0.0;
    ck_assert(sl_first_time(story->timeline, named_arm(story->scene, arm), named_zone(story->scene, "violet"),
                            SL_COLOUR_LEFT, 0.5, &time_min));
    return cell_at(story, arm, "undyed", time_min).base_moved;
}

START_TEST(slower_is_gentler_at_the_same_colour_left_as_assumed)
{
    telling one = told("eight-arms");
    ck_assert_double_lt(base_at_half_violet(&one, "powder + water"),
                        base_at_half_violet(&one, "powder + 6 %"));
    forget(&one);
}
END_TEST

START_TEST(with_the_assumption_reversed_slower_is_not_gentler)
{
    telling reversed = told("reversed-assumption");
    ck_assert_double_gt(base_at_half_violet(&reversed, "powder + water"),
                        1.2 * base_at_half_violet(&reversed, "powder + 6 %"));
    forget(&reversed);
}
END_TEST

/* Minutes between goal and first limit by the central values; below 0: the limit comes first, or the goal
 * never. */
static double room_of(const char *scene, const char *arm)
{
    telling way = told(scene);
    const sl_limits found = sl_limits_of(way.timeline, named_arm(way.scene, arm), NULL);
    forget(&way);
    ck_assert(found.asked);
    return found.early_reached ? found.stop_min[found.stop] - found.early_min : -1.0;
}

/* Wide: a look every five minutes fits in. */
START_TEST(the_ways_are_as_wide_as_their_titles_say)
{
    ck_assert_double_ge(room_of("way-wide", "powder + water"), 5.0);
    ck_assert_double_ge(room_of("way-wide", "powder + 3 %"), 5.0);
    const double tight = room_of("way-short", "powder + 6 %");
    ck_assert(tight > 0.0 && tight < 5.0);
    ck_assert_double_lt(room_of("way-none", "powder + water"), 0.0);
    ck_assert_double_lt(room_of("way-none", "powder + 6 %"), 0.0);
    ck_assert_double_lt(room_of("way-none", "lightener + 6 %"), 0.0);
}
END_TEST

START_TEST(a_reducing_liquid_is_recorded_and_not_predicted)
{
    telling two = told("two-products");
    ck_assert(!sl_timeline_predicted(two.timeline, named_arm(two.scene, "a reducing liquid first")));
    ck_assert(sl_timeline_predicted(two.timeline, named_arm(two.scene, "powder + 6 % at once")));
    forget(&two);
}
END_TEST

START_TEST(rinsed_together_the_last_strip_keeps_more)
{
    telling together = told("rinsed-together");
    const double first = cell_at(&together, "strip 1", "red", 45.0).colour_left;
    const double last = cell_at(&together, "strip 6", "red", 45.0).colour_left;
    ck_assert_double_gt(last, first + 0.05);
    forget(&together);
}
END_TEST

START_SUITE("shipped models (regressions, no evidence)")
ADD(in_set_one_violet_leaves_first_and_red_last)
ADD(in_set_two_the_order_is_the_other_way_round)
ADD(the_mixes_rank_as_the_trade_has_them)
ADD(slower_is_gentler_at_the_same_colour_left_as_assumed)
ADD(with_the_assumption_reversed_slower_is_not_gentler)
ADD(the_ways_are_as_wide_as_their_titles_say)
ADD(a_reducing_liquid_is_recorded_and_not_predicted)
ADD(rinsed_together_the_last_strip_keeps_more)
END_SUITE
