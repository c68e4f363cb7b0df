/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day.h.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/plan/day.h"

const char *sl_day_mark(bool rehearsed)
{
    return rehearsed ? _("REHEARSAL | ") : "";
}

void sl_day_span(double seconds, char *text, size_t size)
{
    const long s = lround(fabs(seconds));
    if (s >= 3600) {
        sl_minute_words(SL_MINUTE_CLOCK, text, size, "%ld:%02ld:%02ld", s / 3600, s / 60 % 60, s % 60);
    } else {
        sl_minute_words(SL_MINUTE_CLOCK, text, size, "%ld:%02ld", s / 60, s % 60);
    }
}

void sl_day_when(double in_s, char *text, size_t size)
{
    char span[32];
    sl_day_span(in_s, span, sizeof span);
    if (fabs(in_s) < 0.5) {
        snprintf(text, size, "%s", _("now"));
    } else {
        snprintf(text, size, in_s < 0.0 ? _("%s late") : _("in %s"), span);
    }
}

void sl_day_off(double late_s, char *text, size_t size)
{
    char span[32];
    sl_day_span(late_s, span, sizeof span);
    if (fabs(late_s) < SL_DAY_ON_TIME_S) {
        snprintf(text, size, "%s", _("on time"));
    } else {
        snprintf(text, size, late_s > 0.0 ? _("%s late") : _("%s early"), span);
    }
}

/* What is to be done, in a sentence and where room is short. */
static const char *due_words(const sl_due *due, bool brief)
{
    if (due->kind == SL_EVENT_APPLIED) {
        return _("put the mix on");
    }
    if (due->kind == SL_EVENT_MIXED) {
        return _("mix its bowl");
    }
    if (due->kind == SL_EVENT_NOTED) {
        return due->remark == SL_REMARK_LEFT_OPEN
                   ? (brief ? _("leftover: no lid") : _("leave its leftover open, no lid"))
                   : (brief ? _("empty when quiet") : _("empty its leftover once it is quiet"));
    }
    if (due->kind == SL_EVENT_LOOKED) {
        return _("wipe and look");
    }
    if (due->kind == SL_EVENT_FELT) {
        return brief ? _("skin, heat, stretch") : _("feel skin, heat and stretch");
    }
    return !due->by_label ? _("rinse") : brief ? _("rinse: label's time") : _("rinse, the label's time ends");
}

void sl_day_verb(const sl_bench *bench, const sl_due *due, bool brief, char *text, size_t size)
{
    const int piece_min = sl_bench_piece_min(bench, due->swatch);
    const int round = bench->state[due->swatch].round;
    if (due->kind == SL_EVENT_LOOKED && piece_min >= 0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size,
                        brief ? _("cut off, rinse %d min piece")
                              : _("cut the piece for %d min off and rinse it"),
                        piece_min);
    } else if (due->kind == SL_EVENT_APPLIED && round > 0) {
        snprintf(text, size, _("put fresh mix on (%d of %d)"), round + 1,
                 bench->swatch[due->swatch].n_more + 1);
    } else {
        snprintf(text, size, "%s", due_words(due, brief));
    }
}

void sl_day_due(const sl_bench *bench, const sl_due *due, char *text, size_t size)
{
    char when[48], verb[SL_DAY_WORDS / 2];
    sl_day_when(due->in_s, when, sizeof when);
    sl_day_verb(bench, due, false, verb, sizeof verb);
    snprintf(text, size, "%s: %s, %s", bench->swatch[due->swatch].code, verb, when);
}

void sl_day_state(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size)
{
    const sl_bench_swatch *const plan = &bench->swatch[swatch];
    const sl_bench_state *const state = &bench->state[swatch];
    sl_on_the_hair on;
    char span[32], off[48];
    if (!sl_bench_on_hair(bench, swatch, now, &on) && state->round > 0) {
        sl_day_span(state->lain_s[state->n_lain - 1], span, sizeof span);
        snprintf(text, size,
                 state->mixed ? _("%s: rinsed after %s; fresh mix %d of %d is ready")
                              : _("%s: rinsed after %s; fresh mix %d of %d comes next"),
                 plan->code, span, state->round + 1, plan->n_more + 1);
        return;
    }
    if (!sl_bench_on_hair(bench, swatch, now, &on)) {
        snprintf(text, size, "%s: %s", plan->code,
                 plan->contact_s < 0 ? _("nothing is put on")
                 : state->mixed      ? _("waiting, its bowl is mixed")
                                     : _("waiting"));
        return;
    }
    sl_day_span(on.since.seconds, span, sizeof span);
    sl_day_off(on.late_s, off, sizeof off);
    if (state->stage == SL_STAGE_ON_HAIR) {
        snprintf(text, size,
                 state->doubted ? _("%s: on the hair %s, undone: is it clean?") : _("%s: on the hair %s"),
                 plan->code, span);
    } else {
        snprintf(text, size,
                 state->stopped ? _("%s: stopped and rinsed after %s, %s") : _("%s: rinsed after %s, %s"),
                 plan->code, span, off);
    }
}

