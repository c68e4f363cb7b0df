/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages and pictures through Cairo and Pango: PNG, SVG or PDF by the file name's end.
 */
#ifndef SLOWLIFT_PAPER_H
#define SLOWLIFT_PAPER_H

#include <stdbool.h>

#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* A sheet of the scene's strips at each of `times_min` (scene clock), every zone
 * labelled, the always-on cautions below. `viewing`: that optics is for; named at the foot. Written beside
 * `path` and renamed over it. */
bool sl_paper_sheet(const char *path, const sl_timeline *timeline, const sl_optics *optics,
                    sl_viewing viewing, const double *times_min, int n_times, sl_error *error);

#pragma GCC visibility pop

#endif
