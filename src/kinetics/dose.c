/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From doses to what is left: every pigment meets the same oxidants, so it loses a share
 * that depends only on the doses and on its own constants (docs/science.md, "Dose").
 */
#include <math.h>

#include "slowlift/kinetics.h"

static const double CORE_LEACH_SHARE = 0.25; /* washing reaches the cortex a quarter as fast (assumed) */

static double exponent(const sl_rates *rates, const double dose[SL_CHANNELS])
{
    double sum = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        sum += rates->k[c].value * dose[c];
    }
    return sum;
}

static double left(const sl_dye *dye, double rim, double core, const sl_moment *moment)
{
    const double washed =
        dye->leach_per_min.value * moment->leach_min + dye->shampoo_loss.value * moment->shampoos;
    const double share = dye->rim_share.value;
    return share * exp(-(rim + washed)) + (1.0 - share) * exp(-(core + CORE_LEACH_SHARE * washed));
}

double sl_dye_left(const sl_dye *dye, const sl_moment *moment)
{
    return left(dye, exponent(&dye->rates, moment->rim_dose), exponent(&dye->rates, moment->core_dose),
                moment);
}

double sl_dye_left_full(const sl_dye *dye, const sl_moment *moment, int target)
{
    return left(dye, moment->rim_exponent[target], moment->core_exponent[target], moment);
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
