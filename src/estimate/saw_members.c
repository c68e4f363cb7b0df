/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See saw_members.h. A strand lies on the bench at the room's warmth with the scene's own mixes
 * and the same draws: what it says of a member holds wherever that member's hair is.
 */
#include "estimate/saw_members.h"

#include <math.h>

static const double SLACK = 1e-9; /* of a share, for rounding */

/* One arm at one place; sums over the zones that each thing seen is about. */
typedef struct weighing {
    const sl_scene *scene;
    const member_ground *ground;
    const sl_saws *saws;
    const drawn_members *drawn;
    lane_history *history;
    int arm;
    bool strand;
    double left[SL_MOST_SAWS][LANES];
    int zones[SL_MOST_SAWS];
} weighing;

static bool is_about(const weighing *w, const sl_saw *saw, int zone)
{
    return saw->arm == w->arm && saw->strand == w->strand &&
           (saw->zone == zone || saw->zone == SL_SAW_ALL_ZONES);
}

static bool zone_is_asked(const weighing *w, int zone)
{
    for (int i = 0; i < w->saws->n; i++) {
        if (is_about(w, &w->saws->saw[i], zone)) {
            return sl_zone_direct(w->scene, zone);
        }
    }
    return false;
}

static void read_zone(weighing *w, int zone)
{
    member_zone made;
    member_zone_make(&made, w->ground, w->scene, &w->scene->arms[w->arm], zone, w->drawn);
    for (int l = 0; l < LANES; l++) {
        for (int i = 0; i < w->saws->n; i++) {
            if (is_about(w, &w->saws->saw[i], zone)) {
                w->left[i][l] += member_read(&made, w->history, l, w->saws->saw[i].minute).left;
            }
        }
    }
    for (int i = 0; i < w->saws->n; i++) {
        w->zones[i] += is_about(w, &w->saws->saw[i], zone) ? 1 : 0;
    }
}

/* All zones of one arm at one place that anything was seen of. */
static bool read_arm(weighing *w, int *bad_lane)
{
    const sl_hair *solved = NULL;
    for (int zone = 0; zone < w->scene->n_zones; zone++) {
        if (!zone_is_asked(w, zone)) {
            continue;
        }
        const sl_hair *const hair = &w->scene->hairs[w->scene->zones[zone].hair];
        if (!members_solve(w->history, &solved, lanes_run, w->scene, &w->scene->arms[w->arm], hair,
                           &w->drawn->lanes, bad_lane)) {
            return false;
        }
        read_zone(w, zone);
    }
    return true;
}

/* Fold the judge in; false when a reading is no share. */
static bool judge(saw_weights *weights, const weighing *w, int *bad_lane)
{
    for (int i = 0; i < w->saws->n; i++) {
        const sl_saw *const saw = &w->saws->saw[i];
        if (saw->arm != w->arm || saw->strand != w->strand) {
            continue;
        }
        for (int l = 0; l < LANES; l++) {
            const double left = w->left[i][l] / w->zones[i];
            if (!(left >= -SLACK && left <= 1.0 + SLACK)) {
                *bad_lane = l;
                return false;
            }
            const double agreement = sl_wipe_agreement(saw->wipe, left);
            weights->agreement[l] *= agreement;
            weights->agrees[l] |= agreement >= SL_AGREES ? UINT32_C(1) << i : 0;
        }
    }
    return true;
}

static bool seen_before(const sl_saws *saws, int number)
{
    for (int i = 0; i < number; i++) {
        if (saws->saw[i].arm == saws->saw[number].arm && saws->saw[i].strand == saws->saw[number].strand) {
            return true;
        }
    }
    return false;
}

bool members_weigh(saw_weights *weights, const sl_scene *scene, const member_ground *ground,
                   const sl_saws *saws, const drawn_members *drawn, lane_history *history, int *bad_lane,
                   int *bad_arm)
{
    sl_scene bench = *scene;
    bench.place = SL_PLACE_BENCH;
    bench.n_points = 0;
    bench.shift_k = 0.0;
    for (int l = 0; l < LANES; l++) {
        weights->agreement[l] = 1.0;
        weights->agrees[l] = 0;
    }
    for (int i = 0; i < saws->n; i++) {
        const sl_saw *const saw = &saws->saw[i];
        if (seen_before(saws, i)) {
            continue;
        }
        weighing w = {.scene = saw->strand ? &bench : scene,
                      .ground = ground,
                      .saws = saws,
                      .drawn = drawn,
                      .history = history,
                      .arm = saw->arm,
                      .strand = saw->strand};
        *bad_arm = saw->arm;
        if (!read_arm(&w, bad_lane) || !judge(weights, &w, bad_lane)) {
            return false;
        }
    }
    return true;
}

int weight_scale(double best_agreement)
{
    int exponent = 0;
    (void)frexp(best_agreement, &exponent);
    return 12 - exponent;
}

int64_t weight_of(double agreement, int scale, bool *capped)
{
    const double weight = floor(ldexp(agreement, scale) + 0.5);
    *capped = weight > SL_MOST_WEIGHT;
    return *capped ? SL_MOST_WEIGHT : (int64_t)weight;
}
