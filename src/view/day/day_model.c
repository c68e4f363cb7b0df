/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_model.h.
 */
#include "view/day/day_model.h"

#include <string.h>

#include "log/day/rounds.h"
#include "report/reading.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"
#include "slowlift/scene.h"
#include "swatch/strands.h"

bool sl_day_model_make(sl_day_model *model, const sl_scene *scene, const sl_eyes *eyes, sl_error *error)
{
    memset(model, 0, sizeof *model);
    model->scene = sl_scene_copy(scene, error);
    sl_solver *const solver = model->scene != NULL ? sl_solver_new(error) : NULL;
    if (solver == NULL) {
        return false;
    }
    sl_rounds_stay_on(model->scene, SL_DAY_LONGER_MIN);
    const bool good = sl_timeline_solve(&model->timeline, model->scene, NULL, 0, solver, NULL, error) &&
                      sl_lenses_fit(&model->lenses, model->scene, eyes->viewing, error);
    sl_solver_free(solver);
    sl_example_note(scene, model->example, sizeof model->example);
    return good;
}

void sl_day_model_free(sl_day_model *model)
{
    sl_lenses_free(&model->lenses);
    sl_timeline_free(model->timeline);
    sl_scene_free(model->scene);
    memset(model, 0, sizeof *model);
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

void sl_day_model_see(const sl_day_model *model, const sl_eyes *eyes, int arm, double minutes,
                      sl_day_seen *seen)
{
    const sl_scene *const scene = model->scene;
    const sl_optics *const optics = sl_lenses_for(&model->lenses, eyes->viewing);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    const double clock = scene->arms[arm].contact_min + minutes;
    sl_cell cell;
    memset(seen, 0, sizeof *seen);
    seen->predicted = sl_timeline_predicted(model->timeline, arm);
    seen->look.bleed = SL_USUAL_BLEED;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_timeline_at(model->timeline, arm, zone, clock, optics, &cell);
        sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, eyes->vision,
                          seen->look.colour[zone]);
        seen->left[zone] = cell.colour_left;
    }
    sl_timeline_at(model->timeline, arm, sl_reference_zone(scene, dyed_zone(scene, arm)), clock, NULL, &cell);
    seen->moved = cell.base_moved;
    seen->stress = cell.cystine_lost;
}
