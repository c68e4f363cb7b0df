/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/limits.h"

#include <math.h>

#include "small_scene.h"
#include "suite.h"

static small_scene small;

static sl_timeline *solve(void)
{
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    sl_solver_free(solver);
    return timeline;
}

static double colour_left(const sl_timeline *timeline, int arm, int zone, double time_min)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, time_min, NULL, &cell);
    return cell.colour_left;
}

START_TEST(the_first_time_is_where_the_share_is_crossed)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve();
    for (double share = 0.9; share > 0.35; share -= 0.1) {
        double t = 0.0;
        ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, share, &t));
        ck_assert_double_le(colour_left(timeline, ARM_6, ZONE_RED, t), share);
        ck_assert_double_gt(colour_left(timeline, ARM_6, ZONE_RED, t - 1.0 / 60.0), share);
    }
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(what_never_happens_has_no_time)
{
    small_scene_fill(&small);
    sl_timeline *const timeline = solve();
    double t = -7.0;
    ck_assert(!sl_first_time(timeline, ARM_UNTREATED, ZONE_RED, SL_COLOUR_LEFT, 0.5, &t));
    ck_assert(!sl_first_time(timeline, ARM_6, ZONE_UNDYED, SL_COLOUR_LEFT, 0.5, &t));
    ck_assert(!sl_first_time(timeline, ARM_REDUCING, ZONE_RED, SL_COLOUR_LEFT, 0.5, &t));
    ck_assert(!sl_first_time(timeline, ARM_MILD, ZONE_RED, SL_CYSTINE_LOST, 0.9, &t));
    ck_assert_double_eq(t, -7.0);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(every_strip_meets_at_the_same_share)
{
    small_scene_fill(&small);
    small.arms[ARM_3].contact_min = 3.0;
    sl_timeline *const timeline = solve();
    sl_meeting meeting[SMALL_ARMS];
    sl_same_colour_left(timeline, ZONE_VIOLET, 0.5, meeting);
    ck_assert(!meeting[ARM_UNTREATED].reached);
    ck_assert(!meeting[ARM_UNDYED].reached);
    for (int arm = ARM_WATER; arm <= ARM_6; arm++) {
        ck_assert(meeting[arm].reached);
        ck_assert_double_eq_tol(colour_left(timeline, arm, ZONE_VIOLET, meeting[arm].time_min), 0.5, 1e-3);
    }
    ck_assert_double_eq_tol(meeting[ARM_3].time_min - meeting[ARM_3].since_contact_min, 3.0, 1e-12);
    ck_assert_double_lt(meeting[ARM_6].since_contact_min, meeting[ARM_WATER].since_contact_min);
    sl_timeline_free(timeline);
}
END_TEST

START_TEST(the_reference_is_undyed_hair_of_the_same_kind)
{
    small_scene_fill(&small);
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_RED), ZONE_UNDYED);
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_ROOT), ZONE_UNDYED); /* no undyed virgin hair */
    small.zones[ZONE_VIOLET] = (sl_zone){.name = "undyed root", .hair = 0, .recipe = {0}};
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_ROOT), ZONE_VIOLET);
}
END_TEST

START_TEST(limits_are_asked_for_by_aims_only)
{
    small_scene_fill(&small);
    sl_timeline *timeline = solve();
    ck_assert(!sl_limits_of(timeline, ARM_6, NULL).asked);
    sl_timeline_free(timeline);
    small.scene.aims = (sl_aims){.colour_left = 0.5};
    timeline = solve();
    ck_assert(!sl_limits_of(timeline, ARM_UNTREATED, NULL).asked);
    ck_assert(!sl_limits_of(timeline, ARM_UNDYED, NULL).asked);
    ck_assert(!sl_limits_of(timeline, ARM_REDUCING, NULL).asked);
    ck_assert(sl_limits_of(timeline, ARM_6, NULL).asked);
    sl_timeline_free(timeline);
}
END_TEST

static sl_limits limits_with(double longest_min, double label_min)
{
    small_scene_fill(&small);
    small.scene.aims = (sl_aims){.colour_left = 0.5, .longest_min = {longest_min, longest_min > 0.0}};
    small.mixes[MIX_POWDER_6].label_max_min = label_min;
    sl_timeline *const timeline = solve();
    const sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
    sl_timeline_free(timeline);
    return limits;
}

