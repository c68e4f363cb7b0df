/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The thread that counts ensembles, ranks and maps for the window.
 */
#include "base/memory.h"
#include "report/answer/answer_page.h"
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

/* Until nothing more comes; returns how often it was called. */
static int wait_for_all(sl_study_thread *thread, sl_study *study)
{
    int calls = 0;
    for (patience wait = {0}; sl_study_thread_busy(thread) && patient(&wait); calls++) {
        sl_study_thread_work(thread);
        sl_study_thread_take(thread, study);
    }
    ck_assert(!sl_study_thread_busy(thread));
    return calls;
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

static sl_study_wish wish_of_all(const sl_scene *scene)
{
    sl_study_wish wish = wish_of(scene, 6.0);
    wish.rank = wish.map = wish.answers = true;
    wish.same_zone = -1;
    wish.x = (sl_axis){SL_SETTING_STRENGTH, 0.0, 12.0, 0};
    wish.y = (sl_axis){SL_SETTING_DWELL, 5.0, 40.0, 0};
    return wish;
}

static void same_rank(const sl_rank *one, const sl_rank *other)
{
    const size_t places = (size_t)one->n_arms * (size_t)one->n_zones;
    ck_assert_int_eq(one->request.members, other->request.members);
    ck_assert_int_eq(one->members, other->members);
    ck_assert_mem_eq(one->standing, other->standing, places * sizeof *one->standing);
    ck_assert_mem_eq(one->before, other->before,
                     places * SL_PAIRINGS * (size_t)one->n_arms * sizeof *one->before);
}

static void same_map(const sl_map *one, const sl_map *other)
{
    const size_t points = (size_t)one->x.n * (size_t)one->y.n;
    ck_assert_int_eq(one->x.n, other->x.n);
    ck_assert_int_eq(one->y.n, other->y.n);
    for (int layer = 0; layer < SL_MAP_LAYERS; layer++) {
        ck_assert_mem_eq(one->value[layer], other->value[layer], points * sizeof(double));
    }
    ck_assert_mem_eq(one->goal, other->goal, points * sizeof(bool));
    ck_assert_mem_eq(one->inside, other->inside, points * sizeof(bool));
}

/* What the page of answers reads, counted in one go. */
static void same_answers(const sl_study_answers *found, sl_error *error)
{
    sl_spread *spread = NULL;
    sl_rinse *rinse = NULL;
    sl_answers answers;
    const sl_scene *const scene = found->story.scene;
    const sl_spread_request request = {.members = SL_MEMBERS, .seed = SL_SEED, .threads = 2};
    ck_assert(sl_spread_run(&spread, scene, &request, error));
    sl_answers_of(&answers, found->story.timeline, spread, NULL, NULL);
    const sl_rinse_request rinsed = sl_answer_rinse_request(&answers, -1);
    ck_assert(sl_rinse_run(&rinse, scene, &rinsed, error));
    ck_assert_int_eq(found->answers.n, SMALL_ARMS);
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        ck_assert_double_eq(found->answers.arm[arm].odds, answers.arm[arm].odds);
        ck_assert_int_eq(found->answers.by[arm].minute, answers.by[arm].minute);
    }
    ck_assert_int_eq(found->rinse->members, SL_MEMBERS);
    ck_assert_mem_eq(found->rinse->left, rinse->left,
                     (size_t)SMALL_ARMS * SMALL_ZONES * SL_THOUSANDTHS * sizeof *rinse->left);
    ck_assert_mem_eq(found->rinse->sooner, rinse->sooner,
                     (size_t)SMALL_ZONES * SL_SOONERS * SMALL_ARMS * SMALL_ARMS * sizeof *rinse->sooner);
    sl_rinse_free(rinse);
    sl_spread_free(spread);
}

