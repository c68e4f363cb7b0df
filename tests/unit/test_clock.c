/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/clock.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/calendar.h"
#include "suite.h"

static const int64_t NS = 1000000000;

/* Seconds of both clocks, and which start of the machine. */
static sl_instant instant(double boot_s, double wall_s, const char *boot_id)
{
    sl_instant at = {(int64_t)(boot_s * 1e9), (int64_t)(wall_s * 1e9), ""};
    snprintf(at.boot_id, sizeof at.boot_id, "%s", boot_id);
    return at;
}

/* A day on which both clocks agree: `s` seconds after its start. */
static sl_instant at_s(double s)
{
    return instant(5000.0 + s, 1.7e9 + s, "one");
}

static void elapsed_is(sl_instant from, sl_instant to, double seconds, sl_clocks clocks)
{
    const sl_elapsed elapsed = sl_elapsed_between(&from, &to);
    ck_assert_double_eq_tol(elapsed.seconds, seconds, 1e-6);
    ck_assert_int_eq(elapsed.clocks, clocks);
}

/* Day numbers are those of date(1): date -u -d 2026-11-25 +%s over 86400. */
START_TEST(a_day_is_not_read_and_written_as_the_calendar_has_it)
{
    static const struct {
        const char *text;
        int day;
    } days[] = {{"1970-01-02", 1},     {"2000-02-29", 11016}, {"2026-11-16", 20773},
                {"2026-11-29", 20786}, {"2100-03-01", 47541}, {"2261-12-31", 106650}};
    static const char *const none[] = {"",           "1970-01-01",  "1969-12-31", "2026-02-29", "2100-02-29",
                                       "2026-13-01", "2026-00-10",  "2026-04-31", "2026-1-01",  "26-11-25",
                                       "2026/11/25", "2026-11-25T", "2026-11-2x", "2026-11-00", "9999-01-01"};
    char text[SL_DAY_TEXT];
    int day = -7;
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        ck_assert(sl_day_read(days[i].text, &day));
        ck_assert_int_eq(day, days[i].day);
        sl_day_words(day, text);
        ck_assert_str_eq(text, days[i].text);
    }
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        ck_assert_msg(!sl_day_read(none[i], &day), "%s", none[i]);
    }
}
END_TEST

START_TEST(today_is_not_that_of_the_machine_unless_a_test_sets_it)
{
    sl_error error = {.code = SL_OK};
    int day = 0;
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-11-29", 1), 0);
    ck_assert(sl_today(&day, &error));
    ck_assert_int_eq(day, 20786);
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "tomorrow", 1), 0);
    ck_assert(!sl_today(&day, &error) && error.code == SL_ERR_USAGE);
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    const int before = (int)(time(NULL) / 86400);
    ck_assert(sl_today(&day, &error));
    ck_assert_int_ge(day, before);
    ck_assert_int_le(day, (int)(time(NULL) / 86400));
}
END_TEST

START_TEST(time_between_is_not_told_in_each_case)
{
    /* both go on */
    elapsed_is(at_s(0.0), at_s(600.0), 600.0, SL_CLOCKS_AGREE);
    /* asleep for ten minutes: both clocks counted it, CLOCK_MONOTONIC would not have */
    elapsed_is(instant(100.0, 1000.0, "a"), instant(1300.0, 2200.0, "a"), 1200.0, SL_CLOCKS_AGREE);
    /* wall clock set forward an hour, then back an hour: the longer counts */
    elapsed_is(instant(100.0, 1000.0, "a"), instant(400.0, 4900.0, "a"), 3900.0, SL_CLOCKS_DISAGREE);
    elapsed_is(instant(100.0, 5000.0, "a"), instant(400.0, 1700.0, "a"), 300.0, SL_CLOCKS_DISAGREE);
    /* started again: wall time spans the gap */
    elapsed_is(instant(9000.0, 1000.0, "a"), instant(40.0, 1700.0, "b"), 700.0, SL_CLOCKS_RESTARTED);
    /* started again with a wall clock that fell back: at least since the start */
    elapsed_is(instant(9000.0, 1000.0, "a"), instant(240.0, 900.0, "b"), 240.0, SL_CLOCKS_RESTARTED);
    /* a machine that tells no start: wall time alone */
    elapsed_is(instant(9000.0, 1000.0, ""), instant(40.0, 1700.0, ""), 700.0, SL_CLOCKS_RESTARTED);
    /* never negative */
    elapsed_is(at_s(10.0), at_s(9.5), 0.0, SL_CLOCKS_AGREE);
    /* a difference of two seconds is drift, not a change */
    elapsed_is(instant(0.0, 0.0, "a"), instant(1000.0, 1001.9, "a"), 1000.0, SL_CLOCKS_AGREE);
}
END_TEST

/* clock_gettime(2): CLOCK_BOOTTIME is never behind CLOCK_MONOTONIC, which stops in suspend. */
START_TEST(the_machine_is_not_asked_for_the_clock_that_goes_on_in_sleep)
{
    sl_instant now;
    struct timespec monotonic;
    ck_assert(sl_instant_now(&now, NULL));
    ck_assert_int_eq(clock_gettime(CLOCK_MONOTONIC, &monotonic), 0);
    ck_assert(now.boot_ns + NS >= (int64_t)monotonic.tv_sec * NS + monotonic.tv_nsec);
    ck_assert(now.wall_ns / NS - (int64_t)time(NULL) <= 1);
    ck_assert_int_eq((int)strlen(now.boot_id), SL_UUID - 1);
    sl_instant later;
    ck_assert(sl_instant_now(&later, NULL));
    ck_assert_int_eq(sl_elapsed_between(&now, &later).clocks, SL_CLOCKS_AGREE);
}
END_TEST

