/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/cost.h"

#include <math.h>

#include "slowlift/scene.h"
#include "small_scene.h"
#include "suite.h"

static const sl_prices shelf = {.currency = "EUR",
                                .packet_g = 25.0,
                                .packet_price = 3.0,
                                .tub_g = 450.0,
                                .tub_price = 27.0,
                                .tub_weeks = 6.0,
                                .developer_g = 1000.0,
                                .developer_price = 8.0,
                                .other_price = 0.5};

/* Worked by hand: 30 g of powder are two packets, 6.00; 60 g of developer at 8.00 a kilogram are
 * 0.48. A tub of 450 g holds fifteen such uses, but in six weeks at two a week only twelve are
 * had: 27 / 12 = 2.25 each, and 450 - 12 * 30 = 90 g are thrown away. 27 / 6 = 4.5: from five uses on
 * the tub is cheaper. */
START_TEST(a_use_does_not_cost_what_it_costs_by_hand)
{
    const sl_use use = {30.0, 60.0, 2.0, 1};
    const sl_cost cost = sl_cost_of(&shelf, &use);
    ck_assert(cost.has_packets && cost.has_tub);
    ck_assert_int_eq(cost.packets, 2);
    ck_assert_double_eq_tol(cost.packets_cost, 6.0, 1e-12);
    ck_assert_int_eq(cost.tub_uses, 12);
    ck_assert_double_eq_tol(cost.tub_cost, 2.25, 1e-12);
    ck_assert_double_eq_tol(cost.tub_left_g, 90.0, 1e-9);
    ck_assert_double_eq_tol(cost.developer_cost, 0.48, 1e-12);
    ck_assert_double_eq_tol(cost.with_packets, 6.98, 1e-12);
    ck_assert_double_eq_tol(cost.with_tub, 3.23, 1e-12);
    ck_assert_int_eq(cost.break_even, 5);
}
END_TEST

/* Nobody said how long it keeps: fifteen uses of 30 g. */
START_TEST(a_tub_without_weeks_is_old_at_once)
{
    sl_prices kept = shelf;
    kept.tub_weeks = 0.0;
    const sl_use use = {30.0, 60.0, 2.0, 1};
    ck_assert_int_eq(sl_cost_of(&kept, &use).tub_uses, 15);
    ck_assert_double_eq_tol(sl_cost_of(&kept, &use).tub_left_g, 0.0, 1e-9);
}
END_TEST

START_TEST(a_packet_that_is_just_enough_opens_another)
{
    const sl_use use = {25.0, 0.0, 2.0, 1};
    ck_assert_int_eq(sl_cost_of(&shelf, &use).packets, 1);
    const sl_use more = {25.1, 0.0, 2.0, 1};
    ck_assert_int_eq(sl_cost_of(&shelf, &more).packets, 2);
}
END_TEST

/* Once a month: one use of a tub within six weeks; it costs a whole tub. Twice in six weeks would be
 * needed nine times over: packets at 3.00 never lose against that, and 27 / 3 = 9 of 18 uses do. */
START_TEST(a_tub_that_grows_old_is_cheap)
{
    const sl_use use = {25.0, 0.0, 0.25, 1};
    const sl_cost cost = sl_cost_of(&shelf, &use);
    ck_assert_int_eq(cost.tub_uses, 1);
    ck_assert_double_eq_tol(cost.tub_cost, 27.0, 1e-12);
    ck_assert_int_eq(cost.break_even, 9);
    ck_assert(cost.break_even > cost.tub_uses);
}
END_TEST

START_TEST(what_is_not_sold_has_a_price)
{
    const sl_prices packets = {.packet_g = 25.0, .packet_price = 3.0};
    const sl_use use = {20.0, 40.0, 2.0, 1}, none = {0.0, 40.0, 2.0, 1}, much = {500.0, 0.0, 2.0, 1};
    ck_assert(!sl_cost_of(&packets, &use).has_tub);
    ck_assert_int_eq(sl_cost_of(&packets, &use).break_even, 0);
    ck_assert(!sl_cost_of(&shelf, &none).has_packets && !sl_cost_of(&shelf, &none).has_tub);
    ck_assert(!sl_cost_of(&shelf, &much).has_tub); /* one tub is not enough for one use */
}
END_TEST

START_TEST(fresh_powder_needs_another_time_than_fresh_powder)
{
    small_scene small;
    small_scene_fill(&small);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_freshness fresh, old;
    ck_assert(sl_freshness_of(&small.scene, ARM_3, ZONE_VIOLET, 1.0, solver, &fresh, NULL));
    ck_assert(fresh.known && fresh.reached);
    ck_assert_double_eq(fresh.times, 1.0);
    ck_assert_double_eq_tol(fresh.fresh_left, fresh.stale_left, 1e-12);
    ck_assert(sl_freshness_of(&small.scene, ARM_3, ZONE_VIOLET, 0.7, solver, &old, NULL));
    ck_assert(old.known && old.stale_left > old.fresh_left);
    ck_assert_double_eq_tol(old.fresh_left, fresh.fresh_left, 1e-12);
    ck_assert(!old.reached || old.times > 1.0);
    sl_solver_free(solver);
}
END_TEST

