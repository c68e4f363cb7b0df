/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Themes, eyes, lights and looks.
 */
#include "view/draw/eyes.h"

#include <stdio.h>

#include "base/language.h"
#include "slowlift/report.h"

static int wetness_of(sl_look look)
{
    return look == SL_LOOK_DRY ? 0 : 1;
}

static bool fit_one(sl_lenses *lenses, const sl_scene *scene, sl_viewing viewing, sl_error *error)
{
    sl_optics **place = &lenses->made[viewing.observer][viewing.light][wetness_of(viewing.look)];
    if (*place == NULL) {
        *place = sl_optics_new_for(scene, viewing, error);
    }
    return *place != NULL;
}

bool sl_lenses_fit(sl_lenses *lenses, const sl_scene *scene, sl_viewing viewing, sl_error *error)
{
    viewing.look = SL_LOOK_DRY;
    if (!fit_one(lenses, scene, viewing, error)) {
        return false;
    }
    viewing.look = SL_LOOK_WET;
    return fit_one(lenses, scene, viewing, error);
}

void sl_lenses_free(sl_lenses *lenses)
{
    for (int observer = 0; observer < SL_OBSERVER_COUNT; observer++) {
        for (int light = 0; light < SL_LIGHT_COUNT; light++) {
            for (int wet = 0; wet < 2; wet++) {
                sl_optics_free(lenses->made[observer][light][wet]);
                lenses->made[observer][light][wet] = NULL;
            }
        }
    }
}

const sl_optics *sl_lenses_for(const sl_lenses *lenses, sl_viewing viewing)
{
    return lenses->made[viewing.observer][viewing.light][wetness_of(viewing.look)];
}

sl_look sl_eyes_look(const sl_eyes *eyes, const sl_arm *arm, double clock_min)
{
    if (eyes->viewing.look != SL_LOOK_UNDER_MIX) {
        return eyes->viewing.look;
    }
    switch (sl_arm_on_hair(arm, clock_min).what) {
    case SL_LIES_MIX:
        return SL_LOOK_UNDER_MIX;
    case SL_LIES_WATER:
        return SL_LOOK_WET;
    case SL_LIES_NOTHING:
    default:
        return SL_LOOK_DRY;
    }
}

const sl_mix *sl_eyes_mix(const sl_eyes *eyes, const sl_scene *scene, const sl_arm *arm, double clock_min)
{
    const sl_on_hair on = sl_arm_on_hair(arm, clock_min);
    const bool seen = eyes->viewing.look == SL_LOOK_UNDER_MIX && !eyes->wiped && on.what == SL_LIES_MIX;
    return seen ? &scene->mixes[on.mix] : NULL;
}

void sl_eyes_next_theme(sl_eyes *eyes)
{
    eyes->theme = (sl_theme_number)((eyes->theme + 1U) % (unsigned)SL_THEMES);
}

void sl_eyes_next_vision(sl_eyes *eyes)
{
    eyes->vision = (sl_vision)((eyes->vision + 1U) % (unsigned)SL_VISION_COUNT);
}

void sl_eyes_next_light(sl_eyes *eyes)
{
    eyes->viewing.light = (sl_light)((eyes->viewing.light + 1U) % (unsigned)SL_LIGHT_COUNT);
}

void sl_eyes_next_look(sl_eyes *eyes)
{
    eyes->viewing.look = (sl_look)((eyes->viewing.look + 1U) % (unsigned)SL_LOOK_COUNT);
    eyes->wiped = false;
}

void sl_eyes_next_observer(sl_eyes *eyes)
{
    eyes->viewing.observer = (sl_observer)((eyes->viewing.observer + 1U) % (unsigned)SL_OBSERVER_COUNT);
}

void sl_eyes_wipe(sl_eyes *eyes)
{
    eyes->wiped = eyes->viewing.look == SL_LOOK_UNDER_MIX && !eyes->wiped;
    eyes->viewing.look = SL_LOOK_UNDER_MIX;
}

bool sl_eyes_usual(const sl_eyes *eyes)
{
    return eyes->vision == SL_VISION_FULL && sl_viewing_usual(eyes->viewing);
}

const char *sl_eyes_look_word(const sl_eyes *eyes)
{
    if (eyes->viewing.look != SL_LOOK_UNDER_MIX) {
        return _(sl_look_word(eyes->viewing.look));
    }
    return eyes->wiped ? _("as it lies now, mix wiped aside") : _("as it lies now");
}

void sl_eyes_words(const sl_eyes *eyes, char *text, size_t size)
{
    const bool usual = eyes->viewing.observer == SL_OBSERVER_2_DEGREE;
    snprintf(text, size, "%s, %s%s%s", sl_eyes_look_word(eyes), _(sl_light_word(eyes->viewing.light)),
             usual ? "" : ", ", usual ? "" : _(sl_observer_word(eyes->viewing.observer)));
}
