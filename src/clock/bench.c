/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bench from its events: who is on hair since when, and what is due. Invariant: folding the
 * same events gives the same bench, however often the program was killed between them.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/clock.h"

const char *sl_event_word(sl_event_kind kind)
{
#define WORD(name, word) word,
    static const char *const words[] = {SL_EVENT_LIST(WORD)};
    return words[kind];
}

const char *sl_stop_reason_word(sl_stop_reason reason)
{
    static const char *const words[] = {SL_REASON_LIST(WORD)};
    return words[reason];
}

const char *sl_remark_word(sl_remark remark)
{
    static const char *const words[] = {SL_REMARK_LIST(WORD)};
#undef WORD
    return words[remark];
}

sl_remark sl_remark_of_word(const char *word)
{
    int remark = SL_REMARKS - 1;
    while (remark > SL_REMARK_NONE && strcmp(sl_remark_word((sl_remark)remark), word) != 0) {
        remark--;
    }
    return (sl_remark)remark;
}

/* ---- applications ------------------------------------------------------------------------------- */

sl_bench_round sl_bench_round_of(const sl_bench_swatch *swatch, int round)
{
    return round > 0 && round <= swatch->n_more ? swatch->more[round - 1]
                                                : (sl_bench_round){.after_s = swatch->contact_s,
                                                                   .dwell_s = swatch->dwell_s,
                                                                   .label_s = swatch->label_s,
                                                                   .mix_age_s = swatch->mix_age_s,
                                                                   .from_mixing = swatch->from_mixing};
}

int sl_bench_round_from_s(const sl_bench_swatch *swatch, int round)
{
    int from = 0;
    for (int i = 1; i <= round; i++) {
        from += sl_bench_round_of(swatch, i - 1).dwell_s + sl_bench_round_of(swatch, i).after_s;
    }
    return from;
}

int sl_bench_span_s(const sl_bench_swatch *swatch)
{
    return sl_bench_round_from_s(swatch, swatch->n_more) + sl_bench_round_of(swatch, swatch->n_more).dwell_s;
}

int sl_bench_lying_s(const sl_bench_swatch *swatch)
{
    int lying = swatch->dwell_s;
    for (int i = 0; i < swatch->n_more; i++) {
        lying += swatch->more[i].dwell_s;
    }
    return lying;
}

/* ---- folding ----------------------------------------------------------------------------------- */

/* What took it back, after it; NULL: nothing. */
static const sl_event *undone_by(const sl_event *event, int n_events, int index)
{
    for (int i = index + 1; i < n_events && event[index].kind != SL_EVENT_STOPPED; i++) {
        if (event[i].kind == SL_EVENT_UNDONE && strcmp(event[i].about, event[index].id) == 0) {
            return &event[i];
        }
    }
    return NULL;
}

static bool said_clean(const sl_event *event, int n_events, int index)
{
    for (int i = index + 1; i < n_events; i++) {
        if (event[i].remark == SL_REMARK_CLEAN && strcmp(event[i].about, event[index].id) == 0 &&
            !undone_by(event, n_events, i)) {
            return true;
        }
    }
    return false;
}

/* It leaves no trace. */
static bool was_undone(const sl_event *event, int n_events, int index)
{
    const sl_event *const by = undone_by(event, n_events, index);
    return by && (by->remark != SL_REMARK_UNCLEAN || said_clean(event, n_events, index));
}

const sl_event *sl_bench_doubted(const sl_event *event, int n_events, int swatch)
{
    for (int i = n_events - 1; i >= 0; i--) {
        if (event[i].kind == SL_EVENT_APPLIED && event[i].swatch == swatch && undone_by(event, n_events, i) &&
            !was_undone(event, n_events, i)) {
            return &event[i];
        }
    }
    return NULL;
}

