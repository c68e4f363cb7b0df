/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages and pictures through Cairo and Pango: PNG, SVG or PDF by the file name's end; numbered
 * pictures for slides; an animated WebP. Every one of them carries the cautions that always
 * stand, and says that no screen or paper is calibrated.
 */
#ifndef SLOWLIFT_PAPER_H
#define SLOWLIFT_PAPER_H

#include <stdbool.h>

#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* What is drawn and how it is looked at. */
typedef struct sl_paper_view {
    const sl_timeline *timeline;
    const sl_optics *dry, *wet; /* of the viewing's light and observer; one that no strip needs may
                                   be NULL: `wet` for a dry look, `dry` for a wet one */
    sl_viewing viewing;         /* look under the mix: each strip as it lies at its moment */
    sl_vision vision;
    bool dark; /* pictures for a screen: light letters on a dark ground; a sheet never is */
} sl_paper_view;

/* A sheet of the scene's strips at each of `times_min` (scene clock), every zone labelled. Written
 * beside `path` and renamed over it. */
bool sl_paper_sheet(const char *path, const sl_paper_view *view, const double *times_min, int n_times,
                    sl_error *error);

/* Pixels of a picture that shows one moment. */
typedef struct sl_paper_size {
    int width, height;
} sl_paper_size;
enum { SL_PAPER_FRAMES = 9999 };

bool sl_paper_picture(const char *path, const sl_paper_view *view, sl_paper_size size, double time_min,
                      sl_error *error);

/* folder/frame-0001.png and so on, one for each moment (at most SL_PAPER_FRAMES). The folder is made
 * when it is missing; one that holds anything but frames that will be replaced is refused. All
 * are drawn before the first one takes its place. */
bool sl_paper_frames(const char *folder, const sl_paper_view *view, sl_paper_size size,
                     const double *times_min, int n_times, sl_error *error);

/* An animated WebP that runs round and round; each picture stands for `each_ms`.
 * SL_ERR_MISSING_PART when the program was built without libwebp. */
bool sl_paper_film(const char *path, const sl_paper_view *view, sl_paper_size size, const double *times_min,
                   int n_times, int each_ms, sl_error *error);

#pragma GCC visibility pop

#endif
