/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form about a person in the window: what keys write, and that no minute is found for a
 * person while anything on it is missing or stops.
 */
#include <string.h>

#include "base/memory.h"
#include "small_scene.h"
#include "suite.h"
#include "view/form.h"

static sl_stage *blank(void)
{
    sl_error error = {.code = SL_OK};
    sl_stage *stage = sl_new(1, sizeof *stage, "testing", &error);
    ck_assert_ptr_nonnull(stage);
    stage->arm = ARM_6;
    return stage;
}

static void answer_all(sl_stage *stage)
{
    for (int row = 0; row < SL_FORM_ROWS; row++) {
        const bool yes = row == SL_INTAKE_LIQUIDS || row == SL_INTAKE_STRAND;
        if (row == SL_FORM_AGE) {
            sl_form_type(stage, row, 3);
            sl_form_type(stage, row, 2);
        } else if (row == SL_FORM_LABEL) {
            sl_form_type(stage, row, 4);
            sl_form_type(stage, row, 0);
        } else if (row == SL_FORM_STRAND_MIN) {
            sl_form_type(stage, row, 5);
        } else if (row == SL_FORM_STRAND_WIPE) {
            sl_form_turn(stage, row, 2); /* slight */
        } else {
            sl_form_turn(stage, row, yes ? 2 : 1);
        }
    }
}

/* Back to "not answered". */
static void unanswer(sl_stage *stage, int row)
{
    if (sl_form_is_number(row)) {
        sl_form_type(stage, row, -1);
        sl_form_type(stage, row, -1);
        return;
    }
    char text[32];
    for (sl_form_put(stage, row, text, sizeof text); strcmp(text, "–") != 0;
         sl_form_put(stage, row, text, sizeof text)) {
        sl_form_turn(stage, row, 1);
    }
}

START_TEST(nothing_is_answered_at_first)
{
    sl_stage *stage = blank();
    char text[32];
    for (int row = 0; row < SL_FORM_ROWS; row++) {
        sl_form_put(stage, row, text, sizeof text);
        ck_assert_str_eq(text, "–");
    }
    ck_assert_int_eq(sl_intake_judge(&stage->person).n_missing, SL_INTAKE_ASKED);
    sl_free(stage);
}
END_TEST

START_TEST(figures_write_a_number_and_stay_in_bounds)
{
    sl_stage *stage = blank();
    char text[32];
    sl_form_type(stage, SL_FORM_AGE, 4);
    sl_form_type(stage, SL_FORM_AGE, 7);
    sl_form_put(stage, SL_FORM_AGE, text, sizeof text);
    ck_assert_str_eq(text, "47 years");
    sl_form_type(stage, SL_FORM_AGE, 9);
    ck_assert_int_eq(stage->person.age_years, 120);
    sl_form_type(stage, SL_FORM_LABEL, 3);
    sl_form_turn(stage, SL_FORM_LABEL, -5);
    ck_assert_double_eq(stage->person.label_min, 0.0);
    sl_free(stage);
}
END_TEST

START_TEST(a_full_form_is_clear_and_delete_forgets_it)
{
    sl_stage *stage = blank();
    answer_all(stage);
    ck_assert(stage->of_person);
    ck_assert(sl_intake_judge(&stage->person).minutes);
    ck_assert_int_eq(stage->person.showed.saw[0].arm, ARM_6);
    sl_form_clear(stage);
    ck_assert(!stage->of_person);
    ck_assert_int_eq(sl_intake_judge(&stage->person).n_missing, SL_INTAKE_ASKED);
    sl_free(stage);
}
END_TEST

static sl_answer answer_about(const sl_stage *stage, const sl_scene *scene, int arm)
{
    sl_error error = {.code = SL_OK};
    const sl_change change = sl_change_none(scene);
    sl_study study = {0};
    sl_study_wish wish = {.arm = arm, .of_person = stage->of_person, .person = stage->person};
    sl_study_thread *thread = sl_study_thread_start(SDL_RegisterEvents(1), &error);
    wish.scene = sl_change_scene(&change, scene, &wish.mixes, &error);
    sl_study_thread_ask(thread, &wish);
    for (patience wait = {0}; study.members < 4000 && patient(&wait);) {
        sl_study_thread_take(thread, &study);
    }
    ck_assert_int_ge(study.members, 4000);
    const sl_answer answer = study.answer;
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    return answer;
}

START_TEST(no_minute_is_found_while_any_row_is_missing_or_the_strand_is_of_another_strip)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.3, true}, .cystine_lost = {0.3, true}};
    ck_assert_int_eq(SDL_Init(SDL_INIT_EVENTS), 0);
    for (int row = 0; row < SL_FORM_ROWS; row++) {
        sl_stage *stage = blank();
        answer_all(stage);
        unanswer(stage, row);
        const sl_answer answer = answer_about(stage, &small.scene, ARM_6);
        ck_assert_msg(!answer.minutes && answer.verdict == SL_NOT_ENOUGH_KNOWN && answer.n_checks == 0,
                      "row %d", row);
        sl_free(stage);
    }
    sl_stage *stage = blank();
    answer_all(stage);
    ck_assert(!answer_about(stage, &small.scene, ARM_3).minutes);
    const sl_answer clear = answer_about(stage, &small.scene, ARM_6);
    ck_assert_msg(clear.unknown != SL_UNKNOWN_STRAND && clear.unknown != SL_UNKNOWN_FORM, "%d",
                  clear.unknown);
    sl_free(stage);
    SDL_Quit();
}
END_TEST

START_SUITE("form")
ADD(nothing_is_answered_at_first)
ADD(figures_write_a_number_and_stay_in_bounds)
ADD(a_full_form_is_clear_and_delete_forgets_it)
ADD(no_minute_is_found_while_any_row_is_missing_or_the_strand_is_of_another_strip)
END_SUITE
