/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation of the solving path is made to fail, once and from then on: a clean
 * SL_ERR_NO_MEMORY each time, no leak, no crash, and what failed can be solved again. Reading
 * scenes is tested the same way in test_scene_memory.c.
 *
 * The linker's --wrap sends malloc, calloc, realloc and free of the objects linked here through
 * tests/tools/faults.c. GSL is linked as a shared library, so that its own allocations (two of which crash
 * in GSL 2.7 when they fail) stay out.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/estimate.h"
#include "slowlift/part.h"
#include "slowlift/rank.h"
#include "slowlift/spread.h"
#include "slowlift/timeline.h"
#include "suite.h"
#include "tools/built_scene.h"
#include "tools/faults.h"

/* ---- the jobs ------------------------------------------------------------------------------ */

static built_scene built;
static const double times[] = {0, 5, 10, 20, 40, 60};
enum { N_TIMES = sizeof times / sizeof times[0] };

/* All of it once: solver, optics, timeline with colours, a second solve with more times. */
static bool solve_twice(sl_error *error)
{
    sl_solver *solver = sl_solver_new(error);
    sl_optics *optics = solver != NULL ? sl_optics_new(&built.scene, error) : NULL;
    sl_timeline *timeline = NULL;
    const bool done = optics != NULL &&
                      sl_timeline_solve(&timeline, &built.scene, times, 2, solver, optics, error) &&
                      sl_timeline_solve(&timeline, &built.scene, times, N_TIMES, solver, optics, error);
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_solver_free(solver);
    return done;
}

static bool one_course(sl_error *error)
{
    sl_solver *solver = sl_solver_new(error);
    sl_course *course = NULL;
    const sl_treatment treatment = {
        .scene = &built.scene, .arm = &built.arms[8], .porosity = 1, .cystine_intact = 1, .until_min = 60};
    const bool done = solver != NULL && sl_course_solve(&course, &treatment, solver, error);
    sl_course_free(course);
    sl_solver_free(solver);
    return done;
}

/* Ensembles of one block on this thread alone: a thread's own memory is the C library's. */
static bool one_ensemble(sl_error *error)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 4, .seed = 1, .threads = 1};
    const bool done = sl_spread_run(&spread, &built.scene, &request, error);
    sl_spread_free(spread);
    return done;
}

/* Weighed by what was seen, written and read back. */
static const sl_observations seen = {
    1, {{.arm = 0, .zone = SL_OBSERVED_ALL_ZONES, .minute = 5.0, .wipe = SL_WIPE_HALF}}};

static bool one_weighed_ensemble(sl_error *error)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 4, .seed = 1, .threads = 1, .observations = &seen};
    const bool done = sl_spread_run(&spread, &built.scene, &request, error);
    sl_spread_free(spread);
    return done;
}

static struct {
    char bytes[1 << 18];
    size_t length;
} part_text;

static void write_part(void)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 4, .seed = 1, .threads = 1, .observations = &seen};
    ck_assert(sl_spread_run(&spread, &built.scene, &request, NULL));
    FILE *const out = fmemopen(part_text.bytes, sizeof part_text.bytes, "w");
    ck_assert_ptr_nonnull(out);
    ck_assert(sl_part_write(out, spread, &built.scene, NULL));
    part_text.length = (size_t)ftell(out);
    ck_assert_int_eq(fclose(out), 0);
    sl_spread_free(spread);
}

static bool one_part(sl_error *error)
{
    sl_spread *part = NULL;
    const bool done = sl_part_parse(&part, &built.scene, part_text.bytes, part_text.length, "part", error);
    sl_spread_free(part);
    return done;
}

static bool one_ranking(sl_error *error)
{
    sl_rank *rank = NULL;
    const sl_rank_request request = {.minute = 10, .share = 0.5, .members = 4, .seed = 1, .threads = 1};
    const bool done = sl_rank_run(&rank, &built.scene, &request, error);
    sl_rank_free(rank);
    return done;
}

static bool one_control(sl_error *error)
{
    return sl_stress_settle(&built.scene, error);
}

