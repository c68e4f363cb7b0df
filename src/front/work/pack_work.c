/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See pack_work.h.
 */
#include "front/work/pack_work.h"

#include "base/language.h"
#include "front/places.h"

static const char *const paper_words[] = {"a4", "letter"};
static const sl_word_list papers = {N_("the paper"), paper_words, 2};

static const sl_option options[] = {
    SL_OPTION(sl_pack_work, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FOLDER"),
              .help = N_("where the sheets go: a new folder, an empty one, or an older pack"),
              .wants = SL_WANTS_FOLDER),
    SL_OPTION(sl_pack_work, paper, sl_option_choice, .name = "paper", .value = N_("WORD"),
              .help = N_("a4 (the usual) or letter"), .choice = &papers),
    SL_OPTION(sl_pack_work, blind, sl_option_flag, .name = "blind",
              .help = N_("strips are named only where mixes are made, for the educator and in the key")),
};
const sl_command_line sl_pack_typed = {
    .name = "pack",
    .line = N_("print a class: every sheet to copy"),
    .usage = {N_("[OPTIONS] FILE -o FOLDER")},
    .about =
        N_("Prints a class: plan, shopping list, rota, tags, bowl labels, mixing sheet, look card, hazard "
           "checklist, swatch board, sheets for students and educator, a client sheet for practice, the "
           "model's results, and the key to the codes on a page of its own. FOLDER gets pack.pdf with all of "
           "them, one .svg for each page and one .html for each sheet, which a screen reader reads. A folder "
           "that holds anything but an older pack is refused. Swatches on a bench only."),
    .set = {SL_OPTION_SET_OWN(options), SL_OPTION_SET(sl_plan_options, sl_plan_work, sl_pack_work, plan),
            SL_OPTION_SET(sl_plan_spread_options, sl_plan_work, sl_pack_work, plan),
            SL_MODELS_SET(sl_pack_work, models)},
    .words = SL_TYPED_WORDS(sl_pack_work, file, 1, 1),
    .example = {{N_("everything to copy for four people and three repeats."),
                 {"slowlift pack eight-arms --repeats 3 --people 4 -o monday"}}},
    .wants = {SL_WANTS_SCENE},
};

sl_pack_work sl_pack_work_begin(void)
{
    return (sl_pack_work){.plan = sl_plan_work_begin()};
}

bool sl_pack_work_read(sl_pack_work *work, int argc, char **argv, sl_error *error)
{
    if (!sl_options_read(&sl_pack_typed, argc, argv, work, error)) {
        return false;
    }
    if (work->output == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "no folder was named", "say where the sheets go: -o FOLDER");
    }
    return sl_plan_work_check(&work->plan, error);
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
