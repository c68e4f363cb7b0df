/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/what_if.h"

#include <math.h>

#include "small_scene.h"
#include "suite.h"
#include <string.h>

static small_scene small;
static sl_timeline *timeline;
static sl_solver *solver;

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.until_min = 100.0; /* dry, however long it lies in these tests */
    small.scene.room_c = 29.9;     /* warmer hair counts as a head */
    small.scene.aims = (sl_aims){.colour_left = 0.3,
                                 .base_moved = {0.5, true},
                                 .cystine_lost = {0.2, true},
                                 .longest_min = {45.0, true}};
    solver = sl_solver_new(NULL);
    timeline = NULL;
}

static void done(void)
{
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

static sl_outcome outcome_of(const sl_scene *scene, int arm)
{
    sl_outcome outcome;
    ck_assert(sl_outcome_of(&outcome, scene, arm, &timeline, solver, NULL));
    ck_assert(sl_outcome_find_limits(&outcome, arm, timeline, solver, NULL));
    return outcome;
}

static sl_outcome changed(int arm, sl_setting setting, double to)
{
    sl_changes changes = {.set = {false}};
    sl_variant variant;
    ck_assert(sl_changes_set(&changes, &small.scene, arm, setting, to, NULL));
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, arm, NULL), 1);
    sl_variant_make(&variant, &small.scene, arm, &changes);
    return outcome_of(&variant.scene, 0);
}

/* The same numbers through the same solver: alike to the last bit. */
static void same(const sl_outcome *one, const sl_outcome *two)
{
    for (int zone = 0; zone < SMALL_ZONES; zone++) {
        ck_assert_double_eq(one->left[zone], two->left[zone]);
    }
    ck_assert_double_eq(one->base_moved, two->base_moved);
    ck_assert_double_eq(one->cystine_lost, two->cystine_lost);
    ck_assert_int_eq(one->limits.asked, two->limits.asked);
    ck_assert_double_eq(one->limits.early_min, two->limits.early_min);
}

START_TEST(a_variant_is_what_the_scene_changed_by_hand_gives)
{
    fresh();
    const sl_outcome plain = outcome_of(&small.scene, ARM_6);
    sl_variant variant;
    sl_variant_make(&variant, &small.scene, ARM_6, NULL);
    const sl_outcome alone = outcome_of(&variant.scene, 0);
    same(&plain, &alone);
    const sl_outcome asked[] = {
        changed(ARM_6, SL_SETTING_STRENGTH, 3.0), changed(ARM_6, SL_SETTING_DWELL, 12.0),
        changed(ARM_6, SL_SETTING_WARMER, -6.0),  changed(ARM_6, SL_SETTING_RATIO, 4.0),
        changed(ARM_6, SL_SETTING_AGE, 20.0),     changed(ARM_6, SL_SETTING_GRAMS, 2.0),
        changed(ARM_6, SL_SETTING_COVERED, 0.0),  changed(ARM_6, SL_SETTING_WATER, 3.0)};
    for (int i = 0; i < 8; i++) {
        small_scene_fill(&small);
        small.scene.until_min = 100.0;
        small.scene.room_c = 29.9; /* warmer hair counts as a head */
        small.scene.aims = (sl_aims){.colour_left = 0.3,
                                     .base_moved = {0.5, true},
                                     .cystine_lost = {0.2, true},
                                     .longest_min = {45.0, true}};
        sl_step *const apply = &small.arms[ARM_6].steps[0];
        sl_mix *const mix = &small.mixes[MIX_POWDER_6];
        mix->developer_pct = i == 0 ? 3.0 : mix->developer_pct;
        apply->duration_min = i == 1 ? 12.0 : apply->duration_min;
        small.scene.shift_k = i == 2 ? -6.0 : 0.0;
        mix->developer_parts = i == 3 ? 4.0 : mix->developer_parts;
        apply->mix_age_min = i == 4 ? 20.0 : apply->mix_age_min;
        apply->mix_g_per_g = i == 5 ? 2.0 : apply->mix_g_per_g;
        apply->covered = i != 6;
        mix->water_parts = i == 7 ? 3.0 : mix->water_parts;
        const sl_outcome by_hand = outcome_of(&small.scene, ARM_6);
        same(&asked[i], &by_hand);
        ck_assert(fabs(by_hand.worst_left - plain.worst_left) > 1e-6);
    }
    done();
}
END_TEST

START_TEST(a_variant_leaves_the_scene_as_it_was)
{
    fresh();
    changed(ARM_6, SL_SETTING_STRENGTH, 12.0);
    ck_assert_double_eq(small.mixes[MIX_POWDER_6].developer_pct, 6.0);
    ck_assert_double_eq(small.arms[ARM_6].steps[0].duration_min, 30.0);
    done();
}
END_TEST

