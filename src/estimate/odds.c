/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See odds.h. The interval's ends are quantiles of beta distributions; where one stands is found
 * by halving, because GSL's own inverse gives up for a million draws.
 */
#include "slowlift/odds.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

enum { HALVINGS = 60 };
/* Beyond this GSL's continued fraction runs out; taken for more draws it is a little too wide. */
static const double MOST_DRAWS = 1e6;

/* The share at which the beta distribution has this much below it. */
static double beta_quantile(double wanted, double a, double b)
{
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        if (gsl_cdf_beta_P(middle, a, b) < wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

sl_interval sl_odds_interval(double odds, double n, double p)
{
    assert(odds >= 0.0 && odds <= 1.0 && n > 0.0 && p > 0.0 && p < 1.0);
    const double tail = 0.5 * (1.0 - p);
    const double draws = fmin(n, MOST_DRAWS);
    const double hits = odds * draws;
    return (sl_interval){
        .low = hits > 0.0 ? beta_quantile(tail, hits, draws - hits + 1.0) : 0.0,
        .high = hits < draws ? beta_quantile(1.0 - tail, hits + 1.0, draws - hits) : 1.0,
    };
}

double sl_half_width(double sd, int n, double p)
{
    assert(p > 0.0 && p < 1.0);
    return n < 2 ? -1.0 : gsl_cdf_tdist_Pinv(0.5 + 0.5 * p, n - 1.0) * sd / sqrt(n);
}
