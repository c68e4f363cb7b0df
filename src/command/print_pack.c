/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift pack`: a scene and a plan of it to a folder of sheets.
 */
#include "paper/pack_command.h"

#include <string.h>

#include "command/options.h"
#include "command/places.h"
#include "command/plan_work.h"
#include "paper/pack.h"

enum { PAPER = 32 };
static const struct option options[] = {SL_PLAN_OPTIONS,
                                        {"blind", no_argument, NULL, 'b'},
                                        {"paper", required_argument, NULL, PAPER},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {NULL, 0, NULL, 0}};
static const char program[] = "slowlift pack";

typedef struct sl_pack_asked {
    const char *file, *models, *output;
    sl_paper_format format;
    sl_plan_work work;
    bool blind;
} sl_pack_asked;

static bool read_paper(sl_paper_format *format, const char *word, sl_error *error)
{
    const char *known[SL_PAPER_FORMATS];
    for (int i = 0; i < SL_PAPER_FORMATS; i++) {
        known[i] = sl_paper_formats[i].word;
        if (strcmp(word, known[i]) == 0) {
            *format = sl_paper_formats[i];
            return true;
        }
    }
    return sl_word_refused("the paper", word, known, SL_PAPER_FORMATS, error);
}

static bool read_option(sl_pack_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'b':
        asked->blind = true;
        return true;
    case PAPER:
        return read_paper(&asked->format, optarg, error);
    case 'o':
        asked->output = optarg;
        return true;
    case 'm':
        asked->models = optarg;
        return true;
    case '?':
    case ':':
        return sl_option_refused(program, option, argv, options, error);
    default:
        return sl_plan_work_option(&asked->work, option, error);
    }
}

static bool read_asked(sl_pack_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":o:", options, NULL)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (asked->output == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "no folder was named", "say where the sheets go: -o FOLDER");
    }
    return sl_plan_work_check(&asked->work, error) && sl_one_file(program, argc, argv, &asked->file, error);
}

/* A map of the first arm that has a developer to change; *map stays NULL when there is none. */
static bool make_map(sl_map **map, const sl_scene *scene, const sl_timeline *timeline, sl_solver *solver,
                     sl_error *error)
{
    const sl_axis strength = {.setting = SL_SETTING_STRENGTH, .from = 0.0, .to = 12.0, .n = 25};
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

static bool print_sheets(sl_pack_asked *asked, const sl_scene *scene, sl_solver *solver, sl_error *error)
{
    const sl_viewing dry = {.look = SL_LOOK_DRY};
    sl_optics *const optics = sl_optics_new_for(scene, dry, error);
    sl_map *map = NULL;
    bool good = optics != NULL && sl_plan_work_compute(&asked->work, scene, solver, asked->blind, error) &&
                make_map(&map, scene, asked->work.timeline, solver, error);
    if (good) {
        const sl_pack pack = {
            .page = &asked->work.page, .dry = optics, .map = map, .format = asked->format, .language = "en"};
        good = sl_paper_pack(asked->output, &pack, error);
    }
    sl_map_free(map);
    sl_optics_free(optics);
    return good;
}

sl_exit sl_print_pack(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_pack_asked asked = {.format = sl_paper_formats[0], .work = sl_plan_work_begin()};
    sl_places places;
    sl_scene *const scene = read_asked(&asked, argc, argv, &error)
                                ? sl_places_load(&places, asked.models, asked.file, &error)
                                : NULL;
    sl_solver *const solver = scene != NULL ? sl_solver_new(&error) : NULL;
    const bool good = solver != NULL && print_sheets(&asked, scene, solver, &error);
    sl_plan_work_free(&asked.work);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return good ? SL_EXIT_OK : sl_complain(&error);
}
