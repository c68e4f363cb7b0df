/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a comparison says in words, sentence by sentence: its numbers are set by hand, so that each stands
 * alone.
 */
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/compare_page.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;
static sl_compare *compare;
static char text[1200];
static int red;

static void set_up(void)
{
    sl_log_test test;
    log_made_begin(&made);
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, -1.0, NULL));
    red = -1;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        red = strcmp(compare->scene->zones[z].name, "red") == 0 ? z : red;
    }
    ck_assert_int_ge(red, 0);
}

static void tear_down(void)
{
    sl_compare_free(compare);
    compare = NULL;
    log_made_end(&made);
}

static sl_seen_arm *arm_of(int arm)
{
    return &compare->arms[arm * compare->scene->n_zones + red];
}

/* So many swatches with this mean were seen of an arm, and it came to this place. */
static void saw(int arm, int n, double mean, double half, int place)
{
    arm_of(arm)->seen[compare->basis[red]] = (sl_seen_mean){.n = n, .mean = mean, .sd = 0.1, .half = half};
    arm_of(arm)->place = arm_of(arm)->place_at_planned = place;
}

static void says(const char *wanted)
{
    ck_assert_msg(strcmp(text, wanted) == 0, "\"%s\", not \"%s\"", text, wanted);
}

static void holds(const char *wanted)
{
    ck_assert_msg(strstr(text, wanted) != NULL, "\"%s\" in \"%s\"", wanted, text);
}

START_TEST(each_thing_that_went_otherwise_has_a_sentence)
{
    const struct {
        sl_deviation what;
        const char *says;
    } rows[] = {
        {{.kind = SL_DEVIATION_LATE, .seconds = 90.0, .zone = -1}, "HP5 was rinsed late by 1:30 min."},
        {{.kind = SL_DEVIATION_EARLY, .seconds = -120.0, .zone = -1}, "HP5 was rinsed early by 2 min."},
        {{.kind = SL_DEVIATION_LATE, .seconds = 120.0, .zone = red, .factor = 1.3},
         "HP5 was rinsed late by 2 min; by the model the planned time would have left 1.3 times as much in "
         "red."},
        {{.kind = SL_DEVIATION_MIX_AGE, .seconds = 300.0, .zone = -1},
         "HP5: the mix was 5 min older at contact than planned."},
        {{.kind = SL_DEVIATION_MIX_AGE, .seconds = -300.0, .zone = -1},
         "HP5: the mix was 5 min fresher at contact than planned."},
        {{.kind = SL_DEVIATION_LABEL, .zone = -1}, "HP5 lay longer than its label's time."},
        {{.kind = SL_DEVIATION_STOPPED, .zone = -1, .reason = SL_REASON_SKIN},
         "HP5 was stopped and rinsed: "},
        {{.kind = SL_DEVIATION_STOPPED, .zone = -1, .swatch = -1, .reason = SL_REASON_SKIN},
         "the test was stopped and rinsed: "},
        {{.kind = SL_DEVIATION_CLOCKS, .zone = -1},
         "HP5: two clocks disagreed about its time; the longer one was taken."},
        {{.kind = SL_DEVIATION_UNEQUAL, .seconds = 180.0, .zone = -1}, "lay for unequal times, 3 min apart."},
        {{.kind = SL_DEVIATION_PIECE, .seconds = 60.0, .piece_min = 10, .zone = -1},
         "HP5: the piece for 10 min was cut off late by 1 min."},
        {{.kind = SL_DEVIATION_PIECE, .seconds = -60.0, .piece_min = 10, .zone = -1},
         "HP5: the piece for 10 min was cut off early by 1 min."},
        {{.kind = SL_DEVIATION_GUMMY, .zone = -1},
         "HP5 was gummy or broke: a reason to stop, whatever the colour does."},
        {{.kind = SL_DEVIATION_NOTE, .zone = -1, .note = "a drip"}, "HP5, noted: \"a drip\"."},
        {{.kind = SL_DEVIATION_NOTE, .zone = -1, .remark = SL_REMARK_WARM},
         "HP5, noted: \"it feels warm\"."}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sl_deviation_words(compare, &rows[i].what, text, sizeof text);
        holds(rows[i].says);
    }
}
END_TEST

