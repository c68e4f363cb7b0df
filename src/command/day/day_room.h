/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where keys of the day come from: a terminal, key by key, or lines. Invariant: a terminal is
 * left as it was found, also by a signal (base/program.h); one room is open at a time.
 */
#ifndef SLOWLIFT_COMMAND_DAY_ROOM_H
#define SLOWLIFT_COMMAND_DAY_ROOM_H

#include <signal.h>
#include <stdbool.h>
#include <stddef.h>

enum { SL_DAY_READ = 512 };

typedef struct sl_day_room {
    bool keys;               /* stdin is a terminal */
    struct sigaction rested; /* what putting aside did before */
    char read[SL_DAY_READ];  /* [n] of a line that is not whole yet */
    size_t n;
} sl_day_room;

/* draws: lines at the foot of the screen, which are taken away when it is left. */
void sl_day_room_open(sl_day_room *room, bool draws);
void sl_day_room_close(const sl_day_room *room);

/* Waits at most so long. Returns how many bytes came, 0 for none, -1 at the end of stdin. */
int sl_day_room_wait(sl_day_room *room, int ms);
/* The next key of what came (day/acts.h), -1: none. A key of several bytes, such as an arrow, is one key: its
 * letters must not be taken for others. */
int sl_day_room_key(sl_day_room *room);
/* The next whole line of what came, without its end; false: there is none yet. */
bool sl_day_room_line(sl_day_room *room, char line[SL_DAY_READ]);

#endif
