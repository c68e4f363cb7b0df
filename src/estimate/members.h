/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sixteen members of an ensemble: their draws turned into factors on the constants, and what
 * one of them reads of a zone. Private to src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_MEMBERS_H
#define SLOWLIFT_ESTIMATE_MEMBERS_H

#include "kinetics/lanes.h"
#include "slowlift/optics.h"
#include "slowlift/spread.h"

enum { MEMBER_MOST_DYES = SL_MAX_ZONES * SL_MAX_DYES_PER_ZONE };

typedef struct drawn_members {
    lane_members lanes;
    double dye[MEMBER_MOST_DYES][LANES];                 /* factor on all channels of scene->dyes[i] */
    double dye_by[MEMBER_MOST_DYES][SL_CHANNELS][LANES]; /* and on each: how it is divided among them */
    double u[LANES][SL_MOST_DRAWN];                      /* the uniform draws themselves */
    bool reduces;                                        /* the next two are set */
    double reduced[MEMBER_MOST_DYES][LANES]; /* what turns the own widths of dye i's rates with agents */
    double returns[MEMBER_MOST_DYES][LANES]; /* factors of dye i on the rates of what comes back */
} drawn_members;

/* Members that differ in nothing from the scene. */
void members_begin(drawn_members *drawn);
void members_draw(drawn_members *drawn, const sl_draw_plan *plan, uint64_t seed, long first);

/* The lanes through this arm in hair of this kind, by lanes_run or lanes_run_rinsed; nothing is done when
 * `*solved`, of which the history is (NULL: of none), is as porous and as damaged. False: *bad_lane is not
 * finite or out of range. */
typedef bool lanes_solver(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
                          double cystine, const lane_members *members, int *bad_lane);
bool members_solve(lane_history *history, const sl_hair **solved, lanes_solver *solve, const sl_scene *scene,
                   const sl_arm *arm, const sl_hair *hair, const lane_members *member, int *bad_lane);
/* The same of the hair and the dyes of a zone: where a colourless form comes back, a history of that zone
 * alone. */
bool members_solve_zone(lane_history *history, const sl_hair **solved, lanes_solver *solve,
                        const sl_scene *scene, const sl_arm *arm, int zone, const drawn_members *drawn,
                        int *bad_lane);

/* Always false: *error says which member of which arm came to nothing that is finite and in range, or that
 * there was no memory (a member below 0). */
bool member_blame(sl_error *error, const sl_scene *scene, long member, int arm);

/* What does not hang on a member: computed once for a scene. */
typedef struct member_ground {
    const sl_optics *dry; /* borrowed; NULL unless a goal asks to come near undyed hair */
    double weight[SL_MAX_ZONES][SL_MAX_DYES_PER_ZONE]; /* of a zone's dyes in its colour, sum 1 */
    double absorbance0[SL_MAX_ZONES];                  /* of its hair's melanins */
} member_ground;

void member_ground_make(member_ground *ground, const sl_scene *scene, const sl_optics *dry);

/* One zone of dyed hair with sixteen members' constants against the doses. An energy of a pigment's own is
 * taken at the temperature of the contact, with the member's own warmth: exact while that stays, an estimate
 * while it changes. */
typedef struct member_zone {
    const sl_scene *scene;
    const sl_hair *hair;
    const sl_recipe *recipe;
    const double *weight; /* of the ground */
    double absorbance0;
    double dye_k[SL_MAX_DYES_PER_ZONE][SL_CHANNELS][LANES];
    double melanin_k[SL_MELANINS][SL_CHANNELS][LANES];
    bool reduces, returns; /* the arm; and its dyes' forms are in the history */
    double reduced_k[SL_MAX_DYES_PER_ZONE][LANES];
} member_zone;

void member_zone_make(member_zone *made, const member_ground *ground, const sl_scene *scene,
                      const sl_arm *arm, int zone, const drawn_members *drawn);

/* One lane's doses at one moment: `share` into the step that begins at entry `step` of the history. */
typedef struct lane_moment {
    double rim[SL_CHANNELS], core[SL_CHANNELS], cystine, leach_min, shampoos;
    double reducing[LANE_REDUCING]; /* as in the history; 0 where nothing reduces */
} lane_moment;

lane_moment lane_moment_at(const lane_history *history, int lane, int step, double share);

/* Shares, as science.md defines them, of dye i of the zone, of its colour, of its base and of its cystine.
 * The last two are below 0 by a rounding where nothing has happened. */
double member_dye_left(const member_zone *zone, int i, int lane, const lane_moment *moment);
double member_left(const member_zone *zone, int lane, const lane_moment *moment);
double member_base_moved(const member_zone *zone, int lane, const lane_moment *moment);
double member_cystine_lost(const member_zone *zone, const lane_moment *moment);
/* What is in each pool of melanin then. */
void member_pools(const member_zone *zone, int lane, const lane_moment *moment,
                  double pool[SL_MELANINS][SL_STAGES]);

typedef struct member_reading {
    double left, base_moved, cystine_lost;
} member_reading;

/* At a minute since contact, clamped to the history; straight between its steps. */
member_reading member_read(const member_zone *zone, const lane_history *history, int lane, double minute);
/* First minute at which colour left is at most `share`; false: never. Of dyes that come back: the first step
 * at whose end it is. */
bool member_gone(const member_zone *zone, const lane_history *history, int lane, double share,
                 double *minute);

#endif
