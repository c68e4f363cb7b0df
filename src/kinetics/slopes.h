/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The right-hand side, written once for any number of members side by side: a single course is one lane,
 * whose member is the scene itself; an ensemble walks in sixteen. In the order in which things flow: pace of
 * this temperature -> mix -> exchange -> doses -> cystine. Equations, symbols and sources: docs/science.md,
 * "The system". Private to src/kinetics.
 *
 * `n` is a constant of whoever calls, and everything here becomes part of the caller: so the compiler makes
 * vectors of every loop over lanes, and no loop at all of one lane. Rows of states and slopes are n long.
 *
 * Invariant: doses never fall and cystine never rises, because concentrations that an integrator's trial
 * stage makes slightly negative count as zero where they drive a reaction.
 */
#ifndef SLOWLIFT_KINETICS_SLOPES_H
#define SLOWLIFT_KINETICS_SLOPES_H

#include <math.h>

#include "base/plain_exp.h"
#include "kinetics/lanes.h"
#include "kinetics/mix_course.h"
#include "kinetics/phases.h"
#include "kinetics/states.h"

#define LANES_INLINE static inline __attribute__((always_inline))

static const double TINY_MOL_L = 1e-12; /* keeps 0/0 out of an empty fibre */
static const double COLDEST_K =
    100.0; /* no scene comes near it; below, an energy's factor leaves all numbers */
static const double NOTHING_LEFT = 60.0; /* an exponent beyond which a share no longer matters */
static const double MOST_DRIFT = 300.0;  /* of a mix's ln [H+]: no pH comes near it */
static const double LN_10 = 2.302585092994046;

/* Activation energies of their own, by the chemistry's names: name_activation_kj_mol. That of hydrolysis,
 * which goes with hydroxide, holds the mix's besides. */
#define LANE_ENERGY_LIST(ROW) ROW(loss) ROW(couple) ROW(thermal) ROW(diffusion)
#define COUNTED(name) +1
#define NAMED(name) name,
enum { OWN_ENERGIES = LANE_ENERGY_LIST(COUNTED) };

/* Rates of one temperature course at one moment, per lane. */
typedef struct lane_pace {
    double share_mix[LANES], share_fibre[LANES]; /* perhydroxyl share of peroxide */
    double rest_mix[LANES], rest_fibre[LANES];   /* of a fresh mix: what is not perhydroxyl, over what is */
    double hydrolysis_fresh[LANES];
    double loss[LANES], fibre_loss[LANES], couple[LANES], hydrolysis[LANES], thermal[LANES];
    double exchange[LANES]; /* times a diffusion: 1/min, swollen and undamaged */
    double channel[SL_CHANNELS][LANES];
    double cystine[SL_CHANNELS][LANES]; /* k of cystine against the doses, own activation included */
    double agent[LANES], back[LANES];   /* factors of what reduces, and of what comes back; where it does */
} lane_pace;

enum {
    MOST_ENERGIES = 2 + OWN_ENERGIES + 2 * SL_CHANNELS + 2,
    MOST_FACTORS = (MOST_ENERGIES + 1) * LANES
}; /* 0, those, hydrolysis, a channel's and what cystine has beyond it; an agent's, and that of what comes
      back */

/* Arrhenius factors that a phase needs: distinct energies, and which of them each rate has. */
typedef struct lane_energies {
    double kj_mol[MOST_ENERGIES]; /* the first is 0 */
    int LANE_ENERGY_LIST(NAMED) hydrolysis, n, channel[SL_CHANNELS];
    int agent, back;
    int beyond[SL_CHANNELS]; /* what cystine's own energy has over the channel's; of 0 where it has none */
} lane_energies;
#undef COUNTED
#undef NAMED

