/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Randomised complete blocks: each arm once in every block, in an order of the block's own
 * (GSL's Mersenne Twister and shuffle, so that a seed gives the same order anywhere). With few
 * blocks chance often puts one arm early in all of them; such an order is drawn again.
 *
 * Invariant: the order depends on the seed, the blocks and the number of arms alone.
 */
#include "plan/order.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <string.h>

enum { TRIES = 200 };

/* No letter or digit that is taken for another when written by hand. */
static const char letters[] = "ACDEFHJKLMNPRTVWX";
static const char digits[] = "2345679";

static int third_of(int place, int n_arms)
{
    return 3 * place / n_arms;
}

static int place_of(const int *order, int n_arms, int arm)
{
    int place = 0;
    while (place < n_arms - 1 && order[place] != arm) {
        place++;
    }
    return place;
}

/* Some arm lies in the same outer third of every block. */
static bool is_clustered(const int *order, int blocks, int n_arms)
{
    for (int a = 0; a < n_arms && blocks > 1 && n_arms > 2; a++) {
        const int third = third_of(place_of(order, n_arms, a), n_arms);
        bool same = third != 1;
        for (int b = 1; b < blocks && same; b++) {
            same = third_of(place_of(order + b * n_arms, n_arms, a), n_arms) == third;
        }
        if (same) {
            return true;
        }
    }
    return false;
}

static void shuffle_blocks(gsl_rng *chance, int blocks, int n_arms, int *order)
{
    for (int b = 0; b < blocks; b++) {
        for (int a = 0; a < n_arms; a++) {
            order[b * n_arms + a] = a;
        }
        gsl_ran_shuffle(chance, order + b * n_arms, (size_t)n_arms, sizeof *order);
    }
}

static void draw_code(gsl_rng *chance, char code[SL_PLAN_CODE])
{
    code[0] = letters[gsl_rng_uniform_int(chance, sizeof letters - 1)];
    code[1] = letters[gsl_rng_uniform_int(chance, sizeof letters - 1)];
    code[2] = digits[gsl_rng_uniform_int(chance, sizeof digits - 1)];
    code[3] = '\0';
}

static void draw_codes(gsl_rng *chance, int n, char (*code)[SL_PLAN_CODE])
{
    for (int i = 0; i < n; i++) {
        bool taken = true;
        while (taken) { /* 2,023 codes for at most a few hundred swatches */
            draw_code(chance, code[i]);
            taken = false;
            for (int j = 0; j < i && !taken; j++) {
                taken = strcmp(code[i], code[j]) == 0;
            }
        }
    }
}

bool sl_order_draw(uint64_t seed, int blocks, int n_arms, int *arm, char (*code)[SL_PLAN_CODE],
                   bool *clustered, sl_error *error)
{
    gsl_rng *const chance = gsl_rng_alloc(gsl_rng_mt19937);
    if (!chance) {
        return sl_fail(error, SL_ERR_NO_MEMORY, "drawing an order", "");
    }
    gsl_rng_set(chance, (unsigned long)(seed ^ (seed >> 32)));
    *clustered = true;
    for (int i = 0; i < TRIES && *clustered; i++) {
        shuffle_blocks(chance, blocks, n_arms, arm);
        *clustered = is_clustered(arm, blocks, n_arms);
    }
    draw_codes(chance, blocks * n_arms, code);
    gsl_rng_free(chance);
    return true;
}
