/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a graph tells its pen to draw: ticks, places, labels, lines and regions.
 */
#include "graph/graph.h"

#include <stdio.h>

#include "suite.h"
#include "tools/graph_recorder.h"

static recorder told;
static sl_arena arena;
static sl_graph *graph;
static const sl_graph_box WHOLE = {20.0, 30.0, 500.0, 340.0};
static uint32_t seed;

static double drawn_from(double least, double most)
{
    seed = seed * 1664525U + 1013904223U;
    return least + (most - least) * (seed >> 8) / 16777216.0;
}

static void set_up(void)
{
    told = (recorder){.n = 0};
    graph = sl_graph_new(&arena, NULL);
    graph->x = (sl_graph_axis){0.0, 10.0, "across"};
    graph->y = (sl_graph_axis){0.0, 100.0, "up"};
    seed = 1;
}

static void tear_down(void)
{
    recorder_empty(&told);
    sl_arena_free(&arena);
}

static void draw(void)
{
    recorder_empty(&told);
    const sl_graph_pen pen = recorder_pen(&told, 1.0);
    sl_graph_draw(graph, &pen, WHOLE);
    ck_assert_int_lt(told.n, RECORDED_MOST);
}

/* The frame is the one unbroken line of five points that ends where it begins and is thin. */
static sl_graph_box field(void)
{
    for (int i = 0; i < told.n; i++) {
        const drawn *const it = &told.item[i];
        if (it->what == DRAWN_LINE && it->n == 5 && it->width < 1.0 && it->at[0].x == it->at[4].x) {
            return (sl_graph_box){it->at[0].x, it->at[0].y, it->at[2].x - it->at[0].x,
                                  it->at[2].y - it->at[0].y};
        }
    }
    ck_abort_msg("no frame was drawn");
}

static bool within(sl_graph_box box, sl_graph_point at, double near)
{
    return isnan(at.x) || (at.x >= box.x - near && at.x <= box.x + box.w + near && at.y >= box.y - near &&
                           at.y <= box.y + box.h + near);
}

static bool meet(sl_graph_box a, sl_graph_box b)
{
    const double near = 1e-9;
    return a.x + near < b.x + b.w && b.x + near < a.x + a.w && a.y + near < b.y + b.h &&
           b.y + near < a.y + a.h;
}

static const drawn *word(const char *words)
{
    for (int i = 0; i < told.n; i++) {
        if (told.item[i].what == DRAWN_TEXT && strcmp(told.item[i].words, words) == 0) {
            return &told.item[i];
        }
    }
    return NULL;
}

/* ---- ticks ------------------------------------------------------------------------------------------- */

START_TEST(a_step_is_1_2_or_5_times_a_power_of_ten_and_the_least_that_is_enough)
{
    for (int k = 0; k < 4000; k++) {
        const double span = pow(10.0, drawn_from(-6.0, 6.0));
        const int most = 2 + (int)drawn_from(0.0, 15.0);
        const double step = sl_graph_step(span, most),
                     lead = step / pow(10.0, floor(log10(step * (1.0 + 1e-9))));
        ck_assert_msg(fabs(lead - 1.0) < 1e-6 || fabs(lead - 2.0) < 1e-6 || fabs(lead - 5.0) < 1e-6, "%g",
                      step);
        ck_assert(span / step <= most * (1.0 + 1e-8));
        const double before = fabs(lead - 5.0) < 1e-6 ? step / 2.5 : step / 2.0;
        ck_assert_msg(span / before > most, "%g of %g would have been enough for %d", before, span, most);
    }
    ck_assert_double_eq_tol(sl_graph_step(10.0, 10), 1.0, 1e-12);
    ck_assert_double_eq_tol(sl_graph_step(0.3, 3), 0.1, 1e-12);
    ck_assert_double_eq_tol(sl_graph_axis_up_to(17.0, "").to, 18.0, 1e-12);
    ck_assert_double_eq_tol(sl_graph_axis_up_to(90.0, "").to, 90.0, 1e-12);
}
END_TEST

