/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Means over swatches and places, of a whole test. See compare.h.
 */
#include "slowlift/compare.h"

#include <math.h>

#include "base/memory.h"
#include "log/compare/hair_seen.h"
#include "log/day/rounds.h"
#include "slowlift/rank.h"
#include "slowlift/what_if.h"

const sl_seen_arm *sl_compare_arm(const sl_compare *compare, int arm, int zone)
{
    return &compare->arms[arm * compare->scene->n_zones + zone];
}

bool sl_compare_before(const sl_compare *compare, int zone, int less, int other)
{
    const int n = compare->scene->n_arms;
    return compare->before[(zone * n + less) * n + other];
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

static sl_seen_arm *arm_at(const sl_compare *compare, int arm, int zone)
{
    return &compare->arms[arm * compare->scene->n_zones + zone];
}

static void means_of(sl_compare *compare, int zone, sl_basis basis, bool planned, sl_blocks *blocks)
{
    sl_seen_mean mean[SL_MAX_ARMS];
    sl_compare_means(compare, zone, basis, compare->at_min, planned, blocks, mean);
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        sl_seen_arm *const at = arm_at(compare, arm, zone);
        if (planned) {
            at->at_planned[basis] = mean[arm];
        } else {
            at->seen[basis] = mean[arm];
        }
    }
}

static void later_of(const sl_compare *compare, int arm, int zone)
{
    double later[SL_BENCH_MOST];
    int n = 0;
    for (int i = 0; compare->at_min < 0 && i < compare->n_swatches; i++) {
        double to_planned = 1.0;
        const sl_basis basis = compare->basis[zone];
        const double left = compare->bench[i].arm == arm
                                ? sl_swatch_left(compare, i, zone, basis, -1, &to_planned)
                                : SL_NOT_READ;
        const sl_seen_group *const again = left > SL_NOT_READ ? last_later(compare, i, zone) : NULL;
        if (again && again->left[basis] > SL_NOT_READ) {
            later[n++] = again->left[basis] - left;
        }
    }
    arm_at(compare, arm, zone)->later = sl_seen_mean_of(later, n);
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

/* What one comparison of a whole test takes. */
typedef struct sl_counting {
    sl_blocks other; /* of the basis that is not ranked */
    sl_blocks *zone; /* [n_zones], and what is asked beside colours */
    sl_comparison *room;
} sl_counting;

static void place_all(sl_compare *compare, sl_counting *with, bool planned)
{
    const int n_zones = compare->scene->n_zones, n_arms = compare->scene->n_arms;
    int place[SL_MAX_ARMS];
    sl_blocks_calm(with->zone, n_zones);
    const int n_asked = n_zones + sl_seen_hair_ask(compare, with->zone + n_zones);
    compare->comparisons = sl_before_together(with->zone, n_asked, with->room, compare->before);
    sl_seen_hair_settle(compare);
    for (int z = 0; z < n_zones; z++) {
        sl_strip_places(&with->zone[z], compare->before + (size_t)z * (size_t)(n_arms * n_arms), place);
        for (int a = 0; a < n_arms; a++) {
            sl_seen_arm *const at = arm_at(compare, a, z);
            if (planned) {
                at->place_at_planned = place[a];
            } else {
                at->place = place[a];
            }
        }
    }
}

/* The least difference from which on any two arms of a zone are told apart, or that was told; -1: none can
 * be. */
static double told_from(const sl_compare *compare, const sl_counting *with)
{
    double least = -1.0;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        for (int one = 0; one < compare->scene->n_arms; one++) {
            for (int other = one + 1; other < compare->scene->n_arms; other++) {
                const double from = sl_blocks_told_from(&with->zone[z], one, other, compare->comparisons);
                if (from >= 0.0 && (least < 0.0 || from < least)) {
                    least = from;
                }
            }
        }
    }
    return sl_blocks_least_told(with->zone, compare->scene->n_zones, compare->before, least);
}

