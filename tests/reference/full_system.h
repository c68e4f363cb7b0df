/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The full system of docs/science.md, solved by SUNDIALS CVODE: the reference that the
 * library is held against. Dyes and melanin stages are states (amounts), not exponents.
 * Written from the document alone: nothing of src/ is included or called, not even for
 * the charge of a mix or the perhydroxyl share.
 */
#ifndef SLOWLIFT_TESTS_FULL_SYSTEM_H
#define SLOWLIFT_TESTS_FULL_SYSTEM_H

#include <stdbool.h>

#include "slowlift/model.h"

/* States of the oxidants and of the hair; pigments follow from REF_SHARED on. */
enum {
    REF_PEROXIDE,
    REF_PERSULFATE,
    REF_SOLID,
    REF_WETNESS,
    REF_FIBRE_PEROXIDE,
    REF_FIBRE_PERSULFATE,
    REF_CYSTINE, /* share intact */
    REF_RIM,     /* three doses */
    REF_CORE = REF_RIM + SL_CHANNELS,
    REF_LEACH = REF_CORE + SL_CHANNELS,
    REF_SHAMPOOS,
    REF_REDUCTANT,
    REF_FIBRE_REDUCTANT,
    REF_MEAN, /* bath, wetness, fibre, cystine and doses at the rim of the mean hair, by whose heat a mix
                 warms itself */
    REF_WARMTH = REF_MEAN + REF_CORE, /* K above the place */
    REF_SHARED,
    REF_PER_DYE = 4,
    REF_PER_ZONE = 2 * REF_PER_DYE * SL_MAX_DYES_PER_ZONE + SL_MELANINS * SL_STAGES,
    REF_MOST = REF_SHARED + REF_PER_ZONE * SL_MAX_ZONES
};

/* Zones solved together; with pigment feedback give one zone. The first zone's hair sets
 * porosity and cystine. n_zones 0 with a hair: oxidants and doses alone. */
typedef struct ref_setup {
    const sl_scene *scene;
    const sl_arm *arm;
    const sl_hair *hair; /* used when n_zones is 0 */
    int n_zones;
    int zone[SL_MAX_ZONES];
} ref_setup;

typedef struct ref_method {
    bool adams; /* Adams with fixed-point iteration; else BDF with Newton and a dense matrix */
    double relative, absolute;
} ref_method;

/* Where zone number `z` of the setup keeps its amounts: dye i of its recipe from REF_PER_DYE i on, held and
 * loose at the rim, held and loose in the core, shares of the whole dye; then the melanin stages; then
 * the dyes' colourless forms as the dyes. */
int ref_zone_dyes(int z);
int ref_zone_pale(int z);
int ref_zone_melanin(int z);
/* All that is left of a dye whose amounts begin there. */
double ref_dye_left(const double *dye);
int ref_n_states(const ref_setup *setup);

/* Charge of the liquid before it reacts: peroxide, persulfate, solid, saturation (mol/L),
 * and mL of liquid per gram of hair. */
typedef struct ref_charge {
    double peroxide, persulfate, solid, saturation, liquid_ml_g, reductant;
} ref_charge;
ref_charge ref_mix_charge(const sl_chemistry *chemistry, const sl_mix *mix, double mix_g_per_g,
                          double hair_water_g_g);

/* The bowl after `age_min`: the charge's first three numbers moved on. False: CVODE failed. */
bool ref_bowl(const ref_setup *setup, const sl_step *step, ref_method method, ref_charge *charge,
              long *calls);

/* out[time][state] at rising times_min on the scene's clock, n_times rows of
 * ref_n_states. *calls counts right-hand sides. False: CVODE failed. */
bool ref_solve(const ref_setup *setup, ref_method method, const double *times_min, int n_times, double *out,
               long *calls);

/* The moment when a weighted sum of the states first comes down to a level. */
typedef struct ref_event {
    double weight[REF_SHARED + REF_PER_ZONE]; /* of one zone's states */
    double level;
} ref_event;

/* By CVODE's own root finding while it steps. *time_min is HUGE_VAL when that never happens before
 * until_min. False: CVODE failed. */
bool ref_event_time(const ref_setup *setup, ref_method method, const ref_event *event, double until_min,
                    double *time_min);

#endif
