/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One thread that finds out, for what the knobs say, how sure the limits of the chosen strip
 * are, how the strips rank, what a map over two settings looks like, and what all strips answer; without
 * threads sl_study_thread_work() does a part of it between two frames, and finds the same. The ensemble
 * begins with as many members as fit a frame and grows while nothing is turned. Invariant: the latest wish
 * wins; the window never waits for it.
 */
#ifndef SLOWLIFT_VIEW_STUDY_H
#define SLOWLIFT_VIEW_STUDY_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/answer.h"
#include "slowlift/map.h"
#include "slowlift/rank.h"
#include "slowlift/rinse.h"
#include "view/strips/solve_thread.h"

/* What is to be found out. Owns scene and mixes. */
typedef struct sl_study_wish {
    sl_scene *scene;
    sl_mix *mixes;
    int arm;
    sl_observations observations; /* of any arm */
    bool of_person;               /* the answer is about the person of the form */
    sl_intake person;
    sl_strand strand[SL_MAX_ARMS]; /* of that person, with each arm's mix */
    bool rank;
    double minute, share;
    bool map;
    sl_axis x, y;
    bool answers;
    int same_zone; /* of the answers: as in rinse.h */
} sl_study_wish;

typedef enum sl_study_of {
    SL_STUDY_MEMBERS,
    SL_STUDY_RANK,
    SL_STUDY_MAP,
    SL_STUDY_ANSWERS,
    SL_STUDIES
} sl_study_of;

/* What all strips answer, with all that the answers borrow. */
typedef struct sl_study_answers {
    sl_story story;
    sl_observations observations;
    sl_intake form;
    sl_person person;
    sl_spread *spread;
    sl_answers answers;
    sl_rinse *rinse;
} sl_study_answers;

/* What was found so far. Owns rank, map and answers; NULL = not asked, or not yet. */
typedef struct sl_study {
    long members;                /* 0: nothing yet */
    sl_answer answer;            /* of the arm */
    sl_draw_plan plan;           /* what is drawn */
    double index[SL_MOST_DRAWN]; /* [plan.n] first-order index of each draw */
    sl_rank *rank;
    sl_map *map;
    sl_study_answers *answers;
    sl_error error[SL_STUDIES]; /* why one could not be found */
} sl_study;
void sl_study_answers_free(sl_study_answers *answers); /* NULL is allowed */
void sl_study_free(sl_study *study);                   /* empties it */

static const double SL_STUDY_FIRST_MS = 8.0; /* its first part: half of a frame at 60 a second */

typedef struct sl_study_thread sl_study_thread;

/* `wake` is the SDL event type pushed when something waits to be taken. threads false: none is started. */
sl_study_thread *sl_study_thread_start(Uint32 wake, bool threads, sl_error *error);
/* Without a thread: a part of what was asked. Nothing to do with one. */
void sl_study_thread_work(sl_study_thread *thread);
void sl_study_thread_stop(sl_study_thread *thread); /* NULL is allowed */

/* Hand a wish over; *wish is emptied. What an older wish finds after this is dropped. */
void sl_study_thread_ask(sl_study_thread *thread, sl_study_wish *wish);
/* Move what is new into *study: the members always, rank, map and answers when they are new. False
 * when nothing is. */
bool sl_study_thread_take(sl_study_thread *thread, sl_study *study);
/* Asked and not answered yet, or answered and not taken. When that ends `wake` is pushed once more. */
bool sl_study_thread_busy(sl_study_thread *thread);

#endif
