/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When one solve serves many zones, and how places compare. A solve's doses hold for
 * every pigment that meets the same oxidants at the same temperatures: same steps (mix,
 * mix age, clock), same hair exchange class, no pigment that uses up oxidant, and no
 * pigment whose own activation energy would weigh a changing temperature differently.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/kinetics.h"

#define AS_WORD(name, word) word,
static const char *const sharing_words[] = {SL_SHARING_LIST(AS_WORD)};
#undef AS_WORD

const char *sl_sharing_word(sl_sharing sharing)
{
    assert(sharing < SL_SHARING_COUNT);
    return sharing_words[sharing];
}

static bool same(double one, double two)
{
    return !(one < two) && !(one > two);
}

static bool own_activation(const sl_rates *rates)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        if (rates->own_activation[c]) {
            return true;
        }
    }
    return false;
}

static bool any_own_activation(const sl_scene *scene, const sl_recipe *recipe)
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        if (own_activation(&scene->chemistry.melanin[kind].rates)) {
            return true;
        }
    }
    for (int i = 0; i < recipe->n_dyes; i++) {
        if (own_activation(&scene->dyes[recipe->dye[i]].rates)) {
            return true;
        }
    }
    return false;
}

sl_sharing sl_zone_sharing(const sl_scene *scene, const sl_arm *arm, int zone, const sl_hair *hair)
{
    static const sl_recipe none = {0};
    const sl_hair *const own = &scene->hairs[scene->zones[zone].hair];
    if (!same(own->porosity, hair->porosity) || !same(own->cystine_intact, hair->cystine_intact)) {
        return SL_SHARING_NOT_SAME_HAIR;
    }
    if (scene->chemistry.pigment_feedback) {
        return SL_SHARING_PIGMENT_FEEDBACK;
    }
    if (sl_zone_returns(scene, arm, zone)) {
        return SL_SHARING_COLOURLESS;
    }
    const sl_recipe *const recipe = arm->undyed ? &none : &scene->zones[zone].recipe;
    if ((!sl_scene_isothermal(scene) || sl_chemistry_warms(&scene->chemistry)) &&
        any_own_activation(scene, recipe)) {
        return SL_SHARING_OWN_ACTIVATION;
    }
    return SL_SHARING_VALID;
}

static bool same_step(const sl_step *one, const sl_step *two)
{
    const bool mixed = one->kind == SL_STEP_APPLY;
    return one->kind == two->kind && same(sl_step_minutes(one), sl_step_minutes(two)) &&
           one->shampoos == two->shampoos &&
           (!mixed || (one->mix == two->mix && same(one->mix_age_min, two->mix_age_min) &&
                       same(one->mix_g_per_g, two->mix_g_per_g) &&
                       same(one->hair_water_g_g, two->hair_water_g_g) && one->covered == two->covered));
}

bool sl_arm_repeats(const sl_scene *scene, const sl_arm *arm, const sl_arm *earlier)
{
    bool alike = scene->n_points == 0 && arm->n_steps == earlier->n_steps &&
                 !(earlier->contact_min > arm->contact_min);
    for (int i = 0; alike && i < arm->n_steps; i++) {
        alike = same_step(&arm->steps[i], &earlier->steps[i]);
    }
    return alike;
}
