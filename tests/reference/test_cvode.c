/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The library against SUNDIALS CVODE on the full system, at every minute of a scene.
 *
 * The reference (full_system.c) is written apart from src/, with dyes and melanin stages as
 * states. It runs at rtol 1e-12, where its two methods agree to 2e-9, so that a difference near
 * 1e-6 is the library's.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "full_system.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "tools/built_scene.h"
#include "unit/suite.h"

enum { MOST_TIMES = 400 };
/* Errors are shares of the initial amount (of the charge for bath and fibre), and, for what was
 * there at the start, differences of ln(amount) while more than 1e-6 of it is left. */
static const double NEAR_SHARE = 1e-6, NEAR_LOG = 1e-6, STILL_THERE = 1e-6;
static const ref_method TIGHT = {.adams = true, .relative = 1e-12, .absolute = 1e-17};

/* The absolute tolerance of the solver (1e-10 mol/L) cannot follow what a rinse washes out of the
 * bath down to a millionth; only the eight arms are held to that, other scenes to a thousandth. */
static const double WASHED_OUT = 1e-3;

typedef struct worst {
    double bath_there; /* ln of bath amounts counts while more than this share is left */
    double share, log;
    char where_share[160], where_log[160];
} worst;

/* `whole` scales the error; `start` is what was there at the start, 0 for what only appears later. */
static void hold_from(worst *w, double there, const sl_arm *arm, const char *what, double t, double whole,
                      double start, double got, double wanted)
{
    const double share = fabs(got - wanted) / whole;
    if (!(share <= w->share)) {
        w->share = share;
        snprintf(w->where_share, sizeof w->where_share, "%s, %s at %g min: %.12g, reference %.12g", arm->name,
                 what, t, got, wanted);
    }
    if (start > 0 && wanted > there * start) {
        const double log_difference = fabs(log(got / wanted));
        if (!(log_difference <= w->log)) {
            w->log = log_difference;
            snprintf(w->where_log, sizeof w->where_log, "%s, %s at %g min: %.12g, reference %.12g", arm->name,
                     what, t, got, wanted);
        }
    }
}

static void hold(worst *w, const sl_arm *arm, const char *what, double t, double whole, double start,
                 double got, double wanted)
{
    hold_from(w, STILL_THERE, arm, what, t, whole, start, got, wanted);
}

/* A bath that is emptied between two steps has two values at that moment. */
static bool between_steps(const sl_arm *arm, double t)
{
    double start = arm->contact_min;
    for (int i = 0; i < arm->n_steps; i++) {
        if (fabs(t - start) < 1e-9) {
            return true;
        }
        const sl_step *step = &arm->steps[i];
        start += step->kind == SL_STEP_SHAMPOO ? step->shampoos : step->duration_min;
    }
    return fabs(t - start) < 1e-9;
}

/* The largest charge of an arm's mixes: peroxide, persulfate, solid persulfate. */
static ref_charge largest_charge(const sl_scene *scene, const sl_arm *arm)
{
    ref_charge most = {0};
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *step = &arm->steps[i];
        if (step->kind == SL_STEP_APPLY) {
            const ref_charge charge = ref_mix_charge(&scene->chemistry, &scene->mixes[step->mix],
                                                     step->mix_g_per_g, step->hair_water_g_g);
            most.peroxide = fmax(most.peroxide, charge.peroxide);
            most.persulfate = fmax(most.persulfate, charge.persulfate);
            most.solid = fmax(most.solid, charge.solid);
        }
    }
    return most;
}

static void hold_moment(worst *w, const sl_scene *scene, const sl_arm *arm, double t, const sl_moment *m,
                        const double *y)
{
    const ref_charge most = largest_charge(scene, arm);
    const double P0 = most.persulfate + most.solid > 0 ? most.persulfate + most.solid : 1;
    const double H0 = most.peroxide > 0 ? most.peroxide : P0; /* without peroxide, it comes from persulfate */
    if (!between_steps(arm, t) && t > arm->contact_min) {
        hold_from(w, w->bath_there, arm, "peroxide", t, H0, most.peroxide, m->peroxide_mol_l,
                  y[REF_PEROXIDE]);
        hold_from(w, w->bath_there, arm, "persulfate", t, P0, most.persulfate, m->persulfate_mol_l,
                  y[REF_PERSULFATE]);
        hold_from(w, w->bath_there, arm, "solid persulfate", t, P0, most.solid, m->undissolved_mol_l,
                  y[REF_SOLID]);
        hold(w, arm, "wetness", t, 1, 1, m->wetness, y[REF_WETNESS]);
    }
    hold(w, arm, "peroxide in the fibre", t, H0, 0, m->fibre_peroxide_mol_l, y[REF_FIBRE_PEROXIDE]);
    hold(w, arm, "persulfate in the fibre", t, P0, 0, m->fibre_persulfate_mol_l, y[REF_FIBRE_PERSULFATE]);
    hold(w, arm, "cystine", t, 1, 1, m->cystine_intact, y[REF_CYSTINE]);
    hold(w, arm, "minutes of leaching", t, 1, 0, m->leach_min, y[REF_LEACH]);
    hold(w, arm, "shampoos", t, 1, 0, m->shampoos, y[REF_SHAMPOOS]);
}

