/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From doses to what is left: every pigment meets the same oxidants, so it loses a share
 * that depends only on the doses and on its own constants (docs/science.md, "Dose").
 */
#include <math.h>

#include "slowlift/kinetics.h"

/* fate() takes the rim's share of washing as the fourth power of the core's. */
_Static_assert(SL_RIM_LEACHES == 4, "the fourth power");

static double exponent(const sl_rates *rates, const double dose[SL_CHANNELS])
{
    double sum = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        sum += rates->k[c].value * dose[c];
    }
    return sum;
}

/* What washing brought out is what oxidation alone would have left, less what is left. */
static sl_dye_fate fate(const sl_dye *dye, double rim, double core, const sl_moment *moment)
{
    const double washed =
        dye->leach_per_min.value * moment->leach_min + dye->shampoo_loss.value * moment->shampoos;
    const double share = dye->rim_share.value;
    const double at_rim = share * exp(-rim);
    const double in_core = (1.0 - share) * exp(-core);
    const double stays_in_core = exp(-washed / SL_RIM_LEACHES);
    const double stays_at_rim = stays_in_core * stays_in_core * stays_in_core * stays_in_core;
    return (sl_dye_fate){.left = at_rim * stays_at_rim + in_core * stays_in_core,
                         .loosened = at_rim * (1.0 - stays_at_rim) + in_core * (1.0 - stays_in_core)};
}

sl_dye_fate sl_dye_fate_at(const sl_dye *dye, const sl_moment *moment, int target)
{
    return target == SL_FROM_DOSES
               ? fate(dye, exponent(&dye->rates, moment->rim_dose), exponent(&dye->rates, moment->core_dose),
                      moment)
               : fate(dye, moment->rim_exponent[target], moment->core_exponent[target], moment);
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
