/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looking into a lesson.
 */
#include <string.h>

#include "base/language.h"
#include "lesson/reading.h"

static const char *called_or(const sl_lesson *lesson, const char *name, const char *otherwise)
{
    const struct sl_lesson_memory *const memory = lesson->memory;
    for (int i = 0; i < memory->n_called; i++) {
        if (strcmp(memory->of_scene[i], name) == 0) {
            return memory->called[i];
        }
    }
    return otherwise;
}

const char *sl_lesson_called(const sl_lesson *lesson, const char *name)
{
    return called_or(lesson, name, name);
}

const char *sl_lesson_called_arm(const sl_lesson *lesson, const sl_arm *arm)
{
    return called_or(lesson, arm->name, sl_arm_title_in(arm, sl_language_of(lesson->language)));
}

const char *sl_lesson_called_zone(const sl_lesson *lesson, const sl_zone *zone)
{
    return called_or(lesson, zone->name, sl_zone_title_in(zone, sl_language_of(lesson->language)));
}

void sl_lesson_cell(const sl_lesson *lesson, int scene, int arm, int zone, double since_contact_min,
                    sl_cell *cell)
{
    const sl_lesson_scene *const in = &lesson->scene[scene];
    sl_timeline_at(in->timeline, arm, zone, in->scene->arms[arm].contact_min + since_contact_min, NULL, cell);
}

int sl_lesson_question(const sl_lesson *lesson, const char *key)
{
    for (int i = 0; i < lesson->n_questions; i++) {
        if (strcmp(lesson->question[i].key, key) == 0) {
            return i;
        }
    }
    return -1;
}