/* A tick's words say the value at which it stands, whatever the axis. */
START_TEST(ticks_stand_where_their_words_say)
{
    for (int k = 0; k < 300; k++) {
        const double from = drawn_from(-1.0, 1.0) * pow(10.0, drawn_from(-2.0, 4.0));
        graph->x = (sl_graph_axis){from, from + pow(10.0, drawn_from(-2.0, 4.0)), "across"};
        graph->y = (sl_graph_axis){0.0, pow(10.0, drawn_from(-2.0, 4.0)), "up"};
        draw();
        const sl_graph_box in = field();
        int across = 0, up = 0;
        for (int i = 0; i < told.n; i++) {
            const drawn *const it = &told.item[i];
            if (it->what != DRAWN_TEXT || it->type != SL_GRAPH_TICK) {
                continue;
            }
            const double value = atof(it->words);
            const bool below = it->box.y >= in.y + in.h;
            const double x = in.x + in.w * (value - graph->x.from) / (graph->x.to - graph->x.from);
            const double y = in.y + in.h * (1.0 - value / graph->y.to);
            across += below;
            up += !below;
            if (below) {
                ck_assert_double_eq_tol(it->box.x + 0.5 * it->box.w, x, 0.01);
            } else {
                ck_assert_double_eq_tol(it->box.y + 0.5 * it->box.h, y, 0.01);
            }
            ck_assert(within(WHOLE, (sl_graph_point){it->box.x, it->box.y}, 0.01));
            ck_assert_str_ne(it->words, "-0");
        }
        ck_assert_int_ge(across, 2);
        ck_assert_int_ge(up, 2);
        ck_assert_int_le(across, 11);
        ck_assert_int_le(up, 11);
    }
}
END_TEST

/* ---- series ------------------------------------------------------------------------------------------- */

/* Curves that leave the field and come back, marks within and outside. */
static void fill_at_random(int n_curves, int n_marks)
{
    graph->n_series = 0;
    for (int k = 0; k < n_curves; k++) {
        sl_graph_series *const s = sl_graph_add(graph, SL_GRAPH_CURVE, 30, false, false);
        for (int i = 0; i < s->n; i++) {
            s->x[i] = -1.0 + 12.0 * i / (s->n - 1);
            s->y[i] = drawn_from(-60.0, 160.0);
        }
        s->dash = (sl_graph_dash)(k % SL_GRAPH_DASHES);
        s->label = sl_graph_say(graph, "curve %d", k);
        s->brief = sl_graph_say(graph, "c%d", k);
    }
    for (int k = 0; k < n_marks; k++) {
        sl_graph_series *const s = sl_graph_add(graph, (sl_graph_shape)(1 + k % 4), 1, true, true);
        *s->x = drawn_from(0.0, 10.0);
        *s->y = drawn_from(0.0, 100.0);
        *s->x_low = *s->x - 3.0;
        *s->x_high = *s->x + 3.0;
        *s->y_low = *s->y - 30.0;
        *s->y_high = *s->y + 30.0;
        s->label = sl_graph_say(graph, "m%d", k);
    }
}

START_TEST(nothing_is_drawn_outside_the_axes)
{
    for (int k = 0; k < 200; k++) {
        fill_at_random(6, 12);
        draw();
        const sl_graph_box in = field();
        for (int i = 0; i < told.n; i++) {
            const drawn *const it = &told.item[i];
            const bool curve = it->what == DRAWN_LINE && it->width == 1.4 && it->n > 21;
            const bool spread = it->what == DRAWN_LINE && it->width == 1.1;
            for (int p = 0; p < it->n; p++) {
                ck_assert(within(in, it->at[p], curve || spread ? 1e-6 : 14.0));
            }
        }
    }
}
END_TEST

