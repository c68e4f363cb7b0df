/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark becomes an event that no window acts on, so that it wakes one and stays in the order of keys.
 */
#include "view/window/rest.h"

#include <SDL.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool on;
static int marks, taken, rested;

static int mark(void *self, SDL_Event *event)
{
    (void)self;
    if ((event->type == SDL_KEYDOWN || event->type == SDL_KEYUP) && event->key.keysym.sym == SDLK_PAUSE) {
        marks += event->type == SDL_KEYUP;
        event->type = SDL_KEYMAPCHANGED;
    }
    return 1;
}

void sl_rest_start(void)
{
    const char *const wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    on = wanted != NULL && strcmp(wanted, "2") == 0;
    if (on) {
        SDL_SetEventFilter(mark, NULL);
    }
}

static void tell(const char *word, int *last, int now)
{
    if (*last != now) {
        *last = now;
        fprintf(stderr, "%s %d\n", word, now);
    }
}

void sl_rest_tell(bool all_done)
{
    SDL_Event next;
    const int now = marks;
    if (!on || rested == now) {
        return;
    }
    SDL_PumpEvents();
    if (SDL_PeepEvents(&next, 1, SDL_PEEKEVENT, SDL_FIRSTEVENT, SDL_LASTEVENT) == 0) {
        tell("taken", &taken, now);
        if (all_done) {
            tell("rest", &rested, now);
        }
    }
}
