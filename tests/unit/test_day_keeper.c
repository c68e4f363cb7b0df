/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two programs at one test: each writes through a keeper of its own, and sees what the other wrote. And one
 * whose disk, memory or log fails for a while. The linker sends the calls through here.
 */
#include <pthread.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/day/day_keeper.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "suite.h"

/* ---- calls that fail ---------------------------------------------------------------------------------- */

enum { APPEND, EVENTS, NUMBER, GROW, NEW, THREAD, CALLS };
enum { ALWAYS = 1 << 30 };
static atomic_int failing[CALLS]; /* so many of the next calls fail */
static pthread_t here;            /* memory fails in this thread alone */

static bool fails(int what)
{
    if (atomic_load(&failing[what]) == 0) {
        return false;
    }
    atomic_fetch_sub(&failing[what], 1);
    return true;
}

static bool fails_here(int what)
{
    return pthread_equal(pthread_self(), here) && fails(what);
}

#define WRAPPED(type, name, parameters, given, failed, bad)                                                  \
    type __real_##name parameters;                                                                           \
    type __wrap_##name parameters;                                                                           \
    type __wrap_##name parameters                                                                            \
    {                                                                                                        \
        return failed ? bad : __real_##name given;                                                           \
    }
WRAPPED(bool, sl_log_append,
        (sl_log * log, const char *test, const sl_log_swatch *swatches, int n_swatches, sl_event *event,
         const char *note, sl_error *error),
        (log, test, swatches, n_swatches, event, note, error), fails(APPEND),
        sl_fail(error, SL_ERR_CANNOT_WRITE, "no room", ""))
WRAPPED(bool, sl_log_events,
        (sl_log * log, const char *test, const sl_log_swatch *swatches, int n_swatches, sl_event **events,
         int *n, sl_error *error),
        (log, test, swatches, n_swatches, events, n, error), fails(EVENTS),
        sl_fail(error, SL_ERR_CANNOT_READ, "events", ""))
WRAPPED(bool, sl_sql_number, (sl_log * log, const char *text, int64_t *number, sl_error *error),
        (log, text, number, error), fails(NUMBER), sl_fail(error, SL_ERR_CANNOT_READ, "a number", ""))
WRAPPED(bool, sl_grow,
        (void *array, size_t *capacity, size_t wanted, size_t size, const char *doing, sl_error *error),
        (array, capacity, wanted, size, doing, error), fails_here(GROW),
        sl_fail(error, SL_ERR_NO_MEMORY, doing, ""))
WRAPPED(void *, sl_new, (size_t count, size_t size, const char *doing, sl_error *error),
        (count, size, doing, error), fails_here(NEW),
        (sl_fail(error, SL_ERR_NO_MEMORY, doing, "") ? error : NULL))
WRAPPED(int, pthread_create,
        (pthread_t * thread, const pthread_attr_t *attributes, void *(*start)(void *), void *argument),
        (thread, attributes, start, argument), fails(THREAD), 11)

/* ---- locks that are taken and left --------------------------------------------------------------------- */

static _Thread_local int held; /* locks of this thread: a keeper's, one at a time */
static atomic_int without;     /* a lock was left, waited with or told of, that this thread did not hold */

static void holds(int wanted)
{
    if (held != wanted) {
        atomic_fetch_add(&without, 1);
    }
}

#define LOCKED(name, parameters, given, before, after)                                                       \
    int __real_##name parameters;                                                                            \
    int __wrap_##name parameters;                                                                            \
    int __wrap_##name parameters                                                                             \
    {                                                                                                        \
        holds(before);                                                                                       \
        held = after;                                                                                        \
        return __real_##name given;                                                                          \
    }
LOCKED(pthread_mutex_lock, (pthread_mutex_t * lock), (lock), 0, 1)
LOCKED(pthread_mutex_unlock, (pthread_mutex_t * lock), (lock), 1, 0)
LOCKED(pthread_cond_broadcast, (pthread_cond_t * changed), (changed), 1, 1)
LOCKED(pthread_cond_timedwait,
       (pthread_cond_t * changed, pthread_mutex_t *lock, const struct timespec *until),
       (changed, lock, until), 1, 1)

