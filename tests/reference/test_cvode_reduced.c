/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arms that reduce, alone and beside mixes that oxidise, against SUNDIALS CVODE on the full system
 * (full_system.c, written apart from src/): agent, oxidants, cystine, melanin, and both forms of every dye
 * over three days. And what must hold whatever the constants are: dye and electrons are kept.
 *
 * The library's own tolerance is 1e-10, and errors add up over a day of steps: 1e-7 of the initial amount;
 * at 1e-12 a tenth of that.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "full_system.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "unit/suite.h"

enum { FIRST_MIN = 120, MORE = 40, TIMES = FIRST_MIN + MORE };
static const double NEAR = 1e-7, NEARER = 1e-8;
static const ref_method TIGHT = {.adams = true, .relative = 1e-12, .absolute = 1e-17};

static sl_scene *scene;

static void load(void)
{
    const char *const folder = SLOWLIFT_MODELS;
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error = {.code = SL_OK};
    scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/came-back.yaml", &resolver, &error);
    ck_assert_msg(scene != NULL, "%s:%d: %s; %s", error.file, error.line, error.found, error.wanted);
    scene->chemistry.mix_heat_j_g_k.value = 0.0; /* no mix warms itself: system_scipy.py has both together */
}

static void leave(void)
{
    sl_scene_free(scene);
}

typedef struct worst {
    double error;
    char where[200];
} worst;

static void hold(worst *w, int arm, const char *zone, const char *what, double t, double got, double wanted)
{
    const double error = fabs(got - wanted);
    if (!(error <= w->error)) {
        w->error = error;
        snprintf(w->where, sizeof w->where, "%s, %s of %s at %g min: %.12g, reference %.12g",
                 scene->arms[arm].name, what, zone, t, got, wanted);
    }
}

/* Every minute at first, where steps begin and end none; then a day and three. */
static void times_of(double times[TIMES])
{
    for (int i = 0; i < FIRST_MIN; i++) {
        times[i] = i + 0.5;
    }
    for (int i = 0; i < MORE; i++) {
        times[FIRST_MIN + i] = FIRST_MIN + (scene->until_min - FIRST_MIN) * (i + 1) / MORE;
    }
}

static void hold_zone(worst *w, const sl_timeline *timeline, int arm, int z, const double times[TIMES],
                      const double *rows, int n)
{
    const sl_zone *const zone = &scene->zones[z];
    for (int i = 0; i < TIMES; i++) {
        const double *const y = rows + i * n;
        sl_moment m;
        sl_cell cell;
        sl_timeline_moment(timeline, arm, z, times[i], &m);
        sl_timeline_at(timeline, arm, z, times[i], NULL, &cell);
        hold(w, arm, zone->name, "agent", times[i], m.reductant_mol_l, y[REF_REDUCTANT]);
        hold(w, arm, zone->name, "agent in the fibre", times[i], m.fibre_reductant_mol_l,
             y[REF_FIBRE_REDUCTANT]);
        hold(w, arm, zone->name, "peroxide in the fibre", times[i], m.fibre_peroxide_mol_l,
             y[REF_FIBRE_PEROXIDE]);
        hold(w, arm, zone->name, "persulfate in the fibre", times[i], m.fibre_persulfate_mol_l,
             y[REF_FIBRE_PERSULFATE]);
        hold(w, arm, zone->name, "cystine", times[i], m.cystine_intact, y[REF_CYSTINE]);
        for (int dye = 0; dye < zone->recipe.n_dyes; dye++) {
            const sl_dye_fate fate =
                sl_dye_fate_at(&scene->dyes[zone->recipe.dye[dye]], &m, m.n_forms > 0 ? dye : SL_FROM_DOSES);
            const double *const left = y + ref_zone_dyes(0) + REF_PER_DYE * dye;
            const double *const pale = y + ref_zone_pale(0) + REF_PER_DYE * dye;
            hold(w, arm, zone->name, "dye without its colour", times[i], fate.colourless, ref_dye_left(pale));
            hold(w, arm, zone->name, "dye", times[i], cell.amounts.dye_left[dye], ref_dye_left(left));
        }
        for (int s = 0; s < SL_STAGES; s++) {
            hold(w, arm, zone->name, "melanin", times[i], cell.amounts.pool[SL_EUMELANIN][s],
                 y[ref_zone_melanin(0) + s]);
        }
    }
}

static worst compare(double tolerance)
{
    static double rows[TIMES * (REF_SHARED + REF_PER_ZONE)];
    double times[TIMES];
    worst w = {0};
    sl_error error = {.code = SL_OK};
    sl_solver *const solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    times_of(times);
    sl_solver_set_accuracy(solver, (sl_accuracy){tolerance, tolerance, 2});
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        ck_assert(sl_timeline_predicted(timeline, arm));
        for (int z = 0; z < scene->n_zones; z++) {
            const ref_setup setup = {.scene = scene, .arm = &scene->arms[arm], .n_zones = 1, .zone = {z}};
            long calls = 0;
            ck_assert(ref_solve(&setup, TIGHT, times, TIMES, rows, &calls));
            hold_zone(&w, timeline, arm, z, times, rows, ref_n_states(&setup));
        }
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return w;
}

