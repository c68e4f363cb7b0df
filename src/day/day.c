/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day.h. Every act is an event; the bench is folded from all of them anew.
 */
#include "day/day.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "day/deeds.h"
#include "log/day/day_keeper.h"

bool sl_day_make(sl_day *day, sl_error *error)
{
    const size_t n = (size_t)day->n;
    day->plan = sl_new(n + 1, sizeof *day->plan, "opening the day", error);
    day->arm = day->plan ? sl_new(n + 1, sizeof *day->arm, "opening the day", error) : NULL;
    if (!day->arm) {
        return false;
    }
    for (int i = 0; i < day->n; i++) {
        day->plan[i] = day->swatches[i].bench;
        day->arm[i] = day->swatches[i].arm;
    }
    day->capacity = (size_t)day->n_events;
    return true;
}

void sl_day_free(sl_day *day)
{
    sl_free(day->plan);
    sl_free(day->arm);
    sl_free(day->event);
}

double sl_day_machine_s(const sl_day *day)
{
    return (double)day->now.boot_ns / day->speed / 1e9;
}

bool sl_day_unread(const sl_day *day)
{
    return day->waiting == 0 && day->fault.code != SL_OK;
}

bool sl_day_blind(const sl_day *day)
{
    return day->blind || day->covered;
}

bool sl_day_shown(const sl_day *day, int swatch)
{
    for (int i = 0; i < day->n_events; i++) {
        if (day->event[i].remark == SL_REMARK_SHOWN && day->event[i].swatch == swatch) {
            return true;
        }
    }
    return false;
}

bool sl_day_covers(const sl_day *day, int swatch)
{
    return !sl_day_shown(day, swatch) || !sl_day_may_show(day, swatch);
}

bool sl_day_may_show(const sl_day *day, int swatch)
{
    const bool over = day->plan[swatch].contact_s < 0 || day->bench.state[swatch].stage == SL_STAGE_RINSED;
    for (int i = 0; over && i < day->n_readings; i++) {
        if (strcmp(day->readings[i].swatch, day->swatches[swatch].id) == 0 &&
            day->readings[i].minute <= SL_NOT_READ) {
            return !sl_day_blind(day);
        }
    }
    return false;
}

const char *sl_day_cover_words(void)
{
    return _("The model is covered until this one is rinsed and its grade is in the log, so that nobody who "
             "judges is told the answer.");
}

bool sl_day_on_hair(const sl_day *day)
{
    return sl_bench_any_on_hair(&day->bench);
}

sl_day_record sl_day_record_of(const sl_day *day)
{
    return (sl_day_record){.swatch = day->plan,
                           .arm = day->arm,
                           .n = day->n,
                           .event = day->event,
                           .n_events = day->n_events,
                           .scene = day->scene,
                           .tubs = day->tubs};
}

/* ---- what is due ------------------------------------------------------------------------------------ */

static bool late_rinse(const sl_day *day, const sl_due *due)
{
    (void)day;
    return due->kind == SL_EVENT_RINSED && due->in_s <= 0.0;
}

/* While water runs on an eye whoever may not call stands behind. */
static bool late_caller(const sl_day *day, const sl_due *due)
{
    return due->in_s <= 0.0 && sl_bench_calls(&day->bench, due, &day->now);
}

/* A leftover waits for what is due within a minute: it must not hide a countdown. */
static bool soon(const sl_day *day, const sl_due *due)
{
    (void)day;
    return due->kind != SL_EVENT_NOTED && due->in_s <= 60.0;
}

/* Those that are so come first, in their order. Returns how many. */
static int to_front(sl_day *day, bool (*is)(const sl_day *, const sl_due *))
{
    int at = 0;
    for (int i = 0; i < day->n_due; i++) {
        const sl_due due = day->due[i];
        if (is(day, &due)) {
            memmove(&day->due[at + 1], &day->due[at], (size_t)(i - at) * sizeof due);
            day->due[at++] = due;
        }
    }
    return at;
}

