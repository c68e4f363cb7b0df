/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/rank.h"

#include <math.h>
#include <string.h>

#include "estimate/members.h"
#include "ground.h"
#include "slowlift/estimate.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static const sl_rank_request usual = {.minute = 15.0, .share = 0.5, .members = 500, .seed = 7, .threads = 1};

static sl_rank *rank_of(sl_rank_request request)
{
    sl_rank *rank = NULL;
    ck_assert(sl_rank_run(&rank, &small.scene, &request, NULL));
    return rank;
}

static bool stop_soon(void *self, long done, long all)
{
    (void)all;
    *(long *)self = done;
    return done < 64;
}

/* What is left out is the end of the draws: as many asked for outright count the same. */
START_TEST(a_stopped_run_says_so_and_counts_whole_members)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    long done = 0;
    sl_rank_request request = usual;
    request.members = 100000;
    request.go_on = stop_soon;
    request.self = &done;
    sl_rank *const part = rank_of(request);
    ck_assert(part->stopped);
    ck_assert_int_eq(part->members, done);
    ck_assert_int_eq(done, 64);
    request = usual;
    request.members = done;
    sl_rank *const whole = rank_of(request);
    ck_assert(!whole->stopped);
    ck_assert_int_eq(whole->members, done);
    ck_assert_int_eq(
        memcmp(part->standing, whole->standing, sizeof *part->standing * SMALL_ARMS * SMALL_ZONES), 0);
    sl_rank_free(part);
    sl_rank_free(whole);
}
END_TEST

START_TEST(threads_do_not_matter)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_rank_request request = usual;
    sl_rank *const one = rank_of(request);
    int gone = 0;
    for (int i = 0; i < SMALL_ARMS * SMALL_ZONES;
         i++) { /* each member at once, and each in which it is gone then */
        const sl_standing *const standing = &one->standing[i];
        gone += standing->gone > 0 ? 1 : 0;
        for (int what = 0; what < SL_STANDINGS; what++) {
            long counted = 0;
            for (int k = 0; k < SL_THOUSANDTHS; k++) {
                counted += standing->count[what][k];
            }
            const bool then = what == SL_LEFT_THEN || what == SL_BASE_THEN || what == SL_STRESS_THEN;
            ck_assert_int_eq(counted, then ? standing->members : standing->gone);
        }
    }
    ck_assert_int_gt(gone, 0);
    for (int threads = 2; threads <= 8; threads *= 4) {
        request.threads = threads;
        sl_rank *const more = rank_of(request);
        ck_assert_int_eq(
            memcmp(one->standing, more->standing, sizeof *one->standing * SMALL_ARMS * SMALL_ZONES), 0);
        sl_rank_free(more);
    }
    sl_rank_free(one);
}
END_TEST

START_TEST(identical_arms_tie)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_3] = small.arms[ARM_6];
    sl_rank_request request = usual;
    sl_rank *const rank = rank_of(request);
    for (int zone = ZONE_RED; zone <= ZONE_MIXED; zone++) {
        for (int what = 0; what < SL_STANDINGS; what++) {
            ck_assert_int_eq(sl_rank_place(rank, ARM_3, zone, (sl_standing_of)what),
                             sl_rank_place(rank, ARM_6, zone, (sl_standing_of)what));
        }
    }
    sl_rank_free(rank);
}
END_TEST

START_TEST(washing_alone_comes_last)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_rank *const rank = rank_of(usual);
    ck_assert_int_eq(sl_rank_place(rank, ARM_6, ZONE_VIOLET, SL_LEFT_THEN), 1);
    ck_assert_int_gt(sl_rank_place(rank, ARM_WASHING, ZONE_VIOLET, SL_LEFT_THEN), 1);
    ck_assert_int_eq(sl_rank_place(rank, ARM_WASHING, ZONE_VIOLET, SL_STRESS_GONE), 0); /* never there */
    ck_assert(!sl_rank_has(rank, ARM_UNTREATED, ZONE_VIOLET));
    ck_assert(!sl_rank_has(rank, ARM_REDUCING, ZONE_VIOLET));
    ck_assert(!sl_rank_has(rank, ARM_UNDYED, ZONE_VIOLET));
    ck_assert(!sl_rank_has(rank, ARM_6, ZONE_ROOT)); /* an oxidative dye is no target */
    sl_rank_free(rank);
}
END_TEST

