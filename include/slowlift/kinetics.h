/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Oxidants -> doses -> what is left. A *treatment* says what happens to one class of
 * hair (mixes, steps, clock, temperature); a *course* is its solution, readable at any
 * time; a *solver* is the scratch that makes courses, one per thread.
 *
 * Equations: docs/science.md, "The system". Times are minutes on the scene's clock.
 */
#ifndef SLOWLIFT_KINETICS_H
#define SLOWLIFT_KINETICS_H

#include <stdbool.h>

#include "slowlift/error.h"
#include "slowlift/model.h"

#pragma GCC visibility push(default)

typedef struct sl_solver sl_solver; /* scratch; never shared between threads */
typedef struct sl_course sl_course; /* solution; const readers may share it */

typedef struct sl_accuracy {
    double absolute;    /* of mol/L, doses and exponents; default 1e-10 */
    double relative;    /* default 1e-10 */
    double longest_min; /* longest step; default 2 */
} sl_accuracy;
sl_accuracy sl_accuracy_default(void);

/* NULL with *error set when memory runs out. Solving again with it allocates nothing
 * once courses have grown to their size. */
sl_solver *sl_solver_new(sl_error *error);
void sl_solver_free(sl_solver *solver); /* NULL is allowed */
void sl_solver_set_accuracy(sl_solver *solver, sl_accuracy accuracy);

/* One pigment of the full system: what the fibre's oxidants do to it there. */
typedef struct sl_target {
    const sl_rates *rates;  /* borrowed */
    double held_mol_l;      /* mol per L fibre water at the start (pigment feedback) */
    double oxidant_per_mol; /* mol of oxidant used per mol destroyed */
    double rim_share;       /* share met by the mix itself; 0 for melanin */
    const sl_dye *dye;      /* whose colourless form is followed, borrowed; NULL: none is */
} sl_target;

enum { SL_MAX_TARGETS = SL_MAX_DYES_PER_ZONE + SL_MELANINS };

typedef struct sl_treatment {
    const sl_scene *scene; /* chemistry, mixes, place, temperatures; borrowed */
    const sl_arm *arm;     /* steps and contact time; borrowed */
    double porosity;       /* hair exchange class: multiplies exchange */
    double cystine_intact; /*   and cystine at the start */
    double until_min;
    int n_targets; /* 0: doses only (the shared system). Otherwise the full system:
                      every target has exponents of its own */
    sl_target target[SL_MAX_TARGETS];
} sl_treatment;

/* Below this, nothing that a mix warms itself by is counted (K): it changes a rate by less than one part in
 * fifty. */
static const double SL_WARMS_FROM_K = 0.2;
/* By how much an arm's mixes warm themselves above what their place would make them, as planned. */
typedef struct sl_mix_warmth {
    double hair_k, since_contact_min; /* the most on hair, K, and when, from the arm's contact */
    double bowl_k;                    /* the most in a bowl */
} sl_mix_warmth;
/* All 0 where that is below SL_WARMS_FROM_K, or the chemistry has no heat. Fails as sl_course_solve. */
bool sl_mix_warms(sl_solver *solver, const sl_scene *scene, int arm, sl_mix_warmth *warmth, sl_error *error);

/* Where dye lies, and what it is there. */
enum { SL_AT_RIM, SL_IN_CORE, SL_PLACES_IN_HAIR };
enum { SL_COLOURED, SL_COLOURLESS, SL_DESTROYED, SL_FORMS };

/* Everything at one moment. Doses in mol min/L (channel 3: mol2 min/L2). */
#define SL_IN_MIX_AND_FIBRE(NAME, name, ...) double name##_mol_l, fibre_##name##_mol_l;
typedef struct sl_moment {
    SL_OXIDANT_LIST(SL_IN_MIX_AND_FIBRE) /* in the mix on the hair, and in the fibre's water */
    double undissolved_mol_l;            /* in the mix */
    double wetness;                      /* 1 wet .. 0 dry */
    double rim_dose[SL_CHANNELS], core_dose[SL_CHANNELS];
    double cystine_intact;                /* C */
    double leach_min;                     /* equivalent minutes of standing wet */
    double shampoos;                      /* done so far; grows during one */
    double rim_exponent[SL_MAX_TARGETS];  /* full system only, else 0: */
    double core_exponent[SL_MAX_TARGETS]; /*   -ln of what is left by oxidation */
    double reductant_mol_l, fibre_reductant_mol_l; /* of an arm that reduces, else 0: */
    double rim_reduced, core_reduced;              /*   doses, mol min/L at 1 mol/L */
    int reductant;                                 /*   sl_reductant_id that these are of */
    int n_forms; /* dyes whose colourless form was followed: those of the zone, else 0 */
    double form[SL_MAX_DYES_PER_ZONE][SL_PLACES_IN_HAIR][SL_FORMS]; /* shares of what lay there, washing
                                                                       left out: their sum is 1 */
} sl_moment;
#undef SL_IN_MIX_AND_FIBRE

