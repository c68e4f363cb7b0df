/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/plan.h"

#include <math.h>
#include <string.h>

#include "plan/order.h"
#include "small_scene.h"
#include "suite.h"

/* Worked by hand: five swatches of 2 g at 3 g of mix per gram and ten per cent more make
 * 33 g; 1 part powder to 2 parts liquid, the liquid half 6 % developer and half water:
 * 11 g each; the liquid is 3 % (C1V1 = C2V2), the whole mix 6 * 1/3 = 2 %. */
START_TEST(grams_follow_the_parts_by_weight)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_mix mix = small.mixes[MIX_POWDER_6];
    mix.developer_parts = 1.0;
    mix.water_parts = 1.0;
    const sl_weighing grams = sl_weigh(&mix, &small.scene.chemistry, 5 * 2.0, 3.0, 0.10);
    ck_assert_double_eq_tol(grams.total_g, 33.0, 1e-9);
    ck_assert_double_eq_tol(grams.powder_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.developer_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.water_g, 11.0, 1e-9);
    ck_assert_double_eq_tol(grams.liquid_pct, 3.0, 1e-9);
    ck_assert_double_eq_tol(grams.on_hair_pct, 2.0, 1e-9);
    ck_assert_double_eq_tol(grams.liquid_vol, sl_volume_strength(3.0), 1e-9);
}
END_TEST

START_TEST(a_mix_without_powder_weighs_no_powder)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    const sl_weighing grams = sl_weigh(&small.mixes[MIX_MILD], &small.scene.chemistry, 2.0, 6.0, 0.0);
    ck_assert_double_eq(grams.powder_g, 0.0);
    ck_assert_double_eq_tol(grams.developer_g + grams.water_g, 12.0, 1e-12);
}
END_TEST

/* Worked by hand: a scale of 0.1 g shows 2.04 g of powder as 2.0 g; half a step is a fortieth. */
START_TEST(a_scale_shows_what_it_cannot_show)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;                            /* warmer hair counts as a head */
    const sl_mix *const mix = &small.mixes[MIX_POWDER_6]; /* 1 : 2 */
    const sl_weighing exact = sl_weigh(mix, &small.scene.chemistry, 2.0, 3.06, 0.0);
    ck_assert_double_eq_tol(exact.powder_g, 2.04, 1e-9);
    const sl_weighing shown = sl_weigh_on_scale(mix, &small.scene.chemistry, exact, 0.1);
    ck_assert_double_eq_tol(shown.powder_g, 2.0, 1e-9);
    ck_assert_double_eq_tol(shown.developer_g, 4.1, 1e-9);
    ck_assert_double_eq_tol(sl_scale_error(shown, 0.1), 0.05 / 2.0, 1e-9);
    /* as little as nothing is never nothing */
    const sl_weighing least = sl_weigh_on_scale(mix, &small.scene.chemistry, exact, 10.0);
    ck_assert_double_eq_tol(least.powder_g, 10.0, 1e-9);
}
END_TEST

/* The classroom example of one person, 45 s a swatch, 16 min: up to 21 swatches lie in one batch
 * without a clash, floor(16 * 60 / 45); common practice, no source. */
START_TEST(one_slot_does_not_follow_another_until_hands_run_out)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_plan_request request = sl_plan_request_default();
    request.blocks = 1;
    request.mix_s = 0;
    static sl_arm arms[22];
    for (int a = 0; a < 22; a++) {
        arms[a] = small.arms[ARM_3];
        arms[a].steps[0].duration_min = 16.0;
    }
    small.scene.arms = arms;
    sl_plan *plan = NULL;
    small.scene.n_arms = 21;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    for (int i = 0; i < 21; i++) {
        ck_assert_int_eq(plan->swatches[i].contact_s - plan->swatches[0].contact_s, 45 * i);
        ck_assert_int_eq(plan->swatches[i].water_s - plan->swatches[i].contact_s, 960);
    }
    ck_assert_int_eq(plan->span_s, 20 * 45);
    sl_plan_free(plan);
    small.scene.n_arms = 22; /* the last has to wait: 21 * 45 s = 945 s, and 945 + 45 > 960 */
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    ck_assert_int_gt(plan->swatches[21].contact_s - plan->swatches[0].contact_s, 945);
    sl_plan_free(plan);
}
END_TEST

