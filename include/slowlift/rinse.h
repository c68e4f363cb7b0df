/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each arm's hair is like once it is rinsed, over the members of an ensemble: rinsed at a minute of the
 * arm's own, or whenever one zone is down to a share of its colour; always washed as planned and dry. And who
 * gets there first, and at what price. The members are those of a spread (spread.h), weighed as they are
 * there by what was seen.
 *
 * Invariant: all sums are whole numbers, so the result does not depend on the threads.
 */
#ifndef SLOWLIFT_RINSE_H
#define SLOWLIFT_RINSE_H

#include "slowlift/rank.h"
#include "slowlift/spread.h"

#pragma GCC visibility push(default)

/* How two arms are compared, at the share of colour that is asked of a zone. */
typedef enum sl_sooner {
    SL_SOONER_GONE,
    SL_LESS_BASE,
    SL_LESS_STRESS,
    SL_SLOWER_THERE,           /* both get there, the arm later than the other */
    SL_SLOWER_THERE_LESS_BASE, /*   and with less base moved */
    SL_SOONERS
} sl_sooner;

typedef struct sl_rinse_request {
    const sl_spread *spread;      /* borrowed: whose members are read */
    long first_member, members;   /* this part of them; members 0: all from the first on */
    double minute[SL_MAX_ARMS];   /* from the arm's contact; below 0: the arm is left out */
    int base_zone[SL_MAX_ARMS];   /* whose base and stress are an arm's */
    double last_min[SL_MAX_ARMS]; /* nothing later counts as in time; HUGE_VAL: no end */
    int same_zone; /* each arm is rinsed when this one is down to its share; -1: at its minute */
    int threads;   /* >= 1 */
    bool (*go_on)(void *self, long done, long all); /* as in spread.h */
    void *self;
} sl_rinse_request; /* start with {0} */

typedef struct sl_rinse {
    sl_rinse_request request;
    long members; /* that were read */
    bool stopped; /* partial: go_on said stop */
    int n_arms, n_zones;
    double share[SL_MAX_ZONES]; /* of each zone's colour, at which arms are compared: its goal, else a half */
    uint64_t total;             /* sum of the members' weights: all counts below are of it */
    uint64_t *left;             /* [arm][zone][SL_THOUSANDTHS] colour left */
    uint64_t *base, *stress;    /* [arm][SL_THOUSANDTHS] base moved and cystine lost in its base_zone */
    uint64_t *counted;          /* [arm] members rinsed: with same_zone, only those that get there */
    uint64_t *in_time;          /* [arm][zone] members whose zone is at its share before the first limit */
    uint64_t *gone;             /* [arm][zone] members whose zone ever gets there */
    uint64_t *sooner;           /* [zone][SL_SOONERS][arm][other] */
} sl_rinse;

/* Whether an arm is read: a mix inside the model, and a minute. */
bool sl_rinse_has(const sl_rinse *rinse, const sl_scene *scene, int arm);
/* Whether a zone of the arm holds dye that can be compared with another arm's. */
bool sl_rinse_compares(const sl_rinse *rinse, const sl_scene *scene, int arm, int zone);

/* Fails: SL_ERR_NO_MEMORY; SL_ERR_NOT_FINITE with the member's number. */
bool sl_rinse_run(sl_rinse **rinse, const sl_scene *scene, const sl_rinse_request *request, sl_error *error);
void sl_rinse_free(sl_rinse *rinse); /* NULL is allowed */
/* Of the same request, but for which members: add what other members read. */
void sl_rinse_add(sl_rinse *sum, const sl_rinse *part);

/* p10, p50, p90; -1 where no member was counted. */
sl_middle sl_rinse_left(const sl_rinse *rinse, int arm, int zone);
sl_middle sl_rinse_base(const sl_rinse *rinse, int arm);
sl_middle sl_rinse_stress(const sl_rinse *rinse, int arm);
/* Shares of the members, 0..1. */
double sl_rinse_in_time(const sl_rinse *rinse, int arm, int zone);
double sl_rinse_gone(const sl_rinse *rinse, int arm, int zone);
double sl_rinse_there(const sl_rinse *rinse, int arm);
double sl_rinse_sooner(const sl_rinse *rinse, int zone, sl_sooner what, int arm, int other);

#pragma GCC visibility pop

#endif
