/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A model that cannot be solved while what was seen is compared: each of its solutions in turn, and solvers
 * that cannot be made; and a made-up day that no log takes. What was asked for is refused with the reason,
 * nothing is held, and it is done when it is asked for again. The linker sends the calls through here.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/compare/seen_curves.h"
#include "log_made.h"
#include "slowlift/compare.h"
#include "suite.h"
#include "tools/failing_calls.h"

enum { SOLVE = 1, SOLVER, PLAN, OPEN, BEGIN, SWATCHES, APPEND, KEEP };
static int solutions; /* how many were asked for since it was set to 0 */

bool __real_sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times_min,
                              int n_times, sl_solver *solver, const sl_optics *optics, sl_error *error);
bool __wrap_sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times_min,
                              int n_times, sl_solver *solver, const sl_optics *optics, sl_error *error);
sl_solver *__real_sl_solver_new(sl_error *error);
sl_solver *__wrap_sl_solver_new(sl_error *error);

bool __wrap_sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times_min,
                              int n_times, sl_solver *solver, const sl_optics *optics, sl_error *error)
{
    solutions++;
    return fails(SOLVE)
               ? sl_fail(error, SL_ERR_SOLVER, "no way on", "")
               : __real_sl_timeline_solve(timeline, scene, times_min, n_times, solver, optics, error);
}

sl_solver *__wrap_sl_solver_new(sl_error *error)
{
    if (fails(SOLVER)) {
        sl_fail(error, SL_ERR_SOLVER, "no solver", "");
        return NULL;
    }
    return __real_sl_solver_new(error);
}

#define NO_WAY sl_fail(error, SL_ERR_CANNOT_WRITE, "no way on", "")
WRAPPED(bool, sl_plan_make,
        (sl_plan * *plan, const sl_scene *scene, const sl_plan_request *request, sl_error *error),
        (plan, scene, request, error), PLAN, NO_WAY)
WRAPPED(bool, sl_log_open, (sl_log * *log, const char *path, sl_log_how how, sl_error *error),
        (log, path, how, error), OPEN, NO_WAY)
WRAPPED(bool, sl_log_begin,
        (sl_log * log, const char *path, const sl_resolver *resolver, const sl_plan *plan, const char *title,
         const char *operator_code, char id[SL_UUID], sl_error *error),
        (log, path, resolver, plan, title, operator_code, id, error), BEGIN, NO_WAY)
WRAPPED(bool, sl_log_swatches,
        (sl_log * log, const char *test, sl_log_swatch **swatches, int *n, sl_error *error),
        (log, test, swatches, n, error), SWATCHES, NO_WAY)
WRAPPED(bool, sl_log_append,
        (sl_log * log, const char *test, const sl_log_swatch *swatches, int n_swatches, sl_event *event,
         const char *note, sl_error *error),
        (log, test, swatches, n_swatches, event, note, error), APPEND, NO_WAY)
WRAPPED(bool, sl_log_add, (sl_log * log, sl_log_reading *readings, int n, sl_error *error),
        (log, readings, n, error), KEEP, NO_WAY)

/* ---- a log of each kind ----------------------------------------------------------------------------- */

static sl_log_made made;
static sl_compare *compare;

static void see(int swatch, double minute, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, swatch, "red", grade);
    reading.minute = minute;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

/* Two applications in plain water, both cut short. Invented. */
static void begin_twice(void)
{
    log_made_begin_text(&made, log_made_twice, NULL, 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60 * 1, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, 0, 60 * 11, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60 * 21, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, 0, 60 * 36, NULL);
    see(0, SL_NOT_READ, SL_WIPE_HALF);
}

/* A ladder of which two pieces were seen, one of them cut off two minutes late. */
static void begin_ladder(void)
{
    static const int rungs[] = {5, 10, 20};
    log_made_begin_ladder(&made, rungs, 3);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60 * 1, NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 * (1 + 7), NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 * (1 + 10), NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 * (1 + 21), NULL);
    see(swatch, 5.0, SL_WIPE_SLIGHT);
    see(swatch, 10.0, SL_WIPE_HALF);
    see(swatch, SL_NOT_READ, SL_WIPE_GHOST);
}

static bool read_compare(sl_error *error)
{
    sl_log_test test;
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    return sl_compare_read(&compare, made.log, &test, -1.0, error);
}

static void begin_ladder_read(void)
{
    begin_ladder();
    ck_assert(read_compare(NULL));
}

