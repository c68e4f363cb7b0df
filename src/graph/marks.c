/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Curves cut at the edges of the field, spreads, and marks as polygons: ring, square, triangle, diamond,
 * hollow or filled.
 */
#include "graph/field.h"

static const double RADIUS = 4.8, BAR_END = 3.0; /* units */
enum { RING = 20, MOST_CORNERS = RING, CHUNK = 256 };

const double SL_GRAPH_DASH[SL_GRAPH_DASHES][4] = {[SL_GRAPH_UNBROKEN] = {1.0, 0.0, 1.0, 0.0},
                                                  [SL_GRAPH_LONG] = {7.0, 3.5, 7.0, 3.5},
                                                  [SL_GRAPH_DOTS] = {1.5, 3.0, 1.5, 3.0},
                                                  [SL_GRAPH_DASH_DOT] = {9.0, 3.0, 1.5, 3.0}};

/* ---- curves --------------------------------------------------------------------------------------- */

/* The part of a piece that lies in the box, by the shares of it where each edge is crossed. */
static bool cut(sl_graph_box box, sl_graph_point *a, sl_graph_point *b)
{
    const double dx = b->x - a->x, dy = b->y - a->y;
    const double step[4] = {-dx, dx, -dy, dy};
    const double room[4] = {a->x - box.x, box.x + box.w - a->x, a->y - box.y, box.y + box.h - a->y};
    double from = 0.0, to = 1.0;
    for (int edge = 0; edge < 4; edge++) {
        if (step[edge] < 0.0) {
            from = fmax(from, room[edge] / step[edge]);
        } else if (step[edge] > 0.0) {
            to = fmin(to, room[edge] / step[edge]);
        } else if (room[edge] < 0.0) {
            return false;
        }
    }
    const sl_graph_point start = *a;
    if (!(from < to)) {
        return false;
    }
    *a = from > 0.0 ? (sl_graph_point){start.x + from * dx, start.y + from * dy} : start;
    *b = to < 1.0 ? (sl_graph_point){start.x + to * dx, start.y + to * dy} : *b;
    return true;
}

void sl_graph_draw_curve(const sl_graph_field *field, const sl_graph_series *series)
{
    const sl_graph_pen *const pen = field->pen;
    const double width = (series->strong ? 2.6 : 1.4) * pen->unit;
    sl_graph_point at[CHUNK], last = SL_GRAPH_LIFT;
    int n = 0;
    for (int i = 0; i + 1 < series->n; i++) {
        sl_graph_point a = sl_graph_mark_at(field, series, i), b = sl_graph_mark_at(field, series, i + 1);
        if (!cut(field->box, &a, &b)) {
            continue;
        }
        if (n + 3 > CHUNK) {
            pen->kind->line(pen->self, at, n, SL_GRAPH_INK, width, series->dash);
            n = 0;
            last = SL_GRAPH_LIFT;
        }
        if (n == 0 || a.x != last.x || a.y != last.y) {
            if (n > 0) {
                at[n++] = SL_GRAPH_LIFT;
            }
            at[n++] = a;
        }
        at[n++] = last = b;
    }
    if (n > 0) {
        pen->kind->line(pen->self, at, n, SL_GRAPH_INK, width, series->dash);
    }
}

/* ---- marks ---------------------------------------------------------------------------------------- */

sl_graph_point sl_graph_mark_at(const sl_graph_field *field, const sl_graph_series *series, int i)
{
    return (sl_graph_point){sl_graph_at_x(field, series->x[i]) + series->aside * field->pen->unit,
                            sl_graph_at_y(field, series->y[i])};
}

bool sl_graph_holds(const sl_graph_field *field, sl_graph_point at)
{
    const sl_graph_box box = field->box;
    const double near = 1e-6 * (box.w + box.h); /* a value at the axis' end is inside */
    return at.x >= box.x - near && at.x <= box.x + box.w + near && at.y >= box.y - near &&
           at.y <= box.y + box.h + near;
}

