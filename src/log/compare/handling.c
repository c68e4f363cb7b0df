/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the events say of each swatch, beside its plan, and what the model makes of another dwell:
 * the share left under the mix at the planned dwell over that at the dwell it had. Washing
 * afterwards is the same factor in both, so it falls out.
 */
#include <assert.h>
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

/* ---- another dwell, by the model
 * ---------------------------------------------------------------------------- */

/* Its one application stands first; else a dwell has no one meaning. */
static bool one_application(const sl_arm *arm)
{
    return sl_arm_applications(arm) == 1 && arm->steps[0].kind == SL_STEP_APPLY;
}

/* Every arm lies long enough for every dwell that there was. */
static void lengthen(const sl_compare *compare, sl_scene *scene)
{
    double longest = 0.0;
    for (int i = 0; i < compare->n_swatches; i++) {
        longest = fmax(longest, fmax(compare->bench[i].dwell_s, compare->swatches[i].bench.dwell_s) / 60.0);
    }
    for (int a = 0; a < scene->n_arms; a++) {
        scene->arms[a].contact_min = 0.0;
        if (one_application(&scene->arms[a])) {
            scene->arms[a].steps[0].duration_min = longest + 1.0;
        }
    }
    scene->until_min = fmax(scene->until_min, longest + 120.0);
}

void sl_planned_over_had(const sl_scene *scene, const double planned[SL_MAX_ZONES],
                         const double had[SL_MAX_ZONES], double ratio[SL_MAX_ZONES])
{
    static const double LEAST_LEFT = 1e-6; /* below this share a ratio is noise of the solver */
    for (int z = 0; z < scene->n_zones; z++) {
        if (had[z] > LEAST_LEFT) {
            assert(planned[z] >= 0.0); /* where one of them is told the other is */
            ratio[z] = planned[z] / had[z];
        }
    }
}

static void to_planned(const sl_timeline *longer, const sl_scene *scene, const sl_bench_swatch *plan,
                       sl_seen_bench *bench)
{
    double had[SL_MAX_ZONES], planned[SL_MAX_ZONES];
    for (int z = 0; z < scene->n_zones; z++) {
        had[z] = sl_left_at(longer, bench->arm, z, bench->dwell_s / 60.0);
        planned[z] = sl_left_at(longer, bench->arm, z, plan->dwell_s / 60.0);
    }
    sl_planned_over_had(scene, planned, had, bench->to_planned);
}

/* The arm alone; its k-th application lies lying_s[k], and those from the n-th on are left out; rinsing
 * and washing stay. */
static bool left_after(const sl_scene *scene, int arm, const double *lying_s, int n, sl_solver *solver,
                       double left[SL_MAX_ZONES], sl_error *error)
{
    sl_variant *const variant = sl_new(1, sizeof *variant, "comparing", error);
    sl_timeline *timeline = NULL;
    if (!variant) {
        return false;
    }
    sl_variant_make(variant, scene, arm, NULL);
    sl_step *const steps = variant->arm.steps;
    int kept = 0, k = 0;
    for (int i = 0; i < variant->arm.n_steps; i++) {
        const bool applies = steps[i].kind == SL_STEP_APPLY;
        if (!applies || k < n) {
            steps[kept] = steps[i];
            steps[kept].duration_min = applies ? lying_s[k++] / 60.0 : steps[i].duration_min;
            kept++;
        }
    }
    variant->arm.n_steps = kept;
    const double dry = sl_arm_dry_min(scene, &variant->arm);
    variant->scene.until_min = fmax(variant->scene.until_min, dry);
    const bool good = sl_timeline_solve(&timeline, &variant->scene, NULL, 0, solver, NULL, error);
    for (int z = 0; good && z < scene->n_zones; z++) {
        left[z] = sl_left_at(timeline, 0, z, dry);
    }
    sl_timeline_free(timeline);
    sl_free(variant);
    return good;
}

/* Of several applications, or one that comes later, the whole course: with the times it had, and with
 * those planned. */
static bool several_to_planned(const sl_scene *scene, const sl_bench_swatch *plan, sl_seen_bench *bench,
                               sl_solver *solver, sl_error *error)
{
    double planned_s[SL_BENCH_ROUNDS], had[SL_MAX_ZONES], planned[SL_MAX_ZONES];
    for (int k = 0; k <= plan->n_more; k++) {
        planned_s[k] = sl_bench_round_of(plan, k).dwell_s;
    }
    if (!left_after(scene, bench->arm, bench->lain_s, bench->n_lain, solver, had, error) ||
        !left_after(scene, bench->arm, planned_s, plan->n_more + 1, solver, planned, error)) {
        return false;
    }
    sl_planned_over_had(scene, planned, had, bench->to_planned);
    return true;
}

