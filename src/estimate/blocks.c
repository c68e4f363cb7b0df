/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See blocks.h. Blocks are swept out first: the reduced equations of the strips, C t = q, have one equation
 * too many, which C + J/n makes up for (J all ones; its inverse is that of C within the differences, and
 * J/n).
 */
#include "slowlift/blocks.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_sf_psi.h>
#include <math.h>
#include <stdlib.h>

#include "slowlift/rank.h"

/* Strips that have values, in their order. */
typedef struct sl_present {
    int n, strip[SL_MAX_ARMS], at[SL_MAX_ARMS];
    double c[SL_MAX_ARMS * SL_MAX_ARMS]; /* [n][n] reduced equations, then their inverse */
    double q[SL_MAX_ARMS], effect[SL_MAX_ARMS], share[SL_MAX_ARMS];
    int n_blocks;
    double grand, start; /* mean of the blocks' means, about start */
    double of_grand;     /* its variance over sd * sd */
} sl_present;

static int block_of(const sl_blocks *blocks, const sl_block_value *value)
{
    return blocks->blocked ? value->block : 0;
}

static int block_end(const sl_blocks *blocks, const sl_block_value *value, int n, int begin)
{
    int end = begin + 1;
    while (end < n && block_of(blocks, &value[end]) == block_of(blocks, &value[begin])) {
        end++;
    }
    return end;
}

/* Whether a walk from block to block by strips that both have reaches all of them, and something is repeated
 * within them. */
static bool joined(const sl_block_value *value, int n, int n_strips)
{
    int group[SL_MAX_ARMS], n_groups = 0, freedom = n + 1;
    bool has[SL_MAX_ARMS] = {false};
    for (int i = 0; i < n_strips; i++) {
        group[i] = i;
    }
    for (int i = 0; i < n; i++) {
        has[value[i].strip] = true;
        freedom -= i == 0 || value[i].block != value[i - 1].block ? 1 : 0;
        if (i > 0 && value[i].block == value[i - 1].block) {
            const int one = group[value[i].strip], other = group[value[i - 1].strip];
            for (int k = 0; k < n_strips; k++) {
                group[k] = group[k] == one ? other : group[k];
            }
        }
    }
    for (int i = 0; i < n_strips; i++) {
        n_groups += has[i] && group[i] == i ? 1 : 0;
        freedom -= has[i] ? 1 : 0;
    }
    return n_groups == 1 && freedom > 0;
}

static void add_block(const sl_block_value *value, int n, sl_present *of)
{
    double sum = 0.0, has[SL_MAX_ARMS] = {0.0};
    for (int i = 0; i < n; i++) {
        sum += value[i].value - of->start;
        has[of->at[value[i].strip]] += 1.0;
    }
    for (int i = 0; i < n; i++) {
        of->q[of->at[value[i].strip]] += value[i].value - of->start - sum / n;
    }
    for (int i = 0; i < of->n; i++) {
        of->share[i] += has[i] / n;
        of->c[i * of->n + i] += has[i];
        for (int k = 0; k < of->n; k++) {
            of->c[i * of->n + k] -= has[i] * has[k] / n;
        }
    }
    of->n_blocks++;
    of->grand += sum / n;
    of->of_grand += 1.0 / n;
}

static void gather(const sl_blocks *blocks, const sl_block_value *value, int n, sl_present *of)
{
    *of = (sl_present){.start = value[0].value};
    for (int i = 0; i < blocks->n_strips; i++) {
        if (blocks->n[i] > 0) {
            of->at[i] = of->n;
            of->strip[of->n++] = i;
        }
    }
    for (int begin = 0, end = 0; begin < n; begin = end) {
        end = block_end(blocks, value, n, begin);
        add_block(value + begin, end - begin, of);
    }
}

static void solve(sl_present *of)
{
    const double b = of->n_blocks;
    for (int i = 0; i < of->n * of->n; i++) {
        of->c[i] += 1.0 / of->n;
    }
    gsl_matrix_view c = gsl_matrix_view_array(of->c, (size_t)of->n, (size_t)of->n);
    gsl_linalg_cholesky_decomp1(&c.matrix); /* positive definite, because blocks join the strips */
    gsl_linalg_cholesky_invert(&c.matrix);
    of->grand /= b;
    of->of_grand /= b * b;
    for (int i = 0; i < of->n; i++) {
        of->share[i] /= b;
        for (int k = 0; k < of->n; k++) {
            of->c[i * of->n + k] -= 1.0 / of->n;
            of->effect[i] += of->c[i * of->n + k] * of->q[k];
        }
    }
}

