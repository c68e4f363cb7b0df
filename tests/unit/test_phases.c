/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The phases of an arm, the slopes in each, and how a phase is walked.
 */
#include "kinetics/phases.h"

#include <gsl/gsl_errno.h>
#include <math.h>

#include "kinetics/control.h"
#include "kinetics/solver.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_solver *solver;

static void fresh(void)
{
    small_scene_fill(&small);
    if (!solver) {
        solver = sl_solver_new(NULL);
    }
}

/* Two targets of a full system in each kind of phase, from a state in which everything is there. The slopes
 * begin as something else, so that each must be written. */
static void slopes_of(phase_kind kind, bool feedback, double y[FULL_STATES], double slope[FULL_STATES])
{
    static sl_treatment treatment;
    system_now system = {.calls = 0};
    const phase now = {.kind = kind,
                       .end_min = 30.0,
                       .mix = &small.mixes[MIX_POWDER_6],
                       .saturation_mol_l = 0.5,
                       .liquid_share = 0.05,
                       .dry_per_min = 0.04};
    small.scene.chemistry.pigment_feedback = feedback;
    treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
    treatment.n_targets = 2;
    treatment.target[0] = (sl_target){&small.dyes[1].rates, 0.02, 3.0, 0.25, NULL};
    treatment.target[1] = (sl_target){&small.dyes[2].rates, 0.01, 2.0, 0.5, NULL};
    for (int i = 0; i < FULL_STATES; i++) {
        y[i] = i >= SHARED_STATES ? 0.1 + 0.01 * i : 0.2 + 0.05 * i;
        slope[i] = 7.0;
    }
    y[AT_WETNESS] = 0.8;
    y[AT_CYSTINE] = 0.9;
    system_enter(&system, &treatment, &now);
    ck_assert_int_eq(system_slope(10.0, y, slope, &system), 0);
    ck_assert_int_eq(system.calls, 1);
}

/* A target's exponents grow by its constants against the doses; slots of no target stay as they are. */
START_TEST(exponents_follow_the_doses_and_those_of_no_target_stand_still)
{
    double y[FULL_STATES], slope[FULL_STATES];
    for (int kind = PHASE_BOWL; kind <= PHASE_REST; kind++) {
        fresh();
        slopes_of((phase_kind)kind, false, y, slope);
        for (int i = 0; i < SL_MAX_TARGETS; i++) {
            double rim = 0.0, core = 0.0;
            for (int c = 0; c < SL_CHANNELS && i < 2; c++) {
                const double k = small.dyes[1 + i].rates.k[c].value;
                rim += k * slope[AT_RIM_DOSE + c];
                core += k * slope[AT_CORE_DOSE + c];
            }
            ck_assert_double_eq_tol(slope[AT_RIM_EXPONENT + i], rim, 1e-12);
            ck_assert_double_eq_tol(slope[AT_CORE_EXPONENT + i], core, 1e-12);
            ck_assert(i >= 2 || kind == PHASE_BOWL ||
                      (core > 0.0 && (kind == PHASE_REST ? rim <= 0.0 : rim > 0.0)));
        }
        ck_assert_double_eq_tol(slope[AT_WETNESS], -0.04 * 0.8, 1e-15);
        if (kind == PHASE_BOWL) { /* nothing enters a fibre there */
            for (int i = AT_FIBRE_PEROXIDE; i < FULL_STATES; i++) {
                ck_assert_double_eq(slope[i], 0.0);
            }
        } else if (kind == PHASE_REST) { /* nor is there a mix to be used up */
            ck_assert_double_eq(slope[AT_PEROXIDE], 0.0);
            ck_assert_double_eq(slope[AT_PERSULFATE], 0.0);
            ck_assert_double_eq(slope[AT_UNDISSOLVED], 0.0);
        }
    }
}
END_TEST

/* docs/science.md, pigment feedback: what is held of each target, times the oxidant that a mole takes, times
 * the core's rates; the radical channel takes half of each oxidant. */
