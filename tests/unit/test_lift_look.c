/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What lifting looks like. Common practice, no source: dark hair lifts through red, orange and
 * yellow to pale yellow; the level scale rises evenly. The opened and yellow spectra were chosen
 * for this, so every test here is a regression and none is evidence.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/model.h"
#include "slowlift/optics.h"
#include "suite.h"
#include "tools/spots.h"

enum { STEPS = 160 };

static spot_scene spots;
static sl_optics *optics;

static void set_up(void)
{
    spot_scene_fill(&spots);
    optics = sl_optics_new(&spots.scene, NULL);
    ck_assert_ptr_nonnull(optics);
}

static void tear_down(void)
{
    sl_optics_free(optics);
    optics = NULL;
}

static sl_lab lab_of(const sl_amounts *spot)
{
    sl_colour colour;
    sl_optics_paint(optics, spot, &colour);
    return colour.lab;
}

/* Exposure 0.1 per step; pheomelanin's is in the ratio of the shipped perhydroxyl constants. */
static sl_lab lifted(int level, int step)
{
    sl_amounts spot = spot_natural(level);
    const sl_amounts natural = spot;
    const double exposure[SL_MELANINS] = {0.1 * step, 0.1 * step * 1.49 / 2.61};
    sl_melanin_move(&spots.scene.chemistry, exposure, natural.pool, spot.pool);
    return lab_of(&spot);
}

/* From its reddest on, hue rises without a step back, through the angles at which colour words
 * sit (CIELAB: red-brown below 62 degrees, orange from 66 to 74, yellow from 82): so all of them are met,
 * in this order, while L* rises all the way. */
START_TEST(hue_of_a_lift_from_dark_hair_runs_strictly_from_red_brown_to_yellow)
{
    const int level = _i;
    double reddest = 360.0;
    int at_reddest = 0;
    for (int step = 0; step <= STEPS; step++) {
        const double hue = sl_lch_of_lab(lifted(level, step)).h_deg;
        if (hue < reddest) {
            reddest = hue;
            at_reddest = step;
        }
    }
    ck_assert_double_lt(reddest, 62.0);
    ck_assert_int_lt(at_reddest, 30);
    double before = reddest;
    double lightness = lifted(level, 0).L;
    for (int step = 1; step <= STEPS; step++) {
        const sl_lch seen = sl_lch_of_lab(lifted(level, step));
        ck_assert(seen.L > lightness);
        lightness = seen.L;
        if (step > at_reddest) {
            ck_assert(seen.h_deg > before);
            before = seen.h_deg;
        }
    }
    ck_assert(before > 88.0 && before < 104.0); /* pale yellow, not yet green */
}
END_TEST

/* The words of the rule as colours: where hue passes 70 degrees (orange) and 85 (yellow) the hair
 * has chroma, and at the end the yellow is pale. */
START_TEST(a_lift_from_level_3_is_vivid_in_the_middle_and_pale_at_the_end)
{
    double orange = 0.0;
    double yellow = 0.0;
    for (int step = 0; step <= STEPS; step++) {
        const sl_lch seen = sl_lch_of_lab(lifted(3, step));
        if (seen.h_deg > 66.0 && seen.h_deg < 74.0 && step > 20) {
            orange = fmax(orange, seen.C);
        }
        if (seen.h_deg > 82.0 && seen.h_deg < 88.0) {
            yellow = fmax(yellow, seen.C);
        }
    }
    ck_assert(orange > 40.0 && yellow > 40.0);
    const sl_lch end = sl_lch_of_lab(lifted(3, STEPS));
    ck_assert(end.L > 83.0 && end.C > 20.0 && end.C < 40.0);
}
END_TEST