/* Hands are free from the second in which a task ends: with a dwell of 21 slots of 45 s, the last of 21
 * swatches is put on until the very second in which the first is rinsed. */
START_TEST(a_task_does_not_begin_where_another_ends)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_plan_request request = sl_plan_request_default();
    request.blocks = 1;
    request.mix_s = 0;
    static sl_arm arms[21];
    for (int a = 0; a < 21; a++) {
        arms[a] = small.arms[ARM_3];
        arms[a].steps[0].duration_min = 21 * 45 / 60.0;
    }
    small.scene.arms = arms;
    small.scene.n_arms = 21;
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    for (int i = 0; i < 21; i++) {
        ck_assert_int_eq(plan->swatches[i].contact_s, 45 * i);
        ck_assert_int_eq(plan->swatches[i].water_s, 45 * (i + 21));
    }
    sl_plan_free(plan);
}
END_TEST

START_TEST(more_hands_do_not_help)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_plan_request request = sl_plan_request_default();
    sl_plan *one = NULL, *two = NULL;
    ck_assert(sl_plan_make(&one, &small.scene, &request, NULL));
    request.people = 2;
    ck_assert(sl_plan_make(&two, &small.scene, &request, NULL));
    ck_assert_int_lt(two->end_s, one->end_s);
    ck_assert_int_lt(two->span_s, one->span_s);
    for (int i = 0; i < one->n_tasks; i++) { /* mixing comes before contact, and not before the day */
        ck_assert(one->tasks[i].start_s >= 0 && two->tasks[i].start_s >= 0);
    }
    ck_assert_int_eq(one->tasks[0].start_s, 0); /* which begins with it */
    sl_plan_free(one);
    sl_plan_free(two);
}
END_TEST

START_TEST(the_label_does_not_shorten_a_dwell)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;                      /* warmer hair counts as a head */
    small.mixes[MIX_POWDER_6].label_max_min = 20.0; /* from mixing; the mix is some minutes old */
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    const double age = small.arms[ARM_6].steps[0].mix_age_min;
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        if (swatch->arm == ARM_6) {
            ck_assert(swatch->cut_short);
            ck_assert_int_eq(swatch->water_s - swatch->contact_s, (int)(60.0 * (20.0 - age)));
        }
    }
    sl_plan_free(plan);
}
END_TEST

/* Pieces at 5 and 30 min under a label of 4 min: none can be cut, but the mix comes off all the same. */
START_TEST(a_label_shorter_than_the_first_piece_leaves_the_mix_on)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    small.mixes[MIX_POWDER_6].label_max_min = 4.0;
    small.mixes[MIX_POWDER_6].label_from_contact = true;
    request.n_rungs = 2;
    request.rung_min[0] = 5;
    request.rung_min[1] = 30;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    int found = 0;
    for (int i = 0; i < plan->n_tasks; i++) {
        const sl_task *const task = &plan->tasks[i];
        const sl_planned_swatch *const swatch = &plan->swatches[task->swatch];
        if (swatch->arm == ARM_6 && task->kind == SL_TASK_REMOVE) {
            ck_assert(task->rung == -1 && swatch->cut_short);
            ck_assert_int_eq(task->start_s - swatch->contact_s, 240);
            ck_assert_int_eq(swatch->water_s - swatch->contact_s, 240);
            found++;
        }
    }
    ck_assert_int_eq(found, request.blocks);
    sl_plan_free(plan);
}
END_TEST

START_TEST(controls_are_not_recognised)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_UNTREATED), ARM_UNTREATED);
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_WASHING), ARM_WASHING);
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_UNDYED_TREATED), ARM_UNDYED);
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_LIGHTENER), -1);
}
END_TEST

START_TEST(one_change_is_not_told_from_two)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    bool differs[SL_DIFFERENCES];
    ck_assert_int_eq(sl_arms_differ(&small.scene, ARM_3, ARM_6, differs), 1);
    ck_assert(differs[SL_DIFFERS_STRENGTH]);
    small.arms[ARM_6].steps[0].duration_min += 5.0;
    ck_assert_int_eq(sl_arms_differ(&small.scene, ARM_3, ARM_6, differs), 2);
    ck_assert(differs[SL_DIFFERS_DWELL]);
    ck_assert_int_eq(sl_arms_differ(&small.scene, ARM_6, ARM_6, differs), 0);
    ck_assert_int_eq(sl_arms_differ(&small.scene, ARM_UNTREATED, ARM_6, differs), -1);
}
END_TEST

