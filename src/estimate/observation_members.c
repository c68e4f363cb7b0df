/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See observation_members.h. A strand lies on the bench at the room's warmth with the scene's own mixes
 * and the same draws: what it says of a member holds wherever that member's hair is.
 */
#include "estimate/observation_members.h"

#include <math.h>

static const double SLACK = 1e-9; /* of a share, for rounding */

/* One arm at one place; sums over the zones that each thing seen is about. */
typedef struct weighing {
    const sl_scene *scene;
    const member_ground *ground;
    const sl_observations *observations;
    const drawn_members *drawn;
    lane_history *history;
    int arm;
    bool strand;
    double left[SL_MOST_OBSERVATIONS][LANES];
    int zones[SL_MOST_OBSERVATIONS];
} weighing;

static bool is_about(const weighing *w, const sl_observation *observation, int zone)
{
    return observation->arm == w->arm && observation->strand == w->strand &&
           (observation->zone == zone || observation->zone == SL_OBSERVED_ALL_ZONES);
}

static bool zone_is_asked(const weighing *w, int zone)
{
    for (int i = 0; i < w->observations->n; i++) {
        if (is_about(w, &w->observations->observation[i], zone)) {
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
        for (int i = 0; i < w->observations->n; i++) {
            if (is_about(w, &w->observations->observation[i], zone)) {
                w->left[i][l] +=
                    member_read(&made, w->history, l, w->observations->observation[i].minute).left;
            }
        }
    }
    for (int i = 0; i < w->observations->n; i++) {
        w->zones[i] += is_about(w, &w->observations->observation[i], zone) ? 1 : 0;
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
        if (!members_solve_zone(w->history, &solved, lanes_run, w->scene, &w->scene->arms[w->arm], zone,
                                w->drawn, bad_lane)) {
            return false;
        }
        read_zone(w, zone);
    }
    return true;
}

/* Fold the judge in; false when a reading is no share. */
static bool judge(observation_weights *weights, const weighing *w, int *bad_lane)
{
    for (int i = 0; i < w->observations->n; i++) {
        const sl_observation *const observation = &w->observations->observation[i];
        if (observation->arm != w->arm || observation->strand != w->strand) {
            continue;
        }
        for (int l = 0; l < LANES; l++) {
            const double left = w->left[i][l] / w->zones[i];
            if (!(left >= -SLACK && left <= 1.0 + SLACK)) {
                *bad_lane = l;
                return false;
            }
            const double agreement = sl_wipe_agreement(&SL_JUDGE_USUAL, observation->wipe, left);
            weights->agreement[l] *= agreement;
            weights->agrees[l] |= agreement >= SL_AGREES ? UINT32_C(1) << i : 0;
        }
    }
    return true;
}

static bool seen_before(const sl_observations *observations, int number)
{
    for (int i = 0; i < number; i++) {
        if (observations->observation[i].arm == observations->observation[number].arm &&
            observations->observation[i].strand == observations->observation[number].strand) {
            return true;
        }
    }
    return false;
}

bool members_weigh(observation_weights *weights, const sl_scene *scene, const member_ground *ground,
                   const sl_observations *observations, const drawn_members *drawn, lane_history *history,
                   int *bad_lane, int *bad_arm)
{
    sl_scene bench = *scene;
    bench.place = SL_PLACE_BENCH;
    bench.n_points = 0;
    bench.shift_k = 0.0;
    for (int l = 0; l < LANES; l++) {
        weights->agreement[l] = 1.0;
        weights->agrees[l] = 0;
    }
    for (int i = 0; i < observations->n; i++) {
        const sl_observation *const observation = &observations->observation[i];
        if (seen_before(observations, i)) {
            continue;
        }
        weighing w = {.scene = observation->strand ? &bench : scene,
                      .ground = ground,
                      .observations = observations,
                      .drawn = drawn,
                      .history = history,
                      .arm = observation->arm,
                      .strand = observation->strand};
        *bad_arm = observation->arm;
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
