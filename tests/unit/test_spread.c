/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/spread.h"

#include <math.h>
#include <string.h>

#include "estimate/counts.h"
#include "estimate/limits_of_members.h"
#include "estimate/members.h"
#include "ground.h"
#include "slowlift/limits.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static lane_history history;
static drawn_members asked; /* of the scene itself, until a test turns them */

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
    members_begin(&asked);
}

/* The lanes' doses are the course's to this share of them. */
static void lanes_follow_the_course_to(int arm, double share)
{
    int bad = -1;
    sl_course *course = NULL;
    sl_solver *const solver = sl_solver_new(NULL);
    const sl_treatment treatment = small_treatment(&small, arm, 1.5, 0.85);
    ck_assert(sl_course_solve(&course, &treatment, solver, NULL));
    ck_assert(lanes_run(&history, &small.scene, &small.arms[arm], 1.5, 0.85, &asked.lanes, &bad));
    for (int i = 0; i <= history.steps; i++) {
        sl_moment moment;
        sl_course_at(course, small.arms[arm].contact_min + history.time_min[i], &moment);
        for (int c = 0; c < SL_CHANNELS; c++) {
            const double slack = share * (moment.rim_dose[c] + moment.core_dose[c]) + 1e-7;
            ck_assert_double_eq_tol(history.rim[i][c][i % LANES], moment.rim_dose[c], slack);
            ck_assert_double_eq_tol(history.core[i][c][i % LANES], moment.core_dose[c], slack);
        }
        ck_assert_double_eq_tol(history.cystine[i][i % LANES], moment.cystine_intact, 1e-5);
        if (i > 0) {
            ck_assert_double_eq_tol(history.leach_min[i], moment.leach_min, 1e-9);
        }
    }
    sl_course_free(course);
    sl_solver_free(solver);
}

/* Fixed steps of a quarter of a minute: fourth order, about 1e-5 of the dose. */
static void lanes_follow_the_course(int arm)
{
    lanes_follow_the_course_to(arm, 2e-5);
}

START_TEST(a_lane_without_draws_is_the_course)
{
    fresh();
    for (int arm = ARM_WASHING; arm <= ARM_MILD; arm++) {
        lanes_follow_the_course(arm);
    }
    small.arms[ARM_6].steps[0].mix_age_min = 12.0;
    small.arms[ARM_3].steps[0].covered = false;
    small.arms[ARM_WATER].steps[0].hair_water_g_g = 0.4;
    small.arms[ARM_6].contact_min = 3.25;
    small.arms[ARM_6].steps[3] = small.arms[ARM_6].steps[0]; /* a second round */
    small.arms[ARM_6].n_steps = 4;
    for (int arm = ARM_WATER; arm <= ARM_6; arm++) {
        lanes_follow_the_course(arm);
    }
}
END_TEST

/* Loss of second order, slow and fast, of the mix in its bowl and on the hair. */
START_TEST(lanes_follow_a_loss_of_second_order)
{
    fresh();
    small.arms[ARM_6].steps[0].mix_age_min = 12.0;
    for (int i = 0; i < 2; i++) {
        small.mixes[MIX_POWDER_6].loss_l_mol_min = assumed(i == 0 ? 0.05 : 0.3);
        lanes_follow_the_course(ARM_6);
    }
}
END_TEST

START_TEST(lanes_follow_a_changing_temperature)
{
    fresh();
    small.scene.place = SL_PLACE_WRAPPED;
    lanes_follow_the_course(ARM_6);
    small.scene.n_points = 3;
    small.scene.points[0] = (sl_course_point){0.0, 20.0};
    small.scene.points[1] = (sl_course_point){12.0, 33.0};
    small.scene.points[2] = (sl_course_point){20.0, 24.0};
    lanes_follow_the_course(ARM_6);
}
END_TEST

/* Rates of tens a minute: hydrolysis at pH 12, loss and coupling; a step that is long for them leaves the
 * range. */
START_TEST(lanes_follow_fast_rates)
{
    for (int what = 0; what < 6; what++) {
        fresh();
        sl_chemistry *const ch = &small.scene.chemistry;
        if (what < 3) {
            small.mixes[MIX_POWDER_6].ph.value = 12.0;
            ch->hydrolysis_per_min = assumed(what == 0 ? 0.2 : what == 1 ? 0.5 : 1.0);
        } else if (what == 3) {
            small.mixes[MIX_POWDER_6].loss_per_min = assumed(20.0);
        } else if (what == 4) {
            ch->couple_l_mol_min = assumed(200.0);
        } else {
            ch->thermal_per_min = assumed(20.0);
        }
        lanes_follow_the_course_to(ARM_6, 1e-4);
    }
}
END_TEST

/* Change the scene as one member's draws would, and find its limits on the solution itself. */
static void apply_to_scene(const drawn_members *drawn, int l)
{
    sl_chemistry *const ch = &small.scene.chemistry;
    double by[SL_DOUBT_DYE];
    for (int doubt = 0; doubt < SL_DOUBT_DYE; doubt++) {
        by[doubt] = drawn->lanes.by[doubt][l];
    }
    for (int i = 0; i < SMALL_MIXES; i++) { /* all typed, and assumed */
        small.mixes[i].ph.value += 0.3 * by[SL_DOUBT_PH];
        small.mixes[i].loss_per_min.value *= pow(3.0, by[SL_DOUBT_LOSS]);
    }
    small.scene.shift_k += by[SL_DOUBT_WARMTH];
    ch->lipids_open.value *= by[SL_DOUBT_OPENING];
    ch->lipids_loss.value *= by[SL_DOUBT_RADICAL];
    ch->peroxide_diffusion_cm2_s.value *= by[SL_DOUBT_PEROXIDE_ENTRY];
    ch->persulfate_diffusion_cm2_s.value *= by[SL_DOUBT_PERSULFATE_ENTRY];
    ch->persulfate_partition.value *= by[SL_DOUBT_PARTITION];
    ch->saturation_mol_l.value *= by[SL_DOUBT_SATURATION];
    ch->couple_l_mol_min.value *= by[SL_DOUBT_COUPLE];
    ch->fibre_loss_per_min.value *= pow(3.0, by[SL_DOUBT_LOSS]);
    ch->damage_opens.value *= by[SL_DOUBT_OPENING];
    ch->fibre_water_ml_g.value /= by[SL_DOUBT_GRAMS]; /* the same change of fibre water over liquid */
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double flux = c == SL_RADICAL ? by[SL_DOUBT_RADICAL] : 1.0;
        ch->cystine.k[c].value *= by[SL_DOUBT_CYSTINE] * drawn->lanes.cystine_by[c][l] * flux;
        for (int kind = 0; kind < SL_MELANINS; kind++) {
            ch->melanin[kind].rates.k[c].value *= by[SL_DOUBT_MELANIN] * drawn->lanes.melanin_by[c][l] * flux;
        }
        for (int dye = 0; dye < SMALL_DYES; dye++) {
            small.dyes[dye].rates.k[c].value *= drawn->dye[dye][l] * drawn->dye_by[dye][c][l] * flux;
        }
    }
}

