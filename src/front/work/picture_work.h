/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift picture` was asked for, for the program that draws.
 */
#ifndef SLOWLIFT_FRONT_PICTURE_WORK_H
#define SLOWLIFT_FRONT_PICTURE_WORK_H

#include "front/times.h"
#include "slowlift/optics.h"

enum { SL_PICTURE_LEAST = 480, SL_PICTURE_MOST = 8192 }; /* pixels, across and down */

typedef struct sl_picture_request {
    const char *file, *models, *output, *frames;
    sl_extent size; /* all zero: a sheet, or the usual size of a frame */
    int each_ms;    /* 0: the usual */
    sl_viewing viewing;
    sl_vision vision;
    int theme; /* 0 light, 1 dark */
    sl_times times;
} sl_picture_request; /* start with {0} */

extern const sl_command_line sl_picture_typed;
/* Fails: SL_ERR_USAGE. sl_times_free(&request->times) in any case. */
bool sl_picture_request_read(sl_picture_request *request, int argc, char **argv, sl_error *error);
/* Whether it ends as an animation does. */
bool sl_names_film(const char *path);

#endif
