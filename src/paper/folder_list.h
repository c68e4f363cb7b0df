/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list of a folder's own files: their names and SHA-256, as sha256sum(1) reads and writes them.
 */
#ifndef SLOWLIFT_PAPER_FOLDER_LIST_H
#define SLOWLIFT_PAPER_FOLDER_LIST_H

#include <limits.h>
#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"

enum { SL_LISTED_SUM = 64 };

typedef struct sl_listed {
    char sum[SL_LISTED_SUM + 1], name[NAME_MAX + 1];
} sl_listed;

typedef struct sl_folder_list {
    sl_listed *file; /* by name */
    size_t n, room;
    bool is_there;
} sl_folder_list;

/* The list that lies in a folder; is_there is false, and n 0, when none does. A line that is no entry is
 * refused: what it meant is not known. */
bool sl_folder_list_read(sl_folder_list *list, const char *folder, sl_error *error);
/* Of the files that lie in a folder now. */
bool sl_folder_list_make(sl_folder_list *list, const char *folder, sl_error *error);
bool sl_folder_list_write(const sl_folder_list *list, const char *folder, sl_error *error);
/* NULL: a name that is not listed. */
const sl_listed *sl_folder_list_find(const sl_folder_list *list, const char *name);
/* Whether the file has the bytes that are listed. */
bool sl_listed_is_unchanged(const sl_listed *listed, const char *folder);
void sl_folder_list_free(sl_folder_list *list);

#endif
