/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is done to a swatch: each deed is an event that is kept before it is told.
 *
 * Invariant: the same deed again within SL_KEY_GUARD_S is not taken, for any swatch: a key that bounces must
 * not reach the next one.
 */
#include "day/deeds.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"

/* ---- choosing --------------------------------------------------------------------------------------- */

void sl_day_choose_next(sl_day *day)
{
    if (day->n_due > 0) {
        day->chosen = day->due[0].swatch;
    }
}

void sl_day_choose(sl_day *day, int swatch, sl_day_effects *effects)
{
    char state[SL_DAY_WORDS];
    day->chosen = swatch < 0 ? 0 : swatch >= day->n ? day->n - 1 : swatch;
    sl_day_state(&day->bench, day->chosen, &day->now, state, sizeof state);
    sl_effect_tell(effects, SL_DAY_SAY, _("Chosen: %s."), state);
}

/* ---- what may follow -------------------------------------------------------------------------------- */

/* As if the clock of the day were the machine's: the guard runs by that, also in a rehearsal. */
static sl_event by_machine(const sl_day *day, sl_event event)
{
    event.at.boot_ns = event.at.wall_ns = (int64_t)((double)event.at.boot_ns / day->speed);
    return event;
}

/* act: whose row says why it does not follow. */
static bool takes(sl_day *day, sl_day_act act, const sl_event *next, sl_day_effects *effects)
{
    sl_event last = by_machine(day, day->last), key = *next;
    key.at = day->now;
    last.swatch = key.swatch;
    const sl_event probe = by_machine(day, key);
    if (sl_bench_takes(&day->bench, day->any_last ? &last : NULL, &probe)) {
        day->last = key;
        day->any_last = true;
        return true;
    }
    if (sl_bench_takes(&day->bench, NULL, &probe)) {
        sl_effect_tell(effects, SL_DAY_REFUSE, "%s", _("The same key twice within a second: taken once."));
    } else {
        sl_effect_tell(effects, SL_DAY_REFUSE, _("Not taken: %s: %s."), day->plan[day->chosen].code,
                       sl_day_why_not(day, act));
    }
    return false;
}

/* ---- deeds ------------------------------------------------------------------------------------------ */

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

void sl_day_start(sl_day *day, sl_day_effects *effects)
{
    sl_event event = {.kind = SL_EVENT_STARTED, .swatch = -1};
    if (takes(day, SL_ACT_START, &event, effects)) {
        sl_day_keep(day, &event, "", effects);
        sl_effect_tell(effects, SL_DAY_SAY, "%s.", sl_day_done(SL_EVENT_STARTED));
    }
}

void sl_day_do_deed(sl_day *day, sl_day_act act, sl_day_effects *effects)
{
    static const sl_event_kind kinds[] = {[SL_ACT_MIXED] = SL_EVENT_MIXED,
                                          [SL_ACT_APPLIED] = SL_EVENT_APPLIED,
                                          [SL_ACT_LOOKED] = SL_EVENT_LOOKED,
                                          [SL_ACT_FELT] = SL_EVENT_FELT,
                                          [SL_ACT_RINSED] = SL_EVENT_RINSED};
    const sl_event_kind kind = kinds[act];
    sl_event event = {.kind = kind, .swatch = day->chosen};
    char off[64] = "", done[SL_DAY_WORDS / 2];
    if (!takes(day, act, &event, effects)) {
        return;
    }
    if (kind == SL_EVENT_APPLIED && !day->bench.started) { /* it lies there, whatever the plan says */
        sl_event start = {.kind = SL_EVENT_STARTED, .swatch = -1};
        sl_day_keep(day, &start, "", effects);
    }
    put_how(day, &event);
    sl_day_deed(&day->bench, event.swatch, kind, done, sizeof done);
    sl_day_keep(day, &event, "", effects);
    if (event.was_due) {
        sl_day_off(event.late_s, off, sizeof off);
        sl_effect_tell(effects, SL_DAY_SAY, "%s: %s, %s.", day->plan[event.swatch].code, done, off);
    } else {
        sl_effect_tell(effects, SL_DAY_SAY, "%s: %s.", day->plan[event.swatch].code, done);
    }
    if (kind == SL_EVENT_LOOKED || kind == SL_EVENT_RINSED) {
        sl_effect_show(effects, SL_DAY_MODEL, event.swatch);
    }
    if (kind != SL_EVENT_MIXED) {
        sl_day_choose_next(day);
    }
    sl_effect_show(effects, SL_DAY_NEXT, -1);
    if (kind == SL_EVENT_MIXED) {
        sl_day_ask_measure(day, event.swatch, effects);
    }
}

