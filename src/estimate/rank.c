/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rank.h. Members run sixteen at a time through every arm, are counted in thousandths and
 * forgotten; blocks are shared out among threads, each of which counts for itself.
 */
#include "slowlift/rank.h"
#include "slowlift/leave.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "estimate/members.h"
#include "estimate/walk.h"

static const char doing[] = "ranking strips";

/* ---- making ------------------------------------------------------------------------------ */

void sl_rank_free(sl_rank *rank)
{
    if (rank) {
        sl_free(rank->ranked);
        sl_free(rank->standing);
        sl_free(rank->before);
        sl_free(rank);
    }
}

static bool is_ranked(const sl_scene *scene, int arm, int zone)
{
    return sl_arm_removes(scene, &scene->arms[arm]) && sl_zone_direct(scene, zone);
}

static sl_rank *new_rank(const sl_scene *scene, const sl_rank_request *request, sl_error *error)
{
    const size_t places = (size_t)scene->n_arms * (size_t)scene->n_zones;
    sl_rank *const rank = sl_new(1, sizeof *rank, doing, error);
    if (!rank) {
        return NULL;
    }
    rank->request = *request;
    rank->n_arms = scene->n_arms;
    rank->n_zones = scene->n_zones;
    rank->plan = sl_draw_plan_of(scene);
    rank->ranked = sl_new(places, sizeof *rank->ranked, doing, error);
    rank->standing = rank->ranked ? sl_new(places, sizeof *rank->standing, doing, error) : NULL;
    const size_t pairs = places * SL_PAIRINGS * (size_t)scene->n_arms;
    rank->before = rank->standing ? sl_new(pairs, sizeof *rank->before, doing, error) : NULL;
    if (!rank->before) {
        sl_rank_free(rank);
        return NULL;
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            rank->ranked[arm * scene->n_zones + zone] = is_ranked(scene, arm, zone);
        }
    }
    return rank;
}

/* ---- counting ------------------------------------------------------------------------------ */

static void count_one(sl_standing *standing, sl_standing_of what, double share)
{
    standing->count[what][lround(1000.0 * fmin(fmax(share, 0.0), 1.0))]++;
}

/* Where the counts of a zone's pairs begin. */
static size_t pairs_at(const sl_rank *rank, int zone, int what)
{
    const size_t n = (size_t)rank->n_arms;
    return ((size_t)zone * SL_PAIRINGS + (size_t)what) * n * n;
}

/* What every arm reads of one zone in one member; HUGE_VAL: it does not get there. */
typedef struct readings {
    double of[SL_STANDINGS], gone_min;
} readings;

static bool comes_before(const readings *one, const readings *other, int what)
{
    if (what < SL_STANDINGS) {
        return one->of[what] < other->of[what];
    }
    const bool slower = one->gone_min < HUGE_VAL && one->gone_min > other->gone_min;
    return slower && (what == SL_SLOWER ||
                      (what == SL_SLOWER_LESS_BASE ? one->of[SL_BASE_GONE] < other->of[SL_BASE_GONE]
                                                   : one->of[SL_STRESS_GONE] < other->of[SL_STRESS_GONE]));
}

/* Count who has less than whom, and who is slower; `read` is [arm] of one member and zone. */
static void count_pairs(sl_rank *rank, int zone, const readings read[])
{
    for (int what = 0; what < SL_PAIRINGS; what++) {
        uint32_t *const before = rank->before + pairs_at(rank, zone, what);
        for (int arm = 0; arm < rank->n_arms; arm++) {
            for (int other = 0; other < rank->n_arms && sl_rank_has(rank, arm, zone); other++) {
                const bool less =
                    sl_rank_has(rank, other, zone) && comes_before(&read[arm], &read[other], what);
                before[arm * rank->n_arms + other] += less ? 1 : 0;
            }
        }
    }
}

