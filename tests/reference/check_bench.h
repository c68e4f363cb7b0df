/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows of the table of checks, and a bench on which a mix is tried with the library.
 */
#ifndef SLOWLIFT_TESTS_CHECK_BENCH_H
#define SLOWLIFT_TESTS_CHECK_BENCH_H

#include <stdbool.h>

#include "slowlift/estimate.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

typedef struct check_row {
    const char *id, *kind, *target, *source, *allowed;
    char computed[200];
    bool holds;
    const char *evidence; /* NULL: an outside number that no parameter was chosen for */
} check_row;

enum { MOST_ROWS = 64 };
typedef struct check_table {
    check_row rows[MOST_ROWS];
    int n;
} check_table;

/* Append a row; the caller fills in `computed` and `holds`. */
check_row *check_add(check_table *t, check_row r);

/* Kinds of rows, and the mark of a regression. */
extern const char CHECK_OUTSIDE[], CHECK_DIRECTION[], CHECK_TRADE[], CHECK_REGRESSION[];

typedef struct check_bench {
    sl_scene *loaded;
    sl_solver *solver;
    sl_scene scene; /* borrows all of `loaded` but arm and mix */
    sl_arm arm;
    sl_mix mix;
    sl_timeline *timeline;
} check_bench;

typedef struct check_trial {
    const char *mix; /* of the check scene; "bath" = 6 % peroxide alone, much liquid */
    double pct, ph;  /* 0 = as the mix has it */
    double age_min, celsius, minutes;
    int sessions;          /* 0 or 1: one; more: with a rinse between */
    double loss_l_mol_min; /* of a bath, second order; 0 = first order as shipped */
} check_trial;

/* Print the error and end the program. */
void check_stop(const sl_error *error);
int check_zone_named(const sl_scene *scene, const char *name);
/* Solve one arm with the trial's mix on every zone of the check scene. */
const sl_timeline *check_try_mix(check_bench *b, check_trial t);
/* A zone of the solved trial, minutes after contact. */
sl_cell check_cell_at(const check_bench *b, const char *zone, double minutes);
/* Minutes to half of a dye, infinite when not reached. */
double check_half_time(check_bench *b, check_trial t, const char *zone);
/* Minutes until `levels` are lifted in the solved trial; infinite when not reached. */
double check_lift_time(const check_bench *b, double levels);

/* The rows: C1 to C8 (mix, cystine, granules), C9 to C22 (lift, dyes), R1 to R8 (trade). */
void check_mix_and_hair(check_table *t, check_bench *b);
void check_lift_and_dyes(check_table *t, check_bench *b);
void check_regressions(check_table *t, sl_solver *solver, const char *models);

#endif
