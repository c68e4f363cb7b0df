/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document on a terminal. The title stands at the left edge, headings too, behind an empty line; all else a
 * little to the right, and what belongs to a part further still. Labels of rows take one column, tables are
 * as wide as what stands in them.
 *
 * Invariant: no line is wider than the terminal unless one word, or the least that a table can do with, is; a
 * table that is too wide is told in pieces below each other, each with the names of its rows.
 */
#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/renderers.h"
#include "document/terminal_table.h"
#include "document/text.h"

enum { BESIDE = 1 }; /* columns between a caution's signal word and its sentence */
enum { IN_WHOLE = 1, IN_PART = 3, LABEL = 8, PART_LABEL = 10, MOST_LABEL = 14 };

typedef struct sl_setting_text {
    FILE *out;
    const sl_document *document;
    sl_terminal terminal;
    int indent;             /* IN_WHOLE, or IN_PART below the heading of a part */
    bool narrow;            /* wide tables do not fit */
    int label[2];           /* columns of labels with their colon, in the whole and in parts */
    const sl_block *before; /* the block that was set last; NULL: none */
} sl_setting_text;

static void put_indented(const sl_setting_text *set, int indent, const char *mark, const char *text)
{
    char lead[192];
    snprintf(lead, sizeof lead, "%*s%s", indent, "", mark);
    sl_put_paragraph(set->out, lead, text, set->terminal.width);
}

/* ---- rows ------------------------------------------------------------------------------------------ */

static int label_width(const char *label)
{
    return label[0] == '\0' ? 0 : sl_text_width(label) + 1;
}

/* The widest label of the whole, and that of parts; one that is a sentence stands wider than the column.
 * 0: there are none. */
static void measure_labels(sl_setting_text *set)
{
    static const int least[2] = {LABEL, PART_LABEL};
    int level = 0;
    for (size_t i = 0; i < set->document->n; i++) {
        const sl_block *const block = &set->document->blocks[i];
        level = block->kind == SL_BLOCK_PART                                       ? 1
                : block->kind == SL_BLOCK_APART || block->kind == SL_BLOCK_HEADING ? 0
                                                                                   : level;
        const int width =
            block->kind == SL_BLOCK_ROW || block->kind == SL_BLOCK_DOTS ? label_width(block->label) : 0;
        const int column = width > MOST_LABEL || width < least[level] ? least[level] : width;
        if (width > 0 && column > set->label[level]) {
            set->label[level] = column;
        }
    }
}

/* A label that leaves less than half of the line stands above its words. */
static void put_row(const sl_setting_text *set, const sl_block *block, const char *text)
{
    char lead[256];
    const size_t letters = strlen(block->label);
    const bool colon = letters > 0 && block->label[letters - 1] != '?';
    snprintf(lead, sizeof lead, "%*s%s%s", set->indent, "", block->label, colon ? ":" : "");
    const int column = set->indent + set->label[set->indent == IN_PART ? 1 : 0];
    int width = sl_text_width(lead);
    size_t length = strlen(lead);
    if (width > column && 2 * width > set->terminal.width) {
        put_indented(set, set->indent, "", lead + set->indent);
        length = 0;
        width = 0;
    }
    do {
        lead[length++] = ' ';
        lead[length] = '\0';
        width++;
    } while (width <= column && length + 1 < sizeof lead);
    sl_put_paragraph(set->out, lead, text, set->terminal.width);
}

/* Full and empty ones in a word, then what they count. */
static void put_dots(const sl_setting_text *set, const sl_block *block)
{
    char text[SL_ENTRY_WORDS];
    sl_dots_words(block->count, block->of, set->terminal.ascii, text);
    sl_append(text, sizeof text, " %s", block->text);
    put_row(set, block, text);
}

static void put_table(const sl_setting_text *set, const sl_block *block)
{
    if (block->text[0] != '\0') {
        put_indented(set, set->indent, "", block->text);
    }
    sl_terminal_table(set->out, block, &set->terminal, set->indent);
}

/* ---- all of them ----------------------------------------------------------------------------------- */

