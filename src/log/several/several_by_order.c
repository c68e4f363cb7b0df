/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the tests of a group say together by the order of their grades (graded.h): each test's strips, as
 * roots of what is left, pooled as means are. Judges are as usual: one changes over a year. See several.h.
 */
#include <math.h>

#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/several/several.h"

static const char doing[] = "putting grades together";

/* What grades tell of the arms of one test, as of the strips of its group. */
static void take_zone(const sl_blocks *from, const int *strip, sl_blocks *to, int n_strips)
{
    *to = (sl_blocks){.n_strips = n_strips,
                      .freedom = from->freedom,
                      .sd = from->sd,
                      .calm_sd = from->calm_sd,
                      .calm_freedom = from->calm_freedom};
    for (int i = 0; from->freedom > 0 && i < from->n_strips; i++) {
        if (from->n[i] > 0) {
            to->n[strip[i]] = from->n[i];
            to->mean[strip[i]] = from->mean[i];
            for (int k = 0; k < from->n_strips; k++) {
                if (from->n[k] > 0) {
                    to->part[strip[i]][strip[k]] = from->part[i][k];
                }
            }
        }
    }
}

/* to: [n_zones][n_tests], k: which of these tests it is. */
static bool take_test(const sl_several *several, const sl_several_group *group, const sl_compare *seen,
                      const sl_blocks *by_means, sl_blocks *to, int k, sl_error *error)
{
    bool blocked[SL_MAX_ZONES] = {false};
    int strip[SL_MAX_ARMS], zone[SL_MAX_ZONES];
    sl_graded_scatter scatter[SL_MAX_ZONES];
    sl_blocks *const own = sl_new((size_t)seen->scene->n_zones, sizeof *own, doing, error);
    for (int s = 0; s < group->n_strips; s++) {
        const int arm = sl_scene_arm(seen->scene, sl_several_strip(several, group, s, false));
        if (arm >= 0) {
            strip[arm] = s;
        }
    }
    for (int z = 0; z < group->n_zones; z++) {
        zone[z] = sl_scene_zone(seen->scene, sl_several_zone(several, group, z, false));
        if (zone[z] >= 0) {
            blocked[zone[z]] = by_means[z * group->n_tests + k].blocked;
        }
    }
    const bool good = own && sl_compare_orders_of(seen, blocked, own, scatter, error);
    for (int z = 0; good && z < group->n_zones; z++) {
        if (zone[z] >= 0) {
            take_zone(&own[zone[z]], strip, &to[z * group->n_tests + k], group->n_strips);
        } else {
            to[z * group->n_tests + k].n_strips = group->n_strips;
        }
    }
    sl_free(own);
    return good;
}

static double share_of(double root)
{
    return pow(fmin(fmax(root, 0.0), 1.0), 2.0);
}

static bool any_seen(const sl_blocks *test, int n_tests)
{
    for (int i = 0; i < n_tests * test->n_strips; i++) {
        if (test[i / test->n_strips].n[i % test->n_strips] > 0) {
            return true;
        }
    }
    return false;
}

static bool pool(const sl_several *several, sl_several_group *group, const sl_blocks *test, sl_blocks *all,
                 sl_comparison *room, sl_error *error)
{
    const int n = group->n_strips, zones = group->n_zones;
    sl_pooled *pools[SL_MAX_ZONES] = {NULL};
    bool good = true;
    for (int z = 0; good && z < zones; z++) {
        const sl_blocks *const of = &test[z * group->n_tests];
        all[z] = (sl_blocks){.n_strips = n};
        if (any_seen(of, group->n_tests)) {
            good = sl_pool_make(&pools[z], of, group->n_tests, sl_pool_prior_of(group->n_tests), error);
            all[z] = good ? pools[z]->all : all[z];
        }
    }
    if (good) {
        sl_before_together(all, zones, room, group->before_by_order);
    }
    for (int i = 0; good && i < zones * n * n; i++) {
        const double *const mean = all[i / n / n].mean;
        group->before_by_order[i] =
            group->before_by_order[i] &&
            share_of(mean[i % n]) - share_of(mean[i / n % n]) > fmax(several->asked->noise_floor, 0.0);
    }
    for (int z = 0; z < zones; z++) {
        sl_pool_free(pools[z]);
    }
    return good;
}

bool sl_several_by_order(const sl_several *several, sl_several_group *group, int number,
                         const sl_blocks *test, sl_comparison *room, sl_error *error)
{
    sl_blocks *const graded = sl_new((size_t)(group->n_zones * group->n_tests), sizeof *graded, doing, error);
    sl_blocks *const all = sl_new((size_t)group->n_zones, sizeof *all, doing, error);
    bool good = graded && all;
    for (size_t i = 0, k = 0; good && i < several->n; i++) {
        if (several->test[i].group == number) {
            good = take_test(several, group, several->test[i].seen, test, graded, (int)k++, error);
        }
    }
    good = good && pool(several, group, graded, all, room, error);
    sl_free(graded);
    sl_free(all);
    return good;
}

sl_told_otherwise sl_several_otherwise(const sl_several_group *group, int zone)
{
    const int n = group->n_strips;
    sl_told_otherwise told = {0, 0};
    for (int i = zone * n * n; group->graded[zone] && !group->read[zone] && i < (zone + 1) * n * n; i++) {
        told.by_means += group->before[i] && !group->before_by_order[i] ? 1 : 0;
        told.by_order += group->before_by_order[i] && !group->before[i] ? 1 : 0;
    }
    return told;
}