static void draw_lane(int l)
{
    static const double width[SL_DOUBT_DYE] = {[SL_DOUBT_PH] = 1.3,
                                               [SL_DOUBT_WARMTH] = 4.0,
                                               [SL_DOUBT_PEROXIDE_ENTRY] = 2.0,
                                               [SL_DOUBT_PERSULFATE_ENTRY] = 2.0,
                                               [SL_DOUBT_PARTITION] = 1.0,
                                               [SL_DOUBT_SATURATION] = 2.0,
                                               [SL_DOUBT_COUPLE] = 2.0,
                                               [SL_DOUBT_LOSS] = 2.0,
                                               [SL_DOUBT_CYSTINE] = 1.0,
                                               [SL_DOUBT_MELANIN] = 1.0,
                                               [SL_DOUBT_RADICAL] = 1.0,
                                               [SL_DOUBT_OPENING] = 1.0,
                                               [SL_DOUBT_GRAMS] = 0.2};
    for (int doubt = 0; doubt < SL_DOUBT_DYE; doubt++) {
        const double by = width[doubt] * (sl_draw(99, l, doubt) - 0.5);
        const bool is_shift =
            doubt == SL_DOUBT_PH || doubt == SL_DOUBT_WARMTH || doubt == SL_DOUBT_LOSS; /* or turns a width */
        ck_assert_double_gt(width[doubt], 0.0); /* none is forgotten */
        asked.lanes.by[doubt][l] = is_shift ? by : exp(by);
    }
    for (int dye = 0; dye < SMALL_DYES; dye++) {
        asked.dye[dye][l] = exp(sl_draw(99, l, SL_DOUBT_DYE + dye) - 0.5);
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        const int from = SL_DOUBT_DYE + SMALL_DYES + c * (2 + SMALL_DYES);
        asked.lanes.cystine_by[c][l] = exp(sl_draw(99, l, from) - 0.5);
        asked.lanes.melanin_by[c][l] = exp(sl_draw(99, l, from + 1) - 0.5);
        for (int dye = 0; dye < SMALL_DYES; dye++) {
            asked.dye_by[dye][c][l] = exp(sl_draw(99, l, from + 2 + dye) - 0.5);
        }
    }
}

static void (*also)(void); /* what else is changed in the scene; NULL: nothing */

static void fresh_with(const sl_aims *aims)
{
    fresh();
    if (also) {
        also();
    }
    small.scene.aims = aims ? *aims : small.scene.aims;
}

/* aims NULL: those of fresh(). Every lane draws its own numbers. */
static void hold_members_to_their_scenes(const sl_aims *aims_asked)
{
    fresh_with(aims_asked);
    sl_optics *const dry = sl_optics_new(&small.scene, NULL);
    ck_assert_ptr_nonnull(dry);
    for (int l = 0; l < LANES; l++) {
        draw_lane(l);
    }
    static drawn_members drawn;
    drawn = asked;
    member_limits limits[LANES];
    int bad = -1;
    int reached = 0;
    int stressed = 0;
    sl_solver *const solver = sl_solver_new(NULL);
    for (int arm = ARM_WATER; arm <= ARM_6; arm++) {
        member_aims aims;
        ck_assert(
            members_aims(&aims, &small.scene, ground_near(&small.scene, dry), &drawn.lanes, &history, &bad));
        ck_assert(members_limits(limits, &small.scene, arm, &drawn, &aims, &history, &bad));
        for (int l = 0; l < LANES; l++) {
            fresh_with(aims_asked);
            apply_to_scene(&drawn, l);
            sl_timeline *timeline = NULL;
            ck_assert(sl_timeline_solve(&timeline, &small.scene, NULL, 0, solver, NULL, NULL));
            ck_assert(sl_limits_prepare(timeline, solver, NULL));
            const sl_limits own = sl_limits_of(timeline, arm, NULL);
            ck_assert_int_eq(own.early_reached, limits[l].early_reached);
            reached += own.early_reached ? 1 : 0;
            ck_assert_int_eq(own.stop, limits[l].late_by);
            stressed += own.stop == SL_STOP_STRESS ? 1 : 0;
            if (own.early_reached) {
                ck_assert_double_eq_tol(own.early_min, limits[l].early_min, 1.0 / 60.0);
                ck_assert_int_eq(own.early_zone, limits[l].last_zone);
            }
            ck_assert_double_eq_tol(own.stop_min[own.stop], limits[l].late_min, 1.0 / 60.0);
            ck_assert_double_eq_tol(own.left_at_stop, limits[l].left_at_late, 1e-3);
            sl_timeline_free(timeline);
            fresh_with(aims_asked);
        }
    }
    sl_solver_free(solver);
    sl_optics_free(dry);
    ck_assert_int_gt(reached, 0);
    ck_assert(stressed > 0 || small.scene.aims.stress_share <= 0.0);
}

START_TEST(a_member_s_limits_are_those_of_its_own_scene_to_a_second)
{
    hold_members_to_their_scenes(NULL);
}
END_TEST

START_TEST(so_are_those_of_goals_for_single_zones)
{
    const sl_aims aims = {
        .colour_left = 0.6, .base_moved = {0.3, true}, .zone_left = {[ZONE_RED] = 1.0, [ZONE_VIOLET] = 0.35}};
    hold_members_to_their_scenes(&aims);
}
END_TEST

