/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window, until it is left.
 */
#include "view/window/watch.h"

#include "base/memory.h"
#include "view/window/screen.h"
#include "view/window/trace.h"

static const Uint64 FRAME_MS = 16; /* between frames while playing */

typedef struct watched {
    sl_stage *stage;
    sl_trace trace;
} watched;

static void take(void *self, const SDL_Event *event)
{
    sl_stage_take(((watched *)self)->stage, event);
}

static void pass(void *self)
{
    watched *const w = self;
    sl_trace_begin(&w->trace);
    sl_stage_advance(w->stage);
    sl_stage_resolve(w->stage);
}

static bool draw(void *self, sl_error *error)
{
    watched *const w = self;
    const bool draws = w->stage->dirty;
    const bool good = sl_stage_draw(w->stage, error);
    sl_trace_end(&w->trace, w->stage, draws);
    return good;
}

static bool finds(const sl_stage *stage)
{
    return sl_solve_thread_busy(stage->solved.solver) || sl_study_thread_busy(stage->solved.study_thread);
}

static int wait_ms(void *self)
{
    const sl_stage *const stage = ((const watched *)self)->stage;
    const Uint64 since = SDL_GetTicks64() - stage->last_tick;
    if (stage->chosen.playing) {
        return since >= FRAME_MS ? 1 : (int)(FRAME_MS - since);
    }
    return stage->dirty || stage->solved.ask || (!SL_THREADS && finds(stage)) ? 0 : -1;
}

static bool busy(void *self, bool with_play)
{
    const sl_stage *const stage = ((const watched *)self)->stage;
    return stage->solved.ask || finds(stage) || (with_play && stage->chosen.playing);
}

static bool tell(void *self, sl_error *error)
{
    return sl_trace_say(stdout, ((watched *)self)->stage, error);
}

static bool left(const void *self)
{
    return ((const watched *)self)->stage->leave;
}

bool sl_watch_scene(sl_story *story, const sl_beside_logs *logs, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, const char *say, sl_error *error)
{
    watched *const w = sl_new(1, sizeof *w, "opening the window", error);
    if (w == NULL) {
        sl_story_free(story);
        return false;
    }
    w->stage = sl_stage_new(story, eyes, window, scale, error);
    bool good = w->stage != NULL;
    if (good) {
        if (logs != NULL) {
            w->stage->logs = *logs;
        }
        sl_stage_go(w->stage, at_min);
        sl_trace_start(&w->trace);
        const sl_screen screen = {w, SL_ALL_EVENTS, take, pass, draw, wait_ms, busy, tell, left};
        good = sl_screen_run(&screen, say, error);
        sl_trace_stop(&w->trace);
    }
    sl_stage_free(w->stage);
    sl_free(w);
    return good;
}
