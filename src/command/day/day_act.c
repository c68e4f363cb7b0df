/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is done on the day, and its alarms. Every act is an event; the bench is folded from all of them
 * anew.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "command/day/day.h"
#include "report/plan/day.h"
#include "slowlift/report.h"

static const int64_t NS = 1000000000;
enum { AGAIN_RINSE_S = 15, AGAIN_OTHER_S = 60 }; /* of the machine's own time, while late */

/* ---- the time ------------------------------------------------------------------------------------ */

bool sl_terminal_look(sl_terminal_day *day, sl_error *error)
{
    if (!sl_day_clock_now(&day->clock, &day->now, error)) {
        return false;
    }
    day->n_due = sl_bench_due(&day->bench, &day->now, day->due, SL_TERMINAL_DUES);
    return true;
}

static void fold(sl_terminal_day *day)
{
    sl_bench_fold(&day->bench, day->plan, day->n, day->event, day->n_events);
    day->n_due = sl_bench_due(&day->bench, &day->now, day->due, SL_TERMINAL_DUES);
}

int sl_terminal_aim(const sl_terminal_day *day)
{
    return day->chosen >= 0 ? day->chosen : day->n_due > 0 ? day->due[0].swatch : -1;
}

/* ---- alarms: seen and heard -------------------------------------------------------------------------- */

static int alarm_of(sl_event_kind kind)
{
    return kind == SL_EVENT_APPLIED  ? SL_TERMINAL_ALARM_APPLY
           : kind == SL_EVENT_LOOKED ? SL_TERMINAL_ALARM_LOOK
           : kind == SL_EVENT_FELT   ? SL_TERMINAL_ALARM_FEEL
                                     : SL_TERMINAL_ALARM_RINSE;
}

static bool rings(sl_terminal_day *day, const sl_due *due, int64_t machine_ns)
{
    sl_terminal_alarm *const alarm = &day->alarm[due->swatch][alarm_of(due->kind)];
    if (due->in_s > 0.5) {
        alarm->rung = false;
        return false;
    }
    const int again_s = due->kind == SL_EVENT_RINSED ? AGAIN_RINSE_S : AGAIN_OTHER_S;
    if (alarm->rung && machine_ns - alarm->at_ns < again_s * NS) {
        return false;
    }
    *alarm = (sl_terminal_alarm){true, machine_ns};
    return true;
}

static void tell_trouble(sl_terminal_day *day)
{
    sl_error why;
    const int waiting = sl_day_keeper_waiting(day->keeper, &why);
    if (waiting > day->waiting) {
        sl_terminal_bell(day);
        char cause[SL_ERROR_FILE_SIZE + 3 * SL_ERROR_TEXT_SIZE];
        if (why.code == SL_OK) {
            snprintf(cause, sizeof cause, "%s", _("it is slow to answer"));
        } else {
            sl_error_sentence(&why, cause, sizeof cause);
        }
        sl_terminal_say(day,
                        _("THE LOG CANNOT BE WRITTEN: %s. %d kept in memory and tried again each second. "
                          "Go on; write it on paper too."),
                        cause, waiting);
    } else if (waiting == 0 && day->waiting > 0) {
        sl_terminal_say(day, "%s", _("The log can be written again; everything is in it."));
    }
    day->waiting = waiting;
    if (waiting == 0 && why.code != SL_OK && !day->unread) {
        sl_terminal_say(day, _("What others write cannot be read: %s; %s. This clock goes on."), why.found,
                        why.wanted);
    }
    day->unread = waiting == 0 && why.code != SL_OK;
}

static bool water_is_over(sl_terminal_day *day)
{
    double runs_s = 0.0, least_s = 0.0;
    if (day->water_told || !sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s) ||
        least_s <= 0.0 || runs_s < least_s) {
        return false;
    }
    day->water_told = true;
    sl_terminal_say(day, "%s",
                    _("ALARM: the eyes have had 15 minutes of water. Medical help still has to see them. o "
                      "is water off."));
    return true;
}

void sl_terminal_alarms(sl_terminal_day *day)
{
    sl_instant machine;
    char text[SL_DAY_WORDS];
    tell_trouble(day);
    bool any = water_is_over(day);
    if (!sl_instant_now(&machine, NULL)) {
        return;
    }
    for (int i = 0; i < day->n_due; i++) {
        if (sl_bench_calls(&day->bench, &day->due[i], &day->now) &&
            rings(day, &day->due[i], machine.boot_ns)) {
            sl_day_due(&day->bench, &day->due[i], text, sizeof text);
            sl_terminal_say(day, _("ALARM %s."), text);
            any = true;
        }
    }
    if (any) {
        sl_terminal_bell(day);
    }
}

/* ---- events ------------------------------------------------------------------------------------------- */

