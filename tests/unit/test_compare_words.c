/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a comparison says in words, sentence by sentence: its numbers are set by hand, so that each stands
 * alone.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "document/renderers.h"
#include "log/compare/compare_page.h"
#include "log_made.h"
#include "report/plan/plan.h"
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
static void observation(int arm, int n, double mean, double half, int place)
{
    arm_of(arm)->seen[compare->basis[red]] = (sl_seen_mean){.n = n, .mean = mean, .sd = 0.1, .half = half};
    arm_of(arm)->place = arm_of(arm)->place_at_planned = place;
    compare->scatter[red].freedom += n > 1 ? n - 1 : 0;
    compare->scatter[red].sd = 0.1;
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
         "HP5 was rinsed late by 2 min. By the model what was planned would have left 1.3 times as much in "
         "red."},
        {{.kind = SL_DEVIATION_EARLY, .seconds = -120.0, .zone = red, .factor = 0.8749},
         "HP5 was rinsed early by 2 min. By the model what was planned would have left 0.87 times as much in "
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

START_TEST(strips_that_lay_unequally_or_had_several_lots_are_not_called_as_everywhere)
{
    sl_error error = {.code = SL_OK};
    const sl_deviation_kind kinds[] = {SL_DEVIATION_UNEQUAL, SL_DEVIATION_LOTS};
    ck_assert(sl_language_use("es", "locale", &error));
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const sl_deviation what = {
            .kind = kinds[i], .swatch = log_made_swatch(&made, "powder + 6 %", 0), .zone = -1, .factor = 1.0};
        sl_deviation_words(compare, &what, text, sizeof text);
        holds("\"polvo + 6 %\"");
    }
}
END_TEST