/* What was made for a keeper and is not yet gone: its lock, and what it waits for. */
static atomic_int standing;

#define COUNTED(name, parameters, given, one)                                                                \
    int __real_##name parameters;                                                                            \
    int __wrap_##name parameters;                                                                            \
    int __wrap_##name parameters                                                                             \
    {                                                                                                        \
        atomic_fetch_add(&standing, one);                                                                    \
        return __real_##name given;                                                                          \
    }
COUNTED(pthread_mutex_init, (pthread_mutex_t * lock, const pthread_mutexattr_t *how), (lock, how), 1)
COUNTED(pthread_mutex_destroy, (pthread_mutex_t * lock), (lock), -1)
COUNTED(pthread_cond_init, (pthread_cond_t * changed, const pthread_condattr_t *how), (changed, how), 1)
COUNTED(pthread_cond_destroy, (pthread_cond_t * changed), (changed), -1)

/* ---- programs ----------------------------------------------------------------------------------------- */

/* What one program has at hand. */
typedef struct program {
    sl_log *log;
    sl_day_keeper *keeper;
    sl_event *events;
    size_t capacity;
    int n;
} program;

static sl_log_made made;
static program one, two;

static void program_begin(program *p)
{
    *p = (program){.log = NULL};
    ck_assert(sl_log_open(&p->log, made.path, SL_LOG_WRITE, NULL));
    ck_assert(sl_log_events(p->log, made.test, made.swatches, made.n, &p->events, &p->n, NULL));
    p->capacity = (size_t)p->n;
    p->keeper = sl_day_keeper_start(p->log, made.path, made.test, made.swatches, made.n, NULL);
    ck_assert_ptr_nonnull(p->keeper);
}

static void program_end(program *p)
{
    ck_assert_int_eq(sl_day_keeper_stop(p->keeper), 0);
    ck_assert_int_eq(held, 0);
    sl_log_close(p->log);
    sl_free(p->events);
}

/* By all that a program asks of its keeper, and by the keeper's thread, which has ended. */
static void each_lock_was_held(void)
{
    ck_assert_int_eq(atomic_load(&without), 0);
    ck_assert_int_eq(atomic_load(&standing), 0);
}

static void both_begin(void)
{
    log_made_begin(&made);
    program_begin(&one);
    program_begin(&two);
}

static void both_end(void)
{
    program_end(&one);
    program_end(&two);
    each_lock_was_held();
    log_made_end(&made);
}

static void presses(program *p, sl_event_kind kind, int swatch)
{
    sl_event event = {.kind = kind, .swatch = swatch, .reason = SL_REASON_UNSAID};
    sl_uuid_make(event.id);
    ck_assert(sl_instant_now(&event.at, NULL));
    ck_assert(sl_day_keeper_put(p->keeper, &event, "", NULL));
    ck_assert(sl_grow(&p->events, &p->capacity, (size_t)p->n + 1, sizeof event, "", NULL));
    p->events[p->n++] = event;
}

/* Waits for `wanted` new ones. */
static int hears(program *p, int wanted)
{
    int heard = 0;
    for (patience wait = {0}; heard < wanted && patient(&wait);) {
        heard += sl_day_keeper_news(p->keeper, &p->events, &p->capacity, &p->n);
    }
    return heard;
}

static void same_as_the_log(const program *p)
{
    sl_event *events = NULL;
    int n = 0;
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n, NULL));
    ck_assert_int_eq(p->n, n);
    for (int i = 0; i < n; i++) {
        ck_assert_str_eq(p->events[i].id, events[i].id);
        ck_assert_int_eq(p->events[i].kind, events[i].kind);
        ck_assert_int_eq(p->events[i].swatch, events[i].swatch);
    }
    sl_free(events);
}

