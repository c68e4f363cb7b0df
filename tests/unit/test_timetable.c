/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is asked of a plan, the tasks of one swatch by hand, and the promises of a whole timetable.
 */
#include "plan/timetable.h"

#include <stdio.h>
#include <string.h>

#include "small_scene.h"
#include "suite.h"

/* Nobody needs hands for hair on which nothing is put. */
START_TEST(untreated_hair_has_no_person_no_contact_and_no_water)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    sl_plan_request request = sl_plan_request_default();
    request.blocks = 2;
    request.people = 2;
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    int untreated = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        const bool none = swatch->arm == ARM_UNTREATED;
        untreated += none ? 1 : 0;
        ck_assert_int_eq(swatch->person, none ? -1 : swatch->person == 1 ? 1 : 0);
        ck_assert_int_eq(swatch->contact_s < 0, none);
        ck_assert_int_eq(swatch->water_s, none ? -1 : swatch->contact_s + 1800);
    }
    ck_assert_int_eq(untreated, 2);
    sl_plan_free(plan);
}
END_TEST

static bool planned(const sl_scene *scene, const sl_plan_request *request, sl_error *error)
{
    sl_plan *plan = NULL;
    const bool good = sl_plan_make(&plan, scene, request, error);
    ck_assert_int_eq(good, plan != NULL);
    sl_plan_free(plan);
    return good;
}

/* Each number of a request is taken at both of its ends; beyond, the error tells it and the range. */
START_TEST(a_request_is_planned_up_to_its_bounds)
{
    static const struct {
        const char *below, *above, *wanted;
        double least, most, beyond;
    } cases[] = {{"repeats: 0", "repeats: 13", "1 to 12 belong there", 1, SL_PLAN_MOST_BLOCKS, 1},
                 {"people: 0", "people: 9", "1 to 8 belong there", 1, SL_PLAN_MOST_PEOPLE, 1},
                 {"seconds to apply: 4", "seconds to apply: 1801", "5 to 1800 belong there", 5, 1800, 1},
                 {"seconds to remove: 4", "seconds to remove: 1801", "5 to 1800 belong there", 5, 1800, 1},
                 {"seconds to look: 4", "seconds to look: 1801", "5 to 1800 belong there", 5, 1800, 1},
                 {"seconds to mix: -1", "seconds to mix: 1801", "0 to 1800 belong there", 0, 1800, 1},
                 {"waste: -0.25", "waste: 1.25", "0 to 1 belong there", 0.0, 1.0, 0.25},
                 {"step of the scale in grams: -0.249", "step of the scale in grams: 10.25",
                  "0.001 to 10 belong there", 0.001, 10.0, 0.25}};
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.n_arms = ARM_WATER + 1;
    small.arms[ARM_WASHING].n_steps = small.arms[ARM_WATER].n_steps = 1;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int end = 0; end < 4; end++) {
            const double to = end < 2 ? cases[i].least - (end == 0 ? cases[i].beyond : 0.0)
                                      : cases[i].most + (end == 3 ? cases[i].beyond : 0.0);
            sl_plan_request request = sl_plan_request_default();
            request.blocks = i == 0 ? (int)to : 1;
            request.people = i == 1 ? (int)to : request.people;
            request.apply_s = i == 2 ? (int)to : request.apply_s;
            request.remove_s = i == 3 ? (int)to : request.remove_s;
            request.look_s = i == 4 ? (int)to : request.look_s;
            request.mix_s = i == 5 ? (int)to : request.mix_s;
            request.waste = i == 6 ? to : request.waste;
            request.scale_g = i == 7 ? to : request.scale_g;
            sl_error error = {0};
            const bool inside = end == 1 || end == 2;
            ck_assert_msg(planned(&small.scene, &request, &error) == inside, "%zu to %g: %s", i, to,
                          error.found);
            if (!inside) {
                ck_assert_int_eq(error.code, SL_ERR_USAGE);
                ck_assert_str_eq(error.found, end == 0 ? cases[i].below : cases[i].above);
                ck_assert_str_eq(error.wanted, cases[i].wanted);
            }
        }
    }
}
END_TEST

