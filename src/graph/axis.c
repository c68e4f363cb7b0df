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

/* At the foot of the field or at its left. */
static void draw_tick(const sl_graph_field *field, sl_graph_point at, bool below, const char *words)
{
    const sl_graph_pen *const pen = field->pen;
    const double tick = TICK * pen->unit, out = tick + GAP * pen->unit;
    const sl_graph_point size = pen->kind->measure(pen->self, 0.0, SL_GRAPH_TICK, words);
    const sl_graph_point from = {at.x - 0.5 * size.x, at.y + tick},
                         left = {at.x - out - size.x, at.y - 0.5 * size.y};
    if (below) {
        line(pen, at.x, field->box.y, at.x, at.y, SL_GRAPH_GRID);
        line(pen, at.x, at.y, at.x, at.y + tick, SL_GRAPH_INK);
    } else {
        line(pen, at.x, at.y, at.x + field->box.w, at.y, SL_GRAPH_GRID);
        line(pen, at.x - tick, at.y, at.x, at.y, SL_GRAPH_INK);
    }
    pen->kind->text(pen->self, below ? from : left, 0.0, SL_GRAPH_TICK, SL_GRAPH_INK, words);
}

void sl_graph_draw_axes(const sl_graph_field *field)
{
    const ticks across = x_ticks(field), up = y_ticks(field);
    char words[24];
    for (double i = across.first; i <= across.last; i++) {
        put_tick(&across, i, words);
        draw_tick(field, (sl_graph_point){sl_graph_at_x(field, i * across.step), field->box.y + field->box.h},
                  true, words);
    }
    for (double i = up.first; i <= up.last; i++) {
        put_tick(&up, i, words);
        draw_tick(field, (sl_graph_point){field->box.x, sl_graph_at_y(field, i * up.step)}, false, words);
    }
    sl_graph_frame_box(field->pen, field->box);
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
