/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A checker of timetables, written apart from the scheduler and from the words of a fair test
 * alone, over 10,000 random plans: nobody does two things at once, every swatch of an arm lies
 * equally long, no label's time is passed, each block holds each arm once, contacts come in the
 * block's order, mixes are as old at contact as the scene says, blocks follow each other, and the
 * same seed gives the same plan.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/plan.h"
#include "unit/small_scene.h"
#include "unit/suite.h"

enum { PLANS = 10000 };

/* As ck_assert_msg, which writes to a pipe even when it holds: too slow for millions of checks. */
#define HOLDS(condition, ...)                                                                                \
    if (!(condition)) {                                                                                      \
        ck_abort_msg(__VA_ARGS__);                                                                           \
    }

static uint64_t state;

/* SplitMix64 (Steele, Lea & Flood 2014). */
static int between(int least, int most)
{
    uint64_t z = (state += UINT64_C(0x9E3779B97F4A7C15));
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return least + (int)((z ^ (z >> 31)) % (uint64_t)(most - least + 1));
}

static void scene_shake(small_scene *small)
{
    small_scene_fill(small);
    small->scene.room_c = 24.0; /* warmer hair counts as a head */
    for (int m = 0; m < small->scene.n_mixes; m++) {
        small->mixes[m].label_max_min = between(0, 2) ? between(10, 60) : 0.0;
        small->mixes[m].label_from_contact = between(0, 1);
    }
    for (int a = 0; a < small->scene.n_arms; a++) {
        for (int i = 0; i < small->arms[a].n_steps; i++) {
            sl_step *const step = &small->arms[a].steps[i];
            if (step->kind == SL_STEP_APPLY) {
                step->duration_min = between(4, 50);
                step->mix_age_min = between(0, 6);
            }
        }
    }
    small->scene.n_arms = between(1, SMALL_ARMS);
}

static sl_plan_request request_draw(void)
{
    sl_plan_request request = sl_plan_request_default();
    request.blocks = between(1, 5);
    request.people = between(1, 4);
    request.apply_s = between(10, 120);
    request.remove_s = between(10, 120);
    request.look_s = between(5, 40);
    request.mix_s = between(0, 90);
    request.seed = (uint64_t)between(0, 1 << 30);
    const bool ladder = between(0, 4) == 0;
    for (int at = between(2, 6), n = between(0, 4); n > 0; n--, at += between(2, 9)) {
        if (ladder) {
            request.rung_min[request.n_rungs++] = at;
        } else {
            request.look_min[request.n_looks++] = at;
        }
    }
    return request;
}

static void hands_are_one_pair_each(const sl_plan *plan)
{
    for (int i = 0; i < plan->n_tasks; i++) {
        const sl_task *const one = &plan->tasks[i];
        ck_assert(one->person >= 0 && one->person < plan->request.people);
        ck_assert(one->start_s >= 0 && one->length_s > 0);
        ck_assert(one->start_s + one->length_s <= plan->end_s);
        for (int j = i + 1; j < plan->n_tasks; j++) {
            const sl_task *const other = &plan->tasks[j];
            HOLDS(one->start_s <= other->start_s, "tasks are not in order");
            HOLDS(one->person != other->person || one->start_s + one->length_s <= other->start_s,
                  "person %d has two things to do at %d s", one->person, other->start_s);
        }
    }
}

static const sl_task *find(const sl_plan *plan, int swatch, sl_task_kind kind, int rung)
{
    for (int i = 0; i < plan->n_tasks; i++) {
        const sl_task *const task = &plan->tasks[i];
        if (task->swatch == swatch && task->kind == kind && (rung < 0 || task->rung == rung)) {
            return task;
        }
    }
    return NULL;
}