START_TEST(a_curve_goes_through_its_points_and_is_cut_at_the_edge)
{
    sl_graph_series *const s = sl_graph_add(graph, SL_GRAPH_CURVE, 3, false, false);
    memcpy(s->x, (double[]){0.0, 5.0, 10.0}, 3 * sizeof(double));
    memcpy(s->y, (double[]){50.0, 150.0, 50.0}, 3 * sizeof(double));
    draw();
    const sl_graph_box in = field();
    const drawn *found = NULL;
    for (int i = 0; i < told.n; i++) {
        found = told.item[i].what == DRAWN_LINE && told.item[i].width == 1.4 ? &told.item[i] : found;
    }
    ck_assert_ptr_nonnull(found); /* up to the edge at a quarter, lifted, and down again at three quarters */
    ck_assert_int_eq(found->n, 5);
    ck_assert_double_eq_tol(found->at[0].y, in.y + 0.5 * in.h, 1e-9);
    ck_assert_double_eq_tol(found->at[1].x, in.x + 0.25 * in.w, 1e-9);
    ck_assert_double_eq_tol(found->at[1].y, in.y, 1e-9);
    ck_assert(isnan(found->at[2].x));
    ck_assert_double_eq_tol(found->at[3].x, in.x + 0.75 * in.w, 1e-9);
    ck_assert_double_eq_tol(found->at[4].x, in.x + in.w, 1e-9);
}
END_TEST

START_TEST(no_label_meets_another_or_a_mark)
{
    int missing = 0, all = 0;
    for (int k = 0; k < 300; k++) {
        sl_graph_box label[200];
        int n = 0;
        const int curves = (int)drawn_from(0.0, 20.0), marks = 1 + (int)drawn_from(0.0, 30.0);
        fill_at_random(curves, marks);
        draw();
        const sl_graph_box in = field();
        for (int i = 0; i < told.n; i++) {
            if (told.item[i].what == DRAWN_TEXT && told.item[i].type == SL_GRAPH_LABEL) {
                label[n++] = told.item[i].box;
            }
        }
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < a; b++) {
                ck_assert_msg(!meet(label[a], label[b]), "two labels meet in graph %d", k);
            }
            for (int s = 0; s < graph->n_series; s++) {
                const sl_graph_series *const of = &graph->series[s];
                const double x = in.x + in.w * *of->x / 10.0, y = in.y + in.h * (1.0 - *of->y / 100.0);
                const sl_graph_box mark = {x - 4.0, y - 4.0, 8.0, 8.0};
                ck_assert(of->shape == SL_GRAPH_CURVE || !meet(label[a], mark));
            }
        }
        for (int m = 0; m < marks; m++) {
            char words[12];
            snprintf(words, sizeof words, "m%d", m);
            missing += word(words) == NULL;
            all++;
        }
    }
    ck_assert_msg(missing * 100 < all, "%d of %d labels of marks found no room", missing, all);
}
END_TEST

START_TEST(every_series_is_drawn_and_named)
{
    graph->x.to = 11.0;
    for (int k = 0; k < 100; k++) {
        fill_at_random(5, 8);
        for (int c = 0; c < 5; c++) { /* ends within the field */
            graph->series[c].y[29] = 20.0 * c + 7.0;
        }
        draw();
        int marks = 0;
        bool dash[SL_GRAPH_DASHES] = {false};
        for (int i = 0; i < told.n; i++) {
            const drawn *const it = &told.item[i];
            marks +=
                it->what == DRAWN_LINE && it->width == 1.4 && it->n > 3 && it->at[0].x == it->at[it->n - 1].x;
            dash[it->dash] = dash[it->dash] || it->what == DRAWN_LINE;
        }
        ck_assert_int_ge(marks, 8);
        for (int d = 0; d < SL_GRAPH_DASHES; d++) {
            ck_assert(dash[d]);
        }
        for (int c = 0; c < 5; c++) {
            char words[24];
            snprintf(words, sizeof words, "curve %d", c);
            ck_assert_msg(word(words) != NULL, "%s has no name", words);
        }
    }
}
END_TEST

/* A name that takes more than three tenths of the width is told in brief. */
START_TEST(long_names_of_curves_are_told_in_brief)
{
    fill_at_random(1, 0);
    graph->series[0].y[29] = 50.0;
    graph->series[0].x[29] = 10.0;
    graph->series[0].label = "a name of a mix that is much too long for the margin";
    draw();
    ck_assert_ptr_null(word(graph->series[0].label));
    ck_assert_ptr_nonnull(word("c0"));
}
END_TEST

/* ---- values over a grid ---------------------------------------------------------------------------------
 */

