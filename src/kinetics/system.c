/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side, in the order in which things flow: pace of this temperature ->
 * perhydroxyl in mix and fibre -> mix -> exchange -> fibre -> doses -> cystine -> targets.
 * Equations, symbols and sources: docs/science.md, "The system".
 *
 * Invariant: doses and exponents never fall and cystine never rises, because
 * concentrations that an integrator's trial stage makes slightly negative count as zero
 * where they drive a reaction.
 */
#include "kinetics/system.h"

#include <gsl/gsl_errno.h>
#include <math.h>

static const double HYDROLYSIS_PH = 10.3; /* pH at which hydrolysis_per_min is given */
static const double FIRST_MODE = 5.783;   /* square of the first zero of J0: diffusion out of a cylinder */
static const double SECONDS_PER_MIN = 60.0, CM_PER_UM = 1e-4;
static const double TINY_MOL_L = 1e-12; /* keeps 0/0 out of an empty fibre */

int system_states(const sl_treatment *treatment)
{
    return treatment->n_targets > 0 ? FULL_STATES : SHARED_STATES;
}

/* k of `rates` at a temperature, relative to the channels' own factors. */
static void rates_at(const sl_rates *rates, const sl_chemistry *chemistry, double temperature_k,
                     double k[SL_CHANNELS])
{
    sl_rates settled = *rates;
    sl_rates_settle(&settled, chemistry, temperature_k);
    for (int c = 0; c < SL_CHANNELS; c++) {
        k[c] = settled.k[c].value;
    }
}

static double fibre_ph(const sl_chemistry *chemistry, const phase *now)
{
    if (now->kind == PHASE_REST || !now->mix) {
        return chemistry->rest_ph.value;
    }
    return now->mix->ph.value - chemistry->fibre_ph_drop.value;
}

static void pace_at(pace *at, const sl_treatment *treatment, const phase *now, double temperature_k)
{
    const sl_chemistry *const ch = &treatment->scene->chemistry;
    const double mix_ph = now->mix ? now->mix->ph.value : ch->rest_ph.value;
    const double radius_cm = ch->fibre_radius_um.value * CM_PER_UM;
    at->share_mix = sl_perhydroxyl_share(ch, mix_ph, temperature_k);
    at->share_fibre = sl_perhydroxyl_share(ch, fibre_ph(ch, now), temperature_k);
    at->loss = sl_arrhenius(ch->loss_activation_kj_mol.value, temperature_k);
    at->fibre_loss = ch->fibre_loss_per_min.value * at->loss;
    at->couple = ch->couple_l_mol_min.value * sl_arrhenius(ch->couple_activation_kj_mol.value, temperature_k);
    at->hydrolysis = ch->hydrolysis_per_min.value * pow(10.0, mix_ph - HYDROLYSIS_PH) *
                     sl_arrhenius(ch->hydrolysis_activation_kj_mol.value, temperature_k);
    at->thermal =
        ch->thermal_per_min.value * sl_arrhenius(ch->thermal_activation_kj_mol.value, temperature_k);
    at->exchange = treatment->porosity * FIRST_MODE / (radius_cm * radius_cm) * SECONDS_PER_MIN *
                   sl_arrhenius(ch->diffusion_activation_kj_mol.value, temperature_k);
    for (int c = 0; c < SL_CHANNELS; c++) {
        at->channel[c] = sl_arrhenius(ch->channel_activation_kj_mol[c].value, temperature_k);
    }
    rates_at(&ch->cystine, ch, temperature_k, at->cystine);
    for (int i = 0; i < treatment->n_targets; i++) {
        rates_at(treatment->target[i].rates, ch, temperature_k, at->target[i]);
    }
}

static double temperature_k(const sl_treatment *treatment, const phase *now, double since_contact_min)
{
    if (now->kind == PHASE_BOWL) {
        return treatment->scene->chemistry.bowl_c.value + 273.15;
    }
    return sl_scene_temperature_k(treatment->scene, treatment->arm->contact_min + since_contact_min,
                                  since_contact_min - now->last_contact_min);
}

void system_enter(system_now *system, const sl_treatment *treatment, const phase *now)
{
    system->treatment = treatment;
    system->now = now;
    system->isothermal = now->kind == PHASE_BOWL || sl_scene_isothermal(treatment->scene);
    if (system->isothermal) {
        pace_at(&system->steady, treatment, now, temperature_k(treatment, now, now->start_min));
    }
}

