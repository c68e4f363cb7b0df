/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mix that warms itself: the limits of its heat balance, and what reads it.
 */
#include "kinetics/mix_course.h"

#include <math.h>
#include <string.h>

#include "estimate/members.h"
#include "kinetics/phases.h"
#include "scene/records.h"
#include "small_scene.h"
#include "suite.h"

static const double WATER_J_G_K = 4.18; /* of science.md */

static small_scene small;
static sl_solver *solver;
static mix_memo memo;

/* Round numbers near those that are shipped; nothing is covered, 22 C. */
static void warm_up(sl_chemistry *ch)
{
    ch->dissolving_heat_kj_mol = assumed(60.0);
    ch->peroxide_heat_kj_mol = assumed(100.0);
    ch->persulfate_heat_kj_mol = assumed(190.0);
    ch->sulfur_heat_kj_mol = assumed(200.0);
    ch->mix_heat_j_g_k = assumed(3.5);
    ch->hair_heat_j_g_k = assumed(1.5);
    ch->open_loss_w_m2_k = assumed(12.0);
    ch->covered_loss_w_m2_k = assumed(8.0);
    ch->bench_loss_w_m2_k = assumed(6.0);
    ch->head_loss_w_m2_k = assumed(15.0);
    ch->layer_area_cm2_g = assumed(20.0);
    ch->bowl_area_cm2_g = assumed(2.0);
}

static void fresh(void)
{
    small_scene_fill(&small);
    warm_up(&small.scene.chemistry);
    small.scene.room_c = 22.0;
    memset(&memo, 0, sizeof memo);
    if (!solver) {
        solver = sl_solver_new(NULL);
    }
}

static const mix_course *solved(int arm)
{
    sl_error error = {.code = SL_OK};
    const mix_course *const mix = mix_course_of(&memo, &small.scene, &small.arms[arm], true, solver, &error);
    ck_assert_msg(mix != NULL, "%s: %s", sl_code_name(error.code), error.found);
    return mix;
}

static phase lying(int arm)
{
    planned plan;
    const sl_treatment treatment = small_treatment(&small, arm, 1.0, 1.0);
    phases_of(&plan, &treatment);
    return plan.phases[0];
}

static double hottest(int arm)
{
    const phase here = lying(arm);
    return mix_course_most_k(solved(arm), &here);
}

START_TEST(what_reacts_warms_and_what_does_not_stays_at_its_place)
{
    fresh();
    ck_assert_double_gt(hottest(ARM_6), hottest(ARM_3));
    ck_assert_double_gt(hottest(ARM_3), 0.5);
    ck_assert_double_eq(hottest(ARM_WASHING), 0.0); /* plain water */
    ck_assert_int_eq(solved(ARM_UNTREATED)->n_pieces, 0);
    sl_chemistry *const ch = &small.scene.chemistry;
    ch->fibre_loss_per_min = ch->couple_l_mol_min = ch->hydrolysis_per_min = ch->thermal_per_min =
        assumed(0.0);
    ch->dissolve_per_min = assumed(0.0);
    ch->cystine = rates_of(0.0, 0.0, 0.0);
    small.mixes[MIX_POWDER_6].loss_per_min = assumed(0.0);
    ck_assert(!solved(ARM_6)->warms); /* no reaction at all */
    for (size_t i = 0; i < solved(ARM_6)->n_nodes; i++) {
        ck_assert_double_eq_tol(solved(ARM_6)->warmth_k[i], 0.0, 1e-12);
    }
}
END_TEST

START_TEST(the_more_is_lost_the_less_is_kept_and_the_place_holds_at_last)
{
    fresh();
    double before = HUGE_VAL;
    for (double loss = 1.0; loss < 1e6; loss *= 10.0) {
        small.scene.chemistry.covered_loss_w_m2_k = small.scene.chemistry.bench_loss_w_m2_k = assumed(loss);
        const mix_course *const mix = solved(ARM_6);
        double most = 0.0;
        for (size_t i = 0; i < mix->n_nodes; i++) {
            most = fmax(most, mix->warmth_k[i]);
        }
        ck_assert_double_lt(most, before);
        ck_assert_msg(loss < 1e5 || (most < 2e-3 && !mix->warms), "%g K where %g W/(m2 K) are lost", most,
                      loss);
        before = most;
    }
}
END_TEST

