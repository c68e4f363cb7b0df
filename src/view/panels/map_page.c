/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What comes of the chosen strip over two of its settings, as `slowlift map` tells it. Invariant: no more
 * than 12 % developer is drawn.
 */
#include <math.h>

#include "base/language.h"
#include "report/rank/map.h"
#include "view/panels/said.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

static sl_axis axis_of(sl_setting setting, double from, double to)
{
    const sl_knob *const range = &sl_knobs[setting];
    return (sl_axis){setting, fmax(from, range->least), fmin(to, range->most), 0};
}

/* Hair as warm as on a head has no map: warmer only as far as whole kelvins keep it below. */
static double most_warmer(const sl_scene *scene)
{
    double coldest_c = 0.0, warmest_c = 0.0;
    sl_scene_warmth(scene, &coldest_c, &warmest_c);
    return fmax(0.0, fmin(10.0, ceil(SL_HEAD_FROM_C - (warmest_c - scene->shift_k)) - 1.0));
}

void sl_map_axes(const sl_stage *stage, sl_axis *x, sl_axis *y)
{
    const sl_scene *scene = sl_stage_scene(stage);
    if (stage->chosen.axes == 0) {
        *x = sl_setting_applies(scene, stage->chosen.arm, SL_SETTING_STRENGTH)
                 ? axis_of(SL_SETTING_STRENGTH, 0.0, 12.0)
                 : axis_of(SL_SETTING_GRAMS, 1.0, 12.0);
        *y = axis_of(SL_SETTING_DWELL, 6.0, 60.0); /* whole minutes in the table */
    } else {
        *x = sl_setting_applies(scene, stage->chosen.arm, SL_SETTING_RATIO)
                 ? axis_of(SL_SETTING_RATIO, 1.0, 5.0)
                 : axis_of(SL_SETTING_GRAMS, 1.0, 12.0);
        *y = axis_of(SL_SETTING_WARMER, -10.0, most_warmer(scene));
    }
}

/* Why there is no map; `text` may hold the words. NULL: there is one. */
static const char *why_not(const sl_stage *stage, char *text, size_t size)
{
    if (!sl_stage_on_bench(stage)) {
        return _("No minutes are given for hair on a head: no map is drawn.");
    }
    if (stage->entered.of_person) {
        return _("The form about a person is being filled in: maps are for the classroom. Forget the form "
                 "first (F, Delete).");
    }
    if (!sl_setting_applies(sl_stage_scene(stage), stage->chosen.arm, SL_SETTING_DWELL)) {
        return _("This strip has no mix inside the model: there is nothing to set.");
    }
    sl_put_awaited(stage, SL_STUDY_MAP, _("solving …"), text, size);
    return stage->solved.study.map == NULL ? text : NULL;
}

void sl_say_map(sl_document *document, const sl_stage *stage, sl_error *error)
{
    enum { SHOWN = 6 }; /* steps of each axis in the table */
    const sl_map *const map = stage->solved.study.map;
    char text[2 * SL_SHOW_LINE];
    const char *const not = why_not(stage, text, sizeof text);
    if (not != NULL) {
        sl_say_only(document, "map", not, error);
        return;
    }
    const sl_map_page page = {.scene = sl_stage_scene_now(stage),
                              .map = map,
                              .shows = stage->chosen.map_layer,
                              .coarse_x = (map->x.n - 1) / SHOWN,
                              .coarse_y = (map->y.n - 1) / SHOWN};
    sl_map_say(document, &page, error);
}
