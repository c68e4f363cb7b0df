/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file of answers: opened, or begun under the code that its name gives.
 */
#ifndef SLOWLIFT_FRONT_KEPT_H
#define SLOWLIFT_FRONT_KEPT_H

#include <stdbool.h>

#include "slowlift/lesson.h"

typedef struct sl_kept {
    const char *path; /* NULL: nothing is kept */
    sl_learner_answers answers;
    bool unsaved; /* the last save failed */
} sl_kept;

/* Opens or begins the file; writes it once, so that a folder that cannot be written to is known
 * before the first answer. */
bool sl_kept_open(sl_kept *kept, const char *path, sl_error *error);

#endif
