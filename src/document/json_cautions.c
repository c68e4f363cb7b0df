/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of a JSON, in the words of cautions.def: the same in every language, as all that machines
 * read.
 */
#include "document/say.h"
#include "slowlift/caution.h"

/* which: the occasions. */
static sl_told tell_caution(sl_row *row, const sl_table *table)
{
    const sl_caution_id id = (sl_caution_id)table->place;
    if (!sl_caution_text(id)->always && !sl_occasion_owes((unsigned)table->which, id)) {
        return SL_NOT_HERE;
    }
    sl_row_text(row, NULL, sl_caution_text(id)->text);
    return SL_TOLD;
}

const sl_columns sl_caution_list = SL_COLUMNS(SL_VALUE, .tell = tell_caution);

void sl_row_cautions(sl_row *row, unsigned occasions)
{
    sl_row_rows(row, "cautions", sl_caution_names, (long)occasions, SL_CAUTION_COUNT);
}
