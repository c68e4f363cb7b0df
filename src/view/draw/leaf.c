/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See leaf.h. Lengths are pixels; those that look alike at every size are units of the pen.
 */
#include "view/draw/leaf.h"

#include "base/language.h"
#include "document/columns.h"
#include "document/renderers.h"
#include "view/draw/graph_pen.h"

/* Where a block is set: from the top at y down; draws: else it is only measured. */
typedef struct sl_leaf_pen {
    const sl_pen *pen;
    int x, y, w;
    bool roomy; /* all of the leaf is */
    bool draws;
} sl_leaf_pen;

/* Charts stand beside the text where the leaf is as wide as this, and take this share of it then. Their
 * fields are so high for their width, and at most so many units for a point on paper. What is set in two
 * forms has its wide one from ROOMY on. */
static const double WIDE = 900.0, ROOMY = 800.0, CHARTS = 0.55, COLUMN_GAP = 24.0, FIELD = 0.66,
                    OF_POINT = 2.0;
static const double LABELS = 57.0, WIDE_LABELS = 92.0, ROW_GAP = 3.0, CELL_GAP = 8.0, PART_GAP = 4.0,
                    DOT = 11.0, DOT_GAP = 3.0, INDENT = 10.0;

uint64_t sl_leaf_number(uint64_t so_far, const void *bytes, size_t size)
{
    const uint64_t offset = 14695981039346656037U, prime = 1099511628211U; /* FNV-1a */
    uint64_t number = so_far != 0 ? so_far : offset;
    for (size_t i = 0; i < size; i++) {
        number = (number ^ ((const unsigned char *)bytes)[i]) * prime;
    }
    return number;
}

/* ---- blocks ------------------------------------------------------------------------------------- */

static int px(const sl_leaf_pen *at, double units)
{
    return sl_pen_px(at->pen, units);
}

/* Wrapped, `in` pixels to the right; returns its height. */
static int put_words(const sl_leaf_pen *at, sl_type type, int in, const char *words)
{
    const SDL_Rect area = {at->x + in, at->y, SDL_max(at->w - in, 1), 0};
    return at->draws ? sl_pen_wrap(at->pen, type, SL_INK_TEXT, area, false, words)
                     : sl_text_height(at->pen->text, type, area.w, words);
}

/* A label in capitals warns: it and what it says stand in strong letters. */
static bool warns(const char *label)
{
    return label[0] >= 'A' && label[0] <= 'Z' && label[1] >= 'A' && label[1] <= 'Z';
}

/* A word of its own at the left, what it says beside it; a word that is wider than its column, above it. */
static int put_beside(sl_leaf_pen at, const char *label, const char *words)
{
    if (label[0] == '\0') {
        return put_words(&at, SL_TYPE_SMALL, 0, words) + px(&at, ROW_GAP);
    }
    const int column = px(&at, at.roomy ? WIDE_LABELS : LABELS), gap = px(&at, ROW_GAP);
    const sl_type type = warns(label) ? SL_TYPE_STRONG : SL_TYPE_SMALL;
    const bool wide = !sl_text_fits(at.pen->text, type, column - gap, label);
    const int above = wide ? sl_text_line_height(at.pen->text, type) : 0;
    if (at.draws) {
        sl_pen_write(at.pen, type, warns(label) ? SL_INK_TEXT : SL_INK_QUIET, at.x, at.y, SL_ALIGN_LEFT,
                     label);
    }
    at.y += above;
    return above + put_words(&at, type, column, words) + gap;
}

/* Full and empty, so that they can be counted without colour; where few stand in a wide leaf, their words go
 * on beside them. */
static int put_dots(sl_leaf_pen at, const sl_block *block)
{
    const int step = SDL_min(at.w / SDL_max(block->of, 1), px(&at, 2.0 * DOT));
    const int side = SDL_min(step - px(&at, DOT_GAP), px(&at, DOT));
    const int across = block->of * step;
    const bool beside = 3 * across < at.w;
    const int down = beside ? SDL_max(sl_text_line_height(at.pen->text, SL_TYPE_SMALL) - side, 0) / 2 : 0;
    for (int i = 0; at.draws && i < block->of; i++) {
        const SDL_Rect dot = {at.x + i * step, at.y + down, side, side};
        if (i < block->count) {
            sl_pen_fill(at.pen, dot, SL_MARK_CONTROL);
        } else {
            sl_pen_frame(at.pen, dot, px(&at, 1.25), SL_MARK_CONTROL);
        }
    }
    const int above = beside ? 0 : side + px(&at, DOT_GAP);
    at.x += beside ? across : 0;
    at.w -= beside ? across : 0;
    at.y += above;
    return above + put_beside(at, block->label, block->text) + px(&at, ROW_GAP);
}

