/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the model says of a swatch at this second: the arm's own strip of the scene at its contact plus the
 * time that this swatch has lain. Invariants: it only stands beside the clock, nothing of the clock follows
 * from it; a swatch that stays on longer than planned is read from a timeline in which its mix stays on, not
 * from one in which it was rinsed on time.
 */
#ifndef SLOWLIFT_DAY_MODEL_H
#define SLOWLIFT_DAY_MODEL_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/timeline.h"

enum { SL_DAY_LONGER_MIN = 60 }; /* so much over its time a swatch can be followed */

typedef struct sl_day_model {
    sl_scene *scene;       /* every last dwell SL_DAY_LONGER_MIN longer */
    sl_timeline *timeline; /* NULL: nothing is predicted; why says it */
    sl_error why;
} sl_day_model;

/* scene: NULL for one that could not be read, as `why` says. */
void sl_day_model_make(sl_day_model *model, const sl_scene *scene, const sl_error *why);
void sl_day_model_free(sl_day_model *model);

typedef struct sl_day_seen {
    bool predicted;             /* false: the model does not cover this mix; all below is the start */
    sl_cell cell[SL_MAX_ZONES]; /* coloured where there are optics */
    double moved, stress;       /* of the undyed zone */
} sl_day_seen;
/* Of an arm, this long after its first contact (0: before). False: there is no such arm, or no model. optics:
 * NULL for no colours. */
bool sl_day_model_see(const sl_day_model *model, int arm, double course_s, const sl_optics *optics,
                      sl_day_seen *seen);

/* left: "colour left, in %: red 63, ..."; hair: "base moved 4 %, hair stress 3 %". False: nothing is
 * predicted, which left says. */
bool sl_day_model_words(const sl_day_model *model, int arm, double course_s, char *left, char *hair,
                        size_t size);

#endif