void sl_day_look(sl_day *day)
{
    day->n_due = sl_bench_due(&day->bench, &day->now, day->due, SL_DAY_DUES);
    to_front(day, soon);
    to_front(day, late_rinse);
    day->n_late = to_front(day, late_caller);
    day->apart = day->restarted = false;
    for (int i = 0; i < day->bench.n; i++) {
        sl_on_the_hair on;
        if (day->bench.state[i].stage == SL_STAGE_ON_HAIR &&
            sl_bench_on_hair(&day->bench, i, &day->now, &on)) {
            day->apart = day->apart || on.since.clocks == SL_CLOCKS_DISAGREE;
            day->restarted = day->restarted || on.since.clocks == SL_CLOCKS_RESTARTED;
        }
    }
}

void sl_day_fold(sl_day *day)
{
    sl_bench_fold(&day->bench, day->plan, day->n, day->event, day->n_events);
    sl_day_look(day);
}

void sl_day_pass(sl_day *day, const sl_instant *now, sl_day_effects *effects)
{
    day->now = *now;
    sl_day_look(day);
    sl_day_tell_fault(day, effects);
    sl_day_calls(day, effects);
}

/* ---- events ----------------------------------------------------------------------------------------- */

void sl_day_keep(sl_day *day, sl_event *event, const char *words, sl_day_effects *effects)
{
    sl_uuid_make(event->id);
    event->at = day->now;
    event->speed = day->speed > 1.0 ? day->speed : 0.0;
    if (event->kind != SL_EVENT_STOPPED) {
        event->reason = SL_REASON_UNSAID;
    }
    sl_effect_keep(effects, event, words);
    if (sl_grow(&day->event, &day->capacity, (size_t)day->n_events + 1, sizeof *day->event,
                "keeping an event", NULL)) {
        day->event[day->n_events++] = *event;
    } else {
        sl_effect_tell(effects, SL_DAY_REFUSE, _("OUT OF MEMORY: write this on paper: %s %s"),
                       sl_day_done(event->kind), words);
    }
    sl_day_fold(day);
}

/* Whose turn it is by the plan, where nothing is due. */
static void choose_first(sl_day *day)
{
    sl_day_choose_next(day);
    for (int i = 0; day->n_due == 0 && i < day->n; i++) {
        const int contact = day->plan[i].contact_s, best = day->plan[day->chosen].contact_s;
        day->chosen = contact >= 0 && (best < 0 || contact < best) ? i : day->chosen;
    }
}

void sl_day_begin(sl_day *day, sl_day_effects *effects)
{
    sl_day_fold(day);
    choose_first(day);
    if (day->speed > 1.0) {
        sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1, .elsewhere = true};
        sl_day_keep(day, &event, "", effects); /* its speed says that it is a rehearsal */
    }
    if (day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
        sl_effect_show(effects, SL_DAY_STOPPED, -1);
    } else if (!day->bench.sound_tried && day->asks_sound) {
        sl_day_test_sound(day, effects);
    } else if (day->bench.started) {
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    }
}

/* ---- what others do --------------------------------------------------------------------------------- */

static void tell_news(const sl_day *day, const sl_event *event, sl_day_effects *effects)
{
    if (event->swatch >= 0 && event->swatch < day->n) {
        sl_effect_tell(effects, SL_DAY_SAY, _("From elsewhere: %s: %s."), day->plan[event->swatch].code,
                       sl_day_done(event->kind));
    } else {
        sl_effect_tell(effects, SL_DAY_SAY, _("From elsewhere: %s."), sl_day_done(event->kind));
    }
}

void sl_day_news(sl_day *day, int n_new, sl_day_effects *effects)
{
    bool stop = false;
    int told = 0;
    sl_day_fold(day);
    for (int i = sl_news_begin(day->event, day->n_events, n_new); i < day->n_events; i++) {
        const sl_event *const event = &day->event[i];
        if (event->elsewhere) {
            if (told++ < SL_DAY_SPARE_EFFECTS) {
                tell_news(day, event, effects);
            }
            stop = stop || (event->kind == SL_EVENT_STOPPED && event->about[0] == '\0');
        }
    }
    if (stop && day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
        day->typing = SL_TYPES_NOTHING;
        day->is_sure = day->water_told = false;
        sl_effect_show(effects, SL_DAY_STOPPED, -1);
        sl_effect_sound(effects, SL_DAY_RINSE_BEEPS, false);
    } else if (day->page == SL_DAY_STOPPED && !day->bench.stopping) {
        day->page = SL_DAY_BENCH;
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    } else if (day->page == SL_DAY_BENCH) {
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    }
}
