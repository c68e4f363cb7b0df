/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the window was asked for on its command line.
 */
#ifndef SLOWLIFT_FRONT_WATCH_WORK_H
#define SLOWLIFT_FRONT_WATCH_WORK_H

#include "front/option.h"
#include "slowlift/optics.h"

/* Pixels; the most is more than any display has. */
enum { SL_WATCH_LEAST_WIDTH = 900, SL_WATCH_LEAST_HEIGHT = 600, SL_WATCH_MOST = 16384 };

/* Of file, lesson, day and seen one is there, or start is true; texts are argv's. The command line leaves
 * home, answer and folder as they are. */
typedef struct sl_watch_request {
    const char *file, *models;
    sl_extent size;        /* width 0: by the display */
    double percent, scale; /* of the text */
    double at_min;
    int theme; /* 0 light, 1 dark, 2 high contrast */
    sl_vision vision;
    sl_viewing viewing;
    const char *lesson, *answers, *class_folder;
    const char *day, *seen, *test;
    bool steps;         /* reduced motion: from minute to minute */
    bool asks;          /* begins with the questions of a new test; file: the example where none is named */
    bool rehearse;      /* the day, on a copy */
    double speed;       /* of that rehearsal */
    bool start;         /* nothing was named: the start page */
    bool home;          /* begun from there: it leads back to it */
    bool answer;        /* a scene begins with its answer */
    const char *folder; /* into which a new test is written; NULL: the one that the program was started in */
    const char *say;    /* keys, after each of which all that is shown is told; NULL: a window */
    const char *strand; /* a log of strands; NULL: none */
    bool educator, room, help;
} sl_watch_request;

extern const sl_command_line sl_watch_typed;
/* Fails: SL_ERR_USAGE. */
bool sl_watch_request_read(sl_watch_request *request, int argc, char **argv, sl_error *error);

#endif