/* The planned ones first, so that what lies before what is of what was seen. */
static void compare_all(sl_compare *compare, sl_counting *with)
{
    double within = 0.0;
    int freedom = 0;
    for (int planned = 1; planned >= 0; planned--) {
        for (int z = 0; z < compare->scene->n_zones; z++) {
            for (int basis = 0; basis < SL_BASES; basis++) {
                const bool ranked = (sl_basis)basis == compare->basis[z];
                means_of(compare, z, (sl_basis)basis, planned == 1, ranked ? &with->zone[z] : &with->other);
            }
        }
        place_all(compare, with, planned == 1);
    }
    for (int z = 0; z < compare->scene->n_zones; z++) {
        within += with->zone[z].within;
        freedom += with->zone[z].freedom;
        compare->scatter[z].blocked = with->zone[z].blocked;
        compare->scatter[z].freedom = with->zone[z].freedom;
        compare->scatter[z].sd = with->zone[z].sd;
    }
    compare->even_below = told_from(compare, with);
    compare->pooled_sd = freedom > 0 ? sqrt(within / freedom) : -1.0;
}

static bool count(sl_compare *compare, sl_error *error)
{
    const int n_zones = compare->scene->n_zones, n_arms = compare->scene->n_arms;
    sl_counting *const with = sl_new(1, sizeof *with, "comparing", error);
    double left[SL_MAX_ZONES];
    for (int z = 0; z < n_zones; z++) {
        compare->basis[z] = basis_of(compare, z);
    }
    bool good = with && sl_seen_hair_read(compare, error);
    const size_t asked = (size_t)(n_zones + compare->n_hair + compare->n_paid);
    good = good && (with->zone = sl_new(asked, sizeof *with->zone, "comparing", error)) &&
           (with->room = sl_new(asked * (size_t)(n_arms * (n_arms - 1) / 2) + 1, sizeof *with->room,
                                "comparing", error));
    for (int a = 0; good && a < n_arms; a++) {
        good = predict(compare, a, left, error);
        for (int z = 0; good && z < n_zones; z++) {
            if (sl_compare_ranks(compare, a, z)) {
                arm_at(compare, a, z)->predicted = left[z];
                later_of(compare, a, z);
            }
        }
    }
    if (good) {
        compare_all(compare, with);
        good = sl_compare_orders(compare, with->room, error);
    }
    if (with) {
        sl_free(with->zone);
        sl_free(with->room);
    }
    sl_free(with);
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
    compare->before_by_order =
        sl_new(cells * (size_t)compare->scene->n_arms, sizeof *compare->before_by_order, "comparing", error);
    compare->by_order =
        sl_new((size_t)compare->scene->n_zones, sizeof *compare->by_order, "comparing", error);
    if (!compare->bench || !compare->arms || !compare->before_by_order || !compare->by_order) {
        return false;
    }
    const sl_seen_mean none = sl_seen_mean_of(NULL, 0);
    for (size_t i = 0; i < cells; i++) {
        compare->arms[i] = (sl_seen_arm){.by_order = {SL_NOT_READ, SL_NOT_READ, SL_NOT_READ, 0},
                                         .seen = {none, none},
                                         .at_planned = {none, none},
                                         .later = none,
                                         .predicted = SL_NOT_READ};
    }
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->bench[i].arm = sl_scene_arm(compare->scene, compare->swatches[i].arm);
        compare->n_blocks = compare->swatches[i].block >= compare->n_blocks ? compare->swatches[i].block + 1
                                                                            : compare->n_blocks;
        for (int z = 0; z < SL_MAX_ZONES; z++) {
            compare->bench[i].to_planned[z] = compare->bench[i].piece_to_planned[z] = 1.0;
        }
    }
    return true;
}

bool sl_compare_read_looks(sl_compare **compare, sl_log *log, const sl_log_test *test, double noise_floor,
                           sl_error *error)
{
    sl_compare *const made = sl_new(1, sizeof *made, "comparing", error);
    if (!made) {
        return false;
    }
    made->test = *test;
    made->asked_floor = noise_floor;
    made->at_min = -1;
    made->judges_usual = true;
    if (!prepare(made, log, error) || !sl_looks_read(made, log, error)) {
        sl_compare_free(made);
        return false;
    }
    for (int z = 0; z < made->scene->n_zones; z++) {
        made->basis[z] = basis_of(made, z);
    }
    *compare = made;
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
    if (!sl_log_real(log, test->id, error) || !prepare(made, log, error) ||
        !sl_handling_read(made, log, error) || !sl_looks_read(made, log, error) ||
        !sl_uncovered_read(made, log, error) || !count(made, error) || !sl_odd_find(made, error)) {
        sl_compare_free(made);
        return false;
    }
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
    sl_free(compare->before);
    sl_seen_hair_free(compare);
    sl_free(compare->before_by_order);
    sl_free(compare->by_order);
    sl_free(compare->grades);
    sl_free(compare->judge);
    sl_free(compare->pairs);
    sl_free(compare);
}
