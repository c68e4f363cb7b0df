/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Building a document; see document.h.
 */
#include "document/document.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/edition.h"

static const char doing[] = "writing a document";

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

/* However long it is. */
__attribute__((format(printf, 2, 0))) static const char *keep_words(sl_document *document, const char *format,
                                                                    va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *const kept = document->failed
                           ? NULL
                           : sl_arena_new(&document->arena, (size_t)length + 1, 1, doing, document->error);
    document->failed = kept == NULL;
    if (kept != NULL) {
        vsnprintf(kept, (size_t)length + 1, format, arguments);
    }
    return kept;
}

void sl_document_begin(sl_document *document, const char *name, const char *title, sl_error *error)
{
    *document = (sl_document){.name = name, .error = error, .depth = SL_MORE, .deepest = SL_SCIENCE};
    document->title = title ? keep(document, title) : NULL;
}

void sl_document_free(sl_document *document)
{
    for (size_t i = 0; i < document->n; i++) {
        sl_free(document->blocks[i].entry);
        sl_free(document->blocks[i].card);
    }
    sl_free(document->blocks);
    sl_arena_free(&document->arena);
    *document = (sl_document){.name = NULL};
}

void sl_document_lies(sl_document *document, const char *text)
{
    document->lies = keep(document, text);
}

void sl_document_note(sl_document *document, const char *text)
{
    document->note = keep(document, text);
}

/* NULL: out of memory, or deeper than anybody reads. text: kept already. */
static sl_block *add(sl_document *document, sl_block_kind kind, const char *text)
{
    assert(!document->ended);
    if (document->failed || document->depth > document->deepest) {
        return NULL;
    }
    if (!sl_grow(&document->blocks, &document->room, document->n + 1, sizeof(sl_block), doing,
                 document->error)) {
        document->failed = true;
        return NULL;
    }
    sl_block *const block = &document->blocks[document->n++];
    *block = (sl_block){.kind = kind, .depth = document->depth, .fit = document->fit, .text = text};
    return block;
}

bool sl_block_shown(const sl_block *block, sl_depth depth, bool narrow)
{
    return block->depth <= depth && block->fit != (narrow ? SL_FIT_WIDE : SL_FIT_NARROW);
}

void sl_document_heading(sl_document *document, const char *text)
{
    add(document, SL_BLOCK_HEADING, keep(document, text));
}

void sl_document_apart(sl_document *document)
{
    add(document, SL_BLOCK_APART, "");
}

void sl_document_break(sl_document *document)
{
    add(document, SL_BLOCK_BREAK, "");
}

__attribute__((format(printf, 3, 0))) static void add_words(sl_document *document, sl_block_kind kind,
                                                            const char *format, va_list arguments)
{
    const char *const text = keep_words(document, format, arguments);
    add(document, kind, text);
}

SL_FORMAT(2) void sl_document_part(sl_document *document, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add_words(document, SL_BLOCK_PART, format, arguments);
    va_end(arguments);
}

SL_FORMAT(2) void sl_document_say(sl_document *document, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add_words(document, SL_BLOCK_SAY, format, arguments);
    va_end(arguments);
}

void sl_document_take_sentence(void *document, const char *sentence)
{
    sl_document_say(document, "%s", sentence);
}

SL_FORMAT(2) void sl_document_item(sl_document *document, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add_words(document, SL_BLOCK_ITEM, format, arguments);
    va_end(arguments);
}

SL_FORMAT(2) void sl_document_tick(sl_document *document, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add_words(document, SL_BLOCK_TICK, format, arguments);
    va_end(arguments);
}

SL_FORMAT(3) void sl_document_row(sl_document *document, const char *label, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *const text = keep_words(document, format, arguments);
    va_end(arguments);
    const char *const kept = keep(document, label);
    sl_block *const block = add(document, SL_BLOCK_ROW, text);
    if (block != NULL) {
        block->label = kept;
    }
}

SL_FORMAT(5)
void sl_document_dots(sl_document *document, const char *label, int full, int of, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *const text = keep_words(document, format, arguments);
    va_end(arguments);
    const char *const kept = keep(document, label);
    sl_block *const block = add(document, SL_BLOCK_DOTS, text);
    if (block != NULL) {
        block->label = kept;
        block->count = full;
        block->of = of;
    }
}

SL_FORMAT(3) void sl_document_lines(sl_document *document, int count, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *const text = keep_words(document, format, arguments);
    va_end(arguments);
    sl_block *const block = add(document, SL_BLOCK_LINES, text);
    if (block != NULL) {
        block->count = count;
    }
}

static sl_text_column *kept_columns(sl_document *document, int n, const sl_text_column *columns)
{
    sl_text_column *const kept =
        document->failed ? NULL
                         : sl_arena_new(&document->arena, (size_t)n, sizeof *kept, doing, document->error);
    document->failed = kept == NULL;
    for (int i = 0; kept != NULL && i < n; i++) {
        kept[i] = columns[i];
        kept[i].head = keep(document, (columns[i].is & SL_OWN) != 0 ? columns[i].head : _(columns[i].head));
    }
    return kept;
}

void sl_document_table(sl_document *document, const char *caption, int n_columns,
                       const sl_text_column *columns, double least)
{
    assert(n_columns > 0 && n_columns <= SL_MOST_COLUMNS);
    const sl_text_column *const kept = kept_columns(document, n_columns, columns);
    sl_block *const block = add(document, SL_BLOCK_TABLE, keep(document, caption));
    if (block != NULL) {
        block->columns = kept;
        block->count = n_columns;
        block->height = least;
    }
}

