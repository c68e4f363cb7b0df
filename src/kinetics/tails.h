/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hair rinsed at any moment of its last application, washed as planned and dried. What happens after the
 * rinse is solved for a few moments of the dwell; what it adds in between is read off the polynomial through
 * these. The addition is smooth in time, and steepest at first, while the fibre fills: so the moments are
 * Chebyshev's in a coordinate that is drawn out at its beginning. Tests hold it to solutions rinsed one by
 * one. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_TAILS_H
#define SLOWLIFT_KINETICS_TAILS_H

enum { TAILS = 16 };

/* Where the moments lie between the first contact of an application and the end of the treatment. */
typedef struct tail_moments {
    int n; /* at most TAILS: fewer where there are fewer steps */
    double from_min, span_min;
    double at[TAILS];     /* 0..1, ascending, all different */
    double weight[TAILS]; /* of the barycentric formula */
} tail_moments;

/* The wanted moment of tail i, in minutes since first contact. */
double tail_minute(double from_min, double span_min, int i);
/* Of the moments that were taken, two or more, ascending from the first contact to the end. */
void tail_moments_of(tail_moments *moments, const double minute[TAILS], int n);
/* share[i]: how much of tail i goes into what is added at a minute; their sum is 1. */
void tail_shares(const tail_moments *moments, double minute, double share[TAILS]);

#endif
