/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See worker.h.
 */
#include "view/strips/worker.h"

#include <string.h>

bool sl_worker_start(sl_worker *worker, Uint32 wake, SDL_ThreadFunction run, void *self, bool threads,
                     sl_error *error)
{
    worker->wake = wake;
    worker->threads = threads;
    worker->solver = sl_solver_new(error);
    if (worker->solver == NULL) {
        return false;
    }
    worker->lock = SDL_CreateMutex();
    worker->asked_something = SDL_CreateCond();
    const bool ready = worker->lock != NULL && worker->asked_something != NULL;
    if (ready && threads) {
        worker->thread = SDL_CreateThread(run, "worker", self);
    }
    return (ready && (!threads || worker->thread != NULL)) ||
           sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window needs a thread to compute in");
}

void sl_worker_stop(sl_worker *worker)
{
    if (worker->thread != NULL) {
        SDL_LockMutex(worker->lock);
        worker->leave = true;
        SDL_CondSignal(worker->asked_something);
        SDL_UnlockMutex(worker->lock);
        SDL_WaitThread(worker->thread, NULL);
    }
    SDL_DestroyCond(worker->asked_something);
    SDL_DestroyMutex(worker->lock);
    sl_solver_free(worker->solver);
}

void sl_worker_ask(sl_worker *worker, void *letter)
{
    SDL_LockMutex(worker->lock);
    unsigned char *const asked = worker->asked, *const other = letter;
    for (size_t i = 0; i < worker->size; i++) {
        const unsigned char byte = asked[i];
        asked[i] = other[i];
        other[i] = byte;
    }
    worker->has_asked = true;
    SDL_CondSignal(worker->asked_something);
    SDL_UnlockMutex(worker->lock);
}

bool sl_worker_next(sl_worker *worker, void *letter)
{
    SDL_LockMutex(worker->lock);
    if (worker->working && !worker->has_asked) {
        sl_worker_wake(worker); /* the window may want to know that nothing more comes */
    }
    worker->working = false;
    while (worker->threads && !worker->has_asked && !worker->leave) {
        SDL_CondWait(worker->asked_something, worker->lock);
    }
    if (worker->has_asked && !worker->leave) {
        memcpy(letter, worker->asked, worker->size);
        memset(worker->asked, 0, worker->size);
        worker->has_asked = false;
        worker->working = true;
    }
    const bool works = worker->working;
    SDL_UnlockMutex(worker->lock);
    return works;
}

bool sl_worker_is_newest(sl_worker *worker)
{
    SDL_LockMutex(worker->lock);
    const bool newest = !worker->has_asked && !worker->leave;
    SDL_UnlockMutex(worker->lock);
    return newest;
}

void sl_worker_wake(const sl_worker *worker)
{
    SDL_Event event = {.type = worker->wake};
    SDL_PushEvent(&event);
}

bool sl_worker_busy(sl_worker *worker)
{
    SDL_LockMutex(worker->lock);
    const bool busy = worker->has_asked || worker->working || worker->has_found;
    SDL_UnlockMutex(worker->lock);
    return busy;
}
