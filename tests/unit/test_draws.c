/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How wide a grade is drawn: sl_grade_factor promises that 95 of 100 draws lie within the value
 * times and over the factor.
 */
#include <math.h>
#include <string.h>

#include "estimate/limits_of_members.h"
#include "ground.h"
#include "slowlift/limits.h"
#include "small_scene.h"
#include "suite.h"

enum { BLOCKS = 4000, N = BLOCKS * LANES };
/* Four standard deviations of a share p of N draws. */
static double slack(double p)
{
    return 4.0 * sqrt(p * (1.0 - p) / N);
}

typedef struct tally {
    long within, below, above, under_median, far;
    double sum, square;
} tally;

static void count(tally *t, double value, double edge)
{
    t->within += fabs(value) <= edge ? 1 : 0;
    t->below += value < -edge ? 1 : 0;
    t->above += value > edge ? 1 : 0;
    t->under_median += value < 0.0 ? 1 : 0;
    t->far += fabs(value) > edge * 2.575829 / 1.959964 ? 1 : 0; /* one normal draw in a hundred */
    t->sum += value;
    t->square += value * value;
}

static void is_normal(const tally *t, double edge)
{
    const double sd = edge / 1.959964;
    const double mean = t->sum / N;
    ck_assert_double_eq_tol((double)t->within / N, 0.95, slack(0.95));
    ck_assert_double_eq_tol((double)t->below / N, 0.025, slack(0.025));
    ck_assert_double_eq_tol((double)t->above / N, 0.025, slack(0.025));
    ck_assert_double_eq_tol((double)t->under_median / N, 0.5, slack(0.5));
    ck_assert_double_eq_tol((double)t->far / N, 0.01, slack(0.01));
    ck_assert_double_eq_tol(mean, 0.0, 4.0 * sd / sqrt(N));
    /* a sample's standard deviation scatters by 1/sqrt(2N) of itself */
    ck_assert_double_eq_tol(sqrt(t->square / N - mean * mean), sd, 4.0 * sd / sqrt(2.0 * N));
}

/* Six factors, one of each grade, and the two shifts, in the plan's order. */
static const sl_doubt factors[SL_GRADE_COUNT] = {SL_DOUBT_PEROXIDE_ENTRY, SL_DOUBT_PERSULFATE_ENTRY,
                                                 SL_DOUBT_PARTITION,      SL_DOUBT_SATURATION,
                                                 SL_DOUBT_COUPLE,         SL_DOUBT_OPENING};

START_TEST(ninety_five_of_a_hundred_draws_lie_within_the_grade_s_factor)
{
    static drawn_members drawn;
    tally of_grade[SL_GRADE_COUNT] = {{0}};
    tally of_ph = {0};
    tally of_warmth = {0};
    sl_draw_plan plan = {.n = SL_GRADE_COUNT + 2};
    for (int g = 0; g < SL_GRADE_COUNT; g++) {
        plan.drawn[g] = (sl_drawn){
            .doubt = factors[g], .dye = -1, .spread = sl_grade_factor((sl_grade)g), .grade = (sl_grade)g};
    }
    plan.drawn[SL_GRADE_COUNT] = (sl_drawn){.doubt = SL_DOUBT_PH, .dye = -1, .spread = 0.3};
    plan.drawn[SL_GRADE_COUNT + 1] = (sl_drawn){.doubt = SL_DOUBT_WARMTH, .dye = -1, .spread = 2.0};
    for (long block = 0; block < BLOCKS; block++) {
        members_draw(&drawn, &plan, 2026, block * LANES);
        for (int l = 0; l < LANES; l++) {
            for (int g = 0; g < SL_GRADE_COUNT; g++) {
                count(&of_grade[g], log(drawn.lanes.by[factors[g]][l]), log(sl_grade_factor((sl_grade)g)));
            }
            count(&of_ph, drawn.lanes.by[SL_DOUBT_PH][l], 0.3);
            count(&of_warmth, drawn.lanes.by[SL_DOUBT_WARMTH][l], 2.0);
        }
    }
    for (int g = 0; g < SL_GRADE_COUNT; g++) {
        is_normal(&of_grade[g], log(sl_grade_factor((sl_grade)g)));
    }
    is_normal(&of_ph, 0.3);
    is_normal(&of_warmth, 2.0);
}
END_TEST

