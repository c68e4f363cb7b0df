/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift plan`: who puts what on which swatch when, what to weigh, and what the comparison can
 * show.
 */
#include "slowlift/plan.h"

#include "base/language.h"
#include "base/save.h"
#include "command/command.h"
#include "front/places.h"
#include "front/tell.h"
#include "front/work/plan_work.h"
#include "report/plan/plan.h"

typedef struct sl_plan_asked {
    const char *file, *key;
    sl_plan_work work;
    bool blind, dye_day;
    sl_result_wish result;
} sl_plan_asked;

static const sl_option options[] = {
    SL_OPTION(sl_plan_asked, blind, sl_option_flag, .name = "blind",
              .help = N_("codes alone, for a judge; needs --key")),
    SL_OPTION(sl_plan_asked, key, sl_option_output, .name = "key", .value = N_("FILE"),
              .help = N_("what the codes mean, to be kept from the judge"), .wants = SL_WANTS_NEW),
    SL_OPTION(sl_plan_asked, dye_day, sl_option_flag, .name = "dye-day",
              .help = N_("the day before: what to dye in which order, codes, what to keep back, rest")),
};
const sl_command_line sl_plan_typed = {
    .name = "plan",
    .line = N_("swatches, order, timetable, grams"),
    .usage = {N_("[OPTIONS] FILE")},
    .about = N_("A fair plan of the scene's comparison on the bench: swatches in rounds and random order, "
                "who does what when, what to weigh, what is missing, what mistakes would cost by the model, "
                "and how small a difference it can see."),
    .set = {SL_OPTION_SET(sl_plan_options, sl_plan_work, sl_plan_asked, work),
            SL_OPTION_SET(sl_plan_spread_options, sl_plan_work, sl_plan_asked, work),
            SL_OPTION_SET(sl_plan_tell_options, sl_plan_work, sl_plan_asked, work),
            SL_OPTION_SET_OWN(options), SL_RESULT_SETS(sl_plan_asked)},
    .words = SL_TYPED_WORDS(sl_plan_asked, file, 1, 1),
    .example = {{N_("five repeats, two people."), {"slowlift plan eight-arms --repeats 5 --people 2"}},
                {N_("what the judge gets."), {"slowlift plan eight-arms --blind --key key.csv"}}},
    .wants = {SL_WANTS_SCENE},
};

static bool read_asked(sl_plan_asked *asked, int argc, char **argv, sl_error *error)
{
    return sl_options_read(&sl_plan_typed, argc, argv, asked, error) &&
           (!asked->blind || asked->key ||
            sl_fail(error, SL_ERR_USAGE, "a blind plan without a key could never be opened",
                    "write --key FILE, and keep that file from the judge")) &&
           (!asked->blind ||
            (asked->work.tell <= 0.0 && asked->work.spread < 0.0 && !asked->work.spread_from) ||
            sl_fail(error, SL_ERR_USAGE, "--blind with --spread, --spread-from or --tell",
                    "what can be told stands in the plan that is not blind")) &&
           (!asked->dye_day || !(asked->result.csv || asked->result.json) ||
            sl_fail(error, SL_ERR_USAGE, "--dye-day with --csv or --json",
                    "the dye day is a page for people; the plan is for machines")) &&
           sl_plan_work_check(&asked->work, error);
}

static bool write_key(const sl_plan *plan, const char *path, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    sl_export_csv(save.stream, &sl_plan_key_export, plan);
    return sl_save_commit(&save, error);
}

/* The key first: a plan whose key could not be kept is not given out. */
static bool keep_key(const sl_plan_asked *asked, sl_error *error)
{
    return !asked->key || write_key(asked->work.page.plan, asked->key, error);
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
    const bool good = solver && sl_plan_work_compute(&asked.work, scene, solver, asked.blind, &error) &&
                      keep_key(&asked, &error);
    const sl_exit code = sl_tell(
        good, &error,
        &(sl_teller){.say = asked.dye_day ? sl_plan_say_dye_day : sl_plan_say, .export = &sl_plan_export},
        &asked.work.page, &asked.result);
    sl_plan_work_free(&asked.work);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return code;
}
