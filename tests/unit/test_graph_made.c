/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The charts that results are made into: what stands on which axis, memory that runs out at each call, and
 * the same words and numbers by the window's pen and by the page's.
 */
#include <stdio.h>
#include <string.h>

#include "log/compare/seen_curves.h"
#include "log_made.h"
#include "paper/draw/graph_pen.h"
#include "report/rank/map.h"
#include "report/rank/rank.h"
#include "report/run/curves.h"
#include "small_scene.h"
#include "suite.h"
#include "tools/graph_recorder.h"
#include "view/draw/graph_pen.h"

static small_scene small;
static sl_solver *solver;
static sl_timeline *timeline;
static sl_optics *optics;
static sl_rank *rank;
static sl_map *map;
static sl_log_made made;
static sl_compare *compare;
static sl_seen_curves *curves;
static sl_arena arena;

static void solve_all(void)
{
    timeline = NULL;
    rank = NULL;
    map = NULL;
    compare = NULL;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.until_min = 80.0;
    small.scene.aims = (sl_aims){.colour_left = 0.4, .base_moved = {0.2, true}, .longest_min = {27.0, true}};
    solver = sl_solver_new(NULL);
    optics = sl_optics_new(&small.scene, NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    const sl_rank_request request = {.minute = 15.0, .share = 0.5, .members = 96, .seed = 7, .threads = 1};
    ck_assert(sl_rank_run(&rank, &small.scene, &request, NULL));
    const sl_axis strength = {SL_SETTING_STRENGTH, 0.0, 12.0, 7}, dwell = {SL_SETTING_DWELL, 5.0, 40.0, 8};
    ck_assert(sl_map_make(&map, &small.scene, ARM_6, ZONE_RED, strength, dwell, NULL, solver, NULL));
    sl_log_test test;
    log_made_begin(&made);
    const char *const arms[] = {"powder + 3 %", "powder + 6 %", "powder + water"};
    for (int i = 0; i < 6; i++) {
        const sl_wipe grade = (sl_wipe)(SL_WIPE_SLIGHT + i / 2);
        sl_log_reading reading =
            log_made_reading(&made, log_made_swatch(&made, arms[i % 3], i / 3), "blue", grade);
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    }
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, -1.0, NULL));
    curves = sl_seen_curves_make(compare, NULL);
    ck_assert_ptr_nonnull(curves);
}

