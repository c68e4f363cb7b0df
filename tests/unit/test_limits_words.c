/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/limits/limits.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "document/renderers.h"

#include "slowlift/caution.h"
#include "small_scene.h"
#include "suite.h"

typedef enum told { TEXT, CSV, JSON, FORMS } told;

static small_scene small;
static char text[65536];

static sl_observation showed(void)
{
    return (sl_observation){
        .arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF, .strand = true};
}

static sl_intake clear_form(void)
{
    sl_intake form = small_clear_form();
    form.label_min = 20.0;
    form.showed = (sl_observations){1, {showed()}};
    return form;
}

static bool print(FILE *out, const sl_limits_page *page)
{
    sl_document document;
    sl_limits_say(&document, page, NULL);
    return sl_document_print(out, &document, NULL);
}

/* The page of the arm with 6 %, in `text`. strand: whether the members were weighed by it. */
static sl_answer tell(told form, const sl_intake *of, bool strand)
{
    const sl_person counted = person_of(of, ARM_6, 60.0), none = {.form = of};
    const sl_person *const person = !of ? NULL : strand ? &counted : &none;
    static sl_answers answers;
    const sl_observations observations = {strand ? 1 : 0, {showed()}};
    const sl_spread_request request = {
        .members = 320, .seed = 5, .threads = 1, .observations = &observations};
    const sl_limits_page page = {.answers = &answers, .only = ARM_6};
    sl_timeline *timeline = NULL;
    sl_spread *spread = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    sl_answers_of(&answers, timeline, spread, person, NULL);
    FILE *const out = tmpfile();
    ck_assert_ptr_nonnull(out);
    ck_assert(form == TEXT  ? print(out, &page)
              : form == CSV ? sl_export_csv(out, &sl_limits_export, &page)
                            : sl_export_json(out, &sl_limits_export, &page));
    rewind(out);
    text[fread(text, 1, sizeof text - 1, out)] = '\0';
    fclose(out);
    sl_spread_free(spread);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return answers.arm[ARM_6];
}

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.title.in[SL_ENGLISH] = "Small";
    small.scene.aims = small_aims;
}

/* A number before " min", or a quantity of minutes that is not null or an empty list. */
static bool has_minutes(void)
{
    for (const char *at = strstr(text, " min"); at; at = strstr(at + 1, " min")) {
        if (at > text && isdigit((unsigned char)at[-1])) {
            return true;
        }
    }
    for (const char *at = strstr(text, "_min"); at; at = strstr(at + 1, "_min")) {
        const char *const value = at + 4 + strspn(at + 4, "\",:[{ p10");
        if (isdigit((unsigned char)value[0])) {
            return true;
        }
    }
    return false;
}

/* ---- words ----------------------------------------------------------------------------------- */

START_TEST(minutes_are_whole_and_in_a_range)
{
    char words[96];
    sl_three_words((sl_three){17.2, 20.0, 25.4}, false, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "17 to 26 min");
    sl_three_words((sl_three){17.2, 17.2, 17.2}, false, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "17 to 18 min");
    sl_three_words((sl_three){17.0, 17.0, 17.0}, false, HUGE_VAL, words,
                   sizeof words); /* a label's time, as written */
    ck_assert_str_eq(words, "at 17 min");
    sl_three_words((sl_three){17.9, 40.0, -1.0}, false, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "from 17 min on, and in some model runs not at all");
    sl_three_words((sl_three){-1.0, -1.0, -1.0}, false, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "does not come in at least nine of ten model runs");
    sl_three_words((sl_three){-1.0, -1.0, -1.0}, true, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "does not come in time in at least nine of ten model runs");
    sl_three_words((sl_three){17.9, -1.0, -1.0}, true, HUGE_VAL, words, sizeof words);
    ck_assert_str_eq(words, "from 17 min on, and in some model runs not in time");
    sl_three_words((sl_three){12.2, 14.0, 14.3}, false, 14.3, words, sizeof words); /* not rounded past it */
    ck_assert_str_eq(words, "12 to 14 min");
    sl_three_words((sl_three){14.1, 14.2, 14.3}, false, 14.3, words, sizeof words);
    ck_assert_str_eq(words, "at 14 min");
}
END_TEST

