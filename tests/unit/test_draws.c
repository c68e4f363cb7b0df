/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How wide a grade is drawn: sl_grade_factor promises that 95 of 100 draws lie within the value
 * times and over the factor.
 */
#include <math.h>
#include <string.h>

#include "estimate/members.h"
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

static const double *place_of(const lane_members *m, int grade)
{
    const double *const places[SL_GRADE_COUNT] = {m->peroxide_entry, m->persulfate_entry, m->partition,
                                                  m->saturation,     m->couple,           m->opening};
    return places[grade];
}

START_TEST(ninety_five_of_a_hundred_draws_lie_within_the_grade_s_factor)
{
    static drawn_members drawn;
    tally of_grade[SL_GRADE_COUNT] = {{0}};
    tally of_ph = {0};
    tally of_warmth = {0};
    sl_draw_plan plan = {.n = SL_GRADE_COUNT + 2};
    for (int g = 0; g < SL_GRADE_COUNT; g++) {
        plan.drawn[g] = (sl_drawn){factors[g], -1, sl_grade_factor((sl_grade)g), (sl_grade)g};
    }
    plan.drawn[SL_GRADE_COUNT] = (sl_drawn){SL_DOUBT_PH, -1, 0.3, SL_GRADE_ASSUMED};
    plan.drawn[SL_GRADE_COUNT + 1] = (sl_drawn){SL_DOUBT_WARMTH, -1, 2.0, SL_GRADE_ASSUMED};
    for (long block = 0; block < BLOCKS; block++) {
        members_draw(&drawn, &plan, 2026, block * LANES);
        for (int l = 0; l < LANES; l++) {
            for (int g = 0; g < SL_GRADE_COUNT; g++) {
                count(&of_grade[g], log(place_of(&drawn.lanes, g)[l]), log(sl_grade_factor((sl_grade)g)));
            }
            count(&of_ph, drawn.lanes.ph_shift[l], 0.3);
            count(&of_warmth, drawn.lanes.warmth_k[l], 2.0);
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
        const bool own_width = what->doubt == SL_DOUBT_PH || what->doubt == SL_DOUBT_WARMTH ||
                               what->doubt == SL_DOUBT_GRAMS; /* read off an instrument in the room */
        if (what->grade == SL_GRADE_ASSUMED && !own_width) {
            ck_assert_double_ge(what->spread, 3.0);
            assumed++;
        }
    }
    ck_assert_int_gt(assumed, 1);
}
END_TEST

/* Radical flux meets dye, melanin and cystine in one draw; a dye's channels move together. */
START_TEST(what_is_one_quantity_in_nature_is_one_draw)
{
    static drawn_members drawn;
    small_scene small;
    small_scene_fill(&small);
    const sl_draw_plan plan = {.n = 1, .drawn = {{SL_DOUBT_RADICAL, -1, 3.0, SL_GRADE_ASSUMED}}};
    members_draw(&drawn, &plan, 7, 0);
    for (int l = 0; l < LANES; l++) {
        const double by = drawn.pigments.radical[l];
        ck_assert_double_ne(by, 1.0);
        ck_assert_double_eq(drawn.lanes.cystine[SL_RADICAL][l], by);
        ck_assert_double_eq(drawn.pigments.melanin[SL_RADICAL][l], by);
        ck_assert_double_eq(drawn.lanes.cystine[SL_PERHYDROXYL][l], 1.0);
        ck_assert_double_eq(drawn.pigments.melanin[SL_PERSULFATE][l], 1.0);
    }
}
END_TEST

START_SUITE("draws")
ADD(ninety_five_of_a_hundred_draws_lie_within_the_grade_s_factor)
ADD(an_assumed_number_is_drawn_at_least_a_factor_of_three_either_way)
ADD(what_is_one_quantity_in_nature_is_one_draw)
END_SUITE