/* Fail the n-th allocation for every n, until the job has none left to fail. */
static void fail_each(bool (*job)(sl_error *error), bool from_then_on)
{
    for (long n = 1;; n++) {
        sl_error error = {.code = SL_OK};
        faults_arm(n, from_then_on);
        const bool done = job(&error);
        const faults_count count = faults_disarm();
        ck_assert_msg(count.alive == 0, "%ld blocks leak when allocation %ld fails", count.alive, n);
        if (count.calls < n) {
            ck_assert(done);
            ck_assert_int_gt(n, 3); /* the wrapper did see allocations */
            return;
        }
        ck_assert_msg(!done, "allocation %ld failed and nobody noticed", n);
        ck_assert_msg(error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", n, sl_code_name(error.code));
        ck_assert_msg(error.found[0] != '\0', "allocation %ld: the message does not say what was done", n);
    }
}

static void set_up(void)
{
    built_arms(&built);
    built.scene.arms += 6; /* the last three arms use every kind of step and an undyed strip */
    built.scene.n_arms = 3;
}

START_TEST(every_failed_allocation_of_a_course_is_reported_and_nothing_leaks)
{
    fail_each(one_course, false);
    fail_each(one_course, true);
}
END_TEST

START_TEST(every_failed_allocation_of_a_timeline_is_reported_and_nothing_leaks)
{
    fail_each(solve_twice, false);
    fail_each(solve_twice, true);
}
END_TEST

START_TEST(the_full_system_reports_every_failed_allocation_too)
{
    built.scene.chemistry.pigment_feedback = true;
    fail_each(solve_twice, false);
    fail_each(solve_twice, true);
}
END_TEST

START_TEST(nearness_to_undyed_hair_and_a_control_report_every_failed_allocation_too)
{
    built.scene.aims = (sl_aims){.colour_left = 1.0, .stress_share = 0.5, .stress_of = 0};
    for (int zone = 0; zone < built.scene.n_zones; zone++) {
        built.scene.aims.zone_near[zone] = 20.0;
    }
    ck_assert(sl_goal_near_undyed(&built.scene));
    fail_each(solve_twice, false);
    fail_each(solve_twice, true);
    fail_each(one_ensemble, false);
    fail_each(one_ensemble, true);
    fail_each(one_control, false);
    fail_each(one_control, true);
    ck_assert_double_gt(built.scene.aims.cystine_lost.most, 0.0);
}
END_TEST

START_TEST(ensembles_report_every_failed_allocation_too)
{
    built.scene.aims = (sl_aims){.colour_left = 0.5};
    fail_each(one_ensemble, false);
    fail_each(one_ensemble, true);
    fail_each(one_ranking, false);
    fail_each(one_ranking, true);
    fail_each(one_weighed_ensemble, false);
    fail_each(one_weighed_ensemble, true);
    write_part();
    fail_each(one_part, false);
    fail_each(one_part, true);
}
END_TEST

START_TEST(a_timeline_that_ran_out_of_memory_can_be_solved_again)
{
    sl_error error;
    sl_solver *solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
    sl_timeline *fresh = NULL;
    ck_assert(sl_timeline_solve(&fresh, &built.scene, times, N_TIMES, solver, NULL, &error));
    bool failed = true;
    for (long n = 1; failed; n++) {
        sl_timeline *timeline = NULL;
        faults_arm(n, false);
        failed = !sl_timeline_solve(&timeline, &built.scene, times, N_TIMES, solver, NULL, &error);
        faults_disarm();
        ck_assert(sl_timeline_solve(&timeline, &built.scene, times, N_TIMES, solver, NULL, &error));
        for (int a = 0; a < built.scene.n_arms; a++) {
            for (int z = 0; z < built.scene.n_zones; z++) {
                const sl_cell *cell = sl_timeline_cell(timeline, a, z, N_TIMES - 1);
                const sl_cell *wanted = sl_timeline_cell(fresh, a, z, N_TIMES - 1);
                ck_assert(memcmp(cell->amounts.pool, wanted->amounts.pool, sizeof cell->amounts.pool) == 0);
                ck_assert(memcmp(&cell->colour_left, &wanted->colour_left, sizeof cell->colour_left) == 0);
            }
        }
        sl_timeline_free(timeline);
    }
    sl_timeline_free(fresh);
    sl_solver_free(solver);
}
END_TEST

START_TEST(solving_again_allocates_nothing)
{
    sl_error error;
    sl_solver *solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    ck_assert_ptr_nonnull(solver);
    ck_assert(sl_timeline_solve(&timeline, &built.scene, times, N_TIMES, solver, NULL, &error));
    faults_arm(0, false);
    const bool done = sl_timeline_solve(&timeline, &built.scene, times, N_TIMES, solver, NULL, &error);
    const faults_count count = faults_disarm(); /* check's own macros allocate */
    ck_assert(done);
    ck_assert_int_eq(count.calls, 0);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_SUITE("faults")
FIXTURE(set_up, NULL)
ADD(every_failed_allocation_of_a_course_is_reported_and_nothing_leaks)
ADD(every_failed_allocation_of_a_timeline_is_reported_and_nothing_leaks)
ADD(the_full_system_reports_every_failed_allocation_too)
ADD(ensembles_report_every_failed_allocation_too)
ADD(nearness_to_undyed_hair_and_a_control_report_every_failed_allocation_too)
ADD(a_timeline_that_ran_out_of_memory_can_be_solved_again)
ADD(solving_again_allocates_nothing)
END_SUITE
