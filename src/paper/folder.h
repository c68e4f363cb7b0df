/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A folder of files that belong together: a class pack, the frames of a slide show. Invariants: it is
 * complete or is not there; an older one is replaced in one step; and nothing is ever removed but what
 * the list in it (SL_FOLDER_LIST, as sha256sum reads it) names, as it was written. A folder that holds
 * anything else is refused before it is touched.
 */
#ifndef SLOWLIFT_PAPER_FOLDER_H
#define SLOWLIFT_PAPER_FOLDER_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/save.h"
#include "slowlift/error.h"

typedef struct sl_folder {
    char path[SL_SAVE_PATH_SIZE]; /* where it will stand, links followed */
    sl_temporary beside;          /* write the files into beside.path */
    bool exists;
    mode_t mode;
} sl_folder;

/* Whether a folder of ours may stand at `path`; for a refusal before anything is computed. */
bool sl_folder_check(const char *path, sl_error *error);

bool sl_folder_open(sl_folder *folder, const char *path, sl_error *error);
/* Write the list, and put it in its place. Abandoned when that fails. */
bool sl_folder_commit(sl_folder *folder, sl_error *error);
/* *error, which says why, is made to speak of the folder that was named. */
void sl_folder_abandon(sl_folder *folder, sl_error *error);

#endif