/* HO2- saturates as a nucleophile (several solution studies, docs/science.md). */
static double saturating(double perhydroxyl, const sl_chemistry *ch)
{
    return perhydroxyl / (1.0 + perhydroxyl / ch->saturation_mol_l.value);
}

/* Rate constants times what drives them: the three channels' dose rates at one place. */
static void dose_rates(double peroxide, double persulfate, double share, const sl_chemistry *ch,
                       const double channel[SL_CHANNELS], double rate[SL_CHANNELS])
{
    const double perhydroxyl = saturating(share * fmax(peroxide, 0.0), ch);
    const double sulfur = fmax(persulfate, 0.0);
    rate[SL_PERHYDROXYL] = channel[SL_PERHYDROXYL] * perhydroxyl;
    rate[SL_PERSULFATE] = channel[SL_PERSULFATE] * sulfur;
    rate[SL_RADICAL] = channel[SL_RADICAL] * perhydroxyl * sulfur;
}

static double weighted(const double k[SL_CHANNELS], const double rate[SL_CHANNELS])
{
    return k[SL_PERHYDROXYL] * rate[SL_PERHYDROXYL] + k[SL_PERSULFATE] * rate[SL_PERSULFATE] +
           k[SL_RADICAL] * rate[SL_RADICAL];
}

/* The mix by itself: loss of peroxide, coupling, hydrolysis, dissolution, rinsing. */
static void mix_slopes(const sl_chemistry *ch, const phase *now, const pace *at, const double y[],
                       double dydt[])
{
    const double peroxide = y[AT_PEROXIDE];
    const double persulfate = y[AT_PERSULFATE];
    const double solid = fmax(y[AT_UNDISSOLVED], 0.0);
    const sl_mix *const mix = now->mix;
    const double lost = mix->loss_l_mol_min.value > 0.0
                            ? mix->loss_l_mol_min.value * peroxide * fabs(peroxide)
                            : mix->loss_per_min.value * peroxide;
    const double coupled = at->couple * at->share_mix * peroxide * persulfate;
    const double hydrolysed = at->hydrolysis * persulfate;
    const double room = fmax(now->saturation_mol_l - persulfate, 0.0);
    const double dissolved =
        solid > 0.0 ? ch->dissolve_per_min.value * room * solid / (solid + ch->dissolve_half_mol_l.value)
                    : 0.0;
    const double away = now->kind == PHASE_RINSE ? ch->rinse_per_min.value : 0.0;
    dydt[AT_PEROXIDE] = hydrolysed - lost * at->loss - coupled - away * peroxide;
    dydt[AT_PERSULFATE] = dissolved - coupled - hydrolysed - at->thermal * persulfate - away * persulfate;
    dydt[AT_UNDISSOLVED] = -dissolved - away * y[AT_UNDISSOLVED];
}

static void exchange_slopes(const sl_chemistry *ch, const phase *now, const pace *at,
                            double since_contact_min, const double y[], double dydt[])
{
    const double lost_cystine = fmax(1.0 - y[AT_CYSTINE], 0.0);
    const double swelling =
        1.0 - ch->swelling_deficit.value * exp(-since_contact_min / ch->swelling_time_min.value);
    const double opened =
        1.0 + ch->damage_opens.value * lost_cystine / (lost_cystine + ch->damage_half.value);
    const double g = at->exchange * swelling * opened * y[AT_WETNESS];
    const double peroxide_in =
        g * ch->peroxide_diffusion_cm2_s.value * (y[AT_PEROXIDE] - y[AT_FIBRE_PEROXIDE]);
    const double persulfate_in = g * ch->persulfate_diffusion_cm2_s.value *
                                 (ch->persulfate_partition.value * y[AT_PERSULFATE] - y[AT_FIBRE_PERSULFATE]);
    dydt[AT_PEROXIDE] -= now->liquid_share * peroxide_in;
    dydt[AT_PERSULFATE] -= now->liquid_share * persulfate_in;
    dydt[AT_FIBRE_PEROXIDE] = peroxide_in;
    dydt[AT_FIBRE_PERSULFATE] = persulfate_in;
}

