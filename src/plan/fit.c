/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a plan ends before the class does, and the nearest plans that would: each is made, none is guessed.
 */
#include "slowlift/plan.h"

static bool plan_takes(const sl_scene *scene, const sl_plan_request *request, int *n, int *takes_s,
                       sl_error *error)
{
    sl_plan *plan = NULL;
    if (!sl_plan_make(&plan, scene, request, error)) {
        return false;
    }
    *n = plan->n_swatches;
    *takes_s = plan->end_s;
    sl_plan_free(plan);
    return true;
}

/* The first of the scene's strips that a comparison has at least: two on which something is put. */
static int least_strips(const sl_scene *scene)
{
    int n = 0;
    for (int treated = 0; n < scene->n_arms && treated < 2; n++) {
        treated += sl_arm_applications(&scene->arms[n]) > 0 ? 1 : 0;
    }
    return n;
}

/* What an offer changes: where to begin, and with what step to go on up to which end. */
static int *changed(sl_fit_offer offer, sl_scene *scene, sl_plan_request *request, int *step, int *end)
{
    const bool ladder = request->n_rungs > 0;
    *step = offer == SL_FIT_PEOPLE ? 1 : -1;
    *end = offer == SL_FIT_PEOPLE ? SL_PLAN_MOST_PEOPLE : offer == SL_FIT_LOOKS && !ladder ? 0 : 1;
    *end = offer == SL_FIT_STRIPS ? least_strips(scene) : *end;
    switch (offer) {
    case SL_FIT_REPEATS:
        return &request->blocks;
    case SL_FIT_PEOPLE:
        return &request->people;
    case SL_FIT_LOOKS:
        return ladder ? &request->n_rungs : &request->n_looks;
    case SL_FIT_STRIPS:
    case SL_FIT_OFFERS:
        break;
    }
    return &scene->n_arms;
}

static bool look_for(sl_plan_fit *fit, sl_fit_offer offer, const sl_scene *scene,
                     const sl_plan_request *request, sl_error *error)
{
    sl_scene fewer = *scene; /* with the first of its arms alone; nothing else of it is changed */
    sl_plan_request asked = *request;
    int step = 0, end = 0, n = 0, takes_s = 0;
    int *const value = changed(offer, &fewer, &asked, &step, &end);
    while (fit->offer[offer].n < 0 && *value * step < end * step) {
        *value += step;
        if (!plan_takes(&fewer, &asked, &n, &takes_s, error)) {
            return false;
        }
        if (takes_s <= fit->class_s) {
            fit->offer[offer].n = *value;
            fit->offer[offer].takes_s = takes_s;
        }
    }
    return true;
}

static bool take_least(sl_plan_fit *fit, const sl_scene *scene, const sl_plan_request *request,
                       sl_error *error)
{
    sl_scene fewest = *scene;
    sl_plan_request asked = *request;
    int n = 0;
    fewest.n_arms = least_strips(scene);
    asked.blocks = 1;
    asked.n_looks = 0;
    asked.n_rungs = asked.n_rungs > 0 ? 1 : 0;
    return plan_takes(&fewest, &asked, &n, &fit->least_s, error);
}

bool sl_plan_fit_find(sl_plan_fit *fit, const sl_scene *scene, const sl_plan_request *request, int class_s,
                      sl_error *error)
{
    *fit = (sl_plan_fit){.people = request->people, .class_s = class_s, .ladder = request->n_rungs > 0};
    bool good = plan_takes(scene, request, &fit->swatches, &fit->takes_s, error), any = false;
    fit->fits = class_s == 0 || fit->takes_s <= class_s;
    for (int i = 0; i < SL_FIT_OFFERS; i++) {
        fit->offer[i].n = -1;
        if (good && !fit->fits && (i != SL_FIT_STRIPS || !any)) {
            good = look_for(fit, (sl_fit_offer)i, scene, request, error);
            any = any || fit->offer[i].n >= 0;
        }
    }
    return good && (fit->fits || any || take_least(fit, scene, request, error));
}