/* J per gram of hair that a moment's amounts could still give off. */
static double held(const sl_chemistry *ch, const sl_charge *charge, const sl_moment *m)
{
    const double h = ch->peroxide_heat_kj_mol.value, p = ch->persulfate_heat_kj_mol.value;
    return charge->liquid_ml_per_g * (h * m->peroxide_mol_l + p * m->persulfate_mol_l +
                                      (p - ch->dissolving_heat_kj_mol.value) * m->undissolved_mol_l) +
           ch->fibre_water_ml_g.value * (h * m->fibre_peroxide_mol_l + p * m->fibre_persulfate_mol_l +
                                         ch->sulfur_heat_kj_mol.value * ch->oxidant_per_cystine.value *
                                             ch->cystine_mol_l.value * m->cystine_intact);
}

/* Gauss-Legendre with eight points between each two nodes. */
static double integral_k_min(const mix_course *mix, const phase *here, double to_min)
{
    static const double node[4] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                   0.9602898564975363};
    static const double weight[4] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                     0.1012285362903763};
    double sum = 0.0;
    for (size_t i = 0; i + 1 < mix->n_nodes && mix->time_min[i] < to_min; i++) {
        const double from = mix->time_min[i], to = fmin(mix->time_min[i + 1], to_min);
        for (int k = 0; k < 8; k++) {
            const double at = 0.5 * (from + to) + 0.5 * (to - from) * (k < 4 ? -node[k] : node[k - 4]);
            sum += 0.5 * (to - from) * weight[k % 4] * mix_course_warmth_k(mix, here, at, NULL);
        }
    }
    return sum;
}

START_TEST(what_the_oxidants_give_off_is_kept_or_lost_to_ten_digits)
{
    static const sl_place places[] = {SL_PLACE_BENCH, SL_PLACE_HEAD, SL_PLACE_WRAPPED};
    for (int arm = ARM_3; arm <= ARM_6; arm++) {
        for (size_t place = 0; place < 3; place++) {
            fresh();
            sl_solver_set_accuracy(solver, (sl_accuracy){1e-13, 1e-13, 0.5});
            sl_chemistry *const ch = &small.scene.chemistry;
            small.scene.place = places[place];
            small.arms[arm].steps[0].mix_age_min = 0.0;
            small.scene.n_zones = 0; /* the mean hair is virgin */
            const sl_step *const step = &small.arms[arm].steps[0];
            const mix_course *const mix = solved(arm);
            const phase here = lying(arm);
            const sl_treatment treatment = small_treatment(&small, arm, 1.0, 1.0);
            const sl_charge charge = sl_mix_charge(here.mix, ch, step->mix_g_per_g, step->hair_water_g_g);
            const double capacity = step->mix_g_per_g * 3.5 + step->hair_water_g_g * WATER_J_G_K + 1.5;
            const double above = step->covered || places[place] == SL_PLACE_WRAPPED ? 8.0 : 12.0;
            const double lost_j_min = (above + (places[place] == SL_PLACE_BENCH ? 6.0 : 15.0)) * 20e-4 * 60.0;
            const double end = here.end_min * (1.0 - 1e-12);
            sl_course *course = NULL;
            sl_moment first, last;
            ck_assert(sl_course_solve(&course, &treatment, solver, NULL));
            sl_course_at(course, small.arms[arm].contact_min + end, &last);
            first = (sl_moment){.peroxide_mol_l = charge.peroxide_mol_l,
                                .persulfate_mol_l = charge.persulfate_mol_l,
                                .undissolved_mol_l = charge.undissolved_mol_l,
                                .cystine_intact = 1.0};
            const double given = held(ch, &charge, &first) - held(ch, &charge, &last);
            const double kept = capacity * mix_course_warmth_k(mix, &here, end, NULL);
            const double lost = lost_j_min * integral_k_min(mix, &here, end);
            ck_assert_msg(fabs(given - kept - lost) < 1e-10 * given,
                          "arm %d: %.12g given, %.12g kept, %.12g lost", arm, given, kept, lost);
            sl_course_free(course);
        }
    }
    sl_solver_set_accuracy(solver, sl_accuracy_default());
}
END_TEST

