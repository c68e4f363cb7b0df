/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See spread.h. Members run sixteen at a time through every arm (kinetics/lanes.h); blocks
 * are shared out among threads, each of which counts for itself; the counts are added.
 */
#include "slowlift/spread.h"

#include <assert.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "estimate/members.h"

static const char doing[] = "counting an ensemble";

/* ---- counts -------------------------------------------------------------------------- */

static void free_arms(sl_spread *spread)
{
    for (int a = 0; a < spread->n_arms; a++) {
        sl_free(spread->arms[a].early);
        sl_free(spread->arms[a].open_early);
        sl_free(spread->arms[a].late);
        sl_free(spread->arms[a].last_zone);
    }
    sl_free(spread->arms);
}

void sl_spread_free(sl_spread *spread)
{
    if (spread) {
        free_arms(spread);
        sl_free(spread);
    }
}

static sl_spread *new_spread(const sl_scene *scene, const sl_draw_plan *plan, sl_error *error)
{
    sl_spread *const spread = sl_new(1, sizeof *spread, doing, error);
    if (!spread) {
        return NULL;
    }
    spread->seconds = (int)ceil(scene->until_min * 60.0);
    spread->n_zones = scene->n_zones;
    spread->plan = *plan;
    spread->arms = sl_new((size_t)scene->n_arms, sizeof *spread->arms, doing, error);
    if (!spread->arms) {
        sl_spread_free(spread);
        return NULL;
    }
    spread->n_arms = scene->n_arms;
    const size_t bins = (size_t)spread->seconds + 1;
    for (int a = 0; a < scene->n_arms; a++) {
        sl_arm_spread *const arm = &spread->arms[a];
        arm->asked = member_arm_asked(scene, a);
        arm->early = arm->asked ? sl_new(bins, sizeof *arm->early, doing, error) : NULL;
        arm->open_early = arm->asked ? sl_new(bins, sizeof *arm->open_early, doing, error) : NULL;
        arm->late = arm->asked ? sl_new(bins, sizeof *arm->late, doing, error) : NULL;
        arm->last_zone =
            arm->asked ? sl_new((size_t)scene->n_zones, sizeof *arm->last_zone, doing, error) : NULL;
        if (arm->asked && (!arm->early || !arm->open_early || !arm->late || !arm->last_zone)) {
            sl_spread_free(spread);
            return NULL;
        }
    }
    return spread;
}

static int bin_of(double minutes, int seconds)
{
    const double s = ceil(minutes * 60.0);
    return s >= 0.0 && s < seconds ? (int)s : seconds;
}

static void count(sl_spread *spread, int a, const member_limits *member, const double u[])
{
    sl_arm_spread *const arm = &spread->arms[a];
    const int early = member->early_reached ? bin_of(member->early_min, spread->seconds) : spread->seconds;
    const int late = bin_of(member->late_min, spread->seconds);
    const int64_t margin_s = late - early;
    arm->early[early]++;
    arm->late[late]++;
    arm->open += early < late ? 1 : 0;
    arm->open_early[early] += early < late ? 1 : 0;
    arm->late_by[member->late_by]++;
    arm->last_zone[member->last_zone]++;
    arm->left_hundredths[(int)lround(100.0 * fmin(fmax(member->left_at_late, 0.0), 1.0))]++;
    arm->sum_s += margin_s;
    arm->square_s2 += margin_s * margin_s;
    for (int d = 0; d < spread->plan.n; d++) {
        const int bin = (int)(u[d] * SL_INDEX_BINS);
        arm->index_count[d][bin]++;
        arm->index_sum_s[d][bin] += margin_s;
    }
}

