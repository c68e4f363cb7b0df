/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A single course's right-hand side as GSL asks for it: one lane of slopes.h, and behind it, in the full
 * system, what each target has lost by the doses and takes from the oxidants.
 */
#include "kinetics/system.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <string.h>

int system_states(const sl_treatment *treatment)
{
    if (sl_arm_reductant(treatment->scene, treatment->arm) >= 0) {
        return REDUCING_STATES;
    }
    return treatment->n_targets > 0 ? FULL_STATES : SHARED_STATES;
}

/* Targets whose colourless form is followed come first. */
static int forms_of(const sl_treatment *treatment)
{
    int n = 0;
    while (n < treatment->n_targets && treatment->target[n].dye) {
        n++;
    }
    return n;
}

void system_begin(const sl_treatment *treatment, double state[REDUCING_STATES])
{
    memset(state, 0, REDUCING_STATES * sizeof *state);
    state[AT_WETNESS] = 1.0;
    state[AT_CYSTINE] = treatment->cystine_intact;
    for (int i = 0; i < forms_of(treatment); i++) {
        state[at_form(i, SL_AT_RIM, SL_COLOURED)] = 1.0;
        state[at_form(i, SL_IN_CORE, SL_COLOURED)] = 1.0;
    }
}

/* The pace of one moment, and k of every target, relative to the channels' own factors. */
static void set_pace(system_now *system, double since_contact_min, double warmth_k)
{
    const sl_treatment *const treatment = system->treatment;
    const double kelvin = lane_temperature_k(treatment->scene, treatment->arm, system->mix, system->now,
                                             since_contact_min, &system->warmth) +
                          warmth_k;
    lane_pace_at(1, &system->pace, &system->lane, kelvin);
    for (int i = 0; i < treatment->n_targets; i++) {
        sl_rates settled = *treatment->target[i].rates;
        sl_rates_settle(&settled, &treatment->scene->chemistry, kelvin);
        for (int c = 0; c < SL_CHANNELS; c++) {
            system->target[i][c] = settled.k[c].value;
        }
    }
    for (int i = 0; i < system->forms.n; i++) {
        for (int c = 0; c < SL_CHANNELS; c++) {
            system->forms.k[i][c][0] = system->target[i][c];
        }
    }
}

/* What an agent and the air make of the targets' dyes. */
static void set_forms(lane_forms *forms, const sl_treatment *treatment)
{
    const int agent = sl_arm_reductant(treatment->scene, treatment->arm);
    forms->n = forms_of(treatment);
    for (int i = 0; i < forms->n; i++) {
        const sl_dye *const dye = treatment->target[i].dye;
        forms->reduced[i][0] = dye->reduced[agent].value;
        forms->leuco_share[i] = dye->leuco_share.value;
        forms->air_return[i][0] = dye->air_return_per_min.value;
        forms->oxidant_return[i][0] = dye->oxidant_return_l_mol_min.value;
    }
}

void system_reset(system_now *system, const mix_course *mix)
{
    system->oxidants_alone = false;
    system->mix = mix;
    system->heat = NULL;
    system->calls = 0;
}

void system_enter(system_now *system, const sl_treatment *treatment, const phase *now)
{
    system->treatment = treatment;
    system->now = now;
    system->n_states = system->heat             ? MIX_STATES
                       : system->oxidants_alone ? SHARED_STATES
                                                : system_states(treatment);
    system->paced_min = -HUGE_VAL;
    system->warmth.terms = 0;
    system->isothermal = !system->heat && lane_isothermal(treatment->scene, system->mix, now);
    set_forms(&system->forms, treatment);
    lane_phase_enter(&system->lane, treatment->scene, now, &lane_of_scene, treatment->porosity, 1);
    if (system->isothermal) {
        set_pace(system, now->start_min, 0.0);
    }
}

static double weighted(const double k[SL_CHANNELS], const double rate[SL_CHANNELS])
{
    double sum = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        sum += k[c] * rate[c];
    }
    return sum;
}

/* Pigment feedback: what the channels take of an oxidant, per mol of a target that is held. */
static double taken_of(int oxidant, const double k[SL_CHANNELS], const double core[SL_CHANNELS])
{
#define TAKEN(CHANNEL, OXIDANT, mol) [SL_##CHANNEL][SL_OXIDANT_##OXIDANT] = (mol),
    static const double taken[SL_CHANNELS][SL_OXIDANTS] = {SL_TAKEN_LIST(TAKEN)};
#undef TAKEN
    double sum = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        sum += taken[c][oxidant] * k[c] * core[c];
    }
    return sum;
}

