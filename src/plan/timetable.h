/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When each pair of hands does what.
 */
#ifndef SLOWLIFT_PLAN_TIMETABLE_H
#define SLOWLIFT_PLAN_TIMETABLE_H

#include <stdbool.h>

#include "slowlift/plan.h"

enum {
    /* Of one swatch: each application is mixed, put on and taken off, with the looks between, or
     * with pieces rinsed one by one. */
    SL_MOST_TASKS = SL_MAX_STEPS * 3 + SL_PLAN_MOST_LOOKS + SL_PLAN_MOST_RUNGS
};

/* One swatch's tasks with the first contact at 0 s (mixing lies before it). */
typedef struct sl_pattern {
    int n;
    sl_task task[SL_MOST_TASKS]; /* kind, step, rung, start_s, length_s */
    int n_leftovers;             /* bowls of which something stays: two tasks more each */
    int water_s;                 /* the last first water; -1: nothing is put on */
    bool cut_short;
} sl_pattern;

/* Mixing between two applications may need a second pair of hands (task.person 1; others 0).
 * Fails with SL_ERR_USAGE when one person would have to do two things at once whatever the
 * contact: off before it is all on, looks or pieces too close, no time to mix. */
bool sl_pattern_of(sl_pattern *pattern, const sl_scene *scene, int arm, const sl_plan_request *request,
                   sl_error *error);

/* Give every swatch its person, contact and tasks; plan->tasks has room for all of them. */
void sl_timetable_fill(sl_plan *plan, const sl_pattern *pattern /* [n_arms] */);

#endif
