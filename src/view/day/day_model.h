/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the model says of a swatch at this second. Invariant: nothing is computed here; a swatch that
 * stays on longer than planned is read from a timeline in which its mix stays on, not from one
 * in which it was rinsed on time.
 */
#ifndef SLOWLIFT_VIEW_DAY_MODEL_H
#define SLOWLIFT_VIEW_DAY_MODEL_H

#include <stdbool.h>

#include "slowlift/timeline.h"
#include "swatch/strip.h"
#include "view/draw/eyes.h"

enum { SL_DAY_LONGER_MIN = 60 }; /* so much over its time a swatch can be followed */

typedef struct sl_day_model {
    sl_scene *scene; /* every last dwell SL_DAY_LONGER_MIN longer */
    sl_timeline *timeline;
    sl_lenses lenses;
    char example[256]; /* what its numbers are worth */
} sl_day_model;

bool sl_day_model_make(sl_day_model *model, const sl_scene *scene, const sl_eyes *eyes, sl_error *error);
void sl_day_model_free(sl_day_model *model);

typedef struct sl_day_seen {
    bool predicted;            /* false: the model does not cover this mix; all below is the start */
    double left[SL_MAX_ZONES]; /* -1 in a zone without dye */
    double moved, stress;      /* of the undyed zone */
    sl_strip_look look;
} sl_day_seen;
/* Of an arm, minutes since contact (0 before). */
void sl_day_model_see(const sl_day_model *model, const sl_eyes *eyes, int arm, double minutes,
                      sl_day_seen *seen);

#endif
