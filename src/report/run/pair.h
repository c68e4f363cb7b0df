/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An arm before and after a change, as text, CSV and JSON. Invariant: no minute, and no share that goes
 * with a planned one, is written where either scene counts as a head (leave.h): directions, and what
 * base and hair have paid at the goal, stay.
 */
#ifndef SLOWLIFT_REPORT_PAIR_H
#define SLOWLIFT_REPORT_PAIR_H

#include <stdio.h>

#include "slowlift/what_if.h"

/* What base and hair have paid at the moment when every direct zone is at the goal. */
typedef struct sl_at_goal {
    bool reached; /* false: it is not, or the scene sets no goal */
    double base_moved, cystine_lost;
} sl_at_goal;

typedef struct sl_pair {
    const sl_scene *scene;
    int arm;
    const sl_changes *changes; /* none with rounds */
    int rounds;                /* 0: `after` is with the changes; else it is so many fresh rounds */
    double round_min;          /*   of this, and `before` is one of as long as all of them */
    sl_outcome before, after;
    sl_at_goal before_at_goal, after_at_goal;
} sl_pair;

/* Of arm 0 of the scene that was solved, with its outcome's limits. */
sl_at_goal sl_at_goal_of(const sl_timeline *timeline, const sl_limits *limits);

bool sl_pair_text(FILE *out, const sl_pair *pair, int width);
bool sl_pair_csv(FILE *out, const sl_pair *pair); /* zone,quantity,before,after,lies_for */
bool sl_pair_json(FILE *out, const sl_pair *pair);

#endif
