/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions that are always on, in one short sentence each, for the foot of a page whose first
 * page has them whole.
 */
#include <assert.h>

#include "paper/handout.h"

const char *sl_caution_short(sl_caution_id id)
{
    static const char *const words[SL_CAUTION_COUNT] = {
        [SL_CAUTION_ESTIMATE] = "From a classroom model; no real hair, mix or person was looked at.",
        [SL_CAUTION_LABEL] = "The product's label decides time, ratio and liquids.",
        [SL_CAUTION_DUST] =
            "Persulfate powder can start asthma or an allergy. Anyone who reacts goes out and stays away.",
        [SL_CAUTION_SCALP] = "Keep the mix off skin and scalp. If it stings, wash it off now.",
        [SL_CAUTION_HEAT] = "Bring no warmth to it unless the label asks for warmth.",
        [SL_CAUTION_CLOSED] = "Never put mixed product under a lid or in a bottle: it may burst."};
    assert(words[id] != NULL);
    return words[id];
}
