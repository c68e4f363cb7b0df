/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which tests there are, where one was named that is not: the first of them, and how many more.
 */
#ifndef SLOWLIFT_LOG_IDS_H
#define SLOWLIFT_LOG_IDS_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"

typedef struct sl_ids {
    int n;
    char first[64]; /* beginnings of the first four */
} sl_ids;           /* start with {0} */

void sl_ids_add(sl_ids *ids, const char *id);
/* "aaaaaaaa, bbbbbbbb, cccccccc, dddddddd and 8 more" */
void sl_ids_words(const sl_ids *ids, char *text, size_t size);
bool sl_log_bare(sl_error *error); /* there is none; always false */

#endif
