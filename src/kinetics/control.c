/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The choice of a step's length, by the rule that GSL's manual gives ("Adaptive Step-size Control"):
 * the worst ratio of estimated error to wanted accuracy shortens or lengthens the next step by at most
 * five. GSL's own makers of a control write through the pointer before they look whether memory was
 * there, so a machine short of it would crash; this one needs no memory. The order of the arithmetic is
 * kept, so that steps fall on the same bits.
 */
#include "kinetics/control.h"

#include <float.h>
#include <gsl/gsl_errno.h>
#include <math.h>

static const double SAFETY = 0.9, MOST_LONGER = 5.0, MOST_SHORTER = 0.2;
static const double TOO_WIDE = 1.1, TOO_NARROW = 0.5; /* ratios beyond which the step changes */

static double worst_ratio(const sl_accuracy *wanted, size_t n, const double y[], const double error[])
{
    double worst = DBL_MIN;
    for (size_t i = 0; i < n; i++) {
        const double ratio = fabs(error[i]) / fabs(wanted->relative * fabs(y[i]) + wanted->absolute);
        worst = ratio > worst ? ratio : worst;
    }
    return worst;
}

/* The shape that GSL calls; the slopes have no part in the wanted accuracy. */
static int adjust(void *wanted, size_t n, unsigned order, const double y[], const double error[],
                  const double slope[], double *step)
{
    (void)slope;
    const double worst = worst_ratio(wanted, n, y, error);
    if (worst > TOO_WIDE) {
        *step *= fmax(SAFETY / pow(worst, 1.0 / order), MOST_SHORTER);
        return GSL_ODEIV_HADJ_DEC;
    }
    if (worst < TOO_NARROW) {
        *step *= fmax(fmin(SAFETY / pow(worst, 1.0 / (order + 1.0)), MOST_LONGER), 1.0);
        return GSL_ODEIV_HADJ_INC;
    }
    return GSL_ODEIV_HADJ_NIL;
}

static int level(void *wanted, const double y, const double slope, const double step, const size_t i,
                 double *error)
{
    const sl_accuracy *const accuracy = wanted;
    (void)slope;
    (void)step;
    (void)i;
    *error = accuracy->relative * fabs(y) + accuracy->absolute;
    return GSL_SUCCESS;
}

gsl_odeiv2_control control_of(sl_accuracy *wanted)
{
    static const gsl_odeiv2_control_type type = {.name = "each state", .hadjust = adjust, .errlevel = level};
    return (gsl_odeiv2_control){.type = &type, .state = wanted};
}
