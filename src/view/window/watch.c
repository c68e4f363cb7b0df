/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window: frames until it is left.
 */
#include "view/window/watch.h"

#include <stdio.h>

#include "view/window/say.h"
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
        idle = !stage->solved.ask && !stage->chosen.playing && !sl_solve_thread_busy(stage->solved.solver) &&
               !sl_study_thread_busy(stage->solved.study_thread);
        SDL_Delay(idle ? 0 : WAIT_MS);
    }
}

static void take(void *self, const SDL_Event *event)
{
    SDL_Event copy = *event;
    SDL_PushEvent(&copy);
    sl_stage_take_input(self);
}

/* Drawn twice: what a first picture measures the second one goes by. */
static bool tell(void *self, const char *after, sl_error *error)
{
    sl_stage *const stage = self;
    settle(stage);
    stage->dirty = true;
    if (!sl_stage_draw(stage, error)) {
        return false;
    }
    settle(stage);
    return sl_trace_say(stdout, stage, after, error);
}

static bool left(const void *self)
{
    const sl_stage *const stage = self;
    return stage->leave;
}

bool sl_watch_scene(sl_story *story, const sl_beside_logs *logs, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, const char *say, sl_error *error)
{
    sl_stage *stage = sl_stage_new(story, eyes, window, scale, error);
    bool good = stage != NULL;
    if (good) {
        if (logs != NULL) {
            stage->logs = *logs;
        }
        sl_stage_go(stage, at_min);
        const sl_sayer sayer = {stage, take, tell, left};
        good = say != NULL ? sl_say_all(&sayer, say, error) : run(stage, error);
    }
    sl_stage_free(stage);
    return good;
}
