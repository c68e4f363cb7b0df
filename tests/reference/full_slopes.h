/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side of the reference, apart from the solver that calls it; see full_system.h.
 */
#ifndef SLOWLIFT_TESTS_FULL_SLOPES_H
#define SLOWLIFT_TESTS_FULL_SLOPES_H

#include "full_system.h"

typedef enum ref_phase_kind { REF_BOWL, REF_ON_HAIR, REF_WATER, REF_RESTING } ref_phase_kind;

/* Rate constants at one temperature; made again only when the temperature has changed, so that
 * the bench compares integrators and not arithmetic. */
typedef struct ref_pace {
    double kelvin;  /* 0: not made yet */
    double mix_age; /* minutes since mixing, where the pH changes with it; else 0 */
    double share_mix, share_fibre;
    double loss, couple, hydrolysis, thermal, exchange;
    double channel[SL_CHANNELS], cystine[SL_CHANNELS], melanin[SL_MELANINS][SL_CHANNELS];
    double dye[SL_MAX_ZONES][SL_MAX_DYES_PER_ZONE][SL_CHANNELS];
} ref_pace;

/* One smooth stretch of an arm; what the right-hand side needs to know. */
typedef struct ref_stretch {
    const ref_setup *setup;
    ref_phase_kind kind;
    bool shampoo, covered;
    double from, to;      /* scene clock */
    double first_contact; /* of the arm */
    double last_contact;  /* start of the last application */
    double mixed;         /* when that was mixed */
    const sl_mix *mix;    /* last mix applied, NULL before any */
    double saturation, phi;
    double porosity;
    const sl_step *step; /* that put the mix on, or will */
    bool warms;          /* the mix by its own reactions */
    double most_k;       /* the most so far */
    ref_pace pace;
    long calls;
    const ref_event *event; /* looked for on the way, or NULL */
    double event_min;       /* HUGE_VAL until it happened */
} ref_stretch;

/* dy/dt of all states at scene clock t. */
void ref_slopes(ref_stretch *s, double t, const double *y, double *dy);
/* The mean over all zones of the scene: porosity, cystine. */
void ref_mean_hair(const sl_scene *scene, double *porosity, double *cystine);
/* J per K and gram of hair, of a step's mix in its bowl; hair not counted. */
double ref_capacity(const sl_chemistry *chemistry, const sl_step *step);
/* How many dyes zone number `z` of the setup wears. */
int ref_dyes_of(const ref_setup *setup, int z);

#endif