START_TEST(who_came_first_is_told_only_where_it_can_be)
{
    observation(2, 1, 0.30, -1.0, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("In red only \"");
    holds("was seen; it left 30 % of the colour.");
    observation(3, 1, 0.40, -1.0, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    says("In red no order can be told: one swatch shows no spread.");
    observation(2, 3, 0.30, 0.1, 1);
    observation(3, 3, 0.32, 0.1, 1);
    sl_compare_first_words(compare, red, text, sizeof text);
    says("In red no strip came clearly before another: all are even.");
    observation(4, 3, 0.70, 0.05, 3);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("In red these are even in the first place: \"");
    holds("\", \"");
    observation(3, 3, 0.60, 0.05, 2);
    sl_compare_first_words(compare, red, text, sizeof text);
    holds("came first and left 30 % (20-40) of the colour.");
    sl_compare_place_words(compare, 4, red, text, sizeof text);
    says("3");
    arm_of(3)->place = 1;
    sl_compare_place_words(compare, 3, red, text, sizeof text);
    says("1 even");
}
END_TEST

START_TEST(an_order_that_every_test_may_show_is_told_as_at_most_all_of_them)
{
    const double chances[] = {1.0, 0.996, 0.99, 0.02};
    for (int i = 0; i < 4; i++) {
        compare->odd = (sl_odd_order){.zone = red, .arm = {0, 1}, .pairs = 1, .chance = chances[i]};
        ck_assert(sl_compare_odd_words(compare, text, sizeof text));
        holds("Against the model, \"untreated\" left less of \"red\" than \"washing only\". ");
        ck_assert_msg((strstr(text, "In at most") == NULL) == (i < 2), "%s", text);
        holds(i < 3 ? "That is ordinary noise." : "That is rare.");
    }
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

/* By place, and within a place by what is left. */
START_TEST(of_arms_that_tie_the_one_with_more_left_is_told_first)
{
    int order[SL_MAX_ARMS];
    observation(2, 3, 0.40, 0.1, 1);
    observation(3, 3, 0.30, 0.1, 1);
    observation(4, 3, 0.20, 0.1, 2);
    observation(5, 3, 0.35, 0.1, 1);
    ck_assert_int_eq(sl_compare_order(compare, red, order), 4);
    ck_assert(order[0] == 3 && order[1] == 5 && order[2] == 2 && order[3] == 4);
}
END_TEST

START_TEST(what_is_too_close_to_tell_says_where_that_comes_from)
{
    compare->scatter[red].freedom = 4;
    compare->scatter[red].sd = 0.07;
    compare->asked_floor = 0.05;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    says("A swatch scatters by 7 points of 100 about its strip and round; two means less than 5 apart are "
         "even (as "
         "asked).");
    compare->asked_floor = -1.0;
    compare->basis[red] = SL_BASIS_COLOUR;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    holds("By the instrument: ");
    compare->basis[red] = SL_BASIS_GRADE;
    compare->repeat_sd = 0.1;
    compare->repeats = 6;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    holds("the 10 by which a judge's looks at the same scatter (6 looked again)");
    compare->repeat_sd = -1.0;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    holds("counts as no less than half a step of the grades.");
    compare->scatter[red].freedom = 0;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    says("No strip was repeated here: nothing tells luck from a difference.");
}
END_TEST

START_TEST(times_that_were_off_are_counted_and_what_they_change_is_named)
{
    static sl_deviation two[3] = {{.kind = SL_DEVIATION_LATE, .swatch = 0},
                                  {.kind = SL_DEVIATION_EARLY, .swatch = 1},
                                  {.kind = SL_DEVIATION_MIX_AGE, .swatch = 1}};
    sl_compare_page page = {.compare = compare, .only = -1};
    sl_deviation *const kept = compare->deviations;
    const int n = compare->n_deviations;
    compare->deviations = two;
    compare->n_deviations = 0;
    observation(2, 3, 0.3, 0.1, 1);
    observation(3, 3, 0.6, 0.1, 2);
    sl_compare_handling_words(&page, text, sizeof text);
    says("No swatch is known to have gone off its plan in time, mix or wait.");
    compare->n_deviations = 1;
    sl_compare_handling_words(&page, text, sizeof text);
    says("1 swatch went off its plan in time, mix or wait; made equal by the model, the first places stay.");
    compare->n_deviations = 2;
    arm_of(3)->place_at_planned = 1;
    sl_compare_handling_words(&page, text, sizeof text);
    says("2 swatches went off their plans in time, mix or wait; made equal by the model, the first place "
         "changes in red.");
    compare->n_deviations = 3; /* an old mix of the second, which counts once */
    sl_compare_handling_words(&page, text, sizeof text);
    holds("2 swatches went off their plans in time, mix or wait;");
    for (int i = 0; i < 3; i++) {
        two[i].zone = -1; /* nothing that the model tells */
    }
    arm_of(3)->place_at_planned = 2;
    sl_compare_handling_words(&page, text, sizeof text);
    says("2 swatches went off their plans in time, mix or wait; the model tells of no change by that, and "
         "nothing was made equal.");
    two[2].zone = red;
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
    observation(2, 3, 0.3, 0.1, 1);
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
    } rows[] = {{0.1, -1.0, "no range"},         {-0.1, 0.05, "does not leave"},
                {0.1, 0.2, "2 min or more"},     {0.1, 0.02, "7 min (5-9)"},
                {3.0, 1.0, "1 min (0-1)"},       {0.1, 0.0, "7 min (6-7)"}, /* a range of nothing is one */
                {-0.05, 0.05, "does not leave"}, {0.05, 0.05, "6 min or more"}};
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
                  {log(2.0) / 1440.0, "about 1440 min"}, /* a day, and not over one */
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

/* Of one arm pieces were cut off, another was wiped. */
START_TEST(a_minute_of_pieces_and_of_looks_is_told_as_one_of_them)
{
    sl_compare_page page = {.compare = compare, .only = -1};
    compare->at_min = 10;
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->swatches[i].bench.ladder = compare->bench[i].arm == 2;
    }
    observation(2, 3, 0.3, 0.1, 1);
    ck_assert(sl_compare_at_words(&page, text, sizeof text));
    says("Ranked is not the end but minute 10: pieces that were cut off and rinsed then. The model's number "
         "is "
         "of hair that lay so long and was then rinsed as planned.");
    observation(3, 3, 0.4, 0.1, 1);
    ck_assert(sl_compare_at_words(&page, text, sizeof text));
    says("Ranked is not the end but minute 10: pieces that were cut off and rinsed then, and looks at hair "
         "wiped "
         "under the mix.");
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->swatches[i].bench.ladder = false;
    }
}
END_TEST

/* ---- pages --------------------------------------------------------------------------------------------- */

static char *page_text;

static bool put_text(FILE *out, const sl_compare_page *page, int width)
{
    sl_document document;
    sl_compare_say(&document, page, NULL);
    return sl_document_print(out, &document, &(sl_terminal){.width = width, .depth = SL_SCIENCE});
}

/* Columns stand two blanks apart, however wide they are. */
static void squeeze(char *lines)
{
    char *to = lines;
    for (const char *at = lines; *at != '\0'; at++) {
        if (*at != ' ' || to - lines < 2 || to[-1] != ' ' || to[-2] != ' ') {
            *to++ = *at;
        }
    }
    *to = '\0';
}

static void put_page(const sl_compare_page *page)
{
    size_t length = 0;
    free(page_text);
    page_text = NULL;
    FILE *const out = open_memstream(&page_text, &length);
    ck_assert(out && put_text(out, page, 10000)); /* so wide that no sentence is broken */
    ck_assert_int_eq(fclose(out), 0);
    squeeze(page_text);
}

static int times(const char *wanted)
{
    int n = 0;
    for (const char *at = strstr(page_text, wanted); at; at = strstr(at + 1, wanted)) {
        n++;
    }
    return n;
}

static void stands(const char *wanted, int how_often)
{
    ck_assert_msg(times(wanted) == how_often, "%d times \"%s\" in:\n%s", times(wanted), wanted, page_text);
}

/* The cells of an arm's row: right-aligned in columns of 17, 17, 17 and 10. */
static void row_stands(int arm, const char *seen, const char *planned, const char *model,
                       const char *swatches)
{
    char row[300];
    snprintf(row, sizeof row, "  %s%s%s  %s  %s\n", seen, planned ? "  " : "", planned ? planned : "", model,
             swatches);
    const char *const name = strstr(page_text, compare->scene->arms[arm].name);
    ck_assert_ptr_nonnull(name);
    stands(row, 1);
}

static void tear_down_page(void)
{
    free(page_text);
    page_text = NULL;
    tear_down();
}

START_TEST(a_page_of_nothing_says_less_or_more_than_that)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    put_page(&page);
    stands("Nothing was looked at yet at the end: there is nothing to compare.", 1);
    stands("Nobody looked at minute", 0);
    stands("No swatch is known", 0);
    stands("Otherwise than planned", 0);
    compare->at_min = 10;
    put_page(&page);
    stands("Nobody looked at minute 10, nor at any other before the end.", 1);
    stands("Nothing was looked at yet", 0);
    stands("Ranked is not the end", 0);
}
END_TEST

