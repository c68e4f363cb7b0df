/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a plan fits into a class, and what would: each offer is planned here anew, and so is the next one,
 * which must not fit.
 */
#include <stdlib.h>

#include "slowlift/plan.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_plan_request request;
static sl_plan_fit fit;

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    request = sl_plan_request_default();
    request.n_looks = 3;
    request.look_min[0] = 5;
    request.look_min[1] = 10;
    request.look_min[2] = 20;
}

static int takes(const sl_scene *scene, const sl_plan_request *asked)
{
    sl_plan *plan = NULL;
    ck_assert(sl_plan_make(&plan, scene, asked, NULL));
    const int end_s = plan->end_s;
    sl_plan_free(plan);
    return end_s;
}

static void find(int class_s)
{
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_plan_fit_find(&fit, &small.scene, &request, class_s, &error), "%s", error.found);
}

static void nothing_is_offered(void)
{
    for (int i = 0; i < SL_FIT_OFFERS; i++) {
        ck_assert_int_eq(fit.offer[i].n, -1);
    }
}

START_TEST(a_plan_fits_to_the_second)
{
    const int end_s = takes(&small.scene, &request);
    find(0);
    ck_assert(fit.fits && fit.takes_s == end_s && fit.swatches == 3 * small.scene.n_arms);
    nothing_is_offered();
    find(end_s);
    ck_assert(fit.fits);
    nothing_is_offered();
    find(end_s - 1);
    ck_assert(!fit.fits);
}
END_TEST

/* An offer fits, and one step less of a change does not. */
static void offer_is_the_nearest(sl_fit_offer offer, int class_s, int *value, int towards)
{
    const int was = *value;
    if (fit.offer[offer].n < 0) {
        return;
    }
    *value = fit.offer[offer].n;
    ck_assert_int_eq(takes(&small.scene, &request), fit.offer[offer].takes_s);
    ck_assert_int_le(fit.offer[offer].takes_s, class_s);
    for (*value += towards; *value != was; *value += towards) {
        ck_assert_int_gt(takes(&small.scene, &request), class_s);
    }
}

START_TEST(each_offer_is_the_nearest_plan_that_fits)
{
    int seen[SL_FIT_OFFERS] = {0};
    for (int class_s = takes(&small.scene, &request) - 1; class_s > 0; class_s -= 240) {
        find(class_s);
        for (int offer = 0; offer < SL_FIT_OFFERS; offer++) {
            seen[offer] += fit.offer[offer].n >= 0 ? 1 : 0;
        }
        offer_is_the_nearest(SL_FIT_REPEATS, class_s, &request.blocks, 1);
        offer_is_the_nearest(SL_FIT_PEOPLE, class_s, &request.people, -1);
        offer_is_the_nearest(SL_FIT_LOOKS, class_s, &request.n_looks, 1);
        offer_is_the_nearest(SL_FIT_STRIPS, class_s, &small.scene.n_arms, 1);
    }
    ck_assert_int_gt(seen[SL_FIT_REPEATS], 0);
    ck_assert_int_gt(seen[SL_FIT_PEOPLE], 0);
    ck_assert_int_gt(seen[SL_FIT_LOOKS], 0);
}
END_TEST

START_TEST(strips_are_left_out_only_where_nothing_else_helps)
{
    request.n_looks = 0;
    request.blocks = 1;
    request.people = SL_PLAN_MOST_PEOPLE;
    small.scene.n_arms = ARM_MILD + 1;
    small.arms[ARM_MILD].steps[0].duration_min += 30.0; /* the last strip takes longest */
    const int end_s = takes(&small.scene, &request);
    find(end_s - 1);
    ck_assert_int_eq(fit.offer[SL_FIT_REPEATS].n, -1);
    ck_assert_int_eq(fit.offer[SL_FIT_PEOPLE].n, -1);
    ck_assert_int_gt(fit.offer[SL_FIT_STRIPS].n, 1);
    ck_assert_int_eq(fit.least_s, 0);
    find(60); /* too little for the two strips that a comparison has at least */
    ck_assert_int_eq(fit.offer[SL_FIT_STRIPS].n, -1);
    small.scene.n_arms = ARM_WATER + 1; /* washing, and the first mix */
    ck_assert_int_eq(fit.least_s, takes(&small.scene, &request));
    request.blocks = 2;
    find(takes(&small.scene, &request) - 1);
    ck_assert_int_eq(fit.offer[SL_FIT_REPEATS].n, 1);
    ck_assert_int_eq(fit.offer[SL_FIT_STRIPS].n, -1);
}
END_TEST

START_TEST(a_ladder_is_offered_with_fewer_pieces_and_never_with_none)
{
    request.n_looks = 0;
    request.n_rungs = 2;
    request.rung_min[0] = 10;
    request.rung_min[1] = 60;
    request.blocks = 1;
    find(60 * 40);
    ck_assert(fit.ladder);
    ck_assert_int_eq(fit.offer[SL_FIT_LOOKS].n, 1);
    find(60);
    ck_assert_int_eq(fit.offer[SL_FIT_LOOKS].n, -1);
}
END_TEST

START_TEST(a_plan_that_cannot_be_made_fits_into_no_class)
{
    sl_error error = {.code = SL_OK};
    request.blocks = 0;
    ck_assert(!sl_plan_fit_find(&fit, &small.scene, &request, 600, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

START_TEST(what_a_scene_says_of_its_class_is_planned)
{
    small.scene.crew = (sl_crew){.swatches = 2, .hands = 2, .who = {"k1", "k2"}};
    char text[SL_CODE];
    sl_plan_request said = sl_plan_request_of(&small.scene);
    ck_assert_int_eq(said.blocks, 2);
    ck_assert_int_eq(said.people, 2);
    ck_assert_str_eq(sl_plan_hands(&said, 1, text), "k2");
    small.scene.crew = (sl_crew){.swatches = 0};
    said = sl_plan_request_of(&small.scene);
    ck_assert_int_eq(said.blocks, sl_plan_request_default().blocks);
    ck_assert_int_eq(said.people, 1);
    ck_assert_str_eq(sl_plan_hands(&said, 1, text), "2");
}
END_TEST

START_SUITE("fit")
FIXTURE(fresh, NULL)
ADD(a_plan_fits_to_the_second)
ADD(each_offer_is_the_nearest_plan_that_fits)
ADD(strips_are_left_out_only_where_nothing_else_helps)
ADD(a_ladder_is_offered_with_fewer_pieces_and_never_with_none)
ADD(a_plan_that_cannot_be_made_fits_into_no_class)
ADD(what_a_scene_says_of_its_class_is_planned)
END_SUITE
