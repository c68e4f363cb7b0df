/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Graphs in the window, in the theme's greys.
 */
#ifndef SLOWLIFT_VIEW_GRAPH_PEN_H
#define SLOWLIFT_VIEW_GRAPH_PEN_H

#include "graph/pen.h"
#include "view/draw/pen.h"

/* The pen is borrowed for as long as the graph's is used. */
sl_graph_pen sl_graph_pen_in_window(const sl_pen *pen);

#endif