/* A minute under the mix: nothing is taken to a planned time, and what follows the end is not told. */
START_TEST(a_page_of_a_minute_holds_what_belongs_to_the_end)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    observation(2, 3, 0.30, 0.1, 1);
    arm_of(2)->at_planned[compare->basis[red]] =
        (sl_seen_mean){.n = 3, .mean = 0.35, .sd = 0.1, .half = 0.05};
    arm_of(2)->predicted = 0.25;
    arm_of(2)->later = (sl_seen_mean){.n = 1, .mean = 0.1, .sd = -1.0, .half = -1.0};
    put_page(&page);
    row_stands(2, "30 % (20-40)", "35 % (30-40)", "25 %", "3");
    stands("No swatch is known to have gone off its plan in time, mix or wait.", 1);
    stands("Looked at again after hours: +10 points of 100", 1);
    stands("At planned time: what was seen", 1);
    compare->at_min = 10;
    arm_of(2)->predicted = SL_NOT_READ;
    put_page(&page);
    row_stands(2, "30 % (20-40)", NULL, "-", "3");
    stands("Ranked is not the end but minute 10", 1);
    stands("No swatch is known", 0);
    stands("Looked at again", 0);
    stands("planned time", 0);
}
END_TEST

/* ln 2 / 0.1 = 6.93; ln 2 / 0.12 = 5.78, ln 2 / 0.08 = 8.66; ln 2 / 0.05 = 13.9. */
START_TEST(a_page_tells_no_rates_or_tells_them_of_arms_that_have_none)
{
    const int cells = compare->scene->n_arms * compare->scene->n_zones;
    sl_rate *const rates = sl_new((size_t)cells, sizeof *rates, "testing", NULL);
    sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
    observation(2, 3, 0.3, 0.1, 1);
    put_page(&page);
    stands("How fast in", 0);
    stands("As if the same part left every minute", 0);
    stands("Two judges", 0);
    rates[2 * compare->scene->n_zones + red] =
        (sl_rate){.per_min = {.n = 3, .mean = 0.1, .sd = 0.01, .half = 0.02}, .model_per_min = 0.05};
    rates[3 * compare->scene->n_zones + red] =
        (sl_rate){.per_min = {.n = 1, .mean = 0.1, .sd = -1.0, .half = -1.0}, .model_per_min = SL_NOT_READ};
    compare->judges = (sl_agreement){.pairs = 4, .equal = 3};
    put_page(&page);
    stands("\nHow fast in red, by looks at three times or more\n", 1);
    stands("How fast in", 1);
    row_stands(2, "7 min (5-9)", NULL, "about 14 min", "3");
    row_stands(3, "no range", NULL, "-", "1");
    stands("least squares from all the colour at contact", 1);
    stands("Two judges gave the same grade in 75 of 100 looks (4 pairs).", 1);
    compare->swatches[0].bench.ladder = true;
    put_page(&page);
    stands("the start is left free", 1);
    stands("all the colour at contact", 0);
    compare->swatches[0].bench.ladder = false;
    page.only = red == 0 ? 1 : 0;
    put_page(&page);
    stands("How fast in", 0);
    sl_free(rates);
}
END_TEST

START_TEST(a_page_lists_more_than_a_page_s_worth_of_what_went_otherwise)
{
    static sl_deviation all[26];
    const sl_compare_page page = {.compare = compare, .only = -1};
    sl_deviation *const kept = compare->deviations;
    const int n = compare->n_deviations;
    compare->deviations = all;
    for (int i = 0; i < 26; i++) {
        all[i] = (sl_deviation){.kind = SL_DEVIATION_NOTE, .zone = -1, .note = "a drip"};
    }
    for (compare->n_deviations = 24; compare->n_deviations <= 26; compare->n_deviations++) {
        put_page(&page);
        stands("\nOtherwise than planned\n", 1);
        stands(" - HP5, noted: \"a drip\".\n", 24);
        stands("and 1 more (--json has them all)", compare->n_deviations == 25);
        stands("and 2 more (--json has them all)", compare->n_deviations == 26);
    }
    compare->deviations = kept;
    compare->n_deviations = n;
}
END_TEST

START_TEST(a_judge_is_told_of_whom_nothing_is_known)
{
    static sl_seen_judge judge[1] = {
        {.code = "j1", .is = {.judge = {0.06, 0.12, 0.02}}, .offset_half = -1.0}};
    sl_seen_judge *const kept = compare->judge;
    compare->judge = judge;
    ck_assert(!sl_compare_judge_words(compare, 0, text, sizeof text));
    judge->offset_half = 0.08;
    ck_assert(!sl_compare_judge_words(compare, 0, text, sizeof text));
    judge->offset_half = 0.04;
    ck_assert(sl_compare_judge_words(compare, 0, text, sizeof text));
    says("j1 sees +0.3 steps of the grades against the mean of these judges (+0.1 to +0.5); looked again too "
         "seldom to tell how it errs.");
    judge->learned = true;
    judge->again = 14;
    judge->is.spread_low = 0.08;
    judge->is.spread_high = 0.2;
    ck_assert(sl_compare_judge_words(compare, 0, text, sizeof text));
    says("j1 sees +0.3 steps of the grades against the mean of these judges (+0.1 to +0.5) and errs by 0.6 "
         "(0.4 "
         "to 1.0, of 14 looks again).");
    judge->offset_half = -1.0;
    ck_assert(sl_compare_judge_words(compare, 0, text, sizeof text));
    says("j1 errs by 0.6 steps of the grades (0.4 to 1.0, of 14 looks again).");
    compare->judge = kept;
}
END_TEST