/* ---- the bench --------------------------------------------------------------------------------- */

static const sl_bench_swatch swatches[3] = {
    {.code = "AA2",
     .contact_s = 0,
     .dwell_s = 1800,
     .label_s = 1500,
     .from_mixing = true,
     .mix_age_s = 60,
     .n_looks = 2,
     .look_s = {300, 600}},
    {.code = "CC3", .contact_s = 45, .dwell_s = 1800, .label_s = 0},
    {.code = "DD4", .contact_s = -1}, /* left alone */
};
static sl_event events[40];
static int n_events;
static sl_bench bench;

static sl_event event_of(sl_event_kind kind, int swatch, double s)
{
    sl_event event = {.kind = kind, .swatch = swatch, .at = at_s(s), .reason = SL_REASON_UNSAID};
    snprintf(event.id, sizeof event.id, "event-%d", n_events);
    return event;
}

static void happened(sl_event_kind kind, int swatch, double s)
{
    events[n_events] = event_of(kind, swatch, s);
    n_events++;
    sl_bench_fold(&bench, swatches, 3, events, n_events);
}

static void begin(void)
{
    n_events = 0;
    happened(SL_EVENT_STARTED, -1, 0.0);
}

static const sl_due *due_of(const sl_due *due, int n, sl_event_kind kind, int swatch)
{
    for (int i = 0; i < n; i++) {
        if (due[i].kind == kind && due[i].swatch == swatch) {
            return &due[i];
        }
    }
    return NULL;
}

START_TEST(a_swatch_does_not_have_its_own_time_from_contact_to_water)
{
    sl_on_the_hair on;
    begin();
    happened(SL_EVENT_APPLIED, 0, 10.0);
    happened(SL_EVENT_APPLIED, 1, 70.0);
    const sl_instant now = at_s(610.0);
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on));
    ck_assert_double_eq_tol(on.since.seconds, 600.0, 1e-6);
    /* nobody wrote the mixing down: the planned minute counts against the label */
    ck_assert_double_eq_tol(on.label_left_s, 1500.0 - 60.0 - 600.0, 1e-6);
    ck_assert(sl_bench_on_hair(&bench, 1, &now, &on));
    ck_assert_double_eq_tol(on.since.seconds, 540.0, 1e-6);
    ck_assert(!on.has_label);
    ck_assert(!sl_bench_on_hair(&bench, 2, &now, &on));
    happened(SL_EVENT_RINSED, 1, 1900.0);
    const sl_instant later = at_s(9000.0);
    ck_assert(sl_bench_on_hair(&bench, 1, &later, &on));
    ck_assert_double_eq_tol(on.since.seconds, 1830.0, 1e-6);
    ck_assert_double_eq_tol(on.late_s, 30.0, 1e-6);
}
END_TEST

START_TEST(a_mixing_that_was_written_down_does_not_count_against_the_label)
{
    sl_on_the_hair on;
    begin();
    happened(SL_EVENT_MIXED, 0, 20.0);
    happened(SL_EVENT_APPLIED, 0, 320.0); /* five minutes later */
    const sl_instant now = at_s(420.0);
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on));
    ck_assert_double_eq_tol(on.label_left_s, 1500.0 - 300.0 - 100.0, 1e-6);
}
END_TEST

/* From minute 2 to 3, and at most 5 minutes apart, whatever is done in between (common practice,
 * no source). */
START_TEST(looking_at_skin_is_not_asked_for_in_time)
{
    sl_due due[16];
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    sl_instant now = at_s(60.0);
    int n = sl_bench_due(&bench, &now, due, 16);
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_FELT, 0)->in_s, 60.0, 1e-6);
    happened(SL_EVENT_LOOKED, 0, 100.0);
    happened(SL_EVENT_FELT, 0, 130.0);
    now = at_s(131.0);
    n = sl_bench_due(&bench, &now, due, 16);
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_FELT, 0)->in_s, 299.0, 1e-6);
    now = at_s(500.0);
    n = sl_bench_due(&bench, &now, due, 16);
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_FELT, 0)->in_s, -70.0, 1e-6);
    ck_assert_int_eq(due[0].swatch, 1); /* the planned contact of the other, later still */
    ck_assert_double_eq_tol(due[0].in_s, 45.0 - 500.0, 1e-6);
}
END_TEST

/* Pieces at 5 and 10 min of a ladder, the rest rinsed at 30. */
START_TEST(a_piece_of_a_ladder_is_not_due_at_its_minute)
{
    static const sl_bench_swatch ladder = {
        .code = "AA2", .dwell_s = 1800, .n_looks = 2, .look_s = {300, 600}, .ladder = true};
    sl_due due[16];
    begin();
    events[n_events] = event_of(SL_EVENT_APPLIED, 0, 0.0);
    sl_bench_fold(&bench, &ladder, 1, events, ++n_events);
    sl_instant now = at_s(290.0);
    int n = sl_bench_due(&bench, &now, due, 16);
    ck_assert_int_eq(sl_bench_piece_min(&bench, 0), 5);
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_LOOKED, 0)->in_s, 10.0, 1e-6);
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_FELT, 0)->in_s, -170.0, 1e-6); /* goes on all the same */
    events[n_events] = event_of(SL_EVENT_LOOKED, 0, 305.0);
    sl_bench_fold(&bench, &ladder, 1, events, ++n_events);
    ck_assert_int_eq(sl_bench_piece_min(&bench, 0), 10);
    events[n_events] = event_of(SL_EVENT_UNDONE, 0, 310.0);
    memcpy(events[n_events].about, events[n_events - 1].id, SL_UUID);
    sl_bench_fold(&bench, &ladder, 1, events, ++n_events);
    ck_assert_int_eq(sl_bench_piece_min(&bench, 0), 5);
    for (int i = 0; i < 2; i++) {
        events[n_events] = event_of(SL_EVENT_LOOKED, 0, 320.0 + 300.0 * i);
        sl_bench_fold(&bench, &ladder, 1, events, ++n_events);
    }
    ck_assert(bench.state[0].looked_s[0] == 320 && bench.state[0].looked_s[1] == 620);
    now = at_s(1000.0);
    n = sl_bench_due(&bench, &now, due, 16);
    ck_assert_int_eq(sl_bench_piece_min(&bench, 0), -1);
    ck_assert_ptr_null(due_of(due, n, SL_EVENT_LOOKED, 0));
    ck_assert_double_eq_tol(due_of(due, n, SL_EVENT_RINSED, 0)->in_s, 800.0, 1e-6); /* the last rung */
}
END_TEST

