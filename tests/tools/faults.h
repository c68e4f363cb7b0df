/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Allocations that fail on purpose: the n-th once, or from the n-th on. For a test that links with
 * -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc,--wrap=free.
 */
#ifndef SLOWLIFT_TESTS_FAULTS_H
#define SLOWLIFT_TESTS_FAULTS_H

#include <stdbool.h>

/* Only calls between faults_arm() and faults_disarm() count. */
typedef struct faults_count {
    long calls, alive; /* allocations asked for, and blocks not given back */
} faults_count;

void faults_arm(long fails_at /* from 1; 0: none fails */, bool from_then_on);
faults_count faults_disarm(void);

#endif
