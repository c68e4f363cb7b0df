/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Grams to weigh: the whole by hair and waste, then parts by weight, then what a scale can show.
 */
#include <assert.h>
#include <math.h>

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

static double on_scale(double grams, double scale_g)
{
    return grams <= 0.0 ? 0.0 : fmax(1.0, round(grams / scale_g)) * scale_g;
}

sl_weighing sl_weigh_on_scale(const sl_mix *mix, const sl_chemistry *chemistry, sl_weighing exact,
                              double scale_g)
{
    assert(scale_g > 0.0);
    sl_mix weighed = *mix;
    weighed.powder_parts = on_scale(exact.powder_g, scale_g);
    weighed.developer_parts = on_scale(exact.developer_g, scale_g);
    weighed.water_parts = on_scale(exact.water_g, scale_g);
    const double total_g = weighed.powder_parts + weighed.developer_parts + weighed.water_parts;
    return sl_weigh(&weighed, chemistry, total_g, 1.0, 0.0);
}

double sl_scale_error(sl_weighing shown, double scale_g)
{
    const double part_g[] = {shown.powder_g, shown.developer_g, shown.water_g};
    double error = 0.0;
    for (int i = 0; i < 3; i++) {
        error = part_g[i] > 0.0 ? fmax(error, 0.5 * scale_g / part_g[i]) : error;
    }
    return error;
}

sl_weighing sl_plan_needs(const sl_plan *plan, int mix)
{
    sl_weighing needs = {.total_g = 0.0};
    for (int i = 0; i < plan->n_bowls; i++) {
        const sl_weighing *const shown = &plan->bowls[i].shown;
        const double times = mix < 0 || plan->bowls[i].mix == mix ? plan->request.blocks : 0.0;
        needs.powder_g += times * shown->powder_g;
        needs.developer_g += times * shown->developer_g;
        needs.water_g += times * shown->water_g;
    }
    needs.total_g = needs.powder_g + needs.developer_g + needs.water_g;
    return needs;
}

int sl_plan_gloves(const sl_plan *plan)
{
    return plan->request.people * plan->request.blocks;
}
