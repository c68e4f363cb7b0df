/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What decides the pH of a mix beside its persulfates, percarbonate and peroxide, told once: a mix and its
 * file name it, the balance of its charges (src/model/mix_ph.c) counts it. A new one is a row here.
 */
#ifndef SLOWLIFT_INGREDIENT_H
#define SLOWLIFT_INGREDIENT_H

/* One row each: NAME as in SL_NAME; name as a mix file calls it; what people call it; g/mol; the family of
 * solution.h that one mol brings one of; mol of sodium with it. */
#define SL_INGREDIENT_LIST(ROW)                                                                              \
    ROW(METASILICATE, metasilicate, N_("metasilicate"), 122.063, SL_SILICATE, 2)                             \
    ROW(SODA, carbonate, N_("carbonate"), 105.988, SL_CARBONATE, 2)                                          \
    ROW(TRISODIUM_PHOSPHATE, phosphate, N_("phosphate"), 163.940, SL_PHOSPHATE, 3)                           \
    ROW(DISSOLVED_AMMONIA, ammonia, N_("ammonia"), 17.031, SL_AMMONIA, 0)                                    \
    ROW(AMINE, ethanolamine, N_("ethanolamine"), 61.083, SL_ETHANOLAMINE, 0)                                 \
    ROW(PHOSPHORIC_ACID, phosphoric_acid, N_("phosphoric acid"), 97.995, SL_PHOSPHATE, 0)

/* The parts of a mix that hold them: NAME as in SL_OF_NAME; name as in name_parts of a mix and name_holds of
 * its file. Water stands for a watery second part, too. */
#define SL_HOLDER_LIST(ROW)                                                                                  \
    ROW(POWDER, powder)                                                                                      \
    ROW(DEVELOPER, developer)                                                                                \
    ROW(WATER, water)

#define SL_AS_ENUM(NAME, ...) SL_##NAME,
enum { SL_INGREDIENT_LIST(SL_AS_ENUM) SL_INGREDIENTS };
#undef SL_AS_ENUM
#define SL_AS_ENUM(NAME, name) SL_OF_##NAME,
enum { SL_HOLDER_LIST(SL_AS_ENUM) SL_HOLDERS };
#undef SL_AS_ENUM

#endif