START_TEST(looks_and_pieces_rise_from_minute_1_to_600)
{
    static const struct {
        int n, minute[3];
        const char *found; /* NULL: it is good */
    } cases[] = {{2, {1, 2}, NULL},          {2, {0, 2}, "minute 0"}, {2, {1, 1}, "minute 1"},
                 {2, {2, 1}, "minute 1"},    {2, {1, 600}, NULL},     {2, {1, 601}, "minute 601"},
                 {3, {5, 6, 6}, "minute 6"}, {1, {600}, NULL}};
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int pieces = 0; pieces < 2; pieces++) {
            sl_plan_request request = sl_plan_request_default();
            request.remove_s = request.look_s = 5;
            *(pieces ? &request.n_rungs : &request.n_looks) = cases[i].n;
            memcpy(pieces ? request.rung_min : request.look_min, cases[i].minute, sizeof cases[i].minute);
            sl_error error = {0};
            ck_assert_msg(planned(&small.scene, &request, &error) == !cases[i].found, "case %zu: %s", i,
                          error.found);
            if (cases[i].found) {
                char found[64];
                snprintf(found, sizeof found, "%s: %s", pieces ? "pieces of the ladder" : "looks",
                         cases[i].found);
                ck_assert_str_eq(error.found, found);
                ck_assert_str_eq(error.wanted, "minutes of 1 to 600, each later than the one before");
            }
        }
    }
}
END_TEST

static void task_is(const sl_task *task, sl_task_kind kind, int step, int rung, int start_s, int length_s)
{
    ck_assert_int_eq(task->kind, kind);
    ck_assert_int_eq(task->step, step);
    ck_assert_int_eq(task->rung, rung);
    ck_assert_int_eq(task->start_s, start_s);
    ck_assert_int_eq(task->length_s, length_s);
}

/* Worked by hand, in seconds from contact: a mix 2 min old took a minute to stir, the first goes on at 0 and
 * comes off after 30 min; 5 min of rinsing, 2 shampoos of a minute and a rest of 3 later the second goes on.
 * A look must not begin before all is on, nor end after it comes off. */
START_TEST(the_tasks_of_a_swatch_are_those_of_its_steps)
{
    small_scene small;
    small_scene_fill(&small);
    sl_arm *const arm = &small.arms[ARM_6];
    arm->n_steps = 5;
    arm->steps[0].mix_age_min = 2.0;
    arm->steps[1].duration_min = 5.0;
    arm->steps[2].shampoos = 2;
    arm->steps[3] = (sl_step){.kind = SL_STEP_REST, .duration_min = 3.0};
    arm->steps[4] = arm->steps[0];
    arm->steps[4].mix_age_min = 0.0;
    arm->steps[4].duration_min = 10.0;
    sl_plan_request request = sl_plan_request_default();
    request.apply_s = 60;
    request.n_looks = 3;
    request.look_min[0] = 1; /* just when all is on */
    request.look_min[1] = 10;
    request.look_min[2] = 29;
    request.look_s = 60; /* till the mix comes off */
    sl_pattern pattern;
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, NULL));
    ck_assert_int_eq(pattern.n, 10);
    const sl_task *const t = pattern.task;
    task_is(&t[0], SL_TASK_MIX, 0, -1, -180, 60);
    task_is(&t[1], SL_TASK_APPLY, 0, -1, 0, 60);
    task_is(&t[2], SL_TASK_LOOK, 0, -1, 60, 60);
    task_is(&t[3], SL_TASK_LOOK, 0, -1, 600, 60);
    task_is(&t[4], SL_TASK_LOOK, 0, -1, 1740, 60);
    task_is(&t[5], SL_TASK_REMOVE, 0, -1, 1800, 45);
    const int second = 1800 + 300 + 120 + 180;
    task_is(&t[6], SL_TASK_MIX, 4, -1, second - 60, 60);
    task_is(&t[7], SL_TASK_APPLY, 4, -1, second, 60);
    task_is(&t[8], SL_TASK_LOOK, 4, -1, second + 60, 60);
    task_is(&t[9], SL_TASK_REMOVE, 4, -1, second + 600, 45);
    ck_assert_int_eq(pattern.water_s, second + 600);
    ck_assert(!pattern.cut_short);
    request.apply_s = 61; /* all is on a second too late for the first look */
    request.look_s = 61;  /* and the last would end a second too late */
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, NULL));
    ck_assert_int_eq(pattern.n, 7);
    request.mix_s = 0; /* ready mixed */
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, NULL));
    ck_assert_int_eq(pattern.n, 5);
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_WASHING, &request, NULL));
    task_is(&pattern.task[0], SL_TASK_APPLY, 0, -1, 0, 61); /* water is not mixed */
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_UNTREATED, &request, NULL));
    ck_assert_int_eq(pattern.n, 0);
    ck_assert_int_eq(pattern.water_s, -1);
}
END_TEST

