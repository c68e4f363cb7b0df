/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A thread beside the window with a letter box for what is asked of it, or the box alone where there are no
 * threads. The lock is held only while a letter changes hands. Invariant: the latest letter wins; one that
 * was not opened is handed back.
 */
#ifndef SLOWLIFT_VIEW_WORKER_H
#define SLOWLIFT_VIEW_WORKER_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/timeline.h"

typedef struct sl_worker {
    bool threads; /* false: there is none, and it works between frames */
    SDL_Thread *thread;
    SDL_mutex *lock; /* of all below; may be taken twice */
    SDL_cond *asked_something;
    sl_solver *solver; /* used by who works alone */
    Uint32 wake;       /* the SDL event type pushed when something waits to be taken */
    bool leave, working, has_asked, has_found;
    void *asked; /* the box, of `size` bytes; empty letters are zeros, and letters move as bytes */
    size_t size;
} sl_worker;

/* Its box is set. False: no memory, or no thread to be had; sl_worker_stop() comes all the same. */
bool sl_worker_start(sl_worker *worker, Uint32 wake, SDL_ThreadFunction run, void *self, bool threads,
                     sl_error *error);
void sl_worker_stop(sl_worker *worker); /* the thread has ended then; letters are the caller's */

/* *letter goes into the box, and what lay there comes out. */
void sl_worker_ask(sl_worker *worker, void *letter);
/* Waits for a letter where there is a thread. False: there is none, or it is time to leave. */
bool sl_worker_next(sl_worker *worker, void *letter);
bool sl_worker_is_newest(sl_worker *worker); /* nothing else was asked since, and it is not time to leave */
void sl_worker_wake(const sl_worker *worker);
/* Asked and not answered yet, or answered and not taken. When that ends `wake` is pushed once more. */
bool sl_worker_busy(sl_worker *worker);

#endif
