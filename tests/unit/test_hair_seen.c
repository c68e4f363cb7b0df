/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hair beside the colour: what is read of it, what is told apart, what was paid at the same colour left, by
 * hand; and logs with next to nothing in them, of which one clear sentence is told.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "compared.h"
#include "document/renderers.h"
#include "log/compare/compare_page.h"
#include "log/compare/hair_seen.h"
#include "suite.h"

static char *page_text;

static void begin(void)
{
    log_made_begin(&made);
}

static void finish(void)
{
    free(page_text);
    page_text = NULL;
    end();
}

static int swatch(const char *arm, int block)
{
    return log_made_swatch(&made, arm, block);
}

static sl_log_reading of_hair(int at, const char *zone, double minute)
{
    sl_log_reading reading = log_made_reading(&made, at, zone, SL_WIPE_HALF);
    reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
    reading.minute = minute;
    return reading;
}

static void level(int at, double minute, double read)
{
    sl_log_reading reading = of_hair(at, "undyed", minute);
    reading.level = read;
    keep(reading);
}

static void words(int at, int stretch, int feel)
{
    sl_log_reading reading = of_hair(at, "undyed", SL_NOT_READ);
    reading.said[SL_SAID_STRETCH] = stretch;
    reading.said[SL_SAID_FEEL] = feel;
    keep(reading);
}

static const sl_seen_hair *hair_of(const char *word)
{
    for (int i = 0; i < compare->n_hair; i++) {
        if (strcmp(sl_hair_word(&compare->hair[i]), word) == 0) {
            return &compare->hair[i];
        }
    }
    return NULL;
}

static void put_page_of(int only)
{
    size_t size = 0;
    sl_document document;
    const sl_compare_page page = {.compare = compare, .only = only, .chosen = -1};
    free(page_text);
    FILE *const out = open_memstream(&page_text, &size);
    ck_assert_ptr_nonnull(out);
    sl_compare_say(&document, &page, NULL);
    ck_assert(sl_document_print(out, &document, &(sl_terminal){.width = 200, .depth = SL_SCIENCE}));
    fclose(out);
}

static void put_page(void)
{
    put_page_of(-1);
}

static void says(const char *sentence)
{
    ck_assert_msg(strstr(page_text, sentence) != NULL, "no \"%s\" in: %s", sentence, page_text);
}

static void says_not(const char *sentence)
{
    ck_assert_msg(strstr(page_text, sentence) == NULL, "\"%s\" in: %s", sentence, page_text);
}

/* ---- what is read
 * --------------------------------------------------------------------------------------------------- */

/* 5 to 6.5, 5 to 7: 1.75; where one swatch has no start the levels stand as they are: 6.75. */
START_TEST(a_level_is_not_what_was_lifted_or_is_mixed_with_one_that_is_not)
{
    for (int block = 0; block < 2; block++) {
        level(swatch("powder + 6 %", block), 0.0, 5.0);
        level(swatch("powder + 6 %", block), SL_NOT_READ, 6.5 + 0.5 * block);
    }
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %");
    ck_assert_double_eq_tol(hair_of("levels_lifted")->blocks.mean[arm], 1.75, 1e-12);
    ck_assert_int_eq(hair_of("levels_lifted")->blocks.n[arm], 2);
    ck_assert_double_eq(hair_of("levels_lifted")->blocks.least_sd[arm], 0.5);
    level(swatch("powder + 3 %", 0), SL_NOT_READ, 6.0);
    read_compare();
    ck_assert_ptr_null(hair_of("levels_lifted"));
    ck_assert_double_eq_tol(hair_of("level")->blocks.mean[arm], 6.75, 1e-9);
}
END_TEST

/* Undyed (80, 0, 30) to (82, 2, 22): sqrt(4 + 4 + 64). Red (79, 6, 22) to that undyed: 5, which is told of
 * red only where grades are ranked. */
START_TEST(an_instrument_s_base_or_colour_is_not_that_of_a_hand)
{
    const int one = swatch("powder + 6 %", 0);
    measure(one, "undyed", 0.0, SL_NOT_READ, bare_at_start);
    measure(one, "undyed", SL_NOT_READ, SL_NOT_READ, bare_at_end);
    measure(one, "red", SL_NOT_READ, SL_NOT_READ, red_at_end);
    see(one, SL_WIPE_GHOST);
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %");
    ck_assert_double_eq_tol(hair_of("moved")->blocks.mean[arm], sqrt(72.0), 1e-9);
    ck_assert_double_eq_tol(hair_of("from_undyed")->blocks.mean[arm], 5.0, 1e-9);
    measure(one, "red", 0.0, SL_NOT_READ, red_at_start);
    read_compare();
    ck_assert_ptr_null(hair_of("from_undyed"));
    measure(swatch("powder + 3 %", 0), "undyed", SL_NOT_READ, SL_NOT_READ, bare_at_end);
    read_compare();
    ck_assert_double_eq_tol(hair_of("lightness")->blocks.mean[arm], 82.0, 1e-9);
}
END_TEST