START_TEST(the_guard_counts_what_differs)
{
    fresh();
    sl_changes changes = {.set = {false}};
    sl_setting which[SL_SETTINGS];
    sl_error error = {.code = SL_OK};
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, SL_SETTING_STRENGTH, 6.0, &error));
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, which), 0); /* as it was */
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, SL_SETTING_STRENGTH, 3.0, &error));
    ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, SL_SETTING_DWELL, 20.0, &error));
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, which), 2);
    ck_assert_int_eq(which[0], SL_SETTING_STRENGTH);
    ck_assert_int_eq(which[1], SL_SETTING_DWELL);
    ck_assert(!sl_changes_set(&changes, &small.scene, ARM_6, SL_SETTING_STRENGTH, 12.5, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    ck_assert(!sl_changes_set(&changes, &small.scene, ARM_UNTREATED, SL_SETTING_DWELL, 5.0, &error));
    ck_assert(!sl_changes_set(&changes, &small.scene, ARM_WATER, SL_SETTING_STRENGTH, 5.0, &error));
    ck_assert(!sl_changes_set(&changes, &small.scene, ARM_REDUCING, SL_SETTING_DWELL, 5.0, &error));
    done();
}
END_TEST

START_TEST(two_rounds_are_two_applications_with_a_rinse_between)
{
    fresh();
    sl_variant variant;
    ck_assert(sl_variant_rounds(&variant, &small.scene, ARM_6, 2, 15.0, NULL));
    ck_assert_int_eq(variant.arm.n_steps, 5);
    ck_assert_int_eq(variant.arm.steps[1].kind, SL_STEP_RINSE);
    ck_assert_int_eq(variant.arm.steps[2].kind, SL_STEP_APPLY);
    ck_assert_double_eq(sl_arm_done_min(&variant.arm), 15.0 + 2.0 + 15.0 + 2.0 + 1.0);
    const sl_outcome rounds = outcome_of(&variant.scene, 0);
    ck_assert(sl_variant_rounds(&variant, &small.scene, ARM_6, 1, 30.0, NULL));
    const sl_outcome one = outcome_of(&variant.scene, 0);
    const sl_outcome plain = outcome_of(&small.scene, ARM_6);
    same(&one, &plain);
    /* the second round brings fresh oxidant: more comes out than in one that runs down */
    ck_assert_double_lt(rounds.worst_left, one.worst_left);
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_6, 8, 5.0, NULL)); /* 17 steps */
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_UNTREATED, 2, 5.0, NULL));
    done();
}
END_TEST

START_TEST(the_search_finds_what_a_fine_grid_finds)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.mixes[MIX_POWDER_6].label_max_min = 40.0;
    small.scene.aims.base_moved = (sl_bound){0.95, true}; /* wide, so that the goal alone binds */
    small.scene.aims.cystine_lost = (sl_bound){0.5, true};
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 1);
    ck_assert_int_eq(search.not_allowed, 3); /* water, 3 %, mild */
    ck_assert_int_eq(search.best, 0);
    const sl_trial *const trial = &search.trial[0];
    ck_assert_double_le(trial->worst_left, 0.3);
    double least = 1.0;
    for (double strength = 1.0; strength <= 6.0; strength += 0.25) {
        for (double dwell = 1.0; dwell <= 40.0; dwell += 0.5) {
            sl_changes changes = {.set = {[SL_SETTING_STRENGTH] = true, [SL_SETTING_DWELL] = true}};
            changes.to[SL_SETTING_STRENGTH] = strength;
            changes.to[SL_SETTING_DWELL] = dwell;
            sl_variant variant;
            sl_variant_make(&variant, &small.scene, ARM_6, &changes);
            const sl_outcome outcome = outcome_of(&variant.scene, 0);
            if (outcome.worst_left <= 0.3) {
                least = outcome.cystine_lost < least ? outcome.cystine_lost : least;
                break; /* longer only costs more */
            }
        }
    }
    /* no point of the grid is better; the grid's own half minute costs at most 0.003 here */
    ck_assert_double_le(trial->cystine_lost, least + 1e-5);
    ck_assert_double_ge(trial->cystine_lost, least - 0.003);
    done();
}
END_TEST

START_TEST(the_search_says_none_honestly)
{
    fresh();
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 0); /* nobody marked a mix */
    ck_assert_int_eq(search.best, -1);
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.scene.aims.cystine_lost = (sl_bound){0.001, true};
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 1);
    ck_assert_int_eq(search.best, -1);
    small.scene.aims.cystine_lost = (sl_bound){0.5, true};
    small.scene.aims.base_moved = (sl_bound){0.95, true};
    small.mixes[MIX_POWDER_6].label_max_min = 40.0;
    small.arms[ARM_6].steps[0].mix_age_min = 39.5; /* the label's time is as good as over */
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.best, -1);
    small.mixes[MIX_POWDER_6].label_from_contact = true; /* and not over when it counts from contact */
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.best, 0);
    ck_assert_double_le(search.trial[0].dwell_min, 40.0);
    small.scene.aims.colour_left = 1.0;
    ck_assert(!sl_search_run(&search, &small.scene, solver, NULL));
    small.scene.aims.colour_left = 0.3;
    small.scene.place = SL_PLACE_HEAD;
    ck_assert(!sl_search_run(&search, &small.scene, solver, NULL));
    done();
}
END_TEST

