/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See pack_work.h.
 */
#include "front/work/pack_work.h"

#include <string.h>

#include "base/inputs.h"
#include "front/options.h"
#include "front/places.h"

enum { PAPER = 32 };
static const struct option options[] = {SL_PLAN_OPTIONS,
                                        {"blind", no_argument, NULL, 'b'},
                                        {"paper", required_argument, NULL, PAPER},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {NULL, 0, NULL, 0}};
static const char program[] = "slowlift pack";

sl_pack_work sl_pack_work_begin(void)
{
    return (sl_pack_work){.plan = sl_plan_work_begin()};
}

static bool read_paper(bool *letter, const char *word, sl_error *error)
{
    static const char *const known[] = {"a4", "letter"};
    *letter = strcmp(word, known[1]) == 0;
    return *letter || strcmp(word, known[0]) == 0 || sl_word_refused("the paper", word, known, 2, error);
}

static bool read_option(sl_pack_work *work, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'b':
        work->blind = true;
        return true;
    case PAPER:
        return read_paper(&work->letter, optarg, error);
    case 'o':
        work->output = optarg;
        return true;
    case 'm':
        work->models = optarg;
        return true;
    case '?':
    case ':':
        return sl_option_refused(program, option, argv, options, error);
    default:
        return sl_plan_work_option(&work->plan, option, error);
    }
}

bool sl_pack_work_read(sl_pack_work *work, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(work, option, argv, error)) {
            return false;
        }
    }
    if (work->output == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "no folder was named", "say where the sheets go: -o FOLDER");
    }
    return sl_output_named(work->output, error) && sl_plan_work_check(&work->plan, error) &&
           sl_one_file(program, argc, argv, &work->file, error);
}

/* A map of the first arm that has a developer to change; *map stays NULL when there is none. */
static bool make_map(sl_map **map, const sl_scene *scene, const sl_timeline *timeline, sl_solver *solver,
                     sl_error *error)
{
    const sl_axis strength = {.setting = SL_SETTING_STRENGTH, .from = 0.0, .to = SL_LEGAL_PCT, .n = 25};
    const sl_axis time = {.setting = SL_SETTING_DWELL, .from = 5.0, .to = 45.0, .n = 25};
    for (int a = 0; a < scene->n_arms; a++) {
        sl_changes ends = {.set = {false}};
        sl_error refused = {.code = SL_OK};
        if (!scene->arms[a].undyed && scene->arms[a].n_steps > 0 && sl_timeline_predicted(timeline, a) &&
            sl_changes_set(&ends, scene, a, strength.setting, strength.to, &refused) &&
            sl_changes_set(&ends, scene, a, time.setting, time.to, &refused)) {
            return sl_map_make(map, scene, a, -1, strength, time, NULL, solver, error);
        }
    }
    return true;
}

bool sl_pack_work_compute(sl_pack_work *work, sl_error *error)
{
    const sl_viewing dry = {.look = SL_LOOK_DRY};
    sl_places places;
    work->scene = sl_places_load(&places, work->models, work->file, error);
    work->solver = work->scene != NULL ? sl_solver_new(error) : NULL;
    work->dry = work->solver != NULL ? sl_optics_new_for(work->scene, dry, error) : NULL;
    return work->dry != NULL &&
           sl_plan_work_compute(&work->plan, work->scene, work->solver, work->blind, error) &&
           make_map(&work->map, work->scene, work->plan.timeline, work->solver, error);
}

void sl_pack_work_free(sl_pack_work *work)
{
    sl_map_free(work->map);
    sl_plan_work_free(&work->plan);
    sl_optics_free(work->dry);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}
