/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How doubtful a strip is goes by its own mix and its own agent: what stands beside it changes nothing of it,
 * to the byte.
 */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "estimate/limits_of_members.h"
#include "estimate/members.h"
#include "ground.h"
#include "slowlift/spread.h"
#include "small_scene.h"
#include "suite.h"

enum { MEMBERS = 160 };
static small_scene small;
static lane_history history;

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
    sl_mix *const known = &small.mixes[MIX_POWDER_6];
    known->ph.grade = known->loss_per_min.grade = SL_GRADE_MEASURED_HERE;
    small.scene.chemistry.fibre_loss_per_min.grade = SL_GRADE_PUBLISHED;
}

static sl_spread *counted(void)
{
    sl_error error = {0};
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = MEMBERS, .seed = 5, .threads = 1};
    ck_assert_msg(sl_spread_run(&spread, &small.scene, &request, &error), "%s", error.found);
    return spread;
}

static bool same(const sl_spread *one, const sl_spread *two, int arm)
{
    const sl_arm_spread *const x = &one->arms[arm], *const y = &two->arms[arm];
    const size_t bytes = ((size_t)one->seconds + 1) * sizeof *x->early;
    ck_assert(x->asked && y->asked && one->seconds == two->seconds);
    return memcmp(x->early, y->early, bytes) == 0 && memcmp(x->late, y->late, bytes) == 0 &&
           memcmp(x->left_hundredths, y->left_hundredths, sizeof x->left_hundredths) == 0;
}

static double width_min(const sl_spread *spread, int arm)
{
    const uint64_t *const late = spread->arms[arm].late;
    return sl_spread_quantile(late, spread->seconds, MEMBERS, 0.9) -
           sl_spread_quantile(late, spread->seconds, MEMBERS, 0.1);
}

/* How the mix of the strip beside is known, in turn. */
static void know(int what)
{
    sl_mix *const beside = &small.mixes[MIX_POWDER_3];
    const sl_grade grade = SL_GRADE_MEASURED_HERE;
    switch (what) {
    case 0:
        beside->ph.grade = grade;
        break;
    case 1:
        beside->ph_computed = true;
        beside->ph_doubt = 1.2; /* hardly anything is known of it */
        break;
    case 2:
        beside->loss_per_min.grade = grade;
        break;
    default:
        beside->loss_l_mol_min = (sl_param){.value = 0.02, .grade = SL_GRADE_PUBLISHED};
        break;
    }
}

START_TEST(a_strip_is_as_doubtful_alone_as_beside_a_mix_that_is_less_known)
{
    fresh();
    sl_spread *const beside = counted();
    small.scene.n_mixes = 1; /* alone: its mix and no other */
    small.mixes[0] = small.mixes[MIX_POWDER_6];
    small.arms[0] = small.arms[ARM_6];
    small.arms[0].steps[0].mix = 0;
    small.scene.n_arms = 1;
    sl_spread *const alone = counted();
    ck_assert(alone->arms[0].asked);
    const size_t bytes = ((size_t)alone->seconds + 1) * sizeof *alone->arms[0].early;
    ck_assert_mem_eq(alone->arms[0].early, beside->arms[ARM_6].early, bytes);
    ck_assert_mem_eq(alone->arms[0].late, beside->arms[ARM_6].late, bytes);
    sl_spread_free(beside);
    sl_spread_free(alone);
}
END_TEST

START_TEST(what_is_known_of_one_mix_changes_its_own_strips_alone)
{
    fresh();
    sl_spread *const first = counted();
    for (int what = 0; what < 4; what++) {
        fresh();
        know(what);
        sl_spread *const then = counted();
        ck_assert_msg(same(first, then, ARM_6) && same(first, then, ARM_WATER), "%d", what);
        ck_assert_msg(!same(first, then, ARM_3), "%d", what);
        sl_spread_free(then);
    }
    sl_spread_free(first);
}
END_TEST

/* A mix that is hardly known makes its strip's limits lie further apart. */
START_TEST(a_mix_that_is_less_known_is_more_doubtful)
{
    double width[2];
    for (int unknown = 0; unknown < 2; unknown++) {
        fresh();
        know(unknown);
        sl_spread *const spread = counted();
        width[unknown] = width_min(spread, ARM_3);
        sl_spread_free(spread);
    }
    ck_assert_double_gt(width[1], 1.2 * width[0]);
}
END_TEST

/* The strip's mix, then another that has stood. */
static void put_two_on(void)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_3];
    arm->steps[2] = arm->steps[0];
    arm->steps[2].mix = MIX_POWDER_6;
    arm->steps[2].mix_age_min = 9.0;
}

/* What a lane drew of a doubt, 1 where 95 of 100 draws end. */
static double drew(const drawn_members *drawn, const sl_draw_plan *plan, int l, sl_doubt doubt)
{
    int d = 0;
    while (plan->drawn[d].doubt != doubt) {
        d++;
    }
    return gsl_cdf_ugaussian_Pinv(drawn->u[l][d]) / 1.959963984540054;
}

