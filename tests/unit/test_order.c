/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The order of arms in blocks, shuffle by shuffle, and the codes of swatches.
 */
#include "plan/order.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <string.h>

#include "suite.h"

/* The same shuffles by hand: the order that is drawn is the first in which no arm lies in the same outer
 * third of both blocks, of 200 at most; else the last. Returns which draw the first is; `most`: none of so
 * many. */
static int order_is_by_hand(uint64_t seed, int n_arms, int most)
{
    enum { MOST_ARMS = 16, BLOCKS = 2 };
    gsl_rng *const chance = gsl_rng_alloc(gsl_rng_mt19937);
    int order[BLOCKS * MOST_ARMS], wanted[BLOCKS * MOST_ARMS], got[BLOCKS * MOST_ARMS];
    char code[BLOCKS * MOST_ARMS][SL_PLAN_CODE];
    int draw = 0;
    bool good = false, clustered = false;
    gsl_rng_set(chance, (unsigned long)seed);
    while (!good && draw < most) {
        int third[BLOCKS][MOST_ARMS];
        for (int b = 0; b < BLOCKS; b++) {
            for (int a = 0; a < n_arms; a++) {
                order[b * n_arms + a] = a;
            }
            gsl_ran_shuffle(chance, order + b * n_arms, (size_t)n_arms, sizeof *order);
            for (int place = 0; place < n_arms; place++) {
                third[b][order[b * n_arms + place]] = 3 * place / n_arms;
            }
        }
        good = true;
        for (int a = 0; a < n_arms; a++) {
            good = good && (third[0][a] == 1 || third[0][a] != third[1][a]);
        }
        draw++;
        if (draw <= 200) {
            memcpy(wanted, order, sizeof wanted);
        }
    }
    ck_assert(sl_order_draw(seed, BLOCKS, n_arms, got, code, &clustered, NULL));
    ck_assert_int_eq(clustered, draw > 200);
    ck_assert_mem_eq(got, wanted, (size_t)(BLOCKS * n_arms) * sizeof *got);
    gsl_rng_free(chance);
    return draw;
}

/* docs/science.md, "A fair plan": drawn again, 200 times at most. Of these seeds one is good at the two
 * hundredth, one would be at the two hundred and first, one is not within 400. */
START_TEST(an_order_is_drawn_two_hundred_times_and_no_oftener)
{
    ck_assert_int_eq(order_is_by_hand(13, 16, 400), 200);
    ck_assert_int_eq(order_is_by_hand(177, 16, 400), 201);
    ck_assert_int_eq(order_is_by_hand(2, 16, 400), 400);
}
END_TEST

START_TEST(few_arms_are_spread_over_the_thirds_too)
{
    for (int n_arms = 3; n_arms <= 8; n_arms++) {
        for (uint64_t seed = 0; seed < 40; seed++) {
            order_is_by_hand(seed, n_arms, 400);
        }
    }
}
END_TEST

/* Two arms, or one block, cannot be spread: whatever comes first is taken. */
START_TEST(what_cannot_be_spread_is_not_called_clustered)
{
    static const int blocks[] = {1, 4, 1}, n_arms[] = {5, 2, 1};
    for (int i = 0; i < 3; i++) {
        for (uint64_t seed = 0; seed < 50; seed++) {
            int order[8];
            char code[8][SL_PLAN_CODE];
            bool clustered = true;
            ck_assert(sl_order_draw(seed, blocks[i], n_arms[i], order, code, &clustered, NULL));
            ck_assert(!clustered);
        }
    }
}
END_TEST

/* Two letters and a digit, none of which is taken for another; no code comes twice, whatever the seed's
 * halves. */
START_TEST(codes_are_of_clear_letters_and_all_different)
{
    enum { ARMS = 64, BLOCKS = 12 };
    static int order[ARMS * BLOCKS], other[ARMS * BLOCKS];
    static char code[ARMS * BLOCKS][SL_PLAN_CODE], codes[ARMS * BLOCKS][SL_PLAN_CODE];
    bool used[128] = {false}, clustered = false;
    ck_assert(sl_order_draw(7, BLOCKS, ARMS, order, code, &clustered, NULL));
    for (int i = 0; i < ARMS * BLOCKS; i++) {
        ck_assert_int_eq(code[i][3], 0);
        for (int c = 0; c < 3; c++) {
            ck_assert_ptr_nonnull(strchr(c < 2 ? "ACDEFHJKLMNPRTVWX" : "2345679", code[i][c]));
            ck_assert_int_ne(code[i][c], 0);
            used[(int)code[i][c]] = true;
        }
        for (int k = 0; k < i; k++) {
            ck_assert_str_ne(code[i], code[k]);
        }
    }
    for (const char *c = "ACDEFHJKLMNPRTVWX2345679"; *c; c++) {
        ck_assert_msg(used[(int)*c], "%c is never used", *c);
    }
    /* both halves of a seed count, and one seed is one order */
    ck_assert(sl_order_draw(7 + (UINT64_C(1) << 40), BLOCKS, ARMS, other, codes, &clustered, NULL));
    ck_assert_mem_ne(order, other, sizeof order);
    ck_assert(sl_order_draw(7, BLOCKS, ARMS, other, codes, &clustered, NULL));
    ck_assert_mem_eq(order, other, sizeof order);
    ck_assert_mem_eq(code, codes, sizeof code);
}
END_TEST

START_SUITE("order")
ADD(an_order_is_drawn_two_hundred_times_and_no_oftener)
ADD(few_arms_are_spread_over_the_thirds_too)
ADD(what_cannot_be_spread_is_not_called_clustered)
ADD(codes_are_of_clear_letters_and_all_different)
END_SUITE
