/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips in blocks against figures that others certified, printed or derived: NIST's Statistical Reference
 * Datasets, a class example of blocks, Yates' missing value, and R's pairwise comparisons with Holm's steps.
 */
#include "slowlift/blocks.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "unit/suite.h"

enum { MOST = 9 * 2001 };
static sl_block_value value[MOST];

/* ---- analysis of variance -------------------------------------------------------------------------------
 */

/* NIST/ITL Statistical Reference Datasets, Analysis of Variance (https://www.itl.nist.gov/div898/strd/), as
 * carried in SciPy 1.10.1, scipy/stats/tests/data/nist_anova: data and certified values. */
static const double SiRstv[] = {196.3052, 196.1240, 196.1890, 196.2569, 196.3403, 196.3042, 196.3825,
                                196.1669, 196.3257, 196.0422, 196.1303, 196.2005, 196.2889, 196.0343,
                                196.1811, 196.2795, 196.1748, 196.1494, 196.1485, 195.9885, 196.2119,
                                196.1051, 196.1850, 196.0052, 196.2090};
static const double AtmWtAg[] = {
    107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526, 107.8681494,
    107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569, 107.8681508, 107.8681672,
    107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.8681360, 107.8681333, 107.8681610, 107.8681477,
    107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642, 107.8681365,
    107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482, 107.8681334, 107.8681609,
    107.8681101, 107.8681512, 107.8681469, 107.8681360, 107.8681254, 107.8681261, 107.8681450, 107.8681368};

/* Digits: -log10 of the relative error, at most 15; of SmLs04 to 09 doubles of the data hold 10 and 4. SmLs01
 * to 09 are made by their rule: value 1 of a group is the offset and its first figure, then its even and odd
 * figures in turn. */
typedef struct sl_certified {
    const char *name;
    const double *observed; /* NULL: by the rule */
    double offset;
    int groups, replicates;
    double between, within, sd, digits;
} sl_certified;
static const sl_certified certified[] = {
    {"SiRstv", SiRstv, 0.0, 5, 5, 5.11462616000000e-02, 2.16636560000000e-01, 1.04076068334656e-01, 13.0},
    {"SmLs01", NULL, 1.0, 9, 21, 1.68, 1.80, 0.1, 14.0},
    {"SmLs02", NULL, 1.0, 9, 201, 16.08, 18.0, 0.1, 14.0},
    {"SmLs03", NULL, 1.0, 9, 2001, 160.08, 180.0, 0.1, 12.5},
    {"SmLs04", NULL, 1e6, 9, 21, 1.68, 1.80, 0.1, 9.8},
    {"SmLs05", NULL, 1e6, 9, 201, 16.08, 18.0, 0.1, 9.8},
    {"SmLs06", NULL, 1e6, 9, 2001, 160.08, 180.0, 0.1, 9.8},
    {"SmLs07", NULL, 1e12, 9, 21, 1.68, 1.80, 0.1, 3.8},
    {"SmLs08", NULL, 1e12, 9, 201, 16.08, 18.0, 0.1, 3.8},
    {"SmLs09", NULL, 1e12, 9, 2001, 160.08, 180.0, 0.1, 3.8},
    {"AtmWtAg", AtmWtAg, 0.0, 2, 24, 3.63834187500000e-09, 1.04951729166667e-08, 1.51048314446410e-05, 10.0},
};

/* What its decimal text reads as: 1000000000000.4 has no exact double. */
static double made(double offset, int group, int replicate)
{
    static const int figure[9] = {4, 3, 5, 3, 5, 3, 5, 3, 5}; /* the first, in tenths */
    const int tenths = replicate == 0 ? figure[group] : figure[group] + (replicate % 2 == 1 ? -1 : 1);
    char text[32];
    snprintf(text, sizeof text, "%.0f.%d", offset, tenths);
    return strtod(text, NULL);
}

static double digits(double found, double right)
{
    return fabs(found - right) > 0.0 ? fmin(-log10(fabs(found - right) / fabs(right)), 15.0) : 15.0;
}

START_TEST(a_certified_figure_is_not_found)
{
    const sl_certified *const set = &certified[_i];
    int n = 0;
    for (int group = 0; group < set->groups; group++) {
        for (int i = 0; i < set->replicates; i++, n++) {
            value[n] =
                (sl_block_value){group, 0, set->observed ? set->observed[n] : made(set->offset, group, i)};
        }
    }
    static sl_blocks found;
    sl_blocks_of(&found, value, n, set->groups);
    ck_assert_int_eq(found.freedom, n - set->groups);
    ck_assert_msg(digits(found.of_strips, set->between) >= set->digits, "%s: %.15g", set->name,
                  found.of_strips);
    ck_assert_msg(digits(found.within, set->within) >= set->digits, "%s: %.15g", set->name, found.within);
    ck_assert_msg(digits(found.sd, set->sd) >= set->digits, "%s: %.15g", set->name, found.sd);
}
END_TEST