/* What a trial says is what its strength and time come to, by a timeline of their own. */
START_TEST(a_trial_says_what_its_mix_comes_to)
{
    fresh();
    small.scene.aims.base_moved = (sl_bound){0.95, true};
    small.scene.aims.cystine_lost = (sl_bound){0.5, true};
    for (int mix = MIX_POWDER_WATER; mix <= MIX_MILD; mix++) {
        small.mixes[mix].label_allows = true;
        small.mixes[mix].label_max_min = 50.0;
    }
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 4);
    int found = 0;
    for (int i = 0; i < search.n; i++) {
        const sl_trial *const trial = &search.trial[i];
        sl_changes changes = {.set = {[SL_SETTING_DWELL] = true}};
        changes.to[SL_SETTING_DWELL] = trial->dwell_min;
        changes.set[SL_SETTING_STRENGTH] = small.mixes[trial->mix].developer_parts > 0.0;
        changes.to[SL_SETTING_STRENGTH] = trial->strength_pct;
        ck_assert_double_le(trial->strength_pct,
                            small.mixes[trial->mix].developer_pct); /* never above its own */
        sl_variant variant;
        sl_variant_make(&variant, &small.scene, trial->arm, &changes);
        const sl_outcome outcome = outcome_of(&variant.scene, 0);
        found += trial->found ? 1 : 0;
        if (trial->found) {
            ck_assert(outcome.all_there);
            ck_assert_double_eq(trial->worst_left, outcome.worst_left);
            ck_assert_double_eq(trial->base_moved, outcome.base_moved);
            ck_assert_double_eq(trial->cystine_lost, outcome.cystine_lost);
            ck_assert_double_le(search.trial[search.best].cystine_lost, trial->cystine_lost);
        }
    }
    ck_assert_int_gt(found, 1);
}
END_TEST

/* Where the label's time is only just enough for the developer as it is sold, that one is found, and never a
 * stronger one (docs/science.md: "never above the mix's own"). */
START_TEST(the_search_never_goes_beyond_the_mix_s_own_strength)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    small.scene.aims.base_moved = (sl_bound){0.99, true};
    small.scene.aims.cystine_lost = (sl_bound){0.9, true};
    small.scene.aims.longest_min = (sl_bound){0.0, false};
    double low = 1.0, high = 59.0; /* when the mix as it is comes to the goal */
    while (high - low > 0.01) {
        const double middle = 0.5 * (low + high);
        small.arms[ARM_6].steps[0].duration_min = middle;
        *(outcome_of(&small.scene, ARM_6).all_there ? &high : &low) = middle;
    }
    small.mixes[MIX_POWDER_6].label_max_min = high + 0.1;
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.best, 0);
    ck_assert_double_le(search.trial[0].strength_pct, 6.0);
    ck_assert_double_gt(search.trial[0].strength_pct, 5.0);
    ck_assert_double_le(search.trial[0].dwell_min, high + 0.1);
    /* where only the powder hurts, the quickest is the gentlest: the strongest that is sold */
    small.scene.chemistry.cystine = rates_of(0.0, 0.1, 0.0);
    small.mixes[MIX_POWDER_6].label_max_min = 50.0;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.best, 0);
    ck_assert_double_eq(search.trial[0].strength_pct, 6.0);
    done();
}
END_TEST

/* Rounds have the arm's own rinse between them (docs/science.md), the one that follows its mix: not one that
 * came before it. Without any it is two minutes. */
START_TEST(rounds_have_the_rinse_that_follows_the_mix_between_them)
{
    for (int i = 0; i < 2; i++) {
        fresh();
        sl_arm *const arm = &small.arms[ARM_6];
        arm->steps[1] = arm->steps[0];
        arm->steps[0] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 7.0};
        arm->steps[2] = i == 0 ? (sl_step){.kind = SL_STEP_RINSE, .duration_min = 4.0}
                               : (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = 1};
        sl_variant variant;
        ck_assert(sl_variant_rounds(&variant, &small.scene, ARM_6, 2, 10.0, NULL));
        ck_assert_int_eq(variant.arm.n_steps, 5);
        ck_assert_int_eq(variant.arm.steps[2].kind, SL_STEP_RINSE);
        ck_assert_double_eq(variant.arm.steps[2].duration_min, i == 0 ? 4.0 : 2.0);
        ck_assert_double_eq(variant.arm.steps[0].duration_min, 7.0);
        ck_assert_double_eq(variant.arm.steps[1].hair_water_g_g, 0.0);
        ck_assert_double_eq(variant.arm.steps[3].hair_water_g_g,
                            small.scene.chemistry.damp_water_g_g.value); /* towel-dried */
        done();
    }
}
END_TEST

/* No heat is added (docs/guide.md, "search"): what is searched on a warmed bench is searched without
 * its warmth. Coolness is kept: it is what lies there. */
