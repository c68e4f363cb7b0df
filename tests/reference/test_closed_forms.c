/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the system reduces to an equation that can be solved on paper, the solver must
 * give that solution. Everything is switched off (built_still_chemistry) but the one thing
 * under test.
 *
 * Tolerance: the solver keeps each step within 1e-10; a few hundred steps and constants near
 * one leave 1e-8 on amounts of order one.
 */
#include <math.h>
#include <stdlib.h>

#include "slowlift/kinetics.h"
#include "tools/built_scene.h"
#include "unit/suite.h"

static const double NEAR = 1e-8;

/* One arm of one mix on one hair, with a chemistry that each test sets. */
typedef struct bench_top {
    built_scene built;
    sl_solver *solver;
    sl_course *course;
} bench_top;

static bench_top top;

static void set_up(void)
{
    sl_error error;
    built_arms(&top.built);
    top.built.scene.chemistry = built_still_chemistry();
    top.built.scene.room_c = 32;
    top.solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(top.solver);
    top.course = NULL;
}

static void tear_down(void)
{
    sl_course_free(top.course);
    sl_solver_free(top.solver);
}

static sl_arm long_dwell(int mix)
{
    return (sl_arm){
        .name = "one",
        .n_steps = 1,
        .steps = {
            {.kind = SL_STEP_APPLY, .duration_min = 60, .mix = mix, .mix_g_per_g = 4, .covered = true}}};
}

static void solve(const sl_arm *arm)
{
    const sl_treatment treatment = {
        .scene = &top.built.scene, .arm = arm, .porosity = 1, .cystine_intact = 1, .until_min = 60};
    sl_error error;
    ck_assert(sl_course_solve(&top.course, &treatment, top.solver, &error));
}

static sl_moment at(double t)
{
    sl_moment moment;
    sl_course_at(top.course, t, &moment);
    return moment;
}

static double charge_of(int mix)
{
    return sl_mix_charge(&top.built.mixes[mix], &top.built.scene.chemistry, 4, 0).peroxide_mol_l;
}

static double alpha_of(int mix)
{
    return sl_perhydroxyl_share(&top.built.scene.chemistry, top.built.mixes[mix].ph.value, 305.15);
}

/* ---- the mix ---------------------------------------------------------------------------- */

START_TEST(a_single_decay_is_exponential)
{
    /* H = H0 e^-kt; dose of channel 1 = alpha H0 (1 - e^-kt)/k; dye = e^-(k1 dose) */
    const double k = 0.05;
    top.built.mixes[BUILT_LIQUID].loss_per_min.value = k;
    const sl_arm arm = long_dwell(BUILT_LIQUID);
    solve(&arm);
    const double H0 = charge_of(BUILT_LIQUID);
    sl_dye dye = top.built.dyes[0];
    dye.rim_share.value = 1;
    dye.leach_per_min.value = 0;
    dye.rates.k[SL_PERHYDROXYL].value = 40;
    for (double t = 0.5; t <= 60; t += 7.3) {
        const sl_moment m = at(t);
        const double dose = alpha_of(BUILT_LIQUID) * H0 * (1 - exp(-k * t)) / k;
        ck_assert_double_eq_tol(m.peroxide_mol_l, H0 * exp(-k * t), NEAR);
        ck_assert_double_eq_tol(m.rim_dose[SL_PERHYDROXYL], dose, NEAR);
        ck_assert_double_eq_tol(sl_dye_left(&dye, &m), exp(-40 * dose), 40 * NEAR);
    }
}
END_TEST

START_TEST(a_dwell_that_ends_just_after_a_step_is_read_as_well_as_any)
{
    /* Steps grow from 0.02 min fivefold to 2 min, so a dwell of 0.62 + 2 n min ends with a step; a
     * hair longer, and the last step would be a sliver that ruins the reading between steps. */
    const double k = 0.05;
    top.built.mixes[BUILT_LIQUID].loss_per_min.value = k;
    const double H0 = charge_of(BUILT_LIQUID);
    sl_arm arm = long_dwell(BUILT_LIQUID);
    for (double sliver = 1e-9; sliver < 2; sliver *= 1.3) {
        arm.steps[0].duration_min = 20.62 + sliver;
        solve(&arm);
        for (double t = 15; t <= 20.62; t += 0.37) {
            ck_assert_double_eq_tol(at(t).peroxide_mol_l, H0 * exp(-k * t), NEAR);
        }
    }
}
END_TEST

