/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A table on a terminal. Each column is as wide as its widest words. Where that is too much the last column
 * of names gives way, a name that is longer then stands above its row, and what still does not fit is told in
 * pieces below each other, each with the names.
 *
 * Invariant: nothing but names that others follow is ever cut; words at the end of a row go on below
 * themselves.
 */
#include "document/terminal_table.h"

#include <string.h>

#include "document/text.h"

enum { GAP = 2, BAR = 2, LEAST_NAME = 12, NAME_OF_LINE = 4, NAME_IN_PIECES = 3, TALL_FROM = 8 };

typedef struct sl_table_text {
    FILE *out;
    const sl_block *block;
    const sl_terminal *terminal;
    size_t rows;
    int indent;
    int width[SL_MOST_COLUMNS], said[SL_MOST_COLUMNS]; /* of the column, and of its entries alone */
    int gap[SL_MOST_COLUMNS];                          /* before it */
    size_t upper[SL_MOST_COLUMNS]; /* bytes of the head that stand on a line above the others; 0: none */
    int names; /* columns at the left that say whose row it is: they stand in each piece */
} sl_table_text;

static const sl_entry *entry_at(const sl_table_text *table, size_t row, int column)
{
    return &table->block->entry[row * (size_t)table->block->count + (size_t)column];
}

static bool is(const sl_table_text *table, int column, unsigned what)
{
    return (table->block->columns[column].is & what) != 0;
}

static const char *words_at(const sl_table_text *table, size_t row, int column, char words[SL_ENTRY_WORDS])
{
    const sl_entry *const entry = entry_at(table, row, column);
    return entry->kind == SL_ENTRY_DOTS && table->terminal->ascii
               ? sl_dots_words((int)entry->value, entry->decimals, true, words)
               : sl_entry_words(entry, words);
}

/* ---- how wide ---------------------------------------------------------------------------------------- */

/* A long head goes on two lines, broken at the blank that makes them most alike. */
static size_t upper_line(const char *head)
{
    const size_t whole = strlen(head), middle = whole / 2;
    size_t best = 0;
    for (size_t at = 1; sl_text_width(head) > TALL_FROM && at + 1 < whole; at++) {
        const size_t distance = at > middle ? at - middle : middle - at;
        const size_t so_far = best > middle ? best - middle : middle - best;
        if (head[at] == ' ' && (best == 0 || distance < so_far)) {
            best = at;
        }
    }
    return best;
}

/* The head's words on one of its two lines. */
static const char *head_at(const sl_table_text *table, int column, int line, char words[SL_ENTRY_WORDS])
{
    const char *const head = table->block->columns[column].head;
    const size_t upper = table->upper[column];
    if (line == 1) {
        return upper > 0 ? head + upper + 1 : head;
    }
    snprintf(words, SL_ENTRY_WORDS, "%.*s", (int)upper, head);
    return words;
}

static int wider(int width, const char *words)
{
    const int columns = sl_text_width(words);
    return columns > width ? columns : width;
}

static void measure_column(sl_table_text *table, int c)
{
    char words[SL_ENTRY_WORDS];
    table->upper[c] = is(table, c, SL_TALL) ? upper_line(table->block->columns[c].head) : 0;
    table->width[c] = wider(sl_text_width(head_at(table, c, 0, words)), head_at(table, c, 1, words));
    for (size_t row = 0; row < table->rows; row++) {
        if (entry_at(table, row, c)->kind != SL_ENTRY_REST) {
            table->said[c] = wider(table->said[c], words_at(table, row, c, words));
        }
    }
    table->width[c] = table->said[c] > table->width[c] ? table->said[c] : table->width[c];
}

static int gap_before(const sl_table_text *table, int column)
{
    return table->gap[column] + (is(table, column, SL_BARRED) ? BAR : 0);
}

/* Of the names, and of the columns from `first` to `end`. */
static int total_width(const sl_table_text *table, int first, int end)
{
    int total = table->indent;
    for (int c = 0; c < end; c++) {
        total += c < table->names || c >= first ? table->width[c] + gap_before(table, c) : 0;
    }
    return total;
}

static int at_least(int one, int other)
{
    return one > other ? one : other;
}

/* `over` columns too many: gaps before numbers give one each where that is enough, else the names; where that
 * is not enough either the table goes into pieces, and names keep a third of the line. */
static void give_way(sl_table_text *table, int over)
{
    const int line = table->terminal->width, n = table->block->count;
    int *const name = &table->width[table->names - 1];
    int numbers = 0;
    for (int c = table->names; c < n; c++) {
        numbers += is(table, c, SL_RIGHT) ? 1 : 0;
    }
    for (int i = 0, given = 0; over <= numbers && given < over && i < 2 * n; i++) {
        const int c = i % n; /* first where the head alone comes near to its neighbour */
        const bool tight = table->said[c] >= table->width[c];
        if (c >= table->names && is(table, c, SL_RIGHT) && tight == (i >= n)) {
            table->gap[c]--;
            given++;
        }
    }
    if (over > numbers) {
        const int least = at_least(line / NAME_OF_LINE, LEAST_NAME);
        const int kept = *name - over >= least ? *name - over : at_least(line / NAME_IN_PIECES, LEAST_NAME);
        *name = *name < kept ? *name : kept;
    }
}

static void measure(sl_table_text *table)
{
    const int line = table->terminal->width;
    table->names = 1;
    for (int c = 0; c < table->block->count; c++) {
        measure_column(table, c);
        table->gap[c] = c > 0 ? GAP : 0;
        table->names = is(table, c, SL_NAME) ? c + 1 : table->names;
    }
    give_way(table, total_width(table, 0, table->block->count) - line);
}

/* Columns from `first` to what this returns fit beside the names; one at least, and none without the column
 * that it goes with. */
