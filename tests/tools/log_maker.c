/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Makes a log with one test of a shipped scene and prints the test's id.
 *
 *     log_maker LOG [REPEATS]
 */
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/log.h"

int main(int argc, char **argv)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    static const char scene_path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_plan_request request = sl_plan_request_default();
    request.blocks = argc == 3 ? atoi(argv[2]) : request.blocks;
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_plan *plan = NULL;
    char id[SL_UUID];
    sl_start();
    sl_scene *const scene = sl_scene_load(scene_path, &resolver, &error);
    const bool good = (argc == 2 || argc == 3) && scene && sl_plan_make(&plan, scene, &request, &error) &&
                      sl_log_open(&log, argv[1], SL_LOG_MAKE, &error) &&
                      sl_log_begin(log, scene_path, &resolver, plan, "powder against water, a rehearsal", "nobody", id, &error);
    if (good) {
        puts(id);
    } else {
        fprintf(stderr, "log_maker: %s; %s\n", error.found, error.wanted);
    }
    sl_log_close(log);
    sl_plan_free(plan);
    sl_scene_free(scene);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
