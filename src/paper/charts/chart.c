/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See chart.h.
 */
#include "paper/charts/chart.h"

#include "base/language.h"
#include "document/renderers.h"
#include "paper/draw/graph_pen.h"
#include "slowlift/caution.h"

static const double WIDTH = 842.0, HEIGHT = 595.0; /* A4 on its side */
static const double MARGIN = 30.0, FIELD_WIDTH = 528.0, FIELD_HIGH = 384.0, SIGNAL = 40.0, GAP = 18.0;
static const double EACH = 480.0; /* of one of several */
static const double ROOM = 90.0;  /* below a graph, in HEIGHT */

/* The always-standing cautions in two columns, each in the shorter one; whole: not their short sentences.
 * draws: else they are measured alone. Returns where they end. */
static double put_cautions(sl_canvas *canvas, double top, bool whole, bool draws)
{
    const sl_paper_face small = {.size = 6.6, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    sl_paper_face bold = small;
    bold.bold = true;
    const double width = 0.5 * (WIDTH - 2.0 * MARGIN - GAP);
    double y[2] = {top, top};
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        if (caution->always) {
            const int shorter = y[1] < y[0] ? 1 : 0;
            const double x = MARGIN + shorter * (width + GAP);
            const char *const words = whole ? _(caution->text) : sl_caution_short((sl_caution_id)id);
            if (draws) {
                sl_canvas_text(canvas, x, y[shorter], SIGNAL, 1, bold, _(caution->signal));
                sl_canvas_text(canvas, x + SIGNAL, y[shorter], width - SIGNAL, 0, small, words);
            }
            y[shorter] += 3.0 + sl_canvas_measure(canvas, width - SIGNAL, 0, small, words);
        }
    }
    return y[0] > y[1] ? y[0] : y[1];
}

/* A graph and its key below `top`; returns where the next may begin. */
static double draw_graph(sl_canvas *canvas, const sl_graph *graph, double top)
{
    const sl_paper_face title = {.size = 16.0, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face face = {.size = 10.0, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face note = {.size = 8.4, .grey = 0.1, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face foot = {.size = 7.6, .grey = 0.25, .align = PANGO_ALIGN_LEFT};
    const double all = WIDTH - 2.0 * MARGIN;
    sl_page_pen page = {canvas, 1.0};
    const sl_graph_pen pen = sl_graph_pen_on_page(&page);
    double y = top + MARGIN - 8.0;
    y += sl_canvas_text(canvas, MARGIN, y, all, 1, title, graph->title) + 2.0;
    y += sl_canvas_text(canvas, MARGIN, y, all, 0, face, graph->under) + 8.0;
    const double key = MARGIN + FIELD_WIDTH + GAP, wide = WIDTH - MARGIN - key;
    sl_graph_draw(graph, &pen, (sl_graph_box){MARGIN, y, FIELD_WIDTH, FIELD_HIGH});
    double words = y + 4.0 + sl_graph_draw_key(graph, &pen, (sl_graph_box){key, y, wide, FIELD_HIGH});
    words += 4.0 + sl_canvas_text(canvas, key, words, wide, 0, note, graph->note);
    sl_canvas_text(canvas, key, words, wide, 0, note, graph->says);
    y += FIELD_HIGH + 8.0;
    return y + sl_canvas_text(canvas, MARGIN, y, all, 0, foot, graph->foot) + 4.0;
}

/* How high the cautions are, whole. */
static bool cautions_high(double *high, sl_error *error)
{
    sl_canvas measure;
    if (!sl_canvas_open_pixels(&measure, WIDTH, 1.0, 1.0, false, error)) {
        return false;
    }
    *high = put_cautions(&measure, 0.0, true, false);
    sl_canvas_close(&measure);
    return true;
}

/* A page of each graph; cautions that have no room below it stand there in short, and whole on the last. */
static void draw_pages(sl_canvas *canvas, const sl_graph *const *graphs, int n, double high)
{
    bool elsewhere = false;
    for (int i = 0; i < n; i++) {
        const double below = draw_graph(canvas, graphs[i], 0.0);
        const bool whole = below + high <= HEIGHT;
        put_cautions(canvas, below, whole, true);
        elsewhere = elsewhere || !whole;
        if (i + 1 < n || elsewhere) {
            cairo_show_page(canvas->cairo);
        }
    }
    if (elsewhere) {
        put_cautions(canvas, MARGIN, true, true);
    }
}

bool sl_paper_graphs(const char *path, const char *title, const sl_graph *const *graphs, int n,
                     sl_error *error)
{
    sl_canvas canvas;
    double high = 0.0;
    for (int i = 0; i < n; i++) {
        if (graphs[i] == NULL) {
            return false;
        }
    }
    if (!sl_canvas_begin(&canvas, path, error)) {
        return false;
    }
    if (!cautions_high(&high, error)) {
        sl_canvas_abandon(&canvas);
        return false;
    }
    const bool pages = canvas.kind == SL_PAPER_PDF;
    const double more = high > ROOM ? high - ROOM : 0.0;
    if (!sl_canvas_open(&canvas, WIDTH, HEIGHT + (pages ? 0.0 : (n - 1) * EACH + more), title, error)) {
        return false;
    }
    if (pages) {
        draw_pages(&canvas, graphs, n, high);
    } else {
        double below = 0.0;
        for (int i = 0; i < n; i++) {
            below = draw_graph(&canvas, graphs[i], i * EACH);
        }
        put_cautions(&canvas, below, true, true);
    }
    return sl_canvas_commit(&canvas, error);
}
