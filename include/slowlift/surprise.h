/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How odd an order is that was seen: one strip's swatches left less of a colour than another's. Counted are
 * the doubt in the numbers (members of an ensemble), how swatches of one strip scatter and how a judge slips.
 * Definitions: docs/science.md, "Comparing strips"; tables: docs/judged.md.
 *
 * Invariant: all sums are whole numbers, so the result does not depend on the threads.
 */
#ifndef SLOWLIFT_SURPRISE_H
#define SLOWLIFT_SURPRISE_H

#include "slowlift/spread.h"

#pragma GCC visibility push(default)

enum { SL_SEEING_SCATTERS = 8, SL_SEEING_SWATCHES = 32 };

/* How the swatches of two strips are looked at. */
typedef struct sl_seeing {
    int swatches[2]; /* of the one and of the other, 1..SL_SEEING_SWATCHES; each is looked at once */
    bool read;       /* by an instrument; else graded (observation.h) */
    sl_judge judge;  /* who grades */
    int n_scatters;  /* 1: it is known, or taken to be; more: compare.h, sl_scatter */
    double
        scatter[SL_SEEING_SCATTERS]; /* of swatches of one strip, share of colour left (standard deviation) */
    double chance[SL_SEEING_SCATTERS]; /* of each; sum 1 */
} sl_seeing;

/* Of swatches that scatter as is assumed (promise.h), and a judge of whom nothing is known. */
sl_seeing sl_seeing_usual(int swatches, bool read);
/* Scatter of a swatch's grade, mean of so many looks at it, about a strip of which so much is left and whose
 * swatches scatter so: share, standard deviation. looks 1 or more. */
double sl_graded_sd(const sl_judge *judge, double left, double scatter, double looks);

/* Chance that the mean of what is seen of the one is below that of the other, when so much is left of them;
 * grades may be equal, and then it is not. */
double sl_seeing_chance(const sl_seeing *seeing, double one, double other);

/* What is said of an order that so many tests show. */
typedef enum sl_oddity { SL_ODD_NOISE, SL_ODD_RARE, SL_ODD_LACKS } sl_oddity;
/* At least the first is ordinary noise, less than the second (SL_SURPRISE_SHARE, observation.h) means that
 * the model lacks something. */
static const double SL_ODD_ORDINARY = 0.1; /* (assumed) */
sl_oddity sl_oddity_of(double chance);
const char *sl_oddity_word(sl_oddity oddity);     /* for machines: "noise", "rare", "lacks" */
const char *sl_oddity_sentence(sl_oddity oddity); /* to be translated */

typedef struct sl_surprise_request {
    int zone, one, other; /* `one` is seen with less colour left in the zone than `other` */
    double minute[2];     /* hair of the one, and of the other, rinsed then; from contact */
    sl_seeing seeing;
    long members;
    uint64_t seed;
    int threads; /* >= 1 */
    /* Called now and then from one thread; false stops. NULL = none. */
    bool (*go_on)(void *self, long done, long all);
    void *self;
} sl_surprise_request;

static const int64_t SL_SEEN_SURELY = INT64_C(1) << 30; /* the unit in which chances are summed */
typedef struct sl_surprise {
    sl_surprise_request asked;
    sl_draw_plan plan;
    long members; /* that were counted */
    long shown;   /* in which less is left, whatever is seen */
    int64_t seen; /* sum of the chances that it is seen so */
    long in_bin[SL_MOST_DRAWN][SL_INDEX_BINS];
    int64_t seen_in_bin[SL_MOST_DRAWN][SL_INDEX_BINS];
} sl_surprise;

/* Fails: as sl_rank_run(), and where one of the two has no mix inside the model or no direct dye there. */
bool sl_surprise_run(sl_surprise **surprise, const sl_scene *scene, const sl_surprise_request *request,
                     sl_error *error);
void sl_surprise_free(sl_surprise *surprise); /* NULL is allowed */
/* In how many of such tests it is seen, 0..1. */
double sl_surprise_chance(const sl_surprise *surprise);
/* First-order index of a draw on whether it is seen, 0..1. */
double sl_surprise_index(const sl_surprise *surprise, int drawn);

#pragma GCC visibility pop

#endif
