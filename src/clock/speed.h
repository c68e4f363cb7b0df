/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The clock of the day, and a rehearsal in which it runs faster. Invariant: at speed 1 an instant is
 * what the machine says; in a rehearsal two starts of the program on the same log agree on the time.
 */
#ifndef SLOWLIFT_CLOCK_SPEED_H
#define SLOWLIFT_CLOCK_SPEED_H

#include "slowlift/clock.h"

enum { SL_DAY_MOST_SPEED = 600 }; /* a boot of half a year still fits 64 bits of nanoseconds */

typedef struct sl_day_clock {
    double speed;
    int64_t from_wall_ns; /* a rehearsal runs fast from here */
    int64_t wall_less_boot_ns;
} sl_day_clock;

/* speed: 1 to SL_DAY_MOST_SPEED. from_wall_ns: when the test was begun. */
bool sl_day_clock_start(sl_day_clock *clock, double speed, int64_t from_wall_ns, sl_error *error);
bool sl_day_clock_now(const sl_day_clock *clock, sl_instant *now, sl_error *error);

#endif