START_TEST(what_another_program_kept_is_not_heard_once_and_in_the_order_of_the_log)
{
    both_begin();
    presses(&one, SL_EVENT_STARTED, -1);
    presses(&one, SL_EVENT_APPLIED, 0);
    ck_assert_int_eq(hears(&two, 2), 2);
    presses(&two, SL_EVENT_APPLIED, 1);
    presses(&one, SL_EVENT_APPLIED, 2);
    presses(&two, SL_EVENT_STOPPED, -1);
    ck_assert_int_eq(hears(&one, 2), 2);
    ck_assert_int_eq(hears(&two, 1), 1);
    same_as_the_log(&one);
    same_as_the_log(&two);
    ck_assert(one.events[2].elsewhere && one.events[4].elsewhere);
    ck_assert(!one.events[0].elsewhere && !one.events[1].elsewhere && !one.events[3].elsewhere);
    ck_assert(two.events[0].elsewhere && !two.events[2].elsewhere && two.events[3].elsewhere);
    ck_assert_int_eq(sl_news_begin(one.events, one.n, 2), 2);
    ck_assert_int_eq(sl_news_begin(one.events, one.n, 1), 4);
    ck_assert_int_eq(sl_news_begin(one.events, one.n, 0), one.n);
    ck_assert_int_eq(sl_news_begin(one.events, one.n, 3), 0); /* more than there are: all of them */
    both_end();
}
END_TEST

START_TEST(own_events_come_back_as_news)
{
    both_begin();
    presses(&one, SL_EVENT_STARTED, -1);
    presses(&one, SL_EVENT_APPLIED, 0);
    ck_assert_int_eq(hears(&two, 2), 2);
    presses(&two, SL_EVENT_APPLIED, 1);
    ck_assert_int_eq(hears(&one, 1), 1); /* so it has looked, and its own lay before that one */
    ck_assert_int_eq(one.n, 3);
    ck_assert(!one.events[0].elsewhere && !one.events[1].elsewhere && one.events[2].elsewhere);
    same_as_the_log(&one);
    both_end();
}
END_TEST

/* The disk has not taken it yet: it stays, and stays last. */
START_TEST(an_event_that_is_on_no_disk_yet_is_forgotten)
{
    both_begin();
    sl_event waits = {.kind = SL_EVENT_STOPPED, .swatch = -1, .reason = SL_REASON_UNSAID};
    sl_uuid_make(waits.id);
    ck_assert(sl_grow(&one.events, &one.capacity, 1, sizeof waits, "", NULL));
    one.events[one.n++] = waits;
    presses(&two, SL_EVENT_STARTED, -1);
    ck_assert_int_eq(hears(&one, 1), 1);
    ck_assert_int_eq(one.n, 2);
    ck_assert(one.events[0].elsewhere && one.events[0].kind == SL_EVENT_STARTED);
    ck_assert(!one.events[1].elsewhere && one.events[1].kind == SL_EVENT_STOPPED);
    ck_assert_str_eq(one.events[1].id, waits.id);
    both_end();
}
END_TEST

/* ---- a disk that does not take it ---------------------------------------------------------------------- */

static void one_begin(void)
{
    here = pthread_self();
    log_made_begin(&made);
    program_begin(&one);
}

static void one_end(void)
{
    program_end(&one);
    each_lock_was_held();
    log_made_end(&made);
}

static void all_is_written(program *p)
{
    sl_error why;
    int waiting = 1;
    for (patience wait = {0}; waiting > 0 && patient(&wait);) {
        waiting = sl_day_keeper_waiting(p->keeper, &why);
    }
    ck_assert_int_eq(waiting, 0);
    ck_assert_int_eq(why.code, SL_OK);
}

START_TEST(what_a_full_disk_refused_at_first_is_lost_or_comes_out_of_order)
{
    sl_error why = {.code = SL_OK};
    one_begin();
    atomic_store(&failing[APPEND], ALWAYS);
    presses(&one, SL_EVENT_STARTED, -1);
    presses(&one, SL_EVENT_APPLIED, 0);
    presses(&one, SL_EVENT_APPLIED, 1);
    ck_assert_int_eq(sl_day_keeper_waiting(one.keeper, &why), 3);
    ck_assert_int_eq(why.code, SL_ERR_CANNOT_WRITE);
    ck_assert_str_eq(why.found, "no room");
    atomic_store(&failing[APPEND], 0);
    all_is_written(&one);
    same_as_the_log(&one);
    one_end();
}
END_TEST

