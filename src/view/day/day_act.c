/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What keys and presses do to the day: an event is kept, the bench follows from all of them.
 * Invariant: the chosen swatch moves only after a key, and the same deed again within
 * SL_KEY_GUARD_S is not taken, for any swatch: a key that bounces must not reach the next one.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "view/day/day.h"

enum { RINSE_BEEPS = 5, LATE_BEEPS = 3, RINSE_EVERY_MS = 2500, LATE_EVERY_MS = 10000 };

void sl_day_say(sl_day *day, bool refused, const char *text)
{
    snprintf(day->said, sizeof day->said, "%s", text);
    day->refused = refused;
    day->dirty = true;
}

/* ---- looking ----------------------------------------------------------------------------------- */

/* A rinse that is late comes before whatever is later. */
static void rinses_first(sl_day *day)
{
    int at = 0;
    for (int i = 0; i < day->n_due; i++) {
        const sl_due due = day->due[i];
        if (due.kind == SL_EVENT_RINSED && due.in_s <= 0.0) {
            memmove(&day->due[at + 1], &day->due[at], (size_t)(i - at) * sizeof due);
            day->due[at++] = due;
        }
    }
}

/* While water runs on an eye whoever may not call stands behind. Returns how many may, and are late. */
static int callers_first(sl_day *day)
{
    int at = 0;
    for (int i = 0; i < day->n_due; i++) {
        const sl_due due = day->due[i];
        if (due.in_s <= 0.0 && sl_bench_calls(&day->bench, &due, &day->now)) {
            memmove(&day->due[at + 1], &day->due[at], (size_t)(i - at) * sizeof due);
            day->due[at++] = due;
        }
    }
    return at;
}

void sl_day_look(sl_day *day)
{
    sl_error error = {.code = SL_OK};
    if (!sl_day_clock_now(&day->clock, &day->now, &error)) {
        day->trouble = error; /* the last known time stands */
    }
    day->n_due = sl_bench_due(&day->bench, &day->now, day->due, SL_DAY_DUES);
    rinses_first(day);
    day->n_late = callers_first(day);
    day->apart = day->restarted = false;
    for (int i = 0; i < day->bench.n; i++) {
        sl_on_the_hair on;
        if (day->bench.state[i].stage == SL_STAGE_ON_HAIR &&
            sl_bench_on_hair(&day->bench, i, &day->now, &on)) {
            day->apart = day->apart || on.since.clocks == SL_CLOCKS_DISAGREE;
            day->restarted = day->restarted || on.since.clocks == SL_CLOCKS_RESTARTED;
        }
    }
    day->unread = false;
    if (error.code == SL_OK) {
        day->waiting = sl_day_keeper_waiting(day->keeper, &day->trouble);
        day->unread = day->waiting == 0 && day->trouble.code != SL_OK;
    }
}

void sl_day_alarm(sl_day *day)
{
    const Uint64 tick = SDL_GetTicks64();
    const bool rinse = day->n_late > 0 && day->due[0].kind == SL_EVENT_RINSED;
    const Uint64 every = rinse ? RINSE_EVERY_MS : LATE_EVERY_MS;
    const bool more = day->n_late > day->was_late;
    day->was_late = day->n_late;
    if (day->n_late > 0 && (more || tick - day->last_beep >= every)) {
        day->last_beep = tick;
        sl_day_sound_beep(&day->sound, rinse ? RINSE_BEEPS : LATE_BEEPS);
    }
    double runs_s = 0.0, least_s = 0.0;
    const bool over =
        sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s) && least_s > 0.0 && runs_s >= least_s;
    if (over && !day->water_told) {
        sl_day_sound_beep(&day->sound, LATE_BEEPS);
    }
    day->water_told = over;
}

bool sl_day_on_hair(const sl_day *day)
{
    for (int i = 0; i < day->bench.n; i++) {
        if (day->bench.state[i].stage == SL_STAGE_ON_HAIR) {
            return true;
        }
    }
    return false;
}

/* ---- keeping ----------------------------------------------------------------------------------- */

static void refold(sl_day *day)
{
    sl_bench_fold(&day->bench, day->plan, day->wish.n, day->event, day->n_events);
    sl_day_look(day);
    day->dirty = true;
}

