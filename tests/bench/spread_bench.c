/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One way of running an ensemble of the eight-arm scene, for spread_bench.py, which starts each
 * in a process of its own and prints the table.
 *
 *     spread_bench MODELS bench|wrapped ensemble|solver|cvode|rank|map|search|limits TIMES THREADS [ARMS]
 *
 * prints wall seconds, processor seconds and peak KiB. `ensemble`: the library's own. `solver`:
 * the library's solver of single scenes and its limits, once for each member. `cvode`: CVODE
 * (Adams) on the shared system at every minute, once for each member, no limits looked for.
 * TIMES is how many members these run. `rank`: so many members, read at 20 min and at half of the
 * colour. `map`, `search`, `limits`: so often a map of 25 x 25 points (strength by time, one arm),
 * the search over mixes all marked as allowed, and the limits of all eight arms from one solution.
 * ARMS keeps only the first so many arms that can be asked; histograms are then all that remains.
 * Built a second time without wide vectors (see CMakeLists.txt).
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "reference/full_system.h"
#include "slowlift/limits.h"
#include "slowlift/map.h"
#include "slowlift/rank.h"
#include "slowlift/scene.h"

enum { MINUTES = 61 };
static const double ALIKE = 1e-5; /* relative, of the loops: what the ensemble's fixed steps reach */

static void stop(const char *why)
{
    fprintf(stderr, "spread_bench: %s\n", why);
    exit(EXIT_FAILURE);
}

static double seconds_of(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* Of this program alone: getrusage would count what its parent held before it began. */
static long peak_kib(void)
{
    char line[256];
    long peak = -1;
    FILE *status = fopen("/proc/self/status", "r");
    while (status != NULL && fgets(line, sizeof line, status) != NULL) {
        if (strncmp(line, "VmHWM:", 6) == 0) {
            peak = strtol(line + 6, NULL, 10);
        }
    }
    if (status != NULL) {
        fclose(status);
    }
    return peak;
}

static void run_ensemble(const sl_scene *scene, long members, int threads)
{
    sl_error error = {.code = SL_OK};
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = members, .seed = 1, .threads = threads};
    if (!sl_spread_run(&spread, scene, &request, &error)) {
        stop(error.found);
    }
    sl_spread_free(spread);
}

/* A member's own numbers: a few of those that the ensemble draws, enough that no two are alike. */
static void draw(sl_scene *scene, const sl_scene *from, long member)
{
    scene->chemistry = from->chemistry;
    scene->shift_k = from->shift_k + 2.0 * (sl_draw(1, member, 0) - 0.5);
    scene->chemistry.peroxide_diffusion_cm2_s.value *= exp(sl_draw(1, member, 1) - 0.5);
    scene->chemistry.persulfate_diffusion_cm2_s.value *= exp(sl_draw(1, member, 2) - 0.5);
    scene->chemistry.couple_l_mol_min.value *= exp(sl_draw(1, member, 3) - 0.5);
}

static void run_solver(const sl_scene *scene, long members)
{
    sl_error error = {.code = SL_OK};
    sl_scene one = *scene;
    sl_solver *solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    if (solver == NULL) {
        stop(error.found);
    }
    sl_solver_set_accuracy(solver, (sl_accuracy){ALIKE, ALIKE, sl_accuracy_default().longest_min});
    double sum = 0.0;
    for (long m = 0; m < members; m++) {
        draw(&one, scene, m);
        if (!sl_timeline_solve(&timeline, &one, NULL, 0, solver, NULL, &error) ||
            !sl_limits_prepare(timeline, solver, &error)) {
            stop(error.found);
        }
        for (int arm = 0; arm < one.n_arms; arm++) {
            const sl_limits limits = sl_limits_of(timeline, arm, NULL);
            sum += limits.stop_min[limits.stop];
        }
    }
    if (!isfinite(sum)) {
        stop("a limit is not a number");
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

static void run_cvode(const sl_scene *scene, long members)
{
    static double rows[MINUTES * REF_SHARED];
    double times[MINUTES];
    sl_scene one = *scene;
    long calls = 0;
    for (int i = 0; i < MINUTES; i++) {
        times[i] = scene->until_min * i / (MINUTES - 1);
    }
    for (long m = 0; m < members; m++) {
        draw(&one, scene, m);
        for (int arm = 0; arm < one.n_arms; arm++) {
            const ref_setup setup = {
                .scene = &one, .arm = &one.arms[arm], .hair = &one.hairs[one.zones[0].hair]};
            if (!ref_solve(&setup, (ref_method){true, ALIKE, ALIKE * 1e-2}, times, MINUTES, rows, &calls)) {
                stop("CVODE failed");
            }
        }
    }
}

/* ---- what one asks once ------------------------------------------------------------------------- */

static void run_rank(const sl_scene *scene, long members, int threads)
{
    sl_error error = {.code = SL_OK};
    sl_rank *rank = NULL;
    const sl_rank_request request = {
        .minute = 20.0, .share = 0.5, .members = members, .seed = 1, .threads = threads, .zone = -1};
    if (!sl_rank_run(&rank, scene, &request, &error)) {
        stop(error.found);
    }
    sl_rank_free(rank);
}

static void run_map(const sl_scene *scene, long times, sl_solver *solver)
{
    const int arm = 3; /* powder + 6 %, once prepared */
    const sl_axis strength = {SL_SETTING_STRENGTH, 3.0, 12.0, 25}, dwell = {SL_SETTING_DWELL, 5.0, 45.0, 25};
    for (long i = 0; i < times; i++) {
        sl_error error = {.code = SL_OK};
        sl_map *map = NULL;
        if (!sl_map_make(&map, scene, arm, -1, strength, dwell, NULL, solver, &error)) {
            stop(error.found);
        }
        sl_map_free(map);
    }
}

static void run_search(sl_scene *scene, long times, sl_solver *solver)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        scene->mixes[i].label_allows = true;
    }
    for (long i = 0; i < times; i++) {
        sl_error error = {.code = SL_OK};
        sl_search search;
        if (!sl_search_run(&search, scene, solver, &error)) {
            stop(error.found);
        }
    }
}

