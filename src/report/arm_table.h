/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What tables for people with a row for each arm share: the column of names and that of places.
 */
#ifndef SLOWLIFT_REPORT_ARM_TABLE_H
#define SLOWLIFT_REPORT_ARM_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/model.h"

/* Columns that the widest title of an arm takes, 12 to `most`. */
int sl_arm_titles_width(const sl_scene *scene, int most);

/* "2", or "2 tie". */
void sl_arm_place_words(int place, bool tie, char *text, size_t size);
/* Columns of a place and a space behind it: as wide as any can be in the language in use. */
int sl_arm_places_width(void);

#endif
