/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `watch --say KEYS`: a window that nobody sees tells in words what it would show, at first and after each
 * key. Scene, lesson and day each settle, draw and tell in their own way; the walk along the keys is here.
 */
#ifndef SLOWLIFT_VIEW_SAY_H
#define SLOWLIFT_VIEW_SAY_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/error.h"

typedef struct sl_sayer {
    void *self;
    /* A key, as SDL would bring it. */
    void (*take)(void *self, const SDL_Event *event);
    /* Waits until nothing is being computed or written, draws, and tells all of it on stdout. */
    bool (*tell)(void *self, const char *after, sl_error *error);
    bool (*left)(const void *self);
} sl_sayer;

/* keys: "W,shift+Right,ctrl+=", as SDL names them. */
bool sl_say_all(const sl_sayer *sayer, const char *keys, sl_error *error);

#endif
