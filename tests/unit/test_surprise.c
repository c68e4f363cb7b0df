/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/surprise.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "estimate/members.h"
#include "ground.h"
#include "slowlift/promise.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;

static sl_seeing seeing_of(int one, int other, bool read, double scatter)
{
    return (sl_seeing){{one, other}, read, SL_JUDGE_USUAL, 1, {scatter}, {1.0}};
}

static const sl_surprise_request usual = {
    .zone = ZONE_RED,
    .one = ARM_6,
    .other = ARM_3,
    .minute = {15.0, 15.0},
    .members = 100,
    .seed = 7,
    .threads = 1,
    .seeing = {.swatches = {1, 1}, .read = true, .n_scatters = 1, .chance = {1.0}}};

static sl_surprise *surprise_of(sl_surprise_request request)
{
    sl_surprise *surprise = NULL;
    ck_assert(sl_surprise_run(&surprise, &small.scene, &request, NULL));
    return surprise;
}

/* ---- one member -----------------------------------------------------------------------------------------
 */

/* A difference of two normal means is normal: Phi((b - a) / (s sqrt(1/n + 1/m))); scipy 1.10, stats.norm. */
START_TEST(what_an_instrument_reads_is_not_a_normal_difference)
{
    static const struct {
        int n, m;
        double one, other, scatter, chance;
    } cases[] = {{1, 1, 0.5, 0.5, 0.05, 0.5},
                 {1, 1, 0.47, 0.26, 0.05, 0.001489733},
                 {2, 5, 0.30, 0.35, 0.10, 0.724951341},
                 {1, 1, 0.02, 0.0, 0.05, 0.388648705}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_seeing seeing = seeing_of(cases[i].n, cases[i].m, true, cases[i].scatter);
        ck_assert_double_eq_tol(sl_seeing_chance(&seeing, cases[i].one, cases[i].other), cases[i].chance,
                                1e-9);
    }
    const sl_seeing none = seeing_of(1, 1, true, 0.0);
    ck_assert_double_eq(sl_seeing_chance(&none, 0.3, 0.4), 1.0);
    ck_assert_double_eq(sl_seeing_chance(&none, 0.4, 0.4), 0.0);
}
END_TEST

/* By scipy 1.10: the judge of docs/science.md written anew, integrated over the swatch by quad, sums of
 * grades counted as multinomials. */
START_TEST(what_a_judge_grades_is_not_what_an_independent_count_has)
{
    static const struct {
        int n, m;
        double one, other, scatter, chance;
    } cases[] = {{1, 1, 0.50, 0.50, 0.05, 0.2680586}, {1, 1, 0.47, 0.26, 0.05, 0.0607033},
                 {3, 3, 0.47, 0.26, 0.05, 0.0345557}, {2, 5, 0.30, 0.35, 0.10, 0.6374784},
                 {1, 1, 0.02, 0.00, 0.05, 0.1951921}, {4, 4, 0.90, 0.60, 0.00, 0.0193770}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_seeing seeing = seeing_of(cases[i].n, cases[i].m, false, cases[i].scatter);
        ck_assert_double_eq_tol(sl_seeing_chance(&seeing, cases[i].one, cases[i].other), cases[i].chance,
                                2e-5);
    }
    static const double sd[][4] = {{0.5, 0.05, 1.0, 0.1765976}, /* left, scatter, looks */
                                   {0.5, 0.00, 2.0, 0.1193651},
                                   {0.2, 0.10, 3.0, 0.1163589}};
    for (size_t i = 0; i < sizeof sd / sizeof sd[0]; i++) {
        ck_assert_double_eq_tol(sl_graded_sd(&SL_JUDGE_USUAL, sd[i][0], sd[i][1], sd[i][2]), sd[i][3], 2e-5);
    }
}
END_TEST

/* One is lower, the other is, or both are seen alike: with the sides exchanged the two chances sum to 1, less
 * that of grades that are alike. */
START_TEST(two_sides_are_both_seen_lower)
{
    const sl_seeing here = seeing_of(3, 2, false, 0.08), there = seeing_of(2, 3, false, 0.08);
    const double lower = sl_seeing_chance(&here, 0.4, 0.5), higher = sl_seeing_chance(&there, 0.5, 0.4);
    ck_assert_double_gt(lower, higher);
    ck_assert_double_lt(lower + higher, 1.0);
    ck_assert_double_gt(lower + higher, 0.8);
}
END_TEST

