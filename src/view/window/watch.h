/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window, until it is left.
 */
#ifndef SLOWLIFT_VIEW_WATCH_H
#define SLOWLIFT_VIEW_WATCH_H

#include <SDL.h>
#include <stdbool.h>

#include "view/draw/eyes.h"
#include "view/window/stage.h"

typedef struct sl_watch_wish {
    sl_beside_logs logs;
    const char *models; /* NULL: the usual places */
    sl_eyes eyes;
    SDL_Window *window;
    double scale;       /* of the text */
    double at_min;      /* to begin at */
    bool asks;          /* begins with the questions of a new test */
    const char *folder; /* into which a new test is written; NULL: where the program was started */
    sl_stage_page page; /* after the cautions; SL_PAGE_NONE: the strips */
    bool home;          /* there is a start page to go back to */
    bool steps;         /* reduced motion */
    const char *say;
} sl_watch_wish;

/* A scene's file, read and solved: of one that was made in the window, too. */
bool sl_watch_story(const char *models, const char *file, sl_story *story, sl_error *error);
/* Takes over story (solved), also when it fails. */
bool sl_watch_scene(sl_story *story, const sl_watch_wish *wish, sl_error *error);

#endif
