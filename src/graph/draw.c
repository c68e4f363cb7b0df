/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A whole graph, from its ground up, and its key.
 */
#include "graph/field.h"

static const double SIGN = 28.0, GAP = 6.0, PATCH_HIGH = 14.0, PATCH_WIDE = 24.0; /* units */
static const double MOST_LABELS = 0.3; /* of the width; longer labels of curves are told in brief */

void sl_graph_fill_box(const sl_graph_pen *pen, sl_graph_box box, sl_graph_ink ink, sl_graph_pattern pattern)
{
    const sl_graph_point at[4] = {
        {box.x, box.y}, {box.x + box.w, box.y}, {box.x + box.w, box.y + box.h}, {box.x, box.y + box.h}};
    pen->kind->fill(pen->self, at, 4, ink, pattern);
}

void sl_graph_frame_box(const sl_graph_pen *pen, sl_graph_box box)
{
    const double right = box.x + box.w, bottom = box.y + box.h;
    const sl_graph_point at[5] = {
        {box.x, box.y}, {right, box.y}, {right, bottom}, {box.x, bottom}, {box.x, box.y}};
    pen->kind->line(pen->self, at, 5, SL_GRAPH_INK, 0.8 * pen->unit, SL_GRAPH_UNBROKEN);
}

static void draw_series(sl_graph_field *field, bool brief)
{
    const sl_graph *const graph = field->graph;
    const sl_graph_series *const end = graph->series + graph->n_series;
    for (const sl_graph_series *s = graph->series; s < end; s++) {
        if (s->shape == SL_GRAPH_CURVE) {
            sl_graph_draw_curve(field, s);
        } else {
            sl_graph_draw_spreads(field, s);
        }
    }
    sl_graph_draw_ends(field, brief);
    for (const sl_graph_series *s = graph->series; s < end; s++) {
        if (s->shape != SL_GRAPH_CURVE) {
            sl_graph_draw_marks(field, s);
        }
    }
    for (const sl_graph_series *s = graph->series; s < end; s++) {
        if (s->shape != SL_GRAPH_CURVE) {
            sl_graph_draw_mark_labels(field, s);
        }
    }
}

void sl_graph_draw(const sl_graph *graph, const sl_graph_pen *pen, sl_graph_box box)
{
    sl_graph_field field = {.graph = graph, .pen = pen};
    bool brief = false;
    sl_graph_lay_field(&field, box, sl_graph_labels_width(graph, pen, MOST_LABELS * box.w, &brief));
    if (field.box.w <= 0.0 || field.box.h <= 0.0) {
        return;
    }
    sl_graph_fill_box(pen, field.box, SL_GRAPH_PLATE, SL_GRAPH_WHOLE);
    if (graph->relief.nx > 0) {
        sl_graph_draw_regions(&field);
    }
    sl_graph_draw_axes(&field);
    sl_graph_draw_names(&field, box);
    if (graph->relief.nx > 0) {
        sl_graph_draw_lines(&field);
    }
    draw_series(&field, brief);
}

/* ---- the key ------------------------------------------------------------------------------------------- */

static void draw_patch(const sl_graph_key *key, const sl_graph_pen *pen, sl_graph_point middle)
{
    const double wide = PATCH_WIDE * pen->unit, high = PATCH_HIGH * pen->unit;
    const sl_graph_box box = {middle.x - 0.5 * wide, middle.y - 0.5 * high, wide, high};
    sl_graph_fill_box(pen, box, key->shaded ? SL_GRAPH_SHADE : SL_GRAPH_PLATE, SL_GRAPH_WHOLE);
    if (key->striped) {
        sl_graph_fill_box(pen, box, SL_GRAPH_GREY, SL_GRAPH_STRIPES);
    }
    sl_graph_frame_box(pen, box);
}

void sl_graph_draw_sign(const sl_graph *graph, const sl_graph_key *key, const sl_graph_pen *pen,
                        sl_graph_box box)
{
    const sl_graph_point middle = {box.x + 0.5 * box.w, box.y + 0.5 * box.h};
    if (key->curve >= 0) {
        const sl_graph_point at[2] = {{box.x, middle.y}, {box.x + box.w, middle.y}};
        const sl_graph_series *const curve = &graph->series[key->curve];
        pen->kind->line(pen->self, at, 2, SL_GRAPH_INK, (curve->strong ? 2.6 : 1.4) * pen->unit, curve->dash);
    }
    if (key->marks >= 0) {
        sl_graph_draw_mark(pen, middle, &graph->series[key->marks]);
    } else if (key->curve < 0) {
        draw_patch(key, pen, middle);
    }
}

/* Words within a width, at the height y; returns the height below them. */
static double put(const sl_graph_pen *pen, sl_graph_box box, double y, sl_graph_type type, const char *words,
                  bool draws)
{
    if (words == NULL) {
        return y;
    }
    if (draws) {
        pen->kind->text(pen->self, (sl_graph_point){box.x, y}, box.w, type, SL_GRAPH_INK, words);
    }
    return y + pen->kind->measure(pen->self, box.w, type, words).y;
}

static double put_key(const sl_graph *graph, const sl_graph_pen *pen, sl_graph_box box, bool draws)
{
    const double sign = SIGN * pen->unit, gap = GAP * pen->unit;
    const double line = pen->kind->measure(pen->self, 0.0, SL_GRAPH_NAME, "0").y;
    const sl_graph_box beside = {box.x + sign + gap, box.y, box.w - sign - gap, box.h};
    double y = box.y;
    for (int i = 0; i < graph->n_keys; i++) {
        const sl_graph_key *const key = &graph->key[i];
        const double below = put(pen, beside, y, SL_GRAPH_NAME, key->name, draws);
        if (draws) {
            sl_graph_draw_sign(graph, key, pen, (sl_graph_box){box.x, y, sign, line});
        }
        y = fmax(put(pen, beside, below, SL_GRAPH_NOTE, key->words, draws), y + PATCH_HIGH * pen->unit) +
            0.5 * gap;
    }
    return y - box.y;
}

double sl_graph_key_height(const sl_graph *graph, const sl_graph_pen *pen, double width)
{
    return put_key(graph, pen, (sl_graph_box){0.0, 0.0, width, 0.0}, false);
}

double sl_graph_draw_key(const sl_graph *graph, const sl_graph_pen *pen, sl_graph_box box)
{
    return put_key(graph, pen, box, true);
}
