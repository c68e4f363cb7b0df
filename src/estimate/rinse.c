/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rinse.h. Members run sixteen at a time through every arm (kinetics/lanes.h); each thread (walk.h)
 * counts for itself, and the counts are added.
 */
#include "slowlift/rinse.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "estimate/limits_of_members.h"
#include "estimate/observation_members.h"
#include "estimate/walk.h"

static const char doing[] = "reading rinsed hair";
static const double SHARE_WITHOUT_GOAL =
    0.5; /* of the colour: where arms are compared in a zone without one */

/* ---- made and freed ------------------------------------------------------------------------ */

void sl_rinse_free(sl_rinse *rinse)
{
    if (rinse) {
        sl_free(rinse->left);
        sl_free(rinse->base);
        sl_free(rinse->stress);
        sl_free(rinse->counted);
        sl_free(rinse->in_time);
        sl_free(rinse->gone);
        sl_free(rinse->sooner);
        sl_free(rinse);
    }
}

/* Each list of counts and its length. */
enum { LISTS = 7 };
static void lists_of(sl_rinse *rinse, uint64_t **list[LISTS], size_t length[LISTS])
{
    const size_t arms = (size_t)rinse->n_arms, zones = (size_t)rinse->n_zones;
    uint64_t **const all[LISTS] = {&rinse->left,    &rinse->base, &rinse->stress, &rinse->counted,
                                   &rinse->in_time, &rinse->gone, &rinse->sooner};
    const size_t n[LISTS] = {arms * zones * SL_THOUSANDTHS,
                             arms * SL_THOUSANDTHS,
                             arms * SL_THOUSANDTHS,
                             arms,
                             arms * zones,
                             arms * zones,
                             zones * SL_SOONERS * arms * arms};
    for (int i = 0; i < LISTS; i++) {
        list[i] = all[i];
        length[i] = n[i];
    }
}

static sl_rinse *new_rinse(const sl_scene *scene, const sl_rinse_request *request, sl_error *error)
{
    sl_rinse *const rinse = sl_new(1, sizeof *rinse, doing, error);
    uint64_t **list[LISTS];
    size_t length[LISTS];
    bool good = rinse != NULL;
    if (!good) {
        return NULL;
    }
    rinse->request = *request;
    rinse->n_arms = scene->n_arms;
    rinse->n_zones = scene->n_zones;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_goal goal = sl_zone_goal(scene, zone);
        rinse->share[zone] = goal.wanted && goal.left < 1.0 ? goal.left : SHARE_WITHOUT_GOAL;
    }
    lists_of(rinse, list, length);
    for (int i = 0; i < LISTS && good; i++) {
        *list[i] = sl_new(length[i], sizeof **list[i], doing, error);
        good = *list[i] != NULL;
    }
    if (!good) {
        sl_rinse_free(rinse);
    }
    return good ? rinse : NULL;
}

void sl_rinse_add(sl_rinse *sum, const sl_rinse *part)
{
    sl_rinse read = *part;
    uint64_t **to[LISTS], **from[LISTS];
    size_t length[LISTS];
    lists_of(sum, to, length);
    lists_of(&read, from, length);
    sum->members += part->members;
    sum->total += part->total;
    sum->stopped = sum->stopped || part->stopped;
    for (int i = 0; i < LISTS; i++) {
        for (size_t at = 0; at < length[i]; at++) {
            (*to[i])[at] += (*from[i])[at];
        }
    }
}

bool sl_rinse_has(const sl_rinse *rinse, const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    return sl_arm_application(here) && sl_arm_in_model(scene, here) && rinse->request.minute[arm] >= 0.0;
}

bool sl_rinse_compares(const sl_rinse *rinse, const sl_scene *scene, int arm, int zone)
{
    return sl_rinse_has(rinse, scene, arm) && !scene->arms[arm].undyed && sl_zone_direct(scene, zone);
}

/* ---- counting ------------------------------------------------------------------------------ */

/* What one member reads of one zone in one arm; HUGE_VAL: it never gets there. */
typedef struct zone_read {
    double of[SL_SLOWER_THERE];
} zone_read;

static bool comes_before(const zone_read *one, const zone_read *other, int what)
{
    if (what < SL_SLOWER_THERE) {
        return one->of[what] < other->of[what];
    }
    return one->of[SL_SOONER_GONE] < HUGE_VAL && one->of[SL_SOONER_GONE] > other->of[SL_SOONER_GONE] &&
           (what == SL_SLOWER_THERE || one->of[SL_LESS_BASE] < other->of[SL_LESS_BASE]);
}

