/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The least stress that reaches the goal. At a given strength, colour left falls and stress
 * rises with time, so the best time is the shortest that reaches the goal (bisection). That
 * leaves one variable, the strength: a coarse row of strengths finds the valley (there may be
 * more than one), golden section its floor.
 */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <math.h>

#include "slowlift/leave.h"
#include "slowlift/limits.h"
#include "slowlift/what_if.h"

enum { STRENGTHS = 9, MOST_TURNS = 30 };
static const double WEAKEST_PCT = 1.0;
static const double SHORTEST_MIN = 1.0;
static const double TIME_TOLERANCE_MIN = 1.0 / 60.0, STRENGTH_TOLERANCE = 0.02;
static const double NO_WAY = 2.0; /* more than any stress: shares end at 1 */

/* What is asked of one arm. */
typedef struct quest {
    const sl_scene *scene; /* without added heat */
    int arm;
    bool has_developer;
    double longest_min;
    sl_solver *solver;
    sl_timeline *timeline;
    sl_error *error;
    bool failed;
} quest;

static sl_outcome try_out(quest *q, double strength, double dwell)
{
    sl_changes changes = {.set = {false}};
    sl_variant variant;
    sl_outcome outcome = {.worst_zone = -1, .worst_left = -1.0};
    changes.set[SL_SETTING_DWELL] = true;
    changes.to[SL_SETTING_DWELL] = dwell;
    changes.set[SL_SETTING_STRENGTH] = q->has_developer;
    changes.to[SL_SETTING_STRENGTH] = strength;
    sl_variant_make(&variant, q->scene, q->arm, &changes);
    q->failed = q->failed || !sl_outcome_of(&outcome, &variant.scene, 0, &q->timeline, q->solver, q->error);
    return outcome;
}

/* The shortest time at this strength; returns its stress, or more than NO_WAY when there is none
 * (the more is missing, the higher, so that a valley has walls). */
static double least_at(quest *q, double strength, sl_trial *trial)
{
    double low = SHORTEST_MIN;
    double high = q->longest_min;
    sl_outcome outcome = try_out(q, strength, high);
    trial->found = false;
    if (!outcome.all_there) {
        return NO_WAY + 1.0 + outcome.worst_left;
    }
    sl_outcome soonest = try_out(q, strength, low);
    if (soonest.all_there) {
        high = low;
        outcome = soonest;
    }
    while (high - low > TIME_TOLERANCE_MIN && !q->failed) {
        const double middle = 0.5 * (low + high);
        const sl_outcome there = try_out(q, strength, middle);
        if (there.all_there) {
            high = middle;
            outcome = there;
        } else {
            low = middle;
        }
    }
    const sl_aims *const aims = &q->scene->aims;
    trial->found = sl_bound_kept(aims->base_moved, outcome.base_moved) &&
                   sl_bound_kept(aims->cystine_lost, outcome.cystine_lost);
    trial->strength_pct = strength;
    trial->dwell_min = high;
    trial->worst_left = outcome.worst_left;
    trial->base_moved = outcome.base_moved;
    trial->cystine_lost = outcome.cystine_lost;
    return trial->found ? outcome.cystine_lost : NO_WAY + outcome.cystine_lost;
}

static void keep(sl_trial *best, double *least, const sl_trial *trial, double stress)
{
    if (stress < *least) {
        *least = stress;
        best->found = trial->found;
        best->strength_pct = trial->strength_pct;
        best->dwell_min = trial->dwell_min;
        best->worst_left = trial->worst_left;
        best->base_moved = trial->base_moved;
        best->cystine_lost = trial->cystine_lost;
    }
}

typedef struct descent {
    quest *q;
    sl_trial *best;
    double *least;
} descent;

static double stress_at(double strength, void *self)
{
    descent *const d = self;
    sl_trial trial = {.found = false};
    const double stress = least_at(d->q, strength, &trial);
    keep(d->best, d->least, &trial, stress);
    return stress;
}