START_TEST(an_assumed_number_is_drawn_at_least_a_factor_of_three_either_way)
{
    small_scene small;
    small_scene_fill(&small);
    small.scene.chemistry.couple_l_mol_min.grade = SL_GRADE_ASSUMED;
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    int assumed = 0;
    for (int d = 0; d < plan.n; d++) {
        const sl_drawn *const what = &plan.drawn[d];
        const bool own_width = what->doubt == SL_DOUBT_PH || what->doubt == SL_DOUBT_LOSS ||    /* a mix's */
                               what->doubt == SL_DOUBT_WARMTH || what->doubt == SL_DOUBT_GRAMS; /* read off */
        if (what->grade == SL_GRADE_ASSUMED && !own_width) {
            ck_assert_double_ge(what->spread, 3.0);
            assumed++;
        }
    }
    ck_assert_int_gt(assumed, 1);
}
END_TEST

/* Radical flux meets dye, melanin and cystine in one draw. */
START_TEST(what_is_one_quantity_in_nature_is_one_draw)
{
    static drawn_members drawn;
    small_scene small;
    small_scene_fill(&small);
    const sl_draw_plan plan = {.n = 1, .drawn = {{.doubt = SL_DOUBT_RADICAL, .dye = -1, .spread = 3.0}}};
    members_draw(&drawn, &plan, 7, 0);
    const sl_dye *const dye = &small.dyes[small.zones[ZONE_VIOLET].recipe.dye[0]];
    member_zone made;
    member_zone_make(&made, ground_of(&small.scene), &small.scene, &small.arms[ARM_6], ZONE_VIOLET, &drawn);
    for (int l = 0; l < LANES; l++) {
        const double by = drawn.lanes.by[SL_DOUBT_RADICAL][l];
        ck_assert_double_ne(by, 1.0);
        for (int channel = 0; channel < SL_CHANNELS; channel++) {
            const double wanted = channel == SL_RADICAL ? by : 1.0;
            ck_assert_double_eq(lane_by_channel(&drawn.lanes, SL_DOUBT_CYSTINE, channel, l), wanted);
            ck_assert_double_eq(lane_by_channel(&drawn.lanes, SL_DOUBT_MELANIN, channel, l), wanted);
            ck_assert_double_eq(made.dye_k[0][channel][l], dye->rates.k[channel].value * wanted);
        }
    }
}
END_TEST

/* The logarithm of the factor on a channel of cystine, and that of all of it where it was fitted. */
static double log_of_channel(const drawn_members *drawn, int channel, int l)
{
    return log(lane_by_channel(&drawn->lanes, SL_DOUBT_CYSTINE, channel, l));
}

static double log_of_total(const drawn_members *drawn, const double share[SL_CHANNELS], int l)
{
    double total = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        total += share[c] * lane_by_channel(&drawn->lanes, SL_DOUBT_CYSTINE, c, l);
    }
    return log(total);
}

/* How a target is divided among its channels: its total where it was fitted is as wide as graded, two
 * channels part by as much as both grades say, no channel is surer than graded, and one that has nearly all
 * of it is as sure as it. */