static bool correct(sl_compare *compare, sl_solver *solver, sl_error *error)
{
    sl_scene *const scene = sl_scene_copy(compare->scene, error);
    sl_timeline *longer = NULL;
    if (!scene) {
        return false;
    }
    lengthen(compare, scene);
    bool good = sl_timeline_solve(&longer, scene, NULL, 0, solver, NULL, error);
    for (int i = 0; good && i < compare->n_swatches; i++) {
        sl_seen_bench *const bench = &compare->bench[i];
        if (!bench->rinsed || bench->arm < 0 || !sl_timeline_predicted(longer, bench->arm)) {
            continue;
        }
        if (one_application(&scene->arms[bench->arm])) {
            to_planned(longer, scene, &compare->swatches[i].bench, bench);
        } else if (!compare->swatches[i].bench.ladder) {
            assert(bench->n_lain > 0); /* it was rinsed */
            good = several_to_planned(compare->scene, &compare->swatches[i].bench, bench, solver, error);
        }
    }
    sl_timeline_free(longer);
    sl_scene_free(scene);
    return good;
}

/* ---- deviations
 * --------------------------------------------------------------------------------------------- */

/* The zone that the other dwell changed most, in ratio. */
static sl_deviation deviation_of(const sl_compare *compare, int swatch, sl_deviation_kind kind,
                                 double seconds)
{
    sl_deviation deviation = {.kind = kind, .swatch = swatch, .seconds = seconds, .zone = -1, .factor = 1.0};
    const bool dwell = kind == SL_DEVIATION_LATE || kind == SL_DEVIATION_EARLY;
    for (int z = 0; dwell && z < compare->scene->n_zones; z++) {
        const double factor = compare->bench[swatch].to_planned[z];
        if (fabs(log(factor)) > fabs(log(deviation.factor))) {
            deviation.zone = z;
            deviation.factor = factor;
        }
    }
    return deviation;
}

static bool add_of_swatch(sl_compare *compare, int i, size_t *room, sl_error *error)
{
    const sl_seen_bench *const bench = &compare->bench[i];
    const double late = bench->dwell_s - sl_bench_lying_s(&compare->swatches[i].bench);
    const double older = bench->mix_age_s - bench->planned_age_s;
    const struct {
        bool is;
        sl_deviation_kind kind;
        double seconds;
    } all[] = {{bench->rinsed && late >= SL_DWELL_OFF_S, SL_DEVIATION_LATE, late},
               {bench->rinsed && late <= -SL_DWELL_OFF_S, SL_DEVIATION_EARLY, late},
               {bench->mixed && fabs(older) >= SL_MIX_AGE_OFF_S, SL_DEVIATION_MIX_AGE, older},
               {bench->over_label, SL_DEVIATION_LABEL, 0.0},
               {bench->clocks_differ, SL_DEVIATION_CLOCKS, 0.0}};
    bool good = true;
    for (size_t k = 0; good && k < sizeof all / sizeof all[0]; k++) {
        good = !all[k].is ||
               sl_deviation_add(compare, deviation_of(compare, i, all[k].kind, all[k].seconds), room, error);
    }
    for (int k = 0; good && k < bench->n_pieces; k++) {
        sl_deviation piece = deviation_of(compare, i, SL_DEVIATION_PIECE,
                                          bench->piece_s[k] - compare->swatches[i].bench.look_s[k]);
        piece.piece_min = compare->swatches[i].bench.look_s[k] / 60;
        good = fabs(piece.seconds) < SL_DWELL_OFF_S || sl_deviation_add(compare, piece, room, error);
    }
    return good;
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
    return apart < SL_DWELL_OFF_S ||
           sl_deviation_add(compare, deviation_of(compare, longest, SL_DEVIATION_UNEQUAL, apart), room,
                            error);
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
        sl_deviation deviation = {.kind = SL_DEVIATION_NOTE, .swatch = -1, .zone = -1, .factor = 1.0};
        for (int i = 0; i < compare->n_swatches; i++) {
            deviation.swatch =
                strcmp(compare->swatches[i].id, sl_text_at(&ask, 0)) == 0 ? i : deviation.swatch;
        }
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
    good = good && fold(compare, events, n_events, error) && correct(compare, solver, error) &&
           sl_timeline_solve(&compare->timeline, compare->scene, NULL, 0, solver, NULL, error);
    for (int i = 0; good && i < compare->n_swatches; i++) {
        good = add_of_swatch(compare, i, &room, error);
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