START_TEST(so_are_those_of_nearness_to_undyed_hair)
{
    const sl_aims aims = {.colour_left = 1.0,
                          .base_moved = {0.3, true},
                          .zone_near = {[ZONE_RED] = 25.0, [ZONE_VIOLET] = 15.0}};
    hold_members_to_their_scenes(&aims);
}
END_TEST

START_TEST(so_are_those_of_half_the_stress_of_another_arm)
{
    const sl_aims aims = {.colour_left = 0.5, .stress_share = 0.5, .stress_of = ARM_6};
    hold_members_to_their_scenes(&aims);
}
END_TEST

/* The root has a direct dye too, on other hair; the clock is ahead of the contact; labels count from contact;
 * one dye and one melanin have an energy of their own. */
static void two_kinds_of_hair(void)
{
    small.zones[ZONE_ROOT].recipe = (sl_recipe){2, {0, 1}, {1.0, 2.0}};
    small.zones[ZONE_MIXED] = (sl_zone){.name = "root without dye", .hair = 0, .recipe = {0}};
    for (int arm = ARM_WATER; arm <= ARM_6; arm++) {
        small.arms[arm].contact_min = 7.0;
    }
    for (int mix = MIX_POWDER_WATER; mix <= MIX_POWDER_6; mix++) {
        small.mixes[mix].label_from_contact = true;
        small.mixes[mix].label_max_min = 24.0;
    }
    small.dyes[2].rates.own_activation[SL_PERHYDROXYL] = true;
    small.dyes[2].rates.activation_kj_mol[SL_PERHYDROXYL] = 90.0;
    small.scene.chemistry.melanin[SL_EUMELANIN].rates.own_activation[SL_RADICAL] = true;
    small.scene.chemistry.melanin[SL_EUMELANIN].rates.activation_kj_mol[SL_RADICAL] = 40.0;
}

START_TEST(so_are_those_of_two_kinds_of_hair_under_a_label)
{
    const sl_aims shares = {.colour_left = 0.6, .base_moved = {0.25, true}, .cystine_lost = {0.1, true}};
    const sl_aims near = {.colour_left = 1.0,
                          .cystine_lost = {0.1, true},
                          .zone_near = {[ZONE_ROOT] = 30.0, [ZONE_VIOLET] = 15.0}};
    also = two_kinds_of_hair;
    hold_members_to_their_scenes(&shares);
    hold_members_to_their_scenes(&near);
    also = NULL;
}
END_TEST

/* The longest time binds where it is shorter than all else, and the end of the scene where nothing is set. */
START_TEST(so_are_those_of_a_longest_time_or_of_none)
{
    const sl_aims longest = {.colour_left = 0.6, .longest_min = {5.0, true}}, none = {.colour_left = 0.6};
    const sl_aims *const both[2] = {&longest, &none};
    for (int i = 0; i < 2; i++) {
        member_limits limits[LANES];
        member_aims aims;
        int bad = -1;
        fresh_with(both[i]);
        for (int l = 0; l < LANES; l++) {
            draw_lane(l);
        }
        ck_assert(members_aims(&aims, &small.scene, ground_of(&small.scene), &asked.lanes, &history, &bad));
        ck_assert(members_limits(limits, &small.scene, ARM_6, &asked, &aims, &history, &bad));
        for (int l = 0; l < LANES; l++) {
            ck_assert_double_eq(limits[l].late_min, i == 0 ? 5.0 : 60.0);
            ck_assert_int_eq(limits[l].late_by, i == 0 ? SL_STOP_CHAIR : SL_STOP_END);
        }
    }
}
END_TEST

static sl_spread *run(long first, long members, int threads)
{
    sl_error error = {0};
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .first_member = first, .members = members, .seed = 5, .threads = threads};
    ck_assert_msg(sl_spread_run(&spread, &small.scene, &request, &error), "%s", error.found);
    return spread;
}

static void same_counts(const sl_spread *one, const sl_spread *two)
{
    ck_assert_int_eq(one->members, two->members);
    for (int a = 0; a < one->n_arms; a++) {
        const sl_arm_spread *const x = &one->arms[a];
        const sl_arm_spread *const y = &two->arms[a];
        ck_assert_int_eq(x->asked, y->asked);
        if (x->asked) {
            const size_t bytes = ((size_t)one->seconds + 1) * sizeof *x->early;
            ck_assert_mem_eq(x->early, y->early, bytes);
            ck_assert_mem_eq(x->late, y->late, bytes);
            ck_assert_mem_eq(x->left_hundredths, y->left_hundredths, sizeof x->left_hundredths);
            ck_assert_mem_eq(x->index_sum_s, y->index_sum_s, (size_t)one->plan.n * sizeof *x->index_sum_s);
            ck_assert_mem_eq(x->index_open, y->index_open, (size_t)one->plan.n * sizeof *x->index_open);
            ck_assert_int_eq(x->open, y->open);
            for (int d = 0; d < one->plan.n; d++) { /* of all bins it is the odds */
                ck_assert_double_eq_tol(sl_spread_odds_within(one, a, d, 0, SL_INDEX_BINS),
                                        (double)x->open / (double)one->members, 1e-12);
            }
            ck_assert(x->square_s2 == y->square_s2 && x->sum_s == y->sum_s);
        }
    }
}

START_TEST(threads_and_shards_do_not_change_a_count)
{
    fresh();
    sl_spread *const one = run(0, 1000, 1);
    sl_spread *const two = run(0, 1000, 2);
    sl_spread *const eight = run(0, 1000, 8);
    sl_spread *const first = run(0, 403, 2);
    sl_spread *const second = run(403, 597, 1);
    same_counts(one, two);
    same_counts(one, eight);
    ck_assert(sl_spread_add(first, second, NULL));
    same_counts(one, first);
    sl_spread_free(one);
    sl_spread_free(two);
    sl_spread_free(eight);
    sl_spread_free(first);
    sl_spread_free(second);
}
END_TEST

