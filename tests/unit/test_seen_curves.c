/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a picture of what was seen shows, against the comparison that it is of and against the scene's own
 * timeline.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "log/compare/compare_page.h"
#include "log/compare/seen_curves.h"
#include "log_made.h"
#include "named.h"
#include "suite.h"

static sl_log_made made;
static sl_compare *compare;
static sl_seen_curves *curves;

static void curves_end(void)
{
    sl_seen_curves_free(curves);
    curves = NULL;
    sl_compare_free(compare);
    compare = NULL;
    log_made_end(&made);
}

static void curves_read(void)
{
    sl_log_test test;
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, -1.0, NULL));
    curves = sl_seen_curves_make(compare, NULL);
    ck_assert_ptr_nonnull(curves);
}

static void see_at(const char *arm, int block, const char *zone, double minute, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, log_made_swatch(&made, arm, block), zone, grade);
    reading.minute = minute;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

/* Solved once for all in the timeline, and piece by piece here. */
static const double SAME = 1e-6;

START_TEST(a_curve_under_the_mix_is_not_that_of_the_scene)
{
    log_made_begin(&made);
    curves_read();
    const int arm = named_arm(compare->scene, "powder + 3 %"), zone = named_zone(compare->scene, "blue");
    ck_assert_int_eq(curves->until_min[arm], 30);
    for (int step = 1; step <= SL_SEEN_STEPS; step++) {
        const double minute = sl_seen_curve_min(curves, arm, step);
        ck_assert_double_eq_tol(minute, 30.0 * step / SL_SEEN_STEPS, 1e-12);
        ck_assert_double_eq_tol(sl_seen_curve_left(curves, arm, step, zone),
                                sl_compare_model_at(compare, arm, zone, minute), SAME);
    }
    ck_assert_double_gt(sl_seen_curve_left(curves, arm, 0, zone), 0.99);
    ck_assert_int_eq(curves->until_min[named_arm(compare->scene, "untreated")], 30);
    ck_assert_double_eq_tol(
        sl_seen_curve_left(curves, named_arm(compare->scene, "untreated"), SL_SEEN_STEPS, zone), 1.0, SAME);
    curves_end();
}
END_TEST

/* At the end of the mix the curve of a ladder is the whole arm, rinsed and washed as the scene says. */
START_TEST(the_curve_of_a_ladder_does_not_end_where_the_model_puts_the_arm)
{
    static const int rungs[] = {5, 10, 20, 30};
    log_made_begin_ladder(&made, rungs, 4);
    see_at("powder + 6 %", 0, "red", SL_NOT_READ, SL_WIPE_GHOST);
    curves_read();
    const int arm = named_arm(compare->scene, "powder + 6 %"), zone = named_zone(compare->scene, "red");
    const double end = sl_compare_arm(compare, arm, zone)->predicted;
    ck_assert_double_gt(end, 0.0);
    ck_assert_double_eq_tol(sl_seen_curve_left(curves, arm, SL_SEEN_STEPS, zone), end, SAME);
    for (int step = 1; step <= SL_SEEN_STEPS; step++) { /* rinsing takes some more */
        ck_assert_double_lt(sl_seen_curve_left(curves, arm, step, zone),
                            sl_compare_model_at(compare, arm, zone, sl_seen_curve_min(curves, arm, step)));
    }
    curves_end();
}
END_TEST

