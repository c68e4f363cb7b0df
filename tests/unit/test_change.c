/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What-ifs: what knobs do to a copy of the scene, and to nothing else; the thread that
 * solves them.
 */
#include <string.h>

#include "base/memory.h"
#include "small_scene.h"
#include "suite.h"
#include "view/strips/solve_thread.h"

static sl_scene *changed(const sl_changes change[], const sl_scene *scene, sl_mix **mixes)
{
    sl_error error = {.code = SL_OK};
    sl_story story = {0};
    ck_assert(sl_story_change(&story, scene, change, &error));
    *mixes = story.mixes;
    return story.scene;
}

START_TEST(knobs_at_rest_change_nothing)
{
    small_scene small;
    small_scene_fill(&small);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    ck_assert(!sl_changes_any(change, &small.scene));
    sl_mix *mixes = NULL;
    sl_scene *copy = changed(change, &small.scene, &mixes);
    ck_assert_int_eq(copy->n_mixes, small.scene.n_mixes);
    ck_assert_double_eq(copy->shift_k, small.scene.shift_k);
    sl_scene_free(copy);
    sl_free(mixes);
}
END_TEST

START_TEST(a_knob_moves_its_strip_alone_though_the_mix_serves_others)
{
    small_scene small;
    small_scene_fill(&small);
    small.arms[ARM_UNDYED].steps[0].mix = MIX_POWDER_6; /* two arms on one mix */
    small.arms[ARM_6].steps[0].mix = MIX_POWDER_6;
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    ck_assert(sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, 9.0));
    sl_mix *mixes = NULL;
    sl_scene *copy = changed(change, &small.scene, &mixes);
    ck_assert((sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL) > 0));
    ck_assert(!(sl_changes_count(&change[ARM_UNDYED], &small.scene, ARM_UNDYED, NULL) > 0));
    ck_assert_double_eq(copy->mixes[copy->arms[ARM_6].steps[0].mix].developer_pct, 9.0);
    ck_assert_double_eq(copy->mixes[copy->arms[ARM_UNDYED].steps[0].mix].developer_pct,
                        small.mixes[MIX_POWDER_6].developer_pct);
    ck_assert_double_eq(small.scene.mixes[MIX_POWDER_6].developer_pct,
                        small.mixes[MIX_POWDER_6].developer_pct);
    sl_scene_free(copy);
    sl_free(mixes);
}
END_TEST

/* 12 % is 40 vol; Regulation (EC) 1223/2009, annex III, entry 12. */
START_TEST(the_strength_knob_ends_at_12_per_cent)
{
    small_scene small;
    small_scene_fill(&small);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, 40.0);
    ck_assert_double_eq(sl_knob_value(change, &small.scene, ARM_6, SL_SETTING_STRENGTH), 12.0);
    sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, -3.0);
    ck_assert_double_eq(sl_knob_value(change, &small.scene, ARM_6, SL_SETTING_STRENGTH), 0.0);
}
END_TEST

START_TEST(changes_of_a_strip_are_counted_and_the_scenes_warmth_with_them)
{
    small_scene small;
    small_scene_fill(&small);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    ck_assert_int_eq(sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL), 0);
    sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, 9.0);
    ck_assert_int_eq(sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL), 1);
    sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, 8.0);
    ck_assert_int_eq(sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL), 1);
    sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_WARMER, 5.0);
    ck_assert_int_eq(sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL), 2);
    ck_assert_int_eq(sl_changes_count(&change[ARM_3], &small.scene, ARM_3, NULL), 1);
}
END_TEST

START_TEST(warmth_is_of_the_whole_scene_and_time_of_one_strip)
{
    small_scene small;
    small_scene_fill(&small);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    sl_knob_turn(change, &small.scene, ARM_3, SL_SETTING_WARMER, 5.0);
    sl_knob_turn(change, &small.scene, ARM_3, SL_SETTING_DWELL, 12.0);
    ck_assert((sl_changes_count(&change[ARM_6], &small.scene, ARM_6, NULL) > 0));
    sl_mix *mixes = NULL;
    sl_scene *copy = changed(change, &small.scene, &mixes);
    ck_assert_double_eq(copy->shift_k, 5.0);
    ck_assert_double_eq(sl_arm_application(&copy->arms[ARM_3])->duration_min, 12.0);
    ck_assert_double_eq(sl_arm_application(&copy->arms[ARM_6])->duration_min, 30.0);
    sl_scene_free(copy);
    sl_free(mixes);
}
END_TEST

