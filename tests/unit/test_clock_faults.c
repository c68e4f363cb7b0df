/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Clocks that the system does not tell, and what may follow what. The linker sends the clocks and the
 * identity of this start of the machine through here.
 */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "clock/speed.h"
#include "suite.h"

static clockid_t refused = -1;
static bool no_calendar;
static ssize_t boot_id_bytes = -2; /* -2: as it is */

int __real_clock_gettime(clockid_t clock, struct timespec *at);
int __wrap_clock_gettime(clockid_t clock, struct timespec *at);
struct tm *__real_localtime_r(const time_t *at, struct tm *local);
struct tm *__wrap_localtime_r(const time_t *at, struct tm *local);
ssize_t __real_read(int file, void *bytes, size_t size);
ssize_t __wrap_read(int file, void *bytes, size_t size);
int __wrap_open(const char *path, int flags, ...);
static bool no_boot_id_file;
int __real_open(const char *path, int flags, ...);

int __wrap_clock_gettime(clockid_t clock, struct timespec *at)
{
    if (clock == refused) {
        errno = EINVAL;
        return -1;
    }
    return __real_clock_gettime(clock, at);
}

struct tm *__wrap_localtime_r(const time_t *at, struct tm *local)
{
    return no_calendar ? NULL : __real_localtime_r(at, local);
}

ssize_t __wrap_read(int file, void *bytes, size_t size)
{
    const ssize_t got = __real_read(file, bytes, size);
    return boot_id_bytes == -2 ? got : boot_id_bytes;
}

int __wrap_open(const char *path, int flags, ...)
{
    return no_boot_id_file ? -1 : __real_open(path, flags);
}

/* ---- the system's clocks ------------------------------------------------------------------------ */

