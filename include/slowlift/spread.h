/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What doubt in the numbers does to the answer. Every uncertain constant is drawn from a
 * distribution as wide as its grade is weak; each member of the ensemble is one set of
 * draws, carried through all arms alike; early and late limits are found for each and
 * counted in histograms of one second. Members' histories are never kept.
 *
 * Invariant: all sums are whole numbers, so the result does not depend on how the members
 * were shared out among threads or shards, to the byte.
 */
#ifndef SLOWLIFT_SPREAD_H
#define SLOWLIFT_SPREAD_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/doubt.h"
#include "slowlift/error.h"
#include "slowlift/limits.h"
#include "slowlift/model.h"
#include "slowlift/observation.h"

#pragma GCC visibility push(default)

/* How many members every answer counts, and the seed of their draws, unless somebody asks for others: a
 * verdict is a threshold on odds, so another number may be another answer. The 95 % interval of odds is then
 * at most 4.4 points wide. */
enum { SL_MEMBERS = 2000, SL_SEED = 1 };
/* Every doubt, and every dye that a scene can hold. */
enum {
    SL_MOST_DRAWN = SL_DOUBTS + 2 * SL_CHANNELS + SL_MAX_ZONES * SL_MAX_DYES_PER_ZONE * (3 + SL_CHANNELS),
    SL_INDEX_BINS = 20
};

/* One thing that is drawn. */
typedef struct sl_drawn {
    sl_doubt doubt;
    int dye;       /* SL_DOUBT_DYE, _DYE_BY, _REDUCED, _RETURN: index into scene->dyes */
    double spread; /* K: 95 % within plus or minus this; SL_OWN_WIDTH; else a factor as sl_grade_factor() */
    sl_grade grade;
    int channel;  /* SL_DOUBT_*_BY: which; else nothing */
    double share; /* SL_DOUBT_*_BY: that it has by the scene's numbers where the target was fitted, 0..1;
                     those of a target sum to 1; else 0 */
} sl_drawn;

typedef struct sl_draw_plan {
    int n;
    sl_drawn drawn[SL_MOST_DRAWN];
} sl_draw_plan;

/* What is drawn for a scene, from the grades of its numbers. */
sl_draw_plan sl_draw_plan_of(const sl_scene *scene);

/* What is drawn, in words ("the pH of the mixes"), and how to know it better. */
const char *sl_doubt_word(sl_doubt doubt);
/* Whether it is of one dye, and of one channel. */
bool sl_drawn_of_dye(const sl_drawn *drawn);
bool sl_drawn_of_channel(const sl_drawn *drawn);
const char *sl_doubt_measure(sl_doubt doubt);

typedef struct sl_spread_request {
    long first_member, members; /* this shard's part of the draws */
    uint64_t seed;
    int threads; /* >= 1 */
    /* Called now and then from one thread; false stops. NULL = none. */
    bool (*go_on)(void *self, long done, long all);
    void *self;
    const sl_observations *observations; /* what was seen so far; NULL or none: members weigh alike */
} sl_spread_request;

/* Counts of one arm: members, or sums of their weights. Histograms have one bin a second from contact, and a
 * last one for "never in this scene". */
typedef struct sl_arm_spread {
    bool asked;                            /* false: no mix, outside the model, or no aims */
    uint64_t *early;                       /* [seconds + 1] every target zone is at its goal */
    uint64_t *open_early;                  /* [seconds + 1] the same of the open members alone */
    uint64_t *late;                        /* [seconds + 1] the first limit */
    int64_t open;                          /* members with early < late */
    int64_t late_by[SL_STOPS];             /* which limit that was */
    uint64_t *last_zone;                   /* [n_zones] zone that decided the early limit */
    uint64_t left_hundredths[101];         /* colour left in the deciding zone at the late limit, % */
    int64_t (*index_count)[SL_INDEX_BINS]; /* [plan.n] members by bin of each draw */
    int64_t (*index_sum_s)[SL_INDEX_BINS]; /* [plan.n] sum of (late - early), seconds */
    int64_t (*index_open)[SL_INDEX_BINS];  /* [plan.n] those of them with early < late */
    int64_t sum_s, square_s2;              /* of late - early over all members */
} sl_arm_spread;

/* How the members took what was seen. */
typedef struct sl_seen {
    sl_observations observations;
    int scale;                        /* a weight is its agreement, times 2 to this, rounded */
    int64_t weight, square;           /* sums of the weights and of their squares */
    long capped;                      /* members whose weight was cut to SL_MOST_WEIGHT */
    long agree[SL_MOST_OBSERVATIONS]; /* members that agree with this one thing */
    long agree_all;                   /*   with each of them */
} sl_seen;
/* A weight is cut above the first; the best of so many first members sets the scale. */
enum { SL_MOST_WEIGHT = 16384, SL_PILOT_MEMBERS = 1024, SL_MOST_RANGES = 512 };

typedef struct sl_member_range {
    long first, members;
} sl_member_range;

typedef struct sl_spread {
    long members; /* that were counted */
    long asked_for;
    bool stopped; /* partial: go_on said stop */
    uint64_t seed;
    int n_ranges;                          /* 0 when stopped */
    sl_member_range range[SL_MOST_RANGES]; /* the members counted, ascending, with gaps between */
    sl_seen seen;
    sl_arm_spread *weighed; /* [n_arms] as arms below, by weight; NULL when nothing was seen */
    int seconds;            /* bins of a histogram, without the last */
    int n_arms, n_zones;
    sl_draw_plan plan;
    sl_arm_spread *arms; /* [n_arms] each member once */
} sl_spread;

/* Run this request. Fails: SL_ERR_NO_MEMORY; SL_ERR_NOT_FINITE with the member's number when
 * one leaves its range (no such member is dropped). */
bool sl_spread_run(sl_spread **spread, const sl_scene *scene, const sl_spread_request *request,
                   sl_error *error);
void sl_spread_free(sl_spread *spread); /* NULL is allowed */
/* Add another shard's counts; false when they are of another scene, plan, seed or things seen, or
 * hold members that are already in the sum. */
bool sl_spread_add(sl_spread *sum, const sl_spread *part, sl_error *error);

/* What an answer is read from: by weight once something was seen. */
const sl_arm_spread *sl_spread_arm(const sl_spread *spread, int arm);
int64_t sl_spread_total(const sl_spread *spread); /* that the counts of sl_spread_arm sum to */
/* As many members of equal weight would say as much: sum^2 / sum of squares (Kish 1965). */
double sl_spread_effective(const sl_spread *spread);

/* The p-quantile (0..1) of a histogram in minutes from contact; -1 when it falls in the last
 * bin ("never"). total: what the bins sum to. */
double sl_spread_quantile(const uint64_t *histogram, int seconds, int64_t total, double p);
/* Share of the members with early < late among those whose draw lies in `bins` of SL_INDEX_BINS from `first`
 * on; -1 where there are none. */
double sl_spread_odds_within(const sl_spread *spread, int arm, int drawn, int first, int bins);
/* First-order variance-based index of a draw on (late - early), 0..1, from the bins. */
double sl_spread_index(const sl_spread *spread, int arm, int drawn);

/* The uniform draw of a member, 0 < u < 1: counter-based, the same on every machine. */
double sl_draw(uint64_t seed, long member, int drawn);

#pragma GCC visibility pop

#endif
