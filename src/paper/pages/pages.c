/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document set on pages. First every piece (a paragraph, a row of a table, a row of cards) gets
 * its place, then pages are drawn in any order. Invariant: no piece is cut by the end of a page, a
 * table's head stands on each page that has rows of it, a heading never ends a page, and what is
 * measured is what is drawn, because one function does both.
 */
#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "document/renderers.h"
#include "paper/pages/pages.h"
#include "paper/pages/piece.h"
#include "slowlift/caution.h"
#include "slowlift/edition.h"

const sl_paper_format sl_paper_formats[SL_PAPER_FORMATS] = {
    [SL_PAPER_A4] = {595.276, 841.89},  /* 210 x 297 mm, ISO 216 */
    [SL_PAPER_LETTER] = {612.0, 792.0}, /* 8.5 x 11 in, ANSI/ASME Y14.1 size A */
};

static const double MARGIN = 15.0 / 25.4 * 72.0, GAP = 16.0;
static const double TITLE_GAP = 10.0, FOOT_GAP = 8.0;
static const sl_paper_face title_face = {.size = 17.0, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
static const sl_paper_face small_face = {.size = 7.5, .grey = 0.1, .align = PANGO_ALIGN_LEFT};

/* ---- head and foot ------------------------------------------------------------------------ */

static double put(sl_canvas *canvas, bool draws, double x, double y, double width, sl_paper_face face,
                  const char *text)
{
    return draws ? sl_canvas_text(canvas, x, y, width, 0, face, text)
                 : sl_canvas_measure(canvas, width, 0, face, text);
}

static double put_head(const sl_document *document, sl_canvas *canvas, double width, int page, bool draws)
{
    sl_paper_face face = title_face;
    face.size = page == 1 ? 17.0 : 11.0;
    double height = put(canvas, draws, MARGIN, MARGIN, width, face, document->title);
    if (document->lies != NULL) {
        sl_paper_face lies = small_face;
        lies.size = 10.0;
        lies.bold = true;
        height += put(canvas, draws, MARGIN, MARGIN + height, width, lies, document->lies);
    }
    return height + TITLE_GAP;
}

static double put_foot_caution(sl_canvas *canvas, bool draws, double x, double y, double width,
                               sl_caution_id id, bool whole)
{
    static const double SIGNAL = 45.0;
    sl_paper_face bold = small_face;
    bold.bold = true;
    const sl_caution *const caution = sl_caution_text(id);
    put(canvas, draws, x, y, SIGNAL, bold, _(caution->signal));
    return put(canvas, draws, x + SIGNAL, y, width - SIGNAL, small_face,
               whole ? _(caution->text) : sl_caution_short(id));
}

/* From `top` down; returns the height. */
static double put_foot(const sl_pages *pages, sl_canvas *canvas, double width, double top, int page,
                       bool draws)
{
    const sl_document *const document = pages->document;
    const double half = 0.5 * (width - GAP);
    double y[2] = {top + 4.0, top + 4.0};
    if (draws) {
        sl_canvas_grey(canvas, 0.4);
        cairo_set_line_width(canvas->cairo, 0.6);
        cairo_move_to(canvas->cairo, MARGIN, top);
        cairo_line_to(canvas->cairo, MARGIN + width, top);
        cairo_stroke(canvas->cairo);
    }
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (sl_caution_text((sl_caution_id)id)->always) {
            const int side = y[1] < y[0] ? 1 : 0;
            y[side] += 2.0 + put_foot_caution(canvas, draws, MARGIN + side * (half + GAP), y[side], half,
                                              (sl_caution_id)id, page == 1 && !document->brief);
        }
    }
    double low = fmax(y[0], y[1]) + 2.0;
    if (document->note != NULL) {
        low += put(canvas, draws, MARGIN, low, width, small_face, document->note);
    }
    if (document->colours) {
        low += put(canvas, draws, MARGIN, low, width, small_face, _(sl_not_calibrated));
    }
    char number[256];
    snprintf(number, sizeof number,
             document->owes[SL_CAUTION_ESTIMATE] ? _("%s, page %d of %d; model %d of %s")
                                                 : _("%s, page %d of %d"),
             document->title, page, pages->n, sl_edition_now, sl_edition_day());
    sl_paper_face face = small_face;
    face.align = PANGO_ALIGN_RIGHT;
    low += put(canvas, draws, MARGIN, low, width, face, number);
    return low - top;
}

/* ---- laying ------------------------------------------------------------------------------ */

/* Where the next piece goes. */
typedef struct sl_layer {
    sl_pages *pages;
    sl_piece_pen pen;
    sl_error *error;
    bool failed;
    double y, top, bottom; /* of the text of this page */
    int page;
} sl_layer;

static void begin_page(sl_layer *layer)
{
    sl_canvas *const canvas = layer->pen.canvas;
    layer->page++;
    layer->top = MARGIN + put_head(layer->pages->document, canvas, layer->pen.width, layer->page, false);
    const double foot = put_foot(layer->pages, canvas, layer->pen.width, 0.0, layer->page, false);
    layer->bottom = layer->pages->format.height - MARGIN - foot - FOOT_GAP;
    layer->y = layer->top;
}

