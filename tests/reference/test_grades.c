/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Grades by a cumulative link, and how far two judges agree, against figures that others printed.
 */
#include <math.h>
#include <string.h>

#include "estimate/told/ordinal.h"
#include "slowlift/compare.h"
#include "unit/suite.h"

/* ---- cumulative links -----------------------------------------------------------------------------------
 */

/* Ratings (1 least to 5 most) of the bitterness of wine: nine judges, each eight bottles (cold without
 * contact of juice and skins twice, cold with twice, warm without twice, warm with twice). Randall 1989; data
 * as carried in the R package ordinal 2022.11-16 (GPL-2 or later). */
static const char *const rated[] = {"23344455", "12132354", "23325544", "32323253", "23433333",
                                    "32322454", "11222323", "22233334", "12323244"};
enum { JUDGES = 9, BOTTLES = 8, RATINGS = 5, WARM = 0, CONTACT = 1, PARAMETERS = 7 };

/* What the package's tutorial (Christensen, "A Tutorial on fitting Cumulative Link Mixed Models with clmm2
 * from the ordinal Package", 2022) prints, and the package where the row says so: its 10-node fits. In the
 * order of parameters here: warm, contact, edges from the highest down, the judges' standard deviation. */
typedef struct sl_wine {
    sl_link link;
    bool judges; /* in common; else nothing */
    double estimate[PARAMETERS], error[PARAMETERS], log_likelihood;
    double digits[3]; /* of estimates, errors and likelihood: half of the last one printed */
} sl_wine;
static const sl_wine wines[] = {
    /* printed */
    {SL_LOGIT,
     true,
     {3.0619, 1.8334, 6.0862, 4.2271, 1.5128, -1.6235, 1.134787},
     {0.5951, 0.5122, 0.9719, 0.8090, 0.6044, 0.6834},
     -81.53246,
     {5e-5, 5e-5, 5e-6}},
    /* by the package, and by an independent quadrature of 120 nodes; the judges' error by the latter */
    {SL_PROBIT,
     true,
     {1.799874, 1.048114, 3.536358, 2.467336, 0.889353, -0.926326, 0.663031},
     {0.326912, 0.285531, 0.525533, 0.446796, 0.348434, 0.388105, 0.231824},
     -80.93129,
     {1e-6, 1e-6, 5e-6}},
    /* the likelihood printed as -2 log L = 172.9838; the rest by the package */
    {SL_LOGIT,
     false,
     {2.503102, 1.527798, 5.006404, 3.466887, 1.250809, -1.344383},
     {0.528680, 0.476623, 0.730906, 0.597760, 0.437880, 0.517102},
     -86.4919,
     {1e-6, 1e-6, 5e-5}},
    {SL_PROBIT,
     false,
     {1.499375, 0.867744, 2.941345, 2.044680, 0.736021, -0.773263},
     {0.291790, 0.266907, 0.387259, 0.321821, 0.249939, 0.282862},
     -85.76115,
     {1e-6, 1e-6, 5e-6}},
};

static sl_ordinal_row row[JUDGES * BOTTLES];

static sl_ordinal wine_of(sl_link link, bool judges, double *term)
{
    static const sl_judge plain = {0.0, 1.0, 0.0};
    for (int i = 0; i < JUDGES * BOTTLES; i++) {
        const int bottle = i % BOTTLES;
        row[i] = (sl_ordinal_row){.group = i / BOTTLES,
                                  .grade = RATINGS - (rated[i / BOTTLES][bottle] - '0'),
                                  .many = 1.0,
                                  .term = {bottle >= 4 ? WARM : -1, bottle % 4 >= 2 ? CONTACT : -1},
                                  .judge = &plain};
    }
    sl_ordinal model = {.link = link,
                        .row = row,
                        .n = JUDGES * BOTTLES,
                        .grades = RATINGS,
                        .terms = 2,
                        .nodes = 10,
                        .free_edges = true,
                        .free_sd = judges,
                        .edge = {1e3, 3.0, 2.0, 1.0, 0.0, -1e3},
                        .group_sd = judges ? 1.0 : 0.0,
                        .nearer = 1e-9,
                        .term = term};
    sl_hermite_nodes(model.nodes, model.node, model.weight);
    return model;
}

START_TEST(a_cumulative_link_is_not_what_was_printed)
{
    const sl_wine *const wine = &wines[_i];
    double term[2] = {0.0, 0.0}, covariance[PARAMETERS * PARAMETERS];
    sl_ordinal model = wine_of(wine->link, wine->judges, term);
    const int n = wine->judges ? PARAMETERS : PARAMETERS - 1;
    model.covariance = covariance;
    ck_assert(sl_ordinal_fit(&model, NULL) && model.settled);
    for (int i = 0; i < n; i++) {
        const bool sd = i == PARAMETERS - 1;
        const double at = i < 2 ? term[i] : sd ? model.group_sd : model.edge[i - 1];
        const double error = sqrt(covariance[i * (n + 1)]) * (sd ? model.group_sd : 1.0);
        ck_assert_double_eq_tol(at, wine->estimate[i], wine->digits[0]);
        if (wine->error[i] > 0.0) {
            ck_assert_double_eq_tol(error, wine->error[i], wine->digits[1]);
        }
    }
    ck_assert_double_eq_tol(model.log_likelihood, wine->log_likelihood, wine->digits[2]);
}
END_TEST

