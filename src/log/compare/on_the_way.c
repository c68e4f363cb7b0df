/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks before the end: which minutes there are, their means, and the model at one of them. On a time
 * ladder a look is at a piece that was cut off and rinsed, else at hair under the mix that was wiped for
 * it; the model is asked for the same (docs/science.md, "Comparing what was seen").
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/looks.h"
#include "slowlift/what_if.h"

/* A look at the arm, on the zone's basis, before it was washed. */
bool sl_look_on_the_way(const sl_compare *compare, const sl_seen_group *group, int arm, int zone)
{
    return group->zone == zone && compare->bench[group->swatch].arm == arm && group->hours <= SL_NOT_READ &&
           lround(group->minute) >= 1 && group->left[compare->basis[zone]] > SL_NOT_READ;
}

int sl_minutes_put(int *minutes, int n, int most, int minute)
{
    int at = n;
    while (at > 0 && minutes[at - 1] >= minute) {
        at--;
    }
    if (at == most || (at < n && minutes[at] == minute)) {
        return n;
    }
    const int more = n < most ? n + 1 : n;
    memmove(minutes + at + 1, minutes + at, (size_t)(more - 1 - at) * sizeof *minutes);
    minutes[at] = minute;
    return more;
}

int sl_compare_minutes(const sl_compare *compare, int arm, int zone, int *minutes, int most)
{
    int n = 0;
    for (int i = 0; i < compare->n_groups; i++) {
        if (sl_look_on_the_way(compare, &compare->groups[i], arm, zone)) {
            n = sl_minutes_put(minutes, n, most, (int)lround(compare->groups[i].minute));
        }
    }
    return n;
}

double sl_compare_model_at(const sl_compare *compare, int arm, int zone, double minute)
{
    return sl_left_at(compare->timeline, arm, zone, compare->scene->arms[arm].contact_min + minute);
}

int sl_compare_dwell_min(const sl_compare *compare, int arm)
{
    for (int i = 0; i < compare->n_swatches; i++) {
        if (compare->bench[i].arm == arm) {
            return (sl_bench_span_s(&compare->swatches[i].bench) + 30) / 60;
        }
    }
    return 0;
}

/* ---- a ladder --------------------------------------------------------------------------------------- */

bool sl_compare_ladder(const sl_compare *compare, int arm)
{
    for (int i = 0; i < compare->n_swatches; i++) {
        if (compare->bench[i].arm == arm && compare->swatches[i].bench.ladder) {
            return true;
        }
    }
    return false;
}

bool sl_look_is_of(const sl_compare *compare, const sl_seen_group *group, int at_min)
{
    const sl_bench_swatch *const plan = &compare->swatches[group->swatch].bench;
    const bool end = at_min < 0 || (plan->ladder && (plan->dwell_s + 30) / 60 == at_min);
    return group->hours <= SL_NOT_READ &&
           (group->minute <= SL_NOT_READ ? end : lround(group->minute) == at_min);
}

double sl_swatch_at(const sl_compare *compare, int swatch, int zone, sl_basis basis, int minute)
{
    double sum = 0.0;
    int n = 0;
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            break;
        }
        if (group->left[basis] > SL_NOT_READ && sl_look_is_of(compare, group, minute)) {
            sum += group->left[basis];
            n++;
        }
    }
    return n > 0 ? sum / n : SL_NOT_READ;
}

/* The arm alone, its first application so long, and what follows it up to the next one. */
static void lie_for(sl_variant *variant, const sl_scene *scene, int arm, double minutes)
{
    sl_variant_make(variant, scene, arm, NULL);
    const int apply = sl_arm_next_application(&variant->arm, 0);
    if (apply >= 0) {
        const int next = sl_arm_next_application(&variant->arm, apply + 1);
        variant->arm.n_steps = next >= 0 ? next : variant->arm.n_steps;
        variant->arm.steps[apply].duration_min = minutes;
        variant->scene.until_min = fmax(variant->scene.until_min, sl_arm_dry_min(scene, &variant->arm));
    }
}