/* Solve; *course is made when it points to NULL, else reused. On failure the old
 * contents of *course are unspecified but it may be solved again or freed.
 * Fails: SL_ERR_OUTSIDE_MODEL (an arm that sl_arm_in_model does not cover), SL_ERR_SOLVER,
 * SL_ERR_NOT_FINITE, SL_ERR_NO_MEMORY. */
bool sl_course_solve(sl_course **course, const sl_treatment *treatment, sl_solver *solver, sl_error *error);
/* Minutes at rest after which rinsed hair counts as dry: its wetness is a 400th, and what still reacts is
 * nothing to what has; four hours at most. */
double sl_rest_until_dry_min(const sl_chemistry *chemistry);
/* After which a strip that was rinsed is read: then, or where a reducing mix was put on a day later, since
 * what comes back takes its time. */
double sl_settled_min(const sl_scene *scene, const sl_arm *arm);
/* The end of what can be asked about hair rinsed at any moment, on the scene's clock: its end, or on a clock
 * of more than a day as long after the last application began as a label can allow. */
double sl_rinsed_until_min(const sl_scene *scene, const sl_arm *arm);
/* The same for hair that is rinsed at any moment: from the contact of the last application on, sl_course_at()
 * then gives doses, exponents, cystine and washing as they are once hair rinsed at that moment has been
 * washed as planned and has dried, however long the dwell was planned; oxidants are what remains of them, and
 * wetness is nothing to go by. Before that contact: as solved above. */
bool sl_course_solve_rinsed(sl_course **course, const sl_treatment *treatment, sl_solver *solver,
                            sl_error *error);
void sl_course_free(sl_course *course);

/* The state at time t (clamped to [0, until]); before contact the mix does not exist
 * and all doses are zero. */
void sl_course_at(const sl_course *course, double time_min, sl_moment *moment);
/* Right-hand-side calls the solution took (bench, science view). */
long sl_course_calls(const sl_course *course);

enum { SL_RIM_LEACHES = 4 }; /* washing reaches the rim so many times as fast as the cortex (assumed) */

/* By what exponents washing alone has lessened a dye at the rim and in the core, each of which may hold a
 * share of it loosely: w = kL t - ln(lambda exp(-l N) + (1-lambda) exp(-s N)), in the core of quarters of kL,
 * l and s.
 */
typedef struct sl_dye_washing {
    double rim, core;
} sl_dye_washing;
sl_dye_washing sl_dye_washed(const sl_dye *dye, double leach_min, double shampoos);

/* What oxidation and washing leave of a dye, 0..1, from doses:
 *   fs exp(-(k.X + w at the rim)) + (1-fs) exp(-(k.Y + w in the core)). */
double sl_dye_left(const sl_dye *dye, const sl_moment *moment);
/* Shares of a dye's start: what is left in the hair, and what washing has brought out of it
 * and oxidants have not destroyed (docs/science.md, "Stains"). Their sum is at most 1. */
typedef struct sl_dye_fate {
    double left, loosened;
    double colourless; /* still in the hair as the form that comes back */
} sl_dye_fate;
enum { SL_FROM_DOSES = -1 };
/* target: of the full system, or SL_FROM_DOSES. */
sl_dye_fate sl_dye_fate_at(const sl_dye *dye, const sl_moment *moment, int target);
/* sum over channels of k*core dose: the melanins' exponent in the shared system. */
double sl_core_exponent(const sl_rates *rates, const sl_moment *moment);

/* Fold activation energies of a target's own into its constants, for a temperature that
 * does not change: k becomes k E(own)/E(channel) and own_activation is cleared. */
void sl_rates_settle(sl_rates *rates, const sl_chemistry *chemistry, double temperature_k);

/* ---- may zones share one solve? --------------------------------------------------- */

#define SL_SHARING_LIST(X)                                                                                   \
    X(SL_SHARING_VALID, "one solve serves")                                                                  \
    X(SL_SHARING_NOT_SAME_HAIR, "another hair exchange class")                                               \
    X(SL_SHARING_PIGMENT_FEEDBACK, "pigments use up oxidant")                                                \
    X(SL_SHARING_COLOURLESS, "a dye with a colourless form that comes back")                                 \
    X(SL_SHARING_OWN_ACTIVATION, "a dye with its own activation energy while the temperature changes")
#define SL_AS_ENUM(name, word) name,
typedef enum sl_sharing { SL_SHARING_LIST(SL_AS_ENUM) SL_SHARING_COUNT } sl_sharing;
#undef SL_AS_ENUM
const char *sl_sharing_word(sl_sharing sharing);

/* Whether zone `zone` of `arm` can read its pigments from doses that were solved for
 * hair like `hair` under the same arm (so the same mix, mix age and temperature course). */
sl_sharing sl_zone_sharing(const sl_scene *scene, const sl_arm *arm, int zone, const sl_hair *hair);
/* Whether `arm` does to its hair just what `earlier` does, minute by minute from its own contact on, and no
 * sooner: then a course of that one, read as many minutes later, is one of this. */
bool sl_arm_repeats(const sl_scene *scene, const sl_arm *arm, const sl_arm *earlier);

#pragma GCC visibility pop

#endif
