/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson while its file is being read.
 */
#ifndef SLOWLIFT_LESSON_LESSON_READING_H
#define SLOWLIFT_LESSON_LESSON_READING_H

#include "lesson/reading.h"

typedef struct sl_lesson_reading {
    const sl_reading *reading;
    const char *path;
    sl_lesson *lesson;
    sl_figures figures;
} sl_lesson_reading;

/* One or more paragraphs under `key`. */
bool sl_lesson_passage(const sl_lesson_reading *in, const sl_node *root, const char *key, sl_passage *into);
/* lesson_pages.c: questions, cases, run and the list of pages. */
bool sl_lesson_pages_read(sl_lesson_reading *in, const sl_node *root);

#endif
