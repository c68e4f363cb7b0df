/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands spread about their zone's colour without moving it; a mix hides as much as it says;
 * what lies on an arm follows its steps.
 */
#include <math.h>
#include <string.h>

#include "slowlift/timeline.h"
#include "suite.h"
#include "swatch/strands.h"
#include "swatch/strip.h"

enum { WIDTH = 120, HEIGHT = 400 };

START_TEST(factors_of_strands_have_mean_one_and_nearly_the_spread_asked_for)
{
    for (uint32_t seed = 1; seed <= 20; seed++) {
        const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, seed);
        double rate = 0.0, depth = 0.0, square = 0.0;
        for (int i = 0; i < SL_STRANDS; i++) {
            rate += strands.rate[i] / SL_STRANDS;
            depth += strands.depth[i] / SL_STRANDS;
            square += (strands.rate[i] - 1.0) * (strands.rate[i] - 1.0) / SL_STRANDS;
        }
        ck_assert_double_eq_tol(rate, 1.0, 1e-12);
        ck_assert_double_eq_tol(depth, 1.0, 1e-12);
        /* Middles of eight equal parts leave the tails out: their own standard deviation is
         * 0.93 of the normal's (root mean square of the table). */
        ck_assert_double_eq_tol(sqrt(square), 0.93 * SL_STRAND_CV, 0.01);
    }
}
END_TEST

START_TEST(no_spread_leaves_every_strand_with_what_the_zone_holds)
{
    const sl_strands strands = sl_swatch_spread(0.0, 3);
    sl_recipe recipe = {.n_dyes = 1, .strength = {1.0}};
    sl_amounts amounts = {.recipe = &recipe, .dye_left = {0.4}};
    amounts.pool[0][0] = 0.7;
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_amounts mine = sl_strand_amounts(&strands, i, &amounts);
        ck_assert_double_eq_tol(mine.dye_left[0], 0.4, 1e-12);
        ck_assert_double_eq_tol(mine.pool[0][0], 0.7, 1e-12);
    }
}
END_TEST

START_TEST(a_strand_loses_dye_by_its_own_exponent)
{
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, 5);
    sl_recipe recipe = {.n_dyes = 1, .strength = {1.0}};
    const sl_amounts amounts = {.recipe = &recipe, .dye_left = {exp(-2.0)}};
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_amounts mine = sl_strand_amounts(&strands, i, &amounts);
        ck_assert_double_eq_tol(mine.dye_left[0], strands.depth[i] * exp(-2.0 * strands.rate[i]), 1e-12);
    }
}
END_TEST

static double mean_green(const sl_strip_look *look, uint32_t seed)
{
    static uint32_t pixel[HEIGHT][WIDTH];
    sl_light_table table;
    sl_strip *strip = NULL;
    sl_light_table_fill(&table);
    memset(pixel, 0, sizeof pixel);
    const sl_pixels sheet = {&pixel[0][0], WIDTH, 0, 0, WIDTH, HEIGHT, 16, 8, 0};
    ck_assert(sl_strip_lay(&strip, WIDTH, HEIGHT, 1, seed, NULL));
    sl_strip_draw(strip, &table, &sheet, 0, 0, 0, WIDTH, look);
    sl_strip_free(strip);
    double sum = 0.0;
    int n = 0;
    for (int y = HEIGHT / 8; y < HEIGHT - HEIGHT / 8; y++) {
        for (int x = WIDTH / 6; x < WIDTH - WIDTH / 6; x++) {
            sum += sl_srgb_decode((double)(pixel[y][x] >> 8 & 255U) / 255.0);
            n++;
        }
    }
    return sum / n;
}

/* The pattern has its mean over the whole strip; its part that is read here, with coarse cells
 * of a quarter of the width, may differ by a few hundredths of cover: 0.05. */
START_TEST(a_mix_hides_its_share_of_the_hair)
{
    const sl_srgb8 hair[1] = {{120, 90, 60}};
    const sl_mix mix = {.veil_lab = {85.0, 0.0, 0.0}, .veil_cover = 0.5};
    for (uint32_t seed = 1; seed <= 6; seed++) {
        sl_strip_look look;
        sl_strip_look_plain(&look, hair, 1);
        const double bare = mean_green(&look, seed);
        sl_strip_look_veil(&look, &mix, SL_VISION_FULL);
        const double seen = mean_green(&look, seed), paste = sl_srgb_decode(look.veil.g / 255.0);
        ck_assert_double_eq_tol((seen - bare) / (paste - bare), 0.5, 0.05);
    }
}
END_TEST

START_TEST(what_lies_on_an_arm_follows_its_steps)
{
    sl_arm arm = {.contact_min = 4.0, .n_steps = 4};
    arm.steps[0] = (sl_step){.kind = SL_STEP_APPLY, .duration_min = 10.0, .mix = 2};
    arm.steps[1] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 1.0};
    arm.steps[2] = (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = 2};
    arm.steps[3] = (sl_step){.kind = SL_STEP_REST, .duration_min = 5.0};
    ck_assert_int_eq(sl_arm_on_hair(&arm, 3.9).what, SL_LIES_NOTHING);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 3.9).step, -1);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 4.0).what, SL_LIES_MIX);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 13.9).mix, 2);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 14.0).what, SL_LIES_WATER);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 14.0).mix, -1);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 16.9).step, 2);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 17.0).what, SL_LIES_NOTHING);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 17.0).step, 3);
    ck_assert_int_eq(sl_arm_on_hair(&arm, 30.0).step, -1);
}
END_TEST

START_SUITE("swatch")
ADD(factors_of_strands_have_mean_one_and_nearly_the_spread_asked_for)
ADD(no_spread_leaves_every_strand_with_what_the_zone_holds)
ADD(a_strand_loses_dye_by_its_own_exponent)
ADD(a_mix_hides_its_share_of_the_hair)
ADD(what_lies_on_an_arm_follows_its_steps)
END_SUITE
