/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, compared: by hand and by tables. Student's t: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.6.7.2, column 0.975: 4.303 for 2 degrees of freedom, 2.776 for 4.
 */
#include "slowlift/compare.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/compare/compare_page.h"
#include "log_made.h"
#include "named.h"
#include "slowlift/what_if.h"
#include "suite.h"

static sl_log_made made;
static sl_compare *compare;

static void begin(void)
{
    log_made_begin(&made);
}

static void end(void)
{
    sl_compare_free(compare);
    compare = NULL;
    log_made_end(&made);
}

static void read_compare(double noise_floor)
{
    sl_log_test test;
    sl_compare_free(compare);
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, noise_floor, NULL));
}

/* The n-th swatch of an arm, by block. */
static void see_as(int swatch, const char *zone, sl_wipe grade, const char *judge)
{
    sl_log_reading reading = log_made_reading(&made, swatch, zone, grade);
    snprintf(reading.judge, sizeof reading.judge, "%s", judge);
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static void see(const char *arm, int block, const char *zone, sl_wipe grade)
{
    see_as(log_made_swatch(&made, arm, block), zone, grade, "j1");
}

static void see_colour(int swatch, const char *zone, double minute, double L, double a, double b)
{
    sl_log_reading reading = log_made_colour(&made, swatch, zone, L, a, b);
    reading.minute = minute;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static const sl_seen_arm *at(const char *arm, const char *zone)
{
    return sl_compare_arm(compare, named_arm(compare->scene, arm), named_zone(compare->scene, zone));
}

static const sl_deviation *deviation_of(sl_deviation_kind kind)
{
    for (int i = 0; i < compare->n_deviations; i++) {
        if (compare->deviations[i].kind == kind) {
            return &compare->deviations[i];
        }
    }
    return NULL;
}

/* ---- means and t
 * --------------------------------------------------------------------------------------------- */

/* 0.10, 0.25, 0.50: mean 0.85/3; squares about it 0.0336111 + 0.0011111 + 0.0469444 = 0.0816667;
 * sd sqrt(0.0408333) = 0.202073; half 4.303 * 0.202073 / sqrt(3). The table has four figures. */
START_TEST(a_mean_or_its_interval_is_not_that_of_a_hand_and_a_table)
{
    const double three[] = {0.10, 0.25, 0.50}, five[] = {1.0, 2.0, 3.0, 4.0, 5.0};
    const sl_seen_mean mean = sl_seen_mean_of(three, 3), wide = sl_seen_mean_of(five, 5);
    ck_assert_double_eq_tol(mean.mean, 0.85 / 3.0, 1e-15);
    ck_assert_double_eq_tol(mean.sd, 0.202073, 5e-7);
    ck_assert_double_eq_tol(mean.half, 4.303 * 0.202073 / sqrt(3.0), 1e-4);
    ck_assert_double_eq_tol(wide.half, 2.776 * sqrt(2.5) / sqrt(5.0), 1e-3);
}
END_TEST

START_TEST(one_swatch_shows_a_spread)
{
    const double one[] = {0.25};
    const sl_seen_mean mean = sl_seen_mean_of(one, 1), none = sl_seen_mean_of(one, 0);
    ck_assert(mean.n == 1 && mean.sd < 0.0 && mean.half < 0.0);
    ck_assert(none.n == 0 && none.mean <= SL_NOT_READ);
}
END_TEST

/* 0.50 and (0.25 + 0.10)/2 = 0.175: mean 0.3375 over two swatches, whoever looks how often. */
START_TEST(judges_or_looks_of_one_swatch_count_as_swatches)
{
    begin();
    const int second = log_made_swatch(&made, "powder + 6 %", 1);
    see("powder + 6 %", 0, "red", SL_WIPE_HALF);
    see_as(second, "red", SL_WIPE_MOSTLY_GONE, "j1");
    see_as(second, "red", SL_WIPE_GHOST, "j2");
    read_compare(-1.0);
    const sl_seen_mean *const seen = &at("powder + 6 %", "red")->seen[SL_BASIS_GRADE];
    ck_assert_int_eq(seen->n, 2);
    ck_assert_double_eq_tol(seen->mean, 0.3375, 1e-12);
    ck_assert_int_eq(at("powder + 6 %", "blue")->place, 0);
    end();
}
END_TEST

/* ---- the instrument
 * ------------------------------------------------------------------------------------------- */

/* Before: (40, 60, 30) to undyed (80, 0, 30): sqrt(1600 + 3600). After: (79, 6, 22) to undyed
 * (82, 2, 22): 5. */
START_TEST(a_share_by_the_instrument_is_not_that_of_a_hand)
{
    begin();
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_colour(swatch, "red", 0.0, 40.0, 60.0, 30.0);
    see_colour(swatch, "undyed", 0.0, 80.0, 0.0, 30.0);
    see_colour(swatch, "red", SL_NOT_READ, 79.0, 6.0, 22.0);
    see_colour(swatch, "undyed", SL_NOT_READ, 82.0, 2.0, 22.0);
    read_compare(-1.0);
    ck_assert_int_eq(compare->basis[named_zone(compare->scene, "red")], SL_BASIS_COLOUR);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_COLOUR].mean, 5.0 / sqrt(5200.0), 1e-12);
    ck_assert_double_eq_tol(sl_compare_least_sd(compare, named_zone(compare->scene, "red"), 0.5),
                            1.0 / sqrt(5200.0), 1e-12);
    end();
}
END_TEST

/* The same as above, each colour read twice about its mean. */
START_TEST(two_readings_of_a_colour_are_not_their_mean)
{
    begin();
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    for (int i = -1; i <= 1; i += 2) {
        see_colour(swatch, "red", 0.0, 40.0 + i, 60.0 - 2.0 * i, 30.0 + 3.0 * i);
        see_colour(swatch, "undyed", 0.0, 80.0 + i, 0.0, 30.0);
        see_colour(swatch, "red", SL_NOT_READ, 79.0, 6.0 + i, 22.0);
        see_colour(swatch, "undyed", SL_NOT_READ, 82.0, 2.0, 22.0 - i);
    }
    read_compare(-1.0);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_COLOUR].mean, 5.0 / sqrt(5200.0), 1e-12);
    end();
}
END_TEST

START_TEST(one_arm_is_judged_by_the_instrument_and_the_next_by_grades)
{
    begin();
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_colour(swatch, "red", 0.0, 40.0, 60.0, 30.0);
    see_colour(swatch, "undyed", 0.0, 80.0, 0.0, 30.0);
    see_colour(swatch, "red", SL_NOT_READ, 79.0, 6.0, 22.0);
    see_colour(swatch, "undyed", SL_NOT_READ, 82.0, 2.0, 22.0);
    see("powder + 6 %", 0, "red", SL_WIPE_GHOST);
    see("powder + 3 %", 0, "red", SL_WIPE_HALF);
    read_compare(-1.0);
    ck_assert_int_eq(compare->basis[named_zone(compare->scene, "red")], SL_BASIS_GRADE);
    ck_assert(at("powder + 3 %", "red")->place > 0 && at("powder + 6 %", "red")->place > 0);
    end();
}
END_TEST

START_TEST(a_share_is_taken_of_a_start_that_nobody_read)
{
    begin();
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_colour(swatch, "red", SL_NOT_READ, 79.0, 6.0, 22.0);
    see_colour(swatch, "undyed", SL_NOT_READ, 82.0, 2.0, 22.0);
    read_compare(-1.0);
    ck_assert_int_eq(at("powder + 6 %", "red")->place, 0);
    end();
}
END_TEST

