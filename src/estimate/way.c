/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Is there a way through? The goal is when the last of the direct-dyed zones is down to its
 * share; the limit is whatever comes first of base moved, cystine lost (both read in undyed
 * hair of the same kind) and the longest time. Central values only, bench only.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/estimate.h"

static const double WIDE_MIN = 5.0; /* wide: a look every five minutes fits in (assumed) */

static double colour_left(const sl_timeline *timeline, int arm, int zone, double time_min)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, time_min, NULL, &cell);
    return cell.colour_left;
}

static bool has_direct_dye(const sl_scene *scene, int zone)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    for (int i = 0; i < recipe->n_dyes; i++) {
        if (scene->dyes[recipe->dye[i]].class_ != SL_DYE_OXIDATIVE) {
            return true;
        }
    }
    return false;
}

static bool has_mix(const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            return true;
        }
    }
    return false;
}

/* When the last of the direct-dyed zones is at the goal; or which zone is furthest from it. */
static void find_goal(const sl_timeline *timeline, int arm, sl_way *way)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    double worst_left = -1.0;
    int never = -1;
    way->goal_zone = -1;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        double time_min = 0.0;
        if (!has_direct_dye(scene, zone)) {
            continue;
        }
        if (!sl_first_time(timeline, arm, zone, SL_COLOUR_LEFT, scene->aims.colour_left, &time_min)) {
            const double left = colour_left(timeline, arm, zone, scene->until_min);
            never = left > worst_left ? zone : never;
            worst_left = fmax(left, worst_left);
        } else if (way->goal_zone < 0 || time_min > way->goal_min) {
            way->goal_min = time_min;
            way->goal_zone = zone;
        }
    }
    way->goal_reached = never < 0 && way->goal_zone >= 0;
    if (never >= 0) {
        way->goal_zone = never;
    }
    way->goal_min -= scene->arms[arm].contact_min;
}

static void first_limit(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, double share,
                        sl_way *way)
{
    double time_min = 0.0;
    if (!(share > 0.0) || !sl_first_time(timeline, arm, zone, quantity, share, &time_min)) {
        return;
    }
    const double since = time_min - sl_timeline_scene(timeline)->arms[arm].contact_min;
    if (since < way->limit_min) {
        way->limit_min = since;
        way->limit_reached = true;
        way->limit_is_time = false;
        way->limit = quantity;
        way->limit_zone = zone;
    }
}

static void find_limit(const sl_timeline *timeline, int arm, sl_way *way)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    way->limit_min = scene->until_min - scene->arms[arm].contact_min;
    way->limit_zone = -1;
    if (scene->aims.longest_min > 0.0 && scene->aims.longest_min <= way->limit_min) {
        way->limit_min = scene->aims.longest_min;
        way->limit_reached = true;
        way->limit_is_time = true;
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (has_direct_dye(scene, zone)) {
            const int reference = sl_reference_zone(scene, zone);
            first_limit(timeline, arm, reference, SL_BASE_MOVED, scene->aims.base_moved, way);
            first_limit(timeline, arm, reference, SL_CYSTINE_LOST, scene->aims.cystine_lost, way);
        }
    }
}

sl_way sl_way_through(const sl_timeline *timeline, int arm)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_arm *const here = &scene->arms[arm];
    sl_way way = {.word = SL_WAY_NOT_ASKED, .goal_zone = -1, .limit_zone = -1};
    if (!(scene->aims.colour_left < 1.0) || here->undyed || !sl_timeline_predicted(timeline, arm) ||
        !has_mix(here)) {
        return way;
    }
    find_goal(timeline, arm, &way);
    if (way.goal_zone < 0) {
        return way;
    }
    find_limit(timeline, arm, &way);
    way.goal_zone_left = colour_left(timeline, arm, way.goal_zone, here->contact_min + way.limit_min);
    if (!way.goal_reached || way.goal_min >= way.limit_min) {
        way.word = SL_WAY_NONE;
    } else {
        way.word = way.limit_min - way.goal_min >= WIDE_MIN ? SL_WAY_WIDE : SL_WAY_SHORT;
    }
    return way;
}

const char *sl_way_text(sl_way_word word)
{
    static const char *const words[] = {[SL_WAY_WIDE] = "wide",
                                        [SL_WAY_SHORT] = "short",
                                        [SL_WAY_NONE] = "none",
                                        [SL_WAY_NOT_ASKED] = "not asked"};
    assert(word <= SL_WAY_NOT_ASKED);
    return words[word];
}