START_TEST(every_member_is_counted_once_in_every_histogram)
{
    fresh();
    sl_spread *const spread = run(0, 777, 2);
    for (int a = 0; a < spread->n_arms; a++) {
        const sl_arm_spread *const arm = &spread->arms[a];
        ck_assert_int_eq(arm->asked, a >= ARM_WASHING && a <= ARM_MILD);
        uint64_t early = 0;
        uint64_t late = 0;
        uint64_t left = 0;
        for (int i = 0; arm->asked && i <= spread->seconds; i++) {
            early += arm->early[i];
            late += arm->late[i];
        }
        for (int i = 0; i <= 100; i++) {
            left += arm->left_hundredths[i];
        }
        ck_assert_uint_eq(early, arm->asked ? 777 : 0);
        ck_assert_uint_eq(late, early);
        ck_assert_uint_eq(left, early);
        ck_assert_int_eq(arm->late_by[0] + arm->late_by[1] + arm->late_by[2] + arm->late_by[3] +
                             arm->late_by[4],
                         arm->asked ? 777 : 0);
    }
    sl_spread_free(spread);
}
END_TEST

START_TEST(other_scenes_are_not_added_up)
{
    fresh();
    sl_spread *const one = run(0, 32, 1);
    small.scene.until_min = 50.0;
    sl_spread *const two = run(0, 32, 1);
    sl_error error = {0};
    ck_assert(!sl_spread_add(one, two, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    sl_spread_free(one);
    sl_spread_free(two);
}
END_TEST

static bool stop_soon(void *self, long done, long all)
{
    (void)all;
    *(long *)self = done;
    return done < 64;
}

START_TEST(a_stopped_run_says_that_it_is_partial)
{
    fresh();
    long done = 0;
    sl_spread *spread = NULL;
    const sl_spread_request request = {
        .members = 100000, .seed = 1, .threads = 1, .go_on = stop_soon, .self = &done};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    ck_assert(spread->stopped);
    ck_assert_int_eq(spread->members, done);
    ck_assert_int_lt(spread->members, 200);
    ck_assert_int_eq(spread->asked_for, 100000);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_member_out_of_range_is_named)
{
    fresh();
    small.scene.chemistry.couple_l_mol_min.value = 1e9; /* no step is short enough */
    sl_error error = {0};
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = 64, .seed = 1, .threads = 2};
    ck_assert(!sl_spread_run(&spread, &small.scene, &request, &error));
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
    ck_assert(strstr(error.found, "member ") == error.found);
    ck_assert_ptr_null(spread);
}
END_TEST

START_TEST(draws_are_uniform_and_do_not_follow_one_another)
{
    enum { N = 20000 };
    for (int d = 0; d < SL_MOST_DRAWN; d += 7) {
        double sum = 0.0;
        double product = 0.0;
        int low = 0;
        for (long m = 0; m < N; m++) {
            const double u = sl_draw(3, m, d);
            ck_assert(u > 0.0 && u < 1.0);
            sum += u;
            low += u < 0.1 ? 1 : 0;
            product += (u - 0.5) * (sl_draw(3, m, (d + 1) % SL_MOST_DRAWN) - 0.5);
        }
        /* four standard deviations: sqrt(1/12/N), sqrt(.09/N), 1/12/sqrt(N) */
        ck_assert_double_eq_tol(sum / N, 0.5, 4.0 * 0.00204);
        ck_assert_double_eq_tol((double)low / N, 0.1, 4.0 * 0.00212);
        ck_assert_double_eq_tol(product / N, 0.0, 4.0 * 0.00059);
    }
    ck_assert_double_ne(sl_draw(3, 1, 0), sl_draw(4, 1, 0));
}
END_TEST

/* The first-order indices that the counts of an ensemble would show of a function on the unit cube. */
enum { CUBE = 8 };
static void indices_of(double (*f)(const double *u), int n, double index[CUBE])
{
    enum { N = 200000 };
    int64_t count[CUBE][SL_INDEX_BINS] = {{0}}, sum_s[CUBE][SL_INDEX_BINS] = {{0}};
    sl_arm_spread arm = {.asked = true, .index_count = count, .index_sum_s = sum_s};
    const sl_spread spread = {.members = N, .n_arms = 1, .plan = {.n = n}, .arms = &arm};
    for (long m = 0; m < N; m++) {
        double u[CUBE];
        for (int d = 0; d < n; d++) {
            u[d] = sl_draw(17, m, d);
        }
        const int64_t y = (int64_t)lround(1000.0 * f(u));
        arm.sum_s += y;
        arm.square_s2 += y * y;
        for (int d = 0; d < n; d++) {
            arm.index_count[d][(int)(u[d] * SL_INDEX_BINS)]++;
            arm.index_sum_s[d][(int)(u[d] * SL_INDEX_BINS)] += y;
        }
    }
    for (int d = 0; d < n; d++) {
        index[d] = sl_spread_index(&spread, 0, d);
    }
}

/* Twenty bins lose what varies inside one: of the variance of the effect of a draw a share that the caller
 * knows in closed form. Chance at N is below 0.004. */
static void held_to(const double *index, const double *known, const double *lost, int n)
{
    for (int d = 0; d < n; d++) {
        ck_assert_double_eq_tol(index[d], known[d] * (1.0 - lost[d]), 0.004);
    }
}

static double ishigami(const double *u)
{
    const double pi = acos(-1.0);
    const double x[3] = {pi * (2.0 * u[0] - 1.0), pi * (2.0 * u[1] - 1.0), pi * (2.0 * u[2] - 1.0)};
    return sin(x[0]) + 7.0 * sin(x[1]) * sin(x[1]) + 0.1 * pow(x[2], 4.0) * sin(x[0]);
}

/* The Ishigami function, a = 7, b = 0.1: first-order indices 0.3139, 0.4424, 0 (Ishigami &
 * Homma 1990; values as in Saltelli et al., Global Sensitivity Analysis: The Primer, 2008,
 * from memory, and by the closed forms below). */
START_TEST(first_order_indices_of_ishigami_are_the_published_ones)
{
    const double pi = acos(-1.0);
    const double v1 = 0.5 * pow(1.0 + 0.1 * pow(pi, 4.0) / 5.0, 2.0);
    const double v2 = 49.0 / 8.0;
    const double v = v2 + 0.1 * pow(pi, 4.0) / 5.0 + 0.01 * pow(pi, 8.0) / 18.0 + 0.5;
    const double known[3] = {v1 / v, v2 / v, 0.0};
    double index[CUBE];
    ck_assert_double_eq_tol(known[0], 0.3139, 5e-5);
    ck_assert_double_eq_tol(known[1], 0.4424, 5e-5);
    indices_of(ishigami, 3, index);
    /* a sine of w radians in a bin keeps (sin(w/2)/(w/2))^2 of its variance */
    const double one = sin(pi / 20.0) / (pi / 20.0);
    const double two = sin(pi / 10.0) / (pi / 10.0);
    held_to(index, known, (const double[3]){1.0 - one * one, 1.0 - two * two, 0.0}, 3);
}
END_TEST

static const double EIGHT[8] = {0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0};
static const double SIX[6] = {0.0, 0.5, 3.0, 9.0, 99.0, 99.0};

static double g_function(const double *u, const double *a, int n)
{
    double product = 1.0;
    for (int d = 0; d < n; d++) {
        product *= (fabs(4.0 * u[d] - 2.0) + a[d]) / (1.0 + a[d]);
    }
    return product;
}

static double g_of_eight(const double *u)
{
    return g_function(u, EIGHT, 8);
}

static double g_of_six(const double *u)
{
    return g_function(u, SIX, 6);
}

/* Sobol's g function: partial variances 1/(3 (1 + a)^2), the whole the product of one and each, less one
 * (Sobol' 1998, Math. Comput. Simul. 47:103, from memory). */
static void g_indices(const double *a, int n, double *known)
{
    double whole = 1.0;
    for (int d = 0; d < n; d++) {
        known[d] = 1.0 / (3.0 * (1.0 + a[d]) * (1.0 + a[d]));
        whole *= 1.0 + known[d];
    }
    for (int d = 0; d < n; d++) {
        known[d] /= whole - 1.0;
    }
}

/* a tent over twenty bins: ten to a side */
static const double TENT[CUBE] = {0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01};

START_TEST(first_order_indices_of_g_functions_are_those_in_closed_form)
{
    double index[CUBE];
    double known[CUBE];
    g_indices(EIGHT, 8, known);
    ck_assert_double_eq_tol(known[0], 0.7162, 5e-5);
    indices_of(g_of_eight, 8, index);
    held_to(index, known, TENT, 8);
    g_indices(SIX, 6, known);
    ck_assert_double_eq_tol(known[0], 0.5868, 5e-5);
    indices_of(g_of_six, 6, index);
    held_to(index, known, TENT, 6);
}
END_TEST

START_TEST(weaker_grades_are_drawn_more_widely)
{
    for (int g = 1; g < SL_GRADE_COUNT; g++) {
        ck_assert_double_le(sl_grade_factor((sl_grade)g), sl_grade_factor((sl_grade)(g - 1)));
    }
    ck_assert_double_ge(sl_grade_factor(SL_GRADE_ASSUMED), 3.0);
    /* what is remembered of a paper counts like what is computed: neither was looked up */
    ck_assert_double_eq(sl_grade_factor(SL_GRADE_FROM_MEMORY), sl_grade_factor(SL_GRADE_COMPUTED));
    ck_assert_double_lt(sl_grade_factor(SL_GRADE_FROM_MEMORY), sl_grade_factor(SL_GRADE_FITTED));
    ck_assert_double_gt(sl_grade_factor(SL_GRADE_COMPUTED), sl_grade_factor(SL_GRADE_PUBLISHED));
    ck_assert_double_gt(sl_grade_factor(SL_GRADE_MEASURED_HERE), 1.0);
    fresh();
    const sl_draw_plan plan = sl_draw_plan_of(&small.scene);
    ck_assert_int_gt(plan.n, 12);
    for (int i = 0; i < plan.n; i++) {
        ck_assert_uint_gt(strlen(sl_doubt_word(plan.drawn[i].doubt)), 8);
        ck_assert_uint_gt(strlen(sl_doubt_measure(plan.drawn[i].doubt)), 8);
    }
}
END_TEST

START_TEST(a_quantile_is_where_that_share_of_members_has_been_counted)
{
    uint64_t histogram[11] = {0, 0, 5, 0, 3, 0, 0, 0, 1, 0, 1}; /* ten members, one never */
    ck_assert_double_eq(sl_spread_quantile(histogram, 10, 10, 0.1), 2.0 / 60.0);
    ck_assert_double_eq(sl_spread_quantile(histogram, 10, 10, 0.5), 2.0 / 60.0);
    ck_assert_double_eq(sl_spread_quantile(histogram, 10, 10, 0.6), 4.0 / 60.0);
    ck_assert_double_eq(sl_spread_quantile(histogram, 10, 10, 0.9), 8.0 / 60.0);
    ck_assert_double_eq(sl_spread_quantile(histogram, 10, 10, 0.95), -1.0);
}
END_TEST

/* ---- counts by hand ------------------------------------------------------------------------------ */

/* One scene of an hour, nothing drawn but three things; counts are put in by hand. */
static sl_spread *empty(const sl_observations *observations)
{
    static sl_draw_plan plan = {.n = 3};
    sl_spread *const spread = spread_new(&small.scene, &plan, 5, observations, NULL);
    ck_assert_ptr_nonnull(spread);
    return spread;
}

static const sl_observations one_seen = {
    1, {{.arm = ARM_6, .zone = ZONE_RED, .minute = 5.0, .wipe = SL_WIPE_HALF}}};

/* A margin that hangs wholly on the first draw, not at all on the second: the index is 1 there, less what
 * twenty bins show by chance, 19 over the members (or over as many as the weights are worth), and 0
 * elsewhere. */
START_TEST(an_index_is_one_less_what_twenty_bins_show_by_chance)
{
    fresh();
    for (int weighed = 0; weighed < 2; weighed++) {
        sl_spread *const spread = empty(weighed ? &one_seen : NULL);
        sl_arm_spread *const arm = weighed ? &spread->weighed[ARM_6] : &spread->arms[ARM_6];
        spread->members = 20000;
        spread->seen.weight = 20000;
        spread->seen.square = 200000; /* worth 2000 */
        arm->square_s2 = 20000;
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            arm->index_count[0][b] = arm->index_count[1][b] = 1000;
            arm->index_sum_s[0][b] = b < SL_INDEX_BINS / 2 ? 1000 : -1000;
        }
        ck_assert_double_eq(sl_spread_effective(spread), weighed ? 2000.0 : 20000.0);
        ck_assert_int_eq(sl_spread_total(spread), 20000);
        ck_assert_double_eq_tol(sl_spread_index(spread, ARM_6, 0), 1.0 - 19.0 / (weighed ? 2000.0 : 20000.0),
                                1e-12);
        ck_assert_double_eq(sl_spread_index(spread, ARM_6, 1), 0.0);
        arm->sum_s = 100000; /* the same about a mean of five seconds */
        arm->square_s2 = 20000 * 26;
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            arm->index_sum_s[0][b] += 5000;
        }
        ck_assert_double_eq_tol(sl_spread_index(spread, ARM_6, 0), 1.0 - 19.0 / (weighed ? 2000.0 : 20000.0),
                                1e-12);
        arm->square_s2 = 20000 * 27; /* another second of variance: half of it is the draw's */
        ck_assert_double_eq_tol(sl_spread_index(spread, ARM_6, 0), 0.5 - 19.0 / (weighed ? 2000.0 : 20000.0),
                                1e-12);
        ck_assert_double_eq(sl_spread_index(spread, ARM_UNTREATED, 0), 0.0);
        sl_spread_free(spread);
    }
}
END_TEST

