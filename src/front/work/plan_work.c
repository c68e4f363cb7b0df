/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See plan_work.h.
 */
#include "front/work/plan_work.h"

#include <getopt.h>
#include <math.h>
#include <string.h>

#include "front/settings.h"
#include "front/times.h"

sl_plan_work sl_plan_work_begin(void)
{
    return (sl_plan_work){.request = sl_plan_request_default(), .spread = 0.05};
}

/* "5min,10min" as whole minutes. */
static bool read_minutes(const char *option, const char *text, int *minute, int *n, int most, sl_error *error)
{
    sl_times times = {.option = option};
    bool good = sl_times_read(&times, text, error);
    if (good && times.n > (size_t)most) {
        good = sl_fail(error, SL_ERR_USAGE, "too many times for one plan", "a dozen looks, eight pieces");
    }
    for (size_t i = 0; good && i < times.n; i++) {
        minute[i] = (int)lround(fmin(times.min[i], 10000.0));
        good = fabs(times.min[i] - minute[i]) < 1e-9 ||
               sl_fail(error, SL_ERR_USAGE, "a plan looks and rinses at whole minutes", "such as 5min,10min");
    }
    *n = good ? (int)times.n : 0;
    sl_times_free(&times);
    return good;
}

static bool read_count(const char *option, const char *text, long most, int *count, sl_error *error)
{
    long value = 0;
    const bool good = sl_digits_read(option, text, 1, most, &value, error);
    *count = good ? (int)value : *count;
    return good;
}

bool sl_plan_work_option(sl_plan_work *work, int option, sl_error *error)
{
    sl_plan_request *const request = &work->request;
    long seed = 0;
    switch (option) {
    case SL_PLAN_REPEATS:
        return read_count("repeats", optarg, SL_PLAN_MOST_BLOCKS, &request->blocks, error);
    case SL_PLAN_PEOPLE:
        return read_count("people", optarg, SL_PLAN_MOST_PEOPLE, &request->people, error);
    case SL_PLAN_APPLY:
        return sl_seconds_read("--apply", optarg, 5, 1800, &request->apply_s, error);
    case SL_PLAN_REMOVE:
        return sl_seconds_read("--remove", optarg, 5, 1800, &request->remove_s, error);
    case SL_PLAN_LOOK:
        return sl_seconds_read("--look", optarg, 5, 1800, &request->look_s, error);
    case SL_PLAN_MIX:
        return sl_seconds_read("--mix", optarg, 0, 1800, &request->mix_s, error);
    case SL_PLAN_LOOKS:
        return read_minutes("--looks", optarg, request->look_min, &request->n_looks, SL_PLAN_MOST_LOOKS,
                            error);
    case SL_PLAN_LADDER:
        return read_minutes("--ladder", optarg, request->rung_min, &request->n_rungs, SL_PLAN_MOST_RUNGS,
                            error);
    case SL_PLAN_SCALE:
        return sl_grams_read("scale", optarg, 0.001, 10.0, &request->scale_g, error);
    case SL_PLAN_WASTE:
        return sl_share_read_as("--waste", optarg, &request->waste, error);
    case SL_PLAN_SPREAD:
        work->spread_given = true;
        return sl_share_read_as("--spread", optarg, &work->spread, error);
    case SL_PLAN_SEED:
        if (!sl_digits_read("seed", optarg, 0, 1000000000L, &seed, error)) {
            return false;
        }
        request->seed = (uint64_t)seed;
        return true;
    default:
        return false;
    }
}

bool sl_plan_work_check(const sl_plan_work *work, sl_error *error)
{
    if (work->request.n_rungs > 0 && work->request.n_looks > 0) {
        return sl_fail(error, SL_ERR_USAGE, "--looks and --ladder together",
                       "ask for one of them: a ladder looks by rinsing pieces");
    }
    return true;
}

bool sl_plan_work_compute(sl_plan_work *work, const sl_scene *scene, sl_solver *solver, bool blind,
                          sl_error *error)
{
    work->page = (sl_plan_page){.spread = work->spread, .spread_given = work->spread_given, .blind = blind};
    const bool good = sl_plan_make(&work->plan, scene, &work->request, error) &&
                      sl_timeline_solve(&work->timeline, scene, NULL, 0, solver, NULL, error) &&
                      sl_plan_if_together(work->plan, solver, &work->page.together, error) &&
                      sl_plan_if_one_bowl(work->plan, solver, &work->page.one_bowl, error);
    work->page.plan = work->plan;
    work->page.timeline = work->timeline;
    return good;
}

void sl_plan_work_free(sl_plan_work *work)
{
    sl_plan_free(work->plan);
    sl_timeline_free(work->timeline);
}