static void draw_bar(const sl_graph_field *field, sl_graph_point from, sl_graph_point to, bool across)
{
    const sl_graph_pen *const pen = field->pen;
    const double end = BAR_END * pen->unit, x = across ? 0.0 : end, y = across ? end : 0.0;
    sl_graph_point at[8] = {from,
                            to,
                            SL_GRAPH_LIFT,
                            {from.x - x, from.y - y},
                            {from.x + x, from.y + y},
                            SL_GRAPH_LIFT,
                            {to.x - x, to.y - y},
                            {to.x + x, to.y + y}};
    const sl_graph_box box = field->box;
    for (int i = 0; i < 8; i++) {
        at[i].x = isnan(at[i].x) ? at[i].x : fmax(box.x, fmin(box.x + box.w, at[i].x));
        at[i].y = isnan(at[i].y) ? at[i].y : fmax(box.y, fmin(box.y + box.h, at[i].y));
    }
    pen->kind->line(pen->self, at, 8, SL_GRAPH_GREY, 1.1 * pen->unit, SL_GRAPH_UNBROKEN);
}

void sl_graph_draw_spreads(const sl_graph_field *field, const sl_graph_series *series)
{
    for (int i = 0; i < series->n; i++) {
        const sl_graph_point at = sl_graph_mark_at(field, series, i);
        const double aside = series->aside * field->pen->unit;
        if (!sl_graph_holds(field, at)) {
            continue;
        }
        if (series->x_low != NULL && series->x_high[i] > series->x_low[i]) {
            draw_bar(field, (sl_graph_point){sl_graph_at_x(field, series->x_low[i]) + aside, at.y},
                     (sl_graph_point){sl_graph_at_x(field, series->x_high[i]) + aside, at.y}, true);
        }
        if (series->y_low != NULL && series->y_high[i] > series->y_low[i]) {
            draw_bar(field, (sl_graph_point){at.x, sl_graph_at_y(field, series->y_low[i])},
                     (sl_graph_point){at.x, sl_graph_at_y(field, series->y_high[i])}, false);
        }
    }
}

static int corners_of(sl_graph_shape shape, sl_graph_point corner[MOST_CORNERS])
{
    static const sl_graph_point square[4] = {{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}},
                                triangle[4] = {{0.0, -1.2}, {1.2, 1.0}, {-1.2, 1.0}, {0.0, -1.2}},
                                diamond[4] = {{0.0, -1.4}, {1.4, 0.0}, {0.0, 1.4}, {-1.4, 0.0}};
    if (shape == SL_GRAPH_RING) {
        for (int i = 0; i < RING; i++) {
            const double turn = 4.0 * acos(0.0) * i / RING;
            corner[i] = (sl_graph_point){cos(turn), sin(turn)};
        }
        return RING;
    }
    for (int i = 0; i < 4; i++) {
        corner[i] = shape == SL_GRAPH_SQUARE     ? square[i]
                    : shape == SL_GRAPH_TRIANGLE ? triangle[i]
                                                 : diamond[i];
    }
    return 4;
}

void sl_graph_draw_mark(const sl_graph_pen *pen, sl_graph_point middle, const sl_graph_series *series)
{
    sl_graph_point at[MOST_CORNERS + 1];
    const int n = corners_of(series->shape, at);
    for (int i = 0; i < n; i++) {
        at[i].x = middle.x + RADIUS * pen->unit * at[i].x;
        at[i].y = middle.y + RADIUS * pen->unit * at[i].y;
    }
    at[n] = at[0];
    pen->kind->fill(pen->self, at, n, series->strong ? SL_GRAPH_INK : SL_GRAPH_PLATE, SL_GRAPH_WHOLE);
    pen->kind->line(pen->self, at, n + 1, SL_GRAPH_INK, 1.4 * pen->unit, SL_GRAPH_UNBROKEN);
}

void sl_graph_draw_marks(sl_graph_field *field, const sl_graph_series *series)
{
    const double radius = 1.4 * RADIUS * field->pen->unit;
    for (int i = 0; i < series->n; i++) {
        const sl_graph_point at = sl_graph_mark_at(field, series, i);
        if (sl_graph_holds(field, at)) {
            sl_graph_draw_mark(field->pen, at, series);
            sl_graph_take(field, (sl_graph_box){at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius});
        }
    }
}