/* Of differences: sum over rows of a share of each. */
static void tell_means(sl_blocks *blocks, const sl_present *of)
{
    double common = 0.0, both = of->of_grand, row[SL_MAX_ARMS] = {0.0};
    for (int i = 0; i < of->n; i++) {
        common += of->share[i] * of->effect[i];
        for (int k = 0; k < of->n; k++) {
            row[i] += of->c[i * of->n + k] * of->share[k];
        }
        both += row[i] * of->share[i];
    }
    for (int i = 0; i < of->n; i++) {
        blocks->mean[of->strip[i]] = of->start + of->grand + of->effect[i] - common;
        blocks->of_strips += of->q[i] * of->effect[i];
        for (int k = 0; k < of->n; k++) {
            blocks->part[of->strip[i]][of->strip[k]] = of->c[i * of->n + k] - row[i] - row[k] + both;
        }
    }
}

/* Scatter about the strips' own means: that within blocks, and that of blocks, each with its freedom. */
static void tell_alone(sl_blocks *blocks, const sl_block_value *value, int n, const sl_present *of)
{
    double mean[SL_MAX_ARMS] = {0.0}, all = 0.0;
    for (int i = 0; i < n; i++) {
        mean[value[i].strip] += (value[i].value - of->start) / blocks->n[value[i].strip];
    }
    for (int i = 0; i < n; i++) {
        const double off = value[i].value - of->start - mean[value[i].strip];
        all += off * off;
    }
    const double of_blocks = fmax(all - blocks->within, 0.0);
    const double within = blocks->within * blocks->within / blocks->freedom;
    const double between = of->n_blocks > 1 ? of_blocks * of_blocks / (of->n_blocks - 1) : 0.0;
    const bool none = within + between <= 0.0;
    blocks->alone_sd = sqrt((of_blocks + blocks->within) / (n - of->n));
    blocks->alone_freedom =
        none ? n - of->n : (of_blocks + blocks->within) * (of_blocks + blocks->within) / (within + between);
}

static void tell_scatter(sl_blocks *blocks, const sl_block_value *value, int n, const sl_present *of)
{
    double all = 0.0;
    for (int i = 0; i < n; i++) {
        all += (value[i].value - of->start) / n;
    }
    for (int begin = 0, end = 0; begin < n; begin = end) {
        end = block_end(blocks, value, n, begin);
        double rest = 0.0, sum = 0.0;
        const double many = end - begin;
        for (int i = begin; i < end; i++) {
            sum += (value[i].value - of->start) / many;
            rest += (value[i].value - of->start - of->effect[of->at[value[i].strip]]) / many;
        }
        for (int i = begin; i < end; i++) {
            const double off = value[i].value - of->start - of->effect[of->at[value[i].strip]] - rest;
            blocks->within += off * off;
        }
        blocks->of_blocks += many * (sum - all) * (sum - all);
    }
    blocks->freedom = n - of->n_blocks - of->n + 1;
    if (blocks->freedom > 0) {
        blocks->sd = sqrt(blocks->within / blocks->freedom);
        blocks->calm_sd = blocks->sd;
        blocks->calm_freedom = blocks->freedom;
        tell_alone(blocks, value, n, of);
    }
}

void sl_blocks_of(sl_blocks *blocks, const sl_block_value *value, int n, int n_strips)
{
    assert(n_strips <= SL_MAX_ARMS);
    *blocks = (sl_blocks){.n_strips = n_strips, .sd = -1.0, .alone_sd = -1.0};
    for (int i = 0; i < n; i++) {
        assert(value[i].strip >= 0 && value[i].strip < n_strips &&
               (i == 0 || value[i].block >= value[i - 1].block));
        blocks->n[value[i].strip]++;
    }
    if (n == 0) {
        return;
    }
    sl_present of;
    blocks->blocked = joined(value, n, n_strips);
    gather(blocks, value, n, &of);
    solve(&of);
    tell_means(blocks, &of);
    tell_scatter(blocks, value, n, &of);
}