static void agrees(const char *what)
{
    const worst usual = compare(1e-10), tight = compare(1e-12);
    printf("%s: largest error %.1e of the initial amount (%s); at 1e-12 %.1e (%s)\n", what, usual.error,
           usual.where, tight.error, tight.where);
    ck_assert_msg(usual.error < NEAR, "%s: %.3e: %s", what, usual.error, usual.where);
    ck_assert_msg(tight.error < NEARER, "%s: %.3e: %s", what, tight.error, tight.where);
}

START_TEST(every_amount_agrees_over_three_days)
{
    agrees("bench");
}
END_TEST

START_TEST(every_amount_agrees_with_every_agent)
{
    for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
        for (int i = 0; i < scene->n_mixes; i++) {
            scene->mixes[i].reductant = (sl_reductant_id)agent;
        }
        scene->n_arms = 5; /* the last would be the same again */
        agrees(sl_reductant_word((sl_reductant_id)agent));
    }
}
END_TEST

START_TEST(every_amount_agrees_uncovered_wrapped_and_out_of_an_old_bowl)
{
    scene->place = SL_PLACE_WRAPPED;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int i = 0; i < scene->arms[arm].n_steps; i++) {
            scene->arms[arm].steps[i].covered = false;
            scene->arms[arm].steps[i].mix_age_min *= 20.0;
        }
    }
    agrees("wrapped");
}
END_TEST

START_TEST(every_amount_agrees_where_pigments_use_up_oxidant)
{
    scene->chemistry.pigment_feedback = true;
    agrees("feedback");
}
END_TEST

/* ---- what is kept ----------------------------------------------------------------------------- */

START_TEST(coloured_colourless_and_destroyed_dye_are_what_it_was)
{
    sl_error error = {.code = SL_OK};
    sl_solver *const solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    double most = 0.0;
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int z = 0; z < scene->n_zones; z++) {
            for (double t = 0.25; t <= scene->until_min; t *= 1.3) {
                sl_moment m;
                sl_timeline_moment(timeline, arm, z, t, &m);
                for (int dye = 0; dye < m.n_forms; dye++) {
                    for (int place = 0; place < SL_PLACES_IN_HAIR; place++) {
                        const double *const form = m.form[dye][place];
                        ck_assert_double_eq_tol(form[SL_COLOURED] + form[SL_COLOURLESS] + form[SL_DESTROYED],
                                                1.0, 1e-10);
                        most = fmax(most, form[SL_COLOURLESS]);
                    }
                }
            }
        }
    }
    ck_assert_double_gt(most, 0.5);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}
END_TEST

/* In hair that takes nothing up and meets no cystine, without air or loss, oxidant and agent that meet in the
 * fibre go by s to one: s times what is lost of the one is what is lost of the other. */
START_TEST(oxidant_and_agent_consume_each_other_by_their_electrons)
{
    sl_chemistry *const ch = &scene->chemistry;
    sl_error error = {.code = SL_OK};
    sl_solver *const solver = sl_solver_new(&error);
    ch->fibre_loss_per_min.value = ch->hydrolysis_per_min.value = ch->thermal_per_min.value = 0.0;
    ch->couple_l_mol_min.value = ch->cystine_mol_l.value = 0.0;
    ch->rest_dry_per_min.value = 0.0;
    const int arm = sl_scene_arm(scene, "powder + water, then sulfinate");
    ck_assert_int_ge(arm, 0);
    scene->n_arms = arm + 1;
    for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
        sl_timeline *timeline = NULL;
        sl_moment before, after;
        ch->reductant[agent].air_loss_per_min.value = 0.0;
        ch->reductant[agent].meet_l_mol_min.value = 0.05; /* so that something is left of both */
        for (int i = 0; i < scene->n_mixes; i++) {
            scene->mixes[i].reductant = (sl_reductant_id)agent;
        }
        ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error));
        sl_timeline_moment(timeline, arm, 0, 61.001, &before); /* the hair rests, wet */
        sl_timeline_moment(timeline, arm, 0, 4000.0, &after);
        const double each = ch->reductant[agent].oxidant_per_mol.value;
        const double oxidant = before.fibre_peroxide_mol_l + before.fibre_persulfate_mol_l -
                               after.fibre_peroxide_mol_l - after.fibre_persulfate_mol_l;
        const double reductant = before.fibre_reductant_mol_l - after.fibre_reductant_mol_l;
        ck_assert_double_gt(oxidant, 1e-7);
        ck_assert_double_eq_tol(oxidant, each * reductant, 1e-10);
        sl_timeline_free(timeline);
    }
    sl_solver_free(solver);
}
END_TEST

START_SUITE("arms that reduce, by CVODE")
FIXTURE(load, leave)
ADD(every_amount_agrees_over_three_days)
ADD(every_amount_agrees_with_every_agent)
ADD(every_amount_agrees_uncovered_wrapped_and_out_of_an_old_bowl)
ADD(every_amount_agrees_where_pigments_use_up_oxidant)
ADD(coloured_colourless_and_destroyed_dye_are_what_it_was)
ADD(oxidant_and_agent_consume_each_other_by_their_electrons)
END_SUITE
