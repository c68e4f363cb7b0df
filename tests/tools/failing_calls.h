/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Calls of the system that fail on purpose: one of them, or each from the first. For a test that links with
 * -Wl,--wrap=NAME for each, numbers its calls (NO_CALL is none) and has a WRAPPED for each.
 */
#ifndef SLOWLIFT_TESTS_FAILING_CALLS_H
#define SLOWLIFT_TESTS_FAILING_CALLS_H

#include <errno.h>
#include <stdbool.h>

enum { NO_CALL };
static struct {
    int what, at, n; /* which call of it fails, from 1 (0: each), and how many were made */
    int with;        /* errno, or what the test takes it for */
} fault;

static bool fails(int what)
{
    if (what != fault.what || (++fault.n != fault.at && fault.at != 0)) {
        return false;
    }
    errno = fault.with;
    return true;
}

static void arm(int what, int at, int with)
{
    fault.what = what;
    fault.at = at;
    fault.with = with;
    fault.n = 0;
}

static void disarm(void)
{
    fault.what = NO_CALL;
}

#define WRAPPED(type, name, parameters, given, what, bad)                                                    \
    type __real_##name parameters;                                                                           \
    type __wrap_##name parameters;                                                                           \
    type __wrap_##name parameters                                                                            \
    {                                                                                                        \
        return fails(what) ? bad : __real_##name given;                                                      \
    }

#endif