/* The guard against a key that bounces runs by the machine's own time, also in a rehearsal. */
bool sl_terminal_takes(sl_terminal_day *day, const sl_event *next)
{
    sl_event key = *next;
    if (!sl_instant_now(&key.at, NULL)) {
        return sl_bench_takes(&day->bench, NULL, next);
    }
    const bool alone = sl_bench_takes(&day->bench, NULL, &key);
    const bool taken = sl_bench_takes(&day->bench, day->any_last ? &day->last : NULL, &key);
    const char *const code = next->swatch >= 0 ? day->plan[next->swatch].code : "";
    if (taken) {
        day->last = key;
        day->any_last = true;
    } else if (alone) {
        sl_terminal_say(day, _("%s %s: the same key twice within a second; taken once."), code,
                        sl_day_done(next->kind));
    } else {
        char state[SL_DAY_WORDS] = "";
        if (next->swatch >= 0) {
            sl_day_state(&day->bench, next->swatch, &day->now, state, sizeof state);
        }
        sl_terminal_say(day, _("Not taken: \"%s\" does not follow. %s"), sl_day_done(next->kind), state);
    }
    return taken;
}

/* Kept in memory first, then in the log. */
void sl_terminal_keep_event(sl_terminal_day *day, sl_event *event, const char *note)
{
    sl_error error = {.code = SL_OK};
    sl_uuid_make(event->id);
    event->speed = day->clock.speed > 1.0 ? day->clock.speed : 0.0;
    if (!sl_grow(&day->event, &day->capacity, (size_t)day->n_events + 1, sizeof *day->event,
                 "keeping an event", &error) ||
        !sl_day_keeper_put(day->keeper, event, note, &error)) {
        sl_terminal_say(day, _("OUT OF MEMORY: write this on paper: %s %s"), sl_day_done(event->kind), note);
        return;
    }
    day->event[day->n_events++] = *event;
    fold(day);
    tell_trouble(day);
}

/* What was planned of this against now; false: nothing was. */
static bool planned(const sl_terminal_day *day, sl_event_kind kind, int swatch, double *late_s)
{
    for (int i = 0; i < day->n_due; i++) {
        if (day->due[i].kind == kind && day->due[i].swatch == swatch) {
            *late_s = -day->due[i].in_s;
            return true;
        }
    }
    return false;
}

/* Late or early, and clocks that disagreed, as a machine reads them. */
static void put_how(const sl_terminal_day *day, sl_event *event)
{
    sl_on_the_hair on;
    double late_s = 0.0;
    if (planned(day, event->kind, event->swatch, &late_s)) {
        event->was_due = true;
        event->late_s = (int)lround(late_s);
    }
    if (event->swatch >= 0 && sl_bench_on_hair(&day->bench, event->swatch, &day->now, &on)) {
        event->clocks = on.since.clocks;
    }
}

/* said: in somebody's own words; "" for none. */
static void put(sl_terminal_day *day, sl_event *event, const char *said)
{
    char off[48] = "", done[SL_DAY_WORDS / 2];
    const int swatch = event->swatch;
    if (!sl_terminal_takes(day, event)) {
        return;
    }
    put_how(day, event);
    if (event->was_due) {
        sl_day_off(event->late_s, off, sizeof off);
    }
    sl_day_deed(&day->bench, swatch, event->kind, done, sizeof done);
    sl_terminal_keep_event(day, event, said);
    const char *const words = said[0] != '\0' ? said : sl_day_remark(event->remark);
    sl_terminal_say(day, "%s%s%s%s%s%s%s.", swatch >= 0 ? day->plan[swatch].code : "",
                    swatch >= 0 ? ": " : "", done, words[0] != '\0' ? ": " : "", words,
                    off[0] != '\0' ? ", " : "", off);
}

void sl_terminal_put(sl_terminal_day *day, sl_event_kind kind, int swatch)
{
    sl_event event = {.kind = kind, .swatch = swatch, .at = day->now, .reason = SL_REASON_UNSAID};
    put(day, &event, "");
}

void sl_terminal_put_note(sl_terminal_day *day, int swatch, sl_remark remark, const char *said)
{
    sl_event event = {.kind = SL_EVENT_NOTED,
                      .swatch = swatch,
                      .at = day->now,
                      .reason = SL_REASON_UNSAID,
                      .remark = remark};
    put(day, &event, said);
}

/* Nobody who presses r means the swatch that is due for a look: without a chosen one it is the next
 * of this kind. */
static int aim_for(const sl_terminal_day *day, sl_event_kind kind)
{
    const sl_event_kind due = kind == SL_EVENT_MIXED ? SL_EVENT_APPLIED : kind;
    for (int i = 0; i < day->n_due && day->chosen < 0; i++) {
        const int swatch = day->due[i].swatch;
        if (day->due[i].kind == due && !(kind == SL_EVENT_MIXED && day->bench.state[swatch].mixed)) {
            return swatch;
        }
    }
    return sl_terminal_aim(day);
}

