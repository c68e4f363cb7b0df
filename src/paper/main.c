/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift-paper`, which `slowlift picture` starts: a scene to a sheet,
 * a picture, numbered pictures or an animation. `slowlift rank` and `slowlift map` start it too,
 * by their own names, for charts, and `slowlift pack` for a class.
 */
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/program.h"
#include "front/complain.h"
#include "front/language.h"
#include "front/options.h"
#include "front/places.h"
#include "front/times.h"
#include "front/viewing.h"
#include "front/work/compare_work.h"
#include "front/work/ensemble.h"
#include "front/work/map_work.h"
#include "front/work/pack_work.h"
#include "front/work/rank_work.h"
#include "paper/charts/chart.h"
#include "paper/draw/canvas.h"
#include "paper/folder.h"
#include "paper/pack/pack.h"
#include "slowlift/paper.h"
#include "slowlift/report.h"

static const struct option options[] = {
    {"at", required_argument, NULL, 'a'},       {"output", required_argument, NULL, 'o'},
    {"frames", required_argument, NULL, 'f'},   {"size", required_argument, NULL, 's'},
    {"each", required_argument, NULL, 'e'},     {"light", required_argument, NULL, 'l'},
    {"observer", required_argument, NULL, 'v'}, {"look", required_argument, NULL, 'w'},
    {"theme", required_argument, NULL, 'D'},    {"vision", required_argument, NULL, 'V'},
    {"models", required_argument, NULL, 'm'},   {NULL, 0, NULL, 0}};
static const char program[] = "slowlift picture";
enum { LEAST_EACH_MS = 20, USUAL_EACH_MS = 500, MOST_EACH_MS = 60000 };

typedef struct sl_paper_request {
    const char *file, *models, *output, *frames;
    sl_paper_size size; /* all zero: a sheet, or the usual size of a frame */
    int each_ms;
    sl_viewing viewing;
    sl_vision vision;
    bool dark;
    sl_times times;
} sl_paper_request;

/* What it takes to draw; freed in one place. */
typedef struct sl_drawing {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *dry, *wet; /* the one that no strip needs stays NULL */
    sl_timeline *timeline;
} sl_drawing;

static bool read_size(sl_paper_size *size, const char *text, sl_error *error)
{
    char rest = '\0';
    const bool reads = sscanf(text, "%5dx%5d%c", &size->width, &size->height, &rest) == 2;
    const int least = size->width < size->height ? size->width : size->height;
    const int most = size->width < size->height ? size->height : size->width;
    if (reads && least >= SL_PAPER_LEAST && most <= SL_PAPER_MOST) {
        return true;
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--size %.80s does not fit"), text);
    return sl_fail(error, SL_ERR_USAGE, found, "write it as 1280x720, each from 480 to 8192");
}

/* "500ms" or "2s". */
static bool read_each(int *each_ms, const char *text, sl_error *error)
{
    int number = 0, used = 0;
    if (sscanf(text, "%5d %n", &number, &used) == 1) {
        const bool seconds = strcmp(text + used, "s") == 0;
        *each_ms = seconds ? 1000 * number : number;
        if ((seconds || strcmp(text + used, "ms") == 0) && *each_ms >= LEAST_EACH_MS &&
            *each_ms <= MOST_EACH_MS) {
            return true;
        }
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--each %.80s does not fit"), text);
    return sl_fail(error, SL_ERR_USAGE, found, "write it as 500ms or 2s, from 20ms to 60s");
}

static bool read_theme(bool *dark, const char *word, sl_error *error)
{
    static const char *const known[] = {"light", "dark"};
    *dark = strcmp(word, known[1]) == 0;
    return *dark || strcmp(word, known[0]) == 0 || sl_word_refused("the theme", word, known, 2, error);
}

static bool read_eyes(sl_paper_request *request, int option, sl_error *error)
{
    switch (option) {
    case 'l':
        return sl_light_read(optarg, &request->viewing, error);
    case 'v':
        return sl_observer_read(optarg, &request->viewing, error);
    case 'w':
        return sl_lying_look_read(optarg, &request->viewing, error);
    default:
        return sl_vision_read(optarg, &request->vision, error);
    }
}

static bool read_option(sl_paper_request *request, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        return sl_times_read(&request->times, optarg, error);
    case 's':
        return read_size(&request->size, optarg, error);
    case 'e':
        return read_each(&request->each_ms, optarg, error);
    case 'D':
        return read_theme(&request->dark, optarg, error);
    case 'l':
    case 'v':
    case 'w':
    case 'V':
        return read_eyes(request, option, error);
    case 'o':
        request->output = optarg;
        return true;
    case 'f':
        request->frames = optarg;
        return true;
    case 'm':
        request->models = optarg;
        return true;
    default:
        return sl_option_refused(program, option, argv, options, error);
    }
}

static bool is_film(const char *path)
{
    static const char end[] = ".webp";
    const size_t length = strlen(path), tail = sizeof end - 1;
    return length > tail && strcmp(path + length - tail, end) == 0;
}

/* Options that contradict each other. */
static bool check_request(const sl_paper_request *request, sl_error *error)
{
    if (request->output == NULL && request->frames == NULL) {
        return sl_fail(
            error, SL_ERR_USAGE, "no picture was named",
            "say where it goes: -o sheet.png, sheet.svg, sheet.pdf or film.webp, or --frames FOLDER");
    }
    if (request->output != NULL && request->frames != NULL) {
        return sl_fail(error, SL_ERR_USAGE, "both -o and --frames", "draw one after the other");
    }
    const bool film = request->output != NULL && is_film(request->output);
    if (request->each_ms > 0 && !film) {
        return sl_fail(error, SL_ERR_USAGE, "--each without an animation", "end the name of -o in .webp");
    }
    if (request->output != NULL && !film && request->size.width > 0 && request->times.n != 1) {
        return sl_fail(error, SL_ERR_USAGE, "a picture with --size shows one moment",
                       "say which: --at 20min; or ask for --frames FOLDER or -o film.webp");
    }
    if (request->dark && request->frames == NULL && !film && request->size.width == 0) {
        return sl_fail(error, SL_ERR_USAGE, "a dark sheet", "sheets are for paper; give --size for a screen");
    }
    sl_paper_kind kind = SL_PAPER_PNG;
    return request->output == NULL || film || sl_paper_kind_of(request->output, &kind, error);
}

static bool read_request(sl_paper_request *request, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(request, option, argv, error)) {
            return false;
        }
    }
    return check_request(request, error) && sl_output_named(request->output, error) &&
           sl_output_named(request->frames, error) &&
           (request->frames == NULL || sl_folder_check(request->frames, error)) &&
           sl_one_file(program, argc, argv, &request->file, error);
}

static bool make_optics(sl_drawing *drawing, const sl_paper_request *request, sl_error *error)
{
    sl_viewing viewing = request->viewing;
    if (request->viewing.look != SL_LOOK_WET) {
        viewing.look = SL_LOOK_DRY;
        drawing->dry = sl_optics_new_for(drawing->scene, viewing, error);
    }
    if (request->viewing.look != SL_LOOK_DRY) {
        viewing.look = SL_LOOK_WET;
        drawing->wet = sl_optics_new_for(drawing->scene, viewing, error);
    }
    return (drawing->dry != NULL || request->viewing.look == SL_LOOK_WET) &&
           (drawing->wet != NULL || request->viewing.look == SL_LOOK_DRY);
}

static bool publish(const sl_drawing *drawing, const sl_paper_request *request, sl_error *error)
{
    const sl_paper_view view = {.timeline = drawing->timeline,
                                .dry = drawing->dry,
                                .wet = drawing->wet,
                                .viewing = request->viewing,
                                .vision = request->vision,
                                .dark = request->dark};
    const sl_paper_size usual = {1280, 720};
    const sl_paper_size size = request->size.width > 0 ? request->size : usual;
    const double *times = request->times.min;
    const int n = (int)request->times.n;
    if (request->frames != NULL) {
        return sl_paper_frames(request->frames, &view, size, times, n, error);
    }
    if (is_film(request->output)) {
        const int each_ms = request->each_ms > 0 ? request->each_ms : USUAL_EACH_MS;
        return sl_paper_film(request->output, &view, size, times, n, each_ms, error);
    }
    if (request->size.width > 0) {
        return sl_paper_picture(request->output, &view, size, times[0], error);
    }
    return sl_paper_sheet(request->output, &view, times, n, error);
}

static bool draw(sl_drawing *drawing, sl_paper_request *request, sl_error *error)
{
    static const double usual[] = {0.0, 5.0, 10.0, 20.0, 30.0};
    sl_places places;
    drawing->scene = sl_places_load(&places, request->models, request->file, error);
    if (drawing->scene == NULL ||
        !sl_times_settle(&request->times, usual, 5, drawing->scene->until_min, error)) {
        return false;
    }
    drawing->solver = sl_solver_new(error);
    return drawing->solver != NULL && make_optics(drawing, request, error) &&
           sl_timeline_solve(&drawing->timeline, drawing->scene, NULL, 0, drawing->solver, NULL, error) &&
           publish(drawing, request, error);
}

/* The zone that is drawn when none was named: the first with a direct dye that ranks an arm. */
static int zone_drawn(const sl_rank_work *work)
{
    const sl_rank_page page = {.timeline = work->timeline, .rank = work->rank, .only = work->zone};
    int zone = 0;
    while (zone < work->rank->n_zones - 1 && !sl_rank_shows(&page, zone)) {
        zone++;
    }
    return zone;
}

static sl_exit draw_ranks(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_rank_work work = {.file = NULL};
    bool good = sl_rank_work_read(&work, argc, argv, &error) && sl_rank_work_compute(&work, &error);
    if (good) {
        const sl_rank_page page = {.timeline = work.timeline, .rank = work.rank, .only = work.zone};
        good = sl_paper_ranks(work.result.picture, &page, zone_drawn(&work), &error);
    }
    sl_exit code = good ? SL_EXIT_OK : sl_complain(&error);
    if (work.rank && work.rank->stopped) {
        code = sl_partial_said(work.rank->members, work.request.members, code);
    }
    sl_rank_work_free(&work);
    return code;
}

/* The zone that was asked for, else the first that has anything to show. */
static int zone_seen(const sl_seen_curves *curves, int asked)
{
    int order[SL_MAX_ARMS], zone = 0;
    while (zone < curves->compare->scene->n_zones - 1 && sl_seen_order(curves, zone, order) == 0) {
        zone++;
    }
    return asked >= 0 ? asked : zone;
}

static sl_exit draw_seen(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_compare_work work = {.log = NULL};
    bool good = sl_compare_work_read(&work, argc, argv, &error) && sl_compare_work_compute(&work, &error);
    sl_seen_curves *const curves = good ? sl_seen_curves_make(work.compare, &error) : NULL;
    good = curves && sl_paper_seen(work.result.picture, curves, zone_seen(curves, work.zone), &error);
    sl_seen_curves_free(curves);
    sl_compare_work_free(&work);
    return good ? sl_compare_work_end(&work, SL_EXIT_OK) : sl_complain(&error);
}

static sl_exit draw_map(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_map_work work = {.file = NULL};
    bool good = sl_map_work_read(&work, argc, argv, &error) && sl_map_work_compute(&work, &error);
    if (good) {
        const sl_map_page page = {.scene = work.scene, .map = work.map, .shows = work.shows};
        good = sl_paper_map(work.result.picture, &page, &error);
    }
    sl_map_work_free(&work);
    return good ? SL_EXIT_OK : sl_complain(&error);
}

static sl_exit print_pack(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_pack_work work = sl_pack_work_begin();
    bool good = sl_pack_work_read(&work, argc, argv, &error) && sl_folder_check(work.output, &error) &&
                sl_pack_work_compute(&work, &error);
    if (good) {
        const sl_pack pack = {.page = &work.plan.page,
                              .dry = work.dry,
                              .map = work.map,
                              .format = sl_paper_formats[work.letter ? SL_PAPER_LETTER : SL_PAPER_A4],
                              .language = sl_language()};
        good = sl_paper_pack(work.output, &pack, &error);
    }
    sl_pack_work_free(&work);
    return good ? SL_EXIT_OK : sl_complain(&error);
}

static sl_exit draw_strips(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_paper_request request = {.file = NULL};
    sl_drawing drawing = {.scene = NULL};
    sl_exit code = SL_EXIT_OK;
    if (!read_request(&request, argc, argv, &error) || !draw(&drawing, &request, &error)) {
        code = sl_complain(&error);
    }
    sl_timeline_free(drawing.timeline);
    sl_optics_free(drawing.dry);
    sl_optics_free(drawing.wet);
    sl_solver_free(drawing.solver);
    sl_scene_free(drawing.scene);
    sl_times_free(&request.times);
    return code;
}

/* What GLib says before it ends the program; `slowlift` says it better. */
static void keep_last_words(const char *domain, GLogLevelFlags level, const char *message, void *data)
{
    if ((level & G_LOG_FLAG_FATAL) == 0) {
        g_log_default_handler(domain, level, message, data);
    }
}

int main(int argc, char **argv)
{
    sl_program_start();
    g_log_set_default_handler(keep_last_words, NULL);
    sl_inputs_watch();
    sl_error error = {.code = SL_OK};
    if (!sl_language_start(&argc, argv, &error)) {
        return (int)sl_complain(&error);
    }
    const char *const name = argc > 0 ? argv[0] : "";
    return (int)(strcmp(name, "rank") == 0      ? draw_ranks(argc, argv)
                 : strcmp(name, "compare") == 0 ? draw_seen(argc, argv)
                 : strcmp(name, "map") == 0     ? draw_map(argc, argv)
                 : strcmp(name, "pack") == 0    ? print_pack(argc, argv)
                                                : draw_strips(argc, argv));
}
