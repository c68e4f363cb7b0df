/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The thread that counts ensembles, ranks and maps for the window.
 */
#include "base/memory.h"
#include "small_scene.h"
#include "suite.h"
#include "view/panels/study.h"
#include "view/strips/marks.h"
#include "view/strips/solve_thread.h"

static Uint32 wake; /* pushed for each letter of the thread that started() made */

static const sl_aims AIMS = {.colour_left = 0.5, .base_moved = {0.3, true}, .cystine_lost = {0.3, true}};

static sl_study_wish wish_of(const sl_scene *scene, double pct)
{
    sl_error error = {.code = SL_OK};
    sl_changes change[SL_MAX_ARMS] = {{.set = {false}}};
    sl_knob_turn(change, scene, ARM_6, SL_SETTING_STRENGTH, pct);
    sl_study_wish wish = {.arm = ARM_6, .share = 0.5, .minute = 10.0};
    sl_story story = {0};
    ck_assert(sl_story_change(&story, scene, change, &error));
    wish.scene = story.scene;
    wish.mixes = story.mixes;
    return wish;
}

/* With a thread of its own, and in slices between frames. */
static sl_study_thread *started(small_scene *small, bool threads)
{
    sl_error error = {.code = SL_OK};
    small_scene_fill(small);
    small->scene.room_c = 24.0; /* warmer hair counts as a head */
    small->scene.aims = AIMS;
    ck_assert_int_eq(SDL_Init(SDL_INIT_EVENTS), 0);
    wake = SDL_RegisterEvents(1);
    sl_study_thread *thread = sl_study_thread_start(wake, threads, &error);
    ck_assert_ptr_nonnull(thread);
    return thread;
}

/* Until so many members are counted. */
static void wait_for(sl_study_thread *thread, sl_study *study, long members)
{
    for (patience wait = {0}; study->members < members && patient(&wait);) {
        sl_study_thread_work(thread);
        sl_study_thread_take(thread, study);
    }
    ck_assert_int_ge(study->members, members);
}

START_TEST(the_ensemble_grows_while_nothing_is_turned)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study_wish wish = wish_of(&small.scene, 6.0);
    sl_study study = {0};
    sl_study_thread_ask(thread, &wish);
    ck_assert_ptr_null(wish.scene);
    wait_for(thread, &study, SL_MEMBERS);
    SDL_Event letters[SL_MEMBERS];
    ck_assert_int_gt(SDL_PeepEvents(letters, SL_MEMBERS, SDL_PEEKEVENT, wake, wake),
                     2); /* one for each part */
    ck_assert_int_eq(study.members, SL_MEMBERS);
    ck_assert(study.answer.minutes);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    SDL_Quit();
}
END_TEST

/* Shares of one ensemble in parts are those of one run: the same as asked at once. */
START_TEST(grown_in_parts_it_says_what_one_run_says)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study_wish wish = wish_of(&small.scene, 6.0);
    sl_study study = {0};
    sl_error error = {.code = SL_OK};
    sl_variant variant;
    sl_spread *spread = NULL;
    sl_variant_make(&variant, &small.scene, ARM_6, NULL);
    const sl_spread_request request = {.members = SL_MEMBERS, .seed = 1, .threads = 2};
    ck_assert(sl_spread_run(&spread, &variant.scene, &request, &error));
    const sl_answer whole = sl_answer_of(&variant.scene, spread, 0, NULL);
    sl_study_thread_ask(thread, &wish);
    wait_for(thread, &study, SL_MEMBERS);
    ck_assert_double_eq(study.answer.odds, whole.odds);
    ck_assert_double_eq(study.answer.early.p10, whole.early.p10);
    ck_assert_double_eq(study.answer.late.p90, whole.late.p90);
    sl_spread_free(spread);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    SDL_Quit();
}
END_TEST

/* What an older wish found is never taken after a newer one was asked. */
START_TEST(the_latest_wish_wins)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study study = {0};
    for (int i = 0; i <= 20; i++) {
        sl_study_wish wish = wish_of(&small.scene, 0.5 * i);
        sl_study_thread_ask(thread, &wish);
    }
    wait_for(thread, &study, SL_MEMBERS);
    sl_study_wish last = wish_of(&small.scene, 10.0);
    sl_study again = {0};
    sl_study_thread_ask(thread, &last);
    wait_for(thread, &again, SL_MEMBERS);
    ck_assert_double_eq(study.answer.odds, again.answer.odds);
    ck_assert_double_eq(study.answer.late.p50, again.answer.late.p50);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    sl_study_free(&again);
    SDL_Quit();
}
END_TEST

START_TEST(rank_and_map_come_rough_and_then_fine)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study_wish wish = wish_of(&small.scene, 6.0);
    wish.rank = wish.map = true;
    wish.x = (sl_axis){SL_SETTING_STRENGTH, 0.0, 12.0, 0};
    wish.y = (sl_axis){SL_SETTING_DWELL, 5.0, 40.0, 0};
    sl_study study = {0};
    sl_study_thread_ask(thread, &wish);
    wait_for(thread, &study, SL_MEMBERS);
    ck_assert_ptr_nonnull(study.rank);
    ck_assert_ptr_nonnull(study.map);
    ck_assert_int_eq(study.map->x.n, 25);
    ck_assert_int_gt(study.rank->request.members, 1000);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    SDL_Quit();
}
END_TEST

START_TEST(it_can_be_stopped_in_the_middle)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study_wish wish = wish_of(&small.scene, 6.0);
    sl_study_thread_ask(thread, &wish);
    for (patience wait = {0}; !SDL_HasEvent(wake) && patient(&wait);) {
        sl_study_thread_work(thread);
    }
    ck_assert(SDL_HasEvent(wake));
    sl_study_thread_stop(thread);
    SDL_Quit();
}
END_TEST

START_SUITE("study")
ADD_LOOP(the_ensemble_grows_while_nothing_is_turned, 0, 2)
ADD_LOOP(grown_in_parts_it_says_what_one_run_says, 0, 2)
ADD_LOOP(the_latest_wish_wins, 0, 2)
ADD_LOOP(rank_and_map_come_rough_and_then_fine, 0, 2)
ADD_LOOP(it_can_be_stopped_in_the_middle, 0, 2)
END_SUITE