START_TEST(a_second_order_sink_is_hyperbolic)
{
    /* dH/dt = -k H^2: H = H0/(1 + k H0 t); dose = alpha ln(1 + k H0 t)/k */
    const double k = 0.08;
    top.built.mixes[BUILT_LIQUID].loss_l_mol_min.value = k;
    const sl_arm arm = long_dwell(BUILT_LIQUID);
    solve(&arm);
    const double H0 = charge_of(BUILT_LIQUID);
    for (double t = 0.5; t <= 60; t += 7.3) {
        ck_assert_double_eq_tol(at(t).peroxide_mol_l, H0 / (1 + k * H0 * t), NEAR);
        ck_assert_double_eq_tol(at(t).rim_dose[SL_PERHYDROXYL],
                                alpha_of(BUILT_LIQUID) * log1p(k * H0 * t) / k, NEAR);
    }
}
END_TEST

START_TEST(a_saturating_attack_on_a_decaying_oxidant_is_logarithmic)
{
    /* u = u0 e^-kt, dose = int u/(1 + u/K) dt = (K/k) ln((1 + u0/K)/(1 + u/K)) */
    const double k = 0.06;
    const double K = 0.004;
    top.built.scene.chemistry.saturation_mol_l.value = K;
    top.built.mixes[BUILT_CREAM].loss_per_min.value = k;
    top.built.mixes[BUILT_CREAM].loss_l_mol_min.value = 0;
    const sl_arm arm = long_dwell(BUILT_CREAM);
    solve(&arm);
    const double u0 = alpha_of(BUILT_CREAM) * charge_of(BUILT_CREAM);
    for (double t = 0.5; t <= 60; t += 7.3) {
        const double dose = K / k * log((1 + u0 / K) / (1 + u0 * exp(-k * t) / K));
        ck_assert_double_eq_tol(at(t).rim_dose[SL_PERHYDROXYL], dose, NEAR);
    }
}
END_TEST

START_TEST(persulfate_to_peroxide_to_water_is_a_chain_of_two)
{
    /* A -> B -> C (hydrolysis, then loss): B = A0 k1/(k2 - k1) (e^-k1 t - e^-k2 t) */
    const double k1 = 0.03;
    const double k2 = 0.11;
    sl_mix *mix = &top.built.mixes[BUILT_WATER];
    mix->potassium_persulfate = 0;
    mix->ph.value = 10.3;
    mix->loss_per_min.value = k2;
    top.built.scene.chemistry.hydrolysis_per_min.value = k1;
    const sl_arm arm = long_dwell(BUILT_WATER);
    solve(&arm);
    const double A0 = sl_mix_charge(mix, &top.built.scene.chemistry, 4, 0).persulfate_mol_l;
    for (double t = 0.5; t <= 60; t += 7.3) {
        ck_assert_double_eq_tol(at(t).persulfate_mol_l, A0 * exp(-k1 * t), NEAR);
        ck_assert_double_eq_tol(at(t).peroxide_mol_l, A0 * k1 / (k2 - k1) * (exp(-k1 * t) - exp(-k2 * t)),
                                NEAR);
    }
}
END_TEST

START_TEST(a_solid_dissolves_by_a_saturating_law)
{
    /* Thermal loss kept at zero, the bath starts saturated: nothing may dissolve. With the
     * dissolved salt lost at rate k and dissolution fast, P stays just below saturation and the
     * solid falls by k Psat t (quasi-steady state; its error is k/kdis of Psat). */
    const double k = 1e-3;
    const double kdis = 200;
    top.built.scene.chemistry.dissolve_per_min.value = kdis;
    const sl_arm arm = long_dwell(BUILT_WATER);
    solve(&arm);
    const sl_charge charge = sl_mix_charge(&top.built.mixes[BUILT_WATER], &top.built.scene.chemistry, 4, 0);
    ck_assert_double_eq_tol(at(60).undissolved_mol_l, charge.undissolved_mol_l, NEAR);
    top.built.scene.chemistry.thermal_per_min.value = k;
    solve(&arm);
    for (double t = 5; t <= 60; t += 11) {
        ck_assert_double_eq_tol(at(t).undissolved_mol_l,
                                charge.undissolved_mol_l - k * charge.saturation_mol_l * t,
                                2 * k / kdis * charge.saturation_mol_l * (1 + k * t) + NEAR);
    }
}
END_TEST