static double area_of(sl_graph_ink ink, sl_graph_pattern pattern)
{
    double sum = 0.0;
    for (int i = 0; i < told.n; i++) {
        const drawn *const it = &told.item[i];
        int from = 0;
        for (int p = 0; it->what == DRAWN_FILL && it->ink == ink && it->pattern == pattern && p <= it->n;
             p++) {
            if (p < it->n && !isnan(it->at[p].x)) {
                continue;
            }
            double part = 0.0;
            for (int a = from; a < p; a++) {
                const int b = a + 1 < p ? a + 1 : from;
                part += 0.5 * (it->at[a].x * it->at[b].y - it->at[b].x * it->at[a].y);
            }
            sum += fabs(part);
            from = p + 1;
        }
    }
    const sl_graph_box in = field();
    return sum / (in.w * in.h);
}

/* A plane that rises by 1 across: the line of 0.3 stands upright at three tenths. */
START_TEST(a_line_of_a_plane_is_where_it_has_its_value)
{
    static const double plane[9] = {0.0, 0.5, 1.0, 0.0, 0.5, 1.0, 0.0, 0.5, 1.0};
    graph->relief = (sl_graph_relief){.nx = 3, .ny = 3, .n_lines = 1, .line = {{plane, 0.3, true, "0.3"}}};
    draw();
    const sl_graph_box in = field();
    double high = 0.0;
    for (int i = 0; i < told.n; i++) {
        const drawn *const it = &told.item[i];
        if (it->what == DRAWN_LINE && it->width == 3.0) {
            ck_assert_int_eq(it->n, 2);
            ck_assert_double_eq_tol(it->at[0].x, in.x + 0.3 * in.w, 1e-9);
            ck_assert_double_eq_tol(it->at[1].x, in.x + 0.3 * in.w, 1e-9);
            high += fabs(it->at[1].y - it->at[0].y);
        }
    }
    ck_assert_double_eq_tol(high, in.h, 1e-9);
    ck_assert_ptr_nonnull(word("0.3"));
}
END_TEST

/* Corners 1, 0, 1, 0 round the square; the middle (0.5) is on the side of the ones at 0.5, and of the noughts
 * at 0.6: the corners of the other side are cut off at half, and at four tenths from the ones. */
START_TEST(a_saddle_is_cut_on_the_side_of_its_middle)
{
    static const double saddle[4] = {1.0, 0.0, 0.0, 1.0};
    const struct {
        double level, x0, y0, x1, y1; /* of one of the two pieces, y upwards */
    } by_hand[] = {{0.5, 0.5, 0.0, 1.0, 0.5}, {0.6, 0.4, 0.0, 0.0, 0.4}};
    for (int k = 0; k < 2; k++) {
        graph->relief =
            (sl_graph_relief){.nx = 2, .ny = 2, .n_lines = 1, .line = {{saddle, by_hand[k].level, true, ""}}};
        draw();
        const sl_graph_box in = field();
        bool found = false;
        for (int i = 0; i < told.n; i++) {
            const drawn *const it = &told.item[i];
            for (int p = 0; it->what == DRAWN_LINE && it->width == 3.0 && p + 1 < it->n; p += 3) {
                const double x0 = (it->at[p].x - in.x) / in.w, y0 = 1.0 - (it->at[p].y - in.y) / in.h;
                const double x1 = (it->at[p + 1].x - in.x) / in.w, y1 = 1.0 - (it->at[p + 1].y - in.y) / in.h;
                const double one = fabs(x0 - by_hand[k].x0) + fabs(y0 - by_hand[k].y0) +
                                   fabs(x1 - by_hand[k].x1) + fabs(y1 - by_hand[k].y1);
                const double other = fabs(x1 - by_hand[k].x0) + fabs(y1 - by_hand[k].y0) +
                                     fabs(x0 - by_hand[k].x1) + fabs(y0 - by_hand[k].y1);
                found = found || fmin(one, other) < 1e-9;
                ck_assert_int_eq(it->n, 5);
            }
        }
        ck_assert_msg(found, "level %g", by_hand[k].level);
    }
}
END_TEST

