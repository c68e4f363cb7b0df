/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One piece of a document: how high it stands and how it is drawn. Units are points.
 */
#ifndef SLOWLIFT_PAPER_PIECE_H
#define SLOWLIFT_PAPER_PIECE_H

#include "paper/pages/pages.h"

enum { SL_ROW_CAPTION = -2, SL_ROW_HEAD = -1 };

/* How wide the columns are of the table that was set last. */
typedef struct sl_piece_table {
    const sl_block *of;
    double width[SL_MOST_COLUMNS];
} sl_piece_table;

typedef struct sl_piece_pen {
    sl_canvas *canvas;
    double left, width;
    double size;           /* of the letters */
    sl_piece_table *table; /* begun with nothing */
} sl_piece_pen;

/* row: SL_ROW_CAPTION, SL_ROW_HEAD or from 0 of tables and cards; else 0. */
double sl_piece_height(const sl_piece_pen *pen, const sl_block *block, int row);
void sl_piece_draw(const sl_piece_pen *pen, const sl_block *block, int row, double y, double height);

#endif
