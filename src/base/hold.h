/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ctrl-C and its kin (SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGXCPU) made to wait while a step must be whole.
 */
#ifndef SLOWLIFT_BASE_HOLD_H
#define SLOWLIFT_BASE_HOLD_H

#include <stdbool.h>

/* Calls nest; by one thread only. At the last release the signal that came takes its course. */
void sl_signals_hold(void);
void sl_signals_release(void);
/* Whether one waits: who works long should come to an end. */
bool sl_signal_waits(void);

#endif
