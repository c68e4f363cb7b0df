/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values over a grid. Regions are the squares of the grid, each cut along the straight lines on which a field
 * is 0 (Sutherland and Hodgman's way of cutting a polygon: Communications of the ACM 17, 1974, 32); lines of
 * equal value are those of marching squares (slowlift/map.h), a row of squares at a time, so that nothing is
 * allocated.
 */
#include <string.h>

#include "graph/field.h"
#include "slowlift/map.h"

enum { MOST_OF_A_SQUARE = 4 + SL_GRAPH_FIELDS, PARTS = 2048, MOST_PIECES = 2 * (SL_MAP_MOST - 1) };

typedef struct corner {
    sl_graph_point at; /* steps of the grid */
    double field[SL_GRAPH_FIELDS];
} corner;

static sl_graph_point place(const sl_graph_field *field, double x, double y)
{
    const sl_graph_relief *const relief = &field->graph->relief;
    return (sl_graph_point){field->box.x + field->box.w * x / (relief->nx - 1),
                            field->box.y + field->box.h * (1.0 - y / (relief->ny - 1))};
}

static corner between(const corner *a, const corner *b, int which, int n)
{
    const double share = a->field[which] / (a->field[which] - b->field[which]);
    corner cut = {.at = {a->at.x + share * (b->at.x - a->at.x), a->at.y + share * (b->at.y - a->at.y)}};
    for (int k = 0; k < n; k++) {
        cut.field[k] = a->field[k] + share * (b->field[k] - a->field[k]);
    }
    return cut;
}

/* What is left of a polygon where one of its fields is 0 or more. */
static int cut(corner *polygon, int n, int which, int n_fields)
{
    corner kept[MOST_OF_A_SQUARE];
    int count = 0;
    for (int i = 0; i < n; i++) {
        const corner *const here = &polygon[i], *const next = &polygon[(i + 1) % n];
        const bool in = here->field[which] >= 0.0, then = next->field[which] >= 0.0;
        if (in && count < MOST_OF_A_SQUARE) {
            kept[count++] = *here;
        }
        if (in != then && count < MOST_OF_A_SQUARE) {
            kept[count++] = between(here, next, which, n_fields);
        }
    }
    for (int i = 0; i < count; i++) {
        polygon[i] = kept[i];
    }
    return count;
}

/* What of a square of the grid is inside; 0 corners: nothing. */
static int square(const sl_graph_relief *relief, const sl_graph_region *region, int i, int j,
                  corner polygon[MOST_OF_A_SQUARE], bool *whole)
{
    static const int right[4] = {0, 1, 1, 0}, up[4] = {0, 0, 1, 1};
    int n = 4;
    *whole = true;
    for (int c = 0; c < 4; c++) {
        polygon[c].at = (sl_graph_point){i + right[c], j + up[c]};
        for (int k = 0; k < region->n; k++) {
            polygon[c].field[k] = region->field[k][(j + up[c]) * relief->nx + i + right[c]];
            *whole = *whole && polygon[c].field[k] >= 0.0;
            if (isnan(polygon[c].field[k])) {
                return 0;
            }
        }
    }
    for (int k = 0; k < region->n && n > 0; k++) {
        n = cut(polygon, n, k, region->n);
    }
    return n;
}

typedef struct region_pen {
    const sl_graph_field *field;
    sl_graph_ink ink;
    sl_graph_pattern pattern;
    sl_graph_point at[PARTS]; /* parts that wait to be filled together, lest seams show between them */
    int n;
} region_pen;

static void fill_parts(region_pen *region)
{
    const sl_graph_pen *const pen = region->field->pen;
    if (region->n > 0) {
        pen->kind->fill(pen->self, region->at, region->n, region->ink, region->pattern);
    }
    region->n = 0;
}

static void add_part(region_pen *region, const corner *polygon, int n)
{
    if (region->n + n + 1 > PARTS) {
        fill_parts(region);
    }
    if (region->n > 0) {
        region->at[region->n++] = SL_GRAPH_LIFT;
    }
    for (int i = 0; i < n; i++) {
        region->at[region->n++] = place(region->field, polygon[i].at.x, polygon[i].at.y);
    }
}

/* Whole squares beside each other are one part. */
static void draw_row(region_pen *pen, const sl_graph_region *region, int j)
{
    const sl_graph_relief *const relief = &pen->field->graph->relief;
    corner run[MOST_OF_A_SQUARE] = {{.at = {0.0, 0.0}}};
    bool running = false;
    for (int i = 0; i + 1 < relief->nx; i++) {
        corner polygon[MOST_OF_A_SQUARE] = {{.at = {0.0, 0.0}}};
        bool whole = false;
        const int n = square(relief, region, i, j, polygon, &whole);
        if (whole && running) {
            run[1] = polygon[1];
            run[2] = polygon[2];
            continue;
        }
        if (running) {
            add_part(pen, run, 4);
        }
        running = whole;
        if (whole) {
            memcpy(run, polygon, sizeof run);
        } else if (n > 2) {
            add_part(pen, polygon, n);
        }
    }
    if (running) {
        add_part(pen, run, 4);
    }
}

static void draw_region(const sl_graph_field *field, const sl_graph_region *region, sl_graph_ink ink,
                        sl_graph_pattern pattern)
{
    region_pen pen = {.field = field, .ink = ink, .pattern = pattern};
    for (int j = 0; region->n > 0 && j + 1 < field->graph->relief.ny; j++) {
        draw_row(&pen, region, j);
    }
    fill_parts(&pen);
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
