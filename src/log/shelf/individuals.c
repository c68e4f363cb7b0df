/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See individuals.h.
 */
#include "log/shelf/individuals.h"

#include <math.h>

/* Of ranges of two normal values: the mean in standard deviations, and the upper limit in means (d2 and D4
 * for n = 2; the Handbook, 6.3.2). */
static const double RANGE_MEAN = 1.128, RANGE_LIMIT = 3.267;

sl_individuals sl_individuals_of(const double *value, int n)
{
    sl_individuals control = {.known = false};
    if (n < SL_INDIVIDUALS_FIRST) {
        return control;
    }
    for (int i = 0; i < SL_INDIVIDUALS_FIRST; i++) {
        control.centre += value[i] / SL_INDIVIDUALS_FIRST;
        control.range += i > 0 ? fabs(value[i] - value[i - 1]) / (SL_INDIVIDUALS_FIRST - 1) : 0.0;
    }
    control.known = control.range > 0.0;
    control.alike = !control.known;
    control.low = control.centre - 3.0 * control.range / RANGE_MEAN;
    control.high = control.centre + 3.0 * control.range / RANGE_MEAN;
    control.range_high = RANGE_LIMIT * control.range;
    return control;
}

bool sl_individuals_outside(const sl_individuals *control, double value)
{
    return control->known && (value < control->low || value > control->high);
}
