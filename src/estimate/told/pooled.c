/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See pooled.h. A test's means have the covariance S + own^2 I + common^2 J, with S of its swatches; the
 * inverse is taken once for each `own`, and J comes in by the formula of Sherman and Morrison.
 */
#include "slowlift/pooled.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "estimate/told/pooling.h"

static const double LEAST_WEIGHT = 1e-9; /* points with less are left out */
static const char doing[] = "putting tests together";

sl_pool_prior sl_pool_prior_of(int n_tests)
{
    return n_tests < SL_POOL_FEW ? (sl_pool_prior){.kind = SL_PRIOR_HALF_NORMAL, .scale = SL_POOL_PRIOR}
                                 : (sl_pool_prior){.kind = SL_PRIOR_REFERENCE};
}

/* ---- one test ------------------------------------------------------------------------------------------ */

/* Its strips that were seen, and for one `own` the inverse P of S + own^2 I with what J and the sums need. */
typedef struct sl_pool_test {
    int n, *strip;                      /* [n] among those seen in any test */
    double *mean, *covariance;          /* [n] about `start`, [n][n] */
    double *inverse, *ones, *weighted;  /* [n][n] P, [n] P 1, [n] P mean */
    double sum, total, square, log_det; /* 1' P 1, 1' P mean, mean' P mean, of S + own^2 I */
} sl_pool_test;

/* What is worked with; numbers of all tests lie in one piece. */
typedef struct sl_pooling {
    sl_pooled *pool;
    sl_pool_test *test;
    double start, usual, scale; /* the first mean; scatter where a test tells none; of the grid */
    sl_pool_prior prior;
    int *strips;
    double *numbers;
    double *p, *w, whole; /* [n][n], [n]: of one `own` the tests' P and P mean, and what weighs, summed */
    double *a, *b, *r;    /* [n][n], [n][n], [n] of one point */
} sl_pooling;

static void take_test(const sl_pooling *with, const sl_blocks *from, sl_pool_test *test)
{
    const sl_pooled *const pool = with->pool;
    for (int i = 0; i < pool->n_seen; i++) {
        if (from->n[pool->seen[i]] > 0) {
            test->strip[test->n++] = i;
        }
    }
    const double sd = from->freedom > 0 ? from->calm_sd : with->usual;
    for (int i = 0; i < test->n; i++) {
        const int strip = pool->seen[test->strip[i]];
        test->mean[i] = from->mean[strip] - with->start;
        for (int k = 0; k < test->n; k++) {
            const int other = pool->seen[test->strip[k]];
            test->covariance[i * test->n + k] =
                fmax(sd, from->least_sd[strip]) * fmax(sd, from->least_sd[other]) * from->part[strip][other];
        }
    }
}

/* Of what hangs together more than it can (pairs that were widened one by one) the half, until it can. */
static double inverted(const double *a, int n, double *inverse)
{
    double log_det = 0.0, share = 1.0;
    gsl_matrix_view of = gsl_matrix_view_array(inverse, (size_t)n, (size_t)n);
    do {
        for (int i = 0; i < n * n; i++) {
            inverse[i] = i / n == i % n ? a[i] : share * a[i];
        }
        share = share > 1e-3 ? 0.5 * share : 0.0;
    } while (gsl_linalg_cholesky_decomp1(&of.matrix) != GSL_SUCCESS);
    for (int i = 0; i < n; i++) {
        log_det += 2.0 * log(inverse[i * n + i]);
    }
    gsl_linalg_cholesky_invert(&of.matrix);
    return log_det;
}

static void invert(sl_pooling *with, sl_pool_test *test, double own)
{
    const int n = test->n;
    memcpy(with->b, test->covariance, (size_t)(n * n) * sizeof *with->b);
    for (int i = 0; i < n; i++) {
        with->b[i * n + i] += own * own + SL_POOL_LEAST_VARIANCE;
    }
    test->log_det = inverted(with->b, n, test->inverse);
    test->sum = test->total = test->square = 0.0;
    for (int i = 0; i < n; i++) {
        test->ones[i] = test->weighted[i] = 0.0;
        for (int k = 0; k < n; k++) {
            test->ones[i] += test->inverse[i * n + k];
            test->weighted[i] += test->inverse[i * n + k] * test->mean[k];
        }
        test->sum += test->ones[i];
        test->total += test->weighted[i];
        test->square += test->mean[i] * test->weighted[i];
    }
}