/* Twenty minutes, five of rest, twenty more with a fresh mix whose label says at most 15 from contact. */
START_TEST(a_second_application_is_not_waited_for_or_has_not_its_own_time)
{
    static const sl_bench_swatch twice = {.code = "EE5",
                                          .contact_s = 60,
                                          .dwell_s = 1200,
                                          .n_looks = 1,
                                          .look_s = {600},
                                          .n_more = 1,
                                          .more = {{.after_s = 300, .dwell_s = 1200, .label_s = 900}}};
    sl_due due[8];
    sl_on_the_hair on;
    ck_assert_int_eq(sl_bench_span_s(&twice), 2700);
    ck_assert_int_eq(sl_bench_lying_s(&twice), 2400);
    sl_event day[8];
    int n = 0;
    n_events = 0;
    day[n++] = event_of(SL_EVENT_STARTED, -1, 0.0);
    day[n++] = event_of(SL_EVENT_APPLIED, 0, 60.0);
    day[n++] = event_of(SL_EVENT_LOOKED, 0, 660.0);
    day[n++] = event_of(SL_EVENT_FELT, 0, 661.0);
    day[n++] = event_of(SL_EVENT_RINSED, 0, 1290.0); /* 30 s late */
    sl_bench_fold(&bench, &twice, 1, day, n);
    ck_assert_int_eq(bench.state[0].stage, SL_STAGE_WAITING);
    ck_assert_int_eq(bench.state[0].round, 1);
    ck_assert_double_eq_tol(bench.state[0].lain_s[0], 1230.0, 1e-6);
    sl_instant now = at_s(1390.0);
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 8), 1);
    ck_assert(due[0].kind == SL_EVENT_APPLIED);
    ck_assert_double_eq_tol(due[0].in_s, 200.0, 1e-6); /* 300 s after the water that there was */
    ck_assert(!sl_bench_on_hair(&bench, 0, &now, &on));
    ck_assert_double_eq_tol(sl_bench_course_s(&bench, 0, &now), 1230.0, 1e-6);
    const sl_event again = event_of(SL_EVENT_RINSED, 0, 1391.0),
                   fresh = event_of(SL_EVENT_APPLIED, 0, 1600.0);
    ck_assert(!sl_bench_takes(&bench, NULL, &again) && sl_bench_takes(&bench, NULL, &fresh));
    day[n++] = fresh;
    sl_bench_fold(&bench, &twice, 1, day, n);
    now = at_s(1700.0);
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on));
    ck_assert_double_eq_tol(on.since.seconds, 100.0, 1e-6);
    ck_assert_double_eq_tol(on.label_left_s, 800.0, 1e-6);
    ck_assert_double_eq_tol(sl_bench_course_s(&bench, 0, &now), 1600.0, 1e-6);
    const int n_due = sl_bench_due(&bench, &now, due, 8);
    const sl_due *const rinse = due_of(due, n_due, SL_EVENT_RINSED, 0);
    ck_assert(rinse && rinse->by_label);
    ck_assert_double_eq_tol(rinse->in_s, 800.0, 1e-6);
    ck_assert_double_eq_tol(due_of(due, n_due, SL_EVENT_FELT, 0)->in_s, 20.0, 1e-6);
    ck_assert_ptr_nonnull(due_of(due, n_due, SL_EVENT_LOOKED, 0)); /* looks begin anew */
    day[n++] = event_of(SL_EVENT_RINSED, 0, 2600.0);
    sl_bench_fold(&bench, &twice, 1, day, n);
    ck_assert_int_eq(bench.state[0].stage, SL_STAGE_RINSED);
    ck_assert(bench.state[0].over_label);
    ck_assert_double_eq_tol(bench.state[0].lain_s[1], 1000.0, 1e-6);
    day[n - 1] = event_of(SL_EVENT_STOPPED, -1, 1700.0);
    day[1] = event_of(SL_EVENT_APPLIED, 0, 60.0);
    sl_bench_fold(&bench, &twice, 1, day, 2);
    ck_assert_int_eq(bench.state[0].stage, SL_STAGE_ON_HAIR);
    day[2] = event_of(SL_EVENT_STOPPED, -1, 600.0);
    sl_bench_fold(&bench, &twice, 1, day, 3);
    ck_assert(bench.state[0].stage == SL_STAGE_RINSED && bench.state[0].stopped); /* nothing follows a stop */
}
END_TEST

START_TEST(the_label_does_not_come_before_a_longer_plan)
{
    sl_due due[16];
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    const sl_instant now = at_s(1400.0);
    const int n = sl_bench_due(&bench, &now, due, 16);
    const sl_due *const rinse = due_of(due, n, SL_EVENT_RINSED, 0);
    ck_assert(rinse->by_label);
    ck_assert_double_eq_tol(rinse->in_s, 1500.0 - 60.0 - 1400.0, 1e-6);
    ck_assert_ptr_null(due_of(due, n, SL_EVENT_APPLIED, 2)); /* left alone */
}
END_TEST