/* ---- mix and fibre -------------------------------------------------------------------------- */

START_TEST(exchange_between_two_compartments_is_exponential)
{
    /* dH = -phi k (H - h), dh = k (H - h): h = H0/(1 + phi) (1 - e^-(1 + phi) k t), with
     * k = j^2 D/r^2 of a cylinder, j = 2.4048255577 (first zero of J0: Abramowitz & Stegun,
     * table 9.5); 5.783 is j^2 rounded, 3.3e-5 below it */
    sl_chemistry *c = &top.built.scene.chemistry;
    c->peroxide_diffusion_cm2_s.value = 5e-9;
    top.built.mixes[BUILT_LIQUID].loss_per_min.value = 0;
    const sl_arm arm = long_dwell(BUILT_LIQUID);
    solve(&arm);
    const double phi = c->fibre_water_ml_g.value / 4;
    const double j = 2.4048255577;
    const double k = j * j * 5e-9 * 60 / (35e-4 * 35e-4);
    const double H0 = charge_of(BUILT_LIQUID);
    for (double t = 0.5; t <= 60; t += 7.3) {
        const double h = H0 / (1 + phi) * (1 - exp(-(1 + phi) * k * t));
        ck_assert_double_eq_tol(at(t).fibre_peroxide_mol_l, h, 3.4e-5 * H0 * k * t * exp(-k * t) + NEAR);
        ck_assert_double_eq_tol(at(t).peroxide_mol_l + phi * at(t).fibre_peroxide_mol_l, H0, NEAR);
    }
}
END_TEST

START_TEST(lipids_lost_to_radicals_speed_exchange)
{
    /* Steady u and P: X3 = u P t, and dh = k (1 + ml (1 - e^-kl X3)) (H - h), of much mix on little hair, so
     * that h = H (1 - exp(-k ((1 + ml) t - ml (1 - e^-at)/a))), a = kl u P */
    sl_chemistry *c = &top.built.scene.chemistry;
    sl_mix *mix = &top.built.mixes[BUILT_SIX];
    c->peroxide_diffusion_cm2_s.value = 1e-9;
    c->fibre_water_ml_g.value = 1e-12;
    c->lipids_open.value = 9;
    c->lipids_loss.value = 3;
    mix->potassium_persulfate = 0; /* all of it is dissolved */
    mix->loss_per_min.value = 0;
    const sl_arm arm = long_dwell(BUILT_SIX);
    solve(&arm);
    const sl_charge charge = sl_mix_charge(mix, c, 4, 0);
    const double k = 5.783 * 1e-9 * 60 / (35e-4 * 35e-4), H = charge.peroxide_mol_l;
    const double a = 3 * alpha_of(BUILT_SIX) * H * charge.persulfate_mol_l;
    ck_assert_double_gt(a * 60, 0.5);
    for (double t = 0.5; t <= 60; t += 7.3) {
        const double opened = 10 * t - 9 * (1 - exp(-a * t)) / a;
        ck_assert_double_eq_tol(at(t).fibre_peroxide_mol_l, H * (1 - exp(-k * opened)), NEAR);
    }
}
END_TEST

START_TEST(persulfate_divides_by_its_partition)
{
    /* long after: p = kappa P and P + phi p = P0, so p = kappa P0/(1 + phi kappa) */
    sl_chemistry *c = &top.built.scene.chemistry;
    c->persulfate_diffusion_cm2_s.value = 5e-8;
    c->persulfate_partition.value = 0.5;
    top.built.mixes[BUILT_WATER].potassium_persulfate = 0;
    const sl_arm arm = long_dwell(BUILT_WATER);
    solve(&arm);
    const sl_charge charge = sl_mix_charge(&top.built.mixes[BUILT_WATER], c, 4, 0);
    const double phi = c->fibre_water_ml_g.value / charge.liquid_ml_per_g;
    ck_assert_double_eq_tol(at(60).fibre_persulfate_mol_l, 0.5 * charge.persulfate_mol_l / (1 + 0.5 * phi),
                            NEAR);
}
END_TEST

