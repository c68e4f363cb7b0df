/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See spread.h. Members run sixteen at a time through every arm (kinetics/lanes.h); each thread (walk.h)
 * counts for itself, and the counts are added.
 */
#include "slowlift/spread.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "estimate/counts.h"
#include "estimate/observation_members.h"
#include "estimate/walk.h"

static const char doing[] = "running an ensemble";

/* ---- draws ------------------------------------------------------------------------------ */

/* splitmix64's finaliser (Steele, Lea & Flood 2014) over a counter of seed, member and draw. */
static uint64_t mixed(uint64_t x)
{
    x = (x ^ (x >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94D049BB133111EB);
    return x ^ (x >> 31);
}

/* Draws of a member lie so many in a row; later ones in rows of a seed of their own. */
enum { DRAWS_IN_A_ROW = 32 };

double sl_draw(uint64_t seed, long member, int drawn)
{
    const uint64_t golden = UINT64_C(0x9E3779B97F4A7C15);
    const uint64_t row = (uint64_t)(drawn / DRAWS_IN_A_ROW), in_row = (uint64_t)(drawn % DRAWS_IN_A_ROW);
    const uint64_t counter = (uint64_t)member * DRAWS_IN_A_ROW + in_row + 1;
    const uint64_t bits = mixed(mixed(seed + golden * (row + 1)) + golden * counter);
    return ((double)(bits >> 11) + 0.5) / 9007199254740992.0;
}

/* ---- blocks and threads ------------------------------------------------------------------- */

typedef struct worker {
    const sl_scene *scene;
    const sl_spread_request *request;
    const member_ground *ground; /* shared */
    sl_spread *spread;           /* this thread's own counts */
    lane_history *history;       /* scratch */
    sl_error error;
} worker;

/* The weights of the members of a block, counted; all one when nothing was seen. */
static bool weigh_block(worker *w, const drawn_members *drawn, const member_block *here,
                        int64_t weight[LANES])
{
    observation_weights weights;
    int bad = 0;
    int arm = 0;
    if (!w->spread->weighed) {
        return true;
    }
    if (!members_weigh(&weights, w->scene, w->ground, &w->spread->seen.observations, drawn, w->history, &bad,
                       &arm)) {
        return member_blame(&w->error, w->scene, here->first + bad, arm);
    }
    for (int l = here->from; l < here->to; l++) {
        weight[l] = spread_count_seen(&w->spread->seen, weights.agreement[l], weights.agrees[l]);
    }
    return true;
}

static bool run_block(void *self, const member_block *here)
{
    worker *const w = self;
    drawn_members drawn;
    int64_t weight[LANES] = {0};
    members_draw(&drawn, &w->spread->plan, w->request->seed, here->first);
    if (!weigh_block(w, &drawn, here, weight)) {
        return false;
    }
    member_aims aims;
    int bad = 0;
    if (!members_aims(&aims, w->scene, w->ground, &drawn.lanes, w->history, &bad)) {
        return member_blame(&w->error, w->scene, here->first + bad, w->scene->aims.stress_of);
    }
    for (int a = 0; a < w->scene->n_arms; a++) {
        member_limits limits[LANES];
        if (!w->spread->arms[a].asked) {
            continue;
        }
        if (!members_limits(limits, w->scene, a, &drawn, &aims, w->history, &bad)) {
            return member_blame(&w->error, w->scene, here->first + bad, a);
        }
        for (int l = here->from; l < here->to; l++) {
            if (!limits_in_range(&limits[l], w->scene->until_min)) {
                return member_blame(&w->error, w->scene, here->first + l, a);
            }
            spread_count(w->spread, a, &limits[l], drawn.u[l], weight[l]);
        }
    }
    w->spread->members += here->to - here->from;
    return true;
}

static bool make_worker(worker *w, const sl_draw_plan *plan, int scale, sl_error *error)
{
    w->spread = spread_new(w->scene, plan, w->request->seed, w->request->observations, error);
    if (w->spread) {
        w->spread->seen.scale = scale;
    }
    w->history = w->spread ? sl_new(1, sizeof *w->history, doing, error) : NULL;
    return w->history != NULL;
}

static bool gather(sl_spread *sum, const worker *all, const bool failed[], int n, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (failed[i]) {
            if (error) {
                *error = all[i].error;
            }
            return false;
        }
        spread_gather(sum, all[i].spread);
    }
    return true;
}

