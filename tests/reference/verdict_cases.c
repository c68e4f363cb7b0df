/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Four cases of a toy: one colour and one base, each of first order, rates log-normal with
 * mean ln 2 over the half-life and coefficient of variation 0.3, goal 10 % left, base moved 20 %. Prints
 * what the library's draws and rule make of them, for cases_scipy.py to hold to integrals.
 */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/answer.h"

enum { MEMBERS = 200000, SECONDS = 7200 };

typedef struct toy {
    const char *name;
    double dye_half_min, base_half_min, label_min;
} toy;

static double rate(double half_min, double u)
{
    const double sigma = sqrt(log1p(0.3 * 0.3));
    return log(2.0) / half_min * exp(sigma * gsl_cdf_ugaussian_Pinv(u) - 0.5 * sigma * sigma);
}

static sl_three three_of(const uint64_t *histogram, int64_t total)
{
    return (sl_three){sl_spread_quantile(histogram, SECONDS, total, 0.1),
                      sl_spread_quantile(histogram, SECONDS, total, 0.5),
                      sl_spread_quantile(histogram, SECONDS, total, 0.9)};
}

static uint64_t weight_of(double k, bool seen)
{
    return seen ? (uint64_t)floor(4096.0 * sl_wipe_agreement(&SL_JUDGE_USUAL, SL_WIPE_HALF, exp(-6.0 * k)) +
                                  0.5)
                : 1;
}

static void put(const toy *t, bool seen, uint64_t *early, uint64_t *late)
{
    uint64_t open = 0;
    uint64_t total = 0;
    for (int i = 0; i <= SECONDS; i++) {
        early[i] = late[i] = 0;
    }
    for (long m = 0; m < MEMBERS; m++) {
        const double k = rate(t->dye_half_min, sl_draw(11, m, 0));
        const uint64_t weight = weight_of(k, seen);
        const double early_min = log(10.0) / k;
        const double base_min = -log1p(-0.2) / rate(t->base_half_min, sl_draw(11, m, 1));
        const double late_min = fmin(base_min, t->label_min);
        early[(int)fmin(ceil(early_min * 60.0), SECONDS)] += weight;
        late[(int)fmin(ceil(late_min * 60.0), SECONDS)] += weight;
        open += early_min < late_min ? weight : 0;
        total += weight;
    }
    const sl_three e = three_of(early, (int64_t)total);
    const sl_three l = three_of(late, (int64_t)total);
    const double odds = (double)open / (double)total;
    printf("%s%s %.6f %.6f %.6f %.6f %.6f %.6f %.6f %s", t->name, seen ? "-seen" : "", odds, e.p10, e.p50,
           e.p90, l.p10, l.p50, l.p90, sl_verdict_key(sl_verdict_of(odds, e, l)));
    int check[SL_MOST_CHECKS];
    const int n = sl_checks_of(e, l, t->label_min, check);
    for (int i = 0; i < n; i++) {
        printf(" %d", check[i]);
    }
    printf("\n");
}

int main(void)
{
    static const toy toys[] = {{"easy", 4.0, 90.0, 30.0},
                               {"slow", 9.0, 90.0, 30.0},
                               {"fast", 3.0, 25.0, 45.0},
                               {"stubborn", 20.0, 90.0, 30.0}};
    static uint64_t early[SECONDS + 1], late[SECONDS + 1];
    for (size_t i = 0; i < sizeof toys / sizeof toys[0]; i++) {
        put(&toys[i], false, early, late);
        put(&toys[i], true, early, late);
    }
    return EXIT_SUCCESS;
}