void sl_day_put_note(sl_day *day, sl_remark remark, const char *words, sl_day_effects *effects)
{
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = day->chosen, .remark = remark};
    put_how(day, &event);
    sl_day_keep(day, &event, words, effects);
    sl_effect_tell(effects, SL_DAY_SAY, _("%s: note: %s."), day->plan[event.swatch].code,
                   words[0] != '\0' ? words : sl_day_remark(remark));
}

void sl_day_tick(sl_day *day, int number, sl_day_effects *effects)
{
    if (number < 0 || number >= SL_DAY_TICKS || day->bench.ticked[number]) {
        return;
    }
    sl_event event = {
        .kind = SL_EVENT_NOTED, .swatch = -1, .remark = (sl_remark)(SL_REMARK_END_LEFTOVERS + number)};
    sl_day_keep(day, &event, "", effects);
    sl_effect_tell(effects, SL_DAY_SAY, _("Ticked: %s."), sl_day_remark(event.remark));
    if (sl_bench_unticked(&day->bench) == 0) {
        day->page = SL_DAY_BENCH;
        sl_effect_tell(effects, SL_DAY_SAY, "%s", _("All is ticked; the day is at its end."));
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    }
}

void sl_day_say_clean(sl_day *day, sl_day_effects *effects)
{
    const sl_event *const contact = sl_bench_doubted(day->event, day->n_events, day->chosen);
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = day->chosen, .remark = SL_REMARK_CLEAN};
    if (contact) {
        memcpy(event.about, contact->id, sizeof event.about);
        sl_day_keep(day, &event, "", effects);
        sl_effect_tell(effects, SL_DAY_SAY, "%s: %s.", day->plan[event.swatch].code,
                       sl_day_remark(SL_REMARK_CLEAN));
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    }
}

void sl_day_undo(sl_day *day, sl_day_effects *effects)
{
    const sl_event undone = *sl_bench_to_undo(day->event, day->n_events); /* the list may move */
    sl_event event = {.kind = SL_EVENT_UNDONE, .swatch = undone.swatch};
    char done[SL_DAY_WORDS / 2];
    snprintf(event.about, sizeof event.about, "%s", undone.id);
    event.remark = undone.kind == SL_EVENT_APPLIED ? SL_REMARK_UNCLEAN : SL_REMARK_NONE;
    if (!takes(day, SL_ACT_UNDO, &event, effects)) {
        return;
    }
    sl_day_keep(day, &event, "", effects);
    sl_day_deed(&day->bench, undone.swatch, undone.kind, done, sizeof done);
    if (undone.swatch >= 0) {
        day->chosen = undone.swatch;
        sl_effect_tell(effects, SL_DAY_SAY, _("Undone: %s: %s."), day->plan[undone.swatch].code, done);
    } else {
        sl_effect_tell(effects, SL_DAY_SAY, _("Undone: %s."), done);
    }
    if (event.remark == SL_REMARK_UNCLEAN) {
        sl_effect_tell(
            effects, SL_DAY_SAY,
            _("%s: its clock runs on until you say that the hair is clean: Y. Mix that did touch it "
              "goes on working."),
            day->plan[undone.swatch].code);
    }
    if (day->bench.stopping) {
        day->page = SL_DAY_STOPPED;
    }
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}

/* ---- the sound -------------------------------------------------------------------------------------- */

void sl_day_test_sound(sl_day *day, sl_day_effects *effects)
{
    day->page = SL_DAY_SOUND_TEST;
    sl_effect_sound(effects, SL_DAY_LATE_BEEPS, false);
    sl_effect_show(effects, SL_DAY_SOUND_TEST, -1);
}

void sl_day_heard(sl_day *day, bool heard, sl_day_effects *effects)
{
    sl_event event = {.kind = heard ? SL_EVENT_SOUND_HEARD : SL_EVENT_SOUND_NOT_HEARD,
                      .swatch = -1,
                      .remark = day->plays ? SL_REMARK_NONE : SL_REMARK_NO_SOUND};
    sl_day_keep(day, &event, "", effects);
    day->page = SL_DAY_BENCH;
    if (heard) {
        sl_effect_tell(effects, SL_DAY_SAY, "%s", _("Sound heard: alarms are heard and seen."));
    } else {
        sl_effect_tell(effects, SL_DAY_SAY, "%s",
                       _("Sound not heard: alarms are seen only. Keep them in sight, and set a kitchen timer "
                         "too."));
    }
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}
