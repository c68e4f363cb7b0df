/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document as an outline: a line for each block and entry, with its depth, kind and key, so that a test
 * need not guess at what a sentence is. Invariant: as long as the words are the same, so is the outline,
 * whatever a medium makes of them.
 */
#include <assert.h>

#include "document/renderers.h"

static const char *depth_word(sl_depth depth)
{
    static const char *const words[] = {[SL_LEAD] = "lead", [SL_MORE] = "more", [SL_SCIENCE] = "science"};
    return words[depth];
}

static const char *kind_word(sl_block_kind kind)
{
    static const char *const words[] = {
        [SL_BLOCK_HEADING] = "heading", [SL_BLOCK_PART] = "part",     [SL_BLOCK_SAY] = "say",
        [SL_BLOCK_ROW] = "row",         [SL_BLOCK_DOTS] = "dots",     [SL_BLOCK_ITEM] = "item",
        [SL_BLOCK_TICK] = "tick",       [SL_BLOCK_TABLE] = "table",   [SL_BLOCK_LINES] = "lines",
        [SL_BLOCK_CAUTION] = "caution", [SL_BLOCK_CARDS] = "cards",   [SL_BLOCK_APART] = "apart",
        [SL_BLOCK_CHART] = "chart",     [SL_BLOCK_SKETCH] = "sketch", [SL_BLOCK_BREAK] = "break"};
    return words[kind];
}

static void put_entries(FILE *out, const sl_block *block)
{
    char words[SL_ENTRY_WORDS];
    for (size_t i = 0; i < block->n_cells; i++) {
        const sl_entry *const entry = &block->entry[i];
        const size_t column = i % (size_t)block->count;
        fprintf(out, "  %zu %s %s: %s\n", i / (size_t)block->count + 1, sl_entry_kind_word(entry->kind),
                block->columns[column].head, sl_entry_words(entry, words));
    }
}

/* Its words, as far as it has them. */
static void put_chart(FILE *out, const sl_graph *chart)
{
    const struct {
        const char *word, *says;
    } said[] = {{"title", chart->title}, {"under", chart->under}, {"across", chart->x.name},
                {"up", chart->y.name},   {"note", chart->note},   {"says", chart->says},
                {"foot", chart->foot}};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        if (said[i].says != NULL) {
            fprintf(out, "  %s: %s\n", said[i].word, said[i].says);
        }
    }
    for (int i = 0; i < chart->n_series; i++) {
        if (chart->series[i].label != NULL) {
            fprintf(out, "  %d points: %s\n", chart->series[i].n, chart->series[i].label);
        }
    }
    for (int i = 0; i < chart->n_keys; i++) {
        const sl_graph_key *const key = &chart->key[i];
        fprintf(out, "  key %s: %s\n", key->name != NULL ? key->name : "",
                key->words != NULL ? key->words : "");
    }
}

static void put_block(FILE *out, const sl_block *block)
{
    fprintf(out, "%s %s", depth_word(block->depth), kind_word(block->kind));
    if (block->kind == SL_BLOCK_ROW) {
        fprintf(out, " %s:", block->label);
    } else if (block->kind == SL_BLOCK_DOTS) {
        fprintf(out, " %s: %d of %d:", block->label, block->count, block->of);
    }
    fprintf(out, " %s\n", block->kind == SL_BLOCK_CAUTION ? sl_caution_names[block->caution] : block->text);
    if (block->kind == SL_BLOCK_TABLE) {
        put_entries(out, block);
    }
    for (int i = 0; block->kind == SL_BLOCK_CHART && i < block->count; i++) {
        put_chart(out, block->chart[i]);
    }
    for (size_t i = 0; block->kind == SL_BLOCK_CARDS && i < block->n_cells; i++) {
        fprintf(out, "  %zu card %s: %s\n", i + 1, block->card[i].title, block->card[i].text);
    }
}

bool sl_document_outline(FILE *out, const sl_document *document)
{
    assert(document->ended);
    fprintf(out, "document %s: %s\n", document->name, document->title != NULL ? document->title : "");
    if (document->lies != NULL) {
        fprintf(out, "lies %s\n", document->lies);
    }
    for (size_t i = 0; i < document->n; i++) {
        put_block(out, &document->blocks[i]);
    }
    return ferror(out) == 0;
}