/* What has one short sentence is told in it: whole it stands on a page of its own (K). */
static int put_caution(sl_leaf_pen at, const sl_block *block)
{
    const sl_caution_id id = block->caution;
    const sl_caution *const caution = sl_caution_text(id);
    if (block->brief) {
        return put_beside(at, _(caution->signal), sl_caution_short(id));
    }
    const int height = put_words(&at, SL_TYPE_SMALL, 0, _(caution->signal));
    at.y += height;
    return height +
           put_words(&at, SL_TYPE_SMALL, 0, caution->brief ? sl_caution_short(id) : _(caution->text)) +
           px(&at, ROW_GAP);
}

/* As a table's column asks for it (columns.h). */
static double words_wide(const void *pen, bool head, const char *words, double enough)
{
    sl_text *const text = ((const sl_pen *)pen)->text;
    (void)head;
    return sl_text_fits(text, SL_TYPE_SMALL, (int)enough, words)
               ? 0.0
               : sl_text_extent(text, SL_TYPE_SMALL, 0, words).x + 1; /* a column ends within a pixel */
}

static int put_table_row(sl_leaf_pen at, const sl_block *block, size_t row, bool head, const double wide[])
{
    double x = at.x;
    int highest = 0;
    char words[SL_ENTRY_WORDS];
    bool rest = false; /* it spans what is left of its row */
    for (int c = 0; c < block->count && !rest; c++) {
        const sl_text_column *const column = &block->columns[c];
        const sl_entry *const entry = head ? NULL : &block->entry[row * (size_t)block->count + (size_t)c];
        rest = !head && entry->kind == SL_ENTRY_REST;
        const int width = (int)(rest ? at.x + at.w - x : wide[c] - px(&at, CELL_GAP));
        const char *const text = head ? column->head : sl_entry_words(entry, words);
        const bool right = at.draws && (column->is & SL_RIGHT) != 0 && !rest;
        const int taken = right ? sl_text_extent(at.pen->text, SL_TYPE_SMALL, width, text).x : 0;
        const SDL_Rect area = {(int)x + (right ? SDL_max(width - taken, 0) : 0), at.y, width, 0};
        if (at.draws) {
            sl_pen_wrap(at.pen, SL_TYPE_SMALL, head ? SL_INK_QUIET : SL_INK_TEXT, area, false, text);
        }
        highest =
            SDL_max(highest, sl_text_fits(at.pen->text, SL_TYPE_SMALL, width, text) /* as it was asked */
                                 ? sl_text_line_height(at.pen->text, SL_TYPE_SMALL)
                                 : sl_text_height(at.pen->text, SL_TYPE_SMALL, width, text));
        x += wide[c];
    }
    return highest + px(&at, ROW_GAP);
}

static int put_table(sl_leaf_pen at, const sl_block *block)
{
    const int top = at.y;
    double wide[SL_MOST_COLUMNS];
    sl_columns_settle(block, at.w + px(&at, CELL_GAP), px(&at, CELL_GAP), words_wide, at.pen, wide);
    if (block->text[0] != '\0') {
        at.y += px(&at, PART_GAP);
        at.y += put_words(&at, SL_TYPE_STRONG, 0, block->text);
    }
    at.y += sl_block_headed(block) ? put_table_row(at, block, 0, true, wide) : 0;
    for (size_t row = 0; row < block->n_cells / (size_t)block->count; row++) {
        at.y += put_table_row(at, block, row, false, wide);
    }
    return at.y - top;
}

static int put_part(sl_leaf_pen at, const sl_block *block)
{
    const int gap = px(&at, PART_GAP);
    at.y += gap;
    return gap + put_words(&at, block->kind == SL_BLOCK_PART ? SL_TYPE_HEAD : SL_TYPE_STRONG, 0, block->text);
}