/* What is left of a variant's one arm once it is washed and dry, as swatches are judged. */
static bool read_dry(const sl_variant *variant, double left[SL_MAX_ZONES], sl_error *error)
{
    const sl_scene *const scene = &variant->scene;
    sl_solver *const solver = sl_solver_new(error);
    sl_timeline *timeline = NULL;
    const bool good = solver && sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, error);
    for (int z = 0; good && z < scene->n_zones; z++) {
        sl_cell cell = {.colour_left = -1.0};
        if (sl_timeline_predicted(timeline, 0)) {
            sl_timeline_at(timeline, 0, z, sl_arm_dry_min(scene, &variant->arm), NULL, &cell);
        }
        left[z] = cell.colour_left >= 0.0 ? cell.colour_left : SL_NOT_READ;
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return good;
}

bool sl_model_planned(const sl_scene *scene, int arm, double left[SL_MAX_ZONES], sl_error *error)
{
    sl_variant *const variant = sl_new(1, sizeof *variant, "comparing", error);
    if (!variant) {
        return false;
    }
    sl_variant_make(variant, scene, arm, NULL);
    const bool good = read_dry(variant, left, error);
    sl_free(variant);
    return good;
}

bool sl_model_rinsed_at(const sl_scene *scene, int arm, double minutes, double left[SL_MAX_ZONES],
                        sl_error *error)
{
    sl_variant *const variant = sl_new(1, sizeof *variant, "comparing", error);
    if (!variant) {
        return false;
    }
    lie_for(variant, scene, arm, minutes);
    const bool good = read_dry(variant, left, error);
    sl_free(variant);
    return good;
}

bool sl_model_seen_at(const sl_compare *compare, int arm, double minutes, double left[SL_MAX_ZONES],
                      sl_error *error)
{
    const sl_scene *const scene = compare->scene;
    if (sl_compare_ladder(compare, arm)) {
        return sl_model_rinsed_at(scene, arm, minutes, left, error);
    }
    const bool told = sl_timeline_predicted(compare->timeline, arm) &&
                      scene->arms[arm].contact_min + minutes <= scene->until_min;
    for (int z = 0; z < scene->n_zones; z++) {
        const double share = told ? sl_compare_model_at(compare, arm, z, minutes) : -1.0;
        left[z] = share >= 0.0 ? share : SL_NOT_READ;
    }
    return true;
}

/* ---- pieces that were cut off early or late ---------------------------------------------------------- */

bool sl_compare_has_planned(const sl_compare *compare)
{
    bool ladder = false;
    for (int a = 0; a < compare->scene->n_arms && !ladder; a++) {
        ladder = sl_compare_ladder(compare, a);
    }
    return compare->at_min < 0 || ladder;
}

/* Minutes at which the piece of the ranked minute was cut off; -1: nobody wrote it down, or no piece. */
static double cut_at(const sl_compare *compare, int swatch)
{
    const sl_bench_swatch *const plan = &compare->swatches[swatch].bench;
    const sl_seen_bench *const bench = &compare->bench[swatch];
    for (int k = 0; plan->ladder && k < bench->n_pieces; k++) {
        if (plan->look_s[k] == 60 * compare->at_min) {
            return bench->piece_s[k] / 60.0;
        }
    }
    return -1.0;
}

static bool piece_to_planned(sl_compare *compare, int swatch, double minutes, sl_error *error)
{
    sl_seen_bench *const bench = &compare->bench[swatch];
    const sl_course_as had = {.n = 1, .lies_s = {60.0 * minutes}, .older_s = {bench->older_s[0]}};
    const sl_course_as planned = {.n = 1, .lies_s = {60.0 * compare->at_min}};
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver && sl_course_ratio(compare->scene, bench->arm, &had, &planned, solver,
                                                bench->piece_to_planned, error);
    sl_solver_free(solver);
    return good;
}

bool sl_pieces_to_planned(sl_compare *compare, sl_error *error)
{
    bool good = true;
    for (int i = 0; good && i < compare->n_swatches; i++) {
        sl_seen_bench *const bench = &compare->bench[i];
        const sl_bench_swatch *const plan = &compare->swatches[i].bench;
        const bool last = plan->ladder && (plan->dwell_s + 30) / 60 == compare->at_min;
        const double minutes = cut_at(compare, i);
        for (int z = 0; z < compare->scene->n_zones; z++) {
            bench->piece_to_planned[z] = last ? bench->to_planned[z] : 1.0;
        }
        good = minutes <= 0.0 || bench->arm < 0 || piece_to_planned(compare, i, minutes, error);
    }
    return good;
}