START_TEST(the_search_never_proposes_heat)
{
    const double shift[3] = {0.0, 3.0, -2.0};
    sl_search search[3];
    for (int i = 0; i < 3; i++) {
        fresh();
        small.scene.room_c = 26.0;
        small.scene.aims.colour_left = 0.5;
        small.scene.shift_k = shift[i];
        small.mixes[MIX_POWDER_6].label_allows = true;
        small.mixes[MIX_POWDER_6].label_max_min = 40.0;
        small.scene.aims.base_moved = (sl_bound){0.95, true};
        small.scene.aims.cystine_lost = (sl_bound){0.5, true};
        ck_assert(sl_search_run(&search[i], &small.scene, solver, NULL));
        ck_assert_int_eq(search[i].best, 0);
        ck_assert_double_eq(small.scene.shift_k, shift[i]);
        done();
    }
    ck_assert_double_eq(search[0].trial[0].dwell_min, search[1].trial[0].dwell_min);
    ck_assert_double_eq(search[0].trial[0].strength_pct, search[1].trial[0].strength_pct);
    /* all three use the label's time; in the cool it takes a stronger developer */
    ck_assert_double_gt(search[2].trial[0].strength_pct, search[0].trial[0].strength_pct + 0.1);
}
END_TEST

/* One dyed zone lies beside undyed hair that moves far, another beside hair that hardly moves: what an arm
 * costs is the most that any of them pays, wherever it stands in the strip. */
START_TEST(an_outcome_names_the_hair_that_pays_most)
{
    for (int turned = 0; turned < 2; turned++) {
        fresh();
        small.hairs[0].cystine_intact = small.hairs[1].cystine_intact = 1.0;
        small.hairs[0].porosity = 1.0;
        small.hairs[1].porosity = 2.5;
        const int first = turned ? 1 : 0;
        small.zones[0] = (sl_zone){.name = "one", .hair = first, .recipe = {1, {1}, {2.0}}};
        small.zones[1] = (sl_zone){.name = "its undyed", .hair = first, .recipe = {0}};
        small.zones[2] = (sl_zone){.name = "other", .hair = 1 - first, .recipe = {1, {2}, {2.0}}};
        small.zones[3] = (sl_zone){.name = "undyed of the other", .hair = 1 - first, .recipe = {0}};
        small.scene.n_zones = 4;
        const sl_outcome outcome = outcome_of(&small.scene, ARM_6);
        const double end = sl_arm_dry_min(&small.scene, &small.arms[ARM_6]);
        sl_cell cell[2];
        sl_timeline_at(timeline, ARM_6, 1, end, NULL, &cell[0]);
        sl_timeline_at(timeline, ARM_6, 3, end, NULL, &cell[1]);
        ck_assert_double_gt(cell[1 - first].cystine_lost, cell[first].cystine_lost + 0.01);
        ck_assert_double_eq(outcome.base_moved, fmax(cell[0].base_moved, cell[1].base_moved));
        ck_assert_double_eq(outcome.cystine_lost, fmax(cell[0].cystine_lost, cell[1].cystine_lost));
        done();
    }
}
END_TEST

/* One mix without a developer, so that only its time is searched. */
static sl_trial tried(double colour_left)
{
    small.mixes[MIX_POWDER_WATER].label_allows = true;
    small.mixes[MIX_POWDER_WATER].label_max_min = 40.0;
    small.scene.aims.base_moved = (sl_bound){0.95, true};
    small.scene.aims.cystine_lost = (sl_bound){0.5, true};
    small.scene.aims.colour_left = colour_left;
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 1);
    ck_assert_int_eq(search.trial[0].arm, ARM_WATER);
    ck_assert_int_eq(search.trial[0].mix, MIX_POWDER_WATER);
    return search.trial[0];
}

/* The shortest time is a minute: a goal that is there by then is tried for just that, and what the trial says
 * is what that minute comes to. A goal that comes later is found to a second. */
START_TEST(a_goal_that_is_there_within_a_minute_is_tried_for_one_minute)
{
    fresh();
    const sl_outcome minute = changed(ARM_WATER, SL_SETTING_DWELL, 1.0);
    const double margins[] = {0.01, 0.0, -1e-6, -0.05};
    for (size_t i = 0; i < sizeof margins / sizeof margins[0]; i++) {
        const sl_trial trial = tried(minute.worst_left + margins[i]);
        ck_assert(trial.found);
        if (margins[i] >= 0.0) {
            ck_assert_double_eq(trial.dwell_min, 1.0);
            ck_assert_double_eq(trial.worst_left, minute.worst_left);
            ck_assert_double_eq(trial.base_moved, minute.base_moved);
            ck_assert_double_eq(trial.cystine_lost, minute.cystine_lost);
            continue;
        }
        ck_assert_double_gt(trial.dwell_min, 1.0);
        ck_assert(changed(ARM_WATER, SL_SETTING_DWELL, trial.dwell_min).all_there);
        ck_assert(!changed(ARM_WATER, SL_SETTING_DWELL, fmax(trial.dwell_min - 1.0 / 60.0, 1.0)).all_there);
    }
    done();
}
END_TEST