START_TEST(means_and_chances_of_grades_part_without_a_word)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    const int n = compare->scene->n_arms, first = red * n * n;
    observation(2, 3, 0.3, 0.1, 1);
    compare->basis[red] = SL_BASIS_GRADE;
    ck_assert(!sl_compare_otherwise_words(&page, text, sizeof text));
    compare->before[first + 1] = compare->before_by_order[first + 1] = true;
    ck_assert(!sl_compare_otherwise_words(&page, text, sizeof text));
    compare->before[first + 2] = compare->before[first + 3] = compare->before_by_order[first + n] = true;
    ck_assert(sl_compare_otherwise_words(&page, text, sizeof text));
    says("Pairs of strips told apart by means alone: 2; by the order of their grades alone: 1 (in red). "
         "Places "
         "are those of means.");
    compare->basis[red] = SL_BASIS_COLOUR;
    ck_assert(!sl_compare_otherwise_words(&page, text, sizeof text));
}
END_TEST

START_TEST(one_grade_after_the_model_was_shown_is_told_as_several)
{
    compare->n_graded = 13;
    ck_assert(!sl_compare_uncovered_words(compare, text, sizeof text));
    compare->n_uncovered = 1;
    ck_assert(sl_compare_uncovered_words(compare, text, sizeof text));
    holds("Of 13 grades 1 was given after what the model says of that swatch had been shown. It counts; ");
    compare->n_uncovered = 2;
    ck_assert(sl_compare_uncovered_words(compare, text, sizeof text));
    holds("Of 13 grades 2 were given after what the model says of that swatch had been shown. They count; ");
}
END_TEST

START_TEST(judges_or_looks_after_hours_are_counted_otherwise)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    compare->judges = (sl_agreement){.pairs = 4, .equal = 3};
    ck_assert(sl_compare_judges_words(compare, text, sizeof text));
    says("Two judges gave the same grade in 75 of 100 looks (4 pairs).");
    compare->judges.known = true;
    compare->judges.kappa = 0.5;
    ck_assert(sl_compare_judges_words(compare, text, sizeof text));
    holds("(4 pairs; weighted kappa 0.50: ");
    ck_assert(!sl_compare_later_words(&page, text, sizeof text));
    for (int arm = 2; arm < 5; arm++) {
        observation(arm, 3, 0.3, 0.1, 1);
    }
    arm_of(2)->later =
        (sl_seen_mean){.n = 3, .mean = 0.10, .sd = 0.1, .half = 0.05}; /* from 5: clearly more */
    arm_of(3)->later = (sl_seen_mean){.n = 3, .mean = 0.02, .sd = 0.1, .half = 0.05};
    arm_of(4)->later =
        (sl_seen_mean){.n = 1, .mean = 0.30, .sd = -1.0, .half = -1.0}; /* one shows no spread */
    ck_assert(sl_compare_later_words(&page, text, sizeof text));
    says("Looked at again after hours: +14 points of 100 of colour left on average over 3 pairs of strip and "
         "zone; "
         "clearly more colour than at once in 1 of them.");
}
END_TEST

START_TEST(what_swatches_could_not_show_is_not_that_of_the_arm_with_the_fewest)
{
    sl_promise promise = {.graded = 0.69, .read = 0.2};
    sl_compare_page of = {.compare = compare, .only = -1};
    observation(2, 3, 0.3, 0.1, 1);
    observation(3, 2, 0.3, 0.1, 1);
    observation(4, 4, 0.3, 0.1, 1);
    compare->even_below = 0.43;
    compare->asked_floor = -1.0;
    sl_compare_unseen_words(&of, text, sizeof text);
    says("With 2 swatches each, scattering as these did, differences below 43 points of 100 look even.");
    compare->asked_floor = 0.5;
    sl_compare_unseen_words(&of, text, sizeof text);
    holds("differences below 50 points");
    of.promise = &promise;
    compare->basis[red] = SL_BASIS_GRADE;
    sl_compare_unseen_words(&of, text, sizeof text);
    holds("A plan of this size promises to tell about 69 points in 8 of 10 such tests.");
    compare->basis[red] = SL_BASIS_COLOUR;
    sl_compare_unseen_words(&of, text, sizeof text);
    holds("about 20 points");
    promise.read = -1.0;
    sl_compare_unseen_words(&of, text, sizeof text);
    holds("promises to tell no difference");
    compare->even_below = -1.0;
    sl_compare_unseen_words(&of, text, sizeof text);
    holds("One swatch of a strip shows no spread");
}
END_TEST

