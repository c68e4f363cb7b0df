/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Building a handout; see handout.h.
 */
#include "paper/handout/handout.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { TEXT = 2048 };
static const char doing[] = "writing a sheet";

void sl_handout_begin(sl_handout *handout, const char *name, const char *title, const char *note,
                      sl_error *error)
{
    *handout = (sl_handout){.name = name, .title = title, .error = error};
    handout->note = sl_arena_text(&handout->arena, note, strlen(note), error);
    handout->failed = handout->note == NULL;
}

void sl_handout_free(sl_handout *handout)
{
    for (size_t i = 0; i < handout->n; i++) {
        sl_free(handout->blocks[i].cell);
        sl_free(handout->blocks[i].card);
    }
    sl_free(handout->blocks);
    sl_arena_free(&handout->arena);
    *handout = (sl_handout){.name = NULL};
}

static const char *keep(sl_handout *handout, const char *text)
{
    const char *const kept =
        handout->failed ? NULL : sl_arena_text(&handout->arena, text, strlen(text), handout->error);
    handout->failed = kept == NULL;
    return kept;
}

const char *sl_handout_keep(sl_handout *handout, const char *text)
{
    const char *const kept = keep(handout, text);
    return kept != NULL ? kept : "";
}

static sl_block *add(sl_handout *handout, sl_block_kind kind, const char *text)
{
    const char *const kept = keep(handout, text);
    if (kept == NULL ||
        !sl_grow(&handout->blocks, &handout->room, handout->n + 1, sizeof(sl_block), doing, handout->error)) {
        handout->failed = true;
        return NULL;
    }
    sl_block *const block = &handout->blocks[handout->n++];
    *block = (sl_block){.kind = kind, .text = kept};
    return block;
}

void sl_handout_heading(sl_handout *handout, const char *text)
{
    add(handout, SL_BLOCK_HEADING, text);
}

void sl_handout_break(sl_handout *handout)
{
    add(handout, SL_BLOCK_BREAK, "");
}

void sl_handout_caution(sl_handout *handout, sl_caution_id id)
{
    sl_block *const block = add(handout, SL_BLOCK_CAUTION, "");
    if (block != NULL) {
        block->caution = id;
    }
}

SL_FORMAT(2) void sl_handout_say(sl_handout *handout, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(handout, SL_BLOCK_SAY, text);
}

SL_FORMAT(2) void sl_handout_bullet(sl_handout *handout, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(handout, SL_BLOCK_BULLET, text);
}

SL_FORMAT(2) void sl_handout_tick(sl_handout *handout, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    add(handout, SL_BLOCK_TICK, text);
}

SL_FORMAT(3) void sl_handout_lines(sl_handout *handout, int count, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    sl_block *const block = add(handout, SL_BLOCK_LINES, text);
    if (block != NULL) {
        block->count = count;
    }
}

void sl_handout_table(sl_handout *handout, const char *caption, int n_columns,
                      const sl_handout_column *columns, double least)
{
    assert(n_columns > 0 && n_columns <= SL_MOST_COLUMNS);
    sl_block *const block = add(handout, SL_BLOCK_TABLE, caption);
    sl_handout_column *const kept =
        block == NULL ? NULL
                      : sl_arena_new(&handout->arena, (size_t)n_columns, sizeof *kept, doing, handout->error);
    handout->failed = kept == NULL;
    if (kept != NULL) {
        memcpy(kept, columns, (size_t)n_columns * sizeof *kept);
        block->columns = kept;
        block->count = n_columns;
        block->height = least;
    }
}

void sl_handout_cards(sl_handout *handout, const char *caption, int n_columns, double height)
{
    sl_block *const block = add(handout, SL_BLOCK_CARDS, caption);
    if (block != NULL) {
        block->count = n_columns;
        block->height = height;
    }
}

static sl_block *newest(sl_handout *handout, sl_block_kind kind)
{
    if (handout->failed) {
        return NULL;
    }
    sl_block *const block = &handout->blocks[handout->n - 1];
    assert(block->kind == kind);
    (void)kind;
    return block;
}

SL_FORMAT(2) void sl_handout_cell(sl_handout *handout, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const char *const kept = keep(handout, text);
    sl_block *const block = newest(handout, SL_BLOCK_TABLE);
    if (block == NULL || !sl_grow(&block->cell, &block->room, block->n_cells + 1, sizeof *block->cell, doing,
                                  handout->error)) {
        handout->failed = true;
        return;
    }
    block->cell[block->n_cells++] = kept;
}

SL_FORMAT(3) void sl_handout_card(sl_handout *handout, const char *title, const char *format, ...)
{
    char text[TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const sl_card card = {.title = keep(handout, title), .text = keep(handout, text)};
    sl_block *const block = newest(handout, SL_BLOCK_CARDS);
    if (block == NULL || !sl_grow(&block->card, &block->room, block->n_cells + 1, sizeof *block->card, doing,
                                  handout->error)) {
        handout->failed = true;
        return;
    }
    block->card[block->n_cells++] = card;
}

void sl_handout_figure(sl_handout *handout, const char *words, double height, const sl_sketch *figure)
{
    sl_block *const block = add(handout, SL_BLOCK_FIGURE, words);
    if (block != NULL) {
        block->height = height;
        block->figure = figure;
    }
}
