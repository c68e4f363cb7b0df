/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the numbers of a scene are worth, in one line, and what is said of an arm that
 * the model does not cover.
 */
#include "base/language.h"
#include "slowlift/report.h"

void sl_example_note(const sl_scene *scene, char *text, size_t size)
{
    if (scene->weakest_what == NULL || scene->weakest_what[0] == '\0') {
        snprintf(text, size, _("classroom example: weakest number is %s"), _(sl_grade_word(scene->weakest)));
        return;
    }
    snprintf(text, size, _("classroom example: weakest number is %s (%s)"), scene->weakest_what,
             _(sl_grade_word(scene->weakest)));
}

void sl_outside_note(const sl_scene *scene, int arm, char *text, size_t size)
{
    const sl_arm *outside = &scene->arms[arm];
    for (int i = 0; i < outside->n_steps; i++) {
        if (outside->steps[i].kind != SL_STEP_APPLY) {
            continue;
        }
        const sl_mix *mix = &scene->mixes[outside->steps[i].mix];
        if (!sl_mix_in_model(scene, mix)) {
            snprintf(
                text, size,
                _("\"%s\" is outside this model: how its mix works is %s, and only mixes that oxidise, or "
                  "name the agent by which they reduce, are computed. It is recorded; nothing is guessed."),
                sl_arm_title(outside), _(sl_mechanism_word(mix->mechanism)));
            return;
        }
    }
    snprintf(text, size,
             _("\"%s\" is outside this model: two reducing agents on one strip. Nothing is guessed."),
             sl_arm_title(outside));
}