/* docs/science.md: below a dE*ab of 2 at the start none is taken. The dyed zone differs from the undyed one
 * in lightness alone. */
START_TEST(a_start_that_hardly_shows_a_colour_is_divided_by)
{
    const double apart[] = {1.99, 2.0};
    for (int i = 0; i < 2; i++) {
        begin();
        const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
        see_colour(swatch, "red", 0.0, 60.0, 1.0, 3.0);
        see_colour(swatch, "undyed", 0.0, 60.0 + apart[i], 1.0, 3.0);
        see_colour(swatch, "red", SL_NOT_READ, 70.0, 1.0, 3.0);
        see_colour(swatch, "undyed", SL_NOT_READ, 70.5, 1.0, 3.0);
        read_compare(-1.0);
        ck_assert_int_eq(at("powder + 6 %", "red")->seen[SL_BASIS_COLOUR].n, i);
        if (i == 1) {
            ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_COLOUR].mean, 0.25, 1e-12);
        }
        end();
    }
}
END_TEST

/* ---- places
 * ---------------------------------------------------------------------------------------------------- */

/* Three swatches each: all "ghost only"; 0.50, 0.50, 0.80; all "no change". Blocks made alike, one scatters
 * by sqrt(0.04 / 4) = 0.1; half a step of the grades is 0.0625 at 0.10, 0.1375 - 0.025 / 6 at 0.60, 0.10
 * at 1. Of the pairs with the second t = 0.5 and 0.4 / (0.1333 sqrt(2/3)) = 4.59 and 3.67 with 4 degrees of
 * freedom, 0.010 and 0.021: after the first's, which is smaller still, twice 0.010 and once 0.021, all below
 * 0.05. */
START_TEST(arms_that_lie_apart_are_even)
{
    begin();
    for (int block = 0; block < 3; block++) {
        see("powder + 6 %", block, "red", SL_WIPE_GHOST);
        see("powder + 3 %", block, "red", block == 2 ? SL_WIPE_SLIGHT : SL_WIPE_HALF);
        see("untreated", block, "red", SL_WIPE_NO_CHANGE);
    }
    read_compare(-1.0);
    char words[24];
    const int red = named_zone(compare->scene, "red");
    ck_assert_int_eq(compare->scatter[red].freedom, 4);
    ck_assert_double_eq_tol(compare->scatter[red].sd, 0.1, 1e-12);
    ck_assert_int_eq(at("powder + 6 %", "red")->place, 1);
    ck_assert_int_eq(at("powder + 3 %", "red")->place, 2);
    ck_assert_int_eq(at("untreated", "red")->place, 3);
    sl_compare_place_words(compare, named_arm(compare->scene, "powder + 6 %"), red, words, sizeof words);
    ck_assert_str_eq(words, "1"); /* alone there */
    end();
}
END_TEST

/* Blocks that differ by 0.3 and 0.25 in both arms alike: within them nothing scatters but by steps of grades.
 */
START_TEST(what_a_block_has_in_common_hides_a_difference)
{
    static const sl_wipe one[] = {SL_WIPE_UNDYED, SL_WIPE_MOSTLY_GONE, SL_WIPE_UNDYED},
                         other[] = {SL_WIPE_HALF, SL_WIPE_SLIGHT, SL_WIPE_HALF};
    begin();
    for (int block = 0; block < 3; block++) {
        see("powder + 6 %", block, "red", one[block]);
        see("powder + 3 %", block, "red", other[block]);
    }
    read_compare(-1.0);
    ck_assert_double_lt(compare->scatter[named_zone(compare->scene, "red")].sd, 0.03);
    ck_assert_double_gt(at("powder + 3 %", "red")->seen[SL_BASIS_GRADE].sd, 0.14);
    end();
}
END_TEST

/* 0.10 and 0.25 lie one step apart: too little by steps of the grades; a difference where a floor was asked
 * for. */
START_TEST(a_difference_below_the_floor_is_no_tie)
{
    begin();
    for (int block = 0; block < 3; block++) {
        see("powder + 6 %", block, "red", SL_WIPE_GHOST);
        see("powder + 3 %", block, "red", SL_WIPE_MOSTLY_GONE);
    }
    read_compare(-1.0);
    char words[24];
    ck_assert_int_eq(at("powder + 3 %", "red")->place, 1);
    sl_compare_place_words(compare, named_arm(compare->scene, "powder + 6 %"),
                           named_zone(compare->scene, "red"), words, sizeof words);
    ck_assert_str_eq(words, "1 even");
    read_compare(0.05);
    ck_assert_int_eq(at("powder + 3 %", "red")->place, 2);
    read_compare(0.16);
    ck_assert_int_eq(at("powder + 3 %", "red")->place, 1);
    end();
}
END_TEST

START_TEST(swatches_that_all_got_one_grade_are_said_to_be_exact)
{
    begin();
    for (int block = 0; block < 3; block++) {
        see("powder + 6 %", block, "red", SL_WIPE_GHOST);
        see("powder + 3 %", block, "red", SL_WIPE_HALF);
    }
    read_compare(-1.0);
    ck_assert_double_gt(at("powder + 6 %", "red")->seen[SL_BASIS_GRADE].half, 0.06);
    ck_assert_double_gt(compare->even_below, 0.2);
    end();
}
END_TEST

START_TEST(single_swatches_are_put_in_an_order)
{
    begin();
    char words[200];
    see("powder + 6 %", 0, "red", SL_WIPE_UNDYED);
    see("untreated", 0, "red", SL_WIPE_NO_CHANGE);
    read_compare(0.01);
    ck_assert_int_eq(at("untreated", "red")->place, 1);
    sl_compare_first_words(compare, named_zone(compare->scene, "red"), words, sizeof words);
    ck_assert_str_eq(words, "In red no order can be told: one swatch shows no spread.");
    end();
}
END_TEST

/* Five times the same judge sees 0.50 and then 0.25: each pair has squares 2 * 0.125^2 = 0.03125 with
 * one degree of freedom, so the sd is sqrt(0.03125), more than half a step. */
START_TEST(the_floor_is_not_that_of_looks_that_were_repeated)
{
    static const char *const zones[] = {"red", "orange", "yellow", "green", "blue"};
    begin();
    for (int i = 0; i < 5; i++) {
        see("powder + 6 %", 0, zones[i], SL_WIPE_HALF);
        see("powder + 6 %", 0, zones[i], SL_WIPE_MOSTLY_GONE);
    }
    read_compare(-1.0);
    ck_assert_int_eq(compare->repeats, 5);
    ck_assert_double_eq_tol(sl_compare_least_sd(compare, named_zone(compare->scene, "red"), 0.4),
                            sqrt(0.03125), 1e-12);
    end();
}
END_TEST

/* ---- handling
 * --------------------------------------------------------------------------------------------------- */

/* Plain water takes dye out of hair by first order: kL per minute from the part near the surface,
 * a quarter of it from the core (docs/science.md). So the share at 30 min over that at 20 min
 * is (f q^30 w + (1-f) (q^30 w)^(1/4)) / (f q^20 w + (1-f) (q^20 w)^(1/4)), q = exp(-kL), w what rinsing and
 * washing leave of the same part. A dye of one zone alone. */
