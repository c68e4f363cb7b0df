/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_keeper.h.
 */
#include "log/day/day_keeper.h"

#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/store/sql.h"

enum { WAIT_MS = 200, AGAIN_MS = 1000 };

typedef struct kept {
    sl_event event;
    char note[SL_LOG_TITLE];
} kept;

struct sl_day_keeper {
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
    sl_error why, unread; /* of the last try to write, and to read */
    bool leave;
    int64_t version;           /* SQLite's, of the log as others left it; -1: not looked at yet */
    struct timespec next_look; /* of the clock that nobody sets */
    sl_event *news;            /* [n_news] all of the test's, when others added some; NULL: none did */
    int n_news;
    sl_log_reading *readings; /* [n_readings] likewise, that none replaces; NULL: nothing changed */
    int n_readings;
};

static struct timespec in_ms(long ms)
{
    struct timespec until;
    clock_gettime(CLOCK_MONOTONIC, &until);
    until.tv_nsec += ms * 1000000L;
    until.tv_sec += until.tv_nsec / 1000000000L;
    until.tv_nsec %= 1000000000L;
    return until;
}

/* A file that was deleted or replaced still takes what is written to it, and nobody finds it again. */
static bool still_there(const sl_day_keeper *keeper, sl_error *error)
{
    struct stat file;
    if (stat(keeper->path, &file) == 0 && file.st_ino == keeper->file.st_ino &&
        file.st_dev == keeper->file.st_dev) {
        return true;
    }
    return sl_fail(error, SL_ERR_CANNOT_WRITE, keeper->path, _("the log is no longer there; put it back"));
}

static bool write_one(const sl_day_keeper *keeper, kept *one, sl_error *error)
{
    return still_there(keeper, error) && sl_log_append(keeper->log, keeper->test, keeper->swatches,
                                                       keeper->n_swatches, &one->event, one->note, error);
}

/* Holds the lock but while it writes. */
static void write_oldest(sl_day_keeper *keeper)
{
    kept oldest = keeper->waiting[0];
    sl_error error = {.code = SL_OK};
    pthread_mutex_unlock(&keeper->lock);
    const bool good = write_one(keeper, &oldest, &error);
    pthread_mutex_lock(&keeper->lock);
    keeper->why = error;
    if (good) {
        keeper->n--;
        memmove(&keeper->waiting[0], &keeper->waiting[1], (size_t)keeper->n * sizeof keeper->waiting[0]);
    } else if (!keeper->leave) {
        const struct timespec until = in_ms(AGAIN_MS);
        pthread_cond_timedwait(&keeper->changed, &keeper->lock, &until);
    }
    pthread_cond_broadcast(&keeper->changed);
}

/* ---- what others add --------------------------------------------------------------------------------- */

static int64_t ns_of(const struct timespec *at)
{
    return (int64_t)at->tv_sec * 1000000000 + at->tv_nsec;
}

static bool is_time(const struct timespec *next)
{
    const struct timespec now = in_ms(0);
    return ns_of(&now) >= ns_of(next);
}

/* Holds the lock but while it reads. SQLite's version is moved by other connections, and not by this one. */
static void look_elsewhere(sl_day_keeper *keeper)
{
    int64_t version = keeper->version;
    sl_event *events = NULL;
    sl_log_reading *readings = NULL;
    int n = 0, n_readings = 0;
    sl_error error = {.code = SL_OK};
    pthread_mutex_unlock(&keeper->lock);
    bool good = sl_sql_number(keeper->log, "PRAGMA data_version", &version, &error);
    const bool changed = good && version != keeper->version;
    good = good && (!changed || (sl_log_readings(keeper->log, keeper->test, &readings, &n_readings, &error) &&
                                 sl_log_events(keeper->log, keeper->test, keeper->swatches,
                                               keeper->n_swatches, &events, &n, &error)));
    pthread_mutex_lock(&keeper->lock);
    keeper->unread = error;
    keeper->next_look = in_ms(AGAIN_MS);
    if (good && changed) {
        keeper->version = version;
        sl_free(keeper->news);
        keeper->news = events;
        keeper->n_news = n;
        sl_free(keeper->readings);
        keeper->readings = readings;
        keeper->n_readings = n_readings;
    } else {
        sl_free(readings);
    }
}

/* Both lists keep much the same order: what follows the one that was found last is tried first. */
static const sl_event *with_id(const sl_event *events, int n, const char *id, int *next)
{
    for (int k = 0; k < n; k++) {
        const int i = (*next + k) % n;
        if (strcmp(events[i].id, id) == 0) {
            *next = i + 1;
            return &events[i];
        }
    }
    return NULL;
}

/* `all`, in the order of the log, and then those of own[n_own] that it lacks. Returns how many of it
 * are not own. */
static int merge(sl_event *all, int *n_all, const sl_event *own, int n_own)
{
    const int n_log = *n_all;
    int n_new = 0, next = 0;
    for (int i = 0; i < n_log; i++) {
        const sl_event *const known = with_id(own, n_own, all[i].id, &next);
        all[i].elsewhere = known ? known->elsewhere : true;
        n_new += known ? 0 : 1;
    }
    next = 0;
    for (int i = 0; i < n_own; i++) {
        if (!with_id(all, n_log, own[i].id, &next)) {
            all[(*n_all)++] = own[i];
        }
    }
    return n_new;
}

