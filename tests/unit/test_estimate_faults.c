/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What-ifs, searches and maps with every allocation refused, and ensembles where no thread is to be had.
 * Linked as test_faults.c is, with two functions more that the linker sends through here.
 */
#include <gsl/gsl_min.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/map.h"
#include "slowlift/part.h"
#include "slowlift/plan.h"
#include "slowlift/rank.h"
#include "slowlift/rinse.h"
#include "slowlift/spread.h"
#include "slowlift/what_if.h"
#include "suite.h"
#include "tools/faults.h"
#include "unit/small_scene.h"

/* ---- what the linker sends here ------------------------------------------------------------ */

static bool no_threads, no_minimizer;
static int threads_asked_for;

int __real_pthread_create(pthread_t *thread, const pthread_attr_t *how, void *(*start)(void *), void *with);
int __wrap_pthread_create(pthread_t *thread, const pthread_attr_t *how, void *(*start)(void *), void *with);
gsl_min_fminimizer *__real_gsl_min_fminimizer_alloc(const gsl_min_fminimizer_type *type);
gsl_min_fminimizer *__wrap_gsl_min_fminimizer_alloc(const gsl_min_fminimizer_type *type);

int __wrap_pthread_create(pthread_t *thread, const pthread_attr_t *how, void *(*start)(void *), void *with)
{
    threads_asked_for++;
    return no_threads ? 11 /* EAGAIN */ : __real_pthread_create(thread, how, start, with);
}

gsl_min_fminimizer *__wrap_gsl_min_fminimizer_alloc(const gsl_min_fminimizer_type *type)
{
    return no_minimizer ? NULL : __real_gsl_min_fminimizer_alloc(type);
}

/* ---- jobs ---------------------------------------------------------------------------------------- */

static small_scene small;

static void set_up(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 29.9; /* warmer hair counts as a head */
    small.arms[0] = small.arms[ARM_6];
    small.scene.n_arms = 1;
    small.mixes[MIX_POWDER_6].label_allows = true;
    small.scene.aims = (sl_aims){.colour_left = 0.3, .base_moved = {0.95, true}, .cystine_lost = {0.5, true}};
    no_threads = no_minimizer = false;
    threads_asked_for = 0;
}

static bool one_search(sl_error *error)
{
    sl_search search;
    sl_solver *const solver = sl_solver_new(error);
    const bool done = solver && sl_search_run(&search, &small.scene, solver, error);
    sl_solver_free(solver);
    return done;
}

static const sl_axis strength = {.setting = SL_SETTING_STRENGTH, .from = 3.0, .to = 6.0, .n = 2};
static const sl_axis dwell = {.setting = SL_SETTING_DWELL, .from = 5.0, .to = 30.0, .n = 2};

static bool one_map(sl_error *error)
{
    sl_map *map = NULL;
    sl_solver *const solver = sl_solver_new(error);
    const bool done =
        solver && sl_map_make(&map, &small.scene, 0, ZONE_RED, strength, dwell, NULL, solver, error);
    sl_map_free(map);
    sl_solver_free(solver);
    return done;
}

static bool one_outcome(sl_error *error)
{
    sl_outcome outcome;
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(error);
    const bool done = solver && sl_outcome_of(&outcome, &small.scene, 0, &timeline, solver, error);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return done;
}

static bool two_threads(sl_error *error)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 4, .seed = 1, .threads = 2};
    const bool done = sl_spread_run(&spread, &small.scene, &request, error);
    sl_spread_free(spread);
    return done;
}

static bool two_rankers(sl_error *error)
{
    sl_rank *rank = NULL;
    const sl_rank_request request = {.minute = 10, .share = 0.5, .members = 4, .seed = 1, .threads = 2};
    const bool done = sl_rank_run(&rank, &small.scene, &request, error);
    sl_rank_free(rank);
    return done;
}

static bool two_rinsers(sl_error *error)
{
    const sl_spread_request request = {.members = 4, .seed = 1, .threads = 1};
    sl_spread *spread = NULL;
    sl_rinse *rinse = NULL;
    bool done = sl_spread_run(&spread, &small.scene, &request, error);
    if (done) {
        const sl_rinse_request rinsed = {.spread = spread, .same_zone = -1, .threads = 2};
        done = sl_rinse_run(&rinse, &small.scene, &rinsed, error);
    }
    sl_rinse_free(rinse);
    sl_spread_free(spread);
    return done;
}

static bool (*const jobs[])(sl_error *error) = {one_search,  one_map,     one_outcome,
                                                two_threads, two_rankers, two_rinsers};
enum { JOBS = (int)(sizeof jobs / sizeof jobs[0]) };