/* Small scenes have at most one application an arm, and it comes first. */
static void times_are_fair(const sl_plan *plan)
{
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        const sl_arm *const arm = &plan->scene->arms[swatch->arm];
        if (arm->n_steps == 0) {
            ck_assert(swatch->contact_s < 0 && swatch->person < 0);
            continue;
        }
        const sl_step *const step = &arm->steps[0];
        const sl_mix *const mix = &plan->scene->mixes[step->mix];
        const sl_task *const applied = find(plan, i, SL_TASK_APPLY, -1);
        const sl_task *const mixed = find(plan, i, SL_TASK_MIX, -1);
        ck_assert_ptr_nonnull(applied);
        ck_assert_int_eq(applied->start_s, swatch->contact_s);
        ck_assert(applied->person == swatch->person);
        if (mixed) {
            ck_assert_int_eq(swatch->contact_s - mixed->start_s - mixed->length_s,
                             (int)lround(60.0 * step->mix_age_min));
        }
        const double age = mix->label_from_contact ? 0.0 : step->mix_age_min;
        for (int j = 0; j < plan->n_tasks; j++) {
            const sl_task *const task = &plan->tasks[j];
            if (task->swatch == i && task->kind == SL_TASK_REMOVE && mix->label_max_min > 0.0) {
                HOLDS((task->start_s - swatch->contact_s) / 60.0 + age <= mix->label_max_min + 1e-9 ||
                          task->start_s == swatch->contact_s,
                      "swatch %s passes its label", swatch->code);
            }
        }
        const double wished = 60.0 * step->duration_min;
        if (!swatch->cut_short && plan->request.n_rungs == 0) {
            ck_assert_int_eq(swatch->water_s - swatch->contact_s, (int)lround(wished));
        }
        HOLDS(find(plan, i, SL_TASK_REMOVE, -1) && swatch->water_s >= swatch->contact_s,
              "swatch %s is never rinsed", swatch->code);
        for (int r = 0; r < plan->request.n_rungs; r++) {
            const sl_task *const rung = find(plan, i, SL_TASK_REMOVE, r);
            ck_assert(rung || swatch->cut_short);
            ck_assert(!rung || rung->start_s - swatch->contact_s == 60 * plan->request.rung_min[r]);
        }
        for (int j = 0; j < plan->n_swatches; j++) {
            const sl_planned_swatch *const twin = &plan->swatches[j];
            HOLDS(twin->arm != swatch->arm ||
                      twin->water_s - twin->contact_s == swatch->water_s - swatch->contact_s,
                  "%s and %s lie unequally long", swatch->code, twin->code);
        }
    }
}

static void blocks_are_whole(const sl_plan *plan)
{
    const int n_arms = plan->scene->n_arms;
    ck_assert_int_eq(plan->n_swatches, plan->request.blocks * n_arms);
    for (int b = 0; b < plan->request.blocks; b++) {
        bool seen[SMALL_ARMS] = {false};
        int last = -1;
        for (int i = b * n_arms; i < (b + 1) * n_arms; i++) {
            const sl_planned_swatch *const swatch = &plan->swatches[i];
            ck_assert_int_eq(swatch->block, b);
            ck_assert(!seen[swatch->arm]);
            seen[swatch->arm] = true;
            ck_assert(swatch->contact_s < 0 || swatch->contact_s >= last);
            last = swatch->contact_s < 0 ? last : swatch->contact_s;
        }
    }
    for (int i = 0; i < plan->n_tasks; i++) {
        for (int j = 0; j < plan->n_tasks; j++) {
            const sl_task *const early = &plan->tasks[i], *const late = &plan->tasks[j];
            const bool leftover = early->kind == SL_TASK_LEAVE || early->kind == SL_TASK_EMPTY;
            HOLDS(leftover || plan->swatches[early->swatch].block >= plan->swatches[late->swatch].block ||
                      early->start_s + early->length_s <= late->start_s,
                  "a block begins before the one before is done");
        }
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        for (int j = 0; j < i; j++) {
            HOLDS(strcmp(plan->swatches[i].code, plan->swatches[j].code) != 0, "two are called %s",
                  plan->swatches[i].code);
        }
    }
}

