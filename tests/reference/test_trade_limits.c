/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Trade facts about limits, on the shipped scenes. Common practice, no source: labels of removers end
 * at 20 minutes (liquids) or at 30 to 45 (powders); a faster remover is not the one with more time
 * between goal and stop. Regressions: they guard what lessons rely on, and are no evidence about hair.
 *
 * Minutes that a label sets are exact; others are compared, never fixed.
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/limits.h"
#include "slowlift/scene.h"
#include "slowlift/spread.h"
#include "unit/suite.h"

static sl_scene *scene;
static sl_solver *solver;

static void load(const char *name)
{
    const char *const folder = SLOWLIFT_MODELS;
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[1024];
    sl_error error = {.code = SL_OK};
    snprintf(path, sizeof path, "%s/scenes/%s.yaml", folder, name);
    scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
    scene->until_min = 60.0;
    for (int a = 0; a < scene->n_arms; a++) { /* left on, so that only limits can end it */
        for (int i = 0; i < scene->arms[a].n_steps; i++) {
            if (scene->arms[a].steps[i].kind == SL_STEP_APPLY) {
                scene->arms[a].steps[i].duration_min = 55.0;
            }
        }
    }
}

static void release(void)
{
    sl_solver_free(solver);
    sl_scene_free(scene);
}

/* Only this zone keeps its dye, so that it alone decides the goal. */
static void only_zone(const char *name)
{
    int kept = 0;
    for (int z = 0; z < scene->n_zones; z++) {
        const bool keep = strcmp(scene->zones[z].name, name) == 0;
        kept += keep ? 1 : 0;
        scene->zones[z].recipe.n_dyes = keep ? scene->zones[z].recipe.n_dyes : 0;
    }
    ck_assert_int_eq(kept, 1);
}

static int arm_named(const char *name)
{
    for (int a = 0; a < scene->n_arms; a++) {
        if (strcmp(scene->arms[a].name, name) == 0) {
            return a;
        }
    }
    ck_abort_msg("no arm %s", name);
    return -1;
}

/* The label's minutes on every mix, counted from contact or from mixing. */
static void label(double minutes, bool from_contact)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        scene->mixes[i].label_max_min = minutes;
        scene->mixes[i].label_from_contact = from_contact;
    }
}

static sl_limits limits_of(const char *arm)
{
    sl_timeline *timeline = NULL;
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error), "%s", error.found);
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    const sl_limits limits = sl_limits_of(timeline, arm_named(arm), NULL);
    sl_timeline_free(timeline);
    ck_assert(limits.asked);
    return limits;
}

static double between(const sl_limits *limits)
{
    ck_assert(limits->early_reached);
    return limits->stop_min[limits->stop] - limits->early_min;
}

START_TEST(a_label_s_maximum_binds_where_nothing_else_comes_before)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}};
    for (double minutes = 30.0; minutes <= 45.0; minutes += 5.0) {
        label(minutes, true);
        const sl_limits slow = limits_of("powder + water");
        const sl_limits fast = limits_of("powder + 6 %");
        /* water moves the base slowly: the label comes first until its minutes pass that moment */
        ck_assert(slow.stop_reached[SL_STOP_BASE]);
        ck_assert_int_eq(slow.stop, minutes < slow.stop_min[SL_STOP_BASE] ? SL_STOP_LABEL : SL_STOP_BASE);
        ck_assert_double_eq_tol(slow.stop_min[SL_STOP_LABEL], minutes, 1e-9);
        /* 6 % has moved it long before any label of half an hour */
        ck_assert_int_eq(fast.stop, SL_STOP_BASE);
        ck_assert_double_lt(fast.stop_min[SL_STOP_BASE], 30.0);
    }
    label(30.0, true);
    ck_assert_int_eq(limits_of("powder + water").stop, SL_STOP_LABEL);
    label(45.0, true);
    ck_assert_int_eq(limits_of("powder + water").stop, SL_STOP_BASE);
    release();
}
END_TEST

