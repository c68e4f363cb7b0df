/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files that lie beside a lesson's or a quiz's file.
 */
#ifndef SLOWLIFT_LESSON_PATHS_H
#define SLOWLIFT_LESSON_PATHS_H

#include "lesson/reading.h"

/* "<folder of path>/<name>"; false with the error set when it does not fit. */
bool sl_beside(const char *path, const char *name, char *beside, size_t size, sl_error *error);
/* The file's bytes, to be freed by the caller. */
bool sl_taught_file_read(const char *path, char **text, size_t *length, sl_error *error);
/* Read and parse; the document is freed by the caller. */
bool sl_yaml_load(sl_yaml *document, const char *path, sl_error *error);
/* A file NAME.xx.yaml is in language xx, and is the translation of NAME.yaml beside it: its
 * language fits and its tree is the original's. */
bool sl_original_check(const sl_reading *reading, const sl_node *root, const char *path, int language);

#endif
