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

/* Takes over story (solved), also when it fails. logs: NULL: none. `scale`: of the text; at_min: the minute
 * to begin at. */
bool sl_watch_scene(sl_story *story, const sl_beside_logs *logs, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, const char *say, sl_error *error);

#endif