START_TEST(a_label_of_twenty_minutes_binds_for_the_mild_liquid)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}, .cystine_lost = {0.10, true}};
    label(20.0, true);
    const sl_limits liquid = limits_of("two-part without persulfate");
    ck_assert_int_eq(liquid.stop, SL_STOP_LABEL);
    ck_assert_double_eq_tol(liquid.stop_min[SL_STOP_LABEL], 20.0, 1e-9);
    ck_assert(!liquid.early_reached || liquid.early_min > 20.0); /* and it is not there by then */
    ck_assert_double_gt(liquid.left_at_stop, 0.5);
    release();
}
END_TEST

START_TEST(a_label_from_mixing_takes_the_minute_in_the_bowl_off)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5};
    label(30.0, false); /* each was mixed a minute before */
    const sl_limits water = limits_of("powder + water");
    ck_assert_int_eq(water.stop, SL_STOP_LABEL);
    ck_assert_double_eq_tol(water.stop_min[SL_STOP_LABEL], 29.0, 1e-9);
    release();
}
END_TEST

START_TEST(no_member_is_open_beyond_the_label)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}};
    label(30.0, true);
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 1600, .seed = 3, .threads = 2};
    ck_assert(sl_spread_run(&spread, scene, &request, NULL));
    const sl_arm_spread *const water = &spread->arms[arm_named("powder + water")];
    uint64_t in_time = 0;
    for (int s = 0; s <= 30 * 60; s++) {
        in_time += water->early[s];
    }
    for (int s = 30 * 60 + 1; s <= spread->seconds; s++) {
        ck_assert_uint_eq(water->late[s], 0);
    }
    ck_assert_uint_le((uint64_t)water->open, in_time);
    ck_assert_int_gt(water->late_by[SL_STOP_LABEL],
                     400); /* the base comes first in some, the label in many */
    ck_assert_int_gt(water->late_by[SL_STOP_BASE], 100);
    sl_spread_free(spread);
    release();
}
END_TEST

/* Where the base is the limit and the shipped chemistry holds (slow and choosy against fast and
 * blind, an assumption of docs/science.md), the faster remover is there earlier and must stop so much
 * earlier that less time lies between. */
START_TEST(the_faster_remover_does_not_have_the_longer_time_between_goal_and_stop)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}};
    const sl_limits water = limits_of("powder + water");
    const sl_limits three = limits_of("powder + 3 %");
    const sl_limits six = limits_of("powder + 6 %");
    ck_assert_double_lt(six.early_min, three.early_min);
    ck_assert_double_lt(three.early_min, water.early_min);
    ck_assert_double_lt(between(&six), between(&three));
    ck_assert_double_lt(between(&three), between(&water));
    release();
}
END_TEST

/* The counter-cases: with only a label to stop at, whoever is there earlier has longer; and in a
 * colour that the slow remover hardly takes it has no time at all. */
START_TEST(with_only_a_label_to_stop_at_the_faster_remover_has_longer)
{
    load("eight-arms");
    only_zone("violet");
    scene->aims = (sl_aims){.colour_left = 0.5};
    label(30.0, true);
    const sl_limits water = limits_of("powder + water");
    const sl_limits six = limits_of("powder + 6 %");
    ck_assert_int_eq(six.stop, SL_STOP_LABEL);
    ck_assert_int_eq(water.stop, SL_STOP_LABEL);
    ck_assert_double_gt(between(&six), between(&water));
    release();
}
END_TEST

START_TEST(in_a_stubborn_colour_only_the_faster_remover_gets_there_in_time)
{
    load("eight-arms");
    only_zone("red");
    scene->aims = (sl_aims){.colour_left = 0.5};
    label(45.0, true);
    const sl_limits water = limits_of("powder + water");
    const sl_limits six = limits_of("powder + 6 %");
    ck_assert(!water.early_reached || water.early_min > 45.0);
    ck_assert(six.early_reached && six.early_min < 45.0);
    release();
}
END_TEST

START_SUITE("trade facts about limits")
ADD(a_label_s_maximum_binds_where_nothing_else_comes_before)
ADD(a_label_of_twenty_minutes_binds_for_the_mild_liquid)
ADD(a_label_from_mixing_takes_the_minute_in_the_bowl_off)
ADD(no_member_is_open_beyond_the_label)
ADD(the_faster_remover_does_not_have_the_longer_time_between_goal_and_stop)
ADD(with_only_a_label_to_stop_at_the_faster_remover_has_longer)
ADD(in_a_stubborn_colour_only_the_faster_remover_gets_there_in_time)
END_SUITE
