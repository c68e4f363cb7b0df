/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps -> phases. See phases.h. Times in minutes since the arm's first contact.
 */
#include "kinetics/phases.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* An arm is at rest after its last step. */
static const sl_step after_all = {.kind = SL_STEP_REST};
static const double DRY_MOST_MIN = 240.0; /* of hair that hardly dries */

static void plan_add(planned *plan, phase now, const sl_step *step)
{
    if (now.end_min > now.start_min) {
        assert(plan->n < MAX_PHASES);
        plan->step[plan->n] = step;
        plan->phases[plan->n++] = now;
    }
}

static const sl_reductant *agent_of(const sl_treatment *treatment)
{
    const int agent = sl_arm_reductant(treatment->scene, treatment->arm);
    return agent < 0 ? NULL : &treatment->scene->chemistry.reductant[agent];
}

static phase phase_of_step(const sl_treatment *treatment, const sl_step *step, const phase *before,
                           double end_min)
{
    const sl_chemistry *const ch = &treatment->scene->chemistry;
    phase now = {.start_min = before->end_min,
                 .end_min = end_min,
                 .last_contact_min = before->last_contact_min,
                 .mixed_min = before->mixed_min,
                 .mix = before->mix,
                 .saturation_mol_l = before->saturation_mol_l,
                 .liquid_share = before->liquid_share,
                 .agent = agent_of(treatment),
                 .air = 1.0};
    switch (step->kind) {
    case SL_STEP_APPLY: {
        const sl_mix *const mix = &treatment->scene->mixes[step->mix];
        const sl_charge charge = sl_mix_charge(mix, ch, step->mix_g_per_g, step->hair_water_g_g);
        now.kind = PHASE_MIX;
        now.mix = mix;
        now.last_contact_min = now.start_min;
        now.mixed_min = now.start_min - step->mix_age_min;
        now.saturation_mol_l = charge.saturation_mol_l;
        now.liquid_share = ch->fibre_water_ml_g.value / charge.liquid_ml_per_g;
        now.dry_per_min = step->covered ? 0.0 : ch->dry_per_min.value;
        now.air = step->covered ? 0.0 : 1.0;
        now.leach_rate = 1.0;
        break;
    }
    case SL_STEP_RINSE:
    case SL_STEP_SHAMPOO:
        now.kind = PHASE_RINSE;
        now.leach_rate = ch->rinse_leach.value;
        now.shampoo_rate = step->kind == SL_STEP_SHAMPOO ? 1.0 : 0.0;
        break;
    case SL_STEP_REST:
    default:
        now.kind = PHASE_REST;
        now.dry_per_min = ch->rest_dry_per_min.value;
        break;
    }
    return now;
}

phase phase_in_bowl(const phase *mix, double age_min)
{
    phase bowl = *mix;
    bowl.kind = PHASE_BOWL;
    bowl.start_min = 0.0;
    bowl.end_min = age_min;
    bowl.mixed_min = 0.0;
    bowl.dry_per_min = 0.0;
    bowl.liquid_share = 0.0;
    bowl.air = 1.0;
    return bowl;
}

double leach_of(const phase *now, double since_contact_min)
{
    const double t = since_contact_min - now->start_min;
    const bool drying = now->kind == PHASE_MIX && now->dry_per_min > 0.0;
    const double wet_min = drying ? -expm1(-now->dry_per_min * t) / now->dry_per_min : t;
    return now->leach_start_min + now->leach_rate * wet_min;
}

double shampoos_of(const phase *now, double since_contact_min)
{
    return now->shampoo_start + now->shampoo_rate * (since_contact_min - now->start_min);
}

/* Cut the steps at the end of the scene, append a rest, and sum the washing dose. */
static void plan_arm(planned *plan, const sl_treatment *treatment)
{
    const sl_arm *const arm = treatment->arm;
    const double last = fmax(treatment->until_min - arm->contact_min, 0.0);
    phase before = {.kind = PHASE_REST};
    plan->n = 0;
    for (int i = 0; i < arm->n_steps; i++) {
        const double end = fmin(before.end_min + sl_step_minutes(&arm->steps[i]), last);
        before = phase_of_step(treatment, &arm->steps[i], &before, end);
        plan_add(plan, before, &arm->steps[i]);
    }
    if (arm->n_steps > 0) {
        plan_add(plan, phase_of_step(treatment, &after_all, &before, last), &after_all);
    }
}

