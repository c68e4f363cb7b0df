/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift run`: a scene to a table, CSV or JSON.
 */
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/inputs.h"
#include "base/language.h"
#include "command/command.h"
#include "front/options.h"
#include "front/places.h"
#include "front/times.h"
#include "front/viewing.h"
#include "slowlift/caution.h"
#include "slowlift/estimate.h"
#include "slowlift/leave.h"
#include "slowlift/limits.h"
#include "slowlift/report.h"
#include "slowlift/timeline.h"

typedef enum sl_run_form { SL_FORM_TABLE, SL_FORM_CSV, SL_FORM_JSON } sl_run_form;

/* What was asked for. */
typedef struct sl_run_request {
    const char *file, *models, *output, *zone, *between, *and;
    sl_run_form form;
    bool form_given, from_contact, colours;
    sl_viewing viewing;
    double share;
    sl_times times;
} sl_run_request;

/* What it takes to answer; freed in one place. */
typedef struct sl_run_answer {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics, *dry;
    sl_timeline *timeline;
} sl_run_answer;

static const struct option options[] = {
    {"at", required_argument, NULL, 'a'},      {"clock", required_argument, NULL, 'k'},
    {"zone", required_argument, NULL, 'z'},    {"share", required_argument, NULL, 's'},
    {"csv", no_argument, NULL, 'c'},           {"json", no_argument, NULL, 'j'},
    {"light", required_argument, NULL, 'l'},   {"observer", required_argument, NULL, 'v'},
    {"look", required_argument, NULL, 'w'},    {"colours", no_argument, NULL, 'C'},
    {"between", required_argument, NULL, 'b'}, {"and", required_argument, NULL, 'n'},
    {"output", required_argument, NULL, 'o'},  {"models", required_argument, NULL, 'm'},
    {"help", no_argument, NULL, 'h'},          {NULL, 0, NULL, 0}};

/* ---- the command line ---------------------------------------------------------------- */

static bool read_clock(const char *word, bool *from_contact, sl_error *error)
{
    static const char *const known[] = {"scene", "contact"};
    for (int i = 0; i < 2; i++) {
        if (strcmp(word, known[i]) == 0) {
            *from_contact = i == 1;
            return true;
        }
    }
    return sl_word_refused("the clock", word, known, 2, error);
}

static bool set_form(sl_run_request *request, sl_run_form form, sl_error *error)
{
    if (request->form_given && request->form != form) {
        return sl_fail(error, SL_ERR_USAGE, "--csv and --json together", "ask for one of them");
    }
    request->form = form;
    request->form_given = true;
    return true;
}

static bool read_option(sl_run_request *request, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        return sl_times_read(&request->times, optarg, error);
    case 'k':
        return read_clock(optarg, &request->from_contact, error);
    case 'z':
        request->zone = optarg;
        return true;
    case 's':
        return sl_share_read(optarg, &request->share, error);
    case 'c':
        return set_form(request, SL_FORM_CSV, error);
    case 'j':
        return set_form(request, SL_FORM_JSON, error);
    case 'l':
        return sl_light_read(optarg, &request->viewing, error);
    case 'v':
        return sl_observer_read(optarg, &request->viewing, error);
    case 'w':
        return sl_look_read(optarg, &request->viewing, error);
    case 'C':
        request->colours = true;
        return true;
    case 'b':
        request->between = optarg;
        return true;
    case 'n':
        request->and = optarg;
        return true;
    case 'o':
        request->output = optarg;
        return true;
    case 'm':
        request->models = optarg;
        return true;
    default:
        return sl_option_refused("slowlift run", option, argv, options, error);
    }
}

/* Words are for the table; the forms for machines hold the numbers behind them. */
static bool agrees(const sl_run_request *request, sl_error *error)
{
    if ((request->between != NULL) != (request->and != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "two zones are compared, and one was named",
                       "write --between ARM/ZONE --and ARM/ZONE");
    }
    if (request->form != SL_FORM_TABLE && (request->colours || request->between != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "colours in words, in a form for machines",
                       "leave out --csv and --json");
    }
    return true;
}

static bool read_request(sl_run_request *request, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(request, option, argv, error)) {
            return false;
        }
    }
    return agrees(request, error) && sl_output_named(request->output, error) &&
           sl_one_file("slowlift run", argc, argv, &request->file, error);
}

/* ---- what the request means for this scene ------------------------------------------- */

/* A table of the start would say nothing; a machine wants it. */
static bool settle_times(sl_run_request *request, const sl_scene *scene, sl_error *error)
{
    static const double usual[] = {0.0, 5.0, 10.0, 20.0, 30.0};
    const int first = request->form == SL_FORM_TABLE ? 1 : 0;
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
    return request->form == SL_FORM_TABLE ||
           sl_swatches_only(scene,
                            "leave out --csv and --json: the table compares the arms at the same colour left",
                            error);
}

static bool compute(sl_run_answer *answer, sl_run_request *request, sl_error *error)
{
    sl_places places;
    answer->scene = sl_places_load(&places, request->models, request->file, error);
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
    return answer->optics != NULL && (answer->dry != NULL || !request->colours) &&
           sl_timeline_solve(&answer->timeline, answer->scene, request->times.min, (int)request->times.n,
                             answer->solver, answer->optics, error) &&
           (request->form != SL_FORM_TABLE || sl_limits_prepare(answer->timeline, answer->solver, error));
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
    return request->output == NULL && isatty(STDOUT_FILENO) == 1 && !refused && !plain;
}

/* Columns of the terminal between 60 and 100; 100 when stdout is none. */
static int page_width(const sl_run_request *request)
{
    const int most = 100, least = 60;
    struct winsize size;
    if (request->output != NULL || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) {
        return most;
    }
    const int columns = size.ws_col;
    return columns > most ? most : columns < least ? least : columns;
}

/* What is written, and how. */
typedef struct sl_run_result {
    const sl_run_request *request;
    const sl_run_answer *answer;
    const sl_report_options *asked;
} sl_run_result;

static bool write_form(FILE *out, const void *what)
{
    const sl_run_result *const result = what;
    const sl_run_answer *const answer = result->answer;
    const sl_report_options *const asked = result->asked;
    switch (result->request->form) {
    case SL_FORM_CSV:
        return sl_report_csv(out, answer->timeline, answer->optics, asked);
    case SL_FORM_JSON:
        return sl_report_json(out, answer->timeline, answer->optics, asked);
    case SL_FORM_TABLE:
    default:
        return sl_report_table(out, answer->timeline, answer->optics, asked);
    }
}

/* CSV has no place for what must be said, so it is said beside it. */
static void put_notes(const sl_run_request *request, const sl_run_answer *answer)
{
    if (request->form != SL_FORM_CSV) {
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
            fprintf(stderr, _("slowlift: note: no rows for an arm: %s\n"), note);
        }
    }
}

sl_exit sl_command_run(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_run_request request = {.share = sl_report_options_default().share};
    sl_run_answer answer = {.scene = NULL};
    sl_report_options asked = sl_report_options_default();
    sl_exit code = SL_EXIT_OK;
    if (read_request(&request, argc, argv, &error) && compute(&answer, &request, &error) &&
        find_zone(&request, answer.scene, &asked.zone, &error) &&
        find_spots(&request, answer.scene, &asked, &error)) {
        asked.colour = wants_colour(&request);
        asked.width = page_width(&request);
        asked.share = request.share;
        asked.from_contact = request.from_contact;
        asked.viewing = request.viewing;
        asked.dry = answer.dry;
        put_notes(&request, &answer);
        const sl_run_result result = {&request, &answer, &asked};
        code = sl_write_result(request.output, write_form, &result);
    } else {
        code = sl_complain(&error);
    }
    free_answer(&answer);
    sl_times_free(&request.times);
    return code;
}