/* ---- blocks ----------------------------------------------------------------------------------------------
 */

/* Four chemicals in five samples of fabric: sums of squares 18.04 of the chemicals and 25.69 in all, as a
 * textbook prints them (Montgomery and Runger, Applied Statistics and Probability for Engineers, table 13-12:
 * from memory); of the blocks and the scatter by hand: 6.693 and 0.951. */
static const double fabric[4][5] = {{1.3, 1.6, 0.5, 1.2, 1.1},
                                    {2.2, 2.4, 0.4, 2.0, 1.8},
                                    {1.8, 1.7, 0.6, 1.5, 1.3},
                                    {3.9, 4.4, 2.0, 4.1, 3.4}};

static int put_fabric(int missing_strip, int missing_block)
{
    int n = 0;
    for (int block = 0; block < 5; block++) {
        for (int strip = 0; strip < 4; strip++) {
            value[n] = (sl_block_value){strip, block, fabric[strip][block]};
            n += strip == missing_strip && block == missing_block ? 0 : 1;
        }
    }
    return n;
}

START_TEST(blocks_are_not_those_of_the_textbook)
{
    static sl_blocks found;
    sl_blocks_of(&found, value, put_fabric(-1, -1), 4);
    ck_assert(found.blocked);
    ck_assert_double_eq_tol(found.of_strips, 18.04, 5e-3);
    ck_assert_double_eq_tol(found.of_strips + found.of_blocks + found.within, 25.69, 5e-3);
    ck_assert_double_eq_tol(found.of_blocks, 6.693, 1e-9);
    ck_assert_double_eq_tol(found.within, 0.951, 1e-9);
    ck_assert_int_eq(found.freedom, 12);
}
END_TEST

/* Yates (1933, Empire Journal of Experimental Agriculture 1, 129-142; from memory): a missing value of k
 * strips in b blocks is made up by (k T + b B - G)/((k - 1)(b - 1)), from the sums of its strip, its block
 * and all; and a difference to that strip has the variance sd^2 (2/b + k/(b (b - 1)(k - 1))). */
START_TEST(a_missing_swatch_is_not_made_up_as_yates_did)
{
    const int strip = 1, block = 2;
    const double k = 4.0, b = 5.0;
    double of_strip = 0.0, of_block = 0.0, all = 0.0;
    for (int i = 0; i < 4; i++) {
        for (int at = 0; at < 5; at++) {
            const double seen = i == strip && at == block ? 0.0 : fabric[i][at];
            of_strip += i == strip ? seen : 0.0;
            of_block += at == block ? seen : 0.0;
            all += seen;
        }
    }
    const double made_up = (k * of_strip + b * of_block - all) / ((k - 1.0) * (b - 1.0));
    static sl_blocks found;
    sl_blocks_of(&found, value, put_fabric(strip, block), 4);
    ck_assert_int_eq(found.freedom, 11);
    ck_assert_double_eq_tol(found.mean[strip], (of_strip + made_up) / b, 1e-12);
    ck_assert_double_eq_tol(found.mean[0], (1.3 + 1.6 + 0.5 + 1.2 + 1.1) / 5.0, 1e-12);
    ck_assert_double_eq_tol(found.part[strip][strip] + found.part[0][0] - 2.0 * found.part[strip][0],
                            2.0 / b + k / (b * (b - 1.0) * (k - 1.0)), 1e-12);
    ck_assert_double_eq_tol(found.part[3][3] + found.part[0][0] - 2.0 * found.part[3][0], 2.0 / b, 1e-12);
}
END_TEST

/* What a block has in common moves no strip and is no scatter. */
START_TEST(a_whole_block_that_went_darker_changes_a_difference)
{
    static sl_blocks before, after;
    int n = put_fabric(1, 2);
    sl_blocks_of(&before, value, n, 4);
    for (int i = 0; i < n; i++) {
        value[i].value += value[i].block == 3 ? 7.0 : 0.0;
    }
    sl_blocks_of(&after, value, n, 4);
    ck_assert_double_eq_tol(after.sd, before.sd, 1e-12);
    for (int i = 1; i < 4; i++) {
        ck_assert_double_eq_tol(after.mean[i] - after.mean[0], before.mean[i] - before.mean[0], 1e-12);
    }
}
END_TEST