static void hold_cell(worst *w, const sl_scene *scene, const sl_arm *arm, int zone, double t,
                      const sl_cell *cell, const double *y)
{
    static const char *const stages[SL_STAGES] = {"bound", "opened", "yellow"};
    char what[96];
    const int n_dyes = arm->undyed ? 0 : scene->zones[zone].recipe.n_dyes;
    for (int i = 0; i < n_dyes; i++) {
        const double *dye = y + ref_zone_dyes(0) + REF_PER_DYE * i;
        snprintf(what, sizeof what, "dye %d of zone %s", i, scene->zones[zone].name);
        hold(w, arm, what, t, 1, 1, cell->amounts.dye_left[i], ref_dye_left(dye));
    }
    const sl_hair *hair = &scene->hairs[scene->zones[zone].hair];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const double *start = hair->pool[kind];
        const double whole = start[SL_BOUND] + start[SL_OPENED] + start[SL_YELLOW];
        for (int stage = 0; stage < SL_STAGES && whole > 0; stage++) {
            snprintf(what, sizeof what, "%s melanin %d of zone %s", stages[stage], kind,
                     scene->zones[zone].name);
            hold(w, arm, what, t, whole, start[stage], cell->amounts.pool[kind][stage],
                 y[ref_zone_melanin(0) + kind * SL_STAGES + stage]);
        }
    }
    hold(w, arm, "1 - cystine lost", t, 1, 1, 1 - cell->cystine_lost, y[REF_CYSTINE] / hair->cystine_intact);
}