/* The best agreement of the first members sets the scale of all weights, in every shard alike. */
static bool find_scale(int *scale, const sl_scene *scene, const member_ground *ground,
                       const sl_spread_request *request, const sl_draw_plan *plan, sl_error *error)
{
    lane_history *const history = sl_new(1, sizeof *history, doing, error);
    drawn_members drawn;
    observation_weights weights;
    double best = 0.0;
    bool good = history != NULL;
    for (long first = 0; good && first < SL_PILOT_MEMBERS; first += LANES) {
        int bad = 0;
        int arm = 0;
        members_draw(&drawn, plan, request->seed, first);
        good = members_weigh(&weights, scene, ground, request->observations, &drawn, history, &bad, &arm) ||
               member_blame(error, scene, first + bad, arm);
        for (int l = 0; good && l < LANES; l++) {
            best = fmax(best, weights.agreement[l]);
        }
    }
    sl_free(history);
    *scale = weight_scale(best);
    return good;
}

/* Sums of squares must fit into 63 bits. */
static bool fits(const sl_scene *scene, const sl_spread_request *request, sl_error *error)
{
    const double most = request->observations && request->observations->n > 0 ? SL_MOST_WEIGHT : 1.0;
    const double seconds = ceil(scene->until_min * 60.0);
    return (double)request->members * most * seconds * seconds < 9.2e18 ||
           sl_fail(error, SL_ERR_TOO_LARGE, "so many model runs over so long a scene",
                   "what 63 bits hold: a million model runs of a four-hour scene");
}

bool sl_spread_run(sl_spread **spread, const sl_scene *scene, const sl_spread_request *request,
                   sl_error *error)
{
    assert(request->members > 0 && request->threads > 0 && request->first_member >= 0);
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    const int n = request->threads < MOST_WALKERS ? request->threads : MOST_WALKERS;
    worker all[MOST_WALKERS] = {{0}};
    bool failed[MOST_WALKERS] = {false};
    int scale = 0;
    const bool seen = request->observations && request->observations->n > 0;
    const bool near = sl_goal_near_undyed(scene);
    member_ground ground;
    if (!fits(scene, request, error) ||
        (seen && !sl_observations_check(request->observations, scene, error))) {
        return false;
    }
    member_ground_make(&ground, scene, NULL);
    if (seen && !find_scale(&scale, scene, &ground, request, &plan, error)) {
        return false;
    }
    sl_optics *const dry = near ? sl_optics_new(scene, error) : NULL;
    if (near && !dry) {
        return false;
    }
    ground.dry = dry;
    sl_spread *sum = spread_new(scene, &plan, request->seed, request->observations, error);
    bool good = sum != NULL;
    for (int i = 0; i < n && good; i++) {
        all[i] = (worker){.scene = scene, .request = request, .ground = &ground};
        good = make_worker(&all[i], &plan, scale, error);
    }
    if (good) {
        const member_walk walk = {request->first_member, request->members, request->go_on, request->self};
        members_walk(&walk, run_block, all, sizeof all[0], n, failed);
        good = gather(sum, all, failed, n, error);
    }
    for (int i = 0; i < n; i++) {
        sl_spread_free(all[i].spread);
        sl_free(all[i].history);
    }
    sl_optics_free(dry);
    if (!good) {
        sl_spread_free(sum);
        return false;
    }
    sum->asked_for = request->members;
    sum->stopped = sum->members < request->members;
    sum->seen.scale = scale;
    sum->n_ranges = sum->stopped ? 0 : 1;
    sum->range[0] = (sl_member_range){request->first_member, request->members};
    sl_spread_free(*spread);
    *spread = sum;
    return true;
}