/* What does not change within a phase. */
#define ENTRY(NAME, name, ...) double name##_cm2_s[LANES];
typedef struct lane_phase {
    const sl_chemistry *ch;
    const lane_members *member;
    double bath, touch;        /* 1 while there is a bath; while hair lies in it, as it does in no bowl */
    double loss_k, loss_l_mol; /* of first and of second order; one of them is 0 */
    double saturation_mol_l[LANES], liquid_share[LANES], dry, away;
    SL_OXIDANT_LIST(ENTRY) /* diffusion into the fibre */
    lane_energies energies;
    double warmth_k[LANES];                          /* over the place's temperature */
    double loss[LANES], fibre_loss[LANES];           /* factors of a member on both losses of peroxide */
    double ph_mix[LANES], ph_fibre[LANES];           /* at 25 C */
    double ph_kj_mol;                                /* how both fall with warmth, as of a mix */
    double protons_mix[LANES], protons_fibre[LANES]; /* 10^-pH */
    double hydrolysis[LANES];                        /* at 32 C and this pH */
    double cystine[SL_CHANNELS][LANES];              /* of each channel, the radicals' own among them */
    double half_mol_l[LANES], partition[LANES];      /* of HO2- that saturates; of persulfate in the fibre */
    double opens[LANES], opens_by_lipids[LANES];     /* exchange, by lost cystine and by lost lipids */
    double lipids_loss[LANES];                       /* of them, by the radicals' dose */
    const sl_mix *ageing;                            /* whose pH changes; NULL: none does */
    double mixed_min;                                /* since contact */
    double exchange;                                 /* times a diffusion, swollen and undamaged, at 32 C */
    const sl_reductant *agent; /* NULL: the arm reduces nothing, and the rest is not set */
    double air, agent_cm2_s[LANES], agent_loss[LANES];
} lane_phase;
#undef ENTRY

/* The member of a single course: what the scene says, unchanged. */
extern const lane_members lane_of_scene;

/* Fill the first n lanes of *now for a phase of hair of this porosity. */
void lane_phase_enter(lane_phase *now, const sl_scene *scene, const phase *here, const lane_members *member,
                      double porosity, int n);
/* How warm the mix or the hair is at a moment of a phase, in kelvin. mix, read: as in mix_course.h. */
double lane_temperature_k(const sl_scene *scene, const sl_arm *arm, const mix_course *mix, const phase *here,
                          double since_contact_min, hermite_piece *read);
/* Whether that stays within a phase. */
bool lane_isothermal(const sl_scene *scene, const mix_course *mix, const phase *here);

LANES_INLINE double most(double a, double b)
{
    return a > b ? a : b;
}

/* Arrhenius factors of every energy, [energy * n + lane], and the perhydroxyl shares: by one exp() that makes
 * vectors of lanes and energies, to 7e-15 of their value. */
LANES_INLINE void lane_factors(const int n, const lane_phase *restrict now, const double kelvin[LANES],
                               double factor[MOST_FACTORS], double share_mix[LANES],
                               double share_fibre[LANES])
{
    const sl_chemistry *const ch = now->ch;
    const lane_energies *const e = &now->energies;
    const double own =
        ch->pka_enthalpy_kj_mol.value - now->ph_kj_mol; /* of ionisation, the mix's taken off */
    const double slope = own / SL_GAS_KJ_MOL_K, pka_ln = ch->pka_25c.value * LN_10;
    double exponent[MOST_FACTORS], inverse[LANES];
    double *const acid = factor + e->n * n; /* behind the energies: what ionises, at no pH */
    for (int l = 0; l < n; l++) {
        inverse[l] = 1.0 / kelvin[l];
        exponent[e->n * n + l] = pka_ln + slope * (inverse[l] - 1.0 / SL_PKA_K);
    }
    for (int i = 1; i < e->n; i++) {
        const double per_k = -e->kj_mol[i] / SL_GAS_KJ_MOL_K;
        for (int l = 0; l < n; l++) {
            exponent[i * n + l] = per_k * (inverse[l] - 1.0 / SL_REFERENCE_K);
        }
    }
    for (int l = 0; l < n; l++) {
        factor[l] = 1.0; /* the first energy is 0 */
    }
    for (int k = n; k < (e->n + 1) * n; k++) {
        factor[k] = sl_plain_exp(exponent[k], false);
    }
    for (int l = 0; l < n; l++) {
        share_mix[l] = 1.0 / (1.0 + acid[l] * now->protons_mix[l]);
        share_fibre[l] = 1.0 / (1.0 + acid[l] * now->protons_fibre[l]);
    }
}

/* The rates of a reducing agent, and of what comes back, at one temperature. */
LANES_INLINE void lane_pace_reducing(const int n, lane_pace *restrict at, const lane_phase *restrict now,
                                     const double factor[MOST_FACTORS])
{
    const lane_energies *const e = &now->energies;
    for (int l = 0; now->agent && l < n; l++) {
        at->agent[l] = factor[e->agent * n + l];
        at->back[l] = factor[e->back * n + l];
    }
}