/* Each strip in blocks of its own: blocks and strips cannot be told apart, and swatches are repeats alone. */
START_TEST(blocks_that_join_nothing_are_taken_out)
{
    static sl_blocks found;
    const sl_block_value apart[] = {{0, 0, 1.0}, {0, 1, 2.0}, {1, 2, 5.0}, {1, 3, 7.0}};
    sl_blocks_of(&found, apart, 4, 3);
    ck_assert(!found.blocked && found.freedom == 2 && found.n[2] == 0);
    ck_assert_double_eq_tol(found.mean[0], 1.5, 1e-15);
    ck_assert_double_eq_tol(found.mean[1], 6.0, 1e-15);
    ck_assert_double_eq_tol(found.sd, sqrt((0.5 + 2.0) / 2.0), 1e-15);
    ck_assert_double_eq_tol(found.part[0][0], 0.5, 1e-15);
    ck_assert_double_eq(sl_blocks_odds(&found, 0, 2), 1.0);
    ck_assert_double_eq(sl_blocks_half(&found, 2, 0.95), -1.0);
}
END_TEST

START_TEST(nothing_or_single_swatches_show_a_scatter)
{
    static sl_blocks found;
    const sl_block_value single[] = {{0, 0, 1.0}, {1, 0, 2.0}};
    sl_blocks_of(&found, single, 0, 2);
    ck_assert(found.freedom == 0 && found.n[0] == 0);
    sl_blocks_of(&found, single, 2, 2);
    ck_assert(found.freedom == 0 && found.sd < 0.0);
    ck_assert_double_eq(found.mean[1], 2.0);
    ck_assert_double_eq(sl_blocks_odds(&found, 0, 1), 1.0);
}
END_TEST

/* ---- many comparisons -------------------------------------------------------------------------------------
 */

/* Ozone in New York, May to September 1973, as R has it (airquality: Chambers and others 1983), compared
 * month by month with pooled scatter and Holm's steps: as R's own reference output prints them
 * (pairwise.t.test). */
static const double ozone[] = {
    41,  36, 12, 18, 28, 23, 19,  8,  7,  16,  11, 14,  18,  14, 34, 6,  30, 11, 1,  11,  4,  32,  23, 45,
    115, 37, 29, 71, 39, 23, 21,  37, 20, 12,  13, 135, 49,  32, 64, 40, 77, 97, 97, 85,  10, 27,  7,  48,
    35,  61, 79, 63, 16, 80, 108, 20, 52, 82,  50, 64,  59,  39, 9,  16, 78, 35, 66, 122, 89, 110, 44, 28,
    65,  22, 59, 23, 31, 44, 21,  9,  45, 168, 73, 76,  118, 84, 85, 96, 78, 73, 91, 47,  32, 20,  23, 21,
    24,  44, 21, 28, 9,  13, 46,  18, 13, 24,  16, 13,  23,  36, 7,  14, 30, 14, 18, 20};
static const int days[5] = {26, 9, 26, 26, 29};
static const struct {
    int one, other;
    double printed;
} months[10] = {{1, 0, 1}, {2, 0, 0.00026}, {2, 1, 0.05113}, {3, 0, 0.00019}, {3, 1, 0.04987},
                {3, 2, 1}, {4, 0, 1},       {4, 1, 1},       {4, 2, 0.00488}, {4, 3, 0.00388}};

START_TEST(pairs_are_not_those_that_R_prints)
{
    static sl_blocks found;
    sl_comparison question[10];
    int n = 0;
    for (int month = 0; month < 5; month++) {
        for (int day = 0; day < days[month]; day++, n++) {
            value[n] = (sl_block_value){month, 0, ozone[n]};
        }
    }
    sl_blocks_of(&found, value, n, 5);
    for (int i = 0; i < 10; i++) {
        question[i] = (sl_comparison){.odds = sl_blocks_odds(&found, months[i].one, months[i].other),
                                      .less = months[i].one,
                                      .other = months[i].other};
    }
    sl_comparisons_together(question, 10);
    for (int i = 0; i < 10; i++) {
        for (int k = 0; k < 10; k++) {
            if (months[k].one == question[i].less && months[k].other == question[i].other) {
                ck_assert_double_eq_tol(question[i].together, months[k].printed, 5.01e-6);
            }
        }
    }
}
END_TEST

