/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * STOP AND RINSE, and what follows: why, the water, what was in the bowls for a doctor, who was told.
 * Invariant: a stop is kept before anything is asked.
 */
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "day/deeds.h"

bool sl_day_asks_again(sl_day *day, sl_day_act act)
{
    const bool asks = !day->is_sure || day->sure != act;
    day->is_sure = true;
    day->sure = act;
    return asks;
}

static void keep_about(sl_day *day, sl_remark remark, bool of_a_key, sl_day_effects *effects)
{
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1, .remark = remark, .elsewhere = !of_a_key};
    memcpy(event.about, sl_day_last_stop(day->event, day->n_events)->id, sizeof event.about);
    sl_day_keep(day, &event, "", effects);
}

static bool was_opened(const sl_day *day, const char *stop)
{
    for (int i = 0; i < day->n_events; i++) {
        if (day->event[i].remark == SL_REMARK_OPENED && strcmp(day->event[i].about, stop) == 0) {
            return true;
        }
    }
    return false;
}

/* Also where somebody judges blind; then the log keeps that it was told. */
static void open_bowls(sl_day *day, sl_day_effects *effects)
{
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    if (stop && sl_day_blind(day) && !was_opened(day, stop->id)) {
        keep_about(day, SL_REMARK_OPENED, false, effects);
        sl_effect_tell(effects, SL_DAY_SAY, "%s",
                       _("This test was blind; that its bowls were told is kept in the log."));
    }
}

void sl_day_stop(sl_day *day, int swatch, sl_day_effects *effects)
{
    sl_event event = {.kind = SL_EVENT_STOPPED, .swatch = swatch, .reason = SL_REASON_UNSAID};
    sl_day_keep(day, &event, "", effects);
    day->page = SL_DAY_STOPPED;
    day->typing = SL_TYPES_NOTHING;
    day->is_sure = day->water_told = false;
    sl_effect_show(effects, SL_DAY_STOPPED, -1);
    sl_effect_sound(effects, 1, false);
    open_bowls(day, effects);
}

/* "EK9, KV3"; of many, how many. */
static void on_hair_words(const sl_day *day, char *text, size_t size)
{
    enum { NAMED = 4 };
    int n = 0;
    text[0] = '\0';
    for (int i = 0; i < day->bench.n; i++) {
        if (day->bench.state[i].stage == SL_STAGE_ON_HAIR && ++n <= NAMED) {
            sl_append_item(text, size, ", ", "%s", day->plan[i].code);
        }
    }
    if (n > NAMED) {
        snprintf(text, size, sl_plural("all %d on hair", "all %d on hair", n), n);
    }
}

bool sl_day_asks_words(const sl_day *day, char *text, size_t size)
{
    char swatches[SL_DAY_WORDS];
    if (!day->is_sure || day->sure != SL_ACT_ASK_STOP ||
        sl_day_machine_s(day) - day->asked_s > SL_DAY_ASKED_S) {
        return false;
    }
    on_hair_words(day, swatches, sizeof swatches);
    if (swatches[0] != '\0') {
        snprintf(text, size, _("STOP AND RINSE %s? Space again or S."), swatches);
    } else {
        snprintf(text, size, "%s", _("Nothing is on hair. STOP AND RINSE all the same? Space again or S."));
    }
    return true;
}

/* A habit of other programs, where this key plays, must not end a test: it takes a second press, which counts
 * only while it was not forgotten what was asked. */
void sl_day_ask_stop(sl_day *day, sl_day_effects *effects)
{
    char text[SL_DAY_WORDS];
    if (sl_day_asks_words(day, text, sizeof text)) {
        sl_day_stop(day, -1, effects);
        return;
    }
    sl_day_asks_again(day, SL_ACT_ASK_STOP);
    day->asked_s = sl_day_machine_s(day);
    sl_day_asks_words(day, text, sizeof text);
    sl_effect_sound(effects, 1, false);
    sl_effect_tell(effects, SL_DAY_REFUSE, "%s", text);
}

void sl_day_give_reason(sl_day *day, int place, sl_day_effects *effects)
{
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    const char *words = "";
    if (!stop || place < 0 || place >= SL_DAY_REASONS) {
        return;
    }
    sl_event event = {
        .kind = SL_EVENT_STOPPED, .swatch = stop->swatch, .reason = sl_day_reason(place, &words)};
    memcpy(event.about, stop->id, sizeof event.about);
    sl_day_keep(day, &event, "", effects);
    sl_effect_tell(effects, SL_DAY_SAY, _("Reason: %s."), words);
    if (event.reason == SL_REASON_EYES) {
        sl_effect_tell(effects, SL_DAY_SAY, "%s",
                       _("Eyes: let the water run for 15 minutes and call for medical help. The time is "
                         "shown; o, when it is over."));
        sl_effect_show(effects, SL_DAY_NEXT, -1); /* what waits, and whose hair does not */
    }
    if (sl_day_is_medical(event.reason)) {
        sl_day_tell_bowls(day, effects);
    }
}

void sl_day_water_off(sl_day *day, sl_day_effects *effects)
{
    double runs_s = 0.0, least_s = 0.0;
    sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s);
    const bool unsaid = day->bench.stop_reason == SL_REASON_UNSAID;
    char left[24];
    if ((unsaid || least_s > runs_s) && sl_day_asks_again(day, SL_ACT_WATER)) {
        day->page = SL_DAY_STOPPED;
        sl_day_span(least_s - runs_s, left, sizeof left);
        if (unsaid) {
            sl_effect_tell(effects, SL_DAY_REFUSE, "%s",
                           _("Why was it stopped? Press its number; o again leaves it unsaid."));
        } else {
            sl_effect_tell(
                effects, SL_DAY_REFUSE,
                _("An eye needs 15 minutes of water; %s to go. o again only if someone medical has "
                  "taken over."),
                left);
        }
        return;
    }
    sl_event event = {.kind = SL_EVENT_WASHED_OUT, .swatch = -1};
    sl_day_keep(day, &event, "", effects);
    day->page = SL_DAY_BENCH;
    day->is_sure = false;
    sl_effect_tell(effects, SL_DAY_SAY, "%s.", sl_day_done(SL_EVENT_WASHED_OUT));
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}

/* ---- for a doctor ----------------------------------------------------------------------------------- */

void sl_day_tell_bowls(sl_day *day, sl_day_effects *effects)
{
    open_bowls(day, effects);
    day->page = SL_DAY_BOWLS;
    sl_effect_show(effects, SL_DAY_BOWLS, -1);
}

void sl_day_was_told(sl_day *day, int place, sl_day_effects *effects)
{
    if (place < 0 || place >= SL_DAY_TOLD || !sl_day_last_stop(day->event, day->n_events)) {
        return;
    }
    keep_about(day, sl_day_told(place), true, effects);
    sl_effect_tell(effects, SL_DAY_SAY, _("Kept: %s."), sl_day_remark(sl_day_told(place)));
}