static int put_item(sl_leaf_pen at, const sl_block *block)
{
    if (at.draws) {
        sl_pen_write(at.pen, SL_TYPE_SMALL, SL_INK_TEXT, at.x, at.y, SL_ALIGN_LEFT,
                     block->kind == SL_BLOCK_TICK ? "□" : "•");
    }
    return put_words(&at, SL_TYPE_SMALL, px(&at, INDENT), block->text) + px(&at, ROW_GAP);
}

static int put_cards(sl_leaf_pen at, const sl_block *block)
{
    const int top = at.y;
    for (size_t i = 0; i < block->n_cells; i++) {
        at.y += put_beside(at, block->card[i].title, block->card[i].text);
    }
    return at.y - top;
}

/* Its title, where no words of the block say what it shows; its field, its key below it, its note. */
static int put_chart(sl_leaf_pen at, const sl_block *block, const sl_graph *chart)
{
    const sl_graph_pen pen = sl_graph_pen_in_window(at.pen);
    const int top = at.y, gap = px(&at, ROW_GAP);
    if (block->text[0] == '\0' && chart->title != NULL) {
        at.y += put_words(&at, SL_TYPE_STRONG, 0, chart->title) + gap;
    }
    const int high = (int)SDL_min(FIELD * at.w, OF_POINT * block->height * at.pen->unit);
    if (at.draws) {
        sl_graph_draw(chart, &pen, (sl_graph_box){at.x, at.y, at.w, high});
    }
    at.y += high + 2 * gap;
    at.y += (int)lround(at.draws ? sl_graph_draw_key(chart, &pen, (sl_graph_box){at.x, at.y, at.w, 0.0})
                                 : sl_graph_key_height(chart, &pen, at.w));
    if (chart->note != NULL) {
        at.y += put_words(&at, SL_TYPE_SMALL, 0, chart->note) + gap;
    }
    return at.y - top;
}

static int put_charts(sl_leaf_pen at, const sl_block *block)
{
    const int top = at.y;
    if (block->text[0] != '\0') {
        at.y += put_words(&at, SL_TYPE_SMALL, 0, block->text) + px(&at, ROW_GAP);
    }
    for (int i = 0; i < block->count; i++) {
        at.y += put_chart(at, block, block->chart[i]);
    }
    return at.y - top + px(&at, PART_GAP);
}

/* Draws a block, or not; returns its height. */
static int put_block(sl_leaf_pen at, const sl_block *block)
{
    switch (block->kind) {
    case SL_BLOCK_HEADING:
    case SL_BLOCK_PART:
        return put_part(at, block);
    case SL_BLOCK_ROW:
        return put_beside(at, block->label, block->text);
    case SL_BLOCK_DOTS:
        return put_dots(at, block);
    case SL_BLOCK_ITEM:
    case SL_BLOCK_TICK:
        return put_item(at, block);
    case SL_BLOCK_TABLE:
        return put_table(at, block);
    case SL_BLOCK_CARDS:
        return put_cards(at, block);
    case SL_BLOCK_CAUTION:
        return put_caution(at, block);
    case SL_BLOCK_SAY:
    case SL_BLOCK_LINES:
    case SL_BLOCK_SKETCH:
        return put_words(&at, SL_TYPE_SMALL, 0, block->text) + px(&at, ROW_GAP);
    case SL_BLOCK_CHART:
        return put_charts(at, block);
    case SL_BLOCK_APART:
    case SL_BLOCK_BREAK:
        return px(&at, PART_GAP);
    }
    return 0;
}

/* ---- the whole ----------------------------------------------------------------------------------- */

sl_document *sl_leaf_renew(sl_leaf *leaf, uint64_t says)
{
    if (leaf->says == says) {
        return NULL;
    }
    sl_document_free(&leaf->document);
    leaf->says = says;
    leaf->width = 0;
    leaf->error = (sl_error){.code = SL_OK};
    return &leaf->document;
}

/* Whose hair the numbers are about, and the title, larger where there is room for two columns. */
static int head_height(const sl_leaf *leaf, sl_leaf_pen at)
{
    const sl_document *const document = &leaf->document;
    const sl_type type = at.w >= px(&at, WIDE) ? SL_TYPE_HEAD : SL_TYPE_STRONG;
    const int lies = document->lies != NULL ? put_words(&at, SL_TYPE_STRONG, 0, document->lies) : 0;
    at.y += lies;
    return lies + (document->title != NULL ? put_words(&at, type, 0, document->title) : 0);
}

