/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene and a plan of it become a test in a log, which is made where there is none: for the command and for
 * the window.
 */
#ifndef SLOWLIFT_FRONT_BEGIN_LOG_H
#define SLOWLIFT_FRONT_BEGIN_LOG_H

#include "front/work/plan_work.h"
#include "slowlift/log.h"

typedef struct sl_begin_log {
    const char *log, *scene;     /* paths */
    const char *title;           /* NULL: the scene's */
    const char *operator_code;   /* who works at the bench */
    const sl_resolver *resolver; /* of the scene's parts */
    sl_plan_work *work;          /* what the plan was asked for; its plan is made here */
    sl_log_receipt *receipt;     /* once all of it is kept; NULL: nobody is told */
    void *self;                  /* of the receipt */
    char id[SL_UUID];            /* of the test, once it is there */
    sl_plan_fit fit;             /* of the class; class_s 0: nobody said how long it is */
} sl_begin_log;

/* `scene`: what lies at begin->scene. */
bool sl_begin_log_now(sl_begin_log *begin, const sl_scene *scene, sl_error *error);

#endif