START_TEST(only_so_many_dues_are_not_kept_soonest_first)
{
    sl_due due[2];
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_APPLIED, 1, 45.0);
    const sl_instant now = at_s(50.0);
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 2), 2);
    ck_assert(due[0].kind == SL_EVENT_FELT && due[0].swatch == 0);
    ck_assert(due[1].kind == SL_EVENT_FELT && due[1].swatch == 1);
}
END_TEST

START_TEST(stop_asks_or_waits)
{
    double runs = 0.0, least = 0.0;
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_APPLIED, 1, 0.1);
    const sl_event stop = event_of(SL_EVENT_STOPPED, -1, 0.2);
    ck_assert(sl_bench_takes(&bench, &events[n_events - 1], &stop));
    happened(SL_EVENT_STOPPED, -1, 200.0);
    ck_assert(sl_bench_takes(&bench, &events[n_events - 1], &stop)); /* and again */
    ck_assert(bench.state[0].stage == SL_STAGE_RINSED && bench.state[0].stopped);
    ck_assert(bench.state[1].stage == SL_STAGE_RINSED);
    ck_assert(bench.state[2].stage == SL_STAGE_WAITING); /* nothing was on it */
    sl_instant now = at_s(320.0);
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq_tol(runs, 120.0, 1e-6);
    ck_assert_double_eq(least, 0.0);
    events[n_events] = event_of(SL_EVENT_STOPPED, -1, 330.0); /* why, once there is time to say */
    events[n_events].reason = SL_REASON_EYES;
    memcpy(events[n_events].about, events[n_events - 1].id, SL_UUID);
    n_events++;
    sl_bench_fold(&bench, swatches, 3, events, n_events);
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq_tol(runs, 120.0, 1e-6); /* counted from the stop, not from the reason */
    ck_assert_double_eq(least, 900.0);
    happened(SL_EVENT_WASHED_OUT, -1, 1200.0);
    ck_assert(!sl_bench_stop_water(&bench, &now, &runs, &least));
}
END_TEST

static void reason_told(int stop, sl_stop_reason reason, double s)
{
    events[n_events] = event_of(SL_EVENT_STOPPED, events[stop].swatch, s);
    events[n_events].reason = reason;
    memcpy(events[n_events].about, events[stop].id, SL_UUID);
    n_events++;
    sl_bench_fold(&bench, swatches, 3, events, n_events);
}

/* Two people stop, one for an eye: its 15 minutes of water go on, and stay asked for until it is off. */
START_TEST(another_stop_cuts_the_water_of_an_eye_or_begins_it_anew)
{
    double runs = 0.0, least = 0.0;
    const sl_instant now = at_s(320.0);
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_STOPPED, 0, 200.0);
    const int eye = n_events - 1;
    reason_told(eye, SL_REASON_EYES, 210.0);
    happened(SL_EVENT_STOPPED, -1, 220.0);
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq(least, 900.0);
    ck_assert_double_eq_tol(runs, 120.0, 1e-6); /* of the eye's stop */
    const int other = n_events - 1;
    reason_told(other, SL_REASON_SKIN, 230.0);
    ck_assert_int_eq(bench.stop_reason, SL_REASON_EYES);
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq_tol(runs, 120.0, 1e-6);
    reason_told(other, SL_REASON_EYES, 235.0); /* a second eye: the later of the two, the longer water */
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq_tol(runs, 100.0, 1e-6);
    reason_told(other, SL_REASON_SKIN, 236.0);
    reason_told(eye, SL_REASON_EYES, 237.0);
    reason_told(eye, SL_REASON_MISTAKE, 240.0); /* the wrong key: told anew of the same stop */
    ck_assert(sl_bench_stop_water(&bench, &now, &runs, &least));
    ck_assert_double_eq(least, 0.0);
    reason_told(eye, SL_REASON_EYES, 250.0);
    happened(SL_EVENT_WASHED_OUT, -1, 1200.0);
    happened(SL_EVENT_STOPPED, -1, 1300.0);
    ck_assert_int_eq(bench.stop_reason, SL_REASON_UNSAID);
}
END_TEST

START_TEST(something_beside_an_eye_calls_that_is_no_persons_hair)
{
    static const sl_bench_swatch mixed[3] = {
        {.code = "AA1", .contact_s = 0, .dwell_s = 1800, .label_s = 600},
        {.code = "BB2", .contact_s = 0, .dwell_s = 1800, .label_s = 600, .on_person = true},
        {.code = "CC3", .contact_s = 0, .dwell_s = 60, .on_person = true}};
    const sl_event all[] = {
        {.id = "s", .kind = SL_EVENT_STARTED, .swatch = -1, .at = at_s(0.0)},
        {.id = "1", .kind = SL_EVENT_APPLIED, .swatch = 0, .at = at_s(0.0)},
        {.id = "2", .kind = SL_EVENT_APPLIED, .swatch = 1, .at = at_s(0.0)},
        {.id = "3", .kind = SL_EVENT_STOPPED, .swatch = 2, .at = at_s(500.0), .reason = SL_REASON_UNSAID},
        {.id = "4",
         .kind = SL_EVENT_STOPPED,
         .swatch = 2,
         .at = at_s(501.0),
         .reason = SL_REASON_EYES,
         .about = "3"},
        {.id = "5", .kind = SL_EVENT_WASHED_OUT, .swatch = -1, .at = at_s(1500.0)}};
    static sl_bench eye;
    const sl_instant before = at_s(595.0), after = at_s(605.0);
    const char *code[1] = {NULL};
    for (int n = 4; n <= 6; n++) { /* before the reason, while water runs, after it */
        const bool runs = n == 5;
        sl_bench_fold(&eye, mixed, 3, all, n);
        ck_assert(sl_bench_eye(&eye) == runs);
        for (int swatch = 0; swatch < 2; swatch++) {
            const sl_due rinse = {.kind = SL_EVENT_RINSED, .swatch = swatch, .in_s = -1.0},
                         look = {.kind = SL_EVENT_LOOKED, .swatch = swatch, .in_s = -1.0};
            ck_assert(sl_bench_calls(&eye, &look, &after) == !runs);
            ck_assert(sl_bench_calls(&eye, &rinse, &before) == !runs);
            ck_assert(sl_bench_calls(&eye, &rinse, &after) == (!runs || swatch == 1));
        }
        ck_assert_int_eq(sl_bench_on_persons(&eye, code, 1), 1);
        ck_assert_str_eq(code[0], "BB2");
    }
}
END_TEST

