/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading and writing instants. Read is what RFC 3339, section 5.6 allows of ISO 8601: date, T,
 * time with seconds, perhaps a fraction, Z or an offset. Days are counted by the rule of the
 * Gregorian calendar, with no help of the machine's time zone.
 */
#include "log/store/iso_time.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

#include "base/calendar.h"
#include "slowlift/log.h"

void sl_time_words(int64_t wall_ns, char text[SL_TIME_TEXT])
{
    const time_t at = (time_t)(wall_ns / 1000000000);
    struct tm local;
    char clock[24], zone[8];
    localtime_r(&at, &local); /* it fails only where a year is beyond an int */
    strftime(clock, sizeof clock, "%Y-%m-%dT%H:%M:%S", &local);
    strftime(zone, sizeof zone, "%z", &local);
    snprintf(text, SL_TIME_TEXT, "%s%.3s:%.2s", clock, zone, zone + 3);
}

/* `n` digits at *at; -1 when there are fewer. */
static int digits(const char **at, int n)
{
    int value = 0;
    for (int i = 0; i < n; i++, (*at)++) {
        if (**at < '0' || **at > '9') {
            return -1;
        }
        value = 10 * value + (**at - '0');
    }
    return value;
}

static bool mark(const char **at, char one, char other)
{
    const bool found = **at == one || **at == other;
    *at += found ? 1 : 0;
    return found;
}

/* ".25" as nanoseconds; digits beyond the ninth are dropped. */
static int64_t fraction(const char **at)
{
    int64_t ns = 0, unit = 100000000;
    for (; **at >= '0' && **at <= '9'; (*at)++, unit /= 10) {
        ns += (**at - '0') * unit;
    }
    return ns;
}

/* "Z", "+01:00": seconds to subtract. */
static bool offset(const char **at, int64_t *seconds)
{
    *seconds = 0;
    if (mark(at, 'Z', 'z')) {
        return true;
    }
    const int sign = **at == '+' ? 1 : -1;
    if (!mark(at, '+', '-')) {
        return false;
    }
    const int hours = digits(at, 2);
    const bool colon = mark(at, ':', ':');
    const int minutes = colon ? digits(at, 2) : -1;
    *seconds = sign * (3600 * (int64_t)hours + 60 * minutes);
    return hours >= 0 && hours <= 23 && minutes >= 0 && minutes <= 59;
}

static bool instant(const char *at, int64_t *wall_ns)
{
    const int year = digits(&at, 4);
    const int month = mark(&at, '-', '-') ? digits(&at, 2) : -1;
    const int day = mark(&at, '-', '-') ? digits(&at, 2) : -1;
    const int hour = mark(&at, 'T', 't') ? digits(&at, 2) : -1;
    const int minute = mark(&at, ':', ':') ? digits(&at, 2) : -1;
    const int second = mark(&at, ':', ':') ? digits(&at, 2) : -1;
    if (year < 1678 || year > 2261 || month < 1 || month > 12 || day < 1 ||
        day > sl_days_of_month(year, month) || hour < 0 || hour > 23 || minute < 0 || minute > 59 ||
        second < 0 || second > 60) {
        return false; /* 64 bits of nanoseconds hold these years */
    }
    int64_t ns = 0, before = 0;
    if (mark(&at, '.', ',')) {
        const char *const begins = at;
        ns = fraction(&at);
        if (at == begins) {
            return false;
        }
    }
    if (!offset(&at, &before) || *at != '\0') {
        return false;
    }
    const int64_t seconds =
        86400 * sl_day_number(year, month, day) + 3600 * hour + 60 * minute + second - before;
    *wall_ns = 1000000000 * seconds + ns;
    return true;
}

bool sl_time_read(const char *text, int64_t *wall_ns, sl_error *error)
{
    if (instant(text, wall_ns)) {
        return true;
    }
    return sl_fail(error, SL_ERR_WRONG_TYPE, "this time",
                   "write it with Z or an offset, as 2026-11-25T14:05:30+01:00 (ISO 8601)");
}
