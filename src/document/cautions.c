/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions of cautions.def as an array. Invariant: entry i belongs to
 * sl_caution_id i, which the designators see to.
 */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "document/renderers.h"
#include "slowlift/caution.h"

#define SL_CAUTION(id, signal_word, never_off, owed_on, words, short_words)                                  \
    [SL_CAUTION_##id] = {.signal = (signal_word),                                                            \
                         .text = (words),                                                                    \
                         .brief = (short_words),                                                             \
                         .always = (never_off),                                                              \
                         .occasions = (unsigned)(owed_on)},
static const sl_caution cautions[SL_CAUTION_COUNT] = {
#include "slowlift/cautions.def"
};
#undef SL_CAUTION

#define SL_CAUTION(id, ...) [SL_CAUTION_##id] = #id,
const char *const sl_caution_names[SL_CAUTION_COUNT] = {
#include "slowlift/cautions.def"
};
#undef SL_CAUTION

bool sl_occasion_owes(unsigned occasions, sl_caution_id id)
{
    return (occasions & (cautions[id].occasions | SL_ON_ALL)) != 0;
}

const char *sl_caution_short(sl_caution_id id)
{
    assert(cautions[id].brief != NULL);
    return _(cautions[id].brief);
}

const char *sl_caution_own(sl_caution_id id, char *text, size_t size)
{
    const char *const words = _(cautions[id].text), *const original = strstr(words, cautions[id].text);
    const char *end = original != NULL && original > words ? original : words + strlen(words);
    while (*end != '\0' && end > words && *end != '(') {
        end--;
    }
    const char *const rest = end;
    while (*end != '\0' && end > words && end[-1] == ' ') {
        end--;
    }
    snprintf(text, size, "%.*s", (int)(end - words), words);
    return rest;
}

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
