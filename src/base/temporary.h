/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files and folders that are there only until they are whole. Invariant: none outlives the process,
 * unless it is killed without a word (kill -9, loss of power); what such a process left is cleared away
 * by the next one that writes there. Each is locked while its writer lives, so that nobody clears away
 * what somebody still writes; the system ends the lock with the process (flock(2)).
 */
#ifndef SLOWLIFT_BASE_TEMPORARY_H
#define SLOWLIFT_BASE_TEMPORARY_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "slowlift/error.h"

enum { SL_TEMPORARY_PATH = 4096 + 32 };

/* The list of its own files that lies in a finished folder (paper/folder.h). Of a folder that has one, only
 * what it names is removed; in one without, everything is ours. A line is 64 hexadecimal digits, two spaces
 * and a name. */
#define SL_FOLDER_LIST "slowlift-files.txt"
enum { SL_LIST_NAME_AT = 66 };

typedef struct sl_temporary {
    char path[SL_TEMPORARY_PATH]; /* "" when there is none */
    bool is_folder;
    int file;  /* open, and locked through it */
    int place; /* in the list of what a signal clears away; -1: not there */
} sl_temporary;

/* A new file or an empty folder beside `path` (in its folder). False with errno. */
bool sl_temporary_file(sl_temporary *temporary, const char *path);
bool sl_temporary_folder(sl_temporary *temporary, const char *path);
/* It has its place and another name now: close it and forget it. */
void sl_temporary_forget(sl_temporary *temporary);
/* Remove it, with all files in it. Nothing for one that is {0} or forgotten. */
void sl_temporary_remove(sl_temporary *temporary);

/* Every byte, whatever signals come between. 0, or why not: an errno. */
int sl_write_all(int file, const void *bytes, size_t size);
/* Permissions of what a program makes: what the user's mask lets through. */
mode_t sl_usual_mode(bool folder);
/* Gives what lies at `made` the name `path`, unless that is taken. False with errno. A disk without links has
 * rename() alone. */
bool sl_name_new(const char *made, const char *path);

/* Where *error speaks of it, let it speak of the path that somebody named. */
void sl_temporary_rename_in(const sl_temporary *temporary, const char *named, sl_error *error);

/* Clear away what dead processes left in the folder of `path`; called by the two above. */
void sl_temporary_sweep(const char *path);

#endif