START_TEST(a_drying_mix_stops_at_what_it_gave)
{
    /* W = e^-kt: leaching minutes and, with steady peroxide, the rim dose are (1 - e^-kt)/k */
    const double k = 0.04;
    top.built.scene.chemistry.dry_per_min.value = k;
    top.built.mixes[BUILT_LIQUID].loss_per_min.value = 0;
    sl_arm arm = long_dwell(BUILT_LIQUID);
    arm.steps[0].covered = false;
    solve(&arm);
    const double u = alpha_of(BUILT_LIQUID) * charge_of(BUILT_LIQUID);
    for (double t = 0.5; t <= 60; t += 7.3) {
        ck_assert_double_eq_tol(at(t).wetness, exp(-k * t), NEAR);
        ck_assert_double_eq_tol(at(t).leach_min, (1 - exp(-k * t)) / k, NEAR);
        ck_assert_double_eq_tol(at(t).rim_dose[SL_PERHYDROXYL], u * (1 - exp(-k * t)) / k, NEAR);
    }
}
END_TEST

START_TEST(what_is_left_in_rinsed_hair_fades_as_it_dries)
{
    /* REST: dh/dt = -W kdf h, W = e^-kt: h = h0 exp(-kdf (1 - e^-kt)/k) */
    sl_chemistry *c = &top.built.scene.chemistry;
    c->peroxide_diffusion_cm2_s.value = 2e-8;
    c->fibre_loss_per_min.value = 0.1;
    c->rest_dry_per_min.value = 0.05;
    sl_arm arm = long_dwell(BUILT_LIQUID);
    arm.steps[0].duration_min = 20;
    arm.n_steps = 2;
    arm.steps[1] = (sl_step){.kind = SL_STEP_REST, .duration_min = 40};
    solve(&arm);
    const double h0 = at(20 - 1e-9).fibre_peroxide_mol_l;
    ck_assert_double_gt(h0, 0.1);
    for (double t = 1; t <= 40; t += 6.5) {
        ck_assert_double_eq_tol(at(20 + t).fibre_peroxide_mol_l, h0 * exp(-0.1 * (1 - exp(-0.05 * t)) / 0.05),
                                NEAR);
    }
}
END_TEST

START_TEST(a_rinse_empties_the_bath_exponentially)
{
    top.built.scene.chemistry.rinse_per_min.value = 0.7;
    top.built.mixes[BUILT_LIQUID].loss_per_min.value = 0;
    sl_arm arm = long_dwell(BUILT_LIQUID);
    arm.steps[0].duration_min = 10;
    arm.n_steps = 2;
    arm.steps[1] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 5};
    solve(&arm);
    for (double t = 0.25; t < 5; t += 0.5) {
        ck_assert_double_eq_tol(at(10 + t).peroxide_mol_l, charge_of(BUILT_LIQUID) * exp(-0.7 * t), NEAR);
    }
}
END_TEST

/* ---- cystine and melanin ---------------------------------------------------------------------- */

START_TEST(a_product_layer_gives_the_implicit_law)
{
    /* dC/dY = -k C/(1 + (1 - C)/X): (1 + 1/X) ln C + (1 - C)/X = -k Y */
    sl_chemistry *c = &top.built.scene.chemistry;
    c->persulfate_diffusion_cm2_s.value = 5e-9;
    c->oxidant_per_cystine.value = 0;
    c->cystine.k[SL_PERSULFATE].value = 0.2;
    const sl_arm arm = long_dwell(BUILT_WATER);
    solve(&arm);
    const double X = c->cystine_layer.value;
    ck_assert_double_lt(at(60).cystine_intact, 0.9);
    for (double t = 1; t <= 60; t += 7.3) {
        const sl_moment m = at(t);
        const double left = (1 + 1 / X) * log(m.cystine_intact) + (1 - m.cystine_intact) / X;
        ck_assert_double_eq_tol(left, -0.2 * m.core_dose[SL_PERSULFATE], 30 * NEAR); /* 2/X amplifies */
    }
}
END_TEST

