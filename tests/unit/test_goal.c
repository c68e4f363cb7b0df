/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goals for single zones, by what comes next and by nearness to undyed hair; stress as a share of
 * a control's. The goal's parts of slowlift/model.h and slowlift/estimate.h.
 */
#include <string.h>

#include "report/limits/aims_words.h"
#include "slowlift/limits.h"
#include "slowlift/map.h"
#include "small_scene.h"
#include "suite.h"

static const double SECOND = 1.0 / 60.0;
static small_scene small;

static void fresh(sl_aims aims)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.aims = aims;
}

static sl_timeline *solve(void)
{
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    sl_solver_free(solver);
    return timeline;
}

static sl_limits limits_of(int arm)
{
    sl_timeline *const timeline = solve();
    const sl_limits limits = sl_limits_of(timeline, arm, NULL);
    sl_timeline_free(timeline);
    return limits;
}

START_TEST(the_darker_the_cover_the_more_may_stay)
{
    ck_assert_double_eq(sl_next_left(SL_NEXT_UNSAID), 1.0); /* no goal */
    ck_assert_double_gt(sl_next_left(SL_NEXT_PASTEL), 0.0);
    ck_assert_double_lt(sl_next_left(SL_NEXT_PASTEL), sl_next_left(SL_NEXT_FAMILY));
    ck_assert_double_lt(sl_next_left(SL_NEXT_FAMILY), sl_next_left(SL_NEXT_DARKER));
    ck_assert_double_lt(sl_next_left(SL_NEXT_DARKER), 1.0);
    ck_assert_str_eq(sl_next_word(SL_NEXT_FAMILY), "same family");
}
END_TEST

START_TEST(a_zone_s_own_threshold_goes_before_the_blanket_one)
{
    fresh((sl_aims){.colour_left = 0.5,
                    .zone_left = {[ZONE_RED] = 0.2, [ZONE_VIOLET] = 1.0},
                    .zone_near = {[ZONE_MIXED] = 8.0}});
    ck_assert_double_eq(sl_zone_goal(&small.scene, ZONE_RED).left, 0.2);
    ck_assert(!sl_zone_goal(&small.scene, ZONE_VIOLET).wanted);
    ck_assert_double_eq(sl_zone_goal(&small.scene, ZONE_MIXED).near_undyed, 8.0);
    ck_assert(!sl_zone_goal(&small.scene, ZONE_UNDYED).wanted);
    small.scene.aims.zone_left[ZONE_RED] = 0.0;
    ck_assert_double_eq(sl_zone_goal(&small.scene, ZONE_RED).left, 0.5);
}
END_TEST

START_TEST(one_share_is_told_only_where_every_wanted_zone_has_it)
{
    double share = -1.0;
    fresh((sl_aims){.colour_left = 0.5});
    ck_assert(sl_goal_share(&small.scene, -1, &share));
    ck_assert_double_eq(share, 0.5);
    small.scene.aims.zone_left[ZONE_RED] = 1.0; /* not wanted: the others still share one */
    ck_assert(sl_goal_share(&small.scene, -1, &share));
    ck_assert(!sl_goal_share(&small.scene, ZONE_RED, &share));
    small.scene.aims.zone_left[ZONE_VIOLET] = 0.2;
    ck_assert(!sl_goal_share(&small.scene, -1, &share));
    ck_assert(sl_goal_share(&small.scene, ZONE_VIOLET, &share));
    ck_assert_double_eq(share, 0.2);
    small.scene.aims.zone_near[ZONE_VIOLET] = 9.0;
    ck_assert(!sl_goal_share(&small.scene, ZONE_VIOLET, &share));
    ck_assert(sl_goal_near_undyed(&small.scene));
}
END_TEST