static void place(sl_layer *layer, size_t block, int row, double height)
{
    sl_pages *const pages = layer->pages;
    if (layer->failed || !sl_grow(&pages->placed, &pages->room, pages->n_placed + 1, sizeof(sl_placed),
                                  "laying out a sheet", layer->error)) {
        layer->failed = true;
        return;
    }
    pages->placed[pages->n_placed++] = (sl_placed){block, row, layer->page, layer->y, height};
    layer->y += height;
}

static bool fits(const sl_layer *layer, double height)
{
    return layer->y + height <= layer->bottom || layer->y <= layer->top;
}

static void lay_piece(sl_layer *layer, size_t i, double with_next)
{
    const double height = sl_piece_height(&layer->pen, &layer->pages->document->blocks[i], 0);
    if (!fits(layer, height + with_next)) {
        begin_page(layer);
    }
    place(layer, i, 0, height);
}

/* What has to stand on one page with the head: a short table whole, of a long one two rows. */
static double kept_together(const sl_layer *layer, const sl_block *block, int rows)
{
    enum { SHORT = 9 };
    const int kept = rows <= SHORT ? rows : 2;
    double height = 0.0;
    for (int row = 0; row < kept; row++) {
        height += sl_piece_height(&layer->pen, block, row);
    }
    return height;
}

/* So many rows end a long table together. */
enum { LAST_ROWS = 3 };

static double last_rows(const sl_layer *layer, const sl_block *block, int rows)
{
    double height = 0.0;
    for (int row = rows - LAST_ROWS; row < rows; row++) {
        height += sl_piece_height(&layer->pen, block, row);
    }
    return height;
}

static void lay_table(sl_layer *layer, size_t i)
{
    const sl_block *const block = &layer->pages->document->blocks[i];
    const int rows = (int)(block->n_cells / (size_t)block->count);
    const double caption = sl_piece_height(&layer->pen, block, SL_ROW_CAPTION);
    const double head = sl_piece_height(&layer->pen, block, SL_ROW_HEAD);
    if (!fits(layer, caption + head + kept_together(layer, block, rows))) {
        begin_page(layer);
    }
    place(layer, i, SL_ROW_CAPTION, caption);
    place(layer, i, SL_ROW_HEAD, head);
    for (int row = 0; row < rows; row++) {
        const double height = sl_piece_height(&layer->pen, block, row);
        if (!fits(layer, row == rows - LAST_ROWS ? last_rows(layer, block, rows) : height)) {
            begin_page(layer);
            place(layer, i, SL_ROW_HEAD, head);
        }
        place(layer, i, row, height);
    }
    layer->y += 9.0;
}

static void lay_cards(sl_layer *layer, size_t i)
{
    const sl_block *const block = &layer->pages->document->blocks[i];
    const int rows = (int)((block->n_cells + (size_t)block->count - 1) / (size_t)block->count);
    const double caption = sl_piece_height(&layer->pen, block, SL_ROW_CAPTION);
    const double height = sl_piece_height(&layer->pen, block, 0);
    if (!fits(layer, caption + height)) {
        begin_page(layer);
    }
    place(layer, i, SL_ROW_CAPTION, caption);
    for (int row = 0; row < rows; row++) {
        if (!fits(layer, height)) {
            begin_page(layer);
        }
        place(layer, i, row, height);
    }
    layer->y += 9.0;
}

/* What of a block has to stand below its heading. */
static double first_height(const sl_layer *layer, size_t i)
{
    if (i >= layer->pages->document->n) {
        return 0.0;
    }
    const sl_block *const block = &layer->pages->document->blocks[i];
    const double caption = sl_piece_height(&layer->pen, block, SL_ROW_CAPTION);
    if (block->kind == SL_BLOCK_CARDS) {
        return caption + sl_piece_height(&layer->pen, block, 0);
    }
    if (block->kind == SL_BLOCK_TABLE) {
        return caption + sl_piece_height(&layer->pen, block, SL_ROW_HEAD) +
               kept_together(layer, block, (int)(block->n_cells / (size_t)block->count));
    }
    return sl_piece_height(&layer->pen, block, 0);
}

static void lay_block(sl_layer *layer, size_t i)
{
    switch (layer->pages->document->blocks[i].kind) {
    case SL_BLOCK_BREAK:
        if (layer->pages->one_page) {
            layer->y += GAP;
        } else if (layer->y > layer->top) {
            begin_page(layer);
        }
        return;
    case SL_BLOCK_TABLE:
        lay_table(layer, i);
        return;
    case SL_BLOCK_CARDS:
        lay_cards(layer, i);
        return;
    case SL_BLOCK_HEADING:
    case SL_BLOCK_PART:
        lay_piece(layer, i, first_height(layer, i + 1));
        return;
    case SL_BLOCK_SAY:
    case SL_BLOCK_ROW:
    case SL_BLOCK_DOTS:
    case SL_BLOCK_APART:
    case SL_BLOCK_ITEM:
    case SL_BLOCK_TICK:
    case SL_BLOCK_CAUTION:
    case SL_BLOCK_LINES:
    case SL_BLOCK_CHART:
    case SL_BLOCK_SKETCH:
        lay_piece(layer, i, 0.0);
        return;
    }
}