/* Slow by one judge, stays long by the other: 1.5 steps, counted as the worse. */
START_TEST(two_words_for_one_swatch_are_two_swatches_or_the_better)
{
    const int one = swatch("powder + 6 %", 0);
    words(one, 1, SL_NOT_SAID);
    words(one, 2, SL_NOT_SAID);
    read_compare();
    const sl_seen_hair *const hair = hair_of("stretch");
    const int arm = named_arm(compare->scene, "powder + 6 %");
    ck_assert_int_eq(hair->blocks.n[arm], 1);
    ck_assert_double_eq_tol(hair->blocks.mean[arm], 1.5, 1e-12);
    ck_assert(hair->swatches[arm][2] == 1 && hair->swatches[arm][1] == 0);
    ck_assert_ptr_null(hair_of("feel"));
}
END_TEST

START_TEST(a_look_on_the_way_counts_at_the_end_or_not_at_its_minute)
{
    const int one = swatch("powder + 6 %", 0);
    level(one, 10.0, 6.0);
    level(one, SL_NOT_READ, 7.0);
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %");
    ck_assert_double_eq_tol(hair_of("level")->blocks.mean[arm], 7.0, 1e-12);
    rank_at(10);
    ck_assert_double_eq_tol(hair_of("level")->blocks.mean[arm], 6.0, 1e-12);
}
END_TEST

/* ---- what is told apart
 * --------------------------------------------------------------------------------------------- */

/* Better from every word on: 3 of 3 slow or better beside 1 of 3; not where the one has the worst word, too.
 */
START_TEST(words_are_ordered_by_what_a_step_is_worth)
{
    const int better[5] = {1, 2}, worse[5] = {0, 1, 2}, both[5] = {2, 0, 0, 1}, few[5] = {1};
    ck_assert(sl_said_before(better, worse, 5) && !sl_said_before(worse, better, 5));
    ck_assert(!sl_said_before(both, worse, 5) && !sl_said_before(worse, both, 5));
    ck_assert(sl_said_before(few, better, 5) && sl_said_before(better, better, 5));
}
END_TEST

/* Three swatches of each strip: powder + 6 % lifts 4 levels and breaks, all others nothing. */
START_TEST(hair_that_clearly_paid_is_not_told_or_the_caution_does_not_stand)
{
    for (int i = 0; i < made.n; i++) {
        const bool paid = strcmp(made.swatches[i].arm, "powder + 6 %") == 0;
        level(i, 0.0, 5.0);
        level(i, SL_NOT_READ, paid ? 9.0 : 5.0);
        words(i, paid ? 3 : 0, 0);
    }
    read_compare();
    const int paid = named_arm(compare->scene, "powder + 6 %");
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        ck_assert_int_eq(sl_hair_before(compare, 0, arm, paid), arm != paid);
        ck_assert_int_eq(sl_hair_before(compare, 1, arm, paid), arm != paid);
        ck_assert(!sl_hair_before(compare, 2, arm, paid));
    }
    put_page();
    says("\"untreated\" lifted less than \"powder + 6 %\", by eye.");
    says("\"untreated\" stretched better than \"powder + 6 %\".");
    says("No strip is told from another by: wet feel.");
    says("3 swatches were gummy or broke: a reason to stop, whatever the colour does.");
    says("Hair that stays long after a pull, feels like gum or snaps has had enough.");
    says("No colour was looked at: hair alone is compared.");
}
END_TEST

/* What is asked of colours is nothing to hair. */
START_TEST(a_floor_of_colours_hides_hair)
{
    sl_log_test test;
    for (int i = 0; i < made.n; i++) {
        level(i, SL_NOT_READ, strcmp(made.swatches[i].arm, "powder + 6 %") == 0 ? 9.0 : 5.0);
    }
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, 0.9, NULL));
    ck_assert(sl_hair_before(compare, 0, named_arm(compare->scene, "untreated"),
                             named_arm(compare->scene, "powder + 6 %")));
}
END_TEST

/* ---- the same colour left
 * --------------------------------------------------------------------------------------------- */

