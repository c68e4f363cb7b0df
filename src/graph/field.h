/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside src/graph: the field between the axes, and which places in it are taken by marks and labels.
 * Invariant: no label is put where it meets another, a mark, or the field's edge.
 */
#ifndef SLOWLIFT_GRAPH_FIELD_H
#define SLOWLIFT_GRAPH_FIELD_H

#include "graph/graph.h"

enum { SL_GRAPH_TAKEN_MOST = 512 };

typedef struct sl_graph_field {
    const sl_graph *graph;
    const sl_graph_pen *pen;
    sl_graph_box box; /* of the field */
    sl_graph_box taken[SL_GRAPH_TAKEN_MOST];
    int n_taken;
} sl_graph_field;

/* axis.c */
void sl_graph_lay_field(sl_graph_field *field, sl_graph_box whole, double labels);
void sl_graph_draw_axes(const sl_graph_field *field);
void sl_graph_draw_names(const sl_graph_field *field, sl_graph_box whole);
double sl_graph_at_x(const sl_graph_field *field, double value);
double sl_graph_at_y(const sl_graph_field *field, double value);

/* marks.c: of the series, in the middle of which a mark stands */
void sl_graph_draw_curve(const sl_graph_field *field, const sl_graph_series *series);
void sl_graph_draw_spreads(const sl_graph_field *field, const sl_graph_series *series);
void sl_graph_draw_marks(sl_graph_field *field, const sl_graph_series *series);
void sl_graph_draw_mark(const sl_graph_pen *pen, sl_graph_point middle, const sl_graph_series *series);
sl_graph_point sl_graph_mark_at(const sl_graph_field *field, const sl_graph_series *series, int i);
bool sl_graph_holds(const sl_graph_field *field, sl_graph_point at);

/* labels.c */
double sl_graph_labels_width(const sl_graph *graph, const sl_graph_pen *pen, double most, bool *brief);
void sl_graph_draw_ends(sl_graph_field *field, bool brief);
void sl_graph_draw_mark_labels(sl_graph_field *field, const sl_graph_series *series);
bool sl_graph_place_free(const sl_graph_field *field, sl_graph_box place);
void sl_graph_take(sl_graph_field *field, sl_graph_box place);
/* In the middle of a plate, if that is free. */
bool sl_graph_draw_plate(sl_graph_field *field, sl_graph_point middle, sl_graph_type type, const char *words);

/* draw.c */
void sl_graph_fill_box(const sl_graph_pen *pen, sl_graph_box box, sl_graph_ink ink, sl_graph_pattern pattern);
void sl_graph_frame_box(const sl_graph_pen *pen, sl_graph_box box);

/* relief.c */
void sl_graph_draw_regions(const sl_graph_field *field);
void sl_graph_draw_lines(sl_graph_field *field);

#endif
