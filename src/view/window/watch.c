/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window, until it is left.
 */
#include "view/window/watch.h"

#include "base/memory.h"
#include "front/places.h"
#include "view/window/screen.h"
#include "view/window/trace.h"

static const Uint64 FRAME_MS = 16; /* between frames while playing */

typedef struct watched {
    const sl_watch_wish *wish;
    sl_stage *stage;
    sl_trace trace;
} watched;

bool sl_watch_story(const char *models, const char *file, sl_story *story, sl_error *error)
{
    sl_places *const places = sl_new(1, sizeof *places, "looking for model files", error);
    if (places == NULL) {
        return false;
    }
    story->scene = sl_places_load(places, models, file, error);
    sl_free(places);
    if (story->scene == NULL) {
        return false;
    }
    sl_aims_assume(story->scene); /* before it is solved: limits are read of hair rinsed at any moment */
    return sl_story_solve(story, error);
}

/* On the stage of a story, with all that the window was asked for but what belongs to the first scene. */
static sl_stage *staged(const sl_watch_wish *wish, sl_story *story, const sl_eyes *eyes, double scale,
                        sl_error *error)
{
    sl_stage *const stage = sl_stage_new(story, eyes, wish->window, scale, error);
    if (stage != NULL) {
        stage->asking.models = wish->models;
        sl_asking_into(&stage->asking, wish->folder);
        stage->home = wish->home;
    }
    return stage;
}

/* The test that was made comes in place of what was shown, as it was looked at; where it cannot, all stays.
 */
static void open_made(watched *w)
{
    sl_asked_page *const asking = &w->stage->asking;
    sl_story story = {0};
    asking->open = false;
    w->stage->dirty = true;
    if (!sl_watch_story(w->wish->models, asking->made->asked.file, &story, &asking->trouble)) {
        sl_story_free(&story);
        return;
    }
    sl_stage *const next =
        staged(w->wish, &story, &w->stage->look.eyes, w->stage->look.scale, &asking->trouble);
    if (next != NULL) {
        next->chosen.steps = w->stage->chosen.steps;
        SDL_SetWindowTitle(w->wish->window, sl_scene_title(sl_stage_scene(next)));
        sl_stage_free(w->stage);
        w->stage = next;
    }
}

static void take(void *self, const SDL_Event *event)
{
    sl_stage_take(((watched *)self)->stage, event);
}

static void pass(void *self)
{
    watched *const w = self;
    sl_trace_begin(&w->trace);
    if (w->stage->asking.open) {
        open_made(w);
    }
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

bool sl_watch_scene(sl_story *story, const sl_watch_wish *wish, sl_error *error)
{
    watched *const w = sl_new(1, sizeof *w, "opening the window", error);
    if (w == NULL) {
        sl_story_free(story);
        return false;
    }
    w->wish = wish;
    w->stage = staged(wish, story, &wish->eyes, wish->scale, error);
    bool good = w->stage != NULL;
    if (good) {
        w->stage->logs = wish->logs;
        w->stage->asking.first = wish->asks;
        w->stage->open.after = wish->page;
        w->stage->chosen.steps = wish->steps;
        sl_stage_go(w->stage, wish->at_min);
        sl_trace_start(&w->trace);
        const sl_screen screen = {w, SL_ALL_EVENTS, take, pass, draw, wait_ms, busy, tell, left};
        good = sl_screen_run(&screen, wish->say, error);
        sl_trace_stop(&w->trace);
    }
    sl_stage_free(w->stage);
    sl_free(w);
    return good;
}
