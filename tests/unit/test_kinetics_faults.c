/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a solver says when GSL gives it nothing, does not go on, or gives back no number. Linked so that these
 * calls come through here.
 */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <string.h>

#include "slowlift/kinetics.h"
#include "slowlift/timeline.h"
#include "suite.h"
#include "unit/small_scene.h"

typedef enum fault { NO_FAULT, STUCK, TOO_SMALL, NO_NUMBER, NO_SLOPE } fault;
static fault from_call;       /* what happens */
static long at_call, n_calls; /*   and at which call of the stepper */
static int steppers_left;     /* that can still be made; -1: all */

gsl_odeiv2_step *__real_gsl_odeiv2_step_alloc(const gsl_odeiv2_step_type *type, size_t dim);
gsl_odeiv2_step *__wrap_gsl_odeiv2_step_alloc(const gsl_odeiv2_step_type *type, size_t dim);
gsl_odeiv2_evolve *__real_gsl_odeiv2_evolve_alloc(size_t dim);
gsl_odeiv2_evolve *__wrap_gsl_odeiv2_evolve_alloc(size_t dim);
int __real_gsl_odeiv2_evolve_apply(gsl_odeiv2_evolve *e, gsl_odeiv2_control *con, gsl_odeiv2_step *step,
                                   const gsl_odeiv2_system *dydt, double *t, double t1, double *h,
                                   double y[]);
int __wrap_gsl_odeiv2_evolve_apply(gsl_odeiv2_evolve *e, gsl_odeiv2_control *con, gsl_odeiv2_step *step,
                                   const gsl_odeiv2_system *dydt, double *t, double t1, double *h,
                                   double y[]);

static bool one_more(void)
{
    if (steppers_left == 0) {
        return false;
    }
    steppers_left -= steppers_left > 0 ? 1 : 0;
    return true;
}

gsl_odeiv2_step *__wrap_gsl_odeiv2_step_alloc(const gsl_odeiv2_step_type *type, size_t dim)
{
    return one_more() ? __real_gsl_odeiv2_step_alloc(type, dim) : NULL;
}

gsl_odeiv2_evolve *__wrap_gsl_odeiv2_evolve_alloc(size_t dim)
{
    return one_more() ? __real_gsl_odeiv2_evolve_alloc(dim) : NULL;
}

int __wrap_gsl_odeiv2_evolve_apply(gsl_odeiv2_evolve *e, gsl_odeiv2_control *con, gsl_odeiv2_step *step,
                                   const gsl_odeiv2_system *dydt, double *t, double t1, double *h, double y[])
{
    const bool now = ++n_calls == at_call;
    if (now && from_call == STUCK) {
        return GSL_FAILURE;
    }
    const int status = __real_gsl_odeiv2_evolve_apply(e, con, step, dydt, t, t1, h, y);
    *h = now && from_call == TOO_SMALL ? 1e-12 : *h;
    y[0] = now && from_call == NO_NUMBER ? log(-1.0) : y[0];
    e->dydt_out[0] = now && from_call == NO_SLOPE ? log(-1.0) : e->dydt_out[0];
    return status;
}

static small_scene small;

static void set_up(void)
{
    small_scene_fill(&small);
    from_call = NO_FAULT;
    at_call = n_calls = 0;
    steppers_left = -1;
}

static bool solves(sl_solver *solver, sl_timeline **timeline, sl_error *error)
{
    *error = (sl_error){.code = SL_OK};
    n_calls = 0;
    return sl_timeline_solve(timeline, &small.scene, NULL, 0, solver, NULL, error);
}

START_TEST(a_solver_that_gets_no_stepper_is_not_made)
{
    for (int most = 0; most < 8; most++) { /* a stepper and its course, for the shared, the full, a mix's own
                                              and the reducing system */
        sl_error error = {.code = SL_OK};
        steppers_left = most;
        ck_assert_ptr_null(sl_solver_new(&error));
        ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    }
    steppers_left = 8;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert_ptr_nonnull(solver);
    sl_solver_free(solver);
}
END_TEST

/* At the first call and at one in the middle, in the bowl (the first calls of an aged mix) and on the hair.
 */
START_TEST(a_step_that_fails_is_told_and_the_solver_serves_again)
{
    static const sl_code wanted[] = {[STUCK] = SL_ERR_SOLVER,
                                     [TOO_SMALL] = SL_ERR_SOLVER,
                                     [NO_NUMBER] = SL_ERR_NOT_FINITE,
                                     [NO_SLOPE] = SL_ERR_NOT_FINITE};
    sl_error error;
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    small.arms[ARM_WASHING].steps[0].mix_age_min = 10.0; /* the first arm that is solved */
    ck_assert(solves(solver, &timeline, &error));
    sl_cell before, after;
    sl_timeline_at(timeline, ARM_6, ZONE_RED, 20.0, NULL, &before);
    const long last = n_calls;
    for (int kind = STUCK; kind <= NO_SLOPE; kind++) {
        const long calls[] = {1, 2, last / 2};
        for (int i = 0; i < 3; i++) {
            from_call = (fault)kind;
            at_call = calls[i];
            ck_assert_msg(!solves(solver, &timeline, &error), "%d at %ld", kind, at_call);
            ck_assert_int_eq(error.code, wanted[kind]);
            ck_assert_ptr_nonnull(strstr(error.found, "min after contact"));
        }
    }
    from_call = NO_FAULT;
    ck_assert(solves(solver, &timeline, &error));
    sl_timeline_at(timeline, ARM_6, ZONE_RED, 20.0, NULL, &after);
    ck_assert(after.colour_left >= before.colour_left && after.colour_left <= before.colour_left);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_SUITE("faults of the kinetics")
FIXTURE(set_up, NULL)
ADD(a_solver_that_gets_no_stepper_is_not_made)
ADD(a_step_that_fails_is_told_and_the_solver_serves_again)
END_SUITE