START_TEST(how_a_target_is_divided_leaves_its_total_as_wide_as_it_was)
{
    static drawn_members drawn;
    static const double shares[2][SL_CHANNELS] = {{0.35, 0.15, 0.5}, {0.005, 0.005, 0.99}};
    static const double wide[SL_CHANNELS] = {3.0, 2.0, 2.0};
    for (int of = 0; of < 2; of++) {
        tally total = {0};
        tally apart = {0};
        double square[SL_CHANNELS] = {0.0};
        sl_draw_plan plan = {.n = 1, .drawn = {{.doubt = SL_DOUBT_CYSTINE, .dye = -1, .spread = 3.0}}};
        for (int c = 0; c < SL_CHANNELS; c++) {
            plan.drawn[plan.n++] = (sl_drawn){.doubt = SL_DOUBT_CYSTINE_BY,
                                              .dye = -1,
                                              .spread = wide[c],
                                              .channel = c,
                                              .share = shares[of][c]};
        }
        const double edge = hypot(log(wide[SL_PERHYDROXYL]), log(wide[SL_PERSULFATE]));
        for (long block = 0; block < BLOCKS; block++) {
            members_draw(&drawn, &plan, 2026, block * LANES);
            for (int l = 0; l < LANES; l++) {
                const double all = log(drawn.lanes.by[SL_DOUBT_CYSTINE][l]);
                ck_assert_double_eq_tol(log_of_total(&drawn, shares[of], l), all, 1e-12);
                count(&total, all, log(3.0));
                count(&apart,
                      log_of_channel(&drawn, SL_PERHYDROXYL, l) - log_of_channel(&drawn, SL_PERSULFATE, l),
                      edge);
                for (int c = 0; c < SL_CHANNELS; c++) {
                    square[c] += pow(log_of_channel(&drawn, c, l), 2.0) / N;
                }
            }
        }
        is_normal(&total, log(3.0));
        is_normal(&apart, edge);
        const double sd = log(3.0) / 1.959964;
        for (int c = 0; c < SL_CHANNELS; c++) {
            ck_assert_double_gt(sqrt(square[c]), sd * (1.0 - 4.0 / sqrt(2.0 * N)));
        }
        ck_assert_double_lt(of == 0 ? sd : sqrt(square[SL_RADICAL]),
                            of == 0 ? sqrt(square[SL_RADICAL]) : 1.02 * sd);
    }
}
END_TEST

/* Of a scene: every channel that takes part in a target has a share of it, and those of one sum to one; where
 * a channel has all of it, or a dye is oxidative, there is nothing to divide. */
START_TEST(every_target_is_divided_among_the_channels_that_take_it)
{
    small_scene small;
    small_scene_fill(&small);
    small.dyes[1].rates.k[SL_RADICAL].value = 0.0;
    small.dyes[2].rates.k[SL_PERHYDROXYL].value = small.dyes[2].rates.k[SL_RADICAL].value = 0.0;
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    double sum[SL_DOUBTS][SMALL_DYES + 1] = {{0.0}};
    int n[SL_DOUBTS][SMALL_DYES + 1] = {{0}};
    for (int d = 0; d < plan.n; d++) {
        const sl_drawn *const what = &plan.drawn[d];
        ck_assert(sl_drawn_of_channel(what) == (what->share > 0.0));
        ck_assert(sl_drawn_of_dye(what) == (what->dye >= 0));
        sum[what->doubt][what->dye + 1] += what->share;
        n[what->doubt][what->dye + 1]++;
    }
    ck_assert_double_eq_tol(sum[SL_DOUBT_CYSTINE_BY][0], 1.0, 1e-12);
    ck_assert_double_eq_tol(sum[SL_DOUBT_MELANIN_BY][0], 1.0, 1e-12);
    ck_assert_int_eq(n[SL_DOUBT_CYSTINE_BY][0], SL_CHANNELS);
    for (int dye = 0; dye < SMALL_DYES; dye++) {
        const int wanted = small.dyes[dye].class_ == SL_DYE_OXIDATIVE ? 0 : dye == 1 ? 2 : dye == 2 ? 0 : 3;
        ck_assert_int_eq(n[SL_DOUBT_DYE_BY][dye + 1], wanted);
        ck_assert_double_eq_tol(sum[SL_DOUBT_DYE_BY][dye + 1], wanted > 0 ? 1.0 : 0.0, 1e-12);
    }
}
END_TEST

