/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instants and the time between them. CLOCK_BOOTTIME counts through sleep, which CLOCK_MONOTONIC
 * does not (clock_gettime(2)), so a laptop whose lid was closed does not understate contact. After a
 * restart only wall time spans the gap; the time since the restart is the least it can be.
 */
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "slowlift/clock.h"

static const int64_t NS = 1000000000;

static bool read_clock(clockid_t clock, int64_t *ns)
{
    struct timespec at;
    if (clock_gettime(clock, &at) != 0) {
        return false;
    }
    *ns = (int64_t)at.tv_sec * NS + at.tv_nsec;
    return true;
}

/* Left empty where the system tells no such thing: then only wall time can be trusted. */
static void read_boot_id(char id[SL_UUID])
{
    const int file = open("/proc/sys/kernel/random/boot_id", O_RDONLY | O_CLOEXEC);
    const ssize_t got = file >= 0 ? read(file, id, SL_UUID - 1) : -1;
    id[got == SL_UUID - 1 ? SL_UUID - 1 : 0] = '\0';
    if (file >= 0) {
        close(file);
    }
}

bool sl_instant_now(sl_instant *now, sl_error *error)
{
    if (!read_clock(CLOCK_BOOTTIME, &now->boot_ns) || !read_clock(CLOCK_REALTIME, &now->wall_ns)) {
        return sl_fail(error, SL_ERR_MISSING_PART, "the clock that goes on in sleep (CLOCK_BOOTTIME)",
                       strerror(errno));
    }
    read_boot_id(now->boot_id);
    return true;
}

sl_elapsed sl_elapsed_between(const sl_instant *from, const sl_instant *to)
{
    const double wall = (double)(to->wall_ns - from->wall_ns) / (double)NS;
    const bool same_start = from->boot_id[0] != '\0' && strcmp(from->boot_id, to->boot_id) == 0;
    if (!same_start) {
        const double least = (double)to->boot_ns / (double)NS;
        return (sl_elapsed){fmax(0.0, fmax(wall, from->boot_id[0] != '\0' ? least : 0.0)),
                            SL_CLOCKS_RESTARTED};
    }
    const double boot = (double)(to->boot_ns - from->boot_ns) / (double)NS;
    if (fabs(boot - wall) <= SL_CLOCKS_APART_S) {
        return (sl_elapsed){fmax(0.0, boot), SL_CLOCKS_AGREE};
    }
    return (sl_elapsed){fmax(0.0, fmax(boot, wall)), SL_CLOCKS_DISAGREE};
}
