/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A chart on an A4 page lying on its side: two axes with titles and units, notes beside, the
 * cautions that always stand below. Invariant: everything that tells something is a shape, a
 * pattern or a text; no colour is used. Values outside the axes are never drawn.
 */
#ifndef SLOWLIFT_PAPER_CHART_H
#define SLOWLIFT_PAPER_CHART_H

#include "log/compare/seen_curves.h"
#include "paper/draw/canvas.h"
#include "report/rank/map.h"
#include "report/rank/rank.h"

typedef struct sl_graph_axis {
    double from, to;
    const char *title; /* with its unit */
} sl_graph_axis;

typedef struct sl_graph {
    sl_canvas canvas;
    sl_graph_axis x, y;
    double left, top, width, height; /* of the field, points */
} sl_graph;

/* On an open canvas: title and lines above, axes with ticks and grid. */
void sl_graph_draw_frame(sl_graph *chart, const char *title, const char *line, const char *note);
void sl_graph_draw_foot(sl_graph *chart, const char *words);
double sl_graph_x(const sl_graph *chart, double value);
double sl_graph_y(const sl_graph *chart, double value);
/* A multiple of 1, 2 or 5 times a power of ten, so that 4 to 10 of them span this. */
double sl_graph_step(double span);
/* Text centred at (x, y) on a white plate. */
void sl_graph_label(sl_graph *chart, double x, double y, double size, const char *text);

extern const double SL_GRAPH_WIDTH, SL_GRAPH_HEIGHT;

/* ---- the pictures ------------------------------------------------------------------------ */

/* Colour left against hair stress of one zone. zone: as sl_rank_page.only, and never -1. */
bool sl_paper_ranks(const char *path, const sl_rank_page *page, int zone, sl_error *error);
/* Means over swatches of what was seen, over the predicted curves; zone as above. */
bool sl_paper_seen(const char *path, const sl_seen_curves *curves, int zone, sl_error *error);
/* Lines of equal value over two settings. */
bool sl_paper_map(const char *path, const sl_map_page *page, sl_error *error);

#endif