/* The same numbers as in one go, whether found in a thread or between frames. */
START_TEST(rank_map_and_answers_come_in_slices_as_in_one_go)
{
    small_scene small;
    sl_error error = {.code = SL_OK};
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study_wish wish = wish_of_all(&small.scene);
    sl_rank *rank = NULL;
    sl_map *map = NULL;
    sl_solver *const solver = sl_solver_new(&error);
    const sl_rank_request request = {
        .minute = wish.minute, .share = wish.share, .members = SL_MEMBERS, .seed = SL_SEED, .threads = 2};
    wish.x.n = wish.y.n = 25;
    ck_assert(sl_rank_run(&rank, wish.scene, &request, &error));
    ck_assert(sl_map_make(&map, wish.scene, wish.arm, -1, wish.x, wish.y, NULL, solver, &error));
    sl_study study = {0};
    sl_study_thread_ask(thread, &wish);
    wait_for_all(thread, &study);
    ck_assert_int_eq(study.members, SL_MEMBERS);
    same_rank(study.rank, rank);
    same_map(study.map, map);
    same_answers(study.answers, &error);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    sl_rank_free(rank);
    sl_map_free(map);
    sl_solver_free(solver);
    SDL_Quit();
}
END_TEST

/* Between two frames: no more than a row of the map, or 128 members of one arm, or 16 of all. */
START_TEST(without_a_thread_a_slice_is_short)
{
    small_scene small;
    sl_study_thread *thread = started(&small, false);
    sl_study_wish wish = wish_of_all(&small.scene);
    const int slice = SDL_max(16, 128 / wish.scene->n_arms);
    sl_study study = {0};
    sl_study_thread_ask(thread, &wish);
    ck_assert_int_ge(wait_for_all(thread, &study), 13 + 25 + (192 + 3 * SL_MEMBERS) / slice);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    SDL_Quit();
}
END_TEST

/* A newer wish ends what is being done after the slice, and what was begun is not left behind. */
START_TEST(a_newer_wish_comes_between_slices)
{
    small_scene small;
    sl_study_thread *thread = started(&small, false);
    sl_study study = {0};
    for (int slices = 0; slices < 60; slices += 7) {
        sl_study_wish wish = wish_of_all(&small.scene);
        sl_study_thread_ask(thread, &wish);
        for (int i = 0; i < slices; i++) {
            sl_study_thread_work(thread);
        }
    }
    sl_study_wish last = wish_of(&small.scene, 6.0);
    sl_study_thread_ask(thread, &last);
    wait_for_all(thread, &study);
    ck_assert_int_eq(study.members, SL_MEMBERS);
    ck_assert_ptr_null(study.rank);
    ck_assert_ptr_null(study.map);
    ck_assert_ptr_null(study.answers);
    sl_study_thread_stop(thread);
    sl_study_free(&study);
    SDL_Quit();
}
END_TEST

/* What cannot be found says why, takes away what was found before, and keeps nothing else from being found.
 */
START_TEST(what_could_not_be_found_says_why)
{
    small_scene small;
    sl_study_thread *thread = started(&small, _i == 0);
    sl_study study = {0};
    sl_study_wish good = wish_of_all(&small.scene);
    sl_study_thread_ask(thread, &good);
    wait_for_all(thread, &study);
    for (int i = 0; i < SL_STUDIES; i++) {
        ck_assert_int_eq(study.error[i].code, SL_OK);
    }
    sl_study_wish too_warm = wish_of_all(&small.scene);
    too_warm.y = (sl_axis){SL_SETTING_WARMER, 0.0, 10.0, 0};
    sl_study_thread_ask(thread, &too_warm);
    wait_for_all(thread, &study);
    ck_assert_int_ne(study.error[SL_STUDY_MAP].code, SL_OK);
    ck_assert_ptr_null(study.map);
    ck_assert_int_eq(study.error[SL_STUDY_RANK].code, SL_OK);
    ck_assert_int_eq(study.members, SL_MEMBERS);
    sl_study_wish on_head = wish_of_all(&small.scene);
    on_head.scene->place = SL_PLACE_HEAD;
    on_head.observations = (sl_observations){1, {{.arm = ARM_6, .zone = ZONE_RED, .minute = 1e6}}};
    sl_study_thread_ask(thread, &on_head);
    wait_for_all(thread, &study);
    for (int i = 0; i < SL_STUDIES; i++) {
        ck_assert_int_ne(study.error[i].code, SL_OK);
    }
    ck_assert_ptr_null(study.rank);
    ck_assert_int_eq(study.members, 0);
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
ADD_LOOP(rank_map_and_answers_come_in_slices_as_in_one_go, 0, 2)
ADD(without_a_thread_a_slice_is_short)
ADD(a_newer_wish_comes_between_slices)
ADD_LOOP(what_could_not_be_found_says_why, 0, 2)
ADD_LOOP(it_can_be_stopped_in_the_middle, 0, 2)
END_SUITE