/* Draws are centred on the file's numbers and colour left falls with nearly every one of them, so the
 * middle member lies near the central value: within a tenth for 500 members. */
START_TEST(the_middle_member_is_near_the_central_value)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_rank *const rank = rank_of(usual);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    for (int arm = ARM_WASHING; arm <= ARM_MILD; arm++) {
        for (int zone = ZONE_RED; zone <= ZONE_MIXED; zone++) {
            sl_cell cell;
            sl_timeline_at(sl_timeline_rinsed(timeline), arm, zone, 15.0, NULL, &cell);
            const sl_middle left = sl_rank_middle(rank, arm, zone, SL_LEFT_THEN);
            ck_assert_double_eq_tol(left.p50, cell.colour_left, 0.1);
            ck_assert_double_le(left.p10, left.p50);
            ck_assert_double_le(left.p50, left.p90);
        }
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_rank_free(rank);
}
END_TEST

START_TEST(unbeaten_arms_are_those_that_no_other_beats_in_both)
{
    /* the last two spare the hair best, and take out less than half of the nine tenths that the first does */
    const double left[] = {0.1, 0.3, 0.3, 0.5, 0.1, 0.56, 1.0};
    const double stress[] = {0.2, 0.1, 0.15, 0.05, 0.2, 0.01, 0.0};
    const bool wanted[] = {true, true, false, true, true, false, false};
    bool unbeaten[7];
    sl_unbeaten(left, stress, 7, unbeaten);
    for (int i = 0; i < 7; i++) {
        ck_assert_int_eq(unbeaten[i], wanted[i]);
    }
}
END_TEST

/* With one dye all at the rim, the exponent is what the colour left shows. */
START_TEST(the_parts_of_a_reason_add_up_to_the_colour_that_left)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.dyes[2].rim_share.value = 1.0;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    const sl_timeline *const rinsed = sl_timeline_rinsed(timeline);
    for (int arm = ARM_WASHING; arm <= ARM_MILD; arm++) {
        sl_cell cell;
        for (int then = 0; then < 2; then++) {
            const sl_timeline *const of = then == 0 ? timeline : rinsed;
            sl_timeline_at(of, arm, ZONE_VIOLET, 20.0, NULL, &cell);
            const sl_reason reason = sl_reason_of(of, arm, ZONE_VIOLET, 20.0);
            ck_assert_double_eq_tol(reason.sum, -log(cell.colour_left), 1e-9 * (1.0 + reason.sum));
            ck_assert_double_eq_tol(reason.channel[0] + reason.channel[1] + reason.channel[2] +
                                        reason.washing,
                                    reason.sum, 1e-12 * (1.0 + reason.sum));
        }
    }
    ck_assert_double_eq(sl_reason_of(timeline, ARM_MILD, ZONE_VIOLET, 20.0).channel[SL_PERSULFATE], 0.0);
    const sl_three_readings six = sl_three_readings_of(timeline, ARM_6, ZONE_VIOLET, 0.5);
    double half = 0.0;
    ck_assert(sl_first_time(rinsed, ARM_6, ZONE_VIOLET, SL_COLOUR_LEFT, 0.5, &half));
    ck_assert(six.halved && six.at_share);
    ck_assert_double_eq(six.half_min, half);
    sl_cell base;
    sl_timeline_at(rinsed, ARM_6, ZONE_UNDYED, half, NULL, &base);
    /* colour is at one half there, to the tenth of a second of the search */
    ck_assert_double_eq_tol(six.selectivity, log(0.5) / log(1.0 - base.base_moved), 0.02 * six.selectivity);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* As many arms as a scene holds: in a row each before the next, though not before the one after that, they
 * have places 1 to 32; closed to a circle all tie; two arms before the circle push it back by two, an arm
 * without a place leads nobody, and the place of an arm is by the longest chain that leads to it. */
