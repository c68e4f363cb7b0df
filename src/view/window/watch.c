/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window: frames until it is left.
 */
#include "view/window/watch.h"

#include <stdio.h>
#include <string.h>

#include "view/window/stage.h"
#include "view/window/trace.h"

static bool run(sl_stage *stage, sl_error *error)
{
    sl_trace trace;
    sl_trace_start(&trace);
    bool good = true;
    while (good && !stage->leave) {
        sl_stage_take_input(stage);
        sl_trace_begin(&trace);
        sl_stage_advance(stage);
        sl_stage_resolve(stage);
        const bool draws = stage->dirty;
        good = sl_stage_draw(stage, error);
        sl_trace_end(&trace, stage, draws);
    }
    sl_trace_stop(&trace);
    return good;
}

/* ---- in words --------------------------------------------------------------------------- */

static const Uint32 WAIT_MS = 2; /* between looks at whether the threads are done */

/* Until nothing is asked any more, so that what is told hangs on no machine's pace. */
static void settle(sl_stage *stage)
{
    bool idle = false;
    while (!idle) {
        SDL_PumpEvents();
        sl_stage_advance(stage);
        sl_stage_resolve(stage);
        idle = !stage->ask && !stage->playing && !sl_solve_thread_busy(stage->solver) &&
               !sl_study_thread_busy(stage->study_thread);
        SDL_Delay(idle ? 0 : WAIT_MS);
    }
}

/* "W", "shift+Right", "ctrl+=": as SDL names keys. */
static bool press(sl_stage *stage, const char *name, sl_error *error)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    const bool shift = strncmp(name, "shift+", 6) == 0, control = strncmp(name, "ctrl+", 5) == 0;
    event.key.state = SDL_PRESSED;
    event.key.keysym.mod = shift ? KMOD_LSHIFT : control ? KMOD_LCTRL : KMOD_NONE;
    event.key.keysym.sym = SDL_GetKeyFromName(name + (shift ? 6 : control ? 5 : 0));
    if (event.key.keysym.sym == SDLK_UNKNOWN) {
        return sl_fail(error, SL_ERR_USAGE, name, "name keys such as Return, W, shift+Right, ctrl+=");
    }
    SDL_PushEvent(&event);
    sl_stage_take_input(stage);
    return true;
}

/* Drawn twice: what a first picture measures the second one goes by. */
static bool say_one(sl_stage *stage, const char *after, sl_error *error)
{
    settle(stage);
    stage->dirty = true;
    if (!sl_stage_draw(stage, error)) {
        return false;
    }
    settle(stage);
    return sl_trace_say(stdout, stage, after, error);
}

static bool say_all(sl_stage *stage, const char *keys, sl_error *error)
{
    bool good = say_one(stage, "start", error);
    while (good && *keys != '\0' && !stage->leave) {
        char name[32];
        const size_t length = strcspn(keys, ",");
        snprintf(name, sizeof name, "%.*s", (int)SDL_min(length, sizeof name - 1), keys);
        keys += length + (keys[length] == ',');
        good = press(stage, name, error) && say_one(stage, name, error);
    }
    return good;
}

bool sl_watch_scene(sl_story *story, const sl_beside_logs *logs, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, const char *say, sl_error *error)
{
    sl_stage *stage = sl_stage_new(story, eyes, window, scale, error);
    bool good = stage != NULL;
    if (good) {
        if (logs != NULL) {
            stage->seen = logs->seen;
            stage->strands = logs->strands;
            stage->n_strands = logs->n_strands;
        }
        sl_stage_go(stage, at_min);
        good = say != NULL ? say_all(stage, say, error) : run(stage, error);
    }
    sl_stage_free(stage);
    return good;
}
