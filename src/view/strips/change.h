/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A what-if: what the knobs say against what the file says. Invariant: the file's scene
 * is never written to; an arm's change touches that arm alone, even when its mix serves
 * others.
 */
#ifndef SLOWLIFT_VIEW_CHANGE_H
#define SLOWLIFT_VIEW_CHANGE_H

#include <stdbool.h>

#include "slowlift/model.h"
#include "slowlift/scene.h"

typedef enum sl_knob { SL_KNOB_STRENGTH, SL_KNOB_WATER, SL_KNOB_WARMTH, SL_KNOB_TIME, SL_KNOBS } sl_knob;

typedef struct sl_change {
    double value[SL_MAX_ARMS][SL_KNOBS]; /* %, parts, K (one for the scene: in arm 0), minutes */
} sl_change;

/* Limits and step of a knob. */
typedef struct sl_knob_range {
    double least, most, step;
} sl_knob_range;
sl_knob_range sl_knob_range_of(const sl_scene *scene, sl_knob knob);

/* What the file says. */
sl_change sl_change_none(const sl_scene *scene);
double sl_change_value(const sl_change *change, int arm, sl_knob knob);
/* Clamped to the knob's range. Returns whether the value is another one now. */
bool sl_change_set(sl_change *change, const sl_scene *scene, int arm, sl_knob knob, double value);

/* Whether the knob has something to act on in this arm: a mix, a developer. */
bool sl_change_applies(const sl_scene *scene, int arm, sl_knob knob);
/* Knobs at which the arm differs from the file. One is a fair comparison; with more nobody can
 * tell which of them did it. */
int sl_change_count(const sl_change *change, const sl_scene *scene, int arm);
/* Whether the arm differs from the file. */
bool sl_change_touches(const sl_change *change, const sl_scene *scene, int arm);
bool sl_change_any(const sl_change *change, const sl_scene *scene);

/* A scene as the knobs say. `mixes` becomes the memory of its mixes, to be freed with
 * sl_free after the scene. NULL with *error set when memory runs out. */
sl_scene *sl_change_scene(const sl_change *change, const sl_scene *scene, sl_mix **mixes, sl_error *error);

#endif
