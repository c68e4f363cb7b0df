/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See chart.h.
 */
#include "paper/charts/chart.h"

#include <math.h>

#include "base/language.h"
#include "document/text.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

const double SL_GRAPH_WIDTH = 842.0, SL_GRAPH_HEIGHT = 595.0; /* A4 on its side */
static const double MARGIN = 30.0, FIELD_LEFT = 92.0, FIELD_WIDTH = 470.0, FIELD_TOP = 92.0,
                    FIELD_HEIGHT = 330.0;
static const double TICK = 4.0, TICK_TEXT = 60.0, INK = 0.1;
static const double GAP = 18.0, SIGNAL = 40.0;

double sl_graph_x(const sl_graph *chart, double value)
{
    return chart->left + chart->width * (value - chart->x.from) / (chart->x.to - chart->x.from);
}

double sl_graph_y(const sl_graph *chart, double value)
{
    return chart->top + chart->height * (1.0 - (value - chart->y.from) / (chart->y.to - chart->y.from));
}

double sl_graph_step(double span)
{
    static const double most = 10.0;
    const double power = pow(10.0, floor(log10(span / most)));
    const double needed = span / most / power;
    return power * (needed <= 1.0 ? 1.0 : needed <= 2.0 ? 2.0 : needed <= 5.0 ? 5.0 : 10.0);
}

void sl_graph_label(sl_graph *chart, double x, double y, double size, const char *text)
{
    const sl_paper_face face = {.size = size, .grey = INK, .align = PANGO_ALIGN_CENTER};
    cairo_t *const cairo = chart->canvas.cairo;
    const double height = sl_canvas_measure(&chart->canvas, 120.0, 1, face, text);
    int width = 0;
    pango_layout_set_width(chart->canvas.layout, -1);
    pango_layout_get_size(chart->canvas.layout, &width, NULL);
    const double wide = (double)width / PANGO_SCALE;
    sl_canvas_grey(&chart->canvas, 1.0);
    cairo_rectangle(cairo, x - 0.5 * wide - 2.0, y - 0.5 * height, wide + 4.0, height);
    cairo_fill(cairo);
    sl_canvas_text(&chart->canvas, x - 60.0, y - 0.5 * height, 120.0, 1, face, text);
}

static void tick_words(double value, char *text, size_t size)
{
    sl_short_number(value, 2, text, size);
}

static void line(cairo_t *cairo, double x0, double y0, double x1, double y1)
{
    cairo_move_to(cairo, x0, y0);
    cairo_line_to(cairo, x1, y1);
    cairo_stroke(cairo);
}

static void draw_x_ticks(sl_graph *chart)
{
    const sl_paper_face face = {.size = 9.5, .grey = INK, .align = PANGO_ALIGN_CENTER};
    const double step = sl_graph_step(chart->x.to - chart->x.from);
    const double bottom = chart->top + chart->height;
    for (double i = ceil(chart->x.from / step - 1e-9); i * step <= chart->x.to * (1.0 + 1e-9) + 1e-12; i++) {
        char text[24];
        const double x = sl_graph_x(chart, i * step);
        sl_canvas_grey(&chart->canvas, 0.88);
        line(chart->canvas.cairo, x, chart->top, x, bottom);
        sl_canvas_grey(&chart->canvas, INK);
        line(chart->canvas.cairo, x, bottom, x, bottom + TICK);
        tick_words(i * step, text, sizeof text);
        sl_canvas_text(&chart->canvas, x - 0.5 * TICK_TEXT, bottom + TICK + 1.0, TICK_TEXT, 1, face, text);
    }
}

static void draw_y_ticks(sl_graph *chart)
{
    const sl_paper_face face = {.size = 9.5, .grey = INK, .align = PANGO_ALIGN_RIGHT};
    const double step = sl_graph_step(chart->y.to - chart->y.from);
    for (double i = ceil(chart->y.from / step - 1e-9); i * step <= chart->y.to * (1.0 + 1e-9) + 1e-12; i++) {
        char text[24];
        const double y = sl_graph_y(chart, i * step);
        sl_canvas_grey(&chart->canvas, 0.88);
        line(chart->canvas.cairo, chart->left, y, chart->left + chart->width, y);
        sl_canvas_grey(&chart->canvas, INK);
        line(chart->canvas.cairo, chart->left - TICK, y, chart->left, y);
        tick_words(i * step, text, sizeof text);
        sl_canvas_text(&chart->canvas, chart->left - TICK - 2.0 - TICK_TEXT, y - 6.0, TICK_TEXT, 1, face,
                       text);
    }
}

static void draw_axis_titles(sl_graph *chart)
{
    const sl_paper_face face = {.size = 11.0, .bold = true, .grey = INK, .align = PANGO_ALIGN_CENTER};
    cairo_t *const cairo = chart->canvas.cairo;
    sl_canvas_text(&chart->canvas, chart->left, chart->top + chart->height + 20.0, chart->width, 1, face,
                   chart->x.title);
    cairo_save(cairo);
    cairo_translate(cairo, MARGIN + 4.0, chart->top + chart->height);
    cairo_rotate(cairo, -acos(0.0));
    sl_canvas_text(&chart->canvas, 0.0, 0.0, chart->height, 1, face, chart->y.title);
    cairo_restore(cairo);
}

void sl_graph_draw_frame(sl_graph *chart, const char *title, const char *under, const char *note)
{
    const sl_paper_face title_face = {.size = 16.0, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face face = {.size = 10.0, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    const double all = SL_GRAPH_WIDTH - 2.0 * MARGIN;
    double y = MARGIN - 8.0;
    chart->left = FIELD_LEFT;
    chart->top = FIELD_TOP;
    chart->width = FIELD_WIDTH;
    chart->height = FIELD_HEIGHT;
    y += sl_canvas_text(&chart->canvas, MARGIN, y, all, 1, title_face, title);
    y += sl_canvas_text(&chart->canvas, MARGIN, y + 2.0, all, 1, face, under) + 2.0;
    sl_canvas_text(&chart->canvas, MARGIN, y + 1.0, all, 1, face, note);
    cairo_set_line_width(chart->canvas.cairo, 0.8);
    draw_x_ticks(chart);
    draw_y_ticks(chart);
    sl_canvas_grey(&chart->canvas, INK);
    cairo_rectangle(chart->canvas.cairo, chart->left, chart->top, chart->width, chart->height);
    cairo_stroke(chart->canvas.cairo);
    draw_axis_titles(chart);
}

void sl_graph_draw_foot(sl_graph *chart, const char *words)
{
    const sl_paper_face face = {.size = 7.6, .grey = 0.25, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face small = {.size = 6.6, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    sl_paper_face bold = small;
    bold.bold = true;
    const double all = SL_GRAPH_WIDTH - 2.0 * MARGIN, width = 0.5 * (all - GAP);
    double y[2];
    y[0] = chart->top + chart->height + 42.0;
    y[0] += sl_canvas_text(&chart->canvas, MARGIN, y[0], all, 0, face, words) + 4.0;
    y[1] = y[0];
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        if (caution->always) {
            const int shorter = y[1] < y[0] ? 1 : 0;
            const double x = MARGIN + shorter * (width + GAP);
            sl_canvas_text(&chart->canvas, x, y[shorter], SIGNAL, 1, bold, _(caution->signal));
            y[shorter] += 3.0 + sl_canvas_text(&chart->canvas, x + SIGNAL, y[shorter], width - SIGNAL, 0,
                                               small, _(caution->text));
        }
    }
}
