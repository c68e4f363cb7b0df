/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document on pages of paper: first every piece gets its place, then pages are drawn in any order.
 */
#ifndef SLOWLIFT_PAPER_PAGES_H
#define SLOWLIFT_PAPER_PAGES_H

#include "document/document.h"
#include "paper/draw/canvas.h"

typedef struct sl_paper_format {
    double width, height; /* points */
} sl_paper_format;
extern const sl_paper_format sl_paper_formats[];
enum { SL_PAPER_A4, SL_PAPER_LETTER, SL_PAPER_FORMATS };

/* A piece of a block on a page. row: of a table, ROW_CAPTION, ROW_HEAD or from 0; of cards from 0. */
typedef struct sl_placed {
    size_t block;
    int row, page;    /* page from 1 */
    double y, height; /* points */
} sl_placed;

typedef struct sl_pages {
    const sl_document *document; /* borrowed, and finished */
    sl_paper_format format;
    sl_placed *placed; /* [n_placed] by page */
    size_t n_placed, room;
    int n;         /* pages */
    bool one_page; /* a picture: where a page would begin there is a gap */
} sl_pages;

/* Settle what stands where; pages starts as {0}. The canvas only measures. */
bool sl_pages_lay(sl_pages *pages, const sl_document *document, sl_canvas *canvas, sl_paper_format format,
                  sl_error *error);
/* Draw a page (from 1) on an open canvas of that format. */
void sl_pages_draw(const sl_pages *pages, sl_canvas *canvas, int page);
void sl_pages_free(sl_pages *pages);

/* The whole document, which is ended, as a file by the end of its name: a PDF on pages of that format, or a
 * picture, .png or .svg, on one page as long as it takes. */
bool sl_pages_save(const char *path, const sl_document *document, sl_paper_format format, sl_error *error);

/* Draws within a box whose top left corner is (x, y); points. */
typedef void sl_sketch_draw(sl_canvas *canvas, double x, double y, double width, double height,
                            const void *with);
struct sl_sketch {
    sl_sketch_draw *draw;
    const void *with; /* borrowed */
};

/* A sketch of a document's own. */
void sl_put_sketch(sl_document *document, const char *words, double height, sl_sketch_draw *draw,
                   const void *with);

#endif
