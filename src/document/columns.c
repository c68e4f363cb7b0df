/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See columns.h.
 */
#include "document/columns.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

bool sl_block_headed(const sl_block *block)
{
    bool any = false;
    for (int c = 0; c < block->count; c++) {
        any = any || block->columns[c].head[0] != '\0';
    }
    return any;
}

/* What is never parted: a column's words; its entries; nothing, and its head neither. */
typedef enum sl_keeping { SL_KEEP_WORDS, SL_KEEP_ENTRIES, SL_KEEP_ALL } sl_keeping;

typedef struct sl_columns_pen {
    const sl_block *block;
    sl_columns_wide *wide;
    const void *with;
} sl_columns_pen;

static double longest_word(const sl_columns_pen *pen, bool head, const char *words)
{
    char word[SL_ENTRY_WORDS];
    double most = 0.0;
    for (words += strspn(words, " \n"); words[0] != '\0'; words += strspn(words, " \n")) {
        size_t length = strcspn(words, " \n");
        length +=
            words[length] == ' ' && words[length + 1] == '%' ? 1 + strcspn(&words[length + 1], " \n") : 0;
        snprintf(word, sizeof word, "%.*s", (int)length, words);
        most = fmax(most, pen->wide(pen->with, head, word, most));
        words += length;
    }
    return most;
}

/* What a column asks for, any number up to `enough` where it is surely no more; what spans the rest of a row
 * asks for nothing. */
static double asked_by(const sl_columns_pen *pen, int column, sl_keeping keeping, double enough)
{
    const sl_block *const block = pen->block;
    const char *const head = block->columns[column].head;
    double most =
        keeping == SL_KEEP_ALL ? pen->wide(pen->with, true, head, enough) : longest_word(pen, true, head);
    for (size_t i = (size_t)column; i < block->n_cells; i += (size_t)block->count) {
        char made[SL_ENTRY_WORDS];
        const char *const words =
            block->entry[i].kind == SL_ENTRY_REST ? "" : sl_entry_words(&block->entry[i], made);
        most = fmax(most, keeping == SL_KEEP_WORDS ? longest_word(pen, false, words)
                                                   : pen->wide(pen->with, false, words, fmax(most, enough)));
    }
    return most;
}

/* What is asked for is given, and the others share the rest; all give alike where that is too much. */
static void share_out(const sl_block *block, double all, const double least[], double width[])
{
    bool held[SL_MOST_COLUMNS] = {false}, again = true;
    double asked = 0.0;
    for (int c = 0; c < block->count; c++) {
        asked += least[c];
    }
    while (again) {
        double rest = all, shares = 0.0;
        for (int c = 0; c < block->count; c++) {
            rest -= held[c] ? least[c] : 0.0;
            shares += held[c] ? 0.0 : block->columns[c].width;
        }
        again = false;
        for (int c = 0; c < block->count; c++) {
            width[c] = asked >= all ? all * least[c] / asked
                       : held[c]    ? least[c]
                                    : rest * block->columns[c].width / shares;
            if (width[c] < least[c] && asked < all) {
                held[c] = again = true;
            }
        }
    }
}

void sl_columns_settle(const sl_block *block, double all, double gap, sl_columns_wide *wide, const void *with,
                       double width[SL_MOST_COLUMNS])
{
    const sl_columns_pen pen = {block, wide, with};
    double least[SL_MOST_COLUMNS] = {0.0}, sum = 0.0;
    bool fits = true;
    share_out(block, all, least, width);
    for (int c = 0; c < block->count; c++) {
        fits = fits && asked_by(&pen, c, SL_KEEP_ALL, width[c] - gap) <= width[c] - gap;
    }
    for (int keeping = SL_KEEP_ALL; !fits && keeping >= SL_KEEP_WORDS; keeping--) {
        sum = 0.0;
        for (int c = 0; c < block->count; c++) {
            least[c] = gap + asked_by(&pen, c, (sl_keeping)keeping, 0.0);
            sum += least[c];
        }
        fits = sum <= all;
    }
    if (sum > 0.0) {
        share_out(block, all, least, width);
    }
}
