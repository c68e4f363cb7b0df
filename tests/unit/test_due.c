/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is due of a test after its day.
 */
#include "log/day/due.h"
#include "log/day/dyed.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "log/store/old_notes.h"
#include "log_made.h"
#include "suite.h"

enum { RINSED_ON = 20782 }; /* 2026-11-25, the day of log_made_happens() */
static sl_log_made made;
static sl_log_due *due;
static int n;

static void read_due(int today)
{
    sl_error error = {.code = SL_OK};
    sl_free(due);
    due = NULL;
    ck_assert_msg(sl_log_due_read(made.log, made.test, today, &due, &n, &error), "%s", error.found);
}

static void fresh(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
}

static void end(void)
{
    sl_free(due);
    due = NULL;
    log_made_end(&made);
}

static void rinsed(int swatch)
{
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 1860, NULL);
}

static void looked_after(int swatch, double hours)
{
    sl_log_reading reading = log_made_reading(&made, swatch, "red", SL_WIPE_HALF);
    reading.hours_after = hours;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static int count(sl_log_due_kind kind)
{
    int found = 0;
    for (int i = 0; i < n; i++) {
        found += due[i].kind == kind ? 1 : 0;
    }
    return found;
}

static void deed(int swatch, sl_remark remark, double speed)
{
    sl_event event = {.kind = SL_EVENT_NOTED,
                      .swatch = swatch,
                      .remark = remark,
                      .speed = speed,
                      .at = {.boot_ns = 1, .wall_ns = INT64_C(1795597300000000000), .boot_id = "one"}};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
}

START_TEST(what_was_rinsed_is_looked_at_the_next_day_and_after_the_next_wash)
{
    fresh();
    const int one = log_made_swatch(&made, "powder + 3 %", 0),
              other = log_made_swatch(&made, "powder + 6 %", 0);
    read_due(RINSED_ON);
    ck_assert_int_eq(n, 0); /* nothing was put on */
    rinsed(one);
    rinsed(other);
    log_made_happens(&made, SL_EVENT_APPLIED, log_made_swatch(&made, "powder + 3 %", 1), 60, NULL);
    read_due(RINSED_ON);
    ck_assert_int_eq(n, 4);
    ck_assert_int_eq(count(SL_LOG_DUE_DAY), 2);
    ck_assert_int_eq(due[0].day, RINSED_ON + 1);
    looked_after(one, 2.0); /* too soon to be the next day's */
    read_due(RINSED_ON + 1);
    ck_assert_int_eq(n, 4);
    looked_after(one, 24.0);
    read_due(RINSED_ON + 1);
    ck_assert_int_eq(count(SL_LOG_DUE_DAY), 1);
    ck_assert_str_eq(due[0].code, made.swatches[other].bench.code);
    ck_assert_int_eq(count(SL_LOG_DUE_WASH), 2);
    looked_after(one, 72.0);
    read_due(RINSED_ON + 3);
    ck_assert_int_eq(n, 2);
    read_due(RINSED_ON + 1 + SL_DUE_DAYS); /* nobody did it in time */
    ck_assert_int_eq(n, 0);
    end();
}
END_TEST

START_TEST(a_leftover_that_stands_open_is_emptied)
{
    fresh();
    const int one = log_made_swatch(&made, "powder + 3 %", 0);
    log_made_happens(&made, SL_EVENT_APPLIED, one, 60, NULL);
    deed(one, SL_REMARK_LEFT_OPEN, 0.0);
    read_due(RINSED_ON);
    ck_assert_int_eq(count(SL_LOG_DUE_EMPTY), 1);
    deed(one, SL_REMARK_EMPTIED, 0.0);
    read_due(RINSED_ON);
    ck_assert_int_eq(n, 0);
    end();
}
END_TEST

START_TEST(ticks_are_notes_that_read_back_and_are_listed_nowhere)
{
    static const char ask[] = "SELECT group_concat(note || coalesce(deed, '') || coalesce(remark, ''))"
                              " FROM event WHERE kind = 'note'";
    char text[200];
    sl_event *events = NULL;
    int n_events = 0;
    fresh();
    deed(-1, SL_REMARK_END_BENCH, 0.0);
    log_made_happens(&made, SL_EVENT_NOTED, -1, 90, "done: it feels warm"); /* that is no tick */
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n_events, NULL));
    ck_assert_int_eq(events[n_events - 2].remark, SL_REMARK_END_BENCH);
    ck_assert_int_eq(events[n_events - 1].remark, SL_REMARK_NONE);
    log_made_text(made.path, ask, text, sizeof text);
    ck_assert_str_eq(text, "done: bench wiped,done: it feels warm");
    ck_assert(sl_old_flag("done: bench wiped") && !sl_old_flag("done: it feels warm"));
    sl_free(events);
    end();
}
END_TEST

