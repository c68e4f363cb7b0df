/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which arms are controls, and in what two arms differ. Invariant: an arm differs from itself in
 * nothing, and two arms differ in the same things whichever is named first.
 */
#include <math.h>

#include "base/language.h"
#include "slowlift/plan.h"

const char *sl_control_word(sl_control control)
{
#define WORD(name, word) word,
    static const char *const words[] = {SL_CONTROL_LIST(WORD)};
#undef WORD
    return words[control];
}

const char *sl_difference_word(sl_difference difference)
{
    static const char *const words[SL_DIFFERENCES] = {
        [SL_DIFFERS_POWDER] = N_("kind of powder or part"),
        [SL_DIFFERS_STRENGTH] = N_("strength of the liquid"),
        [SL_DIFFERS_RATIO] = N_("powder to liquid"),
        [SL_DIFFERS_DWELL] = N_("time on hair"),
        [SL_DIFFERS_AGE] = N_("age of the mix"),
        [SL_DIFFERS_GRAMS] = N_("grams of mix"),
        [SL_DIFFERS_COVER] = N_("cover"),
        [SL_DIFFERS_WETNESS] = N_("wetness of the hair"),
        [SL_DIFFERS_ROUNDS] = N_("number of applications"),
        [SL_DIFFERS_WASHING] = N_("washing"),
        [SL_DIFFERS_DYE] = N_("dye"),
    };
    return words[difference];
}

bool sl_arm_serves_as(const sl_scene *scene, const sl_arm *arm, sl_control control)
{
    const sl_step *const step = sl_arm_application(arm);
    bool water = step != NULL;
    for (int at = sl_arm_next_application(arm, 0); at >= 0; at = sl_arm_next_application(arm, at + 1)) {
        water = water && scene->mixes[arm->steps[at].mix].class_ == SL_MIX_WATER;
    }
    switch (control) {
    case SL_CONTROL_UNTREATED:
        return arm->n_steps == 0 && !arm->undyed;
    case SL_CONTROL_WASHING:
        return arm->n_steps > 0 && !arm->undyed && (!step || water);
    case SL_CONTROL_UNDYED_TREATED:
        return arm->undyed && step && !water;
    case SL_CONTROL_LIGHTENER:
        return step && scene->mixes[step->mix].class_ == SL_MIX_LIGHTENER;
    case SL_CONTROL_UNDYED_UNTREATED: /* or an undyed zone of the untreated strip */
        return arm->n_steps == 0;
    case SL_CONTROLS:
        break;
    }
    return false;
}

int sl_control_arm(const sl_scene *scene, sl_control control)
{
    for (int a = 0; a < scene->n_arms; a++) {
        if (sl_arm_serves_as(scene, &scene->arms[a], control)) {
            return a;
        }
    }
    return -1;
}

static bool apart(double one, double other)
{
    return fabs(one - other) > 1e-9 * fmax(fabs(one), fabs(other));
}

/* Peroxide in the liquid before the powder adds any, %. */
static double liquid_strength(const sl_mix *mix)
{
    const double liquid = mix->developer_parts + mix->water_parts;
    return liquid > 0.0 ? mix->developer_pct * mix->developer_parts / liquid : 0.0;
}

static double powder_to_liquid(const sl_mix *mix)
{
    return mix->powder_parts / (mix->developer_parts + mix->water_parts);
}

/* or of a powder that holds other shares */
#define APART(name, words) apart(one->name, other->name) ||

static bool powders_differ(const sl_mix *one, const sl_mix *other)
{
    return (one->powder_parts > 0.0) != (other->powder_parts > 0.0) ||
           (one->class_ == SL_MIX_LIGHTENER) != (other->class_ == SL_MIX_LIGHTENER) ||
           (one->class_ == SL_MIX_TWO_PART) != (other->class_ == SL_MIX_TWO_PART) ||
           one->mechanism != other->mechanism || SL_POWDER_LIST(APART) apart(one->activity, other->activity);
}

typedef struct sl_washing {
    int applications, shampoos;
    double rinse_min;
} sl_washing;

static sl_washing washing_of(const sl_arm *arm)
{
    sl_washing washing = {0, 0, 0.0};
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        washing.applications += step->kind == SL_STEP_APPLY ? 1 : 0;
        washing.shampoos += step->kind == SL_STEP_SHAMPOO ? step->shampoos : 0;
        washing.rinse_min += step->kind == SL_STEP_RINSE ? step->duration_min : 0.0;
    }
    return washing;
}

int sl_arms_differ(const sl_scene *scene, int one, int other, bool differs[SL_DIFFERENCES])
{
    const sl_arm *const a = &scene->arms[one], *const b = &scene->arms[other];
    const sl_step *const from = sl_arm_application(a), *const to = sl_arm_application(b);
    if (!from || !to) {
        return -1;
    }
    const sl_mix *const mix = &scene->mixes[from->mix], *const beside = &scene->mixes[to->mix];
    const sl_washing wash = washing_of(a), washed = washing_of(b);
    differs[SL_DIFFERS_POWDER] = powders_differ(mix, beside);
    differs[SL_DIFFERS_STRENGTH] = apart(liquid_strength(mix), liquid_strength(beside));
    /* Without powder on one side the ratio is no choice of its own. */
    differs[SL_DIFFERS_RATIO] = mix->powder_parts > 0.0 && beside->powder_parts > 0.0 &&
                                apart(powder_to_liquid(mix), powder_to_liquid(beside));
    differs[SL_DIFFERS_DWELL] = apart(from->duration_min, to->duration_min);
    differs[SL_DIFFERS_AGE] = apart(from->mix_age_min, to->mix_age_min);
    differs[SL_DIFFERS_GRAMS] = apart(from->mix_g_per_g, to->mix_g_per_g);
    differs[SL_DIFFERS_COVER] = from->covered != to->covered;
    differs[SL_DIFFERS_WETNESS] = apart(from->hair_water_g_g, to->hair_water_g_g);
    differs[SL_DIFFERS_ROUNDS] = wash.applications != washed.applications;
    differs[SL_DIFFERS_WASHING] = wash.shampoos != washed.shampoos || apart(wash.rinse_min, washed.rinse_min);
    differs[SL_DIFFERS_DYE] = a->undyed != b->undyed;
    int n = 0;
    for (int i = 0; i < SL_DIFFERENCES; i++) {
        n += differs[i] ? 1 : 0;
    }
    return n;
}
