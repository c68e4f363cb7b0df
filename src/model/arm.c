/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arms by name, the applications among an arm's steps, and how long these take.
 */
#include <string.h>

#include "slowlift/model.h"

int sl_scene_arm(const sl_scene *scene, const char *name)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (strcmp(scene->arms[arm].name, name) == 0) {
            return arm;
        }
    }
    return -1;
}

int sl_scene_zone(const sl_scene *scene, const char *name)
{
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (strcmp(scene->zones[zone].name, name) == 0) {
            return zone;
        }
    }
    return -1;
}

int sl_arm_next_application(const sl_arm *arm, int from)
{
    for (int i = from; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            return i;
        }
    }
    return -1;
}

const sl_step *sl_arm_application(const sl_arm *arm)
{
    const int first = sl_arm_next_application(arm, 0);
    return first >= 0 ? &arm->steps[first] : NULL;
}

int sl_arm_applications(const sl_arm *arm)
{
    int n = 0;
    for (int i = 0; i < arm->n_steps; i++) {
        n += arm->steps[i].kind == SL_STEP_APPLY ? 1 : 0;
    }
    return n;
}

int sl_arm_last_application(const sl_arm *arm)
{
    int last = -1;
    for (int i = 0; i < arm->n_steps; i++) {
        last = arm->steps[i].kind == SL_STEP_APPLY ? i : last;
    }
    return last;
}

double sl_step_minutes(const sl_step *step)
{
    return step->kind == SL_STEP_SHAMPOO ? (double)step->shampoos : step->duration_min;
}

double sl_arm_minutes_before(const sl_arm *arm, int step)
{
    double minutes = 0.0;
    for (int i = 0; i < step; i++) {
        minutes += sl_step_minutes(&arm->steps[i]);
    }
    return minutes;
}

bool sl_mix_in_model(const sl_scene *scene, const sl_mix *mix)
{
    return mix->mechanism == SL_MECHANISM_OXIDATIVE ||
           (mix->mechanism == SL_MECHANISM_REDUCTIVE && mix->reductant_share > 0.0 &&
            scene->chemistry.reductant[mix->reductant].order.value > 0.0);
}

/* The mix that a step puts on; NULL: none. */
static const sl_mix *mix_of(const sl_scene *scene, const sl_step *step)
{
    return step->kind == SL_STEP_APPLY ? &scene->mixes[step->mix] : NULL;
}

int sl_arm_reductant(const sl_scene *scene, const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_mix *const mix = mix_of(scene, &arm->steps[i]);
        if (mix && mix->reductant_share > 0.0) {
            return (int)mix->reductant;
        }
    }
    return -1;
}

bool sl_arm_in_model(const sl_scene *scene, const sl_arm *arm)
{
    const int agent = sl_arm_reductant(scene, arm);
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_mix *const mix = mix_of(scene, &arm->steps[i]);
        if (mix &&
            (!sl_mix_in_model(scene, mix) || (mix->reductant_share > 0.0 && (int)mix->reductant != agent))) {
            return false;
        }
    }
    return true;
}

bool sl_scene_holds_agent(const sl_scene *scene, sl_reductant_id agent)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        if (scene->mixes[i].reductant_share > 0.0 && scene->mixes[i].reductant == agent) {
            return true;
        }
    }
    return false;
}

bool sl_scene_reduces(const sl_scene *scene)
{
    for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
        if (sl_scene_holds_agent(scene, (sl_reductant_id)agent)) {
            return true;
        }
    }
    return false;
}

bool sl_zone_returns(const sl_scene *scene, const sl_arm *arm, int zone)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    const int agent = sl_arm_reductant(scene, arm);
    for (int i = 0; i < recipe->n_dyes && agent >= 0 && !arm->undyed; i++) {
        const sl_dye *const dye = &scene->dyes[recipe->dye[i]];
        if (dye->leuco_share.value > 0.0 && dye->reduced[agent].value > 0.0) {
            return true;
        }
    }
    return false;
}

bool sl_arm_removes(const sl_scene *scene, const sl_arm *arm)
{
    return sl_arm_application(arm) && sl_arm_in_model(scene, arm) && !arm->undyed;
}
