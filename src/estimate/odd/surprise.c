/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See surprise.h. Two strips in one zone, sixteen members at a time.
 */
#include "slowlift/surprise.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "estimate/members.h"
#include "estimate/walk.h"
#include "slowlift/leave.h"

static const char doing[] = "asking how odd that is";

typedef struct asker {
    const sl_scene *scene;
    const member_ground *ground;
    sl_surprise *surprise; /* this thread's own counts */
    lane_history *history;
    sl_error error;
} asker;

static void count(sl_surprise *surprise, const drawn_members *drawn, int lane, double one, double other)
{
    const int64_t seen =
        llround((double)SL_SEEN_SURELY * sl_seeing_chance(&surprise->asked.seeing, one, other));
    surprise->members++;
    surprise->shown += one < other ? 1 : 0;
    surprise->seen += seen;
    for (int d = 0; d < surprise->plan.n; d++) {
        const int bin = (int)(drawn->u[lane][d] * SL_INDEX_BINS);
        surprise->in_bin[d][bin]++;
        surprise->seen_in_bin[d][bin] += seen;
    }
}

static bool ask_block(void *self, const member_block *block)
{
    asker *const a = self;
    const sl_surprise_request *const asked = &a->surprise->asked;
    const int arms[2] = {asked->one, asked->other};
    double left[2][LANES];
    drawn_members drawn;
    members_draw(&drawn, &a->surprise->plan, asked->seed, block->first);
    for (int k = 0; k < 2; k++) {
        const sl_arm *const arm = &a->scene->arms[arms[k]];
        const sl_hair *solved = NULL;
        member_zone made;
        int bad = 0;
        if (!members_solve_zone(a->history, &solved, lanes_run_rinsed, a->scene, arm, asked->zone, &drawn,
                                &bad)) {
            return member_blame(&a->error, a->scene, block->first + bad, arms[k]);
        }
        member_zone_make(&made, a->ground, a->scene, arm, asked->zone, &drawn);
        for (int l = 0; l < block->to; l++) {
            left[k][l] = member_read(&made, a->history, l, asked->minute[k]).left;
        }
    }
    for (int l = 0; l < block->to; l++) {
        count(a->surprise, &drawn, l, left[0][l], left[1][l]);
    }
    return true;
}

static void add(sl_surprise *sum, const sl_surprise *part)
{
    sum->members += part->members;
    sum->shown += part->shown;
    sum->seen += part->seen;
    for (int d = 0; d < sum->plan.n; d++) {
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            sum->in_bin[d][b] += part->in_bin[d][b];
            sum->seen_in_bin[d][b] += part->seen_in_bin[d][b];
        }
    }
}

static bool can_be_asked(const sl_scene *scene, const sl_surprise_request *request, sl_error *error)
{
    const bool both = sl_zone_direct(scene, request->zone) &&
                      sl_arm_removes(scene, &scene->arms[request->one]) &&
                      sl_arm_removes(scene, &scene->arms[request->other]);
    return both || sl_fail(error, SL_ERR_USAGE, "one of the two strips has no mix or no direct dye there",
                           "ask about two strips that are ranked");
}

static bool make(asker *a, const sl_scene *scene, const member_ground *ground,
                 const sl_surprise_request *request, sl_error *error)
{
    *a = (asker){.scene = scene, .ground = ground};
    a->surprise = sl_new(1, sizeof *a->surprise, doing, error);
    a->history = a->surprise ? sl_new(1, sizeof *a->history, doing, error) : NULL;
    if (a->surprise) {
        a->surprise->asked = *request;
        a->surprise->plan = sl_draw_plan_of(scene);
    }
    return a->history != NULL;
}

bool sl_surprise_run(sl_surprise **surprise, const sl_scene *scene, const sl_surprise_request *request,
                     sl_error *error)
{
    assert(request->members > 0 && request->threads > 0);
    const int n = request->threads < MOST_WALKERS ? request->threads : MOST_WALKERS;
    asker all[MOST_WALKERS] = {{0}};
    bool failed[MOST_WALKERS] = {false};
    member_ground ground;
    bool good =
        sl_swatches_only(scene,
                         "strips are ranked on swatches; slowlift run compares them at the same colour left",
                         error) &&
        can_be_asked(scene, request, error);
    member_ground_make(&ground, scene, NULL);
    for (int i = 0; i < n && good; i++) {
        good = make(&all[i], scene, &ground, request, error);
    }
    if (good) {
        const member_walk walk = {0, request->members, request->go_on, request->self};
        members_walk(&walk, ask_block, all, sizeof all[0], n, failed);
    }
    for (int i = 0; i < n && good; i++) {
        if (failed[i]) {
            good = false;
            if (error) {
                *error = all[i].error;
            }
        } else if (i > 0) {
            add(all[0].surprise, all[i].surprise);
        }
    }
    for (int i = 0; i < n; i++) {
        sl_free(all[i].history);
        if (i > 0 || !good) {
            sl_surprise_free(all[i].surprise);
        }
    }
    if (good) {
        sl_surprise_free(*surprise);
        *surprise = all[0].surprise;
    }
    return good;
}

void sl_surprise_free(sl_surprise *surprise)
{
    sl_free(surprise);
}

double sl_surprise_chance(const sl_surprise *surprise)
{
    return surprise->members > 0
               ? (double)surprise->seen / ((double)SL_SEEN_SURELY * (double)surprise->members)
               : 0.0;
}

/* As sl_spread_index, of a yes or no: its variance is q (1 - q). */
double sl_surprise_index(const sl_surprise *surprise, int drawn)
{
    const double n = (double)surprise->members, q = sl_surprise_chance(surprise), variance = q * (1.0 - q);
    if (!(variance > 0.0)) {
        return 0.0;
    }
    double between = 0.0;
    for (int b = 0; b < SL_INDEX_BINS; b++) {
        const double m = (double)surprise->in_bin[drawn][b];
        if (m > 0.0) {
            const double gap = (double)surprise->seen_in_bin[drawn][b] / ((double)SL_SEEN_SURELY * m) - q;
            between += m / n * gap * gap;
        }
    }
    const double chance = variance * (SL_INDEX_BINS - 1) / n;
    return fmin(fmax((between - chance) / variance, 0.0), 1.0);
}
