/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What looks that were repeated tell of who looked; see graded.h. Locks that were graded alike count
 * together.
 */
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/graded.h"

/* ---- spread and lapse -----------------------------------------------------------------------------------
 */

/* What is assumed of judges: half of them within 1.4 times the usual spread, and 1.6 times the usual lapse.
 */
static const double SPREAD_LOG_SD = 0.5, LAPSE_LOG_SD = 0.7;
enum { SPREADS = 25, LAPSES = 5, ROOTS = 25 };

/* Log chances of each grade over the roots of what is left. */
static void tabulate(const sl_judge *judge, double table[SL_WIPES][ROOTS])
{
    for (int k = 0; k < ROOTS; k++) {
        for (int g = 0; g < SL_WIPES; g++) {
            table[g][k] = log(sl_wipe_chance(judge, (sl_wipe)g, pow(k / (ROOTS - 1.0), 2.0)));
        }
    }
}

static void add_grades(const sl_judge_looks *looks, double table[SL_WIPES][ROOTS], double to[ROOTS])
{
    for (int g = 0; g < SL_WIPES; g++) {
        for (int k = 0; looks->grades[g] > 0 && k < ROOTS; k++) {
            to[k] += looks->grades[g] * table[g][k];
        }
    }
}

/* Logarithms to how likely each root is, sum 1; returns that of the mean before. */
static double settle(double at[ROOTS])
{
    double most = at[0], sum = 0.0;
    for (int k = 1; k < ROOTS; k++) {
        most = at[k] > most ? at[k] : most;
    }
    for (int k = 0; k < ROOTS; k++) {
        at[k] = exp(at[k] - most);
        sum += at[k];
    }
    for (int k = 0; k < ROOTS; k++) {
        at[k] /= sum;
    }
    return most + log(sum / ROOTS);
}

static int by_grades(const void *one, const void *other)
{
    const sl_judge_looks *const a = one, *const b = other;
    return memcmp(a->grades, b->grades, sizeof a->grades);
}

/* Of looks sorted by their grades, each kind once, times[] it. */
static int gather(sl_judge_looks *looks, int n)
{
    int kinds = 0;
    qsort(looks, (size_t)n, sizeof *looks, by_grades);
    for (int i = 0; i < n; i++) {
        const bool again = kinds > 0 && by_grades(&looks[kinds - 1], &looks[i]) == 0;
        if (!again) {
            looks[kinds] = looks[i];
            looks[kinds++].lock = 0;
        }
        looks[kinds - 1].lock++;
    }
    return kinds;
}

/* Of spread s and lapse l, each in steps from the usual one. */
static double likely_at(const sl_judge_looks *looks, int kinds, int s, int l)
{
    const double off = (s - SPREADS / 2) * 0.25, slip = l - LAPSES / 2; /* in standard deviations */
    const sl_judge judge = {0.0, SL_JUDGE_USUAL.spread * exp(SPREAD_LOG_SD * off),
                            SL_JUDGE_USUAL.lapse * exp(LAPSE_LOG_SD * slip)};
    double table[SL_WIPES][ROOTS], likely = -0.5 * (off * off + slip * slip);
    tabulate(&judge, table);
    for (int i = 0; i < kinds; i++) {
        double here[ROOTS] = {0.0};
        add_grades(&looks[i], table, here);
        likely += looks[i].lock * settle(here);
    }
    return likely;
}

sl_judge_learned sl_judge_learn(sl_judge_looks *looks, int n)
{
    static const double FAR_BELOW = 15.0; /* the top, at the usual lapse: too unlikely to count at another */
    double likely[SPREADS][LAPSES], most = -HUGE_VAL, sum = 0.0, spread = 0.0, spread_square = 0.0;
    double lapse = 0.0, lapse_square = 0.0, usual_most = -HUGE_VAL;
    const int kinds = gather(looks, n);
    for (int s = 0; s < SPREADS; s++) {
        likely[s][LAPSES / 2] = likely_at(looks, kinds, s, LAPSES / 2);
        usual_most = fmax(usual_most, likely[s][LAPSES / 2]);
    }
    for (int s = 0; s < SPREADS; s++) {
        const bool counts = likely[s][LAPSES / 2] > usual_most - FAR_BELOW;
        for (int l = 0; l < LAPSES; l++) {
            likely[s][l] = l == LAPSES / 2 ? likely[s][l]
                           : counts        ? likely_at(looks, kinds, s, l)
                                           : -HUGE_VAL;
            most = fmax(most, likely[s][l]);
        }
    }
    for (int i = 0; i < SPREADS * LAPSES; i++) {
        const double off = SPREAD_LOG_SD * (i / LAPSES - SPREADS / 2) * 0.25, slip = i % LAPSES - LAPSES / 2;
        const double weight = exp(likely[i / LAPSES][i % LAPSES] - most);
        sum += weight;
        spread += weight * off;
        spread_square += weight * off * off;
        lapse += weight * slip;
        lapse_square += weight * slip * slip;
    }
    spread /= sum;
    lapse /= sum;
    const double half = 1.96 * sqrt(fmax(spread_square / sum - spread * spread, 0.0));
    const double usual = SL_JUDGE_USUAL.spread;
    return (sl_judge_learned){
        .judge = {0.0, usual * exp(spread), SL_JUDGE_USUAL.lapse * exp(LAPSE_LOG_SD * lapse)},
        .spread_low = usual * exp(spread - half),
        .spread_high = usual * exp(spread + half),
        .lapse = lapse_square / sum - lapse * lapse < 0.5};
}

