/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parts of an ensemble for the commands: one saved, all merged.
 */
#ifndef SLOWLIFT_FRONT_PARTS_H
#define SLOWLIFT_FRONT_PARTS_H

#include "slowlift/part.h"

/* Written beside the old file, flushed, renamed: a reader never meets half a part. */
bool part_save(const char *path, const sl_spread *spread, const sl_scene *scene, sl_error *error);
/* The sum of n >= 1 files in any order. On failure the message names the file (and, for two that
 * do not go together, the second). */
bool parts_merge(sl_spread **sum, const sl_scene *scene, const char *const paths[], int n, sl_error *error);

#endif
