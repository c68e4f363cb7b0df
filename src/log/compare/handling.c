/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the events say of each swatch, beside its plan, and what the model makes of that (as_it_was.c).
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/day/dyed.h"
#include "log/day/rounds.h"
#include "log/day/tubs.h"
#include "log/store/old_notes.h"
#include "log/store/rescue.h"
#include "log/store/tables.h"
#include "slowlift/what_if.h"

bool sl_deviation_add(sl_compare *compare, sl_deviation deviation, size_t *capacity, sl_error *error)
{
    if (!sl_grow(&compare->deviations, capacity, (size_t)compare->n_deviations + 1,
                 sizeof *compare->deviations, "comparing", error)) {
        return false;
    }
    compare->deviations[compare->n_deviations++] = deviation;
    return true;
}

/* ---- what the clock kept ----------------------------------------------------------------------------------
 */

static void bench_of(const sl_bench *bench, int i, sl_seen_bench *of)
{
    const sl_bench_state *const state = &bench->state[i];
    /* Rinsed, and its next mix never came: what it had is what counts. */
    const bool between = state->stage == SL_STAGE_WAITING && state->round > 0;
    sl_on_the_hair on = {.late_s = 0.0};
    if (!sl_bench_on_hair(bench, i, &state->contact, &on) && !between) {
        return;
    }
    of->on = true;
    of->n_pieces = bench->swatch[i].ladder ? (int)fmin(state->n_looks, bench->swatch[i].n_looks) : 0;
    memcpy(of->piece_s, state->looked_s, sizeof of->piece_s);
    of->rinsed = state->stage == SL_STAGE_RINSED || between;
    of->n_lain = of->rinsed ? state->n_lain : 0;
    for (int k = 0; k < of->n_lain; k++) {
        of->lain_s[k] = state->lain_s[k];
        const sl_bench_round round = sl_bench_round_of(&bench->swatch[i], k);
        of->older_s[k] = state->age_s[k] >= 0.0 ? state->age_s[k] - round.mix_age_s : 0.0;
        of->longer_s[k] = k > 0 ? state->after_s[k] - round.after_s : 0.0;
        of->dwell_s += state->lain_s[k];
    }
    of->clocks_differ = of->rinsed && !between && on.since.clocks != SL_CLOCKS_AGREE;
    of->over_label = state->over_label;
    of->mixed = state->mixed;
    of->planned_age_s = sl_bench_round_of(&bench->swatch[i], state->round).mix_age_s;
    of->mix_age_s = state->mixed ? sl_elapsed_between(&state->mixed_at, &state->contact).seconds : 0.0;
}

static bool fold(sl_compare *compare, const sl_event *events, int n_events, sl_error *error)
{
    sl_bench *bench = NULL;
    sl_bench_swatch *swatches = NULL;
    const bool good = sl_rounds_fold(compare->scene, compare->swatches, compare->n_swatches, events, n_events,
                                     &swatches, &bench, error);
    for (int i = 0; good && i < compare->n_swatches; i++) {
        bench_of(bench, i, &compare->bench[i]);
    }
    sl_free(bench);
    sl_free(swatches);
    return good;
}

/* ---- deviations
 * --------------------------------------------------------------------------------------------- */

/* What deviations are told with. */
typedef struct sl_otherwise {
    sl_compare *compare;
    size_t *room;
    sl_solver *solver;
    sl_error *error;
} sl_otherwise;

/* had: the plan with this one thing as it was; the zone that it changed most is told, in ratio. NULL: it
 * changes nothing that the model knows. */
static bool add_one(const sl_otherwise *to, sl_deviation deviation, const sl_course_as *had,
                    const sl_course_as *planned)
{
    const sl_scene *const scene = to->compare->scene;
    const int arm = to->compare->bench[deviation.swatch].arm;
    double ratio[SL_MAX_ZONES];
    deviation.zone = -1;
    deviation.factor = 1.0;
    if (had && arm >= 0) {
        if (!sl_course_ratio(scene, arm, had, planned, to->solver, ratio, to->error)) {
            return false;
        }
        for (int z = 0; z < scene->n_zones; z++) {
            if (fabs(log(ratio[z])) > fabs(log(deviation.factor))) {
                deviation.zone = z;
                deviation.factor = ratio[z];
            }
        }
    }
    return sl_deviation_add(to->compare, deviation, to->room, to->error);
}

/* Of each of its mixes that were rinsed: its age, and how long it waited before. */
static bool add_of_mixes(const sl_otherwise *to, int i)
{
    const sl_seen_bench *const bench = &to->compare->bench[i];
    const sl_bench_swatch *const plan = &to->compare->swatches[i].bench;
    const sl_course_as planned = sl_course_planned(plan);
    bool good = true;
    for (int k = 0; good && k < bench->n_lain; k++) {
        sl_course_as aged = planned, waited = planned;
        sl_deviation age = {.kind = SL_DEVIATION_MIX_AGE, .swatch = i, .application = k},
                     rest = {.kind = SL_DEVIATION_REST, .swatch = i, .application = k};
        aged.older_s[k] = age.seconds = bench->older_s[k];
        waited.longer_s[k] = rest.seconds = bench->longer_s[k];
        good = (fabs(age.seconds) < SL_MIX_AGE_OFF_S || add_one(to, age, &aged, &planned)) &&
               (fabs(rest.seconds) < SL_DWELL_OFF_S || add_one(to, rest, &waited, &planned));
    }
    return good;
}