/* One change to one of two equal arms is that difference, and no other one; either way round. */
START_TEST(a_change_of_one_thing_is_told_as_another_or_as_two)
{
    small_scene small;
    for (int changed = 0; changed < SL_DIFFERENCES; changed++) {
        small_scene_fill(&small);
        sl_arm *const arm = &small.arms[ARM_6];
        sl_mix *const mix = &small.mixes[MIX_POWDER_6];
        small.mixes[MIX_POWDER_3] = *mix;
        small.arms[ARM_3] = *arm;
        small.arms[ARM_3].steps[0].mix = MIX_POWDER_3;
        const sl_step extra[2] = {arm->steps[0], arm->steps[1]};
        switch ((sl_difference)changed) {
        case SL_DIFFERS_POWDER:
            mix->activity = 0.9;
            break;
        case SL_DIFFERS_STRENGTH:
            mix->developer_pct = 5.0;
            break;
        case SL_DIFFERS_RATIO:
            mix->developer_parts = 3.0;
            break;
        case SL_DIFFERS_DWELL:
            arm->steps[0].duration_min = 29.0;
            break;
        case SL_DIFFERS_AGE:
            arm->steps[0].mix_age_min = 1.0;
            break;
        case SL_DIFFERS_GRAMS:
            arm->steps[0].mix_g_per_g = 5.0;
            break;
        case SL_DIFFERS_COVER:
            arm->steps[0].covered = false;
            break;
        case SL_DIFFERS_WETNESS:
            arm->steps[0].hair_water_g_g = 0.4;
            break;
        case SL_DIFFERS_ROUNDS: /* and no rinse more */
            arm->steps[arm->n_steps++] = extra[0];
            break;
        case SL_DIFFERS_WASHING:
            arm->steps[arm->n_steps++] = extra[1];
            break;
        case SL_DIFFERS_DYE:
            arm->undyed = true;
            break;
        case SL_DIFFERENCES:
            break;
        }
        for (int turned = 0; turned < 2; turned++) {
            bool differs[SL_DIFFERENCES];
            ck_assert_int_eq(
                sl_arms_differ(&small.scene, turned ? ARM_6 : ARM_3, turned ? ARM_3 : ARM_6, differs), 1);
            ck_assert_msg(differs[changed], "%s", sl_difference_word((sl_difference)changed));
        }
    }
}
END_TEST

/* Each way in which two powders or other parts differ is one difference of powders. */
START_TEST(powders_of_another_kind_are_alike)
{
    small_scene small;
    small_scene_fill(&small);
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    const sl_mix same = *mix;
    small.mixes[MIX_POWDER_3] = same;
    bool differs[SL_DIFFERENCES];
    for (int i = 0; i < 9; i++) {
        *mix = same;
        mix->class_ = i == 1 ? SL_MIX_LIGHTENER : i == 2 ? SL_MIX_TWO_PART : mix->class_;
        mix->mechanism = i == 3 ? SL_MECHANISM_REDUCTIVE : mix->mechanism;
        mix->potassium_persulfate += i == 4 ? 0.1 : 0.0;
        mix->ammonium_persulfate += i == 5 ? 0.1 : 0.0;
        mix->sodium_persulfate += i == 6 ? 0.1 : 0.0;
        mix->percarbonate += i == 7 ? 0.1 : 0.0;
        mix->powder_parts = i == 8 ? 0.0 : mix->powder_parts;
        ck_assert_int_eq(sl_arms_differ(&small.scene, ARM_3, ARM_6, differs), i == 0 ? 0 : 1);
        ck_assert(differs[SL_DIFFERS_POWDER] == (i > 0));
    }
}
END_TEST