START_TEST(places_are_the_longest_chain_and_a_circle_is_one_tie)
{
    enum { N = SL_MAX_ARMS };
    static uint32_t before[N * N];
    bool has[N];
    int place[N];
    memset(before, 0, sizeof before);
    for (int a = 0; a < N; a++) {
        has[a] = true;
        before[a * N + (a + 1) % N] = 90;
    }
    before[(N - 1) * N] = 89; /* a row */
    sl_rank_places(before, 100, N, has, place);
    for (int a = 0; a < N; a++) {
        ck_assert_int_eq(place[a], a + 1);
    }
    before[(N - 1) * N] = 90; /* a circle */
    sl_rank_places(before, 100, N, has, place);
    for (int a = 0; a < N; a++) {
        ck_assert_int_eq(place[a], 1);
    }
    memset(before, 0, sizeof before);
    for (int a = 2; a < N; a++) { /* a circle of thirty behind two in a row */
        before[a * N + (a + 1 < N ? a + 1 : 2)] = 95;
    }
    before[0 * N + 1] = before[1 * N + 7] = 100;
    sl_rank_places(before, 100, N, has, place);
    for (int a = 0; a < N; a++) {
        ck_assert_int_eq(place[a], a < 2 ? a + 1 : 3);
    }
    has[1] = false;
    sl_rank_places(before, 100, N, has, place);
    ck_assert(place[0] == 1 && place[1] == 0 && place[2] == 1 && place[N - 1] == 1);
    memset(before, 0, sizeof before); /* of four, 3 -> 1 -> 0 -> 2 and 3 -> 2 */
    has[1] = true;
    before[3 * 4 + 1] = before[1 * 4 + 0] = before[0 * 4 + 2] = before[3 * 4 + 2] = 100;
    sl_rank_places(before, 100, 4, has, place);
    ck_assert(place[3] == 1 && place[1] == 2 && place[0] == 3 && place[2] == 4);
    before[1 * 4 + 0] = 0; /* 1 and 0 even behind 3, both before 2: 1, 2, 2, 4 */
    before[3 * 4 + 0] = before[1 * 4 + 2] = 100;
    sl_rank_places(before, 100, 4, has, place);
    ck_assert(place[3] == 1 && place[1] == 2 && place[0] == 2 && place[2] == 4);
}
END_TEST

/* docs/science.md, "Comparing strips": at the same colour left an arm that gets there in fewer than half of
 * the members has no place, and is nobody's better; an arm is behind another that has less in nine of ten
 * members. Counts made by hand. */
START_TEST(an_arm_that_seldom_gets_there_has_no_place)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_rank *const rank = rank_of(usual);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        rank->standing[arm * SMALL_ZONES + ZONE_RED] = (sl_standing){.members = 500};
    }
    sl_standing *const six = &rank->standing[ARM_6 * SMALL_ZONES + ZONE_RED];
    sl_standing *const three = &rank->standing[ARM_3 * SMALL_ZONES + ZONE_RED];
    uint32_t *const pairs =
        rank->before + (ZONE_RED * SL_PAIRINGS + SL_STRESS_GONE) * SMALL_ARMS * SMALL_ARMS;
    memset(pairs, 0, SMALL_ARMS * SMALL_ARMS * sizeof *pairs);
    ck_assert_int_eq(rank->members, 500);
    six->gone = three->gone = 250;
    pairs[ARM_6 * SMALL_ARMS + ARM_3] = 450;
    pairs[ARM_3 * SMALL_ARMS + ARM_6] = 50;
    ck_assert_int_eq(sl_rank_place(rank, ARM_6, ZONE_RED, SL_STRESS_GONE), 1);
    ck_assert_int_eq(sl_rank_place(rank, ARM_3, ZONE_RED, SL_STRESS_GONE), 2);
    pairs[ARM_6 * SMALL_ARMS + ARM_3] = 449;
    ck_assert_int_eq(sl_rank_place(rank, ARM_3, ZONE_RED, SL_STRESS_GONE), 1);
    pairs[ARM_6 * SMALL_ARMS + ARM_3] = 450;
    six->gone = 249;
    ck_assert_int_eq(sl_rank_place(rank, ARM_6, ZONE_RED, SL_STRESS_GONE), 0);
    ck_assert_int_eq(sl_rank_place(rank, ARM_3, ZONE_RED, SL_STRESS_GONE), 1);
    sl_rank_free(rank);
}
END_TEST