static void put_caution(const sl_setting_text *set, const sl_block *block)
{
    const sl_caution *const caution = sl_caution_text(block->caution);
    char lead[64];
    snprintf(lead, sizeof lead, " %-8s ", _(caution->signal));
    sl_put_paragraph(set->out, lead, block->brief ? sl_caution_short(block->caution) : _(caution->text),
                     set->terminal.width);
}

static int wider(int width, const char *words)
{
    const int columns = sl_text_width(words);
    return columns > width ? columns : width;
}

/* Brief ones stand two abreast where they fit so. Returns how many were set, from the block on. */
static size_t put_brief_cautions(const sl_setting_text *set, const sl_block *block, size_t most)
{
    size_t n = 0;
    int signal = 0, text[2] = {0, 0}; /* columns, of the left and of the right ones */
    for (; n < most && block[n].kind == SL_BLOCK_CAUTION && block[n].brief; n++) {
        signal = wider(signal, _(sl_caution_text(block[n].caution)->signal));
        text[n % 2] = wider(text[n % 2], sl_caution_short(block[n].caution));
    }
    const bool abreast = 2 * (IN_WHOLE + signal + BESIDE) + text[0] + text[1] <= set->terminal.width;
    for (size_t i = 0; i < n; i++) {
        const bool goes_on = abreast && i % 2 == 0 && i + 1 < n;
        const char *const words = sl_caution_short(block[i].caution);
        sl_put_spaces(set->out, IN_WHOLE);
        sl_put_left(set->out, _(sl_caution_text(block[i].caution)->signal), signal + BESIDE);
        if (goes_on) {
            sl_put_left(set->out, words, text[0]);
        } else {
            sl_put_onward(set->out, IN_WHOLE + signal + BESIDE, words, set->terminal.width);
        }
    }
    return n;
}

static void put_lines(const sl_setting_text *set, const sl_block *block)
{
    put_indented(set, set->indent, "", block->text);
    for (int i = 0; i < block->count; i++) {
        put_indented(set, set->indent, "", "____________________");
    }
}

static void put_cards(const sl_setting_text *set, const sl_block *block)
{
    if (block->text[0] != '\0') {
        put_indented(set, set->indent, "", block->text);
    }
    for (size_t i = 0; i < block->n_cells; i++) {
        char lead[128];
        snprintf(lead, sizeof lead, "- %.100s  ", block->card[i].title);
        put_indented(set, set->indent, lead, block->card[i].text);
    }
}

/* An empty line before what begins something. */
static bool stands_apart(const sl_setting_text *set, const sl_block *block)
{
    const sl_block_kind before = set->before != NULL ? set->before->kind : SL_BLOCK_HEADING;
    switch (block->kind) {
    case SL_BLOCK_HEADING:
    case SL_BLOCK_PART:
        return set->before != NULL || set->document->title != NULL;
    case SL_BLOCK_CAUTION:
        return !block->brief && before != SL_BLOCK_CAUTION && before != SL_BLOCK_HEADING &&
               before != SL_BLOCK_APART;
    case SL_BLOCK_APART:
    case SL_BLOCK_BREAK:
        return true;
    case SL_BLOCK_SAY:
    case SL_BLOCK_ROW:
    case SL_BLOCK_DOTS:
    case SL_BLOCK_ITEM:
    case SL_BLOCK_TICK:
    case SL_BLOCK_TABLE:
    case SL_BLOCK_LINES:
    case SL_BLOCK_CARDS:
    case SL_BLOCK_CHART:
    case SL_BLOCK_SKETCH:
        break;
    }
    return false;
}

enum { ROOM_FOR_ALL = 72 }; /* columns: where there are fewer, what can be left out is */

/* Of two forms of a table the wide one, where every wide one of the document fits. */
static void find_room(sl_setting_text *set)
{
    for (size_t i = 0; i < set->document->n; i++) {
        const sl_block *const block = &set->document->blocks[i];
        set->narrow = set->narrow || (block->kind == SL_BLOCK_TABLE && block->fit == SL_FIT_WIDE &&
                                      !sl_terminal_table_fits(block, &set->terminal, IN_WHOLE));
    }
}