START_TEST(a_time_is_not_made_equal_by_first_order)
{
    begin();
    const int swatch = log_made_swatch(&made, "washing only", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_MIXED, swatch, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 20 * 60, NULL);
    see_as(swatch, "red", SL_WIPE_HALF, "j1");
    read_compare(-1.0);
    const sl_zone *const zone = &compare->scene->zones[named_zone(compare->scene, "red")];
    const sl_dye *const dye = &compare->scene->dyes[zone->recipe.dye[0]];
    const double f = dye->rim_share.value, q = exp(-dye->leach_per_min.value);
    double washed = 1.0; /* by every step after the first */
    const sl_arm *const arm = &compare->scene->arms[sl_scene_arm(compare->scene, "washing only")];
    for (int i = 1; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        const double water = step->kind == SL_STEP_REST ? 0.0 : compare->scene->chemistry.rinse_leach.value;
        washed *= pow(q, water * sl_step_minutes(step)) *
                  exp(step->kind == SL_STEP_SHAMPOO ? -dye->shampoo_loss.value * step->shampoos : 0.0);
    }
    const double at_30 = pow(q, 30.0) * washed, at_20 = pow(q, 20.0) * washed;
    const double ratio =
        (f * at_30 + (1.0 - f) * pow(at_30, 0.25)) / (f * at_20 + (1.0 - f) * pow(at_20, 0.25));
    ck_assert_int_eq(made.swatches[swatch].bench.dwell_s, 1800);
    ck_assert_double_lt(ratio, 0.99);
    ck_assert_double_eq_tol(compare->bench[swatch].to_planned[named_zone(compare->scene, "red")], ratio,
                            1e-7);
    ck_assert_double_eq_tol(at("washing only", "red")->at_planned[SL_BASIS_GRADE].mean, 0.5 * ratio, 1e-7);
    end();
}
END_TEST

/* Twice 20 min in plain water, and a rest between in which nothing leaves: first order as above, over the
 * sum of the times. Invented, in a file of its own. */
static void begin_twice(void)
{
    log_made_begin_text(&made, log_made_twice, NULL, 0);
}

/* One application of a mix that is planned to be five minutes old at contact. */
static void begin_aged(void)
{
    char once[sizeof log_made_twice];
    memcpy(once, log_made_twice, sizeof once);
    char *const age = strstr(once, "mix_age: 1"), *const rest = strstr(once, "      - rest");
    ck_assert(age && rest);
    age[strlen("mix_age: ")] = '5';
    *rest = '\0';
    log_made_begin_text(&made, once, NULL, 0);
}

static double of_water(const sl_dye *dye, double minutes)
{
    const double q = exp(-dye->leach_per_min.value);
    return dye->rim_share.value * pow(q, minutes) + (1.0 - dye->rim_share.value) * pow(q, minutes / 4.0);
}

START_TEST(times_of_two_applications_are_not_made_equal_by_first_order)
{
    begin_twice();
    const int swatch = log_made_swatch(&made, "twice", 0);
    ck_assert_int_eq(made.swatches[swatch].bench.dwell_s, 1200); /* to its first water, not to its last */
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 10 * 60, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60 + 20 * 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 45 * 60, NULL);
    see_as(swatch, "red", SL_WIPE_HALF, "j1");
    read_compare(-1.0);
    const sl_dye *const dye =
        &compare->scene->dyes[compare->scene->zones[named_zone(compare->scene, "red")].recipe.dye[0]];
    const sl_seen_bench *const bench = &compare->bench[swatch];
    ck_assert_int_eq(bench->n_lain, 2);
    ck_assert_double_eq_tol(bench->lain_s[0], 600.0, 1e-6);
    ck_assert_double_eq_tol(bench->lain_s[1], 1500.0, 1e-6);
    ck_assert_double_eq_tol(bench->dwell_s, 2100.0, 1e-6);
    const double ratio = of_water(dye, 40.0) / of_water(dye, 35.0);
    ck_assert_double_lt(ratio, 0.995);
    ck_assert_double_eq_tol(bench->to_planned[named_zone(compare->scene, "red")], ratio, 1e-7);
    const sl_deviation *const early = deviation_of(SL_DEVIATION_EARLY);
    ck_assert_ptr_nonnull(early);
    ck_assert_double_eq_tol(early->seconds, -300.0, 1e-6);
    end();
}
END_TEST

/* Its second mix never came: told, and made equal. */
START_TEST(an_application_that_never_came_is_passed_over)
{
    begin_twice();
    const int swatch = log_made_swatch(&made, "twice", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 20 * 60, NULL);
    see_as(swatch, "red", SL_WIPE_HALF, "j1");
    read_compare(-1.0);
    const sl_dye *const dye =
        &compare->scene->dyes[compare->scene->zones[named_zone(compare->scene, "red")].recipe.dye[0]];
    ck_assert_int_eq(compare->bench[swatch].n_lain, 1);
    ck_assert_double_eq_tol(compare->bench[swatch].to_planned[named_zone(compare->scene, "red")],
                            of_water(dye, 40.0) / of_water(dye, 20.0), 1e-7);
    const sl_deviation *const early = deviation_of(SL_DEVIATION_EARLY);
    ck_assert_ptr_nonnull(early);
    ck_assert_double_eq_tol(early->seconds, -1200.0, 1e-6);
    end();
}
END_TEST

/* The scene ends after 75 min; the swatch lay for 100. What it would have had at 20 is known all the same:
 * plain water takes by first order, rinsing the same from both. */
START_TEST(a_swatch_that_lay_on_past_the_end_of_the_scene_is_cut_off_there)
{
    begin_aged();
    const int swatch = log_made_swatch(&made, "twice", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 100 * 60, NULL);
    see_as(swatch, "red", SL_WIPE_GHOST, "j1");
    read_compare(-1.0);
    const sl_dye *const dye =
        &compare->scene->dyes[compare->scene->zones[named_zone(compare->scene, "red")].recipe.dye[0]];
    ck_assert_double_eq_tol(compare->bench[swatch].to_planned[named_zone(compare->scene, "red")],
                            of_water(dye, 20.0) / of_water(dye, 100.0), 1e-7);
    end();
}
END_TEST

static bool is_told(sl_deviation_kind kind, int swatch)
{
    for (int i = 0; i < compare->n_deviations; i++) {
        if (compare->deviations[i].kind == kind && compare->deviations[i].swatch == swatch) {
            return true;
        }
    }
    return false;
}

/* docs/science.md, "What was seen": 30 s or more off its time, either way, and 2 min or more off the planned
 * age of the mix, either way. */
START_TEST(half_a_minute_or_two_of_the_mix_are_not_told_either_way)
{
    const struct {
        int dwell_off_s, age_off_s;
        bool late, early, aged;
    } day[] = {{30, 0, true, false, false},   {29, 0, false, false, false},  {-30, 0, false, true, false},
               {-29, 0, false, false, false}, {0, 120, false, false, true},  {0, 119, false, false, false},
               {0, -120, false, false, true}, {0, -119, false, false, false}};
    for (size_t i = 0; i < sizeof day / sizeof day[0]; i++) {
        begin_aged();
        const int swatch = log_made_swatch(&made, "twice", 0);
        log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
        log_made_happens(&made, SL_EVENT_MIXED, swatch, 600, NULL);
        const int contact = 600 + 300 + day[i].age_off_s; /* planned: five minutes old */
        log_made_happens(&made, SL_EVENT_APPLIED, swatch, contact, NULL);
        log_made_happens(&made, SL_EVENT_RINSED, swatch, contact + 1200 + day[i].dwell_off_s, NULL);
        read_compare(-1.0);
        ck_assert_msg(is_told(SL_DEVIATION_LATE, swatch) == day[i].late, "late, day %zu", i);
        ck_assert_msg(is_told(SL_DEVIATION_EARLY, swatch) == day[i].early, "early, day %zu", i);
        ck_assert_msg(is_told(SL_DEVIATION_MIX_AGE, swatch) == day[i].aged, "mix, day %zu", i);
        end();
    }
}
END_TEST

