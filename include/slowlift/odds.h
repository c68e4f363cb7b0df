/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How sure a count or a mean is. Both are about the sampling alone, never about the model.
 */
#ifndef SLOWLIFT_ODDS_H
#define SLOWLIFT_ODDS_H

#pragma GCC visibility push(default)

typedef struct sl_interval {
    double low, high;
} sl_interval;

/* The exact two-sided interval of Clopper & Pearson (1934) for odds seen in n draws, at
 * confidence p (0.95). n need not be whole (an effective number of members), > 0. */
sl_interval sl_odds_interval(double odds, double n, double p);

/* Half width of the interval of a mean of n readings with this standard deviation, at
 * confidence p, by Student's t; -1 when n < 2: one reading shows no spread. */
double sl_half_width(double sd, int n, double p);

#pragma GCC visibility pop

#endif
