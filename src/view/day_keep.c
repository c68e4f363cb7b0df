/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_keep.h.
 */
#include "view/day_keep.h"

#include <SDL.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"

enum { WAIT_MS = 200, AGAIN_MS = 1000 };

typedef struct kept {
    sl_event event;
    char note[SL_LOG_TITLE];
} kept;

struct sl_day_keeper {
    SDL_Thread *thread;
    SDL_mutex *lock;
    SDL_cond *changed;
    sl_log *log;
    const char *test;
    const sl_log_swatch *swatches;
    int n_swatches;
    kept *waiting; /* [n] oldest first */
    size_t capacity;
    int n;
    sl_error why;
    bool leave;
};

/* Takes the oldest; false when it is time to leave. */
static bool next(sl_day_keeper *self, kept *first)
{
    while (self->n == 0 && !self->leave) {
        SDL_CondWait(self->changed, self->lock);
    }
    if (self->n > 0) {
        *first = self->waiting[0];
    }
    return self->n > 0;
}

static void drop_first(sl_day_keeper *self)
{
    self->n--;
    memmove(&self->waiting[0], &self->waiting[1], (size_t)self->n * sizeof self->waiting[0]);
}

static int write_on(void *memory)
{
    sl_day_keeper *const self = memory;
    kept first;
    SDL_LockMutex(self->lock);
    while (next(self, &first)) {
        SDL_UnlockMutex(self->lock);
        sl_error error = {.code = SL_OK};
        const bool good = sl_log_append(self->log, self->test, self->swatches, self->n_swatches, &first.event,
                                        first.note, &error);
        SDL_LockMutex(self->lock);
        self->why = error;
        if (good) {
            drop_first(self);
        } else if (self->leave) {
            break; /* this was the last try */
        } else {
            SDL_CondWaitTimeout(self->changed, self->lock, AGAIN_MS);
        }
        SDL_CondBroadcast(self->changed);
    }
    SDL_UnlockMutex(self->lock);
    return 0;
}

sl_day_keeper *sl_day_keeper_start(sl_log *log, const char *test, const sl_log_swatch *swatches,
                                   int n_swatches, sl_error *error)
{
    sl_day_keeper *const self = sl_new(1, sizeof *self, "opening the log", error);
    if (self == NULL) {
        return NULL;
    }
    *self = (sl_day_keeper){.log = log, .test = test, .swatches = swatches, .n_swatches = n_swatches};
    self->lock = SDL_CreateMutex();
    self->changed = SDL_CreateCond();
    self->thread =
        self->lock != NULL && self->changed != NULL ? SDL_CreateThread(write_on, "slowlift log", self) : NULL;
    if (self->thread == NULL) {
        sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "a thread was wanted to write the log");
        sl_day_keeper_stop(self);
        return NULL;
    }
    return self;
}

bool sl_day_keeper_put(sl_day_keeper *self, const sl_event *event, const char *note, sl_error *error)
{
    SDL_LockMutex(self->lock);
    const bool room = sl_grow(&self->waiting, &self->capacity, (size_t)self->n + 1, sizeof self->waiting[0],
                              "keeping an event", error);
    if (room) {
        kept *const last = &self->waiting[self->n++];
        last->event = *event;
        snprintf(last->note, sizeof last->note, "%s", note != NULL ? note : "");
        SDL_CondBroadcast(self->changed);
        const Uint64 until = SDL_GetTicks64() + WAIT_MS;
        for (Uint64 now = SDL_GetTicks64(); self->n > 0 && now < until; now = SDL_GetTicks64()) {
            SDL_CondWaitTimeout(self->changed, self->lock, (Uint32)(until - now));
        }
    }
    SDL_UnlockMutex(self->lock);
    return room;
}

int sl_day_keeper_waiting(sl_day_keeper *self, sl_error *why)
{
    SDL_LockMutex(self->lock);
    const int n = self->n;
    *why = self->why;
    SDL_UnlockMutex(self->lock);
    return n;
}

static void tell(const sl_day_keeper *self)
{
    for (int i = 0; i < self->n; i++) {
        const kept *const lost = &self->waiting[i];
        const int swatch = lost->event.swatch;
        fprintf(stderr, "not written: %s %s, %lld s since 1970 %s\n", sl_event_word(lost->event.kind),
                swatch >= 0 && swatch < self->n_swatches ? self->swatches[swatch].bench.code : "",
                (long long)(lost->event.at.wall_ns / 1000000000), lost->note);
    }
}

int sl_day_keeper_stop(sl_day_keeper *self)
{
    if (self == NULL) {
        return 0;
    }
    if (self->thread != NULL) {
        SDL_LockMutex(self->lock);
        self->leave = true;
        SDL_CondBroadcast(self->changed);
        SDL_UnlockMutex(self->lock);
        SDL_WaitThread(self->thread, NULL);
    }
    tell(self);
    const int lost = self->n;
    SDL_DestroyCond(self->changed);
    SDL_DestroyMutex(self->lock);
    sl_free(self->waiting);
    sl_free(self);
    return lost;
}
