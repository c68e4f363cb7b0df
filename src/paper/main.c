/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift-paper`, which `slowlift picture` starts: a scene to a sheet,
 * a picture, numbered pictures or an animation. `rank`, `compare` and `map` start it too, by their own names,
 * for charts, `pack` for a class, and every command that tells a document for its pages.
 */
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "base/program.h"
#include "command/command.h"
#include "front/complain.h"
#include "front/language.h"
#include "front/places.h"
#include "front/tell.h"
#include "front/work/compare_work.h"
#include "front/work/ensemble.h"
#include "front/work/map_work.h"
#include "front/work/pack_work.h"
#include "front/work/picture_work.h"
#include "front/work/rank_work.h"
#include "log/compare/seen_curves.h"
#include "paper/charts/chart.h"
#include "paper/draw/canvas.h"
#include "paper/folder.h"
#include "paper/pack/pack.h"
#include "paper/pages/pages.h"
#include "slowlift/paper.h"
#include "slowlift/report.h"

enum { USUAL_EACH_MS = 500 };

/* What it takes to draw; freed in one place. */
typedef struct sl_drawing {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *dry, *wet; /* the one that no strip needs stays NULL */
    sl_timeline *timeline;
} sl_drawing;

/* Where somebody looks on. */
static sl_exit say_written(const char *path, sl_exit code)
{
    if (code == SL_EXIT_OK && isatty(STDERR_FILENO) == 1) {
        char shown[512];
        sl_text_show(path, strlen(path), SL_TEXT_LINE, shown, sizeof shown);
        fprintf(stderr, _("slowlift: \"%s\" is written\n"), shown);
    }
    return code;
}

/* Which kind of picture its name asks for, and whether its folder will do. */
static bool can_be_drawn(const sl_picture_request *request, sl_error *error)
{
    sl_paper_kind kind = SL_PAPER_PNG;
    return request->frames != NULL
               ? sl_folder_check(request->frames, error)
               : sl_names_film(request->output) || sl_paper_kind_of(request->output, &kind, error);
}

static bool make_optics(sl_drawing *drawing, const sl_picture_request *request, sl_error *error)
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

static bool publish(const sl_drawing *drawing, const sl_picture_request *request, sl_error *error)
{
    const sl_paper_view view = {.timeline = drawing->timeline,
                                .dry = drawing->dry,
                                .wet = drawing->wet,
                                .viewing = request->viewing,
                                .vision = request->vision,
                                .dark = request->theme == 1};
    const sl_paper_size usual = {1280, 720};
    const sl_paper_size asked = {request->size.width, request->size.height};
    const sl_paper_size size = asked.width > 0 ? asked : usual;
    const double *times = request->times.min;
    const int n = (int)request->times.n;
    if (request->frames != NULL) {
        return sl_paper_frames(request->frames, &view, size, times, n, error);
    }
    if (sl_names_film(request->output)) {
        const int each_ms = request->each_ms > 0 ? request->each_ms : USUAL_EACH_MS;
        return sl_paper_film(request->output, &view, size, times, n, each_ms, error);
    }
    if (request->size.width > 0) {
        return sl_paper_picture(request->output, &view, size, times[0], error);
    }
    return sl_paper_sheet(request->output, &view, times, n, error);
}

static bool draw(sl_drawing *drawing, sl_picture_request *request, sl_error *error)
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

static sl_exit draw_ranks(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_rank_work work = {.file = NULL};
    sl_arena arena = {NULL};
    const sl_graph *graphs[SL_MAX_ZONES];
    int n = 0;
    bool good = sl_rank_work_read(&work, argc, argv, &error) && sl_rank_work_compute(&work, &error);
    const sl_rank_page page = {.timeline = work.timeline, .rank = work.rank, .only = work.zone};
    for (int zone = 0; good && zone < work.rank->n_zones; zone++) {
        if (sl_rank_shows(&page, zone) || (n == 0 && zone + 1 == work.rank->n_zones)) {
            graphs[n++] = sl_graph_of_rank(&arena, &page, zone, &error);
        }
    }
    good = good && sl_paper_graphs(work.result.picture, _("slowlift: strips compared"), graphs, n, &error);
    sl_exit code = good ? SL_EXIT_OK : sl_complain(&error);
    if (work.rank && work.rank->stopped) {
        code = sl_partial_said(work.rank->members, work.request.members, code);
    }
    sl_arena_free(&arena);
    sl_rank_work_free(&work);
    return say_written(work.result.picture, code);
}

static sl_exit draw_seen(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_compare_work work = {.log = NULL};
    sl_arena arena = {NULL};
    const sl_graph *graphs[SL_MAX_ZONES];
    int n = 0, order[SL_MAX_ARMS];
    bool good = sl_compare_work_read(&work, argc, argv, &error) && sl_compare_work_compute(&work, &error);
    sl_seen_curves *const curves = good ? sl_seen_curves_make(work.compare, &error) : NULL;
    const int n_zones = curves ? work.compare->scene->n_zones : 0;
    for (int zone = 0; zone < n_zones; zone++) {
        const bool seen = work.zone >= 0 ? zone == work.zone : sl_seen_order(curves, zone, order) > 0;
        if (seen || (n == 0 && zone + 1 == n_zones)) {
            graphs[n++] = sl_graph_of_seen(&arena, curves, zone, -1, &error);
        }
    }
    good = curves && sl_paper_graphs(work.result.picture, _("slowlift: what was seen"), graphs, n, &error);
    sl_seen_curves_free(curves);
    sl_arena_free(&arena);
    sl_compare_work_free(&work);
    return say_written(work.result.picture,
                       good ? sl_compare_work_end(&work, SL_EXIT_OK) : sl_complain(&error));
}

static bool print_pages(const char *path, const sl_document *document, sl_error *error)
{
    return sl_pages_save(path, document, sl_paper_formats[SL_PAPER_A4], error);
}

static sl_exit draw_map(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_map_work work = {.file = NULL};
    sl_arena arena = {NULL};
    bool good = sl_map_work_read(&work, argc, argv, &error) && sl_map_work_compute(&work, &error);
    if (good) {
        const sl_map_page page = {.scene = work.scene, .map = work.map, .shows = work.shows};
        const sl_graph *const graph = sl_graph_of_map(&arena, &page, &error);
        good = sl_paper_graphs(work.result.picture, _("slowlift: a map"), &graph, 1, &error);
    }
    sl_arena_free(&arena);
    sl_map_work_free(&work);
    return say_written(work.result.picture, good ? SL_EXIT_OK : sl_complain(&error));
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
                              .format = sl_paper_formats[work.paper == 1 ? SL_PAPER_LETTER : SL_PAPER_A4],
                              .language = sl_language()};
        good = sl_paper_pack(work.output, &pack, &error);
    }
    sl_pack_work_free(&work);
    return say_written(work.output, good ? SL_EXIT_OK : sl_complain(&error));
}

static sl_exit draw_strips(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_picture_request request = {.file = NULL};
    sl_drawing drawing = {.scene = NULL};
    sl_exit code = SL_EXIT_OK;
    if (!sl_picture_request_read(&request, argc, argv, &error) || !can_be_drawn(&request, &error) ||
        !draw(&drawing, &request, &error)) {
        code = sl_complain(&error);
    }
    sl_timeline_free(drawing.timeline);
    sl_optics_free(drawing.dry);
    sl_optics_free(drawing.wet);
    sl_solver_free(drawing.solver);
    sl_scene_free(drawing.scene);
    sl_times_free(&request.times);
    return say_written(request.frames ? request.frames : request.output, code);
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
    sl_program_stoppable();
    g_log_set_default_handler(keep_last_words, NULL);
    sl_inputs_watch();
    sl_error error = {.code = SL_OK};
    if (!sl_language_start(&argc, argv, &error)) {
        return (int)sl_complain(&error);
    }
    static const struct {
        const char *name;
        sl_exit (*run)(int argc, char **argv);
    } drawn[] = {{"rank", draw_ranks},
                 {"compare", draw_seen},
                 {"map", draw_map},
                 {"pack", print_pack},
                 {"picture", draw_strips}};
    const char *const name = argc > 0 ? argv[0] : "";
    for (size_t i = 0; i < sizeof drawn / sizeof drawn[0]; i++) {
        if (strcmp(name, drawn[i].name) == 0) {
            return (int)drawn[i].run(argc, argv);
        }
    }
    /* What tells a document prints its pages. */
    sl_tell_drawer = print_pages;
    const sl_command *const command = sl_command_of(name, sl_commands, sl_n_commands);
    return (int)(command ? command->run(argc, argv) : draw_strips(argc, argv));
}
