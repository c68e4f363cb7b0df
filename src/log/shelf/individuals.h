/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Individuals and moving ranges: whether single values, taken one after the other, still scatter as the first
 * of them did. NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2
 * (https://www.itl.nist.gov/div898/handbook/pmc/section3/pmc322.htm).
 */
#ifndef SLOWLIFT_LOG_INDIVIDUALS_H
#define SLOWLIFT_LOG_INDIVIDUALS_H

#include <stdbool.h>

/* Limits come from the first ten and stay; with fewer there are none. */
enum { SL_INDIVIDUALS_FIRST = 10 };

typedef struct sl_individuals {
    bool known;        /* there are ten, and the first ten are not all alike */
    bool alike;        /* the first ten are */
    double centre;     /* mean of the first ten */
    double low, high;  /* of a value: three standard deviations, by the mean moving range, from it */
    double range;      /* mean of the first nine moving ranges */
    double range_high; /* of a moving range; the low limit is 0 */
} sl_individuals;

/* value: [n], in turn, in any unit, which the limits then have. */
sl_individuals sl_individuals_of(const double *value, int n);
bool sl_individuals_outside(const sl_individuals *control, double value);

#endif
