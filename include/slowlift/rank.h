/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which arm does best in which colour, and how sure that is. Every arm is read after the same
 * time on hair and at the same colour left, for every member of an ensemble (the draws of
 * spread.h): always of hair rinsed at that moment, washed as planned and dry, as a goal minute is
 * (limits.h). Definitions: docs/science.md, "Comparing strips".
 *
 * Invariant: all counts are whole numbers, so the result does not depend on the threads.
 */
#ifndef SLOWLIFT_RANK_H
#define SLOWLIFT_RANK_H

#include "slowlift/spread.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* Readings of an arm in a zone; shares are counted in thousandths. */
typedef enum sl_standing_of {
    SL_LEFT_THEN, /* colour left of hair rinsed at the minute */
    SL_BASE_THEN, /* base moved and cystine lost then, in the zone's own hair */
    SL_STRESS_THEN,
    SL_BASE_GONE, /* the same two of hair rinsed so that the zone is down to the share */
    SL_STRESS_GONE,
    SL_STANDINGS
} sl_standing_of;
enum { SL_THOUSANDTHS = 1001 };
/* How two arms are compared beside those: the members in which both get there, the arm later than the other;
 * and those of them in which it has moved the base less, or hurt the hair less. */
enum { SL_SLOWER = SL_STANDINGS, SL_SLOWER_LESS_BASE, SL_SLOWER_LESS_STRESS, SL_PAIRINGS };

typedef struct sl_middle {
    double p10, p50, p90;
} sl_middle;

typedef struct sl_standing {
    long members;
    long gone;                                    /* members in which the share is reached */
    uint32_t count[SL_STANDINGS][SL_THOUSANDTHS]; /* *_GONE: only members in which it is */
} sl_standing;

typedef struct sl_rank_request {
    double minute;              /* from each arm's contact */
    double share;               /* colour left at which arms meet, above 0 and below 1 */
    long first_member, members; /* the first a multiple of 16 */
    uint64_t seed;
    int threads; /* >= 1 */
    /* Called now and then from one thread; false stops. NULL = none. */
    bool (*go_on)(void *self, long done, long all);
    void *self;
} sl_rank_request;

typedef struct sl_rank {
    sl_rank_request request;
    long members; /* that were counted */
    bool stopped; /* partial: go_on said stop */
    int n_arms, n_zones;
    bool *ranked;          /* [arm][zone] a mix inside the model and a direct dye */
    sl_standing *standing; /* [arm][zone] */
    uint32_t *before; /* [zone][pairing][arm][other] members in which the arm has less than the other, or is
                         slower */
    sl_draw_plan plan;
} sl_rank;

bool sl_rank_run(sl_rank **rank, const sl_scene *scene, const sl_rank_request *request, sl_error *error);
/* Counts of others of its members, with the same question about the same scene. */
void sl_rank_add(sl_rank *sum, const sl_rank *part);
void sl_rank_free(sl_rank *rank); /* NULL is allowed */
bool sl_rank_has(const sl_rank *rank, int arm, int zone);
sl_middle sl_rank_middle(const sl_rank *rank, int arm, int zone, sl_standing_of what);
/* The arm's place in this zone: 1 + the arms whose turn comes earlier (1, 2, 2, 4). A turn is the longest
 * chain of arms of which each is clearly before the next and the last before this one. Clearly: it has less
 * in nine of ten members (SL_CLEARLY), which share their draws. Equal places are ties, and arms that are
 * before each other in a circle have one place. For *_GONE a member in which an arm does not get there counts
 * as more, and an arm that gets there in fewer than half of the members has no place: 0. */
int sl_rank_place(const sl_rank *rank, int arm, int zone, sl_standing_of what);
/* Those of every arm, worked out once: what a list of them calls. */
void sl_rank_zone_places(const sl_rank *rank, int zone, sl_standing_of what, int place[SL_MAX_ARMS]);
static const double SL_CLEARLY = 0.9; /* share of the members (assumed) */
/* The same of any counts, before[arm][other] of so many members; place[n], 0 where has[n] is false. n <= 32.
 */
void sl_rank_places(const uint32_t *before, long members, int n, const bool *has, int *place);
/* Raises turn[b] to one more than the turn of all that lie before[a][b], chain by chain; before[n][n] has no
 * circles, and a strip of turn 0 is in none of it. */
void sl_turns_by_chain(const bool *before, int n, int *turn);
/* place[k]: 1 + how many have an earlier turn (1, 2, 2, 4); turn 0: it has none, and no place. */
void sl_places_by_turn(const int *turn, int n, int *place);

/* Whether slower was gentler: of the arms that get there in at least half of the members, the one that is
 * mostly the last beside the one that is mostly the first. */
typedef struct sl_gentler {
    int slow, fast;
    long both;                    /* members in which both get there, one later than the other */
    long slower;                  /*   the slow one later */
    long less_base, less_stress;  /*     and with less base moved, less cystine lost than the fast one */
} sl_gentler;
/* False: fewer than two get there. */
bool sl_rank_gentler(const sl_rank *rank, int zone, sl_gentler *found);

/* unbeaten[i]: no other has as little of both and less of one; of those that take out at least this share of
 * what the best of them does, since sparing the hair by doing nothing beats nobody. */
static const double SL_TAKES_OUT = 0.5; /* (assumed) */
void sl_unbeaten(const double *left, const double *stress, int n, bool *unbeaten);

/* ---- from the central values (readings.c) ------------------------------------------------- */

/* Three separate readings of one curve. */
typedef struct sl_three_readings {
    bool halved; /* speed: rinsed then half of the colour has gone, minutes from contact */
    double half_min;
    double end_left;    /* end point: colour left at the arm's end (sl_arm_end_min) */
    double selectivity; /* exponent of the colour over that of the base, both of hair rinsed so that the
                           share is reached, or at the end; -1: the base has not moved */
    bool at_share;
} sl_three_readings;
/* sl_timeline_rinse() comes first. */
sl_three_readings sl_three_readings_of(const sl_timeline *timeline, int arm, int zone, double share);

/* What brought the colour down, as parts of the mean exponent of the zone's dyes; of what a timeline shows at
 * that moment, be it hair under the mix or hair rinsed then (sl_timeline_rinsed). */
typedef struct sl_reason {
    double channel[SL_CHANNELS], washing;
    double reducing; /* by an agent, what has come back since not counted; 0 where nothing reduces */
    double sum;
} sl_reason;
sl_reason sl_reason_of(const sl_timeline *timeline, int arm, int zone, double time_min);

#pragma GCC visibility pop

#endif
