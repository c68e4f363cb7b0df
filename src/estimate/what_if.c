/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See what_if.h: settings, variants, outcomes.
 */
#include "slowlift/what_if.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "slowlift/solution.h"

static const double USUAL_RINSE_MIN = 2.0;
static const double SAME = 1e-9;

bool sl_setting_applies(const sl_scene *scene, int arm, sl_setting setting)
{
    const sl_step *const apply = sl_arm_application(&scene->arms[arm]);
    if (!apply || !sl_mix_in_model(scene, &scene->mixes[apply->mix])) {
        return false;
    }
    const sl_mix *const mix = &scene->mixes[apply->mix];
    if (setting == SL_SETTING_STRENGTH) {
        return mix->developer_parts > 0.0;
    }
    if (setting == SL_SETTING_RATIO) {
        return mix->powder_parts > 0.0 && mix->developer_parts + mix->water_parts > 0.0;
    }
    return true;
}

double sl_setting_value(const sl_scene *scene, int arm, sl_setting setting)
{
    const sl_step *const apply = sl_arm_application(&scene->arms[arm]);
    const bool of_scene = (sl_knobs[setting].where & SL_KNOB_OF_SCENE) != 0;
    if (!of_scene && !sl_setting_applies(scene, arm, setting)) {
        return 0.0;
    }
    return sl_knobs[setting].get(scene, apply != NULL ? &scene->mixes[apply->mix] : NULL, apply);
}

bool sl_changes_set(sl_changes *changes, const sl_scene *scene, int arm, sl_setting setting, double to,
                    sl_error *error)
{
    const sl_knob *const knob = &sl_knobs[setting];
    char found[SL_ERROR_TEXT_SIZE];
    char wanted[SL_ERROR_TEXT_SIZE];
    if (!sl_setting_applies(scene, arm, setting)) {
        snprintf(found, sizeof found, "\"%.80s\" has nothing that a change of %s would act on",
                 sl_arm_title(&scene->arms[arm]), knob->word);
        return sl_fail(error, SL_ERR_USAGE, found, "choose another strip or another change");
    }
    if (!(to >= knob->least && to <= knob->most)) {
        snprintf(found, sizeof found, "%s %.6g %s", knob->word, to, knob->unit);
        snprintf(wanted, sizeof wanted, "from %.6g to %.6g %s", knob->least, knob->most, knob->unit);
        return sl_fail(error, SL_ERR_USAGE, found, wanted);
    }
    changes->set[setting] = true;
    changes->to[setting] = to;
    return true;
}

int sl_changes_count(const sl_changes *changes, const sl_scene *scene, int arm, sl_setting which[SL_SETTINGS])
{
    int n = 0;
    for (int s = 0; s < SL_SETTINGS; s++) {
        const double now = sl_setting_value(scene, arm, (sl_setting)s);
        if (changes->set[s] && fabs(changes->to[s] - now) > SAME) {
            if (which) {
                which[n] = (sl_setting)s;
            }
            n++;
        }
    }
    return n;
}

/* Of an application of the arm's first mix, which is the arm's own. A pH that is computed follows what the
 * mix is made of now. */
static void change_application(sl_mix *mix, sl_step *step, const sl_changes *changes,
                               const sl_chemistry *chemistry)
{
    for (int s = 0; s < SL_SETTINGS; s++) {
        if (changes->set[s] && sl_knobs[s].set != NULL) {
            sl_knobs[s].set(mix, step, changes->to[s]);
        }
    }
    if (changes->set[SL_SETTING_STRENGTH] || changes->set[SL_SETTING_WATER] ||
        changes->set[SL_SETTING_RATIO]) {
        sl_mix_settle(mix, chemistry);
    }
}

/* ---- of a whole scene ----------------------------------------------------------------------- */

bool sl_knob_applies(const sl_scene *scene, int arm, sl_setting setting)
{
    return (sl_knobs[setting].where & SL_KNOB_OF_SCENE) != 0 || sl_setting_applies(scene, arm, setting);
}

double sl_knob_track_most(const sl_scene *scene, sl_setting setting)
{
    const double most = sl_knobs[setting].track_most;
    return setting == SL_SETTING_DWELL ? floor(scene->until_min) : most;
}

double sl_knob_value(const sl_changes changes[], const sl_scene *scene, int arm, sl_setting setting)
{
    return changes[arm].set[setting] ? changes[arm].to[setting] : sl_setting_value(scene, arm, setting);
}

