/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * For a doctor, after a stop: what was in the bowls, also in a blind test, where the log keeps that it was
 * told; and who was told.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "command/day/day.h"
#include "report/plan/day.h"

sl_day_record sl_terminal_record_of(const sl_terminal_day *day)
{
    return (sl_day_record){.swatch = day->plan,
                           .arm = day->arm,
                           .n = day->n,
                           .event = day->event,
                           .n_events = day->n_events,
                           .scene = day->scene};
}

static void keep_about(sl_terminal_day *day, const char *stop, sl_remark remark, bool of_a_key)
{
    sl_event event = {.kind = SL_EVENT_NOTED,
                      .swatch = -1,
                      .at = day->now,
                      .reason = SL_REASON_UNSAID,
                      .remark = remark,
                      .elsewhere = !of_a_key};
    snprintf(event.about, sizeof event.about, "%s", stop);
    sl_terminal_keep_event(day, &event, "");
}

static bool was_opened(const sl_terminal_day *day, const char *stop)
{
    for (int i = 0; i < day->n_events; i++) {
        if (day->event[i].remark == SL_REMARK_OPENED && strcmp(day->event[i].about, stop) == 0) {
            return true;
        }
    }
    return false;
}

void sl_terminal_tell_bowls(sl_terminal_day *day)
{
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    if (!stop) {
        sl_terminal_say(day, "%s", _("Nothing was stopped yet."));
        return;
    }
    char id[SL_UUID];
    memcpy(id, stop->id, sizeof id); /* the list may move */
    sl_terminal_say_bowls(day, stop);
    if (day->blind && !was_opened(day, id)) {
        keep_about(day, id, SL_REMARK_OPENED, false);
        sl_terminal_say(day, "%s", _("This test was blind; that its bowls were told is kept in the log."));
    }
    sl_terminal_ask_told(day);
}

void sl_terminal_was_told(sl_terminal_day *day, int place)
{
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    const sl_remark remark = sl_day_told(place);
    if (stop) {
        keep_about(day, stop->id, remark, true);
        sl_terminal_say(day, _("Kept: %s."), sl_day_remark(remark));
    }
}