/* Regions of planes, whose shares of the field are known; a square with a corner that is no number is out. */
START_TEST(a_region_is_as_large_as_worked_out_by_hand)
{
    static const double right[4] = {-0.25, 0.75, -0.25, 0.75}; /* inside from a quarter of the width on */
    static const double below[4] = {0.5, 0.5, -0.5, -0.5};     /* inside in the lower half */
    static const double corner[9] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, (double)NAN};
    graph->relief =
        (sl_graph_relief){.nx = 2, .ny = 2, .shaded = {1, {right}}, .striped = {2, {right, below}}};
    draw();
    ck_assert_double_eq_tol(area_of(SL_GRAPH_SHADE, SL_GRAPH_WHOLE), 0.75, 1e-9);
    ck_assert_double_eq_tol(area_of(SL_GRAPH_GREY, SL_GRAPH_STRIPES), 0.375, 1e-9);
    graph->relief = (sl_graph_relief){.nx = 3, .ny = 3, .shaded = {1, {corner}}};
    draw();
    ck_assert_double_eq_tol(area_of(SL_GRAPH_SHADE, SL_GRAPH_WHOLE), 0.75, 1e-9);
}
END_TEST

/* Two parts of one row, cut by a valley between them. */
START_TEST(a_region_in_two_parts_is_drawn_as_two)
{
    static const double valley[6] = {1.0, -1.0, 1.0, 1.0, -1.0, 1.0};
    graph->relief = (sl_graph_relief){.nx = 3, .ny = 2, .shaded = {1, {valley}}};
    draw();
    ck_assert_double_eq_tol(area_of(SL_GRAPH_SHADE, SL_GRAPH_WHOLE), 0.5, 1e-9);
}
END_TEST

/* ---- key ------------------------------------------------------------------------------------------------
 */

START_TEST(a_key_has_a_sign_and_its_words_for_each_row)
{
    fill_at_random(1, 1);
    sl_graph_add_key(graph, (sl_graph_key){.curve = 0, .marks = 1, .name = "both", .words = "of one arm"});
    sl_graph_add_key(
        graph, (sl_graph_key){.curve = -1, .marks = -1, .shaded = true, .striped = true, .words = "in"});
    const sl_graph_pen pen = recorder_pen(&told, 1.0);
    const double high = sl_graph_draw_key(graph, &pen, WHOLE);
    int curves = 0, shapes = 0, patches = 0;
    for (int i = 0; i < told.n; i++) {
        const drawn *const it = &told.item[i];
        curves += it->what == DRAWN_LINE && it->n == 2;
        shapes += it->what == DRAWN_LINE && it->width == 1.4 && it->n > 4;
        patches += it->what == DRAWN_FILL && (it->ink == SL_GRAPH_SHADE || it->pattern == SL_GRAPH_STRIPES);
    }
    ck_assert_int_eq(curves, 1);
    ck_assert_int_eq(shapes, 1);
    ck_assert_int_eq(patches, 2);
    ck_assert_ptr_nonnull(word("both"));
    ck_assert_ptr_nonnull(word("of one arm"));
    ck_assert_ptr_nonnull(word("in"));
    ck_assert(high > word("in")->box.y - WHOLE.y);
}
END_TEST

START_SUITE("graph")
FIXTURE(set_up, tear_down)
ADD(a_step_is_1_2_or_5_times_a_power_of_ten_and_the_least_that_is_enough)
ADD(ticks_stand_where_their_words_say)
ADD(nothing_is_drawn_outside_the_axes)
ADD(a_curve_goes_through_its_points_and_is_cut_at_the_edge)
ADD(no_label_meets_another_or_a_mark)
ADD(every_series_is_drawn_and_named)
ADD(long_names_of_curves_are_told_in_brief)
ADD(a_line_of_a_plane_is_where_it_has_its_value)
ADD(a_saddle_is_cut_on_the_side_of_its_middle)
ADD(a_region_is_as_large_as_worked_out_by_hand)
ADD(a_region_in_two_parts_is_drawn_as_two)
ADD(a_key_has_a_sign_and_its_words_for_each_row)
END_SUITE