START_TEST(bowls_of_several_lots_are_pooled_without_a_word)
{
    begin();
    const int first = log_made_swatch(&made, "powder + 6 %", 0),
              second = log_made_swatch(&made, "powder + 6 %", 1);
    log_made_happens(&made, SL_EVENT_NOTED, -1, 0, "bowl: powder_lot=P7");
    read_compare(-1.0);
    ck_assert_ptr_null(deviation_of(SL_DEVIATION_LOTS));
    ck_assert_ptr_null(deviation_of(SL_DEVIATION_NOTE)); /* it is no remark of anybody's */
    log_made_happens(&made, SL_EVENT_NOTED, second, 0, "bowl: powder_lot=P8");
    read_compare(-1.0);
    const sl_deviation *const lots = deviation_of(SL_DEVIATION_LOTS);
    ck_assert_ptr_nonnull(lots);
    ck_assert_int_eq(lots->swatch, first);
    ck_assert_str_eq(lots->note, "P7, P8");
    end();
}
END_TEST

/* All colour left under powder + 6 %, none after washing alone, on every swatch: no luck does that. Seen as
 * the model has them, nothing is against it. */
START_TEST(an_order_that_no_luck_makes_is_called_noise)
{
    for (int turned = 0; turned < 2; turned++) {
        begin();
        for (int block = 0; block < 3; block++) {
            see_as(log_made_swatch(&made, "powder + 6 %", block), "blue",
                   turned ? SL_WIPE_NO_CHANGE : SL_WIPE_UNDYED, "j1");
            see_as(log_made_swatch(&made, "washing only", block), "blue",
                   turned ? SL_WIPE_UNDYED : SL_WIPE_NO_CHANGE, "j1");
        }
        read_compare(-1.0);
        ck_assert_int_eq(compare->odd.pairs, 1);
        if (turned) {
            ck_assert_int_eq(compare->odd.zone, named_zone(compare->scene, "blue"));
            ck_assert_int_eq(compare->odd.arm[0], sl_scene_arm(compare->scene, "washing only"));
            ck_assert_int_eq(compare->odd.arm[1], sl_scene_arm(compare->scene, "powder + 6 %"));
            ck_assert_int_eq(sl_oddity_of(compare->odd.chance), SL_ODD_LACKS);
        } else {
            ck_assert_int_eq(compare->odd.zone, -1);
        }
        end();
    }
}
END_TEST

START_TEST(what_went_otherwise_than_planned_is_not_told)
{
    begin();
    const int first = log_made_swatch(&made, "powder + 6 %", 0),
              second = log_made_swatch(&made, "powder + 6 %", 1);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_MIXED, first, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, first, 600, NULL);
    log_made_happens(&made, SL_EVENT_NOTED, first, 700, "drip onto green");
    log_made_happens(&made, SL_EVENT_RINSED, first, 600 + 1800, NULL);
    log_made_happens(&made, SL_EVENT_MIXED, second, 540, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, second, 600, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, second, 600 + 1800 + 240, NULL);
    read_compare(-1.0);
    const sl_deviation *const age = deviation_of(SL_DEVIATION_MIX_AGE),
                              *late = deviation_of(SL_DEVIATION_LATE),
                              *unequal = deviation_of(SL_DEVIATION_UNEQUAL),
                              *note = deviation_of(SL_DEVIATION_NOTE);
    ck_assert(age && late && unequal && note);
    ck_assert_int_eq(age->swatch, first);
    ck_assert_double_eq_tol(age->seconds, 540.0, 1e-6);
    ck_assert_int_eq(late->swatch, second);
    ck_assert_double_eq_tol(late->seconds, 240.0, 1e-6);
    ck_assert_double_gt(late->factor, 1.0);
    ck_assert_double_eq_tol(unequal->seconds, 240.0, 1e-6);
    ck_assert_int_eq(note->swatch, first);
    ck_assert_str_eq(note->note, "drip onto green");
    ck_assert_ptr_null(deviation_of(SL_DEVIATION_EARLY));
    end();
}
END_TEST

/* Most against least within an arm, whichever of its swatches is the first of the log. */
START_TEST(the_first_swatch_of_a_log_is_not_the_shortest_of_its_arm)
{
    begin_twice();
    const int swatches[] = {log_made_swatch(&made, "twice", 0), log_made_swatch(&made, "twice", 1),
                            log_made_swatch(&made, "twice", 2)};
    const int lying_s[] = {1000, 1240, 1300};
    ck_assert_int_eq(swatches[0], 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    for (int i = 0; i < 3; i++) {
        log_made_happens(&made, SL_EVENT_APPLIED, swatches[i], 60 + 5000 * i, NULL);
        log_made_happens(&made, SL_EVENT_RINSED, swatches[i], 60 + 5000 * i + lying_s[i], NULL);
    }
    read_compare(-1.0);
    const sl_deviation *const unequal = deviation_of(SL_DEVIATION_UNEQUAL);
    ck_assert_ptr_nonnull(unequal);
    ck_assert_double_eq_tol(unequal->seconds, 300.0, 1e-6);
    ck_assert_int_eq(unequal->swatch, swatches[2]); /* told of the one that lay longest */
    end();
}
END_TEST

START_TEST(a_rehearsal_is_compared)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_error error = {.code = SL_OK};
    ck_assert(sl_log_open(&log, SLOWLIFT_KEPT "/rehearsal-1.db", SL_LOG_READ, NULL));
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert(!sl_compare_read(&compare, log, &test, -1.0, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_ptr_nonnull(strstr(error.found, "rehearsal"));
    sl_log_close(log);
}
END_TEST

/* Stopped; the reason is told afterwards. */
START_TEST(a_reason_told_later_is_passed_over)
{
    begin();
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    sl_event stop = {.kind = SL_EVENT_STOPPED,
                     .swatch = swatch,
                     .at = {INT64_C(360000000000), INT64_C(1795597560000000000), "one"}};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &stop, NULL, NULL));
    sl_event why = {.kind = SL_EVENT_STOPPED, .swatch = swatch, .at = stop.at, .reason = SL_REASON_EYES};
    memcpy(why.about, stop.id, sizeof why.about);
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &why, NULL, NULL));
    read_compare(-1.0);
    ck_assert_ptr_nonnull(deviation_of(SL_DEVIATION_STOPPED));
    ck_assert(deviation_of(SL_DEVIATION_STOPPED)->reason == SL_REASON_EYES);
    end();
}
END_TEST

START_TEST(a_note_or_a_reading_that_was_taken_back_counts)
{
    begin();
    sl_log_reading wrong = log_made_reading(&made, 0, "red", SL_WIPE_UNDYED), right = wrong;
    ck_assert(sl_log_add(made.log, &wrong, 1, NULL));
    snprintf(right.replaces, sizeof right.replaces, "%s", wrong.id);
    right.said[SL_SAID_GRADE] = SL_WIPE_HALF;
    ck_assert(sl_log_add(made.log, &right, 1, NULL));
    read_compare(-1.0);
    ck_assert_int_eq(compare->n_groups, 1);
    ck_assert_double_eq(compare->groups[0].left[SL_BASIS_GRADE], 0.5);
    end();
}
END_TEST

