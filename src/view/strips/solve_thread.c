/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See solve_thread.h.
 */
#include "view/strips/solve_thread.h"

#include <string.h>

#include "base/memory.h"
#include "slowlift/estimate.h"
#include "view/strips/worker.h"

struct sl_solve_thread {
    sl_worker worker;
    sl_story asked, answered;
};

/* Colours are painted where they are shown, so no times and no optics here. Limits and ranks are read of hair
 * rinsed at any moment. */
static bool solve(sl_story *story, sl_solver *solver, sl_error *error)
{
    return sl_timeline_solve(&story->timeline, story->scene, NULL, 0, solver, NULL, error) &&
           sl_timeline_rinse(story->timeline, solver, error);
}

bool sl_story_change(sl_story *story, const sl_scene *scene, const sl_changes changes[], sl_error *error)
{
    story->scene = sl_scene_copy(scene, error);
    if (story->scene == NULL || !sl_scene_change(story->scene, changes, &story->mixes, error)) {
        sl_story_free(story);
        return false;
    }
    return true;
}

bool sl_story_solve(sl_story *story, sl_error *error)
{
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver != NULL && solve(story, solver, error);
    sl_solver_free(solver);
    return good;
}

void sl_story_free(sl_story *story)
{
    sl_timeline_free(story->timeline);
    sl_scene_free(story->scene);
    sl_free(story->mixes);
    memset(story, 0, sizeof *story);
}

static void answer(sl_solve_thread *self, sl_story *story)
{
    SDL_LockMutex(self->worker.lock);
    sl_story unread = self->answered;
    self->answered = *story;
    self->worker.has_found = true;
    SDL_UnlockMutex(self->worker.lock);
    memset(story, 0, sizeof *story);
    sl_story_free(&unread);
    sl_worker_wake(&self->worker);
}

static int run(void *self_)
{
    sl_solve_thread *const self = self_;
    sl_story story = {0};
    while (sl_worker_next(&self->worker, &story)) {
        if (!solve(&story, self->worker.solver, &story.error)) {
            sl_timeline_free(story.timeline);
            story.timeline = NULL;
        }
        answer(self, &story);
    }
    return 0;
}

void sl_solve_thread_work(sl_solve_thread *self)
{
    if (!self->worker.threads) {
        run(self);
    }
}

sl_solve_thread *sl_solve_thread_start(Uint32 wake, bool threads, sl_error *error)
{
    sl_solve_thread *const self = sl_new(1, sizeof *self, "starting the solver", error);
    if (self == NULL) {
        return NULL;
    }
    self->worker = (sl_worker){.asked = &self->asked, .size = sizeof self->asked};
    if (!sl_worker_start(&self->worker, wake, run, self, threads, error)) {
        sl_solve_thread_stop(self);
        return NULL;
    }
    return self;
}

void sl_solve_thread_stop(sl_solve_thread *self)
{
    if (self == NULL) {
        return;
    }
    sl_worker_stop(&self->worker);
    sl_story_free(&self->asked);
    sl_story_free(&self->answered);
    sl_free(self);
}

void sl_solve_thread_ask(sl_solve_thread *self, sl_story *story)
{
    sl_worker_ask(&self->worker, story);
    sl_story_free(story);
}

bool sl_solve_thread_busy(sl_solve_thread *self)
{
    return sl_worker_busy(&self->worker);
}

bool sl_solve_thread_take(sl_solve_thread *self, sl_story *story)
{
    SDL_LockMutex(self->worker.lock);
    const bool has = self->worker.has_found;
    if (has) {
        *story = self->answered;
        memset(&self->answered, 0, sizeof self->answered);
        self->worker.has_found = false;
    }
    SDL_UnlockMutex(self->worker.lock);
    return has;
}