/* The test's own words, by hand. */
START_TEST(a_page_begins_with_another_test_or_its_columns_stand_elsewhere)
{
    static const char *const names[] = {"a", "it is twenty-nine long, or so"};
    const sl_compare_page page = {.compare = compare, .only = -1};
    char head[200], row[200];
    snprintf(compare->test.made, sizeof compare->test.made, "%s", "2026-11-25T14:05:30+01:00");
    snprintf(compare->test.id, sizeof compare->test.id, "%s", "01234567-89ab-4cde-8f01-23456789abcd");
    snprintf(compare->test.title, sizeof compare->test.title, "%s", "A title of ours");
    snprintf(head, sizeof head,
             "What was seen: \"A title of ours\"\n"
             " test 01234567 of 2026-11-25, scene eight-arms, by op-1, %d swatches\n"
             "\nTo be read aloud\n",
             compare->n_swatches);
    for (int a = 0; a < compare->scene->n_arms; a++) {
        compare->scene->arms[a].name = "b";
    }
    observation(0, 3, 0.30, 0.1, 2);
    arm_of(0)->predicted = 0.25;
    arm_of(0)->at_planned[compare->basis[red]] =
        (sl_seen_mean){.n = 3, .mean = 0.35, .sd = 0.1, .half = 0.05};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        compare->scene->arms[0].name = names[i];
        put_page(&page);
        ck_assert_msg(strncmp(page_text, head, strlen(head)) == 0, "%s", page_text);
        stands("\nred\n place  strip  colour left  at planned time  model says  swatches\n", 1);
        snprintf(row, sizeof row, "\n 2  %s  30 %% (20-40)  35 %% (30-40)  25 %%  3\n", names[i]);
        stands(row, 1);
    }
}
END_TEST

/* One zone or two: each has its sentence, its table and its rates; rates alone have one foot. */
START_TEST(a_page_of_two_zones_is_of_one_or_holds_a_thing_twice)
{
    const int n_zones = compare->scene->n_zones, first = red;
    const int second = red == 0 ? 1 : 0;
    const int cells = compare->scene->n_arms * n_zones;
    sl_rate *const rates = sl_new((size_t)cells, sizeof *rates, "testing", NULL);
    sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
    char sentence[160], heading[120], table[60];
    for (int z = 0; z < 2; z++) {
        red = z == 0 ? first : second;
        observation(2, 3, 0.30, 0.1, 1);
        observation(3, 3, 0.60, 0.1, 2);
        for (int a = 2; a < 4; a++) {
            rates[a * n_zones + red] =
                (sl_rate){.per_min = {.n = 3, .mean = 0.1, .sd = 0.01, .half = 0.02}, .model_per_min = 0.05};
        }
    }
    red = first;
    for (int only = -1; only < n_zones; only++) {
        int shown = 0;
        page.only = only;
        put_page(&page);
        for (int z = 0; z < n_zones; z++) {
            const char *const name = compare->scene->zones[z].name;
            const bool there = (z == first || z == second) && (only < 0 || only == z);
            snprintf(sentence, sizeof sentence,
                     " In %s \"%s\" came first and left 30 %% (20-40) of the colour.\n", name,
                     compare->scene->arms[2].name);
            snprintf(heading, sizeof heading, "\nHow fast in %s, by looks at three times or more\n", name);
            snprintf(table, sizeof table, "\n\n%s\n place  strip", name);
            stands(sentence, there);
            stands(heading, there);
            stands(table, there);
            shown += there ? 1 : 0;
        }
        stands("60 % (50-70)", shown);
        stands("halves every", shown);
        stands("7 min (5-9)", 2 * shown);
        stands("least squares", shown > 0);
        stands("Two means less than one step", 0);
        stands("By wipe grades: a swatch scatters by", shown);
        stands("Nothing was looked at yet", shown == 0);
        stands("No swatch is known", shown > 0);
        stands("Each number is a mean over swatches", 1);
        stands("\nOf the model\n", 1);
    }
    sl_free(rates);
}
END_TEST

/* A stream that is full, and one that is not. */
START_TEST(a_page_that_was_not_written_is_told_as_one_that_was)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    observation(2, 3, 0.30, 0.1, 1);
    for (int full = 0; full < 2; full++) {
        bool (*const put[])(FILE * out, const sl_export *export, const void *of) = {sl_export_csv,
                                                                                    sl_export_json};
        for (int kind = 0; kind < 3; kind++) {
            FILE *const out = fopen(full ? "/dev/full" : "/dev/null", "w");
            ck_assert_ptr_nonnull(out);
            setvbuf(out, NULL, _IONBF, 0);
            ck_assert(full ==
                      (kind < 2 ? !put[kind](out, &sl_compare_export, &page) : !put_text(out, &page, 80)));
            fclose(out);
        }
    }
}
END_TEST