/* Pigment feedback: channel 1 takes peroxide, channel 2 persulfate, channel 3 half of each. */
static void target_slopes(const sl_treatment *treatment, const pace *at, const double rim[SL_CHANNELS],
                          const double core[SL_CHANNELS], const double y[], double dydt[])
{
    const bool feedback = treatment->scene->chemistry.pigment_feedback;
    for (int i = 0; i < treatment->n_targets; i++) {
        const sl_target *const target = &treatment->target[i];
        const double *const k = at->target[i];
        dydt[AT_RIM_EXPONENT + i] = weighted(k, rim);
        dydt[AT_CORE_EXPONENT + i] = weighted(k, core);
        if (feedback) {
            const double held = target->held_mol_l * target->oxidant_per_mol * (1.0 - target->rim_share) *
                                exp(-y[AT_CORE_EXPONENT + i]);
            const double radical = 0.5 * k[SL_RADICAL] * core[SL_RADICAL];
            dydt[AT_FIBRE_PEROXIDE] -= held * (k[SL_PERHYDROXYL] * core[SL_PERHYDROXYL] + radical);
            dydt[AT_FIBRE_PERSULFATE] -= held * (k[SL_PERSULFATE] * core[SL_PERSULFATE] + radical);
        }
    }
    for (int i = treatment->n_targets; i < SL_MAX_TARGETS && treatment->n_targets > 0; i++) {
        dydt[AT_RIM_EXPONENT + i] = 0.0;
        dydt[AT_CORE_EXPONENT + i] = 0.0;
    }
}

static void fibre_slopes(const sl_chemistry *ch, const pace *at, double active,
                         const double core[SL_CHANNELS], const double y[], double dydt[])
{
    const double peroxide = fmax(y[AT_FIBRE_PEROXIDE], 0.0);
    const double persulfate = fmax(y[AT_FIBRE_PERSULFATE], 0.0);
    const double intact = y[AT_CYSTINE];
    const double layer = 1.0 + fmax(1.0 - intact, 0.0) / ch->cystine_layer.value;
    const double attack =
        weighted(at->cystine, core) * fmax(intact, 0.0) / layer; /* -dC/dt; core holds `active` */
    const double used = ch->oxidant_per_cystine.value * ch->cystine_mol_l.value * attack;
    const double from_peroxide = (peroxide + 0.5 * TINY_MOL_L) / (peroxide + persulfate + TINY_MOL_L);
    const double coupled = active * at->couple * at->share_fibre * peroxide * persulfate;
    dydt[AT_FIBRE_PEROXIDE] -= active * at->fibre_loss * peroxide + coupled + from_peroxide * used;
    dydt[AT_FIBRE_PERSULFATE] -= coupled + (1.0 - from_peroxide) * used;
    dydt[AT_CYSTINE] = -attack;
}

static void nothing_moves(int n_states, double dydt[])
{
    for (int i = 0; i < n_states; i++) {
        dydt[i] = 0.0;
    }
}

int system_slope(double since_contact_min, const double y[], double dydt[], void *params)
{
    system_now *const system = params;
    const sl_treatment *const treatment = system->treatment;
    const sl_chemistry *const ch = &treatment->scene->chemistry;
    const phase *const now = system->now;
    const pace *at = &system->steady;
    pace moving;
    system->calls++;
    nothing_moves(system_states(treatment), dydt);
    if (!system->isothermal) {
        pace_at(&moving, treatment, now, temperature_k(treatment, now, since_contact_min));
        at = &moving;
    }
    const bool bath = now->kind != PHASE_REST;
    const double wetness = fmax(y[AT_WETNESS], 0.0);
    double rim[SL_CHANNELS] = {0.0};
    double core[SL_CHANNELS] = {0.0};
    dydt[AT_WETNESS] = -now->dry_per_min * y[AT_WETNESS];
    if (bath && now->mix) {
        mix_slopes(ch, now, at, y, dydt);
    }
    if (now->kind == PHASE_BOWL) {
        return GSL_SUCCESS;
    }
    if (bath) {
        exchange_slopes(ch, now, at, since_contact_min, y, dydt);
        dose_rates(y[AT_PEROXIDE], y[AT_PERSULFATE], at->share_mix, ch, at->channel, rim);
    }
    const double active = bath ? 1.0 : wetness; /* rinsed hair reacts until it has dried */
    dose_rates(y[AT_FIBRE_PEROXIDE], y[AT_FIBRE_PERSULFATE], at->share_fibre, ch, at->channel, core);
    for (int c = 0; c < SL_CHANNELS; c++) {
        rim[c] *= wetness;
        core[c] *= active;
        dydt[AT_RIM_DOSE + c] = rim[c];
        dydt[AT_CORE_DOSE + c] = core[c];
    }
    fibre_slopes(ch, at, active, core, y, dydt);
    target_slopes(treatment, at, rim, core, y, dydt);
    return GSL_SUCCESS;
}
