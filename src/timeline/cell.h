/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One zone of one strip at one moment: from doses to a cell. Private to src/timeline.
 */
#ifndef SLOWLIFT_TIMELINE_CELL_H
#define SLOWLIFT_TIMELINE_CELL_H

#include "slowlift/timeline.h"

enum { NO_COURSE = -1 };

/* How one zone of one strip reads its course. */
typedef struct reading {
    int course;                              /* index into courses; NO_COURSE: nothing is predicted */
    double later_min;                        /* by so much after that of the course's own strip */
    sl_sharing method;                       /* SL_SHARING_VALID, or why the full system ran */
    const sl_hair *hair;                     /* borrowed from the scene */
    const sl_recipe *recipe;                 /* borrowed; the undyed recipe on an undyed strip */
    double weight[SL_MAX_DYES_PER_ZONE];     /* of each dye in colour_left; sum 1 */
    double absorbance[SL_MAX_DYES_PER_ZONE]; /* of each dye at the start */
    double stainable;                        /* sum of those that stain */
    double absorbance0;                      /* of the melanins at the start */
    sl_dye dye[SL_MAX_DYES_PER_ZONE];        /* copies whose constants hold at this temperature */
    sl_rates melanin[SL_MELANINS];
} reading;

/* Everything but the course, which is NO_COURSE, and how it is solved. */
void reading_prepare(const sl_scene *scene, const sl_arm *arm, int zone, reading *read);

/* Base and hair: the same for all zones of one course on one hair. */
void read_hair(const sl_scene *scene, const reading *read, const sl_moment *moment, sl_cell *cell);
/* The zone's own dyes: what is left of them, and what washing has brought out. */
void read_dyes(const reading *read, const sl_moment *moment, sl_cell *cell);
/* What settled here: `givers` are the readings of the zones before and after, NULL at an end
 * of the strip, and loosened[side] what each has given off (unused where there is none). */
void read_stains(const reading *const givers[2], const double *const loosened[2], sl_cell *cell);

#endif
