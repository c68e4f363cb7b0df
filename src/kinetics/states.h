/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The state vector of the system (docs/science.md). Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_STATES_H
#define SLOWLIFT_KINETICS_STATES_H

#include "slowlift/kinetics.h"

/* What the bath holds comes first: fresh with each mix, gone with it. Exponents stand in the full system
 * only, what reduces behind them, and in arms alone that do: others never see those rows. */
#define AT_IN_MIX(NAME, name, ...) AT_##NAME,
#define AT_IN_FIBRE(NAME, name, ...) AT_FIBRE_##NAME,
enum {
    SL_OXIDANT_LIST(AT_IN_MIX) /* H, P, mol/L in the mix */
    AT_UNDISSOLVED,            /* U, mol per L of mix */
    BATH_STATES,
    AT_WETNESS = BATH_STATES,                 /* W, 1..0 */
    SL_OXIDANT_LIST(AT_IN_FIBRE)              /* h, p, mol/L fibre water */
    AT_RIM_DOSE,                              /* [channel] X */
    AT_CORE_DOSE = AT_RIM_DOSE + SL_CHANNELS, /* [channel] Y */
    AT_CYSTINE = AT_CORE_DOSE + SL_CHANNELS,  /* C */
    SHARED_STATES,
    AT_RIM_EXPONENT = SHARED_STATES,                     /* [target] */
    AT_CORE_EXPONENT = AT_RIM_EXPONENT + SL_MAX_TARGETS, /* [target] */
    FULL_STATES = AT_CORE_EXPONENT + SL_MAX_TARGETS,
    AT_REDUCTANT = FULL_STATES, /* R, mol/L in the mix */
    AT_FIBRE_REDUCTANT,         /* r, mol/L fibre water */
    AT_RIM_REDUCED,             /* X4 */
    AT_CORE_REDUCED,            /* Y4 */
    AT_FORMS,                   /* [dye][place][form], shares of the dye at its place */
    REDUCING_STATES = AT_FORMS + SL_MAX_DYES_PER_ZONE * SL_PLACES_IN_HAIR * SL_FORMS,
    AT_MIX_WARMTH = SHARED_STATES, /* of the course of a mix, in place of exponents: K above its place */
    MIX_STATES
};

/* The row of one form of dye i of a zone. */
static inline int at_form(int dye, int place, int form)
{
    return AT_FORMS + (dye * SL_PLACES_IN_HAIR + place) * SL_FORMS + form;
}
#undef AT_IN_MIX
#undef AT_IN_FIBRE

/* A bath of fresh mix, in the states' order. */
static inline void bath_of(const sl_charge *charge, double bath[BATH_STATES])
{
#define FRESH(NAME, name, ...) bath[AT_##NAME] = charge->name##_mol_l;
    SL_OXIDANT_LIST(FRESH)
#undef FRESH
    bath[AT_UNDISSOLVED] = charge->undissolved_mol_l;
}

#endif
