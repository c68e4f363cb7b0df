/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift search`: mixes to try on a strand, among those that the label allows.
 */
#include <string.h>

#include "command/command.h"
#include "document/renderers.h"
#include "front/options.h"
#include "front/places.h"
#include "report/rank/search.h"

typedef struct sl_search_asked {
    const char *file;
    const char *allowed[SL_MAX_ARMS];
    int n_allowed;
    sl_result_wish result;
} sl_search_asked;

static const struct option options[] = {{"allowed", required_argument, NULL, 'a'},
                                        {"csv", no_argument, NULL, 'c'},
                                        {"json", no_argument, NULL, 'j'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

static bool read_option(sl_search_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        if (asked->n_allowed == SL_MAX_ARMS) {
            return sl_fail(error, SL_ERR_USAGE, "more --allowed than are read", "64 at most");
        }
        asked->allowed[asked->n_allowed++] = optarg;
        return true;
    default:
        return sl_result_option(&asked->result, option) ||
               sl_option_refused("slowlift search", option, argv, options, error);
    }
}

static bool read_asked(sl_search_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (!sl_result_settle(&asked->result, error)) {
        return false;
    }
    return sl_one_file("slowlift search", argc, argv, &asked->file, error);
}

/* What the user read on the label counts as if the mix's file said it. */
static bool allow(sl_scene *scene, const char *name, sl_error *error)
{
    const char *names[SL_MAX_ARMS];
    int n = 0;
    for (int i = 0; i < scene->n_mixes; i++) {
        if (strcmp(scene->mixes[i].name, name) == 0) {
            scene->mixes[i].label_allows = true;
            return true;
        }
        if (n < SL_MAX_ARMS) {
            names[n++] = scene->mixes[i].name;
        }
    }
    return sl_word_refused("the mix", name, names, n, error);
}

static bool compute(sl_scene *scene, const sl_search_asked *asked, sl_search *search, sl_error *error)
{
    for (int i = 0; i < asked->n_allowed; i++) {
        if (!allow(scene, asked->allowed[i], error)) {
            return false;
        }
    }
    sl_aims_assume(scene);
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver && sl_search_run(search, scene, solver, error);
    sl_solver_free(solver);
    return good;
}

/* What is written, and how. */
typedef struct sl_search_result {
    const sl_search_page *page;
    const sl_search_asked *asked;
} sl_search_result;

static bool write_form(FILE *out, const void *what)
{
    const sl_search_result *const result = what;
    const sl_search_page *const page = result->page;
    const sl_search_asked *const asked = result->asked;
    if (asked->result.csv || asked->result.json) {
        return asked->result.csv ? sl_search_csv(out, page) : sl_search_json(out, page);
    }
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_search_say(&document, page, &error);
    return sl_document_print(out, &document, NULL);
}

sl_exit sl_command_search(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_search_asked asked = {.file = NULL};
    sl_places places;
    sl_search search = {.best = -1};
    sl_scene *scene = read_asked(&asked, argc, argv, &error)
                          ? sl_places_load(&places, asked.result.models, asked.file, &error)
                          : NULL;
    const sl_search_page page = {.scene = scene, .search = &search};
    const sl_search_result result = {&page, &asked};
    const sl_exit code = scene && compute(scene, &asked, &search, &error)
                             ? sl_write_result(asked.result.output, write_form, &result)
                             : sl_complain(&error);
    sl_scene_free(scene);
    return code;
}