/* docs/science.md, "A fair plan": no arm in the same outer third of every block. */
START_TEST(an_order_leaves_an_arm_in_one_outer_third_of_every_block)
{
    enum { MOST_ARMS = 9, BLOCKS = 3 };
    int order[MOST_ARMS * BLOCKS];
    char code[MOST_ARMS * BLOCKS][SL_PLAN_CODE];
    for (int n_arms = 6; n_arms <= MOST_ARMS; n_arms++) {
        for (uint64_t seed = 0; seed < 300; seed++) {
            bool clustered = true;
            ck_assert(sl_order_draw(seed, BLOCKS, n_arms, order, code, &clustered, NULL));
            ck_assert(!clustered); /* of 200 tries one is good: about half of all are */
            int always[2][MOST_ARMS] = {{0}};
            for (int i = 0; i < BLOCKS * n_arms; i++) {
                const int place = i % n_arms; /* wholly in the first, in the last third */
                always[0][order[i]] += 3 * (place + 1) <= n_arms;
                always[1][order[i]] += 3 * place >= 2 * n_arms;
            }
            for (int a = 0; a < n_arms; a++) {
                ck_assert(always[0][a] < BLOCKS && always[1][a] < BLOCKS);
            }
        }
    }
}
END_TEST

START_TEST(rinsing_all_together_costs_nothing)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    sl_plan_error together, one_bowl;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    ck_assert(sl_plan_if_together(plan, solver, &together, NULL));
    ck_assert(together.known && together.gap_min > 0.0 && together.unfair < together.fair);
    /* the same difference read from the scene's own timeline: longer by the gap */
    sl_timeline *timeline = NULL;
    sl_arm longer[SMALL_ARMS];
    memcpy(longer, small.arms, sizeof longer);
    for (int a = 0; a < small.scene.n_arms; a++) {
        longer[a].contact_min = 0.0;
        longer[a].steps[0].duration_min += longer[a].n_steps > 0 ? together.gap_min : 0.0;
    }
    sl_scene scene = small.scene;
    scene.arms = longer;
    scene.until_min += together.gap_min;
    sl_cell cell;
    ck_assert(sl_timeline_solve(&timeline, &scene, NULL, 0, solver, NULL, NULL));
    sl_timeline_at(timeline, together.arm, together.zone, longer[together.arm].steps[0].duration_min, NULL,
                   &cell);
    ck_assert_double_eq_tol(cell.colour_left, together.unfair, 1e-9);
    ck_assert(sl_plan_if_one_bowl(plan, solver, &one_bowl, NULL));
    ck_assert(one_bowl.known && one_bowl.gap_min > together.gap_min);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_plan_free(plan);
}
END_TEST

/* Two zones of one hair and one recipe differ by the same in every arm: the first of them is named. */
START_TEST(of_zones_that_differ_alike_the_last_is_named)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.n_zones = ZONE_VIOLET + 1;
    small.zones[ZONE_ROOT] = small.zones[ZONE_UNDYED];
    small.zones[ZONE_VIOLET].hair = small.zones[ZONE_RED].hair;
    small.zones[ZONE_VIOLET].recipe = small.zones[ZONE_RED].recipe;
    const sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    sl_plan_error together;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    ck_assert(sl_plan_if_together(plan, solver, &together, NULL));
    ck_assert(together.known);
    ck_assert_int_eq(together.zone, ZONE_RED);
    sl_solver_free(solver);
    sl_plan_free(plan);
}
END_TEST

START_TEST(hair_is_weighed_for_fewer_swatches_than_there_are)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.scene.hair_g = 1.5;
    sl_plan_request request = sl_plan_request_default();
    request.blocks = 3;
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
    ck_assert_int_eq(plan->n_swatches, 3 * SMALL_ARMS);
    ck_assert_double_eq_tol(plan->hair_g, 1.5 * 3 * SMALL_ARMS, 1e-12);
    sl_plan_free(plan);
}
END_TEST

/* Two rounds, two minutes of rinsing between, a mix one minute old: with 45 s to rinse and 60 s to
 * mix one pair of hands is not enough, two are. */
