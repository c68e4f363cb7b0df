/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Frame, grid, ticks and names. The y axis has its name above it, so that nobody turns the head. How many
 * ticks there are hangs on the room in units alone, so that every medium has the same.
 */
#include <stdio.h>

#include "graph/field.h"

static const double TICK = 4.0, GAP = 3.0, TICK_EVERY_X = 52.0, TICK_EVERY_Y = 22.0; /* units */
enum { MOST_TICKS = 10 };

static int most_ticks(double room, double each)
{
    return (int)fmax(2.0, fmin(MOST_TICKS, floor(room / each)));
}

double sl_graph_at_x(const sl_graph_field *field, double value)
{
    const sl_graph_axis *const axis = &field->graph->x;
    return field->box.x + field->box.w * (value - axis->from) / (axis->to - axis->from);
}

double sl_graph_at_y(const sl_graph_field *field, double value)
{
    const sl_graph_axis *const axis = &field->graph->y;
    return field->box.y + field->box.h * (1.0 - (value - axis->from) / (axis->to - axis->from));
}

/* Ticks are i * step for i from `first` to `last`. */
typedef struct ticks {
    double step, first, last;
    int decimals;
} ticks;

static ticks ticks_of(const sl_graph_axis *axis, int most)
{
    const double step = sl_graph_step(axis->to - axis->from, most);
    return (ticks){step, ceil(axis->from / step - 1e-9), floor(axis->to / step + 1e-9),
                   (int)fmax(0.0, ceil(-log10(step) - 1e-9))};
}

static ticks x_ticks(const sl_graph_field *field)
{
    return ticks_of(&field->graph->x, most_ticks(field->box.w / field->pen->unit, TICK_EVERY_X));
}

static ticks y_ticks(const sl_graph_field *field)
{
    return ticks_of(&field->graph->y, most_ticks(field->box.h / field->pen->unit, TICK_EVERY_Y));
}

static void put_tick(const ticks *all, double i, char text[24])
{
    snprintf(text, 24, "%.*f", all->decimals, i * all->step + 0.0);
}

static double widest(const sl_graph_pen *pen, const ticks *all)
{
    double most = 0.0;
    for (double i = all->first; i <= all->last; i++) {
        char text[24];
        put_tick(all, i, text);
        most = fmax(most, pen->kind->measure(pen->self, 0.0, SL_GRAPH_TICK, text).x);
    }
    return most;
}

void sl_graph_lay_field(sl_graph_field *field, sl_graph_box whole, double labels)
{
    const sl_graph_pen *const pen = field->pen;
    const double unit = pen->unit;
    const double tick_high = pen->kind->measure(pen->self, 0.0, SL_GRAPH_TICK, "0").y;
    const double above =
        pen->kind->measure(pen->self, whole.w, SL_GRAPH_NAME, field->graph->y.name).y + 0.6 * tick_high;
    const double below = pen->kind->measure(pen->self, whole.w, SL_GRAPH_NAME, field->graph->x.name).y +
                         (TICK + GAP) * unit + tick_high;
    field->box = (sl_graph_box){whole.x, whole.y + above, whole.w, whole.h - above - below};
    const ticks up = y_ticks(field);
    const double left = widest(pen, &up) + (TICK + GAP) * unit;
    field->box.x += left;
    field->box.w -= left;
    const ticks across = x_ticks(field);
    field->box.w -= fmax(labels, 0.5 * widest(pen, &across) + unit);
}

static void line(const sl_graph_pen *pen, double x0, double y0, double x1, double y1, sl_graph_ink ink)
{
    const sl_graph_point at[2] = {{x0, y0}, {x1, y1}};
    pen->kind->line(pen->self, at, 2, ink, 0.8 * pen->unit, SL_GRAPH_UNBROKEN);
}

static void draw_x_ticks(const sl_graph_field *field)
{
    const sl_graph_pen *const pen = field->pen;
    const ticks all = x_ticks(field);
    const double bottom = field->box.y + field->box.h, tick = TICK * pen->unit;
    for (double i = all.first; i <= all.last; i++) {
        char text[24];
        const double x = sl_graph_at_x(field, i * all.step);
        put_tick(&all, i, text);
        line(pen, x, field->box.y, x, bottom, SL_GRAPH_GRID);
        line(pen, x, bottom, x, bottom + tick, SL_GRAPH_INK);
        const double wide = pen->kind->measure(pen->self, 0.0, SL_GRAPH_TICK, text).x;
        pen->kind->text(pen->self, (sl_graph_point){x - 0.5 * wide, bottom + tick}, 0.0, SL_GRAPH_TICK,
                        SL_GRAPH_INK, text);
    }
}

static void draw_y_ticks(const sl_graph_field *field)
{
    const sl_graph_pen *const pen = field->pen;
    const ticks all = y_ticks(field);
    const double left = field->box.x, tick = TICK * pen->unit;
    for (double i = all.first; i <= all.last; i++) {
        char text[24];
        const double y = sl_graph_at_y(field, i * all.step);
        put_tick(&all, i, text);
        line(pen, left, y, left + field->box.w, y, SL_GRAPH_GRID);
        line(pen, left - tick, y, left, y, SL_GRAPH_INK);
        const sl_graph_point size = pen->kind->measure(pen->self, 0.0, SL_GRAPH_TICK, text);
        pen->kind->text(pen->self, (sl_graph_point){left - tick - GAP * pen->unit - size.x, y - 0.5 * size.y},
                        0.0, SL_GRAPH_TICK, SL_GRAPH_INK, text);
    }
}

void sl_graph_draw_axes(const sl_graph_field *field)
{
    const sl_graph_pen *const pen = field->pen;
    const sl_graph_box box = field->box;
    const double right = box.x + box.w, bottom = box.y + box.h;
    const sl_graph_point frame[5] = {
        {box.x, box.y}, {right, box.y}, {right, bottom}, {box.x, bottom}, {box.x, box.y}};
    draw_x_ticks(field);
    draw_y_ticks(field);
    pen->kind->line(pen->self, frame, 5, SL_GRAPH_INK, 0.8 * pen->unit, SL_GRAPH_UNBROKEN);
}

void sl_graph_draw_names(const sl_graph_field *field, sl_graph_box whole)
{
    const sl_graph_pen *const pen = field->pen;
    const char *const below = field->graph->x.name;
    const sl_graph_point size = pen->kind->measure(pen->self, whole.w, SL_GRAPH_NAME, below);
    const double middle = field->box.x + 0.5 * (field->box.w - size.x);
    const double x = fmax(whole.x, fmin(middle, whole.x + whole.w - size.x));
    pen->kind->text(pen->self, (sl_graph_point){whole.x, whole.y}, whole.w, SL_GRAPH_NAME, SL_GRAPH_INK,
                    field->graph->y.name);
    pen->kind->text(pen->self, (sl_graph_point){x, whole.y + whole.h - size.y}, size.x + pen->unit,
                    SL_GRAPH_NAME, SL_GRAPH_INK, below);
}
