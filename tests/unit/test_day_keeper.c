/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two programs at one test: each writes through a keeper of its own, and sees what the other wrote.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "log/day/day_keeper.h"
#include "log_made.h"
#include "suite.h"

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
    sl_log_close(p->log);
    sl_free(p->events);
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

START_SUITE("day_keeper")
ADD(what_another_program_kept_is_not_heard_once_and_in_the_order_of_the_log)
ADD(own_events_come_back_as_news)
ADD(an_event_that_is_on_no_disk_yet_is_forgotten)
END_SUITE