static void count_member(sl_rank *rank, sl_standing *standing, const member_zone *zone,
                         const lane_history *history, int lane, readings *read)
{
    const member_reading then = member_read(zone, history, lane, rank->request.minute);
    double minute = 0.0;
    standing->members++;
    count_one(standing, SL_LEFT_THEN, then.left);
    count_one(standing, SL_BASE_THEN, then.base_moved);
    count_one(standing, SL_STRESS_THEN, then.cystine_lost);
    *read = (readings){.of = {[SL_LEFT_THEN] = then.left,
                              [SL_BASE_THEN] = then.base_moved,
                              [SL_STRESS_THEN] = then.cystine_lost,
                              [SL_BASE_GONE] = HUGE_VAL,
                              [SL_STRESS_GONE] = HUGE_VAL},
                       .gone_min = HUGE_VAL};
    if (member_gone(zone, history, lane, rank->request.share, &minute)) {
        const member_reading gone = member_read(zone, history, lane, minute);
        standing->gone++;
        count_one(standing, SL_BASE_GONE, gone.base_moved);
        count_one(standing, SL_STRESS_GONE, gone.cystine_lost);
        read->gone_min = minute;
        read->of[SL_BASE_GONE] = gone.base_moved;
        read->of[SL_STRESS_GONE] = gone.cystine_lost;
    }
}

static void add_standing(sl_standing *sum, const sl_standing *part)
{
    sum->members += part->members;
    sum->gone += part->gone;
    for (int what = 0; what < SL_STANDINGS; what++) {
        for (int i = 0; i < SL_THOUSANDTHS; i++) {
            sum->count[what][i] += part->count[what][i];
        }
    }
}

/* Of what each reads of its own members. */
static void add_counts(sl_rank *sum, const sl_rank *part)
{
    sum->members += part->members;
    for (int i = 0; i < sum->n_arms * sum->n_zones; i++) {
        add_standing(&sum->standing[i], &part->standing[i]);
    }
    const size_t pairs = pairs_at(sum, sum->n_zones, 0);
    for (size_t i = 0; i < pairs; i++) {
        sum->before[i] += part->before[i];
    }
}

void sl_rank_add(sl_rank *sum, const sl_rank *part)
{
    add_counts(sum, part);
    sum->request.members += part->request.members;
    sum->stopped = sum->stopped || part->stopped;
}

/* ---- threads ----------------------------------------------------------------------------- */

typedef struct ranker {
    const sl_scene *scene;
    const member_ground *ground;
    sl_rank *rank; /* this thread's own counts */
    lane_history *history;
    readings *read; /* [zone][lane][arm] scratch of a block */
    sl_error error;
} ranker;

static bool rank_arm(ranker *r, int arm, const drawn_members *drawn, long first, int lanes)
{
    const sl_scene *const scene = r->scene;
    const sl_arm *const here = &scene->arms[arm];
    const sl_hair *solved = NULL;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!sl_rank_has(r->rank, arm, zone)) {
            continue;
        }
        int bad = 0;
        if (!members_solve_zone(r->history, &solved, lanes_run_rinsed, scene, here, zone, drawn, &bad)) {
            return member_blame(&r->error, scene, first + bad, arm);
        }
        member_zone made;
        member_zone_make(&made, r->ground, scene, here, zone, drawn);
        for (int l = 0; l < lanes; l++) {
            count_member(r->rank, &r->rank->standing[arm * scene->n_zones + zone], &made, r->history, l,
                         &r->read[(zone * LANES + l) * scene->n_arms + arm]);
        }
    }
    return true;
}

static bool rank_block(void *self, const member_block *block)
{
    ranker *const r = self;
    drawn_members drawn;
    members_draw(&drawn, &r->rank->plan, r->rank->request.seed, block->first);
    for (int arm = 0; arm < r->scene->n_arms; arm++) {
        if (!rank_arm(r, arm, &drawn, block->first, block->to)) {
            return false;
        }
    }
    for (int zone = 0; zone < r->scene->n_zones; zone++) {
        for (int l = 0; l < block->to; l++) {
            count_pairs(r->rank, zone, &r->read[(zone * LANES + l) * r->scene->n_arms]);
        }
    }
    r->rank->members += block->to;
    return true;
}

