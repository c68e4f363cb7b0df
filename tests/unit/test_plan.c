/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/plan.h"

#include "small_scene.h"
#include "suite.h"

/* Worked by hand: five swatches of 2 g at 3 g of mix per gram and ten per cent more make
 * 33 g; 1 part powder to 2 parts liquid, the liquid half 6 % developer and half water:
 * 11 g each; the liquid is 3 % (C1V1 = C2V2), the whole mix 6 * 1/3 = 2 %. */
START_TEST(grams_follow_the_parts_by_weight)
{
    small_scene small;
    small_scene_fill(&small);
    sl_mix mix = small.mixes[MIX_POWDER_6];
    mix.developer_parts = 1.0;
    mix.water_parts = 1.0;
    const sl_weighing grams = sl_weigh(&mix, &small.scene.chemistry, 5 * 2.0, 3.0, 0.10);
    ck_assert_double_eq_tol(grams.total_g, 33.0, 1e-9);
    ck_assert_double_eq_tol(grams.powder_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.developer_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.water_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.liquid_pct, 3.0, 1e-9);
    ck_assert_double_eq_tol(grams.on_hair_pct, 2.0, 1e-9);
    ck_assert_double_eq_tol(grams.liquid_vol, sl_volume_strength(3.0), 1e-9);
}
END_TEST

START_TEST(a_mix_without_powder_weighs_no_powder)
{
    small_scene small;
    small_scene_fill(&small);
    const sl_weighing grams = sl_weigh(&small.mixes[MIX_MILD], &small.scene.chemistry, 2.0, 6.0, 0.0);
    ck_assert_double_eq(grams.powder_g, 0.0);
    ck_assert_double_eq_tol(grams.developer_g + grams.water_g, 12.0, 1e-12);
}
END_TEST

START_SUITE("plan")
ADD(grams_follow_the_parts_by_weight)
ADD(a_mix_without_powder_weighs_no_powder)
END_SUITE
