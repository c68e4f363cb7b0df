/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two letter boxes, each holds one story: asked and answered. The lock is held only
 * while a story changes hands. The solver is the thread's own.
 */
#include "view/strips/solve_thread.h"

#include <string.h>

#include "base/memory.h"
#include "slowlift/estimate.h"

struct sl_solve_thread {
    SDL_Thread *thread;
    SDL_mutex *lock;
    SDL_cond *asked_something;
    sl_solver *solver; /* used by the thread alone */
    Uint32 wake;
    bool leave, working;
    bool has_asked, has_answered;
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

/* Move: *from is empty afterwards. */
static void move(sl_story *to, sl_story *from)
{
    *to = *from;
    memset(from, 0, sizeof *from);
}

static void push_wake(const sl_solve_thread *self)
{
    SDL_Event event = {.type = self->wake};
    SDL_PushEvent(&event);
}

/* Blocks until something is asked; false when it is time to leave. */
static bool next(sl_solve_thread *self, sl_story *story)
{
    SDL_LockMutex(self->lock);
    if (self->working && !self->has_asked) {
        push_wake(self); /* the window may want to know that nothing more comes */
    }
    self->working = false;
    while (!self->has_asked && !self->leave) {
        SDL_CondWait(self->asked_something, self->lock);
    }
    const bool go_on = !self->leave;
    if (go_on) {
        move(story, &self->asked);
        self->has_asked = false;
        self->working = true;
    }
    SDL_UnlockMutex(self->lock);
    return go_on;
}

static void answer(sl_solve_thread *self, sl_story *story)
{
    sl_story unread = {0};
    SDL_LockMutex(self->lock);
    if (self->has_answered) {
        move(&unread, &self->answered);
    }
    move(&self->answered, story);
    self->has_answered = true;
    SDL_UnlockMutex(self->lock);
    sl_story_free(&unread);
    push_wake(self);
}

static void find(sl_solve_thread *self, sl_story *story)
{
    if (!solve(story, self->solver, &story->error)) {
        sl_timeline_free(story->timeline);
        story->timeline = NULL;
    }
    answer(self, story);
}

static int run(void *self_)
{
    sl_solve_thread *self = self_;
    sl_story story = {0};
    while (next(self, &story)) {
        find(self, &story);
    }
    return 0;
}

void sl_solve_thread_work(sl_solve_thread *self)
{
    sl_story story = {0};
    if (self->thread == NULL && self->has_asked) {
        move(&story, &self->asked);
        self->has_asked = false;
        find(self, &story);
    }
}

sl_solve_thread *sl_solve_thread_start(Uint32 wake, bool threads, sl_error *error)
{
    sl_solve_thread *self = sl_new(1, sizeof *self, "starting the solver", error);
    if (self == NULL) {
        return NULL;
    }
    self->wake = wake;
    self->solver = sl_solver_new(error);
    self->lock = SDL_CreateMutex();
    self->asked_something = SDL_CreateCond();
    const bool ready = self->solver != NULL && self->lock != NULL && self->asked_something != NULL;
    if (ready && threads) {
        self->thread = SDL_CreateThread(run, "solve", self);
    }
    if (!ready || (threads && self->thread == NULL)) {
        if (self->solver != NULL) {
            sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window needs a thread to solve in");
        }
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
    if (self->thread != NULL) {
        SDL_LockMutex(self->lock);
        self->leave = true;
        SDL_CondSignal(self->asked_something);
        SDL_UnlockMutex(self->lock);
        SDL_WaitThread(self->thread, NULL);
    }
    SDL_DestroyCond(self->asked_something);
    SDL_DestroyMutex(self->lock);
    sl_solver_free(self->solver);
    sl_story_free(&self->asked);
    sl_story_free(&self->answered);
    sl_free(self);
}

void sl_solve_thread_ask(sl_solve_thread *self, sl_story *story)
{
    sl_story dropped = {0};
    SDL_LockMutex(self->lock);
    if (self->has_asked) {
        move(&dropped, &self->asked);
    }
    move(&self->asked, story);
    self->has_asked = true;
    SDL_CondSignal(self->asked_something);
    SDL_UnlockMutex(self->lock);
    sl_story_free(&dropped);
}

bool sl_solve_thread_busy(sl_solve_thread *self)
{
    SDL_LockMutex(self->lock);
    const bool busy = self->has_asked || self->working || self->has_answered;
    SDL_UnlockMutex(self->lock);
    return busy;
}

bool sl_solve_thread_take(sl_solve_thread *self, sl_story *story)
{
    SDL_LockMutex(self->lock);
    const bool has = self->has_answered;
    if (has) {
        move(story, &self->answered);
        self->has_answered = false;
    }
    SDL_UnlockMutex(self->lock);
    return has;
}
