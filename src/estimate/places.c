/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How many times as fast the same mixes do the same in another place: from times that were solved in both,
 * since mixes grow weaker, dry and dissolve meanwhile, and a wrap warms up slowly.
 */
#include <math.h>

#include "slowlift/estimate.h"

static const double LEAST_GONE = 0.01; /* of a colour: of less no time is told */

static bool works(const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    for (int i = 0; i < here->n_steps; i++) {
        if (here->steps[i].kind == SL_STEP_APPLY && scene->mixes[here->steps[i].mix].class_ != SL_MIX_WATER) {
            return !here->undyed;
        }
    }
    return false;
}

/* Contact to first water in the slower place, against the time to the same colour in the faster one. */
static bool times_of(const sl_timeline *from, const sl_timeline *to, int arm, int zone, double *times)
{
    const sl_arm *const here = &sl_timeline_scene(from)->arms[arm];
    const double water = fmin(sl_first_water_min(here), sl_timeline_scene(from)->until_min);
    const double left_from = sl_left_at(from, arm, zone, water), left_to = sl_left_at(to, arm, zone, water);
    const bool faster = left_to <= left_from;
    double minute = 0.0;
    if (!(water > here->contact_min) || fmax(left_from, left_to) > 1.0 - LEAST_GONE ||
        !sl_first_time(faster ? to : from, arm, zone, SL_COLOUR_LEFT, faster ? left_from : left_to,
                       &minute) ||
        !(minute > here->contact_min)) {
        return false;
    }
    const double ratio = (water - here->contact_min) / (minute - here->contact_min);
    *times = faster ? ratio : 1.0 / ratio;
    return true;
}

static void range_of(sl_times_range *range, const sl_timeline *from, const sl_timeline *to, int only)
{
    const sl_scene *const scene = sl_timeline_scene(from);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            double times = 0.0;
            if ((only < 0 || only == arm) && works(scene, arm) && sl_timeline_predicted(from, arm) &&
                sl_zone_direct(scene, zone) && times_of(from, to, arm, zone, &times)) {
                range->least = range->most > 0.0 ? fmin(range->least, times) : times;
                range->most = fmax(range->most, times);
            }
        }
    }
}

/* One place's solution: the one at hand, or one made of its own scene. */
typedef struct place_read {
    sl_scene scene;
    sl_timeline *own; /* NULL: not made */
    const sl_timeline *read;
} place_read;

static bool read_place(place_read *there, const sl_timeline *timeline, sl_place place, sl_solver *solver,
                       sl_error *error)
{
    there->own = NULL;
    there->read = timeline;
    there->scene = *sl_timeline_scene(timeline);
    if (place == there->scene.place) {
        return true;
    }
    there->scene.place = place;
    there->scene.n_points = 0;
    there->scene.shift_k = 0.0;
    const bool good = sl_timeline_solve(&there->own, &there->scene, NULL, 0, solver, NULL, error);
    there->read = there->own;
    return good;
}

bool sl_place_times(const sl_timeline *timeline, int arm, sl_place from, sl_place to, sl_times_range *range,
                    sl_error *error)
{
    place_read one = {.own = NULL}, two = {.own = NULL};
    sl_solver *const solver = sl_solver_new(error);
    *range = (sl_times_range){0.0, 0.0};
    const bool good = solver && read_place(&one, timeline, from, solver, error) &&
                      read_place(&two, timeline, to, solver, error);
    if (good) {
        range_of(range, one.read, two.read, arm);
    }
    sl_timeline_free(one.own);
    sl_timeline_free(two.own);
    sl_solver_free(solver);
    return good;
}