static void add_arm(sl_arm_spread *sum, const sl_arm_spread *part, const sl_spread *whole)
{
    for (int i = 0; i <= whole->seconds && sum->asked; i++) {
        sum->early[i] += part->early[i];
        sum->open_early[i] += part->open_early[i];
        sum->late[i] += part->late[i];
    }
    for (int z = 0; z < whole->n_zones && sum->asked; z++) {
        sum->last_zone[z] += part->last_zone[z];
    }
    for (int i = 0; i < 5; i++) {
        sum->late_by[i] += part->late_by[i];
    }
    for (int i = 0; i <= 100; i++) {
        sum->left_hundredths[i] += part->left_hundredths[i];
    }
    for (int d = 0; d < whole->plan.n; d++) {
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            sum->index_count[d][b] += part->index_count[d][b];
            sum->index_sum_s[d][b] += part->index_sum_s[d][b];
        }
    }
    sum->open += part->open;
    sum->sum_s += part->sum_s;
    sum->square_s2 += part->square_s2;
}

bool sl_spread_add(sl_spread *sum, const sl_spread *part, sl_error *error)
{
    if (sum->seconds != part->seconds || sum->n_arms != part->n_arms || sum->n_zones != part->n_zones ||
        memcmp(&sum->plan, &part->plan, sizeof sum->plan) != 0) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "these shards are not of one scene",
                       "run every shard on the same scene file");
    }
    for (int a = 0; a < sum->n_arms; a++) {
        add_arm(&sum->arms[a], &part->arms[a], sum);
    }
    sum->members += part->members;
    sum->asked_for += part->asked_for;
    sum->stopped = sum->stopped || part->stopped;
    return true;
}

/* ---- draws ------------------------------------------------------------------------------ */

/* splitmix64's finaliser (Steele, Lea & Flood 2014) over a counter of seed, member and draw. */
static uint64_t mixed(uint64_t x)
{
    x = (x ^ (x >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94D049BB133111EB);
    return x ^ (x >> 31);
}

double sl_draw(uint64_t seed, long member, int drawn)
{
    const uint64_t golden = UINT64_C(0x9E3779B97F4A7C15);
    const uint64_t counter = (uint64_t)member * SL_MOST_DRAWN + (uint64_t)drawn + 1;
    const uint64_t bits = mixed(mixed(seed + golden) + golden * counter);
    return ((double)(bits >> 11) + 0.5) / 9007199254740992.0;
}

/* ---- blocks and threads ------------------------------------------------------------------- */

typedef struct worker {
    const sl_scene *scene;
    const sl_spread_request *request;
    sl_spread *spread;     /* this thread's own counts */
    lane_history *history; /* scratch */
    int number, workers;
    bool *stop; /* shared; written under `lock` */
    long *done; /* shared */
    pthread_mutex_t *lock;
    sl_error error;
    bool good;
} worker;

static bool run_block(worker *w, long first, int lanes)
{
    drawn_members drawn;
    members_draw(&drawn, &w->spread->plan, w->request->seed, first);
    for (int a = 0; a < w->scene->n_arms; a++) {
        member_limits limits[LANES];
        int bad = 0;
        if (!w->spread->arms[a].asked) {
            continue;
        }
        if (!members_limits(limits, w->scene, a, &drawn.lanes, &drawn.pigments, w->history, &bad)) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, "member %ld of arm \"%s\"", first + bad, w->scene->arms[a].name);
            return sl_fail(&w->error, SL_ERR_NOT_FINITE, found, "no member is dropped; narrow the spread");
        }
        for (int l = 0; l < lanes; l++) {
            count(w->spread, a, &limits[l], drawn.u[l]);
        }
    }
    w->spread->members += lanes;
    return true;
}

/* Tell how far it is, from the first thread; false when somebody said stop. */
static bool go_on(worker *w, int lanes)
{
    pthread_mutex_lock(w->lock);
    *w->done += lanes;
    if (w->number == 0 && w->request->go_on &&
        !w->request->go_on(w->request->self, *w->done, w->request->members)) {
        *w->stop = true;
    }
    const bool on = !*w->stop;
    pthread_mutex_unlock(w->lock);
    return on;
}

static void *work(void *self)
{
    worker *const w = self;
    const long blocks = (w->request->members + LANES - 1) / LANES;
    w->good = true;
    for (long b = w->number; b < blocks && w->good; b += w->workers) {
        const long first = w->request->first_member + b * LANES;
        const long left = w->request->members - b * LANES;
        const int lanes = left < LANES ? (int)left : LANES;
        w->good = run_block(w, first, lanes);
        if (!go_on(w, lanes)) {
            break;
        }
    }
    return NULL;
}

