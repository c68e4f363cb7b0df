/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift day`: the clock of the day (day/day.h) on a terminal: plain lines from top to bottom that a
 * screen reader can follow, and some lines at the foot, drawn over each second.
 */
#ifndef SLOWLIFT_COMMAND_DAY_H
#define SLOWLIFT_COMMAND_DAY_H

#include <stdbool.h>

#include "day/says.h"
#include "document/renderers.h"

enum { SL_DAY_COLUMNS = 78 }; /* that it writes at most */

typedef struct sl_terminal_day {
    sl_day_desk *desk;
    bool terminal, status; /* of stdout; whether lines at its foot are drawn over */
    int drawn;             /* lines of the status that stand there */
    bool flash;            /* the first line stood bright last */
    bool leave;
} sl_terminal_day;

/* One plain line; the status makes room for it. */
void sl_terminal_say(sl_terminal_day *terminal, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void sl_terminal_show(sl_terminal_day *terminal, sl_day_view view, int swatch);
/* After events were read: how long each has lain. */
void sl_terminal_say_clocks(sl_terminal_day *terminal);
void sl_terminal_status(sl_terminal_day *terminal);
void sl_terminal_clear_status(sl_terminal_day *terminal);
/* What the last key or the last second brought. */
void sl_terminal_do(sl_terminal_day *terminal);

#endif