/* The event is shown only after the disk had its time to take it. */
bool sl_day_keep(sl_day *day, sl_event event)
{
    sl_error error = {.code = SL_OK};
    sl_uuid_make(event.id);
    sl_day_clock_now(&day->clock, &day->now, &error);
    event.at = day->now;
    event.speed = day->clock.speed > 1.0 ? day->clock.speed : 0.0;
    const bool put = sl_day_keeper_put(day->keeper, &event, NULL, &error);
    const bool room = sl_grow(&day->event, &day->capacity, (size_t)day->n_events + 1, sizeof event,
                              "keeping an event", &error);
    if (room) {
        day->event[day->n_events++] = event;
    }
    refold(day);
    if (!put || !room) {
        day->trouble = error;
    }
    return put && room;
}

/* The guard goes by the machine's own time, also in a rehearsal. */
static bool takes(sl_day *day, sl_event_kind kind, int swatch)
{
    sl_error error = {.code = SL_OK};
    sl_event probe = {.kind = kind, .swatch = swatch};
    char text[SL_DAY_LINE];
    char state[SL_DAY_LINE];
    sl_instant_now(&probe.at, &error);
    sl_event last = day->last_real;
    last.swatch = swatch;
    if (sl_bench_takes(&day->bench, day->any_last ? &last : NULL, &probe)) {
        day->last_real = probe;
        day->any_last = true;
        return true;
    }
    if (sl_bench_takes(&day->bench, NULL, &probe)) {
        sl_day_say(day, true, _("The same key twice at once: taken once."));
    } else if (swatch >= 0) {
        sl_put_state(day, swatch, state, sizeof state);
        snprintf(text, sizeof text, _("Not taken: %s is “%s”."), day->plan[swatch].code, state);
        sl_day_say(day, true, text);
    } else {
        sl_day_say(day, true, _("Not taken."));
    }
    return false;
}

static bool start(sl_day *day)
{
    return day->bench.started || sl_day_keep(day, (sl_event){.kind = SL_EVENT_STARTED, .swatch = -1});
}

static void choose_next(sl_day *day)
{
    if (day->n_due > 0) {
        day->chosen = day->due[0].swatch;
    }
}

/* Late or early, and clocks that disagreed, as a machine reads them. */
static void put_how(const sl_day *day, sl_event *event)
{
    sl_on_the_hair on;
    for (int i = 0; i < day->n_due; i++) {
        const sl_due *const due = &day->due[i];
        if (due->kind == event->kind && due->swatch == event->swatch) {
            event->was_due = true;
            event->late_s = (int)lround(-due->in_s);
        }
    }
    if (event->swatch >= 0 && sl_bench_on_hair(&day->bench, event->swatch, &day->now, &on)) {
        event->clocks = on.since.clocks;
    }
}

static void deed(sl_day *day, sl_event_kind kind)
{
    sl_event event = {.kind = kind, .swatch = day->chosen};
    char late[64] = "", done[96];
    char text[SL_DAY_LINE];
    if (!takes(day, kind, event.swatch)) {
        return;
    }
    if (kind == SL_EVENT_MIXED || kind == SL_EVENT_APPLIED) {
        start(day);
    }
    sl_day_look(day);
    put_how(day, &event);
    if (event.was_due) {
        sl_day_off(event.late_s, late, sizeof late);
    }
    sl_day_deed(&day->bench, event.swatch, kind, done, sizeof done);
    sl_day_keep(day, event);
    snprintf(text, sizeof text, "%s: %s%s%s", day->plan[event.swatch].code, done, late[0] != '\0' ? ", " : "",
             late);
    sl_day_say(day, false, text);
    if (kind != SL_EVENT_MIXED) {
        choose_next(day);
    }
}

/* ---- undoing ------------------------------------------------------------------------------------- */

static void undo(sl_day *day)
{
    const sl_event *const last = sl_bench_to_undo(day->event, day->n_events);
    char text[SL_DAY_LINE], done[96];
    if (last == NULL) {
        sl_day_say(day, true, _("Nothing to undo. A stop is never undone, nor what another program did."));
        return;
    }
    if (!takes(day, SL_EVENT_UNDONE, last->swatch)) {
        return;
    }
    sl_event event = {.kind = SL_EVENT_UNDONE, .swatch = last->swatch};
    snprintf(event.about, sizeof event.about, "%s", last->id);
    const sl_event_kind kind = last->kind;
    if (last->swatch >= 0) {
        day->chosen = last->swatch;
    }
    const int swatch = last->swatch; /* the list may move */
    sl_day_keep(day, event);         /* what is undone stands next again */
    sl_day_deed(&day->bench, swatch, kind, done, sizeof done);
    snprintf(text, sizeof text, _("Undone: %s, %s"), swatch >= 0 ? day->plan[swatch].code : "", done);
    sl_day_say(day, false, text);
    if (day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
    }
}