/* At 22 C, ten below where rates are given, an energy of its own makes a pigment or cystine up to 2.5
 * times slower or faster than its channel; members at the central values have the central limits. */
static void own_energy(sl_rates *rates, double kj_mol)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        rates->own_activation[c] = true;
        rates->activation_kj_mol[c] = kj_mol;
    }
}

static void limits_with_own_energies(sl_aims aims, sl_stop *stop)
{
    static drawn_members drawn;
    static lane_history history;
    static small_scene small;
    small_scene_fill(&small);
    small.scene.room_c = 22.0;
    small.scene.aims = aims;
    for (int dye = 0; dye < SMALL_DYES; dye++) {
        own_energy(&small.dyes[dye].rates, dye == 0 ? 130.0 : 10.0);
    }
    own_energy(&small.scene.chemistry.melanin[SL_EUMELANIN].rates, 20.0);
    own_energy(&small.scene.chemistry.cystine, 15.0);
    const sl_draw_plan nothing = {0};
    members_draw(&drawn, &nothing, 1, 0);
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    for (int arm = ARM_WATER; arm <= ARM_6; arm++) {
        int bad = 0;
        member_limits found[LANES];
        const sl_limits central = sl_limits_of(timeline, arm, NULL);
        member_aims asked;
        ck_assert(members_aims(&asked, &small.scene, ground_of(&small.scene), &drawn.lanes, &history, &bad));
        ck_assert(members_limits(found, &small.scene, arm, &drawn, &asked, &history, &bad));
        ck_assert_int_eq(found[3].early_reached, central.early_reached);
        if (central.early_reached) {
            ck_assert_double_eq_tol(found[3].early_min, central.early_min, 1.0 / 60.0);
        }
        ck_assert_int_eq(found[3].late_by, central.stop);
        ck_assert_double_eq_tol(found[3].late_min, central.stop_min[central.stop], 1.0 / 60.0);
        ck_assert_double_eq_tol(found[3].left_at_late, central.left_at_stop, 1e-3);
        *stop = central.stop;
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

START_TEST(activation_energies_of_their_own_count_in_every_member)
{
    sl_stop stop = SL_STOPS;
    limits_with_own_energies((sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}}, &stop);
    ck_assert_int_eq(stop, SL_STOP_BASE);
    limits_with_own_energies((sl_aims){.colour_left = 0.5, .cystine_lost = {0.01, true}}, &stop);
    ck_assert_int_eq(stop, SL_STOP_STRESS);
    limits_with_own_energies((sl_aims){.colour_left = 0.5}, &stop);
    ck_assert_int_eq(stop, SL_STOP_END);
}
END_TEST

/* A measurement pays: it narrows what is drawn of its mix, and of no other (test_own_widths.c). */
START_TEST(what_was_measured_in_a_mix_is_drawn_more_narrowly)
{
    small_scene small;
    small_scene_fill(&small);
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    ck_assert_double_eq(sl_mix_ph_within(mix), 0.3);
    ck_assert_double_eq(sl_mix_loss_within(mix), 3.0);
    mix->ph.grade = SL_GRADE_PUBLISHED; /* of another mix */
    ck_assert_double_eq(sl_mix_ph_within(mix), 0.3);
    mix->ph.grade = mix->loss_per_min.grade = SL_GRADE_MEASURED_HERE;
    ck_assert_double_eq(sl_mix_ph_within(mix), 0.1);
    ck_assert_double_eq(sl_mix_loss_within(mix), 1.15);
    mix->ph_computed = true;
    mix->ph_doubt = 0.2;
    ck_assert_double_eq(sl_mix_ph_within(mix), 0.2);
    mix->loss_l_mol_min.value = 1e-3; /* the law of second order is the one that runs then */
    mix->loss_l_mol_min.grade = SL_GRADE_PUBLISHED;
    ck_assert_double_eq(sl_mix_loss_within(mix), 1.3);
}
END_TEST

/* Porosity decides how fast oxidants come in, the cystine there what they meet: members must not lend one
 * hair's history to another that differs in one of them alone. */
static void members_are_the_central_values(sl_hair one, sl_hair two)
{
    static drawn_members drawn;
    static lane_history history;
    static small_scene small;
    small_scene_fill(&small);
    small.hairs[0] = one;
    small.hairs[1] = two;
    small.zones[0] = (sl_zone){.name = "first", .hair = 0, .recipe = {1, {1}, {2.0}}};
    small.zones[1] = (sl_zone){.name = "second", .hair = 1, .recipe = {1, {2}, {2.0}}};
    small.zones[2] = (sl_zone){.name = "first, undyed", .hair = 0, .recipe = {0}};
    small.zones[3] = (sl_zone){.name = "second, undyed", .hair = 1, .recipe = {0}};
    small.scene.n_zones = 4;
    small.scene.aims = (sl_aims){.colour_left = 0.5, .cystine_lost = {0.01, true}};
    const sl_draw_plan nothing = {0};
    members_draw(&drawn, &nothing, 1, 0);
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_limits_prepare(timeline, solver, NULL));
    const sl_limits central = sl_limits_of(timeline, ARM_6, NULL);
    ck_assert(central.early_reached && central.stop == SL_STOP_STRESS);
    int bad = 0;
    member_limits found[LANES];
    member_aims asked;
    ck_assert(members_aims(&asked, &small.scene, ground_of(&small.scene), &drawn.lanes, &history, &bad));
    ck_assert(members_limits(found, &small.scene, ARM_6, &drawn, &asked, &history, &bad));
    ck_assert_double_eq_tol(found[0].early_min, central.early_min, 1.0 / 60.0);
    ck_assert_double_eq_tol(found[0].late_min, central.stop_min[SL_STOP_STRESS], 1.0 / 60.0);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
}