static int piece_end(const sl_table_text *table, int first)
{
    const int n = table->block->count;
    int end = first + 1;
    while (end < n && total_width(table, first, end + 1) <= table->terminal->width) {
        end++;
    }
    int kept = end;
    while (kept < n && kept > first && is(table, kept, SL_WITH)) {
        kept--;
    }
    return kept > first ? kept : end;
}

/* ---- rows -------------------------------------------------------------------------------------------- */

/* A block of the colour in the gap behind a number, 24-bit ANSI. */
static void put_colour(const sl_table_text *table, const sl_entry *entry)
{
    if (table->terminal->colour && entry->shows) {
        fprintf(table->out, "\033[38;2;%d;%d;%dm█\033[0m", entry->colour.r, entry->colour.g, entry->colour.b);
    }
}

static bool shows(const sl_table_text *table, const sl_entry *entry)
{
    return entry != NULL && entry->shows && table->terminal->colour;
}

/* The gap, without the column that a colour took of it. */
static void put_gap(const sl_table_text *table, int column, bool coloured)
{
    const bool barred = is(table, column, SL_BARRED);
    sl_put_spaces(table->out, table->gap[column] - (coloured ? 1 : 0));
    fputs(barred ? "│ " : "", table->out);
}

/* Without blanks at the end of its line. */
static void put_last(const sl_table_text *table, int column, const char *words)
{
    size_t length = strlen(words);
    while (length > 0 && words[length - 1] == ' ') {
        length--;
    }
    if (is(table, column, SL_RIGHT)) {
        sl_put_spaces(table->out, table->width[column] - sl_text_width(words));
    }
    fwrite(words, 1, length, table->out);
}

/* Whether words at the end of a row go on below themselves: they would run past the terminal, and have room
 * for it. */
static bool goes_on(const sl_table_text *table, int column, int taken, const char *words)
{
    const int line = table->terminal->width;
    return !is(table, column, SL_RIGHT) && taken + sl_text_width(words) > line && line - taken >= LEAST_NAME;
}

/* One line: of the head, or of a row. words[c]: what stands in each column; entry NULL: a head. */
static void put_line(const sl_table_text *table, const char *const words[SL_MOST_COLUMNS],
                     const sl_entry *entry, int first, int end)
{
    int last = end - 1, taken = table->indent;
    bool coloured = false;
    while (last > 0 && (words[last][0] == '\0' || (last < first && last >= table->names))) {
        last--;
    }
    if (entry != NULL && last < first && first > table->names) {
        return; /* told whole in the piece above */
    }
    sl_put_spaces(table->out, table->indent);
    for (int c = 0; c <= last; c++) {
        if (c >= table->names && c < first) {
            continue;
        }
        if (entry != NULL && entry[c].kind == SL_ENTRY_REST) {
            sl_put_spaces(table->out, c > 0 ? GAP : 0);
            sl_put_onward(table->out, taken + (c > 0 ? GAP : 0), words[c], table->terminal->width);
            return;
        }
        put_gap(table, c, coloured);
        taken += gap_before(table, c);
        if (entry != NULL && c == last && goes_on(table, c, taken, words[c])) {
            sl_put_onward(table->out, taken, words[c], table->terminal->width);
            return;
        }
        if (c == table->names - 1 && entry != NULL) {
            sl_put_title(table->out, words[c], taken, c == last ? sl_text_width(words[c]) : table->width[c]);
        } else if (c == last) {
            put_last(table, c, words[c]);
        } else if (is(table, c, SL_RIGHT)) {
            sl_put_right(table->out, words[c], table->width[c]);
        } else {
            sl_put_left(table->out, words[c], table->width[c]);
        }
        taken += table->width[c];
        coloured = shows(table, entry != NULL ? &entry[c] : NULL);
        if (coloured) {
            put_colour(table, &entry[c]);
        }
    }
    fputc('\n', table->out);
}

static void put_row(const sl_table_text *table, size_t row, int first, int end)
{
    char made[SL_MOST_COLUMNS][SL_ENTRY_WORDS];
    const char *words[SL_MOST_COLUMNS];
    for (int c = 0; c < table->block->count; c++) {
        words[c] = words_at(table, row, c, made[c]);
    }
    put_line(table, words, entry_at(table, row, 0), first, end);
}

static void put_head(const sl_table_text *table, int first, int end)
{
    char made[SL_MOST_COLUMNS][SL_ENTRY_WORDS];
    const char *words[SL_MOST_COLUMNS];
    for (int line = 0; line < 2; line++) {
        bool any = false;
        for (int c = 0; c < table->block->count; c++) {
            words[c] = head_at(table, c, line, made[c]);
            const bool here = c < table->names || (c >= first && c < end);
            any = any || (here && words[c][0] != '\0');
        }
        if (any) {
            put_line(table, words, NULL, first, end);
        }
    }
}

bool sl_terminal_table_fits(const sl_block *block, const sl_terminal *terminal, int indent)
{
    sl_table_text table = {.block = block,
                           .terminal = terminal,
                           .rows = block->n_cells / (size_t)block->count,
                           .indent = indent};
    measure(&table);
    return piece_end(&table, table.names) == block->count;
}

void sl_terminal_table(FILE *out, const sl_block *block, const sl_terminal *terminal, int indent)
{
    sl_table_text table = {.out = out,
                           .block = block,
                           .terminal = terminal,
                           .rows = block->n_cells / (size_t)block->count,
                           .indent = indent};
    measure(&table);
    int first = table.names;
    do {
        const int end = first < block->count ? piece_end(&table, first) : block->count;
        put_head(&table, first, end);
        for (size_t row = 0; row < table.rows; row++) {
            put_row(&table, row, first, end);
        }
        first = end;
    } while (first < block->count);
}
