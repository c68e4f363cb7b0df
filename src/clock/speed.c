/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * In a rehearsal both clocks are stretched alike, wall time about the moment at which the test was
 * begun. It follows from the boot clock there: the two are not read at one instant, and what lies
 * between them, a few milliseconds on a busy machine, would be stretched into seconds.
 */
#include "clock/speed.h"

bool sl_day_clock_start(sl_day_clock *clock, double speed, int64_t from_wall_ns, sl_error *error)
{
    sl_instant now;
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    *clock = (sl_day_clock){speed, from_wall_ns, now.wall_ns - now.boot_ns};
    return true;
}

bool sl_day_clock_now(const sl_day_clock *clock, sl_instant *now, sl_error *error)
{
    if (!sl_instant_now(now, error)) {
        return false;
    }
    if (clock->speed > 1.0) {
        const int64_t wall = now->boot_ns + clock->wall_less_boot_ns - clock->from_wall_ns;
        now->wall_ns = clock->from_wall_ns + (int64_t)((double)wall * clock->speed);
        now->boot_ns = (int64_t)((double)now->boot_ns * clock->speed);
    }
    return true;
}