/* A stop ends the swatch; else the next application is waited for. */
static void rinse(sl_bench *bench, int swatch, const sl_instant *at, bool stopped)
{
    sl_bench_state *const state = &bench->state[swatch];
    sl_on_the_hair on;
    if (state->stage != SL_STAGE_ON_HAIR) {
        return;
    }
    sl_bench_on_hair(bench, swatch, at, &on);
    state->lain_s[state->n_lain++] = on.since.seconds;
    state->over_label = state->over_label || (on.has_label && on.label_left_s < 0.0);
    state->water = *at;
    state->doubted = false;
    if (!stopped && state->round < bench->swatch[swatch].n_more) {
        state->stage = SL_STAGE_WAITING;
        state->round++;
        state->mixed = false;
        return;
    }
    state->stage = SL_STAGE_RINSED;
    state->stopped = stopped;
}

/* Of the stop with this id. Eyes come before any other reason: another stop must not cut their water. */
static void give_reason(sl_bench *bench, const char *stop, sl_stop_reason reason)
{
    if (reason == SL_REASON_EYES) {
        bench->eyes_at = strcmp(bench->eyes, stop) == 0 ? bench->eyes_at : bench->stop_at;
        memcpy(bench->eyes, stop, sizeof bench->eyes);
    } else if (strcmp(bench->eyes, stop) == 0) {
        bench->eyes[0] = '\0';
    }
    bench->stop_reason = bench->eyes[0] != '\0' ? SL_REASON_EYES : reason;
}

static void stop(sl_bench *bench, const sl_event *event)
{
    if (event->about[0] != '\0') { /* tells why, later */
        give_reason(bench, event->about, event->reason);
        return;
    }
    for (int i = 0; i < bench->n; i++) {
        if (event->swatch < 0 || event->swatch == i) {
            rinse(bench, i, &event->at, true);
        }
    }
    bench->stopping = true;
    bench->stop_at = event->at;
    give_reason(bench, event->id, event->reason);
}

static void happen_to(sl_bench *bench, const sl_event *event)
{
    sl_bench_state *const state = &bench->state[event->swatch];
    switch (event->kind) {
    case SL_EVENT_MIXED:
        state->mixed = true;
        state->mixed_at = event->at;
        return;
    case SL_EVENT_APPLIED:
        if (state->stage == SL_STAGE_WAITING) {
            state->stage = SL_STAGE_ON_HAIR;
            state->contact = event->at;
            state->age_s[state->round] =
                state->mixed ? sl_elapsed_between(&state->mixed_at, &event->at).seconds : -1.0;
            state->after_s[state->round] =
                state->round > 0 ? sl_elapsed_between(&state->water, &event->at).seconds : 0.0;
            state->n_looks = state->n_felt = 0;
            state->doubted = state->left_open = state->emptied = false;
        }
        return;
    case SL_EVENT_LOOKED:
        if (state->n_looks < SL_BENCH_LOOKS) {
            state->looked_s[state->n_looks] =
                (int)lround(sl_elapsed_between(&state->contact, &event->at).seconds);
        }
        state->n_looks++;
        return;
    case SL_EVENT_FELT:
        state->n_felt++;
        state->felt_at = event->at;
        return;
    case SL_EVENT_RINSED:
        rinse(bench, event->swatch, &event->at, false);
        return;
    case SL_EVENT_NOTED:
        state->left_open = state->left_open || event->remark == SL_REMARK_LEFT_OPEN;
        state->emptied = state->emptied || event->remark == SL_REMARK_EMPTIED;
        return;
    case SL_EVENT_UNDONE:
        state->doubted =
            state->doubted || (event->remark == SL_REMARK_UNCLEAN && state->stage == SL_STAGE_ON_HAIR);
        return;
    case SL_EVENT_STARTED:
    case SL_EVENT_STOPPED:
    case SL_EVENT_WASHED_OUT:
    case SL_EVENT_SOUND_HEARD:
    case SL_EVENT_SOUND_NOT_HEARD:
    case SL_EVENT_KINDS:
    default:
        return;
    }
}

static void happen(sl_bench *bench, const sl_event *event)
{
    if (event->kind == SL_EVENT_STOPPED) {
        stop(bench, event);
    } else if (event->kind == SL_EVENT_WASHED_OUT) {
        bench->stopping = false;
        bench->eyes[0] = '\0';
    } else if (event->kind == SL_EVENT_STARTED && !bench->started) {
        bench->started = true;
        bench->start = event->at;
    } else if (event->kind == SL_EVENT_SOUND_HEARD || event->kind == SL_EVENT_SOUND_NOT_HEARD) {
        bench->sound_tried = true;
        bench->sound_heard = event->kind == SL_EVENT_SOUND_HEARD;
    } else if (event->remark >= SL_REMARK_END_LEFTOVERS) {
        bench->ticked[event->remark - SL_REMARK_END_LEFTOVERS] = true;
    } else if (event->swatch >= 0 && event->swatch < bench->n) {
        happen_to(bench, event);
    }
}