/* The longest time before the goal leaves the zone that arrives last above it. */
START_TEST(a_time_that_ends_before_the_goal_leaves_colour)
{
    const sl_limits open = limits_with(0.0, 0.0);
    ck_assert(open.early_reached && open.stop == SL_STOP_END);
    ck_assert_int_eq(open.early_zone, ZONE_RED);
    const sl_limits close = limits_with(open.early_min + 2.0, 0.0),
                    shut = limits_with(open.early_min - 2.0, 0.0);
    ck_assert(close.stop == SL_STOP_CHAIR && close.left_at_stop < 0.5);
    ck_assert(shut.stop == SL_STOP_CHAIR && shut.left_at_stop > 0.5);
    ck_assert_double_eq_tol(limits_with(open.early_min, 0.0).left_at_stop, 0.5, 1e-4);
}
END_TEST

START_TEST(the_first_limit_binds_and_is_named)
{
    small_scene_fill(&small);
    small.scene.aims = (sl_aims){.colour_left = 0.5,
                                 .cystine_lost = {0.02, true},
                                 .base_moved = {0.5, true},
                                 .longest_min = {40.0, true}};
    sl_timeline *const timeline = solve();
    const sl_limits limits = sl_limits_of(timeline, ARM_6, NULL);
    ck_assert_int_eq(limits.stop, SL_STOP_STRESS);
    ck_assert_int_eq(limits.stop_zone[limits.stop], ZONE_UNDYED);
    sl_cell cell;
    sl_timeline_at(sl_timeline_rinsed(timeline), ARM_6, ZONE_UNDYED, limits.stop_min[limits.stop], NULL,
                   &cell);
    ck_assert_double_eq_tol(cell.cystine_lost, 0.02, 1e-4);
    sl_timeline_free(timeline);
}
END_TEST

/* A share that is there from the contact on has its time there; one that is there just as the scene ends has
 * it then. */
START_TEST(a_share_is_reached_at_the_very_ends_too)
{
    small_scene_fill(&small);
    small.arms[ARM_6].contact_min = 7.0;
    sl_timeline *const timeline = solve();
    double t = -7.0;
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, 1.0, &t));
    ck_assert_double_eq(t, 7.0);
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_UNDYED, SL_BASE_MOVED, 0.0, &t));
    ck_assert_double_eq(t, 7.0);
    ck_assert(sl_first_time(timeline, ARM_UNTREATED, ZONE_UNDYED, SL_CYSTINE_LOST, 0.0, &t));
    ck_assert_double_eq(t, 0.0);
    const double end = colour_left(timeline, ARM_6, ZONE_RED, 60.0);
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, end, &t));
    ck_assert_double_le(colour_left(timeline, ARM_6, ZONE_RED, t), end);
    ck_assert(!sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, nextafter(end, 0.0), &t));
    sl_cell cell;
    sl_timeline_at(timeline, ARM_6, ZONE_UNDYED, 60.0, NULL, &cell);
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_UNDYED, SL_CYSTINE_LOST, cell.cystine_lost, &t));
    ck_assert(
        !sl_first_time(timeline, ARM_6, ZONE_UNDYED, SL_CYSTINE_LOST, nextafter(cell.cystine_lost, 1.0), &t));
    sl_timeline_free(timeline);
}
END_TEST

/* Of a longest time and a label that end together the label is named; a time later than the scene stops
 * nothing. */
START_TEST(of_two_times_that_end_together_the_label_is_named)
{
    ck_assert_int_eq(limits_with(25.0, 0.0).stop, SL_STOP_CHAIR);
    ck_assert_int_eq(limits_with(0.0, 25.0).stop, SL_STOP_LABEL);
    const sl_limits both = limits_with(25.0, 25.0);
    ck_assert_int_eq(both.stop, SL_STOP_LABEL);
    ck_assert_int_eq(both.stop_zone[both.stop], -1);
    ck_assert_double_eq(both.stop_min[both.stop], 25.0);
    ck_assert_int_eq(limits_with(60.5, 0.0).stop, SL_STOP_END);
    ck_assert_int_eq(limits_with(60.0, 0.0).stop, SL_STOP_CHAIR);
}
END_TEST

/* Base and hair are read in undyed hair of the zone's own kind, wherever it lies in the strip; else in the
 * last. */
