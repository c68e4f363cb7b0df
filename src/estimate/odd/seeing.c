/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is seen of swatches that scatter, by an instrument or by a judge; see surprise.h.
 */
#include "slowlift/surprise.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/promise.h"

sl_seeing sl_seeing_usual(int swatches, bool read)
{
    return (sl_seeing){.swatches = {swatches, swatches},
                       .read = read,
                       .judge = SL_JUDGE_USUAL,
                       .n_scatters = 1,
                       .scatter = {SL_SWATCH_SPREAD},
                       .chance = {1.0}};
}

/* ---- grades ------------------------------------------------------------------------------------------- */

/* Grades stand for whole twentieths and tenths of a half: sums of them are whole numbers of these. */
enum { PARTS = 20, MOST_SUM = PARTS * SL_SEEING_SWATCHES };

/* Swatches by what is left of them: at nothing and all, where what scatters beyond ends, and between, of
 * whose square root the judge's chances are smooth, by Simpson's rule over 5 scatters to either side. */
enum { BETWEEN = 41, NODES = BETWEEN + 2 };
typedef struct nodes {
    double left[NODES], weight[NODES]; /* sum 1 */
} nodes;

static void nodes_of(double left, double scatter, nodes *of)
{
    const double from = sqrt(fmin(fmax(left - 5.0 * scatter, 0.0), 1.0));
    const double to = sqrt(fmin(fmax(left + 5.0 * scatter, 0.0), 1.0)), h = (to - from) / (BETWEEN - 1);
    double sum = 0.0;
    memset(of, 0, sizeof *of);
    of->left[BETWEEN + 1] = 1.0;
    if (scatter > 0.0) {
        of->weight[BETWEEN] = gsl_cdf_ugaussian_P(-left / scatter);
        of->weight[BETWEEN + 1] = gsl_cdf_ugaussian_Q((1.0 - left) / scatter);
    } else {
        of->left[BETWEEN] = left;
        of->weight[BETWEEN] = 1.0;
    }
    for (int i = 0; i < BETWEEN && scatter > 0.0; i++) {
        const double root = from + i * h, simpson = i == 0 || i == BETWEEN - 1 ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        of->left[i] = root * root;
        of->weight[i] = simpson * h / 3.0 * 2.0 * root * gsl_ran_gaussian_pdf(of->left[i] - left, scatter);
    }
    for (int i = 0; i < NODES; i++) {
        sum += of->weight[i];
    }
    for (int i = 0; i < NODES; i++) {
        of->weight[i] /= sum;
    }
}

/* chance[g]: that a swatch of a strip of which so much is left is given this grade. */
static void grades_of(const sl_judge *judge, double left, double scatter, double chance[SL_WIPES])
{
    nodes of;
    nodes_of(left, scatter, &of);
    memset(chance, 0, SL_WIPES * sizeof *chance);
    for (int i = 0; i < NODES; i++) {
        for (int g = 0; g < SL_WIPES && of.weight[i] > 0.0; g++) {
            chance[g] += of.weight[i] * sl_wipe_chance(judge, (sl_wipe)g, of.left[i]);
        }
    }
}

double sl_graded_sd(const sl_judge *judge, double left, double scatter, double looks)
{
    double mean = 0.0, square = 0.0, own_square = 0.0;
    nodes of;
    nodes_of(left, scatter, &of);
    for (int i = 0; i < NODES; i++) {
        double own = 0.0;
        for (int g = 0; g < SL_WIPES; g++) {
            const double share = sl_wipe_share((sl_wipe)g);
            const double chance = sl_wipe_chance(judge, (sl_wipe)g, of.left[i]);
            own += chance * share;
            square += of.weight[i] * chance * share * share;
        }
        mean += of.weight[i] * own;
        own_square += of.weight[i] * own * own;
    }
    const double of_judge = square - own_square; /* of one look about its swatch */
    return sqrt(square - mean * mean - of_judge * (1.0 - 1.0 / looks));
}

/* sum[k]: chance that n grades add up to k parts. */
static void sums_of(const double chance[SL_WIPES], int n, double sum[MOST_SUM + 1])
{
    memset(sum, 0, (MOST_SUM + 1) * sizeof *sum);
    sum[0] = 1.0;
    for (int i = 0; i < n; i++) {
        for (int k = PARTS * i; k >= 0; k--) {
            const double here = sum[k];
            sum[k] = 0.0;
            for (int g = 0; g < SL_WIPES && here > 0.0; g++) {
                sum[k + lround(PARTS * sl_wipe_share((sl_wipe)g))] += here * chance[g];
            }
        }
    }
}

static double graded_below(const sl_seeing *seeing, double scatter, double one, double other)
{
    double chance[SL_WIPES], of_one[MOST_SUM + 1], of_other[MOST_SUM + 1];
    grades_of(&seeing->judge, one, scatter, chance);
    sums_of(chance, seeing->swatches[0], of_one);
    grades_of(&seeing->judge, other, scatter, chance);
    sums_of(chance, seeing->swatches[1], of_other);
    double below = 0.0, sum = 0.0; /* of the one, that its mean is below this one of the other */
    for (int k = 0, at = 0; k <= PARTS * seeing->swatches[1]; k++) {
        for (; at <= PARTS * seeing->swatches[0] && at * seeing->swatches[1] < k * seeing->swatches[0];
             at++) {
            below += of_one[at];
        }
        sum += of_other[k] * below;
    }
    return sum;
}

/* ---- the chance --------------------------------------------------------------------------------------- */

static double read_below(const sl_seeing *seeing, double scatter, double one, double other)
{
    const double sd = scatter * sqrt(1.0 / seeing->swatches[0] + 1.0 / seeing->swatches[1]);
    return sd > 0.0 ? gsl_cdf_ugaussian_P((other - one) / sd) : one < other ? 1.0 : 0.0;
}

double sl_seeing_chance(const sl_seeing *seeing, double one, double other)
{
    double sum = 0.0;
    for (int i = 0; i < seeing->n_scatters; i++) {
        const double scatter = seeing->scatter[i];
        sum += seeing->chance[i] * (seeing->read ? read_below(seeing, scatter, one, other)
                                                 : graded_below(seeing, scatter, one, other));
    }
    return sum;
}

sl_oddity sl_oddity_of(double chance)
{
    return chance >= SL_ODD_ORDINARY     ? SL_ODD_NOISE
           : chance >= SL_SURPRISE_SHARE ? SL_ODD_RARE
                                         : SL_ODD_LACKS;
}

const char *sl_oddity_word(sl_oddity oddity)
{
    static const char *const words[] = {"noise", "rare", "lacks"};
    return words[oddity];
}

const char *sl_oddity_sentence(sl_oddity oddity)
{
    static const char *const sentences[] = {N_("That is ordinary noise."), N_("That is rare."),
                                            N_("So seldom that the model lacks something.")};
    return sentences[oddity];
}