bool sl_bench_any_on_hair(const sl_bench *bench)
{
    for (int i = 0; i < bench->n; i++) {
        if (bench->state[i].stage == SL_STAGE_ON_HAIR) {
            return true;
        }
    }
    return false;
}

int sl_bench_unticked(const sl_bench *bench)
{
    int n = 0;
    for (int i = 0; i < SL_DAY_TICKS; i++) {
        n += bench->ticked[i] ? 0 : 1;
    }
    return n;
}

void sl_bench_fold(sl_bench *bench, const sl_bench_swatch *swatch, int n, const sl_event *event, int n_events)
{
    memset(bench, 0, sizeof *bench);
    bench->n = n < SL_BENCH_MOST ? n : SL_BENCH_MOST;
    bench->swatch = swatch;
    bench->stop_reason = SL_REASON_UNSAID;
    for (int i = 0; i < n_events; i++) {
        if (!was_undone(event, n_events, i)) {
            happen(bench, &event[i]);
        }
    }
}

/* ---- undoing --------------------------------------------------------------------------------------- */

static bool is_deed(const sl_event *event)
{
    switch (event->kind) {
    case SL_EVENT_NOTED:
        return event->remark != SL_REMARK_OPENED &&
               event->remark != SL_REMARK_SHOWN; /* nobody can forget it */
    case SL_EVENT_STARTED:
    case SL_EVENT_MIXED:
    case SL_EVENT_APPLIED:
    case SL_EVENT_LOOKED:
    case SL_EVENT_FELT:
    case SL_EVENT_RINSED:
    case SL_EVENT_WASHED_OUT:
        return true;
    case SL_EVENT_STOPPED:
    case SL_EVENT_UNDONE:
    case SL_EVENT_SOUND_HEARD:
    case SL_EVENT_SOUND_NOT_HEARD:
    case SL_EVENT_KINDS:
    default:
        return false;
    }
}

const sl_event *sl_bench_to_undo(const sl_event *event, int n_events)
{
    bool put_on = false;
    for (int i = n_events - 1; i >= 0 && event[i].kind != SL_EVENT_STOPPED; i--) {
        put_on = put_on || event[i].kind == SL_EVENT_APPLIED;
        if (event[i].kind == SL_EVENT_STARTED && put_on) {
            return NULL;
        }
        if (is_deed(&event[i]) && !event[i].elsewhere && !undone_by(event, n_events, i)) {
            return &event[i];
        }
    }
    return NULL;
}

/* ---- what may follow ----------------------------------------------------------------------------- */

static bool can_follow(const sl_bench *bench, const sl_event *next)
{
    if (next->swatch < 0 || next->swatch >= bench->n) {
        return next->kind == SL_EVENT_STARTED ? !bench->started
               : next->kind == SL_EVENT_WASHED_OUT
                   ? bench->stopping
                   : next->kind == SL_EVENT_NOTED || next->kind == SL_EVENT_UNDONE ||
                         next->kind == SL_EVENT_SOUND_HEARD || next->kind == SL_EVENT_SOUND_NOT_HEARD;
    }
    const sl_swatch_stage stage = bench->state[next->swatch].stage;
    switch (next->kind) {
    case SL_EVENT_MIXED:
    case SL_EVENT_APPLIED:
        return stage == SL_STAGE_WAITING && bench->swatch[next->swatch].contact_s >= 0;
    case SL_EVENT_LOOKED:
    case SL_EVENT_FELT:
    case SL_EVENT_RINSED:
        return stage == SL_STAGE_ON_HAIR;
    case SL_EVENT_NOTED:
    case SL_EVENT_UNDONE:
        return true;
    case SL_EVENT_STARTED:
    case SL_EVENT_STOPPED:
    case SL_EVENT_WASHED_OUT:
    case SL_EVENT_SOUND_HEARD:
    case SL_EVENT_SOUND_NOT_HEARD:
    case SL_EVENT_KINDS:
    default:
        return false;
    }
}