START_TEST(what_another_program_did_or_what_lies_before_a_stop_is_undone)
{
    begin();
    ck_assert_ptr_eq(sl_bench_to_undo(events, n_events), &events[0]); /* the start, as long as nothing lies */
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_APPLIED, 1, 10.0);
    events[n_events - 1].elsewhere = true;
    ck_assert_ptr_eq(sl_bench_to_undo(events, n_events), &events[n_events - 2]);
    events[n_events] = event_of(SL_EVENT_UNDONE, 0, 20.0);
    memcpy(events[n_events].about, events[n_events - 2].id, SL_UUID);
    n_events++;
    ck_assert_ptr_null(sl_bench_to_undo(events, n_events));
    happened(SL_EVENT_APPLIED, 0, 30.0);
    happened(SL_EVENT_STOPPED, -1, 40.0);
    ck_assert_ptr_null(sl_bench_to_undo(events, n_events));
    happened(SL_EVENT_NOTED, 0, 50.0);
    ck_assert_ptr_eq(sl_bench_to_undo(events, n_events), &events[n_events - 1]);
}
END_TEST

static void undo(sl_remark remark, const char *id, double s)
{
    events[n_events] = event_of(SL_EVENT_UNDONE, 0, s);
    events[n_events].remark = remark;
    memcpy(events[n_events++].about, id, SL_UUID);
    sl_bench_fold(&bench, swatches, 3, events, n_events);
}

/* The clock of a contact that was undone runs until the hair is said to be clean; an older log let it go. */
START_TEST(an_undone_contact_is_off_the_hair)
{
    const sl_instant now = at_s(600.0);
    sl_on_the_hair on;
    char contact[SL_UUID];
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    memcpy(contact, events[n_events - 1].id, SL_UUID);
    undo(SL_REMARK_NONE, contact, 10.0);
    ck_assert(bench.state[0].stage == SL_STAGE_WAITING && !bench.state[0].doubted);
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    memcpy(contact, events[n_events - 1].id, SL_UUID);
    undo(SL_REMARK_UNCLEAN, contact, 10.0);
    ck_assert(bench.state[0].stage == SL_STAGE_ON_HAIR && bench.state[0].doubted);
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on));
    ck_assert_double_eq_tol(on.since.seconds, 600.0, 1e-6);
    ck_assert_ptr_eq(sl_bench_doubted(events, n_events, 0), &events[1]);
    ck_assert_ptr_null(sl_bench_doubted(events, n_events, 1));
    events[n_events] = event_of(SL_EVENT_NOTED, 0, 20.0);
    events[n_events].remark = SL_REMARK_CLEAN;
    memcpy(events[n_events++].about, contact, SL_UUID);
    sl_bench_fold(&bench, swatches, 3, events, n_events);
    ck_assert(bench.state[0].stage == SL_STAGE_WAITING && !bench.state[0].doubted);
    ck_assert_ptr_null(sl_bench_doubted(events, n_events, 0));
    undo(SL_REMARK_NONE, events[n_events - 1].id, 30.0); /* it was not clean */
    ck_assert(bench.state[0].stage == SL_STAGE_ON_HAIR && bench.state[0].doubted);
    happened(SL_EVENT_RINSED, 0, 40.0);
    ck_assert(bench.state[0].stage == SL_STAGE_RINSED && !bench.state[0].doubted);
}
END_TEST

/* Where the label counts from mixing, that is due so long before contact as the mix is planned to be old. */
START_TEST(mixing_is_never_asked_for)
{
    static const sl_bench_swatch from[2] = {
        {.code = "AA2",
         .contact_s = 300,
         .dwell_s = 600,
         .label_s = 900,
         .from_mixing = true,
         .mix_age_s = 60},
        {.code = "BB3", .contact_s = 300, .dwell_s = 600, .label_s = 900, .mix_age_s = 60}};
    const sl_instant now = at_s(100.0);
    sl_due due[8];
    begin();
    sl_bench_fold(&bench, from, 2, events, n_events);
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 8), 3);
    ck_assert(due[0].kind == SL_EVENT_MIXED && due[0].swatch == 0);
    ck_assert_double_eq_tol(due[0].in_s, 140.0, 1e-6);
    events[n_events] = event_of(SL_EVENT_MIXED, 0, 90.0);
    sl_bench_fold(&bench, from, 2, events, n_events + 1);
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 8), 2);
    ck_assert(due[0].kind == SL_EVENT_APPLIED && due[1].kind == SL_EVENT_APPLIED);
}
END_TEST

