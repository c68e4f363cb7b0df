/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log that is not there yet: made in a folder of its own beside its place, and put there once it is
 * whole, so that a command that fails, is stopped or killed leaves no beginning of a log.
 */
#ifndef SLOWLIFT_FRONT_NEW_LOG_H
#define SLOWLIFT_FRONT_NEW_LOG_H

#include "base/temporary.h"

typedef struct sl_new_log {
    const char *path;                 /* as it was named */
    sl_temporary beside;              /* "" where a log was there already: it is added to */
    char at[SL_TEMPORARY_PATH + 256]; /* open this */
} sl_new_log;

bool sl_new_log_begin(sl_new_log *made, const char *path, sl_error *error);
/* After the log was closed. `good`: all of it is written; else it is removed again, and *error, which may
 * speak of the place where it was made, is given the path that was named. */
bool sl_new_log_end(sl_new_log *made, bool good, sl_error *error);

#endif
