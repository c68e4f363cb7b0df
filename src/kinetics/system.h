/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side of a single course, for GSL. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_SYSTEM_H
#define SLOWLIFT_KINETICS_SYSTEM_H

#include "kinetics/reduction.h"
#include "slowlift/kinetics.h"

/* The heat balance of a mix, while its course is solved (mix_course.c). */
typedef struct mix_heat {
    double j_g[SHARED_STATES]; /* J per gram of hair that a state gives off for each unit that it falls by */
    double capacity_j_g_k;     /* of mix and hair, per gram of hair */
    double loss_per_min;       /* of what it is too warm by */
} mix_heat;

typedef struct system_now {
    bool oxidants_alone; /* of the course of a mix: what reduces is left out */
    const sl_treatment *treatment;
    const mix_course *mix; /* whose warmth is read; NULL: none */
    hermite_piece warmth;  /* read last */
    const mix_heat *heat;  /* its own course is being solved: AT_MIX_WARMTH is a state */
    int n_states;
    const phase *now;
    bool isothermal; /* the pace holds for the whole phase */
    lane_phase lane; /* the first lane of each */
    lane_pace pace;
    double paced_min, swelling; /* the moment that pace and swelling are of; minus infinity: of none */
    double target[SL_MAX_TARGETS][SL_CHANNELS]; /* k of each target, its own activation included */
    lane_forms forms; /* of the first lane: of targets whose colourless form is followed */
    long calls;
} system_now;

/* A system that reads this warmth, if any; its lanes are filled by system_enter() alone. */
void system_reset(system_now *system, const mix_course *mix);
/* Prepare `system` for a phase. */
void system_enter(system_now *system, const sl_treatment *treatment, const phase *now);
int system_states(const sl_treatment *treatment);
/* Hair as it is before anything has met it. */
void system_begin(const sl_treatment *treatment, double state[REDUCING_STATES]);

/* GSL's signature; params is a system_now. */
int system_slope(double since_contact_min, const double state[], double slope[], void *params);

#endif
