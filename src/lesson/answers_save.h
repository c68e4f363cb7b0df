/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keeping a file of answers. Not part of libslowlift: only programs write files.
 */
#ifndef SLOWLIFT_LESSON_ANSWERS_SAVE_H
#define SLOWLIFT_LESSON_ANSWERS_SAVE_H

#include "slowlift/lesson.h"

/* Beside the old file, then renamed over it: on failure the old one stands as it was. */
bool sl_learner_answers_save(const sl_learner_answers *answers, const char *path, sl_error *error);

#endif
