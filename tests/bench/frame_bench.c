/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Frames of the window: processor time of the thread that draws, and pixels drawn anew, while the scene plays
 * and while a knob moves, with the ensemble at rest and at work. Nothing here is a test.
 *
 *     frame_bench MODELS [WIDTHxHEIGHT ...]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/program.h"
#include "slowlift/error.h"
#include "view/window/action.h"
#include "view/window/watch.h"

enum { FRAMES = 300, WARM = 30 };
static const double FRAME_MIN = 2.0 / 60.0; /* of the scene, at the usual pace of 2 minutes a second */

typedef struct frame_cost {
    double ms, wall_ms;
    long pixels;
} frame_cost;

static frame_cost cost[FRAMES];

static double now_ms(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static bool busy(const sl_stage *stage)
{
    return sl_solve_thread_busy(stage->solved.solver) || sl_study_thread_busy(stage->solved.study_thread);
}

static void settle(sl_stage *stage)
{
    sl_error error = {.code = SL_OK};
    do {
        SDL_Event event;
        while (SDL_PollEvent(&event) != 0) {
        }
        sl_stage_resolve(stage);
        sl_stage_draw(stage, &error);
        SDL_Delay(1);
    } while (stage->dirty || busy(stage));
}

/* Of frame i. */
static void move(sl_stage *stage, bool knob, int i)
{
    const double top = sl_stage_scene(stage)->until_min;
    if (knob) { /* to and fro in half steps, as a hand does */
        sl_stage_turn_knob(stage, SL_SETTING_STRENGTH, 3.0 + 0.5 * (i % 24 < 12 ? i % 12 : 12 - i % 12));
    } else {
        sl_stage_go(stage, fmod((i + 1) * FRAME_MIN, top));
        stage->chosen.playing = true;
    }
}

static int by_ms(const void *one, const void *two)
{
    const double a = ((const frame_cost *)one)->ms, b = ((const frame_cost *)two)->ms;
    return (a > b) - (a < b);
}

static void measure(sl_stage *stage, const char *size, bool knob, bool ensemble)
{
    double pixels = 0.0;
    sl_error error = {.code = SL_OK};
    settle(stage);
    for (int i = -WARM; i < FRAMES; i++) {
        SDL_Event event;
        while (SDL_PollEvent(&event) != 0) {
        }
        if (ensemble && i % 6 == 0) {
            stage->solved.asked.any = false; /* it is asked anew, and never comes to its end */
        }
        const double from = now_ms(CLOCK_THREAD_CPUTIME_ID), wall = now_ms(CLOCK_MONOTONIC);
        move(stage, knob, i + WARM);
        sl_stage_resolve(stage);
        sl_stage_draw(stage, &error);
        if (i >= 0) {
            cost[i] = (frame_cost){now_ms(CLOCK_THREAD_CPUTIME_ID) - from, now_ms(CLOCK_MONOTONIC) - wall,
                                   stage->drawn_hair};
            pixels += (double)stage->drawn_hair / FRAMES;
        }
        const double left = 1000.0 / 60.0 - (now_ms(CLOCK_MONOTONIC) - wall);
        SDL_Delay(left > 0.0 ? (Uint32)left : 0);
    }
    stage->chosen.playing = false;
    qsort(cost, FRAMES, sizeof cost[0], by_ms);
    printf("| %s | %s | %s | %.1f | %.1f | %.1f | %.2f |\n", size, knob ? "a knob moving" : "playing",
           ensemble ? "at work" : "at rest", cost[FRAMES / 2].ms, cost[FRAMES * 99 / 100].ms,
           cost[FRAMES - 1].ms, pixels / 1e6);
    fflush(stdout);
    sl_action_do(stage, SL_DO_RESET, 0);
}

static bool bench(const char *models, const char *size)
{
    sl_error error = {.code = SL_OK};
    sl_story story = {0};
    const sl_eyes eyes = {0};
    int width = 0, height = 0;
    char file[1024];
    snprintf(file, sizeof file, "%s/scenes/eight-arms.yaml", models);
    if (sscanf(size, "%dx%d", &width, &height) != 2 || !sl_watch_story(models, file, &story, &error)) {
        fprintf(stderr, "%s: %s %s\n", size, error.found, error.wanted);
        return false;
    }
    SDL_Window *const window = SDL_CreateWindow("bench", 0, 0, width, height, 0);
    sl_stage *const stage = window != NULL ? sl_stage_new(&story, &eyes, window, 1.0, &error) : NULL;
    if (stage == NULL) {
        fprintf(stderr, "%s: %s\n", size, error.found);
        return false;
    }
    stage->open.page = SL_PAGE_NONE;
    stage->chosen.arm = 4;
    for (int knob = 0; knob < 2; knob++) {
        sl_stage_go(stage, 12.0);
        stage->open.panel = knob != 0 ? SL_PANEL_WHAT_IF : SL_PANEL_NONE;
        if (knob == 0) { /* a knob sets the ensemble to work each time */
            measure(stage, size, false, false);
        }
        measure(stage, size, knob != 0, true);
    }
    sl_stage_free(stage);
    SDL_DestroyWindow(window);
    return true;
}

int main(int argc, char **argv)
{
    static char *usual[] = {"1280x800", "3840x2160"};
    char **const sizes = argc > 2 ? argv + 2 : usual;
    const int n = argc > 2 ? argc - 2 : 2;
    sl_program_start();
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    SDL_setenv("SDL_VIDEODRIVER", "dummy", 0);
    if (argc < 2 || SDL_Init(SDL_INIT_VIDEO) != 0) {
        fprintf(stderr, "usage: frame_bench MODELS [WIDTHxHEIGHT ...]\n");
        return 2;
    }
    printf("| window | what | ensemble | median, ms | p99, ms | longest, ms | million pixels of hair drawn anew a frame |\n");
    printf("|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < n; i++) {
        if (!bench(argv[1], sizes[i])) {
            return 1;
        }
    }
    SDL_Quit();
    return 0;
}