START_TEST(the_words_begin_elsewhere_than_the_page_says)
{
    ck_assert_int_eq(sl_oddity_of(0.5), SL_ODD_NOISE);
    ck_assert_int_eq(sl_oddity_of(0.1), SL_ODD_NOISE);
    ck_assert_int_eq(sl_oddity_of(0.0999), SL_ODD_RARE);
    ck_assert_int_eq(sl_oddity_of(0.02), SL_ODD_RARE);
    ck_assert_int_eq(sl_oddity_of(0.0199), SL_ODD_LACKS);
    ck_assert_int_eq(sl_oddity_of(0.0), SL_ODD_LACKS);
    const sl_seeing one = sl_seeing_usual(3, true);
    ck_assert_double_eq(one.scatter[0], SL_SWATCH_SPREAD);
    ck_assert_int_eq(one.swatches[0] + one.swatches[1], 6);
}
END_TEST

/* ---- an ensemble ----------------------------------------------------------------------------------------
 */

/* Each member read here by itself, and its chance by the normal curve. */
START_TEST(a_surprise_is_not_the_mean_over_what_each_member_reads)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    static drawn_members drawn;
    static lane_history history;
    sl_surprise_request request = usual;
    request.zone = ZONE_VIOLET;
    request.minute[1] = 11.0;
    request.seeing = seeing_of(1, 1, true, 0.05);
    sl_surprise *const surprise = surprise_of(request);
    const int arms[2] = {request.one, request.other};
    double sum = 0.0, in_bin[SL_MOST_DRAWN][SL_INDEX_BINS] = {{0.0}};
    long shown = 0;
    for (long first = 0; first < request.members; first += LANES) {
        double left[2][LANES];
        members_draw(&drawn, &surprise->plan, request.seed, first);
        for (int a = 0; a < 2; a++) {
            int bad = 0;
            member_zone zone;
            ck_assert(lanes_run_rinsed(&history, &small.scene, &small.arms[arms[a]], 1.5, 0.85, &drawn.lanes,
                                       &bad));
            member_zone_make(&zone, ground_of(&small.scene), &small.scene, &small.arms[arms[a]], ZONE_VIOLET,
                             &drawn);
            for (int l = 0; l < LANES; l++) {
                left[a][l] = member_read(&zone, &history, l, request.minute[a]).left;
            }
        }
        for (int l = 0; l < LANES && first + l < request.members; l++) {
            const double seen = gsl_cdf_ugaussian_P((left[1][l] - left[0][l]) / (0.05 * sqrt(2.0)));
            sum += seen;
            shown += left[0][l] < left[1][l] ? 1 : 0;
            for (int d = 0; d < surprise->plan.n; d++) {
                in_bin[d][(int)floor(SL_INDEX_BINS * sl_draw(request.seed, first + l, d))] += seen;
            }
        }
    }
    ck_assert_int_eq(surprise->members, request.members);
    ck_assert_int_eq(surprise->shown, shown);
    ck_assert_double_eq_tol(sl_surprise_chance(surprise), sum / (double)request.members, 1e-8);
    for (int d = 0; d < surprise->plan.n; d++) {
        long members = 0;
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            members += surprise->in_bin[d][b];
            ck_assert_double_eq_tol((double)surprise->seen_in_bin[d][b] / (double)SL_SEEN_SURELY,
                                    in_bin[d][b], 1e-6);
        }
        ck_assert_int_eq(members, request.members);
    }
    for (request.threads = 2; request.threads <= 8; request.threads *= 4) {
        sl_surprise *const more = surprise_of(request);
        more->asked.threads = 1;
        ck_assert_int_eq(
            memcmp(&more->members, &surprise->members, sizeof *more - offsetof(sl_surprise, members)), 0);
        sl_surprise_free(more);
    }
    sl_surprise_free(surprise);
}
END_TEST

START_TEST(a_surprise_is_asked_of_strips_that_are_not_ranked)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    static const struct {
        int zone, one, other;
        bool good;
    } cases[] = {{ZONE_RED, ARM_6, ARM_3, true},       {ZONE_RED, ARM_UNTREATED, ARM_3, false},
                 {ZONE_RED, ARM_6, ARM_UNDYED, false}, {ZONE_RED, ARM_REDUCING, ARM_6, false},
                 {ZONE_ROOT, ARM_6, ARM_3, false},     {ZONE_UNDYED, ARM_6, ARM_3, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_surprise_request request = usual;
        request.members = 16;
        request.threads = 3; /* all that was made for them goes back too */
        request.zone = cases[i].zone;
        request.one = cases[i].one;
        request.other = cases[i].other;
        sl_error error = {0};
        sl_surprise *surprise = NULL;
        ck_assert_int_eq(sl_surprise_run(&surprise, &small.scene, &request, &error), cases[i].good);
        ck_assert_int_eq(surprise != NULL, cases[i].good);
        ck_assert_int_eq(error.code, cases[i].good ? SL_OK : SL_ERR_USAGE);
        ck_assert_str_eq(error.found,
                         cases[i].good ? "" : "one of the two strips has no mix or no direct dye there");
        sl_surprise_free(surprise);
    }
    small.scene.room_c = 31.0; /* a head */
    ck_assert(!sl_surprise_run(&(sl_surprise *){NULL}, &small.scene, &usual, NULL));
    small.scene.room_c = 24.0;
    small.scene.chemistry.couple_l_mol_min.value = 1e9; /* no step is short enough */
    sl_error error = {0};
    ck_assert(!sl_surprise_run(&(sl_surprise *){NULL}, &small.scene, &usual, &error));
    ck_assert_int_eq(error.code, SL_ERR_NOT_FINITE);
}
END_TEST

