/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far two judges agree beyond chance: weighted kappa (Cohen 1968, Psychological Bulletin 70,
 * 213-220), from shares of disagreement.
 */
#include "slowlift/compare.h"

bool sl_kappa(const double *count, const double *disagreement, int n, double *kappa)
{
    double row[SL_WIPES] = {0.0}, column[SL_WIPES] = {0.0}, all = 0.0, seen = 0.0, chance = 0.0;
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            row[i] += count[i * n + j];
            column[j] += count[i * n + j];
            all += count[i * n + j];
        }
    }
    for (int i = 0; all > 0.0 && i < n; i++) {
        for (int j = 0; j < n; j++) {
            seen += disagreement[i * n + j] * count[i * n + j] / all;
            chance += disagreement[i * n + j] * row[i] * column[j] / (all * all);
        }
    }
    if (chance <= 0.0) {
        return false;
    }
    *kappa = 1.0 - seen / chance;
    return true;
}
