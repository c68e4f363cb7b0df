/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Grams to weigh: the whole by hair and waste, then parts by weight.
 */
#include "slowlift/plan.h"

sl_weighing sl_weigh(const sl_mix *mix, const sl_chemistry *chemistry, double hair_g, double mix_g_per_g,
                     double waste)
{
    const double parts = mix->powder_parts + mix->developer_parts + mix->water_parts;
    const double total_g = hair_g * mix_g_per_g * (1.0 + waste);
    const sl_charge charge = sl_mix_charge(mix, chemistry, mix_g_per_g, 0.0);
    return (sl_weighing){.powder_g = total_g * mix->powder_parts / parts,
                         .developer_g = total_g * mix->developer_parts / parts,
                         .water_g = total_g * mix->water_parts / parts,
                         .total_g = total_g,
                         .liquid_pct = charge.liquid_pct,
                         .liquid_vol = sl_volume_strength(charge.liquid_pct),
                         .on_hair_pct = charge.on_hair_pct};
}
