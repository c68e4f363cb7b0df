/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charge balance: its constants beside tables of others, and what must hold of any solution. Standards of pH
 * and another theory of activity: tests/reference/ph_pitzer.py.
 */
#include "slowlift/solution.h"

#include <math.h>

#include "suite.h"

static double kelvin(double celsius)
{
    return celsius + 273.15;
}

static sl_ionised ionised(const sl_solution *solution, double celsius)
{
    sl_ionised found;
    ck_assert(sl_solution_ionise(solution, kelvin(celsius), &found));
    return found;
}

/* pKa at 20, 25 and 40 °C: water, Harned & Robinson 1940; ammonium, Bates & Pinching 1949; carbonic acid,
 * Harned & Davis 1943 and Harned & Scholes 1941: as handbooks table them (from memory). */
START_TEST(constants_are_those_of_handbooks)
{
    static const double celsius[] = {20.0, 25.0, 40.0};
    static const double of_water[] = {14.167, 13.997, 13.535}, ammonium[] = {9.400, 9.245, 8.805};
    static const double carbonic[] = {6.381, 6.352, 6.298}, bicarbonate[] = {10.377, 10.329, 10.220};
    for (int i = 0; i < 3; i++) {
        const double t = kelvin(celsius[i]);
        ck_assert_double_eq_tol(-sl_water_lg(t), of_water[i], 0.01);
        ck_assert_double_eq_tol(-sl_acid_lg(SL_AMMONIA, 0, t), ammonium[i], 0.01);
        ck_assert_double_eq_tol(-sl_acid_lg(SL_CARBONATE, 0, t), carbonic[i], 0.01);
        ck_assert_double_eq_tol(-sl_acid_lg(SL_CARBONATE, 1, t), bicarbonate[i], 0.01);
    }
}
END_TEST

/* Pure water; and strong base alone, where water and activity coefficients are all there is. */
START_TEST(water_and_lye_are_what_they_are)
{
    const sl_solution nothing = {.acid = {0.0}}, lye = {.strong = {[SL_SODIUM] = 1e-3}};
    ck_assert_double_eq_tol(ionised(&nothing, 25.0).ph, 7.0, 0.002);
    ck_assert_double_eq_tol(ionised(&lye, 25.0).ph, 11.0 - 0.016,
                            0.005); /* lg of the coefficient at 1 mmol/kg: -0.016 */
}
END_TEST

static const sl_solution powder_in_water = {
    .strong = {[SL_SODIUM] = 1.1, [SL_POTASSIUM] = 0.6, [SL_PEROXYDISULFATE] = 0.8},
    .acid = {[SL_AMMONIA] = 1.0, [SL_SILICATE] = 0.55}};

START_TEST(peroxide_makes_no_mix_more_alkaline)
{
    double before = 15.0;
    for (double peroxide = 0.0; peroxide < 4.0; peroxide += 0.5) {
        sl_solution with = powder_in_water;
        with.acid[SL_PEROXIDE] = peroxide;
        const double ph = ionised(&with, 25.0).ph;
        ck_assert_double_lt(ph, before);
        before = ph;
    }
    ck_assert_double_gt(before, 9.5);
}
END_TEST

/* Base in small steps: the pH rises as the buffer says. */
START_TEST(the_buffer_is_the_slope)
{
    static const double STEP = 1e-5;
    for (int celsius = 15; celsius <= 45; celsius += 15) {
        sl_solution more = powder_in_water, less = powder_in_water;
        more.strong[SL_SODIUM] += STEP;
        less.strong[SL_SODIUM] -= STEP;
        const double slope = 2.0 * STEP / (ionised(&more, celsius).ph - ionised(&less, celsius).ph);
        /* the coefficients move a little with the base; the buffer is of those that stand */
        ck_assert_double_eq_tol(slope / ionised(&powder_in_water, celsius).buffer, 1.0, 0.06);
    }
}
END_TEST

START_TEST(shares_are_shares)
{
    sl_solution all = powder_in_water;
    for (int a = 0; a < SL_ACIDS; a++) {
        all.acid[a] = 0.2;
    }
    const sl_ionised found = ionised(&all, 32.0);
    for (int a = 0; a < SL_ACIDS; a++) {
        double sum = 0.0;
        for (int k = 0; k <= SL_MOST_PROTONS; k++) {
            ck_assert_double_ge(found.share[a][k], 0.0);
            sum += found.share[a][k];
        }
        ck_assert_double_eq_tol(sum, 1.0, 1e-12);
    }
}
END_TEST

/* Where ammonium holds the mix, the share of the peroxide's ion hardly moves with the temperature: both lose
 * their proton more easily. */
START_TEST(warmth_lowers_the_ph_and_hardly_moves_the_share)
{
    sl_solution mix = powder_in_water;
    mix.acid[SL_PEROXIDE] = 1.2;
    const sl_ionised cool = ionised(&mix, 25.0), warm = ionised(&mix, 35.0);
    ck_assert_double_lt(warm.ph, cool.ph - 0.15);
    ck_assert_double_eq_tol(warm.share[SL_PEROXIDE][1] / cool.share[SL_PEROXIDE][1], 1.0, 0.15);
    /* held at one pH it would be half as much again: 10^(34.3 kJ/mol / (ln 10 R) (1/298 - 1/308 K)) = 1.57 */
    const double held =
        pow(10.0, sl_acid_lg(SL_PEROXIDE, 0, kelvin(35.0)) - sl_acid_lg(SL_PEROXIDE, 0, kelvin(25.0)));
    ck_assert_double_eq_tol(held, 1.57, 0.02);
}
END_TEST

START_TEST(what_balances_nowhere_is_told)
{
    const sl_solution acid = {.strong = {[SL_CHLORIDE] = 30.0}};
    sl_ionised found;
    ck_assert(!sl_solution_ionise(&acid, kelvin(25.0), &found));
    ck_assert_double_eq(sl_solution_doubt(&acid, kelvin(25.0)), 0.0);
    ck_assert_double_gt(sl_solution_doubt(&powder_in_water, kelvin(25.0)), 0.01);
}
END_TEST

START_SUITE("solution")
ADD(constants_are_those_of_handbooks)
ADD(water_and_lye_are_what_they_are)
ADD(peroxide_makes_no_mix_more_alkaline)
ADD(the_buffer_is_the_slope)
ADD(shares_are_shares)
ADD(warmth_lowers_the_ph_and_hardly_moves_the_share)
ADD(what_balances_nowhere_is_told)
END_SUITE
