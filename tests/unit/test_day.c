/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day without a terminal, a window or a log: keys and time go in, effects come out.
 */
#include <stdio.h>
#include <string.h>

#include "day/day.h"
#include "suite.h"

enum { SWATCHES = 3 };

static const sl_log_test test = {.title = "a test", .scene_name = "a scene"};
static const sl_log_swatch swatches[SWATCHES] = {
    {.id = "a",
     .arm = "weak",
     .bench = {.code = "AA2", .contact_s = 60, .dwell_s = 600, .n_looks = 1, .look_s = {300}}},
    {.id = "b", .arm = "strong", .bench = {.code = "BB3", .contact_s = 0, .dwell_s = 600}},
    {.id = "c", .arm = "untreated", .bench = {.code = "CC4", .contact_s = -1}},
};
static sl_day *day;
static sl_day_effects effects;
static double now_s;

static sl_instant at(double s)
{
    sl_instant instant = {(int64_t)((5000.0 + s) * 1e9), (int64_t)((1.7e9 + s) * 1e9), "one"};
    return instant;
}

static void opened(void)
{
    static sl_day here;
    sl_day_free(&here);
    here = (sl_day){.test = &test,
                    .swatches = swatches,
                    .n = SWATCHES,
                    .speed = 1.0,
                    .medium = SL_ON_TERMINAL,
                    .plays = true,
                    .asks_sound = true};
    day = &here;
    now_s = 0.0;
    effects.n = 0;
    day->now = at(0.0);
    ck_assert(sl_day_make(day, NULL));
    sl_day_begin(day, &effects);
}

/* A second later, so that no key is one that bounces. */
static void press(int key)
{
    now_s += 1.0;
    const sl_instant now = at(now_s);
    effects.n = 0;
    sl_day_pass(day, &now, &effects);
    effects.n = 0;
    sl_day_take(day, key, NULL, &effects);
}

static void press_all(const char *keys)
{
    for (; *keys != '\0'; keys++) {
        press(*keys);
    }
}

static int count(sl_day_effect_kind kind)
{
    int n = 0;
    for (int i = 0; i < effects.n; i++) {
        n += effects.effect[i].kind == kind ? 1 : 0;
    }
    return n;
}

static int kept(sl_event_kind kind)
{
    int n = 0;
    for (int i = 0; i < day->n_events; i++) {
        n += day->event[i].kind == kind ? 1 : 0;
    }
    return n;
}

START_TEST(answering_the_sound_test_begins_a_day)
{
    for (const char *answer = "yn"; *answer != '\0'; answer++) {
        opened();
        ck_assert_int_eq(day->page, SL_DAY_SOUND_TEST);
        press(*answer);
        ck_assert_int_eq(kept(SL_EVENT_SOUND_HEARD) + kept(SL_EVENT_SOUND_NOT_HEARD), 1);
        ck_assert(!day->bench.started && kept(SL_EVENT_STARTED) == 0);
        press('g');
        ck_assert(day->bench.started && kept(SL_EVENT_STARTED) == 1);
        press('g');
        ck_assert_int_eq(kept(SL_EVENT_STARTED), 1);
        ck_assert_int_eq(count(SL_DAY_REFUSE), 1);
    }
}
END_TEST

/* Opened, looked at, left: nothing else than what it is asked for. */
START_TEST(a_day_that_nobody_begins_keeps_something)
{
    opened();
    press_all("yl?p\rb");
    press(SL_KEY_LEAVE);
    ck_assert_int_eq(count(SL_DAY_LEAVE), 1);
    ck_assert_int_eq(day->n_events, 1); /* the sound */
}
END_TEST

START_TEST(a_mix_on_hair_waits_for_the_day_to_begin)
{
    opened();
    press_all("ya");
    ck_assert_int_eq(kept(SL_EVENT_STARTED), 1);
    ck_assert_int_eq(day->bench.state[1].stage, SL_STAGE_ON_HAIR);
}
END_TEST

START_TEST(a_key_that_bounces_reaches_another_swatch)
{
    opened();
    press_all("yg");
    press('a');
    effects.n = 0;
    sl_day_take(day, 'a', NULL, &effects); /* at the same instant */
    ck_assert_int_eq(kept(SL_EVENT_APPLIED), 1);
    ck_assert_int_eq(count(SL_DAY_REFUSE), 1);
}
END_TEST

START_TEST(a_page_or_something_typed_holds_up_a_stop)
{
    static const char *const ways[] = {"", "y", "yn", "yg1", "ygc", "ygt", "ygs1", "ygs", "yg?"};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        static const int stops[] = {'s', 'x', '\t'};
        for (size_t k = 0; k < 3; k++) {
            opened();
            press_all(ways[i]);
            const bool words = day->typing == SL_TYPES_CODE || day->typing == SL_TYPES_NOTE;
            const int before = kept(SL_EVENT_STOPPED);
            if (words && stops[k] != '\t') {
                continue;
            }
            press(stops[k]);
            ck_assert_msg(kept(SL_EVENT_STOPPED) == before + 1 && day->page == SL_DAY_STOPPED, "%s then %d",
                          ways[i], stops[k]);
        }
    }
}
END_TEST

