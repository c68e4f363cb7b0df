/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A chart as data: axes, series of points, lines and regions over a grid of values, and its words. Which
 * value stands on which axis, which mark means what and what is said of it is decided by whoever makes it
 * (one function for each kind of chart), and by nobody who draws it. Lengths are units (pen.h).
 *
 * Invariant: what lies outside the axes is not drawn; a thing that is drawn is told by shape, dash, pattern
 * or word.
 */
#ifndef SLOWLIFT_GRAPH_GRAPH_H
#define SLOWLIFT_GRAPH_GRAPH_H

#include "base/memory.h"
#include "graph/pen.h"

enum { SL_GRAPH_SERIES_MOST = 132, SL_GRAPH_KEYS_MOST = 70, SL_GRAPH_LINES_MOST = 26, SL_GRAPH_FIELDS = 4 };

typedef struct sl_graph_axis {
    double from, to;  /* from < to */
    const char *name; /* with its unit */
} sl_graph_axis;

typedef enum sl_graph_shape {
    SL_GRAPH_CURVE, /* no marks: points are joined */
    SL_GRAPH_RING,
    SL_GRAPH_SQUARE,
    SL_GRAPH_TRIANGLE,
    SL_GRAPH_DIAMOND,
    SL_GRAPH_SHAPES
} sl_graph_shape;

typedef struct sl_graph_series {
    sl_graph_shape shape;
    int n;
    double *x, *y;                           /* [n] in units of the axes */
    double *x_low, *x_high, *y_low, *y_high; /* [n] how far a mark's value may lie; NULL: not told */
    sl_graph_dash dash;                      /* of a curve */
    bool strong;                             /* a curve that is drawn thicker; marks that are filled */
    double aside;                            /* marks stand so far to the right, to be told apart */
    const char *label;                       /* where a curve ends, beside every mark; NULL: none */
    const char *brief;                       /* of a curve whose label finds no room */
} sl_graph_series;

/* A line of equal value. */
typedef struct sl_graph_line {
    const double *value; /* [ny][nx] */
    double level;
    bool strong;
    const char *label;
} sl_graph_line;

/* Where every field is 0 or more; a square of the grid with a corner that is no number is outside. */
typedef struct sl_graph_region {
    int n;                                /* 0: nowhere */
    const double *field[SL_GRAPH_FIELDS]; /* each [ny][nx] */
} sl_graph_region;

/* Values over a grid of nx by ny points at even steps from one end of the axes to the other. */
typedef struct sl_graph_relief {
    int nx, ny;
    sl_graph_line line[SL_GRAPH_LINES_MOST];
    int n_lines;
    sl_graph_region shaded, striped;
} sl_graph_relief;

/* A row of the key: a sign and what it means. */
typedef struct sl_graph_key {
    int curve, marks;     /* numbers of series; -1: none */
    bool shaded, striped; /* a patch of these, where both numbers are -1 */
    const char *name;     /* NULL: none */
    const char *words;    /* NULL: none */
} sl_graph_key;

typedef struct sl_graph {
    const char *title, *under; /* what is shown, and of what */
    sl_graph_axis x, y;
    sl_graph_series series[SL_GRAPH_SERIES_MOST];
    int n_series;
    sl_graph_relief relief; /* nx 0: none */
    sl_graph_key key[SL_GRAPH_KEYS_MOST];
    int n_keys;
    const char *note; /* what marks and lines mean */
    const char *says; /* what is seen, in words */
    const char *foot; /* what it must not be taken for */
    sl_arena *arena;  /* of itself, its words and points; borrowed */
    bool failed;      /* memory gave out while it was made: *error says so */
    sl_error *error;
} sl_graph;

/* ---- making one (graph.c) -------------------------------------------------------------------------- */

/* In an arena that lives as long as the graph. NULL: failed. */
sl_graph *sl_graph_new(sl_arena *arena, sl_error *error);
/* What its maker returns: the graph, or NULL when memory gave out on the way. */
const sl_graph *sl_graph_made(const sl_graph *graph);
/* After a failure the rest do nothing. Words as printf makes them; "" then. */
const char *sl_graph_say(sl_graph *graph, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* [n] zeros; NULL then. */
double *sl_graph_room(sl_graph *graph, size_t n);
/* Another series with room for n points; spreads of x and of y when they are asked for. NULL then. */
sl_graph_series *sl_graph_add(sl_graph *graph, sl_graph_shape shape, int n, bool x_spread, bool y_spread);
void sl_graph_add_key(sl_graph *graph, sl_graph_key key);
/* The axis from 0 that holds `most`, in whole steps. */
sl_graph_axis sl_graph_axis_up_to(double most, const char *name);

/* ---- drawing it -------------------------------------------------------------------------------------- */

/* A multiple of 1, 2 or 5 times a power of ten, so that `most` of them or fewer span this. */
double sl_graph_step(double span, int most);
/* Axes, lines, marks and labels within the box. */
void sl_graph_draw(const sl_graph *graph, const sl_graph_pen *pen, sl_graph_box box);
/* The height of the rows of its key in this width. */
double sl_graph_key_height(const sl_graph *graph, const sl_graph_pen *pen, double width);
/* The rows of the key, from the top of the box; returns the height. */
double sl_graph_draw_key(const sl_graph *graph, const sl_graph_pen *pen, sl_graph_box box);
/* The sign of a row alone, in the middle of the box. */
void sl_graph_draw_sign(const sl_graph *graph, const sl_graph_key *key, const sl_graph_pen *pen,
                        sl_graph_box box);

#endif