/* p-values and Holm's of R's multtest, as carried in the tests of statsmodels. */
static const struct {
    int n;
    double odds[10], together[10];
} holm[] = {
    {10,
     {5.23656777208e-05, 0.00028140506198, 0.0149877310796, 0.0202732688798, 0.177096952723, 0.642193923795,
      0.680845947633, 0.71626938238, 0.838541367553, 0.967833824309},
     {0.000523656777208, 0.00253264555782, 0.1199018486368, 0.1419128821586, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0}},
    {6, {0.002, 0.004, 0.006, 0.008, 0.01, 0.012}, {0.012, 0.02, 0.024, 0.024, 0.024, 0.024}},
    {10,
     {0.001, 0.002, 0.003, 0.004, 0.005, 0.05, 0.06, 0.07, 0.08, 0.09},
     {0.01, 0.018, 0.024, 0.028, 0.03, 0.25, 0.25, 0.25, 0.25, 0.25}},
};

START_TEST(steps_are_not_holms)
{
    sl_comparison question[10];
    const int n = holm[_i].n;
    for (int i = 0; i < n; i++) {
        question[(i * 7) % n] =
            (sl_comparison){.odds = holm[_i].odds[i]}; /* in no order: 7 has no factor of 10 or 6 */
    }
    sl_comparisons_together(question, n);
    for (int i = 0; i < n; i++) {
        ck_assert_double_eq_tol(question[i].together, holm[_i].together[i], 1e-12);
    }
}
END_TEST

/* Weighted steps by hand: odds over weights .01, .02, .03 (.006/.2), .04 among 1, 1, .2, 1 = 3.2;
 * then 2.2, 1.2, 1. */
START_TEST(steps_are_weighed)
{
    static const double wanted[] = {0.032, 0.044, 0.044, 0.044};
    sl_comparison question[] = {
        {.odds = 0.04}, {.odds = 0.006, .weight = 0.2}, {.odds = 0.01}, {.odds = 0.02, .weight = 1.0}};
    sl_comparisons_together(question, 4);
    for (int i = 0; i < 4; i++) {
        ck_assert_double_eq_tol(question[i].together, wanted[i], 1e-12);
    }
}
END_TEST

/* What stands beside asks as many questions as it likes: a colour's count for a quarter more at the most. */
START_TEST(what_is_beside_costs_colours_little)
{
    enum { STRIPS = 4, BESIDE = 5 };
    static sl_blocks all[1 + BESIDE];
    static sl_comparison asked[(1 + BESIDE) * STRIPS * STRIPS];
    static bool told[(1 + BESIDE) * STRIPS * STRIPS];
    static const sl_block_value put[] = {{0, 0, 0.1}, {1, 0, 0.2}, {2, 0, 0.3}, {3, 0, 0.4},
                                         {0, 1, 0.2}, {1, 1, 0.2}, {2, 1, 0.5}, {3, 1, 0.5}};
    for (int i = 0; i <= BESIDE; i++) {
        sl_blocks_of(&all[i], put, 8, STRIPS);
        all[i].beside = i > 0;
    }
    ck_assert_double_eq_tol(sl_before_together(all, 1, asked, told), 6.0, 1e-12);
    ck_assert_double_eq_tol(sl_before_together(all, 1 + BESIDE, asked, told), 6.0 / 0.8, 1e-12);
    ck_assert_double_eq_tol(sl_before_together(all + 1, BESIDE, asked, told), 30.0, 1e-12); /* nothing else */
}
END_TEST

/* ---- places
 * ------------------------------------------------------------------------------------------------- */

/* Of every relation on four strips in which the better can come before the worse: 64, their means in no
 * order. */
START_TEST(who_has_more_left_places_better)
{
    static const int strip[4] = {2, 0, 3, 1}; /* by rising mean */
    static sl_blocks found;
    found = (sl_blocks){.n_strips = 4, .n = {1, 1, 1, 1}, .mean = {0.2, 0.4, 0.1, 0.3}};
    for (int bits = 0; bits < 64; bits++) {
        bool before[16] = {false};
        int place[4], at = 0;
        for (int k = 1; k < 4; k++) {
            for (int i = 0; i < k; i++, at++) {
                before[strip[i] * 4 + strip[k]] = (bits >> at & 1) != 0;
            }
        }
        sl_strip_places(&found, before, place);
        ck_assert_int_eq(place[strip[0]], 1);
        for (int k = 1; k < 4; k++) {
            int behind = 0, earlier = 0;
            for (int i = 0; i < 4; i++) {
                behind += before[strip[i] * 4 + strip[k]] ? 1 : 0;
                earlier += place[strip[i]] < place[strip[k]] ? 1 : 0;
            }
            ck_assert_int_ge(place[strip[k]], place[strip[k - 1]]);
            ck_assert_int_eq(place[strip[k]], 1 + earlier); /* 1, 2, 2, 4 */
            ck_assert(behind > 0 || place[strip[k]] == 1);
        }
    }
}
END_TEST