START_TEST(nothing_is_warmer_than_if_no_heat_were_lost)
{
    fresh();
    for (uint64_t draw = 1; draw <= 200; draw++) {
        double u[8];
        for (int i = 0; i < 8; i++) { /* the fractional parts of multiples of irrational numbers */
            u[i] = fmod((double)draw * sqrt(2.0 + 3.0 * i), 1.0);
        }
        fresh();
        sl_chemistry *const ch = &small.scene.chemistry;
        sl_step *const step = &small.arms[ARM_6].steps[0];
        small.scene.place = (sl_place)(draw % 3);
        ch->couple_l_mol_min = assumed(3.0 * u[0]);
        ch->open_loss_w_m2_k = ch->covered_loss_w_m2_k = assumed(20.0 * u[1] * u[1]);
        ch->bench_loss_w_m2_k = ch->head_loss_w_m2_k = assumed(20.0 * u[2] * u[2]);
        small.mixes[MIX_POWDER_6].ph = assumed(9.0 + 2.5 * u[3]);
        small.mixes[MIX_POWDER_6].loss_per_min = assumed(u[4] * u[4]);
        step->mix_g_per_g = 1.0 + 7.0 * u[5];
        step->mix_age_min = 30.0 * u[6];
        small.scene.room_c = 15.0 + 25.0 * u[7];
        const sl_charge charge =
            sl_mix_charge(&small.mixes[MIX_POWDER_6], ch, step->mix_g_per_g, step->hair_water_g_g);
        /* every oxidant spent in the way that gives most, in the bowl or on hair */
        const double most_j_g =
            charge.liquid_ml_per_g *
            (300.0 * charge.peroxide_mol_l + 390.0 * (charge.persulfate_mol_l + charge.undissolved_mol_l));
        const double capacity = step->mix_g_per_g * 3.5 + step->hair_water_g_g * WATER_J_G_K;
        const mix_course *const mix = solved(ARM_6);
        for (size_t i = 0; i < mix->n_nodes; i++) {
            ck_assert_msg(mix->warmth_k[i] < most_j_g / capacity, "draw %d: %g K, of %g", (int)draw,
                          mix->warmth_k[i], most_j_g / capacity);
        }
    }
}
END_TEST

START_TEST(below_a_fifth_of_a_kelvin_every_number_is_that_of_a_cold_mix)
{
    sl_course *warm = NULL, *cold = NULL;
    sl_moment one, other;
    fresh();
    small.scene.chemistry.open_loss_w_m2_k = small.scene.chemistry.covered_loss_w_m2_k = assumed(1000.0);
    const sl_treatment treatment = small_treatment(&small, ARM_3, 1.0, 1.0);
    ck_assert(sl_course_solve(&warm, &treatment, solver, NULL));
    small.scene.chemistry.mix_heat_j_g_k = assumed(0.0);
    ck_assert(sl_course_solve(&cold, &treatment, solver, NULL));
    sl_course_at(warm, 25.0, &one);
    sl_course_at(cold, 25.0, &other);
    ck_assert_mem_eq(&one, &other, sizeof one);
    sl_course_free(warm);
    sl_course_free(cold);
}
END_TEST

START_TEST(a_measured_temperature_has_the_warmth_in_it)
{
    fresh();
    small.arms[ARM_6].steps[0].mix_age_min = 30.0;
    small.scene.n_points = 2;
    small.scene.points[0] = (sl_course_point){0.0, 22.0};
    small.scene.points[1] = (sl_course_point){30.0, 22.0};
    const phase here = lying(ARM_6), bowl = phase_in_bowl(&here, 30.0);
    ck_assert_double_eq(hottest(ARM_6), 0.0);
    ck_assert_double_gt(mix_course_most_k(solved(ARM_6), &bowl), 0.2);
}
END_TEST

/* ---- the memo ------------------------------------------------------------------------------------- */

/* The course is that of these numbers, whatever was solved before. */
static void hold_to_anew(const char *what)
{
    static mix_memo empty;
    memset(&empty, 0, sizeof empty);
    const mix_course *const kept = solved(ARM_6);
    const mix_course *const anew = mix_course_of(&empty, &small.scene, &small.arms[ARM_6], true, NULL, NULL);
    ck_assert(anew != NULL);
    ck_assert_msg(kept->n_nodes == anew->n_nodes &&
                      memcmp(kept->warmth_k, anew->warmth_k, kept->n_nodes * sizeof kept->warmth_k[0]) == 0,
                  "%s is not among what a course is known by", what);
}

