/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What arms with a reducing mix add to the right-hand side of slopes.h, for any number of members side by
 * side as there: the agent, and dyes that have a colourless form which comes back (docs/science.md,
 * "Reduction"). Other arms never come here. Private to src/kinetics.
 *
 * Invariant: coloured, colourless and destroyed of a dye at one place add up to what they were at first.
 */
#ifndef SLOWLIFT_KINETICS_REDUCTION_H
#define SLOWLIFT_KINETICS_REDUCTION_H

#include "kinetics/slopes.h"

static const double STRAIGHT_MOL_L = 1e-4; /* of an agent below which its order counts as one */
/* How an agent's strength drives the loss of dye: its power, which begins straight. */
LANES_INLINE double agent_drive(double mol_l, double order)
{
    return order == 1.0 ? mol_l : mol_l * pow(mol_l + STRAIGHT_MOL_L, order - 1.0);
}

/* The same of every lane, no branch within a loop that can be one of vectors. */
LANES_INLINE void agent_drives(const int n, const double *restrict mol_l, double order,
                               double *restrict drive)
{
    if (order == 1.0) {
        for (int l = 0; l < n; l++) {
            drive[l] = most(mol_l[l], 0.0);
        }
        return;
    }
    for (int l = 0; l < n; l++) {
        drive[l] = agent_drive(most(mol_l[l], 0.0), order);
    }
}

/* What a reducing agent adds to lane_slopes(), on the rows behind: its own mass, what it and the oxidants
 * take of each other, the cystine that it opens, and its doses. */
LANES_INLINE void lane_reduce(const int n, const lane_phase *restrict now, const lane_pace *restrict at,
                              double swelling, const double *restrict y, double *restrict dydt)
{
    const sl_chemistry *const ch = now->ch;
    const sl_reductant *const agent = now->agent;
    const double bath = now->bath, touch = now->touch;
    const double each = agent->oxidant_per_mol.value, layer_share = ch->cystine_layer.value;
    const double used_each = agent->per_cystine.value * ch->cystine_mol_l.value;
#define ROWS(NAME, name, ...)                                                                                \
    const double *const restrict y_##name = y + AT_##NAME * n;                                               \
    const double *const restrict y_fibre_##name = y + AT_FIBRE_##NAME * n;                                   \
    double *const restrict d_##name = dydt + AT_##NAME * n;                                                  \
    double *const restrict d_fibre_##name = dydt + AT_FIBRE_##NAME * n;
    SL_OXIDANT_LIST(ROWS)
#undef ROWS
    double drive[SL_PLACES_IN_HAIR][LANES];
    agent_drives(n, y + AT_REDUCTANT * n, agent->order.value, drive[SL_AT_RIM]);
    agent_drives(n, y + AT_FIBRE_REDUCTANT * n, agent->order.value, drive[SL_IN_CORE]);
    const double k_meet = agent->meet_l_mol_min.value, k_opens = agent->cystine_l_mol_min.value;
    const double air_reaches = now->air;
    for (int l = 0; l < n; l++) {
        const double R = y[AT_REDUCTANT * n + l], r = y[AT_FIBRE_REDUCTANT * n + l];
        const double W = most(y[AT_WETNESS * n + l], 0.0), C = y[AT_CYSTINE * n + l];
        const double wet = touch * W, active = touch + (1.0 - bath) * W;
        const double Rp = most(R, 0.0), rp = most(r, 0.0), gone = most(1.0 - C, 0.0);
        const double meet = at->agent[l] * k_meet;
        const double air = at->agent[l] * now->agent_loss[l] * air_reaches;
        const double lipids = lane_lipids(now, y[(AT_RIM_DOSE + SL_RADICAL) * n + l], l);
        const double in = lane_exchange(now, at, swelling, C, lipids, y[AT_WETNESS * n + l], l) *
                          now->agent_cm2_s[l] * (R - r);
        double met = 0.0, fibre_met = 0.0;
#define MEET(NAME, name, ...)                                                                                \
    const double met_##name = meet * Rp * most(y_##name[l], 0.0);                                            \
    const double fibre_met_##name = active * meet * rp * most(y_fibre_##name[l], 0.0);                       \
    d_##name[l] -= bath * each * met_##name;                                                                 \
    d_fibre_##name[l] -= each * fibre_met_##name;                                                            \
    met += met_##name;                                                                                       \
    fibre_met += fibre_met_##name;
        SL_OXIDANT_LIST(MEET)
#undef MEET
        const double attack = active * at->agent[l] * k_opens * now->cystine[SL_PERHYDROXYL][l] * rp *
                              most(C, 0.0) / (1.0 + gone / layer_share);
        dydt[AT_CYSTINE * n + l] -= attack;
        dydt[AT_REDUCTANT * n + l] = bath * (-air * R - met - now->away * R) - now->liquid_share[l] * in;
        dydt[AT_FIBRE_REDUCTANT * n + l] = in - active * air * rp - fibre_met - used_each * attack;
        dydt[AT_RIM_REDUCED * n + l] = at->agent[l] * drive[SL_AT_RIM][l] * wet;
        dydt[AT_CORE_REDUCED * n + l] = at->agent[l] * drive[SL_IN_CORE][l] * active;
    }
}

