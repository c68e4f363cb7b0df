/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/odds.h"

#include <math.h>

#include "suite.h"

/* Student's t, upper 0.025: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2,
 * "Critical Values of the Student's t Distribution"; printed to three decimals. */
START_TEST(half_widths_are_those_of_the_handbook_s_table)
{
    static const struct {
        int n;
        double t95, t90, t99;
    } table[] = {{2, 12.706, 6.314, 63.657}, {3, 4.303, 2.920, 9.925},  {4, 3.182, 2.353, 5.841},
                 {5, 2.776, 2.132, 4.604},   {6, 2.571, 2.015, 4.032},  {8, 2.365, 1.895, 3.499},
                 {11, 2.228, 1.812, 3.169},  {31, 2.042, 1.697, 2.750}, {101, 1.984, 1.660, 2.626}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const int n = table[i].n;
        const double half = 0.0005001; /* of the last printed decimal */
        ck_assert_double_eq_tol(sl_half_width(1.0, n, 0.95) * sqrt(n), table[i].t95, half);
        ck_assert_double_eq_tol(sl_half_width(1.0, n, 0.90) * sqrt(n), table[i].t90, half);
        ck_assert_double_eq_tol(sl_half_width(1.0, n, 0.99) * sqrt(n), table[i].t99, half);
    }
    ck_assert_double_eq_tol(sl_half_width(3.0, 5, 0.95), 3.0 * sl_half_width(1.0, 5, 0.95), 1e-12);
}
END_TEST

START_TEST(one_reading_shows_no_spread)
{
    ck_assert_double_eq(sl_half_width(1.0, 1, 0.95), -1.0);
    ck_assert_double_eq(sl_half_width(1.0, 0, 0.95), -1.0);
}
END_TEST

/* The definition of Clopper & Pearson (Biometrika 26, 1934) summed up term by term: at the low end
 * the chance of this many hits or more is a fortieth, at the high end of this many or fewer. */
static double at_least(int hits, int n, double p)
{
    double sum = 0.0;
    for (int k = hits; k <= n; k++) {
        sum +=
            exp(lgamma(n + 1.0) - lgamma(k + 1.0) - lgamma(n - k + 1.0) + k * log(p) + (n - k) * log1p(-p));
    }
    return sum;
}

START_TEST(the_interval_of_odds_is_the_exact_one)
{
    for (int n = 5; n <= 200; n += 39) {
        for (int hits = 1; hits < n; hits += 3) {
            const sl_interval found = sl_odds_interval((double)hits / n, n, 0.95);
            ck_assert_double_eq_tol(at_least(hits, n, found.low), 0.025, 1e-9);
            ck_assert_double_eq_tol(1.0 - at_least(hits + 1, n, found.high), 0.025, 1e-9);
        }
    }
    /* none or all of n: 1 - (0.025)^(1/n) */
    const double edge = 1.0 - pow(0.025, 1.0 / 20.0);
    const sl_interval none = sl_odds_interval(0.0, 20.0, 0.95);
    const sl_interval all = sl_odds_interval(1.0, 20.0, 0.95);
    ck_assert_double_eq(none.low, 0.0);
    ck_assert_double_eq_tol(none.high, edge, 1e-10);
    ck_assert_double_eq_tol(all.low, 1.0 - edge, 1e-10);
    ck_assert_double_eq(all.high, 1.0);
}
END_TEST

/* With many draws it is the normal curve's, p +- 1.96 sqrt(p(1-p)/n), to a hundredth of its width;
 * above a million it stays as wide as at a million. */
START_TEST(the_interval_narrows_as_the_root_of_the_draws_and_holds_up_for_millions)
{
    for (double n = 1e4; n <= 1e6; n *= 10.0) {
        const double half = 1.959964 * sqrt(0.3 * 0.7 / n);
        const sl_interval found = sl_odds_interval(0.3, n, 0.95);
        ck_assert_double_eq_tol(found.high - found.low, 2.0 * half, 0.03 * half);
    }
    const sl_interval million = sl_odds_interval(0.3, 1e6, 0.95);
    const sl_interval more = sl_odds_interval(0.3, 3e7, 0.95);
    ck_assert_double_eq(million.low, more.low);
    ck_assert_double_eq(million.high, more.high);
}
END_TEST

START_SUITE("odds")
ADD(half_widths_are_those_of_the_handbook_s_table)
ADD(one_reading_shows_no_spread)
ADD(the_interval_of_odds_is_the_exact_one)
ADD(the_interval_narrows_as_the_root_of_the_draws_and_holds_up_for_millions)
END_SUITE
