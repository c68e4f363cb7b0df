/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What people read where machines read a name, in the language in use. A name is typed and kept; it is never
 * shown past here.
 */
#include <string.h>

#include "base/language.h"
#include "slowlift/model.h"
#include "slowlift/wording.h"

const char *sl_wording_in(const sl_wording *wording, sl_language_id language)
{
    const char *text = wording->in[language] ? wording->in[language] : wording->in[SL_ENGLISH];
    for (int i = 0; i < SL_LANGUAGES && !text; i++) {
        text = wording->in[i];
    }
    return text;
}

const char *sl_wording_shown(const sl_wording *wording)
{
    return sl_wording_in(wording, sl_language_in_use());
}

static const char *or_name(const char *title, const char *name)
{
    return title ? title : name;
}

/* The name stands for a title in English, so that no other language is shown in its place. */
static const char *beside_name(const sl_wording *title, const char *name, sl_language_id language)
{
    return or_name(title->in[language], or_name(title->in[SL_ENGLISH], name));
}

const char *sl_scene_title(const sl_scene *scene)
{
    return or_name(sl_wording_shown(&scene->title), scene->name);
}

const char *sl_scene_question(const sl_scene *scene)
{
    return sl_wording_shown(&scene->question);
}

const char *sl_arm_title_in(const sl_arm *arm, sl_language_id language)
{
    return beside_name(&arm->title, arm->name, language);
}

const char *sl_zone_title_in(const sl_zone *zone, sl_language_id language)
{
    return beside_name(&zone->title, zone->name, language);
}

const char *sl_arm_title(const sl_arm *arm)
{
    return sl_arm_title_in(arm, sl_language_in_use());
}

const char *sl_zone_title(const sl_zone *zone)
{
    return sl_zone_title_in(zone, sl_language_in_use());
}

const char *sl_tone_title(const sl_tone *tone)
{
    return beside_name(&tone->title, tone->word, sl_language_in_use());
}

const char *sl_mix_title(const sl_mix *mix)
{
    return or_name(sl_wording_shown(&mix->title), mix->name);
}

const char *sl_dye_title(const sl_dye *dye)
{
    return beside_name(&dye->title, dye->name, sl_language_in_use());
}

const char *sl_title_of_arm(const sl_scene *scene, const char *name)
{
    const int arm = scene ? sl_scene_arm(scene, name) : -1;
    return arm >= 0 ? sl_arm_title(&scene->arms[arm]) : name;
}

const char *sl_title_of_zone(const sl_scene *scene, const char *name)
{
    const int zone = scene ? sl_scene_zone(scene, name) : -1;
    return zone >= 0 ? sl_zone_title(&scene->zones[zone]) : name;
}

int sl_scene_arm_typed(const sl_scene *scene, const char *text)
{
    int found = sl_scene_arm(scene, text);
    for (int arm = 0; arm < scene->n_arms && found < 0; arm++) {
        found = strcmp(sl_arm_title(&scene->arms[arm]), text) == 0 ? arm : -1;
    }
    return found;
}

int sl_scene_zone_typed(const sl_scene *scene, const char *text)
{
    int found = sl_scene_zone(scene, text);
    for (int zone = 0; zone < scene->n_zones && found < 0; zone++) {
        found = strcmp(sl_zone_title(&scene->zones[zone]), text) == 0 ? zone : -1;
    }
    return found;
}