/* ---- the grid ------------------------------------------------------------------------------------------ */

static double at_grid(const sl_pooling *with, int i)
{
    const double u = (i + 0.5) / SL_POOL_GRID;
    return with->scale * u / (1.0 - u);
}

static double log_step(int i)
{
    return -2.0 * log1p(-(i + 0.5) / SL_POOL_GRID);
}

/* Up to a constant. within: the variance of what the deviation is seen through. */
static double log_density(const sl_pool_prior *prior, double sd, double within)
{
    const double of = sd / prior->scale;
    return prior->kind == SL_PRIOR_REFERENCE     ? log(sd / (sd * sd + within))
           : prior->kind == SL_PRIOR_HALF_NORMAL ? -0.5 * of * of
                                                 : -log1p(of * of);
}

/* The sums of all tests for one `own`, and what is held beforehand. */
static void sum_tests(sl_pooling *with, double own)
{
    const int all = with->pool->n_seen;
    const double level =
        with->prior.level_sd > 0.0 ? 1.0 / (with->prior.level_sd * with->prior.level_sd) : 0.0;
    memset(with->p, 0, (size_t)(all * all) * sizeof *with->p);
    with->whole = 0.0;
    for (int i = 0; i < all; i++) {
        with->p[i * all + i] = level;
        with->w[i] = -level * with->start;
    }
    for (int t = 0; t < with->pool->n_tests; t++) {
        sl_pool_test *const test = &with->test[t];
        invert(with, test, own);
        for (int i = 0; i < test->n; i++) {
            for (int k = 0; k < test->n; k++) {
                with->p[test->strip[i] * all + test->strip[k]] += test->inverse[i * test->n + k];
            }
            with->w[test->strip[i]] += test->weighted[i];
        }
        with->whole += test->log_det + test->square;
    }
}

/* What a test's own `common` takes away from those sums: J of Sherman and Morrison. */
static void take_common(const sl_pooling *with, const sl_pool_test *test, double common, double *log_weight)
{
    const int n = test->n, all = with->pool->n_seen;
    const double c = common * common / (1.0 + common * common * test->sum);
    for (int i = 0; i < n; i++) {
        const double by = c * test->ones[i];
        double *const row = with->a + test->strip[i] * all;
        for (int k = 0; k < n; k++) {
            row[test->strip[k]] -= by * test->ones[k];
        }
        with->r[test->strip[i]] -= by * test->total;
    }
    *log_weight -= 0.5 * (log1p(common * common * test->sum) - c * test->total * test->total);
}

/* Fills the point's strips; returns the logarithm of its weight up to a constant. */
static double log_weight_of(const sl_pooling *with, double common, double *mean, double *covariance)
{
    const int n = with->pool->n_seen;
    double log_weight = -0.5 * with->whole;
    memcpy(with->a, with->p, (size_t)(n * n) * sizeof *with->a);
    memcpy(with->r, with->w, (size_t)n * sizeof *with->r);
    for (int k = 0; k < with->pool->n_tests; k++) {
        take_common(with, &with->test[k], common, &log_weight);
    }
    log_weight -= 0.5 * inverted(with->a, n, covariance);
    for (int i = 0; i < n; i++) {
        mean[i] = 0.0;
        for (int k = 0; k < n; k++) {
            mean[i] += covariance[i * n + k] * with->r[k];
        }
        log_weight += 0.5 * mean[i] * with->r[i];
    }
    return log_weight;
}

/* Points that count are kept in front, in their order. */
static void keep_points(sl_pooled *pool, int n, double most)
{
    const size_t seen = (size_t)pool->n_seen;
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        const double weight = exp(pool->point[i].weight - most);
        if (weight < LEAST_WEIGHT) {
            continue;
        }
        const size_t to = (size_t)pool->n_points++;
        pool->point[to] = pool->point[i];
        pool->point[to].weight = weight;
        memmove(pool->mean + to * seen, pool->mean + (size_t)i * seen, seen * sizeof *pool->mean);
        memmove(pool->covariance + to * seen * seen, pool->covariance + (size_t)i * seen * seen,
                seen * seen * sizeof *pool->covariance);
        sum += weight;
    }
    for (int i = 0; i < pool->n_points; i++) {
        pool->point[i].weight /= sum;
    }
}