START_TEST(gummy_hair_is_passed_over)
{
    begin();
    sl_log_reading reading = log_made_reading(&made, 3, "red", SL_WIPE_HALF);
    reading.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "gummy");
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    read_compare(-1.0);
    ck_assert_ptr_nonnull(deviation_of(SL_DEVIATION_GUMMY));
    ck_assert_int_eq(deviation_of(SL_DEVIATION_GUMMY)->swatch, 3);
    ck_assert_int_eq(deviation_of(SL_DEVIATION_GUMMY)->zone, -1); /* it changes no colour */
    ck_assert_double_eq(deviation_of(SL_DEVIATION_GUMMY)->factor, 1.0);
    end();
}
END_TEST

START_TEST(a_day_later_is_not_compared_with_at_once)
{
    begin();
    sl_log_reading reading =
        log_made_reading(&made, log_made_swatch(&made, "powder + 6 %", 0), "red", SL_WIPE_HALF);
    see("powder + 6 %", 0, "red", SL_WIPE_MOSTLY_GONE);
    reading.hours_after = 24.0;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    read_compare(-1.0);
    ck_assert_int_eq(at("powder + 6 %", "red")->later.n, 1);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->later.mean, 0.25, 1e-12);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_GRADE].mean, 0.25, 1e-12);
    end();
}
END_TEST

/* ---- looks on the way
 * -------------------------------------------------------------------------------------------- */

static void see_at(const char *arm, int block, double minute, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, log_made_swatch(&made, arm, block), "red", grade);
    reading.minute = minute;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static void rank_at(int minute)
{
    ck_assert(sl_compare_rank_at(compare, minute, NULL));
}

START_TEST(looks_on_the_way_are_lost_or_not_in_the_order_of_the_clock)
{
    int minutes[3] = {-1, -1, -1};
    begin();
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_GHOST);
    see_at("powder + 6 %", 1, 4.6, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, 5.3, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 0.0, SL_WIPE_NO_CHANGE);
    see_at("powder + 6 %", 1, 61.0, SL_WIPE_GHOST);
    see("powder + 6 %", 0, "red", SL_WIPE_GHOST);
    read_compare(-1.0);
    const int arm = named_arm(compare->scene, "powder + 6 %"), zone = named_zone(compare->scene, "red");
    ck_assert_int_eq(sl_compare_minutes(compare, arm, zone, minutes, 3), 3);
    ck_assert_int_eq(minutes[0], 5);
    ck_assert_int_eq(minutes[1], 20);
    ck_assert_int_eq(minutes[2], 61);
    ck_assert_int_eq(sl_compare_minutes(compare, arm, zone, minutes, 2), 2);
    ck_assert_int_eq(minutes[1], 20);
    const sl_seen_mean five = sl_compare_at(compare, arm, zone, 5);
    ck_assert_int_eq(five.n, 2);
    ck_assert_double_eq_tol(five.mean, 0.5 * (sl_wipe_share(SL_WIPE_SLIGHT) + sl_wipe_share(SL_WIPE_HALF)),
                            1e-12);
    ck_assert_int_eq(sl_compare_minutes(compare, named_arm(compare->scene, "powder + 3 %"), zone, minutes, 3),
                     0);
    rank_at(5);
    const sl_seen_mean *const ranked = &sl_compare_arm(compare, arm, zone)->seen[SL_BASIS_GRADE];
    ck_assert_double_eq(five.mean, ranked->mean);
    ck_assert_double_eq(five.half, ranked->half);
    end();
}
END_TEST

/* An interval on the way is that of --at, whatever else scatters there. */
START_TEST(on_the_way_an_interval_has_all_scatter_pooled)
{
    begin();
    static const sl_wipe seen[2][3] = {{SL_WIPE_HALF, SL_WIPE_HALF, SL_WIPE_HALF},
                                       {SL_WIPE_SLIGHT, SL_WIPE_GHOST, SL_WIPE_UNDYED}};
    static const char *const strip[] = {"powder + 6 %", "powder + 3 %"};
    for (int i = 0; i < 6; i++) {
        see_at(strip[i / 3], i % 3, 5.0, seen[i / 3][i % 3]);
    }
    read_compare(-1.0);
    const int zone = named_zone(compare->scene, "red");
    sl_seen_mean five[2];
    for (int i = 0; i < 2; i++) {
        five[i] = sl_compare_at(compare, named_arm(compare->scene, strip[i]), zone, 5);
    }
    rank_at(5);
    for (int i = 0; i < 2; i++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, named_arm(compare->scene, strip[i]), zone);
        ck_assert_double_gt(five[i].half, 0.1); /* also where all three agree */
        ck_assert_double_eq(five[i].half, arm->seen[SL_BASIS_GRADE].half);
    }
    end();
}
END_TEST

/* ---- a minute in place of the end, ladders, rates
 * ------------------------------------------------------------ */

static const int rungs[] = {5, 10, 20, 40};

/* Three swatches each: 0.25 without spread against 0.80, 0.80, 0.50 (mean 0.70, half 4.303 * 0.1732 /
 * sqrt(3) = 0.43, from 0.27): clearly apart at minute 10; at the end all are alike. */
START_TEST(pieces_of_a_ladder_are_not_ranked_at_their_minute)
{
    log_made_begin_ladder(&made, rungs, 4);
    for (int block = 0; block < 3; block++) {
        see_at("powder + 6 %", block, 10.0, SL_WIPE_MOSTLY_GONE);
        see_at("powder + 3 %", block, 10.0, block == 2 ? SL_WIPE_HALF : SL_WIPE_SLIGHT);
        see("powder + 6 %", block, "red", SL_WIPE_GHOST);
        see("powder + 3 %", block, "red", SL_WIPE_GHOST);
    }
    read_compare(-1.0);
    ck_assert_int_eq(compare->at_min, -1);
    ck_assert_int_eq(at("powder + 3 %", "red")->place, 1);
    rank_at(10);
    const sl_seen_arm *const six = at("powder + 6 %", "red"), *const three = at("powder + 3 %", "red");
    ck_assert(six->place == 1 && three->place == 1); /* t = 0.45 / (0.129 sqrt(2/3)) = 4.27, of 2 freedoms */
    ck_assert_int_eq(three->seen[SL_BASIS_GRADE].n, 3);
    ck_assert_double_eq_tol(three->seen[SL_BASIS_GRADE].mean, 0.7, 1e-12);
    ck_assert_double_eq_tol(three->seen[SL_BASIS_GRADE].sd, sqrt(0.03), 1e-12);
    ck_assert_int_eq(three->place_at_planned, 1); /* nobody wrote down that a piece was cut off late */
    ck_assert_double_eq_tol(three->at_planned[SL_BASIS_GRADE].mean, 0.7, 1e-12);
    rank_at(5);
    ck_assert_int_eq(at("powder + 6 %", "red")->place, 0);
    rank_at(40); /* the last piece is what was seen at the end */
    ck_assert_int_eq(at("powder + 6 %", "red")->seen[SL_BASIS_GRADE].n, 3);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_GRADE].mean, 0.1, 1e-12);
    end();
}
END_TEST

/* The arm with another dwell, as `what-if` changes it. */
static double rinsed_after(const char *arm, const char *zone, double minutes)
{
    sl_changes changes = {.set = {false}};
    sl_variant *const variant = malloc(sizeof *variant);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    sl_outcome outcome;
    ck_assert(sl_changes_set(&changes, compare->scene, named_arm(compare->scene, arm), SL_SETTING_DWELL,
                             minutes, NULL));
    sl_variant_make(variant, compare->scene, named_arm(compare->scene, arm), &changes);
    ck_assert(sl_outcome_of(&outcome, &variant->scene, 0, &timeline, solver, NULL));
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    free(variant);
    return outcome.left[named_zone(compare->scene, zone)];
}

