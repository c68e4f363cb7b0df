/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Estimates at the edge of what they are documented for: changes, searches, maps, limits, things seen.
 */
#include <math.h>
#include <string.h>

#include "slowlift/limits.h"
#include "slowlift/map.h"
#include "slowlift/rank.h"
#include "slowlift/strand.h"
#include "slowlift/what_if.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_timeline *timeline;
static sl_solver *solver;

static void set_up(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 29.9; /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.3, .base_moved = {0.95, true}, .cystine_lost = {0.5, true}};
    solver = sl_solver_new(NULL);
    timeline = NULL;
}

static void tear_down(void)
{
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

static void solve(void)
{
    sl_error error = {0};
    ck_assert_msg(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, &error), "%s",
                  error.found);
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
}

/* ---- settings ---------------------------------------------------------------------------------- */

START_TEST(a_ratio_needs_powder_and_something_to_stir_it_into)
{
    ck_assert(sl_setting_applies(&small.scene, ARM_6, SL_SETTING_RATIO));
    ck_assert(!sl_setting_applies(&small.scene, ARM_MILD, SL_SETTING_RATIO));
    small.mixes[MIX_POWDER_6].developer_parts = 0.0;
    ck_assert(!sl_setting_applies(&small.scene, ARM_6, SL_SETTING_RATIO));
    ck_assert_double_eq(sl_setting_value(&small.scene, ARM_6, SL_SETTING_RATIO), 0.0);
    small.mixes[MIX_POWDER_6].water_parts = 3.0;
    ck_assert_double_eq(sl_setting_value(&small.scene, ARM_6, SL_SETTING_RATIO), 3.0);
}
END_TEST

START_TEST(a_setting_is_read_from_where_a_change_writes_it)
{
    for (int s = 0; s < SL_SETTINGS; s++) {
        const sl_setting setting = (sl_setting)s;
        const sl_knob range = sl_knobs[setting];
        for (double to = range.least; to <= range.most; to += (range.most - range.least) / 2.0) {
            sl_changes changes = {.set = {false}};
            sl_variant variant;
            if (setting == SL_SETTING_COVERED && to > 0.0 && to < 1.0) {
                continue; /* covered or not */
            }
            ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, setting, to, NULL));
            sl_variant_make(&variant, &small.scene, ARM_6, &changes);
            ck_assert_double_eq_tol(sl_setting_value(&variant.scene, 0, setting), to, 1e-12);
        }
    }
}
END_TEST

START_TEST(a_change_outside_its_range_is_refused_with_the_range)
{
    const double outside[] = {0.99, 120.1, log(-1.0)};
    for (int i = 0; i < 3; i++) {
        sl_changes changes = {.set = {false}};
        sl_error error = {0};
        ck_assert(!sl_changes_set(&changes, &small.scene, ARM_6, SL_SETTING_DWELL, outside[i], &error));
        ck_assert_str_eq(error.wanted, "from 1 to 120 min");
        ck_assert(!changes.set[SL_SETTING_DWELL]);
    }
}
END_TEST

START_TEST(a_change_meets_the_first_mix_and_its_time_alone)
{
    sl_arm *const here = &small.arms[ARM_3];
    here->steps[3] =
        (sl_step){.kind = SL_STEP_APPLY, .duration_min = 7.0, .mix = MIX_POWDER_6, .mix_g_per_g = 4.0};
    here->n_steps = 4;
    sl_changes changes = {.set = {false}};
    sl_variant variant;
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_3, SL_SETTING_STRENGTH, 9.0, NULL));
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_3, SL_SETTING_DWELL, 20.0, NULL));
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_3, SL_SETTING_GRAMS, 3.0, NULL));
    sl_variant_make(&variant, &small.scene, ARM_3, &changes);
    ck_assert_int_eq(variant.scene.n_mixes, 2);
    ck_assert_double_eq(variant.mixes[variant.arm.steps[0].mix].developer_pct, 9.0);
    ck_assert_double_eq(variant.mixes[variant.arm.steps[3].mix].developer_pct, 6.0);
    ck_assert_double_eq(variant.arm.steps[0].duration_min, 20.0);
    ck_assert_double_eq(variant.arm.steps[3].duration_min, 7.0);
    ck_assert_double_eq(variant.arm.steps[3].mix_g_per_g, 4.0);
}
END_TEST