bool sl_knob_turn(sl_changes changes[], const sl_scene *scene, int arm, sl_setting setting, double value)
{
    const double to = fmax(fmin(value, sl_knob_track_most(scene, setting)), sl_knobs[setting].least);
    const bool of_scene = (sl_knobs[setting].where & SL_KNOB_OF_SCENE) != 0;
    const bool other = fabs(to - sl_knob_value(changes, scene, arm, setting)) > SAME;
    if (!other || !sl_knob_applies(scene, arm, setting)) {
        return false;
    }
    for (int i = of_scene ? 0 : arm; i < (of_scene ? scene->n_arms : arm + 1); i++) {
        changes[i].set[setting] = true;
        changes[i].to[setting] = to;
    }
    return true;
}

bool sl_changes_any(const sl_changes changes[], const sl_scene *scene)
{
    bool any = false;
    for (int arm = 0; arm < scene->n_arms && !any; arm++) {
        any = sl_changes_count(&changes[arm], scene, arm, NULL) > 0;
    }
    return any;
}

/* The arm's first mix becomes its own wherever the arm applies it; the first time on the hair changes. */
static void change_arm(sl_scene *copy, const sl_changes *changes, int arm)
{
    sl_arm *const changed = &copy->arms[arm];
    const sl_step *const first = sl_arm_application(changed);
    if (first == NULL) {
        return;
    }
    const int old = first->mix, own = copy->n_mixes++;
    bool before = false; /* an application of it */
    for (int i = 0; i < changed->n_steps; i++) {
        sl_step *const step = &changed->steps[i];
        if (step->kind == SL_STEP_APPLY && step->mix == old) {
            copy->mixes[own] = copy->mixes[old];
            step->mix = own;
            change_application(&copy->mixes[own], step, changes, &copy->chemistry);
            step->duration_min = !before && changes->set[SL_SETTING_DWELL] ? changes->to[SL_SETTING_DWELL]
                                                                           : step->duration_min;
            before = true;
        }
    }
}

bool sl_scene_change(sl_scene *copy, const sl_changes changes[], sl_mix **mixes, sl_error *error)
{
    const size_t room = (size_t)copy->n_mixes + (size_t)copy->n_arms;
    const double shift_k = sl_knob_value(changes, copy, 0, SL_SETTING_WARMER);
    *mixes = sl_new(room, sizeof **mixes, "trying a change", error);
    if (*mixes == NULL) {
        return false;
    }
    memcpy(*mixes, copy->mixes, (size_t)copy->n_mixes * sizeof **mixes);
    copy->mixes = *mixes;
    for (int arm = 0; arm < copy->n_arms; arm++) {
        if (sl_changes_count(&changes[arm], copy, arm, NULL) > 0) {
            change_arm(copy, &changes[arm], arm);
        }
    }
    copy->shift_k = shift_k;
    return true;
}

/* ---- variants --------------------------------------------------------------------------- */

double sl_arm_done_min(const sl_arm *arm)
{
    return arm->contact_min + sl_arm_minutes_before(arm, arm->n_steps);
}

double sl_arm_dry_min(const sl_scene *scene, const sl_arm *arm)
{
    return sl_arm_done_min(arm) + sl_rest_until_dry_min(&scene->chemistry);
}

double sl_arm_end_min(const sl_scene *scene, int arm)
{
    const sl_arm *const of = &scene->arms[arm];
    return fmin(sl_arm_done_min(of) + sl_settled_min(scene, of), scene->until_min);
}

/* Point the scene at what the variant holds, and let the clock go on until the hair is dry. */
static void settle(sl_variant *variant)
{
    variant->scene.arms = &variant->arm;
    variant->scene.n_arms = 1;
    variant->scene.mixes = variant->mixes;
    variant->scene.memory = NULL;
    variant->scene.aims.stress_share = 0.0; /* that arm is not here: what it came to stands */
    variant->scene.until_min =
        fmax(variant->scene.until_min,
             sl_arm_done_min(&variant->arm) + sl_settled_min(&variant->scene, &variant->arm));
}

void sl_variant_make(sl_variant *variant, const sl_scene *scene, int arm, const sl_changes *changes)
{
    const sl_step *const apply = sl_arm_application(&scene->arms[arm]);
    variant->scene = *scene;
    variant->arm = scene->arms[arm];
    variant->scene.n_mixes = 0;
    bool timed = false;
    for (int i = 0; i < variant->arm.n_steps; i++) {
        sl_step *const step = &variant->arm.steps[i];
        if (step->kind != SL_STEP_APPLY) {
            continue;
        }
        const int old = step->mix;
        step->mix = variant->scene.n_mixes++;
        variant->mixes[step->mix] = scene->mixes[old];
        if (changes && old == apply->mix) {
            change_application(&variant->mixes[step->mix], step, changes, &scene->chemistry);
        }
        if (changes && !timed && changes->set[SL_SETTING_DWELL]) {
            step->duration_min = changes->to[SL_SETTING_DWELL];
        }
        timed = true;
    }
    if (changes && changes->set[SL_SETTING_WARMER]) {
        variant->scene.shift_k = changes->to[SL_SETTING_WARMER];
    }
    settle(variant);
}

