/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the window was asked for on its command line.
 */
#ifndef SLOWLIFT_VIEW_REQUEST_H
#define SLOWLIFT_VIEW_REQUEST_H

#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"
#include "view/draw/eyes.h"

/* Of file, lesson, day and seen one is there; texts are argv's. */
typedef struct sl_watch_request {
    const char *file, *models;
    int width, height; /* pixels */
    double scale;      /* of the text */
    double at_min;
    sl_eyes eyes;
    const char *lesson, *answers, *class_folder, *language;
    const char *day, *seen, *test;
    const char *say;    /* keys, after each of which all that is shown is told; NULL: a window */
    const char *strand; /* a log of strands; NULL: none */
    bool educator, room, help;
} sl_watch_request;

/* Fails: SL_ERR_USAGE. */
bool sl_request_read(sl_watch_request *request, int argc, char **argv, sl_error *error);
bool sl_request_help(FILE *out);

#endif
