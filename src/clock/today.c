/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the calendar.
 */
#include <stdlib.h>
#include <time.h>

#include "base/calendar.h"
#include "slowlift/clock.h"

int sl_day_of_instant(const sl_instant *at)
{
    const time_t seconds = (time_t)(at->wall_ns / 1000000000);
    struct tm local;
    return localtime_r(&seconds, &local)
               ? (int)sl_day_number(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday)
               : 0;
}

bool sl_today(int *day, sl_error *error)
{
    const char *const wish = getenv("SLOWLIFT_TODAY");
    sl_instant now;
    if (wish) {
        return sl_day_read(wish, day) || sl_fail(error, SL_ERR_USAGE, "SLOWLIFT_TODAY is no day",
                                                 "write it as 2026-11-25, or leave it unset");
    }
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    *day = sl_day_of_instant(&now);
    return true;
}