/* One node is Laplace's approximation. The tutorial prints where it is largest and how large; how near its
 * optimiser came it does not: no parameter alone would move by 1e-4. */
START_TEST(one_node_is_not_laplace)
{
    static const double printed[] = {3.062993, 1.834883, 6.088770, 4.228525, 1.513364, -1.623664, 1.13113};
    double term[2], above[2 * PARAMETERS], there = 0.0;
    sl_ordinal model = wine_of(SL_LOGIT, true, term);
    model.nodes = 1;
    sl_hermite_nodes(1, model.node, model.weight);
    model.nearer = HUGE_VAL; /* nothing moves */
    for (int i = -1; i < 2 * PARAMETERS; i++) {
        double at[PARAMETERS];
        memcpy(at, printed, sizeof at);
        if (i >= 0) {
            at[i / 2] += i % 2 == 0 ? 1e-4 : -1e-4;
        }
        memcpy(term, at, sizeof term);
        memcpy(model.edge + 1, at + 2, 4 * sizeof at[0]);
        model.group_sd = at[6];
        ck_assert(sl_ordinal_fit(&model, NULL));
        *(i < 0 ? &there : &above[i]) = model.log_likelihood;
    }
    ck_assert_double_eq_tol(there, -81.56541, 5e-6);
    for (int i = 0; i < PARAMETERS; i++) { /* how far its top lies from what is printed */
        const double bend = above[2 * i] + above[2 * i + 1] - 2.0 * there;
        ck_assert_double_lt(bend, 0.0);
        ck_assert_double_eq_tol(-0.5e-4 * (above[2 * i] - above[2 * i + 1]) / bend, 0.0, 1e-4);
    }
}
END_TEST

/* ---- agreement ------------------------------------------------------------------------------------------
 */

typedef struct sl_agreeing {
    int n;
    double count[25], disagreement[25]; /* [n][n] */
    double kappa, error;                /* 0: none was printed */
    double digit;                       /* half of the last one printed */
} sl_agreeing;
static const sl_agreeing agreeing[] = {
    /* Cohen 1968, 200 subjects: values of the paper as the manual of the R package psych reports them;
     * without weights, and with two tables of them */
    {3, {88, 14, 18, 10, 40, 10, 2, 6, 12}, {0, 1, 1, 1, 0, 1, 1, 1, 0}, 0.492, 0.0, 5e-4},
    {3, {88, 14, 18, 10, 40, 10, 2, 6, 12}, {0, 1, 3, 1, 0, 6, 3, 6, 0}, 0.348, 0.0, 5e-4},
    {3, {88, 14, 18, 10, 40, 10, 2, 6, 12}, {0, 1, 4, 1, 0, 6, 2, 2, 0}, 0.353, 0.0, 5e-4},
    /* a statistics package's printout, as carried in statsmodels' tests (BSD-3-Clause) */
    {3, {0, 4, 1, 0, 8, 0, 0, 1, 5}, {0, 1, 1, 1, 0, 1, 1, 1, 0}, 0.4842, 0.1380, 5e-5},
    {3, {0, 4, 1, 0, 8, 0, 0, 1, 5}, {0, 1, 2, 1, 0, 1, 2, 1, 0}, 0.4701, 0.1457, 5e-5},
    /* anxiety, 20 subjects, raters 2 and 3: the R package irr, as carried in statsmodels' tests */
    {5,
     {0, 0, 1, 0, 0, 4, 0, 1, 0, 0, 2, 3, 3, 0, 0, 0, 2, 0, 1, 1, 1, 0, 0, 1, 0},
     {0, 1, 2, 3, 4, 1, 0, 1, 2, 3, 2, 1, 0, 1, 2, 3, 2, 1, 0, 1, 4, 3, 2, 1, 0},
     0.1459075,
     0.0,
     5e-8},
    {5,
     {0, 0, 1, 0, 0, 4, 0, 1, 0, 0, 2, 3, 3, 0, 0, 0, 2, 0, 1, 1, 1, 0, 0, 1, 0},
     {0, 1, 4, 9, 16, 1, 0, 1, 4, 9, 4, 1, 0, 1, 4, 9, 4, 1, 0, 1, 16, 9, 4, 1, 0},
     0.2520325,
     0.0,
     5e-8},
};

START_TEST(a_weighted_kappa_is_not_what_was_printed)
{
    const sl_agreeing *const of = &agreeing[_i];
    double kappa = 0.0, error = 0.0;
    ck_assert(sl_kappa(of->count, of->disagreement, of->n, &kappa, &error));
    ck_assert_double_eq_tol(kappa, of->kappa, of->digit);
    if (of->error > 0.0) {
        ck_assert_double_eq_tol(error, of->error, of->digit);
    }
}
END_TEST

START_SUITE("grades")
ADD_LOOP(a_cumulative_link_is_not_what_was_printed, 0, (int)(sizeof wines / sizeof wines[0]))
ADD(one_node_is_not_laplace)
ADD_LOOP(a_weighted_kappa_is_not_what_was_printed, 0, (int)(sizeof agreeing / sizeof agreeing[0]))
END_SUITE