static bool is_set(const sl_setting_text *set, const sl_block *block)
{
    const bool narrow = block->kind == SL_BLOCK_TABLE ? set->narrow : set->terminal.width < ROOM_FOR_ALL;
    return sl_block_shown(block, set->terminal.depth, narrow);
}

static void put_block(sl_setting_text *set, const sl_block *block)
{
    switch (block->kind) {
    case SL_BLOCK_HEADING:
        set->indent = IN_WHOLE;
        put_indented(set, 0, "", block->text);
        return;
    case SL_BLOCK_PART:
        put_indented(set, IN_WHOLE, "", block->text);
        set->indent = IN_PART;
        return;
    case SL_BLOCK_SAY:
        put_indented(set, set->indent, "", block->text);
        return;
    case SL_BLOCK_ROW:
        put_row(set, block, block->text);
        return;
    case SL_BLOCK_DOTS:
        put_dots(set, block);
        return;
    case SL_BLOCK_ITEM:
        put_indented(set, set->indent, "- ", block->text);
        return;
    case SL_BLOCK_TICK:
        put_indented(set, set->indent, "[ ] ", block->text);
        return;
    case SL_BLOCK_TABLE:
        put_table(set, block);
        return;
    case SL_BLOCK_CAUTION:
        put_caution(set, block);
        return;
    case SL_BLOCK_LINES:
        put_lines(set, block);
        return;
    case SL_BLOCK_CARDS:
        put_cards(set, block);
        return;
    case SL_BLOCK_CHART:
    case SL_BLOCK_SKETCH:
        if (block->text[0] != '\0') {
            put_indented(set, set->indent, "", block->text);
        }
        for (int i = 0; block->text[0] != '\0' && i < block->count; i++) {
            put_indented(set, set->indent, "", block->chart[i]->note != NULL ? block->chart[i]->note : "");
        }
        return;
    case SL_BLOCK_APART:
    case SL_BLOCK_BREAK:
        set->indent = IN_WHOLE;
        return;
    }
}

bool sl_document_text(FILE *out, const sl_document *document, const sl_terminal *terminal)
{
    sl_setting_text set = {.out = out, .document = document, .terminal = *terminal, .indent = IN_WHOLE};
    assert(document->failed || document->ended);
    if (document->failed) {
        errno = ENOMEM;
        return false;
    }
    measure_labels(&set);
    find_room(&set);
    if (document->lies != NULL) {
        put_indented(&set, 0, "", document->lies);
    }
    if (document->title != NULL) {
        put_indented(&set, 0, "", document->title);
    }
    for (size_t i = 0; i < document->n; i++) {
        const sl_block *const block = &document->blocks[i];
        if (is_set(&set, block)) {
            fputs(stands_apart(&set, block) ? "\n" : "", out);
            if (block->kind == SL_BLOCK_CAUTION && block->brief) {
                i += put_brief_cautions(&set, block, document->n - i) - 1;
            } else {
                put_block(&set, block);
            }
            set.before = block;
        }
    }
    return ferror(out) == 0;
}

static bool put_marked(FILE *out, const sl_document *document, const sl_terminal *terminal)
{
    char *text = NULL;
    size_t size = 0;
    FILE *const lines = open_memstream(&text, &size);
    bool good = lines != NULL && sl_document_text(lines, document, terminal);
    good = lines != NULL && fclose(lines) == 0 && good;
    for (char *line = text, *end = NULL; good && (end = strchr(line, '\n')) != NULL; line = end + 1) {
        *end = '\0';
        fprintf(out, "%s%s\n", terminal->mark, line);
    }
    free(text);
    return good && ferror(out) == 0;
}

bool sl_document_print(FILE *out, sl_document *document, const sl_terminal *terminal)
{
    static const sl_terminal usual = {.width = 100, .depth = SL_SCIENCE};
    const char *const says = getenv("SLOWLIFT_SAY");
    const bool outline = says != NULL && strcmp(says, "outline") == 0 && !document->failed;
    const sl_terminal *const on = terminal != NULL ? terminal : &usual;
    const bool good = outline            ? sl_document_outline(out, document)
                      : on->mark != NULL ? put_marked(out, document, on)
                                         : sl_document_text(out, document, on);
    sl_document_free(document);
    return good;
}