bool sl_bench_takes(const sl_bench *bench, const sl_event *last, const sl_event *next)
{
    if (next->kind == SL_EVENT_STOPPED) {
        return true;
    }
    const bool again = last && last->kind == next->kind && last->swatch == next->swatch &&
                       next->kind != SL_EVENT_NOTED &&
                       sl_elapsed_between(&last->at, &next->at).seconds < SL_KEY_GUARD_S;
    return !again && can_follow(bench, next);
}

/* ---- times ------------------------------------------------------------------------------------------ */

bool sl_bench_on_hair(const sl_bench *bench, int swatch, const sl_instant *now, sl_on_the_hair *on)
{
    const sl_bench_state *const state = &bench->state[swatch];
    if (state->stage == SL_STAGE_WAITING) {
        return false;
    }
    const sl_bench_round plan = sl_bench_round_of(&bench->swatch[swatch], state->round);
    const sl_instant *const until = state->stage == SL_STAGE_RINSED ? &state->water : now;
    *on =
        (sl_on_the_hair){.since = sl_elapsed_between(&state->contact, until), .has_label = plan.label_s > 0};
    /* Counted from mixing, the time before contact is gone too. */
    const double before = !plan.from_mixing ? 0.0
                          : state->mixed    ? sl_elapsed_between(&state->mixed_at, &state->contact).seconds
                                            : plan.mix_age_s;
    on->label_left_s = plan.label_s - before - on->since.seconds;
    on->late_s = on->since.seconds - plan.dwell_s;
    return true;
}

double sl_bench_course_s(const sl_bench *bench, int swatch, const sl_instant *now)
{
    const sl_bench_state *const state = &bench->state[swatch];
    sl_on_the_hair on;
    if (sl_bench_on_hair(bench, swatch, now, &on)) {
        return sl_bench_round_from_s(&bench->swatch[swatch], state->round) + on.since.seconds;
    }
    return state->n_lain == 0 ? -1.0
                              : sl_bench_round_from_s(&bench->swatch[swatch], state->n_lain - 1) +
                                    state->lain_s[state->n_lain - 1];
}

/* ---- what is due -------------------------------------------------------------------------------- */

typedef struct sl_dues {
    sl_due *due;
    int n, most;
} sl_dues;

/* Kept sorted, soonest first; the latest falls off when there is no room. */
static void put(sl_dues *dues, sl_due due)
{
    int at = dues->n;
    while (at > 0 && dues->due[at - 1].in_s > due.in_s) {
        at--;
    }
    if (at >= dues->most) {
        return;
    }
    const int moved = (dues->n < dues->most ? dues->n : dues->most - 1) - at;
    memmove(&dues->due[at + 1], &dues->due[at], sizeof *dues->due * (size_t)moved);
    dues->due[at] = due;
    dues->n = dues->n < dues->most ? dues->n + 1 : dues->most;
}

static void on_hair_due(const sl_bench *bench, int swatch, const sl_instant *now, sl_dues *dues)
{
    const sl_bench_swatch *const plan = &bench->swatch[swatch];
    const sl_bench_state *const state = &bench->state[swatch];
    sl_on_the_hair on;
    sl_bench_on_hair(bench, swatch, now, &on);
    const double planned = -on.late_s;
    const bool by_label = on.has_label && on.label_left_s < planned;
    put(dues, (sl_due){.kind = SL_EVENT_RINSED,
                       .swatch = swatch,
                       .in_s = by_label ? on.label_left_s : planned,
                       .by_label = by_label});
    const double felt = state->n_felt == 0
                            ? SL_FIRST_FELT_S - on.since.seconds
                            : SL_FELT_EVERY_S - sl_elapsed_between(&state->felt_at, now).seconds;
    put(dues, (sl_due){.kind = SL_EVENT_FELT, .swatch = swatch, .in_s = felt});
    const int dwell_s = sl_bench_round_of(plan, state->round).dwell_s;
    if (state->n_looks < plan->n_looks && (state->round == 0 || plan->look_s[state->n_looks] < dwell_s)) {
        put(dues, (sl_due){.kind = SL_EVENT_LOOKED,
                           .swatch = swatch,
                           .in_s = plan->look_s[state->n_looks] - on.since.seconds});
    }
}

