/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen over what the model predicts: colour left of one zone by minutes since contact. A
 * curve for each arm with dashes of its own; means over swatches as shapes with bars of the 95 %
 * interval, numbered. At the end of the dwell stands what was seen when all was washed and dry.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "paper/charts/chart.h"
#include "slowlift/report.h"

static const double RADIUS = 4.2, BAR_END = 3.0, LEGEND_X = 580.0, LEGEND_WIDTH = 236.0;
enum { SHAPES = 4, DASHES = 4 };

typedef struct seen_chart {
    sl_graph graph;
    const sl_seen_curves *curves;
    const sl_compare *compare; /* theirs */
    int zone, n, order[SL_MAX_ARMS];
} seen_chart;

static const double dash[DASHES][4] = {
    {1.0, 0.0, 0.0, 0.0}, {6.0, 3.0, 6.0, 3.0}, {1.5, 2.5, 1.5, 2.5}, {8.0, 2.5, 1.5, 2.5}};

static void set_dash(cairo_t *cairo, int i)
{
    cairo_set_dash(cairo, dash[i % DASHES], i % DASHES == 0 ? 0 : 4, 0.0);
}

/* While the mix lies; what washing takes afterwards is in the legend. */
static void draw_curve(seen_chart *chart, int i)
{
    cairo_t *const cairo = chart->graph.canvas.cairo;
    const int arm = chart->order[i];
    if (sl_seen_curve_left(chart->curves, arm, SL_SEEN_STEPS, chart->zone) <= SL_NOT_READ) {
        return;
    }
    sl_canvas_grey(&chart->graph.canvas, 0.2);
    cairo_set_line_width(cairo, 1.1);
    set_dash(cairo, i);
    for (int step = 0; step <= SL_SEEN_STEPS; step++) {
        const double left = sl_seen_curve_left(chart->curves, arm, step, chart->zone);
        cairo_line_to(cairo, sl_graph_x(&chart->graph, sl_seen_curve_min(chart->curves, arm, step)),
                      sl_graph_y(&chart->graph, 100.0 * left));
    }
    cairo_stroke(cairo);
    cairo_set_dash(cairo, NULL, 0, 0.0);
}

/* Ring, square, triangle, diamond; filled for every second four. */
static void draw_shape(sl_canvas *canvas, double x, double y, int i)
{
    static const double corners[SHAPES][4][2] = {{{0.0}},
                                                 {{-1.0, -1.0}, {1.0, -1.0}, {1.0, 1.0}, {-1.0, 1.0}},
                                                 {{0.0, -1.2}, {1.2, 1.0}, {-1.2, 1.0}, {0.0, -1.2}},
                                                 {{0.0, -1.4}, {1.4, 0.0}, {0.0, 1.4}, {-1.4, 0.0}}};
    cairo_t *const cairo = canvas->cairo;
    cairo_new_path(cairo);
    if (i % SHAPES == 0) {
        cairo_arc(cairo, x, y, RADIUS, 0.0, 4.0 * acos(0.0));
    } else {
        for (int corner = 0; corner < 4; corner++) {
            cairo_line_to(cairo, x + RADIUS * corners[i % SHAPES][corner][0],
                          y + RADIUS * corners[i % SHAPES][corner][1]);
        }
        cairo_close_path(cairo);
    }
    sl_canvas_grey(canvas, i / SHAPES % 2 == 1 ? 0.0 : 1.0);
    cairo_fill_preserve(cairo);
    sl_canvas_grey(canvas, 0.0);
    cairo_set_line_width(cairo, 1.2);
    cairo_stroke(cairo);
}

static void draw_mean(seen_chart *chart, int i, double minute, const sl_seen_mean *mean)
{
    cairo_t *const cairo = chart->graph.canvas.cairo;
    /* Arms stand beside each other, so that bars at one minute can be told apart. */
    const double x = sl_graph_x(&chart->graph, minute) + 5.0 * (i - 0.5 * (chart->n - 1));
    const double y = sl_graph_y(&chart->graph, 100.0 * fmin(mean->mean, 1.1));
    if (mean->half > 0.0) {
        const double low = sl_graph_y(&chart->graph, 100.0 * fmax(mean->mean - mean->half, 0.0));
        const double high = sl_graph_y(&chart->graph, 100.0 * fmin(mean->mean + mean->half, 1.1));
        const double pieces[3][4] = {
            {x, low, x, high}, {x - BAR_END, low, x + BAR_END, low}, {x - BAR_END, high, x + BAR_END, high}};
        sl_canvas_grey(&chart->graph.canvas, 0.35);
        cairo_set_line_width(cairo, 0.9);
        for (int piece = 0; piece < 3; piece++) {
            cairo_move_to(cairo, pieces[piece][0], pieces[piece][1]);
            cairo_line_to(cairo, pieces[piece][2], pieces[piece][3]);
            cairo_stroke(cairo);
        }
    }
    draw_shape(&chart->graph.canvas, x, y, i);
}

