/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log that is written anew: in a folder of its own beside its place, until all of it is on the disk.
 * Invariant: a file has its name only when it is whole.
 */
#ifndef SLOWLIFT_LOG_BESIDE_H
#define SLOWLIFT_LOG_BESIDE_H

#include "base/temporary.h"
#include "log/store/sql.h"

/* A place in a folder of its own beside it, which goes with the process. */
typedef struct sl_log_beside {
    sl_temporary folder;
    char path[SL_LOG_PATH];
} sl_log_beside;

/* Refuses where there is a file of that name. */
bool sl_beside_free(const char *to, sl_error *error);
bool sl_beside_make(const char *to, sl_log_beside *beside, sl_error *error);
/* good: gives it its name; in place of what is there (`replaces`), or never over another file. Returns good
 * and done. The folder goes. */
bool sl_beside_end(sl_log_beside *beside, const char *to, bool replaces, bool good, sl_error *error);

#endif