/* Space plays in other programs: it asks, names what it would stop, and only a second press does it. */
START_TEST(a_habit_ends_a_test)
{
    static const char *const ways[] = {"", "y", "yn", "yga", "ygas1", "yg?"};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        opened();
        press_all(ways[i]);
        const int before = kept(SL_EVENT_STOPPED);
        press(' ');
        ck_assert_msg(kept(SL_EVENT_STOPPED) == before && count(SL_DAY_REFUSE) == 1, "%s", ways[i]);
        press_all(i == 3 ? "f " : "v "); /* something else was done: it is asked anew */
        ck_assert_msg(kept(SL_EVENT_STOPPED) == before, "%s", ways[i]);
        now_s += SL_DAY_ASKED_S + 1;
        press(' '); /* forgotten */
        ck_assert_msg(kept(SL_EVENT_STOPPED) == before, "%s", ways[i]);
        press(' ');
        ck_assert_msg(kept(SL_EVENT_STOPPED) == before + 1 && day->page == SL_DAY_STOPPED, "%s", ways[i]);
    }
    opened();
    press_all("yga ");
    ck_assert_ptr_nonnull(strstr(effects.effect[effects.n - 1].text, day->plan[1].code));
    press('s');
    ck_assert_int_eq(kept(SL_EVENT_STOPPED), 1);
}
END_TEST

/* While it lies there, until the grade at its end is in the log, and then until somebody asks. */
START_TEST(a_judge_is_told_what_the_model_says)
{
    sl_log_reading reading = sl_log_reading_begin();
    opened();
    press_all("yg");
    ck_assert(sl_day_covers(day, 1));
    press_all("aw");
    ck_assert(sl_day_covers(day, 1));
    snprintf(reading.swatch, sizeof reading.swatch, "%s", swatches[1].id);
    day->readings = &reading;
    day->n_readings = 1;
    ck_assert(sl_day_covers(day, 1)); /* more looks are to come */
    day->chosen = 1;
    press('r');
    ck_assert(sl_day_may_show(day, 1) && sl_day_covers(day, 1)); /* and then until somebody asks */
    day->chosen = 1;
    press('p');
    ck_assert(!sl_day_covers(day, 1));
    ck_assert_int_eq(count(SL_DAY_KEEP), 1);
    ck_assert_int_eq(effects.effect[0].event.remark, SL_REMARK_SHOWN);
    press('p');
    ck_assert_int_eq(count(SL_DAY_KEEP), 0); /* it was */
    ck_assert_int_ne(sl_bench_to_undo(day->event, day->n_events)->remark, SL_REMARK_SHOWN);
    ck_assert(sl_day_covers(day, 0));
    reading.minute = 10.0; /* on the way */
    ck_assert(sl_day_covers(day, 1));
    press('p');
    ck_assert_int_eq(count(SL_DAY_REFUSE), 1);
}
END_TEST

START_TEST(something_is_told_before_it_is_kept)
{
    opened();
    press_all("yg");
    static const char keys[] = "mafwn3usx1o";
    for (const char *key = keys; *key != '\0'; key++) {
        press(*key);
        bool told = false;
        for (int i = 0; i < effects.n; i++) {
            told = told || effects.effect[i].kind == SL_DAY_SAY || effects.effect[i].kind == SL_DAY_SHOW;
            /* what opened the bowls is kept behind the reason that it follows */
            ck_assert_msg(effects.effect[i].kind != SL_DAY_KEEP || !told ||
                              effects.effect[i].event.kind == SL_EVENT_NOTED,
                          "%c", *key);
        }
    }
}
END_TEST

START_TEST(one_key_means_two_things_on_a_page)
{
    for (int page = SL_DAY_BENCH; page <= SL_DAY_NOTE_PAGE; page++) {
        for (int medium = SL_ON_TERMINAL; medium <= SL_IN_WINDOW; medium++) {
            for (int key = 1; key < SL_KEY_OTHER; key++) {
                int n = 0;
                for (int i = 0; i < SL_DAY_ACT_ROWS; i++) {
                    const sl_day_act_row *const row = &sl_day_acts[i];
                    n += (row->key[0] == key || row->key[1] == key) &&
                                 sl_day_act_on(row, (sl_day_view)page, (sl_medium)medium)
                             ? 1
                             : 0;
                }
                ck_assert_msg(n <= 1, "key %d of page %d: %d rows", key, page, n);
            }
        }
    }
}
END_TEST

