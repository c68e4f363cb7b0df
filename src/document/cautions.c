/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of cautions.def as an array. Invariant: entry i belongs to
 * sl_caution_id i, which the designators see to.
 */
#include <assert.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/caution.h"

#define SL_CAUTION(id, signal_word, never_off, words)                                                        \
    [SL_CAUTION_##id] = {.signal = (signal_word), .text = (words), .always = (never_off)},
static const sl_caution cautions[SL_CAUTION_COUNT] = {
#include "document/cautions.def"
};
#undef SL_CAUTION

#define SL_CAUTION(id, signal_word, never_off, words) [SL_CAUTION_##id] = #id,
const char *const sl_caution_names[SL_CAUTION_COUNT] = {
#include "document/cautions.def"
};
#undef SL_CAUTION

sl_caution_id sl_caution_named(const char *name)
{
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (strcmp(sl_caution_names[id], name) == 0) {
            return (sl_caution_id)id;
        }
    }
    assert(false); /* a name of cautions.def */
    return SL_CAUTION_ESTIMATE;
}

const sl_caution *sl_caution_text(sl_caution_id id)
{
    assert(id >= 0 && id < SL_CAUTION_COUNT);
    return &cautions[id];
}

const char sl_not_calibrated[] =
    N_("this screen or paper is not calibrated: compare order and direction, not shade");
