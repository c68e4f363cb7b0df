/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is in doubt about a scene, told once: ensembles draw it, a lane's right-hand side turns by it,
 * "measure next" names it. A new doubt is a row here and its use in the right-hand side
 * (src/kinetics/slopes.h).
 *
 * Invariant: how doubtful a strip is goes by its own mixes and agents, whatever stands beside it.
 */
#ifndef SLOWLIFT_DOUBT_H
#define SLOWLIFT_DOUBT_H

#include "slowlift/model.h"

/* In place of a width: each mix or agent turns the draw by one of its own (below); 95 of 100 draws lie within
 * plus or minus 1. One draw serves all of them, as what makes them doubtful is one: the same balance of
 * charges, the same powder, the same hair. */
#define SL_OWN_WIDTH 1.0

/* One row each, in the order of the draws: name; what leaves its number as it is (0: a draw is added, or
 * turned by an own width; 1: it is a factor); the weakest grade behind it (of own widths: nothing); how wide,
 * as 95 of 100 draws lie within plus or minus it or within the value times and over it; what it is; how to
 * know it better. Grade and width are worked out in src/estimate/draws.c, of a `scene`, its chemistry `ch`,
 * and the `grade`. */
#define SL_DOUBT_LIST(X)                                                                                     \
    X(PH, 0.0, SL_GRADE_ASSUMED, SL_OWN_WIDTH, N_("the pH of the mixes"),                                    \
      N_("measure the pH of each mix, fresh and after half an hour"))                                        \
    X(WARMTH, 0.0, SL_GRADE_ASSUMED, WARMTH_K, N_("how warm the hair is"),                                   \
      N_("measure the temperature of the hair, not of the room"))                                            \
    X(PEROXIDE_ENTRY, 1.0, ch->peroxide_diffusion_cm2_s.grade, sl_grade_factor(grade),                       \
      N_("how fast peroxide enters the fibre"),                                                              \
      N_("run one dyed strand with peroxide alone, rinsed at several times"))                                \
    X(PERSULFATE_ENTRY, 1.0, ch->persulfate_diffusion_cm2_s.grade, sl_grade_factor(grade),                   \
      N_("how fast persulfate enters the fibre"),                                                            \
      N_("run one dyed strand with powder and water, rinsed at several times"))                              \
    X(PARTITION, 1.0, ch->persulfate_partition.grade, sl_grade_factor(grade),                                \
      N_("how much persulfate the fibre takes up"), N_("run strands with half and with all of the powder"))  \
    X(SATURATION, 1.0, ch->saturation_mol_l.grade, sl_grade_factor(grade),                                   \
      N_("how far more peroxide still helps"), N_("run strands with 3 % and with 6 %"))                      \
    X(COUPLE, 1.0, ch->couple_l_mol_min.grade, sl_grade_factor(grade),                                       \
      N_("how fast peroxide and persulfate use each other up"),                                              \
      N_("test a mix that has stood for half an hour against a fresh one"))                                  \
    X(LOSS, 0.0, SL_GRADE_ASSUMED, SL_OWN_WIDTH, N_("how fast the peroxide is lost"),                        \
      N_("titrate the peroxide of the mix at 0, 30 and 60 minutes"))                                         \
    X(CYSTINE, 1.0, weakest_rate(&ch->cystine), sl_grade_factor(grade), N_("how fast the hair is hurt"),     \
      N_("stretch-test undyed strands rinsed at several times"))                                             \
    X(MELANIN, 1.0, weakest_melanin(ch), sl_grade_factor(grade), N_("how fast the base moves"),              \
      N_("read undyed strands rinsed at several times"))                                                     \
    X(RADICAL, 1.0, ch->couple_l_mol_min.grade, sl_grade_factor(grade),                                      \
      N_("how much peroxide and persulfate do together"),                                                    \
      N_("run the same strand with powder and water beside powder and 6 %"))                                 \
    X(OPENING, 1.0, weakest_opening(ch), sl_grade_factor(grade), N_("how much hurt hair opens"),             \
      N_("run a strand of virgin beside one of lightened hair"))                                             \
    X(GRAMS, 1.0, SL_GRADE_ASSUMED, WEIGHING, N_("how much mix is on the hair"),                             \
      N_("weigh the mix on each swatch"))

/* The same of scenes alone that hold a mix with a reducing agent, drawn behind all others. */
#define SL_DOUBT_AGENT_LIST(X)                                                                               \
    X(AGENT_ENTRY, 0.0, SL_GRADE_ASSUMED, SL_OWN_WIDTH, N_("how fast the reducing agent enters the fibre"),  \
      N_("run one dyed strand with the reducing mix, rinsed at several times"))                              \
    X(AGENT_LOSS, 0.0, SL_GRADE_ASSUMED, SL_OWN_WIDTH, N_("how fast air uses up the reducing agent"),        \
      N_("run a strand with a reducing mix that stood open for half an hour beside a fresh one"))
/* Of each `dye` that an agent reduces, by itself; the first by each agent as widely as its own rate. */
#define SL_DOUBT_REDUCED_LIST(X)                                                                             \
    X(REDUCED, 0.0, SL_GRADE_ASSUMED, SL_OWN_WIDTH, N_("how fast the reducing agent takes this dye"),        \
      N_("rinse snips of one dyed swatch at 5, 10, 20 and 30 minutes of the reducing mix"))                  \
    X(RETURN, 1.0, returns_grade(dye), sl_reduction_factor(grade), N_("how fast this dye comes back"),       \
      N_("look at the same rinsed snips after an hour, a day and three days"))

#define SL_DOUBT_AS_ENUM(name, unchanged, grade, width, what, measure) SL_DOUBT_##name,
typedef enum sl_doubt {
    SL_DOUBT_LIST(SL_DOUBT_AS_ENUM) SL_DOUBT_DYE, /* of each direct dye by itself, behind all of those */
    /* how what takes a target is divided among its channels: one draw for each that has a part in it */
    SL_DOUBT_CYSTINE_BY,
    SL_DOUBT_MELANIN_BY,
    SL_DOUBT_DYE_BY, /* of each direct dye by itself */
    SL_DOUBT_AGENT_LIST(SL_DOUBT_AS_ENUM) SL_DOUBT_REDUCED_LIST(SL_DOUBT_AS_ENUM) SL_DOUBTS
} sl_doubt;
#undef SL_DOUBT_AS_ENUM

#pragma GCC visibility push(default)

/* Width of a grade: 95 of 100 draws lie within the value times and over this factor. */
double sl_grade_factor(sl_grade grade);
/* The same of what is known of reduction: of what is assumed of it, 95 of 100 draws fill a decade. */
double sl_reduction_factor(sl_grade grade);
/* Plus or minus of a mix's pH at 25 C, that 95 of 100 draws lie within: as computed, or by the grade of a
 * typed one. */
double sl_mix_ph_within(const sl_mix *mix);
/* The factor within which the rate lies at which a mix loses its peroxide by itself. */
double sl_mix_loss_within(const sl_mix *mix);

#pragma GCC visibility pop

#endif
