/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How fast colour left, from looks at several minutes: share left = start * exp(-k t), k by least squares
 * of ln(share left) on minutes. Of looks under the mix the start is known and not fitted: a share is of what
 * was there before contact, so it is 1 at minute 0 by its definition; k = -sum(t ln s) / sum(t t). Pieces of
 * a ladder were rinsed and washed besides, which takes the same part of each and no part of the speed: there
 * the start is left free (the usual line, scipy.stats.linregress). The swatch is the unit: one slope of
 * each, then Student's t.
 *
 * Invariant: a share of nothing never enters a logarithm; it is counted.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/looks.h"

/* What is summed of the points of one line; y = -ln(share left). */
typedef struct sl_slope {
    int n;
    double t, y, ty, tt;
} sl_slope;

static bool slope_add(sl_slope *slope, double minute, double left)
{
    if (!(left > 0.0)) {
        return false;
    }
    const double y = -log(left);
    slope->n++;
    slope->t += minute;
    slope->y += y;
    slope->ty += minute * y;
    slope->tt += minute * minute;
    return true;
}

/* What of the sums is taken off: about the start that is known nothing, else about the middle of the points.
 */
static double share_of(const sl_slope *slope, sl_line_start start)
{
    return start == SL_START_FITTED ? 1.0 / slope->n : 0.0;
}

static double spread_of(const sl_slope *slope, sl_line_start start)
{
    return slope->tt - share_of(slope, start) * slope->t * slope->t;
}

static bool has_slope(const sl_slope *slope, sl_line_start start)
{
    return slope->n >= 2 && spread_of(slope, start) > 1e-9 * slope->tt;
}

static double slope_of(const sl_slope *slope, sl_line_start start)
{
    assert(has_slope(slope, start));
    return (slope->ty - share_of(slope, start) * slope->t * slope->y) / spread_of(slope, start);
}

bool sl_rate_of(sl_line_start start, const double *minute, const double *left, int n, double *per_min)
{
    sl_slope slope = {.n = 0};
    for (int i = 0; i < n; i++) {
        if (!slope_add(&slope, minute[i], left[i])) {
            return false;
        }
    }
    if (!has_slope(&slope, start)) {
        return false;
    }
    *per_min = slope_of(&slope, start);
    return true;
}

/* ---- what the model says at the minutes that were looked at ---------------------------------------- */

/* A piece's minute is solved once. Beyond so many different ones of an arm the model is not asked: no
 * ladder has them. */
enum { MOST_MINUTES = 96 };

typedef struct sl_read_rate {
    double minute;
    double left[SL_MAX_ZONES]; /* or SL_NOT_READ */
} sl_read_rate;

/* One arm's work. */
typedef struct sl_rate_job {
    const sl_compare *compare;
    int arm;
    int n_told;
    sl_read_rate told[MOST_MINUTES];
    /* of the swatch at hand */
    sl_slope seen, model;
    bool modelled;                    /* the model told every point */
    int times;                        /* whole minutes, from 1 */
    bool time[SL_COMPARE_LATEST + 1]; /* which */
    int n_rates, n_model;
    double rate[SL_BENCH_MOST], by_model[SL_BENCH_MOST]; /* of swatches */
} sl_rate_job;

/* NULL with SL_OK in *error: too many. */
static const sl_read_rate *told_at(sl_rate_job *job, double minute, sl_error *error)
{
    for (int i = 0; i < job->n_told; i++) {
        if (fabs(job->told[i].minute - minute) < 1e-9) {
            return &job->told[i];
        }
    }
    if (job->n_told == MOST_MINUTES) {
        return NULL;
    }
    sl_read_rate *const next = &job->told[job->n_told];
    next->minute = minute;
    if (!sl_model_seen_at(job->compare, job->arm, minute, next->left, error)) {
        return NULL;
    }
    job->n_told++;
    return next;
}

/* ---- one swatch ------------------------------------------------------------------------------------ */

/* A reading names its piece by the minute that was planned; the clock may know when it was cut. */
static double piece_minute(const sl_seen_bench *bench, const sl_bench_swatch *plan, double minute)
{
    for (int k = 0; plan->ladder && k < bench->n_pieces; k++) {
        if (fabs(60.0 * minute - plan->look_s[k]) < 0.5) {
            return bench->piece_s[k] / 60.0;
        }
    }
    return minute;
}

/* When a look was made, in minutes from contact; -1: not one that a rate is taken of. The end of a ladder
 * is a piece like the others, which lay as long as the clock kept, or as planned. */