static void draw_means(seen_chart *chart, int i)
{
    const int arm = chart->order[i];
    const sl_seen_mean *const end =
        &sl_compare_arm(chart->compare, arm, chart->zone)->seen[chart->compare->basis[chart->zone]];
    for (int k = 0; k < chart->curves->n_points; k++) {
        const sl_seen_point *const point = &chart->curves->points[k];
        if (point->arm == arm && point->zone == chart->zone) {
            draw_mean(chart, i, point->minute, &point->seen);
        }
    }
    if (end->n > 0) {
        draw_mean(chart, i, chart->curves->until_min[arm], end);
    }
}

static void draw_legend(seen_chart *chart)
{
    const sl_paper_face face = {.size = 9.5, .grey = 0.1, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face light = {.size = 8.4, .grey = 0.25, .align = PANGO_ALIGN_LEFT};
    sl_canvas *const canvas = &chart->graph.canvas;
    double y = chart->graph.top - 20.0;
    for (int i = 0; i < chart->n; i++) {
        const sl_seen_arm *const arm = sl_compare_arm(chart->compare, chart->order[i], chart->zone);
        char place[24] = "-", seen[48], model[16] = "-", text[200];
        if (arm->place > 0) {
            sl_compare_place_words(chart->compare, chart->order[i], chart->zone, place, sizeof place);
        }
        sl_seen_mean_words(&arm->seen[chart->compare->basis[chart->zone]], seen, sizeof seen);
        if (arm->predicted > SL_NOT_READ) {
            sl_percent(arm->predicted, model, sizeof model);
        }
        snprintf(text, sizeof text, _("place %s; seen %s; model %s %%"), place, seen, model);
        sl_canvas_grey(canvas, 0.2);
        cairo_set_line_width(canvas->cairo, 1.1);
        set_dash(canvas->cairo, i);
        cairo_move_to(canvas->cairo, LEGEND_X - 10.0, y + 7.0);
        cairo_line_to(canvas->cairo, LEGEND_X + 16.0, y + 7.0);
        cairo_stroke(canvas->cairo);
        cairo_set_dash(canvas->cairo, NULL, 0, 0.0);
        draw_shape(canvas, LEGEND_X + 3.0, y + 7.0, i);
        y += sl_canvas_text(canvas, LEGEND_X + 22.0, y, LEGEND_WIDTH - 22.0, 1, face,
                            sl_arm_title(&chart->compare->scene->arms[chart->order[i]]));
        y += 3.0 + sl_canvas_text(canvas, LEGEND_X + 22.0, y, LEGEND_WIDTH - 22.0, 1, light, text);
    }
    char first[640] = "", noise[400], text[1600];
    if (sl_compare_shows(chart->compare, chart->zone)) {
        sl_compare_first_words(chart->compare, chart->zone, first, sizeof first);
    }
    sl_compare_floor_words(chart->compare, chart->zone, noise, sizeof noise);
    snprintf(text, sizeof text, "%s\n%s\n%s", first, noise, sl_seen_key_words(chart->curves));
    sl_canvas_text(canvas, LEGEND_X - 10.0, y + 5.0, LEGEND_WIDTH + 10.0, 0, light, text);
}

static void draw_all(seen_chart *chart)
{
    const sl_compare *const compare = chart->compare;
    char title[240], under[400], note[320];
    snprintf(title, sizeof title, _("\"%s\": what was seen, over what the model predicts"),
             sl_zone_title(&compare->scene->zones[chart->zone]));
    snprintf(under, sizeof under, _("%s; test %.8s of %.10s; %s; swatches on a bench"), compare->test.title,
             compare->test.id, compare->test.made,
             compare->basis[chart->zone] == SL_BASIS_COLOUR ? _("by the instrument") : _("by wipe grades"));
    sl_example_note(compare->scene, note, sizeof note);
    sl_graph_draw_frame(&chart->graph, title, under, note);
    for (int i = 0; i < chart->n; i++) {
        draw_curve(chart, i);
    }
    for (int i = 0; i < chart->n; i++) {
        draw_means(chart, i);
    }
    draw_legend(chart);
    sl_graph_draw_foot(
        &chart->graph,
        compare->rehearsal
            ? _("A rehearsal: its clock ran fast. No hair lay so long.")
            : _("What swatches did, beside a classroom model. Real heads differ from swatches. "
                "Times for nobody's head."));
}

bool sl_paper_seen(const char *path, const sl_seen_curves *curves, int zone, sl_error *error)
{
    seen_chart chart = {.graph = {.x = {0.0, 0.0, _("time since contact (min)")},
                                  .y = {0.0, 110.0, _("colour left (% of the start)")}},
                        .curves = curves,
                        .compare = curves->compare,
                        .zone = zone};
    const int longest_min = sl_seen_longest_min(curves, zone);
    chart.n = sl_seen_order(curves, zone, chart.order);
    chart.graph.x.to = longest_min + fmax(2.0, 0.1 * longest_min);
    if (!sl_canvas_begin(&chart.graph.canvas, path, error) ||
        !sl_canvas_open(&chart.graph.canvas, SL_GRAPH_WIDTH, SL_GRAPH_HEIGHT, _("slowlift: what was seen"),
                        error)) {
        return false;
    }
    draw_all(&chart);
    return sl_canvas_commit(&chart.graph.canvas, error);
}
