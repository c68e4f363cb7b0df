/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a scene's aims ask of one zone. Invariant: a zone without a direct dye has no goal; a
 * zone's own threshold goes before the blanket one, nearness to undyed hair before a share.
 */
#include <assert.h>
#include <float.h>
#include <math.h>

#include "slowlift/model.h"

#define AS_WORD(name, word, left) [name] = word,
#define AS_LEFT(name, word, left) [name] = left,
static const char *const next_words[SL_NEXT_COUNT] = {SL_NEXT_LIST(AS_WORD)};
static const double next_left[SL_NEXT_COUNT] = {SL_NEXT_LIST(AS_LEFT)};

const char *sl_next_word(sl_next next)
{
    assert(next < SL_NEXT_COUNT);
    return next_words[next];
}

bool sl_bound_kept(sl_bound bound, double value)
{
    return !bound.set || value <= bound.most;
}

double sl_bound_reached_at(sl_bound bound)
{
    return fmax(bound.most, DBL_MIN);
}

double sl_next_left(sl_next next)
{
    assert(next < SL_NEXT_COUNT);
    return next_left[next];
}

bool sl_zone_direct(const sl_scene *scene, int zone)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    for (int i = 0; i < recipe->n_dyes; i++) {
        if (scene->dyes[recipe->dye[i]].class_ != SL_DYE_OXIDATIVE) {
            return true;
        }
    }
    return false;
}

sl_goal sl_zone_goal(const sl_scene *scene, int zone)
{
    const sl_aims *const aims = &scene->aims;
    sl_goal goal = {.left = 1.0};
    if (!sl_zone_direct(scene, zone)) {
        return goal;
    }
    goal.near_undyed = aims->zone_near[zone];
    if (!(goal.near_undyed > 0.0)) {
        goal.left = aims->zone_left[zone] > 0.0 ? aims->zone_left[zone] : aims->colour_left;
    }
    goal.wanted = goal.near_undyed > 0.0 || goal.left < 1.0;
    return goal;
}

bool sl_goal_set(const sl_scene *scene)
{
    bool set = scene->aims.colour_left < 1.0;
    for (int zone = 0; zone < scene->n_zones && !set; zone++) {
        set = sl_zone_goal(scene, zone).wanted;
    }
    return set;
}

/* What a class mostly asks for (common practice, no source): half of the colour out; before that no level of
 * the base, no tenth of the cystine and no more than three quarters of an hour. */
static const double USUAL_LEFT = 0.5, USUAL_LEVELS = 1.0, USUAL_STRESS = 0.10, USUAL_LONGEST_MIN = 45.0;

void sl_aims_assume(sl_scene *scene)
{
    sl_aims *const aims = &scene->aims;
    if (sl_goal_set(scene)) {
        return;
    }
    aims->assumed = true;
    aims->colour_left = USUAL_LEFT;
    if (!aims->base_moved.set) {
        aims->base_moved = (sl_bound){sl_base_of_levels(&scene->chemistry, USUAL_LEVELS), true};
        aims->base_levels = USUAL_LEVELS;
    }
    if (!aims->cystine_lost.set && !(aims->stress_share > 0.0)) {
        aims->cystine_lost = (sl_bound){USUAL_STRESS, true};
    }
    if (!aims->longest_min.set) {
        aims->longest_min = (sl_bound){USUAL_LONGEST_MIN, true};
    }
}

void sl_aims_wait_for(sl_scene *scene, double left)
{
    const sl_aims was = scene->aims;
    scene->aims = (sl_aims){.colour_left = left,
                            .base_moved = was.base_moved,
                            .cystine_lost = was.cystine_lost,
                            .longest_min = was.longest_min,
                            .stress_share = was.stress_share,
                            .stress_of = was.stress_of};
}

bool sl_goal_share(const sl_scene *scene, int zone, double *share)
{
    bool found = false;
    for (int z = 0; z < scene->n_zones; z++) {
        const sl_goal goal = sl_zone_goal(scene, z);
        if (!goal.wanted || (zone >= 0 && z != zone)) {
            continue;
        }
        if (goal.near_undyed > 0.0 || (found && fabs(goal.left - *share) > 0.0)) {
            return false;
        }
        *share = goal.left;
        found = true;
    }
    return found;
}

bool sl_goal_near_undyed(const sl_scene *scene)
{
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (sl_zone_goal(scene, zone).near_undyed > 0.0) {
            return true;
        }
    }
    return false;
}
