/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift-paper`, which `slowlift picture` starts: a scene to a sheet.
 */
#include <string.h>

#include "command/command.h"
#include "command/options.h"
#include "command/places.h"
#include "command/times.h"
#include "command/viewing.h"
#include "paper/canvas.h"
#include "slowlift/paper.h"
#include "slowlift/report.h"

static const struct option options[] = {{"at", required_argument, NULL, 'a'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"light", required_argument, NULL, 'l'},
                                        {"observer", required_argument, NULL, 'v'},
                                        {"look", required_argument, NULL, 'w'},
                                        {"models", required_argument, NULL, 'm'},
                                        {NULL, 0, NULL, 0}};
static const char program[] = "slowlift picture";

typedef struct sl_request {
    const char *file, *models, *output;
    sl_viewing viewing;
    sl_times times;
} sl_request;

/* What it takes to draw; freed in one place. */
typedef struct sl_drawing {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics;
    sl_timeline *timeline;
} sl_drawing;

static bool read_option(sl_request *request, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        return sl_times_read(&request->times, optarg, error);
    case 'l':
        return sl_light_read(optarg, &request->viewing, error);
    case 'v':
        return sl_observer_read(optarg, &request->viewing, error);
    case 'w':
        return sl_look_read(optarg, &request->viewing, error);
    case 'o':
        request->output = optarg;
        return true;
    case 'm':
        request->models = optarg;
        return true;
    default:
        return sl_option_refused(program, option, argv, options, error);
    }
}

static bool read_request(sl_request *request, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":o:", options, NULL)) != -1) {
        if (!read_option(request, option, argv, error)) {
            return false;
        }
    }
    if (request->output == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "no picture was named",
                       "say where it goes: -o sheet.png, sheet.svg or sheet.pdf");
    }
    sl_paper_kind kind = SL_PAPER_PNG;
    return sl_paper_kind_of(request->output, &kind, error) &&
           sl_one_file(program, argc, argv, &request->file, error);
}

static bool draw(sl_drawing *drawing, sl_request *request, sl_error *error)
{
    static const double usual[] = {0.0, 5.0, 10.0, 20.0, 30.0};
    sl_places places;
    drawing->scene = sl_places_load(&places, request->models, request->file, error);
    if (drawing->scene == NULL ||
        !sl_times_settle(&request->times, usual, 5, drawing->scene->until_min, error)) {
        return false;
    }
    drawing->solver = sl_solver_new(error);
    drawing->optics =
        drawing->solver != NULL ? sl_optics_new_for(drawing->scene, request->viewing, error) : NULL;
    const int n_times = (int)request->times.n;
    return drawing->optics != NULL &&
           sl_timeline_solve(&drawing->timeline, drawing->scene, request->times.min, n_times, drawing->solver,
                             drawing->optics, error) &&
           sl_paper_sheet(request->output, drawing->timeline, drawing->optics, request->viewing,
                          request->times.min, n_times, error);
}

int main(int argc, char **argv)
{
    sl_start();
    sl_error error = {.code = SL_OK};
    sl_request request = {.file = NULL};
    sl_drawing drawing = {.scene = NULL};
    sl_exit code = SL_EXIT_OK;
    if (!read_request(&request, argc, argv, &error) || !draw(&drawing, &request, &error)) {
        code = sl_complain(&error);
    }
    sl_timeline_free(drawing.timeline);
    sl_optics_free(drawing.optics);
    sl_solver_free(drawing.solver);
    sl_scene_free(drawing.scene);
    sl_times_free(&request.times);
    sl_paper_end();
    return (int)code;
}