static bool add_pieces(const sl_otherwise *to, int i)
{
    const sl_seen_bench *const bench = &to->compare->bench[i];
    const sl_bench_swatch *const plan = &to->compare->swatches[i].bench;
    bool good = true;
    for (int k = 0; good && k < bench->n_pieces; k++) {
        sl_course_as cut = sl_course_planned(plan), planned = cut;
        cut.lies_s[0] = bench->piece_s[k];
        planned.lies_s[0] = plan->look_s[k];
        const sl_deviation piece = {.kind = SL_DEVIATION_PIECE,
                                    .swatch = i,
                                    .seconds = bench->piece_s[k] - plan->look_s[k],
                                    .piece_min = plan->look_s[k] / 60};
        good = fabs(piece.seconds) < SL_DWELL_OFF_S || add_one(to, piece, &cut, &planned);
    }
    return good;
}

static bool add_of_swatch(const sl_otherwise *to, int i)
{
    const sl_seen_bench *const bench = &to->compare->bench[i];
    const sl_course_as planned = sl_course_planned(&to->compare->swatches[i].bench);
    const double late = bench->dwell_s - sl_bench_lying_s(&to->compare->swatches[i].bench);
    const double older = bench->mix_age_s - bench->planned_age_s;
    sl_course_as lain = planned;
    lain.n = bench->n_lain;
    memcpy(lain.lies_s, bench->lain_s, sizeof lain.lies_s);
    const struct {
        bool is;
        sl_deviation_kind kind;
        double seconds;
    } all[] = {
        {bench->rinsed && fabs(late) >= SL_DWELL_OFF_S, late > 0.0 ? SL_DEVIATION_LATE : SL_DEVIATION_EARLY,
         late},
        {!bench->rinsed && bench->mixed && fabs(older) >= SL_MIX_AGE_OFF_S, SL_DEVIATION_MIX_AGE, older},
        {bench->over_label, SL_DEVIATION_LABEL, 0.0},
        {bench->clocks_differ, SL_DEVIATION_CLOCKS, 0.0}};
    bool good = add_of_mixes(to, i);
    for (size_t k = 0; good && k < sizeof all / sizeof all[0]; k++) {
        const sl_deviation deviation = {.kind = all[k].kind, .swatch = i, .seconds = all[k].seconds};
        good = !all[k].is || add_one(to, deviation, k == 0 ? &lain : NULL, &planned);
    }
    return good && add_pieces(to, i);
}

/* Most against least dwell within an arm; told of the swatch that lay longest. */
static bool add_unequal(sl_compare *compare, int arm, size_t *room, sl_error *error)
{
    int longest = -1, shortest = -1;
    for (int i = 0; i < compare->n_swatches; i++) {
        const sl_seen_bench *const bench = compare->bench;
        if (bench[i].arm == arm && bench[i].rinsed) {
            longest = longest < 0 || bench[i].dwell_s > bench[longest].dwell_s ? i : longest;
            shortest = shortest < 0 || bench[i].dwell_s < bench[shortest].dwell_s ? i : shortest;
        }
    }
    const double apart =
        longest < 0 ? 0.0 : compare->bench[longest].dwell_s - compare->bench[shortest].dwell_s;
    return apart < SL_DWELL_OFF_S || sl_deviation_add(compare,
                                                      (sl_deviation){.kind = SL_DEVIATION_UNEQUAL,
                                                                     .swatch = longest,
                                                                     .seconds = apart,
                                                                     .zone = -1,
                                                                     .factor = 1.0},
                                                      room, error);
}

/* The lots of an arm's bowls, each once; *first: a swatch of it. Returns how many there are. */
static int lots_of(const sl_compare *compare, const sl_tubs *tubs, int arm, sl_tub_kind kind, int *first,
                   char list[SL_LOG_TITLE])
{
    int n = 0;
    list[0] = '\0';
    for (int i = 0; i < compare->n_swatches; i++) {
        const char *const lot = tubs[i].of[kind].lot;
        bool fresh = compare->bench[i].arm == arm && lot[0] != '\0';
        for (int k = 0; fresh && k < i; k++) {
            fresh = compare->bench[k].arm != arm || strcmp(tubs[k].of[kind].lot, lot) != 0;
        }
        if (fresh) {
            *first = n++ == 0 ? i : *first;
            sl_append_item(list, SL_LOG_TITLE, ", ", "%s", lot);
        }
    }
    return n;
}