/* Where the given temperature has a corner, a phase is cut, so that none is crossed. */
static void cut_at_corners(planned *plan, const sl_treatment *treatment)
{
    const sl_scene *const scene = treatment->scene;
    for (int i = 0; i < scene->n_points; i++) {
        const double corner = scene->points[i].time_min - treatment->arm->contact_min;
        for (int p = 0; p < plan->n; p++) {
            phase *const now = &plan->phases[p];
            if (corner > now->start_min && corner < now->end_min) {
                assert(plan->n < MAX_PHASES);
                memmove(now + 1, now, (size_t)(plan->n - p) * sizeof *now);
                memmove(&plan->step[p + 1], &plan->step[p], (size_t)(plan->n - p) * sizeof plan->step[p]);
                plan->n++;
                now[0].end_min = corner;
                now[1].start_min = corner;
                plan->step[p + 1] = NULL;
                break;
            }
        }
    }
}

static void sum_washing(planned *plan)
{
    for (int p = 1; p < plan->n; p++) {
        const phase *const before = &plan->phases[p - 1];
        plan->phases[p].leach_start_min = leach_of(before, before->end_min);
        plan->phases[p].shampoo_start = shampoos_of(before, before->end_min);
        if (!plan->step[p] && before->kind == PHASE_MIX && before->dry_per_min > 0.0) {
            /* a continued drying phase leaches as wet as it still is */
            plan->phases[p].leach_rate =
                before->leach_rate * exp(-before->dry_per_min * (before->end_min - before->start_min));
        }
    }
}

void phases_of(planned *plan, const sl_treatment *treatment)
{
    plan_arm(plan, treatment);
    cut_at_corners(plan, treatment);
    sum_washing(plan);
}

void phases_left_on(planned *plan, const sl_treatment *treatment, int application)
{
    sl_arm arm = *treatment->arm;
    sl_treatment left_on = *treatment;
    left_on.arm = &arm;
    left_on.until_min = fmin(treatment->until_min, sl_rinsed_until_min(treatment->scene, treatment->arm));
    arm.n_steps = application + 1;
    arm.steps[application].duration_min = HUGE_VAL;
    phases_of(plan, &left_on);
    for (int p = 0; p < plan->n; p++) { /* point into the treatment's own arm, which outlives this one */
        plan->step[p] = plan->step[p] ? treatment->arm->steps + (plan->step[p] - arm.steps) : NULL;
    }
}

double sl_rest_until_dry_min(const sl_chemistry *chemistry)
{
    const double dry_per_min = chemistry->rest_dry_per_min.value;
    return fmin(dry_per_min > 0.0 ? log(400.0) / dry_per_min : HUGE_VAL, DRY_MOST_MIN);
}

double sl_settled_min(const sl_scene *scene, const sl_arm *arm)
{
    return sl_arm_reductant(scene, arm) < 0 ? sl_rest_until_dry_min(&scene->chemistry) : DAY_MIN;
}

double sl_rinsed_until_min(const sl_scene *scene, const sl_arm *arm)
{
    const int application = sl_arm_last_application(arm);
    if (!(scene->until_min > DAY_MIN) || application < 0) {
        return scene->until_min;
    }
    const double longest = fmax(SL_LABEL_MOST_MIN, sl_step_minutes(&arm->steps[application]));
    return fmin(scene->until_min, arm->contact_min + sl_arm_minutes_before(arm, application) + longest);
}

void phases_after(planned *plan, const sl_treatment *treatment, int application, const phase *lying,
                  double rinse_min)
{
    const sl_arm *const arm = treatment->arm;
    phase before = *lying;
    before.end_min = rinse_min;
    plan->n = 0;
    for (int i = application + 1; i <= arm->n_steps; i++) {
        const sl_step *const step = i < arm->n_steps ? &arm->steps[i] : &after_all;
        const double lasts = i < arm->n_steps ? sl_step_minutes(step) : sl_settled_min(treatment->scene, arm);
        phase now = phase_of_step(treatment, step, &before, before.end_min + lasts);
        now.leach_start_min = leach_of(&before, before.end_min);
        now.shampoo_start = shampoos_of(&before, before.end_min);
        plan_add(plan, now, step);
        before = now;
    }
}
