/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See first.h.
 */
#include "view/window/first.h"

#include "slowlift/estimate.h"
#include "slowlift/plan.h"

bool sl_first_mixed(const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    return sl_arm_removes(scene, here) && !sl_arm_serves_as(scene, here, SL_CONTROL_WASHING);
}

static sl_lab colour_at(const sl_timeline *timeline, int arm, int zone, double time_min, const sl_optics *dry)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, time_min, dry, &cell);
    return cell.colour.lab;
}

/* Summed over strips: the same strips for each zone. */
static double change_of(const sl_timeline *timeline, int zone, const sl_optics *dry)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    double sum = 0.0;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (sl_first_mixed(scene, arm)) {
            sum += sl_delta_e_2000(colour_at(timeline, arm, zone, 0.0, dry),
                                   colour_at(timeline, arm, zone, scene->until_min, dry));
        }
    }
    return sum;
}

int sl_first_zone(const sl_timeline *timeline, const sl_optics *dry)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    int first = 0;
    double most = -1.0;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (sl_goal_set(scene) ? sl_zone_goal(scene, zone).wanted : sl_zone_direct(scene, zone)) {
            const double change = change_of(timeline, zone, dry);
            if (change > most) {
                first = zone;
                most = change;
            }
        }
    }
    return first;
}

int sl_first_arm(const sl_scene *scene)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (sl_first_mixed(scene, arm)) {
            return arm;
        }
    }
    return 0;
}