/* Left open while the mix lies, emptied once it is rinsed off; never late, never calling. */
START_TEST(a_leftover_is_forgotten)
{
    static const sl_bench_swatch bowls[2] = {
        {.code = "AA2", .contact_s = 0, .dwell_s = 600, .leaves_mix = true},
        {.code = "BB3", .contact_s = 0, .dwell_s = 600}};
    static const sl_remark order[] = {SL_REMARK_NONE, SL_REMARK_LEFT_OPEN, SL_REMARK_NONE, SL_REMARK_EMPTIED,
                                      SL_REMARK_NONE};
    begin();
    for (int step = 0; step < 5; step++) {
        const sl_instant now = at_s(3000.0);
        sl_due due[16];
        int n_left = 0;
        if (step == 1 || step == 3) {
            events[n_events++] = event_of(step == 1 ? SL_EVENT_APPLIED : SL_EVENT_RINSED, 0, 100.0 * step);
        } else if (step > 0) {
            events[n_events] = event_of(SL_EVENT_NOTED, 0, 100.0 * step);
            events[n_events++].remark = order[step - 1];
        }
        sl_bench_fold(&bench, bowls, 2, events, n_events);
        ck_assert_int_eq(sl_bench_leftover(&bench, 0), order[step]);
        ck_assert_int_eq(sl_bench_leftover(&bench, 1), SL_REMARK_NONE);
        const int n = sl_bench_due(&bench, &now, due, 16);
        for (int i = 0; i < n; i++) {
            n_left += due[i].kind == SL_EVENT_NOTED ? 1 : 0;
            ck_assert(due[i].kind != SL_EVENT_NOTED || (due[i].remark == order[step] && due[i].in_s >= 0.0 &&
                                                        !sl_bench_calls(&bench, &due[i], &now)));
        }
        ck_assert_int_eq(n_left, order[step] != SL_REMARK_NONE ? 1 : 0);
    }
}
END_TEST

START_TEST(what_was_undone_leaves_a_trace)
{
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_RINSED, 0, 100.0);
    events[n_events] = event_of(SL_EVENT_UNDONE, 0, 110.0);
    memcpy(events[n_events].about, events[n_events - 1].id, SL_UUID);
    n_events++;
    sl_bench_fold(&bench, swatches, 3, events, n_events);
    ck_assert(bench.state[0].stage == SL_STAGE_ON_HAIR);
    ck_assert_double_eq_tol(sl_elapsed_between(&bench.state[0].contact, &events[n_events - 1].at).seconds,
                            110.0, 1e-6);
    happened(SL_EVENT_STOPPED, -1, 150.0);
    events[n_events] = event_of(SL_EVENT_UNDONE, -1, 160.0);
    memcpy(events[n_events].about, events[n_events - 1].id, SL_UUID);
    n_events++;
    sl_bench_fold(&bench, swatches, 3, events, n_events);
    ck_assert(bench.state[0].stage == SL_STAGE_RINSED); /* a stop stays */
}
END_TEST

START_TEST(a_key_that_bounces_is_taken_twice)
{
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_LOOKED, 0, 300.0);
    sl_event next = event_of(SL_EVENT_LOOKED, 0, 300.4);
    ck_assert(!sl_bench_takes(&bench, &events[n_events - 1], &next));
    next = event_of(SL_EVENT_LOOKED, 0, 301.0);
    ck_assert(sl_bench_takes(&bench, &events[n_events - 1], &next));
    next = event_of(SL_EVENT_RINSED, 0, 300.4); /* another key is another matter */
    ck_assert(sl_bench_takes(&bench, &events[n_events - 1], &next));
    next = event_of(SL_EVENT_RINSED, 1, 400.0); /* not on the hair yet */
    ck_assert(!sl_bench_takes(&bench, &events[n_events - 1], &next));
    next = event_of(SL_EVENT_APPLIED, 0, 400.0); /* already on */
    ck_assert(!sl_bench_takes(&bench, &events[n_events - 1], &next));
    next = event_of(SL_EVENT_APPLIED, 2, 400.0); /* never */
    ck_assert(!sl_bench_takes(&bench, &events[n_events - 1], &next));
}
END_TEST

START_TEST(folding_again_gives_another_bench)
{
    static sl_bench again;
    begin();
    happened(SL_EVENT_SOUND_HEARD, -1, 1.0);
    happened(SL_EVENT_MIXED, 0, 2.0);
    happened(SL_EVENT_APPLIED, 0, 60.0);
    happened(SL_EVENT_FELT, 0, 190.0);
    for (int i = 0; i < 3; i++) {
        sl_bench_fold(&again, swatches, 3, events, n_events);
        ck_assert_mem_eq(&again, &bench, sizeof bench);
    }
    ck_assert(again.sound_tried && again.sound_heard && again.started);
}
END_TEST

/* ---- at the very second --------------------------------------------------------------------------- */

/* Two seconds apart are drift still; the next nanosecond is not. */
START_TEST(clocks_two_seconds_apart_still_agree)
{
    const sl_instant from = instant(100.0, 1000.0, "a");
    for (int sign = -1; sign <= 1; sign += 2) {
        sl_instant to = instant(200.0, 1100.0 + 2.0 * sign, "a");
        ck_assert_int_eq(sl_elapsed_between(&from, &to).clocks, SL_CLOCKS_AGREE);
        ck_assert_double_eq(sl_elapsed_between(&from, &to).seconds, 100.0);
        to.wall_ns += 1000 * sign;
        ck_assert_int_eq(sl_elapsed_between(&from, &to).clocks, SL_CLOCKS_DISAGREE);
        ck_assert_double_eq_tol(sl_elapsed_between(&from, &to).seconds, sign > 0 ? 102.000001 : 100.0, 1e-9);
    }
}
END_TEST

/* Three applications of their own, by hand: contact to contact and to the last water, and time under mixes
 * alone. */