typedef struct reader {
    const sl_scene *scene;
    const member_ground *ground;
    sl_rinse *rinse; /* this thread's own counts */
    lane_history *history;
    zone_read *read;        /* [lane][zone][arm] scratch of a block */
    uint64_t weight[LANES]; /* of the members of a block */
    sl_error error;
} reader;

static zone_read *read_at(const reader *r, int lane, int zone, int arm)
{
    const int zones = r->rinse->n_zones, arms = r->rinse->n_arms;
    return &r->read[(lane * zones + zone) * arms + arm];
}

static void count_share(uint64_t *count, double share, uint64_t weight)
{
    count[lround(1000.0 * fmin(fmax(share, 0.0), 1.0))] += weight;
}

/* Minutes from contact at which the arm's hair is rinsed in each lane; HUGE_VAL: not in this member. */
static void rinse_minutes(const reader *r, int arm, double minute[LANES])
{
    const int zone = r->rinse->request.same_zone;
    for (int l = 0; l < LANES; l++) {
        minute[l] = r->rinse->request.minute[arm];
        if (zone >= 0 && sl_rinse_compares(r->rinse, r->scene, arm, zone)) {
            minute[l] = read_at(r, l, zone, arm)->of[SL_SOONER_GONE];
        }
    }
}

static void count_zone(reader *r, const member_zone *made, int arm, int zone, const double minute[LANES],
                       const member_block *block)
{
    sl_rinse *const rinse = r->rinse;
    for (int l = block->from; l < block->to; l++) {
        if (minute[l] >= HUGE_VAL) {
            continue;
        }
        const member_reading then = member_read(made, r->history, l, minute[l]);
        if (zone == rinse->request.base_zone[arm]) {
            count_share(rinse->base + (size_t)arm * SL_THOUSANDTHS, then.base_moved, r->weight[l]);
            count_share(rinse->stress + (size_t)arm * SL_THOUSANDTHS, then.cystine_lost, r->weight[l]);
            rinse->counted[arm] += r->weight[l];
        }
        if (made->recipe->n_dyes > 0 && !r->scene->arms[arm].undyed) {
            const size_t at = (size_t)(arm * rinse->n_zones + zone) * SL_THOUSANDTHS;
            count_share(rinse->left + at, then.left, r->weight[l]);
        }
    }
}

/* When the zone is down to its share, and what that costs; whether it comes before the first limit. */
static void read_gone(reader *r, const member_zone *made, int arm, int zone,
                      const member_limits limits[LANES], const member_block *block)
{
    sl_rinse *const rinse = r->rinse;
    for (int l = block->from; l < block->to; l++) {
        zone_read *const read = read_at(r, l, zone, arm);
        double minute = 0.0;
        *read = (zone_read){.of = {HUGE_VAL, HUGE_VAL, HUGE_VAL}};
        if (!member_gone(made, r->history, l, rinse->share[zone], &minute)) {
            continue;
        }
        const member_reading gone = member_read(made, r->history, l, minute);
        *read = (zone_read){.of = {minute, gone.base_moved, gone.cystine_lost}};
        rinse->gone[arm * rinse->n_zones + zone] += r->weight[l];
        if (minute < limits[l].late_min && minute <= rinse->request.last_min[arm]) {
            rinse->in_time[arm * rinse->n_zones + zone] += r->weight[l];
        }
    }
}

/* Each zone of an arm in turn, first to see when it is gone, then as it is when rinsed. */
static bool walk_zones(reader *r, int arm, const drawn_members *drawn, const member_limits limits[LANES],
                       const double minute[LANES], const member_block *block)
{
    const sl_scene *const scene = r->scene;
    const sl_hair *solved = NULL;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const bool wanted =
            limits ? sl_rinse_compares(r->rinse, scene, arm, zone)
                   : scene->zones[zone].recipe.n_dyes > 0 || zone == r->rinse->request.base_zone[arm];
        int bad = 0;
        if (!wanted) {
            continue;
        }
        if (!members_solve_zone(r->history, &solved, lanes_run_rinsed, scene, &scene->arms[arm], zone, drawn,
                                &bad)) {
            return member_blame(&r->error, scene, block->first + bad, arm);
        }
        member_zone made;
        member_zone_make(&made, r->ground, scene, &scene->arms[arm], zone, drawn);
        if (limits) {
            read_gone(r, &made, arm, zone, limits, block);
        } else {
            count_zone(r, &made, arm, zone, minute, block);
        }
    }
    return true;
}

