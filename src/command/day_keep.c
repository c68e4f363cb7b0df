/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_keep.h.
 */
#include "command/day_keep.h"

#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "base/language.h"
#include "base/memory.h"

enum { WAIT_MS = 200, AGAIN_MS = 1000 };

typedef struct kept {
    sl_event event;
    char note[SL_LOG_TITLE];
} kept;

struct sl_day_keep {
    pthread_t thread;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    sl_log *log;
    const char *path, *test;
    struct stat file; /* as it was opened */
    const sl_log_swatch *swatches;
    int n_swatches;
    kept *waiting; /* [n] oldest first */
    size_t capacity;
    int n;
    sl_error why;
    bool leave;
};

static struct timespec in_ms(long ms)
{
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_nsec += ms * 1000000L;
    until.tv_sec += until.tv_nsec / 1000000000L;
    until.tv_nsec %= 1000000000L;
    return until;
}

/* A file that was deleted or replaced still takes what is written to it, and nobody finds it again. */
static bool still_there(const sl_day_keep *keep, sl_error *error)
{
    struct stat file;
    if (stat(keep->path, &file) == 0 && file.st_ino == keep->file.st_ino &&
        file.st_dev == keep->file.st_dev) {
        return true;
    }
    return sl_fail(error, SL_ERR_CANNOT_WRITE, keep->path, _("the log is no longer there; put it back"));
}

static bool write_one(const sl_day_keep *keep, kept *one, sl_error *error)
{
    return still_there(keep, error) && sl_log_append(keep->log, keep->test, keep->swatches, keep->n_swatches,
                                                     &one->event, one->note, error);
}

/* Holds the lock but while it writes. */
static void write_oldest(sl_day_keep *keep)
{
    kept oldest = keep->waiting[0];
    sl_error error = {.code = SL_OK};
    pthread_mutex_unlock(&keep->lock);
    const bool good = write_one(keep, &oldest, &error);
    pthread_mutex_lock(&keep->lock);
    keep->why = error;
    if (good) {
        keep->n--;
        memmove(&keep->waiting[0], &keep->waiting[1], (size_t)keep->n * sizeof keep->waiting[0]);
    } else if (!keep->leave) {
        const struct timespec until = in_ms(AGAIN_MS);
        pthread_cond_timedwait(&keep->changed, &keep->lock, &until);
    }
    pthread_cond_broadcast(&keep->changed);
}

static void *write_on(void *memory)
{
    sl_day_keep *const keep = memory;
    pthread_mutex_lock(&keep->lock);
    while (!keep->leave) {
        if (keep->n > 0) {
            write_oldest(keep);
        } else {
            pthread_cond_wait(&keep->changed, &keep->lock);
        }
    }
    /* The last try ends at the first that fails, so that the order on the disk stays true. */
    for (int before = keep->n + 1; keep->n > 0 && keep->n < before;) {
        before = keep->n;
        write_oldest(keep);
    }
    pthread_mutex_unlock(&keep->lock);
    return NULL;
}

sl_day_keep *sl_day_keep_start(sl_log *log, const char *path, const char *test, const sl_log_swatch *swatches,
                               int n_swatches, sl_error *error)
{
    sl_day_keep *const keep = sl_new(1, sizeof *keep, "opening the log", error);
    if (!keep) {
        return NULL;
    }
    keep->log = log;
    keep->path = path;
    keep->test = test;
    keep->swatches = swatches;
    keep->n_swatches = n_swatches;
    pthread_mutex_init(&keep->lock, NULL);
    pthread_cond_init(&keep->changed, NULL);
    if (stat(path, &keep->file) != 0 || pthread_create(&keep->thread, NULL, write_on, keep) != 0) {
        sl_fail(error, SL_ERR_MISSING_PART, _("a thread that writes the log"), path);
        sl_free(keep);
        return NULL;
    }
    return keep;
}

bool sl_day_keep_put(sl_day_keep *keep, const sl_event *event, const char *note, sl_error *error)
{
    pthread_mutex_lock(&keep->lock);
    const bool room = sl_grow(&keep->waiting, &keep->capacity, (size_t)keep->n + 1, sizeof *keep->waiting,
                              "keeping an event", error);
    if (room) {
        kept *const last = &keep->waiting[keep->n++];
        last->event = *event;
        snprintf(last->note, sizeof last->note, "%s", note ? note : "");
        pthread_cond_broadcast(&keep->changed);
        const struct timespec until = in_ms(WAIT_MS);
        while (keep->n > 0 && pthread_cond_timedwait(&keep->changed, &keep->lock, &until) == 0) {
        }
    }
    pthread_mutex_unlock(&keep->lock);
    return room;
}

int sl_day_keep_waiting(sl_day_keep *keep, sl_error *why)
{
    pthread_mutex_lock(&keep->lock);
    const int n = keep->n;
    *why = keep->why;
    pthread_mutex_unlock(&keep->lock);
    return n;
}

static void tell(const sl_day_keep *keep)
{
    for (int i = 0; i < keep->n; i++) {
        const kept *const lost = &keep->waiting[i];
        const int swatch = lost->event.swatch;
        fprintf(stderr, _("not in the log: %s %s, %lld seconds since 1970 (UTC). %s\n"),
                sl_event_word(lost->event.kind),
                swatch >= 0 && swatch < keep->n_swatches ? keep->swatches[swatch].bench.code : "",
                (long long)(lost->event.at.wall_ns / 1000000000), lost->note);
    }
}

int sl_day_keep_stop(sl_day_keep *keep)
{
    if (!keep) {
        return 0;
    }
    pthread_mutex_lock(&keep->lock);
    keep->leave = true;
    pthread_cond_broadcast(&keep->changed);
    pthread_mutex_unlock(&keep->lock);
    pthread_join(keep->thread, NULL);
    tell(keep);
    const int lost = keep->n;
    pthread_mutex_destroy(&keep->lock);
    pthread_cond_destroy(&keep->changed);
    sl_free(keep->waiting);
    sl_free(keep);
    return lost;
}
