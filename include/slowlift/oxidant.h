/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The oxidants and their ways to oxidise, told once: states and members bear these names, files, tables and
 * panels list them from here. A new one is a row here, its numbers in the chemistry (model.h), what a mix
 * holds of it (src/model/dilution.c) and its terms in the right-hand side (src/kinetics/slopes.h).
 */
#ifndef SLOWLIFT_OXIDANT_H
#define SLOWLIFT_OXIDANT_H

/* What is dissolved in a mix and enters the fibre. One row each: NAME as in SL_OXIDANT_NAME; name as members
 * have it (name_mol_l of a moment and of a charge, name_diffusion_cm2_s of a chemistry); which doubt of
 * doubt.h its entry is, which two that are much alike may share; what people call it. */
#define SL_OXIDANT_LIST(ROW)                                                                                 \
    ROW(PEROXIDE, peroxide, PEROXIDE_ENTRY, N_("peroxide"))                                                  \
    ROW(PERSULFATE, persulfate, PERSULFATE_ENTRY, N_("persulfate"))

/* The ways to be oxidised, from which doses have their names. One row each: NAME as in SL_NAME; name in the
 * right-hand side; the key of its rate constants in files (with "_activation", of its energy); whether every
 * target has to give one, or a silent file means 0; their order; its dose, its rate constant and its energy
 * for people; the quantity of tables that says how much of the work on the dye it did, and what did it.
 *   channel 1: HO2- as a nucleophile; 2: peroxydisulfate itself; 3: both together (radical flux). */
#define SL_CHANNEL_LIST(ROW)                                                                                 \
    ROW(PERHYDROXYL, perhydroxyl, "peroxide", true, 2, N_("perhydroxyl"), N_("rate with perhydroxyl"),       \
        N_("activation energy of the perhydroxyl channel"), "work_peroxide", N_("peroxide by itself"))       \
    ROW(PERSULFATE, persulfate, "persulfate", true, 2, N_("persulfate"), N_("rate with persulfate"),         \
        N_("activation energy of the persulfate channel"), "work_persulfate", N_("persulfate by itself"))    \
    ROW(RADICAL, radical, "radical", true, 3, N_("radical (mol² min/L²)"), N_("rate with radicals"),         \
        N_("activation energy of the radical channel"), "work_together",                                     \
        N_("peroxide and persulfate together"))

/* What a powder can hold that is an oxidant or gives one: the share of its mass, as a mix and a mix file call
 * it; what people call it, those of one word together. */
#define SL_POWDER_LIST(ROW)                                                                                  \
    ROW(potassium_persulfate, N_("persulfates"))                                                             \
    ROW(ammonium_persulfate, N_("persulfates"))                                                              \
    ROW(sodium_persulfate, N_("persulfates"))                                                                \
    ROW(percarbonate, N_("percarbonate"))

/* What a channel takes out of the fibre where pigments use up oxidant: mol of the oxidant per mol of what
 * the channel takes. A pair that is not here takes nothing. */
#define SL_TAKEN_LIST(ROW)                                                                                   \
    ROW(PERHYDROXYL, PEROXIDE, 1.0)                                                                          \
    ROW(PERSULFATE, PERSULFATE, 1.0)                                                                         \
    ROW(RADICAL, PEROXIDE, 0.5)                                                                              \
    ROW(RADICAL, PERSULFATE, 0.5)

#define SL_OXIDANT_AS_ENUM(NAME, ...) SL_OXIDANT_##NAME,
enum { SL_OXIDANT_LIST(SL_OXIDANT_AS_ENUM) SL_OXIDANTS };
#undef SL_OXIDANT_AS_ENUM

#define SL_CHANNEL_AS_ENUM(NAME, ...) SL_##NAME,
enum { SL_CHANNEL_LIST(SL_CHANNEL_AS_ENUM) SL_CHANNELS };
#undef SL_CHANNEL_AS_ENUM

#endif