/* Every bowl is left open after its mix was put on and emptied after the rinse, once each; water leaves none.
 */
static void leftovers_are_seen_to(const sl_plan *plan)
{
    int bowls = 0, seen_to = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_arm *const arm = &plan->scene->arms[plan->swatches[i].arm];
        const sl_task *const left = find(plan, i, SL_TASK_LEAVE, -1), *const emptied =
                                                                          find(plan, i, SL_TASK_EMPTY, -1);
        const bool bowl = arm->n_steps > 0 && plan->scene->mixes[arm->steps[0].mix].class_ != SL_MIX_WATER;
        HOLDS((left != NULL) == bowl && (emptied != NULL) == bowl, "%s: its leftover",
              plan->swatches[i].code);
        if (bowl) {
            const sl_task *const applied = find(plan, i, SL_TASK_APPLY, -1);
            bowls++;
            HOLDS(left->start_s >= applied->start_s + applied->length_s, "%s is left open before it is used",
                  plan->swatches[i].code);
            HOLDS(emptied->start_s >= plan->swatches[i].water_s + plan->request.remove_s,
                  "%s is emptied before the rinse", plan->swatches[i].code);
            ck_assert(left->person == plan->swatches[i].person && emptied->person == left->person);
        }
    }
    for (int i = 0; i < plan->n_tasks; i++) {
        seen_to += plan->tasks[i].kind == SL_TASK_LEAVE || plan->tasks[i].kind == SL_TASK_EMPTY ? 1 : 0;
    }
    ck_assert_int_eq(seen_to, 2 * bowls);
}

static void same_again(const sl_plan *plan)
{
    sl_plan *again = NULL;
    ck_assert(sl_plan_make(&again, plan->scene, &plan->request, NULL));
    ck_assert_int_eq(again->n_tasks, plan->n_tasks);
    ck_assert_mem_eq(again->tasks, plan->tasks, sizeof *plan->tasks * (size_t)plan->n_tasks);
    for (int i = 0; i < plan->n_swatches; i++) {
        ck_assert_int_eq(again->swatches[i].arm, plan->swatches[i].arm);
        ck_assert_str_eq(again->swatches[i].code, plan->swatches[i].code);
    }
    sl_plan_free(again);
}

START_TEST(a_random_plan_is_unfair_or_asks_too_much_of_someone)
{
    small_scene small;
    state = 20261125;
    for (int i = 0; i < PLANS; i++) {
        scene_shake(&small);
        const sl_plan_request request = request_draw();
        sl_plan *plan = NULL;
        ck_assert_msg(sl_plan_make(&plan, &small.scene, &request, NULL), "plan %d", i);
        hands_are_one_pair_each(plan);
        times_are_fair(plan);
        blocks_are_whole(plan);
        leftovers_are_seen_to(plan);
        if (i % 50 == 0) {
            same_again(plan);
        }
        sl_plan_free(plan);
    }
}
END_TEST

/* Places are drawn evenly: over 3,000 plans of four arms, arm 0 lies first in a quarter of the
 * blocks. Its count is binomial, sd = sqrt(3000 * 3/16) = 23.7; five of them are allowed. With one
 * block nothing is drawn again, so nothing bends the odds. */
START_TEST(an_arm_comes_first_too_often)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.n_arms = 4;
    int first[4] = {0};
    for (uint64_t seed = 0; seed < 3000; seed++) {
        sl_plan_request request = sl_plan_request_default();
        request.blocks = 1;
        request.seed = seed;
        sl_plan *plan = NULL;
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        first[plan->swatches[0].arm]++;
        sl_plan_free(plan);
    }
    for (int a = 0; a < 4; a++) {
        ck_assert_msg(abs(first[a] - 750) < 119, "arm %d came first %d times", a, first[a]);
    }
}
END_TEST

START_SUITE("random_plans")
ADD(a_random_plan_is_unfair_or_asks_too_much_of_someone)
ADD(an_arm_comes_first_too_often)
END_SUITE
