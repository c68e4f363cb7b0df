/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side of a single course, for GSL. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_SYSTEM_H
#define SLOWLIFT_KINETICS_SYSTEM_H

#include "kinetics/slopes.h"
#include "slowlift/kinetics.h"

typedef struct system_now {
    const sl_treatment *treatment;
    const phase *now;
    bool isothermal; /* the pace holds for the whole phase */
    lane_phase lane; /* the first lane of each */
    lane_pace pace;
    double target[SL_MAX_TARGETS][SL_CHANNELS]; /* k of each target, its own activation included */
    long calls;
} system_now;

/* Prepare `system` for a phase. */
void system_enter(system_now *system, const sl_treatment *treatment, const phase *now);
int system_states(const sl_treatment *treatment);

/* GSL's signature; params is a system_now. */
int system_slope(double since_contact_min, const double state[], double slope[], void *params);

#endif