START_TEST(every_refused_allocation_is_told_and_nothing_leaks)
{
    no_threads = true; /* a thread's own memory is the C library's */
    for (int from_then_on = 0; from_then_on < 2; from_then_on++) {
        long n = 1;
        for (bool done = false; !done; n++) {
            sl_error error = {.code = SL_OK};
            faults_arm(n, from_then_on == 1);
            done = jobs[_i](&error);
            const faults_count count = faults_disarm();
            ck_assert_msg(count.alive == 0, "%ld blocks leak when allocation %ld fails", count.alive, n);
            ck_assert_msg(done == (count.calls < n), "allocation %ld failed and nobody noticed", n);
            ck_assert_int_eq(error.code, done ? SL_OK : SL_ERR_NO_MEMORY);
        }
        ck_assert_int_gt(n, 3); /* the wrapper did see allocations */
    }
}
END_TEST

START_TEST(a_search_that_cannot_descend_says_why)
{
    sl_error error = {.code = SL_OK};
    ck_assert(one_search(NULL));
    no_minimizer = true;
    ck_assert(!one_search(&error));
    ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
}
END_TEST

/* ---- threads ------------------------------------------------------------------------------------ */

START_TEST(where_no_thread_is_to_be_had_every_member_is_counted_all_the_same)
{
    sl_spread *spread[2] = {NULL, NULL};
    sl_rank *rank[2] = {NULL, NULL};
    const sl_spread_request request = {.members = 100, .seed = 3, .threads = 4};
    const sl_rank_request ranked = {.minute = 10, .share = 0.5, .members = 100, .seed = 3, .threads = 4};
    for (int without = 0; without < 2; without++) {
        no_threads = without == 1;
        ck_assert(sl_spread_run(&spread[without], &small.scene, &request, NULL));
        ck_assert(sl_rank_run(&rank[without], &small.scene, &ranked, NULL));
    }
    ck_assert_int_eq(threads_asked_for, 4 * 3);
    const sl_arm_spread *const x = spread[0]->arms;
    const sl_arm_spread *const y = spread[1]->arms;
    ck_assert_int_eq(spread[1]->members, 100);
    ck_assert_mem_eq(x->early, y->early, ((size_t)spread[0]->seconds + 1) * sizeof *x->early);
    ck_assert_mem_eq(x->late, y->late, ((size_t)spread[0]->seconds + 1) * sizeof *x->late);
    ck_assert_int_eq(x->sum_s, y->sum_s);
    ck_assert_int_eq(rank[1]->members, 100);
    ck_assert_mem_eq(rank[0]->standing, rank[1]->standing, SMALL_ZONES * sizeof *rank[0]->standing);
    for (int i = 0; i < 2; i++) {
        sl_spread_free(spread[i]);
        sl_rank_free(rank[i]);
    }
}
END_TEST

START_TEST(no_more_threads_are_asked_for_than_there_is_room_for)
{
    no_threads = true;
    sl_spread *spread = NULL;
    sl_rank *rank = NULL;
    const sl_spread_request request = {.members = 2000, .seed = 3, .threads = 1000};
    const sl_rank_request ranked = {.minute = 10, .share = 0.5, .members = 16, .seed = 3, .threads = 1000};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    ck_assert_int_eq(threads_asked_for, 63);
    ck_assert_int_eq(spread->members, 2000);
    ck_assert(sl_rank_run(&rank, &small.scene, &ranked, NULL));
    ck_assert_int_eq(threads_asked_for, 2 * 63);
    ck_assert_int_eq(rank->members, 16);
    sl_spread_free(spread);
    sl_rank_free(rank);
}
END_TEST

/* ---- made anew, and refused ------------------------------------------------------------------------------
 */

static char part_text[1 << 20];

/* A part of an ensemble as text; 0: it did not go well. */
static size_t part_written(const sl_spread *spread)
{
    FILE *const out = fmemopen(part_text, sizeof part_text, "w");
    const bool good = out && sl_part_write(out, spread, &small.scene, NULL);
    const long length = out ? ftell(out) : 0;
    if (out) {
        fclose(out);
    }
    return good && length > 0 ? (size_t)length : 0;
}

/* How many of these calls, each made twice into one pointer, went as they should. */
static int made_anew(const sl_observations *observations)
{
    int good = 0;
    sl_spread *spread = NULL, *part = NULL;
    sl_rank *rank = NULL;
    sl_map *map = NULL;
    sl_plan *plan = NULL;
    sl_plan_error together, one_bowl;
    sl_solver *const solver = sl_solver_new(NULL);
    const sl_spread_request asked = {.members = 16, .seed = 1, .threads = 2, .observations = observations};
    const sl_rank_request ranked = {.minute = 10, .share = 0.5, .members = 16, .seed = 1, .threads = 2};
    const sl_plan_request planned = sl_plan_request_default();
    for (int i = 0; i < 2; i++) {
        good += sl_spread_run(&spread, &small.scene, &asked, NULL) ? 1 : 0;
        good += sl_rank_run(&rank, &small.scene, &ranked, NULL) ? 1 : 0;
        good += sl_map_make(&map, &small.scene, 0, ZONE_RED, strength, dwell, NULL, solver, NULL) ? 1 : 0;
        const size_t length = part_written(spread);
        good += sl_part_parse(&part, &small.scene, part_text, length, "part", NULL) ? 1 : 0;
        sl_plan_free(plan);
        plan = NULL;
        good += sl_plan_make(&plan, &small.scene, &planned, NULL) ? 1 : 0;
        good += sl_plan_if_together(plan, solver, &together, NULL) ? 1 : 0;
        good += sl_plan_if_one_bowl(plan, solver, &one_bowl, NULL) ? 1 : 0;
    }
    sl_plan_free(plan);
    sl_spread_free(spread);
    sl_spread_free(part);
    sl_rank_free(rank);
    sl_map_free(map);
    sl_solver_free(solver);
    return good;
}

