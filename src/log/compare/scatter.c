/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How swatches of one strip scatter, by a log's own repeats; see compare.h.
 */
#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/memory.h"
#include "slowlift/compare.h"
#include "slowlift/promise.h"

enum { HUNDREDTHS = 101, MOST = 50 }; /* a scatter of half of the colour is the most */

/* Beyond it the rule's weights run out; taken for more, the doubt is a little too wide. */
static const double MOST_FREEDOM = 200.0;

/* Sums over zones on one basis: squares about strips and blocks, and how often so much was left. */
typedef struct sl_scatter_pool {
    double within, freedom, often[HUNDREDTHS];
    double swatches, looks;
    double again, log_spread, log_lapse; /* looks by which judges were learned, and sums over them */
} sl_scatter_pool;

/* As who looked was learned, the mean of all; of whom nothing is known, as is assumed. */
static sl_judge judge_of(const sl_scatter_pool *pool)
{
    sl_judge judge = SL_JUDGE_USUAL;
    if (pool->again > 0.0) {
        judge.spread = exp(pool->log_spread / pool->again);
        judge.lapse = exp(pool->log_lapse / pool->again);
    }
    return judge;
}

static void add_zone(sl_scatter_pool *pool, const sl_compare *compare, int zone)
{
    const int freedom = compare->scatter[zone].freedom;
    if (freedom == 0) {
        return;
    }
    pool->freedom += freedom;
    pool->within += freedom * compare->scatter[zone].sd * compare->scatter[zone].sd;
    for (int a = 0; a < compare->scene->n_arms; a++) {
        const sl_seen_mean *const mean = &sl_compare_arm(compare, a, zone)->seen[compare->basis[zone]];
        if (mean->n > 1) {
            pool->often[lround(100.0 * fmin(fmax(mean->mean, 0.0), 1.0))] += mean->n - 1;
        }
    }
}

/* Of one graded swatch, mean over what was left, when swatches scatter so. */
static double graded_variance(const sl_scatter_pool *pool, double scatter)
{
    const sl_judge judge = judge_of(pool);
    double sum = 0.0, n = 0.0;
    for (int i = 0; i < HUNDREDTHS; i++) {
        if (pool->often[i] > 0.0) {
            const double sd = sl_graded_sd(&judge, i / 100.0, scatter, pool->looks / pool->swatches);
            sum += pool->often[i] * sd * sd;
            n += pool->often[i];
        }
    }
    return sum / n;
}

/* What is left of the scatter of grades once the judge's own is taken out; grades are too coarse to show less
 * than is assumed. */
static double without_judge(const double variance[MOST + 1], double seen)
{
    int i = 0;
    while (i < MOST && variance[i + 1] < seen) {
        i++;
    }
    const double step = i < MOST ? (seen - variance[i]) / (variance[i + 1] - variance[i]) : 0.0;
    return fmax((i + fmax(step, 0.0)) / 100.0, SL_SWATCH_SPREAD);
}

/* chance[i] of `seen` times freedom over 2 at[i], a chi-square: by Gauss's rule for its density. */
static void halves_of(double freedom, double at[SL_SEEING_SCATTERS], double chance[SL_SEEING_SCATTERS])
{
    double sum = 0.0;
    gsl_integration_fixed_workspace *const rule = gsl_integration_fixed_alloc(
        gsl_integration_fixed_laguerre, SL_SEEING_SCATTERS, 0.0, 1.0, 0.5 * freedom - 1.0, 0.0);
    for (int i = 0; rule && i < SL_SEEING_SCATTERS; i++) {
        sum += gsl_integration_fixed_weights(rule)[i];
    }
    for (int i = 0; i < SL_SEEING_SCATTERS; i++) {
        at[i] = rule ? gsl_integration_fixed_nodes(rule)[i] : 0.5 * freedom;
        chance[i] = rule ? gsl_integration_fixed_weights(rule)[i] / sum : 1.0 / SL_SEEING_SCATTERS;
    }
    gsl_integration_fixed_free(rule);
}