static void free_all(void)
{
    sl_arena_free(&arena);
    sl_seen_curves_free(curves);
    sl_compare_free(compare);
    log_made_end(&made);
    sl_map_free(map);
    sl_rank_free(rank);
    sl_optics_free(optics);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

static int blue(void)
{
    int zone = 0;
    while (strcmp(compare->scene->zones[zone].name, "blue") != 0) {
        zone++;
    }
    return zone;
}

enum { RANK, MAP, SEEN, SPECTRA, LEFT, KINDS };

static const sl_graph *graph_of(int kind, sl_error *error)
{
    const sl_rank_page ranks = {.timeline = timeline, .rank = rank, .only = -1};
    const sl_map_page page = {.scene = &small.scene, .map = map, .shows = SL_MAP_LEFT};
    sl_cell cell;
    sl_timeline_at(timeline, ARM_6, ZONE_RED, 20.0, optics, &cell);
    const sl_spectrum spectra[2] = {{optics, SL_LOOK_DRY, cell.amounts, "one"},
                                    {optics, SL_LOOK_DRY, cell.amounts, "two"}};
    return kind == RANK      ? sl_graph_of_rank(&arena, &ranks, ZONE_RED, error)
           : kind == MAP     ? sl_graph_of_map(&arena, &page, error)
           : kind == SEEN    ? sl_graph_of_seen(&arena, curves, blue(), -1, error)
           : kind == SPECTRA ? sl_graph_of_spectra(&arena, spectra, 2, error)
                             : sl_graph_of_course(&arena, timeline, SL_COURSE_LEFT, ZONE_RED, error);
}

/* ---- memory that runs out ------------------------------------------------------------------------------ */

static int calls, fails_at; /* 0: none fails */

static bool runs_out(sl_error *error)
{
    const bool fails = ++calls == fails_at;
    if (fails) {
        sl_fail(error, SL_ERR_NO_MEMORY, "drawing", "");
    }
    return fails;
}

void *__real_sl_arena_new(sl_arena *into, size_t count, size_t size, const char *doing, sl_error *error);
void *__wrap_sl_arena_new(sl_arena *into, size_t count, size_t size, const char *doing, sl_error *error);
void *__wrap_sl_arena_new(sl_arena *into, size_t count, size_t size, const char *doing, sl_error *error)
{
    return runs_out(error) ? NULL : __real_sl_arena_new(into, count, size, doing, error);
}

char *__real_sl_arena_text(sl_arena *into, const char *text, size_t length, sl_error *error);
char *__wrap_sl_arena_text(sl_arena *into, const char *text, size_t length, sl_error *error);
char *__wrap_sl_arena_text(sl_arena *into, const char *text, size_t length, sl_error *error)
{
    return runs_out(error) ? NULL : __real_sl_arena_text(into, text, length, error);
}

START_TEST(a_chart_without_memory_is_none)
{
    for (int kind = 0; kind < KINDS; kind++) {
        calls = fails_at = 0;
        ck_assert_ptr_nonnull(graph_of(kind, NULL));
        const int all = calls;
        ck_assert_int_gt(all, 2);
        for (int at = 1; at <= all; at++) {
            sl_error error = {.code = SL_OK};
            calls = 0;
            fails_at = at;
            ck_assert_msg(graph_of(kind, &error) == NULL, "kind %d, call %d of %d", kind, at, all);
            ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
        }
        fails_at = 0;
    }
}
END_TEST

/* ---- what stands where --------------------------------------------------------------------------------- */

/* Stress across, colour left upwards, and the arm's own number, as the strips and tables have it. */
START_TEST(ranks_have_stress_across_and_colour_upwards)
{
    const sl_graph *const graph = graph_of(RANK, NULL);
    int order[SL_MAX_ARMS], found = 0;
    const int n = sl_rank_order(rank, ZONE_RED, SL_LEFT_THEN, order);
    ck_assert_ptr_nonnull(strstr(graph->x.name, "hair stress"));
    ck_assert_ptr_nonnull(strstr(graph->y.name, "colour left"));
    for (int i = 0; i < graph->n_series; i++) {
        const sl_graph_series *const series = &graph->series[i];
        if (series->shape == SL_GRAPH_CURVE) {
            continue;
        }
        const int arm = atoi(series->label) - 1;
        const sl_middle left = sl_rank_middle(rank, arm, ZONE_RED, SL_LEFT_THEN);
        const sl_middle stress = sl_rank_middle(rank, arm, ZONE_RED, SL_STRESS_THEN);
        ck_assert_double_eq_tol(*series->x, 100.0 * stress.p50, 1e-12);
        ck_assert_double_eq_tol(*series->x_high, 100.0 * stress.p90, 1e-12);
        ck_assert_double_eq_tol(*series->y, 100.0 * left.p50, 1e-12);
        ck_assert_double_eq_tol(*series->y_low, 100.0 * left.p10, 1e-12);
        ck_assert_int_eq(arm, order[found]);
        ck_assert(*series->x_high <= graph->x.to && *series->y_high <= graph->y.to);
        found++;
    }
    ck_assert_int_eq(found, n);
    ck_assert_int_gt(n, 2);
}
END_TEST

/* The goal's own line, the limits' fields and where the arm is set, from the map's numbers. */
START_TEST(a_map_has_goal_limits_and_where_it_is_set)
{
    const sl_graph *const graph = graph_of(MAP, NULL);
    const sl_graph_relief *const relief = &graph->relief;
    const sl_graph_line *const goal = &relief->line[relief->n_lines - 1];
    ck_assert(goal->strong && goal->level == 0.4);
    ck_assert_int_eq(relief->shaded.n, 1);
    ck_assert_int_eq(relief->striped.n, 3); /* yes or no, base, time */
    for (int i = 0; i < map->x.n * map->y.n; i++) {
        bool inside = true;
        for (int k = 0; k < relief->striped.n; k++) {
            inside = inside && relief->striped.field[k][i] >= 0.0;
        }
        ck_assert_int_eq(inside, map->inside[i]);
        ck_assert_int_eq(relief->shaded.field[0][i] >= 0.0, map->goal[i]);
    }
    ck_assert_int_eq(graph->n_series, 1);
    ck_assert_double_eq(*graph->series[0].x, 6.0);
    ck_assert_double_eq(*graph->series[0].y, 30.0);
}
END_TEST

/* ---- two pens -------------------------------------------------------------------------------------------
 */

static recorder window, page;

static void draw_in_window(const sl_graph *graph, sl_graph_box box, sl_text *text)
{
    SDL_Surface *const sheet = SDL_CreateRGBSurfaceWithFormat(0, 700, 500, 32, SDL_PIXELFORMAT_RGB888);
    const sl_pen pen = {.sheet = sheet, .text = text, .theme = sl_theme_at(SL_THEME_LIGHT), .unit = 1.0};
    const sl_graph_pen real = sl_graph_pen_in_window(&pen);
    window.over = &real;
    const sl_graph_pen told = recorder_pen(&window, 1.0);
    sl_graph_draw(graph, &told, box);
    sl_graph_draw_key(graph, &told, box);
    SDL_FreeSurface(sheet);
}

static void draw_on_page(const sl_graph *graph, sl_graph_box box)
{
    sl_canvas canvas;
    ck_assert(sl_canvas_open_pixels(&canvas, 700.0, 500.0, 1.0, false, NULL));
    sl_page_pen pen = {&canvas, 1.0};
    const sl_graph_pen real = sl_graph_pen_on_page(&pen);
    page.over = &real;
    const sl_graph_pen told = recorder_pen(&page, 1.0);
    sl_graph_draw(graph, &told, box);
    sl_graph_draw_key(graph, &told, box);
    sl_canvas_close(&canvas);
}

static int by_words(const void *a, const void *b)
{
    return strcmp(((const drawn *)a)->words, ((const drawn *)b)->words);
}

static int texts_of(const recorder *all, drawn *texts)
{
    int n = 0;
    for (int i = 0; i < all->n; i++) {
        if (all->item[i].what == DRAWN_TEXT) {
            texts[n++] = all->item[i];
        }
    }
    qsort(texts, (size_t)n, sizeof *texts, by_words);
    return n;
}

START_TEST(window_and_page_have_the_same_words_and_numbers)
{
    static drawn one[RECORDED_MOST], other[RECORDED_MOST];
    const sl_graph_box box = {20.0, 20.0, 640.0, 440.0};
    sl_text *const text = sl_text_new(NULL);
    ck_assert(text != NULL && sl_text_scale(text, 1.0, NULL));
    for (int kind = 0; kind < KINDS; kind++) {
        const sl_graph *const graph = graph_of(kind, NULL);
        draw_in_window(graph, box, text);
        draw_on_page(graph, box);
        const int n = texts_of(&window, one), m = texts_of(&page, other);
        for (int i = 0; i < n && i < m; i++) {
            ck_assert_str_eq(one[i].words, other[i].words);
        }
        ck_assert_int_eq(n, m);
        ck_assert_int_gt(n, 5);
        recorder_empty(&window);
        recorder_empty(&page);
    }
    sl_text_free(text);
}
END_TEST

/* In the rows above and below, such a line goes on for more pixels than a number of them can hold. */
START_TEST(a_line_that_is_all_but_level_is_drawn_where_it_is)
{
    SDL_Surface *const sheet = SDL_CreateRGBSurfaceWithFormat(0, 60, 20, 32, SDL_PIXELFORMAT_RGB888);
    const sl_pen pen = {.sheet = sheet, .theme = sl_theme_at(SL_THEME_LIGHT), .unit = 1.0};
    const sl_graph_pen real = sl_graph_pen_in_window(&pen);
    const sl_graph_point at[] = {{10.0, 10.0}, {50.0, nextafter(10.0, 11.0)}};
    SDL_FillRect(sheet, NULL, SDL_MapRGB(sheet->format, 255, 255, 255));
    real.kind->line(real.self, at, 2, SL_GRAPH_INK, 1.0, SL_GRAPH_UNBROKEN);
    const uint32_t ground = *(const uint32_t *)sheet->pixels;
    for (int y = 0; y < sheet->h; y++) {
        const uint32_t *const row =
            (const uint32_t *)(const void *)((const uint8_t *)sheet->pixels + y * sheet->pitch);
        for (int x = 0; x < sheet->w; x++) {
            ck_assert_msg((row[x] != ground) == (y == 10 && x >= 10 && x <= 50), "pixel %d, %d", x, y);
        }
    }
    SDL_FreeSurface(sheet);
}
END_TEST

START_SUITE("graph_made")
FIXTURE(solve_all, free_all)
ADD(a_chart_without_memory_is_none)
ADD(ranks_have_stress_across_and_colour_upwards)
ADD(a_map_has_goal_limits_and_where_it_is_set)
ADD(window_and_page_have_the_same_words_and_numbers)
ADD(a_line_that_is_all_but_level_is_drawn_where_it_is)
END_SUITE
