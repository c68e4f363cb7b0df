/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What people read where machines read a name. A name is typed and kept; it is never shown past here.
 */
#include "slowlift/model.h"

static const char *or_name(const char *title, const char *name)
{
    return title && title[0] != '\0' ? title : name;
}

const char *sl_scene_title(const sl_scene *scene)
{
    return or_name(scene->title, scene->name);
}

const char *sl_scene_question(const sl_scene *scene)
{
    return or_name(scene->question, NULL);
}

const char *sl_arm_title(const sl_arm *arm)
{
    return arm->name;
}

const char *sl_zone_title(const sl_zone *zone)
{
    return zone->name;
}

const char *sl_mix_title(const sl_mix *mix)
{
    return or_name(mix->title, mix->name);
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
