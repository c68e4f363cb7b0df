/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log new`: a scene and a plan of it become a test in the log.
 */
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "front/places.h"
#include "front/work/new_log.h"
#include "report/plan/plan.h"

typedef struct sl_new_asked {
    const char *word[2]; /* log, scene */
    const char *title, *operator_code;
    const char *models;
    sl_plan_work work;
} sl_new_asked;

static const sl_option options[] = {
    SL_OPTION(sl_new_asked, operator_code, sl_option_text, .name = "operator", .value = N_("CODE"),
              .help = N_("who works at the bench: a code, never a name")),
    SL_OPTION(sl_new_asked, title, sl_option_text, .name = "title", .value = N_("WORDS"),
              .help = N_("of the test; else the scene's")),
};
const sl_command_line sl_log_new_typed = {
    .name = "log new",
    .line = N_("begin a test: a scene and its plan"),
    .usage = {N_("LOG SCENE --operator CODE [OPTIONS]")},
    .about =
        N_("Begins a test of a scene by a plan, as slowlift plan makes it. The log is made where there is "
           "none."),
    .set = {SL_OPTION_SET_OWN(options), SL_OPTION_SET(sl_plan_options, sl_plan_work, sl_new_asked, work),
            SL_MODELS_SET(sl_new_asked, models)},
    .words = SL_TYPED_WORDS(sl_new_asked, word, 2, 2),
    .example = {{N_("a class of strand tests begins."),
                 {"slowlift log new strands.db eight-arms --repeats 3 --operator op-1"}}},
    .wants = {SL_WANTS_LOG, SL_WANTS_SCENE},
};

static bool read_asked(sl_new_asked *asked, int argc, char **argv, sl_error *error)
{
    if (!sl_options_read(&sl_log_new_typed, argc, argv, asked, error) ||
        !sl_plan_work_check(&asked->work, error)) {
        return false;
    }
    if (!asked->operator_code) {
        return sl_fail(error, SL_ERR_USAGE, _("who works at the bench was not said"),
                       _("write --operator CODE: a code, never a name"));
    }
    return sl_log_code_check(_("the operator's code"), asked->operator_code, error);
}

typedef struct sl_begun {
    sl_begin_log begin;
    const char *title;
} sl_begun;

static void give_line(void *self, const char *line)
{
    fputs(line, self);
    putc('\n', self);
}

static bool give_receipt(void *self, sl_error *error)
{
    const sl_begun *const begun = self;
    printf(_("Test %.8s is kept in %s: \"%s\", %d swatches.\n"), begun->begin.id, begun->begin.log,
           begun->title, begun->begin.work->plan->n_swatches);
    if (begun->begin.fit.class_s > 0) {
        sl_plan_fit_each(&begun->begin.fit, give_line, stdout);
    }
    return sl_log_receipt_out(error);
}

static bool begin(sl_new_asked *asked, const sl_scene *scene, const char *path, const sl_resolver *resolver,
                  sl_error *error)
{
    sl_begun begun = {.begin = {.log = asked->word[0],
                                .scene = path,
                                .title = asked->title,
                                .operator_code = asked->operator_code,
                                .resolver = resolver,
                                .work = &asked->work,
                                .receipt = give_receipt,
                                .self = &begun},
                      .title = asked->title ? asked->title : sl_scene_title(scene)};
    return sl_begin_log_now(&begun.begin, scene, error);
}

sl_exit sl_command_log_new(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_new_asked asked = {.work = sl_plan_work_begin()};
    sl_places places;
    char path[SL_PLACES_PATH];
    bool good = read_asked(&asked, argc, argv, &error) &&
                sl_places_find(&places, asked.models, asked.word[1], &error) &&
                sl_places_scene(&places, asked.word[1], path, &error);
    if (good) {
        sl_folders folders = {.folders = places.folders, .n_folders = places.n_folders};
        const sl_resolver resolver = sl_resolver_of_folders(&folders);
        sl_scene *const scene = sl_scene_load(path, &resolver, &error);
        good = scene && begin(&asked, scene, path, &resolver, &error);
        sl_plan_work_free(&asked.work);
        sl_scene_free(scene);
    }
    return good ? sl_finish_output(true) : sl_complain(&error);
}