/* Solved anew each time: that is what a moved knob costs. */
static void run_limits(const sl_scene *scene, long times, sl_solver *solver)
{
    sl_timeline *timeline = NULL;
    int asked = 0;
    for (long i = 0; i < times; i++) {
        sl_error error = {.code = SL_OK};
        if (!sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error) ||
            !sl_limits_prepare(timeline, solver, &error)) {
            stop(error.found);
        }
        for (int arm = 0; arm < scene->n_arms; arm++) {
            asked += sl_limits_of(timeline, arm, NULL).asked ? 1 : 0;
        }
    }
    if (asked == 0) {
        stop("no arm can be asked");
    }
    sl_timeline_free(timeline);
}

static void run_once(const char *way, sl_scene *scene, long times)
{
    sl_error error = {.code = SL_OK};
    sl_solver *solver = sl_solver_new(&error);
    if (solver == NULL) {
        stop(error.found);
    }
    if (strcmp(way, "map") == 0) {
        run_map(scene, times, solver);
    } else if (strcmp(way, "search") == 0) {
        run_search(scene, times, solver);
    } else {
        run_limits(scene, times, solver);
    }
    sl_solver_free(solver);
}

/* ---- the scene ---------------------------------------------------------------------------------- */

/* The arms that have a remover on dyed hair, the zones on prelightened hair, and aims. */
static void prepare(sl_scene *scene, const char *place, int arms)
{
    scene->aims = (sl_aims){.colour_left = 0.5,
                            .base_moved = {0.3, true},
                            .cystine_lost = {0.1, true},
                            .longest_min = {45.0, true}};
    scene->place = strcmp(place, "wrapped") == 0 ? SL_PLACE_WRAPPED : SL_PLACE_BENCH;
    if (arms == scene->n_arms) {
        return; /* the whole scene */
    }
    scene->zones++; /* without the root: an oxidative dye, which no limit is asked of */
    scene->n_zones--;
    scene->arms++; /* without "untreated" and "undyed" */
    scene->n_arms = arms;
}

int main(int argc, char **argv)
{
    if (argc < 6) {
        stop("usage: spread_bench MODELS bench|wrapped WAY TIMES THREADS [ARMS]");
    }
    sl_start();
    const char *const folder = argv[1];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[1024];
    sl_error error = {.code = SL_OK};
    snprintf(path, sizeof path, "%s/scenes/eight-arms.yaml", folder);
    sl_scene *loaded = sl_scene_load(path, &resolver, &error);
    if (loaded == NULL) {
        stop(error.found);
    }
    sl_scene scene = *loaded;
    prepare(&scene, argv[2], argc > 6 ? (int)strtol(argv[6], NULL, 10) : 6);
    const long members = strtol(argv[4], NULL, 10);
    const double wall = seconds_of(CLOCK_MONOTONIC), cpu = seconds_of(CLOCK_PROCESS_CPUTIME_ID);
    if (strcmp(argv[3], "ensemble") == 0) {
        run_ensemble(&scene, members, (int)strtol(argv[5], NULL, 10));
    } else if (strcmp(argv[3], "solver") == 0) {
        run_solver(&scene, members);
    } else if (strcmp(argv[3], "cvode") == 0) {
        run_cvode(&scene, members);
    } else if (strcmp(argv[3], "rank") == 0) {
        run_rank(&scene, members, (int)strtol(argv[5], NULL, 10));
    } else {
        run_once(argv[3], &scene, members);
    }
    printf("%.6f %.6f %ld\n", seconds_of(CLOCK_MONOTONIC) - wall, seconds_of(CLOCK_PROCESS_CPUTIME_ID) - cpu,
           peak_kib());
    sl_scene_free(loaded);
    return EXIT_SUCCESS;
}
