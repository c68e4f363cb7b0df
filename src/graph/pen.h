/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a graph is drawn with: four calls, which each medium makes in its own way (view/draw/graph_pen.h,
 * paper/draw/graph_pen.h; the tests keep a list). Lengths are the medium's own (pixels, points), y grows
 * downwards. Invariant: inks are roles; which grey a role is, the medium says, and no two things are told
 * apart by ink alone.
 */
#ifndef SLOWLIFT_GRAPH_PEN_H
#define SLOWLIFT_GRAPH_PEN_H

#include <math.h>

typedef struct sl_graph_point {
    double x, y;
} sl_graph_point;
/* In a list of points the pen is lifted here: what follows is another line, or another part of what is
 * filled. A part has at most SL_GRAPH_CORNERS points and does not cross itself. */
#define SL_GRAPH_LIFT ((sl_graph_point){(double)NAN, (double)NAN})
enum { SL_GRAPH_CORNERS = 64 };

typedef struct sl_graph_box {
    double x, y, w, h;
} sl_graph_box;

typedef enum sl_graph_ink {
    SL_GRAPH_INK,   /* curves, marks, words */
    SL_GRAPH_GREY,  /* what is second: spreads, hatching, leaders */
    SL_GRAPH_GRID,  /* lines that only guide the eye */
    SL_GRAPH_PLATE, /* the ground */
    SL_GRAPH_SHADE, /* a region of the ground */
    SL_GRAPH_INKS
} sl_graph_ink;

typedef enum sl_graph_pattern { SL_GRAPH_WHOLE, SL_GRAPH_STRIPES } sl_graph_pattern;
typedef enum sl_graph_dash {
    SL_GRAPH_UNBROKEN,
    SL_GRAPH_LONG,
    SL_GRAPH_DOTS,
    SL_GRAPH_DASH_DOT,
    SL_GRAPH_DASHES
} sl_graph_dash;
/* [4] on, off, on, off in units; nothing of SL_GRAPH_UNBROKEN is off. */
extern const double SL_GRAPH_DASH[SL_GRAPH_DASHES][4];

typedef enum sl_graph_type {
    SL_GRAPH_TICK,  /* numbers of the axes */
    SL_GRAPH_NAME,  /* of axes, and in the key */
    SL_GRAPH_LABEL, /* beside marks and curves */
    SL_GRAPH_NOTE,
    SL_GRAPH_TYPES
} sl_graph_type;

typedef struct sl_graph_pen_kind {
    void (*line)(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, double width,
                 sl_graph_dash dash);
    void (*fill)(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, sl_graph_pattern pattern);
    /* From its top left corner; broken into lines of `width`, or one line where that is 0. */
    void (*text)(void *self, sl_graph_point at, double width, sl_graph_type type, sl_graph_ink ink,
                 const char *words);
    sl_graph_point (*measure)(void *self, double width, sl_graph_type type, const char *words);
} sl_graph_pen_kind;

typedef struct sl_graph_pen {
    const sl_graph_pen_kind *kind;
    void *self;
    double unit; /* of the medium's lengths: a point on paper, a unit of the window's layout */
} sl_graph_pen;

#endif
