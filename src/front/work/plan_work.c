/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See plan_work.h.
 */
#include "front/work/plan_work.h"

#include <math.h>
#include <string.h>

#include "base/code.h"
#include "base/language.h"
#include "front/spread_from.h"
#include "front/times.h"

sl_plan_work sl_plan_work_begin(void)
{
    return (sl_plan_work){.request = sl_plan_request_default(), .spread = -1.0};
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

/* "k1,k2": a pair of hands each. */
static bool read_who(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_plan_work *const work = place;
    sl_error found = {.code = SL_OK};
    work->n_who = 0;
    for (const char *at = text; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL) {
        char code[SL_CODE];
        const size_t length = strcspn(at, ",");
        if (work->n_who == SL_PLAN_MOST_PEOPLE) {
            return sl_value_refused(option, text, _("1 to 8 codes, such as k1,k2"), error);
        }
        snprintf(code, sizeof code, "%.*s", (int)(length < sizeof code ? length : 0), at);
        if (!sl_code_check(_("a code of the class"), code, &found)) {
            return sl_value_refused(option, text, found.wanted, error);
        }
        for (int i = 0; i < work->n_who; i++) {
            if (strcmp(work->request.who[i], code) == 0) {
                return sl_value_refused(option, text, _("name each person once"), error);
            }
        }
        memcpy(work->request.who[work->n_who++], code, sizeof code);
    }
    return true;
}

const sl_option sl_plan_options[SL_PLAN_OPTIONS] = {
    SL_OPTION_SAID(sl_plan_work, request.blocks, repeats_given, sl_option_count, .name = "repeats",
                   .value = "N", .least = 1, .most = SL_PLAN_MOST_BLOCKS,
                   .help = N_("swatches of each strip, 1 to 12 (3); a round holds every strip once")),
    SL_OPTION_SAID(sl_plan_work, request.people, people_given, sl_option_count, .name = "people",
                   .value = "N", .least = 1, .most = SL_PLAN_MOST_PEOPLE,
                   .help = N_("pairs of hands, 1 to 8 (1)")),
    /* their place is the whole record */
    {.place = 0,
     .name = "who",
     .value = N_("CODES"),
     .read = read_who,
     .given = offsetof(sl_plan_work, who_given),
     .help = N_("whose hands, codes such as k1,k2; the plan says who does what by them")},
    SL_OPTION_SAID(sl_plan_work, class_s, class_given, sl_option_seconds, .name = "class",
                   .value = N_("TIME"), .least = 60, .most = 86400,
                   .help = N_("how long the class is, such as 90min: whether the plan fits, and what would")),
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
    SL_OPTION(sl_plan_work, request.seed, sl_option_seed, .name = "seed", .value = "N",
              .help = N_("of the order and the codes")),
};
const sl_option sl_plan_spread_options[SL_PLAN_SPREAD_OPTIONS] = {
    SL_OPTION(sl_plan_work, spread, sl_option_share, .name = "spread", .value = N_("SHARE"),
              .help = N_("how far swatches of one strip scatter, for what can be told (5%, assumed)")),
    SL_SPREAD_FROM(sl_plan_work),
};
const sl_option sl_plan_tell_options[SL_PLAN_TELL_OPTIONS] = {
    SL_OPTION(sl_plan_work, tell, sl_option_share, .name = "tell", .value = N_("SHARE"),
              .help =
                  N_("the difference to be told in 8 of 10 tests: how many repeats that takes, and whether "
                     "hands and class allow it")),
};

void sl_plan_work_settle(sl_plan_work *work, const sl_scene *scene)
{
    const sl_plan_request said = sl_plan_request_of(scene);
    sl_plan_request *const asked = &work->request;
    asked->blocks = work->repeats_given ? asked->blocks : said.blocks;
    if (work->who_given) {
        asked->people = work->n_who;
    } else if (!work->people_given) {
        asked->people = said.people;
        memcpy(asked->who, said.who, sizeof asked->who);
    }
    work->class_s = work->class_given ? work->class_s : (int)lround(60.0 * scene->crew.class_min);
}

bool sl_plan_work_check(const sl_plan_work *work, sl_error *error)
{
    if (work->request.n_rungs > 0 && work->request.n_looks > 0) {
        return sl_fail(error, SL_ERR_USAGE, "--looks and --ladder together",
                       "ask for one of them: a ladder looks by rinsing pieces");
    }
    if (work->who_given && work->people_given && work->n_who != work->request.people) {
        return sl_fail(error, SL_ERR_USAGE, "--people and --who say two numbers of hands",
                       "give one of them: --who k1,k2 is two pairs of hands");
    }
    return sl_spread_check(work->spread, work->spread_from, error);
}

static bool find_scatter(sl_plan_work *work, sl_scatter *scatter, sl_error *error)
{
    *scatter = (sl_scatter){.freedom = 0};
    if (!work->spread_from) {
        return true;
    }
    const bool good = sl_scatter_from(scatter, work->spread_from, error);
    work->spread = scatter->sd;
    return good;
}

/* What is told with each change that would end in the class: fewer swatches or strips may tell less. */
static bool find_told(sl_plan_proposal *proposal, const sl_plan_work *work, const sl_scene *scene,
                      bool graded, sl_error *error)
{
    bool good = true;
    for (int i = 0; good && i < SL_FIT_OFFERS; i++) {
        const int n = proposal->fit.offer[i].n;
        sl_scene fewer = *scene;
        sl_promise promise;
        proposal->tells[i] = work->tell;
        if (n > 0 && (i == SL_FIT_REPEATS || i == SL_FIT_STRIPS)) {
            fewer.n_arms = i == SL_FIT_STRIPS ? n : scene->n_arms;
            good = sl_promise_of(&promise, &fewer, i == SL_FIT_REPEATS ? n : proposal->repeats, work->spread,
                                 error);
            proposal->tells[i] = graded ? promise.graded : promise.read;
        }
    }
    return good;
}

static bool propose(sl_plan_work *work, const sl_scene *scene, sl_error *error)
{
    bool good = true;
    for (int read = 0; good && work->tell > 0.0 && read < 2; read++) {
        sl_plan_proposal *const proposal = &work->page.proposal[read];
        sl_plan_request asked = work->request;
        good = sl_promise_repeats(&proposal->repeats, scene, read == 0, work->spread, work->tell,
                                  SL_PLAN_MOST_BLOCKS, error);
        asked.blocks = proposal->repeats;
        good = good &&
               (asked.blocks < 0 || (sl_plan_fit_find(&proposal->fit, scene, &asked, work->class_s, error) &&
                                     find_told(proposal, work, scene, read == 0, error)));
    }
    return good;
}

bool sl_plan_work_compute(sl_plan_work *work, const sl_scene *scene, sl_solver *solver, bool blind,
                          sl_error *error)
{
    sl_scatter scatter;
    work->page = (sl_plan_page){.blind = blind, .tell = work->tell};
    sl_plan_work_settle(work, scene);
    const bool good =
        find_scatter(work, &scatter, error) &&
        (work->class_s == 0 ||
         sl_plan_fit_find(&work->page.fit, scene, &work->request, work->class_s, error)) &&
        sl_plan_make(&work->plan, scene, &work->request, error) &&
        sl_timeline_solve(&work->timeline, scene, NULL, 0, solver, NULL, error) &&
        sl_plan_if_together(work->plan, solver, &work->page.together, error) &&
        sl_plan_if_one_bowl(work->plan, solver, &work->page.one_bowl, error) &&
        (blind || /* which does not tell it */
         (sl_promise_of(&work->page.promise, scene, work->request.blocks, work->spread, error) &&
          propose(work, scene, error)));
    work->page.promise.spread_freedom = scatter.freedom;
    work->page.promise.by_grade = scatter.by_grade;
    work->page.plan = work->plan;
    work->page.timeline = work->timeline;
    return good;
}

void sl_plan_work_free(sl_plan_work *work)
{
    sl_plan_free(work->plan);
    sl_timeline_free(work->timeline);
}
