/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift plan`: who puts what on which swatch when, what to weigh, and what the comparison can
 * show.
 */
#include "slowlift/plan.h"

#include <string.h>

#include "base/inputs.h"
#include "base/save.h"
#include "command/command.h"
#include "front/options.h"
#include "front/places.h"
#include "front/work/plan_work.h"
#include "report/plan/plan.h"

typedef struct sl_plan_asked {
    const char *file, *key;
    sl_plan_work work;
    bool blind;
    sl_result_wish result;
} sl_plan_asked;

enum { KEY = 32 };

static const struct option options[] = {SL_PLAN_OPTIONS,
                                        {"blind", no_argument, NULL, 'b'},
                                        {"key", required_argument, NULL, KEY},
                                        {"csv", no_argument, NULL, 'c'},
                                        {"json", no_argument, NULL, 'j'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

static bool read_option(sl_plan_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'b':
        asked->blind = true;
        return true;
    case KEY:
        asked->key = optarg;
        return true;
    case '?':
    case ':':
    case 'h':
        return sl_option_refused("slowlift plan", option, argv, options, error);
    default:
        return sl_result_option(&asked->result, option) || sl_plan_work_option(&asked->work, option, error);
    }
}

static bool read_asked(sl_plan_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (!sl_result_settle(&asked->result, error) || !sl_output_named(asked->key, error)) {
        return false;
    }
    if (asked->blind && !asked->key) {
        return sl_fail(error, SL_ERR_USAGE, "a blind plan without a key could never be opened",
                       "write --key FILE, and keep that file from the judge");
    }
    return sl_plan_work_check(&asked->work, error) &&
           sl_one_file("slowlift plan", argc, argv, &asked->file, error);
}

static bool write_form(FILE *out, const void *what)
{
    const sl_plan_asked *const asked = what;
    const sl_plan_page *const page = &asked->work.page;
    const int width = 100;
    return asked->result.csv    ? sl_plan_csv(out, page)
           : asked->result.json ? sl_plan_json(out, page)
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
static sl_exit write_plan(const sl_plan_asked *asked)
{
    sl_error error = {.code = SL_OK};
    if (asked->key && !write_key(asked->work.page.plan, asked->key, &error)) {
        return sl_complain(&error);
    }
    return sl_write_result(asked->result.output, write_form, asked);
}

sl_exit sl_command_plan(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_plan_asked asked = {.work = sl_plan_work_begin()};
    sl_places places;
    sl_scene *const scene = read_asked(&asked, argc, argv, &error)
                                ? sl_places_load(&places, asked.result.models, asked.file, &error)
                                : NULL;
    sl_solver *const solver = scene ? sl_solver_new(&error) : NULL;
    const sl_exit code = solver && sl_plan_work_compute(&asked.work, scene, solver, asked.blind, &error)
                             ? write_plan(&asked)
                             : sl_complain(&error);
    sl_plan_work_free(&asked.work);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return code;
}
