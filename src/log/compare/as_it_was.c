/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the model makes of a swatch that went otherwise than planned: its course is solved as it was and as
 * planned, and what is left of it, washed and dry, is told as a ratio. See looks.h.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/looks.h"
#include "slowlift/what_if.h"

sl_course_as sl_course_planned(const sl_bench_swatch *plan)
{
    sl_course_as course = {.n = plan->n_more + 1};
    for (int k = 0; k < course.n; k++) {
        course.lies_s[k] = sl_bench_round_of(plan, k).dwell_s;
    }
    return course;
}

/* What lies between two mixes takes so much more time: its last rest does, else one more. */
static void wait_longer(sl_arm *arm, int from, double minutes)
{
    const int apply = arm->n_steps - 1;
    int rest = apply - 1;
    while (rest > from && arm->steps[rest].kind != SL_STEP_REST) {
        rest--;
    }
    if (rest > from) {
        arm->steps[rest].duration_min = fmax(arm->steps[rest].duration_min + minutes, 0.0);
    } else if (minutes > 0.0 && arm->n_steps < SL_MAX_STEPS) {
        arm->steps[apply + 1] = arm->steps[apply];
        arm->steps[apply] = (sl_step){.kind = SL_STEP_REST, .duration_min = minutes};
        arm->n_steps++;
    }
}

/* The arm up to the application after the n-th, with its times. */
static void put_course(sl_arm *arm, const sl_course_as *course)
{
    const sl_arm whole = *arm;
    int k = 0, last = -1;
    arm->n_steps = 0;
    for (int i = 0; i < whole.n_steps && arm->n_steps < SL_MAX_STEPS; i++) {
        const bool applies = whole.steps[i].kind == SL_STEP_APPLY;
        if (applies && k == course->n) {
            break;
        }
        arm->steps[arm->n_steps++] = whole.steps[i];
        if (applies) {
            sl_step *const step = &arm->steps[arm->n_steps - 1];
            step->duration_min = course->lies_s[k] / 60.0;
            step->mix_age_min = fmax(step->mix_age_min + course->older_s[k] / 60.0, 0.0);
            if (k > 0 && fabs(course->longer_s[k]) > 0.0) {
                wait_longer(arm, last, course->longer_s[k] / 60.0);
            }
            last = arm->n_steps - 1;
            k++;
        }
    }
}

static bool left_after(const sl_scene *scene, int arm, const sl_course_as *course, sl_solver *solver,
                       double left[SL_MAX_ZONES], sl_error *error)
{
    sl_variant *const variant = sl_new(1, sizeof *variant, "comparing", error);
    sl_timeline *timeline = NULL;
    if (!variant) {
        return false;
    }
    sl_variant_make(variant, scene, arm, NULL);
    put_course(&variant->arm, course);
    const double dry = sl_arm_dry_min(scene, &variant->arm);
    variant->scene.until_min = fmax(variant->scene.until_min, dry);
    const bool good = sl_timeline_solve(&timeline, &variant->scene, NULL, 0, solver, NULL, error);
    for (int z = 0; good && z < scene->n_zones; z++) {
        left[z] = sl_timeline_predicted(timeline, 0) ? sl_left_at(timeline, 0, z, dry) : 0.0;
    }
    sl_timeline_free(timeline);
    sl_free(variant);
    return good;
}

void sl_planned_over_had(const sl_scene *scene, const double planned[SL_MAX_ZONES],
                             const double had[SL_MAX_ZONES], double ratio[SL_MAX_ZONES])
{
    static const double LEAST_LEFT = 1e-6; /* below this share a ratio is noise of the solver */
    for (int z = 0; z < scene->n_zones; z++) {
        if (had[z] > LEAST_LEFT) {
            assert(planned[z] >= 0.0); /* where one of them is told the other is */
            ratio[z] = planned[z] / had[z];
        }
    }
}

bool sl_course_ratio(const sl_scene *scene, int arm, const sl_course_as *had, const sl_course_as *planned,
                     sl_solver *solver, double ratio[SL_MAX_ZONES], sl_error *error)
{
    double of_had[SL_MAX_ZONES], of_planned[SL_MAX_ZONES];
    for (int z = 0; z < scene->n_zones; z++) {
        ratio[z] = 1.0;
    }
    if (!left_after(scene, arm, had, solver, of_had, error) ||
        !left_after(scene, arm, planned, solver, of_planned, error)) {
        return false;
    }
    sl_planned_over_had(scene, of_planned, of_had, ratio);
    return true;
}

/* As it was, but for mixes and rests that were off by less than is a deviation. False: nothing was. */
static bool went_otherwise(const sl_seen_bench *bench, const sl_course_as *planned, sl_course_as *had)
{
    bool any = bench->n_lain != planned->n;
    *had = (sl_course_as){.n = bench->n_lain};
    for (int k = 0; k < bench->n_lain; k++) {
        had->lies_s[k] = bench->lain_s[k];
        had->older_s[k] = fabs(bench->older_s[k]) < SL_MIX_AGE_OFF_S ? 0.0 : bench->older_s[k];
        had->longer_s[k] = fabs(bench->longer_s[k]) < SL_DWELL_OFF_S ? 0.0 : bench->longer_s[k];
        any = any || fabs(had->lies_s[k] - planned->lies_s[k]) >= 1.0 || fabs(had->older_s[k]) > 0.0 ||
              fabs(had->longer_s[k]) > 0.0;
    }
    return any;
}

bool sl_courses_to_planned(sl_compare *compare, sl_solver *solver, sl_error *error)
{
    bool good = true;
    for (int i = 0; good && i < compare->n_swatches; i++) {
        sl_seen_bench *const bench = &compare->bench[i];
        const sl_course_as planned = sl_course_planned(&compare->swatches[i].bench);
        sl_course_as had;
        good = !bench->rinsed || bench->arm < 0 || !went_otherwise(bench, &planned, &had) ||
               sl_course_ratio(compare->scene, bench->arm, &had, &planned, solver, bench->to_planned, error);
    }
    return good;
}
