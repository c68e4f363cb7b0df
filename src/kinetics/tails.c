/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See tails.h. The barycentric formula: Berrut & Trefethen (2004), SIAM Rev. 46:501.
 */
#include "kinetics/tails.h"

#include <math.h>

/* Minutes go with the square of the coordinate. */
static double coordinate(const tail_moments *moments, double minute)
{
    const double share = fmin(fmax((minute - moments->from_min) / moments->span_min, 0.0), 1.0);
    return sqrt(share);
}

double tail_minute(double from_min, double span_min, int i)
{
    const double at = 0.5 - 0.5 * cos(acos(-1.0) * i / (TAILS - 1));
    return i == TAILS - 1 ? from_min + span_min : from_min + span_min * at * at;
}

void tail_moments_of(tail_moments *moments, const double minute[TAILS], int n)
{
    moments->n = n;
    moments->from_min = minute[0];
    moments->span_min = minute[n - 1] - minute[0];
    for (int i = 0; i < n; i++) {
        moments->at[i] = coordinate(moments, minute[i]);
    }
    for (int i = 0; i < n; i++) {
        double product = 1.0;
        for (int j = 0; j < n; j++) {
            product *= j == i ? 1.0 : moments->at[i] - moments->at[j];
        }
        moments->weight[i] = 1.0 / product;
    }
}

void tail_shares(const tail_moments *moments, double minute, double share[TAILS])
{
    const double at = coordinate(moments, minute);
    double sum = 0.0;
    for (int i = 0; i < moments->n; i++) {
        const double gap = at - moments->at[i];
        if (fabs(gap) <= 0.0) { /* at that moment itself */
            for (int j = 0; j < moments->n; j++) {
                share[j] = j == i ? 1.0 : 0.0;
            }
            return;
        }
        share[i] = moments->weight[i] / gap;
        sum += share[i];
    }
    for (int i = 0; i < moments->n; i++) {
        share[i] /= sum;
    }
}