/* Where no test has two strips, nothing tells `own` from `common`. */
static void walk_grid(sl_pooling *with, bool own)
{
    sl_pooled *const pool = with->pool;
    const size_t seen = (size_t)pool->n_seen;
    const double scatter = pool->scatter + SL_POOL_LEAST_VARIANCE;
    double most = -HUGE_VAL;
    int n = 0;
    for (int i = 0; i < (own ? SL_POOL_GRID : 1); i++) {
        const double own_sd = own ? at_grid(with, i) : 0.0;
        sum_tests(with, own_sd);
        for (int k = 0; k < SL_POOL_GRID; k++, n++) {
            sl_pool_point *const point = &pool->point[n];
            *point = (sl_pool_point){.common = at_grid(with, k), .own = own_sd};
            point->weight =
                log_weight_of(with, point->common, pool->mean + (size_t)n * seen,
                              pool->covariance + (size_t)n * seen * seen) +
                log_density(&with->prior, point->common, (scatter + own_sd * own_sd) / pool->n_seen) +
                log_step(k) + (own ? log_density(&with->prior, own_sd, scatter) + log_step(i) : 0.0);
            most = fmax(most, point->weight);
        }
    }
    keep_points(pool, n, most);
}

/* Which strips tests join, from strip to strip: the lowest strip of each such group. */
static void join(sl_pooling *with)
{
    sl_pooled *const pool = with->pool;
    int *const group = pool->joined;
    for (int i = 0; i < pool->n_seen; i++) {
        group[i] = i;
    }
    for (int k = 0; k < pool->n_tests; k++) {
        for (int i = 1; i < with->test[k].n; i++) {
            const int one = group[with->test[k].strip[0]], other = group[with->test[k].strip[i]];
            for (int s = 0; s < pool->n_seen; s++) {
                group[s] = group[s] == one || group[s] == other ? (one < other ? one : other) : group[s];
            }
        }
    }
}

/* ---- all of it ----------------------------------------------------------------------------------------- */

/* Which strips there are, and by how much swatches scatter where a test does not tell; tests without any
 * value are left out of the count. *squares: of the strips of each test. Returns the strips of all tests. */
static size_t count(sl_pooling *with, const sl_blocks *test, int n_tests, size_t *squares)
{
    sl_pooled *const pool = with->pool;
    size_t values = 0;
    int repeated = 0;
    *squares = 0;
    pool->n_strips = test[0].n_strips;
    pool->all = (sl_blocks){.n_strips = pool->n_strips, .freedom = 1, .sd = -1.0, .alone_sd = -1.0};
    for (int k = 0; k < n_tests; k++) {
        size_t n = 0;
        for (int i = 0; i < pool->n_strips; i++) {
            const bool there = test[k].n[i] > 0;
            with->start = values == 0 && n == 0 && there ? test[k].mean[i] : with->start;
            pool->all.n[i] += test[k].n[i];
            pool->tests[i] += there ? 1 : 0;
            n += there ? 1 : 0;
        }
        values += n;
        *squares += n * n;
        pool->n_tests += n > 0 ? 1 : 0;
        if (test[k].freedom > 0) {
            repeated++;
            pool->freedom += (test[k].calm_freedom - pool->freedom) / repeated;
            with->usual += (test[k].calm_sd * test[k].calm_sd - with->usual) / repeated;
        }
    }
    with->usual = sqrt(with->usual);
    pool->freedom = repeated > 0 ? pool->freedom : 1.0 / SL_POOL_LEAST_VARIANCE;
    for (int i = 0; i < pool->n_strips; i++) {
        pool->half[i] = -1.0;
        if (pool->tests[i] > 0) {
            pool->seen[pool->n_seen++] = i;
        }
    }
    return values;
}

