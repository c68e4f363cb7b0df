/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mean over swatches and its interval: Student's t (Student 1908, Biometrika 6, 1-25) by sl_half_width.
 */
#include <math.h>

#include "slowlift/compare.h"
#include "slowlift/odds.h"

sl_seen_mean sl_seen_mean_of(const double *value, int n)
{
    sl_seen_mean mean = {.n = n, .mean = SL_NOT_READ, .sd = -1.0, .half = -1.0};
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; i++) {
        sum += value[i];
    }
    for (int i = 0; i < n; i++) {
        squares += (value[i] - sum / n) * (value[i] - sum / n);
    }
    if (n > 0) {
        mean.mean = sum / n;
    }
    if (n > 1) {
        mean.sd = sqrt(squares / (n - 1));
        mean.half = sl_half_width(mean.sd, n, 0.95);
    }
    return mean;
}
