/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Means over swatches and places, of a whole test. See compare.h.
 */
#include "slowlift/compare.h"

#include <math.h>

#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/day/rounds.h"
#include "slowlift/rank.h"
#include "slowlift/what_if.h"

const sl_seen_arm *sl_compare_arm(const sl_compare *compare, int arm, int zone)
{
    return &compare->arms[arm * compare->scene->n_zones + zone];
}

bool sl_compare_shows(const sl_compare *compare, int zone)
{
    for (int a = 0; a < compare->scene->n_arms; a++) {
        if (sl_compare_arm(compare, a, zone)->place > 0) {
            return true;
        }
    }
    return false;
}

/* ---- means ------------------------------------------------------------------------------------------------
 */

/* One value for each swatch of an arm. */
typedef struct sl_values {
    double seen[SL_BENCH_MOST], planned[SL_BENCH_MOST], later[SL_BENCH_MOST];
    int n, n_later;
} sl_values;

/* The last look after hours, when there are several. */
static const sl_seen_group *last_later(const sl_compare *compare, int swatch, int zone)
{
    const sl_seen_group *last = NULL;
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            break;
        }
        last = group->hours > 0.0 ? group : last;
    }
    return last;
}

static void gather(const sl_compare *compare, int arm, int zone, sl_basis basis, sl_values *values)
{
    values->n = values->n_later = 0;
    for (int i = 0; compare->at_min >= 0 && i < compare->n_swatches; i++) {
        const double left = compare->bench[i].arm == arm
                                ? sl_swatch_at(compare, i, zone, basis, compare->at_min)
                                : SL_NOT_READ;
        if (left > SL_NOT_READ) {
            values->seen[values->n] = left;
            values->planned[values->n++] = left * compare->bench[i].piece_to_planned[zone];
        }
    }
    for (int i = 0; compare->at_min < 0 && i < compare->n_swatches; i++) {
        const sl_seen_group *const end =
            compare->bench[i].arm == arm ? sl_looks_find(compare, i, zone, SL_NOT_READ, SL_NOT_READ) : NULL;
        if (!end || end->left[basis] <= SL_NOT_READ) {
            continue;
        }
        const sl_seen_group *const later = last_later(compare, i, zone);
        values->seen[values->n] = end->left[basis];
        values->planned[values->n++] = end->left[basis] * compare->bench[i].to_planned[zone];
        if (later && later->left[basis] > SL_NOT_READ) {
            values->later[values->n_later++] = later->left[basis] - end->left[basis];
        }
    }
}

static void means_of(sl_compare *compare, int arm, int zone, sl_values *values)
{
    sl_seen_arm *const at = &compare->arms[arm * compare->scene->n_zones + zone];
    for (int basis = 0; basis < SL_BASES; basis++) {
        gather(compare, arm, zone, (sl_basis)basis, values);
        at->seen[basis] = sl_seen_mean_of(values->seen, values->n);
        at->at_planned[basis] =
            sl_seen_mean_of(values->planned, sl_compare_has_planned(compare) ? values->n : 0);
    }
    gather(compare, arm, zone, compare->basis[zone], values);
    at->later = sl_seen_mean_of(values->later, values->n_later);
}

/* By the instrument only where it read every swatch that was graded, so that no arm is judged by
 * another measure than the next. The end decides where it was looked at, also for looks on the way. */
static sl_basis basis_of(const sl_compare *compare, int zone)
{
    int by_colour[2] = {0, 0}, by_grade_alone[2] = {0, 0}; /* at the end, on the way */
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        const int way = group->minute <= SL_NOT_READ ? 0 : 1;
        if (group->zone == zone && group->hours <= SL_NOT_READ && (way == 0 || group->minute >= 0.5)) {
            const bool colour = group->left[SL_BASIS_COLOUR] > SL_NOT_READ;
            by_colour[way] += colour ? 1 : 0;
            by_grade_alone[way] += !colour && group->left[SL_BASIS_GRADE] > SL_NOT_READ ? 1 : 0;
        }
    }
    const int way = by_colour[0] + by_grade_alone[0] > 0 ? 0 : 1; /* where nobody looked at the end */
    return by_colour[way] > 0 && by_grade_alone[way] == 0 ? SL_BASIS_COLOUR : SL_BASIS_GRADE;
}

/* Planned seconds under its mix, when the plan left an arm of one application other than the scene
 * does (a ladder's last piece, a label's time); else -1. */
