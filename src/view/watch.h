/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window, until it is left.
 */
#ifndef SLOWLIFT_VIEW_WATCH_H
#define SLOWLIFT_VIEW_WATCH_H

#include <SDL.h>
#include <stdbool.h>

#include "view/eyes.h"
#include "view/solve_thread.h"

/* Takes over story (solved), also when it fails. seen: on a day of tests of that scene, or NULL. `scale`: of
 * the text; at_min: the minute to begin at. */
struct sl_seen_curves;
bool sl_watch_scene(sl_story *story, const struct sl_seen_curves *seen, const sl_eyes *eyes,
                    SDL_Window *window, double scale, double at_min, const char *say, sl_error *error);

#endif