/* Every amount of every arm and zone of the scene, at every minute. */
static worst compare(const sl_scene *scene, double bath_there, sl_accuracy accuracy)
{
    static double rows[MOST_TIMES * (REF_SHARED + REF_PER_ZONE)];
    worst w = {.bath_there = bath_there};
    double times[MOST_TIMES];
    const int n_times = (int)floor(scene->until_min) + 1;
    ck_assert_int_le(n_times, MOST_TIMES);
    for (int i = 0; i < n_times; i++) {
        times[i] = i;
    }
    sl_error error = {.code = SL_OK};
    sl_solver *solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
    sl_solver_set_accuracy(solver, accuracy);
    sl_timeline *timeline = NULL;
    ck_assert_msg(sl_timeline_solve(&timeline, scene, times, n_times, solver, NULL, &error), "%s %s %s",
                  sl_code_name(error.code), error.found, error.wanted);
    for (int a = 0; a < scene->n_arms; a++) {
        if (!sl_timeline_predicted(timeline, a)) {
            continue;
        }
        for (int z = 0; z < scene->n_zones; z++) {
            const ref_setup setup = {.scene = scene, .arm = &scene->arms[a], .n_zones = 1, .zone = {z}};
            const int n = ref_n_states(&setup);
            long calls = 0;
            ck_assert(ref_solve(&setup, TIGHT, times, n_times, rows, &calls));
            for (int i = 0; i < n_times; i++) {
                const double *y = rows + i * n;
                sl_moment moment;
                sl_timeline_moment(timeline, a, z, times[i], &moment);
                hold_moment(&w, scene, &scene->arms[a], times[i], &moment, y);
                hold_cell(&w, scene, &scene->arms[a], z, times[i], sl_timeline_cell(timeline, a, z, i), y);
            }
        }
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return w;
}

static void demand_agreement_from(const sl_scene *scene, double bath_there)
{
    const worst w = compare(scene, bath_there, sl_accuracy_default());
    printf("%s: largest error %.1e of the initial amount (%s), %.1e in ln (%s)\n", scene->name, w.share,
           w.where_share, w.log, w.where_log);
    ck_assert_msg(w.share < NEAR_SHARE, "%.3e of the initial amount: %s", w.share, w.where_share);
    ck_assert_msg(w.log < NEAR_LOG, "%.3e in ln(amount): %s", w.log, w.where_log);
}

static void demand_agreement(const sl_scene *scene)
{
    demand_agreement_from(scene, WASHED_OUT);
}

/* ---- the reference itself ------------------------------------------------------------------ */

START_TEST(two_methods_of_the_reference_agree_far_below_the_bound)
{
    /* Adams at 1e-12 and BDF at 1e-12 share the right-hand side and nothing else */
    static const ref_method other = {.adams = false, .relative = 1e-12, .absolute = 1e-15};
    static built_scene built;
    static double one[61 * (REF_SHARED + REF_PER_ZONE)];
    static double two[61 * (REF_SHARED + REF_PER_ZONE)];
    built_arms(&built);
    double times[61];
    for (int i = 0; i <= 60; i++) {
        times[i] = i;
    }
    for (int a = 0; a < built.scene.n_arms; a++) {
        const ref_setup setup = {.scene = &built.scene, .arm = &built.arms[a], .n_zones = 1, .zone = {3}};
        long calls = 0;
        ck_assert(ref_solve(&setup, TIGHT, times, 61, one, &calls));
        ck_assert(ref_solve(&setup, other, times, 61, two, &calls));
        for (int i = 0; i < 61 * ref_n_states(&setup); i++) {
            ck_assert_double_eq_tol(one[i], two[i], 2e-9); /* doses reach 20; amounts are of order 1 */
        }
    }
}
END_TEST

/* ---- scenes built in memory ------------------------------------------------------------ */

START_TEST(every_amount_agrees_on_a_bench)
{
    static built_scene built;
    built_arms(&built);
    demand_agreement(&built.scene);
}
END_TEST

START_TEST(every_amount_agrees_where_it_is_wrapped_and_warms_up)
{
    static built_scene built;
    built_arms(&built);
    built.scene.place = SL_PLACE_WRAPPED;
    demand_agreement(&built.scene);
}
END_TEST

START_TEST(every_amount_agrees_along_a_given_temperature_course)
{
    static built_scene built;
    built_arms(&built);
    built.scene.n_points = 3;
    built.scene.points[0] = (sl_course_point){0, 20};
    built.scene.points[1] = (sl_course_point){17.3, 34};
    built.scene.points[2] = (sl_course_point){40, 28};
    built.scene.shift_k = 1.5;
    demand_agreement(&built.scene);
}
END_TEST

static void give_own_activation(built_scene *built)
{
    built->dyes[0].rates.own_activation[SL_PERHYDROXYL] = true;
    built->dyes[0].rates.activation_kj_mol[SL_PERHYDROXYL] = 45;
    built->dyes[1].rates.own_activation[SL_RADICAL] = true;
    built->dyes[1].rates.activation_kj_mol[SL_RADICAL] = 85;
}

START_TEST(a_dye_with_its_own_activation_energy_agrees_at_a_steady_temperature)
{
    static built_scene built;
    built_arms(&built);
    give_own_activation(&built);
    demand_agreement(&built.scene);
}
END_TEST

START_TEST(a_dye_with_its_own_activation_energy_agrees_while_it_warms_up)
{
    static built_scene built;
    built_arms(&built);
    give_own_activation(&built);
    built.scene.place = SL_PLACE_WRAPPED;
    demand_agreement(&built.scene);
}
END_TEST

START_TEST(melanin_and_cystine_with_their_own_activation_energies_agree)
{
    static built_scene built;
    for (int warms = 0; warms < 2; warms++) {
        built_arms(&built);
        sl_rates *const own[2] = {&built.scene.chemistry.melanin[SL_EUMELANIN].rates,
                                  &built.scene.chemistry.cystine};
        for (int i = 0; i < 2; i++) {
            own[i]->own_activation[SL_PERHYDROXYL] = own[i]->own_activation[SL_PERSULFATE] = true;
            own[i]->activation_kj_mol[SL_PERHYDROXYL] = 50;
            own[i]->activation_kj_mol[SL_PERSULFATE] = 80;
        }
        built.scene.place = warms == 1 ? SL_PLACE_WRAPPED : SL_PLACE_BENCH;
        demand_agreement(&built.scene);
    }
}
END_TEST

START_TEST(pigments_that_use_up_oxidant_agree)
{
    static built_scene built;
    built_arms(&built);
    built.scene.chemistry.pigment_feedback = true;
    demand_agreement(&built.scene);
}
END_TEST

START_TEST(a_tighter_tolerance_comes_closer)
{
    static built_scene built;
    built_arms(&built);
    for (double tolerance = 1e-9; tolerance > 1e-12; tolerance /= 10) {
        const worst w = compare(&built.scene, WASHED_OUT, (sl_accuracy){tolerance, tolerance, 2});
        ck_assert_msg(w.share < 1000 * tolerance, "%.1e of the initial amount at %.0e: %s", w.share,
                      tolerance, w.where_share);
    }
}
END_TEST

/* ---- which method serves, and that both are one -------------------------------------------- */

static sl_timeline *solved(const sl_scene *scene, const double *times, int n_times)
{
    sl_error error = {.code = SL_OK};
    sl_solver *solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
    sl_timeline *timeline = NULL;
    ck_assert(sl_timeline_solve(&timeline, scene, times, n_times, solver, NULL, &error));
    sl_solver_free(solver);
    return timeline;
}

START_TEST(shared_and_full_paths_are_one_where_sharing_is_valid)
{
    /* pigment feedback with nothing held: the full system runs, yet takes no oxidant */
    static built_scene shared, full;
    built_arms(&shared);
    built_arms(&full);
    full.scene.chemistry.pigment_feedback = true;
    full.scene.chemistry.dye_mol_l.value = 0;
    full.scene.chemistry.melanin[SL_EUMELANIN].held_mol_l.value = 0;
    full.scene.chemistry.melanin[SL_PHEOMELANIN].held_mol_l.value = 0;
    double times[61];
    for (int i = 0; i <= 60; i++) {
        times[i] = i;
    }
    sl_timeline *one = solved(&shared.scene, times, 61);
    sl_timeline *two = solved(&full.scene, times, 61);
    for (int a = 2; a < shared.scene.n_arms; a++) {
        for (int z = 0; z < shared.scene.n_zones; z++) {
            ck_assert_int_eq(sl_timeline_method(one, a, z), SL_SHARING_VALID);
            ck_assert_int_eq(sl_timeline_method(two, a, z), SL_SHARING_PIGMENT_FEEDBACK);
            for (int i = 0; i <= 60; i++) {
                const sl_cell *x = sl_timeline_cell(one, a, z, i);
                const sl_cell *y = sl_timeline_cell(two, a, z, i);
                ck_assert_double_eq_tol(x->colour_left, y->colour_left, 1e-6);
                ck_assert_double_eq_tol(x->base_moved, y->base_moved, 1e-6);
                ck_assert_double_eq_tol(x->cystine_lost, y->cystine_lost, 1e-6);
            }
        }
    }
    ck_assert_int_gt(sl_timeline_solves(two), sl_timeline_solves(one));
    sl_timeline_free(one);
    sl_timeline_free(two);
}
END_TEST

START_TEST(pigment_feedback_that_takes_oxidant_is_not_ignored)
{
    static built_scene shared, full;
    built_arms(&shared);
    built_arms(&full);
    full.scene.chemistry.pigment_feedback = true;
    const double times[1] = {30};
    sl_timeline *one = solved(&shared.scene, times, 1);
    sl_timeline *two = solved(&full.scene, times, 1);
    /* dye that must share its oxidant keeps more colour */
    ck_assert_double_gt(sl_timeline_cell(two, 3, 2, 0)->colour_left,
                        sl_timeline_cell(one, 3, 2, 0)->colour_left + 1e-4);
    sl_timeline_free(one);
    sl_timeline_free(two);
}
END_TEST

/* ---- shipped scenes ------------------------------------------------------------------------- */

static void demand_agreement_of_file(const char *name, double bath_there)
{
    const char *const folder = SLOWLIFT_MODELS;
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    snprintf(path, sizeof path, "%s/scenes/%s.yaml", folder, name);
    sl_error error = {.code = SL_OK};
    sl_scene *scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s:%d: %s; %s", error.file, error.line, error.found, error.wanted);
    demand_agreement_from(scene, bath_there);
    sl_scene_free(scene);
}

START_TEST(every_amount_agrees_at_every_minute_of_the_eight_arms)
{
    demand_agreement_of_file("eight-arms", STILL_THERE);
}
END_TEST

START_TEST(every_amount_agrees_through_a_second_round)
{
    demand_agreement_of_file("second-round", STILL_THERE);
}
END_TEST

START_TEST(every_amount_agrees_in_the_other_shipped_scenes)
{
    static const char *const names[] = {"diluted",         "opposite-orders", "reversed-assumption",
                                        "rinsed-together", "two-products",    "violet-ghost",
                                        "way-none",        "way-short",       "way-wide"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        demand_agreement_of_file(names[i], WASHED_OUT);
    }
}
END_TEST

START_SUITE("cvode")
ADD(two_methods_of_the_reference_agree_far_below_the_bound)
ADD(every_amount_agrees_on_a_bench)
ADD(every_amount_agrees_where_it_is_wrapped_and_warms_up)
ADD(every_amount_agrees_along_a_given_temperature_course)
ADD(a_dye_with_its_own_activation_energy_agrees_at_a_steady_temperature)
ADD(a_dye_with_its_own_activation_energy_agrees_while_it_warms_up)
ADD(melanin_and_cystine_with_their_own_activation_energies_agree)
ADD(pigments_that_use_up_oxidant_agree)
ADD(a_tighter_tolerance_comes_closer)
ADD(shared_and_full_paths_are_one_where_sharing_is_valid)
ADD(pigment_feedback_that_takes_oxidant_is_not_ignored)
CASE("shipped")
ADD(every_amount_agrees_at_every_minute_of_the_eight_arms)
ADD(every_amount_agrees_through_a_second_round)
ADD(every_amount_agrees_in_the_other_shipped_scenes)
END_SUITE
