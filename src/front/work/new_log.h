/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log that is not there yet: made in a folder of its own beside its place, and put there once it is
 * whole, so that a command that fails, is stopped or killed leaves no beginning of a log.
 */
#ifndef SLOWLIFT_FRONT_NEW_LOG_H
#define SLOWLIFT_FRONT_NEW_LOG_H

#include "base/temporary.h"
#include "front/work/plan_work.h"
#include "slowlift/log.h"

typedef struct sl_new_log {
    const char *path;                 /* as it was named */
    sl_temporary beside;              /* "" where a log was there already: it is added to */
    char at[SL_TEMPORARY_PATH + 256]; /* open this */
} sl_new_log;

bool sl_new_log_begin(sl_new_log *made, const char *path, sl_error *error);
/* After the log was closed. `good`: all of it is written; else it is removed again, and *error, which may
 * speak of the place where it was made, is given the path that was named. */
bool sl_new_log_end(sl_new_log *made, bool good, sl_error *error);

/* A scene and a plan of it become a test in a log, which is made where there is none: for the command and for
 * the window. */
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
