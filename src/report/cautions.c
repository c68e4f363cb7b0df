/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of cautions.def as an array. Invariant: entry i belongs to
 * sl_caution_id i, which the designators see to.
 */
#include <assert.h>

#include "base/language.h"
#include "report/json_text.h"

#define SL_CAUTION(id, signal_word, never_off, words)                                                        \
    [SL_CAUTION_##id] = {.signal = (signal_word), .text = (words), .always = (never_off)},
static const sl_caution cautions[SL_CAUTION_COUNT] = {
#include "report/cautions.def"
};
#undef SL_CAUTION

const sl_caution *sl_caution_text(sl_caution_id id)
{
    assert(id >= 0 && id < SL_CAUTION_COUNT);
    return &cautions[id];
}

static bool is_shown(sl_caution_id id, const sl_caution_id *more, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (more[i] == id) {
            return true;
        }
    }
    return cautions[id].always;
}

void sl_json_cautions(sl_json *json, const sl_caution_id *more, size_t n)
{
    sl_json_open(json, "cautions", '[');
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (is_shown((sl_caution_id)id, more, n)) {
            sl_json_text(json, NULL, cautions[id].text);
        }
    }
    sl_json_close(json, ']');
}

const char sl_not_calibrated[] =
    N_("this screen or paper is not calibrated: compare order and direction, not shade");
