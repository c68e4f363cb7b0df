/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen by the order of its grades (graded.h), beside the means; see looks.h.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/hair_seen.h"

static const char doing[] = "comparing grades";

bool sl_compare_before_by_order(const sl_compare *compare, int zone, int less, int other)
{
    const int n = compare->scene->n_arms;
    return compare->before_by_order[(zone * n + less) * n + other];
}

sl_told_otherwise sl_compare_otherwise(const sl_compare *compare, int zone)
{
    sl_told_otherwise told = {0, 0};
    for (int i = 0; compare->basis[zone] == SL_BASIS_GRADE && i < compare->scene->n_arms; i++) {
        for (int k = 0; k < compare->scene->n_arms; k++) {
            const bool means = sl_compare_before(compare, zone, i, k);
            const bool order = sl_compare_before_by_order(compare, zone, i, k);
            told.by_means += means && !order ? 1 : 0;
            told.by_order += order && !means ? 1 : 0;
        }
    }
    return told;
}

/* Looks of one group; those of judges that are as usual together. Returns how many. */
static int gather_group(const sl_compare *compare, const sl_seen_group *group, int arm, sl_graded_look *look)
{
    int n = 0;
    for (int g = 0; g < group->n_grades; g++) {
        const sl_seen_grade *const grade = &compare->grades[group->first + g];
        const bool usual = grade->judge < 0 || compare->judges_usual;
        const sl_judge *const judge = usual ? &SL_JUDGE_USUAL : &compare->judge[grade->judge].is.judge;
        int at = usual ? 0 : n;
        while (at < n && (look[at].judge != judge || look[at].wipe != grade->wipe)) {
            at++;
        }
        if (at == n) {
            look[n++] = (sl_graded_look){group->swatch, arm, compare->swatches[group->swatch].block,
                                         grade->wipe,   0.0, judge};
        }
        look[at].many += grade->many;
    }
    return n;
}

/* Looks of one zone at what is ranked; look: room for all grades. */
static int gather(const sl_compare *compare, int zone, sl_graded_look *look)
{
    int n = 0;
    for (int s = 0; s < compare->n_swatches; s++) {
        const int arm = compare->bench[s].arm;
        for (int i = sl_looks_first(compare, s, zone);
             sl_compare_ranks(compare, arm, zone) && i < compare->n_groups; i++) {
            const sl_seen_group *const group = &compare->groups[i];
            if (group->swatch != s || group->zone != zone) {
                break;
            }
            if (sl_look_is_of(compare, group, compare->at_min)) {
                n += gather_group(compare, group, arm, look + n);
            }
        }
    }
    return n;
}

static double share_of(double root)
{
    return pow(fmin(fmax(root, 0.0), 1.0), 2.0);
}

/* A floor that was asked for holds for these, too. */
static void tell_zone(sl_compare *compare, int zone, const sl_blocks *blocks)
{
    const int n = compare->scene->n_arms;
    bool *const before = compare->before_by_order + (size_t)zone * (size_t)(n * n);
    int place[SL_MAX_ARMS];
    for (int i = 0; i < n * n; i++) {
        before[i] = before[i] && share_of(blocks->mean[i % n]) - share_of(blocks->mean[i / n]) >
                                     fmax(compare->asked_floor, 0.0);
    }
    sl_strip_places(blocks, before, place);
    for (int a = 0; a < n; a++) {
        const double half = sl_blocks_half(blocks, a, 0.95), root = blocks->mean[a];
        compare->arms[a * compare->scene->n_zones + zone].by_order =
            (sl_by_order){.left = blocks->n[a] > 0 ? share_of(root) : SL_NOT_READ,
                          .low = half >= 0.0 ? share_of(root - half) : SL_NOT_READ,
                          .high = half >= 0.0 ? share_of(root + half) : SL_NOT_READ,
                          .place = place[a]};
    }
}

bool sl_compare_orders_of(const sl_compare *compare, const bool *blocked, sl_blocks *zone,
                          sl_graded_scatter *scatter, sl_error *error)
{
    const int n_zones = compare->scene->n_zones;
    sl_graded_colour *const colour = sl_new((size_t)n_zones, sizeof *colour, doing, error);
    sl_graded_look *const look = sl_new((size_t)compare->n_grades + 1, sizeof *look, doing, error);
    for (int z = 0, n = 0; colour && look && z < n_zones; z++) {
        colour[z].look = look + n;
        colour[z].n = compare->basis[z] == SL_BASIS_GRADE ? gather(compare, z, look + n) : 0;
        colour[z].blocked = blocked[z];
        n += colour[z].n;
    }
    const bool good =
        colour && look && sl_graded_of(zone, scatter, colour, n_zones, compare->scene->n_arms, error);
    sl_free(colour);
    sl_free(look);
    return good;
}

bool sl_compare_orders(sl_compare *compare, sl_comparison *room, sl_error *error)
{
    const int n_zones = compare->scene->n_zones;
    const size_t pairs = (size_t)compare->scene->n_arms * (size_t)compare->scene->n_arms;
    const size_t asked = (size_t)(n_zones + compare->n_hair + compare->n_paid); /* as of the means */
    bool blocked[SL_MAX_ZONES];
    sl_blocks *const zone = sl_new(asked, sizeof *zone, doing, error);
    bool *const before = sl_new(asked * pairs, sizeof *before, doing, error);
    for (int z = 0; z < n_zones; z++) {
        blocked[z] = compare->scatter[z].blocked;
    }
    const bool good =
        zone && before && sl_compare_orders_of(compare, blocked, zone, compare->by_order, error);
    if (good) {
        sl_before_together(zone, n_zones + sl_seen_hair_ask(compare, zone + n_zones), room, before);
        memcpy(compare->before_by_order, before, (size_t)n_zones * pairs * sizeof *before);
    }
    for (int z = 0; good && z < n_zones; z++) {
        tell_zone(compare, z, &zone[z]);
    }
    sl_free(zone);
    sl_free(before);
    return good;
}
