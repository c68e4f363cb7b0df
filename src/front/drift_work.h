/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift log drift` was asked for and what it takes to answer, for the program that writes and for
 * the one that prints pages. Invariant: logs are only read.
 */
#ifndef SLOWLIFT_FRONT_DRIFT_WORK_H
#define SLOWLIFT_FRONT_DRIFT_WORK_H

#include "front/complain.h"
#include "front/option.h"
#include "log/shelf/drift.h"

typedef struct sl_drift_work {
    const char *folder;
    sl_result_wish result;
    sl_settled settled;
    sl_drift drift;
} sl_drift_work; /* start with {0} */

extern const sl_command_line sl_log_drift_typed;
bool sl_drift_work_read(sl_drift_work *work, int argc, char **argv, sl_error *error);
bool sl_drift_work_compute(sl_drift_work *work, sl_error *error);
/* How the command ends: not well where a log could not be read, which is told. Frees. */
sl_exit sl_drift_work_end(sl_drift_work *work, sl_exit code);

#endif