/* coloured <-> colourless, and both ways to be destroyed, of one dye at one place: behind lane_reduce(),
 * whose doses it goes by. `oxidants`: mol/L that meet it there. */
LANES_INLINE void lane_one_form(const int n, const lane_phase *restrict now, const lane_pace *restrict at,
                                const lane_forms *restrict forms, int dye, int place,
                                const double oxidants[LANES], const double *restrict y, double *restrict dydt)
{
    const double *const restrict coloured = y + at_form(dye, place, SL_COLOURED) * n;
    const double *const restrict pale = y + at_form(dye, place, SL_COLOURLESS) * n;
    double *const restrict d_coloured = dydt + at_form(dye, place, SL_COLOURED) * n;
    double *const restrict d_pale = dydt + at_form(dye, place, SL_COLOURLESS) * n;
    double *const restrict d_destroyed = dydt + at_form(dye, place, SL_DESTROYED) * n;
    const int dose = place == SL_AT_RIM ? AT_RIM_DOSE : AT_CORE_DOSE;
    const double *const restrict drive = dydt + (place == SL_AT_RIM ? AT_RIM_REDUCED : AT_CORE_REDUCED) * n;
    const double kept = forms->leuco_share[dye];
    for (int l = 0; l < n; l++) {
        double oxidised = 0.0;
        for (int c = 0; c < SL_CHANNELS; c++) {
            oxidised += forms->k[dye][c][l] * dydt[(dose + c) * n + l];
        }
        const double reduced = forms->reduced[dye][l] * drive[l] * coloured[l];
        const double lost = oxidised * coloured[l];
        const double back =
            at->back[l] *
            (forms->air_return[dye][l] * now->air + forms->oxidant_return[dye][l] * oxidants[l]) * pale[l];
        d_coloured[l] = back - lost - reduced;
        d_pale[l] = kept * reduced - back;
        d_destroyed[l] = lost + (1.0 - kept) * reduced;
    }
}

LANES_INLINE void lane_form_slopes(const int n, const lane_phase *restrict now, const lane_pace *restrict at,
                                   const lane_forms *restrict forms, const double *restrict y,
                                   double *restrict dydt)
{
    double oxidants[SL_PLACES_IN_HAIR][LANES];
    for (int l = 0; l < n; l++) {
        const double W = most(y[AT_WETNESS * n + l], 0.0);
        oxidants[SL_AT_RIM][l] = oxidants[SL_IN_CORE][l] = 0.0;
#define ADD(NAME, name, ...)                                                                                 \
    oxidants[SL_AT_RIM][l] += now->touch * W * most(y[AT_##NAME * n + l], 0.0);                              \
    oxidants[SL_IN_CORE][l] += (now->touch + (1.0 - now->bath) * W) * most(y[AT_FIBRE_##NAME * n + l], 0.0);
        SL_OXIDANT_LIST(ADD)
#undef ADD
    }
    for (int i = 0; i < forms->n; i++) {
        for (int place = 0; place < SL_PLACES_IN_HAIR; place++) {
            lane_one_form(n, now, at, forms, i, place, oxidants[place], y, dydt);
        }
    }
}

#endif