START_TEST(the_first_undyed_hair_of_the_same_kind_is_the_reference)
{
    small_scene_fill(&small);
    const sl_recipe none = {0};
    small.zones[ZONE_ROOT] = (sl_zone){.name = "a", .hair = 1, .recipe = none};
    small.zones[ZONE_VIOLET] = (sl_zone){.name = "b", .hair = 1, .recipe = none};
    small.zones[ZONE_MIXED].hair = 0;
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_RED), ZONE_ROOT);
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_MIXED), ZONE_UNDYED);
    small.zones[ZONE_UNDYED].hair = 0;
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_MIXED), ZONE_UNDYED);
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_UNDYED), ZONE_UNDYED);
    small.scene.n_zones = ZONE_UNDYED;
    ck_assert_int_eq(sl_reference_zone(&small.scene, ZONE_MIXED), ZONE_VIOLET);
}
END_TEST

/* What a cell says of each quantity. */
START_TEST(each_quantity_of_a_cell_is_its_own)
{
    const sl_cell cell = {.colour_left = 0.1, .base_moved = 0.2, .cystine_lost = 0.3};
    ck_assert_double_eq(sl_cell_quantity(&cell, SL_COLOUR_LEFT), 0.1);
    ck_assert_double_eq(sl_cell_quantity(&cell, SL_BASE_MOVED), 0.2);
    ck_assert_double_eq(sl_cell_quantity(&cell, SL_CYSTINE_LOST), 0.3);
}
END_TEST

/* A strip that was begun before the clock, and has nothing left when it starts: it is at any share then. */
START_TEST(nothing_left_at_the_start_is_at_every_share)
{
    small_scene_fill(&small);
    small.arms[ARM_6].contact_min = -20.0;
    small.dyes[1].rates = rates_of(1e7, 1e7, 1e7);
    sl_timeline *const timeline = solve();
    double t = -7.0;
    ck_assert(colour_left(timeline, ARM_6, ZONE_RED, 0.0) <= 0.0);
    ck_assert(sl_first_time(timeline, ARM_6, ZONE_RED, SL_COLOUR_LEFT, 0.0, &t));
    ck_assert_double_eq(t, 0.0);
    sl_timeline_free(timeline);
}
END_TEST

static bool place_times(int arm, sl_place from, sl_place to, sl_times_range *times, sl_error *error)
{
    sl_timeline *const timeline = solve();
    const bool good = sl_place_times(timeline, arm, from, to, times, error);
    sl_timeline_free(timeline);
    return good;
}

static double arrhenius(double kj_mol, double from_c, double to_c)
{
    return exp(kj_mol / 0.008314462618 * (1.0 / (from_c + 273.15) - 1.0 / (to_c + 273.15)));
}

/* Where every rate has one energy and nothing else changes, time itself is stretched: an arm that loses no
 * dye to water, out of a liquid without powder, on hair that does not swell, is E(50) times as fast. */
START_TEST(one_energy_for_everything_stretches_time_alone)
{
    small_scene_fill(&small);
    sl_chemistry *const ch = &small.scene.chemistry;
    sl_param *const energies[] = {&ch->loss_activation_kj_mol,       &ch->couple_activation_kj_mol,
                                  &ch->hydrolysis_activation_kj_mol, &ch->thermal_activation_kj_mol,
                                  &ch->diffusion_activation_kj_mol,  &ch->channel_activation_kj_mol[0],
                                  &ch->channel_activation_kj_mol[1], &ch->channel_activation_kj_mol[2]};
    for (int i = 0; i < 8; i++) {
        energies[i]->value = 50.0;
    }
    ch->pka_enthalpy_kj_mol.value = ch->swelling_deficit.value = ch->fibre_loss_per_min.value = 0.0;
    ch->damage_opens.value = ch->lipids_open.value = 0.0;
    for (int i = 0; i < SMALL_DYES; i++) {
        small.dyes[i].leach_per_min.value = 0.0;
    }
    small.scene.room_c = 22.0;
    ch->head_c.value = 33.0;
    sl_times_range there, back, same;
    sl_error error;
    ck_assert(place_times(ARM_MILD, SL_PLACE_BENCH, SL_PLACE_HEAD, &there, &error));
    ck_assert(place_times(ARM_MILD, SL_PLACE_HEAD, SL_PLACE_BENCH, &back, &error));
    ck_assert(place_times(ARM_MILD, SL_PLACE_HEAD, SL_PLACE_HEAD, &same, &error));
    ck_assert_double_eq_tol(there.least, arrhenius(50.0, 22.0, 33.0), 1e-3);
    ck_assert_double_eq_tol(there.most, arrhenius(50.0, 22.0, 33.0), 1e-3);
    ck_assert_double_eq_tol(back.least * there.most, 1.0, 1e-3);
    ck_assert_double_eq_tol(same.most, 1.0, 1e-3);
}
END_TEST

