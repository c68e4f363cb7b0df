/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips in blocks: their means and how far they scatter, which of them lie before which, and places.
 * Definitions and sources: docs/science.md, "Comparing what was seen".
 *
 * A block is what was mixed and put on together, once for each strip (randomised complete block; swatches may
 * be missing, or stand twice). What a block has in common is no scatter: value = strip + block + scatter.
 */
#ifndef SLOWLIFT_BLOCKS_H
#define SLOWLIFT_BLOCKS_H

#include <stdbool.h>

#include "slowlift/model.h"

#pragma GCC visibility push(default)

typedef struct sl_block_value {
    int strip, block; /* from 0 */
    double value;
} sl_block_value;

typedef struct sl_blocks {
    int n_strips, n[SL_MAX_ARMS]; /* values of each */
    bool blocked;                 /* false: the blocks do not join all strips, or nothing would be left
                                     that scatters; they count as one */
    double mean[SL_MAX_ARMS];     /* as over all blocks alike; of a strip without values: 0 */
    int freedom;                  /* 0: nothing was repeated */
    double sd;                    /* of one value about its strip and block; -1 for freedom 0 */
    double calm_sd, calm_freedom; /* of differences: as sd and freedom, until colours share what they know */
    double alone_sd, alone_freedom;        /* the same with what blocks differ by, for a mean read alone
                                              (Satterthwaite 1946, Biometrics Bulletin 2, 110-114) */
    double of_strips, of_blocks, within;   /* sums of squares: strips beside blocks, blocks alone, scatter */
    double part[SL_MAX_ARMS][SL_MAX_ARMS]; /* covariance of two means over sd * sd */
    double least_sd[SL_MAX_ARMS]; /* scatter counts as no less at this strip; 0 unless the caller says */
    const double *odds;           /* borrowed, [n_strips][n_strips]: in place of those by sd; NULL: by sd */
    double least_apart;           /* a smaller difference is none; the same */
    bool beside;                  /* told beside what the test is about (SL_BESIDE_SHARE); the same */
} sl_blocks;

/* Least squares. value: [n], by rising block; strips 0..n_strips - 1, at most SL_MAX_ARMS. */
void sl_blocks_of(sl_blocks *blocks, const sl_block_value *value, int n, int n_strips);

/* Colours of one test scatter alike, as far as their own scatters bear it out: calm_sd and calm_freedom of
 * each by the moderated t of Smyth (2004, Statistical Applications in Genetics and Molecular Biology 3, 3). A
 * scatter counts as no less than the smallest least_sd of its colour. */
void sl_blocks_calm(sl_blocks *colour, int n_colours);
/* Half width of the interval of a strip's mean at confidence p, by Student's t with all scatter pooled; -1
 * for a strip without values, or freedom 0. */
double sl_blocks_half(const sl_blocks *blocks, int strip, double p);
/* The same of the difference of two strips, each with values. */
double sl_blocks_apart_half(const sl_blocks *blocks, int one, int other, double p);
/* How often two strips that are alike would lie at least so far apart (two-sided), by the same; 1 where
 * nothing can be told. */
double sl_blocks_odds(const sl_blocks *blocks, int one, int other);

/* One of many questions. */
typedef struct sl_comparison {
    double odds;             /* of one alone, 0..1 */
    double weight;           /* how much it counts for among the others; 0: 1 */
    double together;         /* filled in: that any of them is answered so by chance */
    int colour, less, other; /* the caller's */
} sl_comparison;
/* Holm's step down, weighted (Holm 1979, Scandinavian Journal of Statistics 6, 65-70): sorts them by rising
 * odds over their weights. */
void sl_comparisons_together(sl_comparison *question, int n);

/* In so many of all tests may anything be told that is not so. */
static const double SL_FALSE_BEFORE = 0.05;
/* What stands beside may take so much of that at first, however many questions it asks: hair that is read
 * costs colours little. */
static const double SL_BESIDE_SHARE = 0.2;
/* What lies before what, over all colours of a test together, and all else that is read of it: the mean is
 * lower by more than least_apart, and chance alone would tell any such in fewer than SL_FALSE_BEFORE of
 * tests. room: as many questions as there are pairs of strips in all colours. before:
 * [n_colours][n_strips][n_strips]; of colour c, strip i before strip k: before[(c * n_strips + i) * n_strips
 * + k]. Returns as how many alike a question counts for that is not beside: as there are, or more. */
double sl_before_together(const sl_blocks *colour, int n_colours, sl_comparison *room, bool *before);
/* The difference of two strips from which on it is told, as the first of so many comparisons; -1: never. */
double sl_blocks_told_from(const sl_blocks *blocks, int one, int other, double comparisons);
/* The less of a difference from which on strips are told apart, and of what was told: once something is told,
 * less is enough for the rest. */
double sl_blocks_least_told(const sl_blocks *colour, int n_colours, const bool *before, double from);
/* Places by turns (sl_places_by_turn) of which none is later than that of a strip with more left; 0: no
 * value. before: of this colour. */
void sl_strip_places(const sl_blocks *blocks, const bool *before, int *place);

#pragma GCC visibility pop

#endif
