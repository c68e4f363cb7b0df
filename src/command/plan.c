/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift plan`: who puts what on which swatch when, what to weigh, and what the comparison can
 * show.
 */
#include "slowlift/plan.h"

#include <errno.h>
#include <math.h>
#include <string.h>

#include "base/save.h"
#include "command/command.h"
#include "command/options.h"
#include "command/places.h"
#include "command/settings.h"
#include "command/times.h"
#include "report/plan.h"
#include "scene/quantity.h"

typedef struct sl_plan_asked {
    const char *file, *models, *output, *key;
    sl_plan_request request;
    double spread;
    bool spread_given, blind, csv, json;
} sl_plan_asked;

enum { APPLY = 1, REMOVE, LOOK, MIX, SCALE, WASTE, SPREAD, LOOKS, LADDER, SEED, REPEATS, PEOPLE, KEY };

static const struct option options[] = {{"repeats", required_argument, NULL, REPEATS},
                                        {"people", required_argument, NULL, PEOPLE},
                                        {"apply", required_argument, NULL, APPLY},
                                        {"remove", required_argument, NULL, REMOVE},
                                        {"look", required_argument, NULL, LOOK},
                                        {"mix", required_argument, NULL, MIX},
                                        {"looks", required_argument, NULL, LOOKS},
                                        {"ladder", required_argument, NULL, LADDER},
                                        {"scale", required_argument, NULL, SCALE},
                                        {"waste", required_argument, NULL, WASTE},
                                        {"spread", required_argument, NULL, SPREAD},
                                        {"seed", required_argument, NULL, SEED},
                                        {"blind", no_argument, NULL, 'b'},
                                        {"key", required_argument, NULL, KEY},
                                        {"csv", no_argument, NULL, 'c'},
                                        {"json", no_argument, NULL, 'j'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

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

/* "0.1g" */
static bool read_grams(const char *text, double *grams, sl_error *error)
{
    const char *const rest = sl_decimal_read(text, grams);
    if (rest && strcmp(rest + strspn(rest, " "), "g") == 0) {
        return true;
    }
    return sl_fail(error, SL_ERR_USAGE, "--scale is not understood",
                   "write the step of the scale, such as 0.1g");
}

static bool read_count(const char *option, const char *text, long most, int *count, sl_error *error)
{
    long value = 0;
    const bool good = sl_digits_read(option, text, 1, most, &value, error);
    *count = good ? (int)value : *count;
    return good;
}

static bool read_request(sl_plan_asked *asked, int option, sl_error *error)
{
    sl_plan_request *const request = &asked->request;
    long seed = 0;
    switch (option) {
    case REPEATS:
        return read_count("repeats", optarg, SL_PLAN_MOST_BLOCKS, &request->blocks, error);
    case PEOPLE:
        return read_count("people", optarg, SL_PLAN_MOST_PEOPLE, &request->people, error);
    case APPLY:
        return sl_seconds_read("--apply", optarg, 5, 1800, &request->apply_s, error);
    case REMOVE:
        return sl_seconds_read("--remove", optarg, 5, 1800, &request->remove_s, error);
    case LOOK:
        return sl_seconds_read("--look", optarg, 5, 1800, &request->look_s, error);
    case MIX:
        return sl_seconds_read("--mix", optarg, 0, 1800, &request->mix_s, error);
    case LOOKS:
        return read_minutes("--looks", optarg, request->look_min, &request->n_looks, SL_PLAN_MOST_LOOKS,
                            error);
    case LADDER:
        return read_minutes("--ladder", optarg, request->rung_min, &request->n_rungs, SL_PLAN_MOST_RUNGS,
                            error);
    case SCALE:
        return read_grams(optarg, &request->scale_g, error);
    case WASTE:
        return sl_share_read_as("--waste", optarg, &request->waste, error);
    case SPREAD:
        asked->spread_given = true;
        return sl_share_read_as("--spread", optarg, &asked->spread, error);
    case SEED:
        if (!sl_digits_read("seed", optarg, 0, 1000000000L, &seed, error)) {
            return false;
        }
        request->seed = (uint64_t)seed;
        return true;
    default:
        return false;
    }
}

static bool read_option(sl_plan_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'b':
        asked->blind = true;
        return true;
    case KEY:
        asked->key = optarg;
        return true;
    case 'c':
        asked->csv = true;
        return true;
    case 'j':
        asked->json = true;
        return true;
    case 'o':
        asked->output = optarg;
        return true;
    case 'm':
        asked->models = optarg;
        return true;
    case '?':
    case ':':
    case 'h':
        return sl_option_refused("slowlift plan", option, argv, options, error);
    default:
        return read_request(asked, option, error);
    }
}

static bool read_asked(sl_plan_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":o:", options, NULL)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (asked->csv && asked->json) {
        return sl_fail(error, SL_ERR_USAGE, "--csv and --json together", "ask for one of them");
    }
    if (asked->blind && !asked->key) {
        return sl_fail(error, SL_ERR_USAGE, "a blind plan without a key could never be opened",
                       "write --key FILE, and keep that file from the judge");
    }
    if (asked->request.n_rungs > 0 && asked->request.n_looks > 0) {
        return sl_fail(error, SL_ERR_USAGE, "--looks and --ladder together",
                       "ask for one of them: a ladder looks by rinsing pieces");
    }
    return sl_one_file("slowlift plan", argc, argv, &asked->file, error);
}

static bool compute(sl_plan_page *page, sl_plan **plan, sl_timeline **timeline, const sl_scene *scene,
                    const sl_plan_asked *asked, sl_error *error)
{
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver && sl_plan_make(plan, scene, &asked->request, error) &&
                      sl_timeline_solve(timeline, scene, NULL, 0, solver, NULL, error) &&
                      sl_plan_if_together(*plan, solver, &page->together, error) &&
                      sl_plan_if_one_bowl(*plan, solver, &page->one_bowl, error);
    page->plan = *plan;
    page->timeline = *timeline;
    sl_solver_free(solver);
    return good;
}

static bool write_form(FILE *out, const sl_plan_page *page, const sl_plan_asked *asked)
{
    const int width = 100;
    return asked->csv    ? sl_plan_csv(out, page)
           : asked->json ? sl_plan_json(out, page)
                         : sl_plan_text(out, page, width);
}

static bool write_key(const sl_plan *plan, const char *path, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    sl_plan_key(save.stream, plan);
    return sl_save_commit(&save, error);
}

/* The key first: a plan whose key could not be kept is not given out. */
static sl_exit write_plan(const sl_plan_page *page, const sl_plan_asked *asked)
{
    sl_error error = {.code = SL_OK};
    sl_save save;
    if (asked->key && !write_key(page->plan, asked->key, &error)) {
        return sl_complain(&error);
    }
    if (!asked->output) {
        errno = 0;
        return sl_finish_output(write_form(stdout, page, asked));
    }
    if (!sl_save_open(&save, asked->output, &error)) {
        return sl_complain(&error);
    }
    write_form(save.stream, page, asked);
    return sl_save_commit(&save, &error) ? SL_EXIT_OK : sl_complain(&error);
}

sl_exit sl_command_plan(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_plan_asked asked = {.request = sl_plan_request_default(), .spread = 0.05};
    sl_places places;
    sl_plan *plan = NULL;
    sl_timeline *timeline = NULL;
    sl_scene *const scene = read_asked(&asked, argc, argv, &error)
                                ? sl_places_load(&places, asked.models, asked.file, &error)
                                : NULL;
    sl_plan_page page = {.spread = asked.spread, .spread_given = asked.spread_given, .blind = asked.blind};
    const sl_exit code = scene && compute(&page, &plan, &timeline, scene, &asked, &error)
                             ? write_plan(&page, &asked)
                             : sl_complain(&error);
    sl_plan_free(plan);
    sl_timeline_free(timeline);
    sl_scene_free(scene);
    return code;
}
