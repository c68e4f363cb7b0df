/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * STOP AND RINSE, and what follows: why, the water, what was in the bowls for a doctor, who was told.
 * Invariant: a stop is kept before anything is asked.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "view/day/day.h"

sl_day_record sl_day_record_of(const sl_day *day)
{
    return (sl_day_record){.swatch = day->plan,
                           .arm = day->arm_name,
                           .n = day->wish.n,
                           .event = day->event,
                           .n_events = day->n_events,
                           .scene = day->wish.scene};
}

void sl_day_stop_now(sl_day *day, int swatch)
{
    sl_day_keep(day, (sl_event){.kind = SL_EVENT_STOPPED, .swatch = swatch, .reason = SL_REASON_UNSAID});
    day->page = SL_DAY_STOPPED;
    day->sure = false;
    day->said[0] = '\0';
    sl_day_sound_beep(&day->sound, 1);
}

/* ---- for a doctor ---------------------------------------------------------------------------------- */

static void keep_about(sl_day *day, const char *stop, sl_remark remark, bool of_a_key)
{
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1, .remark = remark, .elsewhere = !of_a_key};
    snprintf(event.about, sizeof event.about, "%s", stop);
    sl_day_keep(day, event);
}

/* Where the strip was covered somebody judged blind: that it was opened is kept. */
void sl_day_open_bowls(sl_day *day)
{
    const sl_event *const stopped = sl_day_last_stop(day->event, day->n_events);
    bool opened = false;
    if (stopped == NULL) {
        sl_day_say(day, true, _("Nothing was stopped yet."));
        return;
    }
    for (int i = 0; i < day->n_events; i++) {
        opened = opened ||
                 (day->event[i].remark == SL_REMARK_OPENED && strcmp(day->event[i].about, stopped->id) == 0);
    }
    if (day->covered && !opened) {
        keep_about(day, stopped->id, SL_REMARK_OPENED, false);
    }
    day->page = SL_DAY_BOWLS;
    day->said[0] = '\0';
}

void sl_day_was_told(sl_day *day, int place)
{
    const sl_event *const stopped = sl_day_last_stop(day->event, day->n_events);
    if (stopped == NULL || place < 0 || place >= SL_DAY_TOLD) {
        return;
    }
    keep_about(day, stopped->id, sl_day_told(place), true);
    sl_day_say(day, false, sl_day_remark(sl_day_told(place)));
}

void sl_day_give_reason(sl_day *day, int place)
{
    const sl_event *const stopped = sl_day_last_stop(day->event, day->n_events);
    const char *words = "";
    if (stopped == NULL || place < 0 || place >= SL_DAY_REASONS) {
        return;
    }
    sl_event event = {
        .kind = SL_EVENT_STOPPED, .swatch = stopped->swatch, .reason = sl_day_reason(place, &words)};
    snprintf(event.about, sizeof event.about, "%s", stopped->id);
    sl_day_keep(day, event);
    sl_day_say(day, false, words);
    if (sl_day_is_medical(event.reason)) {
        sl_day_open_bowls(day);
    }
}

void sl_day_water_off(sl_day *day)
{
    double runs = 0.0;
    double least = 0.0;
    if (!sl_bench_stop_water(&day->bench, &day->now, &runs, &least)) {
        day->page = SL_DAY_BENCH;
        return;
    }
    const bool unsaid = day->bench.stop_reason == SL_REASON_UNSAID;
    if (!day->sure && (unsaid || runs < least)) {
        day->sure = true;
        sl_day_say(
            day, true,
            unsaid
                ? _("Why was it stopped? Press its number; Enter again leaves it unsaid.")
                : _("An eye needs 15 minutes of water. Enter again only if someone medical has taken over."));
        return;
    }
    sl_day_keep(day, (sl_event){.kind = SL_EVENT_WASHED_OUT, .swatch = -1});
    day->page = SL_DAY_BENCH;
    day->sure = false;
    sl_day_say(day, false, _("The water is off."));
}
