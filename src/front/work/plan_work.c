/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See plan_work.h.
 */
#include "front/work/plan_work.h"

#include <math.h>
#include <string.h>

#include "base/language.h"
#include "front/times.h"

sl_plan_work sl_plan_work_begin(void)
{
    return (sl_plan_work){.request = sl_plan_request_default(), .spread = 0.05};
}

/* "5min,10min" as whole minutes. */
static bool read_minutes(const sl_option *option, const char *text, int *minute, int *n, int most,
                         sl_error *error)
{
    sl_times times = {.n = 0};
    bool good = sl_times_read(&times, option, text, error);
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

static bool read_looks(const sl_option *option, const char *text, void *request, sl_error *error)
{
    sl_plan_request *const asked = request;
    return read_minutes(option, text, asked->look_min, &asked->n_looks, SL_PLAN_MOST_LOOKS, error);
}

static bool read_ladder(const sl_option *option, const char *text, void *request, sl_error *error)
{
    sl_plan_request *const asked = request;
    return read_minutes(option, text, asked->rung_min, &asked->n_rungs, SL_PLAN_MOST_RUNGS, error);
}

const sl_option sl_plan_options[SL_PLAN_OPTIONS] = {
    SL_OPTION(sl_plan_work, request.blocks, sl_option_count, .name = "repeats", .value = "N", .least = 1,
              .most = SL_PLAN_MOST_BLOCKS,
              .help = N_("swatches of each arm, 1 to 12 (3); a block holds every arm once")),
    SL_OPTION(sl_plan_work, request.people, sl_option_count, .name = "people", .value = "N", .least = 1,
              .most = SL_PLAN_MOST_PEOPLE, .help = N_("pairs of hands, 1 to 8 (1)")),
    SL_OPTION(sl_plan_work, request.apply_s, sl_option_seconds, .name = "apply", .value = N_("TIME"),
              .least = 5, .most = 1800, .help = N_("of one person, to put the mix on one swatch (45s)")),
    SL_OPTION(sl_plan_work, request.remove_s, sl_option_seconds, .name = "remove", .value = N_("TIME"),
              .least = 5, .most = 1800, .help = N_("to take it off (45s)")),
    SL_OPTION(sl_plan_work, request.look_s, sl_option_seconds, .name = "look", .value = N_("TIME"),
              .least = 5, .most = 1800, .help = N_("to wipe and look (20s)")),
    SL_OPTION(sl_plan_work, request.mix_s, sl_option_seconds, .name = "mix", .value = N_("TIME"),
              .most = 1800, .help = N_("to make a mix (60s)")),
    SL_OPTION(sl_plan_work, request, read_looks, .name = "looks", .value = N_("TIMES"),
              .help = N_("wipe and look at these minutes after contact, such as 5min,10min")),
    SL_OPTION(sl_plan_work, request, read_ladder, .name = "ladder", .value = N_("TIMES"),
              .help = N_("a piece of each swatch is cut off and rinsed at each: rates, not ends alone")),
    SL_OPTION(sl_plan_work, request.scale_g, sl_option_grams, .name = "scale", .value = N_("GRAMS"),
              .least = 0.001, .most = 10.0, .help = N_("step of the scale (0.1g)")),
    SL_OPTION(sl_plan_work, request.waste, sl_option_share, .name = "waste", .value = N_("SHARE"),
              .help = N_("mix made beyond need (10%)")),
    SL_OPTION_SAID(
        sl_plan_work, spread, spread_given, sl_option_share, .name = "spread", .value = N_("SHARE"),
        .help = N_("how far swatches of one mix scatter, for what looks like a tie (5%, assumed)")),
    SL_OPTION(sl_plan_work, request.seed, sl_option_seed, .name = "seed", .value = "N",
              .help = N_("of the order and the codes")),
};

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
