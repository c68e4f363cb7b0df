/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sixteen members of an ensemble: their draws turned into factors on the constants, and what
 * one of them reads of a zone. Private to src/estimate.
 */
#ifndef SLOWLIFT_ESTIMATE_MEMBERS_H
#define SLOWLIFT_ESTIMATE_MEMBERS_H

#include "estimate/limits_of_members.h"
#include "slowlift/spread.h"

typedef struct drawn_members {
    lane_members lanes;
    member_pigments pigments;
    double u[LANES][SL_MOST_DRAWN]; /* the uniform draws themselves */
} drawn_members;

/* Whether all that is in doubt in this scene can be drawn: else an ensemble would be too sure. */
bool draws_fit(const sl_scene *scene, sl_error *error);
void members_draw(drawn_members *drawn, const sl_draw_plan *plan, uint64_t seed, long first);

/* One zone of dyed hair with one member's constants folded in. */
typedef struct member_zone {
    const sl_chemistry *chemistry;
    const sl_hair *hair;
    int n_dyes;
    sl_dye dye[SL_MAX_DYES_PER_ZONE];
    double weight[SL_MAX_DYES_PER_ZONE]; /* sum 1 */
    sl_rates melanin[SL_MELANINS];
    double absorbance0;
} member_zone;

void member_zone_make(member_zone *made, const sl_scene *scene, const sl_arm *arm, int zone,
                      const member_pigments *pigments, int lane);

typedef struct member_reading {
    double left, base_moved, cystine_lost;
} member_reading;

/* At a minute since contact, clamped to the history; straight between its steps. */
member_reading member_read(const member_zone *zone, const lane_history *history, int lane, double minute);
/* First minute at which colour left is at most `share`; false: never. */
bool member_gone(const member_zone *zone, const lane_history *history, int lane, double share,
                 double *minute);

#endif