/* The scene's own dwell is 30 min. */
START_TEST(the_model_of_a_piece_is_not_of_hair_that_lay_so_long_and_was_rinsed)
{
    log_made_begin_ladder(&made, rungs, 4);
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_MOSTLY_GONE);
    see("powder + 6 %", 0, "red", SL_WIPE_GHOST);
    read_compare(-1.0);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->predicted, rinsed_after("powder + 6 %", "red", 40.0),
                            1e-9);
    rank_at(10);
    const double piece = at("powder + 6 %", "red")->predicted;
    ck_assert_double_eq_tol(piece, rinsed_after("powder + 6 %", "red", 10.0), 1e-9);
    const int arm = named_arm(compare->scene, "powder + 6 %"), zone = named_zone(compare->scene, "red");
    sl_cell under;
    sl_timeline_at(compare->timeline, arm, zone, compare->scene->arms[arm].contact_min + 10.0, NULL, &under);
    ck_assert_double_lt(piece, under.colour_left - 0.01);
    end();
}
END_TEST

START_TEST(the_model_of_a_wiped_look_is_not_of_hair_under_the_mix)
{
    begin();
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_MOSTLY_GONE);
    read_compare(-1.0);
    rank_at(10);
    ck_assert_int_eq(at("powder + 6 %", "red")->place, 1);
    ck_assert(at("powder + 6 %", "red")->place_at_planned == 0 && !sl_compare_has_planned(compare));
    ck_assert_double_eq(at("powder + 6 %", "red")->predicted,
                        sl_compare_model_at(compare, named_arm(compare->scene, "powder + 6 %"),
                                            named_zone(compare->scene, "red"), 10.0));
    end();
}
END_TEST

/* 5, 10, 20 min with 0.8, 0.5, 0.25 left. Through the known start: (5 ln 1.25 + 10 ln 2 + 20 ln 4) /
 * (25 + 100 + 400) = 35.7731 / 525. With a free start, about the means 35/3 and ln 10 / 3: (35.7731 - 35 ln
 * 10 / 3) / (525 - 35 * 35 / 3) = 8.9096 / 116.667. */
START_TEST(a_rate_is_not_the_slope_of_its_line)
{
    const double minute[] = {5.0, 10.0, 20.0}, left[] = {0.8, 0.5, 0.25}, none[] = {0.8, 0.5, 0.0};
    const double once[] = {7.0, 7.0, 7.0};
    double exact[3], k = 0.0;
    ck_assert(sl_rate_of(SL_START_KNOWN, minute, left, 3, &k));
    ck_assert_double_eq_tol(k, 35.7731 / 525.0, 1e-6);
    ck_assert(sl_rate_of(SL_START_FITTED, minute, left, 3, &k));
    ck_assert_double_eq_tol(k, 8.9096 / 116.6667, 1e-5);
    for (int i = 0; i < 3; i++) {
        exact[i] = 0.85 * exp(-0.07 * minute[i]);
    }
    ck_assert(sl_rate_of(SL_START_FITTED, minute, exact, 3, &k));
    ck_assert_double_eq_tol(k, 0.07, 1e-14);
    ck_assert(!sl_rate_of(SL_START_KNOWN, minute, none, 3, &k)); /* nothing has no logarithm */
    ck_assert(!sl_rate_of(SL_START_FITTED, once, left, 3, &k));
    ck_assert(!sl_rate_of(SL_START_KNOWN, minute, left, 1, &k));
}
END_TEST

static sl_rate rate_of(const char *arm, const char *zone)
{
    sl_rate *rates = NULL;
    ck_assert(sl_compare_rates(&rates, compare, NULL));
    const sl_rate rate =
        rates[named_arm(compare->scene, arm) * compare->scene->n_zones + named_zone(compare->scene, zone)];
    sl_free(rates);
    return rate;
}

static double slope_of(sl_line_start start, double five, double ten, double twenty)
{
    const double minute[] = {5.0, 10.0, 20.0}, left[] = {five, ten, twenty};
    double k = 0.0;
    ck_assert(sl_rate_of(start, minute, left, 3, &k));
    return k;
}

/* Rinsing and washing take the same part of every piece, so that the slope of pieces is that of hair
 * under the mix; by the model within 5 % (measured: 2 %). A start of 1 would make washing a speed. */
START_TEST(what_washing_takes_counts_as_speed)
{
    static const char *const arms[] = {"powder + 3 %", "powder + 6 %", "lightener + 6 %"};
    log_made_begin_ladder(&made, rungs, 4);
    read_compare(-1.0);
    for (int i = 0; i < 3; i++) {
        const int arm = named_arm(compare->scene, arms[i]), zone = named_zone(compare->scene, "blue");
        const double *const start = &compare->scene->arms[arm].contact_min;
        double under[3], piece[3];
        for (int k = 0; k < 3; k++) {
            sl_cell cell;
            sl_timeline_at(compare->timeline, arm, zone, *start + rungs[k], NULL, &cell);
            under[k] = cell.colour_left;
            piece[k] = rinsed_after(arms[i], "blue", rungs[k]);
        }
        const double mix = slope_of(SL_START_KNOWN, under[0], under[1], under[2]);
        const double free_start = slope_of(SL_START_FITTED, piece[0], piece[1], piece[2]);
        ck_assert_double_eq_tol(free_start, mix, 0.05 * mix);
        ck_assert_double_gt(slope_of(SL_START_KNOWN, piece[0], piece[1], piece[2]), 1.1 * mix);
    }
    end();
}
END_TEST

/* Two swatches with three times each, a third with two. t(0.975; 1) = 12.706 (the same table). */
START_TEST(a_rate_of_an_arm_is_not_the_mean_over_its_swatches)
{
    log_made_begin_ladder(&made, rungs, 4);
    see_at("powder + 6 %", 0, 5.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_MOSTLY_GONE);
    see("powder + 6 %", 0, "red", SL_WIPE_UNDYED); /* 40 min: no logarithm */
    see_at("powder + 6 %", 1, 5.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 1, 10.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 1, 20.0, SL_WIPE_GHOST);
    see_at("powder + 6 %", 2, 5.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 2, 5.2, SL_WIPE_HALF); /* one time */
    see_at("powder + 6 %", 2, 10.0, SL_WIPE_HALF);
    read_compare(-1.0);
    const sl_rate rate = rate_of("powder + 6 %", "red");
    const double one = slope_of(SL_START_FITTED, 0.8, 0.5, 0.25),
                 two = slope_of(SL_START_FITTED, 0.8, 0.8, 0.1);
    ck_assert_int_eq(rate.per_min.n, 2);
    ck_assert_int_eq(rate.left_out, 1);
    ck_assert_double_eq_tol(rate.per_min.mean, 0.5 * (one + two), 1e-12);
    ck_assert_double_eq_tol(rate.per_min.half, 12.706 * 0.5 * fabs(one - two), 1e-4);
    const double model =
        slope_of(SL_START_FITTED, rinsed_after("powder + 6 %", "red", 5.0),
                 rinsed_after("powder + 6 %", "red", 10.0), rinsed_after("powder + 6 %", "red", 20.0));
    ck_assert_double_eq_tol(rate.model_per_min, model, 1e-9);
    ck_assert_int_eq(rate_of("powder + 6 %", "blue").per_min.n, 0);
    end();
}
END_TEST