START_TEST(one_person_mixes_while_rinsing)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_arm *const arm = &small.arms[ARM_3];
    arm->steps[0].mix_age_min = 1.0;
    arm->steps[2] = arm->steps[0];
    arm->n_steps = 3;
    sl_plan_request request = sl_plan_request_default();
    sl_error error = {.code = SL_OK};
    sl_plan *plan = NULL;
    ck_assert(!sl_plan_make(&plan, &small.scene, &request, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
    for (request.people = 2; request.people <= 4; request.people++) {
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        int mixers = 0;
        for (int i = 0; i < plan->n_tasks; i++) {
            const sl_task *const task = &plan->tasks[i];
            ck_assert(task->person >= 0 && task->person < request.people);
            mixers += task->kind == SL_TASK_MIX && task->step == 2 && /* the next one mixes */
                      task->person == (plan->swatches[task->swatch].person + 1) % request.people;
        }
        ck_assert_int_eq(mixers, request.blocks);
        sl_plan_free(plan);
    }
}
END_TEST

START_TEST(a_request_out_of_range_is_planned)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    sl_error error = {.code = SL_OK};
    sl_plan *plan = NULL;
    const sl_plan_request usual = sl_plan_request_default();
    for (int i = 0; i < 9; i++) {
        sl_plan_request request = usual;
        request.blocks = i == 0 ? 0 : request.blocks;
        request.people = i == 1 ? 9 : request.people;
        request.apply_s = i == 2 ? 4 : request.apply_s;
        request.remove_s = i == 3 ? 2000 : request.remove_s;
        request.scale_g = i == 4 ? 0.0 : request.scale_g;
        request.waste = i == 5 ? -0.1 : request.waste;
        request.n_looks = i == 6 ? 2 : i == 7 ? 99 : 0;
        request.look_min[0] = request.look_min[1] = 5;
        request.n_rungs = i == 8 ? 1 : 0;
        ck_assert_msg(!sl_plan_make(&plan, &small.scene, &request, &error), "request %d", i);
        ck_assert_int_eq(error.code, SL_ERR_USAGE);
        ck_assert_ptr_null(plan);
    }
}
END_TEST

static void planned_for_nobody(const sl_scene *scene, const char *why)
{
    sl_error error = {.code = SL_OK};
    sl_plan *plan = NULL;
    const sl_plan_request usual = sl_plan_request_default();
    ck_assert_msg(!sl_plan_make(&plan, scene, &usual, &error) && error.code == SL_ERR_USAGE, "%s", why);
    ck_assert_ptr_null(plan);
}

/* What counts as a head counts as one here too, whatever the file calls the place. */
START_TEST(a_head_is_planned)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.place = SL_PLACE_HEAD;
    planned_for_nobody(&small.scene, "hair that lies on a head");
    small.scene.place = SL_PLACE_BENCH;
    small.scene.room_c = SL_HEAD_FROM_C;
    planned_for_nobody(&small.scene, "a bench as warm as a head");
    small.scene.room_c = 24.0;
    small.scene.shift_k = SL_HEAD_FROM_C - 24.0;
    planned_for_nobody(&small.scene, "a bench made as warm as a head");
    small.scene.shift_k = 0.0;
    small.scene.person = "K12";
    planned_for_nobody(&small.scene, "somebody's hair");
}
END_TEST

/* One bowl for each application of each arm, mixed afresh for one swatch; a ladder has one application. */
START_TEST(each_application_has_its_bowl)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.arms[ARM_6].steps[2] = small.arms[ARM_6].steps[0];
    small.arms[ARM_6].steps[2].mix = MIX_POWDER_3;
    small.arms[ARM_6].steps[1].duration_min = 5.0;
    for (int ladder = 0; ladder < 2; ladder++) {
        sl_plan_request request = sl_plan_request_default();
        request.n_rungs = ladder;
        request.rung_min[0] = 10;
        sl_plan *plan = NULL;
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        static const int arm[] = {ARM_WASHING, ARM_WATER, ARM_3,      ARM_6,
                                  ARM_6,       ARM_MILD,  ARM_UNDYED, ARM_REDUCING},
                         mix[] = {MIX_WATER,    MIX_POWDER_WATER, MIX_POWDER_3, MIX_POWDER_6,
                                  MIX_POWDER_3, MIX_MILD,         MIX_POWDER_6, MIX_REDUCING};
        ck_assert_int_eq(plan->n_bowls, ladder ? 7 : 8);
        for (int i = 0; i < plan->n_bowls; i++) {
            const int wanted = ladder && i > 3 ? i + 1 : i;
            const sl_bowl *const bowl = &plan->bowls[i];
            ck_assert_int_eq(bowl->arm, arm[wanted]);
            ck_assert_int_eq(bowl->mix, mix[wanted]);
            ck_assert_int_eq(bowl->step, wanted == 4 ? 2 : 0);
            ck_assert_double_eq_tol(bowl->exact.total_g, 2.0 * 6.0 * 1.1, 1e-12);
            ck_assert_double_eq_tol(bowl->shown.total_g, 13.2,
                                    0.15); /* three parts to a twentieth of a gram */
            ck_assert_double_eq_tol(bowl->scale_error, sl_scale_error(bowl->shown, 0.1), 1e-15);
        }
        bool cut = true;
        ck_assert_int_eq(sl_plan_lying_s(plan, ARM_6, &cut), ladder ? 600 : 3600);
        ck_assert(!cut);
        ck_assert_int_eq(sl_plan_lying_s(plan, ARM_UNTREATED, &cut), 0);
        sl_plan_free(plan);
    }
}
END_TEST

