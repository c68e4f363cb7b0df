/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the lines of a test do by the very functions of the commands: plan, log new, report, and papers.
 */
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"
#include "front/work/new_log.h"
#include "front/work/report_work.h"
#include "view/start/start.h"

static const char OPERATOR[] = "op-1"; /* a code, never a name; another one is log new's to say */

static const sl_my_test *test_of(const sl_start_page *start)
{
    return &start->my.test[start->test];
}

/* A document that only says why there is none. */
static void say_why(sl_document *document, const char *title, const sl_error *why, sl_error *error)
{
    char text[SL_START_ABOUT];
    sl_error_sentence(why, text, sizeof text);
    sl_document_begin(document, "why", title, error);
    sl_document_say(document, "%s", text);
    sl_document_end(document, SL_ON_NOTHING);
}

/* ---- the day ----------------------------------------------------------------------------------------------
 */

bool sl_start_begin_day(sl_start_page *start, sl_error *error)
{
    sl_my_test *const test = &start->my.test[start->test];
    char scene_path[SL_SETTLED_PATH], log_path[SL_SETTLED_PATH];
    sl_my_path(&start->my, test->name, ".yaml", scene_path);
    sl_my_path(&start->my, test->name, ".db", log_path);
    if (access(log_path, F_OK) == 0) {
        return sl_fail_at(error, SL_ERR_CANNOT_WRITE, log_path, 0, 0, _("it is there already"),
                          _("give that file another name"));
    }
    sl_places *const places = sl_new(1, sizeof *places, "beginning a test", error);
    if (places == NULL || !sl_places_find(places, start->models, scene_path, error)) {
        sl_free(places);
        return false;
    }
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_plan_work work = sl_plan_work_begin();
    sl_begin_log begin = {.log = log_path,
                          .scene = scene_path,
                          .operator_code = OPERATOR,
                          .resolver = &resolver,
                          .work = &work};
    sl_scene *const scene = sl_scene_load(scene_path, &resolver, error);
    const bool good = scene != NULL && sl_begin_log_now(&begin, scene, error);
    if (good) {
        snprintf(test->log, sizeof test->log, "%.240s.db", test->name);
        memcpy(test->id, begin.id, sizeof test->id);
    }
    sl_plan_work_free(&work);
    sl_scene_free(scene);
    sl_free(places);
    return good;
}

/* ---- what is read -----------------------------------------------------------------------------------------
 */

/* The scene by its file, or as the log kept it. */
static sl_scene *scene_of(const sl_start_page *start, sl_error *error)
{
    const sl_my_test *const test = test_of(start);
    char path[SL_SETTLED_PATH];
    sl_my_path(&start->my, test->scene ? test->name : test->log, test->scene ? ".yaml" : "", path);
    if (!test->scene) {
        sl_log *log = NULL;
        sl_scene *const scene =
            sl_log_open(&log, path, SL_LOG_READ, error) ? sl_log_scene(log, test->id, error) : NULL;
        sl_log_close(log);
        return scene;
    }
    sl_places *const places = sl_new(1, sizeof *places, "planning", error);
    sl_scene *const scene = places != NULL ? sl_places_load(places, start->models, path, error) : NULL;
    sl_free(places);
    return scene;
}

void sl_start_say_plan(const sl_start_page *start, sl_document *document, sl_error *error)
{
    sl_error why = {.code = SL_OK};
    sl_plan_work work = sl_plan_work_begin();
    sl_scene *const scene = scene_of(start, &why);
    sl_solver *const solver = scene != NULL ? sl_solver_new(&why) : NULL;
    if (solver != NULL && sl_plan_work_compute(&work, scene, solver, false, &why)) {
        sl_plan_say(document, &work.page, error);
    } else {
        say_why(document, _("Plan"), &why, error);
    }
    sl_plan_work_free(&work);
    sl_solver_free(solver);
    sl_scene_free(scene);
}

void sl_start_say_report(const sl_start_page *start, sl_document *document, sl_error *error)
{
    sl_error why = {.code = SL_OK};
    char path[SL_SETTLED_PATH];
    sl_my_path(&start->my, test_of(start)->log, "", path);
    sl_report_work *const work = sl_new(1, sizeof *work, "reporting", &why);
    if (work != NULL) {
        work->log = path;
        work->test = test_of(start)->id;
    }
    if (work != NULL && sl_report_work_compute(work, &why)) {
        work->say(document, work->of, error);
    } else {
        say_why(document, _("Report"), &why, error);
    }
    if (work != NULL) {
        sl_report_work_free(work);
        sl_free(work);
    }
}

/* ---- papers
 * ------------------------------------------------------------------------------------------------- */

static void word(sl_papers_command *command, const char *text)
{
    if (command->n < SL_PAPERS_WORDS) {
        snprintf(command->word[command->n++], SL_SETTLED_PATH, "%s", text);
    }
}

/* `verb` of a scene or a log, into a file or folder called after the test and what it is, never over one. */
static bool order(sl_start_page *start, const char *verb, const char *from, const char *what, const char *end,
                  sl_error *error)
{
    const sl_my_test *const test = test_of(start);
    sl_papers_command *const command = sl_papers_add(&start->papers, error);
    char path[SL_SETTLED_PATH], named[SL_SHELF_NAME], name[SL_SHELF_NAME];
    if (command == NULL) {
        return false;
    }
    word(command, verb);
    sl_my_path(&start->my, from, from == test->name ? ".yaml" : "", path);
    word(command, path);
    if (from == test->log) {
        word(command, "--test");
        word(command, test->id);
    } else if (start->models != NULL) {
        word(command, "--models");
        word(command, start->models);
    }
    snprintf(named, sizeof named, "%.180s-%.40s", test->name, what);
    sl_my_free_name(&start->my, named, end, name);
    sl_my_path(&start->my, name, end, path);
    word(command, "-o");
    word(command, path);
    return true;
}

void sl_start_print(sl_start_page *start)
{
    const sl_my_test *const test = test_of(start);
    sl_error error = {.code = SL_OK};
    if (sl_papers_busy(&start->papers)) {
        return;
    }
    const bool good = (!test->scene || (order(start, "pack", test->name, "papers", "", &error) &&
                                        order(start, "picture", test->name, "picture", ".png", &error) &&
                                        order(start, "answer", test->name, "answer", ".pdf", &error))) &&
                      (!sl_start_possible(start, SL_START_REPORT) ||
                       order(start, "report", test->log, "report", ".pdf", &error));
    if (!good) {
        sl_papers_end(&start->papers);
        sl_start_tell(start, &error);
    } else {
        snprintf(start->said, sizeof start->said, "%s", _("The papers are being printed …"));
    }
}