static double minute_of(const sl_compare *compare, const sl_seen_group *group)
{
    const sl_seen_bench *const bench = &compare->bench[group->swatch];
    const sl_bench_swatch *const plan = &compare->swatches[group->swatch].bench;
    if (group->hours > SL_NOT_READ || group->left[compare->basis[group->zone]] <= SL_NOT_READ) {
        return -1.0;
    }
    if (group->minute > SL_NOT_READ) {
        return group->minute > 0.0 ? piece_minute(bench, plan, group->minute) : -1.0;
    }
    return !plan->ladder ? -1.0 : (bench->rinsed ? bench->dwell_s : plan->dwell_s) / 60.0;
}

static bool add_point(sl_rate_job *job, const sl_seen_group *group, double minute, sl_error *error)
{
    const sl_read_rate *const told = told_at(job, minute, error);
    if (!told && error->code != SL_OK) {
        return false;
    }
    const int whole = (int)fmin(round(minute), SL_COMPARE_LATEST);
    job->times += whole > 0 && !job->time[whole] ? 1 : 0;
    job->time[whole] = true;
    slope_add(&job->seen, minute, group->left[job->compare->basis[group->zone]]);
    job->modelled = job->modelled && told && slope_add(&job->model, minute, told->left[group->zone]);
    return true;
}

static bool add_swatch(sl_rate_job *job, int swatch, int zone, int *left_out, sl_error *error)
{
    const sl_compare *const compare = job->compare;
    job->seen = job->model = (sl_slope){.n = 0};
    job->modelled = true;
    job->times = 0;
    memset(job->time, 0, sizeof job->time);
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            break;
        }
        const double minute = minute_of(compare, group);
        const bool nothing = minute > 0.0 && group->left[compare->basis[zone]] <= 0.0;
        *left_out += nothing ? 1 : 0;
        if (minute > 0.0 && !nothing && !add_point(job, group, minute, error)) {
            return false;
        }
    }
    const sl_line_start start = sl_compare_ladder(compare, job->arm) ? SL_START_FITTED : SL_START_KNOWN;
    if (job->times < SL_RATE_TIMES) {
        return true; /* else a slope has the whole minutes apart that it needs */
    }
    job->rate[job->n_rates++] = slope_of(&job->seen, start);
    if (job->modelled) {
        job->by_model[job->n_model++] = slope_of(&job->model, start);
    }
    return true;
}

/* ---- arms and zones -------------------------------------------------------------------------------- */

static bool rate_of_zone(sl_rate_job *job, int zone, sl_rate *rate, sl_error *error)
{
    const sl_compare *const compare = job->compare;
    *rate = (sl_rate){.per_min = sl_seen_mean_of(NULL, 0), .model_per_min = SL_NOT_READ};
    job->n_rates = job->n_model = 0;
    if (compare->scene->arms[job->arm].undyed || compare->scene->zones[zone].recipe.n_dyes == 0) {
        return true;
    }
    for (int i = 0; i < compare->n_swatches; i++) {
        if (compare->bench[i].arm == job->arm && !add_swatch(job, i, zone, &rate->left_out, error)) {
            return false;
        }
    }
    rate->per_min = sl_seen_mean_of(job->rate, job->n_rates);
    if (job->n_rates > 0 && job->n_model == job->n_rates) {
        rate->model_per_min = sl_seen_mean_of(job->by_model, job->n_model).mean;
    }
    return true;
}

bool sl_compare_rates(sl_rate **rates, const sl_compare *compare, sl_error *error)
{
    const int n_zones = compare->scene->n_zones, n_arms = compare->scene->n_arms;
    sl_error unheard = {.code = SL_OK};
    sl_error *const heard = error ? error : &unheard;
    sl_rate *const made = sl_new((size_t)n_arms * (size_t)n_zones, sizeof *made, "comparing", heard);
    sl_rate_job *const job = made ? sl_new(1, sizeof *job, "comparing", heard) : NULL;
    bool good = job != NULL;
    for (int i = 0; good && i < n_arms * n_zones; i++) {
        job->n_told = job->arm == i / n_zones ? job->n_told : 0;
        job->compare = compare;
        job->arm = i / n_zones;
        good = rate_of_zone(job, i % n_zones, &made[i], heard);
    }
    sl_free(job);
    if (!good) {
        sl_free(made);
        return false;
    }
    *rates = made;
    return true;
}