START_TEST(pigments_that_react_take_their_oxidant_out_of_the_fibre)
{
    double y[FULL_STATES], without[FULL_STATES], with[FULL_STATES];
    fresh();
    slopes_of(PHASE_MIX, false, y, without);
    slopes_of(PHASE_MIX, true, y, with);
    const double held[2] = {0.02 * 3.0 * 0.75 * exp(-y[AT_CORE_EXPONENT]),
                            0.01 * 2.0 * 0.5 * exp(-y[AT_CORE_EXPONENT + 1])};
    double peroxide = 0.0, persulfate = 0.0;
    for (int i = 0; i < 2; i++) {
        const sl_param *const k = small.dyes[1 + i].rates.k;
        const double radical = k[SL_RADICAL].value * without[AT_CORE_DOSE + SL_RADICAL];
        peroxide +=
            held[i] * (k[SL_PERHYDROXYL].value * without[AT_CORE_DOSE + SL_PERHYDROXYL] + radical / 2.0);
        persulfate +=
            held[i] * (k[SL_PERSULFATE].value * without[AT_CORE_DOSE + SL_PERSULFATE] + radical / 2.0);
    }
    for (int i = 0; i < FULL_STATES; i++) {
        const double taken = i == AT_FIBRE_PEROXIDE ? peroxide : i == AT_FIBRE_PERSULFATE ? persulfate : 0.0;
        ck_assert_double_eq_tol(without[i] - with[i], taken, 1e-15);
    }
    ck_assert_double_gt(peroxide, 1e-6);
}
END_TEST

/* What leaves the mix enters the fibre: as much of it as fibre water over liquid says. */
START_TEST(what_enters_the_fibre_leaves_the_mix)
{
    double y[FULL_STATES], thin[FULL_STATES], still[FULL_STATES];
    fresh();
    slopes_of(PHASE_MIX, false, y, thin);
    small.scene.chemistry.peroxide_diffusion_cm2_s.value = 0.0;
    small.scene.chemistry.persulfate_diffusion_cm2_s.value = 0.0;
    slopes_of(PHASE_MIX, false, y, still);
    for (int i = 0; i < 2; i++) {
        const double in = thin[AT_FIBRE_PEROXIDE + i] - still[AT_FIBRE_PEROXIDE + i];
        ck_assert_double_gt(fabs(in), 1e-4);
        ck_assert_double_eq_tol(thin[AT_PEROXIDE + i] - still[AT_PEROXIDE + i], -0.05 * in, 1e-14);
    }
}
END_TEST

/* A mix for 30 min, a rest of 5, a rinse of 2, two shampoos, then a rest until the scene ends. */
static sl_treatment five_steps(void)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->n_steps = 4;
    arm->steps[1] = (sl_step){.kind = SL_STEP_REST, .duration_min = 5.0};
    arm->steps[2] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 2.0};
    arm->steps[3] = (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = 2};
    arm->contact_min = 10.0;
    return small_treatment(&small, ARM_6, 1.0, 1.0);
}

START_TEST(steps_become_phases_that_follow_one_another_up_to_the_end)
{
    static const phase_kind kind[] = {PHASE_MIX, PHASE_REST, PHASE_RINSE, PHASE_RINSE, PHASE_REST};
    static const double end[] = {30.0, 35.0, 37.0, 39.0, 50.0};
    /* where the scene ends, and how many phases begin before that; contact is at 10 */
    static const struct {
        double until;
        int phases;
    } cases[] = {{60.0, 5}, {49.5, 5}, {49.0, 4}, {48.0, 4}, {47.0, 3},
                 {46.9, 3}, {40.0, 1}, {12.0, 1}, {10.0, 0}, {5.0, 0}};
    sl_treatment treatment = five_steps();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        planned plan;
        treatment.until_min = cases[i].until;
        phases_of(&plan, &treatment);
        ck_assert_msg(plan.n == cases[i].phases, "until %g: %d", cases[i].until, plan.n);
        for (int p = 0; p < plan.n; p++) {
            ck_assert_int_eq(plan.phases[p].kind, kind[p]);
            ck_assert_double_eq(plan.phases[p].start_min, p > 0 ? end[p - 1] : 0.0);
            ck_assert_double_eq(plan.phases[p].end_min, fmin(end[p], cases[i].until - 10.0));
            ck_assert_ptr_nonnull(plan.step[p]);
            ck_assert_double_eq(plan.phases[p].last_contact_min, 0.0);
            ck_assert_ptr_eq(plan.phases[p].mix, &small.mixes[MIX_POWDER_6]);
        }
    }
    const sl_treatment untreated = small_treatment(&small, ARM_UNTREATED, 1.0, 1.0);
    planned plan;
    phases_of(&plan, &untreated);
    ck_assert_int_eq(plan.n, 0);
}
END_TEST