START_TEST(minutes_are_listed)
{
    static const int minute[] = {9, 12, 14};
    char words[64];
    sl_minutes_words(SL_MINUTE_MODEL, minute, 3, words, sizeof words);
    ck_assert_str_eq(words, "9, 12 and 14 min");
    sl_minutes_words(SL_MINUTE_MODEL, minute, 1, words, sizeof words);
    ck_assert_str_eq(words, "9 min");
    sl_minutes_words(SL_MINUTE_MODEL, minute, 0, words, sizeof words);
    ck_assert_str_eq(words, "");
    sl_minutes_words(SL_MINUTE_MODEL, minute, 3, words, 8); /* cut, and ended */
    ck_assert_uint_lt(strlen(words), 8);
}
END_TEST

START_TEST(every_question_has_a_caution_that_is_there)
{
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        const sl_caution_id id = sl_caution_named(sl_intake_caution(asked));
        ck_assert(id < SL_CAUTION_COUNT);
        ck_assert_uint_gt(strlen(sl_caution_text(id)->text), 20);
    }
    ck_assert_int_eq(sl_caution_named("METALLIC"), SL_CAUTION_METALLIC);
    ck_assert_int_eq(sl_caution_named("AGE"), SL_CAUTION_AGE);
}
END_TEST

START_TEST(every_verdict_has_a_sentence_of_its_own)
{
    for (int one = 0; one < SL_VERDICTS; one++) {
        const sl_answer answer = {.verdict = (sl_verdict)one};
        ck_assert_uint_gt(strlen(sl_verdict_sentence(&answer)), 10);
        for (int two = 0; two < one; two++) {
            const sl_answer other = {.verdict = (sl_verdict)two};
            ck_assert_str_ne(sl_verdict_sentence(&answer), sl_verdict_sentence(&other));
        }
    }
}
END_TEST

/* ---- the page ---------------------------------------------------------------------------------- */

START_TEST(a_swatch_on_the_bench_has_minutes_and_its_verdict)
{
    fresh();
    for (int form = 0; form < FORMS; form++) {
        const sl_answer answer = tell((told)form, NULL, false);
        ck_assert(answer.minutes);
        ck_assert(has_minutes());
        ck_assert_ptr_nonnull(strstr(text, (told)form == TEXT ? sl_verdict_word(answer.verdict)
                                                              : sl_verdict_key(answer.verdict)));
    }
}
END_TEST

START_TEST(text_has_no_decimals_of_minutes)
{
    fresh();
    tell(TEXT, NULL, false);
    for (const char *at = strstr(text, " min"); at; at = strstr(at + 1, " min")) {
        const char *digit = at;
        while (digit > text && isdigit((unsigned char)digit[-1])) {
            digit--;
        }
        ck_assert(digit == text || digit[-1] != '.');
    }
}
END_TEST

START_TEST(no_check_comes_after_the_mix_is_off)
{
    fresh();
    small.scene.aims = (sl_aims){.colour_left = 0.15};
    small.scene.room_c = 29.9;
    small.arms[ARM_6].steps[0].duration_min = 12.0; /* rinsed; the scene goes on for an hour */
    const sl_answer answer = tell(TEXT, NULL, false);
    ck_assert(answer.minutes);
    ck_assert(answer.n_checks == 0 || answer.check[answer.n_checks - 1] <= 12);
    ck_assert(answer.n_checks > 0 || strstr(text, "no minute is planned for the goal") != NULL);
    small.arms[ARM_6].steps[0].duration_min = 50.0;
    const sl_answer longer = tell(TEXT, NULL, false);
    ck_assert_int_gt(longer.n_checks, 0);
    ck_assert_int_gt(longer.check[longer.n_checks - 1], 12);
}
END_TEST