static bool read_arm(reader *r, int arm, const drawn_members *drawn, const member_aims *aims,
                     const member_block *block)
{
    member_limits limits[LANES];
    double minute[LANES];
    int bad = 0;
    if (sl_limits_can_be_asked(r->scene, arm)) {
        if (!members_limits(limits, r->scene, arm, drawn, aims, r->history, &bad)) {
            return member_blame(&r->error, r->scene, block->first + bad, arm);
        }
        if (!walk_zones(r, arm, drawn, limits, NULL, block)) {
            return false;
        }
    }
    rinse_minutes(r, arm, minute);
    return walk_zones(r, arm, drawn, NULL, minute, block);
}

/* Who comes before whom, zone by zone. */
static void count_pairs(reader *r, const member_block *block)
{
    const sl_scene *const scene = r->scene;
    const size_t arms = (size_t)scene->n_arms;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        for (int arm = 0; arm < scene->n_arms; arm++) {
            for (int other = 0; other < scene->n_arms; other++) {
                if (!sl_rinse_compares(r->rinse, scene, arm, zone) ||
                    !sl_rinse_compares(r->rinse, scene, other, zone)) {
                    continue;
                }
                for (int what = 0; what < SL_SOONERS; what++) {
                    const size_t at =
                        (((size_t)zone * SL_SOONERS + (size_t)what) * arms + (size_t)arm) * arms +
                        (size_t)other;
                    for (int l = block->from; l < block->to; l++) {
                        const bool less =
                            comes_before(read_at(r, l, zone, arm), read_at(r, l, zone, other), what);
                        r->rinse->sooner[at] += less ? r->weight[l] : 0;
                    }
                }
            }
        }
    }
}

/* ---- threads ------------------------------------------------------------------------------- */

/* By what was seen, as the spread weighed them; all one when nothing was. */
static bool weigh(reader *r, const drawn_members *drawn, const member_block *block)
{
    const sl_seen *const seen = &r->rinse->request.spread->seen;
    observation_weights weights;
    int bad = 0, arm = 0;
    for (int l = 0; l < LANES; l++) {
        r->weight[l] = 1;
    }
    if (seen->observations.n == 0) {
        return true;
    }
    if (!members_weigh(&weights, r->scene, r->ground, &seen->observations, drawn, r->history, &bad, &arm)) {
        return member_blame(&r->error, r->scene, block->first + bad, arm);
    }
    for (int l = 0; l < LANES; l++) {
        bool capped = false;
        r->weight[l] = (uint64_t)weight_of(weights.agreement[l], seen->scale, &capped);
    }
    return true;
}

static bool read_block(void *self, const member_block *block)
{
    reader *const r = self;
    const sl_spread *const spread = r->rinse->request.spread;
    drawn_members drawn;
    member_aims aims;
    int bad = 0;
    members_draw(&drawn, &spread->plan, spread->seed, block->first);
    if (!weigh(r, &drawn, block)) {
        return false;
    }
    if (!members_aims(&aims, r->scene, r->ground, &drawn.lanes, r->history, &bad)) {
        return member_blame(&r->error, r->scene, block->first + bad, r->scene->aims.stress_of);
    }
    for (int arm = 0; arm < r->scene->n_arms; arm++) {
        if (sl_rinse_has(r->rinse, r->scene, arm) && !read_arm(r, arm, &drawn, &aims, block)) {
            return false;
        }
    }
    count_pairs(r, block);
    for (int l = block->from; l < block->to; l++) {
        r->rinse->total += r->weight[l];
    }
    r->rinse->members += block->to - block->from;
    return true;
}

static bool make_reader(reader *r, const sl_rinse_request *request, sl_error *error)
{
    const sl_scene *const scene = r->scene;
    const size_t read = (size_t)LANES * (size_t)scene->n_zones * (size_t)scene->n_arms;
    r->rinse = new_rinse(scene, request, error);
    r->history = r->rinse ? sl_new(1, sizeof *r->history, doing, error) : NULL;
    r->read = r->history ? sl_new(read, sizeof *r->read, doing, error) : NULL;
    return r->read != NULL;
}

