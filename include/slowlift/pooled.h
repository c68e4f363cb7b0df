/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips over several tests: what each test says of them (blocks.h) put together, the test as a random
 * effect. Definitions and sources: docs/science.md, "Several tests together".
 *
 *     mean of strip i in test k = strip[i] + common[k] + own[k][i] + scatter of swatches
 *
 * common: what a test shifts all its strips by; own: what it shifts one strip by. Both are drawn anew for
 * each test, with standard deviations that are found: a grid over both holds their joint posterior, strips
 * are integrated out in closed form.
 */
#ifndef SLOWLIFT_POOLED_H
#define SLOWLIFT_POOLED_H

#include "slowlift/blocks.h"
#include "slowlift/error.h"

#pragma GCC visibility push(default)

/* What is held of a standard deviation between tests before anything was seen. */
typedef enum sl_prior_kind { SL_PRIOR_REFERENCE, SL_PRIOR_HALF_NORMAL, SL_PRIOR_HALF_CAUCHY } sl_prior_kind;
typedef struct sl_pool_prior {
    sl_prior_kind kind;
    double scale;    /* of the half-normal and the half-Cauchy; > 0 */
    double level_sd; /* of strips' means about 0, normal; 0: nothing is held of them */
} sl_pool_prior;
/* Fewer tests cannot tell their spread (Gelman 2006, Bayesian Analysis 1, 515-533): a half-normal of this
 * scale (assumed), a share of the colour. From there on sd/(sd^2 + within), the reference prior of Bodnar and
 * others (2017, Statistics in Medicine 36, 378-399), by which equal tests have the interval of Student's t.
 */
enum { SL_POOL_FEW = 5 };
static const double SL_POOL_PRIOR = 0.10;
sl_pool_prior sl_pool_prior_of(int n_tests);

/* One point of the grid, with what follows of the strips where it holds. */
typedef struct sl_pool_point {
    double common, own, weight; /* weights sum to 1 */
} sl_pool_point;

/* A standard deviation between tests: its middle and its 95 % interval. */
typedef struct sl_between {
    double middle, low, high;
} sl_between;

typedef struct sl_pooled {
    int n_strips, n_tests;
    int tests[SL_MAX_ARMS];   /* in which each strip was seen */
    sl_blocks all;            /* n (values), mean, and odds for sl_before_together and sl_strip_places */
    double half[SL_MAX_ARMS]; /* of the 95 % interval of a mean; -1 for a strip that was not seen */
    sl_between common, own;   /* own: 0 where no test has two strips */
    int n_points;
    sl_pool_point *point;      /* [n_points] */
    double *mean, *covariance; /* [n_points][n seen], [n_points][n seen][n seen] of strips, in their order */
    double *odds;              /* [n_strips][n_strips] */
    int n_seen, seen[SL_MAX_ARMS], joined[SL_MAX_ARMS]; /* joined: strips that tests join have one number */
    double freedom, scatter; /* of swatches' scatter; mean variance of a strip's mean by it alone */
} sl_pooled;

/* test: [n_tests] of the same strips, calmed together (sl_blocks_calm); a test without any value is none. At
 * least one has a value. Freed with sl_pool_free(). */
bool sl_pool_make(sl_pooled **pool, const sl_blocks *test, int n_tests, sl_pool_prior prior, sl_error *error);
void sl_pool_free(sl_pooled *pool); /* NULL is allowed */
/* The least difference from which on any two strips are told apart, as the first of so many comparisons; -1:
 * no tests join two. */
double sl_pool_told_from(const sl_pooled *pool, double comparisons);

#pragma GCC visibility pop

#endif