sl_remark sl_bench_leftover(const sl_bench *bench, int swatch)
{
    const sl_bench_state *const state = &bench->state[swatch];
    const bool lies = state->stage == SL_STAGE_ON_HAIR;
    if (!bench->swatch[swatch].leaves_mix || state->doubted || (!lies && state->n_lain == 0)) {
        return SL_REMARK_NONE;
    }
    return lies ? (state->left_open ? SL_REMARK_NONE : SL_REMARK_LEFT_OPEN)
                : (state->emptied ? SL_REMARK_NONE : SL_REMARK_EMPTIED);
}

int sl_bench_piece_min(const sl_bench *bench, int swatch)
{
    const sl_bench_swatch *const plan = &bench->swatch[swatch];
    const int next = bench->state[swatch].n_looks;
    return plan->ladder && next < plan->n_looks ? (plan->look_s[next] + 30) / 60 : -1;
}

int sl_bench_due(const sl_bench *bench, const sl_instant *now, sl_due *due, int most)
{
    sl_dues dues = {due, 0, most};
    const double day = bench->started ? sl_elapsed_between(&bench->start, now).seconds : 0.0;
    for (int i = 0; i < bench->n; i++) {
        const sl_swatch_stage stage = bench->state[i].stage;
        if (stage == SL_STAGE_ON_HAIR) {
            on_hair_due(bench, i, now, &dues);
        } else if (stage == SL_STAGE_WAITING && bench->swatch[i].contact_s >= 0 && bench->started) {
            const sl_bench_state *const state = &bench->state[i];
            const double since = state->round == 0 ? day : sl_elapsed_between(&state->water, now).seconds;
            const sl_bench_round round = sl_bench_round_of(&bench->swatch[i], state->round);
            if (round.from_mixing && round.label_s > 0 && !state->mixed) {
                put(&dues, (sl_due){.kind = SL_EVENT_MIXED,
                                    .swatch = i,
                                    .in_s = round.after_s - round.mix_age_s - since});
            }
            put(&dues, (sl_due){.kind = SL_EVENT_APPLIED, .swatch = i, .in_s = round.after_s - since});
        }
        const sl_remark leftover = sl_bench_leftover(bench, i);
        if (leftover != SL_REMARK_NONE) {
            put(&dues, (sl_due){.kind = SL_EVENT_NOTED, .swatch = i, .remark = leftover});
        }
    }
    return dues.n;
}

bool sl_bench_stop_water(const sl_bench *bench, const sl_instant *now, double *runs_s, double *least_s)
{
    if (!bench->stopping) {
        return false;
    }
    *runs_s = sl_elapsed_between(sl_bench_eye(bench) ? &bench->eyes_at : &bench->stop_at, now).seconds;
    *least_s = bench->stop_reason == SL_REASON_EYES ? SL_EYES_S : 0.0;
    return true;
}

/* ---- an eye comes first -------------------------------------------------------------------------- */

bool sl_bench_eye(const sl_bench *bench)
{
    return bench->stopping && bench->stop_reason == SL_REASON_EYES;
}

bool sl_bench_calls(const sl_bench *bench, const sl_due *due, const sl_instant *now)
{
    sl_on_the_hair on;
    if (due->kind == SL_EVENT_NOTED) {
        return false;
    }
    if (!sl_bench_eye(bench)) {
        return true;
    }
    return bench->swatch[due->swatch].on_person && due->kind == SL_EVENT_RINSED &&
           sl_bench_on_hair(bench, due->swatch, now, &on) && on.has_label && on.label_left_s <= 0.0;
}

int sl_bench_on_persons(const sl_bench *bench, const char **code, int most)
{
    int n = 0;
    for (int i = 0; i < bench->n; i++) {
        if (bench->swatch[i].on_person && bench->state[i].stage == SL_STAGE_ON_HAIR) {
            if (n < most) {
                code[n] = bench->swatch[i].code;
            }
            n++;
        }
    }
    return n;
}