/* ---- what colours share ----------------------------------------------------------------------------------
 */

/* 0: none is known. */
static double counted_variance(const sl_blocks *blocks)
{
    double least = blocks->sd;
    if (blocks->freedom == 0) {
        return 0.0;
    }
    for (int i = 0, any = 0; i < blocks->n_strips; i++) {
        if (blocks->n[i] > 0) {
            least = any++ == 0 ? blocks->least_sd[i] : fmin(least, blocks->least_sd[i]);
        }
    }
    return fmax(blocks->sd * blocks->sd, least * least);
}

/* x at which the trigamma function is y > 0, by Newton's steps on its reciprocal, which climb to it (Smyth).
 */
static double trigamma_inverse(double y)
{
    enum { STEPS = 50 };
    double x = 0.5 + 1.0 / y;
    for (int i = 0; i < STEPS; i++) {
        const double at = gsl_sf_psi_1(x), step = at * (1.0 - at / y) / gsl_sf_psi_n(2, x);
        x += step;
        if (fabs(step) < 1e-9 * x) {
            break;
        }
    }
    return x;
}

static const double MOST_FREEDOM = 1e4; /* more is as good as all */

void sl_blocks_calm(sl_blocks *colour, int n_colours)
{
    double sum = 0.0, squares = 0.0, own = 0.0, all = 0.0;
    int n = 0;
    for (int c = 0; c < n_colours; c++) {
        const double variance = counted_variance(&colour[c]);
        all += colour[c].freedom;
        if (variance > 0.0) { /* the logarithm of a variance that is as usual, and its scatter by chance */
            const double half = 0.5 * colour[c].freedom, e = log(variance) - gsl_sf_psi(half) + log(half);
            n++;
            squares += (e - sum / fmax(n - 1.0, 1.0)) * (e - (sum + e) / n);
            sum += e;
            own += gsl_sf_psi_1(half);
        }
    }
    if (n < 2) {
        return;
    }
    const double beyond = squares / (n - 1) - own / n;
    const double shared = beyond > 0.0 ? fmin(2.0 * trigamma_inverse(beyond), MOST_FREEDOM) : MOST_FREEDOM;
    const double usual = exp(sum / n + gsl_sf_psi(0.5 * shared) - log(0.5 * shared));
    for (int c = 0; c < n_colours; c++) {
        const double variance = counted_variance(&colour[c]);
        if (variance > 0.0) {
            colour[c].calm_freedom =
                fmin(shared + colour[c].freedom, 0.5 * (all + colour[c].freedom));
            colour[c].calm_sd =
                sqrt((shared * usual + colour[c].freedom * variance) / (shared + colour[c].freedom));
        }
    }
}

double sl_blocks_half(const sl_blocks *blocks, int strip, double p)
{
    return blocks->n[strip] == 0 || blocks->freedom == 0
               ? -1.0
               : gsl_cdf_tdist_Pinv(0.5 + 0.5 * p, blocks->alone_freedom) *
                     fmax(blocks->alone_sd, blocks->least_sd[strip]) * sqrt(blocks->part[strip][strip]);
}

static bool can_tell(const sl_blocks *blocks, int one, int other)
{
    return blocks->n[one] > 0 && blocks->n[other] > 0 && blocks->freedom > 0;
}

/* Standard error of a difference. */
static double error_of(const sl_blocks *blocks, int one, int other)
{
    return fmax(blocks->calm_sd, fmax(blocks->least_sd[one], blocks->least_sd[other])) *
           sqrt(blocks->part[one][one] + blocks->part[other][other] - 2.0 * blocks->part[one][other]);
}

double sl_blocks_apart_half(const sl_blocks *blocks, int one, int other, double p)
{
    return can_tell(blocks, one, other)
               ? gsl_cdf_tdist_Pinv(0.5 + 0.5 * p, blocks->calm_freedom) * error_of(blocks, one, other)
               : -1.0;
}

double sl_blocks_odds(const sl_blocks *blocks, int one, int other)
{
    const double apart = fabs(blocks->mean[one] - blocks->mean[other]);
    if (blocks->odds) {
        return blocks->odds[one * blocks->n_strips + other];
    }
    return can_tell(blocks, one, other) && apart > 0.0
               ? 2.0 * gsl_cdf_tdist_Q(apart / error_of(blocks, one, other), blocks->calm_freedom)
               : 1.0;
}

