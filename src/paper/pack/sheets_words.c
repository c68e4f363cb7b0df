/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What several sheets of the pack say or ask in the same way.
 */
#include "paper/pack/pack.h"

int sl_scale_decimals(const sl_plan_request *request)
{
    return request->scale_g < 0.05 ? 2 : request->scale_g < 1.0 ? 1 : 0;
}

void sl_put_grams(sl_document *document, double grams, int decimals)
{
    if (grams > 0.0) {
        sl_document_cell(document, "%.*f", decimals, grams);
    } else {
        sl_document_cell(document, "%s", "-");
    }
}

bool sl_is_swatch_only(const sl_mix *mix)
{
    return !mix->label_allows && mix->class_ != SL_MIX_WATER;
}

bool sl_plan_has_swatch_only(const sl_plan *plan)
{
    for (int i = 0; i < plan->n_bowls; i++) {
        if (sl_is_swatch_only(&plan->scene->mixes[plan->bowls[i].mix])) {
            return true;
        }
    }
    return false;
}