/* The time is checked by going there: an arm with old powder, lying that long. */
START_TEST(old_powder_is_not_where_fresh_was_after_its_time)
{
    small_scene small;
    small_scene_fill(&small);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_freshness old;
    ck_assert(sl_freshness_of(&small.scene, ARM_WATER, ZONE_VIOLET, 0.8, solver, &old, NULL));
    ck_assert(old.known && old.reached);
    sl_arm *const arm = &small.arms[ARM_WATER];
    small.mixes[arm->steps[0].mix].activity *= 0.8;
    arm->steps[0].duration_min *= old.times;
    arm->n_steps = 1;
    arm->contact_min = 0.0;
    small.scene.until_min = arm->steps[0].duration_min;
    sl_timeline *timeline = NULL;
    sl_cell cell;
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    sl_timeline_at(timeline, ARM_WATER, ZONE_VIOLET, small.scene.until_min, NULL, &cell);
    ck_assert_double_eq_tol(cell.colour_left, old.fresh_left, 2e-3); /* a second of an even slower end */
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

START_TEST(an_arm_without_powder_has_old_powder)
{
    small_scene small;
    small_scene_fill(&small);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_freshness none;
    ck_assert(sl_freshness_of(&small.scene, ARM_MILD, ZONE_VIOLET, 0.7, solver, &none, NULL));
    ck_assert(!none.known);
    ck_assert(sl_freshness_of(&small.scene, ARM_UNTREATED, ZONE_VIOLET, 0.7, solver, &none, NULL));
    ck_assert(!none.known);
    ck_assert(sl_freshness_of(&small.scene, ARM_3, ZONE_UNDYED, 0.7, solver, &none, NULL));
    ck_assert(!none.known);
    sl_solver_free(solver);
}
END_TEST

/* A tub is cheaper from the use at which the packets would have cost as much, when it holds so many; uses
 * that come out exactly count whole. Worked by hand. */
START_TEST(uses_that_come_out_exactly_count_whole)
{
    static const struct {
        double powder_g, per_week, tub_price, packet_price;
        int uses, even;
        double left_g;
    } cases[] = {
        {45.0, 10.0, 27.0, 1.35, 10, 10, 0.0}, /* ten uses; two packets of 1.35 each: 10 times 2.70 */
        {45.0, 10.0, 27.1, 1.35, 10, 0, 0.0},  /* from eleven on, and it holds ten */
        {45.0, 10.0, 27.0, 1.50, 10, 9, 0.0},
        {30.0, 0.5, 27.0, 3.0, 3, 5, 360.0}, /* three uses in six weeks */
        {30.0, 0.4999, 27.0, 3.0, 2, 5, 390.0},
        {450.0, 1.0, 27.0, 3.0, 1, 1, 0.0},    /* one use of the whole tub, against 18 packets */
        {30.0, 0.01, 27.0, 3.0, 1, 5, 420.0}}; /* it is opened for one use at least */
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_prices prices = shelf;
        prices.tub_price = cases[i].tub_price;
        prices.packet_price = cases[i].packet_price;
        const sl_use use = {cases[i].powder_g, 0.0, cases[i].per_week, 1};
        const sl_cost cost = sl_cost_of(&prices, &use);
        ck_assert_msg(cost.tub_uses == cases[i].uses && cost.break_even == cases[i].even, "case %zu: %d, %d",
                      i, cost.tub_uses, cost.break_even);
        ck_assert_double_eq_tol(cost.tub_left_g, cases[i].left_g, 1e-9);
        ck_assert_double_eq_tol(cost.tub_cost, cases[i].tub_price / cases[i].uses, 1e-12);
        ck_assert_double_eq_tol(cost.with_tub, cost.tub_cost + 0.5, 1e-12);
    }
    sl_prices given = shelf; /* packets that cost nothing are never dearer */
    given.packet_price = 0.0;
    const sl_use use = {30.0, 0.0, 2.0, 1};
    ck_assert_int_eq(sl_cost_of(&given, &use).break_even, 0);
    ck_assert_int_eq(sl_cost_of(&given, &use).packets, 2);
    given.developer_g = 0.0;
    ck_assert_double_eq(sl_cost_of(&given, &(sl_use){30.0, 60.0, 2.0, 1}).developer_cost, 0.0);
}
END_TEST

