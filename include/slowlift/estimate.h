/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When does something happen? Moments found on the solution itself (bracketed, to a
 * second), and whether a way through exists between goal and limits. For the bench
 * only: nothing here speaks of a head.
 */
#ifndef SLOWLIFT_ESTIMATE_H
#define SLOWLIFT_ESTIMATE_H

#include <stdbool.h>

#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

typedef enum sl_quantity { SL_COLOUR_LEFT, SL_BASE_MOVED, SL_CYSTINE_LOST } sl_quantity;

/* That share of a cell; below 0: colour left in a zone without dye. */
double sl_cell_quantity(const sl_cell *cell, sl_quantity quantity);

/* First scene-clock time at which the quantity of (arm, zone) reaches `share`: from
 * above for colour left, from below for the others. False when it never does before the
 * scene ends, or the arm is not predicted, or the zone has no dye (colour left). */
bool sl_first_time(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, double share,
                   double *time_min);

/* How many times as fast the mixes of an arm (-1: of every arm) work in one place as in another: of each dyed
 * zone, the minutes to first water in the slower place over those to the same colour in the faster one, both
 * solved. The scene's own place is read from `timeline`, with its points and what-if warmth; another is
 * solved without. 0 to 0: nothing to compare. Fails as sl_timeline_solve. */
typedef struct sl_times_range {
    double least, most;
} sl_times_range;
bool sl_place_times(const sl_timeline *timeline, int arm, sl_place from, sl_place to, sl_times_range *range,
                    sl_error *error);

/* The undyed zone in which base and hair are read for `zone`: an undyed zone on the same
 * hair when there is one, else the last undyed zone. */
int sl_reference_zone(const sl_scene *scene, int zone);

/* ---- goal and stress (goal.c) ----------------------------------------------------------- */

/* CIEDE2000 between a zone and the undyed zone of its strip (sl_reference_zone), dry, by D65, at a
 * moment of the scene's clock. Only where the scene asks for it of some zone. */
double sl_from_undyed(const sl_timeline *timeline, int arm, int zone, double clock_min);
/* Whether a zone is at its goal then; false where it has none. */
bool sl_goal_there(const sl_timeline *timeline, int arm, int zone, double clock_min);
/* First scene-clock time at which a zone is at its goal. */
bool sl_goal_time(const sl_timeline *timeline, int arm, int zone, double *time_min);

/* Scene-clock time at which an arm's first application ends. */
double sl_first_water_min(const sl_arm *arm);
/* Share of cystine that stops an arm; 0: not set. A share of what another arm has lost is read
 * from that arm at the end of its first application, on the hair under a direct dye that lost least. */
sl_bound sl_stress_limit(const sl_timeline *timeline);
/* Work out scene->aims.cystine_lost where it is a share of what another arm has lost, so that it
 * serves wherever that arm is not at hand. */
bool sl_stress_settle(sl_scene *scene, sl_error *error);

/* ---- the same colour left (compare.c) ------------------------------------------- */

/* Each arm at the moment its zone `zone` is first down to `share`. */
typedef struct sl_meeting {
    bool reached;
    double time_min; /* scene clock; unset when not reached */
    double since_contact_min;
} sl_meeting;
/* meeting[arm] for every arm of the timeline's scene. */
void sl_same_colour_left(const sl_timeline *timeline, int zone, double share, sl_meeting *meeting);

#pragma GCC visibility pop

#endif
