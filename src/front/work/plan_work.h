/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan was asked for and what it takes to make it, for the program that writes plans and
 * for the one that prints the class pack.
 */
#ifndef SLOWLIFT_FRONT_PLAN_WORK_H
#define SLOWLIFT_FRONT_PLAN_WORK_H

#include "front/option.h"
#include "report/plan/plan.h"

typedef struct sl_plan_work {
    sl_plan_request request;
    bool repeats_given, people_given, who_given;
    int n_who;
    int class_s; /* 0: no end */
    bool class_given;
    double spread; /* -1: assumed */
    const char *spread_from;
    double tell; /* the difference that is wanted, a share; 0: none */
    sl_plan *plan;
    sl_timeline *timeline;
    sl_plan_page page; /* once computed */
} sl_plan_work;

enum { SL_PLAN_OPTIONS = 13, SL_PLAN_SPREAD_OPTIONS = 2, SL_PLAN_TELL_OPTIONS = 1 };
extern const sl_option sl_plan_options[SL_PLAN_OPTIONS];
/* For what a plan can tell, and how much it is to tell. */
extern const sl_option sl_plan_spread_options[SL_PLAN_SPREAD_OPTIONS],
    sl_plan_tell_options[SL_PLAN_TELL_OPTIONS];

sl_plan_work sl_plan_work_begin(void);
/* What options leave open is as the scene says of its class. */
void sl_plan_work_settle(sl_plan_work *work, const sl_scene *scene);
/* Options that contradict each other. */
bool sl_plan_work_check(const sl_plan_work *work, sl_error *error);
bool sl_plan_work_compute(sl_plan_work *work, const sl_scene *scene, sl_solver *solver, bool blind,
                          sl_error *error);
void sl_plan_work_free(sl_plan_work *work);

#endif