/* Three strips in two colours, told apart in one only: t = 0.5/(sqrt(0.0006/4) sqrt(2/3)) = 50 there, with 4
 * degrees of freedom and six questions; a floor of scatter or of the difference takes it back. */
START_TEST(what_lies_before_is_not_told_over_all_colours)
{
    static sl_blocks colour[2];
    static const double scatter[3] = {-0.01, 0.0, 0.01};
    sl_comparison room[6];
    bool before[18];
    for (int c = 0; c < 2; c++) {
        for (int i = 0; i < 9; i++) {
            const int block = i / 3, strip = i % 3;
            value[i] = (sl_block_value){strip, block,
                                        (c == 1 && strip == 2 ? 0.7 : 0.2) + scatter[(block + strip) % 3]};
        }
        sl_blocks_of(&colour[c], value, 9, 3);
        ck_assert_int_eq(colour[c].freedom, 4);
    }
    sl_before_together(colour, 2, room, before);
    for (int i = 0; i < 18; i++) {
        ck_assert_int_eq(before[i], i == 9 + 2 || i == 9 + 5); /* 0 and 1 before 2, in the second colour */
    }
    colour[0].least_apart = colour[1].least_apart = 0.6;
    sl_before_together(colour, 2, room, before);
    ck_assert(!before[9 + 2] && !before[9 + 5]);
    colour[0].least_apart = colour[1].least_apart = 0.0;
    colour[1].least_sd[0] = 0.2; /* t = 3.06, 0.038 alone, of three strips in two colours too much */
    sl_before_together(colour, 2, room, before);
    ck_assert(!before[9 + 2] && before[9 + 5]);
}
END_TEST

/* Three strips: differences have a standard error of sqrt(0.0006/4) sqrt(2/3) = 0.01 and 4 degrees of
 * freedom: 2.776 of them are told of one question alone, 3.961 as the first of three (Student's t at 0.05 and
 * 0.05/3, two-sided, by scipy.stats.t.ppf of SciPy 1.10.1). 0.033 lies between, and is told once the other
 * two are. */
START_TEST(what_is_told_last_is_said_to_look_even)
{
    static sl_blocks colour;
    static const double level[3] = {0.2, 0.233, 0.7}, scatter[3] = {-0.01, 0.0, 0.01};
    sl_comparison room[3];
    bool before[9];
    for (int i = 0; i < 9; i++) {
        value[i] = (sl_block_value){i % 3, i / 3, level[i % 3] + scatter[(i / 3 + i) % 3]};
    }
    sl_blocks_of(&colour, value, 9, 3);
    const double asked = sl_before_together(&colour, 1, room, before);
    const double first = sl_blocks_told_from(&colour, 0, 1, asked);
    ck_assert_double_eq_tol(sl_blocks_told_from(&colour, 0, 1, 1.0), 0.02776445, 1e-8);
    ck_assert_double_eq_tol(first, 0.03960786, 1e-8);
    ck_assert(before[1] && before[2] && before[3 + 2]);
    ck_assert_double_eq_tol(sl_blocks_least_told(&colour, 1, before, first), 0.033, 1e-12);
    before[1] = false;
    ck_assert_double_eq(sl_blocks_least_told(&colour, 1, before, first), first);
}
END_TEST

START_SUITE("blocks")
ADD_LOOP(a_certified_figure_is_not_found, 0, (int)(sizeof certified / sizeof certified[0]))
CASE("blocks")
ADD(blocks_are_not_those_of_the_textbook)
ADD(a_missing_swatch_is_not_made_up_as_yates_did)
ADD(a_whole_block_that_went_darker_changes_a_difference)
ADD(blocks_that_join_nothing_are_taken_out)
ADD(nothing_or_single_swatches_show_a_scatter)
CASE("many comparisons")
ADD(pairs_are_not_those_that_R_prints)
ADD(steps_are_weighed)
ADD(what_is_beside_costs_colours_little)
ADD_LOOP(steps_are_not_holms, 0, 3)
CASE("places")
ADD(who_has_more_left_places_better)
ADD(what_lies_before_is_not_told_over_all_colours)
ADD(what_is_told_last_is_said_to_look_even)
END_SUITE
