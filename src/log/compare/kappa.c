/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far two judges agree beyond chance: weighted kappa (Cohen 1968, Psychological Bulletin 70,
 * 213-220), from shares of disagreement; its standard error by Fleiss, Cohen and Everitt (1969, Psychological
 * Bulletin 72, 323-327).
 */
#include <math.h>

#include "slowlift/compare.h"

bool sl_kappa(const double *count, const double *disagreement, int n, double *kappa, double *error)
{
    double row[SL_WIPES] = {0.0}, column[SL_WIPES] = {0.0}, all = 0.0, seen = 0.0, chance = 0.0;
    double of_row[SL_WIPES] = {0.0}, of_column[SL_WIPES] = {0.0}, squares = 0.0;
    for (int i = 0; i < n * n; i++) {
        row[i / n] += count[i];
        column[i % n] += count[i];
        all += count[i];
    }
    for (int i = 0; all > 0.0 && i < n * n; i++) {
        seen += disagreement[i] * count[i] / all;
        chance += disagreement[i] * row[i / n] * column[i % n] / (all * all);
        of_row[i / n] += disagreement[i] * column[i % n] / all;
        of_column[i % n] += disagreement[i] * row[i / n] / all;
    }
    if (chance <= 0.0) {
        return false;
    }
    const double apart = seen / chance;
    for (int i = 0; i < n * n; i++) {
        const double off = disagreement[i] - (of_row[i / n] + of_column[i % n]) * apart;
        squares += off * off * count[i] / all;
    }
    *kappa = 1.0 - apart;
    *error = sqrt(fmax(squares - seen * seen, 0.0) / all) / chance;
    return true;
}
