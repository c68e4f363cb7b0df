/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GSL's pieces and the walk through one phase. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_SOLVER_H
#define SLOWLIFT_KINETICS_SOLVER_H

#include <gsl/gsl_odeiv2.h>

#include "kinetics/system.h"

typedef struct stepper {
    gsl_odeiv2_step *step;
    gsl_odeiv2_evolve *evolve;
} stepper;

struct sl_solver {
    stepper shared, full, mix, reducing; /* of SHARED_STATES, FULL_STATES, MIX_STATES and REDUCING_STATES */
    sl_accuracy accuracy;
    mix_memo memo;
};

/* Takes every node of a phase: time since contact, state and slope. */
typedef bool (*node_sink)(void *where, double since_contact_min, const double state[], const double slope[],
                          sl_error *error);

/* From the phase's start to its end; y holds the state and is left at the end. sink: NULL, nothing is kept
 * and steps are as long as they can be. */
bool solver_run(sl_solver *solver, system_now *system, double y[], node_sink sink, void *where,
                sl_error *error);

#endif