/* Beside somebody's strand the model is silent: it does not say that a strip never gets there, either. */
START_TEST(of_a_person_s_strand_the_model_says_where_strips_get)
{
    for (int block = 0; block < 3; block++) {
        for (int i = 0; i < 2; i++) {
            const int one = swatch(i == 0 ? "powder + 6 %" : "powder + 3 %", block);
            see(one, SL_WIPE_HALF);
            level(one, SL_NOT_READ, 8.0 - 2.0 * i);
        }
    }
    log_made_strand(&made);
    read_compare();
    put_page();
    says("had lifted its hair more than");
    says_not("The model expects");
    says_not("By the model");
}
END_TEST

/* Between (0.8, 1) and (0.25, 3) at 0.5: 3 - 2 ln(0.5/0.25)/ln(0.8/0.25) = 1.80816. */
START_TEST(hair_at_a_colour_left_is_not_that_of_a_hand_or_goes_beyond_what_was_seen)
{
    static const sl_paid_look look[] = {{0.25, 3.0}, {0.8, 1.0}, {0.8, 1.0}};
    double slope = 0.0;
    ck_assert_double_eq_tol(sl_paid_at(look, 3, 0.5, 0.1, true, &slope), 1.80816, 5e-6);
    ck_assert_double_eq_tol(slope, -2.0 / log(3.2), 1e-12);
    ck_assert_double_le(sl_paid_at(look, 3, 0.1, 0.1, true, &slope), SL_NOT_READ);
    ck_assert_double_le(sl_paid_at(look + 1, 2, 0.5, 0.1, true, &slope), SL_NOT_READ);
    ck_assert_double_eq(sl_paid_at(look, 1, 0.3, 0.1, true, &slope), 3.0);
    ck_assert_double_le(sl_paid_at(look, 1, 0.5, 0.1, true, &slope), SL_NOT_READ);
    ck_assert_double_eq(sl_paid_at(look, 1, 0.25, 0.0, false, &slope), 3.0);
    ck_assert_double_eq(slope, 0.0);
    ck_assert_double_le(sl_paid_at(look, 0, 0.5, 0.1, true, &slope), SL_NOT_READ);
}
END_TEST

/* Two strips with half of the red left at the end: 3 levels beside 1, and 0.25 of 0.1375/0.5 by the slope
 * 3/ln 0.5 and 1/ln 0.5 either way. */
START_TEST(what_was_paid_at_half_left_is_not_that_of_a_hand)
{
    for (int block = 0; block < 3; block++) {
        const int dear = swatch("powder + 6 %", block), cheap = swatch("powder + 3 %", block);
        see(dear, SL_WIPE_HALF);
        see(cheap, SL_WIPE_HALF);
        level(dear, 0.0, 5.0);
        level(cheap, 0.0, 5.0);
        level(dear, SL_NOT_READ, 8.0);
        level(cheap, SL_NOT_READ, 6.0);
    }
    read_compare();
    const sl_seen_paid *paid = NULL;
    double half = 0.0;
    for (int i = 0; i < compare->n_paid; i++) {
        paid = compare->paid[i].zone == named_zone(compare->scene, "red") ? &compare->paid[i] : paid;
    }
    ck_assert(paid && paid->fast >= 0);
    ck_assert_double_eq(paid->left, 0.5);
    const int dear = named_arm(compare->scene, "powder + 6 %");
    const double apart = sl_paid_apart(paid, paid->slow, &half) * (paid->fast == dear ? 1.0 : -1.0);
    ck_assert_double_eq_tol(apart, 2.0, 1e-9);
    /* Student's t(0.975; 2) = 4.303 of the table, half a level least, three of each */
    ck_assert_double_eq_tol(half, 4.303 * 0.5 * sqrt(2.0 / 3.0) + 0.25 * 0.1375 / 0.5 * 4.0 / log(2.0), 1e-3);
    put_page();
    says("With 50 % of red left, \"powder + 6 %\" had lifted its hair more than \"powder + 3 %\", by 2 (");
    says("levels. That may be luck.");
}
END_TEST

/* ---- next to nothing
 * -------------------------------------------------------------------------------------------------- */

START_TEST(one_swatch_tells_an_order_or_says_nothing)
{
    level(swatch("powder + 6 %", 0), SL_NOT_READ, 7.0);
    read_compare();
    put_page();
    says("No colour was looked at: hair alone is compared.");
    says("No strip was repeated, or one alone was read, of: level.");
    says_not("lifted less than");
    says_not("there is nothing to compare");
}
END_TEST