/* The longest time that may be tried is the shortest of the label's, the longest of the aims and the scene's;
 * a goal that comes just then is found, one that comes later is not. */
START_TEST(a_goal_is_searched_up_to_the_longest_time_and_no_further)
{
    for (int by = 0; by < 3; by++) {
        for (int later = 0; later < 2; later++) {
            fresh();
            const double left = changed(ARM_WATER, SL_SETTING_DWELL, 20.0).worst_left;
            const sl_bound most = {by == 0 ? 20.0 : 50.0, by != 1};
            small.scene.aims.longest_min = most;
            small.scene.until_min = by == 1 ? 20.0 : 60.0;
            small.mixes[MIX_POWDER_WATER].label_allows = true;
            small.mixes[MIX_POWDER_WATER].label_max_min = by == 2 ? 20.0 : 50.0;
            small.scene.aims.base_moved = (sl_bound){0.95, true};
            small.scene.aims.cystine_lost = (sl_bound){0.5, true};
            small.scene.aims.colour_left = left + (later ? -1e-6 : 1e-9); /* steps end elsewhere */
            sl_search search;
            ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
            ck_assert_msg(search.trial[0].found == !later, "limit %d, later %d", by, later);
            ck_assert_int_eq(search.best, later ? -1 : 0);
            if (!later) {
                ck_assert_double_le(search.trial[0].dwell_min, 20.0);
                ck_assert_double_gt(search.trial[0].dwell_min, 20.0 - 1.0 / 60.0);
            }
            done();
        }
    }
}
END_TEST

/* A minute is the shortest that may be tried: with less than that left of the label's time nothing is. */
START_TEST(a_mix_of_which_the_label_leaves_less_than_a_minute_is_not_tried)
{
    for (int short_of = 0; short_of < 2; short_of++) {
        fresh();
        small.arms[ARM_WATER].steps[0].mix_age_min = 39.0 + (short_of ? 0.01 : 0.0);
        const sl_trial trial = tried(0.999);
        ck_assert_int_eq(trial.found, !short_of);
        ck_assert_double_eq(trial.dwell_min, short_of ? 0.0 : 1.0);
        done();
    }
}
END_TEST

/* The law allows 12 %; a mix of just that is tried, a stronger one counts as not allowed. */
START_TEST(a_mix_stronger_than_the_law_allows_is_not_tried)
{
    for (int stronger = 0; stronger < 2; stronger++) {
        fresh();
        small.mixes[MIX_POWDER_6].label_allows = true;
        small.mixes[MIX_POWDER_6].label_max_min = 40.0;
        small.mixes[MIX_POWDER_6].developer_pct = stronger ? 12.01 : 12.0;
        small.scene.aims.colour_left = 0.9;
        sl_search search;
        ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
        ck_assert_int_eq(search.n, stronger ? 0 : 1);
        ck_assert_int_eq(search.not_allowed, stronger ? 4 : 3);
        done();
    }
}
END_TEST

/* One arm for each mix: the first that has it; arms of several mixes, of water alone and undyed ones are
 * none. */
START_TEST(each_mix_is_tried_once_with_the_first_arm_that_has_it_alone)
{
    fresh();
    small.mixes[MIX_POWDER_WATER].label_allows = true;
    small.mixes[MIX_WATER].label_allows = true;
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.mixes[MIX_REDUCING].label_allows = true;
    small.scene.aims.colour_left = 0.95;
    small.arms[ARM_3] = small.arms[ARM_WATER];               /* the same mix again */
    small.arms[ARM_6].steps[1] = small.arms[ARM_6].steps[0]; /* two applications */
    sl_search search;
    ck_assert(sl_search_run(&search, &small.scene, solver, NULL));
    ck_assert_int_eq(search.n, 1); /* ARM_UNDYED has the 6 % alone, and no dye */
    ck_assert_int_eq(search.trial[0].arm, ARM_WATER);
    ck_assert_int_eq(search.not_allowed, 1); /* mild */
    done();
}
END_TEST

/* What a setting may be (what_if.h) is taken to its very ends; beyond, the error tells the number, the range
 * and its unit. */
