/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See screen.h.
 */
#include "view/window/screen.h"

#include <stdio.h>
#include <string.h>

#include "view/window/rest.h"

static const Uint32 PAUSE_MS = 1; /* between looks at whether all is found */

bool sl_screen_frame(const sl_screen *screen, const SDL_Event events[], int n, int *wait_ms, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        screen->take(screen->self, &events[i]);
    }
    screen->pass(screen->self);
    const bool good = screen->draw(screen->self, error);
    *wait_ms = screen->wait_ms(screen->self);
    return good;
}

/* Those that have come, after waiting for the first as long as the frame said; how many. */
static int wait_for(const sl_screen *screen, SDL_Event events[SL_ALL_EVENTS], int wait_ms)
{
    const int most = SDL_min(screen->most_events, SL_ALL_EVENTS);
    int n = wait_ms < 0   ? SDL_WaitEvent(&events[0])
            : wait_ms > 0 ? SDL_WaitEventTimeout(&events[0], wait_ms)
                          : SDL_PollEvent(&events[0]);
    while (n > 0 && n < most && SDL_PollEvent(&events[n]) != 0) {
        n++;
    }
    return n;
}

void sl_screen_pixels(SDL_Window *window, int *x, int *y)
{
    int points_w = 0, points_h = 0, pixels_w = 0, pixels_h = 0;
    SDL_GetWindowSize(window, &points_w, &points_h);
    SDL_GetWindowSizeInPixels(window, &pixels_w, &pixels_h);
    *x = points_w > 0 ? *x * pixels_w / points_w : *x;
    *y = points_h > 0 ? *y * pixels_h / points_h : *y;
}

/* Of the last screen. */
static sl_screen_end end;

sl_screen_end sl_screen_ended(void)
{
    return end;
}

static bool closes(const SDL_Event events[], int n)
{
    bool closes = false;
    for (int i = 0; i < n; i++) {
        closes = closes || events[i].type == SDL_QUIT;
    }
    return closes;
}

static bool run(const sl_screen *screen, sl_error *error)
{
    SDL_Event events[SL_ALL_EVENTS];
    int n = 0, wait_ms = 0;
    bool good = true;
    while (good && !screen->left(screen->self)) {
        good = sl_screen_frame(screen, events, n, &wait_ms, error);
        if (wait_ms != 0 && !screen->left(screen->self)) { /* else what comes in its place tells */
            sl_rest_tell(!screen->busy(screen->self, false));
        }
        end.closed = closes(events, n);
        n = good && !screen->left(screen->self) ? wait_for(screen, events, wait_ms) : 0;
    }
    return good;
}

/* ---- in words ----------------------------------------------------------------------------- */

/* The letter of a key, as a keyboard sends it where letters are asked for. */
static void type_of(const sl_screen *screen, const SDL_KeyboardEvent *key)
{
    const SDL_Keycode letter = key->keysym.sym;
    SDL_Event event = {.type = SDL_TEXTINPUT};
    if (SDL_IsTextInputActive() && letter >= SDLK_SPACE && letter < SDLK_DELETE &&
        key->keysym.mod == KMOD_NONE) {
        event.text.text[0] = (char)letter;
        screen->take(screen->self, &event);
    }
}

static bool press(const sl_screen *screen, const char *name, sl_error *error)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    const bool shift = strncmp(name, "shift+", 6) == 0, control = strncmp(name, "ctrl+", 5) == 0;
    event.key.state = SDL_PRESSED;
    event.key.keysym.mod = shift ? KMOD_LSHIFT : control ? KMOD_LCTRL : KMOD_NONE;
    event.key.keysym.sym = SDL_GetKeyFromName(name + (shift ? 6 : control ? 5 : 0));
    if (event.key.keysym.sym == SDLK_UNKNOWN) {
        return sl_fail(error, SL_ERR_USAGE, name, "name keys such as Return, W, shift+Right, ctrl+=");
    }
    screen->take(screen->self, &event);
    type_of(screen, &event.key);
    return true;
}

/* Until nothing is asked any more, so that what is told hangs on no machine's pace. */
static void settle(const sl_screen *screen)
{
    screen->pass(screen->self);
    while (screen->busy(screen->self, true)) {
        SDL_PumpEvents();
        SDL_Delay(PAUSE_MS);
        screen->pass(screen->self);
    }
}

/* Drawn once before: what a first picture measures the second one goes by. */
static bool tell(const sl_screen *screen, const char *after, sl_error *error)
{
    settle(screen);
    if (!screen->draw(screen->self, error)) {
        return false;
    }
    settle(screen);
    printf("== %s\n", after);
    return screen->tell(screen->self, error) && ferror(stdout) == 0;
}

static bool say_all(const sl_screen *screen, const char *keys, sl_error *error)
{
    bool good = tell(screen, "start", error);
    while (good && *keys != '\0' && !screen->left(screen->self)) {
        char name[32];
        const size_t length = strcspn(keys, ",");
        snprintf(name, sizeof name, "%.*s", (int)SDL_min(length, sizeof name - 1), keys);
        keys += length + (keys[length] == ',');
        good = press(screen, name, error) && (screen->left(screen->self) || tell(screen, name, error));
    }
    end.unsaid = screen->left(screen->self) ? keys : NULL;
    return good;
}

bool sl_screen_run(const sl_screen *screen, const char *say, sl_error *error)
{
    end = (sl_screen_end){.closed = false};
    return say != NULL ? say_all(screen, say, error) : run(screen, error);
}
