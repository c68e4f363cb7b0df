/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift search`: mixes to try on a strand, among those that the label allows.
 */
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "front/places.h"
#include "front/tell.h"
#include "report/rank/search.h"

typedef struct sl_search_allowed {
    const char *mix[SL_MAX_ARMS]; /* [n] */
    int n;
} sl_search_allowed;

typedef struct sl_search_asked {
    const char *file;
    sl_search_allowed allowed;
    double goal; /* 0: what the scene says */
    sl_result_wish result;
} sl_search_asked;

static bool read_allowed(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_search_allowed *const allowed = place;
    (void)option;
    if (allowed->n == SL_MAX_ARMS) {
        return sl_fail(error, SL_ERR_USAGE, "more --allowed than are read", "64 at most");
    }
    allowed->mix[allowed->n++] = text;
    return true;
}

static const sl_option options[] = {
    SL_OPTION(sl_search_asked, allowed, read_allowed, .name = "allowed", .value = N_("MIX"),
              .help =
                  N_("you read the label, and it allows this mix; as \"label_allows: yes\" in its file; as "
                     "often as there are such mixes")),
    SL_OPTION(sl_search_asked, goal, sl_option_share, .name = "goal", .value = N_("SHARE"),
              .help = N_("colour left to wait for, such as 25%, instead of the scene's")),
};
const sl_command_line sl_search_typed = {
    .name = "search",
    .line = N_("mixes to try on a strand, or none"),
    .usage = {N_("[--allowed MIX]... [OPTIONS] FILE")},
    .about =
        N_("Mixes to try on a strand: for each mix that is marked as allowed by its label, the strength and "
           "the time that reach the scene's goal with the least hair stress, inside every limit that it "
           "sets, without added heat, at most 12 %. Or none, and says so. Swatches on a bench only."),
    .set = {SL_OPTION_SET_OWN(options), SL_RESULT_SETS(sl_search_asked)},
    .words = SL_TYPED_WORDS(sl_search_asked, file, 1, 1),
    .example = {{N_("what might be tried first?"),
                 {"slowlift search eight-arms --allowed powder-3 --allowed powder-6"}}},
    .wants = {SL_WANTS_SCENE},
};

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
    for (int i = 0; i < asked->allowed.n; i++) {
        if (!allow(scene, asked->allowed.mix[i], error)) {
            return false;
        }
    }
    if (asked->goal > 0.0) {
        sl_aims_wait_for(scene, asked->goal);
    }
    sl_aims_assume(scene);
    sl_solver *const solver = sl_solver_new(error);
    const bool good = solver && sl_search_run(search, scene, solver, error);
    sl_solver_free(solver);
    return good;
}

sl_exit sl_command_search(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_search_asked asked = {.file = NULL};
    sl_places places;
    sl_search search = {.best = -1};
    sl_scene *scene = sl_options_read(&sl_search_typed, argc, argv, &asked, &error)
                          ? sl_places_load(&places, asked.result.models, asked.file, &error)
                          : NULL;
    const sl_search_page page = {.scene = scene, .search = &search};
    const bool good = scene && compute(scene, &asked, &search, &error);
    const sl_exit code = sl_tell(
        good, &error, &(sl_teller){.say = sl_search_say, .export = &sl_search_export}, &page, &asked.result);
    sl_scene_free(scene);
    return code;
}