START_TEST(a_number_of_the_words_is_another_at_its_edge)
{
    const struct {
        sl_seen_mean mean;
        const char *says;
    } rows[] = {{{.n = 1, .mean = 0.0, .half = -1.0}, "0 %"},
                {{.n = 1, .mean = 1.0, .half = -1.0}, "100 %"},
                {{.n = 2, .mean = 0.31, .half = 0.0}, "31 % (31-31)"},
                {{.n = 1, .mean = 1.2, .half = -1.0}, "100 %"},
                {{.n = 1, .mean = -0.2, .half = -1.0}, "0 %"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sl_seen_mean_words(&rows[i].mean, text, sizeof text);
        says(rows[i].says);
    }
    /* three of 2,000 are 0.15 of 100, which rounds to none; of 10 pairs 7 */
    compare->judges = (sl_agreement){.pairs = 2000, .equal = 3};
    ck_assert(sl_compare_judges_words(compare, text, sizeof text));
    says("Two judges gave the same grade in 0 of 100 looks (2000 pairs).");
    compare->judges = (sl_agreement){.pairs = 1, .equal = 1};
    ck_assert(sl_compare_judges_words(compare, text, sizeof text));
    says("Two judges gave the same grade in 100 of 100 looks (1 pair).");
    compare->judges.pairs = 0;
    ck_assert(!sl_compare_judges_words(compare, text, sizeof text));
    /* an asked floor of nothing is one */
    compare->scatter[red].freedom = 1;
    compare->scatter[red].sd = 0.0;
    compare->asked_floor = 0.0;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    says("A swatch scatters by 0 points of 100 about its strip and round; two means less than 0 apart are "
         "even (as "
         "asked).");
    /* one look again and again, and none */
    compare->asked_floor = -1.0;
    compare->repeat_sd = 0.0;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    says("By wipe grades: a swatch scatters by 0 points of 100 about its strip and round, and counts as no "
         "less "
         "than half a step of the grades.");
    compare->repeat_sd = 0.05;
    compare->repeats = 7;
    sl_compare_scatter_words(compare, red, text, sizeof text);
    says("By wipe grades: a swatch scatters by 0 points of 100 about its strip and round, and counts as no "
         "less "
         "than half a step of the grades, or the 5 by which a judge's looks at the same scatter (7 looked "
         "again).");
}
END_TEST

/* The change of a day: no more colour where the interval holds none, or one swatch shows none. */
START_TEST(a_change_after_hours_is_counted_that_is_none)
{
    const sl_compare_page page = {.compare = compare, .only = -1};
    for (int arm = 2; arm < 5; arm++) {
        observation(arm, 3, 0.3, 0.1, 1);
    }
    arm_of(2)->later = (sl_seen_mean){.n = 2, .mean = 0.10, .sd = 0.1, .half = 0.10};
    ck_assert(sl_compare_later_words(&page, text, sizeof text));
    says("Looked at again after hours: +10 points of 100 of colour left in 1 pair of strip and zone; clearly "
         "more colour than at once in 0.");
    arm_of(3)->later = (sl_seen_mean){.n = 2, .mean = -0.30, .sd = 0.0, .half = 0.0};
    ck_assert(sl_compare_later_words(&page, text, sizeof text));
    says("Looked at again after hours: -10 points of 100 of colour left on average over 2 pairs of strip and "
         "zone; clearly more colour than at once in 0 of them.");
    arm_of(4)->later = (sl_seen_mean){.n = 2, .mean = 0.05, .sd = 0.0, .half = 0.0};
    ck_assert(sl_compare_later_words(&page, text, sizeof text));
    says("Looked at again after hours: -5 points of 100 of colour left on average over 3 pairs of strip and "
         "zone; clearly more colour than at once in 1 of them.");
}
END_TEST

/* docs/science.md: half a step of the grades (observation.h: 1.00, 0.80, 0.50, 0.25, 0.10 and 0; at a grade
 * the mean of the steps beside it, a line between), or the scatter of one judge's two looks; 0 where a floor
 * was asked for. */
START_TEST(a_scatter_counts_as_less_than_half_a_step)
{
    static const struct {
        double left, step;
    } steps[] = {{-0.01, 0.10}, {0.0, 0.10},     {0.05, 0.1125}, {0.10, 0.125},  {0.175, 0.1625},
                 {0.25, 0.20},  {0.375, 0.2375}, {0.50, 0.275},  {0.65, 0.2625}, {0.80, 0.25},
                 {0.90, 0.225}, {1.0, 0.20},     {1.1, 0.20}};
    compare->basis[red] = SL_BASIS_GRADE;
    compare->asked_floor = -1.0;
    for (double sd = -1.0; sd < 0.5; sd += 1.0) { /* nobody looked twice, or always gave the same */
        compare->repeat_sd = sd;
        for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
            ck_assert_double_eq_tol(sl_compare_least_sd(compare, red, steps[i].left), 0.5 * steps[i].step,
                                    1e-12);
        }
    }
    compare->repeat_sd = 0.15;
    ck_assert_double_eq_tol(sl_compare_least_sd(compare, red, 0.3), 0.15, 1e-12);
    compare->asked_floor = 0.07;
    ck_assert_double_eq(sl_compare_least_sd(compare, red, 0.3), 0.0);
    compare->asked_floor = -1.0;
    compare->basis[red] = SL_BASIS_COLOUR;
    ck_assert_double_eq(sl_compare_least_sd(compare, red, 0.3), 0.0); /* the instrument read nothing */
}
END_TEST

/* A dwell of half a minute is one, and of a second less is none. */
START_TEST(a_planned_dwell_is_not_rounded_to_the_nearest_minute)
{
    static const int seconds[][2] = {{29, 0}, {30, 1}, {89, 1}, {90, 2}, {1800, 30}};
    const int arm = compare->bench[1].arm;
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->bench[i].arm = i == 1 ? arm : -1;
    }
    for (size_t i = 0; i < sizeof seconds / sizeof seconds[0]; i++) {
        compare->swatches[1].bench.dwell_s = seconds[i][0];
        compare->swatches[1].bench.n_more = 0;
        ck_assert_int_eq(sl_compare_dwell_min(compare, arm), seconds[i][1]);
    }
    ck_assert_int_eq(sl_compare_dwell_min(compare, arm == 0 ? 1 : 0), 0);
}
END_TEST

/* ---- what lies behind -----------------------------------------------------------------------------------
 */

enum { FORMS = 3 };

static char *form_of(const sl_compare_page *page, int which)
{
    char *bytes = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&bytes, &length);
    ck_assert_ptr_nonnull(out);
    ck_assert(which == 0   ? put_text(out, page, 10000)
              : which == 1 ? sl_export_csv(out, &sl_compare_export, page)
                           : sl_export_json(out, &sl_compare_export, page));
    ck_assert_int_eq(fclose(out), 0);
    return bytes;
}