START_TEST(a_look_on_the_way_is_not_a_point_with_the_models_number)
{
    log_made_begin(&made);
    see_at("powder + 6 %", 0, "red", 10.0, SL_WIPE_HALF);
    see_at("powder + 6 %", 1, "red", 10.2, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, "blue", 10.0, SL_WIPE_GHOST);
    see_at("powder + 6 %", 0, "red", 20.0, SL_WIPE_GHOST);
    see_at("powder + 3 %", 0, "red", 5.0, SL_WIPE_SLIGHT);
    see_at("powder + 3 %", 0, "undyed", 5.0, SL_WIPE_UNDYED);
    curves_read();
    const int six = named_arm(compare->scene, "powder + 6 %"),
              three = named_arm(compare->scene, "powder + 3 %");
    const int red = named_zone(compare->scene, "red"), blue = named_zone(compare->scene, "blue");
    const sl_seen_point *const p = curves->points;
    ck_assert_int_eq(curves->n_points, 4);
    ck_assert(p[0].arm == three && p[0].zone == red && p[0].minute == 5);
    ck_assert(p[1].arm == six && p[1].zone == red && p[1].minute == 10 && p[1].seen.n == 2);
    ck_assert(p[2].arm == six && p[2].zone == blue && p[2].minute == 10 && p[2].seen.n == 1);
    ck_assert(p[3].arm == six && p[3].zone == red && p[3].minute == 20);
    ck_assert_double_eq_tol(p[1].seen.mean, 0.5 * (0.50 + 0.80), 1e-12);
    ck_assert_double_eq_tol(p[1].model, sl_compare_model_at(compare, six, red, 10.0), SAME);
    curves_end();
}
END_TEST

START_TEST(an_arm_that_was_only_looked_at_on_the_way_is_left_out)
{
    int order[SL_MAX_ARMS];
    log_made_begin(&made);
    see_at("powder + water", 0, "red", 10.0, SL_WIPE_SLIGHT);
    see_at("powder + 6 %", 0, "red", SL_NOT_READ, SL_WIPE_GHOST);
    see_at("powder + 3 %", 0, "blue", 47.0, SL_WIPE_GHOST);
    curves_read();
    ck_assert_int_eq(sl_seen_order(curves, named_zone(compare->scene, "red"), order), 2);
    ck_assert_int_eq(order[0], named_arm(compare->scene, "powder + 6 %"));
    ck_assert_int_eq(order[1], named_arm(compare->scene, "powder + water"));
    ck_assert_int_eq(sl_seen_longest_min(curves, named_zone(compare->scene, "red")), 30);
    ck_assert_int_eq(sl_seen_longest_min(curves, named_zone(compare->scene, "blue")), 47);
    ck_assert_int_eq(sl_seen_order(curves, named_zone(compare->scene, "green"), order), 0);
    ck_assert_int_eq(sl_seen_longest_min(curves, named_zone(compare->scene, "green")), 10);
    curves_end();
}
END_TEST

/* Strips that hold no dye have no point, whatever was looked at; without a mix the picture is ten minutes
 * long. */
START_TEST(hair_without_dye_has_points_or_an_arm_without_a_mix_a_time)
{
    static const char bare[] =
        "kind: scene\nversion: 1\ntitle: Bare\norigin: our own invention\nlies: bench\nroom: 24 °C\n"
        "until: 30 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n"
        "  - {name: red, hair: prelight-9, dye: {red: 9}}\n  - {name: undyed, hair: prelight-9}\n"
        "application:\n  mix_per_hair: 6 g/g\n  mix_age: 1 min\n  hair: dry\n  covered: yes\n"
        "arms:\n  - name: untreated\n  - name: bare\n    undyed: yes\n";
    log_made_begin_text(&made, bare, NULL, 0);
    see_at("bare", 0, "red", 5.0, SL_WIPE_NO_CHANGE);
    see_at("untreated", 0, "red", 5.0, SL_WIPE_NO_CHANGE);
    see_at("untreated", 0, "undyed", 5.0, SL_WIPE_NO_CHANGE);
    curves_read();
    ck_assert_int_eq(curves->n_points, 1);
    ck_assert_int_eq(curves->points[0].arm, named_arm(compare->scene, "untreated"));
    ck_assert_int_eq(curves->points[0].zone, named_zone(compare->scene, "red"));
    ck_assert_double_eq_tol(curves->points[0].model, 1.0, SAME);
    ck_assert(curves->until_min[0] == 10 && curves->until_min[1] == 10);
    curves_end();
}
END_TEST

START_SUITE("seen_curves")
ADD(a_curve_under_the_mix_is_not_that_of_the_scene)
ADD(the_curve_of_a_ladder_does_not_end_where_the_model_puts_the_arm)
ADD(a_look_on_the_way_is_not_a_point_with_the_models_number)
ADD(an_arm_that_was_only_looked_at_on_the_way_is_left_out)
ADD(hair_without_dye_has_points_or_an_arm_without_a_mix_a_time)
END_SUITE
