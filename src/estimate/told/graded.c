/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See graded.h. Strips and blocks of each colour by greatest likelihood (ordinal.h); what swatches scatter
 * by, of all colours together, by the likelihood that is left when strips and blocks are integrated out
 * (Laplace), over a ladder of values: its spread is what a scatter learned from few swatches leaves open.
 * Variances are by what a grade is expected to tell, so that they are sound at the ends of the scale too.
 */
#include "slowlift/graded.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "estimate/told/ordinal.h"

static const char doing[] = "comparing grades";

enum { NODES = 5, LAPLACE_FROM = 6, ROUNDS = 2, STEPS = 16 };
/* Standard deviations that a swatch's own scatter may have. */
static const double ladder[] = {0.0, 0.03, 0.06, 0.1, 0.15, 0.22, 0.32};
enum { RUNGS = sizeof ladder / sizeof ladder[0] };
/* How much what other colours say of scatter counts beside one's own (assumed): colours of a swatch are not
 * independent, nor need they scatter quite alike. */
static const double SHARED = 0.5;
static const double LEAST_BLOCK = 0.01, USUAL_BLOCK = 0.05, USUAL_SWATCH = 0.04;

typedef struct sl_colour_fit {
    int n_swatches, n_blocks, freedom;
    int at[SL_MAX_ARMS]; /* of a strip among those that have looks; -1 */
    sl_ordinal model;
    sl_ordinal_row *row;
    sl_judge *judge;                   /* [n] of each row, no finer than the usual one */
    double *mode;                      /* [n] */
    double *term;                      /* strips, then blocks */
    double *covariance;                /* [terms][terms] */
    double likely[RUNGS], told[RUNGS]; /* where its swatches scatter so: all of it, strips and blocks
                                          integrated out; what one swatch tells */
    double swatch, known;              /* what swatches scatter by, and of what freedom that is known */
} sl_colour_fit;

/* ---- what a grade tells ---------------------------------------------------------------------------------
 */

/* Of one look: expected information about the root of what is left, and how likely each grade is meant, and
 * no slip of the form. */
typedef struct sl_look_tells {
    double told, meant[SL_WIPES];
} sl_look_tells;

static sl_look_tells tells(const sl_judge *judge, double root)
{
    sl_look_tells of = {.told = 0.0};
    double above = 0.0, above_density = 0.0;
    for (int g = 0; g < SL_WIPES; g++) {
        const double z = (sl_wipe_edge(g + 1) - root - judge->offset) / judge->spread;
        const double here = 0.5 * erfc(z * M_SQRT1_2);
        const double density = exp(-0.5 * z * z) / (judge->spread * sqrt(2.0 * M_PI));
        const double slope = (1.0 - judge->lapse) * (density - above_density);
        const double seen = (1.0 - judge->lapse) * (here - above), chance = seen + judge->lapse / SL_WIPES;
        of.told += chance > 0.0 ? slope * slope / chance : 0.0;
        of.meant[g] = chance > 0.0 ? seen / chance : 0.0;
        above = here;
        above_density = density;
    }
    return of;
}

/* Variance of what one swatch tells, of rows begin to end. */
static double variance_of(const sl_colour_fit *fit, int begin, int end)
{
    static const double LEAST = 1e-6;
    const sl_ordinal *const model = &fit->model;
    const int *const term = model->row[begin].term;
    const double root = model->term[term[0]] + (term[1] >= 0 ? model->term[term[1]] : 0.0);
    double told = LEAST;
    sl_look_tells look = {.told = 0.0};
    for (int i = begin; i < end; i++) {
        const sl_ordinal_row *const row = &model->row[i];
        if (i == begin || row->judge != row[-1].judge) {
            look = tells(row->judge, fmin(fmax(root, 0.0), 1.0));
        }
        told += row->many * look.meant[row->grade] * look.told;
    }
    return model->group_sd * model->group_sd + 1.0 / told;
}