/* Strips of one mix: no member has less left, and a swatch of the one is seen lower in half of all tests. */
START_TEST(identical_strips_are_surprising)
{
    small_scene_fill(&small);
    small.scene.room_c = 24.0; /* warmer hair counts as a head */
    small.arms[ARM_3] = small.arms[ARM_6];
    sl_surprise_request request = usual;
    request.seeing = sl_seeing_usual(1, true);
    sl_surprise *const surprise = surprise_of(request);
    ck_assert_int_eq(surprise->shown, 0);
    ck_assert_double_eq_tol(sl_surprise_chance(surprise), 0.5, 1e-9);
    sl_surprise_free(surprise);
}
END_TEST

/* A yes that hangs on one draw alone has index 1 there and 0 elsewhere. */
START_TEST(the_index_of_a_surprise_names_its_draw)
{
    sl_surprise surprise = {.members = 20000, .seen = 10000 * SL_SEEN_SURELY};
    for (int b = 0; b < SL_INDEX_BINS; b++) {
        surprise.in_bin[0][b] = surprise.in_bin[1][b] = 1000;
        surprise.seen_in_bin[0][b] = b < SL_INDEX_BINS / 2 ? 1000 * SL_SEEN_SURELY : 0;
        surprise.seen_in_bin[1][b] = 500 * SL_SEEN_SURELY;
    }
    /* 1 less what 20 bins of 20,000 members show by chance, 19/20000 */
    ck_assert_double_eq_tol(sl_surprise_index(&surprise, 0), 1.0 - 19.0 / 20000.0, 1e-12);
    ck_assert_double_eq(sl_surprise_index(&surprise, 1), 0.0);
}
END_TEST

/* Ten of a hundred yes, hanging wholly on one draw, and not at all: q (1 - q) is 0.09. */
START_TEST(the_index_of_a_rare_surprise_is_of_its_own_variance)
{
    sl_surprise surprise = {.members = 2000, .seen = 200 * SL_SEEN_SURELY};
    for (int b = 0; b < SL_INDEX_BINS; b++) {
        surprise.in_bin[0][b] = surprise.in_bin[1][b] = 100;
        surprise.seen_in_bin[0][b] = b < 2 ? 100 * SL_SEEN_SURELY : 0;
        surprise.seen_in_bin[1][b] = b < 4 ? 50 * SL_SEEN_SURELY : 0;
    }
    ck_assert_double_eq_tol(sl_surprise_index(&surprise, 0), 1.0 - 19.0 / 2000.0, 1e-12);
    /* between: 4/20 of (0.5 - 0.1)^2 and 16/20 of 0.1^2 are 0.04 */
    ck_assert_double_eq_tol(sl_surprise_index(&surprise, 1), 0.04 / 0.09 - 19.0 / 2000.0, 1e-12);
    surprise.seen = 2000 * SL_SEEN_SURELY;
    ck_assert_double_eq(sl_surprise_index(&surprise, 0), 0.0); /* always: nothing hangs on anything */
    surprise.members = surprise.seen = 0;
    ck_assert_double_eq(sl_surprise_index(&surprise, 0), 0.0);
}
END_TEST

START_TEST(no_surprise_is_made_of_members_that_were_not_asked)
{
    const sl_surprise none = {.members = 0};
    ck_assert_double_eq(sl_surprise_index(&none, 0), 0.0);
    ck_assert_double_eq(sl_surprise_chance(&none), 0.0);
}
END_TEST

START_SUITE("surprise")
ADD(what_an_instrument_reads_is_not_a_normal_difference)
ADD(what_a_judge_grades_is_not_what_an_independent_count_has)
ADD(two_sides_are_both_seen_lower)
ADD(the_words_begin_elsewhere_than_the_page_says)
CASE("members")
ADD(a_surprise_is_not_the_mean_over_what_each_member_reads)
ADD(a_surprise_is_asked_of_strips_that_are_not_ranked)
ADD(identical_strips_are_surprising)
ADD(the_index_of_a_surprise_names_its_draw)
ADD(the_index_of_a_rare_surprise_is_of_its_own_variance)
ADD(no_surprise_is_made_of_members_that_were_not_asked)
END_SUITE