/* Who serves as which control, and who just does not. */
START_TEST(a_control_is_known_by_its_steps)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.arms = &small.arms[ARM_6];
    small.scene.n_arms = 1;
    sl_arm *const arm = &small.arms[ARM_6];
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    const sl_arm whole = *arm;
    const sl_mix_class class_ = mix->class_;
    for (int i = 0; i < 7; i++) {
        *arm = whole;
        mix->class_ = i == 2 || i == 3 ? SL_MIX_WATER : i == 4 ? SL_MIX_LIGHTENER : class_;
        arm->undyed = i == 1 || i == 3 || i == 6;
        arm->n_steps = i >= 5 ? 0 : arm->n_steps;
        const bool serves[7][SL_CONTROLS] = {
            {false},
            {[SL_CONTROL_UNDYED_TREATED] = true},
            {[SL_CONTROL_WASHING] = true},
            {false},
            {[SL_CONTROL_LIGHTENER] = true},
            {[SL_CONTROL_UNTREATED] = true, [SL_CONTROL_UNDYED_UNTREATED] = true},
            {[SL_CONTROL_UNDYED_UNTREATED] = true}};
        for (int c = 0; c < SL_CONTROLS; c++) {
            ck_assert_msg(sl_control_arm(&small.scene, (sl_control)c) == (serves[i][c] ? 0 : -1),
                          "%d, control %d", i, c);
        }
    }
    *arm = whole; /* rinsed alone is washed */
    arm->steps[0] = arm->steps[1];
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_WASHING), 0);
    *arm = whole; /* water first and a mix after it are no washing */
    mix->class_ = class_;
    arm->steps[1] = arm->steps[0];
    arm->steps[0].mix = MIX_WATER;
    arm->n_steps = 2;
    ck_assert_int_eq(sl_control_arm(&small.scene, SL_CONTROL_WASHING), -1);
}
END_TEST

/* Old by so many minutes from one bowl: the same read from a timeline of its own, in every arm and zone, and
 * the worst of them is named; a bowl older than ten hours is asked about as of ten. */
START_TEST(one_bowl_for_all_costs_what_its_age_costs)
{
    for (int long_day = 0; long_day < 2; long_day++) {
        small_scene small;
        small_scene_fill(&small);
        small.scene.room_c = 24.0;
        for (int a = 0; a < SMALL_ARMS; a++) {
            small.arms[a].contact_min = 3.0; /* the scene's own clock has no part in it */
        }
        const sl_plan_request request = sl_plan_request_default();
        sl_plan *plan = NULL;
        sl_plan_error bowl;
        sl_solver *const solver = sl_solver_new(NULL);
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        plan->block_gap_s = long_day ? 601 * 60 : plan->block_gap_s;
        ck_assert(sl_plan_if_one_bowl(plan, solver, &bowl, NULL));
        const double gap = long_day ? 600.0 : plan->block_gap_s / 60.0;
        ck_assert_double_eq_tol(bowl.gap_min, gap, 1e-12);
        sl_arm arms[2][SMALL_ARMS];
        sl_timeline *timeline[2] = {NULL, NULL};
        sl_scene scene[2] = {small.scene, small.scene};
        for (int old = 0; old < 2; old++) {
            memcpy(arms[old], small.arms, sizeof arms[old]);
            for (int a = 0; a < SMALL_ARMS; a++) {
                arms[old][a].contact_min = 0.0;
                arms[old][a].steps[0].mix_age_min += old ? gap : 0.0;
            }
            scene[old].arms = arms[old];
            ck_assert(sl_timeline_solve(&timeline[old], &scene[old], NULL, 0, solver, NULL, NULL));
        }
        double worst = 0.0;
        for (int a = ARM_WASHING; a <= ARM_UNDYED; a++) {
            for (int z = ZONE_ROOT; z <= ZONE_MIXED; z++) {
                sl_cell fair, unfair;
                sl_timeline_at(timeline[0], a, z, 30.0, NULL, &fair);
                sl_timeline_at(timeline[1], a, z, 30.0, NULL, &unfair);
                const double apart =
                    fair.colour_left >= 0.0 ? fabs(fair.colour_left - unfair.colour_left) : 0.0;
                worst = fmax(worst, apart);
                if (a == bowl.arm && z == bowl.zone) {
                    ck_assert_double_eq_tol(bowl.fair, fair.colour_left, 1e-9);
                    ck_assert_double_eq_tol(bowl.unfair, unfair.colour_left, 1e-9);
                }
            }
        }
        ck_assert(bowl.known);
        ck_assert_double_eq_tol(fabs(bowl.fair - bowl.unfair), worst, 1e-9);
        ck_assert_double_gt(worst, 1e-3);
        sl_timeline_free(timeline[0]);
        sl_timeline_free(timeline[1]);
        sl_plan_free(plan);
        sl_solver_free(solver);
    }
}
END_TEST

