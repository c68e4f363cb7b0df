/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One thread that solves what-ifs while the window goes on; without threads sl_solve_thread_work() does it
 * between frames. Invariant: the latest request wins; an older one that has not begun is dropped; the window
 * never waits for a solution.
 */
#ifndef SLOWLIFT_VIEW_SOLVE_THREAD_H
#define SLOWLIFT_VIEW_SOLVE_THREAD_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "slowlift/what_if.h"

/* A scene with its solution; owns both. */
typedef struct sl_story {
    sl_scene *scene;
    sl_mix *mixes;         /* memory of a changed scene's mixes; NULL otherwise */
    sl_timeline *timeline; /* NULL: not solved, see error */
    sl_error error;
} sl_story;
/* An empty one becomes a copy of the scene with the changes of each arm [n_arms], unsolved. */
bool sl_story_change(sl_story *story, const sl_scene *scene, const sl_changes changes[], sl_error *error);
bool sl_story_solve(sl_story *story, sl_error *error); /* its scene, here and now */
void sl_story_free(sl_story *story);                   /* empties it; an empty one is allowed */

typedef struct sl_solve_thread sl_solve_thread;

#ifndef SL_THREADS
#define SL_THREADS true /* -DSLOWLIFT_THREADS=OFF */
#endif

/* `wake` is the SDL event type pushed when a solution waits to be taken. threads false: none is started. */
sl_solve_thread *sl_solve_thread_start(Uint32 wake, bool threads, sl_error *error);
/* Without a thread: solves what was asked last. Nothing to do with one. */
void sl_solve_thread_work(sl_solve_thread *thread);
void sl_solve_thread_stop(sl_solve_thread *thread); /* NULL is allowed */

/* Hand a scene over (story->timeline NULL); *story is emptied. */
void sl_solve_thread_ask(sl_solve_thread *thread, sl_story *story);
/* Take the newest solution into the empty *story; false when there is none. */
bool sl_solve_thread_take(sl_solve_thread *thread, sl_story *story);
/* Asked and not answered yet, or answered and not taken. When that ends `wake` is pushed once more. */
bool sl_solve_thread_busy(sl_solve_thread *thread);

#endif
