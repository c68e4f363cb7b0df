/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift run`: a scene to a table, CSV or JSON.
 */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "command/command.h"
#include "front/places.h"
#include "front/tell.h"
#include "front/times.h"
#include "front/viewing.h"
#include "report/run/table.h"
#include "slowlift/caution.h"
#include "slowlift/estimate.h"
#include "slowlift/leave.h"
#include "slowlift/limits.h"
#include "slowlift/report.h"
#include "slowlift/timeline.h"

/* What was asked for. */
typedef struct sl_run_request {
    const char *file, *zone, *between, *and;
    bool colours;
    int clock; /* place in clock_words */
    sl_viewing viewing;
    double share;
    sl_times times;
    sl_result_wish result;
} sl_run_request;

/* What it takes to answer; freed in one place. */
typedef struct sl_run_answer {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics, *dry;
    sl_timeline *timeline;
} sl_run_answer;

static const char *const clock_words[] = {"scene", "contact"};
static const sl_word_list clocks = {N_("the clock"), clock_words, 2};

static const sl_option options[] = {
    SL_OPTION(sl_run_request, times, sl_option_times, .name = "at", .value = N_("TIMES"),
              .help =
                  N_("when to look, such as 5min,10min or 0min..60min/1min (units: s, min, h); the usual: "
                     "5, 10, 20 and 30 min, and 0 min with --csv and --json")),
    SL_OPTION(sl_run_request, clock, sl_option_choice, .name = "clock", .value = N_("WORD"),
              .choice = &clocks,
              .help = N_("scene (one clock for all, the usual) or contact (each strip's own)")),
    SL_OPTION(sl_run_request, zone, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("zone of the comparison at the same colour left")),
    SL_OPTION(sl_run_request, share, sl_option_share, .name = "share", .value = N_("SHARE"),
              .help = N_("its colour left there, such as 50% (the usual)")),
    SL_OPTION(sl_run_request, colours, sl_option_flag, .name = "colours",
              .help = N_("colours in words too: level and tone by the scene's chart")),
    SL_OPTION(sl_run_request, between, sl_option_text, .name = "between", .value = N_("STRIP/ZONE"),
              .help = N_("a zone that is compared in words with the one of --and")),
    SL_OPTION(sl_run_request, and, sl_option_text, .name = "and", .value = N_("STRIP/ZONE"),
              .help = N_("the other one")),
    SL_OPTION(sl_run_request, viewing.look, sl_option_choice, .name = "look", .value = N_("WORD"),
              .help = N_("dry (the usual) or wet hair"), .choice = &sl_looks),
};
const sl_command_line sl_run_typed = {
    .name = "run",
    .line = N_("compute a scene: table, CSV or JSON"),
    .usage = {N_("[OPTIONS] FILE")},
    .about = N_("Computes a scene and prints a table: what each strip is, what is left of each zone's "
                "colour, how far base and hair have gone, and the strips at the same colour left."),
    .set = {SL_OPTION_SET_OWN(options), SL_OPTION_SET(sl_light_options, sl_viewing, sl_run_request, viewing),
            SL_RESULT_SETS(sl_run_request)},
    .words = SL_TYPED_WORDS(sl_run_request, file, 1, 1),
    .example = {{N_("what is left of each colour after 10 and 20 minutes?"),
                 {"slowlift run models/scenes/eight-arms.yaml --at 10min,20min"}},
                {N_("how do two strips differ, under a lamp?"),
                 {"slowlift run eight-arms --between \"powder + water/red\" --and \"powder + 6 %/red\" "
                  "--light lamp"}},
                {N_("every minute for a spreadsheet."),
                 {"slowlift run models/scenes/eight-arms.yaml --csv --at 0min..60min/1min -o arms.csv"}}},
    .wants = {SL_WANTS_SCENE},
};

static bool for_machines(const sl_run_request *request)
{
    return request->result.csv || request->result.json;
}

/* Words are for the table; the forms for machines hold the numbers behind them. */
static bool agrees(const sl_run_request *request, sl_error *error)
{
    if ((request->between != NULL) != (request->and != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "two zones are compared, and one was named",
                       "write --between STRIP/ZONE --and STRIP/ZONE");
    }
    if (for_machines(request) && (request->colours || request->between != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "colours in words, in a form for machines",
                       "leave out --csv and --json");
    }
    return true;
}

/* ---- what the request means for this scene ------------------------------------------- */

/* A table of the start would say nothing; a machine wants it. */
static bool settle_times(sl_run_request *request, const sl_scene *scene, sl_error *error)
{
    static const double usual[] = {0.0, 5.0, 10.0, 20.0, 30.0};
    const int first = for_machines(request) ? 0 : 1;
    return sl_times_settle(&request->times, usual + first, 5 - first, scene->until_min, error);
}

static bool find_zone(const sl_run_request *request, const sl_scene *scene, int *zone, sl_error *error)
{
    const char *titles[SL_MAX_ZONES];
    int n = 0;
    *zone = request->zone ? sl_scene_zone_typed(scene, request->zone) : -1;
    if (!request->zone || (*zone >= 0 && scene->zones[*zone].recipe.n_dyes > 0)) {
        return true;
    }
    for (int i = 0; i < scene->n_zones; i++) {
        if (scene->zones[i].recipe.n_dyes > 0) {
            titles[n++] = sl_zone_title(&scene->zones[i]);
        }
    }
    return sl_word_refused("the dyed zone", request->zone, titles, n, error);
}

static bool find_spots(const sl_run_request *request, const sl_scene *scene, sl_report_options *asked,
                       sl_error *error)
{
    asked->compare = request->between != NULL;
    return !asked->compare || (sl_spot_read(request->between, scene, &asked->between[0], error) &&
                               sl_spot_read(request->and, scene, &asked->between[1], error));
}

/* ---- computing ------------------------------------------------------------------------ */

/* A table for machines is by the minute; the one for people keeps order and factors on a head. */
static bool may_be_told(const sl_run_request *request, const sl_scene *scene, sl_error *error)
{
    return !for_machines(request) ||
           sl_swatches_only(
               scene, "leave out --csv and --json: the table compares the strips at the same colour left",
               error);
}

static bool compute(sl_run_answer *answer, sl_run_request *request, sl_error *error)
{
    sl_places places;
    answer->scene = sl_places_load(&places, request->result.models, request->file, error);
    if (answer->scene == NULL || !may_be_told(request, answer->scene, error) ||
        !settle_times(request, answer->scene, error)) {
        return false;
    }
    answer->solver = sl_solver_new(error);
    answer->optics =
        answer->solver != NULL ? sl_optics_new_for(answer->scene, request->viewing, error) : NULL;
    if (answer->optics != NULL && request->colours) {
        answer->dry = sl_optics_new(answer->scene, error);
    }
    /* The table reads cells; what is for machines is read moment by moment, and nothing of it is kept. */
    const int kept = for_machines(request) ? 0 : (int)request->times.n;
    return answer->optics != NULL && (answer->dry != NULL || !request->colours) &&
           sl_timeline_solve(&answer->timeline, answer->scene, request->times.min, kept, answer->solver,
                             answer->optics, error) &&
           (for_machines(request) || sl_limits_prepare(answer->timeline, answer->solver, error));
}

static void free_answer(sl_run_answer *answer)
{
    sl_timeline_free(answer->timeline);
    sl_optics_free(answer->optics);
    sl_optics_free(answer->dry);
    sl_solver_free(answer->solver);
    sl_scene_free(answer->scene);
}

/* ---- writing -------------------------------------------------------------------------- */

static bool wants_colour(const sl_run_request *request)
{
    const char *no_colour = getenv("NO_COLOR"), *terminal = getenv("TERM");
    const bool refused = no_colour != NULL && no_colour[0] != '\0';
    const bool plain = terminal == NULL || strcmp(terminal, "dumb") == 0;
    return request->result.output == NULL && request->result.picture == NULL && isatty(STDOUT_FILENO) == 1 &&
           !refused && !plain;
}

/* What is told. */
typedef struct sl_run_result {
    const sl_run_answer *answer;
    const sl_report_options *asked;
} sl_run_result;

static void say(sl_document *document, const void *of, sl_error *error)
{
    const sl_run_result *const result = of;
    sl_run_say(document, result->answer->timeline, result->answer->optics, result->asked, error);
}

static bool csv(FILE *out, const void *of)
{
    const sl_run_result *const result = of;
    return sl_report_csv(out, result->answer->timeline, result->answer->optics, result->asked);
}

static bool json(FILE *out, const void *of)
{
    const sl_run_result *const result = of;
    return sl_report_json(out, result->answer->timeline, result->answer->optics, result->asked);
}

/* CSV has no place for what must be said, so it is said beside it. */
static void put_notes(const sl_run_request *request, const sl_run_answer *answer)
{
    if (!request->result.csv) {
        return;
    }
    if (!sl_viewing_usual(request->viewing)) {
        char viewing[120];
        sl_viewing_words(request->viewing, viewing, sizeof viewing);
        fprintf(stderr, _("slowlift: note: colours are for %s; %s\n"), viewing, _(sl_not_calibrated));
    }
    for (int arm = 0; arm < answer->scene->n_arms; arm++) {
        if (!sl_timeline_predicted(answer->timeline, arm)) {
            char note[320];
            sl_outside_note(answer->scene, arm, note, sizeof note);
            fprintf(stderr, _("slowlift: note: no rows for a strip: %s\n"), note);
        }
    }
}

sl_exit sl_command_run(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_run_request request = {.share = sl_report_options_default().share};
    sl_run_answer answer = {.scene = NULL};
    sl_report_options asked = sl_report_options_default();
    const bool good = sl_options_read(&sl_run_typed, argc, argv, &request, &error) &&
                      agrees(&request, &error) && compute(&answer, &request, &error) &&
                      find_zone(&request, answer.scene, &asked.zone, &error) &&
                      find_spots(&request, answer.scene, &asked, &error);
    if (good) {
        asked.colour = wants_colour(&request);
        asked.share = request.share;
        asked.from_contact = request.clock == 1;
        asked.viewing = request.viewing;
        asked.dry = answer.dry;
        asked.times_min = request.times.min;
        asked.n_times = (int)request.times.n;
        put_notes(&request, &answer);
    }
    const sl_teller teller = {.say = say, .csv = csv, .json = json, .colour = asked.colour};
    const sl_exit code = sl_tell(good, &error, &teller, &(sl_run_result){&answer, &asked}, &request.result);
    free_answer(&answer);
    sl_times_free(&request.times);
    return code;
}