START_TEST(a_course_is_known_by_every_number_that_it_was_solved_from)
{
    fresh();
    small.arms[ARM_6].steps[0].mix_age_min = 5.0;
    small.scene.place = SL_PLACE_WRAPPED;
    for (int i = 0; i < sl_chemistry_fields.n; i++) {
        const sl_field *const field = &sl_chemistry_fields.field[i];
        sl_param *const number = sl_field_at(field, &small.scene.chemistry);
        if (field->kind == SL_FIELD_PARAM) {
            number->value *= 1.01;
            hold_to_anew(field->member);
        }
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        small.scene.chemistry.cystine.k[c].value *= 1.01;
        hold_to_anew("a rate of cystine");
        small.scene.chemistry.cystine.own_activation[c] = true;
        small.scene.chemistry.cystine.activation_kj_mol[c] = 80.0;
        hold_to_anew("an energy of cystine");
    }
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    double *const of_mix[] = {
        &mix->powder_parts,      &mix->developer_parts,      &mix->water_parts,
        &mix->developer_pct,     &mix->potassium_persulfate, &mix->ammonium_persulfate,
        &mix->sodium_persulfate, &mix->percarbonate,         &mix->activity,
        &mix->ph.value,          &mix->loss_per_min.value,   &mix->loss_l_mol_min.value};
    for (size_t i = 0; i < sizeof of_mix / sizeof of_mix[0]; i++) {
        *of_mix[i] = *of_mix[i] * 0.99 + 0.001;
        hold_to_anew("a number of the mix");
    }
    sl_step *const step = &small.arms[ARM_6].steps[0];
    double *const of_scene[] = {&step->mix_age_min,       &step->mix_g_per_g,
                                &step->hair_water_g_g,    &step->duration_min,
                                &small.scene.shift_k,     &small.scene.until_min,
                                &small.hairs[0].porosity, &small.hairs[1].cystine_intact};
    for (size_t i = 0; i < sizeof of_scene / sizeof of_scene[0]; i++) {
        *of_scene[i] = *of_scene[i] * 0.99 + 0.001;
        hold_to_anew("a number of scene and step");
    }
    small.scene.place = SL_PLACE_BENCH;
    hold_to_anew("the place");
    small.scene.room_c += 1.0;
    hold_to_anew("the room");
    step->covered = !step->covered;
    hold_to_anew("a cover");
}
END_TEST

/* Solved as planned, and further when somebody asks: never otherwise than all at once. */
START_TEST(a_course_that_is_asked_for_later_goes_on_where_it_was_left)
{
    static mix_memo empty;
    fresh();
    const mix_course before = *mix_course_of(&memo, &small.scene, &small.arms[ARM_6], false, solver, NULL);
    const phase here = lying(ARM_6);
    ck_assert(before.warms && !before.left_on);
    ck_assert_double_eq(before.time_min[before.n_nodes - 1], here.end_min);
    memset(&empty, 0, sizeof empty);
    const mix_course *const later = solved(ARM_6);
    const mix_course *const whole =
        mix_course_of(&empty, &small.scene, &small.arms[ARM_6], true, solver, NULL);
    ck_assert(later->left_on);
    ck_assert_double_eq(later->time_min[later->n_nodes - 1], small.scene.until_min);
    ck_assert_uint_eq(later->n_nodes, whole->n_nodes);
    ck_assert_mem_eq(later->warmth_k, whole->warmth_k, whole->n_nodes * sizeof whole->warmth_k[0]);
    ck_assert_mem_eq(later->warmth_k, before.warmth_k, before.n_nodes * sizeof before.warmth_k[0]);
    ck_assert_double_eq(mix_course_most_k(later, &here), mix_course_most_k(&before, &here));
}
END_TEST

/* The clock is the scene's, the warmth the mix's own. */
START_TEST(a_strip_that_follows_another_has_its_course)
{
    fresh();
    small.arms[ARM_3] = small.arms[ARM_6];
    small.arms[ARM_3].contact_min = 4.0;
    ck_assert_ptr_eq(solved(ARM_3), solved(ARM_6));
}
END_TEST

/* Between the nodes of a course, whatever was read before, to what the weights of the same nodes make of it.
 */
START_TEST(a_course_is_read_alike_with_and_without_what_was_read_last)
{
    fresh();
    const mix_course *const mix = solved(ARM_6);
    const phase here = lying(ARM_6);
    hermite_piece read = {.terms = 0};
    for (int i = 0; i <= 1000; i++) {
        const double t = here.start_min + (here.end_min - here.start_min) * ((i * 617) % 1001) / 1000.0;
        const mix_piece *const piece = &mix->piece[mix->n_pieces - 1];
        double a[READ_NODES], b[READ_NODES], sum = 0.0;
        size_t count = 0;
        const size_t from = hermite_around(mix->time_min, piece->first, piece->end, t, &count);
        hermite_weights(mix->time_min + from, count, t, a, b);
        for (size_t k = 0; k < count; k++) {
            sum += a[k] * mix->warmth_k[from + k] + b[k] * mix->slope_k_min[from + k];
        }
        ck_assert_double_eq_tol(mix_course_warmth_k(mix, &here, t, NULL), sum, 1e-9);
        ck_assert_double_eq_tol(mix_course_warmth_k(mix, &here, t, &read), sum, 1e-9);
    }
}
END_TEST

