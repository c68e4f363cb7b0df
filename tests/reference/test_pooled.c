/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tests put together, against figures of others: the eight schools of posteriordb.
 */
#include "slowlift/pooled.h"

#include <math.h>

#include "unit/suite.h"

/* Eight schools: y ~ N(theta, se), theta ~ N(mu, tau), mu ~ N(0, 5), tau ~ half-Cauchy(0, 5); data of Rubin
 * (1981, Journal of Educational Statistics 6, 377-401) as posteriordb carries them (BSD-3-Clause), and the
 * means and standard deviations of its 10 chains of 1000 reference draws with the Monte Carlo error of each
 * mean. kurtosis: of every tenth of those draws. */
enum { SCHOOLS = 8 };
static const double y[SCHOOLS] = {28, 8, -3, 7, -1, 1, 18, 12}, se[SCHOOLS] = {15, 10, 16, 11, 9, 11, 10, 18};
typedef struct sl_drawn_figure {
    double mean, sd, error, kurtosis;
} sl_drawn_figure;
static const sl_drawn_figure theta[SCHOOLS] = {
    {6.150502, 5.615863, 0.02910805, 4.957}, {4.939581, 4.645578, 0.03245168, 4.312},
    {3.905906, 5.280712, 0.03466444, 4.224}, {4.796017, 4.770938, 0.02539848, 4.201},
    {3.614436, 4.614721, 0.04074563, 4.816}, {4.051148, 4.796248, 0.05540797, 4.333},
    {6.31717, 5.002855, 0.03470295, 5.675},  {4.883997, 5.317692, 0.0591602, 4.782}};
static const sl_drawn_figure mu = {4.410518, 3.309296, 0.02195064, 2.817},
                             tau = {3.60206, 3.198478, 0.02888248, 8.353};

/* Within three errors of both; the error of a standard deviation is that of its mean times
 * sqrt((kurtosis - 1)/4). */
static void ck_figure(const char *name, double sum, double squares, const sl_drawn_figure *of)
{
    const double sd = sqrt(squares - sum * sum);
    ck_assert_msg(fabs(sum - of->mean) < 3.0 * of->error, "%s: mean %g, not %g", name, sum, of->mean);
    ck_assert_msg(fabs(sd - of->sd) < 3.0 * of->error * sqrt((of->kurtosis - 1.0) / 4.0), "%s: sd %g, not %g",
                  name, sd, of->sd);
}

static void put_schools(sl_blocks *test)
{
    for (int k = 0; k < SCHOOLS; k++) {
        test[k] = (sl_blocks){.n_strips = 1,
                              .n = {1},
                              .mean = {y[k]},
                              .freedom = 1,
                              .calm_sd = se[k],
                              .calm_freedom = 1e12,
                              .part = {{1.0}}};
    }
}

START_TEST(eight_schools_are_not_those_of_the_reference_draws)
{
    static sl_blocks test[SCHOOLS];
    sl_pooled *pool = NULL;
    put_schools(test);
    ck_assert(sl_pool_make(&pool, test, SCHOOLS,
                           (sl_pool_prior){.kind = SL_PRIOR_HALF_CAUCHY, .scale = 5.0, .level_sd = 5.0},
                           NULL));
    double sum[SCHOOLS + 2] = {0.0}, squares[SCHOOLS + 2] = {0.0};
    for (int p = 0; p < pool->n_points; p++) {
        const sl_pool_point *const at = &pool->point[p];
        const double level = pool->mean[p] + y[0], tau_2 = at->common * at->common; /* about the first mean */
        ck_assert_double_eq(at->own, 0.0);
        for (int k = 0; k < SCHOOLS; k++) { /* a school's own, drawn to the others */
            const double share = tau_2 / (tau_2 + se[k] * se[k]);
            const double mean = share * y[k] + (1.0 - share) * level;
            sum[k] += at->weight * mean;
            squares[k] += at->weight * (mean * mean + share * se[k] * se[k] +
                                        (1.0 - share) * (1.0 - share) * pool->covariance[p]);
        }
        sum[SCHOOLS] += at->weight * level;
        squares[SCHOOLS] += at->weight * (level * level + pool->covariance[p]);
        sum[SCHOOLS + 1] += at->weight * at->common;
        squares[SCHOOLS + 1] += at->weight * tau_2;
    }
    for (int k = 0; k < SCHOOLS; k++) {
        ck_figure("theta", sum[k], squares[k], &theta[k]);
    }
    ck_figure("mu", sum[SCHOOLS], squares[SCHOOLS], &mu);
    ck_figure("tau", sum[SCHOOLS + 1], squares[SCHOOLS + 1], &tau);
    ck_assert_double_eq_tol(pool->all.mean[0], mu.mean, 3.0 * mu.error);
    ck_assert_double_eq_tol(pool->common.middle, 2.747021, 0.1); /* its median in the reference's summary */
    sl_pool_free(pool);
}
END_TEST

START_SUITE("pooled")
ADD(eight_schools_are_not_those_of_the_reference_draws)
END_SUITE