/* Fills covariance; *likely: strips and blocks integrated out; *told: the mean of what swatches scatter by,
 * each squared and inverse. */
static void inform(sl_colour_fit *fit, double *likely, double *told)
{
    const sl_ordinal *const model = &fit->model;
    const int n = model->terms;
    double *const to = fit->covariance, sum = 0.0;
    memset(to, 0, (size_t)(n * n) * sizeof *to);
    for (int i = model->shares; i < n; i++) {
        to[i * (n + 1)] = model->precision;
    }
    for (int begin = 0, end = 0; begin < model->n; begin = end) {
        while (end < model->n && model->row[end].group == model->row[begin].group) {
            end++;
        }
        const double variance = variance_of(fit, begin, end);
        const int one = model->row[begin].term[0], other = model->row[begin].term[1];
        sum += 1.0 / variance;
        to[one * (n + 1)] += 1.0 / variance;
        if (other >= 0) {
            to[other * (n + 1)] += 1.0 / variance;
            to[one * n + other] += 1.0 / variance;
            to[other * n + one] += 1.0 / variance;
        }
    }
    gsl_matrix_view matrix = gsl_matrix_view_array(to, (size_t)n, (size_t)n);
    gsl_linalg_cholesky_decomp1(&matrix.matrix); /* each strip has a swatch, blocks are never quite unknown */
    *likely = model->log_likelihood + 0.5 * fit->n_blocks * log(model->precision);
    for (int i = 0; i < n; i++) {
        *likely -= log(to[i * (n + 1)]);
    }
    gsl_linalg_cholesky_invert(&matrix.matrix);
    *told = sum / fit->n_swatches;
}

/* ---- all colours ----------------------------------------------------------------------------------------
 */

typedef struct sl_graded_fits {
    int n;
    sl_colour_fit *fit; /* [n] */
    double node[NODES], weight[NODES];
    sl_error *error;
} sl_graded_fits;

static bool fit_one(sl_colour_fit *fit, double swatch, double block, double *likely, double *told,
                    sl_error *error)
{
    fit->model.group_sd = swatch;
    fit->model.precision = 1.0 / (block * block);
    if (fit->model.n == 0) {
        return true;
    }
    if (!sl_ordinal_fit(&fit->model, error)) {
        return false;
    }
    inform(fit, likely, told);
    return true;
}

/* What rounds differ by, by steps of expectation and maximisation (Dempster, Laird & Rubin 1977, Journal of
 * the Royal Statistical Society B 39, 1-38). */
static bool settle_blocks(sl_graded_fits *fits, double *block)
{
    for (int k = 0; k < ROUNDS; k++) {
        double squares = 0.0, likely = 0.0, told = 0.0;
        int n = 0;
        for (int c = 0; c < fits->n; c++) {
            sl_colour_fit *const fit = &fits->fit[c];
            if (!fit_one(fit, USUAL_SWATCH, *block, &likely, &told, fits->error)) {
                return false;
            }
            for (int i = fit->model.shares; i < fit->model.terms; i++) {
                squares += fit->term[i] * fit->term[i] + fit->covariance[i * (fit->model.terms + 1)];
                n++;
            }
        }
        *block = n > 0 ? fmax(sqrt(squares / n), LEAST_BLOCK) : *block;
    }
    return true;
}

static bool climb(sl_graded_fits *fits, double block)
{
    for (int c = 0; c < fits->n; c++) {
        for (int k = 0; k < RUNGS; k++) {
            sl_colour_fit *const fit = &fits->fit[c];
            if (!fit_one(fit, ladder[k], block, &fit->likely[k], &fit->told[k], fits->error)) {
                return false;
            }
        }
    }
    return true;
}

/* Of values at the rungs the one between them, by a parabola through the three nearest. */
static double between(const double value[RUNGS], double at)
{
    int k = 1;
    while (k < RUNGS - 2 && 0.5 * (ladder[k] + ladder[k + 1]) < at) {
        k++;
    }
    const double *const x = &ladder[k - 1], *const y = &value[k - 1];
    const double one = (y[1] - y[0]) / (x[1] - x[0]), two = (y[2] - y[1]) / (x[2] - x[1]);
    return y[0] + (at - x[0]) * (one + (at - x[1]) * (two - one) / (x[2] - x[0]));
}