/* Elsewhere is not gone: back in its place it takes what waits. */
START_TEST(a_log_that_was_moved_or_replaced_swallows_what_is_kept)
{
    char away[200];
    long long rows = 0;
    one_begin();
    snprintf(away, sizeof away, "%s/away.db", made.folder);
    for (int replaced = 0; replaced < 2; replaced++) {
        sl_error why = {.code = SL_OK};
        ck_assert(!replaced || sl_log_backup(made.path, made.other, &rows, NULL));
        ck_assert_int_eq(rename(made.path, away), 0);
        ck_assert(!replaced || rename(made.other, made.path) == 0);
        presses(&one, replaced ? SL_EVENT_APPLIED : SL_EVENT_STARTED, replaced ? 0 : -1);
        for (patience wait = {0}; why.code == SL_OK && patient(&wait);) {
            ck_assert_int_eq(sl_day_keeper_waiting(one.keeper, &why), 1);
        }
        ck_assert_int_eq(why.code, SL_ERR_CANNOT_WRITE);
        ck_assert_ptr_nonnull(strstr(why.wanted, "the log is no longer there"));
        ck_assert_int_eq(rename(away, made.path), 0);
        all_is_written(&one);
    }
    same_as_the_log(&one);
    one_end();
}
END_TEST

/* Sends what the program says of itself into a file; returns what was said before. */
static int stderr_into(const char *path)
{
    fflush(stderr);
    const int kept = dup(STDERR_FILENO);
    FILE *const file = fopen(path, "wb");
    ck_assert(kept >= 0 && file && dup2(fileno(file), STDERR_FILENO) >= 0);
    fclose(file);
    return kept;
}

static void nothing_is_written(void)
{
    sl_event *events = NULL;
    int n = -1;
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n, NULL));
    ck_assert_int_eq(n, 0);
    sl_free(events);
}