static bool gather(reader all[], const bool failed[], int n, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (failed[i]) {
            if (error) {
                *error = all[i].error;
            }
            return false;
        }
        if (i > 0) {
            sl_rinse_add(all[0].rinse, all[i].rinse);
        }
    }
    return true;
}

bool sl_rinse_run(sl_rinse **rinse, const sl_scene *scene, const sl_rinse_request *request, sl_error *error)
{
    assert(request->threads > 0 && request->spread->members > 0);
    const long first = request->first_member, rest = request->spread->members - first;
    const long members = request->members > 0 ? request->members : rest;
    const int n = request->threads < MOST_WALKERS ? request->threads : MOST_WALKERS;
    reader all[MOST_WALKERS] = {{0}};
    bool failed[MOST_WALKERS] = {false};
    member_ground ground;
    sl_optics *const dry = sl_goal_near_undyed(scene) ? sl_optics_new(scene, error) : NULL;
    bool good = dry || !sl_goal_near_undyed(scene);
    member_ground_make(&ground, scene, dry);
    for (int i = 0; i < n && good; i++) {
        all[i] = (reader){.scene = scene, .ground = &ground};
        good = make_reader(&all[i], request, error);
    }
    if (good) {
        const member_walk walk = {first, members, request->go_on, request->self};
        members_walk(&walk, read_block, all, sizeof all[0], n, failed);
        good = gather(all, failed, n, error);
    }
    for (int i = 0; i < n; i++) {
        sl_free(all[i].history);
        sl_free(all[i].read);
        if (i > 0 || !good) {
            sl_rinse_free(all[i].rinse);
        }
    }
    sl_optics_free(dry);
    if (good) {
        all[0].rinse->stopped = all[0].rinse->members < members;
        sl_rinse_free(*rinse);
        *rinse = all[0].rinse;
    }
    return good;
}

/* ---- read ---------------------------------------------------------------------------------- */

static sl_middle middle_of(const uint64_t *count, uint64_t total)
{
    static const double p[3] = {0.1, 0.5, 0.9};
    double of[3] = {1.0, 1.0, 1.0};
    uint64_t below = 0, least = (uint64_t)ceil(p[0] * (double)total);
    if (total == 0) {
        return (sl_middle){-1.0, -1.0, -1.0};
    }
    for (int i = 0, q = 0; i < SL_THOUSANDTHS && q < 3; i++) {
        below += count[i];
        while (q < 3 && below >= least) {
            of[q++] = i / 1000.0;
            least = q < 3 ? (uint64_t)ceil(p[q] * (double)total) : 0;
        }
    }
    return (sl_middle){of[0], of[1], of[2]};
}

sl_middle sl_rinse_left(const sl_rinse *rinse, int arm, int zone)
{
    const size_t at = (size_t)(arm * rinse->n_zones + zone) * SL_THOUSANDTHS;
    return middle_of(rinse->left + at, rinse->counted[arm]);
}

sl_middle sl_rinse_base(const sl_rinse *rinse, int arm)
{
    return middle_of(rinse->base + (size_t)arm * SL_THOUSANDTHS, rinse->counted[arm]);
}

sl_middle sl_rinse_stress(const sl_rinse *rinse, int arm)
{
    return middle_of(rinse->stress + (size_t)arm * SL_THOUSANDTHS, rinse->counted[arm]);
}

static double share_of(const sl_rinse *rinse, uint64_t count)
{
    return rinse->total > 0 ? (double)count / (double)rinse->total : 0.0;
}

double sl_rinse_in_time(const sl_rinse *rinse, int arm, int zone)
{
    return share_of(rinse, rinse->in_time[arm * rinse->n_zones + zone]);
}

double sl_rinse_gone(const sl_rinse *rinse, int arm, int zone)
{
    return share_of(rinse, rinse->gone[arm * rinse->n_zones + zone]);
}

double sl_rinse_there(const sl_rinse *rinse, int arm)
{
    return share_of(rinse, rinse->counted[arm]);
}

double sl_rinse_sooner(const sl_rinse *rinse, int zone, sl_sooner what, int arm, int other)
{
    const size_t arms = (size_t)rinse->n_arms;
    const size_t at =
        (((size_t)zone * SL_SOONERS + (size_t)what) * arms + (size_t)arm) * arms + (size_t)other;
    return share_of(rinse, rinse->sooner[at]);
}