/* As models/hair/prelight-10.yaml: from level 6, warmth left 60 %, 18 % of the cystine gone. */
START_TEST(hair_lightened_to_level_10_is_a_light_yellow)
{
    spots.scene.chemistry.melanin[SL_EUMELANIN].rates.k[SL_PERHYDROXYL].value = 2.61;
    spots.scene.chemistry.melanin[SL_PHEOMELANIN].rates.k[SL_PERHYDROXYL].value = 1.49;
    const sl_amounts natural = spot_natural(6);
    sl_hair hair = {.level = 10.0, .natural_level = 6.0, .prelightened = true, .warmth_left = 0.6};
    ck_assert(sl_hair_prelighten(&hair, &spots.scene.chemistry, natural.pool[SL_EUMELANIN][SL_BOUND],
                                 natural.pool[SL_PHEOMELANIN][SL_BOUND], NULL));
    sl_amounts spot = {.oxidised = 0.18};
    memcpy(spot.pool, hair.pool, sizeof spot.pool);
    const sl_lch seen = sl_lch_of_lab(lab_of(&spot));
    const sl_amounts level_10 = spot_natural(10);
    const sl_lch blond = sl_lch_of_lab(lab_of(&level_10));
    ck_assert(seen.L > 75.0 && seen.h_deg > 80.0 && seen.h_deg < 95.0);
    ck_assert(seen.C > 25.0 && seen.C < 40.0 && seen.C > blond.C);
}
END_TEST

/* Steps of 4 to 9 in L* from level 1 to 10; their L* are kept in docs/colour.md. */
START_TEST(natural_levels_rise_in_even_steps)
{
    double before = 0.0;
    for (int level = 1; level <= 10; level++) {
        const sl_amounts spot = spot_natural(level);
        const double L = lab_of(&spot).L;
        if (level > 1) {
            ck_assert(L - before > 4.0 && L - before < 9.0);
        }
        before = L;
    }
    ck_assert(before > 74.0 && before < 78.0);
}
END_TEST

/* Level 2 to 10 obey the chemistry's own law: absorbance times the level ratio per level, within
 * the rounding of the amounts in the files (two or three figures: 1 %). So a strand lifted by some
 * levels has the absorbance of natural hair that many levels lighter. */
START_TEST(natural_levels_keep_the_level_ratio_of_the_chemistry)
{
    for (int level = 3; level <= 10; level++) {
        const sl_amounts dark = spot_natural(level - 1);
        const sl_amounts light = spot_natural(level);
        const double ratio = sl_melanin_absorbance(&spots.scene.chemistry, light.pool) /
                             sl_melanin_absorbance(&spots.scene.chemistry, dark.pool);
        ck_assert_double_eq_tol(ratio, spots.scene.chemistry.level_ratio.value, 0.0062);
    }
}
END_TEST

/* Regression, not evidence: k1 and the amounts were chosen with these measured tresses in view, and
 * the measurements are for the 10 degree observer, which is used here. Black hair, specular
 * excluded, L* 18.00 a* .02 b* -.91; dark brown, middles of ranges, 22.7, 4.0, 4.8: Scanavez, Zoega,
 * Barbosa & Joekes, J. Cosmet. Sci. 51:289-302 (2000), Tables III and IV. */
START_TEST(the_darkest_levels_stay_near_the_two_measured_tresses)
{
    const sl_viewing instrument = {.observer = SL_OBSERVER_10_DEGREE, .light = SL_LIGHT_D65};
    sl_optics *measured = sl_optics_new_for(&spots.scene, instrument, NULL);
    ck_assert_ptr_nonnull(measured);
    const sl_amounts black = spot_natural(1);
    const sl_amounts brown = spot_natural(2);
    sl_colour one;
    sl_colour two;
    sl_optics_paint(measured, &black, &one);
    sl_optics_paint(measured, &brown, &two);
    ck_assert(sl_delta_e_2000(one.lab, (sl_lab){18.00, 0.02, -0.91}) <= 3.0);
    ck_assert(sl_delta_e_2000(two.lab, (sl_lab){22.7, 4.0, 4.8}) <= 2.0);
    sl_optics_free(measured);
}
END_TEST

START_SUITE("look of a lift")
FIXTURE(set_up, tear_down)
ADD_LOOP(hue_of_a_lift_from_dark_hair_runs_strictly_from_red_brown_to_yellow, 1, 4)
ADD(a_lift_from_level_3_is_vivid_in_the_middle_and_pale_at_the_end)
ADD(hair_lightened_to_level_10_is_a_light_yellow)
ADD(natural_levels_rise_in_even_steps)
ADD(natural_levels_keep_the_level_ratio_of_the_chemistry)
ADD(the_darkest_levels_stay_near_the_two_measured_tresses)
END_SUITE
