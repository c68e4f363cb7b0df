/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ordered words beside a published example: nine judges (rounds) rated the bitterness of wine, twice for each
 * of four ways of pressing it (strips), from 1 to 5. Ratings: Randall 1989, Biometrical Journal 31, 781-793,
 * as in R's package ordinal (data "wine"). Printed there by Christensen (2022, "Cumulative link models for
 * ordinal regression", clmm with ten nodes): warm 3.0619, standard error 0.5951, contact 1.8334, 0.5122, on
 * all 72. A pair of ways has half of them: z of about 3.6 for warm, to be told of six pairs, and 2.5 for
 * contact, too little for that. Nothing may be told against the printed order.
 */
#include "log/compare/hair_seen.h"
#include "unit/suite.h"

enum { JUDGES = 9 };

/* [judge][cold, contact, warm, both][bottle] */
static const int rating[JUDGES][4][2] = {
    {{2, 3}, {3, 4}, {4, 4}, {5, 5}}, {{1, 2}, {1, 3}, {2, 3}, {5, 4}}, {{2, 3}, {3, 2}, {5, 5}, {4, 4}},
    {{3, 2}, {3, 2}, {3, 2}, {5, 3}}, {{2, 3}, {4, 3}, {3, 3}, {3, 3}}, {{3, 2}, {3, 2}, {2, 4}, {5, 4}},
    {{1, 1}, {2, 2}, {2, 3}, {2, 3}}, {{2, 2}, {2, 3}, {3, 3}, {3, 4}}, {{1, 2}, {3, 2}, {3, 2}, {4, 4}}};

START_TEST(words_are_ordered_otherwise_than_was_printed)
{
    enum { N = 4 };
    static const double printed[N] = {0.0, 1.8334, 3.0619, 1.8334 + 3.0619};
    sl_block_value value[JUDGES * N * 2];
    sl_comparison room[N * N];
    sl_blocks blocks;
    int counted[N][SL_HAIR_WORDS] = {{0}}, n = 0;
    bool before[N * N];
    for (int i = 0; i < JUDGES * N * 2; i++) {
        const int word = rating[i / (N * 2)][i / 2 % N][i % 2] - 1;
        value[n++] = (sl_block_value){i / 2 % N, i / (N * 2), word};
        counted[i / 2 % N][word]++;
    }
    sl_hair_blocks(&blocks, SL_HAIR_FEEL, value, n, N);
    sl_before_together(&blocks, 1, room, before);
    for (int i = 0; i < N * N; i++) {
        const int one = i / N, other = i % N;
        const bool by_warm = one + 2 == other || (one == 0 && other == 3);
        const bool held = before[i] && sl_said_before(counted[one], counted[other], SL_HAIR_WORDS);
        ck_assert_int_eq(blocks.mean[one] < blocks.mean[other], printed[one] < printed[other]);
        ck_assert_msg(held || !by_warm, "%d, %d", one, other);
        ck_assert_msg(!held || printed[one] < printed[other], "%d, %d", one, other);
    }
}
END_TEST

START_SUITE("words in blocks")
ADD(words_are_ordered_otherwise_than_was_printed)
END_SUITE
