/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What fills the window: a scene, a lesson, the clock of a day. Each is a screen, and one loop serves them
 * all. A frame is a function that returns: a host with a loop of its own calls sl_screen_frame() with the
 * events that have come, and again when the frame said so.
 *
 * `watch --say KEYS`: a window that nobody sees tells in words what it would show, at first and after each
 * key.
 */
#ifndef SLOWLIFT_VIEW_SCREEN_H
#define SLOWLIFT_VIEW_SCREEN_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/error.h"

enum { SL_ALL_EVENTS = 64 };

/* None of these waits. */
typedef struct sl_screen {
    void *self;
    int most_events; /* of a frame: 1 where no key may meet what was not shown */
    void (*take)(void *self, const SDL_Event *event);
    void (*pass)(
        void *self); /* time goes on; what was computed is taken, and a slice where there are no threads */
    bool (*draw)(void *self, sl_error *error); /* what changed; nothing where nothing did */
    int (*wait_ms)(void *self); /* until the next frame; 0: at once; -1: until an event comes */
    /* Something that was asked is not found or written yet; with_play: or goes on by itself. */
    bool (*busy)(void *self, bool with_play);
    bool (*tell)(void *self, sl_error *error); /* draws, and tells all of it in words on stdout */
    bool (*left)(const void *self);
} sl_screen;

/* One frame: takes events[n], lets time pass, draws. *wait_ms: when it wants to be called again. */
bool sl_screen_frame(const sl_screen *screen, const SDL_Event events[], int n, int *wait_ms, sl_error *error);
/* Frames until it is left; say: keys as SDL names them ("W,shift+Right,ctrl+="), in place of a window. */
bool sl_screen_run(const sl_screen *screen, const char *say, sl_error *error);

/* Where the pointer is in pixels of the window's surface, which may be finer than its own. */
void sl_screen_pixels(SDL_Window *window, int *x, int *y);

/* How the last of them was left. */
typedef struct sl_screen_end {
    bool closed; /* with the window: nothing follows it there */
    const char
        *unsaid; /* keys that were left over when it was left; NULL: it was not, or there are none to say */
} sl_screen_end;
sl_screen_end sl_screen_ended(void);

#endif