/* Golden section between the neighbours of the best of the row. */
static bool descend(descent *d, double from, double middle, double to, const double at[3])
{
    gsl_function stress = {.function = stress_at, .params = d};
    gsl_min_fminimizer *const down = gsl_min_fminimizer_alloc(gsl_min_fminimizer_goldensection);
    if (!down) {
        d->q->failed = true;
        return sl_fail(d->q->error, SL_ERR_NO_MEMORY, "searching a strength", "");
    }
    int status = gsl_min_fminimizer_set_with_values(down, &stress, middle, at[1], from, at[0], to, at[2]);
    for (int i = 0; i < MOST_TURNS && status == GSL_SUCCESS && !d->q->failed; i++) {
        status = gsl_min_fminimizer_iterate(down);
        if (gsl_min_fminimizer_x_upper(down) - gsl_min_fminimizer_x_lower(down) < STRENGTH_TOLERANCE) {
            break;
        }
    }
    gsl_min_fminimizer_free(down);
    return !d->q->failed;
}

static bool search_arm(quest *q, double strongest, sl_trial *trial)
{
    double least = HUGE_VAL;
    descent d = {.q = q, .best = trial, .least = &least};
    if (!q->has_developer || !(strongest > WEAKEST_PCT)) {
        stress_at(strongest, &d);
        return !q->failed;
    }
    double stress[STRENGTHS];
    int best = 0;
    const double step = (strongest - WEAKEST_PCT) / (STRENGTHS - 1);
    for (int i = 0; i < STRENGTHS && !q->failed; i++) {
        stress[i] = stress_at(WEAKEST_PCT + step * i, &d);
        best = stress[i] < stress[best] ? i : best;
    }
    if (q->failed || best == 0 || best == STRENGTHS - 1 || !trial->found) {
        return !q->failed; /* at an end: nothing lies beyond it */
    }
    const double middle = WEAKEST_PCT + step * best;
    return descend(&d, middle - step, middle, middle + step, &stress[best - 1]);
}

/* ---- which mixes ------------------------------------------------------------------------- */

/* The mix of an arm that puts on one mix once; NULL for all others. */
static const sl_step *only_application(const sl_scene *scene, const sl_arm *arm)
{
    const sl_step *const only = sl_arm_application(arm);
    const bool fits = sl_arm_applications(arm) == 1 && sl_arm_removes(scene, arm) &&
                      scene->mixes[only->mix].class_ != SL_MIX_WATER;
    return fits ? only : NULL;
}

static bool seen_before(const sl_scene *scene, int arm, int mix)
{
    for (int i = 0; i < arm; i++) {
        const sl_step *const apply = only_application(scene, &scene->arms[i]);
        if (apply && apply->mix == mix) {
            return true;
        }
    }
    return false;
}

bool sl_search_run(sl_search *search, const sl_scene *scene, sl_solver *solver, sl_error *error)
{
    *search = (sl_search){.best = -1};
    if (!sl_goal_set(scene)) {
        return sl_fail(error, SL_ERR_USAGE, "this scene sets no goal",
                       "a goal for the colour left in its file");
    }
    sl_scene cool = *scene;
    cool.shift_k = fmin(scene->shift_k, 0.0);
    if (!sl_swatches_only(&cool, "mixes are tried on strands, on the bench", error)) {
        return false;
    }
    quest q = {.scene = &cool, .solver = solver, .error = error};
    for (int arm = 0; arm < scene->n_arms && !q.failed; arm++) {
        const sl_step *const apply = only_application(scene, &scene->arms[arm]);
        if (!apply || seen_before(scene, arm, apply->mix)) {
            continue;
        }
        const sl_mix *const mix = &scene->mixes[apply->mix];
        if (!mix->label_allows || mix->developer_pct > SL_LEGAL_PCT) {
            search->not_allowed++;
            continue;
        }
        const sl_bound longest = scene->aims.longest_min;
        q.arm = arm;
        q.has_developer = mix->developer_parts > 0.0;
        q.longest_min = fmin(longest.set ? fmin(scene->until_min, longest.most) : scene->until_min,
                             sl_label_allowed_min(mix, apply->mix_age_min));
        sl_trial *const trial = &search->trial[search->n];
        *trial = (sl_trial){.arm = arm, .mix = apply->mix};
        if (q.longest_min >= SHORTEST_MIN) {
            search_arm(&q, mix->developer_pct, trial);
        }
        const bool better = trial->found && (search->best < 0 ||
                                             trial->cystine_lost < search->trial[search->best].cystine_lost);
        search->best = better ? search->n : search->best;
        search->n++;
    }
    sl_timeline_free(q.timeline);
    return !q.failed;
}
