/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The oxidants and their ways to oxidise, told once: states and members bear these names, files, tables and
 * panels list them from here. A new one is a row here, its numbers in the chemistry (model.h), what a mix
 * holds of it (src/model/dilution.c) and its terms in the right-hand side (src/kinetics/slopes.h).
 */
#ifndef SLOWLIFT_OXIDANT_H
#define SLOWLIFT_OXIDANT_H

/* What is dissolved in a mix and enters the fibre. One row each: NAME as in SL_OXIDANT_NAME; name as members
 * have it (name_mol_l of a moment and of a charge, name_diffusion_cm2_s of a chemistry); what people call it.
 * SL_DOUBT_NAME_ENTRY (doubt.h) is how sure its entry is. */
#define SL_OXIDANT_LIST(ROW)                                                                                 \
    ROW(PEROXIDE, peroxide, N_("peroxide"))                                                                  \
    ROW(PERSULFATE, persulfate, N_("persulfate"))

/* The ways to be oxidised, from which doses have their names. One row each: NAME as in SL_NAME; name in the
 * right-hand side; its dose for people.
 *   channel 1: HO2- as a nucleophile; 2: peroxydisulfate itself; 3: both together (radical flux). */
#define SL_CHANNEL_LIST(ROW)                                                                                 \
    ROW(PERHYDROXYL, perhydroxyl, N_("perhydroxyl"))                                                         \
    ROW(PERSULFATE, persulfate, N_("persulfate"))                                                            \
    ROW(RADICAL, radical, N_("radical (mol² min/L²)"))

/* What a channel takes out of the fibre where pigments use up oxidant: mol of the oxidant per mol of what
 * the channel takes. A pair that is not here takes nothing. */
#define SL_TAKEN_LIST(ROW)                                                                                   \
    ROW(PERHYDROXYL, PEROXIDE, 1.0)                                                                          \
    ROW(PERSULFATE, PERSULFATE, 1.0)                                                                         \
    ROW(RADICAL, PEROXIDE, 0.5)                                                                              \
    ROW(RADICAL, PERSULFATE, 0.5)

#define SL_OXIDANT_AS_ENUM(NAME, name, words) SL_OXIDANT_##NAME,
enum { SL_OXIDANT_LIST(SL_OXIDANT_AS_ENUM) SL_OXIDANTS };
#undef SL_OXIDANT_AS_ENUM

#define SL_CHANNEL_AS_ENUM(NAME, name, dose) SL_##NAME,
enum { SL_CHANNEL_LIST(SL_CHANNEL_AS_ENUM) SL_CHANNELS };
#undef SL_CHANNEL_AS_ENUM

#endif
