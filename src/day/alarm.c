/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What calls: seen, told and heard, again and again while it is late. By the machine's own time, since a
 * rehearsal's alarms would else never be silent.
 */
#include <stdio.h>

#include "base/language.h"
#include "day/deeds.h"
#include "slowlift/report.h"

static const double TELL_RINSE_S = 15.0, TELL_OTHER_S = 60.0; /* in words */
static const double BEEP_RINSE_S = 2.5, BEEP_OTHER_S = 10.0;  /* without */

static int ring_of(sl_event_kind kind)
{
    return kind == SL_EVENT_APPLIED  ? 0
           : kind == SL_EVENT_LOOKED ? 1
           : kind == SL_EVENT_FELT   ? 2
           : kind == SL_EVENT_MIXED  ? 3
                                     : 4;
}

static bool rings(sl_day *day, const sl_due *due, double machine_s)
{
    sl_day_ring *const ring = &day->ring[due->swatch][ring_of(due->kind)];
    if (due->in_s > 0.5) {
        ring->rung = false;
        return false;
    }
    const double again_s = due->kind == SL_EVENT_RINSED ? TELL_RINSE_S : TELL_OTHER_S;
    if (!sl_bench_calls(&day->bench, due, &day->now) || (ring->rung && machine_s - ring->at_s < again_s)) {
        return false;
    }
    *ring = (sl_day_ring){true, machine_s};
    return true;
}

/* Of an eye; once. */
static bool water_is_over(sl_day *day, sl_day_effects *effects)
{
    double runs_s = 0.0, least_s = 0.0;
    const bool over =
        sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s) && least_s > 0.0 && runs_s >= least_s;
    const bool tells = over && !day->water_told;
    if (tells) {
        sl_effect_tell(effects, SL_DAY_CALL, "%s",
                       _("ALARM: the eyes have had 15 minutes of water. Medical help still has to see them. "
                         "o is water off."));
    }
    day->water_told = over;
    return tells;
}

void sl_day_calls(sl_day *day, sl_day_effects *effects)
{
    const double machine_s = sl_day_machine_s(day);
    char text[SL_DAY_WORDS];
    bool any = water_is_over(day, effects);
    for (int i = 0; i < day->n_due && effects->n < SL_DAY_MOST_EFFECTS - SL_DAY_SPARE_EFFECTS; i++) {
        if (rings(day, &day->due[i], machine_s)) {
            sl_day_due_words(day, &day->due[i], text, sizeof text);
            sl_effect_tell(effects, SL_DAY_CALL, _("ALARM %s."), text);
            any = true;
        }
    }
    const bool rinse = day->n_late > 0 && day->due[0].kind == SL_EVENT_RINSED;
    const bool goes_on =
        day->n_late > 0 && machine_s - day->sounded_s >= (rinse ? BEEP_RINSE_S : BEEP_OTHER_S);
    if (any || day->n_late > day->was_late || goes_on) {
        sl_effect_sound(effects, rinse ? SL_DAY_RINSE_BEEPS : SL_DAY_LATE_BEEPS, !any);
        day->sounded_s = machine_s;
    }
    day->was_late = day->n_late;
}

static void tell_waiting(const sl_day *day, sl_day_effects *effects)
{
    char cause[SL_ERROR_FILE_SIZE + 3 * SL_ERROR_TEXT_SIZE];
    if (day->fault.code == SL_OK) {
        snprintf(cause, sizeof cause, "%s", _("it is slow to answer"));
    } else {
        sl_error_sentence(&day->fault, cause, sizeof cause);
    }
    sl_effect_tell(effects, SL_DAY_FAULT,
                   _("THE LOG CANNOT BE WRITTEN: %s. %d kept in memory and tried again each second. "
                     "Go on; write it on paper too."),
                   cause, day->waiting);
    sl_effect_sound(effects, SL_DAY_LATE_BEEPS, false);
}

void sl_day_tell_fault(sl_day *day, sl_day_effects *effects)
{
    const bool unread = sl_day_unread(day);
    if (day->waiting > day->told_waiting) {
        tell_waiting(day, effects);
    } else if (day->waiting == 0 && day->told_waiting > 0) {
        sl_effect_tell(effects, SL_DAY_FAULT, "%s", _("The log can be written again; everything is in it."));
    }
    if (unread && !day->told_unread) {
        sl_effect_tell(effects, SL_DAY_FAULT,
                       _("What others write cannot be read: %s; %s. This clock goes on."), day->fault.found,
                       day->fault.wanted);
    }
    day->told_waiting = day->waiting;
    day->told_unread = unread;
}
