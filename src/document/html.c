/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document as plain HTML 5 for screen readers: one h1, headings, lists, tables whose heads say
 * what they head (WCAG 2.2, success criterion 1.3.1), cautions as text. No script, no picture.
 */
#include <assert.h>
#include <string.h>

#include "base/language.h"
#include "document/columns.h"
#include "document/renderers.h"

static void put_text(FILE *out, const char *text)
{
    for (; *text != '\0'; text++) {
        switch (*text) {
        case '&':
            fputs("&amp;", out);
            break;
        case '<':
            fputs("&lt;", out);
            break;
        case '>':
            fputs("&gt;", out);
            break;
        case '"':
            fputs("&quot;", out);
            break;
        case '\n':
            fputs("<br>", out);
            break;
        default:
            fputc(*text, out);
        }
    }
}

static void put(FILE *out, const char *tag, const char *text)
{
    fprintf(out, "<%s>", tag);
    put_text(out, text);
    fprintf(out, "</%s>\n", tag);
}

static void put_caution(FILE *out, sl_caution_id id)
{
    const sl_caution *const caution = sl_caution_text(id);
    fputs("<p><strong>", out);
    put_text(out, _(caution->signal));
    fputs("</strong> ", out);
    put_text(out, _(caution->text));
    fputs("</p>\n", out);
}

static void put_table(FILE *out, const sl_block *block)
{
    fputs("<table>\n", out);
    if (block->text[0] != '\0') {
        put(out, "caption", block->text);
    }
    fputs(sl_block_headed(block) ? "<thead><tr>" : "", out);
    for (int c = 0; c < block->count && sl_block_headed(block); c++) {
        fputs("<th scope=\"col\">", out);
        put_text(out, block->columns[c].head);
        fputs("</th>", out);
    }
    fputs(sl_block_headed(block) ? "</tr></thead>\n<tbody>\n" : "<tbody>\n", out);
    char words[SL_ENTRY_WORDS];
    for (size_t i = 0; i < block->n_cells; i++) {
        const size_t column = i % (size_t)block->count, left = (size_t)block->count - column;
        const bool first = column == 0, rest = block->entry[i].kind == SL_ENTRY_REST && !first;
        if (rest) {
            fprintf(out, "<td colspan=\"%zu\">", left);
        } else {
            fputs(first ? "<tr><th scope=\"row\">" : "<td>", out);
        }
        put_text(out, sl_entry_words(&block->entry[i], words));
        fputs(first ? "</th>" : "</td>", out);
        i += rest ? left - 1 : 0;
        if (rest || left == 1) {
            fputs("</tr>\n", out);
        }
    }
    fputs("</tbody>\n</table>\n", out);
}

static void put_cards(FILE *out, const sl_block *block)
{
    if (block->text[0] != '\0') {
        put(out, "p", block->text);
    }
    fputs("<ul>\n", out);
    for (size_t i = 0; i < block->n_cells; i++) {
        fputs("<li><strong>", out);
        put_text(out, block->card[i].title);
        fputs("</strong> ", out);
        put_text(out, block->card[i].text);
        fputs("</li>\n", out);
    }
    fputs("</ul>\n", out);
}

static void put_lines(FILE *out, const sl_block *block)
{
    fputs("<p>", out);
    put_text(out, block->text);
    for (int i = 0; i < block->count; i++) {
        fputs("<br>____________________", out);
    }
    fputs("</p>\n", out);
}

static void put_row(FILE *out, const sl_block *block)
{
    fputs("<p>", out);
    if (block->label[0] != '\0') {
        fputs("<strong>", out);
        put_text(out, block->label);
        fputs(":</strong> ", out);
    }
    put_text(out, block->text);
    fputs("</p>\n", out);
}

static void put_item(FILE *out, const sl_block *block)
{
    fputs("<li>", out);
    fputs(block->kind == SL_BLOCK_TICK ? "[ ] " : "", out);
    put_text(out, block->text);
    fputs("</li>\n", out);
}

/* In words, where it has any. */
static void put_picture(FILE *out, const sl_block *block)
{
    if (block->text[0] != '\0') {
        put(out, "p", block->text);
    }
    for (int i = 0; block->text[0] != '\0' && i < block->count; i++) {
        put(out, "p", block->chart[i]->note != NULL ? block->chart[i]->note : "");
    }
}

static bool is_item(const sl_document *document, size_t i)
{
    return i < document->n &&
           (document->blocks[i].kind == SL_BLOCK_ITEM || document->blocks[i].kind == SL_BLOCK_TICK);
}

static void put_block(FILE *out, const sl_document *document, size_t i)
{
    const sl_block *const block = &document->blocks[i];
    switch (block->kind) {
    case SL_BLOCK_HEADING:
        put(out, "h2", block->text);
        return;
    case SL_BLOCK_PART:
        put(out, "h3", block->text);
        return;
    case SL_BLOCK_SAY:
        put(out, "p", block->text);
        return;
    case SL_BLOCK_ROW:
    case SL_BLOCK_DOTS:
        put_row(out, block);
        return;
    case SL_BLOCK_CHART:
    case SL_BLOCK_SKETCH:
        put_picture(out, block);
        return;
    case SL_BLOCK_ITEM:
    case SL_BLOCK_TICK:
        fputs(i > 0 && is_item(document, i - 1) ? "" : "<ul>\n", out);
        put_item(out, block);
        fputs(is_item(document, i + 1) ? "" : "</ul>\n", out);
        return;
    case SL_BLOCK_TABLE:
        put_table(out, block);
        return;
    case SL_BLOCK_CAUTION:
        if (!sl_caution_text(block->caution)->always) { /* those stand at the end of every page */
            put_caution(out, block->caution);
        }
        return;
    case SL_BLOCK_LINES:
        put_lines(out, block);
        return;
    case SL_BLOCK_CARDS:
        put_cards(out, block);
        return;
    case SL_BLOCK_APART:
    case SL_BLOCK_BREAK:
        return;
    }
}

/* Those that always stand, whatever is owed. */
static void put_standing_cautions(FILE *out)
{
    put(out, "h2", _("Cautions"));
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (sl_caution_text((sl_caution_id)id)->always) {
            put_caution(out, (sl_caution_id)id);
        }
    }
}

bool sl_document_html(FILE *out, const sl_document *document, const char *lang)
{
    assert(document->ended);
    fprintf(out, "<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n", lang);
    put(out, "title", document->title);
    fputs("<style>table{border-collapse:collapse}th,td{border:1px solid;padding:.2em .5em;text-align:left}"
          "</style>\n</head>\n<body>\n<main>\n",
          out);
    if (document->lies != NULL) {
        put(out, "p", document->lies);
    }
    put(out, "h1", document->title);
    for (size_t i = 0; i < document->n; i++) {
        if (sl_block_shown(&document->blocks[i], SL_SCIENCE, false)) {
            put_block(out, document, i);
        }
    }
    put_standing_cautions(out);
    if (document->note != NULL) {
        put(out, "p", document->note);
    }
    if (document->colours) {
        put(out, "p", _(sl_not_calibrated));
    }
    fputs("</main>\n</body>\n</html>\n", out);
    return !ferror(out);
}