/* What comes before the first contact needs no hands, and shifts nothing. */
START_TEST(a_rest_before_the_first_mix_shifts_nothing)
{
    small_scene small;
    small_scene_fill(&small);
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[1] = arm->steps[0];
    arm->steps[0] = (sl_step){.kind = SL_STEP_REST, .duration_min = 7.0};
    arm->n_steps = 2;
    const sl_plan_request request = sl_plan_request_default();
    sl_pattern pattern;
    ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, NULL));
    ck_assert_int_eq(pattern.n, 3);
    task_is(&pattern.task[1], SL_TASK_APPLY, 1, -1, 0, 45);
    task_is(&pattern.task[2], SL_TASK_REMOVE, 1, -1, 1800, 45);
}
END_TEST

/* Pieces of a ladder come off one by one while the label lasts, whatever the step's own time; the last of
 * them is the first water. */
START_TEST(pieces_come_off_while_the_label_lasts)
{
    small_scene small;
    small_scene_fill(&small);
    sl_plan_request request = sl_plan_request_default();
    request.n_rungs = 3;
    request.rung_min[0] = 5;
    request.rung_min[1] = 20;
    request.rung_min[2] = 40;
    for (int label = 39; label <= 41; label++) {
        small.mixes[MIX_POWDER_6].label_max_min = label;
        small.mixes[MIX_POWDER_6].label_from_contact = true;
        sl_pattern pattern;
        ck_assert(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, NULL));
        ck_assert_int_eq(pattern.n, label < 40 ? 4 : 5);
        task_is(&pattern.task[2], SL_TASK_REMOVE, 0, 0, 300, 45);
        task_is(&pattern.task[3], SL_TASK_REMOVE, 0, 1, 1200, 45);
        ck_assert_int_eq(pattern.cut_short, label < 40);
        ck_assert_int_eq(pattern.water_s, label < 40 ? 1200 : 2400);
    }
}
END_TEST

/* How long a mix is planned to stay: as wished, or up to its label, which may count from its mixing. */
START_TEST(a_planned_dwell_ends_with_the_label)
{
    static const struct {
        double label, age, wished;
        bool from_contact;
        int seconds;
        bool cut;
    } cases[] = {{0.0, 5.0, 30.0, false, 1800, false}, {30.0, 0.0, 30.0, false, 1800, false},
                 {30.0, 5.0, 30.0, false, 1500, true}, {30.0, 5.0, 25.0, false, 1500, false},
                 {30.0, 5.0, 30.0, true, 1800, false}, {29.99, 0.0, 30.0, true, 1799, true},
                 {30.0, 40.0, 30.0, false, 0, true},   {-1.0, 0.0, 10.0, false, 600, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_mix mix = {.label_max_min = cases[i].label, .label_from_contact = cases[i].from_contact};
        const sl_step step = {.duration_min = cases[i].wished, .mix_age_min = cases[i].age};
        for (int before = 0; before < 2; before++) {
            bool cut = before == 1; /* what was cut already stays so */
            ck_assert_int_eq(sl_planned_dwell_s(&mix, &step, &cut), cases[i].seconds);
            ck_assert_int_eq(cut, cases[i].cut || before == 1);
        }
    }
}
END_TEST

START_TEST(tasks_that_fall_into_one_another_are_told_by_their_words)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    sl_plan_request request = sl_plan_request_default();
    request.n_looks = 2;
    request.look_min[0] = 5;
    request.look_min[1] = 6;
    for (request.look_s = 60; request.look_s <= 61; request.look_s++) {
        sl_pattern pattern;
        sl_error error = {0};
        const bool good = request.look_s == 60;
        ck_assert_int_eq(sl_pattern_of(&pattern, &small.scene, ARM_6, &request, &error), good);
        ck_assert_int_eq(error.code, good ? SL_OK : SL_ERR_USAGE);
        ck_assert_str_eq(error.found,
                         good ? ""
                              : "strip \"powder + 6 %\": \"wipe and look\" would fall into \"wipe and look\"");
    }
    sl_pattern pattern;
    sl_error looks = {0};
    request.n_looks = 3;
    request.look_min[2] = 7;
    ck_assert(!sl_pattern_of(&pattern, &small.scene, ARM_6, &request, &looks));
    ck_assert_str_eq(looks.wanted, "of its minutes the first 1 can be done");
    request.look_min[0] = 1; /* it falls into nothing by itself; the next one falls into it */
    request.look_min[1] = 2;
    ck_assert(!sl_pattern_of(&pattern, &small.scene, ARM_6, &request, &looks));
    ck_assert_str_eq(looks.wanted, "of its minutes the first 1 can be done");
    request.n_looks = 0;
    small.arms[ARM_6].steps[0].duration_min = 44.0 / 60.0; /* off before it is all on */
    sl_error error = {0};
    ck_assert(!planned(&small.scene, &request, &error));
    ck_assert_str_eq(error.found, "strip \"powder + 6 %\": \"rinse\" would fall into \"apply\"");
    ck_assert_str_eq(error.wanted, "leave more time between them, or take fewer seconds for one");
    small.arms[ARM_6].steps[0].duration_min = 45.0 / 60.0;
    ck_assert(planned(&small.scene, &request, &error));
}
END_TEST