START_TEST(rounds_of_an_arm_that_is_never_rinsed_are_rinsed_as_usual)
{
    sl_variant variant;
    small.arms[ARM_6].n_steps = 1;
    ck_assert(sl_variant_rounds(&variant, &small.scene, ARM_6, 2, 10.0, NULL));
    ck_assert_int_eq(variant.arm.n_steps, 3);
    ck_assert_int_eq(variant.arm.steps[1].kind, SL_STEP_RINSE);
    ck_assert_double_eq(variant.arm.steps[1].duration_min, 2.0);
    sl_error error = {0};
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_6, 0, 10.0, &error));
    ck_assert_str_eq(error.found, "so many applications do not fit");
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_6, 1, 0.0, NULL));
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_6, 1, log(-1.0), NULL));
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_UNTREATED, 1, 5.0, &error));
    ck_assert_str_eq(error.found, "this strip has no mix");
}
END_TEST

/* ---- searches ------------------------------------------------------------------------------------ */

static sl_search search_of(void)
{
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    return search;
}

START_TEST(a_goal_that_is_there_within_a_minute_is_given_the_shortest_time)
{
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.scene.aims.colour_left = 0.999;
    const sl_search search = search_of();
    ck_assert_int_eq(search.best, 0);
    ck_assert_double_eq(search.trial[0].dwell_min, 1.0);
    ck_assert_double_eq(search.trial[0].strength_pct, 1.0); /* the weakest will do */
}
END_TEST

START_TEST(of_mixes_that_reach_the_goal_the_one_with_least_stress_is_best)
{
    small.mixes[MIX_POWDER_WATER].label_allows = true; /* without developer: its time alone is searched */
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.mixes[MIX_POWDER_3].label_allows = true;
    small.mixes[MIX_POWDER_3].developer_pct = 1.0; /* nothing weaker is tried */
    small.scene.aims.colour_left = 0.5;
    small.scene.aims.longest_min = (sl_bound){50.0, true};
    const sl_search search = search_of();
    ck_assert_int_eq(search.n, 3);
    ck_assert_int_eq(search.trial[0].arm, ARM_WATER);
    ck_assert_double_eq(search.trial[0].strength_pct, 0.0);
    ck_assert_double_eq(search.trial[1].strength_pct, 1.0);
    for (int i = 0; i < 3; i++) {
        ck_assert_msg(search.trial[i].found, "%d", i);
        ck_assert_double_le(search.trial[i].dwell_min, 50.0);
        ck_assert_double_ge(search.trial[i].cystine_lost, search.trial[search.best].cystine_lost);
    }
}
END_TEST

START_TEST(no_time_longer_than_the_chair_s_is_tried)
{
    small.mixes[MIX_POWDER_6].label_allows = true;
    ck_assert_double_gt(search_of().trial[0].dwell_min, 4.0);
    small.scene.aims.longest_min = (sl_bound){4.0, true};
    ck_assert(!search_of().trial[0].found);
}
END_TEST

START_TEST(each_mix_is_tried_once_and_only_where_it_is_alone_on_dyed_hair)
{
    for (int mix = 0; mix < SMALL_MIXES; mix++) {
        small.mixes[mix].label_allows = true;
    }
    small.scene.aims.colour_left = 0.99;
    small.arms[ARM_UNTREATED] = small.arms[ARM_6];           /* the same mix again in ARM_6 */
    small.arms[ARM_3].steps[1] = small.arms[ARM_3].steps[0]; /* two applications */
    const sl_search search = search_of();
    ck_assert_int_eq(search.n, 3); /* not: plain water, the reducing one, undyed hair, the second 6 % */
    ck_assert_int_eq(search.trial[0].arm, ARM_UNTREATED);
    ck_assert_int_eq(search.trial[1].arm, ARM_WATER);
    ck_assert_int_eq(search.trial[2].arm, ARM_MILD);
    ck_assert_int_eq(search.not_allowed, 0);
    small.mixes[MIX_POWDER_6].developer_pct = 12.1; /* whatever a label says */
    ck_assert_int_eq(search_of().not_allowed, 1);
}
END_TEST