START_TEST(a_goal_is_assumed_only_where_none_is_set)
{
    fresh((sl_aims){.colour_left = 1.0});
    sl_aims_assume(&small.scene);
    ck_assert(small.scene.aims.assumed && sl_goal_set(&small.scene));
    ck_assert_double_eq(sl_zone_goal(&small.scene, ZONE_VIOLET).left, 0.5);
    ck_assert(small.scene.aims.base_moved.set && small.scene.aims.cystine_lost.set);
    ck_assert_double_eq(small.scene.aims.longest_min.most, 45.0);
    /* hair that has moved as far as that reads one level lighter */
    ck_assert_double_eq_tol(
        sl_levels_lifted(&small.scene.chemistry, 8.0, 1.0, 1.0 - small.scene.aims.base_moved.most), 1.0, 1e-12);
    /* what the scene has set itself stays */
    fresh((sl_aims){
        .colour_left = 1.0, .base_moved = {0.3, true}, .longest_min = {25.0, true}, .stress_share = 0.5});
    sl_aims_assume(&small.scene);
    ck_assert(small.scene.aims.assumed);
    ck_assert_double_eq(small.scene.aims.base_moved.most, 0.3);
    ck_assert_double_eq(small.scene.aims.longest_min.most, 25.0);
    ck_assert(!small.scene.aims.cystine_lost.set);
    fresh((sl_aims){.colour_left = 1.0, .cystine_lost = {0.15, true}});
    sl_aims_assume(&small.scene);
    ck_assert_double_eq(small.scene.aims.cystine_lost.most, 0.15);
    /* one zone with a goal of its own is a goal */
    fresh((sl_aims){.colour_left = 1.0});
    small.scene.aims.zone_left[ZONE_VIOLET] = 0.4;
    sl_aims_assume(&small.scene);
    ck_assert(!small.scene.aims.assumed && !small.scene.aims.base_moved.set);
    ck_assert_double_eq(small.scene.aims.colour_left, 1.0);
}
END_TEST

START_TEST(goals_for_zones_alone_are_a_goal)
{
    fresh((sl_aims){.colour_left = 1.0});
    ck_assert(!sl_goal_set(&small.scene));
    ck_assert(!limits_of(ARM_6).asked);
    small.scene.aims.zone_left[ZONE_VIOLET] = 0.4;
    ck_assert(sl_goal_set(&small.scene));
    const sl_limits limits = limits_of(ARM_6);
    ck_assert(limits.asked && limits.early_reached);
    ck_assert_int_eq(limits.early_zone, ZONE_VIOLET);
}
END_TEST

START_TEST(the_goal_is_reached_when_the_last_wanted_zone_is_at_its_own)
{
    double red = 0.0;
    double violet = 0.0;
    fresh((sl_aims){.colour_left = 0.5, .zone_left = {[ZONE_RED] = 0.7, [ZONE_VIOLET] = 0.1}});
    small.scene.aims.zone_left[ZONE_ROOT] = small.scene.aims.zone_left[ZONE_MIXED] = 1.0;
    sl_timeline *const timeline = solve();
    const sl_timeline *const rinsed = sl_timeline_rinsed(timeline);
    ck_assert(sl_first_time(rinsed, ARM_6, ZONE_RED, SL_COLOUR_LEFT, 0.7, &red));
    ck_assert(sl_first_time(rinsed, ARM_6, ZONE_VIOLET, SL_COLOUR_LEFT, 0.1, &violet));
    const sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
    const double last = red > violet ? red : violet;
    ck_assert(limits.early_reached);
    ck_assert_double_eq(limits.early_min, last - small.arms[ARM_6].contact_min);
    ck_assert_int_eq(limits.early_zone, red > violet ? ZONE_RED : ZONE_VIOLET);
    sl_timeline_free(timeline);
}
END_TEST