/* The rates at one temperature of the place. */
LANES_INLINE void lane_pace_at(const int n, lane_pace *restrict at, const lane_phase *restrict now,
                               double temperature_k)
{
    const sl_chemistry *const ch = now->ch;
    const lane_members *const member = now->member;
    const lane_energies *const e = &now->energies;
    double kelvin[LANES], factor[MOST_FACTORS];
    for (int l = 0; l < n; l++) {
        kelvin[l] = most(temperature_k + now->warmth_k[l], COLDEST_K);
    }
    lane_factors(n, now, kelvin, factor, at->share_mix, at->share_fibre);
    for (int l = 0; l < n; l++) {
        at->loss[l] = now->loss[l] * factor[e->loss * n + l];
        at->fibre_loss[l] = ch->fibre_loss_per_min.value * now->fibre_loss[l] * factor[e->loss * n + l];
        at->couple[l] =
            member->by[SL_DOUBT_COUPLE][l] * ch->couple_l_mol_min.value * factor[e->couple * n + l];
        at->hydrolysis[l] = at->hydrolysis_fresh[l] = now->hydrolysis[l] * factor[e->hydrolysis * n + l];
        at->rest_mix[l] = 1.0 / at->share_mix[l] - 1.0;
        at->rest_fibre[l] = 1.0 / at->share_fibre[l] - 1.0;
        at->thermal[l] = ch->thermal_per_min.value * factor[e->thermal * n + l];
        at->exchange[l] = now->exchange * factor[e->diffusion * n + l];
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        for (int l = 0; l < n; l++) {
            at->channel[c][l] = factor[e->channel[c] * n + l];
            at->cystine[c][l] = ch->cystine.k[c].value * factor[e->beyond[c] * n + l] * now->cystine[c][l];
        }
    }
    lane_pace_reducing(n, at, now, factor);
}

/* What hangs on the pH, for the mix as old as it is at a moment. */
LANES_INLINE void lane_pace_aged(const int n, lane_pace *restrict at, const lane_phase *restrict now,
                                 double since_contact_min)
{
    if (!now->ageing) {
        return;
    }
    const double drift = LN_10 * sl_mix_drift(now->ageing, since_contact_min - now->mixed_min);
    const double protons = sl_plain_exp(-most(-MOST_DRIFT, drift < MOST_DRIFT ? drift : MOST_DRIFT), false);
    for (int l = 0; l < n; l++) {
        at->share_mix[l] = 1.0 / (1.0 + protons * at->rest_mix[l]);
        at->share_fibre[l] = 1.0 / (1.0 + protons * at->rest_fibre[l]);
        at->hydrolysis[l] = at->hydrolysis_fresh[l] / protons;
    }
}

/* How far the fibre has opened by swelling alone, of 1. */
LANES_INLINE double swelling_at(const sl_chemistry *ch, double since_contact_min)
{
    const double times = since_contact_min / ch->swelling_time_min.value;
    return 1.0 -
           ch->swelling_deficit.value * sl_plain_exp(times < NOTHING_LEFT ? -times : -NOTHING_LEFT, false);
}

/* HO2- saturates as a nucleophile (several solution studies, docs/science.md). */
LANES_INLINE double saturating(double perhydroxyl, double saturation_mol_l)
{
    return perhydroxyl / (1.0 + perhydroxyl / saturation_mol_l);
}

/* The fastest diffusion of a lane. */
LANES_INLINE double lane_fastest_entry(const lane_phase *now, int l)
{
    double fastest = 0.0;
#define MEET(NAME, name, ...) fastest = most(fastest, now->name##_cm2_s[l]);
    SL_OXIDANT_LIST(MEET)
#undef MEET
    return fastest;
}

/* The fastest rate at which lane_slopes() uses up an oxidant by itself, 1/min, while all there is of them is
 * `all_mol_l`. */
LANES_INLINE double lane_fastest_use(const lane_phase *now, const lane_pace *at, double all_mol_l, int l)
{
    const double loss = (now->loss_k + now->loss_l_mol * 2.0 * all_mol_l) * at->loss[l];
    const double share = now->bath > 0.0 ? most(at->share_mix[l], at->share_fibre[l]) : at->share_fibre[l];
    const double couple = at->couple[l] * share * all_mol_l;
    return most(loss, at->fibre_loss[l]) + couple + at->hydrolysis[l] + at->thermal[l];
}

/* And the fastest at which cystine can use up one in the fibre: the two share what is used as they share the
 * water, so no rate is above that of either alone. */