/* Fresh enough to come there within six times the time, or not. */
START_TEST(old_powder_is_looked_for_up_to_six_times_the_time)
{
    small_scene small;
    sl_solver *const solver = sl_solver_new(NULL);
    int reached = 0, never = 0;
    for (double activity = 0.95; activity > 0.02; activity *= 0.6) {
        small_scene_fill(&small);
        small.dyes[1].leach_per_min.value = 0.0;  /* what washes out is there by itself */
        small.arms[ARM_WATER].contact_min = 12.0; /* the clock has no part in it */
        sl_freshness old;
        ck_assert(sl_freshness_of(&small.scene, ARM_WATER, ZONE_RED, activity, solver, &old, NULL));
        ck_assert(old.known && old.stale_left > old.fresh_left);
        ck_assert(!old.reached || (old.times > 1.0 && old.times <= 6.0));
        reached += old.reached ? 1 : 0;
        never += old.reached ? 0 : 1;
        /* it is there at six times the time, or it is not: by a timeline of its own */
        sl_arm *const arm = &small.arms[ARM_WATER];
        small.mixes[arm->steps[0].mix].activity *= activity;
        arm->contact_min = 0.0;
        arm->steps[0].duration_min *= 6.0;
        arm->n_steps = 1;
        small.scene.until_min = arm->steps[0].duration_min;
        sl_timeline *timeline = NULL;
        sl_cell cell;
        ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
        sl_timeline_at(timeline, ARM_WATER, ZONE_RED, small.scene.until_min, NULL, &cell);
        ck_assert_int_eq(cell.colour_left <= old.fresh_left, old.reached);
        sl_timeline_free(timeline);
    }
    ck_assert_int_gt(reached, 0);
    ck_assert_int_gt(never, 0);
    sl_solver_free(solver);
}
END_TEST

/* It is asked of arms that begin with their powder, whatever follows: nothing else is. */
START_TEST(old_powder_is_asked_of_arms_that_begin_with_powder)
{
    small_scene small;
    sl_solver *const solver = sl_solver_new(NULL);
    for (int i = 0; i < 6; i++) {
        small_scene_fill(&small);
        sl_arm *const arm = &small.arms[ARM_6];
        arm->n_steps = i == 1 ? 0 : i == 2 ? 1 : arm->n_steps;
        arm->undyed = i == 3;
        arm->steps[0] = i == 4 ? arm->steps[1] : arm->steps[0];
        small.mixes[MIX_POWDER_6].mechanism = i == 5 ? SL_MECHANISM_UNKNOWN : SL_MECHANISM_OXIDATIVE;
        sl_freshness old;
        ck_assert(sl_freshness_of(&small.scene, ARM_6, ZONE_RED, 0.5, solver, &old, NULL));
        ck_assert_msg(old.known == (i == 0 || i == 2), "%d", i);
    }
    sl_solver_free(solver);
}
END_TEST

/* Worked by hand. Four packets of 25 g for 79.2 g, of which three are there: one to buy, 20.8 g thrown away.
 * Of a tub so much by the gram: 79.2 / 450 of 27.00; 30 g stand open, one is opened and 400.8 g are left. */
START_TEST(a_class_buys_what_it_does_not_need)
{
    const sl_product packet = {.holds_g = 25.0, .price = 3.0, .once = true, .have = 3, .open_g = 10.0};
    const sl_product tub = {.holds_g = 450.0, .price = 27.0, .have = 0, .open_g = 30.0};
    const sl_purchase packets = sl_purchase_of(&packet, 79.2), tubs = sl_purchase_of(&tub, 79.2);
    ck_assert(packets.opened == 4 && packets.bought == 1);
    ck_assert_double_eq_tol(packets.left_g, 20.8, 1e-9);
    ck_assert_double_eq_tol(packets.cost, 12.0, 1e-12);
    ck_assert_double_eq_tol(packets.bought_cost, 3.0, 1e-12);
    ck_assert(tubs.opened == 1 && tubs.bought == 1);
    ck_assert_double_eq_tol(tubs.left_g, 400.8, 1e-9);
    ck_assert_double_eq_tol(tubs.cost, 4.752, 1e-12);
    ck_assert_int_eq(sl_purchase_of(&tub, 30.0).opened, 0);
    ck_assert_int_eq(sl_purchase_of(&packet, 75.0).bought, 0);
}
END_TEST

START_SUITE("cost")
ADD(a_class_buys_what_it_does_not_need)
ADD(a_use_does_not_cost_what_it_costs_by_hand)
ADD(a_packet_that_is_just_enough_opens_another)
ADD(a_tub_without_weeks_is_old_at_once)
ADD(a_tub_that_grows_old_is_cheap)
ADD(what_is_not_sold_has_a_price)
ADD(fresh_powder_needs_another_time_than_fresh_powder)
ADD(old_powder_is_not_where_fresh_was_after_its_time)
ADD(an_arm_without_powder_has_old_powder)
ADD(uses_that_come_out_exactly_count_whole)
ADD(old_powder_is_looked_for_up_to_six_times_the_time)
ADD(old_powder_is_asked_of_arms_that_begin_with_powder)
END_SUITE
