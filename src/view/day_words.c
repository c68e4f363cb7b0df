/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day in words. Minutes here are the bench's own clock, read off and counted down; none is a
 * prediction.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "view/day.h"

void sl_put_span(double seconds, char *text, size_t size)
{
    const int s = (int)floor(fabs(seconds) + 0.5);
    if (s >= 3600) {
        snprintf(text, size, "%d:%02d:%02d", s / 3600, s / 60 % 60, s % 60);
    } else {
        snprintf(text, size, "%d:%02d", s / 60, s % 60);
    }
}

const char *sl_due_verb(const sl_due *due)
{
    return due->kind == SL_EVENT_APPLIED  ? _("put the mix on")
           : due->kind == SL_EVENT_LOOKED ? _("wipe and look")
           : due->kind == SL_EVENT_FELT   ? _("skin, heat, stretch")
           : due->by_label                ? _("rinse: label’s time")
                                          : _("rinse");
}

void sl_put_when(double in_s, char *text, size_t size)
{
    char span[24];
    sl_put_span(in_s, span, sizeof span);
    if (fabs(in_s) < 0.5) {
        snprintf(text, size, "%s", _("now"));
    } else {
        snprintf(text, size, in_s < 0.0 ? _("late by %s") : _("in %s"), span);
    }
}

void sl_put_due(const sl_day *day, const sl_due *due, char *text, size_t size)
{
    char when[48];
    sl_put_when(due->in_s, when, sizeof when);
    snprintf(text, size, "%s: %s %s", day->plan[due->swatch].code, sl_due_verb(due), when);
}

void sl_put_state(const sl_day *day, int swatch, char *text, size_t size)
{
    const sl_bench_state *const state = &day->bench.state[swatch];
    sl_on_the_hair on;
    char span[24];
    char off[24];
    if (!sl_bench_on_hair(&day->bench, swatch, &day->now, &on)) {
        snprintf(text, size, "%s",
                 day->plan[swatch].contact_s < 0 ? _("nothing is put on")
                 : state->mixed                  ? _("waiting, mixed")
                                                 : _("waiting"));
        return;
    }
    sl_put_span(on.since.seconds, span, sizeof span);
    sl_put_span(on.late_s, off, sizeof off);
    if (state->stage == SL_STAGE_ON_HAIR) {
        snprintf(text, size, _("on hair %s"), span);
    } else if (fabs(on.late_s) < 0.5) {
        snprintf(text, size, _("rinsed at %s"), span);
    } else {
        snprintf(text, size, on.late_s > 0.0 ? _("rinsed at %s, %s late") : _("rinsed at %s, %s early"), span,
                 off);
    }
}

void sl_put_label(const sl_day *day, int swatch, char *text, size_t size)
{
    const sl_bench_swatch *const plan = &day->plan[swatch];
    sl_on_the_hair on;
    char left[24];
    if (plan->contact_s < 0) {
        text[0] = '\0';
    } else if (plan->label_s <= 0) {
        snprintf(text, size, "%s", _("Label’s time: not entered. Read the packet; swatches only."));
    } else if (!sl_bench_on_hair(&day->bench, swatch, &day->now, &on) ||
               day->bench.state[swatch].stage != SL_STAGE_ON_HAIR) {
        snprintf(text, size,
                 plan->from_mixing ? _("Label: at most %d min from mixing") : _("Label: at most %d min"),
                 plan->label_s / 60);
    } else {
        sl_put_span(on.label_left_s, left, sizeof left);
        snprintf(text, size,
                 on.label_left_s < 0.0 ? _("Label: at most %d min. OVER by %s: rinse now")
                                       : _("Label: at most %d min, %s left of it"),
                 plan->label_s / 60, left);
    }
}

const char *sl_stop_signs(void)
{
    return _("Rinse at once, whatever the clock says: skin stings or burns; it turns hot, fizzes, smokes or "
             "smells odd; hair stays long after a pull, feels like gum or snaps; the label’s time is over.");
}

static const struct {
    sl_stop_reason reason;
    const char *word;
} reasons[SL_DAY_REASONS] = {
    {SL_REASON_EYES, N_("in an eye")},           {SL_REASON_SKIN, N_("skin: stings, burns")},
    {SL_REASON_HEAT, N_("heat, fizz, smell")},   {SL_REASON_DAMAGE, N_("hair: gum, snaps")},
    {SL_REASON_LABEL, N_("label’s time")},       {SL_REASON_GOAL, N_("goal is reached")},
    {SL_REASON_DRIED, N_("it dried out")},       {SL_REASON_PLAN, N_("plan was changed")},
    {SL_REASON_MISTAKE, N_("pressed in error")},
};

sl_stop_reason sl_day_reason_at(int place)
{
    return reasons[place].reason;
}

const char *sl_day_reason_word(int place)
{
    return _(reasons[place].word);
}

/* Gloves do not type: what happens most can be noted with one key. */
const char *sl_day_note_word(int place)
{
    static const char *const notes[SL_DAY_NOTE_WORDS] = {
        N_("mix ran or dripped"),  N_("edge dried"),     N_("feels warm"),          N_("foam or bubbles"),
        N_("odd smell or colour"), N_("cover came off"), N_("more mix was put on"), N_("see the paper"),
    };
    return _(notes[place]);
}
