/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form about a person in the window: what keys write, and that no minute is found for a
 * person while anything on it is missing or stops.
 */
#include <string.h>

#include "base/memory.h"
#include "slowlift/part.h"
#include "slowlift/scene.h"
#include "small_scene.h"
#include "suite.h"
#include "view/panels/form.h"

enum { TODAY = 20786 }; /* 2026-11-29 */

static sl_stage *blank(void)
{
    sl_error error = {.code = SL_OK};
    sl_stage *stage = sl_new(1, sizeof *stage, "testing", &error);
    ck_assert_ptr_nonnull(stage);
    stage->chosen.arm = ARM_6;
    stage->entered.today = TODAY;
    return stage;
}

static void answer_all(sl_stage *stage)
{
    for (int row = 0; row < SL_FORM_LOGGED; row++) {
        switch (sl_intake_ask_of(row)) {
        case SL_ASK_YEARS:
        case SL_ASK_MINUTES:
        case SL_ASK_CODE:
            sl_form_type(stage, row, 3);
            sl_form_type(stage, row, 2);
            break;
        case SL_ASK_REPLY:
            sl_form_turn(stage, row, sl_intake_pass(row) == SL_REPLY_YES ? 2 : 1);
            break;
        case SL_ASK_EITHER:
        case SL_ASK_PART:
        case SL_ASK_DAY:
        case SL_ASK_SHOWED:
            sl_form_turn(stage, row, 1);
            break;
        }
    }
    sl_form_type(stage, SL_FORM_STRAND_MIN, 5);
    sl_form_turn(stage, SL_FORM_STRAND_WIPE, 2); /* slight */
}

/* Back to "not answered". */
static void unanswer(sl_stage *stage, int row)
{
    char text[64];
    for (int i = 0; i < 8; i++) {
        sl_form_type(stage, row, -1);
    }
    for (sl_form_put(stage, row, text, sizeof text); strcmp(text, "–") != 0;
         sl_form_put(stage, row, text, sizeof text)) {
        sl_form_turn(stage, row, 1);
    }
}

START_TEST(nothing_is_answered_at_first)
{
    sl_stage *stage = blank();
    char text[64];
    for (int row = 0; row < SL_FORM_ROWS; row++) {
        sl_form_put(stage, row, text, sizeof text);
        ck_assert_str_eq(text, "–");
    }
    ck_assert_int_eq(sl_intake_judge(&stage->entered.person).n_missing, SL_INTAKE_ASKED - 1);
    sl_free(stage);
}
END_TEST

/* What is pressed is the answer, pressed again it is none, and another takes its place; rows of other kinds are
 * not answered so. */
START_TEST(yes_no_and_unsure_are_pressed)
{
    sl_stage *stage = blank();
    for (int row = 0; row < SL_FORM_ROWS; row++) {
        char text[64];
        sl_form_reply(stage, row, SL_REPLY_YES);
        sl_form_reply(stage, row, SL_REPLY_NO);
        sl_form_put(stage, row, text, sizeof text);
        ck_assert_str_eq(text, sl_form_replies(row) ? "no" : "–");
        sl_form_reply(stage, row, SL_REPLY_NO);
        sl_form_put(stage, row, text, sizeof text);
        ck_assert_str_eq(text, "–");
    }
    ck_assert(sl_form_replies(SL_INTAKE_LIGHTENED) && !sl_form_replies(SL_INTAKE_AGE));
    ck_assert_int_eq(sl_intake_judge(&stage->entered.person).n_missing, SL_INTAKE_ASKED - 1);
    sl_free(stage);
}
END_TEST

START_TEST(figures_write_a_number_and_stay_in_bounds)
{
    sl_stage *stage = blank();
    char text[64];
    sl_form_type(stage, SL_INTAKE_AGE, 4);
    sl_form_type(stage, SL_INTAKE_AGE, 7);
    sl_form_put(stage, SL_INTAKE_AGE, text, sizeof text);
    ck_assert_str_eq(text, "47 years");
    sl_form_type(stage, SL_INTAKE_AGE, 9);
    ck_assert_int_eq(stage->entered.person.age_years, 120);
    sl_form_type(stage, SL_INTAKE_LABEL, 3);
    sl_form_turn(stage, SL_INTAKE_LABEL, -5);
    ck_assert_double_eq(stage->entered.person.label_min, 0.0);
    sl_free(stage);
}
END_TEST

START_TEST(a_day_begins_with_today_and_is_never_later)
{
    sl_stage *stage = blank();
    char text[64];
    sl_form_turn(stage, SL_INTAKE_PACKET, 1);
    sl_form_put(stage, SL_INTAKE_PACKET, text, sizeof text);
    ck_assert_str_eq(text, "2026-11-29");
    sl_form_turn(stage, SL_INTAKE_PACKET, 1);
    ck_assert_int_eq(stage->entered.person.packet_day, stage->entered.today);
    sl_form_turn(stage, SL_INTAKE_PACKET, -1);
    sl_form_put(stage, SL_INTAKE_PACKET, text, sizeof text);
    ck_assert_str_eq(text, "2026-11-28");
    sl_form_type(stage, SL_INTAKE_PACKET, -1);
    ck_assert_int_eq(stage->entered.person.packet_day, 0);
    sl_free(stage);
}
END_TEST

START_TEST(a_code_is_typed_in_figures_and_a_made_up_person_is_marked)
{
    sl_stage *stage = blank();
    char text[64];
    for (int i = 0; i < 40; i++) { /* more than fit */
        sl_form_type(stage, SL_INTAKE_PERSON, 7);
    }
    ck_assert_uint_eq(strlen(stage->entered.person.person), SL_CODE - 1);
    sl_form_turn(stage, SL_INTAKE_PART, 2);
    sl_form_put(stage, SL_INTAKE_PART, text, sizeof text);
    ck_assert_str_eq(text, "crown");
    sl_form_turn(stage, SL_FORM_PRACTICE, 1);
    ck_assert(stage->entered.person.practice);
    sl_form_clear(stage);
    ck_assert(!stage->entered.person.practice);
    sl_free(stage);
}
END_TEST

