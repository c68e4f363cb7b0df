/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips compared at the same colour left instead of at the same minute.
 */
#include "slowlift/estimate.h"

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
