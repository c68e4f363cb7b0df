/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and stress limit of a scene in words. Invariant: "in every zone" is said only where every
 * zone with a direct dye is asked for the same; a share that nobody entered is called assumed.
 */
#ifndef SLOWLIFT_REPORT_AIMS_WORDS_H
#define SLOWLIFT_REPORT_AIMS_WORDS_H

#include <stddef.h>

#include "slowlift/model.h"

/* "at most 20 % left in every zone with direct dye"; "" when no goal is set. */
void sl_goal_words(const sl_scene *scene, char *text, size_t size);
/* " (50 % of what "lightener" has lost when its first mix comes off)"; "" for a share of its own. */
void sl_stress_of_words(const sl_scene *scene, char *text, size_t size);

#endif