START_TEST(equal_hair_is_told_apart)
{
    for (int i = 0; i < made.n; i++) {
        level(i, SL_NOT_READ, 7.0);
        words(i, 1, 1);
        if (strcmp(made.swatches[i].arm, "undyed, powder + 6 %") != 0) {
            see(i, SL_WIPE_HALF);
        }
    }
    read_compare();
    put_page();
    says("No strip is told from another by: level, stretch, wet feel.");
    says("At the same colour left no strip is told to have lifted its hair more, in red.");
    says("was alike, level: 0 (");
    says_not("its hair more than");
    says_not("root");
    says_not("No colour was looked at");
}
END_TEST

/* Of a dyed zone the hair that is read beside it, of the undyed one its own; of another dyed zone neither. */
START_TEST(a_zone_alone_lacks_its_hair_or_has_another_s)
{
    const int one = swatch("powder + 6 %", 0);
    sl_log_reading reading = of_hair(one, "red", SL_NOT_READ);
    reading.said[SL_SAID_FEEL] = 1;
    keep(reading);
    level(one, SL_NOT_READ, 7.0);
    read_compare();
    put_page_of(named_zone(compare->scene, "red"));
    says("What hair paid in red");
    says("What hair paid in undyed");
    put_page_of(named_zone(compare->scene, "blue"));
    says("What hair paid in undyed");
    says_not("What hair paid in red");
    put_page_of(named_zone(compare->scene, "undyed"));
    says("What hair paid in undyed");
    says_not("What hair paid in red");
    says_not("there is nothing to compare");
}
END_TEST

/* One judge says both of one swatch, at one moment. */
START_TEST(words_that_contradict_each_other_are_told_apart_or_the_worse_is_lost)
{
    words(swatch("powder + 6 %", 0), 0, 0);
    words(swatch("powder + 6 %", 0), 3, 4);
    words(swatch("powder + 3 %", 0), 0, 0);
    read_compare();
    put_page();
    says("1 swatch was gummy or broke: a reason to stop, whatever the colour does.");
    says("No strip was repeated, or one alone was read, of: stretch, wet feel.");
    says("1 stays long");
}
END_TEST

START_TEST(strips_that_never_meet_are_compared_at_one_colour)
{
    for (int block = 0; block < 3; block++) {
        see(swatch("powder + 6 %", block), SL_WIPE_GHOST);
        see(swatch("powder + 3 %", block), SL_WIPE_SLIGHT);
        level(swatch("powder + 6 %", block), SL_NOT_READ, 8.0);
        level(swatch("powder + 3 %", block), SL_NOT_READ, 6.0);
    }
    read_compare();
    put_page();
    says("What hair paid at the same colour left cannot be told, no strips were read with as much left: ");
    says_not("had lifted its hair more than");
}
END_TEST

START_TEST(strips_that_meet_once_are_told_apart)
{
    for (int i = 0; i < 2; i++) {
        const int one = swatch(i == 0 ? "powder + 6 %" : "powder + 3 %", 0);
        see(one, SL_WIPE_HALF);
        level(one, SL_NOT_READ, 8.0 - 3.0 * i);
    }
    read_compare();
    put_page();
    says("What hair paid at the same colour left cannot be told, nothing was repeated: red.");
}
END_TEST

START_SUITE("hair seen")
FIXTURE(begin, finish)
ADD(a_level_is_not_what_was_lifted_or_is_mixed_with_one_that_is_not)
ADD(an_instrument_s_base_or_colour_is_not_that_of_a_hand)
ADD(two_words_for_one_swatch_are_two_swatches_or_the_better)
ADD(a_look_on_the_way_counts_at_the_end_or_not_at_its_minute)
ADD(words_are_ordered_by_what_a_step_is_worth)
ADD(hair_that_clearly_paid_is_not_told_or_the_caution_does_not_stand)
ADD(a_floor_of_colours_hides_hair)
ADD(of_a_person_s_strand_the_model_says_where_strips_get)
ADD(hair_at_a_colour_left_is_not_that_of_a_hand_or_goes_beyond_what_was_seen)
ADD(what_was_paid_at_half_left_is_not_that_of_a_hand)
ADD(one_swatch_tells_an_order_or_says_nothing)
ADD(equal_hair_is_told_apart)
ADD(a_zone_alone_lacks_its_hair_or_has_another_s)
ADD(words_that_contradict_each_other_are_told_apart_or_the_worse_is_lost)
ADD(strips_that_never_meet_are_compared_at_one_colour)
ADD(strips_that_meet_once_are_told_apart)
END_SUITE
