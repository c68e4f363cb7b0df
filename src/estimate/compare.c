/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips compared at the same colour left instead of at the same minute.
 */
#include "slowlift/estimate.h"

int sl_reference_zone(const sl_scene *scene, int zone)
{
    int last = 0;
    for (int i = 0; i < scene->n_zones; i++) {
        if (scene->zones[i].recipe.n_dyes == 0) {
            if (scene->zones[i].hair == scene->zones[zone].hair) {
                return i;
            }
            last = i;
        }
    }
    return last;
}

void sl_same_colour_left(const sl_timeline *timeline, int zone, double share, sl_meeting *meeting)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        meeting[arm] = (sl_meeting){0};
        double time_min = 0.0;
        if (sl_first_time(timeline, arm, zone, SL_COLOUR_LEFT, share, &time_min)) {
            meeting[arm].reached = true;
            meeting[arm].time_min = time_min;
            meeting[arm].since_contact_min = time_min - scene->arms[arm].contact_min;
        }
    }
}