bool sl_rank_run(sl_rank **rank, const sl_scene *scene, const sl_rank_request *request, sl_error *error)
{
    assert(request->members > 0 && request->threads > 0 && request->share > 0.0 && request->share < 1.0);
    assert(request->first_member % LANES == 0);
    if (!sl_swatches_only(scene,
                          "strips are ranked on swatches; slowlift run compares them at the same colour left",
                          error)) {
        return false;
    }
    const int n = request->threads < MOST_WALKERS ? request->threads : MOST_WALKERS;
    ranker all[MOST_WALKERS] = {{0}};
    bool failed[MOST_WALKERS] = {false};
    bool good = true;
    member_ground ground;
    member_ground_make(&ground, scene, NULL);
    for (int i = 0; i < n && good; i++) {
        all[i] = (ranker){.scene = scene, .ground = &ground};
        all[i].rank = new_rank(scene, request, error);
        all[i].history = all[i].rank ? sl_new(1, sizeof *all[i].history, doing, error) : NULL;
        const size_t read = (size_t)scene->n_zones * LANES * (size_t)scene->n_arms;
        all[i].read = all[i].history ? sl_new(read, sizeof *all[i].read, doing, error) : NULL;
        good = all[i].read != NULL;
    }
    if (good) {
        const member_walk walk = {request->first_member, request->members, request->go_on, request->self};
        members_walk(&walk, rank_block, all, sizeof all[0], n, failed);
    }
    for (int i = 0; i < n && good; i++) {
        if (failed[i]) {
            good = false;
            if (error) {
                *error = all[i].error;
            }
        } else if (i > 0) {
            add_counts(all[0].rank, all[i].rank);
        }
    }
    for (int i = 0; i < n; i++) {
        sl_free(all[i].history);
        sl_free(all[i].read);
        if (i > 0 || !good) {
            sl_rank_free(all[i].rank);
        }
    }
    if (good) {
        all[0].rank->stopped = all[0].rank->members < request->members;
        sl_rank_free(*rank);
        *rank = all[0].rank;
    }
    return good;
}

/* ---- reading ------------------------------------------------------------------------------ */

bool sl_rank_has(const sl_rank *rank, int arm, int zone)
{
    return rank->ranked[arm * rank->n_zones + zone];
}

static bool when_gone(sl_standing_of what)
{
    return what == SL_BASE_GONE || what == SL_STRESS_GONE;
}

static double quantile(const uint32_t *count, long members, double p)
{
    double below = 0.0;
    for (int i = 0; i < SL_THOUSANDTHS; i++) {
        below += count[i];
        if (below >= p * (double)members) {
            return i / 1000.0;
        }
    }
    return 1.0;
}

sl_middle sl_rank_middle(const sl_rank *rank, int arm, int zone, sl_standing_of what)
{
    const sl_standing *const standing = &rank->standing[arm * rank->n_zones + zone];
    const long members = when_gone(what) ? standing->gone : standing->members;
    if (members == 0) {
        return (sl_middle){-1.0, -1.0, -1.0};
    }
    const uint32_t *const count = standing->count[what];
    return (sl_middle){quantile(count, members, 0.1), quantile(count, members, 0.5),
                       quantile(count, members, 0.9)};
}

static bool has_place(const sl_rank *rank, int arm, int zone, sl_standing_of what)
{
    const sl_standing *const standing = &rank->standing[arm * rank->n_zones + zone];
    return sl_rank_has(rank, arm, zone) && (!when_gone(what) || 2 * standing->gone >= standing->members);
}

void sl_turns_by_chain(const bool *before, int n, int *turn)
{
    for (int longer = 0; longer < n; longer++) {
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < n; b++) {
                if (before[a * n + b] && turn[b] <= turn[a]) {
                    turn[b] = turn[a] + 1;
                }
            }
        }
    }
}