static sl_piece_pen pen_of(const sl_document *document, sl_canvas *canvas, sl_paper_format format,
                           sl_piece_table *table)
{
    return (sl_piece_pen){.canvas = canvas,
                          .table = table,
                          .left = MARGIN,
                          .width = format.width - 2.0 * MARGIN,
                          .size = document->large   ? 12.0
                                  : document->brief ? 9.5
                                                    : 10.5};
}

bool sl_pages_lay(sl_pages *pages, const sl_document *document, sl_canvas *canvas, sl_paper_format format,
                  sl_error *error)
{
    assert(document->ended);
    sl_piece_table table = {.of = NULL};
    sl_layer layer = {.pages = pages, .pen = pen_of(document, canvas, format, &table), .error = error};
    pages->document = document;
    pages->format = format;
    pages->n_placed = 0;
    begin_page(&layer);
    for (size_t i = 0; i < document->n && !layer.failed; i++) {
        if (sl_block_shown(&document->blocks[i], SL_SCIENCE, false)) {
            lay_block(&layer, i);
        }
    }
    pages->n = layer.page;
    return !layer.failed;
}

void sl_pages_draw(const sl_pages *pages, sl_canvas *canvas, int page)
{
    const sl_document *const document = pages->document;
    sl_piece_table table = {.of = NULL};
    const sl_piece_pen pen = pen_of(document, canvas, pages->format, &table);
    put_head(document, canvas, pen.width, page, true);
    for (size_t i = 0; i < pages->n_placed; i++) {
        const sl_placed *const placed = &pages->placed[i];
        if (placed->page == page) {
            sl_piece_draw(&pen, &document->blocks[placed->block], placed->row, placed->y, placed->height);
        }
    }
    const double foot = put_foot(pages, canvas, pen.width, 0.0, page, false);
    put_foot(pages, canvas, pen.width, pages->format.height - MARGIN - foot, page, true);
}

void sl_pages_free(sl_pages *pages)
{
    sl_free(pages->placed);
    *pages = (sl_pages){.placed = NULL};
}

void sl_put_sketch(sl_document *document, const char *words, double height, sl_sketch_draw *draw,
                   const void *with)
{
    sl_sketch *const sketch = document->failed ? NULL
                                               : sl_arena_new(&document->arena, 1, sizeof *sketch,
                                                              "drawing a sketch", document->error);
    document->failed = sketch == NULL;
    if (sketch != NULL) {
        *sketch = (sl_sketch){.draw = draw, .with = with};
        sl_document_sketch(document, words, height, sketch);
    }
}

/* ---- a file ------------------------------------------------------------------------------ */

/* High enough for all of it on one page: the fewest steps of which that is so, halving what is not known. */
static bool lay_on_one(sl_pages *pages, const sl_document *document, sl_canvas *canvas,
                       sl_paper_format format, sl_error *error)
{
    const double step = 24.0, longest = 20000.0; /* points */
    const double flat = format.height;
    pages->one_page = true;
    int low = 0, high = (int)ceil((longest - flat) / step); /* too few; enough, or the most that may be */
    bool good = true;
    for (int steps = high; good && low < high; steps = (low + high) / 2) {
        if (steps == low) { /* so that the last that was laid is the one that is drawn */
            low = steps = high;
        }
        format.height = flat + step * steps;
        good = sl_pages_lay(pages, document, canvas, format, error);
        if (pages->n > 1) {
            low = steps;
        } else {
            high = steps;
        }
    }
    return good;
}

/* Settles where all stands, on a canvas that only measures. */
static bool lay_for(sl_pages *pages, const char *path, const sl_document *document, sl_paper_format format,
                    sl_error *error)
{
    sl_canvas measure = {.surface = NULL};
    sl_paper_kind kind = SL_PAPER_PDF;
    if (!sl_paper_kind_of(path, &kind, error) ||
        !sl_canvas_open_pixels(&measure, format.width, 1.0, 1.0, false, error)) {
        return false;
    }
    const sl_paper_format flat = {format.width, 0.5 * format.width};
    const bool good = kind == SL_PAPER_PDF ? sl_pages_lay(pages, document, &measure, format, error)
                                           : lay_on_one(pages, document, &measure, flat, error);
    sl_canvas_close(&measure);
    return good;
}

bool sl_pages_save(const char *path, const sl_document *document, sl_paper_format format, sl_error *error)
{
    sl_pages pages = {.n = 0};
    sl_canvas canvas;
    bool good = !document->failed && sl_paper_has_font(error) &&
                lay_for(&pages, path, document, format, error) && sl_canvas_begin(&canvas, path, error) &&
                sl_canvas_open(&canvas, pages.format.width, pages.format.height, document->title, error);
    for (int page = 1; good && page <= pages.n; page++) {
        if (page > 1) {
            cairo_show_page(canvas.cairo);
        }
        sl_pages_draw(&pages, &canvas, page);
    }
    good = good && sl_canvas_commit(&canvas, error);
    sl_pages_free(&pages);
    return good;
}
