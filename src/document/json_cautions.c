/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of a JSON, in the words of cautions.def: the same in every language, as all that machines
 * read.
 */
#include "document/say.h"
#include "slowlift/caution.h"

static bool is_shown(sl_caution_id id, const sl_caution_id *more, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (more[i] == id) {
            return true;
        }
    }
    return sl_caution_text(id)->always;
}

static sl_told tell_caution(sl_row *row, const sl_table *table)
{
    const sl_caution_id id = (sl_caution_id)table->place;
    if (!is_shown(id, table->of, (size_t)table->which)) {
        return SL_NOT_HERE;
    }
    sl_row_text(row, NULL, sl_caution_text(id)->text);
    return SL_TOLD;
}

const sl_columns sl_caution_list = SL_COLUMNS(SL_VALUE, .tell = tell_caution);

void sl_row_cautions(sl_row *row, const sl_caution_id *more, size_t n)
{
    static const sl_caution_id none;
    sl_row_rows(row, "cautions", more ? more : &none, (long)n, SL_CAUTION_COUNT);
}