START_TEST(three_applications_follow_one_another_as_planned)
{
    static const sl_bench_swatch thrice = {
        .contact_s = 60,
        .dwell_s = 600,
        .label_s = 700,
        .mix_age_s = 30,
        .from_mixing = true,
        .n_more = 2,
        .more = {{.after_s = 100, .dwell_s = 500, .label_s = 900, .mix_age_s = 40},
                 {.after_s = 200, .dwell_s = 400, .from_mixing = true},
                 {.after_s = 999, .dwell_s = 999}}};
    ck_assert_int_eq(sl_bench_round_from_s(&thrice, 0), 0);
    ck_assert_int_eq(sl_bench_round_from_s(&thrice, 1), 700);
    ck_assert_int_eq(sl_bench_round_from_s(&thrice, 2), 1400);
    ck_assert_int_eq(sl_bench_span_s(&thrice), 1800);
    ck_assert_int_eq(sl_bench_lying_s(&thrice), 1500);
    static const sl_bench_round wanted[] = {{60, 600, 700, 30, true},
                                            {100, 500, 900, 40, false},
                                            {200, 400, 0, 0, true},
                                            {60, 600, 700, 30, true}};
    for (int round = 0; round < 4; round++) {
        const sl_bench_round got = sl_bench_round_of(&thrice, round);
        ck_assert_int_eq(got.after_s, wanted[round].after_s);
        ck_assert_int_eq(got.dwell_s, wanted[round].dwell_s);
        ck_assert_int_eq(got.label_s, wanted[round].label_s);
        ck_assert_int_eq(got.mix_age_s, wanted[round].mix_age_s);
        ck_assert_int_eq(got.from_mixing, wanted[round].from_mixing);
    }
}
END_TEST

/* A label that is used up to its last second was kept; a second more was not. At that second it is due, and
 * between a plan and a label of the same length the plan is named. */
START_TEST(a_label_is_kept_to_its_last_second)
{
    static sl_bench_swatch one = {.code = "AA1", .dwell_s = 900, .label_s = 600};
    for (int late = 0; late < 2; late++) {
        n_events = 0;
        events[n_events] = event_of(SL_EVENT_STARTED, -1, 0.0);
        n_events++;
        events[n_events] = event_of(SL_EVENT_APPLIED, 0, 0.0);
        n_events++;
        events[n_events] = event_of(SL_EVENT_RINSED, 0, 600.0 + late);
        n_events++;
        sl_bench_fold(&bench, &one, 1, events, n_events);
        ck_assert_int_eq(bench.state[0].over_label, late);
    }
    sl_due due[4];
    sl_on_the_hair on;
    const sl_instant now = at_s(600.0);
    sl_bench_fold(&bench, &one, 1, events, 2);
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on) && on.has_label);
    ck_assert_double_eq(on.label_left_s, 0.0);
    ck_assert_double_eq(on.late_s, -300.0);
    const sl_due *rinse = due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_RINSED, 0);
    ck_assert(rinse && rinse->by_label && rinse->in_s <= 0.0);
    one.dwell_s = 600;
    rinse = due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_RINSED, 0);
    ck_assert(rinse && !rinse->by_label);
    one.on_person = true;
    bench.stopping = true;
    bench.stop_reason = SL_REASON_EYES;
    ck_assert(sl_bench_calls(&bench, rinse, &now)); /* beside an eye, from that second on */
    const sl_instant before = at_s(599.9);
    ck_assert(!sl_bench_calls(&bench, rinse, &before));
    one.label_s = 0;
    ck_assert(sl_bench_on_hair(&bench, 0, &now, &on) && !on.has_label);
    ck_assert(!sl_bench_calls(&bench, rinse, &now));
    one = (sl_bench_swatch){.code = "AA1", .dwell_s = 900, .label_s = 600};
}
END_TEST

/* A bounce is the same key for the same swatch within seven tenths of a second. */
START_TEST(a_key_counts_again_after_seven_tenths_of_a_second)
{
    begin();
    happened(SL_EVENT_APPLIED, 0, 0.0);
    happened(SL_EVENT_APPLIED, 1, 1.0);
    happened(SL_EVENT_LOOKED, 0, 300.0);
    const sl_event *const last = &events[n_events - 1];
    sl_event next = event_of(SL_EVENT_LOOKED, 0, 0.0);
    next.at = last->at;
    next.at.boot_ns += 700000000 - 1000;
    next.at.wall_ns = last->at.wall_ns + 700000000 - 1000;
    ck_assert(!sl_bench_takes(&bench, last, &next));
    ck_assert(sl_bench_takes(&bench, NULL, &next));
    next.at.boot_ns += 1000;
    next.at.wall_ns += 1000;
    ck_assert(sl_bench_takes(&bench, last, &next));
    next = event_of(SL_EVENT_LOOKED, 1, 300.1); /* of another swatch */
    ck_assert(sl_bench_takes(&bench, last, &next));
    happened(SL_EVENT_NOTED, 0, 301.0); /* notes may follow at once */
    next = event_of(SL_EVENT_NOTED, 0, 301.1);
    ck_assert(sl_bench_takes(&bench, &events[n_events - 1], &next));
}
END_TEST

