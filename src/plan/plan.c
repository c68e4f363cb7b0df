/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan from a scene: the request is checked, the order drawn, the timetable filled, the bowls
 * weighed. The plan is one arena-like allocation per array and borrows the scene.
 */
#include "slowlift/plan.h"
#include "base/language.h"

#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "plan/order.h"
#include "plan/timetable.h"

sl_plan_request sl_plan_request_default(void)
{
    return (sl_plan_request){.blocks = 3,
                             .people = 1,
                             .apply_s = 45,
                             .remove_s = 45,
                             .look_s = 20,
                             .mix_s = 60,
                             .waste = 0.10,
                             .scale_g = 0.1,
                             .seed = 1};
}

sl_plan_request sl_plan_request_of(const sl_scene *scene)
{
    const sl_crew *const crew = &scene->crew;
    sl_plan_request request = sl_plan_request_default();
    request.blocks = crew->swatches > 0 ? crew->swatches : request.blocks;
    request.people = crew->hands > 0 ? crew->hands : request.people;
    memcpy(request.who, crew->who, sizeof request.who);
    return request;
}

const char *sl_plan_hands(const sl_plan_request *request, int person, char text[SL_CODE])
{
    snprintf(text, SL_CODE, "%d", person + 1);
    return request->who[person][0] != '\0' ? request->who[person] : text;
}

const char *sl_task_word(sl_task_kind kind)
{
    static const char *const words[SL_TASKS] = {[SL_TASK_MIX] = N_("mix"),
                                                [SL_TASK_APPLY] = N_("apply"),
                                                [SL_TASK_LOOK] = N_("wipe and look"),
                                                [SL_TASK_REMOVE] = N_("rinse"),
                                                [SL_TASK_LEAVE] = N_("leave leftover open"),
                                                [SL_TASK_EMPTY] = N_("empty it when quiet")};
    return words[kind];
}

static bool within(const char *what, double value, double least, double most, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
    if (value >= least && value <= most) {
        return true;
    }
    snprintf(found, sizeof found, "%s: %g", what, value);
    snprintf(wanted, sizeof wanted, _("%g to %g belong there"), least, most);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool rising(const char *what, const int *minute, int n, int most, sl_error *error)
{
    if (!within(what, n, 0, most, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (minute[i] < 1 || minute[i] > 600 || (i > 0 && minute[i] <= minute[i - 1])) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("%s: minute %d"), what, minute[i]);
            return sl_fail(error, SL_ERR_USAGE, found, "minutes of 1 to 600, each later than the one before");
        }
    }
    return true;
}

static bool request_check(const sl_scene *scene, const sl_plan_request *request, sl_error *error)
{
    return sl_swatches_only(scene, "swatches on a bench below 30 °C are planned; nobody's hair is", error) &&
           within(_("repeats"), request->blocks, 1, SL_PLAN_MOST_BLOCKS, error) &&
           within(_("people"), request->people, 1, SL_PLAN_MOST_PEOPLE, error) &&
           within(_("seconds to apply"), request->apply_s, 5, 1800, error) &&
           within(_("seconds to remove"), request->remove_s, 5, 1800, error) &&
           within(_("seconds to look"), request->look_s, 5, 1800, error) &&
           within(_("seconds to mix"), request->mix_s, 0, 1800, error) &&
           within(_("waste"), request->waste, 0.0, 1.0, error) &&
           within(_("step of the scale in grams"), request->scale_g, 0.001, 10.0, error) &&
           rising(_("looks"), request->look_min, request->n_looks, SL_PLAN_MOST_LOOKS, error) &&
           rising(_("pieces of the ladder"), request->rung_min, request->n_rungs, SL_PLAN_MOST_RUNGS, error);
}

/* ---- bowls ------------------------------------------------------------------------------------------- */

static void bowls_fill(sl_plan *plan)
{
    const sl_scene *const scene = plan->scene;
    for (int a = 0; a < scene->n_arms; a++) {
        for (int i = 0; i < scene->arms[a].n_steps; i++) {
            const sl_step *const step = &scene->arms[a].steps[i];
            if (step->kind != SL_STEP_APPLY) {
                continue;
            }
            sl_bowl *const bowl = &plan->bowls[plan->n_bowls++];
            const sl_mix *const mix = &scene->mixes[step->mix];
            *bowl = (sl_bowl){.arm = a, .step = i, .mix = step->mix};
            bowl->exact =
                sl_weigh(mix, &scene->chemistry, scene->hair_g, step->mix_g_per_g, plan->request.waste);
            bowl->shown = sl_weigh_on_scale(mix, &scene->chemistry, bowl->exact, plan->request.scale_g);
            bowl->scale_error = sl_scale_error(bowl->shown, plan->request.scale_g);
            if (plan->request.n_rungs > 0) {
                break; /* a ladder has one application */
            }
        }
    }
}

const sl_bowl *sl_plan_bowl(const sl_plan *plan, const sl_task *task)
{
    for (int i = 0; i < plan->n_bowls; i++) {
        const sl_bowl *const bowl = &plan->bowls[i];
        if (bowl->arm == plan->swatches[task->swatch].arm && bowl->step == task->step) {
            return bowl;
        }
    }
    return NULL;
}

/* ---- spans: how unequal an unfair plan would be ------------------------------------------------------ */

