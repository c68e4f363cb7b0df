/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is chosen as a scene opens, so that there is something to see and something to say of it at once.
 */
#ifndef SLOWLIFT_VIEW_FIRST_H
#define SLOWLIFT_VIEW_FIRST_H

#include "slowlift/timeline.h"

/* Of the zones of which something is asked (where nothing is, of those with direct dye) the one whose colour
 * differs most at the end of the scene from that at its start, dry, by daylight, in the mean over strips that
 * a mix is put on (CIEDE2000). Where there is neither: zone 0. */
int sl_first_zone(const sl_timeline *timeline, const sl_optics *dry);
/* Whether a mix is put on this strip, and it is not one that is washed only. */
bool sl_first_mixed(const sl_scene *scene, int arm);
/* The first strip that a mix is put on; not one that is washed only. Where there is none: strip 0. */
int sl_first_arm(const sl_scene *scene);

#endif
