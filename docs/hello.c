/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The library in forty lines: read a scene, solve it, say what is left of one zone.
 * Build:  cc docs/hello.c $(pkg-config --cflags --libs slowlift) -o hello
 * Run:    ./hello models/scenes/eight-arms.yaml models
 */
#include <stdio.h>

#include "slowlift/optics.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

int main(int argc, char **argv)
{
    if (argc != 3) {
        return 2;
    }
    sl_start();
    sl_error error = {0};
    const char *const folders[] = {argv[2]};
    sl_folders places = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&places);
    sl_scene *const scene = sl_scene_load(argv[1], &resolver, &error);
    sl_solver *const solver = scene ? sl_solver_new(&error) : NULL;
    sl_optics *const optics = solver ? sl_optics_new(scene, &error) : NULL;
    const double minutes[] = {0.0, 10.0, 20.0, 30.0};
    sl_timeline *timeline = NULL;
    if (optics && sl_timeline_solve(&timeline, scene, minutes, 4, solver, optics, &error)) {
        const int arm = scene->n_arms - 1;
        for (int t = 0; t < 4; t++) {
            const sl_cell *const cell = sl_timeline_cell(timeline, arm, scene->n_zones - 1, t);
            printf("%s at %2.0f min: base moved %2.0f %%, #%02x%02x%02x\n", scene->arms[arm].name, minutes[t],
                   100.0 * cell->base_moved, cell->colour.srgb.r, cell->colour.srgb.g, cell->colour.srgb.b);
        }
    }
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return error.code == SL_OK ? 0 : 1;
}