static int replanned_s(const sl_compare *compare, int arm)
{
    const sl_arm *const of = &compare->scene->arms[arm];
    const sl_step *const apply = sl_arm_application(of);
    const bool once = sl_arm_applications(of) == 1;
    for (int i = 0; apply && i < compare->n_swatches; i++) {
        const sl_bench_swatch *const plan = &compare->swatches[i].bench;
        const bool other = fabs(plan->dwell_s - 60.0 * apply->duration_min) >= 1.0;
        if (compare->bench[i].arm == arm && plan->contact_s >= 0 && (plan->ladder || (once && other))) {
            return plan->dwell_s;
        }
    }
    return -1;
}

static bool predict(const sl_compare *compare, int arm, double left[SL_MAX_ZONES], sl_error *error)
{
    if (compare->at_min >= 0) {
        return sl_model_seen_at(compare, arm, compare->at_min, left, error);
    }
    const int dwell_s = replanned_s(compare, arm);
    if (dwell_s >= 0) {
        return sl_model_rinsed_at(compare->scene, arm, dwell_s / 60.0, left, error);
    }
    return sl_model_planned(compare->scene, arm, left, error);
}

/* ---- places
 * ------------------------------------------------------------------------------------------------- */

/* For lack of repeats: a step of the scale of grades at this share, or a colour difference that a
 * hair's being laid anew makes by itself. */
static const double STILL_NOISE_DE = 2.0; /* dE*ab (assumed; docs/science.md) */

static double grade_step(double left)
{
    for (int i = SL_WIPES - 1; i > 0; i--) {
        const double low = sl_wipe_share((sl_wipe)i), high = sl_wipe_share((sl_wipe)(i - 1));
        if (left < high) {
            return high - low;
        }
    }
    return sl_wipe_share((sl_wipe)0) - sl_wipe_share((sl_wipe)1);
}

static double colour_noise(const sl_compare *compare, int zone)
{
    double sum = 0.0;
    int n = 0;
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->zone == zone && group->left[SL_BASIS_COLOUR] > SL_NOT_READ) {
            sum += group->start;
            n++;
        }
    }
    return n > 0 ? STILL_NOISE_DE * n / sum : 0.0;
}

double sl_compare_floor(const sl_compare *compare, int zone, double left)
{
    if (compare->asked_floor >= 0.0) {
        return compare->asked_floor;
    }
    if (compare->basis[zone] == SL_BASIS_COLOUR) {
        return colour_noise(compare, zone);
    }
    /* Repeatability limit, ISO 5725-6: 95 of 100 differences of two looks are smaller. Grades that
     * never differed say that the judge is steady, not that the scale has no steps. */
    return compare->repeat_sd > 0.0 ? 2.8 * compare->repeat_sd : grade_step(left);
}

static bool clearly_less(const sl_compare *compare, int zone, const sl_seen_mean *one,
                         const sl_seen_mean *other)
{
    return one->n > 1 && other->n > 1 &&
           other->mean - one->mean > sl_compare_floor(compare, zone, one->mean) &&
           one->mean + one->half < other->mean - other->half;
}

static void find_places(sl_compare *compare, int zone, bool planned)
{
    const int n = compare->scene->n_arms;
    const sl_basis basis = compare->basis[zone];
    uint32_t before[SL_MAX_ARMS * SL_MAX_ARMS] = {0};
    const sl_seen_mean *mean[SL_MAX_ARMS];
    bool has[SL_MAX_ARMS] = {false};
    int place[SL_MAX_ARMS];
    for (int a = 0; a < n; a++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, a, zone);
        mean[a] = planned ? &arm->at_planned[basis] : &arm->seen[basis];
        has[a] = mean[a]->n > 0;
    }
    for (int i = 0; i < n * n; i++) {
        before[i] = clearly_less(compare, zone, mean[i / n], mean[i % n]) ? 1 : 0;
    }
    sl_rank_places(before, 1, n, has, place);
    for (int a = 0; a < n; a++) {
        sl_seen_arm *const arm = &compare->arms[a * compare->scene->n_zones + zone];
        *(planned ? &arm->place_at_planned : &arm->place) = place[a];
    }
}