void sl_terminal_act(sl_terminal_day *day, sl_event_kind kind)
{
    if (!day->bench.started) {
        sl_terminal_put(day, SL_EVENT_STARTED, -1);
    }
    const int aim = aim_for(day, kind);
    if (aim < 0) {
        sl_terminal_say(day, "%s", _("Choose a swatch first: its number, or c and its code."));
        return;
    }
    const int before = day->n_events;
    sl_terminal_put(day, kind, aim);
    if (day->n_events == before) {
        return;
    }
    if (kind == SL_EVENT_LOOKED || kind == SL_EVENT_RINSED) {
        sl_terminal_say_model(day, aim);
    }
    day->chosen = -1; /* what is due next is meant again */
    sl_terminal_say_due(day);
}

/* ---- stop ------------------------------------------------------------------------------------------------
 */

void sl_terminal_stop_now(sl_terminal_day *day, int swatch)
{
    sl_event event = {.kind = SL_EVENT_STOPPED, .swatch = swatch, .at = day->now, .reason = SL_REASON_UNSAID};
    sl_terminal_keep_event(day, &event, "");
    day->typing = SL_TERMINAL_KEYS;
    day->asks_sound = false;
    day->asks_reason = true;
    day->asks_water = false;
    day->water_told = false;
    day->chosen = -1;
    sl_terminal_say_stopped(day);
    sl_terminal_bell(day);
}

/* From another program: this one shows it as if it were its own. */
static void stopped_elsewhere(sl_terminal_day *day)
{
    day->typing = SL_TERMINAL_KEYS;
    day->asks_sound = day->asks_water = false;
    day->asks_reason = day->bench.stop_reason == SL_REASON_UNSAID;
    day->water_told = false;
    day->chosen = -1;
    sl_terminal_say_stopped(day);
    sl_terminal_bell(day);
}

static void say_from_elsewhere(sl_terminal_day *day, const sl_event *event)
{
    const bool known = event->swatch >= 0 && event->swatch < day->n;
    sl_terminal_say(day, _("From elsewhere: %s%s%s."), known ? day->plan[event->swatch].code : "",
                    known ? ": " : "", sl_day_done(event->kind));
}

void sl_terminal_from_elsewhere(sl_terminal_day *day)
{
    const int n_new = sl_day_keeper_news(day->keeper, &day->event, &day->capacity, &day->n_events);
    if (n_new == 0) {
        return;
    }
    bool stop = false;
    fold(day);
    for (int i = sl_news_begin(day->event, day->n_events, n_new); i < day->n_events; i++) {
        const sl_event *const event = &day->event[i];
        if (event->elsewhere) {
            say_from_elsewhere(day, event);
            stop = stop || (event->kind == SL_EVENT_STOPPED && event->about[0] == '\0');
        }
    }
    if (stop && day->bench.stopping) {
        stopped_elsewhere(day);
    } else if (day->asks_reason && (!day->bench.stopping || day->bench.stop_reason != SL_REASON_UNSAID)) {
        day->asks_reason = false;
    } else {
        sl_terminal_say_due(day);
    }
}

void sl_terminal_give_reason(sl_terminal_day *day, int place)
{
    const char *words = NULL;
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    day->asks_reason = false;
    if (!stop) {
        return;
    }
    sl_event event = {.kind = SL_EVENT_STOPPED, .swatch = stop->swatch, .at = day->now};
    event.reason = sl_day_reason(place, &words);
    memcpy(event.about, stop->id, sizeof event.about);
    sl_terminal_keep_event(day, &event, "");
    sl_terminal_say(day, _("Reason: %s."), words);
    if (event.reason == SL_REASON_EYES) {
        sl_terminal_say(day, "%s",
                        _("Eyes: let the water run for 15 minutes and call for medical help. The time is "
                          "shown; o, when it is over."));
        sl_terminal_say_due(day); /* what waits, and whose hair does not */
    }
    if (sl_day_is_medical(event.reason)) {
        sl_terminal_tell_bowls(day);
    }
}

void sl_terminal_water_off(sl_terminal_day *day)
{
    double runs_s = 0.0, least_s = 0.0;
    char left[24];
    if (!sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s)) {
        sl_terminal_say(day, "%s", _("No water runs after a stop."));
        return;
    }
    if (least_s > runs_s && !day->asks_water) {
        sl_day_span(least_s - runs_s, left, sizeof left);
        sl_terminal_say(
            day, _("Eyes need 15 minutes of water; %s are to go. Press o once more to end it all the same."),
            left);
        day->asks_water = true;
        return;
    }
    day->asks_water = false;
    sl_terminal_put(day, SL_EVENT_WASHED_OUT, -1);
    sl_terminal_say_due(day);
}
