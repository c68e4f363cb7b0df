/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day in words. Minutes here are the bench's own clock, read off and counted down; none is a
 * prediction.
 */
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "view/day/day.h"

void sl_put_due_verb(const sl_day *day, const sl_due *due, char *text, size_t size)
{
    const int piece_min = sl_bench_piece_min(&day->bench, due->swatch);
    if (due->kind == SL_EVENT_LOOKED && piece_min >= 0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("cut off, rinse %d min piece"), piece_min);
        return;
    }
    const int round = day->bench.state[due->swatch].round;
    if (due->kind == SL_EVENT_APPLIED && round > 0) {
        snprintf(text, size, _("put fresh mix on (%d of %d)"), round + 1, day->plan[due->swatch].n_more + 1);
        return;
    }
    snprintf(text, size, "%s",
             due->kind == SL_EVENT_APPLIED  ? _("put the mix on")
             : due->kind == SL_EVENT_LOOKED ? _("wipe and look")
             : due->kind == SL_EVENT_FELT   ? _("skin, heat, stretch")
             : due->by_label                ? _("rinse: label’s time")
                                            : _("rinse"));
}

void sl_put_due(const sl_day *day, const sl_due *due, char *text, size_t size)
{
    char when[48], verb[96];
    sl_day_when(due->in_s, when, sizeof when);
    sl_put_due_verb(day, due, verb, sizeof verb);
    snprintf(text, size, "%s: %s %s", day->plan[due->swatch].code, verb, when);
}

void sl_put_eye(const sl_day *day, char *text, size_t size)
{
    double runs_s = 0.0, least_s = 0.0;
    char runs[24], left[24];
    sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s);
    sl_day_span(runs_s, runs, sizeof runs);
    sl_day_span(least_s - runs_s, left, sizeof left);
    snprintf(text, size,
             runs_s < least_s ? _("WATER ON THE EYE %s, %s to go")
                              : _("WATER ON THE EYE %s: 15 minutes are over. Medical help?"),
             runs, left);
}

void sl_put_state(const sl_day *day, int swatch, char *text, size_t size)
{
    const sl_bench_state *const state = &day->bench.state[swatch];
    sl_on_the_hair on;
    char span[24];
    char off[48];
    if (!sl_bench_on_hair(&day->bench, swatch, &day->now, &on) && state->round > 0) {
        snprintf(text, size, _("rinsed; fresh mix %d of %d"), state->round + 1, day->plan[swatch].n_more + 1);
        return;
    }
    if (!sl_bench_on_hair(&day->bench, swatch, &day->now, &on)) {
        snprintf(text, size, "%s",
                 day->plan[swatch].contact_s < 0 ? _("nothing is put on")
                 : state->mixed                  ? _("waiting, mixed")
                                                 : _("waiting"));
        return;
    }
    sl_day_span(on.since.seconds, span, sizeof span);
    sl_day_off(on.late_s, off, sizeof off);
    if (state->stage == SL_STAGE_ON_HAIR) {
        snprintf(text, size, _("on hair %s"), span);
    } else {
        snprintf(text, size, state->stopped ? _("stopped at %s, %s") : _("rinsed at %s, %s"), span, off);
    }
}
