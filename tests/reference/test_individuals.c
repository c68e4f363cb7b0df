/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits of single values against a worked example that was published, and against the theory of the range of
 * two normal values.
 */
#include "log/shelf/individuals.h"

#include <math.h>

#include "unit/suite.h"

/* NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 "Individuals Control Charts"
 * (https://www.itl.nist.gov/div898/handbook/pmc/section3/pmc322.htm): flow rate of ten batches; mean 50.81,
 * mean moving range 1.8778, limits 45.8159 and 55.8041. Tolerance: half of the last digit that is printed. */
static const double flow_rate[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

START_TEST(the_handbooks_limits_are_not_found)
{
    const sl_individuals found = sl_individuals_of(flow_rate, 10);
    ck_assert(found.known);
    ck_assert_double_eq_tol(found.centre, 50.81, 5e-3);
    ck_assert_double_eq_tol(found.range, 1.8778, 5e-5);
    ck_assert_double_eq_tol(found.low, 45.8159, 5e-5);
    ck_assert_double_eq_tol(found.high, 55.8041, 5e-5);
    for (int i = 0; i < 10; i++) {
        ck_assert(!sl_individuals_outside(&found, flow_rate[i]));
    }
    ck_assert(sl_individuals_outside(&found, 55.81));
    ck_assert(sl_individuals_outside(&found, 45.81));
}
END_TEST

/* The range of two values of a normal distribution has the mean 2/sqrt(pi) and the variance 2 - 4/pi, in its
 * standard deviations (by integration of |x - y|; Tippett, Biometrika 17, 1925). Constants are rounded to
 * three decimals. */
START_TEST(the_constants_are_not_those_of_the_range_of_two)
{
    const double pi = acos(-1.0), mean = 2.0 / sqrt(pi), sd = sqrt(2.0 - 4.0 / pi);
    const sl_individuals found = sl_individuals_of(flow_rate, 10);
    ck_assert_double_eq_tol(3.0 * found.range / (found.high - found.centre), mean, 5e-4);
    ck_assert_double_eq_tol(found.range_high / found.range, 1.0 + 3.0 * sd / mean, 5e-4);
}
END_TEST

START_TEST(limits_move_with_later_values_or_come_from_fewer_than_ten)
{
    double value[12];
    for (int i = 0; i < 12; i++) {
        value[i] = i < 10 ? flow_rate[i] : 99.0;
    }
    ck_assert_double_eq(sl_individuals_of(value, 12).high, sl_individuals_of(value, 10).high);
    ck_assert(!sl_individuals_of(value, 9).known);
    ck_assert(!sl_individuals_of(value, 9).alike);
    ck_assert(!sl_individuals_of(value, 0).known);
}
END_TEST

START_TEST(ten_that_are_alike_have_limits)
{
    const double value[11] = {0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.9};
    const sl_individuals found = sl_individuals_of(value, 11);
    ck_assert(found.alike && !found.known);
    ck_assert(!sl_individuals_outside(&found, 0.9));
}
END_TEST

START_SUITE("individuals")
ADD(the_handbooks_limits_are_not_found)
ADD(the_constants_are_not_those_of_the_range_of_two)
ADD(limits_move_with_later_values_or_come_from_fewer_than_ten)
ADD(ten_that_are_alike_have_limits)
END_SUITE
