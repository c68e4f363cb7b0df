/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From doses to what is left: every pigment meets the same oxidants, so it loses a share
 * that depends only on the doses and on its own constants (docs/science.md, "Dose").
 */
#include <math.h>

#include "slowlift/kinetics.h"

static double exponent(const sl_rates *rates, const double dose[SL_CHANNELS])
{
    double sum = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        sum += rates->k[c].value * dose[c];
    }
    return sum;
}

/* Of two parts that are lessened each by its own exponent, the exponent of both together. */
static double together(double share, double loose, double held)
{
    if (share <= 0.0 || share >= 1.0) {
        return share <= 0.0 ? held : loose;
    }
    const double least = fmin(loose, held);
    return least - log(share * exp(least - loose) + (1.0 - share) * exp(least - held));
}

sl_dye_washing sl_dye_washed(const sl_dye *dye, double leach_min, double shampoos)
{
    const double share = dye->loose_share.value;
    const double leached = dye->leach_per_min.value * leach_min;
    const double held = leached + dye->shampoo_loss.value * shampoos;
    const double loose = leached + dye->loose_loss.value * shampoos;
    return (sl_dye_washing){.rim = together(share, loose, held),
                            .core = together(share, loose / SL_RIM_LEACHES, held / SL_RIM_LEACHES)};
}

/* What washing brought out is what oxidation alone would have left, less what is left. Shares at the rim and
 * in the core; of the colourless form too. */
static sl_dye_fate fate(const sl_dye *dye, double at_rim, double in_core, double pale_at_rim,
                        double pale_in_core, const sl_moment *moment)
{
    const sl_dye_washing washed = sl_dye_washed(dye, moment->leach_min, moment->shampoos);
    const double stays_at_rim = exp(-washed.rim);
    const double stays_in_core = exp(-washed.core);
    return (sl_dye_fate){.left = at_rim * stays_at_rim + in_core * stays_in_core,
                         .loosened = at_rim * (1.0 - stays_at_rim) + in_core * (1.0 - stays_in_core),
                         .colourless = pale_at_rim * stays_at_rim + pale_in_core * stays_in_core};
}

sl_dye_fate sl_dye_fate_at(const sl_dye *dye, const sl_moment *moment, int target)
{
    const double share = dye->rim_share.value, reduced = dye->reduced[moment->reductant].value;
    if (target >= 0 && target < moment->n_forms) {
        const double(*const form)[SL_FORMS] = moment->form[target];
        return fate(dye, share * form[SL_AT_RIM][SL_COLOURED], (1.0 - share) * form[SL_IN_CORE][SL_COLOURED],
                    share * form[SL_AT_RIM][SL_COLOURLESS], (1.0 - share) * form[SL_IN_CORE][SL_COLOURLESS],
                    moment);
    }
    const bool doses = target == SL_FROM_DOSES;
    const double rim = doses ? exponent(&dye->rates, moment->rim_dose) : moment->rim_exponent[target];
    const double core = doses ? exponent(&dye->rates, moment->core_dose) : moment->core_exponent[target];
    return fate(dye, share * exp(-(rim + reduced * moment->rim_reduced)),
                (1.0 - share) * exp(-(core + reduced * moment->core_reduced)), 0.0, 0.0, moment);
}

double sl_dye_left(const sl_dye *dye, const sl_moment *moment)
{
    return sl_dye_fate_at(dye, moment, SL_FROM_DOSES).left;
}

double sl_core_exponent(const sl_rates *rates, const sl_moment *moment)
{
    return exponent(rates, moment->core_dose);
}

void sl_rates_settle(sl_rates *rates, const sl_chemistry *chemistry, double temperature_k)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        if (rates->own_activation[c]) {
            const double beyond = rates->activation_kj_mol[c] - chemistry->channel_activation_kj_mol[c].value;
            rates->k[c].value *= sl_arrhenius(beyond, temperature_k);
            rates->own_activation[c] = false;
        }
    }
}
