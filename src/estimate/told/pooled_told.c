/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What follows from the grid of pooled.c: means, intervals, odds, spreads. See pooled.h.
 */
#include <gsl/gsl_math.h>
#include <math.h>

#include "estimate/told/pooling.h"

/* Chance of more than t by Student's t; within 1 % of it where it counts (Wallace 1959, Annals of
 * Mathematical Statistics 30, 1121-1130). */
static double beyond(double t, double freedom)
{
    const double z = (8.0 * freedom + 1.0) / (8.0 * freedom + 3.0) * sqrt(freedom * log1p(t * t / freedom));
    return 0.5 * erfc(copysign(z, t) * M_SQRT1_2);
}

/* The scatter of swatches is known by so many degrees of freedom; of a variance of which it is a part by more
 * (Satterthwaite). between: the variance beside it. */
static double freedom_at(const sl_pooled *pool, double between)
{
    const double whole = (pool->scatter + between) / fmax(pool->scatter, SL_POOL_LEAST_VARIANCE);
    return pool->freedom * whole * whole;
}

/* Where a strip's mean, or the difference of two (other >= 0), lies at a point. */
static double at_point(const sl_pooled *pool, int point, int one, int other, double *variance)
{
    const size_t n = (size_t)pool->n_seen, at = (size_t)point;
    const double *const mean = pool->mean + at * n, *const of = pool->covariance + at * n * n;
    const size_t i = (size_t)one, k = (size_t)(other >= 0 ? other : 0);
    *variance = of[i * n + i] + (other >= 0 ? of[k * n + k] - 2.0 * of[i * n + k] : 0.0);
    return mean[i] - (other >= 0 ? mean[k] : 0.0);
}

static double between_at(const sl_pool_point *point, bool difference)
{
    return point->own * point->own + (difference ? 0.0 : point->common * point->common);
}

/* Chance that it is more than `than` above `about` and above, or below `about` and below. */
static double outside(const sl_pooled *pool, int one, int other, double about, double than)
{
    double sum = 0.0;
    for (int p = 0; p < pool->n_points; p++) {
        const sl_pool_point *const point = &pool->point[p];
        double variance = 0.0;
        const double mean = at_point(pool, p, one, other, &variance) - about;
        const double freedom = freedom_at(pool, between_at(point, other >= 0)), se = sqrt(variance);
        sum += point->weight * (beyond((than - mean) / se, freedom) + beyond((than + mean) / se, freedom));
    }
    return sum;
}

/* From where on only so little is outside, a thousandth of it more or less. */
static double reach(const sl_pooled *pool, int one, int other, double about, double odds)
{
    enum { HALVINGS = 12 };
    double low = 0.0, high = 0.0;
    at_point(pool, 0, one, other, &high);
    high = sqrt(high);
    while (outside(pool, one, other, about, high) > odds) {
        low = high;
        high *= 2.0;
    }
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        const bool far = outside(pool, one, other, about, middle) <= odds;
        low = far ? low : middle;
        high = far ? middle : high;
    }
    return high;
}

/* That the strip with the lower mean has more left, twice. */
static double odds_of(const sl_pooled *pool, int less, int other)
{
    double sum = 0.0;
    for (int p = 0; p < pool->n_points; p++) {
        double variance = 0.0;
        const double apart = at_point(pool, p, other, less, &variance);
        sum += pool->point[p].weight *
               beyond(apart / sqrt(variance), freedom_at(pool, between_at(&pool->point[p], true)));
    }
    return fmin(2.0 * sum, 1.0);
}

/* Middle and interval of a standard deviation over the grid; what lies between two points is shared. */
static sl_between between_of(const sl_pooled *pool, double scale, bool own)
{
    static const double asked[3] = {0.025, 0.5, 0.975};
    double weight[SL_POOL_GRID] = {0.0}, found[3] = {0.0};
    for (int p = 0; p < pool->n_points; p++) {
        const double sd = own ? pool->point[p].own : pool->point[p].common;
        weight[(int)(SL_POOL_GRID * sd / (sd + scale))] += pool->point[p].weight;
    }
    for (int q = 0; q < 3; q++) {
        double before = 0.0;
        int i = 0;
        while (i < SL_POOL_GRID - 1 && before + weight[i] < asked[q]) {
            before += weight[i++];
        }
        const double u = (i + fmin((asked[q] - before) / weight[i], 1.0)) / SL_POOL_GRID;
        found[q] = scale * u / fmax(1.0 - u, 0.5 / SL_POOL_GRID);
    }
    return (sl_between){.low = found[0], .middle = found[1], .high = found[2]};
}

void sl_pool_tell(sl_pooled *pool, double start, double scale, bool own)
{
    for (int i = 0; i < pool->n_seen; i++) {
        double mean = 0.0, variance = 0.0;
        for (int p = 0; p < pool->n_points; p++) {
            mean += pool->point[p].weight * at_point(pool, p, i, -1, &variance);
        }
        pool->all.mean[pool->seen[i]] = start + mean;
        pool->half[pool->seen[i]] = reach(pool, i, -1, mean, 0.05);
    }
    for (int i = 0; i < pool->n_seen; i++) {
        for (int k = 0; k < i; k++) {
            const int one = pool->seen[i], other = pool->seen[k];
            const bool less = pool->all.mean[one] <= pool->all.mean[other];
            pool->odds[one * pool->n_strips + other] = pool->odds[other * pool->n_strips + one] =
                pool->joined[i] != pool->joined[k] ? 1.0 : odds_of(pool, less ? i : k, less ? k : i);
        }
    }
    pool->all.odds = pool->odds;
    pool->common = between_of(pool, scale, false);
    pool->own = own ? between_of(pool, scale, true) : (sl_between){0.0, 0.0, 0.0};
}

double sl_pool_told_from(const sl_pooled *pool, double comparisons)
{
    const double odds = SL_FALSE_BEFORE / comparisons;
    double least = -1.0;
    for (int i = 0; i < pool->n_seen; i++) {
        for (int k = 0; k < i; k++) {
            const double apart = pool->all.mean[pool->seen[i]] - pool->all.mean[pool->seen[k]];
            if (pool->joined[i] == pool->joined[k] &&
                (least < 0.0 || outside(pool, i, k, apart, least) < odds)) {
                least = reach(pool, i, k, apart, odds);
            }
        }
    }
    return least;
}