/* The rest of a ladder counts at the minutes that the clock kept: 36 and not 40. */
START_TEST(the_last_piece_counts_at_its_planned_minute_though_the_clock_knows_better)
{
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 36 * 60, NULL);
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_MOSTLY_GONE);
    see("powder + 6 %", 0, "red", SL_WIPE_GHOST);
    read_compare(-1.0);
    const sl_rate rate = rate_of("powder + 6 %", "red");
    ck_assert_int_eq(rate.per_min.n, 1);
    const double minute[] = {10.0, 20.0, 36.0}, left[] = {0.5, 0.25, 0.1};
    double k = 0.0;
    ck_assert(sl_rate_of(SL_START_FITTED, minute, left, 3, &k));
    ck_assert_double_eq_tol(rate.per_min.mean, k, 1e-12);
    end();
}
END_TEST

/* The clock kept 7 min for the piece of 5; that of 10 was on time. */
START_TEST(a_piece_that_was_cut_off_late_counts_at_its_planned_minute_or_is_passed_over)
{
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 + 7 * 60, NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 + 10 * 60 + 12, NULL);
    see_at("powder + 6 %", 0, 5.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_MOSTLY_GONE);
    read_compare(-1.0);
    const double times[] = {7.0, 10.2, 20.0}, left[] = {0.8, 0.5, 0.25};
    double k = 0.0;
    ck_assert(sl_rate_of(SL_START_FITTED, times, left, 3, &k));
    ck_assert_double_eq_tol(rate_of("powder + 6 %", "red").per_min.mean, k, 1e-12);
    ck_assert_int_eq(compare->n_deviations, 1);
    const sl_deviation *const late = deviation_of(SL_DEVIATION_PIECE);
    ck_assert(late && late->swatch == swatch && late->piece_min == 5);
    ck_assert_double_eq_tol(late->seconds, 120.0, 1e-9);
    rank_at(5);
    const sl_seen_arm *const five = at("powder + 6 %", "red");
    ck_assert_double_eq_tol(five->seen[SL_BASIS_GRADE].mean, 0.8, 1e-12);
    ck_assert_double_eq_tol(
        five->at_planned[SL_BASIS_GRADE].mean,
        0.8 * rinsed_after("powder + 6 %", "red", 5.0) / rinsed_after("powder + 6 %", "red", 7.0), 1e-8);
    rank_at(20);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->at_planned[SL_BASIS_GRADE].mean, 0.25, 1e-12);
    char words[200];
    sl_deviation_words(compare, late, words, sizeof words);
    ck_assert_ptr_nonnull(strstr(words, ": the piece for 5 min was cut off late by 2 min."));
    end();
}
END_TEST

/* Sixty days in plain water leave less than a millionth of a direct dye: what that was at its planned minute
 * cannot be told from it, and no ratio is taken. */
START_TEST(a_ratio_is_taken_of_a_colour_that_is_gone)
{
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "washing only", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 + 60 * 86400, NULL);
    see_at("washing only", 0, 5.0, SL_WIPE_GHOST);
    read_compare(-1.0);
    rank_at(5);
    ck_assert_double_eq(compare->bench[swatch].piece_to_planned[named_zone(compare->scene, "red")], 1.0);
    ck_assert_double_eq_tol(at("washing only", "red")->at_planned[SL_BASIS_GRADE].mean,
                            sl_wipe_share(SL_WIPE_GHOST), 1e-12);
    end();
}
END_TEST

/* After looks under the mix the end is another thing: rinsed and washed. */
START_TEST(what_was_seen_after_washing_is_a_point_of_a_rate_under_the_mix)
{
    begin();
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_MOSTLY_GONE);
    see("powder + 6 %", 0, "red", SL_WIPE_GHOST);
    read_compare(-1.0);
    ck_assert_int_eq(rate_of("powder + 6 %", "red").per_min.n, 0);
    end();
}
END_TEST

START_TEST(looks_under_the_mix_do_not_start_at_all_the_colour)
{
    begin();
    see_at("powder + 6 %", 0, 5.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 0, 20.0, SL_WIPE_MOSTLY_GONE);
    read_compare(-1.0);
    ck_assert_double_eq_tol(rate_of("powder + 6 %", "red").per_min.mean,
                            slope_of(SL_START_KNOWN, 0.8, 0.5, 0.25), 1e-12);
    end();
}
END_TEST

/* From the first minute on; what was seen in the same minute is one time. */
START_TEST(the_first_minute_is_no_time_or_two_looks_in_one_are_two)
{
    for (int i = 0; i < 2; i++) {
        begin();
        see_at("powder + 6 %", 0, i == 0 ? 1.0 : 4.8, SL_WIPE_SLIGHT);
        see_at("powder + 6 %", 0, 5.2, SL_WIPE_HALF);
        see_at("powder + 6 %", 0, 10.0, SL_WIPE_MOSTLY_GONE);
        read_compare(-1.0);
        ck_assert_int_eq(rate_of("powder + 6 %", "red").per_min.n, i == 0 ? 1 : 0);
        end();
    }
}
END_TEST

/* ln 2 / 0.1 = 6.93; ln 2 / 0.14 = 4.95, ln 2 / 0.06 = 11.55: rounded outwards. */
START_TEST(a_time_stands_without_a_range)
{
    static const struct {
        double mean, half;
        const char *words;
    } rates[] = {{0.1, 0.04, "7 min (4-12)"},  {0.1, 0.0, "7 min (6-7)"},  {0.1, 0.2, "2 min or more"},
                 {0.1, -1.0, "no range"},      {2.0, 0.5, "1 min (0-1)"},  {-0.2, 0.1, "does not leave"},
                 {0.0, 0.0, "does not leave"}, {0.0, 0.1, "6 min or more"}};
    char words[48];
    for (size_t i = 0; i < sizeof rates / sizeof rates[0]; i++) {
        const sl_seen_mean mean = {.n = 3, .mean = rates[i].mean, .half = rates[i].half};
        sl_half_life_words(&mean, words, sizeof words);
        ck_assert_str_eq(words, rates[i].words);
    }
}
END_TEST

/* Nobody measured anything at the end: the instrument's pieces decide the basis. */
START_TEST(pieces_that_an_instrument_read_are_not_ranked)
{
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_colour(swatch, "red", 0.0, 40.0, 60.0, 30.0);
    see_colour(swatch, "undyed", 0.0, 80.0, 0.0, 30.0);
    see_colour(swatch, "red", 10.0, 79.0, 6.0, 22.0);
    see_colour(swatch, "undyed", 10.0, 82.0, 2.0, 22.0);
    read_compare(-1.0);
    ck_assert_int_eq(compare->basis[named_zone(compare->scene, "red")], SL_BASIS_COLOUR);
    rank_at(10);
    ck_assert_double_eq_tol(at("powder + 6 %", "red")->seen[SL_BASIS_COLOUR].mean, 5.0 / sqrt(5200.0), 1e-12);
    end();
}
END_TEST

/* ---- judges
 * ------------------------------------------------------------------------------------------------------ */

START_TEST(kappa_is_known_where_chance_cannot_disagree)
{
    static const double alike[4] = {7, 0, 0, 0}, apart[4] = {0, 1, 1, 0}, full[4] = {3, 0, 0, 4};
    double kappa = 0.0, error = 0.0;
    ck_assert(!sl_kappa(alike, apart, 2, &kappa, &error));
    ck_assert(sl_kappa(full, apart, 2, &kappa, &error));
    ck_assert_double_eq(kappa, 1.0);
    ck_assert_double_eq(error, 0.0);
}
END_TEST