/* Fewer than two members, or as many of equal weight, tell no variance apart; two do. */
START_TEST(an_index_needs_two_members)
{
    fresh();
    for (int members = 1; members <= 40; members += members < 3 ? 1 : 37) {
        sl_spread *const spread = empty(NULL);
        sl_arm_spread *const arm = &spread->arms[ARM_6];
        spread->members = members;
        arm->square_s2 = members;
        arm->index_count[0][0] = (members + 1) / 2;
        arm->index_count[0][19] = members / 2;
        arm->index_sum_s[0][0] = (members + 1) / 2;
        arm->index_sum_s[0][19] = -(members / 2);
        arm->sum_s = members % 2;
        const double index = sl_spread_index(spread, ARM_6, 0);
        ck_assert_double_eq_tol(index, members == 40 ? 1.0 - 19.0 / 40.0 : 0.0, 1e-12);
        sl_spread_free(spread);
    }
}
END_TEST

/* One member, by hand: minutes are counted in whole seconds, begun ones full; what comes never, or as the
 * scene ends, is in the last bin. */
START_TEST(a_member_is_counted_where_it_belongs)
{
    static const struct {
        bool reached;
        double early, late;
        int early_bin, late_bin;
    } cases[] = {{true, 10.0, 20.0, 600, 1200},  {true, 10.001, 20.0, 601, 1200},
                 {false, 0.0, 20.0, 3600, 1200}, {true, 20.0, 20.0, 1200, 1200},
                 {true, 0.0, 60.0, 0, 3600},     {true, 59.99, 60.0, 3600, 3600},
                 {true, 0.0, 0.0, 0, 0},         {true, 59.98, 59.99, 3599, 3600}};
    fresh();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_spread *const spread = empty(&one_seen);
        const member_limits member = {.early_reached = cases[i].reached,
                                      .early_min = cases[i].early,
                                      .last_zone = ZONE_VIOLET,
                                      .late_min = cases[i].late,
                                      .late_by = SL_STOP_STRESS,
                                      .left_at_late = 0.256};
        const double u[SL_MOST_DRAWN] = {0.0, 0.0499, 0.9999};
        spread_count(spread, ARM_6, &member, u, 7);
        for (int weighed = 0; weighed < 2; weighed++) {
            const sl_arm_spread *const arm = weighed ? &spread->weighed[ARM_6] : &spread->arms[ARM_6];
            const int64_t by = weighed ? 7 : 1, margin = cases[i].late_bin - cases[i].early_bin;
            ck_assert_int_eq((int64_t)arm->early[cases[i].early_bin], by);
            ck_assert_int_eq((int64_t)arm->late[cases[i].late_bin], by);
            ck_assert_int_eq(arm->open, margin > 0 ? by : 0);
            ck_assert_int_eq((int64_t)arm->open_early[cases[i].early_bin], margin > 0 ? by : 0);
            for (int s = 0; s < 5; s++) {
                ck_assert_int_eq(arm->late_by[s], s == SL_STOP_STRESS ? by : 0);
            }
            for (int z = 0; z < SMALL_ZONES; z++) {
                ck_assert_int_eq((int64_t)arm->last_zone[z], z == ZONE_VIOLET ? by : 0);
            }
            for (int p = 0; p <= 100; p++) {
                ck_assert_int_eq((int64_t)arm->left_hundredths[p], p == 26 ? by : 0);
            }
            ck_assert_int_eq(arm->sum_s, by * margin);
            ck_assert_int_eq(arm->square_s2, by * margin * margin);
            for (int d = 0; d < 3; d++) {
                for (int b = 0; b < SL_INDEX_BINS; b++) {
                    const bool here = b == (d == 2 ? 19 : 0);
                    ck_assert_int_eq(arm->index_count[d][b], here ? by : 0);
                    ck_assert_int_eq(arm->index_sum_s[d][b], here ? by * margin : 0);
                }
            }
        }
        sl_spread_free(spread);
    }
}
END_TEST