/* Of all scatters up the ladder, by how likely they are, other colours counting in part: the mean of what a
 * swatch tells, and how far that varies, which makes a freedom (of a chi-square with the same mean and
 * variance). */
static void settle_swatches(const sl_graded_fits *fits, sl_colour_fit *fit)
{
    enum { PARTS = 64 };
    double likely[RUNGS], told[PARTS + 1], weight[PARTS + 1], most = -HUGE_VAL;
    double sum = 0.0, mean = 0.0, square = 0.0;
    for (int k = 0; k < RUNGS; k++) {
        likely[k] = (1.0 - SHARED) * fit->likely[k];
        for (int c = 0; c < fits->n; c++) {
            likely[k] += SHARED * fits->fit[c].likely[k];
        }
    }
    for (int k = 0; k <= PARTS; k++) {
        weight[k] = between(likely, ladder[RUNGS - 1] * k / PARTS);
        told[k] = between(fit->told, ladder[RUNGS - 1] * k / PARTS);
        most = fmax(most, weight[k]);
    }
    for (int k = 0; k <= PARTS; k++) {
        const double part = exp(weight[k] - most);
        sum += part;
        mean += part * told[k];
        square += part * told[k] * told[k];
    }
    mean /= sum;
    const double varies = square / sum - mean * mean;
    fit->known = varies > 0.0 ? 2.0 * mean * mean / varies : HUGE_VAL;
    int k = 0;
    while (k < PARTS && told[k] > mean) {
        k++;
    }
    fit->swatch = ladder[RUNGS - 1] * k / PARTS;
}

/* ---- two strips alike ------------------------------------------------------------------------------------
 */

/* log likelihood of each strip, wherever it would lie: [STEPS + 1][n_strips], blocks as they are. */
static bool walk(sl_colour_fit *fit, double *curve, sl_error *error)
{
    sl_ordinal *const model = &fit->model;
    const int n = model->shares;
    double kept[SL_MAX_ARMS];
    memcpy(kept, fit->term, (size_t)n * sizeof *kept);
    model->of_group = sl_new((size_t)fit->n_swatches, sizeof *model->of_group, doing, error);
    model->nearer = HUGE_VAL; /* nothing moves */
    bool good = model->of_group != NULL;
    for (int k = 0; good && k <= STEPS; k++) {
        for (int i = 0; i < n; i++) {
            fit->term[i] = (double)k / STEPS;
        }
        good = sl_ordinal_fit(model, error);
        for (int i = 0; good && i < model->n; i++) {
            if (i == 0 || model->row[i].group != model->row[i - 1].group) {
                curve[k * n + model->row[i].term[0]] += model->of_group[model->row[i].group];
            }
        }
    }
    memcpy(fit->term, kept, (size_t)n * sizeof *kept);
    sl_free(model->of_group);
    return good;
}

/* The top of a sum of two columns, by a parabola about the highest step. */
static double top_of(const double *curve, int n, int one, int other)
{
    int at = 0;
    for (int k = 1; k <= STEPS; k++) {
        at = curve[k * n + one] + curve[k * n + other] > curve[at * n + one] + curve[at * n + other] ? k : at;
    }
    const double here = curve[at * n + one] + curve[at * n + other];
    if (at == 0 || at == STEPS) {
        return here;
    }
    const double before = curve[(at - 1) * n + one] + curve[(at - 1) * n + other];
    const double after = curve[(at + 1) * n + one] + curve[(at + 1) * n + other];
    const double bend = 2.0 * here - before - after;
    return bend > 0.0 ? here + 0.125 * (after - before) * (after - before) / bend : here;
}