/* A dye that goes so fast that no number of a double is left of it has reached any goal. */
START_TEST(a_colour_of_which_nothing_is_left_has_reached_its_goal)
{
    fresh((sl_aims){.colour_left = 1.0, .zone_left = {[ZONE_RED] = 1e-3}});
    for (int dye = 0; dye < SMALL_DYES; dye++) {
        small.dyes[dye].rates = rates_of(1e9, 1e9, 1e9);
        small.dyes[dye].leach_per_min = assumed(1e6);
    }
    sl_timeline *const timeline = solve();
    sl_cell cell;
    sl_timeline_at(timeline, ARM_6, ZONE_RED, small.scene.until_min, NULL, &cell);
    ck_assert(!(cell.colour_left > 0.0) && !(cell.colour_left < 0.0));
    ck_assert(sl_goal_there(timeline, ARM_6, ZONE_RED, small.scene.until_min));
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(a_zone_that_is_not_wanted_still_stops_base_and_stress)
{
    fresh((sl_aims){.colour_left = 0.5, .base_moved = {0.1, true}, .cystine_lost = {0.02, true}});
    const sl_limits all = limits_of(ARM_6);
    small.scene.aims.zone_left[ZONE_RED] = small.scene.aims.zone_left[ZONE_MIXED] = 1.0;
    const sl_limits some = limits_of(ARM_6);
    ck_assert(all.stop_reached[SL_STOP_BASE] && all.stop_reached[SL_STOP_STRESS]);
    for (int s = 0; s < SL_STOPS; s++) {
        ck_assert_int_eq(all.stop_reached[s], some.stop_reached[s]);
        ck_assert_double_eq(all.stop_min[s], some.stop_min[s]);
    }
}
END_TEST

/* CIEDE2000 by optics of the test's own, dry, by D65, for the 2 degree observer. */
static double distance(const sl_timeline *timeline, int zone, double since_contact_min)
{
    sl_cell dyed, undyed;
    sl_optics *const optics = sl_optics_new(&small.scene, NULL);
    const double clock = small.arms[ARM_6].contact_min + since_contact_min;
    sl_timeline_at(timeline, ARM_6, zone, clock, optics, &dyed);
    sl_timeline_at(timeline, ARM_6, ZONE_UNDYED, clock, optics, &undyed);
    sl_optics_free(optics);
    return sl_delta_e_2000(dyed.colour.lab, undyed.colour.lab);
}

START_TEST(near_undyed_hair_is_found_to_a_second)
{
    fresh((sl_aims){.colour_left = 1.0, .zone_near = {[ZONE_VIOLET] = 20.0}});
    sl_timeline *const timeline = solve();
    const sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
    ck_assert(limits.early_reached);
    ck_assert_double_gt(limits.early_min, SECOND);
    ck_assert_double_le(distance(sl_timeline_rinsed(timeline), ZONE_VIOLET, limits.early_min), 20.0);
    ck_assert_double_gt(distance(sl_timeline_rinsed(timeline), ZONE_VIOLET, limits.early_min - SECOND), 20.0);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(a_distance_that_is_the_goal_itself_is_there)
{
    fresh((sl_aims){.colour_left = 1.0, .zone_near = {[ZONE_VIOLET] = 20.0}});
    sl_timeline *const timeline = solve();
    const double clock = small.arms[ARM_6].contact_min + 9.0;
    small.scene.aims.zone_near[ZONE_VIOLET] = sl_from_undyed(timeline, ARM_6, ZONE_VIOLET, clock);
    ck_assert(sl_goal_there(timeline, ARM_6, ZONE_VIOLET, clock));
    small.scene.aims.zone_near[ZONE_VIOLET] *= 1.0 - 1e-9;
    ck_assert(!sl_goal_there(timeline, ARM_6, ZONE_VIOLET, clock));
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(a_smaller_distance_takes_longer_or_is_never_reached)
{
    double before = 0.0;
    bool reached = true;
    for (double near_undyed = 30.0; near_undyed > 1.0; near_undyed -= 4.0) {
        fresh((sl_aims){.colour_left = 1.0, .zone_near = {[ZONE_RED] = near_undyed}});
        const sl_limits limits = limits_of(ARM_6);
        ck_assert(reached || !limits.early_reached);
        ck_assert(!limits.early_reached || limits.early_min >= before);
        reached = limits.early_reached;
        before = limits.early_reached ? limits.early_min : before;
    }
    ck_assert_double_gt(before, 0.0);
}
END_TEST

/* Both forms meet: the share that is left when the distance is reached asks for the same minute. */
START_TEST(a_distance_and_the_share_left_at_it_are_reached_together)
{
    fresh((sl_aims){.colour_left = 1.0, .zone_near = {[ZONE_VIOLET] = 20.0}});
    sl_timeline *const timeline = solve();
    const double minute = sl_limits_of(timeline, ARM_6, NULL).early_min;
    sl_cell cell;
    sl_timeline_at(sl_timeline_rinsed(timeline), ARM_6, ZONE_VIOLET, small.arms[ARM_6].contact_min + minute,
                   NULL, &cell);
    sl_timeline_free(timeline);
    small.scene.aims = (sl_aims){.colour_left = 1.0, .zone_left = {[ZONE_VIOLET] = cell.colour_left}};
    ck_assert_double_eq_tol(limits_of(ARM_6).early_min, minute, SECOND);
}
END_TEST

START_TEST(stress_stops_at_its_share_of_what_the_control_lost_at_first_water)
{
    fresh((sl_aims){.colour_left = 0.5, .stress_share = 0.25, .stress_of = ARM_6});
    sl_timeline *const timeline = solve();
    const double first_water = small.arms[ARM_6].contact_min + 30.0;
    ck_assert_double_eq(sl_first_water_min(&small.arms[ARM_6]), first_water);
    sl_cell control, here;
    sl_timeline_at(timeline, ARM_6, ZONE_UNDYED, first_water, NULL, &control);
    ck_assert_double_gt(control.cystine_lost, 0.0);
    ck_assert_double_eq_tol(sl_stress_limit(timeline).most, 0.25 * control.cystine_lost, 1e-12);
    const sl_limits limits = sl_limits_of(timeline, ARM_3, NULL);
    ck_assert(limits.stop_reached[SL_STOP_STRESS]);
    sl_timeline_at(sl_timeline_rinsed(timeline), ARM_3, ZONE_UNDYED,
                   small.arms[ARM_3].contact_min + limits.stop_min[SL_STOP_STRESS], NULL, &here);
    ck_assert_double_eq_tol(here.cystine_lost, 0.25 * control.cystine_lost, 1e-4); /* 0.1 s */
    sl_timeline_free(timeline);
}
END_TEST

/* A share of what the control lost: of the hair that lost least, so that no hair is allowed more than its
 * share, wherever in the strip it stands. */
START_TEST(the_control_s_stress_is_that_of_the_hair_that_lost_least)
{
    for (int turned = 0; turned < 2; turned++) {
        fresh((sl_aims){.colour_left = 0.5, .stress_share = 0.25, .stress_of = ARM_6});
        small.hairs[1].porosity = 2.5;
        const int first = turned ? 1 : 0;
        small.zones[0] = (sl_zone){.name = "one", .hair = first, .recipe = {1, {1}, {2.0}}};
        small.zones[1] = (sl_zone){.name = "its undyed", .hair = first, .recipe = {0}};
        small.zones[2] = (sl_zone){.name = "other", .hair = 1 - first, .recipe = {1, {2}, {2.0}}};
        small.zones[3] = (sl_zone){.name = "undyed of the other", .hair = 1 - first, .recipe = {0}};
        small.scene.n_zones = 4;
        sl_timeline *const timeline = solve();
        sl_cell cell[2];
        const double first_water = sl_first_water_min(&small.arms[ARM_6]);
        sl_timeline_at(timeline, ARM_6, 1, first_water, NULL, &cell[0]);
        sl_timeline_at(timeline, ARM_6, 3, first_water, NULL, &cell[1]);
        ck_assert_double_gt(fabs(cell[0].cystine_lost - cell[1].cystine_lost), 0.005);
        ck_assert_double_eq_tol(sl_stress_limit(timeline).most,
                                0.25 * fmin(cell[0].cystine_lost, cell[1].cystine_lost), 1e-12);
        sl_timeline_free(timeline);
    }
}
END_TEST

START_TEST(a_variant_keeps_what_the_control_s_share_came_to)
{
    fresh((sl_aims){.colour_left = 0.5, .stress_share = 0.25, .stress_of = ARM_6});
    sl_timeline *whole = solve();
    const double limit = sl_stress_limit(whole).most;
    sl_timeline_free(whole);
    ck_assert(sl_stress_settle(&small.scene, NULL));
    ck_assert_double_eq_tol(small.scene.aims.cystine_lost.most, limit, 1e-12);
    const sl_limits central = limits_of(ARM_3);
    sl_variant variant;
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_outcome outcome;
    sl_variant_make(&variant, &small.scene, ARM_3, NULL);
    ck_assert(sl_outcome_of(&outcome, &variant.scene, 0, &timeline, solver, NULL));
    ck_assert_double_eq_tol(sl_stress_limit(timeline).most, limit, 1e-12);
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    const sl_limits alone = sl_limits_of(timeline, 0, NULL);
    ck_assert_double_eq_tol(alone.stop_min[SL_STOP_STRESS], central.stop_min[SL_STOP_STRESS], SECOND);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_TEST(an_outcome_is_there_when_every_wanted_zone_is)
{
    fresh((sl_aims){.colour_left = 1.0, .zone_left = {[ZONE_VIOLET] = 0.9}});
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_outcome outcome;
    ck_assert(sl_outcome_of(&outcome, &small.scene, ARM_6, &timeline, solver, NULL));
    ck_assert(outcome.all_there && outcome.there[ZONE_VIOLET] && !outcome.there[ZONE_RED]);
    ck_assert_int_eq(outcome.worst_zone, ZONE_VIOLET);
    small.scene.aims.zone_left[ZONE_RED] = 0.001; /* the red never gets there */
    ck_assert(sl_outcome_of(&outcome, &small.scene, ARM_6, &timeline, solver, NULL));
    ck_assert(!outcome.all_there && outcome.there[ZONE_VIOLET] && !outcome.there[ZONE_RED]);
    ck_assert_int_eq(outcome.worst_zone, ZONE_RED);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_TEST(a_map_marks_the_goal_of_its_zone)
{
    fresh((sl_aims){.colour_left = 0.5, .zone_left = {[ZONE_RED] = 0.001, [ZONE_VIOLET] = 0.9}});
    const sl_axis time = {.setting = SL_SETTING_DWELL, .from = 10.0, .to = 30.0, .n = 2};
    const sl_axis strength = {.setting = SL_SETTING_STRENGTH, .from = 3.0, .to = 6.0, .n = 2};
    const int asked[] = {ZONE_VIOLET, ZONE_RED, -1};
    sl_solver *const solver = sl_solver_new(NULL);
    for (int i = 0; i < 3; i++) {
        sl_map *map = NULL;
        ck_assert(sl_map_make(&map, &small.scene, ARM_6, asked[i], time, strength, NULL, solver, NULL));
        ck_assert_int_eq(map->goal[3], asked[i] == ZONE_VIOLET); /* 6 %, 30 min */
        sl_map_free(map);
    }
    sl_solver_free(solver);
}
END_TEST

static void words(const char *expected)
{
    char text[640];
    sl_goal_words(&small.scene, text, sizeof text);
    ck_assert_str_eq(text, expected);
}

START_TEST(every_zone_is_said_only_where_it_is_true)
{
    fresh((sl_aims){.colour_left = 0.5});
    words("at most 50 % left in every zone with direct dye");
    small.scene.aims.next = SL_NEXT_PASTEL;
    small.scene.aims.left_by_next = true;
    words("for a pastel: at most 50 % left in every zone with direct dye (the usual, assumed)");
    small.scene.aims = (sl_aims){.colour_left = 0.5,
                                 .zone_left = {[ZONE_RED] = 0.2, [ZONE_VIOLET] = 1.0},
                                 .zone_near = {[ZONE_MIXED] = 8.0}};
    words("\"red\" at most 20 % left; \"violet\" is not asked for; \"mixed\" at most 8 (CIEDE2000) from "
          "undyed hair");
    small.scene.aims.zone_near[ZONE_MIXED] = 0.0;
    words(
        "\"red\" at most 20 % left; \"violet\" is not asked for; at most 50 % left in every other zone with "
        "direct dye");
    small.scene.aims.colour_left = 1.0;
    char text[640];
    sl_goal_words(&small.scene, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "no other zone is asked for"));
    small.scene.aims = (sl_aims){.colour_left = 1.0};
    words("");
}
END_TEST

START_TEST(a_share_of_a_control_s_stress_names_the_control)
{
    char text[300];
    fresh((sl_aims){.colour_left = 0.5,
                    .base_moved = {0.3, true},
                    .cystine_lost = {0.1, true},
                    .longest_min = {45.0, true}});
    sl_bounds_words(&small.scene, true, text, sizeof text); /* no minute beside somebody's form */
    ck_assert_str_eq(text, "base moved 30 %; hair stress 10 %");
    small.scene.aims.stress_share = 0.5;
    small.scene.aims.stress_of = ARM_6;
    sl_bounds_words(&small.scene, false, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "; hair stress 10 % (50 % of what \""));
    ck_assert_ptr_nonnull(strstr(text, small.arms[ARM_6].name));
    ck_assert_ptr_nonnull(strstr(text, "; 45 min from contact"));
}
END_TEST

/* A share that is the goal itself is there, one a bit above it is not; a zone without a goal, or without a
 * dye, never. */
START_TEST(a_share_that_is_the_goal_itself_is_there)
{
    small_scene made;
    small_scene_fill(&made);
    sl_solver *const own = sl_solver_new(NULL);
    sl_timeline *story = NULL;
    sl_cell cell;
    made.scene.aims = (sl_aims){.colour_left = 0.9};
    ck_assert(sl_timeline_solve(&story, &made.scene, NULL, 0, own, NULL, NULL));
    ck_assert(sl_limits_prepare(story, own, NULL));
    sl_timeline_at(story, ARM_6, ZONE_RED, 12.0, NULL, &cell);
    for (int i = 0; i < 2; i++) {
        made.scene.aims.colour_left = i == 0 ? cell.colour_left : nextafter(cell.colour_left, 0.0);
        ck_assert_int_eq(sl_goal_there(story, ARM_6, ZONE_RED, 12.0), i == 0);
    }
    made.scene.aims.colour_left = 1.0;
    ck_assert(!sl_goal_there(story, ARM_6, ZONE_RED, 12.0)); /* none is wanted */
    made.scene.aims.colour_left = 0.99;
    ck_assert(!sl_goal_there(story, ARM_6, ZONE_UNDYED, 50.0));
    ck_assert(!sl_goal_there(story, ARM_UNDYED, ZONE_RED, 50.0)); /* the strip has no dye */
    sl_timeline_free(story);
    sl_solver_free(own);
}
END_TEST

START_SUITE("goal")
ADD(the_darker_the_cover_the_more_may_stay)
ADD(a_zone_s_own_threshold_goes_before_the_blanket_one)
ADD(one_share_is_told_only_where_every_wanted_zone_has_it)
ADD(a_goal_is_assumed_only_where_none_is_set)
ADD(goals_for_zones_alone_are_a_goal)
ADD(the_goal_is_reached_when_the_last_wanted_zone_is_at_its_own)
ADD(a_colour_of_which_nothing_is_left_has_reached_its_goal)
ADD(a_zone_that_is_not_wanted_still_stops_base_and_stress)
ADD(near_undyed_hair_is_found_to_a_second)
ADD(a_distance_that_is_the_goal_itself_is_there)
ADD(a_smaller_distance_takes_longer_or_is_never_reached)
ADD(a_distance_and_the_share_left_at_it_are_reached_together)
ADD(stress_stops_at_its_share_of_what_the_control_lost_at_first_water)
ADD(the_control_s_stress_is_that_of_the_hair_that_lost_least)
ADD(a_variant_keeps_what_the_control_s_share_came_to)
ADD(an_outcome_is_there_when_every_wanted_zone_is)
ADD(a_map_marks_the_goal_of_its_zone)
ADD(every_zone_is_said_only_where_it_is_true)
ADD(a_share_of_a_control_s_stress_names_the_control)
ADD(a_share_that_is_the_goal_itself_is_there)
END_SUITE
