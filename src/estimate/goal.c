/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When is a zone where it is wanted, and how much stress is too much? A share of colour left is
 * found as in first_time.c; the distance to undyed hair may grow again, because the base goes on moving under
 * what is left, so its first moment is bracketed by a scan.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/estimate.h"

static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;
enum { SCANNED = 120 };

double sl_from_undyed(const sl_timeline *timeline, int arm, int zone, double clock_min)
{
    const sl_optics *const dry = sl_timeline_dry(timeline);
    const int undyed = sl_reference_zone(sl_timeline_scene(timeline), zone);
    sl_cell here, there;
    assert(dry);
    sl_timeline_at(timeline, arm, zone, clock_min, dry, &here);
    sl_timeline_at(timeline, arm, undyed, clock_min, dry, &there);
    return sl_delta_e_2000(here.colour.lab, there.colour.lab);
}

bool sl_goal_there(const sl_timeline *timeline, int arm, int zone, double clock_min)
{
    const sl_goal goal = sl_zone_goal(sl_timeline_scene(timeline), zone);
    if (goal.near_undyed > 0.0) {
        return sl_from_undyed(timeline, arm, zone, clock_min) <= goal.near_undyed;
    }
    const double left = sl_left_at(timeline, arm, zone, clock_min);
    return goal.wanted && left >= 0.0 && left <= goal.left;
}

static bool near_time(const sl_timeline *timeline, int arm, int zone, double *time_min)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double start = fmin(fmax(scene->arms[arm].contact_min, 0.0), scene->until_min);
    const double step = (scene->until_min - start) / SCANNED;
    double low = start;
    double high = start;
    bool found = sl_goal_there(timeline, arm, zone, start);
    for (int i = 1; i <= SCANNED && !found; i++) {
        low = high;
        high = i < SCANNED ? start + step * i : scene->until_min;
        found = sl_goal_there(timeline, arm, zone, high);
    }
    while (found && high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        if (sl_goal_there(timeline, arm, zone, middle)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    *time_min = found ? high : *time_min;
    return found;
}

bool sl_goal_time(const sl_timeline *timeline, int arm, int zone, double *time_min)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_goal goal = sl_zone_goal(scene, zone);
    if (!goal.wanted || scene->arms[arm].undyed || !sl_timeline_predicted(timeline, arm)) {
        return false;
    }
    return goal.near_undyed > 0.0 ? near_time(timeline, arm, zone, time_min)
                                  : sl_first_time(timeline, arm, zone, SL_COLOUR_LEFT, goal.left, time_min);
}

/* ---- stress, against another arm ------------------------------------------------------------ */

double sl_first_water_min(const sl_arm *arm)
{
    const int first = sl_arm_next_application(arm, 0);
    return arm->contact_min + sl_arm_minutes_before(arm, first < 0 ? arm->n_steps : first + 1);
}

static double least_lost(const sl_timeline *timeline, int arm)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double end = fmin(sl_first_water_min(&scene->arms[arm]), scene->until_min);
    double least = 1.0;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_cell cell;
        if (sl_zone_direct(scene, zone)) {
            sl_timeline_at(timeline, arm, sl_reference_zone(scene, zone), end, NULL, &cell);
            least = fmin(least, cell.cystine_lost);
        }
    }
    return least;
}

sl_bound sl_stress_limit(const sl_timeline *timeline)
{
    const sl_aims *const aims = &sl_timeline_scene(timeline)->aims;
    if (!(aims->stress_share > 0.0)) {
        return aims->cystine_lost;
    }
    return (sl_bound){aims->stress_share * least_lost(timeline, aims->stress_of), true};
}

bool sl_stress_settle(sl_scene *scene, sl_error *error)
{
    if (!(scene->aims.stress_share > 0.0)) {
        return true;
    }
    sl_scene control = *scene;
    control.arms = &scene->arms[scene->aims.stress_of];
    control.n_arms = 1;
    control.aims = (sl_aims){.colour_left = 1.0, .stress_share = scene->aims.stress_share};
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver && sl_timeline_solve(&timeline, &control, NULL, 0, solver, NULL, error);
    if (good) {
        scene->aims.cystine_lost = sl_stress_limit(timeline);
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return good;
}
