/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See hold.h.
 */
#include "base/hold.h"

#include <signal.h>
#include <stddef.h>

static const int ends[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGXCPU};
static int held;
static sigset_t before;

void sl_signals_hold(void)
{
    if (held++ == 0) {
        sigset_t set;
        sigemptyset(&set);
        for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
            sigaddset(&set, ends[i]);
        }
        pthread_sigmask(SIG_BLOCK, &set, &before);
    }
}

void sl_signals_release(void)
{
    if (--held == 0) {
        pthread_sigmask(SIG_SETMASK, &before, NULL);
    }
}

bool sl_signal_waits(void)
{
    sigset_t waiting;
    if (held == 0 || sigpending(&waiting) != 0) {
        return false;
    }
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        if (sigismember(&waiting, ends[i]) == 1) {
            return true;
        }
    }
    return false;
}
