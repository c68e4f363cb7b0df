/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The scratch of the kinetics: GSL's steppers, made once, and the one function that
 * takes a phase from its start to its end.
 *
 * rk8pd (Prince-Dormand 8,9) is used: the system is smooth within a phase and hardly
 * stiff (fastest rate a few per minute), and a high order takes few steps, each of whose
 * ends is a node of the dense output (course.c). Measured choices: docs/bench.md.
 */
#include "kinetics/solver.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "kinetics/control.h"
#include "kinetics/prince_dormand.h"

static const double FIRST_STEP_MIN = 0.1, SMALLEST_STEP_MIN = 1e-10;
static const double REST_STEPS = 3.0;      /* a rest of more than a day: longer steps */
static const double STEPS_PER_PHASE = 4.0; /* at least, where nodes are kept: the dense output reads four */

sl_accuracy sl_accuracy_default(void)
{
    return (sl_accuracy){.absolute = 1e-10, .relative = 1e-10, .longest_min = 2.0};
}

static void stepper_free(stepper *with)
{
    if (with->evolve) {
        gsl_odeiv2_evolve_free(with->evolve);
    }
    if (with->step) {
        gsl_odeiv2_step_free(with->step);
    }
}

static bool stepper_make(stepper *with, size_t n_states, sl_error *error)
{
    with->step = gsl_odeiv2_step_alloc(prince_dormand, n_states);
    with->evolve = gsl_odeiv2_evolve_alloc(n_states);
    if (!with->step || !with->evolve) {
        return sl_fail(error, SL_ERR_NO_MEMORY, "making a solver", "");
    }
    return true;
}

sl_solver *sl_solver_new(sl_error *error)
{
    sl_solver *const solver = sl_new(1, sizeof *solver, "making a solver", error);
    if (!solver) {
        return NULL;
    }
    if (!stepper_make(&solver->shared, SHARED_STATES, error) ||
        !stepper_make(&solver->full, FULL_STATES, error) || !stepper_make(&solver->mix, MIX_STATES, error) ||
        !stepper_make(&solver->reducing, REDUCING_STATES, error)) {
        sl_solver_free(solver);
        return NULL;
    }
    sl_solver_set_accuracy(solver, sl_accuracy_default());
    return solver;
}

void sl_solver_free(sl_solver *solver)
{
    if (solver) {
        stepper_free(&solver->shared);
        stepper_free(&solver->full);
        stepper_free(&solver->mix);
        stepper_free(&solver->reducing);
        sl_free(solver);
    }
}

void sl_solver_set_accuracy(sl_solver *solver, sl_accuracy accuracy)
{
    solver->accuracy = accuracy;
}

static bool all_finite(const double y[], int n)
{
    double nothing = 0.0;
    for (int i = 0; i < n; i++) {
        nothing += y[i] - y[i]; /* no number of what is infinite, or none itself */
    }
    return !isnan(nothing);
}

static bool refuse(sl_error *error, sl_code code, double since_contact_min)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, "%.2f min after contact", since_contact_min);
    return sl_fail(error, code, found, "check the rate constants and strengths of this scene");
}

/* A sliver of a last step would put two nodes so close that reading between nodes (course.c)
 * loses its digits: the rest is halved instead. */
static double even_out(double h, double left_min)
{
    return h < left_min && 2.0 * h > left_min ? left_min / 2.0 : h;
}

bool solver_run(sl_solver *solver, system_now *system, double y[], node_sink sink, void *where,
                sl_error *error)
{
    const phase *const now = system->now;
    const int n_states = system->n_states;
    stepper *const with = n_states == SHARED_STATES ? &solver->shared
                          : n_states == MIX_STATES  ? &solver->mix
                          : n_states == FULL_STATES ? &solver->full
                                                    : &solver->reducing;
    const gsl_odeiv2_system equations = {
        .function = system_slope, .dimension = (size_t)n_states, .params = system};
    const double length_min = now->end_min - now->start_min;
    const double longest = fmin(solver->accuracy.longest_min *
                                    (now->kind == PHASE_REST && length_min > DAY_MIN ? REST_STEPS : 1.0),
                                sink ? length_min / STEPS_PER_PHASE : length_min);
    double t = now->start_min;
    double h = fmin(FIRST_STEP_MIN, longest);
    double slope[REDUCING_STATES];
    gsl_odeiv2_control control = control_of(&solver->accuracy);
    gsl_odeiv2_evolve_reset(with->evolve);
    gsl_odeiv2_step_reset(with->step);
    system_slope(t, y, slope, system);
    if (!all_finite(y, n_states) || !all_finite(slope, n_states)) {
        return refuse(error, SL_ERR_NOT_FINITE, t);
    }
    memcpy(with->evolve->dydt_out, slope, (size_t)n_states * sizeof *slope); /* as the end of a step before */
    with->evolve->count = 1;
    if (sink && !sink(where, t, y, slope, error)) {
        return false;
    }
    while (t < now->end_min) {
        h = even_out(fmin(h, longest), now->end_min - t);
        const int status =
            gsl_odeiv2_evolve_apply(with->evolve, &control, with->step, &equations, &t, now->end_min, &h, y);
        if (status != GSL_SUCCESS || (h < SMALLEST_STEP_MIN && t < now->end_min)) {
            return refuse(error, SL_ERR_SOLVER, t);
        }
        if (!all_finite(y, n_states) || !all_finite(with->evolve->dydt_out, n_states)) {
            return refuse(error, SL_ERR_NOT_FINITE, t);
        }
        if (sink && !sink(where, t, y, with->evolve->dydt_out, error)) {
            return false;
        }
    }
    return true;
}
