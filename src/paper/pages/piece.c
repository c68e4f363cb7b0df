/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See piece.h.
 */
#include "paper/pages/piece.h"

#include "base/language.h"
#include "document/columns.h"
#include "document/renderers.h"
#include "paper/draw/graph_pen.h"
#include "slowlift/caution.h"

#include <math.h>
#include <string.h>

static const double CHART_TITLE = 9.5, SMALLER = 0.85, KEY = 0.3, GAP = 14.0; /* of charts */
static const double INDENT = 16.0, SIGNAL = 64.0, PAD = 3.0, LINE_STEP = 23.0, AFTER = 4.0;

static sl_paper_face face_of(const sl_piece_pen *pen)
{
    return (sl_paper_face){.size = pen->size, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
}

static double text(const sl_piece_pen *pen, bool draws, double x, double y, double width, sl_paper_face face,
                   const char *words)
{
    return draws ? sl_canvas_text(pen->canvas, x, y, width, 0, face, words)
                 : sl_canvas_measure(pen->canvas, width, 0, face, words);
}

static void line(const sl_piece_pen *pen, double x0, double y0, double x1, double y1)
{
    cairo_move_to(pen->canvas->cairo, x0, y0);
    cairo_line_to(pen->canvas->cairo, x1, y1);
    cairo_stroke(pen->canvas->cairo);
}

/* ---- paragraphs -------------------------------------------------------------------------- */

static double put_heading(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    sl_paper_face face = face_of(pen);
    face.size = pen->size + (block->kind == SL_BLOCK_PART ? 0.0 : 2.0);
    face.bold = true;
    return 7.0 + text(pen, draws, pen->left, y + 7.0, pen->width, face, block->text) + 3.0;
}

static double put_item(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    const sl_paper_face face = face_of(pen);
    cairo_t *const cairo = pen->canvas->cairo;
    const double side = 0.8 * pen->size;
    if (draws && block->kind == SL_BLOCK_TICK) {
        sl_canvas_grey(pen->canvas, 0.0);
        cairo_set_line_width(cairo, 0.9);
        cairo_rectangle(cairo, pen->left + 1.0, y + 0.22 * pen->size, side, side);
        cairo_stroke(cairo);
    } else if (draws) {
        text(pen, true, pen->left + 3.0, y, INDENT, face, "\u2022");
    }
    return text(pen, draws, pen->left + INDENT, y, pen->width - INDENT, face, block->text) + 3.0;
}

/* A word of its own at the left, what it says beside it. */
static double put_beside(const sl_piece_pen *pen, const char *word, const char *words, double y, bool draws)
{
    sl_paper_face face = face_of(pen);
    face.bold = true;
    const double label = text(pen, draws, pen->left, y, SIGNAL - AFTER, face, word);
    face.bold = false;
    return fmax(label, text(pen, draws, pen->left + SIGNAL, y, pen->width - SIGNAL, face, words)) + AFTER;
}

static double put_caution(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    const sl_caution *const caution = sl_caution_text(block->caution);
    if (caution->always) { /* it stands at the foot of every page */
        return 0.0;
    }
    return put_beside(pen, _(caution->signal),
                      block->brief ? sl_caution_short(block->caution) : _(caution->text), y, draws);
}

static double put_lines(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    const double above = text(pen, draws, pen->left, y, pen->width, face_of(pen), block->text);
    if (draws) {
        sl_canvas_grey(pen->canvas, 0.35);
        cairo_set_line_width(pen->canvas->cairo, 0.6);
    }
    for (int i = 1; draws && i <= block->count; i++) {
        line(pen, pen->left, y + above + i * LINE_STEP, pen->left + pen->width, y + above + i * LINE_STEP);
    }
    return above + block->count * LINE_STEP + 8.0;
}

/* What a picture shows; nothing where it has no words. */
static double put_words_above(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    return block->text[0] == '\0'
               ? 0.0
               : text(pen, draws, pen->left, y, pen->width, face_of(pen), block->text) + AFTER;
}

static double put_sketch(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    const double above = put_words_above(pen, block, y, draws);
    if (draws) {
        block->sketch->draw(pen->canvas, pen->left, y + above, pen->width, block->height,
                            block->sketch->with);
    }
    return above + block->height + 2.0 * AFTER;
}

/* Its title, where no words stand above it; its field, beside it its key, where it has one; its note. */
static double put_chart(const sl_piece_pen *pen, const sl_block *block, const sl_graph *chart,
                        sl_graph_box box, bool draws)
{
    sl_paper_face title = face_of(pen), note = face_of(pen);
    title.size = CHART_TITLE;
    title.bold = true;
    const bool titled = block->text[0] == '\0' && chart->title != NULL;
    const double above = titled ? text(pen, draws, box.x, box.y, box.w, title, chart->title) : 0.0;
    const double key = chart->n_keys > 0 ? KEY * box.w : 0.0, field = box.w - key - (key > 0.0 ? GAP : 0.0);
    if (draws) {
        sl_page_pen page = {pen->canvas, SMALLER};
        const sl_graph_pen graph = sl_graph_pen_on_page(&page);
        box.y += above;
        sl_graph_draw(chart, &graph, (sl_graph_box){box.x, box.y, field, box.h});
        sl_graph_draw_key(chart, &graph, (sl_graph_box){box.x + field + GAP, box.y, key, box.h});
        box.y -= above;
    }
    return above + box.h +
           (chart->note != NULL
                ? AFTER + text(pen, draws, box.x, box.y + above + box.h + AFTER, box.w, note, chart->note)
                : 0.0);
}

static double put_charts(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    const int n = block->count;
    /* One that has no key leaves room for another, and is as wide as if it stood there. */
    const int abreast = block->chart[0]->n_keys > 0 ? n : SL_CHARTS_ABREAST;
    const double above = put_words_above(pen, block, y, draws),
                 each = (pen->width - GAP * (abreast - 1)) / abreast;
    double most = 0.0;
    for (int i = 0; i < n; i++) {
        const sl_graph_box box = {pen->left + i * (each + GAP), y + above, each, block->height};
        most = fmax(most, put_chart(pen, block, block->chart[i], box, draws));
    }
    return above + most + 2.0 * AFTER;
}

/* ---- tables ------------------------------------------------------------------------------ */

static sl_paper_face cell_face(const sl_piece_pen *pen, bool head, bool right)
{
    sl_paper_face face = face_of(pen);
    face.bold = head;
    face.align = right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
    return face;
}

/* As a table's column asks for it (columns.h). */
static double words_wide(const void *pen, bool head, const char *words, double enough)
{
    (void)enough;
    return sl_canvas_wide(((const sl_piece_pen *)pen)->canvas, cell_face(pen, head, false), words);
}

/* Of the columns, as long as the block is the same. */
static const double *widths(const sl_piece_pen *pen, const sl_block *block)
{
    if (pen->table->of != block) {
        pen->table->of = block;
        sl_columns_settle(block, pen->width, 2.0 * PAD, words_wide, pen, pen->table->width);
    }
    return pen->table->width;
}

/* A cell of a row from its left edge at x; its words, its face and its width. What spans the rest of its row
 * ends it. */
typedef struct sl_piece_cell {
    const char *words;
    sl_paper_face face;
    double width;
    bool last;
} sl_piece_cell;

static sl_piece_cell cell_at(const sl_piece_pen *pen, const sl_block *block, int row, int column, double x,
                             char words[SL_ENTRY_WORDS])
{
    const bool head = row == SL_ROW_HEAD, right = (block->columns[column].is & SL_RIGHT) != 0;
    const sl_entry *const entry =
        head ? NULL : &block->entry[(size_t)row * (size_t)block->count + (size_t)column];
    const bool rest = !head && entry->kind == SL_ENTRY_REST;
    return (sl_piece_cell){.words = head ? block->columns[column].head : sl_entry_words(entry, words),
                           .face = cell_face(pen, head, right && !rest),
                           .width = rest ? pen->left + pen->width - x : widths(pen, block)[column],
                           .last = rest || column + 1 == block->count};
}

static double row_height(const sl_piece_pen *pen, const sl_block *block, int row)
{
    char words[SL_ENTRY_WORDS];
    if (row == SL_ROW_HEAD && !sl_block_headed(block)) {
        return 0.0;
    }
    double most = row == SL_ROW_HEAD ? 0.0 : block->height - 2.0 * PAD, x = pen->left;
    sl_piece_cell cell = {.last = false};
    for (int c = 0; !cell.last; c++, x += cell.width) {
        cell = cell_at(pen, block, row, c, x, words);
        most = fmax(most, sl_canvas_measure(pen->canvas, cell.width - 2.0 * PAD, 0, cell.face, cell.words));
    }
    return most + 2.0 * PAD;
}

static void draw_row(const sl_piece_pen *pen, const sl_block *block, int row, double y, double height)
{
    cairo_t *const cairo = pen->canvas->cairo;
    char words[SL_ENTRY_WORDS];
    double x = pen->left;
    sl_piece_cell cell = {.last = false};
    if (row == SL_ROW_HEAD) {
        sl_canvas_grey(pen->canvas, 0.9);
        cairo_rectangle(cairo, pen->left, y, pen->width, height);
        cairo_fill(cairo);
    }
    for (int c = 0; !cell.last; c++, x += cell.width) {
        cell = cell_at(pen, block, row, c, x, words);
        sl_canvas_text(pen->canvas, x + PAD, y + PAD, cell.width - 2.0 * PAD, 0, cell.face, cell.words);
        sl_canvas_grey(pen->canvas, 0.35);
        cairo_set_line_width(cairo, 0.6);
        cairo_rectangle(cairo, x, y, cell.width, height);
        cairo_stroke(cairo);
    }
}

static double put_title_of_block(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    sl_paper_face face = face_of(pen);
    face.bold = true;
    return block->text[0] == '\0'
               ? 0.0
               : 3.0 + text(pen, draws, pen->left, y + 3.0, pen->width, face, block->text) + AFTER;
}

/* ---- cards ------------------------------------------------------------------------------- */

/* The title and the words of a card within its width; draws: from the corner at x and y; returns the height.
 */
static double put_card(const sl_piece_pen *pen, const sl_card *card, double x, double y, double width,
                       bool draws)
{
    static const double inset = 8.0, head = 5.0, gap = 2.0;
    const sl_paper_face large = {.size = 20.0, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    const double inner = width - 2.0 * inset,
                 title = text(pen, draws, x + inset, y + head, inner, large, card->title);
    const double top = head + title + gap;
    if (draws) {
        sl_canvas_text(pen->canvas, x + inset, y + top, inner, 2, face_of(pen), card->text);
    }
    return top + sl_canvas_measure(pen->canvas, inner, 2, face_of(pen), card->text) + head;
}

/* Of each of them: as wished, or as the longest needs. */
static double card_height(const sl_piece_pen *pen, const sl_block *block)
{
    double most = block->height;
    for (size_t i = 0; i < block->n_cells; i++) {
        most = fmax(most, put_card(pen, &block->card[i], 0.0, 0.0, pen->width / block->count, false));
    }
    return most;
}

static void draw_cards(const sl_piece_pen *pen, const sl_block *block, int row, double y, double height)
{
    static const double dashes[] = {4.0, 3.0};
    cairo_t *const cairo = pen->canvas->cairo;
    const double width = pen->width / block->count;
    for (int c = 0; c < block->count; c++) {
        const size_t i = (size_t)row * (size_t)block->count + (size_t)c;
        const double x = pen->left + c * width;
        if (i < block->n_cells) {
            sl_canvas_grey(pen->canvas, 0.3);
            cairo_set_line_width(cairo, 0.7);
            cairo_set_dash(cairo, dashes, 2, 0.0);
            cairo_rectangle(cairo, x, y, width, height);
            cairo_stroke(cairo);
            cairo_set_dash(cairo, NULL, 0, 0.0);
            put_card(pen, &block->card[i], x, y, width, true);
        }
    }
}

/* ---- all of them --------------------------------------------------------------------------- */

static double put_plain(const sl_piece_pen *pen, const sl_block *block, double y, bool draws)
{
    switch (block->kind) {
    case SL_BLOCK_HEADING:
    case SL_BLOCK_PART:
        return put_heading(pen, block, y, draws);
    case SL_BLOCK_SAY:
        return text(pen, draws, pen->left, y, pen->width, face_of(pen), block->text) + AFTER;
    case SL_BLOCK_ROW:
    case SL_BLOCK_DOTS:
        return put_beside(pen, block->label, block->text, y, draws);
    case SL_BLOCK_APART:
        return AFTER;
    case SL_BLOCK_ITEM:
    case SL_BLOCK_TICK:
        return put_item(pen, block, y, draws);
    case SL_BLOCK_CAUTION:
        return put_caution(pen, block, y, draws);
    case SL_BLOCK_LINES:
        return put_lines(pen, block, y, draws);
    case SL_BLOCK_CHART:
        return put_charts(pen, block, y, draws);
    case SL_BLOCK_SKETCH:
        return put_sketch(pen, block, y, draws);
    case SL_BLOCK_TABLE:
    case SL_BLOCK_CARDS:
    case SL_BLOCK_BREAK:
        break;
    }
    return 0.0;
}

double sl_piece_height(const sl_piece_pen *pen, const sl_block *block, int row)
{
    if (row == SL_ROW_CAPTION) {
        return put_title_of_block(pen, block, 0.0, false);
    }
    return block->kind == SL_BLOCK_TABLE   ? row_height(pen, block, row)
           : block->kind == SL_BLOCK_CARDS ? card_height(pen, block)
                                           : put_plain(pen, block, 0.0, false);
}

void sl_piece_draw(const sl_piece_pen *pen, const sl_block *block, int row, double y, double height)
{
    if (row == SL_ROW_CAPTION) {
        put_title_of_block(pen, block, y, true);
    } else if (block->kind == SL_BLOCK_TABLE) {
        if (height > 0.0) {
            draw_row(pen, block, row, y, height);
        }
    } else if (block->kind == SL_BLOCK_CARDS) {
        draw_cards(pen, block, row, y, height);
    } else {
        put_plain(pen, block, y, true);
    }
}