void sl_day_state_brief(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size)
{
    const sl_bench_swatch *const plan = &bench->swatch[swatch];
    const sl_bench_state *const state = &bench->state[swatch];
    sl_on_the_hair on;
    char span[32], off[48];
    if (!sl_bench_on_hair(bench, swatch, now, &on)) {
        if (state->round > 0) {
            snprintf(text, size, _("rinsed; fresh mix %d of %d"), state->round + 1, plan->n_more + 1);
        } else {
            snprintf(text, size, "%s",
                     plan->contact_s < 0 ? _("nothing is put on")
                     : state->mixed      ? _("waiting, mixed")
                                         : _("waiting"));
        }
        return;
    }
    sl_day_span(on.since.seconds, span, sizeof span);
    sl_day_off(on.late_s, off, sizeof off);
    if (state->stage == SL_STAGE_ON_HAIR) {
        snprintf(text, size, state->doubted ? _("on hair %s? clean: Y") : _("on hair %s"), span);
    } else {
        snprintf(text, size, state->stopped ? _("stopped at %s, %s") : _("rinsed at %s, %s"), span, off);
    }
}

void sl_day_label(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size)
{
    const sl_bench_round plan = sl_bench_round_of(&bench->swatch[swatch], bench->state[swatch].round);
    sl_on_the_hair on;
    char left[32], label[32];
    if (bench->swatch[swatch].contact_s < 0) {
        snprintf(text, size, "%s", _("no mix, no label"));
        return;
    }
    if (plan.label_s <= 0) {
        snprintf(text, size, "%s", _("label: no time entered, read the packet; cut swatches"));
        return;
    }
    if (!sl_bench_on_hair(bench, swatch, now, &on) || bench->state[swatch].stage != SL_STAGE_ON_HAIR) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size,
                        plan.from_mixing ? _("label: at most %d min from mixing")
                                         : _("label: at most %d min"),
                        plan.label_s / 60);
        return;
    }
    sl_day_span(on.label_left_s, left, sizeof left);
    sl_minute_words(SL_MINUTE_PLANNED, label, sizeof label, "%d", plan.label_s / 60);
    snprintf(text, size,
             on.label_left_s < 0.0 ? _("label: at most %s min, OVER by %s, rinse now")
                                   : _("label: at most %s min, %s left"),
             label, left);
}

const char *sl_day_clocks(sl_clocks clocks)
{
    switch (clocks) {
    case SL_CLOCKS_DISAGREE:
        return _("The computer's two clocks disagree, because somebody set one of them: the longer time was "
                 "taken.");
    case SL_CLOCKS_RESTARTED:
        return _(
            "The computer was started again in between: the time by the wall clock was taken, or the time "
            "since that start where it is longer.");
    case SL_CLOCKS_AGREE:
        break;
    }
    return "";
}

const char *sl_day_stop_signs(void)
{
    return _("Rinse at once, whatever the clock says, when skin stings or burns, when it turns hot, fizzes, "
             "smokes or smells odd, when hair stays long after a pull, feels like gum or snaps, and when the "
             "label's time is over.");
}

const char *sl_day_stop_signs_line(void)
{
    return _("STOP (S) when: stings, burns, hot, fizz, smoke, smell, gum, snaps, label");
}

const char *sl_day_done(sl_event_kind kind)
{
    switch (kind) {
    case SL_EVENT_STARTED:
        return _("the day has begun");
    case SL_EVENT_MIXED:
        return _("mixed");
    case SL_EVENT_APPLIED:
        return _("mix put on");
    case SL_EVENT_LOOKED:
        return _("wiped and looked");
    case SL_EVENT_FELT:
        return _("skin, heat and stretch felt");
    case SL_EVENT_RINSED:
        return _("rinsed, first water");
    case SL_EVENT_NOTED:
        return _("note");
    case SL_EVENT_STOPPED:
        return _("stop and rinse");
    case SL_EVENT_WASHED_OUT:
        return _("water off");
    case SL_EVENT_UNDONE:
        return _("undone");
    case SL_EVENT_SOUND_HEARD:
        return _("the bell was heard");
    case SL_EVENT_SOUND_NOT_HEARD:
        return _("the bell was not heard");
    case SL_EVENT_KINDS:
        break;
    }
    return "";
}

