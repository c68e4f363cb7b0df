/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ensemble MODELS SCENE-FILE MEMBERS THREADS: what the model and its ensemble count, to the bit, for the net:
 * whole numbers as they are, doubles in hexadecimal, long histograms as their sum (FNV-1a, 64 bits).
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/answer.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

static const uint64_t SEED = 2026;

static void stop(const char *why)
{
    fprintf(stderr, "ensemble: %s\n", why);
    exit(EXIT_FAILURE);
}

static uint64_t sum_of(const void *bytes, size_t size)
{
    const unsigned char *const byte = bytes;
    uint64_t sum = 0xcbf29ce484222325U; /* the offset and the prime of FNV-1a's definition */
    for (size_t i = 0; i < size; i++) {
        sum = (sum ^ byte[i]) * 0x100000001b3U;
    }
    return sum;
}

static void print_histogram(const char *name, const uint64_t *bin, int n)
{
    int first = 0, last = n - 1;
    while (first < n && bin[first] == 0) {
        first++;
    }
    while (last > first && bin[last - 1] == 0) {
        last--;
    }
    printf("  %s: first %d, last but never %d, never %" PRIu64 ", sum %016" PRIx64 "\n", name, first,
           last - 1, bin[n - 1], sum_of(bin, (size_t)n * sizeof *bin));
}

static void print_whole(const char *name, const int64_t *value, int n)
{
    printf("  %s:", name);
    for (int i = 0; i < n; i++) {
        printf(" %" PRId64, value[i]);
    }
    printf("\n");
}

static void print_arm(const sl_spread *spread, int arm)
{
    const sl_arm_spread *const counts = sl_spread_arm(spread, arm);
    const int n = spread->seconds + 1;
    print_histogram("early", counts->early, n);
    print_histogram("open_early", counts->open_early, n);
    print_histogram("late", counts->late, n);
    print_whole("open, sum_s, square_s2", (const int64_t[]){counts->open, counts->sum_s, counts->square_s2},
                3);
    print_whole("late_by", counts->late_by, SL_STOPS);
    printf("  last_zone:");
    for (int zone = 0; zone < spread->n_zones; zone++) {
        printf(" %" PRIu64, counts->last_zone[zone]);
    }
    printf("\n  left_hundredths: sum %016" PRIx64 "\n",
           sum_of(counts->left_hundredths, sizeof counts->left_hundredths));
    for (int drawn = 0; drawn < spread->plan.n; drawn++) {
        printf("  index %d: %a\n", drawn, sl_spread_index(spread, arm, drawn));
    }
}

static void print_answer(const sl_scene *scene, const sl_spread *spread, int arm)
{
    const sl_answer answer = sl_answer_of(scene, spread, arm, NULL);
    printf("  odds %a of %a to %a\n", answer.odds, answer.odds_95.low, answer.odds_95.high);
    printf("  early %a %a %a\n", answer.early.p10, answer.early.p50, answer.early.p90);
    printf("  late %a %a %a\n", answer.late.p10, answer.late.p50, answer.late.p90);
}

static void print_central(const sl_timeline *timeline, const sl_scene *scene)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            sl_cell cell;
            sl_timeline_at(timeline, arm, zone, 0.5 * scene->until_min, NULL, &cell);
            printf("central arm %d zone %d: left %a base %a stress %a\n", arm, zone, cell.colour_left,
                   cell.base_moved, cell.cystine_lost);
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 5) {
        stop("usage: ensemble MODELS SCENE-FILE MEMBERS THREADS");
    }
    sl_start();
    const char *const folder = argv[1];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error = {.code = SL_OK};
    sl_scene *const scene = sl_scene_load(argv[2], &resolver, &error);
    sl_solver *const solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .members = strtol(argv[3], NULL, 10), .seed = SEED, .threads = (int)strtol(argv[4], NULL, 10)};
    if (scene == NULL || solver == NULL ||
        !sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error) ||
        !sl_spread_run(&spread, scene, &request, &error)) {
        stop(error.found);
    }
    print_central(timeline, scene);
    printf("members %ld drawn %d\n", spread->members, spread->plan.n);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        printf("arm %d\n", arm);
        if (sl_spread_arm(spread, arm)->asked) {
            print_arm(spread, arm);
            print_answer(scene, spread, arm);
        }
    }
    sl_spread_free(spread);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return EXIT_SUCCESS;
}
