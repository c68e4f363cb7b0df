/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions that are always on, in one short sentence each, for the foot of a page whose first
 * page has them whole.
 */
#include <assert.h>

#include "base/language.h"
#include "document/renderers.h"

const char *sl_caution_short(sl_caution_id id)
{
    static const char *const words[SL_CAUTION_COUNT] = {
        [SL_CAUTION_ESTIMATE] = N_("From a model; no real hair or person was looked at."),
        [SL_CAUTION_LABEL] = N_("The label decides time, ratio and liquids."),
        [SL_CAUTION_DUST] = N_("Persulfate dust can start asthma or an allergy."),
        [SL_CAUTION_SCALP] = N_("Off skin and scalp. It stings? Wash it off now."),
        [SL_CAUTION_HEAT] = N_("Bring no warmth unless the label asks for it."),
        [SL_CAUTION_CLOSED] = N_("Never close mixed product in anything: it may burst.")};
    assert(words[id] != NULL);
    return _(words[id]);
}