static void clock_is_missed(clockid_t clock)
{
    sl_instant now;
    sl_error error = {.code = SL_OK};
    int day = 0;
    refused = clock;
    ck_assert(!sl_instant_now(&now, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
    ck_assert_ptr_nonnull(strstr(error.found, "CLOCK_BOOTTIME"));
    ck_assert_str_eq(error.wanted, strerror(EINVAL));
    ck_assert(!sl_today(&day, NULL));
    sl_day_clock clock_of_day;
    ck_assert(!sl_day_clock_start(&clock_of_day, 1.0, 0, NULL));
    refused = -1;
    ck_assert(sl_day_clock_start(&clock_of_day, 1.0, 0, NULL));
    refused = clock;
    ck_assert(!sl_day_clock_now(&clock_of_day, &now, NULL));
    refused = -1;
}

START_TEST(a_machine_without_one_of_the_clocks_is_told_so)
{
    ck_assert_int_eq(unsetenv("SLOWLIFT_TODAY"), 0);
    clock_is_missed(CLOCK_BOOTTIME);
    clock_is_missed(CLOCK_REALTIME);
}
END_TEST

START_TEST(without_an_identity_of_this_start_only_wall_time_counts)
{
    sl_instant before, now;
    for (int i = 0; i < 3; i++) {
        boot_id_bytes = i == 0 ? -1 : i == 1 ? 7 : -2; /* not readable; cut short */
        no_boot_id_file = i == 2;
        ck_assert(sl_instant_now(&before, NULL));
        ck_assert_str_eq(before.boot_id, "");
        now = before;
        now.wall_ns += 60 * INT64_C(1000000000);
        now.boot_ns += 90 * INT64_C(1000000000);
        const sl_elapsed elapsed = sl_elapsed_between(&before, &now);
        ck_assert_double_eq_tol(elapsed.seconds, 60.0, 1e-9);
        ck_assert_int_eq(elapsed.clocks, SL_CLOCKS_RESTARTED);
    }
    no_boot_id_file = false;
    ck_assert(sl_instant_now(&before, NULL));
    ck_assert_uint_eq(strlen(before.boot_id), SL_UUID - 1);
}
END_TEST

START_TEST(an_instant_that_no_calendar_holds_is_no_day)
{
    sl_instant now;
    ck_assert(sl_instant_now(&now, NULL));
    ck_assert_int_gt(sl_day_of_instant(&now), 20000);
    no_calendar = true;
    ck_assert_int_eq(sl_day_of_instant(&now), 0);
    no_calendar = false;
}
END_TEST

/* ---- a rehearsal's clock --------------------------------------------------------------------------- */

START_TEST(both_clocks_of_a_rehearsal_run_alike_from_its_beginning)
{
    sl_instant begun, now, later;
    sl_day_clock clock;
    ck_assert(sl_instant_now(&begun, NULL));
    ck_assert(sl_day_clock_start(&clock, 60.0, begun.wall_ns, NULL));
    ck_assert(sl_day_clock_now(&clock, &now, NULL));
    ck_assert(sl_day_clock_now(&clock, &later, NULL));
    ck_assert_int_ge(now.wall_ns,
                     begun.wall_ns - 60 * INT64_C(1000000000)); /* the two were not read at once */
    ck_assert_int_ge(now.boot_ns, 60 * begun.boot_ns);
    ck_assert(llabs((later.wall_ns - now.wall_ns) - (later.boot_ns - now.boot_ns)) < 1000); /* rounding */
    clock.speed = 1.0;
    ck_assert(sl_day_clock_now(&clock, &now, NULL));
    ck_assert_int_ge(now.boot_ns, begun.boot_ns);
    ck_assert_int_lt(now.boot_ns, 60 * begun.boot_ns); /* as the machine says it */
}
END_TEST

/* ---- what may follow ------------------------------------------------------------------------------- */

enum { FREE_ONE, ON_ONE, RINSED_ONE, LEFT_ALONE, SWATCHES };
static const sl_bench_swatch swatches[SWATCHES] = {
    {.code = "AA1", .contact_s = 0, .dwell_s = 1800, .label_s = 600, .n_looks = 1, .look_s = {300}},
    {.code = "BB2", .contact_s = 0, .dwell_s = 1800, .on_person = true},
    {.code = "CC3", .contact_s = 0, .dwell_s = 1800},
    {.code = "DD4", .contact_s = -1}};
static sl_event events[40];
static int n_events;
static sl_bench bench;

static sl_event event_of(sl_event_kind kind, int swatch, double s)
{
    sl_event event = {.kind = kind, .swatch = swatch, .reason = SL_REASON_UNSAID};
    event.at = (sl_instant){(int64_t)((5000.0 + s) * 1e9), (int64_t)((1.7e9 + s) * 1e9), "one"};
    snprintf(event.id, sizeof event.id, "event-%d", n_events);
    return event;
}

static void happened(sl_event_kind kind, int swatch, double s)
{
    events[n_events] = event_of(kind, swatch, s);
    n_events++;
    sl_bench_fold(&bench, swatches, SWATCHES, events, n_events);
}

static void begin(void)
{
    n_events = 0;
    happened(SL_EVENT_STARTED, -1, 0.0);
    happened(SL_EVENT_APPLIED, ON_ONE, 1.0);
    happened(SL_EVENT_APPLIED, RINSED_ONE, 2.0);
    happened(SL_EVENT_RINSED, RINSED_ONE, 3.0);
}

static bool takes(sl_event_kind kind, int swatch)
{
    const sl_event next = event_of(kind, swatch, 100.0);
    return sl_bench_takes(&bench, n_events > 0 ? &events[n_events - 1] : NULL, &next);
}

/* Rows: free, on hair, rinsed, never to be touched; then of no swatch, before the day and in it. */
START_TEST(a_key_is_taken_where_it_can_follow_and_nowhere_else)
{
    static const struct {
        sl_event_kind kind;
        bool of[SWATCHES], before, in;
    } rows[] = {{SL_EVENT_STARTED, {0, 0, 0, 0}, true, false},
                {SL_EVENT_MIXED, {1, 0, 0, 0}, false, false},
                {SL_EVENT_APPLIED, {1, 0, 0, 0}, false, false},
                {SL_EVENT_LOOKED, {0, 1, 0, 0}, false, false},
                {SL_EVENT_FELT, {0, 1, 0, 0}, false, false},
                {SL_EVENT_RINSED, {0, 1, 0, 0}, false, false},
                {SL_EVENT_NOTED, {1, 1, 1, 1}, true, true},
                {SL_EVENT_UNDONE, {1, 1, 1, 1}, true, true},
                {SL_EVENT_STOPPED, {1, 1, 1, 1}, true, true},
                {SL_EVENT_WASHED_OUT, {0, 0, 0, 0}, false, false},
                {SL_EVENT_SOUND_HEARD, {0, 0, 0, 0}, true, true},
                {SL_EVENT_SOUND_NOT_HEARD, {0, 0, 0, 0}, true, true},
                {SL_EVENT_KINDS, {0, 0, 0, 0}, false, false}};
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        n_events = 0;
        sl_bench_fold(&bench, swatches, SWATCHES, events, 0);
        ck_assert_msg(takes(rows[r].kind, -1) == rows[r].before, "row %zu, before", r);
        begin();
        for (int i = 0; i < SWATCHES; i++) {
            ck_assert_msg(takes(rows[r].kind, i) == rows[r].of[i], "row %zu of %d", r, i);
        }
        ck_assert_msg(takes(rows[r].kind, -1) == rows[r].in, "row %zu, of none", r);
        ck_assert_msg(takes(rows[r].kind, SWATCHES) == rows[r].in, "row %zu, of one too many", r);
    }
    begin();
    happened(SL_EVENT_STOPPED, -1, 50.0);
    ck_assert(takes(SL_EVENT_WASHED_OUT, -1));
    happened(SL_EVENT_WASHED_OUT, -1, 60.0);
    ck_assert(!takes(SL_EVENT_WASHED_OUT, -1)); /* the water is off already */
}
END_TEST

START_TEST(only_what_was_done_since_the_last_stop_or_start_is_taken_back)
{
    static const struct {
        sl_event_kind kind;
        int swatch;
        bool undone;
    } rows[] = {{SL_EVENT_MIXED, FREE_ONE, true},
                {SL_EVENT_APPLIED, FREE_ONE, true},
                {SL_EVENT_LOOKED, ON_ONE, true},
                {SL_EVENT_FELT, ON_ONE, true},
                {SL_EVENT_RINSED, ON_ONE, true},
                {SL_EVENT_WASHED_OUT, -1, true},
                {SL_EVENT_NOTED, -1, true},
                {SL_EVENT_SOUND_HEARD, -1, false},
                {SL_EVENT_SOUND_NOT_HEARD, -1, false},
                {SL_EVENT_KINDS, -1, false}};
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        begin();
        const sl_event *const before = sl_bench_to_undo(events, n_events);
        ck_assert_ptr_eq(before, &events[3]);
        happened(rows[r].kind, rows[r].swatch, 30.0);
        ck_assert_ptr_eq(sl_bench_to_undo(events, n_events), rows[r].undone ? &events[4] : &events[3]);
    }
    begin();
    happened(SL_EVENT_NOTED, -1, 30.0);
    events[n_events - 1].remark = SL_REMARK_OPENED; /* nobody forgets it again */
    ck_assert_ptr_eq(sl_bench_to_undo(events, n_events), &events[3]);
    happened(SL_EVENT_STOPPED, -1, 40.0);
    ck_assert_ptr_null(sl_bench_to_undo(events, n_events));
    ck_assert_ptr_null(sl_bench_to_undo(events, 0));
    begin();
    ck_assert_ptr_eq(sl_bench_to_undo(events, 1), &events[0]); /* the start, as long as nothing lies */
}
END_TEST

