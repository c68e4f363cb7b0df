/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writing a file that somebody named. Invariant: a file that stood there before is
 * replaced whole or not at all: the new one is written beside it, flushed to the disk,
 * then renamed over it. A device or a pipe is written to directly. A file that this call
 * reads is refused (inputs.h), and nothing half written is left behind (temporary.h). Not
 * part of libslowlift: only programs write files.
 */
#ifndef SLOWLIFT_BASE_SAVE_H
#define SLOWLIFT_BASE_SAVE_H

#include <stdbool.h>
#include <stdio.h>

#include "base/temporary.h"
#include "slowlift/error.h"

enum { SL_SAVE_PATH_SIZE = 4096 };

struct sl_save_disk; /* in save.c */

typedef struct sl_save {
    FILE *stream;                 /* write here */
    struct sl_save_disk *disk;    /* keeps why the first write failed */
    const char *named;            /* as the caller said; it must last as long */
    bool direct;                  /* no file beside it */
    char path[SL_SAVE_PATH_SIZE]; /* links followed */
    sl_temporary beside;
} sl_save;

bool sl_save_open(sl_save *save, const char *path, sl_error *error);
/* Flush, close, rename. On failure nothing is left beside the old file. */
bool sl_save_commit(sl_save *save, sl_error *error);
void sl_save_abandon(sl_save *save);

#endif
