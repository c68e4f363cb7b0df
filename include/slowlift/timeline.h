/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The story of a scene: every strip, zone and moment, computed and coloured. Made once
 * per scene, read-only afterwards; a what-if makes another.
 */
#ifndef SLOWLIFT_TIMELINE_H
#define SLOWLIFT_TIMELINE_H

#include <stdbool.h>

#include "slowlift/error.h"
#include "slowlift/kinetics.h"
#include "slowlift/model.h"
#include "slowlift/optics.h"

#pragma GCC visibility push(default)

/* One zone of one strip at one moment. Definitions: docs/file-format.md, "Quantities". */
typedef struct sl_cell {
    double colour_left;   /* 0..1, each dye weighted by its absorbance at the start; -1 when
                             the zone holds no dye */
    double colourless;    /* 0..1, of the same: dye that is there without its colour, and comes back */
    double base_moved;    /* 0..1: 1 - melanin's absorbance over that at the start */
    double cystine_lost;  /* 0..1: 1 - C over C at the start */
    double levels_lifted; /* >= 0 */
    double level;         /* the level it now reads, SL_LEVEL_END at most */
    double stain;         /* 0..0.5: absorbance that settled here from the neighbours over that of
                             their dyes at the start; -1 when neither holds a dye that stains */
    double loosened[SL_MAX_DYES_PER_ZONE]; /* of each dye of the recipe: the share that washing
                              brought out and that has kept its colour, 0..1 */
    sl_amounts amounts;                    /* recipe borrowed from the scene */
    sl_colour colour;
} sl_cell;

typedef struct sl_timeline sl_timeline;

/* Solve and paint `scene` at `n_times` times (scene clock, minutes, any order; n_times
 * may be 0). *timeline is made when it points to NULL, else reused. The scene is
 * borrowed and must outlive the timeline. An arm outside the model (reductive or
 * unknown mechanism) is not solved: see sl_timeline_predicted. optics may be NULL: no
 * colours then. Fails as sl_course_solve. */
bool sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times_min, int n_times,
                       sl_solver *solver, const sl_optics *optics, sl_error *error);
void sl_timeline_free(sl_timeline *timeline); /* NULL is allowed */

/* Solve the story of hair rinsed at any moment, too (sl_course_solve_rinsed): read at a moment of an arm's
 * last dwell, a zone is there as it will be once hair rinsed then has been washed as planned and has dried.
 * The dwell may go on to the scene's end, however long it was planned. It goes when the timeline is solved
 * anew. */
bool sl_timeline_rinse(sl_timeline *timeline, sl_solver *solver, sl_error *error);
/* Borrowed; NULL when it was not asked for. */
const sl_timeline *sl_timeline_rinsed(const sl_timeline *timeline);

const sl_scene *sl_timeline_scene(const sl_timeline *timeline);
/* By how much the mixes of an arm warm themselves; 0 of an arm that is not predicted. */
sl_mix_warmth sl_timeline_warmth(const sl_timeline *timeline, int arm);
int sl_timeline_n_times(const sl_timeline *timeline);
double sl_timeline_time(const sl_timeline *timeline, int time);

/* The cell [arm][zone][time], indices in range. For an arm that is not predicted the
 * cell holds the start. */
const sl_cell *sl_timeline_cell(const sl_timeline *timeline, int arm, int zone, int time);

/* The same at any moment of the scene's clock (clamped to 0..until): exact to the
 * solver's accuracy, not interpolated between output times. optics as in solve. */
void sl_timeline_at(const sl_timeline *timeline, int arm, int zone, double time_min, const sl_optics *optics,
                    sl_cell *cell);
/* Its share of colour left: sl_cell's colour_left, below 0 where the zone has no dye. */
double sl_left_at(const sl_timeline *timeline, int arm, int zone, double time_min);
/* Doses and oxidants there. All zero for an arm that is not predicted. */
void sl_timeline_moment(const sl_timeline *timeline, int arm, int zone, double time_min, sl_moment *moment);

/* Dry hair by D65 for the 2 degree observer, for a goal of nearness to undyed hair; NULL when the
 * scene sets none. */
const sl_optics *sl_timeline_dry(const sl_timeline *timeline);

/* What lies on an arm's hair at a moment of the scene's clock. */
typedef enum sl_lying { SL_LIES_NOTHING, SL_LIES_MIX, SL_LIES_WATER } sl_lying;
typedef struct sl_on_hair {
    sl_lying what; /* water: while rinsing and shampooing */
    int step;      /* of the arm; -1 before contact and after the last step */
    int mix;       /* index into scene->mixes; -1 unless a mix lies there */
} sl_on_hair;
sl_on_hair sl_arm_on_hair(const sl_arm *arm, double clock_min);

/* False: the arm's mechanism is reductive or unknown; nothing about it is computed. */
bool sl_timeline_predicted(const sl_timeline *timeline, int arm);
/* How the zone was solved: SL_SHARING_VALID (read from shared doses), or why the full
 * system ran for it. */
sl_sharing sl_timeline_method(const sl_timeline *timeline, int arm, int zone);
/* Number of ODE solves and right-hand-side calls that the timeline took. */
int sl_timeline_solves(const sl_timeline *timeline);
long sl_timeline_calls(const sl_timeline *timeline);

#pragma GCC visibility pop

#endif