/* What each kind of phase has of its own (docs/science.md): who dries, what leaches, what a shampoo counts.
 */
START_TEST(each_phase_washes_and_dries_as_its_step_does)
{
    sl_treatment treatment = five_steps();
    planned plan;
    small.arms[ARM_6].steps[0].covered = false;
    phases_of(&plan, &treatment);
    ck_assert_int_eq(plan.n, 5);
    const phase *const p = plan.phases;
    const double dry[] = {0.03, 0.2, 0.0, 0.0, 0.2}, leach[] = {1.0, 0.0, 3.0, 3.0, 0.0},
                 shampoo[] = {0.0, 0.0, 0.0, 1.0, 0.0};
    for (int i = 0; i < 5; i++) {
        ck_assert_double_eq(p[i].dry_per_min, dry[i]);
        ck_assert_double_eq(p[i].leach_rate, leach[i]);
        ck_assert_double_eq(p[i].shampoo_rate, shampoo[i]);
    }
    const double wet = (1.0 - exp(-0.03 * 30.0)) / 0.03; /* the mix dries as it leaches */
    ck_assert_double_eq_tol(leach_of(&p[0], 30.0), wet, 1e-12);
    ck_assert_double_eq_tol(leach_of(&p[0], 10.0), (1.0 - exp(-0.3)) / 0.03, 1e-12);
    ck_assert_double_eq_tol(leach_of(&p[1], 34.0), wet, 1e-12);
    ck_assert_double_eq_tol(leach_of(&p[2], 36.0), wet + 3.0, 1e-12);
    ck_assert_double_eq_tol(leach_of(&p[3], 38.0), wet + 9.0, 1e-12);
    ck_assert_double_eq_tol(leach_of(&p[4], 50.0), wet + 12.0, 1e-12);
    ck_assert_double_eq(shampoos_of(&p[2], 37.0), 0.0);
    ck_assert_double_eq(shampoos_of(&p[3], 37.5), 0.5);
    ck_assert_double_eq(shampoos_of(&p[4], 50.0), 2.0);
    small.arms[ARM_6].steps[0].covered = true;
    phases_of(&plan, &treatment);
    ck_assert_double_eq(p[0].dry_per_min, 0.0);
    ck_assert_double_eq_tol(leach_of(&p[4], 50.0), 42.0, 1e-12);
}
END_TEST

/* Corners of the temperature cut the phase that they lie in, in whatever order; one on a border or outside
 * cuts nothing. The scene's clock is ten minutes ahead of the contact's. */
START_TEST(a_corner_cuts_the_phase_it_lies_in)
{
    sl_treatment treatment = five_steps();
    const double at[] = {5.0, 10.0, 20.0, 30.0, 40.0, 46.0, 55.0, 60.0, 70.0};
    small.scene.n_points = 9;
    for (int i = 0; i < 9; i++) {
        small.scene.points[i] = (sl_course_point){at[i], 20.0 + i};
    }
    planned plan;
    phases_of(&plan, &treatment);
    const double start[] = {0.0, 10.0, 20.0, 30.0, 35.0, 36.0, 37.0, 39.0, 45.0, 50.0};
    const int opens[] = {1, 0, 0, 1, 1, 0, 1, 1, 0};
    ck_assert_int_eq(plan.n, 9);
    for (int p = 0; p < 9; p++) {
        ck_assert_double_eq(plan.phases[p].start_min, start[p]);
        ck_assert_double_eq(plan.phases[p].end_min, start[p + 1]);
        ck_assert_int_eq(plan.step[p] != NULL, opens[p]);
    }
    ck_assert_double_eq_tol(leach_of(&plan.phases[8], 50.0), 42.0, 1e-12); /* as if none were cut */
    ck_assert_double_eq_tol(shampoos_of(&plan.phases[8], 50.0), 2.0, 1e-12);
}
END_TEST