START_TEST(the_day_of_dyeing_is_the_last_that_was_said)
{
    char note[SL_DYED_NOTE];
    int day = -1;
    fresh();
    ck_assert(sl_log_dyed(made.log, made.test, &day, NULL));
    ck_assert_int_eq(day, 0);
    for (int on = RINSED_ON; on >= RINSED_ON - 1; on--) {
        sl_dyed_note(on, note);
        log_made_happens(&made, SL_EVENT_NOTED, -1, 1, note);
    }
    log_made_happens(&made, SL_EVENT_NOTED, 0, 1, "dyed: on=2026-11-01"); /* of a swatch: a remark */
    log_made_happens(&made, SL_EVENT_NOTED, -1, 1, "dyed: on=yesterday"); /* no day */
    log_made_happens(&made, SL_EVENT_NOTED, -1, 1, "a bit of it dyed: on=2026-11-02");
    ck_assert(sl_log_dyed(made.log, made.test, &day, NULL));
    ck_assert_int_eq(day, RINSED_ON - 1);
    ck_assert_str_eq(note, "dyed: on=2026-11-24");
    end();
}
END_TEST

START_TEST(a_rehearsal_owes_nothing)
{
    fresh();
    rinsed(log_made_swatch(&made, "powder + 3 %", 0));
    deed(-1, SL_REMARK_NONE, 60.0);
    read_due(RINSED_ON + 1);
    ck_assert_int_eq(n, 0);
    end();
}
END_TEST

START_TEST(the_summary_of_a_day_tells_what_is_due_but_not_of_a_rehearsal)
{
    static sl_bench bench;
    static sl_bench_swatch plan[SL_BENCH_MOST];
    const sl_instant now = {.boot_id = "one"};
    fresh();
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-11-25", 1), 0);
    rinsed(0);
    sl_event *events = NULL;
    int n_events = 0;
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n_events, NULL));
    for (int i = 0; i < made.n; i++) {
        plan[i] = made.swatches[i].bench;
    }
    sl_bench_fold(&bench, plan, made.n, events, n_events);
    sl_day_went went = {.bench = &bench, .record = {.n = made.n}, .now = &now};
    sl_log_due_after(&went, made.swatches, NULL, 0);
    ck_assert_int_eq(went.n_due, 2);
    ck_assert_str_eq(went.due[0],
                     "Look again on 2026-11-26, a day after the rinse: HP5. Colour may come back.");
    went.rehearsed = true;
    sl_log_due_after(&went, made.swatches, NULL, 0);
    ck_assert_int_eq(went.n_due, 0);
    sl_free(events);
    end();
}
END_TEST

START_TEST(a_sentence_tells_those_that_are_due_alike)
{
    static const sl_log_due some[] = {{SL_LOG_DUE_DAY, RINSED_ON, "HP5"},
                                      {SL_LOG_DUE_DAY, RINSED_ON, "EK9"},
                                      {SL_LOG_DUE_DAY, RINSED_ON + 2, "CJ3"},
                                      {SL_LOG_DUE_WASH, RINSED_ON, "HP5"},
                                      {SL_LOG_DUE_WASH, RINSED_ON + 2, "CJ3"}};
    char text[400];
    ck_assert_int_eq(sl_log_due_words(some, 5, RINSED_ON + 1, text, sizeof text), 2);
    ck_assert_str_eq(
        text, "Look again, due since 2026-11-25, a day after the rinse: HP5, EK9. Colour may come back.");
    ck_assert_int_eq(sl_log_due_words(some + 2, 3, RINSED_ON + 1, text, sizeof text), 1);
    ck_assert_str_eq(text, "Look again on 2026-11-27, a day after the rinse: CJ3. Colour may come back.");
    ck_assert_int_eq(sl_log_due_words(some + 3, 2, RINSED_ON + 1, text, sizeof text), 2);
    ck_assert_str_eq(text, "Look again after the next wash: HP5, CJ3. Colour may come back.");
    ck_assert_int_eq(sl_log_due_words(some, 0, RINSED_ON, text, sizeof text), 0);
}
END_TEST

START_SUITE("due")
ADD(what_was_rinsed_is_looked_at_the_next_day_and_after_the_next_wash)
ADD(a_leftover_that_stands_open_is_emptied)
ADD(ticks_are_notes_that_read_back_and_are_listed_nowhere)
ADD(the_day_of_dyeing_is_the_last_that_was_said)
ADD(a_rehearsal_owes_nothing)
ADD(the_summary_of_a_day_tells_what_is_due_but_not_of_a_rehearsal)
ADD(a_sentence_tells_those_that_are_due_alike)
END_SUITE
