/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Knobs -> a changed copy of the scene. Every changed arm gets a mix of its own behind
 * the file's mixes, so that n_mixes + n_arms places always suffice.
 */
#include "view/strips/change.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"

sl_knob_range sl_knob_range_of(const sl_scene *scene, sl_knob knob)
{
    switch (knob) {
    case SL_KNOB_STRENGTH:
        return (sl_knob_range){0.0, SL_LEGAL_PCT, 0.5};
    case SL_KNOB_WATER:
        return (sl_knob_range){0.0, 8.0, 0.5};
    case SL_KNOB_WARMTH:
        return (sl_knob_range){-15.0, 15.0, 1.0};
    case SL_KNOB_TIME:
        return (sl_knob_range){1.0, floor(scene->until_min), 1.0};
    case SL_KNOBS:
    default:
        return (sl_knob_range){0.0, 0.0, 1.0};
    }
}

static double value_of_file(const sl_scene *scene, int arm, sl_knob knob)
{
    const sl_step *apply = sl_arm_application(&scene->arms[arm]);
    if (knob == SL_KNOB_WARMTH) {
        return scene->shift_k;
    }
    if (apply == NULL) {
        return 0.0;
    }
    const sl_mix *mix = &scene->mixes[apply->mix];
    if (knob == SL_KNOB_TIME) {
        return apply->duration_min;
    }
    return knob == SL_KNOB_STRENGTH ? mix->developer_pct : mix->water_parts;
}

sl_change sl_change_none(const sl_scene *scene)
{
    sl_change change;
    memset(&change, 0, sizeof change);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int knob = 0; knob < SL_KNOBS; knob++) {
            change.value[arm][knob] = value_of_file(scene, arm, (sl_knob)knob);
        }
    }
    return change;
}

static int place_of(int arm, sl_knob knob)
{
    return knob == SL_KNOB_WARMTH ? 0 : arm;
}

double sl_change_value(const sl_change *change, int arm, sl_knob knob)
{
    return change->value[place_of(arm, knob)][knob];
}

bool sl_change_set(sl_change *change, const sl_scene *scene, int arm, sl_knob knob, double value)
{
    if (!sl_change_applies(scene, arm, knob)) {
        return false;
    }
    const sl_knob_range range = sl_knob_range_of(scene, knob);
    double *place = &change->value[place_of(arm, knob)][knob];
    const double clamped = value < range.least ? range.least : value > range.most ? range.most : value;
    const bool other = fabs(clamped - *place) > 1e-9;
    *place = clamped;
    return other;
}

bool sl_change_applies(const sl_scene *scene, int arm, sl_knob knob)
{
    const sl_step *apply = sl_arm_application(&scene->arms[arm]);
    if (knob == SL_KNOB_WARMTH) {
        return true;
    }
    if (apply == NULL || scene->mixes[apply->mix].mechanism != SL_MECHANISM_OXIDATIVE) {
        return false;
    }
    const sl_mix *mix = &scene->mixes[apply->mix];
    return knob != SL_KNOB_STRENGTH || mix->developer_parts > 0.0;
}

int sl_change_count(const sl_change *change, const sl_scene *scene, int arm)
{
    int n = 0;
    for (int knob = 0; knob < SL_KNOBS; knob++) {
        const double now = sl_change_value(change, arm, (sl_knob)knob);
        n += fabs(now - value_of_file(scene, arm, (sl_knob)knob)) > 1e-9 ? 1 : 0;
    }
    return n;
}

bool sl_change_touches(const sl_change *change, const sl_scene *scene, int arm)
{
    return sl_change_count(change, scene, arm) > 0;
}

bool sl_change_any(const sl_change *change, const sl_scene *scene)
{
    bool any = false;
    for (int arm = 0; arm < scene->n_arms && !any; arm++) {
        any = sl_change_touches(change, scene, arm);
    }
    return any;
}

/* The arm's first mix is replaced wherever the arm applies it; the first dwell changes. */
static void change_arm(sl_scene *copy, const sl_change *change, int arm)
{
    sl_arm *changed = &copy->arms[arm];
    const sl_step *first = sl_arm_application(changed);
    if (first == NULL) {
        return;
    }
    const int old = first->mix;
    const int new = copy->n_mixes++;
    copy->mixes[new] = copy->mixes[old];
    copy->mixes[new].developer_pct = sl_change_value(change, arm, SL_KNOB_STRENGTH);
    copy->mixes[new].water_parts = sl_change_value(change, arm, SL_KNOB_WATER);
    bool timed = false;
    for (int i = 0; i < changed->n_steps; i++) {
        sl_step *step = &changed->steps[i];
        if (step->kind == SL_STEP_APPLY && step->mix == old) {
            step->mix = new;
            step->duration_min = timed ? step->duration_min : sl_change_value(change, arm, SL_KNOB_TIME);
            timed = true;
        }
    }
}

sl_scene *sl_change_scene(const sl_change *change, const sl_scene *scene, sl_mix **mixes, sl_error *error)
{
    const size_t room = (size_t)scene->n_mixes + (size_t)scene->n_arms;
    sl_mix *places = sl_new(room, sizeof *places, "trying a change", error);
    sl_scene *copy = places != NULL ? sl_scene_copy(scene, error) : NULL;
    if (copy == NULL) {
        sl_free(places);
        return NULL;
    }
    memcpy(places, copy->mixes, (size_t)copy->n_mixes * sizeof *places);
    copy->mixes = places;
    copy->shift_k = sl_change_value(change, 0, SL_KNOB_WARMTH);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (sl_change_touches(change, scene, arm)) {
            change_arm(copy, change, arm);
        }
    }
    *mixes = places;
    return copy;
}
