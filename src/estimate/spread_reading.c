/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the counts of an ensemble say: quantiles, indices, how many members they are worth.
 */
#include <math.h>

#include "slowlift/spread.h"

const sl_arm_spread *sl_spread_arm(const sl_spread *spread, int arm)
{
    return spread->weighed ? &spread->weighed[arm] : &spread->arms[arm];
}

int64_t sl_spread_total(const sl_spread *spread)
{
    return spread->weighed ? spread->seen.weight : (int64_t)spread->members;
}

double sl_spread_effective(const sl_spread *spread)
{
    if (!spread->weighed) {
        return (double)spread->members;
    }
    const double sum = (double)spread->seen.weight;
    return spread->seen.square > 0 ? sum * sum / (double)spread->seen.square : 0.0;
}

double sl_spread_quantile(const uint64_t *histogram, int seconds, int64_t total, double p)
{
    const double wanted = p * (double)total;
    double below = 0.0;
    for (int i = 0; i < seconds; i++) {
        below += (double)histogram[i];
        if (below >= wanted) {
            return i / 60.0;
        }
    }
    return -1.0;
}

/* Variance of the bin means over the whole variance, less what bins of this size show by
 * chance: the given-data estimator of a first-order index (Plischke, Borgonovo & Smith 2013). */
double sl_spread_index(const sl_spread *spread, int arm, int drawn)
{
    const sl_arm_spread *const here = sl_spread_arm(spread, arm);
    const double n = (double)sl_spread_total(spread);
    const double effective = sl_spread_effective(spread);
    if (!here->asked || effective < 2.0) {
        return 0.0;
    }
    const double mean = (double)here->sum_s / n;
    const double variance = (double)here->square_s2 / n - mean * mean;
    if (!(variance > 0.0)) {
        return 0.0;
    }
    double between = 0.0;
    for (int b = 0; b < SL_INDEX_BINS; b++) {
        const double m = (double)here->index_count[drawn][b];
        if (m > 0.0) {
            const double gap = (double)here->index_sum_s[drawn][b] / m - mean;
            between += m / n * gap * gap;
        }
    }
    const double chance = variance * (SL_INDEX_BINS - 1) / effective;
    return fmin(fmax((between - chance) / variance, 0.0), 1.0);
}

double sl_spread_odds_within(const sl_spread *spread, int arm, int drawn, int first, int bins)
{
    const sl_arm_spread *const here = sl_spread_arm(spread, arm);
    int64_t all = 0, open = 0;
    for (int b = first; b < first + bins; b++) {
        all += here->index_count[drawn][b];
        open += here->index_open[drawn][b];
    }
    return all > 0 ? (double)open / (double)all : -1.0;
}