static double rinse_after(const sl_arm *arm, int step)
{
    for (int i = step + 1; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_RINSE) {
            return arm->steps[i].duration_min;
        }
    }
    return USUAL_RINSE_MIN;
}

bool sl_variant_rounds(sl_variant *variant, const sl_scene *scene, int arm, int rounds, double minutes,
                       sl_error *error)
{
    const sl_arm *const here = &scene->arms[arm];
    const sl_step *const apply = sl_arm_application(here);
    const int first = apply ? (int)(apply - here->steps) : 0;
    const int extra = 2 * (rounds - 1);
    if (!apply || rounds < 1 || !(minutes > 0.0) || here->n_steps + extra > SL_MAX_STEPS) {
        return sl_fail(error, SL_ERR_USAGE,
                       apply ? "so many applications do not fit" : "this strip has no mix",
                       "from 1 application on, with at most 16 steps in all");
    }
    sl_arm repeated = *here;
    for (int r = 0; r < rounds; r++) {
        sl_step *const again = &repeated.steps[first + 2 * r];
        *again = *apply;
        again->duration_min = minutes;
        /* what was rinsed before is wet when the next round goes on */
        again->hair_water_g_g = r > 0 ? scene->chemistry.damp_water_g_g.value : apply->hair_water_g_g;
        if (r + 1 < rounds) {
            again[1] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = rinse_after(here, first)};
        }
    }
    for (int i = first + 1; i < here->n_steps; i++) {
        repeated.steps[i + extra] = here->steps[i];
    }
    repeated.n_steps = here->n_steps + extra;
    sl_scene with = *scene;
    with.arms = &repeated;
    with.n_arms = 1;
    sl_variant_make(variant, &with, 0, NULL);
    return true;
}

/* ---- outcomes ----------------------------------------------------------------------------- */

static void read_outcome(sl_outcome *outcome, const sl_timeline *timeline, int arm)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double dry = sl_arm_end_min(scene, arm);
    outcome->done_min = fmin(sl_arm_done_min(&scene->arms[arm]), dry) - scene->arms[arm].contact_min;
    const bool goals = sl_goal_set(scene);
    outcome->all_there = goals;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(timeline, arm, zone, dry, NULL, &cell);
        outcome->left[zone] = outcome->left_dry[zone] = cell.colour_left;
        if (sl_zone_returns(scene, &scene->arms[arm], zone)) {
            outcome->left_dry[zone] =
                sl_left_at(timeline, arm, zone, fmin(sl_arm_dry_min(scene, &scene->arms[arm]), dry));
        }
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        const bool wanted = sl_zone_goal(scene, zone).wanted;
        outcome->there[zone] = wanted && sl_goal_there(timeline, arm, zone, dry);
        outcome->all_there = outcome->all_there && (outcome->there[zone] || !wanted);
        if ((wanted || !goals) && cell.colour_left > outcome->worst_left) {
            outcome->worst_left = cell.colour_left;
            outcome->worst_zone = zone;
        }
        const int undyed = sl_reference_zone(scene, zone);
        sl_timeline_at(timeline, arm, undyed, dry, NULL, &cell);
        if (outcome->level_start <= 0.0 || cell.base_moved > outcome->base_moved) {
            outcome->base_moved = cell.base_moved;
            outcome->level_start = scene->hairs[scene->zones[undyed].hair].level;
            outcome->level_end = cell.level;
        }
        outcome->cystine_lost = fmax(outcome->cystine_lost, cell.cystine_lost);
    }
    outcome->all_there = outcome->all_there && outcome->worst_zone >= 0;
}

bool sl_outcome_of(sl_outcome *outcome, const sl_scene *scene, int arm, sl_timeline **timeline,
                   sl_solver *solver, sl_error *error)
{
    *outcome = (sl_outcome){.worst_zone = -1, .worst_left = -1.0};
    if (!sl_timeline_solve(timeline, scene, NULL, 0, solver, NULL, error)) {
        return false;
    }
    outcome->predicted = sl_timeline_predicted(*timeline, arm);
    read_outcome(outcome, *timeline, arm);
    return true;
}

bool sl_outcome_find_limits(sl_outcome *outcome, int arm, sl_timeline *timeline, sl_solver *solver,
                            sl_error *error)
{
    if (!sl_limits_prepare(timeline, solver, error)) {
        return false;
    }
    outcome->limits = sl_limits_of(timeline, arm, NULL);
    return true;
}
