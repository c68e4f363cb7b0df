/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a what-if's knobs can be turned back to.
 */
#ifndef SLOWLIFT_VIEW_UNDO_H
#define SLOWLIFT_VIEW_UNDO_H

#include <stdbool.h>

#include "slowlift/what_if.h"

/* Settings as they were before each turn of a knob, newest last; of a drag once. */
enum { SL_MOST_UNDOS = 32 };
typedef struct sl_stage_undos {
    sl_changes change[SL_MOST_UNDOS][SL_MAX_ARMS]; /* [n][n_arms] */
    int n;
    bool in_drag; /* the pointer holds a knob whose turn was kept */
} sl_stage_undos;

#endif