void sl_day_deed(const sl_bench *bench, int swatch, sl_event_kind kind, char *text, size_t size)
{
    const bool ladder = kind == SL_EVENT_LOOKED && swatch >= 0 && bench->swatch[swatch].ladder;
    const int piece_min = ladder ? sl_bench_piece_min(bench, swatch) : -1;
    if (piece_min >= 0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("piece for %d min cut off and rinsed"), piece_min);
    } else {
        snprintf(text, size, "%s", ladder ? _("one more piece cut off and rinsed") : sl_day_done(kind));
    }
}

typedef struct sl_reason_words {
    sl_stop_reason reason;
    const char *words;
} sl_reason_words;
static const sl_reason_words reasons[SL_DAY_REASONS] = {
    {SL_REASON_EYES, N_("in an eye")},           {SL_REASON_SKIN, N_("skin stings or burns")},
    {SL_REASON_HEAT, N_("heat, fizz or smell")}, {SL_REASON_DAMAGE, N_("hair like gum, or it snaps")},
    {SL_REASON_LABEL, N_("the label's time")},   {SL_REASON_GOAL, N_("the goal is reached")},
    {SL_REASON_DRIED, N_("it dried out")},       {SL_REASON_PLAN, N_("the plan was changed")},
    {SL_REASON_MISTAKE, N_("by mistake")},
};

sl_stop_reason sl_day_reason(int place, const char **words)
{
    *words = _(reasons[place].words);
    return reasons[place].reason;
}

const char *sl_day_reason_words(sl_stop_reason reason)
{
    for (int i = 0; i < SL_DAY_REASONS; i++) {
        if (reasons[i].reason == reason) {
            return _(reasons[i].words);
        }
    }
    return _("not said yet");
}

/* Gloves do not type: what happens most is one key. */
sl_remark sl_day_note(int place)
{
    static const sl_remark notes[SL_DAY_NOTES] = {SL_REMARK_RAN,  SL_REMARK_DRIED, SL_REMARK_WARM,
                                                  SL_REMARK_FOAM, SL_REMARK_ODD,   SL_REMARK_UNCOVERED,
                                                  SL_REMARK_MORE, SL_REMARK_PAPER};
    return notes[place];
}

sl_remark sl_day_told(int place)
{
    static const sl_remark told[SL_DAY_TOLD] = {SL_REMARK_TOLD_EMERGENCY, SL_REMARK_TOLD_DOCTOR,
                                                SL_REMARK_TOLD_POISON, SL_REMARK_TOLD_IN_CHARGE,
                                                SL_REMARK_TOLD_NOBODY};
    return told[place];
}

const char *sl_day_remark(sl_remark remark)
{
    static const char *const words[SL_REMARKS] = {
        [SL_REMARK_NONE] = "",
        [SL_REMARK_RAN] = N_("mix ran or dripped"),
        [SL_REMARK_DRIED] = N_("an edge dried"),
        [SL_REMARK_WARM] = N_("it feels warm"),
        [SL_REMARK_FOAM] = N_("foam or bubbles"),
        [SL_REMARK_ODD] = N_("odd smell or colour"),
        [SL_REMARK_UNCOVERED] = N_("the cover came off"),
        [SL_REMARK_MORE] = N_("more mix was put on"),
        [SL_REMARK_PAPER] = N_("see the paper"),
        [SL_REMARK_NO_SOUND] = N_("this computer has no sound"),
        [SL_REMARK_OPENED] = N_("what was in the bowls was told, also to who judged blind"),
        [SL_REMARK_TOLD_EMERGENCY] = N_("the emergency number was called"),
        [SL_REMARK_TOLD_DOCTOR] = N_("a doctor was told"),
        [SL_REMARK_TOLD_POISON] = N_("poison information was told"),
        [SL_REMARK_TOLD_IN_CHARGE] = N_("who is in charge here was told"),
        [SL_REMARK_TOLD_NOBODY] = N_("nobody was told yet"),
        [SL_REMARK_UNCLEAN] = N_("nobody has said that the hair is clean"),
        [SL_REMARK_CLEAN] = N_("the hair is clean"),
        [SL_REMARK_LEFT_OPEN] = N_("its leftover was left open"),
        [SL_REMARK_EMPTIED] = N_("its leftover was emptied"),
        [SL_REMARK_GRAMS] = N_("its bowl was weighed"),
        [SL_REMARK_ROOM] = N_("the room was measured"),
        [SL_REMARK_SHOWN] = N_("what the model says of it was shown"),
        [SL_REMARK_END_LEFTOVERS] = N_("leftovers stand open or are emptied, none is closed"),
        [SL_REMARK_END_BENCH] = N_("the bench is wiped, with a wet cloth"),
        [SL_REMARK_END_POWDER] = N_("the powder is closed and dry"),
        [SL_REMARK_END_WASTE] = N_("waste is out, as the local rules say"),
        [SL_REMARK_END_HANDS] = N_("gloves are off, hands are washed"),
    };
    return remark == SL_REMARK_NONE ? "" : _(words[remark]);
}