/* Dyes that absorb nothing count alike, in the central values as in members: the shares of a colour sum to
 * one. */
START_TEST(dyes_without_a_colour_count_alike)
{
    static drawn_members drawn;
    small_scene small;
    small_scene_fill(&small);
    member_zone made;
    const sl_draw_plan nothing = {0};
    members_draw(&drawn, &nothing, 1, 0);
    for (int with = 1; with >= 0; with--) {
        for (int i = 0; i < SMALL_DYES; i++) {
            small.dyes[i].n_bands = with;
        }
        member_zone_make(&made, ground_of(&small.scene), &small.scene, &small.arms[ARM_6], ZONE_MIXED,
                         &drawn);
        ck_assert_int_eq(made.recipe->n_dyes, 2);
        ck_assert_double_eq_tol(made.weight[0] + made.weight[1], 1.0, 1e-12);
    }
    ck_assert_double_eq(made.weight[0], 0.5);
}
END_TEST

START_TEST(members_of_hair_that_differs_in_one_thing_alone_are_solved_apart)
{
    small_scene small;
    small_scene_fill(&small);
    sl_hair one = small.hairs[0], two = small.hairs[0];
    two.cystine_intact = 0.6; /* what is lost there comes sooner to a share of less */
    members_are_the_central_values(one, two);
    members_are_the_central_values(two, one);
    two = one;
    two.porosity = 2.0;
    members_are_the_central_values(one, two);
    members_are_the_central_values(two, one);
}
END_TEST

START_SUITE("draws")
ADD(ninety_five_of_a_hundred_draws_lie_within_the_grade_s_factor)
ADD(an_assumed_number_is_drawn_at_least_a_factor_of_three_either_way)
ADD(activation_energies_of_their_own_count_in_every_member)
ADD(what_is_one_quantity_in_nature_is_one_draw)
ADD(how_a_target_is_divided_leaves_its_total_as_wide_as_it_was)
ADD(every_target_is_divided_among_the_channels_that_take_it)
ADD(what_was_measured_in_a_mix_is_drawn_more_narrowly)
ADD(dyes_without_a_colour_count_alike)
ADD(members_of_hair_that_differs_in_one_thing_alone_are_solved_apart)
END_SUITE
