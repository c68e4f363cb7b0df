/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift compare` was asked for and what it takes to answer, for the program that writes
 * and for the one that draws. Invariant: a log is only read; a made-up one is gone at the end, or new.
 */
#ifndef SLOWLIFT_FRONT_COMPARE_WORK_H
#define SLOWLIFT_FRONT_COMPARE_WORK_H

#include "front/complain.h"
#include "front/option.h"
#include "log/several/several.h"
#include "slowlift/compare.h"
#include "slowlift/promise.h"

typedef struct sl_compare_work {
    const char *log, *test, *zone_word;
    bool example, school;   /* school: `log` is a folder that is made */
    sl_several_asked asked; /* of several tests */
    sl_result_wish result;
    double noise_floor; /* share; -1: not asked */
    int zone;           /* -1: every zone that was looked at */
    int at_min;         /* -1: the end */
    sl_compare *compare;
    sl_several *several; /* in place of all that follows, where several tests were asked for */
    sl_rate *rates;      /* NULL for a picture */
    sl_promise promise;  /* for a document */
    sl_error unread;     /* SL_OK: all of the log was read */
} sl_compare_work;       /* start with {0} */

extern const sl_command_line sl_compare_typed;
bool sl_compare_work_read(sl_compare_work *work, int argc, char **argv, sl_error *error);
/* Whether several tests were asked for, or all of a folder. */
bool sl_compare_several(const sl_compare_work *work);
bool sl_compare_work_compute(sl_compare_work *work, sl_error *error);
/* How the command ends: not well where a part of the log could not be read, which is told. */
sl_exit sl_compare_work_end(const sl_compare_work *work, sl_exit code);
void sl_compare_work_free(sl_compare_work *work);

#endif
