/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The stepper in vectors, held to GSL's own of the same method: the same bits, whatever the system.
 */
#include "kinetics/prince_dormand.h"

#include <gsl/gsl_errno.h>
#include <math.h>

#include "kinetics/states.h"
#include "suite.h"

static size_t states; /* of the system */

/* Coupled, not linear, and with the time in it. */
static int slope(double t, const double y[], double dydt[], void *fails_from)
{
    for (size_t i = 0; i < states; i++) {
        const double next = y[(i + 1) % states];
        dydt[i] = -0.3 * y[i] + 0.1 * next * next - 0.02 * y[i] * next + 0.05 * sin(t + (double)i);
    }
    return fails_from && t > *(const double *)fails_from ? GSL_EBADFUNC : GSL_SUCCESS;
}

static const size_t sizes[] = {1, 2, 5, SHARED_STATES, MIX_STATES, FULL_STATES, REDUCING_STATES};
enum { SIZES = sizeof sizes / sizeof sizes[0] };

static void start(double y[], double seed)
{
    for (size_t i = 0; i < states; i++) {
        y[i] = sin(seed * (double)(3 * i + 1));
    }
}

/* One step, with and without the slopes at both ends. */
static void same_step(const double first[], bool wants_last, double t, double h, double seed)
{
    const gsl_odeiv2_system system = {.function = slope, .dimension = states};
    gsl_odeiv2_step *const theirs = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rk8pd, states);
    gsl_odeiv2_step *const ours = gsl_odeiv2_step_alloc(prince_dormand, states);
    double y[2][REDUCING_STATES], off[2][REDUCING_STATES], last[2][REDUCING_STATES];
    start(y[0], seed);
    start(y[1], seed);
    ck_assert_int_eq(
        gsl_odeiv2_step_apply(theirs, t, h, y[0], off[0], first, wants_last ? last[0] : NULL, &system),
        GSL_SUCCESS);
    ck_assert_int_eq(
        gsl_odeiv2_step_apply(ours, t, h, y[1], off[1], first, wants_last ? last[1] : NULL, &system),
        GSL_SUCCESS);
    ck_assert_mem_eq(y[0], y[1], states * sizeof y[0][0]);
    ck_assert_mem_eq(off[0], off[1], states * sizeof off[0][0]);
    if (wants_last) {
        ck_assert_mem_eq(last[0], last[1], states * sizeof last[0][0]);
    }
    ck_assert_uint_eq(gsl_odeiv2_step_order(ours), gsl_odeiv2_step_order(theirs));
    gsl_odeiv2_step_free(theirs);
    gsl_odeiv2_step_free(ours);
}

START_TEST(a_step_falls_on_the_bits_of_gsls_own)
{
    for (int i = 0; i < SIZES; i++) {
        states = sizes[i];
        double y[REDUCING_STATES], first[REDUCING_STATES];
        for (int k = 1; k < 20; k++) {
            const double t = 0.7 * k, h = 0.05 * k, seed = 0.3 + 0.11 * k;
            start(y, seed);
            slope(t, y, first, NULL);
            same_step(first, true, t, h, seed);
            same_step(NULL, true, t, h, seed);
            same_step(first, false, t, h, seed);
        }
    }
}
END_TEST

/* And so a whole walk, whose steps hang on the errors that are told. */
START_TEST(a_walk_takes_the_steps_of_gsls_own)
{
    states = SHARED_STATES;
    const gsl_odeiv2_system system = {.function = slope, .dimension = states};
    double y[2][REDUCING_STATES], t[2] = {0.0, 0.0}, h[2] = {0.1, 0.1};
    const gsl_odeiv2_step_type *const type[2] = {gsl_odeiv2_step_rk8pd, prince_dormand};
    for (int i = 0; i < 2; i++) {
        gsl_odeiv2_step *const step = gsl_odeiv2_step_alloc(type[i], states);
        gsl_odeiv2_evolve *const evolve = gsl_odeiv2_evolve_alloc(states);
        gsl_odeiv2_control *const control = gsl_odeiv2_control_y_new(1e-10, 1e-10);
        start(y[i], 0.4);
        while (t[i] < 30.0) {
            ck_assert_int_eq(
                gsl_odeiv2_evolve_apply(evolve, control, step, &system, &t[i], 30.0, &h[i], y[i]),
                GSL_SUCCESS);
        }
        gsl_odeiv2_control_free(control);
        gsl_odeiv2_evolve_free(evolve);
        gsl_odeiv2_step_free(step);
    }
    ck_assert_double_eq(h[0], h[1]);
    ck_assert_mem_eq(y[0], y[1], states * sizeof y[0][0]);
}
END_TEST

START_TEST(a_system_that_fails_is_told_and_leaves_the_state)
{
    states = 3;
    for (double until = -1.0; until < 1.5; until += 0.05) {
        double y[3], was[3], off[3], last[3], from = until;
        const gsl_odeiv2_system system = {.function = slope, .dimension = states, .params = &from};
        gsl_odeiv2_step *const step = gsl_odeiv2_step_alloc(prince_dormand, states);
        start(y, 0.2);
        start(was, 0.2);
        const int status = gsl_odeiv2_step_apply(step, 0.0, 1.0, y, off, NULL, last, &system);
        ck_assert_int_eq(status, until < 1.0 ? GSL_EBADFUNC : GSL_SUCCESS);
        ck_assert(status == GSL_SUCCESS || (y[0] == was[0] && y[1] == was[1] && y[2] == was[2]));
        gsl_odeiv2_step_free(step);
    }
}
END_TEST

START_SUITE("prince_dormand")
ADD(a_step_falls_on_the_bits_of_gsls_own)
ADD(a_walk_takes_the_steps_of_gsls_own)
ADD(a_system_that_fails_is_told_and_leaves_the_state)
END_SUITE