/* A second mix has its own contact; a rinse after it keeps that. */
START_TEST(a_second_mix_begins_its_own_contact)
{
    fresh();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->n_steps = 4;
    arm->steps[2] = arm->steps[0];
    arm->steps[2].mix = MIX_POWDER_3;
    arm->steps[2].mix_g_per_g = 3.0;
    arm->steps[2].duration_min = 10.0;
    arm->steps[3] = arm->steps[1];
    const sl_treatment treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
    planned plan;
    phases_of(&plan, &treatment);
    ck_assert_int_eq(plan.n, 5);
    for (int p = 0; p < 5; p++) {
        ck_assert_double_eq(plan.phases[p].last_contact_min, p < 2 ? 0.0 : 32.0);
        ck_assert_ptr_eq(plan.phases[p].mix, &small.mixes[p < 2 ? MIX_POWDER_6 : MIX_POWDER_3]);
    }
    /* half the mix, half the liquid, twice the share of the fibre's water */
    ck_assert_double_eq_tol(plan.phases[2].liquid_share, 2.0 * plan.phases[0].liquid_share, 1e-12);
    ck_assert_double_eq(plan.phases[3].liquid_share, plan.phases[2].liquid_share);
    ck_assert_double_eq(plan.phases[4].saturation_mol_l, plan.phases[2].saturation_mol_l);
}
END_TEST

/* GSL's manual, "Adaptive Step-size Control": D = eps_abs + eps_rel |y|; for E > 1.1 D the step becomes
 * 0.9 h (E/D)^(-1/q), for E < D/2 0.9 h (E/D)^(-1/(q+1)); never more than five times longer or shorter;
 * between them it stays. */
START_TEST(a_step_is_chosen_by_the_rule_of_the_manual)
{
    sl_accuracy wanted = {.absolute = 1e-3, .relative = 1e-2, .longest_min = 2.0};
    gsl_odeiv2_control control = control_of(&wanted);
    const double y[2] = {-0.9, 0.0}, slope[2] = {5.0, 7.0}; /* D is 1e-2 and 1e-3 */
    static const struct {
        double ratio, by; /* E/D of the worse, step after over before; order 4 */
        int said;
    } cases[] = {{2.0, 0.9 * 0.8408964152537145, GSL_ODEIV_HADJ_DEC},
                 {1.2, 0.9 * 0.9554427922043668, GSL_ODEIV_HADJ_DEC},
                 {1.05, 1.0, GSL_ODEIV_HADJ_NIL},
                 {0.55, 1.0, GSL_ODEIV_HADJ_NIL},
                 {0.45, 0.9 * 1.173160676311841, GSL_ODEIV_HADJ_INC},
                 {1e-9, 5.0, GSL_ODEIV_HADJ_INC},
                 {1e9, 0.2, GSL_ODEIV_HADJ_DEC}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int worse = 0; worse < 2; worse++) {
            double error[2] = {1e-2 * 1e-12, 1e-3 * 1e-12}, step = 0.5;
            error[worse] = (worse == 0 ? -1e-2 : 1e-3) * cases[i].ratio;
            ck_assert_int_eq(control.type->hadjust(control.state, 2, 4, y, error, slope, &step),
                             cases[i].said);
            ck_assert_double_eq_tol(step, 0.5 * cases[i].by, 1e-6);
        }
    }
    double level = 0.0;
    ck_assert_int_eq(control.type->errlevel(control.state, -0.9, 5.0, 0.5, 0, &level), GSL_SUCCESS);
    ck_assert_double_eq_tol(level, 1e-2, 1e-15);
}
END_TEST

typedef struct walked {
    int n, most;
    double time[200];
} walked;