START_TEST(what_was_never_written_is_not_told_at_the_end)
{
    char text[1000] = "", wanted[300];
    sl_event events[] = {{.kind = SL_EVENT_NOTED, .swatch = 0},
                         {.kind = SL_EVENT_NOTED, .swatch = -1, .remark = SL_REMARK_WARM},
                         {.kind = SL_EVENT_RINSED, .swatch = 5000}};
    const char *const notes[] = {"a drip", NULL, ""}, *const ends[] = {" a drip\n", " it feels warm\n",
                                                                       " \n"};
    one_begin();
    atomic_store(&failing[APPEND], ALWAYS);
    for (int i = 0; i < 3; i++) {
        sl_uuid_make(events[i].id);
        events[i].at.wall_ns = (1795597200 + (int64_t)i) * 1000000000;
        ck_assert(sl_day_keeper_put(one.keeper, &events[i], notes[i], NULL));
    }
    const int kept = stderr_into(made.csv);
    const int lost = sl_day_keeper_stop(one.keeper);
    ck_assert_int_ge(dup2(kept, STDERR_FILENO), 0);
    close(kept);
    atomic_store(&failing[APPEND], 0);
    ck_assert_int_eq(lost, 3);
    FILE *const file = fopen(made.csv, "rb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_gt(fread(text, 1, sizeof text - 1, file), 0);
    fclose(file);
    for (int i = 0; i < 3; i++) {
        snprintf(wanted, sizeof wanted, "not in the log: %s %s, %d seconds since 1970 (UTC).%s",
                 sl_event_word(events[i].kind), i == 0 ? made.swatches[0].bench.code : "", 1795597200 + i,
                 ends[i]);
        ck_assert_msg(strstr(text, wanted) != NULL, "\"%s\" in \"%s\"", wanted, text);
    }
    sl_log_close(one.log);
    sl_free(one.events);
    nothing_is_written();
    log_made_end(&made);
}
END_TEST

START_TEST(news_that_could_not_be_read_at_first_are_lost)
{
    static const int calls[] = {EVENTS, NUMBER};
    both_begin();
    presses(&two, SL_EVENT_STARTED, -1);
    ck_assert_int_eq(hears(&one, 1), 1);
    for (int i = 0; i < 2; i++) {
        sl_error why = {.code = SL_OK};
        atomic_store(&failing[calls[i]], ALWAYS);
        if (calls[i] == EVENTS) { /* a beginning asks for numbers of its own */
            presses(&two, SL_EVENT_APPLIED, i);
        }
        for (patience wait = {0}; why.code == SL_OK && patient(&wait);) {
            ck_assert_int_eq(sl_day_keeper_waiting(one.keeper, &why), 0);
        }
        ck_assert_int_eq(why.code, SL_ERR_CANNOT_READ);
        ck_assert_int_eq(sl_day_keeper_news(one.keeper, &one.events, &one.capacity, &one.n), 0);
        atomic_store(&failing[calls[i]], 0);
        if (calls[i] == NUMBER) {
            presses(&two, SL_EVENT_APPLIED, i);
        }
        ck_assert_int_eq(hears(&one, 1), 1);
        all_is_written(&one);
    }
    same_as_the_log(&one);
    both_end();
}
END_TEST

/* ---- no memory, no thread -------------------------------------------------------------------------------
 */

START_TEST(without_memory_an_event_is_taken_or_news_are_lost)
{
    sl_event event = {.kind = SL_EVENT_STARTED, .swatch = -1};
    sl_error error = {.code = SL_OK};
    here = pthread_self(); /* before others run */
    both_begin();
    sl_uuid_make(event.id);
    ck_assert(sl_instant_now(&event.at, NULL));
    atomic_store(&failing[GROW], 1);
    ck_assert(!sl_day_keeper_put(one.keeper, &event, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    ck_assert_int_eq(sl_day_keeper_waiting(one.keeper, &error), 0);
    presses(&two, SL_EVENT_STARTED, -1);
    atomic_store(&failing[GROW], 1);
    for (patience wait = {0}; atomic_load(&failing[GROW]) > 0 && patient(&wait);) {
        ck_assert_int_eq(sl_day_keeper_news(one.keeper, &one.events, &one.capacity, &one.n), 0);
    }
    ck_assert_int_eq(atomic_load(&failing[GROW]), 0);
    ck_assert_int_eq(one.n, 0);
    ck_assert_int_eq(hears(&one, 1), 1);
    same_as_the_log(&one);
    both_end();
}
END_TEST

START_TEST(a_keeper_that_cannot_begin_begins)
{
    log_made_begin(&made);
    here = pthread_self();
    for (int how = 0; how < 3; how++) {
        sl_error error = {.code = SL_OK};
        atomic_store(&failing[NEW], how == 0);
        atomic_store(&failing[THREAD], how == 1);
        ck_assert_ptr_null(sl_day_keeper_start(made.log, how == 2 ? made.other : made.path, made.test,
                                               made.swatches, made.n, &error));
        ck_assert_int_eq(error.code, how == 0 ? SL_ERR_NO_MEMORY : SL_ERR_MISSING_PART);
        ck_assert_int_eq(atomic_load(&failing[NEW]) + atomic_load(&failing[THREAD]), 0);
    }
    ck_assert_int_eq(sl_day_keeper_stop(NULL), 0);
    log_made_end(&made);
}
END_TEST

START_SUITE("day_keeper")
ADD(what_another_program_kept_is_not_heard_once_and_in_the_order_of_the_log)
ADD(own_events_come_back_as_news)
ADD(an_event_that_is_on_no_disk_yet_is_forgotten)
CASE("what fails")
ADD(what_a_full_disk_refused_at_first_is_lost_or_comes_out_of_order)
ADD(a_log_that_was_moved_or_replaced_swallows_what_is_kept)
ADD(what_was_never_written_is_not_told_at_the_end)
ADD(news_that_could_not_be_read_at_first_are_lost)
ADD(without_memory_an_event_is_taken_or_news_are_lost)
ADD(a_keeper_that_cannot_begin_begins)
END_SUITE