START_TEST(each_setting_is_taken_to_its_ends_and_refused_beyond)
{
    static const struct {
        sl_setting setting;
        double least, most;
        const char *below, *above, *wanted;
    } cases[] = {{SL_SETTING_STRENGTH, 0.0, 12.0, "strength -0.5 %", "strength 12.5 %", "from 0 to 12 %"},
                 {SL_SETTING_WATER, 0.0, 20.0, "water -0.5 parts", "water 20.5 parts", "from 0 to 20 parts"},
                 {SL_SETTING_RATIO, 0.5, 20.0, "ratio 0 parts", "ratio 20.5 parts", "from 0.5 to 20 parts"},
                 {SL_SETTING_WARMER, -15.0, 15.0, "warmer -15.5 K", "warmer 15.5 K", "from -15 to 15 K"},
                 {SL_SETTING_DWELL, 1.0, 120.0, "time 0.5 min", "time 120.5 min", "from 1 to 120 min"},
                 {SL_SETTING_AGE, 0.0, 120.0, "age -0.5 min", "age 120.5 min", "from 0 to 120 min"},
                 {SL_SETTING_GRAMS, 0.5, 20.0, "grams 0 g/g", "grams 20.5 g/g", "from 0.5 to 20 g/g"},
                 {SL_SETTING_COVERED, 0.0, 1.0, "covered -0.5 ", "covered 1.5 ", "from 0 to 1 "}};
    fresh();
    ck_assert_uint_eq(sizeof cases / sizeof cases[0], SL_SETTINGS);
    for (size_t i = 0; i < SL_SETTINGS; i++) {
        sl_changes changes = {.set = {false}};
        sl_error error = {0};
        ck_assert(
            !sl_changes_set(&changes, &small.scene, ARM_6, cases[i].setting, cases[i].least - 0.5, &error));
        ck_assert_int_eq(error.code, SL_ERR_USAGE);
        ck_assert_str_eq(error.found, cases[i].below);
        ck_assert_str_eq(error.wanted, cases[i].wanted);
        ck_assert(
            !sl_changes_set(&changes, &small.scene, ARM_6, cases[i].setting, cases[i].most + 0.5, &error));
        ck_assert_str_eq(error.found, cases[i].above);
        ck_assert(!sl_changes_set(&changes, &small.scene, ARM_6, cases[i].setting, nan(""), NULL));
        ck_assert(!changes.set[cases[i].setting]);
        ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, cases[i].setting, cases[i].least, NULL));
        ck_assert(changes.set[cases[i].setting]);
        ck_assert_double_eq(changes.to[cases[i].setting], cases[i].least);
        ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, cases[i].setting, cases[i].most, NULL));
        ck_assert_double_eq(changes.to[cases[i].setting], cases[i].most);
    }
    done();
}
END_TEST

/* A change acts where there is something to act on, and what does not apply reads nothing. */
START_TEST(a_setting_applies_where_the_mix_has_what_it_changes)
{
    fresh();
    for (int s = 0; s < SL_SETTINGS; s++) {
        const sl_setting setting = (sl_setting)s;
        sl_changes changes = {.set = {false}};
        sl_error error = {0};
        ck_assert(sl_setting_applies(&small.scene, ARM_6, setting));
        ck_assert(!sl_setting_applies(&small.scene, ARM_UNTREATED, setting));
        ck_assert(!sl_setting_applies(&small.scene, ARM_REDUCING, setting));
        ck_assert_int_eq(sl_setting_applies(&small.scene, ARM_WATER, setting),
                         setting != SL_SETTING_STRENGTH);
        ck_assert_int_eq(sl_setting_applies(&small.scene, ARM_MILD, setting), setting != SL_SETTING_RATIO);
        ck_assert_double_eq(sl_setting_value(&small.scene, ARM_UNTREATED, setting), 0.0);
        ck_assert(!sl_changes_set(&changes, &small.scene, ARM_UNTREATED, setting, 1.0, &error));
        ck_assert_int_eq(error.code, SL_ERR_USAGE);
        ck_assert_ptr_nonnull(strstr(error.found, "\"untreated\" has nothing that a change of "));
        ck_assert_ptr_nonnull(strstr(error.found, sl_knobs[setting].word));
        ck_assert_str_eq(error.wanted, "choose another strip or another change");
    }
    small.mixes[MIX_POWDER_WATER].water_parts = 0.0; /* nothing but powder: no ratio */
    ck_assert(!sl_setting_applies(&small.scene, ARM_WATER, SL_SETTING_RATIO));
    done();
}
END_TEST

/* Each setting alone: the variant has it as it was asked for, and everything else as the scene has it. The
 * arm puts its mix on twice and another one between: that one keeps its own, and the second round its time.
 */
