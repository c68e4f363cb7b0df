/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Graphs on a page.
 */
#ifndef SLOWLIFT_PAPER_GRAPH_PEN_H
#define SLOWLIFT_PAPER_GRAPH_PEN_H

#include "graph/pen.h"
#include "paper/draw/canvas.h"

typedef struct sl_page_pen {
    sl_canvas *canvas; /* open; borrowed */
    double unit;       /* points; letters follow it */
} sl_page_pen;

/* `page` is borrowed for as long as the pen is used. */
sl_graph_pen sl_graph_pen_on_page(sl_page_pen *page);

#endif
