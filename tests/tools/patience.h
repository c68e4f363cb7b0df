/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long tests wait before they call something hung: the only place for such limits. Nothing that a
 * test asserts depends on them. patience.py and CMakeLists.txt read these two lines.
 */
#ifndef SLOWLIFT_TESTS_PATIENCE_H
#define SLOWLIFT_TESTS_PATIENCE_H

#include <time.h>

#define PATIENCE_WAIT_S 300  /* for one thing that usually comes about within a second */
#define PATIENCE_TEST_S 3600 /* for a whole test: sanitized, beside whatever else the machine does */

/* What a loop does that waits for a condition: for (patience p = {0}; !CONDITION && patient(&p);) {} */
typedef struct patience {
    long turns;
} patience;

static inline int patient(patience *p)
{
    const struct timespec turn = {0, 5000000L};
    nanosleep(&turn, NULL);
    return ++p->turns < PATIENCE_WAIT_S * 200L;
}

#endif
