/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Means over swatches at the end or at a minute, and how far one swatch counts as scattering. See looks.h.
 */
#include <math.h>

#include "log/compare/looks.h"

bool sl_compare_ranks(const sl_compare *compare, int arm, int zone)
{
    return arm >= 0 && !compare->scene->arms[arm].undyed && compare->scene->zones[zone].recipe.n_dyes > 0;
}

double sl_swatch_left(const sl_compare *compare, int swatch, int zone, sl_basis basis, int at_min,
                      double *to_planned)
{
    const sl_seen_bench *const bench = &compare->bench[swatch];
    if (at_min >= 0) {
        *to_planned = bench->piece_to_planned[zone];
        return sl_swatch_at(compare, swatch, zone, basis, at_min);
    }
    const sl_seen_group *const end = sl_looks_find(compare, swatch, zone, SL_NOT_READ, SL_NOT_READ);
    *to_planned = bench->to_planned[zone];
    return end ? end->left[basis] : SL_NOT_READ;
}

/* A colour difference that a hair's being laid anew makes by itself. */
static const double STILL_NOISE_DE = 2.0; /* dE*ab (assumed; docs/science.md) */

/* That difference over the colour a zone's looks began with; 0 of grades, whose steps depend on what is
 * left. */
static double still_noise(const sl_compare *compare, int zone, sl_basis basis)
{
    double sum = 0.0;
    int n = 0;
    for (int i = 0; basis == SL_BASIS_COLOUR && i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->zone == zone && group->left[SL_BASIS_COLOUR] > SL_NOT_READ) {
            sum += group->start;
            n++;
        }
    }
    return n > 0 ? STILL_NOISE_DE * n / sum : 0.0;
}

static double least_sd(const sl_compare *compare, sl_basis basis, double noise, double left)
{
    if (compare->asked_floor >= 0.0) {
        return 0.0;
    }
    return basis == SL_BASIS_COLOUR ? 0.5 * noise : fmax(0.5 * sl_wipe_step(left), compare->repeat_sd);
}

double sl_compare_least_sd(const sl_compare *compare, int zone, double left)
{
    const sl_basis basis = compare->basis[zone];
    return least_sd(compare, basis, still_noise(compare, zone, basis), left);
}

/* Swatches lie in the log by block. */
int sl_compare_values(const sl_compare *compare, int zone, sl_basis basis, int at_min, bool planned,
                      sl_block_value *value)
{
    int n = 0;
    if (planned && !sl_compare_has_planned(compare)) {
        return 0;
    }
    for (int i = 0; i < compare->n_swatches; i++) {
        const int arm = compare->bench[i].arm;
        double to_planned = 1.0;
        const double left = sl_compare_ranks(compare, arm, zone)
                                ? sl_swatch_left(compare, i, zone, basis, at_min, &to_planned)
                                : SL_NOT_READ;
        if (left > SL_NOT_READ) {
            value[n++] =
                (sl_block_value){arm, compare->swatches[i].block, left * (planned ? to_planned : 1.0)};
        }
    }
    return n;
}

void sl_compare_means(const sl_compare *compare, int zone, sl_basis basis, int at_min, bool planned,
                      sl_blocks *blocks, sl_seen_mean mean[SL_MAX_ARMS])
{
    sl_block_value value[SL_BENCH_MOST];
    const int n = sl_compare_values(compare, zone, basis, at_min, planned, value);
    const double noise = still_noise(compare, zone, basis);
    sl_blocks_of(blocks, value, n, compare->scene->n_arms);
    blocks->least_apart = fmax(compare->asked_floor, 0.0);
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        double own[SL_BENCH_MOST];
        int n_own = 0;
        for (int i = 0; i < n; i++) {
            own[n_own] = value[i].value;
            n_own += value[i].strip == arm ? 1 : 0;
        }
        sl_seen_mean *const of = &mean[arm];
        *of = sl_seen_mean_of(own, n_own);
        of->mean = n_own > 0 ? blocks->mean[arm] : SL_NOT_READ;
        blocks->least_sd[arm] = least_sd(compare, basis, noise, blocks->mean[arm]);
        of->half = sl_blocks_half(blocks, arm, 0.95);
        of->half +=
            of->half >= 0.0 && basis == SL_BASIS_GRADE ? sl_wipe_lean(&SL_JUDGE_USUAL, of->mean) : 0.0;
    }
}

sl_seen_mean sl_compare_at(const sl_compare *compare, int arm, int zone, int minute)
{
    sl_blocks blocks;
    sl_seen_mean mean[SL_MAX_ARMS];
    sl_compare_means(compare, zone, compare->basis[zone], minute, false, &blocks, mean);
    return mean[arm];
}