/* Seen at the end and hours later, first by what was seen and not by the planned time. */
static const sl_seen_arm loud = {
    .seen = {{.n = 2, .mean = 0.1, .sd = 0.1, .half = 0.05}, {.n = 2, .mean = 0.1, .sd = 0.1, .half = 0.05}},
    .at_planned = {{.n = 2, .mean = 0.9, .sd = 0.1, .half = 0.05},
                   {.n = 2, .mean = 0.9, .sd = 0.1, .half = 0.05}},
    .later = {.n = 2, .mean = 0.5, .sd = 0.1, .half = 0.05},
    .predicted = 0.4,
    .place = 1,
    .place_at_planned = 2};
static const sl_rate loud_rate = {
    .per_min = {.n = 2, .mean = 0.1, .sd = 0.01, .half = 0.02}, .model_per_min = 0.05, .left_out = 9};

/* Whether everything was seen of the last arm or nothing: where the scene has it, a page is another one, and
 * where it has one arm less, the same. At the end, and at a minute at which only that arm has pieces. */
START_TEST(an_arm_behind_the_last_is_told)
{
    const int n_arms = compare->scene->n_arms, n_zones = compare->scene->n_zones, last = n_arms - 1;
    sl_rate *const rates = sl_new((size_t)(n_arms * n_zones), sizeof *rates, "testing", NULL);
    sl_deviation late = {.kind = SL_DEVIATION_LATE, .zone = -1}, *const kept = compare->deviations;
    const int n_kept = compare->n_deviations;
    const sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
    ck_assert(n_arms > 4 && rates);
    compare->deviations = &late;
    compare->n_deviations = 1;
    compare->pooled_sd = 0.1;
    observation(2, 3, 0.3, 0.1, 1);
    observation(3, 3, 0.6, 0.1, 2);
    arm_of(3)->later = (sl_seen_mean){.n = 3, .mean = 0.1, .sd = 0.1, .half = 0.3};
    rates[2 * n_zones + red] = loud_rate;
    for (int at_min = -1; at_min <= 10; at_min += 11) {
        compare->at_min = at_min;
        for (int which = 0; which < FORMS; which++) {
            for (int fewer = 0; fewer < 2; fewer++) {
                char *page_of[2];
                compare->scene->n_arms = n_arms - fewer;
                for (int all = 0; all < 2; all++) {
                    for (int z = 0; z < n_zones; z++) {
                        compare->arms[last * n_zones + z] = all ? loud : (sl_seen_arm){.predicted = -1.0};
                        rates[last * n_zones + z] = all ? loud_rate : (sl_rate){.left_out = 0};
                    }
                    for (int i = 0; i < compare->n_swatches; i++) {
                        compare->swatches[i].bench.ladder = all && compare->bench[i].arm == last;
                    }
                    page_of[all] = form_of(&page, which);
                }
                ck_assert_msg((strcmp(page_of[0], page_of[1]) == 0) == (fewer == 1), "%d, %d, %d", at_min,
                              which, fewer);
                free(page_of[0]);
                free(page_of[1]);
            }
        }
    }
    compare->scene->n_arms = n_arms;
    compare->deviations = kept;
    compare->n_deviations = n_kept;
    sl_free(rates);
}
END_TEST

START_TEST(a_zone_behind_the_last_is_told)
{
    const int n_arms = compare->scene->n_arms, n_zones = compare->scene->n_zones;
    sl_rate *const rates = sl_new((size_t)(n_arms * n_zones), sizeof *rates, "testing", NULL);
    const sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
    ck_assert(n_zones > 1 && rates);
    compare->scene->zones[n_zones - 1].name = "behind";
    for (int i = 0; i < n_arms * n_zones; i++) {
        compare->arms[i] = loud;
        rates[i] = loud_rate;
    }
    for (int at_min = -1; at_min <= 10; at_min += 11) {
        compare->at_min = at_min;
        for (int which = 0; which < FORMS; which++) {
            for (int fewer = 0; fewer < 2; fewer++) {
                compare->scene->n_zones = n_zones - fewer;
                char *const told = form_of(&page, which);
                ck_assert_msg((strstr(told, "behind") == NULL) == (fewer == 1), "%d, %d, %d", at_min, which,
                              fewer);
                free(told);
            }
        }
    }
    compare->scene->n_zones = n_zones;
    sl_free(rates);
}
END_TEST

/* One swatch tells nothing whatever reads it; of several, the plan says so with its scatter. */
START_TEST(what_no_plan_can_tell_is_said_with_its_swatches)
{
    sl_promise promise = {.blocks = 1, .spread = 0.05, .graded = -1.0, .read = -1.0};
    sl_promise_words(&promise, text, sizeof text);
    ck_assert_str_eq(text, "Nothing: with one swatch of each, luck and mix cannot be told apart.");
    promise.blocks = 3;
    promise.spread = 0.4;
    sl_promise_words(&promise, text, sizeof text);
    ck_assert_msg(strncmp(text, "3 swatches of each strip tell no difference in 8 of 10 such tests", 65) == 0,
                  "%s", text);
    ck_assert_msg(strstr(text, "40 points. That is assumed") != NULL, "%s", text);
}
END_TEST

