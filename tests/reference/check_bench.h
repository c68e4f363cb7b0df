/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows of the table of checks, and a bench on which a mix is tried with the library, as it is or as a
 * null model would have it.
 */
#ifndef SLOWLIFT_TESTS_CHECK_BENCH_H
#define SLOWLIFT_TESTS_CHECK_BENCH_H

#include <math.h>
#include <stdbool.h>

#include "slowlift/estimate.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

enum { MOST_ROWS = 96, MOST_VALUES = 8, MOST_THINGS = 40 };

typedef struct check_bench check_bench;

/* A simple alternative: the program with one thing taken out of it. */
typedef struct check_null {
    const char *name;
    void (*alter)(check_bench *b); /* b->scene, b->mix, b->dyes, b->hairs; NULL: of a row not measured yet */
} check_null;

extern const check_null CHECK_NO_DAMAGE, CHECK_NO_LAYER, CHECK_NO_OPENING, CHECK_ONE_OPENING,
    CHECK_NO_SWELLING, CHECK_NO_PERSULFATE, CHECK_NO_PEROXIDE, CHECK_NO_LOSS, CHECK_LOSS_FIRST_ORDER,
    CHECK_NO_PH, CHECK_NO_TEMPERATURE, CHECK_NO_STRENGTH, CHECK_NO_SATURATION, CHECK_NO_WASHING,
    CHECK_ONE_PART, CHECK_DYES_ALIKE, CHECK_DAMAGE_BY_LIFT, CHECK_MELANINS_IN_STEP, CHECK_PEROXIDE_NO_ACID,
    CHECK_PH_CONSTANT, CHECK_NO_ALKALI, CHECK_NO_ASCORBATE, CHECK_AGENTS_ALIKE, CHECK_FIRST_ORDER,
    CHECK_NEVER_BACK, CHECK_NO_PERSULFATE_ITSELF, CHECK_NO_RADICALS, CHECK_PH_TYPED, CHECK_IONISED_TWICE,
    CHECK_NO_HEAT, CHECK_WARMS, CHECK_NO_PERCARBONATE, CHECK_AS_IN_WATER;

extern const check_null *const CHECK_NULLS[]; /* all of them, up to NULL */

/* What is asked of a value: from low to high, both allowed; an end that is CHECK_OPEN is none. */
#define CHECK_OPEN HUGE_VAL
typedef struct check_range {
    double low, high;
} check_range;

typedef struct check_row {
    const char *id, *kind, *target, *source;
    const char *unit; /* of every value, with a blank before it, or "" */
    int decimals, n;
    check_range range[MOST_VALUES];
    const char *why;      /* why this much is allowed */
    const char *evidence; /* why it is none; NULL: an outside number that no parameter was chosen for */
    const check_null *null;
    void (*measure)(check_bench *b, double *x); /* [n]; NULL: the model has no such part */
    const char *lacks;                          /* which part */
    bool held_out;                              /* a whole published series, none of it used */
} check_row;

/* What the program and its null model make of a row. */
typedef struct check_found {
    const check_row *row;
    double x[MOST_VALUES], null_x[MOST_VALUES];
    bool holds, null_holds;
} check_found;

typedef struct check_table {
    check_found found[MOST_ROWS];
    int n;
} check_table;

/* Measure rows and append what was found. */
void check_rows(check_table *t, check_bench *b, const check_row *rows, size_t n);
/* Measure a row by the model (NULL) or a null model; whether x is within what is allowed. */
bool check_measure(check_bench *b, const check_row *row, const check_null *null, double *x);
/* Whether a row says anything of the model: nobody saw its number before, and its null model fails it. */
bool check_is_evidence(const check_found *f);

/* L/(mol min), an azo dye with HO2- in water: the middle of 1e-2 to 1e-4 L/(mol s) (docs/science.md, "Dyes").
 */
#define CHECK_AZO_IN_WATER 0.06

/* Kinds of rows. */
extern const char CHECK_OUTSIDE[], CHECK_DIRECTION[], CHECK_TRADE[];

/* Rows R: what lessons rely on. */
typedef struct check_claim {
    const char *id, *target, *allowed, *evidence;
    char computed[200];
    bool holds;
} check_claim;

typedef struct check_claims {
    check_claim rows[16];
    int n;
} check_claims;

struct check_bench {
    sl_scene *loaded;
    sl_solver *solver;
    const check_null *null; /* NULL: the model as it is */
    bool warms;             /* a null's: mixes warm themselves; the model is held at a temperature */
    sl_scene scene;         /* borrows all of `loaded` but what follows */
    sl_arm arm;
    sl_mix mix;
    sl_dye dyes[MOST_THINGS];
    sl_hair hairs[MOST_THINGS];
    sl_timeline *timeline;
};

typedef struct check_trial {
    const char *mix; /* of the check scene; "bath" = 6 % peroxide alone, much liquid */
    double pct, ph;  /* 0 = as the mix has it */
    double age_min, celsius, minutes;
    int sessions;          /* 0 or 1: one; more: with a rinse between */
    int shampoos;          /* after the last of them */
    bool spent;            /* the powder's oxidants are gone, all else is there */
    double loss_l_mol_min; /* of a bath, second order; 0 = first order as shipped */
    double
        agent_mol_l; /* not 0: in place of a mix a reducing agent in much water, and every dye as it is in */
    sl_reductant_id agent; /*   solution: all of it meets the liquid, and none is washed out */
    double air_min;        /* minutes in air after five of water */
} check_trial;

/* Print the error and end the program. */
void check_stop(const sl_error *error);
int check_zone_named(const sl_scene *scene, const char *name);
/* Set b->scene to the check scene, or to what the null model makes of it. */
void check_prepare(check_bench *b);
/* Solve one arm with the trial's mix on every zone of the check scene. */
const sl_timeline *check_try_mix(check_bench *b, check_trial t);
/* A zone of the solved trial, minutes after contact. */
sl_cell check_cell_at(const check_bench *b, const char *zone, double minutes);
/* Minutes to half of a dye, infinite when not reached. */
double check_half_time(check_bench *b, check_trial t, const char *zone);
/* Minutes until `levels` are lifted in the solved trial; infinite when not reached. */
double check_lift_time(const check_bench *b, double levels);

/* The rows: C1 to C8 and D (mix, cystine, granules), C9 to C22 and L (lift, dyes), P (others) and what waits
 * for a part, H (held out), and R (trade). */
void check_mix_and_hair(check_table *t, check_bench *b);
void check_lift_and_dyes(check_table *t, check_bench *b);
void check_others(check_table *t, check_bench *b);
void check_later(check_table *t, check_bench *b); /* asked after the constants stood */
void check_regressions(check_claims *t, sl_solver *solver, const char *models);
/* Print what a school should measure first, by the shipped scenes. */
void check_print_first(const char *models, const sl_resolver *resolver);

#endif