/* Of mixes that grow weaker, the same colour is reached later than rate constants say. Of hair that opens by
 * what radicals take from it that need not be so: warmth makes them faster, and lets more of them in. */
START_TEST(a_place_s_times_are_those_to_the_same_colour)
{
    small_scene_fill(&small);
    small.scene.chemistry.lipids_open.value = 0.0;
    small.scene.room_c = 22.0;
    sl_times_range times;
    sl_error error;
    ck_assert(place_times(ARM_6, SL_PLACE_BENCH, SL_PLACE_HEAD, &times, &error));
    sl_timeline *const bench = solve();
    small.scene.place = SL_PLACE_HEAD;
    sl_timeline *const head = solve();
    double least = HUGE_VAL, most = 0.0;
    for (int zone = ZONE_RED; zone <= ZONE_MIXED; zone++) {
        double minute = 0.0; /* the small scene's mixes stay 30 min */
        ck_assert(
            sl_first_time(head, ARM_6, zone, SL_COLOUR_LEFT, colour_left(bench, ARM_6, zone, 30.0), &minute));
        least = fmin(least, 30.0 / minute);
        most = fmax(most, 30.0 / minute);
    }
    ck_assert_double_eq_tol(times.least, least, 1e-12);
    ck_assert_double_eq_tol(times.most, most, 1e-12);
    ck_assert_double_gt(times.least, 1.0);
    ck_assert_double_lt(times.most, arrhenius(70.0, 22.0, 32.0));
    sl_timeline_free(bench);
    sl_timeline_free(head);
}
END_TEST

START_TEST(a_bench_warmer_than_a_head_is_faster)
{
    small_scene_fill(&small);
    small.scene.n_points = 1; /* the scene's own course counts, in its own place */
    small.scene.points[0] = (sl_course_point){0.0, 36.0};
    sl_times_range times;
    sl_error error;
    ck_assert(place_times(-1, SL_PLACE_BENCH, SL_PLACE_HEAD, &times, &error));
    ck_assert_double_lt(times.most, 1.0);
    ck_assert_double_gt(times.least, 0.0);
    small.scene.n_points = 0;
    small.scene.room_c = 32.0;
    small.scene.shift_k = 4.0; /* and what a what-if adds to it */
    sl_times_range warmer;
    ck_assert(place_times(-1, SL_PLACE_BENCH, SL_PLACE_HEAD, &warmer, &error));
    ck_assert_double_eq_tol(warmer.most, times.most, 1e-9);
}
END_TEST

START_TEST(an_arm_without_a_mix_or_a_dye_has_no_times)
{
    static const int none[] = {ARM_UNTREATED, ARM_WASHING, ARM_UNDYED, ARM_REDUCING};
    small_scene_fill(&small);
    for (int i = 0; i < 4; i++) {
        sl_times_range times = {7.0, 7.0};
        sl_error error;
        ck_assert(place_times(none[i], SL_PLACE_BENCH, SL_PLACE_WRAPPED, &times, &error));
        ck_assert_msg(times.least <= 0.0 && times.most <= 0.0, "%s", small.arms[none[i]].name);
    }
}
END_TEST

START_SUITE("estimate")
ADD(one_energy_for_everything_stretches_time_alone)
ADD(a_place_s_times_are_those_to_the_same_colour)
ADD(a_bench_warmer_than_a_head_is_faster)
ADD(an_arm_without_a_mix_or_a_dye_has_no_times)
ADD(the_first_time_is_where_the_share_is_crossed)
ADD(what_never_happens_has_no_time)
ADD(every_strip_meets_at_the_same_share)
ADD(the_reference_is_undyed_hair_of_the_same_kind)
ADD(limits_are_asked_for_by_aims_only)
ADD(a_time_that_ends_before_the_goal_leaves_colour)
ADD(the_first_limit_binds_and_is_named)
ADD(a_share_is_reached_at_the_very_ends_too)
ADD(of_two_times_that_end_together_the_label_is_named)
ADD(the_first_undyed_hair_of_the_same_kind_is_the_reference)
ADD(each_quantity_of_a_cell_is_its_own)
ADD(nothing_left_at_the_start_is_at_every_share)
END_SUITE