/* Grades too coarse to show less than is assumed are not said to have shown it. */
START_TEST(a_scatter_that_was_raised_to_what_is_assumed_is_told_as_seen)
{
    sl_promise promise = {
        .blocks = 3, .spread = SL_SWATCH_SPREAD, .spread_given = true, .spread_freedom = 6, .by_grade = true};
    sl_promise_words(&promise, text, sizeof text);
    ck_assert_msg(strstr(text, "That is assumed: grades in the log show no more, by 6 degrees of freedom") &&
                      !strstr(text, "show that"),
                  "%s", text);
    promise.spread = 0.08;
    sl_promise_words(&promise, text, sizeof text);
    ck_assert_msg(strstr(text, "Grades in the log show that, by 6 degrees of freedom") &&
                      !strstr(text, "assumed"),
                  "%s", text);
    promise.spread = 0.03; /* by an instrument, which is not raised */
    promise.by_grade = false;
    sl_promise_words(&promise, text, sizeof text);
    ck_assert_msg(strstr(text, "Repeats in the log show that, by 6 degrees of freedom."), "%s", text);
}
END_TEST

/* A class that is too short for a wanted difference: what ends in time and tells less says which wish gives
 * way. */
START_TEST(fewer_swatches_than_a_wish_takes_are_offered_as_if_they_told_it)
{
    sl_plan_page page = {.tell = 0.15};
    sl_plan_proposal *const read = &page.proposal[1];
    *read = (sl_plan_proposal){.repeats = 5,
                               .fit = {.swatches = 40,
                                       .people = 1,
                                       .takes_s = 12960,
                                       .class_s = 3600,
                                       .offer = {{1, 2580}, {6, 3500}, {-1, 0}, {3, 3000}}},
                               .tells = {-1.0, 0.15, 0.15, 0.153}};
    for (int i = 0; i < 2; i++) {
        sl_document document;
        FILE *const out = tmpfile();
        sl_document_begin(&document, "plan", "", NULL);
        sl_plan_say_proposal(&document, &page, 1);
        sl_document_end(&document, SL_ON_NOTHING);
        ck_assert(sl_document_print(out, &document, &(sl_terminal){.width = 200, .depth = SL_SCIENCE}));
        rewind(out);
        text[fread(text, 1, sizeof text - 1, out)] = '\0';
        fclose(out);
        holds("5 swatches of each strip tell 15 points");
        holds(i == 0
                  ? "1 swatch of each strip, in 43 min. Then the wish to tell 15 points gives way: no "
                    "difference is told."
                  : "2 swatches of each strip, in 43 min. Then the wish to tell 15 points gives way: about "
                    "31 points are told.");
        holds("6 pairs of hands, in 59 min.\n");
        read->fit.offer[SL_FIT_REPEATS].n = 2;
        read->tells[SL_FIT_REPEATS] = 0.31;
        sl_document_free(&document);
    }
}
END_TEST

START_SUITE("compare words")
ADD(fewer_swatches_than_a_wish_takes_are_offered_as_if_they_told_it)
ADD(what_no_plan_can_tell_is_said_with_its_swatches)
ADD(a_scatter_that_was_raised_to_what_is_assumed_is_told_as_seen)
FIXTURE(set_up, tear_down)
ADD(each_thing_that_went_otherwise_has_a_sentence)
ADD(strips_that_lay_unequally_or_had_several_lots_are_not_called_as_everywhere)
ADD(who_came_first_is_told_only_where_it_can_be)
ADD(an_order_that_every_test_may_show_is_told_as_at_most_all_of_them)
ADD(a_mean_stays_between_none_and_all_and_one_swatch_has_no_range)
ADD(of_arms_that_tie_the_one_with_more_left_is_told_first)
ADD(what_is_too_close_to_tell_says_where_that_comes_from)
ADD(times_that_were_off_are_counted_and_what_they_change_is_named)
CASE("ladders")
FIXTURE(set_up, tear_down)
ADD(a_minute_that_is_ranked_says_what_was_looked_at_then)
ADD(a_half_life_is_rounded_outwards_and_ends_where_nothing_leaves)
ADD(rates_say_how_they_are_meant_and_what_was_left_out)
ADD(a_minute_of_pieces_and_of_looks_is_told_as_one_of_them)
CASE("pages")
FIXTURE(set_up, tear_down_page)
ADD(a_page_of_nothing_says_less_or_more_than_that)
ADD(a_page_of_a_minute_holds_what_belongs_to_the_end)
ADD(a_page_tells_no_rates_or_tells_them_of_arms_that_have_none)
ADD(a_page_lists_more_than_a_page_s_worth_of_what_went_otherwise)
ADD(one_grade_after_the_model_was_shown_is_told_as_several)
ADD(judges_or_looks_after_hours_are_counted_otherwise)
ADD(a_judge_is_told_of_whom_nothing_is_known)
ADD(means_and_chances_of_grades_part_without_a_word)
ADD(what_swatches_could_not_show_is_not_that_of_the_arm_with_the_fewest)
ADD(a_page_begins_with_another_test_or_its_columns_stand_elsewhere)
ADD(a_page_of_two_zones_is_of_one_or_holds_a_thing_twice)
ADD(a_page_that_was_not_written_is_told_as_one_that_was)
ADD(a_number_of_the_words_is_another_at_its_edge)
ADD(a_change_after_hours_is_counted_that_is_none)
CASE("behind the last")
FIXTURE(set_up, tear_down)
ADD(an_arm_behind_the_last_is_told)
ADD(a_zone_behind_the_last_is_told)
CASE("floors and dwells")
FIXTURE(set_up, tear_down)
ADD(a_scatter_counts_as_less_than_half_a_step)
ADD(a_planned_dwell_is_not_rounded_to_the_nearest_minute)
END_SUITE