static bool note(void *where, double since_contact_min, const double state[], const double slope[],
                 sl_error *error)
{
    walked *const walk = where;
    (void)error;
    ck_assert(isfinite(state[AT_PEROXIDE]) && isfinite(slope[AT_PEROXIDE]));
    ck_assert_int_lt(walk->n, 200);
    walk->time[walk->n++] = since_contact_min;
    return walk->n < walk->most;
}

/* A phase is walked from its start to its end, in four steps at least and none longer than is wanted, the
 * last no sliver; whoever takes the nodes may stop it. */
START_TEST(a_phase_is_walked_from_start_to_end_in_steps_that_can_be_read_between)
{
    static const double end[] = {0.004, 1.0, 7.3, 30.0};
    for (size_t i = 0; i < sizeof end / sizeof end[0]; i++) {
        for (int stop = 0; stop < 2; stop++) {
            fresh();
            const sl_treatment treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
            const phase now = {.kind = PHASE_MIX,
                               .start_min = 2.0,
                               .end_min = 2.0 + end[i],
                               .mix = &small.mixes[MIX_POWDER_6],
                               .saturation_mol_l = 0.5,
                               .liquid_share = 0.05};
            system_now system = {.calls = 0};
            double y[FULL_STATES] = {
                [AT_PEROXIDE] = 1.0, [AT_PERSULFATE] = 0.3, [AT_WETNESS] = 1.0, [AT_CYSTINE] = 1.0};
            walked walk = {.most = stop ? 3 : 1000};
            system_enter(&system, &treatment, &now);
            ck_assert_int_eq(solver_run(solver, &system, y, note, &walk, NULL), !stop);
            if (stop) {
                ck_assert_int_eq(walk.n, 3);
                continue;
            }
            ck_assert_double_eq(walk.time[0], 2.0);
            ck_assert_double_eq(walk.time[walk.n - 1], 2.0 + end[i]);
            ck_assert_int_ge(walk.n, 5);
            double last = 1e9;
            for (int n = 1; n < walk.n; n++) {
                const double step = walk.time[n] - walk.time[n - 1];
                ck_assert_double_le(step, fmin(2.0, end[i] / 4.0) + 1e-12);
                ck_assert_double_ge(step, n + 1 == walk.n ? 0.2 * last : 1e-4);
                last = step;
            }
        }
    }
}
END_TEST

static double bad_start(int state)
{
    fresh();
    const sl_treatment treatment = small_treatment(&small, ARM_6, 1.0, 1.0);
    const phase now = {
        .kind = PHASE_MIX, .start_min = 2.5, .end_min = 9.0, .mix = &small.mixes[MIX_POWDER_6]};
    system_now system = {.calls = 0};
    double y[FULL_STATES] = {[AT_WETNESS] = 1.0, [AT_CYSTINE] = 1.0};
    y[state] = nan("");
    walked walk = {.most = 1000};
    sl_error error = {0};
    system_enter(&system, &treatment, &now);
    ck_assert(!solver_run(solver, &system, y, note, &walk, &error));
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert_str_eq(error.found, "2.50 min after contact");
    ck_assert_str_eq(error.wanted, "check the rate constants and strengths of this scene");
    return walk.n;
}

START_TEST(a_state_that_is_no_number_is_found_before_the_first_step)
{
    for (int state = 0; state < SHARED_STATES; state++) {
        ck_assert_double_eq(bad_start(state), 0.0);
    }
}
END_TEST

START_SUITE("phases")
ADD(exponents_follow_the_doses_and_those_of_no_target_stand_still)
ADD(pigments_that_react_take_their_oxidant_out_of_the_fibre)
ADD(what_enters_the_fibre_leaves_the_mix)
ADD(steps_become_phases_that_follow_one_another_up_to_the_end)
ADD(each_phase_washes_and_dries_as_its_step_does)
ADD(a_corner_cuts_the_phase_it_lies_in)
ADD(a_second_mix_begins_its_own_contact)
ADD(a_step_is_chosen_by_the_rule_of_the_manual)
ADD(a_phase_is_walked_from_start_to_end_in_steps_that_can_be_read_between)
ADD(a_state_that_is_no_number_is_found_before_the_first_step)
END_SUITE