/* ---- maps ---------------------------------------------------------------------------------------- */

static bool makes(sl_axis x, sl_axis y, sl_map **map, const char *found)
{
    sl_error error = {0};
    const bool made = sl_map_make(map, &small.scene, ARM_6, ZONE_RED, x, y, NULL, solver, &error);
    ck_assert_msg(made || strstr(error.found, found) != NULL, "%s", error.found);
    return made;
}

START_TEST(a_map_with_a_corner_that_cannot_be_is_refused)
{
    const sl_axis grams = {.setting = SL_SETTING_GRAMS, .from = 2.0, .to = 6.0, .n = 2};
    const sl_axis warmth = {.setting = SL_SETTING_WARMER, .from = -5.0, .to = 0.05, .n = 2};
    const sl_axis hot = {.setting = SL_SETTING_WARMER, .from = -5.0, .to = 0.2, .n = 2};
    const sl_axis no_time = {.setting = SL_SETTING_DWELL, .from = 0.5, .to = 5.0, .n = 2};
    sl_map *map = NULL;
    ck_assert(makes(grams, warmth, &map, ""));
    ck_assert(!makes(grams, hot, &map, "counts as a head")); /* 30.1 °C in one corner */
    ck_assert(!makes(grams, no_time, &map, "time 0.5 min"));
    ck_assert(!makes(no_time, grams, &map, "time 0.5 min"));
    ck_assert_ptr_nonnull(map); /* the one that was made is still there */
    sl_map_free(map);
}
END_TEST

START_TEST(no_point_of_a_mix_above_what_law_allows_is_inside)
{
    const sl_axis grams = {.setting = SL_SETTING_GRAMS, .from = 2.0, .to = 6.0, .n = 2};
    const sl_axis dwell = {.setting = SL_SETTING_DWELL, .from = 1.0, .to = 30.0, .n = 2};
    sl_map *map = NULL;
    for (int above = 0; above < 2; above++) {
        small.mixes[MIX_POWDER_6].developer_pct = above ? 12.1 : 12.0;
        ck_assert(makes(grams, dwell, &map, ""));
        ck_assert_int_eq(map->inside[0], !above);
    }
    sl_map_free(map);
}
END_TEST

/* ---- hair ------------------------------------------------------------------------------------------- */

START_TEST(hair_as_porous_and_more_damaged_is_solved_apart)
{
    sl_hair twin = small.hairs[1];
    ck_assert_int_eq(sl_zone_sharing(&small.scene, &small.arms[ARM_6], ZONE_RED, &twin), SL_SHARING_VALID);
    twin.cystine_intact -= 0.01;
    ck_assert_int_eq(sl_zone_sharing(&small.scene, &small.arms[ARM_6], ZONE_RED, &twin),
                     SL_SHARING_NOT_SAME_HAIR);
    twin = small.hairs[1];
    twin.porosity -= 0.01;
    ck_assert_int_eq(sl_zone_sharing(&small.scene, &small.arms[ARM_6], ZONE_RED, &twin),
                     SL_SHARING_NOT_SAME_HAIR);
}
END_TEST

/* White hair has no base that could move: none moves, in the timeline, in a ranking and in an ensemble. */
START_TEST(hair_without_melanin_has_no_base_that_moves)
{
    memset(small.hairs[1].pool, 0, sizeof small.hairs[1].pool);
    small.scene.aims = (sl_aims){.colour_left = 0.3, .base_moved = {0.01, true}};
    small.zones[ZONE_ROOT].hair = 1;
    solve();
    sl_cell cell;
    sl_timeline_at(timeline, ARM_6, ZONE_UNDYED, 40.0, NULL, &cell);
    ck_assert_double_eq(cell.base_moved, 0.0);
    ck_assert_double_eq(cell.levels_lifted, 0.0);
    ck_assert_double_gt(cell.cystine_lost, 0.01);
    ck_assert(!sl_limits_of(timeline, ARM_6, NULL).stop_reached[SL_STOP_BASE]);
    const sl_rank_request ranked = {.minute = 20, .share = 0.5, .members = 16, .seed = 1, .threads = 1};
    sl_rank *rank = NULL;
    ck_assert(sl_rank_run(&rank, &small.scene, &ranked, NULL));
    ck_assert_double_eq(sl_rank_middle(rank, ARM_6, ZONE_RED, SL_BASE_THEN).p90, 0.0);
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 16, .seed = 1, .threads = 1};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    ck_assert_int_eq(spread->arms[ARM_6].late_by[SL_STOP_BASE], 0);
    sl_spread_free(spread);
    sl_rank_free(rank);
}
END_TEST