START_TEST(what_comes_twice_or_to_nobody_changes_nothing)
{
    begin();
    const sl_instant contact = bench.state[ON_ONE].contact;
    happened(SL_EVENT_STARTED, -1, 20.0);
    ck_assert_int_eq(bench.start.boot_ns, events[0].at.boot_ns);
    happened(SL_EVENT_APPLIED, ON_ONE, 21.0);
    ck_assert_int_eq(bench.state[ON_ONE].contact.boot_ns, contact.boot_ns);
    happened(SL_EVENT_RINSED, FREE_ONE, 22.0);
    ck_assert_int_eq(bench.state[FREE_ONE].n_lain, 0);
    sl_bench *const before = malloc(sizeof *before);
    ck_assert_ptr_nonnull(before);
    *before = bench;
    happened(SL_EVENT_MIXED, SWATCHES, 23.0);
    happened(SL_EVENT_NOTED, ON_ONE, 24.0);
    ck_assert_mem_eq(before, &bench, sizeof bench);
    free(before);
}
END_TEST

START_TEST(more_looks_than_are_planned_are_counted_and_only_the_first_are_kept)
{
    begin();
    for (int i = 0; i < SL_BENCH_LOOKS + 3; i++) {
        happened(SL_EVENT_LOOKED, ON_ONE, 10.0 + i);
    }
    ck_assert_int_eq(bench.state[ON_ONE].n_looks, SL_BENCH_LOOKS + 3);
    ck_assert_int_eq(bench.state[ON_ONE].looked_s[SL_BENCH_LOOKS - 1], 9 + SL_BENCH_LOOKS - 1);
}
END_TEST