double sl_blocks_told_from(const sl_blocks *blocks, int one, int other, double comparisons)
{
    return sl_blocks_apart_half(blocks, one, other, 1.0 - SL_FALSE_BEFORE / comparisons);
}

static const double ROUNDING = 1e-12; /* of means that are equal */

static double weight_of(const sl_comparison *question)
{
    return question->weight > 0.0 ? question->weight : 1.0;
}

static double weighed(const sl_comparison *question)
{
    return question->odds / weight_of(question);
}

static int by_odds(const void *one, const void *other)
{
    const double a = weighed(one), b = weighed(other);
    return (a > b) - (a < b);
}

void sl_comparisons_together(sl_comparison *question, int n)
{
    double least = 0.0, rest = 0.0; /* rest: weights of those that are still asked */
    qsort(question, (size_t)n, sizeof *question, by_odds);
    for (int i = n - 1; i >= 0; i--) {
        rest += weight_of(&question[i]);
        question[i].together = weighed(&question[i]) * rest;
    }
    for (int i = 0; i < n; i++) {
        least = fmin(fmax(least, question[i].together), 1.0);
        question[i].together = least;
    }
}

/* Weights of which those that are not beside have 1; those beside share what is left. Returns their sum. */
static double weigh(const sl_blocks *colour, sl_comparison *question, int n)
{
    int beside = 0;
    for (int i = 0; i < n; i++) {
        beside += colour[question[i].colour].beside ? 1 : 0;
    }
    const double share = SL_BESIDE_SHARE / (1.0 - SL_BESIDE_SHARE);
    const bool both = beside > 0 && beside < n;
    const double less = both ? fmin(share * (n - beside) / beside, 1.0) : 1.0;
    for (int i = 0; i < n; i++) {
        question[i].weight = colour[question[i].colour].beside ? less : 1.0;
    }
    return n - beside + less * beside;
}

double sl_before_together(const sl_blocks *colour, int n_colours, sl_comparison *room, bool *before)
{
    const int n = n_colours > 0 ? colour[0].n_strips : 0;
    int asked = 0;
    for (int c = 0; c < n_colours; c++) {
        for (int i = 0; i < n * n; i++) {
            const int less = i / n, other = i % n;
            const bool lower = colour[c].n[less] > 0 && colour[c].n[other] > 0 &&
                               (colour[c].mean[less] < colour[c].mean[other] ||
                                (less < other && colour[c].mean[less] <= colour[c].mean[other]));
            before[c * n * n + i] = false;
            if (lower && less != other) {
                room[asked++] = (sl_comparison){.odds = sl_blocks_odds(&colour[c], less, other),
                                                .colour = c,
                                                .less = less,
                                                .other = other};
            }
        }
    }
    const double alike = weigh(colour, room, asked);
    sl_comparisons_together(room, asked);
    for (int i = 0; i < asked && room[i].together < SL_FALSE_BEFORE; i++) {
        const sl_comparison *const of = &room[i];
        const sl_blocks *const at = &colour[of->colour];
        before[(of->colour * n + of->less) * n + of->other] =
            at->mean[of->other] - at->mean[of->less] > at->least_apart + ROUNDING;
    }
    return alike;
}

double sl_blocks_least_told(const sl_blocks *colour, int n_colours, const bool *before, double from)
{
    const int n = n_colours > 0 ? colour[0].n_strips : 0;
    for (int i = 0; i < n_colours * n * n; i++) {
        const double *const mean = colour[i / (n * n)].mean;
        from = before[i] ? fmin(from, mean[i % n] - mean[i / n % n]) : from;
    }
    return from;
}

void sl_strip_places(const sl_blocks *blocks, const bool *before, int *place)
{
    const int n = blocks->n_strips;
    int turn[SL_MAX_ARMS];
    for (int k = 0; k < n; k++) {
        turn[k] = blocks->n[k] > 0 ? 1 : 0;
    }
    sl_turns_by_chain(before, n, turn);
    for (int one = 0; one < n; one++) {
        for (int other = 0; other < n; other++) {
            if (turn[other] > 0 && turn[one] > turn[other] && blocks->mean[other] >= blocks->mean[one]) {
                turn[one] = turn[other];
            }
        }
    }
    sl_places_by_turn(turn, n, place);
}
