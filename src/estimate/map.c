/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See map.h: one variant and one outcome for every point of the grid.
 */
#include "slowlift/map.h"
#include "slowlift/leave.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "slowlift/limits.h"

static const char doing[] = "drawing a map";

double sl_axis_value(const sl_axis *axis, int i)
{
    return axis->from + (axis->to - axis->from) * i / (axis->n - 1);
}

void sl_map_free(sl_map *map)
{
    if (map) {
        for (int layer = 0; layer < SL_MAP_LAYERS; layer++) {
            sl_free(map->value[layer]);
        }
        sl_free(map->goal);
        sl_free(map->inside);
        sl_free(map);
    }
}

static sl_map *new_map(int arm, int zone, sl_axis x, sl_axis y, sl_error *error)
{
    sl_map *const map = sl_new(1, sizeof *map, doing, error);
    if (!map) {
        return NULL;
    }
    const size_t points = (size_t)x.n * (size_t)y.n;
    map->arm = arm;
    map->zone = zone;
    map->x = x;
    map->y = y;
    bool good = true;
    for (int layer = 0; layer < SL_MAP_LAYERS && good; layer++) {
        map->value[layer] = sl_new(points, sizeof *map->value[layer], doing, error);
        good = map->value[layer] != NULL;
    }
    map->goal = good ? sl_new(points, sizeof *map->goal, doing, error) : NULL;
    map->inside = map->goal ? sl_new(points, sizeof *map->inside, doing, error) : NULL;
    if (!map->inside) {
        sl_map_free(map);
        return NULL;
    }
    return map;
}

static bool inside_limits(const sl_variant *variant, const sl_outcome *outcome)
{
    const sl_aims *const aims = &variant->scene.aims;
    bool inside = sl_bound_kept(aims->base_moved, outcome->base_moved) &&
                  sl_bound_kept(aims->cystine_lost, outcome->cystine_lost);
    double minutes = 0.0;
    for (int i = 0; i < variant->arm.n_steps; i++) {
        const sl_step *const step = &variant->arm.steps[i];
        if (step->kind == SL_STEP_APPLY) {
            const sl_mix *const mix = &variant->mixes[step->mix];
            minutes += step->duration_min;
            inside = inside && step->duration_min <= sl_label_allowed_min(mix, step->mix_age_min) &&
                     mix->developer_pct <= SL_LEGAL_PCT;
        }
    }
    return inside && sl_bound_kept(aims->longest_min, minutes);
}

/* No corner of the map counts as a head. */
static bool on_a_bench(const sl_scene *scene, int arm, const sl_axis *x, const sl_axis *y, sl_changes here,
                       sl_error *error)
{
    for (int corner = 0; corner < 4; corner++) {
        sl_variant variant;
        if (!sl_changes_set(&here, scene, arm, x->setting, sl_axis_value(x, corner % 2 * (x->n - 1)),
                            error) ||
            !sl_changes_set(&here, scene, arm, y->setting, sl_axis_value(y, corner / 2 * (y->n - 1)),
                            error)) {
            return false;
        }
        sl_variant_make(&variant, scene, arm, &here);
        if (!sl_swatches_only(&variant.scene, "maps are of swatches in a room: keep below 30 °C", error)) {
            return false;
        }
    }
    return true;
}

bool sl_map_begin(sl_map **map, const sl_scene *scene, int arm, int zone, sl_axis x, sl_axis y,
                  const sl_changes *changes, sl_error *error)
{
    assert(x.n >= 2 && x.n <= SL_MAP_MOST && y.n >= 2 && y.n <= SL_MAP_MOST && x.setting != y.setting);
    const sl_changes here = changes ? *changes : (sl_changes){.set = {false}};
    sl_map *const made = on_a_bench(scene, arm, &x, &y, here, error) ? new_map(arm, zone, x, y, error) : NULL;
    if (made) {
        sl_map_free(*map);
        *map = made;
    }
    return made != NULL;
}

bool sl_map_whole(const sl_map *map)
{
    return map->done == map->x.n * map->y.n;
}

static void put_point(sl_map *map, const sl_variant *variant, const sl_outcome *outcome)
{
    const int i = map->done++;
    map->value[SL_MAP_LEFT][i] = map->zone >= 0 ? outcome->left[map->zone] : outcome->worst_left;
    map->value[SL_MAP_BASE][i] = outcome->base_moved;
    map->value[SL_MAP_STRESS][i] = outcome->cystine_lost;
    map->goal[i] = map->zone >= 0 ? outcome->there[map->zone] : outcome->all_there;
    map->inside[i] = inside_limits(variant, outcome);
}

bool sl_map_go_on(sl_map *map, const sl_scene *scene, const sl_changes *changes, int points,
                  sl_solver *solver, sl_error *error)
{
    const sl_axis *const x = &map->x, *const y = &map->y;
    sl_changes here = changes ? *changes : (sl_changes){.set = {false}};
    sl_timeline *timeline = NULL;
    bool good = true;
    for (int n = 0; good && n < points && !sl_map_whole(map); n++) {
        sl_variant variant;
        sl_outcome outcome;
        good =
            sl_changes_set(&here, scene, map->arm, x->setting, sl_axis_value(x, map->done % x->n), error) &&
            sl_changes_set(&here, scene, map->arm, y->setting, sl_axis_value(y, map->done / x->n), error);
        if (good) {
            sl_variant_make(&variant, scene, map->arm, &here);
            good = sl_outcome_of(&outcome, &variant.scene, 0, &timeline, solver, error);
        }
        if (good) {
            put_point(map, &variant, &outcome);
        }
    }
    sl_timeline_free(timeline);
    return good;
}

bool sl_map_make(sl_map **map, const sl_scene *scene, int arm, int zone, sl_axis x, sl_axis y,
                 const sl_changes *changes, sl_solver *solver, sl_error *error)
{
    sl_map *made = NULL;
    if (!sl_map_begin(&made, scene, arm, zone, x, y, changes, error) ||
        !sl_map_go_on(made, scene, changes, x.n * y.n, solver, error)) {
        sl_map_free(made);
        return false;
    }
    sl_map_free(*map);
    *map = made;
    return true;
}