/* ---- offsets --------------------------------------------------------------------------------------------
 */

static const double OFFSET_SD = 0.1; /* of judges about their mean (assumed) */

typedef struct sl_offsets {
    int n; /* judges */
    double at[SL_JUDGES_MOST], step[SL_JUDGES_MOST];
    double told[SL_JUDGES_MOST * SL_JUDGES_MOST]; /* [n][n] information, then its inverse */
    double table[SL_JUDGES_MOST][SL_WIPES][ROOTS], slope[SL_JUDGES_MOST][SL_WIPES][ROOTS]; /* by offset */
} sl_offsets;

static int by_lock(const void *one, const void *other)
{
    const sl_judge_looks *const a = one, *const b = other;
    return a->lock != b->lock ? (a->lock > b->lock) - (a->lock < b->lock)
                              : (a->judge > b->judge) - (a->judge < b->judge);
}

static void tabulate_all(sl_offsets *of, const sl_judge *judge)
{
    static const double STEP = 1e-4;
    for (int j = 0; j < of->n; j++) {
        sl_judge here = judge[j];
        here.offset = of->at[j] + STEP;
        tabulate(&here, of->slope[j]);
        here.offset = of->at[j];
        tabulate(&here, of->table[j]);
        for (int i = 0; i < ROOTS * SL_WIPES; i++) {
            double *const slope = &of->slope[j][i / ROOTS][i % ROOTS];
            *slope = (*slope - of->table[j][i / ROOTS][i % ROOTS]) / STEP;
        }
    }
}

/* One lock: its score, by how likely each root is, and what that tells (Berndt, Hall, Hall & Hausman 1974).
 */
static void add_lock(sl_offsets *of, const sl_judge_looks *looks, int n)
{
    double here[ROOTS] = {0.0}, score[SL_JUDGES_MOST];
    for (int i = 0; i < n; i++) {
        add_grades(&looks[i], of->table[looks[i].judge], here);
    }
    settle(here);
    for (int i = 0; i < n; i++) {
        double slope[ROOTS] = {0.0};
        add_grades(&looks[i], of->slope[looks[i].judge], slope);
        score[i] = 0.0;
        for (int k = 0; k < ROOTS; k++) {
            score[i] += here[k] * slope[k];
        }
        of->step[looks[i].judge] += score[i];
        for (int m = 0; m <= i; m++) {
            of->told[looks[i].judge * of->n + looks[m].judge] += score[i] * score[m];
        }
    }
}

/* One step towards the greatest likelihood; returns how far it went. */
static double go(sl_offsets *of, const sl_judge_looks *looks, int n, const sl_judge *judge)
{
    double far = 0.0, mean = 0.0;
    gsl_matrix_view told = gsl_matrix_view_array(of->told, (size_t)of->n, (size_t)of->n);
    gsl_vector_view step = gsl_vector_view_array(of->step, (size_t)of->n);
    tabulate_all(of, judge);
    for (int i = 0; i < of->n * of->n; i++) {
        of->told[i] = i / of->n == i % of->n ? 1.0 / (OFFSET_SD * OFFSET_SD) : 0.0;
    }
    for (int i = 0; i < of->n; i++) {
        of->step[i] = -of->at[i] / (OFFSET_SD * OFFSET_SD);
    }
    for (int begin = 0, end = 0; begin < n; begin = end) {
        while (end < n && looks[end].lock == looks[begin].lock) {
            end++;
        }
        if (end - begin > 1) {
            add_lock(of, looks + begin, end - begin);
        }
    }
    gsl_linalg_cholesky_decomp1(&told.matrix); /* squares, and what is assumed: never singular */
    gsl_linalg_cholesky_svx(&told.matrix, &step.vector);
    for (int i = 0; i < of->n; i++) {
        mean += of->step[i] / of->n;
    }
    for (int i = 0; i < of->n; i++) { /* what all have in common is no offset against each other */
        of->step[i] = fmin(fmax(of->step[i] - mean, -OFFSET_SD), OFFSET_SD);
        of->at[i] += of->step[i];
        far = fmax(far, fabs(of->step[i]));
    }
    return far;
}

void sl_judges_offsets(sl_judge_looks *looks, int n, const sl_judge *judge, int n_judges, double *offset,
                       double *error_of)
{
    enum { STEPS = 10 };
    static const double NEAR = 1e-3; /* a two-hundredth of a step of the grades */
    sl_offsets of = {.n = n_judges};
    double mean = 0.0, of_mean = 0.0, with_mean[SL_JUDGES_MOST] = {0.0};
    qsort(looks, (size_t)n, sizeof *looks, by_lock);
    for (int k = 0; k < STEPS && go(&of, looks, n, judge) > NEAR;) {
        k++;
    }
    gsl_matrix_view told = gsl_matrix_view_array(of.told, (size_t)n_judges, (size_t)n_judges);
    gsl_linalg_cholesky_invert(&told.matrix);
    for (int i = 0; i < n_judges * n_judges; i++) {
        mean += i < n_judges ? of.at[i] / n_judges : 0.0;
        with_mean[i / n_judges] += of.told[i] / n_judges;
        of_mean += of.told[i] / (n_judges * n_judges);
    }
    for (int i = 0; i < n_judges; i++) {
        offset[i] = of.at[i] - mean;
        error_of[i] = sqrt(fmax(of.told[i * (n_judges + 1)] - 2.0 * with_mean[i] + of_mean, 0.0));
    }
}
