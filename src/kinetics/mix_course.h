/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How warm an arm's mixes make themselves, in their bowls and on the hair: the heat balance of
 * docs/science.md, "Heat", solved once per arm with the scene's own numbers in the mean of its hair, and read
 * by every zone and every lane. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_MIX_COURSE_H
#define SLOWLIFT_KINETICS_MIX_COURSE_H

#include <stdint.h>

#include "kinetics/hermite.h"
#include "kinetics/states.h"

struct phase;

enum { MIX_MOST_NODES = 512, MIX_MOST_PIECES = 2 * SL_MAX_STEPS, MIX_MEMO = SL_MAX_ARMS };

/* A mix in its bowl, or on the hair until something else is done. */
typedef struct mix_piece {
    bool in_bowl;
    double contact_min; /* of that mix, since the arm's first */
    size_t first, end;  /* its nodes */
} mix_piece;

typedef struct mix_course {
    uint64_t key; /* of all that it was solved from; 0: of nothing */
    bool warms;   /* by SL_WARMS_FROM_K somewhere; else it counts as the place's temperature */
    bool left_on; /* known beyond the last application's planned end; else read no further */
    double solved_min, state[MIX_STATES]; /* of the last application: how far, and what is there then */
    sl_mix_warmth told;
    int n_pieces;
    mix_piece piece[MIX_MOST_PIECES];
    size_t n_nodes;
    double time_min[MIX_MOST_NODES]; /* since mixing; since the arm's first contact */
    double warmth_k[MIX_MOST_NODES], slope_k_min[MIX_MOST_NODES];
} mix_course;

/* The courses solved last, known again by what they were solved from, wherever that lies in memory. Zeroed
 * memory is an empty one. */
typedef struct mix_memo {
    int next;
    mix_course course[MIX_MEMO];
} mix_memo;

/* Of this arm: solved, or out of the memo. left_on: it will be read beyond the planned end of its last
 * application, as of hair that is rinsed later. solver: NULL makes one for it. Fails as sl_course_solve:
 * NULL. */
const mix_course *mix_course_of(mix_memo *memo, const sl_scene *scene, const sl_arm *arm, bool left_on,
                                sl_solver *solver, sl_error *error);
/* By how much a mix is warmer then than its place makes it, K; and the most until the end of this phase. mix:
 * NULL is a mix that does not warm itself. read: what was read last in this phase, which saves work; or NULL.
 */
double mix_course_warmth_k(const mix_course *mix, const struct phase *here, double since_contact_min,
                           hermite_piece *read);
double mix_course_most_k(const mix_course *mix, const struct phase *here);

#endif
