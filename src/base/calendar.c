/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See calendar.h.
 */
#include "base/calendar.h"

#include <stdio.h>
#include <string.h>

static bool leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int sl_days_of_month(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && leap(year) ? 1 : 0);
}

int64_t sl_day_number(int year, int month, int day)
{
    const int64_t before = year - 1;
    int64_t days = 365 * before + before / 4 - before / 100 + before / 400 - 719162;
    for (int m = 1; m < month; m++) {
        days += sl_days_of_month(year, m);
    }
    return days + day - 1;
}

/* `n` digits at `text`; -1 when one of them is none. */
static int digits(const char *text, int n)
{
    int value = 0;
    for (int i = 0; i < n; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

bool sl_day_read(const char *text, int *day)
{
    if (strlen(text) != 10 || text[4] != '-' || text[7] != '-') {
        return false;
    }
    const int year = digits(text, 4), month = digits(text + 5, 2), of_month = digits(text + 8, 2);
    if (year < 1970 || year > 2261 || month < 1 || month > 12 || of_month < 1 ||
        of_month > sl_days_of_month(year, month)) {
        return false;
    }
    *day = (int)sl_day_number(year, month, of_month);
    return *day > 0;
}

void sl_day_words(int day, char text[SL_DAY_TEXT])
{
    int year = 1970, month = 1;
    while (day >= (leap(year) ? 366 : 365) && year < 9999) {
        day -= leap(year) ? 366 : 365;
        year++;
    }
    while (month < 12 && day >= sl_days_of_month(year, month)) {
        day -= sl_days_of_month(year, month);
        month++;
    }
    snprintf(text, SL_DAY_TEXT, "%04d-%02d-%02d", year, month, day + 1);
}