/* ---- first times, limits ---------------------------------------------------------------------------- */

START_TEST(what_is_there_at_the_start_is_there_at_contact)
{
    double minute = -1.0;
    small.arms[ARM_6].contact_min = 4.0;
    solve();
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_BASE_MOVED, 0.0, &minute));
    ck_assert_double_eq(minute, 4.0);
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, 1.0, &minute));
    ck_assert_double_eq(minute, 4.0);
}
END_TEST

START_TEST(a_zone_that_is_not_wanted_or_has_no_dye_is_never_at_its_goal)
{
    small.scene.aims = (sl_aims){.colour_left = 1.0, .zone_left = {[ZONE_RED] = 0.5}};
    solve();
    double minute = -1.0;
    ck_assert(sl_goal_time(timeline, ARM_6, ZONE_RED, &minute));
    ck_assert(sl_goal_there(timeline, ARM_6, ZONE_RED, 30.0));
    ck_assert(!sl_goal_there(timeline, ARM_6, ZONE_VIOLET, 30.0));
    ck_assert(!sl_goal_there(timeline, ARM_6, ZONE_UNDYED, 30.0));
    ck_assert(!sl_goal_time(timeline, ARM_6, ZONE_VIOLET, &minute));
    ck_assert(!sl_goal_time(timeline, ARM_UNDYED, ZONE_RED, &minute));
    ck_assert(!sl_goal_there(timeline, ARM_UNDYED, ZONE_RED, 30.0));
    ck_assert(!sl_goal_time(timeline, ARM_REDUCING, ZONE_RED, &minute));
}
END_TEST

START_TEST(a_stop_later_than_the_scene_is_none)
{
    small.scene.aims.longest_min = (sl_bound){60.1, true};
    small.mixes[MIX_POWDER_6].label_max_min = 25.0;
    small.scene.until_min = 20.0;
    solve();
    sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
    ck_assert(limits.asked && !limits.stop_reached[SL_STOP_CHAIR] && !limits.stop_reached[SL_STOP_LABEL]);
    ck_assert_double_eq(limits.stop_min[SL_STOP_END], 20.0);
    small.scene.until_min = 60.1;
    solve();
    limits = sl_limits_of(timeline, ARM_6, NULL);
    ck_assert(limits.stop_reached[SL_STOP_CHAIR] && limits.stop_reached[SL_STOP_LABEL]);
    ck_assert_int_eq(limits.stop, SL_STOP_LABEL);
}
END_TEST

/* Of two hairs the one that moves sooner stops the arm, in whichever order they stand. */
START_TEST(of_two_hairs_the_one_that_moves_first_stops)
{
    small.scene.aims = (sl_aims){.colour_left = 0.3, .cystine_lost = {0.1, true}};
    small.zones[ZONE_RED].hair = 0;
    small.zones[ZONE_ROOT].recipe.n_dyes = 0; /* undyed hair of both kinds */
    for (int order = 0; order < 2; order++) {
        solve();
        const sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
        const int sooner = limits.stop_zone[SL_STOP_STRESS];
        double one = 0.0, other = 0.0;
        ck_assert(sl_first_time(sl_timeline_rinsed(timeline), ARM_6, ZONE_ROOT, SL_CYSTINE_LOST, 0.1, &one));
        ck_assert(
            sl_first_time(sl_timeline_rinsed(timeline), ARM_6, ZONE_UNDYED, SL_CYSTINE_LOST, 0.1, &other));
        ck_assert_double_gt(fabs(one - other), 0.1);
        ck_assert_double_eq(limits.stop_min[SL_STOP_STRESS], fmin(one, other));
        ck_assert_int_eq(sooner, one < other ? ZONE_ROOT : ZONE_UNDYED);
        for (int zone = 0; zone < SMALL_ZONES; zone++) {
            small.zones[zone].hair = 1 - small.zones[zone].hair;
        }
    }
}
END_TEST

