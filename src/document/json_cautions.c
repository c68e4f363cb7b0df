/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of a JSON, in the words of cautions.def: the same in every language, as all that machines
 * read.
 */
#include "document/json_text.h"
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

void sl_json_cautions(sl_json *json, const sl_caution_id *more, size_t n)
{
    sl_json_open(json, "cautions", '[');
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (is_shown((sl_caution_id)id, more, n)) {
            sl_json_text(json, NULL, sl_caution_text((sl_caution_id)id)->text);
        }
    }
    sl_json_close(json, ']');
}
