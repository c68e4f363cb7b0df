/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See walk.h.
 */
#include "estimate/walk.h"

#include <pthread.h>

#include "kinetics/lanes.h"

/* What all share. */
typedef struct shared {
    const member_walk *walk;
    member_reader *read;
    int walkers;
    pthread_mutex_t lock; /* of the two below */
    bool stop;
    long done;
} shared;

typedef struct walker {
    shared *all;
    void *reader;
    int number;
    bool failed;
} walker;

/* Tell how far it is, from the first thread; false when somebody said stop. */
static bool go_on(const walker *w, int members)
{
    shared *const all = w->all;
    const member_walk *const walk = all->walk;
    pthread_mutex_lock(&all->lock);
    all->done += members;
    if (w->number == 0 && walk->go_on && !walk->go_on(walk->self, all->done, walk->members)) {
        all->stop = true;
    }
    const bool on = !all->stop;
    pthread_mutex_unlock(&all->lock);
    return on;
}

static void *walk_blocks(void *self)
{
    walker *const w = self;
    const long begin = w->all->walk->first_member, end = begin + w->all->walk->members;
    bool on = true;
    for (long b = begin / LANES + w->number; b * LANES < end && on; b += w->all->walkers) {
        const member_block block = {.first = b * LANES,
                                    .from = b * LANES < begin ? (int)(begin - b * LANES) : 0,
                                    .to = end - b * LANES < LANES ? (int)(end - b * LANES) : LANES};
        w->failed = !w->all->read(w->reader, &block);
        on = go_on(w, block.to - block.from) && !w->failed;
    }
    return NULL;
}

void members_walk(const member_walk *walk, member_reader *read, void *readers, size_t size, int n,
                  bool failed[])
{
    shared all = {.walk = walk, .read = read, .walkers = n, .lock = PTHREAD_MUTEX_INITIALIZER};
    walker one[MOST_WALKERS] = {{0}};
    pthread_t thread[MOST_WALKERS];
    bool started[MOST_WALKERS] = {false};
    for (int i = 0; i < n; i++) {
        one[i] = (walker){.all = &all, .reader = (char *)readers + (size_t)i * size, .number = i};
    }
    for (int i = 1; i < n; i++) {
        started[i] = pthread_create(&thread[i], NULL, walk_blocks, &one[i]) == 0;
    }
    walk_blocks(&one[0]);
    for (int i = 1; i < n; i++) {
        if (started[i]) {
            pthread_join(thread[i], NULL);
        } else {
            walk_blocks(&one[i]);
        }
    }
    for (int i = 0; i < n; i++) {
        failed[i] = one[i].failed;
    }
}