/* A share just outside none and all is rounding, and counted at that end. */
START_TEST(a_share_is_counted_in_its_hundredth)
{
    static const struct {
        double left;
        int percent;
    } cases[] = {{-1e-10, 0},  {0.0, 0},      {0.0049, 0}, {0.0051, 1},
                 {0.9949, 99}, {0.9951, 100}, {1.0, 100},  {1.0 + 1e-10, 100}};
    fresh();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_spread *const spread = empty(NULL);
        const member_limits member = {.left_at_late = cases[i].left};
        const double u[SL_MOST_DRAWN] = {0.5};
        spread_count(spread, ARM_6, &member, u, 1);
        ck_assert_int_eq((int)spread->arms[ARM_6].left_hundredths[cases[i].percent], 1);
        sl_spread_free(spread);
    }
}
END_TEST

/* ---- ranges of members ------------------------------------------------------------------------------ */

static sl_spread *of_range(long first, long members)
{
    sl_spread *const spread = empty(NULL);
    spread->members = spread->asked_for = members;
    spread->n_ranges = 1;
    spread->range[0] = (sl_member_range){first, members};
    return spread;
}

/* Shards come in any order: ranges are kept ascending, those that touch are one; none is in twice. */
START_TEST(ranges_are_kept_in_order_and_joined_where_they_touch)
{
    static const struct {
        long first, members;
        bool taken;
        int n;
        long firsts[4], counts[4];
    } steps[] = {{100, 50, true, 1, {100}, {50}},
                 {300, 10, true, 2, {100, 300}, {50, 10}},
                 {149, 2, false, 2, {100, 300}, {50, 10}},
                 {99, 2, false, 2, {100, 300}, {50, 10}},
                 {110, 1, false, 2, {100, 300}, {50, 10}},
                 {0, 20, true, 3, {0, 100, 300}, {20, 50, 10}},
                 {150, 5, true, 3, {0, 100, 300}, {20, 55, 10}},
                 {95, 5, true, 3, {0, 95, 300}, {20, 60, 10}},
                 {155, 145, true, 2, {0, 95}, {20, 215}},
                 {20, 75, true, 1, {0}, {310}},
                 {310, 1, true, 1, {0}, {311}}};
    fresh();
    sl_spread *const sum = of_range(steps[0].first, steps[0].members);
    long members = steps[0].members;
    for (size_t i = 1; i < sizeof steps / sizeof steps[0]; i++) {
        sl_spread *const part = of_range(steps[i].first, steps[i].members);
        sl_error error = {0};
        ck_assert_int_eq(sl_spread_add(sum, part, &error), steps[i].taken);
        members += steps[i].taken ? steps[i].members : 0;
        ck_assert_int_eq(sum->members, members);
        ck_assert_int_eq(sum->asked_for, members);
        ck_assert_str_eq(error.found, steps[i].taken ? "" : "two parts hold the same model runs");
        ck_assert_int_eq(sum->n_ranges, steps[i].n);
        for (int r = 0; r < steps[i].n; r++) {
            ck_assert_int_eq(sum->range[r].first, steps[i].firsts[r]);
            ck_assert_int_eq(sum->range[r].members, steps[i].counts[r]);
        }
        sl_spread_free(part);
    }
    sl_spread_free(sum);
}
END_TEST