START_TEST(a_knob_without_anything_to_act_on_does_nothing)
{
    small_scene small;
    small_scene_fill(&small);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    ck_assert(!sl_knob_turn(change, &small.scene, ARM_UNTREATED, SL_SETTING_STRENGTH, 9.0));
    ck_assert(!sl_knob_turn(change, &small.scene, ARM_WATER, SL_SETTING_STRENGTH, 9.0)); /* no developer */
    ck_assert(!sl_knob_turn(change, &small.scene, ARM_REDUCING, SL_SETTING_WATER, 2.0)); /* not predicted */
    ck_assert(!sl_changes_any(change, &small.scene));
}
END_TEST

static bool wait_for(sl_solve_thread *thread, sl_story *story)
{
    bool taken = sl_solve_thread_take(thread, story);
    for (patience wait = {0}; !taken && patient(&wait);) {
        sl_solve_thread_work(thread);
        taken = sl_solve_thread_take(thread, story);
    }
    return taken;
}

/* Asked many times in a row, the thread's last answer is to the last question. */
START_TEST(the_latest_request_wins)
{
    small_scene small;
    small_scene_fill(&small);
    sl_error error = {.code = SL_OK};
    ck_assert_int_eq(SDL_Init(SDL_INIT_EVENTS), 0);
    sl_solve_thread *thread = sl_solve_thread_start(SDL_RegisterEvents(1), _i == 0, &error);
    ck_assert_ptr_nonnull(thread);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    for (int i = 1; i <= 24; i++) {
        sl_knob_turn(change, &small.scene, ARM_6, SL_SETTING_STRENGTH, 0.5 * i);
        sl_story story = {0};
        story.scene = changed(change, &small.scene, &story.mixes);
        sl_solve_thread_ask(thread, &story);
        ck_assert_ptr_null(story.scene);
    }
    double last = 0.0;
    sl_story story = {0};
    while (last < 12.0 && wait_for(thread, &story)) {
        ck_assert_ptr_nonnull(story.timeline);
        const double pct = story.scene->mixes[story.scene->arms[ARM_6].steps[0].mix].developer_pct;
        ck_assert_double_gt(pct, last); /* answers never go back */
        last = pct;
        sl_story_free(&story);
    }
    ck_assert_double_eq(last, 12.0);
    sl_solve_thread_stop(thread);
    SDL_Quit();
}
END_TEST

START_TEST(a_thread_can_be_stopped_with_work_waiting)
{
    small_scene small;
    small_scene_fill(&small);
    sl_error error = {.code = SL_OK};
    ck_assert_int_eq(SDL_Init(SDL_INIT_EVENTS), 0);
    sl_solve_thread *thread = sl_solve_thread_start(SDL_RegisterEvents(1), _i == 0, &error);
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    sl_story story = {0};
    story.scene = changed(change, &small.scene, &story.mixes);
    sl_solve_thread_ask(thread, &story);
    sl_solve_thread_stop(thread);
    SDL_Quit();
}
END_TEST

START_SUITE("change")
ADD(knobs_at_rest_change_nothing)
ADD(a_knob_moves_its_strip_alone_though_the_mix_serves_others)
ADD(the_strength_knob_ends_at_12_per_cent)
ADD(changes_of_a_strip_are_counted_and_the_scenes_warmth_with_them)
ADD(warmth_is_of_the_whole_scene_and_time_of_one_strip)
ADD(a_knob_without_anything_to_act_on_does_nothing)
ADD_LOOP(the_latest_request_wins, 0, 2)
ADD_LOOP(a_thread_can_be_stopped_with_work_waiting, 0, 2)
END_SUITE
