/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What tables for people with a row for each arm share: the column of places.
 */
#ifndef SLOWLIFT_REPORT_ARM_TABLE_H
#define SLOWLIFT_REPORT_ARM_TABLE_H

#include <stdbool.h>
#include <stddef.h>

/* "2", or "2 tie". */
void sl_arm_place_words(int place, bool tie, char *text, size_t size);

#endif