/* Speed counts from contact, the end is when the hair has dried (here: as the scene ends before), and of what
 * leaves the base as it was no ratio is made. */
START_TEST(three_readings_are_what_they_say)
{
    small_scene_fill(&small);
    small.arms[ARM_6].contact_min = 7.0;
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    const double dry = 60.0; /* 70 min otherwise */
    sl_cell cell, base;
    double half = 0.0;
    ck_assert(sl_first_time(sl_timeline_rinsed(timeline), ARM_6, ZONE_VIOLET, SL_COLOUR_LEFT, 0.5, &half));
    const sl_three_readings six = sl_three_readings_of(timeline, ARM_6, ZONE_VIOLET, 0.5);
    ck_assert_double_eq(six.half_min, half - 7.0);
    /* brute force: the mix rinsed off then, the hair washed and dried, half of the colour is there; a second
     * of the dwell is less than a thousandth of it */
    small_scene rinsed_then;
    small_scene_fill(&rinsed_then);
    rinsed_then.arms[ARM_6].contact_min = 7.0;
    rinsed_then.arms[ARM_6].steps[0].duration_min = six.half_min;
    rinsed_then.scene.until_min = 200.0;
    sl_timeline *then = NULL;
    ck_assert(sl_timeline_solve(&then, &rinsed_then.scene, NULL, 0, solver, NULL, NULL));
    sl_timeline_at(then, ARM_6, ZONE_VIOLET, 200.0, NULL, &cell);
    ck_assert_double_eq_tol(cell.colour_left, 0.5, 1e-3);
    sl_timeline_free(then);
    sl_timeline_at(timeline, ARM_6, ZONE_VIOLET, dry, NULL, &cell);
    ck_assert_double_eq(six.end_left, cell.colour_left);
    /* a share that it never comes to: both exponents at the end */
    const sl_three_readings never = sl_three_readings_of(timeline, ARM_MILD, ZONE_RED, 0.01);
    sl_timeline_at(timeline, ARM_MILD, ZONE_RED, 60.0, NULL, &cell);
    sl_timeline_at(timeline, ARM_MILD, ZONE_UNDYED, 60.0, NULL, &base);
    ck_assert(!never.at_share && !never.halved);
    ck_assert_double_eq_tol(never.selectivity, log(cell.colour_left) / log(1.0 - base.base_moved), 1e-9);
    const sl_three_readings water = sl_three_readings_of(timeline, ARM_WASHING, ZONE_VIOLET, 0.95);
    ck_assert(water.at_share);
    ck_assert_double_eq(water.selectivity, -1.0); /* no ratio (include/slowlift/rank.h) */
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* A reason is about shares: how strong the colour is to begin with does not come in. */
START_TEST(a_faint_colour_leaves_for_the_same_reasons_as_a_strong_one)
{
    sl_solver *const solver = sl_solver_new(NULL);
    sl_reason reason[2];
    for (int faint = 0; faint < 2; faint++) {
        small_scene_fill(&small);
        for (int i = 0; faint && i < 2; i++) {
            small.zones[ZONE_MIXED].recipe.strength[i] *= 1e-6;
        }
        sl_timeline *timeline = NULL;
        ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
        reason[faint] = sl_reason_of(timeline, ARM_6, ZONE_MIXED, 20.0);
        sl_timeline_free(timeline);
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        ck_assert_double_eq_tol(reason[1].channel[c] / reason[0].channel[c], 1.0, 1e-9);
    }
    ck_assert_double_eq_tol(reason[1].washing / reason[0].washing, 1.0, 1e-9);
    ck_assert_double_eq_tol(reason[1].sum / reason[0].sum, 1.0, 1e-9);
    sl_solver_free(solver);
}
END_TEST

/* ---- members by hand -------------------------------------------------------------------------------- */

/* Every member read on its own, arm by arm: its shares in thousandths, the moment at which it is down to the
 * share, and whether the one arm leaves less than the other, in the bin of each of its draws. */
START_TEST(a_rank_counts_what_each_member_reads)
{
    enum { MEMBERS = 41 }; /* two blocks of sixteen and some of a third */
    static lane_history history;
    static drawn_members drawn;
    static sl_standing wanted[2];
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    memset(wanted, 0, sizeof wanted);
    const int arms[2] = {ARM_6, ARM_3};
    sl_rank_request request = usual;
    request.members = MEMBERS;
    request.share = 0.6;
    request.minute = 12.0;
    sl_rank *const rank = rank_of(request);
    long shown = 0;
    long slower[2][3] = {{0}}; /* of the first and of the second: later, and with less of base, of stress */
    for (long first = 0; first < MEMBERS; first += LANES) {
        double left[2][LANES], gone_min[2][LANES];
        member_reading there[2][LANES];
        members_draw(&drawn, &rank->plan, request.seed, first);
        for (int a = 0; a < 2; a++) {
            int bad = 0;
            ck_assert(lanes_run_rinsed(&history, &small.scene, &small.arms[arms[a]], 1.5, 0.85, &drawn.lanes,
                                       &bad));
            for (int l = 0; l < LANES && first + l < MEMBERS; l++) {
                member_zone zone;
                double minute = 0.0;
                member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[arms[a]],
                                 ZONE_VIOLET, &drawn);
                const member_reading then = member_read(&zone, &history, l, 12.0);
                left[a][l] = then.left;
                gone_min[a][l] = HUGE_VAL;
                wanted[a].members++;
                wanted[a].count[SL_LEFT_THEN][lround(1000.0 * then.left)]++;
                wanted[a].count[SL_BASE_THEN][lround(1000.0 * then.base_moved)]++;
                wanted[a].count[SL_STRESS_THEN][lround(1000.0 * then.cystine_lost)]++;
                if (member_gone(&zone, &history, l, 0.6, &minute)) {
                    const member_reading gone = member_read(&zone, &history, l, minute);
                    ck_assert_double_le(gone.left, 0.6);
                    ck_assert_double_gt(member_read(&zone, &history, l, minute - 1.0 / 600.0).left, 0.6);
                    gone_min[a][l] = minute;
                    there[a][l] = gone;
                    wanted[a].gone++;
                    wanted[a].count[SL_BASE_GONE][lround(1000.0 * gone.base_moved)]++;
                    wanted[a].count[SL_STRESS_GONE][lround(1000.0 * gone.cystine_lost)]++;
                }
            }
        }
        for (int l = 0; l < LANES && first + l < MEMBERS; l++) {
            shown += left[0][l] < left[1][l] ? 1 : 0;
            for (int a = 0; a < 2; a++) {
                if (gone_min[a][l] < HUGE_VAL && gone_min[1 - a][l] < gone_min[a][l]) {
                    slower[a][0]++;
                    slower[a][1] += there[a][l].base_moved < there[1 - a][l].base_moved ? 1 : 0;
                    slower[a][2] += there[a][l].cystine_lost < there[1 - a][l].cystine_lost ? 1 : 0;
                }
            }
        }
    }
    ck_assert_int_eq(rank->members, MEMBERS);
    ck_assert(!rank->stopped);
    for (int a = 0; a < 2; a++) {
        ck_assert_int_gt(wanted[a].gone, 0);
        ck_assert_mem_eq(&rank->standing[arms[a] * SMALL_ZONES + ZONE_VIOLET], &wanted[a], sizeof wanted[a]);
    }
    const uint32_t *const pairs =
        rank->before + (ZONE_VIOLET * SL_PAIRINGS + SL_LEFT_THEN) * SMALL_ARMS * SMALL_ARMS;
    ck_assert_int_eq(pairs[ARM_6 * SMALL_ARMS + ARM_3], shown);
    ck_assert_int_le(pairs[ARM_3 * SMALL_ARMS + ARM_6], MEMBERS - shown);
    ck_assert_int_eq(pairs[ARM_6 * SMALL_ARMS + ARM_6], 0);
    ck_assert_int_gt(slower[1][0], 0);
    for (int what = SL_SLOWER; what < SL_PAIRINGS; what++) {
        const uint32_t *const later =
            rank->before + (ZONE_VIOLET * SL_PAIRINGS + what) * SMALL_ARMS * SMALL_ARMS;
        ck_assert_int_eq(later[ARM_6 * SMALL_ARMS + ARM_3], slower[0][what - SL_SLOWER]);
        ck_assert_int_eq(later[ARM_3 * SMALL_ARMS + ARM_6], slower[1][what - SL_SLOWER]);
    }
    sl_gentler found;
    ck_assert(sl_rank_gentler(rank, ZONE_VIOLET, &found));
    ck_assert_int_eq(found.fast, ARM_6);
    ck_assert_int_le(found.less_base, found.slower);
    ck_assert_int_le(found.slower, found.both);
    ck_assert(!sl_rank_gentler(rank, ZONE_UNDYED, &found));
    ck_assert_int_eq(pairs[ARM_UNTREATED * SMALL_ARMS + ARM_3], 0); /* it is not ranked */
    sl_rank_free(rank);
}
END_TEST

