/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the tests of a group say together: each test's strips in blocks, as `compare` has them, then all of
 * them by pooled.h and told by the one rule of blocks.h. See several.h.
 */
#include <math.h>

#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/several/several.h"

static const char doing[] = "putting tests together";

typedef struct sl_pooling_work {
    sl_block_value value[SL_BENCH_MOST];
    int strip[SL_MAX_ARMS]; /* of an arm of the test at hand */
    sl_blocks *test;        /* [n_zones][n_tests] */
    sl_blocks *all;         /* [n_zones] */
    sl_comparison *room;
} sl_pooling_work;

static void take_zone(sl_pooling_work *with, sl_several_group *group, int zone, const sl_compare *seen,
                      int of, sl_blocks *blocks)
{
    const int n = of < 0 ? 0 : sl_compare_values(seen, of, seen->basis[of], -1, false, with->value);
    for (int i = 0; i < n; i++) {
        with->value[i].strip = with->strip[with->value[i].strip];
    }
    sl_blocks_of(blocks, with->value, n, group->n_strips);
    for (int i = 0; n > 0 && i < group->n_strips; i++) {
        blocks->least_sd[i] = sl_compare_least_sd(seen, of, blocks->mean[i]);
    }
    if (n > 0) {
        bool *const by = seen->basis[of] == SL_BASIS_GRADE ? group->graded : group->read;
        by[zone] = true;
    }
}

static void take_tests(sl_pooling_work *with, const sl_several *several, sl_several_group *group, int number)
{
    int k = 0;
    for (size_t i = 0; i < several->n; i++) {
        const sl_compare *const seen = several->test[i].seen;
        if (several->test[i].group != number) {
            continue;
        }
        for (int s = 0; s < group->n_strips; s++) {
            const int arm = sl_scene_arm(seen->scene, sl_several_strip(several, group, s, false));
            if (arm >= 0) {
                with->strip[arm] = s;
            }
        }
        for (int z = 0; z < group->n_zones; z++) {
            take_zone(with, group, z, seen,
                      sl_scene_zone(seen->scene, sl_several_zone(several, group, z, false)),
                      &with->test[z * group->n_tests + k]);
        }
        k++;
    }
}

/* The least difference from which on any two strips of a zone are told apart, or that was told. */
static double told_from(const sl_several_group *group, const sl_blocks *all)
{
    double least = -1.0;
    for (int z = 0; z < group->n_zones; z++) {
        const double from = group->pool[z] ? sl_pool_told_from(group->pool[z], group->comparisons) : -1.0;
        least = from >= 0.0 && (least < 0.0 || from < least) ? from : least;
    }
    return sl_blocks_least_told(all, group->n_zones, group->before, least);
}

static bool predict(const sl_several *several, sl_several_group *group, sl_error *error)
{
    for (int s = 0; s < group->n_strips; s++) {
        double left[SL_MAX_ZONES];
        const sl_several_part part = group->strip[s];
        const sl_scene *const scene = several->test[part.test].seen->scene;
        if (!sl_model_planned(scene, part.index, left, error)) {
            return false;
        }
        for (int z = 0; z < group->n_zones; z++) {
            const int zone = sl_scene_zone(scene, sl_several_zone(several, group, z, false));
            group->predicted[z * group->n_strips + s] = zone >= 0 ? left[zone] : SL_NOT_READ;
        }
    }
    return true;
}

static bool pool_zones(const sl_several *several, sl_several_group *group, sl_pooling_work *with,
                       sl_error *error)
{
    const int n = group->n_strips;
    sl_blocks_calm(with->test, group->n_zones * group->n_tests);
    for (int z = 0; z < group->n_zones; z++) {
        const sl_blocks *const test = &with->test[z * group->n_tests];
        int with_any = 0;
        for (int k = 0; k < group->n_tests * n; k++) {
            with_any += test[k / n].n[k % n] > 0 ? 1 : 0;
        }
        with->all[z] = (sl_blocks){.n_strips = n};
        if (with_any == 0) {
            continue;
        }
        if (!sl_pool_make(&group->pool[z], test, group->n_tests, sl_pool_prior_of(group->n_tests), error)) {
            return false;
        }
        with->all[z] = group->pool[z]->all;
        with->all[z].least_apart = fmax(several->asked->noise_floor, 0.0);
    }
    group->comparisons = sl_before_together(with->all, group->n_zones, with->room, group->before);
    for (int z = 0; z < group->n_zones; z++) {
        sl_strip_places(&with->all[z], group->before + z * n * n, group->place + z * n);
    }
    group->even_below = told_from(group, with->all);
    return true;
}

bool sl_several_pool(const sl_several *several, sl_several_group *group, int number, sl_error *error)
{
    const size_t n = (size_t)group->n_strips, zones = (size_t)group->n_zones, tests = (size_t)group->n_tests;
    group->place = sl_new(zones * n + 1, sizeof *group->place, doing, error);
    group->predicted = sl_new(zones * n + 1, sizeof *group->predicted, doing, error);
    group->before = sl_new(zones * n * n + 1, sizeof *group->before, doing, error);
    group->before_by_order = sl_new(zones * n * n + 1, sizeof *group->before, doing, error);
    sl_pooling_work *const with = sl_new(1, sizeof *with, doing, error);
    bool good = with && group->place && group->predicted && group->before && group->before_by_order;
    good = good && (with->test = sl_new(zones * tests, sizeof *with->test, doing, error)) &&
           (with->all = sl_new(zones, sizeof *with->all, doing, error)) &&
           (with->room = sl_new(zones * n * n + 1, sizeof *with->room, doing, error));
    if (good) {
        take_tests(with, several, group, number);
        good = pool_zones(several, group, with, error) &&
               sl_several_by_order(several, group, number, with->test, with->room, error) &&
               predict(several, group, error);
    }
    if (with) {
        sl_free(with->test);
        sl_free(with->all);
        sl_free(with->room);
    }
    sl_free(with);
    return good;
}