static void pool(sl_compare *compare)
{
    double squares = 0.0;
    int freedom = 0;
    for (int i = 0; i < compare->scene->n_arms * compare->scene->n_zones; i++) {
        const sl_seen_mean *const seen = &compare->arms[i].seen[compare->basis[i % compare->scene->n_zones]];
        if (seen->n > 1) {
            squares += seen->sd * seen->sd * (seen->n - 1);
            freedom += seen->n - 1;
        }
    }
    compare->pooled_sd = freedom > 0 ? sqrt(squares / freedom) : -1.0;
}

static bool count_arm(sl_compare *compare, int arm, sl_values *values, sl_error *error)
{
    double left[SL_MAX_ZONES];
    if (!predict(compare, arm, left, error)) {
        return false;
    }
    for (int z = 0; z < compare->scene->n_zones; z++) {
        if (!compare->scene->arms[arm].undyed && compare->scene->zones[z].recipe.n_dyes > 0) {
            means_of(compare, arm, z, values);
            compare->arms[arm * compare->scene->n_zones + z].predicted = left[z];
        }
    }
    return true;
}

static bool count(sl_compare *compare, sl_error *error)
{
    const int n_zones = compare->scene->n_zones, n_arms = compare->scene->n_arms;
    sl_values *const values = sl_new(1, sizeof *values, "comparing", error);
    bool good = values != NULL;
    for (int z = 0; z < n_zones; z++) {
        compare->basis[z] = basis_of(compare, z);
    }
    for (int a = 0; good && a < n_arms; a++) {
        good = count_arm(compare, a, values, error);
    }
    for (int z = 0; good && z < n_zones; z++) {
        find_places(compare, z, false);
        find_places(compare, z, true);
    }
    if (good) {
        pool(compare);
    }
    sl_free(values);
    return good;
}

bool sl_compare_rank_at(sl_compare *compare, int minute, sl_error *error)
{
    compare->at_min = minute;
    return sl_pieces_to_planned(compare, error) && count(compare, error);
}

/* ---- made and freed
 * ----------------------------------------------------------------------------------------- */

static bool prepare(sl_compare *compare, sl_log *log, sl_error *error)
{
    compare->scene = sl_log_scene(log, compare->test.id, error);
    if (!compare->scene ||
        !sl_log_swatches(log, compare->test.id, &compare->swatches, &compare->n_swatches, error) ||
        !sl_day_holds(compare->n_swatches, error)) {
        return false;
    }
    const size_t cells = (size_t)compare->scene->n_arms * (size_t)compare->scene->n_zones;
    compare->bench = sl_new((size_t)compare->n_swatches + 1, sizeof *compare->bench, "comparing", error);
    compare->arms = sl_new(cells, sizeof *compare->arms, "comparing", error);
    if (!compare->bench || !compare->arms) {
        return false;
    }
    const sl_seen_mean none = sl_seen_mean_of(NULL, 0);
    for (size_t i = 0; i < cells; i++) {
        compare->arms[i] = (sl_seen_arm){
            .seen = {none, none}, .at_planned = {none, none}, .later = none, .predicted = SL_NOT_READ};
    }
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->bench[i].arm = sl_scene_arm(compare->scene, compare->swatches[i].arm);
        for (int z = 0; z < SL_MAX_ZONES; z++) {
            compare->bench[i].to_planned[z] = compare->bench[i].piece_to_planned[z] = 1.0;
        }
    }
    return true;
}

bool sl_compare_read(sl_compare **compare, sl_log *log, const sl_log_test *test, double noise_floor,
                     sl_error *error)
{
    sl_compare *const made = sl_new(1, sizeof *made, "comparing", error);
    if (!made) {
        return false;
    }
    made->test = *test;
    made->asked_floor = noise_floor;
    made->at_min = -1;
    double speed = 0.0;
    if (!sl_log_rehearsal(log, test->id, &speed, error) || !prepare(made, log, error) ||
        !sl_handling_read(made, log, error) || !sl_looks_read(made, log, error) || !count(made, error)) {
        sl_compare_free(made);
        return false;
    }
    made->rehearsal = speed > 0.0;
    *compare = made;
    return true;
}

void sl_compare_free(sl_compare *compare)
{
    if (!compare) {
        return;
    }
    sl_timeline_free(compare->timeline);
    sl_scene_free(compare->scene);
    sl_free(compare->swatches);
    sl_free(compare->bench);
    sl_free(compare->groups);
    sl_free(compare->deviations);
    sl_free(compare->arms);
    sl_free(compare);
}