static bool is_charts(const sl_block *block)
{
    return block->kind == SL_BLOCK_CHART;
}

/* How wide the text is: all of it, or what a column of charts beside it leaves. */
static int text_width(const sl_leaf *leaf, const sl_pen *pen, int width)
{
    bool any = false;
    for (size_t i = 0; i < leaf->document.n; i++) {
        any = any || is_charts(&leaf->document.blocks[i]);
    }
    return any && width >= sl_pen_px(pen, WIDE) ? (int)((1.0 - CHARTS) * width) : width;
}

/* At (x, y) with all its width. */
static sl_leaf_pen pen_of(const sl_leaf *leaf, const sl_pen *pen, int width, SDL_Point corner)
{
    const bool roomy = width >= sl_pen_px(pen, ROOMY) && text_width(leaf, pen, width) == width;
    return (sl_leaf_pen){.pen = pen, .x = corner.x, .y = corner.y, .w = width, .roomy = roomy};
}

static void lay_blocks(sl_leaf *leaf, const sl_pen *pen, int width)
{
    const int text = text_width(leaf, pen, width), beside = text + sl_pen_px(pen, COLUMN_GAP);
    sl_leaf_pen at = pen_of(leaf, pen, width, (SDL_Point){0, 0});
    const int head = head_height(leaf, at);
    int below[2] = {head, head}; /* of the text, of the charts beside it */
    bool pair = true;            /* the brief caution before has one beside it */
    for (size_t i = 0; i < leaf->document.n; i++) {
        const sl_block *const block = &leaf->document.blocks[i];
        const int side = text < width && is_charts(block) ? 1 : 0;
        const bool half = at.roomy && block->brief;
        pair = !half || (i > 0 && leaf->document.blocks[i - 1].brief && !pair);
        SDL_Rect area = {side == 1 ? beside : 0, below[side], side == 1 ? width - beside : text, 0};
        if (half) {
            area = (SDL_Rect){pair ? text / 2 : 0, pair ? leaf->place[i - 1].y : area.y, text / 2, 0};
        }
        at.w = area.w;
        area.h = sl_block_shown(block, leaf->depth, !at.roomy) ? put_block(at, block) : 0;
        leaf->place[i] = area;
        below[side] = SDL_max(below[side], area.y + area.h);
    }
    leaf->height = SDL_max(below[0], below[1]);
}

bool sl_leaf_lay(sl_leaf *leaf, const sl_pen *pen, int width, sl_depth depth)
{
    const sl_document *const document = &leaf->document;
    if (document->failed || (leaf->width == width && leaf->unit == pen->unit && leaf->depth == depth)) {
        return !document->failed;
    }
    leaf->width = 0;
    if (!sl_grow(&leaf->place, &leaf->room, document->n + 1, sizeof *leaf->place, "setting a panel",
                 &leaf->error)) {
        return false;
    }
    leaf->width = width;
    leaf->unit = pen->unit;
    leaf->depth = depth;
    lay_blocks(leaf, pen, width);
    return true;
}

void sl_leaf_draw(const sl_leaf *leaf, const sl_pen *pen, int x, int y)
{
    SDL_Rect clip;
    SDL_GetClipRect(pen->sheet, &clip);
    if (leaf->width == 0) {
        return;
    }
    sl_leaf_pen set = pen_of(leaf, pen, leaf->width, (SDL_Point){x, y});
    set.draws = true;
    head_height(leaf, set);
    for (size_t i = 0; i < leaf->document.n; i++) {
        const SDL_Rect at = leaf->place[i];
        const bool in_sight = y + at.y < clip.y + clip.h && y + at.y + at.h > clip.y;
        if (at.h > 0 && (in_sight || sl_text_tells(pen->text))) {
            set.x = x + at.x;
            set.y = y + at.y;
            set.w = at.w;
            put_block(set, &leaf->document.blocks[i]);
        }
    }
}

void sl_leaf_free(sl_leaf *leaf)
{
    sl_document_free(&leaf->document);
    sl_free(leaf->place);
    *leaf = (sl_leaf){.says = 0};
}
