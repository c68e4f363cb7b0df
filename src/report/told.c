/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See told.h.
 */
#include "report/told.h"

#include <stdio.h>

#include "base/language.h"
#include "scene/yaml/value.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

void sl_row_note(sl_row *row, const sl_scene *scene)
{
    char note[320];
    sl_example_note(scene, note, sizeof note);
    sl_row_words(row, "note", "%s", note);
}

const char *sl_drawn_dye(const sl_scene *scene, const sl_drawn *drawn)
{
    return sl_drawn_of_dye(drawn) ? scene->dyes[drawn->dye].name : NULL;
}

const char *sl_drawn_channel(const sl_drawn *drawn)
{
    return sl_drawn_of_channel(drawn) ? sl_channel_key(drawn->channel) : NULL;
}

#define WORK(NAME, name, key, required, order, dose, rate, energy, quantity, doer) doer,
static const char *const doers[SL_CHANNELS] = {SL_CHANNEL_LIST(WORK)};
#undef WORK

void sl_drawn_say(const sl_drawn *drawn, char *text, size_t size)
{
    const char *const word = _(sl_doubt_word(drawn->doubt));
    if (sl_drawn_of_channel(drawn)) {
        snprintf(text, size, "%s: %s", word, _(doers[drawn->channel]));
    } else {
        snprintf(text, size, "%s", word);
    }
}

void sl_row_drawn(sl_row *row, const sl_scene *scene, const sl_drawn *drawn)
{
    const char *const dye = sl_drawn_dye(scene, drawn), *const by = sl_drawn_channel(drawn);
    sl_row_words(row, "quantity", "index %s%s%s%s%s", sl_doubt_word(drawn->doubt), by ? " by " : "",
                 by ? by : "", dye ? ": " : "", dye ? dye : "");
}

unsigned sl_with_reducing(const sl_scene *scene, unsigned occasions)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        occasions |= scene->mixes[i].mechanism == SL_MECHANISM_REDUCTIVE ? SL_ON_REDUCING : 0U;
    }
    return occasions;
}