START_TEST(an_application_of_a_moment_and_one_that_comes_later_are_not_called_spent)
{
    small.arms[ARM_6].steps[0].duration_min = 0.15;
    small.arms[ARM_3].steps[0] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 2.0};
    small.arms[ARM_3].steps[1] =
        (sl_step){.kind = SL_STEP_APPLY, .duration_min = 30.0, .mix = MIX_POWDER_3, .mix_g_per_g = 6.0};
    solve();
    for (int arm = ARM_3; arm <= ARM_6; arm++) {
        const sl_limits limits = sl_limits_of(timeline, arm, NULL);
        ck_assert(limits.asked && !limits.spent);
        ck_assert_double_eq(limits.spent_min, 0.0);
    }
}
END_TEST

/* ---- things seen and typed ------------------------------------------------------------------------ */

START_TEST(things_seen_of_what_cannot_be_seen_are_refused)
{
    const sl_observation good = {
        .arm = ARM_6, .zone = SL_OBSERVED_ALL_ZONES, .minute = 5.0, .wipe = SL_WIPE_HALF};
    sl_observations observations = {1, {good}};
    ck_assert(sl_observations_check(&observations, &small.scene, NULL));
    observations.n = -1;
    ck_assert(!sl_observations_check(&observations, &small.scene, NULL));
    observations.n = 1;
    for (int arm = 0; arm < 2; arm++) {
        observations.observation[0].arm = arm ? SMALL_ARMS : ARM_UNDYED;
        ck_assert(!sl_observations_check(&observations, &small.scene, NULL));
    }
    observations.observation[0] = good;
    for (int zone = 0; zone < SMALL_ZONES; zone++) {
        small.zones[zone].recipe.n_dyes = 0;
    }
    sl_error error = {0};
    ck_assert(!sl_observations_check(&observations, &small.scene, &error));
    ck_assert_ptr_nonnull(strstr(error.found, "no such zone, or one without direct dye"));
}
END_TEST

START_TEST(two_lists_of_things_seen_are_the_same_only_when_every_field_is)
{
    const sl_observations one = {1, {{.arm = 1, .zone = 2, .minute = 3.0, .wipe = SL_WIPE_HALF}}};
    sl_observations other[] = {one, one, one, one, one, one, one};
    other[1].n = 0;
    other[2].observation[0].arm++;
    other[3].observation[0].zone++;
    other[4].observation[0].minute += 1e-9;
    other[5].observation[0].wipe = (sl_wipe)0;
    other[6].observation[0].strand = true;
    for (int i = 0; i < 7; i++) {
        ck_assert_int_eq(sl_observations_same(&one, &other[i]), i == 0);
    }
}
END_TEST

START_TEST(a_typed_strand_with_a_place_that_no_scene_has_stops_the_form)
{
    const sl_observation good = {
        .arm = 0, .zone = SL_OBSERVED_ALL_ZONES, .minute = 5.0, .wipe = SL_WIPE_HALF, .strand = true};
    sl_intake form = small_clear_form();
    form.showed = (sl_observations){1, {good}};
    ck_assert(!sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED]);
    for (int i = 0; i < 5; i++) {
        form.showed = (sl_observations){i == 3 ? -1 : i == 4 ? SL_MOST_OBSERVATIONS + 1 : 1, {good}};
        form.showed.observation[0].arm = i == 0 ? -1 : 0;
        form.showed.observation[0].zone = i == 1 ? SL_OBSERVED_ALL_ZONES - 1 : 0;
        form.showed.observation[0].wipe = i == 2 ? SL_WIPES : SL_WIPE_HALF;
        ck_assert_msg(sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED], "%d", i);
    }
}
END_TEST