/* 511 ranges with gaps are the most that a sum holds. */
START_TEST(so_many_ranges_with_gaps_are_added_up_and_no_more)
{
    fresh();
    small.scene.until_min = 1.0; /* few bins */
    sl_spread *const sum = of_range(0, 1);
    sl_error error = {0};
    for (int i = 1; i < SL_MOST_RANGES; i++) {
        sl_spread *const part = of_range(3L * i, 1);
        ck_assert_int_eq(sl_spread_add(sum, part, &error), i + 1 < SL_MOST_RANGES);
        sl_spread_free(part);
    }
    ck_assert_int_eq(sum->n_ranges, SL_MOST_RANGES - 1);
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    ck_assert_str_eq(error.wanted, "511 of them; merge neighbours first");
    sl_spread_free(sum);
}
END_TEST

/* Each thing by which two shards can differ, alone, with its own sentence. */
START_TEST(shards_that_differ_in_one_thing_are_refused_for_it)
{
    static const char *const said[] = {NULL,
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts are not of one scene",
                                       "these parts have different seeds",
                                       "these parts were told different things seen",
                                       "one part was stopped before its end",
                                       "two parts hold the same model runs"};
    for (int i = 0; i < (int)(sizeof said / sizeof said[0]); i++) {
        fresh();
        sl_spread *const sum = of_range(0, 10), *const part = of_range(i == 13 ? 9 : 10, 10);
        part->seconds += i == 1 ? 1 : 0;
        part->n_arms -= i == 2 ? 1 : 0;
        part->n_zones -= i == 3 ? 1 : 0;
        part->plan.n += i == 4 ? 1 : 0;
        part->plan.drawn[2].doubt = i == 5 ? SL_DOUBT_LOSS : part->plan.drawn[2].doubt;
        part->plan.drawn[2].dye += i == 6 ? 1 : 0;
        part->plan.drawn[2].grade = i == 7 ? SL_GRADE_FITTED : part->plan.drawn[2].grade;
        part->plan.drawn[2].spread += i == 8 ? 1e-12 : 0.0;
        part->arms[ARM_6].asked = i != 9;
        part->seed += i == 10 ? 1 : 0;
        part->seen.scale += i == 11 ? 1 : 0;
        part->stopped = i == 12;
        sl_error error = {0};
        ck_assert_msg(sl_spread_add(sum, part, &error) == (i == 0), "%d", i);
        if (i > 0) {
            ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
            ck_assert_str_eq(error.found, said[i]);
            ck_assert_int_eq(sum->members, 10);
        }
        part->n_arms = sum->n_arms; /* as it was made, so that all of it is freed */
        part->arms[ARM_6].asked = true;
        sl_spread_free(sum);
        sl_spread_free(part);
    }
}
END_TEST

static bool stop_at_once(void *self, long done, long all)
{
    (void)self;
    (void)done;
    (void)all;
    return false;
}

/* Sums of squares of an hour's seconds in 63 bits: 9.2e18 over 3600^2 are 7.098e11 members. */
START_TEST(so_many_members_that_their_sums_do_not_fit_are_refused)
{
    fresh();
    for (int over = 0; over < 2; over++) {
        sl_spread *spread = NULL;
        sl_error error = {0};
        const sl_spread_request request = {
            .members = over ? 709876543210 : 709876543209, .seed = 1, .threads = 1, .go_on = stop_at_once};
        ck_assert_int_eq(sl_spread_run(&spread, &small.scene, &request, &error), !over);
        ck_assert_int_eq(error.code, over ? SL_ERR_TOO_LARGE : SL_OK);
        ck_assert(over || (spread->stopped && spread->members == 16 && spread->n_ranges == 0));
        sl_spread_free(spread);
    }
}
END_TEST