void sl_document_cards(sl_document *document, const char *caption, int n_columns, double height)
{
    sl_block *const block = add(document, SL_BLOCK_CARDS, keep(document, caption));
    if (block != NULL) {
        block->count = n_columns;
        block->height = height;
    }
}

/* NULL: out of memory, or what is deeper than anybody reads. */
static sl_block *newest(const sl_document *document, sl_block_kind kind)
{
    if (document->failed || document->depth > document->deepest) {
        return NULL;
    }
    sl_block *const block = &document->blocks[document->n - 1];
    assert(block->kind == kind);
    (void)kind;
    return block;
}

/* Its text is kept already. */
static void add_entry(sl_document *document, sl_entry entry)
{
    sl_block *const block = newest(document, SL_BLOCK_TABLE);
    if (block == NULL) {
        return;
    }
    if (!sl_grow(&block->entry, &block->room, block->n_cells + 1, sizeof *block->entry, doing,
                 document->error)) {
        document->failed = true;
        return;
    }
    block->entry[block->n_cells++] = entry;
}

void sl_document_entry(sl_document *document, sl_entry entry)
{
    if (entry.kind == SL_ENTRY_TEXT || entry.kind == SL_ENTRY_REST) {
        entry.text = keep(document, entry.text);
    }
    add_entry(document, entry);
}

SL_FORMAT(2) void sl_document_cell(sl_document *document, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *const text = keep_words(document, format, arguments);
    va_end(arguments);
    add_entry(document, (sl_entry){.kind = SL_ENTRY_TEXT, .text = text});
}

void sl_document_rest(sl_document *document, const char *text)
{
    const sl_block *const block = newest(document, SL_BLOCK_TABLE);
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_REST, .text = text});
    while (!document->failed && block != NULL && block->n_cells % (size_t)block->count != 0) {
        add_entry(document, (sl_entry){.kind = SL_ENTRY_NONE});
    }
}

SL_FORMAT(3) void sl_document_card(sl_document *document, const char *title, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *const text = keep_words(document, format, arguments);
    va_end(arguments);
    const sl_card card = {.title = keep(document, title), .text = text};
    sl_block *const block = newest(document, SL_BLOCK_CARDS);
    if (block == NULL) {
        return;
    }
    if (!sl_grow(&block->card, &block->room, block->n_cells + 1, sizeof *block->card, doing,
                 document->error)) {
        document->failed = true;
        return;
    }
    block->card[block->n_cells++] = card;
}

void sl_document_charts(sl_document *document, const char *words, double height, int n,
                        const sl_graph *const *chart)
{
    assert(n <= SL_CHARTS_ABREAST);
    for (int i = 0; i < n; i++) {
        document->failed = document->failed || chart[i] == NULL;
    }
    sl_block *const block = add(document, SL_BLOCK_CHART, keep(document, words));
    if (block != NULL) {
        block->height = height;
        block->count = n;
        memcpy(block->chart, chart, (size_t)n * sizeof *chart);
    }
}

void sl_document_sketch(sl_document *document, const char *words, double height, const sl_sketch *sketch)
{
    sl_block *const block = add(document, SL_BLOCK_SKETCH, keep(document, words));
    if (block != NULL) {
        block->height = height;
        block->sketch = sketch;
    }
}

/* What stands before its cautions, and the headings over them. */
static size_t without_foot(const sl_document *document)
{
    size_t n = 0;
    while (n < document->n && document->blocks[n].kind != SL_BLOCK_CAUTION) {
        n++;
    }
    while (n > 0 && document->blocks[n - 1].kind == SL_BLOCK_HEADING) {
        n--;
    }
    return n;
}

void sl_document_take(sl_document *document, const char *heading, sl_document_sayer *say, const void *of)
{
    sl_document part;
    if (document->failed) {
        return;
    }
    say(&part, of, document->error);
    document->failed = part.failed;
    sl_document_heading(document, heading);
    if (part.lies != NULL) {
        sl_document_say(document, "%s", part.lies);
    }
    for (size_t i = 0; i < without_foot(&part); i++) {
        sl_block *const from = &part.blocks[i];
        sl_block *const to = add(document, from->kind, from->text);
        if (to != NULL) {
            *to = *from;
            to->kind = from->kind == SL_BLOCK_HEADING ? SL_BLOCK_PART : from->kind;
            from->entry = NULL;
            from->card = NULL;
        }
    }
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        document->owes[id] = document->owes[id] || part.owes[id];
    }
    sl_arena_join(&document->arena, &part.arena);
    sl_document_free(&part);
}

void sl_document_owes(sl_document *document, sl_caution_id id)
{
    document->owes[id] = true;
}

void sl_document_end(sl_document *document, unsigned occasions)
{
    assert(occasions != 0);
    document->depth = SL_LEAD;
    document->fit = SL_FIT_ANY;
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        document->owes[id] = document->owes[id] || sl_occasion_owes(occasions, (sl_caution_id)id);
        sl_block *const block = document->owes[id] ? add(document, SL_BLOCK_CAUTION, "") : NULL;
        if (block != NULL) {
            block->caution = (sl_caution_id)id;
            block->brief = document->brief && sl_caution_text(block->caution)->brief != NULL;
        }
    }
    if ((occasions & SL_ON_HAIR) != 0) {
        sl_document_say(document, _("All cautions: slowlift cautions. Model %d of %s."), sl_edition_now,
                        sl_edition_day());
    } else if (document->owes[SL_CAUTION_ESTIMATE]) {
        sl_document_say(document, _("Model %d of %s."), sl_edition_now, sl_edition_day());
    }
    document->ended = true;
}