/* What of a target is still there to use up oxidant, in the core: where an arm reduces, what has its colour.
 */
static double left_in_core(const system_now *system, int i, const double y[])
{
    return i < system->forms.n ? y[at_form(i, SL_IN_CORE, SL_COLOURED)] : exp(-y[AT_CORE_EXPONENT + i]);
}

static void target_slopes(const system_now *system, const double y[], double dydt[])
{
    const sl_treatment *const treatment = system->treatment;
    const double *const rim = &dydt[AT_RIM_DOSE];
    const double *const core = &dydt[AT_CORE_DOSE];
    const bool feedback = treatment->scene->chemistry.pigment_feedback;
    for (int i = 0; i < treatment->n_targets; i++) {
        const sl_target *const target = &treatment->target[i];
        const double *const k = system->target[i];
        dydt[AT_RIM_EXPONENT + i] = weighted(k, rim);
        dydt[AT_CORE_EXPONENT + i] = weighted(k, core);
        if (feedback) {
            const double held = target->held_mol_l * target->oxidant_per_mol * (1.0 - target->rim_share) *
                                left_in_core(system, i, y);
#define TAKE(NAME, name, ...) dydt[AT_FIBRE_##NAME] -= held * taken_of(SL_OXIDANT_##NAME, k, core);
            SL_OXIDANT_LIST(TAKE)
#undef TAKE
        }
    }
    for (int i = treatment->n_targets; i < SL_MAX_TARGETS && treatment->n_targets > 0; i++) {
        dydt[AT_RIM_EXPONENT + i] = 0.0;
        dydt[AT_CORE_EXPONENT + i] = 0.0;
    }
}

/* What the states give off heats mix and hair, which lose it to where they lie. */
static void heat_slope(const mix_heat *heat, const double y[], double dydt[])
{
    double given_j_g = 0.0;
    for (int s = 0; s < SHARED_STATES; s++) {
        given_j_g -= heat->j_g[s] * dydt[s];
    }
    dydt[AT_MIX_WARMTH] = given_j_g / heat->capacity_j_g_k - heat->loss_per_min * y[AT_MIX_WARMTH];
}

/* The rows behind, of an arm that reduces. */
static void reduce_slopes(const system_now *system, const double y[], double dydt[])
{
    const int n_targets = system->treatment->n_targets;
    memset(dydt + (n_targets > 0 ? FULL_STATES : SHARED_STATES), 0,
           (size_t)(REDUCING_STATES - (n_targets > 0 ? FULL_STATES : SHARED_STATES)) * sizeof *dydt);
    lane_reduce(1, &system->lane, &system->pace, system->swelling, y, dydt);
    lane_form_slopes(1, &system->lane, &system->pace, &system->forms, y, dydt);
}

int system_slope(double since_contact_min, const double y[], double dydt[], void *params)
{
    system_now *const system = params;
    system->calls++;
    if (system->heat || !(since_contact_min == system->paced_min)) { /* stages of a step share moments */
        if (!system->isothermal) {
            set_pace(system, since_contact_min, system->heat ? y[AT_MIX_WARMTH] : 0.0);
        }
        lane_pace_aged(1, &system->pace, &system->lane, since_contact_min);
        system->swelling = system->lane.touch > 0.0
                               ? swelling_at(&system->treatment->scene->chemistry, since_contact_min)
                               : 1.0; /* nothing is exchanged */
        system->paced_min = since_contact_min;
    }
    if (system->lane.bath > 0.0) {
        lane_slopes(1, true, &system->lane, &system->pace, system->swelling, y, dydt);
    } else {
        lane_slopes(1, false, &system->lane, &system->pace, system->swelling, y, dydt);
    }
    if (system->treatment->n_targets > 0 && !system->heat) {
        target_slopes(system, y, dydt);
    }
    if (system->heat) {
        heat_slope(system->heat, y, dydt);
    } else if (system->n_states == REDUCING_STATES) {
        reduce_slopes(system, y, dydt);
    }
    return GSL_SUCCESS;
}
