/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hair rinsed at any moment of its last application, against scenes that are rinsed at that moment and
 * followed until they are dry, each solved by itself: what is left, where the base is and what the hair has
 * lost are there at the same minute to a second.
 */
#include <math.h>
#include <string.h>

#include "estimate/limits_of_members.h"
#include "ground.h"
#include "slowlift/limits.h"
#include "slowlift/what_if.h"
#include "small_scene.h"
#include "suite.h"

static const double SECOND = 1.0 / 60.0;
/* Hair is dry to a four-hundredth after ln(400)/0.2 = 30 min; a minute more or less is nothing. */
static const double DRY_MIN = 29.957322735539909;

static small_scene small;
static sl_solver *solver;
static sl_timeline *planned, *alone;
static lane_history history, brute;

static void set_up(void)
{
    solver = sl_solver_new(NULL);
}

static void tear_down(void)
{
    sl_timeline_free(planned);
    sl_timeline_free(alone);
    planned = alone = NULL;
    sl_solver_free(solver);
}

static int last_apply(const sl_arm *arm)
{
    int last = -1;
    for (int i = 0; i < arm->n_steps; i++) {
        last = arm->steps[i].kind == SL_STEP_APPLY ? i : last;
    }
    return last;
}

/* From contact to that of the last application, and from the last rinse to the end of all steps. */
static double minutes_of(const sl_arm *arm, int from, int to)
{
    double minutes = 0.0;
    for (int i = from; i < to; i++) {
        const sl_step *const step = &arm->steps[i];
        minutes += step->kind == SL_STEP_SHAMPOO ? (double)step->shampoos : step->duration_min;
    }
    return minutes;
}

/* The arm rinsed after so many minutes of its last application, alone in a scene that goes on until it is
 * dry. */
static void rinse_at(small_scene *one, int arm, double dwell_min)
{
    *one = small;
    one->scene.arms = &one->arms[arm];
    one->scene.mixes = one->mixes;
    one->scene.dyes = one->dyes;
    one->scene.hairs = one->hairs;
    one->scene.zones = one->zones;
    one->scene.n_arms = 1;
    sl_arm *const here = &one->arms[arm];
    here->steps[last_apply(here)].duration_min = dwell_min;
    one->scene.until_min = here->contact_min + minutes_of(here, 0, here->n_steps) + DRY_MIN;
}

/* The end of a scene that is rinsed then. */
static sl_cell dry_cell(int arm, int zone, double dwell_min)
{
    static small_scene one;
    sl_cell cell;
    rinse_at(&one, arm, dwell_min);
    ck_assert(sl_timeline_solve(&alone, &one.scene, NULL, 0, solver, NULL, NULL));
    sl_timeline_at(alone, 0, zone, one.scene.until_min, NULL, &cell);
    return cell;
}

/* By how many minutes of that quantity's pace two readings lie apart; where it hardly moves, by nothing. */
static double apart_min(double found, double there, double later)
{
    const double per_min = fabs(later - there) / 0.05;
    return per_min > 1e-4 ? fabs(found - there) / per_min : 0.0;
}

/* What is changed beside the arms as they are: nothing, warmth that rises and falls, a stagger with an open
 * mix that is old, two applications with a rest between, no rinse at all, hair that uses up persulfate within
 * a minute, a full system. */
enum { AS_IT_IS, WARMS, STAGGERED, TWICE, UNRINSED, USED_UP_FAST, FEEDBACK, CASES };

/* A second. Measured temperatures have corners, through which no polynomial runs; and without a rinse members
 * with a fibre that fills at once are steepest in the first minute. */
static double allowed_min(int what, bool of_members)
{
    return (what == WARMS ? 9.0 : what == UNRINSED && of_members ? 2.0 : 1.0) * SECOND;
}

static void holds_over_the_dwell(int what, int arm, int zone)
{
    const sl_arm *const here = &small.arms[arm];
    const double begins = here->contact_min + minutes_of(here, 0, last_apply(here));
    const double last = small.scene.until_min - begins;
    double worst = 0.0;
    ck_assert(sl_timeline_solve(&planned, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert_ptr_null(sl_timeline_rinsed(planned));
    ck_assert(sl_timeline_rinse(planned, solver, NULL));
    for (double dwell = 0.5; dwell < last; dwell += last / 23.0) {
        sl_cell cell;
        const sl_cell wanted = dry_cell(arm, zone, dwell), later = dry_cell(arm, zone, dwell + 0.05);
        sl_timeline_at(sl_timeline_rinsed(planned), arm, zone, begins + dwell, NULL, &cell);
        if (cell.colour_left >= 0.0) {
            worst = fmax(worst, apart_min(cell.colour_left, wanted.colour_left, later.colour_left));
        }
        worst = fmax(worst, apart_min(cell.base_moved, wanted.base_moved, later.base_moved));
        worst = fmax(worst, apart_min(cell.cystine_lost, wanted.cystine_lost, later.cystine_lost));
    }
    ck_assert_double_lt(worst, allowed_min(what, false));
}

static void change(int what)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
    small.scene.room_c = 24.0;
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        sl_arm *const here = &small.arms[arm];
        if (here->n_steps == 0) {
            continue;
        }
        if (what == STAGGERED) {
            here->contact_min = 3.5;
            here->steps[0].covered = false;
            here->steps[0].mix_age_min = 12.0;
        } else if (what == TWICE) {
            const sl_step rest = {.kind = SL_STEP_REST, .duration_min = 6.0};
            memmove(&here->steps[3], &here->steps[0], 3 * sizeof here->steps[0]);
            here->steps[0].duration_min = 10.0;
            here->steps[2] = rest;
            here->n_steps = 6;
        } else if (what == UNRINSED) {
            here->n_steps = 1;
        }
    }
    if (what == WARMS) {
        small.scene.n_points = 3;
        small.scene.points[0] = (sl_course_point){0.0, 20.0};
        small.scene.points[1] = (sl_course_point){20.0, 28.0};
        small.scene.points[2] = (sl_course_point){60.0, 24.0};
    }
    small.scene.chemistry.pigment_feedback = what == FEEDBACK;
    if (what == USED_UP_FAST) {
        small.scene.chemistry.cystine.k[SL_PERHYDROXYL].value = 0.035;
        small.scene.chemistry.cystine.k[SL_PERSULFATE].value = 0.3;
        small.scene.chemistry.cystine.k[SL_RADICAL].value = 0.05;
    }
}

