/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See model.h.
 */
#include "day/model.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "log/day/rounds.h"
#include "report/reading.h"
#include "slowlift/estimate.h"
#include "slowlift/scene.h"

void sl_day_model_make(sl_day_model *model, const sl_scene *scene, const sl_error *why)
{
    *model = (sl_day_model){.why = *why};
    model->scene = scene ? sl_scene_copy(scene, &model->why) : NULL;
    sl_solver *const solver = model->scene ? sl_solver_new(&model->why) : NULL;
    if (!solver) {
        return;
    }
    sl_rounds_stay_on(model->scene, SL_DAY_LONGER_MIN);
    if (!sl_timeline_solve(&model->timeline, model->scene, NULL, 0, solver, NULL, &model->why)) {
        sl_timeline_free(model->timeline);
        model->timeline = NULL;
    }
    sl_solver_free(solver);
}

void sl_day_model_free(sl_day_model *model)
{
    sl_timeline_free(model->timeline);
    sl_scene_free(model->scene);
}

static int dyed_zone(const sl_scene *scene, int arm)
{
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (sl_zone_dyed(scene, arm, zone)) {
            return zone;
        }
    }
    return 0;
}

bool sl_day_model_see(const sl_day_model *model, int arm, double course_s, const sl_optics *optics,
                      sl_day_seen *seen)
{
    const sl_scene *const scene = model->scene;
    sl_cell undyed;
    if (!model->timeline || arm < 0) {
        return false;
    }
    const double at_min = scene->arms[arm].contact_min + fmax(course_s, 0.0) / 60.0;
    seen->predicted = sl_timeline_predicted(model->timeline, arm);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_timeline_at(model->timeline, arm, zone, at_min, optics, &seen->cell[zone]);
    }
    sl_timeline_at(model->timeline, arm, sl_reference_zone(scene, dyed_zone(scene, arm)), at_min, NULL,
                   &undyed);
    seen->moved = undyed.base_moved;
    seen->stress = undyed.cystine_lost;
    return true;
}

bool sl_day_model_words(const sl_day_model *model, int arm, double course_s, char *left, char *hair,
                        size_t size)
{
    sl_day_seen seen;
    char percent[16], stress[16], zones[400] = "";
    hair[0] = '\0';
    if (!sl_day_model_see(model, arm, course_s, NULL, &seen) || !seen.predicted) {
        snprintf(left, size, "%s", _("nothing is predicted for this one"));
        return false;
    }
    for (int zone = 0; zone < model->scene->n_zones; zone++) {
        if (seen.cell[zone].colour_left >= 0.0) {
            sl_percent(seen.cell[zone].colour_left, percent, sizeof percent);
            sl_append_item(zones, sizeof zones, ", ", "%s %s", sl_zone_title(&model->scene->zones[zone]),
                           percent);
        }
    }
    if (zones[0] != '\0') {
        snprintf(left, size, _("colour left, in %%: %s"), zones);
    } else {
        snprintf(left, size, "%s", _("no dye on this one"));
    }
    sl_percent(seen.moved, percent, sizeof percent);
    sl_percent(seen.stress, stress, sizeof stress);
    snprintf(hair, size, _("base moved %s %%, hair stress %s %%"), percent, stress);
    return true;
}