static bool make_worker(worker *w, const sl_draw_plan *plan, sl_error *error)
{
    w->spread = new_spread(w->scene, plan, error);
    w->history = w->spread ? sl_new(1, sizeof *w->history, doing, error) : NULL;
    return w->history != NULL;
}

enum { MOST_THREADS = 64 };

static void run_workers(worker *all, int n)
{
    pthread_t thread[MOST_THREADS];
    bool started[MOST_THREADS] = {false};
    for (int i = 1; i < n; i++) {
        started[i] = pthread_create(&thread[i], NULL, work, &all[i]) == 0;
    }
    work(&all[0]);
    for (int i = 1; i < n; i++) {
        if (started[i]) {
            pthread_join(thread[i], NULL);
        } else {
            work(&all[i]); /* no thread to be had: its blocks are run here */
        }
    }
}

static bool gather(sl_spread *sum, worker *all, int n, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (!all[i].good) {
            if (error) {
                *error = all[i].error;
            }
            return false;
        }
        if (!sl_spread_add(sum, all[i].spread, error)) {
            return false;
        }
    }
    return true;
}

bool sl_spread_run(sl_spread **spread, const sl_scene *scene, const sl_spread_request *request,
                   sl_error *error)
{
    assert(request->members > 0 && request->threads > 0 && request->first_member >= 0);
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    const int n = request->threads < MOST_THREADS ? request->threads : MOST_THREADS;
    worker all[MOST_THREADS] = {{0}};
    pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
    bool stop = false;
    long done = 0;
    sl_spread *sum = new_spread(scene, &plan, error);
    bool good = sum != NULL;
    for (int i = 0; i < n && good; i++) {
        all[i] = (worker){.scene = scene,
                          .request = request,
                          .number = i,
                          .workers = n,
                          .stop = &stop,
                          .done = &done,
                          .lock = &lock};
        good = make_worker(&all[i], &plan, error);
    }
    if (good) {
        run_workers(all, n);
        good = gather(sum, all, n, error);
    }
    for (int i = 0; i < n; i++) {
        sl_spread_free(all[i].spread);
        sl_free(all[i].history);
    }
    if (!good) {
        sl_spread_free(sum);
        return false;
    }
    sum->asked_for = request->members;
    sum->stopped = stop;
    sl_spread_free(*spread);
    *spread = sum;
    return true;
}

/* ---- reading -------------------------------------------------------------------------------- */

double sl_spread_quantile(const uint32_t *histogram, int seconds, long members, double p)
{
    const double wanted = p * (double)members;
    double below = 0.0;
    for (int i = 0; i < seconds; i++) {
        below += histogram[i];
        if (below >= wanted) {
            return i / 60.0;
        }
    }
    return -1.0;
}

/* Variance of the bin means over the whole variance, less what bins of this size show by
 * chance: the given-data estimator of a first-order index (Plischke, Borgonovo & Smith 2013). */
double sl_spread_index(const sl_spread *spread, int arm, int drawn)
{
    const sl_arm_spread *const here = &spread->arms[arm];
    const double n = (double)spread->members;
    if (!here->asked || n < 2.0) {
        return 0.0;
    }
    const double mean = (double)here->sum_s / n;
    const double variance = (double)here->square_s2 / n - mean * mean;
    if (!(variance > 0.0)) {
        return 0.0;
    }
    double between = 0.0;
    for (int b = 0; b < SL_INDEX_BINS; b++) {
        const double m = (double)here->index_count[drawn][b];
        if (m > 0.0) {
            const double gap = (double)here->index_sum_s[drawn][b] / m - mean;
            between += m / n * gap * gap;
        }
    }
    const double chance = variance * (SL_INDEX_BINS - 1) / n;
    return fmin(fmax((between - chance) / variance, 0.0), 1.0);
}
