/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is dissolved in a mix, and the pH at which its charges balance. Equations and sources:
 * docs/science.md, "pH of a mix".
 *
 * Amounts are mol per kg of water, counted as mol/L. Activity coefficients are those of specific ion
 * interaction (Scatchard 1936, Guggenheim & Turgeon 1955), which holds to 3 mol/kg and a little above.
 */
#ifndef SLOWLIFT_SOLUTION_H
#define SLOWLIFT_SOLUTION_H

#include "slowlift/model.h"

#pragma GCC visibility push(default)

/* Ions whose charge does not depend on the pH. X(id, charge). */
#define SL_STRONG_ION_LIST(X)                                                                                \
    X(SL_SODIUM, +1)                                                                                         \
    X(SL_POTASSIUM, +1)                                                                                      \
    X(SL_CHLORIDE, -1)                                                                                       \
    X(SL_PEROXYDISULFATE, -2)

/* Acids with their bases, whole families: X(id, charge with all its protons, protons that it can lose). */
#define SL_ACID_LIST(X)                                                                                      \
    X(SL_AMMONIA, +1, 1)                                                                                     \
    X(SL_ETHANOLAMINE, +1, 1)                                                                                \
    X(SL_CARBONATE, 0, 2)                                                                                    \
    X(SL_SILICATE, 0, 2)                                                                                     \
    X(SL_PHOSPHATE, 0, 3)                                                                                    \
    X(SL_SULFATE, -1, 1)                                                                                     \
    X(SL_SULFITE, 0, 2)                                                                                      \
    X(SL_PEROXIDE, 0, 1)

#define SL_AS_ENUM(name, ...) name,
typedef enum sl_strong_ion { SL_STRONG_ION_LIST(SL_AS_ENUM) SL_STRONG_IONS } sl_strong_ion;
typedef enum sl_acid { SL_ACID_LIST(SL_AS_ENUM) SL_ACIDS } sl_acid;
#undef SL_AS_ENUM
enum { SL_MOST_PROTONS = 3 };

typedef struct sl_solution {
    double strong[SL_STRONG_IONS], acid[SL_ACIDS]; /* mol/kg, each family as a whole */
} sl_solution;

typedef struct sl_ionised {
    double ph;                                   /* -lg of the hydrogen ion's activity */
    double ionic_strength;                       /* mol/kg */
    double share[SL_ACIDS][SL_MOST_PROTONS + 1]; /* of each family, by protons lost; sums to 1 */
    double buffer;                               /* mol/kg of strong base for one unit of pH */
} sl_ionised;

/* lg of the acid's dissociation constant at infinite dilution, for its proton number `lost` (from 0), as
 * -pKa; temperature_k: 273..333. */
double sl_acid_lg(sl_acid acid, int lost, double temperature_k);
double sl_water_lg(double temperature_k); /* of the ion product of water */

/* False: its charges balance nowhere between pH 0 and 15. */
bool sl_solution_ionise(const sl_solution *solution, double temperature_k, sl_ionised *ionised);
/* How far the pH may lie off, pH units, because no interaction of ammonium with these anions is published and
 * that of sodium stands in its place: half of what 0.1 kg/mol either way makes (assumed). */
double sl_solution_doubt(const sl_solution *solution, double temperature_k);

/* ---- of a mix (src/model/mix_ph.c) ----------------------------------------------------- */

/* What is dissolved of the fresh mix without the hair's water: solid persulfate is not. Old powder counts as
 * fresh: what its persulfate turned into is not known. */
sl_solution sl_mix_solution(const sl_mix *mix, const sl_chemistry *chemistry);
/* Where its pH is computed: set it, its grade, its fall with warmth and with age, and its doubt. False: the
 * charges balance nowhere. A typed one stays. */
bool sl_mix_settle(sl_mix *mix, const sl_chemistry *chemistry);

#pragma GCC visibility pop

#endif
