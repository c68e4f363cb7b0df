/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An arm as phases: stretches in which nothing jumps, with the washing dose that each brings.
 * Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_PHASES_H
#define SLOWLIFT_KINETICS_PHASES_H

#include "slowlift/kinetics.h"

enum { DAY_MIN = 24 * 60 };

typedef enum phase_kind { PHASE_BOWL, PHASE_MIX, PHASE_RINSE, PHASE_REST } phase_kind;

/* One stretch of an arm in which nothing jumps. Times in minutes since first contact. */
typedef struct phase {
    phase_kind kind;
    double start_min, end_min;
    double last_contact_min;            /* of the mix now on the hair */
    double mixed_min;                   /* when it was mixed */
    const sl_mix *mix;                  /* whose pH holds; NULL before any mix */
    double saturation_mol_l;            /* P_sat of the mix on the hair */
    double liquid_share;                /* phi: fibre water over liquid */
    double dry_per_min;                 /* of the open mix, or of rinsed hair at rest */
    const sl_reductant *agent;          /* that the arm puts on, now or ever; NULL: none */
    double air;                         /* 1 where air reaches the mix and the hair, 0 under a cover */
    double leach_start_min, leach_rate; /* washing dose, linear unless drying */
    double shampoo_start, shampoo_rate;
} phase;

enum { MAX_PHASES = SL_MAX_STEPS + 1 + SL_MAX_COURSE_POINTS }; /* steps, the rest after them, corners */

/* What happens to one strip, in order. */
typedef struct planned {
    phase phases[MAX_PHASES];
    const sl_step *step[MAX_PHASES]; /* the step that opens this phase; NULL for a continuation */
    int n;
} planned;

/* Cut the arm's steps at the end of the treatment, append a rest, cut phases where the given
 * temperature has a corner, and sum the washing dose. */
void phases_of(planned *plan, const sl_treatment *treatment);

/* The same with the last application left on to the end of the treatment, and nothing after it. */
void phases_left_on(planned *plan, const sl_treatment *treatment, int application);
/* What follows when the mix of `lying` (a phase of that application) is rinsed at a moment of it: the arm's
 * own steps after the application, then rest until the hair has dried. Corners of a temperature cut nothing
 * here. */
void phases_after(planned *plan, const sl_treatment *treatment, int application, const phase *lying,
                  double rinse_min);

/* The same mix in its bowl from mixing on, until it is that old: the same equations without hair. */
phase phase_in_bowl(const phase *mix, double age_min);

/* Minutes of standing wet that a phase's washing amounts to up to a moment in it, and the
 * shampoos done by then; both count from the first contact. */
double leach_of(const phase *now, double since_contact_min);
double shampoos_of(const phase *now, double since_contact_min);

#endif
