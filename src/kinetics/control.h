/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long a step of the solver may be. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_CONTROL_H
#define SLOWLIFT_KINETICS_CONTROL_H

#include <gsl/gsl_odeiv2.h>

#include "slowlift/kinetics.h"

/* A control that keeps each state to `wanted`, which it borrows. Nothing to free. */
gsl_odeiv2_control control_of(sl_accuracy *wanted);

#endif
