/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values over a grid. Between its points they are read along straight lines in both directions (bilinear). A
 * region is cut into thin level strips, each as long as all of its fields are 0 or more; lines of equal value
 * are those of marching squares (slowlift/map.h), a row of squares at a time, so that nothing is allocated.
 */
#include "graph/field.h"
#include "slowlift/map.h"

enum { FINE = 8, PARTS = 2048, MOST_PIECES = 2 * (SL_MAP_MOST - 1) }; /* strips in the height of a square */

static sl_graph_point place(const sl_graph_field *field, double x, double y)
{
    const sl_graph_relief *const relief = &field->graph->relief;
    return (sl_graph_point){field->box.x + field->box.w * x / (relief->nx - 1),
                            field->box.y + field->box.h * (1.0 - y / (relief->ny - 1))};
}

/* ---- regions ------------------------------------------------------------------------------------------- */

/* Where a level line at the height y, in steps of the grid, is inside between column i and the next. */
static bool inside_between(const sl_graph_relief *relief, const sl_graph_region *region, double y, int i,
                           double *from, double *to)
{
    const int row = (int)floor(y);
    const double v = y - row;
    *from = 0.0;
    *to = 1.0;
    for (int k = 0; k < region->n; k++) {
        const double *const at = region->field[k] + row * relief->nx + i, *const above = at + relief->nx;
        const double left = (1.0 - v) * at[0] + v * above[0], right = (1.0 - v) * at[1] + v * above[1];
        if (left < 0.0) {
            *from = fmax(*from, left / (left - right));
        }
        if (right < 0.0) {
            *to = fmin(*to, left / (left - right));
        }
        if (isnan(left + right) || (left < 0.0 && right < 0.0)) {
            return false;
        }
    }
    return *from < *to;
}

typedef struct region_pen {
    const sl_graph_field *field;
    sl_graph_ink ink;
    sl_graph_pattern pattern;
    sl_graph_point at[PARTS]; /* strips that wait to be filled together, lest seams show between them */
    int n;
} region_pen;

static void fill_strips(region_pen *region)
{
    const sl_graph_pen *const pen = region->field->pen;
    if (region->n > 0) {
        pen->kind->fill(pen->self, region->at, region->n, region->ink, region->pattern);
    }
    region->n = 0;
}

static void add_strip(region_pen *region, double from, double to, double low, double high)
{
    if (region->n + 5 > PARTS) {
        fill_strips(region);
    }
    const double x[4] = {from, to, to, from}, y[4] = {low, low, high, high};
    for (int c = 0; c < 4; c++) {
        region->at[region->n++] = place(region->field, x[c], y[c]);
    }
    region->at[region->n++] = SL_GRAPH_LIFT;
}

static void draw_region(const sl_graph_field *field, const sl_graph_region *region, sl_graph_ink ink,
                        sl_graph_pattern pattern)
{
    const sl_graph_relief *const relief = &field->graph->relief;
    region_pen pen = {.field = field, .ink = ink, .pattern = pattern};
    for (int strip = 0; region->n > 0 && strip < (relief->ny - 1) * FINE; strip++) {
        double begun = 0.0, ended = -1.0; /* nothing begun yet */
        for (int i = 0; i + 1 < relief->nx; i++) {
            double from = 0.0, to = 0.0;
            if (!inside_between(relief, region, (strip + 0.5) / FINE, i, &from, &to)) {
                continue;
            }
            if (ended >= 0.0 && ended < i + from) {
                add_strip(&pen, begun, ended, (double)strip / FINE, (strip + 1.0) / FINE);
            }
            begun = ended < i + from ? i + from : begun;
            ended = i + to;
        }
        if (ended >= 0.0) {
            add_strip(&pen, begun, ended, (double)strip / FINE, (strip + 1.0) / FINE);
        }
    }
    fill_strips(&pen);
}

void sl_graph_draw_regions(const sl_graph_field *field)
{
    draw_region(field, &field->graph->relief.shaded, SL_GRAPH_SHADE, SL_GRAPH_WHOLE);
    draw_region(field, &field->graph->relief.striped, SL_GRAPH_GREY, SL_GRAPH_STRIPES);
}

/* ---- lines of equal value ----------------------------------------------------------------------------- */

/* Of the squares between two rows of the grid, in places of the field: piece i from at[3 i] to at[3 i + 1].
 */
static int pieces_of_row(const sl_graph_field *field, const sl_graph_line *line, int j, sl_graph_point *at)
{
    const sl_graph_relief *const relief = &field->graph->relief;
    sl_contour_piece piece[MOST_PIECES];
    const int n = sl_contour(line->value + j * relief->nx, relief->nx, 2, line->level, piece);
    for (int i = 0; i < n; i++) {
        at[3 * i] = place(field, piece[i].x0, j + piece[i].y0);
        at[3 * i + 1] = place(field, piece[i].x1, j + piece[i].y1);
        at[3 * i + 2] = SL_GRAPH_LIFT;
    }
    return n;
}

static void draw_line(const sl_graph_field *field, const sl_graph_line *line)
{
    const sl_graph_pen *const pen = field->pen;
    sl_graph_point at[3 * MOST_PIECES];
    for (int j = 0; j + 1 < field->graph->relief.ny; j++) {
        const int n = pieces_of_row(field, line, j, at);
        if (n > 0) {
            pen->kind->line(pen->self, at, 3 * n - 1, SL_GRAPH_INK, (line->strong ? 3.0 : 1.2) * pen->unit,
                            SL_GRAPH_UNBROKEN);
        }
    }
}

/* How far from a line that climbs across the field, along which labels spread; shares of the field. */
static double away(const sl_graph_field *field, sl_graph_point at)
{
    const double x = (at.x - field->box.x) / field->box.w, y = (at.y - field->box.y) / field->box.h;
    return fabs(y - (0.85 - 0.7 * x));
}

static void draw_line_label(sl_graph_field *field, const sl_graph_line *line)
{
    sl_graph_point at[3 * MOST_PIECES], best = {0.0, 0.0};
    double least = HUGE_VAL;
    const sl_graph_point size = field->pen->kind->measure(field->pen->self, 0.0, SL_GRAPH_TICK, line->label);
    for (int j = 0; j + 1 < field->graph->relief.ny; j++) {
        const int n = pieces_of_row(field, line, j, at);
        for (int i = 0; i < n; i++) {
            const sl_graph_point middle = {0.5 * (at[3 * i].x + at[3 * i + 1].x),
                                           0.5 * (at[3 * i].y + at[3 * i + 1].y)};
            const sl_graph_box plate = {middle.x - 0.6 * size.x, middle.y - 0.6 * size.y, 1.2 * size.x,
                                        1.2 * size.y};
            if (away(field, middle) < least && sl_graph_place_free(field, plate)) {
                least = away(field, middle);
                best = middle;
            }
        }
    }
    if (least < HUGE_VAL) {
        sl_graph_draw_plate(field, best, SL_GRAPH_TICK, line->label);
    }
}

void sl_graph_draw_lines(sl_graph_field *field)
{
    const sl_graph_relief *const relief = &field->graph->relief;
    for (int i = 0; i < relief->n_lines; i++) {
        draw_line(field, &relief->line[i]);
    }
    for (int i = relief->n_lines - 1; i >= 0; i--) {
        draw_line_label(field, &relief->line[i]);
    }
}