/* ---- pages ---------------------------------------------------------------------------------------- */

static void sound_tried(sl_day *day, bool heard)
{
    sl_day_keep(day, (sl_event){.kind = heard ? SL_EVENT_SOUND_HEARD : SL_EVENT_SOUND_NOT_HEARD,
                                .swatch = -1,
                                .remark = day->heard ? SL_REMARK_NONE : SL_REMARK_NO_SOUND});
    day->page = SL_DAY_BENCH;
    sl_day_say(day, false,
               heard ? _("Sound heard. Alarms are heard and seen.")
                     : _("Sound not heard: watch the bar, it flashes more. Someone keeps an eye on it."));
}

static void note(sl_day *day, int place)
{
    char text[SL_DAY_LINE];
    if (place < 0 || place >= SL_DAY_NOTES) {
        return;
    }
    const int swatch = day->chosen;
    day->page = SL_DAY_BENCH;
    const sl_remark remark = sl_day_note(place);
    sl_day_keep(day, (sl_event){.kind = SL_EVENT_NOTED, .swatch = swatch, .remark = remark});
    snprintf(text, sizeof text, _("%s: noted “%s”"), day->plan[swatch].code, sl_day_remark(remark));
    sl_day_say(day, false, text);
}

static void go(sl_day *day)
{
    if (day->page == SL_DAY_STOPPED) {
        sl_day_water_off(day);
    } else if (day->page == SL_DAY_SOUND_TEST) {
        sl_day_sound_beep(&day->sound, LATE_BEEPS);
    } else if (day->page == SL_DAY_BOWLS && day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
    } else if (day->page != SL_DAY_BENCH) {
        day->page = SL_DAY_BENCH;
    } else if (!day->bench.started) {
        if (takes(day, SL_EVENT_STARTED, -1) && start(day)) {
            sl_day_say(day, false, _("The clock of the day runs."));
        }
        choose_next(day);
    } else {
        choose_next(day);
    }
}

static void open_page(sl_day *day, sl_day_page page)
{
    day->page = page;
    day->scroll = 0;
}

static void choose(sl_day *day, int swatch)
{
    day->chosen = SDL_clamp(swatch, 0, day->wish.n - 1);
}

/* What is done to the chosen swatch; false when `act` is something else. */
static bool act_deed(sl_day *day, sl_day_act act)
{
    static const struct {
        sl_day_act act;
        sl_event_kind kind;
    } deeds[] = {{SL_ACT_MIXED, SL_EVENT_MIXED},
                 {SL_ACT_APPLIED, SL_EVENT_APPLIED},
                 {SL_ACT_LOOKED, SL_EVENT_LOOKED},
                 {SL_ACT_FELT, SL_EVENT_FELT},
                 {SL_ACT_RINSED, SL_EVENT_RINSED}};
    for (size_t i = 0; i < sizeof deeds / sizeof deeds[0]; i++) {
        if (deeds[i].act == act) {
            deed(day, deeds[i].kind);
            return true;
        }
    }
    return false;
}

static void answer(sl_day *day, int number)
{
    if (day->page == SL_DAY_BOWLS) {
        sl_day_was_told(day, number);
    } else if (day->page == SL_DAY_STOPPED) {
        sl_day_give_reason(day, number);
    } else if (day->page == SL_DAY_NOTE_PAGE) {
        note(day, number);
    }
}

static void close_page(sl_day *day)
{
    day->page = day->page == SL_DAY_BOWLS && day->bench.stopping ? SL_DAY_STOPPED : SL_DAY_BENCH;
}