START_TEST(without_a_limit_the_end_of_the_scene_is_named)
{
    fresh();
    small.scene.aims = (sl_aims){.colour_left = 0.001};
    const sl_answer answer = tell(TEXT, NULL, false);
    ck_assert_int_eq(answer.verdict, SL_VERDICT_LATE);
    ck_assert_int_eq(answer.stop, SL_STOP_END);
    ck_assert_ptr_nonnull(strstr(text, "the scene mostly ends before the goal"));
    ck_assert_ptr_nonnull(strstr(text, "mostly no limit before the scene ends"));
}
END_TEST

START_TEST(a_head_has_no_minutes_without_a_form)
{
    static const sl_place places[] = {SL_PLACE_HEAD, SL_PLACE_WRAPPED};
    for (int i = 0; i < 2 * FORMS; i++) {
        fresh();
        small.scene.place = places[i % 2];
        tell((told)(i / 2), NULL, true);
        ck_assert(!has_minutes() || i / 2 == TEXT); /* the strand's own minute is repeated in text */
        ck_assert_ptr_nonnull(strstr(text, i / 2 == TEXT ? "cannot say" : "not enough known"));
        ck_assert_ptr_null(strstr(text, "check:"));
    }
}
END_TEST

/* Base and hair are told in levels, too, and where the scale ends: level 9 that becomes 9.9 has hardly more
 * to go. */
START_TEST(the_base_is_told_in_levels_with_the_end_of_their_scale)
{
    fresh();
    tell(TEXT, NULL, false);
    ck_assert_ptr_nonnull(strstr(text, "level:     base from "));
    ck_assert_ptr_nonnull(strstr(text, "the scale ends"));
    tell(CSV, NULL, false);
    ck_assert_ptr_nonnull(strstr(text, ",level_start,"));
    ck_assert_ptr_nonnull(strstr(text, ",level_at_stop,"));
    ck_assert_ptr_nonnull(strstr(text, ",level_scale_end,10.5,"));
    tell(JSON, NULL, false);
    ck_assert_ptr_nonnull(strstr(text, "\"level_at_stop\": "));
    ck_assert_ptr_nonnull(strstr(text, "\"level_scale_end\": 10.5"));
}
END_TEST

/* What the hair is like at the scene's own stop says nothing of an earlier one. */
START_TEST(neither_dye_nor_level_is_told_at_a_stop_that_the_label_brings_first)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    sl_intake form = clear_form();
    form.label_min = 5.0;
    ck_assert_int_eq(tell(TEXT, &form, true).stop, SL_STOP_LABEL);
    ck_assert_ptr_nonnull(strstr(text, "stop:"));
    ck_assert_ptr_null(strstr(text, "left:"));
    ck_assert_ptr_null(strstr(text, "level:"));
    tell(CSV, &form, true);
    ck_assert_ptr_nonnull(strstr(text, ",level_start,"));
    ck_assert_ptr_null(strstr(text, ",left_at_stop_p50,"));
    ck_assert_ptr_null(strstr(text, ",level_at_stop,"));
    tell(JSON, &form, true);
    ck_assert_ptr_nonnull(strstr(text, "\"left_at_stop_p50\": null"));
    ck_assert_ptr_nonnull(strstr(text, "\"leftover\": null"));
    ck_assert_ptr_nonnull(strstr(text, "\"level_at_stop\": null"));
}
END_TEST

START_TEST(a_clear_form_with_a_counted_strand_has_minutes)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    const sl_intake form = clear_form();
    ck_assert(tell(TEXT, &form, true).minutes);
    ck_assert(has_minutes());
    ck_assert_ptr_nonnull(strstr(text, "a time to leave the mix on"));
}
END_TEST

START_TEST(a_person_without_a_counted_strand_has_no_minutes)
{
    static const char *const outcomes[] = {"   goal: ", "   stop: ", "   check: ", "   look: ",      "_min,",
                                           "goal_min",  "stop_min",  "checks_min", "looks_min\": [2"};
    fresh();
    const sl_intake form = clear_form();
    for (int told_as = 0; told_as < FORMS; told_as++) {
        tell((told)told_as, &form, false);
        for (size_t i = 0; i < sizeof outcomes / sizeof outcomes[0]; i++) {
            const char *const at = strstr(text, outcomes[i]); /* the rhythm for the strand is planned */
            ck_assert_msg(!at || strncmp(at - 7, "strand_", 7) == 0, "%s", outcomes[i]);
        }
        ck_assert_ptr_nonnull(strstr(text, told_as == TEXT ? "cannot say" : "not enough known"));
    }
}
END_TEST

