/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A stepper for GSL: the method of GSL's own rk8pd, in loops that become vectors. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_PRINCE_DORMAND_H
#define SLOWLIFT_KINETICS_PRINCE_DORMAND_H

#include <gsl/gsl_odeiv2.h>

/* For systems of up to REDUCING_STATES. The same steps as gsl_odeiv2_step_rk8pd, to the bit, in a third of
 * its work; so it is exchanged for that one wherever somebody doubts it. */
extern const gsl_odeiv2_step_type *const prince_dormand;

#endif