/* Which page lies over the bench; false when `act` is something else. */
static bool act_page(sl_day *day, sl_day_act act)
{
    if (act == SL_ACT_NOTE) {
        open_page(day, SL_DAY_NOTE_PAGE);
    } else if (act == SL_ACT_CAUTIONS) {
        open_page(day, SL_DAY_CAUTIONS);
    } else if (act == SL_ACT_HELP) {
        open_page(day, SL_DAY_HELP);
    } else if (act == SL_ACT_WATER) {
        day->page = day->bench.stopping ? SL_DAY_STOPPED : day->page;
    } else if (act == SL_ACT_BOWLS) {
        sl_day_open_bowls(day);
    } else if (act == SL_ACT_CLOSE) {
        close_page(day);
    } else {
        return false;
    }
    return true;
}

/* Which swatch is chosen; false when `act` is something else. */
static bool act_choice(sl_day *day, sl_day_act act, int number)
{
    if (act == SL_ACT_BACK || act == SL_ACT_ON) {
        choose(day, day->chosen + (act == SL_ACT_ON ? 1 : -1));
    } else if (act == SL_ACT_ROW) {
        choose(day, number);
    } else {
        return false;
    }
    return true;
}

void sl_day_act_on(sl_day *day, sl_day_act act, int number)
{
    day->dirty = true;
    if (act_deed(day, act) || act_page(day, act) || act_choice(day, act, number)) {
        return;
    }
    if (act == SL_ACT_UNDO) {
        undo(day);
    } else if (act == SL_ACT_GO) {
        go(day);
    } else if (act == SL_ACT_STOP_ALL) {
        sl_day_stop_now(day, -1);
    } else if (act == SL_ACT_STOP_ONE) {
        sl_day_stop_now(day, day->chosen);
    } else if (act == SL_ACT_CHOICE) {
        answer(day, number);
    } else if (act == SL_ACT_HEARD || act == SL_ACT_NOT_HEARD) {
        sound_tried(day, act == SL_ACT_HEARD);
    } else if (act == SL_ACT_SOUND) {
        sl_day_sound_beep(&day->sound, LATE_BEEPS);
    } else if (act == SL_ACT_COVER) {
        day->covered = !day->covered;
    }
}

/* What another program added shows here as if it had been done here; only the choice stays. */
void sl_day_from_elsewhere(sl_day *day)
{
    const int n_new = sl_day_keeper_news(day->keeper, &day->event, &day->capacity, &day->n_events);
    char text[SL_DAY_LINE], done[96];
    bool stop = false;
    if (n_new == 0) {
        return;
    }
    refold(day);
    const sl_event *last = NULL;
    for (int i = sl_news_begin(day->event, day->n_events, n_new); i < day->n_events; i++) {
        const sl_event *const event = &day->event[i];
        last = event->elsewhere ? event : last;
        stop = stop || (event->elsewhere && event->kind == SL_EVENT_STOPPED && event->about[0] == '\0');
    }
    const bool known = last != NULL && last->swatch >= 0;
    snprintf(done, sizeof done, "%s%s%s", known ? day->plan[last->swatch].code : "", known ? ": " : "",
             last != NULL ? sl_day_done(last->kind) : "");
    snprintf(text, sizeof text, n_new == 1 ? _("From elsewhere: %s") : _("From elsewhere: %s, and %d more"),
             done, n_new - 1);
    sl_day_say(day, false, text);
    if (stop && day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
        day->sure = false;
        sl_day_sound_beep(&day->sound, RINSE_BEEPS);
    } else if (day->page == SL_DAY_STOPPED && !day->bench.stopping) {
        day->page = SL_DAY_BENCH;
    }
}

void sl_day_begin(sl_day *day)
{
    refold(day);
    choose_next(day);
    for (int i = 0; day->n_due == 0 && i < day->wish.n; i++) { /* whose turn it is by the plan */
        const int contact = day->plan[i].contact_s;
        const int best = day->plan[day->chosen].contact_s;
        day->chosen = contact >= 0 && (best < 0 || contact < best) ? i : day->chosen;
    }
    if (day->clock.speed > 1.0) {
        sl_day_keep(day, (sl_event){.kind = SL_EVENT_NOTED, .swatch = -1, .elsewhere = true}); /* its speed */
    }
    if (day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
    } else if (!day->bench.sound_tried) {
        day->page = SL_DAY_SOUND_TEST;
        sl_day_sound_beep(&day->sound, LATE_BEEPS);
    } else {
        sl_day_say(day, false, _("The log was read again: it goes on where it was."));
    }
}
