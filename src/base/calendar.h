/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Days of the Gregorian calendar as whole numbers, with no help of the machine's time zone.
 */
#ifndef SLOWLIFT_BASE_CALENDAR_H
#define SLOWLIFT_BASE_CALENDAR_H

#include <stdbool.h>
#include <stdint.h>

enum { SL_DAY_TEXT = 40 };

/* Days of a month that there is, 1 to 12. */
int sl_days_of_month(int year, int month);
/* Days since 1970-01-01. */
int64_t sl_day_number(int year, int month, int day);
/* "2026-11-25" and nothing else; a day of the years 1970 to 2261, 1970-01-01 left out: 0 is no day. */
bool sl_day_read(const char *text, int *day);
/* Any day of the years 1970 to 9999. */
void sl_day_words(int day, char text[SL_DAY_TEXT]);

#endif
