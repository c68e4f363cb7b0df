/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift rank` was asked for and what it takes to answer, for the program that writes
 * and for the one that draws. Invariant: scenes that do not lie on the bench are refused.
 */
#ifndef SLOWLIFT_FRONT_RANK_WORK_H
#define SLOWLIFT_FRONT_RANK_WORK_H

#include "front/work/ensemble.h"
#include "slowlift/compare.h"
#include "slowlift/rank.h"

typedef struct sl_rank_work {
    const char *file, *zone_word, *surprise, *spread_from;
    bool science, by_instrument;
    int swatches;
    double spread; /* -1: assumed, or as spread_from shows */
    sl_scatter scatter;
    sl_draws draws;
    sl_result_wish result;
    sl_rank_request request;
    int zone; /* -1: every zone with a direct dye */
    sl_scene *scene;
    sl_solver *solver;
    sl_timeline *timeline;
    sl_rank *rank;
    sl_surprise *asked; /* NULL: nothing was asked */
} sl_rank_work;         /* start with {0} */

extern const sl_command_line sl_rank_typed;
bool sl_rank_work_read(sl_rank_work *work, int argc, char **argv, sl_error *error);
bool sl_rank_work_compute(sl_rank_work *work, sl_error *error);
void sl_rank_work_free(sl_rank_work *work);

#endif