static const sl_observations one_seen = {1,
                                         {{.arm = 0, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};

START_TEST(what_is_made_anew_takes_the_place_of_what_was_there)
{
    no_threads = true; /* a thread's own memory is the C library's */
    for (int seen = 0; seen < 2; seen++) {
        for (int near = 0; near < 2; near++) {
            small.scene.aims.zone_near[ZONE_RED] = near ? 20.0 : 0.0;
            faults_arm(0, false);
            const int good = made_anew(seen ? &one_seen : NULL);
            const faults_count count = faults_disarm();
            ck_assert_int_eq(good, 14);
            ck_assert_msg(count.alive == 0, "%ld blocks leak", count.alive);
        }
    }
}
END_TEST

/* How many of these calls were refused, as they should. */
static int refused(size_t length)
{
    int n = 0;
    sl_spread *spread = NULL;
    sl_rank *rank = NULL;
    sl_map *map = NULL;
    sl_plan *plan = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    for (size_t cut = 0; cut < length; cut += 97) { /* a digit or a blank of a count that does not fit */
        const char kept = part_text[cut];
        part_text[cut] = kept == '7' ? '8' : '7';
        char sum[32];
        snprintf(sum, sizeof sum, "checksum %016llx\n",
                 (unsigned long long)sl_fnv(SL_FNV_START, part_text, length - 26));
        memcpy(part_text + length - 26, sum, 26);
        if (sl_part_parse(&spread, &small.scene, part_text, length, "part", NULL)) {
            sl_spread_free(spread); /* the seed may be any */
            spread = NULL;
        }
        part_text[cut] = kept;
    }
    small.scene.chemistry.couple_l_mol_min.value = 1e9; /* no step is short enough */
    const sl_spread_request asked = {.members = 16, .seed = 1, .threads = 2},
                            seen = {.members = 16, .seed = 1, .threads = 2, .observations = &one_seen};
    const sl_rank_request ranked = {.minute = 10, .share = 0.5, .members = 16, .seed = 1, .threads = 2};
    n += sl_spread_run(&spread, &small.scene, &asked, NULL) ? 0 : 1;
    n += sl_spread_run(&spread, &small.scene, &seen, NULL) ? 0 : 1;
    n += sl_rank_run(&rank, &small.scene, &ranked, NULL) ? 0 : 1;
    small.scene.chemistry.couple_l_mol_min.value = 0.15;
    small.scene.chemistry.cystine.k[0].value = nan("");
    n += sl_map_make(&map, &small.scene, 0, ZONE_RED, strength, dwell, NULL, solver, NULL) ? 0 : 1;
    small.scene.chemistry.cystine.k[0].value = 0.185;
    sl_plan_request planned = sl_plan_request_default();
    planned.n_looks = 2;
    planned.look_min[0] = 5;
    planned.look_min[1] = 6;
    planned.look_s = 61;
    n += sl_plan_make(&plan, &small.scene, &planned, NULL) ? 0 : 1;
    sl_solver_free(solver);
    return n + (!spread && !rank && !map && !plan ? 1 : 0);
}

START_TEST(what_is_refused_on_the_way_leaks_nothing)
{
    no_threads = true;
    sl_spread *spread = NULL;
    const sl_spread_request asked = {.members = 16, .seed = 1, .threads = 1, .observations = &one_seen};
    ck_assert(sl_spread_run(&spread, &small.scene, &asked, NULL));
    const size_t length = part_written(spread);
    ck_assert_uint_gt(length, 1000);
    sl_spread_free(spread);
    faults_arm(0, false);
    const int n = refused(length);
    const faults_count count = faults_disarm();
    ck_assert_int_eq(n, 6);
    ck_assert_msg(count.alive == 0, "%ld blocks leak", count.alive);
}
END_TEST

START_SUITE("faults of estimates")
FIXTURE(set_up, NULL)
ADD_LOOP(every_refused_allocation_is_told_and_nothing_leaks, 0, JOBS)
ADD(a_search_that_cannot_descend_says_why)
ADD(where_no_thread_is_to_be_had_every_member_is_counted_all_the_same)
ADD(no_more_threads_are_asked_for_than_there_is_room_for)
ADD(what_is_made_anew_takes_the_place_of_what_was_there)
ADD(what_is_refused_on_the_way_leaks_nothing)
END_SUITE
