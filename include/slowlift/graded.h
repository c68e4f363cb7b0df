/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wipe grades as what they are, an order: strips compared by the order of their grades, beside the means of
 * blocks.h. The square root of a swatch's share left is strip + block + its own scatter; a judge sees that
 * and says a grade (observation.h). Definitions and sources: docs/science.md, "Comparing what was seen".
 *
 * Invariant: a strip lies in 0..1, so that grades at the ends of the scale stay finite.
 */
#ifndef SLOWLIFT_GRADED_H
#define SLOWLIFT_GRADED_H

#include "slowlift/blocks.h"
#include "slowlift/observation.h"

#pragma GCC visibility push(default)

/* Looks of one judge at one swatch that got one grade. */
typedef struct sl_graded_look {
    int swatch, strip, block; /* from 0; looks by rising swatch, which is of one strip and block */
    sl_wipe wipe;
    double many;
    const sl_judge *judge;
} sl_graded_look;

typedef struct sl_graded_colour {
    const sl_graded_look *look; /* [n] */
    int n;
    bool blocked; /* blocks join all strips (sl_blocks) */
} sl_graded_colour;

/* How much scatters in a colour, of the root of a share left. */
typedef struct sl_graded_scatter {
    double swatch, block; /* standard deviations: a swatch's own, and what a block has in common */
    double freedom;       /* of what a swatch scatters by, judges' errors with it */
} sl_graded_scatter;

/* colour, scatter: [n_colours]; colour as sl_blocks_of fills it, but of roots of shares left: mean, and its
 * covariance over sd * sd, so that sl_blocks_half, sl_blocks_odds, sl_before_together and sl_strip_places
 * tell what they tell of means. Nothing is told (freedom 0) where no strip has two swatches. False: no
 * memory. */
bool sl_graded_of(sl_blocks *colour, sl_graded_scatter *scatter, const sl_graded_colour *of, int n_colours,
                  int n_strips, sl_error *error);

/* ---- who looked ---------------------------------------------------------------------------------- */

/* So many judges of a test are told apart. */
enum { SL_JUDGES_MOST = 16 };

/* Grades of one lock at one moment. */
typedef struct sl_judge_looks {
    int lock, judge; /* rising */
    int grades[SL_WIPES];
} sl_judge_looks;

/* What looks of one judge, each time again at the same, tell of spread and lapse, beside what is assumed of
 * both: *judge from that of whom nothing is known. Where a lock lies is not known, each root of a share
 * alike. */
typedef struct sl_judge_learned {
    sl_judge judge;                 /* offset 0 */
    double spread_low, spread_high; /* 95 in 100 */
    bool lapse;                     /* told more by the looks than assumed */
} sl_judge_learned;
/* looks: [n], sorted anew. */
sl_judge_learned sl_judge_learn(sl_judge_looks *looks, int n);

/* How far each of several judges lies from their mean, of the root of a share, by looks of several at the
 * same; each root alike, as above. offset, error_of (standard): [n_judges], at most SL_JUDGES_MOST. looks:
 * [n], sorted anew. */
void sl_judges_offsets(sl_judge_looks *looks, int n, const sl_judge *judge, int n_judges, double *offset,
                       double *error_of);

#pragma GCC visibility pop

#endif
