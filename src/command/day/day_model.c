/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the model says of one swatch at one second of the day: the arm's own strip of the scene at
 * its contact plus the time that this swatch has lain. Invariant: it only stands beside the clock;
 * nothing of the clock follows from it.
 */
#include <string.h>

#include "base/language.h"
#include "command/day/day.h"
#include "document/text.h"
#include "log/day/rounds.h"
#include "slowlift/estimate.h"
#include "slowlift/scene.h"

enum { LONGER_MIN = 60 }; /* so far over its time a swatch can be followed */

void sl_terminal_model_make(sl_terminal_model *model, const sl_scene *scene, const sl_error *why)
{
    *model = (sl_terminal_model){.why = *why};
    model->scene = scene ? sl_scene_copy(scene, &model->why) : NULL;
    sl_solver *const solver = model->scene ? sl_solver_new(&model->why) : NULL;
    if (!solver) {
        return;
    }
    sl_rounds_stay_on(model->scene, LONGER_MIN);
    if (!sl_timeline_solve(&model->timeline, model->scene, NULL, 0, solver, NULL, &model->why)) {
        sl_timeline_free(model->timeline);
        model->timeline = NULL;
    }
    sl_solver_free(solver);
}

void sl_terminal_model_free(sl_terminal_model *model)
{
    sl_timeline_free(model->timeline);
    sl_scene_free(model->scene);
}

static void add(char *text, size_t size, const char *name, double share, const char *unit)
{
    char percent[16];
    const size_t at = strlen(text);
    sl_percent(share, percent, sizeof percent);
    snprintf(text + at, size - at, "%s %s%s", name, percent, unit);
}

bool sl_terminal_model_words(const sl_terminal_model *model, int arm, double contact_s, char *left,
                             char *hair, size_t size)
{
    snprintf(left, size, "%s", _("nothing is predicted for this one"));
    hair[0] = '\0';
    if (arm < 0 || !model->timeline || !sl_timeline_predicted(model->timeline, arm)) {
        return false;
    }
    const double at = model->scene->arms[arm].contact_min + contact_s / 60.0;
    sl_cell cell;
    int any = 0, dyed = 0;
    snprintf(left, size, "%s", _("no dye on this one"));
    for (int zone = 0; zone < model->scene->n_zones; zone++) {
        sl_timeline_at(model->timeline, arm, zone, at, NULL, &cell);
        if (cell.colour_left < 0.0) {
            continue;
        }
        if (any++ == 0) {
            dyed = zone;
            snprintf(left, size, "%s", _("colour left, in %: "));
        } else {
            const size_t end = strlen(left);
            snprintf(left + end, size - end, ", ");
        }
        add(left, size, sl_zone_title(&model->scene->zones[zone]), cell.colour_left, "");
    }
    sl_timeline_at(model->timeline, arm, sl_reference_zone(model->scene, dyed), at, NULL, &cell);
    add(hair, size, _("base moved"), cell.base_moved, " %");
    add(hair, size, _(", hair stress"), cell.cystine_lost, " %");
    return true;
}