/* Every question, asked every way that does not let it pass. */
static bool spoil(sl_intake *form, int asked, sl_reply reply)
{
    const bool none = reply == SL_REPLY_NONE;
    *form = clear_form();
    switch (sl_intake_ask_of(asked)) {
    case SL_ASK_REPLY:
        form->reply[asked] = reply;
        break;
    case SL_ASK_EITHER:
        form->lightened = reply;
        break;
    case SL_ASK_YEARS:
        form->age_years = none ? 0 : 17;
        break;
    case SL_ASK_MINUTES:
        form->label_min = 0.0;
        break;
    case SL_ASK_CODE:
        snprintf(asked == SL_INTAKE_PERSON ? form->person : form->qualified, SL_CODE, "%s",
                 none ? "" : "Ada L");
        break;
    case SL_ASK_PART:
        form->part = none ? SL_HAIR_NOWHERE : SL_HAIR_PARTS;
        break;
    case SL_ASK_DAY:
        form->packet_day = 0;
        break;
    case SL_ASK_SHOWED:
        form->showed.observation[0].minute = 21.0; /* the label says 20 */
        break;
    }
    return !sl_intake_judge(form).minutes;
}

START_TEST(no_answer_that_stops_or_lacks_lets_a_minute_out_and_each_says_what_comes_first)
{
    fresh();
    int spoilt = 0;
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        for (int reply = 0; reply < SL_REPLIES; reply++) {
            sl_intake form;
            if (!spoil(&form, asked, (sl_reply)reply)) {
                continue;
            }
            spoilt++;
            for (int told_as = 0; told_as < FORMS; told_as++) {
                ck_assert(!tell((told)told_as, &form, true).minutes);
                ck_assert(told_as == TEXT ? strstr(text, "check:") == NULL && strstr(text, "goal:  ") != NULL
                                          : !has_minutes());
            }
            tell(JSON, &form, true); /* one line for each text, unbroken */
            ck_assert_msg(strstr(text, sl_intake_first(asked)) != NULL, "%s", sl_intake_words(asked));
        }
    }
    ck_assert_int_ge(spoilt, 3 * SL_INTAKE_REPLIES);
}
END_TEST

static const char *stop_row(void)
{
    const char *const row = strstr(text, "   stop: ");
    ck_assert_ptr_nonnull(row);
    return row;
}

START_TEST(a_stop_by_the_label_says_which_clock_ended_it)
{
    fresh();
    small.mixes[MIX_POWDER_6].label_max_min = 7.0;
    tell(TEXT, NULL, false);
    ck_assert_ptr_nonnull(strstr(stop_row(), "7 min from mixing by the mix's file"));
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    tell(TEXT, NULL, false);
    ck_assert_ptr_nonnull(strstr(stop_row(), "7 min from contact by the mix's file"));
    small.mixes[MIX_POWDER_6].label_told_min = 5.0;
    tell(TEXT, NULL, false);
    ck_assert_ptr_nonnull(strstr(stop_row(), "5 min from mixing by --label"));
}
END_TEST

START_TEST(a_mix_too_old_for_its_label_is_told_so_and_not_as_a_minute)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    small.arms[ARM_6].steps[0].mix_age_min = 25.0; /* the form says 20 */
    const sl_intake form = clear_form();
    tell(TEXT, &form, true);
    const char *const row = stop_row();
    ck_assert_ptr_nonnull(strstr(row, "before contact: the label's time, 20 min from mixing by the form"));
    ck_assert_ptr_null(strstr(text, "at 0 min"));
    ck_assert_ptr_null(strstr(text, "base moved, in"));
    tell(JSON, &form, true);
    ck_assert_ptr_nonnull(strstr(text, "\"mix_age_min\": 25"));
}
END_TEST