/* What is due, at any size of the list: the soonest, in order, ties as they stand on the bench. */
START_TEST(the_soonest_are_kept_whatever_the_room)
{
    static const sl_bench_swatch five[] = {{.code = "AA1", .contact_s = 50},
                                           {.code = "BB2", .contact_s = 20},
                                           {.code = "CC3", .contact_s = 70},
                                           {.code = "DD4", .contact_s = 20},
                                           {.code = "EE5", .contact_s = 10}};
    static const int order[] = {4, 1, 3, 0, 2};
    n_events = 0;
    events[n_events] = event_of(SL_EVENT_STARTED, -1, 0.0);
    n_events++;
    sl_bench_fold(&bench, five, 5, events, n_events);
    const sl_instant now = at_s(30.0);
    for (int room = 0; room <= 7; room++) {
        sl_due due[7];
        const int n = sl_bench_due(&bench, &now, due, room);
        ck_assert_int_eq(n, room < 5 ? room : 5);
        for (int i = 0; i < n; i++) {
            ck_assert_int_eq(due[i].swatch, order[i]);
            ck_assert_double_eq_tol(due[i].in_s, five[order[i]].contact_s - 30.0, 1e-6);
            ck_assert_int_eq(due[i].kind, SL_EVENT_APPLIED);
        }
    }
    sl_bench_fold(&bench, five, 5, events, 0); /* before the day begins nothing is due */
    sl_due due[7];
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 7), 0);
}
END_TEST

/* In a second application looks are due that come before it is off; the first keeps all that were planned. */
START_TEST(looks_of_a_second_application_end_with_it)
{
    static sl_bench_swatch twice = {.code = "AA1",
                                    .dwell_s = 300,
                                    .n_looks = 2,
                                    .look_s = {200, 400},
                                    .n_more = 1,
                                    .more = {{.after_s = 60, .dwell_s = 400}}};
    n_events = 0;
    events[n_events] = event_of(SL_EVENT_APPLIED, 0, 0.0);
    n_events++;
    events[n_events] = event_of(SL_EVENT_LOOKED, 0, 200.0);
    n_events++;
    sl_bench_fold(&bench, &twice, 1, events, n_events);
    sl_due due[4];
    sl_instant now = at_s(210.0);
    const sl_due *look = due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_LOOKED, 0);
    ck_assert(look && look->in_s > 189.9); /* though it comes after the plan's water */
    events[n_events] = event_of(SL_EVENT_RINSED, 0, 300.0);
    n_events++;
    events[n_events] = event_of(SL_EVENT_APPLIED, 0, 360.0);
    n_events++;
    sl_bench_fold(&bench, &twice, 1, events, n_events);
    now = at_s(370.0);
    look = due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_LOOKED, 0);
    ck_assert(look && look->in_s > 189.9);
    events[n_events] = event_of(SL_EVENT_LOOKED, 0, 560.0);
    n_events++;
    sl_bench_fold(&bench, &twice, 1, events, n_events);
    ck_assert_ptr_null(
        due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_LOOKED, 0)); /* at 400 it is off */
    twice.more[0].dwell_s = 401;
    ck_assert_ptr_nonnull(due_of(due, sl_bench_due(&bench, &now, due, 4), SL_EVENT_LOOKED, 0));
    twice.more[0].dwell_s = 400;
}
END_TEST

/* A day begins at its midnight and ends a nanosecond before the next, by the place's own clock. */
START_TEST(a_day_begins_at_its_midnight)
{
    static const struct {
        const char *zone;
        int64_t ahead_s;
    } zones[] = {
        {"UTC", 0}, {"XXX-2", 7200}, {"XXX+5", -18000}}; /* POSIX: the sign is what to add to get UTC */
    for (size_t z = 0; z < sizeof zones / sizeof zones[0]; z++) {
        ck_assert_int_eq(setenv("TZ", zones[z].zone, 1), 0);
        tzset();
        for (int day = 20700; day < 20800; day += 33) {
            sl_instant at = {0, ((int64_t)day * 86400 - zones[z].ahead_s) * NS, ""};
            ck_assert_int_eq(sl_day_of_instant(&at), day);
            at.wall_ns--;
            ck_assert_int_eq(sl_day_of_instant(&at), day - 1);
            at.wall_ns += 86400 * NS;
            ck_assert_int_eq(sl_day_of_instant(&at), day);
        }
    }
}
END_TEST

START_SUITE("clock")
ADD(a_day_is_not_read_and_written_as_the_calendar_has_it)
ADD(today_is_not_that_of_the_machine_unless_a_test_sets_it)
ADD(time_between_is_not_told_in_each_case)
ADD(the_machine_is_not_asked_for_the_clock_that_goes_on_in_sleep)
ADD(a_swatch_does_not_have_its_own_time_from_contact_to_water)
ADD(a_mixing_that_was_written_down_does_not_count_against_the_label)
ADD(looking_at_skin_is_not_asked_for_in_time)
ADD(a_piece_of_a_ladder_is_not_due_at_its_minute)
ADD(a_second_application_is_not_waited_for_or_has_not_its_own_time)
ADD(the_label_does_not_come_before_a_longer_plan)
ADD(only_so_many_dues_are_not_kept_soonest_first)
ADD(stop_asks_or_waits)
ADD(another_stop_cuts_the_water_of_an_eye_or_begins_it_anew)
ADD(something_beside_an_eye_calls_that_is_no_persons_hair)
ADD(what_another_program_did_or_what_lies_before_a_stop_is_undone)
ADD(what_was_undone_leaves_a_trace)
ADD(an_undone_contact_is_off_the_hair)
ADD(mixing_is_never_asked_for)
ADD(a_leftover_is_forgotten)
ADD(a_key_that_bounces_is_taken_twice)
ADD(folding_again_gives_another_bench)
ADD(clocks_two_seconds_apart_still_agree)
ADD(three_applications_follow_one_another_as_planned)
ADD(a_label_is_kept_to_its_last_second)
ADD(a_key_counts_again_after_seven_tenths_of_a_second)
ADD(the_soonest_are_kept_whatever_the_room)
ADD(looks_of_a_second_application_end_with_it)
ADD(a_day_begins_at_its_midnight)
END_SUITE