/* An energy of a pigment's own is taken at the temperature of the contact (limits_of_members.h): under a wrap
 * that is 32 degrees, where every rate constant is what is written, so that it changes nothing; a wrap that
 * begins at 33 is another matter. */
START_TEST(an_energy_of_its_own_is_taken_at_the_contact)
{
    member_limits limits[2][2][LANES];
    for (int warmer = 0; warmer < 2; warmer++) {
        for (int own = 0; own < 2; own++) {
            fresh();
            small.scene.place = SL_PLACE_WRAPPED;
            small.scene.chemistry.head_c.value = 32.0 + warmer;
            sl_rates *const rates[] = {&small.dyes[1].rates, &small.dyes[2].rates, &small.dyes[3].rates,
                                       &small.scene.chemistry.melanin[SL_EUMELANIN].rates,
                                       &small.scene.chemistry.melanin[SL_PHEOMELANIN].rates};
            for (int i = 0; own && i < 5; i++) {
                for (int c = 0; c < SL_CHANNELS; c++) {
                    rates[i]->own_activation[c] = true;
                    rates[i]->activation_kj_mol[c] = 140.0;
                }
            }
            member_aims aims;
            int bad = -1;
            ck_assert(
                members_aims(&aims, &small.scene, ground_of(&small.scene), &asked.lanes, &history, &bad));
            ck_assert(
                members_limits(limits[warmer][own], &small.scene, ARM_6, &asked, &aims, &history, &bad));
            member_zone zone;
            member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[ARM_6], ZONE_RED,
                             &asked);
            const double factor =
                own && warmer ? exp(80.0 / 0.008314462618 * (1.0 / 305.15 - 1.0 / 306.15)) : 1.0;
            ck_assert_double_eq_tol(zone.dye_k[0][SL_PERSULFATE][3], factor * 0.032, 1e-9);
            ck_assert_double_eq_tol(zone.melanin_k[SL_EUMELANIN][SL_PERSULFATE][3], factor * 0.0826, 1e-9);
            ck_assert_double_eq_tol(zone.weight[0], 1.0, 1e-15);
        }
    }
    ck_assert_double_eq(limits[0][0][0].early_min, limits[0][1][0].early_min);
    ck_assert_double_eq(limits[0][0][0].late_min, limits[0][1][0].late_min);
    ck_assert_double_lt(limits[1][1][0].early_min, limits[1][0][0].early_min - 0.01);
}
END_TEST

/* A goal of what a rinse at the very end leaves is reached at the end; one of a bit less is not. */
START_TEST(a_goal_of_just_what_is_left_at_the_end_is_reached_at_the_end)
{
    double left = 0.0;
    for (int i = 0; i < 3; i++) {
        member_limits limits[LANES];
        member_aims aims;
        int bad = -1;
        fresh();
        small.scene.until_min = 120.0;
        small.scene.n_zones = ZONE_RED + 1; /* one zone with direct dye */
        small.scene.aims = (sl_aims){.colour_left = i == 0 ? 1e-9 : i == 1 ? left : left - 1e-15};
        ck_assert(members_aims(&aims, &small.scene, ground_of(&small.scene), &asked.lanes, &history, &bad));
        ck_assert(members_limits(limits, &small.scene, ARM_6, &asked, &aims, &history, &bad));
        if (i == 0) {
            left = limits[3].left_at_late;
            ck_assert(left > 0.0 && left <= 0.5); /* so that 1 less it is exact */
        }
        ck_assert_double_eq(limits[3].late_min, 120.0);
        ck_assert_int_eq(limits[3].early_reached, i == 1);
        ck_assert_int_eq(limits[3].last_zone, ZONE_RED);
        if (i == 1) {
            ck_assert_double_gt(limits[3].early_min, 119.9);
            ck_assert_double_le(limits[3].early_min, 120.0);
        }
    }
}
END_TEST

START_SUITE("spread")
ADD(a_lane_without_draws_is_the_course)
ADD(lanes_follow_a_loss_of_second_order)
ADD(lanes_follow_a_changing_temperature)
ADD(lanes_follow_fast_rates)
ADD(a_member_s_limits_are_those_of_its_own_scene_to_a_second)
ADD(so_are_those_of_goals_for_single_zones)
ADD(so_are_those_of_nearness_to_undyed_hair)
ADD(so_are_those_of_half_the_stress_of_another_arm)
ADD(so_are_those_of_two_kinds_of_hair_under_a_label)
ADD(so_are_those_of_a_longest_time_or_of_none)
ADD(threads_and_shards_do_not_change_a_count)
ADD(every_member_is_counted_once_in_every_histogram)
ADD(other_scenes_are_not_added_up)
ADD(a_stopped_run_says_that_it_is_partial)
ADD(a_member_out_of_range_is_named)
ADD(draws_are_uniform_and_do_not_follow_one_another)
ADD(first_order_indices_of_ishigami_are_the_published_ones)
ADD(first_order_indices_of_g_functions_are_those_in_closed_form)
ADD(weaker_grades_are_drawn_more_widely)
ADD(a_quantile_is_where_that_share_of_members_has_been_counted)
ADD(an_index_is_one_less_what_twenty_bins_show_by_chance)
ADD(an_index_needs_two_members)
ADD(a_member_is_counted_where_it_belongs)
ADD(a_share_is_counted_in_its_hundredth)
ADD(ranges_are_kept_in_order_and_joined_where_they_touch)
ADD(so_many_ranges_with_gaps_are_added_up_and_no_more)
ADD(shards_that_differ_in_one_thing_are_refused_for_it)
ADD(so_many_members_that_their_sums_do_not_fit_are_refused)
ADD(an_energy_of_its_own_is_taken_at_the_contact)
ADD(a_goal_of_just_what_is_left_at_the_end_is_reached_at_the_end)
END_SUITE