void sl_rank_places(const uint32_t *before, long members, int n, const bool *has, int *place)
{
    bool leads[SL_MAX_ARMS * SL_MAX_ARMS] = {false}; /* [n][n] by a chain, whose ends may be the same */
    int turn[SL_MAX_ARMS];                           /* 0: it has no place */
    for (int a = 0; a < n; a++) {
        for (int b = 0; b < n; b++) {
            leads[a * n + b] = has[a] && has[b] && (double)before[a * n + b] >= SL_CLEARLY * (double)members;
        }
        turn[a] = has[a] ? 1 : 0;
    }
    for (int through = 0; through < n; through++) {
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < n; b++) {
                leads[a * n + b] = leads[a * n + b] || (leads[a * n + through] && leads[through * n + b]);
            }
        }
    }
    for (int a = 0; a < n; a++) { /* who leads each other has one turn */
        for (int b = 0; b <= a; b++) {
            if (leads[a * n + b] && leads[b * n + a]) {
                leads[a * n + b] = leads[b * n + a] = false;
            }
        }
    }
    sl_turns_by_chain(leads, n, turn);
    sl_places_by_turn(turn, n, place);
}

void sl_places_by_turn(const int *turn, int n, int *place)
{
    for (int a = 0; a < n; a++) {
        place[a] = turn[a] > 0 ? 1 : 0;
        for (int b = 0; b < n; b++) {
            place[a] += turn[b] > 0 && turn[b] < turn[a] ? 1 : 0;
        }
    }
}

void sl_rank_zone_places(const sl_rank *rank, int zone, sl_standing_of what, int place[SL_MAX_ARMS])
{
    bool has[SL_MAX_ARMS];
    for (int a = 0; a < rank->n_arms; a++) {
        has[a] = has_place(rank, a, zone, what);
    }
    sl_rank_places(rank->before + pairs_at(rank, zone, (int)what), rank->members, rank->n_arms, has, place);
}

static long pairs_of(const sl_rank *rank, int zone, int what, int arm, int other)
{
    return (long)rank->before[pairs_at(rank, zone, what) + (size_t)(arm * rank->n_arms + other)];
}

bool sl_rank_gentler(const sl_rank *rank, int zone, sl_gentler *found)
{
    long most = 0, least = 0;
    int n = 0;
    *found = (sl_gentler){.slow = -1, .fast = -1};
    for (int arm = 0; arm < rank->n_arms; arm++) {
        long later = 0; /* than another, less how often sooner */
        for (int other = 0; other < rank->n_arms && has_place(rank, arm, zone, SL_BASE_GONE); other++) {
            if (has_place(rank, other, zone, SL_BASE_GONE)) {
                later +=
                    pairs_of(rank, zone, SL_SLOWER, arm, other) - pairs_of(rank, zone, SL_SLOWER, other, arm);
            }
        }
        if (!has_place(rank, arm, zone, SL_BASE_GONE)) {
            continue;
        }
        found->slow = n == 0 || later > most ? arm : found->slow;
        found->fast = n == 0 || later < least ? arm : found->fast;
        most = n == 0 || later > most ? later : most;
        least = n == 0 || later < least ? later : least;
        n++;
    }
    if (n < 2 || found->slow == found->fast) {
        return false;
    }
    found->slower = pairs_of(rank, zone, SL_SLOWER, found->slow, found->fast);
    found->both = found->slower + pairs_of(rank, zone, SL_SLOWER, found->fast, found->slow);
    found->less_base = pairs_of(rank, zone, SL_SLOWER_LESS_BASE, found->slow, found->fast);
    found->less_stress = pairs_of(rank, zone, SL_SLOWER_LESS_STRESS, found->slow, found->fast);
    return found->slower > 0;
}

int sl_rank_place(const sl_rank *rank, int arm, int zone, sl_standing_of what)
{
    int place[SL_MAX_ARMS];
    sl_rank_zone_places(rank, zone, what, place);
    return place[arm];
}