START_TEST(who_came_first_is_told_only_where_it_can_be)
{
    saw(2, 1, 0.30, -1.0, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("In red only \"");
    holds("was seen; it left 30 % of the colour.");
    saw(3, 1, 0.40, -1.0, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    says("In red no order can be told: one swatch shows no spread.");
    saw(2, 3, 0.30, 0.1, 1);
    saw(3, 3, 0.32, 0.1, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    says("In red no arm came clearly before another: all tie.");
    saw(4, 3, 0.70, 0.05, 3);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("In red these tie for the first place: \"");
    holds("\", \"");
    saw(3, 3, 0.60, 0.05, 2);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("came first and left 30 % (20-40) of the colour.");
    sl_compare_place_words(compare, 4, red, text, sizeof text);
    says("3");
    arm_of(3)->place = 1;
    sl_compare_place_words(compare, 3, red, text, sizeof text);
    says("1 tie");
}
END_TEST

START_TEST(a_mean_stays_between_none_and_all_and_one_swatch_has_no_range)
{
    const struct {
        sl_seen_mean mean;
        const char *says;
    } rows[] = {{{.n = 0}, "not seen"},
                {{.n = 1, .mean = 0.31, .half = -1.0}, "31 %"},
                {{.n = 3, .mean = 0.31, .half = 0.1}, "31 % (21-41)"},
                {{.n = 3, .mean = 0.05, .half = 0.2}, "5 % (0-25)"},
                {{.n = 3, .mean = 0.95, .half = 0.2}, "95 % (75-100)"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sl_seen_mean_words(&rows[i].mean, text, sizeof text);
        says(rows[i].says);
    }
}
END_TEST

START_TEST(what_is_too_close_to_tell_says_where_that_comes_from)
{
    compare->asked_floor = 0.05;
    sl_compare_floor_words(compare, red, text, sizeof text);
    says("Two means less than 5 points of 100 apart tie (as asked).");
    compare->asked_floor = -1.0;
    compare->basis[red] = SL_BASIS_COLOUR;
    sl_compare_floor_words(compare, red, text, sizeof text);
    holds("By the instrument: ");
    compare->basis[red] = SL_BASIS_GRADE;
    compare->repeat_sd = 0.1;
    compare->repeats = 6;
    sl_compare_floor_words(compare, red, text, sizeof text);
    holds("(from 6 looks again)");
    compare->repeat_sd = -1.0;
    sl_compare_floor_words(compare, red, text, sizeof text);
    holds("too few looks were repeated");
}
END_TEST

START_TEST(times_that_were_off_are_counted_and_what_they_change_is_named)
{
    static sl_deviation two[2] = {{.kind = SL_DEVIATION_LATE}, {.kind = SL_DEVIATION_EARLY}};
    sl_compare_page page = {.compare = compare, .only = -1};
    sl_deviation *const kept = compare->deviations;
    const int n = compare->n_deviations;
    compare->deviations = two;
    compare->n_deviations = 0;
    saw(2, 3, 0.3, 0.1, 1);
    saw(3, 3, 0.6, 0.1, 2);
    sl_compare_handling_words(&page, text, sizeof text);
    says("No swatch is known to have been rinsed off its time.");
    compare->n_deviations = 1;
    sl_compare_handling_words(&page, text, sizeof text);
    says("1 swatch was rinsed off its time; made equal by the model, the first places stay.");
    compare->n_deviations = 2;
    arm_of(3)->place_at_planned = 1;
    sl_compare_handling_words(&page, text, sizeof text);
    says("2 swatches were rinsed off their times; made equal by the model, the first place changes in red.");
    page.only = red == 0 ? 1 : 0; /* of another zone nothing is shown */
    sl_compare_handling_words(&page, text, sizeof text);
    holds("the first places stay.");
    compare->deviations = kept;
    compare->n_deviations = n;
}
END_TEST

/* ---- a minute in place of the end, and rates ------------------------------------------------------------
 */

START_TEST(a_minute_that_is_ranked_says_what_was_looked_at_then)
{
    sl_compare_page page = {.compare = compare, .only = -1};
    compare->at_min = 10;
    ck_assert(!sl_compare_at_words(&page, text, sizeof text)); /* nothing was */
    sl_compare_no_look_words(&page, text, sizeof text);
    says("Nobody looked at minute 10, nor at any other before the end.");
    saw(2, 3, 0.3, 0.1, 1);
    ck_assert(sl_compare_at_words(&page, text, sizeof text));
    holds("looks at hair wiped under the mix, and the model's number under the mix");
    page.only = red == 0 ? 1 : 0;
    ck_assert(!sl_compare_at_words(&page, text, sizeof text));
}
END_TEST

START_TEST(a_half_life_is_rounded_outwards_and_ends_where_nothing_leaves)
{
    const struct {
        double mean, half;
        const char *says;
    } rows[] = {{0.1, -1.0, "no range"},
                {-0.1, 0.05, "does not leave"},
                {0.1, 0.2, "2 min or more"},
                {0.1, 0.02, "7 min (5-9)"},
                {3.0, 1.0, "1 min (0-1)"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const sl_seen_mean rate = {.n = 3, .mean = rows[i].mean, .half = rows[i].half};
        sl_half_life_words(&rate, text, sizeof text);
        says(rows[i].says);
    }
    const struct {
        double per_min;
        const char *says;
    } models[] = {{SL_NOT_READ, "-"},
                  {0.0, "does not leave"},
                  {1e-5, "over a day"},
                  {0.1, "about 7 min"},
                  {5.0, "about 1 min"}};
    for (size_t i = 0; i < sizeof models / sizeof models[0]; i++) {
        const sl_rate rate = {.model_per_min = models[i].per_min};
        sl_model_half_life_words(&rate, text, sizeof text);
        says(models[i].says);
    }
}
END_TEST

START_TEST(rates_say_how_they_are_meant_and_what_was_left_out)
{
    const int cells = compare->scene->n_arms * compare->scene->n_zones;
    sl_rate *const rates = sl_new((size_t)cells, sizeof *rates, "testing", NULL);
    sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
    sl_rates_words(&page, text, sizeof text);
    holds("least squares from all the colour at contact");
    ck_assert_ptr_null(strstr(text, "left out"));
    rates[red].left_out = 1;
    sl_rates_words(&page, text, sizeof text);
    holds(" 1 look \"as undyed\" is left out");
    rates[red].left_out = 2;
    sl_rates_words(&page, text, sizeof text);
    holds(" 2 looks \"as undyed\" are left out");
    page.only = red == 0 ? 1 : 0;
    sl_rates_words(&page, text, sizeof text);
    ck_assert_ptr_null(strstr(text, "left out"));
    ck_assert_ptr_null(sl_compare_page_rate(&page, 0, red));
    page.only = red;
    ck_assert_ptr_null(sl_compare_page_rate(&page, 0, red)); /* of no swatch */
    rates[red].per_min.n = 1;
    ck_assert_ptr_eq(sl_compare_page_rate(&page, 0, red), &rates[red]);
    page.rates = NULL;
    ck_assert_ptr_null(sl_compare_page_rate(&page, 0, red));
    sl_free(rates);
}
END_TEST

START_SUITE("compare words")
FIXTURE(set_up, tear_down)
ADD(each_thing_that_went_otherwise_has_a_sentence)
ADD(who_came_first_is_told_only_where_it_can_be)
ADD(a_mean_stays_between_none_and_all_and_one_swatch_has_no_range)
ADD(what_is_too_close_to_tell_says_where_that_comes_from)
ADD(times_that_were_off_are_counted_and_what_they_change_is_named)
CASE("ladders")
FIXTURE(set_up, tear_down)
ADD(a_minute_that_is_ranked_says_what_was_looked_at_then)
ADD(a_half_life_is_rounded_outwards_and_ends_where_nothing_leaves)
ADD(rates_say_how_they_are_meant_and_what_was_left_out)
END_SUITE