static bool make_room(sl_pooling *with, size_t values, size_t squares, sl_error *error)
{
    sl_pooled *const pool = with->pool;
    const size_t seen = (size_t)pool->n_seen, points = (size_t)SL_POOL_GRID * SL_POOL_GRID,
                 strips = (size_t)pool->n_strips;
    pool->point = sl_new(points, sizeof *pool->point, doing, error);
    pool->mean = sl_new(points * seen, sizeof *pool->mean, doing, error);
    pool->covariance = sl_new(points * seen * seen, sizeof *pool->covariance, doing, error);
    pool->odds = sl_new(strips * strips, sizeof *pool->odds, doing, error);
    with->test = sl_new((size_t)pool->n_tests, sizeof *with->test, doing, error);
    with->strips = sl_new(values, sizeof *with->strips, doing, error);
    with->numbers =
        sl_new(2 * squares + 3 * values + 3 * seen * seen + 2 * seen, sizeof *with->numbers, doing, error);
    return pool->point && pool->mean && pool->covariance && pool->odds && with->test && with->strips &&
           with->numbers;
}

/* A piece of the numbers for each test, and what is worked with at one point behind them. */
static void take_tests(sl_pooling *with, const sl_blocks *test, int n_tests)
{
    const int seen = with->pool->n_seen;
    double *at = with->numbers;
    int *strip = with->strips, kept = 0;
    for (int k = 0; k < n_tests; k++) {
        int n = 0;
        for (int i = 0; i < seen; i++) {
            n += test[k].n[with->pool->seen[i]] > 0 ? 1 : 0;
        }
        if (n > 0) {
            sl_pool_test *const to = &with->test[kept++];
            *to = (sl_pool_test){.strip = strip,
                                 .mean = at,
                                 .ones = at + n,
                                 .weighted = at + 2 * n,
                                 .covariance = at + 3 * n,
                                 .inverse = at + 3 * n + n * n};
            take_test(with, &test[k], to);
            at += 3 * n + 2 * n * n;
            strip += n;
        }
    }
    with->a = at;
    with->b = at + seen * seen;
    with->p = at + 2 * seen * seen;
    with->r = at + 3 * seen * seen;
    with->w = with->r + seen;
}

/* The grid is as wide as means scatter about their strip, by their swatches and beside them. Returns whether
 * a test has two strips. */
static bool measure(sl_pooling *with, size_t values)
{
    sl_pooled *const pool = with->pool;
    double sum[SL_MAX_ARMS] = {0.0}, apart = 0.0;
    bool own = false;
    for (int pass = 0; pass < 2; pass++) {
        for (int k = 0; k < pool->n_tests; k++) {
            const sl_pool_test *const test = &with->test[k];
            own = own || test->n > 1;
            for (int i = 0; i < test->n; i++) {
                const double mean = sum[test->strip[i]] / pool->tests[pool->seen[test->strip[i]]];
                sum[test->strip[i]] += pass == 0 ? test->mean[i] : 0.0;
                apart += pass == 0 ? 0.0 : (test->mean[i] - mean) * (test->mean[i] - mean);
                pool->scatter += pass == 0 ? test->covariance[i * test->n + i] / (double)values : 0.0;
            }
        }
    }
    with->scale = sqrt(pool->scatter + apart / (double)values + SL_POOL_LEAST_VARIANCE);
    return own;
}

bool sl_pool_make(sl_pooled **pool, const sl_blocks *test, int n_tests, sl_pool_prior prior, sl_error *error)
{
    sl_pooling with = {.prior = prior, .pool = sl_new(1, sizeof *with.pool, doing, error)};
    size_t squares = 0;
    const size_t values = with.pool ? count(&with, test, n_tests, &squares) : 0;
    const bool good = with.pool && make_room(&with, values, squares, error);
    if (good) {
        take_tests(&with, test, n_tests);
        const bool own = measure(&with, values);
        walk_grid(&with, own);
        join(&with);
        sl_pool_tell(with.pool, with.start, with.scale, own);
        *pool = with.pool;
    } else {
        sl_pool_free(with.pool);
    }
    sl_free(with.test);
    sl_free(with.strips);
    sl_free(with.numbers);
    return good;
}

void sl_pool_free(sl_pooled *pool)
{
    if (pool) {
        sl_free(pool->point);
        sl_free(pool->mean);
        sl_free(pool->covariance);
        sl_free(pool->odds);
        sl_free(pool);
    }
}