/* Nobody does two things at once, a block begins when all of the one before is done, contacts of a block
 * rise, tasks stand in the order of their beginning; spans and gaps are those of the contacts. */
START_TEST(a_plan_keeps_its_promises_for_any_hands)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.n_arms = ARM_MILD + 1;
    for (int people = 1; people <= 4; people++) {
        sl_plan_request request = sl_plan_request_default();
        request.people = people;
        request.n_looks = 2;
        request.look_min[0] = 10;
        request.look_min[1] = 20;
        sl_plan *plan = NULL;
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        int end[SL_PLAN_MOST_BLOCKS] = {0}, begin[SL_PLAN_MOST_BLOCKS], first[SL_PLAN_MOST_BLOCKS],
            last[SL_PLAN_MOST_BLOCKS], all = 0, span = 0;
        for (int b = 0; b < request.blocks; b++) {
            begin[b] = first[b] = 1 << 30;
            last[b] = -1;
        }
        for (int i = 0; i < plan->n_tasks; i++) {
            const sl_task *const task = &plan->tasks[i];
            const int block = plan->swatches[task->swatch].block, done = task->start_s + task->length_s;
            const bool leftover = task->kind == SL_TASK_LEAVE || task->kind == SL_TASK_EMPTY;
            end[block] = done > end[block] && !leftover ? done : end[block]; /* nothing waits for them */
            begin[block] = task->start_s < begin[block] ? task->start_s : begin[block];
            all = done > all ? done : all;
            if (i > 0) {
                const sl_task *const before = &plan->tasks[i - 1];
                ck_assert(before->start_s < task->start_s ||
                          (before->start_s == task->start_s && before->person < task->person));
            }
            for (int k = 0; k < i; k++) {
                const sl_task *const other = &plan->tasks[k];
                ck_assert(other->person != task->person || other->start_s + other->length_s <= task->start_s);
            }
            ck_assert(task->person >= 0 && task->person < people);
        }
        int before = -1;
        for (int i = 0; i < plan->n_swatches; i++) {
            const sl_planned_swatch *const swatch = &plan->swatches[i];
            ck_assert_int_eq(swatch->block, i / small.scene.n_arms);
            ck_assert_int_eq(swatch->place, i % small.scene.n_arms);
            if (swatch->contact_s >= 0) {
                ck_assert_int_ge(swatch->contact_s, before);
                before = swatch->contact_s;
                first[swatch->block] =
                    swatch->contact_s < first[swatch->block] ? swatch->contact_s : first[swatch->block];
                last[swatch->block] = swatch->contact_s;
            }
        }
        for (int b = 0; b < request.blocks; b++) {
            ck_assert(b == 0 || begin[b] >= end[b - 1]);
            span = last[b] - first[b] > span ? last[b] - first[b] : span;
        }
        ck_assert_int_eq(begin[0], 0);
        ck_assert_int_eq(begin[1], end[0]); /* and not a second later */
        ck_assert_int_eq(plan->end_s, all);
        ck_assert_int_eq(plan->span_s, span);
        ck_assert_int_eq(plan->block_gap_s, first[request.blocks - 1] - first[0]);
        sl_plan_free(plan);
    }
}
END_TEST

START_SUITE("timetable")
ADD(a_request_is_planned_up_to_its_bounds)
ADD(looks_and_pieces_rise_from_minute_1_to_600)
ADD(the_tasks_of_a_swatch_are_those_of_its_steps)
ADD(a_rest_before_the_first_mix_shifts_nothing)
ADD(pieces_come_off_while_the_label_lasts)
ADD(a_planned_dwell_ends_with_the_label)
ADD(tasks_that_fall_into_one_another_are_told_by_their_words)
ADD(a_plan_keeps_its_promises_for_any_hands)
ADD(untreated_hair_has_no_person_no_contact_and_no_water)
END_SUITE