/* Means over swatches of several lots are not made without saying so. */
static bool add_lots(sl_compare *compare, sl_log *log, size_t *room, sl_error *error)
{
    sl_tubs *tubs = NULL;
    bool good = sl_log_tubs(log, compare->test.id, compare->swatches, compare->n_swatches, &tubs, error);
    for (int i = 0; good && i < SL_TUB_KINDS * compare->scene->n_arms; i++) {
        sl_deviation deviation = {.kind = SL_DEVIATION_LOTS, .swatch = -1, .zone = -1, .factor = 1.0};
        const sl_tub_kind kind = (sl_tub_kind)(i % SL_TUB_KINDS);
        const int n = lots_of(compare, tubs, i / SL_TUB_KINDS, kind, &deviation.swatch, deviation.note);
        good = n < 2 || !sl_day_bowl_holds(compare->scene, compare->swatches[deviation.swatch].arm, kind) ||
               sl_deviation_add(compare, deviation, room, error);
    }
    sl_free(tubs);
    return good;
}

/* A reason may be told later, by an event about the stop. */
static sl_stop_reason reason_of(const sl_event *stop, const sl_event *events, int n)
{
    sl_stop_reason reason = stop->reason;
    for (int i = 0; i < n; i++) {
        if (events[i].kind == SL_EVENT_STOPPED && strcmp(events[i].about, stop->id) == 0) {
            reason = events[i].reason;
        }
    }
    return reason;
}

static bool add_stops(sl_compare *compare, const sl_event *events, int n, size_t *room, sl_error *error)
{
    bool good = true;
    for (int i = 0; good && i < n; i++) {
        sl_deviation deviation = {
            .kind = SL_DEVIATION_STOPPED, .swatch = events[i].swatch, .zone = -1, .factor = 1.0};
        if (events[i].kind != SL_EVENT_STOPPED || events[i].about[0] != '\0') {
            continue;
        }
        deviation.reason = reason_of(&events[i], events, n);
        good = sl_deviation_add(compare, deviation, room, error);
    }
    return good;
}

static const char notes_asked[] =
    "SELECT swatch, note, remark FROM %s WHERE test = ?1 AND kind = 'note'"
    " AND (note IS NOT NULL OR remark IS NOT NULL)" SL_NOT_UNDONE
    " UNION ALL SELECT s.id, r.note, NULL FROM reading r JOIN swatch s ON s.id = r.swatch"
    " WHERE s.test = ?1 AND r.note IS NOT NULL"
    " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id AND c.kept > r.kept)";

static bool add_notes(sl_compare *compare, sl_log *log, size_t *room, sl_error *error)
{
    bool good = true;
    char table[SL_ROWS], text[sizeof notes_asked + SL_ROWS];
    snprintf(text, sizeof text, notes_asked, sl_rows_of("main", "event", log->version, table));
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, compare->test.id);
    while (good && sl_next_row(&ask)) {
        sl_deviation deviation = {
            .kind = SL_DEVIATION_NOTE,
            .swatch = sl_log_swatch_of(compare->swatches, compare->n_swatches, sl_text_at(&ask, 0), 0),
            .zone = -1,
            .factor = 1.0};
        sl_copy_at(&ask, 1, deviation.note, sizeof deviation.note);
        deviation.remark = sl_remark_of_word(sl_text_at(&ask, 2));
        good = sl_old_flag(deviation.note) || sl_dyed_read(deviation.note, &(int){0}) ||
               sl_tubs_read(deviation.note, &(sl_tubs){.check = false}) ||
               sl_deviation_add(compare, deviation, room, error);
    }
    return sl_sql_leave(&ask) && good;
}

/* Once more, out of what can be read, where a page is broken. */
static bool add_all_notes(sl_compare *compare, sl_log *log, size_t *room, sl_error *error)
{
    const int before = compare->n_deviations;
    if (add_notes(compare, log, room, error)) {
        return true;
    }
    compare->n_deviations = before;
    return sl_log_fall_back(log, error) && add_notes(compare, log, room, error);
}

bool sl_handling_read(sl_compare *compare, sl_log *log, sl_error *error)
{
    sl_event *events = NULL;
    int n_events = 0;
    size_t room = (size_t)compare->n_deviations;
    sl_solver *const solver = sl_solver_new(error);
    bool good = solver && sl_log_events(log, compare->test.id, compare->swatches, compare->n_swatches,
                                        &events, &n_events, error);
    good = good && fold(compare, events, n_events, error) && sl_courses_to_planned(compare, solver, error) &&
           sl_timeline_solve(&compare->timeline, compare->scene, NULL, 0, solver, NULL, error);
    for (int i = 0; good && i < compare->n_swatches; i++) {
        good = add_of_swatch(&(sl_otherwise){compare, &room, solver, error}, i);
    }
    for (int a = 0; good && a < compare->scene->n_arms; a++) {
        good = add_unequal(compare, a, &room, error);
    }
    good = good && add_stops(compare, events, n_events, &room, error) &&
           add_all_notes(compare, log, &room, error) && add_lots(compare, log, &room, error);
    sl_free(events);
    sl_solver_free(solver);
    return good;
}