static bool settle(sl_scatter *scatter, const sl_scatter_pool *pool, bool by_grade)
{
    double variance[MOST + 1], half[SL_SEEING_SCATTERS];
    if (pool->freedom < 1.0) {
        return false;
    }
    const double seen = pool->within / pool->freedom;
    for (int i = 0; by_grade && i <= MOST; i++) {
        variance[i] = graded_variance(pool, i / 100.0);
    }
    *scatter = (sl_scatter){.freedom = (int)pool->freedom, .by_grade = by_grade, .judge = judge_of(pool)};
    scatter->sd = by_grade ? without_judge(variance, seen) : sqrt(seen);
    halves_of(fmin(pool->freedom, MOST_FREEDOM), half, scatter->chance);
    for (int i = 0; i < SL_SEEING_SCATTERS; i++) {
        const double likely = seen * 0.5 * fmin(pool->freedom, MOST_FREEDOM) / half[i];
        scatter->likely[i] = by_grade ? without_judge(variance, likely) : sqrt(likely);
    }
    return true;
}

static void add_test(sl_scatter_pool pool[SL_BASES], const sl_compare *compare)
{
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        const sl_basis basis = compare->basis[group->zone];
        const bool end = group->minute <= SL_NOT_READ && group->hours <= SL_NOT_READ && group->n[basis] > 0;
        pool[basis].swatches += end ? 1.0 : 0.0;
        pool[basis].looks += end ? group->n[basis] : 0;
    }
    for (int z = 0; z < compare->scene->n_zones; z++) {
        add_zone(&pool[compare->basis[z]], compare, z);
    }
    for (int j = 0; j < compare->n_judges; j++) {
        const sl_seen_judge *const judge = &compare->judge[j];
        const double again = judge->learned ? judge->again : 0.0;
        pool[SL_BASIS_GRADE].again += again;
        pool[SL_BASIS_GRADE].log_spread += again * log(judge->is.judge.spread);
        pool[SL_BASIS_GRADE].log_lapse += again * log(judge->is.judge.lapse);
    }
}

bool sl_scatter_of(sl_scatter *scatter, const sl_compare *compare)
{
    sl_scatter_pool pool[SL_BASES] = {{.within = 0.0}};
    *scatter = (sl_scatter){.freedom = 0};
    add_test(pool, compare);
    return settle(scatter, &pool[SL_BASIS_COLOUR], false) || settle(scatter, &pool[SL_BASIS_GRADE], true);
}

bool sl_log_scatter(sl_scatter *scatter, sl_log *log, sl_error *error)
{
    sl_scatter_pool pool[SL_BASES] = {{.within = 0.0}};
    sl_log_test *tests = NULL;
    int n = 0;
    bool good = sl_log_tests(log, &tests, &n, error);
    for (int i = 0; good && i < n; i++) {
        sl_compare *compare = NULL;
        double speed = 0.0;
        good = sl_log_rehearsal(log, tests[i].id, &speed, error) &&
               (speed > 0.0 || sl_compare_read(&compare, log, &tests[i], -1.0, error));
        if (compare) {
            add_test(pool, compare);
        }
        sl_compare_free(compare);
    }
    sl_free(tests);
    *scatter = (sl_scatter){.freedom = 0};
    return good &&
           (settle(scatter, &pool[SL_BASIS_COLOUR], false) || settle(scatter, &pool[SL_BASIS_GRADE], true) ||
            sl_fail(error, SL_ERR_INCONSISTENT,
                    _("no strip of this log was repeated: nothing shows how swatches scatter"),
                    _("a log with two swatches of a strip that were looked at, or --spread")));
}

void sl_seeing_by(sl_seeing *seeing, const sl_scatter *scatter)
{
    seeing->n_scatters = SL_SEEING_SCATTERS;
    seeing->judge = scatter->judge;
    for (int i = 0; i < SL_SEEING_SCATTERS; i++) {
        seeing->scatter[i] = scatter->likely[i];
        seeing->chance[i] = scatter->chance[i];
    }
}