/* Where both were one, the likelihood would be so much less: the root of twice that, in standard errors
 * (Wilks 1938), counts where it is less than the means lie apart. Slips of the form make it so. */
static bool hold_back(sl_colour_fit *fit, sl_blocks *blocks, sl_error *error)
{
    const int n = fit->model.shares;
    double *const curve = sl_new((size_t)((STEPS + 1) * n) + 1, sizeof *curve, doing, error);
    if (!curve || (fit->model.n > 0 && !walk(fit, curve, error))) {
        sl_free(curve);
        return false;
    }
    for (int i = 0; i < blocks->n_strips; i++) {
        for (int k = 0; k < i; k++) {
            const int one = fit->at[i], other = fit->at[k];
            if (one < 0 || other < 0) {
                continue;
            }
            const double far = fabs(blocks->mean[i] - blocks->mean[k]);
            const double less = 0.5 * (top_of(curve, n, one, one) + top_of(curve, n, other, other)) -
                                top_of(curve, n, one, other);
            const double variance = far * far / fmax(2.0 * less, 1e-9);
            const double own = blocks->part[i][i] + blocks->part[k][k];
            if (variance > own - 2.0 * blocks->part[i][k]) {
                blocks->part[i][k] = blocks->part[k][i] = 0.5 * (own - variance);
            }
        }
    }
    sl_free(curve);
    return true;
}

/* ---- made -----------------------------------------------------------------------------------------------
 */

/* most: freedom of all that counts. */
static void tell(sl_blocks *blocks, const sl_colour_fit *fit, int n_strips, double most)
{
    const int n = fit->model.terms;
    for (int i = 0; i < n_strips; i++) {
        if (fit->at[i] >= 0) {
            blocks->mean[i] = fit->term[fit->at[i]];
            for (int k = 0; k < n_strips; k++) {
                blocks->part[i][k] = fit->at[k] >= 0 ? fit->covariance[fit->at[i] * n + fit->at[k]] : 0.0;
            }
        }
    }
    if (fit->freedom > 0) {
        blocks->freedom = fit->freedom;
        blocks->sd = blocks->calm_sd = blocks->alone_sd = 1.0;
        blocks->calm_freedom = blocks->alone_freedom = fmin(fit->known, most);
    }
}

/* Blocks of a colour are numbered in their order; looks of one judge in turn share it. */
static void take_rows(sl_colour_fit *fit, const sl_graded_colour *of, int strips)
{
    int block = -1, swatch = -1;
    for (int i = 0; i < of->n; i++) {
        const sl_graded_look *const look = &of->look[i];
        block += i == 0 || look->block != of->look[i - 1].block ? 1 : 0;
        swatch += i == 0 || look->swatch != of->look[i - 1].swatch ? 1 : 0;
        const bool same_judge = i > 0 && look->judge == of->look[i - 1].judge;
        fit->judge[i] = *look->judge;
        fit->judge[i].spread = fmax(look->judge->spread, SL_JUDGE_USUAL.spread);
        fit->row[i] = (sl_ordinal_row){.group = swatch,
                                       .grade = (int)look->wipe,
                                       .many = look->many,
                                       .term = {fit->at[look->strip], of->blocked ? strips + block : -1},
                                       .judge = same_judge ? fit->row[i - 1].judge : &fit->judge[i]};
    }
}

