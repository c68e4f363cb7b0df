/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window, until it is left.
 */
#ifndef SLOWLIFT_VIEW_WATCH_H
#define SLOWLIFT_VIEW_WATCH_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/strand.h"
#include "view/draw/eyes.h"
#include "view/strips/solve_thread.h"

/* What logs say beside a scene, borrowed while it is watched. */
struct sl_seen_curves;
typedef struct sl_beside_logs {
    const struct sl_seen_curves *seen; /* on a day of tests of that scene; NULL: no such log */
    const sl_strand_record *strands;   /* [n_strands] of people's hair, for the form */
    int n_strands;
} sl_beside_logs;

/* Takes over story (solved), also when it fails. logs: NULL: none. `scale`: of the text; at_min: the minute
 * to begin at. */
bool sl_watch_scene(sl_story *story, const sl_beside_logs *logs, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, const char *say, sl_error *error);

#endif