/* Every act on every bench that these keys lead to. */
START_TEST(what_cannot_be_done_is_done)
{
    static const char *const ways[] = {"y", "yg", "ygm", "yga", "ygar", "ygas", "ygas1", "yga\r3"};
    int refused = 0;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        for (int act = 0; act < SL_ACT_NONE; act++) {
            opened();
            press_all(ways[i]);
            const char *const why_not = sl_day_why_not(day, (sl_day_act)act);
            const int before = day->n_events;
            now_s += 1.0;
            day->now = at(now_s);
            effects.n = 0;
            sl_day_do(day, (sl_day_act)act, 0, &effects);
            if (why_not) {
                ck_assert_msg(day->n_events == before && count(SL_DAY_REFUSE) == 1, "%s, act %d", ways[i],
                              act);
                refused++;
            } else {
                ck_assert_msg(act > SL_ACT_RINSED || day->n_events > before, "%s, act %d", ways[i], act);
            }
        }
    }
    ck_assert_int_gt(refused, 40);
}
END_TEST

/* Mix that did touch the hair works whatever a key says: it takes a second one. */
START_TEST(one_key_stops_the_clock_of_a_contact)
{
    opened();
    press_all("ygau");
    ck_assert(day->bench.state[1].stage == SL_STAGE_ON_HAIR && day->bench.state[1].doubted);
    press('a');
    ck_assert_int_eq(kept(SL_EVENT_APPLIED), 1); /* it lies already */
    press('y');
    ck_assert_int_eq(day->bench.state[1].stage, SL_STAGE_WAITING);
    press('y');
    ck_assert_int_eq(count(SL_DAY_REFUSE), 1);
    press('a');
    press('u');
    press('r'); /* it was on the hair after all */
    ck_assert_int_eq(day->bench.state[1].stage, SL_STAGE_RINSED);
}
END_TEST

START_TEST(what_is_late_calls_once)
{
    opened();
    press_all("yga");
    static const double after_s[] = {119.0, 121.0, 122.0, 182.0};
    static const int calls[] = {0, 1, 0, 1}; /* skin and heat at two minutes; again after a minute */
    for (int i = 0; i < 4; i++) {
        const sl_instant now = at(3.0 + after_s[i]);
        effects.n = 0;
        day->plan[0].contact_s = 4000; /* the others wait */
        sl_day_pass(day, &now, &effects);
        ck_assert_msg(count(SL_DAY_CALL) == calls[i], "after %.0f s: %d", after_s[i], count(SL_DAY_CALL));
    }
}
END_TEST

START_TEST(the_end_of_a_day_is_ticked_once_nothing_lies_on_hair)
{
    opened();
    press_all("yz");
    ck_assert_int_eq(day->page, SL_DAY_BENCH); /* it has not begun */
    press_all("gaz");
    ck_assert_int_eq(day->page, SL_DAY_BENCH);
    day->chosen = 1;
    press_all("rz1339");
    ck_assert_int_eq(day->page, SL_DAY_END_PAGE);
    ck_assert(day->bench.ticked[0] && !day->bench.ticked[1] && day->bench.ticked[2]);
    ck_assert_int_eq(kept(SL_EVENT_NOTED), 2); /* what is ticked is not ticked again */
    ck_assert_int_eq(sl_bench_unticked(&day->bench), SL_DAY_TICKS - 2);
    press(SL_KEY_ESCAPE);
    press('u');
    ck_assert(!day->bench.ticked[2]);
    press_all("z2345");
    ck_assert_int_eq(day->page, SL_DAY_BENCH);
    ck_assert_int_eq(sl_bench_unticked(&day->bench), 0);
}
END_TEST

START_TEST(the_choice_moves_by_itself)
{
    opened();
    press_all("yg");
    const int chosen = day->chosen;
    for (double s = 10.0; s < 4000.0; s += 50.0) {
        const sl_instant now = at(s);
        effects.n = 0;
        sl_day_pass(day, &now, &effects);
        ck_assert_int_eq(day->chosen, chosen);
    }
}
END_TEST

START_SUITE("the day")
ADD(answering_the_sound_test_begins_a_day)
ADD(a_day_that_nobody_begins_keeps_something)
ADD(a_mix_on_hair_waits_for_the_day_to_begin)
ADD(a_key_that_bounces_reaches_another_swatch)
ADD(a_page_or_something_typed_holds_up_a_stop)
ADD(a_habit_ends_a_test)
ADD(a_judge_is_told_what_the_model_says)
ADD(something_is_told_before_it_is_kept)
ADD(one_key_means_two_things_on_a_page)
ADD(what_cannot_be_done_is_done)
ADD(one_key_stops_the_clock_of_a_contact)
ADD(what_is_late_calls_once)
ADD(the_end_of_a_day_is_ticked_once_nothing_lies_on_hair)
ADD(the_choice_moves_by_itself)
END_SUITE
