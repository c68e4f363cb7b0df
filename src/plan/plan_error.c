/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The size of the mistakes that a fair plan avoids, read from the model.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "slowlift/plan.h"

/* A copy of the scene's arms in which first applications are changed. */
static sl_arm *arms_changed(const sl_scene *scene, double longer_min, double older_min, sl_error *error)
{
    sl_arm *const arms = sl_new((size_t)scene->n_arms, sizeof *arms, "changing the strips", error);
    for (int a = 0; arms && a < scene->n_arms; a++) {
        arms[a] = scene->arms[a];
        arms[a].contact_min = 0.0;
        for (int i = 0; i < arms[a].n_steps; i++) {
            if (arms[a].steps[i].kind == SL_STEP_APPLY) {
                arms[a].steps[i].duration_min += longer_min;
                arms[a].steps[i].mix_age_min += older_min;
                break;
            }
        }
    }
    return arms;
}

/* Minutes of the first application, which comes first; 0: the arm does not begin with one. */
static double first_dwell_min(const sl_arm *arm)
{
    return arm->n_steps > 0 && arm->steps[0].kind == SL_STEP_APPLY ? arm->steps[0].duration_min : 0.0;
}

typedef struct sl_two_readings {
    const sl_timeline *fair, *unfair;
    double unfair_later_min; /* how much later the unfair one is read */
} sl_two_readings;

/* The worst is where the two differ by most. */
static void worst_find(const sl_scene *scene, const sl_two_readings *readings, sl_plan_error *worst)
{
    for (int a = 0; a < scene->n_arms; a++) {
        const double dwell = first_dwell_min(&scene->arms[a]);
        for (int z = 0; dwell > 0.0 && sl_timeline_predicted(readings->fair, a) && z < scene->n_zones; z++) {
            const double fair = sl_left_at(readings->fair, a, z, dwell);
            const double unfair = sl_left_at(readings->unfair, a, z, dwell + readings->unfair_later_min);
            if (fair >= 0.0 && (!worst->known || fabs(fair - unfair) > fabs(worst->fair - worst->unfair))) {
                *worst = (sl_plan_error){true, a, z, worst->gap_min, fair, unfair};
            }
        }
    }
}

static bool solve_changed(const sl_scene *scene, double longer_min, double older_min, sl_arm **arms,
                          sl_scene *changed, sl_timeline **timeline, sl_solver *solver, sl_error *error)
{
    *arms = arms_changed(scene, longer_min, older_min, error);
    if (!*arms) {
        return false;
    }
    *changed = *scene;
    changed->arms = *arms;
    changed->until_min = scene->until_min + longer_min;
    return sl_timeline_solve(timeline, changed, NULL, 0, solver, NULL, error);
}

static bool compare(const sl_plan *plan, double longer_min, double older_min, sl_solver *solver,
                    sl_plan_error *worst, sl_error *error)
{
    sl_arm *fair_arms = NULL, *unfair_arms = NULL;
    sl_scene fair_scene, unfair_scene;
    sl_timeline *fair = NULL, *unfair = NULL;
    *worst = (sl_plan_error){.known = false, .gap_min = fmax(longer_min, older_min)};
    const bool good =
        solve_changed(plan->scene, longer_min, 0.0, &fair_arms, &fair_scene, &fair, solver, error) &&
        solve_changed(plan->scene, longer_min, older_min, &unfair_arms, &unfair_scene, &unfair, solver,
                      error);
    if (good) {
        const sl_two_readings readings = {fair, unfair, longer_min};
        worst_find(plan->scene, &readings, worst);
    }
    sl_timeline_free(unfair);
    sl_timeline_free(fair);
    sl_free(unfair_arms);
    sl_free(fair_arms);
    return good;
}

bool sl_plan_if_together(const sl_plan *plan, sl_solver *solver, sl_plan_error *worst, sl_error *error)
{
    return compare(plan, plan->span_s / 60.0, 0.0, solver, worst, error);
}

bool sl_plan_if_one_bowl(const sl_plan *plan, sl_solver *solver, sl_plan_error *worst, sl_error *error)
{
    const double most_min = 600.0; /* older mixes are outside the model */
    return compare(plan, 0.0, fmin(plan->block_gap_s / 60.0, most_min), solver, worst, error);
}