int sl_day_keeper_news(sl_day_keeper *keeper, sl_event **events, size_t *capacity, int *n)
{
    int n_new = 0;
    pthread_mutex_lock(&keeper->lock);
    size_t room = (size_t)keeper->n_news;
    if (keeper->news && sl_grow(&keeper->news, &room, (size_t)keeper->n_news + (size_t)*n,
                                sizeof *keeper->news, "reading the log", NULL)) {
        sl_event *const old = *events;
        n_new = merge(keeper->news, &keeper->n_news, old, *n);
        *events = keeper->news;
        *capacity = room;
        *n = keeper->n_news;
        keeper->news = NULL;
        keeper->n_news = 0;
        sl_free(old);
    }
    pthread_mutex_unlock(&keeper->lock);
    return n_new;
}

void sl_day_keeper_readings(sl_day_keeper *keeper, sl_log_reading **readings, int *n)
{
    pthread_mutex_lock(&keeper->lock);
    if (keeper->readings) {
        sl_free(*readings);
        *readings = keeper->readings;
        *n = keeper->n_readings;
        keeper->readings = NULL;
    }
    pthread_mutex_unlock(&keeper->lock);
}

int sl_news_begin(const sl_event *events, int n, int n_new)
{
    int at = n;
    for (int seen = 0; at > 0 && seen < n_new;) {
        seen += events[--at].elsewhere ? 1 : 0;
    }
    return at;
}

/* ---- the thread -------------------------------------------------------------------------------------- */

static void *keep_on(void *memory)
{
    sl_day_keeper *const keeper = memory;
    pthread_mutex_lock(&keeper->lock);
    while (!keeper->leave) {
        if (keeper->n > 0) {
            write_oldest(keeper);
        }
        if (!keeper->leave && is_time(&keeper->next_look)) {
            look_elsewhere(keeper);
        }
        if (!keeper->leave && keeper->n == 0) {
            pthread_cond_timedwait(&keeper->changed, &keeper->lock, &keeper->next_look);
        }
    }
    /* The last try ends at the first that fails, so that the order on the disk stays true. */
    for (int before = keeper->n + 1; keeper->n > 0 && keeper->n < before;) {
        before = keeper->n;
        write_oldest(keeper);
    }
    pthread_mutex_unlock(&keeper->lock);
    return NULL;
}

sl_day_keeper *sl_day_keeper_start(sl_log *log, const char *path, const char *test,
                                   const sl_log_swatch *swatches, int n_swatches, sl_error *error)
{
    sl_day_keeper *const keeper = sl_new(1, sizeof *keeper, "opening the log", error);
    if (!keeper) {
        return NULL;
    }
    keeper->log = log;
    keeper->path = path;
    keeper->test = test;
    keeper->swatches = swatches;
    keeper->n_swatches = n_swatches;
    keeper->version = -1;
    pthread_mutex_init(&keeper->lock, NULL);
    pthread_condattr_t by_no_hand; /* waits end in time though somebody sets the wall clock */
    pthread_condattr_init(&by_no_hand);
    pthread_condattr_setclock(&by_no_hand, CLOCK_MONOTONIC);
    pthread_cond_init(&keeper->changed, &by_no_hand);
    pthread_condattr_destroy(&by_no_hand);
    if (stat(path, &keeper->file) != 0 || pthread_create(&keeper->thread, NULL, keep_on, keeper) != 0) {
        sl_fail(error, SL_ERR_MISSING_PART, _("a thread that writes the log"), path);
        sl_free(keeper);
        return NULL;
    }
    return keeper;
}

bool sl_day_keeper_put(sl_day_keeper *keeper, const sl_event *event, const char *note, sl_error *error)
{
    pthread_mutex_lock(&keeper->lock);
    const bool room = sl_grow(&keeper->waiting, &keeper->capacity, (size_t)keeper->n + 1,
                              sizeof *keeper->waiting, "keeping an event", error);
    if (room) {
        kept *const last = &keeper->waiting[keeper->n++];
        last->event = *event;
        snprintf(last->note, sizeof last->note, "%s", note ? note : "");
        pthread_cond_broadcast(&keeper->changed);
        const struct timespec until = in_ms(WAIT_MS);
        while (keeper->n > 0 && pthread_cond_timedwait(&keeper->changed, &keeper->lock, &until) == 0) {
        }
    }
    pthread_mutex_unlock(&keeper->lock);
    return room;
}

int sl_day_keeper_waiting(sl_day_keeper *keeper, sl_error *why)
{
    pthread_mutex_lock(&keeper->lock);
    const int n = keeper->n;
    *why = keeper->why.code != SL_OK ? keeper->why : keeper->unread;
    pthread_mutex_unlock(&keeper->lock);
    return n;
}

static void tell(const sl_day_keeper *keeper)
{
    for (int i = 0; i < keeper->n; i++) {
        const kept *const lost = &keeper->waiting[i];
        const int swatch = lost->event.swatch;
        fprintf(stderr, _("not in the log: %s %s, %lld seconds since 1970 (UTC). %s\n"),
                sl_event_word(lost->event.kind),
                swatch >= 0 && swatch < keeper->n_swatches ? keeper->swatches[swatch].bench.code : "",
                (long long)(lost->event.at.wall_ns / 1000000000),
                lost->note[0] != '\0' ? lost->note : sl_remark_word(lost->event.remark));
    }
}

int sl_day_keeper_stop(sl_day_keeper *keeper)
{
    if (!keeper) {
        return 0;
    }
    pthread_mutex_lock(&keeper->lock);
    keeper->leave = true;
    pthread_cond_broadcast(&keeper->changed);
    pthread_mutex_unlock(&keeper->lock);
    pthread_join(keeper->thread, NULL);
    tell(keeper);
    const int lost = keeper->n;
    pthread_mutex_destroy(&keeper->lock);
    pthread_cond_destroy(&keeper->changed);
    sl_free(keeper->waiting);
    sl_free(keeper->readings);
    sl_free(keeper->news);
    sl_free(keeper);
    return lost;
}
