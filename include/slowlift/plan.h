/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What to weigh for a scene, and what the mix then is. Formulas: by weight, dilution by
 * C1V1 = C2V2 (docs/science.md, "Dilution").
 */
#ifndef SLOWLIFT_PLAN_H
#define SLOWLIFT_PLAN_H

#include "slowlift/model.h"

#pragma GCC visibility push(default)

typedef struct sl_weighing {
    double powder_g, developer_g, water_g, total_g; /* waste allowance included */
    double liquid_pct;                              /* peroxide in the liquid after dilution, % */
    double liquid_vol;                              /* the same as volume strength */
    double on_hair_pct;                             /* peroxide in the whole mix, % */
} sl_weighing;

/* Grams for `hair_g` grams of hair at `mix_g_per_g`, plus `waste` (share, 0.10 = ten per
 * cent more). */
sl_weighing sl_weigh(const sl_mix *mix, const sl_chemistry *chemistry, double hair_g, double mix_g_per_g,
                     double waste);

#pragma GCC visibility pop

#endif