START_TEST(a_person_without_a_strand_is_told_when_to_look_at_one_and_never_past_the_label)
{
    fresh();
    small.scene.place = SL_PLACE_HEAD;
    sl_intake form = clear_form();
    form.showed.n = 0;
    form.reply[SL_INTAKE_STRAND] = SL_REPLY_NO;
    tell(TEXT, &form, false);
    ck_assert_ptr_nonnull(strstr(text, "rhythm"));
    ck_assert_ptr_null(strstr(text, "22"));
    tell(JSON, &form, false);
    ck_assert_ptr_nonnull(strstr(text, "\"strand_looks_min\": [2, 7, 12, 17]"));
    form.reply[SL_INTAKE_HENNA] = SL_REPLY_YES;
    tell(TEXT, &form, false);
    ck_assert_ptr_null(strstr(text, "rhythm"));
    form = clear_form();
    form.showed.n = 0;
    form.label_min = 0.0;
    tell(TEXT, &form, false);
    ck_assert_ptr_null(strstr(text, "rhythm"));
}
END_TEST

START_TEST(every_form_says_for_whom_it_is)
{
    static const char *const swatches[FORMS] = {"CUT SWATCHES on a bench", ",cut swatches\n",
                                                "\"lies_for\": \"cut swatches\""};
    static const char *const head[FORMS] = {"HAIR ON A HEAD", ",a head\n", "\"lies_for\": \"a head\""};
    for (int form = 0; form < FORMS; form++) {
        fresh();
        tell((told)form, NULL, false);
        ck_assert_ptr_nonnull(strstr(text, swatches[form]));
        small.scene.shift_k = 7.0; /* a bench by name */
        tell((told)form, NULL, false);
        ck_assert(!has_minutes());
        ck_assert_ptr_nonnull(strstr(text, head[form]));
        ck_assert_ptr_null(strstr(text, swatches[form]));
    }
}
END_TEST

static int times(const char *words)
{
    int n = 0;
    for (const char *at = strstr(text, words); at; at = strstr(at + 1, words)) {
        n++;
    }
    return n;
}

START_TEST(all_that_is_made_of_a_practice_person_says_so_and_nothing_of_others)
{
    fresh();
    for (int practice = 0; practice < 2; practice++) {
        sl_intake form = clear_form();
        form.practice = practice == 1;
        for (int told_as = 0; told_as < FORMS; told_as++) {
            tell((told)told_as, &form, true);
            /* head, arm and foot; each arm's rows; the whole and the arm */
            const int least = told_as == TEXT ? 3 : told_as == CSV ? 1 : 2;
            ck_assert_int_eq(times("made up, for practice"), practice == 1 ? least : 0);
        }
        ck_assert_ptr_nonnull(strstr(text, practice == 1 ? "\"practice\": true" : "\"practice\": false"));
    }
}
END_TEST

START_SUITE("limits in words")
ADD(minutes_are_whole_and_in_a_range)
ADD(minutes_are_listed)
ADD(every_question_has_a_caution_that_is_there)
ADD(every_verdict_has_a_sentence_of_its_own)
ADD(a_swatch_on_the_bench_has_minutes_and_its_verdict)
ADD(text_has_no_decimals_of_minutes)
ADD(no_check_comes_after_the_mix_is_off)
ADD(without_a_limit_the_end_of_the_scene_is_named)
ADD(a_stop_by_the_label_says_which_clock_ended_it)
ADD(a_mix_too_old_for_its_label_is_told_so_and_not_as_a_minute)
ADD(a_person_without_a_strand_is_told_when_to_look_at_one_and_never_past_the_label)
ADD(every_form_says_for_whom_it_is)
ADD(a_head_has_no_minutes_without_a_form)
ADD(the_base_is_told_in_levels_with_the_end_of_their_scale)
ADD(neither_dye_nor_level_is_told_at_a_stop_that_the_label_brings_first)
ADD(a_clear_form_with_a_counted_strand_has_minutes)
ADD(a_person_without_a_counted_strand_has_no_minutes)
ADD(all_that_is_made_of_a_practice_person_says_so_and_nothing_of_others)
ADD(no_answer_that_stops_or_lacks_lets_a_minute_out_and_each_says_what_comes_first)
END_SUITE