/* A lane is the course of the scene in which each mix is shifted as far as it is doubtful itself. */
START_TEST(each_mix_of_a_strip_is_drawn_as_widely_as_itself)
{
    static drawn_members drawn;
    put_two_on();
    sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    for (int d = 0; d < plan.n; d++) { /* of the others nothing is in doubt */
        const sl_doubt doubt = plan.drawn[d].doubt;
        plan.drawn[d].spread = doubt == SL_DOUBT_PH || doubt == SL_DOUBT_LOSS ? plan.drawn[d].spread
                               : doubt == SL_DOUBT_WARMTH                     ? 0.0
                                                                              : 1.0;
    }
    int bad = -1;
    members_draw(&drawn, &plan, 11, 0);
    ck_assert(lanes_run(&history, &small.scene, &small.arms[ARM_3], 1.2, 0.9, &drawn.lanes, &bad));
    sl_solver *const solver = sl_solver_new(NULL);
    for (int l = 0; l < LANES; l++) {
        put_two_on();
        const double z = drew(&drawn, &plan, l, SL_DOUBT_PH), y = drew(&drawn, &plan, l, SL_DOUBT_LOSS);
        small.mixes[MIX_POWDER_3].ph.value += 0.3 * z;
        small.mixes[MIX_POWDER_6].ph.value += 0.1 * z;
        small.mixes[MIX_POWDER_3].loss_per_min.value *= pow(3.0, y);
        small.mixes[MIX_POWDER_6].loss_per_min.value *= pow(1.15, y);
        small.scene.chemistry.fibre_loss_per_min.value *= pow(1.3, y);
        sl_course *course = NULL;
        sl_moment moment;
        const sl_treatment treatment = small_treatment(&small, ARM_3, 1.2, 0.9);
        ck_assert(sl_course_solve(&course, &treatment, solver, NULL));
        sl_course_at(course, history.time_min[history.steps], &moment);
        for (int c = 0; c < SL_CHANNELS; c++) {
            ck_assert_double_eq_tol(history.core[history.steps][c][l] / moment.core_dose[c], 1.0, 1e-4);
        }
        sl_course_free(course);
    }
    sl_solver_free(solver);
}
END_TEST

/* Two agents side by side, each on a strip of its own. */
static void hold_agents(void)
{
    fresh();
    small.arms[ARM_MILD].steps[0].covered = false; /* air reaches it */
    small.zones[ZONE_RED].recipe.dye[0] = 3;       /* red lies beside another dye alone */
    small.scene.aims.colour_left = 0.6;
    for (int i = 0; i < 2; i++) {
        const sl_reductant_id id = i == 0 ? SL_REDUCTANT_SULFITE : SL_REDUCTANT_ASCORBATE;
        sl_mix *const mix = &small.mixes[i == 0 ? MIX_REDUCING : MIX_MILD];
        mix->mechanism = SL_MECHANISM_REDUCTIVE;
        mix->reductant = id;
        mix->reductant_share = 0.05;
        mix->developer_parts = 0.0;
        mix->water_parts = 1.0;
        small.scene.chemistry.reductant[id] = (sl_reductant){.order = assumed(1.0),
                                                             .air_loss_per_min = assumed(0.01),
                                                             .diffusion_cm2_s = assumed(2e-9),
                                                             .oxidant_per_mol = assumed(1.0)};
        for (int dye = 1; dye < SMALL_DYES; dye++) { /* red by the first alone */
            small.dyes[dye].reduced[id] = assumed(i == 0 || dye > 1 ? 0.3 : 0.0);
        }
    }
}

START_TEST(what_is_known_of_one_agent_changes_its_own_strips_alone)
{
    hold_agents();
    sl_spread *const first = counted();
    for (int what = 0; what < 4; what++) {
        hold_agents();
        sl_reductant *const agent = &small.scene.chemistry.reductant[SL_REDUCTANT_ASCORBATE];
        sl_grade *const grade[] = {&agent->diffusion_cm2_s.grade, &agent->air_loss_per_min.grade,
                                   &small.dyes[3].reduced[SL_REDUCTANT_ASCORBATE].grade};
        if (what < 3) {
            *grade[what] = SL_GRADE_MEASURED_HERE;
        } else { /* it takes another dye too, which lies before those of the other */
            small.dyes[1].reduced[SL_REDUCTANT_ASCORBATE] = assumed(0.3);
        }
        sl_spread *const then = counted();
        ck_assert_msg(same(first, then, ARM_REDUCING) && same(first, then, ARM_6), "%d", what);
        ck_assert_msg(!same(first, then, ARM_MILD), "%d", what);
        sl_spread_free(then);
    }
    sl_spread_free(first);
}
END_TEST

START_SUITE("own widths")
ADD(a_strip_is_as_doubtful_alone_as_beside_a_mix_that_is_less_known)
ADD(what_is_known_of_one_mix_changes_its_own_strips_alone)
ADD(a_mix_that_is_less_known_is_more_doubtful)
ADD(what_is_known_of_one_agent_changes_its_own_strips_alone)
ADD(each_mix_of_a_strip_is_drawn_as_widely_as_itself)
END_SUITE