START_TEST(more_arms_than_a_memo_holds_are_solved_again)
{
    fresh();
    const double first = hottest(ARM_6);
    for (int i = 0; i < MIX_MEMO + 3; i++) {
        small.scene.room_c = 22.0 + 0.01 * (i + 1);
        ck_assert_double_gt(hottest(ARM_6), first);
    }
    small.scene.room_c = 22.0;
    ck_assert_double_eq(hottest(ARM_6), first);
}
END_TEST

/* ---- what reads it ----------------------------------------------------------------------------------- */

START_TEST(a_lane_reads_what_a_course_reads)
{
    static lane_history history;
    for (int rinsed = 0; rinsed < 2; rinsed++) {
        fresh();
        static drawn_members nominal;
        members_begin(&nominal);
        sl_course *course = NULL;
        sl_moment moment;
        int bad = 0;
        small.arms[ARM_6].steps[0].mix_age_min = 12.0;
        const sl_treatment treatment = small_treatment(&small, ARM_6, 1.5, 0.85);
        ck_assert((rinsed ? sl_course_solve_rinsed : sl_course_solve)(&course, &treatment, solver, NULL));
        ck_assert((rinsed ? lanes_run_rinsed : lanes_run)(&history, &small.scene, &small.arms[ARM_6], 1.5,
                                                          0.85, &nominal.lanes, &bad));
        ck_assert_double_gt(hottest(ARM_6), 1.0);
        for (int i = 0; i <= history.steps; i++) {
            const double at = small.arms[ARM_6].contact_min + history.time_min[i];
            sl_course_at(course, at, &moment);
            for (int c = 0; c < SL_CHANNELS && history.time_min[i] > 0.0; c++) {
                const double slack =
                    5e-4 * (moment.rim_dose[c] + moment.core_dose[c]) + 1e-5; /* in the first step */
                ck_assert_double_eq_tol(history.rim[i][c][0], moment.rim_dose[c], slack);
                ck_assert_double_eq_tol(history.core[i][c][0], moment.core_dose[c], slack);
            }
            ck_assert_double_eq_tol(history.cystine[i][0], moment.cystine_intact, 1e-5);
        }
        sl_course_free(course);
    }
}
END_TEST

START_TEST(a_mix_is_read_to_the_end_of_a_long_scene)
{
    fresh();
    small.scene.until_min = small.arms[ARM_6].steps[0].duration_min = 72.0 * 60.0;
    const mix_course *const mix = solved(ARM_6);
    ck_assert_int_le((int)mix->n_nodes, MIX_MOST_NODES);
    const phase here = lying(ARM_6);
    ck_assert_double_eq_tol(mix_course_warmth_k(mix, &here, small.scene.until_min, NULL), 0.0, 0.2);
    small.scene.until_min = 60.0;
    const double exact = mix_course_warmth_k(solved(ARM_6), &here, 10.0, NULL);
    small.scene.until_min = 72.0 * 60.0;
    ck_assert_double_eq_tol(mix_course_warmth_k(solved(ARM_6), &here, 10.0, NULL), exact, 1e-4);
}
END_TEST

START_SUITE("mix_course")
ADD(what_reacts_warms_and_what_does_not_stays_at_its_place)
ADD(the_more_is_lost_the_less_is_kept_and_the_place_holds_at_last)
ADD(what_the_oxidants_give_off_is_kept_or_lost_to_ten_digits)
ADD(nothing_is_warmer_than_if_no_heat_were_lost)
ADD(below_a_fifth_of_a_kelvin_every_number_is_that_of_a_cold_mix)
ADD(a_measured_temperature_has_the_warmth_in_it)
ADD(a_course_is_known_by_every_number_that_it_was_solved_from)
ADD(a_course_that_is_asked_for_later_goes_on_where_it_was_left)
ADD(a_strip_that_follows_another_has_its_course)
ADD(a_course_is_read_alike_with_and_without_what_was_read_last)
ADD(more_arms_than_a_memo_holds_are_solved_again)
ADD(a_lane_reads_what_a_course_reads)
ADD(a_mix_is_read_to_the_end_of_a_long_scene)
END_SUITE