START_TEST(a_full_form_is_clear_and_delete_forgets_it)
{
    sl_stage *stage = blank();
    answer_all(stage);
    ck_assert(stage->entered.of_person);
    ck_assert(sl_intake_judge(&stage->entered.person).minutes);
    ck_assert_int_eq(stage->entered.person.showed.observation[0].arm, ARM_6);
    sl_form_clear(stage);
    ck_assert(!stage->entered.of_person);
    ck_assert_int_eq(sl_intake_judge(&stage->entered.person).n_missing, SL_INTAKE_ASKED - 1);
    sl_free(stage);
}
END_TEST

static sl_answer answer_about(const sl_stage *stage, const sl_scene *scene, int arm)
{
    sl_error error = {.code = SL_OK};
    sl_study study = {0};
    sl_study_wish wish = {.arm = arm, .of_person = stage->entered.of_person, .person = stage->entered.person};
    wish.strand[arm] = sl_form_strand(stage, scene, arm);
    sl_study_thread *thread = sl_study_thread_start(SDL_RegisterEvents(1), true, &error);
    wish.scene = sl_scene_copy(scene, &error);
    sl_study_thread_ask(thread, &wish);
    for (patience wait = {0}; study.members < SL_MEMBERS && patient(&wait);) {
        sl_study_thread_take(thread, &study);
    }
    ck_assert_int_ge(study.members, SL_MEMBERS);
    const sl_answer answer = study.answer;
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    return answer;
}

/* A strand of the log, for the mix of the arm with 6 %, that counts for answer_all(). */
static sl_strand_record logged(const sl_scene *scene)
{
    const sl_step *const step = sl_arm_application(&scene->arms[ARM_6]);
    return (sl_strand_record){
        .test = "4f3a2b1c",
        .code = "EK9",
        .person = "32",
        .part = SL_HAIR_AT_FRONT,
        .cut = true,
        .packet_day = TODAY,
        .day = TODAY,
        .mix = sl_mix_fingerprint(&scene->mixes[step->mix]),
        .lay_min = 9.0,
        .washed = true,
        .graded = true,
        .stretched = true,
        .felt = true,
        .showed = {2,
                   {{.zone = SL_OBSERVED_ALL_ZONES, .minute = 5.0, .wipe = SL_WIPE_SLIGHT, .strand = true},
                    {.zone = SL_OBSERVED_ALL_ZONES, .minute = 9.0, .wipe = SL_WIPE_SLIGHT, .strand = true}}}};
}

static sl_stage *with_log(const sl_strand_record *record)
{
    sl_stage *stage = blank();
    stage->logs.strands = record;
    stage->logs.n_strands = 1;
    answer_all(stage);
    sl_form_turn(stage, SL_FORM_LOGGED, 1);
    return stage;
}

START_TEST(no_minute_is_found_while_any_row_is_missing_or_the_strand_is_of_another_mix)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.place = SL_PLACE_HEAD;
    small.scene.aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.3, true}, .cystine_lost = {0.3, true}};
    const sl_strand_record record = logged(&small.scene);
    ck_assert_int_eq(SDL_Init(SDL_INIT_EVENTS), 0);
    for (int row = 0; row <= SL_FORM_LOGGED; row++) {
        if (row == SL_INTAKE_PERSON) {
            continue; /* comes with the strand */
        }
        sl_stage *stage = with_log(&record);
        if (row == SL_FORM_LOGGED) {
            sl_form_turn(stage, row, -1); /* what was typed alone */
        } else {
            unanswer(stage, row);
        }
        sl_person person = {.form = &stage->entered.person};
        person.strand[ARM_6] = sl_form_strand(stage, &small.scene, ARM_6);
        ck_assert_msg(!sl_leave_of(&small.scene, ARM_6, &person).minutes, "row %d", row);
        sl_free(stage);
    }
    sl_stage *stage = with_log(&record);
    ck_assert_int_eq(sl_form_strand(stage, &small.scene, ARM_6).worth, SL_STRAND_COUNTED);
    ck_assert_int_eq(sl_form_strand(stage, &small.scene, ARM_3).worth, SL_STRAND_OTHER_MIX);
    ck_assert(!answer_about(stage, &small.scene, ARM_3).minutes);
    const sl_answer clear = answer_about(stage, &small.scene, ARM_6);
    ck_assert_msg(clear.leave.minutes, "%d", clear.unknown);
    ck_assert_double_eq(clear.leave.watched_min, 9.0);
    ck_assert(!clear.minutes || clear.late.p90 <= 9.0);
    sl_form_turn(stage, SL_FORM_PRACTICE, 1); /* made up, and the log is not */
    ck_assert(!answer_about(stage, &small.scene, ARM_6).minutes);
    sl_free(stage);
    SDL_Quit();
}
END_TEST

START_SUITE("form")
ADD(nothing_is_answered_at_first)
ADD(yes_no_and_unsure_are_pressed)
ADD(figures_write_a_number_and_stay_in_bounds)
ADD(a_day_begins_with_today_and_is_never_later)
ADD(a_code_is_typed_in_figures_and_a_made_up_person_is_marked)
ADD(a_full_form_is_clear_and_delete_forgets_it)
ADD(no_minute_is_found_while_any_row_is_missing_or_the_strand_is_of_another_mix)
END_SUITE