LANES_INLINE double lane_fastest_taking(const lane_phase *now, const lane_pace *at, double all_mol_l,
                                        double cystine, int l)
{
    const sl_chemistry *const ch = now->ch;
    const double perhydroxyl = saturating(at->share_fibre[l] * all_mol_l, now->half_mol_l[l]);
    double k[SL_CHANNELS];
    for (int c = 0; c < SL_CHANNELS; c++) {
        k[c] = at->cystine[c][l] * at->channel[c][l];
    }
    const double of_peroxide = k[SL_PERHYDROXYL] * at->share_fibre[l];
    const double of_persulfate = k[SL_PERSULFATE] + k[SL_RADICAL] * perhydroxyl;
    return ch->oxidant_per_cystine.value * ch->cystine_mol_l.value * cystine *
           most(of_peroxide, of_persulfate);
}

/* What lane_slopes() has of each oxidant: its rows in the mix and in the fibre; what flows into the fibre and
 * what that, its own reactions and rinsing make of it in the mix. */
#define OXIDANT_ROWS(NAME, name, ...)                                                                        \
    const double *const restrict y_##name = y + AT_##NAME * n;                                               \
    const double *const restrict y_fibre_##name = y + AT_FIBRE_##NAME * n;                                   \
    double *const restrict d_##name = dydt + AT_##NAME * n;                                                  \
    double *const restrict d_fibre_##name = dydt + AT_FIBRE_##NAME * n;
#define FLOW(NAME, name, ...)                                                                                \
    in_##name = g * now->name##_cm2_s[l] * (towards_##name - y_fibre_##name[l]);                             \
    d_##name[l] = made_##name - away * y_##name[l] - now->liquid_share[l] * in_##name;
#define FLOWS(NAME, name, ...) double in_##name = 0.0;
#define NO_FLOW(NAME, name, ...) d_##name[l] = 0.0;
/* And of each channel: the rows of its doses, its dose in the core, and what its flux does to cystine. */
#define CHANNEL_ROWS(NAME, name, ...)                                                                        \
    double *const restrict d_rim_##name = dydt + (AT_RIM_DOSE + SL_##NAME) * n;                              \
    double *const restrict d_core_##name = dydt + (AT_CORE_DOSE + SL_##NAME) * n;
#define DOSE(NAME, name, ...) d_core_##name[l] = core_##name;
#define NO_DOSE(NAME, name, ...) d_rim_##name[l] = 0.0;
#define ATTACK(NAME, name, ...) +at->cystine[SL_##NAME][l] * core_##name

/* Exchange with the fibre, times a diffusion: 1/min, as far as swelling, lost cystine and lost lipids have
 * opened it. `lipids`: what is left of them, lane_lipids(). */
LANES_INLINE double lane_exchange(const lane_phase *restrict now, const lane_pace *restrict at,
                                  double swelling, double cystine, double lipids, double wetness, int l)
{
    const double gone = most(1.0 - cystine, 0.0);
    const double open =
        now->opens[l] * gone / (gone + now->ch->damage_half.value) + now->opens_by_lipids[l] * (1.0 - lipids);
    return at->exchange[l] * swelling * (1.0 + open) * wetness;
}

/* What the radicals' dose at the rim leaves of the cuticle's lipids: first order in it, so no state. */
LANES_INLINE double lane_lipids(const lane_phase *restrict now, double radical_dose, int l)
{
    const double exponent = now->lipids_loss[l] * most(radical_dose, 0.0);
    return sl_plain_exp(exponent < NOTHING_LEFT ? -exponent : -NOTHING_LEFT, false);
}

/* Slopes of the shared states, per minute: y[state][n] -> dydt[state][n]. `bathed` (a constant): whether
 * there is a bath; hair without one meets only what it holds. */
