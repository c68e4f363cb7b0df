/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Members through mixes that reduce, watched for three days (models/scenes/came-back.yaml): with the scene's
 * own numbers they are the solution, rinsed or not, and drawn apart none is refused.
 */
#include <math.h>

#include "estimate/members.h"
#include "ground.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "suite.h"

static const double APART = 1e-3; /* of a share: steps of ten minutes in a rest of days */

static sl_scene *scene;
static sl_solver *solver;
static sl_timeline *timeline;
static lane_history history;
static drawn_members drawn;

static void set_up(void)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error;
    scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/came-back.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
}

static void tear_down(void)
{
    sl_timeline_free(timeline);
    timeline = NULL;
    sl_solver_free(solver);
    sl_scene_free(scene);
}

static bool solves(lanes_solver *solve, int arm, int zone, int *bad)
{
    const sl_hair *solved = NULL;
    return members_solve_zone(&history, &solved, solve, scene, &scene->arms[arm], zone, &drawn, bad);
}

/* What lies on hair stays there, and dries. */
static void never_rinse(sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            arm->n_steps = i + 1;
        }
    }
}

/* At moments of the wet hour, and then of three days. */
static void meets_the_solution(int arm, int zone)
{
    member_zone read;
    int bad = -1;
    ck_assert_msg(solves(lanes_run, arm, zone, &bad), "%s: lane %d", scene->arms[arm].name, bad);
    member_zone_make(&read, ground_of(scene), scene, &scene->arms[arm], zone, &drawn);
    for (double minute = 0.0; minute <= scene->until_min; minute += minute < 90.0 ? 3.0 : 47.0) {
        sl_cell cell;
        sl_timeline_at(timeline, arm, zone, minute, NULL, &cell);
        const member_reading there = member_read(&read, &history, 3, minute);
        if (cell.colour_left >= 0.0) {
            ck_assert_msg(fabs(there.left - cell.colour_left) <= APART,
                          "%s, zone %d, %.0f min: %.5f, solved %.5f", scene->arms[arm].name, zone, minute,
                          there.left, cell.colour_left);
        }
        ck_assert_double_eq_tol(there.cystine_lost, cell.cystine_lost, APART);
        ck_assert_double_eq_tol(there.base_moved, cell.base_moved, APART);
    }
}

/* As the scene has it, and then as none of its mixes is rinsed. */
static void rinsed_and_not(void (*holds)(void))
{
    holds();
    for (int arm = 0; arm < scene->n_arms; arm++) {
        never_rinse(&scene->arms[arm]);
    }
    holds();
}

static void all_meet_the_solution(void)
{
    members_begin(&drawn);
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, NULL));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            if (sl_timeline_predicted(timeline, arm)) {
                meets_the_solution(arm, zone);
            }
        }
    }
}
END_TEST

START_TEST(with_the_numbers_of_the_scene_they_are_its_solution)
{
    rinsed_and_not(all_meet_the_solution);
}
END_TEST

static void none_is_refused(void)
{
    static lanes_solver *const solvers[] = {lanes_run, lanes_run_rinsed};
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    for (long first = 0; first < 32; first += LANES) {
        members_draw(&drawn, &plan, 3, first);
        for (int arm = 0; arm < scene->n_arms; arm++) {
            for (int zone = 0; zone < scene->n_zones; zone++) {
                for (int i = 0; i < 2; i++) {
                    int bad = -1;
                    ck_assert_msg(solves(solvers[i], arm, zone, &bad), "%s, zone %d: member %ld",
                                  scene->arms[arm].name, zone, first + bad);
                }
            }
        }
    }
}

START_TEST(drawn_apart_none_is_refused)
{
    rinsed_and_not(none_is_refused);
}
END_TEST

START_SUITE("reduced members")
FIXTURE(set_up, tear_down)
ADD(with_the_numbers_of_the_scene_they_are_its_solution)
ADD(drawn_apart_none_is_refused)
END_SUITE
