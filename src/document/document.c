/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Building a document; see document.h.
 */
#include "document/document.h"
#include "slowlift/caution.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { TEXT = 2048 };
static const char doing[] = "writing a sheet";

void sl_document_begin(sl_document *document, const char *name, const char *title, const char *note,
                       sl_error *error)
{
    *document = (sl_document){.name = name, .title = title, .error = error};
    document->note = sl_arena_text(&document->arena, note, strlen(note), error);
    document->failed = document->note == NULL;
}

void sl_document_free(sl_document *document)
{
    for (size_t i = 0; i < document->n; i++) {
        sl_free(document->blocks[i].cell);
        sl_free(document->blocks[i].card);
    }
    sl_free(document->blocks);
    sl_arena_free(&document->arena);
    *document = (sl_document){.name = NULL};
}

static const char *keep(sl_document *document, const char *text)
{
    const char *const kept =
        document->failed ? NULL : sl_arena_text(&document->arena, text, strlen(text), document->error);
    document->failed = kept == NULL;
    return kept;
}

const char *sl_document_keep(sl_document *document, const char *text)
{
    const char *const kept = keep(document, text);
    return kept != NULL ? kept : "";
}

static sl_block *add(sl_document *document, sl_block_kind kind, const char *text)
{
    const char *const kept = keep(document, text);
    if (kept == NULL || !sl_grow(&document->blocks, &document->room, document->n + 1, sizeof(sl_block), doing,
                                 document->error)) {
        document->failed = true;
        return NULL;
    }
    sl_block *const block = &document->blocks[document->n++];
    *block = (sl_block){.kind = kind, .text = kept};
    return block;
}

void sl_document_heading(sl_document *document, const char *text)
{
    add(document, SL_BLOCK_HEADING, text);
}

void sl_document_break(sl_document *document)
{
    add(document, SL_BLOCK_BREAK, "");
}

void sl_document_caution(sl_document *document, sl_caution_id id)
{
    sl_block *const block = add(document, SL_BLOCK_CAUTION, "");
    if (block != NULL) {
        block->caution = id;
    }
}

SL_FORMAT(2) void sl_document_say(sl_document *document, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(document, SL_BLOCK_SAY, text);
}

SL_FORMAT(2) void sl_document_bullet(sl_document *document, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(document, SL_BLOCK_BULLET, text);
}

SL_FORMAT(2) void sl_document_tick(sl_document *document, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(document, SL_BLOCK_TICK, text);
}

SL_FORMAT(3) void sl_document_lines(sl_document *document, int count, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    sl_block *const block = add(document, SL_BLOCK_LINES, text);
    if (block != NULL) {
        block->count = count;
    }
}

void sl_document_table(sl_document *document, const char *caption, int n_columns,
                       const sl_text_column *columns, double least)
{
    assert(n_columns > 0 && n_columns <= SL_MOST_COLUMNS);
    sl_block *const block = add(document, SL_BLOCK_TABLE, caption);
    sl_text_column *const kept = block == NULL ? NULL
                                               : sl_arena_new(&document->arena, (size_t)n_columns,
                                                              sizeof *kept, doing, document->error);
    document->failed = kept == NULL;
    if (kept != NULL) {
        memcpy(kept, columns, (size_t)n_columns * sizeof *kept);
        block->columns = kept;
        block->count = n_columns;
        block->height = least;
    }
}

void sl_document_cards(sl_document *document, const char *caption, int n_columns, double height)
{
    sl_block *const block = add(document, SL_BLOCK_CARDS, caption);
    if (block != NULL) {
        block->count = n_columns;
        block->height = height;
    }
}

static sl_block *newest(sl_document *document, sl_block_kind kind)
{
    if (document->failed) {
        return NULL;
    }
    sl_block *const block = &document->blocks[document->n - 1];
    assert(block->kind == kind);
    (void)kind;
    return block;
}

SL_FORMAT(2) void sl_document_cell(sl_document *document, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const char *const kept = keep(document, text);
    sl_block *const block = newest(document, SL_BLOCK_TABLE);
    if (block == NULL || !sl_grow(&block->cell, &block->room, block->n_cells + 1, sizeof *block->cell, doing,
                                  document->error)) {
        document->failed = true;
        return;
    }
    block->cell[block->n_cells++] = kept;
}

SL_FORMAT(3) void sl_document_card(sl_document *document, const char *title, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const sl_card card = {.title = keep(document, title), .text = keep(document, text)};
    sl_block *const block = newest(document, SL_BLOCK_CARDS);
    if (block == NULL || !sl_grow(&block->card, &block->room, block->n_cells + 1, sizeof *block->card, doing,
                                  document->error)) {
        document->failed = true;
        return;
    }
    block->card[block->n_cells++] = card;
}

void sl_document_figure(sl_document *document, const char *words, double height, const sl_sketch *figure)
{
    sl_block *const block = add(document, SL_BLOCK_FIGURE, words);
    if (block != NULL) {
        block->height = height;
        block->figure = figure;
    }
}