/* Nothing dyed that is treated, or nothing that begins with its mix: nothing is known of any unfairness. */
START_TEST(where_nothing_dyed_is_treated_no_error_is_known)
{
    for (int i = 0; i < 4; i++) {
        small_scene small;
        small_scene_fill(&small);
        small.scene.room_c = 24.0;
        small.scene.arms = &small.arms[ARM_6];
        small.scene.n_arms = 1;
        sl_arm *const arm = &small.arms[ARM_6];
        arm->undyed = i == 1;
        arm->n_steps = i == 2 ? 0 : arm->n_steps;
        if (i == 3) {
            arm->steps[1] = arm->steps[0];
            arm->steps[0] = (sl_step){.kind = SL_STEP_REST, .duration_min = 5.0};
        }
        const sl_plan_request request = sl_plan_request_default();
        sl_plan *plan = NULL;
        sl_plan_error together, bowl;
        sl_solver *const solver = sl_solver_new(NULL);
        ck_assert(sl_plan_make(&plan, &small.scene, &request, NULL));
        ck_assert(sl_plan_if_together(plan, solver, &together, NULL));
        ck_assert(sl_plan_if_one_bowl(plan, solver, &bowl, NULL));
        ck_assert_int_eq(together.known, i == 0);
        ck_assert_int_eq(bowl.known, i == 0);
        ck_assert_int_eq(plan->span_s, 0); /* one arm a block */
        ck_assert(i == 2 ? plan->block_gap_s == 0 : plan->block_gap_s > 0);
        sl_plan_free(plan);
        sl_solver_free(solver);
    }
}
END_TEST

START_SUITE("plan")
ADD(a_scale_shows_what_it_cannot_show)
ADD(one_slot_does_not_follow_another_until_hands_run_out)
ADD(a_task_does_not_begin_where_another_ends)
ADD(more_hands_do_not_help)
ADD(the_label_does_not_shorten_a_dwell)
ADD(a_label_shorter_than_the_first_piece_leaves_the_mix_on)
ADD(a_head_is_planned)
ADD(controls_are_not_recognised)
ADD(one_change_is_not_told_from_two)
ADD(a_change_of_one_thing_is_told_as_another_or_as_two)
ADD(powders_of_another_kind_are_alike)
ADD(an_order_leaves_an_arm_in_one_outer_third_of_every_block)
ADD(rinsing_all_together_costs_nothing)
ADD(of_zones_that_differ_alike_the_last_is_named)
ADD(hair_is_weighed_for_fewer_swatches_than_there_are)
ADD(one_person_mixes_while_rinsing)
ADD(a_request_out_of_range_is_planned)
ADD(grams_follow_the_parts_by_weight)
ADD(a_mix_without_powder_weighs_no_powder)
ADD(each_application_has_its_bowl)
ADD(a_control_is_known_by_its_steps)
ADD(one_bowl_for_all_costs_what_its_age_costs)
ADD(where_nothing_dyed_is_treated_no_error_is_known)
END_SUITE