static void spans_find(sl_plan *plan)
{
    int first_of_block[SL_PLAN_MOST_BLOCKS], last_of_block[SL_PLAN_MOST_BLOCKS];
    for (int b = 0; b < SL_PLAN_MOST_BLOCKS; b++) {
        first_of_block[b] = last_of_block[b] = -1;
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        if (swatch->contact_s >= 0) {
            first_of_block[swatch->block] =
                first_of_block[swatch->block] < 0 ? swatch->contact_s : first_of_block[swatch->block];
            last_of_block[swatch->block] = swatch->contact_s;
        }
    }
    for (int b = 0; b < plan->request.blocks; b++) {
        const int span = last_of_block[b] - first_of_block[b];
        plan->span_s = span > plan->span_s ? span : plan->span_s;
    }
    const int last = plan->request.blocks - 1;
    plan->block_gap_s = first_of_block[last] < 0 ? 0 : first_of_block[last] - first_of_block[0];
}

/* ---- making ------------------------------------------------------------------------------------------- */

/* Room for everything; the codes and the order of arms are scratch of the caller. */
static bool room_make(sl_plan *plan, size_t tasks, sl_error *error)
{
    const size_t swatches = (size_t)plan->n_swatches;
    const size_t bowls = (size_t)plan->scene->n_arms * SL_MAX_STEPS;
    plan->swatches = sl_new(swatches, sizeof *plan->swatches, "making a plan", error);
    plan->tasks = plan->swatches ? sl_new(tasks + 1, sizeof *plan->tasks, "making a plan", error) : NULL;
    plan->bowls = plan->tasks ? sl_new(bowls, sizeof *plan->bowls, "making a plan", error) : NULL;
    return plan->bowls != NULL;
}

static bool order_fill(sl_plan *plan, int *arm, char (*code)[SL_PLAN_CODE], sl_error *error)
{
    const int n_arms = plan->scene->n_arms;
    if (!sl_order_draw(plan->request.seed, plan->request.blocks, n_arms, arm, code, &plan->clustered,
                       error)) {
        return false;
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        plan->swatches[i] = (sl_planned_swatch){.arm = arm[i], .block = i / n_arms, .place = i % n_arms};
        memcpy(plan->swatches[i].code, code[i], SL_PLAN_CODE);
    }
    return true;
}

static bool fill(sl_plan *plan, sl_error *error)
{
    const size_t n_arms = (size_t)plan->scene->n_arms, swatches = (size_t)plan->n_swatches;
    sl_pattern *const pattern = sl_new(n_arms, sizeof *pattern, "making a plan", error);
    int *const arm = pattern ? sl_new(swatches, sizeof *arm, "making a plan", error) : NULL;
    char(*const code)[SL_PLAN_CODE] = arm ? sl_new(swatches, sizeof *code, "making a plan", error) : NULL;
    bool good = code != NULL;
    size_t tasks = 0;
    for (size_t a = 0; good && a < n_arms; a++) {
        good = sl_pattern_of(&pattern[a], plan->scene, (int)a, &plan->request, error);
        tasks += (size_t)(pattern[a].n + 2 * pattern[a].n_leftovers) * (size_t)plan->request.blocks;
    }
    good = good && room_make(plan, tasks, error) && order_fill(plan, arm, code, error);
    if (good) {
        sl_timetable_fill(plan, pattern);
        bowls_fill(plan);
        spans_find(plan);
    }
    sl_free(code);
    sl_free(arm);
    sl_free(pattern);
    return good;
}

bool sl_plan_make(sl_plan **plan, const sl_scene *scene, const sl_plan_request *request, sl_error *error)
{
    if (!request_check(scene, request, error)) {
        return false;
    }
    sl_plan *const made = sl_new(1, sizeof *made, "making a plan", error);
    if (!made) {
        return false;
    }
    made->request = *request;
    made->scene = scene;
    made->n_swatches = request->blocks * scene->n_arms;
    made->hair_g = made->n_swatches * scene->hair_g;
    if (!fill(made, error)) {
        sl_plan_free(made);
        return false;
    }
    *plan = made;
    return true;
}

void sl_plan_free(sl_plan *plan)
{
    if (plan) {
        sl_free(plan->swatches);
        sl_free(plan->tasks);
        sl_free(plan->bowls);
        sl_free(plan);
    }
}

int sl_plan_lying_s(const sl_plan *plan, int arm, bool *cut_short)
{
    const sl_arm *const of = &plan->scene->arms[arm];
    const sl_planned_swatch *swatch = NULL;
    int lying = 0;
    bool shorter = false;
    for (int i = 0; i < plan->n_swatches && !swatch; i++) {
        swatch = plan->swatches[i].arm == arm ? &plan->swatches[i] : NULL;
    }
    *cut_short = swatch && swatch->cut_short;
    if (swatch && plan->request.n_rungs > 0) {
        return swatch->contact_s < 0 ? 0 : swatch->water_s - swatch->contact_s;
    }
    for (int i = 0; i < of->n_steps; i++) {
        if (of->steps[i].kind == SL_STEP_APPLY) {
            lying += sl_planned_dwell_s(&plan->scene->mixes[of->steps[i].mix], &of->steps[i], &shorter);
        }
    }
    return lying;
}