START_TEST(a_code_without_an_end_is_no_code)
{
    sl_intake form = small_clear_form();
    memset(form.person, 'K', sizeof form.person);
    const sl_intake_result result = sl_intake_judge(&form);
    ck_assert(result.stopped[SL_INTAKE_PERSON] && !result.minutes);
}
END_TEST

START_TEST(a_part_of_the_hair_has_a_word_that_leads_back_to_it)
{
    ck_assert_ptr_null(sl_hair_part_word(SL_HAIR_NOWHERE));
    ck_assert_ptr_null(sl_hair_part_word(SL_HAIR_PARTS));
    for (int part = 1; part < SL_HAIR_PARTS; part++) {
        ck_assert_int_eq(sl_hair_part_of_word(sl_hair_part_word((sl_hair_part)part)), part);
    }
    ck_assert_int_eq(sl_hair_part_of_word("elbow"), SL_HAIR_NOWHERE);
}
END_TEST

START_TEST(a_ranking_of_a_head_or_of_what_cannot_be_solved_is_refused)
{
    sl_rank *rank = NULL;
    const sl_rank_request request = {.minute = 10, .share = 0.5, .members = 16, .seed = 1, .threads = 1};
    small.scene.place = SL_PLACE_HEAD;
    ck_assert(!sl_rank_run(&rank, &small.scene, &request, NULL));
    small.scene.place = SL_PLACE_BENCH;
    small.scene.chemistry.couple_l_mol_min.value = 1e9; /* no step is short enough */
    sl_error error = {0};
    ck_assert(!sl_rank_run(&rank, &small.scene, &request, &error));
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert_msg(strncmp(error.found, "member 0 of strip \"", 19) == 0, "%s", error.found);
    ck_assert(!sl_rank_run(&rank, &small.scene, &request, NULL));
    ck_assert_ptr_null(rank);
}
END_TEST

START_SUITE("edges")
FIXTURE(set_up, tear_down)
ADD(a_ratio_needs_powder_and_something_to_stir_it_into)
ADD(a_setting_is_read_from_where_a_change_writes_it)
ADD(a_change_outside_its_range_is_refused_with_the_range)
ADD(a_change_meets_the_first_mix_and_its_time_alone)
ADD(rounds_of_an_arm_that_is_never_rinsed_are_rinsed_as_usual)
CASE("searches")
FIXTURE(set_up, tear_down)
ADD(a_goal_that_is_there_within_a_minute_is_given_the_shortest_time)
ADD(of_mixes_that_reach_the_goal_the_one_with_least_stress_is_best)
ADD(no_time_longer_than_the_chair_s_is_tried)
ADD(each_mix_is_tried_once_and_only_where_it_is_alone_on_dyed_hair)
CASE("maps")
FIXTURE(set_up, tear_down)
ADD(a_map_with_a_corner_that_cannot_be_is_refused)
ADD(no_point_of_a_mix_above_what_law_allows_is_inside)
CASE("hair")
FIXTURE(set_up, tear_down)
ADD(hair_as_porous_and_more_damaged_is_solved_apart)
ADD(hair_without_melanin_has_no_base_that_moves)
CASE("limits")
FIXTURE(set_up, tear_down)
ADD(what_is_there_at_the_start_is_there_at_contact)
ADD(a_zone_that_is_not_wanted_or_has_no_dye_is_never_at_its_goal)
ADD(a_stop_later_than_the_scene_is_none)
ADD(of_two_hairs_the_one_that_moves_first_stops)
ADD(an_application_of_a_moment_and_one_that_comes_later_are_not_called_spent)
CASE("seen")
FIXTURE(set_up, tear_down)
ADD(things_seen_of_what_cannot_be_seen_are_refused)
ADD(two_lists_of_things_seen_are_the_same_only_when_every_field_is)
ADD(a_typed_strand_with_a_place_that_no_scene_has_stops_the_form)
ADD(a_code_without_an_end_is_no_code)
ADD(a_part_of_the_hair_has_a_word_that_leads_back_to_it)
ADD(a_ranking_of_a_head_or_of_what_cannot_be_solved_is_refused)
END_SUITE