LANES_INLINE void lane_slopes(const int n, const bool bathed, const lane_phase *restrict now,
                              const lane_pace *restrict at, double swelling, const double *restrict y,
                              double *restrict dydt)
{
    const sl_chemistry *const ch = now->ch;
    const double dissolve = ch->dissolve_per_min.value, half = ch->dissolve_half_mol_l.value;
    const double layer_share = ch->cystine_layer.value;
    const double used_each = ch->oxidant_per_cystine.value * ch->cystine_mol_l.value;
    const double bath = bathed ? 1.0 : 0.0, touch = bathed ? now->touch : 0.0, away = now->away;
    /* rows of the states: of each oxidant in the mix and in the fibre, of each channel's doses */
    SL_OXIDANT_LIST(OXIDANT_ROWS)
    SL_CHANNEL_LIST(CHANNEL_ROWS)
    const double *const restrict yU = y + AT_UNDISSOLVED * n;
    double *const restrict dU = dydt + AT_UNDISSOLVED * n;
    const double *const restrict yW = y + AT_WETNESS * n;
    double *const restrict dW = dydt + AT_WETNESS * n;
    const double *const restrict yC = y + AT_CYSTINE * n;
    const double *const restrict y_radical = y + (AT_RIM_DOSE + SL_RADICAL) * n;
    double *const restrict dC = dydt + AT_CYSTINE * n;
    for (int l = 0; l < n; l++) { /* nothing in here branches: that would keep it from becoming vectors */
        const double H = y_peroxide[l], P = y_persulfate[l], U = most(yU[l], 0.0), W = most(yW[l], 0.0);
        const double h = y_fibre_peroxide[l], p = y_fibre_persulfate[l], C = yC[l];
        const double gone = most(1.0 - C, 0.0);
        SL_OXIDANT_LIST(FLOWS)
        dW[l] = -now->dry * yW[l];
        if (bathed) {
            /* the mix by itself: loss of peroxide, coupling, hydrolysis, dissolution */
            const double lost = now->loss_k * H + now->loss_l_mol * H * fabs(H);
            const double coupled = at->couple[l] * at->share_mix[l] * H * P;
            const double hydrolysed = at->hydrolysis[l] * P;
            const double dissolved = dissolve * most(now->saturation_mol_l[l] - P, 0.0) * U / (U + half);
            const double made_peroxide = hydrolysed - lost * at->loss[l] - coupled;
            const double made_persulfate = dissolved - coupled - hydrolysed - at->thermal[l] * P;
            dU[l] = -dissolved - away * yU[l];
            /* exchange of each oxidant with the fibre, towards its share of what is in the mix; rinsing */
            const double lipids = lane_lipids(now, y_radical[l], l);
            const double g = lane_exchange(now, at, swelling, C, lipids, yW[l], l);
            const double towards_peroxide = H, towards_persulfate = now->partition[l] * P;
            SL_OXIDANT_LIST(FLOW)
            /* doses at the rim while a bath touches it */
            const double us = saturating(at->share_mix[l] * most(H, 0.0), now->half_mol_l[l]);
            const double Pp = most(P, 0.0), wet = touch * W;
            d_rim_perhydroxyl[l] = at->channel[SL_PERHYDROXYL][l] * us * wet;
            d_rim_persulfate[l] = at->channel[SL_PERSULFATE][l] * Pp * wet;
            d_rim_radical[l] = at->channel[SL_RADICAL][l] * us * Pp * wet;
        } else {
            dU[l] = 0.0;
            SL_OXIDANT_LIST(NO_FLOW)
            SL_CHANNEL_LIST(NO_DOSE)
        }
        /* doses inside the fibre until it has dried */
        const double vs = saturating(at->share_fibre[l] * most(h, 0.0), now->half_mol_l[l]);
        const double hp = most(h, 0.0), pp = most(p, 0.0);
        const double active = touch + (1.0 - bath) * W;
        const double core_perhydroxyl = at->channel[SL_PERHYDROXYL][l] * vs * active;
        const double core_persulfate = at->channel[SL_PERSULFATE][l] * pp * active;
        const double core_radical = at->channel[SL_RADICAL][l] * vs * pp * active;
        SL_CHANNEL_LIST(DOSE)
        /* cystine, and what it and the fibre use up */
        const double attack = (SL_CHANNEL_LIST(ATTACK)) * most(C, 0.0) / (1.0 + gone / layer_share);
        const double used = used_each * attack;
        const double from_h = (hp + 0.5 * TINY_MOL_L) / (hp + pp + TINY_MOL_L);
        const double fibre_coupled = active * at->couple[l] * at->share_fibre[l] * hp * pp;
        d_fibre_peroxide[l] = in_peroxide - (active * at->fibre_loss[l] * hp + fibre_coupled + from_h * used);
        d_fibre_persulfate[l] = in_persulfate - (fibre_coupled + (1.0 - from_h) * used);
        dC[l] = -attack;
    }
}
#undef OXIDANT_ROWS
#undef CHANNEL_ROWS
#undef FLOWS
#undef FLOW
#undef NO_FLOW
#undef DOSE
#undef NO_DOSE
#undef ATTACK

#endif
