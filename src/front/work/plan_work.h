/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan was asked for and what it takes to make it, for the program that writes plans and
 * for the one that prints the class pack.
 */
#ifndef SLOWLIFT_FRONT_PLAN_WORK_H
#define SLOWLIFT_FRONT_PLAN_WORK_H

#include "report/plan/plan.h"

/* Values of the options that both take; all below 32. */
enum {
    SL_PLAN_APPLY = 1,
    SL_PLAN_REMOVE,
    SL_PLAN_LOOK,
    SL_PLAN_MIX,
    SL_PLAN_SCALE,
    SL_PLAN_WASTE,
    SL_PLAN_SPREAD,
    SL_PLAN_LOOKS,
    SL_PLAN_LADDER,
    SL_PLAN_SEED,
    SL_PLAN_REPEATS,
    SL_PLAN_PEOPLE
};
/* Entries of a struct option[]. */
#define SL_PLAN_OPTIONS                                                                                      \
    {"repeats", required_argument, NULL, SL_PLAN_REPEATS},                                                   \
        {"people", required_argument, NULL, SL_PLAN_PEOPLE},                                                 \
        {"apply", required_argument, NULL, SL_PLAN_APPLY},                                                   \
        {"remove", required_argument, NULL, SL_PLAN_REMOVE},                                                 \
        {"look", required_argument, NULL, SL_PLAN_LOOK}, {"mix", required_argument, NULL, SL_PLAN_MIX},      \
        {"looks", required_argument, NULL, SL_PLAN_LOOKS},                                                   \
        {"ladder", required_argument, NULL, SL_PLAN_LADDER},                                                 \
        {"scale", required_argument, NULL, SL_PLAN_SCALE},                                                   \
        {"waste", required_argument, NULL, SL_PLAN_WASTE},                                                   \
        {"spread", required_argument, NULL, SL_PLAN_SPREAD},                                                 \
    {                                                                                                        \
        "seed", required_argument, NULL, SL_PLAN_SEED                                                        \
    }

typedef struct sl_plan_work {
    sl_plan_request request;
    double spread;
    bool spread_given;
    sl_plan *plan;
    sl_timeline *timeline;
    sl_plan_page page; /* once computed */
} sl_plan_work;

sl_plan_work sl_plan_work_begin(void);
/* One of the options above, its word in optarg; false for any other. */
bool sl_plan_work_option(sl_plan_work *work, int option, sl_error *error);
/* Options that contradict each other. */
bool sl_plan_work_check(const sl_plan_work *work, sl_error *error);
bool sl_plan_work_compute(sl_plan_work *work, const sl_scene *scene, sl_solver *solver, bool blind,
                          sl_error *error);
void sl_plan_work_free(sl_plan_work *work);

#endif
