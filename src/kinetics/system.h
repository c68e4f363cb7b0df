/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side: what the mix and the fibre do at one moment of one phase.
 * Equations: docs/science.md, "The system". Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_SYSTEM_H
#define SLOWLIFT_KINETICS_SYSTEM_H

#include "slowlift/kinetics.h"

/* The state vector. Exponents stand in the full system only. */
enum {
    AT_PEROXIDE,                              /* H, mol/L in the mix */
    AT_PERSULFATE,                            /* P, mol/L in the mix */
    AT_UNDISSOLVED,                           /* U, mol per L of mix */
    AT_WETNESS,                               /* W, 1..0 */
    AT_FIBRE_PEROXIDE,                        /* h, mol/L fibre water */
    AT_FIBRE_PERSULFATE,                      /* p */
    AT_RIM_DOSE,                              /* X1..X3 */
    AT_CORE_DOSE = AT_RIM_DOSE + SL_CHANNELS, /* Y1..Y3 */
    AT_CYSTINE = AT_CORE_DOSE + SL_CHANNELS,  /* C */
    SHARED_STATES,
    AT_RIM_EXPONENT = SHARED_STATES,                     /* [target] */
    AT_CORE_EXPONENT = AT_RIM_EXPONENT + SL_MAX_TARGETS, /* [target] */
    FULL_STATES = AT_CORE_EXPONENT + SL_MAX_TARGETS
};

typedef enum phase_kind { PHASE_BOWL, PHASE_MIX, PHASE_RINSE, PHASE_REST } phase_kind;

/* How fast everything is at one temperature. */
typedef struct pace {
    double share_mix, share_fibre;                        /* perhydroxyl share of peroxide */
    double loss, fibre_loss, couple, hydrolysis, thermal; /* of the oxidants */
    double exchange;                                      /* 5.783/r^2*60*E(Ed)*porosity, 1/cm2 * s/min */
    double channel[SL_CHANNELS];                          /* Arrhenius factor of each channel */
    double cystine[SL_CHANNELS];                          /* k_c with its own factor over the channel's */
    double target[SL_MAX_TARGETS][SL_CHANNELS];           /* k of each target, likewise */
} pace;

/* One stretch of an arm in which nothing jumps. Times in minutes since first contact. */
typedef struct phase {
    phase_kind kind;
    double start_min, end_min;
    double last_contact_min;            /* of the mix now on the hair */
    const sl_mix *mix;                  /* whose pH holds; NULL before any mix */
    double saturation_mol_l;            /* P_sat of the mix on the hair */
    double liquid_share;                /* phi: fibre water over liquid */
    double dry_per_min;                 /* of the open mix, or of rinsed hair at rest */
    double leach_start_min, leach_rate; /* washing dose, linear unless drying */
    double shampoo_start, shampoo_rate;
} phase;

typedef struct system_now {
    const sl_treatment *treatment;
    const phase *now;
    bool isothermal; /* `steady` holds for the whole phase */
    pace steady;
    long calls;
} system_now;

/* Prepare `system` for a phase (computes the steady pace). */
void system_enter(system_now *system, const sl_treatment *treatment, const phase *now);
int system_states(const sl_treatment *treatment);

/* GSL's signature; params is a system_now. */
int system_slope(double since_contact_min, const double state[], double slope[], void *params);

#endif