START_TEST(one_change_changes_one_thing)
{
    static const double to[SL_SETTINGS] = {
        [SL_SETTING_STRENGTH] = 4.5, [SL_SETTING_WATER] = 0.5,  [SL_SETTING_RATIO] = 5.0,
        [SL_SETTING_WARMER] = -3.0,  [SL_SETTING_DWELL] = 17.0, [SL_SETTING_AGE] = 6.0,
        [SL_SETTING_GRAMS] = 3.5,    [SL_SETTING_COVERED] = 0.0};
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[1] = arm->steps[2] = arm->steps[0];
    arm->steps[1].mix = MIX_POWDER_3;
    small.mixes[MIX_POWDER_6].water_parts = 2.0;
    for (int s = 0; s < SL_SETTINGS; s++) {
        sl_changes changes = {.set = {false}};
        sl_variant variant;
        sl_setting which[SL_SETTINGS];
        ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, (sl_setting)s, to[s], NULL));
        ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, which), 1);
        ck_assert_int_eq(which[0], s);
        sl_variant_make(&variant, &small.scene, ARM_6, &changes);
        for (int other = 0; other < SL_SETTINGS; other++) {
            /* more water is a thinner mix too */
            if (s != SL_SETTING_WATER || other != SL_SETTING_RATIO) {
                const bool with_ratio = s == SL_SETTING_RATIO && other == SL_SETTING_WATER;
                ck_assert_double_eq_tol(sl_setting_value(&variant.scene, 0, (sl_setting)other),
                                        other == s ? to[s]
                                        : with_ratio
                                            ? 2.5 /* half of five, as before */
                                            : sl_setting_value(&small.scene, ARM_6, (sl_setting)other),
                                        1e-12);
            }
        }
        ck_assert_int_eq(variant.scene.n_arms, 1);
        ck_assert_int_eq(variant.scene.n_mixes, 3);
        const sl_mix *const between = &variant.mixes[variant.arm.steps[1].mix];
        ck_assert_mem_eq(between, &small.mixes[MIX_POWDER_3], sizeof *between);
        ck_assert_double_eq(variant.arm.steps[1].duration_min, 30.0);
        ck_assert_double_eq(variant.arm.steps[1].mix_g_per_g, 6.0);
        ck_assert_double_eq(variant.arm.steps[2].duration_min, 30.0);
        ck_assert_double_eq(variant.arm.steps[2].mix_g_per_g, variant.arm.steps[0].mix_g_per_g);
        ck_assert_double_eq(variant.mixes[variant.arm.steps[2].mix].developer_pct,
                            variant.mixes[variant.arm.steps[0].mix].developer_pct);
        ck_assert_double_eq_tol(variant.scene.until_min,
                                (s == SL_SETTING_DWELL ? 77.0 : 90.0) + log(400.0) / 0.2,
                                1e-9); /* till it is dry */
    }
    done();
}
END_TEST

/* A change to what is there already is none; a billionth is no change either. */
START_TEST(a_change_to_what_is_there_is_no_change)
{
    fresh();
    sl_changes changes = {.set = {false}};
    for (int s = 0; s < SL_SETTINGS; s++) {
        ck_assert(sl_changes_set(&changes, &small.scene, ARM_6, (sl_setting)s,
                                 sl_setting_value(&small.scene, ARM_6, (sl_setting)s), NULL));
    }
    sl_setting which[SL_SETTINGS];
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, NULL), 0);
    changes.to[SL_SETTING_DWELL] += 0.9e-9;
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, which), 0);
    changes.to[SL_SETTING_DWELL] += 1e-8;
    changes.to[SL_SETTING_GRAMS] += 0.25;
    ck_assert_int_eq(sl_changes_count(&changes, &small.scene, ARM_6, which), 2);
    ck_assert_int_eq(which[0], SL_SETTING_DWELL);
    ck_assert_int_eq(which[1], SL_SETTING_GRAMS);
    changes.to[SL_SETTING_COVERED] = 0.5; /* half is not covered */
    sl_variant variant;
    sl_variant_make(&variant, &small.scene, ARM_6, &changes);
    ck_assert(!variant.arm.steps[0].covered);
    changes.to[SL_SETTING_COVERED] = 0.75;
    sl_variant_make(&variant, &small.scene, ARM_6, &changes);
    ck_assert(variant.arm.steps[0].covered);
    done();
}
END_TEST

/* Sixteen steps are the most; one round is one; none, or one of no time, is refused. */
START_TEST(rounds_are_taken_as_long_as_their_steps_fit)
{
    static const struct {
        int rounds;
        double minutes;
        bool good;
    } cases[] = {{1, 5.0, true},  {7, 5.0, true}, {8, 5.0, false}, {0, 5.0, false},
                 {2, 0.0, false}, {2, 0.1, true}, {2, -1.0, false}};
    fresh();
    small.arms[ARM_6].n_steps = 4; /* and a rest: 7 rounds make 16 steps */
    small.arms[ARM_6].steps[3] = (sl_step){.kind = SL_STEP_REST, .duration_min = 11.0};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_variant variant;
        sl_error error = {0};
        ck_assert_msg(sl_variant_rounds(&variant, &small.scene, ARM_6, cases[i].rounds, cases[i].minutes,
                                        &error) == cases[i].good,
                      "case %zu", i);
        if (!cases[i].good) {
            ck_assert_int_eq(error.code, SL_ERR_USAGE);
            ck_assert_str_eq(error.found, "so many applications do not fit");
            continue;
        }
        const int n = cases[i].rounds;
        ck_assert_int_eq(variant.arm.n_steps, 2 * n + 2);
        ck_assert_int_eq(variant.arm.steps[2 * n + 1].kind, SL_STEP_REST);
        ck_assert_double_eq(variant.arm.steps[2 * n + 1].duration_min, 11.0);
        /* each with its rinse of 2 min, a shampoo, the rest */
        ck_assert_double_eq_tol(sl_arm_done_min(&variant.arm), n * (cases[i].minutes + 2.0) + 1.0 + 11.0,
                                1e-12);
    }
    sl_error error = {0};
    sl_variant variant;
    ck_assert(!sl_variant_rounds(&variant, &small.scene, ARM_UNTREATED, 1, 5.0, &error));
    ck_assert_str_eq(error.found, "this strip has no mix");
    done();
}
END_TEST