START_TEST(a_member_that_cannot_be_solved_is_named_with_its_arm)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.chemistry.couple_l_mol_min.value =
        1e9; /* no step is short enough: washing, without, goes well */
    sl_rank_request request = usual;
    request.members = 64;
    request.threads = 2;
    sl_error error = {0};
    sl_rank *rank = NULL;
    ck_assert(!sl_rank_run(&rank, &small.scene, &request, &error));
    ck_assert_ptr_null(rank);
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert_ptr_nonnull(strstr(error.found, " of strip \""));
    ck_assert_str_eq(error.wanted, "no model run is dropped; narrow the spread");
    small.scene.room_c = 31.0; /* a head */
    ck_assert(!sl_rank_run(&rank, &small.scene, &request, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

/* Middle members to the thousandth: the share of members that lie at or below it. */
START_TEST(a_middle_is_where_its_share_of_members_has_been_counted)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    sl_rank_request request = usual;
    request.members = 16;
    sl_rank *const rank = rank_of(request);
    sl_standing *const red = &rank->standing[ARM_6 * SMALL_ZONES + ZONE_RED];
    *red = (sl_standing){.members = 10, .gone = 1};
    red->count[SL_LEFT_THEN][0] = 1;
    red->count[SL_LEFT_THEN][3] = 4;
    red->count[SL_LEFT_THEN][999] = 4;
    red->count[SL_LEFT_THEN][1000] = 1;
    red->count[SL_BASE_GONE][1000] = 1;
    sl_middle middle = sl_rank_middle(rank, ARM_6, ZONE_RED, SL_LEFT_THEN);
    ck_assert(middle.p10 <= 0.0 && middle.p10 >= 0.0);
    ck_assert_double_eq(middle.p50, 0.003);
    ck_assert_double_eq(middle.p90, 0.999);
    middle = sl_rank_middle(rank, ARM_6, ZONE_RED, SL_BASE_GONE);
    ck_assert_double_eq(middle.p10, 1.0);
    red->gone = 0;
    middle = sl_rank_middle(rank, ARM_6, ZONE_RED, SL_BASE_GONE);
    ck_assert(middle.p10 < 0.0 && middle.p50 < 0.0 && middle.p90 < 0.0);
    sl_rank_free(rank);
}
END_TEST

/* Of a colour of which nothing is left, to the last digit, no ratio is made. */
START_TEST(nothing_left_has_no_selectivity)
{
    small_scene_fill(&small);
    small.dyes[2].rates = rates_of(1e6, 1e6, 1e6);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    sl_cell cell;
    sl_timeline_at(timeline, ARM_6, ZONE_VIOLET, 33.0, NULL, &cell);
    ck_assert(cell.colour_left <= 0.0 && cell.colour_left >= 0.0);
    /* a share that it skips: below any number */
    const sl_three_readings readings = sl_three_readings_of(timeline, ARM_6, ZONE_VIOLET, -1.0);
    ck_assert(!readings.at_share);
    ck_assert_double_eq(readings.selectivity, -1.0);
    ck_assert_double_eq(readings.end_left, 0.0);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* Minutes of a rank count from each arm's contact: begun ten minutes later, in a room that stays as it is,
 * members read the same. */
START_TEST(an_arm_that_begins_later_stands_where_it_stood)
{
    sl_rank *rank[2];
    for (int i = 0; i < 2; i++) {
        small_scene_fill(&small);
        small.scene.room_c = 24.0;
        small.arms[ARM_6].contact_min += 10.0 * i;
        small.scene.until_min += 10.0 * i;
        sl_rank_request request = usual;
        request.members = 32;
        rank[i] = rank_of(request);
    }
    for (int zone = ZONE_RED; zone <= ZONE_MIXED; zone++) {
        for (int what = 0; what < SL_STANDINGS; what++) {
            const sl_middle now = sl_rank_middle(rank[0], ARM_6, zone, (sl_standing_of)what),
                            later = sl_rank_middle(rank[1], ARM_6, zone, (sl_standing_of)what);
            ck_assert_double_eq_tol(now.p10, later.p10, 1e-3);
            ck_assert_double_eq_tol(now.p50, later.p50, 1e-3);
            ck_assert_double_eq_tol(now.p90, later.p90, 1e-3);
        }
    }
    sl_rank_free(rank[0]);
    sl_rank_free(rank[1]);
}
END_TEST

/* A member is down to a share that is just what is left at the end, and not to one of a bit less. Before its
 * contact it holds all, behind its last step what it held there. */
START_TEST(a_member_is_gone_at_just_what_is_left)
{
    static lane_history history;
    static drawn_members drawn;
    small_scene_fill(&small);
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    members_draw(&drawn, &plan, 7, 0);
    int bad = 0;
    ck_assert(lanes_run(&history, &small.scene, &small.arms[ARM_6], 1.5, 0.85, &drawn.lanes, &bad));
    for (int l = 0; l < LANES; l++) {
        member_zone zone;
        double minute = -7.0;
        member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[ARM_6], ZONE_MIXED,
                         &drawn);
        ck_assert_double_eq_tol(zone.weight[0] + zone.weight[1], 1.0, 1e-15);
        const double end = member_read(&zone, &history, l, 60.0).left;
        ck_assert_double_eq(member_read(&zone, &history, l, 1e9).left, end);
        ck_assert_double_eq_tol(member_read(&zone, &history, l, -5.0).left, 1.0, 1e-15);
        ck_assert_double_eq(member_read(&zone, &history, l, -5.0).base_moved, 0.0);
        ck_assert_double_eq(member_read(&zone, &history, l, 0.0).cystine_lost, 0.0);
        ck_assert(!member_gone(&zone, &history, l, nextafter(end, 0.0), &minute));
        ck_assert_double_eq(minute, -7.0);
        ck_assert(member_gone(&zone, &history, l, end, &minute));
        ck_assert_double_le(minute, 60.0);
        ck_assert(member_gone(&zone, &history, l, 1.0, &minute));
        ck_assert_double_le(minute, 1.0 / 600.0);
    }
}
END_TEST

/* Sixteen members that are two kelvins warmer read what members without a draw read in a room two kelvins
 * warmer, also of pigments whose energies are their own. */
START_TEST(a_member_s_warmth_reaches_energies_of_a_pigment_s_own)
{
    static lane_history history[2];
    static drawn_members drawn[2];
    const sl_draw_plan nothing = {0};
    small_scene_fill(&small);
    for (int c = 0; c < SL_CHANNELS; c++) {
        small.dyes[1].rates.own_activation[c] = true;
        small.dyes[1].rates.activation_kj_mol[c] = 140.0;
        for (int kind = 0; kind < SL_MELANINS; kind++) {
            small.scene.chemistry.melanin[kind].rates.own_activation[c] = true;
            small.scene.chemistry.melanin[kind].rates.activation_kj_mol[c] = 140.0;
        }
    }
    member_zone zone[2];
    sl_scene room = small.scene;
    for (int warmer = 0; warmer < 2; warmer++) { /* the members, then the room */
        int bad = 0;
        members_draw(&drawn[warmer], &nothing, 1, 0);
        for (int l = 0; l < LANES; l++) {
            drawn[warmer].lanes.by[SL_DOUBT_WARMTH][l] = warmer ? 0.0 : 2.0;
        }
        room.room_c = small.scene.room_c + (warmer ? 2.0 : 0.0);
        static sl_scene kept[2];
        kept[warmer] = room;
        ck_assert(lanes_run(&history[warmer], &kept[warmer], &small.arms[ARM_6], 1.5, 0.85,
                            &drawn[warmer].lanes, &bad));
        static member_ground ground;
        member_ground_make(&ground, &small.scene, NULL);
        member_zone_make(&zone[warmer], &ground, &kept[warmer], &small.arms[ARM_6], ZONE_MIXED,
                         &drawn[warmer]);
    }
    for (double minute = 5.0; minute <= 30.0; minute += 5.0) {
        const member_reading one = member_read(&zone[0], &history[0], 5, minute);
        const member_reading two = member_read(&zone[1], &history[1], 5, minute);
        ck_assert_double_eq_tol(one.left, two.left, 1e-12);
        ck_assert_double_eq_tol(one.base_moved, two.base_moved, 1e-12);
        ck_assert_double_eq_tol(one.cystine_lost, two.cystine_lost, 1e-12);
        ck_assert_double_lt(one.left, 0.97);
        ck_assert_double_gt(one.base_moved, 1e-3);
    }
}
END_TEST

START_SUITE("rank")
ADD(a_member_s_warmth_reaches_energies_of_a_pigment_s_own)
ADD(threads_do_not_matter)
ADD(a_stopped_run_says_so_and_counts_whole_members)
ADD(identical_arms_tie)
ADD(washing_alone_comes_last)
ADD(the_middle_member_is_near_the_central_value)
ADD(unbeaten_arms_are_those_that_no_other_beats_in_both)
ADD(the_parts_of_a_reason_add_up_to_the_colour_that_left)
ADD(places_are_the_longest_chain_and_a_circle_is_one_tie)
ADD(an_arm_that_seldom_gets_there_has_no_place)
ADD(three_readings_are_what_they_say)
ADD(a_faint_colour_leaves_for_the_same_reasons_as_a_strong_one)
ADD(a_rank_counts_what_each_member_reads)
ADD(a_member_that_cannot_be_solved_is_named_with_its_arm)
ADD(a_middle_is_where_its_share_of_members_has_been_counted)
ADD(nothing_left_has_no_selectivity)
ADD(an_arm_that_begins_later_stands_where_it_stood)
ADD(a_member_is_gone_at_just_what_is_left)
END_SUITE