static bool begin(sl_colour_fit *fit, sl_blocks *blocks, const sl_graded_colour *of, int n_strips,
                  sl_error *error)
{
    int strips = 0;
    *blocks = (sl_blocks){.n_strips = n_strips, .blocked = of->blocked, .sd = -1.0, .alone_sd = -1.0};
    for (int i = 0; i < of->n; i++) {
        const bool first = i == 0 || of->look[i].swatch != of->look[i - 1].swatch;
        blocks->n[of->look[i].strip] += first ? 1 : 0;
        fit->n_swatches += first ? 1 : 0;
    }
    for (int i = 0; i < n_strips; i++) {
        fit->at[i] = blocks->n[i] > 0 ? strips++ : -1;
    }
    for (int i = 0; of->blocked && i < of->n; i++) {
        fit->n_blocks += i == 0 || of->look[i].block != of->look[i - 1].block ? 1 : 0;
    }
    fit->freedom = fit->n_swatches - strips - (fit->n_blocks > 0 ? fit->n_blocks - 1 : 0);
    const int terms = strips + fit->n_blocks;
    fit->row = sl_new((size_t)of->n + 1, sizeof *fit->row, doing, error);
    fit->judge = sl_new((size_t)of->n + 1, sizeof *fit->judge, doing, error);
    fit->mode = sl_new((size_t)of->n + 1, sizeof *fit->mode, doing, error);
    fit->term = sl_new((size_t)terms + 1, sizeof *fit->term, doing, error);
    fit->covariance = sl_new((size_t)(terms * terms) + 1, sizeof *fit->covariance, doing, error);
    if (!fit->row || !fit->judge || !fit->mode || !fit->term || !fit->covariance) {
        return false;
    }
    take_rows(fit, of, strips);
    fit->model = (sl_ordinal){.link = SL_PROBIT,
                              .row = fit->row,
                              .n = of->n,
                              .grades = SL_WIPES,
                              .terms = terms,
                              .shares = strips,
                              .nodes = NODES,
                              .laplace_from = LAPLACE_FROM,
                              .nearer = 0.02,
                              .mode = fit->mode,
                              .term = fit->term};
    for (int i = 0; i < SL_WIPES + 1; i++) {
        fit->model.edge[i] = sl_wipe_edge(i);
    }
    for (int i = 0; i < strips; i++) {
        fit->term[i] = 0.5;
    }
    return true;
}

static bool settle(sl_graded_fits *fits, sl_blocks *colour, int n_strips, double *block)
{
    double most = 0.0, likely = 0.0, told = 0.0;
    if (!settle_blocks(fits, block) || !climb(fits, *block)) {
        return false;
    }
    for (int c = 0; c < fits->n; c++) {
        most += SHARED * fmax(fits->fit[c].freedom, 0.0);
    }
    for (int c = 0; c < fits->n; c++) {
        sl_colour_fit *const fit = &fits->fit[c];
        settle_swatches(fits, fit);
        fit->model.nearer = 1e-4;
        if (!fit_one(fit, fit->swatch, *block, &likely, &told, fits->error)) {
            return false;
        }
        tell(&colour[c], fit, n_strips, most + (1.0 - SHARED) * fit->freedom);
        if (!hold_back(fit, &colour[c], fits->error)) {
            return false;
        }
    }
    return true;
}

bool sl_graded_of(sl_blocks *colour, sl_graded_scatter *scatter, const sl_graded_colour *of, int n_colours,
                  int n_strips, sl_error *error)
{
    sl_graded_fits fits = {.n = n_colours, .error = error};
    double block = USUAL_BLOCK;
    sl_hermite_nodes(NODES, fits.node, fits.weight);
    fits.fit = sl_new((size_t)n_colours + 1, sizeof *fits.fit, doing, error);
    bool good = fits.fit != NULL;
    for (int c = 0; good && c < n_colours; c++) {
        good = begin(&fits.fit[c], &colour[c], &of[c], n_strips, error);
        memcpy(fits.fit[c].model.node, fits.node, sizeof fits.node);
        memcpy(fits.fit[c].model.weight, fits.weight, sizeof fits.weight);
    }
    good = good && settle(&fits, colour, n_strips, &block);
    for (int c = 0; fits.fit && c < n_colours; c++) {
        scatter[c] = (sl_graded_scatter){fits.fit[c].swatch, block, fits.fit[c].known};
        sl_free(fits.fit[c].row);
        sl_free(fits.fit[c].judge);
        sl_free(fits.fit[c].mode);
        sl_free(fits.fit[c].term);
        sl_free(fits.fit[c].covariance);
    }
    sl_free(fits.fit);
    return good;
}