/* Of an arm that is not treated nothing is there; without a goal the zone that holds most is named all the
 * same. */
START_TEST(an_outcome_without_a_goal_or_a_mix_says_so)
{
    fresh();
    small.scene.aims = (sl_aims){.colour_left = 1.0};
    const sl_outcome open = outcome_of(&small.scene, ARM_6);
    ck_assert(open.predicted && !open.all_there);
    ck_assert(!open.limits.asked);
    double most = -1.0;
    int zone = -1;
    for (int z = ZONE_RED; z <= ZONE_MIXED; z++) {
        zone = open.left[z] > most ? z : zone;
        most = fmax(most, open.left[z]);
        ck_assert(!open.there[z]);
    }
    ck_assert_int_eq(open.worst_zone, zone);
    ck_assert_double_eq(open.worst_left, most);
    ck_assert_double_eq(open.left[ZONE_UNDYED], -1.0);
    ck_assert_double_eq(open.done_min, 33.0);
    ck_assert_double_gt(open.left[ZONE_ROOT], 0.0); /* a dye, if no direct one */
    const sl_outcome untreated = outcome_of(&small.scene, ARM_UNTREATED);
    ck_assert_double_eq(untreated.done_min, 0.0);
    ck_assert_double_eq(untreated.base_moved, 0.0);
    ck_assert_double_eq(untreated.worst_left, 1.0);
    const sl_outcome reducing = outcome_of(&small.scene, ARM_REDUCING);
    ck_assert(!reducing.predicted && !reducing.all_there);
    small.arms[ARM_6].contact_min = 20.0;
    ck_assert_double_eq(outcome_of(&small.scene, ARM_6).done_min, 33.0);
    small.arms[ARM_6].contact_min = 90.0; /* the scene ends before it is done */
    ck_assert_double_eq(outcome_of(&small.scene, ARM_6).done_min, 10.0);
    small.scene.n_zones = 1; /* no direct dye anywhere */
    const sl_outcome none = outcome_of(&small.scene, ARM_3);
    ck_assert_int_eq(none.worst_zone, -1);
    ck_assert_double_eq(none.worst_left, -1.0);
    ck_assert(!none.all_there);
    done();
}
END_TEST

/* What a search finds does not hang on when the arm begins. */
START_TEST(an_arm_that_begins_later_is_searched_alike)
{
    sl_trial trial[2];
    for (int i = 0; i < 2; i++) {
        fresh();
        small.arms[ARM_WATER].contact_min = 10.0 * i;
        small.scene.until_min += 10.0 * i;
        trial[i] = tried(0.85);
        ck_assert(trial[i].found);
        done();
    }
    ck_assert_double_gt(trial[0].dwell_min, 1.0);
    ck_assert_double_eq_tol(trial[0].dwell_min, trial[1].dwell_min, 1.0 / 60.0);
    ck_assert_double_eq_tol(trial[0].cystine_lost, trial[1].cystine_lost, 1e-4);
}
END_TEST

START_SUITE("what if")
ADD(a_variant_is_what_the_scene_changed_by_hand_gives)
ADD(a_variant_leaves_the_scene_as_it_was)
ADD(the_guard_counts_what_differs)
ADD(two_rounds_are_two_applications_with_a_rinse_between)
ADD(the_search_finds_what_a_fine_grid_finds)
ADD(the_search_says_none_honestly)
ADD(a_trial_says_what_its_mix_comes_to)
ADD(the_search_never_goes_beyond_the_mix_s_own_strength)
ADD(rounds_have_the_rinse_that_follows_the_mix_between_them)
ADD(the_search_never_proposes_heat)
ADD(an_outcome_names_the_hair_that_pays_most)
ADD(a_goal_that_is_there_within_a_minute_is_tried_for_one_minute)
ADD(a_goal_is_searched_up_to_the_longest_time_and_no_further)
ADD(a_mix_of_which_the_label_leaves_less_than_a_minute_is_not_tried)
ADD(a_mix_stronger_than_the_law_allows_is_not_tried)
ADD(each_mix_is_tried_once_with_the_first_arm_that_has_it_alone)
ADD(each_setting_is_taken_to_its_ends_and_refused_beyond)
ADD(a_setting_applies_where_the_mix_has_what_it_changes)
ADD(one_change_changes_one_thing)
ADD(a_change_to_what_is_there_is_no_change)
ADD(rounds_are_taken_as_long_as_their_steps_fit)
ADD(an_outcome_without_a_goal_or_a_mix_says_so)
ADD(an_arm_that_begins_later_is_searched_alike)
END_SUITE
