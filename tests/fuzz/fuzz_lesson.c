/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a lesson, and the same bytes its Spanish: beside them lie the scenes of the shipped lesson
 * that its first line names ("# NAME"). Scenes are read and solved once and kept, with their ensemble: the
 * linker puts the functions named __wrap_... before the product's.
 */
#include "frame.h"

#include "slowlift/kinetics.h"
#include "slowlift/lesson.h"
#include "slowlift/spread.h"
#include "slowlift/timeline.h"

enum { MOST_SOLVED = 64, FEW_MEMBERS = 64 };

static struct {
    char path[512];
    sl_scene *scene;
    sl_timeline *timeline;
    sl_spread *spread; /* lessons ask for one number of members and one seed */
} solved[MOST_SOLVED];
static int n_solved;

/* Of the product's own types: where those change, this no longer compiles. */
__typeof__(sl_scene_load) __wrap_sl_scene_load, __real_sl_scene_load;
__typeof__(sl_timeline_solve) __wrap_sl_timeline_solve, __real_sl_timeline_solve;
__typeof__(sl_timeline_rinse) __wrap_sl_timeline_rinse, __real_sl_timeline_rinse;
__typeof__(sl_scene_free) __wrap_sl_scene_free, __real_sl_scene_free;
__typeof__(sl_timeline_free) __wrap_sl_timeline_free, __real_sl_timeline_free;
__typeof__(sl_spread_run) __wrap_sl_spread_run, __real_sl_spread_run;
__typeof__(sl_spread_free) __wrap_sl_spread_free, __real_sl_spread_free;

sl_scene *__wrap_sl_scene_load(const char *path, const sl_resolver *resolver, sl_error *error)
{
    for (int i = 0; i < n_solved; i++) {
        if (strcmp(solved[i].path, path) == 0) {
            return solved[i].scene;
        }
    }
    sl_scene *const scene = __real_sl_scene_load(path, resolver, error);
    if (scene && n_solved < MOST_SOLVED && strncmp(path, SLOWLIFT_SOURCE, sizeof SLOWLIFT_SOURCE - 1) == 0 &&
        strlen(path) < sizeof solved[0].path) {
        snprintf(solved[n_solved].path, sizeof solved[0].path, "%s", path);
        solved[n_solved++].scene = scene;
    }
    return scene;
}

bool __wrap_sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times, int n_times,
                              sl_solver *solver, const sl_optics *optics, sl_error *error)
{
    for (int i = 0; i < n_solved; i++) {
        if (solved[i].scene == scene) {
            if (!solved[i].timeline && !__real_sl_timeline_solve(&solved[i].timeline, scene, times, n_times,
                                                                 solver, optics, error)) {
                return false;
            }
            *timeline = solved[i].timeline;
            return true;
        }
    }
    return __real_sl_timeline_solve(timeline, scene, times, n_times, solver, optics, error);
}

/* A story that was kept keeps that of rinsed hair, too. */
bool __wrap_sl_timeline_rinse(sl_timeline *timeline, sl_solver *solver, sl_error *error)
{
    return sl_timeline_rinsed(timeline) || __real_sl_timeline_rinse(timeline, solver, error);
}

void __wrap_sl_scene_free(sl_scene *scene)
{
    for (int i = 0; i < n_solved; i++) {
        if (solved[i].scene == scene) {
            return;
        }
    }
    __real_sl_scene_free(scene);
}

void __wrap_sl_timeline_free(sl_timeline *timeline)
{
    for (int i = 0; timeline && i < n_solved; i++) {
        if (solved[i].timeline == timeline) {
            return;
        }
    }
    __real_sl_timeline_free(timeline);
}

/* A lesson may ask for as many members as it likes; some are enough to reach what is done with them. */
bool __wrap_sl_spread_run(sl_spread **spread, const sl_scene *scene, const sl_spread_request *request,
                          sl_error *error)
{
    sl_spread_request few = *request;
    few.members = few.members < FEW_MEMBERS ? few.members : FEW_MEMBERS;
    for (int i = 0; i < n_solved; i++) {
        if (solved[i].scene == scene) {
            const bool good = solved[i].spread || __real_sl_spread_run(&solved[i].spread, scene, &few, error);
            *spread = solved[i].spread;
            return good;
        }
    }
    return __real_sl_spread_run(spread, scene, &few, error);
}

void __wrap_sl_spread_free(sl_spread *spread)
{
    for (int i = 0; spread && i < n_solved; i++) {
        if (solved[i].spread == spread) {
            return;
        }
    }
    __real_sl_spread_free(spread);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    const sl_resolver resolver = frame_resolver();
    char path[512];
    snprintf(path, sizeof path, "%s", frame_lesson(bytes, size));
    const bool spanish = memmem(bytes, size, "language: es", 12) != NULL;
    if (spanish) {
        snprintf(path + strlen(path) - 5, 9, ".es.yaml");
    }
    frame_input(path, bytes, size);
    sl_lesson *const lesson = sl_lesson_load(path, &resolver, &error);
    if (!lesson) {
        frame_refused(&error);
    }
    sl_lesson_free(lesson);
    return 0;
}