START_TEST(melanin_goes_bound_opened_yellow_as_a_chain_of_three)
{
    /* Bateman's solution for rates 1, rho, sigma per unit of exponent, from bound alone */
    const sl_chemistry *c = &top.built.scene.chemistry;
    for (double O = 0; O < 12; O += 0.37) {
        const double from[SL_MELANINS][SL_STAGES] = {{2.0, 0, 0}, {0.7, 0, 0}};
        const double exponent[SL_MELANINS] = {O, 0.6 * O};
        double to[SL_MELANINS][SL_STAGES];
        sl_melanin_move(c, exponent, from, to);
        for (int kind = 0; kind < SL_MELANINS; kind++) {
            const double o = exponent[kind];
            const double r = c->melanin[kind].opened_ratio.value;
            const double s = c->melanin[kind].yellow_ratio.value;
            const double B0 = from[kind][SL_BOUND];
            const double yellow = r * (exp(-o) / ((r - 1) * (s - 1)) + exp(-r * o) / ((1 - r) * (s - r)) +
                                       exp(-s * o) / ((1 - s) * (r - s)));
            ck_assert_double_eq_tol(to[kind][SL_BOUND], B0 * exp(-o), 1e-12);
            ck_assert_double_eq_tol(to[kind][SL_OPENED], B0 * (exp(-o) - exp(-r * o)) / (r - 1), 1e-12);
            ck_assert_double_eq_tol(to[kind][SL_YELLOW], B0 * yellow, 1e-12);
        }
    }
}
END_TEST

START_TEST(melanin_moved_twice_is_melanin_moved_once)
{
    const sl_chemistry *c = &top.built.scene.chemistry;
    const double from[SL_MELANINS][SL_STAGES] = {{1.0, 0.4, 0.2}, {0.5, 0.1, 0.3}};
    const double some[SL_MELANINS] = {0.3, 0.2};
    const double more[SL_MELANINS] = {1.1, 0.7};
    const double all[SL_MELANINS] = {1.4, 0.9};
    double steps[SL_MELANINS][SL_STAGES];
    double once[SL_MELANINS][SL_STAGES];
    sl_melanin_move(c, some, from, steps);
    sl_melanin_move(c, more, (const double(*)[SL_STAGES])steps, steps);
    sl_melanin_move(c, all, from, once);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            ck_assert_double_eq_tol(steps[kind][stage], once[kind][stage], 1e-12);
        }
    }
}
END_TEST

START_TEST(equal_ratios_do_not_divide_by_zero)
{
    /* sigma = rho is allowed: the limit of the chain, S e^-(rho O) falls with rho O of yellow.
     * Compared with ratios 1e-5 apart, whose amounts are as far apart. */
    sl_chemistry c = top.built.scene.chemistry;
    const double from[SL_MELANINS][SL_STAGES] = {{1.0, 0, 0}, {0.5, 0, 0}};
    const double exponent[SL_MELANINS] = {1.3, 0.8};
    double equal[SL_MELANINS][SL_STAGES];
    double near_equal[SL_MELANINS][SL_STAGES];
    c.melanin[SL_EUMELANIN].yellow_ratio.value = c.melanin[SL_EUMELANIN].opened_ratio.value;
    sl_melanin_move(&c, exponent, from, equal);
    c.melanin[SL_EUMELANIN].yellow_ratio.value += 1e-5;
    sl_melanin_move(&c, exponent, from, near_equal);
    ck_assert_double_eq_tol(equal[SL_EUMELANIN][SL_YELLOW], near_equal[SL_EUMELANIN][SL_YELLOW], 2e-5);
    ck_assert_double_gt(equal[SL_EUMELANIN][SL_YELLOW], 0.05);
}
END_TEST

START_SUITE("closed forms")
FIXTURE(set_up, tear_down)
ADD(a_single_decay_is_exponential)
ADD(a_dwell_that_ends_just_after_a_step_is_read_as_well_as_any)
ADD(a_second_order_sink_is_hyperbolic)
ADD(a_saturating_attack_on_a_decaying_oxidant_is_logarithmic)
ADD(persulfate_to_peroxide_to_water_is_a_chain_of_two)
ADD(a_solid_dissolves_by_a_saturating_law)
ADD(exchange_between_two_compartments_is_exponential)
ADD(lipids_lost_to_radicals_speed_exchange)
ADD(persulfate_divides_by_its_partition)
ADD(a_drying_mix_stops_at_what_it_gave)
ADD(what_is_left_in_rinsed_hair_fades_as_it_dries)
ADD(a_rinse_empties_the_bath_exponentially)
ADD(a_product_layer_gives_the_implicit_law)
ADD(melanin_goes_bound_opened_yellow_as_a_chain_of_three)
ADD(melanin_moved_twice_is_melanin_moved_once)
ADD(equal_ratios_do_not_divide_by_zero)
END_SUITE
