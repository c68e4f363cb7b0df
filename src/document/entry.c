/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See entry.h.
 */
#include "document/entry.h"

#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/minute.h"
#include "document/text.h"

/* The brackets are left out where both ends read alike, or nothing is left to tell between them. */
static void share_words(const sl_entry *entry, char text[SL_ENTRY_WORDS])
{
    char low[16], middle[16], high[16];
    sl_percent(entry->value, middle, sizeof middle);
    sl_percent(entry->low, low, sizeof low);
    sl_percent(entry->high, high, sizeof high);
    if (!(entry->low < entry->high)) {
        snprintf(text, SL_ENTRY_WORDS, "%s %%", middle);
    } else if (strcmp(low, high) == 0 || strcmp(high, "<1") == 0) {
        snprintf(text, SL_ENTRY_WORDS, "%s %%", high);
    } else {
        snprintf(text, SL_ENTRY_WORDS, "%s %% (%s-%s)", middle, low, high);
    }
}

static void chosen_words(sl_minute_kind kind, double minutes, char text[SL_ENTRY_WORDS])
{
    char number[24];
    sl_short_number(minutes, 1, number, sizeof number);
    sl_minute_words(kind, text, SL_ENTRY_WORDS, "%s min", number);
}

static void put_unit(const sl_entry *entry, char text[SL_ENTRY_WORDS])
{
    if (entry->unit != NULL) {
        sl_append(text, SL_ENTRY_WORDS, " %s", entry->unit);
    }
}

const char *sl_dots_words(int full, int of, bool plain, char text[SL_ENTRY_WORDS])
{
    text[0] = '\0';
    for (int i = 0; i < of; i++) {
        sl_append(text, SL_ENTRY_WORDS, "%s", i < full ? (plain ? "#" : "●") : (plain ? "." : "○"));
    }
    return text;
}

const char *sl_entry_words(const sl_entry *entry, char text[SL_ENTRY_WORDS])
{
    text[0] = '\0';
    switch (entry->kind) {
    case SL_ENTRY_NONE:
    case SL_ENTRY_NULL:
    case SL_ENTRY_YES:
        break;
    case SL_ENTRY_TEXT:
    case SL_ENTRY_REST:
        return entry->text;
    case SL_ENTRY_NUMBER:
        sl_short_number(entry->value, entry->decimals, text, SL_ENTRY_WORDS);
        put_unit(entry, text);
        break;
    case SL_ENTRY_FIXED:
        snprintf(text, SL_ENTRY_WORDS, "%.*f", entry->decimals, entry->value);
        put_unit(entry, text);
        break;
    case SL_ENTRY_SHARE:
        share_words(entry, text);
        break;
    case SL_ENTRY_BARE:
        sl_percent(entry->value, text, SL_ENTRY_WORDS);
        break;
    case SL_ENTRY_PLANNED:
        chosen_words(SL_MINUTE_PLANNED, entry->value, text);
        break;
    case SL_ENTRY_CLOCK:
        chosen_words(SL_MINUTE_CLOCK, entry->value, text);
        break;
    case SL_ENTRY_DOTS:
        return sl_dots_words((int)entry->value, entry->decimals, false, text);
    case SL_ENTRY_OUTCOME:
        sl_minutes_range(entry->value, text, SL_ENTRY_WORDS);
        break;
    }
    return text;
}

const char *sl_entry_kind_word(sl_entry_kind kind)
{
    static const char *const words[] = {
        [SL_ENTRY_NONE] = "none",     [SL_ENTRY_TEXT] = "text",       [SL_ENTRY_REST] = "rest",
        [SL_ENTRY_NULL] = "null",     [SL_ENTRY_YES] = "yes",         [SL_ENTRY_CLOCK] = "clock",
        [SL_ENTRY_NUMBER] = "number", [SL_ENTRY_FIXED] = "fixed",     [SL_ENTRY_SHARE] = "share",
        [SL_ENTRY_BARE] = "bare",     [SL_ENTRY_PLANNED] = "planned", [SL_ENTRY_OUTCOME] = "outcome",
        [SL_ENTRY_DOTS] = "dots"};
    return words[kind];
}
