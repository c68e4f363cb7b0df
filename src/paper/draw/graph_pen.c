/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See graph_pen.h.
 */
#include "paper/draw/graph_pen.h"

static const double grey[SL_GRAPH_INKS] = {[SL_GRAPH_INK] = 0.05,
                                           [SL_GRAPH_GREY] = 0.45,
                                           [SL_GRAPH_GRID] = 0.88,
                                           [SL_GRAPH_PLATE] = 1.0,
                                           [SL_GRAPH_SHADE] = 0.84};
static const double HATCH = 6.5, HATCH_LINE = 0.6; /* units */

static void path(cairo_t *cairo, const sl_graph_point *at, int n)
{
    cairo_new_path(cairo);
    for (int i = 0; i < n; i++) {
        if (isnan(at[i].x)) {
            cairo_new_sub_path(cairo);
        } else {
            cairo_line_to(cairo, at[i].x, at[i].y);
        }
    }
}

static void line(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, double width,
                 sl_graph_dash dash)
{
    const sl_page_pen *const page = self;
    cairo_t *const cairo = page->canvas->cairo;
    double dashes[4];
    for (int i = 0; i < 4; i++) {
        dashes[i] = SL_GRAPH_DASH[dash][i] * page->unit;
    }
    cairo_save(cairo);
    cairo_set_dash(cairo, dashes, dash == SL_GRAPH_UNBROKEN ? 0 : 4, 0.0);
    cairo_set_line_cap(cairo, dash == SL_GRAPH_UNBROKEN ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_width(cairo, width);
    sl_canvas_grey(page->canvas, grey[ink]);
    path(cairo, at, n);
    cairo_stroke(cairo);
    cairo_restore(cairo);
}

/* Climbing lines over what is clipped, the same all over the page. */
static void stripe(cairo_t *cairo, double unit)
{
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
    const double step = HATCH * unit;
    cairo_clip_extents(cairo, &left, &top, &right, &bottom);
    for (double sum = step * ceil((left + top) / step); sum < right + bottom; sum += step) {
        cairo_move_to(cairo, sum - bottom, bottom);
        cairo_line_to(cairo, sum - top, top);
    }
    cairo_set_line_width(cairo, HATCH_LINE * unit);
    cairo_stroke(cairo);
}

static void fill(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, sl_graph_pattern pattern)
{
    const sl_page_pen *const page = self;
    cairo_t *const cairo = page->canvas->cairo;
    cairo_save(cairo);
    sl_canvas_grey(page->canvas, grey[ink]);
    path(cairo, at, n);
    if (pattern == SL_GRAPH_STRIPES) {
        cairo_clip(cairo);
        stripe(cairo, page->unit);
    } else {
        cairo_fill(cairo);
    }
    cairo_restore(cairo);
}

/* ---- words -------------------------------------------------------------------------------------------- */

static const double ONE_LINE = 4000.0;

static sl_paper_face face_of(const sl_page_pen *page, sl_graph_type type, sl_graph_ink ink)
{
    static const double size[SL_GRAPH_TYPES] = {
        [SL_GRAPH_TICK] = 9.5, [SL_GRAPH_NAME] = 10.0, [SL_GRAPH_LABEL] = 10.0, [SL_GRAPH_NOTE] = 8.4};
    return (sl_paper_face){.size = size[type] * page->unit,
                           .bold = type == SL_GRAPH_NAME || type == SL_GRAPH_LABEL,
                           .grey = grey[ink],
                           .align = PANGO_ALIGN_LEFT};
}

static void text(void *self, sl_graph_point at, double width, sl_graph_type type, sl_graph_ink ink,
                 const char *words)
{
    const sl_page_pen *const page = self;
    sl_canvas_text(page->canvas, at.x, at.y, width > 0.0 ? width : ONE_LINE, width > 0.0 ? 0 : 1,
                   face_of(page, type, ink), words);
}

static sl_graph_point measure(void *self, double width, sl_graph_type type, const char *words)
{
    const sl_page_pen *const page = self;
    int wide = 0;
    const double high = sl_canvas_measure(page->canvas, width > 0.0 ? width : ONE_LINE, width > 0.0 ? 0 : 1,
                                          face_of(page, type, SL_GRAPH_INK), words);
    pango_layout_get_size(page->canvas->layout, &wide, NULL);
    return (sl_graph_point){(double)wide / PANGO_SCALE, high};
}

sl_graph_pen sl_graph_pen_on_page(sl_page_pen *page)
{
    static const sl_graph_pen_kind kind = {line, fill, text, measure};
    return (sl_graph_pen){&kind, page, page->unit};
}