/* Of every two looks at one swatch by j1 one is a step lower, j2 sees a step more than j1 began with. */
START_TEST(who_looked_is_not_told_one_by_one)
{
    static const char *const zones[] = {"red", "orange", "yellow", "green", "blue", "violet"};
    begin();
    for (int i = 0; i < 6; i++) {
        const int swatch = log_made_swatch(&made, "powder + 6 %", i % 3);
        see_as(swatch, zones[i], SL_WIPE_MOSTLY_GONE, "j1");
        see_as(swatch, zones[i], SL_WIPE_GHOST, "j1");
        see_as(swatch, zones[i], SL_WIPE_HALF, "j2");
    }
    see_as(log_made_swatch(&made, "powder + 3 %", 0), "red", SL_WIPE_HALF, "j3");
    see_as(log_made_swatch(&made, "powder + 6 %", 1), "red", SL_WIPE_HALF, "j1");
    read_compare(-1.0);
    const sl_seen_judge *const judge = compare->judge;
    ck_assert_int_eq(compare->n_judges, 3);
    ck_assert_str_eq(judge[1].code, "j2");
    ck_assert(judge[0].looks == 13 && judge[0].again == 6 && judge[1].looks == 6 && judge[1].again == 0);
    ck_assert(judge[0].learned && !judge[1].learned && !judge[0].is.lapse);
    ck_assert_double_gt(judge[0].is.judge.spread, SL_JUDGE_USUAL.spread);
    ck_assert_double_eq(judge[1].is.judge.spread, SL_JUDGE_USUAL.spread);
    ck_assert(judge[1].is.judge.offset > 0.02 && judge[1].offset_half > 0.0 && judge[1].offset_half < 0.2);
    ck_assert_double_eq_tol(judge[0].is.judge.offset, -judge[1].is.judge.offset, 1e-9);
    ck_assert_double_eq(judge[2].offset_half, -1.0);
    ck_assert(compare->n_pairs == 1 && compare->pairs[0].one == 0 && compare->pairs[0].other == 1);
    ck_assert(compare->pairs[0].of.pairs == 6 && compare->pairs[0].of.equal == 0);
    ck_assert_double_eq(compare->pairs[0].of.table[SL_WIPE_MOSTLY_GONE][SL_WIPE_HALF], 6.0);
    sl_scatter scatter;
    ck_assert(sl_scatter_of(&scatter, compare) && scatter.by_grade);
    ck_assert_double_eq_tol(scatter.judge.spread, judge[0].is.judge.spread, 1e-12);
    ck_assert_double_eq(scatter.judge.offset, 0.0);
    end();
}
END_TEST

START_TEST(the_chances_of_grades_are_not_told_beside_the_means)
{
    begin();
    for (int block = 0; block < 3; block++) {
        see("powder + 6 %", block, "red", SL_WIPE_UNDYED);
        see("washing only", block, "red", SL_WIPE_NO_CHANGE);
        see("powder + 3 %", block, "red", SL_WIPE_MOSTLY_GONE);
    }
    read_compare(-1.0);
    const int red = named_zone(compare->scene, "red");
    const int low = sl_scene_arm(compare->scene, "powder + 6 %"),
              high = sl_scene_arm(compare->scene, "washing only");
    const sl_by_order *const least = &at("powder + 6 %", "red")->by_order;
    const sl_by_order *const most = &at("washing only", "red")->by_order;
    ck_assert(sl_compare_before_by_order(compare, red, low, high) &&
              !sl_compare_before_by_order(compare, red, high, low));
    ck_assert(least->left <= 0.0 && least->low <= 0.0 && least->high > 0.0 && least->place == 1);
    ck_assert(most->left >= 1.0 && most->low < 1.0 && most->high >= 1.0 && most->place > 1);
    ck_assert_double_eq(at("powder + water", "red")->by_order.left, SL_NOT_READ);
    ck_assert_int_eq(at("powder + water", "red")->by_order.place, 0);
    end();
}
END_TEST

START_SUITE("compare")
ADD(a_mean_or_its_interval_is_not_that_of_a_hand_and_a_table)
ADD(one_swatch_shows_a_spread)
ADD(judges_or_looks_of_one_swatch_count_as_swatches)
ADD(a_share_by_the_instrument_is_not_that_of_a_hand)
ADD(two_readings_of_a_colour_are_not_their_mean)
ADD(one_arm_is_judged_by_the_instrument_and_the_next_by_grades)
ADD(a_share_is_taken_of_a_start_that_nobody_read)
ADD(a_start_that_hardly_shows_a_colour_is_divided_by)
ADD(arms_that_lie_apart_are_even)
ADD(what_a_block_has_in_common_hides_a_difference)
ADD(a_difference_below_the_floor_is_no_tie)
ADD(swatches_that_all_got_one_grade_are_said_to_be_exact)
ADD(single_swatches_are_put_in_an_order)
ADD(the_floor_is_not_that_of_looks_that_were_repeated)
ADD(a_time_is_not_made_equal_by_first_order)
ADD(times_of_two_applications_are_not_made_equal_by_first_order)
ADD(an_application_that_never_came_is_passed_over)
ADD(a_swatch_that_lay_on_past_the_end_of_the_scene_is_cut_off_there)
ADD(half_a_minute_or_two_of_the_mix_are_not_told_either_way)
ADD(bowls_of_several_lots_are_pooled_without_a_word)
ADD(an_order_that_no_luck_makes_is_called_noise)
ADD(what_went_otherwise_than_planned_is_not_told)
ADD(the_first_swatch_of_a_log_is_not_the_shortest_of_its_arm)
ADD(a_rehearsal_is_compared)
ADD(a_reason_told_later_is_passed_over)
ADD(a_note_or_a_reading_that_was_taken_back_counts)
ADD(gummy_hair_is_passed_over)
ADD(a_day_later_is_not_compared_with_at_once)
ADD(looks_on_the_way_are_lost_or_not_in_the_order_of_the_clock)
ADD(on_the_way_an_interval_has_all_scatter_pooled)
ADD(pieces_of_a_ladder_are_not_ranked_at_their_minute)
ADD(the_model_of_a_piece_is_not_of_hair_that_lay_so_long_and_was_rinsed)
ADD(the_model_of_a_wiped_look_is_not_of_hair_under_the_mix)
ADD(a_rate_is_not_the_slope_of_its_line)
ADD(what_washing_takes_counts_as_speed)
ADD(looks_under_the_mix_do_not_start_at_all_the_colour)
ADD(a_rate_of_an_arm_is_not_the_mean_over_its_swatches)
ADD(the_last_piece_counts_at_its_planned_minute_though_the_clock_knows_better)
ADD(a_piece_that_was_cut_off_late_counts_at_its_planned_minute_or_is_passed_over)
ADD(a_ratio_is_taken_of_a_colour_that_is_gone)
ADD(what_was_seen_after_washing_is_a_point_of_a_rate_under_the_mix)
ADD(the_first_minute_is_no_time_or_two_looks_in_one_are_two)
ADD(a_time_stands_without_a_range)
ADD(pieces_that_an_instrument_read_are_not_ranked)
ADD(kappa_is_known_where_chance_cannot_disagree)
ADD(who_looked_is_not_told_one_by_one)
ADD(the_chances_of_grades_are_not_told_beside_the_means)
END_SUITE
