/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long the documents of the window's panels and pages take: built, laid, drawn.
 *
 *     panel_bench MODELS      prints a Markdown table
 *
 * The scene is models/scenes/eight-arms.yaml at minute 20, in a window of 1280 x 800 that nobody sees, once
 * all that was asked has been found. Built and laid anew, as when the chosen strip changes, with letters that
 * were set before; and with every word new to the window. All of it is drawn, also
 * what lies below the window's edge. Processor time of one thread; medians. Never asserted: a table, not a
 * test.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "slowlift/scene.h"
#include "view/panels/said.h"

enum { REPEATS = 201, ANEW = 11 };
static const char LETTERS[] =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,:;!?()[]+-–−…%<>/'\"“”'°*ΔáéíñóúüÁÉ¿¡";

static void stop(const char *why)
{
    fprintf(stderr, "panel_bench: %s\n", why);
    exit(EXIT_FAILURE);
}

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static int by_size(const void *one, const void *two)
{
    const double a = *(const double *)one, b = *(const double *)two;
    return (a > b) - (a < b);
}

static double median(double *ms, int n)
{
    qsort(ms, (size_t)n, sizeof *ms, by_size);
    return ms[n / 2];
}

static sl_stage *opened(const char *models)
{
    char path[1024];
    sl_error error = {.code = SL_OK};
    sl_folders folders = {&models, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_story story = {0};
    sl_eyes eyes = {0};
    snprintf(path, sizeof path, "%s/scenes/eight-arms.yaml", models);
    SDL_setenv("SDL_VIDEODRIVER", "dummy", 1);
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    story.scene = sl_scene_load(path, &resolver, &error);
    if (story.scene != NULL) {
        sl_aims_assume(story.scene); /* as the window does */
    }
    SDL_Window *const window =
        SDL_Init(SDL_INIT_VIDEO) == 0 ? SDL_CreateWindow("bench", 0, 0, 1280, 800, 0) : NULL;
    sl_stage *const stage = window != NULL && story.scene != NULL && sl_story_solve(&story, &error)
                                ? sl_stage_new(&story, &eyes, window, 1.0, &error)
                                : NULL;
    if (stage == NULL) {
        stop(error.found);
    }
    sl_stage_go(stage, 20.0);
    sl_stage_choose_arm(stage, 4); /* powder + 6 % */
    return stage;
}

/* Until nothing more is found. */
static void settle(sl_stage *stage)
{
    sl_error error = {.code = SL_OK};
    do {
        sl_stage_resolve(stage);
        stage->dirty = true;
        if (!sl_stage_draw(stage, &error)) {
            stop(error.found);
        }
        SDL_Delay(1);
    } while (sl_study_thread_busy(stage->solved.study_thread));
}

typedef struct times {
    double built, laid, drawn;
} times;

static times once(sl_stage *stage, const sl_view_row *row)
{
    sl_leaf *const leaf = &stage->laid.said;
    const SDL_Rect room = row->room(stage);
    const double start = now_ms();
    row->say(sl_leaf_renew(leaf, leaf->says + 1), stage, &leaf->error);
    const double built = now_ms();
    sl_leaf_lay(leaf, &stage->pen, room.w, row->brief ? SL_LEAD : stage->open.curves ? SL_SCIENCE : SL_MORE);
    const double laid = now_ms();
    for (int y = 0; y == 0 || y < sl_leaf_height(leaf); y += stage->pen.sheet->h) {
        sl_leaf_draw(leaf, &stage->pen, room.x, -y);
    }
    return (times){built - start, laid - built, now_ms() - laid};
}

/* Every word new, of letters that were seen before. */
static void forget_words(sl_stage *stage)
{
    sl_error error = {.code = SL_OK};
    const double unit = stage->pen.unit;
    if (!sl_text_scale(stage->text, 2.0 * unit, &error) || !sl_text_scale(stage->text, unit, &error)) {
        stop(error.found);
    }
    for (int type = 0; type < SL_TYPE_COUNT; type++) {
        sl_text_extent(stage->text, (sl_type)type, 0, LETTERS);
        sl_text_picture(stage->text, (sl_type)type, stage->pen.theme->colour[SL_INK_TEXT], LETTERS);
        sl_text_picture(stage->text, (sl_type)type, stage->pen.theme->colour[SL_INK_QUIET], LETTERS);
    }
}

static void print_times(sl_stage *stage, const sl_view_row *row, bool anew, int n)
{
    static double built[REPEATS], laid[REPEATS], drawn[REPEATS];
    for (int i = 0; i < n; i++) {
        if (anew) {
            forget_words(stage);
        }
        const times t = once(stage, row);
        built[i] = t.built;
        laid[i] = t.laid;
        drawn[i] = t.drawn;
    }
    printf(" %.3f | %.3f | %.3f |", median(built, n), median(laid, n), median(drawn, n));
}

static void measure(sl_stage *stage, const sl_view_row *row)
{
    settle(stage);
    once(stage, row);
    printf("| %s%s | %zu | %d |", row->word, stage->open.curves ? ", science" : "",
           stage->laid.said.document.n, sl_leaf_height(&stage->laid.said));
    print_times(stage, row, false, REPEATS);
    print_times(stage, row, true, ANEW);
    printf("\n");
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "usage: panel_bench MODELS\n");
        return EXIT_FAILURE;
    }
    sl_start();
    sl_stage *const stage = opened(argv[1]);
    printf("| what | blocks | pixels high | built, ms | laid, ms | drawn, ms | new words: built | laid | "
           "drawn |\n"
           "|---|---|---|---|---|---|---|---|---|\n");
    stage->open.page = SL_PAGE_NONE;
    for (int panel = 0; panel < SL_PANELS; panel++) {
        stage->open.panel = (sl_panel)panel;
        for (int deep = 0; deep < 2; deep++) {
            stage->open.curves = deep == 1;
            if (sl_panel_rows[panel].say != NULL) {
                measure(stage, &sl_panel_rows[panel]);
            }
        }
    }
    stage->open.panel = SL_PANEL_NONE;
    for (int page = 0; page < SL_STAGE_PAGES; page++) {
        stage->open.page = (sl_stage_page)page;
        stage->open.curves = page == SL_PAGE_BESIDE;
        if (sl_page_rows[page].say != NULL && page != SL_PAGE_NEW) { /* which says what was made */
            measure(stage, &sl_page_rows[page]);
        }
    }
    sl_stage_free(stage);
    SDL_Quit();
    return EXIT_SUCCESS;
}