START_TEST(a_zone_is_at_its_goal_when_a_rinse_then_would_leave_it_there)
{
    static const int arms[] = {ARM_WASHING, ARM_WATER, ARM_3, ARM_6, ARM_MILD};
    change(_i);
    for (size_t a = 0; a < sizeof arms / sizeof arms[0]; a++) {
        holds_over_the_dwell(_i, arms[a], ZONE_VIOLET);
        holds_over_the_dwell(_i, arms[a], ZONE_UNDYED);
    }
}
END_TEST

/* One question, two doors: of an arm that is planned to lie just until the goal's minute what-if, map and
 * search say that the goal is there, and of one two seconds shorter that it is not. */
START_TEST(an_arm_that_lies_until_the_goal_s_minute_is_there_once_it_is_dry)
{
    sl_timeline *story = NULL;
    change(AS_IT_IS);
    ck_assert(sl_timeline_solve(&planned, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(planned, solver, NULL));
    for (int arm = ARM_3; arm <= ARM_6; arm++) {
        const sl_limits limits = sl_limits_of(planned, arm, NULL);
        ck_assert(limits.asked && limits.early_reached);
        for (int i = 0; i < 2; i++) {
            const double dwell_min = limits.early_min + (i == 0 ? 1.0 : -1.0) * SECOND;
            sl_changes changes = {.set = {false}};
            sl_variant variant;
            sl_outcome outcome;
            ck_assert(sl_changes_set(&changes, &small.scene, arm, SL_SETTING_DWELL, dwell_min, NULL));
            sl_variant_make(&variant, &small.scene, arm, &changes);
            ck_assert(sl_outcome_of(&outcome, &variant.scene, 0, &story, solver, NULL));
            ck_assert_int_eq(outcome.all_there, i == 0);
        }
    }
    sl_timeline_free(story);
}
END_TEST

/* What the base reads at the stop is what it reads, dry, of hair rinsed then, with the level it began at; on
 * hair near the end of the scale it is the end. To a hundredth of a level: a second of the dwell is less. */
START_TEST(the_level_at_the_stop_is_that_of_hair_rinsed_then)
{
    for (int light = 0; light < 2; light++) {
        change(AS_IT_IS);
        const int hair = small.zones[ZONE_UNDYED].hair;
        small.hairs[hair].level = light ? 10.3 : small.hairs[hair].level;
        ck_assert(sl_timeline_solve(&planned, &small.scene, NULL, 0, solver, NULL, NULL));
        ck_assert(sl_limits_prepare(planned, solver, NULL));
        const sl_limits limits = sl_limits_of(planned, ARM_6, NULL);
        ck_assert(limits.asked);
        const double rinsed = dry_cell(ARM_6, ZONE_UNDYED, limits.stop_min[limits.stop]).level;
        ck_assert_double_eq(limits.level_start, small.hairs[hair].level);
        ck_assert_double_eq_tol(limits.level_at_stop, rinsed, 0.01);
        ck_assert_double_gt(limits.level_at_stop, limits.level_start);
        ck_assert_double_le(limits.level_at_stop, SL_LEVEL_END);
        ck_assert(!light || limits.level_at_stop >= SL_LEVEL_END);
    }
}
END_TEST

/* Members: the same lanes, rinsed one by one. */
START_TEST(members_rinsed_at_any_moment_are_those_rinsed_one_by_one)
{
    static drawn_members drawn;
    static small_scene one;
    change(_i);
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    members_draw(&drawn, &plan, 11, 0);
    for (int arm = ARM_WATER; arm <= ARM_MILD; arm++) {
        member_zone made, same;
        int bad = -1;
        double worst = 0.0;
        const sl_arm *const here = &small.arms[arm];
        const double begins = minutes_of(here, 0, last_apply(here));
        const double last = small.scene.until_min - here->contact_min - begins;
        const sl_hair *const hair = &small.hairs[1];
        ck_assert(lanes_run_rinsed(&history, &small.scene, here, hair->porosity, hair->cystine_intact,
                                   &drawn.lanes, &bad));
        member_zone_make(&made, ground_of(&small.scene), &small.scene, here, ZONE_VIOLET, &drawn);
        for (double dwell = 1.0; dwell < last - 0.1; dwell += last / 17.0) {
            member_reading wanted[LANES], later[LANES];
            for (int more = 0; more < 2; more++) {
                rinse_at(&one, arm, dwell + 0.05 * more);
                ck_assert(lanes_run(&brute, &one.scene, &one.arms[arm], hair->porosity, hair->cystine_intact,
                                    &drawn.lanes, &bad));
                member_zone_make(&same, ground_of(&one.scene), &one.scene, &one.arms[arm], ZONE_VIOLET,
                                 &drawn);
                for (int l = 0; l < LANES; l++) {
                    (more ? later : wanted)[l] = member_read(&same, &brute, l, brute.time_min[brute.steps]);
                }
            }
            for (int l = 0; l < LANES; l++) {
                const member_reading found = member_read(&made, &history, l, begins + dwell);
                worst = fmax(worst, apart_min(found.left, wanted[l].left, later[l].left));
                worst = fmax(worst, apart_min(found.base_moved, wanted[l].base_moved, later[l].base_moved));
                worst =
                    fmax(worst, apart_min(found.cystine_lost, wanted[l].cystine_lost, later[l].cystine_lost));
            }
        }
        ck_assert_double_lt(worst, allowed_min(_i, true));
    }
}
END_TEST

/* What is refused or fails is told, whether before the mix comes off or after; an arm without a mix, and a
 * scene that ends before the last one is on, are read as they are. */
START_TEST(what_cannot_be_rinsed_is_refused_or_read_as_it_is)
{
    const double nan_value = log(-1.0);
    static drawn_members drawn;
    int bad = -1;
    members_begin(&drawn);
    for (int what = 0; what < 3; what++) {
        sl_course *course = NULL;
        sl_error error = {.code = SL_OK};
        change(AS_IT_IS);
        if (what == 1) {
            small.mixes[MIX_POWDER_6].loss_per_min.value = nan_value;
        } else if (what == 2) { /* under the water alone */
            small.scene.chemistry.rinse_per_min.value = nan_value;
        }
        const sl_treatment treatment = small_treatment(&small, what == 0 ? ARM_REDUCING : ARM_6, 1.5, 0.85);
        ck_assert(!sl_course_solve_rinsed(&course, &treatment, solver, &error));
        ck_assert_int_eq(error.code, what == 0 ? SL_ERR_OUTSIDE_MODEL : SL_ERR_NOT_FINITE);
        sl_course_free(course);
        if (what > 0) {
            bad = -1;
            ck_assert(
                !lanes_run_rinsed(&history, &small.scene, &small.arms[ARM_6], 1.5, 0.85, &drawn.lanes, &bad));
            ck_assert_int_ge(bad, 0);
        }
    }
    for (int what = 0; what < 2; what++) {
        sl_course *rinsed = NULL, *plain = NULL;
        sl_moment one, other;
        change(what == 0 ? AS_IT_IS : TWICE);
        const int arm = what == 0 ? ARM_UNTREATED : ARM_6;
        small.scene.until_min = 15.0; /* of two applications the second begins at 18 min */
        const sl_treatment treatment = small_treatment(&small, arm, 1.5, 0.85);
        ck_assert(sl_course_solve_rinsed(&rinsed, &treatment, solver, NULL));
        ck_assert(sl_course_solve(&plain, &treatment, solver, NULL));
        ck_assert(lanes_run_rinsed(&history, &small.scene, &small.arms[arm], 1.5, 0.85, &drawn.lanes, &bad));
        ck_assert(lanes_run(&brute, &small.scene, &small.arms[arm], 1.5, 0.85, &drawn.lanes, &bad));
        for (double t = 0.0; t <= 9.0; t += 3.0) {
            sl_course_at(rinsed, t, &one);
            sl_course_at(plain, t, &other);
            ck_assert_double_eq_tol(one.core_dose[0], other.core_dose[0], 1e-12);
        }
        const int last = history.steps < brute.steps ? history.steps : brute.steps;
        ck_assert_double_eq(history.core[last][0][3], brute.core[last][0][3]);
        sl_course_free(rinsed);
        sl_course_free(plain);
    }
}
END_TEST

START_SUITE("rinsed")
FIXTURE(set_up, tear_down)
ADD_LOOP(a_zone_is_at_its_goal_when_a_rinse_then_would_leave_it_there, 0, CASES)
ADD(what_cannot_be_rinsed_is_refused_or_read_as_it_is)
ADD(an_arm_that_lies_until_the_goal_s_minute_is_there_once_it_is_dry)
ADD(the_level_at_the_stop_is_that_of_hair_rinsed_then)
ADD_LOOP(members_rinsed_at_any_moment_are_those_rinsed_one_by_one, 0, FEEDBACK)
END_SUITE