static void end(void)
{
    disarm();
    sl_compare_free(compare);
    compare = NULL;
    log_made_end(&made);
}

/* ---- what is asked for ------------------------------------------------------------------------------ */

/* Reads it anew; what it made is let go. */
static bool reads(sl_error *error)
{
    const bool good = read_compare(error);
    ck_assert(good == (compare != NULL));
    sl_compare_free(compare);
    compare = NULL;
    return good;
}

static bool ranks_a_piece(sl_error *error)
{
    return sl_compare_rank_at(compare, 5, error);
}

static bool takes_rates(sl_error *error)
{
    sl_rate *rates = NULL;
    const bool good = sl_compare_rates(&rates, compare, error);
    ck_assert(good == (rates != NULL));
    sl_free(rates);
    return good;
}

static bool draws_curves(sl_error *error)
{
    sl_seen_curves *const curves = sl_seen_curves_make(compare, error);
    sl_seen_curves_free(curves);
    return curves != NULL;
}

static bool makes_up_a_day(sl_error *error)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    const bool good = sl_log_example(made.other, SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, error);
    ck_assert(good == (access(made.other, F_OK) == 0));
    unlink(made.other);
    return good;
}

static const struct {
    const char *name;
    void (*begin)(void);
    bool (*does)(sl_error *error);
    int least; /* solutions that it needs, or more */
} uses[] = {{"reading two applications", begin_twice, reads, 4},
            {"reading a ladder", begin_ladder, reads, 2},
            {"ranking a piece", begin_ladder_read, ranks_a_piece, 2},
            {"rates", begin_ladder_read, takes_rates, 3},
            {"curves", begin_ladder_read, draws_curves, 100},
            {"a made-up day", begin_twice, makes_up_a_day, 1}};
enum { USES = sizeof uses / sizeof uses[0], ALL_OF = 6 };

static void is_refused(int use, int what, int at)
{
    sl_error error = {.code = SL_OK};
    arm(what, at, 0);
    ck_assert_msg(!uses[use].does(&error), "%s, %d of %d", uses[use].name, at, what);
    ck_assert_msg(error.code == SL_ERR_SOLVER, "%s, %d of %d: %s", uses[use].name, at, what,
                  sl_code_name(error.code));
    disarm();
}

/* Of many solutions the first ones, and some of the others with the last. */
START_TEST(each_solution_that_fails_is_told_and_leaves_nothing_behind)
{
    uses[_i].begin();
    solutions = 0;
    ck_assert(uses[_i].does(NULL));
    const int all = solutions;
    ck_assert_msg(all >= uses[_i].least, "%s: %d", uses[_i].name, all);
    for (int at = 1; at <= all; at += at < ALL_OF || at == all ? 1 : (all - at + ALL_OF - 1) / ALL_OF) {
        is_refused(_i, SOLVE, at);
    }
    is_refused(_i, SOLVER, 1);
    arm(SOLVE, 1, 0);
    ck_assert(!uses[_i].does(NULL)); /* nobody asks why */
    disarm();
    solutions = 0;
    ck_assert(uses[_i].does(NULL));
    ck_assert_int_eq(solutions, all);
    end();
}
END_TEST

/* Each step of it in turn, of events those of the first swatches, with the one that drips. */
START_TEST(a_made_up_day_that_cannot_be_kept_is_passed_over)
{
    static const struct {
        int what, times;
    } steps[] = {{PLAN, 1}, {OPEN, 1}, {BEGIN, 1}, {SWATCHES, 1}, {APPEND, 20}, {KEEP, 2}};
    static const char *const ends[] = {"", "-wal", "-shm"};
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    begin_twice();
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        for (int at = 1; at <= steps[i].times; at++) {
            sl_error error = {.code = SL_OK};
            arm(steps[i].what, at, 0);
            ck_assert_msg(
                !sl_log_example(made.other, SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, &error),
                "%d of step %zu", at, i);
            ck_assert_int_eq(fault.n, at); /* nothing more of it was tried */
            disarm();
            ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
            for (int end = 0; end < 3; end++) {
                char name[128];
                snprintf(name, sizeof name, "%s%s", made.other, ends[end]);
                unlink(name);
            }
        }
    }
    end();
}
END_TEST

START_SUITE("a model that fails while what was seen is compared")
ADD_LOOP(each_solution_that_fails_is_told_and_leaves_nothing_behind, 0, USES)
ADD(a_made_up_day_that_cannot_be_kept_is_passed_over)
END_SUITE