START_TEST(a_bench_holds_no_more_swatches_than_it_has_room_for)
{
    static sl_bench_swatch many[SL_BENCH_MOST + 2];
    n_events = 0;
    events[n_events++] = event_of(SL_EVENT_APPLIED, SL_BENCH_MOST, 1.0);
    sl_bench_fold(&bench, many, SL_BENCH_MOST + 2, events, n_events);
    ck_assert_int_eq(bench.n, SL_BENCH_MOST);
    ck_assert(!bench.started);
}
END_TEST

START_TEST(the_course_of_an_arm_is_that_of_its_own_lying)
{
    const sl_instant now = event_of(SL_EVENT_NOTED, -1, 601.0).at;
    begin();
    ck_assert_double_eq(sl_bench_course_s(&bench, FREE_ONE, &now), -1.0);
    ck_assert_double_eq_tol(sl_bench_course_s(&bench, ON_ONE, &now), 600.0, 1e-6);
    ck_assert_double_eq_tol(sl_bench_course_s(&bench, RINSED_ONE, &now), 1.0, 1e-6);
    ck_assert_int_eq(sl_bench_round_of(&swatches[FREE_ONE], 1).dwell_s, 1800); /* there is no second one */
}
END_TEST

START_TEST(while_water_runs_on_an_eye_only_a_person_s_label_calls)
{
    static const sl_bench_swatch mixed[] = {
        {.code = "AA1", .contact_s = 0, .dwell_s = 1800, .label_s = 600, .on_person = true},
        {.code = "BB2", .contact_s = 0, .dwell_s = 1800, .on_person = true},
        {.code = "CC3", .contact_s = 0, .dwell_s = 1800, .label_s = 600}};
    const sl_instant late = event_of(SL_EVENT_NOTED, -1, 701.0).at;
    const sl_instant early = event_of(SL_EVENT_NOTED, -1, 300.0).at;
    n_events = 0;
    events[n_events++] = event_of(SL_EVENT_STARTED, -1, 0.0);
    for (int i = 0; i < 3; i++) {
        events[n_events++] = event_of(SL_EVENT_APPLIED, i, 1.0);
    }
    sl_bench_fold(&bench, mixed, 3, events, n_events);
    sl_due due = {.kind = SL_EVENT_FELT, .swatch = 2};
    ck_assert(sl_bench_calls(&bench, &due, &late)); /* no eye: everything calls */
    bench.stopping = true;
    bench.stop_reason = SL_REASON_EYES;
    for (int swatch = 0; swatch < 3; swatch++) {
        due = (sl_due){.kind = SL_EVENT_RINSED, .swatch = swatch};
        ck_assert_int_eq(sl_bench_calls(&bench, &due, &late), swatch == 0);
        ck_assert(!sl_bench_calls(&bench, &due, &early));
        due.kind = SL_EVENT_FELT;
        ck_assert(!sl_bench_calls(&bench, &due, &late));
    }
    due = (sl_due){.kind = SL_EVENT_RINSED, .swatch = 0};
    bench.state[0].stage = SL_STAGE_WAITING;
    ck_assert(!sl_bench_calls(&bench, &due, &late)); /* nothing lies on it */
    const char *code[1] = {NULL};
    ck_assert_int_eq(sl_bench_on_persons(&bench, code, 1), 1);
    ck_assert_str_eq(code[0], "BB2");
    bench.state[0].stage = SL_STAGE_ON_HAIR;
    ck_assert_int_eq(sl_bench_on_persons(&bench, code, 1), 2); /* more than fit are counted all the same */
    ck_assert_str_eq(code[0], "AA1");
}
END_TEST

START_SUITE("clocks that fail")
ADD(a_machine_without_one_of_the_clocks_is_told_so)
ADD(without_an_identity_of_this_start_only_wall_time_counts)
ADD(an_instant_that_no_calendar_holds_is_no_day)
CASE("rehearsal")
ADD(both_clocks_of_a_rehearsal_run_alike_from_its_beginning)
CASE("what may follow")
ADD(a_key_is_taken_where_it_can_follow_and_nowhere_else)
ADD(only_what_was_done_since_the_last_stop_or_start_is_taken_back)
ADD(what_comes_twice_or_to_nobody_changes_nothing)
ADD(more_looks_than_are_planned_are_counted_and_only_the_first_are_kept)
ADD(a_bench_holds_no_more_swatches_than_it_has_room_for)
ADD(the_course_of_an_arm_is_that_of_its_own_lying)
ADD(while_water_runs_on_an_eye_only_a_person_s_label_calls)
END_SUITE
